"""Facts of one note to a Note: one method for each rule of note.lark, then the parts are put together."""

from __future__ import annotations

import itertools
import re
from bisect import bisect_right
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise, takewhile
from typing import cast

from notes_bot.language.context import Context
from notes_bot.language.counts import Scope
from notes_bot.language.days import PLANTED_DAYS, DayWritten, coming_day, past_day
from notes_bot.language.facts import OF_FEMALES, Fact
from notes_bot.language.mending import ordinary, without_vowels
from notes_bot.language.mistakes import place
from notes_bot.language.scan import Lexeme, fold, scan
from notes_bot.language.times import MOST_PLANTS
from notes_bot.language.tokens import Word
from notes_bot.language.words import COMMAND_TYPES, NEAR_TYPES, Table, anywhere, near_words, table
from notes_bot.model import (
    COLOURS,
    Colour,
    Females,
    LookAgain,
    Method,
    Moisture,
    Note,
    Outcome,
    Resistance,
    Soil,
    Spot,
    Spray,
    Variety,
)

ROOT_WORDS = (
    *("white", "dark", "fine", "stubby", "snapped", "nodules_few", "nodules_many", "nodules_pink", "nodules_brown"),
)
TOP_WORDS = (
    *(
        "healthy",
        "yellow",
        "interveinal_new",
        "edges_old",
        "flash_bands",
        "stunted",
        "uneven",
        "patch",
        "ring",
        "wilted",
    ),
    "early_ripe",
)
TAN_DAYS = 24
"""Tan or brown females sooner than this after planting contradict the cycle (judgement from a 28-day generation)."""
LONGEST_BESIDE = 3
"""Words that may lead to a neighbor's name, "next to the" (judgement)."""
SAID_BEFORE = 60
"""Characters before a span in which it is said what will be then (judgement)."""
WIDER = 20
"""Characters before "as above" in which it is said what is the same (judgement)."""
APART = 12
"""Characters between "dry" and "wet" with which one is no turn of the other (judgement)."""
NEAR_WORDS = 3
"""Words before a stage that may say that it is one to come, "will recheck at R2" (judgement)."""
SAID_BEHIND = 18
"""Characters behind "same" in which it is said what is the same: "same stage and method" (judgement)."""
MOST_SAID_OF_NOTHING = 7
"""Words beside a field's name, little ones too, from which a note that says nothing is asked about (judgement)."""
MANY_WORDS = 2
"""Words beside a field and nothing that we read: the writer meant something we did not understand (judgement)."""
WETTER = ("dry", "moist", "wet")
WEAKER: dict[Method, int] = {"shovel": 0, "pulled": 1, "eased": 2}
"""When two ways are said, the more particular one counts: "dug" alone is only the everyday word."""
Placed = tuple[Scope, Females, tuple[int, ...] | None]

_OF_FEMALES = frozenset(OF_FEMALES)
LEAST_SUMMED = 2
"""Places whose plants may be told together behind the last of them."""
_OF_SPRAYING = frozenset({"spray", "date", "field", "text", "entry"})
"""What a sentence holds that tells of a spray only."""


SUBJECT = 4
"""Words of a clause, fewer than these and this, in which its subject stands (judgement)."""
_IN_PASSING = frozenset({"date", "moisture", "tops", "texture", "shades", "too_many", "spray", "stage"})
"""What is dropped where it is told of others."""
_OF_A_CROP = frozenset({"stage", "tops", "shades"})
"""What may be told of another crop."""


_CLAUSE = re.compile(r"[.;,!?\n]")
"""What ends a clause, as it is written."""
_CLAUSE_OR_DASH = re.compile(r"[.;,!?\n]| - ")


WITH_NEAR = 5
"""Words in which "6 plants with" is told (judgement)."""


_ALIKE = {"stage": "stage_word", "soil": "soil_word", "method": "method_word", "seed": "seed_named"}
"""What may be the same as in the note above, and the manner of its words."""


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


