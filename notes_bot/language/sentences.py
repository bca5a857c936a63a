"""What is told in full sentences: plants place by place before what was found there, counts that "I would call yellow".

"I dug five plants near the gate and five near the creek. Near the gate I counted nine white females."
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass

from notes_bot.language.joining import is_any
from notes_bot.language.pieces import Piece, count_told
from notes_bot.language.words import Entry, Table, anywhere

LEAST_PLACES = 2
"""Places from which each has its own plants."""
LONGEST_PLACE = 4
"""Words of a place with what leads to it, "down by the gate" (judgement)."""
LONGEST_SAID = 8
"""Words between a count and its color, "that I would rather call" (judgement)."""
MOST_AT_PLACE = 40
"""More plants than this are dug in no place (judgement)."""
_PLANTS = (Entry("PLANTS", "plants"),)
_HAD = (Entry("HAD", "had"),)
_SPOT = (Entry("SPOT", "spot"),)


@dataclass(frozen=True, slots=True)
class _Told:
    """So many plants at a place: where its pieces end (exclusive), the number, the place's name and where it stands."""

    end: int
    number: Piece
    name: str
    at: Piece

    @property
    def end_at(self) -> int:
        """Where it ends in the text."""
        return self.at.end

    @property
    def plants(self) -> int:
        """How many were dug there."""
        return count_told(self.number) or 0


