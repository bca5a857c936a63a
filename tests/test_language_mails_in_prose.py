"""Mails in prose: what was washed and what not, places told before what was found there, strips spoken of first."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Note, Reading

SENT = date(2026, 7, 8)
CREW = ("Kestrel", "Otter Bend", "Depot", "San Isidro", "La Loma", "Lagoa Seca", "Divisa", "Baixada")


def read(text: str) -> Reading:
    """One message of the crew's."""
    return read_note(text, sent=SENT, fields=CREW)


def note(text: str) -> Note:
    """The one note of a message that leaves no question."""
    reading = read(text)
    assert not reading.problems, reading.problems
    (one,) = reading.notes
    return one


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel dug 6, 9 white. Everything dug, nothing washed for want of water.",
        "Kestrel dug 6, 9 white. None of it washed for lack of water.",
        "Kestrel dug 6, 9 white. Not one of the roots was washed because the bucket has a hole.",
        "La Loma 6 plantas con pala, 9 blancas. No llevábamos agua, así que ninguna se lavó.",
        "La Loma 6 plantas con pala, 9 blancas. Ninguna lavada por falta de agua.",
        "La Loma 6 plantas con pala, 9 blancas. No teníamos balde y no se lavó ninguna.",
        "Divisa 6 plantas com pá, 9 brancas. Nenhuma foi lavada, faltou água.",
        "Divisa 6 plantas com pá, 9 brancas. Não lavei nada, o caminhão-pipa quebrou.",
    ],
)
def test_none_washed_is_said_of_washing(text: str) -> None:
    """Neither "none seen" nor washed, and the lack of water is not of the soil."""
    told = note(text)

    assert (told.soaked, told.females.total, told.soil.moisture) == (False, 9, None)


def test_none_and_washed() -> None:
    """ "8 dug none washed" beside another field's count: what it denies was read so before, and stays so."""
    reading = read("Kestrel 6 dug 9 white. Depot 8 dug none washed")

    assert [one.outcome for one in reading.notes] == ["seen", "none_seen"]


@pytest.mark.parametrize(
    "said",
    [
        "Has anyone found my blue bucket?",
        "My bucket is still at the shop.",
        "I asked them not to take machines elsewhere without washing them.",
    ],
)
def test_a_bucket_or_a_machine_talked_of_washes_no_root(said: str) -> None:
    """A bucket that somebody looks for."""
    (one,) = read(f"Kestrel dug 6, 9 white. {said}").notes

    assert one.soaked is None


@pytest.mark.parametrize(
    ("text", "soaked"),
    [
        ("La Loma 6 plantas, 1 amarilla. Se nos fue la mañana esperando al señor del agua.", None),
        ("La Loma 6 plantas pala y agua, 3 blancas", True),
        ("La Loma 6 plantas 3 blancas, pasadas por el agua", True),
        ("Divisa 6 plantas 3 brancas, com a água do rio", True),
        ("Kestrel 6 plants, 9 white. Washed them with the hose on the rig.", True),
        ("Kestrel spade, the bucket, 6 plants 9 white", True),
    ],
)
def test_water_that_is_talked_of_and_water_that_washes(text: str, soaked: bool | None) -> None:
    """ "El señor del agua" is a man."""
    assert note(text).soaked is soaked


@pytest.mark.parametrize(
    ("text", "soaked"),
    [
        ("Kestrel dug 6, 9 white. Otter Bend dug 8, 3 white. I soaked all of them like the video says.", [True, True]),
        ("Kestrel dug 6, 9 white. Otter Bend dug 8, 3 white. Did not wash any of them.", [False, False]),
        ("San Isidro 6 plantas, 3 blancas. La Loma 6 plantas, 1 amarilla. Ninguna se lavó.", [False, False]),
        ("Kestrel dug 6, 9 white. Depot not dug, gate locked. Everything was washed.", [True, None]),
        (
            "Kestrel dug 6, 9 white. Otter Bend, only looked over the fence, nothing dug there. "
            "All of the roots went through the water bucket.",
            [True, None],
        ),
    ],
)
def test_washing_said_of_all_is_of_the_fields_that_were_dug(text: str, soaked: list[bool | None]) -> None:
    """Of each of them, and of none where nobody dug."""
    assert [one.soaked for one in read(text).notes] == soaked


