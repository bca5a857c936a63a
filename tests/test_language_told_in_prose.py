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


@pytest.mark.parametrize(
    ("language", "text", "per_plant"),
    [
        ("es", "Molino Viejo. Quistes por planta:\n1) 4\n2) 0\n3) 7\n4) 2\nPala, raíz lavada.", (4, 0, 7, 2)),
        ("en", "Kestrel dug 4\n1. 4\n2. 0\n3. 7\n4. 2", (4, 0, 7, 2)),
        ("pt", "Santa Rita 4 plantas: 1) 4, 2) 0, 3) 7, 4) 2", (4, 0, 7, 2)),
        ("es", "Molino Viejo: planta x planta 1, 0, 0, 4, 2, 6, 0 hembras. Con palita.", (1, 0, 0, 4, 2, 6, 0)),
        ("pt", "Santa Rita 1, 0, 3, 0 fêmeas", (1, 0, 3, 0)),
        (
            "en",
            "kestrel I dug four plant one had five females plant two had none plant three had eight plant four had two that "
            "makes fifteen",
            (5, 0, 8, 2),
        ),
        (
            "es",
            "molino viejo saqué cuatro la planta uno tenía cinco la planta dos ninguna la planta tres ocho la planta cuatro dos",
            (5, 0, 8, 2),
        ),
        (
            "pt",
            "santa rita cavei quatro a planta um tinha cinco a planta dois nenhuma a planta três oito a planta quatro duas",
            (5, 0, 8, 2),
        ),
        ("en", "Kestrel\nP1  2\nP2  0\nP3  6\ntotal 8, dug", (2, 0, 6)),
        (
            "pt",
            "Santa Rita. 3 pés: 2 brancos e 1 amarelo no primeiro, 5 brancos no segundo, nada no terceiro.",
            (3, 5, 0),
        ),
        (
            "es",
            "Molino Viejo 3 plantas: 2 blancas y 1 amarilla en la primera, 5 blancas en la segunda, nada en la tercera",
            (3, 5, 0),
        ),
        (
            "en",
            "Kestrel 3 plants: 2 white and 1 yellow on the first, 5 white on the second, none on the third",
            (3, 5, 0),
        ),
    ],
)
def test_plants_told_one_by_one(language, text, per_plant):
    """Numbered lines, plants numbered in words, ordinals behind their counts; a total behind them is of all of them."""
    reading = read(text, language)

    assert not reading.problems
    (note,) = reading.notes
    assert (note.plants, note.per_plant, note.females.total) == (len(per_plant), per_plant, sum(per_plant))


def test_a_total_that_is_not_their_sum_is_asked_about():
    """ "P1 2, P2 0, P3 6. total 12": numbers are never corrected."""
    assert read("Kestrel P1 2, P2 0, P3 6. total 12").problems


@pytest.mark.parametrize(
    ("language", "text", "females"),
    [
        ("pt", "na Sede Velha cavei cinco plantas e deu uma fêmea branca em cada uma", 5),
        ("es", "Molino Viejo 10 plantas. Quistes, 2 en una planta, los dos blancos", 2),
        ("pt", "Santa Rita 10 plantas, 2 cistos numa planta só, os dois brancos", 2),
    ],
)
def test_one_on_each_and_both_of_a_color(language, text, females):
    """So many on each plant; both of two females."""
    note = read(text, language).notes[0]

    assert (note.females.white, note.females.total) == (females, females)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("pt", "Santa Rita: 8 plantas com pá, nenhuma fêmea.\nTestemunha ao lado: 4 plantas, 26 brancas."),
        ("es", "Molino Viejo: 8 plantas con pala, ninguna hembra.\nTestigo lindero: 4 plantas, 26 blancas."),
        ("es", "Molino Viejo 8 plantas con pala, nada. El testigo de al lado: 4 plantas, 26 blancas."),
        ("en", "Kestrel: 8 plants, shovel, no females.\nCheck next to it: 4 plants, 26 white."),
        ("en", "Kestrel dug 8 plants none. The check beside it had 26 white on 4 plants."),
    ],
)
def test_a_check_strip_told_by_where_it_lies(language, text):
    """ "Ao lado" behind the strip is no part of its name; none were seen in the field."""
    (note,) = read(text, language).notes

    assert (note.plants, note.outcome, note.females.total) == (8, "none_seen", 0)
    assert [(spot.check, spot.plants, spot.females.white) for spot in note.spots] == [(True, 4, 26)]


@pytest.mark.parametrize(
    ("language", "text", "total", "days"),
    [
        ("pt", "Santa Rita - 5 plantas, femeas bracas 7, amarelas 2, marrom 1", 10, None),
        (
            "pt",
            "Santa Rita 5 plts, planta 1: 0, planta 2: 1, planta 3: 0, planta 4: 0, planta 5: 2, todas bracas",
            3,
            None,
        ),
        ("pt", "santa rita 5 pe cavado 12 fema branca 4 amarelas, rever daq 10 d", 16, 10),
        ("en", "Kestrel puled 5 by hnad no cyts look agin in 1 wek", 0, 7),
        ("en", "kestrel 3 plants nonne", 0, None),
    ],
)
def test_words_of_ours_misspelt(language, text, total, days):
    """Also where a dictionary knows the slip, beside a female or behind "all"."""
    reading = read(text, language)

    assert not reading.problems
    (note,) = reading.notes
    assert (note.females.total, note.look_again.days if note.look_again else None) == (total, days)


