"""Where a message goes on to another field in the midst of prose: "After that the north field, seven plants".

The name of a field in a sentence is only a mention; what leads to it ("next one is", "después seguí a"), or a relative
clause behind it ("que está cruzando el camino, y ahí"), makes it another note where a look is told of it as well.
"""

from __future__ import annotations

from notes_bot.language.lexicon.joining import NOUNS, in_figures, is_any, linking, number_like
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import Entry, Table

LONGEST_LEAD = 9
"""Pieces that may lead to a field's name, "from there I went on over to the" (judgement)."""
LONGEST_CLAUSE = 26
"""Pieces behind a field's name among which its look is told (judgement)."""
LONGEST_PHRASE = 4
"""Pieces of the longest phrase for going on (judgement)."""
_LOOK = frozenset({"DUG", "NOT_LOOKED"})
"""What tells of a look by itself."""
_FOUND = frozenset({"NONE", "TOO_MANY"})
"""What tells of one too, but in no relative clause ("que no tiene nada que ver")."""
_COUNTED = NOUNS | {"DUG", "TOOL"}


def more_elsewhere(pieces: list[Piece], made: Table) -> list[Piece]:
    """ ".., otras nueve en Ceibo", "and nine more plants at Sumac": plants more, at a field, in their own clause."""
    out: list[Piece] = []
    for n, piece in enumerate(pieces):
        begin = _more_before(out, made) if "FIELD" in piece.types and n else None
        if begin is not None:
            led = _led_by_at(out, made)
            number = next(in_figures(told) for told in out[begin:led] if number_like(told))
            joined = begin and made.has("and_then", out[begin - 1].text)
            begin -= bool(joined)
            stop = [Piece("break", ",", number.start, number.start, (), "soft")] if joined else []
            plants = Piece("word", "", number.end, number.end, (Entry("PLANTS", "plants"),))
            out[begin:led] = [*stop, number, plants]
        out.append(piece)
    return out


def _led_by_at(pieces: list[Piece], made: Table) -> int:
    """Where the "at" or "in the" begins that ends these pieces; their end where they end otherwise."""
    j = len(pieces) - 1
    while j > 0 and made.has("article", pieces[j].text):
        j -= 1
    return j if j >= 0 and made.has("at", pieces[j].text) else len(pieces)


def _more_before(pieces: list[Piece], made: Table) -> int | None:
    """Where "nine more plants at" begins that ends these pieces, at the beginning of a clause; ``None`` for none."""
    end = _led_by_at(pieces, made)
    begin = end
    while begin and (
        number_like(pieces[begin - 1])
        or is_any(pieces[begin - 1], ("PLANTS",))
        or any(made.has(manner, pieces[begin - 1].text) for manner in ("more_word", "another_before"))
    ):
        begin -= 1
    told = pieces[begin:end]
    more = any(made.has(manner, piece.text) for piece in told for manner in ("more_word", "another_before"))
    opened = begin > 0 and (pieces[begin - 1].kind in ("break", "line") or made.has("and_then", pieces[begin - 1].text))
    counted = sum(number_like(piece) for piece in told) == 1
    return begin if end < len(pieces) and more and opened and counted else None


def _at(pieces: list[Piece], i: int) -> Piece | None:
    return pieces[i] if 0 <= i < len(pieces) else None


def _hard(piece: Piece | None) -> bool:
    """A full stop, or nothing more."""
    return piece is None or (piece.kind == "break" and piece.value == "hard")


def lead_to(pieces: list[Piece], made: Table, i: int) -> int:
    """Where the words begin by which a message goes on to the name at an index ("next one is"); itself for none."""
    first = i
    while first and i - first < LONGEST_LEAD and not _hard(pieces[first - 1]):
        before = pieces[first - 1]
        if before.kind not in ("word", "break", "line") or is_any(before, ("NOT", "NEAR", "SAME")):
            break
        first -= 1
    for begin in range(first, i):
        for size in range(min(LONGEST_PHRASE, i - begin), 0, -1):
            said = " ".join(piece.text for piece in pieces[begin : begin + size])
            if made.has("goes_on", said) and _only_leads(pieces[begin + size : i], made):
                return begin
    return i


def _only_leads(pieces: list[Piece], made: Table) -> bool:
    """Nothing but little words between what goes on and the name: "after that | we went to the"."""
    for piece in pieces:
        little = linking(piece) or is_any(piece, ("FIELD_WORD",)) or piece.text == ","
        leads = any(made.has(manner, piece.text) for manner in ("at", "goal", "gone", "goes_on", "on_the_way"))
        if not (little or leads) or made.has("to_come", piece.text):
            return False
    return True


def look_told(pieces: list[Piece], made: Table, i: int) -> bool:
    """Is a look told in the sentence behind a name: plants, what was found, a stage, that nobody looked?

    Right behind it, or behind a relative clause ("which lies across the road, and there on another six plants").
    """
    relative = False
    for k in range(i, min(i + LONGEST_CLAUSE, len(pieces))):
        piece = pieces[k]
        if _hard(piece) or ("FIELD" in piece.types and len(piece.types) == 1):
            return False
        if is_any(piece, _LOOK) or (piece.kind == "number" and is_any(_at(pieces, k + 1), _COUNTED)):
            return True
        if not relative and (piece.kind in ("series", "stage") or is_any(piece, _FOUND)):
            return True
        relative = relative or made.has("which_lies", piece.text.split(" ")[0])
        between = piece.kind in ("line", "day", "sign") or piece.text in (",", "(", ")")
        little = linking(piece) or is_any(piece, ("FIELD_WORD", "SAME", "HAD"))
        manners = ("another_before", "more_word", "also", "where_that")
        little = little or any(made.has(manner, piece.text) for manner in manners)
        if not (relative or between or little):
            return False
    return False
