"""Runs the clock on made-up seasons, as a scout's visits come in, and keeps score.

Used by the tests in small and by ``tests/benchmarks/clock_scores.py`` in full.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta

import numpy as np

from notes_bot.model import Climate, DayTemperature, Females, History, Note, Soil, Visit
from notes_bot.outlook import Clock, read_clock
from notes_bot.science.generation import gate_heat, whole_days
from tests import season_simulator as nature

_MEANS = [nature.NORMALS_C.get(month, 0.0) for month in range(1, 13)]
NORMAL_CLIMATE = Climate(
    "made-up normals",
    tuple(mean + nature.HALF_RANGE_C for mean in _MEANS),
    tuple(mean - nature.HALF_RANGE_C for mean in _MEANS),
)
ROOTS_END = date(2024, 9, 8)
NEVER = 9999.0
PEAKS_AFTER_INFECTION = (365.0, 899.0, 1328.0, 1757.0)
"""Heat [DD5] from the middle field's infection to each generation's peak: what planting date and heat can know."""


@dataclass
class Row:
    """One window of one season after some visits, and what nature did."""

    visits: int
    event: str
    generation: int
    low: float
    middle: float
    high: float
    truth: float
    rank: float


@dataclass
class Scores:
    rows: list[Row] = field(default_factory=list)
    peaks: dict[int, dict[str, list[float]]] = field(default_factory=dict)

    def pick(self, visits: int | None = None, event: str | None = None, generation: int | None = None) -> list[Row]:
        return [
            row for row in self.rows
            if visits in (None, row.visits) and event in (None, row.event) and generation in (None, row.generation)
        ]  # fmt: skip

    def covered(self, visits: int | None = None, event: str | None = None, generation: int | None = None) -> float:
        return float(np.mean([row.low <= row.truth <= row.high for row in self.pick(visits, event, generation)]))

    def ranks(self, visits: int | None = None, event: str | None = None, generation: int | None = None) -> np.ndarray:
        return np.array([row.rank for row in self.pick(visits, event, generation)])

    def mean_rank(self) -> float:
        return float(self.ranks().mean())

    def next_peak_errors(self, visits: int) -> dict[str, np.ndarray]:
        return {name: np.array(values) for name, values in self.peaks[visits].items()}


def temperatures(season: nature.SimulatedSeason, until: date) -> tuple[DayTemperature, ...]:
    """The air a scout's weather station measured up to a day."""
    half = nature.HALF_RANGE_C
    return tuple(
        DayTemperature(nature.day(i), float(season.air_c[i]) - half, float(season.air_c[i]) + half)
        for i in range(nature.place(until) + 1)
    )


def trial(
    world: nature.World,
    seasons: int,
    seed: int,
    *,
    visits: int = 3,
    measured: bool = True,
    planting_known: bool = True,
    planting_error_days: int = 0,
) -> Scores:
    """Follow ``seasons`` fields: a first look four to six weeks after planting, then every one to two weeks."""
    draw = np.random.default_rng(seed)
    scores = Scores()
    for _ in range(seasons):
        season = nature.simulate(world, draw)
        told = season.planted + timedelta(days=planting_error_days) if planting_known else None
        on = season.planted + timedelta(days=int(draw.integers(28, 46)))
        made: list[Visit] = []
        for number in range(visits + 1):
            as_of = made[-1].on if made else on
            history = History(42.0, -93.5, told, resistance="susceptible", visits=tuple(made))
            air = temperatures(season, as_of) if measured else ()
            _score(scores, number, season, read_clock(history, air, NORMAL_CLIMATE, as_of), as_of)
            if made:
                on = made[-1].on + timedelta(days=int(draw.integers(7, 15)))
            plants = int(draw.integers(4, 11))
            seen = nature.look(season, on, world, draw, plants)
            outcome = "seen" if sum(seen) else "none_seen"
            note = Note(plants=plants, method="shovel", soaked=True, soil=Soil(moisture="moist"),
                        females=Females(*seen, sum(seen)), outcome=outcome)  # fmt: skip
            made.append(Visit(number, 1, on, note, 1))
    return scores


