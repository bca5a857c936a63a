"""No winter line, however odd, breaks the desk: it is answered, asked about, or read as something else."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from notes_bot.language import lab_results
from tests.crew_kit import SUPERVISOR, Crew

TEXT = """kestrel old mill lab hg rotation plan report watch sample eggs cysts per 100 250 cc cup kg g 0 1 10 2400
2,400 1e9 iowa ohio check l1 l2 l7 1: 2: 7: peking 88788 pickett corn beans susceptible or x3 henbit cores plants reps
fi type 2.5.7 5.2 2.2 0 , : / ; nd nov 3 all varieties next beans, -5 0.5 99999999999"""
WORDS = st.sampled_from(TEXT.split())
OPENERS = st.sampled_from(
    ["lab kestrel", "kestrel eggs", "hg kestrel", "rotation kestrel", "report", "watch", "sample plan"]
)
ODD = [
    "kestrel eggs 2400 per 0 cc iowa",
    "lab kestrel 2400 eggs per 100cc, 0 cores",
    "hg kestrel 5.2",
    "hg kestrel 2.2",
    "hg kestrel check 0 1:0",
    "hg kestrel check 200, 0 plants, l1 3",
    "hg kestrel pickett 30 check 200",
    "rotation kestrel 0 eggs: corn",
    "rotation kestrel 99999999999 eggs: susceptible x6",
    "lab kestrel 0 eggs per 100 cc iowa",
    "lab kestrel 99999999999 eggs per 1 g",
    "report nowhere, kestrel",
]


@pytest.fixture(scope="module")
def crew(tmp_path_factory):
    made = Crew(tmp_path_factory.mktemp("odd"), datetime(2026, 11, 20, 17, tzinfo=UTC))
    yield made
    made.close()


def _dealt_with(crew: Crew, line: str) -> None:
    """Far enough from the last one that nobody is held for writing too often."""
    crew.clock.walk_to(crew.clock.at + timedelta(hours=6))
    filing = crew.note(line, SUPERVISOR)

    assert filing is not None, crew.parts.store.waiting()[0].trouble
    assert filing.state == "done" or "repeat" in filing.reason, filing.reason


@pytest.mark.parametrize("line", ODD)
def test_an_odd_line_is_answered(crew, line):
    """Zeros, wrong order, nothing to compare, numbers nobody counts."""
    _dealt_with(crew, line)


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(OPENERS, st.lists(WORDS, max_size=14))
def test_no_mixture_of_winter_words_breaks_the_desk(crew, opener, words):
    """Sentences made from the words of this room at random."""
    _dealt_with(crew, f"{opener} {' '.join(words)}")


@settings(max_examples=150, deadline=None)
@given(st.lists(st.lists(WORDS, max_size=8).map(" ".join), max_size=8))
def test_no_paper_breaks_the_table_reader(lines):
    """Any lines give results or none."""
    for result in lab_results(lines):
        assert result.args["value"] >= 0
