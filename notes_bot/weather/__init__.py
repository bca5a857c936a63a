"""Temperatures of a place: files people bring, sources on the network, and built-in normals when there is neither."""

from notes_bot.weather.climate import climate_at
from notes_bot.weather.files import REPAIR_KEYS, TemperatureRecord, WeatherWrong, open_temperatures, read_temperatures
from notes_bot.weather.live import live_temperatures

__all__ = [
    "REPAIR_KEYS",
    "TemperatureRecord",
    "WeatherWrong",
    "climate_at",
    "live_temperatures",
    "open_temperatures",
    "read_temperatures",
]
