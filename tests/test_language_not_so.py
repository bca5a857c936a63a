"""Signs of plants, roots and soil that are denied, to come, of another time or of something else, beside a plain count.

Ways to say so are put together with what is said: none of it is read, and the count stays as it is.
"""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator
from datetime import date

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import LANGUAGES, Language, Note

SENT = date(2026, 7, 15)  # a Wednesday
COUNTED: dict[Language, str] = {
    "en": "6 plants, 12 white",
    "es": "6 plantas, 12 blancas",
    "pt": "6 plantas, 12 brancas",
}
SIGNS: dict[Language, tuple[str, ...]] = {
    "en": (
        *(
            "yellowing",
            "yellow leaves",
            "chlorosis",
            "stunting",
            "stunted plants",
            "wilting",
            "wilted plants",
        ),
        *(
            "patches",
            "bad spots",
            "rings",
            "unevenness",
            "leaf symptoms",
            "dark roots",
            "snapped roots",
        ),
        *(
            "broken roots",
            "stubby roots",
            "brown nodules",
        ),
    ),
    "es": (
        *(
            "amarillamiento",
            "hojas amarillas",
            "clorosis",
            "enanismo",
            "plantas enanas",
            "plantas petisas",
        ),
        *(
            "marchitez",
            "plantas marchitas",
            "manchones",
            "anillos",
            "raíces oscuras",
            "raíces cortadas",
        ),
        *("nódulos marrones",),
    ),
    "pt": (
        *(
            "amarelamento",
            "folhas amarelas",
            "clorose",
            "nanismo",
            "plantas baixas",
            "murcha",
            "plantas murchas",
        ),
        *(
            "reboleiras",
            "manchas",
            "anéis",
            "raízes escuras",
            "raízes quebradas",
            "nódulos marrons",
        ),
    ),
}
DENIED: dict[Language, tuple[str, ...]] = {
    "en": (
        *(
            "no {}",
            "no {} at all",
            "no sign of {}",
            "no signs of {} yet",
            "no {} that I could see",
        ),
        *(
            "didn't see any {}",
            "didn't notice any {}",
            "didnt see {}",
            "saw no {}",
            "can't say I saw any {}",
        ),
        *(
            "never saw any {}",
            "without {}",
            "without any {}",
            "free of {}",
            "zero {}",
            "no {} to speak of",
        ),
        *(
            "no real {}",
            "not any {}",
            "no {} anywhere",
            "there was no {}",
            "there were no {}",
        ),
        *(
            "there weren't any {}",
            "I saw no {}",
            "couldn't find any {}",
            "no {} showing",
            "haven't seen any {}",
        ),
        *(
            "not seeing any {}",
            "no more {}",
            "I don't see any {}",
            "nothing in the way of {}",
            "not a bit of {}",
        ),
    ),
    "es": (
        *(
            "sin {}",
            "no hay {}",
            "no había {}",
            "no vi {}",
            "no se ve {}",
            "no se ven {}",
            "nada de {}",
        ),
        *(
            "ni rastro de {}",
            "sin señales de {}",
            "sin signos de {}",
            "no noté {}",
            "no le vi {}",
        ),
        *(
            "no encontré {}",
            "no aparece {}",
            "no presenta {}",
            "no presentan {}",
            "tampoco hay {}",
        ),
        *(
            "ningún rastro de {}",
            "cero {}",
            "no observé {}",
            "no se observa {}",
            "no tiene {}",
        ),
        *(
            "por suerte no hay {}",
            "todavía no hay {}",
            "aún sin {}",
        ),
    ),
    "pt": (
        *(
            "sem {}",
            "não tem {}",
            "não tinha {}",
            "não vi {}",
            "não se vê {}",
            "nada de {}",
            "nem sinal de {}",
        ),
        *(
            "sem sinal de {}",
            "sem sinais de {}",
            "não notei {}",
            "não achei {}",
            "não encontrei {}",
        ),
        *(
            "não apareceu {}",
            "não apresenta {}",
            "também não tem {}",
            "nenhum sinal de {}",
            "zero {}",
        ),
        *(
            "não observei {}",
            "não observou-se {}",
            "ainda não tem {}",
            "ainda sem {}",
            "graças a Deus não tem {}",
        ),
        *("não deu pra ver {}",),
    ),
}
"""Ways to deny a sign."""
SAID_OF: dict[Language, dict[str, tuple[str, ...]]] = {
    "en": {
        "plants": (
            "yellow",
            "stunted",
            "wilted",
            "uneven",
        ),
        "ground": (
            "dry",
            "wet",
            "moist",
            "muddy",
        ),
        "roots": (
            "white",
            "dark",
            "stubby",
        ),
        "beans": (
            "R3",
            "V6",
        ),
    },
    "es": {
        "plantas": (
            "amarillas",
            "petisas",
            "marchitas",
        ),
        "tierra": (
            "seca",
            "mojada",
            "húmeda",
        ),
        "raíces": (
            "blancas",
            "oscuras",
            "cortas",
        ),
        "soja": ("en R3",),
    },
    "pt": {
        "plantas": (
            "amarelas",
            "baixas",
            "murchas",
        ),
        "terra": (
            "seca",
            "molhada",
            "úmida",
        ),
        "raízes": (
            "brancas",
            "escuras",
            "curtas",
        ),
        "soja": ("em R3",),
    },
}
"""What is told of, and how it is."""
NOT_SO: dict[Language, tuple[str, ...]] = {
    "en": (
        *(
            "{of} not {how}",
            "{of} {is_} not {how}",
            "{of} {is_} not {how} at all",
            "{of} {is_} not {how} yet",
        ),
        *(
            "{of} not really {how}",
            "{of} {is_} no longer {how}",
            "{of} aren't {how}",
            "the {of} weren't {how}",
        ),
        *(
            "{of} don't look {how}",
            "{of} never {how}",
            "not {how}",
            "wouldn't call the {of} {how}",
        ),
        *(
            "{of} {was} {how} last year",
            "{of} used to be {how}",
            "last time the {of} {was} {how}",
        ),
        *(
            "two weeks ago the {of} {was} {how}",
            "{of} had been {how} before the rain",
            "{of} will be {how} soon",
        ),
        *(
            "{of} will be {how} by friday",
            "{of} could get {how} if this keeps up",
        ),
        *(
            "if the {of} get {how} let me know",
            "{of} might turn {how} later",
        ),
        *(
            "afraid the {of} will be {how} before long",
            "before the {of} get {how}",
        ),
        *(
            "hope the {of} don't get {how}",
            "neighbor's {of} {is_} {how}",
            "the neighbor's {of} look {how}",
        ),
        *(
            "{of} next door {is_} {how}",
            "across the road the {of} {is_} {how}",
            "his {of} {is_} {how}",
        ),
        *(
            "the corn is {how}",
            "corn across the road {how}",
            "the {of} in the other field {is_} {how}",
        ),
        *(
            "my garden is {how}",
            "grass in the ditch is {how}",
            "should the {of} be {how}?",
        ),
        *("what if the {of} {is_} {how}?",),
    ),
    "es": (
        *(
            "{of} no {is_} {how}",
            "{of} no {is_} {how} todavía",
            "{of} no {how}",
            "{of} no se ve {how}",
        ),
        *(
            "{of} ya no {is_} {how}",
            "no {is_} {how}",
            "no diría que {of} {is_} {how}",
        ),
        *(
            "{of} {was} {how} la semana pasada",
            "{of} {was} {how} el año pasado",
            "en junio {of} {was} {how}",
        ),
        *(
            "la vez pasada {of} {was} {how}",
            "hace dos semanas {of} {was} {how}",
            "{of} va a estar {how} pronto",
        ),
        *(
            "{of} va a quedar {how} si sigue así",
            "si {of} se pone {how} avisame",
            "ojalá {of} no se ponga {how}",
        ),
        *(
            "{of} puede ponerse {how} más adelante",
            "antes de que {of} se ponga {how}",
        ),
        *(
            "{of} del vecino {is_} {how}",
            "lo del vecino {is_} {how}",
            "{of} de enfrente {is_} {how}",
        ),
        *(
            "el maíz está {how}",
            "{of} del otro lote {is_} {how}",
            "el pasto de la banquina está {how}",
        ),
        *(
            "¿{of} {is_} {how}?",
            "¿y si {of} {is_} {how}?",
        ),
    ),
    "pt": (
        *(
            "{of} não {is_} {how}",
            "{of} não {is_} {how} ainda",
            "{of} não {how}",
            "{of} não tá {how}",
        ),
        *(
            "{of} já não {is_} {how}",
            "não {is_} {how}",
            "não diria que {of} {is_} {how}",
        ),
        *(
            "{of} {was} {how} semana passada",
            "{of} {was} {how} no ano passado",
            "em junho {of} {was} {how}",
        ),
        *(
            "da última vez {of} {was} {how}",
            "faz duas semanas {of} {was} {how}",
            "{of} vai ficar {how} logo",
        ),
        *(
            "{of} vai ficar {how} se continuar assim",
            "se {of} ficar {how} me avisa",
        ),
        *(
            "tomara que {of} não fique {how}",
            "{of} pode ficar {how} mais pra frente",
            "antes que {of} fique {how}",
        ),
        *(
            "{of} do vizinho {is_} {how}",
            "do vizinho {is_} {how}",
            "{of} da frente {is_} {how}",
        ),
        *(
            "o milho está {how}",
            "{of} do outro talhão {is_} {how}",
            "o pasto da beira está {how}",
        ),
        *(
            "{of} {is_} {how}?",
            "será que {of} {is_} {how}?",
        ),
    ),
}
"""Ways to say that it is not so: denied, to come, of another time, of something else, asked."""
IS: dict[Language, tuple[tuple[str, str], tuple[str, str]]] = {
    "en": (("is", "was"), ("are", "were")),
    "es": (("está", "estaba"), ("están", "estaban")),
    "pt": (("está", "estava"), ("estão", "estavam")),
}
"""To be, now and then, of one and of several."""
OTHERS = ("corn", "grass", "garden", "maíz", "pasto", "milho")


