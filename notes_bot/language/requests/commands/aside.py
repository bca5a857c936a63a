"""One sentence among others, read as a request only where it can be nothing else."""

from __future__ import annotations

from dataclasses import replace

from notes_bot.language.clauses.context import Context
from notes_bot.language.lexicon.joining import is_any, number_like
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import anywhere, table
from notes_bot.language.names.naming import joints
from notes_bot.language.requests import (
    amends,
    asking,
    inquiring,
    left_off,
    looking,
    put_beside,
    telling,
    winter,
    wishes,
)
from notes_bot.language.requests.commands import heat, helping, rain, rain_at, skies
from notes_bot.language.requests.commands.cutting import words_said
from notes_bot.language.requests.commands.known_fields import pinned
from notes_bot.language.requests.commands.line import BEGINS, LONGEST_REQUEST, MOST_NAMED, TOLD, Line
from notes_bot.language.requests.commands.reminders import moved_in_words, of_note_begun, reminded_then
from notes_bot.language.requests.commands.requested import requested
from notes_bot.language.requests.commands.standing import asked_what_was_written
from notes_bot.language.requests.commands.talk import TALKED
from notes_bot.language.requests.commands.whole import read_line
from notes_bot.language.requests.corrections import correction

OPENING_WORDS = 4
"""Pieces of "y por favor corrijan" with which a sentence opens (judgement)."""


def read_aside(line: Line, named: Piece | None, before: tuple[list[Piece], ...] = ()) -> bool:
    """Read one sentence among others as a request that can be nothing else; ``named`` is the field before it."""
    if of_note_begun(line):
        return False
    return wishes.settled(line, lambda: _by_rules(line, named, before), named, beside=True)


def _by_rules(line: Line, named: Piece | None, before: tuple[list[Piece], ...]) -> bool:
    """Read one sentence among others by the rules."""
    if winter.holds_count(line):
        return _result_of(line, named)
    if (corrects(line) or _swaps(line) or _rewrites(line)) and correction(line.context, line.ps):
        return True
    if (
        reminded_then(line, named)
        or left_off.left_off(line, named)
        or telling.told(line, named, before)
        or inquiring.inquired(line)
    ):
        return True
    added = any(p.kind == "link" for p in line.ps) and any("ADD" in p.types for p in line.ps)
    if added and not line.tells() and pinned(line):
        return True  # ".. also add Rusty Pine at 41.2230, -92.7716"
    if _registers(line):
        return True
    if line.asked and looking.told(line):
        return True  # "what did my look at kestrel tell me?"
    if asking.asked(line, named, before) or (not _is_of(line, named) and amends.amended(line)):
        return True
    if named is not None and put_beside.put_beside(line, named):
        return True
    if helping.only_help(line):
        return True
    if line.tells() or len(line.ps) > LONGEST_REQUEST or asking.asks_others(line):
        return False
    for kind in ("MUTE", "RESUME", "PICTURE", "HISTORY"):
        for n, piece in enumerate(line.ps):
            asks = kind in piece.types and " " in piece.text and "FIELD" not in piece.types and not line.quiet(n)
            asks = asks and (line.asked or not line.made.has("timid_history", piece.text))
            asks = asks and not (n + 1 < len(line.ps) and is_any(line.ps[n + 1], ("FEMALES",)))  # "history of SCN"
            if asks and not (kind == "PICTURE" and any(line.made.has("took_it", p.text) for p in line.ps)):
                field = line.known_name(n)
                if field is None and named is not None:
                    field = line.written(named)
                return field is not None and line.emit(kind.lower(), field=field)
    if named is not None and _silenced_there(line, named):
        return True
    if named is not None and _asked_of_it(line, named):
        return True
    if _named_and_asked(line, named):
        return True
    if _plainly(line):
        return True
    if line.asked and moved_in_words(line):
        return True
    if (
        (line.asked or is_any(line.ps[0], ("DUE",)))
        and any("DUE" in p.types and " " in p.text for p in line.ps)
        and line.known_name(-1) is None
    ):
        return line.emit("due")
    alone = len(line.ps) == 1 and named is None  # "undo. kestrel 6 plants .."
    if any("UNDO" in p.types and (" " in p.text or alone) for p in line.ps[:3]):
        field = line.known_name(0)
        if field is None and named is not None:
            field = line.written(named)
        return line.emit("take_back", field=field)
    if asked_what_was_written(line):
        return True
    told = [p for p in line.ps if not (p.text in joints() or is_any(p, ("LINK",))) or "FIELD" in p.types]
    if line.asked and len(told) == 1 and "FIELD" in told[0].types:
        return line.emit("state", field=line.written(told[0]))  # "e a baixada?"
    if line.politely() and requested(line):
        return True
    made = len(line.context.commands)
    if rain_at.fell_at(line):
        return True
    if not (heat.was_hot(line) or skies.reported(line) or rain.rained(line) or heat.warmed(line)):
        return False
    _fell_there(line, made, named)
    return True


