"""Notes told in any order: ways to say each thing, drawn and put together at random, read as they were meant."""

from __future__ import annotations

import random
from collections.abc import Iterator
from datetime import date
from typing import Any

import pytest

from notes_bot.language import read_note
from notes_bot.model import Language, Note
from tests.ways_to_say import ENGLISH, PORTUGUESE, SPANISH, Ways

SENT = date(2026, 7, 8)
CREW = {
    "en": ("Kestrel", "Old Mill East", "Cedar Slough", "Tinker's", "Larkspur South 80"),
    "es": ("La Tranquera", "Molino Viejo", "Bajo Grande", "Baixada", "Santa Rita", "Sede Velha"),
    "pt": ("La Tranquera", "Molino Viejo", "Bajo Grande", "Baixada", "Santa Rita", "Sede Velha"),
}
WAYS: dict[Language, Ways] = {"en": ENGLISH, "es": SPANISH, "pt": PORTUGUESE}
TOLD = 0.32
"""The part of the notes that tell each of the things that may be left out."""
MEANT = {
    "day": ("date",),
    "stage": ("stage",),
    "soak": ("soaked",),
    "soil": ("moisture", "texture"),
    "roots": ("roots",),
    "tops": ("tops",),
    "variety": ("name", "resistance", "source"),
    "look": ("days", "again"),
    "talk": (),
}


def told(ways: Ways, chance: random.Random) -> tuple[str, dict[str, Any]]:
    """One note, as written and as meant."""
    field, plants, counts = (chance.choice(ways[key]) for key in ("field", "plants", "counts"))
    meant: dict[str, Any] = {"field": field[1], "plants": plants[1], "method": plants[2], "females": counts[1]}
    said: dict[str, str] = {}
    for key, names in MEANT.items():
        if chance.random() < TOLD:
            text, *values = chance.choice(ways[key])
            said[key] = text
            meant |= dict(zip(names, values, strict=True))
    middle = [text for key, text in said.items() if key not in ("day", "look", "talk")]
    chance.shuffle(middle)
    at = chance.randrange(len(middle) + 1)
    parts = [*middle[:at], plants[0], counts[0], *middle[at:]]
    head, day = field[0], said.get("day")
    if day is not None:
        where = chance.random()
        head = f"{head} {day}" if where < 0.6 else head
        parts = parts if where < 0.6 else [day, *parts] if where < 0.9 else [*parts, day]
    parts += [said[key] for key in ("look", "talk") if key in said]
    stop = chance.choice([", ", ". ", ", ", "; ", " - ", "\n"])
    joint = chance.choice([" ", ": ", ", ", " - ", ". "])
    if joint == " " and parts[0][0].isdigit() and field[0][-1].isdigit():
        joint = ": "
    text = head + joint + stop.join(parts)
    return (". ".join(part[:1].upper() + part[1:] for part in text.split(". ")) if stop == ". " else text), meant


def read_as(note: Note) -> dict[str, Any]:
    """A note in the keys of what is meant, what was not told left out."""
    seed, look = note.variety, note.look_again
    found = {
        "field": note.field,
        "plants": note.plants,
        "method": note.method,
        "females": (note.females.white, note.females.yellow, note.females.tan, note.females.brown),
        "date": note.date and note.date.isoformat(),
        "stage": note.stage,
        "soaked": note.soaked,
        "moisture": note.soil.moisture,
        "texture": note.soil.texture,
        "roots": tuple(sorted(note.roots)),
        "tops": tuple(sorted(note.tops)),
        "name": seed and seed.name,
        "resistance": seed and seed.resistance,
        "source": seed and seed.source,
        "days": look and look.days,
        "again": look and look.date and look.date.isoformat(),
    }
    return {key: value for key, value in found.items() if value is not None and value != ()}


def misread(language: Language, notes: int, seed: int) -> Iterator[tuple[str, object]]:
    """The notes of a draw that are read otherwise than meant, and raise no question."""
    chance = random.Random(seed)
    for _ in range(notes):
        text, meant = told(WAYS[language], chance)
        reading = read_note(text, sent=SENT, fields=CREW[language], language=language, day_first=language != "en")
        if reading.problems:
            continue
        meant = {key: tuple(sorted(v)) if key in ("roots", "tops") else v for key, v in meant.items() if v is not None}
        if len(reading.notes) != 1 or reading.commands:
            yield text, [command.kind for command in reading.commands]
        elif (found := read_as(reading.notes[0])) != meant:
            yield (
                text,
                {key: (meant.get(key), found.get(key)) for key in meant | found if meant.get(key) != found.get(key)},
            )


@pytest.mark.parametrize("language", ["en", "es", "pt"])
def test_things_told_in_any_order_are_read_as_meant(language):
    """Whatever stands before or behind them, and whatever stops stand between."""
    assert list(misread(language, 200, seed=11)) == []


@pytest.mark.heavy
@pytest.mark.parametrize("language", ["en", "es", "pt"])
def test_hardly_one_note_in_a_thousand_told_in_any_order_is_misread(language):
    """Many more of them: 5,000 in each language."""
    assert len(list(misread(language, 5000, seed=12))) <= 5
