"""Learn what sentences ask: ``python -m notes_bot.language.learn_wishes tests/corpus``.

From two kinds of sentences: those of the corpora, with what their messages are labelled to ask, and lists of ways to
ask and of talk that asks nothing (``wishes/*.tsv``: a kind, a tab, a sentence in which ``{f}`` is a field's name,
``{n}`` a number, ``{d}`` a day, ``{lang}`` a language, ``{st}`` a state and ``{a}`` another name). Every sentence is
learned with its field known by name and once more with a name that no list holds. The weights go to
``grammar/wishes.json``.

``unread*.jsonl`` and ``ordinary.jsonl`` stay outside: they are what the reader is measured by.
"""

from __future__ import annotations

import json
import random
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

import numpy as np
from scipy.optimize import minimize
from scipy.sparse import csr_matrix

from notes_bot.language import reader
from notes_bot.language.clauses.context import Context
from notes_bot.language.learn_names import MEASURES, Row, names_told
from notes_bot.language.lexicon.mending import mend
from notes_bot.language.lexicon.pieces import Cutter, Piece
from notes_bot.language.lexicon.signs import scale_of
from notes_bot.language.lexicon.words import table
from notes_bot.language.passes.unsaid import intended
from notes_bot.language.requests import commands, wishes
from notes_bot.language.score import corpus
from notes_bot.model import LANGUAGES, Language

LEAST_SEEN = 2
"""Signs seen in fewer sentences are not learned (judgement)."""
LEAST_WEIGHT = 20
"""Hundredths; what tells less of a kind is not kept (judgement: it halves the file)."""
EASE = 0.2
"""Ridge penalty: the most sure right readings at few wrong ones among 0.03, 0.1, 0.2, 0.3 (judgement)."""
MOST_STEPS = 120
"""Steps of the search (judgement)."""
_DAYS = {
    "en": ("friday", "monday", "tomorrow", "the 14th", "thursday", "7/20"),
    "es": ("el viernes", "el lunes", "mañana", "el 14", "el jueves", "20/7"),
    "pt": ("sexta", "segunda", "amanhã", "dia 14", "quinta", "20/7"),
}
_LANGUAGES = {
    "en": ("spanish", "portuguese", "english"),
    "es": ("español", "inglés", "portugués"),
    "pt": ("português", "inglês", "espanhol"),
}
_STATES = {
    "en": ("Iowa", "Ohio", "Missouri", "Illinois", "Indiana", "Nebraska", "Ontario", "Kentucky"),
    "es": ("Santa Fe", "Entre Ríos", "Córdoba", "Iowa", "Illinois", "Nebraska"),
    "pt": ("Goiás", "Mato Grosso", "Paraná", "Bahia", "Tocantins"),
}
_OTHERS = {
    "en": ("Rattlesnake", "Back Forty", "Hill Piece"),
    "es": ("La Quinta", "El Bajo", "Loma"),
    "pt": ("Baixo", "Lagoa", "Morro"),
}


@dataclass(frozen=True, slots=True)
class Example:
    """One sentence: its signs, the number of its kind, and which message it is of."""

    signs: frozenset[str]
    kind: int
    message: int = 0


def sentences(said: reader.Said, sent: date, fields: tuple[str, ...]) -> Iterator[commands.Line]:
    """The sentences of a message that may be wishes."""
    context = Context(said.text, sent, fields, said.language, None, fields)
    lexemes = mend(said.text, said.lexemes, said.language, fields)[0]
    pieces: list[Piece] = intended(Cutter(said.language, fields).cut(lexemes), table(said.language))
    for line in commands.lines_of(pieces):
        for sentence in commands.sentences_of(line):
            content = commands.content_of(sentence)
            if content and wishes.may_wish(made := commands.Line(context, content)):
                yield made


def of_corpus(row: Row) -> Iterator[tuple[frozenset[str], int]]:
    """Sentences of one labelled message, where the reader finds what it asks and so where it stands."""
    labelled = [dict(command) for command in row["reading"].get("commands", ())]
    want = [wishes.kind_of(command.pop("kind"), command) for command in labelled]
    sent, language = date.fromisoformat(row["sent"]), row.get("language")
    listed = tuple(dict.fromkeys((*(row.get("fields") or ()), *names_told(row["reading"]))))
    said = reader.plainly(row["text"], listed, language)
    reading = reader.read_plainly(said, sent, listed, (), language)
    if sorted(wishes.kind_of(c.kind, c.args) for c in reading.commands) != sorted(want):
        return
    starts = [0]
    for text in said.text.split("\n"):
        starts.append(starts[-1] + len(text) + 1)
    asked = []
    for command in reading.commands:
        start = starts[command.where.line - 1] + command.where.column - 1
        asked.append((start, start + len(command.where.text), wishes.kind_of(command.kind, command.args)))
    for fields in (listed, ()):
        for line in sentences(said, sent, fields):
            kinds = {kind for start, end, kind in asked if start < line.end and line.start < end} or {"none"}
            if len(kinds) == 1:
                yield frozenset(wishes.signs_of(line.ps, said.language)), wishes.KINDS.index(kinds.pop())


