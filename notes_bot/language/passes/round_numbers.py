"""Numbers said with something left open: "20-some white", "veinte y pico", "no more than 12 white", "até 40 brancas".

The number told stands, as it does in "about 20" and "over 20"; how much more or less it was nobody counted.
"""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.pieces import Piece, count_told, ends_clause, piece_at
from notes_bot.language.lexicon.words import Table

LEAST = 10
"""Smaller numbers are not left open so: "6 y pico" may be a spade (judgement)."""
LONGEST = 4
"""Pieces of the longest such phrase (judgement)."""
_COUNTED = ("COLOUR", "FEMALES", "PLANTS")


def round_numbers(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces without the words before or behind a number, or behind what it counts, that leave it open."""
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        if end := _opened(pieces, n, made):
            n = end
        out.append(pieces[n])
        n += 1
        if n < len(pieces) and (end := _left_open(pieces, n, made)):
            n = end
    return out


def _opened(pieces: list[Piece], n: int, made: Table) -> int:
    """ "(No more than) 12 white", "(hasta) 40 blancas", "(a good) 30": where the number stands; 0 for none."""
    before = piece_at(pieces, n - 1)
    apart = before is None or before.kind in ("break", "line", "sign") or (before.kind == "word" and linking(before))
    if not (apart or is_any(before, (*_COUNTED, "DUG", "FIELD"))):
        return 0
    for end in range(min(len(pieces) - 1, n + LONGEST), n, -1):
        if count_told(pieces[end]) is None or not is_any(piece_at(pieces, end + 1), _COUNTED):
            continue
        if made.has("open_number", " ".join(piece.text for piece in pieces[n:end])):
            return end
    return 0


def _left_open(pieces: list[Piece], n: int, made: Table) -> int:
    """Where the words end that leave the number before them open; 0 for none."""
    number = pieces[n - 1]
    behind_noun = is_any(number, ("COLOUR", "FEMALES")) and n > 1
    if behind_noun:
        number = pieces[n - 2]
    value = count_told(number)
    if value is None or value < LEAST:
        return 0
    for end in range(min(len(pieces), n + LONGEST), n, -1):
        said = " ".join(piece.text for piece in pieces[n:end] if piece.text != "-")
        after = piece_at(pieces, end)
        closed = after is None or ends_clause(after)
        if behind_noun:
            if closed and made.has("and_odd", said):
                return end  # "doce blancas y pico"
            continue
        counts = is_any(after, _COUNTED) and not (after is not None and after.kind == "break")
        if made.has("and_odd", said) and (closed or counts or _led(pieces, end)):
            return end
        glued = pieces[n].text == "-" or (value % LEAST == 0 and number.kind == "word")
        if glued and counts and made.has("some_more", said):
            return end  # "20-some white", "twenty some white"; in "20 some white" some of the twenty may be white
    return 0


def _led(pieces: list[Piece], n: int) -> bool:
    """ "Ciento y pico (de blancas)"."""
    word = piece_at(pieces, n)
    return word is not None and linking(word) and is_any(piece_at(pieces, n + 1), _COUNTED)
