"""What is asked, put right or told of a field beside a note, or in the writer's own words: the kinds most often lost."""

from __future__ import annotations

from typing import Any

import pytest

from notes_bot.language import read_note
from notes_bot.model import Reading
from tests.reading_kit import SENT, reading_of


def _asked(reading: Reading) -> list[dict[str, Any]]:
    return [{"kind": c.kind, **{k: v for k, v in c.args.items() if v is not None}} for c in reading.commands]


def _plainly(text: str) -> list[dict[str, Any]]:
    """What a message that tells no note asks, days as written, and nothing asked back."""
    reading = reading_of(text)
    assert reading.problems == (), reading.problems
    assert reading.notes == (), reading.notes
    return [{k: str(v) if k == "date" else v for k, v in row.items()} for row in _asked(reading)]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Kestrel is in Minnesota btw, about 38 acres", {"name": "kestrel", "place": "minnesota", "acres": 38.0}),
        ("Kestrel is over in Minnesota, not Iowa", {"name": "kestrel", "place": "minnesota"}),
        ("fyi Kestrel is a Missouri field", {"name": "kestrel", "place": "missouri"}),
        ("La Tranquera queda en Missouri, 40 acres", {"name": "la tranquera", "place": "missouri", "acres": 40.0}),
        ("Cancela fica em Goiás, viu", {"name": "cancela", "place": "goiás"}),
        ("new field Pigeon Run in Nebraska, 65 ac", {"name": "pigeon run", "place": "nebraska", "acres": 65.0}),
        ("add field Turkey Foot, Illinois, 40 acres", {"name": "turkey foot", "place": "illinois", "acres": 40.0}),
    ],
)
def test_the_state_of_a_field_is_told_with_it(text: str, told: dict[str, Any]) -> None:
    assert _plainly(text) == [{"kind": "field", **told}]


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("We're all in Iowa, in case that changes what you tell us.", "iowa"),
        ("the whole crew works in Illinois", "illinois"),
        ("la cuadrilla está en Iowa", "iowa"),
        ("estamos todos em Goiás", "goiás"),
    ],
)
def test_where_the_crew_works(text: str, place: str) -> None:
    assert _plainly(text) == [{"kind": "place", "place": place}]


def test_a_truck_is_no_state() -> None:
    assert reading_of("We're in the truck").commands == ()


@pytest.mark.parametrize(
    "text",
    [
        "Talhão novo Pau Ferro perto da Baixada, latitude 40.21 longitude -89.55",
        "talhão novo: Pau Ferro, perto da Baixada, 40.21, -89.55",
    ],
)
def test_coordinates_of_a_new_field_are_not_of_the_one_near_by(text: str) -> None:
    where = {"latitude": 40.21, "longitude": -89.55, "near": "baixada"}
    assert _plainly(text) == [{"kind": "field", "name": "pau ferro", **where}]


@pytest.mark.parametrize(
    ("text", "name", "alias"),
    [
        (
            "My grandson writes Mill when he means Old Mill East, let that count as the same one.",
            "old mill east",
            "mill",
        ),
        ("when Bill says Forty he means North Forty", "north forty", "forty"),
        ("if you see Forty from the boys, that is North Forty", "north forty", "forty"),
        ("the guys put Forty for North Forty", "north forty", "forty"),
        ("everybody here just says Forty for North Forty, can you add that as a second name", "north forty", "forty"),
        ("A Bajo Grande la cuadrilla le dice Chiquita; anótelo como segundo nombre.", "bajo grande", "chiquita"),
        ("A Baixada a turma chama de Buracão; anota como segundo nome", "baixada", "buracão"),
    ],
)
def test_a_second_name_by_who_says_it(text: str, name: str, alias: str) -> None:
    assert _plainly(text) == [{"kind": "field", "name": name, "alias": alias}]


def test_one_field_put_for_another_is_no_second_name() -> None:
    assert _plainly("I wrote Kestrel when I meant Dry Creek")[0]["kind"] == "correct"