@pytest.mark.parametrize(
    ("text", "places"),
    [
        (
            "Kestrel. I dug five on the left side and five on the right side just to see. Left side 2 white. "
            "Right side 7 white and 1 yellow.",
            [("left side", 5, 2), ("right side", 5, 8)],
        ),
        (
            "Kestrel, R4, dug four from the edge near the culvert and four from the hill. culvert: 13 white 4 yellow. "
            "hill: 2 white.",
            [("culvert", 4, 17), ("hill", 4, 2)],
        ),
        (
            "Kestrel. We dug four at the top of the hill and four at the bottom because the boss wanted both. "
            "The top had nothing, the bottom had 6 white and 2 tan.",
            [("top", 4, 0), ("bottom", 4, 8)],
        ),
        (
            "Kestrel. Dug six by the old barn, six by the ditch, as always. The barn ones had 2 white, the ditch ones 9.",
            [("barn", 6, 2), ("ditch", 6, 9)],
        ),
        (
            "Lagoa Seca. Cavei cinco no alto e cinco perto do açude só para ver. O alto não tinha nada. "
            "O açude tinha 5 brancas e 1 amarela.",
            [("alto", 5, 0), ("açude", 5, 6)],
        ),
        (
            "Kestrel. By the road I dug three plants and had 6 white. In the middle three plants with 9 white. "
            "At the back, three plants, none. That is nine plants in all and the bucket water was black.",
            [("road", 3, 6), ("middle", 3, 9), ("back", 3, 0)],
        ),
    ],
)
def test_places_told_with_words_around_them(text: str, places: list[tuple[str, int, int]]) -> None:
    """A place is called by part of its words further on; why it was dug, and the sum of all, tell no place."""
    told = note(text)

    assert [(spot.name, spot.plants, spot.females.total) for spot in told.spots] == places
    assert told.plants == sum(plants for _, plants, _ in places)


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel has a strip of susceptible beans down the middle that the dealer planted as a check. I dug six plants of "
        "the variety itself and there were 2 white on the roots. The check strip, four plants, had 30 white.",
        "Kestrel. The dealer planted a susceptible check down the middle. Dug six of the resistant, 2 white. Dug four of "
        "the check, 30 white.",
        "La Loma: la variedad es Lucero 40, resistente, de Peking, y en medio hay una franja testigo susceptible. De la "
        "variedad sacamos seis plantas y tuvieron 2 blancas. De la franja testigo sacamos cuatro y tuvieron 30 blancas.",
        "Lagoa Seca: variedade Aroeira 58 resistente, com faixa testemunha no meio. Na variedade seis plantas com 2 "
        "brancas, na testemunha quatro com 30 brancas.",
    ],
)
def test_a_check_strip_spoken_of_before_it_is_counted(text: str) -> None:
    """That it is there heads no counts: those behind it are of the field."""
    told = note(text)
    (strip,) = (spot for spot in told.spots if spot.check)

    assert (told.plants, told.females.white, strip.plants, strip.females.white) == (6, 2, 4, 30)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Kestrel, variety 27R14. Dug six plants of it, 21 white.", "27R14"),
        ("Kestrel dug 6, 2 white. He wants money back for the seed, which is a matter for the office.", None),
        ("La Loma 6 plantas, 2 blancas, y eso que la variedad es tardía.", None),
    ],
)
def test_what_names_a_variety(text: str, name: str | None) -> None:
    """A code with an R in it does; "itself", "late" and what goes on behind a comma do not."""
    told = note(text).variety

    assert (told.name if told else None) == name


