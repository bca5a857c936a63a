"""Temperature files people bring, in the layouts weather services give them out, as daily rows.

The layout is recognised from the text itself. What can be mended is mended and named (``REPAIR_KEYS``); what would
have to be guessed is refused with a sentence that says what to do.
"""

from __future__ import annotations

import csv
import json
import re
import statistics
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import date, timedelta
from itertools import groupby
from math import asin, cos, radians, sin, sqrt
from pathlib import Path
from typing import Any, Literal

from notes_bot.model import DayTemperature, Fact

Units = Literal["C", "F", "tenths_C"]

REPAIR_KEYS: Mapping[str, Mapping[str, Any]] = {
    # Readings the service itself marked as failed.
    "flagged_dropped": {"count": 3},
    # Colder than -60 or warmer than 57 C, or more rain than 600 mm: no such day in any farmed place.
    "impossible_dropped": {"count": 1},
    # A reading more than 25 C away from those of its week.
    "spike_dropped": {"count": 1, "first": "1944-01-16"},
    # A week or more of the very same readings: the sensor or the record hung.
    "stuck_dropped": {"count": 9, "first": "2024-06-02"},
    # Minimum above maximum, a day here and there.
    "min_above_max_dropped": {"count": 2},
    # Minimum above maximum nearly everywhere: the columns were the wrong way round.
    "columns_swapped": {},
    # The same day twice; the first was kept.
    "duplicate_dropped": {"count": 2},
    # Only one of the two readings of a day was there.
    "half_day_dropped": {"count": 4},
    # Too few hours in a day to know its extremes.
    "few_hours_dropped": {"count": 1},
    # Days between first and last without a usable reading; they stay empty.
    "gaps": {"count": 5},
    # The file did not say its units; the values leave only this one.
    "units_inferred": {"units": "F"},
    # Lines that are no readings at all.
    "lines_skipped": {"count": 1, "first": 17},
}
"""What was mended in a file, with example values."""

COLDEST_C, WARMEST_C = -60.0, 57.0
SPIKE_C = 25.0
STUCK_DAYS = 7
FULL_DAY_HOURS = 20
MOST_RAIN_MM = 600.0
"""More than fell on any day in the soybean belt; from memory."""
NO_RAIN_READING = 99.98
"""In the global summary of the day 99.99 inches stand for a missing amount."""
MM_PER_INCH = 25.4
FAR_KM = 300.0
MISSING = {
    "9999.9",
    "",
    "m",
    "none",
    "na",
    "n/a",
    "nan",
    "null",
    "-",
    "--",
    "-9999",
    "-9999.0",
    "-999",
    "-999.0",
    "-99",
    "9999",
}


class WeatherWrong(ValueError):
    """A temperature file or source that cannot be used; the message says why and what to do."""


@dataclass(frozen=True, slots=True)
class TemperatureRecord:
    """A file understood."""

    days: tuple[DayTemperature, ...]
    """Oldest first, one row a day, complete days only."""
    layout: str
    """ghcn_dly, ghcn_year, ghcn_station, climate_data, reference_network, surface_summary, power_csv, power_json,
    mesonet, plain, hourly, grid_json or daily_json."""
    units: Units
    """In which the file held its values."""
    station: str = ""
    repairs: tuple[Fact, ...] = ()


@dataclass(slots=True)
class _Raw:
    """A file's readings before cleaning, in the file's own units."""

    layout: str
    units: Units | None = None
    sure: bool = False
    """True when the layout fixes the units whatever the values look like."""
    rows: dict[str, list[tuple[date, str, float]]] = field(default_factory=lambda: defaultdict(list))
    """Station -> (day, tmin, tmax or soil, value)."""
    rain: dict[str, dict[date, float]] = field(default_factory=lambda: defaultdict(dict))
    """Station -> rain of each day [mm]."""
    places: dict[str, tuple[float, float]] = field(default_factory=dict)
    forecasts: set[date] = field(default_factory=set)
    repairs: Counter[str] = field(default_factory=Counter)
    firsts: dict[str, Any] = field(default_factory=dict)

    def note(self, key: str, first: Any = None) -> None:
        self.repairs[key] += 1
        if first is not None:
            self.firsts.setdefault(key, first)


