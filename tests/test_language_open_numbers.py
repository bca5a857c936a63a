"""A count said with something left open, or of what was seen: "easily 40 white", "40 blancas por lo menos".

Ways to say so in three languages, before the count and behind it, stand in plain notes in several places; each must
read as the count told, and nothing else of the note may change. They are everyday speech, from memory.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from datetime import date

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import Language

SENT = date(2026, 7, 15)
NOUNS: dict[Language, tuple[str, str, str, str]] = {
    "en": ("6 plants", "white", "3 yellow", "plants"),
    "es": ("6 plantas", "blancas", "3 amarillas", "plantas"),
    "pt": ("6 plantas", "brancas", "3 amarelas", "plantas"),
}
BEFORE: dict[Language, str] = {
    "en": """about, around, roughly, approximately, almost, nearly, maybe, probably, over, at least, more than, under,
        less than, up to, like, say, close to, just over, just under, no more than, not more than, no less than,
        fewer than, just shy of, upwards of, somewhere around, pretty close to, easily, a good, at most, a solid,
        I'd say, I think, I guess, I counted, counted, call it, looks like, looked like, must be, had to be, got,
        found, saw, came up with, ended up with, a total of, exactly, only, just, a whole, maybe about,
        probably around, right around, not quite, pushing, north of, ballpark, give or take, approx., estimated,
        figured, I figure, guesstimate""",
    "es": """unas, como, casi, más de, menos de, aproximadamente, cerca de, alrededor de, por lo menos, al menos,
        no más de, no menos de, a lo sumo, como máximo, máximo, mínimo, como mínimo, arriba de, poco más de,
        poco menos de, digamos, ponele, calculo, calculo unas, creo que, creo que unas, serían, conté, contamos,
        conté unas, apenas, solo, sólo, solamente, nada más que, exactamente, en total, más o menos, aprox.,
        tirando a, fácil, fácilmente, bien, hasta, unas buenas, cosa de, como unas, quizás, tal vez, había,
        había unas, encontré, vi, tenían, salieron, aparecieron, estimo, estimé""",
    "pt": """umas, quase, mais de, menos de, aproximadamente, cerca de, por volta de, em torno de, pelo menos,
        no mínimo, no máximo, não mais que, não mais de, não menos de, pouco mais de, pouco menos de, perto de,
        na faixa de, acima de, bem umas, umas boas, coisa de, digamos, acho que, acho que umas, contei, contamos,
        contei umas, apenas, só, somente, exatamente, no total, mais ou menos, aprox., beirando, fácil, facilmente,
        até, lá pelas, talvez, talvez umas, deve ter, deve ter umas, tinha, tinha umas, tinham, encontrei, achei,
        vi, saíram, apareceram, deu, deram, estimo, estimei, chutando, chuto""",
}
BEHIND: dict[Language, str] = {
    "en": """or so, give or take, at least, max, min, approx, approximately, I think, I guess, I reckon, maybe, probably,
        or thereabouts, by my count, total, in all, altogether, all told, more or less, at most, minimum, easy, easily,
        or more, or better, plus, and change, for sure, if that, if I counted right, roughly, about, estimated""",
    "es": """más o menos, aprox, por lo menos, al menos, como mucho, a lo sumo, como máximo, calculo, creo, o por ahí,
        quizás, tal vez, en total, fácil, mínimo, máximo, o más, por ahí, nada más, si conté bien, diría, estimo""",
    "pt": """mais ou menos, aprox, pelo menos, no máximo, no mínimo, acho, acho eu, por aí, calculo, talvez, no total,
        ao todo, fácil, ou mais, só, apenas, se contei certo, diria, chuto, com certeza, mínimo, máximo""",
}
OPEN: dict[Language, str] = {
    "en": """40-some white, forty some white, forty-odd white, 40 odd white, 40 something white, 40 or more white,
        forty or better white, 40 and change white""",
    "es": """40 y pico blancas, cuarenta y pico de blancas, 40 blancas y pico, cuarenta y tantas blancas,
        40 y algo blancas, cuarenta o más blancas""",
    "pt": """40 e poucas brancas, quarenta e poucas brancas, quarenta e tantas brancas, 40 e tantas brancas,
        40 e lá vai brancas, quarenta ou mais brancas""",
}


def said(listed: str) -> list[str]:
    return [" ".join(way.split()) for way in listed.split(",")]


def counts() -> Iterator[tuple[Language, str]]:
    """Forty white females, in every way."""
    for language, (_, white, _, _) in NOUNS.items():
        yield from ((language, f"{way} 40 {white}") for way in said(BEFORE[language]))
        yield from ((language, f"40 {white} {way}") for way in said(BEHIND[language]))
        yield from ((language, way) for way in said(OPEN[language]))


def notes() -> Iterator[tuple[Language, str, int]]:
    """Plain notes of six plants and the count, and how many yellow they have."""
    for language, count in counts():
        plants, _, yellow, _ = NOUNS[language]
        yield language, f"Kestrel {plants}, {count}", 0
        yield language, f"Kestrel: {plants}. {count[0].upper()}{count[1:]}.", 0
        yield language, f"Kestrel\n{plants}\n{count}", 0
        yield language, f"Kestrel {plants}, {count}, {yellow}", 3
        yield language, f"Kestrel {plants}, {yellow}, {count}", 3


def read_so(language: Language, text: str, yellow: int) -> None:
    reading = read_note(text, sent=SENT, fields=("Kestrel", "Sumac"), language=language)
    assert (reading.problems, reading.commands, len(reading.notes)) == ((), (), 1), text
    note = reading.notes[0]
    females = (note.females.white, note.females.yellow or 0, note.females.total)
    assert (note.plants, females, note.outcome) == (6, (40, yellow, 40 + yellow), "seen"), text
    rest = (note.method, note.look_again, note.date, note.mostly, note.per_plant, note.stage, note.soil.moisture)
    assert not any(rest), text


NOTES = list(notes())


@pytest.mark.parametrize(("language", "text", "yellow"), random.Random(7).sample(NOTES, 250))
def test_a_count_left_open_is_the_count_told(language: Language, text: str, yellow: int) -> None:
    read_so(language, text, yellow)


@pytest.mark.heavy
def test_all_counts_left_open() -> None:
    for language, text, yellow in NOTES:
        read_so(language, text, yellow)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("es", "Kestrel 6 plantas, pala y pico, 12 blancas"),
        ("es", "Kestrel 12 plantas y pico, 12 blancas"),
        ("es", "Kestrel 6 plantas con pico, 12 blancas"),
    ],
)
def test_a_pickaxe_is_still_one(language: Language, text: str) -> None:
    note = read_note(text, sent=SENT, fields=("Kestrel",), language=language).notes[0]
    assert (note.method, note.females.white) == ("shovel", 12)


def test_some_of_them_white_are_not_all_of_them() -> None:
    note = read_note("Kestrel 6 plants, 20 cysts, some white", sent=SENT, fields=("Kestrel",), language="en").notes[0]
    assert (note.females.white, note.females.total) == (None, 20)


@pytest.mark.parametrize(
    ("language", "text", "white"),
    [
        ("en", "Kestrel 6 plants, 3 yellow, it had 40 white last week", 0),
        ("es", "Kestrel 6 plantas, 12 blancas, había 40 blancas", 12),
        ("es", "Kestrel 6 plantas, 12 blancas, eran 40 blancas la semana pasada", 12),
        ("pt", "Kestrel 6 plantas, 12 brancas, tinha 40 brancas antes", 12),
    ],
)
def test_what_was_counted_before_is_not_counted_again(language: Language, text: str, white: int) -> None:
    note = read_note(text, sent=SENT, fields=("Kestrel",), language=language).notes[0]
    assert (note.females.white or 0) == white
