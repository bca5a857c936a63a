"""Slips in an earlier note, told at length in a mail that goes on to other fields: corrections, and no notes."""

from datetime import date

import pytest

from notes_bot.language import read_note

SENT = date(2026, 7, 8)
FIELDS = ("Kestrel", "Dry Creek", "Bajo Grande", "La Tranquera", "Baixada", "Sede Velha")

SLIPS = [
    (
        "First an old thing. In Tuesday's note for Kestrel I put down 9 white; my card says 6, so please change that.",
        {"field": "kestrel", "what": "white", "value": 6, "old": 9, "date": date(2026, 7, 7)},
    ),
    (
        "For Kestrel I wrote you I dug 7 plants and it was 9, my wife found two in the bucket. Please put that right.",
        {"field": "kestrel", "what": "plants", "value": 9, "old": 7},
    ),
    (
        "I need to fix something from yesterday: I wrote R2 for Kestrel, but I showed the photo to our leader and she "
        "says it is only R1. Sorry!!",
        {"field": "kestrel", "what": "stage", "value": "R1", "old": "R2", "date": date(2026, 7, 7)},
    ),
    (
        "In my note for Kestrel from Tuesday I reported 5 plants with 11 white. It was 5 plants with 17 white; the "
        "second column had slipped under the clip. Kindly amend it.",
        {"field": "kestrel", "what": "white", "value": 17, "old": 11, "date": date(2026, 7, 7)},
    ),
    (
        "First, fix Kestrel from Thursday, it was 6 yellow not 9, my nines and sixes look the same upside down.",
        {"field": "kestrel", "what": "yellow", "value": 6, "old": 9, "date": date(2026, 7, 2)},
    ),
    (
        "For Kestrel on Monday I reported 12 yellow but the sheet shows 21, I swapped the digits.",
        {"field": "kestrel", "what": "yellow", "value": 21, "old": 12, "date": date(2026, 7, 6)},
    ),
    (
        "A correction first. What I sent for Kestrel had the soil as wet; it was only moist.",
        {"field": "kestrel", "what": "moisture", "value": "moist", "old": "wet"},
    ),
    (
        "Please fix one thing in what I sent you about Kestrel yesterday. I wrote 8 yellow, it should have been 3; I had "
        "read my own hand wrong.",
        {"field": "kestrel", "what": "yellow", "value": 3, "old": 8, "date": date(2026, 7, 7)},
    ),
    (
        "I have to apologize, the number for Kestrel was wrong. I gave you 15 white, the right one is 5.",
        {"field": "kestrel", "what": "white", "value": 5, "old": 15},
    ),
    (
        "Please amend Monday's report for Kestrel. I wrote 8 plants, there were only 6.",
        {"field": "kestrel", "what": "plants", "value": 6, "old": 8, "date": date(2026, 7, 6)},
    ),
    (
        "Antes que nada una corrección: en la nota de ayer de Bajo Grande puse 5 blancas y eran 8, el muchacho me "
        "dictó mal, por favor cámbielo.",
        {"field": "bajo grande", "what": "white", "value": 8, "old": 5, "date": date(2026, 7, 7)},
    ),
    (
        "Me equivoqué en la nota de Bajo Grande: puse suelo seco y estaba húmedo, corríjanlo por favor.",
        {"field": "bajo grande", "what": "moisture", "value": "moist", "old": "dry"},
    ),
    (
        "Primeiro um conserto: na minha nota de terça sobre a Baixada escrevi R2, mas o agrônomo olhou as fotos e é "
        "R1. Por favor corrijam.",
        {"field": "baixada", "what": "stage", "value": "R1", "old": "R2", "date": date(2026, 7, 7)},
    ),
    (
        "Preciso corrigir a nota da Baixada de ontem. Anotei 8 plantas, o certo é 6, contei duas vezes o balde.",
        {"field": "baixada", "what": "plants", "value": 6, "old": 8, "date": date(2026, 7, 7)},
    ),
]
BESIDE = {
    "en": "Today I did Dry Creek. Dug seven plants, 4 white and 13 yellow, R4.",
    "es": "Hoy en La Tranquera: 7 plantas con pala, 4 blancas y 13 amarillas, R4.",
    "pt": "Hoje na Sede Velha cavei 7 plantas com a pá, 4 brancas e 13 amarelas, R4.",
}
OTHERS = {"en": "dry creek", "es": "la tranquera", "pt": "sede velha"}
LANGUAGE_OF = {"kestrel": "en", "bajo grande": "es", "baixada": "pt"}


