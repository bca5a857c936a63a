"""What else it could be: constructed cases, limits of the combination, and the tables behind it."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notes_bot.science import look_alikes
from notes_bot.science.clue_words import OPPOSITE, WORDS, clues_in_text
from notes_bot.science.clues import CAUSE_KEYS, CAUSES, CLUE_KEYS, CLUES, JUDGEMENT, LINKS, STRENGTH, Link
from notes_bot.science.look_alikes import weigh_causes

from .look_alike_cases import CASES, Case

ROOT = Path(__file__).parents[2]
KEYS = [clue.key for clue in CLUES]
clue_sets = st.frozensets(st.sampled_from(KEYS), max_size=8)


def _clues(case: Case) -> frozenset[str]:
    return clues_in_text(case.text) | set(case.noted)


def _answer(clues: frozenset[str], infested: float) -> tuple[str, ...]:
    """First cause, or the pair when the nematode is proven and another cause is likely as well."""
    weighed = weigh_causes(clues, infested)
    other = max(weighed.together, key=lambda c: weighed.together[c])
    if infested >= 0.9 and weighed.together[other] >= 0.5:
        return ("scn", other)
    return (weighed.ranked()[0][0],)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_constructed_case_names_its_cause_first_or_both(case: Case) -> None:
    """The intended cause comes out on top; with females on the roots the pair does."""
    assert _answer(_clues(case), case.infested) == case.expect


def test_every_cause_has_a_case() -> None:
    """No cause can be named that no case tries."""
    assert {cause for case in CASES for cause in case.expect} == set(CAUSE_KEYS)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_no_single_missing_clue_flips_a_clear_case_silently(case: Case) -> None:
    """Leave one clue out: the cause stays first of the others, or nothing else is called likelier than not."""
    clues = _clues(case)
    wanted = case.expect[-1]
    for clue in clues:
        less = weigh_causes(clues - {clue}, case.infested)
        rivals = {cause: chance for cause, chance in less.other.items() if cause != wanted}
        first = max(rivals, key=lambda cause: rivals[cause])
        kept = wanted == "scn" or less.other[wanted] > rivals[first]

        assert kept or rivals[first] < 0.5, f"without {clue}: {first} {rivals[first]:.2f}"
        if wanted == "scn":
            assert rivals[first] < 0.5


@given(st.floats(0.0, 1.0))
def test_no_clue_leaves_every_other_cause_at_its_commonness(infested: float) -> None:
    """Without clues the ranking is how common things are."""
    weighed = weigh_causes((), infested)
    iron, zinc = weighed.other["iron"], weighed.other["zinc"]

    assert iron > 5 * zinc


@given(clue_sets, st.floats(0.0, 1.0))
@settings(max_examples=60)
def test_chances_are_chances(clues: frozenset[str], infested: float) -> None:
    """All lie in 0 to 1, the other causes and "nothing else" sum to one, together is never above either."""
    w = weigh_causes(clues, infested)

    assert sum(w.other.values()) + w.nothing_else == pytest.approx(1.0)
    for cause, chance in w.together.items():
        assert 0.0 <= chance <= min(w.scn, w.other[cause]) + 1e-12


@given(clue_sets, st.floats(0.01, 0.98))
@settings(max_examples=40)
def test_more_infested_roots_never_make_the_nematode_less_likely(clues: frozenset[str], infested: float) -> None:
    """Whatever the tops say, females on the roots speak for the nematode."""
    assert weigh_causes(clues, infested + 0.01).scn >= weigh_causes(clues, infested).scn


@given(clue_sets)
@settings(max_examples=40)
def test_missing_evidence_is_not_evidence_against(clues: frozenset[str]) -> None:
    """A clue that concerns no cause in question, left out or absent, is simply not in the sum."""
    assert weigh_causes(clues, 0.4) == weigh_causes(set(clues), 0.4)
    for clue in clues:
        if all(link.clue != clue for link in LINKS if link.direction == "for" and link.cause == "iron"):
            continue
        # a clue for iron left out lowers iron only to what the rest supports, never below its share without any clue
        rest = clues - {clue}
        against = any(link.cause == "iron" and link.clue in rest and link.direction == "against" for link in LINKS)
        for_others = {link.clue for link in LINKS if link.cause != "iron"}
        if not against and not rest & for_others:
            assert weigh_causes(rest, 0.4).other["iron"] >= weigh_causes((), 0.4).other["iron"] - 1e-9


@pytest.mark.parametrize("link", LINKS, ids=lambda link: f"{link.cause}-{link.clue}")
def test_each_link_pushes_its_cause_the_way_it_says(link: Link) -> None:
    """A clue for a cause raises its odds against nothing in particular, a clue against lowers them."""
    ratio = look_alikes.clue_ratio(link.clue, [link.cause])

    assert ratio > 1.2 if link.direction == "for" else ratio < 0.8


def test_no_clue_outweighs_the_strongest_weight() -> None:
    """The cap holds: no single clue moves any hypothesis by more than a sign may, nor against by more than that."""
    for clue in CLUES:
        for cause in CAUSES:
            ratio = look_alikes.clue_ratio(clue.key, [cause.key])

            assert 1 / STRENGTH["sign"] <= ratio <= STRENGTH["sign"] + 1e-9


def test_two_leaf_clues_count_less_than_two_clues_of_different_kinds() -> None:
    """Clues of one group tend to come together."""
    powers = look_alikes.powers({"new_leaves_yellow_veins_green", "older_leaves_green", "carbonate_or_salt"})

    assert powers["new_leaves_yellow_veins_green"] == 1.0
    assert powers["older_leaves_green"] == pytest.approx(1 / math.sqrt(2))
    assert powers["carbonate_or_salt"] == 1.0


def test_a_clue_that_another_cause_brings_is_not_held_against_the_nematode() -> None:
    """Bands after a spray neither prove nor clear the field."""
    bands = weigh_causes({"straight_bands", "glyphosate_1_3_weeks", "new_leaves_all_yellow"}, 0.4)

    assert bands.other["glyphosate_flash"] > 0.85
    assert bands.scn == pytest.approx(0.4, abs=0.05)


def test_females_on_the_roots_do_not_rule_out_anything_else() -> None:
    """Finding the nematode leaves iron as likely as the leaves say."""
    leaves = {"new_leaves_yellow_veins_green", "ph_above_7_3", "stage_v1_v3"}

    assert weigh_causes(leaves, 0.995).other["iron"] > 0.75
    assert weigh_causes(leaves, 0.995).scn > 0.99


@pytest.mark.parametrize(
    ("first", "second", "check"),
    [
        ("sds", "bsr", "split_stem"),
        ("iron", "scn", "dig_in_and_out"),
        ("potassium", "iron", "soil_test_at_spot"),
        ("glyphosate_flash", "scn", "wait_for_new_leaves"),
        ("root_knot", "scn", "rub_swellings"),
        ("aphid", "spider_mites", "look_under_leaves"),
        ("phytophthora", "rhizoctonia", "look_at_stem_base"),
        ("nitrogen", "scn", "cut_nodules"),
        ("drought", "scn", "look_at_dawn"),
        ("als_injury", "dicamba", "spray_record"),
        ("manganese", "zinc", "leaf_test"),
    ],
)
def test_the_cheapest_check_separates_the_two(first: str, second: str, check: str) -> None:
    """A look or a cut before a shovel, a shovel before a laboratory."""
    found = look_alikes.cheapest_check(first, second, ())

    assert found is not None
    assert found.key == check


def test_a_check_already_made_is_not_asked_for_again() -> None:
    """When the pith was seen, splitting the stem tells nothing new."""
    found = look_alikes.cheapest_check("sds", "bsr", {"pith_brown"})

    assert found is None or found.key != "split_stem"


def test_every_pair_of_causes_has_a_check() -> None:
    """Whatever two causes come first, something would tell them apart."""
    for one in CAUSE_KEYS:
        for two in CAUSE_KEYS:
            if one < two:
                assert look_alikes.cheapest_check(one, two, ()) is not None, (one, two)


# --- the tables -----------------------------------------------------------------------------------------------


def test_links_name_known_causes_and_clues_once() -> None:
    """No stray key, no pair twice, every clue used and spoken for."""
    assert {link.cause for link in LINKS} == set(CAUSE_KEYS)
    assert {link.clue for link in LINKS} == set(KEYS)
    assert len({(link.cause, link.clue) for link in LINKS}) == len(LINKS)
    assert len(set(KEYS)) == len(KEYS)


def test_no_clue_could_be_certain() -> None:
    """A high weight on a common clue would hit the ceiling and lose its meaning."""
    for link in LINKS:
        common = next(clue.common for clue in CLUES if clue.key == link.clue)
        if link.direction == "for" and link.weight in ("high", "sign"):
            assert common * STRENGTH[link.weight] <= 1.25, link


def test_every_source_key_is_in_the_references() -> None:
    """A row's source can be looked up."""
    known = set(re.findall(r"^- \*\*([\w]+)\*\*", (ROOT / "docs" / "references.md").read_text("utf-8"), re.MULTILINE))
    used = {link.source for link in LINKS} | {cause.source for cause in CAUSES} | {c.source for c in look_alikes.CHECKS}

    assert used - {JUDGEMENT, "memory"} <= known


@pytest.mark.parametrize("clue", sorted({clue for clue, _ in WORDS} | set(OPPOSITE.values())))
def test_words_name_known_clues(clue: str) -> None:
    """The word table and the clue table agree."""
    assert clue in CLUE_KEYS


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("no aphids", {"no_aphids"}),
        ("sin pulgones", {"no_aphids"}),
        ("sem pulgões, medula branca", {"no_aphids", "pith_white"}),
        ("no stem lesion", {"no_stem_band"}),
        ("not cupped", set()),
        ("pith white, wood grey", {"pith_white_wood_grey"}),
        ("green wheel tracks? tracks are greener", {"tracks_greener"}),
        ("planted 5/6 next to the creek", set()),
        ("", set()),
    ],
)
def test_negations_and_overlaps_are_read(text: str, expected: set[str]) -> None:
    """A denied clue is dropped or turned round; a part of a stronger phrase gives way."""
    assert clues_in_text(text) == expected


@given(st.text(max_size=200))
@settings(max_examples=100)
def test_any_text_is_read_without_harm(text: str) -> None:
    """Garbage in, known keys out."""
    assert clues_in_text(text) <= set(KEYS)
