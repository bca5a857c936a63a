"""Learn what is talk: ``python -m notes_bot.language.learn_talk tests/corpus``.

From two kinds of sentences: those of the corpora, where a sentence is talk without which all else is read as before;
and lists of talk and of findings told talkatively (``talk/*.tsv``: "talk" or "finding", a tab, a sentence in which
``{f}`` is a field's name). Every sentence is learned with the crew's fields known by name and once more with no list.
The weights go to ``grammar/talk.json``.

``unread*.jsonl`` and ``ordinary.jsonl`` stay outside: they are what the reader is measured by.
"""

from __future__ import annotations

import json
import random
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from scipy.optimize import minimize

from notes_bot.language import reader
from notes_bot.language.learn_names import MEASURES, Row
from notes_bot.language.learn_wishes import matrix_of
from notes_bot.language.lexicon.mending import mend
from notes_bot.language.lexicon.pieces import Cutter, Piece
from notes_bot.language.lexicon.words import table
from notes_bot.language.passes import talk
from notes_bot.language.passes.unsaid import intended
from notes_bot.language.score import corpus, read_row, score_reading, told_by
from notes_bot.model import LANGUAGES

LEAST_WEIGHT = 10
"""Hundredths; what tells less is not kept (judgement: it halves the file)."""
EASE = 0.2
"""Ridge penalty (judgement)."""
MOST_STEPS = 150
"""Steps of the search (judgement)."""
LISTED_WEIGHT = 3.0
"""What a sentence of the lists counts beside one of the corpora, of which there are more (judgement)."""
MOST_SENTENCES = 25
"""Longer messages are not learned from."""


@dataclass(frozen=True, slots=True)
class Example:
    """One sentence: its signs, whether it is talk, which message it is of, and what it counts."""

    signs: frozenset[str]
    talk: bool
    message: int = 0
    weight: float = 1.0


def _sentences(said: reader.Said, fields: tuple[str, ...]) -> list[list[Piece]]:
    """The sentences of a message as they are weighed."""
    lexemes = mend(said.text, said.lexemes, said.language, fields)[0]
    return talk.sentences_of(intended(Cutter(said.language, fields).cut(lexemes), table(said.language)))


def of_corpus(row: Row) -> Iterator[tuple[frozenset[str], bool]]:
    """The sentences of one message that is read as it is labelled; talk is what can be left out."""
    fields, language = tuple(row.get("fields") or ()), row.get("language")
    said = reader.plainly(row["text"], fields, language)
    sentences = _sentences(said, fields)
    if not any(map(talk.may_be_talk, sentences)) or len(sentences) > MOST_SENTENCES:
        return
    reading = read_row(row)
    if reading.problems or score_reading(row, reading).failures:
        return
    for sentence in filter(talk.may_be_talk, sentences):
        without = said.text[: sentence[0].start] + said.text[sentence[-1].end :]
        other = read_row({**row, "text": without})
        idle = not other.problems and told_by(other) == told_by(reading)
        for names in (fields, ()):
            for known in _sentences(said, names):
                if known[0].start == sentence[0].start and talk.may_be_talk(known):
                    yield frozenset(talk.signs_of(known)), idle


def of_list(line: str, language: Any, names: Sequence[str]) -> Iterator[tuple[frozenset[str], bool]]:
    """The sentences of one line of a list, with the crew's fields known and unknown."""
    kind, _, text = line.partition("\t")
    text = text.replace("{f}", names[0])
    for fields in (tuple(names), ()):
        for sentence in _sentences(reader.plainly(text, fields, language), fields):
            if talk.may_be_talk(sentence):
                yield frozenset(talk.signs_of(sentence)), kind == "talk"


def examples(folder: Path, luck: random.Random) -> list[Example]:
    """All sentences to learn from."""
    told = [
        list(of_corpus(row))
        for file in sorted(folder.glob("*.jsonl"))
        if file.name not in MEASURES
        for row in corpus(file)
    ]
    made = [Example(signs, idle, n) for n, rows in enumerate(told) for signs, idle in dict.fromkeys(rows)]
    for language in LANGUAGES:
        names = [n for n in (folder / "names" / f"{language}.txt").read_text("utf-8").split("\n") if n.strip()]
        for line in (folder / "talk" / f"{language}.tsv").read_text("utf-8").splitlines():
            rows = of_list(line, language, luck.sample(names, 5))
            message = len(told) + len(made)
            made += [Example(signs, idle, message, LISTED_WEIGHT) for signs, idle in dict.fromkeys(rows)]
    return made


def learn(learned: Sequence[Example]) -> dict[str, int]:
    """Logistic regression with a ridge, by L-BFGS: the weight of each sign for talk, in hundredths."""
    signs, number = matrix_of([example.signs for example in learned])
    right = np.array([example.talk for example in learned], dtype=float)
    counts = np.array([example.weight for example in learned])

    def loss(weights: Any) -> tuple[float, Any]:
        likely = 1 / (1 + np.exp(-(signs @ weights)))
        missed = -(counts * np.log(np.where(right > 0, likely, 1 - likely) + 1e-12)).sum()
        slope = signs.T @ (counts * (likely - right)) + EASE * weights
        return float(missed + EASE / 2 * (weights @ weights)), slope

    found = minimize(loss, np.zeros(len(number)), jac=True, method="L-BFGS-B", options={"maxiter": MOST_STEPS})
    weights = {sign: round(100 * found.x[n]) for sign, n in number.items()}
    return {sign: weight for sign, weight in weights.items() if abs(weight) >= LEAST_WEIGHT}


def spelled(weights: dict[str, int]) -> str:
    """JSON with a sign a line."""
    return json.dumps(weights, ensure_ascii=False, indent=0, separators=(",", ":")) + "\n"


def parted(learned: Sequence[Example], parts: int = 5) -> Iterator[str]:
    """How each part of the sentences is weighed by what was learned from the others, in lines to print."""
    sums = {True: 0, False: 0}
    surely = {True: 0, False: 0}
    for part in range(parts):
        weights = learn([example for example in learned if example.message % parts != part])
        for example in [example for example in learned if example.message % parts == part]:
            sums[example.talk] += 1
            surely[example.talk] += talk.likelihood(set(example.signs), weights) >= talk.SURE
    yield f"{sums[True]} sentences of talk: {surely[True] / sums[True]:.1%} surely talk"
    yield f"{sums[False]} that tell something: {surely[False] / sums[False]:.2%} taken for talk"


def main(arguments: list[str]) -> int:
    """Learn from a folder of corpora and write ``grammar/talk.json``; ``--test`` first tells how well parts do."""
    folder = Path(next((word for word in arguments if not word.startswith("--")), "tests/corpus"))
    Path("grammar/talk.json").write_text("{}\n", "utf-8")  # what was learned before is not learned from
    learned = examples(folder, random.Random(1))  # noqa: S311  # the same names in every run
    for line in parted(learned) if "--test" in arguments else ():
        sys.stdout.write(line + "\n")
    Path("grammar/talk.json").write_text(spelled(learn(learned)), "utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
