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


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("kestrel 6 dug 0 clay loam, R1. dry creek: same soil, same stage, 6 dug, wht 2", ("clay_loam", "R1", 6, 2)),
        ("kestrel 6 dug 0 clay loam, R1. dry creek: 6 dug wht 2, same stage", (None, "R1", 6, 2)),
        ("kestrel 6 dug 0, loam, R1. dry creek: 5 dug wht 2. Same dry clay.", ("clay", None, 5, 2)),
        ("kestrel 6 dug 0, loam, R1. dry creek: 5 dug wht 2. Same man, same planter.", (None, None, 5, 2)),
        ("kestrel 6 plants 4 wht, R1. dry creek same count, same plants", (None, None, 6, 4)),
        ("kestrel 6 plants 4 wht, R1. dry creek 2w, same number of plants", (None, None, 6, 2)),
        ("Kestrel 6 plantas 3 blancas R2 franco. Molino Viejo mismo suelo, 5 plantas, nada", ("loam", None, 5, 0)),
        ("Kestrel 6 plantas 3 blancas R2. Molino Viejo mismo conteo, mismas plantas", (None, None, 6, 3)),
        ("Baixada 6 pl 3 brancas R2. Santa Rita mesma fase, 5 pl, nada", (None, "R2", 5, 0)),
        ("Kestrel six plants with a shovel, 3 white, R1. At Dry Creek, six again, and none", (None, None, 6, 0)),
        ("Kestrel seis plantas con pala, 3 blancas. En Molino Viejo, seis otra vez, ninguna.", (None, None, 6, 0)),
        ("Kestrel seis plantas na pá, 3 brancas. Na Santa Rita, seis de novo, nada.", (None, None, 6, 0)),
    ],
)
def test_one_thing_the_same_as_above(text, told):
    """Only what is said to be the same is taken from the note above."""
    reading = read(text)

    assert not reading.problems
    note = reading.notes[1]
    assert (note.soil.texture, note.stage, note.plants, note.females.total) == told


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel. Ten plants out with a spade, five at each end. East end: 3 white. West end: none.",
        "Kestrel at R5. Dug 10 plants, 5 on each side. North side 3 white, south side none.",
        "Kestrel, two places, five plants at each, all lifted with a fork.\n\nBy the road: 3 white.\nOn the knoll: none.",
        "Kestrel. Dug 5 by the scale house, 5 at the pit road. Scale house 3 white. Pit road none.",
        "Kestrel saqué 10 plantas con pala, cinco en cada punta. Punta norte: 3 blancas. Punta sur: ninguna.",
        "Kestrel tirei 10 plantas na pá, cinco em cada ponta. Ponta norte: 3 brancas. Ponta sul: nada.",
    ],
)
def test_plants_of_each_place(text):
    """So many plants at each of the places told of behind."""
    reading = read(text)

    assert not reading.problems
    (note,) = reading.notes
    assert (note.plants, note.method) == (10, "shovel")
    assert [(spot.plants, spot.females.total) for spot in note.spots] == [(5, 3), (5, 0)]


@pytest.mark.parametrize(
    "said",
    [
        "Both had beans in 2024.",
        "Kestrel was beans on beans in '23 and '24 while North Forty had corn.",
        "Both had soybeans in 2024 and 2025. I cannot explain North Forty.",
    ],
)
def test_years_of_beans_are_words(said):
    """What grew there before changes neither note."""
    reading = read(f"{TWO}{said}")
    assert not reading.problems
    assert [(note.plants, note.females.total) for note in reading.notes] == [(6, 4), (6, 0)]


@pytest.mark.parametrize(
    "text",
    [
        "kestrel six plants dug seven white next one is north forty six plants dug none both moist and both r two",
        "kestrel seis plantas con pala siete blancas el siguiente es molino viejo seis plantas con pala ninguna "
        "los dos en r dos y húmedos",
        "kestrel seis plantas na pá sete brancas o próximo é santa rita seis plantas na pá nenhuma os dois em r dois "
        "e úmidos",
    ],
)
def test_a_dictated_list(text):
    """The next field begins its own note; both get what is said of both."""
    reading = read(text)
    assert not reading.problems
    assert soil(reading) == [("R2", "moist", None)] * 2
    assert [(note.plants, note.females.total) for note in reading.notes] == [(6, 7), (6, 0)]


