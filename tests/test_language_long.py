"""What people write, said over and over: a message of many like clauses costs no more than its length.

No corpus holds such messages; a loop in a mail program or somebody who means harm sends them. Each is read at two
lengths in one process. Four times the text may take so much more than four times as long as a busy machine adds; a
step that looks at every clause for every clause takes sixteen times.
"""

from __future__ import annotations

import json
import os
import random
import time
from datetime import date
from pathlib import Path

import pytest

from notes_bot.language.reader import read_note

CORPUS = Path(__file__).parent / "corpus"
SENT = date(2031, 7, 4)
SHORT, LONG = 6_000, 24_000
MOST = 7.5
"""Times as long four times the text may take."""
NOISE = 0.2
"""Seconds that are no matter."""


def took(unit: str, size: int) -> float:
    """Seconds of this process for a message of that many letters."""
    text = unit * (size // len(unit) + 1)
    start = time.process_time()
    read_note(text, sent=SENT, fields=("Kestrel",))
    return time.process_time() - start


def grows(unit: str) -> bool:
    """Does it take more than its length, both times it is tried?"""
    return all(took(unit, LONG) > MOST * took(unit, SHORT) + NOISE for _ in range(2))


def units(number: int) -> list[str]:
    """Lines of the corpus and pieces of them, each with something that joins it to itself."""
    chance = random.Random(20)
    texts = [json.loads(line)["text"] for name in ("develop", "hands", "ways") for line in _lines(name)]
    lines = [line for text in texts for line in text.split("\n") if 8 <= len(line) <= 90]
    out = []
    for line in chance.sample(lines, number):
        words = line.split()
        at = chance.randrange(len(words))
        said = line if chance.random() < 0.5 else " ".join(words[at : at + chance.randint(1, 5)])
        out.append(said + chance.choice((" ", "\n", ". ", ", ", "; ")))
    return out


def _lines(name: str) -> list[str]:
    return (CORPUS / f"{name}.jsonl").read_text().splitlines()


KNOWN = (
    "6\n",
    "white; ",
    "dug ",
    "6 dug.. ",
    "on 6 plants, ",
    "w/ shovel, none ",
    "unevn, ",
    "Mill 304, ",
    "agua turva em ",
    "check 210 190, ",
    "2 fem. shovel. R1-2.. ",
    "Thanks, that helps!, ",
    "just bounces, gave up without\n",
    "passa a gameleira p sexta ",
    "totoras eran 9 bl no 7. ",
    "last one = Kess 80 ",
    "p1 3w 1y, p2 0, p3 5w, ",
    "WILLOW NECK - 8 DUG - CYST ON MOST W+Y - R2/R3 ",
    "pirizal 2/0/7/4 cavadas. nód pocos, raíz oscura ",
    "molino viejo 6 plantas, casi todas marrones, no anoté cuántas, ",
)
"""What once took far more than its length."""


@pytest.mark.heavy
@pytest.mark.parametrize("unit", KNOWN)
def test_what_once_grew_faster_than_its_length_no_longer_does(unit: str) -> None:
    assert not grows(unit)


@pytest.mark.heavy
def test_no_line_of_the_corpus_said_over_and_over_takes_more_than_its_length() -> None:
    number = 8 if os.environ.get("NOTES_BOT_PROOFS") == "small" else 300
    assert [unit for unit in units(number) if grows(unit)] == []
