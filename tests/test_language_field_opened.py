"""A sentence that only brings up the field, an hour in it, a next look told at length: nothing is asked."""

from __future__ import annotations

import pytest

from notes_bot.model import LookAgain
from tests.reading_kit import note_of


@pytest.mark.parametrize(
    "opening",
    [
        "Paso a contarles qué encontré en el lote Bajo Grande.",
        "Y por último, con el sol ya bajo, Bajo Grande.",
        "A ver qué falta... ah sí, Bajo Grande.",
        "Hoy arranco con Bajo Grande.",
        "Ahora le tocó el turno a Bajo Grande.",
        "Me crucé a Bajo Grande, habré llegado tipo cuatro y media.",
        "En Bajo Grande poco antes de las siete.",
        "Te escribo de Bajo Grande mientras lo tengo fresco.",
    ],
)
@pytest.mark.parametrize("joint", [" ", "\n"])
def test_a_spanish_opening_names_the_field_and_no_more(opening, joint):
    note = note_of(f"{opening}{joint}5 plantas con pala. 6 blancas, 1 amarilla.")
    assert (note.field, note.plants, note.method, note.females.total) == ("bajo grande", 5, "shovel", 7)
    assert (note.soil.moisture, note.roots, note.look_again) == (None, (), None)


@pytest.mark.parametrize(
    "opening",
    [
        "Vou te contar o que achei na Baixada.",
        "E por último, já com o sol baixando, a Baixada.",
        "O que falta... ah sim, a Baixada.",
        "Passei na Baixada cedinho, antes das sete.",
        "Na Baixada, perto da curva de nível.",
        "Saí da Baixada agora, conto enquanto tá fresco na cabeça.",
    ],
)
@pytest.mark.parametrize("joint", [" ", "\n"])
def test_a_portuguese_opening_names_the_field_and_no_more(opening, joint):
    note = note_of(f"{opening}{joint}5 plantas com pá. 6 brancas, 1 amarela.")
    assert (note.field, note.plants, note.method, note.females.total) == ("baixada", 5, "shovel", 7)
    assert (note.soil.moisture, note.roots, note.look_again) == (None, (), None)


@pytest.mark.parametrize(
    ("told", "days"),
    [
        ("Le daría 2 semanas antes de sacar plantas otra vez", 14),
        ("Dentro de diez días hay que repetir el muestreo en este lote", 10),
        ("Haceme acordar de volver acá de hoy en diez días", 10),
        ("De acá a tres semanas la reviso otra vez", 21),
    ],
)
def test_a_next_look_told_at_length(told, days):
    note = note_of(f"Bajo Grande: 5 plantas, 6 blancas. {told}.")
    assert (note.plants, note.females.total, note.date, note.look_again) == (5, 6, None, LookAgain(days=days))


@pytest.mark.parametrize(
    ("told", "days"),
    [
        ("Acho bom repetir a contagem aqui com uns quinze dias", 15),
        ("Eu daria 2 semanas antes de olhar de novo", 14),
        ("Me lembra de voltar nesse talhão daqui uma semana", 7),
    ],
)
def test_a_next_look_told_at_length_in_portuguese(told, days):
    note = note_of(f"Baixada: 5 plantas, 6 brancas. {told}.")
    assert (note.plants, note.females.total, note.date, note.look_again) == (5, 6, None, LookAgain(days=days))


def test_a_reminder_takes_nothing_of_the_note_before_it():
    note = note_of(
        "Deu tempo de ver a Baixada. Terra seca. as folhas velhas queimando na beirada. não deu tempo de cavar. "
        "Me lembra de voltar aqui daqui uma semana"
    )
    assert (note.field, note.outcome, note.soil.moisture) == ("baixada", "not_looked", "dry")
    assert (note.tops, note.look_again) == (("edges_old",), LookAgain(days=7))
