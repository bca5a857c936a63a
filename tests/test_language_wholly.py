"""A shade of all the roots or leaves is theirs; of plants that are counted it is the females'."""

from __future__ import annotations

from datetime import date

import pytest

from notes_bot.language.reader import read_note
from notes_bot.model import Language

SENT = date(2026, 7, 15)


@pytest.mark.parametrize(
    "language,said,tops,roots",
    [
        ("en", "plants all yellow", ("yellow",), ()),
        ("en", "leaves mostly yellow", ("yellow",), ()),
        ("en", "beans all yellow and stunted", ("stunted", "yellow"), ()),
        ("en", "roots all white", (), ("white",)),
        ("en", "roots mostly white", (), ("white",)),
        ("en", "roots all brown", (), ("dark",)),
        ("es", "plantas todas amarillas", ("yellow",), ()),
        ("es", "raíces todas blancas", (), ("white",)),
        ("pt", "plantas todas amarelas", ("yellow",), ()),
        ("pt", "raízes todas brancas", (), ("white",)),
    ],
)
def test_a_shade_of_all_roots_or_leaves(
    language: Language, said: str, tops: tuple[str, ...], roots: tuple[str, ...]
) -> None:
    count = {"en": "6 plants, 12 white", "es": "6 plantas, 12 blancas", "pt": "6 plantas, 12 brancas"}[language]
    for text in (
        f"Kestrel {count}, {said}",
        f"Kestrel: {count}. {said[0].upper()}{said[1:]}.",
        f"Kestrel\n{said}\n{count}",
    ):
        (note,) = read_note(text, sent=SENT, fields=("Kestrel", "Sumac"), language=language).notes
        assert (set(note.tops), set(note.roots), note.mostly) == (set(tops), set(roots), ()), text
        assert (note.plants, note.females.white, note.females.total) == (6, 12, 12), text


@pytest.mark.parametrize(
    "text",
    ["Kestrel 6 plants all yellow", "Kestrel 6 plants, all yellow", "Kestrel dug 6 plants all yellow, about 20"],
)
def test_a_shade_of_counted_plants_is_that_of_the_females(text: str) -> None:
    (note,) = read_note(text, sent=SENT, fields=("Kestrel", "Sumac")).notes
    assert note.mostly == ("yellow",)
    assert note.tops == ()


@pytest.mark.parametrize(
    "said,tops",
    [
        ("3 yellow leaves", ("yellow",)),
        ("15 yellow spots", ("patch", "yellow")),
        ("3 yellow patches by the gate", ("patch", "yellow")),
    ],
)
def test_a_count_of_yellow_leaves_or_spots_is_of_no_female(said: str, tops: tuple[str, ...]) -> None:
    for text in (f"Kestrel 6 plants, 12 white, {said}", f"Kestrel: 6 plants, 12 white. {said}."):
        (note,) = read_note(text, sent=SENT, fields=("Kestrel", "Sumac")).notes
        assert (note.females.white, note.females.total, set(note.tops)) == (12, 12, set(tops)), text


def test_yellow_plants_beside_a_count_are_asked_about() -> None:
    reading = read_note("Kestrel 6 plants, 12 white, 3 yellow plants by the gate", sent=SENT, fields=("Kestrel",))
    assert [problem.kind for problem in reading.problems] == ["coloured_plants"]


@pytest.mark.parametrize("said", ["3 yellow", "3 yellow ones", "3 yellow leaves curled", "3 yellow, edges brown"])
def test_yellow_females_beside_leaves_are_counted(said: str) -> None:
    (note,) = read_note(f"Kestrel 6 plants, 12 white, {said}", sent=SENT, fields=("Kestrel", "Sumac")).notes
    assert (note.females.yellow, note.females.total) == (3, 15)
