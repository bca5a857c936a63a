"""What the latest look is worth, on the eight demo scenes and at the edges."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notes_bot import worth
from notes_bot.model import (
    Females,
    Finding,
    History,
    Note,
    Outcome,
    Resistance,
    Soil,
    Spot,
    Spray,
    Variety,
    Visit,
    Where,
)
from notes_bot.science.look_alikes import CHECKS
from notes_bot.worth import CAUSE_KEYS, CHANGE_KEYS, CLUE_KEYS, FACT_KEYS, infested_after, plan_look, weigh

NONE = Females(0, 0, 0, 0, 0)


def _total(*counts: int) -> Females:
    return Females(total=sum(counts))


def _spot(name: str, *counts: int, check: bool = False) -> Spot:
    return Spot(name, len(counts), _total(*counts), counts, check)


def _history(*notes: tuple[Note, date], planted: date | None = None, resistance: Resistance | None = None) -> History:
    visits = tuple(Visit(i, 1, on, note, 1) for i, (note, on) in enumerate(notes, start=1))
    return History(planted=planted, resistance=resistance, visits=visits)


def _weigh(note: Note, on: date, visible: float, **kwargs: object) -> Finding:
    return weigh(_history((note, on), **kwargs), [visible], on)  # type: ignore[arg-type]


def _keys(facts: tuple[object, ...]) -> list[str]:
    return [fact.key for fact in facts]  # type: ignore[attr-defined]


EARLY_WHITE = Note(
    plants=6, method="shovel", soaked=True, females=Females(17, 0, 0, 0, 17), per_plant=(3, 0, 7, 2, 5, 0),
    outcome="seen", soil=Soil("moist", "silty_clay_loam"), stage="V4", tops=("healthy",),
)  # fmt: skip
PEAK_YELLOW = Note(
    plants=10, method="shovel", females=_total(283, 73), per_plant=(57, 61, 43, 79, 43, 17, 11, 22, 11, 12),
    spots=(_spot("oval", 57, 61, 43, 79, 43), _spot("good beans", 17, 11, 22, 11, 12)), mostly=("yellow",),
    outcome="seen", soil=Soil("moist", "sandy_loam"), stage="R2.5", tops=("patch",),
    variety=Variety(resistance="resistant"),
    where=Where(1, 1, "Old Mill E 7/16 R2.5 sandy lm, dry top moist below. oval by gate 30x90 yd runs w/ rows. "
                "in: 57 61 43 79 43 mostly yel. out: 17 11 22 11 12. shovel. tag says SCN res??"),
)  # fmt: skip
LATE_TAN = Note(
    plants=8, method="shovel", females=_total(129), per_plant=(17, 17, 19, 13, 20, 17, 8, 18), mostly=("tan", "brown"),
    outcome="seen", stage="R6", tops=("early_ripe",),
    where=Where(1, 1, "Cedar slough qtr, aug 29, R6, 8 dug. mostly tan + brown, 17 17 19 13 20 17 8 18. coming off in "
                "bucket (~20 loose). early ripe end. pull soil sample after harvest"),
)  # fmt: skip
PULLED_DRY = Note(
    plants=4, method="pulled", females=NONE, outcome="none_seen", soil=Soil("dry"), stage="V7", roots=("snapped",),
    where=Where(1, 1, "harrow rdg 3, 6/30, V7ish, bone dry, pulled 4, nun seen, roots snapped"),
)  # fmt: skip
HOLDING = Note(
    plants=10, method="shovel", females=_total(18), per_plant=(1, 2, 1, 0, 6, 0, 4, 1, 0, 3),
    spots=(_spot("check strip", 46, 61, 38, 72, 55, check=True),), mostly=("white", "yellow"), outcome="seen",
    soil=Soil("moist"), stage="R2", variety=Variety(resistance="resistant"),
)  # fmt: skip
IRON = Note(
    plants=6, method="shovel", females=NONE, outcome="none_seen", soil=Soil(ph=8.1), stage="V2.5",
    tops=("yellow", "interveinal_new", "ring"),
    where=Where(1, 1, "pothole flat 6/10 V2-3 yellow ring, new lvs yel grn veins, pH 8.1. dug 6 none yet. recheck "
                "2 wk"),
)  # fmt: skip
POTASSIUM = Note(
    plants=8, method="shovel", females=_total(14), per_plant=(2, 0, 4, 1, 0, 6, 0, 1), outcome="seen",
    soil=Soil(k_ppm=78), stage="R1", tops=("edges_old",),
    where=Where(1, 1, "tinkers 7/2 R1, lower lvs edges yel/brn in spreader strips, K test 78. dug 8: 2 0 4 1 0 6 0 1. "
                "both?"),
)  # fmt: skip
FLASH = Note(
    plants=6, method="shovel", females=NONE, outcome="none_seen", stage="V5", tops=("flash_bands",),
    roots=("nodules_pink",), spray=Spray("gly", None, 9, None),
    where=Where(1, 1, "sycamore ln 6/23 V5, 9 d after gly, new lvs yel in straight bands on end rows + overlaps, dug 6 "
                "none, nods pink. look again 7/5"),
)  # fmt: skip

SCENES: tuple[tuple[Note, date, float], ...] = (
    (EARLY_WHITE, date(2025, 6, 11), 0.9),
    (PEAK_YELLOW, date(2025, 7, 16), 0.99),
    (LATE_TAN, date(2025, 8, 29), 0.9),
    (PULLED_DRY, date(2025, 6, 30), 0.98),
    (HOLDING, date(2025, 7, 8), 0.99),
    (IRON, date(2025, 6, 10), 0.15),
    (POTASSIUM, date(2025, 7, 2), 0.98),
    (FLASH, date(2025, 6, 23), 0.9),
)


def test_early_white_is_found_and_low_counts_are_not_a_verdict_on_the_year() -> None:
    """Scene 1: seen, about three per plant, cautions about carrying soil, no look-alikes for green beans."""
    finding = _weigh(*SCENES[0])

    assert finding.verdict == "seen"
    assert finding.females_per_plant is not None
    assert finding.females_per_plant.low < 17 / 6 < finding.females_per_plant.high
    assert finding.look_alikes == ()
    assert _keys(finding.cautions) == ["clean_boots_and_spade", "infested_last"]


def test_two_places_that_differ_are_never_averaged() -> None:
    """Scene 2: 56.6 in the oval and 14.6 outside stay two numbers."""
    finding = _weigh(*SCENES[1])

    assert finding.females_per_plant is None
    oval, good = finding.spots
    assert oval.females_per_plant.low < 56.6 < oval.females_per_plant.high
    assert good.females_per_plant.low < 14.6 < good.females_per_plant.high
    assert {"most": "oval", "least": "good beans"} in [dict(fact.values) for fact in finding.cautions]


def test_far_above_the_alarm_on_a_resistant_variety_is_slipping() -> None:
    """Scene 2: the published field alarm is named and a sample for an HG type test advised."""
    watch = _weigh(*SCENES[1]).resistance

    assert watch is not None
    assert watch.verdict == "slipping"
    assert watch.probability > 0.95
    assert watch.percent_of_check is None
    assert {"above_alarm", "no_check_strip", "sample_for_hg_type"} <= set(_keys(watch.reasons))


def test_late_brown_counts_are_called_low_and_a_soil_sample_is_next() -> None:
    """Scene 3: cysts have fallen off, and after harvest soil tells more than roots."""
    finding = _weigh(*SCENES[2])

    assert "brown_fall_off" in _keys(finding.cautions)
    assert _keys(finding.settle) == ["soil_sample"]
    assert finding.look_alikes[0].cause == "scn"


def test_none_seen_on_pulled_dry_roots_is_too_weak_to_mean_anything() -> None:
    """Scene 4: the chance of infestation hardly moves; what would settle it is a spade after rain."""
    finding = _weigh(*SCENES[3])

    assert finding.verdict == "too_weak"
    assert finding.detection is not None
    assert finding.detection < 0.05
    assert finding.infested_before == 0.5
    assert finding.infested_after == pytest.approx(0.5, abs=0.03)
    assert _keys(finding.settle) == ["after_rain", "use_shovel", "soak_roots", "dig_more"]


def test_a_few_per_plant_beside_a_loaded_strip_is_holding() -> None:
    """Scene 5: about 3 % of the strip, which is not a greenhouse female index."""
    watch = _weigh(*SCENES[4]).resistance

    assert watch is not None
    assert watch.verdict == "holding"
    assert watch.percent_of_check is not None
    assert watch.percent_of_check.low < 3.3 < watch.percent_of_check.high < 10
    assert "not_greenhouse_index" in _keys(watch.reasons)


def test_a_yellow_ring_on_high_ph_is_iron_and_too_early_for_females() -> None:
    """Scene 6: iron first, the nematode not ruled out, dig in the ring again."""
    finding = _weigh(*SCENES[5])

    assert finding.verdict == "too_early"
    assert finding.look_alikes[0].cause == "iron"
    assert finding.look_alikes[0].probability > 0.8
    assert "new_leaves_yellow_veins_green" in finding.look_alikes[0].evidence_for
    assert finding.look_alikes[1].cause == "scn"
    assert "none_seen_too_early" in finding.look_alikes[1].evidence_against
    assert finding.separating_check is not None
    assert finding.separating_check.key == "dig_in_and_out"


def test_potassium_shortage_with_females_is_both_and_potash_is_no_cure() -> None:
    """Scene 7: both is the answer, and nobody is told that potash lowers the nematode."""
    finding = _weigh(*SCENES[6])

    assert finding.both == ("scn", "potassium")
    assert "potash_no_cure" in _keys(finding.cautions)


def test_bands_nine_days_after_glyphosate_are_a_spray_effect_and_six_plants_are_thin() -> None:
    """Scene 8: flash first; wait until three weeks after the spray; the field is not cleared."""
    finding = _weigh(*SCENES[7])

    assert finding.verdict == "thin"
    assert finding.look_alikes[0].cause == "glyphosate_flash"
    assert finding.look_alikes[0].probability > 0.8
    assert finding.separating_check is not None
    assert finding.separating_check.key == "wait_for_new_leaves"
    assert finding.separating_check.values["days"] == 12
    assert finding.infested_after is not None
    assert finding.infested_after > 0.1


@pytest.mark.parametrize("scene", range(8), ids=lambda i: f"scene {i + 1}")
def test_every_key_said_is_a_key_listed_with_the_same_values(scene: int) -> None:
    """Whoever words the facts can rely on the tables."""
    finding = _weigh(*SCENES[scene])
    watch = finding.resistance
    check = (finding.separating_check,) if finding.separating_check else ()

    for fact in (*finding.settle, *finding.cautions, *check, *(watch.reasons if watch else ())):
        assert set(fact.values) <= set(FACT_KEYS[fact.key]), fact
    for look_alike in finding.look_alikes:
        assert look_alike.cause in CAUSE_KEYS
        assert set(look_alike.evidence_for + look_alike.evidence_against) <= set(CLUE_KEYS)


# --- limits ----------------------------------------------------------------------------------------------------

CLEAN = Note(plants=8, method="shovel", soaked=True, females=NONE, outcome="none_seen", soil=Soil("moist", "loam"))
DAY = date(2025, 7, 1)


@given(
    st.floats(0.0, 1.0),
    st.integers(0, 40),
    st.sampled_from(["pulled", "eased", "shovel", None]),
    st.sampled_from(["dry", "moist", "wet", None]),
)
@settings(max_examples=40, deadline=None)
def test_a_clean_look_never_raises_the_chance_and_is_a_chance(
    visible: float, plants: int, method: str | None, moisture: str | None
) -> None:
    """For every look the posterior lies between 0 and the prior."""
    note = replace(CLEAN, plants=plants, method=method, soil=Soil(moisture))  # type: ignore[arg-type]
    finding = _weigh(note, DAY, visible)

    assert finding.infested_before is not None
    assert finding.infested_after is not None
    assert 0.0 < finding.infested_after <= finding.infested_before + 1e-12


def test_before_the_window_the_posterior_is_the_prior() -> None:
    """However many plants were dug."""
    finding = _weigh(replace(CLEAN, plants=100), DAY, 0.0)

    assert finding.verdict == "too_early"
    assert finding.infested_after == finding.infested_before == 0.5
    assert "come_back_when_visible" in _keys(finding.settle)


def test_a_prior_that_is_only_a_convention_is_said_to_be_one() -> None:
    """And one that comes from earlier finds is not."""
    assert _weigh(CLEAN, DAY, 1.0).prior_is_convention
    known = weigh(replace(_history((CLEAN, DAY)), found_before=True), [1.0], DAY)

    assert not known.prior_is_convention
    assert known.infested_before is not None
    assert known.infested_before > 0.9


@pytest.mark.parametrize(
    ("plants", "method", "soaked", "visible", "verdict"),
    [
        (20, "shovel", True, 1.0, "strong"),
        (9, "shovel", True, 1.0, "fair"),
        (6, "shovel", False, 1.0, "thin"),
        (4, "pulled", False, 1.0, "too_weak"),
        (20, "shovel", True, 0.1, "too_early"),
        (20, "shovel", True, 0.25, "too_early"),
        (6, "shovel", False, 0.48, "too_early"),
        (4, "pulled", False, 0.4, "too_weak"),
        (20, "shovel", True, 0.5, "thin"),
    ],
)
def test_the_word_for_none_seen_follows_the_chance_of_having_shown_it(
    plants: int, method: str, soaked: bool, visible: float, verdict: str
) -> None:
    """Strong, fair, thin, too weak, too early: each where it belongs."""
    note = replace(CLEAN, plants=plants, method=method, soaked=soaked)  # type: ignore[arg-type]

    assert _weigh(note, DAY, visible).verdict == verdict


def test_the_same_look_after_the_roots_gave_out_is_too_late_not_too_early() -> None:
    """A ripe stage, a better day earlier, or the days since planting tell which side of the window it is."""
    ripe = _weigh(replace(CLEAN, stage="R7"), date(2025, 9, 15), 0.05)
    days = weigh(_history((CLEAN, date(2025, 9, 20)), planted=date(2025, 5, 10)), [0.05], date(2025, 9, 20))
    after_better = weigh(_history((CLEAN, DAY), (CLEAN, date(2025, 9, 9))), [0.9, 0.1], date(2025, 9, 9))

    assert ripe.verdict == days.verdict == after_better.verdict == "too_late"
    assert _keys(ripe.settle) == ["soil_sample"]


def test_repeating_a_weak_look_does_not_make_it_strong() -> None:
    """Ten times four pulled plants is not forty dug ones."""
    weak = replace(CLEAN, plants=4, method="pulled", soaked=False)
    days = [date(2025, 7, day) for day in range(1, 11)]
    pulled = infested_after(_history(*((weak, day) for day in days)), [1.0] * 10)
    dug = infested_after(_history((replace(CLEAN, plants=40), DAY)), [1.0])

    assert pulled > 4 * dug


def test_a_find_earlier_in_the_season_stands() -> None:
    """A clean look after females were counted does not clear the field."""
    history = _history((EARLY_WHITE, date(2025, 6, 11)), (replace(CLEAN, plants=20), date(2025, 7, 20)))
    finding = weigh(history, [0.9, 1.0], date(2025, 7, 20))

    assert finding.verdict == "strong"
    assert finding.infested_after == finding.infested_before
    assert finding.infested_after is not None
    assert finding.infested_after > 0.97


def test_without_visits_the_prior_is_all_there_is() -> None:
    """No look, no news; and there is nothing to weigh."""
    assert infested_after(History(), []) == 0.5
    with pytest.raises(ValueError, match="no visit"):
        weigh(History(), [], DAY)


def test_visits_and_visibilities_must_match() -> None:
    """A missing chance of visibility is a mistake of ours, not a guess."""
    with pytest.raises(ValueError, match="1 visits need"):
        weigh(_history((CLEAN, DAY)), [], DAY)


@pytest.mark.parametrize("outcome", ["not_looked", None])
def test_not_looked_is_not_none_seen(outcome: Outcome | None) -> None:
    """A note about anything else leaves the roots where they were."""
    finding = _weigh(Note(outcome=outcome, stage="R1"), DAY, 1.0)

    assert finding.verdict == "not_looked"
    assert finding.infested_after == finding.infested_before
    assert finding.detection is None
    assert finding.settle == ()


def test_a_clean_look_without_a_number_counts_as_one_plant_and_asks() -> None:
    """ "None" without how many is the least a look can be."""
    untold = _weigh(replace(CLEAN, plants=None), DAY, 1.0)

    assert untold.infested_after == _weigh(replace(CLEAN, plants=1), DAY, 1.0).infested_after
    assert _keys(untold.settle)[0] == "say_plants"


def test_plants_all_from_one_spot_are_to_be_spread() -> None:
    """Eight clean plants by the gate say little of the field."""
    note = replace(CLEAN, spots=(_spot("gate", *(0,) * 8),))

    assert "more_places" in _keys(_weigh(note, DAY, 1.0).settle)
    assert "more_places" not in _keys(_weigh(CLEAN, DAY, 1.0).settle)


def test_every_fact_a_finding_may_state_is_stated_somewhere() -> None:
    """No key is worded for nothing: each is named in the code that states it."""
    code = (Path(worth.__file__)).read_text("utf-8")
    stated = code[code.index("def weigh(") :]
    for key in FACT_KEYS:
        assert f'"{key}"' in stated or key in {check.key for check in CHECKS}, key


def test_a_single_speck_is_to_be_pinched() -> None:
    """One body may be grit; the first few are checked."""
    note = replace(CLEAN, females=Females(1, 0, 0, 0, 1), outcome="seen")

    assert _keys(_weigh(note, DAY, 1.0).settle) == ["pinch_test"]


@pytest.mark.parametrize(
    ("note", "least"),
    [
        (Note(plants=4, females=Females(1, 0, 0, 0, 1), outcome="seen"), 0.75),
        (Note(plants=4, outcome="seen"), 0.85),
        (Note(plants=4, outcome="seen", mostly=("yellow",)), 0.95),
        (Note(plants=4, outcome="seen", too_many=True), 0.99),
    ],
)
def test_more_said_to_be_there_is_surer(note: Note, least: float) -> None:
    """One body, some, several, too many to count: each surer than the one before, dug in a way nobody told."""
    chance = _weigh(note, DAY, 1.0).infested_after

    assert chance is not None
    assert least < chance < least + 0.06


def test_females_only_on_the_check_strip_still_prove_the_field() -> None:
    """None on the resistant beans, fifty on the susceptible strip: the nematode is there and held."""
    note = Note(
        plants=10, method="shovel", females=NONE, per_plant=(0,) * 10, outcome="none_seen", soil=Soil("moist"),
        spots=(_spot("check strip", 46, 61, 38, 72, 55, check=True),), variety=Variety(resistance="resistant"),
    )  # fmt: skip
    finding = _weigh(note, DAY, 1.0)

    assert finding.infested_after is not None
    assert finding.infested_after > 0.99
    assert finding.resistance is not None
    assert finding.resistance.verdict == "holding"
    assert finding.females_per_plant is not None
    assert finding.females_per_plant.low == 0.0


def test_a_low_count_on_pulled_roots_is_no_comfort_about_resistance() -> None:
    """Pulled plants lose females: few of them is not holding."""
    note = replace(HOLDING, spots=(), method="pulled")
    watch = _weigh(note, DAY, 1.0).resistance

    assert watch is not None
    assert watch.verdict == "watch"
    assert "weak_method" in _keys(watch.reasons)


def test_an_empty_check_strip_means_no_pressure_to_judge_by() -> None:
    """When the susceptible strip carries as few, holding is not shown."""
    note = replace(HOLDING, spots=(_spot("check strip", 1, 0, 2, 1, 0, check=True),))
    watch = _weigh(note, DAY, 1.0).resistance

    assert watch is not None
    assert watch.verdict == "watch"
    assert "check_strip_low" in _keys(watch.reasons)


def test_a_susceptible_variety_has_no_resistance_to_watch() -> None:
    """The watch speaks only of varieties sold as resistant."""
    assert _weigh(replace(HOLDING, variety=Variety(resistance="susceptible")), DAY, 1.0).resistance is None


def test_like_places_are_pooled() -> None:
    """Two places that do not differ give one number, and both are still shown."""
    note = replace(EARLY_WHITE, spots=(_spot("drive", 3, 0, 7), _spot("draw", 2, 5, 0)))
    finding = _weigh(note, DAY, 1.0)

    assert finding.females_per_plant is not None
    assert len(finding.spots) == 2


def test_too_many_to_count_is_called_a_lower_bound() -> None:
    """The interval lies above the number given."""
    note = Note(plants=2, method="shovel", females=Females(total=200), outcome="seen", too_many=True)
    finding = _weigh(note, DAY, 1.0)

    assert finding.females_per_plant is not None
    assert finding.females_per_plant.likely > 100
    assert "count_is_least" in _keys(finding.cautions)


# --- cautions where they apply -----------------------------------------------------------------------------------


def test_a_dry_calm_known_field_gets_no_caution() -> None:
    """Cautions are not on every mail."""
    history = replace(_history((EARLY_WHITE, DAY)), found_before=True)

    assert weigh(history, [1.0], DAY).cautions == ()


def test_a_closed_field_is_said_to_be_closed_until_when() -> None:
    """The restricted-entry interval of the note is repeated, with the time where it is known."""
    note = replace(CLEAN, spray=Spray("fungicide", None, 0, 24.0))
    closed = replace(_history((note, DAY)), entry_closed_until=datetime(2025, 7, 2, 15, tzinfo=UTC))
    with_time, without = weigh(closed, [1.0], DAY), _weigh(note, DAY, 1.0)

    assert with_time.cautions[0].values == {"until": "2025-07-02T15:00:00+00:00", "hours": 24.0}
    assert without.cautions[0].values == {"until": None, "hours": 24.0}


def test_a_closure_that_has_passed_is_not_repeated() -> None:
    """Yesterday's interval is no caution today."""
    passed = replace(_history((CLEAN, DAY)), entry_closed_until=datetime(2025, 6, 20, tzinfo=UTC))

    assert weigh(passed, [1.0], DAY).cautions == ()


