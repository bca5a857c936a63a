"""Spots of one field with plants of their own, and strips told apart by their seed, in three languages."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import Note

SENT = date(2026, 7, 20)
FIELDS = ("Kestrel", "Mill Race", "La Blanqueada", "Lobeira", "Capão Alto")


def read(text: str) -> Note:
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert not reading.problems, reading.problems
    (note,) = reading.notes
    return note


def told(note: Note) -> list[tuple[str | None, int | None, int | None]]:
    """Name, plants and females of each place; a check strip's name with a star."""
    return [(f"{spot.name}{'*' * spot.check}", spot.plants, spot.females.total) for spot in note.spots]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Kestrel, resistant: 6 plants 2 white. Check strip: 4 plants 31 white 5 yellow",
            [("resistant", 6, 2), ("check strip*", 4, 36)],
        ),
        (
            "Mill Race check: 3 plants 40 white. Mill Race resistant: 6 plants 3 white. shovel",
            [("check*", 3, 40), ("resistant", 6, 3)],
        ),
        ("kestrel check strip 22 30 18, variety 0 1 0 0 2, dug", [("check strip*", 3, 70), ("variety", 5, 3)]),
        ("Kestrel check 4 plants 31 white, ours 6 plants 2 white", [("check*", 4, 31), ("ours", 6, 2)]),
        (
            "La Blanqueada: testigo 4 plantas 31 blancas, resistente 6 plantas 2 blancas",
            [("testigo*", 4, 31), ("resistente", 6, 2)],
        ),
        ("La Blanqueada testigo 4 pl 31 bl, nuestra soja 6 pl 2 bl", [("testigo*", 4, 31), ("nuestra soja", 6, 2)]),
        (
            "Faixa testemunha no Capão Alto: 25 brancas em 3 plantas. Resistente: 4 brancas em 8 plantas. pá",
            [("faixa testemunha*", 3, 25), ("resistente", 8, 4)],
        ),
        ("Lobeira: testemunha 22 30 18, cultivar 0 1 0 0 2", [("testemunha*", 3, 70), ("cultivar", 5, 3)]),
        (
            "Kestrel resistant side 6 plants 2 white, susceptible side 4 plants 31 white",
            [("resistant side", 6, 2), ("susceptible side*", 4, 31)],
        ),
        ("Kestrel R bean 5 plants 2w, S bean 5 plants 41w", [("r bean", 5, 2), ("s bean*", 5, 41)]),
        (
            "La Blanqueada lado resistente 6 plantas 2 blancas, lado susceptible 4 plantas 31 blancas",
            [("lado resistente", 6, 2), ("lado susceptible*", 4, 31)],
        ),
    ],
)
def test_a_word_for_seed_names_the_strip_beside_a_check(text, expected):
    """Beside the check strip the other one is named by what grows in it; its counts are those of the note."""
    note = read(text)
    assert told(note) == expected
    assert note.females.total == next(total for name, _, total in expected if not name.endswith("*"))


