"""What an egg count means in one named place: units, published categories, and what studies found of loss.

Limits differ between states up to fourfold and are never merged, averaged or borrowed: a place without a published
scale gets none. Units: eggs per 100 cm3 of soil unless said otherwise.
Source keys are explained in docs/references.md, the reading of limits in docs/science/eggs.md.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from scipy import stats

from notes_bot.science.parameters import Known
from notes_bot.science.sampling import log_spread

Level = Literal["none", "trace", "low", "moderate", "high"]
Condition = Literal["any", "soybean_next", "other_next"]

# --- units -----------------------------------------------------------------------------------------------

HALF_PINT_CC = 236.588
"""A US cup is half a US pint; by definition of the US gallon (3785.41 cm3)."""
MISSOURI_CUP_CC = 250.0
"""The Missouri laboratory's "cup". Source: MissouriLab."""
BULK_DENSITY = (1.1, 1.3, 1.5)
"""Dry soil, g/cm3: low, middle, high. Judgement; 1.1-1.5 is the span under which T was converted from kg."""
EGGS_PER_CYST = (50.0, 75.0, 100.0)
"""Factor from cysts to eggs: 50-100 (IowaSampling); single cysts hold 50-500 (NiblackDonald)."""


@dataclass(frozen=True, slots=True)
class Converted:
    """A count in eggs per 100 cm3, with what the conversion rests on."""

    low: float
    eggs: float
    high: float
    """Equal where the conversion is exact."""
    basis: str
    """Keys: as_is, volume, us_cup, missouri_cup, pint, gallon, weight, cysts."""
    factor: float


_VOLUME = re.compile(r"([\d.,]+)\s*(?:cc|cm3|cm³|cm\^3|ml)\b")
_WEIGHT = re.compile(r"([\d.,]*)\s*(kg|g)\b")


def to_per_100cc(value: float, unit: str, place: str | None = None) -> Converted:
    """`value` in `unit` as eggs per 100 cm3.

    `unit` is text such as "eggs per 250 cc", "eggs per cup", "eggs per kg", "cysts per 100 cc"; `place` decides
    whose cup it is. Raises ValueError for a unit that cannot be understood and for negative values.
    """
    if value < 0:
        raise ValueError("a count cannot be negative")
    text = unit.lower()
    spread: tuple[float, float, float] = (1.0, 1.0, 1.0)
    if (volume := _VOLUME.search(text)) is not None:
        cc = float(volume.group(1).replace(",", ""))
        if cc <= 0:
            raise ValueError("a volume must be more than nothing")
        basis = "as_is" if cc == 100.0 else "volume"
    elif re.search(r"\b(half[- ]?pint|cup)", text):
        missouri = place == "Missouri" and "cup" in text
        cc, basis = (MISSOURI_CUP_CC, "missouri_cup") if missouri else (HALF_PINT_CC, "us_cup")
    elif re.search(r"\b(pint|pt)\b", text):
        cc, basis = 2 * HALF_PINT_CC, "pint"
    elif re.search(r"\b(gallon|gal)\b", text):
        cc, basis = 16 * HALF_PINT_CC, "gallon"
    elif (weight := _WEIGHT.search(text)) is not None:
        grams = float(weight.group(1).replace(",", "") or 1.0) * (1000.0 if weight.group(2) == "kg" else 1.0)
        if grams <= 0:
            raise ValueError("a weight must be more than nothing")
        low, middle, high = BULK_DENSITY
        cc, basis, spread = grams / middle, "weight", (low / middle, 1.0, high / middle)
    else:
        raise ValueError(f"no volume or weight in {unit!r}")
    factor = 100.0 / cc
    if "cyst" in text:
        low, middle, high = EGGS_PER_CYST
        factor, basis, spread = factor * middle, "cysts", (spread[0] * low / middle, 1.0, spread[2] * high / middle)
    eggs = value * factor
    return Converted(eggs * spread[0], eggs, eggs * spread[2], basis, factor)


# --- categories ------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Band:
    """One row of a place's published scale [eggs/100 cm3]; `high` is ``None`` for "and above"."""

    place: str
    as_of: str
    condition: Condition
    level: Level
    low: float
    high: float | None
    advice: str
    """Keys in `ADVICE`."""
    source: str
    known: Known
    note: str = ""


ADVICE = (
    "sample_again",
    "keep_checking",
    "susceptible_may_lose",
    "susceptible_allowed",
    "rotate_and_resist",
    "resist_or_nonhost",
    "nonhost_then_resistant",
    "nonhost_years",
    "nonhost_or_resistant",
    "keep_plan",
    "worry",
    "to_nonhosts",
    "maybe_other_species",
)