Places = Sequence[tuple[float, float]]
"""Latitudes and longitudes."""


def read_temperatures(
    source: Path | str, *, units: str | None = None, station: str | None = None, near: Places = ()
) -> tuple[DayTemperature, ...]:
    """The daily temperatures of a file. As `open_temperatures`, without the account of what was mended."""
    return open_temperatures(source, units=units, station=station, near=near).days


def open_temperatures(
    source: Path | str, *, units: str | None = None, station: str | None = None, near: Places = ()
) -> TemperatureRecord:
    """Read a temperature file in any layout we know.

    :param source: a path, or the text itself (anything with a line break in it).
    :param units: ``"C"`` or ``"F"`` when the file does not say; a contradiction with plain evidence is an error.
    :param station: which station to take when the file holds several.
    :param near: where the fields lie that it is for; a file that names a place far from all of them is refused.
    :raises WeatherWrong: when it cannot be used, with what to do about it.
    """
    if units not in (None, "C", "F", "tenths_C"):
        raise WeatherWrong(f'units are "{units}": write "C" or "F"')
    text = _text(source)
    raw = _layout(text)(text)
    chosen = _choose(raw, station, near)
    return _cleaned(raw, chosen, units)


def _text(source: Path | str) -> str:
    if isinstance(source, str) and "\n" in source:
        return source.lstrip("\ufeff")
    path = Path(source)
    try:
        data = path.read_bytes()
    except OSError as error:
        raise WeatherWrong(f"{path}: cannot be read ({error.strerror or error})") from error
    if b"\0" in data[:1000] and not data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise WeatherWrong(f"{path}: not a text file; export the temperatures as CSV")
    for encoding in ("utf-16" if data.startswith((b"\xff\xfe", b"\xfe\xff")) else "utf-8-sig", "cp1252"):
        try:
            return data.decode(encoding)
        except UnicodeDecodeError:
            continue
    return data.decode("latin-1")


_DLY = re.compile(r"[A-Z]{2}[A-Z0-9_-]{9}\d{6}[A-Z]{2}[A-Z0-9]{2}[ \-0-9]{5}")
_BY_YEAR = re.compile(r"[A-Z]{2}[A-Z0-9_-]{9},\d{8},[A-Z]{2}[A-Z0-9]{2},-?\d+,")
_NETWORK = re.compile(r"\s*\d{4,5}\s+(?:19|20)\d{6}\s+\S+\s+-?\d+\.\d+\s+-?\d+\.\d+\s")


def _layout(text: str) -> Callable[[str], _Raw]:
    lines = [line for line in text.splitlines() if line.strip()]
    if not lines:
        raise WeatherWrong("the file is empty")
    first = lines[0]
    if text.lstrip().startswith("{"):
        return _json
    if _DLY.match(first) and "," not in first:
        return _dly
    if _BY_YEAR.match(first):
        return _by_year
    if _NETWORK.match(first) and len(first.split()) >= 19:
        return _network
    return _csv


# --- fixed layouts ----------------------------------------------------------------------------------


def _dly(text: str) -> _Raw:
    """GHCN-Daily .dly: a station-month-element a line, 31 groups of value(5) and three flags, tenths of C."""
    raw = _Raw("ghcn_dly", "tenths_C", sure=True)
    for number, line in enumerate(text.splitlines(), 1):
        if not line.strip():
            continue
        name = _ELEMENTS.get(line[17:21]) or _soil_element(line[17:21])
        if line[17:21] == "PRCP":
            name = "rain"
        if name is None:
            continue
        try:
            year, month = int(line[11:15]), int(line[15:17])
        except ValueError:
            raw.note("lines_skipped", number)
            continue
        for place in range(31):
            group = line[21 + 8 * place : 29 + 8 * place]
            if len(group) < 5 or group[:5].strip() in ("", "-9999"):
                continue
            try:
                day = date(year, month, place + 1)
                value = float(group[:5])
            except ValueError:
                raw.note("lines_skipped", number)
                continue
            if group[6:7].strip():
                raw.note("flagged_dropped")
                continue
            if name == "rain":  # tenths of mm
                raw.rain[line[:11]].setdefault(day, value / 10)
            else:
                raw.rows[line[:11]].append((day, name, value))
    return raw


