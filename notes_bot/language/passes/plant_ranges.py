"""Plants told by their numbers: "plants 1-6: 0, 2, 1, 0, 0, 3 females", "P1-3: 0 2 1, P4-6: none", "#1-6: 0 2 1 0 0 3".

Each stretch is written as so many plants; stretches that follow on one another and have a list each are one list.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece, count_told, ends_clause, piece_at
from notes_bot.language.lexicon.times import MOST_PLANTS
from notes_bot.language.lexicon.words import Entry, Table, anywhere

_PLANTS = (Entry("PLANTS", "plants"),)
_SIGNS = frozenset({":", "=", "-", ","})
_LETTERED = re.compile(r"p(?:l|lt)?(\d{1,2})")
_LABELLED = re.compile(r"pt?(\d{1,2})")
LEAST_LABELLED = 2
"""Labels from which they are points or plants in turn."""


@dataclass(frozen=True, slots=True)
class _Stretch:
    """Plants from one number to another: its pieces from ``first`` to ``end``, the numbers, and what was on each."""

    first: int
    end: int
    low: int
    high: int
    counts: tuple[Piece, ...]
    """The list of its counts; empty where another thing is told."""
    until: int
    """Where the list ends, with the word for what was counted."""

    @property
    def plants(self) -> int:
        """How many they are."""
        return self.high - self.low + 1

    @property
    def listed(self) -> bool:
        """Is one number told of each?"""
        return len(self.counts) == self.plants


def plants_by_number(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with every stretch of plants that goes on from plant 1 as so many plants."""
    pieces = _labelled_lists(pieces)
    begins = [
        n
        for n, p in enumerate(pieces)
        if "PLANTS" in p.types or p.text == "#" or (p.kind == "word" and p.text[-1:].isdigit())
    ]
    told = _going_on([found for n in begins if (found := _stretch(pieces, n, made)) is not None])
    if not told:
        return pieces
    if len(told) > 1 and all(stretch.listed for stretch in told):
        return _as_one(pieces, told)
    out, at = [], 0
    for stretch in told:
        out += [*pieces[at : stretch.first], *_so_many(pieces, stretch, stretch.plants)]
        at = stretch.end
        if stretch.listed:
            out += [*pieces[at : at + (pieces[at].text in _SIGNS)], *stretch.counts]
            at = stretch.until - (stretch.until > at and is_any(pieces[stretch.until - 1], ("COLOUR",)))
    return [*out, *pieces[at:]]


def some_by_number(pieces: list[Piece]) -> list[Piece]:
    """ "P1 and p2 with females, p3 and p4 without": so many plants, of which so many had some.

    Every plant from the first to the last is told of, each once.
    """
    begin = next((n for n in range(len(pieces)) if _numbers_at(pieces, n)[0]), len(pieces))
    named = is_any(piece_at(pieces, begin), ("PLANTS",))
    told: list[int] = []
    positive: list[Piece] = []
    some, n, end = 0, begin, begin
    while (found := _numbers_at(pieces, n, named and n > begin))[0] and found[1] < len(pieces):
        numbers, n = found
        infested = pieces[n].types.get("HAD")
        without = is_any(pieces[n], ("NONE",)) or (is_any(pieces[n], ("NOT",)) and _ends_there(pieces, n + 1))
        if numbers != sorted(numbers) or not (without or (infested is not None and infested.value == "infested")):
            return pieces
        told += numbers
        some += 0 if without else len(numbers)
        positive = positive or ([] if without else [pieces[n]])
        n, end = n + 1, n + 1
        while (piece := piece_at(pieces, n)) is not None and (
            piece.text in _SIGNS or piece.text in anywhere("and_word")
        ):
            n += 1
    if len(told) < LEAST_LABELLED or not positive or sorted(told) != list(range(1, len(told) + 1)):
        return pieces
    if not _ends_there(pieces, end):
        return pieces
    start, last = pieces[begin].start, pieces[end - 1].end
    plants = [Piece("number", str(len(told)), start, start, (), len(told)), Piece("word", "", start, start, _PLANTS)]
    comma = Piece("break", ",", start, start, (), "soft")
    found_on = [Piece("number", str(some), start, last, (), some), replace(positive[0], start=last, end=last)]
    return [*pieces[:begin], *plants, comma, *found_on, *pieces[end:]]


