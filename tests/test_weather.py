"""Built-in normals, temperature files in every layout, and live answers by their shape."""

from __future__ import annotations

import json
from datetime import date, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import httpx
import pytest

from notes_bot.model import DayTemperature
from notes_bot.weather import (
    REPAIR_KEYS,
    WeatherWrong,
    climate_at,
    live_temperatures,
    open_temperatures,
    read_temperatures,
)
from notes_bot.weather.climate import stations
from notes_bot.weather.live import daily_json, grid_json

PUBLISHED = Path(__file__).parent / "published"


def plain(days: int = 40, start: date = date(2024, 6, 1), unit: str = "_c", swing: float = 6.0) -> list[str]:
    """A header and as many believable summer days, in C."""
    rows = [f"date,tmin{unit},tmax{unit}"]
    for i in range(days):
        middle = 20 + 3 * ((i * 7) % 5 - 2) / 2
        rows.append(f"{start + timedelta(i)},{middle - swing:.1f},{middle + swing:.1f}")
    return rows


def repairs(text: str, **options) -> dict[str, dict]:
    return {fact.key: dict(fact.values) for fact in open_temperatures(text, **options).repairs}


# --- normals ----------------------------------------------------------------------------------------


def test_a_place_at_a_station_has_about_its_normals():
    """Ames, Iowa, July 29.1/17.6 C (NOAA 1981-2010 monthly normals), within a degree."""
    got = climate_at(42.02, -93.77)

    assert got.tmax_c[6] == pytest.approx(29.1, abs=0.5)
    assert got.tmin_c[6] == pytest.approx(17.6, abs=1.0)
    assert got.name.startswith("Ames")
    assert not got.assumed


@pytest.mark.parametrize("left_out", range(0, 25, 3))
def test_a_station_is_about_what_its_neighbours_say(left_out, monkeypatch):
    """Leave one official station out: its May-September normals come out within 2 C of print from the others."""
    every = stations()
    one = every[left_out]
    monkeypatch.setattr("notes_bot.weather.climate.stations", lambda: every[:left_out] + every[left_out + 1 :])
    got = climate_at(one.latitude, one.longitude)

    for month in range(4, 9):
        mean = (one.tmax_c[month] + one.tmin_c[month]) / 2
        assert (got.tmax_c[month] + got.tmin_c[month]) / 2 == pytest.approx(mean, abs=2.0), one.name


def test_a_place_north_of_all_stations_is_colder():
    """Normals are carried north by the belt's own change per degree."""
    assert climate_at(50, -97).tmax_c[5] < climate_at(48, -97).tmax_c[5] < climate_at(46, -97).tmax_c[5]


def test_height_costs_six_and_a_half_degrees_a_kilometre():
    """Only when the field's height is known."""
    low, high = climate_at(41, -97, 300.0), climate_at(41, -97, 800.0)

    assert low.tmax_c[6] - high.tmax_c[6] == pytest.approx(3.25, abs=0.01)


def test_no_place_takes_the_middle_of_the_belt_and_says_so():
    """Assumed, never passed off as known."""
    assert climate_at(None, None).assumed
    assert not climate_at(41, None).assumed


def test_southern_places_have_summer_in_january():
    """Argentina and Brazil; what is from memory is marked."""
    assert climate_at(-32, -63).tmax_c[0] > climate_at(-32, -63).tmax_c[6] + 10
    assert climate_at(-16.5, -54.6).from_memory
    assert not climate_at(42, -93).from_memory


def test_a_place_off_the_globe_is_refused():
    """Latitude 142 is a slip, not a place."""
    with pytest.raises(ValueError, match="no such place"):
        climate_at(142, -93)


# --- files ------------------------------------------------------------------------------------------


def dly_line(station: str, month: str, element: str, values: dict[int, tuple[int, str]]) -> str:
    groups = [f"{values.get(day, (-9999, '   '))[0]:5d}{values.get(day, (-9999, '   '))[1]}" for day in range(1, 32)]
    return f"{station}{month}{element}" + "".join(groups)


