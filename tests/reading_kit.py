"""Messages of a small crew, read for tests of the note language."""

from __future__ import annotations

from datetime import date

from notes_bot.language import read_note
from notes_bot.model import Note, Reading

SENT = date(2026, 7, 8)
CREW = ("Kestrel", "Dry Creek", "North Forty", "Old Mill East", "La Tranquera", "Bajo Grande", "Baixada", "Cancela")


def reading_of(text: str) -> Reading:
    """A message of this crew, its writer's language not known."""
    return read_note(text, sent=SENT, fields=CREW)


def note_of(text: str) -> Note:
    """The one note of a message that asks nothing and is not asked about."""
    reading = reading_of(text)
    assert reading.problems == (), reading.problems
    assert reading.commands == (), reading.commands
    (note,) = reading.notes
    return note
