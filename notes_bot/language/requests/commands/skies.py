"""Rain and heat told together, in any order: "no rain at kestrel yesterday, 96 for a high", "temps yesterday 92/68".

Every number of the line must be rain by its unit, or a high or low by the word beside it; else the line is left to
the other readers.
"""

from __future__ import annotations

from typing import Any

from notes_bot.language.lexicon.joining import day_words, is_any, number_words
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.requests import asking
from notes_bot.language.requests.commands.cutting import words_said
from notes_bot.language.requests.commands.line import Line
from notes_bot.language.requests.commands.rain_units import MOST_RAIN, mm_of
from notes_bot.language.requests.commands.sky_words import heat_label, soil_depth, value_told, where_told

LONGEST = 24
"""Pieces of the longest report of the weather (judgement)."""
BEFORE = 3
"""Pieces between a word for the high and its number behind it (judgement)."""
BEHIND = 4
"""Pieces from a number to the word for the high behind it (judgement)."""
MOST_DEGREES = 130
"""Degrees of the hottest day, in Fahrenheit (judgement)."""
_VISIT = ("PLANTS", "FEMALES", "NOT_LOOKED", "STAGE_NAME", "ACRES", "EGGS")
_COUNTED = frozenset({"number", "range", "ratio", "series", "stage"})


def reported(line: Line) -> bool:
    """Read a line as rain and heat, or as "so many millimeters of rain"; false when a number is left over."""
    if len(line.ps) > LONGEST or not _of_weather(line) or any(is_any(p, _VISIT) for p in line.ps):
        return False
    ps = day_words(number_words(line.ps, line.made), line.made)
    if any(is_any(p, _VISIT) or (p.kind in _COUNTED and _counts(ps, n)) for n, p in enumerate(ps)):
        return False
    out: dict[str, float] = {}
    rained = False
    for n, piece in enumerate(ps):
        if piece.kind not in _COUNTED:
            continue
        found = _pair(line, ps, n) if piece.kind != "number" else _rain(line, ps, n) or _heat(line, ps, n)
        if not found or found.keys() & out.keys():
            return False
        rained = rained or ("rain_mm" in found and _of_rain(line, ps, n))
        out |= found
    if "rain_mm" not in out and _dry(line):
        out["rain_mm"] = 0.0
    if len(out) < 2 and not rained:
        return False
    where = where_told(line, ps)
    if not any("FIELD" in p.types for p in ps):
        where["field"] = None
    return line.emit("weather", **where, **out)


def _of_weather(line: Line) -> bool:
    """Is weather spoken of at all? A look before the numbers are read."""
    spoken = any("WEATHER" in p.types for p in line.ps) or asking.may_say(line, "degree_word", "rain_noun", "rain_told")
    if not spoken or not any(p.kind in _COUNTED or "NUMBER_WORD" in p.types for p in line.ps):
        return False
    return not any(line.made.stemmed("watered", word) for word in line.vocabulary)  # "regamos 20 mm de agua": no rain


def _counts(ps: list[Piece], n: int) -> bool:
    """Does a number count what is seen on roots?"""
    return is_any(ps[n + 1] if n + 1 < len(ps) else None, ("COLOUR", "PLANTS", "FEMALES", "UNIT", "DUG"))


def _rain(line: Line, ps: list[Piece], n: int) -> dict[str, float]:
    """ "60 mm", "1.4 inch": a number with a unit of rain behind it."""
    unit = ps[n + 1].text.split(" ")[0] if n + 1 < len(ps) else ""
    mm = mm_of(unit) if not soil_depth(line, ps, n + 1, n + 4) else 0.0
    rain = round(float(ps[n].value) * mm, 1)
    return {"rain_mm": rain} if mm and rain <= MOST_RAIN else {}


def _of_rain(line: Line, ps: list[Piece], n: int) -> bool:
    """ "12 mm de lluvia", "2 inches of rain", "pluviômetro marcou 12 mm": nothing but rain can be meant."""
    stop = next((k for k in range(n + 2, len(ps)) if ps[k].kind == "break"), len(ps))
    beside = ps[n + 2 : min(n + 5, stop)]
    behind = any(line.made.has("rain_noun", word) for p in beside for word in p.text.split(" "))
    return behind or any(line.made.has("rain_gauge", word) for p in ps for word in p.text.split(" "))


def _heat(line: Line, ps: list[Piece], n: int) -> dict[str, float]:
    """ "High of 94", "96 for a high", "mínima ficou em 20": a number with a word for the high or low beside it."""
    if ps[n].value > MOST_DEGREES:
        return {}
    label = _label(line, ps, range(n - 1, max(-1, n - 1 - BEFORE), -1))
    label = label or _label(line, ps, range(n + 1, min(len(ps), n + 1 + BEHIND)))
    unit = ps[n + 1].text if n + 1 < len(ps) else ""
    return value_told(line, label, float(ps[n].value), unit) if label else {}


def _label(line: Line, ps: list[Piece], at: range) -> str:
    """The first word for high or low on the way, up to a stop or another number."""
    for k in at:
        if ps[k].kind in ("break", *_COUNTED) and ps[k].text != ",":
            return ""
        if ps[k].text == ",":
            return ""
        if label := heat_label(line, ps, k):
            return label
    return ""


def _pair(line: Line, ps: list[Piece], n: int) -> dict[str, float]:
    """ "Temps yesterday 92/68", "temperatura de 17 a 30 graus": high and low in one."""
    told = any(line.made.has("degree_word", word) for p in ps for word in p.text.split(" "))
    values = ps[n].value if ps[n].kind in ("ratio", "range") else ()
    if not told or len(values) != 2 or max(values) > MOST_DEGREES:
        return {}
    unit = ps[n + 1].text if n + 1 < len(ps) else ""
    ends: dict[str, Any] = value_told(line, "high", float(max(values)), unit)
    return ends | value_told(line, "low", float(min(values)), unit)


def _dry(line: Line) -> bool:
    """ "No rain": a word for rain with "no" before it."""
    words = words_said(line.ps)
    rain = next((n for n, word in enumerate(words) if line.made.has("rain_noun", word)), None)
    return rain is not None and any(line.made.denies(word) for word in words[max(0, rain - BEFORE) : rain])
