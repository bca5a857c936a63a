"""Counts given again in the same breath, plants nobody dug, and other ways of four hands to tell of one field."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Note, Reading

SENT = date(2026, 7, 8)
CREW = ("Kestrel", "Tinkers", "Old Mill East", "Dry Creek")


def read(text: str) -> Reading:
    """One message of the crew's."""
    return read_note(text, sent=SENT, fields=CREW)


def noted(text: str) -> Note:
    """The one note of a message that asks nothing back."""
    reading = read(text)
    assert not reading.problems
    (note,) = reading.notes
    return note


@pytest.mark.parametrize(
    ("text", "white", "yellow"),
    [
        ("kestrel fri 8 dug 5w 2y. no srry 6w 2y. chk again in 10d", 6, 2),
        ("kestrel 4plnts shovl 3 w 3 y - wait no, 3w 4y. nods brown", 3, 4),
        ("kestrel - w 3 - no w 5 - y 1 - 7plnts - pulled", 5, 1),
        ("kestrel 6 dug 5w 2y (no, 6w 2y)", 6, 2),
        ("kestrel 6 dug, 5 white 2 yellow. scratch that, 6 white and 3 yellow", 6, 3),
        ("kestrel 6 dug 2w 3y... nope 2w 4y", 2, 4),
        ("kestrel 6 dug none. no wait 1 white", 1, 0),
        ("kestrel 6 dug, 1 white. no wait, none", 0, 0),
        ("kestrel 6 plantas con pala 5 blancas 2 amarillas. perdón, 6 blancas y 3 amarillas", 6, 3),
        ("kestrel 5 pl na pá 5 brancas 2 amarelas, não desculpa 6 brancas 2 amarelas", 6, 2),
    ],
)
def test_counts_given_again_stand_in_place_of_those_before(text, white, yellow):
    """The colors counted last, and the answer says that they were put right."""
    note = noted(text)

    assert (note.females.white, note.females.yellow) == (white, yellow)
    assert any(remark.kind == "near_word" for remark in read(text).remarks)


@pytest.mark.parametrize(
    ("text", "per_plant"),
    [
        ("kestrel 5 plts shovel: 2, 4, 5, 0, 1 .. no wait last one 3. moist clay", (2, 4, 5, 0, 3)),
        ("kestrel 6 pl: 2 0 4 1 3 5. oops last one is 6", (2, 0, 4, 1, 3, 6)),
        ("kestrel 6 pl: 2 0 4 1 3 5 - first one 3 not 2", (3, 0, 4, 1, 3, 5)),
        ("kestrel 6 pl: 2 0 4 1 3 5. no wait third one 7", (2, 0, 7, 1, 3, 5)),
        ("kestrel 5 pl: 2 0 4 1 3, no wait 2 0 4 1 5", (2, 0, 4, 1, 5)),
        ("kestrel 5 plantas: 2, 0, 4, 1, 3. perdón, el último era 5", (2, 0, 4, 1, 5)),
        ("kestrel 5 plantas: 2, 0, 4, 1, 3. perdón, la primera era 5", (5, 0, 4, 1, 3)),
        ("kestrel 5 plantas: 2, 0, 4, 1, 3 .. não, a última 5", (2, 0, 4, 1, 5)),
    ],
)
def test_one_number_of_a_list_is_put_right_by_its_place(text, per_plant):
    """The last one, the first one, the third: that one alone."""
    assert noted(text).per_plant == per_plant


@pytest.mark.parametrize(
    "text",
    [
        "kestrel 6 dug 2w 3y. north end 6 dug 2w 4y",
        "kestrel 6 pl: 2 0 4 1 3 5 - first one 3 not 7",
        "kestrel 6 pl: 2 0 4 1 3 5. the last one had 3",
    ],
)
def test_counts_that_put_nothing_right_are_asked_about(text):
    """Another place, a number that was not there, no word for putting right."""
    assert read(text).problems


@pytest.mark.parametrize(
    "text",
    [
        "kestrel sprayed today 24h rei, dug none",
        "kestrel dug none",
        "kestrel dug none, too wet",
        "kestrel dug none today",
        "dug none at kestrel",
        "kestrel pulled none, rei 24 h",
        "kestrel V4 moist dug none",
        "kestrel dug no plants",
        "kestrel 0 dug rei 24",
        "kestrel saqué ninguna, aplicaron ayer reingreso 24 h",
        "kestrel tirei nenhuma, aplicaram hoje reentrada 24 h",
    ],
)
def test_none_dug_is_no_look(text):
    """No plant was dug, and so nothing is known of females."""
    note = noted(text)

    assert (note.outcome, note.females.total) == ("not_looked", None)


