"""Is a source of resistance slipping? Field comparisons pooled over fields and years, each field drawn to the whole.

A few plants on one strip say little; many fields together say more, and what they say helps to judge each of them.
Every observation is the logarithm of females per plant on the resistant variety over the check strip beside it, with
its own error. The model and its checks are in docs/science/variety_watch.md.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import stats

from notes_bot.science.parameters import Parameter

Floats = NDArray[np.float64]

# fmt: off
WATCH: dict[str, Parameter] = {
    row.name: row
    for row in (
        Parameter("middle", math.log(0.15), 1.5, "log share", "", "judgement",
                  "pooled share of the check before anything is seen: 15 %, from hardly any to more than the check"),
        Parameter("yearly", 0.0, 0.15, "log a year", "", "judgement",
                  "change a year; a crop every second year at the 1.15 a crop of rotation.md is 0.07"),
        Parameter("between", 0.0, 0.8, "log", "", "judgement", "spread between fields, half-normal scale"),
        Parameter("within", 0.5, 0.0, "log", "", "judgement", "of one field from look to look beyond its counts"),
    )
}
# fmt: on

LIMIT_HOLDING, LIMIT_SLIPPING = 0.10, 0.30
"""Shares of the check strip, as in virulence.py."""


@dataclass(frozen=True, slots=True)
class Pooled:
    """What all fields together say; shares are of the check strip (0.1 = 10 %), intervals 80 %."""

    share: tuple[float, float, float]
    """Low, middle, high for a field not seen yet, in the year asked for."""
    mean: tuple[float, float, float]
    """The same for the middle field."""
    yearly: tuple[float, float, float]
    """Factor a year."""
    chance_rising: float
    groups: tuple[Group, ...]


@dataclass(frozen=True, slots=True)
class Group:
    """One field, drawn to the others as far as its own looks are weak."""

    share: tuple[float, float, float]
    chance_above_holding: float
    chance_slipping: float


def pool(
    logs: Sequence[float],
    errors: Sequence[float],
    groups: Sequence[int],
    years: Sequence[float],
    now: float,
    *,
    middle: tuple[float, float] | None = None,
    yearly_sd: float | None = None,
    between_scale: float | None = None,
    within: float | None = None,
) -> Pooled:
    """Normal model `log = m + b (year - now) + field + error`, exact for each spread between fields, summed over it.

    `groups` number the fields from 0 without gaps. The keyword arguments replace the priors of ``WATCH`` (for
    comparison with published analyses). Raises ValueError for no observations, lengths that differ, or an error that
    is not above zero.
    """
    y, n = np.asarray(logs, dtype=float), len(logs)
    if n == 0 or not n == len(errors) == len(groups) == len(years):
        raise ValueError("observations need as many errors, groups and years")
    se = np.asarray(errors, dtype=float)
    if not (se > 0).all():
        raise ValueError("an error is more than nothing")
    centre, centre_sd = middle if middle is not None else (WATCH["middle"].value, WATCH["middle"].spread)
    slope_sd = WATCH["yearly"].spread if yearly_sd is None else yearly_sd
    scale = WATCH["between"].spread if between_scale is None else between_scale
    noise = WATCH["within"].value if within is None else within
    count = max(groups) + 1
    design = np.zeros((n, count + 2))
    design[:, 0] = 1.0
    design[:, 1] = np.asarray(years, dtype=float) - now
    design[np.arange(n), np.asarray(groups) + 2] = 1.0
    precision = 1.0 / (se**2 + noise**2)
    prior_mean = np.zeros(count + 2)
    prior_mean[0] = centre
    taus = scale * np.linspace(0.01, 3.0, 60)
    weights, means, covariances = [], [], []
    for tau in taus:
        prior = np.diag([centre_sd**-2, max(slope_sd, 1e-6) ** -2, *([tau**-2] * count)])
        covariance = np.linalg.inv(prior + (design.T * precision) @ design)
        mean = covariance @ (prior @ prior_mean + design.T @ (precision * y))
        variance = np.diag(1.0 / precision) + design @ np.linalg.inv(prior) @ design.T
        likelihood = stats.multivariate_normal.logpdf(y, design @ prior_mean, variance)
        weights.append(float(likelihood) - 0.5 * (tau / scale) ** 2)
        means.append(mean)
        covariances.append(covariance)
    chances = np.exp(np.array(weights) - max(weights))
    chances /= chances.sum()

    def told(row: Floats, extra: Floats) -> tuple[Floats, Floats]:
        at = np.array([row @ m for m in means])
        spread = np.sqrt(np.array([row @ c @ row for c in covariances]) + extra)
        return at, spread

    none = np.zeros(len(taus))
    unit = np.eye(count + 2)
    m_at, m_sd = told(unit[0], none)
    n_at, n_sd = told(unit[0], taus**2)
    b_at, b_sd = told(unit[1], none)
    found = []
    for group in range(count):
        at, spread = told(unit[0] + unit[group + 2], none)
        above = [
            float(chances @ stats.norm.sf((math.log(lim) - at) / spread)) for lim in (LIMIT_HOLDING, LIMIT_SLIPPING)
        ]
        found.append(Group(_shares(chances, at, spread), above[0], above[1]))
    return Pooled(
        share=_shares(chances, n_at, n_sd),
        mean=_shares(chances, m_at, m_sd),
        yearly=_shares(chances, b_at, b_sd),
        chance_rising=float(chances @ stats.norm.sf(-b_at / b_sd)),
        groups=tuple(found),
    )


def mixture_quantiles(chances: Floats, at: Floats, spread: Floats, shares: Sequence[float]) -> list[float]:
    """Quantiles of a mixture of normals, by interpolation of its distribution."""
    grid = np.linspace(float((at - 6 * spread).min()), float((at + 6 * spread).max()), 4001)
    below = chances @ stats.norm.cdf((grid[None, :] - at[:, None]) / spread[:, None])
    return [float(v) for v in np.interp(shares, below, grid)]


def _shares(chances: Floats, at: Floats, spread: Floats) -> tuple[float, float, float]:
    low, mid, high = mixture_quantiles(chances, at, spread, (0.1, 0.5, 0.9))
    return math.exp(low), math.exp(mid), math.exp(high)