def _ends_there(pieces: list[Piece], n: int) -> bool:
    """Does a clause end there, or go on with "and"?"""
    return ends_clause(piece_at(pieces, n)) or pieces[n].text in anywhere("and_word")


def _numbers_at(pieces: list[Piece], n: int, bare: bool = False) -> tuple[list[int], int]:
    """ "P1 and p2", "plants 1, 2 and 3": the numbers of plants from there on, and where they end; none for others.

    Bare ones go on from plants told before: ".., 3 and 4 none".
    """
    numbers: list[int] = []
    named = is_any(piece_at(pieces, n), ("PLANTS",))
    at = n + named
    while (number := _number_of_plant(piece_at(pieces, at), bare or named)) is not None:
        numbers.append(number)
        n = at = at + 1
        while (joint := piece_at(pieces, at)) is not None and (joint.text == "," or joint.text in anywhere("and_word")):
            at += 1
        if at == n:
            break
    return numbers, n


def _number_of_plant(piece: Piece | None, bare: bool) -> int | None:
    """ "P2", or "2" behind "plants"."""
    if piece is None:
        return None
    lettered = _LETTERED.fullmatch(piece.text) if piece.kind == "word" else None
    return int(lettered[1]) if lettered else count_told(piece) if bare and piece.kind == "number" else None


def _labelled_lists(pieces: list[Piece]) -> list[Piece]:
    """ "P1: 1, 0, 4. P2: 0, 0, 0": as many counts behind each label, so points of the field, each with its plants.

    One count each, and they are plants: "p1 três p2 zero", whose words are numbers then.
    """
    labels = [
        n
        for n, piece in enumerate(pieces)
        if piece.kind == "word" and piece.text[-1:].isdigit() and _LABELLED.fullmatch(piece.text)
    ]
    numbers = [int(re.sub(r"\D", "", pieces[n].text)) for n in labels]
    if len(labels) < LEAST_LABELLED or numbers != list(range(1, len(labels) + 1)):
        return pieces
    lists = [_counts_behind(pieces, n) for n in labels]
    sizes = {len(counts) for counts in lists}
    if len(sizes) > 1 or 0 in sizes:
        return pieces
    out = list(pieces)
    for n, counts in zip(labels, lists, strict=True):
        for k in counts:
            value = count_told(pieces[k])
            out[k] = replace(pieces[k], kind="number", text=str(value), entries=(), value=value)
        if len(counts) > 1:
            out[n] = replace(pieces[n], entries=(Entry("SPOT", pieces[n].text),), value="numbered")
    return out


def _counts_behind(pieces: list[Piece], n: int) -> list[int]:
    """Where the counts right behind a label stand, up to the next label or the end of the clause; none for others."""
    n += 1 + (getattr(piece_at(pieces, n + 1), "text", "") in _SIGNS)
    found: list[int] = []
    while (piece := piece_at(pieces, n)) is not None:
        if count_told(piece) is not None:
            found.append(n)
        elif not (piece.text in (",", "/") and count_told(piece_at(pieces, n + 1)) is not None):
            break
        n += 1
    ends = ends_clause(piece) or _LABELLED.fullmatch(pieces[n].text) is not None
    return found if ends else []


def _as_one(pieces: list[Piece], told: list[_Stretch]) -> list[Piece]:
    """ "Plants 1-3: 0 2 1, plants 4-6: 0 0 3": all of them in one list."""
    first, last = told[0], told[-1]
    colon = Piece("sign", ":", pieces[first.end - 1].end, pieces[first.end - 1].end)
    counts = [count for stretch in told for count in stretch.counts]
    shades = [pieces[stretch.until - 1] for stretch in told]
    shade = shades[:1] if len({piece.text for piece in shades}) == 1 and is_any(shades[0], ("COLOUR",)) else []
    behind = pieces[last.until :]
    return [*pieces[: first.first], *_so_many(pieces, first, last.high), colon, *counts, *shade, *behind]


