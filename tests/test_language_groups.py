"""Plants told by groups: so many with nothing, so many with so many females."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Females, Reading

SENT = date(2026, 7, 20)
CREW = ("Kestrel", "Tinkers", "Old Mill East")


def read(text: str, language: str = "en") -> Reading:
    """One message of the crew's."""
    return read_note(text, sent=SENT, fields=CREW, language=language)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("language", "text", "per_plant"),
    [
        ("en", "kestrel 5 plants, first three clean, last two had 4 and 7", (0, 0, 0, 4, 7)),
        ("en", "kestrel dug 5. first 3 clean last 2 had 4 and 7", (0, 0, 0, 4, 7)),
        ("en", "tinkers: 4 plants with none, 2 with 5", (0, 0, 0, 0, 5, 5)),
        ("en", "tinkers two plants had 3 each, rest clean, 6 plants", (3, 3, 0, 0, 0, 0)),
        ("en", "kestrel 6 pl, 2 had none the other 4 had 5 each", (0, 0, 5, 5, 5, 5)),
        ("en", "kestrel 7 plants: four zeros, a 2, a 3 and a 1", (0, 0, 0, 0, 2, 3, 1)),
        ("en", "kestrel dug 5. first one had 3, next 0, then 4, 1, 1", (3, 0, 4, 1, 1)),
        ("en", "kestrel dug 5. 1st 4 2nd 0 3rd 0 4th 8 5th 1", (4, 0, 0, 8, 1)),
        ("en", "kestrel 9 plants. No females on 7; one white each on the other 2.", (0,) * 7 + (1, 1)),
        ("en", "kestrel dug 5. nothing on 3, 1 white on one and 2 on another", (0, 0, 0, 1, 2)),
        ("en", "kestrel dug 4, 1 white on the first, none on the rest", (1, 0, 0, 0)),
        ("en", "kestrel: 5 plants. two females on the first plant, one on the fourth", (2, 0, 0, 1, 0)),
        ("en", "kestrel: 5 plants. 2 on the first, 1 on the fourth, nothing on the others", (2, 0, 0, 1, 0)),
        ("es", "kestrel 5 plantas: dos en la primera, una en la cuarta", (2, 0, 0, 1, 0)),
        ("pt", "kestrel 5 plantas: duas na primeira, uma na quarta", (2, 0, 0, 1, 0)),
        ("es", "kestrel 8 plantas, ninguna en 6, una blanca en cada una de las otras 2", (0,) * 6 + (1, 1)),
        ("pt", "kestrel 8 plantas, nenhuma em 6, uma branca em cada uma das outras 2", (0,) * 6 + (1, 1)),
        ("es", "kestrel 5 plantas, las primeras tres limpias, las últimas dos con 4 y 7", (0, 0, 0, 4, 7)),
        ("es", "kestrel 6 plantas: 4 sin nada, 2 con 5", (0, 0, 0, 0, 5, 5)),
        ("pt", "kestrel 6 plantas, duas tinham 3 cada uma, o resto limpo", (3, 3, 0, 0, 0, 0)),
        ("pt", "kestrel: 8 plantas. Nas sete primeiras não havia nada e na última havia seis", (0,) * 7 + (6,)),
        ("pt", "kestrel: 1 pl 12, 1 pl 4, 1 pl 0, 1 pl 9", (12, 4, 0, 9)),
        (
            "en",
            "kestrel 5 plants. 2 white on the first one, 4 white on the second, none on the other three",
            (2, 4, 0, 0, 0),
        ),
        (
            "en",
            "kestrel 5 plants. The first one had 2 white and the second one 4. The other three had nothing.",
            (2, 4, 0, 0, 0),
        ),
        ("en", "kestrel 4 plants. 2w on #1, 4w on #2, none on the other 2", (2, 4, 0, 0)),
        ("en", "kestrel 4 plants. #1 had 2 white, #2 had 4 white, the other two clean", (2, 4, 0, 0)),
        (
            "en",
            "kestrel 5 plants: 4 on the first, 0 on the second, 2 on the third, none on the last two",
            (4, 0, 2, 0, 0),
        ),
        ("en", "kestrel 5 plants. 3 white on plant 1, 1 white on plant 4, none on the others", (3, 0, 0, 1, 0)),
        ("es", "kestrel 4 plantas. la primera tenía 3 blancas, la segunda 1 blanca, las otras dos nada", (3, 1, 0, 0)),
        ("pt", "kestrel 4 pés. o primeiro tinha 3 brancas, o segundo 1 branca, os outros dois nada", (3, 1, 0, 0)),
    ],
)
def test_groups_of_plants_are_plants_one_by_one(language, text, per_plant):
    """Each plant of each group, in the order told; the rest are as many as are left of the plants dug."""
    reading = read(text, language)

    assert not reading.problems
    (note,) = reading.notes
    assert (note.plants, note.per_plant, note.females.total) == (len(per_plant), per_plant, sum(per_plant))


