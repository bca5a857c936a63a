"""Notes of people who write no word too much: slashes for commas, headings above fields, names cut to a number."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note

SENT = date(2026, 7, 20)
CREW = (
    "Kessler Home",
    "Kessler 80",
    "Depot",
    "Grange N",
    "Tower 120",
    "School 14",
    "Airstrip",
    "Gravel Pit",
    "Tract 2207",
)


def _read(text: str, language: str = "en"):
    return read_note(text, sent=SENT, fields=CREW, language=language, day_first=language != "en")  # type: ignore[arg-type]


def _note(text: str, language: str = "en"):
    reading = _read(text, language)
    assert reading.problems == (), reading.problems
    (note,) = reading.notes
    return note


@pytest.mark.parametrize(
    ("text", "stage", "plants", "total"),
    [
        ("Depot R2/5 pl/6w 9y 2t/rinsed", "R2", 5, 17),
        ("Depot V3/6 dug/soaked/0/tops fine", "V3", 6, 0),
        ("5 pl/V2-3/shov+bkt/none. Depot.", "V2.5", 5, 0),
        ("Depot R3/4 6 pl 8w w/ shovel", "R3.5", 6, 8),
        ("Depot R2 6 pl 2w/plant", "R2", 6, 12),
    ],
)
def test_slashes_part_what_stands_between_them(text, stage, plants, total):
    """A stage and the plants behind its slash are two; a range of stages and "a plant" stay what they are."""
    note = _note(text)

    assert (note.stage, note.plants, note.females.total) == (stage, plants, total)


def test_fields_parted_by_slashes_are_told_one_by_one():
    """What stands above them is said of each."""
    reading = _read("All R1, 4 pl ea, dug+soak. Kess Home 2w/Kess 80 0/Tower 0/Airstrip 10w 6y.")

    found = [(note.field, note.plants, note.stage, note.females.total) for note in reading.notes]
    assert found == [
        ("kess home", 4, "R1", 2),
        ("kess 80", 4, "R1", 0),
        ("tower", 4, "R1", 0),
        ("airstrip", 4, "R1", 16),
    ]


@pytest.mark.parametrize(
    "heading",
    ["Mon rds, 5 pl ea, dug/bkt:", "7/20, dug, 5 pl/fld, bkt:", "Mon, 5 pl, dug, soaked:", "Mon dug 5 pl bkt"],
)
def test_a_heading_is_said_of_the_fields_below(heading):
    """Its day, plants and way of digging are of every line that tells no own; it names no field itself."""
    reading = _read(f"{heading}\nKess Home 0\nPit 8w 1y\nDepot rained out, no dig")

    assert reading.problems == ()
    told = [(note.field, note.plants, note.method, note.soaked, note.outcome) for note in reading.notes]
    assert told == [
        ("kess home", 5, "shovel", True, "none_seen"),
        ("pit", 5, "shovel", True, "seen"),
        ("depot", None, None, None, "not_looked"),
    ]
    assert {note.date for note in reading.notes} == {SENT}


def test_a_word_for_the_round_is_no_field():
    """ "Fri wrap": the fields follow; a short name behind a stop starts its own note."""
    reading = _read("Fri wrap, 5 pl ea dug. Tower 0. Depot 1w 6y. Pit 4y 4t.")

    told = [(note.field, note.plants, note.females.total) for note in reading.notes]
    assert told == [("tower", 5, 0), ("depot", 5, 7), ("pit", 5, 8)]


@pytest.mark.parametrize("text", ["2207 V4, 4 pl pulled, 0 seen", "V4, 4 pl pulled, none - 2207"])
def test_a_long_number_alone_names_the_one_field_that_has_it(text):
    """2207 for Tract 2207, and no count."""
    note = _note(text)

    assert (note.field, note.plants, note.females.total) == ("2207", 4, 0)


def test_a_day_behind_a_word_for_trying_is_the_next_look():
    """The tool it is to be done with is no way of this visit."""
    assert _note("Depot. Bone dry, couldnt get shovel in. Try Mon.").look_again.date == date(2026, 7, 27)
    for text in ("Depot 3 pl pulled 0, again w/ spade Mon", "Depot 3 pl pulled 0. back Mon with shovel and bucket"):
        note = _note(text)
        assert (note.method, note.soaked, note.date) == ("pulled", None, None), text
        assert note.look_again.date == date(2026, 7, 27), text
    assert _note("Depot 3 pl pulled 0. shovel next time").method == "pulled"


@pytest.mark.parametrize(
    "text", ["2 wk on all.", "Back in 2 wk all.", "recheck all in 2 wks", "both again in 14 d", "all 14 d"]
)
def test_when_to_look_again_is_said_of_all(text):
    """Behind the last of several fields."""
    reading = _read(f"Kess Home 4 pl 2w. Tower 4 pl 0. {text}")

    assert [note.look_again.days for note in reading.notes] == [14, 14]


@pytest.mark.parametrize("text", ["yel shd be 6, had 9", "y should be 6, i had 9", "yellow should be 6, was 9"])
def test_what_was_there_before_is_no_new_value(text):
    """A number behind "had" is the old one."""
    (command,) = _read(f"airstrip {text}").commands

    assert command.args == {"field": "airstrip", "what": "yellow", "value": 6, "old": 9}


@pytest.mark.parametrize("text", ["last one = Kess 80", "that last note was Kess 80", "last msg is Kess 80"])
def test_the_last_notes_field_is_put_right(text):
    """With a word for the last note and a name of the crew."""
    (command,) = _read(text).commands

    assert (command.kind, command.args) == ("correct", {"what": "field", "value": "kess 80"})


def test_same_counts_are_only_the_counts():
    """Stage and way of digging are not said again."""
    _, note = _read("Tower 6 pl dug R4 7w 7y. Depot 6 pl, same cts").notes

    assert (note.plants, note.females.white, note.females.yellow, note.stage, note.method) == (6, 7, 7, None, None)


def test_hours_of_entry_without_their_unit_are_hours():
    """ "REI 12" before the day somebody looked."""
    note = _note("Grange N fung yest, REI 12. Looked Fri: 5 pl 0 R5")

    assert (note.spray.entry_hours, note.date, note.plants) == (12, date(2026, 7, 17), 5)


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("tower chart + due list", [("picture", "tower"), ("due", None)]),
        ("tower chart & hist", [("picture", "tower"), ("history", "tower")]),
        ("tower hist, depot chart", [("history", "tower"), ("picture", "depot")]),
        ("tower + depot history", [("history", "tower"), ("history", "depot")]),
        ("skip tower, depot and airstrip", [("move", "tower"), ("move", "depot"), ("move", "airstrip")]),
        ("Depot 12 total/6 pl. Also Pit chart + due list", [("picture", "pit"), ("due", None)]),
        ("Pit - where are we?", [("state", "pit")]),
    ],
)
def test_several_things_asked_in_few_words(text, asked):
    """None of them is lost."""
    assert [(c.kind, c.args.get("field")) for c in _read(text).commands] == asked


@pytest.mark.parametrize(
    ("text", "plants", "total", "per_plant"),
    [
        ("Depot: 4x 3w, 1x 0. dug", 5, 12, (3, 3, 3, 3, 0)),
        ("Depot R2 clean x5", 5, 0, None),
        ("Depot R2 5x0", 5, 0, None),
        ("Depot R2 0/5, moist", 5, 0, None),
        ("Depot 3w 2y x 4 pl", 4, 20, None),
        ("Depot 6 pl, w only: 3 2 0 0 1 4", 6, 10, (3, 2, 0, 0, 1, 4)),
        ("Depot by plt 4, 9, 0, 2, 6 = 21, colors not split", 5, 21, (4, 9, 0, 2, 6)),
        ("Depot none, 5 each, dug", 5, 0, None),
        ("Depot patch 20x30 ft, 5 pl 3w", 5, 3, None),
    ],
)
def test_plants_told_by_times_and_shares(text, plants, total, per_plant):
    """So many times so many, none of so many, one number a plant; a size stays a size."""
    note = _note(text)

    assert (note.plants, note.females.total, note.per_plant) == (plants, total, per_plant)


def test_two_shades_without_a_number_are_both_kept():
    """ "w" between "lots" and "some" is white, not "with"."""
    assert _note("Depot 5 pl lots w some y").mostly == ("white", "yellow")


def test_acidity_is_kept_before_the_leaves():
    """ "pH 6.2 lvs": the number is of the label before it."""
    note = _note("Depot K 85 pH 6.2 lvs edge yel, 4 dug 0")

    assert (note.soil.ph, note.soil.k_ppm, note.tops) == (6.2, 85, ("edges_old",))


def test_a_doubt_in_a_note_asks_for_nothing():
    """ "Pkg var?" is no question how the field stands."""
    reading = _read("Depot Pkg var? 5 pl 22w")

    assert (reading.commands, [note.field for note in reading.notes]) == ((), ["depot"])


@pytest.mark.parametrize(
    ("text", "args"),
    [
        ("Depot: make w 12", {"field": "depot", "what": "white", "value": 12}),
        ("chg Depot plts 6 > 5", {"field": "depot", "what": "plants", "value": 5, "old": 6}),
        ("Depot was 7/17", {"field": "depot", "what": "date", "value": date(2026, 7, 17)}),
    ],
)
def test_corrections_in_few_words(text, args):
    """A verb of changing and a number, or the day it was."""
    (command,) = _read(text).commands

    assert (command.kind, command.args) == ("correct", args)


def test_no_spade_is_no_way_of_pulling():
    """Where nothing else is told of plants."""
    assert _note("Depot crusted, no spade.").method is None
    assert _note("Depot no spade, 5 pl 0").method == "pulled"


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("Todo en R1, 4 pl c/u. Depot 2b/Tower 0/Pit 10b 6a.", "es"),
        ("Tudo em R1, 4 pl por talhão. Depot 2b/Tower 0/Pit 10b 6a.", "pt"),
        ("All R1, 4 pl/fld. Depot 2w/Tower 0/Pit 10w 6y.", "en"),
    ],
)
def test_so_many_in_each_field_in_three_languages(text, language):
    """Above the fields, in short."""
    reading = _read(text, language)

    told = [(note.field, note.plants, note.stage, note.females.total) for note in reading.notes]
    assert told == [("depot", 4, "R1", 2), ("tower", 4, "R1", 0), ("pit", 4, "R1", 16)]


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("They're going to spray Depot Friday. Not dug.", "en"),
        ("Van a pulverizar Depot el viernes. No entré.", "es"),
        ("Vão pulverizar o Depot na sexta. Não entrei.", "pt"),
    ],
)
def test_the_day_of_a_spray_to_come_is_no_visit(text, language):
    """Nor a day it was sprayed."""
    note = _note(text, language)

    assert (note.date, note.spray, note.outcome) == (None, None, "not_looked")


def test_a_part_of_the_plants_is_no_day():
    """ "3/5 pl pos"; "7/8 pl 5" stays a day."""
    assert (_note("Pit 3/5 pl pos 11w").date, _note("Pit 3/5 pl pos 11w").plants) == (None, 5)
    assert _note("Pit 7/8 pl 5 3w").date == date(2026, 7, 8)


@pytest.mark.parametrize(
    ("text", "shades"),
    [
        ("kestrel 6 pl 12 w+y", ("white", "yellow")),
        ("kestrel 6 pl 12 w+y+t", ("tan", "white", "yellow")),
        ("kestrel 6 pl: 12 w/y/t, R3", ("tan", "white", "yellow")),
        ("kestrel 6 pl 12 white and yellow and tan", ("tan", "white", "yellow")),
        ("kestrel 6 pl 12 cysts w+y", ("white", "yellow")),
        ("kestrel 6 pl 12 cysts w+y+t", ("tan", "white", "yellow")),
    ],
)
def test_one_number_of_several_colors_is_a_total(text, shades):
    (note,) = read_note(text, sent=date(2026, 7, 8), fields=("Kestrel",)).notes

    assert (note.females.total, note.females.white) == (12, None)
    assert tuple(sorted(note.mostly)) == shades


@pytest.mark.parametrize("text", ["Depot nn seen, 8 plnts, shvl, wshd", "Depot 8 plnts nn", "Depot nn fnd, 8 plnts"])
def test_none_without_vowels(text):
    note = _note(text)
    assert (note.field, note.plants, note.outcome, note.females.total) == ("depot", 8, "none_seen", 0)
