"""What people leave out, put right or tell in another order while they write: read as they meant it."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Females, Reading

SENT = date(2026, 7, 20)
CREW = ("Kestrel", "Tinkers", "Cedar Slough", "Tower 120", "Pumphouse", "Dutch's Corner", "Old Railroad", "Long Bottom")


def read(text: str, language: str = "en", fields: tuple[str, ...] = CREW) -> Reading:
    """One message of the crew's."""
    return read_note(text, sent=SENT, fields=fields, language=language)  # type: ignore[arg-type]


def quiet(text: str, language: str = "en") -> Reading:
    """A message that raises no question."""
    reading = read(text, language)
    assert not reading.problems, [problem.kind for problem in reading.problems]
    return reading


@pytest.mark.parametrize(
    ("language", "text", "places"),
    [
        (
            "en",
            "kestrel: on the west side four plants had 15 white and on the east side four had 7 white",
            [("west side", 4, 15), ("east side", 4, 7)],
        ),
        (
            "en",
            "kestrel yielded 3 white on four plants near the lane and 11 white on four by the ditch",
            [("lane", 4, 3), ("ditch", 4, 11)],
        ),
        ("en", "kestrel 6 plts: gate 3 = 0/1/0, ditch 3 = 8/5/11", [("gate", 3, 1), ("ditch", 3, 24)]),
        ("en", "kestrel dug 4 at the gate none, 4 more on the hill 6 white", [("gate", 4, 0), ("hill", 4, 6)]),
        (
            "en",
            "kestrel dug 5 by the drive, washed, 4 white. Then 5 more over by the fence line, washed them too, 21 white",
            [("drive", 5, 4), ("fence line", 5, 21)],
        ),
        (
            "en",
            "kestrel in two places, dug 3 plants in each. Maple side 2 white. Open side 15 white",
            [("maple side", 3, 2), ("open side", 3, 15)],
        ),
        (
            "es",
            "kestrel saqué 5 en la loma, 4 blancas. Después 5 más en el bajo, 9 blancas",
            [("loma", 5, 4), ("bajo", 5, 9)],
        ),
        ("pt", "kestrel arranquei 5 na beirada, 4 brancas. Mais 5 no meio, nada", [("beirada", 5, 4), ("meio", 5, 0)]),
    ],
)
def test_plants_counted_once_are_counted_at_the_next_place_too(language, text, places):
    """The word for plants is said once; the second number counts them as well."""
    reading = read(text, language)
    (note,) = reading.notes

    assert [(spot.name, spot.plants, spot.females.total) for spot in note.spots] == places


@pytest.mark.parametrize(
    ("text", "plants", "females"),
    [
        ("kestrel dug six no seven plants, four white", 7, Females(4, 0, 0, 0, 4)),
        ("kestrel six plants fifteen white and five no make that six yellow", 6, Females(15, 6, 0, 0, 21)),
        ("kestrel uh five plants um three white", 5, Females(3, 0, 0, 0, 3)),
    ],
)
def test_a_number_put_right_while_speaking_stands_and_is_told(text, plants, females):
    """The second number is meant; the answer says how it was read."""
    reading = quiet(text)
    (note,) = reading.notes

    assert (note.plants, note.females) == (plants, females)
    assert ("no" in text.split()) == any(remark.kind == "near_word" for remark in reading.remarks)


def test_a_denied_number_is_no_number_put_right():
    """ "White 14 no 12", in figures, corrects a note; it is not 12."""
    (command,) = read("blancas 14 no 12", "es").commands

    assert (command.kind, command.args["value"], command.args["old"]) == ("correct", 14, 12)


