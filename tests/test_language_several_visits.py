"""Several fields or visits in one message: which field, day and plants each thing is told of."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import Language, Note

SENT = date(2026, 7, 8)  # a Wednesday
EN = (
    "Kestrel",
    "Sumac",
    "Tannery",
    "Teller East",
    "Long Levee",
    "Cemetery Road",
    "County Line",
    "Rail Spur",
    "Pivot 3",
)
EN = (*EN, "Pivot 6", "Water Tower")
ES = ("Quebracho", "Ceibo", "Hornos", "La Loma", "Santa Elvira", "Doña Clara", "Don Braulio", "La Iglesia")
PT = ("Retiro", "Sucuri", "Cerradão", "Barreiro", "Mangueira", "Pedra Branca", "Sede Velha")
FIELDS = {"en": EN, "es": ES, "pt": PT}
NONE, NOT = "none_seen", "not_looked"


def read(text: str, language: Language) -> tuple[Note, ...]:
    reading = read_note(text, sent=SENT, fields=FIELDS[language], language=language)
    assert not reading.problems, reading.problems
    assert not reading.commands, reading.commands
    return reading.notes


def told(notes: tuple[Note, ...]) -> list[tuple[str | None, int | None, int | str | None]]:
    """Field, plants, and how many females or why none."""
    return [(n.field, n.plants, n.females.total if n.outcome == "seen" else n.outcome) for n in notes]


def days(notes: tuple[Note, ...]) -> list[int | None]:
    return [note.date.day if note.date is not None else None for note in notes]


@pytest.mark.parametrize(
    ("language", "text", "expected"),
    [
        (
            "es",
            "quebracho pala 5 ninguna, nueve plantas más en ceibo con pala, tres blancas",
            [("quebracho", 5, NONE), ("ceibo", 9, 3)],
        ),
        (
            "es",
            "quebracho pala 5 ninguna, otras nueve en ceibo, tres blancas",
            [("quebracho", 5, NONE), ("ceibo", 9, 3)],
        ),
        ("es", "ceibo pala 5 ninguna y seis más en hornos, dos blancas", [("ceibo", 5, NONE), ("hornos", 6, 2)]),
        ("en", "kestrel dug 5 none, nine more plants at sumac, three white", [("kestrel", 5, NONE), ("sumac", 9, 3)]),
        ("en", "kestrel 5 plants none, another 6 at tannery, 2 white", [("kestrel", 5, NONE), ("tannery", 6, 2)]),
        ("en", "kestrel dug 5 none, six plants at tannery, 2 white", [("kestrel", 5, NONE), ("tannery", 6, 2)]),
        (
            "pt",
            "retiro pá 5 nenhuma, mais seis plantas na sucuri, três brancas",
            [("retiro", 5, NONE), ("sucuri", 6, 3)],
        ),
        (
            "pt",
            "ontem olhei o cerradão seis plantas sem nada e a sucuri seis plantas com duas fêmeas brancas",
            [("cerradão", 6, NONE), ("sucuri", 6, 2)],
        ),
        (
            "en",
            "looked at kestrel six plants none and the tannery six plants two white",
            [("kestrel", 6, NONE), ("tannery", 6, 2)],
        ),
    ],
)
def test_plants_at_another_field_are_another_note(
    language: Language, text: str, expected: list[tuple[str, int, int | str]]
) -> None:
    assert told(read(text, language)) == expected


@pytest.mark.parametrize(
    ("language", "text", "expected"),
    [
        ("es", "Ceibo lunes pala 5 nada; martes volví a Hornos pala 5, 6 b", [6, 7]),
        ("es", "Ceibo lunes pala 5 nada. El martes fui a Hornos, pala 5, 6 b", [6, 7]),
        ("en", "Kestrel monday dug 5 none; tuesday went back to Sumac dug 5, 6 white", [6, 7]),
        ("en", "Kestrel monday dug 5 none; tuesday I returned to Sumac, spade 5, 6 white", [6, 7]),
        ("en", "pivot 3 and pivot 6 same day, friday. pivot 3: 5 plants 0. pivot 6: 5 plants 7 white", [3, 3]),
        ("pt", "retiro e sucuri no mesmo dia, sexta. retiro 5 plantas nada. sucuri 5 plantas 3 brancas", [3, 3]),
        ("en", "kestrel 5 plants none, friday. sumac 5 plants 3 white", [3, None]),
        ("es", "hoy 2 campos\nla iglesia 4 matas 0\nla loma 4 matas 6 blancas", [8, 8]),
        ("es", "visité 3 campos ayer\nceibo 6 pl 0\nhornos 6 pl 3 b\nla loma 6 pl 1 am", [7, 7, 7]),
        ("pt", "ontem passei em 2 áreas\nretiro 6 pl 0\nsede velha 6 pl 3 b", [7, 7]),
        ("en", "three fields yesterday:\nkestrel 6 dug none\nsumac 6 dug 3 white\ntannery not looked", [7, 7, 7]),
    ],
)
def test_a_day_is_that_of_its_own_fields(language: Language, text: str, expected: list[int | None]) -> None:
    notes = read(text, language)
    assert days(notes) == expected
    assert all(note.look_again is None for note in notes)


@pytest.mark.parametrize(
    ("language", "text", "expected"),
    [
        ("en", "Teller east Long levee and sumac all not looked, rain", ["teller east", "long levee", "sumac"]),
        ("en", "teller east long levee sumac not looked", ["teller east", "long levee", "sumac"]),
        ("en", "kestrel sumac both none 6 plants dug", ["kestrel", "sumac"]),
        ("es", "ceibo hornos y la loma no los miré, lluvia", ["ceibo", "hornos", "la loma"]),
        ("pt", "retiro sucuri e cerradão não olhei, choveu", ["retiro", "sucuri", "cerradão"]),
        ("es", "en el ceibo y en el hornos no hay nada de hembras, 5 plantas en cada uno", ["ceibo", "hornos"]),
        ("en", "in the kestrel and in the sumac no females, 5 plants in each", ["kestrel", "sumac"]),
    ],
)
def test_fields_side_by_side_are_told_together(language: Language, text: str, expected: list[str]) -> None:
    notes = read(text, language)
    assert [note.field for note in notes] == expected
    assert len({note.outcome for note in notes}) == 1


@pytest.mark.parametrize(
    ("language", "text", "expected"),
    [
        (
            "es",
            "anteayer hice Santa Elvira y Doña Clara, seis con pala cada una. Elvira 4 blancas 1 tostada. Clara nada",
            [("elvira", 6, 5), ("clara", 6, NONE)],
        ),
        (
            "es",
            "Hice Santa Elvira y Doña Clara ayer, 6 plantas en cada una. En Elvira 4 blancas. En Clara nada",
            [("elvira", 6, 4), ("clara", 6, NONE)],
        ),
        (
            "pt",
            "Fiz Barreiro e Mangueira anteontem, cinco plantas de pá em cada. Barreiro 3 brancas 1 amarela, Mangueira sem nada",
            [("barreiro", 5, 4), ("mangueira", 5, NONE)],
        ),
        (
            "pt",
            "Fiz Retiro e Pedra Branca ontem, 5 plantas cada. Retiro 3 brancas. Pedra nada",
            [("retiro", 5, 3), ("pedra", 5, NONE)],
        ),
        (
            "en",
            "hit rail spur and water tower today, 5 dug in each. spur none, tower 3 white",
            [("spur", 5, NONE), ("tower", 5, 3)],
        ),
    ],
)
def test_a_word_of_a_name_told_before_names_it(
    language: Language, text: str, expected: list[tuple[str, int, int | str]]
) -> None:
    notes = read(text, language)
    assert told(notes) == expected
    assert len(set(days(notes))) == 1
    assert notes[0].date is not None
    assert [note.soil.moisture for note in notes] == [None, None]


@pytest.mark.parametrize(
    ("language", "text", "expected"),
    [
        (
            "en",
            "plants/females: cemetery road 5/17, county line 5/0, rail spur 5/26. all shovel, all R5",
            [("cemetery road", 5, 17), ("county line", 5, NONE), ("rail spur", 5, 26)],
        ),
        ("en", "kestrel 5/17, sumac 5/0 (plants/females)", [("kestrel", 5, 17), ("sumac", 5, NONE)]),
        ("en", "females/plants: kestrel 17/5, sumac 0/5", [("kestrel", 5, 17), ("sumac", 5, NONE)]),
        ("en", "plants/white/yellow: kestrel 5/17/2, sumac 5/0/0", [("kestrel", 5, 19), ("sumac", 5, NONE)]),
        ("es", "plantas/hembras: ceibo 5/17, hornos 5/0. todo con pala", [("ceibo", 5, 17), ("hornos", 5, NONE)]),
        ("pt", "pés/fêmeas\nretiro 5/17\nsucuri 5/0", [("retiro", 5, 17), ("sucuri", 5, NONE)]),
    ],
)
def test_a_heading_says_what_slashes_part(
    language: Language, text: str, expected: list[tuple[str, int, int | str]]
) -> None:
    assert told(read(text, language)) == expected


@pytest.mark.parametrize(
    ("language", "text", "expected"),
    [
        (
            "en",
            "Kestrel 12w. Tannery none. Sumac not looked, rained out. spade at first two, 5 plants each",
            [("kestrel", 5, 12), ("tannery", 5, NONE), ("sumac", None, NOT)],
        ),
        (
            "es",
            "ceibo 12 blancas. hornos nada. la loma no se miró. pala en los dos primeros, 5 plantas cada uno",
            [("ceibo", 5, 12), ("hornos", 5, NONE), ("la loma", None, NOT)],
        ),
        (
            "pt",
            "retiro 12 brancas. sucuri nada. sede velha não olhei. pá nos dois primeiros, 5 plantas em cada",
            [("retiro", 5, 12), ("sucuri", 5, NONE), ("sede velha", None, NOT)],
        ),
        (
            "en",
            "kestrel 12 white, sumac none, tannery not looked. Dug 6 in each",
            [("kestrel", 6, 12), ("sumac", 6, NONE), ("tannery", None, NOT)],
        ),
    ],
)
def test_what_is_told_of_the_first_fields_is_not_told_of_the_last(
    language: Language, text: str, expected: list[tuple[str, int | None, int | str]]
) -> None:
    notes = read(text, language)
    assert told(notes) == expected
    assert [note.method for note in notes] == ["shovel", "shovel", None]


@pytest.mark.parametrize(
    ("language", "text", "plants", "females"),
    [
        ("pt", "Retiro 5 pl 8 b 1 a pá", 5, (8, 1, 0)),
        ("es", "La Loma pala 6 22 b 4 a 9 m", 6, (22, 4, 9)),
        ("pt", "Retiro pá 8, 12 b 4 a 7 m úmido", 8, (12, 4, 7)),
        ("en", "rail spur, dug 6, 15 found, all white, dry", 6, (15, 0, 0)),
    ],
)
def test_letters_in_a_list_are_colors(
    language: Language, text: str, plants: int, females: tuple[int, int, int]
) -> None:
    (note,) = read(text, language)
    assert note.plants == plants
    assert (note.females.white, note.females.yellow, note.females.brown) == females


@pytest.mark.parametrize(
    ("language", "text", "plants", "total"),
    [
        ("en", "dump road, pulled 4, 0 found, dry", 4, 0),
        ("en", "rail spur, dug 6, 15 found, dry", 6, 15),
        ("es", "hornos pala 6, 12 halladas, seco", 6, 12),
        ("pt", "retiro 6 pés, 4 achadas", 6, 4),
        ("es", "ceibo seis con pala, ninguna", 6, 0),
    ],
)
def test_so_many_found(language: Language, text: str, plants: int, total: int) -> None:
    (note,) = read(text, language)
    assert (note.plants, note.females.total) == (plants, total)


def test_seen_by_nobody() -> None:
    notes = read("Hoy\nLa Iglesia 6pl 0\nHornos 6pl 7bl\nDon Braulio sin ver", "es")
    assert told(notes) == [("la iglesia", 6, NONE), ("hornos", 6, 7), ("don braulio", None, NOT)]
    assert days(notes) == [8, 8, 8]


@pytest.mark.parametrize(
    ("language", "text", "kind"),
    [
        ("en", "Tannery pulled 4, 0. lab sumac 2400 eggs per 100cc", "lab"),
        ("en", "lab sumac 2400 eggs per 100cc. Tannery pulled 4, none", "lab"),
        ("en", "Tannery pulled 4, 0. skip sumac", "move"),
        ("es", "Ceibo arrancadas 4, 0. lab hornos 2400 huevos por 100cc", "lab"),
        ("pt", "Retiro arrancadas 4, nada. lab sucuri 2400 ovos por 100cc", "lab"),
    ],
)
def test_a_note_and_what_is_told_or_asked_of_another_field(language: Language, text: str, kind: str) -> None:
    reading = read_note(text, sent=SENT, fields=FIELDS[language], language=language)
    assert not reading.problems
    (note,), (command,) = reading.notes, reading.commands
    assert (note.plants, note.outcome) == (4, NONE)
    assert command.kind == kind
    assert command.args["field"] != note.field


@pytest.mark.parametrize(
    ("language", "text", "expected"),
    [
        (
            "en",
            "kestrel 0, sumac 3, tannery 14 females. 6 dug in each",
            [("kestrel", 6, NONE), ("sumac", 6, 3), ("tannery", 6, 14)],
        ),
        (
            "es",
            "hoy hice tres: ceibo 6 plantas 0, hornos 6 plantas 4 blancas, la loma sin revisar",
            [("ceibo", 6, NONE), ("hornos", 6, 4), ("la loma", None, NOT)],
        ),
        (
            "en",
            "kestrel dug 6 none. same in sumac. tannery had 5 white on 6",
            [("kestrel", 6, NONE), ("sumac", 6, NONE), ("tannery", 6, 5)],
        ),
    ],
)
def test_each_of_several_fields_has_its_count(
    language: Language, text: str, expected: list[tuple[str, int | None, int | str]]
) -> None:
    assert told(read(text, language)) == expected
