"""What is thought better of within a note, denied or only seen, and which of two fields is told behind."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note

SENT = date(2026, 7, 8)
CREW = ("Depot", "Grange North", "Dry Creek", "La Aguada", "El Tajamar", "Baixada", "Santa Rita")


def _read(text: str, language: str = "en"):
    return read_note(text, sent=SENT, fields=CREW, language=language)  # type: ignore[arg-type]


def _note(text: str, language: str = "en"):
    reading = _read(text, language)
    assert reading.problems == (), reading.problems
    (note,) = reading.notes
    return note


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("Depot no wait Grange North, 6 plants 4 white", "grange north"),
        ("Depot no Grange North. 6 plants 4 white", "grange north"),
        ("Depot, sorry Dry Creek. 6 plants 4 white", "dry creek"),
        ("Dry creek... no, Depot. 6 plants 4 white", "depot"),
        ("Depot wait no that's Grange North. 6 plants 4 white", "grange north"),
    ],
)
def test_the_second_name_is_the_field(text, field):
    """No empty note of the first one is kept, and the answer says so."""
    assert _note(text).field == field
    assert [remark.kind for remark in _read(text).remarks] == ["near_word"]


def test_none_in_one_field_and_some_in_the_next_is_no_second_thought():
    """ "No" behind a name and counts behind the next one tell of both."""
    reading = _read("Depot no, Grange North 4 white on 6 plants")

    assert "grange north" in [note.field for note in reading.notes]
    assert reading.notes[0].field == "depot"


@pytest.mark.parametrize(
    ("text", "language", "listed"),
    [
        ("Depot V4 dug six, 4 0 0 9 2 1 whites. no wait the 9 was a 6", "en", (4, 0, 0, 6, 2, 1)),
        ("Depot 5 plants: 3 0 2 8 1 white. wait the 8 is a 3", "en", (3, 0, 2, 3, 1)),
        ("Depot dug 5: 2 0 4 7 1. oops that 7 should be 1", "en", (2, 0, 4, 1, 1)),
        ("Depot dug 4, 2 0 4 7 white, sorry the 7 is a 1", "en", (2, 0, 4, 1)),
        ("La Aguada 5 plantas 3 0 9 1 2 blancas, no pará el 9 era 6", "es", (3, 0, 6, 1, 2)),
        ("Baixada 5 plantas 3 0 9 1 2 brancas. opa o 9 era 6", "pt", (3, 0, 6, 1, 2)),
    ],
)
def test_a_number_of_the_list_put_right(text, language, listed):
    """The list is told as it should be."""
    assert _note(text, language).per_plant == listed


def test_a_number_told_twice_in_the_list_is_asked_about():
    """Which of the two was a six?"""
    assert _read("Depot 5 plants: 9 0 9 1 2 white. wait the 9 was a 6").problems


@pytest.mark.parametrize(
    "denial", ["nary a white one", "not a white one", "never a white one", "not one white", "no white ones"]
)
def test_a_color_denied_is_no_count(denial):
    """Its "one" counts nothing."""
    females = _note(f"Depot dug 6, 7 tan 4 brown, {denial}").females

    assert (females.white, females.tan, females.brown) == (0, 7, 4)


@pytest.mark.parametrize(
    ("text", "language", "plants"),
    [
        ("Depot dug 3 there's white ones on every root, didn't count", "en", 3),
        ("Depot dug 3 and they's white uns on every root, didn't number em", "en", 3),
        ("Depot dug 4 and there were white females on all of them", "en", 4),
        ("Depot dug 3, white ones on every root", "en", 3),
        ("La Aguada saqué 4 y había blancas en todas", "es", 4),
        ("Baixada arranquei 4 e tinha brancas em todas", "pt", 4),
    ],
)
def test_plants_dug_are_no_count_of_what_was_seen(text, language, plants):
    """Nobody counted the white ones."""
    note = _note(text, language)

    assert (note.plants, note.mostly, note.females.total, note.outcome) == (plants, ("white",), None, "seen")


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("Depot - cysts yes but no count, running late. V5", "en"),
        ("Depot cysts yes, count no", "en"),
        ("Depot dug 4, females yes, did not count them", "en"),
        ("La Aguada quistes sí, conteo no", "es"),
        ("Baixada cistos sim, sem contagem", "pt"),
    ],
)
def test_females_yes_is_seen(text, language):
    """Also where nobody counted."""
    assert _note(text, language).outcome == "seen"


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("Depot five plants, I thought they were clean but there was one brown on the last root", "en"),
        ("Depot 5 plants, thought it was clean but found 1 brown on the last one", "en"),
        ("Depot 5 plants, almost called it clean, then one brown", "en"),
        ("La Aguada 5 plantas, pensé que estaban limpias pero había una marrón en la última", "es"),
        ("Baixada 5 plantas, achei que estavam limpas mas tinha uma marrom na última", "pt"),
    ],
)
def test_what_was_thought_at_first_is_no_finding(text, language):
    """What was found counts."""
    note = _note(text, language)

    assert (note.plants, note.females.brown, note.females.total) == (5, 1, 1)


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("Depot and Grange North, both V5. Six plants each, dug: none in the first and 5 white in the second.", "en"),
        ("Depot and Dry Creek, 6 plants each: none in the first, 5 yellow in the second", "en"),
        ("Depot and Dry Creek: none in the first and 5 white in the second, 6 plants each", "en"),
        ("La Aguada y El Tajamar, 6 plantas en cada uno: nada en el primero y 5 blancas en el segundo", "es"),
        ("Baixada e Santa Rita, 6 plantas cada: nada no primeiro e 5 brancas no segundo", "pt"),
    ],
)
def test_the_first_and_the_second_are_fields(text, language):
    """They are told behind what was found there."""
    reading = _read(text, language)

    assert reading.problems == ()
    assert [(note.plants, note.females.total) for note in reading.notes] == [(6, 0), (6, 5)]


@pytest.mark.parametrize(
    "text", ["Depot v1 and Dry Creek v2. no digging yet at either", "Depot V1, Dry Creek V2, not dug either one"]
)
def test_each_field_has_its_own_stage(text):
    """They are no range."""
    assert [(note.stage, note.outcome) for note in _read(text).notes] == [("V1", "not_looked"), ("V2", "not_looked")]


def test_ditto_except_what_is_told():
    """All but the counts is the field's above."""
    first, second = _read(
        "Depot 7/3: R3, dug 5, rinsed, clay loam, moist, 0 females. Dry Creek ditto except 4 white"
    ).notes

    assert (second.stage, second.plants, second.soaked, second.soil) == (first.stage, 5, True, first.soil)
    assert second.females.total == 4


