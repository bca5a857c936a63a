"""Counts dictated plant by plant, under letters, in two lists; none, not looked and seen in words; what crops are like."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note

SENT = date(2026, 7, 8)
CREW = ("Kestrel", "Old Mill East", "Dry Creek", "La Tranquera", "Bajo Grande", "Baixada", "Santa Rita", "Sede Velha")


def _read(text: str):
    return read_note(text, sent=SENT, fields=CREW)


def _note(text: str):
    reading = _read(text)
    assert reading.problems == (), reading.problems
    (note,) = reading.notes
    return note


def _colours(text: str) -> tuple[int | None, ...]:
    females = _note(text).females
    return females.white, females.yellow, females.tan, females.brown


@pytest.mark.parametrize(
    ("text", "per_plant"),
    [
        (
            "Kestrel I dug four plants first one had two second one had none third one had five and the fourth had one",
            (2, 0, 5, 1),
        ),
        ("kestrel dug four first had three second two third none fourth one", (3, 2, 0, 1)),
        ("Baixada cavei quatro a primeira tinha duas a segunda nenhuma a terceira cinco e a quarta uma", (2, 0, 5, 1)),
        ("La Tranquera saqué tres la primera tenía dos la segunda nada la tercera cinco", (2, 0, 5)),
        ("kestrel dug 4, 3 w 1 y on first plant, 5 w on second, none on third and fourth", (4, 5, 0, 0)),
        ("kestrel 3 w 1 y on first plant, 5 w on second, none on third and fourth. spade", (4, 5, 0, 0)),
        (
            "La Tranquera 4 plantas: 2 blancas en la primera, 5 en la segunda, ninguna en la tercera y la cuarta",
            (2, 5, 0, 0),
        ),
        ("Baixada 4 pl: 3 b na primeira, 2 b na segunda, nada na terceira e na quarta", (3, 2, 0, 0)),
        ("kestrel dug 4: 6 wht 2 yel / 0 / 3 wht / 1 brn", (8, 0, 3, 1)),
        ("kestrel dug 4: 6w / 0 / 0 / 1b", (6, 0, 0, 1)),
        ("kestrel white per plant 3 1 4 0 2, yellow per plant 0 0 1 0 1", (3, 1, 5, 0, 3)),
        ("Baixada brancas por planta: 3 1 4 0; amarelas por planta: 0 0 1 0", (3, 1, 5, 0)),
        ("kestrel: one guy count 3 2 0 0 5, other guy count 1 0 0 4 0. ten plants", (3, 2, 0, 0, 5, 1, 0, 0, 4, 0)),
        ("Kestrel 8 plants 3 5 0 0 12 7 1 2 dry", (3, 5, 0, 0, 12, 7, 1, 2)),
        ("kestrel dug 5: 3 0 5 2 1 females", (3, 0, 5, 2, 1)),
        ("Kestrel: 2w, 1w, 0, 4w+1y, 3w = 11. Shovel. R2", (2, 1, 0, 5, 3)),
        ("Kestrel: 3w 2y, 0, 1w = 6, shovel", (5, 0, 1)),
        ("Kestrel 2, 1, 0, 0, 4 = 7. Shovel", (2, 1, 0, 0, 4)),
        ("Kestrel 5 plants 2 1 0 0 4 (7) shovel", (2, 1, 0, 0, 4)),
        ("La Tranquera: 2b, 1b, 0, 4b+1a = 8. Pala", (2, 1, 0, 5)),
        ("Baixada: 2b, 1b, 0, 4b+1a = 8. Pá", (2, 1, 0, 5)),
    ],
)
def test_plants_are_told_one_by_one(text: str, per_plant: tuple[int, ...]) -> None:
    note = _note(text)
    assert note.per_plant == per_plant
    assert note.females.total == sum(per_plant)
    assert note.plants == len(per_plant)


@pytest.mark.parametrize(
    "text",
    [
        "kestrel first plant twelve second plant none third plant three dug",
        "kestrel dug 8: 3 0 5 2 1 females",
        "kestrel dug 5, females on 7 of them",
    ],
)
def test_what_does_not_fit_is_asked_about(text: str) -> None:
    assert _read(text).problems


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel 2, 1, 0, 0, 4 = 8. Shovel",  # seven
        "Kestrel 5 plants: 1w, 2w, 0, 4w1y, 3w = 12",  # eleven
        "Kestrel 6 plants. p1 3w, p2 1w",  # and the other four?
    ],
)
def test_a_sum_that_does_not_fit_and_plants_left_out_are_asked_about(text: str) -> None:
    """Nobody knows which of the numbers is wrong."""
    assert _read(text).problems


@pytest.mark.parametrize(
    ("text", "colours"),
    [
        ("kestrel wytb 4-2-1-0, 5 dug", (4, 2, 1, 0)),
        ("Kestrel 8 pl, w-y-t-b: 12-4-0-1", (12, 4, 0, 1)),
        ("Baixada b/a/m 5/8/3 em 6 pés cavados R3", (5, 8, 0, 3)),
        ("Baixada 6 pl b/a/m: 5, 8, 3 na pá", (5, 8, 0, 3)),
        ("La Tranquera pala 6 22 b 4 a 9 m", (22, 4, 0, 9)),
        ("Baixada 5 pl 8 b 1 a pá", (8, 1, 0, 0)),
        ("kestrel five plants dug white two yellow two tan two brown two the roots are dark", (2, 2, 2, 2)),
        ("Kestrel spade 5, 40 all white", (40, 0, 0, 0)),
        ("La Tranquera raíz con puro quiste café, 6 matas 31", (0, 0, 0, 31)),
        ("Baixada 5 pl 2br p/ planta", (10, 0, 0, 0)),
    ],
)
def test_counts_have_their_colors(text: str, colours: tuple[int, ...]) -> None:
    assert _colours(text) == colours


@pytest.mark.parametrize(
    ("text", "total", "mostly"),
    [
        ("Baixada 6pl 8, a maioria am", 8, ("yellow",)),
        ("kestrel about two dozen, mostly white, 6 plants eased loose by hand", 24, ("white",)),
        ("kestrel 5 dug, 30, mostly brown", 30, ("brown",)),
    ],
)
def test_a_number_before_its_shade_counts_females(text: str, total: int, mostly: tuple[str, ...]) -> None:
    note = _note(text)
    assert (note.females.total, note.mostly) == (total, mostly)


@pytest.mark.parametrize(
    ("text", "outcome"),
    [
        ("La Tranquera V5 negativo 10 pl pala, lavadas en balde", "none_seen"),
        ("Baixada arranquei oito plantas não achei nenhuma fêmea a terra tava bem seca", "none_seen"),
        ("Kestrel pulled 4 nonr seen", "none_seen"),
        ("kestrel 4 pl sme on evry plant didnt cnt", "seen"),
        ("kestrel 4 pl, some on every plant", "seen"),
        ("La Tranquera saqué 4 y si traen hembras pero no las conté", "seen"),
        ("Kestrel 5 pl TNTC on every root I dug", "seen"),
        ("La Tranquera saqué cuatro y había más de lo que se puede contar", "seen"),
        ("kestrel I dig 4, every one have plenty white, too many for count", "seen"),
        ("No shovel with me so nothing checked at Kestrel. V4, stand uneven", "not_looked"),
        ("Hoje não olhei a Baixada, a ponte caiu com a chuva", "not_looked"),
        ("kestrel no dig. Tops from the truck looked healthy", "not_looked"),
    ],
)
def test_outcomes_told_in_words(text: str, outcome: str) -> None:
    assert _note(text).outcome == outcome


@pytest.mark.parametrize(
    ("text", "tops"),
    [
        ("Hoje não olhei a Baixada, a ponte caiu com a chuva", ()),
        ("kestrel 7 plants covered too many to count mostly yellow the plants are stunted", ("stunted",)),
        ("kestrel couldnt dig. From the road the tops looked healthy.", ("healthy",)),
        ("Kestrel no dig. Tops from the truck looked healthy", ("healthy",)),
        ("La Tranquera madurando antes en ruedas, 6 matas 3 blancas", ("ring", "early_ripe")),
        ("Baixada murchas em rodas; 4 arrancadas; nada", ("ring", "wilted")),
        ("Kestrel 10 dug 30 brown and it's turning ripe way early in patches", ("patch", "early_ripe")),
    ],
)
def test_what_the_plants_are_like(text: str, tops: tuple[str, ...]) -> None:
    assert _note(text).tops == tops


@pytest.mark.parametrize(
    ("text", "ph"),
    [
        ("La Tranquera pH siete coma nueve", 7.9),
        ("Baixada pê agá sete e meio", 7.5),
        ("Baixada ph sete vírgula cinco, 6 plantas nada", 7.5),
        ("kestrel pH 7,5", 7.5),
    ],
)
def test_acidity_in_words(text: str, ph: float) -> None:
    assert _note(text).soil.ph == ph


@pytest.mark.parametrize(
    ("text", "method", "plants"),
    [
        ("Kestrel 6 plants dig, 1 white", "shovel", 6),
        ("kestrel 5pl spad 2w", "shovel", 5),
        ("kestrel we take out 3 plants slow with the hands, loosening the dirt. white 4", "eased", 3),
        ("Baixada cavei 3 e tava branco de fêmea", "shovel", 3),
    ],
)
def test_how_plants_were_dug(text: str, method: str, plants: int) -> None:
    note = _note(text)
    assert (note.method, note.plants) == (method, plants)


def test_days_and_roots_beside_counts() -> None:
    assert _note("La Tranquera mar 7 plantas con pala 9 blancas").date == date(2026, 7, 7)
    again = _note("kestrel again tuesday. 8 plants. white 20, yellow 15")
    assert (again.date, again.look_again) == (date(2026, 7, 7), None)
    left = _note("Kestrel none on 8 washed. R2. leave it 3 weeks")
    assert left.look_again is not None
    assert left.look_again.days == 21
    assert _note("Baixada arranquei 6; em 4 delas a raiz partiu. 1 amarela").roots == ("snapped",)
    assert _note("La Tranquera arranqué cuatro y se quedó media raíz en el suelo, no vi nada").roots == ("snapped",)
    assert _note("Baixada 5 pl na pá, 3 brancos, terra humida").soil.moisture == "moist"


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel bay 4 pl 2 w",
        "Baixada achei 8 b e a na raiz",
        "La Tranquera 4 pl a pala 3 b",
        "Baixada 4 pl, 3 b e 2 a, a raiz sadia",
        "La Tranquera mar 7, 6 plantas 2 blancas",
        "Kestrel 10 plants dug. 1 white female. Grower notified.",
    ],
)
def test_plain_notes_beside_them_read_on(text: str) -> None:
    assert _note(text).outcome == "seen"


def test_a_yellow_crop_is_no_yellow_female() -> None:
    text = "Baixada amarelo por tudo que é motivo: folha nova amarela entre as nervuras. 6 com pá, 2 brancas"
    note = _note(text)
    assert (note.mostly, note.tops) == ((), ("interveinal_new",))


def test_a_slashed_list_behind_plants_and_a_colon_is_one_a_plant() -> None:
    assert _note("La Tranquera 4 pl: 0/3/1/0").per_plant == (0, 3, 1, 0)
    assert _read("Kestrel 4 pl 0/3/1/0").problems


def test_a_doubt_in_the_midst_is_asked_about() -> None:
    assert _read("La Tranquera 6 matas... o eran de los nogales? 5 blancas").problems


@pytest.mark.parametrize(
    ("text", "counts"),
    [
        ("Kestrel 6 plants: ⚪3 🟡2 🟤1", (3, 2, 0, 1)),
        ("Baixada: 6 plantas 3⚪ 2🟡 1🟤", (3, 2, 0, 1)),
        ("La Tranquera, ahora sí 👍 6 plantas, 14 hembras: 10 ⚪ 4 🟡", (10, 4, 0, 0)),
        ("Kestrel 6 plants ⚪️ 3", (3, 0, 0, 0)),
        ("Baixada 6 pés 🔎 ⬜: 4, 🟨: 7", (4, 7, 0, 0)),
        ("La Tranquera p1 2⚪ p2 0 p3 1🟡", (2, 1, 0, 0)),
        ("🟡 Kestrel 6 plants none", (0, 0, 0, 0)),
    ],
)
def test_a_colored_circle_is_its_color(text: str, counts: tuple[int, ...]):
    """Before or behind its number, in every language; one that counts nothing changes nothing."""
    assert _colours(text) == counts


def test_circles_told_again_are_asked_about():
    """Three of a sign may be three females or one more loudly said."""
    assert _read("Kestrel 6 plants ⚪⚪🟡").problems


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("Baixada borda p1 4 p2 6; meio p1 0 p2 1 p3 0. franco-argiloso", ((4, 6), (0, 1, 0))),
        ("Kestrel edge p1 4 p2 6; middle p1 0 p2 1 p3 0. silt loam", ((4, 6), (0, 1, 0))),
        ("La Tranquera: borde p1 4, p2 6, medio p1 0, p2 1", ((4, 6), (0, 1))),
        ("Baixada borda: p1=4 p2=6\nmeio: p1=0 p2=1", ((4, 6), (0, 1))),
        ("Baixada borda planta 1 4, planta 2 6; meio planta 1 0, planta 2 1", ((4, 6), (0, 1))),
        ("Kestrel gate p1 4 p2 6; hill p1 0 p2 1 p3 1", ((4, 6), (0, 1, 1))),
    ],
)
def test_plants_are_numbered_anew_at_each_place(text: str, places: tuple[tuple[int, ...], ...]):
    """The second "p1" is the first plant of the next place."""
    note = _note(text)
    assert tuple(spot.per_plant for spot in note.spots) == places
    assert note.per_plant == tuple(count for place in places for count in place)


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel p1 0 p2 1 p3 0 p4 2; check strip p1 30 p2 25",
        "Baixada p1 0 p2 1 p3 0 p4 2; testemunha p1 30 p2 25",
        "La Tranquera p1 0 p2 1 p3 0 p4 2; testigo p1 30 p2 25",
    ],
)
def test_plants_of_the_check_strip_are_numbered_anew(text: str):
    """The strip's plants are no plants of the field."""
    note = _note(text)
    (strip,) = note.spots
    assert (note.per_plant, strip.per_plant, strip.check) == ((0, 1, 0, 2), (30, 25), True)


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel p1 4 p2 6; p1 0 p2 1",
        "La Tranquera testigo: p1 30 p2 25. p1 0 p2 1 p3 0",
        "Kestrel p1 2 p2 0 and p2 4",
        "Kestrel p1 2 p2 0. p2 had a chewed root. p2 4",
        "Kestrel p1 and p2 with females, p4 none",
        "Kestrel plants 1 and 2 had females, 3 and 4 didn't",
    ],
)
def test_plants_numbered_again_without_a_place_or_left_out_are_asked_about(text: str):
    """No place and no word that puts right: which of them is meant?"""
    assert _read(text).problems


