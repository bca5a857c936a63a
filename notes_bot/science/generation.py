"""The nematode clock: heat -> colours of the females on a root -> where a population is -> when things happen.

One field's population is a handful of uncertain numbers (its *state*): how late infection started, how fast it
develops, how long females keep a colour, how much each generation outgrows the last, how far the soil temperature
is from ours. A state fixes, for every heat sum, how many females of each generation are on the roots in each
colour. Counts weigh states; weighted states give windows. The sum over states is done by importance sampling from
a fixed low-discrepancy set, so the same question always gets the same answer.

Heat is in DD5 (degree-days above 5 C on 10-cm soil, capped at 30 C) since planting; days are whole numbers counted
from the first day of the season's arrays. docs/science/clock.md has the equations, docs/science/limits.md the doubts.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.special import gammaln, ndtr, ndtri
from scipy.stats import qmc

from notes_bot.science.detection import INTENSITIES
from notes_bot.science.parameters import CLOCK, FOUND_BY_COLOUR

Floats = NDArray[np.float64]

GENERATIONS = 6
"""More than a season holds anywhere in the belt."""
FIRST_SHARE = 0.05
"""A generation's first whites: this share of its females has come out."""

# Places of the uncertain numbers in a state, all standard normal before any count.
LAG, PACE, COLOUR, YELLOW, LOSS, SPREAD, FIRST, LATER, GROWTH, DENSITY, BIAS, PLANTING, ROOTS = range(13)
KNOTS = np.array([4.0, 10.0, 20.0, 34.0, 52.0, 75.0, 105.0, 150.0])
"""Counts of days with unmeasured temperature at which the heat's departure from expectation is a state's own number."""
PATH = 13
OWN = PATH + len(KNOTS)
LOOKS = 6
"""Looks whose plants may each be early or late in their own way; the oldest beyond that many share one number."""
DIMENSIONS = OWN + LOOKS
EVEN_STATES = 4096
FARTHEST = 4.5
"""Standard deviations beyond which a number is taken as at this limit: nothing is lost, and nothing overflows."""

_BLUNDER_LOG = float(np.log(CLOCK["blunder_share"].value))
_HONEST_LOG = float(np.log1p(-CLOCK["blunder_share"].value))


def _p(name: str) -> float:
    return CLOCK[name].value


def _s(name: str) -> float:
    return CLOCK[name].spread


@dataclass(frozen=True, slots=True)
class Season:
    """Heat of one field's season, day by day, and what is not known of it."""

    heat: Floats
    """Expected DD5 added up from the first day of the arrays to the end of each day, shape (days,)."""
    bias_heat: Floats
    """What one standard deviation of lasting soil error adds up to by each day [DD5], shape (days,)."""
    unmeasured: Floats
    """Days without a measured temperature up to each day, shape (days,)."""
    anchored: bool
    """True when some temperatures were measured: departures then start from the last measured day."""
    planted: float
    """Day of planting, counted from the first day of the arrays (likely one, when unknown)."""
    planted_sd: float
    """Its standard deviation in days; 0 when it is known."""
    roots_end: float
    """Day after which roots are too far gone, middle estimate."""
    roots_end_sd: float
    resistant: bool = False
    females: tuple[float, float] = (INTENSITIES[None].median, INTENSITIES[None].log_sd)
    """Females on a plant of an infested field at the first generation's height: median, and spread of the logarithm."""
    gate: Gate | None = None
    """``None`` where soil is never too cool to hatch in."""
    dormant_from: float | None = None
    """Day from which eggs mostly wait for next year, middle estimate; ``None`` where none is known to."""
    futures: Floats | None = None
    """What the heat of each of some past years would add to ``heat`` by each day [DD5], shape (years, days), nothing up
    to the last day known; ``None`` where the weather to come is drawn about normals instead."""


def clock_heat(soil_mean_c: Floats) -> Floats:
    """DD5 added up day by day. Days at 36 C and more bring nothing: embryos die [AlstonSchmitt1988].

    :param soil_mean_c: daily means at 10 cm [C], shape (days,), no gaps.
    :returns: shape (days,).
    """
    return np.cumsum(_daily_heat(soil_mean_c))


def gate_heat(soil_mean_c: Floats, higher: float = 0.0) -> Floats:
    """What of the heat counts towards infection, added up: juveniles hatch and move the less the cooler the soil.

    Each day's heat times a ramp from 0 at ``hatch_none_c`` to 1 at ``hatch_full_c``.

    :param soil_mean_c: as for `clock_heat`.
    :param higher: by how much the upper end of the ramp lies above its value [C].
    """
    none = _p("hatch_none_c")
    full = max(_p("hatch_full_c") + higher, none + 0.1)
    return np.cumsum(_daily_heat(soil_mean_c) * np.minimum(np.maximum((soil_mean_c - none) / (full - none), 0.0), 1.0))


def _daily_heat(soil_mean_c: Floats) -> Floats:
    daily = np.minimum(np.maximum(soil_mean_c, _p("base_c")), _p("upper_c")) - _p("base_c")
    return np.where(soil_mean_c >= _p("lethal_c"), 0.0, daily)


@dataclass(frozen=True, slots=True)
class Gate:
    """How cool soil puts off infection in one field's spring."""

    heat: Floats
    """Heat that counts towards infection, added up as ``Season.heat`` is, shape (days,)."""
    later: float
    """By how much doubt about the gate puts off infection on average [DD5 of the same kind]."""
    sd: float
    """Standard deviation of the same."""
    bias: float
    """What one standard deviation of lasting soil error adds to the heat at which infection is due [DD5], at most 0."""

    @classmethod
    def of(cls, soil_mean_c: Floats, planted: int, bias_c: float, unsure_c: float) -> Gate:
        """The gate of a spring.

        Doubt is taken through by three-point Gauss-Hermite quadrature: a gate higher than thought puts off more than a
        lower one brings forward.

        :param planted: likely day of planting.
        :param bias_c: one standard deviation of lasting soil error.
        :param unsure_c: standard deviation of the weeks' soil temperature where it was not measured, else 0.
        """
        heat, open_heat = clock_heat(soil_mean_c), gate_heat(soil_mean_c)
        before = max(planted - 1, 0)

        def due(higher: float) -> float:
            """Heat since planting at which the middle field's infection is due."""
            counted = gate_heat(soil_mean_c, higher)
            wanted = counted[before] + _p("planting_to_penetration")
            return float(np.interp(wanted, counted, heat) - heat[before])

        wide = float(np.hypot(_s("hatch_full_c"), unsure_c))
        dues = np.array([due(step * wide) for step in (-np.sqrt(3.0), 0.0, np.sqrt(3.0))])
        # In the heat that counts at the middle gate, so that fields which need more or less find their own day by it.
        moved = np.interp(heat[before] + dues, heat, open_heat) - open_heat[before] - _p("planting_to_penetration")
        shares = np.array([1.0, 4.0, 1.0]) / 6
        later = float(shares @ moved)
        # Soil warmer by so much is a gate lower by so much, about.
        warmer = (due(-bias_c) - due(bias_c)) / 2
        return cls(open_heat, later, float(np.sqrt(shares @ (moved - later) ** 2)), min(warmer, 0.0))


