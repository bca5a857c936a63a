"""Days told by a distance, nodules cut open, plants told with what was on them, roots nobody saw."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note

SENT = date(2026, 7, 8)
CREW = ("Kestrel", "North Forty", "Dry Creek", "Lote 7", "Bajo Grande", "Baixada", "Santa Rita")


def _note(text: str, language: str):
    reading = read_note(text, sent=SENT, fields=CREW, language=language, day_first=language != "en")  # type: ignore[arg-type]
    assert reading.problems == (), reading.problems
    assert reading.commands == (), reading.commands
    (note,) = reading.notes
    return note


@pytest.mark.parametrize(
    ("text", "language", "day"),
    [
        ("last week thurs we looked at 6 plants in north forty, 2 white", "en", date(2026, 7, 2)),
        ("kestrel last week on tuesday, 6 plants 2 white", "en", date(2026, 6, 30)),
        ("tuesday of last week kestrel 6 plants 2 white", "en", date(2026, 6, 30)),
        ("lote 7 la semana pasada el jueves 6 plantas 2 blancas", "es", date(2026, 7, 2)),
        ("el lunes de la semana pasada lote 7 6 plantas 2 blancas", "es", date(2026, 6, 29)),
        ("baixada semana passada na quinta 6 pés 2 brancas", "pt", date(2026, 7, 2)),
        ("sexta da semana passada baixada 6 pés 2 brancas", "pt", date(2026, 7, 3)),
        ("kestrel 6 plants 2 white, last day of june", "en", date(2026, 6, 30)),
        ("kestrel tuesday had 6 plants 2 white", "en", date(2026, 7, 7)),
    ],
)
def test_a_day_of_the_week_before(text: str, language: str, day: date) -> None:
    note = _note(text, language)
    assert (note.date, note.plants, note.females.white) == (day, 6, 2)


@pytest.mark.parametrize(
    ("text", "language", "day"),
    [
        ("kestrel 6 plants 2 white, planted two months ago today", "en", date(2026, 5, 8)),
        ("kestrel 6 plants 2 white, planted five weeks ago", "en", date(2026, 6, 3)),
        ("lote 7 6 plantas 2 blancas, hoy hace dos meses que se sembró", "es", date(2026, 5, 8)),
        ("lote 7 6 plantas 2 blancas, hace tres semanas que sembramos", "es", date(2026, 6, 17)),
        ("baixada 6 pés 2 brancas, faz dois meses certinho hoje que plantou", "pt", date(2026, 5, 8)),
        ("hoje faz um mês que plantamos a baixada. 6 pés 2 brancas", "pt", date(2026, 6, 8)),
        ("bajo grande 6 plantas 2 blancas, sembrado el último día de abril", "es", date(2026, 4, 30)),
        ("baixada semeada no último dia de abril, 6 pés 2 brancas", "pt", date(2026, 4, 30)),
        ("kestrel planted first day of may, 6 plants 2 white", "en", date(2026, 5, 1)),
        ("he put dry creek in on May 2nd, 6 plants 2 white", "en", date(2026, 5, 2)),
        ("they put kestrel in april 28, 6 plants 2 white", "en", date(2026, 4, 28)),
    ],
)
def test_a_planting_day_told_by_a_distance(text: str, language: str, day: date) -> None:
    note = _note(text, language)
    assert (note.planted, note.date, note.plants, note.spray) == (day, None, 6, None)


@pytest.mark.parametrize(
    ("text", "language", "day", "days"),
    [
        ("baixada 6 pés 2 brancas, faz dois dias que passou o glifo", "pt", None, 2),
        ("baixada 6 pés 2 brancas, tem três dias que passaram herbicida", "pt", None, 3),
        ("baixada 6 pés 2 brancas, ontem teve fungicida", "pt", date(2026, 7, 7), None),
        ("lote 7 6 plantas 2 blancas, ayer hubo fungicida", "es", date(2026, 7, 7), None),
        ("kestrel 6 plants 2 white, yesterday had fungicide", "en", date(2026, 7, 7), None),
        ("kestrel 6 plants 2 white, 14 DAA glyphosate", "en", None, 14),
        ("lote 7 6 plantas 2 blancas, 14 dda glifosato", "es", None, 14),
    ],
)
def test_the_day_of_a_spray_is_no_visit(text: str, language: str, day: date | None, days: int | None) -> None:
    note = _note(text, language)
    assert note.spray is not None
    assert (note.spray.date, note.spray.days_ago, note.date) == (day, days, None)


@pytest.mark.parametrize(
    ("text", "language", "day", "days"),
    [
        ("kestrel: 6 plants, 2 white, returning a week from friday", "en", date(2026, 7, 17), None),
        ("kestrel 6 plants 2 white. back two weeks from friday", "en", date(2026, 7, 24), None),
        ("kestrel 6 plants 2 white. should be in there within a fortnight, call it 14 days", "en", None, 14),
        ("baixada 6 pés 2 brancas repetir c/ 12 d", "pt", None, 12),
        ("lote 7 6 plantas 2 blancas volver c/ 8 días", "es", None, 8),
    ],
)
def test_the_next_look(text: str, language: str, day: date | None, days: int | None) -> None:
    look = _note(text, language).look_again
    assert look is not None
    assert (look.date, look.days) == (day, days)


@pytest.mark.parametrize(
    ("text", "language", "roots"),
    [
        ("kestrel 6 plants 2 white well nodulated", "en", ("nodules_many",)),
        ("kestrel 6 plants 2 white, poorly nodulated", "en", ("nodules_few",)),
        ("kestrel 6 plants 2 white, poor nodulation", "en", ("nodules_few",)),
        ("kestrel nodule count high, 6 plants 2 white", "en", ("nodules_many",)),
        ("lote 7 6 plantas 2 blancas, bien noduladas", "es", ("nodules_many",)),
        ("má nodulação. baixada 2 brancas em 6 pés", "pt", ("nodules_few",)),
        ("baixada 6 plantas 2 brancas um nódulo aqui outro ali", "pt", ("nodules_few",)),
        ("cut some nodules open and they were brown, kestrel 6 plants, 2 white", "en", ("nodules_brown",)),
        ("kestrel 6 plants 2 white. split nodules, all brown", "en", ("nodules_brown",)),
        ("kestrel 6 plants 2 white. opened the nodules and every one was pink", "en", ("nodules_pink",)),
        ("baixada 6 pés 2 brancas, cortei uns nódulos: marrons", "pt", ("nodules_brown",)),
    ],
)
def test_nodules(text: str, language: str, roots: tuple[str, ...]) -> None:
    note = _note(text, language)
    assert (note.roots, note.mostly, note.females.total) == (roots, (), 2)


@pytest.mark.parametrize(
    ("text", "language", "plants"),
    [
        ("kestrel 6 plants positive", "en", 6),
        ("kestrel 6 plants with some yellow dots on the roots", "en", 6),
        ("kestrel 6 plants w/ cysts", "en", 6),
        ("bajo grande 6 plantas con algunas blancas", "es", 6),
        ("santa rita 6 pés com umas bolinhas amarelas na raiz", "pt", 6),
        ("kestrel only 1 plant with cysts", "en", None),
        ("kestrel 2 plants with females, 6 without", "en", None),
        ("kestrel dug 8, 2 plants with females", "en", 8),
        ("apenas 2 pés com fêmeas na baixada", "pt", None),
    ],
)
def test_plants_told_with_what_was_on_them(text: str, language: str, plants: int | None) -> None:
    note = _note(text, language)
    assert (note.plants, note.outcome) == (plants, "seen")


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("kestrel forgot the spade so saw no roots today", "en"),
        ("kestrel V5, no shovel, couldn't see the roots", "en"),
        ("sin pala no vi raíces en lote 7", "es"),
        ("esqueci a pá, então na baixada não vi raiz nenhuma hoje", "pt"),
        ("baixada não vi raiz, sem pá", "pt"),
    ],
)
def test_roots_nobody_saw_were_not_looked_at(text: str, language: str) -> None:
    note = _note(text, language)
    assert (note.outcome, note.method, note.females.total) == ("not_looked", None, None)


def test_no_such_roots_is_no_want_of_a_look() -> None:
    note = _note("lote 7 6 plantas 3 blancas, no vi raíces oscuras", "es")
    assert (note.outcome, note.females.white) == ("seen", 3)


@pytest.mark.parametrize(
    ("text", "language", "per_plant"),
    [
        ("kestrel 6 plants, all zeros except the fourth which had 6", "en", (0, 0, 0, 6, 0, 0)),
        ("kestrel 6 plants, all zero but the third, it had 5", "en", (0, 0, 5, 0, 0, 0)),
        ("dry creek 5 plants, nothing on any except plant 2 with 8", "en", (0, 8, 0, 0, 0)),
        ("dry creek 4 plants, zeros except for the last one, 3 white", "en", (0, 0, 0, 3)),
        ("lote 7 6 plantas, todas en cero menos la segunda con 4", "es", (0, 4, 0, 0, 0, 0)),
        ("bajo grande 5 plantas, nada salvo en la última que tenía 3 blancas", "es", (0, 0, 0, 0, 3)),
        ("baixada 6 pés, tudo zero exceto o terceiro com 2", "pt", (0, 0, 2, 0, 0, 0)),
        ("santa rita 5 pés, tudo zero menos o último que deu 4", "pt", (0, 0, 0, 0, 4)),
    ],
)
def test_none_on_all_but_one(text: str, language: str, per_plant: tuple[int, ...]) -> None:
    assert _note(text, language).per_plant == per_plant


@pytest.mark.parametrize(
    ("text", "language", "plants", "total"),
    [
        ("dry creek infested plants: 4 out of 12", "en", 12, None),
        ("dry creek plants with females: 2 of 8", "en", 8, None),
        ("lote 7 plantas positivas: 3 de 8", "es", 8, None),
        ("baixada plantas com fêmea: 2 de 7", "pt", 7, None),
        ("das 10 plantas na baixada, em 3 achei fêmeas", "pt", 10, None),
        ("of the 10 plants i looked at in kestrel, found females on 3", "en", 10, None),
        ("kestrel except for one, the other 5 plants all had females", "en", 6, None),
        ("santa rita tirando um, os outros 5 pés tudo com fêmea", "pt", 6, None),
        ("santa rita 6 pés, só um sem fêmea", "pt", 6, None),
        ("north forty yes yes no no yes no for cysts, 6 plants", "en", 6, None),
        ("lote 7 6 plantas sí no no sí sí no hembras", "es", 6, None),
        ("baixada 1 em 6 com 3 fêmeas, o resto nada", "pt", 6, 3),
        ("kestrel 1 in 6 with 3 females, rest nothing", "en", 6, 3),
        ("dry creek 2 of 8 plants had 4 females each, none on the rest", "en", 8, 8),
        ("dry creek 3 of 7 had 2 each, zero on the others", "en", 7, 6),
    ],
)
def test_a_share_of_the_plants(text: str, language: str, plants: int, total: int | None) -> None:
    note = _note(text, language)
    assert (note.plants, note.females.total, note.per_plant, note.outcome) == (plants, total, None, "seen")


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("baixada arranquei 4 na mão, 2 brancas, raiz rompeu", "pt"),
        ("baixada arranquei 4 na mão, 2 brancas, quebrou tudo", "pt"),
        ("baixada arranquei 4 na mão, 2 brancas, ficou metade na terra", "pt"),
        ("baixada arranquei 4 na mão, 2 brancas, só veio o talo", "pt"),
        ("baixada arranquei 4 na mão, 2 brancas, a raiz saiu pela metade", "pt"),
        ("lote 7 arranqué 4 a mano, 2 blancas, se quedó la mitad en la tierra", "es"),
        ("lote 7 arranqué 4 a mano, 2 blancas, se cortaron todas", "es"),
        ("lote 7 arranqué 4 a mano, 2 blancas, salieron sin raíz", "es"),
        ("lote 7 arranqué 4 a mano, 2 blancas, se rompió todo", "es"),
    ],
)
def test_roots_that_broke(text: str, language: str) -> None:
    assert _note(text, language).roots == ("snapped",)


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("lote 7 se rompió todo el motor del tractor, 4 plantas con pala, 2 blancas", "es"),
        ("lote 7 4 plantas con pala, 2 blancas, se quedó la mitad del lote sin fumigar", "es"),
        ("baixada o trator quebrou, 4 plantas na pá, 2 brancas", "pt"),
        ("baixada 4 plantas na pá, 2 brancas, metade na terra úmida", "pt"),
    ],
)
def test_what_broke_or_stayed_and_is_no_root(text: str, language: str) -> None:
    assert _note(text, language).roots == ()


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("lote 7 8 plantas con pala, 43 hembras. nódulos casi no hay", "es"),
        ("lote 7 8 plantas con pala, 43 hembras. casi no hay nódulos", "es"),
        ("lote 7 8 plantas con pala, 43 hembras. nódulos casi no se ven", "es"),
        ("lote 7 8 plantas con pala, 43 hembras. nódulos casi nada", "es"),
        ("baixada 8 plantas com pá, 43 fêmeas. nódulos quase não há", "pt"),
        ("baixada 8 plantas com pá, 43 fêmeas. nódulos não vi quase", "pt"),
    ],
)
def test_hardly_any_nodules(text: str, language: str) -> None:
    """Said of nodules it denies no females; hardly any females are asked about."""
    note = _note(text, language)
    assert (note.roots, note.females.total) == (("nodules_few",), 43)


@pytest.mark.parametrize("text", ["lote 7 4 plantas, casi no hay hembras", "lote 7 4 plantas, hembras casi no hay"])
def test_hardly_any_females_are_not_none(text: str) -> None:
    reading = read_note(text, sent=SENT, fields=CREW, language="es")
    assert [p.kind for p in reading.problems] == ["no_finding"]


@pytest.mark.parametrize(
    ("text", "language", "tops"),
    [
        ("baixada. reboleira de uns 30 m amarela. arranquei 8 na mão: 3 brancas", "pt", {"patch", "yellow"}),
        ("baixada. reboleira de mais ou menos 15 m, baixa. arranquei 8 na mão: 3 brancas", "pt", {"patch", "stunted"}),
        ("baixada. anel de 2 metros amarelo. arranquei 8 na mão: 3 brancas", "pt", {"ring", "yellow"}),
        ("baixada. reboleira com uns 10 m de diâmetro. arranquei 8 na mão: 3 brancas", "pt", {"patch"}),
        ("lote 7. manchón de más o menos 15 m, petiso. arranqué 8 a mano: 3 blancas", "es", {"patch", "stunted"}),
        ("kestrel. a patch of about 20 by 30 feet, yellow. pulled 8: 3 white", "en", {"patch", "yellow"}),
    ],
)
def test_how_large_a_patch_is_counts_nothing(text: str, language: str, tops: set[str]) -> None:
    """ "15 m" behind "de" are no fifteen brown ones."""
    note = _note(text, language)
    assert (set(note.tops), note.plants, note.females.total, note.females.brown) == (tops, 8, 3, 0)


def test_brown_ones_of_a_patch_are_counted() -> None:
    note = _note("baixada reboleira 5 pl 15 m 3 b, fora 5 pl 2 b", "pt")
    assert (note.females.brown, note.females.white) == (15, 5)


@pytest.mark.parametrize(
    ("text", "language", "method"),
    [
        ("baixada arranquei 5 puxando reto pra cima. 3 brancas", "pt", "pulled"),
        ("baixada tirei 5 puxando, 3 brancas", "pt", "pulled"),
        ("baixada tirei 5 cavando em volta, 3 brancas", "pt", "shovel"),
        ("lote 7 saqué 5 tirando para arriba, 3 blancas", "es", "pulled"),
        ("lote 7 saqué 5 jalando, 3 blancas", "es", "pulled"),
        ("lote 7 saqué 5 cavando alrededor, 3 blancas", "es", "shovel"),
        ("lote 7 arranqué 5 plantas tirando despacio, 3 blancas", "es", "pulled"),
        ("kestrel pulled 5 pulling straight up, 3 white", "en", "pulled"),
    ],
)
def test_a_second_verb_tells_how_they_were_dug(text: str, language: str, method: str) -> None:
    note = _note(text, language)
    assert (note.plants, note.method, note.females.white) == (5, method, 3)


def test_small_words_for_plants_and_none_of_other_colors() -> None:
    """ "Das outras cores" is no day after planting; "em um balde" is no one of anything; "bem" is an adverb."""
    note = _note("baixada V5, tirei 3 plantinhas com a pazinha, vi 2 brancas e zero das outras cores", "pt")
    assert (note.plants, note.females.total, note.planted) == (3, 2, None)
    note = _note("baixada 5 plantas com pá, mergulhei as raízes em um balde de água. 6 brancas", "pt")
    assert (note.plants, note.soaked, note.females.total) == (5, True, 6)
    assert _note("baixada plantinha bem miudinha, 4 pés na pá, 2 branquinhas", "pt").tops == ("stunted",)
    assert _note("baixada 35 das, 4 pés na pá, 2 brancas", "pt").planted == date(2026, 6, 3)


def test_what_leaps_to_the_eye_is_not_skipped() -> None:
    note = _note("lote 7 5 plantas con pala, 3 blancas. La diferencia salta a la vista.", "es")
    assert note.females.white == 3
    (command,) = read_note("saltá lote 7", sent=SENT, fields=CREW, language="es").commands
    assert command.args["skip"] is True
