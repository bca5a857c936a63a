"""In a mail that holds notes: what is asked of people, or said of a seed, is no request; what nobody counted is none."""

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Reading

FIELDS = ("Kestrel", "Dry Creek", "La Tranquera", "Bajo Grande", "Santa Rita", "Baixada", "Nine Elms", "Section 12")
KESTREL = "Kestrel: 6 plants dug, 9 white.\n"


def _read(text: str) -> Reading:
    return read_note(text, sent=date(2026, 7, 8), fields=FIELDS)


@pytest.mark.parametrize(
    "said",
    [
        "Does anyone have the key to the Nine Elms gate?",
        "Who has the key to Dry Creek?",
        "What did you find at your place, if I may ask?",
        "No further look at Kestrel this year, I would suggest. Shall I bill the visit all the same?",
        "Should I bring you a root from Kestrel or is a picture enough?",
        "I propose a second look on 7/19. Do you agree?",
        "That's a 88788 bean in there by the way, supposed to be resistant. Makes you wonder.",
        "¿Alguien tiene los resultados del vecino?",
        "Another 0.4 inch expected tomorrow.",
    ],
)
def test_it_asks_nothing_of_us(said: str) -> None:
    reading = _read(KESTREL + said)
    assert not reading.commands
    assert [(note.field, note.females.white) for note in reading.notes] == [("kestrel", 9)]


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("Could you send me the history for Kestrel?", "history"),
        ("How is Nine Elms standing?", "state"),
        ("Who's up next for digging?", "due"),
    ],
)
def test_it_asks_us(said: str, kind: str) -> None:
    assert [command.kind for command in _read(KESTREL + said).commands] == [kind]


def test_to_report_on_a_field_tells_of_it() -> None:
    reading = _read(
        "Evening,\nI want to report on Section 12, which I saw yesterday.\n"
        "West half: 5 plants dug, 2 yellow and 6 tan.\nEast half: 5 plants dug, 1 brown."
    )
    assert not reading.commands
    assert [(note.field, note.females.total) for note in reading.notes] == [("section 12", 9)]


@pytest.mark.parametrize(
    "said",
    [
        "Dry Creek: too wet to dig, so no count.",
        "My grandson looked at Dry Creek but they did not count anything.",
    ],
)
def test_what_nobody_counted_is_not_none_seen(said: str) -> None:
    assert [note.outcome for note in _read(KESTREL + said).notes] == ["seen", "not_looked"]


@pytest.mark.parametrize(
    "said",
    [
        "Kestrel and Dry Creek both done yesterday, all dug.\nKestrel was 7 plants and I counted 6 white.\n"
        "Dry Creek was 8 plants, nothing on them.",
        "Visit log for Tuesday, all plants taken with a fork.\nKestrel, 7 plants, 6 white.\nDry Creek, 8 plants, none.",
    ],
)
def test_a_day_and_a_tool_told_once_are_of_both(said: str) -> None:
    reading = _read(said)
    assert [(note.field, note.date, note.method) for note in reading.notes] == [
        ("kestrel", date(2026, 7, 7), "shovel"),
        ("dry creek", date(2026, 7, 7), "shovel"),
    ]


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("Bajo Grande: saqué 6 plantas y ninguna hembra.\nNo llegué a La Tranquera porque llovió.", "la tranquera"),
        ("Bajo Grande: saqué 6 plantas y ninguna hembra.\nNo alcancé a ir a La Tranquera.", "la tranquera"),
        ("Baixada: cavei 6 plantas, nenhuma.\nNão consegui olhar a Santa Rita, a ponte caiu.", "santa rita"),
        ("Baixada: cavei 6 plantas, nenhuma.\nNão cheguei na Santa Rita.", "santa rita"),
    ],
)
def test_a_field_not_come_to_is_its_own_note(text: str, field: str) -> None:
    reading = _read(text)
    assert not reading.problems
    assert [note.outcome for note in reading.notes] == ["none_seen", "not_looked"]
    assert reading.notes[1].field == field
