"""Is the resistance holding: by chance, not by a bare cut."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notes_bot.science import virulence
from notes_bot.science.density import density
from notes_bot.science.virulence import Chances


@given(st.integers(1, 20), st.integers(0, 800))
@settings(max_examples=40, deadline=None)
def test_chances_sum_to_one(plants: int, total: int) -> None:
    """Holding, watch and slipping leave nothing over."""
    c = virulence.chances_per_root(density(plants, total))

    assert c.holding + c.watch + c.slipping == pytest.approx(1.0)


def test_few_per_root_against_a_loaded_strip_is_holding() -> None:
    """1.8 per plant beside 54 on the susceptible strip."""
    resistant, check = density(10, 18, [1, 2, 1, 0, 6, 0, 4, 1, 0, 3]), density(5, 272, [46, 61, 38, 72, 55])
    word, chance = virulence.verdict(virulence.chances_against_check(resistant, check))

    assert word == "holding"
    assert chance > 0.95


def test_many_per_root_is_slipping() -> None:
    """57 per root is far beyond the published field alarm of 10 to 20."""
    word, chance = virulence.verdict(virulence.chances_per_root(density(5, 283, [57, 61, 43, 79, 43])))

    assert word == "slipping"
    assert chance > 0.99


def test_three_plants_near_the_alarm_are_watched() -> None:
    """Nine per root on three plants cannot be called holding, nor slipping."""
    word, chance = virulence.verdict(virulence.chances_per_root(density(3, 27, [2, 20, 5])))

    assert word == "watch"
    assert 0.2 < chance < 0.8


def test_a_count_at_the_cut_is_not_decided_by_one_female() -> None:
    """Around the alarm the chance moves smoothly: one female more changes it by little."""
    chances = [virulence.chances_per_root(density(6, total)).holding for total in range(55, 66)]

    assert np.all(np.diff(chances) < 0)
    assert np.all(np.diff(chances) > -0.05)


def test_holding_is_not_said_of_a_look_that_could_not_show_it() -> None:
    """A weak look may warn but never comfort."""
    calm = Chances(0.99, 0.01, 0.0)

    assert virulence.verdict(calm)[0] == "holding"
    assert virulence.verdict(calm, may_hold=False)[0] == "watch"
    assert virulence.verdict(Chances(0.0, 0.1, 0.9), may_hold=False)[0] == "slipping"


def test_the_worse_yardstick_decides() -> None:
    """Few per root but as many as on the strip is not holding."""
    by_alarm, by_ratio = Chances(0.9, 0.1, 0.0), Chances(0.1, 0.2, 0.7)

    assert virulence.worse(by_alarm, by_ratio) is by_ratio


def test_a_ratio_recovers_the_truth_in_simulated_strips() -> None:
    """The chance of holding is high when the true ratio is 3 % and low when it is 40 %."""
    rng = np.random.default_rng(2)

    def holding(ratio: float) -> float:
        out = []
        for _ in range(30):
            x = rng.negative_binomial(1.2, 1.2 / (1.2 + 50 * ratio), 10)
            y = rng.negative_binomial(1.2, 1.2 / (1.2 + 50), 5)
            c = virulence.chances_against_check(
                density(10, int(x.sum()), x.tolist()), density(5, int(y.sum()), y.tolist())
            )
            out.append(c.holding)
        return float(np.mean(out))

    assert holding(0.03) > 0.8
    assert holding(0.4) < 0.15
