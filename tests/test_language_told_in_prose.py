"""Whole notes in everyday sentences: a second place or field told by "four more", what is said of all of them."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Reading

SENT = date(2026, 7, 8)
CREW = ("Kestrel", "Cedar Slough", "Ridge Top", "Molino Viejo", "Lote 7", "Baixada", "Santa Rita", "Sede Velha")


def read(text: str, language: str = "en") -> Reading:
    """One message of the crew's."""
    return read_note(text, sent=SENT, fields=CREW, language=language)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("language", "text", "places"),
    [
        (
            "es",
            "Molino Viejo, V3. En la cabecera arranqué 4 plantas a mano y conté 9 blancas; en el fondo otras 4, también "
            "a mano, y no apareció ninguna.",
            [("cabecera", 4, 9), ("fondo", 4, 0)],
        ),
        (
            "es",
            "Molino Viejo: en la loma saqué 5 plantas con 12 blancas, en el bajo otras 5 con 3 blancas y 1 amarilla",
            [("loma", 5, 12), ("bajo", 5, 4)],
        ),
        (
            "es",
            "Molino Viejo: 4 plantas en la cabecera con 9 blancas y otras cuatro en el bajo sin nada",
            [("cabecera", 4, 9), ("bajo", 4, 0)],
        ),
        (
            "es",
            "Molino Viejo. Saqué 5 en la loma y había 12 blancas. Después otras 5 en el bajo, y esas tenían 2 amarillas.",
            [("loma", 5, 12), ("bajo", 5, 2)],
        ),
        (
            "es",
            "Molino Viejo en la cabecera 3 plantas con dos, cuatro y una hembra y en el fondo otras tres con cero, cero y "
            "cinco",
            [("cabecera", 3, 7), ("fondo", 3, 5)],
        ),
        (
            "pt",
            "na Santa Rita eu cavei quatro plantas na porteira e achei vinte brancas aí fui lá no meio cavei mais quatro e "
            "não achei nenhuma",
            [("porteira", 4, 20), ("meio", 4, 0)],
        ),
        (
            "pt",
            "Sede Velha cavei cinco na beira achei duas brancas e depois no alto cavei outras cinco e achei quinze amarelas",
            [("beira", 5, 2), ("alto", 5, 15)],
        ),
        (
            "pt",
            "Santa Rita cavei 5 no alto, 12 brancas. Depois mais 5 no baixio: essas tinham 3 amarelas",
            [("alto", 5, 12), ("baixio", 5, 3)],
        ),
        (
            "en",
            "Kestrel: I dug four plants on the knoll and found 12 white there. Then I dug four more in the swale, and those "
            "had only 2 white ones.",
            [("knoll", 4, 12), ("swale", 4, 2)],
        ),
        (
            "en",
            "Kestrel. On the hill I pulled 4 plants and counted 7 white; in the bottom four more, also pulled, and nothing "
            "showed up.",
            [("hill", 4, 7), ("bottom", 4, 0)],
        ),
        (
            "en",
            "kestrel i dug five plants by the gate and got six white then i walked to the back and dug five more and got none",
            [("gate", 5, 6), ("back", 5, 0)],
        ),
        (
            "en",
            "Kestrel: from the north end I dug 6, 14 white; from the south end another 6, 2 white",
            [("north end", 6, 14), ("south end", 6, 2)],
        ),
    ],
)
def test_so_many_more_are_plants_of_a_second_place(language, text, places):
    """ "Otras 4", "mais quatro", "four more" behind or before another place are plants, with what was found there."""
    reading = read(text, language)

    assert not reading.problems
    (note,) = reading.notes
    assert [(spot.name, spot.plants, spot.females.total) for spot in note.spots] == places
    assert note.plants == sum(plants for _, plants, _ in places)


@pytest.mark.parametrize(
    ("language", "text", "white", "yellow"),
    [
        ("es", "Molino Viejo 8 plantas con 12 blancas y otras 4 amarillas", 12, 4),
        ("pt", "Santa Rita 8 plantas com 12 brancas e mais 4 amarelas", 12, 4),
        ("en", "Kestrel 8 plants 9 white. another 4 yellow on the last plant", 9, 4),
        ("en", "Kestrel. Dug eight plants and I had four white, then two more on the last root, so six white.", 6, 0),
    ],
)
def test_so_many_more_of_a_color_are_females(language, text, white, yellow):
    """What a color or the last root claims are no plants."""
    (note,) = read(text, language).notes

    assert (note.plants, note.females.white, note.females.yellow, note.spots) == (8, white, yellow, ())


def test_more_of_what_was_counted_at_a_place_is_asked_about():
    """ "12 white on the hill, another 4 in the draw": females rather than plants, but it is not said."""
    for text in ("Kestrel dug 5: 12 white on the hill, another 4 in the draw", "Kestrel dug 5, 12 white, 4 had none"):
        assert read(text).problems