@dataclass(frozen=True, slots=True)
class Look:
    """One visit as the clock sees it."""

    day: int
    colours: tuple[tuple[int, int, int, int], ...] = ()
    """Counts of white, yellow, tan, brown, one row a spot whose colours were counted."""
    mostly: tuple[bool, bool, bool, bool] | None = None
    """Colours said to be most, without numbers."""
    total: int | None = None
    """Females over all plants, check strips left out; 0 for none seen."""
    plants: int | None = None
    method: str = ""
    """shovel, eased, pulled, or empty: which colours are lost."""
    recovery: float = 0.3
    """Chance that a white female on a plant dug is brought up and seen."""
    at_least: bool = False
    """True when the total is only a lower bound."""
    node: float | None = None
    """V stage seen that day; used only when the planting day is unknown."""

    @property
    def seen(self) -> bool:
        return bool(self.colours) or self.mostly is not None or bool(self.total) or self.at_least


@dataclass(frozen=True, slots=True)
class Cohorts:
    """The generations of many states: heat at which females turn, and how many there are; shape (states, G)."""

    white: Floats
    """Mean DD5 from planting to white."""
    spread: Floats
    """Standard deviation between females [DD5]."""
    steps: Floats
    """Mean DD5 from white to yellow, tan and brown, shape (states, 3)."""
    steps_sd: Floats
    """Standard deviations of the same, shape (states, 3)."""
    loss: Floats
    """Mean DD5 a brown cyst stays on the root, shape (states,)."""
    size: Floats
    """Females of the generation over those of the first."""


def cohorts(
    states: Floats,
    resistant: bool = False,
    generations: int = GENERATIONS,
    *,
    infected: tuple[Floats, Floats] | None = None,
) -> Cohorts:
    """Generations of each state, every egg hatching.

    White of generation 1 comes at infection + pace * 250 DD5 on average, each later one a generation length after it;
    variances add along the line of descent [AlstonSchmitt1988, Lauritis1983; splits of the colour steps are judgement].

    :param infected: heat since planting at which infection is due, and by how much cool soil draws it out (1: not at
        all), each of shape (states,); without it soil is taken as warm enough all along.
    """
    states = np.minimum(np.maximum(states, -FARTHEST), FARTHEST)
    pace = np.exp(_s("pace") * states[:, PACE])
    due, drawn_out = infected or (_lag(states, resistant), np.ones(len(states)))
    number = np.arange(generations)
    first = pace * (_p("first_generation") + _s("first_generation") * states[:, FIRST])
    later = pace * (_p("later_generation") + _s("later_generation") * states[:, LATER])
    start = due + pace * _p("penetration_to_white")
    white = start[:, None] + np.where(number > 0, first[:, None] + np.maximum(number - 1, 0) * later[:, None], 0.0)
    uneven = np.exp(_s("spread_factor") * states[:, SPREAD])
    infecting = (_p("penetration_sd") * drawn_out[:, None]) ** 2
    variance = infecting + _p("white_sd") ** 2 + number * _p("generation_sd") ** 2
    slow = np.exp(_s("colour_pace") * states[:, COLOUR])
    yellow = np.exp(_s("yellow_to_tan") * states[:, YELLOW])
    steps, variances = np.empty((len(states), 3)), np.empty((len(states), 3))
    mean: Floats | float = 0.0
    apart: Floats | float = 0.0
    for place, (name, lasting) in enumerate(
        (("white_to_yellow", slow), ("yellow_to_tan", slow * yellow), ("tan_to_brown", slow))
    ):
        mean = mean + _p(name) * lasting
        apart = apart + (_p(f"{name}_sd") * lasting) ** 2
        steps[:, place], variances[:, place] = mean, apart
    growth = np.log(_p("growth")) + _s("growth") * states[:, GROWTH]
    return Cohorts(
        white=white,
        spread=uneven[:, None] * np.sqrt(variance),
        steps=steps,
        steps_sd=np.sqrt(variances),
        loss=_p("brown_to_lost") * np.exp(_s("brown_to_lost") * states[:, LOSS]),
        # Room on the roots runs out: growth slows after the second generation.
        size=np.exp(growth[:, None] * np.array([0.0, 1.0, 1.6, 2.0, 2.2, 2.3])[:generations]),
    )


def _lag(states: Floats, resistant: bool, gate: Gate | None = None) -> Floats:
    """Heat that must count towards infection before it is due, for each state."""
    # Doubt about the gate and about a resistant variety widens the same number rather than adding others.
    doubts = [_s("planting_to_penetration"), _s("resistant_delay") if resistant else 0.0, gate.sd if gate else 0.0]
    middle = _p("planting_to_penetration") + (_p("resistant_delay") if resistant else 0.0)
    late = gate.later if gate else 0.0
    return np.maximum(middle + late + float(np.hypot.reduce(doubts)) * states[:, LAG], 40.0)


MOST_DRAWN_OUT = 2.5
"""Cool soil spreads infection over at most so many times the heat it takes in warm soil: beyond, nothing is known."""


def _infected(states: Floats, season: Season) -> tuple[Floats, Floats]:
    """Heat since planting at which infection is due in each state, and by how much cool soil draws it out."""
    states = np.minimum(np.maximum(states, -FARTHEST), FARTHEST)
    lag = _lag(states, season.resistant, season.gate)
    if season.gate is None:
        return lag, np.ones(len(states))
    sown: Floats | float = season.planted - 1
    if season.planted_sd > 0:
        sown = sown + season.planted_sd * states[:, PLANTING]
    place = np.arange(len(season.heat))
    before, counted = np.interp(sown, place, season.heat), np.interp(sown, place, season.gate.heat)
    ends = np.stack([lag - 40.0, lag, lag + 40.0]) + counted
    low, due, high = np.interp(ends, season.gate.heat, season.heat)
    return due - before + season.gate.bias * states[:, BIAS], np.clip((high - low) / 80.0, 1.0, MOST_DRAWN_OUT)


def in_season(states: Floats, season: Season, generations: int = GENERATIONS, until: float = np.inf) -> Cohorts:
    """Generations of each state in one field's season: with its hatch gate, and without the eggs that lie dormant.

    :param until: last day that matters; well before any egg sleeps, sleep is left out.
    """
    who = cohorts(states, season.resistant, generations, infected=_infected(states, season))
    if season.dormant_from is None or generations < 2 or until < season.dormant_from - 3 * _s("dormant_from_south"):
        return who
    return replace(who, size=who.size * np.cumprod(awake(states, who, season), axis=1))


