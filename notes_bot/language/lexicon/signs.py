"""The words of a sentence as they are weighed: names, numbers and days stand for any (``wishes.py``, ``talk.py``)."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece

LITTLE_WEIGHT = 4.0
"""Scale of a sentence's signs: each weighs this over the root of their number (judgement)."""
SHORTEST_LANGUAGE = 2
"""Letters of a short form ("es", "pt") that may be another word."""
NUMBERS = frozenset({"number", "range", "series", "ratio", "decimal", "measure"})
"""Kinds of piece that stand for any number."""


def words_in_general(pieces: Sequence[Piece]) -> list[str]:
    """The words of a sentence; a name, a number and a day stand for any."""
    told: list[str] = []
    for piece in pieces:
        if piece.kind == "word" and "FIELD" in piece.types:
            told.append("<field>")
        elif piece.kind in NUMBERS:
            told.append("<number>")
        elif piece.kind == "day" or is_any(piece, ("WEEKDAY", "MONTH")):
            told.append("<day>")
        elif piece.kind == "stage":
            told.append("<stage>")
        elif "LANGUAGE_NAME" in piece.types and len(piece.text) > SHORTEST_LANGUAGE:
            told.append("<language>")
        elif piece.kind in ("break", "line"):
            told.append(",")
        else:
            told += piece.text.split(" ")
    return told


def scale_of(signs: Collection[str]) -> float:
    """What one sign of a sentence counts, so that long sentences are no surer than short ones."""
    return LITTLE_WEIGHT / math.sqrt(max(1, len(signs)))
