"""The supervisor's digest: what needs a decision, what is overdue, what is new, what comes, then the rest.

Each field stands in exactly one place, the first that fits, so nothing is said twice. The part before the
list of fields stays within one screen however large the crew: each section keeps its weightiest lines and
says how many more there are. A day with nothing to decide, nothing overdue and nothing new is one line.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from notes_bot.model import Day, FieldToday, Person, Picture, Recheck, Reply, Waiting
from notes_bot.reply import telling
from notes_bot.reply.crew_map import crew_map
from notes_bot.reply.figures import season_figure
from notes_bot.reply.letters import templates
from notes_bot.reply.segments import first_that_fits
from notes_bot.reply.week_strip import week_strip
from notes_bot.reply.words import Words, one_line, words

Span = Literal["day", "week", "season"]

TOP_LINES = 5
"""Lines a section above the list may have: four sections and the heads fit one screen."""
NAMES_A_DAY = 4
REST_LINES = 60
CREW = 40  # characters of the crew's name beside a field's name in one headline
SEASON_FIGURES = 2
WEEK = timedelta(days=7)
ACRE_HA = 0.40468564
"""Hectares in an international acre (exact by definition: 4046.8564224 square metres)."""

Status = Literal["infested", "doubtful", "not_found", "unseen"]
ORDER: tuple[Status, ...] = ("infested", "doubtful", "not_found", "unseen")
OVERDUE_ORDER: tuple[Status, ...] = ("doubtful", "unseen", "infested", "not_found")
"""A missed look costs most where nothing is known yet."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a section: whose, what, and what to reply to act on it."""

    name: str
    what: str
    do: str = ""
    status: str = ""


@dataclass(frozen=True, slots=True)
class Section:
    title: str
    lines: tuple[Line, ...]
    more: str = ""
    """How many lines were left out, in words."""


def compose_digest(day: Day, person: Person, *, pictures: bool = True, span: Span = "day") -> Reply:
    """The digest of a day, a week or a season, as text, HTML and pictures.

    ``day.fields`` say what changed since the last digest of the same span. In the season's digest every field
    is listed by what was found, and nothing counts as new.
    """
    speak = words(person.language, person.timezone)
    parts = _parted(day, span)
    summary = _summary(speak, parts, day, span)
    if span == "day" and _quiet(parts, day):
        line = _quiet_line(speak, parts, day)
        return Reply(line, line + "\n", first_that_fits([line]))
    headline = telling.headline([speak(_subject_key(span), crew=telling.NAME, day=day.on, summary=summary)], day.crew)
    told, left = _within_a_screen(parts, day.on)
    top = [section for section in _top(speak, told, parts, day, span) if section.lines]
    rest = _rest(speak, [*left, *parts["rest"]], titled=bool(top), season=span == "season")
    total = _total(speak, day.fields, person)
    example = next((known.field.name for known in (*parts["overdue"], *parts["changed"], *day.fields)), "")
    act = speak("digest.act", example=speak("digest.act_example", field=example)) if example else ""
    drawn = _pictures(day, parts, speak, miles=person.units == "acre") if pictures else ()
    html = (
        templates()
        .get_template("html/digest.html")
        .render(
            language=person.language,
            title=headline,
            headline=headline,
            total=total,
            top=top,
            rest=rest,
            pictures=drawn,
            act=act,
            status_words=speak.tables["status"],
        )
    )
    return Reply(headline, _text(headline, total, top, rest, act), _short(headline, parts), html, drawn)


def told_in_full(day: Day, span: Span) -> list[int]:
    """Ids of the fields that the digest says more of than their name, in its order: their outlooks must be of today."""
    parts = _parted(day, span)
    if span == "day" and _quiet(parts, day):
        looks = [(again.likely, known) for known in day.fields if (again := _open_look(known, day.on)) is not None]
        coming = [min(looks, key=lambda look: (look[0], look[1].field.name))[1]] if looks else []
        return [known.field.id for known in (*parts["overdue"][:TOP_LINES], *coming)]
    told, left = _within_a_screen(parts, day.on)
    top = [known for key in ("decide", "overdue", "changed", "week") for known in told[key]]
    listed, _ = _listed([*left, *parts["rest"]])
    rest = [known for status, fields in listed.items() if status != "unseen" for known in fields]
    return [known.field.id for known in (*top, *rest)]


