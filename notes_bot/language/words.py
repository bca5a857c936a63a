"""words/*.toml as look-up tables: every word and phrase of a language with all it can mean."""

from __future__ import annotations

import itertools
import re
import tomllib
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from typing import Any

from notes_bot.language.scan import clean, fold, scan
from notes_bot.model import LANGUAGES, Language

COMMAND_TYPES = frozenset(
    [
        "UNDO",
        "STATE",
        "HISTORY",
        "DUE",
        "HELP",
        "TOPIC",
        "PICTURE",
        "ADD",
        "RENAME",
        "RENAME_TO",
        "ALIAS",
        "NEAR",
        "ACRES",
        "LAB",
        "EGGS",
        "WEATHER",
        "MUTE",
        "RESUME",
        "LANGUAGE",
        "LANGUAGE_NAME",
        "PLACE",
        "SKIP",
        "MOVE",
        "RELEASE",
        "REFUSE",
        "DIGEST",
        "CORRECT",
        "HOW_MANY",
        "ASK_LOOK",
        "SAID",
        "TRIAL",
    ]
)


@dataclass(frozen=True, slots=True)
class Entry:
    """One meaning of a word: the type of token, its value, and whether the spelling is a slip."""

    type: str
    value: str
    slip: bool = False


@dataclass(slots=True)
class Table:
    """All words of one language."""

    language: Language
    singles: dict[str, tuple[Entry, ...]] = field(default_factory=dict)
    phrases: dict[str, list[tuple[tuple[str, ...], tuple[Entry, ...]]]] = field(default_factory=dict)
    """By first word, longest first."""
    plain: frozenset[str] = frozenset()
    near: dict[int, list[str]] = field(default_factory=dict)
    """Single words of four letters and more, by length: what a misspelling may have meant."""
    timely: dict[int, list[str]] = field(default_factory=dict)
    """Single words for days, months and spans of time, by length: what a misspelling may have meant."""
    first: dict[tuple[str, str], str] = field(default_factory=dict)
    """(type, value) -> the word we write ourselves: the first of its line."""
    telling: frozenset[str] = frozenset()
    """Words that speak of roots, counts, soil or plants: they tell the language better than little words do."""
    shorts: dict[str, tuple[str, ...]] = field(default_factory=dict)
    """Chat spellings and the words they stand for: q, que; hj, hoje."""
    traits: dict[str, frozenset[str]] = field(default_factory=dict)
    """Manners of words, by name: see [TRAIT] in the word files."""

    def has(self, trait: str, word: str) -> bool:
        """Has a folded word or phrase this manner?"""
        return word in self.traits.get(trait, frozenset())


def source(language: Language) -> dict[str, Any]:
    """The word file of a language as written."""
    return tomllib.loads((files("notes_bot.grammar.words") / f"{language}.toml").read_text("utf-8"))


def split(phrase: str) -> tuple[str, ...]:
    """A phrase as the scanner would cut it."""
    folded = fold(clean(phrase))
    if folded.replace(" ", "a").isalpha():
        return tuple(folded.split())
    return tuple(lexeme.text for lexeme in scan(clean(phrase)))


def expand(written: str) -> list[tuple[str, ...]]:
    """All phrases of a line of a word file: braces hold alternatives ("{did not|could not} {dig|look}"), each cut."""
    if "{" not in written:
        return [split(written)]
    parts = re.split(r"\{(.*?)\}", written)
    choices = [[split(one) for one in part.split("|")] if n % 2 else [split(part)] for n, part in enumerate(parts)]
    return [tuple(itertools.chain.from_iterable(chosen)) for chosen in itertools.product(*choices)]