@pytest.mark.parametrize(
    "text",
    ["kestrel 6 dug none", "kestrel 6 plants dug none", "kestrel dug 6, none", "kestrel V4 moist, 5 pulled none"],
)
def test_plants_dug_with_none_on_them_are_a_look(text):
    """So many were dug, and none was seen."""
    assert noted(text).outcome == "none_seen"


@pytest.mark.parametrize(
    ("text", "per_plant"),
    [
        ("dug 6 at kestrel, 1st three clean, others 2 4 and 1 white", (0, 0, 0, 2, 4, 1)),
        ("kestrel dug 6. first 3 none, the rest 2 4 1", (0, 0, 0, 2, 4, 1)),
        ("kestrel 6 plants, first 2 clean, other four 2 4 1 3 white", (0, 0, 2, 4, 1, 3)),
        ("kestrel saqué 6, las primeras tres limpias, las otras 2 4 y 1 blancas", (0, 0, 0, 2, 4, 1)),
        ("kestrel arranquei 6, as três primeiras limpas, as outras 2 4 e 1 brancas", (0, 0, 0, 2, 4, 1)),
    ],
)
def test_the_rest_of_the_plants_are_told_one_by_one(text, per_plant):
    """As many numbers as plants are left, one of each."""
    note = noted(text)

    assert (note.per_plant, note.date) == (per_plant, None)


@pytest.mark.parametrize(
    ("text", "spots"),
    [
        (
            "dug 10 plants across kestrel. 3 spots: gate 4 plants 6 white, middle 3 plants none, "
            "back 3 plants 2 white 1 yellow",
            [("gate", 4, 6), ("middle", 3, 0), ("back", 3, 3)],
        ),
        (
            "kestrel dug 10 plants. gate 4 pl 6 white, hill 3 pl 1 white, back 3 pl 2 white",
            [("gate", 4, 6), ("hill", 3, 1), ("back", 3, 2)],
        ),
        (
            "kestrel saqué 10 plantas. tranquera 4 plantas 6 blancas, medio 3 plantas nada, fondo 3 plantas 2 blancas",
            [("tranquera", 4, 6), ("medio", 3, 0), ("fondo", 3, 2)],
        ),
        ("kestrel 8 plants, 3 white on the hill and 9 white in the hollow", [("hill", None, 3), ("hollow", None, 9)]),
        (
            "kestrel 8 plantas con pala, 3 blancas en la loma y 9 blancas en el bajo, V5",
            [("loma", None, 3), ("bajo", None, 9)],
        ),
        (
            "kestrel 8 plantas na pá, 3 brancas na cabeceira e 9 brancas na baixada. V5",
            [("cabeceira", None, 3), ("baixada", None, 9)],
        ),
    ],
)
def test_places_behind_all_their_plants_or_their_counts(text, spots):
    """The plants of all places are no place; a place may stand behind what was counted there."""
    note = noted(text)

    assert [(spot.name, spot.plants, spot.females.total) for spot in note.spots] == spots
    assert note.females.total == sum(total for _, _, total in spots)


@pytest.mark.parametrize(
    "text",
    [
        "kestrel. Los bordes de las hojas de abajo, amarillos. 10 plantas con pala 2 blancas",
        "kestrel. lower leaf edges, yellow. dug 6, 2 white",
        "kestrel potash def looking edges on the lower leaves, dug 6 2 white",
        "kestrel. As bordas das folhas de baixo, amareladas. 5 plantas na pá 2 brancas",
        "kestrel bordes con pinta de falta de potasio en las hojas de abajo, 5 plantas con pala 2 blancas",
    ],
)
def test_the_color_of_edges_is_none_of_females(text):
    """Yellow behind a comma, or short of potash, is said of the edges of old leaves."""
    note = noted(text)

    assert (note.tops, note.mostly, note.females.white) == (("edges_old",), (), 2)


@pytest.mark.parametrize(
    ("text", "crop"),
    [
        ("lab kestrel 2600 eggs per 100 cc, 20 cores, corn there next year", "other"),
        ("kestrel came in at 640 eggs /100cc, 20 cores, corn goes there next", "other"),
        ("kestrel 640 eggs per 100 cc, 20 cores, soybeans there next year", "soybean"),
        ("llegó el análisis de kestrel: 2600 huevos cada 100 cc, 20 piques, después va maíz", "other"),
        ("lab kestrel 2300 huevos por 100 cc, maíz el año que viene", "other"),
        ("saiu o laudo do kestrel: 2600 ovos por 100 cc, ano que vem vai milho lá", "other"),
        ("kestrel 3000 ovos por 100 cc, próxima safra soja", "soybean"),
    ],
)
def test_next_years_crop_stands_beside_a_result_of_the_lab(text, crop):
    """What goes there next, in the words of a sentence."""
    (command,) = read(text).commands

    assert (command.kind, command.args["next_crop"]) == ("lab", crop)


