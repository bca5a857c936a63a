"""What "none seen" is worth, and how many plants to dig.

Two layers. The first holds the textbook formulas (binomial, hypergeometric, beta-binomial, thinned negative
binomial, Bayes) that printed tables check. The second is the model of a root look built on them:

* an infested field carries ``m`` females per plant on average, uncertain between fields (log-normal);
* places differ: the mean at one place is ``m`` times a gamma variable of shape ``K_BETWEEN``;
* plants of one place differ: negative binomial with ``K_WITHIN``;
* each female on a dug plant is brought up and noticed with chance ``q``, the same weakness for the whole look
  and for every later look of its kind, hence drawn once: ``q`` ~ Beta, worth about ten observations;
* on a day when females may not be out yet all this happens only with chance ``visible``.

Misses of repeated looks therefore hang together: by the field, by the places gone back to, by the method and by
the calendar. Only plants at new places, with another method, on a better day, are new evidence.
Source keys are explained in docs/references.md, the model in docs/science/detection.md.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from scipy import optimize, special, stats

Method = Literal["pulled", "eased", "shovel"]
Moisture = Literal["dry", "moist", "wet"]
Condition = Literal["sand", "loam", "clay", "dry", "wet"]
CONDITIONS: tuple[Condition, ...] = ("sand", "loam", "clay", "dry", "wet")
Beta = tuple[float, float]
Floats = NDArray[np.float64]

# --- textbook formulas ------------------------------------------------------------------------------


def _share(value: float, name: str) -> float:
    if not 0.0 <= value <= 1.0:
        raise ValueError(f"{name} must lie between 0 and 1, not {value}")
    return value


def detection_probability(plants: int, prevalence: float, sensitivity: float = 1.0) -> float:
    """Chance [0-1] that at least one of `plants` is called positive: ``1 - (1 - p s)^n``, a large field.

    `prevalence`: share of plants that carry a female that could be found [0-1]; `sensitivity`: chance that a
    carrying plant is called positive [0-1]. Source: Martin1992.
    """
    if plants < 0:
        raise ValueError("plants must not be negative")
    return float(1.0 - math.pow(1.0 - _share(prevalence, "prevalence") * _share(sensitivity, "sensitivity"), plants))


def detection_probability_finite(plants: int, population: int, carrying: int, sensitivity: float = 1.0) -> float:
    """Chance [0-1] of at least one positive when `carrying` of `population` plants are: ``1 - (1 - n s / N)^D``.

    An approximation, good while n is below N. Source: MacDiarmid1988.
    """
    if not 0 <= plants <= population or not 0 <= carrying <= population:
        raise ValueError("plants and carrying must lie between 0 and the population")
    return float(1.0 - math.pow(1.0 - plants * _share(sensitivity, "sensitivity") / population, carrying))


def detection_probability_mixed(groups: Sequence[tuple[int, float, float]]) -> float:
    """Chance [0-1] of at least one positive over groups of (plants, prevalence, sensitivity) dug in different ways."""
    return 1.0 - math.prod(1.0 - detection_probability(n, p, s) for n, p, s in groups)


def plants_needed(confidence: float, prevalence: float, sensitivity: float = 1.0) -> int:
    """Plants for a detection chance of at least `confidence` (0-1, below 1): ``ln(1-c) / ln(1-p s)``, rounded up.

    Raises ValueError when nothing could ever be found. Source: Martin1992.
    """
    ps = _share(prevalence, "prevalence") * _share(sensitivity, "sensitivity")
    if not 0.0 <= confidence < 1.0:
        raise ValueError("confidence must lie in [0, 1)")
    if ps == 0.0:
        raise ValueError("nothing can be found: prevalence times sensitivity is 0")
    return 1 if ps == 1.0 else _round_up(math.log1p(-confidence) / math.log1p(-ps))


def plants_needed_finite(confidence: float, prevalence: float, population: int, sensitivity: float = 1.0) -> int:
    """The same in a small population: ``(N/s) (1 - (1-c)^(1/D))`` with D = p N, rounded up. Source: MacDiarmid1988."""
    carrying = max(round(prevalence * population), 1)
    return _round_up(population / sensitivity * (1.0 - (1.0 - confidence) ** (1.0 / carrying)))


def plants_needed_exact(confidence: float, carrying: int, population: int) -> int:
    """The same for a perfect look, exact (hypergeometric). Source: CannonRoe1982."""
    if not 0 < carrying <= population:
        raise ValueError("carrying must lie between 1 and the population")
    none_seen = stats.hypergeom.pmf(0, population, carrying, np.arange(population + 1))
    return int(np.argmax(1.0 - none_seen >= confidence))


def plants_needed_cannon_roe(confidence: float, carrying: int, population: int) -> float:
    """The same by ``(1 - (1-c)^(1/D)) (N - (D-1)/2)``, not rounded. Source: CannonRoe1982."""
    return (1.0 - math.pow(1.0 - confidence, 1.0 / carrying)) * (population - (carrying - 1) / 2.0)


def largest_prevalence(plants: int, confidence: float = 0.95, sensitivity: float = 1.0) -> float:
    """Largest share of carrying plants [0-1] that `plants` clean ones leave open: ``(1 - (1-c)^(1/n)) / s``."""
    if plants < 1:
        return 1.0
    return min((1.0 - math.pow(1.0 - confidence, 1.0 / plants)) / sensitivity, 1.0)


def posterior_infested(prior: float, detection: float, visible: float = 1.0) -> float:
    """Chance of infestation [0-1] after a look that saw none; with ``visible = 0`` it is the prior.

    ``P(none | infested) = 1 - visible * detection``; Bayes with no false alarms. Source: Martin2007.
    """
    missed = 1.0 - _share(visible, "visible") * _share(detection, "detection")
    prior = _share(prior, "prior")
    return prior if prior in (0.0, 1.0) else prior * missed / (prior * missed + 1.0 - prior)


def posterior_free(prior_free: float, detection: float, introduction: float = 0.0) -> float:
    """Chance of freedom [0-1] after one more clean look, `introduction` = chance to become infested before it."""
    return 1.0 - posterior_infested(1.0 - prior_free * (1.0 - introduction), detection)


def plateau_free(detection: float, introduction: float) -> float:
    """Chance of freedom that endless looks of one kind lead to: ``(Se - c) / (Se (1 - c))``. Source: Martin2007."""
    return max((detection - introduction) / (detection * (1.0 - introduction)), 0.0)


def looks_to_reach(target_free: float, prior_free: float, detection: float, introduction: float = 0.0) -> int | None:
    """Independent clean looks until freedom is at least `target_free`, or None when they never get there."""
    free, looks = prior_free, 0
    while free < target_free:
        nxt = posterior_free(free, detection, introduction)
        if looks > 500 or nxt <= free:
            return None
        free, looks = nxt, looks + 1
    return looks


def plants_for_freedom(
    target_free: float, prior_free: float, prevalence: float, sensitivity: float = 1.0, introduction: float = 0.0
) -> int:
    """Plants that, all clean, lift the chance of freedom to `target_free`. Source: Martin2007."""
    prior = 1.0 - prior_free * (1.0 - introduction)
    detection = (target_free - (1.0 - prior)) / (target_free * prior)
    return plants_needed(max(detection, 0.0), prevalence, sensitivity)


def none_seen_beta_binomial(plants: int, detectable: Beta) -> float:
    """Chance [0-1] that `plants` are all clean when the detectable share ~ Beta(a, b): ``B(a, b+n) / B(a, b)``."""
    a, b = detectable
    return float(np.exp(special.betaln(a, b + plants) - special.betaln(a, b)))


def share_carrying(mean: float, k: float) -> float:
    """Share of plants [0-1] with at least one female, negative binomial: ``1 - (1 + m/k)^-k``."""
    return float(1.0 - (1.0 + mean / k) ** -k)


def none_seen_clumped(plants: int, mean: float, k: float, recovery: float) -> float:
    """Chance [0-1] that `plants` all look clean: ``(1 + q m / k)^(-k n)`` (thinning keeps k)."""
    return float((1.0 + recovery * mean / k) ** (-k * plants))


def _round_up(value: float) -> int:
    return math.ceil(value - 1e-9)


# --- how much of what is there is brought up and seen ------------------------------------------------


@dataclass(frozen=True, slots=True)
class Recovery:
    """Chance that one female on the plant is brought up and noticed, by method and soil condition.

    `weight`: how many observations the number is worth (a + b of its Beta); `plants`: plants of the crew's own trial
    behind it, 0 where it is the table's.
    """

    method: Method
    soaked: bool
    condition: Condition
    chance: float
    source: str = "judgement"
    weight: float = 10.0
    plants: int = 0


def _row(method: Method, soaked: bool, *chances: float) -> tuple[Recovery, ...]:
    return tuple(Recovery(method, soaked, c, q) for c, q in zip(CONDITIONS, chances, strict=True))


RECOVERIES: tuple[Recovery, ...] = (
    *_row("pulled", False, 0.15, 0.08, 0.04, 0.02, 0.10),
    *_row("pulled", True, 0.18, 0.10, 0.05, 0.03, 0.13),
    *_row("eased", False, 0.25, 0.15, 0.10, 0.05, 0.15),
    *_row("eased", True, 0.32, 0.22, 0.17, 0.10, 0.22),
    *_row("shovel", False, 0.40, 0.30, 0.20, 0.15, 0.20),
    *_row("shovel", True, 0.55, 0.50, 0.45, 0.40, 0.45),
)
"""No published number exists: judgement, shaped by field advice that pulling leaves the young roots and the
females behind and that washing shows more (Tylka2011, Dtn2021). "dry" is any dry soil but sand. Soaking adds
least where the roots stayed in the ground. Each row is worth ten observations. A crew's own double-digging trial
replaces rows (`notes_bot.science.digging_trial`)."""

_TEXTURES: dict[str, tuple[Literal["sand", "loam", "clay"], ...]] = {
    "sand": ("sand",),
    "loamy_sand": ("sand",),
    "sandy_loam": ("sand", "loam"),
    "loam": ("loam",),
    "silt": ("loam",),
    "silt_loam": ("loam",),
    "muck": ("loam",),
    "sandy_clay_loam": ("loam",),
    "clay_loam": ("loam", "clay"),
    "silty_clay_loam": ("loam", "clay"),
    "sandy_clay": ("clay",),
    "silty_clay": ("clay",),
    "clay": ("clay",),
}
_UNKNOWN_MOISTURE: dict[Moisture, float] = {"moist": 0.6, "dry": 0.3, "wet": 0.1}
_UNKNOWN_METHOD: dict[Method, float] = {"pulled": 0.3, "eased": 0.2, "shovel": 0.5}


def recovery_beta(
    method: Method | None,
    soaked: bool | None = None,
    moisture: Moisture | None = None,
    texture: str | None = None,
    *,
    snapped: bool = False,
    table: Sequence[Recovery] = RECOVERIES,
) -> Beta:
    """Beta(a, b) of the chance that one female on a dug plant is brought up and noticed.

    What is known picks a row of `table` (a + b = its weight, 10). What is not said is averaged over what is usual, and
    the Beta is then as wide as that ignorance (a + b below 10). Not soaked unless said. `snapped`: the roots tore
    off, which halves what came up. Judgement throughout; see docs/science/detection.md.
    """
    mean = second = 0.0
    for weight, row in rows_for(method, soaked, moisture, texture, table=table):
        q = row.chance * (0.5 if snapped else 1.0)
        mean += weight * q
        second += weight * (q * q + q * (1.0 - q) / (row.weight + 1.0))
    spread = second - mean * mean
    strength = mean * (1.0 - mean) / spread - 1.0
    return mean * strength, (1.0 - mean) * strength


def rows_for(
    method: Method | None,
    soaked: bool | None = None,
    moisture: Moisture | None = None,
    texture: str | None = None,
    *,
    table: Sequence[Recovery] = RECOVERIES,
) -> tuple[tuple[float, Recovery], ...]:
    """The rows of `table` that speak of such a look, each with its weight; the weights sum to 1."""
    rows = {(row.method, row.soaked, row.condition): row for row in table}
    soils = soils_of(texture)
    return tuple(
        (p_method * p_moisture / len(soils), rows[this_method, bool(soaked), _condition(this_moisture, soil)])
        for this_method, p_method in ({method: 1.0} if method else _UNKNOWN_METHOD).items()
        for this_moisture, p_moisture in ({moisture: 1.0} if moisture else _UNKNOWN_MOISTURE).items()
        for soil in soils
    )


def soils_of(texture: str | None) -> tuple[Literal["sand", "loam", "clay"], ...]:
    """The soils of the table that a texture lies in or between; loam where it is not known."""
    return _TEXTURES.get((texture or "").replace(" ", "_").replace("-", "_"), ("loam",))


def condition_of(moisture: Moisture | None, texture: str | None) -> Condition:
    """The one soil condition of the table for a trial's sheet: moist where not said, loam between two soils."""
    soils = soils_of(texture)
    return _condition(moisture or "moist", soils[0] if len(soils) == 1 else "loam")


