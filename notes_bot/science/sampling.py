"""What a bag of soil can tell: precision of an egg count, when two counts differ, how sampling is advised by place.

A count of one composite sample is the field's mean times an error whose logarithm is normal. The error has two
parts: soil differs from core to core, and the laboratory's subsample differs from the bag.
Units: eggs per 100 cm3 of soil (the same as 100 cc); a CV is a share (0.4 = 40 %); depth in inches as published.
Source keys are explained in docs/references.md, the model in docs/science/sampling.md.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy import stats

from notes_bot.science.parameters import Known, Parameter

COVERAGE = 0.8
"""What our intervals hold unless said otherwise."""

SURE = 0.95
"""A change is called one only when the interval of this coverage leaves out "no change"."""

# fmt: off
PRECISION: dict[str, Parameter] = {
    row.name: row
    for row in (
        Parameter("core_cv_field", 1.36, 0.5, "share", "McSorleyParrado1982", "judgement",
                  "CV between cores of a field at ample mean: k 0.544, the middle of three published stand-ins for "
                  "another nematode; none was found for this one"),
        Parameter("core_cv_plot", 0.71, 0.5, "share", "Francl1986", "fitted",
                  "CV between cores of a small plot: 35 cores and 4 subsamples came to 17-21 %"),
        Parameter("subsample_cv", 0.30, 0.3, "share", "VanDenBerg2014", "judgement",
                  "one laboratory count of a mixed bag; 12.6-41.6 % published for cysts of another cyst nematode"),
        Parameter("not_detected", 40.0, 0.0, "eggs/100 cm3", "OhioGuide", "published",
                  "counts up to here are reported as none in Ohio; taken as what a zero leaves open"),
        Parameter("usual_cores", 20.0, 0.0, "cores", "IowaSampling", "judgement", "taken when nobody said how many"),
    )
}
# fmt: on


def composite_cv(cores: int, subsamples: int = 1, composites: int = 1, *, plot: bool = False) -> float:
    """CV of a count as a share: `composites` bags of `cores` cores each, `subsamples` counted from every bag.

    `plot`: a small trial plot instead of a field. Raises ValueError below one of anything.
    """
    if min(cores, subsamples, composites) < 1:
        raise ValueError("a sample has at least one core, one subsample and one bag")
    core = PRECISION["core_cv_plot" if plot else "core_cv_field"].value
    lab = PRECISION["subsample_cv"].value
    return math.sqrt((core * core / cores + lab * lab / subsamples) / composites)


def log_spread(cv: float) -> float:
    """Standard deviation of the logarithm of a log-normal quantity of that CV."""
    return math.sqrt(math.log1p(cv * cv))


def count_interval(eggs: float, cv: float, coverage: float = COVERAGE) -> tuple[float, float]:
    """Low and high end of the field's mean behind one count [eggs/100 cm3]; a zero leaves 0 to about 40 open."""
    if eggs < 0:
        raise ValueError("a count cannot be negative")
    if eggs == 0:
        return 0.0, PRECISION["not_detected"].value
    half = float(stats.norm.ppf(0.5 + coverage / 2.0)) * log_spread(cv)
    return eggs * math.exp(-half), eggs * math.exp(half)


def tellable_ratio(cv_one: float, cv_other: float, sure: float = SURE) -> float:
    """How many times one count must exceed another before it counts as more than sampling noise (> 1)."""
    z = float(stats.norm.ppf(0.5 + sure / 2.0))
    return math.exp(z * math.hypot(log_spread(cv_one), log_spread(cv_other)))


def within_chance(share: float, cv: float) -> float:
    """Chance [0-1] that one count lies within +- `share` of the true mean (mean-true log-normal error)."""
    s = log_spread(cv)
    shift = -0.5 * s * s
    upper = (math.log1p(share) - shift) / s
    lower = (math.log1p(-share) - shift) / s if share < 1 else -math.inf
    return float(stats.norm.cdf(upper) - stats.norm.cdf(lower))


