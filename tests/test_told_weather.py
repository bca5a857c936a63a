"""Weather told by message: where it goes, and what it does to the day of the next look."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from notes_bot.deeds import with_told
from notes_bot.model import DayTemperature
from tests.crew_kit import FIELDS, OTHER, Crew

KESTREL = FIELDS[0]
DAY = date(2026, 6, 21)


def told(**args) -> tuple[date, int | None, dict]:
    return (DAY, args.pop("field_id", None), args)


def test_rain_told_fills_what_no_station_measured():
    """A measured amount stands; a forecast gives way; a day nobody measured begins with the message."""
    kept = (
        DayTemperature(DAY, 14, 27, rain_mm=2.0),
        DayTemperature(date(2026, 6, 22), 14, 27, forecast=True, rain_mm=0),
    )
    days = with_told(
        kept,
        KESTREL,
        [
            told(rain_mm=20.0),
            told(rain_mm=18.0, date="2026-06-22"),
            told(rain_mm=9.0, date="2026-06-20"),
        ],
    )

    assert [(day.date.day, day.rain_mm) for day in days] == [(20, 9.0), (21, 2.0), (22, 18.0)]


def test_what_is_told_of_another_field_is_not_used():
    """By name, or by the conversation it was told in; told of no field it holds for all."""
    assert with_told((), KESTREL, [told(rain_mm=20.0, field="Old Mill")]) == ()
    assert with_told((), KESTREL, [told(rain_mm=20.0, field_id=2)]) == ()
    assert with_told((), KESTREL, [told(rain_mm=20.0, field="kestrel")])[0].rain_mm == 20.0
    assert with_told((), KESTREL, [told(rain_mm=20.0)])[0].rain_mm == 20.0


def test_highs_and_lows_told_stand_in_for_a_station():
    """Both of a day, the right way round; one alone or crossed is left out."""
    (day,) = with_told((), KESTREL, [told(tmin_c=15.0, tmax_c=29.0)])

    assert (day.tmin_c, day.tmax_c, day.forecast) == (15.0, 29.0, False)
    assert with_told((), KESTREL, [told(tmax_c=29.0)])[0].tmax_c is None
    assert with_told((), KESTREL, [told(tmin_c=30.0, tmax_c=12.0)])[0].tmin_c is None


@pytest.mark.parametrize(
    ("sender", "note", "words"),
    [
        ("scout1@crew.example", "Harrow 3: 6 plants shovel 14 white", "too wet for a spade"),
        (OTHER, "Harrow Ridge 3 21/6: 6 plantas, pala, 14 blancas", "muy mojado para la pala"),
    ],
)
def test_forecast_rain_moves_the_look_and_the_answer_says_so(tmp_path, sender, note, words):
    """A week of rain about the peak: the best day moves, and the scout is told from which day and why."""
    crew = Crew(tmp_path, datetime(2026, 6, 21, 15, tzinfo=UTC))
    rain = [
        DayTemperature(date(2026, 6, day), forecast=day > 21, rain_mm=35.0 if day > 27 else 0.0)
        for day in range(20, 31)
    ]
    crew.parts.store.keep_temperatures("*", rain, "forecast")

    body = " ".join(crew.body(crew.note(note, sender)).split())

    assert words in body
    crew.close()


def test_rain_told_by_message_is_kept_for_the_field(tmp_path):
    """Four inches told today: the store gives them back with the field's weather."""
    crew = Crew(tmp_path, datetime(2026, 6, 21, 15, tzinfo=UTC))
    crew.note("rain 4 in today")

    ((at, field_id, args),) = crew.parts.store.told_weather("crew", date(2026, 1, 1))

    assert (at, field_id, args["rain_mm"]) == (DAY, None, 101.6)
    crew.close()
