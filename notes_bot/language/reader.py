"""read_note: a message becomes notes, commands, problems and remarks. One bad clause costs one clause."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from typing import Any

from notes_bot.language import commands
from notes_bot.language.days import DayRead, DayWritten, coming_day, past_day
from notes_bot.language.facts import Fact, parse
from notes_bot.language.lexer import Draft
from notes_bot.language.mistakes import day_text, place, problem, remark
from notes_bot.language.pieces import Cutter
from notes_bot.language.scan import clean, scan
from notes_bot.language.words import decide_language, table
from notes_bot.model import (
    COLOURS,
    Colour,
    Command,
    Females,
    Language,
    LookAgain,
    Note,
    Problem,
    Reading,
    Soil,
    Spot,
    Spray,
    Variety,
)

WEATHERY = frozenset(
    ["rain", "rained", "shower", "hail", "llovio", "lluvia", "choveu", "chuva", "cultivated", "harvested", "spread", "sidedressed", "limed", "burndown", "tilled", "cosecha", "colheita", "granizo"]
)
ROOT_WORDS = (
    "white",
    "dark",
    "fine",
    "stubby",
    "snapped",
    "nodules_few",
    "nodules_many",
    "nodules_pink",
    "nodules_brown",
)
TOP_WORDS = (
    "healthy", "yellow", "interveinal_new", "edges_old", "flash_bands", "stunted", "uneven", "patch", "ring", "wilted", "early_ripe",
)  # fmt: skip
TAN_DAYS = 24
"""Tan or brown females sooner than this after planting contradict the cycle (judgement from a 28-day generation)."""


def read_note(
    text: str,
    *,
    sent: date,
    fields: Sequence[str] = (),
    language: Language | None = None,
    day_first: bool | None = None,
) -> Reading:
    """Read one message.

    Args:
        text: what the person wrote, any text of any length; never raises.
        sent: the writer's day when it was sent; "yesterday" and days without a year are counted from it.
        fields: names and aliases of the crew's fields, to recognise a name; without them a name is what stands first.
        language: the writer's own language, taken when the words do not tell.
        day_first: whether 7/5 is the 7th of May; by the language when ``None``.

    Returns:
        Notes in the order written, commands, problems (not understood or contradictory) and remarks (understood only
        after a correction).
    """
    return _Message(clean(text), sent, tuple(fields), language, day_first).read()


@dataclass(slots=True)
class _Scope:
    """Counts of one place, or of the note as a whole."""

    name: str = ""
    check: bool = False
    start: int = 0
    end: int = 0
    plants: int | None = None
    colours: dict[Colour, int] = field(default_factory=dict)
    lists: list[tuple[tuple[int, ...], Colour | None]] = field(default_factory=list)
    total: int | None = None
    zero: list[Colour] = field(default_factory=list)
    mostly: list[Colour] = field(default_factory=list)
    all_of: bool = False
    none: bool = False
    too_many: bool = False
    counts: list[Fact] = field(default_factory=list)
    averages: dict[Colour | None, float] = field(default_factory=dict)
    average_at: tuple[int, int] = (0, 0)

    @property
    def said(self) -> bool:
        return bool(
            self.colours
            or self.lists
            or self.total is not None
            or self.none
            or self.too_many
            or self.mostly
            or self.averages
        )


@dataclass(slots=True)
class _Draft:
    """A note being gathered from facts."""

    facts: list[Fact] = field(default_factory=list)
    field_fact: Fact | None = None


class _Message:
    def __init__(
        self, text: str, sent: date, fields: tuple[str, ...], language: Language | None, day_first: bool | None
    ) -> None:
        self.text = text
        self.sent = sent
        self.fields = fields
        lexemes = scan(text)
        own = {lexeme.text for name in fields for lexeme in scan(clean(name))}
        self.language = decide_language(
            [x.text for x in lexemes[:2000] if x.kind == "word" and x.text not in own], language
        )
        self.day_first = day_first
        self.problems: list[Problem] = []
        self.remarks: list[Problem] = []
        self.commands: list[Command] = []
        self.notes: list[Note] = []
        self.lexemes = lexemes

    # the road of one message

    def read(self) -> Reading:
        pieces = Cutter(self.language, self.fields).cut(self.lexemes)
        rest = commands.take(self, pieces)
        if rest:
            draft = Draft(self.text, self.language, self.fields, rest)
            facts = parse(draft)
            self._slips(draft)
            self.sentences = sorted({fact.start for fact in facts if fact.lead in ("hard", "line")})
            self._gather(facts)
        order = {id(p): n for n, p in enumerate(self.problems)}
        self.problems.sort(key=lambda p: (p.where.line, p.where.column, order[id(p)]))
        return Reading(
            self.language, tuple(self.notes), tuple(self.commands), tuple(self.problems), tuple(self.remarks)
        )

    def complain(self, kind: str, start: int, end: int, **values: object) -> None:
        """A problem at a place in the text."""
        self.problems.append(problem(kind, self.language, place(self.text, start, end), **values))

    def mention(self, kind: str, start: int, end: int, **values: object) -> None:
        """A remark at a place in the text."""
        self.remarks.append(remark(kind, self.language, place(self.text, start, end), **values))

    def _slips(self, draft: Draft) -> None:
        seen: set[tuple[int, int]] = set()
        for slip in draft.slips:
            if (slip.start, slip.end) not in seen:
                seen.add((slip.start, slip.end))
                self.mention(slip.kind, slip.start, slip.end, read=slip.read)
        for kind, start, end in draft.asks:
            self.complain(kind, start, end)

    def sentence(self, fact: Fact) -> int:
        """Which sentence a fact stands in."""
        return bisect_right(self.sentences, fact.start)

    def _gather(self, facts: list[Fact]) -> None:
        drafts: list[_Draft] = []
        header: list[Fact] = []
        current = _Draft()
        for n, fact in enumerate(facts):
            if fact.kind == "courtesy":
                continue
            if fact.kind == "field":
                carried: list[Fact] = []
                if current.field_fact is not None or any(self._solid(f) for f in current.facts):
                    while (
                        current.facts
                        and current.field_fact is not None
                        and current.facts[-1].kind == "date"
                        and current.facts[-1].lead in ("hard", "line")
                    ):
                        carried.insert(0, current.facts.pop())
                    drafts.append(current)
                    current = _Draft(carried)
                elif (
                    current.facts
                    and all(f.kind in ("date", "text") for f in current.facts)
                    and fact.words[0].start > 0
                    and self._own_line(current.facts, fact)
                ):
                    header = current.facts
                    current = _Draft()
                current.field_fact = fact
                continue
            current.facts.append(fact)
        drafts.append(current)
        header_date = next((f for f in header if f.kind == "date"), None)
        for k, gathered in enumerate(drafts):
            self._finish(gathered, header_date, header if k == 0 else [], last=k == len(drafts) - 1)

    def _solid(self, fact: Fact) -> bool:
        return fact.kind not in ("date", "text", "ago", "stage", "moisture", "quoted")

    def _own_line(self, facts: list[Fact], fact: Fact) -> bool:
        return "\n" in self.text[facts[-1].end : fact.start]

    # one note

    def _finish(self, gathered: _Draft, header_date: Fact | None, header: list[Fact], last: bool) -> None:
        facts = gathered.facts
        name = gathered.field_fact
        if not facts and name is None:
            return
        if commands.reply(self, gathered.field_fact, facts):
            return
        if name is None and all(f.kind in ("text", "quoted") for f in facts):
            if self.notes or self.commands or not self._worth_saying(facts):
                if self.notes and facts:
                    self._append_text(facts)
                return
            self.complain("nothing_read", facts[0].start, facts[-1].end)
            return
        note = _NoteMaker(self, name, facts, header_date).make()
        if header:
            extra = "; ".join(self.text[f.start : f.end] for f in header if f.kind == "text")
            if extra:
                note = replace(note, text="; ".join(t for t in (extra, note.text) if t))
        self.notes.append(note)

    def _append_text(self, facts: list[Fact]) -> None:
        extra = "; ".join(self.text[f.start : f.end].strip() for f in facts)
        self.notes[-1] = replace(self.notes[-1], text="; ".join(t for t in (self.notes[-1].text, extra) if t))

    def _worth_saying(self, facts: list[Fact]) -> bool:
        return any(ch.isalnum() for fact in facts for ch in self.text[fact.start : fact.end])

    def past(self, fact: Fact, written: DayWritten) -> date | None:
        """The day of something that happened, with a complaint or a remark where it is due."""
        return self._settle(fact, past_day(written, self.sent, self.language, self.day_first))

    def coming(self, fact: Fact, written: DayWritten, start: date) -> date | None:
        """The day of something planned."""
        return self._settle(fact, coming_day(written, start, self.language, self.day_first))

    def _settle(self, fact: Fact, found: DayRead) -> date | None:
        word = next((w for w in fact.words if w.type == "DATE"), fact.words[0])
        if found.wrong:
            self.complain(found.wrong, word.start, word.end, sent=day_text(self.sent, self.language))
            return None
        if found.other is not None and found.day is not None:
            self.mention(
                "which_day",
                word.start,
                word.end,
                read=day_text(found.day, self.language),
                other=day_text(found.other, self.language),
            )
        elif found.flipped and found.day is not None:
            self.mention("flipped_day", word.start, word.end, read=day_text(found.day, self.language))
        return found.day


class _NoteMaker:
    """Facts of one note to a Note."""

    def __init__(self, message: _Message, name: Fact | None, facts: list[Fact], header_date: Fact | None) -> None:
        self.m = message
        self.name = name
        self.facts = facts
        self.header_date = header_date
        self.main = _Scope()
        self.spots: list[_Scope] = []
        self.scope = self.main
        self.loose: list[tuple[int, int, str]] = []
        self.values: dict[str, Any] = {}
        self.roots: list[str] = []
        self.moistures: list[tuple[str, str]] = []
        self.texture: str | None = None
        self.ph: float | None = None
        self.k: float | None = None
        self.stage: str | None = None
        self.date: date | None = None
        self.date_fact: Fact | None = None
        self.planted: date | None = None
        self.method: str | None = None
        self.soaked: bool | None = None
        self.variety: dict[str, str | None] = {}
        self.spray: Spray | None = None
        self.entry: float | None = None
        self.look: LookAgain | None = None
        self.not_looked: Fact | None = None
        self.dap: Fact | None = None
        self.top_bags: dict[int, list[Fact]] = {}
        self.same: Fact | None = None
        self.refusals: list[Fact] = []

    def make(self) -> Note:
        self._dates()
        for n, fact in enumerate(self.facts):
            take = getattr(self, "_" + fact.kind, None)
            if take is not None:
                take(fact, n)
        self._averages()
        return self._note()

    def keep(self, fact: Fact) -> None:
        """Into the free text, as written; a sign alone says nothing."""
        if all(ch.isascii() and not ch.isalnum() for ch in self.m.text[fact.start : fact.end]):
            return
        self.loose.append((fact.start, fact.end, self.m.text[fact.start : fact.end].strip()))

    # dates first: the others are counted from the day of the visit

    def _dates(self) -> None:
        for n, fact in enumerate(self.facts):
            if fact.kind == "date" and self.date_fact is None and not self._said_of_something(n):
                self.date_fact = fact
                self.date = self.m.past(fact, fact.first("DATE"))
            elif fact.kind == "ago" and self.date_fact is None and not self._said_of_something(n):
                unit, count = fact.first("SPAN")
                if unit == "days":
                    self.date_fact = fact
                    self.date = self.m.past(fact, DayWritten("", days_ago=count))
        if self.date_fact is None and self.header_date is not None:
            self.date = self.m.past(self.header_date, self.header_date.first("DATE"))

    def _said_of_something(self, n: int) -> bool:
        """A day right behind free text about weather or field work is the day of that, not of the visit."""
        if n == 0 or self.facts[n].lead not in ("", "link"):
            return False
        before = self.facts[n - 1]
        if before.kind not in ("text",) or before.end > self.facts[n].start:
            return False
        words = {x.text for x in scan(self.m.text[before.start : before.end])}
        return bool(words & WEATHERY)

    @property
    def visit_day(self) -> date:
        return self.date or self.m.sent

    def _date(self, fact: Fact, n: int) -> None:
        if fact is not self.date_fact:
            if n and fact.lead in ("", "link") and self.facts[n - 1].kind == "text" and self.loose:
                start, _, _ = self.loose[-1]
                self.loose[-1] = (start, fact.end, self.m.text[start : fact.end].strip())
                return
            day = past_day(fact.first("DATE"), self.m.sent, self.m.language, self.m.day_first).day
            if self.date_fact is not None and day is not None and self.date is not None and day != self.date:
                self.m.complain(
                    "twice",
                    fact.start,
                    fact.end,
                    what=self._what("date"),
                    first=day_text(self.date, self.m.language),
                    second=day_text(day, self.m.language),
                )
            elif day is None:
                self.keep(fact)

    def _ago(self, fact: Fact, n: int) -> None:
        if fact is not self.date_fact:
            self._tail(fact, n)

    def _tail(self, fact: Fact, n: int) -> None:
        """Kept as text, joined to the text it follows."""
        if n and fact.lead in ("", "link") and self.loose and self.facts[n - 1].kind == "text":
            start, _, _ = self.loose[-1]
            self.loose[-1] = (start, fact.end, self.m.text[start : fact.end].strip())
        else:
            self.keep(fact)

    def _what(self, kind: str) -> str:
        names = {
            "date": {"en": "date", "es": "fecha", "pt": "data"},
            "plants": {"en": "plants", "es": "plantas", "pt": "plantas"},
            "stage": {"en": "stage", "es": "estadio", "pt": "estádio"},
            "total": {"en": "total", "es": "total", "pt": "total"},
            "list": {"en": "counts", "es": "conteos", "pt": "contagens"},
        }
        if kind in names:
            return names[kind][self.m.language]
        return table(self.m.language).first.get(("COLOUR", kind), kind)

    def _planted(self, fact: Fact, n: int) -> None:
        written = fact.first("DATE")
        span = fact.first("SPAN")
        if written is not None:
            self.planted = self.m.past(fact, written)
        elif span is not None and span[0] == "days":
            self.planted = self.m.past(fact, DayWritten("", days_ago=span[1]))
        else:
            self.keep(fact)

    def _after_planting(self, fact: Fact, n: int) -> None:
        days = fact.first("SPAN_AFTER_PLANTING")
        if isinstance(days, int) and days < 300:
            self.dap = fact
            if self.planted is None:
                self.planted = self.visit_day - timedelta(days=days)
        else:
            self.m.complain("out_of_range", fact.start, fact.end)

    # plants and how

    def _whole(self, fact: Fact, value: object) -> int | None:
        if isinstance(value, int):
            return value
        if isinstance(value, float) and value == int(value):
            return int(value)
        self.m.complain("not_whole", fact.start, fact.end)
        return None

    def _plants(self, fact: Fact, n: int) -> None:
        dug = fact.first("DUG")
        if dug is not None:
            self._how_value(dug)
        numbers = fact.numbers
        if not numbers:
            return
        count = self._whole(fact, numbers[0])
        if count is None:
            return
        if self.scope.check and (self.scope.plants is not None or self.scope.lists) and fact.lead in ("hard", "line"):
            self.scope = self.main
        if self.scope.plants is not None and self.scope.plants != count:
            self.m.complain(
                "twice", fact.start, fact.end, what=self._what("plants"), first=self.scope.plants, second=count
            )
            return
        self.scope.plants = count

    def _how_value(self, value: str) -> None:
        if value == "any":
            return
        if self.method is not None and self.method != value:
            if self.method == "shovel" and value == "shovel":
                return
            strength = {"pulled": 1, "eased": 2, "shovel": 0}
            if strength[value] < strength[self.method]:
                return
        self.method = value

    def _how(self, fact: Fact, n: int) -> None:
        tool = fact.first("TOOL")
        self._how_value(tool if tool is not None else fact.first("DUG"))

    def _soaked(self, fact: Fact, n: int) -> None:
        value = fact.first("SOAKED") == "yes"
        self.soaked = value if self.soaked is None else self.soaked and value

    def _same(self, fact: Fact, n: int) -> None:
        if self.m.notes:
            self.same = fact
        else:
            self.keep(fact)

    # counts

    def _per_plant_numbers(self, fact: Fact) -> tuple[int, ...] | None:
        out: list[int] = []
        for value in fact.numbers:
            whole = self._whole(fact, value)
            if whole is None:
                return None
            out.append(whole)
        return tuple(out)

    def _colour_count(self, fact: Fact, n: int) -> None:
        colour: Colour = fact.first("COLOUR")
        numbers = fact.numbers
        if len(numbers) == 1:
            if self._averaged(n):
                self.scope.averages[colour] = numbers[0]
                self.scope.average_at = (fact.start, fact.end)
                return
            count = self._whole(fact, numbers[0])
            if count is None:
                return
            if colour in self.scope.colours and self.scope.colours[colour] != count:
                self.m.complain(
                    "twice",
                    fact.start,
                    fact.end,
                    what=self._what(colour),
                    first=self.scope.colours[colour],
                    second=count,
                )
                return
            self.scope.colours[colour] = count
            self.scope.counts.append(fact)
            return
        listed = self._per_plant_numbers(fact)
        if listed is not None:
            self.scope.lists.append((listed, colour))
            self.scope.counts.append(fact)

    def _colour_series(self, fact: Fact, n: int) -> None:
        for colour, count in zip(COLOURS, fact.first("SERIES"), strict=True):
            self.scope.colours[colour] = count

    def _averaged(self, n: int) -> bool:
        """Does "per plant" stand in the same sentence, beside the counts only?"""
        here = self.m.sentence(self.facts[n])
        for step in (-1, 1):
            k = n + step
            while 0 <= k < len(self.facts) and self.m.sentence(self.facts[k]) == here:
                other = self.facts[k]
                if other.kind == "each":
                    return True
                if other.kind not in ("colour_count", "total_count") or len(other.numbers) > 1:
                    break
                k += step
        return False

    def _each(self, fact: Fact, n: int) -> None:
        if len(fact.numbers) == 1:
            self.scope.averages[None] = fact.numbers[0]
            self.scope.average_at = (fact.start, fact.end)
        elif len(fact.numbers) > 1:
            self._per_plant(fact, n)

    def _total_count(self, fact: Fact, n: int) -> None:
        numbers = fact.numbers
        if len(numbers) > 1:
            self._per_plant(fact, n)
            return
        if self._averaged(n):
            self.scope.averages[None] = numbers[0]
            self.scope.average_at = (fact.start, fact.end)
            return
        count = self._whole(fact, numbers[0])
        if count is None:
            return
        if self.scope.total is not None and self.scope.total != count:
            self.m.complain(
                "twice", fact.start, fact.end, what=self._what("total"), first=self.scope.total, second=count
            )
            return
        self.scope.total = count
        self.scope.counts.append(fact)

    def _per_plant(self, fact: Fact, n: int) -> None:
        listed = self._per_plant_numbers(fact)
        if listed is None:
            return
        if len(listed) == 1 and self.scope.plants == 1 and not self.scope.said:
            self.scope.lists.append((listed, None))
            self.scope.counts.append(fact)
            return
        if len(listed) == 1:
            if listed[0] == 0 and not self.scope.said:
                self.scope.total = 0
                return
            self.m.complain("stray_number", fact.start, fact.end, number=listed[0])
            return
        if len(listed) == 2 and self.scope.plants != 2 and fact.lead != "colon" and self.scope is self.main:
            self.m.complain("which_number", fact.start, fact.end)
            return
        if self.scope.check and self.scope.lists and fact.lead in ("hard", "line"):
            self.scope = self.main
        if any(colour is None for _, colour in self.scope.lists):
            first = next(values for values, colour in self.scope.lists if colour is None)
            self.m.complain(
                "twice",
                fact.start,
                fact.end,
                what=self._what("list"),
                first=" ".join(map(str, first)),
                second=" ".join(map(str, listed)),
            )
            return
        self.scope.lists.append((listed, None))
        self.scope.counts.append(fact)

    def _none(self, fact: Fact, n: int) -> None:
        self.scope.none = True
        self.scope.counts.append(fact)

    def _too_many(self, fact: Fact, n: int) -> None:
        self.scope.too_many = True
        for colour in fact.all("COLOUR"):
            if colour not in self.scope.mostly:
                self.scope.mostly.append(colour)

    def _shades(self, fact: Fact, n: int) -> None:
        how = fact.first("MOSTLY")
        colours = fact.all("COLOUR")
        if not colours:
            self.keep(fact)
            return
        if how == "all" and len(set(colours)) == 1:
            self.scope.all_of = True
        for colour in colours:
            if colour not in self.scope.mostly:
                self.scope.mostly.append(colour)

    def _not_looked(self, fact: Fact, n: int) -> None:
        self.not_looked = fact

    def _refused(self, fact: Fact, n: int) -> None:
        if fact.has("FEMALES") and not fact.has("NUMBER"):
            self.scope.none = True
        elif fact.has("COLOUR") and not fact.has("NUMBER"):
            self.scope.zero.extend(fact.all("COLOUR"))
        elif fact.has("NUMBER"):
            self.m.complain("which_number", fact.start, fact.end)
        else:
            self.keep(fact)

    # places

    def _spot(self, fact: Fact, n: int) -> None:
        self._open(fact, fact.first("SPOT"), check=False)

    def _check(self, fact: Fact, n: int) -> None:
        self._open(fact, fact.first("CHECK"), check=True)

    def _open(self, fact: Fact, name: str, check: bool) -> None:
        self.scope = _Scope(name, check, fact.start, fact.end)
        self.spots.append(self.scope)

    # ground and plant

    def _moisture(self, fact: Fact, n: int) -> None:
        self.moistures.append((fact.first("BELOW") or "", fact.first("MOISTURE")))

    def _texture(self, fact: Fact, n: int) -> None:
        self.texture = self.texture or fact.first("TEXTURE")

    def _acidity(self, fact: Fact, n: int) -> None:
        value = fact.first("NUMBER")
        if value is None:
            self.keep(fact)
        elif 3 <= value <= 10:
            self.ph = float(value)
        else:
            self.m.complain("out_of_range", fact.start, fact.end)

    def _potassium(self, fact: Fact, n: int) -> None:
        value = fact.first("NUMBER")
        if value is None:
            self.keep(fact)
        elif 0 < value <= 2000:
            self.k = float(value)
        else:
            self.m.complain("out_of_range", fact.start, fact.end)

    def _stage(self, fact: Fact, n: int) -> None:
        value: str = fact.first("STAGE")
        if value[1:] not in ("E", "C"):
            number = float(value[1:])
            if not (0 < number <= (8 if value[0] == "R" else 30)):
                self.m.complain("no_such_stage", fact.start, fact.end)
                return
        if self.stage is not None and self.stage != value:
            if fact.lead in ("", "link"):
                pair = [self.stage, value]
                if pair[0][0] == pair[1][0] and pair[0][1:] not in ("E", "C") and pair[1][1:] not in ("E", "C"):
                    self.stage = f"{value[0]}{(float(pair[0][1:]) + float(pair[1][1:])) / 2:g}"
                    return
            self.m.complain("twice", fact.start, fact.end, what=self._what("stage"), first=self.stage, second=value)
            return
        self.stage = value

    def _roots(self, fact: Fact, n: int) -> None:
        values = fact.all("ROOT")
        if not values:
            self.keep(fact)
        for value in values:
            if value not in self.roots:
                self.roots.append(value)

    def _nodules(self, fact: Fact, n: int) -> None:
        values = fact.all("NODULE")
        if not values:
            self.keep(fact)
        for value in values:
            if "nodules_" + value not in self.roots:
                self.roots.append("nodules_" + value)

    def _tops(self, fact: Fact, n: int) -> None:
        self.top_bags.setdefault(self.m.sentence(fact), []).append(fact)

    def _variety(self, fact: Fact, n: int) -> None:
        names = fact.all("NAME")
        resistance, source = fact.first("RESISTANCE"), fact.first("SOURCE")
        if not names and resistance is None and source is None:
            self.keep(fact)
            return
        if names:
            self.variety["name"] = " ".join(names)
        if resistance is not None:
            self.variety["resistance"] = resistance
        if source is not None:
            self.variety["source"] = source
            self.variety.setdefault("resistance", "resistant")

    def _spray(self, fact: Fact, n: int) -> None:
        chemicals = fact.all("CHEMICAL")
        what = " + ".join(dict.fromkeys(chemicals)) or None
        written, span = fact.first("DATE"), fact.first("SPAN")
        day = self.m.past(fact, written) if written is not None else None
        days = span[1] if span is not None and span[0] == "days" else None
        if what is None and day is None and days is None:
            self.keep(fact)
            return
        old = self.spray or Spray()
        self.spray = Spray(
            what or old.what, day or old.date, days if days is not None else old.days_ago, old.entry_hours
        )

    def _entry(self, fact: Fact, n: int) -> None:
        span = fact.first("SPAN")
        if span is None:
            self.keep(fact)
            return
        hours = float(span[1]) if span[0] == "hours" else float(span[1] * 24)
        self.entry = hours

    def _look_again(self, fact: Fact, n: int) -> None:
        written, span = fact.first("DATE"), fact.first("SPAN")
        if not fact.has("LOOK"):
            after = self.facts[n + 1] if n + 1 < len(self.facts) else None
            alone = fact.lead in ("soft", "hard", "line", "colon") and (
                after is None or after.lead in ("soft", "hard", "line")
            )
            if span is None or span[0] != "days" or not alone or self.look is not None:
                self._tail(fact, n)
                return
            self.m.mention("bare_span", fact.start, fact.end)
        if written is not None:
            day = self.m.coming(fact, written, self.visit_day)
            if day is not None:
                self.look = LookAgain(date=day)
        elif span is not None and span[0] == "days" and 0 < span[1] <= 400:
            self.look = LookAgain(days=span[1])
        elif span is not None:
            self.m.complain("out_of_range", fact.start, fact.end)
        else:
            self.keep(fact)

    def _text(self, fact: Fact, n: int) -> None:
        self.keep(fact)

    def _quoted(self, fact: Fact, n: int) -> None:
        self.keep(fact)

    # putting together

    def _averages(self) -> None:
        for scope in (self.main, *self.spots):
            if not scope.averages:
                continue
            start, end = scope.average_at
            plants = scope.plants if scope.plants is not None else (self.main.plants if not self.spots else None)
            shown = " ".join(f"{value:g}" for value in scope.averages.values())
            if plants is None:
                self.m.complain("how_many_plants", start, end)
                continue
            for colour, value in scope.averages.items():
                whole = round(value * plants)
                if colour is None:
                    scope.total = whole
                else:
                    scope.colours[colour] = whole
            read = " ".join(str(round(value * plants)) for value in scope.averages.values())
            self.m.mention("per_plant", start, end, text=shown, plants=plants, read=read)

    def _females(self, scope: _Scope) -> tuple[Females, tuple[int, ...] | None]:
        """Totals and the per-plant list of one scope, contradictions complained about."""
        plain = [values for values, colour in scope.lists if colour is None]
        coloured = [(values, colour) for values, colour in scope.lists if colour is not None]
        per_plant: tuple[int, ...] | None = plain[0] if plain else None
        colours = dict(scope.colours)
        for values, colour in coloured:
            colours[colour] = colours.get(colour, 0) + sum(values)
        if coloured and per_plant is None and len({len(values) for values, _ in coloured}) == 1:
            per_plant = tuple(sum(column) for column in zip(*(values for values, _ in coloured), strict=True))
        total = scope.total
        at = scope.counts[-1] if scope.counts else None
        if per_plant is not None:
            if scope.plants is not None and len(per_plant) != scope.plants and at is not None:
                listed = next(f for f in scope.counts if len(f.numbers) > 1)
                self.m.complain(
                    "short_list",
                    listed.start,
                    listed.end,
                    plants=scope.plants,
                    count=len(per_plant),
                    list=" ".join(map(str, per_plant)),
                )
            listed_sum = sum(per_plant)
            if total is not None and total != listed_sum and at is not None:
                self.m.complain("sum_mismatch", at.start, at.end, sum=listed_sum, total=total)
            total = listed_sum
        if colours:
            summed = sum(colours.values())
            if total is not None and total != summed and at is not None:
                self.m.complain("sum_mismatch", at.start, at.end, sum=summed, total=total)
            if scope.none and summed and at is not None:
                self.m.complain("none_and_some", at.start, at.end, count=summed)
            full = {colour: colours.get(colour, 0) for colour in COLOURS}
            return Females(**full, total=summed), per_plant
        if scope.none and total and at is not None:
            self.m.complain("none_and_some", at.start, at.end, count=total)
        if total == 0 or (scope.none and not total):
            return Females(0, 0, 0, 0, 0), per_plant
        if total is not None and scope.all_of and len(scope.mostly) == 1:
            full = dict.fromkeys(COLOURS, 0)
            full[scope.mostly[0]] = total
            return Females(**full, total=total), per_plant
        return Females(total=total), per_plant

    def _note(self) -> Note:
        self._settle_spots()
        main, main_list = self._females(self.main)
        counted = [(scope, *self._females(scope)) for scope in self.spots]
        kept = [row for row in counted if row[0].said or row[0].plants is not None]
        fields = [row for row in kept if not row[0].check]
        females, per_plant, plants = main, main_list, self.main.plants
        if plants is None and main_list is not None:
            plants = len(main_list)
        if fields:
            females, per_plant, plants = self._over_spots(fields, main, main_list, plants)
        spots = tuple(
            Spot(
                scope.name,
                scope.plants if scope.plants is not None else (len(listed) if listed else None),
                found,
                listed,
                scope.check,
                tuple(scope.mostly),
            )
            for scope, found, listed in kept
        )
        own = [self.main, *(scope for scope, _, _ in fields)]
        mostly = tuple(dict.fromkeys(colour for scope in own for colour in scope.mostly))
        outcome = self._outcome(own, females, mostly)
        tops = self._tops_words()
        moisture = self._moisture_value()
        note = Note(
            field=self.name.first("FIELD") if self.name is not None else None,
            date=self.date,
            plants=plants,
            method=self.method,  # type: ignore[arg-type]
            soaked=self.soaked,
            females=females,
            mostly=mostly,
            per_plant=per_plant,
            spots=spots,
            outcome=outcome,  # type: ignore[arg-type]
            soil=Soil(moisture, self.texture, self.ph, self.k),  # type: ignore[arg-type]
            stage=self.stage,
            roots=tuple(sorted(self.roots, key=ROOT_WORDS.index)),
            tops=tops,
            variety=Variety(self.variety.get("name"), self.variety.get("resistance"), self.variety.get("source"))
            if self.variety
            else None,  # type: ignore[arg-type]
            spray=self._spray_value(),
            look_again=self.look,
            planted=self.planted,
            too_many=any(scope.too_many for scope in own),
        )
        note = self._with_same(note)
        self._too_early(note)
        text = "; ".join(part for _, _, part in sorted(self.loose) if part)
        start = min([f.start for f in self.facts] + ([self.name.start] if self.name is not None else []))
        end = max([f.end for f in self.facts] + ([self.name.end] if self.name is not None else []))
        return replace(note, text=text, where=place(self.m.text, start, end))

    def _settle_spots(self) -> None:
        """One place alone does not separate anything: it is where they dug, and stays in the text."""
        fields = [scope for scope in self.spots if not scope.check]
        if len(fields) == 1 and not self.main.said and self.main.plants in (None, fields[0].plants):
            only = fields[0]
            self.spots.remove(only)
            if not only.plants:
                only.plants = self.main.plants
            self.loose.append((only.start, only.end, only.name))
            self.main = only
        elif len(fields) == 1 and self.main.plants is not None and not self.main.said and fields[0].plants is None:
            only = fields[0]
            self.spots.remove(only)
            only.plants = self.main.plants
            self.loose.append((only.start, only.end, only.name))
            self.main = only

    def _over_spots(
        self,
        fields: list[tuple[_Scope, Females, tuple[int, ...] | None]],
        main: Females,
        main_list: tuple[int, ...] | None,
        plants: int | None,
    ) -> tuple[Females, tuple[int, ...] | None, int | None]:
        """The note's totals from its places."""
        sums: dict[str, int | None] = {}
        for key in (*COLOURS, "total"):
            values = [getattr(found, key) for _, found, _ in fields]
            sums[key] = sum(values) if all(v is not None for v in values) else None
        lists = [listed for _, _, listed in fields]
        joined = tuple(n for listed in lists if listed for n in listed) if all(lists) else None
        counts = [
            scope.plants if scope.plants is not None else (len(listed) if listed else None)
            for scope, _, listed in fields
        ]
        whole = sum(c for c in counts if c is not None) if all(c is not None for c in counts) else None
        start, end = fields[0][0].start, fields[-1][0].end
        if self.main.said and main.total is not None and sums["total"] is not None and main.total != sums["total"]:
            self.m.complain("spots_mismatch", start, end, sum=sums["total"], total=main.total)
        if plants is not None and whole is not None and plants != whole:
            self.m.complain("twice", start, end, what=self._what("plants"), first=plants, second=whole)
        females = Females(**sums)
        if sums["total"] is None and main.total is not None:
            females = main
        return females, joined or main_list, plants if plants is not None else whole

    def _outcome(self, own: list[_Scope], females: Females, mostly: tuple[Colour, ...]) -> str | None:
        seen = bool(females.total) or any(scope.too_many for scope in own) or (bool(mostly) and not females.total == 0)
        if self.not_looked is not None:
            if seen or females.total is not None:
                self.m.complain("not_looked_but_seen", self.not_looked.start, self.not_looked.end)
                return "seen" if seen else "none_seen"
            return "not_looked"
        if seen or any(found for scope in own for found in scope.colours.values()):
            return "seen"
        if females.total == 0:
            return "none_seen"
        return None

    def _moisture_value(self) -> str | None:
        if not self.moistures:
            return None
        below = [value for where, value in self.moistures if where == "below"]
        plain = [value for where, value in self.moistures if where == ""]
        chosen = below or plain or [value for _, value in self.moistures]
        order = ["dry", "moist", "wet"]
        return max(chosen, key=order.index)

    def _spray_value(self) -> Spray | None:
        if self.entry is None:
            return self.spray
        return replace(self.spray or Spray(), entry_hours=self.entry)

    def _tops_words(self) -> tuple[str, ...]:
        words: list[str] = []
        for bag in self.top_bags.values():
            facts = bag
            types = {w.type for fact in facts for w in fact.words}
            values = [w.value for fact in facts for w in fact.words if w.type == "TOP"]
            leaves = [w.value for fact in facts for w in fact.words if w.type == "LEAF"]
            pale = "yellow" in leaves or "yellow" in values or ("white" in leaves and "NEW" in types)
            found: list[str] = []
            flash = any("flash" in w.text.lower() for fact in facts for w in fact.words if w.type == "BANDS")
            if "VEINS" in types and "OLD" not in types:
                found.append("interveinal_new")
            elif "BANDS" in types and (pale or "NEW" in types or flash or self.spray is not None):
                found.append("flash_bands")
            elif "EDGES" in types and "NEW" not in types and (pale or "brown" in leaves):
                found.append("edges_old")
            elif pale:
                found.append("yellow")
            found.extend(v for v in values if v != "yellow" and v not in found)
            if "GREEN" in types and "TOPS" in types and not found and not leaves:
                found.append("healthy")
            if not found:
                for fact in facts:
                    self.keep(fact)
            words.extend(v for v in found if v not in words)
        if "yellow" in words and any(w in words for w in ("interveinal_new", "edges_old", "flash_bands")):
            words.remove("yellow")
        return tuple(sorted(words, key=TOP_WORDS.index))

    def _with_same(self, note: Note) -> Note:
        """ "Same as above": what this note does not say is taken from the one before, never the counts."""
        if self.same is None:
            return note
        above = self.m.notes[-1]
        self.m.mention("same", self.same.start, self.same.end, read=above.field or "")
        plain = note.females.total is None and not note.mostly and note.outcome is None
        return replace(
            note,
            date=note.date or above.date,
            method=note.method or above.method,
            soaked=note.soaked if note.soaked is not None else above.soaked,
            stage=note.stage or above.stage,
            soil=Soil(
                note.soil.moisture or above.soil.moisture,
                note.soil.texture or above.soil.texture,
                note.soil.ph,
                note.soil.k_ppm,
            ),
            plants=note.plants if note.plants is not None else above.plants,
            females=above.females if plain and above.outcome == "none_seen" else note.females,
            outcome=above.outcome if plain and above.outcome in ("none_seen", "not_looked") else note.outcome,
            look_again=note.look_again or above.look_again,
        )

    def _too_early(self, note: Note) -> None:
        if note.planted is None:
            return
        days = ((note.date or self.m.sent) - note.planted).days
        late = (note.females.tan or 0) + (note.females.brown or 0)
        if late and days < TAN_DAYS:
            fact = next(
                (
                    f
                    for f in self.facts
                    if f.kind in ("colour_count", "shades") and set(f.all("COLOUR")) & {"tan", "brown"}
                ),
                self.facts[0],
            )
            self.m.complain("too_early_tan", fact.start, fact.end, days=days)