def beside(language: Language, said: str) -> Iterator[str]:
    """What is said beside a count: in a clause, a sentence behind or before it, a line of its own."""
    count, opened = COUNTED[language], said[0].upper() + said[1:]
    yield f"Kestrel {count}, {said}"
    yield f"Kestrel: {count}. {opened}."
    yield f"Kestrel. {opened}. {count[0].upper()}{count[1:]}."
    yield f"Kestrel\n{count}\n{said}"


def denials() -> Iterator[tuple[Language, str]]:
    """Each way to deny with each sign."""
    for language in LANGUAGES:
        for way, sign in itertools.product(DENIED[language], SIGNS[language]):
            yield from ((language, text) for text in beside(language, way.format(sign)))


def of_else() -> Iterator[tuple[Language, str]]:
    """Each way to say that it is not so with each thing told of."""
    for language in LANGUAGES:
        for way, (of, hows) in itertools.product(NOT_SO[language], SAID_OF[language].items()):
            is_, was = IS[language][of.endswith("s")]
            for how in hows:
                said = way.format(of=of, how=how, is_=is_, was=was)
                if any(other in said for other in OTHERS) and of in ("roots", "raíces", "raízes", "beans", "soja"):
                    continue
                yield from ((language, text) for text in beside(language, said))


def only_counted(text: str, language: Language) -> Note:
    """The note read, of which nothing is told but its count, and perhaps that the tops are healthy."""
    reading = read_note(text, sent=SENT, fields=("Kestrel", "Sumac"), language=language)
    assert not reading.problems, text
    (note,) = reading.notes
    found = (note.plants, note.females.white, note.females.total, note.outcome)
    assert found == (6, 12, 12, "seen"), text
    assert set(note.tops) <= {"healthy"}, text
    assert set(note.roots) <= {"nodules_few"}, text
    told = (note.soil.moisture, note.stage, note.look_again, note.method, note.soaked)
    assert told == (None,) * len(told), text
    return note


