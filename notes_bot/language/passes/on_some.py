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
    told = _told_before(pieces)
    n = 0
    while n < len(pieces):
        found, dug = told[n]
        end = _others_had_none(pieces, n, dug, made) if found else 0
        if end:
            out.append(Piece("aside", "", pieces[n].start, pieces[end - 1].end))
            n = end
            continue
        out.append(pieces[n])
        if _some(pieces, n, dug, made):
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


def _some(pieces: list[Piece], n: int, dug: int, made: Table) -> bool:
    """The "two" of "6 dug, 4 white on two, ..": fewer than were dug, and nothing behind it that it counts?"""
    some = count_told(pieces[n])
    on, shade, count = (piece_at(pieces, n - k) for k in (1, 2, 3))
    if some is None or not 0 < some < dug or on is None or on.text not in anywhere("upon_plant"):
        return False
    told = is_any(shade, _COUNTED) and count_told(count) is not None
    behind = piece_at(pieces, n + 1)
    return told and (ends_clause(behind) or (behind is not None and made.has("and_word", behind.text)))


def _others_had_none(pieces: list[Piece], n: int, dug: int, made: Table) -> int:
    """Where "(the other four) had nothing" or "none on (the other four)" that begins here ends; 0 for no such."""
    if ends_clause(pieces[n]) or not (n == 0 or ends_clause(pieces[n - 1]) or linking(pieces[n - 1])):
        return 0
    opens = n > 0 and pieces[n - 1].text in (",", ";", "-", ".")
    if opens and is_any(pieces[n], ("NONE",)) and (end := rest_none(pieces, n, made)):
        return end if ends_clause(piece_at(pieces, end)) else 0  # "nothing on the rest"
    if is_any(pieces[n], ("NONE",)) and (on := piece_at(pieces, n + 1)) is not None and _leads_to_others(on, made):
        end = _others(pieces, n + 2, dug, made)
        return end if end and ends_clause(piece_at(pieces, end)) else 0
    end = _others(pieces, n, dug, made)
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


def _others(pieces: list[Piece], n: int, dug: int, made: Table) -> int:
    """Where "(the) other four (plants)", fewer than were dug, or "the others", ends; 0 for no such."""
    k = n
    led = piece_at(pieces, k)
    if led is not None and not made.has("other_word", led.text):
        k += made.has("article", led.text) or made.has("group_article", led.text)
    other = piece_at(pieces, k)
    if other is None or not made.has("other_word", other.text):
        return 0
    some = count_told(piece_at(pieces, k + 1))
    if ends_clause(piece_at(pieces, k + 1)) and n and _leads_to_others(pieces[n - 1], made):
        return k + 1  # "nada nas outras"
    if some is None or not 0 < some < dug:
        return 0
    return k + 2 + is_any(piece_at(pieces, k + 2), ("PLANTS",))


def _told_before(pieces: list[Piece]) -> list[tuple[bool, int]]:
    """Before each piece: were females counted in this note, and the most plants told, 0 for none?"""
    found, most = False, 0
    out = [(found, most)]
    for n, piece in enumerate(pieces):
        one, two = piece_at(pieces, n - 1), piece_at(pieces, n - 2)
        if is_any(piece, ("FIELD",)):
            found = False
        elif is_any(piece, _COUNTED):
            found = found or (count_told(one) or 0) > 0
        if is_any(piece, _DUG):
            behind_little = one is not None and linking(one)  # "4 of the 10 i pulled"
            most = max(most, count_told(one) or 0, (count_told(two) or 0) if behind_little else 0)
        elif is_any(one, ("DUG",)):
            most = max(most, count_told(piece) or 0)
        out.append((found, most))
    return out
