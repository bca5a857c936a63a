"""Pooling over fields and years: a published analysis, simulation, and what must hold at the ends."""

from __future__ import annotations

import math

import numpy as np
import pytest

from notes_bot.science.variety_watch import pool

SCHOOLS = [28, 8, -3, 7, -1, 1, 18, 12]
ERRORS = [15, 10, 16, 11, 9, 11, 10, 18]
MEDIANS = [10, 8, 7, 8, 5, 6, 10, 8]
"""Rubin 1981 as analysed in Gelman et al., Bayesian Data Analysis, table of posterior quantiles (from memory)."""


def test_the_eight_schools_come_out_as_published():
    """Posterior medians of the eight coaching effects, flat priors, to about a point (table from memory)."""
    found = pool(
        [s / 100 for s in SCHOOLS], [e / 100 for e in ERRORS], list(range(8)), [0.0] * 8, 0.0,
        middle=(0.0, 10.0), yearly_sd=1e-6, between_scale=0.12, within=0.0,
    )  # fmt: skip
    medians = [100 * math.log(group.share[1]) for group in found.groups]

    assert medians == pytest.approx(MEDIANS, abs=1.6)


def test_a_field_with_weak_looks_is_drawn_to_the_others_and_a_firm_one_is_not():
    """Shrinkage: the same 60 % of the check means less with a wide error among fields at 8 %."""
    others = [math.log(0.08)] * 6
    weak = pool([*others, math.log(0.6)], [0.3] * 6 + [1.5], list(range(7)), [2026] * 7, 2026).groups[-1]
    firm = pool([*others, math.log(0.6)], [0.3] * 6 + [0.1], list(range(7)), [2026] * 7, 2026).groups[-1]

    assert weak.share[1] < 0.25
    assert firm.share[1] > 1.5 * weak.share[1]
    assert weak.chance_slipping < firm.chance_slipping


def test_a_rise_over_the_years_is_seen_when_it_is_there():
    """Ten fields over five years, 30 % a year more."""
    rng = np.random.default_rng(5)
    logs, groups, years = [], [], []
    for field in range(10):
        own = rng.normal(math.log(0.08), 0.4)
        for year in range(2022, 2027):
            logs.append(own + math.log(1.3) * (year - 2022) + rng.normal(0, 0.4))
            groups.append(field)
            years.append(float(year))
    found = pool(logs, [0.3] * 50, groups, years, 2026.0)

    assert found.chance_rising > 0.95
    assert found.yearly[0] < 1.3 < found.yearly[2] * 1.1


def test_intervals_hold_the_fields_truth_about_as_often_as_they_say():
    """Simulated crews from the model: 80 % intervals of the fields cover in about 80 of 100."""
    rng = np.random.default_rng(8)
    held = total = 0
    for _ in range(40):
        tau, centre = abs(rng.normal(0, 0.8)), rng.normal(math.log(0.15), 0.8)
        truth = centre + rng.normal(0, tau, 6)
        logs = [t + rng.normal(0, math.hypot(0.5, 0.4)) for t in truth for _ in range(2)]
        found = pool(logs, [0.4] * 12, [g for g in range(6) for _ in range(2)], [2026] * 12, 2026)
        held += sum(g.share[0] <= math.exp(t) <= g.share[2] for g, t in zip(found.groups, truth, strict=True))
        total += 6

    assert 0.72 <= held / total <= 0.88


@pytest.mark.parametrize(
    ("logs", "errors", "groups", "years"), [([], [], [], []), ([0.1], [0.0], [0], [2026]), ([0.1], [0.2], [0], [])]
)
def test_impossible_observations_are_refused(logs, errors, groups, years):
    """Nothing seen, no error, or lists of different length."""
    with pytest.raises(ValueError, match=r"observations|error"):
        pool(logs, errors, groups, years, 2026)