def some(cases: Iterator[tuple[Language, str]], count: int) -> list[tuple[Language, str]]:
    """Some of many, the same in every run."""
    return random.Random(5).sample(list(cases), count)


@pytest.mark.parametrize("language,text", some(denials(), 300))
def test_a_sign_that_is_denied_is_not_read(language: Language, text: str) -> None:
    only_counted(text, language)


@pytest.mark.parametrize("language,text", some(of_else(), 400))
def test_what_is_not_so_in_the_field_now_is_not_read(language: Language, text: str) -> None:
    only_counted(text, language)


@pytest.mark.heavy
def test_every_way_to_deny_a_sign() -> None:
    for language, text in denials():
        only_counted(text, language)


@pytest.mark.heavy
def test_every_way_to_say_that_it_is_not_so() -> None:
    for language, text in of_else():
        only_counted(text, language)


@pytest.mark.parametrize(
    "text,tops,roots",
    [
        ("Kestrel 6 plants 12 white, no yellowing but stunted", ("stunted",), ()),
        ("Kestrel 6 plants none tops yellow", ("yellow",), ()),
        ("Kestrel 6 plants no females tops yellow roots dark", ("yellow",), ("dark",)),
        ("Kestrel 6 plants, no females, plants stunted", ("stunted",), ()),
        ("Kestrel not dug yellow patches in the low end", ("yellow", "patch"), ()),
        ("Kestrel 6 plants 12 white no nodules roots dark", (), ("dark", "nodules_few")),
        ("Kestrel 6 plants 12 white no yellow plants stunted", ("stunted",), ()),
        ("Kestrel 6 plants 12 white. No doubt about the yellow patch", ("yellow", "patch"), ()),
        ("Kestrel 6 plants 12 white no rain, leaves wilted", ("wilted",), ()),
        ("Kestrel 6 plants 12 white. Didn't wash roots dark", (), ("dark",)),
        ("Kestrel 6 plants 12 white. You can't help but see the stunting", ("stunted",), ()),
    ],
)
def test_what_is_told_behind_a_denial_stands(text: str, tops: tuple[str, ...], roots: tuple[str, ...]) -> None:
    (note,) = read_note(text, sent=SENT, fields=("Kestrel", "Sumac")).notes
    assert (set(note.tops), set(note.roots)) == (set(tops), set(roots))