@pytest.mark.parametrize(
    ("text", "per_plant"),
    [
        ("Baixada p1 2 p2 0 p3 1 p4 3, aliás p4 é 5. Olhar de novo dia 28/8", (2, 0, 1, 5)),
        ("Baixada p1: 2, p2: 0, p3: 1, ops p3: 7", (2, 0, 7)),
        ("Baixada p1 2 p2 0 p3 1, na verdade p1 eram 4", (4, 0, 1)),
        ("La Tranquera p1 2, p2 0, p3 1, perdón, p2 tenía 4, con pala", (2, 4, 1)),
        ("La Tranquera p1 2 p2 0 p3 1 p4 3, digo p4 5", (2, 0, 1, 5)),
        ("Kestrel p1 2 p2 0 p3 1 p4 3. oops p4 was 6. moist", (2, 0, 1, 6)),
        ("Kestrel p1 2 p2 0 p3 1 p4 3. p2 is 1 actually", (2, 1, 1, 3)),
        ("Kestrel p1 2 p2 0 p3 1 p4 3, no, p4 5", (2, 0, 1, 5)),
    ],
)
def test_what_one_plant_had_is_put_right_and_said(text: str, per_plant: tuple[int, ...]):
    """The later count of the same plant counts, behind a word that puts right, and the answer says so."""
    assert _note(text).per_plant == per_plant
    assert _read(text).remarks


