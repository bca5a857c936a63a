"""Who signs a message says nothing of a field: "undo. thanks, Jo"."""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import table
from notes_bot.language.names.naming import Names
from notes_bot.model import Language

LONGEST_NAME = 2
"""Words of a person's name at the end (judgement)."""
_STOPS = frozenset({"break", "line", "sign"})


def without_signature(pieces: list[Piece], text: str, language: Language, fields: tuple[str, ...]) -> list[Piece]:
    """The pieces without a person's name behind a last word of courtesy, and without that word where more is said.

    Args:
        pieces: as cut.
        text: the cleaned text they are of.
        language: the message's language.
        fields: the crew's names; what is like one of them is no signature.
    """
    pieces = _without_introduction(pieces, text, language, fields)
    end = len(pieces)
    while end and pieces[end - 1].kind in _STOPS:
        end -= 1
    begin = end
    while begin and end - begin < LONGEST_NAME and _personal(pieces[begin - 1], text):
        begin -= 1
    if begin == end:
        return pieces
    thanks = begin
    while thanks and pieces[thanks - 1].kind in _STOPS:
        thanks -= 1
    if not thanks or "COURTESY" not in pieces[thanks - 1].types or "NOT" in pieces[thanks - 1].types:
        return pieces  # "es Loma Parda, no Garza Gris"
    if thanks > 1 and is_any(pieces[thanks - 2], ("ADD",)):
        return pieces  # "add a field please, Stone Lot"
    told = text[pieces[begin].start : pieces[end - 1].end]
    if Names(told, [], table(language), fields).like_known(0, len(told)):
        return pieces
    while thanks and "COURTESY" in pieces[thanks - 1].types:
        thanks -= 1
    while thanks and pieces[thanks - 1].kind in _STOPS and pieces[thanks - 1].text not in "?)":
        thanks -= 1
    return pieces[:thanks] if thanks else pieces[:begin]


def _without_introduction(pieces: list[Piece], text: str, language: Language, fields: tuple[str, ...]) -> list[Piece]:
    """The pieces without "aquí Chuy.", "this is Jo:" before all else; what is like a field's name stays."""
    made = table(language)
    for size in (1, 2, 3):
        if not made.has("introduces", " ".join(p.text for p in pieces[:size])):
            continue
        end = size
        while end < min(len(pieces), size + LONGEST_NAME) and _personal(pieces[end], text):
            end += 1
        stop = pieces[end] if end < len(pieces) else None
        if end == size or stop is None or stop.kind not in _STOPS:
            continue
        told = text[pieces[size].start : pieces[end - 1].end]
        if not Names(told, [], made, fields).like_known(0, len(told)):
            return pieces[end + 1 :]
    return pieces


def _personal(piece: Piece, text: str) -> bool:
    """A capital and no meaning of its own, or a name's single letter?"""
    shown = text[piece.start : piece.end]
    return piece.kind == "word" and shown[:1].isupper() and (not piece.types or len(shown) == 1)
