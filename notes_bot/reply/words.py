"""The words we send, in three languages: one file of sentences per language, one way to fill them in.

``words/<language>.toml`` holds every sentence and every name; nothing in the code is a word a reader sees.
A sentence names its values in braces, with the manner after a colon:

=================  ==============================================================================
``{x}``            text as it is; a number, date, fact or list in the local manner
``{x:percent}``    a share 0-1 as whole percent; never 0 % or 100 %, which would claim certainty
``{x:percents}``   a number that is already percent
``{x:day}``        11 Jun
``{x:weekday}``    Thu 11 Jun
``{x:in cause}``   the word of table ``cause`` for the key ``x``; a list of keys gives a list of words
``{x:in value}``   the word of a value a person noted, or the value in the local manner
``{x:either}``     a choice: one, two or three
``{x:dated}``      11 Jun 2026, for what is told over years
``{x:month}``      Jun 2026
``{x:eggs}``       an egg count or its range, to two figures: 1,400-4,100
``{x:least}``      the same; below 100 it is told as "under 100", since no change was measured there
``{x:times}``      a ratio, to two figures: 3.1
``{x:share}``      percent of a check strip: 65%, 120%
``{x:unit}``       a unit of a soil count: eggs per 250 cc
``{x:comma}``      a list in its order, parted by commas alone
``{x:n a|b}``      the number with the singular or plural word, as written: 1 plant, 6 plants
``{x:? a|b}``      only the singular or plural word
=================  ==============================================================================
"""

from __future__ import annotations

import re
import string
from collections.abc import Iterable, Mapping
from datetime import date, datetime
from decimal import ROUND_HALF_UP, Decimal
from functools import cache
from importlib import resources
from typing import Any
from zoneinfo import ZoneInfo

import tomli

from notes_bot.model import Fact, Interval, Language

ISO_DAY = re.compile(r"\d{4}-\d\d-\d\d")
ISO_MOMENT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d\S*")

NOTHING: tuple[Any, ...] = (None, "", (), [])
"""Values that make a statement take its wording for "not known"."""

MANNERS = frozenset(
    [
        "day",
        "weekday",
        "number",
        "percent",
        "percents",
        "dated",
        "month",
        "eggs",
        "least",
        "times",
        "unit",
        "comma",
        "share",
    ]
)
"""Manners that are a method of ``Words``."""

LEAST_EGGS = 100
"""Below so many eggs per 100 cc the yearly changes were never measured."""

STATEMENTS = ("fact", "done", "notice")
"""Tables that hold whole statements, in the order a fact's key is looked for."""