@pytest.mark.parametrize(
    ("text", "females", "mostly"),
    [
        ("kestrel 5 plants 41 (w+y)", Females(total=41), ("white", "yellow")),
        ("kestrel 6 plants, all told 27 on the roots, mostly tan", Females(total=27), ("tan",)),
        ("kestrel pulled 4, 2 white dots total", Females(2, 0, 0, 0, 2), ()),
        ("kestrel 6 dug: 1 0 4 2 2 0, all white apart from two yellow", Females(7, 2, 0, 0, 9), ()),
        ("kestrel dug ten. two of them had females, one white each", Females(2, 0, 0, 0, 2), ()),
        ("kestrel we pulled six and found females on four of them, eleven in all", Females(total=11), ()),
    ],
)
def test_females_are_counted_where_the_word_is_left_out(text, females, mostly):
    """The colors in brackets, "on the roots", all but a few, so many on each of some."""
    (note,) = quiet(text).notes

    assert (note.females, note.mostly) == (females, mostly)


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("tower one twenty dug six plants none", "tower one twenty"),
        ("pump house dug six plants none", "pump house"),
        ("dutches corner v four five plants none", "dutches corner"),
        ("lb too wet 2 dig", "lb"),
        ("was too wet at kestrel, then went over to railroad and dug six plants none", "railroad"),
    ],
)
def test_a_field_is_known_as_it_is_spoken_or_cut_short(text, field):
    """Numbers spoken, words apart, the sound of a name, two initials, a later word of it where a note follows."""
    assert quiet(text).notes[-1].field == field


def test_a_letter_and_a_figure_that_are_a_word_are_no_count():
    """ "b4 lunch" is before lunch; "w3 y2 b4" are counts."""
    assert quiet("last one b4 lunch kestrel dug 5 plants, 33 total").notes[0].females == Females(total=33)
    assert quiet("kestrel 5 plants w3 y2 b4").notes[0].females == Females(3, 2, 0, 4, 9)


def test_what_is_asked_behind_a_note_is_asked():
    """A request of another field in the next sentence, or behind a comma, is no note of it."""
    for text, kind in [
        ("kestrel 5 plants 0. skip tinkers this week", "move"),
        ("kestrel 5 plants 0, skip tinkers this time", "move"),
        ("kestrel 5 plants 0. push tinkers to friday", "move"),
        ("kestrel 5 plants 0. mute tinkers please, it is cut for silage", "mute"),
        ("kestrel 5 plants 0. show me tinkers history", "history"),
    ]:
        reading = quiet(text)
        assert [note.field for note in reading.notes] == ["kestrel"]
        (command,) = reading.commands
        assert (command.kind, command.args["field"]) == (kind, "tinkers")


def test_a_correction_of_another_field_leaves_the_note_beside_it():
    """ "Kestrel 5 plants none. For tinkers i meant 14 white not 4": a note, and a correction."""
    reading = quiet("kestrel 5 plants 0. for tinkers yesterday i meant 14 white not 4")

    assert reading.notes[0].field == "kestrel"
    assert reading.notes[0].outcome == "none_seen"
    (command,) = reading.commands
    assert (command.args["field"], command.args["what"], command.args["value"]) == ("tinkers", "white", 14)


@pytest.mark.parametrize(
    ("text", "old", "new"),
    [
        ("what i sent as kestrel was cedar slough", "kestrel", "cedar slough"),
        ("the kestrel note from this morning is really cedar slough, please change it", "kestrel", "cedar slough"),
        ("i put it under kestrel but it was tinkers", "kestrel", "tinkers"),
    ],
)
def test_a_note_sent_under_another_name_is_put_right(text, old, new):
    """One field named for another."""
    (command,) = quiet(text).commands

    assert (command.args["what"], command.args["old"], command.args["value"]) == ("field", old, new)


def test_a_spoken_hundred_and_tenths_are_whole():
    """Neither the hundred nor the inch is lost."""
    (field,) = quiet("kestrel got planted the eighth of may it's a hundred and fifty two acres").commands
    (rain,) = quiet("we got an inch and four tenths out of that storm last night").commands

    assert field.args["acres"] == 152.0
    assert rain.args["rain_mm"] == pytest.approx(35.6)


def test_a_planting_day_is_not_the_day_of_the_visit():
    """ "pl 5/14" behind the name tells when it was planted."""
    (note,) = read("Kestrel VC, pl 5/14, no dig").notes

    assert (note.planted, note.date) == (date(2026, 5, 14), None)


def test_same_thing_there_repeats_the_finding():
    """ "Six plants same thing there" repeats what was found, where as many plants were dug."""
    reading = quiet("kestrel pulled six plants two white. tinkers pulled six plants same thing there")

    assert reading.notes[1].females == Females(2, 0, 0, 0, 2)


