"""Why a count was wrong is no part of what puts it right: "i put 12 without my glasses"."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Language

SENT = date(2026, 7, 8)
FIELDS = ("Kestrel", "La Tranquera", "Baixada")


@pytest.mark.parametrize(
    ("text", "language", "what", "value", "old"),
    [
        ("kestrel white was 14, i put 12 without my glasses", "en", "white", 14, 12),
        ("make kestrel white 14, i read the wrong line off the clipboard", "en", "white", 14, None),
        ("kestrel visit was july 1, not the 2nd like I wrote", "en", "date", date(2026, 7, 1), date(2026, 7, 2)),
        ("change kestrel to shovel, i put pulled out of habit", "en", "method", "shovel", None),
        ("baixada as brancas eram 14, escrevi 12 sem óculos", "pt", "white", 14, 12),
        ("la tranquera eran 14 blancas, puse 12 de apurado", "es", "white", 14, 12),
    ],
)
def test_a_reason_behind_the_numbers_changes_nothing(
    text: str, language: Language, what: str, value: object, old: object
) -> None:
    (asked,) = read_note(text, sent=SENT, fields=FIELDS, language=language).commands

    assert (asked.kind, asked.args["what"], asked.args["value"], asked.args.get("old")) == ("correct", what, value, old)


def test_a_reason_alone_is_kept_where_it_is_all_there_is() -> None:
    reading = read_note("kestrel read it wrong", sent=SENT, fields=FIELDS)

    assert reading.problems or reading.commands


def test_a_color_and_its_count_name_no_variety() -> None:
    reading = read_note("kestrel white 14, that is the line we seeded", sent=SENT, fields=FIELDS)

    assert "white 14" not in [command.args.get("variety") for command in reading.commands]


@pytest.mark.parametrize(
    "text",
    [
        "how many plants do i need if im pulling them out of wet clay? want to be 95% sure",
        "quantas plantas eu preciso olhar se arrancar com a mão e lavar as raízes no balde?",
    ],
)
def test_a_condition_is_no_name_of_a_field(text: str) -> None:
    (asked,) = read_note(text, sent=SENT, fields=FIELDS).commands

    assert asked.kind == "look_plan"
    assert asked.args.get("field") is None


def test_a_lab_count_without_its_volume_is_asked_for_the_volume() -> None:
    (problem,) = read_note("lab kestrel 640 eggs", sent=SENT, fields=FIELDS).problems

    assert problem.kind == "lab_volume"
    assert "640" in problem.wrong
    assert problem.instead == "lab kestrel 640 eggs per 100 cc"
