"""The winter pages: every source key explained, every figure drawn by code that runs."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest

from notes_bot.language import read_note
from notes_bot.science import eggs, hg_type, rotation, sampling, variety_watch

ROOT = Path(__file__).parents[1]
KEYS = set(re.findall(r"^- \*\*(\w+)\*\*", (ROOT / "docs" / "references.md").read_text("utf-8"), re.MULTILINE))
ROWS = [
    *eggs.SCALES, *eggs.LOSS_STUDIES, *hg_type.LINES, *hg_type.TEST.values(), *hg_type.SURVEYS,
    *rotation.ROTATION.values(), *sampling.PRECISION.values(), *sampling.PROTOCOLS.values(), *sampling.RESAMPLE,
    *variety_watch.WATCH.values(),
]  # fmt: skip


def test_every_number_of_the_winter_names_a_source_that_is_listed():
    """A row without a key is a judgement, and says so."""
    for row in ROWS:
        keys = [key.strip() for key in row.source.split(",") if key.strip()]
        assert keys or row.known == "judgement", row
        assert set(keys) <= KEYS, row


@pytest.mark.parametrize("page", ["eggs", "sampling", "hg_type", "rotation", "variety_watch"])
def test_every_key_a_page_names_is_listed(page):
    """Words like Niblack1992 lead somewhere."""
    named = set(re.findall(r"\b[A-Z][A-Za-z]+(?:19|20)\d\d\b", (ROOT / f"docs/science/{page}.md").read_text("utf-8")))

    assert named
    assert named <= KEYS


_PAGE = (ROOT / "docs" / "winter.md").read_text("utf-8").partition("<!-- read -->")[2]


@pytest.mark.parametrize("line", re.findall(r"^    (.+)$", _PAGE, re.MULTILINE))
def test_every_line_of_the_winter_page_reads_without_a_question(line):
    """With the crew's fields, each is one note or one command, and nothing is asked."""
    reading = read_note(line, sent=date(2026, 11, 20), fields=["Kestrel Bottom", "Old Mill East"])

    assert reading.problems == ()
    assert len(reading.notes) + len(reading.commands) == 1
    assert [command.kind for command in reading.commands] != ["choose"]
    assert bool(reading.notes) == ("dug" in line)
