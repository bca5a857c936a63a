"""Things careful people write: plans run in a sentence, pictures only likened to, fields that are "just plain yellow"."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from notes_bot.language import read_note
from notes_bot.model import Command, Note, Reading

SENT = date(2026, 7, 20)
CREW = ("Kestrel", "Cold Spring", "Number Nine")


def read(text: str, fields: tuple[str, ...] = CREW) -> Reading:
    """One message, without a question back."""
    reading = read_note(text, sent=SENT, fields=fields, language="en", day_first=False)

    assert not reading.problems, reading.problems
    return reading


def the_note(text: str, fields: tuple[str, ...] = CREW) -> Note:
    """The one note of a message that asks nothing."""
    reading = read(text, fields)

    assert not reading.commands, reading.commands
    assert len(reading.notes) == 1, reading.notes
    return reading.notes[0]


def the_command(text: str, fields: tuple[str, ...] = CREW) -> Command:
    """The one thing a message asks."""
    reading = read(text, fields)

    assert not reading.notes, reading.notes
    assert len(reading.commands) == 1, reading.commands
    return reading.commands[0]


def asked(command: Command) -> dict[str, Any]:
    """What is told beside what is asked."""
    return {key: value for key, value in command.args.items() if value is not None}


@pytest.mark.parametrize("fields", [CREW, ()], ids=["listed", "alone"])
@pytest.mark.parametrize(
    "text",
    [
        "Rotation Cold Spring: corn, 88788, corn, peking - pls run",
        "rotation for Cold Spring corn, 88788, corn, peking pls",
        "rotation Cold Spring - corn / 88788 / corn / peking - run it pls",
        "Please run a rotation for Cold Spring: corn, 88788, corn, peking",
        "run rotation Cold Spring: corn, 88788, corn, peking",
        "Can you run the rotation for Cold Spring: corn, PI 88788, corn, Peking please",
    ],
)
def test_please_is_no_plants_of_a_plan(text: str, fields: tuple[str, ...]) -> None:
    command = the_command(text, fields)

    assert command.kind == "rotation"
    assert asked(command) == {"field": "cold spring", "plans": [["corn", "PI 88788", "corn", "Peking"]]}


@pytest.mark.parametrize("fields", [CREW, ()], ids=["listed", "alone"])
@pytest.mark.parametrize(
    "text",
    [
        "Could you tell me how Cold Spring stands at the moment, please?",
        "Can you tell me how Cold Spring is doing right now?",
        "Please tell me where Cold Spring stands as of today",
        "I was wondering how Cold Spring stands right now.",
        "May I ask how Cold Spring is coming along?",
    ],
)
def test_how_a_field_stands(text: str, fields: tuple[str, ...]) -> None:
    command = the_command(text, fields)

    assert (command.kind, asked(command)) == ("state", {"field": "cold spring"})


@pytest.mark.parametrize(
    "text",
    [
        "The edges of the lower leaves at Number Nine are scorched, like the potassium picture in our handbook. Not dug.",
        "Number Nine lower leaves have yellow edges like the K picture in the guide. Not dug.",
        "Number Nine: yellow edges on old leaves, looks just like the chart of potash hunger in the book. Did not dig.",
        "Number Nine edges of the old leaves are burnt and match the picture on the poster. Not dug",
        "Edges of old leaves scorched at Number Nine, same picture you showed us in training. Not dug",
    ],
)
def test_a_picture_something_is_likened_to_is_not_asked_for(text: str) -> None:
    note = the_note(text)

    assert (note.field, note.outcome, note.tops) == ("number nine", "not_looked", ("edges_old",))


@pytest.mark.parametrize(
    "text", ["send me the picture for Kestrel", "I'd like the picture of Kestrel please", "chart kestrel"]
)
def test_a_picture_that_is_asked_for_is(text: str) -> None:
    assert the_command(text).kind == "picture"


@pytest.mark.parametrize(
    "said", ["just plain", "plain", "flat out", "plumb", "downright", "pure", "pretty", "just plain awful"]
)
def test_a_field_that_is_plain_yellow(said: str) -> None:
    note = the_note(f"Kestrel is {said} yellow. dug half a dozen, 4 4 1 0 9 2")

    assert (note.tops, note.mostly, note.females.total) == (("yellow",), (), 20)


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel: 2 pts. N end: 4 pl dug, W12 Y5. S end: 4 pl dug, W0 Y1.",
        "Kestrel: 2 points. N end: 4 pl dug, W12 Y5. S end: 4 pl dug, W0 Y1.",
        "Kestrel, 2 locs. N end 4 pl dug, W12 Y5. S end 4 pl dug, W0 Y1.",
    ],
)
def test_how_many_points_are_told_counts_nothing(text: str) -> None:
    note = the_note(text)

    assert (note.plants, note.females.white, note.females.yellow) == (8, 12, 6)
    assert [spot.name for spot in note.spots] == ["n end", "s end"]
