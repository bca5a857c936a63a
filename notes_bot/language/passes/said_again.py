"""Counts given again in the same breath: "5w 2y. no sorry 6w 2y", "2, 4, 5, 0, 1 .. no wait last one 3".

The counts told last stand in place of those before them, and the answer says so. Only behind words for putting right,
with nothing else between, and where both tell of the same: colors that were counted before, or as many plants.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece, count_told, ends_clause, piece_at
from notes_bot.language.lexicon.scan import NTH_ENDS
from notes_bot.language.lexicon.tokens import Slip
from notes_bot.language.lexicon.words import Table, anywhere
from notes_bot.language.passes.put_in_place import put_in_place
from notes_bot.language.passes.repairs import number_again, repaired

LEAST_LISTED = 3
"""Numbers in a row from which they are a list, one a plant (judgement)."""
MOST_BETWEEN = 14
"""Pieces between the counts and those that stand in their place, stops among them (judgement)."""
_STOPS = frozenset({",", ".", "-", "(", "!", ":", "/", ";"})
"""Signs that may stand among the words for putting right."""
_JOINS = frozenset({",", "+", "&", "/"})
"""Signs that may stand between two counts of one row."""


@dataclass(frozen=True, slots=True)
class _Row:
    """Counts told one behind the other: by color, one a plant, or none at all."""

    kind: str
    """shades, list, none"""
    counts: tuple[tuple[str, tuple[Piece, ...]], ...]
    """The pieces of each count with its color ("" in a list)."""
    end: int
    shade_first: bool = False

    @property
    def shades(self) -> frozenset[str]:
        """The colors counted."""
        return frozenset(shade for shade, _ in self.counts)


@cache
def _begins_repair() -> frozenset[str]:
    """First words of what is said for putting right, of any language."""
    manners = ("repairs", "spoken_repair", "stopped_repair", "beside_repair")
    return frozenset(phrase.split(" ")[0] for manner in manners for phrase in anywhere(manner))


def said_again(pieces: list[Piece], made: Table) -> tuple[list[Piece], list[Slip]]:
    """The pieces of a message with counts that were given again told once, and what the answer says of it."""
    begins = _begins_repair()
    if not any("NOT" in p.types or p.text.partition(" ")[0] in begins for p in pieces):
        return pieces, []
    noted = all(any(is_any(p, kinds) for p in pieces) for kinds in (("PLANTS", "DUG"), ("COLOUR", "FEMALES")))
    slips: list[Slip] = []
    n = 0
    while n < len(pieces):
        row = _row_at(pieces, n)
        put = (_again(pieces, row, made) or _one_of_list(pieces, row, made)) if row is not None else None
        if put is None and pieces[n].kind in ("word", "number", "day", "stage"):
            put = put_in_place(pieces, n, made) or (_number_again(pieces, n, made) if noted else None)
        if put is not None:
            told, end, read = put
            slips.append(Slip("near_word", read, pieces[n].start, pieces[end - 1].end))
            pieces = [*pieces[:n], *told, *pieces[end:]]
            n += len(told)
            continue
        n = row.end if row is not None else n + 1
    return pieces, slips


_Put = tuple[list[Piece], int, str]
"""What stands for the pieces up to an end (exclusive), and how it was read."""


def _number_again(pieces: list[Piece], n: int, made: Table) -> _Put | None:
    """A number given again, but not "(I wrote) 9 white, make that 19": that puts right what was sent before."""
    put = number_again(pieces, n, made)
    for piece in reversed(pieces[:n] if put is not None else []):
        if made.has("wrote", piece.text):
            return None
        if ends_clause(piece):
            break
    return put


def _again(pieces: list[Piece], row: _Row, made: Table) -> _Put | None:
    """ "5w 2y. no sorry 6w 2y", "none. no wait 1 white": the second row in place of the first."""
    at, words, stopped = _words_between(pieces, row.end)
    other = _row_at(pieces, at)
    if other is None or not words or not _closed(pieces, other.end):
        return None
    denies = stopped and _denies(pieces[row.end : at], made)
    plain = stopped and row.kind == other.kind and _plainly_no(words, made) and not denies
    if not (repaired(words, made) or plain) or not _tells_same(row, other):
        return None
    kept = [p for shade, told in row.counts if shade not in other.shades for p in told] if row.kind == "shades" else []
    if other.kind == "none":
        kept = []
    now = [p for p in pieces[at : other.end] if p.text not in _JOINS]
    read = " ".join(p.text for p in now)
    return [*kept, *now], other.end, read


def _plainly_no(words: Sequence[str], made: Table) -> bool:
    """ "No", "não", "oh no": puts right where a stop stands beside it and the same is told again."""
    return any(made.has(manner, " ".join(words)) for manner in ("spoken_repair", "stopped_repair"))


def _denies(between: list[Piece], made: Table) -> bool:
    """ "(4 blancas 9 amarillas), no (9 blancas 4 amarillas)": a "no" behind a comma that also means "not"."""
    return [p.text for p in between[:-1]] == [","] and all(made.has("plain_no", p.text) for p in between[-1:])


def _tells_same(row: _Row, other: _Row) -> bool:
    """Do two rows count the same, and more than the one count that is put right elsewhere?"""
    if "none" in (row.kind, other.kind):
        return row.kind != other.kind and "list" not in (row.kind, other.kind)
    if row.kind != other.kind:
        return False
    if row.kind == "list":
        return len(row.counts) == len(other.counts)
    several = len(row.counts) > 1 or len(other.counts) > 1 or row.shade_first
    return several and (row.shades <= other.shades or other.shades <= row.shades)


def _one_of_list(pieces: list[Piece], row: _Row, made: Table) -> _Put | None:
    """ "2, 4, 5, 0, 1 .. no wait last one 3", "la primera era 3": one number of a list by its place in it."""
    if row.kind != "list":
        return None
    at = row.end
    while is_any(piece_at(pieces, at), ("COLOUR", "FEMALES", "MOSTLY")):
        at += 1
    nth, words = _up_to_place(pieces, at, row, made)
    place = _place(pieces[nth], row) if nth < len(pieces) else None
    if place is None or (words and not (repaired(words, made) or _plainly_no(words, made))):
        return None
    k, should = nth + 1, False
    while k < len(pieces) and (made.has("noun_one", pieces[k].text) or is_any(pieces[k], ("PLANTS",))):
        k += 1
    while k < len(pieces) and (_is_being(pieces[k], made) or pieces[k].text in (":", "=", ",")):
        should = should or made.has("should_be", pieces[k].text)
        k += 1
    new, denied = count_told(piece_at(pieces, k)), _denied(pieces, k + 1)
    old = count_told(row.counts[place][1][0])
    end = denied[1] if denied is not None else k + 1
    sure = bool(words) or denied is not None or should
    if new is None or not sure or (denied is not None and denied[0] != old) or not _closed(pieces, end):
        return None
    numbers = [told[0] for _, told in row.counts]
    numbers[place] = replace(numbers[place], value=new, text=str(new))
    return [*numbers, *pieces[row.end : at]], end, str(new)


def _up_to_place(pieces: list[Piece], at: int, row: _Row, made: Table) -> tuple[int, list[str]]:
    """Where the word for a place in the list stands, and the words for putting right before it."""
    words: list[str] = []
    k = at
    while k < min(len(pieces), at + MOST_BETWEEN) and _place(pieces[k], row) is None:
        if pieces[k].kind == "word" and not made.has("nth_article", pieces[k].text):
            words += pieces[k].text.split(" ")
        elif pieces[k].kind != "word" and pieces[k].text not in _STOPS:
            return len(pieces), []
        k += 1
    return k, words


def _is_being(piece: Piece, made: Table) -> bool:
    """ "Is", "was", "era", "should be"."""
    return any(made.has(manner, piece.text) for manner in ("is_word", "its_word", "should_be"))


def _denied(pieces: list[Piece], n: int) -> tuple[int, int] | None:
    """ "(3,) not 2": the number denied there, and where that ends."""
    n += n < len(pieces) and pieces[n].text in (",", "(")
    old = count_told(piece_at(pieces, n + 1)) if is_any(piece_at(pieces, n), ("NOT",)) else None
    return (old, n + 2) if old is not None else None


def _place(piece: Piece, row: _Row) -> int | None:
    """Which of the row a word names: "last", "first", "3rd"; ``None`` where it has no such."""
    if piece.text in anywhere("last_listed"):
        return len(row.counts) - 1
    nth = piece.types.get("NTH") or piece.types.get("ORDINAL")
    told = 0
    if piece.kind == "number" and piece.text.endswith(NTH_ENDS):
        told = int(piece.value)
    elif nth is not None and str(nth.value).isdecimal():
        told = int(nth.value)
    return told - 1 if 0 < told <= len(row.counts) else None


def _words_between(pieces: list[Piece], n: int) -> tuple[int, list[str], bool]:
    """The words from n on up to a count: where it stands, and whether a stop stands among them."""
    words: list[str] = []
    stopped = False
    k = n
    while k < len(pieces) and k < n + MOST_BETWEEN and _row_at(pieces, k) is None:
        if pieces[k].kind == "word":
            words += pieces[k].text.split(" ")
        elif pieces[k].text in _STOPS:
            stopped = True
        else:
            break
        k += 1
    return k, words, stopped


def _closed(pieces: list[Piece], n: int) -> bool:
    """Does the clause end there, or go on with something joined to it?"""
    piece = piece_at(pieces, n)
    return ends_clause(piece) or (piece is not None and piece.text in anywhere("and_word"))


def _row_at(pieces: list[Piece], n: int) -> _Row | None:
    """The row of counts that begins there."""
    piece = piece_at(pieces, n)
    if piece is None:
        return None
    if is_any(piece, ("NONE",)) and not is_any(piece, ("NOT", "COURTESY")):
        return _Row("none", (("none", (piece,)),), n + 1)
    if count_told(piece) is not None:
        return _shades(pieces, n, shade_first=False) or _list(pieces, n)
    before = piece_at(pieces, n - 1)
    if is_any(piece, ("COLOUR",)) and count_told(before) is None:
        return _shades(pieces, n, shade_first=True)
    return None


def _shades(pieces: list[Piece], n: int, *, shade_first: bool) -> _Row | None:
    """ "5w 2y", "5 white and 2 yellow females", "w 5 y 2": each number with its color."""
    counts: list[tuple[str, tuple[Piece, ...]]] = []
    end = k = n
    while k + 1 < len(pieces):
        number, shade = (pieces[k + 1], pieces[k]) if shade_first else (pieces[k], pieces[k + 1])
        if count_told(number) is None or not is_any(shade, ("COLOUR",)):
            break
        counts.append((str(shade.types["COLOUR"].value), (pieces[k], pieces[k + 1])))
        end = k + 2
        end += is_any(piece_at(pieces, end), ("FEMALES",))
        k = end
        while k < len(pieces) and (pieces[k].text in _JOINS or pieces[k].text in anywhere("and_word")):
            k += 1
    if not counts or (not shade_first and count_told(piece_at(pieces, end)) is not None):
        return None  # "7 w 3 y 1": which goes with which?
    return _Row("shades", tuple(counts), end, shade_first)


def _list(pieces: list[Piece], n: int) -> _Row | None:
    """ "2, 4, 5, 0 and 1": three numbers and more."""
    counts: list[tuple[str, tuple[Piece, ...]]] = []
    end = k = n
    while k < len(pieces) and pieces[k].kind == "number" and count_told(pieces[k]) is not None:
        counts.append(("", (pieces[k],)))
        k = end = k + 1
        while k < len(pieces) and (pieces[k].text in _JOINS or pieces[k].text in anywhere("and_word")):
            k += 1
    return _Row("list", tuple(counts), end) if len(counts) >= LEAST_LISTED else None