_ELEMENTS = {"TMIN": "tmin", "TMAX": "tmax"}


def _soil_element(code: str) -> str | None:
    """SN and SX with a second digit of 2 are soil minimum and maximum at 10 cm (digit codes from memory)."""
    if len(code) == 4 and code[:2] in ("SN", "SX") and code[3] == "2":
        return "soil_min" if code[:2] == "SN" else "soil_max"
    return None


def _by_year(text: str) -> _Raw:
    """GHCN-Daily by year: ID, YYYYMMDD, element, value, three flags, hour; no header, tenths of C."""
    raw = _Raw("ghcn_year", "tenths_C", sure=True)
    for number, cells in enumerate(csv.reader(text.splitlines()), 1):
        if len(cells) < 4:
            raw.note("lines_skipped", number)
            continue
        name = "rain" if cells[2] == "PRCP" else _ELEMENTS.get(cells[2]) or _soil_element(cells[2])
        if name is None:
            continue
        if len(cells) > 5 and cells[5].strip():
            raw.note("flagged_dropped")
            continue
        try:
            if name == "rain":
                raw.rain[cells[0]].setdefault(_compact_day(cells[1]), float(cells[3]) / 10)
            else:
                raw.rows[cells[0]].append((_compact_day(cells[1]), name, float(cells[3])))
        except ValueError:
            raw.note("lines_skipped", number)
    return raw


def _network(text: str) -> _Raw:
    """U.S. Climate Reference Network daily: 28 blank-separated columns, C; soil at 10 cm is the 25th."""
    raw = _Raw("reference_network", "C", sure=True)
    for number, line in enumerate(text.splitlines(), 1):
        cells = line.split()
        if not cells:
            continue
        try:
            day = _compact_day(cells[1])
            readings = {"tmax": cells[5], "tmin": cells[6]} | ({"soil": cells[24]} if len(cells) > 24 else {})
            for name, cell in readings.items():
                if float(cell) > -9000:
                    raw.rows[cells[0]].append((day, name, float(cell)))
            if float(cells[9]) >= 0:  # mm; -9999 is missing
                raw.rain[cells[0]][day] = float(cells[9])
            raw.places[cells[0]] = (float(cells[4]), float(cells[3]))
        except (ValueError, IndexError):
            raw.note("lines_skipped", number)
    return raw


def _json(text: str) -> _Raw:
    from notes_bot.weather.live import daily_from_json

    try:
        data = json.loads(text)
    except ValueError as error:
        raise WeatherWrong(f"the file starts like JSON but is not: {error}") from error
    layout, days = daily_from_json(data)
    raw = _Raw(layout, "C", sure=True)
    for day in days:
        for name, value in (("tmin", day.tmin_c), ("tmax", day.tmax_c), ("soil", day.soil_mean_c)):
            if value is not None:
                raw.rows[""].append((day.date, name, value))
        if day.rain_mm is not None:
            raw.rain[""][day.date] = day.rain_mm
        if day.forecast:
            raw.forecasts.add(day.date)
    return raw


# --- files with a header line -----------------------------------------------------------------------

_DATE = {"date", "day", "lst_date", "valid", "time", "datetime", "timestamp", "yyyymmdd", "fecha", "data"}
_TMIN = {"tmin", "t_min", "min", "mintemp", "min_temp", "temp_min", "minimum", "t2m_min", "tn", "low", "t_daily_min",
         "temperature_2m_min", "temperature_min", "min_temperature", "tmin_air", "minimum_temperature"}  # fmt: skip
