"""Everyday ways to say how many were dug, what was on them, that nothing was there, and when to come again."""

from __future__ import annotations

import pytest

from notes_bot.model import Method, Note
from tests.reading_kit import note_of, reading_of

FRAMES = {"": "Kestrel: 6 plants dug. ", "es": "Kestrel: 6 plantas con pala. ", "pt": "Kestrel: 6 plantas com pá. "}
"""Before what is told in a language."""
COUNTS = {"": "4 white. ", "es": "4 blancas. ", "pt": "4 brancas. "}


def framed(told: str, counts: bool = False) -> str:
    """A message with its plants, and with what was on them or not, in the language told before a bar."""
    language, _, said = told.rpartition("|")
    return f"{FRAMES[language]}{COUNTS[language] if counts else ''}{said}."


def counted(note: Note) -> tuple[int | None, ...]:
    females = note.females
    return females.white, females.yellow, females.tan, females.brown, females.total


@pytest.mark.parametrize(
    ("told", "plants", "method"),
    [
        ("half a dozen with a spade", 6, "shovel"),
        ("a dozen by hand", 12, "pulled"),
        ("wound up yanking five", 5, "pulled"),
        ("managed to ease four of them out", 4, "eased"),
        ("could work 7 of em loose with my fingers", 7, "eased"),
        ("dug a couple of plants", 2, "shovel"),
        ("a couple plants, spade", 2, "shovel"),
        ("pulled a pair of plants", 2, "pulled"),
        ("three plants at each of four spots, dug", 12, "shovel"),
        ("dug 12 plants, three at each of 4 spots", 12, "shovel"),
        ("nine plants and not one more, shovel", 9, "shovel"),
        ("all of these were dug, not pulled. 8 plants", 8, "shovel"),
        ("Once the roots of all 9 plants were washed I sat down. Dug", 9, "shovel"),
    ],
)
def test_how_many_were_dug(told: str, plants: int, method: Method):
    note = note_of(f"Kestrel: {told}. 5 white, 2 tan.")
    assert (note.plants, note.method, note.females.white, note.females.tan) == (plants, method, 5, 2)


@pytest.mark.parametrize(
    ("told", "females"),
    [
        ("a pair of white ones and a brown", (2, 0, 0, 1, 3)),
        ("a white and three tans", (1, 0, 3, 0, 4)),
        ("fourteen whites along with a couple of browns", (14, 0, 0, 2, 16)),
        ("a couple of yellows and a tan", (0, 2, 1, 0, 3)),
        ("5 tan, 8 brown, nothing live", (0, 0, 5, 8, 13)),
        ("11 white and not one of any other color", (11, 0, 0, 0, 11)),
        ("7 brown, none of them fresh", (0, 0, 0, 7, 7)),
        ("18 of them in all, ten white and the other eight yellow", (10, 8, 0, 0, 18)),
        ("es|7 marrones, nada fresco", (0, 0, 0, 7, 7)),
    ],
)
def test_what_was_counted(told: str, females: tuple[int, ...]):
    assert counted(note_of(framed(told))) == females


@pytest.mark.parametrize(
    "told",
    [
        "came up with zippo",
        "found diddly",
        "not a dang thing on the roots",
        "no luck finding females",
        "roots were clean of nematodes",
        "roots cyst-free",
        "spotless scn wise",
        "neither of us could find a female",
        "unable to find a cyst",
        "not a white, yellow or tan one anywhere",
        "no whites, tans or browns",
        "there were no females to be found",
        "hoped to find cysts but did not",
        "I was expecting females on these roots and did not",
        "if there are any cysts out here they were not showing",
        "no females, yellow or otherwise",
        "nothing on any root in the way of cysts",
        "es|esperaba ver hembras y nada",
        "es|si hay quistes no se ven",
        "pt|esperava ver fêmeas e não",
        "pt|se tem cisto não aparece",
    ],
)
def test_none_seen_in_everyday_words(told: str):
    note = note_of(framed(told))
    assert (note.outcome, note.mostly, counted(note), note.tops) == ("none_seen", (), (0, 0, 0, 0, 0), ())


@pytest.mark.parametrize("told", ["Nothing but white on these", "es|nada más que blancas", "pt|nada além de brancas"])
def test_nothing_but_white_is_not_none(told: str):
    note = note_of(framed(told))
    assert (note.outcome, note.mostly, note.females.total) == ("seen", ("white",), None)


@pytest.mark.parametrize(
    "told",
    ["I thought I saw a white one but it was a grain of sand", "es|creí ver una hembra pero era un grano de arena"],
)
def test_what_was_only_taken_for_a_female_is_none(told: str):
    reading = reading_of(framed(told))
    (note,) = reading.notes
    assert (note.females.total, note.soil.texture, note.outcome) == (None, None, None)
    assert [problem.kind for problem in reading.problems] == ["no_finding"]


