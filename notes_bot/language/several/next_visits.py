"""Sentences behind several notes that say when one of their fields will be gone to again.

"Doing Tinkers thursday when it's drained", "Plot 7 I can do on monday", "I return to Upper Ings on Thursday": told of a
field whose note already stands, they are when to look again there. They begin no other visit, and are of no other
field.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta

from notes_bot.language.clauses.context import Context
from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.crew_names import name_cut, name_heads
from notes_bot.language.lexicon.days import DayWritten
from notes_bot.language.lexicon.scan import scan
from notes_bot.language.lexicon.tokens import Word
from notes_bot.language.lexicon.words import Table, table
from notes_bot.language.several.shared_facts import COUNTING
from notes_bot.language.several.summing_up import Added, SoFar, Told, sentences_of

LONGEST_PHRASE = 5
"""Words of the longest phrase for going somewhere, "I should like to go" (judgement)."""
_MAY_STAND = frozenset({"date", "look_again", "text", "field", "quoted", "how", "soaked", "courtesy", "not_looked"})
"""Kinds of fact beside a coming visit: "I'll be there Friday with a new shovel"."""


def next_visits(context: Context, facts: list[Fact], together: Mapping[int, tuple[str, ...]]) -> Told:
    """The facts without such sentences; the next look each tells of; and where they stand."""
    added: list[Added] = []
    spans: list[tuple[int, int]] = []
    made, so_far = table(context.language), SoFar(facts)
    for (start, end), said in sentences_of(context.text, facts):
        day = _day_told(said, context.sent)
        if day is None or not {fact.kind for fact in said} <= _MAY_STAND or any(at < start for at in together):
            continue
        words = [x.text for x in scan(context.text[start:end])]
        notes = so_far.before(start)
        named = [note for note in notes if _names(words, note.name)]
        named = named or [note for note in notes if _begins(words, note.name, name_heads(context.fields))]
        if len(named) != 1 or "look_again" in named[0].kinds or _goes_on(facts, end):
            continue
        bare = {fact.kind for fact in said} == {"field", "look_again"}  # "Kestrel again in 9 days"
        if not (bare or _will_go(made, words)) or made.has_any("been_there", words):
            continue
        added.append(Added(named[0].name, day))
        spans.append((start, end))
    left = [f for f in facts if not any(start <= f.start < end for start, end in spans)] if spans else facts
    return left, added, spans


def _day_told(said: Sequence[Fact], sent: date) -> Fact | None:
    """The one day, or time until then, that a sentence tells, as when to look again; "tomorrow" is behind today."""
    told = [fact for fact in said if fact.has("DATE", "SPAN")]
    if len(told) != 1 or told[0].kind not in ("date", "look_again"):
        return None
    day = next(word for word in told[0].words if word.type in ("DATE", "SPAN"))
    ago = day.value.days_ago if day.type == "DATE" else None
    if ago is not None and ago >= 0:
        return None
    if ago is not None:
        then = sent - timedelta(days=ago)
        written = DayWritten(day.value.text, day=then.day, month=then.month, year=then.year)
        day = Word("DATE", written, day.start, day.end, day.text)
    if day.type == "SPAN" and day.value[0] != "days":
        return None
    look = Word("LOOK", "look", day.start, day.start, "", "hard")
    return Fact("look_again", [look, day], day.start, day.end)


def _begins(words: Sequence[str], name: str, heads: frozenset[str]) -> bool:
    """ "Kestrel again in 9 days": does a sentence begin a field's name that no other of the crew's begins like?"""
    own = name_cut(name)
    return any(
        (head := " ".join(own[:size])) in heads and f" {head} " in f" {' '.join(words)} " for size in range(1, len(own))
    )


def _names(words: Sequence[str], name: str) -> bool:
    """Does a sentence hold a field's whole name?"""
    return f" {' '.join(name_cut(name))} " in f" {' '.join(words)} "


def _will_go(made: Table, words: Sequence[str]) -> bool:
    """ "I'll be in", "doing", ".. friday then": does it say that somebody will look there?"""
    runs = (words[n : n + size] for size in range(1, LONGEST_PHRASE + 1) for n in range(len(words) - size + 1))
    return any(made.has("goes_there", " ".join(run)) for run in runs) or made.has("then_at_last", words[-1])


def _goes_on(facts: Sequence[Fact], end: int) -> bool:
    """Is it told right behind the sentence what was found there: "Kestrel again tuesday. 8 plants, 20 white"?"""
    after = next((fact for fact in facts if fact.start >= end and fact.kind not in ("text", "quoted")), None)
    return after is not None and after.kind in COUNTING
