"""Fields, crews and looks made up one female at a time, to see whether stated chances come true.

Nothing here is taken from `notes_bot.science.detection` but the assumed numbers of a `World`; the drawing is done
plainly: a field has a mean, places their own means, plants their own, each female is brought up and seen or not.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta

import numpy as np
from scipy.special import betaincinv, ndtr, ndtri

from notes_bot.model import Females, History, Method, Moisture, Note, Soil, Visit
from notes_bot.science import detection
from notes_bot.worth import infested_after

PLANTED = date(2025, 5, 8)
FIRST_OUT, FIRST_OUT_SD = 33.0, 4.0
"""Days from planting to the first females, and how far fields differ."""
CALENDARS = FIRST_OUT + FIRST_OUT_SD * ndtri((np.arange(24) + 0.5) / 24)
"""What a perfect clock knows of the day of the first females: equally likely days."""


@dataclass(frozen=True)
class World:
    """How fields are. The defaults are what the model assumes; others show what its mistakes would cost."""

    name: str
    infested: float = 0.5
    median: float = detection.INTENSITIES[None].median
    log_sd: float = detection.INTENSITIES[None].log_sd
    k_within: float = detection.K_WITHIN
    k_between: float = detection.K_BETWEEN
    recovery_factor: float = 1.0
    """Crews see so many times as much as the table says."""


AS_ASSUMED = World("as assumed")
OTHER_WORLDS = (
    World("females clump twice as much", k_within=detection.K_WITHIN / 2, k_between=detection.K_BETWEEN / 2),
    World("crews see half as much", recovery_factor=0.5),
    World("infestations half as heavy", median=detection.INTENSITIES[None].median / 2),
    World("one field in five is infested", infested=0.2),
)


@dataclass(frozen=True)
class Season:
    """One field's looks as the service would see them, and the truth."""

    history: History
    visible: list[float]
    showing: np.ndarray
    """Females out on the days of the looks in equally likely calendars, shape (looks, calendars)."""
    infested: bool


def season(world: World, draw: np.random.Generator) -> Season:
    """One to four looks in one field."""
    infested = bool(draw.random() < world.infested)
    mean = world.median * np.exp(world.log_sd * draw.normal()) if infested else 0.0
    factors = draw.gamma(world.k_between, 1 / world.k_between, 4)
    first_out = FIRST_OUT + FIRST_OUT_SD * draw.normal()
    skill = draw.random()
    method: Method = draw.choice(["pulled", "eased", "shovel", "shovel"])
    texture = str(draw.choice(["sand", "loam", "clay"]))
    visits, visible = [], []
    day = int(draw.integers(24, 60))
    for number in range(int(draw.integers(1, 5))):
        moisture: Moisture = draw.choice(["dry", "moist", "moist", "wet"])
        soaked = bool(draw.random() < 0.5)
        note = Note(plants=int(draw.integers(2, 13)), method=method, soaked=soaked, soil=Soil(moisture, texture))
        seen = _seen(world, note, mean * _out(day - first_out), factors, skill, draw)
        note = replace(note, females=Females(total=seen), outcome="seen" if seen else "none_seen")
        visits.append(Visit(number, 1, PLANTED + timedelta(day), note, 1))
        visible.append(float(_chance_out(day)))
        day += int(draw.integers(4, 16))
    days = [(visit.on - PLANTED).days for visit in visits]
    showing = np.array([[_out(day - first) for first in CALENDARS] for day in days])
    return Season(History(planted=PLANTED, visits=tuple(visits)), visible, showing, infested)


def _out(days: float) -> float:
    """Share of the first generation's females out, so many days after the first."""
    return float(np.clip(0.05 + days / 18.0, 0.05, 1.0)) if days >= 0 else 0.0


def _chance_out(day: int) -> float:
    """Chance that a field's first females are out on a day: what a perfect clock would say."""
    return float(ndtr((day - FIRST_OUT) / FIRST_OUT_SD))


def _seen(world: World, note: Note, mean: float, factors: np.ndarray, skill: float, draw: np.random.Generator) -> int:
    a, b = detection.recovery_beta(note.method, note.soaked, note.soil.moisture, note.soil.texture)
    q = min(world.recovery_factor * float(betaincinv(a, b, skill)), 1.0)
    total = 0
    for place, (_, plants) in enumerate(detection.spread(note.plants or 0)):
        for _ in range(plants):
            on_plant = draw.poisson(mean * factors[place] * draw.gamma(world.k_within, 1 / world.k_within))
            total += int(draw.binomial(on_plant, q))
    return total


def clean_fields(world: World, fields: int, draw: np.random.Generator) -> tuple[np.ndarray, np.ndarray]:
    """Stated chance of infestation and the truth, for those of so many simulated fields where no look saw any."""
    stated, true = [], []
    for _ in range(fields):
        made = season(world, draw)
        if all(visit.note.outcome == "none_seen" for visit in made.history.visits):
            stated.append(infested_after(made.history, made.visible, showing=made.showing))
            true.append(float(made.infested))
    return np.array(stated), np.array(true)


def found_fields(world: World, fields: int, draw: np.random.Generator) -> tuple[np.ndarray, np.ndarray]:
    """The same for fields where some look counted one to four, grit taken for females among them."""
    stated, true = [], []
    for _ in range(fields):
        made = season(world, draw)
        visits = tuple(_with_grit(visit, draw.random()) for visit in made.history.visits)
        if 1 <= max(visit.note.females.total or 0 for visit in visits) < detection.NEVER_CLEARS:
            history = replace(made.history, visits=visits)
            stated.append(infested_after(history, made.visible, showing=made.showing))
            true.append(float(made.infested))
    return np.array(stated), np.array(true)


def _with_grit(visit: Visit, luck: float) -> Visit:
    grit = max((least for least, chance in detection.FALSE_ALARMS if luck < chance), default=0)
    seen = (visit.note.females.total or 0) + grit
    note = replace(visit.note, females=Females(total=seen), outcome="seen" if seen else "none_seen")
    return replace(visit, note=note)


def reliability(stated: np.ndarray, true: np.ndarray, bins: int = 10) -> list[tuple[float, float, int]]:
    """Mean stated chance, frequency of the truth, and number of fields, in bins of equally many fields."""
    order = np.argsort(stated)
    return [(float(stated[part].mean()), float(true[part].mean()), len(part)) for part in np.array_split(order, bins)]
