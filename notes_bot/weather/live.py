"""Live daily temperatures over the network, and the same answers from saved JSON.

Two open services are understood, tried in the order given to `live_temperatures`: a global one that answers with
past days and a forecast at once, and the gridded forecast of the U.S. National Weather Service (forecast only).
Their answers' shapes are checked on small samples; the network itself is never needed by the project.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping
from datetime import date, datetime, timedelta, tzinfo
from typing import Any
from zoneinfo import ZoneInfo

import httpx

from notes_bot.model import DayTemperature
from notes_bot.weather.files import WeatherWrong

OPEN_METEO = "https://api.open-meteo.com/v1/forecast"
WEATHER_SERVICE = "https://api.weather.gov"
PAST_DAYS, AHEAD_DAYS = 92, 16
TIMEOUT_SECONDS = 10.0
MM_PER_INCH = 25.4


def live_temperatures(
    latitude: float, longitude: float, today: date, client: httpx.Client, *, past_days: int = PAST_DAYS
) -> tuple[DayTemperature, ...]:
    """Recent and forecast daily temperatures of a place, oldest first; days from ``today`` on are marked forecast.

    :param client: carries proxies, time limits and the User-Agent a service asks for; nothing is retried here.
    :raises WeatherWrong: when no service answers with something usable; the message names each and its reason.
    """
    reasons = []
    for name, ask in (("open-meteo", _open_meteo), ("weather service", _weather_service)):
        try:
            days = ask(latitude, longitude, today, client, past_days)
        except httpx.HTTPError as error:
            reasons.append(f"{name}: {type(error).__name__} {error}".strip())
        except (WeatherWrong, ValueError, KeyError, TypeError) as error:
            reasons.append(f"{name}: {error}")
        else:
            if days:
                return days
            reasons.append(f"{name}: no days")
    raise WeatherWrong("no live temperatures: " + "; ".join(reasons))


def _open_meteo(
    latitude: float, longitude: float, today: date, client: httpx.Client, past_days: int
) -> tuple[DayTemperature, ...]:
    answer = client.get(
        OPEN_METEO,
        params={
            "latitude": f"{latitude:.4f}",
            "longitude": f"{longitude:.4f}",
            "daily": "temperature_2m_max,temperature_2m_min,precipitation_sum",
            "temperature_unit": "celsius",
            "precipitation_unit": "mm",
            "timezone": "auto",
            "past_days": str(min(past_days, PAST_DAYS)),
            "forecast_days": str(AHEAD_DAYS),
        },
        timeout=TIMEOUT_SECONDS,
    )
    if answer.status_code == httpx.codes.BAD_REQUEST:  # says in JSON what was wrong
        return daily_json(answer.json(), today)
    return daily_json(answer.raise_for_status().json(), today)


def _weather_service(
    latitude: float, longitude: float, today: date, client: httpx.Client, past_days: int
) -> tuple[DayTemperature, ...]:
    del past_days  # forecasts only
    point = client.get(f"{WEATHER_SERVICE}/points/{latitude:.4f},{longitude:.4f}", timeout=TIMEOUT_SECONDS)
    properties = point.raise_for_status().json()["properties"]
    zone = ZoneInfo(str(properties["timeZone"])) if properties.get("timeZone") else None
    grid = client.get(str(properties["forecastGridData"]), timeout=TIMEOUT_SECONDS)
    days = grid_json(grid.raise_for_status().json(), zone)
    return tuple(day for day in days if day.date >= today)


def daily_from_json(data: Mapping[str, Any]) -> tuple[str, tuple[DayTemperature, ...]]:
    """Layout and days of a saved JSON answer of any service understood here.

    Without knowing the day it was fetched on, grid forecasts are marked forecast and all else measured.

    :raises WeatherWrong: for an unknown shape.
    """
    properties = data.get("properties")
    if isinstance(properties, Mapping) and "parameter" in properties:
        return "power_json", power_json(data)
    if isinstance(properties, Mapping) and "maxTemperature" in properties:
        return "grid_json", grid_json(data, None)
    if "daily" in data:
        return "daily_json", daily_json(data, None)
    raise WeatherWrong("a JSON answer of a shape we do not know: expected daily temperatures")


def daily_json(data: Mapping[str, Any], today: date | None) -> tuple[DayTemperature, ...]:
    """Parallel arrays under ``daily``; units from ``daily_units``; null is missing [OpenMeteoDocs]."""
    if data.get("error"):
        raise WeatherWrong(str(data.get("reason", "the service answered with an error")))
    daily, units = data["daily"], data.get("daily_units", {})
    fahrenheit = "F" in str(units.get("temperature_2m_max", "C"))
    inches = "inch" in str(units.get("precipitation_sum", "mm"))
    nothing = [None] * len(daily["time"])
    soil = daily.get("soil_temperature_0_to_7cm_mean") or nothing
    rain = daily.get("precipitation_sum") or nothing
    rows = zip(daily["time"], daily["temperature_2m_min"], daily["temperature_2m_max"], soil, rain, strict=True)
    days = []
    for text, low, high, ground, fell in rows:
        day = date.fromisoformat(text)
        if low is None or high is None or low > high:
            continue
        low, high = _celsius(low, fahrenheit), _celsius(high, fahrenheit)
        ground = None if ground is None else _celsius(ground, fahrenheit)
        wet = None if fell is None else round(fell * (MM_PER_INCH if inches else 1.0), 1)
        days.append(DayTemperature(day, low, high, ground, today is not None and day >= today, wet))
    return tuple(days)


def power_json(data: Mapping[str, Any]) -> tuple[DayTemperature, ...]:
    """One dictionary of YYYYMMDD -> C (rain: mm a day) a variable; the fill value is missing [NasaPowerDocs]."""
    variables = data["properties"]["parameter"]
    fill = float(data.get("header", {}).get("fill_value", -999))
    lows, highs, rain = variables["T2M_MIN"], variables["T2M_MAX"], variables.get("PRECTOTCORR", {})
    days = []
    for stamp in sorted(set(lows) & set(highs)):
        low, high = float(lows[stamp]), float(highs[stamp])
        if fill not in (low, high) and low <= high:
            day = date(int(stamp[:4]), int(stamp[4:6]), int(stamp[6:8]))
            fell = float(rain.get(stamp, fill))
            days.append(DayTemperature(day, low, high, rain_mm=None if fell == fill else fell))
    return tuple(days)


_SPAN = re.compile(r"P(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?)?")


def grid_json(data: Mapping[str, Any], zone: tzinfo | None) -> tuple[DayTemperature, ...]:
    """Grid forecast: values over ISO 8601 spans, each given to the local day of the span's middle [NwsGridpoints].

    Of a day's temperatures the first is kept; its rain (layer quantitativePrecipitation, mm) is added up.
    """
    found: dict[date, dict[str, float]] = defaultdict(dict)
    for name, key in (("tmax", "maxTemperature"), ("tmin", "minTemperature"), ("rain", "quantitativePrecipitation")):
        layer = data["properties"].get(key, {"values": []}) if name == "rain" else data["properties"][key]
        fahrenheit = str(layer.get("uom", "wmoUnit:degC")).endswith("degF")
        for entry in layer["values"]:
            if entry["value"] is None:
                continue
            start_text, _, span_text = entry["validTime"].partition("/")
            span = _SPAN.fullmatch(span_text)
            if span is None:
                raise WeatherWrong(f"a span we cannot read: {entry['validTime']}")
            length = timedelta(days=int(span[1] or 0), hours=int(span[2] or 0), minutes=int(span[3] or 0))
            middle = datetime.fromisoformat(start_text) + length / 2
            day = (middle.astimezone(zone) if zone is not None else middle).date()
            if name == "rain":
                found[day][name] = found[day].get(name, 0.0) + float(entry["value"])
            else:
                found[day].setdefault(name, _celsius(float(entry["value"]), fahrenheit))
    return tuple(
        DayTemperature(day, values["tmin"], values["tmax"], forecast=True, rain_mm=_tenth(values.get("rain")))
        for day, values in sorted(found.items())
        if "tmin" in values and "tmax" in values and values["tmin"] <= values["tmax"]
    )


def _tenth(value: float | None) -> float | None:
    return None if value is None else round(value, 1)


def _celsius(value: float, fahrenheit: bool) -> float:
    return round((value - 32) / 1.8, 2) if fahrenheit else float(value)
