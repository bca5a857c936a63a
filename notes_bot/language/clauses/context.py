"""What is known while one message is read, and what is said back about it."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Container
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.days import FLIP_DAYS, DayAhead, DayRead, DayWritten, coming_day, past_day
from notes_bot.language.lexicon.mistakes import day_text, line_starts, place, problem, remark
from notes_bot.language.lexicon.scan import fold, scan
from notes_bot.language.lexicon.words import table
from notes_bot.model import Command, Language, Note, Problem, Where

MOST_PROBLEMS = 30
"""Complaints about one message; more help nobody (judgement)."""


@dataclass(slots=True)
class Context:
    """One message: its text and writer, and the notes, commands and complaints found so far."""

    text: str
    sent: date
    fields: tuple[str, ...]
    language: Language
    day_first: bool | None
    listed: tuple[str, ...] = ()
    """Names the crew gave its fields; ``fields`` also holds those only supposed to be names."""
    notes: list[Note] = field(default_factory=list)
    commands: list[Command] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    remarks: list[Problem] = field(default_factory=list)
    remarked: set[Problem] = field(default_factory=set)
    """The remarks, to tell whether one was made before."""
    sentences: list[int] = field(default_factory=list)
    """Where sentences start."""
    manners: dict[str, bool] = field(default_factory=dict)
    """Manners of words that were asked for, and whether the text may hold one of them."""
    folded: str = ""
    """The text folded, once it was asked for."""

    def may_say(self, *traits: str) -> bool:
        """May the text hold a word or phrase of one of these manners? Else no part of it need be scanned for one."""
        for trait in traits:
            if trait not in self.manners:
                self.folded = self.folded or fold(self.text)
                self.manners[trait] = table(self.language).may_hold(trait, self.folded)
            if self.manners[trait]:
                return True
        return False

    def complain(self, kind: str, start: int, end: int, **values: object) -> None:
        """A problem at a place in the text."""
        if len(self.problems) >= MOST_PROBLEMS:
            return
        if kind == "doubtful":
            values = {**self._doubted(start, end), **values}
        self.problems.append(problem(kind, self.language, place(self.text, start, end), **values))

    def _doubted(self, start: int, end: int) -> dict[str, object]:
        """What a doubtful clause speaks of, for the line that would settle it: "brown 0" for "2 brown?"."""
        made = table(self.language)
        lexemes = scan(self.text[start:end])
        shades = [
            e.value for x in lexemes for e in made.singles.get(x.text, ()) if e.type == "COLOUR" and len(x.text) > 1
        ]
        counted = any(x.kind == "number" for x in lexemes)
        shade = made.first["COLOUR", shades[0]] if shades else made.first["FEMALES", "female"]
        return {"shade": shade, "count": 0 if counted or not shades else 3}

    def offset(self, where: Where) -> int:
        """Where in the text a place is."""
        return line_starts(self.text)[where.line - 1] + where.column - 1

    def mention(self, kind: str, start: int, end: int, **values: object) -> None:
        """A remark at a place in the text, once where it is said of several fields."""
        made = remark(kind, self.language, place(self.text, start, end), **values)
        if made not in self.remarked:
            self.remarked.add(made)
            self.remarks.append(made)

    def command(self, kind: str, start: int, end: int, **args: Any) -> bool:
        """Something asked; arguments that are ``None`` are left out. Always true, for chaining."""
        given = {key: value for key, value in args.items() if value is not None}
        self.commands.append(Command(kind, given, place(self.text, start, end)))
        return True

    def found(self) -> tuple[int, int, int]:
        """How many commands, complaints and remarks there are so far (see ``forget``)."""
        return len(self.commands), len(self.problems), len(self.remarks)

    def forget(self, found: tuple[int, int, int]) -> None:
        """Only what was found until then stays of them."""
        del self.commands[found[0] :], self.problems[found[1] :], self.remarks[found[2] :]
        self.remarked = set(self.remarks)

    def told_of(self, name: str, made: int, kinds: Container[str] | None = None) -> None:
        """The commands from one on (of these kinds) that name no field are of this one."""
        self.commands[made:] = [
            replace(command, args={**command.args, "field": name})
            if (kinds is None or command.kind in kinds) and not (command.args.get("field") or command.args.get("all"))
            else command
            for command in self.commands[made:]
        ]

    def sentence(self, fact: Fact) -> int:
        """Which sentence a fact stands in."""
        return bisect_right(self.sentences, fact.start)

    def day(self, value: date) -> str:
        """A day as we write it in this language."""
        return day_text(value, self.language)

    def past(self, fact: Fact, written: DayWritten, flip_days: int = FLIP_DAYS) -> date | None:
        """The day of something that happened, with a complaint or a remark where it is due."""
        return self._settle(fact, past_day(written, self.sent, self.language, self.day_first, flip_days))

    def coming(self, fact: Fact, written: DayWritten, start: date) -> date | None:
        """The day of something planned."""
        return self._settle(fact, coming_day(written, start, self.language, self.day_first))

    def quietly(self, value: Any) -> Any:
        """A day as a date without a word about it; anything else unchanged. A next look is kept with its name."""
        if isinstance(value, DayAhead):
            day = coming_day(value.written, self.sent, self.language, self.day_first).day
            return None if day is None else {"date": day.isoformat()}
        if isinstance(value, DayWritten):
            return past_day(value, self.sent, self.language, self.day_first).day
        return value

    def _settle(self, fact: Fact, found: DayRead) -> date | None:
        word = next((w for w in fact.words if w.type == "DATE"), fact.words[0])
        if found.wrong:
            self.complain(found.wrong, word.start, word.end, sent=self.day(self.sent))
            return None
        if found.other is not None and found.day is not None:
            self.mention("which_day", word.start, word.end, read=self.day(found.day), other=self.day(found.other))
        elif found.flipped and found.day is not None:
            self.mention("flipped_day", word.start, word.end, read=self.day(found.day))
        return found.day
