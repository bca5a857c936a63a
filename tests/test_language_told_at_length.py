"""Notes told at length: plants of several places in one sentence, and what is said twice or left to the reader."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Note

SENT = date(2026, 7, 20)
CREW = ("Kestrel", "North Forty", "Dry Creek", "La Tranquera", "Molino Viejo", "Baixada", "Santa Rita")


def read(text: str) -> Note:
    """The one note of a message, without a question back."""
    reading = read_note(text, sent=SENT, fields=CREW)

    assert not reading.problems, reading.problems
    (note,) = reading.notes
    return note


@pytest.mark.parametrize(
    ("text", "places"),
    [
        (
            "I looked at ten plants at Kestrel, five along the ditch and five on the ridge. The ditch plants had "
            "3, 1, 0, 4, 2 and the ridge plants had 9, 12, 7, 10, 8, all white.",
            {"ditch": (5, 10), "ridge": (5, 46)},
        ),
        (
            "Kestrel hill is wilted. I dug three on the hill, 4, 6 and 5, and three in the bottom, 0, 0 and 1.",
            {"hill": (3, 15), "bottom": (3, 1)},
        ),
        (
            "Kestrel had stunted ones. I dug three on the knob and there was ten white on em, then three down on the "
            "flat and only one white.",
            {"knob": (3, 10), "flat": (3, 1)},
        ),
        (
            "Kestrel has a patch near the road, so we dug three there and three in the good part. The patch gave 17 "
            "females and the good part 2.",
            {"patch": (3, 17), "good part": (3, 2)},
        ),
        (
            "Kestrel has a wilted ring by the shed. Dug four in it and four outside. The ring had 22 white, outside "
            "had 3 white.",
            {"ring": (4, 22), "outside": (4, 3)},
        ),
        (
            "Kestrel. Ten plants, five from the low corner and five from the hill. The low corner ones had 4, 2, 0, "
            "1, 3 and the hill ones 9, 8, 7, 11, 6.",
            {"low corner": (5, 10), "hill": (5, 41)},
        ),
        (
            "At Dry Creek I dug eight plants, four by the gate and four by the pond. The gate plants had 12 white "
            "and the pond plants had none.",
            {"gate": (4, 12), "pond": (4, 0)},
        ),
        ("Kestrel dug 3 by the road (2, 0, 1) and 3 by the creek (5, 5, 9)", {"road": (3, 3), "creek": (3, 19)}),
        (
            "Dug three on the sand and found twelve white, then three on the clay and found two white. Kestrel, R3.",
            {"sand": (3, 12), "clay": (3, 2)},
        ),
        (
            "Kestrel. I pulled four up by the terrace and there was nine yellow on them, and four down in the draw "
            "with just two yellow.",
            {"terrace": (4, 9), "draw": (4, 2)},
        ),
        (
            "Kestrel stunted spot by the road so I dug four in the spot and four in the good beans. The spot gave 31 "
            "females, the good beans 4, all white.",
            {"spot": (4, 31), "good beans": (4, 4)},
        ),
        (
            "La Tranquera: diez plantas, cinco junto al arroyo y cinco en la loma. Las del arroyo 22 blancas, las de "
            "la loma 3 blancas.",
            {"arroyo": (5, 22), "loma": (5, 3)},
        ),
        (
            "Molino Viejo, saqué 3 en el desagüe y tenían diez blancas, después tres en el bajo y solo una blanca.",
            {"desagüe": (3, 10), "bajo": (3, 1)},
        ),
        (
            "Baixada: arranquei cinco plantas na beira e cinco no alto. As da beira tinham 3, 1, 0, 4, 2 e as do "
            "alto 9, 12, 7, 10, 8, todas brancas.",
            {"beira": (5, 10), "alto": (5, 46)},
        ),
        (
            "Santa Rita, dez pés, cinco perto da cerca e cinco no meio. Os da cerca deram 22 brancas, os do meio 3.",
            {"cerca": (5, 22), "meio": (5, 3)},
        ),
    ],
)
def test_plants_of_several_places_in_a_sentence(text: str, places: dict[str, tuple[int, int]]) -> None:
    """Each place with its plants and what was on them; the note's plants are those of all."""
    note = read(text)

    assert {spot.name: (spot.plants, spot.females.total) for spot in note.spots} == places
    assert note.plants == sum(plants for plants, _ in places.values())
    assert note.females is not None and note.females.total == sum(found for _, found in places.values())


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel dug five with the shovel and five by hand, 3 white",
        "Kestrel found ten white on the hill and two on the flat",
        "Kestrel 6 plants, two on the first and one on the second white",
    ],
)
def test_what_is_no_place_stays_none(text: str) -> None:
    """Tools, females on a hill, plants of a row: no places with plants each."""
    (note,) = read_note(text, sent=SENT, fields=CREW).notes

    assert not note.spots


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel W/Y by plant: 3/1, 2/0, 4/2, 0/0, 1/1. Dug. V5.",
        "Kestrel w/y per plant 3/1 2/0 4/2 0/0 1/1 dug",
        "Kestrel white/yellow per plant: 3/1, 2/0, 4/2, 0/0, 1/1.",
        "Kestrel 5 plants, white/yellow on each: 3/1, 2/0, 4/2, 0/0, 1/1",
        "Kestrel dug 5. white/yellow each plant 3/1 2/0 4/2 0/0 1/1",
        "Molino Viejo blancas/amarillas por planta: 3/1, 2/0, 4/2, 0/0, 1/1",
        "Baixada brancas/amarelas por planta: 3/1, 2/0, 4/2, 0/0, 1/1",
    ],
)
def test_colors_told_plant_by_plant_behind_slashes(text: str) -> None:
    """Each pair is a plant, "by plant" or not."""
    note = read(text)

    assert note.females is not None
    assert (note.females.white, note.females.yellow, note.per_plant) == (10, 4, (4, 2, 6, 0, 2))


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel 5 plants clean, zero",
        "Kestrel 5 plants, nothing, 0",
        "Molino Viejo 5 plantas limpias, cero",
        "Baixada 5 plantas, nada, zero",
    ],
)
def test_none_told_twice_is_none(text: str) -> None:
    """The second word for none counts nothing more."""
    note = read(text)

    assert (note.plants, note.outcome, note.per_plant) == (5, "none_seen", None)


