"""A crew's own double-digging trial: how much of what is on a root do we bring up and see?

No published number exists for the chance that a female is recovered by a way of digging, and everything "none seen"
means rests on it. A crew can measure it in an hour: on a field known to be infested, look at a plant as usual and
count (`found`); then wash the same root slowly in a white tray and go through the soil left in the hole and on the
spade (`left`). Thirty plants of one method on one kind of soil replace a row of the table worth ten observations.

The second look misses some as well, so the chance is measured against the second look, not against the truth: an
upper bound. docs/science/detection.md has the recipe.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from scipy import special, stats

from notes_bot.science.density import Estimate, density, ratio_interval
from notes_bot.science.detection import CONDITIONS, RECOVERIES, Condition, Method, Recovery

WEIGHT_AT_MOST = 40.0
"""However many plants a trial holds, another day and another pair of eyes differ. Judgement."""

_METHODS: tuple[Method, ...] = ("pulled", "eased", "shovel")
_YES = {"yes", "y", "true", "1", "si", "sí", "sim"}
_NO = {"no", "n", "false", "0", "nao", "não", ""}


@dataclass(frozen=True, slots=True)
class Plant:
    """One plant looked at twice: females `found` as usual, and those `left` that the slow second look brought out."""

    method: Method
    soaked: bool
    condition: Condition
    found: int
    left: int


def read_trial(lines: Iterable[str]) -> tuple[Plant, ...]:
    """Rows of a CSV with the columns method, soaked, soil, found, left.

    Lines that start with # are skipped. Raises ValueError naming the line for anything that cannot be.
    """
    kept = [(number, line) for number, line in enumerate(lines, start=1) if line.strip() and not line.startswith("#")]
    reader = csv.DictReader((line for _, line in kept), skipinitialspace=True)
    missing = {"method", "soaked", "soil", "found", "left"} - set(reader.fieldnames or ())
    if missing:
        raise ValueError(f"the trial lacks the columns {', '.join(sorted(missing))}")
    return tuple(_plant(row, number) for row, (number, _) in zip(reader, kept[1:], strict=True))


def _plant(row: dict[str, str], number: int) -> Plant:
    method, soil, soaked = (str(row[key]).strip().lower() for key in ("method", "soil", "soaked"))
    if method not in _METHODS:
        raise ValueError(f"line {number}: method must be one of {', '.join(_METHODS)}, not {method!r}")
    if soil not in CONDITIONS:
        raise ValueError(f"line {number}: soil must be one of {', '.join(CONDITIONS)}, not {soil!r}")
    if soaked not in _YES | _NO:
        raise ValueError(f"line {number}: soaked must be yes or no, not {soaked!r}")
    try:
        found, left = int(row["found"]), int(row["left"])
    except (TypeError, ValueError):
        raise ValueError(f"line {number}: found and left must be whole numbers") from None
    if found < 0 or left < 0:
        raise ValueError(f"line {number}: found and left must not be negative")
    return Plant(method, soaked in _YES, soil, found, left)


def measured(plants: Sequence[Plant], table: Sequence[Recovery] = RECOVERIES) -> tuple[Recovery, ...]:
    """`table` with every row that the trial speaks of replaced by what prior and trial say together.

    Females of one plant share its fate, so they are not so many independent trials: recovery is beta-binomial between
    plants, its spread unknown. The row's old number is the prior, worth its weight.
    """
    return tuple(_updated(row, plants) for row in table)


def _updated(row: Recovery, plants: Sequence[Plant]) -> Recovery:
    mine = [
        (p.found, p.found + p.left)
        for p in plants
        if (p.method, p.soaked, p.condition) == (row.method, row.soaked, row.condition) and p.found + p.left > 0
    ]
    if not mine:
        return row
    q = np.linspace(0.0025, 0.9975, 400)
    # a + b of a plant's own Beta: from plants that differ wildly to plants all alike
    alike = np.geomspace(0.5, 200.0, 25)
    log_p = stats.beta.logpdf(q, row.chance * row.weight, (1.0 - row.chance) * row.weight)[:, None] + np.zeros(25)
    for found, total in mine:
        log_p += _beta_binomial(found, total, q[:, None] * alike, (1.0 - q[:, None]) * alike)
    chances = np.exp(log_p - log_p.max()).sum(axis=1)
    chances /= chances.sum()
    mean = float(chances @ q)
    spread = float(chances @ (q - mean) ** 2)
    weight = min(mean * (1.0 - mean) / spread - 1.0, WEIGHT_AT_MOST)
    return replace(row, chance=mean, weight=weight, source="own trial", plants=len(mine))


def _beta_binomial(found: int, total: int, a: NDArray[np.float64], b: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.asarray(special.betaln(found + a, total - found + b) - special.betaln(a, b), dtype=float)


def compare_methods(one: Sequence[int], other: Sequence[int]) -> Estimate:
    """How many times as many females a plant `one` way shows as the `other`: low, middle, high (80 %).

    For a trial of neighbouring plants dug in two ways, without a second look: counts per plant, each way in its own
    list. The ratio is that of the two recoveries; neither is known by itself.
    """
    return ratio_interval(density(len(one), sum(one), one), density(len(other), sum(other), other))
