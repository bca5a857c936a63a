"""Whole soybean seasons made up female by female, to put the clock to the test.

Shares no code with the package: it draws its own weather, its own field, and follows every single female from the
day she enters the root to the day her cyst falls off, with durations that are never negative. The numbers it starts
from are those of docs/science/clock.md; what the clock assumes to be smooth and normal is lumpy here.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta

import numpy as np

FIRST_DAY = date(2024, 3, 1)
DAYS = 260
# Mean air temperature of central Iowa by month, March to November [C]; the clock is given the same normals.
NORMALS_C = {3: 3.0, 4: 10.4, 5: 16.4, 6: 21.6, 7: 23.6, 8: 22.5, 9: 18.2, 10: 11.3, 11: 3.2}
HALF_RANGE_C = 5.8


@dataclass
class World:
    """How nature is set up: spread of fields about the textbook, and of females within a field."""

    lag: tuple[float, float] = (160.0, 48.0)
    hatch_none_c: float = 10.0
    """Soil in which no juvenile gets to a root."""
    hatch_full_c: tuple[float, float] = (15.0, 1.5)
    """Soil from which on cold delays nothing; fields and years differ."""
    dormant_from: tuple[float, float] = (250.0, 14.0)
    """Day of the year from which new eggs mostly wait, at 42 N; years differ."""
    still_awake: float = 0.07
    pace_sd: float = 0.04
    colour_sd: float = 0.22
    yellow_sd: float = 0.3
    loss_sd: float = 0.45
    spread_sd: float = 0.15
    first_generation: tuple[float, float] = (534.0, 40.0)
    later_generation: tuple[float, float] = (429.0, 35.0)
    growth: tuple[float, float] = (2.5, 0.7)
    density: tuple[float, float] = (4.0, 1.5)
    """Females on a plant at the first generation's height: median and log spread between fields, susceptible."""
    soil_error_sd: float = 1.0
    season_sd: float = 0.6
    air_daily_sd: float = 3.2
    air_memory: float = 0.68
    plant_lag_sd: float = 40.0
    """How much later one plant's females are than another's [DD5]: what makes colours clump by plant."""
    plant_shape: float = 0.8
    """How unevenly plants carry females: shape of a gamma distribution of mean 1."""
    misread: float = 0.05
    recovery: tuple[float, float] = (0.50, 10.0)
    """Chance that a female is brought up and seen by shovel and bucket from moist ground, and how many observations
    its spread from field to field is like."""
    by_colour: tuple[float, float, float, float] = (1.0, 1.0, 0.93, 0.80)
    base_c: float = 5.0
    upper_c: float = 30.0
    colour_scale: float = 1.0
    soil_error_mean: float = 0.0
    development_dd: float = 250.0
    step_dd: tuple[float, float, float] = (80.0, 60.0, 40.0)
    loss_dd: float = 80.0
    sd_scale: float = 1.0
    """Makes all spreads between females smaller where a world counts its heat from a higher base."""


@dataclass
class SimulatedSeason:
    """One season as nature knows it."""

    planted: date
    air_c: np.ndarray
    soil_c: np.ndarray
    first_white: list[date | None]
    peak: list[date | None]
    turning_tan: list[date | None]
    on_roots: np.ndarray
    """Females by plant, colour and day, all generations, shape (plants, 4, days)."""
    density: float
    first_height: float
    """Most females of the first generation on a plant at one time, in the units of ``on_roots``."""
    found: float
    """Chance, this season, that a female is brought up and seen."""
    white_heat: list[float]
    """Mean heat since planting, on this field's own soil, at which each generation turned white [DD5]."""
    soil_error_c: float
    """How much warmer this field's soil is than the lagged air."""
    seen: list[tuple[date, tuple[int, int, int, int]]] = field(default_factory=list)


def day(place: int) -> date:
    return FIRST_DAY + timedelta(days=int(place))


def place(of: date) -> int:
    return (of - FIRST_DAY).days


