"""A color that roots do not have: "roots dark, not white" tells of no females, and of none not seen."""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.pieces import Piece, piece_at
from notes_bot.language.lexicon.words import Table

_ROOTS = ("ROOTS", "ROOT", "NODULES", "NODULE")
LOOKED_BACK = 5
"""Pieces before the "not" among which roots or nodules are told of (judgement)."""


def colors_of_no_root(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with "not white" behind "roots dark" put aside; "roots dark, no white" may tell of females."""
    out = list(pieces)
    for n, piece in enumerate(pieces):
        shade = piece_at(pieces, n + 1)
        if not is_any(piece, ("NOT",)) or made.has("lacks", piece.text) or shade is None or len(shade.text) < 2:
            continue
        counted = piece_at(pieces, n + 2)
        if not is_any(shade, ("COLOUR",)) or is_any(counted, ("FEMALES", "PLANTS")) or not _of_roots(pieces[:n]):
            continue
        if counted is not None and counted.kind == "number":
            continue
        out[n : n + 2] = [Piece("aside", "", p.start, p.end) for p in (piece, shade)]
    return out


def _of_roots(before: list[Piece]) -> bool:
    """Is what is told right before, stops and little words passed over, of roots or nodules?"""
    for piece in reversed(before[-LOOKED_BACK:]):
        if is_any(piece, _ROOTS):
            return True
        little = linking(piece) or piece.text in (",", "(", "-")
        if not little:
            return False
    return False
