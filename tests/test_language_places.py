"""Places in a field that no table of words has, told by counting again and again."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import Language, Note

SENT = date(2026, 7, 20)


def read(text: str, language: Language = "en") -> Note:
    reading = read_note(text, sent=SENT, fields=("Kestrel", "Harrow Ridge 3", "Lote 7"), language=language)
    assert not reading.problems, reading.problems
    (note,) = reading.notes
    return note


def told(note: Note) -> list[tuple[str | None, int | None, int | None]]:
    return [(spot.name, spot.plants, spot.females.total) for spot in note.spots]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "by the cattails in kestrel I found 18 white on 4 plants but up by the windmill just 1 white on 4 plants",
            [("cattails", 4, 18), ("windmill", 4, 1)],
        ),
        (
            "kestrel 5 plants 3 white at the old cellar. 5 plants 8 white by the beehives.",
            [("old cellar", 5, 3), ("beehives", 5, 8)],
        ),
        (
            "kestrel - 3 plants in the wheel track (0 females) and 3 plants between tracks (5 white)",
            [("wheel track", 3, 0), ("between tracks", 3, 5)],
        ),
        (
            "kestrel: the sandy rise 4 plants 3w, the heavy clay toe 4 plants 9w",
            [("sandy rise", 4, 3), ("heavy clay toe", 4, 9)],
        ),
        ("kestrel good dirt 6pl 2w, gumbo 6pl 0", [("good dirt", 6, 2), ("gumbo", 6, 0)]),
        (
            "kestrel 6 dug at the first stop 4 white, 6 dug at second stop 9 white",
            [("first stop", 6, 4), ("second stop", 6, 9)],
        ),
        (
            "harrow ridge 3 in the ugly spot 4 plants 33 yellow; 4 plants in decent beans 6 yellow",
            [("ugly spot", 4, 33), ("decent beans", 4, 6)],
        ),
    ],
)
def test_words_beside_each_of_several_counts_name_places(text, expected):
    """What is counted twice, with plants of its own each time, lies in two places; the words beside say where."""
    assert told(read(text)) == expected


def test_plants_are_told_once_and_meant_again():
    """The second number before a place counts plants as the first did, in Spanish too."""
    note = read("Lote 7: 6 plantas en la loma (4 blancas) y 6 en el desagüe (19 blancas, 3 amarillas)", "es")

    assert told(note) == [("loma", 6, 4), ("desagüe", 6, 22)]
    assert note.plants == 12


def test_numbered_points_with_plants_of_their_own_are_places():
    """ "P1: 4 pl, .." is a point dug at; "p1: 3, p2: 0" stays a plant."""
    points = read("Lote 7 P1: 4 pl, 10 amarelas. P2: 4 pl, nada.", "pt")
    plants = read("kestrel p1: 3, p2: 0, p3: 4 all white")

    assert told(points) == [("p1", 4, 10), ("p2", 4, 0)]
    assert (plants.per_plant, plants.spots) == ((3, 0, 4), ())


def test_the_strips_own_seed_is_not_the_fields():
    """A susceptible check strip says nothing of the field's variety."""
    note = read(
        "kestrel R1, the susceptible comparison row had 60 white on 5 plants, while the main block had 2 white on 5 plants"
    )

    assert [(spot.name, spot.check) for spot in note.spots] == [
        ("susceptible comparison row", True),
        ("main block", False),
    ]
    assert note.variety is None


def test_one_count_alone_makes_no_place():
    """Free words before one count of plants stay free words."""
    note = read("kestrel windy afternoon, 5 plants 3 white")

    assert note.spots == ()
    assert "windy afternoon" in note.text


def test_a_day_before_the_first_of_several_fields_is_said_of_all():
    """ "Yesterday" in front of the first name is no more of that field than of the next."""
    reading = read_note(
        "yesterday kestrel 5 pl none, harrow ridge 3 6 pl 2 white", sent=SENT, fields=("Kestrel", "Harrow Ridge 3")
    )

    assert [note.date for note in reading.notes] == [date(2026, 7, 19)] * 2


def test_who_signs_is_no_field():
    """A name behind the last word of thanks names a person."""
    reading = read_note("white 14 not 12. thanks, Jo", sent=SENT, fields=("Kestrel",))

    assert [dict(command.args) for command in reading.commands] == [{"what": "white", "value": 14, "old": 12}]
    assert (reading.notes, reading.problems) == ((), ())


