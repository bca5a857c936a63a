"""Plants told by how many came from each place: "3 plants from each of 2 rings", "4 per ring in 3 rings".

The answer says how it was read, as it does of "3 spots, 2 plants each".
"""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece, count_told, piece_at
from notes_bot.language.lexicon.times import MOST_PLANTS
from notes_bot.language.lexicon.tokens import Draft, Slip
from notes_bot.language.lexicon.words import Table, anywhere

MOST_PLACES = 20
"""Places of one field in which as many plants were dug (judgement)."""
LONGEST_BETWEEN = 6
"""Words between the plants and the number of places, "de cada uno de los" (judgement)."""


def plants_of_each(draft: Draft, made: Table) -> list[Piece]:
    """The pieces with the plants of all places told in one number, where no place is told for itself behind it."""
    pieces = draft.pieces
    for n in range(len(pieces) - 3):
        count = count_told(pieces[n])
        noun = is_any(pieces[n + 1], ("PLANTS", "DUG"))
        if count is None or count < 1 or not (noun or is_any(piece_at(pieces, n - 1), ("DUG",))):
            continue
        at = _number_of_places(pieces, n + 1 + noun, made)
        places = _places(pieces[at], made) if at is not None else None
        if at is None or places is None or not 1 < places <= MOST_PLACES or count * places > MOST_PLANTS:
            continue
        if _places_told(pieces, at + 2):
            continue
        first, place = pieces[n], pieces[at + 1]
        whole = Piece("number", str(count * places), first.start, first.end, (), count * places, first.spaced)
        draft.slips.append(Slip("near_word", str(count * places), first.start, place.end))
        shape = [place] if is_any(place, ("TOP",)) and not is_any(place, ("SPOT",)) else []
        return [*pieces[:n], whole, *pieces[n + 1 : n + 1 + noun], *shape, *pieces[at + 2 :]]
    return pieces


def _number_of_places(pieces: list[Piece], begin: int, made: Table) -> int | None:
    """Where the number of the places stands, words like "from each of" or "per ring in" before it."""
    words: list[str] = []
    for n in range(begin, min(begin + LONGEST_BETWEEN, len(pieces) - 1)):
        said = " ".join(words)
        if _places(pieces[n], made) is not None and words and _place(pieces[n + 1], made):
            return n if made.has("of_each_of", said) or _per_place(words, made) else None
        if pieces[n].kind not in ("word", "link"):
            return None
        words += pieces[n].text.split(" ")
    return None


def _places(piece: Piece, made: Table) -> int | None:
    """A number, or one with its article: "las dos"."""
    article, _, number = piece.text.rpartition(" ")
    told = made.singles.get(number, ()) if made.has("article", article) else ()
    value = next((entry.value for entry in told if entry.type == "NUMBER_WORD"), "")
    return int(value) if value.isdigit() else count_told(piece)


def _per_place(words: list[str], made: Table) -> bool:
    """ "Per ring in", "por anillo en": one place, and a word that leads to how many."""
    return (
        len(words) > 2
        and made.has("per_place", " ".join(words[:-2]))
        and _place_word(words[-2], made)
        and words[-1] in anywhere("at")
    )


def _place(piece: Piece, made: Table) -> bool:
    return piece.kind == "word" and any(_place_word(word, made) for word in piece.text.split(" ")[:1])


def _place_word(word: str, made: Table) -> bool:
    """Is it a word for places that are counted?"""
    return any(made.has(manner, word) for manner in ("place_count", "place_unit", "place_dug"))


def _places_told(pieces: list[Piece], begin: int) -> bool:
    """Are two places told behind it, each with what was found there ("gate 4 white, hill 9")?"""
    told = 0
    for n in range(begin, len(pieces)):
        if is_any(pieces[n], ("FIELD",)):
            break
        counted = any(count_told(piece_at(pieces, k)) is not None for k in (n + 1, n + 2))
        told += is_any(pieces[n], ("SPOT", "CHECK")) and counted
    return told > 1
