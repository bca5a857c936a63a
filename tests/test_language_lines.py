"""Notes told line by line: what a line below a note says of its field, and what is no name at the head of a line."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from notes_bot.language import read_note
from notes_bot.model import Reading

SENT = date(2026, 7, 20)
CREW = ("Kestrel", "Old Mill East", "Tinkers", "La Loma", "Molino Viejo", "Cruz Queimada", "Baixada")


def read(text: str, language: str = "en", fields: tuple[str, ...] = CREW) -> Reading:
    """One message of the crew's, without a question back."""
    reading = read_note(text, sent=SENT, fields=fields, language=language, day_first=language != "en")  # type: ignore[arg-type]

    assert not reading.problems, reading.problems
    return reading


@pytest.mark.parametrize(
    ("text", "language", "command"),
    [
        ("Kestrel R3 6 plants dug, 5 yellow\nwhats the history there", "en", {"kind": "history", "field": "kestrel"}),
        ("Kestrel 6 plants none\nAlso it's 38 acres, fyi", "en", {"kind": "field", "name": "kestrel", "acres": 38.0}),
        (
            "At Kestrel 10 plants, 40 white\nRename the field to Heron Ground, please.",
            "en",
            {"kind": "field", "name": "kestrel", "rename_to": "heron ground"},
        ),
        (
            "Molino Viejo 5 plantas 17 marrones\nLes pido silenciar los avisos de ese lote.",
            "es",
            {"kind": "mute", "field": "molino viejo"},
        ),
        (
            "Cruz Queimada 4 plantas nada\nPode religar os avisos dela.",
            "pt",
            {"kind": "resume", "field": "cruz queimada"},
        ),
    ],
)
def test_what_is_asked_below_a_note_is_of_its_field(text: str, language: str, command: dict[str, Any]) -> None:
    """ "There", "it", "ese lote": the field told of in the line above."""
    found = read(text, language)

    assert len(found.notes) == 1
    assert [{"kind": c.kind, **c.args} for c in found.commands] == [command]


@pytest.mark.parametrize(
    ("text", "language", "moisture", "soaked"),
    [
        ("Kestrel 6 plants none\nGround's nice and moist", "en", "moist", None),
        ("Kestrel 6 plants none\nhard n dry", "en", "dry", None),
        ("Kestrel 6 plants none\nhavent washed em", "en", None, False),
        ("Baixada 6 plantas nada\nRaízes deixadas de molho em balde por 10 min.", "pt", None, True),
    ],
)
def test_a_line_of_soil_or_washing_names_no_field(text, language, moisture, soaked):
    """No stage, no number of plants, nothing found: more of the note above."""
    (note,) = read(text, language).notes

    assert (note.plants, note.soil.moisture, note.soaked) == (6, moisture, soaked)


def test_a_new_field_below_another_is_a_note_of_its_own():
    """A name no list has, at the head of a line, with what was counted there."""
    notes = read("Kestrel 6 plants none\nhollow oak 5 plants 3 white\nStony Point, V4, 5 plants none").notes

    assert [note.field for note in notes] == ["kestrel", "hollow oak", "stony point"]


def test_coordinates_above_a_note_leave_it_its_field():
    """The pin is the field's, and so is what follows."""
    reading = read("Kestrel 41.97 N 93.41 W\nR1, 4 plants, no females")

    assert [(c.kind, c.args["name"]) for c in reading.commands] == [("field", "kestrel")]
    assert [(note.field, note.plants) for note in reading.notes] == [("kestrel", 4)]


@pytest.mark.parametrize(
    "text",
    [
        "um who's hauling the hay never mind\nKestrel tuesday 4 plants none",
        "Kestrel 4 plants none\nI meant to write last Friday",
        "Lab sheets came back\nKestrel 4 plants none",
    ],
)
def test_a_line_of_talk_takes_back_and_corrects_nothing(text):
    """ "Never mind" of other things, "I meant to write": said in passing."""
    reading = read(text)

    assert not reading.commands
    assert [(note.field, note.females.total) for note in reading.notes] == [("kestrel", 0)]


def test_a_dash_before_an_amount_of_rain_is_no_minus():
    """ "Rain at last - 1.3 inches": it did not rain less than nothing."""
    (command,) = read("Rain at last - 1.3 inches last night.").commands

    assert command.args["rain_mm"] == 33.0
