"""A pass over the pieces without its words is left out; that must change no reading."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from notes_bot.language.clauses import lexer
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.tokens import Draft
from notes_bot.language.lexicon.words import Table, source
from notes_bot.language.passes import in_order
from notes_bot.language.score import read_row
from notes_bot.model import LANGUAGES

CORPUS = Path(__file__).parent / "corpus"
SOME = 15
"""In an ordinary run one message of so many is read, and these, for passes that few messages want."""
RARE = (
    "kestrel ten plants pulled out of wet clay, 22 white",
    "Kestrel and Old Mill East, 6 plants each: none in the first and 5 white in the second",
    "Kestrel 3 plants, white/yellow for each plant: 3/1, 2/0, 4/2",
    "Kestrel: I counted a total of six white on the first and one on the second",
    "Kestrel 6 plants none, nodules cut open were pink. 4 turning yellow",
    "Kestrel dug 6, 1st three clean, others 2 4 and 1 white",
    "Kestrel // QTY 5 DUG // W3",
    "Kestrel 6 plants none, variety Oxbow 31, not sure if its resistant",
    "Bajo Grande 5 plantas: en la primera 2, después 0, 1, 4 y en la última 3",
    "Kestrel 6 plants, searched for white dots and found none",
    "Kestrel dug five plants, two white on one of them, nothing on the others",
    "Kestrel saqué 5 cavando alrededor, 3 blancas",
    "Kestrel. A patch of about 20 feet, yellow. Dug 6: 3 white",
    "Kestrel, resistant vs susceptible. Resistant: 5 plants, 6 white. Susceptible: 5 plants, 71 white",
)


def rows(names: tuple[str, ...], step: int = 1) -> list[dict]:
    return [json.loads(line) for name in names for line in (CORPUS / name).read_text().splitlines()[::step]]


def done_in_vain(messages: list[dict], monkeypatch: pytest.MonkeyPatch) -> tuple[set[int], list[str]]:
    """Passes that were wanted by a message, and texts that another pass changes though it has no word there."""
    wanted: set[int] = set()
    changed: list[str] = []

    def all_done(draft: Draft, made: Table) -> list[Piece]:
        for n, step in enumerate(in_order.PASSES):
            before, slips = draft.pieces, len(draft.slips)
            needed = n in in_order.due(in_order.told_in(before), n)
            draft.pieces = step.walk(draft, made)
            if needed:
                wanted.add(n)
            elif draft.pieces != before or len(draft.slips) != slips:
                changed.append(draft.text)
        return draft.pieces

    monkeypatch.setattr(lexer, "gone_over", all_done)
    for row in messages:
        read_row(row)
    return wanted, changed


def test_a_pass_left_out_would_have_changed_nothing(monkeypatch):
    rare = [{"text": text, "sent": "2026-07-08", "fields": ["Kestrel", "Old Mill East"]} for text in RARE]
    some = rows(("develop.jsonl", "hands.jsonl", "ways.jsonl"), SOME)
    wanted, changed = done_in_vain([*some, *rare], monkeypatch)
    assert changed == []
    assert wanted == set(range(len(in_order.PASSES))), "a pass no message wants is not tried here"


@pytest.mark.heavy
@pytest.mark.parametrize("name", sorted(path.name for path in CORPUS.glob("*.jsonl")))
def test_no_message_of_the_corpus_is_changed_by_a_pass_left_out(name, monkeypatch):
    changed = len(done_in_vain(rows((name,)), monkeypatch)[1])  # the number alone: some of these files nobody reads
    assert changed == 0


def test_a_plain_note_goes_through_few_passes():
    told = {"word", "number", "day", "FIELD", "DUG", "PLANTS", "COLOUR"}
    assert len(in_order.due(told)) < len(in_order.PASSES) / 4


def test_ordinals_and_words_that_end_in_figures_are_told():
    pieces = [Piece("word", "twenty", 0, 6), Piece("number", "1st", 7, 10, (), 1), Piece("word", "p3", 11, 13)]
    assert in_order.told_in(pieces) >= {"number", "nth", "ending"}


def test_every_manner_a_pass_needs_stands_in_a_word_file():
    needs = [need for step in in_order.PASSES for need in step.needs]
    asked = {manner for need in needs for manner in (*need.manners.split(), *need.begun.split())}
    assert asked <= {name for language in LANGUAGES for name in source(language)["TRAIT"]}