def test_ghcn_daily_lines_are_tenths_of_a_degree_with_flags():
    """The .dly layout of the GHCN-Daily readme: a quality flag drops the value, -9999 is missing."""
    text = "\n".join(
        [
            dly_line("USC00130200", "202306", "TMAX", {1: (267, "  7"), 2: (289, " I7"), 3: (301, "  7")}),
            dly_line("USC00130200", "202306", "TMIN", {1: (150, "  7"), 2: (161, "  7"), 3: (172, "  7")}),
            dly_line("USC00130200", "202306", "PRCP", {1: (10, "  7")}),
        ]
    )
    got = open_temperatures(text)

    assert got.days == (
        DayTemperature(date(2023, 6, 1), 15.0, 26.7, rain_mm=1.0),
        DayTemperature(date(2023, 6, 3), 17.2, 30.1),
    )
    assert (got.layout, got.units, got.station) == ("ghcn_dly", "tenths_C", "USC00130200")
    assert {fact.key for fact in got.repairs} == {"flagged_dropped", "half_day_dropped", "gaps"}


def test_ghcn_by_year_is_long_and_without_header():
    """ID, day, element, value, flags, hour."""
    text = (
        "USC00130200,20230601,TMAX,267,,,7,0700\nUSC00130200,20230601,TMIN,150,,,7,0700\n"
        "USC00130200,20230601,PRCP,0,,,7,0700\nUSC00130200,20230602,TMAX,289,,X,7,0700\n"
        "USC00130200,20230602,TMIN,161,,,7,0700\n"
    )

    assert read_temperatures(text) == (DayTemperature(date(2023, 6, 1), 15.0, 26.7, rain_mm=0.0),)


def test_ghcn_by_station_has_attributes_and_tenths():
    """The same column names as the order form's files, other units: told apart by the values."""
    rows = [
        '"STATION","DATE","LATITUDE","LONGITUDE","ELEVATION","NAME","TMAX","TMAX_ATTRIBUTES","TMIN","TMIN_ATTRIBUTES"'
    ]
    rows += [
        f'"USC00130200","2023-06-{d:02d}","42.02","-93.77","335","AMES",{250 + 3 * d},",,7",{140 + d},",,7"'
        for d in range(1, 29)
    ]
    rows[5] = rows[5].replace('",,7",14', '",S,7",14')
    got = open_temperatures("\n".join(rows))

    assert (got.layout, got.units) == ("ghcn_station", "tenths_C")
    assert got.days[0] == DayTemperature(date(2023, 6, 1), 14.1, 25.3)
    assert len(got.days) == 27


def test_a_real_order_form_file_is_whole_fahrenheit():
    """Lincoln 11 SW, Nebraska, 2016: a real file with one empty day; it does not say F."""
    got = open_temperatures(PUBLISHED / "lincoln_2016.csv")

    assert (got.layout, got.units) == ("climate_data", "F")
    assert len(got.days) == 365
    assert got.days[0] == DayTemperature(date(2016, 1, 1), -9.44, 2.22)
    assert {fact.key for fact in got.repairs} == {"units_inferred", "gaps"}


def test_the_reference_network_brings_soil_at_10_cm():
    """28 blank-separated columns, C (one invented line in the real layout)."""
    line = (
        "54902 20230601 2.622  -93.29   41.56    29.8    16.1    23.0    23.3     0.0    25.31 C    38.0    15.2"
        "    24.9    95.0    42.0    70.1   0.310   0.330   0.350   0.380   0.420"
        "    21.7    21.0    20.2    18.1    15.6\n"
    )
    got = open_temperatures(line)

    assert got.days == (DayTemperature(date(2023, 6, 1), 16.1, 29.8, 21.0, rain_mm=0.0),)
    with pytest.raises(WeatherWrong, match="km from the field"):
        open_temperatures(line, near=[(35.0, -80.0)])