@pytest.mark.parametrize(
    ("text", "expected", "source"),
    [
        (
            "Kestrel R5 - 88788 side 5 plants 24 females, Peking side 5 plants 2 females",
            [("88788 side", 5, 24), ("peking side", 5, 2)],
            None,
        ),
        ("Kestrel Peking 5 plants 2 white, 88788 5 plants 24 white", [("peking", 5, 2), ("88788", 5, 24)], None),
        (
            "La Blanqueada franja Peking 5 pl 2 bl, franja 88788 5 pl 24 bl",
            [("franja peking", 5, 2), ("franja 88788", 5, 24)],
            None,
        ),
        (
            "Lobeira lado Peking 5 pés 2 brancas, lado 88788 5 pés 24 brancas",
            [("lado peking", 5, 2), ("lado 88788", 5, 24)],
            None,
        ),
        (
            "Kestrel Peking rows: 5 plants 2 white. Check rows: 5 plants 31 white",
            [("peking rows", 5, 2), ("check rows*", 5, 31)],
            "Peking",
        ),
    ],
)
def test_sources_name_strips_where_each_is_counted(text, expected, source):
    """Two sources of resistance in one field are two strips, and neither is that of the field."""
    note = read(text)
    assert told(note) == expected
    assert (note.variety.source if note.variety else None) == source


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel resistant 6 plants 2 white. check strip 4 plants 31 white",
        "Kestrel Peking, 6 plants 2 white. Check strip 4 plants 31 white",
        "Kestrel 6 plants 2 white, resistant. Check strip 4 plants 31 white",
        "Kestrel check strip 4 plants 31 white, resistant variety 6 plants 2 white",
    ],
)
def test_seed_said_of_the_field_is_no_strip(text):
    note = read(text)
    assert told(note) == [("check strip*", 4, 31)]
    assert (note.plants, note.females.total) == (6, 2)
    assert note.variety is not None and note.variety.resistance == "resistant"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Kestrel pivot corner (stunted there) 5 dug 18w 2y, gate 5 dug 3w", [("pivot corner", 5, 20), ("gate", 5, 3)]),
        ("Kestrel low end ripening early, 5 dug there 2t 17b. gate 5 dug 0.", [("low end", 5, 19), ("gate", 5, 0)]),
        (
            "Kestrel low end looks stunted. 5 dug there 12w. Gate looks fine. 5 dug there 0",
            [("low end", 5, 12), ("gate", 5, 0)],
        ),
        ("Kestrel pivot corner (yellow) 5 dug 18w 2y, gate 5 dug 3w", [("pivot corner", 5, 20), ("gate", 5, 3)]),
        (
            "Kestrel, culvert 5 dug 3w, knoll 5 dug none, fenceline 5 dug 2t",
            [("culvert", 5, 3), ("knoll", 5, 0), ("fenceline", 5, 2)],
        ),
        ("Kestrel hill white 8, low end white 21, 5 plants at each, dug", [("hill", 5, 8), ("low end", 5, 21)]),
        ("Kestrel gate w 3 y 1, hill w 0, 4 plants each", [("gate", 4, 4), ("hill", 4, 0)]),
        (
            "Kestrel near the barn five plants six white over by the creek five plants none at all",
            [("barn", 5, 6), ("creek", 5, 0)],
        ),
        ("La Blanqueada 3 plantas en la loma cero, 3 plantas en el bajo 5 blancas", [("loma", 3, 0), ("bajo", 3, 5)]),
        ("Lobeira 3 pés no alto zero, 3 pés na beira do brejo 5 brancas", [("alto", 3, 0), ("beira do brejo", 3, 5)]),
        ("Lobeira, dentro 13b 4a em 3, fora 0 em 3, pá", [("dentro", 3, 17), ("fora", 3, 0)]),
        ("La Blanqueada, adentro 13 b en 3, afuera 0 en 3, pala", [("adentro", 3, 13), ("afuera", 3, 0)]),
        ("Kestrel inside 13w 4y on 3, outside 0 on 3, dug", [("inside", 3, 17), ("outside", 3, 0)]),
        (
            "Kestrel had 12 white by the well (4 plants) and none by the lane (4 plants)",
            [("well", 4, 12), ("lane", 4, 0)],
        ),
        (
            "La Blanqueada 12 blancas en el bajo, 4 plantas; nada en la loma, 4 plantas",
            [("bajo", 4, 12), ("loma", 4, 0)],
        ),
        ("Lobeira nada no alto em 5 pés, 14 brancas na baixada em 5 pés", [("alto", 5, 0), ("baixada", 5, 14)]),
    ],
)
def test_places_with_plants_of_their_own(text, expected):
    note = read(text)
    assert told(note) == expected
    assert (note.plants, note.females.total) == (sum(p for _, p, _ in expected), sum(f for _, _, f in expected))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Lobeira r1 10 pl, 5 por ponto. p1 2 br, p2 1 br 1 marrom", [("p1", 5, 2), ("p2", 5, 2)]),
        ("Kestrel 10 pl, 5 per spot. p1 2w, p2 1w 1b", [("p1", 5, 2), ("p2", 5, 2)]),
        (
            "La Blanqueada R4, 3 plantas por punto. Punto norte: 2, 0, 1. Punto sur: 0, 0, 5.",
            [("punto norte", 3, 3), ("punto sur", 3, 5)],
        ),
        (
            "Lobeira: 3 plantas em cada ponto. Ponto de cima: 2, 0, 1. Ponto de baixo: 0, 0, 5",
            [("ponto de cima", 3, 3), ("ponto de baixo", 3, 5)],
        ),
        (
            "La Blanqueada, 12 pl en 3 paradas: p1 4pl 0, p2 4pl 1 bl, p3 4pl 6 bl 2 am",
            [("p1", 4, 0), ("p2", 4, 1), ("p3", 4, 8)],
        ),
    ],
)
def test_so_many_plants_at_each_point(text, expected):
    note = read(text)
    assert told(note) == expected
    assert note.plants == sum(plants for _, plants, _ in expected)


def test_marks_are_plants_where_no_places_are_told():
    assert read("Kestrel 3 plants: p1 2w, p2 0, p3 1w").per_plant == (2, 0, 1)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Kestrel 5 plants shovel, 3 white. chekc strip 5 plants 62 white", [("check strip*", 5, 62)]),
        ("Lobeira 5 plantas, 3 blancas. tetsigo 5 plantas 62 blancas", [("testigo*", 5, 62)]),
        ("Kestrel 5 plants shovel, 3 white. Chk strip 5 plants 62 white", [("chk strip*", 5, 62)]),
    ],
)
def test_a_misspelt_strip_is_called_what_was_meant(text, expected):
    """A word that was mended; what is short stays short."""
    assert told(read(text)) == expected
