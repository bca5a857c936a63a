"""Temperatures of a place: files people bring, sources on the network, and built-in normals when there is neither."""

from notes_bot.weather.climate import climate_at

__all__ = ["climate_at"]
