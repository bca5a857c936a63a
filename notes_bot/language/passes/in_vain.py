"""Females spoken of and not there: "expected to find cysts and did not", "if there is SCN, it was not showing".

The whole clause is "none": what was hoped for, and what may be, was not seen.
"""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece, number_told
from notes_bot.language.lexicon.words import Entry, Table

LONGEST = 30
"""Pieces of the longest sentence looked at (judgement)."""
LONGEST_PHRASE = 4
"""Words of the longest phrase looked for (judgement)."""
_NONE = (Entry("NONE", "none"),)
_TOLD = ("NONE", "TOO_MANY", "NOT_LOOKED")
"""What tells of itself what was found or done."""


def hoped_in_vain(pieces: list[Piece], made: Table, text: str) -> list[Piece]:
    """The pieces with every clause that tells of females hoped for or supposed, and not seen, as one "none"."""
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        end = _in_vain(pieces, n, made) or _supposed(pieces, n, made)
        if end:
            start, last = pieces[n].start, pieces[end - 1].end
            out.append(Piece("word", text[start:last].lower(), start, last, _NONE))
        else:
            out.append(pieces[n])
        n = end or n + 1
    return out


def _in_vain(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "expected to find cysts and did not" ends, nothing more told in its sentence; 0 for none."""
    if not _begins(pieces, n, made, "hoped_for"):
        return 0
    end = _sentence_end(pieces, n)
    if not _females_alone(pieces[n : end - 1]):
        return 0  # the last one may be "nada"
    said = " ".join(piece.text for piece in pieces[n:end]).split(" ")
    return end if any(made.has("in_vain", " ".join(said[-size:])) for size in (2, 3)) else 0


def _supposed(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "if there is any SCN in there, it was not showing" ends; 0 for none."""
    if not _begins(pieces, n, made, "if_any"):
        return 0
    end = _sentence_end(pieces, n)
    females = next((k for k in range(n, end) if is_any(pieces[k], ("FEMALES",))), None)
    if females is None or not _females_alone(pieces[n:end]):
        return 0
    for k in range(females + 1, end):
        said = " ".join(piece.text for piece in pieces[k : k + LONGEST_PHRASE]).split(" ")
        size = next(
            (size for size in range(LONGEST_PHRASE, 1, -1) if made.has("not_showing", " ".join(said[:size]))), 0
        )
        if size:
            return end
    return 0


def _begins(pieces: list[Piece], n: int, made: Table, manner: str) -> bool:
    """Does a phrase of this manner begin there?"""
    words = [piece.text for piece in pieces[n : n + LONGEST_PHRASE]]
    return any(made.has(manner, " ".join(words[:size])) for size in range(len(words), 0, -1))


def _sentence_end(pieces: list[Piece], n: int) -> int:
    """Where the sentence ends in which n stands, not farther than one is long."""
    most = min(len(pieces), n + LONGEST)
    while n < most and pieces[n].kind != "line" and pieces[n].value != "hard" and pieces[n].text not in (".", ";", "?"):
        n += 1
    return n


def _females_alone(run: list[Piece]) -> bool:
    """Are females or their colors named in the run, and no number or finding?"""
    named = any(is_any(piece, ("FEMALES", "COLOUR")) and len(piece.text) > 1 for piece in run)
    counted = any(number_told(piece) is not None for piece in run)
    return named and not counted and not any(is_any(piece, _TOLD) for piece in run)
