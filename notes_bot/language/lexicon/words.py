"""words/*.toml as look-up tables: every word and phrase of a language with all it can mean."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cache, lru_cache
from importlib.resources import files
from typing import Any

import tomli

from notes_bot.language.lexicon.kept import kept
from notes_bot.language.lexicon.scan import clean, fold, scan
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


NEAR_TYPES = frozenset(
    {"COLOUR", "FEMALES", "PLANTS", "DUG", "TOOL", "SOAKED", "NONE", "MOISTURE", "TEXTURE", "NODULES", "ROOT", "LOOK"}
    | {"PLANTED", "RESISTANCE", "TOP", "TOO_MANY", "MOSTLY", "CHECK"}
)
"""What a misspelt word may be taken for, where it is the only reading possible."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One meaning of a word: the type of token, its value, and whether the spelling is a slip."""

    type: str
    value: str
    slip: bool = False


_NO_WORDS: frozenset[str] = frozenset()
Slots = tuple[tuple[tuple[str, ...], ...], ...]


@dataclass(frozen=True, slots=True)
class Pattern:
    """A line of a word file with alternatives ("{did not|could not} {dig|look}"), matched without writing all out."""

    slots: Slots
    """Alternatives of each place in order, each a phrase cut into words; an empty one may be left out."""
    entry: Entry

    def longest(self, texts: Sequence[str], i: int) -> int:
        """How many words from i on the longest match takes; 0 for none."""
        return max(_ends(self.slots, 0, texts, i) - i, 0)

    def begins(self, words: tuple[str, ...]) -> bool:
        """Can a match begin with these words?"""
        return _begins(self.slots, 0, words)

    def first_words(self) -> set[str]:
        """Every word a match can begin with."""
        out: set[str] = set()
        for alternatives in self.slots:
            out.update(words[0] for words in alternatives if words)
            if () not in alternatives:
                break
        return out

    def single_words(self) -> set[str]:
        """Matches of one word only."""
        out: set[str] = set()
        for n, alternatives in enumerate(self.slots):
            if all(() in other for m, other in enumerate(self.slots) if m != n):
                out.update(words[0] for words in alternatives if len(words) == 1)
        return out

    def example(self) -> str:
        """One match: the longest alternative of each place."""
        return " ".join(word for alternatives in self.slots for word in max(alternatives, key=len))


def _ends(slots: Slots, n: int, texts: Sequence[str], i: int) -> int:
    """Where the longest match of the slots from n on ends; -1 for none."""
    if n == len(slots):
        return i
    best = -1
    first = texts[i] if i < len(texts) else None
    for words in slots[n]:
        if words and words[0] != first:
            continue
        size = len(words)
        if size < 2 or tuple(texts[i : i + size]) == words:
            best = max(best, _ends(slots, n + 1, texts, i + size))
    return best


def _begins(slots: Slots, n: int, words: tuple[str, ...]) -> bool:
    if not words:
        return True
    if n == len(slots):
        return False
    for choice in slots[n]:
        size = min(len(choice), len(words))
        if choice[:size] == words[:size] and _begins(slots, n + 1, words[size:]):
            return True
    return False


