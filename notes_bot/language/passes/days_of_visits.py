"""The day of the visit in a clause of its own that tells nothing else: "these numbers are 3 days old", "es del 12".

Among words of looking, counting, writing and dating, and none of anything else, a number of days gone by is a day, and
so is the number of a day behind its article; elsewhere such a number may count anything.
"""

from __future__ import annotations

from collections.abc import Sequence

from notes_bot.language.lexicon.days import UNIT_DAYS, DayWritten
from notes_bot.language.lexicon.joining import LAST_OF_MONTH, day_number, is_any, linking
from notes_bot.language.lexicon.pieces import Piece, count_told, ends_clause, piece_at
from notes_bot.language.lexicon.words import Table, anywhere

_OTHERS = ("SPRAY", "CHEMICAL", "PLANTED", "ENTRY", "WEATHER", "LAB", "EGGS")
"""Kinds of words of whose day a message may tell as well."""
_BESIDE = frozenset(
    {"DUG", "SAID", "UNIT", "TOPIC", "AGO", "ORDINAL", "HISTORY", "STATE", "SPOT", "PLACE", "TEXT", "WHICH"}
)
"""Kinds of words that may stand among those of a visit and tell nothing else of it."""
MOST_WORDS = 14
"""Pieces of the longest such clause (judgement)."""


def days_of_visits(pieces: list[Piece], made: Table, fields: tuple[str, ...]) -> list[Piece]:
    """The pieces with the time of each such clause as a day."""
    if not any(is_any(piece, ("FIELD",)) for piece in pieces) or any(is_any(piece, _OTHERS) for piece in pieces):
        return pieces
    named = {word for name in fields for word in name.split(" ")}
    out: list[Piece] = []
    start = 0
    for n in range(len(pieces) + 1):
        if n == len(pieces) or ends_clause(pieces[n]):
            out += [*_dated(pieces[start:n], made, named), *pieces[n : n + 1]]
            start = n + 1
    return out


def _dated(clause: list[Piece], made: Table, named: set[str]) -> list[Piece]:
    """The clause with its time as a day, where it tells of nothing but a visit and that."""
    if not 1 < len(clause) <= MOST_WORDS or any(piece.kind == "day" for piece in clause):
        return clause
    found = [(n, told) for n in range(len(clause)) if (told := _time_at(clause, n, made, named)) is not None]
    if len(found) != 1:
        return clause
    n, (last, day) = found[0]
    first = n
    while first and (is_any(clause[first - 1], ("AGO",)) or made.has("day_led", clause[first - 1].text)):
        first -= 1
    rest = [*clause[:first], *clause[last:]]
    if not all(_of_visit(piece, made) for piece in rest):
        return clause
    words = [word for piece in rest for word in piece.text.split(" ")]
    if rest and not (made.has_any("of_visit", words) or made.has_any("visit_noun", words) or _is_bare(rest, made)):
        return clause
    dated = Piece("day", clause[n].text, clause[first].start, clause[last - 1].end, (), day, clause[first].spaced)
    return [*clause[:first], dated, *clause[last:]]


def _is_bare(rest: Sequence[Piece], made: Table) -> bool:
    """ "Es (del 12)", "from (the 12th)": nothing beside the day but little words."""
    return all(linking(piece) or made.has("was_day", piece.text) for piece in rest)


def _of_visit(piece: Piece, made: Table) -> bool:
    """May it stand in such a clause?"""
    if piece.kind in ("sign", "aside"):
        return piece.text != "?"
    if piece.kind != "word" or made.denies(piece.text):
        return False
    words = piece.text.split(" ")
    if made.has_any("of_visit", words) or made.has_any("visit_noun", words) or made.has_any("day_part", words):
        return not is_any(piece, ("LOOK", "NOT_LOOKED", "NONE", "PLANTS", "TOO_MANY"))
    return (
        linking(piece)
        or made.has("was_day", piece.text)
        or (bool(piece.types) and piece.types.keys() <= _BESIDE)
        or piece.text in ("and", "y", "e")
    )