# fmt: off
_LIMIT = "word of the level from memory"
SCALES: tuple[Band, ...] = (
    Band("Iowa", "current", "soybean_next", "none", 0, 0, "sample_again", "IowaManagement", "published"),
    Band("Iowa", "current", "soybean_next", "low", 1, 2000, "rotate_and_resist", "IowaManagement", "published", _LIMIT),
    Band("Iowa", "current", "soybean_next", "moderate", 2001, 12000, "rotate_and_resist", "IowaManagement",
         "published", _LIMIT),
    Band("Iowa", "current", "soybean_next", "high", 12001, None, "nonhost_years", "IowaManagement", "published",
         "limit inferred from the row before"),
    Band("Iowa", "current", "other_next", "none", 0, 0, "sample_again", "IowaManagement", "published"),
    Band("Iowa", "current", "other_next", "low", 1, 4000, "rotate_and_resist", "IowaManagement", "published", _LIMIT),
    Band("Iowa", "current", "other_next", "moderate", 4001, 16000, "rotate_and_resist", "IowaManagement",
         "published", _LIMIT),
    Band("Iowa", "current", "other_next", "high", 16001, None, "nonhost_years", "IowaManagement", "published",
         "limit inferred from the row before"),
    Band("Ohio", "2012-2018", "any", "none", 0, 40, "keep_checking", "OhioGuide", "published"),
    Band("Ohio", "2012-2018", "any", "trace", 40, 200, "susceptible_may_lose", "OhioGuide", "published"),
    Band("Ohio", "2012-2018", "any", "low", 200, 2000, "resist_or_nonhost", "OhioGuide", "published"),
    Band("Ohio", "2012-2018", "any", "moderate", 2000, 5000, "nonhost_then_resistant", "OhioGuide", "published"),
    Band("Ohio", "2012-2018", "any", "high", 5000, None, "nonhost_years", "OhioGuide", "published"),
    Band("Missouri", "undated", "any", "low", 0, 200, "susceptible_allowed", "MissouriLab", "published",
         "printed as 500 per cup of 250 cm3"),
    Band("Missouri", "undated", "any", "moderate", 200, 4000, "rotate_and_resist", "MissouriLab", "published",
         "printed as 10,000 per cup of 250 cm3"),
    Band("Missouri", "undated", "any", "high", 4000, None, "nonhost_or_resistant", "MissouriLab", "published"),
    Band("Illinois", "2024-2025", "any", "low", 0, 1000, "keep_plan", "IllinoisSurvey2024", "published"),
    Band("Illinois", "2024-2025", "any", "moderate", 1000, 10000, "worry", "IllinoisSurvey2024", "published",
         "a survey mean of 1,512 was called moderate; the upper limit is that of the row below"),
    Band("Illinois", "2024-2025", "any", "high", 10000, None, "to_nonhosts", "IllinoisBond2025", "published"),
    Band("North Dakota", "2017-2020", "any", "trace", 50, 200, "maybe_other_species", "NdsuSampling", "published"),
    Band("North Dakota", "2017-2020", "any", "low", 201, 2000, "maybe_other_species", "NdsuSampling", "published",
         "a map class; the classes above were not seen"),
)
# fmt: on
"""Published categories. Limits that two neighbouring rows share belong to the upper one: Ohio's 200 is low."""

NO_SCALE = ("Indiana", "Nebraska", "Kansas", "Wisconsin", "Ontario", "Kentucky", "Michigan", "Minnesota",
            "South Dakota")  # fmt: skip
"""Places whose pages were looked through without finding limits, or (Michigan, Minnesota) were not found."""

RESISTANT_LOSES: Mapping[str, tuple[float, str]] = {"Missouri": (800.0, "MissouriLab")}
"""From this count some loss is expected even on resistant varieties, where a place says so."""

HG_TRIGGER: Mapping[str, tuple[float, str]] = {
    "Ohio": (500.0, "OhioNote2019"),
    "Illinois": (5000.0, "IllinoisSurvey2024"),
    "Missouri": (4000.0, "MissouriLab"),
}
"""From this count a place's laboratory sends the sample on, or considers sending it, to a test for HG type.
Illinois used 3,000 the year before."""

_ALIASES = {
    "ia": "Iowa", "oh": "Ohio", "mo": "Missouri", "il": "Illinois", "nd": "North Dakota", "sd": "South Dakota",
    "in": "Indiana", "ne": "Nebraska", "ks": "Kansas", "wi": "Wisconsin", "on": "Ontario", "ky": "Kentucky",
    "mi": "Michigan", "mn": "Minnesota",
}  # fmt: skip


def place_name(text: str | None) -> str | None:
    """The state or province as the tables spell it; an unknown one as written, in title case; None for nothing."""
    bare = " ".join((text or "").replace(".", " ").split()).lower()
    if not bare:
        return None
    return _ALIASES.get(bare, bare.title())


def scale(place: str | None, condition: Condition = "any") -> tuple[Band, ...]:
    """That place's rows, lowest first; empty when it has none. A row for "any" next crop fits every condition."""
    return tuple(b for b in SCALES if b.place == place and (b.condition in ("any", condition)))


def conditions(place: str | None) -> tuple[Condition, ...]:
    """Under which conditions the place has a scale: ("any",) or by the next crop; empty without one."""
    return tuple(dict.fromkeys(b.condition for b in SCALES if b.place == place))


