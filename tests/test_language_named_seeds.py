"""Varieties named by a word and a figure, which no list has: the figure is never counted."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import Language, Note

SENT = date(2026, 7, 8)
FIELDS = ("Kestrel", "Gravel Pit", "Tinker's", "La Tranquera", "Baixada")


def read(text: str, language: Language = "en") -> Note:
    reading = read_note(text, sent=SENT, fields=FIELDS, language=language)
    assert not reading.problems, reading.problems
    (note,) = reading.notes
    return note


def told(note: Note) -> tuple[str | None, int | None, int | None]:
    return (note.variety.name if note.variety else None), note.plants, note.females.total


@pytest.mark.parametrize(
    ("text", "language", "expected"),
    [
        ("Kestrel Peking bean (Corvale 21), 6 dug: 0 0 0 1 0 0. R2", "en", ("Corvale 21", 6, 1)),
        ("Kestrel. Susceptible bean (Orrin 19). 5 plants / spade / 44 white 9 yellow", "en", ("Orrin 19", 5, 53)),
        ("Variety QT 2214, Peking resistant, at Kestrel. Dug 8, 1 white", "en", ("QT 2214", 8, 1)),
        ("kestrel bean is LR26N (resistant, 88788). 14 w 6 y on 6 dug.", "en", ("LR26N", 6, 20)),
        ("Kestrel var HB31 susceptible, spade 5, 40 all white", "en", ("HB31", 5, 40)),
        ("Kestrel cv AR 4411 XF, 6 plants, 12 white", "en", ("AR 4411 XF", 6, 12)),
        ("Kestrel, the bean there is Tamsett 27. 6 plants 12 white", "en", ("Tamsett 27", 6, 12)),
        ("Kestrel 88788 bean Corvale 21, 6 dug none", "en", ("Corvale 21", 6, 0)),
        ("Kestrel resistant (88788, Corvale 21) 6 dug none", "en", ("Corvale 21", 6, 0)),
        ("Kestrel variety IRP 55 resistant PI 88788: 8 pl 6 w", "en", ("IRP 55", 8, 6)),
        ("Kestrel variety S22-T7, sus, 8 dug 90 yellow", "en", ("S22-T7", 8, 90)),
        ("Kestrel has Delmar 27 in it, dug 6, 12 white", "en", ("Delmar 27", 6, 12)),
        ("Kestrel susceptible check Orrin 19: 4 plants 40 white. Rest 6 plants 2 white", "en", (None, 6, 2)),
        ("La Tranquera, soja Lapacho 58, 6 plantas ninguna", "es", ("Lapacho 58", 6, 0)),
        (
            "en la tranquera la variedad resistente de fuente peking que se llama Lapacho 58 tiene seis plantas "
            "con una hembra amarilla",
            "es",
            ("Lapacho 58", 6, 1),
        ),
        ("La Tranquera la Lapacho 58 tiene 12 blancas en 6 plantas", "es", ("Lapacho 58", 6, 12)),
        ("Baixada, susc. VB 12, pá, 3 0 9 4, volto em 1 semana", "pt", ("VB 12", 4, 16)),
        ("baixada a siriema 70 tem cinco plantas com uma branca", "pt", ("siriema 70", 5, 1)),
        ("Baixada: cultivar suscetível Mutum 60, V5, arrancadas 6, 1 amarela", "pt", ("Mutum 60", 6, 1)),
        ("Baixada com a Siriema 70, 6 plantas, 12 brancas", "pt", ("Siriema 70", 6, 12)),
    ],
)
def test_a_word_and_a_figure_beside_words_of_seed_name_a_variety(text, language, expected):
    assert told(read(text, language)) == expected


@pytest.mark.parametrize(
    ("text", "plants", "females"),
    [
        ("Kestrel susceptible variety Dug 12, 4 white", 12, 4),
        ("Kestrel with Dave 12 plants 3 white", 12, 3),
        ("Kestrel resistant, R3, 12 plants, 14 white", 12, 14),
        ("Kestrel resistant bean Looks fine 12 plants none", 12, 0),
        ("Kestrel Peking dug 12, 4 white", 12, 4),
        ("KESTREL SUSC VAR DUG 12, 4 WHITE", 12, 4),
        ("La Tranquera variedad resistente Saqué 12 plantas 4 blancas", 12, 4),
        ("Baixada com o Pedro 12 pés 4 brancas", 12, 4),
    ],
)
def test_a_figure_that_counts_is_no_name(text, plants, females):
    language: Language = "es" if "Tranquera" in text else "pt" if "Baixada" in text else "en"
    note = read(text, language)
    assert (note.plants, note.females.total) == (plants, females)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Strip trial @ Gravel Pit, all dug. Susc check: 4 plants, 61 females. Brell 2409: 4 plants, 3 females. "
            "Brell 2817: 4 plants, 17 females.",
            [("susc check", 4, 61), ("brell 2409", 4, 3), ("brell 2817", 4, 17)],
        ),
        (
            "Kestrel susceptible check 5 plants 112 females; variety Tamsett 27: 5 plants 9 females",
            [("susceptible check", 5, 112), ("tamsett 27", 5, 9)],
        ),
        (
            "Gravel Pit R5 - 88788 side 5 plants 24 females, Peking side 5 plants 2 females",
            [("88788 side", 5, 24), ("peking side", 5, 2)],
        ),
        (
            "Kestrel strips: Corvale 21 5 plants 2 white, Corvale 30 5 plants 9 white, check 5 plants 44 white",
            [("corvale 21", 5, 2), ("corvale 30", 5, 9), ("check", 5, 44)],
        ),
        (
            "Kestrel Peking half 5 dug 1 white, 88788 half 5 dug 14 white",
            [("peking half", 5, 1), ("88788 half", 5, 14)],
        ),
    ],
)
def test_strips_told_by_their_seed_are_places(text, expected):
    """What was counted apart on each variety is kept apart."""
    spots = read(text).spots
    assert [(spot.name, spot.plants, spot.females.total) for spot in spots] == expected
    assert [spot.check for spot in spots] == ["check" in (spot.name or "") for spot in spots]


def test_a_day_with_its_month_as_a_number_is_told_beside_the_seed():
    """ "Dia 3 do 10": the third of October."""
    text = "a baixada foi plantada no dia 3 do 10 com a cultivar Siriema 70 resistente fonte peking"
    (command,) = read_note(text, sent=date(2026, 11, 1), fields=FIELDS, language="pt").commands
    assert (command.args["planted"], command.args["variety"]) == (date(2026, 10, 3), "Siriema 70")


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("La Tranquera. Testigo: 5 plantas, 88 hembras. Lapacho 61 (resistente): 5 plantas, 6 blancas.", "es"),
        ("La Tranquera. Lapacho 61 (resistente): 5 plantas, 6 blancas. Testigo: 5 plantas, 88 hembras.", "es"),
        ("Baixada. Testemunha: 5 plantas, 88 fêmeas. LP 61 (resistente): 5 plantas, 6 brancas.", "pt"),
        ("Kestrel. Check: 5 plants, 88 females. LP 61 (resistant): 5 plants, 6 white.", "en"),
    ],
)
def test_resistance_in_brackets_behind_the_name_is_of_the_field(text, language):
    """Before the check strip or behind it."""
    note = read(text, language)
    assert (note.variety.name[-2:], note.variety.resistance, note.plants, note.females.total) == (
        "61",
        "resistant",
        5,
        6,
    )
    assert [(spot.check, spot.females.total) for spot in note.spots] == [(True, 88)]


def test_the_strips_own_seed_in_brackets_is_not_of_the_field():
    note = read("Kestrel. Check (susceptible): 5 plants, 88 females. Field: 5 plants, 6 white.")
    assert note.variety is None


@pytest.mark.parametrize(
    ("text", "language"),
    [
        (
            "Baixada, resistente x suscetível.\nResistente: 5 plantas, 6 brancas.\nSuscetível: 5 plantas, 71 brancas.",
            "pt",
        ),
        ("La Tranquera resistente vs susceptible: R 5 plantas 6 blancas, S 5 plantas 71 blancas", "es"),
        ("Kestrel, resistant and susceptible.\nResistant: 5 plants, 6 white.\nSusceptible: 5 plants, 71 white.", "en"),
        (
            "Kestrel, resistant x susceptible strip.\nResistant LP 61: 5 plants, 6 white.\nSusceptible: 5 plants, 71 white.",
            "en",
        ),
    ],
)
def test_one_held_against_the_other_heads_what_was_found_on_each(text, language):
    """The heading names no strip; the letters below it are those of its words."""
    note = read(text, language)
    assert (note.plants, note.females.total) == (5, 6)
    assert [(spot.check, spot.females.total) for spot in note.spots] == [(False, 6), (True, 71)]
    assert all("x" not in spot.name.split() and "vs" not in spot.name for spot in note.spots)


@pytest.mark.parametrize(
    ("text", "resistance"),
    [
        ("Kestrel | var Corvale 21 (R, Peking) | 4 plants: none | check strip 4 plants: 52 w | spade", "resistant"),
        ("Kestrel, variety Corvale 21 (S), 4 plants none, spade", "susceptible"),
        ("Kestrel variedad Corvale 21 (R), 4 plantas sin hembras", "resistant"),
        ("Kestrel cultivar Corvale 21 (R, Peking), 4 plantas sem fêmeas", "resistant"),
        ("Kestrel, variety Corvale 21, 4 plants none, spade", None),
    ],
)
def test_a_letter_in_brackets_behind_a_variety_is_its_resistance(text, resistance):
    """And names no place."""
    note = read_note(text, sent=SENT, fields=FIELDS).notes[0]

    assert note.variety is not None
    assert (note.variety.name, note.variety.resistance) == ("Corvale 21", resistance)
    assert {spot.name for spot in note.spots} <= {"check strip"}
