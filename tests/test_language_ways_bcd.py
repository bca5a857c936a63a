"""Many ways to say one thing: how plants came out, whether roots were washed, days, soil, roots and tops."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Note

SENT = date(2026, 7, 8)
"""A Wednesday."""
CREW = ("Kestrel", "Old Mill", "Cedar Slough", "North Forty", "Dry Creek", "La Tranquera", "Lote 7", "Baixada")


def note(text: str, language: str = "en") -> Note:
    """The one note of a message that raises no question."""
    reading = read_note(text, sent=SENT, fields=CREW, language=language, day_first=language != "en")  # type: ignore[arg-type]
    assert not reading.problems, [problem.kind for problem in reading.problems]
    (only,) = reading.notes
    return only


@pytest.mark.parametrize(
    ("language", "text", "method"),
    [
        ("en", "kestrel 6 plants, had to dig for these, 5 white", "shovel"),
        ("es", "tuve que excavar, lote 7, 6 plantas, 3 blancas", "shovel"),
        ("pt", "baixada 6 pés, tive que cavoucar, 3 brancas", "shovel"),
        ("en", "old mill did a pull, 6 plants, no cysts", "pulled"),
        ("en", "grabbed 6 plants by the stem and pulled, kestrel, nothing on em", "pulled"),
        ("es", "la tranquera 6 plantas, arranque manual, ninguna hembra", "pulled"),
        ("pt", "baixada 6 pés sem fêmea, dei um puxão em cada um", "pulled"),
        ("en", "kestrel 6 plants by hand, nice and slow, 2 white", "eased"),
        ("en", "coaxed 6 plants up by hand at kestrel, none", "eased"),
        ("en", "worked 6 plants free, kestrel, 3 white", "eased"),
        ("es", "la tranquera 6 plantas nada. A mano y con paciencia, sin tironear", "eased"),
        ("pt", "baixada 6 pés tirados de leve com a mão, nenhum cisto", "eased"),
        ("en", "kestrel 6 plants by hand. careful with the spray rig in there. 2 white", "pulled"),
        ("en", "coaxed 6 plants loose with a potato fork, kestrel, none", "shovel"),
    ],
)
def test_how_plants_came_out_is_told_in_many_ways(language, text, method):
    """By hand with patience is eased, whatever the word for patience; a fork is a fork."""
    read = note(text, language)

    assert (read.method, read.plants) == (method, 6)


@pytest.mark.parametrize(
    ("language", "text", "soaked"),
    [
        ("en", "ran water over em till clean, 6 plants, kestrel, no cysts", True),
        ("en", "kestrel 6 plants bucket soak none", True),
        ("es", "lote 7 6 plantas nada, con manguera les saqué la tierra", True),
        ("pt", "baixada 6 pés, dei um banho nas raízes, nenhum cisto", True),
        ("en", "kestrel 6 pl w/o soaking, 0 cysts", False),
        ("en", "kestrel 6 plants, didnt bother w/ the bucket, none", False),
        ("en", "kestrel 6 plants none, never wet the roots", False),
        ("es", "lote 7 6 plantas nada, solo las golpeé contra la bota, no hubo lavado", False),
        ("es", "lote 7 solo sacudí las raíces, 6 plantas, nada", False),
        ("pt", "nem molhei as raízes, 6 pés, baixada, nada", False),
        ("es", "lote 7 sacudí las raíces, 6 plantas, nada", None),
    ],
)
def test_roots_washed_or_not_is_told_in_many_ways(language, text, soaked):
    """Only shaken means that there was no water; shaken says nothing of it."""
    read = note(text, language)

    assert read.soaked is soaked
    assert read.females.total == 0


def test_a_couple_beside_a_count_is_two():
    """A dozen white and a couple yellow are fourteen; a few and a couple stay words."""
    read = note("kestrel 6 plants had a dozen white and a couple yellow")
    assert (read.females.white, read.females.yellow, read.females.total) == (12, 2, 14)

    read = note("la tranquera 6 plantas tenían una docena de blancas y un par de amarillas", "es")
    assert (read.females.white, read.females.yellow) == (12, 2)

    assert note("kestrel 6 plants a few white and a couple yellow").females.total is None


@pytest.mark.parametrize(
    ("language", "said", "planted"),
    [
        ("en", "planter ran there may 17", date(2026, 5, 17)),
        ("en", "PD May 11", date(2026, 5, 11)),
        ("en", "no-tilled in on may 21", date(2026, 5, 21)),
        ("en", "these beans have been in since the 10th of May", date(2026, 5, 10)),
        ("es", "la sembradora entró el 17/5", date(2026, 5, 17)),
        ("es", "se tiró la semilla el 23 de mayo", date(2026, 5, 23)),
        ("pt", "a plantadeira rodou lá 17 de maio", date(2026, 5, 17)),
        ("pt", "soja no chão desde 10/5", date(2026, 5, 10)),
    ],
)
def test_planting_is_told_in_many_ways(language, said, planted):
    """A planter that ran, seed in the ground: the day is of planting, not of the visit."""
    field = {"en": "kestrel 6 plants 2 white", "es": "lote 7 6 plantas 2 blancas", "pt": "baixada 6 pés 2 brancas"}
    read = note(f"{field[language]}, {said}", language)

    assert (read.planted, read.date) == (planted, None)


@pytest.mark.parametrize(
    ("language", "said", "look"),
    [
        ("en", "gonna hit it again day after tomorrow", date(2026, 7, 10)),
        ("en", "let it ride 14 more days and then count again", 14),
        ("en", "2 wk out for the next one", 14),
        ("en", "plan on a recount sunday", date(2026, 7, 12)),
        ("es", "de acá a 8 días le pego otra mirada", 8),
        ("es", "recontar el 24 de julio", date(2026, 7, 24)),
        ("pt", "dar três semanas e contar outra vez", 21),
        ("pt", "depois de amanhã tô lá de novo", date(2026, 7, 10)),
    ],
)
def test_looking_again_is_told_in_many_ways(language, said, look):
    """Counting again, another look, another round: a day or a number of days."""
    field = {"en": "kestrel 6 plants 2 white", "es": "lote 7 6 plantas 2 blancas", "pt": "baixada 6 pés 2 brancas"}
    told = note(f"{field[language]}, {said}", language).look_again

    assert told is not None and look in (told.days, told.date)


@pytest.mark.parametrize(
    ("language", "said"),
    [
        ("en", "cant go in for 24 hours"),
        ("es", "no se puede entrar por 24 horas"),
        ("pt", "só pode entrar depois de 24 horas"),
    ],
)
def test_hours_to_stay_out_deny_no_look(language, said):
    """A field that may not be entered for hours was looked at before; one kept shut by mud was not."""
    field = {
        "en": "kestrel 6 plants 2 white, sprayed fungicide today",
        "es": "lote 7 6 plantas 2 blancas, hoy echaron fungicida",
        "pt": "baixada 6 pés 2 brancas, hoje passaram fungicida",
    }
    read = note(f"{field[language]}, {said}", language)
    assert read.spray is not None and read.spray.entry_hours == 24
    assert read.outcome == "seen"

    assert note("cant get in for the mud, kestrel").outcome == "not_looked"


@pytest.mark.parametrize(
    ("language", "said", "roots"),
    [
        ("en", "plenty of fine feeder roots", ("fine",)),
        ("en", "little nubs for roots", ("stubby",)),
        ("en", "only a nodule here and there", ("nodules_few",)),
        ("en", "roots are just plastered w nodules", ("nodules_many",)),
        ("en", "nodules nice and pink", ("nodules_pink",)),
        ("es", "nodulación excelente", ("nodules_many",)),
        ("es", "raíces mochas", ("stubby",)),
        ("pt", "raízes atarracadas", ("stubby",)),
        ("pt", "nodulação excelente", ("nodules_many",)),
    ],
)
def test_roots_are_told_in_many_ways(language, said, roots):
    """Feeders, nubs, nodules here and there."""
    field = {"en": "kestrel 6 plants 2 white", "es": "lote 7 6 plantas 2 blancas", "pt": "baixada 6 pés 2 brancas"}
    read = note(f"{field[language]}. {said}", language)

    assert (read.roots, read.females.white) == (roots, 2)


@pytest.mark.parametrize(
    ("language", "said", "tops"),
    [
        ("en", "plants look chlorotic", ("yellow",)),
        ("en", "plants cutting out early", ("early_ripe",)),
        ("en", "way behind in height", ("stunted",)),
        ("en", "scorched margins down low on the old trifoliates", ("edges_old",)),
        ("en", "IDC showing in the new leaves", ("interveinal_new",)),
        ("es", "rodales de plantas chicas", ("stunted", "patch")),
        ("es", "unas altas y otras bajas", ("uneven",)),
        ("pt", "anel de plantas nanicas", ("stunted", "ring")),
        ("pt", "senescência antecipada", ("early_ripe",)),
    ],
)
def test_tops_right_behind_a_count_leave_the_count_alone(language, said, tops):
    """ "6 plants 2 white plants look chlorotic": two white females, and what the crop looks like."""
    field = {"en": "kestrel 6 plants 2 white", "es": "lote 7 6 plantas 2 blancas", "pt": "baixada 6 pés 2 brancas"}
    read = note(f"{field[language]} {said}", language)

    assert (set(read.tops), read.females.white) == (set(tops), 2)


@pytest.mark.parametrize(
    ("language", "text", "stage"),
    [
        ("en", "kestrel 6 plants 2 white stage V-8", "V8"),
        ("en", "kestrel has four trifoliates. 6 plants, 2 white", "V4"),
        ("es", "lote 7 6 plantas 2 blancas, con tres trifolios abiertos", "V3"),
        ("pt", "baixada 6 pés nenhuma. Quatro trifólios abertos", "V4"),
        ("en", "kestrel 6 plants with 3 trifoliates yellow, none", None),
    ],
)
def test_leaves_of_three_that_are_out_tell_the_stage(language, text, stage):
    """Four trifoliates are V4; three yellow ones are no stage."""
    assert note(text, language).stage == stage


def test_counts_and_nones_with_nothing_between_are_a_list():
    """ "5 plants none none 3 none 2": as many as the plants; a number that a week follows is none of them."""
    read = note("dry creek 5 plants none none 3 none 2")
    assert (read.per_plant, read.females.total) == ((0, 0, 3, 0, 2), 5)

    read = note("kestrel 4 plants none, recheck 2 wk")
    assert (read.per_plant, read.females.total) == (None, 0)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "cedar slough 6 plants with brown nodules, 2 white"),
        ("en", "kestrel 6 plants with pretty white roots, 2 white females"),
        ("es", "la tranquera 6 plantas con hartos nódulos, 2 blancas"),
        ("pt", "baixada 6 pés com bastante nódulo, 2 brancas"),
    ],
)
def test_plants_with_nodules_are_plants_looked_at(language, text):
    """Not so many that had females."""
    read = note(text, language)

    assert (read.plants, read.females.white) == (6, 2)


def test_a_day_with_a_dash_is_a_day_where_a_zero_or_a_word_says_so():
    """ "plt 05-14" is planting, "fecha 30-06" the visit, "next look 7-22" the next one."""
    assert note("old mill plt 05-14 6 plants 2 white").planted == date(2026, 5, 14)
    assert note("lote 7 6 plantas 2 blancas. fecha 30-06", "es").date == date(2026, 6, 30)
    look = note("kestrel 6 plants 2 white next look 7-22").look_again
    assert look is not None and look.date == date(2026, 7, 22)


def test_letters_that_spell_nothing_and_a_number_name_a_seed():
    """ "In gv 228", "con dx 47", "é a rn 71"."""
    for text, language, name in (
        ("north forty is in gv 228 (88788), 6 plants 2 white", "en", "gv 228"),
        ("la tranquera con dx 47, 6 plantas ninguna", "es", "dx 47"),
        ("baixada com rn 71, 6 pés nada", "pt", "rn 71"),
    ):
        variety = note(text, language).variety
        assert variety is not None and variety.name == name


@pytest.mark.parametrize(
    ("language", "said", "days"),
    [
        ("en", "recheck 10-14 days", 10),
        ("en", "recheck between 10 and 14 days", 10),
        ("es", "control de nuevo entre 10 y 14 días", 10),
        ("pt", "de novo entre 10 e 14 dias", 10),
    ],
)
def test_two_numbers_of_days_are_a_range(language, said, days):
    """The first of them is the day to look again, and neither is a count or a date."""
    field = {"en": "kestrel 6 plants 2 white", "es": "lote 7 6 plantas 2 blancas", "pt": "baixada 6 pés 2 brancas"}
    look = note(f"{field[language]}, {said}", language).look_again

    assert look is not None and look.days == days


def test_half_of_so_many_in_each_of_two_colors():
    """ "Half of the 10 females were white and half were yellow": five of each; half of the plants count none."""
    for text, language in (
        ("half of the 10 females were white and half were yellow, old mill, 6 plants", "en"),
        ("la tranquera 6 plantas, la mitad de las 10 blancas y la otra mitad amarillas", "es"),
    ):
        females = note(text, language).females
        assert (females.white, females.yellow, females.total) == (5, 5, 10)

    assert note("kestrel 10 plants, half of the 10 had white").females.total is None


def test_nodules_and_hours_stay_with_what_they_are_said_of():
    """A shade behind a comma is of the nodules, hours before "restricted entry" are of the spray."""
    assert note("nodulos muertos, pardos. lote 7 6 pl 2 blancas", "es").roots == ("nodules_brown",)
    spray = note("north forty 6 plants 2 white and the fungicide has a 12 hr restricted entry").spray
    assert spray is not None and spray.entry_hours == 12