def _condition(moisture: Moisture, soil: Literal["sand", "loam", "clay"]) -> Condition:
    if moisture == "dry" and soil != "sand":
        return "dry"
    return "wet" if moisture == "wet" else soil


# --- the look ----------------------------------------------------------------------------------------

K_WITHIN = 1.35
"""Negative binomial k of females among plants of one place. Stand-in: soil counts of root-knot juveniles had
1.35, 0.544 and 0.294 (McSorleyParrado1982); no k for this nematode on roots was found."""

K_BETWEEN = 1.5
"""Gamma shape of the means of places within a field. Judgement: with `K_WITHIN` it gives about k = 0.53 overall,
the middle of the three published stand-ins."""

LIGHT = 0.5
"""A light infestation: females per plant, field mean, when all are out. Judgement: about 3 plants in 10 carry any."""

Resistance = Literal["resistant", "susceptible"]


@dataclass(frozen=True, slots=True)
class Intensity:
    """Females per plant in an infested field, field mean when all are out: log-normal. Judgement."""

    median: float
    log_sd: float
    source: str = "judgement"


INTENSITIES: dict[Resistance | None, Intensity] = {
    "susceptible": Intensity(4.0, 1.5),
    None: Intensity(2.5, 1.7),
    "resistant": Intensity(0.8, 1.6),
}
"""Prior of how heavily an infested field is infested, by the variety grown; None = not known which."""


