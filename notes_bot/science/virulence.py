"""Is a resistant variety holding? What counts on roots in the field can say, as chances.

A field comparison, not a greenhouse female index: plants, soil and days are not controlled, and females of all
ages hang on a field root. Two yardsticks: the published field alarm (females per root on a variety sold as
resistant) and, where a susceptible check strip was dug the same day, the ratio to it.
Source keys are explained in docs/references.md, the model in docs/science/resistance.md.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from notes_bot.science.density import Density, ratio_chances

ALARM_LOW, ALARM_HIGH = 10.0, 20.0
"""Published field alarm: more than 10-20 white females per root system on a resistant variety (NoTillStart,
second-hand). Counted here over all colours: white alone would change with the day of the visit."""

RATIO_LOW, RATIO_HIGH = 0.10, 0.30
"""Ratio to the check strip: below 10 % holding, above 30 % slipping. The limits are those of the greenhouse rating
"resistant" and "moderately resistant" (SchmittShannon1992), borrowed for the field: judgement."""

NO_PRESSURE = 5.0
"""Below so many females per plant on the susceptible strip there is no pressure to judge by. Judgement."""

SURE_HOLDING = 0.8
"""Chance of holding that is asked for before we say so: false comfort costs more than another look. Judgement."""

Verdict = Literal["holding", "watch", "slipping"]


@dataclass(frozen=True, slots=True)
class Chances:
    """Chances [0-1] that the truth lies below the lower limit, between the two and above the upper; they sum to 1."""

    holding: float
    watch: float
    slipping: float


def chances_per_root(resistant: Density) -> Chances:
    """Chances by the field alarm of females per root."""
    above_low, above_high = resistant.chance_above(ALARM_LOW), resistant.chance_above(ALARM_HIGH)
    return Chances(1.0 - above_low, above_low - above_high, above_high)


def chances_against_check(resistant: Density, check: Density) -> Chances:
    """Chances by the ratio to a susceptible check strip dug the same day in the same way."""
    ratio = Density(*ratio_chances(resistant, check))
    above_low, above_high = ratio.chance_above(RATIO_LOW), ratio.chance_above(RATIO_HIGH)
    return Chances(1.0 - above_low, above_low - above_high, above_high)


def worse(one: Chances, other: Chances) -> Chances:
    """The chances of the two that hold out less hope."""
    return min((one, other), key=lambda c: c.holding - c.slipping)


def verdict(chances: Chances, *, may_hold: bool = True) -> tuple[Verdict, float]:
    """The word for `chances` and its chance [0-1].

    "holding" only when at least 80 % sure (and `may_hold`: the look was fit to show it); "slipping" when above the
    upper limit is likelier than not; everything else is "watch", whose chance is that of lying above the lower
    limit, or of holding after all not being shown.
    """
    if may_hold and chances.holding >= SURE_HOLDING:
        return "holding", chances.holding
    if chances.slipping > 0.5:
        return "slipping", chances.slipping
    return "watch", float(np.clip(chances.watch + chances.slipping, 0.0, 1.0))
