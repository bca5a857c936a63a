"""Days too wet for a spade: an index of past rain. The numbers are judgement; that it does as told is tested."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from notes_bot.science.soil_water import wet_days

RAIN = date(2024, 6, 10)


def closed(rain_mm: float, texture: str | None, **noted) -> int:
    """Days closed from the day of one rain on."""
    found = wet_days({RAIN: rain_mm}, noted.get("noted", {}), texture, RAIN, RAIN + timedelta(days=14))
    return len(found)


@pytest.mark.parametrize(("texture", "days"), [("sand", 1), (None, 3), ("silt loam", 3), ("clay loam", 4), ("clay", 4)])
def test_an_inch_of_rain_closes_heavy_ground_for_longer(texture, days):
    """As the page says: sand one day, loam three, clay four; between two soils the slower one counts."""
    assert closed(25.4, texture) == days


def test_a_shower_closes_nothing_and_a_flood_a_week_at_most():
    """Ten millimetres are no ground for another day; a hundred on clay close a week or more, not a month."""
    assert closed(10.0, "clay") == 0
    assert 7 <= closed(100.0, "clay") <= 12


def test_showers_add_up():
    """Eight millimetres a day are too much from the third day on, in loam."""
    rain = {RAIN + timedelta(days=i): 8.0 for i in range(4)}
    found = wet_days(rain, {}, "loam", RAIN, RAIN + timedelta(days=10))

    assert RAIN not in found
    assert RAIN + timedelta(days=2) in found


def test_who_dug_in_moist_soil_shows_that_it_carried_a_spade():
    """A note of moist soil the day after a rain opens it again; a note of wet soil closes it without any rain."""
    after = RAIN + timedelta(days=1)

    assert closed(25.4, "loam", noted={after: "moist"}) == 1
    assert closed(25.4, "loam", noted={after: "dry"}) == 1
    wet = wet_days({}, {RAIN: "wet"}, "loam", RAIN, RAIN + timedelta(days=10))
    assert set(wet) == {RAIN + timedelta(days=i) for i in range(3)}
    assert set(wet.values()) == {RAIN}


def test_the_rain_named_is_the_latest_that_mattered():
    """Two rains: later wet days go to the later one; a drizzle in between is not blamed."""
    second = RAIN + timedelta(days=2)
    found = wet_days({RAIN: 30.0, RAIN + timedelta(days=1): 2.0, second: 15.0}, {}, "loam", RAIN, RAIN + timedelta(9))

    assert found[RAIN + timedelta(days=1)] == RAIN
    assert found[second] == second


def test_rain_before_the_first_day_still_counts():
    """Four inches on the eve leave the first days wet."""
    assert RAIN in wet_days({RAIN - timedelta(days=1): 100.0}, {}, None, RAIN, RAIN)