@pytest.mark.parametrize(
    "said",
    [
        "Forgive the dry tone.",
        "My spade handle cracked on the very last one.",
        "Thank you for all those muddy afternoons.",
        "He counted a grain of sand.",
    ],
)
def test_words_of_soil_in_talk(said: str) -> None:
    """They tell nothing of the field."""
    (one,) = read(f"Kestrel dug 6, 9 white. {said}").notes

    assert (one.soil.moisture, one.soil.texture) == (None, None)


def test_a_field_called_as_a_place_goes_on_behind_one_called_so_too() -> None:
    """ "Divisa" and "Baixada" are words for places and names of the crew."""
    day_by_day = read(
        "Divisa, na segunda: 6 plantas com pá, 2 brancas. Lagoa Seca, na terça: 6 plantas com pá, só 1 amarela. "
        "Baixada, ontem: 6 plantas com pá, 10 brancas e 21 amarelas."
    )
    plain = read("Baixada 6 plantas, 3 brancas. Divisa 6 plantas, 1 amarela.")

    assert [one.females.total for one in day_by_day.notes] == [2, 1, 31]
    assert [(one.field, one.females.total) for one in plain.notes] == [("baixada", 3), ("divisa", 1)]


BOTTOMS = ("Hollow Oak", "Dell Bottom")
PITS = ("Lark 1", "Lark 2", "Gravel Pit")
OTHERS = ("San Isidro", "La Loma", "Pozo Hondo")


@pytest.mark.parametrize(
    ("crew", "said", "stages", "moistures"),
    [
        (PITS, "everything is V6 at both Larks, V5 at the pit.", ["V6", "V6", "V5"], [None] * 3),
        (PITS, "V6 at the Larks, V5 at the Pit.", ["V6", "V6", "V5"], [None] * 3),
        (PITS, "Both Larks are dry, the pit is moist.", [None] * 3, ["dry", "dry", "moist"]),
        (OTHERS, "R3 en San Isidro y la Loma, R4 en el pozo.", ["R3", "R3", "R4"], [None] * 3),
        (BOTTOMS, "R2 at the Oak, R3 at the Bottom.", ["R2", "R3"], [None] * 2),
        (BOTTOMS, "R2 at the oak and dry, R3 at the bottom and moist.", ["R2", "R3"], ["dry", "moist"]),
        (BOTTOMS, "R2 at the oak and dry, R3 at the bottom.", ["R2", "R3"], ["dry", None]),
        (BOTTOMS, "R2, dry at Hollow Oak, R3, moist at Dell Bottom.", ["R2", "R3"], ["dry", "moist"]),
        (BOTTOMS, "R2 at Hollow Oak, R3 at Dell Bottom, dry.", ["R2", "R3"], [None, "dry"]),
        (BOTTOMS, "The bottom was wet, the oak dry.", [None] * 2, ["dry", "wet"]),
    ],
)
def test_a_word_of_a_name_beside_another_field(
    crew: tuple[str, ...], said: str, stages: list[str | None], moistures: list[str | None]
) -> None:
    """ "The pit" is Gravel Pit where another field is told beside it."""
    counted = " ".join(f"{name} dug 6, {n} white." for n, name in enumerate(crew, 2))
    if crew is OTHERS:
        counted = " ".join(f"{name} 6 plantas, {n} blancas." for n, name in enumerate(crew, 2))
    notes = read_note(f"{counted} {said}", sent=SENT, fields=crew).notes

    assert [(one.stage, one.soil.moisture) for one in notes] == list(zip(stages, moistures, strict=True))


