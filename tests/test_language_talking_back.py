"""Short answers to what was read: put right, put under another field, told of a field, or asked beside a note."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from tests.reading_kit import note_of, reading_of


def _commands(text: str) -> list[dict[str, Any]]:
    """What a message that tells no note asks, and nothing is asked back."""
    reading = reading_of(text)
    assert reading.problems == (), reading.problems
    assert reading.notes == (), reading.notes
    return [{"kind": c.kind, **{k: v for k, v in c.args.items() if v is not None}} for c in reading.commands]


def _right(what: str, value: Any, old: Any = None, field: str | None = None, **more: Any) -> dict[str, Any]:
    """A value put right, as its command."""
    told = {"field": field, "what": what, "value": value, "old": old, **more}
    return {"kind": "correct", **{key: told[key] for key in told if told[key] is not None}}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("oops no, 9 white, not what i just sent", _right("white", 9)),
        ("no wait 12 yellow, not what I said before", _right("yellow", 12)),
        ("scratch that, 9 white not what i told you", _right("white", 9)),
        ("wet, not what i wrote before", _right("moisture", "wet")),
        ("kestrel 7 white, not what i sent", _right("white", 7, field="kestrel")),
        ("la tranquera 8 blancas, no lo que mandé antes", _right("white", 8, field="la tranquera")),
        ("não, 6 plantas, não o que eu escrevi", _right("plants", 6)),
    ],
)
def test_what_is_so_stands_against_the_whole_note(text: str, expected: dict[str, Any]) -> None:
    assert _commands(text) == [expected]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("kestrel i pulled em, didnt dig. change that", _right("method", "pulled", "shovel", "kestrel")),
        ("dry creek: pulled them, did not dig. pls fix", _right("method", "pulled", "shovel", "dry creek")),
        ("kestrel we dug them, didnt pull. fix that", _right("method", "shovel", "pulled", "kestrel")),
        ("i didnt pull the kestrel plants i dug em", _right("method", "shovel", "pulled", "kestrel")),
        ("la tranquera las saqué con pala, no las arranqué", _right("method", "shovel", "pulled", "la tranquera")),
        ("kestrel we soaked the roots, note says we didnt", _right("soaked", True, False, "kestrel")),
    ],
)
def test_how_it_was_done_stands_against_how_it_was_not(text: str, expected: dict[str, Any]) -> None:
    assert _commands(text) == [expected]


@pytest.mark.parametrize(
    ("text", "females"),
    [("kestrel pulled 5, didnt dig, 3 white", 3), ("kestrel pulled 6 plants didnt dig any, none", 0)],
)
def test_a_note_tells_that_nobody_dug(text: str, females: int) -> None:
    note = note_of(text)
    assert (note.method, note.females.total) == ("pulled", females)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "mondays visit to kestrel: white 16 please, it says 6",
            _right("white", 16, 6, "kestrel", date=date(2026, 7, 6)),
        ),
        (
            "yesterdays look at dry creek: brown 2 please, you have 12",
            _right("brown", 2, 12, "dry creek", date=date(2026, 7, 7)),
        ),
        ("kestrel says 6 white, make it 16", _right("white", 16, 6, "kestrel")),
        ("bajo grande: plantas 8, dice 18", _right("plants", 8, 18, "bajo grande")),
        (
            "a visita de ontem na baixada: 16 brancas, aí diz 6",
            _right("white", 16, 6, "baixada", date=date(2026, 7, 7)),
        ),
        (
            "kestrel note from yesterday, make that 7 plants",
            _right("plants", 7, None, "kestrel", date=date(2026, 7, 7)),
        ),
    ],
)
def test_what_the_note_says_is_the_old_value(text: str, expected: dict[str, Any]) -> None:
    assert _commands(text) == [expected]


@pytest.mark.parametrize(
    ("text", "new", "old"),
    [
        ("note i filed under dry creek belongs to north forty", "north forty", "dry creek"),
        ("count i logged for kestrel belongs with dry creek", "dry creek", "kestrel"),
        ("filed under kestrel by mistake, belongs to dry creek", "dry creek", "kestrel"),
        ("not kestrel, dry creek", "dry creek", "kestrel"),
        ("lo que anoté en la tranquera va en bajo grande", "bajo grande", "la tranquera"),
        ("não era baixada, era cancela", "cancela", "baixada"),
    ],
)
def test_a_note_belongs_to_another_field(text: str, new: str, old: str) -> None:
    assert _commands(text) == [_right("field", new, old)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Nope. Variety in my kestrel note is wrong. Its Brown Kettle. Not Gray Wren.",
            _right("variety", "Brown Kettle", "Gray Wren", "kestrel"),
        ),
        ("kestrel variety is brown kettle not gray wren", _right("variety", "brown kettle", "gray wren", "kestrel")),
        ("kestrel variety should be Dusty Plum", _right("variety", "Dusty Plum", None, "kestrel")),
        (
            "change variety at kestrel from Gray Wren to Dusty Plum",
            _right("variety", "Dusty Plum", "Gray Wren", "kestrel"),
        ),
        (
            "la variedad de la tranquera es Loma Parda, no Garza Gris",
            _right("variety", "Loma Parda", "Garza Gris", "la tranquera"),
        ),
        (
            "a variedade da baixada é Serra Parda, não Garça Cinza",
            _right("variety", "Serra Parda", "Garça Cinza", "baixada"),
        ),
        (
            "variety at kestrel is Dusty Plum, susceptible, put that in for the field",
            {"kind": "field", "name": "kestrel", "variety": "Dusty Plum", "resistance": "susceptible"},
        ),
        (
            "anotá que la variedad de bajo grande es Loma Parda",
            {"kind": "field", "name": "bajo grande", "variety": "Loma Parda"},
        ),
    ],
)
def test_a_variety_is_named_by_plain_words(text: str, expected: dict[str, Any]) -> None:
    assert _commands(text) == [expected]


@pytest.mark.parametrize(
    ("text", "field", "what", "value"),
    [
        ("corrijan mi nota de la tranquera porfa, las raíces estaban oscuras", "la tranquera", "roots", ["dark"]),
        ("arreglá la nota de la tranquera: las hojas estaban amarillas", "la tranquera", "tops", ["yellow"]),
        ("my kestrel note needs fixing, roots were dark", "kestrel", "roots", ["dark"]),
        ("corrijam a nota da baixada, o solo tava seco", "baixada", "moisture", "dry"),
    ],
)
def test_a_note_is_to_be_put_right_and_one_value_is_so(text: str, field: str, what: str, value: Any) -> None:
    assert _commands(text) == [_right(what, value, None, field)]


@pytest.mark.parametrize(
    "text",
    [
        "the 6 white at kestrel should be yellow",
        "kestrel whites were really yellows",
        "as 6 brancas da baixada eram amarelas",
        "kestrel white and yellow got swapped",
        "add 2 tan to dry creek",
        "missed 2 brown at kestrel",
        "faltaron 2 marrones en bajo grande",
        "soma 2 marrons na baixada",
    ],
)
def test_colors_whose_numbers_are_not_told_are_asked_about(text: str) -> None:
    reading = reading_of(text)
    assert [problem.kind for problem in reading.problems] == ["no_change"]
    assert not reading.notes and not reading.commands


@pytest.mark.parametrize(
    ("text", "name", "near"),
    [
        ("add a field plz: Badger Flat, by Kestrel", "badger flat", "kestrel"),
        ("can you add a field Badger Flat by Kestrel", "badger flat", "kestrel"),
        ("add a field please, Stone Lot", "stone lot", None),
        ("agregá un lote: Los Ceibos, al lado de La Tranquera", "los ceibos", "la tranquera"),
    ],
)
def test_a_new_field_lies_by_another(text: str, name: str, near: str | None) -> None:
    assert _commands(text) == [{"kind": "field", "name": name} | ({"near": near} if near else {})]


@pytest.mark.parametrize(
    ("text", "alias"),
    [
        ("we call dry creek the wash too", "wash"),
        ("the guys call dry creek home place too", "home place"),
        ("dry creek is also known as Home Place", "home place"),
    ],
)
def test_a_second_name_is_told_whole(text: str, alias: str) -> None:
    assert _commands(text) == [{"kind": "field", "name": "dry creek", "alias": alias}]


@pytest.mark.parametrize(
    "text",
    [
        "kestrel dug 6, none, V3. next look 2 wks. what can i ask you anyway, help",
        "kestrel dug 6, none, V3. help",
        "la tranquera cavé 6, ninguna. qué te puedo preguntar? ayuda",
        "baixada cavei 6, nenhuma. o que dá pra pedir",
    ],
)
def test_help_is_asked_behind_a_note(text: str) -> None:
    reading = reading_of(text)
    assert [note.outcome for note in reading.notes] == ["none_seen"]
    assert [command.kind for command in reading.commands] == ["help"]


@pytest.mark.parametrize(
    "text", ["kestrel dug 6, none, jim came to help", "kestrel dug 6 none. need help getting the gate open"]
)
def test_help_had_is_no_help_asked_for(text: str) -> None:
    assert note_of(text).plants == 6


@pytest.mark.parametrize(
    ("text", "seen", "again"),
    [
        ("La Tranquera 6 plantas, 2 blancas. Reviso jueves", None, date(2026, 7, 9)),
        ("Baixada 6 plantas 2 brancas. Reviso quinta", None, date(2026, 7, 9)),
        ("revisé La Tranquera el jueves, 6 plantas 2 blancas", date(2026, 7, 2), None),
    ],
)
def test_a_look_to_come_is_no_day_of_the_visit(text: str, seen: date | None, again: date | None) -> None:
    note = note_of(text)
    assert note.date == seen
    assert (note.look_again and note.look_again.date) == again


@pytest.mark.parametrize(
    ("text", "field", "white", "yellow"),
    [
        ("my kestrel numbers were backwards, 4 white 12 yellow", "kestrel", 4, 12),
        ("es al revés, 4 blancas y 12 amarillas en la tranquera", "la tranquera", 4, 12),
    ],
)
def test_colors_told_the_other_way_round(text: str, field: str, white: int, yellow: int) -> None:
    assert _commands(text) == [_right("white", white, None, field), _right("yellow", yellow, None, field)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("kestrel had no brown, i put 3", _right("brown", 0, 3, "kestrel")),
        ("en bajo grande no hay marrones, puse 3", _right("brown", 0, 3, "bajo grande")),
        ("na baixada não tinha marrom, coloquei 3", _right("brown", 0, 3, "baixada")),
        ("make dry creek moist", _right("moisture", "moist", None, "dry creek")),
        ("the white count at kestrel, change it to 5", _right("white", 5, None, "kestrel")),
        ("poné en bajo grande que fue con pala", _right("method", "shovel", None, "bajo grande")),
        ("chg Kestrel plts 6 > 5", _right("plants", 5, 6, "kestrel")),
        ("cambia la etapa de bajo grande de R3 a R4", _right("stage", "R4", "R3", "bajo grande")),
        ("corregime la tranquera: blancas 9 no, son 11", _right("white", 11, 9, "la tranquera")),
        ("You have Kestrel at nine white. It was nineteen.", _right("white", 19, 9, "kestrel")),
        ("my last text had the wrong date. i was there yesterday", _right("date", date(2026, 7, 7))),
        ("a data da baixada tá errada, foi ontem", _right("date", date(2026, 7, 7), None, "baixada")),
        ("wrong name, i meant Kestrel", _right("field", "kestrel")),
        ("olvidé decir que la tranquera estaba en R3", _right("stage", "R3", None, "la tranquera")),
        ("recheck date for kestrel should be the 20th", _right("look_again", {"date": "2026-07-20"}, None, "kestrel")),
        ("i double counted at kestrel, real number is 9 white", _right("white", 9, None, "kestrel")),
        ("i want to see kestrel again in 2 wks not 3", _right("look_again", {"days": 14}, None, "kestrel")),
        ("cambiame el día de bajo grande, fue el domingo", _right("date", date(2026, 7, 5), None, "bajo grande")),
        (
            "kestrel is peking i think, not 88788",
            {"kind": "field", "name": "kestrel", "source": "Peking", "resistance": "resistant"},
        ),
        ("oops undo", {"kind": "take_back"}),
    ],
)
def test_one_thing_is_put_right(text: str, expected: dict[str, Any]) -> None:
    assert _commands(text) == [expected]


def test_a_no_that_may_be_of_either_number_is_asked_about() -> None:
    reading = reading_of("blancas 9 no son 11")
    assert [problem.kind for problem in reading.problems] == ["no_change"] and not reading.commands


@pytest.mark.parametrize(
    ("text", "plants"),
    [
        ("sorry its late, kestrel 6 plants 2 white", 6),
        ("kestrel 6 plants 2 white, not what i expected", 6),
        ("my note for kestrel: 6 plants 2 white", 6),
        ("i put flags at kestrel, 6 plants 2 white", 6),
    ],
)
def test_a_note_puts_nothing_right(text: str, plants: int) -> None:
    note = note_of(text)
    assert (note.plants, note.females.white) == (plants, 2)


def test_a_visit_that_was_to_be_is_no_day_of_the_note() -> None:
    assert not reading_of("i said id go thursday but kestrel is too wet").commands
