"""What is told once of several fields, and what is told further on of a field told before."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Reading

SENT = date(2026, 7, 8)
CREW = ("Kestrel", "North Forty", "Dry Creek", "Ridge Top", "Molino Viejo", "La Tranquera", "Santa Rita", "Baixada")
TWO = "Kestrel 6 dug 4w. North Forty 6 dug none. "
THREE = "Kestrel 6 dug 4w. North Forty 6 dug none. Dry Creek 6 dug 2w. "
FOUR = f"{THREE}Ridge Top 6 dug 1 yellow. "
DOS = "Kestrel 6 plantas a pala, 4 blancas. Molino Viejo 6 a pala, nada. "
DUAS = "Baixada 6 pl na pá 4 brancas. Santa Rita 6 pl na pá nada. "


def read(text: str) -> Reading:
    """One message of the crew's."""
    return read_note(text, sent=SENT, fields=CREW)


def soil(reading: Reading) -> list[tuple[str | None, str | None, str | None]]:
    """Stage, moisture and texture of each note."""
    return [(note.stage, note.soil.moisture, note.soil.texture) for note in reading.notes]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (f"{TWO}Both are at R2.", [("R2", None, None)] * 2),
        (f"{TWO}Both sand, both at V6.", [("V6", None, "sand")] * 2),
        (f"{TWO}R4 everywhere", [("R4", None, None)] * 2),
        (f"{TWO}V6 in both, dry in both", [("V6", "dry", None)] * 2),
        (f"{TWO}Each of them moist loam", [(None, "moist", "loam")] * 2),
        (f"{TWO}Soil was moist at both places and both are at R3.", [("R3", "moist", None)] * 2),
        (f"{TWO}The two are V5", [("V5", None, None)] * 2),
        (f"{TWO}Both fields dry.", [(None, "dry", None)] * 2),
        (f"{TWO}Both at R2. Thanks to Kestrel's owner for the key.", [("R2", None, None)] * 2),
        (f"{THREE}All three R2, moist, sandy loam.", [("R2", "moist", "sandy_loam")] * 3),
        (f"{TWO}Both moist, Kestrel is a silt loam and North Forty is sand.",
         [(None, "moist", "silt_loam"), (None, "moist", "sand")]),
        (f"{TWO}Kestrel is V6, North Forty V5. Both moist.", [("V6", "moist", None), ("V5", "moist", None)]),
        (f"{TWO}Kestrel is moist, the other dry", [(None, "moist", None), (None, "dry", None)]),
        (f"{FOUR}Kestrel and Dry Creek are at R2, the other two at R1.",
         [("R2", None, None), ("R1", None, None), ("R2", None, None), ("R1", None, None)]),
        (f"{FOUR}Kestrel, North Forty and Ridge Top at R3, the other one R2.",
         [("R3", None, None), ("R3", None, None), ("R2", None, None), ("R3", None, None)]),
        (f"{THREE}Kestrel is moist, the others are dry.", [(None, "moist", None), *[(None, "dry", None)] * 2]),
        (f"{DOS}Los dos están en R2 y húmedos.", [("R2", "moist", None)] * 2),
        (f"{DOS}Ambos R2 y suelo seco.", [("R2", "dry", None)] * 2),
        (f"{DOS}Kestrel es franco y Molino Viejo arenoso.", [(None, None, "loam"), (None, None, "sand")]),
        (f"{DOS}La Tranquera 6 a pala, nada. Kestrel y Molino Viejo en R2, el otro en R1.",
         [("R2", None, None), ("R2", None, None), ("R1", None, None)]),
        (f"{DUAS}os 2 R2", [("R2", None, None)] * 2),
        (f"{DUAS}Kestrel 6 pl pá nada. As três em R2, terra úmida.", [("R2", "moist", None)] * 3),
        (f"{DUAS}Kestrel 6 pl pá nada. Baixada e Santa Rita em R2, a outra em R1.",
         [("R2", None, None), ("R2", None, None), ("R1", None, None)]),
        (f"{DUAS}Kestrel 6 pl pá nada. Santa Rita tá em R2, os outros 2 em R3",
         [("R3", None, None), ("R2", None, None), ("R3", None, None)]),
    ],
)  # fmt: skip
def test_a_group_of_fields_adds_to_each_note(text, told):
    """No further note, no question; each note keeps its own counts."""
    reading = read(text)

    assert not reading.problems
    assert soil(reading) == told
    assert [note.plants for note in reading.notes] == [6] * len(told)
    assert reading.notes[1].females.total == 0


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (f"{TWO}Both neighbors say they have it dry.", [(None, None, None)] * 2),
        (
            "Kestrel 6 dug 4w R1. North Forty 6 dug none. Both moist, R2.",
            [("R1", "moist", None), ("R2", "moist", None)],
        ),
        ("Kestrel 6 dug 4w. North Forty 2 dug 3w, both stunted.", [(None, None, None)] * 2),
    ],
)
def test_a_group_of_others_adds_nothing(text, told):
    """What a note tells itself is kept; neighbours and plants are no fields."""
    assert soil(read(text)) == told
    assert read(text).notes[0].tops == ()


def test_another_stage_makes_its_own_note():
    """Told otherwise further on, it is not put into the first note."""
    reading = read("Kestrel 6 dug 4 w R1. North Forty 6 dug none. Kestrel R2.")
    assert [note.stage for note in reading.notes] == ["R1", None, "R2"]


@pytest.mark.parametrize(
    "text",
    [
        f"{TWO}Both again in 2 weeks.",
        f"{TWO}Next look at both in 2 weeks.",
        f"{DOS}Vuelvo a los dos en 2 semanas.",
        f"{DUAS}Volto nos dois em 2 semanas.",
    ],
)
def test_a_next_look_at_all(text):
    """Said of each note."""
    reading = read(text)
    assert not reading.problems
    assert [note.look_again.days for note in reading.notes] == [14, 14]


def test_a_next_look_at_one_named_further_on():
    """Only its note has it."""
    reading = read(f"{DUAS}na Santa Rita volto em 10 dias")
    assert [note.look_again.days if note.look_again else None for note in reading.notes] == [None, 10]


@pytest.mark.parametrize(
    "text",
    [
        "6p dug ea: kestrel 2y 7t, dry creek none. R7 both",
        "Two fields, R7, each one with six plants dug. Kestrel had 2 yellow and 7 tan. Dry Creek had none.",
        "variety check on two fields, six plants dug in each, all R7.\n- Kestrel: resistant, 2 yellow, 7 tan"
        "\n- Dry Creek: resistant, no females",
        "Kestrel y Dry Creek, los dos R7, los dos 6 plantas a pala. Kestrel 2 amarillas 7 tostadas, Dry Creek nada.",
        "Kestrel e Dry Creek, os dois R7, os dois 6 pl na pá. Kestrel 2 amarelas 7 bege, Dry Creek nada.",
        "Kestrel e Dry Creek, ambos R7, 6 plantas na pá em cada. Kestrel 2 amarelas 7 bege, Dry Creek nada.",
        "Two stops, Kestrel and Dry Creek, both at R7. In the former I dug six plants and counted 2 yellow and 7 tan. "
        "In the latter I dug six too and saw no females.",
    ],
)
def test_plants_of_each_field(text):
    """So many plants in each, dug the same way, at the same stage."""
    reading = read(text)

    assert not reading.problems
    assert [(note.field, note.plants, note.method, note.stage) for note in reading.notes] == [
        ("kestrel", 6, "shovel", "R7"),
        ("dry creek", 6, "shovel", "R7"),
    ]
    assert [note.females.total for note in reading.notes] == [9, 0]