@pytest.mark.parametrize(
    ("language", "text", "day"),
    [
        ("en", "We had a shower on Sunday, so I waited until Tuesday to go to Kestrel. Dug ten plants, none.", 7),
        ("en", "Didn't get to Kestrel until Tuesday. 5 plants, none.", 7),
        ("en", "I had to wait till Monday to get into Kestrel, 5 plants none", 6),
        ("es", "Llovió el domingo así que esperé hasta el martes para ir a Molino Viejo. 5 plantas, nada", 7),
        ("es", "Perdón por la demora, esto es del martes: Molino Viejo, 5 plantas, nada", 7),
        ("pt", "Choveu domingo então esperei até terça pra ir na Santa Rita. 5 plantas nada", 7),
        ("pt", "Esperei até segunda. Santa Rita 5 plantas nada", 6),
    ],
)
def test_the_day_somebody_waited_for_is_the_day_of_the_visit(language, text, day):
    """Waited in the past, "until" and a day: the visit; a wait to come is no visit."""
    reading = read(text, language)

    assert not (reading.problems or reading.commands)
    (note,) = reading.notes
    assert (note.date, note.look_again, note.outcome) == (date(2026, 7, day), None, "none_seen")


def test_a_wait_to_come_is_the_next_look():
    """ "I will wait until Friday to go back": no day of a visit."""
    (note,) = read("I will wait until Friday to go back to Kestrel. 5 plants none").notes

    assert note.date is None


@pytest.mark.parametrize(
    ("language", "text"),
    [("pt", "Choveu domingo. Santa Rita 5 plantas nada"), ("es", "Llovió el martes en Molino Viejo. 5 plantas, nada")],
)
def test_plants_behind_rain_are_no_millimetres(language, text):
    """A note behind a word of the rain stays a note."""
    reading = read(text, language)

    assert not reading.commands
    assert [(note.plants, note.outcome) for note in reading.notes] == [(5, "none_seen")]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("pt", "Santa Rita - 5 no alto 5 no baixio. alto: 0. baixio: 17 (12 br, 5 am). tudo na pa"),
        ("es", "Molino Viejo - 5 en la loma 5 en el bajo. loma: 0. bajo: 17 (12 bl, 5 am). todo con pala"),
        ("en", "Kestrel, dug 5 on the hill 5 in the low spot. hill: 0. low spot: 17 (12 w, 5 y)"),
    ],
)
def test_a_sum_with_its_colors_in_brackets(language, text):
    """ "17 (12 br, 5 am)": the colors add up to the number, which is their sum and no stray one."""
    reading = read(text, language)

    assert not reading.problems
    (note,) = reading.notes
    assert [(spot.plants, spot.females.total) for spot in note.spots] == [(5, 0), (5, 17)]
    assert (note.females.white, note.females.yellow, note.method) == (12, 5, "shovel")


def test_a_number_its_colors_do_not_add_up_to_is_asked_about():
    """ "17 (12 br, 4 am)": which of them is right is not guessed."""
    assert read("Santa Rita - 5 no alto 5 no baixio. alto: 0. baixio: 17 (12 br, 4 am)", "pt").problems


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("pt", "Santa Rita puxei dez pés. Bastante cisto em quase todos, não contei."),
        ("es", "Molino Viejo saqué diez plantas. Bastantes quistes en casi todas, no conté"),
        ("en", "Kestrel pulled ten plants. Lots of cysts on almost all of them, didn't count"),
    ],
)
def test_some_seen_and_not_counted(language, text):
    """Not counted denies the counting, and not the females."""
    (note,) = read(text, language).notes

    assert (note.plants, note.outcome, note.females.total) == (10, "seen", None)


def test_the_crop_behind_several_colors_begins_a_clause():
    """ "Mostly yellow and tan plants look stunted": both colors are of the females."""
    (note,) = read("kestrel 12 plants 104 females mostly yellow and tan plants look stunted").notes

    assert (note.mostly, note.tops) == (("yellow", "tan"), ("stunted",))


@pytest.mark.parametrize(
    ("text", "method"),
    [
        ("kestrel ten plants pulled out of wet clay loam, 22 white", "pulled"),
        ("kestrel ten plants pulled out of the ground 22 white", "pulled"),
        ("ten plants pulled out of the moist soil at kestrel 22 white", "pulled"),
        ("kestrel 10 plants dug with a spade, 22 white. pulled out of the muddy lane at noon", "shovel"),
    ],
)
def test_plants_are_pulled_out_of_soil(text: str, method: str) -> None:
    """And a truck out of a lane."""
    (note,) = read(text).notes

    assert (note.plants, note.method, note.females.white) == (10, method, 22)