def test_power_files_have_prose_above_the_table():
    """NASA POWER CSV: dates inside the prose are not data, -999 is missing; both ways of writing the day."""
    prose = "-BEGIN HEADER-\nDates (month/day/year): 06/01/2023 through 06/02/2023 in LST\n-END HEADER-\n"
    by_month = read_temperatures(prose + "YEAR,MO,DY,T2M_MAX,T2M_MIN\n2023,6,1,30.1,16.4\n2023,6,2,-999.0,-999.0\n")
    by_day = read_temperatures(prose + "YEAR,DOY,T2M_MAX,T2M_MIN\n2023,152,30.1,16.4\n")

    assert by_month == by_day == (DayTemperature(date(2023, 6, 1), 16.4, 30.1),)
    with pytest.raises(WeatherWrong, match="cut short"):
        read_temperatures("-BEGIN HEADER-\nnever ends\n2023,6,1,30.1,16.4\n")


def test_mesonet_daily_files_are_fahrenheit_with_none_for_missing():
    """station,day,max_temp_f,min_temp_f,precip_in."""
    got = open_temperatures(
        "station,day,max_temp_f,min_temp_f,precip_in\nAMW,2023-06-01,86.0,61.0,0.0\nAMW,2023-06-02,None,63.0,0.1\n"
    )

    assert (got.layout, got.units, got.station) == ("mesonet", "F", "AMW")
    assert got.days == (DayTemperature(date(2023, 6, 1), 16.11, 30.0, rain_mm=0.0),)


def test_hourly_stations_give_each_full_days_extremes():
    """A day with too few hours is dropped and said."""
    rows = ["station,valid,tmpf"]
    rows += [f"AMW,2023-06-01 {hour:02d}:54,{60 + hour}" for hour in range(24)]
    rows += [f"AMW,2023-06-02 {hour:02d}:54,{60 + hour}" for hour in range(0, 24, 2)]
    got = open_temperatures("\n".join(rows))

    assert got.days == (DayTemperature(date(2023, 6, 1), 15.56, 28.33),)
    assert got.repairs[0].key == "few_hours_dropped"


def test_a_plain_file_may_state_its_units_in_many_ways():
    """In the column names, in a comment, or by the option."""
    celsius = read_temperatures("\n".join(plain()))
    comment = read_temperatures("# units: C\n" + "\n".join(plain(unit="")))
    option = read_temperatures("\n".join(plain(unit="")), units="C")
    brackets = read_temperatures(
        "\n".join(["Date;Tmin (°C);Tmax (°C)", *[r.replace(",", ";").replace(".", ",") for r in plain()[1:]]])
    )

    assert celsius == comment == option == brackets
    assert celsius[0] == DayTemperature(date(2024, 6, 1), 11.0, 23.0)


def test_forecast_days_may_be_marked():
    """A column named forecast."""
    got = read_temperatures("date,tmin_c,tmax_c,forecast\n2024-06-01,12,25,\n2024-06-02,13,26,true\n")

    assert [day.forecast for day in got] == [False, True]


def test_units_that_contradict_the_values_are_refused():
    """86 is no Celsius summer day; 30 is no Fahrenheit one; 289 is tenths."""
    fahrenheit = "\n".join(["date,tmin,tmax", *[f"2024-06-{d:02d},60,86" for d in range(1, 29, 2)]])
    with pytest.raises(WeatherWrong, match="looks like degrees F"):
        read_temperatures(fahrenheit, units="C")
    with pytest.raises(WeatherWrong, match="looks like degrees C"):
        read_temperatures("\n".join(plain(unit="")), units="F")
    tenths = "\n".join(["date,tmin_c,tmax_c", *[f"2024-06-{d:02d},150,28{d % 10}" for d in range(1, 29)]])
    with pytest.raises(WeatherWrong, match="tenths"):
        read_temperatures(tenths)


def test_units_that_could_be_either_are_asked_for():
    """Highs of 20 to 45 in winter may be C or F: not guessed."""
    winter = "\n".join(["date,tmin,tmax", *[f"2024-01-{d:02d},{20 + d % 3},{30 + d % 9}" for d in range(1, 29)]])
    with pytest.raises(WeatherWrong, match="both are possible"):
        read_temperatures(winter)

    assert read_temperatures(winter, units="F")[0].tmax_c == pytest.approx((31 - 32) / 1.8, abs=0.01)


