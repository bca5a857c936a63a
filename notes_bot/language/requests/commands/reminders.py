"""Reminders stopped, started, put off and skipped."""

from __future__ import annotations

from itertools import pairwise

from notes_bot.language.lexicon.days import UNIT_DAYS, coming_day
from notes_bot.language.lexicon.joining import day_words, is_any, linking, number_words, stage_words, until_days
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.scan import clean, scan
from notes_bot.language.lexicon.words import Table, anywhere, is_field_word
from notes_bot.language.names.naming import joints
from notes_bot.language.requests import amends, asking
from notes_bot.language.requests.commands.cutting import sentences_of
from notes_bot.language.requests.commands.line import Line
from notes_bot.language.requests.commands.named import about
from notes_bot.language.requests.commands.own import language


def mute(line: Line) -> bool:
    """mute; mute kestrel; mute all."""
    if line.made.has("lone_mute", line.ps[0].text) and len(line.ps) > 1:
        if len(line.ps) == 2 and is_any(line.ps[1], ("FIELD",)):
            return line.emit("mute", field=line.name(1))
        return False  # "stop 1: kestrel .."
    if line.ps[0].types["MUTE"].value == "season":
        return len(line.ps) == 1 and line.emit("mute", season=True)
    return about(line, "mute", needed=False)


def resume(line: Line) -> bool:
    """resume; resume kestrel; resume all."""
    if line.ps[0].types["RESUME"].value == "season":
        return len(line.ps) == 1 and line.emit("resume", season=True)
    return about(line, "resume", needed=False)


def skip(line: Line) -> bool:
    """skip; skip kestrel; skip all."""
    if line.ps[0].types["SKIP"].value == "all":
        return len(line.ps) == 1 and line.emit("move", skip=True, all=True)
    listed = all("FIELD" in p.types or p.text in joints() for p in line.ps[1:])  # "skip tower, depot and airstrip"
    if line.made.has("ask_move", line.ps[0].text) and any("WEEKDAY" in p.types for p in line.ps) and asking.asked(line):
        return True  # "deixa a santa rita pra quinta"
    if (len(line.ps) > 5 and not listed) or line.noted(1):
        return False
    first = line.written(line.ps[1]) if listed and len(line.ps) > 1 else None
    return line.emit("move", skip=True, field=first or line.nearest_name(line.name(1)))


def wanted_skipped(line: Line) -> bool:
    """ "I would like Kestrel skipped this time.": wished for, and no word that nobody looked."""
    field = next((n for n, p in enumerate(line.ps[:MOST_WISH]) if "FIELD" in p.types), None)
    if not field or field + 1 >= len(line.ps):
        return False
    lead = " ".join(p.text for p in line.ps[:field] if not line.made.has("article", p.text))
    done, *behind = line.ps[field + 1 :]
    if not line.made.has("wants_done", lead) or not line.made.has("done_skipped", done.text):
        return False
    little = all(p.kind == "word" and not p.types.keys() - {"LINK", "UNIT", "TEXT", "COURTESY"} for p in behind)
    return little and len(behind) <= MOST_WISH and line.emit("move", skip=True, field=line.written(line.ps[field]))


MOST_WISH = 6
"""Pieces before a field that is wished skipped, and behind that (judgement)."""


def move(line: Line) -> bool:
    """push to monday; later, 5 days."""
    ps = day_words(number_words(stage_words(until_days(line.ps[1:], line.made), line.made), line.made), line.made)
    return _put_off(line, ps, ("LINK", "MOVE", "COURTESY", "RENAME_TO")) or language(line)


def _put_off(line: Line, ps: list[Piece], little: tuple[str, ...], field: str | None = None) -> bool:
    """Put off to a day or by a span, where nothing else stands there but little words."""
    rest = [p for p in ps if p.kind not in ("sign", "break") and not is_any(p, little)]
    if len(rest) == 1 and rest[0].kind == "day":
        return _to_day(line, rest[0], field)
    return len(rest) == 2 and rest[0].kind == "number" and _by_span(line, rest[0].value, rest[1], field)