def places_first(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Five plants near the gate and five near the creek": a place and its plants each, where told of again."""
    for n, piece in enumerate(pieces):
        rows = _rows(pieces, n, made) if count_told(piece) is not None and _begins(pieces, n) else []
        known = any(is_any(row.at, ("SPOT",)) for row in rows)
        if len(rows) < LEAST_PLACES or not known or len({row.name for row in rows}) < len(rows):
            continue
        again = [met for row in rows for met in _again(pieces, rows[-1].end, row.name, made)]
        if {name for _, _, name in again} == {row.name for row in rows}:
            return [*pieces[:n], *_placed(rows), *_with_spots(pieces, rows[-1].end, again)]
        behind = pieces[rows[-1].end :]
        if not again and not any(is_any(p, ("SPOT", "CHECK", "FIELD")) for p in behind):
            total = sum(row.plants for row in rows)
            whole = Piece("number", str(total), piece.start, rows[-1].end_at, (), total)
            return [*pieces[:n], whole, Piece("word", "", rows[-1].end_at, rows[-1].end_at, _PLANTS), *behind]
    return pieces


def _placed(rows: list[_Told]) -> list[Piece]:
    """Each place with its plants behind it."""
    out: list[Piece] = []
    for row in rows:
        out.append(_spot(row.name, row.at.start, row.at.end))
        out.append(Piece("number", str(row.plants), row.number.start, row.number.end, (), row.plants))
        out.append(Piece("word", "", row.number.end, row.number.end, _PLANTS))
        out.append(Piece("break", ",", row.at.end, row.at.end, (), "soft"))
    return out[:-1]


def _with_spots(pieces: list[Piece], at: int, again: list[tuple[int, int, str]]) -> list[Piece]:
    """What stands behind the places with their plants, each of them a place where it is told of again."""
    out: list[Piece] = []
    for first, last, name in sorted(again):
        out += [*pieces[at:first], _spot(name, pieces[first].start, pieces[last - 1].end)]
        at = last
    return [*out, *pieces[at:]]


def _spot(name: str, start: int, end: int) -> Piece:
    """A place's name as one piece."""
    return Piece("place", name, start, end, _SPOT)


def _begins(pieces: list[Piece], n: int) -> bool:
    """Does a number stand where plants are told of: behind digging, or with the word behind it?"""
    before = pieces[n - 1] if n else None
    behind = pieces[n + 1] if n + 1 < len(pieces) else None
    return is_any(before, ("DUG",)) or is_any(behind, ("PLANTS",))


def _rows(pieces: list[Piece], n: int, made: Table) -> list[_Told]:
    """ "5 [plants] by the gate and 5 [plants] by the creek": each, with nothing between them but "and", to a stop."""
    rows: list[_Told] = []
    while n < len(pieces) and 0 < (count_told(pieces[n]) or 0) <= MOST_AT_PLACE:
        k = n + 1 + is_any(pieces[n + 1] if n + 1 < len(pieces) else None, ("PLANTS", "DUG"))
        stop = k
        while stop < len(pieces) and pieces[stop].kind == "word" and pieces[stop].text not in anywhere("and_then"):
            stop += 1
        name = _without_lead(pieces[k:stop], made)
        if not name or name == _words(pieces[k:stop]) or stop - k > LONGEST_PLACE:
            return rows
        rows.append(_Told(stop, pieces[n], " ".join(name), pieces[stop - 1]))
        n = stop
        while n < len(pieces) and (pieces[n].text == "," or pieces[n].text in anywhere("and_then")):
            n += 1
    ended = bool(rows) and (rows[-1].end == len(pieces) or pieces[rows[-1].end].kind in ("break", "line"))
    return rows if ended else []


def _words(pieces: list[Piece]) -> list[str]:
    return [word for piece in pieces for word in piece.text.split(" ")]


def _without_lead(pieces: list[Piece], made: Table) -> list[str]:
    """The words of a place without "down by the" before it."""
    return list(itertools.dropwhile(lambda word: _leads(word, made), _words(pieces)))


def _leads(word: str, made: Table) -> bool:
    return any(made.has(manner, word) for manner in ("at", "lies_by", "leads_noun", "article", "name_link"))


def _again(pieces: list[Piece], start: int, name: str, made: Table) -> list[tuple[int, int, str]]:
    """Where a place is told of again at the start of a clause, with what leads to it."""
    found = []
    for k in range(start + 1, len(pieces)):
        if pieces[k - 1].kind not in ("break", "line") and pieces[k - 1].text not in anywhere("and_then"):
            continue
        ends = range(k + 1, min(k + LONGEST_PLACE, len(pieces)) + 1)
        last = next((end for end in ends if " ".join(_without_lead(pieces[k:end], made)) == name), None)
        if last is not None:
            found.append((k, last, name))
    return found


def counted_there(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "I counted six white on the first and one on the second": the color behind it makes no sum of it."""
    out = list(pieces)
    for n, piece in enumerate(pieces[:-2]):
        led = n > 0 and made.has("who_counts", pieces[n - 1].text)
        coloured = count_told(pieces[n + 1]) is not None and is_any(pieces[n + 2], ("COLOUR",))
        if led and coloured and "TOTAL" in piece.types:
            out[n] = Piece("word", piece.text, piece.start, piece.end, _HAD, None, piece.spaced)
    return out


def shades_said(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Eleven white and four that I would call yellow", "4 turning yellow": a count of that color, beside another."""
    for n, piece in enumerate(pieces):
        count = count_told(piece)
        if count is None or n + 1 == len(pieces) or not made.has("shade_lead", pieces[n + 1].text.split(" ")[0]):
            continue
        k = n + 1
        while k < len(pieces) and k <= n + LONGEST_SAID and _leads_shade(pieces[k], made):
            k += 1
        shade = _shade(pieces[k], made) if k < len(pieces) else None
        if shade is None or not _counted_before(pieces, n):
            continue
        end = k + 1
        if end + 1 < len(pieces) and made.has("likened", pieces[end].text) and is_any(pieces[end + 1], ("COLOUR",)):
            end += 2  # "more yellow than white"
        told = Piece("number", str(count), piece.start, piece.end, (), count, piece.spaced)
        return [*pieces[:n], told, shade, *shades_said(pieces[end:], made)]
    return pieces


def _leads_shade(piece: Piece, made: Table) -> bool:
    return piece.kind == "word" and all(made.has("shade_said", word) for word in piece.text.split(" "))


def _shade(piece: Piece, made: Table) -> Piece | None:
    """The color a piece is, or ends with: "turning yellow"."""
    if piece.kind != "word":
        return None
    *before, last = piece.text.split(" ")
    entries = tuple(entry for entry in made.singles.get(last, ()) if entry.type == "COLOUR")
    if len(last) == 1 or not entries or not all(made.has("shade_said", word) for word in before):
        return None
    return Piece("word", last, piece.end - len(last), piece.end, entries)


def _counted_before(pieces: list[Piece], n: int) -> bool:
    """Is a color or females counted before, in the same sentence, and are no plants told by this number?"""
    before = pieces[n - 1] if n else None
    if is_any(before, ("DUG", "TOOL")):
        return False
    k = n - 1
    while k > 0 and not (pieces[k].kind == "line" or pieces[k].value == "hard"):
        if is_any(pieces[k], ("COLOUR",)) and count_told(pieces[k - 1]) is not None:
            return True
        k -= 1
    return False
