"""A datum put right in the same breath: "back Thursday, I mean Friday", "8 yellow, oops, white", "loam? No, silt loam".

What is said last stands in place of what is before the words for putting right, and the answer says so. A plain "no"
puts right only between two stops: in "3 white no 4 yellow" it does not.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.pieces import Piece, count_told, ends_clause, piece_at
from notes_bot.language.lexicon.words import Table, anywhere
from notes_bot.language.passes.repairs import repaired

MOST_BETWEEN = 10
"""Pieces between what is put right and what stands in its place, stops among them (judgement)."""
_STOPS = frozenset({",", ".", "-", "(", "!", "/", ";", "?"})
"""Signs that may stand among the words for putting right."""
_TOLD_ONCE = (("TEXTURE",), ("MOISTURE",), ("DUG", "TOOL"), ("RESISTANCE",), ("SOURCE",))
"""Kinds of word that tell one thing of a visit, of which the last told stands."""
_OF_TIME = frozenset({"hour", "day", "week", "month"})

Put = tuple[list[Piece], int, str]
"""What stands for the pieces up to an end (exclusive), and how it was read."""


def put_in_place(pieces: list[Piece], n: int, made: Table) -> Put | None:
    """What stands for the pieces from n on, where something is put right there; ``None`` for nothing."""
    piece = pieces[n]
    if (end := _day_end(pieces, n)) > n:
        return None if _denied(pieces, n, made) else _over(pieces, end, made, lambda k: _day(pieces, k))
    if is_any(piece, ("NONE",)) and not is_any(piece, ("NOT", "COURTESY")):
        return _over(pieces, n + 1, made, lambda k: _one_after_all(pieces, k, made))
    if (kinds := _told_once(piece)) is not None:
        return _over(pieces, n + 1, made, lambda k: _other(pieces, n, k, kinds))
    behind = piece_at(pieces, n + 1)
    if count_told(piece) is None and not (_is_span(behind) and made.has("one_span", piece.text)):
        return None
    if is_any(behind, ("COLOUR",)):
        end = n + 2 + is_any(piece_at(pieces, n + 2), ("FEMALES",))
        return _over(pieces, end, made, lambda k: _shade(pieces, n, end, k))
    timed = _is_span(behind)
    if timed or _is_led(pieces, n, made):
        return _over(pieces, n + 1 + timed, made, lambda k: _span(pieces, n, k, made))
    return None


def _over(pieces: list[Piece], n: int, made: Table, found: Callable[[int], Put | None]) -> Put | None:
    """What is found behind the words for putting right that begin at n, if such stand there."""
    words: list[str] = []
    k = n
    while k < min(len(pieces), n + MOST_BETWEEN):
        piece = pieces[k]
        if words and (put := found(k)) is not None:
            said = _without_being(words, made)
            stopped = pieces[n].text in _STOPS and _closes(pieces, k, len(words) - len(said), said, made)
            plain = stopped and any(made.has(how, " ".join(said)) for how in ("spoken_repair", "stopped_repair"))
            ended = any(p.text in (".", ";", "!") for p in pieces[n + 1 : k] if p.text != pieces[n].text)
            return put if (repaired(words, made) or plain) and not (ended and put[0][0].kind == "day") else None
        if piece.kind == "word" and piece.text not in _STOPS:
            words += piece.text.split(" ")
        elif piece.text not in _STOPS:
            return None
        k += 1
    return None


def _closes(pieces: list[Piece], k: int, being: int, said: list[str], made: Table) -> bool:
    """ "No, (Monday)", "no, era (el lunes)", "no it was (Monday)"; "não foi (com pá)" only denies."""
    j = k - 1
    while being > 0 and j > 0:
        being -= len(pieces[j].text.split(" "))
        j -= 1
    spoken = j < k - 1 and made.has("spoken_repair", " ".join(said))
    return spoken or pieces[j].text in _STOPS


def _without_being(words: list[str], made: Table) -> list[str]:
    """ "No (it was)", "no (that's)": the words without those for being behind them."""
    for size in (2, 1):
        last = " ".join(words[-size:])
        if len(words) > size and any(made.has(manner, last) for manner in ("is_word", "its_word")):
            return words[:-size]
    return words


def _told_once(piece: Piece) -> tuple[str, ...] | None:
    """The kinds of word among which a word's own is, if one of them is told once of a visit."""
    return next((kinds for kinds in _TOLD_ONCE if is_any(piece, kinds)), None) if piece.kind == "word" else None


def _other(pieces: list[Piece], n: int, k: int, kinds: tuple[str, ...]) -> Put | None:
    """ "(Loam? No,) silt loam", "(moist, sorry,) wet", "(peking, no,) 88788": the same kind, and its clause ends."""
    other = pieces[k]
    behind = piece_at(pieces, k + 1)
    closed = ends_clause(behind) or (behind is not None and behind.text == ".")
    if other.kind != "word" or not is_any(other, kinds) or not closed:
        return None
    return ([other], k + 1, other.text) if _values(other, kinds).isdisjoint(_values(pieces[n], kinds)) else None


def _values(piece: Piece, kinds: tuple[str, ...]) -> set[str]:
    """What a word of these kinds means."""
    return {str(piece.types[kind].value) for kind in kinds if kind in piece.types}