def test_wet_soil_asks_for_clean_boots() -> None:
    """Mud carries nematodes to the next field."""
    assert _keys(_weigh(replace(CLEAN, soil=Soil("wet")), DAY, 1.0).cautions) == ["clean_boots_and_spade"]


@pytest.mark.parametrize(
    ("words", "key"),
    [
        ("thunder to the west", "thunder"),
        ("tormenta cerca", "thunder"),
        ("trovoada", "thunder"),
        ("dug by the road", "road"),
        ("na beira da estrada", "road"),
        ("too hot to go on", "heat"),
        ("mucho calor", "heat"),
    ],
)
def test_a_hazard_named_in_the_note_brings_its_caution(words: str, key: str) -> None:
    """Thunder, roads and heat are spoken of where they are, and only there."""
    note = replace(CLEAN, where=Where(1, 1, f"north 40, {words}, dug 8 none"))

    assert _keys(_weigh(note, DAY, 1.0).cautions) == [key]


def test_both_causes_are_not_to_be_told_apart() -> None:
    """Where the nematode and potash shortage are both likely, no check asks which of the two it is."""
    finding = _weigh(POTASSIUM, date(2025, 7, 2), 0.98)

    assert finding.both == ("scn", "potassium")
    assert finding.separating_check is None or "scn" not in finding.separating_check.values.values()


