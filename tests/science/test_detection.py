"""Chances of detection against print, and the look against its limits."""

from __future__ import annotations

import csv
import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from notes_bot.science import density, detection
from notes_bot.science.detection import INTENSITIES, LIGHT, Look, infested_probability, none_seen_probability, spread

PUBLISHED = Path(__file__).parent.parent / "published" / "detection_and_counting.csv"


def _rows() -> list[dict[str, str]]:
    with PUBLISHED.open(encoding="utf-8") as lines:
        return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def _numbers(row: dict[str, str]) -> dict[str, float]:
    return {key: float(value) for key, value in re.findall(r"(\w+)=([\d.]+)", row["inputs"])}


MITES = [0] * 70 + [1] * 38 + [2] * 17 + [3] * 10 + [4] * 9 + [5] * 3 + [6] * 2 + [7]
"""Bliss & Fisher 1953: European red mites on 150 apple leaves."""


def _two(row: dict[str, str]) -> tuple[int, int]:
    n = _numbers(row)
    return int(n["x"]), int(n["n"])


def _beta(row: dict[str, str]) -> tuple[float, float]:
    found = re.search(r"Beta\(([\d.]+),([\d.]+)\)", row["inputs"])
    assert found

    return float(found[1]), float(found[2])


def _clean_looks(row: dict[str, str], looks: int) -> float:
    n = _numbers(row)
    chance = n["prior_infested"]
    for _ in range(looks):
        chance = detection.posterior_infested(chance, detection.detection_probability(int(n["n"]), n["p"], n["s"]))
    return chance


def _finite(row: dict[str, str]) -> float:
    n = _numbers(row)
    return detection.plants_needed_finite(n["conf"], n["p"], int(n["N"]), n["s"])


def _freedom(row: dict[str, str]) -> float:
    n = _numbers(row)
    return detection.plants_for_freedom(n["target"], n["prior_free"], n["p"], n["s"], n["p_intro"])


def _clumped(row: dict[str, str]) -> float:
    n = _numbers(row)
    return detection.none_seen_clumped(int(n["n"]), n["plant"], n["k"], n["q"])


def _posterior_free(row: dict[str, str]) -> float:
    n = _numbers(row)
    return detection.posterior_free(n["prior_free"], n["sep"], n["p_intro"])


def _looks_needed(row: dict[str, str]) -> float | None:
    n = _numbers(row)
    return detection.looks_to_reach(0.986, n["prior_free"], n["sep"], n["p_intro"])


COLOURS = [24, 11, 5]
HOW: dict[str, Callable[[dict[str, str]], object]] = {
    "detect_prob_binomial": lambda _: detection.detection_probability(300, 0.01, 0.95),
    "sample_size_binomial": lambda r: detection.plants_needed(_numbers(r)["conf"], _numbers(r)["p"], _numbers(r)["s"]),
    "sample_size_finite_approx": _finite,
    "detect_prob_finite_approx": lambda r: detection.detection_probability_finite(30, int(_numbers(r)["N"]), 1, 0.95),
    "max_prevalence_given_clean": lambda _: detection.largest_prevalence(280, 0.95, 0.98),
    "detect_prob_mixed_sensitivity_census": lambda _: detection.detection_probability_finite(73, 73, 4, 0.768),
    "sample_size_for_posterior_freedom": _freedom,
    "visits_to_equilibrium": _looks_needed,
    "posterior_freedom_one_visit": _posterior_free,
    "sample_size_hypergeometric_exact": lambda r: detection.plants_needed_exact(
        0.95, int(_numbers(r)["D"]), int(_numbers(r)["N"])
    ),
    "sample_size_cannon_roe": lambda r: int(
        np.ceil(detection.plants_needed_cannon_roe(0.95, int(_numbers(r)["D"]), int(_numbers(r)["N"])))
    ),
    "none_seen_update": lambda r: _clean_looks(r, 1),
    "posterior_infested_after_k_clean_visits": lambda r: _clean_looks(r, int(_numbers(r)["k"])),
    "none_seen_betabinomial": lambda r: detection.none_seen_beta_binomial(int(_numbers(r)["n"]), _beta(r)),
    "nb_zero_fraction": lambda r: 1.0 - detection.share_carrying(_numbers(r)["mean"], _numbers(r)["k"]),
    "nb_none_seen_n_plants": _clumped,
    "nb_ml_k": lambda _: density.clumping_by_likelihood(MITES),
    "nb_moment_k": lambda _: density.clumping_by_moments(MITES),
    "nb_mean_ci95_low": lambda _: density.mean_interval_closed_form(172 / 150, 1.024592, 150, 0.95)[0],
    "nb_mean_ci95_high": lambda _: density.mean_interval_closed_form(172 / 150, 1.024592, 150, 0.95)[1],
    "nb_mean_ci95_closed_form": lambda _: density.mean_interval_closed_form(172 / 150, 1.024592, 150, 0.95),
    "wilson95": lambda r: density.wilson_interval(*_two(r), 0.95),
    "clopper_pearson95": lambda r: density.clopper_pearson_interval(*_two(r), 0.95),
    "jeffreys95": lambda r: density.jeffreys_interval(*_two(r), 0.95),
    "poisson_exact95": lambda r: density.poisson_interval(int(_numbers(r)["count"]), 0.95),
    "multinomial_goodman95": lambda _: [end for span in density.goodman_intervals(COLOURS, 0.95) for end in span],
    "dirichlet_posterior_mean": lambda _: [m for _low, m, _high in density.dirichlet_shares(COLOURS, [1, 1, 1], 0.95)],
    "dirichlet_marginal95": lambda _: [
        end for low, _m, high in density.dirichlet_shares(COLOURS, [1, 1, 1], 0.95) for end in (low, high)
    ],
    "nbinom_mapping": lambda _: np.exp(density.log_likelihood(np.array([4.0]), np.array(3.0), np.array(0.7))).item(),
}