def awake(states: Floats, who: Cohorts, season: Season) -> Floats:
    """Share of each generation's eggs that hatch this season, shape (states, generations); 1 for the first.

    Eggs due to hatch after the season's ``dormant_from`` mostly wait [Yen1995, HillSchmitt1989]: about that day the
    share falls from 1 to ``dormant_awake`` as a normal distribution function, whose spread is that of the day itself
    and of the females' own days.
    """
    if season.dormant_from is None:
        return np.ones_like(who.white)
    sown = max(int(season.planted) - 1, 0)
    since = season.heat[sown:] - season.heat[sown]
    hatch = who.white - _p("penetration_to_white") * np.exp(_s("pace") * states[:, [PACE]])
    day = sown + np.interp(hatch, since, np.arange(len(since)))
    days_apart = who.spread / max(float(since[-1]) / len(since), 5.0)
    early = ndtr((season.dormant_from - day) / np.hypot(_s("dormant_from_south"), days_apart))
    share = _p("dormant_awake") + (1 - _p("dormant_awake")) * early
    share[:, 0] = 1.0  # these eggs have slept already
    return np.asarray(share)


def dormant_day_of_year(latitude: float) -> float | None:
    """Day of the (northern) year from which eggs mostly wait, between two published ends; ``None`` in the tropics.

    Below 30 degrees no winter rest is known to us [no source].
    """
    if abs(latitude) < 30.0:
        return None
    return float(np.interp(abs(latitude), (38.0, 43.0), (_p("dormant_from_south"), _p("dormant_from_north"))))


def on_roots(who: Cohorts, heat: Floats) -> Floats:
    """Expected white, yellow, tan and brown females on the roots, in units of the first generation's females.

    A female is yellow when she has passed white-to-yellow but not yellow-to-tan, and so on: numbers are differences of
    distribution functions of the passing heats, normal for the colour steps, normal plus exponential for the loss.

    :param heat: DD5 since planting, shape (states, looks).
    :returns: shape (states, looks, generations, 4), never negative.
    """
    return np.moveaxis(_on_roots(who, heat), 0, -1)


def by_colour(who: Cohorts, heat: Floats) -> Floats:
    """The same over all generations, shape (states, looks, 4)."""
    counts = _on_roots(who, heat)
    total = counts[..., 0]
    for generation in range(1, counts.shape[-1]):
        total = total + counts[..., generation]
    return np.moveaxis(total, 0, -1)


def _on_roots(who: Cohorts, heat: Floats) -> Floats:
    """As `on_roots`, colours first: shape (4, states, looks, generations)."""
    late = heat[:, :, None] - who.white[:, None, :]
    sd = np.sqrt(who.spread**2 + who.steps_sd.T[:, :, None] ** 2)[:, :, None, :]
    beyond = late - who.steps.T[:, :, None, None]
    passed = np.empty((5, *late.shape))
    np.divide(late, who.spread[:, None, :], out=passed[0])
    np.divide(beyond, sd, out=passed[1:4])
    decay, passed[4] = _leaving(beyond[2], sd[2], 1.0 / who.loss[:, None, None])
    ndtr(passed, out=passed)
    np.minimum(decay * passed[4], 1.0, out=decay)
    np.maximum(passed[3] - decay, 0.0, out=passed[4])
    counts = passed[:4] - passed[1:]
    np.maximum(counts, 0.0, out=counts)
    counts *= who.size[:, None, :]
    return counts


def _leaving(late: Floats, sd: Floats, rate: Floats) -> tuple[Floats, Floats]:
    """Share of a generation that are brown and still on the root: turned brown at a normal heat, lost exponentially.

    The convolution of the two is exp(rate (rate sd²/2 - late)) times the normal distribution function of
    late/sd - rate sd, never above 1: given as first factor and argument of the second.
    """
    late = np.maximum(late, -8 * sd)  # further out there is nothing, and the two factors leave the numbers' range
    pull = rate * sd
    return np.exp(np.minimum(0.5 * pull**2 - rate * late, 700.0)), late / sd - pull


def heat_since_planting(states: Floats, season: Season, days: NDArray[np.int_]) -> Floats:
    """DD5 since planting by the end of given days, for each state, shape (states, days). Never falls with the day."""
    count = season.unmeasured[days]
    departure: Floats | float = 0.0
    if count.any():
        departure = states[:, PATH:OWN] @ (_knot_root(season.anchored).T @ _between_knots(count))
    start: Floats | float = season.heat[round(season.planted) - 1] if season.planted >= 1 else 0.0
    if season.planted_sd > 0:
        sown = season.planted + season.planted_sd * states[:, PLANTING]
        start = np.interp(sown - 1, np.arange(len(season.heat)), season.heat)[:, None]
    total = season.heat[days] - start + states[:, [BIAS]] * season.bias_heat[days] + departure
    return np.asarray(np.maximum(total, 0.0))


def _between_knots(count: Floats) -> Floats:
    """Weights that join the knots by straight lines, nothing at 0 days, the last knot's value beyond; (knots, days)."""
    known = np.concatenate([[0.0], KNOTS])
    right = np.clip(np.searchsorted(known, count, side="left"), 1, len(KNOTS))
    part = np.clip((count - known[right - 1]) / (known[right] - known[right - 1]), 0.0, 1.0)
    weights = np.zeros((len(known), len(count)))
    place = np.arange(len(count))
    weights[right - 1, place] = 1 - part
    weights[right, place] += part
    return weights[1:]


@lru_cache(maxsize=2)
def _knot_root(anchored: bool) -> Floats:
    """Square root of the covariance of the heat's departure at the knots [DD5].

    The daily departure of soil temperature from its normal fades with a fixed time constant, on top of a season that
    as a whole is warm or cool; its sum over days has the exact covariance. Anchored, it starts from a known day.
    """
    sd, fade = _s("soil_anomaly_sd"), _p("soil_anomaly_days")
    day = np.arange(1, int(KNOTS[-1]) + 1, dtype=float)
    gap = np.abs(day[:, None] - day[None, :])
    daily = sd**2 * np.exp(-gap / fade)
    if anchored:
        daily = daily - sd**2 * np.exp(-(day[:, None] + day[None, :]) / fade)
    summed = np.cumsum(np.cumsum(daily, axis=0), axis=1)
    at = KNOTS.astype(int) - 1
    lasting = _s("season_anomaly_sd") ** 2 * KNOTS[:, None] * KNOTS[None, :]
    return np.asarray(np.linalg.cholesky(summed[np.ix_(at, at)] + lasting))


def even_states(count: int) -> Floats:
    """The first of a fixed, evenly scattered set of standard normal states, shape (count, DIMENSIONS), read-only.

    :raises ValueError: for more than there are.
    """
    if count > EVEN_STATES:
        raise ValueError(f"there are {EVEN_STATES} even states, not {count}")
    return _all_even_states()[:count]


