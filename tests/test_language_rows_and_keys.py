"""Rows of places that a word of a field's name goes on, plants told by number, keys that were missed, days of one's own."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note

SENT = date(2026, 7, 8)
CREW = (
    "Section 14",
    "Lost Creek Bottom",
    "Gravel Pit South",
    "Water Tower 80",
    "Marlow North",
    "SW Kettle",
    "B-7",
    "Monte Viejo",
    "Mangueira",
    "Kestrel",
    "Tinker's",
)


def _read(text: str, language: str = "en"):
    return read_note(text, sent=SENT, fields=CREW, language=language)  # type: ignore[arg-type]


def _note(text: str, language: str = "en"):
    reading = _read(text, language)
    assert reading.problems == (), reading.problems
    (note,) = reading.notes
    return note


@pytest.mark.parametrize(
    ("text", "places"),
    [
        (
            "Section 14, all dug. Gate: 5 plants, 12 white. Middle: 5 plants, 1 white. Creek: 5 plants, none.",
            [("gate", 5, 12), ("middle", 5, 1), ("creek", 5, 0)],
        ),
        (
            "Gravel Pit South. Dug. By the road, two plants, eleven cysts. By the pit, two plants, none.",
            [("road", 2, 11), ("pit", 2, 0)],
        ),
        (
            "Marlow North pulled. gate 5 8 2 / middle 0 1 0 / back 0 0 0",
            [("gate", 3, 15), ("middle", 3, 1), ("back", 3, 0)],
        ),
        ("Kestrel gate 3 0 1 / barn 2 2 2 / front 1 1 0", [("gate", 3, 4), ("barn", 3, 6), ("front", 3, 2)]),
        ("Kestrel. near the road 3 plants 12 white. near the tower 3 plants none.", [("road", 3, 12), ("tower", 3, 0)]),
        (
            "Kestrel, dug 3 plants each place. front by road: 3 white. back by trees: 7 white",
            [("front by road", 3, 3), ("back by trees", 3, 7)],
        ),
        (
            "kestrel 4 plants each spot. corner near the barn 3w, middle 0, corner near road 8w",
            [("corner near the barn", 4, 3), ("middle", 4, 0), ("corner near road", 4, 8)],
        ),
        (
            "monte viejo. tranquera: 4 plantas 3 blancas. galpón: 4 plantas ninguna",
            [("tranquera", 4, 3), ("galpón", 4, 0)],
        ),
        ("mangueira. porteira: 4 plantas 3 brancas. sanga: 4 plantas nada", [("porteira", 4, 3), ("sanga", 4, 0)]),
    ],
)
def test_what_goes_on_a_row_of_places_is_a_place(text, places):
    """Though a field of the crew has the word in its name, or no list knows it."""
    language = "es" if "plantas" in text and "monte" in text else "pt" if "mangueira" in text else "en"
    note = _note(text, language)

    assert [(spot.name, spot.plants, spot.females.total) for spot in note.spots] == places


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel dug. Gate: 5 plants, 12 white. Tinkers: 5 plants, 2 white.",
        "Kestrel dug. Gate: 5 plants, 12 white. Tower: 5 plants, 2 white.",
        "Kestrel dug. Gate: 5 plants, 12 white. Middle: 5 plants, none. SW Kettle: 5 plants, 2 white.",
        "Kestrel 6 plants 4 white. Creek: 5 plants, 2 white",
    ],
)
def test_another_field_stays_one(text):
    """A field as it is called, a word short for one behind a single place, and where no place was told."""
    assert len(_read(text).notes) == 2


@pytest.mark.parametrize(
    ("text", "per_plant", "plants"),
    [
        ("SW Kettle, V5. Plants 1-6: 0, 2, 1, 0, 0, 3 females. Dug", (0, 2, 1, 0, 0, 3), 6),
        ("SW Kettle dug. P1-6: 0 2 1 0 0 3", (0, 2, 1, 0, 0, 3), 6),
        ("SW Kettle dug. #1-6: 0 2 1 0 0 3", (0, 2, 1, 0, 0, 3), 6),
        ("SW Kettle plants 1 through 6: 0 2 1 0 0 3", (0, 2, 1, 0, 0, 3), 6),
        ("SW Kettle plants #1 - #6: 0 2 1 0 0 3", (0, 2, 1, 0, 0, 3), 6),
        ("SW Kettle plants 1-3: 0 2 1, plants 4-6: 0 0 3", (0, 2, 1, 0, 0, 3), 6),
        ("SW Kettle plants 1-4: none, plants 5-6: 2 white each", (0, 0, 0, 0, 2, 2), 6),
        ("SW Kettle plants 1-4 clean, plant 5 had 3 white", (0, 0, 0, 0, 3), 5),
        ("SW Kettle plants 1-6: none", None, 6),
        ("SW Kettle plants 1-6: 6 white", None, 6),
        ("Monte Viejo plantas 1 al 6: 0, 2, 1, 0, 0, 3 hembras", (0, 2, 1, 0, 0, 3), 6),
        ("Mangueira pés 1 a 6: 0, 2, 1, 0, 0, 3 fêmeas", (0, 2, 1, 0, 0, 3), 6),
    ],
)
def test_plants_told_by_their_numbers(text, per_plant, plants):
    """From plant 1 on, in one stretch or several."""
    note = _note(text, "es" if "Monte" in text else "pt" if "Mangueira" in text else "en")

    assert (note.per_plant, note.plants, note.date) == (per_plant, plants, None)


def test_a_list_too_short_for_its_plants_is_asked_about():
    """Six plants, three numbers."""
    assert [problem.kind for problem in _read("SW Kettle plants 1-6: 0, 2, 1 females").problems] == ["short_list"]


@pytest.mark.parametrize(
    "text",
    [
        "kestrel. pulled 8 plants, didnt see any of the little white balls. roots look white",
        "kestrel 8 plants pulled, no little white balls, roots white",
        "kestrel 8 plants pulled, did not see a single white or yellow female, roots white",
    ],
)
def test_females_denied_by_how_they_look(text):
    """No color of females, whatever their size was to be; the roots keep theirs."""
    note = _note(text)

    assert (note.females.total, note.outcome, note.mostly, note.roots) == (0, "none_seen", (), ("white",))


@pytest.mark.parametrize(
    "text",
    [
        "kestrel 6 dug, found 4 white ones and 1 kinda yellow. so 5. dirt was damp",
        "kestrel 6 dug, 4 white 1 yellow. 5 then",
        "kestrel 6 dug, 4 white plus 1 yellow equals 5",
    ],
)
def test_a_sum_in_a_sentence_of_its_own(text):
    """It says the same once more."""
    note = _note(text)

    assert (note.females.white, note.females.yellow, note.females.total) == (4, 1, 5)


def test_a_sum_that_does_not_fit_is_asked_about():
    """Nothing is reckoned for the writer."""
    assert _read("kestrel 6 dug, 4 white 1 yellow. so 6").problems
    assert _read("kestrel 5 dug 14 total, 8 white 3 yellow").problems


@pytest.mark.parametrize(
    ("text", "stage", "total"),
    [
        ("kestrel v%, 5 dug, zer0", "V5", 0),
        ("kestrel R# 5 dug n0ne", "R3", 0),
        ("kestrel V4 emails 14 on 6 plants, dug w spade (females not emails, dang phone)", "V4", 14),
    ],
)
def test_missed_keys_are_read_and_told(text, stage, total):
    """The answer says how they were read."""
    reading = _read(text)

    assert reading.problems == ()
    assert (reading.notes[0].stage, reading.notes[0].females.total) == (stage, total)
    assert "near_word" in {remark.kind for remark in reading.remarks}


def test_a_share_is_no_missed_key():
    """A sign behind a number is of that number."""
    assert _note("kestrel R2, 10% stand loss, 5 dug none").stage == "R2"


@pytest.mark.parametrize(
    "text",
    [
        "my last day is friday!! kestrel: 9 plants shovel 3 white",
        "kestrel: 9 plants shovel 3 white. im off thursday and friday",
        "Monte Viejo 9 plantas 3 blancas. mi último día es el viernes",
        "Mangueira 9 plantas 3 brancas. meu último dia é sexta",
    ],
)
def test_a_day_of_ones_own_is_no_day_of_the_visit(text):
    """Nor one to look again."""
    note = _note(text, "es" if "Monte" in text else "pt" if "Mangueira" in text else "en")

    assert (note.date, note.look_again, note.females.total) == (None, None, 3)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("b-7 the sign says LK 2741, peking. 6 plants dug, 2 yellow", "LK 2741"),
        ("b-7 tag reads Corvale 2810. 6 plants dug, 2 yellow", "Corvale 2810"),
        ("b-7 sign: LK 2741, 6 plants dug 2 yellow", "LK 2741"),
        ("Monte Viejo el cartel dice LK 2741. 6 plantas 2 amarillas", "LK 2741"),
        ("Mangueira a placa diz LK 2741. 6 plantas 2 amarelas", "LK 2741"),
    ],
)
def test_seed_told_by_its_sign(text, name):
    """Its number counts nothing."""
    note = _note(text, "es" if "Monte" in text else "pt" if "Mangueira" in text else "en")

    assert note.variety is not None
    assert (note.variety.name, note.plants, note.females.total) == (name, 6, 2)


@pytest.mark.parametrize(
    ("text", "tops"),
    [
        (
            "kestrel: 5 plants none. some leaves yellow but only the new ones & the veins r still green",
            ("interveinal_new",),
        ),
        ("kestrel: 5 plants none. yellow leaves but only the old ones, edges brown", ("edges_old",)),
        ("kestrel R7 ripe early in ring, 5pl 22b", ("ring", "early_ripe")),
        ("kestrel dug 6, 12 w, some stunted spots on the west side", ("stunted", "patch")),
    ],
)
def test_tops_told_in_other_words(text, tops):
    """Leaves as "ones", a shape right behind what it is the shape of."""
    assert set(_note(text).tops) == set(tops)


def test_a_tool_behind_plants_keeps_them():
    """Neither a stage that goes on nor the color of leaves makes it another day's or none."""
    assert _note("kestrel (R2 going to R3): six plants, shovel, 3 white").method == "shovel"
    assert _note("kestrel new lvs yel, veins grn, 6 pl spd none").method == "shovel"


def test_shades_in_quotes():
    """As people set them."""
    assert _note("kestrel — “mostly yel”, 30 total on 8 plants, R4").mostly == ("yellow",)


def test_loads_to_go_release_no_message():
    """What is left to do is no number of a held message."""
    assert _read("kestrel: 8 dug 0 found. 2 more loads to go").commands == ()


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Co-op North: 3 plants none", "co-op north"),
        ("Tri-County North: 3 plants none", "tri-county north"),
        ("Mill-Rd North 80 R2 6 pl 3w 1y", "mill-rd north 80"),
        ("R2-Kestrel 6 plants 3 white", "kestrel"),
        ("yesterday-Kestrel 6 plants none", "kestrel"),
    ],
)
def test_a_name_with_a_hyphen_is_supposed_whole(text, name):
    """Where no list of fields is at hand; a word of ours tied to it is none of the name."""
    (note,) = read_note(text, sent=SENT).notes

    assert note.field == name