@pytest.mark.parametrize(
    ("text", "plants"),
    [
        ("Baixada p1 e p2 com fêmeas, p3 e p4 sem, não contei. Plantas amareladas", 4),
        ("La Tranquera p1 y p2 con hembras, p3 y p4 sin, no conté", 4),
        ("La Tranquera planta 1 y 2 con hembras, 3 y 4 sin nada", 4),
        ("La Tranquera plantas 1, 2 y 3 con hembras, planta 4 limpia", 4),
        ("Kestrel p1 and p3 had females, p2 none", 3),
        ("Kestrel p3 clean, p1 and p2 with females. spade", 3),
        ("Kestrel plants 1 and 2 had females, plants 3 and 4 none", 4),
    ],
)
def test_plants_with_and_without_females_are_seen_and_not_counted(text: str, plants: int):
    """Which had some is told, how many is not."""
    note = _note(text)
    assert (note.plants, note.outcome, note.females.total, note.per_plant) == (plants, "seen", None, None)


@pytest.mark.parametrize(
    ("text", "tops"),
    [
        ("La Tranquera borde amarillo, 5 plantas 3 blancas", ("edges_old",)),
        ("Baixada amarelo na borda das folhas velhas, 4 plantas 3 brancas", ("edges_old",)),
        ("Kestrel 6 plants 4 white, edge yellow", ("edges_old",)),
    ],
)
def test_the_edge_of_a_leaf_is_no_place(text: str, tops: tuple[str, ...]):
    """Only counts behind it make it one."""
    note = _note(text)
    assert (note.tops, note.spots) == (tops, ())


