"""Rain told field by field, and a hot day, in nothing but everyday words.

"1 inch at tallow, 1.5 at pump house", "tres álamos 20 mm, cañada seca 35 mm", "hit 97 over at lower bench yesterday":
no word says that it rained or how hot it was. Each part must hold one field and one amount with a unit of rain, or one
number that only a day's high can be, and little words else; with any other word the line is left to other readers.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from notes_bot.language.lexicon.joining import day_words, is_any, linking, number_words
from notes_bot.language.names.naming import joints, written

if TYPE_CHECKING:
    from collections.abc import Callable

    from notes_bot.language.lexicon.pieces import Piece
    from notes_bot.language.requests.commands import Line

LONGEST = 24
"""Pieces of the longest such line (judgement)."""
MOST_RAIN = 400.0
"""Millimeters of rain told; more was not rain (judgement)."""
MM_PER_INCH = 25.4
"""Exact, by definition of the inch."""
HOT = {True: range(80, 121), False: range(28, 49)}
"""Degrees of a hot day, in Fahrenheit in English and in Celsius elsewhere (judgement)."""
BEFORE = 3
"""Pieces between a word for the high and its number (judgement)."""
_VISIT = ("PLANTS", "FEMALES", "COLOUR", "DUG", "NOT_LOOKED", "ACRES", "EGGS", "NONE", "TOO_MANY", "PLANTED", "SPRAY")
_TIMED = ("TODAY", "WEEKDAY", "MONTH", "WHICH", "AGO")

_FRAMES = (
    *("weather_frame", "rain_noun", "rain_told", "rain_gauge", "it_rained", "degree_word", "at"),
    *("register_frame", "rename_frame", "alias_frame"),
)
"""Manners of the little words of such sentences."""


@dataclass(frozen=True, slots=True)
class Units:
    """How amounts of rain are told."""

    mm_of: Callable[[str], float]
    """Millimeters of a unit by its word; 0 for none."""
    spoken_inches: Callable[[str], float]
    """Inches in words ("half an inch"); 0 for none."""


def fell_at(line: Line, units: Units) -> bool:
    """ "1 inch at tallow, 1.5 at pump house", "cupim 20 mm, sete covas 35 mm ontem": an amount for each field."""
    if len(line.ps) > LONGEST or line.asked or not any("FIELD" in p.types for p in line.ps) or _visited(line.ps):
        return False
    ps = day_words(line.ps, line.made)
    amounts: list[tuple[str, float]] = []
    gauged = line.made.language != "en" and any(line.made.has("rain_gauge", word) for word in line.vocabulary)
    unit = 1.0 if gauged else 0.0  # "deu 20 no pluviômetro do cupim"
    for part in _parts(ps):
        found = _amount(line, part, units, unit)
        if found is None:
            return False
        rain, unit = found
        field = next(p for p in part if "FIELD" in p.types)
        amounts.append((written(line.context.text, field.start, field.end), rain))
    if not amounts or (len(amounts) == 1 and not (gauged or _lies_at(line, ps))) or len(dict(amounts)) < len(amounts):
        return False
    day = line._day_of(ps)
    for field_name, rain in amounts:
        line.context.command("weather", line.start, line.end, rain_mm=rain, date=day, field=field_name)
    return True


def _visited(ps: list[Piece]) -> bool:
    """Is anything of a visit told?"""
    return any(p.kind in ("stage", "series", "ratio", "range") or (len(p.text) > 1 and is_any(p, _VISIT)) for p in ps)


def _parts(ps: list[Piece]) -> list[list[Piece]]:
    """The pieces cut at a stop or "and" behind each field that has its amount."""
    out: list[list[Piece]] = [[]]
    for piece in ps:
        whole = any("FIELD" in p.types for p in out[-1]) and any(_numeric(p) for p in out[-1])
        if whole and (piece.kind == "break" or piece.text in joints()) and not _within_inches(out[-1]):
            out.append([])
        elif out[-1] or not (piece.kind == "break" or piece.text in joints()):
            out[-1].append(piece)
    return [part for part in out if part]


def _within_inches(part: list[Piece]) -> bool:
    """ "Kestrel an inch (and a half)": an amount in words that goes on."""
    return part[-1].text in ("inch", "pulgada", "polegada")


def _numeric(piece: Piece) -> bool:
    return "FIELD" not in piece.types and (piece.kind == "number" or "NUMBER_WORD" in piece.types or _an_inch(piece))


def _an_inch(piece: Piece) -> bool:
    return any(word in ("inch", "half", "quarter", "media", "meia") for word in piece.text.split(" "))


def _amount(line: Line, part: list[Piece], units: Units, unit: float) -> tuple[float, float] | None:
    """Millimeters told in a part that holds one field and little else, and those of its unit."""
    fields = [p for p in part if "FIELD" in p.types]
    if len(fields) != 1 or line._soil_depth(part, 0, len(part)):
        return None
    rest = [p for p in part if p is not fields[0]]
    said = " ".join(p.text for p in rest)
    if inches := units.spoken_inches(said):
        words = [p for p in rest if not (_numeric(p) or _little(line, p))]
        return (round(inches * MM_PER_INCH, 1), MM_PER_INCH) if not words else None
    rest = number_words(rest, line.made)
    at = [n for n, p in enumerate(rest) if p.kind == "number"]
    if len(at) != 1:
        return None
    behind = rest[at[0] + 1].text.split(" ")[0] if at[0] + 1 < len(rest) else ""
    own = units.mm_of(behind)
    left = [p for n, p in enumerate(rest) if n != at[0] and not (own and n == at[0] + 1)]
    rain = round(float(rest[at[0]].value) * (own or unit), 1)
    return (rain, own or unit) if 0 < rain <= MOST_RAIN and all(_little(line, p) for p in left) else None


def _little(line: Line, piece: Piece) -> bool:
    """A stop, a day, "at", "we got", "of rain": a word that tells nothing else."""
    if piece.kind in ("break", "sign", "day") or linking(piece) or is_any(piece, (*_TIMED, "COURTESY", "FIELD_WORD")):
        return True
    words = piece.text.split(" ")
    if "WEATHER" in piece.types and piece.types["WEATHER"].value == "rain":
        return True
    return piece.kind == "word" and all(any(line.made.has(frame, word) for frame in _FRAMES) for word in words)


def _lies_at(line: Line, ps: list[Piece]) -> bool:
    """ "1 inch at tallow": the amount, and behind it where it fell."""
    field = next(n for n, p in enumerate(ps) if "FIELD" in p.types)
    number = next(n for n, p in enumerate(ps) if _numeric(p))
    return number < field and any(line.made.has("at", p.text) for p in ps[number + 1 : field])


def was_hot(line: Line) -> bool:
    """ "Hit 97 over at lower bench yesterday", "a máxima foi de 36 ontem": a day's high, and little words else."""
    if len(line.ps) > LONGEST or line.asked or _visited(line.ps):
        return False
    ps = day_words(line.ps, line.made)
    at = [n for n, p in enumerate(ps) if p.kind == "number" and "FIELD" not in p.types]
    if len(at) != 1 or sum("FIELD" in p.types for p in ps) > 1 or not _hot(line, ps, at[0]):
        return False
    labels = [n for n in range(max(0, at[0] - BEFORE), min(len(ps), at[0] + BEFORE)) if n != at[0]]
    told = [n for n in labels if line._heat_label(ps, n) == "high" and _little_between(line, ps, n, at[0])]
    dated = any(p.kind == "day" or is_any(p, ("TODAY", "WEEKDAY")) for p in ps)
    if not told or not dated:
        return False
    rest = [p for n, p in enumerate(ps) if n not in (at[0], *told) and "FIELD" not in p.types]
    if not all(_little(line, p) for p in rest if not _of_label(line, p)):
        return False
    unit = ps[at[0] + 1].text if at[0] + 1 < len(ps) else ""
    high = line._weather_value("high", float(ps[at[0]].value), unit)
    return line.emit("weather", **line._weather_where(ps), **high)


def _hot(line: Line, ps: list[Piece], n: int) -> bool:
    """Can a number be the degrees of a hot day?"""
    behind = ps[n + 1].text if n + 1 < len(ps) else ""
    fahrenheit = behind == "f" or (behind != "c" and line.made.language == "en")
    return float(ps[n].value).is_integer() and int(ps[n].value) in HOT[fahrenheit]


def _little_between(line: Line, ps: list[Piece], label: int, number: int) -> bool:
    """Do only little words stand between a word for the high and its number?"""
    return all(_little(line, p) or _of_label(line, p) for p in ps[min(label, number) + 1 : max(label, number)])


def _of_label(line: Line, piece: Piece) -> bool:
    """A word of a phrase for the high: "topped", "got", "llegó"."""
    words = {word for phrase in line.made.traits["heat_high"] for word in phrase.split(" ")}
    return "WEATHER" in piece.types or all(word in words for word in piece.text.split(" "))
