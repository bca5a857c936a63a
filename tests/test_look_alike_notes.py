"""The constructed cases once more, as whole notes through the reader: the road from words to a ranked list."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Finding, History, Visit
from notes_bot.worth import weigh

from .science.look_alike_cases import CASES, Case

DAY = date(2025, 6, 25)
WORDS: dict[str, dict[str, str]] = {
    "en": {
        "stage_v1_v3": "V3", "before_flower": "V5", "after_flower": "R2", "pods_filling": "R5",
        "ph_above_7_3": "pH 8.0", "ph_above_6_2_light": "pH 6.8 sand", "k_low": "K test 85",
        "glyphosate_1_3_weeks": "9 d after glyphosate", "contact_spray_lately": "sprayed lactofen 6 d ago",
        "sandy": "sandy", "heavy_wet": "wet clay", "dry_spell": "dry", "patch": "patch", "wet_rim": "ring",
        "straight_bands": "straight bands", "stunted": "stunted", "yellow": "yellow", "wilted": "wilted",
        "early_ripe": "early ripe", "nodules_few": "few nodules", "roots_white": "roots white",
        "whole_leaf_pale": "whole plant pale", "none": "dug 8 none", "seen": "dug 8: 3 0 2 1 0 4 6 2",
    },
    "es": {
        "stage_v1_v3": "V3", "after_flower": "R2", "ph_above_7_3": "pH 8.0", "k_low": "K 85 ppm",
        "none": "8 plantas con pala ninguna", "seen": "8 plantas con pala: 3 0 2 1 0 4 6 2",
    },
    "pt": {
        "stage_v1_v3": "V3", "before_flower": "V5", "after_flower": "R2", "ph_above_7_3": "pH 8,0", "k_low": "K 85 ppm",
        "glyphosate_1_3_weeks": "9 dias depois do glifosato",
        "none": "8 plantas com pá nenhuma", "seen": "8 plantas com pá: 3 0 2 1 0 4 6 2",
    },
}  # fmt: skip
"""How a scout would write what the case calls by key."""
LANGUAGE = {"hierro": "es", "potasio": "es", "ferro": "pt", "potassio e nematoide": "pt", "faixas": "pt"}
COVERED = {"before_flower": "stage_v1_v3", "after_flower": "pods_filling"}
"""A stage that a later or earlier one in the same case already tells."""


def _note(case: Case) -> str:
    words = WORDS[LANGUAGE.get(case.name, "en")]
    noted = [words[clue] for clue in case.noted if COVERED.get(clue) not in case.noted]
    return ", ".join(["north 40", *noted, case.text, words["seen" if case.infested > 0.9 else "none"]])


def _weigh(text: str) -> Finding:
    reading = read_note(text, sent=DAY)
    (note,) = reading.notes
    return weigh(History(visits=(Visit(1, 1, DAY, note, 1),)), [1.0], DAY)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_written_note_leads_to_its_cause(case: Case) -> None:
    """As a note in the scout's words: the cause comes first of the others, or both are named."""
    finding = _weigh(_note(case))
    others = [found.cause for found in finding.look_alikes if found.cause != "scn"]

    if case.expect == ("scn",):
        assert finding.both == ()
        assert finding.look_alikes[0].cause == "scn"
    else:
        assert others[0] == case.expect[-1]
    if len(case.expect) == 2:
        assert finding.both == case.expect
