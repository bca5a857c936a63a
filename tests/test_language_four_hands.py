"""Counts given again in the same breath, plants nobody dug, and other ways of four hands to tell of one field."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Note, Reading

SENT = date(2026, 7, 8)
CREW = ("Kestrel", "Tinkers", "Old Mill East", "Dry Creek")


def read(text: str) -> Reading:
    """One message of the crew's."""
    return read_note(text, sent=SENT, fields=CREW)


def noted(text: str) -> Note:
    """The one note of a message that asks nothing back."""
    reading = read(text)
    assert not reading.problems
    (note,) = reading.notes
    return note


@pytest.mark.parametrize(
    ("text", "white", "yellow"),
    [
        ("kestrel fri 8 dug 5w 2y. no srry 6w 2y. chk again in 10d", 6, 2),
        ("kestrel 4plnts shovl 3 w 3 y - wait no, 3w 4y. nods brown", 3, 4),
        ("kestrel - w 3 - no w 5 - y 1 - 7plnts - pulled", 5, 1),
        ("kestrel 6 dug 5w 2y (no, 6w 2y)", 6, 2),
        ("kestrel 6 dug, 5 white 2 yellow. scratch that, 6 white and 3 yellow", 6, 3),
        ("kestrel 6 dug 2w 3y... nope 2w 4y", 2, 4),
        ("kestrel 6 dug none. no wait 1 white", 1, 0),
        ("kestrel 6 dug, 1 white. no wait, none", 0, 0),
        ("kestrel 6 plantas con pala 5 blancas 2 amarillas. perdón, 6 blancas y 3 amarillas", 6, 3),
        ("kestrel 5 pl na pá 5 brancas 2 amarelas, não desculpa 6 brancas 2 amarelas", 6, 2),
    ],
)
def test_counts_given_again_stand_in_place_of_those_before(text, white, yellow):
    """The colors counted last, and the answer says that they were put right."""
    note = noted(text)

    assert (note.females.white, note.females.yellow) == (white, yellow)
    assert any(remark.kind == "near_word" for remark in read(text).remarks)


@pytest.mark.parametrize(
    ("text", "per_plant"),
    [
        ("kestrel 5 plts shovel: 2, 4, 5, 0, 1 .. no wait last one 3. moist clay", (2, 4, 5, 0, 3)),
        ("kestrel 6 pl: 2 0 4 1 3 5. oops last one is 6", (2, 0, 4, 1, 3, 6)),
        ("kestrel 6 pl: 2 0 4 1 3 5 - first one 3 not 2", (3, 0, 4, 1, 3, 5)),
        ("kestrel 6 pl: 2 0 4 1 3 5. no wait third one 7", (2, 0, 7, 1, 3, 5)),
        ("kestrel 5 pl: 2 0 4 1 3, no wait 2 0 4 1 5", (2, 0, 4, 1, 5)),
        ("kestrel 5 plantas: 2, 0, 4, 1, 3. perdón, el último era 5", (2, 0, 4, 1, 5)),
        ("kestrel 5 plantas: 2, 0, 4, 1, 3. perdón, la primera era 5", (5, 0, 4, 1, 3)),
        ("kestrel 5 plantas: 2, 0, 4, 1, 3 .. não, a última 5", (2, 0, 4, 1, 5)),
    ],
)
def test_one_number_of_a_list_is_put_right_by_its_place(text, per_plant):
    """The last one, the first one, the third: that one alone."""
    assert noted(text).per_plant == per_plant


@pytest.mark.parametrize(
    "text",
    [
        "kestrel 6 dug 2w 3y. north end 6 dug 2w 4y",
        "kestrel 6 pl: 2 0 4 1 3 5 - first one 3 not 7",
        "kestrel 6 pl: 2 0 4 1 3 5. the last one had 3",
    ],
)
def test_counts_that_put_nothing_right_are_asked_about(text):
    """Another place, a number that was not there, no word for putting right."""
    assert read(text).problems


@pytest.mark.parametrize(
    "text",
    [
        "kestrel sprayed today 24h rei, dug none",
        "kestrel dug none",
        "kestrel dug none, too wet",
        "kestrel dug none today",
        "dug none at kestrel",
        "kestrel pulled none, rei 24 h",
        "kestrel V4 moist dug none",
        "kestrel dug no plants",
        "kestrel 0 dug rei 24",
        "kestrel saqué ninguna, aplicaron ayer reingreso 24 h",
        "kestrel tirei nenhuma, aplicaram hoje reentrada 24 h",
    ],
)
def test_none_dug_is_no_look(text):
    """No plant was dug, and so nothing is known of females."""
    note = noted(text)

    assert (note.outcome, note.females.total) == ("not_looked", None)


@pytest.mark.parametrize(
    "text",
    ["kestrel 6 dug none", "kestrel 6 plants dug none", "kestrel dug 6, none", "kestrel V4 moist, 5 pulled none"],
)
def test_plants_dug_with_none_on_them_are_a_look(text):
    """So many were dug, and none was seen."""
    assert noted(text).outcome == "none_seen"