def test_what_stands_behind_a_label_is_said_of_it():
    """ "Roots: dark, stubby" loses neither word to the colon nor to the comma."""
    note = read("kestrel 4 pl 3w. Roots: dark, stubby. Nodules: few. Tops: stunted, yellow")

    assert (set(note.roots), set(note.tops)) == ({"dark", "stubby", "nodules_few"}, {"stunted", "yellow"})


def test_a_weekday_tells_which_day_is_meant_or_that_one_is_wrong():
    """ "Fri 7/10" was a Friday; "Thu 7/10" was not, and is asked about."""
    right = read("kestrel fri 7/10 4 pl 3w")
    wrong = read_note("kestrel thu 7/10 4 pl 3w", sent=SENT, fields=("Kestrel",))

    assert right.date == date(2026, 7, 10)
    assert [problem.kind for problem in wrong.problems] == ["weekday_mismatch"]


@pytest.mark.parametrize(
    ("text", "language", "expected"),
    [
        (
            "Kestrel, three places of 4 plants: hill none, low end 6 white, gate 2 white",
            "en",
            [("hill", 4, 0), ("low end", 4, 6), ("gate", 4, 2)],
        ),
        (
            "Kestrel, tres estaciones de 4 plantas: loma, sin hembras; media loma, 6 blancas; bajo, 19 blancas",
            "es",
            [("loma", 4, 0), ("media loma", 4, 6), ("bajo", 4, 19)],
        ),
    ],
)
def test_so_many_plants_at_each_of_the_places_told_behind(text, language, expected):
    """As many as there are places; their sum is the note's."""
    note = read(text, language)

    assert (note.plants, told(note)) == (12, expected)


@pytest.mark.parametrize(
    ("text", "language", "expected"),
    [
        (
            "Kestrel: 10 plants at two stations. Station A (5): 8 W, 2 Y. Station B (5): 15 W, 6 Y.",
            "en",
            [("station a", 5, 10), ("station b", 5, 21)],
        ),
        ("Kestrel shovel, gate (5) 8 white, hill (4) none", "en", [("gate", 5, 8), ("hill", 4, 0)]),
        ("Kestrel. Check strip (5): 62 white. Ours (10): 3 white", "en", [("check strip", 5, 62), ("ours", 10, 3)]),
        ("Kestrel. Punto A (5): 8 blancas. Punto B (5): ninguna", "es", [("punto a", 5, 8), ("punto b", 5, 0)]),
        ("Kestrel. Ponto A (5): 8 brancas. Ponto B (5): nenhuma", "pt", [("ponto a", 5, 8), ("ponto b", 5, 0)]),
        ("Kestrel: gate 2, 1, 0 = 3. hill 4, 5, 6 = 15", "en", [("gate", 3, 3), ("hill", 3, 15)]),
    ],
)
def test_numbers_in_brackets_behind_places_are_their_plants(text, language, expected):
    """A count stands behind each; the sum behind a list tells nothing more."""
    assert told(read(text, language)) == expected


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel 10 plants, gate (8) hill (2)",
        "Kestrel. 5 plants each. Spot (1): 8 white. Spot (2): none",
        "Kestrel dug 5. Gate (4): dry, none. Hill (12): moist, none",
    ],
)
def test_other_numbers_in_brackets_behind_places_are_asked_about(text):
    """Plants, females, or the number of the place?"""
    assert read_note(text, sent=SENT, fields=("Kestrel",)).problems


def test_places_counted_in_words_times_their_plants():
    """ "Em cada ponto", the number of points a word."""
    note = read("Kestrel, cinco pontos na pá, 2 plantas em cada ponto, nenhuma fêmea", "pt")

    assert (note.plants, note.outcome) == (10, "none_seen")


