"""Notes of people who write their first: dug and not looked at, old cysts, soaking times, so many from each place."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.model import Command, Females, Spot
from tests.reading_kit import note_of, reading_of

NONE = Females(0, 0, 0, 0, 0)


@pytest.mark.parametrize(
    ("text", "plants", "method"),
    [
        ("Kestrel pulled 4 by hand, roots broke, not looked", 4, "pulled"),
        ("Kestrel dug 5 with a fork but didn't look, hail", 5, "shovel"),
        ("Kestrel eased out 3 plants, females not counted", 3, "eased"),
        ("Kestrel dug 6, called home before counting any", 6, "shovel"),
        ("Kestrel dug 6 plants, ran out of daylight", 6, "shovel"),
        ("La Tranquera arranqué 4 plantas a mano, no conté", 4, "pulled"),
        ("La Tranquera: sacaron 5 plantas con pala y no las miraron", 5, "shovel"),
        ("La Tranquera 5 plantas con pala, no se contaron las hembras. repetir a mano", 5, "shovel"),
        ("Baixada cavei 5 plantas mas não olhei, chuva", 5, "shovel"),
        ("Baixada 4 plantas arrancadas com a mão, ninguém contou", 4, "pulled"),
    ],
)
def test_plants_dug_stay_told_where_only_the_looking_is_denied(text, plants, method):
    note = note_of(text)
    assert (note.plants, note.method, note.outcome) == (plants, method, "not_looked")
    assert note.females == Females()


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel not looked, next time 12 plants with a shovel",
        "Kestrel wanted to dig 6 plants, ran out of time",
        "Kestrel no spade so didnt look at 6 plants",
        "La Tranquera no pude cavar, no miré. la próxima 10 plantas",
        "Baixada não olhei. da próxima 10 plantas com pá",
    ],
)
def test_plants_only_meant_are_not_told(text):
    note = note_of(text)
    assert (note.plants, note.method, note.outcome) == (None, None, "not_looked")


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel 6 plants, not counted",
        "Baixada cavei 6 e tava assim de cisto, não contei",
        "Baixada cavei 6 com pá, nem deu pra contar",
        "La Tranquera saqué 6 con pala, no se pudieron contar",
    ],
)
def test_what_may_have_been_seen_and_not_counted_is_asked_about(text):
    assert [problem.kind for problem in reading_of(text).problems] == ["no_finding"]


@pytest.mark.parametrize(
    ("text", "outcome"),
    [
        ("Kestrel dug 6, nodules not counted, none", "none_seen"),
        ("Kestrel 6 plants spade, 4 white, yellow not counted", "seen"),
        ("Kestrel 6 pl spade, cysts on the roots, not counted", "seen"),
    ],
)
def test_what_else_was_not_counted_denies_no_look(text, outcome):
    assert note_of(text).outcome == outcome


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel 8 plants 9 brown, dry and hard, no white no yellow",
        "La Tranquera 8 plantas, unos 9 quistes marrones, duros y secos, ninguna blanca",
        "La Tranquera 8 plantas, 9 marrones secos y duros, blancas y amarillas ninguna",
        "Baixada 8 plantas, uns 9 cistos marrons bem secos, brancas e amarelas nenhuma",
    ],
)
def test_old_cysts_are_dry_and_not_the_soil(text):
    note = note_of(text)
    assert note.females == Females(0, 0, 0, 9, 9)
    assert (note.soil.moisture, note.mostly) == (None, ())


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel 8 plants 9 brown, dry hard clay",
        "Kestrel 8 plants 9 brown. dry and hard",
        "Kestrel 8 plants 9 brown, ground dry and hard",
        "La Tranquera 8 plantas 9 marrones, suelo seco y duro",
        "Kestrel dug 8, 9 brown. soil was dry before the storm",
        "La Tranquera 8 plantas 9 marrones. el suelo estaba seco antes del agua",
    ],
)
def test_dry_soil_behind_old_cysts_is_dry(text):
    assert note_of(text).soil.moisture == "dry"


def test_dry_and_hard_that_may_be_either_is_asked_about():
    assert [problem.kind for problem in reading_of("Kestrel 8 plants 9 brown, dry and hard").problems] == ["doubtful"]


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Kestrel spade, bucket 5 min: 6 pl 4w. check strip 6 pl 39 females", "check strip"),
        ("Kestrel soaked half an hour: 6 pl 4w; check strip 6 pl 39 females", "check strip"),
        ("La Tranquera balde 10 minutos: 6 pl 4 b. testigo 6 pl 39 hembras", "testigo"),
        ("Baixada balde uns 5 min. 6 pl 4 b. testemunha 6 pl 39 fêmeas", "testemunha"),
    ],
)
def test_a_time_in_the_bucket_is_no_place(text, name):
    note = note_of(text)
    assert note.spots == (Spot(name, 6, Females(total=39), check=True),)
    assert (note.plants, note.females, note.soaked) == (6, Females(4, 0, 0, 0, 4), True)


@pytest.mark.parametrize(
    ("text", "plants"),
    [
        ("Kestrel spade, 4 plants at each of 3 spots, 18 white", 12),
        ("Kestrel dug 3 plants from each of 2 rings, so 6 plants, 18 white", 6),
        ("Kestrel 2 plants per ring in 3 rings, 18 white", 6),
        ("La Tranquera 3 plantas en cada uno de los 2 manchones (6 plantas en total), 18 blancas", 6),
        ("La Tranquera cavé 4 en cada una de las dos puntas, 18 blancas", 8),
        ("Baixada 4 plantas em cada um de três pontos, 18 brancas", 12),
        ("Baixada 3 plantas de cada uma das duas reboleiras, 18 brancas", 6),
    ],
)
def test_so_many_from_each_place_are_counted_together(text, plants):
    note = note_of(text)
    assert (note.plants, note.females) == (plants, Females(18, 0, 0, 0, 18))
    assert [remark.kind for remark in reading_of(text).remarks] == ["near_word"]


def test_places_told_each_for_itself_keep_their_own():
    note = note_of("Kestrel dug 4 plants at each of 2 spots. gate 4 white, hill 9 white")
    assert [(spot.name, spot.plants, spot.females.white) for spot in note.spots] == [("gate", 4, 4), ("hill", 4, 9)]


@pytest.mark.parametrize(
    ("text", "shades"),
    [
        ("Kestrel 5 pl 26 cysts yellow and tan mixed", ("yellow", "tan")),
        ("La Tranquera 5 plantas 26 hembras amarillas y tostadas mezcladas", ("yellow", "tan")),
        ("La Tranquera 5 plantas 26 hembras blancas y amarillas chiquitas", ("white", "yellow")),
        ("Baixada 5 plantas 26 fêmeas amarelas e pardas misturadas", ("yellow", "tan")),
    ],
)
def test_colors_mixed_are_those_of_one_count(text, shades):
    note = note_of(text)
    assert (note.females, note.mostly) == (Females(total=26), shades)


@pytest.mark.parametrize(
    ("text", "roots", "tops"),
    [
        ("Kestrel dug 6 none. roots long and pale", ("white",), ()),
        ("Kestrel dug 6 none. roots fine, pale leaves", ("fine",), ("yellow",)),
        ("Kestrel dug 6 none. roots snapped, pale and stunted", ("snapped",), ("yellow", "stunted")),
        ("La Tranquera 6 plantas ninguna. raíces finas y pálidas", ("white", "fine"), ()),
        ("La Tranquera 6 plantas ninguna, las raíces salieron peladas", ("snapped",), ()),
        ("Baixada 6 plantas nenhuma, raiz pelada, folhas pálidas", ("snapped",), ("yellow",)),
        ("Kestrel dug 6 none, roots came out bare", ("snapped",), ()),
        ("Kestrel lower leaves yellow edges, some brown. dug 6 none", (), ("edges_old",)),
        ("La Tranquera hojas viejas amarillas en los bordes, algunas marrones. 6 plantas ninguna", (), ("edges_old",)),
        ("La Tranquera manchón amarillo como una cancha. 6 plantas ninguna", (), ("yellow", "patch")),
        ("Baixada 6 plantas nenhuma. quem cavou foi a Ana", (), ()),
    ],
)
def test_roots_and_leaves_keep_their_own_words(text, roots, tops):
    note = note_of(text)
    assert (note.roots, note.tops, note.females, note.mostly) == (roots, tops, NONE, ())


@pytest.mark.parametrize(
    ("text", "texture"),
    [
        ("La Tranquera tierra negra arcillosa. 6 plantas ninguna", "clay"),
        ("La Tranquera tierra negra. 6 plantas ninguna", "muck"),
        ("Baixada terra preta, franca e úmida. 6 plantas nenhuma", "loam"),
        ("Kestrel black dirt, silt loam. dug 6 none", "silt_loam"),
        ("Baixada argila pesada. 6 plantas nenhuma", "clay"),
    ],
)
def test_the_soil_told_behind_the_color_of_the_earth_counts(text, texture):
    note = note_of(text)
    assert (note.soil.texture, note.roots) == (texture, ())


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("Kestrel sat dry silt loam dug 3 none", date(2026, 7, 4)),
        ("Kestrel sun spade 6 pl none", date(2026, 7, 5)),
        ("Kestrel sat wet for days, 6 pl none", None),
        ("La Tranquera. Hoy entró la hija del dueño: 6 plantas ninguna", date(2026, 7, 8)),
        ("La Tranquera. Hoy pasó el encargado, sacó 6 plantas, ninguna", date(2026, 7, 8)),
        ("Baixada. Ontem meu irmão cavou 6 plantas, nenhuma", date(2026, 7, 7)),
        ("Kestrel. today is my daughter's birthday. 6 plants none", None),
    ],
)
def test_the_day_of_a_visit_whoever_made_it(text, day):
    note = note_of(text)
    assert (note.date, note.look_again, note.outcome) == (day, None, "none_seen")


@pytest.mark.parametrize(
    ("text", "method"),
    [
        ("La Tranquera 5 plantas ninguna. cavó Silvia", "shovel"),
        ("La Tranquera 5 plantas ninguna. las cavo Silvia", "shovel"),
        ("La Tranquera 5 plantas ninguna. cavo mañana", None),
    ],
)
def test_who_dug_tells_how(text, method):
    assert note_of(text).method == method


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel: the source is Peking, not PI 88788, I checked the bag. Counts are right, just fix that",
        "Kestrel: la fuente es Peking, no PI 88788, miré la bolsa. Lo demás está bien",
        "Kestrel: a fonte é Peking, não PI 88788, olhei no saco. A contagem e as plantas tão certas, só corrige isso",
    ],
)
def test_why_it_is_put_right_and_that_the_rest_stands(text):
    reading = reading_of(text)
    assert (reading.notes, reading.problems) == ((), ())
    (command,) = reading.commands
    assert command == Command(
        "correct",
        {"field": "kestrel", "what": "source", "value": "Peking", "old": "PI 88788"},
        where=command.where,
    )


@pytest.mark.parametrize(
    "text",
    [
        "La Tranquera 8 pl 3 b. las primeras que veo. PI 88788, hace años que se siembra la misma fuente",
        "Baixada 8 pl 3 b. PI 88788, faz anos que plantam essa fonte",
    ],
)
def test_a_seed_told_behind_a_count_asks_nothing(text):
    variety = note_of(text).variety
    assert variety is not None
    assert (variety.source, variety.resistance) == ("PI 88788", "resistant")


@pytest.mark.parametrize(
    ("text", "where"),
    [
        ("talhão novo Lagoinha, 85 ha, lat -12,584 long -55,731", (-12.584, -55.731)),
        ("lote nuevo: La Paloma -33,125; -60,52", (-33.125, -60.52)),
        ("lote nuevo: La Paloma 33,125 S 60,52 O", (-33.125, -60.52)),
    ],
)
def test_degrees_written_with_a_comma(text, where):
    (command,) = reading_of(text).commands
    assert (command.args["latitude"], command.args["longitude"]) == where


def test_lists_with_commas_are_no_degrees():
    assert note_of("Kestrel dug 4: 12,58 cm apart, none").females == NONE
