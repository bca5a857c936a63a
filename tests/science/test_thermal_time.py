"""Degree-days against printed tables and against numerical integration; soil temperature against worked examples."""

from __future__ import annotations

import csv
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq

from notes_bot.science.thermal_time import (
    daily_heat,
    degree_days,
    interpolate_monthly,
    soil_temperature_lagged,
)

PUBLISHED = Path(__file__).parent.parent / "published"
NAMES = {
    "simple_average_floor_mean": "average_floor_mean",
    "simple_average_floor_minmax": "average_floor_minmax",
    "simple_average_floor_mean_cap_mean": "average_cap_mean",
    "simple_average_clip_minmax": "average_clip_minmax",
}


def rows() -> list[dict[str, str]]:
    with (PUBLISHED / "degree_day_examples.csv").open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def ours(row: dict[str, str]) -> float:
    tmin, tmax, low = float(row["tmin"]), float(row["tmax"]), float(row["lower"])
    upper = float(row["upper"]) if row["upper"] else None
    method = NAMES.get(row["method"], row["method"])
    following = float(row["next_tmin"]) if row["next_tmin"] else None
    return float(degree_days(tmin, tmax, low, upper, method, row["cutoff"], following))


def test_every_published_row_comes_out_to_its_printed_rounding():
    """Zalom et al. 1983, the California reference year, McMaster & Wilhelm 1997 and two extension sheets."""
    checked = 0
    for row in rows():
        if not row["dd_published"]:
            continue
        printed = row["dd_published"]
        decimals = len(printed.partition(".")[2])
        # Half a unit of the last digit, and a hair for decimal halves that binary cannot hold.
        assert ours(row) == pytest.approx(float(printed), abs=0.5 * 10**-decimals + 1e-9), row
        checked += 1

    assert checked >= 170


def test_the_suspected_misprint_is_off_by_more_than_its_rounding():
    """One cell of the 1983 table disagrees with the integral; we side with the integral."""
    printed = 24.88  # Zalom et al. 1983, Table 7, 60/100 F, next morning 75 F, double triangle

    got = float(degree_days(60, 100, 55, 90, "double_triangle", tmin_next=75))

    halves = [integrated(morning, 100, 55, 90, "triangle", "horizontal") for morning in (60, 75)]
    want = sum(halves) / 2
    assert got == pytest.approx(want, abs=1e-9)
    assert got == pytest.approx(27.125, abs=1e-9)
    assert abs(got - printed) > 2


def test_rows_without_print_agree_with_the_independent_number():
    """The remaining rows carry a value integrated elsewhere, printed to four decimals."""
    for row in rows():
        assert ours(row) == pytest.approx(float(row["dd_numeric"]), abs=5.1e-5), row


def integrated(a: float, b: float, lower: float, upper: float, shape: str, cutoff: str) -> float:
    """The day's rate integrated along its curve, split where the curve crosses a level."""
    if shape == "sine":
        curve = lambda t: (a + b) / 2 + (b - a) / 2 * np.sin(np.pi * (t - 0.5))  # noqa: E731 - one line reads best
    else:
        curve = lambda t: a + (b - a) * t  # noqa: E731

    def rate(t: float) -> float:
        x = curve(t)
        if x <= lower:
            return 0.0
        if cutoff == "none" or x <= upper:
            return float(x - lower)
        if cutoff == "horizontal":
            return upper - lower
        if cutoff == "vertical":
            return 0.0
        return float(max(2 * upper - lower - x, 0.0))

    breaks = {0.0, 1.0}
    for level in (lower, upper, 2 * upper - lower):
        if a < level < b:
            breaks.add(brentq(lambda t, level=level: curve(t) - level, 0, 1, xtol=1e-15))
    edges = sorted(breaks)
    return sum(quad(rate, s, e, epsabs=1e-13, epsrel=1e-13)[0] for s, e in pairwise(edges))


@pytest.mark.parametrize("cutoff", ["none", "horizontal", "vertical", "intermediate_clipped"])
@pytest.mark.parametrize("method", ["single_sine", "double_sine", "single_triangle", "double_triangle"])
def test_formulas_equal_numerical_integration(method, cutoff):
    """Against scipy's adaptive quadrature on random days, to 1e-9."""
    draw = np.random.default_rng(5)
    shape = method.partition("_")[2]
    for _ in range(40):
        a = draw.uniform(-15, 35)
        b = a + draw.uniform(0, 25)
        following = min(a + draw.normal(0, 6), b)
        got = degree_days(a, b, 5.0, 30.0, method, cutoff, following)
        want = integrated(a, b, 5.0, 30.0, shape, cutoff)
        if method.startswith("double"):
            want = (want + integrated(following, b, 5.0, 30.0, shape, cutoff)) / 2

        assert float(got) == pytest.approx(want, abs=1e-9)