def drawn_by_season(day: Day, span: Span) -> list[int]:
    """Ids of the fields whose season the digest draws, if it is known: those that need a decision or changed most."""
    parts = _parted(day, span)
    if span == "day" and _quiet(parts, day):
        return []
    return [known.field.id for known in (*parts["decide"], *parts["changed"])[:SEASON_FIGURES]]


# --- sorting fields into places ---------------------------------------------------------------------

Parts = dict[str, list[FieldToday]]


def _parted(day: Day, span: Span) -> Parts:
    """Every field in the first place that fits, weightiest first."""
    parts: Parts = {"decide": [], "overdue": [], "changed": [], "week": [], "rest": []}
    for known in day.fields:
        if span == "season":
            parts["rest"].append(known)
        elif known.changed and _slipping(known):
            parts["decide"].append(known)
        elif known.overdue:
            parts["overdue"].append(known)
        elif known.changed:
            parts["changed"].append(known)
        elif _coming_on(known, day.on) is not None:
            parts["week"].append(known)
        else:
            parts["rest"].append(known)
    parts["decide"].sort(key=lambda known: (-_watch_probability(known), _natural(known)))
    parts["overdue"].sort(key=lambda known: (OVERDUE_ORDER.index(known.status), _natural(known)))
    parts["changed"].sort(key=lambda known: (-_weight(known), _natural(known)))
    parts["week"].sort(key=lambda known: (_coming_on(known, day.on) or day.on, -_weight(known), _natural(known)))
    parts["rest"].sort(key=lambda known: (ORDER.index(known.status), _natural(known)))
    return parts


def _within_a_screen(parts: Parts, today: date) -> tuple[Parts, list[FieldToday]]:
    """What the sections above the list have room for, and what they leave to the list, weightiest first."""
    told: Parts = {}
    left: list[FieldToday] = []
    for key in ("decide", "overdue", "changed"):
        told[key] = parts[key][:TOP_LINES]
        left += parts[key][TOP_LINES:]
    by_day: Counter[date] = Counter()
    told["week"] = []
    for known in parts["week"]:
        on = _coming_on(known, today) or today
        by_day[on] += 1
        (told["week"] if by_day[on] <= NAMES_A_DAY else left).append(known)
    return told, left


def _slipping(known: FieldToday) -> bool:
    found = known.outlook.finding
    return found is not None and found.resistance is not None and found.resistance.verdict == "slipping"


def _watch_probability(known: FieldToday) -> float:
    found = known.outlook.finding
    return found.resistance.probability if found and found.resistance else 0.0


def _weight(known: FieldToday) -> float:
    """How much a change matters: first finds, then density, then a none that could not tell."""
    found = known.outlook.finding
    density = found.females_per_plant.likely if found and found.females_per_plant else 0.0
    watch = 50.0 if found and found.resistance and found.resistance.verdict == "watch" else 0.0
    base = {"infested": 10.0, "doubtful": 5.0, "not_found": 1.0, "unseen": 0.0}[known.status]
    return base + (1000.0 if known.first_find else 0.0) + watch + min(density, 500.0)


def _coming_on(known: FieldToday, today: date) -> date | None:
    """The day of the coming week on which the look falls due, today for a window that is already open."""
    again = known.outlook.recheck
    if again is None or known.field.muted or again.latest < today or again.likely >= today + WEEK:
        return None
    return max(again.likely, today)


def _open_look(known: FieldToday, today: date) -> Recheck | None:
    """The look of a field that is wanted and not over."""
    again = known.outlook.recheck
    return None if again is None or again.latest < today or known.field.muted else again


