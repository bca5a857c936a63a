"""Counts set out as a table."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.layout.count_table import rewritten
from notes_bot.language.reader import read_note
from notes_bot.model import Females, Language, Note

SENT = date(2026, 7, 20)


def read(text: str, language: Language = "en") -> Note:
    """The one note of a message that must be understood without a complaint."""
    reading = read_note(text, sent=SENT, fields=("Kestrel", "Lote 7"), language=language)
    assert not reading.problems, reading.problems
    (note,) = reading.notes
    return note


@pytest.mark.parametrize("cells", [" | ", "  ", "\t", ",", " / "])
def test_a_row_a_plant_is_counted_plant_by_plant(cells):
    """Bars, tabs, blanks, commas or slashes: each row is a plant, each column a color."""
    rows = [("plant", "W", "Y", "T"), ("1", "6", "2", "0"), ("2", "11", "3", "1"), ("3", "0", "0", "0")]
    note = read("Kestrel R1, dug\n" + "\n".join(cells.join(row) for row in rows) + "\nmoist")

    assert note.per_plant == (8, 15, 0)
    assert note.females == Females(17, 5, 1, 0, 23)
    assert (note.plants, note.stage, note.soil.moisture) == (3, "R1", "moist")


def test_a_column_of_plants_makes_each_row_a_place():
    """ "In" and "road side" keep their own plants and females."""
    note = read("Kestrel\nSite  plants  W  Y\nroad side  5  22  13\nhill  4  1  0")

    assert [(s.name, s.plants, s.females.total) for s in note.spots] == [("road side", 5, 35), ("hill", 4, 1)]


def test_a_row_that_adds_up_is_no_plant():
    """The total below a table counts nothing twice."""
    note = read("Kestrel\npl | W | Y\n1 | 2 | 0\n2 | 1 | 4\ntotal | 3 | 4")

    assert (note.per_plant, note.females.total) == ((2, 5), 7)


def test_a_table_in_spanish_reads_the_same():
    """Colors by their words in the writer's language."""
    note = read("Lote 7\nplanta | blancas | amarillas\n1 | 3 | 0\n2 | 1 | 4", "es")

    assert (note.per_plant, note.females.white, note.females.yellow) == ((3, 5), 4, 4)


def test_what_is_no_table_stays_to_the_letter():
    """Lines of notes, lists and prose are not touched."""
    text = "Kestrel 6 pl 3w 2y\nTinkers | not looked\n1. gate 3 w\n2. hill 4 w\nwhite | yellow"

    assert rewritten(text, "en") == text


def test_a_series_a_plant_is_counted_plant_by_plant():
    """ "w/y: 4/2 0/3" is two plants; the last does not win."""
    note = read("Kestrel R3, w/y/t/b: 3/11/2/0 5/8/0/0 1/14/4/1 0/6/1/0 spade soaked")

    assert (note.per_plant, note.females) == ((16, 13, 20, 7), Females(9, 39, 7, 1, 56))
    assert note.plants == 4


@pytest.mark.parametrize(
    ("table", "asked"),
    [
        ("plant W Y\nP1 6 2\nP2 - 3\nP3 4 1", "doubtful"),
        ("site W Y\nroad 6 2\npond   3\nditch 4 1", "stray_number"),
        ("site | W | Y\nroad | 6 | 2\npond | - | 3\nditch | 4 | 1", "stray_number"),
    ],
)
def test_a_row_with_a_cell_left_open_is_asked_about_and_costs_no_other_row(table: str, asked: str):
    """A dash or a gap may be none or not counted; the rows below it keep their columns."""
    reading = read_note(f"Old Mill, dug 3, shovel\n{table}", sent=SENT, fields=("Old Mill",))
    note = reading.notes[0]

    assert [problem.kind for problem in reading.problems] == [asked]
    assert note.females.white == 10
    assert [spot.females.white for spot in note.spots] in ([], [6, 4])
    assert note.per_plant in ((8, 3, 5), None)


