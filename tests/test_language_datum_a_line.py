"""Notes that name their fields last, and requests and forms with a datum on each line."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note

SENT = date(2026, 7, 8)
CREW = ("Kestrel", "Dry Creek", "North Forty", "Bajo Grande", "Baixada")


def _read(text: str):
    return read_note(text, sent=SENT, fields=CREW)


@pytest.mark.parametrize(
    "text",
    [
        "2 brown, 5 plants: kestrel\n6 plants none: dry creek",
        "2 brown, 5 plants - kestrel\nNone on 6 plants - dry creek.",
        "5 plants 2 brown at kestrel\n6 plants none at dry creek",
        "5 plants 2 brown (kestrel)\n6 plants none (dry creek)",
        "2 brown on 5 plants, that was kestrel. None on 6 plants, that was dry creek",
        "2 brown, 5 plants: kestrel; 6 plants, none: dry creek",
        "Today:\n2 brown, 5 plants: kestrel\n6 plants none: dry creek",
    ],
)
def test_fields_named_last(text):
    """Each line or sentence is of the field that ends it."""
    reading = _read(text)
    assert reading.problems == ()
    assert [(n.field, n.plants, n.females.total) for n in reading.notes] == [("kestrel", 5, 2), ("dry creek", 6, 0)]


def test_fields_not_all_named_last():
    """What is told of one field and only goes on to another stays where it is."""
    reading = _read("Kestrel 5 plants 2 brown. Then on to dry creek")
    assert reading.notes[0].field == "kestrel"
    assert (reading.notes[0].plants, reading.notes[0].females.total) == (5, 2)


@pytest.mark.parametrize(
    "text",
    [
        "correct\nKestrel\nwhite\n8\nnot 6",
        "fix Kestrel\nwhite 8\nnot 6",
        "Kestrel\nfix\nwhite 8 not 6",
        "corregir\nKestrel\nblancas\n8\nno 6",
        "corrigir\nKestrel\nbrancas\n8\nnão 6",
    ],
)
def test_a_correction_line_by_line(text):
    reading = _read(text)
    assert (reading.problems, reading.notes) == ((), ())
    (command,) = reading.commands
    assert command.kind == "correct"
    assert {key: command.args[key] for key in ("field", "what", "value", "old")} == {
        "field": "kestrel",
        "what": "white",
        "value": 8,
        "old": 6,
    }


@pytest.mark.parametrize(
    "text",
    [
        "lab\nKestrel\n1850 eggs\nper 100 cc\n20 cores",
        "Lab:\nKestrel\n1850 eggs/100 cc\n20 cores",
        "Kestrel lab\n1850 eggs\nper 100 cc\n20 cores",
        "laboratorio\nKestrel\n1850 huevos\npor 100 cc\n20 submuestras",
    ],
)
def test_a_result_line_by_line(text):
    reading = _read(text)
    assert (reading.problems, reading.notes) == ((), ())
    (command,) = reading.commands
    told = (command.kind, command.args["field"], command.args["eggs_per_100cc"], command.args["cores"])
    assert told == ("lab", "kestrel", 1850, 20)


@pytest.mark.parametrize(
    "text",
    [
        "rotation\nKestrel:\ncorn, 88788, corn, peking",
        "rotation Kestrel\ncorn, 88788, corn, peking",
        "rotation\nKestrel\ncorn\n88788\ncorn\npeking",
        "rotación\nKestrel:\nmaíz, 88788, maíz, peking",
    ],
)
def test_a_rotation_line_by_line(text):
    (command,) = _read(text).commands
    assert (command.kind, command.args["field"]) == ("rotation", "kestrel")
    assert command.args["plans"] == [["corn", "PI 88788", "corn", "Peking"]]


@pytest.mark.parametrize("text", ["Report\nKestrel\n5 plants, 3 white", "Kestrel\nlab came back\n5 plants 3 white"])
def test_a_heading_above_a_note(text):
    """A note below a word for a request is a note."""
    reading = _read(text)
    assert [(n.field, n.plants, n.females.white) for n in reading.notes] == [("kestrel", 5, 3)]


@pytest.mark.parametrize(
    ("text", "plants", "total", "roots"),
    [
        (
            "Kestrel\n\nroots:\nfine\nstubby\nnodules: few\n\nfemales:\nnone\n\nplants:\n8\n\nhow:\nspade",
            8,
            0,
            {"fine", "stubby", "nodules_few"},
        ),
        ("Kestrel\nplants:\n8\nfemales:\n3 white\n2 yellow", 8, 5, set()),
        ("Kestrel\nStage\nR3\nPlants\n8\nFemales\n3 white\nHow\nspade", 8, 3, set()),
        ("Kestrel\nplants\n8\nwhite\n3\nyellow\n2", 8, 5, set()),
        ("Kestrel\nroots:\ndark\n6 plants\n3 white", 6, 3, {"dark"}),
        ("Kestrel\nraíces:\noscuras\nplantas:\n8\nhembras:\nninguna", 8, 0, {"dark"}),
        ("Kestrel\n8 plants\nspade\n3 white\n2 yellow\nR3", 8, 5, set()),
    ],
)
def test_values_below_their_labels(text, plants, total, roots):
    reading = _read(text)
    assert reading.problems == ()
    (note,) = reading.notes
    assert (note.field, note.plants, note.females.total, set(note.roots)) == ("kestrel", plants, total, roots)