def test_a_third_clean_look_that_left_a_doubt_asks_for_soil() -> None:
    """Looking on and on at roots settles less than a soil sample."""
    two = _history(*[(replace(CLEAN, plants=2), date(2025, 7, day)) for day in (1, 8)])
    three = _history(*[(replace(CLEAN, plants=2), date(2025, 7, day)) for day in (1, 8, 15)])

    assert "soil_sample" not in _keys(weigh(two, [1.0] * 2, DAY).settle)
    assert weigh(three, [1.0] * 3, DAY).settle[0].key == "soil_sample"


def test_a_day_likelier_wrong_than_right_is_too_early_however_much_was_dug() -> None:
    """A chance of less than even that females were out is the first thing to mend."""
    for plants in (6, 20, 100):
        assert _weigh(replace(CLEAN, plants=plants), DAY, 0.45).verdict == "too_early"


def test_the_earlier_count_is_told_but_never_averaged_over_places_that_differed() -> None:
    """2.8 a plant then; nothing for a field of 57 here and 15 there."""
    alike = _history((EARLY_WHITE, date(2025, 6, 11)), (CLEAN, date(2025, 6, 18)))
    apart = _history((PEAK_YELLOW, date(2025, 7, 10)), (replace(HOLDING, spots=()), date(2025, 7, 16)))
    one, other = weigh(alike, [1.0, 1.0], DAY).change, weigh(apart, [1.0, 1.0], DAY).change

    assert one is not None
    assert one.then == pytest.approx(17 / 6)
    assert other is not None
    assert other.then is None


