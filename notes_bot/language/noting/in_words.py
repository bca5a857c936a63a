"""Free text, and females told in words only."""

from __future__ import annotations

import itertools
import re
from itertools import pairwise

from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.scan import scan
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.noting.page import CLAUSE, FEMALE_KINDS, SAID_BEFORE, Page, lead_of


def on_text(page: Page, fact: Fact) -> None:
    """Free text; a noun without its number says nothing."""
    if not _hearsay(page, fact) and ((fact.has("FEMALES") and _says_seen(page, fact)) or _with_females(page, fact)):
        page.saw = fact
        told = re.split(r"[.;!?\n]", page.context.text[fact.start : fact.end + SAID_BEFORE])[0]
        if page.table.said("guesses", told):
            page.complain("doubtful", fact)  # "vi umas bolinhas mas acho que era nódulo"
    said = page.context.text[fact.start : fact.end]
    opening = scan(said)[:2]
    if any(e.type in ("PH", "POTASSIUM") for x in opening for e in page.table.singles.get(x.text, ())):
        page.awaits = fact  # "pH on the last test was 7.4", "soil K on the sheet is 82 ppm"
    if fact.has("TEXT"):
        page.keep(fact)


def _hearsay(page: Page, fact: Fact) -> bool:
    """ "Grower says he has cysts": what somebody tells, and nobody saw on these roots."""
    clause = CLAUSE.split(lead_of(page.context.text, fact.start))[-1]
    return page.table.said("hearsay", clause + page.written(fact))


def _with_females(page: Page, fact: Fact) -> bool:
    """ "6 plants, with cysts on the roots, did not count": seen, where plants were dug."""
    words = [x.text for x in scan(page.context.text[fact.start : fact.end])]
    pairs = pairwise(words)
    females = any(
        lead in anywhere("with_word") and any(e.type == "FEMALES" for e in page.table.singles.get(noun, ()))
        for lead, noun in pairs
    )
    return females and page.scope.plants is not None and not any(page.table.has("denies", w) for w in words)


def _says_seen(page: Page, fact: Fact) -> bool:
    """Is there a word of seeing before "cysts" in its clause ("saw cysts", "hay quistes")?"""
    before = page.neighbour(fact, -1)
    start = max(before.end if before is not None and before.kind != "text" else 0, fact.start - 30)
    said = re.split(r"[.;,!\n]", page.context.text[start : fact.end])[-1]
    words = {x.text for x in scan(said)}
    said_behind = re.split(r"[.;,!\n]", page.context.text[fact.end : fact.end + 20])[0]
    told = itertools.takewhile(lambda x: not page.table.has("contrast", x.text), scan(said_behind)[:3])
    behind = {x.text for x in told}  # "cysts yes (but no count)"
    if behind & page.table.traits["seen_behind"]:
        words |= {"there", *(behind & anywhere("not_word"))}
    return bool(words & {*page.table.traits["seen"], "there"}) and not words & anywhere("not_seen")


def on_quoted(page: Page, fact: Fact) -> None:
    """Text in quotes is meant as words."""
    page.keep(fact)
    page.quoted.add(fact.start)


def told_in_words(page: Page) -> None:
    """Where nothing was counted: too many to count, or some seen, said in words of the writer's own."""
    vague = [f for f in page.facts if f.kind == "positive" or (f.kind == "shades" and not f.all("COLOUR"))]
    vague += [f for f in page.facts if f.kind == "each" and not f.numbers]  # "some on every plant"
    passed = {id(f) for f in vague}
    counted = any(f.kind in FEMALE_KINDS and id(f) not in passed for f in page.facts) or page.spots
    if counted or not page.facts or page.main.plants is None or page.saw is not None:
        return
    begins = page.facts[0].start if page.name is None else min(page.facts[0].start, page.name.end)
    text = page.context.text[begins : page.facts[-1].end]  # "No Kestrel (achamos) cistos": a little word, no fact
    for clause in re.split(r"(?<=[.;!?\n])| - ", text):
        words = [x.text for x in scan(clause)]
        counting = any(page.table.has("count_word", word) for word in words)
        if counting and page.table.said("past_counting", clause):
            page.main.too_many = True  # "covered so thick you cant count em"
            if page.not_looked is not None and page.written(page.not_looked) in clause:
                page.not_looked = None  # "abandoné el conteo"
            return
        females = any(page.means(word, "FEMALES") for word in words)
        told = [  # "bastante cisto em quase todos, não contei" denies counting only
            word
            for word, after in pairwise([*words, ""])
            if not (page.table.denies(word) and page.table.has("count_word", after))
        ]
        denied = any(page.table.denies(word) or page.table.has("seeks", word) for word in told)
        denied = denied or any(page.means(word, "NOT_LOOKED") or page.means(word, "NONE") for word in words)
        if page.table.said("before_now", clause):
            continue  # "SCN positive field from last year"
        some = females and not denied and page.not_looked is None and "?" not in clause
        if page.table.said("seen_alone", clause) or (some and page.table.said("some_there", clause)):
            page.saw = page.facts[0]  # "6 plants several cysts", "6 plants pos for scn"