@dataclass(slots=True)
class Table:
    """All words of one language."""

    language: Language
    singles: dict[str, tuple[Entry, ...]] = field(default_factory=dict)
    phrases: dict[str, list[tuple[tuple[str, ...], tuple[Entry, ...]]]] = field(default_factory=dict)
    """By first word, longest first."""
    patterns: dict[str, list[Pattern]] = field(default_factory=dict)
    """Lines with alternatives, by every word they can begin with."""
    plain: frozenset[str] = frozenset()
    near: dict[int, list[str]] = field(default_factory=dict)
    """Single words of four letters and more, by length: what a misspelling may have meant."""
    timely: dict[int, list[str]] = field(default_factory=dict)
    """Single words for days, months and spans of time, by length: what a misspelling may have meant."""
    first: dict[tuple[str, str], str] = field(default_factory=dict)
    """(type, value) -> the word we write ourselves: the first of its line; words only written are of type WRITTEN."""
    shorts: dict[str, tuple[str, ...]] = field(default_factory=dict)
    """Chat spellings and the words they stand for: q, que; hj, hoje."""
    name_shorts: dict[str, tuple[str, ...]] = field(default_factory=dict)
    """Everyday words of names and their short forms: creek, ck."""
    slashed: dict[str, str] = field(default_factory=dict)
    """Letters that stand for a word before a slash: c, con."""
    traits: dict[str, frozenset[str]] = field(default_factory=dict)
    """Manners of words, by name: see [TRAIT] in the word files."""
    manners: dict[str, tuple[str, ...]] = field(default_factory=dict)
    """The same by word or phrase."""
    every_word: frozenset[str] = frozenset()
    """Every word of a word or phrase of the table, and its ordinary words."""
    little_words: frozenset[str] = frozenset()
    """Words of the manners: little words of requests that stand in no list of notes ("olvidate").

    Not those that names are made of: "nuevo lote creek piece".
    """

    def knows(self, word: str) -> bool:
        """Does a word or phrase of the table begin with this word?"""
        return word in self.phrases or word in self.patterns

    def begins(self, words: tuple[str, ...]) -> bool:
        """Does a phrase of the table begin with these words?"""
        listed = any(phrase[: len(words)] == words for phrase, _ in self.phrases.get(words[0], ()))
        return listed or any(pattern.begins(words) for pattern in self.patterns.get(words[0], ()))

    def longest(self, texts: Sequence[str], i: int) -> tuple[int, tuple[Entry, ...]] | None:
        """The longest phrase that begins at i: how many words, and what it can mean."""
        size: int = 0
        meanings: tuple[Entry, ...] = ()
        second = texts[i + 1] if i + 1 < len(texts) else None
        for words, entries in self.phrases.get(texts[i], ()):
            if len(words) == 1 or (words[1] == second and tuple(texts[i : i + len(words)]) == words):
                size, meanings = len(words), entries
                break
        for pattern in self.patterns.get(texts[i], ()):
            found = pattern.longest(texts, i)
            if found > size:
                size, meanings = found, (pattern.entry,)
            elif found == size > 0 and pattern.entry not in meanings:
                meanings = (*meanings, pattern.entry)
        return (size, meanings) if size else None

    def has(self, trait: str, word: str) -> bool:
        """Has a folded word or phrase this manner?"""
        return word in self.traits.get(trait, _NO_WORDS)

    def has_any(self, trait: str, words: Iterable[str]) -> bool:
        """Has one of these folded words or phrases this manner?"""
        return not self.traits.get(trait, _NO_WORDS).isdisjoint(words)

    def write(self, key: str) -> str:
        """A word or phrase of ours that is written as it stands: see [WRITTEN] in the word files."""
        return self.first["WRITTEN", key]

    def denies(self, word: str) -> bool:
        """Does a folded word deny something ("no", "didn't")?"""
        return self.has("denies", word) or word.endswith("n't")

    def stemmed(self, trait: str, word: str) -> bool:
        """Does a folded word begin like one of this manner?"""
        return word.startswith(tuple(self.traits.get(trait, ())))

    def may_begin(self, trait: str, text: str) -> bool:
        """Does a phrase of this manner begin with the first word of a text? Else none need be put together for it."""
        return text.partition(" ")[0] in _first_words(self.language, trait)

    def may_say(self, trait: str, text: str) -> bool:
        """Does a text hold the longest word of a phrase of this manner? Else it need not be scanned for one."""
        return self.may_hold(trait, fold(text))

    def may_hold(self, trait: str, folded: str) -> bool:
        """The same of a folded text."""
        return any(map(folded.__contains__, _longest_words(self.language, trait)))

    def said(self, trait: str, text: str) -> bool:
        """Does a stretch of text hold a word or phrase of this manner?"""
        folded = fold(text)
        near = [phrase for phrase in self.traits.get(trait, ()) if phrase in folded] if folded else []
        if not near:
            return False
        words = f" {' '.join(lexeme.text for lexeme in scan(clean(text)))} "
        return any(f" {phrase} " in words for phrase in near)