def test_a_pipeline_in_the_note_asks_before_digging() -> None:
    """Only where a buried line is mentioned."""
    note = replace(CLEAN, where=Where(1, 1, "dug 8 by the pipeline marker, none"))

    assert "ask_before_digging" in _keys(_weigh(note, DAY, 1.0).cautions)


def test_an_interval_that_ran_out_days_ago_is_not_repeated() -> None:
    """Twelve hours after a spray of last week are over."""
    note = replace(CLEAN, spray=Spray("fungicide", None, 6, 12.0))

    assert _weigh(note, DAY, 1.0).cautions == ()


# --- what was known before, planning, and change ------------------------------------------------------------------


def test_a_prior_from_the_neighbours_is_used_and_not_called_a_convention() -> None:
    """What the crew knows goes in front of an even guess."""
    history = replace(_history((CLEAN, DAY)), infested_prior=0.2)
    finding = weigh(history, [1.0], DAY)

    assert finding.infested_before == pytest.approx(0.2)
    assert not finding.prior_is_convention
    assert infested_after(replace(history, visits=()), []) == pytest.approx(0.2)


def test_a_plan_asks_fewer_plants_of_a_better_method_and_more_to_be_surer() -> None:
    """Shovel and bucket first, and pulling by hand is never the way to be 95 % sure."""
    plans = plan_look("clay").plans
    best, worst = plans[0], plans[-1]

    assert (best.method, best.soaked) == ("shovel", True)
    assert best.plants[80] is not None
    assert best.plants[95] is not None
    assert best.plants[80] < best.plants[95]
    assert worst.method == "pulled"
    assert worst.plants[95] is None


