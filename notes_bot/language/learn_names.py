"""Learn how names of fields are told from other words: ``python -m notes_bot.language.learn_names tests/corpus``.

The corpora say which words of a message are a field's name. They name the same few fields over and over, so every
message is learned several times with its fields renamed: by names invented by hand (``names/*.txt``) and by names put
together from parts and common words (``names/parts.toml``). What is learned is written to ``grammar/names.json``:

- what each sign of a word and its neighbours weighs (``supposing.py``), and
- what the traces of a wrong name in a reading weigh (``choosing.py``), learned from messages whose signs were not: the
  corpora are parted in two, and the guesses for each part come from the signs of the other.

``unread*.jsonl`` and ``ordinary.jsonl`` stay outside: they are what the reader is measured by.
"""

from __future__ import annotations

import json
import math
import random
import sys
import tomllib
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from notes_bot.language import reader
from notes_bot.language.lexicon.mending import common_words
from notes_bot.language.lexicon.scan import Lexeme, clean, fold, scan
from notes_bot.language.names import choosing, supposing
from notes_bot.language.names.supposing import BEGINS, GOES_ON, NONE, Signs, Weights
from notes_bot.language.score import corpus, score_reading
from notes_bot.model import LANGUAGES, Language

MEASURES = frozenset({"unread.jsonl", "unread_2.jsonl", "ordinary.jsonl"})
COPIES = 6
"""How often a message with names is learned, once as it stands and else renamed."""
ROUNDS = 5
"""How often everything is gone through for the signs."""
SENSE_ROUNDS = 25
"""The same for the traces."""
LEAST_SEEN = 4
"""Signs seen less often are not learned."""
LEAST_WEIGHT = 20
"""Signs that weigh less are not kept."""
LONGEST = 150
"""Lexemes of the longest message learned from."""
_PUT_TOGETHER, _OF_OTHERS, _LOWERED, _UNNAMED = 0.6, 0.06, 0.12, 0.1
_SHORT = 3
_NUMBERS = (2, 3, 4, 5, 7, 8, 9, 12, 14, 15, 20, 22, 30, 40, 60, 80, 120)
_PLACES = ("field", "name", "near", "rename_to", "alias")
Draw = Callable[[], str]
Row = Mapping[str, Any]


@dataclass(slots=True)
class Example:
    """A message to learn from: the signs of its lexemes and their right tags."""

    signs: list[Signs]
    lexemes: list[Lexeme]
    tags: list[int]


class Namer:
    """Invents names of fields."""

    def __init__(self, folder: Path, luck: random.Random) -> None:
        parts = tomllib.loads((folder / "parts.toml").read_text("utf-8"))
        self.luck = luck
        self.syllables = parts["syllables"].split()
        self.parts = {language: parts[language] for language in LANGUAGES}
        self.words = {language: sorted(common_words(language)) for language in LANGUAGES}
        self.listed = {language: (folder / f"{language}.txt").read_text("utf-8").split("\n") for language in LANGUAGES}

    def draw(self, language: Language) -> Draw:
        """A way to draw names for one message."""
        luck = self.luck.random()
        if luck < _PUT_TOGETHER:
            return lambda: self._put_together(language)
        own = language if luck < 1 - _OF_OTHERS else self.luck.choice(LANGUAGES)
        return lambda: self.luck.choice(self.listed[own]) or self._put_together(own)

    def _put_together(self, language: Language) -> str:
        parts, choice = self.parts[language], self.luck.choice
        noun, how = choice(parts["noun"].split()), choice(parts["how"].split()).replace("_", " ")
        odd = "".join(choice(self.syllables) for _ in range(choice((2, 2, 3))))
        given = {
            "noun": noun, "noun_short": noun[:_SHORT], "how": how, "how_short": how[:_SHORT], "odd": odd,
            "odd_short": odd[:_SHORT], "word": choice(self.words[language]), "n": choice(_NUMBERS),
            "letter": choice("abcdhnsjkmptw"), "side_letter": choice("nsew"),
            "side": choice(("north", "south", "east")), "article": choice(parts["article"].split()),
            "saint": choice(parts["saint"].split()), "of": choice(parts["of"].split()),
            "count": choice(parts["count"].split()),
        }  # fmt: skip
        words = choice(parts["patterns"]).format(**given).split()
        little = ("de", "del", "la", "do", "da", "dos", "of", "the")
        return " ".join(w if n and w in little else w[:1].upper() + w[1:] for n, w in enumerate(words))


def names_told(reading: Row) -> list[str]:
    """The names of fields a reading holds, each once."""
    told = [note.get("field") for note in reading.get("notes", ())]
    for command in reading.get("commands", ()):
        told += [command.get(key) for key in _PLACES if command["kind"] != "choose" or key != "name"]
        told += command.get("fields") or ()
    return list(dict.fromkeys(str(name) for name in told if name))