def test_groups_keep_their_colors():
    """A color counts the females of its own group only."""
    (note,) = read("kestrel 8 plants shovel. 5 clean, 2 with 3 white each and one had 6 yellow").notes

    assert note.females == Females(6, 6, 0, 0, 12)
    assert note.per_plant == (0, 0, 0, 0, 0, 3, 3, 6)


@pytest.mark.parametrize(
    "text",
    [
        "kestrel 6 plants, 2 had 3, rest clean",  # together, or each?
        "kestrel 6 plants, none on 3, 5 white on 3",
        "kestrel 5 plants, two had 3 between them, rest clean",
        "kestrel 5 plants, first three clean, last three had 4, 2 and 7",  # six of five
        "kestrel 6 plants. 2 with 3 white, 1 with 4 yellow",  # and the other three?
        "kestrel two had 3 each, rest clean",  # of how many?
        "kestrel 5 plants at two places. 3 white on the first one, 1 white on the second",  # places, or plants?
        "kestrel 5 plants. 3 white on the first one, 1 white on the second, none on the other two",  # four of five
    ],
)
def test_what_cannot_be_told_plant_by_plant_is_asked(text):
    """No plant is made up."""
    reading = read(text)

    assert reading.problems
    assert all(note.per_plant is None for note in reading.notes)


def test_a_list_with_too_few_plants_keeps_its_first_number():
    """ "Counts were 3 1 0 2": the word for a list is no total, though the first is the sum of the others."""
    reading = read("kestrel 5 plants, counts were 3 1 0 2 all white")

    (note,) = reading.notes
    assert (note.per_plant, note.females.white) == ((3, 1, 0, 2), 6)
    assert [problem.kind for problem in reading.problems] == ["short_list"]


def test_females_behind_the_plants_are_not_the_plants_dug():
    """ "6 plants 3 white, 2 on the first, 1 on the second": six plants, four of them with none."""
    (note,) = read("kestrel 6 plants 3 white, 2 on the first plant, 1 on the second").notes

    assert (note.plants, note.females.white, note.per_plant) == (6, 3, (2, 1, 0, 0, 0, 0))


@pytest.mark.parametrize(
    ("text", "language", "listed"),
    [
        ("kestrel: 4 clean and 2 with 5 white each", "en", (0, 0, 0, 0, 5, 5)),
        ("kestrel 3 good plants and 2 with 6 females each", "en", (0, 0, 0, 6, 6)),
        ("kestrel 3 plantas sanas y 2 con 6 hembras cada una", "es", (0, 0, 0, 6, 6)),
        ("saqué cinco de kestrel: una con 3 blancas, dos con 1, el resto nada", "es", (3, 1, 1, 0, 0)),
        ("kestrel: 4 limpas e 2 com 5 brancas cada", "pt", (0, 0, 0, 0, 5, 5)),
    ],
)
def test_clean_ones_and_others_with_so_many_each_are_all_plants(text, language, listed):
    """The clean ones count among the plants, whether or not all of them were counted before."""
    (note,) = read_note(text, sent=date(2026, 7, 20), fields=("Kestrel",), language=language).notes

    assert (note.per_plant, note.plants) == (listed, len(listed))


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("half of the 10 plants at kestrel had females", "en"),
        ("kestrel la mitad de las 10 plantas con hembras", "es"),
        ("kestrel metade das 10 plantas com fêmea", "pt"),
    ],
)
def test_half_of_the_plants_is_said_of_all_of_them(text, language):
    """Ten were looked at, and some of them had females."""
    (note,) = read_note(text, sent=date(2026, 7, 20), fields=("Kestrel",), language=language).notes

    assert (note.plants, note.outcome, note.females.total) == (10, "seen", None)