@pytest.mark.parametrize(
    ("text", "places"),
    [
        (
            "Kestrel R1\n             plants   females\nedge       4         2\nmiddle       4         13",
            ((4, 2), (4, 13)),
        ),
        (
            "Lote 7 R1\n          plantas   hembras\norilla       4         2\ncentro       5        13",
            ((4, 2), (5, 13)),
        ),
        ("Lote 7     plantas   fêmeas\nborda       4         2\nmeio       4         13", ((4, 2), (4, 13))),
        ("Lote 7\n          fêmeas   plantas\nborda       2         4\nmeio       13         5", ((4, 2), (5, 13))),
        ("Kestrel R1\n         pl   fem\ngate      4    2\nhill      5    13", ((4, 2), (5, 13))),
        ("Kestrel plants white yellow\ngate 6 2 4\nroad side 5 4 0", ((6, 6), (5, 4))),
        ("Kestrel\nsite   plants   females\ngate   6   2\nhill   5   0", ((6, 2), (5, 0))),
        ("Kestrel\n\tplants\twhite\tyellow\ngate\t4\t2\t0\nhill\t5\t13\t1", ((4, 2), (5, 14))),
        ("Kestrel | plants | white | yellow\ngate | 6 | | 4\nhill | 6 | 3 |", ((6, 4), (6, 3))),
        ("Kestrel | plants | ⚪ | 🟡\ngate | 6 | 1 | 4\nhill | 6 | 3 | 0", ((6, 5), (6, 3))),
    ],
)
def test_a_heading_without_a_word_for_its_places_names_columns(text: str, places: tuple[tuple[int, int]]):
    """Plants and females below their names, in whatever order, the field in the same line or above; no list is read."""
    note = read(text, "pt")

    assert tuple((spot.plants, spot.females.total) for spot in note.spots) == places
    assert note.per_plant is None


def test_a_blank_cell_is_told_by_the_column_that_the_others_stand_below():
    """Blanks under a heading set apart by blanks: the 2 below "yellow" is no white one."""
    note = read(
        "Kestrel, R2\n      white     yellow    brown\n1     2         1\n2     0         0         4\n3               2"
    )

    assert (note.per_plant, note.females) == ((3, 4, 2), Females(2, 3, 0, 4, 9))


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel\nplants   females\ngate     6\nhill     5         3",
        "Kestrel\nplants females\n4 2\n5 3",
        "Kestrel plants white\n5 3",
    ],
)
def test_a_row_without_its_place_or_its_females_is_asked_about(text: str):
    """Plants alone, or numbers without a place, below a heading that asks for more."""
    assert read_note(text, sent=SENT, fields=("Kestrel",)).problems


def test_the_number_of_a_plant_below_its_word_is_no_count():
    """ "Plant  W  Y" above "row 1  2  0": a plant a row, as the same word stands in each."""
    note = read("Kestrel\nplant W Y\nrow 1 2 0\nrow 2 0 1")

    assert (note.per_plant, note.spots) == ((2, 1), ())


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("Kestrel\nPlants | White | Yellow\n5 | 3 | 1", "en"),
        ("Kestrel\nPlants White Yellow\n5 3 1", "en"),
        ("Kestrel\nplants,white,yellow,stage\n5,3,1,R2", "en"),
        ("Lote 7\nPlantas | Blancas | Amarillas\n5 | 3 | 1", "es"),
        ("Lote 7\nPlantas | Brancas | Amarelas\n5 | 3 | 1", "pt"),
    ],
)
def test_a_lone_row_below_plants_tells_how_many_they_are(text, language):
    """Five plants, and not the fifth one."""
    note = read(text, language)

    assert (note.plants, note.females.total, note.per_plant) == (5, 4, None)


def test_the_same_number_of_plants_again_is_asked_about():
    """Two looks, or two places?"""
    text = "Kestrel\nPlants | White | Yellow\n5 | 3 | 1\n5 | 0 | 0"

    assert read_note(text, sent=SENT, fields=("Kestrel",)).problems
