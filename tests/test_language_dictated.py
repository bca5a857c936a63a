"""What a phone wrote down from somebody speaking: signs, stages and numbers as they sound."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.reader import read_note

SENT = date(2026, 7, 10)
FIELDS = ("Kestrel", "Dry Creek", "Larkspur South 80", "North Forty")


def test_words_for_signs_end_clauses():
    """ "comma" and "new line" are the signs, and "a dry period" stays what it is."""
    read = read_note(
        "kestrel comma V4 comma six plants dug comma two white new line ground dry", sent=SENT, fields=FIELDS
    )
    note = read.notes[0]
    assert (note.stage, note.plants, note.females.white, note.soil.moisture) == ("V4", 6, 2, "dry")
    assert not read.problems
    story = read_note("kestrel 6 plants 2 white after a dry period", sent=SENT, fields=FIELDS)
    assert "period" in story.notes[0].text


@pytest.mark.parametrize(
    ("text", "stage"),
    [
        ("kestrel at are one, 4 plants 0", "R1"),
        ("kestrel stage V for, 4 plants 0", "V4"),
        ("kestrel R2 4 plants 0", "R2"),
    ],
)
def test_a_stage_is_read_as_it_sounds_and_said_so(text, stage):
    """ "are one" behind "at" is R1, with a remark; a stage in figures needs none."""
    read = read_note(text, sent=SENT, fields=FIELDS)
    assert read.notes[0].stage == stage
    assert bool(read.remarks) == (stage != "R2")


def test_there_are_five_plants_is_no_stage():
    """ "are five" in front of plants counts them."""
    note = read_note("kestrel there are 5 plants with 4 white", sent=SENT, fields=FIELDS).notes[0]
    assert (note.stage, note.plants, note.females.white) == (None, 5, 4)


@pytest.mark.parametrize("name", ["dry ck", "larkspur s80", "larkspur s 80", "n 40"])
def test_a_name_with_its_everyday_words_in_short_is_that_field(name):
    """Creek is ck, south is s: the crew's own name, with counts of its own behind it."""
    read = read_note(f"{name} 6p dug 0", sent=SENT, fields=FIELDS)
    assert [(note.field, note.plants, note.females.total) for note in read.notes] == [(name, 6, 0)]
    assert not read.problems


def test_a_color_behind_a_number_begins_no_place():
    """ "1 yellow ground moist" is one yellow and moist ground, no "yellow ground"."""
    note = read_note("kestrel 4 plants dug 7 white 1 yellow ground moist", sent=SENT, fields=FIELDS).notes[0]
    assert (note.females.white, note.females.yellow, note.soil.moisture) == (7, 1, "moist")


def test_fields_not_dug_together_keep_one_note_each():
    """One of them told of again afterwards loses none of the others."""
    text = (
        "Walked Kestrel, Dry Creek and North Forty and did not dig in any of them. All at R1. North Forty has a ring."
    )
    read = read_note(text, sent=SENT, fields=FIELDS)
    told = {note.field: (note.outcome, note.stage, note.tops) for note in read.notes}
    assert told == {
        "kestrel": ("not_looked", "R1", ()),
        "dry creek": ("not_looked", "R1", ()),
        "north forty": ("not_looked", "R1", ("ring",)),
    }


def test_what_a_mail_is_corrected_for_stands_behind_its_colon():
    """The day of the mail is no day of the visit."""
    text = "One small correction to my mail of last night: at Dry Creek it was four yellow females, not three."
    read = read_note(text, sent=SENT, fields=FIELDS)
    assert [dict(command.args) for command in read.commands] == [
        {"field": "dry creek", "what": "yellow", "value": 4, "old": 3}
    ]
