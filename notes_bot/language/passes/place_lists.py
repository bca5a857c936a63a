"""Places with a list each: "gate 2 0 3 / mid 0 0 1 / far 4 2 0", a line a place, "gate 3 pl 5, far 3 pl 0".

Also with a share of its plants ("gate 3of5, mid 0of5"), and with counts by color where the place is a letter or the
word stands before its count ("a 5pl 3cy; b 5pl 0cy", "low pl4 w6, high pl4 w0").

The same build again and again tells that the words before the numbers are places: each gets its plants, where they were
only told by the length of its list.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece, ends_clause, piece_at
from notes_bot.language.lexicon.times import MOST_PLANTS
from notes_bot.language.lexicon.words import Entry, Table, anywhere
from notes_bot.language.names.naming import crew_of

LONGEST_NAME = 3
"""Pieces in the name of a place (judgement)."""
_SIDES = frozenset("nsew")
"""Letters for the sides of a field, places where two of them are told of."""
_LETTERS = frozenset("abcdfghij")
"""Letters that places are called by, from the first of them on."""
_MAY_NAME = frozenset(
    {"SPOT", "CHECK", "LINK", "BELOW", "NEW", "OLD", "TEXT", "MEASURE", "TOPIC", "FIELD_WORD", "NODULE", "WEATHER"}
)
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
    kinds: tuple[Piece | None, ...] = ()
    """Where counts are told by color or as females: the word for each."""
    slashed: bool = False
    """Are its two counts told with a slash, "3/5", which may be a share?"""
    share: bool = False
    """So many of so many plants: "3 of 5", "3/5 pos"."""
    dated: bool = False
    """Is it rather a word and a day: "far 1/5" where the other places are no shares?"""

    @property
    def known(self) -> bool:
        """Is it a word for a place or a check strip?"""
        return any(is_any(piece, ("SPOT", "CHECK")) for piece in self.name)

    @property
    def listed(self) -> bool:
        """One number a plant?"""
        plain = not self.kinds and not self.share
        return plain and len(self.counts) > 1 and self.plants in (None, len(self.counts))

    @property
    def summed(self) -> bool:
        """Plants, and what was on all of them?"""
        one = len(self.counts) == 1 or bool(self.kinds)
        return one and not self.share and self.plants is not None and self.plants > 0

    @property
    def letter(self) -> str:
        """The letter it is called by: "a 5pl 3cy"."""
        alone = len(self.name) == 1 and len(self.name[0].text) == 1
        return self.name[0].text if alone and self.plants is not None else ""


def places_listed(pieces: list[Piece], made: Table, fields: tuple[str, ...] = ()) -> list[Piece]:
    """The pieces with every such place as a SPOT or CHECK, its plants and its counts.

    A side that a name of the crew begins with is none: "North: 5 pl .." where there is a North Forty.
    """
    rows = _rows(pieces, made)
    if any(row.side and row.name[0].text in crew_of(fields).firsts for row in rows):
        return pieces
    if _is_doubtful(rows):
        return [_no_day(piece, rows) for piece in pieces]
    rows = _with_shares(rows)
    if all(row.known or not row.kinds for row in rows):
        rows = [row for row in rows if not row.kinds]  # plainly told: see places.py
    rows = _of_one_build(rows)
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
    letters = [row.letter for row in rows]
    if len(rows) > 1 and letters == [chr(ord("a") + n) for n in range(len(rows))]:
        return True
    some = any(row.known for row in rows)
    known = sum(row.known or (row.side and (sides > 1 or some)) for row in rows)
    return len(rows) > 1 and len(names) == len(rows) and 2 * known >= len(rows)


def _with_shares(rows: list[_Row]) -> list[_Row]:
    """ "Gate 3/5, mid 0/5": fractions of one and the same number, or one said to be infested, are shares everywhere."""
    slashed = [row for row in rows if row.slashed]
    wholes = {row.counts[1].value for row in slashed}
    fit = len(slashed) > 1 and all(row.counts[0].value <= row.counts[1].value for row in slashed)
    sure = any(row.share for row in rows) or (len(wholes) == 1 and min(wholes) > 2)
    told = [replace(row, share=row.share or (row.slashed and fit and sure)) for row in rows]
    return [row for row in told if row.share or not row.dated]


def _is_doubtful(rows: list[_Row]) -> bool:
    """ "Gate 3/8, hill 2/6": two plants each with so many, or so many of so many? That is asked.

    And "gate 12/5, hill 0/5": twelve females on five plants, or two plants?
    """
    if _over_one_number([row for row in rows if row.slashed]):
        return True
    slashed = [row for row in rows if row.slashed and not row.dated]
    fit = all(row.counts[0].value <= row.counts[1].value for row in slashed)
    wholes = {row.counts[1].value for row in slashed}
    plain = any(row.share or (row.listed and not row.slashed) for row in rows)
    return len(slashed) > 1 and fit and not plain and len(wholes) > 1 and min(wholes) > 2


def _over_one_number(rows: list[_Row]) -> bool:
    """Is the second number the same everywhere, as plants would be, and more than that told before it somewhere?"""
    wholes = {row.counts[1].value for row in rows}
    more = any(row.counts[0].value > row.counts[1].value for row in rows)
    return len(rows) > 1 and len(wholes) == 1 and min(wholes) > 2 and more and not any(row.share for row in rows)


def _no_day(piece: Piece, rows: list[_Row]) -> Piece:
    """A fraction of a doubtful place as one, and no day."""
    at = any(row.slashed and row.counts[0].start == piece.start for row in rows)
    if not at or piece.kind != "day":
        return piece
    return replace(piece, kind="ratio", value=tuple(int(part) for part in piece.text.split("/")))


def _of_one_build(rows: list[_Row]) -> list[_Row]:
    """The rows of which another one is told as they are."""
    shares, sums, lists = (sum(getattr(row, built) for row in rows) for built in ("share", "summed", "listed"))
    often = {"share": shares > 1, "summed": sums > 1, "listed": lists > 1}
    return [row for row in rows if any(getattr(row, built) and often[built] for built in often)]


def _rows(pieces: list[Piece], made: Table) -> list[_Row]:
    """All stretches between stops that are built as a place with counts."""
    starts = [0]
    starts += [n + 1 for n, p in enumerate(pieces) if p.kind in ("break", "line") or is_any(p, ("FIELD",))]
    starts = [n + (n > 0 and getattr(piece_at(pieces, n), "text", "") == ":") for n in starts]
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
    ahead = _whole(piece_at(pieces, n))
    n += ahead is not None
    name: list[Piece] = []
    while (piece := piece_at(pieces, n)) is not None and len(name) < LONGEST_NAME and _names(piece, made):
        name.append(piece)
        n += 1
    if first == 0 and ahead is None:
        while name and not is_any(name[0], ("SPOT", "CHECK")):
            first, name = first + 1, name[1:]  # "gravel pit gate 2 0 3": the field's name before it
    if not name:
        return None
    while (piece := piece_at(pieces, n)) is not None and piece.text in (":", "=", "-"):
        n += 1
    plants, n = (ahead, n) if ahead is not None else _plants_at(pieces, n)
    told = _told_at(pieces, n, plants, name, made)
    if not told.counts or not _stops(pieces, told, made) or (plants is not None and not 0 < plants <= MOST_PLANTS):
        return None
    placed = any(is_any(piece, ("SPOT", "CHECK")) for piece in name)
    dated = told.dashed and not told.share and pieces[told.end - 1].kind == "day" and not placed
    side = len(name) == 1 and (name[0].text in _SIDES or made.has("direction", name[0].text))
    return _Row(
        first, told.end, name, plants, told.counts, told.dashed, side, told.kinds, told.slashed, told.share, dated
    )


def _plants_at(pieces: list[Piece], n: int) -> tuple[int | None, int]:
    """ "3 pl", "pl3": how many plants are told there, and what follows."""
    number, word = piece_at(pieces, n), piece_at(pieces, n + 1)
    if is_any(number, ("PLANTS",)):
        number, word = word, number
    plants = _whole(number)
    if plants is None or not is_any(word, ("PLANTS",)):
        return None, n
    return plants, n + 2 + (getattr(piece_at(pieces, n + 2), "text", "") in (":", "=", "-"))


@dataclass(slots=True)
class _Told:
    """What is told of one place: see :class:`_Row`; and where it ends."""

    counts: list[Piece]
    end: int
    dashed: bool
    slashed: bool
    kinds: tuple[Piece | None, ...] = ()
    share: bool = False


def _told_at(pieces: list[Piece], n: int, plants: int | None, name: list[Piece], made: Table) -> _Told:
    """The counts from n on: a list, counts by color, or a share of the plants."""
    counts, end, dashed = _counts(pieces, n)
    told = _Told(counts, end, dashed, dashed and "/" in pieces[n].text)
    if plants is not None:
        shaded, shaded_end = _shaded(pieces, n)
        if shaded and shaded_end >= end and not any(is_any(p, ("FIELD_WORD",)) for p in name):
            return _Told([count for count, _ in shaded], shaded_end, False, False, tuple(word for _, word in shaded))
        return told
    if of := _of_so_many(pieces, n):
        end = of + 1 + is_any(piece_at(pieces, of + 1), ("PLANTS",))
        told = _Told([pieces[n], pieces[of]], end, False, False, share=True)
    if (told.slashed or told.share) and made.has("infest_word", getattr(piece_at(pieces, told.end), "text", "")):
        told.share, told.end = True, told.end + 1
    return told


def _stops(pieces: list[Piece], told: _Told, made: Table) -> bool:
    """Does nothing stand behind the counts that could belong to them?"""
    end = told.end
    stops = ends_clause(piece_at(pieces, end)) or is_any(piece_at(pieces, end), _BEHIND) or _names_side(pieces, end)
    stops = stops or _labels_next(pieces, end)
    return stops or ((told.share or bool(told.kinds)) and _opens_row(pieces, end, made))


def _opens_row(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "a 5pl 3cy b 5pl 0cy": does the name of a place with plants or a count behind it stand there?"""
    named = n
    while (piece := piece_at(pieces, n)) is not None and n < named + LONGEST_NAME and _names(piece, made):
        n += 1
    return n > named and (_whole(piece) is not None or is_any(piece, ("PLANTS",)))


