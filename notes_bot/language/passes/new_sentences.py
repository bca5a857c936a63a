"""Sentences that begin without a stop, as they are dictated: "brown two the roots are dark" is two of them."""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any, number_like
from notes_bot.language.lexicon.pieces import Piece, piece_at
from notes_bot.language.lexicon.words import Table

_COUNTING = ("COLOUR", "FEMALES", "NONE", "PLANTS", "TOO_MANY")
"""Kinds of word a clause on females ends in."""


def crop_apart(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Brown two the roots are dark", "mostly yellow the plants are stunted": the crop has a clause of its own."""
    out: list[Piece] = []
    for n, piece in enumerate(pieces):
        if n and _of_crop(pieces, n, made) and (number_like(pieces[n - 1]) or is_any(pieces[n - 1], _COUNTING)):
            out.append(Piece("break", ",", pieces[n - 1].end, pieces[n - 1].end, (), "soft"))
        out.append(piece)
    return out


def _of_crop(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "The roots are", "las plantas están": does a sentence on the crop begin there?"""
    article, noun, verb = pieces[n], piece_at(pieces, n + 1), piece_at(pieces, n + 2)
    led = any(made.has(trait, article.text) for trait in ("determiner", "article", "name_article"))
    named = is_any(noun, ("ROOTS", "TOPS")) and not is_any(noun, ("NONE", "FEMALES"))
    return led and named and verb is not None and made.has("copula", verb.text)


def look_apart(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Cavei 3 e tava branco de fêmea", "dug 3 and were all white": behind the plants dug, what they were like."""
    out = list(pieces)
    for n in range(2, len(pieces) - 1):
        dug = number_like(pieces[n - 1]) and is_any(pieces[n - 2], ("DUG", "TOOL"))
        if dug and made.has("and_word", pieces[n].text) and made.has("copula", pieces[n + 1].text):
            out[n] = Piece("break", ";", pieces[n].start, pieces[n].end, (), "hard")
    return out


def heading_one(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Quick one: cysts all over the roots": a word that is told of with "one" and a colon counts nothing."""
    out = list(pieces)
    for n in range(1, len(pieces) - 1):
        adjective = pieces[n - 1].kind == "word" and not pieces[n - 1].types
        if adjective and pieces[n + 1].text == ":" and made.has("noun_one", pieces[n].text):
            out[n] = Piece("word", pieces[n].text, pieces[n].start, pieces[n].end)
    return out


def figures_of_lists(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "3 5 0 0 12 7 1 (2 dry)": a figure written for a word, "too dry", is behind two numbers the next of them."""
    out: list[Piece] = []
    for n, piece in enumerate(pieces):
        figure, _, rest = piece.text.partition(" ")
        listed = n > 1 and pieces[n - 1].kind == pieces[n - 2].kind == "number"
        if not (piece.kind == "word" and listed and figure.isdigit() and rest in made.singles):
            out.append(piece)
            continue
        middle = piece.start + len(figure)
        out.append(Piece("number", figure, piece.start, middle, (), int(figure), piece.spaced))
        out.append(Piece("word", rest, middle + 1, piece.end, made.singles[rest]))
    return out


def visits_again(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Section 9 again tuesday. 8 plants, 20 white": behind the field that a note begins with, and no next look."""
    del made
    n = next((n for n, piece in enumerate(pieces) if piece.kind not in ("break", "line", "sign", "number")), 0)
    while n + 1 < len(pieces) and not is_any(pieces[n + 1], ("LOOK",)):
        if pieces[n].kind in ("break", "line") or not (is_any(pieces[n], ("FIELD",)) or pieces[n].kind == "number"):
            return pieces
        n += 1
    again, day, stop = (piece_at(pieces, n + k) for k in (1, 2, 3))
    once_more = again is not None and is_any(again, ("LINK",)) and day is not None and day.kind == "day"
    counts = any(is_any(piece, ("COLOUR", "FEMALES", "NONE", "PLANTS")) for piece in pieces[n + 3 :])
    if not (once_more and stop is not None and stop.kind in ("break", "line") and counts and n < len(pieces)):
        return pieces
    return [*pieces[: n + 1], *pieces[n + 2 :]] if is_any(pieces[n], ("FIELD",)) else pieces