@cache
def _longest_words(language: Language, trait: str) -> frozenset[str]:
    """The longest word of each phrase of a manner."""
    return frozenset(max(phrase.split(" "), key=len) for phrase in table(language).traits.get(trait, ()))


@cache
def _first_words(language: Language, trait: str) -> frozenset[str]:
    """The first word of each phrase of a manner."""
    return frozenset(phrase.split(" ")[0] for phrase in table(language).traits.get(trait, ()))


@cache
def anywhere(trait: str) -> frozenset[str]:
    """The folded words of this manner in every language: people mix little words ("6 plantas con 3 white")."""
    return frozenset(itertools.chain.from_iterable(table(language).traits.get(trait, ()) for language in LANGUAGES))


@cache
def spoken_numbers() -> dict[str, str]:
    """Numbers of names as they are dictated in any language, in figures: three, tres, 3."""
    found: dict[str, str] = {}
    for language in LANGUAGES:
        for word, entries in table(language).singles.items():
            value = next((entry.value for entry in entries if entry.type == "NUMBER_WORD" and not entry.slip), "0")
            if len(word) > 2 and (1 <= int(value) <= 10 or value in _TENS):
                found.setdefault(word, value)
    return found


_TENS = frozenset({"20", "30", "40", "50", "60", "70", "80", "90"})


def source(language: Language) -> dict[str, Any]:
    """The word file of a language as written."""
    return tomli.loads((files("notes_bot.grammar.words") / f"{language}.toml").read_text("utf-8"))


def split(phrase: str) -> tuple[str, ...]:
    """A phrase as the scanner would cut it."""
    if not phrase:
        return ()
    folded = phrase.lower() if phrase.isascii() else fold(clean(phrase))
    if folded.isalpha():
        return (folded,)
    if folded.replace(" ", "a").isalpha():
        return tuple(folded.split())
    return tuple(lexeme.text for lexeme in scan(clean(phrase)))


_BRACES = re.compile(r"\{(.*?)\}")


def slots(written: str) -> Slots:
    """The places of a line of a word file: braces hold alternatives ("{did not|could not} {dig|look}"), each cut."""
    cut = [tuple(map(split, choices)) for choices in _choices(written)]
    return tuple(choices for choices in cut if choices != ((),))


def expand(written: str) -> list[tuple[str, ...]]:
    """All phrases of a line of a word file, written out."""
    if "{" not in written:
        return [split(written)]
    return [tuple(itertools.chain.from_iterable(chosen)) for chosen in itertools.product(*slots(written))]


def _choices(written: str) -> list[list[str]]:
    """The alternatives of each place of a line as they are written."""
    return [part.split("|") if n % 2 else [part] for n, part in enumerate(_BRACES.split(written))]


def _phrases(written: str) -> list[str]:
    """As :func:`expand`, each with single spaces between its words."""
    if not _PLAIN_LINE.fullmatch(written):
        return [" ".join(phrase) for phrase in expand(written)]
    low = written.lower()
    if "{" not in low:
        return [low]
    return [" ".join(" ".join(chosen).split()) for chosen in itertools.product(*_choices(low))]


_PLAIN_LINE = re.compile(r"[A-Za-z]+(?: [A-Za-z]+)*|[A-Za-z ]*(?:\{[A-Za-z |]*\}[A-Za-z ]*)+", re.ASCII)
"""A line that needs no scanner: letters and single spaces, or letters, spaces and alternatives."""


@cache
def table(language: Language) -> Table:
    """The compiled table of a language, built once."""
    return _tables()[language]


@cache
def _tables() -> dict[Language, Table]:
    return kept("words.pickle", lambda: {language: compiled(language) for language in LANGUAGES})


