"""Corrections in a writer's own words: a verb of changing, "should read", "I put ..", several at once, beside a note."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from notes_bot.language.reader import read_note

FIELDS = ("Kestrel", "Dry Creek", "Ridge Top", "La Tranquera", "Molino Viejo", "Santa Rita", "Baixada")
SENT = date(2026, 7, 8)


def _told(text: str, fields: tuple[str, ...] = FIELDS) -> list[tuple[Any, ...]]:
    """What is put right: field, what, value, old."""
    reading = read_note(text, sent=SENT, fields=fields)
    assert not reading.problems and not reading.notes
    assert {command.kind for command in reading.commands} == {"correct"}
    return [tuple(c.args.get(key) for key in ("field", "what", "value", "old")) for c in reading.commands]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("change the roots on Dry Creek to stubby", ("dry creek", "roots", ["stubby"], None)),
        ("chnge the roots on Dry Creek to stubby", ("dry creek", "roots", ["stubby"], None)),
        ("chang the soil at Kestrel to wet", ("kestrel", "moisture", "wet", None)),
        ("change the tops on Kestrel to wilted", ("kestrel", "tops", ["wilted"], None)),
        ("change the recheck at Kestrel to 10 days", ("kestrel", "look_again", {"days": 10}, None)),
        ("cambia las raíces de Molino Viejo a oscuras", ("molino viejo", "roots", ["dark"], None)),
        ("cambiá raíces en La Tranquera por oscuras", ("la tranquera", "roots", ["dark"], None)),
        ("muda as raízes da Baixada pra escuras", ("baixada", "roots", ["dark"], None)),
        ("spray on Dry Creek should read fungicide", ("dry creek", "spray", {"what": "fungicide"}, None)),
        ("the variety at Dry Creek should read Angel 44", ("dry creek", "variety", "Angel 44", None)),
    ],
)
def test_one_value_is_changed(text: str, expected: tuple[Any, ...]) -> None:
    assert _told(text) == [expected]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("variety on Kestrel is Morrow 31 not Morrow 13", ("kestrel", "variety", "Morrow 31", "Morrow 13")),
        ("Baixada: a cultivar é Angico 61, e não Angico 16.", ("baixada", "variety", "Angico 61", "Angico 16")),
        (
            "Kestrel was sprayd w fungicide, i put herbicide",
            ("kestrel", "spray", {"what": "fungicide"}, {"what": "herbicide"}),
        ),
        (
            "I wrote herbicide for Dry Creek but they put on fungicide",
            ("dry creek", "spray", {"what": "fungicide"}, {"what": "herbicide"}),
        ),
        (
            "Lo que aplicaron en La Tranquera fue fungicida, no herbicida; corregí la nota",
            ("la tranquera", "spray", {"what": "fungicide"}, {"what": "herbicide"}),
        ),
        (
            "Baixada: a aplicação foi de fungicida, eu coloquei herbicida",
            ("baixada", "spray", {"what": "fungicide"}, {"what": "herbicide"}),
        ),
        (
            "Kestrel tops = YOUNG leaves yellow btwn the veins, i wrote edges of the old leaves. fix pls",
            ("kestrel", "tops", ["interveinal_new"], ["edges_old"]),
        ),
        ("Kestrel tops: yellow patch not ring", ("kestrel", "tops", ["yellow", "patch"], ["ring"])),
        ("Kestrel roots were dark and stubby, I put white", ("kestrel", "roots", ["dark", "stubby"], ["white"])),
        ("Molino Viejo: eran 9 blancas, me equivoqué con 6", ("molino viejo", "white", 9, 6)),
        ("Baixada: foram 12 plantas, errei com 10", ("baixada", "plants", 12, 10)),
        ("Kestrel: the correct one is 12 plants, I put 10", ("kestrel", "plants", 12, 10)),
    ],
)
def test_a_value_stands_beside_the_one_written(text: str, expected: tuple[Any, ...]) -> None:
    assert _told(text) == [expected]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Dry Creek 8 plants not 6, and they were pulled not dug w shovel",
            [("dry creek", "plants", 8, 6), ("dry creek", "method", "pulled", "shovel")],
        ),
        (
            "uh the tan ones at Kestrel make that zero and make the brown ones four",
            [("kestrel", "tan", 0, None), ("kestrel", "brown", 4, None)],
        ),
        (
            "make the whites on Dry Creek ten and the tans two",
            [("dry creek", "white", 10, None), ("dry creek", "tan", 2, None)],
        ),
        (
            "Kestrel yellow should be 5 and white should be 8",
            [("kestrel", "yellow", 5, None), ("kestrel", "white", 8, None)],
        ),
        (
            "Baixada: o estádio correto é R5, e não R4; a cultivar é Angico 61, e não Angico 16.",
            [("baixada", "stage", "R5", "R4"), ("baixada", "variety", "Angico 61", "Angico 16")],
        ),
        (
            "Molino Viejo: cambiá las blancas a 14 y las plantas a 8",
            [("molino viejo", "white", 14, None), ("molino viejo", "plants", 8, None)],
        ),
    ],
)
def test_two_values_are_put_right(text: str, expected: list[tuple[Any, ...]]) -> None:
    assert _told(text) == expected


@pytest.mark.parametrize(
    ("text", "what", "day"),
    [
        ("In Tuesday's note on Kestrel, change the total to 22.", "total", date(2026, 7, 7)),
        ("On the Friday note for Kestrel fix plants to 22", "plants", date(2026, 7, 3)),
        ("En la nota del martes de Kestrel corregí el total a 22", "total", date(2026, 7, 7)),
        ("Na nota de terça-feira do Kestrel, corrija o total para 22.", "total", date(2026, 7, 7)),
    ],
)
def test_the_day_tells_which_note_is_meant(text: str, what: str, day: date) -> None:
    (command,) = read_note(text, sent=SENT, fields=FIELDS).commands
    assert (command.args["what"], command.args["value"], command.args["date"]) == (what, 22, day)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Kestrel yesterday three plants with the fork and eight females altogether "
            "and then for Dry Creek the yellow should be five",
            ("dry creek", "yellow", 5, None),
        ),
        ("Kestrel 6 pl 3 white. and on Dry Creek change the total to 22", ("dry creek", "total", 22, None)),
        (
            "Molino Viejo 6 plantas con pala 3 blancas. cambia el total de La Tranquera a 22",
            ("la tranquera", "total", 22, None),
        ),
        (
            "Baixada, visita de ontem: 8 plantas, pá, 4 brancas. Na nota de Santa Rita, corrija o prazo para olhar de "
            "novo: 7 dias, e não 14.",
            ("santa rita", "look_again", {"days": 7}, {"days": 14}),
        ),
    ],
)
def test_another_fields_value_is_changed_beside_a_note(text: str, expected: tuple[Any, ...]) -> None:
    reading = read_note(text, sent=SENT, fields=FIELDS)
    (note,), (command,) = reading.notes, reading.commands
    assert not reading.problems and note.outcome == "seen" and note.look_again is None and not note.mostly
    assert tuple(command.args.get(key) for key in ("field", "what", "value", "old")) == expected


def test_without_a_list_the_name_before_a_colon_is_the_field() -> None:
    text = "Canal Grande: fueron 12 plantas, me equivoque con 10"
    assert _told(text, fields=()) == [("canal grande", "plants", 12, 10)]


@pytest.mark.parametrize(
    "text",
    [
        "Molino Viejo: poné 6 plantas 3 blancas",
        "Baixada coloca 6 plantas 3 brancas",
        "Dry Creek make 5 plants 2 white",
        "I set 6 plants out to dry at Kestrel, 3 white",
        "Kestrel lower end 6 plants 3 white",
        "Kestrel set 6 plants aside, 3 white",
        "Kestrel sprayed herbicide and fungicide, 6 pl 3 white",
        "Molino Viejo aplicaron herbicida, no fungicida, 6 plantas 3 blancas",
        "Kestrel 6 pl 3 white. Dry Creek make it 5 plants 2 white",
        "Kestrel 6 plants roots dark and stubby not white, 3 white",
    ],
)
def test_a_note_changes_nothing(text: str) -> None:
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert reading.notes and not any(c.kind == "correct" and c.args.get("old") is None for c in reading.commands)


@pytest.mark.parametrize("text", ["make sure to look at Kestrel in 10 days", "Set Kestrel to look again in 10 days"])
def test_a_day_to_come_is_no_correction(text: str) -> None:
    (command,) = read_note(text, sent=SENT, fields=FIELDS).commands
    assert (command.kind, command.args["days"]) == ("move", 10)


@pytest.mark.parametrize("text", ["tak back Kestrel, i was standng in the wrong place", "tke back Kestrel"])
def test_a_misspelt_verb_takes_back(text: str) -> None:
    (command,) = read_note(text, sent=SENT, fields=FIELDS).commands
    assert (command.kind, command.args["field"]) == ("take_back", "kestrel")


def test_the_day_it_was_sent_is_no_day_of_a_visit() -> None:
    text = (
        "Una corrección de lo que mandé anoche: en La Tranquera las blancas eran 11 y no 17, leí mal mi propia letra."
    )
    (command,) = read_note(text, sent=SENT, fields=FIELDS).commands
    assert (command.args["value"], command.args["old"], command.args.get("date")) == (11, 17, None)


def test_an_excuse_is_no_field() -> None:
    reading = read_note("sorry, fat thumbs. make that 14 white not 41", sent=SENT)
    (command,) = reading.commands
    assert not reading.notes and command.args.get("field") is None and command.args["value"] == 14


@pytest.mark.parametrize(
    ("text", "kind", "args"),
    [
        ("scrap what i sent 4 Kestrel", "take_back", {"field": "kestrel"}),
        ("reminder 4 Kestrel in 3 days", "move", {"field": "kestrel", "days": 3}),
        ("number 2", "choose", {"number": 2}),
        ("opción 2", "choose", {"number": 2}),
        ("is 5 plants even enuf lol", "look_worth", {"plants": 5}),
        ("rotation Kestrel: corn, PI 88788, corn, Peking; eggs 1800", "rotation", {"field": "kestrel", "eggs": 1800}),
        ("Kestrel; pulled 8; yellow 11; white 0. Digest for the week", "digest", {"span": "week"}),
    ],
)
def test_what_is_asked_in_few_words(text: str, kind: str, args: dict[str, Any]) -> None:
    (command,) = read_note(text, sent=SENT, fields=FIELDS).commands
    assert command.kind == kind and {key: command.args.get(key) for key in args} == args


@pytest.mark.parametrize(
    ("text", "field"),
    [
        (
            "Kestrel six white on five plants it's V six and can you remind me about Dry Creek in three days",
            "dry creek",
        ),
        ("Kestrel 6 plants 3 white, please remind me of Dry Creek in 3 days", "dry creek"),
        ("Molino Viejo 6 plantas con pala 3 blancas y me podés recordar La Tranquera en 3 días", "la tranquera"),
        ("Baixada 6 plantas na pá 3 brancas e pode me lembrar da Santa Rita em 3 dias", "santa rita"),
    ],
)
def test_a_reminder_of_another_field_behind_a_note(text: str, field: str) -> None:
    reading = read_note(text, sent=SENT, fields=FIELDS)
    (note,), (command,) = reading.notes, reading.commands
    assert note.look_again is None and note.females.white
    assert (command.kind, command.args["field"], command.args["days"]) == ("move", field, 3)