@pytest.mark.parametrize("row", _rows(), ids=lambda row: f"{row['id']}-{row['kind']}")
def test_a_printed_figure_is_met_to_its_rounding(row: dict[str, str]) -> None:
    """Each row's published figure, or where none is printed the library's, comes out to its last digit."""
    printed = row["published"].split(" (")[0] or row["computed"]
    ours = HOW[row["kind"]](row)
    values = list(ours) if isinstance(ours, (list, tuple)) else [ours]
    figures = re.findall(r"\d+\.?\d*", printed)

    assert len(figures) == len(values)
    for figure, value in zip(figures, values, strict=True):
        decimals = len(figure.partition(".")[2])
        # the closed form takes k from its printed six digits, hence two units of the last place there
        slack = 2.0 if row["kind"].startswith("nb_mean") else 0.51
        assert value == pytest.approx(float(figure), abs=slack * 10.0**-decimals if decimals else 0)


def test_every_kind_of_printed_row_is_tried() -> None:
    """No row of the table is passed over."""
    assert {row["kind"] for row in _rows()} == set(HOW)


# --- the look: limits --------------------------------------------------------------------------------------

methods = st.sampled_from(["pulled", "eased", "shovel"])
moistures = st.sampled_from(["dry", "moist", "wet", None])
textures = st.sampled_from(["sand", "sandy_loam", "loam", "clay_loam", "clay", "muck", None, "unheard of"])
intensities = st.sampled_from(list(INTENSITIES.values()))
looks = st.builds(
    lambda plants, places, method, soaked, moisture, texture, visible: Look(
        spread(plants, places), detection.recovery_beta(method, soaked, moisture, texture), visible
    ),
    st.integers(0, 30),
    st.integers(1, 5),
    methods,
    st.booleans(),
    moistures,
    textures,
    st.floats(0, 1),
)


def _shovel(plants: int, visible: float = 1.0, places: int = 2) -> Look:
    return Look(spread(plants, places), detection.recovery_beta("shovel", True, "moist", "loam"), visible)


@given(looks, st.floats(0.01, 0.99), intensities)
@settings(max_examples=60, deadline=None)
def test_no_clean_look_raises_the_chance_of_infestation(
    look: Look, prior: float, intensity: detection.Intensity
) -> None:
    """Seeing none never makes infestation likelier."""
    assert infested_probability(prior, [look], (), intensity) <= prior + 1e-12


@given(st.floats(0.0, 1.0), intensities)
def test_zero_plants_leave_the_prior(prior: float, intensity: detection.Intensity) -> None:
    """A look at no plants says nothing."""
    assert infested_probability(prior, [_shovel(0)], (), intensity) == pytest.approx(prior)


@given(st.floats(0.0, 1.0), st.integers(1, 200), intensities)
@settings(max_examples=30, deadline=None)
def test_a_day_without_visible_females_leaves_the_prior(
    prior: float, plants: int, intensity: detection.Intensity
) -> None:
    """Before the window the posterior is the prior, however many plants are dug."""
    assert infested_probability(prior, [_shovel(plants, 0.0)], (), intensity) == pytest.approx(prior)


