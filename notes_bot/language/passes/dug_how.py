"""How plants were taken, told by a second verb: "arranquei 5 puxando reto pra cima", "saqué 5 cavando alrededor"."""

from __future__ import annotations

from dataclasses import replace

from notes_bot.language.lexicon.joining import is_any, number_like
from notes_bot.language.lexicon.pieces import Piece, piece_at
from notes_bot.language.lexicon.words import Entry, Table

LONGEST_MANNER = 4
"""Pieces that tell more of it, "straight up", "reto pra cima" (judgement)."""


def dug_by_doing(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with that verb as the tool, and without what more is said of it."""
    out: list[Piece] = []
    i = 0
    while i < len(pieces):
        piece = pieces[i]
        i += 1
        if made.has("doing_dig", piece.text) and is_any(piece, ("DUG",)) and _behind_dug(out):
            value = piece.types["DUG"].value
            ends = (i + size for size in range(LONGEST_MANNER, 0, -1))
            end = next((end for end in ends if made.has("dug_manner", " ".join(p.text for p in pieces[i:end]))), i)
            upward = end > i and made.has("upward", pieces[end - 1].text.split(" ")[-1])
            i = end
            if value == "any" and not upward:
                continue
            piece = replace(piece, entries=(Entry("TOOL", "pulled" if upward else value),), types={})
        out.append(piece)
    return out


def _behind_dug(before: list[Piece]) -> bool:
    """Do a verb of digging and the number of plants stand right before?"""
    k = len(before) - 1
    k -= is_any(piece_at(before, k), ("PLANTS",))
    return number_like(piece_at(before, k)) and is_any(piece_at(before, k - 1), ("DUG",))
