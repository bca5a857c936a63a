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


def test_plants_told_as_items_of_one_list_are_told_one_by_one():
    """ "6 pl: 2w, 0, 5w1y, 3w, 0, 1y": as many items as plants, glued or not."""
    note = read_note("kestrel 6 pl: 2w, 0, 5w1y, 3w, 0, 1y", sent=SENT, fields=FIELDS).notes[0]
    assert (note.per_plant, note.females.white, note.females.yellow) == ((2, 0, 6, 3, 0, 1), 10, 2)


@pytest.mark.parametrize(
    ("text", "plants", "white"),
    [
        ("kestrel half the plants had white females, 5 of 10", 10, None),
        ("kestrel 6 dug, 3 of the 6 had white", 6, None),
        ("kestrel 3 of 10 had some, 7 white", 10, 7),
    ],
)
def test_so_many_of_so_many_are_plants_and_never_females(text, plants, white):
    """The second number counts plants, the first those that had any."""
    note = read_note(text, sent=SENT, fields=FIELDS).notes[0]
    assert (note.plants, note.females.white, note.outcome) == (plants, white, "seen")


def test_white_on_every_one_multiplies_no_total():
    """ "On every one" is said of the color, not of the total behind it."""
    note = read_note("kestrel: 6 plants, white on every one, 40 total", sent=SENT, fields=FIELDS).notes[0]
    assert note.females.total == 40


@pytest.mark.parametrize("text", ["was i supposed to wash em", "what do the white ones mean", "how deep do i dig"])
def test_a_question_about_the_work_is_no_note(text):
    """Nothing was soaked and nothing seen: help is what is asked for."""
    read = read_note(text, sent=SENT, fields=FIELDS)
    assert ([command.kind for command in read.commands], read.notes) == (["help"], ())


def test_a_color_it_is_late_for_was_not_seen():
    """ "Seems late for white" tells of the season."""
    note = read_note("kestrel 6 pl 30 t. seems late for white. R5", sent=SENT, fields=FIELDS).notes[0]
    assert (note.females.tan, note.mostly) == (30, ())


def test_trial_plots_keep_their_numbers():
    """Plot numbers have three figures, and treatments are places too."""
    note = read_note("kestrel plot 204: 5 pl 2w, plot 205: 5 pl 0", sent=SENT, fields=FIELDS).notes[0]
    assert [(spot.name, spot.plants, spot.females.total) for spot in note.spots] == [
        ("plot 204", 5, 2),
        ("plot 205", 5, 0),
    ]


@pytest.mark.parametrize(
    ("text", "roots", "tops"),
    [
        ("kestrel roots: white, fine; 6 dug 44 w", ("white", "fine"), ()),
        (
            "kestrel: roots - dark, stubby. tops - stunted, yellow. 6 dug 44 w",
            ("dark", "stubby"),
            ("yellow", "stunted"),
        ),
    ],
)
def test_what_stands_behind_a_label_is_said_of_it(text, roots, tops):
    """White roots behind a colon are no white females, and yellow tops no yellow ones."""
    note = read_note(text, sent=SENT, fields=FIELDS).notes[0]
    assert (note.roots, note.tops, note.mostly, note.females.white) == (roots, tops, (), 44)


@pytest.mark.parametrize("text", ["kestrel twenty to white", "kestrel ten dug fifteen whites and one or two yellow"])
def test_a_count_that_may_be_two_numbers_is_asked_about(text):
    """Neither "twenty to" nor "one or two" is a number anybody can be sure of."""
    assert {problem.kind for problem in read_note(text, sent=SENT, fields=FIELDS).problems} & {
        "which_number",
        "which_of_range",
    }


def test_plants_of_so_many_places_are_counted_together():
    """ "4 spots x 3 plants" is twelve, and the answer says so."""
    read = read_note("kestrel 4 spots x 3 plants, total 17 white", sent=SENT, fields=FIELDS)
    assert (read.notes[0].plants, read.notes[0].females.white, len(read.remarks)) == (12, 17, 1)


def test_counts_before_their_plant_are_that_plants_own():
    """ "2 females on plant one, none on plant two and 5 on plant three"."""
    text = "There are 2 females on plant one, none on plant two and 5 on plant three at Kestrel, all white."
    note = read_note(text, sent=SENT, fields=FIELDS).notes[0]
    assert (note.per_plant, note.females.white) == ((2, 0, 5), 7)


@pytest.mark.parametrize(
    "text", ["kestrel 6 dug 12 white / yellow mix", "kestrel 6 dug 12 w/y", "kestrel 6 dug 12 white and yellow"]
)
def test_one_number_of_two_colors_is_their_total(text):
    """Nobody said how many of each."""
    note = read_note(text, sent=SENT, fields=FIELDS).notes[0]
    assert (note.females.total, note.females.white, note.mostly) == (12, None, ("white", "yellow"))


