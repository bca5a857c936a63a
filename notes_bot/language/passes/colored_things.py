"""Colors of things that are no females: "saw 3 white trailers", "3 ciervos blancos", "os bezerros brancos".

What females and cysts are called stands in the word files; in the messages of tests/corpus hardly a noun that is in no
list stands beside their color. So a plural no list knows, beside a color, is another thing, and its number is no count.
"""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.pieces import Piece, ends_clause, number_told, piece_at
from notes_bot.language.lexicon.words import Table

SHORTEST = 4
"""Letters of the shortest plural taken for a thing (judgement)."""


def colored_things(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with each such thing, its color and its number put aside."""
    out = list(pieces)
    for n, piece in enumerate(pieces):
        if not is_any(piece, ("COLOUR",)) or len(piece.text) < SHORTEST - 1:
            continue
        if made.language == "en":
            first, last = (n, n + 1) if _thing(piece_at(pieces, n + 1), made) else (0, 0)
        else:
            led = number_told(piece_at(pieces, n - 2)) is not None or _article(piece_at(pieces, n - 2), made)
            first, last = (n - 1, n) if led and _thing(piece_at(pieces, n - 1), made) else (0, 0)
        if not last or _among_counts(pieces, first, last, made):
            continue
        first -= number_told(piece_at(pieces, first - 1)) is not None
        if number_told(pieces[first]) is not None and counts_on(pieces, first):
            continue
        out[first : last + 1] = [Piece("aside", "", p.start, p.end) for p in pieces[first : last + 1]]
    return out


def counted_things(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Saw 3 (dead) geese by the gate", beside females counted: the number of a known thing, in a clause of nothing
    of ours, put aside.
    """
    out = list(pieces)
    shaded = [n for n in range(1, len(pieces)) if is_any(pieces[n], ("COLOUR",)) and _figure(pieces, n - 1)]
    for n in range(len(pieces) - 1) if shaded else ():
        noun = n + 1
        if noun + 1 < len(pieces) and pieces[noun].kind == "word" and not is_any(pieces[noun], _OURS):
            noun += not made.has("talk_creature", pieces[noun].text)
        if not made.has("talk_creature", pieces[noun].text) or not _figure(pieces, n):
            continue
        first, last = n, noun
        while first > max(0, n - LONGEST) and not ends_clause(pieces[first - 1]):
            first -= 1
        while last + 1 < min(len(pieces), n + LONGEST) and not ends_clause(pieces[last + 1]):
            last += 1
        if any(is_any(piece, _DAYS) or piece.kind == "day" for piece in pieces[first : last + 1]):
            continue  # "today I had two trucks to wait for": the day may be of all that is told below
        if not any(is_any(piece, _OURS) for piece in pieces[first:n]) and not any(first <= k <= last for k in shaded):
            whole = all(
                piece.kind in ("word", "number", "aside") and not _tells(piece) for piece in pieces[first : last + 1]
            )
            for k in range(first, last + 1) if whole else range(n, noun + 1):
                out[k] = Piece("aside", "", pieces[k].start, pieces[k].end)
    return out


LONGEST = 20
"""Pieces of a clause before and behind that are looked at, at most (judgement)."""
_DAYS = ("TODAY", "WEEKDAY", "MONTH")
_OURS = ("PLANTS", "COLOUR", "FEMALES", "EACH", "TOTAL", "NODULES")


def _tells(piece: Piece) -> bool:
    """May a word tell something of a field, or which one? "Picked (up 4 bags)" digs none."""
    return not linking(piece) and bool(piece.types.keys() - _IDLE)


_IDLE = {"DUG", "LINK", "ABOUT", "MOSTLY", "MEASURE", "NUMBER_WORD"}


def _figure(pieces: list[Piece], n: int) -> bool:
    return number_told(piece_at(pieces, n)) is not None


def counts_on(pieces: list[Piece], n: int) -> bool:
    """ "Dug 9 (4) white grasshoppers bad": does the number at n stand right behind plants or what they had?"""
    before = piece_at(pieces, n - 1)
    if before is not None and len(before.text) == 1 and is_any(before, ("COLOUR",)):
        return number_told(piece_at(pieces, n - 2)) is not None  # in "esperar a 3 camiones blancos" no yellow
    return number_told(before) is not None or is_any(before, ("PLANTS", "COLOUR", "FEMALES"))


def _among_counts(pieces: list[Piece], first: int, last: int, made: Table) -> bool:
    """ "12 white whatsits and 3 yellow": beside a color counted without a noun, in one list, they are females."""
    behind = last + 1
    if (joint := piece_at(pieces, behind)) is not None and (joint.text == "," or linking(joint)):
        behind += 1
    led = first - (number_told(piece_at(pieces, first - 1)) is not None) - 1
    if (joint := piece_at(pieces, led)) is not None and (joint.text == "," or linking(joint)):
        led -= 1
    counted = number_told(piece_at(pieces, behind)) is not None and is_any(piece_at(pieces, behind + 1), ("COLOUR",))
    counted = counted and not _thing(piece_at(pieces, behind + 2), made)
    before = is_any(piece_at(pieces, led), ("COLOUR",)) and number_told(piece_at(pieces, led - 1)) is not None
    ends = last + 1 >= len(pieces) or ends_clause(pieces[last + 1])  # but "12 white, 3 white goats went by"
    return counted or (before and ends)


def _thing(piece: Piece | None, made: Table) -> bool:
    """Is it a plural no list knows? Other words that end so are told apart: "12 white plus 3 yellow"."""
    if piece is None or piece.kind != "word" or piece.types or not piece.text.isalpha():
        return False
    plural = piece.text.endswith("s") and not piece.text.endswith("ss") and len(piece.text) >= SHORTEST
    return plural and not made.has("no_plural", piece.text)


def _article(piece: Piece | None, made: Table) -> bool:
    """ "Los (bezerros brancos)", "unos .."."""
    return piece is not None and made.has("things_article", piece.text)