@pytest.mark.parametrize(
    ("text", "language"),
    [("kestrel too wet to dig, just pulled 4 and saw 2 white", "en"), ("kestrel no cavé, arranqué 4, 2 blancas", "es")],
)
def test_what_was_not_dug_may_have_been_pulled(text, language):
    """Nobody dug, and plants were looked at all the same."""
    reading = read_note(text, sent=date(2026, 7, 20), fields=("Kestrel",), language=language)

    assert not reading.problems
    assert (reading.notes[0].method, reading.notes[0].plants, reading.notes[0].females.white) == ("pulled", 4, 2)


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("kestrel 6 plants. white on 4 of them", "en"),
        ("kestrel pulled 6, white on 5", "en"),
        ("kestrel 6 plantas, blancas en 4", "es"),
        ("kestrel 6 plantas, brancas em 4 delas", "pt"),
    ],
)
def test_a_color_on_some_plants_counts_plants_and_no_females(text, language):
    """ "White on 4": four plants had white ones, how many is not said."""
    (note,) = read_note(text, sent=SENT, fields=CREW, language=language).notes

    assert (note.plants, note.mostly, note.females.total, note.outcome) == (6, ("white",), None, "seen")


@pytest.mark.parametrize(
    ("text", "language", "plants", "white"),
    [
        ("kestrel 6 plants 2 per plant white", "en", 6, 12),
        ("kestrel 6 plantas, 3 por planta blancas", "es", 6, 18),
        ("kestrel about 3 white a plant on 6", "en", 6, 18),
    ],
)
def test_so_many_a_plant_of_a_color_in_any_order(text, language, plants, white):
    """The color may stand behind "per plant", and the plants behind "on"."""
    (note,) = read_note(text, sent=SENT, fields=CREW, language=language).notes

    assert (note.plants, note.females.white, note.females.total) == (plants, white, white)


def test_did_five_counts_plants_before_their_list():
    """ "Did 5, found 0, 0, 3, 1, 0": the first number is no plant of the list."""
    note = read("old mill east: did 5, found 0, 0, 3, 1, 0 all white").notes[0]

    assert (note.plants, note.per_plant) == (5, (0, 0, 3, 1, 0))


def test_the_first_in_figures_is_a_plant_and_no_day() -> None:
    (note,) = read("kestrel 5 plants w/ the shovel, 1st one had 6 the other four clean").notes
    assert (note.date, note.per_plant, note.females.total) == (None, (6, 0, 0, 0, 0), 6)


@pytest.mark.parametrize(
    "text",
    [
        "kestrel dug five plants, two white on one of them, nothing on the others",
        "kestrel dug five plants. Found two white females on one of them, nothing on the rest. Moist",
        "kestrel dug five plants, two white on one of them, none on the others",
    ],
)
def test_none_on_the_others_adds_nothing_to_a_count(text: str) -> None:
    reading = read(text)
    (note,) = reading.notes
    assert reading.problems == ()
    assert (note.plants, note.females.total, note.outcome) == (5, 2, "seen")


def test_plants_eased_loose_by_hand_are_counted() -> None:
    (note,) = read("kestrel, eased 5 loose by hand, no females").notes
    assert (note.plants, note.method, note.females.total) == (5, "eased", 0)