_TMAX = {"tmax", "t_max", "max", "maxtemp", "max_temp", "temp_max", "maximum", "t2m_max", "tx", "high", "t_daily_max",
         "temperature_2m_max", "temperature_max", "max_temperature", "tmax_air", "maximum_temperature"}  # fmt: skip
_SOIL = {"soil", "soil_mean", "soil_temp", "soil_temperature", "tsoil", "soil_10cm", "soil_temp_10_daily", "soil_t"}
_HOURLY = {"tmp", "tmpf", "tmpc", "temp", "temperature", "t2m", "air_temp", "temperature_2m",
           "hourlydrybulbtemperature", "air_temperature", "drybulb"}  # fmt: skip
_RAIN = {"prcp", "precip", "precipitation", "rain", "rainfall", "prectotcorr", "precipitation_sum", "pcpn"}
_RAIN_UNIT = re.compile(r"[\s_(\[]+(mm|in|inch|inches)[\s)\]]*$")
_STATION = {"station", "station_id", "id", "wban", "stationid"}
_UNIT_WORDS = re.compile(
    r"\bunits?\b\s*[:=]?\s*(?:degrees? |deg\.? |°)?(c|f|celsius|fahrenheit|metric|standard)\b", re.IGNORECASE
)
_UNIT_END = re.compile(r"[\s_(\[]+(?:degrees?|deg|°)?[\s_]*(c|f|celsius|fahrenheit)[\s)\]]*$")
_LATITUDE, _LONGITUDE = {"latitude", "lat"}, {"longitude", "lon", "long"}


def _csv(text: str) -> _Raw:
    body, said, layout = _strip_header(text)
    if not body:
        raise WeatherWrong("no table found: the first line should name its columns, as in date,tmin_c,tmax_c")
    delimiter = max(",;\t", key=body[0][1].count)
    if body[0][1].count(delimiter) == 0:
        raise WeatherWrong("no columns found: separate them by commas and name them, as in date,tmin_c,tmax_c")
    table = [(number, next(csv.reader([line], delimiter=delimiter))) for number, line in body]
    names = [cell.strip().strip('"').lower() for cell in table[0][1]]
    units: Units | None = said
    columns: dict[str, int] = {}
    for place, name in enumerate(names):
        bare, unit = _bare(name)
        kind = _kind(bare)
        if kind is None or kind in columns:
            continue
        columns[kind] = place
        if unit is not None and kind in ("tmin", "tmax", "soil", "hourly"):
            units = unit
        if bare == "tmpf":
            units = "F"
    if layout == "power_csv":
        units = "C"
    elif "tmax_attributes" in names or "tmin_attributes" in names:
        layout = "ghcn_station"
    elif {"max_attributes", "min_attributes", "temp_attributes"} <= set(names):
        layout, units = "surface_summary", "F"  # the global summary of the day; its units are fixed
    elif "max_temp_f" in names:
        layout = "mesonet"
    elif "station" in columns and "name" in names and names[columns.get("tmax", 0)] == "tmax":
        layout = "climate_data"
    rain_column, rain_mm = _rain_column(names, layout, units)
    day_of = _day_reader(names, columns, table[1:], layout)
    if "tmin" not in columns or "tmax" not in columns:
        if "hourly" in columns:
            return _hourly(table[1:], columns, units, delimiter)
        if "soil" not in columns:
            raise WeatherWrong(
                f"no columns for the day's lowest and highest temperature among {', '.join(names[:8])}: "
                "name them tmin_c and tmax_c (or tmin_f and tmax_f)"
            )
    raw = _Raw(layout, units, sure=layout in ("power_csv", "surface_summary"))
    forecast = names.index("forecast") if "forecast" in names else None
    for number, cells in table[1:]:
        try:
            day = day_of(cells)
        except (ValueError, IndexError):
            raw.note("lines_skipped", number)
            continue
        station = cells[columns["station"]].strip() if "station" in columns else ""
        if "latitude" in columns and "longitude" in columns:
            with suppress(ValueError, IndexError):
                raw.places[station] = (float(cells[columns["latitude"]]), float(cells[columns["longitude"]]))
        if forecast is not None and len(cells) > forecast and cells[forecast].strip().lower() in ("true", "1", "yes"):
            raw.forecasts.add(day)
        if rain_column is not None and rain_column < len(cells):
            trace = cells[rain_column].strip().upper() == "T"  # a trace, too little to measure
            fell = 0.0 if trace else _number(cells[rain_column], delimiter)
            if fell is not None and fell >= 0 and not (layout == "surface_summary" and fell > NO_RAIN_READING):
                raw.rain[station].setdefault(day, fell * rain_mm)
        for kind in ("tmin", "tmax", "soil"):
            if kind not in columns or columns[kind] >= len(cells):
                continue
            value = _number(cells[columns[kind]], delimiter)
            if value is None:
                continue
            flags = names.index(f"{kind}_attributes") if f"{kind}_attributes" in names else None
            if flags is not None and len(cells) > flags:
                parts = cells[flags].split(",")
                if len(parts) > 1 and parts[1].strip():
                    raw.note("flagged_dropped")
                    continue
            raw.rows[station].append((day, kind, value))
    return raw