def _natural(known: FieldToday) -> tuple[tuple[int, int, str], ...]:
    """Names in the order people expect: Section 9 before Section 10."""
    parts = re.findall(r"\d+|\D+", known.field.name.casefold())
    return tuple((0, int(part), "") if part.isdecimal() else (1, 0, part) for part in parts)


def _told_before(known: FieldToday, today: date) -> bool:
    """Its window closed before yesterday: an earlier digest has told it in full."""
    return known.window_closed is not None and known.window_closed < today - timedelta(days=1)


def _quiet(parts: Parts, day: Day) -> bool:
    newly_overdue = any(not _told_before(known, day.on) for known in parts["overdue"])
    busy = parts["decide"] or newly_overdue or parts["changed"]
    return not (busy or day.held or day.unreachable or day.notices)


# --- words ------------------------------------------------------------------------------------------


def _subject_key(span: Span) -> str:
    return {"day": "digest.subject", "week": "digest.week_subject", "season": "digest.season_subject"}[span]


def _summary(speak: Words, parts: Parts, day: Day, span: Span) -> str:
    if span == "season":
        return _counts(speak, day.fields)
    counts = {
        "sum_decide": len(parts["decide"]) + len(day.held) + len(day.unreachable),
        "sum_overdue": len(parts["overdue"]),
        "sum_changed": len(parts["changed"]),
        "sum_week": len(parts["week"]),
    }
    told = [speak(f"digest.{key}", count=count) for key, count in counts.items() if count]
    return ", ".join(told) or speak("digest.sum_nothing")


def _quiet_line(speak: Words, parts: Parts, day: Day) -> str:
    overdue = [known.field.name for known in parts["overdue"]]
    crew = telling.cut(day.crew, CREW)
    for told in range(min(len(overdue), TOP_LINES), 0, -1):
        names = overdue[:told]
        if len(overdue) > told:
            names.append(speak("digest.more", count=len(overdue) - told))
        line = speak("digest.quiet_overdue", crew=crew, day=day.on, fields=", ".join(names))
        if len(line) <= telling.HEADLINE or told == 1:
            return telling.cut(line, telling.HEADLINE)
    looks = [
        (again.likely, known.field.name) for known in day.fields if (again := _open_look(known, day.on)) is not None
    ]
    count = len(day.fields)
    if not looks:
        return telling.headline([speak("digest.quiet", crew=telling.NAME, day=day.on, count=count)], day.crew)
    likely, name = min(looks)
    likely = max(likely, day.on)
    line = speak("digest.quiet_next", crew=crew, day=day.on, count=count, field=telling.NAME, likely=likely)
    return telling.headline([line], name)


def _top(speak: Words, told: Parts, parts: Parts, day: Day, span: Span) -> list[Section]:
    """The sections above the list; each says how many fields it leaves out."""
    held = [_held_line(speak, waiting) for waiting in day.held[:TOP_LINES]]
    lost = [Line("", speak("digest.unreachable", name=name)) for name in day.unreachable[:TOP_LINES]]
    facts = [Line("", telling.sentence(speak.say(fact))) for fact in day.notices[:TOP_LINES]]
    asked = len(parts["decide"]) + len(day.held) + len(day.unreachable)
    decide = [*_lines(speak, told["decide"], day.on), *held, *lost]
    changed = "digest.changed_week" if span == "week" else "digest.changed"
    return [
        _section(speak, speak("digest.decide"), decide, asked),
        _section(speak, speak("digest.overdue"), _lines(speak, told["overdue"], day.on), len(parts["overdue"])),
        _section(speak, speak(changed), _lines(speak, told["changed"], day.on), len(parts["changed"])),
        Section(speak("digest.week"), tuple(_coming(speak, told["week"], parts["week"], day.on))),
        _section(speak, speak("digest.notes"), facts, len(day.notices)),
    ]


def _lines(speak: Words, fields: Sequence[FieldToday], today: date) -> list[Line]:
    return [_line(speak, known, today) for known in fields]


