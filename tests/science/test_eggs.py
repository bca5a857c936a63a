"""Egg counts: units with their basis, categories of the named place only, loss as a spread of studies."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notes_bot.science import eggs
from notes_bot.science.eggs import band, conditions, expected_loss, level_chances, place_name, to_per_100cc

PUBLISHED = Path(__file__).parents[1] / "published" / "egg_categories.csv"
WITH_LEVEL = {"none detected", "not detected", "trace", "low", "moderate", "high"}
CONDITIONS = {"soybean is next crop": "soybean_next", "soybean is NOT next crop": "other_next"}


def _printed() -> list[dict[str, str]]:
    with PUBLISHED.open(encoding="utf-8") as file:
        rows = [r for r in csv.DictReader(file) if r["label"] in WITH_LEVEL]
    return [r for r in rows if r["as_of"] != "older FAQ"]


@pytest.mark.parametrize("row", _printed(), ids=lambda r: f"{r['jurisdiction']}-{r['condition']}-{r['label']}")
def test_a_count_inside_a_printed_band_gets_that_bands_word(row):
    """Every printed row of Iowa (management page), Ohio (reading guide) and Missouri (laboratory): its low limit."""
    word = {"none detected": "none", "not detected": "none"}.get(row["label"], row["label"])
    condition = CONDITIONS.get(row["condition"], "any")

    found = band(float(row["low_per_100cc"]), row["jurisdiction"], condition)

    assert found is not None
    assert found.level == word


@pytest.mark.parametrize(
    ("place", "condition", "level"),
    [
        ("Iowa", "soybean_next", "moderate"),
        ("Iowa", "other_next", "low"),
        ("Ohio", "any", "moderate"),
        ("Missouri", "any", "moderate"),
        ("Illinois", "any", "moderate"),
    ],
)
def test_three_thousand_eggs_is_read_by_each_places_own_scale(place, condition, level):
    """3,000 eggs: moderate in Iowa before soybean and in Ohio, inside the resistant band in Missouri (own pages)."""
    assert band(3000, place, condition).level == level


def test_limits_for_high_stay_apart():
    """4,000 Missouri, 5,000 Ohio, 10,000 Illinois, 12,001 or 16,001 Iowa: never merged."""
    lowest = {(b.place, b.condition): b.low for b in eggs.SCALES if b.level == "high"}

    assert lowest == {
        ("Missouri", "any"): 4000,
        ("Ohio", "any"): 5000,
        ("Illinois", "any"): 10000,
        ("Iowa", "soybean_next"): 12001,
        ("Iowa", "other_next"): 16001,
    }


@pytest.mark.parametrize("place", [None, "Ontario", "Indiana", "Paraná", "Michigan"])
def test_a_place_without_a_scale_borrows_none(place):
    """No row of another place is ever used."""
    assert band(3000, place) is None
    assert conditions(place) == ()
    assert level_chances(3000, 0.4, place) == {}


@given(st.floats(0, 1e6), st.sampled_from([b.place for b in eggs.SCALES]))
def test_no_band_names_another_place(count, place):
    """Whatever the count, the row found carries the place asked for."""
    for condition in conditions(place):
        found = band(count, place, condition)
        assert found is None or found.place == place


@given(st.floats(41, 1e6), st.floats(0.1, 1.0), st.sampled_from(["Iowa", "Ohio", "Missouri", "Illinois"]))
def test_chances_of_the_levels_sum_to_one(count, cv, place):
    """A scale that starts at zero covers every mean."""
    for condition in conditions(place):
        assert sum(level_chances(count, cv, place, condition).values()) == pytest.approx(1.0, abs=1e-6)


def test_a_count_near_a_limit_is_nearly_as_likely_in_the_next_level():
    """2,000 eggs in Ohio is moderate as printed, but half of the chance lies below the limit."""
    chances = level_chances(2000, 0.4, "Ohio")

    assert chances["low"] == pytest.approx(0.5, abs=0.01)


@pytest.mark.parametrize(
    ("value", "unit", "place", "eggs_per_100cc", "basis"),
    [
        (2400, "eggs per 100 cc", None, 2400, "as_is"),
        (1000, "eggs per 250 cc", None, 400, "volume"),
        (1000, "eggs/200 cm3", None, 500, "volume"),
        (1000, "eggs per 500 ml", None, 200, "volume"),
        (120, "eggs per 10 cc", None, 1200, "volume"),
        (10000, "eggs per cup", "Missouri", 4000, "missouri_cup"),
        (10000, "eggs per cup", "Iowa", 4226.8, "us_cup"),
        (10000, "eggs per half pint", "Missouri", 4226.8, "us_cup"),
        (10000, "eggs per pint", None, 2113.4, "pint"),
    ],
)
def test_units_are_converted_and_say_on_what_basis(value, unit, place, eggs_per_100cc, basis):
    """Factors 0.4, 0.5, 0.2, 10 and 0.4227 (US cup) by arithmetic; Missouri's cup is 250 cm3 (its laboratory)."""
    found = to_per_100cc(value, unit, place)

    assert found.eggs == pytest.approx(eggs_per_100cc, abs=0.1)
    assert found.basis == basis
    assert found.low == found.eggs == found.high


