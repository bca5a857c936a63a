"""On which days soil is too wet for a spade: rain adds, each day lets some go. Judgement throughout.

No published rule for digging single plants was found; trade habit is to stay out for a day or so after a good rain,
longer on heavy ground (common practice, no source). The sum of past rain that fades by a fixed share a day is an old
tool of hydrology, the antecedent precipitation index (from memory); its shares here are for the top 20 cm of open,
drained farmland in summer and are chosen so that an inch of rain closes sand for one day, loam for three and clay for
four.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from typing import Literal

from notes_bot.science.detection import Moisture, soils_of

KEPT: Mapping[Literal["sand", "loam", "clay"], float] = {"sand": 0.45, "loam": 0.7, "clay": 0.82}
"""Share of the wetness still there a day later."""
TOO_WET_MM = 12.0
"""Wetness from which a spade brings up mud and females cannot be seen."""
NOTED_WET_MM = 25.0
"""Wetness of soil that a note calls wet."""
A_RAIN_MM = 5.0
"""Less than this is not named as what made the soil wet."""
AS_FAR_BACK = 15
"""Days of rain before the first day asked about that still matter."""


def wet_days(
    rain_mm: Mapping[date, float], noted: Mapping[date, Moisture], texture: str | None, first: date, last: date
) -> dict[date, date]:
    """Days from `first` to `last` on which the soil is too wet, each with the day of the rain or note that made it so.

    :param rain_mm: rain by day, measured, told or forecast; a day that is not there is taken as dry.
    :param noted: what notes said of the soil; one who dug in moist or dry soil shows that it carried a spade.
    :param texture: as notes say it; between two soils the one that dries more slowly is taken, loam where unknown.
    """
    kept = max(KEPT[soil] for soil in soils_of(texture))
    found: dict[date, date] = {}
    wetness, cause = 0.0, first
    day = first - timedelta(days=AS_FAR_BACK)
    while day <= last:
        fell = rain_mm.get(day, 0.0)
        wetness = wetness * kept + fell
        if fell >= A_RAIN_MM:
            cause = day
        match noted.get(day):
            case "wet":
                wetness, cause = max(wetness, NOTED_WET_MM), day
            case "moist":
                wetness = min(wetness, 0.9 * TOO_WET_MM)
            case "dry":
                wetness = 0.0
            case _:
                pass
        if day >= first and wetness >= TOO_WET_MM:
            found[day] = cause
        day += timedelta(days=1)
    return found
