"""Words of prose and talk are no names of fields, with a crew's list and without; strange names still are."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note, reader
from notes_bot.model import Reading

SENT = date(2026, 7, 8)
FIELDS = ("Kestrel", "Old Mill East", "Dry Creek", "La Tranquera", "Molino Viejo", "Baixada", "Santa Rita")


def _names(reading: Reading) -> list[str]:
    told = [note.field for note in reading.notes]
    told += [command.args.get("field") or command.args.get("name") for command in reading.commands]
    return [name for name in told if name]


TALK = [
    "truck wont start again lol",
    "the pickup wont start again, stuck at the shop",
    "valeu, abraço pra família",
    "jaja dale, mañana te cuento mejor",
    "acá llueve a cántaros, mate y paciencia",
]
NOTES = [
    "dug 10. 12 yel 20 tan 4 brn no wht. r4 moist. back 2wk",
    "label says 12 hours. 6 plants 2 white, V5",
    "six plants. My book says four white in all",
    "R5, 5 plants dug: 2 white. Soil test says pH 7.6.",
    "visited Monday. Eight plants, 21 white, dug.",
    "daddy dug 6 none at all",
    "6 plants 2 white, pure sand",
    "2 white on 6 plants. half the roots broke off",
    "gate 3 plants 5 white, far end 3 plants 2 white",
    "headland 2 plants 5w. middle 4 plants 3w 1y.",
    "entrance 3 pl 7 cysts total, back corner 3 pl 2 cysts total",
    "ayer, saqué 6, las metimos al balde. 8 blancas 3 amarillas",
    "6 plantas 2 blancas. le pongo franco arenoso de textura",
    "6 plantas, 2 blancas. yo diría franco limoso",
    "6 plantas 0, le damos tres semanas y volvemos",
    "cabecera 4 plantas 12 blancas 3 amarillas, medio 4 plantas 2 blancas",
    "entrada 3 matas 8 blanquitas, fondo 3 matas 15 blanquitas",
    "6 pés 2 brancas. coloca franco argiloso",
    "não deu pra cavar hoje, chovendo demais",
    "6 pés nenhuma, dar três semanas e contar outra vez",
    "entrada 4 pl 9 brancas 3 amarelas, fundo 4 pl nada",
    "reboleira 4 pés 18 brancas, fora 4 pés nenhuma",
]


@pytest.mark.parametrize("text", NOTES + TALK)
def test_with_a_list_nothing_else_is_a_name(text: str) -> None:
    assert _names(read_note(text, sent=SENT, fields=FIELDS)) == []


@pytest.mark.parametrize("text", TALK + NOTES)
def test_without_a_list_neither(text: str) -> None:
    assert _names(read_note(text, sent=SENT)) == []


@pytest.mark.parametrize("text", ["kkkk calor de rachar hoje, ninguém merece", "your consultant"])
def test_with_a_list_what_tells_nothing_is_talk(text: str) -> None:
    assert _names(read_note(text, sent=SENT, fields=FIELDS)) == []


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("hollow bend dug 6, 12 white 3 yellow", "hollow bend"),
        ("Plover Draw: R2, 5 plants, none", "plover draw"),
        ("dug 5 at teller hill, 4 white", "teller hill"),
        ("gate field 5 plants, 2 white, dug", "gate"),
        ("el chañar 6 plantas con pala, 3 blancas", "el chañar"),
        ("Saqué 6 plantas en Loma Pelada, ninguna hembra. R3", "loma pelada"),
        ("grota funda, R2, 5 pés na pá, 3 brancas", "grota funda"),
        ("Talhão 9: 6 pés, nenhuma", "9"),
    ],
)
def test_a_strange_name_is_still_found(text: str, field: str) -> None:
    assert _names(read_note(text, sent=SENT, fields=FIELDS)) == [field]
    assert _names(read_note(text, sent=SENT)) == [field]


@pytest.mark.parametrize(
    ("text", "fields"),
    [
        ("Kestrel 6 plants, 4 white. Hollow Bend 5 plants, none.", ["kestrel", "hollow bend"]),
        ("Kestrel 6 plants, 4 white\nhollow bend 5 plants, none", ["kestrel", "hollow bend"]),
        ("Baixada 6 pés 4 brancas\nGrota Funda 5 pés nenhuma", ["baixada", "grota funda"]),
        ("Kestrel 10 plants, 4 white. Compared with last August it looks better", ["kestrel"]),
        ("Kestrel gate 5 plants 6 white. Far fence, 5 plants, none.", ["kestrel"]),
        ("La Tranquera entrada 5 plantas 6 blancas. Fondo, 5 plantas, ninguna.", ["la tranquera"]),
    ],
)
def test_beside_a_field_of_the_crew_a_strange_name_must_be_told(text: str, fields: list[str]) -> None:
    assert _names(read_note(text, sent=SENT, fields=FIELDS)) == fields


@pytest.mark.parametrize(
    ("text", "guessed"),
    [
        ("field 1 R2, 10 plants 4 white\nfield 3 R2, 10 plants none", 0),
        ("Kestrel R2, 10 plants 4 white", 0),
        ("willow bend R2, 10 plants 4 white", 1),
    ],
)
def test_names_are_guessed_only_for_strange_ones(monkeypatch: pytest.MonkeyPatch, text: str, guessed: int) -> None:
    """A whole round of fields told by the word for field costs one reading, not two and all guesses."""
    guess = reader.guesses
    done: list[int] = []
    monkeypatch.setattr(reader, "guesses", lambda *words, **more: done.append(1) or guess(*words, **more))

    read_note(text, sent=SENT, fields=("Kestrel", "Dry Creek"))

    assert len(done) == guessed
