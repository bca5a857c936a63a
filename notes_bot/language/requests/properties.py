"""What is known of a field: coordinates, planting day, seed and the rest."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from notes_bot.language.lexicon.joining import day_words, is_any, linking, number_words
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.requests.corrections import ACRES_PER_HECTARE

if TYPE_CHECKING:
    from notes_bot.language.requests.commands.line import Line

PROPERTIES = frozenset({"NEAR", "PLANTED", "VARIETY", "RESISTANCE", "SOURCE", "PLACE", "ALIAS"})


def begins_property(line: Line, j: int) -> bool:
    """Does something other than the name start at j?"""
    piece = line.ps[j]
    after = line.ps[j + 1] if j + 1 < len(line.ps) else None
    if piece.kind in ("link", "day") or (piece.kind == "break" and piece.text in ",(;."):
        return True
    if piece.kind == "number":
        return isinstance(piece.value, float) or line.has(j + 1, "ACRES")
    if piece.text in ("@", "-") and after is not None and after.kind == "number":
        return True
    if lies_by(line, line.ps, j):
        return True
    if piece.text in anywhere("coordinate_word") and any(isinstance(p.value, float) for p in line.ps[j + 1 : j + 4]):
        return True
    if piece.text == "place" and line.ps[j - 1].kind != "break":
        return False  # "smith place": part of the name
    return is_any(piece, PROPERTIES)


LONGEST_LEAD = 3
"""Words of "al lado de" (judgement)."""


def lies_by(line: Line, ps: list[Piece], k: int) -> int:
    """ "By (Kestrel)", "al lado de (La Tranquera)": how many pieces lead to the field that one lies near, or 0."""
    for size in range(min(LONGEST_LEAD, len(ps) - k - 1), 0, -1):
        behind = ps[k + size]
        strange = k > 0 and ps[k - 1].kind == "break" and line.context.text[behind.start].isupper()
        named = "FIELD" in behind.types or (strange and not line.context.fields)
        if named and line.made.has("lies_by", " ".join(p.text for p in ps[k : k + size])):
            return size
    return 0


def properties(line: Line, i: int) -> dict[str, Any]:
    """Coordinates, planting day, seed and the rest, from piece i on."""
    if i >= len(line.ps):
        return {}
    out: dict[str, Any] = {}
    where = coordinates(line.context.text[line.ps[i].start : line.end])
    if where is not None:
        out["latitude"], out["longitude"] = where
    ps = day_words(number_words(line.ps[i:], line.made), line.made)
    k = 0
    while k < len(ps):
        k = _one_property(line, ps, k, out) + 1
    if "source" in out:
        out.setdefault("resistance", "resistant")
    return out


def _one_property(line: Line, ps: list[Piece], k: int, out: dict[str, Any]) -> int:
    """Read what stands at k into out; the index of the last piece used."""
    types = ps[k].types
    called = k + 1 < len(ps) and line.made.has("names_variety", ps[k + 1].text) and "VARIETY" in types
    if "PLANTED" in types:
        day = next((p for p in ps[k : k + 4] if p.kind == "day"), None)
        if day is not None:
            out["planted"] = line.past(day)
            return _seed_behind(line, ps, ps.index(day) + 1, out) - 1
    elif "RESISTANCE" in types:
        out["resistance"] = types["RESISTANCE"].value
    elif "SOURCE" in types:
        out["source"] = types["SOURCE"].value
    elif ps[k].kind == "number" and k + 1 < len(ps) and "ACRES" in ps[k + 1].types:
        factor = ACRES_PER_HECTARE if ps[k + 1].types["ACRES"].value == "hectare" else 1.0
        out["acres"] = round(ps[k].value * factor, 1)
    elif "SPOT" in types and (near := _near_named(line, ps[k])) is not None:
        out["near"] = near
    else:
        key = next((name for name in ("VARIETY", "ALIAS", "NEAR", "PLACE") if name in types), None)
        k += bool(called)
        if key is None and (led := lies_by(line, ps, k)):
            key, k = "NEAR", k + led - 1
        stop = k + 1
        while key and stop < len(ps) and ps[stop].kind in ("word", "number") and not is_any(ps[stop], PROPERTIES):
            if ps[stop].text in anywhere("and_word") and is_any(ps[stop - 1], ("FIELD",)):
                break  # "near Kestrel and has 62 acres"
            stop += 1
        while key == "NEAR" and k + 2 < stop and (linking(ps[k + 1]) or line.made.has("name_link", ps[k + 1].text)):
            k += 1  # "perto do kestrel"
        if key and stop > k + 1:
            said = line.context.text[ps[k + 1].start : ps[stop - 1].end].strip()
            out[key.lower()] = said if key == "VARIETY" else said.lower()
            return stop - 1
    return k


def _near_named(line: Line, piece: Piece) -> str | None:
    """ "Perto do Açude": a place by its words, and what stands behind them is a field of the crew."""
    first, _, rest = piece.text.partition(" ")
    near = any(entry.type == "NEAR" for entry in line.made.singles.get(first, ()))
    named = (
        next((name for name in line.context.fields if f" {rest}".endswith(f" {fold(name)}")), None) if near else None
    )
    return " ".join(named.lower().split()) if named is not None else None


def _seed_behind(line: Line, ps: list[Piece], k: int, out: dict[str, Any]) -> int:
    """ "planted 5/20 with Asgrow 24": a seed's name behind the day; where the next word to read stands."""
    j = k
    while j < len(ps) and (ps[j].text == "," or linking(ps[j]) or is_any(ps[j], ("HAD",))):
        j += 1
    stop = j
    while stop < len(ps) and ps[stop].kind == "word" and not ps[stop].types and stop < j + 3:
        stop += 1
    numbered = stop > j and stop < len(ps) and (ps[stop].kind == "number" or any(map(str.isdigit, ps[stop].text)))
    if not numbered or "variety" in out or not line.context.text[ps[j].start].isupper():
        return k
    if is_any(ps[stop + 1] if stop + 1 < len(ps) else None, ("ACRES",)):
        return k
    out["variety"] = line.context.text[ps[j].start : ps[stop].end]
    return stop + 1


def coordinates(raw: str) -> tuple[float, float] | None:
    """Latitude and longitude in degrees in a text or a shared map link; ``None`` when there are none."""
    found = re.search(
        r"(-?\d{1,2}\.\d+)\s*°?\s*([NSns])?\s*[,;/ ]\s*(?:(?:lon|lng|long)\w*\.?\s*[:=]?\s*)?(-?\d{1,3}\.\d+)"
        r"\s*°?\s*([EWOewo](?!\w))?",
        raw,
        re.IGNORECASE,
    )
    if found is None:
        return None
    latitude, longitude = float(found.group(1)), float(found.group(3))
    if found.group(2) in ("S", "s"):
        latitude = -abs(latitude)
    if found.group(4) in ("W", "w", "O", "o"):
        longitude = -abs(longitude)
    return (latitude, longitude) if -90 <= latitude <= 90 and -180 <= longitude <= 180 else None
