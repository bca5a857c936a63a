"""What there was no time for: a field nobody looked at, or roots nobody soaked."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note

FIELDS = ("Kestrel", "Tinker's", "La Tranquera", "Baixada", "Ridge Top")


@pytest.mark.parametrize(
    ("text", "unseen"),
    [
        ("no time for tinkers. kestrel dug 5 none", "tinkers"),
        ("kestrel dug 5 none, no time for tinkers", "tinkers"),
        ("ran out of time for tinkers today, kestrel dug 5 none", "tinkers"),
        ("sin tiempo para la tranquera. kestrel con pala 5 plantas ninguna", "la tranquera"),
        ("não deu tempo pra baixada. kestrel cavei 5 plantas nenhuma", "baixada"),
    ],
)
def test_a_field_there_was_no_time_for_is_not_looked_at(text: str, unseen: str) -> None:
    reading = read_note(text, sent=date(2026, 7, 8), fields=FIELDS)

    assert not reading.problems
    assert {note.field: note.outcome for note in reading.notes} == {unseen: "not_looked", "kestrel": "none_seen"}
    assert [note.plants for note in reading.notes if note.field == "kestrel"] == [5]


@pytest.mark.parametrize(
    "text",
    [
        "no time for soaking at kestrel. dug 5 none",
        "kestrel dug 5 none, no time to soak",
        "ran out of time to wash em. kestrel dug 5 none",
    ],
)
def test_roots_there_was_no_time_for_were_not_soaked(text: str) -> None:
    (note,) = read_note(text, sent=date(2026, 7, 8), fields=FIELDS).notes

    assert (note.soaked, note.outcome, note.plants) == (False, "none_seen", 5)


@pytest.mark.parametrize(
    "text",
    [
        "kestrel not looked. ridge top too.",
        "kestrel not looked and ridge top too",
        "kestrel not looked, Ridge Top as well",
        "kestrel não olhei, ridge top também",
    ],
)
def test_a_field_too_was_not_looked_at(text: str) -> None:
    reading = read_note(text, sent=date(2026, 7, 8), fields=FIELDS)

    assert not reading.problems
    assert {note.field: note.outcome for note in reading.notes} == {"kestrel": "not_looked", "ridge top": "not_looked"}


def test_counts_are_not_said_of_a_field_too() -> None:
    """Whether as many were found there is asked."""
    reading = read_note("kestrel 6 pl 3 white. ridge top too", sent=date(2026, 7, 8), fields=FIELDS)

    assert [note.females.total for note in reading.notes] == [3, None]
    assert [problem.kind for problem in reading.problems] == ["two_fields"]
