"""Talk beside findings: it is weighed by all its words and put aside, and what tells a datum is never taken for it."""

from __future__ import annotations

import random
from datetime import date
from pathlib import Path

import pytest

from notes_bot.language import read_note
from notes_bot.language.learn_talk import Example, learn, of_corpus, of_list, parted, spelled
from notes_bot.language.passes import talk
from notes_bot.model import LANGUAGES, Language, Note, Reading

SENT = date(2026, 7, 14)
FIELDS: dict[Language, tuple[str, ...]] = {
    "en": ("Kestrel", "Dry Creek", "Old Mill East"),
    "es": ("El Palenque", "Loma Alta", "Monte Chico"),
    "pt": ("Palmital", "Retiro Novo", "Santa Rita"),
}
PLAIN: dict[Language, str] = {
    "en": "Kestrel: 6 plants dug with the shovel, 12 white, 3 yellow",
    "es": "El Palenque: 6 plantas con pala, 12 blancas, 3 amarillas",
    "pt": "Palmital: 6 plantas com pá, 12 brancas, 3 amarelas",
}
LISTS = Path(__file__).parent / "corpus" / "talk"


def _read(text: str, language: Language) -> Reading:
    return read_note(text, sent=SENT, fields=FIELDS[language], language=language)


def _bare(note: Note) -> tuple[object, ...]:
    """What a note tells, without its free text and its place."""
    return note.field, note.date, note.plants, note.females, note.mostly, note.soil, note.tops, note.spots, note.soaked


TALK: tuple[tuple[Language, str], ...] = (
    ("en", "The radio says the Hawks dropped another one 8 to 3"),
    ("en", "My boy turned nine on Sunday and ate half the cake himself"),
    ("en", "Somebody left a white cooler on the tailgate and it flew off by the grain leg"),
    ("en", "There were seven of us packed into one pickup like sardines"),
    ("en", "Gas is up to 3.79 at the corner station so I am hauling less"),
    ("es", "En la radio dijeron que el dólar se fue a 1400 y nadie entiende nada"),
    ("es", "Mi hermano cumplió treinta y hubo asado para veinte"),
    ("es", "Se nos pinchó una goma y estuvimos media hora buscando el gato"),
    ("es", "El perro blanco del puestero me corrió dos cuadras"),
    ("pt", "O jogo ficou 2 a 2 e a turma não fala de outra coisa"),
    ("pt", "Meu tio faz cinquenta anos no sábado e vai ter churrasco"),
    ("pt", "Furou um pneu e ficamos meia hora procurando o macaco"),
    ("pt", "O cachorro marrom do caseiro latiu o tempo todo"),
)


@pytest.mark.parametrize(("language", "said"), TALK)
@pytest.mark.parametrize("form", ["{plain}. {said}.", "{plain}\n{said}", "{said}. {plain}."])
def test_talk_beside_a_note_tells_nothing_and_asks_nothing(language: Language, said: str, form: str) -> None:
    plain = _read(PLAIN[language], language)
    reading = _read(form.format(plain=PLAIN[language], said=said), language)

    assert list(map(_bare, reading.notes)) == list(map(_bare, plain.notes))
    assert reading.problems == reading.commands == ()


def test_talk_stays_in_the_text_of_its_note() -> None:
    (note,) = _read(PLAIN["en"] + ". The radio says the Hawks dropped another one 8 to 3.", "en").notes

    assert "dropped another one 8 to 3" in note.text


@pytest.mark.parametrize(
    ("language", "said", "told"),
    [
        ("en", "Not a single one on any root I turned over", ("outcome", "none_seen")),
        ("en", "It is knee high and sitting at R2 already", ("stage", "R2")),
        ("en", "The ground is wet and my boots weigh a ton", ("moisture", "wet")),
        ("en", "Had to leave without digging because lightning was popping all around", ("outcome", "not_looked")),
        ("es", "La verdad que no encontré ni una sola en las raíces", ("outcome", "none_seen")),
        ("pt", "Olha, não achei nenhuma em raiz nenhuma mesmo", ("outcome", "none_seen")),
    ],
)
def test_what_is_told_talkatively_is_no_talk(language: Language, said: str, told: tuple[str, str]) -> None:
    plants = {"en": "6 plants", "es": "6 plantas", "pt": "6 plantas"}[language]
    begin = FIELDS[language][0] if told[1] == "not_looked" else f"{FIELDS[language][0]} {plants}"
    (note,) = _read(f"{begin}. {said}.", language).notes

    key, value = told
    assert (note.soil.moisture if key == "moisture" else getattr(note, key)) == value


@pytest.mark.parametrize(
    "said",
    [
        "the whole crew works in Illinois",
        "i don't want any more reminders this year",
        "are our varieties still holding",
    ],
)
def test_a_message_of_nothing_else_may_still_ask(said: str) -> None:
    assert _read(said, "en").commands


def test_a_sentence_that_names_a_field_is_never_talk() -> None:
    (sentence,) = talk.sentences_of(list(_pieces("the boss and his dog were at kestrel with seven friends")))

    assert not talk.may_be_talk(sentence)


def _pieces(text: str) -> list[object]:
    from notes_bot.language.lexicon.pieces import Cutter
    from notes_bot.language.lexicon.scan import scan

    return list(Cutter("en", FIELDS["en"]).cut(scan(text)))


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_lists_are_told_from_each_other(language: Language) -> None:
    """Weights that were learned from them too: what they miss is little, and findings are missed least."""
    kept: dict[bool, list[bool]] = {True: [], False: []}
    for line in (LISTS / f"{language}.tsv").read_text("utf-8").splitlines():
        for signs, idle in of_list(line, language, FIELDS[language]):
            kept[idle].append(talk.likelihood(signs) >= talk.SURE)

    assert sum(kept[True]) / len(kept[True]) > 0.6
    assert sum(kept[False]) / len(kept[False]) < 0.01


def test_a_sentence_of_a_message_is_talk_where_all_else_reads_without_it() -> None:
    row = {
        "text": "Kestrel 6 plants dug, 12 white. My cousin and his old truck are stuck at the bridge again. R2",
        "sent": "2026-07-14",
        "fields": FIELDS["en"],
        "language": "en",
        "reading": {
            "notes": [
                {
                    "field": "kestrel",
                    "plants": 6,
                    "method": "shovel",
                    "females": {"white": 12, "yellow": 0, "tan": 0, "brown": 0, "total": 12},
                    "outcome": "seen",
                    "stage": "R2",
                }
            ]
        },
    }

    told = list(of_corpus(row))

    assert told
    assert all(idle for _, idle in told)


def test_signs_tell_talk_from_findings() -> None:
    """Learned from a few, each told five times: a sign of one kind weighs for it, and what is learned can be kept."""
    luck = random.Random(3)
    learned = [
        Example(frozenset({f"1 {word}", "u 3", f"1 x{luck.randint(1, 9)}"}), idle, n)
        for n, (word, idle) in enumerate([("ball", True), ("root", False)] * 5)
    ]
    weights = learn(learned)

    assert weights["1 ball"] > 0 > weights["1 root"]
    assert '"1 ball"' in spelled(weights)
    assert "100" in next(parted(learned))
