"""Growth stages of soybean: reading V and R stages as numbers, and when roots are too far gone to judge.

Stages after Fehr and Caviness as restated in the Ohio State field guide [Osu827]. Days are day-of-year numbers for
the northern hemisphere; the caller turns the year round for the southern one.
"""

from __future__ import annotations

import re
from typing import NamedTuple

TROPICS_DEGREES = 25.0
R_DAYS_BEFORE_R6 = {1: 46.0, 2: 43.0, 3: 33.0, 4: 24.0, 5: 15.0, 6: 0.0, 7: -18.0, 8: -27.0}
"""Usual days from each R stage to R6 [Isu53, from memory]; negative after it."""
R_SD_DAYS = {1: 9.0, 2: 8.5, 3: 8.0, 4: 7.0, 5: 5.0, 6: 4.5, 7: 3.0, 8: 3.0}
"""Standard deviation of the day of R6 once a stage has been seen [Isu53 ranges, judgement]."""
ROOTS_AFTER_R6_DAYS = 9.0
"""Half way from R6 (cysts rub off) to R7 (roots dying): judgement from [Icm2024] and [Ritchie1994]."""
ROOTS_SD_DAYS = 7.0
KILLING_NORMAL_MIN_C = 0.0
"""Normal daily minimum at which a freeze that kills soybean is nearly sure to have come (judgement)."""
SHORTEST_SEASON_DAYS = 90
"""No crop is killed by the autumn sooner after planting (judgement)."""
LONGEST_SEASON_DAYS = 300
"""Days after planting in which the autumn is looked for (judgement)."""


class Days(NamedTuple):
    """A day with its standard deviation, in days."""

    middle: float
    sd: float


def vegetative_node(stage: str) -> float | None:
    """V stage as a number: V4 -> 4, V2.5 -> 2.5, VC -> 0.5, VE -> 0; ``None`` for an R stage or anything else."""
    text = stage.strip().upper()
    if text in ("VE", "VC"):
        return 0.0 if text == "VE" else 0.5
    match = re.fullmatch(r"V(\d{1,2}(?:\.\d)?)", text)
    return float(match[1]) if match and float(match[1]) <= 25 else None


def reproductive_stage(stage: str) -> float | None:
    """R stage as a number: R2 -> 2, R2.5 -> 2.5; ``None`` for anything that is not R1 to R8."""
    match = re.fullmatch(r"R(\d(?:\.\d)?)", stage.strip().upper())
    return float(match[1]) if match and 1 <= float(match[1]) <= 8 else None


def days_to_r6(stage: float) -> Days:
    """Days from a visit at an R stage to R6, straight between whole stages; negative when R6 is past.

    :raises ValueError: outside R1 to R8.
    """
    if not 1 <= stage <= 8:
        raise ValueError(f"no such stage: R{stage}")
    low = min(int(stage), 7)
    part = stage - low
    middle = R_DAYS_BEFORE_R6[low] * (1 - part) + R_DAYS_BEFORE_R6[low + 1] * part
    # A stage holds for days: a field seen "at R3" is on average half a stage past its beginning.
    half = (R_DAYS_BEFORE_R6[low] - R_DAYS_BEFORE_R6[low + 1]) / 2 if part == 0 and stage < 8 else 0.0
    return Days(middle - half / 2, R_SD_DAYS[low])


def usual_planting(latitude: float) -> Days:
    """Usual planting day of year (northern seasons) at a latitude, 25-55 degrees either side [memory, typical values].

    About 8 May up to 42 degrees, two days later for each degree beyond.
    """
    return Days(128.0 + 2.0 * max(0.0, abs(latitude) - 42.0), 11.0)


def usual_r6(latitude: float, planted: float) -> Days:
    """Day of year on which a field is usually at R6, from its latitude and planting day [memory, typical values].

    26 August at 42 degrees, a day earlier for each degree north of it; planted ten days later, four days later. Within
    25 degrees of the equator 85 days after planting. Never sooner than 70 days after planting.

    :param planted: day of year of planting, in the terms of a northern season.
    """
    if abs(latitude) < TROPICS_DEGREES:
        return Days(planted + 85.0, 7.0)
    day = 238.0 - 0.95 * (abs(latitude) - 42.0) + 0.4 * (planted - usual_planting(latitude).middle)
    return Days(max(day, planted + 70.0), 7.0)


def roots_end(r6: Days, killed: float | None = None) -> Days:
    """Day after which roots are too far gone to judge, from the day of R6: about nine days later.

    :param killed: the day by which freezes have killed the crop, whatever stage was noted; ``None`` without winter.
    """
    end = Days(r6.middle + ROOTS_AFTER_R6_DAYS, (r6.sd**2 + 3.0**2) ** 0.5)
    return end if killed is None or end.middle <= killed else Days(killed, ROOTS_SD_DAYS)
