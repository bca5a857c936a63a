"""Words that lost some of their vowels, and labels with a list behind each."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note

SENT = date(2026, 7, 8)
CREW = ("Kestrel", "Baixada")


def _note(text: str, language: str):
    reading = read_note(text, sent=SENT, fields=CREW, language=language)  # type: ignore[arg-type]
    assert reading.problems == (), reading.problems
    (note,) = reading.notes
    return note


@pytest.mark.parametrize(
    ("text", "language", "tops", "roots", "moisture"),
    [
        ("Kestrel 6 plts pala 0 hmbras suelo hmdo", "es", (), (), "moist"),
        ("Kestrel rces oscuras, sin hembras en 5 plantas", "es", (), ("dark",), None),
        (
            "Kestrel hjas nuevas amrillas con vnas verdes, sin hmbras en 5 plts",
            "es",
            ("interveinal_new",),
            (),
            None,
        ),
        ("Kestrel yellw lves, grn vens, 6 plnts 3 whit", "en", ("interveinal_new",), (), None),
    ],
)
def test_some_vowels_left_out(text, language, tops, roots, moisture):
    """Those that stand are in their places; every consonant is there."""
    note = _note(text, language)

    assert (note.tops, note.roots, note.soil.moisture) == (tops, roots, moisture)


def test_a_chemical_without_some_vowels():
    assert _note("Kestrel no entre, fumgaron herbcda ayer", "es").spray.what == "herbicide"


@pytest.mark.parametrize("text", ["Kestrel con Bruna y Marta, 5 plantas, 3 blancas", "Prado 5 plantas, 3 blancas"])
def test_a_name_is_no_shorthand(text):
    reading = read_note(text, sent=SENT, fields=CREW, language="es")

    assert [remark.kind for remark in reading.remarks] == []


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("Baixada, fêmeas por planta. P1: 1, 0, 4. P2: 0, 0, 0. P3: 6, 2, 3", "pt"),
        ("Kestrel P1 1,0,4; P2 0,0,0; P3 6,2,3", "en"),
        ("Kestrel pt1 1 0 4 pt2 0 0 0 pt3 6 2 3", "es"),
    ],
)
def test_as_many_counts_behind_each_label_are_points(text, language):
    note = _note(text, language)

    assert [spot.per_plant for spot in note.spots] == [(1, 0, 4), (0, 0, 0), (6, 2, 3)]
    assert (note.plants, note.females.total) == (9, 16)


@pytest.mark.parametrize(
    ("text", "language", "counts"),
    [
        ("Kestrel females: p1 zero p2 zero p3 two", "en", (0, 0, 2)),
        ("Baixada p1 três p2 zero p3 cinco", "pt", (3, 0, 5)),
        ("Kestrel P1: 3, P2: 0, P3: 5", "es", (3, 0, 5)),
    ],
)
def test_one_count_behind_each_label_is_of_a_plant(text, language, counts):
    note = _note(text, language)

    assert (note.per_plant, note.spots) == (counts, ())


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("hoje depois do café fui na Baixada e cavei oito plantas, não vi uma única fêmea", "pt"),
        ("después del café fui a Kestrel, 8 plantas, ninguna hembra", "es"),
    ],
)
def test_a_coffee_is_no_color(text, language):
    note = _note(text, language)

    assert (note.plants, note.mostly, note.outcome) == (8, (), "none_seen")


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("Baixada as folhas de baixo vêm amarelando pela beirada, 5 plantas, nada", "pt"),
        ("Baixada necrose marginal nas folhas inferiores, 5 plantas, nada", "pt"),
        ("Kestrel necrosis marginal en hojas inferiores, 5 plantas, nada", "es"),
    ],
)
def test_margins_of_the_lower_leaves(text, language):
    assert _note(text, language).tops == ("edges_old",)


def test_no_plants_taken_up():
    assert _note("Kestrel: no se extrajeron plantas por suelo saturado", "es").outcome == "not_looked"
    assert _note("Kestrel: no plants were pulled, saturated soil", "en").outcome == "not_looked"


def test_what_is_heard_goes_before_a_little_word_short_of_a_vowel():
    """ "Benas" is no "buenas"."""
    assert _note("Kestrel hojas nuevas amarillas con las benas verdes, 5 plantas nada", "es").tops == (
        "interveinal_new",
    )
