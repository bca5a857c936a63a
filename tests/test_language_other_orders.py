"""Counts told in other orders than number and noun, in three languages."""

from __future__ import annotations

import pytest

from notes_bot.model import Females
from tests.reading_kit import note_of


def females(white: int = 0, yellow: int = 0, tan: int = 0, brown: int = 0) -> Females:
    return Females(white=white, yellow=yellow, tan=tan, brown=brown, total=white + yellow + tan + brown)


@pytest.mark.parametrize(
    ("told", "found"),
    [
        ("Blancas y amarillas mitad y mitad, 4 de cada", females(4, 4)),
        ("Amarillas y marrones, 3 y 7", females(yellow=3, brown=7)),
        ("5 de cada color, blancas y tostadas", females(5, tan=5)),
        ("Una docena (12) de blancas y tres (3) amarillas", females(12, 3)),
        ("Nueve marrones y unas pocas blancas (4)", females(4, brown=9)),
        ("Blancas conté ocho y amarillas apenas una", females(8, 1)),
        ("Con lupa llegamos a veinte blancas y dos marrones", females(20, brown=2)),
        ("Conté hasta 16 blancas", females(16)),
        ("4 ya color té, o sea tostadas", females(tan=4)),
        ("b 3, a 5, m 1 (blancas, amarillas, marrones)", females(3, 5, brown=1)),
        ("Brancas e amarelas metade metade, 4 de cada", females(4, 4)),
        ("Amarelas e marrons, 3 e 7", females(yellow=3, brown=7)),
        ("Amarela eu achei nove e branca só duas", females(2, 9)),
        ("Nove marrons e umas poucas brancas (4)", females(4, brown=9)),
        ("Cheguei a 16 brancas", females(16)),
        ("Half and half, 4 of each, white and yellow", females(4, 4)),
        ("Nine (9) white and a couple of tans (2)", females(9, tan=2)),
        ("Got up to 16 white", females(16)),
    ],
)
def test_every_count_goes_to_its_color(told, found):
    field, dug = ("La Tranquera", "5 plantas con pala") if _spanish(told) else ("Baixada", "5 plantas com pá")
    field, dug = ("Kestrel", "5 plants with a shovel") if _english(told) else (field, dug)
    note = note_of(f"{field}: {dug}. {told}.")
    assert (note.plants, note.method, note.females, note.mostly) == (5, "shovel", found, ())


def _spanish(told: str) -> bool:
    return not any(word in told for word in (" e ", "Cheguei", "brancas"))


def _english(told: str) -> bool:
    return any(word in told for word in ("Half", "Nine", "Got"))


@pytest.mark.parametrize(
    ("text", "per_plant"),
    [
        ("La Tranquera: tres plantas: 2 en una, 5 en otra y 1 en la última", (2, 5, 1)),
        ("La Tranquera: dos plantas: una con 4, la otra con 11", (4, 11)),
        ("La Tranquera: saqué 3: 6 en la primera, cero en la del medio y 2 en la otra", (6, 0, 2)),
        ("La Tranquera: 3 plantas, 6 hembras en la primera planta, 2 en la segunda y ninguna en la tercera", (6, 2, 0)),
        ("La Tranquera: saqué 5: en la primera 2, después 0, 1, 4 y en la última 3", (2, 0, 1, 4, 3)),
        ("Baixada: duas plantas, 4 numa e 11 na outra", (4, 11)),
        ("Baixada: três plantas: 2 numa, 5 noutra e 1 na última", (2, 5, 1)),
        ("Baixada: 6 fêmeas na primeira planta, 2 na segunda e nenhuma na terceira", (6, 2, 0)),
        ("Kestrel: two plants, one had 4 and the other 11", (4, 11)),
    ],
)
def test_plants_told_one_after_the_other(text, per_plant):
    note = note_of(text)
    assert note.per_plant == per_plant
    assert (note.plants, note.females.total, note.date) == (len(per_plant), sum(per_plant), None)


@pytest.mark.parametrize(
    ("text", "plants", "method", "total"),
    [
        ("La Tranquera: de nueve que saqué a pala salieron 13 hembras", 9, "shovel", 13),
        ("La Tranquera: de las nueve que arranqué conté 13 blancas", 9, "pulled", 13),
        ("La Tranquera: las fui aflojando hasta que salieron, nueve en total. 10 blancas, 3 amarillas", 9, "eased", 13),
        ("La Tranquera: usé la palita, y fueron nueve. 10 blancas, 3 amarillas", 9, "shovel", 13),
        ("La Tranquera: 3 puntos de 3 plantas, nueve en total. 10 blancas, 3 amarillas", 9, None, 13),
        ("Baixada: das nove que arranquei, 13 brancas", 9, "pulled", 13),
        ("Baixada: cavei com a pá, nove no total. 10 brancas, 3 amarelas", 9, "shovel", 13),
    ],
)
def test_the_plants_are_those_that_were_dug(text, plants, method, total):
    note = note_of(text)
    assert (note.plants, note.method, note.females.total, note.planted) == (plants, method, total, None)


@pytest.mark.parametrize(
    ("text", "shade"),
    [
        ("La Tranquera: cuatro plantas y en las cuatro más que nada amarillas", "yellow"),
        ("La Tranquera: cuatro plantas. Lo que más se veía eran amarillas", "yellow"),
        ("Baixada: quatro plantas e nas quatro mais branca", "white"),
        ("Baixada: quatro plantas. O que mais se via eram amarelas", "yellow"),
    ],
)
def test_colors_without_numbers_count_nothing(text, shade):
    note = note_of(text)
    assert (note.plants, note.females.total, note.mostly, note.outcome) == (4, None, (shade,), "seen")
