"""The clock on real daily temperatures: what it says in June from normals, against what the whole season then gave.

Champion, west Nebraska, 1989-2018 (from the PyPI package aquacrop 3.1.0); Lincoln, Nebraska, 2016 (NOAA, from
bokeh-sampledata 2026.1); a southern series, 2018-19 (aquacrop). Extracts in tests/published.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from notes_bot.model import Climate, DayTemperature, History, PastYear
from notes_bot.outlook import _season, foresee, read_clock
from notes_bot.science import generation as clock
from notes_bot.weather import climate_at, read_temperatures

PUBLISHED = Path(__file__).parent / "published"
EVENTS = ("first_white", "peak", "turning_tan")


@cache
def champion() -> tuple[DayTemperature, ...]:
    return read_temperatures(PUBLISHED / "champion_1989_2018.csv")


def normals(days: tuple[DayTemperature, ...]) -> Climate:
    """Monthly means of a record; months it does not hold are taken from the nearest built-in stations."""
    near = climate_at(40.7, -101.7)
    lows, highs = list(near.tmin_c), list(near.tmax_c)
    for month in range(3, 10):
        lows[month - 1] = float(np.mean([d.tmin_c for d in days if d.date.month == month]))
        highs[month - 1] = float(np.mean([d.tmax_c for d in days if d.date.month == month]))
    return Climate("the record's own means", tuple(highs), tuple(lows))


def past(days: tuple[DayTemperature, ...], but: int) -> list[PastYear]:
    """All years of a record but one."""
    years: dict[int, list[float | None]] = {}
    for day in days:
        row = years.setdefault(day.date.year, [None] * 366)
        row[day.date.timetuple().tm_yday - 1] = (day.tmin_c + day.tmax_c) / 2
    return [PastYear(year, tuple(air)) for year, air in years.items() if year != but]


def weather_alone(
    year: int, as_of: date, days: tuple[DayTemperature, ...], climate: Climate, path: bool, past_years=()
):
    """Days of the middle population's events: over many futures of the weather, or with all of it known."""
    history = History(40.7, -101.7, date(year, 5, 12))
    got = read_clock(history, days, climate, as_of, past_years)
    states = np.zeros((256, clock.DIMENSIONS))
    if path:
        states[:, clock.PATH : clock.OWN] = clock.even_states(256)[:, clock.PATH : clock.OWN]
    flat = clock.Posterior(states, np.full(256, 1 / 256), (), np.arange(clock.DIMENSIONS))
    return clock.forecast(_season(got.calendar, got.soil, history, got.calendar.index(as_of)), flat)


@pytest.mark.parametrize("from_years", [False, True], ids=["normals", "past years"])
@pytest.mark.parametrize("asked", [(6, 1), (6, 20), (7, 10)], ids=["1 June", "20 June", "10 July"])
def test_windows_over_the_weather_to_come_hold_what_the_season_then_gave(asked, from_years):
    """Thirty real summers: with the biology fixed, 80 % windows over the weather to come hold about 80 %.

    Once with normals and the variability fitted to two records, once with the other 29 years of the record itself.
    """
    record = champion()
    climate = normals(record)
    held, errors = [], []
    for year in range(1989, 2019):
        as_of = date(year, *asked)
        season = tuple(day for day in record if day.date.year == year)
        # Later summers are as good a sample as earlier ones: all are told as if they had come before.
        others = [replace(other, year=year - 1 - i) for i, other in enumerate(past(record, year))] if from_years else ()
        ahead = weather_alone(year, as_of, season, climate, path=not from_years, past_years=others)
        real = weather_alone(year, date(year, 9, 30), season, climate, path=False)
        today = (as_of - (date(year, 5, 12) - timedelta(days=60))).days
        for event in EVENTS:
            for number in (0, 1, 2):
                truth = float(getattr(real, event)[0, number])
                if today + 5 < truth < today + 70:
                    low, middle, high = np.quantile(getattr(ahead, event)[:, number], (0.1, 0.5, 0.9))
                    first, _, last = clock.whole_days(low, middle, high)
                    held.append(first <= np.ceil(truth) <= last)
                    errors.append(middle - truth)

    # Windows of one summer share its weather: thirty independent draws, so the band is wide.
    assert 0.70 <= np.mean(held) <= 0.90
    assert abs(np.mean(errors)) < 1.5


