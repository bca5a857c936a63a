"""Spanish and Portuguese mails: other times, places, shapes and soils told beside the visit, and what is not asked."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.language.score import told_by

CREW = ("Kestrel", "Tinkers", "Dry Creek", "La Tranquera", "Santa Rita")
SENT = date(2026, 7, 8)


def told(text, fields=CREW):
    """What is read of a message that asks nothing, by its paths."""
    reading = read_note(text, sent=SENT, fields=fields)
    assert reading.problems == ()
    return told_by(reading)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # shapes of what the tops show, counted or not
        ("Kestrel, 5 plantas sin hembras. Maduró antes de tiempo en dos manchones.", {"tops": ["early_ripe", "patch"]}),
        ("Kestrel. Se está madurando antes, en círculos. 5 plantas: 2 blancas", {"tops": ["early_ripe", "ring"]}),
        (
            "Kestrel, amareladas e baixas, em duas reboleiras. 5 plantas: 2 brancas",
            {"tops": ["patch", "stunted", "yellow"]},
        ),
        ("Kestrel, 5 plantas sin hembras. Amarillas en dos manchones.", {"tops": ["patch", "yellow"], "mostly": None}),
        ("Kestrel 5 plants none, short in two patches", {"tops": ["patch", "stunted"]}),
        # the edge counted before is that of the field
        (
            "Kestrel. Na borda: 5 plantas, 14 brancas. No centro: 5 plantas, nenhuma fêmea.\n"
            "Tirado com pá. A borda está mais baixa e amarela.",
            {"tops": ["stunted", "yellow"], "mostly": None},
        ),
        # somewhat
        ("Kestrel 5 plantas deu 3 brancas raiz meio escura", {"roots": ["dark"]}),
        (
            "Kestrel 5 plantas 2 blancas, hojas medio amarillas, suelo medio seco",
            {"tops": ["yellow"], "soil.moisture": "dry"},
        ),
        # soil put right
        ("Kestrel: Solo arenoso não, é argila mesmo. 5 plantas 2 brancas", {"soil.texture": "clay"}),
        ("Kestrel 5 plantas 2 blancas, franco no, arcilloso", {"soil.texture": "clay"}),
        ("Kestrel 5 plants 2 white. Clay, no sand.", {"soil.texture": "clay"}),
        # little words that are also letters of colors
        ("Kestrel, com a estrada vazia. 5 plantas nada", {"mostly": None, "outcome": "none_seen"}),
        # other times
        ("Kestrel piorou, de 4 foi pra 16 brancas, tb 5 plantas", {"females.white": 16, "plants": 5}),
        ("Kestrel 5 plantas, de 4 pasó a 16 blancas", {"females.white": 16}),
        (
            "Kestrel peor que en diciembre, aquella vez 3 en 5 plantas, hoy 19 bl y 5 am en 5 plantas a pala.",
            {"females.total": 24, "plants": 5},
        ),
        # hours of no entry
        (
            "Kestrel no saqué plantas, echaron glufosinato hace dos dias y la reentrada es de 72 horas vuelvo el jueves",
            {"spray.days_ago": 2, "spray.entry_hours": 72.0, "look_again.date": "2026-07-09", "date": None},
        ),
        (
            "Kestrel passaram glifosato faz 3 dias e a reentrada é de 24 horas volto na sexta",
            {"spray.entry_hours": 24.0},
        ),
        ("Kestrel sprayed glyphosate 2 days ago and re-entry is 12 hours, back thursday", {"spray.days_ago": 2}),
        # a look to come
        (
            "Kestrel: no entré, el suelo está encharcado. Lo miro el viernes.",
            {"look_again.date": "2026-07-10", "date": None},
        ),
        (
            "Por Kestrel pasé ayer pero no saqué plantas: recién está en V2 y saturado. Lo miro el lunes.",
            {"stage": "V2", "outcome": "not_looked", "look_again.date": "2026-07-13"},
        ),
        # all that were dug
        ("ayer fui a kestrel y arranqué siete plantas traían quistes blancos pero no los conté", {"plants": 7}),
        ("Kestrel dug 7 plants with white cysts, didn't count", {"plants": 7, "outcome": "seen"}),
        ("Kestrel 10 plants, dug 3 plants had cysts", {"plants": 10}),
        ("Kestrel hay tantos quistes q es imposible contarlos!! R5, 4 plantas con pala", {"too_many": True}),
        (
            "Kestrel encontramos hembras en todas las raíces.\nFueron 10 plantas con pala",
            {"plants": 10, "outcome": "seen"},
        ),
        # a question only where one is asked
        ("Kestrel 5 plantas 3 brancas.\nPara a próxima safra pensamos em milho ali.", {"females.white": 3}),
    ],
)
def test_what_is_told_of_one_field(text, expected):
    """Each datum as it is meant, and nothing else asked or ordered."""
    found = told(text)
    assert {key: found.get(f"note 0.{key}") for key in expected} == expected
    assert not any(key.startswith(("note 1", "command")) for key in found)


@pytest.mark.parametrize(
    ("text", "plants", "totals"),
    [
        ("Kestrel, 3 lugares. carreador: 0 cistos em 5 plantas. divisa: 3 em 5. brejo: 14 em 5", 15, [0, 3, 14]),
        ("Kestrel. loma: 4 plantas 2 blancas. bañado: 4 plantas 9 blancas", 8, [2, 9]),
        ("Kestrel. dry: 4 pl 2w. wet: 4 pl 9w", 8, [2, 9]),
        (
            "Kestrel. Dug 6 plants at the gate and 6 on the hill: at the gate 13 white, on the hill 2 white.",
            12,
            [13, 2],
        ),
        (
            "kestrel arranque cinco plantas en la loma y cinco en la hondonada en la loma no vi nada en la hondonada nueve"
            " blancas y dos amarillas",
            10,
            [0, 11],
        ),
    ],
)
def test_places_with_their_plants(text, plants, totals):
    """A word for wet ground heads its counts as a place; plants told for all places ahead of what they had."""
    found = told(text)
    assert found["note 0.plants"] == plants
    assert [found[f"note 0.spots {n}.females.total"] for n in range(len(totals))] == totals
    assert found.get("note 0.soil.moisture") is None


@pytest.mark.parametrize(
    ("text", "outcomes"),
    [
        ("Kestrel no la pude ver, el arroyo cortó el camino. Tinkers tampoco", ["not_looked", "not_looked"]),
        (
            "Kestrel não deu pra entrar. Tinkers também não. Santa Rita 5 plantas 0",
            ["not_looked", "not_looked", "none_seen"],
        ),
        ("Kestrel too wet to dig. Tinkers neither. Dry Creek 5 plants none", ["not_looked", "not_looked", "none_seen"]),
        ("Kestrel 5 plantas nada, y tampoco Tinkers", ["none_seen", "none_seen"]),
    ],
)
def test_the_next_field_neither(text, outcomes):
    """The same is told of the next field, which alone of a clause is named."""
    found = told(text)
    assert [found[f"note {n}.outcome"] for n in range(len(outcomes))] == outcomes


@pytest.mark.parametrize(
    ("text", "looks"),
    [
        ("Vuelvo a Kestrel en 15 días y a Dry Creek en 30.", [15, 30]),
        ("Volto ao Kestrel em 15 dias e ao Dry Creek em 30.", [15, 30]),
        ("Back to Kestrel in 10 days and Dry Creek in 3 weeks.", [10, 21]),
        ("Vuelvo a los dos en 3 semanas.", [21, 21]),
        ("Volto aos dois em 3 semanas.", [21, 21]),
        ("Vuelvo a Kestrel el viernes y a Dry Creek el lunes.", ["2026-07-10", "2026-07-13"]),
    ],
)
def test_looks_at_several_fields_in_one_sentence(text, looks):
    """Each note gets its own next look."""
    found = told(f"Kestrel 5 plantas 3 white\nDry Creek 5 plantas 0\n{text}")
    kept = [found.get(f"note {n}.look_again.days", found.get(f"note {n}.look_again.date")) for n in range(2)]
    assert kept == looks
    assert "note 2.field" not in found


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Kestrel la otra vez 22 ahora 7 nomas, en 5 plantas, todas blancas", {"females.white": 7, "plants": 5}),
        ("Kestrel ahora 7, en 5 plantas, todas blancas", {"females.white": 7, "plants": 5}),
        ("Kestrel 4 plantas com zero, 2, 3 e 1", {"per_plant": [0, 2, 3, 1]}),
        (
            "kestrel cavei seis plantas três na beira da estrada com quatro brancas e três no meio com zero tá em vê oito",
            {"spots 1.name": "meio", "spots 1.females.total": 0, "plants": 6, "stage": "V8"},
        ),
        ("No Kestrel achamos cistos na maioria das raízes, foram 8 plantas de enxadão", {"outcome": "seen"}),
        ("en Kestrel volvimos a encontrar hembras.\nFueron 10 plantas con pala, R3", {"outcome": "seen", "plants": 10}),
    ],
)
def test_counts_told_otherwise(text, expected):
    """None at a place, so many on so many plants, some seen and not counted."""
    found = told(text)
    assert {key: found.get(f"note 0.{key}") for key in expected} == expected


def test_the_day_above_stands_beside_one_to_come():
    """The day of the next look is not that of the visit."""
    found = told("Ontem: Kestrel 6 plantas 5 brancas, V7. Dry Creek 6 plantas nada, V6. Amanhã volto.")
    assert found["note 0.date"] == found["note 1.date"] == "2026-07-07"
    assert found["note 1.look_again.date"] == "2026-07-09"


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("Como faço a coleta de amostra de solo no Kestrel? Hoje lá: 6 plantas na pá, 2 brancas, R2.", "kestrel"),
        ("How do I sample kestrel? Dug 6 there today, 2 white", "kestrel"),
        ("How do I sample kestrel? Dug 6 today, 2 white", None),
    ],
)
def test_noted_there_where_it_was_asked_about(text, field):
    """Only a word for there says so."""
    assert told(text).get("note 0.field") == field


def test_neither_behind_a_count_is_asked():
    """Nothing says what there is none of."""
    reading = read_note("Kestrel 5 plantas 3 blancas. Tinkers tampoco", sent=SENT, fields=CREW)
    assert [problem.kind for problem in reading.problems] == ["unread_denial"]


def test_the_day_above_stands_beside_that_of_a_spray():
    """The day right before a spray is the spray's."""
    text = "Recorrida de hoy.\n\nKestrel: el 2/7 le aplicaron herbicida. 5 plantas, sin hembras.\n\nTinkers: 5 plantas nada"
    found = told(text)
    assert found["note 0.date"] == found["note 1.date"] == "2026-07-08"
    assert found["note 0.spray.date"] == "2026-07-02"


def test_a_span_rather_than_why_not_today():
    """ "Que hoy no puedo" gives the reason."""
    found = told("recordame Kestrel en 4 días, que hoy no puedo")
    assert (found["command 0.kind"], found["command 0.days"]) == ("move", 4)


@pytest.mark.parametrize(
    ("text", "names"),
    [
        (
            "Bom dia, últimas do monitoramento.\n\nVARJÃO\nR6, 27 marrons em 10 plantas tiradas com pá.\n\nSAPÉ\n"
            "R6, nenhum cisto em 10 plantas tiradas com pá.\n\nNa mesma época do ano passado o Varjão deu o dobro disso.",
            ["varjão", "sapé"],
        ),
        (
            "Lote Paso Hondo\nR7, 8 plantas con pala. 31 hembras marrones.\n\nLote La Herradura\nR6, 8 plantas con pala. "
            "Sin hembras.\n\nComparado con febrero, La Herradura sigue igual y Paso Hondo empeoró.",
            ["paso hondo", "la herradura"],
        ),
    ],
)
def test_names_without_a_list_told_again_of_another_time(text, names):
    """A name in capitals and again in small letters is one; words of comparing are none."""
    reading = read_note(text, sent=SENT)
    assert [note.field for note in reading.notes] == names