def test_an_impossible_minimum_in_a_real_record_is_caught():
    """Clemson, South Carolina, 18 July 1936 holds a minimum of -72.04 F (seven real days about it)."""
    text = (
        "date,tmin_f,tmax_f\n1936-07-15,73.94,98.96\n1936-07-16,75.92,95.00\n1936-07-17,69.98,93.92\n"
        "1936-07-18,-72.04,91.94\n1936-07-19,69.98,93.92\n1936-07-20,68.00,93.92\n1936-07-21,66.02,87.98\n"
    )
    got = open_temperatures(text)

    assert [day.date.day for day in got.days] == [15, 16, 17, 19, 20, 21]
    assert repairs(text)["spike_dropped"] == {"count": 1, "first": "1936-07-18"}


def test_every_named_repair_is_made_and_counted():
    """Swapped columns, doubles, half days, stuck sensors, stray lines: mended, and said."""
    rows = plain()
    crossed = [rows[0], *[",".join([r.split(",")[0], r.split(",")[2], r.split(",")[1]]) for r in rows[1:]]]
    assert read_temperatures("\n".join(crossed)) == read_temperatures("\n".join(rows))
    assert "columns_swapped" in repairs("\n".join(crossed))
    assert repairs("\n".join([*rows, rows[3]]))["duplicate_dropped"]["count"] == 2
    assert repairs("\n".join([*rows, "2024-07-20,,25.0"]))["half_day_dropped"] == {"count": 1}
    assert repairs("\n".join([*rows, "2024-07-11,25.0,12.0"]))["min_above_max_dropped"] == {"count": 1}
    assert repairs("\n".join([*rows, "2024-07-11,12.0,99.0"]))["impossible_dropped"] == {"count": 1}
    assert repairs("\n".join([*rows, "total,,"]))["lines_skipped"] == {"count": 1, "first": 42}
    assert repairs("\n".join([*rows, "2024-07-15,12.0,24.0"]))["gaps"] == {"count": 4}
    hung = [f"2024-07-{11 + i},14.2,27.3" for i in range(9)]
    assert repairs("\n".join(rows + hung))["stuck_dropped"] == {"count": 9, "first": "2024-07-11"}
    for text in ("\n".join(rows + hung), "\n".join(crossed)):
        assert set(repairs(text)) <= set(REPAIR_KEYS)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("\n\n", "empty"),
        ("hello\nworld\n", "no columns"),
        ("date,rain\n2024-06-01,3\n", "no columns for the day's lowest"),
        ("when,tmin_c,tmax_c\n2024-06-01,3,9\n", "no column for the day"),
        ("date,tmin_c,tmax_c\n", "no temperatures"),
        ("date,tmin_c,tmax_c\n5/6/2024,12,20\n6/6/2024,12,21\n", "which is the month"),
        ("station,date,tmin_c,tmax_c\nA,2024-06-01,12,20\nB,2024-06-01,12,20\n", "2 stations"),
        ('{"what": 1}\n', "shape we do not know"),
        ('{"what": \n', "not: "),
    ],
)
def test_what_cannot_be_used_is_refused_with_what_to_do(text, words):
    """Clear sentences, never a stack of internals."""
    with pytest.raises(WeatherWrong, match=words):
        read_temperatures(text)


def test_slashed_days_are_read_when_one_of_them_settles_the_order():
    """6/13/2024 can only be the month first; 13/6/2024 only the day."""
    american = read_temperatures("date,tmin_c,tmax_c\n6/5/2024,12,20\n6/13/2024,12,21\n")
    european = read_temperatures("date,tmin_c,tmax_c\n5/6/2024,12,20\n13/6/2024,12,21\n")

    assert [day.date for day in american] == [day.date for day in european] == [date(2024, 6, 5), date(2024, 6, 13)]


def test_one_station_of_several_can_be_chosen():
    """By its name; a wrong one is told what there is."""
    text = "station,date,tmin_c,tmax_c\nA,2024-06-01,12,20\nB,2024-06-01,13,22\n"

    assert read_temperatures(text, station="B")[0].tmax_c == 22
    with pytest.raises(WeatherWrong, match="it holds A, B"):
        read_temperatures(text, station="C")


