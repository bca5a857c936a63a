"""The pages on heat, soil, the clock and its limits say what the code does."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from docs.science import draw_clock
from notes_bot.science.generation import clock_heat  # noqa: F401 - the page names it
from notes_bot.science.growth_stage import R_DAYS_BEFORE_R6, R_SD_DAYS
from notes_bot.science.parameters import CLOCK

SCIENCE = Path(__file__).parents[1] / "docs" / "science"
PAGES = ("heat", "soil", "clock", "growth_stages", "looking_again", "limits")


def between(page: str, mark: str) -> str:
    text = (SCIENCE / f"{page}.md").read_text("utf-8")
    return text.split(f"<!-- {mark} -->\n")[1].split(f"\n<!-- end of {mark} -->")[0]


def test_the_table_of_parameters_is_the_one_in_the_code():
    """Written by docs/science/draw_clock.py; run it after changing a parameter."""
    assert between("clock", "parameters") == draw_clock.parameter_table()


def test_the_table_of_generations_is_what_the_code_counts():
    """Written by the same script."""
    assert between("clock", "generations") == draw_clock.generations_table()


def test_the_table_of_gates_is_what_the_code_finds():
    """What each height of the hatch gate does to the checks; by the same script."""
    assert between("clock", "gates") == draw_clock.gates_table()


def test_the_days_of_stages_are_those_in_the_code():
    """The page's table of days to R6."""
    page = (SCIENCE / "growth_stages.md").read_text("utf-8")

    for stage in range(1, 7):
        assert f"| R{stage} | {R_DAYS_BEFORE_R6[stage]:g} | {R_SD_DAYS[stage]:g} |" in page


@pytest.mark.parametrize("page", PAGES)
def test_every_source_named_can_be_looked_up(page):
    """Keys in the pages and in the table of parameters stand in docs/references.md."""
    listed = (SCIENCE.parent / "references.md").read_text("utf-8")
    known = set(re.findall(r"^- \*\*(\w+)\*\*", listed, re.MULTILINE))
    text = (SCIENCE / f"{page}.md").read_text("utf-8")
    named = set(re.findall(r"\b([A-Z][A-Za-z]+(?:19|20)\d\d\w*)\b", text))
    named |= {key for row in CLOCK.values() for key in row.source.split(", ") if key}

    assert named <= known


@pytest.mark.parametrize("page", PAGES)
def test_every_figure_and_link_is_there(page):
    """Pictures are made by the script and shipped; links between pages lead somewhere."""
    for target in re.findall(r"\]\(([^)#]+)\)", (SCIENCE / f"{page}.md").read_text("utf-8")):
        assert (SCIENCE / target).resolve().exists(), target