@pytest.mark.parametrize(
    ("language", "text", "fields", "methods"),
    [
        (
            "en",
            "today I did two fields first Kestrel I pulled five plants and saw two white and at Cedar Slough I pulled five "
            "too but those had nothing",
            [("kestrel", 5, 2), ("cedar slough", 5, 0)],
            ["pulled", "pulled"],
        ),
        (
            "es",
            "hoy hice dos lotes primero el Lote 7 arranqué cinco plantas y vi dos blancas y en Molino Viejo arranqué cinco "
            "también pero esas no tenían nada",
            [("7", 5, 2), ("molino viejo", 5, 0)],
            ["pulled", "pulled"],
        ),
        (
            "pt",
            "primeiro a Santa Rita arranquei cinco plantas e vi duas brancas e na Sede Velha arranquei cinco também mas essas "
            "não tinham nada",
            [("santa rita", 5, 2), ("sede velha", 5, 0)],
            ["pulled", "pulled"],
        ),
        (
            "es",
            "en Lote 7 saqué 4 plantas y conté 9 blancas; en Molino Viejo otras 4 y no apareció ninguna",
            [("7", 4, 9), ("molino viejo", 4, 0)],
            [None, None],
        ),
        (
            "en",
            "yesterday I did kestrel and cedar slough kestrel five plants no females cedar slough five plants six white "
            "females all of them dug with the spade",
            [("kestrel", 5, 0), ("cedar slough", 5, 6)],
            ["shovel", "shovel"],
        ),
        (
            "pt",
            "santa rita e sede velha hoje. santa rita 5 plantas 2 brancas, sede velha 5 plantas 8 brancas. td com enxada. "
            "solo argiloso nos 2",
            [("santa rita", 5, 2), ("sede velha", 5, 8)],
            ["shovel", "shovel"],
        ),
        (
            "es",
            "Molino Viejo 6 plantas 15 blancas. Lote 7 6 plantas ninguna. Todo con pala.",
            [("molino viejo", 6, 15), ("7", 6, 0)],
            ["shovel", "shovel"],
        ),
        (
            "pt",
            "tudo na pá: Santa Rita 6 plantas 15 brancas, Sede Velha 6 plantas nada",
            [("santa rita", 6, 15), ("sede velha", 6, 0)],
            ["shovel", "shovel"],
        ),
    ],
)
def test_a_second_field_in_the_same_breath_is_a_note_of_its_own(language, text, fields, methods):
    """Led by "at", or named once more behind a list of fields; the way of digging said of all is of each."""
    reading = read(text, language)

    assert not reading.problems
    assert [(note.field, note.plants, note.females.total) for note in reading.notes] == fields
    assert [note.method for note in reading.notes] == methods


def test_two_fields_behind_all_with_the_shovel_stay_two():
    """ "Todo con pala en A .. en B ..": two notes, and "todo" is no place."""
    text = "todo con pala en lote 7 seis plantas y quince blancas en molino viejo seis plantas y ninguna"
    first, second = read(text, "es").notes

    assert (first.field, first.plants, first.females.total, first.method) == ("7", 6, 15, "shovel")
    assert (second.field, second.plants, second.females.total) == ("molino viejo", 6, 0)
    assert not (first.spots or second.spots)


@pytest.mark.parametrize(
    ("language", "said"),
    [
        ("es", "Molino Viejo, todo con pala: 8 plantas con 3 blancas. Testigo: 4 plantas, 22 blancas."),
        ("pt", "Santa Rita, tudo com enxada: 8 plantas 3 brancas, testemunha 4 plantas 22 brancas"),
        ("en", "Kestrel everything with the shovel. 8 plants 3 white. Check: 4 plants 22 white"),
        ("en", "Kestrel, all by spade: 8 plants 3 white. Check: 4 plants 22 white"),
    ],
)
def test_everything_with_the_shovel_names_no_place(language, said):
    """ "Todo con pala" before counts, a check strip behind: the strip is the only place."""
    (note,) = read(said, language).notes

    assert (note.plants, note.females.white, note.method) == (8, 3, "shovel")
    assert [(spot.check, spot.plants, spot.females.white) for spot in note.spots] == [(True, 4, 22)]


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("Lote 7, dos sectores. Norte: 5 pl 3 blancas. Sur: 5 pl 11 blancas", ("norte", "sur")),
        ("Molino Viejo\nNorte: 5 pl 3 blancas\nSur: 5 pl 11 blancas", ("norte", "sur")),
        ("Kestrel\nNorth: 5 pl 3 white\nSouth: 5 pl 11 white", ("north", "south")),
        ("Kestrel. East: 5 pl 3 white. West: 5 pl 11 white", ("east", "west")),
        ("Cedar Slough, left side and right side. Left: 5 pl 3 white. Right: 5 pl 11 white", ("left", "right")),
        ("Santa Rita, dois setores. Norte: 5 pés 3 brancas. Sul: 5 pés 11 brancas. Pá nos dois", ("norte", "sul")),
    ],
)
def test_directions_that_head_counts_are_places(text, names):
    """Two sides told one after the other, in sentences or on lines, with their field before them."""
    (note,) = read(text, "es").notes

    assert tuple(spot.name for spot in note.spots) == names
    assert [(spot.plants, spot.females.white) for spot in note.spots] == [(5, 3), (5, 11)]


