"""Words: every key has its sentence in every language, with the same values, and nothing is left over."""

from __future__ import annotations

import ast
import re
import string
from collections.abc import Iterator, Mapping
from datetime import date, datetime
from pathlib import Path
from typing import Any

import pytest

import notes_bot
from notes_bot import before, outlook, own_trial, worth
from notes_bot.model import LANGUAGES, Fact, Interval, Language
from notes_bot.reply import say
from notes_bot.reply.words import STATEMENTS, words

PACKAGE = Path(notes_bot.__file__).parent
CLOSED: dict[str, Mapping[str, Any]] = {
    **outlook.BASIS_KEYS,
    **outlook.WHY_KEYS,
    **outlook.NO_RECHECK_KEYS,
    **worth.FACT_KEYS,
    **worth.CHANGE_KEYS,
    **before.PRIOR_KEYS,
    **own_trial.TRIAL_KEYS,
}
every_language = pytest.mark.parametrize("language", LANGUAGES)


def sentences(table: Mapping[str, Any], path: str = "") -> Iterator[tuple[str, str]]:
    for name, value in table.items():
        if isinstance(value, Mapping):
            yield from sentences(value, f"{path}{name}.")
        elif isinstance(value, str):
            yield f"{path}{name}", value


def named(sentence: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(sentence) if name}


def test_the_three_languages_hold_the_same_keys():
    """A sentence added in one language and forgotten in another would lose an answer."""
    keys = {language: {key for key, _ in sentences(words(language).tables)} for language in LANGUAGES}

    assert keys["es"] ^ keys["en"] == set()
    assert keys["pt"] ^ keys["en"] == set()


@pytest.mark.parametrize("language", ["es", "pt"])
def test_no_translation_asks_for_a_value_the_english_does_not_have(language: Language):
    """Every value a translation names is one the code passes."""
    english = dict(sentences(words("en").tables))
    for key, sentence in sentences(words(language).tables):
        if not key.startswith(("help.", "manner.")):
            assert named(sentence) <= named(english[key]) | {"generation"}, key


@pytest.mark.parametrize("language", ["es", "pt"])
def test_nothing_is_left_in_english(language: Language):
    """Only names that are the same everywhere may read the same in two languages."""
    english = dict(sentences(words("en").tables))
    same = {
        key
        for key, sentence in sentences(words(language).tables)
        if sentence == english[key] and re.search("[a-z]{4}", re.sub(r"{[^}]*}", "", sentence))
    }
    allowed = {
        "part.latitude",
        "part.longitude",
        "part.acres",
        "value.susceptible",
        "digest.acres",
        "fact.crop_susceptible",
    }

    assert same - allowed == set()


@every_language
@pytest.mark.parametrize("key", sorted(CLOSED))
def test_every_fact_of_the_outlook_has_words(key: str, language: Language):
    """Closed key sets: each example comes out as a sentence in which every value found its place."""
    told = say(Fact(key, CLOSED[key]), language)

    assert any(key in words(language).tables[table] for table in STATEMENTS)
    assert "?" not in told
    assert not re.search(r"[{}_]|\bNone\b", told)


@every_language
def test_every_cause_and_clue_has_a_name(language: Language):
    """Also in closed sets; a name is words, not the key."""
    tables = words(language).tables
    assert set(worth.CAUSE_KEYS) <= set(tables["cause"])
    assert set(worth.CLUE_KEYS) <= set(tables["clue"])


def test_no_name_stands_for_a_cause_or_clue_that_is_gone():
    """What the science no longer knows has no words waiting."""
    tables = words("en").tables
    assert set(tables["cause"]) == set(worth.CAUSE_KEYS)
    assert set(tables["clue"]) == set(worth.CLUE_KEYS)


@every_language
@pytest.mark.parametrize(
    ("key", "values"),
    [
        ("temperatures_normals", {"days": 12, "place": "Ames", "km": None}),
        ("entry_closed", {"until": None, "hours": 12.0}),
        ("entry_closed", {"until": datetime(2026, 6, 26, 8, 0), "hours": None}),  # noqa: DTZ001 - told as given
        ("which_field", {"name": "", "nearest": ["Old Mill", "Back Forty"]}),
        ("which_field", {"name": "old mll", "nearest": []}),
        ("corrected", {"field": "Old Mill", "date": "2026-06-25", "what": "plants", "old": None, "value": 8}),
        ("not_what_i_have", {"field": "Old Mill", "what": "plants", "old": 6, "have": None}),
    ],
)
def test_a_value_that_is_not_known_changes_the_wording(key: str, values: dict[str, Any], language: Language):
    """Nothing is said of what is not known, instead of "None" or a gap."""
    told = say(Fact(key, values), language)

    assert not re.search(r"None|\"\"|\?[^ ]|[{}]", told)
    assert ":  " not in told