def _to_day(line: Line, day: Piece, field: str | None, *, every: bool = False) -> bool:
    """Put off to a day that is still to come."""
    found = coming_day(day.value, line.context.sent, line.context.language, line.context.day_first)
    return found.day is not None and line.emit("move", date=found.day, field=field, all=every or None)


def _by_span(line: Line, count: float, unit: Piece, field: str | None, *, every: bool = False) -> bool:
    """Put off by so many days or weeks."""
    days = UNIT_DAYS.get(unit.types["UNIT"].value) if "UNIT" in unit.types else None
    return days is not None and line.emit("move", days=int(count * days), field=field, all=every or None)


def looked_at_then(line: Line) -> bool:
    """ "Recheck kestrel aug 3", "look at tinkers again in 10 days": when to look at a field, and no more."""
    at = 1
    while at < 3 and at < len(line.ps) and line.ps[at].text in anywhere("look_of"):
        at += 1
    if len(line.ps) < at + 2 or "LOOK" not in line.ps[0].types or not line.has(at, "FIELD"):
        return False
    ps = day_words(number_words(line.ps[at + 1 :], line.made), line.made)
    return _put_off(line, ps, ("LINK", "COURTESY", "LOOK"), line.written(line.ps[at]))


_SEEN = ("COLOUR", "FEMALES", "PLANTS", "NONE", "TOO_MANY", "TOOL", "SOAKED", "EGGS", "PLANTED", "CORRECT")
"""Kinds of words of a sentence that tells more than when to be reminded."""


_OF_SOIL = ("TEXTURE", "EDGES", "VEINS", "BANDS")
"""Kinds of words of a note that no reminder needs."""
_OF_CROP = ("TOPS", "TOP", "ROOTS", "ROOT", "NODULES", "VARIETY")
"""The same in a message of several sentences: what is told of the crop is a note's."""


def of_note_begun(line: Line) -> bool:
    """ "Kestrel next, can you remind me to come back here in a week? Dug 10, ..": of the note that begins with it."""
    at = [n for n, p in enumerate(line.ps) if "FIELD" in p.types]
    if len(at) != 1 or not asking.may_say(line, "ask_remind") or not asking.parts_of(line).says("ask_remind"):
        return False
    parted = next((n for n in range(at[0] + 1, len(line.ps)) if line.ps[n].kind in ("break", "sign")), None)
    words = [word for p in line.ps[parted:] for word in p.text.split(" ")] if parted is not None else []
    here = any(
        line.made.has("refers_here", one) or (line.made.has("this_one", one) and is_field_word(other))
        for one, other in pairwise([*words, ""])
    )
    behind = line.context.text[line.ps[-1].end :] if here else ""
    return any(x.kind == "number" or is_counted(x.text, line.made) for x in scan(clean(behind)))


def is_counted(word: str, made: Table) -> bool:
    """Is a word one of what notes count or find?"""
    return any(entry.type in ("PLANTS", "FEMALES", "NONE", "DUG", "COLOUR") for entry in made.singles.get(word, ()))


def reminded_then(line: Line, named: Piece | None = None) -> bool:
    """ "Can't get to Sycamore till thursday, nudge me then": one field not told of before, and one day to come.

    Also "rained out all day so put everything off to Monday would you": all of them.
    """
    if not asking.may_say(line, "ask_remind", "every_field"):
        return False
    parts = asking.parts_of(line)
    own = [p for p in line.ps if "FIELD" in p.types]
    every = not own and _moves_all(line)
    reminds = len(own) == 1 and parts.says("ask_remind") and (named is None or own[0].text != named.text)
    if not (every or (reminds and not parts.says("ask_stop", "ask_drop"))) or _seen_beside(line):
        return False
    if own and of_note_begun(line):
        return False
    ps = number_words(stage_words(until_days(line.ps, line.made), line.made), line.made)
    ps = day_words(amends.dated(ps), line.made)
    days = [p for p in ps if p.kind == "day"]
    spans = [(p, q) for p, q in pairwise(ps) if p.kind == "number" and is_any(q, ("UNIT",))]
    field = line.written(own[0]) if own else None
    if any(p.kind == "number" and all(p is not q for q, _ in spans) and "FIELD" not in p.types for p in ps):
        return False
    if len(days) == 1 and not spans:
        later = days[0].value.days_ago != 0  # not "tell me where Cold Spring stands as of today"
        return later and _to_day(line, days[0], field, every=every)
    return len(spans) == 1 and not days and _by_span(line, spans[0][0].value, spans[0][1], field, every=every)