def locate(lexemes: Sequence[Lexeme], names: Iterable[str]) -> list[tuple[int, int]] | None:
    """Where names stand, longest first; ``None`` when one of them does not."""
    words = [lexeme.text for lexeme in lexemes]
    found: list[tuple[int, int]] = []
    for name in sorted(names, key=len, reverse=True):
        own = [lexeme.text for lexeme in scan(clean(name))]
        hits = [(i, i + len(own)) for i in range(len(words) - len(own) + 1) if words[i : i + len(own)] == own]
        hits = [(i, j) for i, j in hits if not any(a < j and i < b for a, b in found)]
        if name.isdigit():
            hits = hits[:1]
        if not hits:
            return None
        found += hits
    return sorted(found)


def renamed(text: str, spans: Sequence[tuple[int, int]], draw: Draw) -> tuple[str, list[tuple[int, int]]]:
    """The text with the names at these places changed, the same name to the same one, and where they stand now."""
    out, at = "", 0
    new: dict[str, str] = {}
    places = []
    for start, end in spans:
        old = text[start:end]
        name = new.setdefault(fold(old), draw())
        if not any(map(str.isupper, old)):
            name = name.lower()
        elif old.isupper() and len(old) > 2:
            name = name.upper()
        out += text[at:start]
        places.append((len(out), len(out) + len(name)))
        out, at = out + name, end
    return out + text[at:], places


def examples(rows: Iterable[Row], namer: Namer) -> list[Example]:
    """Messages to learn from, each as it stands and with its fields renamed."""
    made = []
    for row in rows:
        text = clean(row["text"])
        lexemes = scan(text)
        found = locate(lexemes, names_told(row["reading"])) if len(lexemes) <= LONGEST else None
        if found is None or not lexemes:
            continue
        spans = [(lexemes[i].start, lexemes[j - 1].end) for i, j in found]
        for n in range(COPIES if found else 2):
            new, places = renamed(text, spans, namer.draw(row.get("language", "en"))) if n else (text, spans)
            new = new.lower() if namer.luck.random() < _LOWERED else new
            if (example := _example(new, places)) is not None:
                made.append(example)
        if (unnamed := without_name(row)) is not None and namer.luck.random() < _UNNAMED:
            made.append(_example(unnamed["text"], ()) or Example([], [], []))
    return made


def without_name(row: Row) -> Row | None:
    """The row of a message with one note that begins with its name, the name left out; ``None`` for any other."""
    notes, text = row["reading"].get("notes", ()), row["text"]
    if len(notes) != 1 or row["reading"].get("commands") or not notes[0].get("field"):
        return None
    lexemes = scan(clean(text))
    found = locate(lexemes, [str(notes[0]["field"])])
    if found is None or len(found) != 1 or found[0][0] != 0 or found[0][1] == len(lexemes):
        return None
    rest = clean(text)[lexemes[found[0][1] - 1].end :].lstrip(" ,.:;-")
    note = {key: value for key, value in notes[0].items() if key != "field"}
    return {**row, "text": rest, "reading": {**row["reading"], "notes": [note]}}


def _example(text: str, places: Sequence[tuple[int, int]]) -> Example | None:
    said = reader.plainly(text)
    if said.text != text:
        found = locate(said.lexemes, [text[start:end] for start, end in places])
        if found is None:
            return None
        places = [(said.lexemes[i].start, said.lexemes[j - 1].end) for i, j in found]
    tags = [NONE] * len(said.lexemes)
    for start, end in places:
        within = [n for n, x in enumerate(said.lexemes) if x.start >= start and x.end <= end]
        if not within or any(
            x.start < end and x.end > start for x in said.lexemes if not start <= x.start <= x.end <= end
        ):
            return None
        tags[within[0]] = BEGINS
        tags[within[0] + 1 : within[-1] + 1] = [GOES_ON] * (within[-1] - within[0])
    signs = supposing.signs_of(said.text, said.lexemes, reader.pieces_of(said), said.language)
    return Example(signs, said.lexemes, tags)