def _so_many(pieces: list[Piece], stretch: _Stretch, plants: int) -> list[Piece]:
    """So many plants, as two pieces."""
    start, end = pieces[stretch.first].start, pieces[stretch.end - 1].end
    return [Piece("number", str(plants), start, end, (), plants), Piece("word", "", end, end, _PLANTS)]


def _going_on(found: list[_Stretch]) -> list[_Stretch]:
    """The stretches where the first begins with plant 1 and each goes on from the one before; else none.

    One plant may go on too: "plants 1-4 clean, plant 5 had 3 white".
    """
    told: list[_Stretch] = []
    for stretch in found:
        if stretch.low == (told[-1].high + 1 if told else 1):
            told.append(stretch)
        elif stretch.high > stretch.low:
            return []
    return told if told and told[0].high > told[0].low else []


def _stretch(pieces: list[Piece], n: int, made: Table) -> _Stretch | None:
    """ "Plants 1-6: 0 2 1 ..", "P1-6", "#1-6: ..", "plant #1 to #6": a stretch of plants that begins there."""
    first, named, said = n, is_any(pieces[n], ("PLANTS",)), pieces[n].text
    lettered = _LETTERED.fullmatch(said) if pieces[n].kind == "word" else None
    if named and count_told(piece_at(pieces, n - 1)) is not None:
        return None  # "6 plants 1-3 white each"
    n += named
    marked = getattr(piece_at(pieces, n), "text", "") == "#"
    if first and not named and (is_any(pieces[first - 1], ("PLANTS",)) or pieces[first - 1].text == "#"):
        return None
    if lettered is not None:
        low, high, end = int(lettered[1]), *_until(pieces, n + 1, made)
    elif named or marked:
        low, high, end = _from_to(pieces, n + marked, made)
    else:
        return None
    behind = piece_at(pieces, end)
    if not 0 < low <= high <= MOST_PLANTS or behind is None or is_any(behind, ("UNIT", "MEASURE")):
        return None
    signed = behind.text in _SIGNS
    counts, until = _list_at(pieces, end + signed)
    stretch = _Stretch(first, end, low, high, counts, until)
    none = is_any(piece_at(pieces, end + signed), ("NONE",))
    if not (named or stretch.listed or none):
        return None
    told = signed or stretch.listed or none or is_any(behind, ("HAD",))
    return stretch if told or (low == high and count_told(behind) is not None) else None


def _from_to(pieces: list[Piece], n: int, made: Table) -> tuple[int, int, int]:
    """ "1-6", "1 to #6": the numbers and where they end; zeros for none."""
    piece = piece_at(pieces, n)
    if piece is not None and piece.kind == "range" and all(isinstance(value, int) for value in piece.value):
        return (*piece.value, n + 1)
    low = count_told(piece)
    if low is None:
        return 0, 0, 0
    high, end = _until(pieces, n + 1, made)
    return (low, high, end) if high else (low, low, n + 1)


def _until(pieces: list[Piece], n: int, made: Table) -> tuple[int, int]:
    """ "- 6", "to #6", "-p6": the last number of a stretch and where it ends; zeros for none."""
    joint = piece_at(pieces, n)
    if joint is None or not (joint.text in ("-", "–") or made.has("through", joint.text)):
        return 0, 0
    n += 1 + (getattr(piece_at(pieces, n + 1), "text", "") == "#")
    last = piece_at(pieces, n)
    lettered = _LETTERED.fullmatch(last.text) if last is not None and last.kind == "word" else None
    high = int(lettered[1]) if lettered is not None else count_told(last)
    return (high, n + 1) if high is not None else (0, 0)


def _list_at(pieces: list[Piece], n: int) -> tuple[tuple[Piece, ...], int]:
    """ "0, 2, 1 females": the counts from there on, and where what they count ends; none where no list ends there."""
    counts: list[Piece] = []
    while (piece := piece_at(pieces, n)) is not None:
        if count_told(piece) is not None:
            counts.append(piece)
        elif not (piece.text in (",", "/", *anywhere("and_word")) and count_told(piece_at(pieces, n + 1)) is not None):
            break
        n += 1
    n += is_any(piece_at(pieces, n), ("FEMALES", "COLOUR"))
    return (tuple(counts), n) if ends_clause(piece_at(pieces, n)) else ((), n)
