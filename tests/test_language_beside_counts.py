"""What stands beside a count and counts nothing, headings above lines of fields, and fields gone on to on the way."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from notes_bot.language.reader import read_note
from notes_bot.language.score import told_by

SENT = date(2026, 7, 23)
FIELDS = ("Kestrel", "Tinkers", "Depot", "Hobnail", "Ridge", "Seven Oaks")


def told(text: str) -> tuple[dict[str, Any], list[str], list[str]]:
    """What is read, note by note, with its questions and the kinds of what is asked."""
    reading = read_note(text, sent=SENT, fields=FIELDS)
    kinds = [command.kind for command in reading.commands]
    return dict(told_by(reading)), [problem.kind for problem in reading.problems], kinds


ONE_COUNT = (
    "Kestrel 10 plants dug, 6 white (4 of them on a single plant).",
    "Kestrel 10 plants dug, 6 white, four of those on one plant.",
    "Kestrel 10 plants dug, 6 white - 4 of which on the same plant",
    "Kestrel 10 plants dug, 6 white, most of them on one plant.",
    "Kestrel 10 plants dug, 6 white, all on one plant.",
    "Kestrel 10 plants dug, 6 white (4 from just one plant)",
    "Kestrel 10 plants dug, 6 white (four were on the plant by the gate).",
    "Kestrel 10 plants dug, 6 white. Two of them turned out to be specks of dirt.",
    "Kestrel 10 plants dug, 6 white. One of them was half dead.",
    "Kestrel 10 plants dug, 6 white and nothing more.",
    "Kestrel 10 plants dug, 6 white but nothing beyond that.",
    "Kestrel 10 plants dug, 6 white. It took a while to get the roots clean.",
    "Kestrel: 10 plants dug, 6 white. On 6/30 it was 9 white on the same number.",
    "Kestrel: 10 plants dug, 6 white. Back on June 30 there were 9 white.",
    "Kestrel: 10 plants dug, 6 white. On Monday it had none.",
    "Kestrel: 10 plants dug, 6 white. At my visit in June I only had one female on ten plants.",
    "Kestrel: 10 plants dug, 6 white. On our June visit we dug 8 plants and found none.",
    "Kestrel: 10 plants dug, 6 white. Last week we dug 6 plants there and had 2 white.",
    "Kestrel: 10 plants dug, 6 white. I hope to do Kestrel properly once the fair is over.",
    "Kestrel: 10 plants dug, 6 white.\nSo the resistance still seems to do its work, to my mind.",
    "Kestrel: 10 plants dug, 6 white.\nHarvest starts Monday, so these are my last for the year.",
    "Kestrel: 10 plants dug, 6 white. I told the grower to work that corner last and to wash down after it.",
    "Kestrel: 10 plants dug, 6 white. Compared with last August, that is a good result for the new rotation.",
    "lote Kestrel 10 plantas con pala, 6 blancas. Le dije al dueño que lave la pala.",
    "talhão Kestrel 10 plantas com pá, 6 brancas. Falei pra ele lavar a pá.",
    "lote Kestrel 10 plantas con pala, 6 blancas (4 de ellas en una sola planta)",
    "lote Kestrel 10 plantas con pala, 6 blancas. Dos de ellas parecían tierra.",
    "lote Kestrel 10 plantas con pala, 6 blancas. El 30/6 había 9 blancas en el mismo número.",
    "lote Kestrel 10 plantas con pala, 6 blancas. En mi visita de junio tenía una sola hembra en diez plantas.",
    "talhão Kestrel 10 plantas com pá, 6 brancas (4 delas numa planta só)",
    "talhão Kestrel 10 plantas com pá, 6 brancas. Duas delas pareciam terra.",
    "talhão Kestrel 10 plantas com pá, 6 brancas. No dia 30/6 tinha 9 brancas.",
)


@pytest.mark.parametrize("text", ONE_COUNT)
def test_beside_a_count_nothing_is_counted(text: str) -> None:
    found, asks, kinds = told(text)
    assert (asks, kinds) == ([], [])
    assert "note 1.field" not in found
    assert (found["note 0.plants"], found["note 0.females.white"], found["note 0.females.total"]) == (10, 6, 6)
    assert (found["note 0.method"], found.get("note 0.date")) == ("shovel", None)


def test_some_of_the_plants_are_still_counted() -> None:
    found, asks, _ = told("Kestrel 10 plants dug. Two of them had 3 white.")
    assert (asks, found["note 0.plants"], found["note 0.females.white"]) == ([], 10, 3)


HEADINGS = (
    "whole south loop done today, R3 everywhere, five plants dug per field, roots not washed.",
    "all of the west loop, today, R3, five plants each with the spade, not washed",
    "Today's fields, all R3, five plants dug out in every one, not washed.",
    "the fields of today, all at R3, 5 plants dug in each field, roots unwashed.",
)


@pytest.mark.parametrize("heading", HEADINGS)
def test_a_heading_tells_of_all_fields_below(heading: str) -> None:
    found, asks, _ = told(f"{heading}\nKestrel none\nTinkers 2 white\nDepot 7 white 1 yellow")
    assert asks == []
    assert "note 3.field" not in found
    for n, total in enumerate((0, 2, 8)):
        parts = ("date", "stage", "plants", "method", "soaked", "females.total")
        values = [found.get(f"note {n}.{part}") for part in parts]
        assert values == ["2026-07-23", "R3", 5, "shovel", False, total], n


def test_a_field_spoken_of_below_its_line_is_no_other_note() -> None:
    lines = "Kestrel: 1 white\nDepot: 5 white\nNothing to get excited over besides Depot, which had none in June."
    found, asks, _ = told(f"all R3, four plants eased out in every one.\n{lines}")
    assert (asks, found.get("note 2.field")) == ([], None)
    assert [found[f"note {n}.plants"] for n in (0, 1)] == [4, 4]


THREE = "Kestrel: 6 plants dug, 4 white. Tinkers: 6 plants dug, none. Depot: 6 dug none."


@pytest.mark.parametrize(
    "text",
    [
        "They are all at R3.",
        "They're all R3.",
        "These were all R3, I think.",
        "The three are all at R3 and green.",
        "All three are R3.",
    ],
)
def test_told_of_all_of_them(text: str) -> None:
    found, asks, _ = told(f"{THREE} {text}")
    assert asks == []
    assert [found.get(f"note {n}.stage") for n in range(3)] == ["R3"] * 3


def test_told_of_two_named_is_not_of_the_third() -> None:
    text = "Kestrel: 6 dug, none.\nTinkers: gate was locked, did not look.\nDepot: 6 dug, 4 white.\n"
    found, asks, _ = told(f"{text}Kestrel and Depot are both V7.")
    assert (asks, [found.get(f"note {n}.stage") for n in range(3)]) == ([], ["V7", None, "V7"])


@pytest.mark.parametrize(
    "text",
    [
        "No females in any of them except Tinkers, where I had 2 white.",
        "Nothing anywhere but Tinkers, which had 2 white.",
        "None in any but Tinkers (2 white).",
        "Clean apart from Tinkers: 2 white.",
    ],
)
def test_none_but_in_one_of_them(text: str) -> None:
    found, asks, _ = told(f"I dug 6 plants each in Kestrel, Tinkers, Depot and Hobnail. {text}")
    assert asks == []
    names = [found.get(f"note {n}.field") for n in range(5)]
    assert names == ["kestrel", "tinkers", "depot", "hobnail", None]
    assert [found[f"note {n}.females.total"] for n in range(4)] == [0, 2, 0, 0]
    assert [found[f"note {n}.plants"] for n in range(4)] == [6] * 4


@pytest.mark.parametrize(
    "text",
    [
        "Then across the lane to Ridge, where it was a different story: 6 plants dug had 4 white.",
        "Then over the road to Ridge, 6 plants dug, 4 white.",
        "From there across the creek to Ridge where I dug 6 plants and found 4 white.",
        "Next down the road at Ridge, which was worse: 6 plants dug, 4 white.",
    ],
)
def test_a_field_gone_on_to_across_the_way(text: str) -> None:
    found, asks, _ = told(f"I did Seven Oaks. 6 plants dug, none. {text}")
    assert asks == []
    names = [found.get(f"note {n}.field") for n in range(3)]
    assert names == ["seven oaks", "ridge", None]
    assert [found[f"note {n}.females.total"] for n in range(2)] == [0, 4]
    assert [found[f"note {n}.plants"] for n in range(2)] == [6, 6]


def test_the_same_number_is_of_plants() -> None:
    found, asks, _ = told("Kestrel dug 6, 3 white. Tinkers, same number and same spade, had no females at all.")
    assert (asks, found["note 1.plants"], found["note 1.females.total"]) == ([], 6, 0)


def test_a_check_strip_only_mentioned_is_no_place() -> None:
    above = "Kestrel, resistant, and I had them leave a susceptible check strip along the fence."
    lines = "East half: 4 plants, 3 white\nWest half: 4 plants, 2 white\nCheck strip: 4 plants, 31 white"
    found, asks, _ = told(f"{above}\n{lines}")
    assert (asks, found["note 0.plants"], found["note 0.females.total"]) == ([], 8, 5)
    names = [found.get(f"note 0.spots {n}.name") for n in range(4)]
    assert names == ["east half", "west half", "check strip", None]


def test_a_name_told_only_by_what_is_asked_is_of_the_note() -> None:
    text = "Sycamore Draw: pulled 5 plants, no females. Loam, R1. What did my look at Sycamore Draw tell me?"
    reading = read_note(text, sent=SENT)
    assert [note.field for note in reading.notes] == ["sycamore draw"]
    assert [command.kind for command in reading.commands] == ["look_worth"]


@pytest.mark.parametrize(
    "text",
    [
        "I had expected Depot to be the worse of the two, given what we saw by the gate in summer.",
        "I hope to do Kestrel properly once the fair is over.",
        "I doubt the old combine is to blame.",
    ],
)
def test_a_hope_asks_nothing(text: str) -> None:
    lab = "Lab Kestrel: 1850 eggs per 100 cc, corn next.\nLab Depot: 420 eggs per 100 cc, soybeans next."
    _, asks, kinds = told(f"{lab}\n{text}")
    assert (asks, kinds) == ([], ["lab", "lab"])


@pytest.mark.parametrize("went", ["I went on Monday, once the rain had quit.", "We went on 7/20."])
def test_who_went_on_a_day_sprayed_nothing(went: str) -> None:
    found, asks, _ = told(f"Kestrel. {went} Pulled seven plants, 3 white.")
    assert (asks, found["note 0.date"], found.get("note 0.spray.date")) == ([], "2026-07-20", None)


def test_what_went_on_a_day_was_sprayed() -> None:
    found, asks, _ = told("Kestrel 6 plants dug 3 white, glyphosate went on Monday")
    assert (asks, found["note 0.spray.date"], found.get("note 0.date")) == ([], "2026-07-20", None)