@pytest.mark.parametrize(
    ("language", "text", "colour", "count"),
    [
        ("en", "kestrel 4 plants, one white one", "white", 1),
        ("en", "kestrel 6 plants dug, only saw one and it was tan", "tan", 1),
        ("en", "kestrel 6 plants, shovel. saw two and they were yellow", "yellow", 2),
        ("en", "kestrel saw one on the last plant and it was brown, 6 plants", "brown", 1),
        ("es", "kestrel 6 plantas con pala, vi una sola y era amarilla", "yellow", 1),
        ("pt", "kestrel 6 plantas com pá, achei uma e era branca", "white", 1),
    ],
)
def test_a_color_told_behind_its_number_is_of_that_number(language, text, colour, count):
    """A pronoun between them says nothing more."""
    reading = read(text, language)

    (note,) = reading.notes
    assert not reading.problems
    assert (getattr(note.females, colour), note.females.total) == (count, count)


def test_the_color_of_the_other_roots_is_no_color_of_females():
    """ "White on the rest" behind dark roots: healthy roots, and none seen stays none seen."""
    (note,) = read("Kestrel. Roots dark on 3 of 8 plants, white on the rest. No females. Dug, rinsed.").notes

    assert (note.plants, note.outcome, note.mostly) == (8, "none_seen", ())
    assert set(note.roots) == {"dark", "white"}


def test_a_place_behind_its_count_is_the_place_of_that_count():
    """Plants first, then what was on them, each with the place behind."""
    text = "kestrel dug 3 at the gate and 3 at the far end, 4 white at the gate, nothing at the far end"
    (note,) = read(text).notes

    found = [(spot.name, spot.plants, spot.females.total) for spot in note.spots]
    assert found == [("gate", 3, 4), ("far end", 3, 0)]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "I said nine white at kestrel it was nineteen not nine fix that please"),
        ("en", "said 9 white for kestrel it was 19 sorry"),
        ("es", "te dije 9 blancas en kestrel eran 19"),
    ],
)
def test_a_number_said_and_put_right_in_one_breath(language, text):
    """What was said is no note, and the new number counts what the old one counted."""
    reading = quiet(text, language)

    (command,) = reading.commands
    assert not reading.notes
    assert (command.kind, command.args["what"], command.args["value"], command.args["old"]) == (
        "correct",
        "white",
        19,
        9,
    )


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "kestrel went from 3 white last week to 11 today on 5 plants"),
        ("en", "kestrel 5 plants, 11 white, up from 3 last week"),
        ("es", "kestrel 5 plantas, pasó de 3 blancas la semana pasada a 11 hoy"),
        ("pt", "kestrel 5 plantas, passou de 3 brancas semana passada para 11 hoje"),
    ],
)
def test_what_was_counted_before_is_only_told(language, text):
    """Only the count of this visit is one; the earlier one stays in the text."""
    (note,) = quiet(text, language).notes

    assert (note.plants, note.females.white, note.females.total) == (5, 11, 11)
    assert "3" in note.text


def test_so_many_of_so_many_are_no_day():
    """ "2/10 with females" are plants, though it may be a day."""
    (note,) = quiet("kestrel 10 plants, 2/10 with females, 5 total, white").notes

    assert (note.date, note.plants, note.females.total) == (None, 10, 5)


def test_plants_behind_of_where_the_roots_were_soaked():
    """And what was on one of them is not all that was dug."""
    (note,) = quiet("kestrel. soaked the roots of six. four whites on one, none on any of the others").notes

    assert (note.plants, note.soaked, note.per_plant) == (6, True, (4, 0, 0, 0, 0, 0))


def test_colors_with_their_numbers_behind_equals_signs():
    """Without a comma between plants and the first color."""
    (note,) = quiet("kestrel 4 plants white=6 yellow=2").notes

    assert (note.plants, note.females) == (4, Females(6, 2, 0, 0, 8))


def test_soil_that_is_called_moist_renames_no_field():
    """ "So call it moist" is a finding."""
    reading = quiet("Kestrel V4, 5 plants dug, 13 white. Probe says 31% water so call it moist.")

    (note,) = reading.notes
    assert not reading.commands
    assert (note.soil.moisture, note.females.total) == ("moist", 13)


