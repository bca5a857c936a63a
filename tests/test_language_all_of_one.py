"""What is said of all plants of one field is told of no other; and where a field begins among others."""

from __future__ import annotations

from dataclasses import asdict
from datetime import date

import pytest

from notes_bot.language import read_note
from tests.reading_kit import CREW, SENT, note_of, reading_of

NONE = {"white": 0, "yellow": 0, "tan": 0, "brown": 0, "total": 0}


def told(text: str, language: str | None = None) -> list[dict]:
    """The notes of a message without a question or request, each with what it tells and no more."""
    reading = read_note(text, sent=SENT, fields=CREW, language=language) if language else reading_of(text)
    assert (reading.problems, reading.commands) == ((), ())
    keys = ("field", "plants", "method", "soaked", "females", "per_plant", "outcome", "soil", "stage", "tops")
    keys = (*keys, "look_again")
    rows = [{key: _bare(asdict(note)[key]) for key in keys} for note in reading.notes]
    return [{key: value for key, value in row.items() if value not in (None, (), {})} for row in rows]


def _bare(value: object) -> object:
    if isinstance(value, dict):
        return {key: one for key, one in value.items() if one not in (None, ())}
    return value


def white(count: int) -> dict:
    return {**NONE, "white": count, "total": count}


FIRST = {"field": "kestrel", "plants": 6, "method": "shovel", "females": white(4), "outcome": "seen"}


@pytest.mark.parametrize(
    ("behind", "other"),
    [
        (
            "Dry Creek was second. I pulled nine, all rinsed first. Females: none. The ground was damp.",
            {"plants": 9, "method": "pulled", "soaked": True, "females": NONE, "outcome": "none_seen"}
            | {"soil": {"moisture": "moist"}},
        ),
        (
            "Dry Creek was second. Everything was dug with the spade, none pulled. Females: 8.",
            {"method": "shovel", "females": {"total": 8}, "outcome": "seen"},
        ),
        (
            "Dry Creek was second. Seven plants dug, nothing rinsed for lack of water. One white female.",
            {"plants": 7, "method": "shovel", "soaked": False, "females": white(1), "outcome": "seen"},
        ),
        (
            "Dry Creek was second. 5 plants dug, 2 white. Everything was wilted when I got there.",
            {"plants": 5, "method": "shovel", "females": white(2), "outcome": "seen", "tops": ("wilted",)},
        ),
    ],
)
def test_all_of_the_plants_of_the_second_field_is_not_said_of_the_first(behind, other):
    assert told(f"Kestrel: 6 plants dug, 4 white. {behind}") == [FIRST, {"field": "dry creek", **other}]


def test_both_plants_counted_one_by_one_are_no_two_fields():
    first, second = told("Kestrel: 6 plants, 4 white. Dry Creek: first plant had 3 white, second one had 1, both dug.")
    assert "method" not in first
    assert second["method"] == "shovel"


@pytest.mark.parametrize(
    ("text", "soaked"),
    [
        ("Kestrel: 6 plants dug, 4 white. Dry Creek: 5 plants dug, 2 white. All rinsed.", (True, True)),
        ("Kestrel: 6 plants dug, 4 white. Dry Creek: 5 plants dug, none. All soaked.", (True, True)),
    ],
)
def test_all_behind_what_was_found_is_still_said_of_both_fields(text, soaked):
    assert tuple(row.get("soaked") for row in told(text)) == soaked


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("La Tranquera: 6 plantas, 3 blancas. Bajo Grande: 5 plantas, 2 blancas. Seco, duro como ladrillo.", "es"),
        ("La Tranquera: 6 plantas, 3 blancas. Bajo Grande: 5 plantas, 2 blancas. R2, parejo en todo el lote.", "es"),
    ],
)
def test_one_thing_said_twice_or_of_the_whole_field_is_of_the_last(text, language):
    first, second = told(text, language)
    assert {"soil", "stage"} & first.keys() == set()
    assert {"soil", "stage"} & second.keys()


