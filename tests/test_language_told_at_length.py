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


@pytest.mark.parametrize(
    ("text", "per_plant"),
    [
        ("Kestrel dug 5 soaked em about twenty minutes 3 1 0 6 2 some white", (3, 1, 0, 6, 2)),
        ("Kestrel counts per plant (7, washed): 2, 0, 5, 1, 0, 3, 4. All white.", (2, 0, 5, 1, 0, 3, 4)),
        ("Molino Viejo, recuento por planta (7, raíz lavada): 2, 0, 5, 1, 0, 3, 4.", (2, 0, 5, 1, 0, 3, 4)),
        ("Kestrel per plant (n 5): 2 0 5 1 0", (2, 0, 5, 1, 0)),
        ("Kestrel four plants: three, zero, one and no females", (3, 0, 1, 0)),
        ("Kestrel. Three, one, four and no females, respectively. Four plants pulled.", (3, 1, 4, 0)),
    ],
)
def test_lists_with_words_about_them(text: str, per_plant: tuple[int, ...]) -> None:
    """Minutes, how many there are, and "no females" for the last: one number a plant."""
    note = read(text)

    assert (note.plants, note.per_plant) == (len(per_plant), per_plant)


@pytest.mark.parametrize("text", ["Kestrel - R5 - n 10 - w2 y6", "Kestrel R5, n 10, w2 y6", "Kestrel n=10 w2 y6"])
def test_the_size_of_a_sample_is_plants(text: str) -> None:
    """ "n 10", as statistics have it."""
    note = read(text)

    assert (note.plants, note.females and note.females.total) == (10, 8)


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel pulled 5 by hand, thirty on em all told and every one yellow.",
        "Kestrel 5 plants, 30 on them in all, all yellow",
        "Kestrel 5 plants, thirty on the roots all together, all yellow",
    ],
)
def test_all_told_on_them(text: str) -> None:
    """A sum of females on all the plants."""
    note = read(text)

    assert note.females is not None
    assert (note.plants, note.females.yellow, note.females.total) == (5, 30, 30)


@pytest.mark.parametrize(
    ("text", "mostly", "tops"),
    [
        (
            "Kestrel 6 plants too many to count mostly white some yellow and the tops look stunted",
            ("white", "yellow"),
            ("stunted",),
        ),
        ("Kestrel 6 pl loaded, mostly white some yellow and the tops are stunted", ("white", "yellow"), ("stunted",)),
        ("Kestrel found the yellow pinhead things on all 3 plants I dug, way too many to count.", ("yellow",), ()),
        ("Kestrel dug 6. Those tan lemon shaped things all over the roots, couldn't count", ("tan",), ()),
        ("Kestrel dug 6, 4 white. Some yellow beans on the hill.", (), ("yellow",)),
        ("Kestrel dug 6, 4 white. There's a patch of yellow beans by the old pump.", (), ("patch", "yellow")),
    ],
)
def test_whose_color_it_is(text: str, mostly: tuple[str, ...], tops: tuple[str, ...]) -> None:
    """Females are yellow, and so are beans."""
    note = read(text)

    assert (note.mostly, tuple(sorted(note.tops))) == (mostly, tops)


@pytest.mark.parametrize(
    ("text", "roots"),
    [
        ("Kestrel dug six plants, soaked in the bucket, roots look white and no cysts.", ("white",)),
        ("Kestrel dug six, roots looked white, no females", ("white",)),
        ("Kestrel six plants, washed the roots in the cream can, found four of the little white ones in all.", ()),
    ],
)
def test_what_color_roots_are(text: str, roots: tuple[str, ...]) -> None:
    """Roots that look white are white; washed in a cream can they are not told of."""
    assert read(text).roots == roots


@pytest.mark.parametrize(
    ("text", "planted"),
    [
        ("Santa Rita 6 plantas, 4 brancas. ah e o plantio da Baixada foi 22/5", "baixada"),
        ("Molino Viejo 6 plantas 4 blancas. ah y la siembra de La Tranquera fue el 22/5", "la tranquera"),
        ("Kestrel 6 plants 4 white. also planting date for Dry Creek was 5/22", "dry creek"),
        ("Kestrel 6 plants 4 white. oh the planting of Dry Creek was 5/22", "dry creek"),
    ],
)
def test_the_planting_of_another_field(text: str, planted: str) -> None:
    """It is of the field it names, and not of the note's."""
    reading = read_note(text, sent=SENT, fields=CREW)

    (note,), (command,) = reading.notes, reading.commands
    assert note.planted is None
    assert (command.args["name"], command.args["planted"]) == (planted, date(2026, 5, 22))


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("Gravel P. R5 dug 5 : w3 y7", "gravel p"),
        ("Lorenz Pl, stunted patch. 5 pl 9w", "lorenz pl"),
        ("Lorenz pl 5 pl 9w", "lorenz pl"),
        ("H East. R4. 5 plts: 3Y 17T", "h east"),
        ("up bench\n5p\n0w\n2y", "up bench"),
        ("low bench 5p 2y", "low bench"),
        ("widow h 5 pl none", "widow h"),
        ("Persimmon B, 5 plants 3 white", "persimmon b"),
        ("church b. 5 plants none", "church b"),
        ("gravel 5 pl none", "gravel"),
    ],
)
def test_names_of_the_crew_with_words_cut_short(text: str, field: str) -> None:
    """All words that shorten one name of the crew are of the name."""
    crew = ("Gravel Pit", "Lorenz Place", "Harlan East", "Harlan West", "Upper Bench", "Lower Bench", "Widow Haas")
    (note,) = read_note(text, sent=SENT, fields=(*crew, "Persimmon Bottom", "Church Bottom")).notes

    assert (note.field, note.plants) == (field, 5)


def test_a_letter_beside_a_count_is_no_name() -> None:
    """ "Persimmon b 4": four brown ones, or Persimmon Bottom's; the letter counts."""
    (note,) = read_note("Persimmon w 4 y 3, 5 plants", sent=SENT, fields=("Persimmon Weir",)).notes

    assert (note.field, note.females and note.females.white) == ("persimmon", 4)
