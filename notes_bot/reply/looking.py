"""Answers about looks asked for before or after they are made, and about the crew's own digging trial."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from notes_bot.model import Fact, Field, Language, LookAdvice, LookPlan, LookTold, Outlook, Person, Reply
from notes_bot.reply import telling
from notes_bot.reply.letters import Letter
from notes_bot.reply.segments import first_that_fits
from notes_bot.reply.words import Words, words

USUAL_SURE = 90
"""Percent told first when no other is asked for."""
MOST_PLANTS = 400
"""The science says ``None`` for more."""


def compose_plan(
    advice: LookAdvice,
    field: Field | None,
    outlook: Outlook | None,
    person: Person,
    *,
    year: int,
    language: Language | None = None,
) -> Reply:
    """How many plants, by which method, at how many places; the way asked for, or the best, first."""
    speak = words(language or person.language, person.timezone)
    first = advice.plans[0]
    sure = USUAL_SURE if USUAL_SURE in first.plants else min(first.plants)
    head = _plan_head(speak, first, sure)
    when = telling.next_look(speak, outlook) if outlook is not None and outlook.recheck is not None else ""
    letter = Letter()
    letter.line(_named(field, head))
    letter.line(
        speak("look.ground", ground=speak.name("ground", advice.condition), sure=_listed(first.plants)),
        *(_row(speak, plan) for plan in advice.plans),
    )
    letter.line(speak("look.means"), when)
    own = [telling.sentence(speak.say(fact)) for fact in advice.own]
    letter.line(*(own or [speak("look.judgement")]))
    others = telling.sentence("; ".join(_brief(speak, plan, sure) for plan in advice.plans[1:]))
    short = first_that_fits(
        [_named(field, f"{head} {others} {when}".strip()), _named(field, f"{head} {others}"), _named(field, head)]
    )
    return Reply(_subject(speak, field, year), letter.text(), short)


def compose_told(
    told: LookTold, field: Field | None, person: Person, *, year: int, language: Language | None = None
) -> Reply:
    """What so many plants without a female tell, females being out."""
    speak = words(language or person.language, person.timezone)
    way = speak.name("way", _way(told.method, bool(told.soaked))) if told.method else ""
    key = "look.told" if way else "look.told_no_way"
    head = speak(key, plants=told.plants, way=way, detection=told.detection)
    chance = speak("look.told_chance", before=told.before, after=told.after)
    sure = USUAL_SURE if told.best.plants.get(USUAL_SURE) else min(told.best.plants)
    better = speak(
        "look.better",
        plants=told.best.plants.get(sure) or MOST_PLANTS,
        places=told.best.places,
        way=speak.name("way", _way(told.best.method, told.best.soaked)),
        sure=sure,
    )
    enough = told.detection >= sure / 100
    letter = Letter()
    letter.line(_named(field, head))
    letter.line(telling.overlooked(speak, told.overlooked), chance, speak("look.told_out"))
    letter.line("" if enough else better)
    letter.line(*(telling.sentence(speak.say(fact)) for fact in told.own))
    tail = "" if enough else f" {better}"
    short = first_that_fits(
        [_named(field, f"{head} {chance}{tail}"), _named(field, f"{head}{tail}"), _named(field, head)]
    )
    return Reply(_subject(speak, field, year), letter.text(), short)


def compose_trial(own: Sequence[Fact], language: Language) -> Reply:
    """How to run the digging trial, and what the crew's own says so far."""
    speak = words(language)
    letter = Letter()
    letter.line(speak("look.trial_head"))
    letter.line(*(speak(f"look.trial_{step}") for step in ("where", "first", "then")))
    letter.line(speak("look.trial_send"), f"  {speak('look.trial_example')}", speak("look.trial_line"))
    letter.line(*([telling.sentence(speak.say(fact)) for fact in own] or [speak("look.trial_none")]))
    letter.line(speak("look.trial_after"))
    return Reply(speak("answer.subject_service"), letter.text(), first_that_fits([speak("look.trial_short")]))


def _plan_head(speak: Words, plan: LookPlan, sure: int) -> str:
    way = speak.name("way", _way(plan.method, plan.soaked))
    plants = plan.plants[sure]
    if plants is None:
        return telling.sentence(speak("look.plan_none", way=way, sure=sure))
    return speak("look.plan", plants=plants, places=plan.places, way=way, sure=sure)


def _row(speak: Words, plan: LookPlan) -> str:
    """One way to look: its numbers of plants for each percent, or that no number does it."""
    way = telling.sentence(speak.name("way", _way(plan.method, plan.soaked))).removesuffix(".")
    if all(plants is None for plants in plan.plants.values()):
        return speak("look.row_none", way=way)
    return f"{way}: {_listed(_number(speak, plants) for plants in plan.plants.values())}"


def _listed(numbers: Iterable[object]) -> str:
    return ", ".join(str(number) for number in numbers)


def _brief(speak: Words, plan: LookPlan, sure: int) -> str:
    way = speak.name("way", _way(plan.method, plan.soaked))
    plants = plan.plants[sure]
    return speak("look.brief_none", way=way) if plants is None else f"{way} {plants}"


def _number(speak: Words, plants: int | None) -> str:
    return f"{speak.manner['over']}{MOST_PLANTS}" if plants is None else str(plants)


def _named(field: Field | None, told: str) -> str:
    return told if field is None else f"{telling.cut(field.name, 32)}: {told}"


def _subject(speak: Words, field: Field | None, year: int) -> str:
    if field is None:
        return speak("answer.subject_service")
    return speak("answer.subject", field=field.name, year=str(year))


def _way(method: str, soaked: bool) -> str:
    return f"{method}_soaked" if soaked else method
