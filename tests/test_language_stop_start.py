"""One word that leaves, one that comes back: what people are used to with numbers that send texts."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note

SENT = date(2026, 7, 8)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("STOP", "mute"),
        ("Stop all.", "mute"),
        ("parar", "mute"),
        ("START", "resume"),
        ("unstop", "resume"),
        ("reanudar", "resume"),
        ("começar", "resume"),
    ],
)
def test_a_word_alone_leaves_or_comes_back(text: str, kind: str) -> None:
    assert [command.kind for command in read_note(text, sent=SENT, fields=("Kestrel",)).commands] == [kind]


@pytest.mark.parametrize("text", ["start of kestrel, 5 plants 2 white", "stop 1: kestrel 5 plants 2 white"])
def test_such_a_word_in_a_note_asks_nothing(text: str) -> None:
    reading = read_note(text, sent=SENT, fields=("Kestrel",))

    assert not reading.commands
    assert reading.notes[0].females.white == 2
