"""Females per plant, under clumping, with an honest interval; places kept apart; change between looks.

Counts on roots are clumped: most plants carry few, some carry many. They are taken as negative binomial, mean
``m`` and clumping ``k``, both unknown. With counts per plant k is learnt from them; with a total only it rests on
its prior, and the interval is as wide as that. What is estimated is the number *seen* per plant dug that way, not
the number on the plant: recovery is a matter of `notes_bot.science.detection`.
Source keys are explained in docs/references.md, the model in docs/science/density.md.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import optimize, special, stats

Floats = NDArray[np.float64]
Span = tuple[float, float]
Estimate = tuple[float, float, float]
"""Low end, middle, high end."""

COVERAGE = 0.8
"""What our intervals hold unless said otherwise."""

# --- textbook intervals --------------------------------------------------------------------------------


def wilson_interval(count: int, total: int, coverage: float = COVERAGE) -> Span:
    """Share of plants [0-1] by the score method, good for few plants. Source: Newcombe1998."""
    z = float(stats.norm.ppf(0.5 + coverage / 2.0))
    p, z2 = count / total, z * z
    middle = (p + z2 / (2 * total)) / (1 + z2 / total)
    half = z / (1 + z2 / total) * math.sqrt(p * (1 - p) / total + z2 / (4 * total * total))
    return max(middle - half, 0.0), min(middle + half, 1.0)


def clopper_pearson_interval(count: int, total: int, coverage: float = COVERAGE) -> Span:
    """Share of plants [0-1], exact and wide."""
    tail = (1.0 - coverage) / 2.0
    low = 0.0 if count == 0 else float(stats.beta.ppf(tail, count, total - count + 1))
    high = 1.0 if count == total else float(stats.beta.ppf(1.0 - tail, count + 1, total - count))
    return low, high


def jeffreys_interval(count: int, total: int, coverage: float = COVERAGE) -> Span:
    """Share of plants [0-1], equal tails of Beta(x + 1/2, n - x + 1/2)."""
    low, high = stats.beta.interval(coverage, count + 0.5, total - count + 0.5)
    return float(low), float(high)


def poisson_interval(count: int, coverage: float = COVERAGE) -> Span:
    """Expected number behind one count of things that do not clump, exact."""
    tail = (1.0 - coverage) / 2.0
    low = 0.0 if count == 0 else float(stats.chi2.ppf(tail, 2 * count)) / 2.0
    return low, float(stats.chi2.ppf(1.0 - tail, 2 * count + 2)) / 2.0


def goodman_intervals(counts: Sequence[int], coverage: float = COVERAGE) -> list[Span]:
    """Shares [0-1] of several classes at once (colours of females on plants alike). Source: Goodman1965."""
    n = sum(counts)
    chi = float(stats.chi2.ppf(1.0 - (1.0 - coverage) / len(counts), 1))
    spans = []
    for x in counts:
        p = x / n
        half = math.sqrt(chi * chi + 4.0 * n * p * (1.0 - p) * chi)
        spans.append(((chi + 2.0 * n * p - half) / (2.0 * (chi + n)), (chi + 2.0 * n * p + half) / (2.0 * (chi + n))))
    return spans


def dirichlet_shares(counts: Sequence[int], prior: Sequence[float], coverage: float = COVERAGE) -> list[Estimate]:
    """Shares [0-1] of several classes with a Dirichlet prior: low, mean and high of each Beta(a, A - a)."""
    alpha = [c + p for c, p in zip(counts, prior, strict=True)]
    total = sum(alpha)
    out = []
    for a in alpha:
        low, high = stats.beta.interval(coverage, a, total - a)
        out.append((float(low), a / total, float(high)))
    return out


def clumping_by_moments(counts: Sequence[int]) -> float:
    """Negative binomial k by moments, ``m^2 / (s^2 - m)``; infinity when the counts clump no more than chance."""
    x = np.asarray(counts, dtype=float)
    mean, variance = float(x.mean()), float(x.var(ddof=1))
    return mean * mean / (variance - mean) if variance > mean else math.inf


def clumping_by_likelihood(counts: Sequence[int]) -> float:
    """Negative binomial k by maximum likelihood; infinity when the counts clump no more than chance.

    Source: BlissFisher1953.
    """
    x = np.asarray(counts, dtype=float)
    mean = float(x.mean())
    if mean == 0.0 or not math.isfinite(clumping_by_moments(counts)):
        return math.inf

    def loss(log_k: float) -> float:
        return -float(log_likelihood(x, np.array([mean]), np.array([math.exp(log_k)])).sum())

    found = optimize.minimize_scalar(loss, bounds=(-7.0, 9.0), method="bounded", options={"xatol": 1e-9})
    return math.exp(float(found.x))


def mean_interval_closed_form(mean: float, k: float, plants: int, coverage: float = COVERAGE) -> Span:
    """``exp(log m -/+ z sqrt((1/m + 1/k) / n))``: quick, k taken as known, not for zero counts."""
    half = float(stats.norm.ppf(0.5 + coverage / 2.0)) * math.sqrt((1.0 / mean + 1.0 / k) / plants)
    return mean * math.exp(-half), mean * math.exp(half)


def log_likelihood(counts: Floats, means: Floats, ks: Floats) -> Floats:
    """Log-likelihood of each count (last axis) under negative binomials of `means` and `ks` (leading axes)."""
    x, m, k = counts, means[..., None], ks[..., None]
    log_p = special.gammaln(x + k) - special.gammaln(k) - special.gammaln(x + 1.0)
    return np.asarray(log_p + k * np.log(k / (k + m)) + special.xlogy(x, m / (k + m)), dtype=float)


def _summed(counts: Floats, means: Floats, ks: Floats) -> Floats:
    """Log-likelihood of all counts together, `means` down and `ks` across, up to a constant."""
    whole = float(counts.sum())
    of_k = special.gammaln(counts[:, None] + ks).sum(axis=0) - len(counts) * special.gammaln(ks[0])
    together = np.log(ks + means)
    return np.asarray(
        of_k + len(counts) * ks * (np.log(ks) - together) + whole * (np.log(means) - together), dtype=float
    )


# --- our estimate ---------------------------------------------------------------------------------------

K_MEDIAN, K_LOG_SD = 1.2, 0.9
"""Prior of k among plants of one place: log-normal. Judgement: the published stand-ins (1.35, 0.544, 0.294, soil
counts of another nematode, McSorleyParrado1982) lie within it, and so do evenly infested patches."""

_GRID = np.exp(np.linspace(math.log(0.005), math.log(5000.0), 400))
_KS = np.exp(math.log(K_MEDIAN) + K_LOG_SD * np.linspace(-2.5, 2.5, 17))
_K_PRIOR = np.exp(-0.5 * np.linspace(-2.5, 2.5, 17) ** 2)
_M_PRIOR = np.exp(-0.5 * ((np.log(_GRID) - math.log(5.0)) / 2.5) ** 2)
"""Prior of m, nearly flat: log-normal about 5 per plant with a log spread of 2.5 (two fields in a hundred
outside 0.015 to 1700). Judgement; it only matters for zero counts and for "too many to count"."""


@dataclass(frozen=True, slots=True)
class Density:
    """What is known of females seen per plant: a grid of means and the chance of each (they sum to 1)."""

    means: Floats
    chances: Floats

    def quantile(self, share: float) -> float:
        """The mean that the truth lies below with chance `share` [0-1]."""
        log_mean = np.interp(share, np.cumsum(self.chances) - self.chances / 2.0, np.log(self.means))
        return float(np.exp(log_mean))

    def interval(self, coverage: float = COVERAGE) -> Estimate:
        """Low end, median and high end."""
        return self.quantile(0.5 - coverage / 2.0), self.quantile(0.5), self.quantile(0.5 + coverage / 2.0)

    def chance_above(self, level: float) -> float:
        """Chance [0-1] that the mean lies above `level`."""
        below = np.interp(math.log(level), np.log(self.means), np.cumsum(self.chances) - self.chances / 2.0)
        return float(1.0 - below)


def density(plants: int, total: int, per_plant: Sequence[int] | None = None, *, at_least: bool = False) -> Density:
    """What a count says of females per plant.

    `plants` >= 1 dug with `total` females on them; `per_plant` gives the counts one by one and is believed when
    its length is `plants`. `at_least`: the total is a lower bound ("too many to count"). Raises ValueError for
    impossible counts.
    """
    if plants < 1 or total < 0:
        raise ValueError("a density needs at least one plant and a count that is not negative")
    means, ks = _GRID[:, None], _KS[None, :]
    if at_least:
        # total of n plants: negative binomial with n m and n k
        size = plants * ks
        log_l = stats.nbinom.logsf(total - 1, size, size / (size + plants * means))
    elif per_plant is not None and len(per_plant) == plants:
        log_l = _summed(np.asarray(per_plant, dtype=float), means, ks)
    else:
        log_l = _summed(np.array([float(total)]), plants * means, plants * ks)
    weights = np.exp(log_l - log_l.max()) * _K_PRIOR
    chances = weights.sum(axis=1) * _M_PRIOR
    return Density(_GRID, chances / chances.sum())


def females_per_plant_interval(
    plants: int,
    total: int,
    per_plant: Sequence[int] | None = None,
    coverage: float = COVERAGE,
    *,
    at_least: bool = False,
) -> Estimate:
    """Low end, median and high end of females seen per plant. With none seen the low end is 0."""
    low, middle, high = density(plants, total, per_plant, at_least=at_least).interval(coverage)
    return (0.0, middle, high) if total == 0 else (low, middle, high)


def ratio_chances(top: Density, bottom: Density) -> tuple[Floats, Floats]:
    """The ratio of two densities as a grid of ratios and their chances."""
    step = math.log(top.means[1] / top.means[0])
    chances = np.convolve(top.chances, bottom.chances[::-1])
    lags = np.arange(chances.size) - (bottom.chances.size - 1)
    return np.exp(lags * step), chances / chances.sum()


def ratio_interval(top: Density, bottom: Density, coverage: float = COVERAGE) -> Estimate:
    """Low end, median and high end of how many times denser `top` is than `bottom`."""
    ratio = Density(*ratio_chances(top, bottom))
    return ratio.interval(coverage)


def differ(one: Density, other: Density, coverage: float = COVERAGE) -> bool:
    """True when the interval of their ratio leaves out 1: such places are never averaged."""
    low, _, high = ratio_interval(one, other, coverage)
    return low > 1.0 or high < 1.0


def pooled(parts: Sequence[tuple[int, int, Sequence[int] | None]]) -> Density:
    """One density from places that do not differ, each as (plants, total, counts per plant)."""
    plants, total = sum(p for p, _, _ in parts), sum(t for _, t, _ in parts)
    singles = [count for n, _, counts in parts if counts is not None and len(counts) == n for count in counts]
    return density(plants, total, singles if len(singles) == plants else None)