@pytest.mark.parametrize(
    ("text", "field", "what", "value"),
    [
        ("oh and at dry creek i left off the tan ones, there were 5 tan", "dry creek", "tan", 5),
        ("i left the tans off at dry creek, 5 tan", "dry creek", "tan", 5),
        ("I didn't write down the browns at Kestrel, 2 brown", "kestrel", "brown", 2),
        ("en bajo grande me comí las marrones, eran 3 marrones", "bajo grande", "brown", 3),
        ("na Baixada esqueci as marrons, eram 3", "baixada", "brown", 3),
        ("kestrel: 11 yellow, autocorrect got me", "kestrel", "yellow", 11),
        ("Baixada: 11 amarelas, o corretor trocou", "baixada", "yellow", 11),
    ],
)
def test_a_color_left_off_or_mistyped(text: str, field: str, what: str, value: int) -> None:
    assert _plainly(text) == [{"kind": "correct", "field": field, "what": what, "value": value}]


def test_what_is_left_out_and_to_be_added_is_asked() -> None:
    assert [p.kind for p in reading_of("left out 3 brown at kestrel").problems] == ["no_change"]


@pytest.mark.parametrize(
    "text",
    ["forgot the shovel at kestrel, pulled 5, 3 tan", "Kestrel 5 plants, i forgot the bucket, 3 tan"],
)
def test_a_tool_forgotten_puts_nothing_right(text: str) -> None:
    reading = reading_of(text)
    assert reading.commands == ()
    assert reading.notes[0].females.tan == 3


@pytest.mark.parametrize(
    ("text", "now"),
    [
        ("Kestrel wasn't soaked, I said it was", False),
        ("i said kestrel was soaked, it wasnt", False),
        ("I said Kestrel roots were washed, they weren't", False),
        ("i put that kestrel wasn't soaked but it was", True),
        ("Kestrel was soaked, I said it wasn't", True),
        ("Bajo Grande no estaba lavado, puse que sí", False),
        ("eu disse que a Baixada foi lavada, não foi", False),
    ],
)
def test_so_or_not_so(text: str, now: bool) -> None:
    right = _plainly(text)
    assert [(row["what"], row["value"], row["old"]) for row in right] == [("soaked", now, not now)]


@pytest.mark.parametrize(
    ("text", "right", "field"),
    [
        (
            "roots at dry creek were dark not white, blame my sunglasses. kestrel today 5 eased out, none",
            ("dry creek", "roots", ["dark"], ["white"]),
            "kestrel",
        ),
        (
            "dry creek i used the spade, didnt pull them like i wrote, mb. kestrel today 6 plants, 4 white",
            ("dry creek", "method", "shovel", "pulled"),
            "kestrel",
        ),
        (
            "las raíces en Bajo Grande eran oscuras, no blancas. La Tranquera hoy 6 plantas 3 blancas",
            ("bajo grande", "roots", ["dark"], ["white"]),
            "la tranquera",
        ),
    ],
)
def test_put_right_before_the_note_of_another_field(text: str, right: tuple[Any, ...], field: str) -> None:
    reading = reading_of(text)
    assert reading.problems == ()
    assert [tuple(c.args[k] for k in ("field", "what", "value", "old")) for c in reading.commands] == [right]
    assert [note.field for note in reading.notes] == [field]


def test_several_values_in_one_breath() -> None:
    text = "Kestrel. I wrote 9 white, make that 19, and 6 plants where I put 5. These buttons are too small."
    assert [(row["what"], row["value"], row["old"]) for row in _plainly(text)] == [("white", 19, 9), ("plants", 6, 5)]
    text = "Kestrel - soil was moist, I put dry. and tan is 3"
    assert [(row["what"], row["value"]) for row in _plainly(text)] == [("moisture", "moist"), ("tan", 3)]


def test_a_note_behind_a_wrong_map_puts_nothing_right() -> None:
    reading = reading_of("map is wrong on kestrel, its clay loam. 5 dug 2 white")
    assert reading.commands == ()
    assert (reading.notes[0].plants, reading.notes[0].females.white) == (5, 2)


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel R2, roots dark not white",
        "Bajo Grande raíces oscuras, no blancas, R2",
        "Kestrel nodules pink not white, R3",
    ],
)
def test_a_color_that_roots_do_not_have_is_no_finding(text: str) -> None:
    assert reading_of(text).notes[0].outcome is None


