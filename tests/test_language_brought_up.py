"""The next field of a message, in every way people go on to it: a sentence that brings it up, and its look behind.

"Just finished up Dry Creek", "made it out to Dry Creek before the rain", "de ahí me fui a La Tapera": such a sentence
says nothing found, yet all behind it is of that field. What only speaks of another field goes on with the first.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Language, Note

SENT = date(2026, 7, 14)
FIELDS: dict[Language, tuple[str, ...]] = {
    "en": ("Kestrel", "Old Mill East", "Cedar Slough", "Dry Creek"),
    "es": ("El Palenque", "Loma Alta", "La Tapera", "Monte Chico"),
    "pt": ("Palmital", "Baixada do Ipê", "Retiro Novo", "Santa Rita"),
}
GOES_ON: dict[Language, tuple[str, ...]] = {
    "en": (
        *("so now I'm at {f}", "ok {f} next", "got over to {f} right after lunch", "this one's for {f}", "{f} now"),
        *("alright pulled the truck up at {f} and it's about a quarter to nine", "now we're doing {f}", "here at {f}"),
        *("I'm standing in {f}", "{f} was next on my way home", "walking into {f} now", "then there's {f}"),
        *("so over at {f} here's what I've got", "made it out to {f} before the rain", "and then {f}", "on to {f}"),
        *("down the road to {f}", "moving on to {f}", "last one today is {f}", "ended up at {f} around 4"),
        *("back at the truck from {f}", "just finished up {f}", "{f} is the next one", "checked {f} too"),
        *("while I was out that way I stopped in at {f}", "after lunch I hit {f}", "about 2 I got to {f}"),
        *("went through {f} with the boss", "then I drove over to {f} with Pete", "for {f} I have this", "as for {f}"),
        *("regarding {f}", "{f} this afternoon", "also did {f}", "next up {f}", "stopped by {f}", "second stop {f}"),
        *("we looked at {f} together", "now about {f}", "put this under {f} please", "just pulled up to {f}"),
    ),
    "es": (
        *("ahora estoy en {f}", "después {f}", "de ahí me fui a {f}", "sigo con {f}", "pasé por {f} antes de comer"),
        *("y por último {f}", "en cuanto a {f}", "ahora va {f}", "recién salgo de {f}", "también anduve por {f}"),
        *("me quedaba {f}", "paso a {f}", "acá en {f}", "a la tarde hice {f}", "el siguiente es {f}", "terminé en {f}"),
        *("crucé el camino y entré a {f}", "con el patrón fuimos a {f}", "de {f} tengo esto", "para {f} anotá"),
        *("lo de {f}", "ya en {f}", "y {f}", "otro lote, {f}", "paso a contarte qué encontré en {f}"),
    ),
    "pt": (
        *("agora tô no {f}", "depois {f}", "de lá fui pro {f}", "sigo com {f}", "passei no {f} antes do almoço"),
        *("e por último {f}", "agora vem o {f}", "acabei de sair do {f}", "também andei no {f}", "faltava o {f}"),
        *("passo pro {f}", "aqui no {f}", "de tarde fiz o {f}", "o próximo é o {f}", "terminei no {f}"),
        *("atravessei a estrada e entrei no {f}", "com o patrão fomos no {f}", "do {f} tenho isso", "já no {f}"),
        *("sobre o {f}", "e o {f}", "outro talhão, {f}", "depois do almoço toquei pro {f}"),
    ),
}
Told = tuple[str, int | None, int | str]
"""What is told of a field, its plants, and all females, or that nobody looked."""
FIRST: dict[Language, tuple[Told, ...]] = {
    "en": (
        ("6 plants with the shovel, 12 white", 6, 12),
        ("dug 5 and found nothing", 5, 0),
        ("pulled 4: 3 0 2 1", 4, 6),
    ),
    "es": (("6 plantas con pala, 12 blancas", 6, 12), ("saqué 5 y nada", 5, 0), ("4 plantas: 3 0 2 1", 4, 6)),
    "pt": (("6 plantas com pá, 12 brancas", 6, 12), ("cavei 5 e nada", 5, 0), ("4 plantas: 3 0 2 1", 4, 6)),
}
THEN: dict[Language, tuple[Told, ...]] = {
    "en": (
        *(
            ("7 plants dug, 9 yellow", 7, 9),
            ("eased out eight, none", 8, 0),
            ("I dug 3 and saw 2 white and a tan", 3, 3),
        ),
        *(("didn't get in, gate locked", None, "not"), ("four plants, shovel, soaked. 5 white", 4, 5)),
    ),
    "es": (
        *(("7 plantas, 9 amarillas", 7, 9), ("aflojé ocho, ninguna", 8, 0)),
        *(("cavé 3 y vi 2 blancas y una tostada", 3, 3), ("no pude entrar, tranquera cerrada", None, "not")),
        ("cuatro plantas, pala, lavadas. 5 blancas", 4, 5),
    ),
    "pt": (
        *(
            ("7 plantas, 9 amarelas", 7, 9),
            ("soltei oito, nenhuma", 8, 0),
            ("cavei 3 e vi 2 brancas e uma parda", 3, 3),
        ),
        *(("não deu pra entrar, porteira fechada", None, "not"), ("quatro plantas, pá, lavadas. 5 brancas", 4, 5)),
    ),
}
PARTED = ((". ", ". "), ("\n", "\n"), (". ", ", "), ("\n", ": "), (", ", ", "))
"""What stands before the sentence that goes on, and what behind it."""


def messages(language: Language) -> Iterator[tuple[str, list[Told]]]:
    """Every message, and what is told in it: field, plants, females."""
    names = itertools.cycle(itertools.pairwise((*FIELDS[language], FIELDS[language][0])))
    for way in GOES_ON[language]:
        for one, other in itertools.product(FIRST[language], THEN[language]):
            for before, behind in PARTED:
                first, second = next(names)
                said = way.replace("{f}", second)
                said = said if before == ", " else said[0].upper() + said[1:]
                text = f"{first}: {one[0]}{before}{said}{behind}{other[0]}"
                yield text, [(first.lower(), *one[1:]), (second.lower(), *other[1:])]


def told(note: Note) -> Told:
    """A note's field, its plants, and all females or that nobody looked."""
    found = "not" if note.outcome == "not_looked" else note.females.total
    return str(note.field), note.plants, -1 if found is None else found


