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


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel 6 plants none\nTinkers nothing yet 10 plants shovel washed recheck 2wk",
        "Kestrel 6 plants none\nTinkers 10 plants dug / 1-0-4-0-2-3-0-0-0-0 / all w / washed / recheck 2wk",
    ],
)
def test_what_is_said_of_the_last_field_is_not_said_of_all(text):
    """ "Nothing yet" is none there, and "all w" is all white: neither speaks of the fields before."""
    first, last = read(text).notes

    assert (first.look_again, first.soaked) == (None, None)
    assert last.look_again is not None


def test_nothing_on_the_roots_of_one_field_is_none_there():
    """A field only told to be sprayed was not looked at."""
    first, last = read("Kestrel got sprayed monday\nTinkers 5 plants, nothing on roots. powder dry").notes

    assert (first.females.total, first.soil.moisture) == (None, None)
    assert (last.females.total, last.soil.moisture) == (0, "dry")


def test_nothing_got_washed_is_said_of_every_field():
    """Of washing, "nothing" speaks of all of them."""
    notes = read("Kestrel 5 plants none. Tinkers 5 plants none. nothing got washed").notes

    assert [note.soaked for note in notes] == [False, False]


def test_a_crew_s_field_that_is_also_a_place_heads_a_line():
    """ "Baixada" with a capital at the head of a line, below a field nobody could dig."""
    notes = read(
        "Cruz Queimada ontem. Encharcado, sem condição de cavar\nBaixada. R3. 6 plantas, 2 brancas", "pt"
    ).notes

    assert [(note.field, note.plants) for note in notes] == [("cruz queimada", None), ("baixada", 6)]


@pytest.mark.parametrize("first", ["Molino Viejo", "La Loma"])
def test_a_name_of_the_crew_that_is_another_word_too_heads_its_line(first: str) -> None:
    """ "La curva" may ask for a picture; given in full at the head of a line with counts it is the field."""
    text = f"{first.lower()} 5 plantas con pala, 2 blancas\nla curva 5 plantas con pala, nada"
    reading = read(text, "es", (*CREW, "La Curva"))
    assert reading.problems == () and reading.commands == ()
    assert [(note.field, note.plants, note.females.total) for note in reading.notes] == [
        (first.lower(), 5, 2),
        ("la curva", 5, 0),
    ]
