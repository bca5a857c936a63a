"""Egg density over the coming years under a plan of crops, by simulation with a seed, as ranges.

One step is one year, from the count after harvest to the next. A crop's yearly ratio is drawn about published
change ratios; the population adapts to a source grown again (an assumption: docs/science/rotation.md).
Plans are compared on the same draws, so that only what differs between them makes a difference.
Units: eggs per 100 cm3 of soil; FI in percent. Source keys are explained in docs/references.md.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from scipy import stats

from notes_bot.science.hg_type import SOURCES, Group, survey
from notes_bot.science.parameters import Parameter
from notes_bot.science.sampling import composite_cv, log_spread

Floats = NDArray[np.float64]
Crop = Literal["nonhost", "susceptible", "PI 88788", "Peking", "PI 437654"]
CROPS: tuple[Crop, ...] = ("nonhost", "susceptible", "PI 88788", "Peking", "PI 437654")

# fmt: off
ROTATION: dict[str, Parameter] = {
    row.name: row
    for row in (
        Parameter("nonhost_ratio", 0.59, 0.19, "ratio a year", "Chen2001", "fitted",
                  "corn 0.59 (0.23-0.86, taken as 5-95 %): a beta distribution, so never above 1"),
        Parameter("resistant_survivors", 0.45, 0.15, "ratio a year", "Chen2001", "fitted",
                  "of old eggs under a resistant variety that lets none reproduce; 0.49 (0.21-0.73) with reproduction"),
        Parameter("growth_low", 40.0, 0.0, "ratio a year", "IowaTrials2013, Wheeler1997", "fitted",
                  "susceptible variety at few eggs: 38 at 431 eggs in Iowa, up to 112 in Ohio"),
        Parameter("ceiling", 16000.0, 0.0, "eggs/100 cm3", "Chen2001, IowaTrials2013", "fitted",
                  "where the susceptible curve levels off: ratio about 3 at 5,000 eggs"),
        Parameter("growth_spread", 0.8, 0.0, "log", "Chen2001, Wheeler1997", "fitted",
                  "field and year: 0.74-9.91 in one trial, 0.4-112 over fields"),
        Parameter("field_share", 0.5, 0.0, "share", "", "judgement",
                  "of the variance of a ratio that belongs to the field and stays over the years"),
        Parameter("adaptation", 1.15, 0.10, "factor a crop", "Indiana2023", "fitted",
                  "rise of FI on a source each time it is grown: 56 to 88 % of populations in 13 years, taken as "
                  "6-7 soybean crops; spread of its logarithm is judgement"),
        Parameter("forgetting", 0.97, 0.0, "factor a year", "", "judgement",
                  "fall of FI on a source in years without it; no published figure found"),
        Parameter("fi_spread", 0.9, 0.0, "log", "", "judgement", "FI of populations of one region"),
        Parameter("fi_unknown_88788", 15.0, 0.0, "FI", "", "judgement", "median where no test and no survey is known"),
        Parameter("fi_unknown_peking", 4.0, 0.0, "FI", "", "judgement", "as above"),
        Parameter("fi_unknown_437654", 1.5, 0.0, "FI", "", "judgement", "as above"),
        Parameter("weed_years", 1.6, 0.4, "factor a year", "OhioDeadnettle, CreechPurdue", "judgement",
                  "henbit or purple deadnettle common: 3-5 fold over years in one place, no effect in another"),
        Parameter("floor", 100.0, 0.0, "eggs/100 cm3", "Chen2001", "judgement",
                  "below this the ratios were not measured; ends of ranges there are told as under 100"),
    )
}
# fmt: on


@dataclass(frozen=True, slots=True)
class Year:
    """Eggs after one year of the plan: median and ends of the 80 % range, and the chance of exceeding `limit`."""

    crop: Crop
    low: float
    middle: float
    high: float


@dataclass(frozen=True, slots=True)
class PlanRun:
    """One plan's future."""

    crops: tuple[Crop, ...]
    years: tuple[Year, ...]
    end: Floats
    """Eggs after the last year, one value a simulated future; the same index is the same future in every plan."""
    index_end: Mapping[Group, float]
    """Median FI on each source after the plan."""


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two plans on the same futures."""

    first: int
    second: int
    chance_first_lower: float
    ratio_low: float
    ratio: float
    ratio_high: float
    """Eggs of the first over eggs of the second at the end: 80 % range and median."""
    real: bool
    """True when one ends lower in at least 90 % of the futures and by at least a fifth in the middle."""


SURE_BETTER = 0.9
WORTH_SAYING = 0.2
"""A difference is called real from this chance on and from this share on. Judgement."""
FUTURES = 4000
"""Simulated futures; the ends of a range then wander by about 3 % between seeds."""


def index_start(place: str | None, source: Group, fi: float | None) -> tuple[float, float]:
    """Median and log spread of FI on a source: a test's own (log spread 0.4), a survey of that place, or judgement."""
    if fi is not None:
        return max(fi, 0.5), 0.4
    found = survey(place, source)
    spread = ROTATION["fi_spread"].value
    if found is not None:
        number = found.populations or 30
        share = (found.share * number + 0.5) / (number + 1.0)
        return 10.0 * math.exp(spread * float(stats.norm.ppf(share))), spread
    key = {"PI 88788": "fi_unknown_88788", "Peking": "fi_unknown_peking", "PI 437654": "fi_unknown_437654"}[source]
    return ROTATION[key].value, spread