@given(looks, st.integers(1, 10), intensities)
@settings(max_examples=60, deadline=None)
def test_more_plants_are_never_less_sure(look: Look, more: int, intensity: detection.Intensity) -> None:
    """Adding plants to any place never raises the chance of having missed it."""
    places = look.places or (("place 1", 0),)
    longer = Look((*places[:-1], (places[-1][0], places[-1][1] + more)), look.recovery, look.visible)

    assert none_seen_probability([longer], intensity) <= none_seen_probability([look], intensity) + 1e-12


@pytest.mark.parametrize("plants", range(1, 12))
def test_one_more_plant_is_never_less_sure_as_plants_are_spread(plants: int) -> None:
    """Also where the assumed number of places changes with the number of plants."""
    recovery = detection.recovery_beta("shovel", False, "moist", "loam")

    assert detection.look_detection(Look(spread(plants + 1), recovery)) > detection.look_detection(
        Look(spread(plants), recovery)
    )


@given(st.integers(1, 20), moistures, textures)
@settings(max_examples=40, deadline=None)
def test_a_better_method_is_never_less_sure(plants: int, moisture: str | None, texture: str | None) -> None:
    """Shovel and soak beats shovel beats easing out beats pulling, on every soil."""
    order = [("pulled", False), ("eased", False), ("shovel", False), ("shovel", True)]
    shown = [
        detection.look_detection(Look(spread(plants), detection.recovery_beta(m, s, moisture, texture)))  # type: ignore[arg-type]
        for m, s in order
    ]

    assert shown == sorted(shown)


@given(looks, st.floats(0, 1), st.floats(0, 1), intensities)
@settings(max_examples=60, deadline=None)
def test_a_better_day_is_never_less_sure(look: Look, one: float, two: float, intensity: detection.Intensity) -> None:
    """The higher the chance that females are out, the more a clean look is worth."""
    worse, better = sorted((one, two))

    assert (
        none_seen_probability([Look(look.places, look.recovery, better)], intensity)
        <= none_seen_probability([Look(look.places, look.recovery, worse)], intensity) + 1e-12
    )


def test_more_places_are_never_less_sure() -> None:
    """Eight plants at four places show more than eight at one."""
    shown = [detection.look_detection(_shovel(8, places=places)) for places in (1, 2, 4, 8)]

    assert shown == sorted(shown)
    assert shown[2] > shown[0] + 0.03


def test_a_repeated_weak_look_is_worth_less_than_an_independent_one() -> None:
    """Two looks that share their weakness leave more doubt than the product of their misses."""
    pulled = Look(spread(6), detection.recovery_beta("pulled", False, "moist", "loam"))
    once = none_seen_probability([pulled], INTENSITIES["susceptible"])
    twice = none_seen_probability([pulled, pulled], INTENSITIES["susceptible"])

    assert once**2 < twice < once
    assert twice > 1.5 * once**2


def test_the_same_wrong_date_twice_is_worth_hardly_more_than_once() -> None:
    """When the calendar is the weakness, repeating the day adds almost nothing."""
    early = _shovel(20, 0.3)
    once, five = (none_seen_probability([early] * n, INTENSITIES["susceptible"]) for n in (1, 5))

    assert five >= 0.7
    assert once - five < 0.08


def test_a_later_better_look_makes_up_for_a_wrong_date() -> None:
    """After a look on the wrong day a look in the window still counts in full."""
    alone = none_seen_probability([_shovel(10, 1.0)], INTENSITIES[None])
    after = none_seen_probability([_shovel(10, 0.05), _shovel(10, 1.0)], INTENSITIES[None])

    assert after == pytest.approx(alone, abs=0.01)


@given(st.lists(looks, max_size=4), intensities)
@settings(max_examples=40, deadline=None)
def test_the_order_of_looks_does_not_matter(many: list[Look], intensity: detection.Intensity) -> None:
    """Evidence is the same whichever came first."""
    forward, backward = (none_seen_probability(order, intensity) for order in (many, many[::-1]))

    assert forward == pytest.approx(backward)
    assert 0.0 <= forward <= 1.0


def test_with_one_place_sure_recovery_and_no_clumping_the_look_is_a_poisson_draw() -> None:
    """In the limit of no clumping, no doubt about recovery and one mean, the textbook zero chance comes out."""
    sure = (3e6, 7e6)
    missed = none_seen_probability([Look((("here", 5),), sure)], 0.4, k_within=1e6, k_between=100.0)

    assert missed == pytest.approx(np.exp(-0.3 * 0.4 * 5), rel=3e-3)


