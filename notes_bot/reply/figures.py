"""Pictures for a phone: numbers in, PNG and the words that say the same out. Figures draw, they do not decide."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from io import BytesIO

from matplotlib.figure import Figure

from notes_bot.model import Field, FieldToday, Language, Outlook, Picture, Visit

DOTS = 200
"""Dots per inch: 360 logical pixels at twice the density is a figure 3.6 inches wide."""


def season_figure(field: Field, outlook: Outlook, visits: Sequence[Visit], today: date, language: Language) -> Picture:
    """The season of one field: expected colours, what was dug, windows, today."""
    figure = Figure(figsize=(3.6, 3.0), dpi=DOTS)
    return Picture(f"season-{field.id}", f"season-{field.id}.png", _png(figure), field.name)


def crew_map(fields: Sequence[FieldToday], language: Language) -> Picture:
    """Where the fields lie and what was found."""
    figure = Figure(figsize=(3.6, 3.0), dpi=DOTS)
    return Picture("crew-map", "crew-map.png", _png(figure), str(len(fields)))


def week_strip(fields: Sequence[FieldToday], today: date, language: Language) -> Picture:
    """Which looks fall into the next seven days."""
    figure = Figure(figsize=(3.6, 3.0), dpi=DOTS)
    return Picture("week-strip", "week-strip.png", _png(figure), str(len(fields)))


def _png(figure: Figure) -> bytes:
    out = BytesIO()
    figure.savefig(out, format="png")
    return out.getvalue()
