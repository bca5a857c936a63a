"""What was planted in a field, with the name of a variety: "they put marlo 31 on kestrel, its resistant".

A variety is named by a word or two and a number. Only where nothing of a visit is told, and where every number is
such a name or a planting day.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from notes_bot.language.lexicon.joining import day_words, is_any, linking
from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.names.named_seeds import worded_end
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
    if sum("FIELD" in p.types for p in line.ps) != 1 or any(p.kind in _STAGED for p in line.ps):
        return False
    seed = any(is_any(p, ("VARIETY", "RESISTANCE", "SOURCE")) for p in line.ps)
    seed = seed or any(line.made.has("seed_crop", p.text) for p in line.ps)
    if not seed and not asking.may_say(line, "seed_told"):
        return False
    parts = asking.parts_of(line)
    if not seed and not parts.says("seed_told"):
        return False
    ps = day_words(line.ps, line.made)
    days = [p for p in ps if p.kind == "day"]
    named = _numbered(line, ps) if any(p.kind == "number" for p in ps) else _worded(line, ps)
    if named is None or len(days) > 1 or (days and not _sown(line, ps)):
        return False
    first, last, end = named
    rest = [p for n, p in enumerate(ps) if not first <= n < end and "FIELD" not in p.types]
    if any(is_any(p, _VISIT) and not linking(p) and len(p.text) > 1 for p in rest):
        return False
    given: dict[str, Any] = {"variety": line.context.text[ps[first].start : ps[last].end]}
    given |= {"planted": line.past(days[0])} if days else {}
    for piece in rest:
        for kind in ("RESISTANCE", "SOURCE"):
            if kind in piece.types:
                given[kind.lower()] = piece.types[kind].value
    if "source" in given:
        given.setdefault("resistance", "resistant")
    field = next(p for p in line.ps if "FIELD" in p.types)
    name = written(line.context.text, field.start, field.end)
    return line.context.command("field", line.start, line.end, name=name, **given)


def seed_put_right(line: Line) -> bool:
    """ "I wrote Larkspur 30 for Old Mill but the tag says Larkspur 33": two numbers behind one name, one of them wrong.

    Which one is told by what stands before each: a denial, or a word for what was written. Where no word for seed is
    said, another name must be the field's.
    """
    at = [n for n in range(1, len(line.ps)) if _numbers_seed(line, n)]
    if len(at) != PAIR or line.asked or len(line.ps) > LONGEST:
        return False
    first, second = at
    fields = {line.written(p) for n, p in enumerate(line.ps) if "FIELD" in p.types and n + 1 not in at}
    spoken = any(is_any(p, ("VARIETY", "RESISTANCE")) for p in line.ps) or bool(
        line.vocabulary & {word for manner in ("seed_said", "seed_crop") for word in line.made.traits[manner]}
    )
    alike = line.ps[first - 1].text == line.ps[second - 1].text and line.ps[first].value != line.ps[second].value
    if not alike or len(fields) > 1 or not (spoken or fields):
        return False
    others = [p for n, p in enumerate(line.ps) if not any(n in (k, k - 1) for k in at) and "FIELD" not in p.types]
    if any(p.kind in ("number", "series", "day") or p.kind in _STAGED for p in others):
        return False
    wrong = [_told_wrong(line, line.ps[: first - 1]), _told_wrong(line, line.ps[first + 1 : second - 1])]
    if wrong[0] == wrong[1]:
        return False
    names = [line.context.text[line.ps[n - 1].start : line.ps[n].end] for n in at]
    old, new = names if wrong[0] else reversed(names)
    field = next(iter(fields), None)
    return line.context.command("correct", line.start, line.end, field=field, what="variety", value=new, old=old)


PAIR = 2
"""Names of "not Heron 19, it's Heron 29"."""


def _numbers_seed(line: Line, n: int) -> bool:
    """Is a number that of a name of no other meaning before it ("Heron 29")?"""
    piece, before = line.ps[n], line.ps[n - 1]
    named = before.kind == "word" and _capital(line, before) and not before.types.keys() - {"FIELD", "SPRAY", "SPOT"}
    return (
        piece.kind == "number" and named and isinstance(piece.value, int) and LEAST_NUMBER <= piece.value <= MOST_NUMBER
    )


def _told_wrong(line: Line, pieces: list[Piece]) -> bool:
    """Is what follows denied, or told to have been written?"""
    made = line.made
    if any(is_any(p, ("NOT",)) or made.denies(p.text) for p in pieces):
        return True
    words = [word for p in pieces for word in p.text.split(" ")]
    runs = {" ".join(words[n : n + size]) for n in range(len(words)) for size in (1, 2, 3, 4)}
    return any(made.has_any(manner, runs) for manner in ("wrote", "put_wrong", "put_down", "erred"))


_STAGED = frozenset({"stage", "range", "ratio", "series"})
"""Kinds of piece that only a note has."""


def _sown(line: Line, ps: list[Piece]) -> bool:
    """Is it told that something was planted?"""
    return any("PLANTED" in p.types for p in ps) or asking.parts_of(line).says("in_ground")


def _numbered(line: Line, ps: list[Piece]) -> tuple[int, int, int] | None:
    """Where a variety's name of words and a number begins, its last piece, and where its crop behind it ends."""
    at = [n for n, p in enumerate(ps) if p.kind == "number"]
    if len(at) != 1 or sum(p.kind == "number" for p in line.ps) > MOST_NUMBERS:
        return None
    number = at[0]
    first = _first(line, ps, number)
    if first == number or all(is_any(p, ("COLOUR",)) and len(p.text) > 1 for p in ps[first:number]):
        return None  # "white 14": a count
    end = number + _of_crop(line, ps, number) + 1
    return first, number + (number + 1 < len(ps) and _ends_name(line, ps[number], ps[number + 1])), end


def _worded(line: Line, ps: list[Piece]) -> tuple[int, int, int] | None:
    """The same of a name of plain words, "the variety at kestrel is Dusty Plum", where all else only frames it."""
    if not any(is_any(p, ("VARIETY",)) for p in ps):
        return None
    named = [(n, end) for n in range(len(ps)) if (end := _worded_end(line, ps, n)) > n]
    first, end = named[0] if named else (0, 0)
    if not named or any(n >= end for n, _ in named):
        return None
    rest = [p for n, p in enumerate(ps) if not first <= n < end]
    return (first, end - 1, end) if all(_frames(line, p) for p in rest) else None


def _worded_end(line: Line, ps: list[Piece], n: int) -> int:
    """Where a variety's name of plain words at n ends; n itself for none."""
    before = ps[n - 1] if n else None
    sure = before is not None and any(line.made.has(how, before.text) for how in ("is_now", "is_word", "names_variety"))
    return worded_end(ps, n, line.made, line.context.text, sure)


def _frames(line: Line, piece: Piece) -> bool:
    """A word that may stand around the name: of the seed, its field and day, or for writing it down."""
    words = piece.text.split(" ")
    if piece.kind != "word" or linking(piece) or is_any(piece, _FRAMED):
        return True
    manners = ("seed_frame", "it_word", "plea_word", "names_variety")
    return all(
        any(line.made.has(m, w) for m in manners) or line.made.stemmed("ask_record", w) or w in anywhere("please")
        for w in words
    )


_FRAMED = ("FIELD", "FIELD_WORD", "VARIETY", "RESISTANCE", "SOURCE", "PLANTED", "COURTESY", "LINK")
"""Kinds of words around the name of a variety."""


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
