"""Notes as farmers speak them: what is said of the field, repaired on the way, or told at length."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note

SENT = date(2026, 7, 20)
CREW = ("Depot", "Tower 120", "School 14", "Gravel Pit")


def _read(text: str, language: str = "en"):
    return read_note(text, sent=SENT, fields=CREW, language=language, day_first=language != "en")  # type: ignore[arg-type]


def _note(text: str, language: str = "en"):
    reading = _read(text, language)
    assert reading.problems == (), reading.problems
    (note,) = reading.notes
    return note


@pytest.mark.parametrize(
    "text",
    [
        "Depot was a little yellow on the low end. Dug five, none.",
        "Depot. It's kind of yellow but that's the spray. Dug five, none.",
        "Depot was yellow on the low end and I dug five there too, none on them.",
    ],
)
def test_a_field_said_to_be_yellow_is_no_female(text):
    """The crop is, where no count stands before."""
    note = _note(text)

    assert (note.tops, note.mostly, note.females.total) == (("yellow",), (), 0)


def test_the_ground_behind_the_leaves_is_the_ground():
    """ "... yellow on the edges and the ground is dry"."""
    note = _note(
        "Depot had the lower leaves going yellow on the edges and the ground is dry i dug five and found seven white"
    )

    assert (note.soil.moisture, note.tops, note.females.white) == ("dry", ("edges_old",), 7)


def test_roots_and_nodules_keep_their_own_colors():
    """Joined by "and", each with its word."""
    note = _note("Depot. Dug five, six white. The roots are nice and white and the nodules are pink inside.")

    assert note.roots == ("white", "nodules_pink")


@pytest.mark.parametrize(
    "text",
    [
        "Depot. A thunderstorm run me out before I dug any. R5 and healthy on top.",
        "Depot is R5. I didn't bother digging, we know what's in there.",
        "Depot R5. Haven't dug in it.",
    ],
)
def test_what_nobody_got_to_dig_was_not_looked_at(text):
    """No way of digging is told by it."""
    note = _note(text)

    assert (note.outcome, note.method, note.plants) == ("not_looked", None, None)


@pytest.mark.parametrize(
    ("text", "yellow"),
    [
        ("Depot dug five. First one had 2, then 0, then 5, then 1, then 4. Yellow, every one of em.", 12),
        ("Depot dug five, seven females. Yellow, all of em", 7),
        ("Depot I dug four plants and she counted, eight she says, all yellow.", 8),
    ],
)
def test_a_color_said_of_all_of_them(text, yellow):
    """Behind the count, before or behind its comma."""
    assert _note(text).females.yellow == yellow


@pytest.mark.parametrize(
    ("text", "plants", "white", "stage"),
    [
        ("Depot V4 I looked at five plants no six plants and seen four white", 6, 4, "V4"),
        ("Depot V4 no V5 six plants four white", 6, 4, "V5"),
        ("Depot V4 six plants three white no four white", 6, 4, "V4"),
        ("Depot V4 six plants, three white, then one more, so four white", 6, 4, "V4"),
    ],
)
def test_a_number_said_again_with_its_noun_is_the_right_one(text, plants, white, stage):
    """Told in the answer."""
    reading = _read(text)

    (note,) = reading.notes
    assert (reading.problems, note.plants, note.females.white, note.stage) == ((), plants, white, stage)
    assert reading.remarks


@pytest.mark.parametrize("text", ["17 between them", "17 amongst them", "17 on them"])
def test_so_many_between_them_are_females(text):
    """ "They had 17 between them"."""
    note = _note(f"Depot dug five plants and they had {text}")

    assert (note.plants, note.females.total) == (5, 17)


def test_shaking_alone_says_nothing_of_water():
    """ "Just shook" does."""
    assert _note("Depot V4. shook off 3 plants, none").soaked is None
    assert _note("Depot V4. 3 plants, just shook em, none").soaked is False


def test_the_day_of_a_spray_behind_its_comma():
    """In a sentence that tells of nothing else."""
    note = _note("It was Depot that got the insecticide, on Wednesday. Tops are fine there.")

    assert (note.date, note.spray.date) == (None, date(2026, 7, 15))


def test_last_time_asks_nothing_without_its_sign():
    """With it, it does."""
    note = _note("Last time at Depot I guess. R7. Dug five plants and counted eight, all brown.")
    assert (note.field, note.females.brown) == ("depot", 8)
    for text in ("last time at depot?", "What did I tell you the last few times I was in Depot?"):
        (command,) = _read(text).commands
        assert (command.kind, command.args) == ("history", {"field": "depot"})


def test_thanks_in_many_words_are_no_question():
    """Nothing is asked back."""
    assert _read("Well I appreciate you keeping track of all this.").problems == ()


def test_colors_nobody_looked_at_deny_no_look():
    """ "I didn't look close at the color"."""
    note = _note("Depot looks fine. Pulled six plants and found four females, I didn't look close at the color.")

    assert (note.females.total, note.outcome) == (4, "seen")


@pytest.mark.parametrize(
    "text",
    [
        "Last year Depot had forty on five plants, this year it's only six white on five.",
        "Depot: last season 40 white. This year 6 white on 5 plants",
    ],
)
def test_what_was_counted_another_year_is_no_place(text):
    """Nor are its plants dug again."""
    note = _note(text)

    assert (note.spots, note.plants, note.females.white) == ((), 5, 6)


def test_a_spray_to_come_is_no_spray():
    """ "They are going to spray it Friday"."""
    note = _note("School 14 they're going to spray it Friday. Not dug.")

    assert (note.spray, note.outcome) == (None, "not_looked")


@pytest.mark.parametrize(
    ("text", "roots"),
    [
        ("The nodules look good, lots of them, pink inside.", ("nodules_many", "nodules_pink")),
        ("I seen a lot of little round nodules", ("nodules_many",)),
        ("lots of pink nodules", ("nodules_many", "nodules_pink")),
    ],
)
def test_many_nodules_with_words_between(text, roots):
    """Before the nodules or behind them."""
    assert _note(f"Depot six plants none. {text}").roots == roots


def test_a_short_name_with_its_own_s():
    """ "Tower's" for Tower 120; plants behind "just pulled"."""
    note = _note("Tower's looking good. No shovel so I just pulled four. Nothing on em.")

    assert (note.field, note.plants, note.method, note.females.total) == ("tower", 4, "pulled", 0)


def test_waiting_until_a_day_is_the_next_look():
    """ "Give it til Friday"."""
    assert _note("Depot too wet. I'll give it til Friday and try again.").look_again.date == date(2026, 7, 24)


def test_what_is_told_first_of_two_fields_is_said_of_what_was_found():
    """Two notes, not four."""
    reading = _read("Depot R2, Tower R3. Dug five in each. Depot had four white, Tower none.")

    told = [(note.field, note.stage, note.plants, note.females.total) for note in reading.notes]
    assert (told, reading.problems) == ([("depot", "R2", 5, 4), ("tower", "R3", 5, 0)], ())


def test_an_ordinal_behind_the_words_for_a_day_is_a_day():
    """ "It's the sixteenth", "on the sixteenth"."""
    for text in (
        "It's the sixteenth and I'm at Tower, five plants, three white.",
        "Tower on the sixteenth, 5 plants none",
    ):
        assert _note(text).date == date(2026, 7, 16)


@pytest.mark.parametrize(
    "text", ["Ground was hard so I only got three. One white.", "Six plants. One white, two on the third."]
)
def test_a_number_in_words_that_was_not_read_is_asked_about(text):
    """Where it may be plants, or females of a plant."""
    assert [problem.kind for problem in _read(f"Depot. {text}").problems] == ["stray_number"]


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("You have Depot at nine white. It was nineteen.", "en"),
        ("you've got depot at nine white, it was nineteen", "en"),
        ("Tenés Depot con nueve blancas. Eran diecinueve.", "es"),
    ],
)
def test_what_stands_in_our_books_is_no_new_note(text, language):
    """What it was is put in its place."""
    reading = _read(text, language)

    assert reading.notes == ()
    (command,) = reading.commands
    assert command.args == {"field": "depot", "what": "white", "value": 19, "old": 9}


def test_a_field_added_for_somebody_keeps_its_own_name():
    """ "Add a field for me, Hilltop Forty"."""
    for text in ("Add a field for me, Hilltop Forty, forty acres", "Add Hilltop Forty for me, forty acres"):
        (command,) = _read(text).commands
        assert command.args == {"name": "hilltop forty", "acres": 40}, text
