"""A year of the service in minutes: the clock is moved on, memory and descriptors stay where they were."""

from __future__ import annotations

import gc
import os
import sys
from datetime import timedelta
from pathlib import Path

import pytest

from tests.crew_kit import OTHER, SCOUT, Crew, noon

WARM_DAYS = 25
"""After so many days every cache of the road holds what it will ever hold."""


def memory() -> float:
    """Resident memory in megabytes."""
    with open("/proc/self/statm") as file:  # noqa: PTH123 - a file of the system
        return int(file.read().split()[1]) * os.sysconf("SC_PAGE_SIZE") / 1e6


def descriptors() -> int:
    return len(list(Path("/proc/self/fd").iterdir()))


@pytest.mark.heavy
def test_a_year_leaves_memory_and_descriptors_flat(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A look at the clock every hour, the outbox emptied, two notes a week, a digest a day; figures are printed."""
    days = 40 if os.environ.get("NOTES_BOT_PROOFS") == "small" else 365
    crew = Crew(tmp_path, noon(1, 5))
    notes = ("kestrel 6 dug none", "mill 5 dug 3 white", "harrow not looked, too wet")
    try:
        after_warm_up: tuple[float, int] | None = None
        for day in range(days):
            if day % 4 == 0:
                crew.note(notes[day // 4 % 3], (SCOUT, OTHER)[day // 4 % 2])
            for _ in range(24):
                crew.clock.walk_to(crew.clock.at + timedelta(hours=1))
                crew.parts.rounds.turn()
                crew.parts.post_all()
            if day == max(days // 4, WARM_DAYS):
                gc.collect()
                after_warm_up = (memory(), descriptors())
        gc.collect()
        assert after_warm_up is not None
        grown, more = memory() - after_warm_up[0], descriptors() - after_warm_up[1]
        counts = crew.parts.store.counts()
        size = (tmp_path / "notes.db").stat().st_size / 1e6
        with capsys.disabled():
            sys.stdout.write(
                f"\n{days} days: memory {grown:+.1f} MB, descriptors {more:+d}, database {size:.1f} MB, {counts}\n"
            )
    finally:
        crew.close()

    assert grown < 30
    assert more <= 0
    assert counts.get("inbox stuck", 0) == counts.get("outbox failed", 0) == 0
