"""When one of several fields will be gone to again, told behind their notes: of that field only, and no other visit."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import LookAgain, Reading

SENT = date(2026, 7, 8)
"""A Wednesday."""
FIELDS = {
    "en": ["Cedar Slough", "Kestrel", "Tin Barn", "Block A"],
    "es": ["Molino Viejo", "Bajo Grande", "Lote 7"],
    "pt": ["Santa Rita", "Sede Velha", "Talhão 3"],
}
NOTES = {
    "en": "Cedar Slough 6 dug 4 w. Kestrel 6 dug none. Tin Barn not dug, gate locked. ",
    "es": "Molino Viejo 6 pl con pala 4 blancas. Bajo Grande 6 pl con pala nada. Lote 7 no saqué, estaba cerrado. ",
    "pt": "Santa Rita 6 pl com pá 4 brancas. Sede Velha 6 pl com pá nada. Talhão 3 não cavei, porteira trancada. ",
}


def _read(text: str, language: str) -> Reading:
    return read_note(text, sent=SENT, fields=FIELDS[language])


@pytest.mark.parametrize(
    ("language", "said", "day"),
    [
        ("en", "doing Tin Barn thursday when it's drained", "07-09"),
        ("en", "Tin Barn i can do on monday.", "07-13"),
        ("en", "I return to Tin Barn on Thursday with an excuse ready.", "07-09"),
        ("en", "I shall try Tin Barn again on Tuesday.", "07-14"),
        ("en", "If the weather holds I'm in Tin Barn on Saturday.", "07-11"),
        ("en", "I'll be in Tin Barn on Saturday.", "07-11"),
        ("en", "Tin Barn friday then", "07-10"),
        ("en", "Tin Barn will be dug on the 12th instead.", "07-12"),
        ("en", "going to Tin Barn on friday with a key", "07-10"),
        ("es", "vuelvo a Lote 7 el jueves.", "07-09"),
        ("es", "el jueves voy a Lote 7.", "07-09"),
        ("es", "Lote 7 lo hago el lunes", "07-13"),
        ("es", "mañana hago Lote 7.", "07-09"),
        ("pt", "volto em Talhão 3 na quinta.", "07-09"),
        ("pt", "na quinta vou na Talhão 3.", "07-09"),
        ("pt", "Talhão 3 eu faço segunda", "07-13"),
        ("pt", "amanhã faço Talhão 3.", "07-09"),
    ],
)
def test_a_coming_visit_is_of_the_one_field_it_names(language: str, said: str, day: str) -> None:
    reading = _read(NOTES[language] + said, language)
    assert not reading.problems
    assert not reading.commands
    look = LookAgain(date=date.fromisoformat(f"2026-{day}"))
    assert [note.look_again for note in reading.notes] == [None, None, look]
    assert [note.date for note in reading.notes] == [None, None, None]


@pytest.mark.parametrize(
    ("language", "said"),
    [
        ("en", "I should go back to Kestrel in ten days."),
        ("en", "another look at Kestrel in 10 days pls"),
        ("en", "Kestrel gets another go in 10 days if it rains"),
        ("es", "vuelvo a Bajo Grande en 10 días."),
        ("pt", "volto em Sede Velha daqui 10 dias."),
    ],
)
def test_and_so_is_the_time_until_then(language: str, said: str) -> None:
    looks = [note.look_again for note in _read(NOTES[language] + said, language).notes]
    assert looks == [None, LookAgain(days=10), None]


@pytest.mark.parametrize(
    "said",
    [
        "I'll call the grower at Kestrel on Thursday.",
        "Co-op sprays Kestrel friday.",
        "The gate at Kestrel gets fixed friday",
    ],
)
def test_what_others_do_there_is_no_next_look(said: str) -> None:
    assert [note.look_again for note in _read(NOTES["en"] + said, "en").notes][:3] == [None, None, None]


def test_the_first_word_of_a_name_is_enough() -> None:
    """ "Kestrel again in 9 days" behind a note of Kestrel Bottom is no visit of its own."""
    text = "Kestrel Bottom dug 6, 5w. Old Mill East dug 6, none. Kestrel again in 9 days."
    notes = read_note(text, sent=date(2026, 7, 8), fields=("Kestrel Bottom", "Old Mill East")).notes

    assert [(note.field, note.look_again and note.look_again.days) for note in notes] == [
        ("kestrel bottom", 9),
        ("old mill east", None),
    ]
