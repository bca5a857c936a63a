"""What an outlook says, as short sentences: shared by answers, reminders and digests.

Every function takes the words of the reader's language and finished values; none computes or decides
what is true. A line is one sentence or two, so that it wraps softly on a 40-column screen.
"""

from __future__ import annotations

from collections.abc import Sequence

from notes_bot.model import Change, Fact, Finding, Interval, LookAlike, Note, Outlook, Recheck, ResistanceWatch, Window
from notes_bot.reply.words import Words, one_line

NAME = "\ufffc"
"""Stands for a field's name in a wording that is still to be fitted (Unicode's object replacement character)."""

HEADLINE = 110
"""A lock screen shows about this many characters."""

EXTRA_BASIS = frozenset(
    {
        "colour_steps_judgement",
        "soil_model",
        "generations_expected",
        "third_or_later",
        "roots_end_assumed",
        "roots_end_from_stage",
        "resistant_variety",
        "no_visits",
    }
)
"""Basis facts that are the same in every answer of a season: told when the state is asked for, not each time."""

UNSAID_REASONS = frozenset({"chances", "sample_for_hg_type"})
"""The verdict says its own chance; what to do is said under what to do."""

ONLY_WHEN_HOLDING = frozenset({"no_check_strip"})
"""A doubt about low counts has no place beside high ones."""

SAID_WITH_SHARE = frozenset({"against_check", "not_greenhouse_index"})
"""Said by the line that gives the share of the check strip."""

WORTH_TELLING = 0.05
"""Causes less likely than this only make the answer longer. Judgement."""

OVERLOOKED_MOST = 100.0
"""The science says this much for "this much or more"."""

CLEAR_CHANGE = 0.9
"""From this chance on that there are more (or fewer), a change is told as one. Judgement."""

EVEN = 0.5
"""Where a season starts that nothing is known of."""

LIKELY_HERE = 0.95
"""From this chance on, the answer speaks of the population as present."""


def sentence(text: str) -> str:
    """With a capital and a full stop."""
    text = text.strip()
    if not text:
        return ""
    text = text[0].upper() + text[1:]
    return text if text[-1] in ".!?:" else text + "."


def density(speak: Words, value: Interval, *, at_least: bool = False) -> str:
    number = speak.number(value.likely)
    return speak("answer.at_least", number=number) if at_least else number


def finding(speak: Words, note: Note, found: Finding | None) -> str:
    """The finding in a few words, for a headline."""
    if found is None or found.verdict == "seen":
        if note.outcome == "none_seen":
            return speak("answer.none_seen")
        if note.outcome == "not_looked":
            return speak.name("verdict", "not_looked")
    if found is None or found.verdict != "seen":
        return speak.name("verdict", found.verdict if found else "seen")
    apart = [spot for spot in found.spots if not spot.check]
    if len(apart) > 1:
        return ", ".join(
            speak(
                "answer.seen_spot" if place else "answer.seen_spot_first",
                density=spot.females_per_plant.likely,
                name=spot.name,
            )
            for place, spot in enumerate(apart[:2])
        )
    if found.females_per_plant is not None:
        return speak("answer.seen_each", density=density(speak, found.females_per_plant, at_least=note.too_many))
    if note.females.total:
        return speak("answer.seen_total", total=note.females.total)
    return speak.name("verdict", "seen")


def one_day(again: Recheck) -> bool:
    """Told as one day and not as a window: a day the writer asked for, or a window of one day."""
    return again.purpose == "asked" or again.earliest == again.latest


def next_look(speak: Words, outlook: Outlook | None) -> str:
    """When to look again, for a headline."""
    again = outlook.recheck if outlook else None
    if again is None:
        return speak("answer.next_none")
    if one_day(again):
        return speak("answer.next_one_day", likely=again.likely)
    return speak("answer.next", span=speak.span(again.earliest, again.latest), likely=again.likely)