@pytest.mark.parametrize(
    ("told", "each", "total"),
    [
        (
            "four on the first plant, nothing on the second, two more on the third and nine on the last",
            (4, 0, 2, 9),
            15,
        ),
        ("2 on the first plant, 5 on the second", (2, 5), 7),
        ("first plant four females, second one had 11", (4, 11), 15),
        ("tres en la primera planta, nada en la segunda, dos más en la tercera", (3, 0, 2), 5),
    ],
)
def test_told_plant_by_plant(told: str, each: tuple[int, ...], total: int):
    note = note_of(f"Kestrel: {told}.")
    assert (note.per_plant, note.females.total, note.plants) == (each, total, len(each))


@pytest.mark.parametrize(
    "told",
    ["4 females on each of three plants", "4 hembras en cada una de 3 plantas", "4 fêmeas em cada uma de 3 plantas"],
)
def test_so_many_on_each_of_the_plants(told: str):
    note = note_of(f"Kestrel: {told}.")
    assert (note.plants, note.females.total) == (3, 12)


@pytest.mark.parametrize(
    "told",
    [
        "stayed in the truck",
        "I never left the pickup, lightning all around",
        "wasn't about to wade in there",
        "bailed before looking at a single plant",
        "none of the plants were looked at",
        "nothing was examined",
        "I had to skip it on account of hail",
        "creek up, could not cross",
        "no se examinó nada",
        "nada foi examinado",
        "tive que pular por causa da chuva",
    ],
)
def test_not_looked_in_everyday_words(told: str):
    note = note_of(f"Kestrel: {told}.")
    assert (note.field, note.outcome, note.females.total) == ("kestrel", "not_looked", None)


def test_who_stayed_in_the_truck_digs_no_plants_away():
    note = note_of("Kestrel: the dog stayed in the truck. 6 plants dug, 4 white.")
    assert (note.outcome, note.plants, note.females.white) == ("seen", 6, 4)


@pytest.mark.parametrize("told", ["Ground's still soaked", "soaked ground", "The field's soaked through"])
def test_soaked_ground_is_no_soaked_root(told: str):
    note = note_of(framed(told, counts=True))
    assert (note.soaked, note.soil.moisture) == (None, "wet")


@pytest.mark.parametrize(
    "told", ["looked them over dry", "examined the roots dry", "es|las miré en seco", "pt|olhei elas a seco"]
)
def test_roots_looked_at_dry_tell_nothing_of_the_soil(told: str):
    note = note_of(framed(told, counts=True))
    assert (note.soaked, note.soil.moisture) == (False, None)


@pytest.mark.parametrize(
    ("told", "days"),
    [
        ("Come back to this one a week from now", 7),
        ("I'll be back to check on it nine days from now", 9),
        ("the plan is to return to that field in eleven days and see", 11),
        ("it deserves a second look 8 days from now", 8),
        ("worth another trip in ten days", 10),
        ("es|vuelvo en diez días desde hoy", 10),
    ],
)
def test_when_to_come_again(told: str, days: int):
    again = note_of(framed(told, counts=True)).look_again
    assert again is not None
    assert again.days == days


@pytest.mark.parametrize(
    ("told", "name", "resistance"),
    [
        ("Variety is Harbin 26X4", "Harbin 26X4", None),
        ("The tag on the corner post says Larkin 2210", "Larkin 2210", None),
        ("She planted Corso 34", "Corso 34", None),
        ("they planted Corso 34P", "Corso 34P", None),
        ("Larkin 331E is the number", "Larkin 331E", None),
        ("seed tag reads Corso 28-B", "Corso 28-B", None),
        ("seed was Corso 19, not SCN resistant at all", "Corso 19", "susceptible"),
        ("bag said Larkin 2210, could not find anything on it about nematode resistance", "Larkin 2210", None),
        ("es|sembraron Corso 34", "Corso 34", None),
        ("pt|plantaram Corso 34", "Corso 34", None),
    ],
)
def test_a_seed_with_its_number(told: str, name: str, resistance: str | None):
    variety = note_of(framed(told, counts=True)).variety
    assert variety is not None
    assert (variety.name, variety.resistance) == (name, resistance)


@pytest.mark.parametrize(
    "head",
    [
        "Notes for Kestrel.",
        "Report on Kestrel.",
        "Here's what I got for Kestrel.",
        "Notas de Kestrel.",
        "Log for Kestrel.",
    ],
)
def test_a_heading_asks_nothing(head: str):
    note = note_of(f"{head} 6 plants dug. 4 white.")
    assert (note.field, note.plants, note.females.white) == ("kestrel", 6, 4)
    assert [command.kind for command in reading_of("Notes for Kestrel").commands] == ["history"]


@pytest.mark.parametrize(
    "told", ["there by quarter past 2", "ten till 4", "got there just after 3", "five past noon", "on site by 9"]
)
def test_the_hour_counts_nothing(told: str):
    note = note_of(f"Kestrel, {told}. 6 plants dug. 4 white.")
    assert (note.plants, note.females.white, note.females.total) == (6, 4, 4)