def test_files_come_in_odd_encodings(tmp_path):
    """Spreadsheets save UTF-16 and byte-order marks; a picture is refused."""
    text = "\n".join(plain(unit=" (°C)"))
    for name, data in (
        ("utf16", text.encode("utf-16")),
        ("bom", text.encode("utf-8-sig")),
        ("ansi", text.encode("cp1252")),
    ):
        (tmp_path / name).write_bytes(data)
        assert len(read_temperatures(tmp_path / name)) == 40
    (tmp_path / "picture").write_bytes(b"\x89PNG\r\n\0\0\0\0")
    with pytest.raises(WeatherWrong, match="not a text file"):
        read_temperatures(tmp_path / "picture")
    with pytest.raises(WeatherWrong, match="cannot be read"):
        read_temperatures(tmp_path / "absent")


# --- live answers -----------------------------------------------------------------------------------

# Keys and nesting as in the services' own documentation and in answers of theirs kept in public [OpenMeteoDocs,
# NwsGridpoints, NasaPowerDocs]; the numbers are made up.
DAILY = {
    "latitude": 42.0, "longitude": -93.6, "generationtime_ms": 0.063, "utc_offset_seconds": -18000,
    "timezone": "America/Chicago", "timezone_abbreviation": "GMT-5", "elevation": 291.0,
    "daily_units": {"time": "iso8601", "temperature_2m_max": "°C", "temperature_2m_min": "°C"},
    "daily": {"time": ["2023-06-01", "2023-06-02", "2023-06-03"], "temperature_2m_max": [29.8, None, 28.0],
              "temperature_2m_min": [16.1, 17.0, 15.5]},
}  # fmt: skip
GRID = {
    "properties": {
        "maxTemperature": {
            "uom": "wmoUnit:degC",
            "values": [
                {"validTime": "2023-06-01T12:00:00+00:00/PT13H", "value": 29.4},
                {"validTime": "2023-06-02T12:00:00+00:00/P1DT6H", "value": None},
                {"validTime": "2023-06-03T12:00:00+00:00/PT13H", "value": 27.8},
            ],
        },
        "minTemperature": {
            "uom": "wmoUnit:degC",
            "values": [
                {"validTime": "2023-06-01T05:00:00+00:00/PT9H", "value": 15.0},
                {"validTime": "2023-06-03T00:00:00+00:00/PT14H", "value": 16.1},
                {"validTime": "2023-06-03T06:00:00+00:00/PT8H", "value": 11.0},
            ],
        },
    }
}


def test_daily_answers_mark_today_and_later_as_forecast():
    """Parallel arrays; null is missing; units are read, not assumed."""
    got = daily_json(DAILY, date(2023, 6, 3))
    warm = json.loads(json.dumps(DAILY).replace("29.8", "86.0").replace("16.1", "61.0"))
    warm["daily_units"]["temperature_2m_max"] = "°F"

    assert got == (
        DayTemperature(date(2023, 6, 1), 16.1, 29.8),
        DayTemperature(date(2023, 6, 3), 15.5, 28.0, forecast=True),
    )
    assert daily_json(warm, None)[0] == DayTemperature(date(2023, 6, 1), 16.11, 30.0)


def test_grid_answers_belong_to_the_local_day_of_the_spans_middle():
    """Spans in UTC; the first value of a day is kept; a day without both is left out."""
    got = grid_json(GRID, ZoneInfo("America/Chicago"))

    assert [day.date for day in got] == [date(2023, 6, 1), date(2023, 6, 3)]
    assert got[0] == DayTemperature(date(2023, 6, 1), 15.0, 29.4, forecast=True)
    assert got[1].tmin_c == 16.1


