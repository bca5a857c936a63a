"""Why a count was wrong is no part of what puts it right: "i put 12 without my glasses"."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Language

SENT = date(2026, 7, 8)
FIELDS = ("Kestrel", "Dry Creek", "La Tranquera", "Molino Viejo", "Baixada", "Santa Rita")


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


@pytest.mark.parametrize(
    ("text", "field", "what", "value", "old"),
    [
        ("Kestrel: 6 plants 2 white. Please fix Dry Creek of Monday, it was 8 white, not 6.", "dry creek", "white", 8, 6),
        (
            "La Tranquera: 6 plantas 2 blancas. Y por favor corrijan Molino Viejo del lunes: eran 8 plantas y no 6.",
            "molino viejo", "plants", 8, 6,
        ),
        (
            "Baixada: 6 plantas 2 brancas. Mandei errado ontem: corrijam Santa Rita, eram 14 marrons e não 4.",
            "santa rita", "brown", 14, 4,
        ),
    ],
)  # fmt: skip
def test_a_note_and_what_puts_another_field_right_stand_in_one_line(
    text: str, field: str, what: str, value: int, old: int
) -> None:
    reading = read_note(text, sent=SENT, fields=FIELDS)
    (note,), (asked,) = reading.notes, reading.commands

    assert note.females.white == 2
    told = tuple(asked.args.get(key) for key in ("field", "what", "value", "old"))
    assert (asked.kind, *told) == ("correct", field, what, value, old)


def test_a_new_field_with_the_name_of_another_in_it_keeps_its_own() -> None:
    (asked,) = read_note("add Kestrel North, 41.88 -93.10, planted 5/7", sent=SENT, fields=FIELDS).commands

    assert asked.args["name"] == "kestrel north"
    assert asked.args["planted"] == date(2026, 5, 7)