class Words:
    """The words of one language."""

    def __init__(self, language: Language, zone: str = "UTC") -> None:
        self.language: Language = language
        self.zone = ZoneInfo(zone)
        self.tables: dict[str, Any] = {}
        for name in (f"{language}.toml", f"winter_{language}.toml"):
            source = resources.files("notes_bot.reply") / "words" / name
            for table, rows in tomli.loads(source.read_text(encoding="utf-8")).items():
                self.tables.setdefault(table, {}).update(rows)
        self.manner: dict[str, Any] = self.tables["manner"]
        self._filling = _Filling(self)

    def __call__(self, key: str, /, **values: Any) -> str:
        """The sentence ``table.name`` filled in; a missing sentence or value raises ``KeyError``."""
        table, _, name = key.partition(".")
        return self.fill(self.tables[table][name], values)

    def fill(self, sentence: str, values: Mapping[str, Any]) -> str:
        return self._filling.vformat(sentence, (), values)

    def name(self, table: str, key: str) -> str:
        """The word for a key, or the key itself with spaces if the table has none."""
        found = self.tables[table].get(key)
        return found if isinstance(found, str) else str(key).replace("_", " ")

    # --- manners ---

    def day(self, day: date | str) -> str:
        """11 Jun; an ISO day, as facts carry it, will do."""
        on = _date(day)
        return f"{on.day} {self.manner['months'][on.month - 1]}"

    def weekday(self, day: date | str) -> str:
        """Thu 11 Jun."""
        return f"{self.manner['weekdays'][_date(day).weekday()]} {self.day(day)}"

    def dated(self, day: date | str) -> str:
        """11 Jun 2026."""
        return f"{self.day(day)} {_date(day).year}"

    def month(self, day: date | str) -> str:
        """Jun 2026."""
        on = _date(day)
        return f"{self.manner['months'][on.month - 1]} {on.year}"

    def eggs(self, value: float | Interval) -> str:
        """An egg count or its range to two figures."""
        if isinstance(value, Interval):
            return f"{self.eggs(value.low)}-{self.eggs(value.high)}"
        return self.number(float(f"{value:.2g}") if value >= 10 else round(value))

    def least(self, value: float) -> str:
        """An egg count that nobody measured changes below 100 of."""
        return self.eggs(value) if value >= LEAST_EGGS else f"{self.manner['under']}{LEAST_EGGS}"

    def times(self, value: float) -> str:
        """A ratio to two figures."""
        return self.number(float(f"{value:.2g}"))

    def share(self, value: float) -> str:
        """Percent of something that may well exceed it, such as a check strip: whole, and never called certain."""
        whole = Decimal(str(value)).quantize(Decimal(1), ROUND_HALF_UP)
        return (
            f"{self.manner['under']}{self.manner['percent'].format(1)}"
            if value < 1
            else str(self.manner["percent"].format(whole))
        )

    def unit(self, text: str) -> str:
        """A unit of a soil count as kept ("eggs per 250 cc") in this language."""
        what, _, soil = text.partition(" per ")
        size, _, name = soil.rpartition(" ") if soil[:1].isdigit() else ("", "", soil)
        name = self.tables["unit"].get(name.replace(" ", "_"), name)
        return self(f"unit.{what}", soil=f"{size} {name}".strip()) if what in self.tables["unit"] else text

    def comma(self, items: Iterable[Any]) -> str:
        """A list in its order."""
        return ", ".join(self.plain(each) for each in items)

    def span(self, first: date | str, last: date | str) -> str:
        """Two days as one range: 20-28 Jun, 28 Jun-3 Jul."""
        first, last = _date(first), _date(last)
        if first == last:
            return self.day(first)
        if (first.year, first.month) == (last.year, last.month):
            return f"{first.day}-{self.day(last)}"
        return f"{self.day(first)}-{self.day(last)}"

    def number(self, value: float) -> str:
        """Two figures that matter: 57, 2.8, 0.3, 0.05; the decimal mark is local."""
        if isinstance(value, int) or value == int(value) or abs(value) >= 10:
            text = f"{Decimal(str(value)).quantize(Decimal(1), ROUND_HALF_UP):,}"
            return text.replace(",", self.manner["thousands"])
        places = Decimal("0.1") if abs(value) >= 0.1 else Decimal("0.01")
        rounded = Decimal(str(value)).quantize(places, ROUND_HALF_UP)
        if rounded == rounded.to_integral_value() and abs(value) >= 0.1:
            rounded = rounded.quantize(Decimal(1))
        return str(rounded).replace(".", self.manner["decimal"])

    def percent(self, share: float) -> str:
        """A share 0-1 as whole percent."""
        return self.percents(share * 100)

    def percents(self, value: float) -> str:
        whole = int(Decimal(str(value)).quantize(Decimal(1), ROUND_HALF_UP))
        manner = str(self.manner["percent"])
        if value < 1:
            return f"{self.manner['under']}{manner.format(1)}"
        if 99 < value < 100.5:
            return f"{self.manner['over']}{manner.format(99)}"
        return str(manner.format(whole))

    def listed(self, items: Iterable[str], joiner: str = "and") -> str:
        """One, two and three; with joiner ``or``: one, two or three. Items that hold commas are parted by ``;``."""
        words = list(items)
        if len(words) < 2:
            return "".join(words)
        if any("," in word for word in words):
            return "; ".join(words)
        return f"{', '.join(words[:-1])} {self.manner[joiner]} {words[-1]}"

    def plain(self, value: Any) -> str:
        """Any value in the local manner."""
        if isinstance(value, Fact):
            return self.say(value)
        if isinstance(value, bool):
            return str(self.manner["yes" if value else "no"])
        if isinstance(value, datetime):
            local = value.astimezone(self.zone) if value.tzinfo else value
            return self.day(local) if (local.hour, local.minute) == (0, 0) else f"{self.day(local)} {local:%H:%M}"
        if isinstance(value, date):
            return self.day(value)
        if isinstance(value, int | float):
            return self.number(value)
        if isinstance(value, Interval):
            return f"{self.number(value.low)}-{self.number(value.high)}"
        if isinstance(value, list | tuple | set | frozenset):
            return self.listed(self.plain(each) for each in value)
        if isinstance(value, Mapping):
            return ", ".join(
                f"{self.name('part', str(name))} {self.part(str(name), each)}" for name, each in value.items()
            )
        if isinstance(value, str) and ISO_MOMENT.fullmatch(value):
            return self.plain(datetime.fromisoformat(value))
        if isinstance(value, str) and ISO_DAY.fullmatch(value):
            return self.day(value)
        return one_line(str(value))

    def part(self, name: str, value: Any) -> str:
        """A part of what was told, as `value`; a coordinate in full, about a metre, so that it can be checked."""
        if name in ("latitude", "longitude") and isinstance(value, int | float):
            return f"{value:.5f}".rstrip("0").rstrip(".")
        return self.value(value)

    def value(self, value: Any) -> str:
        """A value a person noted: a key such as ``shovel`` gets its word, anything else its local manner.

        Of several words ("roots dark, fine") each gets its own; the next look is told by its days or its day, what was
        sprayed by its name.
        """
        if isinstance(value, list | tuple):
            return self.listed([self.value(each) for each in value])
        if isinstance(value, dict) and "what" in value:
            return self.value(value["what"])
        if isinstance(value, dict):
            return self("value.in_days", days=value["days"]) if "days" in value else self.day(value["date"])
        if isinstance(value, str) and value in self.tables["value"]:
            return self.name("value", value)
        return self.plain(value)

    def say(self, fact: Fact) -> str:
        """The fact as a sentence. A key without words is said by its name: a bare word beats a lost answer."""
        missing = [f"{fact.key}_no_{name}" for name, value in fact.values.items() if value in NOTHING]
        for table in STATEMENTS:
            for key in (*missing, fact.key):
                if key in self.tables[table]:
                    return self.fill(self.tables[table][key], _Lenient(fact.values))
        told = ", ".join(f"{name.replace('_', ' ')} {self.plain(value)}" for name, value in fact.values.items())
        return fact.key.replace("_", " ") + (f": {told}" if told else "")


