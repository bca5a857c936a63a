"""What was known of a field before this season's looks: the crew's fields nearby and its own earlier seasons.

Pure. A neighbour counts by its own looks alone, never by what its neighbours said of it, so no evidence is counted
twice; the field's own looks of this season are left to `notes_bot.worth`. The days on which females could show are
judged here from stage or days since planting, not from the clock: rougher, and enough for a prior.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from functools import lru_cache
from typing import Any

from scipy.special import ndtr

from notes_bot import noted
from notes_bot.model import Fact, Field, Visit
from notes_bot.science import detection
from notes_bot.science.growth_stage import reproductive_stage, usual_planting, vegetative_node

PRIOR_KEYS: dict[str, Mapping[str, Any]] = {
    "prior_neighbours": {"found": 3, "fields": 7, "km": 10},  # so many of the crew's fields looked at within 10 km
    "prior_neighbours_clean": {"fields": 7, "km": 10},  # none of them had any
    "prior_clean_before": {"looks": 2},  # earlier seasons' looks here that saw none
}
"""What a prior can rest on, with example values. Closed set; the reply room has the words."""

MOST_NEIGHBOURS = 12
"""The nearest are asked; more would only cost time."""
FIRST_DAYS, FIRST_DAYS_SD = 36.0, 6.0
"""Days from planting to the first females where only the calendar is asked. Judgement about the four to six weeks of
the trade (Icm2024)."""
LAST_DAYS = 110
"""Days after planting from which roots show little. Judgement."""


def kilometres(one: Field, other: Field) -> float | None:
    """Distance between two fields on the globe; ``None`` where either has no place."""
    if one.latitude is None or one.longitude is None or other.latitude is None or other.longitude is None:
        return None
    a, b = math.radians(one.latitude), math.radians(other.latitude)
    across = math.radians(other.longitude - one.longitude)
    half = math.sin((b - a) / 2) ** 2 + math.cos(a) * math.cos(b) * math.sin(across / 2) ** 2
    return 12742.0 * math.asin(math.sqrt(min(half, 1.0)))


def box(known: Field) -> tuple[float, float, float, float]:
    """Latitudes and longitudes (south, north, west, east, degrees) that hold all fields within reach; nothing lies in
    that of a field without a place."""
    if known.latitude is None or known.longitude is None:
        return (1.0, -1.0, 1.0, -1.0)
    north = 1.01 * detection.AREA_KM / 111.1
    east = north / max(math.cos(math.radians(known.latitude)), 0.01)
    return (known.latitude - north, known.latitude + north, known.longitude - east, known.longitude + east)


def nearby(known: Field, crew: Sequence[Field]) -> list[tuple[float, Field]]:
    """The crew's other fields within reach, nearest first, with their distance in km."""
    reach = [(km, other) for other in crew if other.id != known.id and (km := kilometres(known, other)) is not None]
    return sorted((each for each in reach if each[0] <= detection.AREA_KM), key=lambda each: (each[0], each[1].id))[
        :MOST_NEIGHBOURS
    ]


def prior_of(
    known: Field, own_before: Sequence[Visit], neighbours: Sequence[tuple[float, Field, Sequence[Visit]]]
) -> tuple[float | None, tuple[Fact, ...]]:
    """Chance [0-1] that a field is infested before this season's looks, and what it rests on.

    `own_before`: its visits of earlier seasons, none of which found anything; `neighbours`: km, field and all its
    visits, whatever the season. ``None`` and nothing when nobody looked: then only the convention is left.
    """
    told: list[Fact] = []
    ratios: list[tuple[float, float]] = []
    found = 0
    for km, field, visits in neighbours:
        looks = tuple(visit for visit in visits if noted.females_seen(visit.note) is not None)
        if looks:
            found += any(noted.females_seen(visit.note) for visit in looks)
            ratios.append((km, evidence(looks, field.latitude, field.planted)))
    chance = detection.CONVENTION
    if ratios:
        chance = detection.prior_from_neighbours(ratios)
        looked = {"fields": len(ratios), "km": round(detection.AREA_KM)}
        told.append(
            Fact("prior_neighbours", {"found": found, **looked}) if found else Fact("prior_neighbours_clean", looked)
        )
    clean = tuple(visit for visit in own_before if noted.females_seen(visit.note) == 0)
    if clean:
        ratio = evidence(clean, known.latitude, known.planted)
        chance = chance * ratio / (chance * ratio + 1.0 - chance)
        chance += (1.0 - chance) * detection.INTRODUCTION
        told.append(Fact("prior_clean_before", {"looks": len(clean)}))
    return (chance, tuple(told)) if told else (None, ())


SURE = 1e9
"""The most that looks can say for infestation: more would move no answer."""


@lru_cache(maxsize=4096)
def evidence(visits: tuple[Visit, ...], latitude: float | None, planted: date | None) -> float:
    """How many times likelier these looks are if their field is infested than if it is not.

    Looks of all seasons hang together as those of one do: same places, same hands, same calendar.
    """
    looks = [
        (noted.females_seen(visit.note) or 0, _look(visit, latitude, planted))
        for visit in visits
        if noted.females_seen(visit.note) is not None
    ]
    odds = detection.infested_probability(
        detection.CONVENTION,
        [look for seen, look in looks if seen == 0],
        [(seen, look) for seen, look in looks if seen],
    )
    return min(odds / max(1.0 - odds, 1e-9), SURE)  # after many finds the chance is 1 to the last digit


def _look(visit: Visit, latitude: float | None, planted: date | None) -> detection.Look:
    note = visit.note
    recovery = detection.recovery_beta(
        note.method, note.soaked, note.soil.moisture, note.soil.texture, snapped="snapped" in note.roots
    )
    # what was found was out, whatever the calendar says
    seen = 0.99 if noted.females_seen(note) else visible_by_calendar(visit, latitude, planted)
    return detection.Look(noted.places(note), recovery, seen)


def visible_by_calendar(visit: Visit, latitude: float | None, planted: date | None) -> float:
    """Chance [0-1] that females could be seen on a day, from stage or days since planting alone. Judgement."""
    stage = visit.note.stage or ""
    ripe, node = reproductive_stage(stage), vegetative_node(stage)
    if ripe is not None:
        return 0.95 if ripe < 6.5 else 0.0
    if node is not None:
        return float(ndtr((node - 4.0) / 1.0)) * 0.95
    told = visit.note.planted or planted
    if told is None or not 0 <= (visit.on - told).days <= 200:
        south = latitude is not None and latitude < 0
        year = visit.on.year - 1 if south and visit.on.month < 7 else visit.on.year
        usual = usual_planting(41.0 if latitude is None else latitude).middle + (182 if south else 0)
        told = date(year, 1, 1) + timedelta(days=round(usual) - 1)
    days = (visit.on - told).days
    return 0.0 if days > LAST_DAYS else float(ndtr((days - FIRST_DAYS) / FIRST_DAYS_SD)) * 0.95
