"""Places that go on a row of places, though they are called as a field of the crew or by a word no list has.

"Gate: 5 plants, 12 white. Middle: 5 plants, 1 white. Creek: 5 plants, none.", where there is a Lost Creek Bottom; "By
the road, two plants, 11 cysts. By the pit, two plants, none": built as the places beside them, they are places too. A
part of the field told by what it lies at ("front by road: 3 white") is one place.
"""

from __future__ import annotations

from dataclasses import dataclass

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece, count_told, piece_at
from notes_bot.language.lexicon.tokens import Draft
from notes_bot.language.lexicon.words import Entry, Table
from notes_bot.language.names.naming import crew_of, written

LONGEST_NAME = 2
"""Pieces in the name of such a place, without what leads to it (judgement)."""
LEAST_BEFORE = 2
"""Places before a word of a field's name, from which it is one of them (judgement)."""
_SPOT = (Entry("SPOT", "spot"),)
_MAY_NAME = frozenset(
    {"FIELD", "SPOT", "TEXT", "MEASURE", "LINK", "LOOK", "AGO", "TOPIC", "NEW", "OLD", "BELOW", "MOVE"}
)
"""What a word of such a name may mean besides."""


@dataclass(frozen=True, slots=True)
class _Head:
    """What stands before the counts of a place: its pieces from ``first`` to ``end``, and how it is built."""

    first: int
    name: int
    """Where the name begins, behind what leads to it."""
    end: int
    known: bool
    """Is it a word for a place?"""
    build: tuple[bool, str, bool]
    """Is it led to ("by the pit"), what sign parts it from the counts, and are plants told first?"""
    part: bool = False
    """Is it a part of the field by what it lies at: "front by road"?"""


def places_plant_by_plant(pieces: list[Piece]) -> list[Piece]:
    """ "Knoll, per plant: 0, 1. Swale (each plant): 6 4 9": the list behind the colon is the place's."""
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        each = n + (pieces[n].text in (",", "("))
        colon = each + 1
        if (sign := piece_at(pieces, colon)) is not None and sign.text == ")":
            colon += 1
        sign = piece_at(pieces, colon)
        heads = is_any(piece_at(pieces, each), ("EACH",)) and sign is not None and sign.text == ":"
        if heads and _names_place(out) and _lists(pieces, colon + 1):
            n = colon
        out.append(pieces[n])
        n += 1
    return out


def _names_place(ahead: list[Piece]) -> bool:
    """Is the last that was told a place of few words, at the head of its clause?"""
    for size in range(1, LONGEST_NAME + 1):
        run, before = ahead[-size:], ahead[-size - 1] if len(ahead) > size else None
        begins = before is None or before.kind in ("break", "line") or is_any(before, ("FIELD",))
        if begins and len(run) == size and all(p.kind in ("word", "place") for p in run):
            return is_any(run[0], ("SPOT",)) or is_any(run[-1], ("SPOT",))
    return False


def _lists(pieces: list[Piece], n: int) -> bool:
    """Do two numbers or more stand there, commas between them or none, and nothing that they count?"""
    count = 0
    while (piece := piece_at(pieces, n)) is not None and (count_told(piece) is not None or piece.text == ","):
        count += count_told(piece) is not None
        n += 1
    return count > 1 and (piece is None or piece.kind in ("break", "line") or pieces[n - 1].text == ",")


def rows_of_places(draft: Draft, made: Table) -> list[Piece]:
    """The pieces with every place that goes on a row of them, or is told by what it lies at, as a place."""
    pieces = draft.pieces
    heads = [head for n in _starts(pieces) if (head := _head(pieces, n, made)) is not None]
    places = [head for head in heads if head.part]
    places += [
        head
        for head, before in _going_on(pieces, heads)
        if head.build == before[-1].build and _may_be_place(draft, head, len(before), made)
    ]
    out, at = [], 0
    for head in sorted(places, key=lambda place: place.first):
        start, end = pieces[head.name].start, pieces[head.end - 1].end
        out += [*pieces[at : head.first], Piece("place", written(draft.text, start, end), start, end, _SPOT)]
        at = head.end
    return [*out, *pieces[at:]]


