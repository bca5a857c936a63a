"""The reminder: one mail for all looks that are due, in the order given, each with what to dig and why."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace
from datetime import date, datetime
from typing import Literal

from notes_bot.model import (
    Fact,
    Field,
    FieldToday,
    Language,
    Outlook,
    Person,
    Picture,
    Promise,
    Recheck,
    Reminder,
    Reply,
)
from notes_bot.reply import telling
from notes_bot.reply.calendar import calendar_for
from notes_bot.reply.crew_map import has_place
from notes_bot.reply.letters import Letter, templates
from notes_bot.reply.route_map import MOST_STOPS, route_map, way
from notes_bot.reply.segments import first_that_fits
from notes_bot.reply.week_strip import STRIP_ROWS, coming_looks, week_strip
from notes_bot.reply.words import Words, one_line, words

MOST_SOON = 4
"""Windows about to open, by name."""

Due = tuple[Field, Reminder | Promise, Outlook | None]


def compose_reminder(
    person: Person,
    items: Sequence[Due],
    today: date,
    *,
    now: datetime | None = None,
    organizer: str = "",
    nudge: bool = False,
    ordered: bool = False,
    limit: int = 40,
    gone: Sequence[tuple[Field, Reminder]] = (),
    infested: Collection[int] = (),
    way_km: float = 0.0,
    soon: Sequence[tuple[Field, Reminder]] = (),
) -> Reply:
    """One reminder for everything due.

    Args:
        items: in driving order when ``ordered`` is true (then the mail says what the order means).
        today: the day of the looks: the person's own day, or the next one for a mail on the evening before.
        now: aware; with ``organizer`` a calendar file is attached.
        nudge: True when half of the window has passed without a look.
        limit: lines of the list.
        gone: windows to take out of the person's calendar (somebody else has looked).
        infested: ids of fields with SCN; the list marks them, since they are driven to last.
        soon: the same person's windows that open in the next days: named, so that one trip may do.
        way_km: straight lines through the fields in their order [km]; 0 when not known.
    """
    speak = words(person.language, person.timezone)
    letter = Letter()
    letter.line(_headline(speak, items, nudge))
    miles = person.units == "acre"
    if len(items) == 1:
        _one(letter, speak, items[0], today)
    else:
        _many(letter, speak, items[:limit], today, infested, ordered=ordered)
        if len(items) > limit:
            letter.line(speak("digest.more", count=len(items) - limit))
        if ordered:
            told = speak("reminder.way", way=way(speak, way_km, miles=miles)) if way_km else ""
            mixed = 0 < sum(field.id in infested for field, _, _ in items) < len(items)
            letter.line(
                speak("reminder.order" if mixed else "reminder.order_plain"), told, speak("reminder.order_clean")
            )
    if soon:
        letter.line(speak("reminder.soon", fields=_soon(speak, soon)))
    first = items[0][0]
    letter.line(
        speak("reminder.move", example=speak("reminder.move_example", field=first.name)),
        speak("reminder.move_all", example=speak("reminder.move_example", field="").strip()) if len(items) > 1 else "",
        speak("reminder.skip") if len(items) == 1 else "",  # a bare word speaks of the mail's one field
    )
    calendar = b""
    if now is not None and organizer:
        entries = [*((field, window) for field, window, _ in items), *gone]
        calendar = calendar_for(entries, now=now, organizer=organizer, zone=person.timezone, language=person.language)
    subject = speak("reminder.subject", day=today)
    if len(items) == 1:
        subject = speak("answer.subject", field=first.name, year=str(today.year))
    shown = items[:limit]
    drawn = _pictures(shown, infested, way_km, today, person.language, miles=miles) if ordered else ()
    html = _html(letter, [field.name for field, _, _ in shown], drawn, person.language) if drawn else ""
    return Reply(subject, letter.text(), _short(speak, items), html, drawn, calendar=calendar)


def _pictures(
    items: Sequence[Due],
    infested: Collection[int],
    way_km: float,
    today: date,
    language: Language,
    *,
    miles: bool,
) -> tuple[Picture, ...]:
    """The way, and which look can wait how long; each only where it can be read."""
    stops = [field for field, _, _ in items]
    drawn = []
    if sum(has_place(stop) for stop in stops) > 1 and len(stops) <= MOST_STOPS:
        drawn.append(route_map(stops, infested, way_km, language, miles=miles))
    looks = [_as_today(number, item, infested, today) for number, item in enumerate(items, start=1)]
    if 1 < len(items) <= STRIP_ROWS and len(coming_looks(looks, today)) == len(items):
        drawn.append(week_strip(looks, today, language))
    return tuple(drawn)


def _as_today(number: int, item: Due, infested: Collection[int], today: date) -> FieldToday:
    """A look as the week's strip draws it: under its number in the list, with the window that was promised."""
    field, window, outlook = item
    asked = Recheck(window.earliest, window.likely, window.latest, window.purpose, Fact("promised"))
    shown = outlook or Outlook(today, "before_first", None, None, (), 0.0, asked)
    status: Literal["infested", "unseen"] = "infested" if field.id in infested else "unseen"
    named = replace(field, name=f"{number}. {field.name}")
    return FieldToday(named, replace(shown, recheck=asked), None, status=status)