def one_line(text: str) -> str:
    """Text from outside, such as a name, on one line and without control characters."""
    return " ".join("".join(char if char.isprintable() else " " for char in text).split())


def _date(day: date | str) -> date:
    return date.fromisoformat(day[:10]) if isinstance(day, str) else day


@cache
def words(language: Language, zone: str = "UTC") -> Words:
    """The words of a language; moments are told in the zone."""
    return Words(language, zone)


def say(fact: Fact, language: Language) -> str:
    """The words for a fact, a key of the outlook, of a finding or of a deed done."""
    return words(language).say(fact)


class _Lenient(dict[str, Any]):
    """Values of a fact; one that was left out is said as ``?`` instead of losing the whole answer."""

    def __missing__(self, key: str) -> str:
        return "?"


class _Filling(string.Formatter):
    def __init__(self, speaker: Words) -> None:
        self.speaker = speaker

    def get_value(self, key: int | str, args: Any, kwargs: Any) -> Any:  # noqa: ARG002 - the base class's signature
        return kwargs[key]

    def format_field(self, value: Any, spec: str) -> str:
        speak = self.speaker
        if spec == "" or value == "?":
            return speak.plain(value)
        if spec in MANNERS:
            return str(getattr(speak, spec)(value))
        if spec == "either":
            return speak.listed([speak.plain(each) for each in value][:4], "or")
        if spec == "in value":
            return speak.value(value)
        if spec.startswith("in "):
            if isinstance(value, list | tuple):
                return speak.listed(speak.name(spec[3:], each) for each in value)
            return speak.name(spec[3:], str(value))
        counted, _, forms = spec.partition(" ")
        one, _, many = forms.partition("|")
        count = len(value) if isinstance(value, list | tuple) else value
        form = one if count == 1 or (isinstance(count, float) and speak.number(count) == "1") else many  # as written
        if counted == "n":
            return f"{speak.number(value)} {form}"
        if counted == "?":
            return form
        raise ValueError(f"unknown manner {spec!r}")
