"""Colors told as parts of a sum: "white all but one, which was yellow", "15 white, 12 yellow = 27", "30, mostly brown".

Each is written in the one way that all that follows reads: "all white but one yellow", the sum with a word for it
behind, the number right beside the shade of it. Nothing is reckoned here: a sum that does not fit is asked about later.
"""

from __future__ import annotations

from dataclasses import replace

from notes_bot.language.lexicon.joining import is_any, linking, number_like
from notes_bot.language.lexicon.pieces import Piece, count_told, ends_clause, piece_at
from notes_bot.language.lexicon.words import Entry, Table, anywhere

LEAST_SUMMED = 2
"""Counts by color from which they have a sum."""
LEAST_LISTED = 3
"""Bare numbers from which they are a list that has a sum."""
_JOINS = frozenset({",", "+", "&", "-", "/"})
"""Signs between two counts of a list."""
_LINK = (Entry("LINK", "link"),)
_TOTAL = (Entry("TOTAL", "total"),)
_ALL = (Entry("MOSTLY", "all"),)
_FEMALES = (Entry("FEMALES", "female"),)
_EQUALS = frozenset({"=", "=="})
_STOPS = frozenset({",", "-", "("})


def shades_but(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "White all but one, which was yellow", "all but one white, the other yellow": as "all white but one yellow"."""
    for n in range(len(pieces) - 2):
        put = _shade_first(pieces, n, made) or _number_first(pieces, n, made)
        if put is not None:
            told, end = put
            return [*pieces[:n], *told, *pieces[end:]]
    return _others_of(pieces, made)


def shades_doubled(pieces: list[Piece]) -> list[Piece]:
    """ "9 white pearls": a color told by the name of its females as well is told once."""
    out: list[Piece] = []
    for piece in pieces:
        last = out[-1] if out else None
        if (
            last is not None
            and _same_shade(last, piece)
            and (is_any(piece, ("FEMALES",)) or is_any(last, ("FEMALES",)))
        ):
            out[-1] = replace(last, end=piece.end)
        else:
            out.append(piece)
    return out


def _same_shade(one: Piece, other: Piece) -> bool:
    """Do both tell the same color in full, the second right behind the first?"""
    shades = (one.types.get("COLOUR"), other.types.get("COLOUR"))
    named = min(len(one.text), len(other.text)) >= LEAST_NAMED
    return named and None not in shades and shades[0].value == shades[1].value  # type: ignore[union-attr]


LEAST_NAMED = 3
"""Letters of a color in full; "w" may be anything (judgement)."""
_Put = tuple[list[Piece], int]
"""What stands for the pieces up to an end (exclusive)."""


def _shade_first(pieces: list[Piece], n: int, made: Table) -> _Put | None:
    """ "White [all] but one [, which was] yellow"."""
    led = n > 0 and (number_like(pieces[n - 1]) or is_any(pieces[n - 1], ("MOSTLY", "NOT", "COLOUR")))
    if not is_any(pieces[n], ("COLOUR",)) or led:
        return None
    k = n + 1 + _is_all(piece_at(pieces, n + 1))
    but = _behind_but(pieces, k, made)
    number = piece_at(pieces, but)
    if not but or not count_told(number):
        return None
    shade = _shade_behind(pieces, but + 1, made)
    if not shade or not _other(pieces[n], pieces[shade]) or not ends_clause(piece_at(pieces, shade + 1)):
        return None
    first, last = pieces[n], pieces[k - 1]
    every = Piece("word", "all", first.start, first.start, _ALL)
    return [every, replace(first, end=last.end), *pieces[k:but], pieces[but], pieces[shade]], shade + 1


def _number_first(pieces: list[Piece], n: int, made: Table) -> _Put | None:
    """ "All but one white, [the other] yellow", "all but one were white, one yellow"."""
    if not _is_all(pieces[n]):
        return None
    but = _behind_but(pieces, n + 1, made)
    count = count_told(piece_at(pieces, but)) if but else None
    most = _shade_behind(pieces, but + 1, made) if count else 0
    if not most or not count:
        return None
    k = most + 1
    while (piece := piece_at(pieces, k)) is not None and _leads_other(piece, count, made):
        k += 1
    shade = piece_at(pieces, k)
    if k == most + 1 or not is_any(shade, ("COLOUR",)) or shade is None or not _other(pieces[most], shade):
        return None
    if not ends_clause(piece_at(pieces, k + 1)):
        return None
    at = pieces[n].end
    every = [pieces[n], replace(pieces[most], start=at, end=at)]
    return [*every, *pieces[n + 1 : but], pieces[but], shade], k + 1


def _is_all(piece: Piece | None) -> bool:
    """ "All", "todas"."""
    return piece is not None and "MOSTLY" in piece.types and piece.types["MOSTLY"].value == "all"


def _other(shade: Piece, than: Piece) -> bool:
    """Two different colors?"""
    return bool(shade.types["COLOUR"].value != than.types["COLOUR"].value)


def _behind_but(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "but", "except for" ends that begins there; 0 for no such words."""
    for size in (3, 2, 1):
        if made.has("all_but", " ".join(p.text for p in pieces[n : n + size])):
            return n + size
    return 0


def _shade_behind(pieces: list[Piece], n: int, made: Table) -> int:
    """Where the color behind a number stands, "(one) of them, which was yellow"; 0 for none."""
    k = n
    while (piece := piece_at(pieces, k)) is not None and not is_any(piece, ("COLOUR",)):
        little = piece.text == "," or linking(piece) or made.has("noun_one", piece.text) or is_any(piece, ("FEMALES",))
        if not little or k > n + 4:
            return 0
        k += 1
    return k if piece is not None else 0


def _leads_other(piece: Piece, count: int, made: Table) -> bool:
    """ "(, ) the other (one was yellow)"."""
    if count_told(piece) == count or piece.text in _STOPS or linking(piece) or piece.text in anywhere("and_word"):
        return True
    return any(made.has(manner, piece.text) for manner in ("other_word", "rest_word", "noun_one", "it_word", "article"))


def _others_of(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "One yellow, the others white": "others" leads to a color as "rest" does."""
    out = list(pieces)
    for n in range(3, len(pieces)):
        shade = n + 1
        while (piece := piece_at(pieces, shade)) is not None and linking(piece):
            shade += 1
        if not made.has("rest_word", pieces[n].text) or "LINK" in pieces[n].types or not is_any(piece, ("COLOUR",)):
            continue
        stop = next((k for k in range(n - 1, max(0, n - 4), -1) if pieces[k].text in _STOPS), 0)
        told = stop > 1 and is_any(pieces[stop - 1], ("COLOUR",)) and count_told(pieces[stop - 2]) is not None
        if told and ends_clause(piece_at(pieces, shade + 1)):
            out[n] = replace(pieces[n], entries=_LINK)
    return out


def sums_that_fit(pieces: list[Piece]) -> list[Piece]:
    """ "2, 1, 0, 3 (= 6)", "1w, 2w, 0, 3w (= 6)", "3 0 2 1 (6)": behind a list of counts their sum tells nothing more.

    One that does not fit stays, and is asked about.
    """
    out = list(pieces)
    for n in range(len(out) - 2, 1, -1):
        bracketed = out[n].text == "(" and getattr(piece_at(out, n + 2), "text", "") == ")"
        if not (bracketed or out[n].text in _EQUALS) or n + 1 >= len(out):
            continue
        whole, end = out[n + 1], n + 2 + bracketed
        behind = piece_at(out, end)
        ends = ends_clause(behind) or (bracketed and not is_any(behind, ("COLOUR", "FEMALES", "PLANTS", "TOTAL")))
        if whole.kind == "number" and ends and _sum_of_row(out, n - 1) == whole.value:
            del out[n:end]
    return out


def _sum_of_row(pieces: list[Piece], last: int) -> int | None:
    """The sum of a row of counts that ends there, all of them with a color, or none; ``None`` for no such row."""
    values: list[int] = []
    shaded = bare = 0
    k = last
    while k >= 0:
        shade = is_any(pieces[k], ("COLOUR",)) and k > 0 and pieces[k - 1].kind == "number"
        k -= shade
        if pieces[k].kind != "number" or not isinstance(pieces[k].value, int):
            break
        shaded, bare = shaded + shade, bare + (not shade and pieces[k].value > 0)
        values.append(pieces[k].value)
        k -= 1 + (k > 0 and pieces[k - 1].text in _JOINS)
    least = LEAST_SUMMED if shaded else LEAST_LISTED
    return sum(values) if len(values) >= least and not (shaded and bare) else None


def sums_said(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "15 white, 12 yellow = 27", ".. 12 yellow (27)", ".. so 27": behind counts by color their sum."""
    for n in range(4, len(pieces)):
        whole = count_told(pieces[n])
        behind = piece_at(pieces, n + 1)
        ends = ends_clause(behind) or (behind is not None and is_any(behind, ("TOTAL", "FEMALES")))
        then = behind is not None and behind.text in anywhere("and_then") and ends_clause(piece_at(pieces, n + 2))
        if whole is None or not (ends or then):
            continue
        lead = n - 1
        led = then or _leads_sum(pieces[lead], made)  # "4 white 1 yellow. 5 then"
        stops = (",", "(", ")", "-", ".") if led else (",", "(", ")", "-")  # "one kinda yellow. So 5"
        while lead > 0 and (pieces[lead].text in stops or _leads_sum(pieces[lead], made)):
            led = led or _leads_sum(pieces[lead], made) or pieces[lead].text in ("(", ",")
            lead -= 1
        counts = _counts_before(pieces, lead)
        equal = any(p.text in _EQUALS or made.has("equals_word", p.text) for p in pieces[lead + 1 : n])
        if len(counts) < LEAST_SUMMED or lead == n - 1 or not (equal or (led and sum(counts) == whole)):
            continue
        at = pieces[n]
        stop = Piece("break", ",", pieces[lead].end, pieces[lead].end, (), "soft")
        word = [] if is_any(behind, ("TOTAL",)) else [Piece("word", "total", at.end, at.end, _TOTAL)]
        closed = behind is not None and behind.text == ")"
        return [*pieces[: lead + 1], stop, at, *word, *pieces[n + 1 + closed :]]
    return pieces


def _leads_sum(piece: Piece, made: Table) -> bool:
    """ "=", "so", "equals"."""
    return piece.text in _EQUALS or made.has("leads_sum", piece.text)


def _counts_before(pieces: list[Piece], last: int) -> list[int]:
    """The counts of a row of colors that ends there, "15 white, 12 yellow"."""
    counts: list[int] = []
    k = last
    while True:
        shade = _without_little(pieces, k)
        number = _without_little(pieces, shade - 1)
        if number < 0 or not is_any(pieces[shade], ("COLOUR",)) or (count := count_told(pieces[number])) is None:
            return counts
        counts.append(count)
        k = number - 1
        while k > 0 and (pieces[k].text in (",", "+", "&", "/") or pieces[k].text in anywhere("joint")):
            k -= 1


def _without_little(pieces: list[Piece], k: int) -> int:
    """The piece there, or the first before it that is no little word: "4 white (ones)", "1 (kinda) yellow"."""
    while k > 0 and linking(pieces[k]) and not is_any(pieces[k], ("COLOUR",)) and count_told(pieces[k]) is None:
        k -= 1
    return k


def total_shaded(pieces: list[Piece]) -> list[Piece]:
    """ "5 dug, 30, mostly brown", "6pl 8, mostly yellow", "all brown, 6 plants 31": a number with its shade."""
    for n in range(1, len(pieces)):
        count = count_told(pieces[n])
        if count is None or not (_before_shade(pieces, n) or _behind_shade(pieces, n)):
            continue
        start, end = pieces[n].start, pieces[n].end
        behind = n + 1 + (n + 1 < len(pieces) and _stops(pieces[n + 1]) and _shaded(pieces, n + 2))
        number = Piece("number", pieces[n].text, start, end, (), count, pieces[n].spaced)
        return [*pieces[:n], number, Piece("word", "", end, end, _FEMALES), *pieces[behind:]]
    return pieces


def _shaded(pieces: list[Piece], n: int) -> bool:
    """ "Mostly white": are the females said to be of one color there?"""
    mostly = is_any(piece_at(pieces, n), ("MOSTLY",)) and pieces[n].text not in anywhere("for_both")
    return mostly and is_any(piece_at(pieces, n + 1), ("COLOUR",))


def _before_shade(pieces: list[Piece], n: int) -> bool:
    """Does the number stand before its shade, and behind the plants dug, or behind "about"?"""
    stopped = n + 1 < len(pieces) and _stops(pieces[n + 1])
    if not _shaded(pieces, n + 1 + stopped):
        return False
    if n > 1 and _stops(pieces[n - 1]):
        return is_any(pieces[n - 2], ("PLANTS", "DUG", "TOOL")) or _dug_number(pieces, n - 2)
    if n > 1 and is_any(pieces[n - 1], ("PLANTS",)) and count_told(pieces[n - 2]) is not None:
        again = any(is_any(piece, ("PLANTS",)) for piece in pieces[: n - 2])  # "1 pl 12, 1 pl 4, all yellow"
        return stopped and not again  # "6pl 8, mostly yellow"
    opens = n == 1 or pieces[n - 2].kind in ("break", "line") or is_any(pieces[n - 2], ("FIELD", "HAD", "DUG"))
    return stopped and is_any(pieces[n - 1], ("ABOUT",)) and opens


def _behind_shade(pieces: list[Piece], n: int) -> bool:
    """ "All brown, 6 plants (31)": the last number of a clause behind plants, told right behind the shade."""
    behind = piece_at(pieces, n + 1)
    counted = n > 4 and is_any(pieces[n - 1], ("PLANTS",)) and count_told(pieces[n - 2]) is not None
    if not counted or not (behind is None or behind.kind in ("line", "break")) or not _stops(pieces[n - 3]):
        return False
    first = n - 5 - is_any(pieces[n - 5], ("FEMALES",))
    lone = first < 1 or count_told(pieces[first - 1]) is None
    return is_any(pieces[n - 4], ("COLOUR",)) and first >= 0 and is_any(pieces[first], ("MOSTLY",)) and lone


def _stops(piece: Piece) -> bool:
    """A comma, a dash, a stop."""
    return piece.text in (",", "-", ".", ":")


def _dug_number(pieces: list[Piece], n: int) -> bool:
    """ "(dug) 5", "(spade) 5": the plants dug."""
    return count_told(pieces[n]) is not None and is_any(piece_at(pieces, n - 1), ("DUG", "TOOL"))