def test_a_saved_json_answer_is_a_file_like_any_other():
    """Daily arrays, POWER's dictionaries and the grid are told apart by their keys."""
    power = {
        "type": "Feature",
        "geometry": {"type": "Point", "coordinates": [-93.6, 42.0, 291.0]},
        "header": {
            "title": "",
            "api": {"version": "v2.5"},
            "sources": ["MERRA2"],
            "fill_value": -999.0,
            "time_standard": "LST",
            "start": "20230601",
            "end": "20230602",
        },
        "parameters": {"T2M_MAX": {"units": "C", "longname": ""}, "T2M_MIN": {"units": "C", "longname": ""}},
        "messages": [],
        "properties": {
            "parameter": {
                "T2M_MAX": {"20230601": 28.3, "20230602": -999.0},
                "T2M_MIN": {"20230601": 15.1, "20230602": -999.0},
            }
        },
    }

    assert open_temperatures(json.dumps(DAILY) + "\n").layout == "daily_json"
    assert read_temperatures(json.dumps(power) + "\n") == (DayTemperature(date(2023, 6, 1), 15.1, 28.3),)
    assert all(day.forecast for day in read_temperatures(json.dumps(GRID) + "\n"))


def test_the_second_source_is_asked_when_the_first_fails():
    """An error page from one, a forecast from the other."""
    asked = []

    def answer(request: httpx.Request) -> httpx.Response:
        asked.append(request.url.host)
        if request.url.host == "api.open-meteo.com":
            return httpx.Response(503)
        if request.url.path.startswith("/points"):
            return httpx.Response(
                200,
                json={
                    "properties": {
                        "timeZone": "America/Chicago",
                        "forecastGridData": "https://api.weather.gov/gridpoints/X/1,2",
                    }
                },
            )
        return httpx.Response(200, json=GRID)

    with httpx.Client(transport=httpx.MockTransport(answer)) as client:
        got = live_temperatures(42.0, -93.6, date(2023, 6, 1), client)

    assert [day.date.day for day in got] == [1, 3]
    assert asked == ["api.open-meteo.com", "api.weather.gov", "api.weather.gov"]


def test_past_and_coming_days_come_in_one_answer():
    """The first source alone suffices; it is asked for past and forecast days by coordinates only."""

    def answer(request: httpx.Request) -> httpx.Response:
        assert request.url.params["past_days"] == "30"
        assert request.url.params["latitude"] == "42.0000"
        return httpx.Response(200, json=DAILY)

    with httpx.Client(transport=httpx.MockTransport(answer)) as client:
        got = live_temperatures(42.0, -93.6, date(2023, 6, 3), client, past_days=30)

    assert [day.forecast for day in got] == [False, True]


def test_no_network_is_a_sentence_with_both_reasons():
    """Nothing is raised but WeatherWrong."""

    def refuse(request: httpx.Request) -> httpx.Response:
        raise httpx.ConnectError("no route")

    with (
        httpx.Client(transport=httpx.MockTransport(refuse)) as client,
        pytest.raises(WeatherWrong, match=r"open-meteo.*weather service"),
    ):
        live_temperatures(42.0, -93.6, date(2023, 6, 1), client)


def test_rain_comes_along_from_every_source_that_has_it():
    """Millimetres a day: tenths in GHCN, mm in POWER and the reference network, inches where the file says so."""
    dly = (
        "USC00130200202406TMAX  256  7  211  7" + "-9999   " * 29 + "\n"
        "USC00130200202406TMIN  156  7  139  7" + "-9999   " * 29 + "\n"
        "USC00130200202406PRCP  127  7    0T 7" + "-9999   " * 29 + "\n"
    )
    by_year = "".join(
        f"USC00130200,2024060{day},{name},{value},,,7,0700\n"
        for day, readings in ((1, (256, 156, 127)), (2, (211, 139, 0)))
        for name, value in zip(("TMAX", "TMIN", "PRCP"), readings, strict=True)
    )
    power = "YEAR,DOY,T2M_MAX,T2M_MIN,PRECTOTCORR\n2024,153,25.6,15.6,12.7\n2024,154,21.1,13.9,0.0\n"
    plain = "date,tmin_f,tmax_f,rain_in\n2024-06-01,60.1,78.1,0.5\n2024-06-02,57.0,70.0,T\n"
    answer = json.loads(json.dumps(DAILY))
    answer["daily"]["precipitation_sum"] = [12.7, 3.0, 0.0]

    for text in (dly, by_year, power, plain):
        assert [day.rain_mm for day in read_temperatures(text)] == [12.7, 0.0], text[:30]
    assert [day.rain_mm for day in daily_json(answer, None)] == [12.7, 0.0]