def _registers(line: Line) -> bool:
    """ "(One more thing:) please also add a field called Mill Race, near Kestrel": by its words alone."""
    colon = next((n for n, p in enumerate(line.ps[: OPENING_WORDS + 1]) if p.text == ":"), -1)
    ps = line.ps[colon + 1 :] or line.ps  # "one more thing: we have a new field, Mill Race"
    while len(ps) > 1 and (
        ps[0].text in anywhere("also") or ps[0].kind == "break" or is_any(ps[0], ("COURTESY", "LINK"))
    ):
        ps = ps[1:]
    new = next((n for n, p in enumerate(ps[:OPENING_WORDS]) if "ADD" in p.types and " " in p.text), None)
    told = ("COLOUR", "FEMALES", "NONE", "PLANTS", "NOT_LOOKED", "STAGE")
    if new is None or any(is_any(p, told) or p.kind == "stage" for p in ps):
        return False
    name = next((p for p in ps[new + 1 :] if p.kind == "word" and not line.made.has("called", p.text)), None)
    if name is None or not line.context.text[name.start : name.start + 1].isupper():
        return False  # "it is a new field for me"
    made = len(line.context.commands)
    if read_line(Line(line.context, ps)) and all(c.kind == "field" for c in line.context.commands[made:]):
        return True
    del line.context.commands[made:]
    return False


def _is_of(line: Line, named: Piece | None) -> bool:
    """Is the field of the sentence the one told of before it?"""
    own = next((p.text for p in line.ps if "FIELD" in p.types), None)
    return named is not None and own is not None and own == named.text


def _result_of(line: Line, named: Piece | None) -> bool:
    """ ".. 4 plants 7 white. Lab says 3100 eggs per 100cc there": a result of the field told of before."""
    made = len(line.context.commands)
    if not winter.take(line):
        return False
    for n, command in enumerate(line.context.commands[made:], made):
        if command.kind == "lab" and named is not None and line.known_name(-1) is None:
            name = line.written(named)
            line.context.commands[n] = replace(command, args={**command.args, "field": name})
    return True


def _fell_there(line: Line, made: int, named: Piece | None) -> None:
    """ ".. and rain there was .8 last night" behind a note: of its field."""
    there = any(line.made.has("ask_there", word) for piece in line.ps for word in piece.text.split(" "))
    if named is None or not there:
        return
    line.context.told_of(line.written(named), made)


def _silenced_there(line: Line, named: Piece) -> bool:
    """ "Les pido silenciar los avisos de ese lote": reminders and a word for stopping them, of the field before."""
    words = words_said(line.ps)
    stops = all(any(line.made.stemmed(kind, word) for word in words) for kind in ("reminder_stem", "stop_stem"))
    there = any("FIELD_WORD" in piece.types for piece in line.ps) and line.known_name(-1) is None
    field = line.written(named)
    return stops and there and line.emit("mute", field=field)


def _asked_of_it(line: Line, named: Piece) -> bool:
    """ "Can we skip it for the rest of the season?", "please mute it": of the field before, by a word for it."""
    words = words_said(line.ps)
    opening = " ".join(words[:OPENING_WORDS]) + " "
    led = next((w for w in (*line.made.traits["asks_politely"], "can we") if opening.startswith(w + " ")), "")
    first = len(led.split(" ")) if led else 0
    kinds = ("SKIP", "MUTE", "RESUME")
    at = [n for n, p in enumerate(line.ps[: first + 1]) if is_any(p, kinds) and not is_any(p, ("FIELD",))]
    heads = [line.ps[n] for n in at]
    behind = [word for n in at for word in (line.ps[n].text.split(" ")[-1], *words_said(line.ps[n + 1 : n + 2]))]
    it = line.made.has_any("it_word", behind)
    plain = not any(number_like(p) or p.kind == "day" or "FIELD" in p.types for p in line.ps)
    if len(heads) != 1 or not (it and plain) or len(line.ps) > LONGEST_REQUEST:
        return False
    field = line.written(named)
    if "SKIP" in heads[0].types:
        return line.emit("move", skip=True, field=field)
    return line.emit("mute" if "MUTE" in heads[0].types else "resume", field=field)


