"""What is told of a field stands beside a hope, a doubt, a neighbor or a denial of something else, without a comma.

The other side of ``test_language_not_so.py``: words by which a fact is not so must not take one that is.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from datetime import date

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import LANGUAGES, Language
from tests.test_language_not_so import SENT, beside

MONDAY, YESTERDAY = date(2026, 7, 13), date(2026, 7, 14)
SPRAYED: dict[Language, dict[str, tuple[str, date | None, int | None]]] = {
    "en": {
        "fungicide on Monday": ("fungicide", MONDAY, None),
        "sprayed with herbicide yesterday": ("herbicide", YESTERDAY, None),
        "glyphosate 3 days ago": ("glyphosate", None, 3),
    },
    "es": {
        "fungicida el lunes": ("fungicide", MONDAY, None),
        "le echaron herbicida ayer": ("herbicide", YESTERDAY, None),
        "glifosato hace 3 días": ("glyphosate", None, 3),
    },
    "pt": {
        "fungicida na segunda": ("fungicide", MONDAY, None),
        "passaram herbicida ontem": ("herbicide", YESTERDAY, None),
        "glifosato faz 3 dias": ("glyphosate", None, 3),
    },
}
BESIDE_SPRAY: dict[Language, tuple[str, ...]] = {
    "en": (
        *("{} hopefully it works", "{} hope it helps", "{} no sign posted", "{} not posted", "{} no idea what rate"),
        *("{} too windy if you ask me", "{} by the neighbor", "{} so stay out", "{} should hold", "{} corn too"),
        *("{} will see if it works", "{} didn't help", "{} would have waited", "{} same as last year", "{} I think"),
    ),
    "es": (
        *("{} ojalá sirva", "{} sin cartel", "{} no avisaron", "{} no sé la dosis", "{} con viento"),
        *("{} lo hizo el vecino", "{} igual que el año pasado", "{} creo", "{} dice el patrón"),
    ),
    "pt": (
        *("{} tomara que funcione", "{} sem placa", "{} não avisaram", "{} não sei a dose", "{} com vento"),
        *("{} foi o vizinho", "{} igual ano passado", "{} acho", "{} disse o patrão"),
    ),
}
OF_FIELD: dict[Language, dict[str, tuple[str, str]]] = {
    "en": {
        "ground dry": ("moisture", "dry"),
        "leaves yellow": ("tops", "yellow"),
        "plants stunted": ("tops", "stunted"),
        "roots dark": ("roots", "dark"),
        "beans at R3": ("stage", "R3"),
    },
    "es": {
        "tierra seca": ("moisture", "dry"),
        "hojas amarillas": ("tops", "yellow"),
        "plantas petisas": ("tops", "stunted"),
        "raíces oscuras": ("roots", "dark"),
        "soja en R3": ("stage", "R3"),
    },
    "pt": {
        "terra seca": ("moisture", "dry"),
        "folhas amarelas": ("tops", "yellow"),
        "plantas baixas": ("tops", "stunted"),
        "raízes escuras": ("roots", "dark"),
        "soja em R3": ("stage", "R3"),
    },
}
BESIDE_FACT: dict[Language, tuple[str, ...]] = {
    "en": (
        *("{} hope it rains", "{} hopefully better soon", "{} needs rain", "{} wish we had rain"),
        *("{} if you ask me", "{} like the neighbor's", "{} same as next door", "{} worse than last week"),
        *("{} like last year", "{} since last week", "still {}", "{} but wont last", "{} for now", "{} as usual"),
        *("{} by the corn", "{} near the road", "{} I guess", "{} no surprise", "{} more than I expected"),
    ),
    "es": (
        *("{} ojalá llueva", "{} espero que llueva", "{} como lo del vecino", "{} igual que la semana pasada"),
        *("{} desde la semana pasada", "sigue {}", "{} por ahora", "{} como siempre", "{} cerca del maíz"),
        *("{} junto al camino", "{} creo", "{} más que el año pasado"),
    ),
    "pt": (
        *("{} tomara que chova", "{} espero que chova", "{} como a do vizinho", "{} desde semana passada"),
        *("ainda {}", "{} por enquanto", "{} como sempre", "{} perto do milho", "{} junto da estrada"),
        *("{} acho", "{} mais que ano passado"),
    ),
}


def sprays() -> Iterator[tuple[Language, str, tuple[str, date | None, int | None]]]:
    """Each spray that was done beside each thing said of it."""
    for language in LANGUAGES:
        for said, spray in SPRAYED[language].items():
            for way in BESIDE_SPRAY[language]:
                yield from ((language, text, spray) for text in beside(language, way.format(said)))


def facts() -> Iterator[tuple[Language, str, tuple[str, str]]]:
    """Each state of the field beside each thing said of it."""
    for language in LANGUAGES:
        for said, fact in OF_FIELD[language].items():
            for way in BESIDE_FACT[language]:
                yield from ((language, text, fact) for text in beside(language, way.format(said)))


def stands(text: str, language: Language, key: str, told: object) -> None:
    """It is read as told, with the count beside it, and nothing is asked."""
    reading = read_note(text, sent=SENT, fields=("Kestrel", "Sumac"), language=language)
    assert not reading.problems, text
    (note,) = reading.notes
    assert (note.plants, note.females.white, note.outcome) == (6, 12, "seen"), text
    if key == "spray":
        assert note.spray is not None, text
        assert (note.spray.what, note.spray.date, note.spray.days_ago) == told, text
    elif key in ("tops", "roots"):
        assert told in getattr(note, key), text
    else:
        assert {"moisture": note.soil.moisture, "stage": note.stage}[key] == told, text


def all_cases() -> list[tuple[Language, str, str, object]]:
    cases: list[tuple[Language, str, str, object]] = [(lang, text, "spray", told) for lang, text, told in sprays()]
    return cases + [(lang, text, key, told) for lang, text, (key, told) in facts()]


@pytest.mark.parametrize("language,text,key,told", random.Random(7).sample(all_cases(), 250))
def test_what_is_told_stands_beside_what_is_said_of_it(language: Language, text: str, key: str, told: object) -> None:
    stands(text, language, key, told)


@pytest.mark.parametrize(
    "language,said",
    [
        ("en", "6 plants, no sign posted"),
        ("en", "6 plants, no signs at the gate"),
        ("en", "6 plants, no sign of the landlord"),
        ("en", "6 plants, no sign of rain"),
        ("es", "6 plantas, ni rastro de lluvia"),
        ("es", "6 plantas, no había ningún cartel"),
        ("pt", "6 plantas, nem sinal do dono"),
        ("pt", "6 plantas, não tinha nenhuma placa"),
    ],
)
def test_no_sign_of_something_else_is_no_look_that_found_none(language: Language, said: str) -> None:
    (note,) = read_note(f"Kestrel {said}", sent=SENT, fields=("Kestrel", "Sumac"), language=language).notes
    assert note.outcome is None


@pytest.mark.parametrize("language,said", [("en", "no sign"), ("en", "no sign of them"), ("pt", "nem sinal")])
def test_no_sign_is_a_look_that_found_none(language: Language, said: str) -> None:
    note = read_note(f"Kestrel 6 plants, {said}", sent=SENT, fields=("Kestrel", "Sumac"), language=language).notes[0]
    assert note.outcome == "none_seen"


@pytest.mark.heavy
def test_all_that_stands() -> None:
    for language, text, key, told in all_cases():
        stands(text, language, key, told)