@pytest.mark.parametrize(
    ("text", "roots"),
    [
        ("La Tranquera raíces lavadas y oscuras. 5 plantas 0", ("dark",)),
        ("Baixada raízes lavadas, escuras. 4 plantas, 0 fêmeas", ("dark",)),
        ("Kestrel roots washed and dark, 5 plants 3 white", ("dark",)),
        ("Kestrel roots washed, dark soil, 3 white on 5 plants", ()),
        ("Kestrel washed, dark clouds, 5 plants 3 white", ()),
    ],
)
def test_washed_roots_may_be_told_of_in_the_same_breath(text: str, roots: tuple[str, ...]):
    """What they are like stands behind the washing; dark soil is no root."""
    note = _note(text)
    assert (note.soaked, note.roots) == (True, roots)


@pytest.mark.parametrize(
    ("text", "colours"),
    [
        ("Kestrel: W Y T B\n         3 1 0 0\nshovel", (3, 1, 0, 0)),
        ("Kestrel shovel 4 plants\nW  Y  T  B\n3  1  0  0", (3, 1, 0, 0)),
        ("Kestrel shovel (w,y,t,b) = (3,1,0,0)", (3, 1, 0, 0)),
        ("Kestrel shovel white, yellow, tan, brown: 3, 1, 0, 0", (3, 1, 0, 0)),
        ("La Tranquera con pala\nblancas amarillas\n5 2", (5, 2, 0, 0)),
        ("Baixada com pá\nbrancas amarelas\n5 2", (5, 2, 0, 0)),
        ("Kestrel\n5 plants\nColor: white, yellow\n3 1 0 0 2", (None, None, None, None)),  # one a plant
        ("Kestrel 2 plants, w+y: 3 1", (None, None, None, None)),
        ("Kestrel 5 plants. White, yellow: 3, 1, 0, 0, 2", (None, None, None, None)),
    ],
)
def test_as_many_counts_as_colors_above_them_are_of_these(text: str, colours: tuple[int | None, ...]) -> None:
    """Not one a plant, where a head names as many colors."""
    assert _colours(text) == colours