def _rain_column(names: Sequence[str], layout: str, units: Units | None) -> tuple[int | None, float]:
    """Where a day's rain stands, and millimetres to one of its units; nowhere when its unit cannot be known."""
    for place, name in enumerate(names):
        unit = _RAIN_UNIT.search(name)
        bare = re.sub(r"[\s.-]+", "_", (name[: unit.start()] if unit else name).strip())
        if bare not in _RAIN:
            continue
        if unit is not None:
            return place, 1.0 if unit[1] == "mm" else MM_PER_INCH
        if bare in ("prectotcorr", "precipitation_sum"):
            return place, 1.0
        if layout == "ghcn_station":
            return place, 0.1
        if layout in ("mesonet", "surface_summary") or (layout == "climate_data" and units == "F"):
            return place, MM_PER_INCH
        if layout == "climate_data" and units == "C":
            return place, 1.0
    return None, 1.0


def _strip_header(text: str) -> tuple[list[tuple[int, str]], Units | None, str]:
    """Numbered table lines, units a comment states, and the layout as far as prose above the table tells it."""
    lines = list(enumerate(text.splitlines(), 1))
    layout = "plain"
    prose: list[str] = []
    if any(line.strip().upper().startswith("-BEGIN HEADER") for _, line in lines[:3]):
        layout = "power_csv"
        end = next((i for i, (_, line) in enumerate(lines) if line.strip().upper().startswith("-END HEADER")), None)
        if end is None:
            raise WeatherWrong("the header starts with -BEGIN HEADER- but never ends: the file is cut short")
        lines = lines[end + 1 :]
    table: list[tuple[int, str]] = []
    for number, line in lines:
        bare = line.strip()
        if bare.startswith(("#", "//")):
            prose.append(bare)
        elif bare:
            table.append((number, line))
    titles = table[0][1].strip().lower() if table else ""
    if layout == "plain" and re.match(r"(?:lat,lon,)?year,(?:mo,dy|doy),", titles):
        layout = "power_csv"
    said = _UNIT_WORDS.search(" ".join(prose))
    units: Units | None = None
    if said:
        units = "F" if said[1].lower()[0] in "fs" else "C"
    return table, units, layout


def _bare(name: str) -> tuple[str, Units | None]:
    match = _UNIT_END.search(name)
    unit: Units | None = None
    if match:
        unit = "F" if match[1].startswith("f") else "C"
        name = name[: match.start()]
    return re.sub(r"[\s.-]+", "_", name.strip()), unit