def learn_signs(learned: list[Example], luck: random.Random) -> Weights:
    """What the signs weigh: the averaged structured perceptron."""
    seen = Counter(sign for example in learned for row in example.signs for sign in set(row))
    kept = {sign: sys.intern(sign) for sign, count in seen.items() if count >= LEAST_SEEN}
    for example in learned:
        example.signs = [[kept[sign] for sign in row if sign in kept] for row in example.signs]
    signs: dict[str, list[float]] = {}
    ages: dict[str, list[float]] = defaultdict(lambda: [0.0, 0.0])
    follow, follow_ages = [0.0] * 9, [0.0] * 9
    weights = Weights(signs, follow, {})
    step = 1
    for turn in range(ROUNDS):
        luck.shuffle(learned)
        wrong = 0
        for example in learned:
            step += 1
            got = supposing.learning_row(example.signs, example.lexemes, weights, example.tags)
            if got == example.tags:
                continue
            wrong += 1
            for row, read, right in zip(example.signs, got, example.tags, strict=True):
                for tag, change in ((right, 1.0), (read, -1.0)) if read != right else ():
                    if tag != NONE:
                        for sign in row:
                            signs.setdefault(sign, [0.0, 0.0])[tag - 1] += change
                            ages[sign][tag - 1] += change * step
            for right, read in zip(supposing.transitions(example.tags), supposing.transitions(got), strict=True):
                for n, change in ((right, 1.0), (read, -1.0)) if read != right else ():
                    follow[n] += change
                    follow_ages[n] += change * step
        sys.stdout.write(f"round {turn + 1}: {wrong} of {len(learned)} wrong\n")
        sys.stdout.flush()
    # Averaged over all steps, in tenths.
    mean = {s: [round(10 * (w - a / step)) for w, a in zip(own, ages[s], strict=True)] for s, own in signs.items()}
    mean = {sign: own for sign, own in sorted(mean.items()) if max(map(abs, own)) >= LEAST_WEIGHT}
    return Weights(mean, [round(10 * (w - a / step)) for w, a in zip(follow, follow_ages, strict=True)], {})


@dataclass(slots=True)
class Choice:
    """The guesses at one message: the traces of each and how well each was read."""

    traces: list[list[float]]
    worth: list[float]


def choices(rows: Iterable[Row], weights: Weights) -> tuple[list[str], list[Choice]]:
    """For each message what its guesses leave and what they are worth, and the names of the traces."""
    made, names = [], list[str]()
    rows = list(rows)
    rows += [bare for row in rows[::40] if (bare := without_name(row)) is not None]
    for row in rows:
        said, sent = reader.plainly(row["text"]), date.fromisoformat(row["sent"])
        guessed = supposing.guesses(
            said.text, said.lexemes, reader.pieces_of(said), said.language, choosing.DEAREST, weights
        )
        traces, worth = [], []
        for guess in choosing.with_none(guessed):
            reading = reader.read_plainly(said, sent, supposed=guess.names)
            found = choosing.traces(guess, reading)
            names = names or list(found)
            got = score_reading(row, reading)
            traces.append(list(found.values()))
            worth.append(got.understood - got.wrong - 0.3 * got.asked)
        if max(worth) > min(worth):
            made.append(Choice(traces, worth))
    return names, made


def learn_sense(learned: list[Choice], size: int, luck: random.Random) -> list[float]:
    """What the traces weigh: every worse guess should make less sense than the best (logistic, AdaGrad)."""
    weights, grown = [0.0] * size, [1e-8] * size
    weights[0] = -3.0
    for _ in range(SENSE_ROUNDS):
        luck.shuffle(learned)
        for choice in learned:
            top = max(choice.worth)
            sense = [sum(w * x for w, x in zip(weights, row, strict=True)) for row in choice.traces]
            best = max((n for n, worth in enumerate(choice.worth) if worth == top), key=sense.__getitem__)
            change = [0.0] * size
            for n, worth in enumerate(choice.worth):
                if worth < top:
                    off = min(top - worth, 5.0) / (1 + math.exp(max(-30.0, min(30.0, sense[best] - sense[n]))))
                    for k in range(size):
                        change[k] += off * (choice.traces[n][k] - choice.traces[best][k])
            for k in range(size):
                slope = change[k] + 1e-3 * weights[k]
                grown[k] += slope * slope
                weights[k] -= 0.15 * slope / math.sqrt(grown[k])
    return weights


def _spelled(kept: Mapping[str, Any]) -> str:
    """JSON with a sign a line, so that a change of the weights can be read line by line."""
    signs = ",\n".join(f"{json.dumps(s, ensure_ascii=False)}:[{b},{g}]" for s, (b, g) in kept["signs"].items())
    head = ",\n".join(f"{json.dumps(key)}: {json.dumps(kept[key])}" for key in ("follow", "sense"))
    return f'{{{head},\n"signs": {{\n{signs}\n}}}}\n'


def main(arguments: list[str]) -> int:
    """Learn from a folder of corpora and write ``grammar/names.json``."""
    folder = Path(arguments[0] if arguments else "tests/corpus")
    luck = random.Random(1)  # noqa: S311  # the same names in every run
    rows = [row for file in sorted(folder.glob("*.jsonl")) if file.name not in MEASURES for row in corpus(file)]
    namer = Namer(folder / "names", luck)
    halves = rows[::2], rows[1::2]
    learned, names = list[Choice](), list[str]()
    for own, other in (halves, halves[::-1]):
        names, made = choices(own, learn_signs(examples(other, namer), luck))
        learned += made
    sense = learn_sense(learned, len(names), luck)
    weights = learn_signs(examples(rows, namer), luck)
    kept = {
        "follow": weights.follow,
        "sense": {name: round(weight, 2) for name, weight in zip(names, sense, strict=True)},
        "signs": weights.signs,
    }
    Path("grammar/names.json").write_text(_spelled(kept), "utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
