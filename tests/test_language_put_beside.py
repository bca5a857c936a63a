"""A value put beside the one it stands for: "tops were stunted not wilted", and what only looks like it."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from notes_bot.language.reader import read_note

FIELDS = ("Kestrel", "Dry Creek", "Ridge Top", "La Tranquera", "Bajo Grande", "Santa Rita", "Baixada", "Sede Velha")
SENT = date(2026, 7, 9)


def _told(text: str) -> list[tuple[Any, ...]]:
    """What is put right: field, what, value, old."""
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert not reading.problems and not reading.notes
    assert {command.kind for command in reading.commands} <= {"correct"}
    return [tuple(c.args.get(key) for key in ("field", "what", "value", "old")) for c in reading.commands]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("no wait it was 8 plants not 6", (None, "plants", 8, 6)),
        ("the beans at kestrel were V5 not V3 sorry", ("kestrel", "stage", "V5", "V3")),
        ("kestrel brown ones: 5. had 3", ("kestrel", "brown", 5, 3)),
        ("scratch the 3 yellow, its 13", (None, "yellow", 13, 3)),
        ("dry creek whites were 12, i typed 21", ("dry creek", "white", 12, 21)),
        ("that 6 yellow i sent for kestrel should read 16", ("kestrel", "yellow", 16, 6)),
        ("i put V5 for kestrel but it was V4", ("kestrel", "stage", "V4", "V5")),
        ("my bad, ridge top tops were stunted not wilted", ("ridge top", "tops", ["stunted"], ["wilted"])),
        ("dry creek roots dark not white", ("dry creek", "roots", ["dark"], ["white"])),
        ("nodules on kestrel were pink not brown", ("kestrel", "roots", ["nodules_pink"], ["nodules_brown"])),
        ("variety at kestrel is KR 2417 not KR 2471", ("kestrel", "variety", "KR 2417", "KR 2471")),
        ("kestrel is resistant not susceptible", ("kestrel", "resistance", "resistant", "susceptible")),
        ("the source on kestrel is Peking, not PI 88788", ("kestrel", "source", "Peking", "PI 88788")),
        ("kestrel was pulled not dug", ("kestrel", "method", "pulled", "shovel")),
        ("the kestrel dig was monday, not today", ("kestrel", "date", date(2026, 7, 6), None)),
        ("go back to kestrel in 14 days instead of 10", ("kestrel", "look_again", {"days": 14}, {"days": 10})),
        (
            "hey on kestrel the next look ought to be 7/31 not the 24th",
            ("kestrel", "look_again", {"date": "2026-07-31"}, {"date": "2026-07-24"}),
        ),
        ("tans on kestrel were 7 actually", ("kestrel", "tan", 7, None)),
        ("oops kestrel was 7 plants, I forgot one w nothing on it", ("kestrel", "plants", 7, None)),
        ("la variedad en bajo grande es KR 2417 no KR 2471", ("bajo grande", "variety", "KR 2417", "KR 2471")),
        ("La raíz era oscura, no blanca", (None, "roots", ["dark"], ["white"])),
        ("bajo grande fue el lunes, no hoy", ("bajo grande", "date", date(2026, 7, 6), None)),
        ("bajo grande: no son 8, son 18 blancas", ("bajo grande", "white", 18, 8)),
        ("las plantas de bajo grande tendrían que ser 6, tenía 5", ("bajo grande", "plants", 6, 5)),
        ("bajo grande figuraba como mojado, estaba seco", ("bajo grande", "moisture", "dry", "wet")),
        ("las plantas de la tranquera estaban bajas, no marchitas", ("la tranquera", "tops", ["stunted"], ["wilted"])),
        ("em vez de 10 dias volta na baixada em 15", ("baixada", "look_again", {"days": 15}, {"days": 10})),
        ("raiz da sede velha era escura e não branca como eu disse", ("sede velha", "roots", ["dark"], ["white"])),
        ("variedade da santa rita é LM 3306, digitei LM 3360", ("santa rita", "variety", "LM 3306", "LM 3360")),
        ("na santa rita arranquei com a pá e não na mão", ("santa rita", "method", "shovel", "pulled")),
        ("fui na sede velha segunda, não hoje, arruma a data", ("sede velha", "date", date(2026, 7, 6), None)),
        ("plantas da baixada deveriam ser 6, tinha 5", ("baixada", "plants", 6, 5)),
    ],
)
def test_one_value_stands_for_the_other(text: str, expected: tuple[Any, ...]) -> None:
    assert _told(text) == [expected]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "kestrel whites 18 not 13 and yellows 4 not 1",
            [("kestrel", "white", 18, 13), ("kestrel", "yellow", 4, 1)],
        ),
        (
            "dos errores en bajo grande, eran 9 plantas y estaba en V6",
            [("bajo grande", "plants", 9, None), ("bajo grande", "stage", "V6", None)],
        ),
        (
            "9 brancas na baixada não 6, e R1 não V6",
            [("baixada", "white", 9, 6), ("baixada", "stage", "R1", "V6")],
        ),
        (
            "go back to kestrel in 14 days instead of 10. also ridge top was V6",
            [("kestrel", "look_again", {"days": 14}, {"days": 10}), ("ridge top", "stage", "V6", None)],
        ),
        (
            "kestrel 8 plants was really 10\nridge top was V5",
            [("kestrel", "plants", 10, 8), ("ridge top", "stage", "V5", None)],
        ),
        (
            "kestrel was with a shovel, not pulled. and it was moist there not dry",
            [("kestrel", "method", "shovel", "pulled"), ("kestrel", "moisture", "moist", "dry")],
        ),
    ],
)
def test_two_data_are_put_right(text: str, expected: list[tuple[Any, ...]]) -> None:
    assert _told(text) == expected


@pytest.mark.parametrize(
    ("text", "noted", "expected"),
    [
        (
            "Kestrel dug 6, 4 white 2 yellow, V5. also yesterdays ridge top was 8 plants not 6",
            "kestrel",
            ("ridge top", "plants", 8, 6, date(2026, 7, 8)),
        ),
        (
            "la tranquera saqué 6 con pala, 4 blancas 2 amarillas, V5. y lo de ayer de bajo grande eran 8 plantas no 6",
            "la tranquera",
            ("bajo grande", "plants", 8, 6, date(2026, 7, 8)),
        ),
        (
            "baixada cavei 7 com a pá, 5 brancas 3 amarelas, V4. e ontem na sede velha foram 6 plantas não 9",
            "baixada",
            ("sede velha", "plants", 6, 9, date(2026, 7, 8)),
        ),
    ],
)
def test_another_fields_note_is_put_right_beside_a_note(text: str, noted: str, expected: tuple[Any, ...]) -> None:
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert not reading.problems and [note.field for note in reading.notes] == [noted]
    (command,) = reading.commands
    assert tuple(command.args.get(key) for key in ("field", "what", "value", "old", "date")) == expected


def test_what_is_asked_behind_a_correction_is_asked() -> None:
    reading = read_note("tans on kestrel were 7 actually. what do i have left to look at", sent=SENT, fields=FIELDS)
    assert [command.kind for command in reading.commands] == ["correct", "due"] and not reading.notes


@pytest.mark.parametrize(
    "text",
    [
        "kestrel dug 6 not 5 like usual, 4 white",
        "kestrel 6 plants, white ones, not yellow",
        "kestrel dug 6 had 9 white on it",
        "no shovel, pulled 6 at kestrel, none",
        "kestrel was V5, not much rain yet, 6 plants none",
        "bajo grande sin blancas, 12 amarillas, 8 plantas",
        "baixada sem brancas, 12 amarelas, 8 plantas",
        "couldnt dig at kestrel, forgot the shovel, sorry!! will go thursday",
        "kestrel 6 plants 3 white, soil was wet not good for digging",
        "kestrel V5 now, was V3 last week, 5 plants none",
        "kestrel pulled not dug today, 6 plants, 3 white",
        "kestrel roots dark not white, 6 plants, 3 white",
    ],
)
def test_a_note_puts_nothing_right(text: str) -> None:
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert reading.notes and not any(command.kind == "correct" for command in reading.commands)