_Counted = tuple[Piece, Piece | None]
"""A count, and the color or the word for females that tells what it counts."""


def _shaded(pieces: list[Piece], n: int) -> tuple[tuple[_Counted, ...], int]:
    """ "3w 1y", "w6", "3cy": counts with the word for each, from n on, and where they end."""
    found: list[_Counted] = []
    first = _whole(piece_at(pieces, n)) is not None  # each count before its word, or behind it
    while (piece := piece_at(pieces, n)) is not None and (behind := piece_at(pieces, n + 1)) is not None:
        count, word = (piece, behind) if first else (behind, piece)
        if _whole(count) is None or not is_any(word, ("COLOUR", "FEMALES")):
            break
        found.append((count, word))
        n += 2
    return tuple(found), n


def _of_so_many(pieces: list[Piece], n: int) -> int:
    """Where the plants of "3 of 5" stand; 0 for no such share."""
    some, of, whole = _whole(piece_at(pieces, n)), piece_at(pieces, n + 1), _whole(piece_at(pieces, n + 2))
    if some is None or whole is None or of is None or of.text not in anywhere("share_of"):
        return 0
    return n + 2 if some <= whole and whole else 0


def _labels_next(pieces: list[Piece], n: int) -> bool:
    """ "gate=2 0 1 creek=0 0 0": does the label of the next place stand there?"""
    piece, sign = piece_at(pieces, n), piece_at(pieces, n + 1)
    return piece is not None and piece.kind == "word" and sign is not None and sign.text in (":", "=")


