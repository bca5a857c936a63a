"""Ways to tell one thing: corrections, what is told of a field, a new name, weather, counts of a laboratory, places."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import Language

SENT = date(2026, 7, 8)
CREW = (
    *("Kestrel", "Old Mill", "Cedar Slough", "Dry Creek", "North Forty", "La Tranquera", "Molino Viejo"),
    *("Bajo Grande", "Baixada", "Santa Rita", "Sede Velha"),
)


def asked(text: str, language: Language = "en") -> list[dict[str, Any]]:
    """What a message of 8 July asks, with no note beside it."""
    reading = read_note(text, sent=SENT, fields=CREW, language=language, day_first=language != "en")
    assert not reading.notes and not reading.problems, text
    return [{"kind": command.kind, **command.args} for command in reading.commands]


@pytest.mark.parametrize(
    ("language", "text", "name", "acres", "near"),
    [
        ("en", "We picked up another field, Schoolhouse, 80 acres just outside of Jewell", "schoolhouse", 80, "jewell"),
        ("en", "put in a new one: silo east. 35 acres. its close to Slater", "silo east", 35, "slater"),
        ("en", "there's a field you dont have yet, red barn, 33 acres, next to Slater", "red barn", 33, "slater"),
        ("en", "we started scouting Bear Hollow, 64 acres, south of Ames", "bear hollow", 64, "ames"),
        ("en", "adding Badger Hole to the list, acreage is 46, near Story City", "badger hole", 46, "story city"),
        ("es", "sumale Los Talas a la lista, 45 ha, por Arrecifes", "los talas", 111.2, "arrecifes"),
        ("es", "nos dieron el Establo Rojo pa revisar, 55 acres, está junto a Perry", "establo rojo", 55, "perry"),
        ("pt", "a gente pegou o talhão Morro Alto, 44 ha, perto de Toledo", "morro alto", 108.7, "toledo"),
        ("pt", "inclui o Capão Seco, 90 ha, em Palotina", "capão seco", 222.4, "palotina"),
    ],
)
def test_a_new_field_is_told_in_any_words(language: Language, text: str, name: str, acres: float, near: str) -> None:
    """Its name is what is left of the sentence, beside its size and the place it lies near."""
    assert asked(text, language) == [{"kind": "field", "name": name, "acres": acres, "near": near}]


@pytest.mark.parametrize("text", ["the neighbor rented 40 acres near Boone", "we planted 40 acres of beans near Boone"])
def test_acres_of_others_are_no_new_field(text: str) -> None:
    """What others rent or was planted somewhere adds no field."""
    assert not read_note(text, sent=SENT, fields=CREW, language="en").commands


@pytest.mark.parametrize(
    ("language", "text", "old", "new"),
    [
        ("en", 'we call old mill "grist" now', "old mill", "grist"),
        ("en", "kestrel goes by bluff now", "kestrel", "bluff"),
        ("en", "old mill -> stone mill. just the name, same field", "old mill", "stone mill"),
        ("en", "dont call it old mill anymore, its wheel house", "old mill", "wheel house"),
        ("en", "Cedar Slough got a new name, it's Heron Pond", "cedar slough", "heron pond"),
        ("es", "la tranquera cambió de nombre, es entrada norte", "la tranquera", "entrada norte"),
        ("es", "a molino viejo le vamos a decir el aspa", "molino viejo", "el aspa"),
        ("pt", "troca o nome: baixada vira brejo", "baixada", "brejo"),
        ("pt", "chama a santa rita de rita 2 daqui pra frente", "santa rita", "rita 2"),
    ],
)
def test_a_field_is_renamed_in_any_words(language: Language, text: str, old: str, new: str) -> None:
    """The new name is what is left beside the old one."""
    assert asked(text, language) == [{"kind": "field", "name": old, "rename_to": new}]


@pytest.mark.parametrize(
    "text", ["from now on kestrel is on hold", "what's the name of the variety at kestrel", "kestrel became a swamp"]
)
def test_what_names_nothing_renames_no_field(text: str) -> None:
    """ "On hold" is no name, and a question for a name gives none."""
    commands = read_note(text, sent=SENT, fields=CREW, language="en").commands
    assert not any("rename_to" in command.args for command in commands)


@pytest.mark.parametrize(
    ("language", "text", "told"),
    [
        ("en", "got 2 inches of rain and a high of 91 yesterday", {"rain_mm": 50.8, "tmax_c": 32.8}),
        ("en", "temps yesterday 92/68", {"tmax_c": 33.3, "tmin_c": 20.0}),
        (
            "en",
            "no rain at cedar slough yesterday, 96 for a high",
            {"rain_mm": 0.0, "tmax_c": 35.6, "field": "cedar slough"},
        ),
        ("en", "inch and a quarter in the gauge dry creek yesterday", {"rain_mm": 31.8, "field": "dry creek"}),
        ("en", "it rained an inch yesterday", {"rain_mm": 25.4}),
        ("es", "ayer llovió 15 mm y la máxima fue de 31", {"rain_mm": 15.0, "tmax_c": 31.0}),
        ("es", "ayer juntamos 1.2 pulgadas de lluvia en molino viejo", {"rain_mm": 30.5, "field": "molino viejo"}),
        ("pt", "não choveu ontem, máxima de 35", {"rain_mm": 0.0, "tmax_c": 35.0}),
        ("pt", "a temperatura ontem foi de 17 a 30 graus", {"tmax_c": 30.0, "tmin_c": 17.0}),
    ],
)
def test_rain_and_heat_are_told_together(language: Language, text: str, told: dict[str, Any]) -> None:
    """Each number is rain by its unit, or a high or low by the word beside it."""
    assert asked(text, language) == [{"kind": "weather", "date": date(2026, 7, 7), **told}]


@pytest.mark.parametrize(
    ("language", "text"),
    [("es", "regamos 20 mm de agua en la tranquera"), ("en", "rows are 30 inches at kestrel, dug 6 none, rain coming")],
)
def test_water_that_did_not_fall_is_no_rain(language: Language, text: str) -> None:
    """Irrigation and the space between rows are no weather."""
    commands = read_note(text, sent=SENT, fields=CREW, language=language, day_first=True).commands
    assert not any(command.kind == "weather" for command in commands)


@pytest.mark.parametrize(
    ("language", "text", "new", "old"),
    [
        ("en", "i mixed up fields, those kestrel numbers belong to north forty", "north forty", "kestrel"),
        ("en", "move that note to old mill, i was never in kestrel", "old mill", "kestrel"),
        ("en", "Sorry, I wrote Dry Creek but I was standing in North Forty", "north forty", "dry creek"),
        ("en", "put that last note under kestrel instead", "kestrel", None),
        ("en", "oops wrong field, should be dry creek", "dry creek", None),
        ("es", "esos datos son de molino viejo, no estuve en la tranquera", "molino viejo", "la tranquera"),
        ("es", "perdón, el lote está mal, es molino viejo", "molino viejo", None),
        ("pt", "opa, talhão errado, era sede velha", "sede velha", None),
        ("pt", "esses números eram da santa rita, não fui na baixada", "santa rita", "baixada"),
    ],
)
def test_a_note_goes_to_the_field_it_belongs_to(language: Language, text: str, new: str, old: str | None) -> None:
    """The right field is told by the words before it, the wrong one likewise or by what is left."""
    told = {"kind": "correct", "what": "field", "value": new}
    assert asked(text, language) == [told | ({"old": old} if old else {})]


@pytest.mark.parametrize(
    ("language", "text", "told"),
    [
        ("en", "they put marlo 31 on kestrel, its resistant", {"variety": "marlo 31", "resistance": "resistant"}),
        ("en", "the variety at kestrel is Fenwick 22", {"variety": "Fenwick 22"}),
        (
            "en",
            "kestrel is running Fenwick 22 this year, peking",
            {"variety": "Fenwick 22", "source": "Peking", "resistance": "resistant"},
        ),
        ("en", "planter ran kestrel the 9th of may", {"planted": date(2026, 5, 9)}),
        ("en", "beans in kestrel dont have any scn resistance", {"resistance": "susceptible"}),
        ("es", "en kestrel pusieron trebol 52, resistente", {"variety": "trebol 52", "resistance": "resistant"}),
        ("pt", "cultivar da kestrel: serrana 58", {"variety": "serrana 58"}),
    ],
)
def test_the_seed_of_a_field_is_told_in_any_words(language: Language, text: str, told: dict[str, Any]) -> None:
    """A variety is named by words and a number; what else is told of the seed goes with it."""
    assert asked(text, language) == [{"kind": "field", "name": "kestrel", **told}]


@pytest.mark.parametrize("text", ["highway 30 runs by kestrel, resistant beans", "kestrel row 12 is resistant"])
def test_a_road_is_no_variety(text: str) -> None:
    """Nor is a row, or a spot with its number."""
    commands = read_note(text, sent=SENT, fields=CREW, language="en").commands
    assert not any("variety" in command.args for command in commands)


@pytest.mark.parametrize(
    ("language", "text", "what", "value", "old"),
    [
        ("en", "wht on kestrel was off, go with 11", "white", 11, None),
        ("en", "can u bump white on kestrel up to 17", "white", 17, None),
        ("en", "change kestrel from R2 to R3", "stage", "R3", "R2"),
        ("es", "me equivoqué con las blancas de kestrel, poné 9", "white", 9, None),
        ("es", "cambia la etapa de kestrel de R3 a R4", "stage", "R4", "R3"),
        ("pt", "o nº de brancas da kestrel tá errado, põe 13", "white", 13, None),
        ("pt", "correção: na kestrel foi com pá, não arrancado na mão", "method", "shovel", "pulled"),
    ],
)
def test_a_value_is_put_right_in_any_words(language: Language, text: str, what: str, value: Any, old: Any) -> None:
    """One noun, one value, and words for a slip or for setting it."""
    told = {"kind": "correct", "field": "kestrel", "what": what, "value": value}
    assert asked(text, language) == [told | ({"old": old} if old else {})]


@pytest.mark.parametrize(
    ("language", "text", "eggs"),
    [
        ("en", "2.4k eggs per 100 cc, kestrel, lab", 2400.0),
        ("en", "nematode test on kestrel is 7,800 per 100cc, pretty high", 7800.0),
        ("es", "resultado de kestrel 3600 huevos x 100 cc de suelo", 3600.0),
    ],
)
def test_a_count_of_the_laboratory_is_told_in_any_words(language: Language, text: str, eggs: float) -> None:
    """Thousands in short, "x" for "per", and a test of nematodes that counts eggs."""
    (told,) = asked(text, language)
    assert (told["kind"], told["field"], told["eggs_per_100cc"]) == ("lab", "kestrel", eggs)


@pytest.mark.parametrize(
    ("language", "text", "what", "value"),
    [
        ("en", "kestrel whites came to 14, i transposed it", "white", 14),
        ("en", "should've put 14 white for kestrel", "white", 14),
        ("en", "lower the yellows at kestrel to 3", "yellow", 3),
        ("es", "en kestrel son 14 las blancas, me comí un número", "white", 14),
        ("es", "bajale las blancas de kestrel a 4", "white", 4),
        ("pt", "na kestrel são 14 brancas, me atrapalhei", "white", 14),
        ("pt", "sobe pra 12 as amarelas da kestrel", "yellow", 12),
    ],
)
def test_a_slip_owned_up_to_is_no_new_count(language: Language, text: str, what: str, value: int) -> None:
    """What a writer got wrong is put right, and not kept as another visit."""
    assert asked(text, language) == [{"kind": "correct", "field": "kestrel", "what": what, "value": value}]


def test_a_patch_and_its_acres_are_not_the_field() -> None:
    """The size of a patch is told of the visit."""
    reading = read_note(
        "na baixada tem mancha nova de 2 ha perto da estrada", sent=SENT, fields=CREW, language="pt", day_first=True
    )
    assert not reading.commands
    assert reading.notes[0].tops == ("patch",)
