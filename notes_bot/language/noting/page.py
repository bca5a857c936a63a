"""The page of one note: its clauses, what they have told so far, and small questions about them."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Callable
from datetime import date
from itertools import pairwise, takewhile
from typing import cast

from notes_bot.language.clauses.context import Context
from notes_bot.language.clauses.counts import Scope
from notes_bot.language.clauses.facts import OF_FEMALES, Fact
from notes_bot.language.lexicon.scan import scan
from notes_bot.language.lexicon.words import Table, table
from notes_bot.model import LookAgain, Method, Moisture, Note, Spray, Variety

SAID_BEFORE = 60
"""Characters before a span in which it is said what will be then (judgement)."""
WIDER = 20
"""Characters before "as above" in which it is said what is the same (judgement)."""
FEMALE_KINDS = frozenset(OF_FEMALES)
CLAUSE = re.compile(r"[.;,!?\n]")
"""What ends a clause, as it is written."""
_CLAUSE_OR_DASH = re.compile(r"[.;,!?\n]| - ")


class Page:
    """One note in the making: its clauses, and what those read so far have told."""

    def __init__(self, context: Context, name: Fact | None, facts: list[Fact], header: list[Fact]) -> None:
        self.context = context
        self.name = name
        self.own = facts
        said = {fact.kind for n, fact in enumerate(facts) if not _of_another_day(facts, n)}
        if "not_looked" in said:
            said |= {"how", "soaked", "plants", "each"}  # what the heading says of digging is not said of it
        self.lay([fact for fact in header if fact.kind not in said] + facts)
        self.table: Table = table(context.language)
        self.main = Scope()
        self.spots: list[Scope] = []
        self.named_spots: dict[tuple[str, bool], Scope] = {}
        self.scope = self.main
        self.loose: list[tuple[int, int]] = []
        """Free text: slices of the message."""
        self.weighed = 0
        """How many of these were asked whether they tell that nobody looked."""
        self.undone: bool | None = None
        """What the first of these told of it; not known before one does."""
        self.quoted: set[int] = set()
        """Where of these what stands in quotes begins."""
        self.roots: set[str] = set()
        self.tops: dict[int, list[Fact]] = {}
        self.moistures: list[tuple[str, Moisture]] = []
        self.texture: str | None = None
        self.ph: float | None = None
        self.k_ppm: float | None = None
        self.stage: str | None = None
        self.date: date | None = None
        self.date_fact: Fact | None = None
        self.planted: date | None = None
        self.method: Method | None = None
        self.soaked: bool | None = None
        self.variety: Variety | None = None
        self.spray: Spray | None = None
        self.entry_hours: float | None = None
        self.look: LookAgain | None = None
        self.not_looked: Fact | None = None
        self.undug: Fact | None = None
        """A denial of digging: nobody looked, unless something was found all the same."""
        self.same: Fact | None = None
        self.alike: set[str] = set()
        """Things told to be the same as in the note above: soil, stage, method, plants, counts."""
        self.shaken = False
        """Told only that the roots were shaken off."""
        self.headed = any(f.kind == "plants" for f in self.facts[: len(self.facts) - len(facts)])
        self.pairs_told: bool | None = None
        """Do two numbers of a color make a list in this note? Not known before it is asked."""
        self.said: dict[int, list[str]] = {}
        """The words before a fact in its clause, by where it stands, once they were asked for."""
        self.ways: set[str | None] = set()
        """How plants counted so far came up."""
        self.each_place: int | None = None
        """Plants dug at every place, told once for all of them."""
        self.averaged: set[int] = set()
        self.strays: list[tuple[Fact, Scope, int]] = []
        """Numbers that stood alone, of which place, until all is told."""
        self.tooled = False
        """Was the tool named? Then a verb that only says they came up changes nothing."""
        self.awaits: Fact | None = None
        """A label whose number has not come yet."""
        self.told_in: Fact | None = None
        """A color already counted with the female it is said of."""
        self.summed_in: int | None = None
        """The sentence in which what all places had is told once more."""
        self.saw: Fact | None = None
        """Where females are said to be seen, without a number."""

    def lay(self, facts: list[Fact]) -> None:
        """The clauses of the note, each told its place."""
        self.facts = facts
        self.kinds: dict[str, list[Fact]] = {}
        """The clauses by kind, in order."""
        self.sentences: dict[int, list[Fact]] = {}
        """The clauses by the sentence they stand in, in order."""
        for n, fact in enumerate(facts):
            fact.at = n
            self.sentences.setdefault(self.context.sentence(fact), []).append(fact)
            self.kinds.setdefault(fact.kind, []).append(fact)
        self.in_order = all(one.start <= other.start for one, other in pairwise(facts))

    def told_before(self, fact: Fact, *kinds: str) -> bool:
        """Does a clause of one of these kinds stand before it?"""
        return any(told[0].at < fact.at for kind in kinds if (told := self.kinds.get(kind)))

    def behind(self, fact: Fact) -> Fact | None:
        """The first clause that begins behind it."""
        for n in range(fact.at + 1 if self.in_order else 0, len(self.facts)):
            if self.facts[n].start > fact.start:
                return self.facts[n]
        return None

    def complain(self, kind: str, fact: Fact, **values: object) -> None:
        """A problem at a clause."""
        self.context.complain(kind, fact.start, fact.end, **values)

    def keep(self, fact: Fact) -> None:
        """Into the free text, as written; a sign alone says nothing."""
        if any(ch.isalnum() or not ch.isascii() for ch in self.context.text[fact.start : fact.end]):
            self.loose.append((fact.start, fact.end))

    def written(self, fact: Fact) -> str:
        """A clause as written."""
        return self.context.text[fact.start : fact.end]

    def twice(self, what: str, fact: Fact, first: object, second: object) -> None:
        """Something is said in two ways."""
        self.complain("twice", fact, what=self.label(what), first=first, second=second)

    def label(self, what: str) -> str:
        """What we call a datum in the writer's language."""
        first = self.table.first
        return first.get(("WRITTEN_LABEL", what)) or first.get(("COLOUR", what), what)

    def whole(self, fact: Fact, value: float) -> int | None:
        """A count as a whole number, or a complaint."""
        if value == int(value):
            return int(value)
        self.complain("not_whole", fact)
        return None

    def wholes(self, fact: Fact) -> tuple[int, ...] | None:
        """All numbers of a clause as whole numbers, or a complaint."""
        found = [self.whole(fact, value) for value in fact.numbers]
        return None if None in found else cast(tuple[int, ...], tuple(found))

    def neighbour(self, fact: Fact, step: int) -> Fact | None:
        """The clause before or behind."""
        n = fact.at + step
        return self.facts[n] if 0 <= n < len(self.facts) else None

    @property
    def visit_day(self) -> date:
        """The day other days are counted from."""
        return self.date or self.context.sent

    def before_in_sentence(self, fact: Fact) -> list[Fact]:
        """The clauses of its sentence before it."""
        return list(takewhile(lambda other: other.at < fact.at, self.in_sentence(fact)))

    def overlapping(self, start: int, end: int) -> list[Fact]:
        """The clauses that begin before an end and, where they stand in order, not all of them before the start."""
        if not self.in_order:
            return [f for f in self.facts if f.start < end]
        first, last = (bisect_left(self.facts, at, key=lambda f: f.start) for at in (start, end))
        return self.facts[max(0, first - 1) : last]

    def since(self, kind: str, at: int) -> list[Fact]:
        """The clauses of a kind that begin there or behind, in order."""
        told = self.kinds.get(kind, [])
        if not self.in_order:
            return [f for f in told if f.start >= at]
        return told[bisect_left(told, at, key=lambda f: f.start) :]

    def in_sentence(self, fact: Fact) -> list[Fact]:
        """The clauses of its sentence, with it."""
        return self.sentences.get(self.context.sentence(fact), [])

    def said_before(self, fact: Fact) -> list[str]:
        """The words of its clause before it."""
        if fact.start not in self.said:
            clause = _CLAUSE_OR_DASH.split(lead_of(self.context.text, fact.start))[-1]
            self.said[fact.start] = [x.text for x in scan(clause)]
        return self.said[fact.start]

    def over_fields(self, fact: Fact, told: Callable[[Note], int | None], own: int | None, count: int) -> bool:
        """ "That's 6 plants and 3 white": as many as all notes so far have together? It is kept as text."""
        if own is None or own == count:
            return False
        sum_ = own
        for note in self.context.notes:
            other = told(note)
            if other is None or sum_ > count:
                return False
            sum_ += other
        over = sum_ == count
        if over:
            self.keep(fact)
            self.quoted.add(fact.start)
        return over

    def means(self, word: str, kind: str) -> bool:
        """Is it one of the words of a kind?"""
        return any(entry.type == kind for entry in self.table.singles.get(word, ()))

    def unquoted(self) -> list[tuple[int, int]]:
        """Free text that does not stand in quotes."""
        return [(start, end) for start, end in self.loose if start not in self.quoted]

    def free_text(self) -> str:
        """Fragments in the order written; what stood together stays together."""
        out: list[str] = []
        last = -1
        for start, end in sorted(set(self.loose)):
            gap = self.context.text[last:start] if last >= 0 else "."
            if gap.strip() == "" and "\n" not in gap and out:
                out[-1] += gap + self.context.text[start:end]
            else:
                out.append(self.context.text[start:end])
            last = end
        return "; ".join(" ".join(part.split()) for part in out)


def lead_of(text: str, at: int) -> str:
    """What is said right before a place of the text, from a whole word on."""
    start = max(0, at - SAID_BEFORE)
    return text[start:at] if not start or text[start - 1].isspace() else text[start:at].partition(" ")[2]


def _of_another_day(facts: list[Fact], n: int) -> bool:
    """ "El 2/1 le aplicaron herbicida", "amanhã volto": a day of a spray, or to come, and not the visit's."""
    fact, behind = facts[n], facts[n + 1] if n + 1 < len(facts) else None
    if fact.kind != "date":
        return False
    days = fact.first("DATE").days_ago
    if days is not None and days < 0:
        return True
    return (
        behind is not None and behind.kind == "spray" and behind.lead in ("", "link") and not behind.has("DATE", "SPAN")
    )
