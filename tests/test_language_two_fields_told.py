"""Two fields in one run-on message, dictated or in lines: what is told behind the second belongs to it alone."""

from __future__ import annotations

import pytest

from notes_bot.model import Note
from tests.reading_kit import note_of, reading_of

Told = tuple[str | None, int | None, str | None, bool | None, int | None]
"""A note's field, plants, method, washing and all females."""


def told(note: Note) -> Told:
    return note.field, note.plants, note.method, note.soaked, note.females.total


def both_of(text: str) -> tuple[Told, Told]:
    """What two notes of a message tell that asks nothing and is not asked about."""
    reading = reading_of(text)
    assert (reading.problems, reading.commands) == ((), ()), (reading.problems, reading.commands)
    first, second = reading.notes
    return told(first), told(second)


FIRST = {
    "en": ("Kestrel, 6 plants by hand, 12 white", ("kestrel", 6, "pulled", None, 12)),
    "es": ("La Tranquera, 6 plantas a mano, 12 blancas", ("la tranquera", 6, "pulled", None, 12)),
    "pt": ("Cancela, 6 plantas com a mão, 12 brancas", ("cancela", 6, "pulled", None, 12)),
}


@pytest.mark.parametrize("parted", [". ", "\n", ", "])
@pytest.mark.parametrize(
    ("language", "behind", "second"),
    [
        ("en", "then I drove on over to Dry Creek|on each it was 2, 0, 1, 4", ("dry creek", 4, None, None, 7)),
        ("en", "I was in Dry Creek a good forty minutes|4 plants, 5 tan", ("dry creek", 4, None, None, 5)),
        ("en", "put that under Dry Creek pls|never rinsed any, 9 yellow", ("dry creek", None, None, False, 9)),
        ("en", "this next one's Dry Creek|spade this time, 3 white 1 tan", ("dry creek", None, "shovel", None, 4)),
        ("en", "new field, Dry Creek|five plants, 2 brown", ("dry creek", 5, None, None, 2)),
        ("es", "de ahí seguí a Bajo Grande|lavé las raíces, 9 amarillas", ("bajo grande", None, None, True, 9)),
        ("es", "lote nuevo, Bajo Grande|5 plantas, 2 marrones", ("bajo grande", 5, None, None, 2)),
        ("pt", "depois fui na Baixada|cinco plantas com pá, 9 amarelas", ("baixada", 5, "shovel", None, 9)),
        ("pt", "depois fui no North Forty|cinco plantas com pá, 9 pardas", ("north forty", 5, "shovel", None, 9)),
    ],
)
def test_what_stands_behind_the_second_field_is_of_it(language: str, behind: str, second: Told, parted: str) -> None:
    text, first = FIRST[language]
    assert both_of(f"{text}{parted}{behind.replace('|', parted)}") == (first, second)


@pytest.mark.parametrize(
    ("text", "methods"),
    [
        (
            "Kestrel: 6 plants, 3 white. Dry Creek is done too. All of it with the spade. 4 plants, none",
            (None, "shovel"),
        ),
        ("Kestrel: 6 plants, 3 white. Dry Creek. Plant one two, plant two none, all dug", (None, "shovel")),
        ("Kestrel: 6 plants, 3 white. Dry Creek 4 plants, none. All dug with the spade", ("shovel", "shovel")),
        ("Kestrel: 6 plants, 3 white. Dry Creek. Both dug with the spade. 4 plants, none", ("shovel", "shovel")),
        ("La Tranquera: 6 plantas, 3 blancas. Bajo Grande. Todo con pala. 4 plantas, nada", (None, "shovel")),
        ("Cancela: 6 plantas, 3 brancas. Baixada. Tudo com pá. 4 plantas, nada", (None, "shovel")),
    ],
)
def test_all_of_it_is_said_of_the_field_at_hand_where_its_look_is_told_behind(
    text: str, methods: tuple[str | None, str | None]
) -> None:
    one, other = both_of(text)
    assert (one[2], other[2]) == methods


