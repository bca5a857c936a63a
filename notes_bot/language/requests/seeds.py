"""What was planted in a field, with the name of a variety: "they put marlo 31 on kestrel, its resistant".

A variety is named by a word or two and a number. Only where nothing of a visit is told, and where every number is
such a name or a planting day.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from notes_bot.language.lexicon.joining import day_words, is_any, linking
from notes_bot.language.lexicon.scan import fold
from notes_bot.language.names.naming import written
from notes_bot.language.requests import asking

if TYPE_CHECKING:
    from notes_bot.language.lexicon.pieces import Piece
    from notes_bot.language.requests.commands.line import Line

LONGEST = 30
"""Pieces of the longest line that tells of a field's seed (judgement)."""
MOST_NUMBERS = 2
"""Numbers in the line: of the variety, and of a day (judgement)."""
MOST_NUMBER = 9999
"""The largest number in a variety's name (judgement)."""
LEAST_NUMBER = 10
"""The smallest one (judgement)."""
LETTERS = 4
"""Letters behind the number of a variety (judgement)."""
_VISIT = (
    *("PLANTS", "COLOUR", "FEMALES", "DUG", "NOT_LOOKED", "NONE", "TOO_MANY", "CHEMICAL", "UNIT", "MUTE", "RESUME"),
    *("ACRES", "EGGS", "TOOL", "SOAKED", "CORRECT", "LOOK", "CHECK", "ADD", "NEAR"),
)


def seeded(line: Line) -> bool:
    """Read a line as the variety of a field, and what else is told of its seed; false when it is a note."""
    if len(line.ps) > LONGEST or line.asked:
        return False
    at = next((n for n, p in enumerate(line.ps) if "FIELD" in p.types), None)
    number = any(p.kind == "number" for p in line.ps)
    if at is None or not number or any(p.kind in ("stage", "range", "ratio", "series") for p in line.ps):
        return False
    seed = any(is_any(p, ("VARIETY", "RESISTANCE", "SOURCE")) for p in line.ps)
    seed = seed or any(line.made.has("seed_crop", p.text) for p in line.ps)
    if not seed and not asking.may_say(line, "seed_told"):
        return False
    if sum(p.kind == "number" for p in line.ps) > MOST_NUMBERS:
        return False
    parts = asking.parts_of(line)
    if not seed and not parts.says("seed_told"):
        return False
    ps = day_words(line.ps, line.made)
    named = [n for n, p in enumerate(ps) if p.kind == "number"]
    days = [p for p in ps if p.kind == "day"]
    if len(named) != 1 or len(days) > 1 or sum("FIELD" in p.types for p in ps) != 1:
        return False
    first = _first(line, ps, named[0])
    crop = named[0] + _of_crop(line, ps, named[0])
    rest = [p for n, p in enumerate(ps) if not first <= n <= crop and "FIELD" not in p.types]
    if first == named[0] or all(is_any(p, ("COLOUR",)) and len(p.text) > 1 for p in ps[first : named[0]]):
        return False  # "white 14": a count
    if any(is_any(p, _VISIT) and not linking(p) and len(p.text) > 1 for p in rest):
        return False
    sown = any("PLANTED" in p.types for p in ps) or parts.says("in_ground")
    if days and not sown:
        return False
    last = named[0]
    if last + 1 < len(ps) and _ends_name(line, ps[last], ps[last + 1]):
        last += 1
    given: dict[str, Any] = {"variety": line.context.text[ps[first].start : ps[last].end]}
    given |= {"planted": line.past(days[0])} if days else {}
    for piece in rest:
        for kind in ("RESISTANCE", "SOURCE"):
            if kind in piece.types:
                given[kind.lower()] = piece.types[kind].value
    if "source" in given:
        given.setdefault("resistance", "resistant")
    field = line.ps[at]
    name = written(line.context.text, field.start, field.end)
    return line.context.command("field", line.start, line.end, name=name, **given)


def _first(line: Line, ps: list[Piece], n: int) -> int:
    """Where the name of the variety begins whose number stands at n; n itself without a word before it."""
    fits = isinstance(ps[n].value, int) and LEAST_NUMBER <= ps[n].value <= MOST_NUMBER and ps[n].text.isdigit()
    behind = ps[n + 1] if n + 1 < len(ps) else None
    crop = _of_crop(line, ps, n)
    led = behind is not None and linking(behind) and n + 2 < len(ps) and _of_field(line, ps[n + 2])
    measured = not crop and not led and behind is not None and len(behind.text) > 1  # "tb 2911 w/ PI 88788"
    if not fits or (
        measured and is_any(behind, ("MEASURE", "UNIT", "PLANTS", "COLOUR", "FEMALES", "ACRES", "EGGS", "WEATHER"))
    ):
        return n
    first = n
    while first > 0 and n - first < 2 and _names(line, ps[first - 1]):
        first -= 1
    own = crop and any(p.types or not _capital(line, p) for p in ps[first:n])
    return n if own else first  # "dug 31 beans"


def _of_field(line: Line, piece: Piece) -> bool:
    """ "In it", "in kestrel": what the seed was put in, and no inches."""
    return "FIELD" in piece.types or line.made.has("it_word", piece.text) or "FIELD_WORD" in piece.types


def _of_crop(line: Line, ps: list[Piece], n: int) -> int:
    """How many pieces behind a variety's number are of its name or its crop ("Tamsin 31 beans", "31X beans"), or 0."""
    last = n + (n + 1 < len(ps) and _ends_name(line, ps[n], ps[n + 1]))
    return last + 1 - n if last + 1 < len(ps) and line.made.has("seed_crop", ps[last + 1].text) else 0


def _capital(line: Line, piece: Piece) -> bool:
    return line.context.text[piece.start : piece.start + 1].isupper()


def _ends_name(line: Line, number: Piece, piece: Piece) -> bool:
    """ "Yryvu 61 RG", "Delmar 27X": letters of a trait behind the number."""
    said = line.context.text[piece.start : piece.end]
    glued = number.end == piece.start
    return piece.kind == "word" and said.isupper() and len(said) <= LETTERS and (glued or number.end + 1 == piece.start)


def _names(line: Line, piece: Piece) -> bool:
    """Can a word be part of a variety's name?"""
    little = linking(piece) or all(line.made.has("seed_frame", word) for word in piece.text.split(" "))
    if fold(line.context.text[piece.start : piece.end]) != piece.text:
        return piece.kind == "word"  # a name taken for a slip of ours
    return piece.kind == "word" and not little and not (piece.types.keys() - {"SPRAY", "CHEMICAL", "COLOUR", "SPOT"})