def _going_on(pieces: list[Piece], heads: list[_Head]) -> list[tuple[_Head, list[_Head]]]:
    """Heads that are no known places, each with the known ones of the same field's row that it may go on."""
    found: list[tuple[_Head, list[_Head]]] = []
    known: list[_Head] = []
    at = 0
    for head in heads:
        if any(is_any(piece, ("FIELD",)) for piece in pieces[at : head.first]):
            known = []  # another field begins in between
        if head.known:
            known = [*known, head]
        elif known:
            found.append((head, known))
        at = head.end
    return found


def _starts(pieces: list[Piece]) -> list[int]:
    """Where sentences, lines and stretches between commas and slashes begin, and what stands behind a field's name."""
    stops = [n for n, p in enumerate(pieces) if p.kind in ("line", "break") or p.text == "/" or is_any(p, ("FIELD",))]
    signs = (n + 1 for n in stops if getattr(piece_at(pieces, n + 1), "text", "") in (":", "-"))
    return sorted(n + 1 for n in {*stops, *signs} if n + 1 < len(pieces))


def _head(pieces: list[Piece], first: int, made: Table) -> _Head | None:
    """ "Creek: (5 plants)", "by the pit, (two plants)": what may name a place from there on, a count behind."""
    name = lies = _behind_part(pieces, first, made)
    part = lies > first
    while lies < len(pieces) and _leads(pieces[lies], made):
        lies += 1
    end = lies
    while end < len(pieces) and end - lies < LONGEST_NAME and _names(pieces[end]):
        end += 1
    sign = piece_at(pieces, end)
    mark = sign.text if sign is not None and sign.text in (":", ",", "-", "=") else ""
    count = piece_at(pieces, end + bool(mark))
    if end == lies or (count_told(count) is None and not is_any(count, ("NONE",))):
        return None
    known = end - lies == 1 and is_any(pieces[lies], ("SPOT",))
    led = lies > name or (known and made.has("lies_by", pieces[lies].text.split(" ")[0]))
    told = is_any(piece_at(pieces, end + bool(mark) + 1), ("PLANTS",))
    return _Head(first, first if part else lies, end, known or part, (led, mark, told), part)


def _behind_part(pieces: list[Piece], first: int, made: Table) -> int:
    """ "Front by (road)", "bottom near (the creek)": where what a part of the field lies at begins, else ``first``."""
    words = pieces[first].text.split(" ")
    if not made.has("part_of_field", words[0]):
        return first
    if len(words) > 1:
        return first + made.has("lies_by", " ".join(words[1:]))
    after = piece_at(pieces, first + 1)
    if after is not None and is_any(after, ("SPOT",)) and made.has("lies_by", after.text.split(" ")[0]):
        return first + 1  # "front (by the road)"
    return first + 2 * (after is not None and made.has("lies_by", after.text))


def _leads(piece: Piece, made: Table) -> bool:
    """Does a word lead to a place ("by", "the"), and name none?"""
    manners = ("at", "lies_by", "article", "determiner", "name_article")
    return not is_any(piece, ("SPOT", "FIELD")) and any(made.has(manner, piece.text) for manner in manners)


def _names(piece: Piece) -> bool:
    """May a word be the name of a place?"""
    return piece.kind == "word" and piece.types.keys() <= _MAY_NAME and count_told(piece) is None


def _may_be_place(draft: Draft, head: _Head, before: int, made: Table) -> bool:
    """No field of the crew as it is called; and led to as the others are, or a word that places are called by.

    A word of one of its names must go on several places: "Tower: 5 plants" may be short for Water Tower.
    """
    crew = crew_of(draft.fields)
    said = " ".join(piece.text for piece in draft.pieces[head.name : head.end])
    if said in crew.names:
        return False
    if head.build[0]:
        return True
    short = any(piece.text in parts for piece in draft.pieces[head.name : head.end] for parts in crew.parts)
    return made.has("landmark", said.split(" ")[-1]) and (before >= LEAST_BEFORE or not short)