def test_sitting_in_the_truck_at_the_second_field_is_no_look() -> None:
    reading = reading_of(
        "Kestrel. 6 plants, none. Dry Creek. Sign on the gate, stayed in the truck. Lots of fine roots"
    )

    assert reading.problems == ()
    assert [(note.field, note.outcome) for note in reading.notes] == [
        ("kestrel", "none_seen"),
        ("dry creek", "not_looked"),
    ]


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel, beans shorter than they should, 7 plants with the spade, washed, 5 white",
        "La Tranquera, más bajas de lo que deberían, 7 plantas con pala, lavadas, 5 blancas",
        "Cancela, mais baixas do que deviam, 7 plantas com pá, lavadas, 5 brancas",
    ],
)
def test_what_beans_should_be_leaves_the_digging_done(text: str) -> None:
    note = note_of(text)

    assert (note.plants, note.method, note.soaked, note.females.white) == (7, "shovel", True, 5)


@pytest.mark.parametrize(
    ("text", "method"),
    [
        ("Just pulled up to Kestrel. Soaked the roots of 5 plants, 3 white", None),
        ("I just pulled into Kestrel. 5 plants, soaked, 3 white", None),
        ("Kestrel. Just pulled 5 plants, soaked, 3 white", "pulled"),
    ],
)
def test_a_truck_is_pulled_up_and_no_plants(text: str, method: str | None) -> None:
    assert told(note_of(text)) == ("kestrel", 5, method, True, 3)


@pytest.mark.parametrize(
    "text",
    [
        "Put this under Kestrel please. Five plants, 3 white. The tag says it's a susceptible one",
        "Put this under Kestrel please, five plants, 3 white, the tag says it's a susceptible one",
        "Kestrel\nfive plants, 3 white\nsupposed to be susceptible",
    ],
)
def test_a_seed_told_in_a_note_puts_nothing_right(text: str) -> None:
    note = note_of(text)

    assert (note.field, note.plants, note.females.white) == ("kestrel", 5, 3)
    assert note.variety is not None
    assert note.variety.resistance == "susceptible"


def test_please_is_no_word_for_plants() -> None:
    note = note_of("Kestrel 5 pls. 3 white. Look again in a week pls. beans at R2")

    assert (note.plants, note.females.total, note.stage) == (5, 3, "R2")


def test_who_talks_about_a_field_gives_it_no_second_name() -> None:
    note = note_of("This here is Kestrel I'm talking about\n5 plants, 3 white")

    assert told(note) == ("kestrel", 5, None, None, 3)


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel, on the low side by the road, roots snapped, 5 plants, 3 white",
        "La Tranquera, en el bajo por el camino, raíces cortadas, 5 plantas, 3 blancas",
    ],
)
def test_a_road_in_another_clause_leaves_roots_snapped(text: str) -> None:
    assert note_of(text).roots == ("snapped",)


def test_plants_from_two_ends_are_summed_whatever_is_told_of_leaves_or_the_next_field() -> None:
    leaves = note_of("Kestrel. Dug 5 from the bad end and 5 from the good end. 12 white. Older leaves yellow down low")
    one, other = both_of("Kestrel. Dug 5 from the bad end and 5 from the good end, 12 white. Dry Creek 3 plants none")

    assert leaves.plants == 10
    assert (one[1], other[1]) == (10, 3)


@pytest.mark.parametrize(
    "text",
    [
        "New field, Kestrel, it was sprayed last week, five plants, soaked, 3 white, and it's a susceptible bean",
        "Lote nuevo, La Tranquera, cinco plantas, lavadas, 3 blancas, variedad susceptible",
    ],
)
def test_a_new_field_the_crew_has_is_only_brought_up(text: str) -> None:
    assert told(note_of(text))[1:] == (5, None, True, 3)


def test_a_new_field_is_still_told_with_its_size() -> None:
    reading = reading_of("New field, Kestrel, 40 acres")

    assert [(command.kind, command.args.get("acres")) for command in reading.commands] == [("field", 40.0)]
