"""What is told of others, or of another time than this visit."""

from __future__ import annotations

import re

from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.scan import fold, scan
from notes_bot.language.noting.around import somebody_dug
from notes_bot.language.noting.page import CLAUSE, SAID_BEFORE, Page, lead_of

SUBJECT = 4
"""Words of a clause, fewer than these and this, in which its subject stands (judgement)."""
_OF_A_CROP = frozenset({"stage", "tops", "shades"})
"""What may be told of another crop."""


_OF_OTHERS = ("other_place", "story_word", "other_crop", "neighbor_word", "other_subject")
"""Manners of words without which nothing is told of others."""


def of_others(page: Page, fact: Fact) -> bool:
    """ "The neighbor is spraying today", "my daughter turns six on saturday": told of others, not of this field."""
    if fact.shared or not page.context.may_say(*_OF_OTHERS):
        return False
    before = re.split(r"[.;,:!?\n]", lead_of(page.context.text, fact.start))[-1]
    behind = re.split(r"[.;,:!?\n]", page.context.text[fact.end : fact.end + SAID_BEFORE])[0]
    if page.name is not None and fact.start - len(before) <= page.name.start <= fact.end + len(behind):
        return False
    if fact.kind == "date" and somebody_dug(page, fact):
        return False
    opening = [x.text for x in scan(before)]
    opening = opening or ([x.text for x in scan(behind)] if fact.kind == "date" else [])
    if page.table.said("other_place", before):
        return True  # "beans across the fence are yellow as can be"
    words = [x.text for x in scan(before + " " + behind)]
    if fact.kind == "date" and any(page.table.has("story_word", word) for word in words):
        own = any(page.table.has(trait, word) for word in words for trait in ("we_word", "visit_verb"))
        return not own  # "el lunes es feriado"
    if fact.kind in _OF_A_CROP and any(page.table.has("other_crop", word) for word in opening[:SUBJECT]):
        return True  # "corn is at V10 next door"
    if page.table.said("seen_from", before):
        return False  # "tops from the truck looked healthy"
    subject = "neighbor_word" if fact.kind == "spray" else "other_subject"
    subjects = [n for n, word in enumerate(opening[:SUBJECT]) if page.table.has(subject, word)]
    if subjects and _named_so(page, f"{before} {behind}", [opening[n] for n in subjects]):
        return False  # "Kestrel and Dry Creek yesterday"
    if not any(not _lies_there(page, opening, n) for n in subjects):
        return False  # "by the pond the beans are short": where, and not what of
    return not any(page.table.has(trait, word) for word in words for trait in ("we_word", "visit_verb"))


def _named_so(page: Page, before: str, words: list[str]) -> bool:
    """Is each of these words part of a field's name that stands there?"""
    low = fold(before)
    named = {word for name in page.context.fields if (told := fold(name)) in low for word in told.split(" ")}
    return named.issuperset(words)


def _lies_there(page: Page, words: list[str], n: int) -> bool:
    """ "Near the creek", "perto do açude": is the word where something is?"""
    before = words[max(0, n - 3) : n]
    runs = (" ".join(before[at:end]) for at in range(len(before)) for end in range(at + 1, len(before) + 1))
    return any(page.table.has("lies_by", run) for run in runs)


def of_the_past(page: Page, fact: Fact) -> bool:
    """ "Last week had 12 white, today only 4": what its clause says was counted another time."""
    if not page.context.may_say("before_now"):
        return False
    clause = CLAUSE.split(_lead_without_day(page, fact))[-1].strip()
    if page.table.has("compared_to", fold(clause.split(" ")[-1])):
        return False  # "from 3 white last week to 11"
    return page.table.said("before_now", clause) and not _since_then(page, clause)


def _since_then(page: Page, clause: str) -> bool:
    """ "Last time was 4 now 13 white and (2 yellow)": is a word for now the last told of a time?"""
    words = [x.text for x in scan(clause)]
    told = range(len(words), 0, -1)
    end = next((n for n in told if page.table.has_any("now_told", (words[n - 1], " ".join(words[n - 2 : n])))), 0)
    return bool(end) and not page.table.said("before_now", " ".join(words[end:]))


def _lead_without_day(page: Page, fact: Fact) -> str:
    """What stands before it, without the day of the visit: "last week thursday we looked at 6 plants"."""
    lead, day = lead_of(page.context.text, fact.start), page.date_fact
    begin = -1 if day is None else len(lead) - (fact.start - day.start)
    if day is None or begin < 0 or day.end > fact.start:
        return lead
    return lead[:begin] + lead[begin + day.end - day.start :]


def now_again(page: Page, fact: Fact) -> bool:
    """ "From 3 white last week to 11 today on 5 plants": is a day of now told since?"""
    return any(page.means(word, "TODAY") for word in page.said_before(fact))