def test_what_five_pulled_plants_told_is_told_backwards() -> None:
    """A weak look could have overlooked more than a strong one."""
    weak = _weigh(replace(CLEAN, plants=5, method="pulled", soaked=False), DAY, 1.0).overlooked
    strong = _weigh(replace(CLEAN, plants=20), DAY, 1.0).overlooked

    assert weak is not None
    assert strong is not None
    assert weak > 10 * strong


def _counted(on: date, *counts: int, **changes: object) -> tuple[Note, date]:
    note = Note(
        plants=len(counts), method="shovel", soaked=True, females=_total(*counts), per_plant=counts,
        outcome="seen" if sum(counts) else "none_seen", soil=Soil("moist", "loam"),
    )  # fmt: skip
    return replace(note, **changes), on  # type: ignore[arg-type]


def test_a_change_comes_with_its_doubt() -> None:
    """Five plants then and five now: three times as many, and the interval says how sure that is."""
    days = date(2025, 7, 1), date(2025, 7, 6)
    history = _history(_counted(days[0], 3, 8, 5, 2, 7), _counted(days[1], 20, 9, 16, 12, 18))
    change = weigh(history, [1.0, 1.0], days[1]).change

    assert change is not None
    assert change.since == days[0]
    assert change.ratio.low < 3.0 < change.ratio.high
    assert change.chance_more > 0.95
    assert change.comparable


