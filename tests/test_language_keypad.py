"""Notes as short as a keypad allows: words without their vowels, letters for soils, names of the crew cut to bones."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note

SENT = date(2026, 7, 20)
CREW = ("Brindle", "Lime Kiln", "Heron Pasture", "Mossback", "Bishop Quarter", "Cart Road", "Eel Ditch", "Plum Thicket")


def _note(text: str):
    reading = read_note(text, sent=SENT, fields=CREW, language="en")
    assert reading.problems == (), reading.problems
    (note,) = reading.notes
    return note


@pytest.mark.parametrize(
    "text",
    [
        "brndl/no lk/2 mddy",
        "brndl no lk",
        "brndl: nt lkd, rain",
        "brndl ddnt lk gate lckd",
        "brndl ddnt stp",
        "brndl cldnt dg 2 wet",
        "brndl ddnt dg",
        "brndl 2 wt 2 dg",
        "brndl 2 dry 2 dg",
        "brndl drv by",
    ],
)
def test_not_looked_without_vowels(text):
    """The word before or behind tells which word of its consonants is meant; a denial is no part of the name."""
    note = _note(text)

    assert (note.field, note.outcome, note.plants, note.females.total) == ("brndl", "not_looked", None, None)


@pytest.mark.parametrize(
    ("text", "plants", "method"),
    [
        ("mssbk pll 6 none sn v4", 6, "pulled"),
        ("mssbk 6p plld, rts snppd, nn fnd", 6, "pulled"),
        ("mssbk dgd 6 0", 6, "shovel"),
        ("mssbk nthng fnd 6p spd", 6, "shovel"),
    ],
)
def test_none_seen_without_vowels(text, plants, method):
    """What fits best is taken: "pll" is pull with both its letters, no pail."""
    note = _note(text)

    assert (note.field, note.plants, note.method, note.outcome) == ("mssbk", plants, method, "none_seen")


@pytest.mark.parametrize(
    "text", ["lm kiln 4p 3w", "lm kln 4p 3w", "4p 3w @lm kiln", "lm kiln: 4p spd 3w", "lm kln/4p/3w"]
)
def test_a_name_without_vowels_is_the_crews(text):
    """Though "lm" is a soil too; it is called as written."""
    note = _note(text)

    assert note.field in ("lm kiln", "lm kln")
    assert (note.plants, note.females.total, note.soil.texture) == (4, 3, None)


@pytest.mark.parametrize(
    "text",
    [
        "brndl/4p/3w/R2/CL mst",
        "brndl 4p 3w CL dry R2",
        "brndl, CL, 4p 3w",
        "brndl 4p 3w, soil: CL",
        "brndl wet cl, 4p 3w",
    ],
)
def test_letters_of_a_soil(text):
    """In capitals a clause of its own, or beside what is said of the soil."""
    assert _note(text).soil.texture == "clay_loam"


@pytest.mark.parametrize("text", ["brndl 4p 3w, cl me", "brndl 4p 3w. cl", "BRNDL 4 P 3 W, CL"])
def test_letters_that_may_be_anything_are_no_soil(text):
    """Small, or all in capitals, and nothing of the soil beside them."""
    reading = read_note(text, sent=SENT, fields=CREW, language="en")

    assert [note.soil.texture for note in reading.notes] == [None]


@pytest.mark.parametrize(
    ("text", "kind"), [("whts due", "due"), ("tk bk brndl", "take_back"), ("scrtch tht", "take_back")]
)
def test_requests_without_vowels(text, kind):
    """Asked in bones."""
    reading = read_note(text, sent=SENT, fields=CREW, language="en")

    assert ([command.kind for command in reading.commands], reading.problems) == ([kind], ())
