"""Very terse notes: signs of the writer's own for stops, chains without blanks, lists a place, labels a plant."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.reader import read_note

FIELDS = ("Kestrel", "Dry Creek", "Tinker's", "Ridge Top", "Molino Viejo", "Santa Rita")
SENT = date(2026, 7, 8)


def _read(text):
    return read_note(text, sent=SENT, fields=FIELDS)


def _plain(text):
    """What a message holds but for its own wording: notes without places in the text."""
    reading = _read(text)
    told = [
        (n.field, n.date, n.plants, n.method, n.soaked, n.females, n.per_plant, n.outcome, n.stage, n.soil, n.roots)
        for n in reading.notes
    ]
    return told, [(c.kind, c.args) for c in reading.commands], len(reading.problems)


CLAUSES = (
    ("kestrel", "6 pl", "w 9 y 3", "moist loam", "v5", "again 10d"),
    ("ridge top", "yday", "2 0 0 1", "eased & rinsed", "r3"),
    ("dry creek", "dug 8", "12w 3y 1t", "wet clay", "roots dark", "r2-3"),
    ("tinkers", "not dug", "mud", "back fri"),
    ("kestrel", "3 0 7 2", "dug", "washed", "sandy loam", "back 14d"),
    ("kestrel", "5 pl", "0 seen", "yel patches", "r4"),
    ("molino viejo", "8 pl", "12 b 3 a", "húmedo", "r2", "con pala"),
    ("santa rita", "8 pés", "12 b 3 a", "úmido", "r2", "com pá"),
)
SIGNS = (" / ", "/", " // ", "//", " + ", "+", " = ", "> ", " > ", ">", " .. ", "...", " ~ ", "~", " -- ", "--", "-")
SIGNS += (" | ", " * ", " : ", " >> ", " -> ", " => ", " · ", " • ", " \\ ")


@pytest.mark.parametrize("sign", SIGNS)
@pytest.mark.parametrize("clauses", CLAUSES, ids=[" ".join(clauses[:2]) for clauses in CLAUSES])
def test_any_sign_told_again_and_again_parts_clauses(clauses, sign):
    """Whatever stands between the clauses, they are read as with commas."""
    assert _plain(sign.join(clauses)) == _plain(", ".join(clauses))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("kestrel/pl 4/w 2//tinkers/pl 4/0 seen//again 10d both", [("kestrel", 4, 2), ("tinkers", 4, 0)]),
        ("kestrel/4 pl/3w//tinkers/5 pl/0", [("kestrel", 4, 3), ("tinkers", 5, 0)]),
        ("kestrel/dug 8/12w/r2", [("kestrel", 8, 12)]),
        ("dry creek/yel patches/pl 6/w 0 y 4 t 2 b 1/k 88ppm/ph 6.3/stubby rts", [("dry creek", 6, 7)]),
        ("kestrel-dug 8-12w 3y-wet clay-r2-3", [("kestrel", 8, 15)]),
    ],
)
def test_a_number_told_by_the_word_before_it_ends_its_clause(text, expected):
    """ "pl 4/0 seen" is four plants and none seen, no fraction."""
    reading = _read(text)
    assert not reading.problems
    assert [(n.field, n.plants, n.females.total) for n in reading.notes] == expected


@pytest.mark.parametrize(
    ("text", "plants", "total"),
    [
        ("kestrel: plants = 6, white = 9, yellow = 3", 6, 12),
        ("kestrel plants = 6 white = 9 yellow = 3", 6, 12),
        ("kestrel pl=6 w=9 y=3", 6, 12),
        ("kestrel pl-6 w-9 y-3", 6, 12),
        ("kestrel pl - 6, w - 9, y - 3", 6, 12),
        ("kestrel pl->6 w->9 y->3", 6, 12),
        ("kestrel plantas = 6 blancas = 9 amarillas = 3", 6, 12),
        ("Field - Kestrel\nPlants - 5\nFemales - 8 white\nRoots - stubby", 5, 8),
        ("kestrel 6 plants, 3w + 2y + 1t", 6, 6),
        ("kestrel 6 pl w > y > t, 100+ total", 6, 100),
    ],
)
def test_a_sign_between_a_label_and_its_number_parts_nothing(text, plants, total):
    """ "white = 9" and sums are what they were."""
    note = _read(text).notes[0]
    assert (note.field, note.plants, note.females.total) == ("kestrel", plants, total)