def test_eggs_per_kilogram_need_a_soil_density():
    """470 eggs per kg is 52-70 per 100 cm3 at 1.1-1.5 g/cm3 (Francl & Dropkin 1986, converted)."""
    found = to_per_100cc(470, "eggs per kg")

    assert (round(found.low), round(found.high)) == (52, 70)
    assert found.basis == "weight"


def test_cysts_become_eggs_with_their_wide_factor():
    """A cyst stands for 50-100 eggs (Iowa State)."""
    found = to_per_100cc(10, "cysts per 100 cc")

    assert (found.low, found.high) == (500, 1000)


@pytest.mark.parametrize("unit", ["eggs", "eggs per bucket", "", "eggs per 0 cc"])
def test_a_unit_without_a_volume_is_refused(unit):
    """A number without its volume is not guessed."""
    with pytest.raises(ValueError, match=r"volume|unit"):
        to_per_100cc(2400, unit)


def test_negative_counts_are_refused():
    """No laboratory counts less than nothing."""
    with pytest.raises(ValueError, match="negative"):
        to_per_100cc(-1, "eggs per 100 cc")


@pytest.mark.parametrize(("written", "name"), [("iowa", "Iowa"), ("N.D.", "N D"), ("nd", "North Dakota"), ("", None)])
def test_places_are_known_by_name_and_postal_code(written, name):
    """What is not known stays as written and has no scale."""
    assert place_name(written) == name


def test_loss_at_1250_eggs_holds_both_years_of_the_microplots_and_those_who_found_none():
    """Niblack, Baker & Norton 1992: 52 % in 1986, 19 % in 1987; two field studies found no relation."""
    loss = expected_loss(1250)
    trial = next(s for s in loss.studies if s.name == "iowa_microplots")

    assert (trial.low_percent, trial.high_percent) == (19, 52)
    assert loss.low_percent == 0
    assert loss.none_found >= 2


def test_the_derived_line_goes_through_the_published_points():
    """30 and 11 points a tenfold rise from 22 eggs, to 52 and 19 % at 1,250 (derived from Niblack 1992)."""
    assert eggs.microplot_loss(1250, 52) == pytest.approx(52)
    assert eggs.microplot_loss(220, 52) == pytest.approx(30, abs=0.5)
    assert eggs.microplot_loss(220, 19) == pytest.approx(11, abs=0.5)
    assert eggs.microplot_loss(10, 52) == 0
    assert eggs.microplot_loss(20000, 52) == 52


def test_coarse_soil_has_its_own_loss():
    """Wheeler 1997: 21-56 % on coarse soils, 0-18 % on fine ones, in Ohio."""
    assert expected_loss(8000, "coarse").high_percent == 56
    assert expected_loss(8000, "fine").high_percent == 18


def test_no_loss_is_promised_below_the_tolerance():
    """Below about 50 eggs the range says so."""
    assert expected_loss(20).below_tolerance
    assert not expected_loss(2400).below_tolerance


@given(st.floats(0, 1e6))
def test_every_loss_says_that_some_found_none(count):
    """Two field studies found no relation at any density: the low end is always zero."""
    loss = expected_loss(count)

    assert loss.low_percent == 0
    assert loss.none_found >= 2
    assert 0 <= loss.high_percent <= 56