def _names_side(pieces: list[Piece], n: int) -> bool:
    """A letter for a side with numbers behind it; "w" is white there."""
    piece = piece_at(pieces, n)
    return (
        piece is not None
        and piece.text in _SIDES
        and not is_any(piece, ("COLOUR",))
        and _whole(piece_at(pieces, n + 1)) is not None
    )


def _names(piece: Piece, made: Table) -> bool:
    """May the word be of the name of a place?"""
    if piece.kind != "word" or is_any(piece, ("FIELD",)):
        return False
    if piece.text in _SIDES or piece.text in _LETTERS:
        return True
    plain = not made.has("mark_noun", piece.text) and not made.has("heading", piece.text)
    kinds = piece.types.keys() - ({"LOOK"} if is_any(piece, ("CHECK",)) else set())  # "chk"
    return plain and kinds <= _MAY_NAME and kinds != {"LINK"}


def _counts(pieces: list[Piece], n: int) -> tuple[list[Piece], int, bool]:
    """The numbers from n on, where they end, and whether a dash or a slash is all that tells two of them apart."""
    counts: list[Piece] = []
    dashed = False
    while (piece := piece_at(pieces, n)) is not None:
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
    behind = piece_at(pieces, n + 1)
    return _whole(piece_at(pieces, n)) is not None and (ends_clause(behind) or _whole(behind) is not None)


