"""Heat of a day above a lower and below an upper temperature, and soil temperature from air.

All temperatures are degrees Celsius unless a caller keeps to another unit throughout (the degree-day
formulas are the same in Fahrenheit). Arrays broadcast against each other; a missing value (NaN) comes out NaN.
"""

from __future__ import annotations

from typing import Literal, get_args

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.signal import lfilter

Floats = NDArray[np.float64]
Method = Literal[
    "single_sine",
    "double_sine",
    "single_triangle",
    "double_triangle",
    "average_floor_mean",
    "average_floor_minmax",
    "average_cap_mean",
    "average_clip_minmax",
    "average_cap_minmax",
    "average_four_cases",
]
Cutoff = Literal["none", "horizontal", "vertical", "intermediate", "intermediate_clipped"]

SOIL_LAG_PER_DAY = 0.12
"""Share of the gap between air and 10-cm soil closed in a day; 0.10-0.12 did best on two open records [Uscrn2020]."""


def degree_days(
    tmin: ArrayLike,
    tmax: ArrayLike,
    lower: float,
    upper: float | None = None,
    method: Method = "single_sine",
    cutoff: Cutoff = "horizontal",
    tmin_next: ArrayLike | None = None,
) -> Floats:
    """Degree-days of each day.

    With F(c) the degree-days above one level c without a ceiling and H(c) the share of the day spent above c,
    for the day's curve from ``tmin`` up to ``tmax`` and back:

    ==================== =============================================================
    none                 F(L)
    horizontal           F(L) - F(U), the rate stays at its value at U
    vertical             F(L) - F(U) - (U - L) H(U), the rate drops to nothing
    intermediate         max(F(L) - 2 F(U), vertical), the rate falls as fast as it rose [UcAnr2020]
    intermediate_clipped F(L) - 2 F(U) + F(2U - L), the same, never below zero
    ==================== =============================================================

    Single methods take the day as symmetric [BaskervilleEmin1969]; double methods join half a day up from
    ``tmin`` with half a day down to ``tmin_next`` [Allen1976]; triangles are straight lines
    [Sevacherian1977]. Averages: ``floor_mean`` max(mean - L, 0); ``floor_minmax`` raises both readings to L
    first; ``cap_mean`` holds the mean within L..U; ``clip_minmax`` holds both readings within L..U;
    ``cap_minmax`` caps both at U and floors only the mean; ``four_cases`` is the meteorologists'
    approximation without an upper limit [McMasterWilhelm1997]. Averages know no cutoff but their own.

    :param tmin: lowest temperature of the day [any unit, the same throughout].
    :param tmax: highest temperature of the day, at least ``tmin``.
    :param lower: L, below which nothing is gained.
    :param upper: U, above ``lower``; may be left out for ``cutoff="none"`` and for averages that have no cap.
    :param tmin_next: next day's lowest, for double methods; left out, each day's following value is taken along
        the last axis and the last day repeats its own.
    :returns: degree-days, shape of the broadcast readings.
    :raises ValueError: for ``tmax`` below ``tmin``, ``upper`` not above ``lower``, or an unknown name.
    """
    if method not in get_args(Method):
        raise ValueError(f"unknown method {method!r}")
    if cutoff not in get_args(Cutoff):
        raise ValueError(f"unknown cutoff {cutoff!r}")
    low, high = np.broadcast_arrays(np.asarray(tmin, dtype=float), np.asarray(tmax, dtype=float))
    if np.any(high < low):
        raise ValueError("a day's highest temperature lies below its lowest")
    if upper is not None and not upper > lower:
        raise ValueError("the upper temperature must lie above the lower one")
    if method.startswith("average_"):
        return _average(low, high, lower, upper, method)
    if upper is None:
        if cutoff != "none":
            raise ValueError(f"cutoff {cutoff!r} needs an upper temperature")
        upper = np.inf
    shape = "sine" if method.endswith("sine") else "triangle"
    if method.startswith("single"):
        return _curve(low, high, lower, upper, shape, cutoff)
    if tmin_next is None:
        following = np.concatenate([low[..., 1:], low[..., -1:]], axis=-1) if low.ndim else low
    else:
        following = np.broadcast_to(np.asarray(tmin_next, dtype=float), low.shape)
    # A next morning warmer than this afternoon leaves no curve to fall along: that half is held at the maximum.
    following = np.minimum(following, high)
    first = _curve(low, high, lower, upper, shape, cutoff)
    return (first + _curve(following, high, lower, upper, shape, cutoff)) / 2


def _curve(low: Floats, high: Floats, lower: float, upper: float, shape: str, cutoff: str) -> Floats:
    above_lower, _ = _above(low, high, lower, shape)
    if cutoff == "none":
        return above_lower
    above_upper, share = _above(low, high, upper, shape)
    if cutoff == "horizontal":
        return above_lower - above_upper
    vertical = above_lower - above_upper - (upper - lower) * share
    if cutoff == "vertical":
        return vertical
    if cutoff == "intermediate":
        return np.maximum(above_lower - 2 * above_upper, vertical)
    beyond, _ = _above(low, high, 2 * upper - lower, shape)
    return above_lower - 2 * above_upper + beyond


