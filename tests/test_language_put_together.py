"""Whole messages put together from single sentences of many writers (see ``put_together.py``)."""

from __future__ import annotations

import pytest

from notes_bot.language import score
from tests.put_together import FOLDER, STYLES, joined, messages, reading_of, reads_alone, sentences_of

FILES = sorted(FOLDER.glob("*.jsonl"))


@pytest.mark.heavy
@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
@pytest.mark.parametrize("style", STYLES)
def test_what_reads_alone_reads_together(file: object, style: str) -> None:
    """Of one field at least 95 % of the data, of two 75 %; the worst writer speaks into his telephone."""
    language, sentences = sentences_of(file)  # type: ignore[arg-type]
    good = reads_alone(language, sentences)
    for fields, least in ((1, 95.0), (2, 75.0)):
        made = messages(language, good, style, 11, fields)
        found = score.score(next(made) for _ in range(40))
        assert found.share(found.understood) > least


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_sentences_and_their_meanings_are_well_formed(file: object) -> None:
    _, sentences = sentences_of(file)  # type: ignore[arg-type]
    kinds = {"go", "dig", "count", "digcount", "none", "notlooked", "fact", "again", "aside"}

    assert {sentence["kind"] for sentence in sentences} == kinds
    assert all(sentence["text"].strip() for sentence in sentences)
    assert all(("{f}" in s["text"]) == (s["kind"] == "go") for s in sentences)
    assert all(s["means"] == {} for s in sentences if s["kind"] in ("go", "aside"))


def test_meanings_make_a_note() -> None:
    note = reading_of("Dry Creek", [{"plants": 6}, {"females": {"white": 2, "tan": 1}}, {"soil": {"moisture": "wet"}}])

    assert note == {
        "field": "dry creek",
        "plants": 6,
        "females": {"white": 2, "yellow": 0, "tan": 1, "brown": 0, "total": 3},
        "soil": {"moisture": "wet"},
        "outcome": "seen",
    }
    assert reading_of("Kestrel", [{"outcome": "none_seen"}])["females"]["total"] == 0


@pytest.mark.parametrize(
    ("style", "text"),
    [("stops", "At Kestrel now. 6 dug."), ("lines", "At Kestrel now\n6 dug."), ("commas", "At Kestrel now, 6 dug.")],
)
def test_sentences_are_parted_in_every_style(style: str, text: str) -> None:
    assert joined(["At Kestrel now", "6 dug."], style) == text
