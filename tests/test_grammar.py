"""The grammar, the word tables, the mistakes and the help as data: every row is walked."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import tomli

from notes_bot.language import help_text, read_note, reader
from notes_bot.language.clauses.facts import RULES, parse, parser
from notes_bot.language.helping import COLUMNS, LINES, screens
from notes_bot.language.lexicon.mistakes import rows
from notes_bot.language.lexicon.tokens import Draft
from notes_bot.language.lexicon.words import source, table
from notes_bot.model import LANGUAGES, Language, Reading
from tests.tidy_words import WORDS, crowded, tidied

SENT = date(2026, 6, 11)


def _sent(row: dict[str, object]) -> date:
    example = row["example"]
    assert isinstance(example, dict)
    return date.fromisoformat(example.get("sent", SENT.isoformat()))


def _example(row: dict[str, Any]) -> Reading:
    example = row["example"]
    return read_note(example["text"], sent=_sent(row), language=example["language"], fields=example.get("fields", ()))


def test_every_sequence_of_tokens_parses() -> None:
    """The parse table has an action for every token in every state, so no message can fail the parse."""
    made = parser().parser.parser._parse_table  # type: ignore[union-attr]
    tokens = {token for actions in made.states.values() for token in actions if token.isupper() or token == "$END"}
    gaps = {state: tokens - set(actions) for state, actions in made.states.items() if tokens - set(actions)}

    assert gaps == {made.end_states["start"]: {"$END"}}, "the end is met by what it closes, and there is accepted"
    assert parse(Draft("", "en", [], ())) == []


def test_every_rule_has_its_fact() -> None:
    """Rule names and facts are one word; none is missing or left over."""
    grammar_rules = {rule.origin.name for rule in parser().rules}
    assert set(RULES) == {str(name) for name in grammar_rules if not str(name).startswith("_")} - {
        "start",
        "run",
        "clause",
    }


@pytest.mark.parametrize("kind", rows()["mistake"])
def test_a_mistakes_example_raises_it(kind: str) -> None:
    """The example of each row gives exactly that complaint."""
    row = rows()["mistake"][kind]
    reading = _example(row)

    assert kind in [problem.kind for problem in reading.problems]


@pytest.mark.parametrize("kind", rows()["mistake"])
@pytest.mark.parametrize("language", LANGUAGES)
def test_a_mistakes_advice_parses(kind: str, language: Language) -> None:
    """The line that would have worked reads without a complaint, in each language."""
    row = rows()["mistake"][kind]
    example = _example(row)
    problem = next(p for p in example.problems if p.kind == kind)
    instead = problem.instead if language == row["example"]["language"] else row["instead"][language]
    filled = instead.format(
        number=14,
        text="3",
        plants=6,
        count=5,
        list="3 0 7 2 5",
        sum=15,
        total=17,
        what=_white(language),
        shade=_white(language),
        first=12,
        second=14,
        sent="11 jun",
        days=20,
        field="kestrel",
    )
    reading = read_note(filled, sent=_sent(row), language=language)

    assert not reading.problems, filled
    assert reading.notes or reading.commands, filled


def _white(language: Language) -> str:
    return table(language).first["COLOUR", "white"]


@pytest.mark.parametrize("kind", rows()["remark"])
def test_a_remarks_example_raises_it(kind: str) -> None:
    """What is read only after a correction says so."""
    row = rows()["remark"][kind]
    reading = _example(row)

    assert kind in [remark.kind for remark in reading.remarks]


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_topic_fits_one_phone_screen(language: Language) -> None:
    """At most 18 lines of 40 columns, for each topic."""
    for topic in screens()[language]:
        lines = help_text(topic, language).split("\n")
        assert len(lines) <= LINES, topic
        assert max(map(len, lines)) <= COLUMNS, topic


@pytest.mark.parametrize("language", LANGUAGES)
def test_what_the_help_shows_can_be_sent(language: Language) -> None:
    """Each indented line of the help reads without a complaint, in its language."""
    for topic in screens()[language]:
        for line in help_text(topic, language).split("\n"):
            if line.startswith("  "):
                sent = date(2026, 11, 1) if "oct" in line else SENT
                reading = read_note(line.strip(), sent=sent, language=language)
                assert not reading.problems, line
                assert reading.notes or reading.commands, line
                assert language == reading.language, line


def test_help_by_a_word_of_the_language() -> None:
    """A topic is found by the words people use for it, and an unknown one gives the first screen."""
    assert help_text("counts", "es") == help_text("conteo", "es")
    assert help_text("quantum", "en") == help_text(None, "en")


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_three_word_files_hold_the_same_kinds(language: Language) -> None:
    """A kind of word that one language has, all have."""
    assert set(source("en")) == set(source(language))


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_word_stands_twice_in_a_list(language: Language) -> None:
    """Whoever adds a word sees whether it is there already."""
    lists = {
        f"{section}.{meaning}": words
        for section, meanings in source(language).items()
        if isinstance(meanings, dict)
        for meaning, words in meanings.items()
        if isinstance(words, list)
    }

    assert [name for name, words in lists.items() if len(words) != len(set(words))] == []


def test_a_list_of_words_can_be_read_and_changed_line_by_line() -> None:
    """Lists of hundreds of words on one line can be neither reviewed nor merged; a long phrase has its own line."""
    files = sorted(WORDS.glob("*.toml"))

    assert files
    for file in files:
        text = file.read_text("utf-8")
        assert [line for line in text.splitlines() if crowded(line)] == [], "python tests/tidy_words.py mends it"


def test_tidying_changes_line_breaks_alone() -> None:
    words = ", ".join(f'"word {n} of {{|a }}list"' for n in range(20))
    crammed = f"[COLOUR]\nwhite = [{words}]\ntan = [\n    {words},\n]\n"
    tidy = tidied(crammed)

    assert not any(map(crowded, tidy.splitlines()))
    assert tomli.loads(tidy) == tomli.loads(crammed)
    assert tidied(tidy) == tidy


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_number_word_is_also_a_slip(language: Language) -> None:
    """Numbers are never corrected, so no number word may stand among the slips."""
    numbers = {word for words in source(language)["NUMBER_WORD"].values() for word in words}
    slips = {word for section in source(language)["slips"].values() for words in section.values() for word in words}

    assert not numbers & slips


def test_every_manner_asked_for_stands_in_a_word_file_and_the_other_way() -> None:
    """A manner of words misspelt in code would silently hold no word, and one that nobody asks for is dead."""
    code = "\n".join(path.read_text("utf-8") for path in Path(reader.__file__).parent.rglob("*.py"))
    asked = set(re.findall(r'(?:made|table|self|walk)\.(?:has|said|stemmed)\(\s*"(\w+)"', code))
    asked |= set(re.findall(r'(?:anywhere\(|traits\[|traits\.get\()\s*"(\w+)"', code))
    written = {name for language in LANGUAGES for name in source(language)["TRAIT"]}
    built = {name for name in written if name.startswith(("says_", "heard_", "form_"))}

    assert {name for name in asked if name.islower() and not name.endswith("_")} <= written
    assert written - built <= set(re.findall(r'"(\w+)"', code))


SPELLED = frozenset(
    {"TEXTURE", "MOISTURE", "TOOL", "SOAKED", "NONE", "COLOUR", "ROOTS", "NODULES", "NODULE", "RESISTANCE", "PLANTS"}
)
"""Kinds of word whose values are spelled in answers."""


def test_what_is_read_in_one_language_is_spelled_in_all() -> None:
    """A Spanish note of "limo puro" is shown to an English supervisor; no word we write holds alternatives."""
    tables = [table(language) for language in LANGUAGES]
    values = {key for made in tables for key in made.first if key[0] in SPELLED}

    assert not [(made.language, key) for made in tables for key in values if key not in made.first]
    assert not [(made.language, key, said) for made in tables for key, said in made.first.items() if "{" in said]
