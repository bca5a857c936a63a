"""Females on some of the plants, none on the others: "6 dug, 4 white on two, none on the other four".

The second number counts plants, no females; and that the others had none denies nothing of what was found.
"""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.pieces import Piece, count_told, ends_clause, piece_at, put_aside
from notes_bot.language.lexicon.words import Entry, Table, anywhere
from notes_bot.language.passes.shares import rest_none

_PLANTS = (Entry("PLANTS", "plants"),)
_COUNTED = ("COLOUR", "FEMALES")
_DUG = ("PLANTS", "DUG", "TOOL")
MOST_LITTLE = 3
"""Little words between "the other four" and "nothing" (judgement)."""


def on_some(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with plants named where only their number is told, and the others that had none put aside."""
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        end = _others_had_none(pieces, n, made) if _found(pieces[:n]) else 0
        if end:
            out.append(Piece("aside", "", pieces[n].start, pieces[end - 1].end))
            n = end
            continue
        out.append(pieces[n])
        if _some(pieces, n, made):
            out.append(Piece("word", made.first["PLANTS", "plants"], pieces[n].end, pieces[n].end, _PLANTS, None, True))
        n += 1
    return out


def ratios(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "(2 of every 3) plants had some", "(1 in 3) stunted": a share in two numbers counts nothing: put aside."""
    return put_aside(pieces, lambda n: _ratio(pieces, n, made))


def _ratio(pieces: list[Piece], n: int, made: Table) -> int:
    """Where the share that begins here ends; 0 for none."""
    some = count_told(pieces[n])
    if not some:
        return 0
    for size in (1, 2, 3):
        whole = count_told(piece_at(pieces, n + size + 1))
        led = " ".join(piece.text for piece in pieces[n + 1 : n + size + 1])
        plain = led in anywhere("upon_plant") and is_any(piece_at(pieces, n + size + 2), ("TOP",))
        if whole is not None and some < whole <= LARGEST_SHARE and (made.has("of_every", led) or plain):
            return n + size + 2
    return 0


LARGEST_SHARE = 20
"""The second number of a share, "1 in 20", is no larger (judgement)."""


def _some(pieces: list[Piece], n: int, made: Table) -> bool:
    """The "two" of "6 dug, 4 white on two, ..": fewer than were dug, and nothing behind it that it counts?"""
    some, dug = count_told(pieces[n]), _dug(pieces[:n])
    on, shade, count = (piece_at(pieces, n - k) for k in (1, 2, 3))
    if some is None or dug is None or not 0 < some < dug or on is None or on.text not in anywhere("upon_plant"):
        return False
    told = is_any(shade, _COUNTED) and count_told(count) is not None
    behind = piece_at(pieces, n + 1)
    return told and (ends_clause(behind) or (behind is not None and made.has("and_word", behind.text)))


def _others_had_none(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "(the other four) had nothing" or "none on (the other four)" that begins here ends; 0 for no such."""
    if ends_clause(pieces[n]) or not (n == 0 or ends_clause(pieces[n - 1]) or linking(pieces[n - 1])):
        return 0
    opens = n > 0 and pieces[n - 1].text in (",", ";", "-", ".")
    if opens and is_any(pieces[n], ("NONE",)) and (end := rest_none(pieces, n, made)):
        return end if ends_clause(piece_at(pieces, end)) else 0  # "nothing on the rest"
    if is_any(pieces[n], ("NONE",)) and (on := piece_at(pieces, n + 1)) is not None and _leads_to_others(on, made):
        end = _others(pieces, n + 2, made)
        return end if end and ends_clause(piece_at(pieces, end)) else 0
    end = _others(pieces, n, made)
    if not end:
        return 0
    k = end
    while k < min(len(pieces), end + MOST_LITTLE) and (linking(pieces[k]) or is_any(pieces[k], ("HAD",))):
        if is_any(pieces[k], ("NONE",)):
            break
        k += 1
    return k + 1 if is_any(piece_at(pieces, k), ("NONE",)) and ends_clause(piece_at(pieces, k + 1)) else 0


def _leads_to_others(piece: Piece, made: Table) -> bool:
    """ "On", "in", "nas"."""
    return piece.text in anywhere("upon_plant") or made.has("at", piece.text)


def _others(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "(the) other four (plants)", fewer than were dug, or "the others", ends; 0 for no such."""
    k = n
    led = piece_at(pieces, k)
    if led is not None and not made.has("other_word", led.text):
        k += made.has("article", led.text) or made.has("group_article", led.text)
    other = piece_at(pieces, k)
    if other is None or not made.has("other_word", other.text):
        return 0
    some, dug = count_told(piece_at(pieces, k + 1)), _dug(pieces[:n])
    if ends_clause(piece_at(pieces, k + 1)) and n and _leads_to_others(pieces[n - 1], made):
        return k + 1  # "nada nas outras"
    if some is None or dug is None or not 0 < some < dug:
        return 0
    return k + 2 + is_any(piece_at(pieces, k + 2), ("PLANTS",))


def _found(before: list[Piece]) -> bool:
    """Were females counted in this note before?"""
    own = max((n for n, piece in enumerate(before) if is_any(piece, ("FIELD",))), default=0)
    counted = (count_told(before[n - 1]) for n in range(own + 1, len(before)) if is_any(before[n], _COUNTED))
    return any(told is not None and told > 0 for told in counted)


def _dug(before: list[Piece]) -> int | None:
    """The most plants told before."""
    most: list[int] = []
    for n, piece in enumerate(before):
        told, behind = count_told(piece), piece_at(before, n + 1)
        beside = is_any(behind, _DUG) or is_any(piece_at(before, n - 1), ("DUG",))
        if behind is not None and linking(behind):
            beside = beside or is_any(piece_at(before, n + 2), _DUG)  # "4 of the 10 i pulled"
        most += [told] if told is not None and beside else []
    return max(most, default=None)
