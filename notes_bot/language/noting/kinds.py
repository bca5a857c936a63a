"""Which function reads which kind of clause."""

from __future__ import annotations

from collections.abc import Callable

from notes_bot.language.clauses.facts import Fact
from notes_bot.language.noting import (
    again,
    averages,
    counts,
    crop,
    days,
    digging,
    in_words,
    lists,
    outcome,
    places,
    same,
    seed,
    shades,
    soil,
    spray,
)
from notes_bot.language.noting.page import Page

READ: dict[str, Callable[[Page, Fact], None]] = {
    "date": days.on_date,
    "ago": days.on_ago,
    "planted": days.on_planted,
    "after_planting": days.on_after_planting,
    "plants": digging.on_plants,
    "how": digging.on_how,
    "soaked": digging.on_soaked,
    "same": same.on_same,
    "colour_count": counts.on_colour_count,
    "colour_series": counts.on_colour_series,
    "each": averages.on_each,
    "total_count": counts.on_total_count,
    "per_plant": lists.on_per_plant,
    "none": outcome.on_none,
    "too_many": outcome.on_too_many,
    "shades": shades.on_shades,
    "not_looked": outcome.on_not_looked,
    "positive": outcome.on_positive,
    "mark": lists.on_mark,
    "refused": outcome.on_refused,
    "spot": places.on_spot,
    "check": places.on_check,
    "moisture": soil.on_moisture,
    "texture": soil.on_texture,
    "acidity": soil.on_acidity,
    "potassium": soil.on_potassium,
    "stage": crop.on_stage,
    "roots": crop.on_roots,
    "nodules": crop.on_nodules,
    "tops": crop.on_tops,
    "variety": seed.on_variety,
    "spray": spray.on_spray,
    "entry": spray.on_entry,
    "look_again": again.on_look_again,
    "text": in_words.on_text,
    "quoted": in_words.on_quoted,
}
"""How each kind of clause is read."""
