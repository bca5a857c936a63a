"""Groups of fields told with a number: "all four", "the other two", "os 2" become one word, and count nothing."""

from __future__ import annotations

from notes_bot.language.lexicon.pieces import Piece, ends_clause, piece_at
from notes_bot.language.lexicon.words import Table, anywhere, spoken_numbers

LONGEST_GROUP = 5
"""Words of the longest group of fields, "the other two fields" (judgement)."""


def groups_told(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Os 2 R2", "the other two at R1", "all four had beans": a number in a word for several fields counts no plants.

    Only where as many fields were named, and right before what is told of fields.
    """
    out: list[Piece] = []
    named: list[str] = []
    n = 0
    while n < len(pieces):
        size = _group_at(pieces, n, made, named)
        if size:
            run = pieces[n : n + size]
            out.append(Piece("word", " ".join(p.text for p in run), run[0].start, run[-1].end))
        else:
            size = 1
            out.append(pieces[n])
            named += [pieces[n].text] if "FIELD" in pieces[n].types else []
        n += size
    return out


_TOLD_OF_FIELDS = frozenset({"MOISTURE", "TEXTURE", "TOOL", "DUG", "SOAKED", "LOOK", "TOPS", "LINK", "PLANTED", "HAD"})
"""Kinds of word that may stand right behind a group of fields."""


def _group_at(pieces: list[Piece], n: int, made: Table, named: list[str]) -> int:
    """How many pieces a group of as many fields as were named takes from n on; 0 for none."""
    before = piece_at(pieces, n - 1)
    led = before is None or before.text in anywhere("and_word") or not before.types.keys().isdisjoint(("LINK", "LOOK"))
    if len(set(named)) < 2 or not (led or ends_clause(before)):
        return 0
    article = before.text.split(" ")[-1] if before is not None and "LOOK" in before.types else ""
    for size in range(min(LONGEST_GROUP, len(pieces) - n), 0, -1):
        said = " ".join(p.text for p in pieces[n : n + size])
        if size == 1:
            said = f"{article} {said}"  # "vuelvo a los" is one piece
        after = piece_at(pieces, n + size)
        rest = made.has("field_rest", said)
        if not (rest or made.has("field_group", said)):
            continue
        told = after is not None and (
            after.kind in ("stage", "day")
            or not after.types.keys().isdisjoint(_TOLD_OF_FIELDS)
            or made.has("group_link", after.text)
            or after.text in ("r", "v")
        )
        here = _named_in_sentence(pieces, n) if rest else set()
        count = count_of(said, made)
        meant = len(set(named)) - len(here)
        return size if told and count == meant and (here or not rest) else 0
    return 0


def _named_in_sentence(pieces: list[Piece], n: int) -> set[str]:
    """The fields named before a piece in its sentence."""
    found: set[str] = set()
    for piece in reversed(pieces[:n]):
        if piece.kind == "line" or piece.value == "hard":
            break
        found |= {piece.text} if "FIELD" in piece.types else set()
    return found


def count_of(said: str, made: Table) -> int | None:
    """How many fields a group has: two of "both", four of "all four"; ``None`` for one that does not say."""
    for word in said.split(" "):
        number = word if word.isdigit() else spoken_numbers().get(word, "")
        if number:
            return int(number)
        if made.has("pair_word", word):
            return 2
    return None