@pytest.mark.parametrize("text", ["kestrel dug 6, 3-5 white", "13 or 30 white at kestrel on 6 plants"])
def test_a_count_in_doubt_is_asked_about_and_still_females_were_seen(text):
    """So many or so many: some, in any case."""
    reading = read(text)

    assert [problem.kind for problem in reading.problems] == ["which_of_range"]
    assert (reading.notes[0].outcome, reading.notes[0].females.total) == ("seen", None)


@pytest.mark.parametrize(
    "text",
    [
        "kestrel we lifted six plants with the shovel and every one of the six carried 3 white females",
        "kestrel six plants. every one of the six had 3 white",
        "kestrel saqué 6 plantas, cada una de las seis tenía 3 blancas",
    ],
)
def test_so_many_on_every_one_of_the_plants_dug(text):
    """The plants told before it, and each of them."""
    note = noted(text)

    assert (note.plants, note.females.white) == (6, 18)


def test_small_things_said_otherwise():
    """Words written as one, a fork, a verb cut short, a field's number in figures, too dry and not too many."""
    assert noted("kestrel 8plts dug // w6 y2 // dry siltloam").soil.texture == "silt_loam"
    assert noted("kestrel 6 dug 8 w 0 y 1 tan. forgot to snd srry").soil.texture is None
    assert noted("kestrel 10plants//yel3//2wht//forkd em up").method == "shovel"
    assert noted("kestrel: cavei 7, deu 1-0-0-4-2-0-6. solo areia, seco demais da conta").too_many is False
    (note,) = read_note("6mile 3p pulled dry clay 0", sent=SENT, fields=("Sixmile", "Tinkers")).notes
    assert note.field == "6mile"
    assert len(read_note("walked 6 mile. tinkers 6 dug none", sent=SENT, fields=("Sixmile", "Tinkers")).notes) == 1


@pytest.mark.parametrize(
    ("text", "moisture", "soaked"),
    [
        ("Kestrel 5 plants 3 white. Everything was soaked in water first.", None, True),
        ("Kestrel 5 plants 3 white. Everything was soaked", "wet", None),
        ("Kestrel 5 plants 3 white. Ground was soaked in water", "wet", None),
        ("Kestrel 5 plants 3 white. All dug. Sorry for the mud on the scan.", None, None),
        ("Kestrel 5 plants 3 white. Mud on the paper, pardon", None, None),
        ("Kestrel 5 plants 3 white. Sorry, muddy.", "wet", None),
        ("Kestrel 5 plants 3 white, mud everywhere", "wet", None),
        ("Kestrel 5 plantas 3 blancas. Perdón por el barro en la hoja", None, None),
        ("Kestrel 5 plantas 3 brancas. Desculpe a lama na folha", None, None),
    ],
)
def test_soaked_roots_and_mud_on_a_paper_are_no_wet_soil(text, moisture, soaked):
    """What is said of the ground stays so."""
    note = noted(text)

    assert (note.soil.moisture, note.soaked) == (moisture, soaked)


@pytest.mark.parametrize(
    ("text", "tops", "mostly"),
    [
        ("kestrel; 4 dug; 11w 5y; tops uneven, some yel; roots stubby", {"uneven", "yellow"}, ()),
        ("kestrel 4 dug 11w; tops stunted, a little yellow", {"stunted", "yellow"}, ()),
        ("kestrel 4 dug 11w; tops uneven, some yel females", {"uneven"}, ("yellow",)),
        ("kestrel 4 dug, mostly white some yel. tops uneven", {"uneven"}, ("white", "yellow")),
    ],
)
def test_some_yellow_behind_uneven_tops_is_of_the_tops(text, tops, mostly):
    """Where the females were counted by color before."""
    note = noted(text)

    assert (set(note.tops), note.mostly) == (tops, mostly)


@pytest.mark.parametrize(
    ("text", "roots"),
    [
        (
            "KESTREL / 5 PL SHOVEL / W12 Y6 / RTS DARK, NODS FEW, BRN INSIDE / R1",
            {"dark", "nodules_few", "nodules_brown"},
        ),
        ("kestrel 5 pl 12w. nods few, pnk inside", {"nodules_few", "nodules_pink"}),
        ("kestrel 5 pl 12w. nods brown in the middle", {"nodules_brown"}),
    ],
)
def test_short_words_for_what_is_inside_of_nodules(text, roots):
    assert set(noted(text).roots) == roots


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel. Dug 5, somewhere between 15 and 20 white. R2, moist.",
        "Kestrel. Saqué 5, entre 15 y 20 blancas",
        "Kestrel. Arranquei 5, entre 15 e 20 brancas",
    ],
)
def test_females_between_two_numbers_were_seen_and_are_asked_about(text):
    reading = read(text)

    assert [problem.kind for problem in reading.problems] == ["which_of_range"]
    assert [note.outcome for note in reading.notes] == ["seen"]
