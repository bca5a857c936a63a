"""A day's high and low told in a sentence, and a hot day in nothing but everyday words.

"Hit 97 over at lower bench yesterday": no word says how hot it was, but the number can only be a day's high.
"""

from __future__ import annotations

from notes_bot.language.lexicon.joining import day_words, is_any, number_words
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.requests.commands.line import LONGEST_REQUEST, Line
from notes_bot.language.requests.commands.rain_at import LONGEST, little, visited
from notes_bot.language.requests.commands.sky_words import heat_label, value_told, where_told

_HOT = {True: range(80, 121), False: range(28, 49)}
"""Degrees of a hot day, in Fahrenheit in English and in Celsius elsewhere (judgement)."""
_BEFORE = 3
"""Pieces between a word for the high and its number (judgement)."""


def warmed(line: Line) -> bool:
    """ "It got up to 95 F yesterday and only came down to 68", "hoy máx 34 mín 21 grados"."""
    if line.tells() or len(line.ps) > LONGEST_REQUEST or any("FEMALES" in p.types for p in line.ps):
        return False
    ps = day_words(number_words(line.ps, line.made), line.made)
    label, used, out, count = "", -1, {}, 0
    for k, piece in enumerate(ps):
        label = (heat_label(line, ps, k) if k > used else "") or label
        if piece.kind != "number":
            continue
        count += 1
        if not label:  # "35 grados de máxima y 19 de mínima"
            used = next((n for n in range(k + 1, min(k + 4, len(ps))) if heat_label(line, ps, n)), k)
            label = heat_label(line, ps, used)
        unit = ps[k + 1].text if k + 1 < len(ps) else ""
        out.update(value_told(line, label, float(piece.value), unit))
        label = ""
    told = any(line.made.has("degree_word", word) for p in ps for word in p.text.split())
    if len(out) != count or not (len(out) == 2 or (told and out)):
        return False
    return line.emit("weather", **where_told(line, ps), **out)


def was_hot(line: Line) -> bool:
    """ "Hit 97 over at lower bench yesterday", "a máxima foi de 36 ontem": a day's high, and little words else."""
    if len(line.ps) > LONGEST or line.asked or visited(line.ps):
        return False
    ps = day_words(line.ps, line.made)
    at = [n for n, p in enumerate(ps) if p.kind == "number" and "FIELD" not in p.types]
    if len(at) != 1 or sum("FIELD" in p.types for p in ps) > 1 or not _hot(line, ps, at[0]):
        return False
    labels = [n for n in range(max(0, at[0] - _BEFORE), min(len(ps), at[0] + _BEFORE)) if n != at[0]]
    told = [n for n in labels if heat_label(line, ps, n) == "high" and _little_between(line, ps, n, at[0])]
    dated = any(p.kind == "day" or is_any(p, ("TODAY", "WEEKDAY")) for p in ps)
    if not told or not dated:
        return False
    rest = [p for n, p in enumerate(ps) if n not in (at[0], *told) and "FIELD" not in p.types]
    if not all(little(line, p) for p in rest if not _of_label(line, p)):
        return False
    unit = ps[at[0] + 1].text if at[0] + 1 < len(ps) else ""
    high = value_told(line, "high", float(ps[at[0]].value), unit)
    return line.emit("weather", **where_told(line, ps), **high)


def _hot(line: Line, ps: list[Piece], n: int) -> bool:
    """Can a number be the degrees of a hot day?"""
    behind = ps[n + 1].text if n + 1 < len(ps) else ""
    fahrenheit = behind == "f" or (behind != "c" and line.made.language == "en")
    return float(ps[n].value).is_integer() and int(ps[n].value) in _HOT[fahrenheit]


def _little_between(line: Line, ps: list[Piece], label: int, number: int) -> bool:
    """Do only little words stand between a word for the high and its number?"""
    return all(little(line, p) or _of_label(line, p) for p in ps[min(label, number) + 1 : max(label, number)])


def _of_label(line: Line, piece: Piece) -> bool:
    """A word of a phrase for the high: "topped", "got", "llegó"."""
    words = {word for phrase in line.made.traits["heat_high"] for word in phrase.split(" ")}
    return "WEATHER" in piece.types or all(word in words for word in piece.text.split(" "))