def test_no_white_females_beside_roots_is_a_finding() -> None:
    assert reading_of("Kestrel 5 plants, roots dark, no white").notes[0].outcome == "none_seen"


@pytest.mark.parametrize(
    ("text", "move"),
    [
        (
            "kestrel 8 dug 5 w. cant get to dry creek till thursday, nudge me then",
            {"field": "dry creek", "date": "2026-07-09"},
        ),
        (
            "Kestrel 5 pulled, not one cyst. I can't get in Dry Creek before the 24th, so remind me of that one then.",
            {"field": "dry creek", "date": "2026-07-24"},
        ),
        ("kestrel 6 pl none. remind me dry creek in 4 days", {"field": "dry creek", "days": 4}),
        (
            "Bajo Grande 4 plantas, 1 blanca. no llego a La Tranquera con esta lluvia, recordame el viernes",
            {"field": "la tranquera", "date": "2026-07-10"},
        ),
    ],
)
def test_a_reminder_of_another_field_behind_a_note(text: str, move: dict[str, Any]) -> None:
    reading = reading_of(text)
    assert len(reading.notes) == 1
    assert reading.notes[0].look_again is None
    rows = [{k: str(v) if k == "date" else v for k, v in row.items()} for row in _asked(reading)]
    assert rows == [{"kind": "move", **move}]


def test_everything_is_put_off() -> None:
    text = "rained out all day so put everything off to Monday would you"
    assert _plainly(text) == [{"kind": "move", "date": "2026-07-13", "all": True}]


@pytest.mark.parametrize(
    ("text", "type_", "date"),
    [
        ("Kestrel came back HG 1.2.5.7. I'd have bet on plain 2.", "1.2.5.7", None),
        ("Kestrel HG type 0. I'd have said 2.5.7.", "0", None),
        ("Kestrel HG 2.5.7, result of 6/3", "2.5.7", "2026-06-03"),
        ("O tipo HG da Baixada deu 1.2.3, vamos ter que conversar sobre semente.", "1.2.3", None),
    ],
)
def test_the_type_that_was_named(text: str, type_: str, date: str | None) -> None:
    (row,) = _plainly(text)
    assert (row["kind"], row["type"], row.get("date")) == ("hg", type_, date)


def test_having_to_is_no_tuesday() -> None:
    assert reading_of("Baixada 5 plantas nenhuma. vamos ter que voltar").notes[0].look_again is None


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        (
            "Kestrel lab says 5,200 eggs per 100 cc, yikes. And what rotation would you run on Dry Creek?",
            ["lab", "rotation"],
        ),
        ("Kestrel 1800 eggs per cup. Mute Dry Creek please.", ["lab", "mute"]),
        ("What rotation would you run on Dry Creek? Kestrel lab says 5,200 eggs per 100 cc.", ["rotation", "lab"]),
    ],
)
def test_a_result_and_a_question_of_another_field(text: str, kinds: list[str]) -> None:
    rows = _plainly(text)
    assert [row["kind"] for row in rows] == kinds
    assert {row["kind"]: row["field"] for row in rows}["lab"] == "kestrel"
    assert {row["field"] for row in rows} == {"kestrel", "dry creek"}


def test_a_question_without_a_list_of_fields_takes_no_result() -> None:
    text = "Hobbs lab says 5,200 eggs per 100 cc, yikes. And what rotation would you run on Marlow?"
    reading = read_note(text, sent=SENT)
    assert [(c.kind, c.args["field"]) for c in reading.commands] == [("lab", "hobbs"), ("rotation", "marlow")]


def test_what_a_look_was_worth_with_how_it_was_done() -> None:
    worth = {"kind": "look_worth", "method": "pulled", "plants": 3, "field": "baixada"}
    assert _plainly("quanto valeu minha olhada na Baixada? foram só 3 plantas arrancadas na mão") == [worth]


