"""What stands around a clause: words it goes on from, a word that puts right, a deed only meant."""

from __future__ import annotations

import re

from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.scan import fold, scan
from notes_bot.language.lexicon.words import COMMAND_TYPES, Table
from notes_bot.language.noting.page import Page, lead_of


def tied_to_text(page: Page, fact: Fact) -> bool:
    """Does the clause continue free text right before it ("rained 6/8")?"""
    before = page.neighbour(fact, -1)
    if before is not None and page.name is not None and before.end <= page.name.start < fact.start:
        return False  # "nos agarró la lluvia. Lote 7 el martes"
    tied = before is not None and before.kind == "text" and fact.lead in ("", "link") and before.end <= fact.start
    return tied and before is not None and not _reports(page, before)


def _reports(page: Page, fact: Fact) -> bool:
    """ "Informo que (el 14/7 se sacaron ..)": words that only say that a report follows."""
    words = [x.text for x in scan(page.context.text[fact.start : fact.end]) if x.kind == "word"]
    that = bool(words) and page.table.has("that_word", words[-1])
    return that and any(page.table.has("reports_that", word) for word in words)


def amended(page: Page, fact: Fact, old: object) -> bool:
    """Do the words before say that the writer corrects himself ("6 plants .. wait no 7 plants")?"""
    said = re.split(r"[\n]", lead_of(page.context.text, fact.start))[-1]
    words = [x.text for x in scan(said) if x.kind == "word"]
    amends = _amends(page, words)
    while not amends and words and (is_link(words[-1], page.table) or page.table.has("beside_repair", words[-1])):
        words.pop()  # "no perdón, el trece", "oops my bad, it was 9"
        amends = _amends(page, words)
    if amends:
        page.context.mention("amended", fact.start, fact.end, old=old)
    return amends


def _amends(page: Page, words: list[str]) -> bool:
    """Do words end with one that puts right?"""
    ends = [" ".join(words[-size:]) for size in (1, 2, 3) if len(words) >= size]
    return any(page.table.has(manner, end) for end in ends for manner in ("amends", "repairs"))


def is_link(word: str, made: Table) -> bool:
    """Is it a little word only?"""
    types = {entry.type for entry in made.singles.get(word, ())}
    return "LINK" in types and types <= COMMAND_TYPES | {"LINK", "ABOUT"}


def _look_told(page: Page, look: Fact, fact: Fact) -> bool:
    """Is the next look told whole, its time too, before plants told of this one, or behind a comma before washing?"""
    if look.kind != "look_again" or not look.has("LOOK") or not look.has("SPAN", "DATE") or look.end > fact.start:
        return False
    dug = any(look.end <= f.start <= fact.start for f in page.since("plants", look.end))
    return dug or (fact.kind == "soaked" and fact.lead == "soft")


def _clause_done(page: Page, fact: Fact) -> int | None:
    """ "Vuelvo en 15 días, cavé diez plantas": where the clause begins that tells what was done, no plan in it.

    Behind a comma and a next look with its time: a verb that is no plan, or plants; ``None`` for no such clause.
    """
    first = fact.at
    while first and page.facts[first].lead != "soft":
        first -= 1
    behind = first + 1
    while behind < len(page.facts) and page.facts[behind].lead not in ("soft", "hard", "line"):
        behind += 1
    looks = (f for f in page.facts[:first] if f.kind == "look_again" and f.has("SPAN", "DATE"))
    look = next((f for f in looks if not re.search(r"[.;!?\n]", page.context.text[f.end : fact.start])), None)
    if look is None or page.facts[first].lead != "soft":
        return None
    clause = page.facts[first:behind]
    dug = (f for f in clause if f.has("DUG") and f.first("DUG") != "any")
    verbs = [fold(page.context.text[f.start : f.end]).split(" ")[0] for f in dug]
    told = page.facts[first : behind + 1] if fact.kind == "how" else clause
    done = any(f.kind == "plants" for f in told) or any(not page.table.has("digs_then", verb) for verb in verbs)
    planned = any(page.table.has("digs_then", verb) for verb in verbs)
    return page.facts[first].start if done and not planned else None


def somebody_dug(page: Page, day: Fact) -> bool:
    """ "Hoy entró la hija del dueño: 6 plantas", "yesterday my brother dug 6": another's day, and the visit's."""
    after = next((fact for fact in page.facts if fact.start > day.start and fact.kind != "text"), None)
    if after is None or after.kind not in ("plants", "how"):
        return False
    if re.search(r"[.;!?\n]", page.context.text[day.end : after.start]):
        return False  # "The neighbor is spraying today. Kestrel 5 plants none"
    return after.lead in ("", "link", "colon") or (after.lead == "soft" and after.has("DUG"))


def intended(page: Page, fact: Fact) -> bool:
    """ "Need to go back w/ shovel", "la próxima traigo pala": what is meant for another day was not done."""
    if not page.context.may_say("intends"):
        return False
    sentence = re.split(r"[.;!?\n]", lead_of(page.context.text, fact.start))[-1]
    begins = fact.start - len(sentence)
    if (done := _clause_done(page, fact)) is not None:
        sentence = page.context.text[done : fact.start]
    elif looks := [f.end for f in page.since("look_again", begins) if _look_told(page, f, fact)]:
        sentence = page.context.text[looks[-1] : fact.start]  # "volver en 10 días, 6 plantas con pala": done
    elif "," in sentence:
        sentence = page.context.text[_plants_from(page, fact, begins) : fact.start]
    for stage in page.since("stage", begins):
        if stage.start < fact.start:  # "R2 going to R3": only the crop goes on
            sentence = sentence.replace(page.context.text[stage.start : stage.end], "")
    return page.table.said("intends", sentence)


def _plants_from(page: Page, fact: Fact, begins: int) -> int:
    """ "Taller than they should be, 5 plants with the spade, washed": where the clause of the plants dug begins.

    What was meant before its comma is no matter of theirs; where none are told, the place given.
    """
    text = page.context.text
    plants = [f.start for f in page.since("plants", begins)]
    stop = re.compile(r"[.,;!?\n]").search(text, fact.end)
    near = [at for at in plants if at <= fact.start or stop is None or at <= stop.start()]
    return max(begins, text.rfind(",", begins, near[-1]) + 1) if near else begins