def test_looks_that_differ_are_not_called_comparable() -> None:
    """Method, soil, places, variety, days and lower bounds each say why."""
    first, day = _counted(date(2025, 7, 1), 3, 8, 5, 2, 7), date(2025, 7, 5)
    different = {
        "other_method": {"soaked": False},
        "other_soil": {"soil": Soil("dry", "loam")},
        "other_variety": {"variety": Variety(resistance="resistant")},
        "lower_bound": {"too_many": True},
        "other_places": {"spots": (_spot("gate", 9, 9, 9), _spot("knoll", 2, 2))},
    }
    for reason, changes in different.items():
        change = weigh(_history(first, _counted(day, 9, 9, 9, 2, 2, **changes)), [1.0, 1.0], day).change

        assert change is not None
        assert _keys(change.reasons) == [reason]
        assert not change.comparable
        assert set(change.reasons[0].values) <= set(CHANGE_KEYS[reason])


def test_a_month_between_looks_is_another_generation() -> None:
    """Numbers that rise with the generation are not a change of the field."""
    days = date(2025, 6, 20), date(2025, 7, 20)
    change = weigh(_history(_counted(days[0], 3, 2), _counted(days[1], 30, 20)), [0.6, 1.0], days[1]).change

    assert change is not None
    assert _keys(change.reasons) == ["other_time", "few_out"]


