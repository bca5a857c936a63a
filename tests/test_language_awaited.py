"""How the soil is to be for the next look is no soil of this one."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note

SENT = date(2026, 7, 8)
FIELDS = ("Kestrel", "La Tranquera", "Baixada")


@pytest.mark.parametrize(
    ("text", "moisture"),
    [
        ("kestrel 5 plants zero. recheck in two weeks when it's wet", None),
        ("kestrel 5 plants zero. will recheck 10d if soil is moist", None),
        ("la tranquera 5 plantas nada, vuelvo en 10 días cuando esté seco", None),
        ("baixada 5 plantas nada, olhar de novo em 10 dias quando estiver seco", None),
        ("kestrel 5 plants zero, look again 10 d, soil wet", "wet"),
        ("kestrel 5 plants zero, recheck 10d after the rain, soil wet", "wet"),
        ("kestrel 5 plants zero. when i got there it was wet. look again 10 d", "wet"),
    ],
)
def test_soil_that_is_awaited_is_not_told(text: str, moisture: str | None) -> None:
    (note,) = read_note(text, sent=SENT, fields=FIELDS).notes

    assert note.soil.moisture == moisture
    assert note.look_again is not None
