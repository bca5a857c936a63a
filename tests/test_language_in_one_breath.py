"""What is told in one breath: a patch with its color and size, shares of plants without any, how many fields, a visit's day."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note

SENT = date(2026, 7, 8)
CREW = ("Depot", "Grange North", "Dry Creek", "Widow's Eighty", "La Aguada", "El Tajamar", "Baixada", "Santa Rita")


def _read(text: str, language: str = "en"):
    return read_note(text, sent=SENT, fields=CREW, language=language)  # type: ignore[arg-type]


def _note(text: str, language: str = "en"):
    reading = _read(text, language)
    assert reading.problems == (), reading.problems
    (note,) = reading.notes
    return note


@pytest.mark.parametrize(
    ("text", "language", "tops"),
    [
        ("Depot has a ring of yellow beans by the oak. 4 plants, 8 white", "en", ("yellow", "ring")),
        ("Depot ring of stunted yellow beans, dug 3, 20 white 5 yellow", "en", ("yellow", "stunted", "ring")),
        ("Depot V5 5 plants 4 white. yellow beans in a ring", "en", ("yellow", "ring")),
        ("Depot stunted and yellow in one big patch. dug 5, 12 white", "en", ("yellow", "stunted", "patch")),
        ("Depot stunted patch big as a truck, yellow on top too. dug 5 9 white", "en", ("yellow", "stunted", "patch")),
        (
            "Depot 4 plants 3 white. yellow patch, plants knee high in it when the rest is waist high",
            "en",
            ("yellow", "stunted", "patch"),
        ),
        ("Baixada 4 pés 9 brancas. Na reboleira elas estão amarelas e baixas.", "pt", ("yellow", "stunted", "patch")),
        (
            "La Aguada 5 plantas 12 blancas. En el manchón están amarillas y bajas.",
            "es",
            ("yellow", "stunted", "patch"),
        ),
    ],
)
def test_a_patch_keeps_its_color_and_size(text, language, tops):
    """The color of plants told with a patch or ring is theirs, and the patch is no plants counted."""
    note = _note(text, language)

    assert set(note.tops) == set(tops)
    assert note.females.total


@pytest.mark.parametrize(
    "text", ["Depot not dug, plants are too small", "Depot V1, too small to dig yet", "Depot too little to dig, VC"]
)
def test_too_small_to_dig_is_not_stunted(text):
    """It is a reason to wait."""
    note = _note(text)

    assert (note.outcome, note.tops) == ("not_looked", ())


def test_roots_snapped_off_short_are_not_stubby():
    """It is how they came up."""
    assert _note("Depot roots snapped off short, 3 plants none").roots == ("snapped",)


@pytest.mark.parametrize(
    ("text", "language", "plants"),
    [
        ("Depot: 5 of 5 clean. Nods many. Wet.", "en", 5),
        ("Depot, 8 of 8 plants clean, dug", "en", 8),
        ("Depot five of five clean, shovel", "en", 5),
        ("Depot 4 out of 4 were clean", "en", 4),
        ("Depot R2, 6 out of 6 plants had nothing", "en", 6),
        ("Depot 5 of 5 had none", "en", 5),
        ("Depot 10 of 10 negative", "en", 10),
        ("La Aguada 5 de 5 limpias", "es", 5),
        ("La Aguada 6 de 6 sin nada", "es", 6),
        ("Baixada 6 de 6 limpas", "pt", 6),
        ("Baixada 5 de 5 sem fêmeas", "pt", 5),
    ],
)
def test_all_of_so_many_clean_is_none_seen(text, language, plants):
    """No number of it is a count of females."""
    note = _note(text, language)

    assert (note.plants, note.females.total, note.outcome) == (plants, 0, "none_seen")


@pytest.mark.parametrize(
    ("text", "language", "found"),
    [
        ("Two done yesterday, 5 plants each, all dug. Depot 16 tan. Grange North 1 white.", "en", (16, 1)),
        (
            "Got three done today, 5 plants each, spade. Depot 3 white. Grange North none. Dry Creek 8 yellow",
            "en",
            (3, 0, 8),
        ),
        ("Hit two today, 5 plants each, dug. Depot none. Dry Creek 3 white", "en", (0, 3)),
        ("Both done yesterday, 5 plants each. Depot 16 tan. Grange North 1 white", "en", (16, 1)),
        ("Two today, dug 5 at each: Depot 4 white, Grange North none", "en", (4, 0)),
        ("5 plants each: Depot 4 white, Grange North none", "en", (4, 0)),
        ("4 plants at each: Depot 2 white 1 tan; Dry Creek 3 yellow", "en", (3, 3)),
        ("Dos hechos ayer, 5 plantas cada uno, con pala. La Aguada 16 canela. El Tajamar 1 blanca.", "es", (16, 1)),
        ("5 plantas cada: La Aguada 4 blancas, El Tajamar nada", "es", (4, 0)),
        ("Dois feitos ontem, 5 plantas cada, com pá. Baixada 16 beges. Santa Rita 1 branca.", "pt", (16, 1)),
        ("Fiz dois ontem, 5 plantas cada um. Baixada 16 beges. Santa Rita 1 branca.", "pt", (16, 1)),
        ("5 pés cada: Baixada 4 brancas, Santa Rita nada", "pt", (4, 0)),
    ],
)
def test_how_many_fields_is_a_heading(text, language, found):
    """It is no field's name, and the plants above them are those of each field, not the counts' "per plant"."""
    reading = _read(text, language)

    assert reading.problems == ()
    assert tuple(note.females.total for note in reading.notes) == found
    assert {note.plants for note in reading.notes} == {4 if text.startswith("4") else 5}


@pytest.mark.parametrize(
    ("text", "field", "value"),
    [
        ("wait that widows one was 5 plants not 4", "widows", 5),
        ("the Grange North one had 5 plants not 4", "grange north", 5),
        ("my dry creek one was 6 plants not 5", "dry creek", 6),
    ],
)
def test_that_one_is_a_note_and_no_number(text, field, value):
    """Put right are the plants, and no list."""
    (command,) = _read(text).commands

    assert command.args == {"field": field, "what": "plants", "value": value, "old": value - 1}


@pytest.mark.parametrize(
    ("text", "language", "day"),
    [
        ("Depot visit 7/8. 6 plants dug, 4 white", "en", date(2026, 7, 8)),
        ("Depot: visit on 7/8. R2. 6 plants dug, 4 white", "en", date(2026, 7, 8)),
        ("Depot - visit of 7/7. Dug 6, 4 white.", "en", date(2026, 7, 7)),
        ("Santa Rita, vistoria de 08/07. Cavadas 6 plantas, 4 brancas", "pt", date(2026, 7, 8)),
        ("Santa Rita — visita em 07/07. Parte aérea desuniforme. Cavadas 6 plantas; 4 brancas", "pt", date(2026, 7, 7)),
        ("La Aguada. Visita del 8/7. 6 plantas con pala, 4 blancas", "es", date(2026, 7, 8)),
    ],
)
def test_a_visit_that_has_been_heads_its_note(text, language, day):
    """A day up to now with a note behind it asks for no reminder."""
    reading = _read(text, language)

    assert reading.commands == ()
    (note,) = reading.notes
    assert (note.date, note.plants, note.females.total) == (day, 6, 4)


def test_a_visit_to_come_is_put_off():
    """Nothing was dug yet."""
    (command,) = _read("Depot visit on 7/18").commands

    assert (command.kind, command.args["date"]) == ("move", date(2026, 7, 18))
