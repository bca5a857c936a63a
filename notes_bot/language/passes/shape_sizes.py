"""How large a patch or ring is: "reboleira de uns 30 m", "a patch of some 20 by 30 feet", "manchón de 15 m de ancho".

What it measures is no count of anything: "de 15 m" is not fifteen brown ones, and nothing to keep a patch from being
told of the plants.
"""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any, number_like
from notes_bot.language.lexicon.pieces import Piece, piece_at
from notes_bot.language.lexicon.words import Table, anywhere

_SHAPES = frozenset({"patch", "ring"})
LONGEST_TAIL = 3
"""Pieces behind a measure that say what of it was measured, "de diâmetro" (judgement)."""


def shapes_measured(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces without the size of each patch or ring."""
    out: list[Piece] = []
    i = 0
    while i < len(pieces):
        out.append(pieces[i])
        i += 1
        if _is_shape(out[-1]) and (end := _size_end(pieces, i, made)):
            i = end
    return out


def _is_shape(piece: Piece) -> bool:
    return "TOP" in piece.types and piece.types["TOP"].value in _SHAPES


def _size_end(pieces: list[Piece], i: int, made: Table) -> int:
    """Where the size that begins at i, behind the shape, ends; 0 for none."""
    led = piece_at(pieces, i)
    having = led is not None and led.text in anywhere("with_word")
    if led is None or not (having or led.text in anywhere("of_word")):
        return 0
    k = i + 1
    while is_any(piece_at(pieces, k), ("ABOUT",)) or getattr(piece_at(pieces, k), "text", "") in anywhere("determiner"):
        k += 1
    if not number_like(piece_at(pieces, k)):
        return 0
    k += 1
    while _by(piece_at(pieces, k)) and number_like(piece_at(pieces, k + 1)):
        k += 2  # "30 por 20 m"
    if not is_any(piece_at(pieces, k), ("MEASURE",)):
        return 0
    k += 1
    tails = (k + size for size in range(LONGEST_TAIL, 0, -1))
    tailed = next((end for end in tails if made.has("size_of", " ".join(p.text for p in pieces[k:end]))), 0)
    return tailed if having else tailed or k  # "reboleira com 15 m" may have brown ones


def _by(piece: Piece | None) -> bool:
    """ "30 (by) 20", "30 (x) 20"."""
    return piece is not None and (piece.text == "x" or piece.text in anywhere("size_by"))
