"""A day on which something else is done than a visit: "dentist monday", "el viernes se vence el alquiler".

What tells them apart is who does what on that day. In a clause of its own that holds one day or time, a word that no
list knows, nothing of a field, and no word of looking, going, counting or writing, the day is that of the strange word.
Where the writer himself does something strange, it must be a thing ("I have a wedding"), as "I swung by" is a visit.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from notes_bot.language.lexicon.days import UNIT_DAYS
from notes_bot.language.lexicon.joining import day_number, is_any, linking
from notes_bot.language.lexicon.pieces import Piece, piece_at
from notes_bot.language.lexicon.words import Table

_IDLE = frozenset(
    {"LINK", "ABOUT", "COURTESY", "NEW", "OLD", "PLACE", "TEXT", "TOPIC", "SAID", "AGO", "AFTER", "SPOT", "HAD", "MOVE"}
    | {"LANGUAGE", "LANGUAGE_NAME", "MEASURE", "DUE", "ROOT", "UNIT", "NOT", "WEATHER"}
)
"""Kinds of words that may stand beside a strange one and tell of no visit."""
_FOUND = ("COLOUR", "FEMALES", "NONE", "PLANTS", "TOO_MANY", "NOT_LOOKED")
LONGEST_NAME = 3
"""Strange words before counts that may be the name of a field no list has (judgement)."""


def days_of_others(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with each such clause as one aside, behind what was found: a day told before it heads the note."""
    if not any(is_any(piece, ("FIELD",)) for piece in pieces):
        return pieces
    found = next((n for n, piece in enumerate(pieces) if is_any(piece, _FOUND)), len(pieces))
    out: list[Piece] = []
    start = 0
    for n in range(len(pieces) + 1):
        if n < len(pieces) and not _parts(pieces[n]):
            continue
        clause = pieces[start:n]
        if start > found and _of_another(clause, made) and not _heads_counts(pieces, start, n):
            clause = [Piece("aside", "", clause[0].start, clause[-1].end)]
        out += [*clause, *pieces[n : n + 1]]
        start = n + 1
    return out


def _parts(piece: Piece) -> bool:
    """Does a clause end there: a stop, a comma, a bracket, a line?"""
    return piece.kind in ("break", "line")


def _heads_counts(pieces: Sequence[Piece], start: int, end: int) -> bool:
    """ "Ferris monday, 5 pl 3 w": may it be a name no list has, at the head of its line, and counts behind a comma?"""
    heads = start == 0 or pieces[start - 1].kind == "line" or pieces[start - 1].value == "hard"
    if not heads or end >= len(pieces) or pieces[end].value == "hard" or pieces[end].kind == "line":
        return False
    behind = piece_at(pieces, end + 1)
    named = sum(_strange(piece) for piece in pieces[start:end]) <= LONGEST_NAME
    return named and behind is not None and behind.kind in ("number", "stage")


def _strange(piece: Piece) -> bool:
    """Is it a word that no list knows?"""
    return piece.kind == "word" and not piece.entries


def _of_another(clause: Sequence[Piece], made: Table) -> bool:
    """Is the only time of a clause that of something else than a visit?"""
    times = [n for n in range(len(clause)) if _time_at(clause, n, made)]
    if len(times) != 1 or getattr(clause[times[0]].value, "days_ago", None) == 0:
        return False  # "out here today sweating": who writes is there
    last = times[0] + (2 if _spans(clause, times[0]) else 1)
    rest = [*clause[: times[0]], *clause[last:]]
    parts = {id(b) for a, b in pairwise(rest) if made.has("part_lead", a.text)}  # "Sunday after church"
    parts |= {id(piece) for piece in rest if made.has("day_part", piece.text)}
    strange = [piece.text for piece in rest if _strange(piece) and piece.text.isalpha() and id(piece) not in parts]
    words = [word for piece in rest if piece.kind == "word" for word in piece.text.split(" ")]
    if not strange or made.has_any("of_visit", words) or made.has_any("visit_noun", words):
        return False
    told = (p for p in rest if p.kind != "aside" and not (p.kind == "word" and (linking(p) or p.types.keys() <= _IDLE)))
    if not all(_returns(rest, piece, made) for piece in told):
        return False
    if any(made.has("with_word", a.text) and _strange(b) for a, b in pairwise(clause)) and len(strange) == 1:
        return False  # "with Pedro on Monday"
    writer = made.has_any("who_goes", words)
    return not writer or any(made.has("thing_lead", a) and b in strange for a, b in pairwise(words))


def _time_at(clause: Sequence[Piece], n: int, made: Table) -> bool:
    """Does a day, or a number of days or weeks, stand there, or the number of a day ("el 31 vence el seguro")?"""
    if clause[n].kind == "day" or _spans(clause, n):
        return True
    return day_number(clause[n]) and n > 0 and made.has("nth_lead", clause[n - 1].text)


def _spans(clause: Sequence[Piece], n: int) -> bool:
    """Does a number of days or weeks stand there?"""
    unit = clause[n + 1].types.get("UNIT") if n + 1 < len(clause) and clause[n].kind in ("number", "range") else None
    return unit is not None and unit.value in UNIT_DAYS


def _returns(rest: Sequence[Piece], piece: Piece, made: Table) -> bool:
    """ "The agronomist is back in 10 days", "o gringo volta em duas semanas": somebody strange comes back."""
    n = next(k for k, other in enumerate(rest) if other is piece)
    verb = made.has("others_return", piece.text)
    if n and made.has("is_back", f"{rest[n - 1].text} {piece.text}"):
        verb, n = True, n - 1
    led = n > 1 and made.has("name_article", rest[n - 2].text)  # "o patrão volta do Mato Grosso"
    return "LOOK" in piece.types and verb and n > 0 and (_strange(rest[n - 1]) or led)