def _whole(piece: Piece | None) -> int | None:
    """The whole number a piece is."""
    return piece.value if piece is not None and piece.kind == "number" and isinstance(piece.value, int) else None


def _told(row: _Row) -> list[Piece]:
    """The place as a word for one, so many plants, and the counts."""
    first, last = row.name[0], row.name[-1]
    text = " ".join(piece.text for piece in row.name)
    check = next((piece.types["CHECK"] for piece in row.name if is_any(piece, ("CHECK",))), None)
    entry = check or Entry("SPOT", text)
    if row.share:
        return _told_as_share(row, Piece("place", text, first.start, last.end, (entry,), None, first.spaced))
    number = row.plants or len(row.counts)
    return [
        Piece("place", text, first.start, last.end, (entry,), None, first.spaced),
        Piece("sign", ":", last.end, last.end),
        Piece("number", str(number), last.end, last.end, (), number),
        Piece("word", "", last.end, last.end, _PLANTS),
        *_counts_told(row),
    ]


def _counts_told(row: _Row) -> list[Piece]:
    """The counts of a place, each with the word for what it counts."""
    if not row.summed:
        return row.counts
    if not row.kinds:
        end = row.counts[0].end
        return [row.counts[0], Piece("word", "", end, end, (Entry("FEMALES", "female"),))]
    told: list[Piece] = []
    for count, word in zip(row.counts, row.kinds, strict=True):
        entries = tuple(e for e in word.entries if e.type in ("COLOUR", "FEMALES")) if word is not None else ()
        told += [count, Piece("word", getattr(word, "text", ""), count.end, count.end, entries)]
    return told


def _told_as_share(row: _Row, place: Piece) -> list[Piece]:
    """ "gate: 3 of 5 plants infested", "mid: none, 5 plants"."""
    some, whole = row.counts
    end = whole.end
    of = [
        some,
        Piece("word", "of", end, end, (Entry("LINK", "link"),)),
        whole,
        Piece("word", "", end, end, _PLANTS),
        Piece("word", "infested", end, end, (Entry("HAD", "infested"),)),
    ]
    return [place, Piece("sign", ":", place.end, place.end), *of]
