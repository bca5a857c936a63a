"""What is asked and put right in sentences of people's own, whose word for the thing stands anywhere."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from notes_bot.language import read_note

SENT = date(2026, 7, 20)
CREW = (
    *("Kestrel", "Tinkers", "North Forty", "Dry Creek", "Lone Ash", "La Tranquera", "Molino Viejo", "Bajo Grande"),
    *("Baixada", "Santa Rita", "Sede Velha"),
)


def commands(text: str, fields: tuple[str, ...] = CREW) -> list[dict[str, Any]]:
    """What a message asks for or puts right, without a question back and without a note."""
    reading = read_note(text, sent=SENT, fields=fields)

    assert not reading.problems, reading.problems
    assert not reading.notes
    return [
        {"kind": command.kind, **{key: value for key, value in command.args.items() if value is not None}}
        for command in reading.commands
    ]


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        (
            "If I pull em and it's clay how many plants till I'm 90% sure?",
            {"percent": 90, "method": "pulled", "texture": "clay"},
        ),
        (
            "to be 90% sure at kestrel how many do i need to pull",
            {"percent": 90, "method": "pulled", "field": "kestrel"},
        ),
        ("say i pull plants in sand, how many would i need", {"method": "pulled", "texture": "sand"}),
        ("decime cuántas plantas tengo que sacar en bajo grande", {"field": "bajo grande"}),
        ("cuántas plantas hay que arrancar para estar 90% seguro", {"percent": 90, "method": "pulled"}),
        ("na santa rita quantos pés eu tiro com pá?", {"method": "shovel", "field": "santa rita"}),
    ],
)
def test_how_many_plants_is_asked_behind_other_words(text, asked):
    """The question for the number of plants, with what is said of the look before or behind it."""
    assert commands(text) == [{"kind": "look_plan", **asked}]


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("can i trust 5 pulled plants?", {"plants": 5, "method": "pulled"}),
        ("will 6 plants do it at kestrel?", {"plants": 6, "field": "kestrel"}),
        (
            "¿De qué me sirve haber mirado 5 plantas arrancadas en arcilla?",
            {"plants": 5, "method": "pulled", "texture": "clay"},
        ),
        ("6 plantas arrancadas son suficientes?", {"plants": 6, "method": "pulled"}),
        ("4 plantas na pa sao suficientes?", {"plants": 4, "method": "shovel"}),
        ("vale alguma coisa ter olhado 4 plantas arrancadas?", {"plants": 4, "method": "pulled"}),
    ],
)
def test_what_a_look_is_worth_is_asked_in_many_words(text, asked):
    """Plants, a word for being enough or of use, and a question."""
    assert commands(text) == [{"kind": "look_worth", **asked}]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("whats the right way to take soil cores at tinkers this fall", {"kind": "sample", "field": "tinkers"}),
        ("how should kestrel be sampled", {"kind": "sample", "field": "kestrel"}),
        ("de qué manera muestreo bajo grande", {"kind": "sample", "field": "bajo grande"}),
        ("como q eu tiro amostra de solo na baixada?", {"kind": "sample", "field": "baixada"}),
        ("what rotation makes sense for kestrel?", {"kind": "rotation", "field": "kestrel"}),
        ("qué rotación recomiendan para la tranquera?", {"kind": "rotation", "field": "la tranquera"}),
        ("que rotação vcs sugerem pra Baixada", {"kind": "rotation", "field": "baixada"}),
        ("any sign the Peking varieties are slipping across our fields", {"kind": "watch", "source": "Peking"}),
        ("are our varieties still holding", {"kind": "watch"}),
        ("el Peking sigue aguantando?", {"kind": "watch", "source": "Peking"}),
        ("as variedades peking estão falhando em algum talhão?", {"kind": "watch", "source": "Peking"}),
    ],
)
def test_samples_rotations_and_varieties_are_asked_of_in_a_sentence(text, expected):
    """The word for the thing stands behind others, with a word for asking."""
    assert commands(text) == [expected]


@pytest.mark.parametrize(
    ("text", "args"),
    [
        ("season report on Kestrel, Tinkers & Dry Creek", {"fields": ["kestrel", "tinkers", "dry creek"]}),
        ("report for kestrel and dry creek", {"fields": ["kestrel", "dry creek"]}),
        ("need the season report for kestrel + lone ash", {"fields": ["kestrel", "lone ash"]}),
        ("necesito el informe de Bajo Grande y Molino Viejo", {"fields": ["bajo grande", "molino viejo"]}),
        ("Preciso do relatório de Baixada e Santa Rita", {"fields": ["baixada", "santa rita"]}),
        ("send the grower report on kestrel", {"field": "kestrel"}),
        ("i want the report for the whole farm", {"all": True}),
        ("relatório de todos os talhões", {"all": True}),
    ],
)
def test_a_report_names_its_fields_in_any_list(text, args):
    """One field, several joined by any sign or word, or all."""
    assert commands(text) == [{"kind": "report", **args}]


def test_a_report_of_fields_no_list_has_is_cut_at_its_joints():
    """Without the crew's list, commas and "and" part the names."""
    (command,) = commands("season report on Long Bend, Pit & Elm Lot and Far Side please", fields=())

    assert command == {"kind": "report", "fields": ["long bend", "pit", "elm lot", "far side"]}


@pytest.mark.parametrize(
    "text",
    [
        "kestrel dug 5 plants, that was plenty, 3 white",
        "kestrel peking still holding, dug 5 none",
        "baixada 6 plantas na pá, chega por hoje, nenhuma",
        "tomé muestras de suelo en bajo grande, 6 plantas con pala 4 blancas",
        "here is the report for kestrel: dug 6, 12 white",
        "rotation on kestrel was corn last year, dug 5 plants none",
    ],
)
def test_a_note_with_such_words_stays_a_note(text):
    """What was dug and found is told: nothing is asked."""
    reading = read_note(text, sent=SENT, fields=CREW)

    assert not reading.commands
    assert reading.notes[0].plants in (5, 6)


def test_how_many_were_dug_asks_for_what_was():
    """A question for what was done is answered from the history, and plans no look."""
    assert commands("how many plants did i dig at kestrel") == [{"kind": "history", "field": "kestrel"}]
