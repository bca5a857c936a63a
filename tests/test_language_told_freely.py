"""Spanish and Portuguese as told freely: corrections by two values, plants by ordinals, words spelled as they sound."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Females, Reading

SENT = date(2026, 7, 25)
CREW = ("La Tranquera", "Molino Viejo", "Lote 7", "Bajo Grande", "Baixada", "Talhão 3", "Santa Rita", "Sede Velha")


def read(text: str, language: str = "es") -> Reading:
    """One message of the crew's."""
    return read_note(text, sent=SENT, fields=CREW, language=language)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("text", "field", "what", "value", "old"),
    [
        ("donde dice 7 amarillas va 17", None, "yellow", 17, 7),
        ("puse 12 blancas y eran 21", None, "white", 21, 12),
        ("no eran 6 eran 9 plantas en bajo grande", "bajo grande", "plants", 9, 6),
        ("cambia 12 por 21 en blancas de bajo grande", "bajo grande", "white", 21, 12),
        ("me comí un número: lote 7 eran 112 blancas", "7", "white", 112, None),
        ("no lugar de sete amarelinhas da sede velha são dezessete", "sede velha", "yellow", 17, 7),
        ("baixada: coloquei 5 marrom, é 15", "baixada", "brown", 15, 5),
        ("as brancas da santa rita são 13, digitei 31", "santa rita", "white", 13, 31),
    ],
)
def test_two_values_and_the_words_between_correct(text, field, what, value, old):
    """Which number was written and which is right is told by the words around them."""
    (command,) = read(text, "pt" if "são" in text or "coloquei" in text else "es").commands

    assert (command.kind, command.args.get("field"), command.args["what"]) == ("correct", field, what)
    assert (command.args["value"], command.args.get("old")) == (value, old)


@pytest.mark.parametrize(
    "text",
    [
        "Perdón por la demora en escribir. Molino viejo 6 pl, 4 blancas",
        "Molino viejo hoja amarilla, debe ser roya. 6 pl, 4 blancas",
    ],
)
def test_an_excuse_and_a_guess_correct_nothing(text):
    """ "Sorry for the delay" and "it must be rust" are no corrections."""
    reading = read(text)

    assert not reading.commands
    assert reading.notes[0].females == Females(4, 0, 0, 0, 4)


def test_plants_told_by_ordinals_alone_are_a_list():
    """ "La primera tres, la segunda cero": one number a plant, in the order told."""
    (note,) = read(
        "la tranquera cinco plantas la primera tres la segunda cero la tercera nueve la cuarta dos la quinta una"
    ).notes

    assert note.per_plant == (3, 0, 9, 2, 1)


def test_words_are_known_by_their_sound():
    """A silent h left out, b for v, y for ll: the word said is the word meant, and the answer says so."""
    reading = read("molino viejo oja nueva amariya con las benas verdes. saque 3 con la pala 6 blancas")

    assert reading.notes[0].tops == ("interveinal_new",)
    assert "amariya" in [remark.where.text for remark in reading.remarks]


@pytest.mark.parametrize(
    ("text", "names"),
    [
        (
            "a la orilla del canal 4 plantas con 22, adentro del lote 4 plantas con 5. bajo grande",
            ["orilla del canal", "adentro del lote"],
        ),
        ("lote 7 junto al monte 4 pl 3 b, zona mala 4 pl 18 b", ["junto al monte", "zona mala"]),
    ],
)
def test_a_place_keeps_what_it_lies_at(text, names):
    """Places are named as written, and their counts are their own."""
    (note,) = read(text).notes

    assert [spot.name for spot in note.spots] == names


def test_seed_alone_tells_the_strip_from_the_field():
    """ "Resistente 5, suscetível 5": the susceptible plants are the check strip's."""
    (note,) = read("Santa Rita: resistente 5 pés 2 fêmeas, suscetível 5 pés 47 fêmeas", "pt").notes

    assert (note.plants, note.females.total) == (5, 2)
    assert [(spot.check, spot.females.total) for spot in note.spots] == [(False, 2), (True, 47)]


@pytest.mark.parametrize(
    "story",
    [
        "Mañana cumple años el encargado.",
        "Nos agarró la lluvia cuando volvíamos.",
        "Vi dos ciervos cerca del monte.",
        "Perdón por la demora en escribir.",
        "Había mucho viento y se hizo de noche.",
    ],
)
@pytest.mark.parametrize("behind", [False, True])
def test_a_story_beside_a_note_changes_nothing(story, behind):
    """What else happened that day is kept as words and read as nothing."""
    note = "Lote 7 el martes, R2, 6 plantas 4 blancas 2 amarillas, pala."
    plain, told = read(note).notes[0], read(f"{note} {story}" if behind else f"{story} {note}")

    assert not told.problems
    (found,) = told.notes
    assert (found.field, found.date, found.plants, found.females) == (
        plain.field,
        plain.date,
        plain.plants,
        plain.females,
    )
    assert (found.look_again, found.soil, found.roots) == (plain.look_again, plain.soil, plain.roots)


def test_doubt_about_what_was_seen_is_asked_about():
    """ "Acho que era nódulo": whether females were seen is a question, not a finding."""
    reading = read("vi umas bolinhas mas acho que era nódulo. sede velha 5 pés", "pt")

    assert [problem.kind for problem in reading.problems] == ["doubtful"]


def test_a_number_behind_a_makers_letter_is_no_count():
    """ "Material M 5917" names seed; nobody counts 5917 brown females, and all of it is told of the field."""
    reading = read("Sede Velha: o plantio foi dia 28 de abril, material M 5917, suscetível", "pt")

    assert not reading.notes
    ((kind, args),) = [(command.kind, command.args) for command in reading.commands]
    assert kind == "field"
    assert (args["name"], args["variety"], args["resistance"]) == ("sede velha", "M 5917", "susceptible")