def test_a_number_with_its_letter_is_the_field_that_has_it():
    """At the head of a line "12B" is the crew's Unit 12B, and twelve brown females elsewhere."""
    crew = ("Unit 12B", "Kestrel")
    (note,) = read("12B, V4, dug five plants, 13 white 2 yellow", fields=crew).notes
    (other,) = read("Kestrel, V4, dug five plants, 13 white 12b", fields=crew).notes

    assert (note.field, note.females) == ("12b", Females(13, 2, 0, 0, 15))
    assert other.females == Females(13, 0, 0, 12, 25)


@pytest.mark.parametrize(
    ("language", "text", "plants"),
    [
        ("en", "kestrel supposed to dig 6 but only got 4, 11 white", 4),
        ("en", "kestrel, meant to pull 8, only pulled 5. 11 white", 5),
        ("es", "kestrel quería sacar 10 plantas pero saqué 6, 11 blancas", 6),
        ("pt", "kestrel ia arrancar 10 mas arranquei 6, 11 brancas", 6),
    ],
)
def test_plants_meant_to_be_dug_are_not_counted(language, text, plants):
    """Only those that were."""
    (note,) = quiet(text, language).notes

    assert (note.plants, note.females.white, note.females.total, note.per_plant) == (plants, 11, 11, None)


def test_no_plant_that_came_up_is_no_look():
    """ "None up" says nothing of females."""
    (note,) = read("kestrel too hard to dig, none came up").notes

    assert (note.outcome, note.females.total) == ("not_looked", None)


def test_less_than_last_time_asks_for_nothing():
    """A comparison in passing is no request for what was found before."""
    assert not quiet("kestrel 6 plants dug 11 white, seems like less than last time").commands
    assert [command.kind for command in read("kestrel what did i get last time").commands] == ["history"]


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("h w R3 4 pl 3 white", "h w"),
        ("sec17 R3 4 pl 3 white", "sec17"),
        ("harrow rdg 3, R3, 4 pl, 3 white", "harrow rdg 3"),
    ],
)
def test_a_short_name_heads_its_line(text, field):
    """Letters and cut words at the head of a line name the one field they can be short for."""
    crew = ("Home West", "Section 17", "Harrow Ridge 3", "Kestrel")
    reading = read(text, fields=crew)

    (note,) = reading.notes
    assert not reading.problems
    assert (note.field, note.stage, note.plants, note.females.white) == (field, "R3", 4, 3)


def test_a_line_that_lists_fields_heads_their_notes():
    """A heading above fields told line by line is no field itself."""
    reading = quiet("Tuesday, shovel:\nKestrel 4 pl 3 white\nTinkers 5 pl 0")

    assert [(note.field, note.plants, note.females.total) for note in reading.notes] == [
        ("kestrel", 4, 3),
        ("tinkers", 5, 0),
    ]


@pytest.mark.parametrize("text", ["kestrel 6 plants, it was white", "kestrel 6 plants and it was white"])
def test_plants_are_no_females_of_a_color_told_behind_them(text):
    """The number counts plants; the color says what most females were."""
    (note,) = read(text).notes

    assert (note.plants, note.females.total, note.mostly) == (6, None, ("white",))


@pytest.mark.parametrize(
    "text",
    [
        "kestrel supposed to dig 6 but only got 4-5, 3 yellow",
        "kestrel wanted to dig 6-8 but got 4.5, 3 yellow",
        "kestrel washed 4-5. 3 white",
        "kestrel from 3-4 white last week to 11-12 today",
        "I said 3-4 white at kestrel it was 9",
    ],
)
def test_a_range_where_a_number_is_looked_for_is_asked_about(text):
    """No rule that puts words in takes a range for a number, or falls over it."""
    assert {problem.kind for problem in read(text).problems} & {"which_of_range", "not_whole"}


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel; washed roots of 5 in a bucket; 3 yellow",
        "Kestrel dunked the roots of 5, 3 yellow",
        "Molino Viejo lavé las raíces de 5 en un balde, 3 amarillas",
        "Baixada lavei as raízes de 5 num balde, 3 amarelas",
    ],
)
def test_whose_roots_were_washed_tells_the_plants(text: str) -> None:
    reading = read_note(text, sent=date(2026, 7, 8), fields=("Kestrel", "Molino Viejo", "Baixada"))
    (note,) = reading.notes
    assert not reading.problems and (note.plants, note.soaked, note.females.yellow) == (5, True, 3)