def test_the_look_agrees_with_a_draw_of_fields_plant_by_plant() -> None:
    """The quadrature equals a straightforward simulation of gamma places, gamma-Poisson plants and thinning."""
    rng = np.random.default_rng(5)
    draws, places, plants, (a, b) = 40_000, 3, 2, (3.0, 7.0)
    q = rng.beta(a, b, (draws, 1, 1))
    mean = 2.0 * rng.gamma(detection.K_BETWEEN, 1 / detection.K_BETWEEN, (draws, places, 1))
    on_plant = rng.poisson(mean * rng.gamma(detection.K_WITHIN, 1 / detection.K_WITHIN, (draws, places, plants)))
    missed = (rng.binomial(on_plant, q) == 0).all(axis=(1, 2)).mean()

    ours = none_seen_probability([Look(spread(places * plants, places), (a, b))], 2.0)

    assert ours == pytest.approx(missed, abs=4 * np.sqrt(0.25 / draws))


def test_what_was_overlooked_is_the_question_asked_backwards() -> None:
    """At the density named, the look misses every second time; a better look leaves less."""
    six = Look(spread(6), detection.recovery_beta("shovel", False, "moist", "loam"))

    assert detection.look_detection(six, detection.overlooked(six)) == pytest.approx(0.5, abs=0.002)
    assert detection.overlooked(_shovel(20)) < detection.overlooked(six)
    assert detection.overlooked(_shovel(0)) == detection.OVERLOOKED_AT_MOST


def test_fewer_females_out_make_a_look_worth_less() -> None:
    """Just after the first whites a clean look says less than at the height of a generation."""
    chances = [
        none_seen_probability([replace(_shovel(8), showing=(showing,))], INTENSITIES[None])
        for showing in (0.0, 0.1, 0.5, 1, 3)
    ]

    assert chances == sorted(chances, reverse=True)
    assert detection.showing_by_chance(1.0) == 1.0
    assert detection.showing_by_chance(0.0) == 0.0


def test_plants_to_dig_is_the_fewest_that_do() -> None:
    """One plant fewer would not be enough, that many are."""
    recovery = detection.recovery_beta("shovel", True, "moist", "loam")
    plants = detection.plants_to_dig(0.9, recovery, places=4)

    assert plants is not None
    assert detection.look_detection(Look(spread(plants, 4), recovery)) >= 0.9
    assert detection.look_detection(Look(spread(plants - 1, 4), recovery)) < 0.9


def test_a_hopeless_method_is_told_by_none_not_by_a_huge_number() -> None:
    """Pulling from dry clay cannot make us 95 % sure, however long one pulls."""
    assert detection.plants_to_dig(0.95, detection.recovery_beta("pulled", False, "dry", "clay")) is None


def test_the_light_infestation_is_what_the_docs_say() -> None:
    """About 3 plants in 10 carry any female in a light infestation."""
    overall = 1 / (1 / detection.K_WITHIN + 1 / detection.K_BETWEEN + 1 / (detection.K_WITHIN * detection.K_BETWEEN))

    assert overall == pytest.approx(0.53, abs=0.005)
    assert 0.26 < detection.share_carrying(LIGHT, overall) < 0.32


@given(methods, st.booleans(), moistures, textures, st.booleans())
def test_a_recovery_is_worth_ten_observations_or_fewer(
    method: str, soaked: bool, moisture: str | None, texture: str | None, snapped: bool
) -> None:
    """What is all said is worth ten; what was not said widens it."""
    a, b = detection.recovery_beta(method, soaked, moisture, texture, snapped=snapped)  # type: ignore[arg-type]

    assert a > 0
    assert b > 0
    assert a + b <= 10.0 + 1e-9
    if moisture is not None and texture in ("sand", "loam", "clay"):
        assert a + b == pytest.approx(10.0)


def test_snapped_roots_halve_what_comes_up() -> None:
    """Roots that tore off are told apart from a clean pull."""
    a, b = detection.recovery_beta("pulled", False, "moist", "loam")
    c, d = detection.recovery_beta("pulled", False, "moist", "loam", snapped=True)

    assert c / (c + d) == pytest.approx(a / (a + b) / 2)


def test_impossible_shares_are_refused() -> None:
    """A share outside 0 to 1 raises rather than giving a number."""
    with pytest.raises(ValueError, match="prevalence"):
        detection.detection_probability(5, 1.2)
    with pytest.raises(ValueError, match="nothing can be found"):
        detection.plants_needed(0.9, 0.0)
    with pytest.raises(ValueError, match="prior"):
        infested_probability(1.5, [])


def test_seeing_females_all_but_proves_it_and_many_prove_it_more() -> None:
    """One speck may be grit; twenty are not."""
    chances = [infested_probability(0.5, [], [(seen, None)]) for seen in (1, 2, 5, 20)]

    assert chances == sorted(chances)
    assert 0.9 < chances[0] < 0.97
    assert chances[-1] > 0.999