@pytest.mark.parametrize(
    ("text", "per_plant"),
    [
        ("Kestrel. Plant A 3w, plant B 0, plant C 2y. Shovel", (3, 0, 2)),
        ("La Tranquera planta A 3b, planta B 0, planta C 2a. Pala", (3, 0, 2)),
        ("Baixada planta A 3b, planta B 0, planta C 2a. Pá", (3, 0, 2)),
    ],
)
def test_plants_called_by_letters(text: str, per_plant: tuple[int, ...]) -> None:
    assert _note(text).per_plant == per_plant


def test_an_average_that_does_not_fit_the_total_is_asked_about() -> None:
    """Nine on six plants are no 2.5 a plant; which is wrong nobody knows."""
    reading = _read("Kestrel 6 pl, 9 females, avg 2.5 per plant")

    assert [problem.kind for problem in reading.problems] == ["sum_mismatch"]
    assert _note("Kestrel 6 pl, 9 females, avg 1.5 per plant").females.total == 9


@pytest.mark.parametrize(
    ("text", "colours"),
    [
        ("Kestrel. White |||, 5 plants", (3, 0, 0, 0)),
        ("Kestrel 5 plants. W |||| Y ||", (4, 2, 0, 0)),
        ("Kestrel\nwhite: ||||\nyellow: |\n5 plants", (4, 1, 0, 0)),
        ("La Tranquera 5 plantas. Blancas |||, amarillas ||", (3, 2, 0, 0)),
        ("Kestrel | 5 plants | 3 white | R2", (3, 0, 0, 0)),
        ("Kestrel | 5 plants | mostly white || R2", (None, None, None, None)),
    ],
)
def test_strokes_behind_a_color_are_its_count(text: str, colours: tuple[int | None, ...]) -> None:
    """And none where they part what is told."""
    assert _colours(text) == colours


def test_groups_of_strokes_are_asked_about() -> None:
    """Has each group a stroke across, or not?"""
    reading = _read("Kestrel. Tally: white |||| |||, yellow ||. 5 plants")

    assert [problem.kind for problem in reading.problems] == ["which_number"]