@lru_cache(maxsize=1)
def _all_even_states() -> Floats:
    cube = qmc.Sobol(DIMENSIONS, scramble=True, rng=1983).random(EVEN_STATES)
    states: Floats = ndtri(np.clip(cube, 1e-6, 1 - 1e-6))
    states.setflags(write=False)
    return states


@dataclass(frozen=True, slots=True)
class Posterior:
    """Weighted states after all looks."""

    states: Floats
    weights: Floats
    """Add up to 1."""
    doubt: tuple[float, ...]
    """For each look: chance that its colours say nothing of the clock (a misread, another pest, a wrong field)."""
    touched: NDArray[np.int_]
    """Places of the state that the looks could say anything about."""

    @property
    def effective(self) -> float:
        """Number of equally weighted states it is worth."""
        return float(1 / np.sum(self.weights**2))


@dataclass(frozen=True, slots=True)
class _Sheet:
    """The looks laid out as arrays, so that many states are weighed at once."""

    days: NDArray[np.int_]
    own: NDArray[np.int_]
    """Place in the state of each look's own number: how early or late its plants are against their field."""
    own_sd: Floats
    """What one of it is worth [DD5]; 0 for looks that saw none."""
    found: Floats
    """Chance that a female of each colour is brought up and seen, shape (looks, 4)."""
    counts: Floats
    """Colour counts, one row a spot, shape (rows, 4)."""
    row_look: NDArray[np.int_]
    """Which look each row belongs to."""
    cell_look: NDArray[np.int_]
    """Look of each count that is not 0 (the others say nothing of their own), and so on."""
    cell_colour: NDArray[np.int_]
    cell_count: Floats
    cell_row: Floats
    """1 where a cell belongs to a row, shape (cells, rows)."""
    row_constant: Floats
    """What of a row's log-probability no state changes."""
    even_log: Floats
    """Log-probability of each look's colours when all mixes are equally likely, shape (looks,)."""
    mostly: tuple[tuple[int, NDArray[np.bool_]], ...]
    coloured: NDArray[np.int_]
    """Looks with anything said of colours."""
    totals: NDArray[np.int_]
    """Looks with a total, counted or none, whose ``total`` and ``plants`` follow."""
    total: Floats
    plants: Floats
    total_constant: Floats
    vague: NDArray[np.int_]
    """Looks where females were seen but not counted."""
    nodes: NDArray[np.int_]
    node: Floats


def _sheet(looks: Sequence[Look], with_none: bool) -> _Sheet:
    rows = [(i, row) for i, look in enumerate(looks) for row in look.colours if sum(row) > 0]
    counts = np.array([row for _, row in rows], dtype=float).reshape(-1, 4)
    row_look = np.array([i for i, _ in rows], dtype=int)
    cells = np.nonzero(counts)
    whole = counts.sum(axis=1)
    constant = gammaln(whole + 1) - gammaln(counts + 1).sum(axis=1)
    concentration = _p("colour_concentration")
    even = np.zeros(len(looks))
    for (i, _), total in zip(rows, whole, strict=True):
        even[i] += gammaln(4.0) + gammaln(total + 1) - gammaln(total + 4)
    mostly = tuple(
        (i, np.array(look.mostly))
        for i, look in enumerate(looks)
        if look.mostly is not None and not any(sum(row) for row in look.colours)
    )
    for i, named in mostly:
        even[i] += _mostly_log(np.array([named.mean()]))[0]
    counted = [
        i for i, look in enumerate(looks) if (look.seen or with_none) and (look.at_least or look.total is not None)
    ]
    plants = np.array([float(looks[i].plants or 5) for i in counted])
    least = 40 * plants * np.array([looks[i].at_least for i in counted], dtype=bool)
    total = np.array([float(looks[i].total or 0) for i in counted])
    total = np.where(total > 0, total, least)
    shape = _p("total_shape")
    nodes = [i for i, look in enumerate(looks) if look.node is not None]
    # Plants differ, and the females sit on few of them: a look's plants are worth about half their number.
    dug = np.array([max(_p("clump_share") * (look.plants or 5), 1.0) for look in looks])
    return _Sheet(
        days=np.array([look.day for look in looks]),
        own=OWN + np.maximum(np.arange(len(looks)) - max(len(looks) - LOOKS, 0), 0),
        own_sd=_p("plant_lag_sd") / np.sqrt(dug) * np.array([bool(look.seen) for look in looks]),
        found=np.array([np.multiply(FOUND_BY_COLOUR[look.method], look.recovery) for look in looks]),
        counts=counts,
        row_look=row_look,
        cell_look=row_look[cells[0]],
        cell_colour=cells[1],
        cell_count=counts[cells],
        cell_row=(cells[0][:, None] == np.arange(len(rows))).astype(float),
        row_constant=constant + gammaln(concentration) - gammaln(concentration + whole),
        even_log=even,
        mostly=mostly,
        coloured=np.array(sorted({i for i, _ in rows} | {i for i, _ in mostly}), dtype=int),
        totals=np.array(counted, dtype=int),
        total=total,
        plants=plants,
        total_constant=gammaln(shape + total) - gammaln(shape) - gammaln(total + 1) + shape * np.log(shape),
        vague=np.array([i for i, look in enumerate(looks) if look.seen and i not in counted], dtype=int),
        nodes=np.array(nodes, dtype=int),
        node=np.array([float(looks[i].node or 0) for i in nodes]),
    )


