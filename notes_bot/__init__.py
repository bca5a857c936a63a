"""A field-notes assistant for soybean cyst nematode scouting, by text message and email."""

__version__ = "0.1.0"