def _named_and_asked(line: Line, named: Piece | None) -> bool:
    """ "Also tower chart", ".. & hist": a field of the crew, here or before, and a word for what is asked."""
    ps = line.ps[1:] if len(line.ps) > 1 and line.ps[0].text in anywhere("also") else line.ps
    own = len(ps) == MOST_NAMED and "FIELD" in ps[0].types
    field = ps[0] if own else named
    if field is None or len(ps) != 1 + own or any(p.kind != "word" for p in ps):
        return False
    kind = next((kind for kind in ("PICTURE", "HISTORY", "STATE") if kind in ps[-1].types), None)
    name = line.written(field)
    return kind is not None and not ps[-1].types.keys() & set(TOLD) and line.emit(kind.lower(), field=name)


def _plainly(line: Line) -> bool:
    """ "Skip tinkers this week", "also show me tinkers history": a sentence that asks at once, of a known field."""
    colon = next((n for n, p in enumerate(line.ps[: OPENING_WORDS + 1]) if p.text == ":"), -1)
    ps = line.ps[colon + 1 :] or line.ps  # "one more thing: we have a new field, Mill Race"
    while len(ps) > 1 and (
        ps[0].text in anywhere("also") or "COURTESY" in ps[0].types or line.made.has("then_word", ps[0].text)
    ):
        ps = ps[1:]
    begins = is_any(ps[0], BEGINS) and not is_any(ps[0], ("FIELD", "LINK"))
    begins = begins or line.made.has("asks_for", ps[0].text.split(" ")[0])
    if not begins or not any("FIELD" in p.types for p in ps[1:]):
        return False
    made = len(line.context.commands)
    if not read_line(Line(line.context, ps)):
        return False
    short = len(ps) <= 3  # "undo tinkers", and no story
    if {command.kind for command in line.context.commands[made:]} <= TALKED | ({"take_back"} if short else set()):
        return True
    del line.context.commands[made:]
    return False


def corrects(line: Line) -> bool:
    """Is one sentence among others a correction: a field or what was written, and "should be" or "make that"?"""
    if not any("CORRECT" in p.types for p in line.ps):
        return False
    last = next((n for n in range(len(line.ps) - 1, 0, -1) if "CORRECT" in line.ps[n].types), 0)
    wrote = any(line.made.has("wrote", p.text) for p in line.ps[:last])
    named = any("FIELD" in p.types for p in line.ps[:last])
    strong = any(line.made.has("strong_correct", p.text) for p in line.ps)
    first = next((n for n, p in enumerate(line.ps[:OPENING_WORDS]) if "CORRECT" in p.types), None)
    opens = first is not None and any("FIELD" in p.types for p in line.ps[first:])
    opens = opens and any("NOT" in p.types for p in line.ps[first:])  # "please fix dry creek, it was 8, not 6"
    return wrote or (named and strong) or opens


def _swaps(line: Line) -> bool:
    """ "The last one I sent belongs to Widow's, not Water Tower": two fields, a "not", and what was written."""
    denied = next((n for n, p in enumerate(line.ps) if "NOT" in p.types), None)
    if denied is None or any(p.kind == "number" for p in line.ps):
        return False
    named = any("FIELD" in p.types for p in line.ps[denied:])
    return named and any(says_wrote(line.context, p) for p in line.ps[:denied])


def _rewrites(line: Line) -> bool:
    """ "At Depot, where I wrote 21 white, it was 12 white": of a field, what was written, and behind it what was so."""
    if not any("FIELD" in p.types for p in line.ps):
        return False
    numbers = [n for n, p in enumerate(line.ps) if number_like(p)]
    if len(numbers) != WRITTEN_AND_RIGHT:
        return False
    first, second = numbers
    wrote = any(line.made.has("wrote", word) for word in words_said(line.ps[max(0, first - NEAR_WROTE) : first]))
    wrote = wrote and (line.made.language != "en" or line.made.has_any("mine_word", words_said(line.ps[:first])))
    between = line.ps[first + 1 : second]
    was = any(
        "CORRECT" in p.types or line.made.has("is_word", p.text) or line.made.has("it_was", p.text) for p in between
    )
    return wrote and was


WRITTEN_AND_RIGHT = 2
"""Numbers of a sentence that tells what was written and what is right."""
NEAR_WROTE = 3
"""Pieces from a word for writing to what was written (judgement)."""


def says_wrote(context: Context, piece: Piece) -> bool:
    """A word for what was written before ("my note about ..")?"""
    made = table(context.language)
    return any(made.has("wrote", word) or made.has("mail_word", word) for word in piece.text.split(" "))