def now(speak: Words, outlook: Outlook) -> str:
    """Generation and stage, with how sure; conditional as long as the field may be free of SCN."""
    stage = speak.name("stage", outlook.stage)
    sure_of_it = outlook.infested_probability >= LIKELY_HERE or outlook.stage == "declined"
    if outlook.generation is None:
        told = speak("answer.now_unsaid", stage=stage) if sure_of_it else sentence(stage)
    elif outlook.generation >= 3 or outlook.generation_probability is None:
        told = speak("answer.now_third", generation=speak.name("generation", str(outlook.generation)), stage=stage)
    else:
        told = speak(
            "answer.now",
            generation=speak.name("generation", str(outlook.generation)),
            sure=outlook.generation_probability,
            stage=stage,
        )
    if sure_of_it:
        return told
    return speak("answer.if_here", now=told[0].lower() + told[1:])


def seen(speak: Words, note: Note, found: Finding) -> list[str]:
    """What a look that found females says: density, spot by spot where they were kept apart."""
    lines = []
    apart = [spot for spot in found.spots if not spot.check]
    if len(apart) > 1:
        lines += [_spot(speak, "answer.spot", spot.females_per_plant, name=spot.name) for spot in apart]
    elif found.females_per_plant is not None and not note.too_many:
        lines.append(_spot(speak, "answer.density", found.females_per_plant))
    lines += [_spot(speak, "answer.check", spot.females_per_plant) for spot in found.spots if spot.check]
    return lines


def none_seen(speak: Words, found: Finding) -> list[str]:
    """What a look that found nothing is worth."""
    lines = [speak.name("none", found.verdict)]
    if found.verdict in {"too_weak", "thin"} and found.overlooked is not None:
        lines.append(overlooked(speak, found.overlooked))
    elif found.verdict in {"too_weak", "thin", "fair", "strong"} and found.detection is not None:
        lines.append(speak("answer.worth", detection=found.detection))
    if found.verdict != "not_looked" and found.infested_after is not None and found.infested_before is not None:
        key = "answer.infested"
        if found.prior_is_convention:
            key = "answer.infested_start" if found.infested_before == EVEN else "answer.infested_later"
        prior = "; ".join(speak.say(fact) for fact in found.prior)
        key = "answer.infested_prior" if prior else key
        lines.append(speak(key, after=found.infested_after, before=found.infested_before, prior=prior))
        lines += [sentence(speak.say(fact)) for fact in found.own[:1]]
    told_below = any(fact.key == "dig_more" for fact in found.settle)
    if found.plants_needed and not told_below and found.verdict in {"too_weak", "thin", "fair"}:
        sure = 90 if 90 in found.plants_needed else max(found.plants_needed)
        lines.append(speak("answer.plants_needed", sure=sure, plants=found.plants_needed[sure]))
    return lines


def overlooked(speak: Words, least: float) -> str:
    """What could still be there: a density says more to a scout than a chance of detection."""
    if least >= OVERLOOKED_MOST:
        return speak("answer.overlooked_most")
    return speak("answer.overlooked", least=speak.number(least))


def change(speak: Words, against: Change) -> list[str]:
    """The count against the season's last one; what cannot be compared is said, not computed away."""
    if not against.comparable:
        reasons = "; ".join(speak.say(reason) for reason in against.reasons[:2])
        if not reasons:
            return []
        if against.then is None:
            return [speak("answer.change_unfair", since=against.since, reasons=reasons)]
        then = speak.number(against.then)
        return [speak("answer.change_unfair_then", since=against.since, then=then, reasons=reasons)]
    if CLEAR_CHANGE > against.chance_more > 1 - CLEAR_CHANGE:
        return [speak("answer.change_unclear", since=against.since)]
    ratio = against.ratio
    return [
        speak(
            "answer.change",
            since=against.since,
            ratio=speak.number(ratio.likely),
            low=speak.number(ratio.low),
            high=speak.number(ratio.high),
        )
    ]


def resistance(speak: Words, watch: ResistanceWatch) -> list[str]:
    verdict = speak.name("resistance", watch.verdict)
    chances = next((fact.values for fact in watch.reasons if fact.key == "chances"), None)
    if watch.verdict == "watch" and chances is not None:
        told_so = speak("answer.resistance_watch", verdict=verdict, **chances)
    else:
        told_so = speak("answer.resistance", verdict=verdict, sure=watch.probability)
    lines = [told_so]
    share = watch.percent_of_check
    if share is not None:
        lines.append(_of_check(speak, share))
    told = UNSAID_REASONS | (SAID_WITH_SHARE if share is not None else frozenset())
    told |= ONLY_WHEN_HOLDING if watch.verdict != "holding" else frozenset()
    lines += [sentence(speak.say(reason)) for reason in watch.reasons if reason.key not in told]
    return lines


