"""A number with its unit: time, days after planting, parts a million, or a measure that is only text."""

from __future__ import annotations

from dataclasses import replace

from notes_bot.language.lexicon.days import UNIT_DAYS
from notes_bot.language.lexicon.joining import is_any, neighbour_index
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.senses.around import COUNTED, is_shape
from notes_bot.language.senses.walk import Walk, is_number

MOST_WEEKS = 12
"""More weeks than these nobody waits to check again (judgement)."""


def with_unit(walk: Walk, j: int, after: Piece) -> int:
    """A number with its unit: a span, days after planting, ppm, or a measure that is only text."""
    piece, i = walk.piece, walk.i
    unit = after.types.get("UNIT")
    if unit is not None and _is_unit(walk, after):
        return span(walk, piece.value, unit.value, j)
    among = "LINK" in after.types and walk.names.bound(walk.direct_index(j, 1))
    among = among or ("LINK" in after.types and walk.at(j + 1) is not None and walk.ps[j + 1].kind == "number")
    among = among or ("LINK" in after.types and piece.value == 0)  # "zero das outras cores"
    if "DAP" in after.types and not among:  # not "3 das 8 que arranquei"
        days = piece.value * (7 if after.types["DAP"].value == "week" else 1)
        walk.emit("SPAN_AFTER_PLANTING", days, piece.start, after.end)
        return j - i + 1
    if "PPM" in after.types:
        k = neighbour_index(walk.ps, j, 1)
        of = walk.at(k) if k is not None else None
        if k is not None and is_any(of, ("POTASSIUM",)) and not is_number(walk.near(k, 1)):
            walk.emit("POTASSIUM", "potassium", piece.start, piece.start)
            walk.emit("NUMBER", piece.value, piece.start, walk.ps[k].end)
            return k - i + 1
        walk.emit("NUMBER", piece.value, piece.start, after.end)
        return j - i + 1
    if after.text == "f" and _females_letter(walk, j):
        walk.emit("NUMBER", piece.value, piece.start, piece.end)
        walk.emit("FEMALES", "female", after.start, after.end)
        return j - i + 1
    if "MEASURE" in after.types and is_measure(walk, j, after):
        walk.emit("TEXT", None, piece.start, after.end)
        return j - i + 1
    return walk.text() if is_shape(after) and not is_any(after, COUNTED) else 0


def _females_letter(walk: Walk, j: int) -> bool:
    """ "6 pl 31 f": females, where plants were told and nothing speaks of the weather."""
    ends = walk.at(j + 1) is None or walk.ps[j + 1].kind in ("break", "line") or walk.ps[j + 1].text in (":", "=", "-")
    plants = bool(walk.out) and walk.out[-1].type in ("PLANTS", "DUG")
    return walk.made.language == "en" and ends and plants and isinstance(walk.piece.value, int)


def _is_unit(walk: Walk, after: Piece) -> bool:
    """Is it a unit of time here, and no little word, color or other letter?"""
    value = walk.piece.value
    if not isinstance(value, int) and after.types["UNIT"].value != "hour":
        return False
    if "NOT" in after.types and not (walk.last_is("LOOK") or is_any(walk.near_before, ("LOOK", "AGO"))):
        ahead = walk.direct(walk.direct_index(walk.i, 1), 1)  # "cinco sem separar": not five weeks
        return ahead is None or ahead.kind != "word" or is_any(ahead, ("LOOK", "AGO", "AFTER"))
    if "COLOUR" in after.types:
        k = walk.direct_index(walk.direct_index(walk.i, 1), 1)
        plants = is_number(walk.at(k)) and is_any(walk.at(walk.direct_index(k, 1)), ("PLANTS", "DUG"))
        of_strip = walk.last_is("CHECK") and (plants or value > MOST_WEEKS)  # "chk 40w 3p"
        return is_any(walk.near_before, ("LOOK",)) and not of_strip
    return not (after.text in ("s", "mo") and after.spaced)