class NoteMaker:
    """Gathers one note."""

    def __init__(self, context: Context, name: Fact | None, facts: list[Fact], header: list[Fact]) -> None:
        self.context = context
        self.name = name
        self.own = facts
        said = {fact.kind for n, fact in enumerate(facts) if not _of_another_day(facts, n)}
        if "not_looked" in said:
            said |= {"how", "soaked", "plants", "each"}  # what the heading says of digging is not said of it
        self.facts = [fact for fact in header if fact.kind not in said] + facts
        for n, fact in enumerate(self.facts):
            fact.at = n
        self.table: Table = table(context.language)
        self.main = Scope()
        self.spots: list[Scope] = []
        self.named_spots: dict[tuple[str, bool], Scope] = {}
        self.scope = self.main
        self.loose: list[tuple[int, int]] = []
        """Free text: slices of the message."""
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
        self.tooled = False
        """Was the tool named? Then a verb that only says they came up changes nothing."""
        self.awaits: Fact | None = None
        """A label whose number has not come yet."""
        self.told_in: Fact | None = None
        """A color already counted with the female it is said of."""
        self.saw: Fact | None = None
        """Where females are said to be seen, without a number."""

    def make(self) -> Note:
        """The note; complaints and remarks go to the context."""
        asides = [fact for fact in self.facts if fact.kind in _IN_PASSING and self._of_others(fact)]
        self.facts = [fact for fact in self.facts if fact not in asides]
        for n, fact in enumerate(self.facts):
            fact.at = n
        for fact in asides:
            self.keep(fact)
            self.quoted.add(fact.start)
        self._find_day()
        self.averaged = self._find_averaged()
        past = [fact for fact in self.facts if fact.kind in _OF_FEMALES and self._of_the_past(fact)]
        plants = [f for f in self.facts if f.kind == "plants"]
        then = [f for f in plants if self._of_the_past(f) and not self._now_again(f)]
        past += then if len(then) < len(plants) or past else []  # "last week: 6 plants, 3 white" is a late note
        for fact in self.facts:
            if fact in past:
                self.keep(fact)
                self.quoted.add(fact.start)
            else:
                getattr(self, "on_" + fact.kind)(fact)
        told = [fact for fact in past if fact.kind in _OF_FEMALES]
        if told and not any(fact.kind in _OF_FEMALES for fact in self.facts if fact not in past):
            self.complain("doubtful", told[0])
        self._told_in_words()
        for scope in self.spots if self.each_place is not None else ():
            scope.plants = self.each_place if scope.plants is None else scope.plants
        for scope in (self.main, *self.spots):
            inherited = self.main.plants if not self.spots else None
            scope.spread_averages(self.context, scope.plants if scope.plants is not None else inherited)
        return self._note()

    def _told_in_words(self) -> None:
        """Where nothing was counted: too many to count, or some seen, said in words of the writer's own."""
        vague = [f for f in self.facts if f.kind == "positive" or (f.kind == "shades" and not f.all("COLOUR"))]
        counted = any(f.kind in _OF_FEMALES and f not in vague for f in self.facts) or self.spots
        if counted or not self.facts or self.main.plants is None or self.saw is not None:
            return
        begins = self.facts[0].start if self.name is None else min(self.facts[0].start, self.name.end)
        text = self.context.text[begins : self.facts[-1].end]  # "No Kestrel (achamos) cistos": a little word, no fact
        for clause in re.split(r"(?<=[.;!?\n])| - ", text):
            words = [x.text for x in scan(clause)]
            counting = any(self.table.has("count_word", word) for word in words)
            if counting and self.table.said("past_counting", clause):
                self.main.too_many = True  # "covered so thick you cant count em"
                if self.not_looked is not None and self._written(self.not_looked) in clause:
                    self.not_looked = None  # "abandoné el conteo"
                return
            females = any(self._means(word, "FEMALES") for word in words)
            told = [  # "bastante cisto em quase todos, não contei" denies counting only
                word
                for word, after in pairwise([*words, ""])
                if not (self.table.denies(word) and self.table.has("count_word", after))
            ]
            denied = any(self.table.denies(word) or self.table.has("seeks", word) for word in told)
            denied = denied or any(self._means(word, "NOT_LOOKED") or self._means(word, "NONE") for word in words)
            if self.table.said("before_now", clause):
                continue  # "SCN positive field from last year"
            some = females and not denied and self.not_looked is None and "?" not in clause
            if self.table.said("seen_alone", clause) or (some and self.table.said("some_there", clause)):
                self.saw = self.facts[0]  # "6 plants several cysts", "6 plants pos for scn"

    def _none_free(self, fact: Fact) -> bool:
        """ "Not one of the 6 plants was free of cysts", "no se salvó ninguna": none without, and so all with."""
        before = _CLAUSE.split(lead_of(self.context.text, fact.start))[-1]
        behind = _CLAUSE.split(self.context.text[fact.end : fact.end + SAID_BEFORE])[0]
        said = [x.text for x in scan(before + " " + behind)]
        own = [x.text for x in scan(self._written(fact))]
        if any(self.table.has("free_word", word) for word in own):
            return any(self._means(x.text, "NONE") or self.table.denies(x.text) for x in scan(before))
        return any(self.table.has("free_word", word) for word in said)

    # --- small helpers

    def complain(self, kind: str, fact: Fact, **values: object) -> None:
        """A problem at a clause."""
        self.context.complain(kind, fact.start, fact.end, **values)

    def keep(self, fact: Fact) -> None:
        """Into the free text, as written; a sign alone says nothing."""
        if any(ch.isalnum() or not ch.isascii() for ch in self.context.text[fact.start : fact.end]):
            self.loose.append((fact.start, fact.end))

    def _written(self, fact: Fact) -> str:
        """A clause as written."""
        return self.context.text[fact.start : fact.end]

    def twice(self, what: str, fact: Fact, first: object, second: object) -> None:
        """Something is said in two ways."""
        self.complain("twice", fact, what=self.label(what), first=first, second=second)

    def _amended(self, fact: Fact, old: object) -> bool:
        """Do the words before say that the writer corrects himself ("6 plants .. wait no 7 plants")?"""
        said = re.split(r"[\n]", lead_of(self.context.text, fact.start))[-1]
        words = [x.text for x in scan(said) if x.kind == "word"]
        amends = self._amends(words)
        while not amends and words and (is_link(words[-1], self.table) or self.table.has("beside_repair", words[-1])):
            words.pop()  # "no perdón, el trece", "oops my bad, it was 9"
            amends = self._amends(words)
        if amends:
            self.context.mention("amended", fact.start, fact.end, old=old)
        return amends

    def _amends(self, words: list[str]) -> bool:
        """Do words end with one that puts right?"""
        ends = [" ".join(words[-size:]) for size in (1, 2, 3) if len(words) >= size]
        return any(self.table.has(manner, end) for end in ends for manner in ("amends", "repairs"))

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

    def tied_to_text(self, fact: Fact) -> bool:
        """Does the clause continue free text right before it ("rained 6/8")?"""
        before = self.neighbour(fact, -1)
        if before is not None and self.name is not None and before.end <= self.name.start < fact.start:
            return False  # "nos agarró la lluvia. Lote 7 el martes"
        tied = before is not None and before.kind == "text" and fact.lead in ("", "link") and before.end <= fact.start
        return tied and before is not None and not self._reports(before)

    def _reports(self, fact: Fact) -> bool:
        """ "Informo que (el 14/7 se sacaron ..)": words that only say that a report follows."""
        words = [x.text for x in scan(self.context.text[fact.start : fact.end]) if x.kind == "word"]
        that = bool(words) and self.table.has("that_word", words[-1])
        return that and any(self.table.has("reports_that", word) for word in words)

    @property
    def visit_day(self) -> date:
        """The day other days are counted from."""
        return self.date or self.context.sent

    def _of_the_past(self, fact: Fact) -> bool:
        """ "Last week had 12 white, today only 4": what its clause says was counted another time."""
        clause = _CLAUSE.split(self._lead_without_day(fact))[-1].strip()
        if self.table.has("compared_to", fold(clause.split(" ")[-1])):
            return False  # "from 3 white last week to 11"
        return self.table.said("before_now", clause) and not self._since_then(clause)

    def _since_then(self, clause: str) -> bool:
        """ "Last time was 4 now 13 white and (2 yellow)": is a word for now the last told of a time?"""
        words = [x.text for x in scan(clause)]
        told = range(len(words), 0, -1)
        end = next((n for n in told if self.table.has_any("now_told", (words[n - 1], " ".join(words[n - 2 : n])))), 0)
        return bool(end) and not self.table.said("before_now", " ".join(words[end:]))

    def _lead_without_day(self, fact: Fact) -> str:
        """What stands before it, without the day of the visit: "last week thursday we looked at 6 plants"."""
        lead, day = lead_of(self.context.text, fact.start), self.date_fact
        begin = -1 if day is None else len(lead) - (fact.start - day.start)
        if day is None or begin < 0 or day.end > fact.start:
            return lead
        return lead[:begin] + lead[begin + day.end - day.start :]

    def _of_others(self, fact: Fact) -> bool:
        """ "The neighbor is spraying today", "my daughter turns six on saturday": told of others, not of this field."""
        if fact.shared:
            return False
        before = re.split(r"[.;,:!?\n]", lead_of(self.context.text, fact.start))[-1]
        behind = re.split(r"[.;,:!?\n]", self.context.text[fact.end : fact.end + SAID_BEFORE])[0]
        if self.name is not None and fact.start - len(before) <= self.name.start <= fact.end + len(behind):
            return False
        opening = [x.text for x in scan(before)]
        opening = opening or ([x.text for x in scan(behind)] if fact.kind == "date" else [])
        if self.table.said("other_place", before):
            return True  # "beans across the fence are yellow as can be"
        words = [x.text for x in scan(before + " " + behind)]
        if fact.kind == "date" and any(self.table.has("story_word", word) for word in words):
            own = any(self.table.has(trait, word) for word in words for trait in ("we_word", "visit_verb"))
            return not own  # "el lunes es feriado"
        if fact.kind in _OF_A_CROP and any(self.table.has("other_crop", word) for word in opening[:SUBJECT]):
            return True  # "corn is at V10 next door"
        subject = "neighbor_word" if fact.kind == "spray" else "other_subject"
        if not any(self.table.has(subject, word) for word in opening[:SUBJECT]):
            return False
        return not any(self.table.has(trait, word) for word in words for trait in ("we_word", "visit_verb"))

    def _now_again(self, fact: Fact) -> bool:
        """ "From 3 white last week to 11 today on 5 plants": is a day of now told since?"""
        return any(self._means(word, "TODAY") for word in self._said_before(fact))

    # --- days

    def _find_day(self) -> None:
        """The day of the visit first: planting and the next look are counted from it."""
        for fact in self.facts:
            if fact.kind not in ("date", "ago") or self._of_weather(fact) or self._of_next_look(fact):
                continue
            if self._of_entry(fact) or self._of_story(fact) or self._since(fact) or self._like_another(fact):
                continue
            if self._of_spraying_ahead(fact):
                continue
            if self._of_planting(fact) or self._of_spray(fact):
                continue
            span = fact.first("SPAN")
            written = fact.first("DATE") if span is None else DayWritten("", days_ago=span[1])
            if span is not None and span[0] != "days":
                continue
            self.date_fact = fact
            if written is not None and self._planned(fact, written):
                self.complain("which_visit", fact)
                return
            self.date = self.context.past(fact, written)
            return

    def _like_another(self, fact: Fact) -> bool:
        """ "Lote 8 igual que el 15": a number that is no day, but another field."""
        before, day = self.neighbour(fact, -1), fact.first("DATE")
        bare = day is not None and day.day is not None and day.month is None
        return bare and before is not None and before.kind == "same" and fact.lead in ("", "link")

    def _since(self, fact: Fact) -> bool:
        """ "Sigue inundado desde el domingo", "same story as yesterday": a day of something else than the visit."""
        said = self._said_before(fact)
        plain = [word for word in said[-2:] if not self.table.has("name_article", word)]
        told = any(self.table.has("reports_that", word) for word in said)  # "aviso que el lunes saqué .."
        like = bool(plain) and self.table.has("like_day", plain[-1]) and not told
        return like or any(self.table.has("since", word) for word in said[-2:])

    def _planned(self, fact: Fact, written: DayWritten) -> bool:
        """ "Dont think ill get in before friday": words of a plan before a day say that it may be a coming one."""
        if written.days_ago is not None:
            return False
        if any(f.kind == "date" and (f.first("DATE").days_ago or 0) < 0 for f in self._before_in_sentence(fact)):
            return True  # "going to old mill tomorrow, north forty friday"
        said = self._said_before(fact)
        if self.table.said("waited", " ".join(said)):
            return False  # "I waited until Tuesday"
        meant = [n for n, word in enumerate(said) if self.table.has("planned", word)]
        return any(not self.table.has("under_way", " ".join(said[n + 1 : n + 2])) for n in meant)

    def _before_in_sentence(self, fact: Fact) -> list[Fact]:
        sentence = self.context.sentence(fact)
        return [f for f in self.facts[: fact.at] if self.context.sentence(f) == sentence]

    def _said_before(self, fact: Fact) -> list[str]:
        """The words of its clause before it."""
        if fact.start not in self.said:
            clause = _CLAUSE_OR_DASH.split(lead_of(self.context.text, fact.start))[-1]
            self.said[fact.start] = [x.text for x in scan(clause)]
        return self.said[fact.start]

    def _of_weather(self, fact: Fact) -> bool:
        """A day right behind words about rain or field work is the day of that, not of the visit."""
        after = next((f for f in self.facts if f.start > fact.start), None)
        told = fact.first("DATE")
        coming = told is not None and told.days_ago is not None and told.days_ago < 0  # "mañana llueve dicen"
        starts = fact.lead in ("hard", "line") or coming
        if after is not None and after.kind == "text" and after.lead in ("", "link") and starts:
            behind = {x.text for x in scan(self.context.text[fact.end : after.end])}
            named = self.name is not None and fact.end <= self.name.start <= after.start
            if behind & self.table.traits.get("other_crop", frozenset()) and not named:
                return True  # "el 12 de julio sembramos maíz al lado"
            opening = [x.text for x in scan(self.context.text[after.start : after.end])][:1]
            if any(self.table.has("it_rained", word) for word in opening) and not named:
                return True  # "ontem choveu demais e .."
        if not self.tied_to_text(fact):
            return False
        before = self.facts[fact.at - 1]
        words = {x.text for x in scan(self.context.text[before.start : before.end])}
        return bool(words & self.table.traits["weather_word"])

    def _of_planting(self, fact: Fact) -> bool:
        """ "5/6 planting": a day right before the word, and nothing behind it."""
        before = self.neighbour(fact, -1)
        if before is not None and before.kind == "text" and len(before.words[0].text.split()) < 4:
            before = self.neighbour(before, -1)
        if before is not None and before.kind == "planted" and len(before.words) == 1 and fact.lead in ("", "link"):
            return True  # "planted north forty on the 11th of may"
        after, beyond = self.neighbour(fact, 1), self.neighbour(fact, 2)
        if after is None or after.kind != "planted" or len(after.words) > 1 or after.lead not in ("", "link"):
            return False
        return beyond is None or beyond.lead not in ("", "link")

    def _of_story(self, fact: Fact) -> bool:
        """ "Mañana cumple años el encargado": a coming day that begins a sentence of other things."""
        told, after = fact.first("DATE"), next((f for f in self.facts if f.start > fact.start), None)
        coming = told is not None and told.days_ago is not None and told.days_ago < 0
        if told is None or fact.lead not in ("hard", "line"):
            return False
        behind = scan(self.context.text[fact.end : fact.end + SAID_BEFORE])
        first = behind[0].text if behind and behind[0].kind == "word" else ""
        if told.weekday is not None and self.table.has("comes", first):
            return True  # "el jueves viene el ingeniero"
        if after is None or after.kind != "text":
            return False
        if not coming:
            return False
        if after.lead not in ("", "link"):
            return False
        words = {x.text for x in scan(self.context.text[fact.end : after.end])}
        back = self.table.traits["coming_back"] | self.table.traits.get("planned", frozenset())
        look = any(e.type == "LOOK" for word in words for e in self.table.singles.get(word, ()))
        return not words & back and not look

    def _of_entry(self, fact: Fact) -> bool:
        """ "No se entra hasta el miércoles" behind a spray: the day it may be entered again."""
        said = self._said_before(fact)[-3:]
        told = any(f.kind == "spray" for f in self.facts[: fact.at])
        return told and bool(set(said) & anywhere("until_entry"))

    def _of_spray(self, fact: Fact) -> bool:
        """ "Fungicide went on larkspur this morning": a day behind the spray and the field's name is the spray's."""
        before, after = self.neighbour(fact, -1), self.neighbour(fact, 1)
        joined = after is not None and after.kind == "spray" and after.lead in ("", "link")
        if joined and after is not None and not after.has("DATE", "SPAN"):
            if self._spray_told(after):
                return True  # "ontem aplicaram fungicida"
            said = self._said_before(fact)
            if any(self.table.has("spray_verb", " ".join(said[-size:])) for size in (1, 2)):
                return True  # "el sprayer pasó ayer con fungicida"
        if before is not None and before.kind == "text":
            before = self.neighbour(before, -1)
        if before is None or before.kind != "spray" or before.has("DATE", "SPAN"):
            return False
        between = self.context.text[before.end : fact.start]
        said = [x.text for x in scan(between) if x.kind == "word"]
        that = any(self.table.has("that_was", " ".join(said[:size])) for size in (len(said), len(said) - 1) if size > 0)
        if fact.lead in ("soft", "link") and that:
            return True  # "sprayed glyphosate, that was 9 days ago"
        bracket = between.lstrip().startswith(")")  # "herbicida (cletodim) el 6/7"
        ended = not re.search(r"[.;!?\n]", between) and self._ends_sentence(fact)
        told = {f.kind for f in self.facts if self.context.sentence(f) == self.context.sentence(fact)}
        if fact.lead in ("soft", "link") and ended and between.strip().startswith(",") and told <= _OF_SPRAYING:
            return True  # "it was Silo Hill that got the insecticide, on Wednesday."
        if fact.lead == "line" or (fact.lead == "soft" and not bracket):
            return False
        return not re.search(r"[.;!,\n]", between)

    def _ends_sentence(self, fact: Fact) -> bool:
        """Does a full stop or the end of the text follow?"""
        return self.context.text[fact.end :].lstrip(" ")[:1] in ("", ".", ";", "!", "\n")

    def _spray_told(self, fact: Fact) -> bool:
        """Does a verb begin the clause of the spray, so that a day before it is the day of spraying?"""
        return self.table.has("spray_verb", " ".join(x.text for x in scan(fact.words[0].text)))

    def _of_next_look(self, fact: Fact) -> bool:
        """A day before a bare "recheck", or a coming day behind what was found: when to look again."""
        after = self.neighbour(fact, 1)
        if after is not None and after.kind == "look_again" and len(after.words) == 1 and after.lead in ("", "link"):
            return True
        written = fact.first("DATE")
        if written is not None and written.days_ago is not None and written.days_ago < 0:
            return not any(self.table.has("other_deed", word) for word in self._said_before(fact))
        before = self.neighbour(fact, -1)
        later = written is not None and written.days_ago is None
        if later and before is not None and before.kind == "not_looked" and fact.lead in ("", "link"):
            said = {x.text for x in scan(self.context.text[before.start : fact.start])}
            if said & self.table.traits["until"]:
                return True  # "deixei para olhar no sábado"
        told = any(
            other.kind in ("plants", "colour_count", "total_count", "per_plant", "none")
            for other in self.facts[: fact.at]
        )
        if written is None or not told or (fact.lead in ("", "link") and self.tied_to_text(fact)):
            return False
        order = (self.context.sent, self.context.language, self.context.day_first)
        if past_day(written, *order).wrong != "future_date":
            return False
        coming = coming_day(written, *order)
        return coming.day is not None and not coming.other and (coming.day - self.context.sent).days <= 60

    def on_date(self, fact: Fact) -> None:
        """A second day is text behind text, or when to look again, else a contradiction."""
        if fact is self.date_fact:
            return
        if self._of_spraying_ahead(fact):
            self.keep(fact)
            return
        if self._of_planting(fact):
            self.planted = self.context.past(fact, fact.first("DATE"))
            return
        if self._of_spray(fact):
            self.spray = replace(self.spray or Spray(), date=self.context.past(fact, fact.first("DATE")))
            return
        if self._of_story(fact) or self._since(fact) or self._of_weather(fact) or self._like_another(fact):
            self.keep(fact)
            return
        if self.look is None and self._of_next_look(fact):
            told = fact.first("DATE")
            since = self.context.sent if told.days_ago is not None else self.visit_day  # "ontem .., amanhã eu vou"
            day = self.context.coming(fact, told, since)
            self.look = LookAgain(date=day) if day is not None else None
            after = self.neighbour(fact, 1)
            if after is None or after.kind != "look_again":
                self.context.mention("bare_span", fact.start, fact.end)
            return
        day = past_day(fact.first("DATE"), self.context.sent, self.context.language, self.context.day_first).day
        if day is not None and day != self.date and self.date and self._amended(fact, self.context.day(self.date)):
            self.date, self.date_fact = day, fact
        elif day is None or self.date is None or self.tied_to_text(fact) or self._of_entry(fact):
            self.keep(fact)
        elif day != self.date:
            self.twice("date", fact, self.context.day(self.date), self.context.day(day))

    def on_ago(self, fact: Fact) -> None:
        """ "3 days ago"."""
        span = fact.first("SPAN")
        if fact is not self.date_fact and span is not None and span[0] == "days" and self._of_spray(fact):
            self.spray = replace(self.spray or Spray(), days_ago=span[1])  # "hace 9 días le dieron glifosato"
        elif fact is not self.date_fact:
            self.keep(fact)

    def on_planted(self, fact: Fact) -> None:
        """The planting day."""
        written, span = fact.first("DATE"), fact.first("SPAN")
        if written is not None:
            self.planted = self.context.past(fact, written, PLANTED_DAYS)
        elif span is not None and span[0] == "days":
            self.planted = self.context.past(fact, DayWritten("", days_ago=span[1]))
        elif self.planted is None:
            self.keep(fact)

    def on_after_planting(self, fact: Fact) -> None:
        """ "36 DAP" gives the planting day."""
        days = fact.first("SPAN_AFTER_PLANTING")
        if not isinstance(days, int) or days > 300:
            self.complain("out_of_range", fact)
        elif self.planted is None:
            self.planted = self.visit_day - timedelta(days=days)

    # --- plants and how they came up

    def on_plants(self, fact: Fact) -> None:
        """Plants dug."""
        if fact.has("DUG", "TOOL"):
            self.on_how(fact)
        count = self.whole(fact, fact.numbers[0])
        if count is None:
            return
        if count == 0:
            self.not_looked = fact
            return
        if count > MOST_PLANTS:
            self.complain("many_plants", fact, count=count)
        if self._of_each_place(fact):
            self.each_place = count
            return
        if (places := self._places_before(fact)) > 1:
            self.context.mention("near_word", fact.start, fact.end, read=str(count * places))
            count *= places
        self._leave_check(fact, self.scope.plants is not None or bool(self.scope.lists))
        if fact.first("PLANTS") == "over" and self.scope.plants is not None and count < self.scope.plants:
            self.scope.positive = count
            return
        if self._sums_places(fact, count):
            self.ways.add(fact.first("TOOL") or fact.first("DUG"))
            return
        other = self.scope.plants is not None and self.scope.plants != count
        if (other and not self._amended(fact, self.scope.plants)) or (
            self.scope.plants is not None and self._another_way(fact)
        ):
            self.twice("plants", fact, self.scope.plants, count)
        else:
            self.scope.plants = count
        self.ways.add(fact.first("TOOL") or fact.first("DUG"))

    def _sums_places(self, fact: Fact, count: int) -> bool:
        """ "Loma 4 pl 3 blancas, bajo 4 pl 12. Las 8 con pala": behind the last place, as many as all of them had."""
        places = [scope for scope in self.spots if not scope.check]
        plants = [scope.plants or len(scope.lists[0][0]) if scope.plants or scope.lists else 0 for scope in places]
        summed = len(places) >= LEAST_SUMMED and all(plants) and sum(plants) == count
        return (
            summed
            and self.scope is self.spots[-1]
            and all(f.at <= fact.at or f.kind not in _OF_FEMALES for f in self.facts)
        )

    def _another_way(self, fact: Fact) -> bool:
        """ "4 shovel 4 pulled": as many again, or the same ones?"""
        way = fact.first("TOOL") or fact.first("DUG")
        return way is not None and None not in self.ways and {way, *self.ways} >= {"shovel", "pulled"}

    def _places_before(self, fact: Fact) -> int:
        """ "3 spots, 2 plants each": how many places were told before, when "each" is said behind; else 0."""
        behind = self.context.text[fact.end : fact.end + SAID_BEFORE]
        words = [x.text for x in scan(re.split(r"[.,;:\n]", behind)[0])]
        each = any(self.table.has("each_place", " ".join(words[:size])) for size in (1, 2, 3) if len(words) >= size)
        if not each or any(f.kind in ("spot", "check") for f in self.facts):
            return 0
        before = scan(lead_of(self.context.text, fact.start))
        for number, noun in pairwise(before):
            if number.kind == "number" and number.text.isdigit() and self.table.has("place_count", noun.text):
                return int(number.text)
        return 0

    def _of_each_place(self, fact: Fact) -> bool:
        """ "Two stations, 4 plants each. Gate .. Hill ..": so many in every place told later."""
        behind = self.context.text[fact.end : fact.end + SAID_BEFORE]
        words = [x.text for x in scan(re.split(r"[.,;:\n]", behind)[0])]
        spans = [" ".join(words[:size]) for size in (1, 2, 3) if len(words) >= size]
        if not any(self.table.has(trait, span) for span in spans for trait in ("each_place", "each_place_noun")):
            return False
        ahead = [f for f in self.facts[fact.at :] if f.kind in ("spot", "check")]
        if self.scope is self.main and len(ahead) > 1:
            return True
        return len(self.spots) > 1 and not ahead and all(scope.plants is None for scope in self.spots)

    def _leave_check(self, fact: Fact, told: bool) -> None:
        """A new sentence that counts again leaves the check strip."""
        if self.scope.check and told and fact.lead in ("hard", "line"):
            self.scope = self.main

    def _how(self, value: str) -> None:
        if value == "any":
            return
        method = cast(Method, value)
        if self.method is None or WEAKER[method] > WEAKER[self.method]:
            self.method = method

    def on_how(self, fact: Fact) -> None:
        """Shovel, by hand, eased out; "a proper look with a spade in 5 days" is how the next one is meant."""
        planned = [f for f in self.facts if f.kind == "look_again" and f.has("LOOK", "SPAN") and f is not fact]
        same = [f for f in planned if self.context.sentence(f) == self.context.sentence(fact) and f.lead != "soft"]
        if same and self.method is not None and fact.kind == "how":
            return
        before = self.neighbour(fact, -1)
        if before is not None and before.kind == "not_looked" and fact.lead in ("", "link"):
            return  # "couldn't get to it to dig"
        if fact.kind == "how" and (self._intended(fact) or self._for_next_look(fact)):
            self.keep(fact)
            return
        tool = fact.first("TOOL")
        without = tool == "pulled" and self.table.denies(fold(self.context.text[fact.start : fact.end]).split(" ")[0])
        told = any(f.kind in ("plants", "how") or f.kind in _OF_FEMALES for f in self.facts if f is not fact)
        if without and not told:
            self.keep(fact)  # "crusted, no spade": and nothing was pulled either
            return
        if tool is not None:
            by_hand = tool == "pulled" and not without
            tool = "eased" if by_hand and self._gently(fact) else cast(Method, tool)
            self.method = self.method if self.method == "eased" and tool == "pulled" else tool
            self.tooled = True
        else:
            beside = self.method == "shovel" and fact.lead in ("", "link")  # "descalcé a pala": the tool tells more
            if not (self.tooled and (fact.first("DUG") == "pulled" or beside)):
                self._how(fact.first("DUG"))

    def _gently(self, fact: Fact) -> bool:
        """ "By hand, nice and slow", "a mano y con paciencia": does the sentence say that they were worked loose?"""
        before = re.split(r"[.;!?\n]", lead_of(self.context.text, fact.start))[-1]
        behind = re.split(r"[.;!?\n]", self.context.text[fact.start : fact.end + WIDER])[0]
        return self.table.said("gently", f"{before}{behind}")

    def _intended(self, fact: Fact) -> bool:
        """ "Need to go back w/ shovel", "la próxima traigo pala": what is meant for another day was not done."""
        sentence = re.split(r"[.;!?\n]", lead_of(self.context.text, fact.start))[-1]
        return self.table.said("intends", sentence)

    def _for_next_look(self, fact: Fact) -> bool:
        """ "Back Mon with shovel and bucket", "shovel next time": told in one breath with when to look again."""
        after = self.neighbour(fact, 1)
        if after is not None and len(after.words) == 1 and after.lead in ("", "link"):
            meant = fold(self.context.text[after.start : after.end])
            if after.kind in ("look_again", "text") and self.table.has("intends", meant):
                return True
        first, before = fact, self.neighbour(fact, -1)
        while before is not None and before.kind in ("how", "soaked") and first.lead in ("", "link"):
            first, before = before, self.neighbour(before, -1)
        led = before is not None and first.lead == "link" and self.context.text[before.end : first.start].strip() != ""
        return led and before is not None and before.kind == "look_again" and before.has("LOOK")

    def on_soaked(self, fact: Fact) -> None:
        """Washed or soaked; "no bucket" wins over "bucket", "shook them off, then bucket" is soaked."""
        said = fact.first("SOAKED") == "yes"
        if said and (self._intended(fact) or self._for_next_look(fact)):
            self.keep(fact)
            return
        opening = scan(self.context.text[fact.start : fact.end])[0].text
        shaken = not said and self.table.has("shaken", opening)
        if shaken and (self.soaked is not None or not self._only(fact)):
            return  # "sacudí la raíz", "shook em off": nothing is said of water; "only shook" says that there was none
        if said and self.shaken:
            self.soaked = None
        self.shaken = shaken
        self.soaked = said if self.soaked is None else self.soaked and said

    def _only(self, fact: Fact) -> bool:
        """ "Just shook em", "shook off only": is it said that nothing more was done?"""
        behind = scan(self.context.text[fact.start : fact.end + WIDER])
        words = [*self._said_before(fact)[-2:], *(x.text for x in behind)]
        return any(self.table.has("nothing_more", word) for word in words)

    def on_same(self, fact: Fact) -> None:
        """Same as above, when there is an above."""
        after = self.neighbour(fact, 1)
        method = after is not None and after.kind in ("how", "soaked") and after.lead in ("", "link")
        if method and self.table.has("likewise", fold(self.context.text[fact.start : fact.end])):
            self.keep(fact)  # "five plants, likewise dug and washed"
            return
        above = self.context.notes[-1] if self.context.notes else None
        told = {x.text for x in scan(self.context.text[fact.start : fact.end])}
        if above is not None and told & self.table.traits.get("day_word", frozenset()):
            self.date = self.date or above.date
        elif above is not None and (things := self._things_alike(fact)):
            self.context.mention("same", fact.start, fact.end, read=above.field or "")
            self.alike |= things
        elif above is not None and self._same_other(fact):
            self.keep(fact)  # "same man, same planter", "3 white. Same dry loam"
        elif self.context.notes:
            self.same = fact
        else:
            self.keep(fact)

    def _things_alike(self, fact: Fact) -> set[str]:
        """ "Same soil", "same count", "soil and method as above": the things that are told to be the same."""
        traits, words = self.table.traits, self._same_what(fact, WIDER)
        found = {thing for thing, trait in _ALIKE.items() if words & traits.get(trait, frozenset())}
        if self.table.has("same_counts", fold(self.context.text[fact.start : fact.end])):
            found.add("counts")
        said, end = fold(self.context.text[fact.start : fact.end]).split(), fact.end
        behind = [x.text for x in scan(re.split(r"[.;:,\n]", self.context.text[end : end + WIDER])[0])]
        noun = next((word for word in (*said[1:], *behind) if not self.table.has("how_many_of", word)), "")
        plants = any(e.type == "PLANTS" for e in self.table.singles.get(noun, ()))
        return found | {"plants"} if plants and self.table.has("same_bare", said[0]) else found

    def _same_other(self, fact: Fact) -> bool:
        """ "Same man, same planter": things we know nothing of; or a soil that is told, beside counts of its own."""
        after = self.neighbour(fact, 1)
        if not self.table.has("same_bare", fold(self.context.text[fact.start : fact.end])) or after is None:
            return False
        between = self.context.text[fact.end : after.start].strip()
        counted = any(other.kind in _OF_FEMALES for other in self.own)
        words = [x.text for x in scan(self.context.text[after.start : after.end])]
        if after.kind == "text" and self.table.has("same_of_others", words[0] if words else ""):
            return not between
        return not between and (after.kind == "how" or (counted and after.kind in ("moisture", "texture")))

    def _same_what(self, fact: Fact, wide: int = 9) -> set[str]:
        """The words right before and behind "same": the same what?"""
        start, end, text = fact.start, fact.end, self.context.text
        before = text[max(0, start - wide) : end]
        words = {x.text for x in scan(re.split(r"[.;:,\n]", before)[-1])}
        return words | {x.text for x in scan(re.split(r"[.;:,\n]", text[end : end + max(wide, SAID_BEHIND)])[0])}

    # --- counts

    def on_colour_count(self, fact: Fact) -> None:
        """12 white; white 3 0 7 2."""
        colour: Colour = fact.first("COLOUR")
        if len(fact.numbers) > 1:
            listed = self.wholes(fact)
            if listed is not None and len(listed) == 2 and self.scope is self.main and not self._two_plants(fact):
                self.complain("which_number", fact)
            elif listed is not None:
                self.scope.lists.append((listed, colour))
                self.scope.counts.append(fact)
            return
        if self._average(fact, colour):
            return
        count = self.whole(fact, fact.numbers[0])
        if count is None or self._record(fact, colour, count):
            return
        before = self.neighbour(fact, -1)
        shaded = before is not None and before.kind == "shades" and before.first("MOSTLY") == "mostly"
        apart = fact.words[0].type == "COLOUR" and fact.words[-1].lead == "soft" and fact.lead in ("", "link")
        if shaded and before is not None and not before.has("COLOUR") and apart and self.scope.total is None:
            self.scope.shade(colour)  # "casi todo amarillo, 26 contadas"
            self.scope.total = count
            self.scope.counts.append(fact)
            return
        old = self.scope.colours.get(colour, count)
        if old != count and not self._amended(fact, old) and not self._summed(fact, old, count):
            self.twice(colour, fact, self.scope.colours[colour], count)
            return
        self.scope.colours[colour] = count
        self.scope.counts.append(fact)

    def _summed(self, fact: Fact, old: int, count: int) -> bool:
        """ "Four white, then two more, so six white": the second number is the sum of the first and what was added."""
        said = self._said_before(fact)
        if not (said and self.table.has("sums_up", said[-1])):
            return False
        words = [x.text for x in scan(lead_of(self.context.text, fact.start))]
        added = (self.table.singles.get(word, ()) for word in words)
        spoken = {entry.value for entries in added for entry in entries if entry.type == "NUMBER_WORD"}
        if count <= old or not {str(count - old)} & {*words, *spoken}:
            return False
        self.context.mention("amended", fact.start, fact.end, old=old)
        return True

    def on_colour_series(self, fact: Fact) -> None:
        """12/3/0/0."""
        for colour, count in fact.first("SERIES"):
            if self._averaged(fact):
                self.scope.averages[colour] = count
                self.scope.average_at = (fact.start, fact.end)
            elif not self._record(fact, colour, count):
                self.scope.colours[colour] = count
        self.scope.counts.append(fact)

    def _two_plants(self, fact: Fact) -> bool:
        """Two numbers are a list when two plants were dug, or two colors are listed alike, or a stop says so."""
        if self.pairs_told is None:
            lists = [other for other in self.facts if other.kind == "colour_count" and len(other.numbers) == 2]
            dug = [other.numbers[0] for other in self.facts if other.kind == "plants" and len(other.numbers) == 1]
            self.pairs_told = 2 in dug or len(lists) > 1
        return self.pairs_told or any(word.lead in ("soft", "colon") for word in fact.words[1:])

    def _record(self, fact: Fact, colour: Colour | None, count: int) -> bool:
        """Into the plant told last, when plants are told one by one."""
        if not self.scope.records:
            return False
        record = self.scope.records[-1]
        if colour in record:
            self.twice(colour or "total", fact, record[colour], count)
        record[colour] = record.get(colour, 0) + count
        self.scope.counts.append(fact)
        return True

    def _average(self, fact: Fact, colour: Colour | None) -> bool:
        if not self._averaged(fact):
            return False
        self._averages(fact, colour)
        return True

    def _averages(self, fact: Fact, colour: Colour | None) -> None:
        """So many on each plant, or on each of those just said to have any."""
        self.scope.averages[colour] = fact.numbers[0]
        self.scope.average_at = (fact.start, fact.end)
        sentence = self.context.sentence(fact)
        some = any(f.kind == "positive" and self.context.sentence(f) == sentence for f in self.scope.counts)
        self.scope.average_of = self.scope.positive if some else None

    def _averaged(self, fact: Fact) -> bool:
        """Does "per plant" stand in the same sentence, with nothing but counts between?"""
        return fact.at in self.averaged

    def _find_averaged(self) -> set[int]:
        """Counts in a row with "per plant" at either end, by index."""
        found: set[int] = set()
        if not any(fact.kind == "each" for fact in self.facts):
            return found
        for step in (1, -1):
            sentence = -1
            for fact in self.facts[::step]:
                ends = self._each_of_plants(fact) or self._each_of_shade(fact)
                if fact.kind == "each" and not fact.numbers and step == 1 and ends:
                    sentence = -1
                elif fact.kind == "each" and not fact.numbers:
                    sentence = self.context.sentence(fact)
                elif fact.kind == "text" and step == 1 and self._between_each(fact):
                    continue  # "cada una de las cuatro plantas presentó 5 hembras"
                elif sentence != self.context.sentence(fact) or not _single_count(fact):
                    sentence = -1
                elif step == 1 and fact.has("TOTAL") and fact.lead == "soft":
                    sentence = -1  # "every plant had at least one white, 12 total"
                else:
                    found.add(fact.at)
        return found

    def _between_each(self, fact: Fact) -> bool:
        """Is it one word between "each" and its count?"""
        before = self.neighbour(fact, -1)
        near = before is not None and before.kind == "each" and fact.lead in ("", "link")
        return near and len(self.context.text[fact.start : fact.end].split()) == 1

    def _each_of_shade(self, fact: Fact) -> bool:
        """ "White on every one, 40 total": "each" ends what is said of a color."""
        before, after = self.neighbour(fact, -1), self.neighbour(fact, 1)
        others = ("shades", "nodules", "text", "roots", "tops")  # "20+ nods each, 8 white"
        shaded = before is not None and before.kind in others and fact.lead in ("", "link")
        return shaded and (after is None or after.lead in ("soft", "hard", "line"))

    def _each_of_plants(self, fact: Fact) -> bool:
        """ "Pulled 3 each, found 2 white": "each" ends what is said of the plants."""
        before, after = self.neighbour(fact, -1), self.neighbour(fact, 1)
        if before is None or before.kind != "plants" or fact.lead not in ("", "link"):
            return False
        return after is None or after.lead in ("soft", "hard", "line")

    def on_each(self, fact: Fact) -> None:
        """2.8 per plant; "all 0, 5 ea" are plants."""
        if len(fact.numbers) == 1 and self._plants_each(fact):
            self.scope.plants = self.whole(fact, fact.numbers[0])
        elif len(fact.numbers) == 1:
            self._averages(fact, None)
        elif fact.numbers:
            self.on_per_plant(fact)

    def _plants_each(self, fact: Fact) -> bool:
        """So many each, where none were found and no plants are told."""
        nothing = any(f.kind == "none" or (f.kind == "per_plant" and f.numbers == [0]) for f in self.facts)
        told = any(f.kind in ("plants", "colour_count", "total_count", "colour_series") for f in self.facts)
        return nothing and not told and self.scope is self.main and 0 < fact.numbers[0] <= MOST_PLANTS

    def on_total_count(self, fact: Fact) -> None:
        """14 females; total 14."""
        if len(fact.numbers) > 1:
            self.on_per_plant(fact)
            return
        if self._average(fact, None):
            return
        count = self.whole(fact, fact.numbers[0])
        told = bool(self.scope.records) and bool(self.scope.records[-1])
        summed = told and fact.has("TOTAL") and fact.lead != ""  # "P4 1, P5 3. Total 12": of all of them
        if count is None or (not summed and self._record(fact, None, count)):
            return
        after = self.neighbour(fact, 1)
        apposed = after is not None and after.kind == "shades" and len(after.words) == 1 and after.lead == "soft"
        if count == 1 and apposed and after is not None and not self.scope.colours:
            self.scope.colours[after.first("COLOUR")] = 1  # "apareció una sola hembra, blanca"
            self.scope.counts.append(fact)
            self.told_in = after
            return
        if self.scope.total is not None and self.scope.total != count and not self._amended(fact, self.scope.total):
            self.twice("total", fact, self.scope.total, count)
            return
        self.scope.total = count
        self.scope.counts.append(fact)

    def on_per_plant(self, fact: Fact) -> None:
        """A list of numbers, one per plant; a number alone is asked about."""
        if self._labelled_before(fact):
            return
        listed = self.wholes(fact)
        if listed is None:
            return
        if len(listed) == 1:
            self._lone(fact, listed[0])
            return
        named = self.scope is not self.main or fact.lead == "colon" or fact.has("EACH", "FEMALES", "TOTAL")
        if len(listed) == 2 and self.scope.plants != 2 and not named:
            self.complain("which_number", fact)
            return
        self._leave_check(fact, bool(self.scope.lists))
        first = next((values for values, colour in self.scope.lists if colour is None), None)
        if first is not None:
            self.twice("list", fact, " ".join(map(str, first)), " ".join(map(str, listed)))
            return
        self.scope.lists.append((listed, None))
        self.scope.counts.append(fact)

    def _labelled_before(self, fact: Fact) -> bool:
        """ "pH on the slip was 7.9": the number a label earlier in the sentence still waits for."""
        label, self.awaits = self.awaits, None
        if label is None or len(fact.numbers) != 1 or self.context.sentence(label) != self.context.sentence(fact):
            return False
        value, text = fact.numbers[0], self.context.text
        opening = scan(text[label.start : label.end])
        kinds = {e.type for x in opening[:2] for e in self.table.singles.get(x.text, ())}
        if "POTASSIUM" in kinds and self.k_ppm is None and "ppm" in text[fact.start : fact.end + 6].lower():
            self.k_ppm = float(value)
            return True
        if "PH" in kinds and self.ph is None and 3 <= value <= 10:
            behind = " ".join(x.text for x in scan(text[fact.end : fact.end + APART])[:2])
            self.ph = float(value) + (0.5 if self.table.has("and_half", behind) else 0.0)
            return True
        return False

    def _lone(self, fact: Fact, number: int) -> None:
        if self._record(fact, None, number):
            return
        above = self.neighbour(fact, -1)
        tied = above is not None and above.kind == "plants" and fact.lead in ("", "link", "colon", "soft")
        if (
            tied
            and (self.scope is not self.main or self.spots)
            and self.scope.plants is not None
            and not self.scope.said
        ):
            self.scope.total = number  # "in the check strip 3 plants 31"
            self.scope.counts.append(fact)
        elif self.scope.plants == 1 and not self.scope.said:
            self.scope.lists.append(((number,), None))
            self.scope.counts.append(fact)
        elif self.scope.lists and number == sum(sum(values) for values, _ in self.scope.lists):
            return  # "5, 9, 4 (that's 18 if I added right)"
        elif number == 0 and not self.scope.said:
            self.scope.total = 0
        elif self.scope.plants is not None and self.scope.mostly and not self.scope.counted:
            self.scope.total = number  # "5 plantas, todas amarillas, 15"
            self.scope.counts.append(fact)
        elif number == 0 and self.scope.colours and self._of_the_rest(fact):
            return  # "White: 6. Others: 0.", "demais cores 0"
        elif self._plants_in_heading() and not self.scope.said:
            self.scope.total = number  # "8 dug per field. Kestrel 14, Tinkers 22"
            self.scope.counts.append(fact)
            females = self.table.first["FEMALES", "female"]
            self.context.mention("near_word", fact.start, fact.end, read=f"{number} {females}")
        else:
            self.complain("stray_number", fact, number=number)

    def _of_the_rest(self, fact: Fact) -> bool:
        """Do the last words before it, one of them perhaps "colors", say that it is said of the rest?"""
        return any(self.table.has("rest_word", word) for word in self._said_before(fact)[-2:])

    def _plants_in_heading(self) -> bool:
        """Were the plants of each field told above all of them?"""
        return self.headed

    def on_none(self, fact: Fact) -> None:
        """None seen; "no cavé nada" tells of digging, not of females."""
        before = self.neighbour(fact, -1)
        if before is not None and before.kind == "text":
            before = self.neighbour(before, -1)
        undug = before is not None and (before is self.not_looked or before is self.undug)
        if undug and before is not None and not re.search(r"[.,;:!?\n]", self.context.text[before.end : fact.start]):
            return
        if self._none_free(fact):
            self.saw = fact
            self.keep(fact)
            return
        if self._record(fact, None, 0):
            return
        self.scope.none = True
        self.scope.counts.append(fact)

    def on_too_many(self, fact: Fact) -> None:
        """Too many to count."""
        if self._counted_behind(fact):
            self.saw = fact
            return
        self.scope.too_many = True
        for colour in fact.all("COLOUR"):
            self.scope.shade(colour)

    def _counted_behind(self, fact: Fact) -> bool:
        """ "Raíces cargadas: 6 plantas, 44 blancas": a word for many, and right behind it they are all counted."""
        told = self.table.traits.get("plenty", frozenset())
        words = [x.text for x in scan(self._written(fact))]
        if not any(word in told for word in words) or fact.has("COLOUR") or self.scope.counts:
            return False
        after = self.neighbour(fact, 1)
        dug = after is not None and after.kind == "plants" and self.scope.plants is None
        apart = after is not None and after.lead not in ("", "link", "line")
        if dug:
            after = self.neighbour(after, 1) if after is not None else None
            while after is not None and after.kind in ("how", "soaked"):
                after = self.neighbour(after, 1)
        kinds = ("colour_count", "total_count", "colour_series")
        listed = after is not None and after.kind == "per_plant" and len(after.numbers) > 1
        return apart and after is not None and (after.kind in kinds or listed)

    def on_shades(self, fact: Fact) -> None:
        """Mostly yellow; w+y; all white."""
        if fact is self.told_in or self._undug_yellow(fact) or self._pale_tops(fact):
            return
        colours: list[Colour] = fact.all("COLOUR")
        after = self.neighbour(fact, 1)
        if not colours and fact.first("MOSTLY") == "all" and after is not None and _shade_and_count(after):
            self.scope.shade(after.first("COLOUR"))
            return
        before = self.neighbour(fact, -1)
        if not colours and fact.first("MOSTLY") == "all" and before is not None and before.kind == "shades":
            only = len(before.all("COLOUR")) == 1 and before.first("MOSTLY") != "mostly"  # "mostly white both"
            self.scope.all_of = self.scope.all_of or only
            return
        listed = before is not None and before.kind == "colour_count" and len(before.numbers) > 1
        if (
            listed
            and not colours
            and fact.first("MOSTLY") == "all"
            and before is not None
            and fact.lead in ("", "link")
        ):
            self.scope.shade(before.first("COLOUR"))  # "3 5 0 2 blancas todas"
            return
        if not colours:
            self.keep(fact)
            return
        here = [f for f in self.facts if self.context.sentence(f) == self.context.sentence(fact)]
        here = [f for f in here if f.kind != "shades" or f.has("COLOUR")]
        alone = all(f is fact or f.kind in ("stage", "moisture", "texture", "text", "soaked", "how") for f in here)
        both = len(set(colours)) == 1 and self._of_every_place(fact)
        every = (both and fact.first("MOSTLY") != "mostly") or (
            fact.first("MOSTLY") == "all" and len(set(colours)) == 1
        )  # "mostly white both"
        together = all(self._sentence_of(scope) == self.context.sentence(fact) for scope in self.spots)
        together = together and any(not scope.check for scope in self.spots)
        scopes = [self.main, *self.spots] if every and self.spots and (alone or together or both) else [self.scope]
        before_it = [x.text for x in scan(self.context.text[max(0, fact.start - 14) : fact.start])]
        if len(colours) == 1 and any(self.table.has("rest_word", word) for word in before_it[-2:]):
            self.scope.rest = colours[0]
        but = self.neighbour(after, 1) if after is not None and after.kind == "text" else after
        if every and but is not None and self._all_but(fact, but, colours[0]):
            self.scope.rest = colours[0]  # "all white apart from two yellow"
            return
        for scope in scopes:
            scope.all_of = scope.all_of or every
            for colour in colours:
                scope.shade(colour)

    def _of_every_place(self, fact: Fact) -> bool:
        """ "(amarillas todas en los dos)", "só brancas em tudo": said of all places?"""
        behind = re.split(r"[.;,!()\n]", self.context.text[fact.end : fact.end + 30])[0]
        words = [x.text for x in scan(behind)]
        spans = [" ".join(words[n : n + size]) for n in range(len(words)) for size in (1, 2, 3)]
        return bool(self.spots) and any(
            self.table.has(trait, said) for said in spans for trait in ("for_both", "in_all")
        )

    def _sentence_of(self, scope: Scope) -> int:
        return bisect_right(self.context.sentences, scope.start)

    def on_not_looked(self, fact: Fact) -> None:
        """Not looked; "too muddy to dig", "drowned out" also tell the soil, "no digging today" the day."""
        self.not_looked = fact
        told = [e for x in scan(self.context.text[fact.start : fact.end]) for e in self.table.singles.get(x.text, ())]
        today = any(entry.type == "TODAY" and entry.value == "0" for entry in told)
        self.date = self.context.sent if today and self.date is None else self.date
        for word in scan(self.context.text[fact.start : fact.end]):
            told = [e for e in self.table.singles.get(word.text, ()) if e.type == "MOISTURE" and len(word.text) > 2]
            if told or self.table.has("means_wet", word.text):
                self.moistures.append(("", cast(Moisture, told[0].value if told else "wet")))

    def on_positive(self, fact: Fact) -> None:
        """3 of 6 had some: kept in words; more than were dug cannot be."""
        count = self.whole(fact, fact.first("POSITIVE"))
        if count is not None:
            self.scope.positive = count
            self.scope.counts.append(fact)
            led = [x.text for x in scan(lead_of(self.context.text, fact.start))][-2:]
            told = any(f.kind == "plants" for f in self.facts)
            if not told and any(self.table.has("all_of", word) for word in led) and self.scope.plants is None:
                self.scope.plants = count  # "all 6 plants had em", "las 6 plantas tenían quistes"
            elif not told and self.scope.plants is None and self._dug_with(fact):
                self.scope.plants = count
        self.keep(fact)

    def _dug_with(self, fact: Fact) -> bool:
        """ "Kestrel 6 plants with some yellow", "6 pés positivo": those dug, where no others are told."""
        text = self.context.text
        behind = re.split(r"[;!?\n]|\. ", text[fact.end : fact.end + SAID_BEFORE])[0]
        said = scan(self._written(fact) + behind)
        near = takewhile(lambda x: x.text != ",", said[:WITH_NEAR])
        some = any(self.table.has(trait, x.text) for x in near for trait in ("with_word", "infest_word"))
        before = [x.text for x in scan(_CLAUSE.split(lead_of(text, fact.start))[-1])]
        few = any(self.table.has(trait, word) for word in before for trait in ("lone_word", "upon_plant"))
        others = any(x.kind == "number" or self.table.has("without_word", x.text) for x in said[1:])
        return fact.has("PLANTS") and some and not few and not others

    def _all_but(self, fact: Fact, after: Fact, colour: Colour) -> bool:
        """Is the count behind it one of another color, left out of all?"""
        between = " ".join(x.text for x in scan(self.context.text[fact.end : after.start]))
        other = after.kind == "colour_count" and len(after.numbers) == 1 and after.first("COLOUR") != colour
        return other and self.table.has("all_but", between)

    def on_mark(self, fact: Fact) -> None:
        """Plant 2 of those told one by one."""
        if self.scope.records and not self.scope.records[-1]:
            self.complain("stray_number", fact, number=fact.first("MARK") - 1)
        self.scope.records.append({})

    def on_refused(self, fact: Fact) -> None:
        """No females, no tan; other denials are kept in words, denied numbers asked about."""
        if fact.has("NUMBER"):
            self.complain("which_number", fact)
        elif fact.has("FEMALES"):
            self.on_none(fact)
        elif fact.has("COLOUR"):
            self.scope.zeros.extend(fact.all("COLOUR"))
        else:
            self.undug = fact if fact.has("DUG") else self.undug
            self.keep(fact)

    # --- places

    def on_spot(self, fact: Fact) -> None:
        """A place of the field: counts behind it are its own."""
        self._open(fact, fact.first("SPOT"), check=False)

    def on_check(self, fact: Fact) -> None:
        """The check strip."""
        self._open(fact, fact.first("CHECK"), check=True)

    def _open(self, fact: Fact, name: str, check: bool) -> None:
        named = self.named_spots.get((name, check))
        if named is not None and named.plants is not None and not named.said:
            self.scope = named  # "4 from the north end and 4 from the south end. North end was 16 white .."
            return
        self.scope = Scope(name, check, fact.start, fact.end)
        self.spots.append(self.scope)
        self.named_spots.setdefault((name, check), self.scope)

    # --- ground and plant

    def on_moisture(self, fact: Fact) -> None:
        """Dry, moist, wet; said of the top or of below; dry here and moist in another sentence is asked about."""
        where, value = fact.first("BELOW") or "", fact.first("MOISTURE")
        dry = next((f for f in self.facts[: fact.at] if f.kind == "moisture" and not f.first("BELOW")), None)
        last = self.moistures[-1] if self.moistures else (where, value)
        if last[0] == where and last[1] != value and self._amended(fact, last[1]):
            self.moistures[-1] = (where, value)  # "wet, i mean dry"
            return
        weak = self.table.has("weak_moisture", fold(self.context.text[fact.start : fact.end]))
        if dry is not None and not where and not weak and not self.spots and "dry" in (value, dry.first("MOISTURE")):
            apart = self.context.sentence(dry) != self.context.sentence(fact) or (
                "wet" in (value, dry.first("MOISTURE")) and fact.start - dry.end > APART
            )
            if apart and value != dry.first("MOISTURE"):
                self.twice("moisture", fact, *(self.context.text[f.start : f.end] for f in (dry, fact)))
        self.moistures.append((where or ("weak" if weak else ""), value))

    def on_texture(self, fact: Fact) -> None:
        """Sand, loam, clay."""
        if self.texture is None or (self.texture != fact.first("TEXTURE") and self._amended(fact, self.texture)):
            self.texture = fact.first("TEXTURE")

    def on_acidity(self, fact: Fact) -> None:
        """pH."""
        value = fact.first("NUMBER")
        if value is None:
            self.awaits = fact
            self.keep(fact)
        elif 3 <= value <= 10:
            behind = " ".join(x.text for x in scan(self.context.text[fact.end : fact.end + APART])[:2])
            self.ph = float(value) + (0.5 if self.table.has("and_half", behind) else 0.0)  # "cinco e meio"
        else:
            self.complain("out_of_range", fact)

    def on_potassium(self, fact: Fact) -> None:
        """Soil test potassium in ppm."""
        value = fact.first("NUMBER")
        if value is None:
            self.awaits = fact
            self.keep(fact)
        elif 0 < value <= 2000:
            self.k_ppm = float(value)
        else:
            self.complain("out_of_range", fact)

    def on_stage(self, fact: Fact) -> None:
        """Growth stage; two right beside each other are a range."""
        value: str = fact.first("STAGE")
        if set(self._said_before(fact)[-NEAR_WORDS:]) & self.table.traits.get("later_stage", frozenset()):
            self.keep(fact)  # "will recheck at R2"
            return
        if "/" in value:
            written, value = value, value.split("/")[1]
            self.context.mention("span_range", fact.start, fact.end, text=written, read=value)
        number = _stage_number(value)
        if number is not None and not 0 < number <= (8 if value[0] == "R" else 30):
            self.complain("no_such_stage", fact)
            return
        if self.stage is None or self.stage == value:
            self.stage = value
            return
        other = _stage_number(self.stage)
        before = next((f for f in reversed(self.facts[: fact.at]) if f.kind == "stage"), None)
        between = self.context.text[before.end : fact.start] if before is not None else ""
        beside = fact.lead in ("", "link") and len(between.split()) <= NEAR_WORDS
        if self._amended(fact, self.stage):
            self.stage = value
        elif beside and self.stage[0] == value[0] and number is not None and other is not None:
            self.stage = f"{value[0]}{(other + number) / 2:g}"
        else:
            self.twice("stage", fact, self.stage, value)

    def on_roots(self, fact: Fact) -> None:
        """What roots look like."""
        self._add_roots(fact, [str(value) for value in fact.all("ROOT")])

    def on_nodules(self, fact: Fact) -> None:
        """What nodules look like; how many is kept in words."""
        self._add_roots(fact, [f"nodules_{value}" for value in fact.all("NODULE")])

    def _add_roots(self, fact: Fact, values: list[str]) -> None:
        if not values:
            self.keep(fact)
        self.roots.update(values)

    def on_tops(self, fact: Fact) -> None:
        """What the plants show, gathered by sentence."""
        self.tops.setdefault(self.context.sentence(fact), []).append(fact)

    def _undug_yellow(self, fact: Fact) -> bool:
        """ "Amarillo todo, suelo seco, no saqué plantas": where nobody dug, yellow is the color of the plants."""
        kinds = {other.kind for other in self.facts}
        dug = kinds & {"plants", *_OF_FEMALES} - {"shades"}
        shades = [other for other in self.facts if other.kind == "shades"]
        colours = {colour for other in shades for colour in other.all("COLOUR")}
        before = self.neighbour(fact, -1)
        tied = before is not None and fact.lead in ("", "link")
        of_females = tied and any(self._means(x.text, "FEMALES") for x in scan(self._written(before or fact)))
        denied = tied and before is not None and before.kind == "not_looked"  # "no miré (hembras) amarillas"
        if "not_looked" not in kinds or dug or colours != {"yellow"} or of_females or denied:
            return False
        for word in (word for word in fact.words if word.type == "COLOUR"):
            word.type = "LEAF"
            self.on_tops(fact)
        return True

    def _pale_tops(self, fact: Fact) -> bool:
        """ "Yellow, stunted patch by the tile. In: 3 plants ..": the color of plants, before anything was counted."""
        after = self.neighbour(fact, 1)
        if [(word.type, word.value) for word in fact.words] != [("COLOUR", "yellow")] or after is None:
            return False
        shaped = any(word.type == "TOP" and word.value not in ("healthy", "yellow") for word in after.words)
        counted = any(f.numbers or f.kind in ("none", "too_many") for f in self._before_in_sentence(fact))
        if after.kind != "tops" or after.lead not in ("soft", "link") or not shaped or counted:
            return False
        fact.words[0].type = "LEAF"
        self.on_tops(fact)
        return True

    # --- seed, spray, next look

    def on_variety(self, fact: Fact) -> None:
        """Variety, resistance and where it comes from."""
        after = self.neighbour(fact, 1)
        counts = after is not None and after.kind == "plants" and after.lead in ("", "link", "colon", "soft")
        if (
            self.scope.check
            and self.scope.said
            and fact.lead in ("line", "hard")
            and not fact.has("RESISTANCE", "SOURCE")
            and counts
        ):
            self.scope = self.main  # "Check strip (5 pl): 61 48 ..", and below it "Variety (8 pl): 2 0 .."
        if self._of_another_season(fact):
            self.keep(fact)  # "the farmer is planting Peking next year"
            return
        names = " ".join(fact.all("NAME")) or None
        resistance: Resistance | None = fact.first("RESISTANCE")
        source: str | None = fact.first("SOURCE")
        if names is None and resistance is None and source is None:
            self.keep(fact)
            return
        after = self.neighbour(fact, 1)
        counts = after is not None and after.kind == "plants" and after.lead in ("", "link", "colon")
        told = self.scope.said or self.scope.plants is not None
        if self.scope.check and resistance == "resistant" and (told or counts or fact.lead != ""):
            self.scope = self.main  # "S check 45 30 52, R var 2 0 1", "testigo 5 plantas 64; resistente 5 plantas 3"
        old = self.variety or Variety()
        if source is not None and resistance is None and old.resistance is None:
            resistance = "resistant"
        self.variety = Variety(names or old.name, resistance or old.resistance, source or old.source)

    def _of_another_season(self, fact: Fact) -> bool:
        """Does its sentence speak of next year, or of the one before?"""
        text = self.context.text
        behind = re.split(r"[.;!?\n]", text[fact.end : fact.end + SAID_BEFORE])[0]
        before = re.split(r"[.;!?\n]", lead_of(text, fact.start))[-1].split(",")[-1]
        return self.table.said("other_season", before + text[fact.start : fact.end] + behind.split(",")[0])

    def on_spray(self, fact: Fact) -> None:
        """What was sprayed and when."""
        if self._intended(fact) and not fact.has("DATE", "SPAN"):
            self.keep(fact)  # "was going to spray it, but the bees are out"
            return
        if self._spraying_ahead(fact):
            self.keep(fact)  # "the co-op is spraying it Wednesday"
            return
        what = " + ".join(dict.fromkeys(fact.all("CHEMICAL"))) or None
        written, span = fact.first("DATE"), fact.first("SPAN")
        day = self.context.past(fact, written) if written is not None else None
        days = span[1] if span is not None and span[0] == "days" else None
        if what is None and day is None and days is None:
            self.keep(fact)
            return
        old = self.spray or Spray()
        days = days if days is not None else old.days_ago
        self.spray = Spray(what or old.what, day or old.date, days, old.entry_hours)

    def _of_spraying_ahead(self, fact: Fact) -> bool:
        """ "They are going to spray Depot Friday": the day of what is to come, behind the field's name too."""
        written = fact.first("DATE")
        said = f" {' '.join(self._said_before(fact))} "
        coming = any(f" {phrase} " in said for phrase in self.table.traits["spray_coming"])
        return written is not None and written.weekday is not None and coming

    def _spraying_ahead(self, fact: Fact) -> bool:
        """Is it told as something to come, on a weekday?"""
        written = fact.first("DATE")
        said = " ".join(
            [*self._said_before(fact)[-2:], *(x.text for x in scan(self.context.text[fact.start : fact.end]))]
        )
        coming = any(f" {phrase} " in f" {said} " for phrase in self.table.traits["spray_coming"])
        return written is not None and written.weekday is not None and coming

    def on_entry(self, fact: Fact) -> None:
        """Restricted-entry interval as stated."""
        span = fact.first("SPAN")
        if span is None:
            self.keep(fact)
        else:
            self.entry_hours = float(span[1] if span[0] == "hours" else span[1] * 24)

    def on_look_again(self, fact: Fact) -> None:
        """When to look again; a bare "10 d" at the end of a clause is taken for it, with a remark."""
        written, span = fact.first("DATE"), fact.first("SPAN")
        if not fact.has("LOOK"):
            spray = self.spray if self.spray is not None and self.spray.days_ago is None else None
            since = any(self.table.has("days_since", word) for word in self._said_before(fact)[-1:])
            if since and spray is not None and span is not None and span[0] == "days":
                self.spray = replace(spray, days_ago=span[1])  # "passaram glifosato dia 17/6, tem 9 dias"
                return
            after = self.neighbour(fact, 1)
            ends = after is None or after.lead in ("soft", "hard", "line") or self._tells_all(after)
            if span is not None and span[0] == "hours" and any(f.kind == "spray" for f in self.facts):
                if self.entry_hours is None:  # hours are never a next look
                    self.entry_hours = float(span[1])
                    self.context.mention("bare_hours", fact.start, fact.end)
                return
            before = self.neighbour(fact, -1)
            tied = self.tied_to_text(fact) and not self._coming_back(fact)
            tied = tied and not (before is not None and self._tells_all(before))
            if span is None or span[0] != "days" or not ends or self.look is not None or tied:
                self.keep(fact)
                return
            self.context.mention("bare_span", fact.start, fact.end)
        if written is not None and (written.days_ago or 0) > 0:
            self.date = self.date or self.context.past(fact, written)  # "paso el dato de ayer"
        elif written is not None:
            day = self.context.coming(fact, written, self.visit_day)
            self.look = LookAgain(date=day) if day is not None else self.look
        elif span is not None and span[0] == "days" and 0 < span[1] <= 400:
            self.look = LookAgain(days=span[1])
            if span[2]:
                self.context.mention("span_range", fact.start, fact.end, text=span[2], read=f"{span[1]} d")
        elif span is not None:
            self.complain("out_of_range", fact)
        elif self.look is None:
            self.keep(fact)

    def _tells_all(self, fact: Fact) -> bool:
        """ "10 d on all", "all 10 d": words that only say that it is said of every field."""
        said = " ".join(x.text for x in scan(self.context.text[fact.start : fact.end]))
        return fact.kind == "text" and (self.table.has("for_all", said) or self.table.has("for_both", said))

    def _coming_back(self, fact: Fact) -> bool:
        """Do the words before a bare span speak of coming back ("will see it again in 2 weeks", "bk in 10 d")?"""
        sentence = re.split(r"[.;!?\n]", lead_of(self.context.text, fact.start))[-1]
        words = [x.text for x in scan(sentence)]
        if not words or set(words) & self.table.traits["weather_word"]:
            return False
        return words[-1] in self.table.traits["in_time"] or bool(set(words) & self.table.traits["coming_back"])

    def on_text(self, fact: Fact) -> None:
        """Free text; a noun without its number says nothing."""
        if not self._hearsay(fact) and ((fact.has("FEMALES") and self._says_seen(fact)) or self._with_females(fact)):
            self.saw = fact
            told = re.split(r"[.;!?\n]", self.context.text[fact.start : fact.end + SAID_BEFORE])[0]
            if self.table.said("guesses", told):
                self.complain("doubtful", fact)  # "vi umas bolinhas mas acho que era nódulo"
        said = self.context.text[fact.start : fact.end]
        opening = scan(said)[:2]
        if any(e.type in ("PH", "POTASSIUM") for x in opening for e in self.table.singles.get(x.text, ())):
            self.awaits = fact  # "pH on the last test was 7.4", "soil K on the sheet is 82 ppm"
        if fact.has("TEXT"):
            self.keep(fact)

    def _hearsay(self, fact: Fact) -> bool:
        """ "Grower says he has cysts": what somebody tells, and nobody saw on these roots."""
        clause = _CLAUSE.split(lead_of(self.context.text, fact.start))[-1]
        return self.table.said("hearsay", clause + self._written(fact))

    def _with_females(self, fact: Fact) -> bool:
        """ "6 plants, with cysts on the roots, did not count": seen, where plants were dug."""
        words = [x.text for x in scan(self.context.text[fact.start : fact.end])]
        pairs = pairwise(words)
        females = any(
            lead in anywhere("with_word") and any(e.type == "FEMALES" for e in self.table.singles.get(noun, ()))
            for lead, noun in pairs
        )
        return females and self.scope.plants is not None and not any(self.table.has("denies", w) for w in words)

    def _says_seen(self, fact: Fact) -> bool:
        """Is there a word of seeing before "cysts" in its clause ("saw cysts", "hay quistes")?"""
        before = self.neighbour(fact, -1)
        start = max(before.end if before is not None and before.kind != "text" else 0, fact.start - 30)
        said = re.split(r"[.;,!\n]", self.context.text[start : fact.end])[-1]
        words = {x.text for x in scan(said)}
        said_behind = re.split(r"[.;,!\n]", self.context.text[fact.end : fact.end + 20])[0]
        told = itertools.takewhile(lambda x: not self.table.has("contrast", x.text), scan(said_behind)[:3])
        behind = {x.text for x in told}  # "cysts yes (but no count)"
        if behind & self.table.traits["seen_behind"]:
            words |= {"there", *(behind & anywhere("not_word"))}
        return bool(words & {*self.table.traits["seen"], "there"}) and not words & anywhere("not_seen")

    def on_quoted(self, fact: Fact) -> None:
        """Text in quotes is meant as words."""
        self.keep(fact)
        self.quoted.add(fact.start)

    # --- putting together

    def _note(self) -> Note:
        self._settle_spots()
        if self.main.all_of and len(self.main.mostly) == 1 and not (self.main.colours or self.main.lists):
            for scope in self.spots:  # "white only. Gate 5 plants 3 3 0 1 2. Terrace 5 plants .."
                bare = scope.lists and all(colour is None for _, colour in scope.lists)
                if bare and not scope.mostly and not scope.colours:
                    scope.all_of = True
                    scope.shade(self.main.mostly[0])
        for scope in (self.main, *self.spots):
            scope.color_of_one()
        main, main_list = self.main.females(self.context)
        counted: list[Placed] = [(scope, *scope.females(self.context)) for scope in self.spots]
        kept = [row for row in counted if row[0].said or row[0].plants is not None]
        places = [row for row in kept if not row[0].check]
        females, per_plant = main, main_list
        plants = self.main.plants if self.main.plants is not None or main_list is None else len(main_list)
        if places:
            females, per_plant, plants = self._over_places(places, main, main_list, plants)
        own = [self.main, *(scope for scope, _, _ in places)]
        mostly = tuple(dict.fromkeys(colour for scope in own for colour in scope.mostly))
        self._check_positive(own)
        shades = next((f for f in self.facts if f.kind == "shades" and f.has("COLOUR")), None)
        if females.total == 0 and mostly and shades is not None and not self.context.problems:
            self.complain("none_and_shade", shades)
        note = Note(
            field=self.name.first("FIELD") if self.name is not None else None,
            date=self.date,
            plants=plants,
            method=self.method,
            soaked=self.soaked,
            females=females,
            mostly=mostly,
            per_plant=per_plant,
            spots=tuple(_spot(*row) for row in kept),
            outcome=self._outcome(own, females, mostly),
            soil=Soil(self._moisture(), self.texture, self.ph, self.k_ppm),
            stage=self.stage,
            roots=tuple(sorted(self.roots, key=ROOT_WORDS.index)),
            tops=self._top_words(),
            variety=self.variety,
            spray=self.spray
            if self.entry_hours is None
            else replace(self.spray or Spray(), entry_hours=self.entry_hours),
            look_again=self.look,
            planted=self.planted,
            too_many=any(scope.too_many for scope in own),
        )
        if note.outcome == "not_looked":
            none = note.females.total == 0
            note = replace(note, method=None)  # "no tuve pala", "the fork was in the other truck"
            note = replace(note, females=Females()) if none else note  # "no luck, couldnt dig"
        note = self._with_same(note)
        self._check_tan(note)
        spoken = [*self.own, *([self.name] if self.name is not None else [])] or self.facts
        start, end = min(f.start for f in spoken), max(f.end for f in spoken)
        text = self._free_text()
        told = self.context.text[start:end].split()
        wordy = len(text.split()) >= MANY_WORDS or len(told) - len((note.field or "").split()) >= MOST_SAID_OF_NOTHING
        asks = any(part.endswith("?") for part in told)  # "kestrel update?"
        asked = any(problem.kind == "which_look" for problem in self.context.problems)
        if note.field and (wordy or (asks and text)) and _says_nothing(note) and not asked:
            self.context.complain("only_words", start, end)
        bare = shades is not None and len(shades.words) == 1 and shades.words[0].value == "yellow"
        if bare and shades is not None and mostly == ("yellow",) and self._only_yellow(shades):
            self.complain("doubtful", shades)
        self._ask_for_finding(note)
        self._ask_for_shorthand(note)
        self._ask_for_nodules(note)
        self._ask_for_doubt()
        self._ask_for_number_words(note)
        return replace(note, text=text, where=place(self.context.text, start, end))

    def _only_yellow(self, shade: Fact) -> bool:
        """ "Looked at 6 from the truck, yellow": the leaves or the females? Only where nothing tells of females."""
        return all(f is shade or f.kind not in _OF_FEMALES for f in self.facts) and self.saw is None

    def _ask_for_finding(self, note: Note) -> None:
        """Plants dug and nothing read of what was on them, or a denial left in the text: rather a question."""
        if note.outcome is not None or self.context.problems:
            return
        dug = next((f for f in self.facts if f.kind == "plants"), None)
        if note.plants and dug is not None and self._free_text():
            self.complain("no_finding", dug, plants=note.plants)
            return
        same = next((f for f in self.facts if f.kind == "same"), None)
        if same is not None and self.same is None and note.field:
            self.complain("unread_word", same)
            return
        for start, end in self._unquoted() if note.field else ():
            words = self._without_harmless([x.text for x in scan(self.context.text[start:end])])
            if note.spray is not None and anywhere("enters") & set(words):
                continue  # "no se entra hasta el miércoles"
            if any(self.table.denies(word) for word in words):
                self.context.complain("unread_denial", start, end)
                return

    def _without_harmless(self, words: list[str]) -> list[str]:
        """The words without "no complaints" and other denials that carry nothing of ours."""
        out: list[str] = []
        i = 0
        while i < len(words):
            said = {n: " ".join(words[i : i + n]) for n in (4, 3, 2)}
            size = next(
                (n for n, some in said.items() if self.table.has("harmless", some) or self.table.has("amends", some)), 0
            )
            out += [] if size else [words[i]]
            i += size or 1
        return out

    def _ask_for_shorthand(self, note: Note) -> None:
        """Shorthand without a vowel, or a word a slip away from one of ours, left unread: it may be a datum."""
        if self.context.problems or not note.field:
            return
        for start, end in self._unquoted():
            said = self.context.text[start:end].rstrip()
            if said.endswith("?") and len(said.split()) > 2 and self.context.text[end:].strip() == "":
                self.context.complain("doubtful", start, end)
                return
            if self.table.said("before_now", said):
                continue  # "went from 3 white last week to ..": told, and of another time
            unread = self._unread_count(start, end)
            if unread is not None:
                self.context.complain("which_number", *unread)
                return
            for lexeme in scan(self.context.text[start:end]):
                at = (start + lexeme.start, start + lexeme.end)
                around = self.context.text[start:end]
                other = lexeme.kind == "word" and self._other_field(lexeme.text, note.field, around)
                if other and not self._beside(self.context.text[start : at[0]]):
                    self.context.complain("two_fields", *at)
                    return
                if lexeme.kind == "word" and self._looks_like_data(lexeme.text, self.context.text[at[0] : at[1]]):
                    self.context.complain("unread_word", *at)
                    return

    def _unread_count(self, start: int, end: int) -> tuple[int, int] | None:
        """ "Vi umas vinte ou trinta amarelas": where in free text a number stands before a color or females."""
        for number, noun in pairwise(scan(self.context.text[start:end])):
            told = {e.type for e in self.table.singles.get(noun.text, ())} if len(noun.text) > 2 else set()
            spoken = any(e.type == "NUMBER_WORD" for e in self.table.singles.get(number.text, ()))
            counts = number.kind == "number" or (spoken and not self.table.has("careful", number.text))
            if counts and told & {"COLOUR", "FEMALES"}:
                return start + number.start, start + noun.end
        return None

    def _ask_for_number_words(self, note: Note) -> None:
        """ "So I only got three", ".. two on the third": a number in words, not read, where numbers were told."""
        if note.females.total is None or self.context.problems:
            return
        for start, end in self._unquoted():
            words = [x for x in scan(self.context.text[start:end]) if x.kind == "word"]
            for n, x in enumerate(words):
                value = next((e.value for e in self.table.singles.get(x.text, ()) if e.type == "NUMBER_WORD"), "")
                if value.isdigit() and 1 < int(value) <= MOST_PLANTS and self._counts_unread(note, words, n):
                    self.context.complain("stray_number", start + x.start, start + x.end, number=int(value))
                    return

    def _counts_unread(self, note: Note, words: list[Lexeme], n: int) -> bool:
        """Is it what somebody got, no plants told, or what was on a plant by its place?"""
        got = n > 0 and n == len(words) - 1 and self.table.has("counted", words[n - 1].text) and note.plants is None
        behind = [x.text for x in words[n + 1 : n + 4]]
        nth = any(self._means(word, kind) for word in behind[1:] for kind in ("NTH", "ORDINAL"))
        return got or (bool(behind) and self.table.has("upon_plant", behind[0]) and nth)

    def _ask_for_doubt(self) -> None:
        """A doubt ("not sure whether the brown one was a cyst") or a verb of changing left unread is asked about."""
        for start, end in self._unquoted() if not self.context.problems else ():
            text = fold(self.context.text[start:end])
            if self.table.said("unsure", self.context.text[start:end]):
                self.context.complain("unread_word", start, end)
                return
            opening = re.split(r"\W+", text.strip())[0]
            alone = self.table.has("change_alone", text.strip()) and self.name is not None and end <= self.name.start
            if (alone or self.table.has("change_verb", opening)) and _sentence_begins(self.context.text, start):
                self.context.complain("unread_word", start, end)
                return

    def _ask_for_nodules(self, note: Note) -> None:
        """ "Couldn't tell if nodules or females, maybe 3": what is easiest to take for females is asked about."""
        if self.context.problems or note.outcome != "seen":
            return
        text = self.context.text
        for first, last in self._unquoted():
            if not any(self._means(x.text, "NODULES") for x in scan(text[first:last])):
                continue
            start = first - len(re.split(r"[,.;!?\n]", text[:first])[-1])
            end = last + len(re.split(r"[,.;!?\n]", text[last:])[0])
            words = [lexeme.text for lexeme in scan(text[start:end])]
            either = any(self.table.has("or_word", word) for word in words) and any(
                self._means(word, "FEMALES") for word in words
            )
            if either or any(self.table.said(kind, text[start:end]) for kind in ("unsure", "guesses", "untold")):
                start += len(text[start:end]) - len(text[start:end].lstrip())
                told = note.females.total
                kind = "doubtful" if told is None else "maybe_nodules"
                self.context.complain(kind, start, end, count=told)
                return

    def _means(self, word: str, kind: str) -> bool:
        return any(entry.type == kind for entry in self.table.singles.get(word, ()))

    def _unquoted(self) -> list[tuple[int, int]]:
        """Free text that does not stand in quotes."""
        return [(start, end) for start, end in self.loose if start not in self.quoted]

    def _other_field(self, word: str, told: str, unread: str) -> bool:
        """The first word of another of the crew's fields, left unread?"""
        if len(word) < 5 or word in self.table.singles or word in self.table.plain or word in fold(told):
            return False
        named = [fold(name) for name in self.context.fields if name and fold(name.split(" ")[0]) == word]
        return bool(named) and not any(name in fold(unread) and name != word for name in named)

    def _beside(self, before: str) -> bool:
        """ "next to Turnpike", "perto do Mangueiral": do the words end in what tells where a field lies?"""
        words = [lexeme.text for lexeme in scan(before)][-LONGEST_BESIDE:]
        spans = [" ".join(words[n:last]) for n in range(len(words)) for last in range(n + 1, len(words) + 1)]
        return any(self.table.has("lies_by", said) and not self.table.has("goal", said) for said in spans)

    def _looks_like_data(self, word: str, written: str) -> bool:
        if word in self.table.singles or word in self.table.plain or not word.isalpha() or written[:1].isupper():
            return False
        if word in self.table.shorts:
            said = (e for part in self.table.shorts[word] for e in self.table.singles.get(part, ()))
            return any(e.type in NEAR_TYPES - {"MOSTLY"} for e in said)
        if len(word) > 2 and not set(word) & set("aeiouy"):
            shorthand = Lexeme("word", word, 0, len(word), True)
            return len(without_vowels(shorthand, self.context.language, (), False)) != 1
        if len(word) < 5 or ordinary(word, self.context.language):
            return False
        near = near_words(word, self.context.language)
        return any(e.type in NEAR_TYPES and not e.slip for other in near for e in self.table.singles[other])

    def _free_text(self) -> str:
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

    def _settle_spots(self) -> None:
        """One place alone separates nothing: it is where they dug, and stays in the text."""
        places = [scope for scope in self.spots if not scope.check]
        main = self.main
        told = main.counted or main.none or main.too_many or main.zeros  # shades alone are those of the one place
        if len(places) != 1 or told or any(scope.check for scope in self.spots):
            return
        only = places[0]
        if any(colour not in only.mostly for colour in main.mostly):
            return
        if self.main.plants is not None and only.plants not in (None, self.main.plants):
            return
        self.spots.remove(only)
        only.plants = only.plants if only.plants is not None else self.main.plants
        self.loose.append((only.start, only.end))
        self.main = only

    def _over_places(
        self, places: list[Placed], main: Females, main_list: tuple[int, ...] | None, plants: int | None
    ) -> tuple[Females, tuple[int, ...] | None, int | None]:
        """The note's totals from its places."""
        sums: dict[str, int | None] = {}
        for key in (*COLOURS, "total"):
            values = [getattr(found, key) for _, found, _ in places]
            sums[key] = None if None in values else sum(values)
        lists = [listed for _, _, listed in places]
        joined = None if None in lists else tuple(n for listed in lists for n in listed or ())
        counts = [
            scope.plants if scope.plants is not None else (len(listed) if listed else None)
            for scope, _, listed in places
        ]
        whole = None if None in counts else sum(count or 0 for count in counts)
        start, end = places[0][0].start, places[-1][0].end
        total = sums["total"]
        if self.main.said and main.total is not None and total is not None and main.total != total:
            self.context.complain("spots_mismatch", start, end, sum=total, total=main.total)
        if plants is not None and whole is not None and plants != whole:
            self.context.complain("twice", start, end, what=self.label("plants"), first=plants, second=whole)
        females = Females(**sums) if total is not None or main.total is None else main
        return females, joined or main_list, plants if plants is not None else whole

    def _check_positive(self, own: list[Scope]) -> None:
        for scope in own:
            if scope.positive is not None and scope.plants is not None and scope.positive > scope.plants:
                fact = next(f for f in scope.counts if f.kind == "positive")
                self.complain("more_positive", fact, count=scope.positive, plants=scope.plants)

    def _outcome(self, own: list[Scope], females: Females, mostly: tuple[Colour, ...]) -> Outcome | None:
        shaded = bool(mostly) and females.total != 0
        some = any(scope.positive or any(scope.colours.values()) or scope.too_many for scope in own)
        seen = bool(females.total) or shaded or some or (self.saw is not None and females.total is None)
        if self.not_looked is not None:
            silent = females.total is None or (not seen and all(scope.plants is None for scope in own))
            if not seen and silent:
                return "not_looked"  # "no luck, couldnt dig": nothing seen, as nobody looked
            told = {x.text for x in scan(self.context.text[self.not_looked.start : self.not_looked.end])}
            denied = any(self.table.denies(word) for word in told)
            undug = any(self.table.has("dig_word", word) for word in told)
            if undug and self.method in ("pulled", "eased"):
                self.keep(self.not_looked)  # "too wet to dig, just pulled 4"
            elif denied or not self.table.said("only_reason", self._written(self.not_looked)):
                self.complain("not_looked_but_seen", self.not_looked)
            else:
                self.keep(self.not_looked)  # "it got dark": a reason alone denies nothing that was found
        if seen:
            return "seen"
        kept_out = any(
            f.kind == "moisture" and self.table.has("kept_out", fold(self.context.text[f.start : f.end]))
            for f in self.facts
        )
        if (
            females.total is None
            and (self.undug is not None or kept_out)
            and self.main.plants is None
            and not self.spots
        ):
            return "not_looked"
        silent = females.total is None and self.main.plants is None and not self.spots
        if silent and (self._undone() or self._turned_back()):
            return "not_looked"
        return "none_seen" if females.total == 0 else None

    def _turned_back(self) -> bool:
        """ "Spray sign on the gate so i left", "no entry, went home": kept out by something, and gone again."""
        if self.method is not None or self.name is None:
            return False
        facts = [*self.facts, self.name]
        begin, last = min(f.start for f in facts), max(f.end for f in facts)
        text = self.context.text[begin:] if len(self.context.notes) == 0 else self.context.text[begin:last]
        return self.table.said("keeps_out", text) and self.table.said("gone_again", text)

    def _undone(self) -> bool:
        """ "No se examinaron raíces", "não foi possível vistoriar": denied, little words, a verb of looking or digging.

        Only where nothing of what may be found is named behind it: "no miré hembras amarillas" denies another thing.
        """
        for start, _ in self._unquoted():
            for clause in _CLAUSE.split(self.context.text[start:])[:1]:
                words = [x.text for x in scan(clause) if x.kind == "word"]
                denied = [n for n, word in enumerate(words) if self.table.denies(word)]
                verb = denied[0] + 1 if denied else len(words)
                while verb < len(words) and self.table.has("undone_filler", words[verb]):
                    verb += 1
                if denied and verb == len(words):  # "it seemed too early to bother digging, so I did not"
                    before = [x.text for x in scan(re.split(r"[.;!?\n]", self.context.text[:start])[-1])]
                    return any(self.table.stemmed("look_stem", word) for word in before)
                if verb < len(words) and self.table.stemmed("look_stem", words[verb]):
                    named = {e.type for word in words[verb + 1 :] for e in self.table.singles.get(word, ())}
                    return not named & {"FEMALES", "COLOUR", "TOO_MANY", "NODULES", "TOPS"}
        return False

    def _moisture(self) -> Moisture | None:
        """What the roots stood in: below the top when both are told, else the wetter."""
        below = [value for where, value in self.moistures if where == "below"]
        plain = [value for where, value in self.moistures if where == ""]
        chosen = below or plain or [value for _, value in self.moistures]
        return max(chosen, key=WETTER.index) if chosen else None

    def _top_words(self) -> tuple[str, ...]:
        words: set[str] = set()
        for sentence in self.tops.values():
            found = [word for group in _by_leaves(sentence) for word in self._top_words_of(group)]
            words.update(found)
            if not found:
                for fact in sentence:
                    self.keep(fact)
        if words & {"interveinal_new", "edges_old", "flash_bands"}:
            words.discard("yellow")
        if len(words) > 1:
            words.discard("healthy")
        return tuple(sorted(words, key=TOP_WORDS.index))

    def _top_words_of(self, group: list[Word]) -> list[str]:
        """What is said about the same leaves: which, what color, what pattern."""
        types = {word.type for word in group}
        values = [word.value for word in group if word.type == "TOP"]
        leaves = [word.value for word in group if word.type == "LEAF"]
        pale = "yellow" in leaves or "yellow" in values or ("white" in leaves and "NEW" in types)
        flash = any(word.type == "BANDS" and word.value == "flash" for word in group)
        burnt = any(word.type == "EDGES" and word.value == "burnt" for word in group)
        found = [value for value in values if value != "yellow"]
        if "VEINS" in types and "OLD" not in types:
            found.append("interveinal_new")
        elif "BANDS" in types and (pale or flash or "NEW" in types or self.spray is not None):
            found.append("flash_bands")
        elif "EDGES" in types and "NEW" not in types and (pale or burnt or "brown" in leaves):
            found.append("edges_old")
        elif pale:
            found.append("yellow")
        elif "GREEN" in types and "TOPS" in types and not found and not leaves:
            found.append("healthy")
        return found

    def _with_same(self, note: Note) -> Note:
        """ "Same as above": what this note does not say is taken from the one before, counts only if none were seen."""
        if self.alike:
            note = self._with_alike(note, self.context.notes[-1])
        if self.same is None:
            return note
        above = self.context.notes[-1]
        self.context.mention("same", self.same.start, self.same.end, read=above.field or "")
        silent = note.females.total is None and not note.mostly and note.outcome is None
        kinds = {"same", "field", "courtesy", "plants", "how", "soaked", "date", "stage", "moisture", "texture"}
        said = self.context.sentence(self.same)
        little = [
            f
            for f in self.own
            if f.kind == "text"
            and (len(self.context.text[f.start : f.end].split()) < 3 or self.context.sentence(f) != said)
        ]
        alone = all(fact.kind in kinds or fact in little for fact in self.own) and note.plants in (None, above.plants)
        nothing = silent and (above.outcome in ("none_seen", "not_looked") or (alone and not above.spots))
        soil = Soil(
            note.soil.moisture or above.soil.moisture,
            note.soil.texture or above.soil.texture,
            note.soil.ph,
            note.soil.k_ppm,
        )
        return replace(
            note,
            date=note.date or above.date,
            method=note.method or above.method,
            soaked=above.soaked if note.soaked is None else note.soaked,
            stage=note.stage or above.stage,
            soil=soil,
            plants=above.plants if note.plants is None else note.plants,
            females=above.females if nothing else note.females,
            per_plant=above.per_plant if nothing else note.per_plant,
            mostly=above.mostly if nothing else note.mostly,
            outcome=above.outcome if nothing else note.outcome,
            roots=note.roots or (above.roots if nothing else ()),
            tops=note.tops or (above.tops if nothing else ()),
            look_again=note.look_again or above.look_again,
        )

    def _with_alike(self, note: Note, above: Note) -> Note:
        """ "Same soil, same stage, 6 dug": each thing said to be the same, and nothing else, from the note above."""
        if "soil" in self.alike:
            soil = Soil(note.soil.moisture or above.soil.moisture, note.soil.texture or above.soil.texture)
            note = replace(note, soil=replace(note.soil, moisture=soil.moisture, texture=soil.texture))
        if "stage" in self.alike:
            note = replace(note, stage=note.stage or above.stage)
        if "method" in self.alike:
            soaked = above.soaked if note.soaked is None else note.soaked
            note = replace(note, method=note.method or above.method, soaked=soaked)
        if "seed" in self.alike:
            note = replace(note, variety=note.variety or above.variety)
        silent = note.females.total is None and not note.mostly and note.outcome is None
        counts = "counts" in self.alike and silent and not above.spots
        if counts or "plants" in self.alike:
            note = replace(note, plants=above.plants if note.plants is None else note.plants)
        if counts:
            told = {"females": above.females, "per_plant": above.per_plant, "mostly": above.mostly}
            note = replace(note, outcome=above.outcome, **told)  # type: ignore[arg-type]  # three types of three keys
        return note

    def _check_tan(self, note: Note) -> None:
        if note.planted is None or not ((note.females.tan or 0) + (note.females.brown or 0)):
            return
        days = ((note.date or self.context.sent) - note.planted).days
        if days < TAN_DAYS:
            told = (f for f in self.facts if set(f.all("COLOUR")) & {"tan", "brown"})
            self.complain("too_early_tan", next(told, self.facts[0]), days=days)