@dataclass(frozen=True, slots=True)
class Look:
    """One clean look: plants dug at each place (same name = same place), recovery Beta, chance of visibility [0-1].

    `showing`: females on the roots that day in each of the clock's equally likely states of the season, relative to
    the height of the first generation (0 = none out; later generations pass 1). All looks of a season speak of the
    same states, in the same order. None = judged from `visible` by `showing_by_chance`.
    """

    places: tuple[tuple[str, int], ...]
    recovery: Beta
    visible: float = 1.0
    showing: tuple[float, ...] | None = None

    @property
    def plants(self) -> int:
        return sum(plants for _, plants in self.places)


STATES = 64
"""States of the season that are weighed one by one; more only cost time (tested against all of them)."""


def condensed(showing: NDArray[np.float64], states: int = STATES) -> NDArray[np.float64]:
    """Fewer states that say the same: `showing` of shape (looks, many) as (looks, `states`), like ones averaged.

    States are ordered by on how many of the days females are out, then by how many; neighbours are alike.
    """
    many = showing.shape[1]
    if many <= states:
        return showing
    order = np.lexsort((showing.sum(axis=0), (showing > 0.0).sum(axis=0)))
    starts = np.ceil(np.arange(states) * many / states).astype(int)
    return np.asarray(np.add.reduceat(showing[:, order], starts, axis=1) / np.diff([*starts, many]))