def span(walk: Walk, count: int | float, unit: str, j: int, shown: str = "") -> int:
    """So much time, its unit at j; counted from a day that is told behind it, the day that it leads to."""
    start, day = walk.at(j + 1), walk.at(j + 2)
    if start is not None and start.text in anywhere("from_day") and day is not None and day.kind == "day":
        weekday = unit in ("week", "fortnight") and day.value.weekday is not None and isinstance(count, int)
        if weekday and (walk.last_is("LOOK") or is_any(walk.at(j + 3), ("LOOK",))):
            later = replace(day.value, later=count * UNIT_DAYS[unit] // 7)
            walk.emit("DATE", later, walk.piece.start, day.end)  # "back a week from friday"
            return j + 3 - walk.i
        if day.value.days_ago != 0:
            walk.draft.ask("which_visit", walk.piece.start, day.end)  # "a week from tuesday"
            walk.emit("TEXT", None, walk.piece.start, day.end)
            return j + 3 - walk.i
        j += 2
    half = _and_a_half(walk, j)
    if half > j:
        count, shown, j = count + 0.5, walk.draft.text[walk.piece.start : walk.ps[half].end], half
    j = _from_now(walk, j)
    took = walk.i and walk.made.has("took_time", walk.ps[walk.i - 1].text)
    if unit == "hour" and took:
        walk.emit("TEXT", None, walk.piece.start, walk.ps[j].end)
        return j - walk.i + 1  # "me llevó dos horas"
    value = ("hours", count, shown) if unit == "hour" else ("days", int(count * UNIT_DAYS[unit]), shown)
    sprayed = walk.last_is("CHEMICAL", "SPRAY") and is_any(walk.direct(j, 1), ("AGO",))
    lead = "" if sprayed else walk.lead  # "glyphosate was 9 days ago"
    walk.emit("SPAN", value, walk.piece.start, walk.ps[j].end, lead=lead)
    return j - walk.i + 1


def _and_a_half(walk: Walk, j: int) -> int:
    """ "A week and a half": where the half ends, or the index given."""
    words = [piece.text for piece in (walk.at(k) for k in range(j + 1, j + 4)) if piece is not None]
    for size in (3, 2):
        if walk.made.has("and_a_half", " ".join(words[:size])):
            return j + size
    return j


def _from_now(walk: Walk, j: int) -> int:
    """ "A week from now", "10 days out": where the words for "from this day" end, or the index given."""
    start = walk.at(j + 1)
    if start is None or start.kind != "word":
        return j
    words = [piece.text for piece in (walk.at(k) for k in range(j + 1, j + 5)) if piece is not None]
    for size in (4, 3, 2, 1):
        if walk.made.has("from_now", " ".join(words[:size])):
            return j + min(size, len(words))
    return j


def is_measure(walk: Walk, j: int, after: Piece) -> bool:
    """Yards, acres, rows: not a count of ours. A letter that is also a colour is one only with "of" behind it."""
    if is_any(after, ("COLOUR", "PLANTS", "DUG", "FEMALES")):
        beyond = walk.at(j + 1)
        return beyond is not None and walk.made.has("of_measure", beyond.text)
    if is_any(after, ("LINK",)) and is_any(walk.at(j + 1), ("LINK", "SPOT", "CHECK", "TOTAL", "EACH")):
        return False  # "ten in the field proper", "four by the willows"
    beyond = walk.at(j + 1)
    if walk.last_is("DUG") and is_any(after, ("LINK",)) and (is_any(beyond, ("FIELD",)) or j + 1 in walk.found):
        return False  # "hand pulled 6 in cedar slough"
    if walk.last_is("DUG") and "SPOT" in after.types and beyond is not None and beyond.kind == "word":
        return False  # "dug 6 in ours"
    if is_any(after, ("SPOT", "CHECK")):
        return not walk.colon_at(j + 1) and not is_number(walk.at(j + 1))
    return after.text != "to"  # "10 to ..": a range