def _time_at(clause: Sequence[Piece], n: int, made: Table, named: set[str]) -> tuple[int, DayWritten] | None:
    """Where a time of the past ends that begins there, and the day it is."""
    before, behind = piece_at(clause, n - 1), piece_at(clause, n + 1)
    count = count_told(clause[n])
    count = 1 if count is None and made.has("one_article", clause[n].text) else count
    if count is None or not 0 < count <= LAST_OF_MONTH:
        return None
    unit = behind.types.get("UNIT") if behind is not None else None
    if behind is not None and unit is not None and unit.value in UNIT_DAYS:
        gone = piece_at(clause, n + 2)
        aged = gone is not None and (is_any(gone, ("AGO",)) or made.has("days_old", gone.text))
        if aged or (is_any(before, ("AGO",)) and before is not None and before.text in anywhere("ago_before")):
            return n + 2 + aged, DayWritten(clause[n].text, days_ago=count * UNIT_DAYS[unit.value])
        return None
    whole = day_number(clause[n]) or "NUMBER_WORD" in clause[n].types
    if not whole or before is None or not made.has("day_led", before.text) or clause[n].text in named:
        return None
    if behind is not None and (is_any(behind, ("PLANTS", "COLOUR", "FEMALES", "MONTH")) or behind.kind == "number"):
        return None
    said = " ".join(piece.text for piece in clause[n + 1 : n + 3])
    return n + 1 + 2 * made.has("of_this_month", said), DayWritten(clause[n].text, day=count)


def today_denied(pieces: list[Piece], made: Table) -> tuple[list[Piece], list[Piece]]:
    """ "(Dont put today,) it was monday": the pieces without each such clause, and these, where another day follows."""
    if not any(_is_today(piece) for piece in pieces):
        return pieces, []
    out: list[Piece] = []
    asides: list[Piece] = []
    start = 0
    for n in range(len(pieces) + 1):
        if n < len(pieces) and not ends_clause(pieces[n]):
            continue
        clause = pieces[start:n]
        sending = _sent_today(clause, made) if clause else None
        if sending is not None and any(_is_time(p) for p in pieces if p is not sending):
            asides.append(Piece("aside", "", sending.start, sending.end))
            clause = [piece for piece in clause if piece is not sending]
        if _denies_today(clause, made) and _was_then(pieces[n + 1 : n + 1 + MOST_WORDS], made):
            asides.append(Piece("aside", "", clause[0].start, clause[-1].end))
            clause = []
        out += [*clause, *pieces[n : n + 1]]
        start = n + 1
    return out, asides


def _is_today(piece: Piece) -> bool:
    """ "Today", or a phrase that ends with it and may deny a look: "not today"."""
    told = piece.types.get("TODAY")
    return (told is not None and told.value == "0") or "NOT_LOOKED" in piece.types


def _sent_today(clause: Sequence[Piece], made: Table) -> Piece | None:
    """ "Y recién ahora te lo mando", "only sending it today": the day on which it is sent."""
    for n, piece in enumerate(clause):
        told = piece.types.get("TODAY")
        if told is not None and told.value == "0":
            near = [
                other.text for other in (*clause[max(0, n - NEAR_SENDING) : n], *clause[n + 1 : n + 1 + NEAR_SENDING])
            ]
            return piece if made.has_any("sends_it", near) else None
    return None


NEAR_SENDING = 4
"""Pieces beside "today" among which it is said that it is sent then (judgement)."""


def _was_then(behind: Sequence[Piece], made: Table) -> bool:
    """ "It was monday", "es del 12", and not "going friday": is a day told as past?"""
    times = [n for n, piece in enumerate(behind) if _is_time(piece)]
    before = [word for piece in behind[: times[0]] for word in piece.text.split(" ")] if times else []
    return made.has_any("was_day", before) and not made.has_any("planned", before)


def _is_time(piece: Piece) -> bool:
    """Is it, or begins, a day of the past?"""
    told = piece.types.get("TODAY")
    gone = told is not None and told.value.isdigit() and told.value != "0"
    return (
        gone or piece.kind == "day" or is_any(piece, ("WEEKDAY", "MONTH", "AGO")) or piece.text in anywhere("day_led")
    )


def _denies_today(clause: Sequence[Piece], made: Table) -> bool:
    """ "Not today", "no es de hoy", "don't date it today": nothing but that it was not, and words of a visit."""
    words = [word for piece in clause for word in piece.text.split(" ")]
    at = next((n for n, word in enumerate(words) if _means_today(word, made)), 0)
    denied = any(made.denies(word) or made.has("denies_plainly", word) for word in words[:at])
    known = (made.has("of_visit", word) or _means_today(word, made) or _little(word, made) for word in words)
    return denied and all(piece.kind in ("word", "sign") for piece in clause) and all(known)


def _means_today(word: str, made: Table) -> bool:
    return any(entry.type == "TODAY" and entry.value == "0" for entry in made.singles.get(word.removesuffix("'s"), ()))


def _little(word: str, made: Table) -> bool:
    """Does a word deny, or mean nothing of its own?"""
    little = any(entry.type in ("LINK", "NOT") for entry in made.singles.get(word, ()))
    return little or made.denies(word) or made.has("denies_plainly", word) or made.has("was_day", word)