def _kind(name: str) -> str | None:
    for kind, words in (
        ("date", _DATE), ("tmin", _TMIN), ("tmax", _TMAX), ("soil", _SOIL), ("hourly", _HOURLY), ("station", _STATION),
        ("latitude", _LATITUDE), ("longitude", _LONGITUDE),
    ):  # fmt: skip
        if name in words:
            return kind
    return None


def _day_reader(
    names: Sequence[str], columns: Mapping[str, int], table: Sequence[tuple[int, list[str]]], layout: str
) -> Callable[[Sequence[str]], date]:
    """How a row's day is written."""
    if layout == "power_csv" or ("date" not in columns and "year" in names):
        year = names.index("year")
        if "doy" in names:
            doy = names.index("doy")
            return lambda cells: date(int(cells[year]), 1, 1) + timedelta(days=int(cells[doy]) - 1)
        month = next((names.index(name) for name in ("mo", "month") if name in names), None)
        day = next((names.index(name) for name in ("dy", "day") if name in names), None)
        if month is None or day is None:
            raise WeatherWrong("there is a year column but none for month and day, or for the day of the year")
        return lambda cells: date(int(cells[year]), int(cells[month]), int(cells[day]))
    if "date" not in columns:
        raise WeatherWrong(f"no column for the day among {', '.join(names[:8])}: name it date")
    place = columns["date"]
    samples = [cells[place].strip() for _, cells in table[:2000] if len(cells) > place]
    if any(re.match(r"\d{1,2}[/.]\d{1,2}[/.]\d{4}", sample) for sample in samples):
        parts = [re.split(r"[/.]", sample.split()[0]) for sample in samples if sample]
        numbers = [(int(p[0]), int(p[1])) for p in parts if len(p) == 3 and p[0].isdigit() and p[1].isdigit()]
        if any(a > 12 for a, _ in numbers):
            order = (2, 1, 0)
        elif any(b > 12 for _, b in numbers):
            order = (2, 0, 1)
        else:
            raise WeatherWrong("days such as 5/6/2024 leave open which is the month: write 2024-05-06")

        def slashed(cells: Sequence[str]) -> date:
            cut = re.split(r"[/.]", cells[place].strip().split()[0])
            return date(*(int(cut[i]) for i in order))

        return slashed

    def iso(cells: Sequence[str]) -> date:
        cell = cells[place].strip()
        return _compact_day(cell) if re.fullmatch(r"\d{8}", cell) else date.fromisoformat(cell[:10])

    return iso


def _compact_day(cell: str) -> date:
    return date(int(cell[:4]), int(cell[4:6]), int(cell[6:8]))


def _number(cell: str, delimiter: str) -> float | None:
    bare = cell.strip().strip('"').lower()
    if bare in MISSING:
        return None
    if delimiter != ",":
        bare = bare.replace(",", ".")
    try:
        value = float(bare.rstrip("s*"))  # a trailing s or * marks a suspect hourly value in station files
    except ValueError:
        return None
    return None if value in (-9999.0, -999.0, -99.0, 9999.0) else value


_CODED = re.compile(r"([+-]\d{4}),(\w)")
"""Hours of the integrated surface data: tenths of C, a comma, a quality code; +9999 is missing [IsdFormat]."""
_CODED_WRONG = "2367"
"""Suspect and erroneous."""


