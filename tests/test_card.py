"""The pocket card: every line on it reads as it stands, and it fits one page in every language."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from notes_bot.language import read_note
from notes_bot.model import LANGUAGES, Language
from notes_bot.reply.card import source, write

SENT = date(2026, 6, 20)
"""A day between the days the card names as past and as coming."""
FIELDS = ("Kestrel",)


def _rows(language: Language) -> list[tuple[int, str]]:
    """Every way to say a thing on the card, with the number of its block."""
    blocks: list[dict[str, Any]] = source()[language]["block"]
    return [(n, way) for n, block in enumerate(blocks) for _, ways in block["rows"] for way in ways.split(" · ")]


ROWS = [(language, n, way) for language in LANGUAGES for n, way in _rows(language)]
ASKING = 4
"""The last block holds requests; the others hold parts of notes."""


@pytest.mark.parametrize(("language", "block", "way"), ROWS)
def test_every_line_of_the_card_reads(language: Language, block: int, way: str) -> None:
    """A part of a note behind a field says something and asks nothing; a request is a command."""
    named = way.lower().startswith("kestrel") or block == ASKING
    reading = read_note(way if named else f"Kestrel {way}", sent=SENT, fields=FIELDS, language=language)

    assert reading.problems == ()
    if block == ASKING:
        assert reading.commands and not reading.notes
        return
    assert bool(reading.notes) != bool(reading.commands), "one note, or something told of the field"
    assert all(note.text == "" for note in reading.notes), "nothing is left as free text"


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_cards_example_is_the_sum_of_its_parts(language: Language) -> None:
    """The whole note on the card is made of the parts explained under it, and reads without a question."""
    example = source()[language]["example"]
    reading = read_note(example["line"], sent=SENT, fields=FIELDS, language=language)
    (note,) = reading.notes

    assert all(part in example["line"] for part, _ in example["parts"])
    assert reading.problems == () and reading.remarks == () and note.text == ""
    assert (note.plants, note.females.white, note.females.yellow, note.females.total) == (6, 12, 3, 15)
    assert (note.method, note.soaked, note.soil.moisture, note.stage) == ("shovel", True, "moist", "R2")
    assert note.look_again is not None and note.look_again.days == 10


def test_the_card_says_the_same_in_every_language() -> None:
    """Blocks and rows stand side by side in the three languages."""
    shapes = {language: [len(block["rows"]) for block in source()[language]["block"]] for language in LANGUAGES}

    assert shapes["es"] == shapes["en"] == shapes["pt"]


def test_the_cards_are_written_as_pdf_and_png(tmp_path: Path) -> None:
    """One page each, half a letter sheet; text that does not fit is an error, not a cut card."""
    made = write(tmp_path)

    assert [path.suffix for path in made] == [".pdf", ".png"] * len(LANGUAGES)
    for path in made:
        if path.suffix == ".pdf":
            assert path.read_bytes().count(b"/Type /Page ") == 1
        else:
            with Image.open(path) as image:
                assert image.size == (880, 1360)