def compiled(language: Language) -> Table:
    """The word file of a language as a table."""
    made = Table(language)
    found: dict[tuple[str, ...], dict[tuple[str, str], Entry]] = {}

    def add(section: str, rows: dict[str, list[str]], slip: bool) -> None:
        for value, words in rows.items():
            key, entry = (section, value), Entry(section, value, slip)
            for word in words:
                if "{" not in word:
                    found.setdefault(split(word), {}).setdefault(key, entry)
                    continue
                pattern = Pattern(slots(word), entry)
                for single in pattern.single_words():
                    found.setdefault((single,), {}).setdefault(key, entry)
                for first in pattern.first_words():
                    made.patterns.setdefault(first, []).append(pattern)
            if not slip and words:
                own = next((word for word in words if "{" not in word), None)
                made.first.setdefault((section, value), own or Pattern(slots(words[0]), entry).example())

    written = source(language)
    slips = written.pop("slips")
    for section, rows in written.items():
        if section == "TRAIT":
            made.traits = {
                name: frozenset(itertools.chain.from_iterable(map(_phrases, words))) for name, words in rows.items()
            }
        elif section.startswith("WRITTEN"):
            made.first |= {(section, key): words[0] for key, words in rows.items()}
        elif section == "SHORT":
            made.shorts = {short: split(word) for word, shorts in rows.items() for short in map(fold, shorts)}
        elif section == "NAME_SHORT":
            made.name_shorts = {word: tuple(shorts) for word, shorts in rows.items()}
        elif section == "SLASHED":
            made.slashed = {letter: words[0] for letter, words in rows.items()}
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
            _list_by_length(made, words[0], meanings)
        made.phrases.setdefault(words[0], []).append((words, meanings))
    for choices in made.phrases.values():
        if len(choices) > 1:
            choices.sort(key=_size, reverse=True)
    for manner, said in made.traits.items():
        for phrase in said if not manner.startswith(_OF_TALK) else ():
            made.manners[phrase] = (*made.manners.get(phrase, ()), manner)
    made.every_word = frozenset(_every_word(made))
    made.little_words = made.every_word & _little_words(made)
    return made


def _every_word(made: Table) -> set[str]:
    words = set(made.plain.union(made.shorts, *made.shorts.values()))
    words.update(itertools.chain.from_iterable(phrase for rows in made.phrases.values() for phrase, _ in rows))
    for pattern in {id(pattern): pattern for rows in made.patterns.values() for pattern in rows}.values():
        words.update(word for slot in pattern.slots for phrase in slot for word in phrase)
    for phrase in made.manners:
        words.update(phrase.split())
    return words


def _list_by_length(made: Table, word: str, meanings: tuple[Entry, ...]) -> None:
    """Keep a single word among those a misspelling may have meant."""
    if len(word) < 4 or not word.isalpha():
        return
    own = [entry.type for entry in meanings if not entry.slip]
    if len(own) == len(meanings) and _TIMELY.issuperset(own):
        made.timely.setdefault(len(word), []).append(word)
    if not _NOT_NEAR.issuperset(own):
        made.near.setdefault(len(word), []).append(word)


def _size(row: tuple[tuple[str, ...], tuple[Entry, ...]]) -> int:
    return len(row[0])


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
    return word in _field_words()


@cache
def _field_words() -> frozenset[str]:
    rows = itertools.chain.from_iterable(table(language).singles.items() for language in LANGUAGES)
    return frozenset(word for word, entries in rows if any(entry.type == "FIELD_WORD" for entry in entries))


LIKE_ONES_OWN = 0.3
"""How much a message is like one in its writer's own language before its words are looked at, a long word of another
being 1: of 13,000 messages 14 are then taken for another language than their writers' own, and of 26,000 readings as by
a writer of another language 3 in 100 are not known for what they are, nearly all names and figures."""
LIKE_ENGLISH = 0.1
"""The same for English where nothing is known of the writer (judgement)."""
LENT = 0.4
"""The part by which an English word of the trade tells English of who writes another language: "Creek Bottom 5 plants,
3 whites, bucket" (fitted with the two above)."""
_LETTERS: dict[Language, frozenset[str]] = {"es": frozenset("ñ¿¡"), "pt": frozenset("ãõçâêôà")}
"""Letters and signs that one of the languages has alone (common knowledge, no source)."""
_TRADE = frozenset({"COLOUR", "PLANTS", "TOOL", "SOAKED", "TEXTURE", "MOISTURE", "FEMALES", "DUG"})