def misread(language: Language, step: int) -> list[str]:
    """The messages that are not read as meant; every so many of them are tried."""
    out = []
    for text, meant in itertools.islice(messages(language), 0, None, step):
        reading = read_note(text, sent=SENT, fields=FIELDS[language], language=language)
        if list(map(told, reading.notes)) != meant or reading.problems or reading.commands:
            out.append(text)
    return out


@pytest.mark.parametrize("language", ["en", "es", "pt"])
def test_the_next_field_is_known_however_it_is_brought_up(language: Language) -> None:
    assert misread(language, 23) == []


@pytest.mark.heavy
@pytest.mark.parametrize("language", ["en", "es", "pt"])
def test_the_next_field_is_known_in_really_every_way(language: Language) -> None:
    """A stop behind a colon alone ("Llegué a X a las tres: no pude entrar") may be asked about."""
    tried = sum(1 for _ in messages(language))
    assert len(misread(language, 1)) <= tried / 500


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel: 6 plants, 12 white. This is the one across from Dry Creek. moist, R2",
        "Kestrel: 6 plants, 12 white. It looks the same as Dry Creek. moist, R2",
        "Kestrel: 6 plants with the shovel. Told the boss about Dry Creek. 12 white, moist, R2",
        "Kestrel: 6 plants, 12 white, more than at Dry Creek. moist, R2",
        "Kestrel: 6 plants, 12 white. It lies next to Dry Creek. moist, R2",
    ],
)
def test_a_field_only_spoken_of_is_no_next_one(text: str) -> None:
    reading = read_note(text, sent=SENT, fields=FIELDS["en"], language="en")

    assert [(note.field, note.plants, note.females.white, note.stage) for note in reading.notes] == [
        ("kestrel", 6, 12, "R2")
    ]


def test_a_field_named_after_a_thing_is_gone_to() -> None:
    """A mangueira is a hose as well."""
    reading = read_note(
        "Palmital: 6 plantas com pá, 12 brancas. Depois do almoço toquei pro Mangueira. cavei 5, nada",
        sent=SENT,
        fields=("Palmital", "Mangueira"),
    )

    assert list(map(told, reading.notes)) == [("palmital", 6, 12), ("mangueira", 5, 0)]


@pytest.mark.parametrize(
    ("text", "kind", "field"),
    [
        ("history of Dry Creek please\nKestrel: 6 plants dug, 12 white", "history", "dry creek"),
        ("what did we have at Dry Creek?\n6 plants dug at Kestrel, 12 white", "history", "dry creek"),
        ("Stop reminding me about Dry Creek. Kestrel 6 plants dug, none", "mute", "dry creek"),
    ],
)
def test_what_is_asked_of_a_field_is_still_asked(text: str, kind: str, field: str) -> None:
    (asked,) = read_note(text, sent=SENT, fields=FIELDS["en"], language="en").commands

    assert (asked.kind, asked.args["field"]) == (kind, field)


@pytest.mark.parametrize(
    ("text", "fields", "looks"),
    [
        ("Kestrel 8 dug, 2 white. revisit, 12 days\nDry Creek 8 dug, none", "en", (12, None)),
        ("Kestrel 8 dug, 2 white.\nWant another look at this in 2 weeks\nDry Creek 8 dug, none", "en", (14, None)),
        ("Kestrel: back to this field in 12 days. 8 dug, 2 white. Dry Creek: 8 dug, none", "en", (12, None)),
        ("Loma Alta 8 plantas nada\nMonte Chico. Vuelvo a este lote en 10 días. 8 plantas nada", "es", (None, 10)),
        ("Palmital: volto nesse talhão daqui 10 dias, 8 pés nada. Retiro Novo 8 pés nada", "pt", (10, None)),
    ],
)
def test_the_next_look_is_of_the_field_it_stands_beside(
    text: str, fields: Language, looks: tuple[int | None, ...]
) -> None:
    reading = read_note(text, sent=SENT, fields=FIELDS[fields], language=fields)

    assert [note.look_again and note.look_again.days for note in reading.notes] == list(looks)
    assert reading.commands == reading.problems == ()


def test_what_is_said_of_all_plants_is_of_their_field() -> None:
    reading = read_note(
        "Kestrel: 6 dug, 12 white. Dry Creek: I dug ten plants and soaked every one of them. 3 tan. R3, moist",
        sent=SENT,
        fields=FIELDS["en"],
    )

    assert [(note.soaked, note.stage, note.soil.moisture) for note in reading.notes] == [
        (None, None, None),
        (True, "R3", "moist"),
    ]


def test_fields_told_last_may_have_their_sum_behind() -> None:
    reading = read_note(
        "6 plants 12 white at Kestrel. 6 dug none at Old Mill East. thats 12 plants and 12 white",
        sent=SENT,
        fields=FIELDS["en"],
    )

    assert list(map(told, reading.notes)) == [("kestrel", 6, 12), ("old mill east", 6, 0)]
    assert reading.problems == reading.commands == ()
