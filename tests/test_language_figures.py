"""Figures around a note that count nothing: shares, temperatures, points, ids and codes."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language import read_note
from notes_bot.model import Females, Note

SENT = date(2026, 7, 20)
CREW = ("Kestrel", "Tinkers", "Old Mill East")


def note(text: str, language: str = "en") -> Note:
    """The one note of a message that raises no question."""
    reading = read_note(text, sent=SENT, fields=CREW, language=language)  # type: ignore[arg-type]
    assert not reading.problems, [problem.kind for problem in reading.problems]
    (one,) = reading.notes
    return one


@pytest.mark.parametrize(
    "text",
    [
        "kestrel V4, 5 plants, 13 white 2 yellow (87% white)",
        "kestrel V4, 5 plants, 13 white 2 yellow. Probe says 31 % water",
        "kestrel V4, 5 plants, 13 white 2 yellow, 28 C at noon",
        "kestrel, wp 22 to wp 26, V4, 5 plants, 13 white 2 yellow",
        "kestrel, record 118, V4, 5 plants, 13 white 2 yellow",
        "kestrel V4, 5 plants, 13 white 2 yellow. Bag T-09",
    ],
)
def test_figures_of_other_things_are_no_females(text):
    """The counts stay what they are, and nothing is asked."""
    got = note(text)

    assert (got.stage, got.plants, got.females) == ("V4", 5, Females(13, 2, 0, 0, 15))


def test_a_share_of_females_where_none_is_counted_is_still_of_them():
    """ "Mostly white, about 80 %" says which color most are of."""
    got = note("kestrel 5 plants, 20 females, mostly white, about 80%")

    assert (got.females.total, got.mostly) == (20, ("white",))


def test_letters_behind_numbers_still_count():
    """A "c" or "f" is no temperature where colors are counted in letters."""
    assert note("kestrel 5 plants 12w 3y 1t 2b").females == Females(12, 3, 1, 2, 18)