@lru_cache(maxsize=4096)
def _of_the_trade(word: str) -> bool:
    """Is it an English word that people say in another language too ("8 white", "con shovel")?"""
    return any(entry.type in _TRADE for entry in table("en").singles.get(word, ()))


@lru_cache(maxsize=4096)
def _is_ordinal(language: Language, word: str) -> bool:
    """Is it nothing but an ordinal? "Sexta" is a day in Portuguese, and the sixth in Spanish, of which few are told."""
    kinds = {entry.type for entry in table(language).singles.get(word, ())}
    return bool(kinds) and kinds <= {"ORDINAL", "NTH"}


LEAST_LITTLE = 5
"""Letters of the shortest little word of a request that tells the language (judgement)."""


_OF_TALK = "talk_"
"""How the manners of small talk begin, by which nothing is asked for."""
_OF_NAMES = ("place_", "register_frame", "new_field", _OF_TALK)
"""Manners of words that names of fields are made of, and those of small talk."""


def _little_words(made: Table) -> set[str]:
    said = (rows for name, rows in made.traits.items() if not name.startswith(_OF_NAMES))
    return set(itertools.chain.from_iterable(" ".join(rows).split() for rows in said))


@lru_cache(maxsize=4096)
def _languages_of(word: str) -> tuple[tuple[Language, ...], bool]:
    """The languages a word tells, and whether a word or phrase of notes begins with it in one of them."""
    known = [language for language in LANGUAGES if table(language).knows(word)]
    long = len(word) >= LEAST_LITTLE
    asked = [language for language in LANGUAGES if long and word in table(language).little_words]
    where = sorted({*known, *asked}) if known else asked if len(asked) == 1 else []  # "olvidate"
    return tuple(where), bool(known)


LEAST_DOUBT = 0.3
"""By how much another language must lead for a little word to tell nothing (judgement)."""


def decide_language(words: list[str], written: str, wanted: Language | None) -> Language:
    """The language most of the words belong to; the writer's own when they do not say.

    Letters and very short words count little: ``b`` and ``m`` mean different things and prove nothing. A letter that
    only one of the languages has tells as much as a word.

    Args:
        words: folded, without those of the crew's names.
        written: the same, as they are written.
        wanted: the writer's own language, if it is known.
    """
    scores: dict[Language, float] = dict.fromkeys(LANGUAGES, 0.0)
    scores[wanted or "en"] += LIKE_ONES_OWN if wanted else LIKE_ENGLISH
    for language, letters in () if written.isascii() else _LETTERS.items():
        if not letters.isdisjoint(written.lower()):
            scores[language] += 1.0
    for word in words:
        size = len(word)
        if size < 2:
            continue
        where, known = _languages_of(word)
        if not known and where and max(scores.values()) > scores[where[0]] + LEAST_DOUBT:
            continue  # "nuevo lote creek piece": the words before it told another
        if 0 < len(where) < 3:
            weight = (1.0 if size >= 4 else 0.6 if size == 3 else 0.35) / len(where)
            for language in where:
                lent = language == "en" and wanted not in (None, "en") and _of_the_trade(word)
                scores[language] += weight * (LENT if lent or _is_ordinal(language, word) else 1.0)
    return max(LANGUAGES, key=lambda language: scores[language])


LONGEST_PHRASE = 6
"""Words of the longest phrase of the word files that tells of more than one word does (judgement)."""


@cache
def heads_of(language: Language, traits: tuple[str, ...]) -> frozenset[str]:
    """First words of the phrases of some manners."""
    made = table(language)
    return frozenset(phrase.split(" ")[0] for trait in traits for phrase in made.traits.get(trait, ()))


def phrases(words: Sequence[str]) -> set[str]:
    """Every run of words of a clause that may be a phrase."""
    sizes = range(1, min(LONGEST_PHRASE, len(words)) + 1)
    return {" ".join(words[n : n + size]) for size in sizes for n in range(len(words) - size + 1)}
