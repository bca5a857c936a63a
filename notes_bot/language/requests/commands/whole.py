"""One line read as a request: rule after rule, the surest first."""

from __future__ import annotations

from collections.abc import Callable

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.requests import (
    amends,
    asking,
    inquiring,
    left_off,
    looking,
    misplaced,
    put_beside,
    registering,
    second_names,
    seeds,
    states,
    telling,
    winter,
    wishes,
)
from notes_bot.language.requests.commands import (
    heat,
    held,
    helping,
    known_fields,
    new_fields,
    own,
    rain,
    rain_at,
    reminders,
    skies,
    standing,
    undoing,
    weather,
)
from notes_bot.language.requests.commands.cutting import content_of, sentences_of
from notes_bot.language.requests.commands.line import BEGINS, LONGEST_NAME, Line
from notes_bot.language.requests.commands.named import just_asked, name_first
from notes_bot.language.requests.commands.requested import requested
from notes_bot.language.requests.corrections import correction
from notes_bot.language.requests.no_correction import plainly_noted

FIRST: dict[str, Callable[[Line], bool]] = {
    "TRIAL": looking.trial,
    "HOW_MANY": looking.how_many,
    "ASK_LOOK": looking.told,
    "HELP": helping.asked_help,
    "UNDO": undoing.undo,
    "ADD": new_fields.add,
    "RENAME": known_fields.rename,
    "HISTORY": standing.history,
    "STATE": standing.state,
    "PICTURE": standing.picture,
    "DUE": standing.due,
    "MUTE": reminders.mute,
    "RESUME": reminders.resume,
    "DIGEST": standing.digest,
    "SKIP": reminders.skip,
    "LANGUAGE": own.language,
    "LANGUAGE_NAME": own.language,
    "MOVE": reminders.move,
    "RELEASE": held.release,
    "REFUSE": held.refuse,
    "WEATHER": weather.weather,
    "PLACE": own.place,
}
"""First words and what reads the line. In order."""


def read_line(line: Line) -> bool:
    """Read the line as a command; false when it is none."""
    if len(sentences_of(line.ps)) != 1:
        return _by_rules(line)
    return wishes.settled(line, lambda: _by_rules(line), beside=_among_others(line))


def _among_others(line: Line) -> bool:
    """ "All of it today's, in order of how bad" above notes: does the message tell more?"""
    others = (line.context.text[: line.start] + line.context.text[line.end :]).strip()
    return len(others) > asking.MOST_ASIDE


def _by_rules(line: Line) -> bool:
    """Read the line as a command by the rules."""
    noted = plainly_noted(line) or _asks_then(line)
    if reminders.cannot_then(line) or amends.planting_put_right(line) or amends.sent_late(line):
        return True
    if seeds.seed_put_right(line):
        return True
    if amends.value_wrong(line) or put_beside.share_turned(line) or amends.added_count(line) or left_off.left_off(line):
        return True
    if not noted and put_beside.put_beside(line):
        return True
    first = line.ps[0].types
    if line.made.has("timid_history", line.ps[0].text) and not line.asked:
        return False  # "last time at kestrel i guess"
    if "FIELD" in first and len(line.ps) == 1:
        return line.asked and line.emit("state", field=line.name(0))
    if (
        _left_or_back(line)
        or reminders.reminded_then(line)
        or reminders.wanted_skipped(line)
        or winter.take(line)
        or inquiring.inquired(line)
        or second_names.second_named(line)
        or registering.aliased(line)
        or amends.only_wrong(line)
        or amends.day_noted(line)
        or asking.silenced_until(line)
        or asking.all_left_out(line)
        or (sum("FIELD" in p.types for p in line.ps) > 1 and misplaced.misplaced(line))
        or (len(line.ps) > 1 and asking.surely(line))
        or standing.asked_what_was(line)
        or standing.asked_what_was_written(line)
    ):
        return True
    if (
        states.lies_in_state(line)
        or telling.size_denied(line)
        or registering.registered(line)
        or registering.renamed(line)
        or skies.reported(line)
        or rain_at.fell_at(line)
        or heat.was_hot(line)
    ):
        return True
    if misplaced.misplaced(line) or seeds.seeded(line):
        return True
    if "CORRECT" in first and line.has(1, "UNDO") and undoing.undo(Line(line.context, line.ps[1:])):
        return True  # "oops undo"
    if any(kind in first and read(line) for kind, read in FIRST.items()):
        return True
    right = not noted and (
        correction(line.context, line.ps) or amends.amended(line) or put_beside.put_beside(line, lone=True)
    )
    return (
        right
        or looking.more_of_trial(line)
        or looking.told(line)
        or new_fields.added_behind(line)
        or name_first(line)
        or just_asked(line)
        or requested(line)
        or helping.wondered(line)
        or rain.rained(line)
        or heat.warmed(line)
        or own.language_wanted(line)
        or known_fields.renamed(line)
        or known_fields.told_where(line)
        or known_fields.sized(line)
        or standing.asked_of_field(line)
        or telling.told(line)
        or asking.asked(line)
        or put_beside.one_for_another(line)
    )


def _asks_then(line: Line) -> bool:
    """ "Yes it was. Push Tallow to Thursday": is a later sentence a request of its own, with its field?"""
    later = [content_of(sentence) for sentence in sentences_of(line.ps)[1:]]
    return any(
        part
        and is_any(part[0], BEGINS)
        and not is_any(part[0], ("FIELD", "LINK"))
        and any("FIELD" in p.types for p in part[1:LONGEST_NAME])
        for part in later
    )


def _left_or_back(line: Line) -> bool:
    """A whole message that is "stop" or "start", as with any number that sends texts."""
    if line.context.text.strip(" .!\n") != line.context.text[line.start : line.end]:
        return False
    said = " ".join(piece.text for piece in line.ps)
    if line.made.has("lone_start", said):
        return line.emit("resume")
    return line.made.has("lone_stop", said) and line.emit("mute")
