"""Colors of things that are no females, told beside a note: their number is no count, and nothing is asked.

Things people see from a field, by everyday nouns of three languages (from memory), in every color females have, in
several sentences and places. Nouns people use for females, and counts in one list, stay counts.
"""

from __future__ import annotations

import os
import random
from collections.abc import Iterator
from datetime import date

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import Language

SENT = date(2026, 7, 15)
THINGS: dict[Language, str] = {
    "en": """trucks geese cows horses birds deer flags houses barns cars pickups tanks bins dogs cats shirts boots buckets
        bags signs pipes tractors combines butterflies moths cranes gulls egrets heifers calves goats chickens roses
        flowers weeds mushrooms boxes envelopes labels tags pages sheets folders caps trailers drones tarps rocks
        stones bottles jugs wires poles silos plates buses parachutes sprinklers dumpsters mailboxes""",
    "es": """camionetas garzas vacas caballos pájaros ciervos banderas casas autos camiones tanques silos perros gatos
        camisas botas baldes bolsas estacas carteles caños tractores cosechadoras mariposas gaviotas terneros cabras
        gallinas rosas flores hongos cajas etiquetas carpetas gorras sombreros acoplados drones piedras botellas
        bidones postes chapas ovejas toros novillos motos garrafas sillas puertas lanchas ambulancias""",
    "pt": """garças vacas cavalos pássaros bandeiras casas carros caminhões tanques silos cachorros gatos camisas botas
        baldes sacolas placas canos tratores colheitadeiras borboletas gaivotas bezerros cabras galinhas rosas flores
        cogumelos caixas etiquetas pastas bonés chapéus carretas drones balões lonas pedras garrafas galões postes
        chapas ovelhas touros novilhos motos cadeiras portas barcos pneus ambulâncias""",
}
SHADES: dict[Language, tuple[str, str, str]] = {
    "en": ("white", "yellow", "brown"),
    "es": ("blancos", "amarillos", "marrones"),
    "pt": ("brancos", "amarelos", "marrons"),
}
SAID: dict[Language, tuple[str, ...]] = {
    "en": (
        *("Saw 3 {} by the gate", "There were 3 {} across the road", "Three {} went by", "They have 3 {} there now"),
        *("had to wait for 3 {}", "The {} are back", "Saw some {} by the gate"),
    ),
    "es": (
        *("Vi 3 {} en la tranquera", "Había 3 {} del otro lado", "pasaron tres {}", "Ahora tienen 3 {} ahí"),
        *("tuve que esperar a 3 {}", "Los {} siguen ahí", "Vi unos {} en la tranquera"),
    ),
    "pt": (
        *("Vi 3 {} na porteira", "Tinha 3 {} do outro lado", "passaram três {}", "Agora eles têm 3 {} ali"),
        *("tive que esperar 3 {}", "Os {} continuam ali", "Vi uns {} na porteira"),
    ),
}
NOTE: dict[Language, str] = {
    "en": "6 plants, 12 white",
    "es": "6 plantas, 12 blancas",
    "pt": "6 plantas, 12 brancas",
}


def messages() -> Iterator[tuple[Language, str]]:
    for language, nouns in THINGS.items():
        note = NOTE[language]
        for noun in nouns.split():
            for shade in SHADES[language]:
                thing = f"{shade} {noun}" if language == "en" else f"{noun} {shade}"
                for form in SAID[language]:
                    said = form.format(thing)
                    told = said[0].upper() + said[1:]
                    yield language, f"Kestrel: {note}. {told}."
                    yield language, f"{told}. Kestrel: {note}."
                    yield language, f"Kestrel\n{note}\n{said}"
                    yield language, f"Kestrel {note}, {said}"


def no_count(language: Language, text: str) -> None:
    reading = read_note(text, sent=SENT, fields=("Kestrel", "Sumac"), language=language)
    assert (reading.problems, reading.commands, len(reading.notes)) == ((), (), 1), text
    note = reading.notes[0]
    females = note.females
    assert (note.plants, females.white, females.total, note.outcome) == (6, 12, 12, "seen"), text
    assert not any((note.mostly, note.spots, note.tops, note.roots, note.method, note.date, note.per_plant)), text


MESSAGES = list(messages())


@pytest.mark.parametrize(("language", "text"), random.Random(11).sample(MESSAGES, 200))
def test_a_thing_of_a_color_is_no_female(language: Language, text: str) -> None:
    no_count(language, text)


@pytest.mark.heavy
def test_no_thing_of_a_color_is_a_female() -> None:
    step = 9 if os.environ.get("NOTES_BOT_PROOFS") == "small" else 1
    for language, text in MESSAGES[::step]:
        no_count(language, text)


@pytest.mark.parametrize(
    ("language", "text", "counts"),
    [
        ("en", "Kestrel 6 plants, 12 white dots", (12, 0)),
        ("en", "Kestrel 6 plants, 12 white pearls", (12, 0)),
        ("en", "Kestrel 6 plants, 12 white critters", (12, 0)),
        ("en", "Kestrel 6 plants, 12 white bumps", (12, 0)),
        ("en", "Kestrel 6 plants, 12 white whatsits and 3 yellow", (12, 3)),
        ("en", "Kestrel 6 plants, 3 yellow and 12 white whatsits", (12, 3)),
        ("en", "Kestrel 6 plants, 12 white plus 3 yellow", (12, 3)),
        ("es", "Kestrel 6 plantas, 12 bolitas blancas", (12, 0)),
        ("es", "Kestrel 6 plantas, 12 bichitos blancos y 3 amarillos", (12, 3)),
        ("pt", "Kestrel 6 plantas, 12 pontinhos brancos e 3 amarelos", (12, 3)),
    ],
)
def test_what_females_are_called_is_counted(language: Language, text: str, counts: tuple[int, int]) -> None:
    note = read_note(text, sent=SENT, fields=("Kestrel",), language=language).notes[0]
    assert (note.females.white, note.females.yellow) == counts


@pytest.mark.parametrize("text", ["Kestrel 6 plants, 12 white thingamabobs", "Kestrel 6 plantas, 12 esferitas blancas"])
def test_a_noun_nobody_knows_alone_is_asked_about(text: str) -> None:
    """Where nothing else was found it may be what females are called, or not."""
    assert read_note(text, sent=SENT, fields=("Kestrel",)).problems


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "Kestrel: 6 plants, 12 white. Saw 3 geese by the gate."),
        ("en", "Kestrel: 6 plants, 12 white. 3 dead deer by the gate."),
        ("en", "Kestrel\n6 plants, 12 white\npicked up 4 bags"),
        ("en", "Had to wait for 15 cows. Kestrel: 6 plants, 12 white."),
        ("es", "Kestrel: 6 plantas, 12 blancas. Pasaron 15 garzas."),
        ("pt", "Kestrel: 6 plantas, 12 brancas. Peguei 4 sacolas."),
    ],
)
def test_the_number_of_a_thing_is_not_asked_about(language: Language, text: str) -> None:
    no_count(language, text)


def test_a_thing_alone_leaves_what_was_found_to_be_asked() -> None:
    assert read_note("Kestrel 6 plants. Saw 3 geese by the gate.", sent=SENT, fields=("Kestrel",)).problems