def normal_air() -> np.ndarray:
    days = [day(i) for i in range(DAYS)]
    middles = np.array([place(date(2024, month, 15)) for month in NORMALS_C])
    return np.interp(np.arange(len(days)), middles, list(NORMALS_C.values()))


def weather(world: World, draw: np.random.Generator) -> tuple[np.ndarray, np.ndarray, float]:
    """Daily mean air, the soil under the field (which nobody measures), and how far that is from lagged air."""
    shock = world.air_daily_sd * np.sqrt(1 - world.air_memory**2)
    air = normal_air() + world.season_sd * draw.normal()
    departure = world.air_daily_sd * draw.normal()
    for i in range(DAYS):
        departure = world.air_memory * departure + shock * draw.normal()
        air[i] += departure
    soil = np.empty(DAYS)
    now = air[0]
    for i in range(DAYS):
        now = 0.88 * now + 0.12 * air[i]
        soil[i] = now
    error = world.soil_error_mean + world.soil_error_sd * float(draw.normal())
    return air, soil + error, error


def gamma(draw: np.random.Generator, mean, sd, size):
    """Durations that cannot be negative, with a given mean and standard deviation."""
    mean = np.broadcast_to(mean, size)
    return draw.gamma((mean / sd) ** 2, sd**2 / mean)


PLANTS = 50
FEWEST = 60
"""With fewer females left than this a generation is no longer followed."""