def _is_day(piece: Piece) -> bool:
    """ "8/7", "Thursday", "yesterday"."""
    return piece.kind == "day" or is_any(piece, ("WEEKDAY", "TODAY"))


def _day_end(pieces: list[Piece], n: int) -> int:
    """Where the day at n ends: "Thursday", "July 2", "2 de julio"; n itself where none begins."""
    if _is_day(pieces[n]):
        return n + 1
    if is_any(pieces[n], ("MONTH",)):
        return n + 2 if count_told(piece_at(pieces, n + 1)) is not None else n
    k = n + 1
    while count_told(pieces[n]) is not None and k < len(pieces) and linking(pieces[k]):
        k += 1
    return k + 1 if k > n + 1 and is_any(piece_at(pieces, k), ("MONTH",)) else n


LONG_CLAUSE = 60
"""Pieces of a clause before that are looked at, at most (judgement)."""


def _denied(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "Can't make Kestrel (Friday, make it Monday)": moved, the Friday was no mistake."""
    begun = n
    while begun > max(0, n - LONG_CLAUSE) and not ends_clause(pieces[begun - 1]):
        begun -= 1
    return any(made.denies(word) for piece in pieces[begun:n] for word in piece.text.split(" "))


def _led_to(pieces: list[Piece], k: int) -> int:
    """The place behind the little words that lead to a day or a span: "on", "el", "na", "in"."""
    while k < len(pieces) and linking(pieces[k]) and not _is_day(pieces[k]) and count_told(pieces[k]) is None:
        k += 1
    return k


def _day(pieces: list[Piece], k: int) -> Put | None:
    """ "(Back Thursday, I mean) Friday", "(ontem, aliás) anteontem 5 plantas"."""
    at = _led_to(pieces, k)
    end = _day_end(pieces, at) if at < len(pieces) else at
    if end == at:
        return None
    behind = piece_at(pieces, end)
    closed = ends_clause(behind) or count_told(behind) is not None
    return (pieces[at:end], end, " ".join(p.text for p in pieces[at:end])) if closed else None


def _is_span(piece: Piece | None) -> bool:
    """A unit of time."""
    return piece is not None and "UNIT" in piece.types and piece.types["UNIT"].value in _OF_TIME


def _is_led(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "(Volto) em (7)", "(back) in (7)": a bare number behind a word that leads to a span, a stop behind it."""
    lead = pieces[n - 1].text.split(" ")[-1] if n else ""
    return made.has("span_lead", lead) and ends_clause(piece_at(pieces, n + 1))


def _span(pieces: list[Piece], n: int, k: int, made: Table) -> Put | None:
    """ "(7 days, no,) 10 days", "(em 7, não,) em 10 dias", "(7 días, perdón,) 10"."""
    at = _led_to(pieces, k)
    number, own, unit = piece_at(pieces, at), piece_at(pieces, n + 1), piece_at(pieces, at + 1)
    if number is None or count_told(number) is None or made.has("denies_one", number.text):
        return None
    if _is_span(unit) and unit is not None:
        return [number, unit], at + 2, f"{number.text} {unit.text}"
    if _is_span(own) and own is not None and ends_clause(unit):
        return [number, replace(own, start=number.end, end=number.end)], at + 1, f"{number.text} {own.text}"
    return None


def _shade(pieces: list[Piece], n: int, end: int, k: int) -> Put | None:
    """ "(8 yellow, oops,) white", "(8 yellow, no,) 8 white", "(8 amarelas, opa,) brancas, 8 brancas"."""
    old = pieces[n + 1]
    same = count_told(piece_at(pieces, k)) == count_told(pieces[n])
    at = k + same
    shade = piece_at(pieces, at)
    if shade is None or not is_any(shade, ("COLOUR",)) or shade.types["COLOUR"].value == old.types["COLOUR"].value:
        return None
    at += 1
    at += is_any(piece_at(pieces, at), ("FEMALES",))
    behind = piece_at(pieces, at)
    if not (ends_clause(behind) or linking(pieces[at]) or pieces[at].text in anywhere("and_word")):
        return None
    again = pieces[at + 1 : at + 3] if behind is not None and behind.text == "," else []
    if len(again) == 2 and count_told(again[0]) == count_told(pieces[n]) and again[1].text == shade.text:
        at += 3
    return [pieces[n], shade, *pieces[n + 2 : end]], at, f"{pieces[n].text} {shade.text}"


def _one_after_all(pieces: list[Piece], k: int, made: Table) -> Put | None:
    """ "(Nenhuma fêmea... peraí,) tem uma sim, branca", "(none, hang on,) there is one, white"."""
    at = k
    while at < len(pieces) and (made.has("there_is", pieces[at].text) or made.has("yes_word", pieces[at].text)):
        at += 1
    number = piece_at(pieces, at)
    if number is None or not count_told(number):
        return None
    at += 1
    while at < len(pieces) and (pieces[at].text == "," or made.has("yes_word", pieces[at].text)):
        at += 1
    shade = piece_at(pieces, at)
    if shade is None or not is_any(shade, ("COLOUR", "FEMALES")):
        return None
    return [number, shade], at + 1, f"{number.text} {shade.text}"
