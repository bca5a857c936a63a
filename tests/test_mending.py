"""Misspelt words are mended only when they can be one thing, and what was mended is said."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import Reading

SENT = date(2026, 7, 20)
FIELDS = ("Kestrel", "Old Mill East", "Talhão 3", "La Tranquera", "Turkey Run")


def read(text: str) -> Reading:
    """A message of a crew with a list of fields."""
    return read_note(text, sent=SENT, fields=FIELDS)


@pytest.mark.parametrize(
    ("text", "what", "meant"),
    [
        ("kestrel 6 plants none, new leaves yellow, veisn green", "veisn", "veins"),
        ("kestrel 6 plants 3 white, washed in the bukcket", "bukcket", "bucket"),
        ("old mill east 6 plants none, lots of nodulles pink inside", "nodulles", "nodules"),
        ("la tranquera 6 plantas 4 blancas, raíces oscruas", "oscruas", "oscuras"),
        ("talhão 3 6 plantas 4 brancas, solo molahdo", "molahdo", "molhado"),
    ],
)
def test_a_word_with_one_slip_is_mended_and_said(text: str, what: str, meant: str) -> None:
    """One likely word only: it is read, and the remark shows both."""
    reading = read(text)

    said = [remark for remark in reading.remarks if remark.where.text == what]
    assert said, reading.remarks
    assert meant in said[0].wrong
    assert not reading.problems


def test_a_word_that_could_be_two_of_ours_is_asked_about() -> None:
    """ "planb" is plant or plan, and six times two hangs on it."""
    reading = read("kestrel 6 plants 2 white per planb")

    assert [problem.kind for problem in reading.problems] == ["unknown_word"]
    assert reading.problems[0].where.text == "planb"


@pytest.mark.parametrize("text", ["kestrel twennty white on 5 plants", "kestrel sevn white on 5 plants"])
def test_a_misspelt_number_is_asked_about_and_never_corrected(text: str) -> None:
    """Numbers carry the note; a near one may be another one."""
    reading = read(text)

    assert "which_number" in {problem.kind for problem in reading.problems}
    assert not any("twenty" in remark.wrong or "seven" in remark.wrong for remark in reading.remarks)


@pytest.mark.parametrize(
    "text",
    [
        "kestrel 6 plants none, alder trees along the west",
        "kestrel 6 plants none, my aunts came along",
        "kestrel 6 plants none. Rotger was along",
        "turkye run 6 plants none",
    ],
)
def test_common_words_and_names_are_no_slips(text: str) -> None:
    """What stands in any dictionary, is written like a name, or is like a field of the crew stays as it is."""
    reading = read(text)

    assert not [remark for remark in reading.remarks if remark.kind == "near_word"]
