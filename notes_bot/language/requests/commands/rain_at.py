"""Rain told field by field, in nothing but everyday words.

"1 inch at tallow, 1.5 at pump house", "tres álamos 20 mm, cañada seca 35 mm": no word says that it rained. Each part
must hold one field and one amount with a unit of rain, and little words else; with any other word the line is left to
other readers.
"""

from __future__ import annotations

from notes_bot.language.lexicon.joining import day_words, is_any, linking, number_words
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.names.naming import joints
from notes_bot.language.requests.commands.line import Line
from notes_bot.language.requests.commands.rain_units import MM_PER_INCH, MOST_RAIN, mm_of, spoken_inches
from notes_bot.language.requests.commands.sky_words import day_told, soil_depth

LONGEST = 24
"""Pieces of the longest such line (judgement)."""
_VISIT = ("PLANTS", "FEMALES", "COLOUR", "DUG", "NOT_LOOKED", "ACRES", "EGGS", "NONE", "TOO_MANY", "PLANTED", "SPRAY")
_TIMED = ("TODAY", "WEEKDAY", "MONTH", "WHICH", "AGO")

_FRAMES = (
    *("weather_frame", "rain_noun", "rain_told", "rain_gauge", "it_rained", "degree_word", "at"),
    *("register_frame", "rename_frame", "alias_frame"),
)
"""Manners of the little words of such sentences."""


def fell_at(line: Line) -> bool:
    """ "1 inch at tallow, 1.5 at pump house", "cupim 20 mm, sete covas 35 mm ontem": an amount for each field."""
    if len(line.ps) > LONGEST or line.asked or not any("FIELD" in p.types for p in line.ps) or visited(line.ps):
        return False
    ps = day_words(line.ps, line.made)
    amounts: list[tuple[str, float]] = []
    gauged = line.made.language != "en" and any(line.made.has("rain_gauge", word) for word in line.vocabulary)
    unit = 1.0 if gauged else 0.0  # "deu 20 no pluviômetro do cupim"
    for part in _parts(ps):
        found = _amount(line, part, unit)
        if found is None:
            return False
        rain, unit = found
        field = next(p for p in part if "FIELD" in p.types)
        amounts.append((line.written(field), rain))
    if not amounts or (len(amounts) == 1 and not (gauged or _lies_at(line, ps))) or len(dict(amounts)) < len(amounts):
        return False
    day = day_told(line, ps)
    for field_name, rain in amounts:
        line.context.command("weather", line.start, line.end, rain_mm=rain, date=day, field=field_name)
    return True


def visited(ps: list[Piece]) -> bool:
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


def _amount(line: Line, part: list[Piece], unit: float) -> tuple[float, float] | None:
    """Millimeters told in a part that holds one field and little else, and those of its unit."""
    fields = [p for p in part if "FIELD" in p.types]
    if len(fields) != 1 or soil_depth(line, part, 0, len(part)):
        return None
    rest = [p for p in part if p is not fields[0]]
    said = " ".join(p.text for p in rest)
    if inches := spoken_inches(said):
        words = [p for p in rest if not (_numeric(p) or little(line, p))]
        return (round(inches * MM_PER_INCH, 1), MM_PER_INCH) if not words else None
    rest = number_words(rest, line.made)
    at = [n for n, p in enumerate(rest) if p.kind == "number"]
    if len(at) != 1:
        return None
    behind = rest[at[0] + 1].text.split(" ")[0] if at[0] + 1 < len(rest) else ""
    own = mm_of(behind)
    left = [p for n, p in enumerate(rest) if n != at[0] and not (own and n == at[0] + 1)]
    rain = round(float(rest[at[0]].value) * (own or unit), 1)
    return (rain, own or unit) if 0 < rain <= MOST_RAIN and all(little(line, p) for p in left) else None


def little(line: Line, piece: Piece) -> bool:
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