def test_a_word_of_a_name_alone_may_be_a_place() -> None:
    """ "The bottom" of the field told last."""
    reading = read_note(
        "Dell Bottom 6 plants, 3 white. Hollow Oak 6 plants, none. Bottom wet.", sent=SENT, fields=BOTTOMS
    )

    assert len(reading.notes) == 2
    assert reading.notes[0].soil.moisture is None


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel i dug 8 and per plant it was 4,0,2,2,7,1,0,3.",
        "La Loma: ocho plantas sacadas con pala, contadas una por una: 4, 0, 2, 2, 7, 1, 0 y 3.",
        "Divisa: oito plantas cavadas com pá, contadas uma por uma: 4, 0, 2, 2, 7, 1, 0 e 3.",
    ],
)
def test_a_list_behind_a_verb_begins_with_its_first_number(text: str) -> None:
    """ "It was 4" is no hour, "una por una" no number."""
    assert note(text).per_plant == (4, 0, 2, 2, 7, 1, 0, 3)


def test_colors_somebody_is_to_learn() -> None:
    """ "What a tan one looks like" counts none."""
    told = note(
        "Kestrel dug 5, no females, V3. Somebody has to show me what a tan one looks like, I get white and yellow but "
        "tan I am not so sure."
    )

    assert (told.females.total, told.mostly) == (0, ())


def test_what_others_never_dug() -> None:
    """Others, where females are counted here."""
    told = note("Kestrel dug six, 10 white. Their own beans are from the competition and they have never dug one up.")

    assert (told.outcome, told.females.white) == ("seen", 10)


@pytest.mark.parametrize("said", ["same fork same bucket", "with the same spade and the same bucket"])
def test_the_same_spade_and_bucket_are_not_the_same_stage(said: str) -> None:
    """No more is the same than what is told to be."""
    _, second = read(
        f"Kestrel dug 6 with spade and bucket, 11 white, V4, moist. Depot, {said}, five plants, none."
    ).notes

    assert (second.stage, second.soil.moisture, second.soaked, second.plants) == (None, None, True, 5)


@pytest.mark.parametrize(
    "said",
    [
        "By the pond the plants are yellow and short in patches, the rest is normal.",
        "Near the creek they are yellow and short, in patches.",
    ],
)
def test_tops_told_where_water_lies(said: str) -> None:
    """The pond is where, and not what is yellow."""
    told = note(f"Kestrel 6 plants, 5 white. {said}")

    assert set(told.tops) == {"patch", "stunted", "yellow"}


@pytest.mark.parametrize("said", ["The pond is full and yellow.", "The neighbor by the creek has yellow beans."])
def test_tops_of_others(said: str) -> None:
    """What the water or a neighbor is."""
    (one,) = read(f"Kestrel 6 plants, 5 white. {said}").notes

    assert one.tops == ()


@pytest.mark.parametrize(
    ("text", "stages"),
    [
        (
            "Kestrel: nine plants dug, 5 white. Depot: nine plants dug, 2 yellow. The first is R4, the second R5.",
            "R4 R5",
        ),
        ("Kestrel nine plants dug, 5 white. Depot nine dug, 2 yellow. R4 in the first, R5 in the second.", "R4 R5"),
        (
            "San Isidro 6 plantas, 3 blancas. La Loma 6 plantas, 1 amarilla. El primero está en R4, el segundo en R5.",
            "R4 R5",
        ),
    ],
)
def test_the_first_and_the_second_are_fields(text: str, stages: str) -> None:
    """As they were told."""
    assert " ".join(str(one.stage) for one in read(text).notes) == stages


def test_the_first_plant_is_no_field() -> None:
    """ "The first plant had 2": of the field told last."""
    first, second = read(
        "Kestrel: nine dug, 5 white. Depot: two plants dug. The first plant had 2 yellow, the second none."
    ).notes

    assert (first.females.white, second.females.yellow, second.per_plant) == (5, 2, (2, 0))


def test_the_seed_of_the_first_and_of_the_second() -> None:
    """Each its own resistance and source."""
    notes = read(
        "Kestrel: nine plants dug, 5 white. Depot: nine plants dug, 2 yellow. The first of the two is on a susceptible "
        "variety, and the second on a resistant one, Cobalt 7, with PI 437654."
    ).notes

    told = [(one.variety.resistance, one.variety.source) for one in notes if one.variety]
    assert told == [("susceptible", None), ("resistant", "PI 437654")]
