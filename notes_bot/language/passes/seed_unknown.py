"""A seed whose resistance nobody knows: "no sé si es resistente", "não faço ideia se a variedade é resistente"."""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece, ends_clause
from notes_bot.language.lexicon.words import Table

LONGEST_UNKNOWN = 9
"""Pieces from "I don't know" to the resistance that is not known (judgement)."""


def resistance_unknown(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with each resistance that is said not to be known as an aside."""
    out = list(pieces)
    for n in range(len(out) - 1, 0, -1):
        if n >= len(out) or not (is_any(out[n], ("RESISTANCE",)) or made.has("resistance_word", out[n].text)):
            continue
        first = n
        while first and not ends_clause(out[first - 1]) and n - first < LONGEST_UNKNOWN:
            first -= 1
        begins = [k for k in range(first, n) if _unknown_from(out[k:n], made)]
        if begins:
            out[begins[-1] : n + 1] = [Piece("aside", "", out[begins[-1]].start, out[n].end)]
    return out


def _unknown_from(pieces: list[Piece], made: Table) -> bool:
    """Do the words begin with some for not knowing?"""
    said = f"{' '.join(piece.text for piece in pieces)} "
    return any(said.startswith(f"{phrase} ") for phrase in made.traits.get("not_known", ()))