def log_likelihood(states: Floats, season: Season, sheet: _Sheet) -> tuple[Floats, Floats]:
    """Log-likelihood of all looks for each state, and each coloured look's log-chance of being a blunder.

    Colours: Dirichlet-multinomial about the expected shares, blurred by misreading and by uneven finding. Totals:
    negative binomial about density x expected numbers x found share. None seen is a total of 0.

    :returns: shapes (states,) and (states, coloured looks).
    """
    heat = np.maximum(heat_since_planting(states, season, sheet.days) + sheet.own_sd * states[:, sheet.own], 0.0)
    who = in_season(states, season, _reached(heat), float(sheet.days.max()))
    likely = by_colour(who, heat) * sheet.found
    shares = _misread(likely)
    result = np.zeros(len(states))
    blunder = np.zeros((len(states), len(sheet.coloured)))
    if len(sheet.coloured):
        colour = np.zeros((len(states), len(sheet.days)))
        if len(sheet.counts):
            alpha = _p("colour_concentration") * shares[:, sheet.cell_look, sheet.cell_colour]
            rows = (gammaln(alpha + sheet.cell_count) - gammaln(alpha)) @ sheet.cell_row + sheet.row_constant
            for row, i in enumerate(sheet.row_look):
                colour[:, i] += rows[:, row]
        for i, named in sheet.mostly:
            colour[:, i] += _mostly_log(shares[:, i, named].sum(axis=1))
        honest = _HONEST_LOG + colour[:, sheet.coloured]
        wild = _BLUNDER_LOG + sheet.even_log[sheet.coloured]
        either = np.logaddexp(honest, wild)
        blunder = wild - either
        result += either.sum(axis=1)
    if len(sheet.totals) or len(sheet.vague):
        left = season.roots_end + season.roots_end_sd * states[:, [ROOTS]] - sheet.days
        level = likely.sum(axis=2) * ndtr(left / 3.0) / _height(who)[:, None]
    if len(sheet.totals):
        density = np.log(season.females[0]) + season.females[1] * states[:, [DENSITY]]
        mean = sheet.plants * np.maximum(np.exp(density) * level[:, sheet.totals], 1e-3)
        shape = _p("total_shape")
        together = (shape + sheet.total) * np.log(shape + mean)
        result += (sheet.total_constant + sheet.total * np.log(mean) - together).sum(axis=1)
    if len(sheet.vague):
        result += np.log(level[:, sheet.vague] + 0.003).sum(axis=1)
    if len(sheet.nodes) and season.planted_sd > 0:
        at = _p("planting_to_emergence") + _p("node_heat") * sheet.node
        result -= 0.5 * (((heat[:, sheet.nodes] - at) / _s("node_heat")) ** 2).sum(axis=1)
    return result, blunder


def _mostly_log(share: Floats) -> Floats:
    """Log-weight of colours said to be most: worth about six females of which most had those colours."""
    return np.asarray(5 * np.log(share) + 1.2 * np.log1p(-np.minimum(share, 0.995)))


def _height(who: Cohorts) -> Floats:
    """Most first-generation females on the roots at one time, about: reached when half have turned yellow."""
    late, wide = who.steps[:, 1], who.spread[:, 0]
    sd = np.sqrt(wide**2 + who.steps_sd[:, 2] ** 2)
    decay, argument = _leaving(late - who.steps[:, 2], sd, 1.0 / who.loss)
    out, brown, kept = ndtr(np.stack([late / wide, (late - who.steps[:, 2]) / sd, argument]))
    return np.asarray(out - np.maximum(brown - np.minimum(decay * kept, 1.0), 0.0))


def _misread(numbers: Floats) -> Floats:
    """Shares of the colours as called, a few females taken for the colour next to theirs; colours on the last axis."""
    total = numbers.sum(axis=-1, keepdims=True)
    # Where nothing is on the roots, whatever was counted is equally surprising.
    shares = np.where(total > 1e-9, numbers / np.maximum(total, 1e-9), 0.25)
    called = np.maximum(shares @ _blur(), 2e-3)
    return np.asarray(called / called.sum(axis=-1, keepdims=True))


@lru_cache(maxsize=1)
def _blur() -> Floats:
    """What each colour (row) is called (column): mostly itself, else the colour next to it, nothing beyond the ends."""
    aside = _p("misread_share") / 2
    return np.asarray(np.eye(4) * (1 - 2 * aside) + aside * (np.eye(4, k=1) + np.eye(4, k=-1)))


def _reached(heat: Floats) -> int:
    """Generations that could be on the roots at the highest heat asked about."""
    return int(np.clip(1 + np.ceil((float(heat.max()) - 250) / 380), 1, GENERATIONS))


def posterior(season: Season, looks: Sequence[Look], with_none: bool = True, count: int = 320) -> Posterior:
    """Weigh states by all looks of the season.

    A few states of the prior show where the weight lies; from there some Newton steps with numerical derivatives find
    the likeliest state and the curvature about it, which shape the clouds that states are drawn from (importance
    sampling). Where too few draws carry the weight, a further cloud is laid: by turns about the weighted mean, with the
    draws' own covariance, and about the heaviest draw, so that a second likely history of a field is found too.
    """
    used = [look for look in looks if look.seen or with_none]
    if not used:
        none = np.array([], dtype=int)
        return Posterior(even_states(count), np.full(count, 1 / count), tuple(0.0 for _ in looks), none)
    sheet = _sheet(used, with_none)
    touched = _touched(season, used, sheet)
    states = even_states(_SCOUTS)
    log, blunder = log_likelihood(states, season, sheet)
    if _effective(log) > 0.3 * _SCOUTS:
        states = even_states(count)
        log, blunder = log_likelihood(states, season, sheet)
    else:
        likely = _normalised(log * _temper(log, 20.0)) @ states[:, touched]
        middle, covariance = _newton(likely, season, sheet, touched)
        bent = covariance
        clouds: list[_Cloud] = []
        drawn: list[tuple[Floats, Floats, Floats]] = []
        for turn in range(_CLOUDS):
            clouds.append(_Cloud.about(middle, covariance))
            fresh = clouds[-1].draw(_all_even_states()[turn * count : (turn + 1) * count], touched)
            drawn.append((fresh, *log_likelihood(fresh, season, sheet)))
            # All draws are pooled and weighed against all clouds together.
            states, log, blunder = (np.concatenate(part) for part in zip(*drawn, strict=True))
            free = states[:, touched]
            log = log + _prior_over_draws(free, clouds)
            worth = _effective(log)
            if worth > (_ENOUGH_AT_ONCE if turn == 0 else _ENOUGH):
                break
            if worth < _FEW and turn % 2 == 0:
                middle, covariance = _newton(free[np.argmax(log)], season, sheet, touched)
                bent = covariance
            else:
                weights = _normalised(log * _temper(log, 60.0))
                middle = weights @ free
                spread = (free - middle).T @ ((free - middle) * weights[:, None])
                covariance = 0.7 * spread + 0.3 * bent
    weights = _normalised(log)
    doubt = dict(zip(sheet.coloured, np.exp(blunder).T @ weights, strict=True))
    by_look = {id(look): float(doubt.get(i, 0.0)) for i, look in enumerate(used)}
    return Posterior(states, weights, tuple(by_look.get(id(look), 0.0) for look in looks), touched)


_SCOUTS = 128
"""States of the prior tried first."""
_CLOUDS = 6
"""Clouds of draws at most; nearly always one or two do."""
_ENOUGH_AT_ONCE, _ENOUGH, _FEW = 80.0, 40.0, 25.0
"""Draws, in equally weighted ones, that suffice after the first cloud and after later ones; with few, seek anew."""


def _effective(log: Floats) -> float:
    """How many equally weighted states these log-weights are worth."""
    return float(1 / np.sum(_normalised(log) ** 2))


