"""Sentences behind several notes that say of groups of their fields what stage, soil, day or washing was."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import Note

SENT = date(2026, 7, 8)
FIELDS = {
    "en": ["Cedar Slough", "Kestrel", "Tin Barn", "Block A"],
    "es": ["Molino Viejo", "Bajo Grande", "El Ceibo"],
    "pt": ["Santa Rita", "Sede Velha", "Baixada"],
}
NOTES = {
    "en": "Cedar Slough 6 dug 4 w 2 y. Kestrel 6 dug none. Tin Barn 6 dug 9 w. ",
    "es": "Molino Viejo 6 pl con pala 4 blancas. Bajo Grande 6 pl con pala nada. El Ceibo 6 pl con pala 9 blancas. ",
    "pt": "Santa Rita 6 pl com pá 4 brancas. Sede Velha 6 pl com pá nada. Baixada 6 pl com pá 9 brancas. ",
}
UNDUG = {
    "en": "Cedar Slough 6 dug 4 w 2 y. Kestrel 6 dug none. Tin Barn not dug, gate locked. ",
    "es": "Molino Viejo 6 pl con pala 4 blancas. Bajo Grande 6 pl con pala nada. El Ceibo no saqué, estaba cerrado. ",
    "pt": "Santa Rita 6 pl com pá 4 brancas. Sede Velha 6 pl com pá nada. Baixada não cavei, porteira trancada. ",
}


def _read(text: str, language: str) -> list[Note]:
    """The notes of three fields, nothing being asked and no command understood."""
    reading = read_note(text, sent=SENT, fields=FIELDS[language])
    assert not reading.problems
    assert not reading.commands
    assert [note.field for note in reading.notes] == [name.lower() for name in FIELDS[language][:3]]
    return list(reading.notes)


@pytest.mark.parametrize(
    ("language", "said", "stages"),
    [
        ("en", "V5 the lot.", "V5 V5 V5"),
        ("en", "All three are R1.", "R1 R1 R1"),
        ("en", "R4 in all of them.", "R4 R4 R4"),
        ("en", "R2 across the board", "R2 R2 R2"),
        ("en", "every one of them R3", "R3 R3 R3"),
        ("en", "R4 R4 R3 in that order.", "R4 R4 R3"),
        ("en", "R5, R5, R6.", "R5 R5 R6"),
        ("en", "Stages in order: R1, R1, R2", "R1 R1 R2"),
        ("en", "Stage R3 apart from Tin Barn at R2.", "R3 R3 R2"),
        ("en", "all R3 cept Kestrel which is R2", "R3 R2 R3"),
        ("en", "R5 at Cedar Slough, R6 at the other two.", "R5 R6 R6"),
        ("en", "R2 in Cedar Slough and Kestrel, R3 in Tin Barn.", "R2 R2 R3"),
        ("en", "R4 at Cedar Slough, R5 at Kestrel and Tin Barn", "R4 R5 R5"),
        ("es", "R2 en cada uno.", "R2 R2 R2"),
        ("es", "todos R3 menos El Ceibo que está en R2", "R3 R3 R2"),
        ("es", "R5 en Molino Viejo, R6 en los otros dos.", "R5 R6 R6"),
        ("es", "R4, R4, R3 en ese orden.", "R4 R4 R3"),
        ("pt", "R2 em cada um.", "R2 R2 R2"),
        ("pt", "todos R3 menos a Baixada que está em R2", "R3 R3 R2"),
        ("pt", "R5 em Santa Rita, R6 nos outros dois.", "R5 R6 R6"),
        ("pt", "R4, R4, R3 nessa ordem.", "R4 R4 R3"),
    ],
)
def test_a_stage_told_of_a_group_is_of_each_field_of_it(language: str, said: str, stages: str) -> None:
    assert [note.stage for note in _read(NOTES[language] + said, language)] == stages.split(" ")


@pytest.mark.parametrize(
    ("language", "said"),
    [
        ("en", "r5 where i looked."),
        ("en", "R5 in all the ones I dug"),
        ("en", "both dug fields are at R5."),
        ("en", "all dug beans are r5"),
        ("en", "Cedar Slough and Kestrel are both at R5."),
        ("es", "R5 donde saqué."),
        ("es", "R5 en los que saqué"),
        ("pt", "R5 onde cavei."),
        ("pt", "R5 nos que cavei"),
    ],
)
def test_what_is_told_of_the_fields_dug_is_not_of_the_others(language: str, said: str) -> None:
    assert [note.stage for note in _read(UNDUG[language] + said, language)] == ["R5", "R5", None]


@pytest.mark.parametrize(
    ("language", "said", "moist"),
    [
        ("en", "dry all round.", "dry dry dry"),
        ("en", "Soil dry everywhere but Kestrel, moist there.", "dry moist dry"),
        ("en", "all v4 and moist except Tin Barn which is dry", "moist moist dry"),
        ("en", "dry, moist and dry in that order.", "dry moist dry"),
        ("en", "V6 the lot, dry as dust", "dry dry dry"),
        ("es", "seco en todos salvo Bajo Grande, húmedo ahí.", "dry moist dry"),
        ("pt", "seco em todos exceto Sede Velha, úmido lá.", "dry moist dry"),
    ],
)
def test_soil_told_of_all_but_one(language: str, said: str, moist: str) -> None:
    assert [note.soil.moisture for note in _read(NOTES[language] + said, language)] == moist.split(" ")


@pytest.mark.parametrize("said", ["neither of them washed", "none of them washed.", "no soaking on any"])
def test_what_is_denied_of_all(said: str) -> None:
    assert [note.soaked for note in _read(NOTES["en"] + said, "en")] == [False, False, False]


def test_the_sentence_behind_goes_on_of_all() -> None:
    notes = _read(NOTES["en"] + "All of them V6. Every root was soaked before I counted.", "en")
    assert [note.soaked for note in notes] == [True, True, True]


@pytest.mark.parametrize("said", ["R3 throughout.", "R3.", "R3 along the fence."])
def test_what_may_be_of_the_last_field_alone_is_its_own_behind_others_with_theirs(said: str) -> None:
    text = "Cedar Slough 6 dug 4 w, R2. Kestrel 6 dug none, R2. Tin Barn 6 dug 9 w. " + said
    assert [note.stage for note in _read(text, "en")] == ["R2", "R2", "R3"]


def test_a_name_ahead_of_what_tops_are_is_whose_they_are() -> None:
    notes = _read(NOTES["en"] + "The plants at Cedar Slough were wilted.", "en")
    assert [note.tops for note in notes] == [("wilted",), (), ()]