def test_past_years_of_the_place_stand_for_the_weather_to_come():
    """Eight years or more are used and told; seven are not; a past year is never one still to come."""
    record, asked = champion(), date(2003, 6, 10)
    history = History(40.7, -101.7, date(2003, 5, 12))
    climate = climate_at(40.7, -101.7)
    years = [year for year in past(record, but=2003) if year.year < 2003]
    few, some = (foresee(history, (), climate, asked, past_years=years[-n:]) for n in (7, 8))
    used = next(fact for fact in some.basis if fact.key == "temperatures_past_years")

    assert used.values == {"years": 8, "first": 1995, "last": 2002}
    assert few == foresee(history, (), climate, asked)
    assert foresee(history, (), climate, asked, past_years=past(record, but=0)[-8:]) == few  # all after 2003


def test_a_hot_record_of_past_years_brings_the_dates_forward():
    """Years all 4 C warmer than the normals: a peak months ahead comes days sooner."""
    climate = normals(champion())
    warm = [PastYear(y.year, tuple(None if v is None else v + 4 for v in y.air_c)) for y in past(champion(), but=0)]
    history = History(40.7, -101.7, date(2019, 5, 12))
    usual, early = (foresee(history, (), climate, date(2019, 5, 20), past_years=years) for years in ((), warm))

    def peak(of):
        return next(w for w in of.windows if w.event == "peak")

    assert peak(early).likely < peak(usual).likely - timedelta(days=5)


def test_measured_temperatures_sharpen_the_next_weeks():
    """Lincoln 2016: the next whites' window is narrower on 10 June with temperatures than with normals alone."""
    history = History(40.7, -96.9, date(2016, 5, 10))
    climate = climate_at(40.7, -96.9)
    record = read_temperatures(PUBLISHED / "lincoln_2016.csv")
    normal = foresee(history, (), climate, date(2016, 6, 10))
    measured = foresee(history, record, climate, date(2016, 6, 10))

    def width(of) -> int:
        whites = next(w for w in of.windows if w.event == "next_white")
        return (whites.latest - whites.earliest).days

    assert width(measured) <= width(normal)
    assert {fact.key for fact in measured.basis} & {"temperatures_air", "temperatures_normals"} == {"temperatures_air"}


def test_a_gap_in_the_record_is_filled_and_said():
    """Two weeks missing in June: the dates hardly move, and the basis counts the days."""
    history = History(40.7, -96.9, date(2016, 5, 10))
    climate = climate_at(40.7, -96.9)
    record = read_temperatures(PUBLISHED / "lincoln_2016.csv")
    holes = tuple(day for day in record if not date(2016, 6, 1) <= day.date < date(2016, 6, 15))
    whole, gappy = (foresee(history, days, climate, date(2016, 6, 30)) for days in (record, holes))
    missing = next(fact for fact in gappy.basis if fact.key == "temperatures_normals")

    assert missing.values["days"] == 15  # fourteen, and the one day the record itself lacks
    for a, b in zip(whole.windows, gappy.windows, strict=True):
        assert abs((a.likely - b.likely).days) <= 3


def test_a_southern_record_makes_a_southern_season():
    """Planted mid-November: first whites within six weeks, two or more generations before the roots go in March."""
    record = read_temperatures(PUBLISHED / "cordoba_2018_2019.csv")
    history = History(-31.4, -64.2, date(2018, 11, 15))
    got = foresee(history, record, climate_at(-31.4, -64.2), date(2018, 12, 5))
    first = next(w for w in got.windows if w.event == "first_white")
    count = next(fact for fact in got.basis if fact.key == "generations_expected")

    assert date(2018, 11, 30) <= first.likely <= date(2018, 12, 27)
    assert count.values["low"] >= 2
