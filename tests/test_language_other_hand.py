"""Notes written by another hand than the grammar's: what must be read of each, key by key.

A row of corpus/other_hand.jsonl names only what it is sure of (dotted paths into the note contract); ``notes``
and ``commands`` must be exactly as many as written, ``problems`` that many where it is given.
"""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest

from notes_bot.asdata import reading_as_data
from notes_bot.language import read_note

ROWS = [
    json.loads(line) for line in (Path(__file__).parent / "corpus" / "other_hand.jsonl").read_text("utf-8").splitlines()
]


def _at(data, path: str):
    for key in path.split("."):
        data = None if data is None else data.get(key)
    return data


@pytest.mark.parametrize("row", ROWS, ids=[row["id"] for row in ROWS])
def test_a_note_by_another_hand_is_read_as_meant(row):
    """Every key the writer named comes out as written; nothing is added that was not there."""
    reading = reading_as_data(read_note(row["text"], sent=date.fromisoformat(row["sent"]), fields=row["fields"]))
    expect = row["expect"]
    wrong = []
    if "lang" in expect and reading["language"] != expect["lang"]:
        wrong.append(("language", expect["lang"], reading["language"]))
    for part in ("notes", "commands"):
        if part not in expect:
            continue
        if len(reading[part]) != len(expect[part]):
            wrong.append((part, len(expect[part]), reading[part]))
        for meant, read in zip(expect[part], reading[part], strict=False):
            wrong += [(path, value, _at(read, path)) for path, value in meant.items() if _at(read, path) != value]
    if "problems" in expect and len(reading["problems"]) != expect["problems"]:
        wrong.append(("problems", expect["problems"], reading["problems"]))

    assert wrong == [], row["text"]