def is_link(word: str, made: Table) -> bool:
    """Is it a little word only?"""
    types = {entry.type for entry in made.singles.get(word, ())}
    return "LINK" in types and types <= COMMAND_TYPES | {"LINK", "ABOUT"}


def _shade_and_count(fact: Fact) -> bool:
    """ "(All) brown, gave 30": a color, its number behind it; not "(only) 2 brown", "(only) brown: 9"."""
    told = fact.kind == "colour_count" and fact.lead in ("", "link") and len(fact.words) > 1
    return told and fact.words[0].type == "COLOUR" and fact.words[1].lead in ("link", "soft")


def _says_nothing(note: Note) -> bool:
    """Is there nothing in the note but a field, perhaps a day, and words?"""
    return note == Note(field=note.field, date=note.date)


def _single_count(fact: Fact) -> bool:
    return fact.kind == "colour_series" or (fact.kind in ("colour_count", "total_count") and len(fact.numbers) == 1)


def _by_leaves(facts: list[Fact]) -> list[list[Word]]:
    """The words of a sentence about the plants, new and old leaves kept apart."""
    groups: list[list[Word]] = [[]]
    age = ""
    for word in (word for fact in facts for word in fact.words):
        if word.type in ("NEW", "OLD"):
            if age not in ("", word.type):
                groups.append([])
            age = word.type
        groups[-1].append(word)
    return groups


def _stage_number(stage: str) -> float | None:
    return None if stage[1:] in ("E", "C") else float(stage[1:])


def _spot(scope: Scope, females: Females, listed: tuple[int, ...] | None) -> Spot:
    plants = scope.plants if scope.plants is not None or not listed else len(listed)
    return Spot(scope.name, plants, females, listed, scope.check, tuple(scope.mostly))


def _sentence_begins(text: str, at: int) -> bool:
    """Does a sentence or clause begin there?"""
    before = text[:at].rstrip(" \t")
    return before == "" or before[-1] in ".;,:!?\n"