@pytest.mark.parametrize(
    ("text", "fields"),
    [
        ("Kestrel: 5 dug, none. These are for Dry Creek. 4 plants: 2, 0, 5, 1.", ["kestrel", "dry creek"]),
        ("Kestrel: plant 1 had 0, plant 2 had 6. My next one was Dry Creek. Pulled 2. Females: none.",
         ["kestrel", "dry creek"]),
        ("Kestrel. I turned back without looking. I was just over at Dry Creek and am in the truck. 7 plants, 3 tan.",
         ["kestrel", "dry creek"]),
    ],
)  # fmt: skip
def test_the_next_field_begins_behind_a_list_what_a_plant_had_and_no_look(text, fields):
    assert [row["field"] for row in told(text)] == fields


@pytest.mark.parametrize(
    ("text", "method"),
    [
        ("Baixada, volto aqui em quinze dias, cavei dez plantas, vi 8 brancas", "shovel"),
        ("Baixada, em 5 dias eu retorno aqui sem falta, arranquei dez plantas, vi 8 brancas", "pulled"),
        ("Bajo Grande, vuelvo en quince días, arranqué diez plantas, vi 8 blancas", "pulled"),
        ("Kestrel, I'll be back here in 15 days, pulled ten plants, saw 8 white", "pulled"),
        ("Baixada, dez plantas, vi 8 brancas, volto em quinze dias, arranco mais e lavo", None),
        ("Baixada, dez plantas, vi 8 brancas. Tem que cavar aqui outra vez em duas semanas", None),
        ("Bajo Grande, diez plantas, vi 8 blancas. Hay que cavar acá otra vez en dos semanas", None),
    ],
)
def test_what_was_done_is_no_plan_and_a_plan_is_nothing_done(text, method):
    note = note_of(text)
    assert (note.plants, note.method, note.females.total) == (10, method, 8)
    assert note.look_again is not None


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel next, could you remind me to come back to this field in a week? Dug 10, 4 white.",
        "Kestrel, remind me to come back here in 7 days. Dug 10, 4 white.",
        "Cancela, me lembra de voltar aqui em 7 dias. Cavei 10, 4 brancas.",
        "Bajo Grande, haceme acordar de volver acá en 7 días. Saqué 10 con pala, 4 blancas.",
    ],
)
def test_a_reminder_asked_for_here_leaves_the_note_its_field(text):
    note = note_of(text)
    assert note.field in ("kestrel", "cancela", "bajo grande")
    assert (note.plants, note.females.total) == (10, 4)
    assert note.look_again is not None
    assert note.look_again.days == 7


def test_a_reminder_with_no_note_behind_it_stays_one():
    (command,) = reading_of("Kestrel, remind me to come back here in a week.").commands
    assert command.kind == "move"


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel, eight plants\nit was 42 white",
        "Bajo Grande: ocho plantas\neran 42 blancas",
        "Cancela: oito plantas\neram 42 brancas",
        "Kestrel, eight plants\nYikes, 42 white",
        "Bajo Grande: ocho plantas\nuy, 42 blancas",
        "Cancela: oito plantas\neita, 42 brancas",
    ],
)
def test_what_was_found_stands_below_the_plants(text):
    note = note_of(text)
    assert (note.plants, note.females.white) == (8, 42)


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel. Eased them out, twelve in all. Females: 5.",
        "Kestrel. Eased them out, twelve in all. 5 females. Dry Creek: 6 plants, 3 white.",
        "Bajo Grande. Las aflojé a mano, doce en total. Hembras, cinco.",
    ],
)
def test_so_many_in_all_behind_the_digging_are_plants_whatever_other_fields_tell(text):
    first = reading_of(text).notes[0]
    assert (first.plants, first.method, first.females.total) == (12, "eased", 5)


@pytest.mark.parametrize(
    "text",
    [
        "Cheguei em Cancela lá pelas 10 e 45. Cavei 6, 4 brancas.",
        "Llegué a Bajo Grande a eso de las 9 y 15. Saqué 6 con pala, 4 blancas.",
    ],
)
def test_hours_with_their_minutes_are_no_counts(text):
    note = note_of(text)
    assert (note.plants, note.females.white, note.date) in {(6, 4, None), (6, 4, date(2026, 7, 8))}