def _score(scores: Scores, visits: int, season: nature.SimulatedSeason, clock: Clock, as_of: date) -> None:
    """Keep score of every window still ahead by the clock's own reckoning.

    Which windows count is decided by what the clock says, never by what nature then did: leaving out events that had
    secretly happened already would leave out just the windows that failed.
    """
    known = (
        ("first_white", season.first_white, clock.ahead.first_white),
        ("peak", season.peak, clock.ahead.peak),
        ("turning_tan", season.turning_tan, clock.ahead.turning_tan),
    )
    today, end = (float((day - clock.calendar.first).days) for day in (as_of, ROOTS_END))
    for event, truth, days in known:
        for generation in range(3):
            happened = truth[generation]
            low, middle, high = whole_days(*np.quantile(days[:, generation], (0.1, 0.5, 0.9)))
            if not today < middle <= end:
                continue
            real = NEVER if happened is None else float((happened - clock.calendar.first).days)
            whole = np.ceil(days[:, generation])
            rank = float(np.mean(whole < real) + 0.5 * np.mean(whole == real))
            scores.rows.append(Row(visits, event, generation, low, middle, high, real, rank))
    _score_next_peak(scores, visits, season, clock, as_of)


def _score_next_peak(scores: Scores, visits: int, season: nature.SimulatedSeason, clock: Clock, as_of: date) -> None:
    """Days by which the clock, two plain rivals and two that cheat miss the next peak.

    *All but the weather* knows this field's own heats, durations and soil, and only has to await the weather: nobody
    can do better. *A perfect look* knows on which day the first generation truly turned white and how long colours last
    here, once that is past; what is then left are the next generation's length, the soil and the weather, which no
    count of this one can tell.
    """
    coming = [(day, place) for place, day in enumerate(season.peak[:4]) if day is not None and day > as_of]
    if not coming:
        return
    happened, place = coming[0]
    today = (as_of - clock.calendar.first).days
    real = float((happened - clock.calendar.first).days)
    shift = (nature.FIRST_DAY - clock.calendar.first).days
    sown = nature.place(season.planted) + shift
    after = np.arange(clock.calendar.days) >= sown

    def added(soil_c: np.ndarray) -> np.ndarray:
        return np.cumsum(np.where(after, np.clip(soil_c, 5, 30) - 5, 0.0))

    heat, own_heat = added(clock.soil.mean_c), added(clock.soil.mean_c + season.soil_error_c)
    counted = gate_heat(clock.soil.mean_c)
    entered = int(np.argmax(counted - counted[sown - 1] >= 160.0))
    true_soil = np.clip(season.soil_c, 5, 30) - 5
    true_heat = np.cumsum(np.where(np.arange(nature.DAYS) >= sown - shift, true_soil, 0.0))
    peak_heat = true_heat[nature.place(happened)]
    guesses = {
        "clock": float(np.ceil(np.median(clock.ahead.peak[:, place]))),
        "ten days": float(today + 10),
        "planting and heat": float(np.argmax(heat >= heat[entered] + PEAKS_AFTER_INFECTION[place])),
        "all but the weather": float(np.argmax(own_heat >= peak_heat)),
    }
    white = int(np.searchsorted(true_heat, season.white_heat[0])) + shift
    if white <= today:
        lengths = (0.0, 534.0, 963.0, 1392.0)[place]
        steps = peak_heat - season.white_heat[place]
        guesses["a perfect look"] = float(np.argmax(heat >= heat[white] + lengths + steps))
    for name, guess in guesses.items():
        error = abs(guess - real)
        scores.peaks.setdefault(visits, {}).setdefault(name, []).append(error)
        if name == "a perfect look":
            scores.peaks[visits].setdefault("clock, same seasons", []).append(abs(guesses["clock"] - real))