def _hourly(
    table: Sequence[tuple[int, list[str]]], columns: Mapping[str, int], units: Units | None, delimiter: str
) -> _Raw:
    """Hourly readings of one station: lowest and highest of each day, by the file's own clock."""
    raw = _Raw("hourly", units)
    hours: dict[tuple[str, date], dict[int, list[float]]] = defaultdict(lambda: defaultdict(list))
    for number, cells in table:
        try:
            stamp = cells[columns["date"]].strip()
            day = date.fromisoformat(stamp[:10])
            hour = int(stamp[11:13]) if len(stamp) >= 13 else 0
            coded = _CODED.fullmatch(cells[columns["hourly"]].strip())
            value = _number(cells[columns["hourly"]], delimiter) if coded is None else int(coded[1]) / 10
        except (ValueError, IndexError):
            raw.note("lines_skipped", number)
            continue
        if coded is not None:
            raw.units, raw.sure = "C", True
            if coded[1].endswith("9999"):
                continue
            if coded[2] in _CODED_WRONG:
                raw.note("flagged_dropped")
                continue
        station = cells[columns["station"]].strip() if "station" in columns else ""
        if value is not None:
            hours[station, day][hour].append(value)
    for (station, day), by_hour in hours.items():
        if len(by_hour) < FULL_DAY_HOURS:
            raw.note("few_hours_dropped")
            continue
        values = [value for several in by_hour.values() for value in several]
        raw.rows[station] += [(day, "tmin", min(values)), (day, "tmax", max(values))]
    return raw


# --- from readings to days --------------------------------------------------------------------------


def _choose(raw: _Raw, station: str | None, near: Places) -> str:
    held = sorted(name for name, rows in raw.rows.items() if rows)
    if not held:
        raise WeatherWrong("the file holds no temperatures")
    if station is not None:
        if station not in held:
            raise WeatherWrong(f"station {station} is not in the file; it holds {', '.join(held[:6])}")
        chosen = station
    elif len(held) > 1:
        raise WeatherWrong(f"the file holds {len(held)} stations ({', '.join(held[:6])}): say which one")
    else:
        chosen = held[0]
    place = raw.places.get(chosen)
    if near and place is not None:
        away = min(_kilometres(place, spot) for spot in near)
        if away > FAR_KM:
            whom = "the field" if len(near) == 1 else "the nearest field"
            raise WeatherWrong(f"station {chosen or 'of the file'} lies {away:.0f} km from {whom}: wrong station?")
    return chosen


def _kilometres(a: tuple[float, float], b: tuple[float, float]) -> float:
    north, across = radians(a[0] - b[0]), radians(a[1] - b[1])
    part = sin(north / 2) ** 2 + cos(radians(a[0])) * cos(radians(b[0])) * sin(across / 2) ** 2
    return 2 * 6371 * asin(sqrt(min(1.0, part)))


def _cleaned(raw: _Raw, station: str, asked: str | None) -> TemperatureRecord:
    rows = raw.rows[station]
    units = _decide_units(raw, rows, asked)
    days: dict[date, dict[str, float]] = defaultdict(dict)
    for day, name, value in rows:
        celsius = (value - 32) / 1.8 if units == "F" else value / 10 if units == "tenths_C" else value
        if not COLDEST_C <= celsius <= WARMEST_C:
            raw.note("impossible_dropped")
            continue
        if name in days[day]:
            raw.note("duplicate_dropped")
            continue
        days[day][name] = celsius
    for values in days.values():
        if "soil_min" in values and "soil_max" in values:
            values.setdefault("soil", (values["soil_min"] + values["soil_max"]) / 2)
    pairs = [values for values in days.values() if "tmin" in values and "tmax" in values]
    crossed = sum(1 for values in pairs if values["tmin"] > values["tmax"])
    if pairs and crossed > 0.5 * len(pairs):
        raw.note("columns_swapped")
        for values in pairs:
            values["tmin"], values["tmax"] = values["tmax"], values["tmin"]
    _drop_spikes(raw, days)
    _drop_stuck(raw, days)
    kept: list[DayTemperature] = []
    for day in sorted(days):
        values = days[day]
        low, high, soil = values.get("tmin"), values.get("tmax"), values.get("soil")
        if (low is None) != (high is None):
            raw.note("half_day_dropped")
            low = high = None
        if low is not None and high is not None and low > high:
            raw.note("min_above_max_dropped")
            low = high = None
        if low is None and soil is None:
            continue
        rain = raw.rain[station].get(day)
        if rain is not None and rain > MOST_RAIN_MM:
            raw.note("impossible_dropped")
            rain = None
        forecast = day in raw.forecasts
        kept.append(DayTemperature(day, _round(low), _round(high), _round(soil), forecast, _round(rain)))
    if not kept:
        raise WeatherWrong("no day in the file has a usable lowest and highest temperature")
    span = (kept[-1].date - kept[0].date).days + 1
    if span > len(kept):
        raw.repairs["gaps"] = span - len(kept)
    return TemperatureRecord(tuple(kept), raw.layout, units, station, _facts(raw, units))