def of_way(row: str, language: Language, name: str, luck: random.Random) -> Iterator[tuple[frozenset[str], int]]:
    """One of a list of ways to ask, twice: its field on the crew's list, and on none."""
    kind, _, sentence = row.partition("\t")
    text = sentence.replace("{f}", name).replace("{n}", str(luck.randint(2, 14)))
    for place, words in (("{d}", _DAYS), ("{lang}", _LANGUAGES), ("{st}", _STATES), ("{a}", _OTHERS)):
        text = text.replace(place, luck.choice(words[language]))
    for fields in ((name,), ()):
        said = reader.plainly(text, fields, language)
        for line in sentences(said, date(2026, 7, 8), fields):
            yield frozenset(wishes.signs_of(line.ps, said.language)), wishes.KINDS.index(kind)


def matrix_of(examples: Sequence[frozenset[str]]) -> tuple[csr_matrix, dict[str, int]]:
    """The signs of sentences, a row each, scaled as they are when weighed; and the column of each learned sign."""
    seen = Counter(sign for signs in examples for sign in signs)
    number = {sign: n for n, sign in enumerate(sorted(sign for sign, count in seen.items() if count >= LEAST_SEEN))}
    data, columns, ends = list[float](), list[int](), [0]
    for signs in examples:
        own = [number[sign] for sign in sorted(signs) if sign in number]
        columns += own
        data += [scale_of(signs)] * len(own)
        ends.append(len(columns))
    return csr_matrix((data, columns, ends), shape=(len(examples), len(number))), number


def learn(learned: Sequence[Example]) -> wishes.Weights:
    """Multinomial logistic regression with a ridge, by L-BFGS."""
    signs, number = matrix_of([example.signs for example in learned])
    right = np.array([example.kind for example in learned])
    told = np.zeros((len(learned), len(wishes.KINDS)))
    told[np.arange(len(learned)), right] = 1

    def loss(flat: Any) -> tuple[float, Any]:
        weights = flat.reshape(len(wishes.KINDS), -1)
        sums = signs @ weights.T
        sums -= sums.max(axis=1, keepdims=True)
        likely = np.exp(sums)
        likely /= likely.sum(axis=1, keepdims=True)
        missed = -np.log(likely[np.arange(len(right)), right] + 1e-12).sum()
        slope = np.asarray((signs.T @ (likely - told)).T) + EASE * weights
        return float(missed + EASE / 2 * (flat @ flat)), slope.ravel()

    start = np.zeros(len(wishes.KINDS) * len(number))
    found = minimize(loss, start, jac=True, method="L-BFGS-B", options={"maxiter": MOST_STEPS})
    weights = found.x.reshape(len(wishes.KINDS), -1)
    kept: dict[str, str] = {}
    for sign, n in number.items():
        row = [(kind, round(100 * weights[kind, n])) for kind in range(len(wishes.KINDS))]
        if row := [(kind, weight) for kind, weight in row if abs(weight) >= LEAST_WEIGHT]:
            kept[sign] = ",".join(f"{kind},{weight}" for kind, weight in row)
    return wishes.Weights(kept)


def examples(folder: Path, luck: random.Random) -> list[Example]:
    """All sentences to learn from."""
    files = [file for file in sorted(folder.glob("*.jsonl")) if file.name not in MEASURES]
    told = [list(of_corpus(row)) for file in files for row in corpus(file)]
    for language in LANGUAGES:
        names = [n for n in (folder / "names" / f"{language}.txt").read_text("utf-8").split("\n") if n.strip()]
        ways = (folder / "wishes" / f"{language}.tsv").read_text("utf-8").splitlines()
        told += [list(of_way(row, language, luck.choice(names), luck)) for row in ways]
    return [Example(signs, kind, n) for n, rows in enumerate(told) for signs, kind in rows]


def spelled(weights: wishes.Weights) -> str:
    """JSON with a sign a line: the numbers of kinds, each with its weight."""
    return json.dumps(weights.signs, ensure_ascii=False, indent=0, separators=(",", ":")) + "\n"


def parted(learned: Sequence[Example], parts: int = 5) -> Iterator[str]:
    """What each part of the sentences is read as by weights learned from the others, in lines to print."""
    asks = right = wrong = false = none = 0
    for part in range(parts):
        weights = learn([example for example in learned if example.message % parts != part])
        for example in [example for example in learned if example.message % parts == part]:
            likely = wishes.weigh(set(example.signs), weights)
            best = max(range(len(likely)), key=likely.__getitem__)
            kind = wishes.KINDS[best]
            sure = kind != "none" and likely[best] >= (wishes.CHANGED if kind in wishes.CHANGES else wishes.SHOWN)
            if wishes.KINDS[example.kind] == "none":
                none, false = none + 1, false + sure
            else:
                asks += 1
                right += sure and best == example.kind
                wrong += sure and best != example.kind
    yield f"{asks} sentences that ask: {right / asks:.1%} read, {wrong / asks:.1%} read as something else"
    yield f"{none} that ask nothing: {false / none:.2%} read as asking"


def main(arguments: list[str]) -> int:
    """Learn from a folder of corpora and write ``grammar/wishes.json``; ``--test`` first tells how well parts do."""
    folder = Path(next((word for word in arguments if not word.startswith("--")), "tests/corpus"))
    Path("grammar/wishes.json").write_text("{}", "utf-8")  # what was learned before is not learned from
    learned = examples(folder, random.Random(1))  # noqa: S311  # the same names in every run
    for line in parted(learned) if "--test" in arguments else ():
        sys.stdout.write(line + "\n")
    Path("grammar/wishes.json").write_text(spelled(learn(learned)), "utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