@pytest.mark.parametrize(
    "tail",
    ["A shovel was used.", "A spade was used to dig them.", "The fork was used.", "Shovel used on all of them"],
)
def test_a_tool_that_was_used(tail: str) -> None:
    """ "The shovel was ..." may be a tale of the shovel; that it was used is how they were dug."""
    assert read(f"Kestrel 6 plants, 4 white. {tail}").method == "shovel"


def test_a_shovel_that_was_elsewhere_dug_nothing() -> None:
    """The tool of a tale."""
    assert read("Kestrel 6 plants, 4 white. The shovel was at the shop.").method is None


@pytest.mark.parametrize(
    ("text", "name"),
    [
        (
            "Kestrel. Susceptible check strip: 4 plants, 38 white. Rest of stand, resistant variety: 10 plants, 2 "
            "white.",
            "rest of stand",
        ),
        (
            "Kestrel. Check strip (susceptible): 4 plants, 38 white. Main block, resistance from PI 88788: 10 "
            "plants, 2 white.",
            "main block",
        ),
    ],
)
def test_a_place_with_its_seed_behind_its_name(text: str, name: str) -> None:
    """The seed is of the field, the counts behind it of the place."""
    note = read(text)

    assert [(spot.name, spot.plants) for spot in note.spots if not spot.check] == [(name, 10)]
    assert (note.plants, note.variety and note.variety.resistance) == (10, "resistant")
