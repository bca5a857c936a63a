"""Where a message goes on to another field in the midst of prose, and where it only mentions one."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import Note

SENT = date(2026, 7, 8)
FIELDS = (
    *("Kestrel", "Tinker's", "Schoolhouse", "Crow Lane", "Cobbler Ridge", "Turnpike", "Depot", "Wagoner", "Grain Leg"),
    *("Los Teros", "Monte Chico", "Loma Alta", "La Represa", "El Chañar", "Paso Hondo", "La Merced", "Ferris", "Dilly"),
    *("Sete Curvas", "Olho d'Água", "Retiro Novo", "Barreiro", "Jatobá", "Santa Zita", "Mangueiral"),
)
KESTREL = "Kestrel: 6 plants dug, 5 white. "
REPRESA = "La Represa: 5 plantas con pala, 3 blancas. "
JATOBA = "Jatobá: 6 plantas com pá, 13 brancas. "


def _told(note: Note) -> tuple[object, ...]:
    return (note.field, note.plants, note.females.total)


def _notes(text: str) -> tuple[Note, ...]:
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert not reading.problems, [(p.kind, p.where.text) for p in reading.problems]
    return reading.notes


@pytest.mark.parametrize(
    ("text", "field", "plants", "total"),
    [
        (
            KESTREL + "After that the Cobbler Ridge field, seven plants with the same spade, none.",
            "cobbler ridge",
            7,
            0,
        ),
        (KESTREL + "Next up was Turnpike, 7 plants dug and not a single female.", "turnpike", 7, 0),
        (KESTREL + "From there I went on to Turnpike, where I pulled four plants and saw none.", "turnpike", 4, 0),
        (KESTREL + "Finally Turnpike, which lies low, and there on another 6 plants I saw none.", "turnpike", 6, 0),
        (KESTREL + "Last of all, Turnpike, where we did not dig because it got dark.", "turnpike", None, None),
        (
            KESTREL + "On the other hand in Turnpike, which is low, on 5 plants dug there were 2 white.",
            "turnpike",
            5,
            2,
        ),
        (KESTREL.rstrip(" .") + ", then on to Turnpike, another six dug, none.", "turnpike", 6, 0),
        ("crow lane six plants dug seven white next one is schoolhouse six plants dug none", "schoolhouse", 6, 0),
        ("crow lane six plants dug seven white next field is schoolhouse six plants dug none", "schoolhouse", 6, 0),
        ("crow lane six plants dug seven white then we have schoolhouse six plants dug none", "schoolhouse", 6, 0),
        ("crow lane six dug seven white and after that turnpike five dug none", "turnpike", 5, 0),
        (
            REPRESA + "Después seguí a Los Teros, que está cruzando, y ahí en otras 6 plantas no vi ninguna.",
            "los teros",
            6,
            0,
        ),
        (REPRESA + "En cambio en Monte Chico, que es bajo, en 5 plantas aparecieron 2 blancas.", "monte chico", 5, 2),
        (REPRESA + "Por último, Monte Chico, donde no sacamos nada.", "monte chico", None, None),
        (REPRESA + "Luego pasé por Monte Chico, 5 plantas con pala, nada.", "monte chico", 5, 0),
        ("La Represa 5 plantas con pala 3 blancas después Monte Chico 5 plantas con pala nada", "monte chico", 5, 0),
        (
            "La Represa 5 plantas con pala 3 blancas, y de ahí a Monte Chico, otras 5 con pala, nada",
            "monte chico",
            5,
            0,
        ),
        (JATOBA + "Seguimos para Olho d'Água, mais\n6 plantas com pá, nenhuma fêmea.", "olho d'água", 6, 0),
        (JATOBA + "Por último, Retiro Novo, onde não tiramos nada.", "retiro novo", None, None),
        (JATOBA + "Já no Retiro Novo, que é baixo, em 5 plantas com pá apareceram 2 brancas.", "retiro novo", 5, 2),
        ("jatobá 6 plantas com pá 13 brancas o próximo é retiro novo 5 plantas com pá nada", "retiro novo", 5, 0),
        ("jatobá 6 plantas com pá 13 brancas depois retiro novo 5 plantas com pá nada", "retiro novo", 5, 0),
        (JATOBA + "\n\nBarreiro, também na sexta, 6 plantas com pá e nenhuma fêmea.", "barreiro", 6, 0),
        (JATOBA + "Barreiro também, 6 plantas com pá e nenhuma fêmea.", "barreiro", 6, 0),
    ],
)
def test_a_message_goes_on_to_another_field(text: str, field: str, plants: int | None, total: int | None) -> None:
    first, second = _notes(text)
    assert first.females.total in (3, 5, 7, 13)
    assert _told(second) == (field, plants, total)


@pytest.mark.parametrize(
    "text",
    [
        KESTREL + "That is more than at Turnpike.",
        KESTREL + "Next I will do Turnpike.",
        KESTREL + "Near Turnpike the road is closed.",
        "Kestrel, next to Turnpike: 6 plants dug, 5 white.",
        REPRESA + "Después seguí a Monte Chico a dejar la camioneta.",
        "La Represa, cerca de Monte Chico: 5 plantas con pala, 3 blancas.",
        "La Represa, al lado de Monte Chico, 5 plantas con pala, 3 blancas.",
        JATOBA + "Depois segui para Retiro Novo pra almoçar.",
        "Santa Zita, perto do Mangueiral: 5 plantas com pá, 3 brancas.",
        JATOBA + "Seco, sem chuva.",
    ],
)
def test_a_field_in_passing_begins_no_note(text: str) -> None:
    (note,) = _notes(text)
    assert note.plants in (5, 6)
    assert note.females.total in (3, 5, 13)


@pytest.mark.parametrize(
    "text",
    [
        "V7 ferris 6 pulled none\nV8 dilly 6 pulled 2 w",
        "V7 ferris 6 pulled none, V8 dilly 6 pulled 2 w",
        "V7, ferris 6 pulled none\nV8, dilly 6 pulled 2 w",
        "V7 - ferris - 6 pulled - none\nV8 - dilly - 6 pulled - 2 w",
        "ferris 6 pulled none, V7\ndilly 6 pulled 2 w, V8",
        "ferris 6 pulled none, V7, dilly 6 pulled 2 w, V8",
        "ferris 6 pulled none. V7. dilly 6 pulled 2 w. V8",
        "ferris 6 pulled none\nV7\ndilly 6 pulled 2 w\nV8",
    ],
)
def test_a_stage_before_or_behind_each_name(text: str) -> None:
    assert [(note.field, note.stage) for note in _notes(text)] == [("ferris", "V7"), ("dilly", "V8")]


DEPOT = "Depot: 8 dug, 9 white. Wagoner: 6 dug, none. "
JATOBA_ZITA = "Jatobá: 6 com pá, 5 brancas. Santa Zita: 6 com pá, nada. "


@pytest.mark.parametrize(
    ("text", "first", "second"),
    [
        (DEPOT + "I cannot explain Wagoner, and neither can the man who farms it.", {}, {}),
        (DEPOT + "Depot had wheat last year.", {}, {}),
        (DEPOT + "Look again in 10 days at Depot.", {"look_again": 10}, {}),
        (DEPOT + "I will see Depot again in two weeks.", {"look_again": 14}, {}),
        (DEPOT + "Depot is a silt loam and Wagoner is sand.", {"texture": "silt_loam"}, {"texture": "sand"}),
        (DEPOT + "Depot looks stunted from the road.", {"tops": ("stunted",)}, {}),
        (JATOBA_ZITA + "Na Jatobá volto em 10 dias.", {"look_again": 10}, {}),
        (JATOBA_ZITA + "A Jatobá está em R3 e a Santa Zita em R2.", {"stage": "R3"}, {"stage": "R2"}),
        (
            "Paso Hondo: 6 con pala, 5 blancas. La Merced: 6 con pala, nada. Paso Hondo está en R3 y La Merced en R2.",
            {"stage": "R3"},
            {"stage": "R2"},
        ),
        (
            "Paso Hondo: 6 con pala, 5 blancas. La Merced: 6 con pala, nada. Paso Hondo me preocupa.",
            {},
            {},
        ),
    ],
)
def test_a_field_told_of_again_begins_no_second_note(
    text: str, first: dict[str, object], second: dict[str, object]
) -> None:
    notes = _notes(text)
    assert len(notes) == 2
    for note, told in zip(notes, (first, second), strict=True):
        days = note.look_again.days if note.look_again else None
        said = {"look_again": days, "texture": note.soil.texture, "stage": note.stage, "tops": note.tops or None}
        assert {key: value for key, value in said.items() if value is not None} == told


def test_more_plants_of_a_field_are_another_note() -> None:
    notes = _notes(DEPOT + "Depot again: 4 dug, 3 white.")
    assert [_told(note) for note in notes] == [("depot", 8, 9), ("wagoner", 6, 0), ("depot", 4, 3)]


def test_digging_told_before_each_field_is_of_that_field() -> None:
    reading = read_note("pulled 5 in kestrel and eased out 3 at tinkers", sent=SENT, fields=FIELDS)
    told = [(note.field, note.plants, note.method) for note in reading.notes]
    assert told == [("kestrel", 5, "pulled"), ("tinkers", 3, "eased")]


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("Kestrel was dug on Monday, 6 plants, 2 white.\nTurnpike was dug the same day, 6 plants, none.", (6, 6)),
        (
            "La Merced el lunes: 6 plantas con pala, 2 blancas.\nEl Chañar el mismo día: 6 plantas con pala, nada.",
            (6, 6),
        ),
        (
            "La Merced el lunes 6 plantas con pala 2 blancas. Paso Hondo esa misma tarde 6 plantas con pala nada.",
            (6, 6),
        ),
        ("Santa Zita na segunda: 6 plantas com pá, 2 beges. Mangueiral no mesmo dia, 6 plantas com pá, nada.", (6, 6)),
        ("Segunda\nSanta Zita: 8 plantas, pá, nada\nTerça\nJatobá: 8 plantas, pá, nada", (6, 7)),
        (
            "Monday\nKestrel: 8 plants dug, 2 white\nDepot: 8 plants dug, none\n\n"
            "Tuesday\nTurnpike: not looked, rain\nWagoner: 5 pulled, 1 white",
            (6, 6, 7, 7),
        ),
        ("Lunes\nLa Merced: 8 plantas, pala, nada\n\nMartes\nPaso Hondo: 8 plantas, pala, nada", (6, 7)),
    ],
)
def test_a_day_holds_for_the_fields_below_it(text: str, days: tuple[int, ...]) -> None:
    told = [note.date for note in _notes(text)]
    assert told == [date(2026, 7, day) for day in days]


@pytest.mark.parametrize(
    "text",
    [
        "Recorrida de ayer, siempre 6 plantas con pala por lote, todo en R3.\nLa Merced: 2 blancas.\nLos Teros: nada.",
        "Yesterday's round, always 6 plants dug per field, all at R3.\nKestrel: 2 white.\nTurnpike: none.",
        "Roteiro de ontem, sempre 6 plantas com pá por talhão, tudo em R3.\nSanta Zita: 2 brancas.\nMangueiral: nada.",
    ],
)
def test_always_heads_the_lines_and_is_no_field(text: str) -> None:
    told = [(note.date, note.plants, note.method, note.stage, note.females.total) for note in _notes(text)]
    yesterday = (date(2026, 7, 7), 6, "shovel", "R3")
    assert told == [(*yesterday, 2), (*yesterday, 0)]


def test_who_is_sorry_names_no_field() -> None:
    text = (
        "Mangueiral: 7 plantas com pá, 9 marrons.\nCorrijam Santa Zita: eram 14 marrons e não 4.\nDesculpem a confusão."
    )
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert [note.field for note in reading.notes] == ["mangueiral"]
    assert [(c.kind, c.args["field"], c.args["value"]) for c in reading.commands] == [("correct", "santa zita", 14)]


@pytest.mark.parametrize(
    ("text", "field", "plants"),
    [
        ("Willow Bend: 6 plants dug, 5 white. After that the Turner Hill field, 7 plants dug, none.", "turner hill", 7),
        ("Willow Bend: 6 plants dug, 5 white. Next up was Turner Hill, 7 plants dug and no females.", "turner hill", 7),
        (
            "La Pradera: 6 plantas con pala, 5 blancas. Después seguí a Los Sauces, otras 7 con pala, nada.",
            "los sauces",
            7,
        ),
        (
            "Boa Sorte: 6 plantas com pá, 5 brancas. Seguimos para Morro Azul, mais 7 plantas com pá, nada.",
            "morro azul",
            7,
        ),
    ],
)
def test_a_field_no_list_has_is_gone_on_to(text: str, field: str, plants: int) -> None:
    reading = read_note(text, sent=SENT)
    assert [(note.field, note.plants) for note in reading.notes][1:] == [(field, plants)]
    assert not reading.problems


@pytest.mark.parametrize(
    ("text", "plants"),
    [
        ("Kestrel 6 plants 4 white. Then drove over to Depot, ate a pickle, dug eight more, none.", 8),
        ("Kestrel first: 6 plants, 4 white. Then drove over to Depot, ate my sandwich, dug six more, none", 6),
        ("Kestrel. Half an hour later: 6 plants 4 white. Then on to Depot, bought a coke, dug 7, none", 7),
        ("Kestrel 6 plantas 4 blancas. Después seguí a Depot, comí algo, saqué 6 plantas con pala, nada", 6),
    ],
)
def test_what_is_done_on_the_way_is_no_place(text: str, plants: int) -> None:
    first, second = _notes(text)

    assert _told(first) == ("kestrel", 6, 4)
    assert _told(second) == ("depot", plants, 0)
    assert not first.spots


def test_a_field_whose_name_is_a_place_begins_its_note_with_a_look() -> None:
    """ "Ditch had 4 white on 5 plants": in capitals at the head of a sentence, and no ditch of the field before."""
    text = "Kestrel: 5 dug 3 white. Ditch had 4 white on 5 plants."
    reading = read_note(text, sent=SENT, fields=("Kestrel", "Ditch"))
    assert [(n.field, n.plants, n.females.total) for n in reading.notes] == [("kestrel", 5, 3), ("ditch", 5, 4)]
    places = read_note(
        "Kestrel 10 dug. Gate 5 plants 3 white. Ditch 5 plants 2 white.", sent=SENT, fields=("Kestrel", "Ditch")
    )
    assert [(n.field, len(n.spots)) for n in places.notes] == [("kestrel", 2)]
