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


@pytest.mark.parametrize(
    "text",
    [
        "I dug five plants near the gate and five near the creek. Near the gate I counted nine white. Near the creek none.",
        "Dug five by the gate and five by the creek. Gate 9 white, creek none",
        "5 plants near the gate, 5 near the creek. Gate 9 white. Creek none.",
        "Dug 5 plants by the gate and 5 plants by the creek. By the gate there were 9 white, by the creek none",
        "I dug five plants near the gate and five near the creek. Gate: 9 white. Creek: none",
        "Dug 5 at the gate and 5 at the creek. At the creek I found none. At the gate 9 white",
    ],
)
def test_plants_told_place_by_place_before_what_they_had(text: str) -> None:
    note = the_note(f"Kestrel. {text}")

    assert (note.plants, note.females.white) == (10, 9)
    assert [(spot.name, spot.plants, spot.females.white) for spot in note.spots] == [("gate", 5, 9), ("creek", 5, 0)]


def test_plants_of_two_places_without_more_are_added_up() -> None:
    note = the_note("Kestrel: dug 5 plants on the hill and 5 in the low spot, none")

    assert (note.plants, note.outcome) == (10, "none_seen")


@pytest.mark.parametrize(
    "said",
    [
        "four that I would call yellow",
        "four that looked yellow",
        "4 that may be yellow",
        "four turning yellow",
        "4 going yellow",
        "four that were more yellow than white",
    ],
)
def test_counts_that_one_would_call_a_color(said: str) -> None:
    note = the_note(f"Kestrel 6 plants dug. Eleven white females and {said}.")

    assert (note.females.white, note.females.yellow, note.tops) == (11, 4, ())


def test_tops_that_turn_yellow_are_no_count() -> None:
    assert the_note("Kestrel V4 turning yellow, 6 plants dug, none").tops == ("yellow",)


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel six plants. On average I counted about three white females per plant.",
        "Kestrel on average I counted about three white females per plant on 6 plants",
        "Kestrel 6 plants, I counted three white per plant",
    ],
)
def test_counted_so_many_a_plant_is_no_sum(text: str) -> None:
    assert the_note(text).females.white == 18


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel. Pulled 6. None. Too wet to use the spade.",
        "Kestrel pulled 6, ground too hard for the shovel, none",
        "Kestrel, too hard for a spade so I pulled 6, none",
        "Kestrel pulled 6 none, wish I had the shovel",
    ],
)
def test_a_shovel_that_was_of_no_use_did_not_dig(text: str) -> None:
    assert the_note(text).method == "pulled"


@pytest.mark.parametrize(
    "text",
    [
        "I wanted to report on Kestrel. The lower leaves are turning yellow along their edges. I haven't had a chance to dig.",
        "My report for Kestrel. The edges of the old leaves are yellow. Not dug.",
    ],
)
def test_who_reports_wants_no_report(text: str) -> None:
    note = the_note(text)

    assert (note.field, note.outcome, note.tops) == ("kestrel", "not_looked", ("edges_old",))


@pytest.mark.parametrize(
    "text", ["report kestrel", "I need the season report for Kestrel", "season report on kestrel please"]
)
def test_a_report_that_is_wanted_is(text: str) -> None:
    assert the_command(text).kind == "report"


@pytest.mark.parametrize(
    "heading", ["Summary of July 16 rounds", "Summary for July 16:", "Scouting report 7/16", "Report - July 16"]
)
def test_a_heading_above_notes_asks_for_nothing(heading: str) -> None:
    reading = read(f"{heading}\nKestrel 6 plants, 9 white\nCold Spring 5 plants, none")

    assert not reading.commands
    assert [(n.field, n.date, n.plants) for n in reading.notes] == [
        ("kestrel", date(2026, 7, 16), 6),
        ("cold spring", date(2026, 7, 16), 5),
    ]


@pytest.mark.parametrize(
    "text",
    [
        "I counted six white ones on the first plant and one on the second plant. The others had none",
        "I counted six white ones on the first and one on the second.",
    ],
)
def test_counted_on_the_first_and_the_second(text: str) -> None:
    assert the_note(f"Kestrel 5 plants. {text}").per_plant == (6, 1, 0, 0, 0)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("es", "Kestrel: saqué 5 plantas en la loma y 5 en el bajo. En la loma ninguna. En el bajo 14 blancas."),
        ("pt", "Kestrel: arranquei 5 plantas no morro e 5 na baixada. No morro nenhuma. Na baixada 14 brancas."),
    ],
)
def test_places_of_the_south(language: str, text: str) -> None:
    note = read_note(text, sent=SENT, fields=CREW, language=language).notes[0]  # type: ignore[arg-type]

    assert (note.plants, note.females.white) == (10, 14)
    assert [(spot.plants, spot.females.white) for spot in note.spots] == [(5, 0), (5, 14)]