def _of_check(speak: Words, share: Interval) -> str:
    """A ratio, not a chance: it may reach and pass 100."""
    likely, low, high = (
        speak.manner["percent"].format(speak.number(round(x))) for x in (share.likely, share.low, share.high)
    )
    return speak("answer.of_check", likely=likely, low=low, high=high)


def look_alikes(speak: Words, found: Finding, *, known_here: bool) -> list[str]:
    """What else the tops could be: the likeliest with its clues, the others in a row, and the check that parts them.

    Where SCN is known to be, that is said already; then only what may stand beside it is told.
    """
    causes = [each for each in found.look_alikes if not (known_here and each.cause == "scn")]
    telling = [each for each in causes if each.probability >= WORTH_TELLING]
    lines: list[str] = []
    if len(found.both) > 1:
        lines += [_cause(speak, each) for each in telling if each.cause in found.both and each.cause != "scn"]
        lines.append(speak("answer.both", causes=speak.listed(speak.name("cause", cause) for cause in found.both)))
    elif known_here and telling:
        lines.append(speak("answer.tops_too", causes=_in_a_row(speak, telling[:2])))
    elif telling:
        first, *others = telling
        lines.append(_cause(speak, first))
        if first.evidence_against:
            against = speak.listed(speak.name("clue", clue) for clue in first.evidence_against)
            lines.append(speak("answer.clues_against", clues=against))
        if others:
            lines.append(speak("answer.others", causes=_in_a_row(speak, others[:2])))
    if found.separating_check is not None and (lines or not known_here):
        lines.append(_separating(speak, found.separating_check))
    return lines


def _cause(speak: Words, likeliest: LookAlike) -> str:
    clues = speak.listed(speak.name("clue", clue) for clue in likeliest.evidence_for)
    return speak(
        "answer.tops",
        cause=speak.name("cause", likeliest.cause),
        probability=likeliest.probability,
        clues=speak("answer.clues_for", clues=clues) if clues else "",
    )


def _in_a_row(speak: Words, causes: Sequence[LookAlike]) -> str:
    return speak.listed(
        speak("answer.other", cause=speak.name("cause", each.cause), probability=each.probability) for each in causes
    )


def _separating(speak: Words, check: Fact) -> str:
    told = sentence(speak.say(check))
    if "first" not in check.values or "second" not in check.values:
        return told
    one, other = (speak.name("cause", str(check.values[name])) for name in ("first", "second"))
    return speak("answer.tell_apart", first=one[0].upper() + one[1:], second=other, check=told)


def meaning(speak: Words, note: Note, outlook: Outlook, *, whole_season: bool = False) -> list[str]:
    """Everything one visit means, most useful first.

    What the tops could be is told when this note speaks of tops, or when the whole season is asked about.
    """
    found = outlook.finding
    lines: list[str] = []
    if found is None:
        return [now(speak, outlook)]
    if found.verdict == "seen":
        here = speak("answer.here")
        if found.infested_after is not None and found.infested_after < LIKELY_HERE:
            here = speak("answer.here_likely", after=found.infested_after)
        lines.append(f"{here} {now(speak, outlook)}")
        lines += seen(speak, note, found)
        if found.change is not None:
            lines += change(speak, found.change)
    else:
        lines += none_seen(speak, found)
        if outlook.infested_probability >= LIKELY_HERE:
            lines.append(speak("answer.here_before"))
        lines.append(now(speak, outlook))
    if found.resistance is not None:
        lines += resistance(speak, found.resistance)
    known_here = found.verdict == "seen" or outlook.infested_probability >= LIKELY_HERE
    if note.tops or whole_season:
        lines += look_alikes(speak, found, known_here=known_here)
    return lines