def miss_chance(share: float, cores: int) -> float:
    """Chance [0-1] that no core lands in the infested `share` of the ground (0-1), cores taken anywhere."""
    if not 0.0 <= share <= 1.0 or cores < 1:
        raise ValueError("a share lies between 0 and 1, and there is at least one core")
    return float((1.0 - share) ** cores)


def samples_for_precision(a: float, b: float, mean: float, error: float) -> float:
    """Samples for a standard error of `error` times the mean, variance = a mean^b (Taylor): a mean^(b-2) / error^2."""
    return float(a * mean ** (b - 2.0) / error**2)


# --- change and trend ----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class CountChange:
    """Now over then."""

    low: float
    ratio: float
    high: float
    """Ends of the 95 % interval of the ratio from sampling error alone."""
    changed: bool
    """True only when that interval leaves out 1."""


def change(now: float, then: float, cv_now: float, cv_then: float) -> CountChange | None:
    """Has the count changed? ``None`` when either is zero: a ratio to nothing says nothing."""
    if now <= 0 or then <= 0:
        return None
    ratio, width = now / then, tellable_ratio(cv_now, cv_then)
    return CountChange(ratio / width, ratio, ratio * width, bool(ratio > width or ratio < 1.0 / width))


@dataclass(frozen=True, slots=True)
class Trend:
    """Yearly factor of the counts."""

    low: float
    factor: float
    high: float
    """Ends of the 95 % interval, from sampling error or from the scatter about the line, whichever is larger."""
    real: bool


def trend(years: Sequence[float], counts: Sequence[float], cvs: Sequence[float]) -> Trend | None:
    """Straight line through the logarithms of three or more counts above zero; ``None`` with fewer or in one year."""
    kept = [(y, c, v) for y, c, v in zip(years, counts, cvs, strict=True) if c > 0]
    if len(kept) < 3 or len({y for y, _, _ in kept}) < 3:
        return None
    t = np.array([y for y, _, _ in kept], dtype=float)
    logs = np.log([c for _, c, _ in kept])
    weights = np.array([1.0 / log_spread(v) ** 2 for _, _, v in kept])
    middle = float((weights * t).sum() / weights.sum())
    spread = float((weights * (t - middle) ** 2).sum())
    slope = float((weights * (t - middle) * logs).sum() / spread)
    start = float((weights * logs).sum() / weights.sum())
    misfit = float((weights * (logs - start - slope * (t - middle)) ** 2).sum()) / (len(kept) - 2)
    # Real ups and downs between years are larger than sampling error: then the scatter decides, with Student's t.
    error = max(1.0, math.sqrt(misfit)) / math.sqrt(spread)
    quantile = float(stats.t.ppf(0.5 + SURE / 2.0, len(kept) - 2)) if misfit > 1 else float(stats.norm.ppf(0.975))
    half = quantile * error
    return Trend(math.exp(slope - half), math.exp(slope), math.exp(slope + half), abs(slope) > half)


# --- how sampling is advised, by place -------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Protocol:
    """What a state's pages advise. ``None`` or an empty text: its page was not seen to say."""

    place: str
    cores: tuple[int, int] | None
    depth_in: tuple[int, int] | None
    acres: tuple[int, int] | None
    """Ground for one composite; (0, n) is "n or less"."""
    pattern: str
    """Keys: zigzag, m, z_or_w, whole_area, problem_spot, risk_spots."""
    when: str
    """Keys: fall_or_before_soybean, fall_or_spring, any_unfrozen, after_harvest, september_to_march,
    around_harvest_before_tillage, week_before_harvest_to_freeze, fall_before_soybean."""
    amount_cc: tuple[int, int] | None
    source: str
    known: Known = "published"