def _newton(middle: Floats, season: Season, sheet: _Sheet, touched: NDArray[np.int_]) -> tuple[Floats, Floats]:
    """Likeliest state near ``middle`` and the covariance (inverse curvature) there, in the touched places."""
    size, step = len(touched), 0.25
    first, second = np.triu_indices(size, 1)
    eye = np.eye(size) * step
    offsets = np.concatenate([np.zeros((1, size)), eye, -eye, eye[first] + eye[second]])
    covariance = np.eye(size)
    best, top = middle, -np.inf
    for _ in range(5):
        at = np.zeros((len(offsets), DIMENSIONS))
        at[:, touched] = middle + offsets
        value = log_likelihood(at, season, sheet)[0] - 0.5 * (at**2).sum(axis=1)
        here, up, down, both = value[0], value[1 : size + 1], value[size + 1 : 2 * size + 1], value[2 * size + 1 :]
        gradient = (up - down) / (2 * step)
        curvature = np.zeros((size, size))
        curvature[first, second] = (both - up[first] - up[second] + here) / step**2
        curvature[second, first] = curvature[first, second]
        curvature[np.arange(size), np.arange(size)] = (up + down - 2 * here) / step**2
        values, vectors = np.linalg.eigh(-curvature)
        values = np.clip(values, 1.0, 400.0)  # never wider than the prior
        move = vectors @ ((vectors.T @ gradient) / values)
        if here > top:
            best, top, covariance = middle, here, (vectors / values) @ vectors.T
        length = float(np.sqrt((move**2).sum()))
        if length < 0.35:
            break
        middle = middle + move * min(1.0, 1.5 / length)
    return best, covariance


_SHARES = (0.6, 0.3, 0.1)
"""Shares of draws from the narrow and the wide normal distribution of a cloud, and from the prior."""
_SCALES = (1.1, 1.8)
"""How much wider than the covariance says the two are, in the directions that looks speak of."""


@dataclass(frozen=True, slots=True)
class _Cloud:
    """What states are drawn from: two normal distributions about one middle, and the prior.

    In no direction wider than the prior: where looks say nothing, draws are the prior's own and cost no weight.
    """

    middle: Floats
    vectors: Floats
    """Principal directions in the touched places, one a column."""
    widths: tuple[Floats, Floats]
    """Standard deviation along each direction, narrow and wide."""

    @classmethod
    def about(cls, middle: Floats, covariance: Floats) -> _Cloud:
        variances, vectors = np.linalg.eigh(covariance)
        sd = np.sqrt(np.maximum(variances, 1e-4))
        return cls(middle, vectors, (np.minimum(_SCALES[0] * sd, 1.0), np.minimum(_SCALES[1] * sd, 1.0)))

    def draw(self, even: Floats, touched: NDArray[np.int_]) -> Floats:
        """As many states as ``even`` has, all untouched places as they are."""
        states = even.copy()
        base = even[:, touched]
        tenth = np.arange(len(even)) % 10
        width = np.where((tenth < 10 * _SHARES[0])[:, None], *self.widths)
        # Through the symmetric root: which way round the principal directions come out then makes no difference.
        near = self.middle + ((base @ self.vectors) * width) @ self.vectors.T
        states[:, touched] = np.where((tenth < 9)[:, None], near, base)
        return states


def _prior_over_draws(free: Floats, clouds: Sequence[_Cloud]) -> Floats:
    """Log of prior over density of all the draws together: what a state's likelihood is multiplied by."""
    prior = -0.5 * (free**2).sum(axis=1)
    parts = [prior + np.log(_SHARES[2] * len(clouds))]
    for cloud in clouds:
        along = (free - cloud.middle) @ cloud.vectors
        for share, width in zip(_SHARES, cloud.widths, strict=False):
            parts.append(np.log(share) - np.log(width).sum() - 0.5 * ((along / width) ** 2).sum(axis=1))
    return np.asarray(prior - np.logaddexp.reduce(np.stack(parts), axis=0))


def _touched(season: Season, looks: Sequence[Look], sheet: _Sheet) -> NDArray[np.int_]:
    """Places of the state that the looks can say anything about."""
    places = [LAG, PACE, COLOUR, YELLOW, LOSS, SPREAD, FIRST, LATER, GROWTH, DENSITY, BIAS]
    if max(look.day for look in looks) > season.roots_end - 2 * season.roots_end_sd:
        places.append(ROOTS)
    places.extend({int(place) for place, look in zip(sheet.own, looks, strict=True) if look.seen})
    if season.planted_sd > 0:
        places.append(PLANTING)
    unmeasured = max(float(season.unmeasured[look.day]) for look in looks)
    if unmeasured > 0:
        reached = int(np.searchsorted(KNOTS, unmeasured, side="left")) + 1
        places.extend(PATH + k for k in range(min(reached, len(KNOTS))))
    return np.array(sorted(places))


def _normalised(log: Floats) -> Floats:
    weights = np.exp(log - log.max())
    return np.asarray(weights / weights.sum())


def _temper(log: Floats, wanted: float) -> float:
    """Largest power of the weights (at most 1) that keeps at least ``wanted`` effective states."""
    low, high = 0.0, 1.0
    for _ in range(14):
        power = (low + high) / 2 if high < 1 or low > 0 else 1.0
        weights = _normalised(power * log)
        if 1 / np.sum(weights**2) >= wanted:
            if power == 1.0:
                return 1.0
            low = power
        else:
            high = power
    return max(low, 1e-4)


# --- from states to days ----------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Forecast:
    """Equally likely states and the days on which things happen in each; shape (states, generations)."""

    states: Floats
    who: Cohorts
    heat: Floats
    """DD5 since planting by the end of each day, shape (states, days)."""
    first_white: Floats
    peak: Floats
    turning_tan: Floats
    roots_end: Floats
    """Shape (states,)."""
    flushes: NDArray[np.int_]
    """Generations most of whose eggs hatched and half of whose females come out white before the roots end, shape
    (states,)."""
    marks: Marks


@dataclass(frozen=True, slots=True)
class Marks:
    """Days by which an event has happened in 10, 50, 80 and 90 % of the states, shape (4, generations)."""

    first_white: Floats
    peak: Floats
    turning_tan: Floats
    roots_end: Floats
    """Shape (4,)."""


TENTH, HALF, EIGHT_TENTHS, NINE_TENTHS = range(4)


def _marks(first_white: Floats, peak: Floats, turning_tan: Floats, roots_end: Floats) -> Marks:
    ordered = np.sort(np.concatenate([first_white, peak, turning_tan, roots_end[:, None]], axis=1), axis=0)
    at = np.array([0.1, 0.5, 0.8, 0.9]) * (len(ordered) - 1)
    below, part = at.astype(int), (at % 1)[:, None]
    found = ordered[below] * (1 - part) + ordered[below + 1] * part
    size = first_white.shape[1]
    return Marks(found[:, :size], found[:, size : 2 * size], found[:, 2 * size : -1], found[:, -1])


