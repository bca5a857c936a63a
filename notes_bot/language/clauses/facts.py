"""The parser: lark's LALR over typed tokens, and the transformer that turns each clause into one plain fact."""

from __future__ import annotations

import contextlib
import sys
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

from lark import Lark, Transformer
from lark.grammar import NonTerminal, Rule
from lark.parsers.lalr_analysis import Reduce

from notes_bot.language.clauses.lexer import NoteLexer
from notes_bot.language.lexicon.kept import place
from notes_bot.language.lexicon.tokens import Draft, Word


@dataclass(slots=True)
class Fact:
    """One clause: the rule's name, its words by type, its numbers, and where it stands."""

    kind: str
    words: list[Word]
    start: int
    end: int
    at: int = 0
    """Its index among the clauses of its note."""
    shared: bool = False
    """Was it told beside other fields of the note's own?"""

    def all(self, type_: str) -> list[Any]:
        """Values of every word of a type, in order."""
        return [word.value for word in self.words if word.type == type_]

    def first(self, type_: str) -> Any:
        """Value of the first word of a type, or ``None``."""
        for word in self.words:
            if word.type == type_:
                return word.value
        return None

    @property
    def numbers(self) -> list[Any]:
        """The run of numbers in the clause."""
        return self.all("NUMBER")

    @property
    def lead(self) -> str:
        """What stands before the clause."""
        return self.words[0].lead if self.words else ""

    def has(self, *types: str) -> bool:
        """Is a word of one of these types in it?"""
        return any(word.type in types for word in self.words)


def _fact(kind: str) -> Callable[[Any, list[Any]], Fact]:
    def build(_: Any, children: list[Any]) -> Fact:
        words: list[Word] = []
        for child in children:
            words.extend(child) if isinstance(child, list) else words.append(child)
        return Fact(kind, words, words[0].start, words[-1].end)

    return build


class Facts(Transformer):  # type: ignore[type-arg]
    """One method per rule of note.lark, all alike: tokens in, a :class:`Fact` out."""

    def run(self, children: list[Any]) -> list[Word]:
        """A run is only its numbers: the first of them, or those so far and one more."""
        return _grown(children) if isinstance(children[0], list) else children

    def start(self, children: list[Any]) -> list[Fact]:
        """A message is its clauses: none yet, or those so far and one more, of which a break is none."""
        return _grown(children) if children else children


def _grown(children: list[Any]) -> list[Any]:
    """A list, and what is added to it."""
    grown: list[Any] = children[0]
    grown += children[1:]
    return grown


OF_FEMALES = (
    *("colour_count", "colour_series", "total_count", "per_plant", "each", "none", "too_many", "shades", "positive"),
    "mark",
)
"""Facts that count or color females."""
RULES = (
    *("field", "date", "ago", "planted", "after_planting", "plants", "how", "soaked", "same", "not_looked"),
    *OF_FEMALES,
    *("spot", "check", "moisture", "texture", "acidity", "potassium", "stage", "roots", "nodules", "tops", "variety"),
    *("spray", "entry", "look_again", "refused", "text", "quoted", "courtesy"),
)
for _name in RULES:
    setattr(Facts, _name, _fact(_name))


@cache
def parser() -> Lark:
    """The LALR parser of note.lark, built once."""
    grammar = (files("notes_bot.grammar") / "note.lark").read_text("utf-8")
    path = place("grammar.pickle")
    kept: bool | str = path is not None and str(path)
    made = Lark(grammar, parser="lalr", lexer=NoteLexer, transformer=Facts(), maybe_placeholders=False, cache=kept)
    with contextlib.suppress(AttributeError):  # where another lark has its table elsewhere, it stays as it is
        _compared_at_once(made)
    return made


class _Step:
    """A rule as lark's table knows it, but one that is only equal to itself."""

    __slots__ = ("expansion", "origin")

    def __init__(self, rule: Rule) -> None:
        self.expansion = rule.expansion
        self.origin = NonTerminal(sys.intern(str(rule.origin.name)))


def _compared_at_once(made: Lark) -> None:
    """Plain words and steps in lark's table in the place of its own, which Python compares at every look into it."""
    inner: Any = made.parser.parser.parser
    steps = {rule: _Step(rule) for rule in inner.callbacks}
    done = {id(rule): (Reduce, step) for rule, step in steps.items()}
    states = {
        state: {sys.intern(str(word)): done.get(id(deed[1]), deed) for word, deed in row.items()}
        for state, row in inner.parse_table.states.items()
    }
    inner.parse_table.states, inner.callbacks = states, {step: inner.callbacks[rule] for rule, step in steps.items()}


def parse(draft: Draft) -> list[Fact]:
    """All clauses of a draft, in order. The grammar accepts every sequence of tokens, so this does not fail."""
    facts: list[Fact] = parser().parse(draft)  # type: ignore[assignment]
    return facts