def test_help_behind_a_note() -> None:
    reading = reading_of(
        "got 3 whites on 5 plants at kestrel!! first ones ever :) whats all the stuff i can text you btw"
    )
    assert [c.kind for c in reading.commands] == ["help"]
    assert reading.notes[0].females.white == 3


@pytest.mark.parametrize(
    "text",
    [
        "going to Kestrel after dinner. how many plants would i want for 90 percent",
        "voy a Kestrel después de comer. ¿cuántas plantas para 90%?",
    ],
)
def test_how_many_where_somebody_is_going(text: str) -> None:
    assert _plainly(text) == [{"kind": "look_plan", "percent": 90, "field": "kestrel"}]


@pytest.mark.parametrize(
    "text", ["Kestrel 5 pulled none. pic of Dry Creek?", "Bajo Grande 5 plantas ninguna. foto de La Tranquera?"]
)
def test_a_picture_is_asked_for_behind_a_note(text: str) -> None:
    assert [c.kind for c in reading_of(text).commands] == ["picture"]


def test_a_picture_handed_over_is_not_asked_for() -> None:
    reading = reading_of("here's a pic of Kestrel. 5 plants none")
    assert reading.commands == ()
    assert (reading.notes[0].field, reading.notes[0].plants) == ("kestrel", 5)


@pytest.mark.parametrize(
    "text",
    [
        "half my count was tan not brown",
        "Kestrel half the white were yellow",
        "metade das brancas da Baixada eram amarelas",
    ],
)
def test_a_share_of_a_color_put_right_is_asked_back(text: str) -> None:
    reading = reading_of(text)
    assert reading.notes == ()
    assert [p.kind for p in reading.problems] == ["no_change"]


@pytest.mark.parametrize(
    "text",
    [
        "Gosh, my Kestrel note had the wrong day on it, that look was 6/16 not 6/17",
        "wrong day on Kestrel, that look was 6/16 not 6/17",
    ],
)
def test_the_day_of_a_look_that_has_been(text: str) -> None:
    (row,) = _plainly(text)
    assert (row["what"], str(row["value"]), str(row["old"])) == ("date", "2026-06-16", "2026-06-17")


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel 4 plants pulled: 3 0 2 1",
        "Bajo Grande 4 plantas sacadas con pala: 3, 0, 2, 1",
        "La Tinaja 4 arrancadas a mano: 3, 0, 2, 1 hembras por planta",
    ],
)
def test_plants_counted_before_how_they_were_dug(text: str) -> None:
    fields = () if "Tinaja" in text else ("Kestrel", "Bajo Grande")
    reading = read_note(text, sent=SENT, fields=fields)
    assert reading.problems == ()
    assert [(n.plants, n.per_plant) for n in reading.notes] == [(4, (3, 0, 2, 1))]
    assert reading.notes[0].field in ("kestrel", "bajo grande", "la tinaja")


@pytest.mark.parametrize("text", ["everything is dry, move the truck friday", "put everything in the bucket on friday"])
def test_everything_spoken_of_is_not_everything_put_off(text: str) -> None:
    assert not any(c.args.get("all") for c in reading_of(text).commands)


def test_held_messages_let_through_and_refused() -> None:
    kinds = [("release", 8), ("refuse", 9)]
    assert [(r["kind"], r["number"]) for r in _plainly("Suelta el mensaje 8 y rechaza el 9")] == kinds


def test_places_in_words_before_what_is_asked() -> None:
    (row,) = _plainly("Pulled plants, moist loam, three places: how many at Kestrel to be 95% sure?")
    assert (row["kind"], row["places"], row["percent"]) == ("look_plan", 3, 95)


def test_what_one_would_do_puts_nothing_right() -> None:
    assert reading_of("I said I would soak Kestrel, I didn't").commands == ()


def test_a_forgotten_thing_is_no_color_left_off() -> None:
    assert reading_of("forgot my glasses at Kestrel, 3 yellow ones I think").notes[0].females.yellow == 3