def band(eggs: float, place: str | None, condition: Condition = "any") -> Band | None:
    """The row a count falls in; ``None`` outside the scale or without one. Counts are taken as whole eggs."""
    whole = math.floor(eggs + 0.5)
    found = None
    for row in scale(place, condition):
        if whole >= row.low and (row.high is None or whole <= row.high):
            found = row  # a limit two rows share belongs to the upper one
    return found


def level_chances(eggs: float, cv: float, place: str | None, condition: Condition = "any") -> dict[Level, float]:
    """Chance [0-1] of each level for the field's true mean, given one count of error `cv`; empty without a scale.

    A zero keeps its own row: nothing is known of the mean but that little was found.
    """
    rows = scale(place, condition)
    if not rows:
        return {}
    if eggs <= 0:
        zero = band(0, place, condition)
        return {zero.level: 1.0} if zero else {}
    s, middle = log_spread(cv), math.log(eggs)

    def below(limit: float) -> float:
        return float(stats.norm.cdf((math.log(limit) - middle) / s)) if limit > 0 else 0.0

    out: dict[Level, float] = {}
    for number, row in enumerate(rows):
        upper = rows[number + 1].low if number + 1 < len(rows) else None
        high = (
            1.0 if upper is None and row.high is None else below(upper if upper is not None else float(row.high or 0))
        )
        out[row.level] = out.get(row.level, 0.0) + max(high - below(row.low), 0.0)
    return out


# --- loss --------------------------------------------------------------------------------------------------

Soils = Literal["any", "coarse", "fine"]


@dataclass(frozen=True, slots=True)
class LossStudy:
    """What one study found on susceptible varieties, as percent loss, within the densities it covered."""

    name: str
    from_eggs: float
    to_eggs: float
    low_percent: float
    high_percent: float
    soils: Soils
    source: str
    known: Known
    note: str = ""


# fmt: off
LOSS_STUDIES: tuple[LossStudy, ...] = (
    LossStudy("iowa_microplots", 1000, 1500, 19, 52, "any", "Niblack1992", "published",
              "at 1,250 eggs; the two figures are two years of one trial"),
    LossStudy("ohio_coarse", 1661, 15558, 21, 56, "coarse", "Wheeler1997", "published"),
    LossStudy("ohio_fine", 463, 14330, 0, 18, "fine", "Wheeler1997", "published",
              "resistant above susceptible, so the loss is on the resistant yield at most this"),
    LossStudy("ohio_guide", 2000, 5000, 20, 50, "any", "OhioGuide", "published"),
    LossStudy("missouri_none", 0, math.inf, 0, 0, "any", "Donald1999", "published",
              "no relation to density at planting in four years"),
    LossStudy("carolina_none", 0, math.inf, 0, 0, "any", "AlstonSchmitt1987", "published",
              "no relation at one of two sites"),
)
# fmt: on

TOLERANCE = (0.0, 50.0, 70.0)
"""Density below which no loss is expected [eggs/100 cm3]: 0 on sand (Schmitt1987), 10-50 (Niblack1992), 52-70
(FranclDropkin1986, 470 eggs/kg at 1.1-1.5 g/cm3)."""

MICROPLOT = (22.0, 1250.0)
"""Tolerance (geometric mean of 10 and 50) and the density at which loss was given, Niblack1992."""


def microplot_loss(eggs: float, at_1250: float) -> float:
    """Percent loss by a line in the logarithm from 22 eggs (none) to `at_1250` percent at 1,250; flat beyond.

    Derived from two published points (Niblack1992); not stated so by its authors, not valid above 1,250.
    """
    low, high = MICROPLOT
    if eggs <= low:
        return 0.0
    return at_1250 * min(1.0, math.log(eggs / low) / math.log(high / low))


@dataclass(frozen=True, slots=True)
class Loss:
    """Spread of what studies found at such counts, percent of yield, susceptible varieties."""

    low_percent: float
    high_percent: float
    studies: tuple[LossStudy, ...]
    none_found: int
    """How many of them found no loss or no relation."""
    below_tolerance: bool


def expected_loss(eggs: float, soils: Soils = "any") -> Loss:
    """What published studies found on susceptible varieties at this density, as a range over studies."""
    if eggs < 0:
        raise ValueError("a count cannot be negative")
    fitting = [
        s for s in LOSS_STUDIES if s.from_eggs <= eggs <= s.to_eggs and (soils == "any" or s.soils in ("any", soils))
    ]
    low_line, high_line = microplot_loss(eggs, 19.0), microplot_loss(eggs, 52.0)
    if 0 < eggs < 1000:  # below the trial's own figure the line between its two points stands in
        fitting.insert(0, LossStudy("iowa_microplots", 22, 1250, low_line, high_line, "any", "Niblack1992", "fitted"))
    positive = [s for s in fitting if s.high_percent > 0]
    none_found = sum(s.high_percent == 0 for s in fitting)
    high = max((s.high_percent for s in positive), default=0.0)
    return Loss(min(s.low_percent for s in fitting), high, tuple(fitting), none_found, eggs <= TOLERANCE[1])
