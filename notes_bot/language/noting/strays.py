"""Numbers that stood alone, once all is told: "so 9 seems like a lot", "combo used to be 4412"."""

from __future__ import annotations

import re
from collections import Counter

from notes_bot.language.clauses.counts import Scope
from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.scan import scan
from notes_bot.language.noting.outcome import left_undone
from notes_bot.language.noting.page import CLAUSE, SAID_BEFORE, Page

SHORTEST_WORD = 3
"""Letters from which a word says something of its own (judgement)."""
LARGE = 100
"""A number from which one standing alone, behind what was counted, counts no females of a few plants (judgement)."""
_ENDS = re.compile(r"[.;!?\n]|,(?!\d{3}(?!\d))| - ")
"""What ends a clause; the comma of "118,000" does not."""
_OURS = frozenset(
    {"COLOUR", "FEMALES", "PLANTS", "DUG", "TOOL", "NONE", "NOT_LOOKED", "TOTAL", "EACH", "CHECK", "POSITIVE"}
    | {"MOSTLY", "NTH", "ORDINAL", "ROOTS", "LOOK", "TOO_MANY", "OVER", "STRIP"}
)
"""Kinds of word beside which a number may count after all."""
_BESIDE = frozenset({"per_plant", "text", "tops"})
"""Kinds of clause that may stand in the same sentence part: its words, its other numbers, "the stand"."""
_COUNTING = ("counted", "did_plants", "rest_word", "sums_up", "makes_sum", "them", "no_wait")
"""Manners of words beside which a number may count after all, or put another right."""


def settle_strays(page: Page) -> None:
    """Numbers that stood alone: told already, the total of plants whose color comes behind, or asked about."""
    of_scope = Counter(id(scope) for _, scope, _ in page.strays)
    for fact, scope, number in page.strays:
        if _told_already(page, fact, scope, number):
            page.keep(fact)
        elif of_scope[id(scope)] == 1 and _shaded_behind(page, fact, scope):
            scope.total = number  # "dug 8, washed, 12, mostly yellow"
            scope.counts.append(fact)
        elif _of_something_else(page, fact, number):
            page.keep(fact)  # "combo used to be 4412"
        else:
            page.complain("stray_number", fact, number=number)


def _told_already(page: Page, fact: Fact, scope: Scope, number: int) -> bool:
    """ "2 white ones. TWO!", "9 females .. so 9 seems like a lot", "30, that's 10 w 12 y 8 t"."""
    shades = list(scope.colours.values())
    if len(shades) > 1 and number == sum(shades):
        return True
    averaged = scope.plants is not None and None in scope.averages and scope.averages[None] * scope.plants == number
    return averaged or (number in {scope.total, sum(shades), *shades} and _spoken_of(page, fact))


def _spoken_of(page: Page, fact: Fact) -> bool:
    """Does a number stand in a sentence of its own that says something of it, or with an exclamation mark?"""
    behind = CLAUSE.split(page.context.text[fact.end : fact.end + SAID_BEFORE])[0]
    if page.context.text[fact.end :].lstrip()[:1] == "!":
        return True
    words = [x.text for x in scan(behind) if x.kind == "word"]
    return any(page.table.has("talk_judges_count", " ".join(words[:size])) for size in (1, 2, 3))


def _shaded_behind(page: Page, fact: Fact, scope: Scope) -> bool:
    """Does the clause behind the only number of plants counted tell their colors?"""
    behind = page.neighbour(fact, 1)
    shaded = (
        behind is not None and behind.kind == "shades" and behind.has("COLOUR") and behind.lead in ("soft", "link", "")
    )
    apart = fact.lead in ("soft", "", "link", "colon")
    return shaded and apart and scope.plants is not None and bool(scope.mostly) and not scope.counted


def _of_something_else(page: Page, fact: Fact, number: int) -> bool:
    """ "Combo used to be 4412", "stand more like 110", once it is told what was seen: nobody has to explain it."""
    if number < LARGE or not _outcome_told(page):
        return False
    start, end = _clause(page, fact)
    if any(f is not fact and f.kind not in _BESIDE and f.end > start for f in page.overlapping(start, end)):
        return False
    lexemes = [x for x in scan(page.context.text[start:end]) if x.kind == "word"]
    words = [x.text for x in lexemes]
    if any(_may_count(page, word) for word in words):
        return False
    said = [word for word in words if len(word) >= SHORTEST_WORD]
    return bool(said)


def _outcome_told(page: Page) -> bool:
    """Is it told what was seen on the roots, or that nobody looked?"""
    seen = any(scope.said or scope.total is not None for scope in (page.main, *page.spots))
    return seen or page.not_looked is not None or page.undug is not None or left_undone(page)


LONGEST_CLAUSE = 400
"""Letters before and behind a number that are looked at for where its clause ends, at most (judgement)."""


def _clause(page: Page, fact: Fact) -> tuple[int, int]:
    """Where the clause of a number begins and ends, as it is written."""
    text = page.context.text
    first, last = max(0, fact.start - LONGEST_CLAUSE), fact.end + LONGEST_CLAUSE
    start = max((m.end() for m in _ENDS.finditer(text, first, fact.start)), default=first)
    behind = _ENDS.search(text, fact.end, last)
    return start, behind.start() if behind else min(last, len(text))


def _may_count(page: Page, word: str) -> bool:
    """Is it a word beside which a number may be a count of ours?"""
    ours = any(entry.type in _OURS and not entry.slip for entry in page.table.singles.get(word, ()))
    return ours or any(page.table.has(manner, word) for manner in _COUNTING)
