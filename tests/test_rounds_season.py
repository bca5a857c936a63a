"""A crew's season through the real road, judged by other means than the rounds' own code."""

from __future__ import annotations

import os

import pytest

from tests.benchmarks.rounds_season import FULL, MOST_MAILS, SMALL, played

pytestmark = pytest.mark.heavy


def test_every_look_that_fell_due_is_reminded_once_at_the_right_hour(tmp_path):
    """Over clock changes and outages: the slot an independent judge works out, or no mail where there is none; never
    inside an entry interval, never more a day than set."""
    small = os.environ.get("NOTES_BOT_PROOFS") == "small"
    figures = played(SMALL if small else FULL, tmp_path)

    assert figures.wrong == []
    assert figures.most_a_day <= MOST_MAILS
    assert figures.windows == figures.reminded + figures.not_due + figures.carried
    assert figures.reminded > (20 if small else 2000)
    assert figures.biggest_mail < 300_000