@pytest.mark.parametrize(("one", "other"), [("North", "South"), ("East", "West")])
def test_directions_below_a_name_no_list_has_are_places(one, other):
    """The field is named above them, and neither side is a field."""
    (note,) = read_note(f"Mulberry Hill. {one}: 5 pl 3 white. {other}: 5 pl none", sent=SENT).notes

    assert (note.field, note.plants, [spot.name for spot in note.spots]) == (
        "mulberry hill",
        10,
        [one.lower(), other.lower()],
    )


def test_directions_that_begin_names_of_the_crew_are_fields():
    """ "North: ..", "South: ..": where the crew has North Forty and South Eighty, nothing is made a place."""
    reading = read_note(
        "Kestrel 5 pl none. North: 5 pl 3 white. South: 5 pl 11 white",
        sent=SENT,
        fields=["Kestrel", "North Forty", "South Eighty"],
    )

    assert not any(spot.name in ("north", "south") for note in reading.notes for spot in note.spots)


@pytest.mark.parametrize(
    ("language", "said"),
    [
        ("es", "hojas d abajo con el borde quemado"),
        ("es", "borde quemado en las hojas viejas"),
        ("es", "los márgenes de las hojas inferiores están necrosados"),
        ("pt", "Borda das folhas de baixo queimada, solo franco arenoso bem seco"),
        ("pt", "folhas de baixo com a borda queimada"),
        ("pt", "margem das folhas inferiores amarelada"),
        ("en", "edges of low leaves scorched"),
        ("en", "old leavs scorchd on teh edges"),
        ("en", "Edges of the bottom leaves are crispy"),
        ("en", "lower leaves have scorched margins"),
        ("en", "bottom leaves burnt around the edge"),
    ],
)
def test_burnt_edges_of_old_leaves_in_any_order(language, said):
    """Edge, which leaves and burnt stand in one clause, whatever is between them."""
    (note,) = read(f"{'Kestrel' if language == 'en' else 'Santa Rita'}. {said}.", language).notes

    assert note.tops == ("edges_old",)


@pytest.mark.parametrize(
    ("language", "said", "moisture"),
    [
        ("en", "edge of the field is burnt up. dug 4 none", None),
        ("es", "borde del lote quemado por el fuego. saqué 4, nada", None),
        ("es", "hojas verdes, suelo seco en el borde, saqué 4, nada", "dry"),
    ],
)
def test_the_edge_of_the_ground_is_no_leaf_edge(language, said, moisture):
    """An edge of the field, or dry ground, says nothing of leaves."""
    (note,) = read(f"{'Kestrel' if language == 'en' else 'Lote 7'} {said}", language).notes

    assert "edges_old" not in note.tops
    assert note.soil.moisture == moisture


@pytest.mark.parametrize(
    ("language", "said"),
    [
        ("es", "se esta poniendo amarillita la hoja nueva pero la vena sigue verde"),
        ("es", "Las hojas nuevas están amarillas entre las nervaduras, que siguen verdes."),
        ("es", "amarillean las hojas de arriba pero los nervios no"),
        ("en", "the new leaf is yellowing while the veins remain green"),
        ("pt", "folha nova amarelando mas a nervura continua verde"),
    ],
)
def test_new_leaves_yellow_between_green_veins(language, said):
    """However it is said that the veins stay green; and it is no question of what is due."""
    reading = read(f"{'Kestrel' if language == 'en' else 'Santa Rita'}: {said}", language)

    assert not (reading.commands or reading.problems)
    assert reading.notes[0].tops == ("interveinal_new",)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("es", "Molino Viejo: amarillo todo, suelo seco, no saque plantas."),
        ("es", "Molino Viejo está todo amarillo. No se sacaron plantas"),
        ("pt", "Santa Rita: toda amarela, não tirei planta nenhuma"),
        ("en", "Kestrel all yellow, dry, didn't dig"),
        ("en", "Kestrel yellow all over, no plants pulled"),
    ],
)
def test_yellow_where_nobody_dug_is_the_tops(language, text):
    """No females were seen, so the color is the plants'."""
    reading = read(text, language)

    assert not reading.problems
    (note,) = reading.notes
    assert (note.outcome, note.tops, note.mostly) == ("not_looked", ("yellow",), ())


def test_not_dug_either():
    """ "Tampoco saqué" behind a field not dug: nobody looked there."""
    first, second = read(
        "Molino Viejo: amarillo todo, no saque plantas.\nLote 7: verde y sano, tampoco saque.", "es"
    ).notes

    assert (first.outcome, second.outcome, second.tops) == ("not_looked", "not_looked", ("healthy",))