def showing_by_chance(visible: float) -> float:
    """Share of the first generation's females out, given that any are, on a day with that chance of any [0-1].

    ``v (0.4 + 0.6 v^8)``: near the first whites only a few of the females to come are out, and a chance that is not
    yet 1 says the day is near them. Drawn by eye through what the clock expects of a season in the middle of the belt
    (0.14, 0.24, 0.51 and 0.87 at chances of 0.3, 0.7, 0.95 and 1): judgement.
    """
    return visible * (0.4 + 0.6 * visible**8)


def spread(plants: int, places: int | None = None) -> tuple[tuple[str, int], ...]:
    """`plants` shared as evenly as can be over `places` unnamed places; by default two, or one below four plants.

    Unnamed places of different looks count as the same ones: people go back to where they dug.
    """
    count = places or (2 if plants >= 4 else 1)
    shares = [plants // count + (1 if i < plants % count else 0) for i in range(count)]
    return tuple((f"place {i + 1}", share) for i, share in enumerate(shares) if share)


@lru_cache(maxsize=8)
def _gamma_nodes(shape: float, count: int = 24) -> tuple[Floats, Floats]:
    """Nodes and weights of a gamma variable with mean 1."""
    nodes, weights = special.roots_genlaguerre(count, shape - 1.0)
    return nodes / shape, weights / weights.sum()


@lru_cache(maxsize=4)
def _unit_nodes(count: int = 32) -> tuple[Floats, Floats]:
    nodes, weights = special.roots_sh_legendre(count)
    return nodes, weights / weights.sum()


@lru_cache(maxsize=4)
def _normal_nodes(count: int = 15) -> tuple[Floats, Floats]:
    nodes, weights = special.roots_hermitenorm(count)
    return nodes, weights / weights.sum()


@lru_cache(maxsize=256)
def _recovery_nodes(a: float, b: float) -> Floats:
    return np.asarray(special.betaincinv(a, b, _unit_nodes()[0]), dtype=float)


def _calendar(looks: Sequence[Look]) -> tuple[Floats, Floats]:
    """How the season may have run: chances, shape (states,), and what is out for each look, shape (states, looks)."""
    told = [look.showing for look in looks if look.showing is not None]
    if told:
        if len(told) < len(looks) or len({len(showing) for showing in told}) > 1:
            raise ValueError("all looks of a season must speak of the same states")
        out = np.array(told, dtype=float).T
        return np.full(len(out), 1.0 / len(out)), out
    # the calendar as one unknown in (0, 1): when it lies below a look's chance, females were out for that look
    uppers = sorted({look.visible for look in looks} | {1.0})
    out = np.array([[showing_by_chance(x.visible) if x.visible >= up else 0.0 for x in looks] for up in uppers])
    return np.diff([0.0, *uppers]), out


def none_seen_probability(
    looks: Sequence[Look], intensity: Intensity | float, *, k_within: float = K_WITHIN, k_between: float = K_BETWEEN
) -> float:
    """Chance [0-1] that every one of `looks` saw none although the field is infested.

    `intensity`: females per plant of the field, a number or a prior. With no looks, no plants or nothing visible
    it is 1. Looks share the field's intensity, the means of places with the same name, the weakness of the method
    (their recoveries are the same quantile of their Betas) and the calendar: state by state where the clock told
    what was out (`Look.showing`), otherwise females that were out for a look were out for every look with a higher
    `visible`. The mean counts in proportion to what is out.
    """
    means, weight_m = _means(intensity)
    return min(max(float(weight_m @ _none_seen(looks, means, k_within, k_between)), 0.0), 1.0)


def _means(intensity: Intensity | float) -> tuple[Floats, Floats]:
    """Field means and their weights."""
    if not isinstance(intensity, Intensity):
        return np.array([float(intensity)]), np.array([1.0])
    nodes, weights = _normal_nodes()
    return intensity.median * np.exp(intensity.log_sd * nodes), weights


def _none_seen(
    looks: Sequence[Look], means: Floats, k_within: float = K_WITHIN, k_between: float = K_BETWEEN
) -> Floats:
    """Chance that all looks saw none, for each field mean; shape as `means`."""
    looks = [look for look in looks if look.plants > 0]
    total = np.ones(means.size)
    if not looks:
        return total
    weight_u = _unit_nodes()[1]
    factor, weight_g = _gamma_nodes(k_between)
    # per look: expected females brought up and seen on a plant, over field means, quantiles of recovery and places
    seen = [means[:, None, None] * _recovery_nodes(*x.recovery)[None, :, None] * factor / k_within for x in looks]
    plants = [dict(look.places) for look in looks]
    names = sorted({name for places in plants for name in places})
    # places at which every look dug alike miss alike
    alike = Counter(tuple(places.get(name, 0) for places in plants) for name in names)
    by_plants = [
        (times, [(each, [i for i, dug in enumerate(row) if dug == each]) for each in sorted({*row} - {0})])
        for row, times in alike.items()
    ]
    for chance, out in zip(*_calendar(looks), strict=True):
        if chance == 0.0 or not out.any():
            continue
        missed = np.ones((means.size, weight_u.size))
        for times, groups in by_plants:
            log_none = np.zeros(seen[0].shape)
            for each, members in groups:
                for product in _products(seen, out, members):
                    log_none -= k_within * each * np.log(product)
            missed *= (np.exp(log_none) @ weight_g) ** times
        total -= chance * (1.0 - missed @ weight_u)
    return total


AT_ONCE = 16
"""Factors of a product: each is below 1e12, and a float holds 1e308."""


def _products(seen: Sequence[Floats], out: Floats, members: Sequence[int]) -> Iterator[Floats]:
    """``1 + females`` multiplied over looks, some at a time: one logarithm for many looks."""
    shown = [i for i in members if out[i] > 0.0]
    for start in range(0, len(shown), AT_ONCE):
        product = seen[shown[start]] * out[shown[start]]
        product += 1.0
        for i in shown[start + 1 : start + AT_ONCE]:
            factor = seen[i] * out[i]
            factor += 1.0
            product *= factor
        yield product


def look_detection(look: Look, intensity: Intensity | float = LIGHT) -> float:
    """Chance [0-1] that this look would have shown an infestation (a light one by default), females being out."""
    return 1.0 - none_seen_probability([Look(look.places, look.recovery)], intensity)


OVERLOOKED_AT_MOST = 100.0


def overlooked(look: Look, chance: float = 0.5) -> float:
    """Females per plant (field mean) that such a look overlooks with `chance` [0-1], females being out.

    The question asked backwards: what could still be there? `OVERLOOKED_AT_MOST` stands for that and more.
    """

    def missed(log_mean: float) -> float:
        return none_seen_probability([Look(look.places, look.recovery)], math.exp(log_mean)) - chance

    low, high = math.log(0.001), math.log(OVERLOOKED_AT_MOST)
    if look.plants == 0 or missed(high) > 0.0:
        return OVERLOOKED_AT_MOST
    return math.exp(float(optimize.brentq(missed, low, high, xtol=1e-3)))


@lru_cache(maxsize=1024)
def plants_to_dig(
    confidence: float, recovery: Beta, places: int = 4, intensity: Intensity | float = LIGHT, most: int = 400
) -> int | None:
    """Fewest plants, spread evenly over `places`, that show an infestation with chance `confidence` [0-1].

    None when more than `most` would be needed: then the method, not the number, is what must change.
    """

    def enough(plants: int) -> bool:
        return look_detection(Look(spread(plants, places), recovery), intensity) >= confidence

    if not enough(most):
        return None
    low, high = 0, most
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if enough(middle) else (middle, high)
    return high


# --- before the season: the crew's fields nearby -----------------------------------------------------------

AREA_KM, AREA_FADE_KM = 10.0, 5.0
"""Fields further off say nothing; what a nearer one says fades by ``exp(-km / 5)``. Soil travels with machines, water
and wind over a neighbourhood; how far was not measured: judgement."""


def prior_from_neighbours(neighbours: Sequence[tuple[float, float]]) -> float:
    """Chance [0-1] that a field is infested, before anything was looked for in it, from the fields around.

    `neighbours`: for each its distance [km] and how many times likelier what was seen there is if it is infested than
    if it is not (its own looks only; 1 = never looked, says nothing). The share ``p`` of infested fields in the area
    is unknown, evenly from 0 to 1 at first (mean 0.5, the convention); each neighbour's likelihood
    ``p r + 1 - p`` counts with the power of its distance's weight; the answer is the mean of ``p``.
    """
    p = (np.arange(200) + 0.5) / 200.0
    log_p = np.zeros_like(p)
    for km, ratio in neighbours:
        if km <= AREA_KM:
            log_p += math.exp(-km / AREA_FADE_KM) * np.log(p * ratio + 1.0 - p)
    chances = np.exp(log_p - log_p.max())
    return float(chances @ p / chances.sum())


INTRODUCTION = 0.02
"""Chance that a clean field becomes infested between two seasons. Judgement."""

# --- a chance of infestation from everything a season saw ------------------------------------------------

CONVENTION = 0.5
"""Chance of infestation when nothing is known. A convention, not knowledge, and always said to be one."""

FOUND_BEFORE = 0.98
"""Chance of infestation where it was found in earlier seasons: eggs last up to ten years (Slack1972). Judgement."""

FALSE_ALARMS: tuple[tuple[int, float], ...] = ((1, 0.08), (2, 0.03), (5, 0.005), (20, 0.0005))
"""From so many bodies on, the chance that a look in a clean field takes grains or nodules for them. Judgement."""

NEVER_CLEARS = 5
"""Once so many females were counted, clean looks of the season do not argue against infestation: a find is not
un-found by the tail of a judged table. Costs some points of overstatement (docs/science/detection.md)."""


EFFORT_STEP = 0.03
"""Step of the even grid of logarithms on which a look's reach is kept."""
LEAST_REACH = 1e-7
"""Less of the females than this brought up and seen is as good as none."""


@lru_cache(maxsize=64)
def _reach(look: Look) -> tuple[Floats, Floats, float]:
    """Share of a field's females on a plant that a look brings up and sees, females out that day included: values on
    an even grid of logarithms, their chances, and the chance that none are out.

    Recovery and the state of the season only come in as their product, so one list of products serves all field means;
    each product is shared between its two neighbours on the grid (an error below 2e-4 in any chance).
    """
    chances, out = _calendar([look])
    there = out[:, 0] > 0.0
    product = _recovery_nodes(*look.recovery)[:, None] * out[there, 0]
    weight = _unit_nodes()[1][:, None] * chances[there]
    if not there.any():
        return np.zeros(0), np.zeros(0), 1.0
    place = np.log(np.maximum(product, LEAST_REACH)).ravel() / EFFORT_STEP
    below = np.floor(place).astype(int)
    part, shares, least = place - below, weight.ravel(), int(below.min())
    size = int(below.max()) - least + 2
    chance = np.zeros(size)
    np.add.at(chance, below - least, shares * (1.0 - part))
    np.add.at(chance, below - least + 1, shares * part)
    return np.exp((least + np.arange(size)) * EFFORT_STEP), chance, float(chances[~there].sum())


def _counted(look: Look, least: int, most: int | None, means: Floats) -> Floats:
    """Chance that a look counts from `least` to `most` females (None: or more), for each field mean.

    Given field mean, recovery and state of the season the total is taken as negative binomial with the mean and
    variance that plants (`K_WITHIN`) at places (`K_BETWEEN`) give it.
    """
    if look.plants == 0:
        return np.full(means.size, 1.0 if least == 0 else 0.0)
    reach, chances, not_out = _reach(look)
    shares = sum((plants / look.plants) ** 2 for _, plants in look.places)
    shape = 1.0 / (shares / K_BETWEEN + (1.0 + 1.0 / K_BETWEEN) / (K_WITHIN * look.plants))
    total = look.plants * means[:, None] * reach
    p = shape / (shape + total)
    return np.asarray(_negative_binomial(least, most, shape, p) @ chances + (not_out if least == 0 else 0.0))


def _negative_binomial(least: int, most: int | None, shape: float, p: Floats) -> Floats:
    """Chance of a count from `least` to `most` (None: or more), summed: bounds are small, arrays are not."""
    term = p**shape
    if most == 0:
        return term
    missed, below, inside = 1.0 - p, np.zeros_like(p), np.zeros_like(p)
    for k in range(least if most is None else most + 1):
        if k:
            term *= missed
            term *= (shape + k - 1) / k
        if k < least:
            below += term
        else:
            inside += term
    return np.maximum(1.0 - below, 0.0) if most is None else inside


def infested_probability(
    prior: float,
    clean: Sequence[Look],
    found: Sequence[tuple[int, Look | None]] = (),
    intensity: Intensity = INTENSITIES[None],
) -> float:
    """Chance of infestation [0-1] after a season's clean looks and those that counted some.

    `found`: each count (>= 1) with its look; None in place of the look = it was sure to find true females. Bayes: the
    chance that an infested field shows so many, true or false, against the chance that a clean one does; a weak look on
    an early day was unlikely to find true females, so what it found may well be grit. Given the field's mean, looks
    that found some are taken to be independent of each other and of the clean ones.
    """
    prior = _share(prior, "prior")
    means, weight_m = _means(intensity)
    cleared = max((count for count, _ in found), default=0) < NEVER_CLEARS
    ratio = _none_seen(clean if cleared else (), means)
    for count, look in found:
        least, alarm = [row for row in FALSE_ALARMS if count >= row[0]][-1]
        more = next((row for row in FALSE_ALARMS if row[0] > count), None)
        alarm -= more[1] if more else 0.0
        if look is None:
            ratio = ratio / alarm
        else:
            true = _counted(look, least, more[0] - 1 if more else None, means)
            ratio = ratio * (true / alarm + _counted(look, 0, 0, means))
    odds = float(weight_m @ ratio)
    return prior * odds / (prior * odds + 1.0 - prior)