def test_change_is_taken_at_the_places_both_looks_name() -> None:
    """The oval then against the oval now; a new place does not blur it."""
    day = date(2025, 7, 5)
    then = _counted(date(2025, 7, 1), 50, 60, 40, spots=(_spot("oval", 50, 60, 40),))
    now = _counted(day, 55, 45, 50, 1, 0, 2, spots=(_spot("oval", 55, 45, 50), _spot("knoll", 1, 0, 2)))
    change = weigh(_history(then, now), [1.0, 1.0], day).change

    assert change is not None
    assert change.ratio.likely == pytest.approx(1.0, abs=0.1)
    assert _keys(change.reasons) == ["other_places"]


def test_there_is_no_change_without_an_earlier_count() -> None:
    """A first look, or one after a day that could show nothing, stands alone."""
    assert _weigh(*SCENES[0]).change is None
    none, again = _counted(date(2025, 7, 1), 0, 0, 0), _counted(date(2025, 7, 5), 0, 0, 0)
    assert weigh(_history(none, again), [1.0, 1.0], date(2025, 7, 5)).change is None
    early, day = _counted(date(2025, 5, 30), 0, 0, 0), date(2025, 7, 1)

    assert weigh(_history(early, _counted(day, 4, 5, 6)), [0.01, 1.0], day).change is None


