"""Built-in monthly normals: which stations speak for a place, and how much.

The stations and their sources are rows of ``normals.csv``. Temperatures are official 1981-2010 normals except where
the row says otherwise; coordinates and heights were written from memory and are good to a few kilometres.
"""

from __future__ import annotations

import csv
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from math import asin, cos, radians, sin, sqrt

from notes_bot.model import Climate

MIDDLE_OF_THE_BELT = "Champaign 3S (Urbana)"
LAPSE_C_PER_M = 0.0065
NEAREST = 4
BLUNT_KM = 40.0
"""Stations nearer than this hardly differ in weight: a field is never exactly at its station."""
MEMORY_BEYOND_KM = 500.0
"""Rows written from memory speak only where no station with a table lies nearer than this."""
FARTHEST_SHIFT_DEGREES = 8.0
"""Normals are not carried over more degrees of latitude than this; beyond, the distance says how little is known."""
TROPICS_DEGREES = 25.0
"""Nearer the equator than this, normals no longer change with latitude as they do across the belt."""
MONTHS = range(12)


@dataclass(frozen=True, slots=True)
class Station:
    """One row of the table of normals; temperatures in degrees Celsius, January first."""

    name: str
    latitude: float
    longitude: float
    elevation_m: float
    from_memory: bool
    tmax_c: tuple[float, ...]
    tmin_c: tuple[float, ...]


@cache
def stations() -> tuple[Station, ...]:
    """All built-in stations."""
    text = (files("notes_bot.weather") / "normals.csv").read_text(encoding="utf-8")
    return tuple(
        Station(
            name=f"{row['name']} {row['region']}",
            latitude=float(row["latitude"]),
            longitude=float(row["longitude"]),
            elevation_m=float(row["elevation_m"]),
            from_memory=row["from_memory"] == "1",
            tmax_c=tuple(float(row[f"tmax_{month + 1:02d}"]) for month in MONTHS),
            tmin_c=tuple(float(row[f"tmin_{month + 1:02d}"]) for month in MONTHS),
        )
        for row in csv.DictReader(text.splitlines())
    )


def climate_at(latitude: float | None, longitude: float | None, elevation_m: float | None = None) -> Climate:
    """Monthly normals at a place, from the nearest built-in stations.

    Each of the four nearest stations is first carried to the place's latitude by the belt's own change per degree
    (and to its height, when that is known, by 6.5 C per kilometre), then weighted by 1 / (distance² + 40² km²).
    Without coordinates a place in the middle of the belt is taken and the climate is marked assumed; without a
    longitude only the latitude decides.

    :raises ValueError: for coordinates off the globe.
    """
    if latitude is None:
        middle = next(s for s in stations() if s.name.startswith(MIDDLE_OF_THE_BELT))
        return Climate(middle.name, middle.tmax_c, middle.tmin_c, assumed=True)
    if not -90 <= latitude <= 90 or (longitude is not None and not -180 <= longitude <= 180):
        raise ValueError(f"no such place: latitude {latitude}, longitude {longitude}")
    far = sorted((_kilometres(station, latitude, longitude), i, station) for i, station in enumerate(stations()))
    tabled = [row for row in far if not row[2].from_memory]
    chosen = (far if tabled[0][0] > MEMORY_BEYOND_KM else tabled)[:NEAREST]
    weights = [1 / (km**2 + BLUNT_KM**2) for km, _, _ in chosen]
    used = [row for row, weight in zip(chosen, weights, strict=True) if weight > 0.02 * sum(weights)]

    def blend(which: str) -> tuple[float, ...]:
        slopes = _change_per_degree(which, latitude < 0)
        values = []
        for month in MONTHS:
            total = 0.0
            for (_, _, station), weight in zip(chosen, weights, strict=True):
                shift = max(abs(latitude), TROPICS_DEGREES) - max(abs(station.latitude), TROPICS_DEGREES)
                shift = max(-FARTHEST_SHIFT_DEGREES, min(FARTHEST_SHIFT_DEGREES, shift))
                rise = 0.0 if elevation_m is None else elevation_m - station.elevation_m
                monthly: tuple[float, ...] = getattr(station, which)
                total += weight * (monthly[month] + slopes[month] * shift - LAPSE_C_PER_M * rise)
            values.append(round(total / sum(weights), 2))
        return tuple(values)

    return Climate(
        name=", ".join(station.name for _, _, station in used[:2]),
        tmax_c=blend("tmax_c"),
        tmin_c=blend("tmin_c"),
        distance_km=round(chosen[0][0], 1),
        from_memory=any(station.from_memory for _, _, station in used),
    )


@cache
def _change_per_degree(which: str, southern: bool) -> tuple[float, ...]:
    """Change of each monthly normal per degree away from the equator, by least squares over the northern belt."""
    belt: Sequence[Station] = [s for s in stations() if s.latitude > 0 and not s.from_memory]
    mean = sum(s.latitude for s in belt) / len(belt)
    spread = sum((s.latitude - mean) ** 2 for s in belt)
    slopes = []
    for month in MONTHS:
        values = [getattr(s, which)[month] for s in belt]
        middle = sum(values) / len(values)
        slopes.append(sum((s.latitude - mean) * (v - middle) for s, v in zip(belt, values, strict=True)) / spread)
    return tuple(slopes[6:] + slopes[:6]) if southern else tuple(slopes)


def _kilometres(station: Station, latitude: float, longitude: float | None) -> float:
    """Great-circle distance on a sphere of 6371 km."""
    east = station.longitude if longitude is None else longitude
    north = radians(latitude - station.latitude)
    across = radians(east - station.longitude)
    part = sin(north / 2) ** 2 + cos(radians(latitude)) * cos(radians(station.latitude)) * sin(across / 2) ** 2
    return 2 * 6371 * asin(sqrt(min(1.0, part)))
