"""What a bag of soil can tell."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from notes_bot.science import sampling
from notes_bot.science.sampling import (
    change,
    composite_cv,
    count_interval,
    miss_chance,
    protocol,
    resample,
    samples_for_precision,
    tellable_ratio,
    trend,
    within_chance,
)


def test_thirty_five_cores_and_four_subsamples_land_within_a_quarter_as_published():
    """Francl 1986: within 25 % of the plot mean with probability 0.77-0.85, a CV of 17-21 %."""
    cv = composite_cv(35, 4, plot=True)

    assert 0.17 <= cv <= 0.21
    assert 0.77 <= within_chance(0.25, cv) <= 0.85


def test_most_counts_lie_within_half_of_the_mean_and_two_bags_beat_one():
    """Schmitt et al. 1990: most composites of 10-80 cores within 50 %; two composites better than one."""
    for cores in (10, 20, 40, 80):
        assert within_chance(0.5, composite_cv(cores)) > 0.5
        assert composite_cv(cores, composites=2) < composite_cv(cores)


def test_more_cores_gain_more_than_more_subsamples_where_cores_are_few():
    """Francl 1986: more cores are the cheapest gain."""
    assert composite_cv(40, 1) < composite_cv(20, 2)


@pytest.mark.parametrize(
    ("a", "b", "mean", "samples"),
    [(1.58, 1.33, 1, 158), (1.58, 1.33, 5, 54), (2.92, 1.47, 5, 124), (2.92, 1.47, 8, 97)],
)
def test_sample_numbers_by_taylors_law_match_the_printed_table(a, b, mean, samples):
    """Abd-Elgawad's tables for Pratylenchus and Meloidogyne incognita at a standard error of a tenth of the mean."""
    assert round(samples_for_precision(a, b, mean, 0.10)) == samples


@pytest.mark.parametrize(("cv", "ratio"), [(0.3, 2.3), (0.5, 3.7)])
def test_two_single_bags_cannot_tell_a_doubling_apart(cv, ratio):
    """At CV 30-50 % the 95 % limits of a ratio of two counts are about x/÷ 2.3-3.7 (arithmetic)."""
    assert tellable_ratio(cv, cv) == pytest.approx(ratio, abs=0.05)


def test_a_split_bag_may_differ_threefold_without_a_change():
    """10,000 and 30,000 from one sample are called believable by Niblack & Donald; a poor laboratory explains it."""
    assert not change(30000, 10000, 0.5, 0.5).changed


def test_changed_is_said_only_beyond_the_noise():
    """Tenfold is a change, a doubling is not."""
    assert change(24000, 2400, 0.43, 0.43).changed
    assert change(240, 2400, 0.43, 0.43).changed
    assert not change(4800, 2400, 0.43, 0.43).changed
    assert change(0, 2400, 0.43, 0.43) is None


def test_a_true_change_is_rarely_claimed_when_there_is_none():
    """Simulated pairs from one field: "changed" in about 5 of 100."""
    rng = np.random.default_rng(7)
    s = sampling.log_spread(0.43)
    pairs = 2000 * np.exp(s * rng.standard_normal((4000, 2)))
    claimed = np.mean([change(a, b, 0.43, 0.43).changed for a, b in pairs])

    assert 0.03 < claimed < 0.07


def test_the_interval_holds_the_truth_as_often_as_it_says():
    """Simulated counts: the 80 % interval covers the mean in 80 of 100."""
    rng = np.random.default_rng(3)
    s = sampling.log_spread(0.43)
    spans = [count_interval(2000 * math.exp(s * z), 0.43) for z in rng.standard_normal(4000)]
    held = [low <= 2000 <= high for low, high in spans]

    assert np.mean(held) == pytest.approx(0.8, abs=0.02)


def test_a_zero_is_not_proof_of_none():
    """Nothing found leaves room for about 40 eggs (Ohio reports those as not detected)."""
    assert count_interval(0, 0.4) == (0.0, 40.0)


@pytest.mark.parametrize(("share", "cores", "missed"), [(0.05, 20, 0.358), (0.05, 40, 0.129), (0.0, 20, 1.0)])
def test_twenty_cores_often_miss_a_small_oval(share, cores, missed):
    """An oval on a twentieth of the field is missed by all of 20 cores in 36 of 100 fields (binomial)."""
    assert miss_chance(share, cores) == pytest.approx(missed, abs=0.001)


def test_a_trend_needs_three_years_and_more_than_noise():
    """A steady climb is real, ups and downs are not."""
    cvs = [0.43] * 5
    assert trend([1, 2], [100, 200], cvs[:2]) is None
    assert trend([1, 2, 3, 4, 5], [500, 1500, 4500, 13500, 40000], cvs).real
    assert not trend([1, 2, 3, 4, 5], [2000, 3000, 1500, 2800, 2100], cvs).real


def test_scatter_larger_than_sampling_error_widens_the_trend():
    """Two real swings must not pass for a line."""
    calm = trend([1, 2, 3, 4], [1000, 1300, 1700, 2200], [0.2] * 4)
    wild = trend([1, 2, 3, 4], [1000, 9000, 300, 5000], [0.2] * 4)

    assert wild.high / wild.low > calm.high / calm.low


@given(st.integers(1, 80), st.integers(1, 6), st.integers(1, 4))
def test_no_extra_work_makes_a_sample_worse(cores, subsamples, composites):
    """More cores, subsamples or bags never raise the CV."""
    cv = composite_cv(cores, subsamples, composites)

    assert composite_cv(cores + 1, subsamples, composites) < cv
    assert composite_cv(cores, subsamples + 1, composites) < cv
    assert composite_cv(cores, subsamples, composites + 1) < cv


@pytest.mark.parametrize(
    ("place", "cores", "depth"),
    [
        ("Iowa", (15, 20), (8, 8)),
        ("Kansas", (18, 24), (6, 8)),
        ("Indiana", (10, 20), (6, 8)),
        ("South Dakota", (20, 20), (6, 8)),
    ],
)
def test_a_place_gets_its_own_cores_and_depth(place, cores, depth):
    """Cores and inches as printed on the state pages."""
    own, known = protocol(place)

    assert known
    assert (own.cores, own.depth_in) == (cores, depth)


def test_a_place_without_a_page_is_told_so():
    """What most agree on is given without a name."""
    common, known = protocol("Paraná")

    assert not known
    assert common.place == ""


@pytest.mark.parametrize(
    ("place", "count", "years"),
    [
        ("Ohio", 3000, (1, 1)),
        ("Missouri", 0, (2, 3)),
        ("Illinois", 900, (4, 5)),
        ("Ontario", 900, (3, 6)),
        ("Nebraska", 900, (6, 6)),
    ],
)
def test_when_to_sample_again_by_place(place, count, years):
    """Intervals as printed on the pages of each place."""
    assert resample(place, count).years == years


@pytest.mark.parametrize(("place", "count"), [("Missouri", 500), ("Illinois", 5000), ("Iowa", 500), (None, 500)])
def test_a_rule_is_not_stretched_to_counts_or_places_it_does_not_name(place, count):
    """Illinois' interval holds below 1,000, Missouri's where none was found."""
    assert resample(place, count) is None