# --- look-alikes through notes --------------------------------------------------------------------------------------


def test_green_beans_have_no_look_alikes() -> None:
    """When the tops said nothing, nothing is guessed."""
    assert _weigh(replace(CLEAN, tops=("healthy",)), DAY, 1.0).look_alikes == ()


def test_soil_tests_and_sprays_of_earlier_notes_are_remembered() -> None:
    """The pH told in May still counts in June, and the days since a spray are carried on."""
    soil = Note(outcome="not_looked", soil=Soil(ph=8.0, k_ppm=90), spray=Spray("glyphosate", date(2025, 6, 12)))
    yellow = replace(IRON, soil=Soil(), where=Where(1, 1, ""))
    history = _history((soil, date(2025, 6, 1)), (yellow, date(2025, 6, 22)))
    finding = weigh(history, [0.0, 0.3], date(2025, 6, 22))

    assert "ph_above_7_3" in finding.look_alikes[0].evidence_for
    assert finding.look_alikes[0].cause == "iron"


def test_nothing_a_finding_says_calls_potash_a_cure() -> None:
    """No key or example speaks of potash other than to say it is no cure."""
    said = [key for key in FACT_KEYS if "potash" in key]

    assert said == ["potash_no_cure"]


def test_the_key_tables_are_described_for_whoever_words_them() -> None:
    """Keys are snake case and every clue and cause has plain words."""
    for key in (*FACT_KEYS, *CLUE_KEYS, *CAUSE_KEYS):
        assert re.fullmatch(r"[a-z0-9_]+", key)
    assert all((*CLUE_KEYS.values(), *CAUSE_KEYS.values()))


# --- any note -------------------------------------------------------------------------------------------------------

_maybe_count = st.none() | st.integers(0, 3) | st.integers(0, 2_000_000)
_any_females = st.builds(Females, _maybe_count, _maybe_count, _maybe_count, _maybe_count, _maybe_count)
_any_counts = st.none() | st.lists(st.integers(0, 500), max_size=6).map(tuple)
_any_spot = st.builds(
    Spot,
    st.sampled_from(["gate", "knoll", ""]),
    st.none() | st.integers(0, 12),
    _any_females,
    _any_counts,
    st.booleans(),
)
_any_note = st.builds(
    Note,
    plants=st.none() | st.integers(0, 500),
    method=st.sampled_from(["pulled", "eased", "shovel", None]),
    soaked=st.sampled_from([True, False, None]),
    females=_any_females,
    per_plant=_any_counts,
    spots=st.lists(_any_spot, max_size=3).map(tuple),
    outcome=st.sampled_from(["seen", "none_seen", "not_looked", None]),
    soil=st.builds(Soil, st.sampled_from(["dry", "wet", None]), st.sampled_from(["clay", "muck", "odd", None])),
    stage=st.sampled_from(["V2.5", "R7", "R2", "VE", "late", None]),
    tops=st.lists(st.sampled_from(["yellow", "ring", "healthy", "unheard"]), max_size=2).map(tuple),
    roots=st.lists(st.sampled_from(["snapped", "white", "unheard"]), max_size=2).map(tuple),
    variety=st.none() | st.builds(Variety, resistance=st.sampled_from(["resistant", "susceptible", None])),
    mostly=st.sampled_from([(), ("brown",)]),
    too_many=st.booleans(),
)


@given(st.lists(st.tuples(_any_note, st.floats(0, 1)), min_size=1, max_size=3))
@settings(max_examples=150, deadline=None)
def test_no_note_however_odd_upsets_the_weighing(seen: list[tuple[Note, float]]) -> None:
    """Whatever a reader may hand over, chances stay chances and intervals stay in order."""
    history = _history(*((note, date(2025, 7, i)) for i, (note, _) in enumerate(seen, start=1)))
    finding = weigh(history, [visible for _, visible in seen], DAY)

    assert finding.infested_after is not None
    assert 0.0 <= finding.infested_after <= 1.0
    for interval in (finding.females_per_plant, *(spot.females_per_plant for spot in finding.spots)):
        if interval is not None:
            assert 0.0 <= interval.low <= interval.likely <= interval.high
    if finding.resistance is not None:
        assert 0.0 <= finding.resistance.probability <= 1.0
