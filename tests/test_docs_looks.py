"""The pages about looks say what the code does today, and stated chances come true."""

from __future__ import annotations

import importlib.util
import re
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest

from notes_bot.science.clues import CAUSES, JUDGEMENT, LINKS
from notes_bot.science.detection import CONDITIONS, RECOVERIES

from .look_simulator import AS_ASSUMED, clean_fields, found_fields, reliability
from .road_simulator import clean_seasons

SCIENCE = Path(__file__).parents[1] / "docs" / "science"


@pytest.fixture(scope="module")
def drawing() -> ModuleType:
    """The command that draws the figure and writes the tables."""
    spec = importlib.util.spec_from_file_location("draw_looks", SCIENCE / "draw_looks.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize("name", ["detection.md", "look_alikes.md"])
def test_the_table_in_the_page_is_what_the_command_would_write(drawing: ModuleType, name: str) -> None:
    """Change a weight and the page must be written again."""
    marker, table = drawing.TABLES[name]

    page = (SCIENCE / name).read_text("utf-8")

    assert drawing.between(page, marker, table()) == page


def test_the_recovery_table_in_the_page_is_the_one_in_the_code() -> None:
    """Thirty numbers of judgement, the same in both."""
    page = (SCIENCE / "detection.md").read_text("utf-8")
    names = {"pulled": "pulled", "eased": "eased out by hand", "shovel": "shovel"}
    soaked = {"pulled": "pulled, soaked", "eased": "eased out, soaked", "shovel": "shovel, soaked"}
    for method in names:
        for wet in (False, True):
            rows = {r.condition: r.chance for r in RECOVERIES if r.method == method and r.soaked is wet}
            name = (soaked if wet else names)[method]

            assert f"| {name} | " + " | ".join(f"{rows[c]:.2f}" for c in CONDITIONS) + " |" in page


def test_counts_named_in_the_page_are_right() -> None:
    """So many links, so many causes, and judgement is called judgement."""
    page = (SCIENCE / "look_alikes.md").read_text("utf-8")

    assert f"Each of the {len(LINKS)} links" in page
    assert f"the {len(CAUSES)} causes" in page
    assert all(link.verified in ("judgement", "memory") for link in LINKS if link.source in (JUDGEMENT, "memory"))
    assert all(
        link.source not in (JUDGEMENT, "memory") for link in LINKS if link.verified not in ("judgement", "memory")
    )


def test_every_source_named_in_the_pages_is_in_the_references() -> None:
    """Keys in our pages can be looked up."""
    known = set(re.findall(r"^- \*\*(\w+)\*\*", (SCIENCE.parent / "references.md").read_text("utf-8"), re.MULTILINE))
    pages = [SCIENCE / f"{name}.md" for name in ("detection", "density", "resistance", "look_alikes")]
    for page in (*pages, SCIENCE.parent / "safety.md"):
        named = set(re.findall(r"\b([A-Z][A-Za-z]+(?:19|20)\d\d\w*)\b", page.read_text("utf-8")))

        assert named <= known, page.name


def test_stated_chances_come_true_on_the_whole() -> None:
    """Of 700 simulated fields looked at, as many clean ones are infested as we said, within three standard errors."""
    stated, true = clean_fields(AS_ASSUMED, 700, np.random.default_rng(3))
    error = np.sqrt((stated * (1 - stated)).sum())

    assert abs(true.sum() - stated.sum()) < 3 * error


def test_stated_chances_come_true_where_few_were_counted() -> None:
    """Of 500 simulated fields those with a count of one to four, some of it grit, are infested as often as we said."""
    stated, true = found_fields(AS_ASSUMED, 500, np.random.default_rng(6))

    assert abs(true.sum() - stated.sum()) < 3 * np.sqrt((stated * (1 - stated)).sum())


@pytest.mark.heavy
def test_stated_chances_come_true_at_every_level() -> None:
    """In eight classes of 6,000 simulated fields the frequency is within three standard errors of what we state."""
    for stated, true, count in reliability(*clean_fields(AS_ASSUMED, 6000, np.random.default_rng(4)), bins=8):
        assert abs(true - stated) < 3 * np.sqrt(stated * (1 - stated) / count)
    for stated, true, count in reliability(*found_fields(AS_ASSUMED, 6000, np.random.default_rng(5)), bins=8):
        assert abs(true - stated) < max(0.03, 3 * np.sqrt(stated * (1 - stated) / count))


@pytest.mark.heavy
def test_stated_chances_come_true_over_the_whole_road() -> None:
    """Other seasons, other clumping, the clock's own dates: with the recovery of the table, the chance is true.

    The scouts of those seasons bring up and see half of the females, as the table has it for a shovel and a bucket.
    Where the bucket is not told, the table takes them to see 30 of 100: then too high a chance is told, never too low.
    """
    stated, true = clean_seasons(400, np.random.default_rng(3))
    guessed, found = clean_seasons(200, np.random.default_rng(3), soaked=False)

    assert abs(true.sum() - stated.sum()) < 3 * np.sqrt((stated * (1 - stated)).sum())
    assert guessed.sum() > found.sum()
