"""A shade of all the roots or leaves: "roots all white", "leaves mostly yellow", "plantas todas amarillas".

"All" and "mostly" before a color are said of females; right behind roots, leaves or uncounted plants the color is
theirs. "6 plants all yellow" stays as it is.
"""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece, ends_clause, number_told, piece_at
from notes_bot.language.lexicon.words import Entry, Table

SAID_BEFORE = 3
"""Pieces before plants in which their number or digging is told: "6 of the plants all yellow" (judgement)."""
_LITTLE = (Entry("LINK", "link"),)


def wholly_shaded(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with each "all" or "mostly" between roots or leaves and their shade as a little word."""
    out = list(pieces)
    for n, piece in enumerate(pieces):
        shade = piece_at(pieces, n + 1)
        if not is_any(piece, ("MOSTLY",)) or "NODULE" in piece.types:
            continue  # "nodules few, brown"
        if shade is None or not is_any(shade, ("COLOUR",)) or len(shade.text) < 2:
            continue
        behind = piece_at(pieces, n + 2)
        if not (ends_clause(behind) or (behind is not None and made.has("and_word", behind.text))):
            continue
        if _of_roots(pieces, n) or (shade.types["COLOUR"].value == "yellow" and _of_leaves(pieces, n)):
            out[n] = Piece("word", piece.text, piece.start, piece.end, _LITTLE, None, piece.spaced)
    return out


def _of_roots(pieces: list[Piece], n: int) -> bool:
    """Are roots or nodules named right before it?"""
    before = piece_at(pieces, n - 1)
    return is_any(before, ("ROOTS", "NODULES")) and number_told(piece_at(pieces, n - 2)) is None


def _of_leaves(pieces: list[Piece], n: int) -> bool:
    """Are leaves or plants named right before it, no number of them, and nobody who dug them?"""
    if not is_any(piece_at(pieces, n - 1), ("TOPS",)):
        return False
    for k in range(n - 2, max(-1, n - 2 - SAID_BEFORE), -1):
        if ends_clause(pieces[k]):
            return True
        if number_told(pieces[k]) is not None or is_any(pieces[k], ("DUG", "TOOL", "HAD", "FIELD")):
            return False
    return True