def whole_days(low: float, middle: float, high: float) -> tuple[int, int, int]:
    """Whole days of a window from its 10, 50 and 90 % moments, in order.

    A moment lies on the day that ends next. The first and last day are set so that the chance of an event before the
    first and the chance of one after the last are as near to 10 % as whole days allow; rounding both outwards would
    make a narrow window hold nearly nine times in ten.
    """
    likely = int(np.ceil(middle))
    return min(int(np.floor(low + 0.5)) + 1, likely), likely, max(int(np.floor(high + 0.5)), likely)


def forecast(season: Season, after: Posterior, count: int = 256) -> Forecast:
    """Draw equally likely states and read the days of their events off their heat.

    First whites: 5 % of the generation's females are out. Peak: most of its yellow females are on the roots. Turning
    tan: tan and brown outnumber yellow. First whites and turning tan fall on the day during which the heat is reached,
    the peak on the day whose end is nearest to it; beyond the arrays the last day's heat rate goes on.
    """
    picks = (np.arange(count) + 0.5) / count
    index = np.minimum(np.searchsorted(np.cumsum(after.weights), picks), len(after.weights) - 1)
    states = after.states[index].copy()
    # What no look could say anything about is as before the season: drawn afresh, so that copies of a state part.
    untouched = np.ones(DIMENSIONS, dtype=bool)
    untouched[after.touched] = False
    states[:, untouched] = even_states(count)[:, untouched]
    who = cohorts(states, season.resistant, infected=_infected(states, season))
    hatched = np.cumprod(awake(states, who, season), axis=1)
    who = replace(who, size=who.size * hatched)
    sown = max(0, int(season.planted - 3 * season.planted_sd) - 1)
    heat = np.zeros((count, len(season.heat)))
    late = heat_since_planting(states, season, np.arange(sown, len(season.heat)))
    if season.futures is not None:
        # Each year to as many states as any other, in an order that has nothing to do with how states were drawn.
        order = np.argsort(np.argsort(even_states(count)[:, PATH]))
        late = late + season.futures[order * len(season.futures) // count][:, sown:]
    np.maximum.accumulate(late, axis=1, out=heat[:, sown:])
    peak = who.white + _peak_offset(who)
    tan = who.white + _tan_offset(who)
    first = who.white + ndtri(FIRST_SHARE) * who.spread
    days = sown + _days_at(heat[:, sown:], np.concatenate([first, peak, tan, who.white], axis=1))
    whites, peaks, tans, halves = np.split(days, 4, axis=1)
    peaks = peaks - 0.5  # so that rounding up, as for the others, finds the nearest end of a day
    roots_end = season.roots_end + season.roots_end_sd * states[:, ROOTS]
    marks = _marks(whites, peaks, tans, roots_end)
    flushes = ((halves <= roots_end[:, None]) & (hatched >= 0.5)).sum(axis=1)
    return Forecast(states, who, heat, whites, peaks, tans, roots_end, flushes, marks)


def _peak_offset(who: Cohorts) -> Floats:
    """Heat after mean white at which most of a generation are yellow: where as many turn yellow as turn tan.

    Two normal densities are equal: a quadratic in heat.
    """
    m1, m2 = who.steps[:, [0]], who.steps[:, [1]]
    v1, v2 = who.spread**2 + who.steps_sd[:, [0]] ** 2, who.spread**2 + who.steps_sd[:, [1]] ** 2
    a, b = 1 / v1 - 1 / v2, m1 / v1 - m2 / v2
    c = m1**2 / v1 - m2**2 / v2 - np.log(v2 / v1)
    # The smaller root of a x2 - 2 b x + c lies between the two means' densities; written so that a -> 0 is harmless.
    return np.asarray(c / (b - np.sqrt(np.maximum(b**2 - a * c, 0.0))))


def _tan_offset(who: Cohorts) -> Floats:
    """Heat after mean white from which tan and brown outnumber yellow, by Newton's method.

    Never before 5 % of the generation have turned tan: where yellow is brief and cysts stay long, tan and brown lead
    from the start. Where the root is found the search stops; most take three steps.
    """
    shape = who.white.shape
    mean = np.repeat(who.steps.T[:, :, None], shape[1], axis=2).reshape(3, -1)
    sd = np.sqrt(who.spread**2 + who.steps_sd.T[:, :, None] ** 2).reshape(3, -1)
    rate = np.repeat(1.0 / who.loss, shape[1])
    found = mean[1] - 0.6 * sd[1]  # about where it lies in the middle of the states
    floor = mean[1] + ndtri(FIRST_SHARE) * sd[1]
    left = np.arange(found.size)
    for _ in range(8):
        at = found[left]
        late = at - mean
        z = late / sd
        decay, argument = _leaving(late[2], sd[2], rate)
        yellow, tan, brown, kept = ndtr(np.concatenate([z, argument[None]]))
        kept = np.minimum(decay * kept, 1.0)
        # More than nothing: tan and brown on the roots (tan - lost) less yellow (yellow - tan).
        more = 2 * tan - yellow - (brown - kept)
        bell = np.exp(-0.5 * z[:2] ** 2) / np.sqrt(2 * np.pi) / sd[:2]
        slope = 2 * bell[1] - bell[0] - rate * kept
        step = np.clip(more / np.where(np.abs(slope) > 1e-5, slope, 1e-5), -100.0, 100.0)
        found[left] = np.maximum(at - step, floor[left])
        on = np.abs(found[left] - at) >= _CLOSE
        if not on.any():
            break
        left, mean, sd, rate = left[on], mean[:, on], sd[:, on], rate[on]
    return np.asarray(found.reshape(shape))


_CLOSE = 0.02
"""Heat [DD5] within which a root is found: some minutes of a day."""


def _days_at(heat: Floats, wanted: Floats) -> Floats:
    """First day by whose end each heat is reached, as a real number ending on that day; shape of ``wanted``.

    :param heat: never falling along the days, shape (states, days).
    """
    rows, days = heat.shape
    # One search through all rows laid end to end, each lifted above the one before.
    lift = np.arange(rows)[:, None] * (float(heat.max()) + 1e5)
    flat = np.searchsorted((heat + lift).ravel(), (np.clip(wanted, -1e4, 5e4) + lift).ravel()).reshape(wanted.shape)
    index = flat - np.arange(rows)[:, None] * days
    last = days - 1
    right = np.clip(index, 1, last)
    row = np.arange(rows)[:, None]
    before, after = heat[row, right - 1], heat[row, right]
    part = np.clip((wanted - before) / np.maximum(after - before, 1e-6), 0.0, 1.0)
    slow = np.maximum((heat[:, -1] - heat[:, -8]) / 7, 4.0)[:, None]
    beyond = last + (wanted - heat[:, [-1]]) / slow
    return np.asarray(np.where(index > last, beyond, right - 1 + part))


# --- what the states say ----------------------------------------------------------------------------

BEFORE_FIRST, EARLY, PEAK, LATE, BETWEEN, DECLINED = range(6)
BARE_SHARE = 0.1
"""Fewer females on the roots than this share of a generation's height count as between generations."""


@dataclass(frozen=True, slots=True)
class Present:
    """What the roots show on a day."""

    stage: int
    """BEFORE_FIRST ... DECLINED, the likeliest."""
    stage_probability: float
    generation: int | None
    """The generation most of the females on the roots belong to, 3 for third or later; none before the first."""
    generation_probability: float | None
    reached: int
    """The latest generation whose first whites are likelier out than not; 0 before the first."""


SEEN_WEIGHT = 15.0
"""Females seen by colour today count against the expected mix as if that rested on so many females."""


def present(ahead: Forecast, day: int, seen: Floats | None = None) -> Present:
    """Stage and generation on a day, by vote of the states.

    :param seen: females counted by colour within a day or two of it, corrected for uneven finding, if any.
    """
    numbers = _out(ahead, [day])[:, 0]
    by_colour = numbers.sum(axis=1)
    shown = by_colour
    if seen is not None:
        shown = SEEN_WEIGHT * by_colour / np.maximum(by_colour.sum(axis=1, keepdims=True), 1e-9) + seen
    by_generation = numbers.sum(axis=2)
    most = np.argmax(np.stack([shown[:, 0], shown[:, 1], shown[:, 2] + shown[:, 3]]), axis=0)
    stage = np.array([EARLY, PEAK, LATE])[most]
    leading = np.argmax(by_generation, axis=1)
    rows = np.arange(len(leading))
    height = _height(ahead.who) * ahead.who.size[rows, leading]
    if seen is None or seen.sum() < 1:
        bare = (by_colour.sum(axis=1) < BARE_SHARE * height) & (ahead.heat[:, day] > ahead.who.white[rows, leading])
        stage = np.where(bare, BETWEEN, stage)
        stage = np.where(ahead.first_white[:, 0] > day, BEFORE_FIRST, stage)
    stage = np.where(ahead.roots_end < day, DECLINED, stage)
    votes = np.bincount(stage, minlength=6) / len(stage)
    likely = int(np.argmax(votes))
    reached = int((ahead.marks.first_white[HALF] <= day).sum())
    if likely in (BEFORE_FIRST, DECLINED):
        return Present(likely, float(votes[likely]), None, None, reached)
    named = np.minimum(leading, 2)[stage != BEFORE_FIRST]
    shares = np.bincount(named, minlength=3) / max(len(named), 1)
    number = int(np.argmax(shares))
    return Present(likely, float(votes[likely]), number + 1, float(shares[number]), reached)


def _out(ahead: Forecast, days: Sequence[int] | NDArray[np.int_]) -> Floats:
    """Females on the roots of each state on some days, of the generations that can be reached by then."""
    heat = ahead.heat[:, days]
    return on_roots(_some(ahead.who, slice(None), _reached(heat)), heat)


def could_be_seen(ahead: Forecast, day: int) -> float:
    """Chance that a day lies between the season's first whites and the end of the roots."""
    return float(np.mean((ahead.first_white[:, 0] <= day) & (ahead.roots_end >= day)))


def showing(ahead: Forecast, days: NDArray[np.int_]) -> Floats:
    """Females on the roots on some days in each state, over the height of the first generation.

    :returns: shape (days, states), 0 before the season's first whites and after the end of the roots.
    """
    numbers = _out(ahead, days).sum(axis=(2, 3)) / _height(ahead.who)[:, None]
    out = (ahead.first_white[:, :1] <= days) & (ahead.roots_end[:, None] >= days)
    return np.asarray((numbers * out).T)


def next_peak(ahead: Forecast, day: int) -> int | None:
    """Place of the first generation whose peak likely lies on or after a day."""
    later = np.flatnonzero(ahead.marks.peak[HALF] >= day)
    return int(later[0]) if len(later) else None


def best_days(ahead: Forecast, soonest: int, share: float) -> tuple[float, float, float]:
    """The next day on which white and yellow females should be many, with the days about it that are nearly as good.

    Looks at the six weeks after the season's first whites (or after ``soonest``, if that is later).

    :returns: first good day, best day, last good day.
    """
    start = max(soonest, int(ahead.marks.first_white[TENTH, 0]))
    stop = min(start + (35 if start > soonest else 42), ahead.heat.shape[1])
    days = np.arange(min(start, stop - 2), stop, 2)
    some = slice(None, None, 3)
    heat = ahead.heat[some][:, days]
    who = _some(ahead.who, some, _reached(heat))
    living = on_roots(who, heat)[..., :2].sum(axis=(2, 3)) / _height(who)[:, None]
    # What matters is that some are out in every state, not how many in the best: chance of at least a light showing.
    showing = (1 - np.exp(-3 * living)) * (ahead.roots_end[some][:, None] >= days)
    value = showing.mean(axis=0)
    # The first rise that counts is taken: waiting for a later generation's higher one would cost a month.
    falls = np.append(value[1:] <= value[:-1], True)
    height = float(value[int(np.argmax(falls & (value >= share * value.max())))])
    top = int(np.argmax(value >= 0.95 * height))
    low = int(np.argmax(value >= share * height))
    fallen = np.flatnonzero(value[top:] < share * height)
    high = top + int(fallen[0]) - 1 if len(fallen) else len(days) - 1
    return float(days[min(low, top)]), float(days[top]), float(min(days[high], days[top] + 14))


def _some(who: Cohorts, some: slice, generations: int = GENERATIONS) -> Cohorts:
    return Cohorts(
        who.white[some, :generations], who.spread[some, :generations], who.steps[some], who.steps_sd[some],
        who.loss[some], who.size[some, :generations],
    )  # fmt: skip


def at_hand(ahead: Forecast, day: float) -> int:
    """The latest generation whose first whites are likelier out than not by a day, at least 1."""
    return max(1, int((ahead.marks.first_white[HALF] <= day).sum()))


ROOTS_GO_DAYS = 8.0
"""Days over which a field's roots go, for the picture."""


def mix(ahead: Forecast, days: NDArray[np.int_]) -> Floats:
    """Expected white, yellow, tan and brown females on each day, as shares of the highest day; shape (days, 4)."""
    some = slice(None, None, 4)
    who = _some(ahead.who, some)
    numbers = on_roots(who, ahead.heat[some][:, days]).sum(axis=2)
    numbers = numbers / numbers.sum(axis=2).max(axis=1)[:, None, None]
    # A population's roots go over some days, not in one: so the picture has no steps.
    alive = np.clip(0.5 + (ahead.roots_end[some][:, None] - days) / ROOTS_GO_DAYS, 0.0, 1.0)
    expected = (numbers * alive[:, :, None]).mean(axis=0)
    return np.asarray(expected / max(float(expected.sum(axis=1).max()), 1e-9))
