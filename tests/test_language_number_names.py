"""Fields called by a number, told from what is counted beside them."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import Language, Note

SENT = date(2026, 7, 8)
FIELDS = ("12", "14", "7", "31A", "31B", "40 West", "Section 9", "Pivot 3", "Pivot 6", "La Curva")


def read(text: str, language: Language = "en") -> list[Note]:
    reading = read_note(text, sent=SENT, fields=FIELDS, language=language)
    assert not reading.problems, reading.problems
    return list(reading.notes)


def told(note: Note) -> tuple[str | None, int | None, int | None]:
    return note.field, note.plants, note.females.total


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("section 9 yesterday: 8 plant, shovel, 12 white 3 yellow", ("section 9", 8, 15)),
        ("section 9 today 8 plants dug.. 33 white 12 yellow 2 tan", ("section 9", 8, 47)),
        ("pivot 3 dug 12, 14 white", ("pivot 3", 12, 14)),
        ("pivot 6 5 pl: 12 14 3 0 2", ("pivot 6", 5, 31)),
        ("pivot 3 12 white 14 yellow on 7", ("pivot 3", 7, 26)),
        ("section 9 dug 12\n14 white", ("section 9", 12, 14)),
        ("section 9. 12 had none, 2 had 7 white each", ("section 9", 14, 14)),
        ("pivot 3\n7 12 14 0 0", ("pivot 3", 5, 33)),
        ("pivot 3 plants: 1) 7 2) 12 3) 14", ("pivot 3", 3, 33)),
        ("pivot 3 6 pl 12w 31b", ("pivot 3", 6, 43)),
        ("pivot 3 6 pl 40w 14t", ("pivot 3", 6, 54)),
        ("pivot 3 at 7 am, 12 plants, none", ("pivot 3", 12, 0)),
        ("pivot 3 row 12 dug 6 none", ("pivot 3", 6, 0)),
        ("pivot 3 sprayed 12 days ago, 14 hr reentry. dug 7 none", ("pivot 3", 7, 0)),
        ("pivot 3 gate 7 pl 12 w, hill 7 pl 14 w", ("pivot 3", 14, 26)),
    ],
)
def test_a_number_that_counts_is_no_field(text, expected):
    """A crew may call a field 12; twelve white females are none."""
    (note,) = read(text)
    assert told(note) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("12 r3-4 3 pl 14 fem", ("12", 3, 14)),
        ("14: 12 plants, 12 white", ("14", 12, 12)),
        ("7 7 plants 7 white", ("7", 7, 7)),
        ("12, 6 plants 4 white", ("12", 6, 4)),
        ("yesterday 12, 6 plants 3 white", ("12", 6, 3)),
        ("hi, 12: 6 plants none", ("12", 6, 0)),
        ("12 July 7 dug 6, 14 w", ("12", 6, 14)),
        ("in 12 I dug 6 plants, 14 white", ("12", 6, 14)),
        ("went to 14 yesterday, dug 5, 12 white", ("14", 5, 12)),
        ("stopped by 12, pulled 4, none", ("12", 4, 0)),
        ("31b 6 pl 31b", ("31b", 6, 31)),
        ("40 w 6 pl 12 white", ("40 w", 6, 12)),
        ("field 12, dug 14, 3 white", ("12", 14, 3)),
        ("twelve: twelve plants, seven white", ("twelve", 12, 7)),
        ("14 white at 12. 7 plants", ("12", 7, 14)),
    ],
)
def test_a_number_names_a_field_at_the_head_or_behind_a_word_that_leads_to_it(text, expected):
    """ "12 R3", "in 12", "went to 14": no count of anything."""
    (note,) = read(text)
    assert told(note) == expected


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("12 and 14 both not looked, too wet", ["12", "14"]),
        ("12, 14 and 31A not looked, rain", ["12", "14", "31a"]),
        ("12 6 pl 4w\n14 6 pl 0\n31A not looked", ["12", "14", "31a"]),
        ("12: 6 pl 4 w; 14: 5 pl 12 w", ["12", "14"]),
        ("12 R2 5 plants 12 w. 14 R3 6 plants 14 w", ["12", "14"]),
    ],
)
def test_several_fields_called_by_numbers_have_notes_of_their_own(text, names):
    assert [note.field for note in read(text)] == names


@pytest.mark.parametrize(
    ("text", "language", "expected"),
    [
        ("12 R3 6 plantas 14 blancas", "es", ("12", 6, 14)),
        ("en el 12 saqué 6 plantas con pala, 14 blancas", "es", ("12", 6, 14)),
        ("la curva 6 plantas: 12 14 0 3 1 0", "es", ("la curva", 6, 30)),
        ("la curva pl 12 blancas 14", "es", ("la curva", 12, 14)),
        ("no 12 arranquei 6 plantas, 14 fêmeas", "pt", ("12", 6, 14)),
        ("12, 6 pés, zerado", "pt", ("12", 6, 0)),
    ],
)
def test_the_same_in_spanish_and_portuguese(text, language, expected):
    (note,) = read(text, language)
    assert told(note) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("correct 12 white to 14", {"kind": "correct", "what": "white", "value": 14, "old": 12}),
        ("12: white 14 not 12", {"kind": "correct", "field": "12", "what": "white", "value": 14, "old": 12}),
        ("recheck 12 in 14 days", {"kind": "move", "field": "12", "days": 14}),
        ("state 12", {"kind": "state", "field": "12"}),
        ("how many plants at 12", {"kind": "look_plan", "field": "12"}),
    ],
)
def test_what_is_asked_of_a_field_called_by_a_number(text, expected):
    (command,) = read_note(text, sent=SENT, fields=FIELDS, language="en").commands
    assert {"kind": command.kind, **command.args} == expected


@pytest.mark.parametrize(
    ("text", "plants", "listed"),
    [
        ("pivot 3 12, 14, 0, 0, 3 females on 5", 5, (12, 14, 0, 0, 3)),
        ("pivot 3 females: 12 14 0 0 3", 5, (12, 14, 0, 0, 3)),
        ("pivot 3 12 14 0 0 3 females", 5, (12, 14, 0, 0, 3)),
        ("pivot 3 8 plants 3 5 0 0 12 7 1 2 dry", 8, (3, 5, 0, 0, 12, 7, 1, 2)),
        ("pivot 3 3 0 5 2 1, 11 females", 5, (3, 0, 5, 2, 1)),
    ],
)
def test_a_list_beside_a_word_for_females_is_one_number_a_plant(text, plants, listed):
    (note,) = read(text)
    assert (note.plants, note.per_plant) == (plants, listed)


def test_a_list_of_females_shorter_than_the_plants_is_asked_about():
    reading = read_note("pivot 3 dug 8: 3 0 5 2 1 females", sent=SENT, fields=FIELDS, language="en")
    assert [problem.kind for problem in reading.problems] == ["short_list"]
    assert reading.notes[0].per_plant == (3, 0, 5, 2, 1)


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("Larch Knoll 22, 30, 17, 41, 9. R3", "larch knoll"),
        ("Heron Flat 40, 12, 3, 5, 0", "heron flat"),
        ("Baixada Funda 7, 4, 0, 12. pá", "baixada funda"),
    ],
)
def test_without_a_list_the_first_of_several_numbers_is_no_part_of_the_name(text, field):
    (note,) = read_note(text, sent=SENT).notes
    assert note.field == field
    assert len(note.per_plant or ()) == text.count(",") + 1


@pytest.mark.parametrize(
    ("text", "language", "fields"),
    [
        ("el 12 sigue lodoso, no se pudo ver", "es", ["12"]),
        ("Al 14 le tiraron fungicida el martes, así que no lo miré", "es", ["14"]),
        ("Amigos, el 14 madura antes de tiempo. Escarbé 5 plantas y cero hembras", "es", ["14"]),
        ("La Curva 5 plantas 3 blancas. el 12 no lo vi", "es", ["la curva", "12"]),
        ("pasé por el 12 y saqué 6 plantas, 2 amarillas", "es", ["12"]),
        ("o 14 tá murcho em reboleira mas não deu tempo de cavar nenhuma", "pt", ["14"]),
        ("the 12 is still too muddy, didn't look", "en", ["12"]),
        ("La Curva 14 plantas, 12 tienen hembras", "es", ["la curva"]),
    ],
)
def test_a_number_with_its_article_is_told_of_as_a_field_is(text, language, fields):
    """Wet, sprayed, ripe: no plant and no day is."""
    assert [note.field for note in read(text, language)] == fields


def test_a_day_behind_its_article_names_no_field():
    """ "Vuelvo el 14", where a field is called 14 too."""
    (moved,) = read_note("La Curva: vuelvo el 14", sent=SENT, fields=FIELDS, language="es").commands

    assert (moved.args["field"], moved.args["date"].day) == ("la curva", 14)


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("lotes 12 y 14: 6 plantas cada uno, sin hembras", "es"),
        ("potreros 12 y 14, 6 plantas c/u, nada", "es"),
        ("talhões 12 e 14: 6 pés cada, nada", "pt"),
    ],
)
def test_numbers_behind_one_word_for_fields(text, language):
    assert [(note.field, note.plants) for note in read(text, language)] == [("12", 6), ("14", 6)]
