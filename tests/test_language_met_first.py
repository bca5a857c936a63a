"""Ways of a crew met for the first time: earlier looks held against this one, sums by color, places dug first."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from notes_bot.language import read_note
from notes_bot.model import Note, Reading

SENT = date(2026, 7, 8)
CREW = ("Kestrel", "Old Mill East", "Dry Creek", "Tinkers", "Harrow Ridge 3", "Ridge Top", "La Loma", "Baixada")


def read(text: str, language: str = "en") -> Reading:
    """One message of the crew's, without a question back."""
    reading = read_note(text, sent=SENT, fields=CREW, language=language, day_first=language != "en")  # type: ignore[arg-type]

    assert not reading.problems, reading.problems
    return reading


def told(note: Note) -> dict[str, Any]:
    """What a note holds of counts, flat: plants, colors that were counted, outcome."""
    females = {shade: getattr(note.females, shade) for shade in ("white", "yellow", "tan", "brown", "total")}
    return {"plants": note.plants, "outcome": note.outcome, **{k: v for k, v in females.items() if v}}


@pytest.mark.parametrize(
    ("text", "language", "expected"),
    [
        ("kestrel: 11w 2y on 8, was 5w. dug", "en", {"plants": 8, "white": 11, "yellow": 2, "total": 13}),
        ("kestrel 8 pl 11w 2y (was 5w)", "en", {"plants": 8, "white": 11, "yellow": 2, "total": 13}),
        ("kestrel 8 pl 11w, up from 5w", "en", {"plants": 8, "white": 11, "total": 11}),
        ("kestrel 8 pl 11w vs 5w last visit", "en", {"plants": 8, "white": 11, "total": 11}),
        ("kestrel went from 2w to 14w, 5 plts dug", "en", {"plants": 5, "white": 14, "total": 14}),
        ("kestrel. Two weeks back I had 3 on six plants, now six plants gave me 19", "en", {"plants": 6, "total": 19}),
        ("kestrel had 3 white on 6 plants last time, now 19 white on 6", "en", {"plants": 6, "white": 19, "total": 19}),
        ("kestrel, last time was 4 now 13 white off 6 pulled plants", "en", {"plants": 6, "white": 13, "total": 13}),
        (
            "kestrel, to compare with 6/27 (7 white on 5 plants): today 5 plants, 12 white",
            "en",
            {"plants": 5, "white": 12, "total": 12},
        ),
        (
            "kestrel. Prior insp W2, now W14 Y22, 5 plts dug",
            "en",
            {"plants": 5, "white": 14, "yellow": 22, "total": 36},
        ),
        ("la loma 6 plantas, antes 3 blancas, ahora 12 blancas", "es", {"plants": 6, "white": 12, "total": 12}),
        ("la loma 6 plantas, 12 blancas, eran 5 blancas", "es", {"plants": 6, "white": 12, "total": 12}),
        ("baixada 6 pés, 12 brancas, eram 5", "pt", {"plants": 6, "white": 12, "total": 12}),
    ],
)
def test_counts_of_an_earlier_look_are_none_of_this_one(text: str, language: str, expected: dict[str, Any]) -> None:
    (note,) = read(text, language).notes

    assert told(note) == {"outcome": "seen", **expected}


@pytest.mark.parametrize("text", ["kestrel 8 plants, was 6", "kestrel white 14, was 12"])
def test_what_was_without_a_look_beside_it_is_asked_about(text: str) -> None:
    assert read_note(text, sent=SENT, fields=CREW).problems


@pytest.mark.parametrize(
    ("text", "language"),
    [
        (
            "kestrel 6 plants, seventeen white, no wait I've got it written down here, nineteen white and four yellow",
            "en",
        ),
        ("kestrel 6 plants, 17 white, actually looking at my notes, 19 white 4 yellow", "en"),
        ("kestrel 6 plants. 17 white. No wait let me check my notebook. 19 white and 4 yellow.", "en"),
        ("la loma 6 plantas, 17 blancas, no espera lo tengo anotado acá, 19 blancas y 4 amarillas", "es"),
        ("baixada 6 pés, 17 brancas, não espera deixa eu ver aqui, 19 brancas e 4 amarelas", "pt"),
    ],
)
def test_the_count_looked_up_stands_for_the_first(text: str, language: str) -> None:
    (note,) = read(text, language).notes

    assert told(note) == {"plants": 6, "outcome": "seen", "white": 19, "yellow": 4, "total": 23}


