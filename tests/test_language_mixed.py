"""Notes as they are told and written on an ordinary day, in all three languages: fields in a story, places, shorthand."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note

SENT = date(2026, 7, 8)
CREW = (
    *("Kestrel", "Dry Creek", "Windmill Flat", "La Tranquera", "Molino Viejo", "Baixada", "Santa Rita"),
    *("Harrow Ridge 3", "Tinker's", "Talhão 3"),
)


def _read(text: str):
    return read_note(text, sent=SENT, fields=CREW)


def _note(text: str):
    reading = _read(text)
    assert reading.problems == (), reading.problems
    (note,) = reading.notes
    return note


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel, n=6 plants dug and rinsed in a bucket: 7 white",
        "Kestrel n=6 plants dug, 7 white",
        "Kestrel n = 6 plants, dug, 7 white",
        "Kestrel dug, 7 white on n=6 plants",
        "Kestrel (n=6) dug, 7 white",
        "Kestrel dug, plants: n=6, 7 white",
        "La Tranquera n=6 plantas con pala, 7 blancas",
        "Baixada n=6 plantas na pá, 7 brancas",
    ],
)
def test_a_sample_is_so_many_plants(text):
    """The sign of statistics, with or without the word for plants behind it."""
    note = _note(text)

    assert (note.plants, note.method, note.females.white) == (6, "shovel", 7)


def test_a_sample_of_females():
    """Behind a word for females the sign counts them; before a color it might be either."""
    assert _note("Kestrel plants n=6 dug, females n=3").females.total == 3
    assert [problem.kind for problem in _read("Kestrel n=7 white, dug").problems] == ["which_number"]


@pytest.mark.parametrize(
    ("text", "plants", "total", "mostly"),
    [
        ("kestrel pulled 4 got 9 mostly w", 4, 9, ("white",)),
        ("kestrel pulled 4 found 9 mainly yellow", 4, 9, ("yellow",)),
        ("kestrel dug 6 saw 12 mostly white", 6, 12, ("white",)),
        ("kestrel dug 5 counted 12", 5, 12, ()),
        ("kestrel dug 5 counted 12 mostly white", 5, 12, ("white",)),
        ("kestrel dug four of them and counted 12 mostly white", 4, 12, ("white",)),
    ],
)
def test_dug_so_many_got_so_many(text, plants, total, mostly):
    """The first number is the plants, the second what was on them."""
    note = _note(text)

    assert (note.plants, note.females.total, note.mostly) == (plants, total, mostly)


@pytest.mark.parametrize(
    ("text", "plants", "white"),
    [
        ("Kestrel, stunted plants. I dug four of them and counted thirty white.", 4, 30),
        ("Kestrel, stunted plants by the road, dug three of em, 14 white", 3, 14),
        ("Kestrel stunted spots, pulled 5 of those and saw 2 white", 5, 2),
        ("Kestrel. Dug five of them, soaked, and found six white", 5, 6),
    ],
)
def test_some_of_them_dug_are_plants(text, plants, white):
    """ "Them" are the plants told of before."""
    note = _note(text)

    assert (note.plants, note.females.white) == (plants, white)


@pytest.mark.parametrize(
    ("text", "first", "second"),
    [
        (
            "Kestrel gave me three white on seven plants. In Dry Creek I eased five plants loose and saw none at all.",
            ("kestrel", 7, 3),
            ("dry creek", 5, 0),
        ),
        (
            "Kestrel 5 plants dug, 3 white. Then over in Dry Creek we eased four plants and found six white.",
            ("kestrel", 5, 3),
            ("dry creek", 4, 6),
        ),
        (
            "Only 3 plants at Kestrel, pulled, 4 white. Felt better and did 6 at Dry Creek, pulled those too, and zero",
            ("kestrel", 3, 4),
            ("dry creek", 6, 0),
        ),
        ("kestrel dug 5, 3 white. Dug 6 at Dry Creek, none.", ("kestrel", 5, 3), ("dry creek", 6, 0)),
        ("kestrel dug 5, 3 white and dug 6 plants at Dry Creek, 2 white", ("kestrel", 5, 3), ("dry creek", 6, 2)),
        ("kestrel none on 5 pulled. Dug six plants at Dry Creek. Nine white.", ("kestrel", 5, 0), ("dry creek", 6, 9)),
        (
            "La Tranquera dio tres blancas en siete plantas. En Molino Viejo aflojé cinco plantas y no vi ninguna.",
            ("la tranquera", 7, 3),
            ("molino viejo", 5, 0),
        ),
        (
            "la tranquera saqué 5, 3 blancas. Saqué 6 en Molino Viejo, ninguna.",
            ("la tranquera", 5, 3),
            ("molino viejo", 6, 0),
        ),
        (
            "Baixada deu três brancas em sete plantas. Na Santa Rita soltei cinco plantas e não vi nenhuma.",
            ("baixada", 7, 3),
            ("santa rita", 5, 0),
        ),
        (
            "baixada cavei 5, 3 brancas e arranquei 6 na Santa Rita, nada.",
            ("baixada", 5, 3),
            ("santa rita", 6, 0),
        ),
    ],
)
def test_a_second_field_in_a_sentence_of_its_own(text, first, second):
    """Led by "in" at the start of a sentence, or behind the plants dug there, which are no plants of the first."""
    reading = _read(text)

    assert reading.problems == ()
    assert [(note.field, note.plants, note.females.total) for note in reading.notes] == [first, second]


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("kestrel, dealer side: 2 dug, 5 white / customer side: 2 dug, 0", ["dealer side", "customer side"]),
        ("kestrel: by the bins: 2 dug, 5 w / by the pond: 2 dug, none", ["bins", "pond"]),
        (
            "la tranquera, lado del galpón: 2 plantas, 5 blancas / lado del tanque: 2 plantas, 0",
            ["lado del galpón", "lado del tanque"],
        ),
        ("baixada, lado do galpão: 2 pés, 5 brancas / lado da cerca: 2 pés, 0", ["lado do galpão", "lado da cerca"]),
    ],
)
def test_a_slash_between_places_with_a_colon(text, names):
    """One slash parts two places, each headed by its words and a colon."""
    note = _note(text)

    assert [(spot.name, spot.plants, spot.females.total) for spot in note.spots] == [(names[0], 2, 5), (names[1], 2, 0)]


@pytest.mark.parametrize(
    ("text", "listed"),
    [
        ("La Tranquera 2/0/7/4 cavadas", (2, 0, 7, 4)),
        ("La Tranquera 2/0/7/4 plantas, secas", (2, 0, 7, 4)),
        ("Baixada 2/0/7/4 arrancadas", (2, 0, 7, 4)),
        ("Baixada 2/0/7/4, 13 no total", (2, 0, 7, 4)),
        ("Kestrel 3/0/5/1 so 9 cysts total", (3, 0, 5, 1)),
        ("Kestrel dug 3/0/5/1 so 9 cysts total", (3, 0, 5, 1)),
        ("Kestrel 3/0/5/1 pulled, 9 in all", (3, 0, 5, 1)),
        ("Kestrel 3/0/5/1 per plant, dug", (3, 0, 5, 1)),
        ("Kestrel 4 plants dug, per plant: 3/0/5/1", (3, 0, 5, 1)),
    ],
)
def test_four_numbers_with_slashes_are_plants_where_that_is_said(text, listed):
    """The word beside says plants, or a total is told of them and no plants."""
    note = _note(text)

    assert (note.plants, note.per_plant, note.females.total) == (4, listed, sum(listed))
    assert note.females.white is None


@pytest.mark.parametrize("text", ["Kestrel dug 12/3/0/1 on 10 plants", "Kestrel 6 pl dug 12/3/0/1"])
def test_four_numbers_with_slashes_are_the_colors_in_order(text):
    """Where the plants are others."""
    females = _note(text).females

    assert (females.white, females.yellow, females.tan, females.brown) == (12, 3, 0, 1)


@pytest.mark.parametrize("text", ["Kestrel 4 plants dug 3/0/5/1", "La Tranquera 3/0/5/1", "Baixada 3/0/5/1, pá"])
def test_four_numbers_with_slashes_that_may_be_either_are_asked_about(text):
    """Four plants, or nothing said of them."""
    reading = _read(text)

    assert [problem.kind for problem in reading.problems] == ["which_number"]
    assert reading.notes[0].females.total is None


@pytest.mark.parametrize(
    ("text", "plants", "total"),
    [
        ("Baixada: soltei as plantas com a mão, seis ao todo, e lavei no balde. Onze fêmeas, todas brancas.", 6, 11),
        ("Baixada: arranquei as plantas, 6 no total, e lavei. 11 fêmeas brancas.", 6, 11),
        ("Baixada: cavei com pá, oito no total, nenhuma fêmea", 8, 0),
        ("La Tranquera: saqué las plantas con la pala, seis en total. Once hembras, todas blancas.", 6, 11),
        ("La Tranquera: con pala, seis en total, ninguna hembra", 6, 0),
        ("Kestrel: eased the plants out, six in all, and washed them. Eleven females, all white.", 6, 11),
        ("Kestrel: pulled the plants by hand, six altogether. Found four white.", 6, 4),
        ("Kestrel: dug with a shovel, 8 in total, none seen", 8, 0),
    ],
)
def test_so_many_in_all_behind_how_they_were_dug(text, plants, total):
    """The plants, where they were spoken of or nothing was found, and no number of plants is told."""
    note = _note(text)

    assert (note.plants, note.females.total) == (plants, total)


def test_so_many_in_all_that_are_the_sum_stay_the_sum():
    """What was found adds up to it; where neither is clear, it is asked about."""
    assert _note("Kestrel: dug plants with a shovel, 8 in all, 5 white 3 yellow").plants is None
    assert _note("Kestrel dug, 12 total, mostly white").females.total == 12
    assert _read("Baixada: cavei com pá, oito ao todo, 4 brancas").problems


@pytest.mark.parametrize(
    "text",
    [
        "Baixada tiramos seis plantas com a pá e deu três fêmeas por planta, a soja já tá em R3",
        "Baixada seis plantas, deram três cistos por planta",
        "La Tranquera sacamos seis plantas con la pala y dio tres hembras por planta",
    ],
)
def test_so_many_a_plant_behind_a_word_for_having(text):
    """Multiplied by the plants."""
    assert _note(text).females.total == 18


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("Baixada tá amarela, n cavei, volto p olhar sexta", date(2026, 7, 10)),
        ("Baixada não cavei, volto pra olhar na sexta", date(2026, 7, 10)),
        ("La Tranquera no saqué, vuelvo p/ mirar viernes", date(2026, 7, 10)),
        ("La Tranquera no saqué, vuelvo con el encargado el lunes", date(2026, 7, 13)),
    ],
)
def test_coming_back_to_look_on_a_day(text, day):
    """The day of the next look, and not of this visit, with what is done there between."""
    note = _note(text)

    assert (note.look_again.date, note.date) == (day, None)


@pytest.mark.parametrize(
    "text",
    [
        "La Tranquera: 5 plantas 10 hembras. Todo a jalón, hay puro lodo",
        "La Tranquera 5 plantas al tirón, 10 hembras",
        "La Tranquera 5 pl arr, 10 hembras",
        "La Tranquera arr 5 pl, 10 hembras",
        "Baixada 5 pés arr, 10 fêmeas",
    ],
)
def test_ways_to_say_pulled_up(text):
    """By a tug, or cut short."""
    note = _note(text)

    assert (note.plants, note.method, note.females.total, note.mostly) == (5, "pulled", 10, ())


@pytest.mark.parametrize(
    ("text", "texture"),
    [
        ("La Tranquera 4 pl con pala 0, franco aren", "sandy_loam"),
        ("La Tranquera 4 pl con pala 0, fco arc", "clay_loam"),
        ("La Tranquera 4 pl con pala 0, franco lim", "silt_loam"),
        ("La Tranquera 4 pl con pala 0, arc lim", "silty_clay"),
        ("Baixada 4 pés com pá 0, franco arg", "clay_loam"),
        ("Baixada 4 pés com pá 0, franco silt", "silt_loam"),
    ],
)
def test_textures_cut_short(text, texture):
    """Two words, the second cut."""
    assert _note(text).soil.texture == texture


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel pulled 5, 4 while 2 yellow",
        "Kestrel pulled 5, 2 yellow 4 while",
        "Kestrel pulled 5, 4 while and 2 yellow. WHITE. phone",
    ],
)
def test_another_word_for_a_color_beside_a_counted_one(text):
    """Read as the color, and said so; the word put right behind it is no further finding."""
    reading = _read(text)
    (note,) = reading.notes

    assert reading.problems == ()
    assert "near_word" in [remark.kind for remark in reading.remarks]
    assert (note.females.white, note.females.yellow, note.mostly) == (4, 2, ())


def test_while_is_a_word_of_its_own_elsewhere():
    """Where no other color is counted beside it, or plants are before it."""
    assert _note("Kestrel dug 4 while it rained, 2 yellow").females.white == 0
    assert _note("Kestrel 4 dug, 3 white while the other 2 yellow").females.white == 3


@pytest.mark.parametrize(
    ("text", "outcome", "roots"),
    [
        ("Kestrel pulled 7, robots dark and stubby, 5 white", "seen", ("dark", "stubby")),
        ("Dug 8 over at Kestrel, sisters on the roots again. CYSTS. Did not count them.", "seen", ()),
        ("Kestrel: leaves yellow in patches. Didn't dog. DIG", "not_looked", ()),
        ("kestrel yello in patches didnt dig running late 4 practice", "not_looked", ()),
    ],
)
def test_words_a_phone_put_for_ours(text, outcome, roots):
    """Where one reading is possible."""
    note = _note(text)

    assert (note.outcome, note.roots) == (outcome, roots)


def test_people_are_no_females():
    """ "Sisters" count only where they are on roots."""
    note = _read("Kestrel went with my two sisters, dug 5, none").notes[0]

    assert (note.plants, note.females.total) == (5, 0)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        (
            "At the pond end of Kestrel I dug 3 and got 16 white, so I huffed it up there and on the hilltop I dug 3 "
            "more and got 1 white.",
            "hilltop",
        ),
        (
            "La Tranquera: en el bajo saqué 3 y había 16 blancas, así que caminé un rato y en la loma saqué 3 más y "
            "había 1 blanca",
            "loma",
        ),
        (
            "Baixada: na beira do brejo cavei 3 e deu 16 brancas, aí andei um pouco e no alto cavei mais 3 e deu 1 "
            "branca",
            "alto",
        ),
    ],
)
def test_a_place_told_in_a_story(text, name):
    """The place is what stands behind "and on the ..", and not the way there."""
    spots = _note(text).spots

    assert (spots[1].name, spots[1].plants, spots[1].females.white) == (name, 3, 1)


@pytest.mark.parametrize(
    ("text", "second"),
    [
        ("kestrel 3 plts 4 white. Six plants at Dry Creek had none.", ("dry creek", 6, 0)),
        ("kestrel 3 plts 4 white. 6 dug at Dry Creek, 2 yellow", ("dry creek", 6, 2)),
        ("La Tranquera 3 plantas, 4 blancas. Seis plantas en Molino Viejo y ninguna.", ("molino viejo", 6, 0)),
        ("Baixada 3 pés, 4 brancas. Seis pés na Santa Rita, nada.", ("santa rita", 6, 0)),
    ],
)
def test_a_sentence_that_begins_with_the_plants_of_another_field(text, second):
    """ "Six plants at .. had none": of that field."""
    reading = _read(text)

    assert reading.problems == ()
    assert [(note.plants, note.females.total) for note in reading.notes][:1] == [(3, 4)]
    assert [(note.field, note.plants, note.females.total) for note in reading.notes][1:] == [second]


@pytest.mark.parametrize(
    "text",
    [
        "kestrel dug 5 plants, 3 white on one of them",
        "kestrel worked 5 plants loose by hand, 3 white on one of them, rest clean",
        "kestrel dug 5, 3 white on two of em",
    ],
)
def test_females_on_some_of_them(text):
    """Some of the plants told before, and no other plants."""
    note = _note(text)

    assert (note.plants, note.females.total) == (5, 3)