@given(st.floats(-40, 50), st.floats(0, 30), st.sampled_from(["single_sine", "single_triangle"]))
def test_a_capped_day_gains_between_nothing_and_the_full_span(low, swing, method):
    """Horizontal cutoff: never below 0, never above upper minus lower, and a vertical cutoff gives no more."""
    flat = float(degree_days(low, low + swing, 5, 30, method))
    cut = float(degree_days(low, low + swing, 5, 30, method, "vertical"))

    assert -1e-12 <= cut <= flat + 1e-12 <= 25 + 2e-12


@pytest.mark.parametrize(
    ("celsius", "days", "dd5", "dd10"),
    [(25, 10, 200, 150), (33, 1, 25, 20), (4, 1, 0, 0)],
)
def test_constant_temperatures_add_up_as_by_hand(celsius, days, dd5, dd10):
    """Ten days at 25 C are 200 above 5; 33 C counts as 30; 4 C counts for nothing."""
    for lower, want in ((5, dd5), (10, dd10)):
        assert degree_days(np.full(days, celsius), np.full(days, celsius), lower, 30).sum() == pytest.approx(want)
        assert daily_heat(np.full(days, celsius), lower, 30).sum() == pytest.approx(want)


@pytest.mark.parametrize(
    ("method", "want"),
    [("average_cap_mean", 13.0), ("average_clip_minmax", 12.5), ("average_cap_minmax", 11.5)],
)
def test_three_rules_called_average_differ_on_one_day(method, want):
    """3/33 C with 5 and 30: the three methods of the FAO AquaCrop manual give 13.0, 12.5 and 11.5."""
    assert float(degree_days(3, 33, 5, 30, method)) == pytest.approx(want)


def test_the_meteorologists_four_cases():
    """2/14 C above 5 is 3.75 by the four-case rule (Met Eireann's published rule, worked by hand)."""
    got = degree_days([2, 6, -4, -4], [14, 14, 8, 4], 5, method="average_four_cases")

    assert got == pytest.approx([3.75, 5.0, 0.75, 0.0])


def test_a_missing_reading_stays_missing():
    """NaN in, NaN out, and the days beside it are untouched."""
    got = degree_days([10, np.nan, 10], [20, 20, 20], 5, 30)

    assert np.isnan(got[1])
    assert got[[0, 2]] == pytest.approx([10, 10])


def test_impossible_days_are_refused():
    """A maximum below the minimum, limits the wrong way round and unknown names are errors."""
    with pytest.raises(ValueError, match="below its lowest"):
        degree_days(20, 10, 5, 30)
    with pytest.raises(ValueError, match="above the lower"):
        degree_days(10, 20, 30, 5)
    with pytest.raises(ValueError, match="unknown method"):
        degree_days(10, 20, 5, 30, "sine")
    with pytest.raises(ValueError, match="unknown cutoff"):
        degree_days(10, 20, 5, 30, cutoff="steep")


def test_double_methods_take_the_next_morning_from_the_row():
    """Without next mornings given, each day uses its successor and the last one its own."""
    low, high = np.array([50.0, 45.0, 60.0]), np.array([82.0, 70.0, 80.0])
    given_next = degree_days(low, high, 55, 90, "double_sine", tmin_next=[45.0, 60.0, 60.0])

    assert degree_days(low, high, 55, 90, "double_sine") == pytest.approx(given_next)


def test_soil_follows_air_as_in_the_worked_example():
    """Lag 0.12 from 18.0 C: computed with numpy outside the project, printed to three decimals."""
    got = soil_temperature_lagged([20, 24, 26, 22, 18], 0.12, 18.0)

    assert got == pytest.approx([18.240, 18.931, 19.779, 20.046, 19.800], abs=5e-4)


def test_soil_settles_at_constant_air():
    """After many days of one temperature the soil has it, whatever it started from."""
    assert soil_temperature_lagged(np.full(200, 21.0), start_c=3.0)[-1] == pytest.approx(21.0, abs=1e-6)


def test_monthly_means_are_met_in_mid_month_and_join_over_new_year():
    """Straight lines between mid-months; the last of December meets the first of January."""
    means = [-7, -4, 3, 10, 16, 22, 24, 23, 18, 11, 4, -4]

    assert interpolate_monthly(means, 365.25 / 24 + 0.75) == pytest.approx(-7, abs=0.05)
    assert interpolate_monthly(means, 366) == pytest.approx(interpolate_monthly(means, 1), abs=0.15)