def _section(speak: Words, title: str, lines: Sequence[Line], count: int) -> Section:
    more = speak("digest.more", count=count - len(lines)) if count > len(lines) else ""
    return Section(title, tuple(lines), more)


def _held_line(speak: Words, waiting: Waiting) -> Line:
    what = speak(
        "digest.held" if waiting.first_line else "digest.held_no_text",
        number=str(waiting.number),
        sender=telling.cut(waiting.sender, 40),
        reason=speak.name("held_why", waiting.reason),
        line=telling.cut(waiting.first_line, 60),
    )
    known = waiting.reason not in ("stranger", "unclear_sender")
    todo = "digest.held_keeper" if not waiting.by_mail else "digest.held_do" if known else "digest.held_stranger"
    return Line("", what, speak(todo, number=str(waiting.number)))


def _coming(speak: Words, told: Sequence[FieldToday], coming: Sequence[FieldToday], today: date) -> list[Line]:
    """One line a day: which fields, what for, who, and how many more."""
    counts = Counter(_coming_on(known, today) or today for known in coming)
    by_day: dict[date, list[FieldToday]] = {}
    for known in told:
        by_day.setdefault(_coming_on(known, today) or today, []).append(known)
    lines = []
    for on, fields in sorted(by_day.items()):
        items = _coming_items(speak, fields)
        if counts[on] > len(fields):
            items.append(speak("digest.more", count=counts[on] - len(fields)))
        name = speak("digest.today") if on == today else speak("digest.coming_day", day=on)
        lines.append(Line(name[0].upper() + name[1:], ", ".join(items)))
    return lines


def _coming_items(speak: Words, fields: Sequence[FieldToday]) -> list[str]:
    """Fields of a day; neighbours in the list with the same purpose and person share one bracket."""
    alike: list[tuple[tuple[str, str], list[str]]] = []
    for known in fields:
        again = known.outlook.recheck
        key = (speak.name("purpose_short", again.purpose) if again else "", known.next_by or speak("picture.nobody"))
        if alike and alike[-1][0] == key:
            alike[-1][1].append(known.field.name)
        else:
            alike.append((key, [known.field.name]))
    return [speak("digest.coming_item", field=", ".join(names), what=what, who=who) for (what, who), names in alike]


def _line(speak: Words, known: FieldToday, today: date) -> Line:
    """All a digest says of one field: what is new or wrong first, then the finding, the stage and the next look."""
    found = known.outlook.finding
    told: list[str] = []
    if known.overdue and known.window_closed is not None:
        told.append(speak("digest.closed", day=known.window_closed))
    if known.first_find:
        told.append(speak("digest.first_find"))
    if found is not None and found.resistance is not None and found.resistance.verdict != "holding":
        watch = found.resistance
        told.append(speak(f"digest.{watch.verdict}", sure=watch.probability))
    last = known.last_visit
    if last is None:
        told.append(speak("digest.never"))
    else:
        when = speak("digest.last" if known.last_by else "digest.last_unnamed", day=last.on, who=known.last_by)
        told.append(f"{telling.finding(speak, last.note, found)}, {when}")
    if found is not None and len(found.both) > 1:
        told.append(speak("digest.both", causes=speak.listed(speak.name("cause", cause) for cause in found.both)))
    if known.status == "infested":
        stage = speak.name("stage_short", known.outlook.stage)
        generation = known.outlook.generation
        told.append(f"{speak.name('generation_short', str(generation))}, {stage}" if generation else stage)
    told.append(_look(speak, known, today))
    return Line(one_line(known.field.name), "; ".join(told) + ".", status=known.status)


def _look(speak: Words, known: FieldToday, today: date) -> str:
    again = known.outlook.recheck
    if again is None:
        return speak("digest.no_look")
    return speak("digest.look", span=speak.span(max(again.earliest, min(today, again.latest)), again.latest))