def _above(low: Floats, high: Floats, level: float, shape: str) -> tuple[Floats, Floats]:
    """Degree-days above one level without a ceiling, and the share of the day above it."""
    mean = (low + high) / 2
    half = (high - low) / 2
    inside = (low < level) & (high > level)
    safe = np.where(inside, half, 1.0)
    if shape == "sine":
        angle = np.arcsin(np.where(inside, (level - mean) / safe, 0.0))
        partial = ((mean - level) * (np.pi / 2 - angle) + half * np.cos(angle)) / np.pi
        share = 0.5 - angle / np.pi
    else:
        partial = (high - level) ** 2 / (4 * safe) if np.isfinite(level) else np.zeros_like(mean)
        share = (high - level) / (2 * safe) if np.isfinite(level) else np.zeros_like(mean)
    whole = (low >= level) & (high > level)  # a day held exactly at the level is not above it
    missing = np.isnan(low) | np.isnan(high)
    heat = np.where(inside, partial, np.where(whole, mean - level, 0.0))
    time = np.where(inside, share, np.where(whole, 1.0, 0.0))
    return np.where(missing, np.nan, heat), np.where(missing, np.nan, time)


def _average(low: Floats, high: Floats, lower: float, upper: float | None, method: str) -> Floats:
    mean = (low + high) / 2
    if method == "average_floor_mean":
        return np.maximum(mean - lower, 0.0)
    if method == "average_floor_minmax":
        return (np.maximum(low, lower) + np.maximum(high, lower)) / 2 - lower
    if method == "average_four_cases":
        mostly = (high - lower) / 2 - (lower - low) / 4
        partial = np.where(mean >= lower, mostly, (high - lower) / 4)
        whole = np.where(low >= lower, mean - lower, partial)
        return np.where(np.isnan(mean), np.nan, np.where(high <= lower, 0.0, whole))
    if upper is None:
        raise ValueError(f"{method} needs an upper temperature")
    if method == "average_cap_mean":
        return np.clip(mean, lower, upper) - lower
    if method == "average_clip_minmax":
        return (np.clip(low, lower, upper) + np.clip(high, lower, upper)) / 2 - lower
    return np.maximum((np.minimum(low, upper) + np.minimum(high, upper)) / 2 - lower, 0.0)


def daily_heat(soil_mean_c: ArrayLike, lower_c: float = 5.0, upper_c: float = 30.0) -> Floats:
    """Degree-days of days whose soil temperature hardly swings: the mean held within the two limits [C d].

    At 10 cm under a crop the daily swing is a few degrees and seldom touches 5 or 30 C, where all methods agree.
    """
    held: Floats = np.clip(np.asarray(soil_mean_c, dtype=float), lower_c, upper_c)
    return held - lower_c


def soil_temperature_lagged(
    air_mean_c: ArrayLike, lag_per_day: float = SOIL_LAG_PER_DAY, start_c: ArrayLike | None = None
) -> Floats:
    """Daily mean soil temperature at 10 cm from daily mean air temperature by a first-order lag [C].

    S(t) = S(t-1) + k [A(t) - S(t-1)], along the last axis; S before the first day is ``start_c``, by default the
    mean of the first eleven days of air. Against two open records of one summer under grass the error had a
    bias of +0.3 and +1.2 C and a standard deviation of 0.8 C [Uscrn2020]; no term for canopy or wetness.

    :param air_mean_c: daily means without gaps [C], shape (..., days).
    :param lag_per_day: k, above 0 and at most 1.
    :raises ValueError: for a lag outside that range or no days.
    """
    air = np.asarray(air_mean_c, dtype=float)
    if not 0 < lag_per_day <= 1:
        raise ValueError("the lag must lie above 0 and at most at 1 a day")
    if air.ndim == 0 or air.shape[-1] == 0:
        raise ValueError("no days of air temperature")
    start = air[..., :11].mean(axis=-1) if start_c is None else np.asarray(start_c, dtype=float)
    state = np.broadcast_to(start, air.shape[:-1]).astype(float)[..., None] * (1 - lag_per_day)
    soil: Floats = lfilter([lag_per_day], [1.0, lag_per_day - 1], air, axis=-1, zi=state)[0]
    return soil


def interpolate_monthly(monthly: ArrayLike, day_of_year: ArrayLike) -> Floats:
    """Daily values from twelve monthly means, straight between mid-months, round the year [unit of the means].

    :param monthly: twelve values, January first.
    :param day_of_year: 1-366.
    :raises ValueError: when there are not twelve values.
    """
    values = np.asarray(monthly, dtype=float)
    if values.shape != (12,):
        raise ValueError("twelve monthly values are needed")
    lengths = np.array([31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
    middles = np.cumsum(lengths) - lengths / 2
    daily: Floats = np.interp(np.asarray(day_of_year, dtype=float) - 0.5, middles, values, period=365.25)
    return daily