def test_rain_without_a_unit_is_left_out():
    """Half of what, is not guessed; temperatures of the file are used all the same."""
    text = "date,tmin_c,tmax_c,rain\n2024-06-01,15,26,0.5\n2024-06-02,14,21,0.0\n"

    assert [day.rain_mm for day in read_temperatures(text)] == [None, None]


def test_the_grids_rain_is_added_up_over_the_day():
    """Six-hour amounts belong to the local day of their middle."""
    grid = json.loads(json.dumps(GRID))
    grid["properties"]["quantitativePrecipitation"] = {
        "uom": "wmoUnit:mm",
        "values": [
            {"validTime": "2023-06-01T12:00:00+00:00/PT6H", "value": 4.064},
            {"validTime": "2023-06-01T18:00:00+00:00/PT6H", "value": 2.032},
            {"validTime": "2023-06-02T06:00:00+00:00/PT6H", "value": 9.0},
        ],
    }

    assert [day.rain_mm for day in grid_json(grid, ZoneInfo("America/Chicago"))] == [6.1, None]


def test_a_refused_question_is_told_in_the_services_own_words():
    """Open-Meteo answers status 400 with a reason in JSON; it is passed on instead of the bare number."""

    def answer(request: httpx.Request) -> httpx.Response:
        if request.url.host == "api.open-meteo.com":
            return httpx.Response(400, json={"error": True, "reason": "Latitude must be in range of -90 to 90°."})
        raise httpx.ConnectError("no route")

    with (
        httpx.Client(transport=httpx.MockTransport(answer)) as client,
        pytest.raises(WeatherWrong, match="Latitude must be in range"),
    ):
        live_temperatures(42.0, -93.6, date(2023, 6, 1), client)


def test_integrated_surface_hours_are_tenths_with_a_quality_code():
    """ "+0211,1" is 21.1 C and good; 9999 is missing; a suspect or erroneous hour is dropped and counted."""
    rows = ['"STATION","DATE","SOURCE","LATITUDE","LONGITUDE","TMP"']
    rows += [
        f'"72547","2023-06-01T{hour:02d}:53:00","7","42.0","-93.6","+{150 + 5 * hour:04d},1"' for hour in range(24)
    ]
    rows += ['"72547","2023-06-01T12:20:00","7","42.0","-93.6","+0999,3"']
    rows += ['"72547","2023-06-01T13:20:00","7","42.0","-93.6","+9999,9"']
    got = open_temperatures("\n".join(rows), near=[(42.1, -93.7)])

    assert (got.layout, got.units, got.days) == ("hourly", "C", (DayTemperature(date(2023, 6, 1), 15.0, 26.5),))
    assert {fact.key: fact.values["count"] for fact in got.repairs} == {"flagged_dropped": 1}
    assert read_temperatures("\n".join(rows).replace('"+0', '"-0'))[0].tmin_c == -26.5


def test_the_global_summary_of_the_day_is_fahrenheit_and_inches():
    """Columns MAX, MIN and PRCP with their attributes; 9999.9 and 99.99 are missing."""
    place = "72547,2023-06-0{},42.0,-93.6,AMES,"
    head = "STATION,DATE,LATITUDE,LONGITUDE,NAME,TEMP,TEMP_ATTRIBUTES,MAX,MAX_ATTRIBUTES,MIN,MIN_ATTRIBUTES"
    head += ",PRCP,PRCP_ATTRIBUTES"
    rows = [
        place.format(1) + "73.1,24,86.0,,61.0,*,0.50,G",
        place.format(2) + "70.0,24,77.0,,59.0,,99.99,",
        place.format(3) + "9999.9,0,9999.9,,59.0,,0.00,I",
    ]
    got = open_temperatures("\n".join([head, *rows]))

    assert (got.layout, got.units) == ("surface_summary", "F")
    assert got.days == (
        DayTemperature(date(2023, 6, 1), 16.11, 30.0, rain_mm=12.7),
        DayTemperature(date(2023, 6, 2), 15.0, 25.0),
    )
