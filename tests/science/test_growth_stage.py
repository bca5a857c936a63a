"""Growth stages as numbers, and when roots are past judging."""

from __future__ import annotations

import pytest

from notes_bot.science.growth_stage import (
    R_DAYS_BEFORE_R6,
    days_to_r6,
    reproductive_stage,
    roots_end,
    usual_planting,
    usual_r6,
    vegetative_node,
)


@pytest.mark.parametrize(
    ("text", "node", "stage"),
    [("V4", 4, None), ("v2.5", 2.5, None), (" VE ", 0, None), ("VC", 0.5, None), ("R2", None, 2), ("R5.5", None, 5.5),
     ("R9", None, None), ("V99", None, None), ("", None, None), ("flowering", None, None), ("RV4", None, None)],
)  # fmt: skip
def test_stages_are_read_as_numbers(text, node, stage):
    """V and R stages as the trade writes them; anything else is unknown, never a guess."""
    assert vegetative_node(text) == node
    assert reproductive_stage(text) == stage


def test_reproductive_stages_follow_each_other_at_the_printed_spacing():
    """R1-R2 about 3 days, R2-R3 10, R3-R4 9, R4-R5 9, R5-R6 15, R6-R7 18, R7-R8 9 [Isu53, from memory]."""
    days = [R_DAYS_BEFORE_R6[n] - R_DAYS_BEFORE_R6[n + 1] for n in range(1, 8)]

    assert days == [3, 10, 9, 9, 15, 18, 9]


def test_a_later_stage_leaves_fewer_days_and_less_doubt():
    """Seen at R5 the end of the roots is nearer and surer than seen at R2; past R6 it is behind or at hand."""
    left = [days_to_r6(stage) for stage in (1, 2, 2.5, 3, 4, 5, 6, 7, 8)]

    assert [d.middle for d in left] == sorted((d.middle for d in left), reverse=True)
    assert left[-2].middle < 0 < left[-4].middle
    assert left[5].sd < left[1].sd
    with pytest.raises(ValueError, match="no such stage"):
        days_to_r6(0.5)


@pytest.mark.parametrize(
    ("latitude", "planted", "r6"),
    # Planted and at R6, day of year: typical values, from memory, at nine places of the northern belt.
    [(48.0, 140, 232), (47.3, 138, 234), (43.6, 130, 235), (42.8, 128, 237), (42.4, 135, 238), (40.1, 125, 234),
     (38.9, 130, 240), (36.4, 130, 242), (35.1, 130, 244)],
)  # fmt: skip
def test_usual_days_are_near_typical_ones(latitude, planted, r6):
    """Fitted: R6 within a week of typical values; planting within a week and a half."""
    assert usual_r6(latitude, planted).middle == pytest.approx(r6, abs=7)
    assert usual_planting(latitude).middle == pytest.approx(planted, abs=8)


def test_late_planting_matures_later_but_not_day_for_day():
    """Day length hurries late beans: ten days late in, four days late at R6; never sooner than 70 days."""
    assert usual_r6(42, 138).middle - usual_r6(42, 128).middle == pytest.approx(4)
    assert usual_r6(42, 200).middle >= 270


def test_near_the_equator_days_from_planting_decide():
    """Mato Grosso: R6 about 85 days after planting (from memory)."""
    assert usual_r6(-13.0, 288).middle == 373


def test_roots_are_judged_for_about_nine_days_after_r6():
    """Half way to R7; the doubt only grows."""
    r6 = usual_r6(42, 128)
    end = roots_end(r6)

    assert end.middle - r6.middle == pytest.approx(9)
    assert end.sd > r6.sd


def test_freezes_end_the_roots_whatever_stage_was_noted():
    """Only where they come sooner; without a winter nothing changes."""
    r6 = usual_r6(42, 128)
    end = roots_end(r6)

    assert roots_end(r6, killed=end.middle - 20).middle == end.middle - 20
    assert roots_end(r6, killed=end.middle + 20) == roots_end(r6, killed=None) == end