def _round(value: float | None) -> float | None:
    return None if value is None else round(value, 2)


def _decide_units(raw: _Raw, rows: Iterable[tuple[date, str, float]], asked: str | None) -> Units:
    """The units of the values: as said, if the values allow it; else the only ones they allow."""
    air = [(day, value) for day, name, value in rows if name in ("tmin", "tmax")]
    highs = sorted(value for _, name, value in rows if name == "tmax") or sorted(value for _, _, value in rows)
    # A stray value must not decide: the second highest of a long record speaks for it.
    top = highs[-1 - len(highs) // 40] if highs else 0.0
    whole = all(float(value).is_integer() for value in highs)
    warm = sum(1 for day, _ in air if (4, 15) <= (day.month, day.day) <= (10, 15)) >= 20
    looks: Units | None = None
    if top > 134 and whole:
        looks = "tenths_C"
    elif top > WARMEST_C:
        looks = "F"
    elif warm or len(air) >= 300:
        looks = "C"
    if raw.sure:
        return raw.units or "C"
    said: Units | None = raw.units
    if asked is not None:
        said = "C" if asked == "C" else "F" if asked == "F" else "tenths_C"
    if said is not None:
        if looks is not None and looks != said:
            names = {"C": "degrees C", "F": "degrees F", "tenths_C": "tenths of a degree C"}
            raise WeatherWrong(
                f"the units are said to be {names[said]}, but a highest temperature of {top:g} "
                f"looks like {names[looks]}"
            )
        return said
    if looks is None:
        raise WeatherWrong(
            "the file does not say whether its temperatures are C or F, and both are possible: say which"
        )
    raw.repairs["units_inferred"] = 1
    raw.firsts["units_inferred"] = looks
    return looks


def _drop_spikes(raw: _Raw, days: Mapping[date, dict[str, float]]) -> None:
    order = sorted(days)
    for name in ("tmin", "tmax", "soil"):
        held = [(day, days[day][name]) for day in order if name in days[day]]
        wrong = []
        for place, (day, value) in enumerate(held):
            near = [v for d, v in held[max(0, place - 4) : place + 5] if d != day and abs((d - day).days) <= 4]
            if len(near) >= 3 and abs(value - statistics.median(near)) > SPIKE_C:
                wrong.append(day)
        for day in wrong:
            del days[day][name]
            raw.note("spike_dropped", day.isoformat())


def _drop_stuck(raw: _Raw, days: Mapping[date, dict[str, float]]) -> None:
    order = sorted(day for day, values in days.items() if "tmin" in values and "tmax" in values)
    for _, run in groupby(order, key=lambda day: (days[day]["tmin"], days[day]["tmax"])):
        held = list(run)
        if len(held) >= STUCK_DAYS and (held[-1] - held[0]).days < 2 * len(held):
            for day in held:
                del days[day]["tmin"], days[day]["tmax"]
                raw.note("stuck_dropped", day.isoformat())


def _facts(raw: _Raw, units: Units) -> tuple[Fact, ...]:
    facts = []
    for key, count in raw.repairs.items():
        example = REPAIR_KEYS[key]
        values: dict[str, Any] = {}
        if "count" in example:
            values["count"] = count
        if "first" in example:
            values["first"] = raw.firsts.get(key)
        if "units" in example:
            values["units"] = units
        facts.append(Fact(key, values))
    return tuple(facts)