def facts_named_in(source: Path) -> Iterator[tuple[str, set[str] | None]]:
    """The facts a module makes, by key, with the names of their values where they are written out."""
    for node in ast.walk(ast.parse(source.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Fact" and node.args:
            keys = node.args[0]
            options = [keys.body, keys.orelse] if isinstance(keys, ast.IfExp) else [keys]
            values = node.args[1] if len(node.args) > 1 else None
            written_out = isinstance(values, ast.Dict) and all(isinstance(k, ast.Constant) for k in values.keys)
            names = {k.value for k in values.keys} if written_out else None
            for key in options:
                if isinstance(key, ast.Constant) and isinstance(key.value, str):
                    yield key.value, names


FACTS = sorted(
    {
        (key, tuple(sorted(names)) if names is not None else None)
        for path in PACKAGE.glob("*.py")
        for key, names in facts_named_in(path)
    },
    key=repr,
)


@pytest.mark.parametrize(("key", "names"), FACTS, ids=[key for key, _ in FACTS])
def test_every_fact_made_anywhere_has_words_for_its_values(key: str, names: tuple[str, ...] | None):
    """Whoever states a fact finds it worded in three languages, with no value missing from it."""
    for language in LANGUAGES:
        tables = [words(language).tables[table] for table in STATEMENTS]
        sentence = next((table[key] for table in tables if key in table), None)

        assert sentence is not None, f"{key} has no words in {language}"
        if names is not None:
            assert named(sentence) <= set(names)


def test_every_sentence_asked_for_is_there():
    """A key in the code without a sentence would cost an answer in the field."""
    code = "\n".join(path.read_text(encoding="utf-8") for path in (PACKAGE / "reply").glob("*.py"))
    keys = {key for key, _ in sentences(words("en").tables)}
    asked = set(re.findall(r'"([a-z_]+\.[a-z_]+)"', code))

    assert len(asked) > 100
    # Packages words are read from, and names of files, look like keys.
    files = {name for name in asked if name.startswith("notes_bot.") or name.endswith((".png", ".toml"))}
    assert asked - keys - files == set()


def test_every_sentence_is_used():
    """A sentence no code asks for is dead weight in three languages."""
    code = "\n".join(path.read_text(encoding="utf-8") for path in (PACKAGE / "reply").glob("*.py"))
    by_name = {"colour", "generation", "generation_of", "generation_short", "stage", "stage_short", "event", "purpose"}
    by_name |= {
        "purpose_short",
        "do",
        "decides",
        "sure",
        "verdict",
        "none",
        "resistance",
        "status",
        "cause",
        "clue",
        "when",
        "part",
    }
    by_name |= {"level", "condition", "advice", "pattern", "sample_when", "rating", "unit", "sheet", "zone", "standing"}
    by_name |= {"way", "ground", "value", "unreadable_why", "held_why", "manner", "help", *STATEMENTS}
    unused = [
        key
        for key, _ in sentences(words("en").tables)
        if key.partition(".")[0] not in by_name and not re.search(rf"\b{re.escape(key)}\b", code)
    ]
    built = {f"digest.{name}" for name in ("watch", "slipping", "sum_decide", "sum_overdue", "sum_changed", "sum_week")}

    built |= {f"look.trial_{step}" for step in ("where", "first", "then")}
    built |= {"picture.expected_if", "picture.season_mix_if"}

    assert set(unused) - built == set()


@every_language
def test_every_reason_of_the_mail_room_has_words(language: Language):
    """Why a message waits and why one could not be read: the keys stand in the mail room's own source."""
    opening = (PACKAGE / "mail" / "opening.py").read_text(encoding="utf-8")
    manners = (PACKAGE / "mail" / "manners.py").read_text(encoding="utf-8")
    unreadable = set(re.findall(r'unreadable="([a-z_]+)"|why\.append\("([a-z_]+)"\)|return "", "([a-z_]+)"', opening))
    waits = set(re.findall(r'Verdict\(False, "hold", "([a-z_]+)"\)', manners))

    assert {key for found in unreadable for key in found if key} <= set(words(language).tables["unreadable_why"])
    assert len(waits) >= 4
    assert waits <= set(words(language).tables["held_why"])


# --- manners ---


@pytest.mark.parametrize(
    ("language", "value", "told"),
    [
        ("en", 56.6, "57"), ("en", 2.75, "2.8"), ("en", 0.25, "0.3"), ("en", 0.04, "0.04"), ("en", 3.0, "3"),
        ("en", 9.96, "10"), ("en", 12345.0, "12,345"), ("es", 2.75, "2,8"), ("pt", 2.75, "2,8"),
        ("es", 12345, "12.345"), ("pt", 0.04, "0,04"), ("en", 0, "0"),
    ],
)  # fmt: skip
def test_numbers_keep_two_figures_and_the_local_mark(language: Language, value: float, told: str):
    """More digits would claim more than a shovel can know."""
    assert words(language).number(value) == told


@pytest.mark.parametrize(("language", "told"), [("en", "Thu 25 Jun"), ("es", "jue 25 jun"), ("pt", "qui 25 jun")])
def test_days_are_told_in_the_local_manner(language: Language, told: str):
    """Day before month, month as a word: no reader takes 7/5 for the wrong day."""
    assert words(language).weekday(date(2026, 6, 25)) == told
    assert words(language).weekday("2026-06-25") == told


@pytest.mark.parametrize(
    ("first", "last", "told"),
    [
        (date(2026, 6, 20), date(2026, 6, 28), "20-28 Jun"),
        (date(2026, 6, 28), date(2026, 7, 3), "28 Jun-3 Jul"),
        (date(2026, 6, 28), date(2026, 6, 28), "28 Jun"),
        (date(2026, 12, 30), date(2027, 1, 4), "30 Dec-4 Jan"),
    ],
)
def test_a_window_is_told_as_one_range(first: date, last: date, told: str):
    """The month is said once when it is one month."""
    assert words("en").span(first, last) == told


def test_lists_are_told_as_people_tell_them():
    """Commas and one "and"; things that hold commas themselves are parted by semicolons."""
    speak = words("en")
    assert speak.listed(["a"]) == "a"
    assert speak.listed(["a", "b", "c"]) == "a, b and c"
    assert speak.listed(["a", "b"], "or") == "a or b"
    assert speak.listed(["a, then b", "c"]) == "a, then b; c"


@pytest.mark.parametrize(("count", "told"), [(0, "0 plants"), (1, "1 plant"), (2, "2 plants")])
def test_one_is_told_in_the_singular(count: int, told: str):
    """1 plant, 2 plants."""
    assert words("en").fill("{count:n plant|plants}", {"count": count}) == told


def test_values_of_every_kind_have_a_manner():
    """Facts may carry intervals, lists, days and other facts."""
    speak = words("en")
    assert speak.plain(Interval(1.4, 2.8, 5.5)) == "1.4-5.5"
    assert speak.plain(["a", date(2026, 6, 25)]) == "a and 25 Jun"
    assert speak.plain(Fact("use_shovel")) == "Dig with a shovel, do not pull"
    assert speak.plain({"planted": "2026-05-06", "resistance": "resistant"}) == "planted 6 May, resistance resistant"
    assert speak.plain(True) == "yes"


def test_a_fact_nobody_foresaw_is_said_by_its_name():
    """A new key without words still reaches the reader, bare but not lost."""
    assert say(Fact("brand_new_thing", {"field_name": "Old Mill", "on": "2026-06-25"}), "en") == (
        "brand new thing: field name Old Mill, on 25 Jun"
    )


def test_a_manner_that_does_not_exist_is_our_own_mistake():
    """A slip in a words file fails loudly in the tests, not in the field."""
    with pytest.raises(ValueError, match="manner"):
        words("en").fill("{x:loudly}", {"x": 1})


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_place_told_is_told_back_in_full(language: Language):
    """Whole degrees are a county; who wrote the place must be able to check it."""
    told = Fact("field_changed", {"field": "Kestrel", "changes": {"latitude": 42.03, "longitude": -93.62015}})

    assert "42.03," in words(language).say(told)
    assert "-93.62015" in words(language).say(told)