def test_some_plants_clean_and_one_with_females():
    """ "5 clean" counts plants, and the sixth had three white."""
    note = read_note("kestrel 6 dug, 5 clean, 1 had 3 white", sent=SENT, fields=FIELDS).notes[0]
    assert (note.plants, note.females.white, note.outcome) == (6, 3, "seen")


@pytest.mark.parametrize(
    "text", ["kestrel 4 shovel 4 pulled 10 white", "kestrel dug 0", "kestrel looked at 6 from the truck, yellow"]
)
def test_what_can_be_two_things_is_asked_about(text):
    """As many again or the same, none dug or none found, leaves or females."""
    assert read_note(text, sent=SENT, fields=FIELDS).problems


def test_the_rest_is_what_the_total_leaves():
    """ "31 females, 28 white, rest yellow" is three yellow."""
    note = read_note("kestrel 6 pl 31 females, 28 white, rest yellow", sent=SENT, fields=FIELDS).notes[0]
    assert (note.females.white, note.females.yellow, note.females.total) == (28, 3, 31)


def test_a_place_like_a_field_of_the_crew_is_a_place_behind_by():
    """ "By the creek" is no note on Dry Creek."""
    note = read_note("kestrel under the powerline 5 pl 2w. by the creek 5 pl 9w", sent=SENT, fields=FIELDS).notes
    assert [(n.field, n.plants, n.females.white) for n in note] == [("kestrel", 10, 11)]


def test_plants_of_every_field_told_above_them_and_a_number_behind_each():
    """ "8 dug per field. Kestrel 0, Dry Creek 14": no number is part of a name, and fourteen are females."""
    read = read_note("8 dug per field. Kestrel 0, Dry Creek 14, North Forty 22", sent=SENT, fields=FIELDS)
    assert [(n.field, n.plants, n.females.total) for n in read.notes] == [
        ("kestrel", 8, 0),
        ("dry creek", 8, 14),
        ("north forty", 8, 22),
    ]
    assert {remark.kind for remark in read.remarks} == {"near_word"}


def test_everyday_words_before_digging_are_no_field():
    """ "Everything dug with the spade" names nothing."""
    read = read_note("Everything dug w spade, 8 per field. Kestrel 0w. Dry Creek 14w.", sent=SENT, fields=FIELDS)
    assert [(n.field, n.plants, n.females.white) for n in read.notes] == [("kestrel", 8, 0), ("dry creek", 8, 14)]


def test_stop_alone_stops_reminders_and_a_numbered_stop_does_not():
    """ "stop 3: kestrel moist" is a note."""
    assert [c.kind for c in read_note("stop", sent=SENT, fields=FIELDS).commands] == ["mute"]
    assert [n.soil.moisture for n in read_note("stop 3: kestrel moist", sent=SENT, fields=FIELDS).notes] == ["moist"]


@pytest.mark.parametrize(
    ("text", "white"), [("kestrel 6 plants, 20+ nods each, 8 white", 8), ("kestrel 8 white each on 6 plants", 48)]
)
def test_what_is_each_of_nodules_multiplies_no_females(text, white):
    """ "Each" is said of what stands before it."""
    note = read_note(text, sent=SENT, fields=FIELDS).notes[0]
    assert (note.females.white, note.too_many) == (white, False)


def test_healthy_roots_are_no_healthy_tops():
    """ "Roots white and healthy" says nothing of the leaves."""
    note = read_note("kestrel roots white and healthy, 6 plants 0", sent=SENT, fields=FIELDS).notes[0]
    assert (note.roots, note.tops) == (("white",), ())


@pytest.mark.parametrize("text", ["kestrel 6 dug ??? white", "kestrel 6 dug x white", "kestrel 6 plants tan white"])
def test_a_count_left_open_is_asked_about(text):
    """A place left for a number, and "tan" where "ten" may have been said."""
    assert read_note(text, sent=SENT, fields=FIELDS).problems


def test_one_before_a_letter_counts():
    """ "14 y and one w" is one white."""
    note = read_note("kestrel 6 dug 14 y and one w", sent=SENT, fields=FIELDS).notes[0]
    assert (note.females.yellow, note.females.white) == (14, 1)


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("kestrel una o dos amarillas y 6 blancas en 5 plantas", "es"),
        ("kestrel uma ou duas amarelas e 6 brancas em 5 plantas", "pt"),
    ],
)
def test_either_of_two_numbers_is_asked_about_in_every_language(text, language):
    """Neither one nor two is taken."""
    read = read_note(text, sent=SENT, fields=FIELDS, language=language)
    assert [problem.kind for problem in read.problems] == ["which_of_range"]


def test_make_before_a_field_may_be_a_correction():
    """ "make kestrel 8 plants" is a note or changes one: it is asked about."""
    assert read_note("make kestrel 8 plants 15 white", sent=SENT, fields=FIELDS).problems


def test_acres_told_alone_are_the_fields():
    """ "dry creek is 80 acres" tells of the field."""
    read = read_note("dry creek is 80 acres", sent=SENT, fields=FIELDS)
    assert [dict(c.args) for c in read.commands] == [{"name": "dry creek", "acres": 80.0}]
