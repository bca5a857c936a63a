"""A visit left for another day, and a whole message that says "no" and tells a value: neither is a note."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from notes_bot.language.reader import read_note

FIELDS = ("Osier", "Quince Hollow", "Larch Siding")
SENT = date(2026, 7, 15)
FRIDAY = date(2026, 7, 17)


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("can't make Osier today, Friday instead", FRIDAY),
        ("not going to make Osier today, push to Friday", FRIDAY),
        ("won't make it to Osier today, will go Friday", FRIDAY),
        ("no time for Osier today, doing it Friday", FRIDAY),
        ("not gonna get to Osier today, how about Friday", FRIDAY),
        ("I won't be at Osier today, make it Friday", FRIDAY),
        ("can't do Osier today, tomorrow instead", date(2026, 7, 16)),
        ("no puedo ir a Osier hoy, el viernes mejor", FRIDAY),
        ("hoy no puedo ir a Osier, mejor el viernes", FRIDAY),
        ("no llego a Osier hoy, voy el viernes", FRIDAY),
        ("no alcanzo a ir a Osier hoy, lo dejo para mañana", date(2026, 7, 16)),
        ("não consigo ir no Osier hoje, sexta então", FRIDAY),
        ("hoje não dá pra ir no Osier, sexta", FRIDAY),
        ("não vou no Osier hoje, passa pra segunda", date(2026, 7, 20)),
    ],
)
def test_who_cannot_go_today_is_reminded_on_the_other_day(text: str, day: date) -> None:
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert not reading.problems and not reading.notes
    assert [(c.kind, c.args) for c in reading.commands] == [("move", {"field": "osier", "date": day})]


@pytest.mark.parametrize(
    "text",
    [
        "can't get to Osier today, too wet",
        "can't get to Osier today. Friday I dug 6 plants there, 12 white",
        "Osier: unable to dig, soil saturated. Will try again Friday.",
        "osier cant get in water over the lane, couldnt dig, try again monday",
        "Osier no la pude mirar hoy, llovió y no se puede entrar. Voy el viernes si oreó.",
        "Osier wasn't today, it was Friday",
        "no fui a Osier hoy, fui el viernes",
        "não fui no Osier hoje, fui sexta",
        "didn't get to Osier today, went to Quince Hollow instead",
    ],
)
def test_what_is_no_other_day_to_go(text: str) -> None:
    assert not any(command.kind == "move" for command in read_note(text, sent=SENT, fields=FIELDS).commands)


@pytest.mark.parametrize(
    ("text", "field", "right"),
    [
        ("nope, 22 brown", None, {"brown": 22}),
        ("no, las tostadas son 6", None, {"tan": 6}),
        ("Não, as beges são 6.", None, {"tan": 6}),
        ("no, 22 brown and 3 tan", None, {"brown": 22, "tan": 3}),
        ("nah tan is 6", None, {"tan": 6}),
        ("no, 8 plants", None, {"plants": 8}),
        ("nope, R4", None, {"stage": "R4"}),
        ("não, 8 pés", None, {"plants": 8}),
        ("no, 22 brown on osier", "osier", {"brown": 22}),
    ],
)
def test_no_and_a_value_puts_the_last_note_right(text: str, field: str | None, right: dict[str, Any]) -> None:
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert not reading.problems and not reading.notes
    assert {c.args["what"]: c.args["value"] for c in reading.commands} == right
    assert {c.args.get("field") for c in reading.commands} == {field}


@pytest.mark.parametrize(
    "text",
    [
        "no, too wet",
        "no brown, 22 white",
        "no, osier 6 plants 12 white",
        "No, nothing on 6 plants",
        "no, none",
        "no, we didn't look",
        "no rain. osier dry",
        "no. 12 white on 6 plants",
    ],
)
def test_no_that_puts_nothing_right(text: str) -> None:
    assert not any(command.kind == "correct" for command in read_note(text, sent=SENT, fields=FIELDS).commands)
