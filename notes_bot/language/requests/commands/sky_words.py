"""Of rain and heat: the day and the field, what a number means, which words stand for high and low."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Any

from notes_bot.language.lexicon.days import DayWritten
from notes_bot.language.lexicon.joining import NOUNS
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.requests.commands.line import Line
from notes_bot.language.requests.commands.rain_units import MM_PER_INCH, mm_of


def where_told(line: Line, ps: list[Piece]) -> dict[str, Any]:
    """The day and the field of a report of rain or heat."""
    numeric = any("NUMBER_WORD" in p.types or line.made.has("part_of_inch", p.text) for p in line.ps)
    # "forty hundredths" is no North Forty, "an inch and a quarter" no Schoolhouse Quarter
    named = any("FIELD" in p.types for p in line.ps)
    return {"date": day_told(line, ps), "field": line.known_name(-1) if named or not numeric else None}


def day_told(line: Line, ps: list[Piece]) -> Any:
    """The day told with rain or heat; a weekday alone at the end is one ("3 tenths sat")."""
    measured = {p.end for p, q in pairwise(ps) if mm_of(q.text.split(" ")[0])}  # "1 1/2 inch" is no 2nd of January
    day = next((p for p in ps if p.kind == "day" and p.end not in measured), None)
    if day is not None:
        since = any(q is day and line.made.has("since_word", p.text) for p, q in pairwise(ps))
        return None if since or day.value.weeks is not None else line.past(day)  # "over the weekend": one of two
    last = ps[-1]
    if last.types.keys() != {"WEEKDAY"}:
        return None
    value = DayWritten(last.text, weekday=int(last.types["WEEKDAY"].value))
    return line.past(replace(last, kind="day", value=value))


def value_told(line: Line, label: str, value: float, unit: str) -> dict[str, float]:
    """Rain in millimetres, temperatures in Celsius; English notes mean Fahrenheit unless they say C."""
    english = line.context.language == "en"
    if label == "rain":
        if any(entry.type in NOUNS for entry in line.made.singles.get(unit, ())):
            return {}  # "choveu domingo. santa rita 5 plantas nada"
        if mm := mm_of(unit):
            return {"rain_mm": round(value * mm, 1)}
        if english and isinstance(value, float) and value < 6:
            return {"rain_mm": round(value * MM_PER_INCH, 1)}  # ".45" is inches; millimetres are told whole
        return {} if english else {"rain_mm": float(value)}
    if label in ("high", "low"):
        celsius = unit == "c" or (unit != "f" and not english)
        return {"tmax_c" if label == "high" else "tmin_c": round(value if celsius else (value - 32) / 1.8, 1)}
    return {}


def heat_label(line: Line, ps: list[Piece], k: int) -> str:
    """Does a word for the day's high or low end at a piece ("got up to", "mín")?"""
    if "WEATHER" in ps[k].types:
        value = ps[k].types["WEATHER"].value
        return value if value in ("high", "low") else ""
    words = f" {' '.join(p.text for p in ps[max(0, k - 2) : k + 1])} "
    told = [t for t in ("heat_high", "heat_low") if any(words.endswith(f" {w} ") for w in line.made.traits[t])]
    return told[0].removeprefix("heat_") if told else ""


def soil_depth(line: Line, ps: list[Piece], first: int, last: int) -> bool:
    """ "Dry 2 in down": a depth, not rain."""
    behind = [p.text for p in ps[first:last] if "FIELD" not in p.types]
    return any(line.made.has("depth_word", word) for text in behind for word in text.split())
