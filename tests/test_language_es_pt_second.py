"""Spanish and Portuguese as written on a phone: names in full, numbers in words, next looks, new fields."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from notes_bot.language.reader import read_note
from notes_bot.language.score import told_by

SENT = date(2026, 1, 28)
"""A Wednesday."""
FIELDS = ("Kestrel", "Potrero Guasu", "Invernada Velha", "Gameleira", "Boca da Mata", "Los Talas", "Piúva")


def found(text: str, fields: tuple[str, ...] = FIELDS) -> dict[str, Any]:
    """What is read, without zeros of colors."""
    reading = read_note(text, sent=SENT, fields=fields)
    assert not reading.problems, reading.problems
    return {key: value for key, value in told_by(reading).items() if value != 0}


NOTES: list[tuple[str, dict[str, Any]]] = [
    ("invernada velha r1 9pl pá 1br", {"field": "invernada velha", "females.white": 1}),
    ("kestrel 6 pl arranc 4 bl 2 am seco r1", {"method": "pulled", "females.total": 6}),
    ("kestrel 4pl lavadas 22 fêmeas qse td branca", {"females.white": None, "females.total": 22}),
    ("Kestrel 6 matas: limpias, ni una hembra", {"outcome": "none_seen", "plants": 6}),
    ("Kestrel 6 plants: clean, none", {"outcome": "none_seen", "plants": 6}),
    ("kestrel solo pase en camioneta, se ve sano, r5", {"outcome": "not_looked", "stage": "R5"}),
    ("kestrel: no saque ninguna, 40 mm anoche, barro. vuelvo jueves", {"date": None, "outcome": "not_looked"}),
    ("kestrel tem reboleira, 5 pl c pá: 12 br 6 am", {"tops": ["patch"], "females.total": 18}),
    ("kestrel igual que la otra vez hojas nuevas amarillas entre venas verdes", {"tops": ["interveinal_new"]}),
    ("Kestrel solo úmido cinco plantas soltei devagar com a mão e deu uma fêmea bege só", {"females.tan": 1}),
    ("Kestrel cinco plantas aflojé con la mano y salieron tres hembras blancas nomás", {"females.white": 3}),
    ("Kestrel. Todas as plantas que tirei têm fêmeas, mas não contei.", {"outcome": "seen", "plants": None}),
    ("Kestrel todas las plantas que saqué tienen hembras, no las conté", {"outcome": "seen", "plants": None}),
    ("Kestrel every plant had females, did not count", {"outcome": "seen", "plants": None}),
    ("kestrel no excavamos, está encharcado. miércoles vamos a ver otra vez", {"look_again.date": "2026-02-04"}),
    ("Piúva, na segunda, 6 plantas: 5 amarelas. Voltar na terça.", {"date": "2026-01-26", "plants": 6}),
    ("Piúva, na segunda, 6 plantas: 5 amarelas. Voltar na terça.", {"look_again.date": "2026-02-03"}),
    (
        "Kestrel. Variedad susceptible, se llama Ñandubay 48. Siete plantas, 42 blancas.",
        {"variety.name": "Ñandubay 48"},
    ),
]


@pytest.mark.parametrize(("text", "told"), NOTES)
def test_notes(text: str, told: dict[str, Any]) -> None:
    read = found(text)
    assert {key: read.get(f"note 0.{key}") for key in told} == told


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("talhão Mangueira, 3 plantas com pá, não vi nada", {"field": "mangueira", "soaked": None}),
        ("lote Balde: 5 plantas 3 blancas", {"field": "balde", "soaked": None, "females.white": 3}),
        (
            "El Quebracho. Variedad susceptible, se llama Ñandubay 48. Siete plantas con pala, 42 hembras.",
            {"field": "el quebracho", "variety.name": "Ñandubay 48", "females.total": 42},
        ),
        ("lote nuevo 6 plantas 3 blancas", {"plants": 6, "females.white": 3}),
    ],
)
def test_notes_without_a_list(text: str, told: dict[str, Any]) -> None:
    read = found(text, ())
    assert {key: read.get(f"note 0.{key}") for key in told} == told


COMMANDS: list[tuple[str, dict[str, Any]]] = [
    (
        "talhão novo Barreirinho perto da Gameleira plantado 25/10",
        {"kind": "field", "name": "barreirinho", "near": "gameleira", "planted": "2025-10-25"},
    ),
    ("talhão novo: Barreirinho, plantado 25/10", {"kind": "field", "name": "barreirinho", "planted": "2025-10-25"}),
    ("lote nuevo Los Aromos cerca de Los Talas sembrado 25/10", {"name": "los aromos", "near": "los talas"}),
    ("oq falta olhar?", {"kind": "due", "field": None}),
    (
        "llegó el análisis de los talas, cuatro mil doscientos huevos por cada cien centímetros cúbicos",
        {"kind": "lab", "field": "los talas", "value": 4200, "eggs_per_100cc": 4200},
    ),
    ("saiu o laboratório da piúva cinco mil e cem ovos por cem centímetros cúbicos", {"kind": "lab", "value": 5100}),
    ("lab los talas 1800 huevos 100cc 15 submuestras, sigue maiz", {"value": 1800, "cores": 15, "next_crop": "other"}),
    ("lab da Piúva: 3200 ovos por 100 cc, vinte subamostras, próxima cultura milho", {"cores": 20, "value": 3200}),
    ("lab da Piúva: 3200 ovos por 100 cc, próxima cultura: milho", {"next_crop": "other"}),
    ("quantas plantas na boca da mata pra ter noventa por cento de certeza", {"kind": "look_plan", "percent": 90}),
    (
        "perdón, corrijo Los Talas: volver el 30/7",
        {"kind": "correct", "field": "los talas", "what": "look_again", "value.date": "2026-07-30"},
    ),
    ("correção Gameleira: voltar na sexta", {"kind": "correct", "what": "look_again", "value.date": "2026-01-30"}),
    ("correction Kestrel: recheck 7/30", {"kind": "correct", "what": "look_again", "value.date": "2026-07-30"}),
    ("Los Talas volver el 30/7", {"kind": "move", "date": "2026-07-30"}),
    ("remind me friday bout kestrel not tomorrow wouldja", {"kind": "move", "field": "kestrel"}),
]


@pytest.mark.parametrize(("text", "told"), COMMANDS)
def test_requests(text: str, told: dict[str, Any]) -> None:
    read = found(text)
    assert {key: read.get(f"command 0.{key}") for key in told} == told


def test_a_total_that_is_no_sum_is_asked_about() -> None:
    reading = read_note("Kestrel 5 plantas, 14 hembras en total, 8 blancas 3 amarillas", sent=SENT, fields=FIELDS)
    assert [problem.kind for problem in reading.problems] == ["sum_mismatch"]
