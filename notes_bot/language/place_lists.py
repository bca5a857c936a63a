"""Places with a list each: "gate 2 0 3 / mid 0 0 1 / far 4 2 0", a line a place, "gate 3 pl 5, far 3 pl 0".

The same build again and again tells that the words before the numbers are places: each gets its plants, where they were
only told by the length of its list.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from notes_bot.language.joining import is_any
from notes_bot.language.pieces import Piece
from notes_bot.language.words import Entry, Table

LONGEST_NAME = 3
"""Pieces in the name of a place (judgement)."""
MOST_PLANTS = 30
"""More plants than this in one place are dug by nobody: rather a question (judgement)."""
_SIDES = frozenset("nsew")
"""Letters for the sides of a field, places where two of them are told of."""
_MAY_NAME = frozenset({"SPOT", "CHECK", "LINK", "BELOW", "NEW", "OLD", "TEXT", "MEASURE", "TOPIC", "FIELD_WORD"})
"""What a word that names a place may mean besides."""
_PLANTS = (Entry("PLANTS", "plants"),)
_BEHIND = ("SPOT", "CHECK", "MOSTLY", "DUG", "TOOL")
"""What may stand right behind the list of a place."""


@dataclass(slots=True)
class _Row:
    """One place: its pieces from ``first`` to ``end`` (exclusive), its name, how many plants, and what they had."""

    first: int
    end: int
    name: list[Piece]
    plants: int | None
    counts: list[Piece]
    dashed: bool
    side: bool
    """Is its name a word or a letter for a side, and nothing else?"""

    @property
    def known(self) -> bool:
        """Is it a word for a place or a check strip?"""
        return any(is_any(piece, ("SPOT", "CHECK")) for piece in self.name)

    @property
    def listed(self) -> bool:
        """One number a plant?"""
        return len(self.counts) > 1 and self.plants in (None, len(self.counts))

    @property
    def summed(self) -> bool:
        """Plants, and what was on all of them?"""
        return len(self.counts) == 1 and self.plants is not None and self.plants > 1


def places_listed(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with every such place as a SPOT or CHECK, its plants and its counts."""
    rows = _rows(pieces, made)
    rows = [row for row in rows if _same_build(row, rows)]
    if not _are_places(rows):
        return pieces
    out: list[Piece] = []
    at = 0
    for row in rows:
        out += pieces[at : row.first]
        out += _told(row)
        at = row.end
    return [*out, *pieces[at:]]


def _are_places(rows: list[_Row]) -> bool:
    """At least two, one of them known as a place or two of them sides, no name twice, more than half of them known."""
    names = {" ".join(piece.text for piece in row.name) for row in rows}
    sides = sum(row.side for row in rows)
    known = sum(row.known or (row.side and sides > 1) or (row.side and any(r.known for r in rows)) for row in rows)
    return len(rows) > 1 and len(names) == len(rows) and 2 * known >= len(rows)


def _same_build(row: _Row, rows: list[_Row]) -> bool:
    """Is there another row told as this one?"""
    if row.summed:
        return sum(other.summed for other in rows) > 1
    if not row.listed or (row.dashed and not any(other is not row and other.listed for other in rows)):
        return False
    return sum(other.listed for other in rows) > 1


def _rows(pieces: list[Piece], made: Table) -> list[_Row]:
    """All stretches between stops that are built as a place with counts."""
    starts = [0]
    starts += [n + 1 for n, p in enumerate(pieces) if p.kind in ("break", "line") or is_any(p, ("FIELD",))]
    found: list[_Row] = []
    for start in starts:
        row = _row(pieces, start, made) if not found or start >= found[-1].end else None
        while row is not None:
            found.append(row)
            row = _row(pieces, row.end, made)  # "gate 2 0 3 mid 0 0 1"
    return found


