"""Plain notes in every way of putting them together: plants and digging, what parts them, and what was found.

Each part is common by itself; what is tried is that they read beside each other, whatever stands between. A few ways
are left out that nobody can tell ("6 plants had 0" puts a number right).
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Language, Note

SENT = date(2026, 7, 8)
NAMES: dict[Language, str] = {"en": "Red Barn", "es": "La Loma Vieja", "pt": "Santa Rita"}
DUG: dict[Language, tuple[tuple[str, str | None], ...]] = {
    "en": (
        *(("6 plants", None), ("6 pl", None), ("dug 6", "shovel"), ("6 dug", "shovel"), ("6 plants dug", "shovel")),
        *(("dug 6 plants", "shovel"), ("6 plants with the shovel", "shovel"), ("6 plants, shovel", "shovel")),
        *(("shovel, 6 plants", "shovel"), ("6 plants (shovel)", "shovel"), ("pulled 6 plants", "pulled")),
        *(("6 pulled", "pulled"), ("6 plants pulled by hand", "pulled"), ("dug 6 plants with a spade", "shovel")),
        *(("6 plants dug with the spade", "shovel"), ("6 plants dug and soaked", "shovel")),
    ),
    "es": (
        *(("6 plantas", None), ("6 pl", None), ("saqué 6 con pala", "shovel"), ("6 con pala", "shovel")),
        *(("6 plantas con pala", "shovel"), ("con pala 6 plantas", "shovel"), ("arranqué 6", "pulled")),
        *(("6 plantas arrancadas", "pulled"), ("6 plantas arrancadas a mano", "pulled"), ("6 plantas, pala", "shovel")),
        *(("6 matas sacadas con pala", "shovel"), ("pala, 6 plantas", "shovel")),
    ),
    "pt": (
        *(("6 plantas", None), ("6 pl", None), ("tirei 6 com pá", "shovel"), ("6 com pá", "shovel")),
        *(("6 plantas com pá", "shovel"), ("com pá 6 plantas", "shovel"), ("arranquei 6", "pulled")),
        *(("6 plantas arrancadas", "pulled"), ("6 plantas arrancadas na mão", "pulled"), ("6 plantas, pá", "shovel")),
        *(("6 pés cavados", "shovel"), ("pá, 6 plantas", "shovel")),
    ),
}
PARTED: dict[Language, tuple[str, ...]] = {
    "en": (" ", ", ", ": ", " - ", "; ", ". ", " / ", "\n", " found ", " and found ", ", found ", " with ", " -> "),
    "es": (" ", ", ", ": ", " - ", "; ", ". ", " / ", "\n", " y encontré ", ", encontré ", " con "),
    "pt": (" ", ", ", ": ", " - ", "; ", ". ", " / ", "\n", " e achei ", ", achei ", " com "),
}
WORDS: dict[Language, tuple[str, ...]] = {
    "en": ("white", "yellow", "females", "total", "none", "no females", "per plant", "and"),
    "es": ("blancas", "amarillas", "hembras", "total", "ninguna", "ninguna hembra", "por planta", "y"),
    "pt": ("brancas", "amarelas", "fêmeas", "total", "nenhuma", "nenhuma fêmea", "por planta", "e"),
}
Found = tuple[int | None, int | None, int]
"""White, yellow and all of them."""


def found(language: Language) -> tuple[tuple[str, Found], ...]:
    """Ways of telling what was found on six plants."""
    white, yellow, females, total, none, no_females, each, joint = WORDS[language]
    listed = ((text, (None, None, 17)) for text in ("3 0 7 2 5 0", "3,0,7,2,5,0", "3, 0, 7, 2, 5, 0", "3-0-7-2-5-0"))
    colored = (
        *(
            f"12 {white} 3 {yellow}",
            f"12 {white}, 3 {yellow}",
            f"12 {white} {joint} 3 {yellow}",
            f"12 {white}/3 {yellow}",
        ),
        *(f"{white} 12 {yellow} 3", f"{white} 12, {yellow} 3", f"{white}: 12, {yellow}: 3", f"12 {white} + 3 {yellow}"),
        *(f"12{white[0]} 3{yellow[0]}", f"{white[0]}12 {yellow[0]}3", f"12 {white}, 3 {yellow}, 15 {total}"),
    )
    return (
        *((text, (12, 3, 15)) for text in colored),
        *((text, (None, None, 15)) for text in (f"15 {females}", f"{total} 15", f"15 {total}")),
        *((text, (0, 0, 0)) for text in (none, "0", no_females)),
        *((f"12 {white}", (12, 0, 12)), (f"2 {white} {each}", (12, 0, 12)), (f"3 0 7 2 5 0 {white}", (17, 0, 17))),
        *listed,
    )


def notes(language: Language) -> Iterator[tuple[str, str | None, Found]]:
    """Every note: its text, how the plants came up, and what was found."""
    for (dug, method), parted, (told, counts) in itertools.product(DUG[language], PARTED[language], found(language)):
        for form in ("{name} {dug}{parted}{told}", "{name}: {dug}{parted}{told}", "{name}, R2, {dug}{parted}{told}"):
            yield form.format(name=NAMES[language], dug=dug, parted=parted, told=told), method, counts


def misread(language: Language, step: int) -> list[str]:
    """Every so many-th note that is asked about or read as something else."""
    out = []
    for text, method, (white, yellow, total) in itertools.islice(notes(language), 0, None, step):
        fields = (NAMES[language], "Kestrel Flat", "Dois Irmãos")
        reading = read_note(text, sent=SENT, fields=fields, language=language)
        read = [
            (note.field, note.plants, note.females.total, note.females.white if white is not None else None)
            for note in reading.notes
        ]
        as_meant = (
            read == [(NAMES[language].lower(), 6, total, white)] and not reading.problems and not reading.commands
        )
        as_meant = as_meant and (method is None or reading.notes[0].method == method)
        if not as_meant or (yellow is not None and reading.notes[0].females.yellow != yellow):
            out.append(text)
    return out


@pytest.mark.parametrize("language", ["en", "es", "pt"])
def test_the_parts_of_a_note_read_in_every_way(language: Language) -> None:
    assert misread(language, 11) == []


@pytest.mark.heavy
@pytest.mark.parametrize("language", ["en", "es", "pt"])
def test_the_parts_of_a_note_read_in_really_every_way(language: Language) -> None:
    assert misread(language, 1) == []


PAIRED = (
    *(
        ("6 plants 12 white", 6, 12),
        ("6 dug none", 6, 0),
        ("dug 6: 12 white 3 yellow", 6, 15),
        ("not looked", None, None),
    ),
    *(("6 pl, 3 0 7 2 0 0", 6, 12), ("6 plants, 15 females", 6, 15), ("pulled 6, 4w 2y", 6, 6), ("none on 6", 6, 0)),
    *(("R2 moist 6 plants 12 white", 6, 12), ("12 white on 6 plants", 6, 12)),
)
"""What is told of a field, its plants and all females."""


@pytest.mark.parametrize("form", ["{name} {told}", "{name}: {told}", "{name} - {told}", "{told} at {name}"])
@pytest.mark.parametrize("parted", [". ", "\n", "; ", ", ", " and ", " / ", " - ", " then ", ". Then "])
def test_two_fields_read_whatever_parts_them(form: str, parted: str) -> None:
    crew = ("Red Barn", "Kestrel Flat", "Mill Run")
    wrong = []
    for one, other in itertools.permutations(PAIRED, 2):
        text = parted.join(form.format(name=name, told=row[0]) for name, row in zip(crew, (one, other), strict=False))
        reading = read_note(text, sent=SENT, fields=crew, language="en")
        read = [(note.field, note.plants, note.females.total) for note in reading.notes]
        if read != [("red barn", *one[1:]), ("kestrel flat", *other[1:])] or reading.problems or reading.commands:
            wrong.append(text)
    assert wrong == []


def test_a_comparison_is_no_second_field() -> None:
    reading = read_note(
        "6 dug, 3 white at Red Barn, unlike the 12 white in Mill Run", sent=SENT, fields=("Red Barn", "Mill Run")
    )
    assert [note.females.white for note in reading.notes] != [3, 12]


Datum = tuple[str, str, object]
"""What is written, which datum it tells, and its value."""
DATA: dict[Language, tuple[Datum, ...]] = {
    "en": (
        *(("moist", "moisture", "moist"), ("soil is wet", "moisture", "wet"), ("sandy loam", "texture", "sandy_loam")),
        *(("clay soil", "texture", "clay"), ("pH 7.2", "ph", 7.2), ("K 95 ppm", "k_ppm", 95.0), ("R2", "stage", "R2")),
        *(("roots snapped", "roots", ("snapped",)), ("nodules pink inside", "roots", ("nodules_pink",))),
        *(("few nodules", "roots", ("nodules_few",)), ("tops healthy", "tops", ("healthy",))),
        *(("plants wilted", "tops", ("wilted",)), ("old leaves yellow on the edges", "tops", ("edges_old",))),
        *(("new leaves yellow between green veins", "tops", ("interveinal_new",)), ("recheck 10 d", "look", 10)),
        *(("look again in 2 weeks", "look", 14), ("roots washed", "soaked", True), ("not soaked", "soaked", False)),
        *(("resistant variety", "resistance", "resistant"), ("yesterday", "date", date(2026, 7, 7))),
    ),
    "es": (
        *(
            ("húmedo", "moisture", "moist"),
            ("suelo mojado", "moisture", "wet"),
            ("franco arenoso", "texture", "sandy_loam"),
        ),
        *(("suelo arcilloso", "texture", "clay"), ("pH 7,2", "ph", 7.2), ("R2", "stage", "R2")),
        *(
            ("se cortaron las raíces", "roots", ("snapped",)),
            ("nódulos rosados por dentro", "roots", ("nodules_pink",)),
        ),
        *(("pocos nódulos", "roots", ("nodules_few",)), ("plantas sanas", "tops", ("healthy",))),
        *(("plantas marchitas", "tops", ("wilted",)), ("hojas viejas amarillas en los bordes", "tops", ("edges_old",))),
        *(
            ("hojas nuevas amarillas entre nervaduras verdes", "tops", ("interveinal_new",)),
            ("vuelvo en 2 semanas", "look", 14),
        ),
        *(("volver en 10 días", "look", 10), ("raíces lavadas", "soaked", True), ("sin lavar", "soaked", False)),
        *(("variedad resistente", "resistance", "resistant"), ("ayer", "date", date(2026, 7, 7))),
    ),
    "pt": (
        *(
            ("úmido", "moisture", "moist"),
            ("solo encharcado", "moisture", "wet"),
            ("franco arenoso", "texture", "sandy_loam"),
        ),
        *(("solo argiloso", "texture", "clay"), ("pH 7,2", "ph", 7.2), ("R2", "stage", "R2")),
        *(("as raízes quebraram", "roots", ("snapped",)), ("nódulos rosados por dentro", "roots", ("nodules_pink",))),
        *(("poucos nódulos", "roots", ("nodules_few",)), ("plantas sadias", "tops", ("healthy",))),
        *(("plantas murchas", "tops", ("wilted",)), ("folhas velhas amarelas nas bordas", "tops", ("edges_old",))),
        *(
            ("folhas novas amarelas entre nervuras verdes", "tops", ("interveinal_new",)),
            ("volto em 2 semanas", "look", 14),
        ),
        *(("voltar em 10 dias", "look", 10), ("raízes lavadas", "soaked", True), ("sem lavar", "soaked", False)),
        *(("cultivar resistente", "resistance", "resistant"), ("ontem", "date", date(2026, 7, 7))),
    ),
}
VISIT: dict[Language, tuple[str, str]] = {
    "en": ("6 plants dug", "12 white"),
    "es": ("6 plantas con pala", "12 blancas"),
    "pt": ("6 plantas com pá", "12 brancas"),
}
ORDERS = (
    "{n} {a}{s}{b}{s}{p}{s}{c}",
    "{n}{s}{p}{s}{c}{s}{a}{s}{b}",
    "{n}{s}{a}{s}{p}{s}{b}{s}{c}",
    "{n}{s}{p}{s}{a}{s}{c}{s}{b}",
)
"""Where two data stand around the plants and the count of a note."""


def told_of(note: Note) -> dict[str, object]:
    """Its data, those of two words flat."""
    look = note.look_again.days if note.look_again is not None else None
    resistance = note.variety.resistance if note.variety is not None else None
    plain = (note.field, note.plants, note.females.white, note.females.total, note.method)
    soil = {key: getattr(note.soil, key) for key in ("moisture", "texture", "ph", "k_ppm")}
    own = {"stage": note.stage, "roots": note.roots, "tops": note.tops, "date": note.date, "soaked": note.soaked}
    told = {"visit": plain, **soil, **own, "look": look, "resistance": resistance}
    return {key: value for key, value in told.items() if value not in (None, ())}


def pairs_misread(language: Language, step: int) -> list[str]:
    """Every so many-th note with two data beside its plants and count that is asked about or read as something else."""
    name, (plants, count) = NAMES[language], VISIT[language]
    pairs = (row for row in itertools.permutations(DATA[language], 2) if row[0][1] != row[1][1])
    wrong = []
    for (one, other), stop, order in itertools.islice(
        itertools.product(pairs, (", ", ". ", "\n"), ORDERS), 0, None, step
    ):
        text = order.format(n=name, a=one[0], b=other[0], s=stop, p=plants, c=count)
        reading = read_note(text, sent=SENT, fields=(name, "Kestrel Flat"), language=language)
        meant = {"visit": (name.lower(), 6, 12, 12, "shovel"), one[1]: one[2], other[1]: other[2]}
        if [told_of(note) for note in reading.notes] != [meant] or reading.problems or reading.commands:
            wrong.append(text)
    return wrong


@pytest.mark.parametrize("language", ["en", "es", "pt"])
def test_two_data_stand_anywhere_beside_plants_and_count(language: Language) -> None:
    assert pairs_misread(language, 5) == []


@pytest.mark.heavy
@pytest.mark.parametrize("language", ["en", "es", "pt"])
def test_two_data_stand_really_anywhere(language: Language) -> None:
    assert pairs_misread(language, 1) == []