@pytest.mark.parametrize(
    ("text", "language", "ph", "potassium"),
    [
        (
            "soil test came back on depot ph seven point four potassium one hundred thirty two parts per million",
            "en",
            7.4,
            132,
        ),
        ("soil test on Depot came back pH 7.4 K 132", "en", 7.4, 132),
        ("Análise de solo da Baixada: pH 5,6, potássio 92 ppm", "pt", 5.6, 92),
        ("Depot potassium come back at seventy two parts per million, pH 6.1", "en", 6.1, 72),
    ],
)
def test_a_soil_test_without_eggs_is_a_note(text, language, ph, potassium):
    """Nothing of the lab is asked for."""
    soil = _note(text, language).soil

    assert (soil.ph, soil.k_ppm) == (ph, potassium)


@pytest.mark.parametrize(("heard", "count"), [("thirty won white", 31), ("twenty ate white", 28)])
def test_a_unit_heard_behind_its_ten(heard, count):
    """It is told in the answer."""
    assert _note(f"Depot six plants {heard}").females.white == count
    assert _read(f"Depot six plants {heard}").remarks


@pytest.mark.parametrize(
    ("text", "language", "plants", "total"),
    [
        ("Depot 5 plants, no, 6, I pulled 6. Two white.", "en", 6, 2),
        ("Baixada 5 plantas, não, 6, peguei 6. Duas brancas.", "pt", 6, 2),
        ("La Aguada saqué 5 plantas, no, 6. 2 blancas", "es", 6, 2),
        ("Baixada deu 20... não, 25 fêmeas, 25 mesmo, em 10 plantas", "pt", 10, 25),
        ("La Aguada dio 20, digo, 25 hembras, en 10 plantas", "es", 10, 25),
        ("La Aguada 6 plantas, no, 6 blancas", "es", 6, 6),
    ],
)
def test_a_count_put_right_between_stops_and_said_once_more(text, language, plants, total):
    """A plain "no" puts right between two stops; the number said again counts nothing more."""
    note = _note(text, language)

    assert (note.plants, note.females.total) == (plants, total)


@pytest.mark.parametrize(
    ("text", "language", "white", "yellow"),
    [
        ("Depot found 8 yellow, oops, white, 8 white, on 5 plants", "en", 8, 0),
        ("Depot 5 plants, 8 yellow, no, 8 white", "en", 8, 0),
        ("Depot 5 plants 8 yellow, I mean white", "en", 8, 0),
        ("na Baixada achei 8 amarelas, opa, brancas, 8 brancas, em 5 plantas", "pt", 8, 0),
        ("en La Aguada conté 8 amarillas, perdón, blancas, en 5 plantas", "es", 8, 0),
        ("Depot 5 plants, 8 yellow, 8 white", "en", 8, 8),
        ("Depot 5 plants none, hang on, 2 white on the last one", "en", 2, 0),
        ("Baixada 6 plantas, nenhuma fêmea... peraí, tem uma sim, branca, na última", "pt", 1, 0),
        ("La Aguada 6 plantas, ninguna hembra... espera, sí hay una, blanca, en la última", "es", 1, 0),
    ],
)
def test_a_color_put_right_is_counted_once(text, language, white, yellow):
    """The first one stands for nothing."""
    note = _note(text, language)

    assert (note.females.white, note.females.yellow, note.mostly) == (white, yellow, ())


@pytest.mark.parametrize(
    ("text", "language", "again"),
    [
        ("Depot today 5 plants none. Back Thursday, I mean Friday", "en", date(2026, 7, 10)),
        ("Depot today 5 plants none. Back Thursday, no, Friday", "en", date(2026, 7, 10)),
        ("Baixada: hoje 5 plantas, 0 fêmea. Próxima olhada quinta, minto, sexta", "pt", date(2026, 7, 10)),
        ("La Aguada: hoy 5 plantas, 0 hembras. Vuelvo el jueves, digo, el viernes", "es", date(2026, 7, 10)),
        ("Depot today 5 plants none. Back in 7 days, no, 10 days", "en", 10),
        ("Depot today 5 plants none. Back in 7, no, in 10 days", "en", 10),
        ("La Aguada hoy 5 plantas nada, vuelvo en 7 días, perdón, 10", "es", 10),
        ("Baixada hoje 5 pés nada, volto em 2 semanas, não, em 3 semanas", "pt", 21),
    ],
)
def test_the_day_of_the_next_look_is_put_right(text, language, again):
    """The day of the visit is left alone."""
    note = _note(text, language)

    assert note.date == SENT
    assert again in (note.look_again.days, note.look_again.date)