def _rest(speak: Words, fields: Sequence[FieldToday], *, titled: bool, season: bool) -> list[Section]:
    """The other fields by what was found; those never looked at as a row of names."""
    sections: list[Section] = []
    counted = Counter(known.status for known in fields)
    listed, left = _listed(fields)
    for status, kept in listed.items():
        title = f"{speak.name('status', status)[0].upper()}{speak.name('status', status)[1:]} ({counted[status]})"
        if status == "unseen":
            lines: tuple[Line, ...] = (Line("", ", ".join(one_line(known.field.name) for known in kept) + "."),)
        else:
            lines = tuple(_line(speak, known, known.outlook.as_of) for known in kept)
        sections.append(Section(title, lines))
    if left:
        more = speak("digest.rest_more", count=len(left), parts=_counts(speak, left))
        sections.append(Section("", (Line("", more),)))
    if sections and titled:
        key = "digest.rest_season" if season else "digest.rest"
        sections.insert(0, Section(speak(key), ()))
    return sections


def _listed(fields: Sequence[FieldToday]) -> tuple[dict[Status, list[FieldToday]], list[FieldToday]]:
    """The fields the list has room for, by finding, and those it leaves out: the weightiest stay, in natural order."""
    listed: dict[Status, list[FieldToday]] = {}
    left: list[FieldToday] = []
    room = REST_LINES
    for status in ORDER:
        group = [known for known in fields if known.status == status]
        if len(group) > room:
            group.sort(key=lambda known: (-_weight(known), _natural(known)))
        kept, dropped = sorted(group[:room], key=_natural), group[room:]
        room -= len(kept)
        left += dropped
        if kept:
            listed[status] = kept
    return listed, left


def _counts(speak: Words, fields: Iterable[FieldToday]) -> str:
    counted = Counter(known.status for known in fields)
    return ", ".join(
        speak("digest.part", count=counted[status], status=speak.name("status", status))
        for status in ORDER
        if counted[status]
    )


def _total(speak: Words, fields: Sequence[FieldToday], person: Person) -> str:
    parts = _counts(speak, fields)
    acres = [known.field.acres for known in fields]
    if not fields or None in acres:
        return speak("digest.total", count=len(fields), parts=parts)
    area = sum(known for known in acres if known is not None)
    told = speak("digest.acres", area=area) if person.units == "acre" else speak("digest.hectares", area=area * ACRE_HA)
    return speak("digest.total_area", count=len(fields), area=told, parts=parts)


# --- forms ------------------------------------------------------------------------------------------


def _text(headline: str, total: str, top: Sequence[Section], rest: Sequence[Section], act: str) -> str:
    blocks = [headline, total]
    for section in (*top, *rest):
        lines = [section.title] if section.title else []
        lines += [_text_line(line) for line in section.lines]
        if section.more:
            lines.append(section.more)
        blocks.append("\n".join(lines))
    if act:
        blocks.append(act)
    return "\n\n".join(block for block in blocks if block) + "\n"


def _text_line(line: Line) -> str:
    told = f"{line.name}: {line.what}" if line.name else line.what
    return f"- {told} {line.do}".rstrip()


def _short(headline: str, parts: Parts) -> str:
    names = [known.field.name for key in ("decide", "overdue", "changed") for known in parts[key]]
    choices = [f"{headline}. {', '.join(names[:count])}" for count in range(min(len(names), 6), 0, -1)]
    return first_that_fits([*choices, headline])


def _pictures(day: Day, parts: Parts, speak: Words, *, miles: bool) -> tuple[Picture, ...]:
    """The map, the coming week, and the season of the fields that changed most."""
    drawn: list[Picture] = []
    if sum(known.field.latitude is not None for known in day.fields) > 1:
        drawn.append(crew_map(day.fields, speak.language, miles=miles))
    if parts["week"]:
        drawn.append(week_strip(day.fields, day.on, speak.language))
    for known in (*parts["decide"], *parts["changed"])[:SEASON_FIGURES]:
        if known.outlook.mix:
            visits = known.visits or ((known.last_visit,) if known.last_visit else ())
            drawn.append(season_figure(known.field, known.outlook, visits, day.on, speak.language))
    return tuple(drawn)