@pytest.mark.parametrize(
    ("text", "moisture"),
    [
        ("Kestrel 10 dug, no females.\nDry Creek 10 dug, 1 yellow.\nBoth fields dry. What else is due?", "dry"),
        ("Kestrel 10 dug, no females.\nSoil moist. What else is due?", "moist"),
    ],
)
def test_a_request_behind_what_is_added_swallows_nothing(text: str, moisture: str) -> None:
    reading = read_note(text, sent=date(2026, 7, 8), fields=("Kestrel", "Dry Creek"))

    assert {note.soil.moisture for note in reading.notes if note.soil} == {moisture}
    assert all(note.soil for note in reading.notes)
    assert [command.kind for command in reading.commands] == ["due"]


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel 6 plants 2 white, Dry Creek 6 too, none",
        "La Tranquera 6 plantas 2 blancas. En Molino Viejo 6 también, sin hembras",
        "Baixada 6 plantas 2 brancas. Santa Rita 6 também, nada",
    ],
)
def test_as_many_too_are_plants_of_the_next_field(text: str) -> None:
    reading = read(text)

    assert [note.plants for note in reading.notes] == [6, 6]
    assert not reading.problems


def test_a_locked_gate_and_no_key_is_no_look() -> None:
    (note,) = read("North Forty gate locked, nobody had the key").notes

    assert note.outcome == "not_looked"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("R3 at Kestrel, R4 at Dry Creek", [("R3", None, None), ("R4", None, None)]),
        ("R3 at Kestrel and R4 at Dry Creek.", [("R3", None, None), ("R4", None, None)]),
        ("dry at kestrel and wet at dry creek", [(None, "dry", None), (None, "wet", None)]),
        ("R3 en Molino Viejo, R4 en La Tranquera", [("R3", None, None), ("R4", None, None)]),
        ("R3 na Santa Rita e R4 na Baixada", [("R3", None, None), ("R4", None, None)]),
        ("úmido na Santa Rita, seco na Baixada", [(None, "moist", None), (None, "dry", None)]),
    ],
)
def test_a_stage_or_a_soil_stands_before_each_field(text: str, told: list[tuple[str | None, ...]]) -> None:
    reading = read(text)

    assert not reading.problems
    assert soil(reading) == told
    assert len({note.field for note in reading.notes}) == len(told)


@pytest.mark.parametrize(
    "text",
    [
        "R3 at kestrel and R4 at dry creek. 6 dug at each, none",
        "Kestrel R3, Dry Creek R4. 6 dug at each, none on any",
        "Kestrel V5, Dry Creek V6, Ridge Top V6. 6 plants each, no females",
        "R3 na Santa Rita e R4 na Baixada. 6 plantas em cada, nenhuma fêmea",
    ],
)
def test_none_behind_the_plants_of_each_is_of_each(text: str) -> None:
    reading = read(text)

    assert not reading.problems
    assert {(note.plants, note.outcome) for note in reading.notes} == {(6, "none_seen")}
    assert len(reading.notes) > 1


@pytest.mark.parametrize(
    "text",
    [
        "Baixada: 6 plantas com a pá, 17 brancas, solo úmido. Voltar em 12 dias. Na Santa Rita cavei 6 também, "
        "com a mesma pá e o mesmo balde, e não achei nenhuma.",
        "La Tranquera con pala 6 plantas 2 blancas, húmedo, volver en 5 días. Molino Viejo 6 plantas con la misma "
        "pala y el mismo balde, nada",
    ],
)
def test_the_same_spade_and_bucket_carry_nothing_else_on(text: str) -> None:
    first, second = read(text).notes

    assert first.look_again is not None
    assert (second.plants, second.method, second.soaked) == (6, "shovel", True)
    assert second.look_again is None
    assert second.soil.moisture is None


@pytest.mark.parametrize(
    ("text", "methods"),
    [
        ("Kestrel W9 / Dry Creek W4, 5 plants each, dug, both R1", ["shovel", "shovel"]),
        ("Kestrel 9w; Dry Creek 4w; 5 pl each, pulled, washed", ["pulled", "pulled"]),
        ("Kestrel 9b / Molino Viejo 4b, 5 plantas cada uno, con pala", ["shovel", "shovel"]),
        ("Kestrel 9b / Santa Rita 4b, 5 plantas cada, com pá", ["shovel", "shovel"]),
        ("Kestrel 9w, pulled; Dry Creek 4w. 5 plants each, dug", ["pulled", "shovel"]),
        ("Kestrel not looked, Dry Creek 4w, 5 plants each, dug", [None, "shovel"]),
        ("Kestrel 9w, Dry Creek 4w, 5 plants each. Dug the rest tomorrow", [None, "shovel"]),
    ],
)
def test_how_plants_came_up_is_of_each_field_as_they_are(text, methods):
    """Told right behind "each", and of no field with a way of its own."""
    assert [note.method for note in read(text).notes] == methods
