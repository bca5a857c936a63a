"""Rain told in a sentence."""

from __future__ import annotations

from itertools import pairwise

from notes_bot.language.lexicon.joining import day_words, is_any, number_words
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.requests.commands.cutting import words_said
from notes_bot.language.requests.commands.line import Line
from notes_bot.language.requests.commands.rain_units import MM_PER_INCH, MOST_RAIN, mm_of, spoken_inches
from notes_bot.language.requests.commands.sky_words import day_told, soil_depth, where_told

SHORT_RAIN = 6
"""Pieces of "half inch today finally", which tells of nothing but rain (judgement)."""
LONGEST_DRY = 10
"""Pieces of the longest line that only says no rain fell (judgement)."""
MOST_INCHES = 8.0
"""Inches of rain told without their unit (judgement)."""


def rained(line: Line) -> bool:
    """ "Had 0.6 inches last night", "kestrel 0.4 in rain overnight", "half inch today finally"."""
    if _stayed_dry(line):
        return True
    if line.tells() or any(line.made.has("rain_to_come", word) for word in words_said(line.ps)):
        return False  # "another 0.4 inch expected tomorrow"
    ps = day_words(number_words(line.ps, line.made), line.made)
    told = any("WEATHER" in p.types and p.types["WEATHER"].value == "rain" for p in ps)
    told = told or any(line.made.has("rain_told", word) for p in ps for word in p.text.split())
    dated = any(p.kind == "day" or is_any(p, ("TODAY", "WEEKDAY")) for p in ps)
    caught = dated and (any(line.made.has("rain_got", p.text) for p in ps[:4]) or len(ps) <= SHORT_RAIN)
    metric = line.made.language != "en" and any(p.kind == "number" and mm_of(q.text) == 1.0 for p, q in pairwise(ps))
    caught = caught or (dated and metric)  # "ayer 30 mm en la loma"
    if soil_depth(line, ps, 0, len(ps)):
        caught = False
    parts = any(p.kind == "number" and q.text in anywhere("rain_part") for p, q in pairwise(ps))
    if (told or caught or parts) and rained_at_each(line, ps):
        return True
    named = any("FIELD" in p.types for p in ps) and any(line.made.has("rain_got", p.text) for p in ps[:6])
    if (told or caught or named) and (inches := spoken_inches(line.context.text[line.start : line.end].lower())):
        return line.emit("weather", rain_mm=round(inches * MM_PER_INCH, 1), **where_told(line, ps))
    for n, piece in enumerate(ps):
        behind = ps[n + 1].text if n + 1 < len(ps) else ""
        unit = behind.split()[0] if behind else ""
        word = piece.types.get("NUMBER_WORD")
        value = piece.value if piece.kind == "number" else int(word.value) if word is not None else None
        got = isinstance(value, float) and any(line.made.has("rain_got", p.text) for p in ps[:3])
        sure = told or caught or got or unit in anywhere("rain_part")
        if value is not None and (mm := mm_of(unit)) and sure and not soil_depth(line, ps, n + 1, n + 4):
            amount = round(value * mm, 1)
            return amount <= MOST_RAIN and line.emit("weather", rain_mm=amount, **where_told(line, ps))
    numbers = [p for p in ps if p.kind in ("number", "range", "series")]
    bare = len(numbers) == 1 and numbers[0].kind == "number" and numbers[0].value <= MOST_RAIN
    if bare and line.made.language != "en" and any(line.made.has("it_rained", p.text) for p in ps):
        amount = round(float(numbers[0].value), 1)  # "ayer llovieron 20"
        return line.emit("weather", rain_mm=amount, **where_told(line, ps))
    inches_alone = bare and line.made.language == "en" and isinstance(numbers[0].value, float)
    if inches_alone and (told or caught) and numbers[0].value < MOST_INCHES and not _measured(ps):
        amount = round(numbers[0].value * MM_PER_INCH, 1)  # "had .7 last night"
        return line.emit("weather", rain_mm=amount, **where_told(line, ps))
    return False


def _stayed_dry(line: Line) -> bool:
    """ "No rain at kestrel last night", "no llovió nada ayer": none that day, and no females that were not seen."""
    words = words_said(line.ps)
    rain = any(line.made.has("rain_noun", word) for word in words)
    if not rain or len(line.ps) > LONGEST_DRY or not any(line.made.denies(word) for word in words):
        return False
    seen = ("PLANTS", "COLOUR", "FEMALES", "DUG", "NOT_LOOKED", "TOOL", "MOISTURE", "SPRAY")
    if any(p.kind in ("number", "stage", "series", "range") or is_any(p, seen) for p in line.ps):
        return False
    where = where_told(line, day_words(number_words(line.ps, line.made), line.made))
    return where["date"] is not None and line.emit("weather", rain_mm=0.0, **where)


def rained_at_each(line: Line, ps: list[Piece]) -> bool:
    """ "Ayer 30 mm en potrero largo y 25 en la lomita": an amount before each of several fields."""
    told = [p for p in ps if p.kind == "number" or "FIELD" in p.types]
    amounts, fields = told[::2], told[1::2]
    behind = {p.start: q.text.split(" ")[0] for p, q in pairwise(ps)}
    mm = next((mm for p in amounts if p.kind == "number" and (mm := mm_of(behind.get(p.start, "")))), 0.0)
    if not mm and line.made.language != "en" and any(line.made.has("it_rained", p.text) for p in ps):
        mm = 1.0  # "choveu 25 na santa rita e 10 na sede velha"
    if len(fields) < 2 or len(amounts) != len(fields) or not mm:
        return False
    inches = MM_PER_INCH if line.made.language == "en" else 0.0

    def unit(amount: Piece) -> float:
        own = mm_of(behind.get(amount.start, ""))
        return own or (inches if isinstance(amount.value, float) else mm)  # "2 tenths at .., 0.9 at .."

    if not all(p.kind == "number" and "FIELD" in q.types for p, q in zip(amounts, fields, strict=True)):
        return False
    day = day_told(line, ps)
    for amount, place in zip(amounts, fields, strict=True):
        name = line.written(place)
        rain = round(float(amount.value) * unit(amount), 1)
        line.context.command("weather", line.start, line.end, rain_mm=rain, date=day, field=name)
    return True


def _measured(ps: list[Piece]) -> bool:
    """Does what is measured stand behind the one number ("0.5 acres", "6.3 ph")?"""
    at = next(n for n, p in enumerate(ps) if p.kind == "number")
    beside = [*ps[max(0, at - 1) : at], *ps[at + 1 : at + 2]]
    return any(is_any(p, ("ACRES", "UNIT", "PH", "POTASSIUM", "PPM", "MEASURE")) for p in beside)