@cache
def table(language: Language) -> Table:
    """The compiled table of a language, built once."""
    made = Table(language)
    found: dict[tuple[str, ...], dict[tuple[str, str], Entry]] = {}

    def add(section: str, rows: dict[str, list[str]], slip: bool) -> None:
        for value, words in rows.items():
            key, entry = (section, value), Entry(section, value, slip)
            for phrase in itertools.chain.from_iterable(map(expand, words)):
                entries = found.get(phrase)
                if entries is None:
                    found[phrase] = {key: entry}
                else:
                    entries.setdefault(key, entry)
            if not slip and words:
                made.first.setdefault((section, value), words[0])

    written = source(language)
    slips = written.pop("slips")
    for section, rows in written.items():
        if section == "TRAIT":
            made.traits = {
                name: frozenset(" ".join(phrase) for word in words for phrase in expand(word))
                for name, words in rows.items()
            }
        elif section == "SHORT":
            made.shorts = {short: split(word) for word, shorts in rows.items() for short in map(fold, shorts)}
        elif section == "PLAIN":
            made.plain = frozenset(word for phrase in rows["words"] for word in split(phrase))
        elif isinstance(rows, dict):
            add(section, rows, slip=False)
    for section, rows in slips.items():
        add(section, rows, slip=True)
    for words, entries in found.items():
        meanings = tuple(entries.values())
        if len(words) == 1:
            made.singles[words[0]] = meanings
            word = words[0]
            if len(word) >= 4 and word.isalpha() and all(e.type in _TIMELY and not e.slip for e in meanings):
                made.timely.setdefault(len(word), []).append(word)
            if len(word) >= 4 and word.isalpha() and not all(e.slip or e.type in _NOT_NEAR for e in meanings):
                made.near.setdefault(len(word), []).append(word)
        made.phrases.setdefault(words[0], []).append((words, meanings))
    made.telling = frozenset(
        words[0] for words, entries in found.items() if len(words) == 1 and not {kind for kind, _ in entries} & _LITTLE
    )
    for choices in made.phrases.values():
        if len(choices) > 1:
            choices.sort(key=_size, reverse=True)
    return made


def _size(row: tuple[tuple[str, ...], tuple[Entry, ...]]) -> int:
    return len(row[0])


_LITTLE = COMMAND_TYPES | {"LINK", "ABOUT", "MEASURE", "TEXT", "COURTESY", "MOSTLY", "HAD", "SPOT"}
_TIMELY = frozenset({"UNIT", "MONTH", "WEEKDAY", "TODAY"})
_NOT_NEAR = COMMAND_TYPES | frozenset(
    [
        "LINK",
        "ABOUT",
        "COURTESY",
        "MEASURE",
        "TEXT",
        "NUMBER_WORD",
        "ORDINAL",
        "WEEKDAY",
        "MONTH",
        "NOT",
        "UNIT",
        "FIELD_WORD",
        "WHICH",
        "SAME",
        "BELOW",
        "CHEMICAL",
        "SPOT",
        "TOTAL",
        "TODAY",
        "AFTER",
        "AGO",
        "GREEN",
        "BANDS",
    ]
)
"""Never reached by a near word: numbers and days are never corrected, and little words have too many neighbours."""


def near_words(word: str, language: Language) -> list[str]:
    """Words of the table one slip away (two for eight letters and more), nearest first; empty for ordinary words."""
    from rapidfuzz.distance import OSA

    made = table(language)
    if len(word) < 4 or len(word) > 24 or word in made.plain or not word.isalpha():
        return []
    limit = 2 if len(word) >= 8 else 1
    letter = word[0]
    scored: list[tuple[int, str]] = []
    for length in range(len(word) - limit, len(word) + limit + 1):
        for known in made.near.get(length, ()):
            if known[0] != letter and known[1:2] != letter and word[1:2] != known[0]:
                continue
            distance = OSA.distance(word, known, score_cutoff=limit)
            if distance <= limit:
                scored.append((distance, known))
    scored.sort()
    return [known for distance, known in scored if distance == scored[0][0]]


def is_field_word(word: str) -> bool:
    """Is it a word for "field" in one of the languages?"""
    return any(entry.type == "FIELD_WORD" for language in LANGUAGES for entry in table(language).singles.get(word, ()))


def decide_language(words: list[str], wanted: Language | None) -> Language:
    """The language most of the words belong to; the writer's own when they do not say.

    Letters and very short words count little: ``b`` and ``m`` mean different things and prove nothing.
    """
    scores: dict[Language, float] = dict.fromkeys(LANGUAGES, 0.0)
    if wanted is not None:
        scores[wanted] += 1.5
    else:
        scores["en"] += 0.1
    for word in words:
        size = len(word)
        if size < 2:
            continue
        where = [language for language in LANGUAGES if word in table(language).phrases]
        if 0 < len(where) < 3:
            weight = (1.0 if size >= 4 else 0.6 if size == 3 else 0.35) / len(where)
            for language in where:
                scores[language] += weight * (1.0 if word in table(language).telling else 0.4)
    return max(LANGUAGES, key=lambda language: scores[language])