def again(speak: Words, outlook: Outlook) -> list[str]:
    """The look-again window, what for, how sure, and why."""
    look = outlook.recheck
    if look is None:
        told = speak("answer.again_none")
        if outlook.no_recheck is not None:
            told += f" {sentence(speak.say(outlook.no_recheck))}"
        return [told]
    purpose = speak.name("purpose", look.purpose)
    if look.purpose == "asked":
        lines = [speak("answer.again_asked", likely=look.likely, purpose=purpose)]
    elif one_day(look):
        sure = speak.name("sure", outlook.sure)
        lines = [speak("answer.again_one_day", likely=look.likely, purpose=purpose, sure=sure)]
    else:
        span = speak.span(look.earliest, look.latest)
        sure = speak.name("sure", outlook.sure)
        lines = [speak("answer.again", span=span, likely=look.likely, purpose=purpose, sure=sure)]
    if look.why.key != "asked":
        lines.append(sentence(speak.say(look.why)))
    if look.why.values.get("closed_until"):
        lines.append(speak("answer.moved_for_entry", until=look.why.values["closed_until"]))
    too_wet = look.why.values.get("too_wet")
    if too_wet and "rain" in look.why.values:
        lines.append(speak("answer.moved_for_rain", too_wet=too_wet, told=look.why.values["rain"]))
    elif too_wet and "rain_due" in look.why.values:
        lines.append(speak("answer.moved_for_rain_due", too_wet=too_wet, told=look.why.values["rain_due"]))
    elif too_wet:
        lines.append(speak("answer.moved_for_noted_wet", too_wet=too_wet, told=look.why.values["noted_wet"]))
    return lines


def basis(speak: Words, outlook: Outlook, *, all_of_it: bool = False) -> list[str]:
    facts = [fact for fact in outlook.basis if all_of_it or not _extra(fact)]
    if not facts:
        return []
    return [speak("answer.used", basis="; ".join(speak.say(fact) for fact in facts) + ".")]


def _extra(fact: Fact) -> bool:
    """Goes without saying in an answer: the same all season, or one look, which the reader has just made."""
    return fact.key in EXTRA_BASIS or (fact.key == "visits_used" and fact.values.get("count", 0) <= 1)


def to_do(speak: Words, outlook: Outlook) -> list[str]:
    """What to do next: what would settle a doubt first, else what the coming look is for."""
    found = outlook.finding
    steps: list[str] = []
    if found is not None:
        steps += [sentence(speak.say(fact)) for fact in found.settle[:2]]
        reasons = found.resistance.reasons if found.resistance else ()
        steps += [sentence(speak.say(fact)) for fact in reasons if fact.key == "sample_for_hg_type"]
    if not steps and outlook.recheck is not None:
        steps.append(speak.name("do", outlook.recheck.purpose))
    return [speak("answer.do", what=" ".join(steps))] if steps else []


def cautions(speak: Words, outlook: Outlook) -> list[str]:
    found = outlook.finding
    if found is None:
        return []
    told = [sentence(speak.say(fact)) for fact in found.cautions]
    return [speak("answer.caution", what=" ".join(told))] if told else []


def windows(speak: Words, coming: Sequence[Window]) -> list[str]:
    return [
        speak(
            "state.window",
            event=event(speak, window),
            span=speak.span(window.earliest, window.latest),
            likely=window.likely,
        )
        for window in coming
    ]


def event(speak: Words, window: Window) -> str:
    event = speak.name("event", window.event)
    if window.generation is None or window.event == "last_look":
        return event
    return f"{event}, {speak.name('generation_short', str(min(window.generation, 3)))}"


def cut(text: str, room: int) -> str:
    """The text on one line, or its beginning with an ellipsis."""
    text = one_line(text)
    return text if len(text) <= room else text[: max(room - 1, 1)].rstrip(" ,;:-(") + "…"


def headline(build: Sequence[str], field_name: str) -> str:
    """The first wording that fits a lock screen with the field's name in ``{field}``; the name is cut if none does.

    ``build`` holds finished wordings in which the name stands as ``NAME``.
    """
    field_name = one_line(field_name)
    for wording in build:
        line = wording.replace(NAME, field_name)
        if len(line) <= HEADLINE:
            return line
    shortest = build[-1]
    room = HEADLINE - (len(shortest) - shortest.count(NAME))
    return cut(shortest.replace(NAME, cut(field_name, max(room, 12))), HEADLINE)


def _spot(speak: Words, key: str, value: Interval, **values: str) -> str:
    return speak(key, likely=value.likely, low=value.low, high=value.high, **values)