def cannot_then(line: Line) -> bool:
    """ "Can't make Kestrel today, Friday instead", "hoy no puedo ir a Kestrel, mejor el viernes": left for a day.

    One day to come behind what is denied; the day denied, today or before a stop, is none.
    """
    made = line.made
    if line.asked or not any(map(made.denies, line.vocabulary)) or _seen_beside(line):
        return False
    own = [p for p in line.ps if "FIELD" in p.types]
    denied = _cannot_at(line)
    if denied is None or _not_dug(line, denied):
        return False
    if len({p.text for p in own}) > 1 or (not own and not _only_line(line)):
        return False
    ps = number_words(stage_words(until_days(line.ps, made), made), made)
    ps = day_words(amends.dated(ps), made)
    begin = line.ps[denied].start
    stop = next((p.start for p in ps if p.start > begin and (p.kind == "break" or p.text in ("-", ":"))), line.end)
    days = [p for p in ps if p.kind == "day" and p.value.days_ago != 0]
    later = [p for p in days if p.start > stop or made.has("until", _text_before(ps, p))]
    later = later or (days if any(p.kind == "day" and p.value.days_ago == 0 for p in ps) else [])
    numbers = [p for p in ps if p.kind in ("number", "series", "stage") and "FIELD" not in p.types]
    if len(later) != 1 or numbers or later[0].start < begin:
        return False
    told = [word for p in ps if p.start > stop and p.kind == "word" for word in p.text.split(" ")]
    if any(made.has("was_on", word) or made.has("gone", word) for word in told):
        return False  # "can't get in today, Friday was fine"
    return _to_day(line, later[0], line.written(own[0]) if own else None)


def _not_dug(line: Line, denied: int) -> bool:
    """ "Unable to dig, too wet. Will try again Friday": somebody was there, or the soil is told: a note."""
    begin = line.ps[denied].start
    if any(line.made.denies(word) for p in line.ps[:denied] for word in p.text.split(" ")):
        return True  # "no la pude mirar hoy, no se puede entrar. Voy el viernes"
    if any(is_any(p, ("MOISTURE",)) or (is_any(p, ("NOT_LOOKED",)) and p.start > begin) for p in line.ps):
        return True
    stop = next((p.start for p in line.ps if p.start > begin and p.kind == "break"), line.end)
    words = [word for p in line.ps if begin <= p.start < stop for word in p.text.split(" ")]
    if line.made.has_any("enters", words):
        return True
    return any(entry.type == "DUG" for word in words for entry in line.made.singles.get(word, ()))


def _text_before(ps: list[Piece], piece: Piece) -> str:
    """The word right before a piece."""
    before = [p for p in ps if p.end <= piece.start]
    return before[-1].text if before else ""


def _cannot_at(line: Line) -> int | None:
    """Where it is said that somebody cannot go, or will not."""
    cannot = line.made.traits.get("ask_cannot", ())
    for n in range(len(line.ps)):
        said = " ".join(p.text for p in line.ps[n : n + MOST_OF_ALL]) + " "
        if any(said.startswith(f"{phrase} ") for phrase in cannot):
            return n
    return None


def _only_line(line: Line) -> bool:
    """Is it all of the message?"""
    text = line.context.text
    return not (text[: line.start] + text[line.end :]).strip(" .!\n")


