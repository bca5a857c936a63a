"""Females per plant: intervals against libraries, coverage by simulation, ratios and places."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from statsmodels.discrete.discrete_model import NegativeBinomial
from statsmodels.stats.proportion import proportion_confint

from notes_bot.science import density

counts = st.lists(st.integers(0, 150), min_size=1, max_size=15)


@given(st.integers(1, 60), st.data(), st.sampled_from([0.5, 0.8, 0.95]))
def test_shares_of_plants_agree_with_statsmodels(total: int, data: st.DataObject, coverage: float) -> None:
    """Wilson, exact and Jeffreys intervals equal the reference library's."""
    count = data.draw(st.integers(0, total))
    ours = (density.wilson_interval, density.clopper_pearson_interval, density.jeffreys_interval)

    for interval, name in zip(ours, ("wilson", "beta", "jeffreys"), strict=True):
        low, high = proportion_confint(count, total, 1 - coverage, name)
        if name == "beta" and count == 0:
            low = 0.0
        assert interval(count, total, coverage) == pytest.approx((low, high), abs=1e-9)


def test_clumping_agrees_with_a_regression_library() -> None:
    """Maximum likelihood k equals that of a negative binomial regression on a constant."""
    x = np.random.default_rng(3).negative_binomial(0.8, 0.8 / (0.8 + 5.0), 200)
    fitted = NegativeBinomial(x, np.ones_like(x)).fit(disp=0)

    assert density.clumping_by_likelihood(x.tolist()) == pytest.approx(1.0 / fitted.params[1], rel=1e-3)


def test_counts_no_more_clumped_than_chance_have_an_endless_k() -> None:
    """Even counts say so instead of giving a number."""
    assert density.clumping_by_likelihood([4, 4, 4, 4]) == np.inf


def test_the_posterior_agrees_with_the_closed_form_when_there_are_many_plants() -> None:
    """With two hundred plants the prior is drowned and the textbook interval comes out."""
    x = np.random.default_rng(4).negative_binomial(1.0, 1.0 / 7.0, 200)
    k = density.clumping_by_likelihood(x.tolist())
    low, _, high = density.females_per_plant_interval(200, int(x.sum()), x.tolist())

    assert (low, high) == pytest.approx(density.mean_interval_closed_form(x.mean(), k, 200, 0.8), rel=0.03)


@pytest.mark.parametrize(("mean", "k", "plants"), [(1.8, 1.0, 8), (3.0, 0.8, 6), (15.0, 3.0, 5), (60.0, 1.2, 6)])
def test_stated_intervals_hold_the_truth_about_as_often_as_they_say(mean: float, k: float, plants: int) -> None:
    """The 80 % intervals hold the true mean in 72 to 97 of 100 simulated looks, with and without counts per plant."""
    rng = np.random.default_rng(11)
    held = np.zeros(2)
    for _ in range(200):
        x = [int(c) for c in rng.negative_binomial(k, k / (k + mean), plants)]
        for i, per_plant in enumerate((x, None)):
            low, _, high = density.females_per_plant_interval(plants, sum(x), per_plant)
            held[i] += low <= mean <= high

    assert (held / 200 > 0.72).all()
    assert (held / 200 < 0.97).all()


@given(counts)
@settings(max_examples=40, deadline=None)
def test_an_interval_is_ordered_and_holds_the_mean_found(per_plant: list[int]) -> None:
    """Low, middle, high in order, and what was counted is not outside by much."""
    low, middle, high = density.females_per_plant_interval(len(per_plant), sum(per_plant), per_plant)
    mean = sum(per_plant) / len(per_plant)

    assert 0.0 <= low <= middle <= high
    assert low / 1.5 <= mean <= high * 1.5 + 0.1


@given(counts)
@settings(max_examples=30, deadline=None)
def test_the_order_of_plants_does_not_matter(per_plant: list[int]) -> None:
    """Plants carry no number."""
    one = density.females_per_plant_interval(len(per_plant), sum(per_plant), per_plant)

    assert one == pytest.approx(density.females_per_plant_interval(len(per_plant), sum(per_plant), sorted(per_plant)))


def test_none_seen_has_a_low_end_of_zero_and_a_high_end_that_falls_with_plants() -> None:
    """Zero counts still bound the number from above."""
    spans = [density.females_per_plant_interval(plants, 0) for plants in (2, 5, 20)]

    assert all(low == 0.0 for low, _, _ in spans)
    assert spans[0][2] > spans[1][2] > spans[2][2] > 0.0


def test_counts_per_plant_are_sharper_than_their_total_when_plants_are_alike() -> None:
    """Seeing that plants agree narrows the interval."""
    alike = density.females_per_plant_interval(5, 100, [20, 21, 19, 20, 20])
    total = density.females_per_plant_interval(5, 100)

    assert alike[2] / alike[0] < total[2] / total[0]


def test_too_many_to_count_is_a_lower_bound() -> None:
    """The interval lies above what a plain count of the same number would give."""
    counted, bound = (density.density(2, 200, at_least=flag) for flag in (False, True))

    assert bound.quantile(0.5) > counted.quantile(0.5)
    assert bound.chance_above(60) > counted.chance_above(60)


def test_a_ratio_turned_over_is_one_over_it() -> None:
    """Comparing A with B and B with A says the same."""
    a, b = density.density(10, 18, [1, 2, 1, 0, 6, 0, 4, 1, 0, 3]), density.density(5, 272, [46, 61, 38, 72, 55])
    low, middle, high = density.ratio_interval(a, b)

    assert density.ratio_interval(b, a) == pytest.approx((1 / high, 1 / middle, 1 / low), rel=1e-6)
    assert low < 0.033 < high


def test_a_ratio_agrees_with_draws_from_both() -> None:
    """The convolved ratio equals that of independent draws."""
    rng = np.random.default_rng(8)
    a, b = density.density(6, 17, [3, 0, 7, 2, 5, 0]), density.density(5, 30)
    draws = np.log(rng.choice(a.means, 40_000, p=a.chances) / rng.choice(b.means, 40_000, p=b.chances))

    assert np.log(density.ratio_interval(a, b)) == pytest.approx(np.quantile(draws, [0.1, 0.5, 0.9]), abs=0.04)


def test_places_that_differ_are_told_from_places_that_do_not() -> None:
    """An oval with four times as many differs; two thin looks do not."""
    oval, good = density.density(5, 283, [57, 61, 43, 79, 43]), density.density(5, 73, [17, 11, 22, 11, 12])

    assert density.differ(oval, good)
    assert not density.differ(density.density(3, 10, [3, 0, 7]), density.density(3, 7, [2, 5, 0]))


def test_chance_above_and_quantile_are_each_others_inverse() -> None:
    """Half of the chance lies above the median, a tenth above the high end."""
    known = density.density(6, 17, [3, 0, 7, 2, 5, 0])

    assert known.chance_above(known.quantile(0.5)) == pytest.approx(0.5, abs=1e-6)
    assert known.chance_above(known.interval()[2]) == pytest.approx(0.1, abs=1e-6)


def test_an_impossible_count_is_refused() -> None:
    """No plants, or fewer than none, is not a count."""
    with pytest.raises(ValueError, match="at least one plant"):
        density.density(0, 0)
    with pytest.raises(ValueError, match="not negative"):
        density.density(3, -1)
