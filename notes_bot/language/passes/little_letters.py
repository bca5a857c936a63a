"""The little letter "a" of Spanish and Portuguese: a color, the word "the" or "to", or half of "a pá".

A letter is a color only where a number or another color stands beside it. "Não achei nenhuma fêmea, a terra tava
seca" denies no yellow ones, and in "8 b 1 a pá" and "22 b 4 a 9 m" it is the color behind its count. In English an "r"
behind what is told of may be "are" ("the veins r still green").
"""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.pieces import Piece, piece_at
from notes_bot.language.lexicon.words import Entry, Table, anywhere

LEAST_NOUN = 3
"""Letters of the shortest noun (judgement)."""
_BESIDE_COLOR = frozenset({"COLOUR", "MOSTLY", "EACH", "FEMALES", "PLANTS", "TOTAL", "NONE", "TOO_MANY", "TOOL", "DUG"})
"""Kinds of word behind a letter that is a color: behind any other word it leads to that word."""

_TOLD_OF = ("TOPS", "ROOTS", "VEINS", "EDGES", "NODULES", "PLANTS", "FEMALES", "NEW", "OLD")
_TELLS_HOW = ("COLOUR", "GREEN", "TOP", "ROOT", "NODULE", "MOISTURE", "NOT", "MOSTLY", "ABOUT")


def little_letters(pieces: list[Piece], made: Table, text: str) -> list[Piece]:
    """The pieces with each little letter as what it is there."""
    if made.language == "en":
        return [_are(p) if p.text == "r" and _says_are(pieces, n, made) else p for n, p in enumerate(pieces)]
    pieces = _counted_before_tool(_colors_in_ranges(pieces, made, text), made)
    return [_without_color(p) if _leads(pieces, n) else p for n, p in enumerate(pieces)]


def _says_are(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "Veins (r) still green", "roots (r) white": behind a noun and before a word that tells how it is."""
    before, after = piece_at(pieces, n - 1), piece_at(pieces, n + 1)
    if pieces[n].types or before is None or after is None or after.kind != "word":
        return False
    return is_any(before, _TOLD_OF) and (linking(after) or is_any(after, _TELLS_HOW) or made.has("copula", after.text))


def _are(piece: Piece) -> Piece:
    """The letter as a little word."""
    return Piece("word", piece.text, piece.start, piece.end, (Entry("LINK", "link"),), piece.value, piece.spaced)


def _leads(pieces: list[Piece], n: int) -> bool:
    """ "(a) terra", "com (a) chuva": a letter before a word that is no color, and behind no number or color."""
    piece, before, after = pieces[n], piece_at(pieces, n - 1), piece_at(pieces, n + 1)
    if len(piece.text) > 1 or not {"COLOUR", "LINK"} <= piece.types.keys() or after is None or after.kind != "word":
        return False
    counted = before is not None and (
        before.kind in ("number", "range", "sign") or is_any(before, ("COLOUR", "MOSTLY"))
    )
    joined = before is not None and before.text in anywhere("shade_joint")  # "b e a na raiz", not "e a chuva"
    if counted or (joined and (linking(after) or len(after.text) < LEAST_NOUN)):
        return False
    return len(after.text) > 1 and not is_any(after, _BESIDE_COLOR)


def _without_color(piece: Piece) -> Piece:
    """The same letter, no color."""
    entries = tuple(entry for entry in piece.entries if entry.type != "COLOUR")
    return Piece(piece.kind, piece.text, piece.start, piece.end, entries, piece.value, piece.spaced)


def _counted_before_tool(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "8 b 1 (a) pá": behind a count of another color the letter is the color of the number before it."""
    out: list[Piece] = []
    for n, piece in enumerate(pieces):
        letter, _, rest = piece.text.partition(" ")
        entries = made.singles.get(letter, ())
        color = next((entry for entry in entries if entry.type == "COLOUR"), None)
        number, shade = piece_at(pieces, n - 1), piece_at(pieces, n - 2)
        told = number is not None and number.kind == "number" and is_any(shade, ("COLOUR",))
        other = shade is not None and color is not None and told and shade.types["COLOUR"].value != color.value
        if len(letter) > 1 or not (rest and other and is_any(piece, ("TOOL",))):
            out.append(piece)
            continue
        middle = piece.start + 1
        out.append(Piece("word", letter, piece.start, middle, entries, None, piece.spaced))
        out.append(Piece("word", rest, middle + 1, piece.end, (piece.types["TOOL"],)))
    return out


def _colors_in_ranges(pieces: list[Piece], made: Table, text: str) -> list[Piece]:
    """ "22 b (4 a 9) m": no range between letters of colors, but four of one and nine of the next."""
    color = next((entry for entry in made.singles.get("a", ()) if entry.type == "COLOUR"), None)
    out: list[Piece] = []
    for n, piece in enumerate(pieces):
        before, after = piece_at(pieces, n - 1), piece_at(pieces, n + 1)
        letters = [p for p in (before, after) if p is not None and len(p.text) == 1 and is_any(p, ("COLOUR",))]
        shades = {p.types["COLOUR"].value for p in letters} | ({color.value} if color else set())
        written = text[piece.start : piece.end].lower().split()
        if piece.kind != "range" or color is None or len(letters) < 2 or len(shades) < 3 or written[1:2] != ["a"]:
            out.append(piece)
            continue
        low, high = piece.value
        first, last = piece.start + len(written[0]), piece.end - len(written[-1])
        out.append(Piece("number", str(low), piece.start, first, (), low, piece.spaced))
        out += [Piece("word", "a", first, last, (color,)), Piece("number", str(high), last, piece.end, (), high)]
    return out