def simulate(
    eggs: float,
    plans: Sequence[Sequence[Crop]],
    *,
    seed: int,
    place: str | None = None,
    indices: Mapping[Group, float] | None = None,
    weeds: bool = False,
    count_cv: float | None = None,
    futures: int = FUTURES,
) -> tuple[PlanRun, ...]:
    """Run every plan from `eggs` > 0 (a count of CV `count_cv`, one ordinary composite by default).

    `indices`: FI on a source where a test is known. `weeds`: winter annual hosts are common. `seed` decides all
    chance: the same call gives the same answer. Raises ValueError for an unknown crop, no eggs, or no years.
    """
    if eggs <= 0 or not plans or any(not plan for plan in plans):
        raise ValueError("a plan needs eggs to start from and at least one year")
    if any(crop not in CROPS for plan in plans for crop in plan):
        raise ValueError(f"crops are {', '.join(CROPS)}")
    rng = np.random.default_rng(seed)
    s = log_spread(composite_cv(20) if count_cv is None else count_cv)
    start = eggs * np.exp(s * rng.standard_normal(futures))
    horizon = max(len(plan) for plan in plans)
    keep = math.sqrt(ROTATION["field_share"].value)
    vary = math.sqrt(1.0 - ROTATION["field_share"].value)

    def scores() -> Floats:
        """Standard normal scores by year, sharing a part that belongs to the field."""
        return np.asarray(
            keep * rng.standard_normal(futures) + vary * rng.standard_normal((horizon, futures)), dtype=float
        )

    decline, survival, growth, adapting, weedy = scores(), scores(), scores(), scores(), scores()
    first: dict[Group, Floats] = {}
    for source in SOURCES:
        middle, spread = index_start(place, source, (indices or {}).get(source))
        first[source] = middle * np.exp(spread * rng.standard_normal(futures))
    runs = []
    for plan in plans:
        now, index, years = start.copy(), {k: v.copy() for k, v in first.items()}, []
        for t, crop in enumerate(plan):
            now = _year(now, crop, index, decline[t], survival[t], growth[t])
            if weeds and crop == "nonhost":
                w = ROTATION["weed_years"]
                now = now * np.maximum(1.0, w.value * np.exp(w.spread * weedy[t]))
            _adapt(index, crop, adapting[t])
            low, middle, high = np.quantile(now, (0.1, 0.5, 0.9))
            years.append(Year(crop, float(low), float(middle), float(high)))
        runs.append(PlanRun(tuple(plan), tuple(years), now, {k: float(np.median(v)) for k, v in index.items()}))
    return tuple(runs)


def susceptible_ratio(eggs: Floats) -> Floats:
    """Middle yearly ratio on a susceptible variety: many fold at few eggs, below 1 where the roots are crowded."""
    rate, ceiling = ROTATION["growth_low"].value, ROTATION["ceiling"].value
    return np.asarray(rate / (1.0 + rate * eggs / ceiling), dtype=float)


def _year(
    now: Floats, crop: Crop, index: Mapping[Group, Floats], decline: Floats, survival: Floats, growth: Floats
) -> Floats:
    if crop == "nonhost":
        return np.asarray(now * _beta("nonhost_ratio", decline), dtype=float)
    grown = now * susceptible_ratio(now) * np.exp(ROTATION["growth_spread"].value * growth)
    if crop == "susceptible":
        return np.asarray(grown, dtype=float)
    share = np.minimum(index[crop] / 100.0, 1.0)
    # Old eggs that outlast the crop, and new ones in proportion to the females the source lets through.
    return np.asarray((1.0 - share) * now * _beta("resistant_survivors", survival) + share * grown, dtype=float)


def _beta(name: str, score: Floats) -> Floats:
    row = ROTATION[name]
    total = row.value * (1.0 - row.value) / row.spread**2 - 1.0
    return np.asarray(stats.beta.ppf(stats.norm.cdf(score), row.value * total, (1.0 - row.value) * total), dtype=float)


def _adapt(index: dict[Group, Floats], crop: Crop, score: Floats) -> None:
    rise, fall = ROTATION["adaptation"], ROTATION["forgetting"].value
    for source in index:
        factor = rise.value * np.exp(rise.spread * score) if source == crop else fall
        index[source] = np.minimum(index[source] * factor, 110.0)


def compare(runs: Sequence[PlanRun], first: int = 0, second: int = 1) -> Comparison:
    """Two plans of one `simulate` call against each other at their end."""
    a, b = runs[first].end, runs[second].end
    chance = float(np.mean(a < b) + 0.5 * np.mean(a == b))
    low, middle, high = (float(q) for q in np.quantile(a / b, (0.1, 0.5, 0.9)))
    apart = abs(math.log(middle)) >= math.log(1.0 + WORTH_SAYING)
    return Comparison(
        first, second, chance, low, middle, high, bool(max(chance, 1.0 - chance) >= SURE_BETTER and apart)
    )