def _moves_all(line: Line) -> bool:
    """ "Put everything off to Monday", "push them all to thursday": a verb, and right behind it all of them.

    "Everything is dry, move the truck friday" moves none.
    """
    made = line.made
    words = [word for p in line.ps for word in p.text.split(" ")]
    for n, word in enumerate(words):
        if not any(made.has(trait, word) for trait in ("ask_move", "ask_put", "ask_move_it")):
            continue
        behind = [" ".join(words[n + 1 : n + 1 + size]) for size in range(1, MOST_OF_ALL + 1)]
        if any(made.has("every_field", said) for said in behind):
            return True
    return False


MOST_OF_ALL = 4
"""Words of "all of the fields"."""


def _seen_beside(line: Line) -> bool:
    """Is something seen or done told there? That nobody looked may be why one is reminded."""
    told = [p for p in line.ps if len(p.text) > 1 and "FIELD" not in p.types and not linking(p)]
    if any(is_any(p, _OF_SOIL) for p in told) or (
        len(sentences_of(line.ps)) > 1 and any(is_any(p, _OF_CROP) for p in told)
    ):
        return True
    if len(sentences_of(line.ps)) > 2 and any(is_any(p, ("MOISTURE",)) for p in told):
        return True
    return any(p.kind in ("stage", "series", "range") or is_any(p, _SEEN) for p in told)


def moved_in_words(line: Line) -> bool:
    """ "Please put off my reminder for dry creek until july 24", "skip larkspur this time"."""
    at = next((n for n, p in enumerate(line.ps) if is_any(p, ("MOVE", "SKIP")) and line.made.has("move", p.text)), None)
    opening = f" {' '.join(p.text for p in line.ps[:4])} "
    wish = any(f" {said} " in opening for said in line.made.traits.get("wishes", ()))
    if at is None and wish:
        at = next((n for n, p in enumerate(line.ps) if "LOOK" in p.types and "FIELD" not in p.types), None)
    if at is None or _of_another_sentence(line, at):
        return False
    field = line.known_name(at)
    if "LOOK" in line.ps[at].types and any("NOT_LOOKED" in p.types for p in line.ps):
        return False  # not looked, and when to look: a note
    if "SKIP" in line.ps[at].types:
        return at <= 4 and field is not None and line.emit("move", skip=True, field=field)
    ps = day_words(number_words(stage_words(until_days(line.ps, line.made), line.made), line.made), line.made)
    verb = line.ps[at].start  # "can't make it today, push it 2 days": what stands behind the verb counts
    behind, before = [p for p in ps if p.start > verb], [p for p in ps if p.start <= verb]
    return _moved_to(line, behind, field) or _moved_to(line, before, field)


def _of_another_sentence(line: Line, at: int) -> bool:
    """ "Baixada: .. . Adie Sede Velha ..": a field in the sentence of the verb, and another in another sentence."""
    sentences = sentences_of(line.ps)
    named = [{p.text for p in sentence if "FIELD" in p.types} for sentence in sentences]
    own = next((n for n, sentence in enumerate(sentences) if any(p is line.ps[at] for p in sentence)), 0)
    return bool(named[own]) and any(other - named[own] for other in named)


def _moved_to(line: Line, ps: list[Piece], field: str | None) -> bool:
    """The day or the span a reminder is put off by, if one is told among these pieces."""
    spans = [p for p, unit in pairwise(ps) if p.kind == "number" and is_any(unit, ("UNIT",))]
    told = [p for p in ps if p.kind == "day" and not (spans and p.value.days_ago == 0)]  # "que hoy no puedo"
    day = told[0] if told else None
    if day is not None:
        return _to_day(line, day, field)
    for piece, unit in pairwise(ps):
        after_next = "WHICH" in piece.types and piece.types["WHICH"].value == "next"
        count = piece.value if piece.kind == "number" else int(after_next)  # "next week remind me about kestrel"
        if count and _by_span(line, count, unit, field):
            return True
    return False
