"""What prose says by the way: colors looked for in vain, "proves nothing", "an inch or two", a seed like a color."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import Note

FIELDS = ("Kestrel", "Sumac")


def _note(text: str) -> Note:
    reading = read_note(text, sent=date(2026, 7, 14), fields=FIELDS)
    assert not reading.problems, [(p.kind, p.where.text) for p in reading.problems]
    (note,) = reading.notes
    return note


@pytest.mark.parametrize(
    "behind",
    [
        "I looked for brown ones in particular and did not find any.",
        "I looked hard for tan ones, found none.",
        "Searched for brown ones but there weren't any.",
        "looked for tan and brown, none",
        "which is why I keep telling him that looking from the road proves nothing",
        "Tops tell you nothing this early.",
        "A look from the road means nothing.",
    ],
)
def test_what_was_counted_stands_beside_it(behind: str) -> None:
    """A color looked for in vain is not there, and what proves nothing is no finding."""
    note = _note(f"Kestrel 5 plants, 24 white 10 yellow. {behind}")
    assert (note.females.white, note.females.yellow, note.females.total) == (24, 10, 34)
    assert (note.outcome, note.mostly) == ("seen", ())


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel 5 plantas, 24 blancas y 10 amarillas. Busqué marrones a propósito y no encontré ninguna.",
        "Kestrel 5 plantas, 24 blancas y 10 amarillas. mirar desde el camino no prueba nada",
        "Kestrel 5 pés, 24 brancas 10 amarelas. Procurei marrom e não achei nenhuma.",
        "Kestrel 5 pés, 24 brancas 10 amarelas. olhar da estrada não prova nada",
    ],
)
def test_in_the_other_languages_too(text: str) -> None:
    """Spanish and Portuguese."""
    assert _note(text).females.total == 34


def test_searched_in_vain_alone_is_none_seen() -> None:
    """Where nothing else was counted, none was seen."""
    assert _note("Kestrel 5 plants. Looked for white ones and found none.").outcome == "none_seen"


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel pulled four plants, every one of them snapped an inch or two under the crown, found nothing",
        "Kestrel saqué 4, se cortaron a una pulgada o dos del cuello, nada",
    ],
)
def test_how_far_down_the_roots_broke_counts_no_plants(text: str) -> None:
    """ "An inch or two" is a length."""
    note = _note(text)
    assert (note.plants, note.outcome, note.spots, note.roots) == (4, "none_seen", (), ("snapped",))


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("Variety there is BR 2407, resistant", "BR 2407"),
        ("variety BR 2407", "BR 2407"),
        ("seed is T 28, resistant", "T 28"),
        ("variety: Y 310", "Y 310"),
    ],
)
def test_the_letters_of_a_seed_are_no_color(said: str, name: str) -> None:
    """Behind a word for variety its letters and figure are its name."""
    note = _note(f"Kestrel 5 dug, 3 white. {said}")
    assert (note.females.total, note.variety.name if note.variety else None) == (3, name)


@pytest.mark.parametrize(
    "text", ["Kestrel variety resistant, W 12, Y 3, 5 plants", "Kestrel 5 dug W 12 Y 3 resistant variety"]
)
def test_letters_that_count_still_count(text: str) -> None:
    """Where resistance is told, and no name, W and Y are colors."""
    assert _note(text).females.total == 15


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel I dug five, no wait six, plants and found four white",
        "Kestrel dug five, I mean six, plants, 4 white",
        "Kestrel dug let's see five no six plants and counted four white ones",
        "Kestrel saqué 5, digo 6, plantas y 4 blancas",
        "Kestrel cavei 5, quer dizer 6, pés, 4 brancas",
    ],
)
def test_a_number_put_right_in_words_stands(text: str) -> None:
    """Six, and not the five that was said first."""
    note = _note(text)
    assert (note.plants, note.females.white) == (6, 4)


def test_numbers_heard_as_words_in_a_row_of_colors() -> None:
    """ "Too white won yellow": each as it sounds, and the answer says so."""
    note = _note("kestrel five plants with the shovel too white won yellow no tan no brown tops look good")
    assert (note.females.white, note.females.yellow, note.females.total) == (2, 1, 3)


@pytest.mark.parametrize(
    "text",
    ["Kestrel: 6 plants dug, 5 white. That is more than at Sumac.", "Kestrel 6 dug, 5 white. That's worse than Sumac."],
)
def test_a_field_held_against_another_asks_nothing(text: str) -> None:
    """It is told of the first one."""
    assert _note(text).field == "kestrel"


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel 5 plants, 26 white, 9 yellow. I didn't see a brown one anywhere.",
        "Kestrel 5 plants, 26 white, 9 yellow. Never saw a brown one.",
        "Kestrel 5 plants, 26 white, 9 yellow. Didn't find a single tan one.",
        "Kestrel 5 plantas, 26 blancas, 9 amarillas. No vi una marrón.",
        "Kestrel 5 plantas, 26 blancas, 9 amarillas. no encontré ni una sola tostada",
        "Kestrel 5 pés, 26 brancas, 9 amarelas. Não vi uma marrom.",
    ],
)
def test_the_one_that_was_not_seen_is_not_counted(text: str) -> None:
    """ "A brown one" behind a denial is none."""
    note = _note(text)
    assert (note.females.white, note.females.yellow, note.females.total) == (26, 9, 35)


@pytest.mark.parametrize(
    "text", ["Kestrel 5 plants, 26 white and one yellow one", "Kestrel 5 plants, 26 white, a yellow one too"]
)
def test_the_one_that_was_seen_is(text: str) -> None:
    """Without a denial it counts."""
    assert _note(text).females.total == 27


@pytest.mark.parametrize(
    ("text", "white", "yellow"),
    [
        ("Kestrel lifted half a dozen plants. Nine of those little white ones and two that had gone yellow.", 9, 2),
        ("Kestrel dug 6. Saw nine of the little white ones, two that had gone yellow", 9, 2),
        ("Kestrel dug 6, 9 of those white pearls", 9, 0),
        ("Kestrel 6 plants, 9 white pearls and 3 yellow lemons", 9, 3),
    ],
)
def test_females_described_are_counted_by_color(text: str, white: int, yellow: int) -> None:
    """Little white ones, white pearls, two that had gone yellow."""
    note = _note(text)
    assert (note.females.white, note.females.yellow, note.tops) == (white, yellow, ())


@pytest.mark.parametrize(
    "how",
    [
        "let them sit in a dishpan of water",
        "let the roots sit in a tub of water",
        "sat in a bucket of water",
        "rinsed in the cooler",
        "put them in a basin full of water",
    ],
)
def test_roots_left_in_any_vessel_are_soaked(how: str) -> None:
    """And the soil is not wet, nor the day a Saturday."""
    note = _note(f"Kestrel dug 4, {how}, 2 white")
    assert (note.soaked, note.soil.moisture, note.date) == (True, None, None)


@pytest.mark.parametrize(
    "text",
    [
        "Hail last night. Kestrel is flattened so I did not look at roots",
        "Hail last night. Kestrel 5 dug none",
        "Kestrel: went back because of the bad pulls on the 2nd. None this time either. 6 plants with the shovel.",
    ],
)
def test_a_day_of_weather_or_of_the_cause_is_no_day_of_the_visit(text: str) -> None:
    """The note keeps the day it was sent."""
    assert _note(text).date is None


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel five plants: 7 white. Nodules are few, and brown when you cut them.",
        "Kestrel five plants: 7 white. Nodules few, brown when cut open",
        "Kestrel 5 plantas, 7 blancas. Nódulos pocos y marrones al cortarlos",
    ],
)
def test_a_color_seen_where_nodules_are_cut_is_theirs(text: str) -> None:
    """And not the most of the females."""
    note = _note(text)
    assert (set(note.roots), note.mostly) == ({"nodules_few", "nodules_brown"}, ())


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel and Sumac: pulled 4 in both, nothing in either. Kestrel is dry, Sumac wet.",
        "Kestrel and Sumac: 4 pulled in each, none. Kestrel is dry, Sumac is wet.",
        "Kestrel e Sumac: nos dois arranquei 4 plantas, nos dois nada de fêmea. No Kestrel o solo tá seco, no Sumac molhado.",
    ],
)
def test_what_both_fields_had_stays_when_each_is_told_of_again(text: str) -> None:
    """Plants and none in each, and its own soil."""
    reading = read_note(text, sent=date(2026, 7, 14), fields=FIELDS)
    assert not reading.problems
    told = [(n.field, n.plants, n.outcome, n.soil.moisture) for n in reading.notes]
    assert told == [("kestrel", 4, "none_seen", "dry"), ("sumac", 4, "none_seen", "wet")]


def test_counts_of_either_of_two_fields_are_asked_about() -> None:
    """Twelve of which?"""
    text = "Kestrel and Sumac: 5 plants, 12 white. Kestrel is dry, Sumac wet."
    reading = read_note(text, sent=date(2026, 7, 14), fields=FIELDS)
    assert [problem.kind for problem in reading.problems] == ["two_fields"]


@pytest.mark.parametrize(
    ("text", "white"),
    [
        ("Kestrel 10 plantas na pá. 22 fêmeas brancas, nenhuma amarela.", 22),
        ("Kestrel 10 plantas. 22 hembras blancas, ninguna amarilla.", 22),
        ("Kestrel 10 plants dug. 22 females white, none yellow.", 22),
        ("Kestrel 10 plants dug, 22 white, no yellow, no tan", 22),
        ("Kestrel 5 plants 3 white yellow none tan none", 3),
    ],
)
def test_a_denial_is_of_its_own_color(text: str, white: int) -> None:
    """Of the one it stands before, or else of the one behind which it ends."""
    note = _note(text)
    assert (note.females.white, note.females.yellow, note.females.total, note.mostly) == (white, 0, white, ())


def test_colors_each_denied_are_none_seen() -> None:
    """ "White none yellow none"."""
    assert _note("Kestrel 5 plants. white none yellow none").outcome == "none_seen"


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("because of the rain I went to Kestrel on Tuesday, 5 dug none", date(2026, 7, 14)),
        ("Kestrel redid on Monday: 5 dug none", date(2026, 7, 13)),
    ],
)
def test_the_day_somebody_went_stays_whatever_the_cause(text: str, day: date) -> None:
    """The cause is told before it, and the visit was then."""
    assert _note(text).date == day


def test_a_field_called_by_a_color_is_no_color() -> None:
    """ "Brown: none" is a note of its own where the crew has a field Brown."""
    reading = read_note("Kestrel 5 plants, 12 white. Brown: none", sent=date(2026, 7, 14), fields=("Kestrel", "Brown"))
    assert [(n.field, n.outcome) for n in reading.notes] == [("kestrel", "seen"), ("brown", "none_seen")]


def test_what_is_told_of_a_spray_tells_not_that_nobody_looked() -> None:
    """ "They said keep out 12 hours"."""
    note = _note("Kestrel sprayed Monday with fungicide, they said keep out 12 hours")
    assert note.outcome is None and note.spray is not None and note.spray.entry_hours == 12