def _row(pieces: list[Piece], first: int, made: Table) -> _Row | None:
    """ "gate 2 0 3", "3 n end 0 2 1", "gate: 3 pl 5": a place with its plants and what was on them."""
    n = first
    ahead = _whole(_at(pieces, n))
    n += ahead is not None
    name: list[Piece] = []
    while (piece := _at(pieces, n)) is not None and len(name) < LONGEST_NAME and _names(piece, made):
        name.append(piece)
        n += 1
    if first == 0 and ahead is None:
        while name and not is_any(name[0], ("SPOT", "CHECK")):
            first, name = first + 1, name[1:]  # "gravel pit gate 2 0 3": the field's name before it
    if not name:
        return None
    while (piece := _at(pieces, n)) is not None and piece.text in (":", "=", "-"):
        n += 1
    plants = ahead
    if ahead is None and _whole(_at(pieces, n)) is not None and is_any(_at(pieces, n + 1), ("PLANTS",)):
        plants = _whole(_at(pieces, n))
        n += 2
        n += getattr(_at(pieces, n), "text", "") in (":", "=", "-")
    counts, end, dashed = _counts(pieces, n)
    stops = _ends(_at(pieces, end)) or is_any(_at(pieces, end), _BEHIND) or _names_side(pieces, end)
    dated = dashed and pieces[end - 1].kind == "day" and not any(is_any(p, ("SPOT", "CHECK")) for p in name)
    if not counts or dated or not stops or (plants is not None and not 0 < plants <= MOST_PLANTS):
        return None
    side = len(name) == 1 and (name[0].text in _SIDES or made.has("direction", name[0].text))
    return _Row(first, end, name, plants, counts, dashed, side)


def _names_side(pieces: list[Piece], n: int) -> bool:
    """A letter for a side with numbers behind it; "w" is white there."""
    piece = _at(pieces, n)
    return (
        piece is not None
        and piece.text in _SIDES
        and not is_any(piece, ("COLOUR",))
        and _whole(_at(pieces, n + 1)) is not None
    )


def _names(piece: Piece, made: Table) -> bool:
    """May the word be of the name of a place?"""
    if piece.kind != "word" or is_any(piece, ("FIELD",)):
        return False
    if piece.text in _SIDES:
        return True
    plain = not made.has("mark_noun", piece.text) and not made.has("heading", piece.text)
    kinds = piece.types.keys() - ({"LOOK"} if is_any(piece, ("CHECK",)) else set())  # "chk"
    return plain and kinds <= _MAY_NAME and kinds != {"LINK"}


def _counts(pieces: list[Piece], n: int) -> tuple[list[Piece], int, bool]:
    """The numbers from n on, where they end, and whether a dash or a slash is all that tells two of them apart."""
    counts: list[Piece] = []
    dashed = False
    while (piece := _at(pieces, n)) is not None:
        if _whole(piece) is not None:
            counts.append(piece)
        elif piece.kind in ("range", "ratio", "series", "day") and not counts and _in_figures(piece):
            parts = [int(part) for part in re.split(r"[-/]", piece.text)]
            dashed = dashed or len(parts) == 2
            counts += [Piece("number", str(part), piece.start, piece.end, (), part) for part in parts]
        elif piece.text == "," and counts and _listed_on(pieces, n + 1):
            pass
        else:
            break
        n += 1
    return counts, n, dashed


def _in_figures(piece: Piece) -> bool:
    """ "15-12", "8/5/11": nothing but figures, and dashes or slashes between them."""
    return re.fullmatch(r"\d{1,3}(?:[-/]\d{1,3})+", piece.text) is not None


def _listed_on(pieces: list[Piece], n: int) -> bool:
    """Is what stands behind a comma the next number of the list, and nothing else?"""
    behind = _at(pieces, n + 1)
    return _whole(_at(pieces, n)) is not None and (_ends(behind) or _whole(behind) is not None)


def _ends(piece: Piece | None) -> bool:
    return piece is None or piece.kind in ("break", "line")


def _whole(piece: Piece | None) -> int | None:
    """The whole number a piece is."""
    return piece.value if piece is not None and piece.kind == "number" and isinstance(piece.value, int) else None


def _at(pieces: list[Piece], n: int) -> Piece | None:
    return pieces[n] if 0 <= n < len(pieces) else None


def _told(row: _Row) -> list[Piece]:
    """The place as a word for one, so many plants, and the counts."""
    first, last = row.name[0], row.name[-1]
    text = " ".join(piece.text for piece in row.name)
    check = next((piece.types["CHECK"] for piece in row.name if is_any(piece, ("CHECK",))), None)
    entry = check or Entry("SPOT", text)
    number = row.plants or len(row.counts)
    return [
        Piece("place", text, first.start, last.end, (entry,), None, first.spaced),
        Piece("sign", ":", last.end, last.end),
        Piece("number", str(number), last.end, last.end, (), number),
        Piece("word", "", last.end, last.end, _PLANTS),
        *row.counts,
        *(
            [Piece("word", "", row.counts[0].end, row.counts[0].end, (Entry("FEMALES", "female"),))]
            if row.summed
            else []
        ),
    ]
