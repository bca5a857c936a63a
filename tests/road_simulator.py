"""Looks in the seasons of `tests.season_simulator`, answered over the whole road: weather, clock, worth of a look."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

import numpy as np

from notes_bot.model import DayTemperature, Females, History, Note, Soil, Visit
from notes_bot.outlook import foresee
from notes_bot.science.detection import RECOVERIES, Recovery
from notes_bot.weather import climate_at

from .season_simulator import DAYS, HALF_RANGE_C, SimulatedSeason, World, day, look, simulate

PLACE = (42.0, -93.6)


def clean_seasons(
    fields: int, draw: np.random.Generator, recoveries: Sequence[Recovery] = RECOVERIES, *, soaked: bool = True
) -> tuple[np.ndarray, np.ndarray]:
    """Stated chance of infestation and the truth, for those of so many fields where one to three looks saw none.

    Half the fields are infested; two to ten plants are dug 24 to 69 days after planting; the variety is susceptible.
    Nature gives half of the females to a shovel and a bucket; with `soaked` false the notes do not speak of the bucket.
    """
    world, climate = World(), climate_at(*PLACE)
    stated, true = [], []
    for _ in range(fields):
        season, infested = simulate(world, draw, 600), bool(draw.random() < 0.5)
        days = sorted(draw.integers(24, 70, draw.integers(1, 4)))
        visits = tuple(
            _visit(number, season, int(after), infested, world, draw, soaked)
            for number, after in enumerate(days, start=1)
        )
        if any(visit.note.females.total for visit in visits):
            continue
        known = History(*PLACE, planted=season.planted, resistance="susceptible", visits=visits)
        outlook = foresee(known, _weather(season), climate, visits[-1].on, recoveries=recoveries)
        stated.append(outlook.infested_probability)
        true.append(float(infested))
    return np.array(stated), np.array(true)


def _visit(
    number: int,
    season: SimulatedSeason,
    after: int,
    infested: bool,
    world: World,
    draw: np.random.Generator,
    soaked: bool,
) -> Visit:
    on, plants = season.planted + timedelta(days=after), int(draw.integers(2, 11))
    counts = look(season, on, world, draw, plants) if infested else (0, 0, 0, 0)
    females = Females(*counts, sum(counts))
    outcome = "seen" if sum(counts) else "none_seen"
    soil = Soil("moist")
    note = Note(plants=plants, method="shovel", soaked=soaked, females=females, outcome=outcome, soil=soil)
    return Visit(number, 1, on, note, 1)


def _weather(season: SimulatedSeason) -> list[DayTemperature]:
    air = season.air_c
    return [DayTemperature(day(i), float(air[i] - HALF_RANGE_C), float(air[i] + HALF_RANGE_C)) for i in range(DAYS)]
