"""Talk beside notes asks nothing; what is usual, or said by others, puts nothing right; rain in everyday words."""

from datetime import date

import pytest

from notes_bot.language.reader import read_note

FIELDS = ("Kestrel", "Tallow", "Lower Bench", "Pump House", "Tres Álamos", "Cañada Seca", "Capão Alto", "Cupim")
SENT = date(2026, 7, 8)


@pytest.mark.parametrize(
    "talk",
    [
        "I made a little bar chart, it's on my desk",
        "I'm writing this twice since the first one bounced",
        "I call that drowned, not nematode",
        "Is that better?",
        "For the log please keep that one only.",
        "I'm going back on Monday to do it over.",
        "how's that work",
        "also whose turn is it to buy donuts",
        "The root washer is making that noise again, so please do not use it before I've had a look.",
    ],
)
def test_talk_beside_a_note_asks_nothing(talk: str) -> None:
    """No command is made of it, and the note keeps its counts."""
    reading = read_note(f"Kestrel 5 plants, 3 white. {talk}", sent=SENT, fields=FIELDS)
    assert not reading.commands
    assert [(note.field, note.plants, note.females.white) for note in reading.notes] == [("kestrel", 5, 3)]


def test_a_summary_asked_before_it_is_forgotten() -> None:
    """To forget is no word for taking back there."""
    text = "Kestrel 5 plants, 3 white. Digest for the week, please, before I forget what week it is"
    asked = read_note(text, sent=SENT, fields=FIELDS).commands
    assert [(c.kind, c.args["span"]) for c in asked] == [("digest", "week")]


@pytest.mark.parametrize(
    ("text", "field", "plants", "white"),
    [
        ("kestrel dug 6, not 5 as usual, 4 white", "kestrel", 6, 4),
        ("kestrel dug 6 plants not the usual 5, 4 white", "kestrel", 6, 4),
        ("tres álamos 6 plantas no 5 como siempre, 4 blancas", "tres álamos", 6, 4),
        ("capão alto cavei 6 não 5 como sempre, 4 brancas", "capão alto", 6, 4),
        ("oops forgot kestrel, 7 plants 3 white", "kestrel", 7, 3),
        ("perdón me olvidé de tres álamos, 5 plantas, 3 blancas", "tres álamos", 5, 3),
        ("ops esqueci cupim, cavei 6, 2 brancas", "cupim", 6, 2),
        ("kestrel plants healthy, not stunted, 5 dug 3 white", "kestrel", 5, 3),
    ],
)
def test_a_note_that_looks_like_a_correction(text: str, field: str, plants: int, white: int) -> None:
    """It is a note, and without a question."""
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert not reading.commands and not reading.problems
    assert [(note.field, note.plants, note.females.white) for note in reading.notes] == [(field, plants, white)]


@pytest.mark.parametrize(
    ("text", "what", "value", "old"),
    [
        ("kestrel tops were healthy not stunted", "tops", ["healthy"], ["stunted"]),
        ("oops kestrel was 7 plants not 5", "plants", 7, 5),
        ("I said kestrel was 5 plants, it was 8", "plants", 8, 5),
        ("kestrel dug 6 not 5", "plants", 6, 5),
    ],
)
def test_what_still_puts_right(text: str, what: str, value: object, old: object) -> None:
    """Without a word for what is usual, two values with "not" between them do."""
    made = read_note(text, sent=SENT, fields=FIELDS).commands
    assert [(c.kind, c.args["what"], c.args["value"], c.args["old"]) for c in made] == [("correct", what, value, old)]


@pytest.mark.parametrize(
    ("text", "field", "plants"),
    [
        (
            "> How is the Kestrel field looking? Owner's coming.\n\nIt looks fine. I dug ten plants, 3 white.",
            "kestrel",
            10,
        ),
        ("> scout: kestrel 8 pl dug 11 w\n> sure about it?\n\nI went back today. Dug 8 more, 19 white.", "kestrel", 8),
        ("> Which one is Pump House?\n\nBy the road. Cupim I dug 5 today and saw 3 white, moist.", "cupim", 5),
    ],
)
def test_lines_quoted_from_another(text: str, field: str, plants: int) -> None:
    """They ask and count nothing; the field they name is the answer's where it names none."""
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert not reading.commands
    assert [(note.field, note.plants) for note in reading.notes] == [(field, plants)]


def test_a_list_with_the_same_mark_is_read() -> None:
    """Lines that begin with the crew's fields are no quotation."""
    text = "Today:\n> kestrel 6 pl none\n> tallow 5 pl 3 white\nall dry, more tomorrow when it dries"
    assert [note.field for note in read_note(text, sent=SENT, fields=FIELDS).notes] == ["kestrel", "tallow"]


@pytest.mark.parametrize(
    ("text", "rain"),
    [
        ("1 inch at tallow, 1.5 at pump house", {"tallow": 25.4, "pump house": 38.1}),
        ("0.8 in at kestrel and half an inch at tallow", {"kestrel": 20.3, "tallow": 12.7}),
        ("kestrel got an inch and a half, tallow got 0.7", {"kestrel": 38.1, "tallow": 17.8}),
        ("tres álamos 20 mm, cañada seca 35 mm", {"tres álamos": 20.0, "cañada seca": 35.0}),
        ("cupim 20 mm, capão alto 35 mm ontem", {"cupim": 20.0, "capão alto": 35.0}),
        ("deu 42 mm no capão alto essa noite", {"capão alto": 42.0}),
        ("deu 20 no pluviômetro do cupim", {"cupim": 20.0}),
        ("lower bench dug 6, no cysts. and rain there was .8 last night", {"lower bench": 20.3}),
    ],
)
def test_rain_of_each_field(text: str, rain: dict[str, float]) -> None:
    """An amount for each field, and no day or field but those told."""
    told = [c for c in read_note(text, sent=SENT, fields=FIELDS).commands if c.kind == "weather"]
    assert {str(c.args["field"]): c.args["rain_mm"] for c in told} == rain


@pytest.mark.parametrize(
    ("text", "field", "high"),
    [
        ("hit 97 over at lower bench yesterday", "lower bench", 36.1),
        ("topped out at 101 at kestrel yesterday", "kestrel", 38.3),
        ("it was 96 degrees at tallow yesterday", "tallow", 35.6),
        ("a máxima foi de 36 ontem", None, 36.0),
        ("ayer 40 de máxima", None, 40.0),
    ],
)
def test_a_hot_day(text: str, field: str | None, high: float) -> None:
    """A number that only a day's high can be, with a word for it."""
    told = read_note(text, sent=SENT, fields=FIELDS).commands
    assert [(c.kind, c.args.get("field"), c.args["tmax_c"]) for c in told] == [("weather", field, high)]


@pytest.mark.parametrize(
    "text",
    [
        "kestrel 1 inch deep roots snapped, 5 pulled none",
        "kestrel dug 5 plants 1 inch tall, none",
        "hit kestrel and tallow yesterday, dug 5 each, none",
        "kestrel 97 white on 5 plants yesterday",
    ],
)
def test_no_weather(text: str) -> None:
    """What only holds such words is a note."""
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert reading.notes and not reading.commands
