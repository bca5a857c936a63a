"""A line of nothing but words of a plain note is not searched for requests; that must change no reading."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from notes_bot.language.requests.commands import lines
from notes_bot.language.score import read_row

CORPUS = Path(__file__).parent / "corpus"
SOME = 15
"""In an ordinary run one message of so many is read."""


def rows(names: tuple[str, ...], step: int = 1) -> list[dict]:
    return [json.loads(line) for name in names for line in (CORPUS / name).read_text().splitlines()[::step]]


def told_apart(messages: list[dict], monkeypatch: pytest.MonkeyPatch) -> tuple[int, list[str]]:
    """How many lines were left unsearched, and the messages that read otherwise when every line is searched."""
    unsearched = 0
    passed = lines.only_noted

    def counting(content: list) -> bool:
        nonlocal unsearched
        plain = passed(content)
        unsearched += plain
        return plain

    other = []
    for row in messages:
        monkeypatch.setattr(lines, "only_noted", counting)
        short = read_row(row)
        monkeypatch.setattr(lines, "only_noted", lambda _content: False)
        if read_row(row) != short:
            other.append(row["text"])
    return unsearched, other


def test_a_plain_note_not_searched_for_requests_reads_the_same(monkeypatch):
    messages = rows(("develop.jsonl", "hands.jsonl", "ways.jsonl", "heldout.jsonl"), SOME)
    unsearched, other = told_apart(messages, monkeypatch)
    assert unsearched > len(messages) // 10, "too few lines were left unsearched to tell anything"
    assert other == []


@pytest.mark.heavy
@pytest.mark.parametrize("name", sorted(path.name for path in CORPUS.glob("*.jsonl")))
def test_no_message_of_the_corpus_reads_otherwise_when_every_line_is_searched(name, monkeypatch):
    otherwise = len(told_apart(rows((name,)), monkeypatch)[1])  # the number alone: some of these files nobody reads
    assert otherwise == 0
