"""What the latest look is worth: joins what is kept of a field with the science of looking.

Pure: takes a `History` and, for each visit, the chance that females could be visible that day (the clock gives
it), returns a `Finding`. No clock, no chance, no files.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from notes_bot.science.clues import CAUSE_KEYS, CLUE_KEYS

FACT_KEYS: dict[str, Mapping[str, Any]] = {
    # Finding.settle: what would settle a doubtful "none seen", cheapest first
    "say_plants": {},  # the note did not say how many plants: tell it
    "come_back_when_visible": {"chance_percent": 10},  # too early: dates are the look-again window's
    "after_rain": {},  # come back after rain: roots tear off in dry hard ground
    "when_soil_dries": {},  # too wet and sticky to see anything
    "use_shovel": {},  # dig, do not pull
    "soak_roots": {},  # swirl the roots in a bucket of water, let them dry a few minutes
    "dig_more": {"plants": 8, "percent": 90, "places": 4},  # so many more plants, at so many places
    "more_places": {"places": 4},  # same number of plants, spread over more places
    "pinch_test": {"count": 1},  # few seen: pinch what was taken for a female; it pops, grit does not
    "soil_sample": {"when": "now"},  # when: "now", "after_harvest"
    # Finding.separating_check: the one cheapest check for the two likeliest causes
    "dig_in_and_out": {"first": "scn", "second": "iron"},  # dig inside the bad spot and in good beans beside it
    "soil_test_at_spot": {"first": "iron", "second": "scn"},  # pH, carbonate and salts where it is yellow
    "soil_and_leaf_k": {"first": "potassium", "second": "scn"},
    "leaf_test": {"first": "manganese", "second": "iron", "element": "Mn"},  # element: "Mn", "Zn", "K"
    "cut_nodules": {"first": "nitrogen", "second": "scn"},  # count nodules of 2 mm and up, cut for pink
    "wait_for_new_leaves": {"first": "glyphosate_flash", "second": "scn", "days": 12},  # days until 3 weeks from spray
    "spray_record": {"first": "als_injury", "second": "dicamba"},
    "split_stem": {"first": "sds", "second": "bsr"},  # colour of pith and wood
    "look_at_stem_base": {"first": "phytophthora", "second": "rhizoctonia"},  # band, sunken spot, specks
    "spade_root_shape": {"first": "compaction", "second": "scn"},  # roots sideways, hard layer
    "look_at_dawn": {"first": "drought", "second": "scn"},  # and after rain
    "look_under_leaves": {"first": "aphid", "second": "spider_mites"},
    "tap_on_paper": {"first": "spider_mites", "second": "drought"},
    "rub_swellings": {"first": "root_knot", "second": "scn"},  # galls stay, females come off
    "where_water_stood": {"first": "waterlogging", "second": "scn"},
    "ask_field_history": {"first": "nitrogen", "second": "carryover"},  # crop and product of last year
    # Finding.cautions
    "entry_closed": {"until": None, "hours": 12.0},  # until: aware datetime or None; hours as the note stated
    "clean_boots_and_spade": {},  # wet soil, or females found: soil moves, clean before the next field
    "infested_last": {},  # females found: clean fields first, this one last
    "ask_before_digging": {},  # near marked lines
    "potash_no_cure": {},  # potassium and nematode both: potash feeds the crop, it does not lower the nematode
    "no_soil_over_borders": {},  # with a soil sample: ask the lab before mailing soil out of state or abroad
    "count_is_least": {},  # "too many to count": the number is a lower bound
    "brown_fall_off": {},  # many tan and brown: some have fallen off, the count is low
    "places_differ": {"most": "oval", "least": "good beans"},  # not averaged
    # ResistanceWatch.reasons
    "above_alarm": {"per_root": 22.0, "alarm_low": 10, "alarm_high": 20},  # published field alarm, white females a root
    "below_alarm": {"per_root": 1.8, "alarm_low": 10, "alarm_high": 20},
    "near_alarm": {"per_root": 12.0, "alarm_low": 10, "alarm_high": 20},
    "against_check": {"percent": 3.0, "low": 2.0, "high": 5.0, "holding_below": 10, "slipping_above": 30},
    "no_check_strip": {},  # low numbers could also mean few nematodes
    "check_strip_low": {"per_root": 2.0},  # the susceptible strip carries few too: no pressure to judge by
    "too_few_plants": {"plants": 3},
    "weak_method": {},  # pulled or dry: the count is low for that reason alone
    "early_in_season": {},  # females are only starting to show
    "not_greenhouse_index": {},  # a field ratio is not a greenhouse female index
    "sample_for_hg_type": {},  # what to do: soil sample for an HG type test
    "chances": {"holding": 0.7, "watch": 0.2, "slipping": 0.1},
}
"""Every fact a `Finding` can state, with example values. Closed set; the reply room has the words."""

__all__ = ["CAUSE_KEYS", "CLUE_KEYS", "FACT_KEYS"]