@pytest.mark.parametrize(
    ("text", "language", "expected"),
    [
        (
            "kestrel dug 6. 15 white, 12 yellow, 4 tan, 1 brown = 32",
            "en",
            {"white": 15, "yellow": 12, "tan": 4, "brown": 1, "total": 32},
        ),
        ("kestrel dug 6 15w 12y =27", "en", {"white": 15, "yellow": 12, "total": 27}),
        ("kestrel dug 6, 15 white, 12 yellow (27)", "en", {"white": 15, "yellow": 12, "total": 27}),
        ("kestrel dug 6, 15 white, 12 yellow, so 27", "en", {"white": 15, "yellow": 12, "total": 27}),
        ("kestrel dug 6, 30, mostly brn", "en", {"total": 30}),
        ("kestrel 6 pulled - 30 - all white", "en", {"white": 30, "total": 30}),
        ("la loma 6 plantas, 30, casi todas marrones", "es", {"total": 30}),
        (
            "kestrel 6 plants 0, 4, 2, 0, 6, 0. White all but one, which was yellow",
            "en",
            {"white": 11, "yellow": 1, "total": 12},
        ),
        (
            "kestrel 6 plants 0, 4, 2, 0, 6, 0, white except for 2 which were yellow",
            "en",
            {"white": 10, "yellow": 2, "total": 12},
        ),
        (
            "kestrel 6 plants 0, 4, 2, 0, 6, 0. one yellow, the others white",
            "en",
            {"white": 11, "yellow": 1, "total": 12},
        ),
        (
            "baixada 6 pés 0, 4, 2, 0, 6, 0. brancas todas menos uma, que era amarela",
            "pt",
            {"white": 11, "yellow": 1, "total": 12},
        ),
    ],
)
def test_colors_told_as_parts_of_a_sum(text: str, language: str, expected: dict[str, Any]) -> None:
    (note,) = read(text, language).notes

    assert told(note) == {"plants": 6, "outcome": "seen", **expected}


def test_a_sum_that_does_not_fit_is_asked_about() -> None:
    (problem,) = read_note("kestrel dug 6, 15 white, 12 yellow = 28", sent=SENT, fields=CREW).problems

    assert problem.kind == "sum_mismatch"


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("kestrel 6 plants, spade. NEG. V3", "en"),
        ("kestrel 6 pl dug, negative", "en"),
        ("la loma 6 plantas con pala, negativo", "es"),
    ],
)
def test_negative_alone_is_none_seen(text: str, language: str) -> None:
    (note,) = read(text, language).notes

    assert told(note) == {"plants": 6, "outcome": "none_seen"}


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("was gonna do dry creek but theres a spray sign on the gate 24 hr no entry so i left", "en"),
        ("dry creek gate was locked so i left", "en"),
        ("dry creek: sign says no entry so i turned around", "en"),
        ("la loma, había cartel de fumigado, me fui", "es"),
        ("baixada tinha placa de entrada proibida, fui embora", "pt"),
    ],
)
def test_kept_out_and_gone_again_is_not_looked(text: str, language: str) -> None:
    (note,) = read(text, language).notes

    assert note.outcome == "not_looked"


@pytest.mark.parametrize("told_so", ["Reinsp 10 days", "reinspect in 10 d", "re-insp 10 days"])
def test_the_next_inspection_is_the_next_look(told_so: str) -> None:
    (note,) = read(f"kestrel 5 plts dug. W 2. {told_so}").notes

    assert note.look_again is not None
    assert note.look_again.days == 10


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("8 plants at tinkers. Six had females, around 3 each", "en"),
        ("kestrel 8 plants, six were infested, about 3 on each", "en"),
        ("la loma 8 plantas, seis tenían hembras, unas 3 cada una", "es"),
        ("baixada 8 pés, seis com fêmeas, umas 3 em cada", "pt"),
    ],
)
def test_so_many_of_the_plants_had_so_many_each(text: str, language: str) -> None:
    (note,) = read(text, language).notes

    assert told(note) == {"plants": 8, "outcome": "seen", "total": 18}


@pytest.mark.parametrize(
    "text",
    [
        "got 5 from kestrel just now. 3 clean, other 2 had 4 and 6 whites",
        "got 5 at kestrel this morning, 3 none, 2 had 4 and 6 white",
    ],
)
def test_plants_got_from_a_field_are_those_told_one_by_one(text: str) -> None:
    (note,) = read(text).notes

    assert told(note) == {"plants": 5, "outcome": "seen", "white": 10, "total": 10}
    assert note.per_plant == (0, 0, 0, 4, 6)


@pytest.mark.parametrize(
    ("text", "places"),
    [
        (
            "kestrel. Dug four along the road and four back by the trees. Road had two white ones, trees nothing.",
            [("road", 4, 2), ("trees", 4, 0)],
        ),
        (
            "kestrel. Dug three inside it and three outside. Inside 26 white and 5 yellow. Outside I found four yellow.",
            [("inside", 3, 31), ("outside", 3, 4)],
        ),
        (
            "kestrel dug 3 up by the barn and 4 down along the creek. barn 2 white, creek none",
            [("barn", 3, 2), ("creek", 4, 0)],
        ),
    ],
)
def test_places_dug_first_and_told_after(text: str, places: list[tuple[str, int, int]]) -> None:
    (note,) = read(text).notes

    assert [(spot.name, spot.plants, spot.females.total) for spot in note.spots] == places