def _html(letter: Letter, names: Sequence[str], pictures: Sequence[Picture], language: Language) -> str:
    """The letter with its list set apart, names in bold, pictures below the list."""
    (head, *_), lines, *rest = letter.paragraphs
    heads = [f"{number}. {one_line(name)}" for number, name in enumerate(names, 1)]
    listed = [
        (start, line.removeprefix(start)) if line.startswith(start) else ("", line)
        for start, line in zip(heads, lines, strict=True)
    ]
    page = templates().get_template("html/reminder.html")
    return page.render(language=language, headline=head, listed=listed, paragraphs=rest, pictures=list(pictures))


def _soon(speak: Words, soon: Sequence[tuple[Field, Reminder]]) -> str:
    """Which windows open when, the soonest first, and how many more."""
    ahead = sorted(soon, key=lambda item: (item[1].earliest, item[0].name))
    told = [
        speak("reminder.short_item", field=known.name, span=speak.span(window.earliest, window.latest))
        for known, window in ahead[:MOST_SOON]
    ]
    if len(ahead) > MOST_SOON:
        told.append(speak("reminder.short_more", count=len(ahead) - MOST_SOON))
    return ", ".join(told) + "."


def _headline(speak: Words, items: Sequence[Due], nudge: bool) -> str:
    if len(items) == 1:
        field, window, _ = items[0]
        key = "reminder.head_nudge" if nudge else "reminder.head_one"
        return telling.headline(
            [
                speak(
                    key,
                    field=telling.NAME,
                    purpose=speak.name("purpose", window.purpose),
                    span=speak.span(window.earliest, window.latest),
                    latest=window.latest,
                ),
                speak("reminder.head_short", field=telling.NAME, latest=window.latest),
            ],
            field.name,
        )
    earliest = min(window.earliest for _, window, _ in items)
    latest = max(window.latest for _, window, _ in items)
    key = "reminder.head_many_nudge" if nudge else "reminder.head_many"
    return speak(key, count=len(items), span=speak.span(earliest, latest))


def _one(letter: Letter, speak: Words, item: Due, today: date) -> None:
    _, window, outlook = item
    letter.line(
        speak(
            "reminder.window" if window.likely >= today else "reminder.window_open",
            span=speak.span(window.earliest, window.latest),
            likely=window.likely,
        ),
        speak("answer.do", what=speak.name("do", window.purpose)),
        "" if window.purpose == "asked" else speak.name("decides", window.purpose),  # the headline says whose day it is
    )
    if outlook is not None:
        letter.line(telling.now(speak, outlook))
        letter.line(*telling.cautions(speak, outlook))


def _many(
    letter: Letter, speak: Words, items: Sequence[Due], today: date, infested: Collection[int], *, ordered: bool
) -> None:
    """A line a field; what to dig and what it decides is said once per purpose, below the list."""
    lines = []
    for number, (field, window, _) in enumerate(items, start=1):
        ahead = window.latest > window.likely >= today
        line = speak(
            "reminder.line" if ahead else "reminder.line_last",
            number=number,
            field=field.name,
            latest=window.latest,
            likely=window.likely,
            purpose=speak.name("purpose_short", window.purpose),
        )
        lines.append(speak("reminder.line_infested", line=line) if field.id in infested else line)
    letter.line(*lines)
    purposes = list(dict.fromkeys(window.purpose for _, window, _ in items))
    for purpose in purposes:
        short = speak.name("purpose_short", purpose)
        letter.line(
            speak("reminder.purpose_do", purpose=short[0].upper() + short[1:], what=speak.name("do", purpose)),
            "" if purpose == "asked" else speak.name("decides", purpose),
        )
    said = {"clean_boots_and_spade", "infested_last"} if ordered else set()  # the order's own words say these
    cautions = {line for _, _, outlook in items if outlook for line in telling.cautions(speak, _without(outlook, said))}
    letter.line(*sorted(cautions))


def _without(outlook: Outlook, keys: Collection[str]) -> Outlook:
    """The outlook without some cautions of its finding."""
    found = outlook.finding
    if found is None:
        return outlook
    kept = tuple(fact for fact in found.cautions if fact.key not in keys)
    return replace(outlook, finding=replace(found, cautions=kept))


def _short(speak: Words, items: Sequence[Due]) -> str:
    if len(items) == 1:
        field, window, _ = items[0]
        values = {
            "field": telling.cut(field.name, 40),
            "span": speak.span(window.earliest, window.latest),
            "likely": window.likely,
        }
        return first_that_fits(
            [
                speak("reminder.short_one", purpose=speak.name("purpose", window.purpose), **values),
                speak("reminder.short_one_brief", **values),
            ]
        )
    names = [
        speak(
            "reminder.short_item",
            field=telling.cut(field.name, 28),
            span=speak.span(window.earliest, window.latest),
        )
        for field, window, _ in items
    ]
    choices = [speak("reminder.short_many", fields=", ".join(names))]
    for count in range(len(names) - 1, 0, -1):
        more = speak("reminder.short_more", count=len(names) - count)
        choices.append(speak("reminder.short_many", fields=", ".join([*names[:count], more])))
    return first_that_fits(choices)