# fmt: off
PROTOCOLS: dict[str, Protocol] = {
    row.place: row
    for row in (
        Protocol("Iowa", (15, 20), (8, 8), (0, 20), "zigzag", "fall_or_before_soybean", (237, 473), "IowaSampling"),
        Protocol("Indiana", (10, 20), (6, 8), (0, 20), "zigzag", "fall_or_spring", (473, 500), "PurdueSampling"),
        Protocol("Nebraska", (15, 20), (6, 8), (10, 20), "zigzag", "any_unfrozen", None, "NebraskaSampling"),
        Protocol("Kansas", (18, 24), (6, 8), (1, 10), "z_or_w", "after_harvest", (473, 473), "KansasSampling"),
        Protocol("Kentucky", None, None, (0, 5), "whole_area", "september_to_march", None, "KentuckySampling"),
        Protocol("South Dakota", (20, 20), (6, 8), None, "risk_spots", "after_harvest", None, "SouthDakotaSampling"),
        Protocol("North Dakota", (10, 20), (6, 8), None, "problem_spot", "around_harvest_before_tillage", None,
                 "NdsuSampling"),
        Protocol("Ohio", None, None, None, "risk_spots", "week_before_harvest_to_freeze", None, "OhioScnPage"),
        Protocol("Missouri", None, None, None, "risk_spots", "fall_before_soybean", None, "MissouriLab"),
    )
}
# fmt: on

COMMON = Protocol("", (15, 20), (6, 8), (0, 20), "zigzag", "fall_or_before_soybean", (473, 500), "IowaSampling",
                  "judgement")  # fmt: skip
"""What most of the pages above agree on, for a place without one of its own. Said as such, never as that place's."""


def protocol(place: str | None) -> tuple[Protocol, bool]:
    """What `place` (a state or province) advises, gaps filled from what most agree on; whether it has a page."""
    own = PROTOCOLS.get(place or "")
    if own is None:
        return COMMON, False
    return (
        Protocol(
            own.place,
            own.cores or COMMON.cores,
            own.depth_in or COMMON.depth_in,
            own.acres or COMMON.acres,
            own.pattern,
            own.when,
            own.amount_cc or COMMON.amount_cc,
            own.source,
            own.known,
        ),
        True,
    )


HG_SOIL_CC = 3785
"""Soil for an HG type test: about one US gallon, holding at least 40,000 eggs. Source: MissouriLab."""
HG_EGGS = 40_000
"""Eggs an HG type test needs; fewer are first multiplied on a susceptible host. Source: MissouriLab."""


# --- when to sample again ----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Resample:
    """When a place's pages advise the next egg count."""

    place: str
    years: tuple[int, int] | None
    """From and to; ``None`` where the rule counts soybean crops."""
    rule: str
    """Keys: every_year, second_soybean, if_none, if_below, years."""
    below: float | None
    """Holds only for counts below this [eggs/100 cm3]; 0 means "if none was found"."""
    source: str
    known: Known = "published"


RESAMPLE: tuple[Resample, ...] = (
    Resample("Ohio", (1, 1), "every_year", None, "OhioScnPage"),
    Resample("South Dakota", None, "second_soybean", None, "SouthDakotaSampling"),
    Resample("Missouri", (2, 3), "if_none", 0.0, "MissouriLab"),
    Resample("Illinois", (4, 5), "if_below", 1000.0, "IllinoisSurvey2024"),
    Resample("Ontario", (3, 6), "years", None, "OmafraScn"),
    Resample("Nebraska", (6, 6), "years", None, "NebraskaSampling"),
)

HG_REPEAT_SOYBEAN_CROPS = 4
"""Repeat an HG type test after about four soybean crops. Source: PurdueSampling."""


def resample(place: str | None, eggs: float) -> Resample | None:
    """That place's own rule for this count, or ``None``; never another place's."""
    for row in RESAMPLE:
        if row.place == place:
            if row.below is None or (row.below == 0.0 and eggs == 0.0) or (row.below > 0.0 and eggs < row.below):
                return row
            return None
    return None