@pytest.mark.parametrize(
    "said,tops",
    [
        ("plants look stunted to me", ("stunted",)),
        ("stunted by the road", ("stunted",)),
        ("wilted along the ditch", ("wilted",)),
        ("yellow leaves where the truck was parked", ("yellow",)),
        ("plants stunted like the neighbor said", ("stunted",)),
        ("a little wilted if anything", ("wilted",)),
        ("wilted before the rain came", ("wilted",)),
        ("stunted, corn next to it is fine", ("stunted",)),
    ],
)
def test_a_place_or_a_doubt_leaves_a_sign_as_it_is(said: str, tops: tuple[str, ...]) -> None:
    (note,) = read_note(f"Kestrel 6 plants, 12 white, {said}", sent=SENT, fields=("Kestrel", "Sumac")).notes
    assert note.tops == tops


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel 6 plants, no cysts or yellowing",
        "Kestrel 6 plants none seen, no stunting or wilting",
        "Kestrel 6 plantas, ni hembras ni manchones",
    ],
)
def test_signs_denied_in_one_breath_with_the_females(text: str) -> None:
    (note,) = read_note(text, sent=SENT, fields=("Kestrel", "Sumac")).notes
    assert (note.outcome, note.females.total) == ("none_seen", 0)
    assert set(note.tops) <= {"healthy"}