def simulate(world: World, draw: np.random.Generator, females: int = 6000) -> SimulatedSeason:
    """One field's season. The number of females only sets how smooth the truth is; counts come from ``look``."""
    planted = date(2024, 5, 1) + timedelta(days=int(draw.integers(0, 25)))
    air, soil, soil_error = weather(world, draw)
    heat = np.cumsum(
        np.where(np.arange(DAYS) >= place(planted), np.clip(soil, world.base_c, world.upper_c) - world.base_c, 0.0)
    )
    pace = np.exp(world.pace_sd * draw.normal())
    slow = world.colour_scale * np.exp(world.colour_sd * draw.normal())
    yellow_lasts = np.exp(world.yellow_sd * draw.normal())
    uneven = world.sd_scale * np.exp(world.spread_sd * draw.normal())
    loss = world.loss_dd * np.exp(world.loss_sd * draw.normal())
    lag = world.lag[0] + world.lag[1] * draw.normal()
    first = pace * (world.first_generation[0] + world.first_generation[1] * draw.normal())
    later = pace * (world.later_generation[0] + world.later_generation[1] * draw.normal())
    growth = world.growth[0] * np.exp(world.growth[1] * draw.normal())
    plant = np.arange(females) % PLANTS
    lateness = world.plant_lag_sd * draw.normal(size=PLANTS)
    alone = np.sqrt(70.0**2 - world.plant_lag_sd**2)  # plants and females together spread over 70
    entered = lag + uneven * (lateness[plant] + alone * draw.normal(size=females))
    # Until she has entered, cool soil counts less: from the heat she needs to the heat of the day on which she has it.
    full = max(world.hatch_full_c[0] + world.hatch_full_c[1] * draw.normal(), world.hatch_none_c + 0.1)
    open_share = np.clip((soil - world.hatch_none_c) / (full - world.hatch_none_c), 0.0, 1.0)
    entered = np.where(
        entered > 0, np.interp(entered, np.cumsum(np.diff(heat, prepend=0.0) * open_share), heat), entered
    )
    asleep = place(date(2024, 1, 1)) - 1 + world.dormant_from[0] + world.dormant_from[1] * draw.normal()
    white = entered + gamma(draw, pace * world.development_dd, 35 * uneven, females)
    weight = 1.0
    by_plant = np.zeros((PLANTS, 4, DAYS))
    found: dict[str, list[date | None]] = {"first": [], "peak": [], "tan": []}
    white_heat: list[float] = []
    for number in range(5):
        turns = [white]
        white_heat.append(float(white.mean()))
        lasts = (world.step_dd[0], yellow_lasts * world.step_dd[1], world.step_dd[2])
        for mean, sd in zip(lasts, (30.0, 25.0 * yellow_lasts, 20.0), strict=True):
            turns.append(turns[-1] + gamma(draw, slow * mean, slow * sd * world.sd_scale, len(white)))
        yellow, tan, brown = turns[1:]
        lost = brown + draw.exponential(loss, len(white))
        turned = [np.searchsorted(heat, x, side="left") for x in (white, yellow, tan, brown, lost)]
        passed = [np.cumsum(np.bincount(days, minlength=DAYS + 1)[:DAYS]) for days in turned]
        counts = [passed[colour] - passed[colour + 1] for colour in range(4)]
        for colour in range(4):
            for sign, days in ((weight, turned[colour]), (-weight, turned[colour + 1])):
                change = np.bincount(plant * (DAYS + 1) + days, minlength=PLANTS * (DAYS + 1))
                by_plant[:, colour] += sign * np.cumsum(change.reshape(PLANTS, DAYS + 1), axis=1)[:, :DAYS]
        if number == 0:
            first_height = max(float(by_plant.sum(axis=1).mean(axis=0).max()), 1e-9)
        found["first"].append(_first(passed[0] >= 0.05 * len(white)))
        smooth = np.convolve(counts[1], np.ones(3) / 3, "same")
        top = int(np.argmax(smooth))
        found["peak"].append(day(top) if top < DAYS - 5 else None)
        over = counts[2] + counts[3] > counts[1]
        low = int(np.argmax(passed[1] > 0.1 * len(white)))
        found["tan"].append(_first(over, low))
        mothers = draw.integers(0, len(white), len(white))
        white, plant = white[mothers], plant[mothers]
        white = white + gamma(draw, first if number == 0 else later, 55 * uneven, len(white))
        # Her egg hatched a development before she is white; late in the year most do not.
        hatch_day = np.searchsorted(heat, white - pace * world.development_dd)
        awake = (hatch_day < asleep) | (draw.random(len(white)) < world.still_awake)
        if awake.sum() < FEWEST:
            break
        white, plant = white[awake], plant[awake]
        weight *= growth if number == 0 else growth**0.6
    for days in found.values():
        days += [None] * (5 - len(days))
    density = world.density[0] * np.exp(world.density[1] * draw.normal())
    found_share = draw.beta(world.recovery[0] * world.recovery[1], (1 - world.recovery[0]) * world.recovery[1])
    return SimulatedSeason(
        planted, air, soil, found["first"], found["peak"], found["tan"], by_plant, density, first_height, found_share,
        white_heat, soil_error,
    )  # fmt: skip


def _first(true: np.ndarray, start: int = 0) -> date | None:
    where = np.flatnonzero(true[start:])
    return day(start + where[0]) if len(where) else None


def look(
    season: SimulatedSeason, on: date, world: World, draw: np.random.Generator, plants: int = 6
) -> tuple[int, int, int, int]:
    """What a scout with a shovel counts on some plants, all plants together, colours as called."""
    called = np.zeros(4, dtype=int)
    at = place(on)
    for chosen in draw.choice(PLANTS, plants, replace=False):
        # Plants differ in how many females they carry as well as in when they carry them.
        mean = (
            season.density
            * season.on_roots[chosen, :, at]
            / season.first_height
            * draw.gamma(world.plant_shape, 1 / world.plant_shape)
        )
        real = draw.poisson(mean * season.found * np.array(world.by_colour))
        for colour, number in enumerate(real):
            stray = draw.binomial(number, world.misread)
            called[colour] += number - stray
            neighbours = [c for c in (colour - 1, colour + 1) if 0 <= c <= 3]
            if stray:
                np.add.at(called, draw.choice(neighbours, stray), 1)
    return tuple(int(n) for n in called)