@pytest.mark.parametrize(
    ("text", "name", "expected"),
    [
        ("40 white on 2 plants in the check, 3 white on 6 plants in the crop, R3, that's kestrel", "check", (6, 3)),
        ("Kestrel 40 white on 2 plants in the check strip, 3 white on 6 plants in the rest", "check strip", (6, 3)),
        ("Kestrel: 40 white on 2 plants in the check, none on 6 plants in the crop", "check", (6, 0)),
        ("Kestrel 40 blancas en 2 plantas del testigo, 3 blancas en 6 plantas", "testigo", (6, 3)),
        ("Kestrel 40 brancas em 2 plantas na testemunha, 3 brancas em 6 plantas na lavoura", "testemunha", (6, 3)),
    ],
)
def test_a_strip_named_behind_its_counts(text, name, expected):
    """What is told behind it of no strip is of the field."""
    note = read(text)
    assert (note.plants, note.females.total) == expected
    assert told(note) == [(name, 2, 40)]
    assert note.spots[0].check


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("Kestrel. PT 1: 5 PLANTS, 2 WHITE. PT 2: 5 PLANTS, 9 WHITE 4 YELLOW. PATCH BETWEEN THEM, 60 FT WIDE.", "pt"),
        ("Kestrel wp 1 5 plants 2 white, wp 2 5 plants 9 white 4 yellow", "wp"),
        ("Kestrel. pt 1: 5 pés, 2 brancas. pt 2: 5 pés, 9 brancas 4 amarelas", "pt"),
    ],
)
def test_points_by_number(text, names):
    assert told(read(text)) == [(f"{names} 1", 5, 2), (f"{names} 2", 5, 13)]


@pytest.mark.parametrize(
    "text",
    [
        "KESTREL, 30 INCH ROWS, 50 PACES FROM THE NE CORNER. 7 PLANTS: 0 2 0 1 0 0 3. ROOTS RINSED.",
        "Kestrel 100 steps from the corner 7 plants: 0 2 0 1 0 0 3",
        "Kestrel a 50 pasos del portón, 7 plantas: 0 2 0 1 0 0 3",
        "Kestrel a 50 passos da porteira, 7 pés: 0 2 0 1 0 0 3",
    ],
)
def test_paces_count_no_plants(text):
    note = read(text)
    assert (note.plants, note.females.total, note.spots) == (7, 6, ())


def test_in_before_an_article_is_no_place():
    note = read("3 white on 6 plants in the low end, 12 white on 4 plants in the high end, that's kestrel")
    assert told(note) == [("low end", 6, 3), ("high end", 4, 12)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Kestrel: along the back fence 4 plants 6 white, by the front gate 4 plants none",
            ["back fence", "front gate"],
        ),
        ("Kestrel: by the old fence 4 plants 6 white, by the new fence 4 plants none", ["old fence", "new fence"]),
        ("Kestrel: back hill 4 plants 6 white, back ditch 4 plants none", ["back hill", "back ditch"]),
        ("Went back. Kestrel fence 4 plants 6 white, hill 4 plants none", ["fence", "hill"]),
        ("Kestrel. pass 1 - 4 plants - 6w. pass 2 - 4 plants - 0", ["pass 1", "pass 2"]),
    ],
)
def test_which_fence_it_is_belongs_to_the_name_of_the_place(text, expected):
    """What stands between the article and the place tells it from others."""
    assert told(read(text)) == [(expected[0], 4, 6), (expected[1], 4, 0)]


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("Kestrel. First stop 4 plants 3 white, second stop 4 plants nothing, third stop 4 plants 9 white", "en"),
        (
            "Kestrel. Primera parada 4 plantas 3 blancas, segunda parada 4 plantas nada, "
            "tercera parada 4 plantas 9 blancas",
            "es",
        ),
        (
            "Kestrel. Primeira parada 4 plantas 3 brancas, segunda parada 4 plantas nada, "
            "terceira parada 4 plantas 9 brancas",
            "pt",
        ),
    ],
)
def test_stops_told_in_order_are_no_plants(text, language):
    """Each has plants of its own."""
    assert [(spot.plants, spot.females.total) for spot in read(text, language).spots] == [(4, 3), (4, 0), (4, 9)]


@pytest.mark.parametrize("text", ["Kestrel: gate 12/5, pond 3/5, hill 0/5", "Kestrel: ours 0/5. check 31/5"])
def test_females_over_plants_or_two_plants_is_asked(text):
    """Twelve on five plants, or a plant with twelve and one with five?"""
    assert read_note(text, sent=SENT, fields=("Kestrel",)).problems