@pytest.mark.parametrize("between", [" ", "\n\n"])
@pytest.mark.parametrize(("slip", "expected"), SLIPS)
def test_a_slip_told_at_length_is_a_correction_and_the_note_behind_it_stands_whole(slip, expected, between):
    language = LANGUAGE_OF[expected["field"]]
    reading = read_note(slip + between + BESIDE[language], sent=SENT, fields=FIELDS)
    assert [(c.kind, c.args) for c in reading.commands] == [("correct", expected)]
    assert not reading.problems
    (note,) = reading.notes
    females = (note.females.white, note.females.yellow, note.females.total)
    assert (note.field, note.plants, females, note.stage) == (OTHERS[language], 7, (4, 13, 17), "R4")


@pytest.mark.parametrize(
    ("slip", "expected"),
    [
        (
            "PS I got Kestrel wrong last week: I put 4 brown and it was 14, the one had not come through. Sorry.",
            {"field": "kestrel", "what": "brown", "value": 14, "old": 4},
        ),
        (
            "Before I forget: the 9 white I sent for Kestrel on Tuesday should read 19.",
            {"field": "kestrel", "what": "white", "value": 19, "old": 9, "date": date(2026, 7, 7)},
        ),
    ],
)
def test_behind_a_note_as_well(slip, expected):
    reading = read_note(f"Dry Creek: dug seven plants, 5 white, R4. {slip}", sent=SENT, fields=FIELDS)
    assert [(c.kind, c.args) for c in reading.commands] == [("correct", expected)]
    (note,) = reading.notes
    assert (note.field, note.plants, note.females.total, note.stage) == ("dry creek", 7, 5, "R4")


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel dug 6 not 5 like usual, 4 white. Sorry for the late note. Dry Creek dug 6, none.",
        "I told you last week Kestrel had 9 white. Today it was 14 white on six plants dug, sorry. Dry Creek 6 dug, none.",
        "Kestrel: dug 6, 4 white. I wrote the wrong date on the bag, it was not the 7th. Dry Creek: dug 6, 2 yellow.",
        "The grower at Kestrel wrote 5 white on the gate, it was 9, he is sorry. I dug 6, 9 white. Dry Creek 6 dug, none.",
    ],
)
def test_what_is_no_slip_of_an_earlier_note_puts_nothing_right(text):
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert not [c for c in reading.commands if c.kind == "correct"]
    assert [note.field for note in reading.notes][-1] == "dry creek"


@pytest.mark.parametrize(
    ("text", "field"),
    [
        (
            "Na Sede Velha cavei 5 plantas, 1 branca. E, por favor, apaguem a minha nota da Baixada, foi em dobro.",
            "baixada",
        ),
        (
            "La Tranquera: 5 plantas, 2 blancas. Les pido que eliminen el registro de Bajo Grande, era otro.",
            "bajo grande",
        ),
        ("Hoy en La Tranquera 5 plantas, 2 blancas. Anulen lo que mandé de Bajo Grande, era otro lote.", "bajo grande"),
    ],
)
def test_several_people_are_asked_to_take_a_note_back(text, field):
    reading = read_note(text, sent=SENT, fields=FIELDS)
    assert [(c.kind, c.args) for c in reading.commands] == [("take_back", {"field": field})]
    assert len(reading.notes) == 1