def test_a_clean_look_does_not_clear_a_field_where_females_were_counted() -> None:
    """Once five were seen, later clean looks are about the look, not the field."""
    found = [(5, _shovel(8))]

    assert infested_probability(0.5, [_shovel(30)], found) == infested_probability(0.5, [], found)
    assert infested_probability(0.5, [_shovel(30)], [(4, _shovel(8))]) < infested_probability(
        0.5, [], [(4, _shovel(8))]
    )


def test_a_clean_look_counts_against_a_single_doubtful_speck() -> None:
    """One thing taken for a female, then thirty clean plants: doubt is right."""
    assert infested_probability(0.5, [_shovel(30)], [(1, None)]) < infested_probability(0.5, [], [(1, None)])


def test_a_single_body_proves_the_less_the_less_likely_true_ones_were() -> None:
    """On a day when none could be out nothing is learnt; a good look that finds just one is doubtful, it shows many."""
    pulled = Look(spread(4), detection.recovery_beta("pulled", False, "dry", "loam"))
    chances = [infested_probability(0.5, [], [(1, replace(pulled, visible=v))]) for v in (0.0, 0.3, 0.7, 1.0)]
    good, many = infested_probability(0.5, [], [(1, _shovel(12))]), infested_probability(0.5, [], [(6, _shovel(12))])

    assert chances == sorted(chances)
    assert chances[0] == pytest.approx(0.5)
    assert good < infested_probability(0.5, [], [(1, None)])
    assert good < 0.7 < 0.95 < many


def test_two_looks_that_found_some_prove_more_than_one() -> None:
    """A speck here and a speck there; and a count is likelier true the more it is."""
    look = _shovel(8)
    one, two = infested_probability(0.5, [], [(1, look)]), infested_probability(0.5, [], [(1, look), (1, look)])
    more = infested_probability(0.5, [], [(6, look)])

    assert 0.5 < one < two
    assert one < more


def test_states_of_the_season_are_weighed_one_by_one() -> None:
    """A day on which half the states show nothing and half show all is not a day on which all show half."""
    parted = none_seen_probability([replace(_shovel(12), showing=(0.0, 1.0))], INTENSITIES[None])
    alike = none_seen_probability([replace(_shovel(12), showing=(0.5, 0.5))], INTENSITIES[None])
    alone = none_seen_probability([_shovel(12)], INTENSITIES[None])

    assert parted == pytest.approx((1.0 + alone) / 2)
    assert parted > alike + 0.1


def test_a_few_states_say_what_all_of_them_say() -> None:
    """A quarter of the states moves the chance by less than half a percent."""
    days = np.random.default_rng(2).normal(size=256)
    showing = np.stack([np.clip(0.3 + 0.4 * days + late, 0.0, 2.0) for late in (0.0, 0.6)])
    for plants in (3, 12):
        looks = [replace(_shovel(plants), showing=tuple(row)) for row in showing]
        fewer = [replace(_shovel(plants), showing=tuple(row)) for row in detection.condensed(showing)]

        assert none_seen_probability(fewer, INTENSITIES[None]) == pytest.approx(
            none_seen_probability(looks, INTENSITIES[None]), abs=0.005
        )


def test_looks_that_speak_of_other_states_are_refused() -> None:
    """States are the same for a whole season."""
    with pytest.raises(ValueError, match="same states"):
        none_seen_probability([replace(_shovel(4), showing=(1.0,)), _shovel(4)], INTENSITIES[None])


def test_the_exact_sample_size_agrees_with_scipy_everywhere() -> None:
    """Smallest n whose hypergeometric chance of none is at most one minus the confidence."""
    for population, carrying in ((50, 1), (80, 8), (300, 3)):
        n = detection.plants_needed_exact(0.9, carrying, population)

        assert stats.hypergeom.pmf(0, population, carrying, n) <= 0.1 + 1e-12
        assert stats.hypergeom.pmf(0, population, carrying, n - 1) > 0.1


@pytest.mark.parametrize(("least", "most"), [(0, 0), (1, 1), (2, 4), (5, 19), (20, None), (0, None)])
def test_counts_are_negative_binomial_as_scipy_has_it(least, most):
    """The sum of few terms against the distribution function of scipy, to 1e-12."""
    p = np.linspace(0.02, 0.999, 60)
    for shape in (0.3, 1.7, 12.0):
        whole = stats.nbinom.sf(least - 1, shape, p) - (0.0 if most is None else stats.nbinom.sf(most, shape, p))
        np.testing.assert_allclose(detection._negative_binomial(least, most, shape, p), whole, atol=1e-12)
