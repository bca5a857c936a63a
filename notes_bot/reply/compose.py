"""Answers: what to say to one message, and in which order.

The order is always the same, because a tired reader learns it once: one line that fits a lock screen; how
the note was read; what was not understood, with a line that works; what it means; when to look again and
why; what to do; a caution where one is due; how to correct. Nothing here computes: every number and date
comes finished in the outlook.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, datetime

from notes_bot.model import (
    Fact,
    Field,
    Held,
    Language,
    Note,
    Outlook,
    Person,
    Picture,
    Placed,
    Problem,
    Promise,
    Reminder,
    Reply,
    Resolved,
    Visit,
)
from notes_bot.reply import telling
from notes_bot.reply.calendar import calendar_for
from notes_bot.reply.figures import looks_in_words, season_figure, shown_windows
from notes_bot.reply.letters import Letter, letter_html
from notes_bot.reply.segments import SINGLE, first_that_fits, plain, septets, shorten
from notes_bot.reply.words import Words, one_line, words

PROBLEMS_TOLD = 5
"""A message that went wrong everywhere is better sent anew than corrected line by line."""

TO_SETTLE = frozenset(
    {"doubtful", "maybe_nodules", "sum_mismatch", "short_list", "spots_mismatch", "twice", "none_and_some"}
    | {"more_positive", "not_looked_but_seen", "too_early_tan", "weekday_mismatch", "none_and_shade", "many_plants"}
)
"""Complaints of what was understood, but cannot all be so, or is in doubt: they say so, and not "not understood"."""
QUOTE = 60
"""Characters of a line we quote back: enough to find it, short enough for one look."""


def compose(
    reading_language: Language,
    resolved: Resolved,
    outlooks: Mapping[int, Outlook],
    person: Person,
    *,
    spelled: Sequence[str] = (),
    now: datetime,
    answers: Sequence[Fact | str] = (),
    windows: Sequence[tuple[Field, Promise | Reminder]] = (),
    organizer: str = "",
) -> Reply:
    """The answer to one message, of one field or many.

    Args:
        reading_language: the answer follows the note.
        outlooks: by field id; a field without one is answered with what was read and no more.
        spelled: one line per placed note, in order, as the language writes it.
        now: aware; names the year of the conversation and stamps the calendar.
        answers: what commands in the same message led to, as facts or finished text.
        windows: what goes into the calendar file: windows promised, moved or withdrawn.
        organizer: our own address for the calendar; without it no calendar is attached.
    """
    speak = words(reading_language, person.timezone)
    letter = Letter()
    placed = resolved.visits
    lines = [*spelled, *("" for _ in placed[len(spelled) :])]
    headline = _headline(speak, resolved, outlooks, answers)
    letter.line(headline)
    lead = [answer for answer in answers if _leads(answer)] if placed else []
    for answer in lead:
        letter.line(*_answer_lines(speak, answer, skip=headline))
    many = len(placed) > 1
    last = {visit.field.id: number for number, visit in enumerate(placed)}
    for number, (visit, line) in enumerate(zip(placed, lines, strict=False)):
        outlook = outlooks.get(visit.field.id) if last[visit.field.id] == number else None
        if many:
            letter.line(_block_head(speak, visit, outlook))
        letter.line(*_as_read(speak, visit, line))
        if not many:
            letter.line(*_complaints(speak, resolved))
        if outlook is not None:
            _outlook_lines(letter, speak, visit.note, outlook, joined=many)
    if not placed or many:
        letter.line(*_complaints(speak, resolved))
    for answer in answers:
        if answer not in lead:
            letter.line(*_answer_lines(speak, answer, skip=headline))
    for held in resolved.held:
        letter.line(*_held_lines(speak, held, skip=headline))
    if placed:
        letter.line(speak("answer.wrong", example=_example(speak, placed[0])))
    return Reply(
        subject=_subject(speak, [visit.field for visit in placed], now),
        text=letter.text(),
        short=_short(speak, resolved, outlooks, answers),
        calendar=_calendar(windows, now, organizer, person, reading_language),
    )


def compose_state(
    field: Field,
    outlook: Outlook,
    visits: Sequence[Visit],
    person: Person,
    *,
    today: date,
    status: str = "unseen",
    last_line: str = "",
    last_by: str = "",
    language: Language | None = None,
    picture: bool = True,
) -> Reply:
    """Where one field stands: the last look, generation, windows, basis in full, and the season's figure.

    ``visits`` are this season's, oldest first; ``last_line`` is the latest one as the language writes it.
    """
    speak = words(language or person.language, person.timezone)
    letter = Letter()
    state = speak.name("status", status)
    following = telling.next_look(speak, outlook)
    letter.line(telling.headline([speak("state.head", field=telling.NAME, status=state, next=following)], field.name))
    if visits:
        key = "state.last_by" if last_by else "state.last"
        letter.line(speak(key, day=visits[-1].on, name=last_by, line=last_line))
        letter.line(*telling.meaning(speak, visits[-1].note, outlook, whole_season=True))
        letter.line(looks_in_words(speak, visits) if len(visits) > 1 else "")
    else:
        letter.line(speak("state.never"), telling.now(speak, outlook))
    coming = [window for window in shown_windows(outlook.windows, today) if window.latest >= today]
    if coming:
        letter.line(speak("state.coming"), *telling.windows(speak, coming))
    letter.line(*telling.again(speak, outlook))
    letter.line(*telling.to_do(speak, outlook))
    letter.line(*telling.basis(speak, outlook, all_of_it=True))
    pictures: tuple[Picture, ...] = ()
    if picture and outlook.mix:
        pictures = (season_figure(field, outlook, visits, today, speak.language),)
    short = first_that_fits(
        [
            " ".join([f"{field.name}: {state}.", telling.now(speak, outlook), following]),
            f"{field.name}: {state}. {following}",
        ]
    )
    subject = speak("answer.subject", field=field.name, year=str(today.year))
    return Reply(subject, letter.text(), short, letter_html(letter, pictures, speak.language), pictures)


def compose_history(
    field: Field,
    lines: Sequence[tuple[date, str]],
    person: Person,
    *,
    today: date,
    language: Language | None = None,
    limit: int = 30,
) -> Reply:
    """What was noted in one field this season: day and the note as the language writes it, newest first."""
    speak = words(language or person.language, person.timezone)
    letter = Letter()
    key = "history.head" if lines else "history.head_none"
    head = telling.headline([speak(key, field=telling.NAME, count=len(lines))], field.name)
    letter.line(head)
    newest = sorted(lines, key=lambda entry: entry[0], reverse=True)
    for day, line in newest[:limit]:
        letter.line(speak("history.line", day=day, line=line))
    if len(newest) > limit:
        letter.line(speak("history.more", count=len(newest) - limit))
    short = head
    for count in range(1, len(newest) + 1):
        longer = head + " " + " / ".join(speak("history.line", day=day, line=line) for day, line in newest[:count])
        if septets(plain(longer)) > SINGLE:
            break
        short = longer
    return Reply(speak("answer.subject", field=field.name, year=str(today.year)), letter.text(), shorten(short))


def compose_due(
    items: Sequence[tuple[Field, Reminder | Promise]],
    person: Person,
    *,
    until: date,
    today: date | None = None,
    language: Language | None = None,
    limit: int = 40,
) -> Reply:
    """Which looks are due until a day, soonest first; one whose best day has passed counts as due ``today``."""
    speak = words(language or person.language, person.timezone)
    letter = Letter()
    soonest = sorted(items, key=lambda item: (max(item[1].likely, today or item[1].likely), item[0].name))
    head = speak("due.head", count=len(soonest), until=until) if soonest else speak("due.head_none", until=until)
    letter.line(head)
    told = [
        speak(
            "due.line",
            field=field.name,
            span=speak.span(window.earliest, window.latest),
            likely=window.likely,
            purpose=speak.name("purpose", window.purpose),
        )
        for field, window in soonest[:limit]
    ]
    letter.line(*told)
    if len(soonest) > limit:
        letter.line(speak("digest.more", count=len(soonest) - limit))
    names = [
        speak("reminder.short_item", field=field.name, span=speak.span(window.earliest, window.latest))
        for field, window in soonest
    ]
    return Reply(speak("answer.subject_service"), letter.text(), _named(speak, head, names))


def compose_help(language: Language, text: str = "") -> Reply:
    """How to write a note: ``text`` is the note language's own card; the short form is one line of example."""
    speak = words(language)
    card = text.strip("\n") or f"{speak('unreadable.do')}\n{speak('unreadable.example')}"
    return Reply(speak("answer.subject_service"), card + "\n", shorten(speak("help.short")))


def compose_done(fact: Fact, language: Language, *, field: Field | None = None, year: int | None = None) -> Reply:
    """A short confirmation of one deed: corrected, taken back, muted, field added and so on."""
    speak = words(language)
    told = telling.sentence(speak.say(fact))
    subject = speak("answer.subject_service")
    if field is not None and year is not None:
        subject = speak("answer.subject", field=field.name, year=str(year))
    return Reply(subject, told + "\n", shorten(told))


def compose_held(held: Sequence[Held], language: Language) -> Reply:
    """The field is not known: the nearest names, and one word settles it."""
    return compose(
        language,
        Resolved(held=tuple(held)),
        {},
        Person(0, "", "scout", "", ()),
        now=datetime.min,  # noqa: DTZ901 - only the year of a field's subject is read, and no field is known here
    )


def compose_unreadable(reason: str, language: Language) -> Reply:
    """No text could be found in the message; ``reason`` is a key of the table or a short text."""
    speak = words(language)
    letter = Letter()
    letter.line(speak("unreadable.head"))
    letter.line(speak("unreadable.what", reason=speak.name("unreadable_why", reason)))
    letter.line(speak("unreadable.do"), speak("unreadable.example"))
    return Reply(speak("answer.subject_service"), letter.text(), shorten(speak("unreadable.short")))


def compose_switched(on: bool, language: Language) -> Reply:
    """Reminders and digests were turned on or off; an answer to this mail turns them back."""
    speak = words(language)
    letter = Letter()
    letter.line(speak("switched.on" if on else "switched.off"))
    letter.line(speak("switched.back_off" if on else "switched.back_on"))
    return Reply(
        speak("answer.subject_service"), letter.text(), shorten(speak("switched.on" if on else "switched.off"))
    )


# --- the parts of an answer -------------------------------------------------------------------------


def _headline(speak: Words, resolved: Resolved, outlooks: Mapping[int, Outlook], answers: Sequence[Fact | str]) -> str:
    placed = resolved.visits
    if len(placed) == 1:
        visit = placed[0]
        outlook = outlooks.get(visit.field.id)
        finding = telling.finding(speak, visit.note, outlook.finding if outlook else None)
        short_finding = speak.name("verdict", _verdict(visit.note, outlook))
        following = telling.next_look(speak, outlook) if outlook else ""
        return telling.headline(
            [
                speak("answer.head", field=telling.NAME, finding=finding, next=following).strip(),
                speak("answer.head", field=telling.NAME, finding=short_finding, next=following).strip(),
            ],
            visit.field.name,
        )
    if placed:
        soonest = min(
            (
                (outlook.recheck.likely, visit.field.name)
                for visit in placed
                if (outlook := outlooks.get(visit.field.id)) is not None and outlook.recheck is not None
            ),
            default=None,
        )
        count = len({visit.field.id for visit in placed})
        if soonest is None:
            return speak("answer.head_many", count=count, next=speak("answer.next_none"))
        following = speak("answer.next_many", field=telling.NAME, likely=soonest[0])
        return telling.headline([speak("answer.head_many", count=count, next=following)], soonest[1])
    if resolved.held:
        return _held_head(speak, resolved.held[0])
    for answer in answers:
        return telling.cut(_answer_lines(speak, answer)[0], telling.HEADLINE)
    if resolved.problems:
        return speak("answer.not_all", count=len(resolved.problems)) + " " + speak("answer.nothing_kept")
    return speak("answer.nothing_kept")


def _verdict(note: Note, outlook: Outlook | None) -> str:
    if outlook is not None and outlook.finding is not None:
        return outlook.finding.verdict
    return "not_looked" if note.outcome == "not_looked" else "seen"


def _block_head(speak: Words, visit: Placed, outlook: Outlook | None) -> str:
    finding = telling.finding(speak, visit.note, outlook.finding if outlook else None)
    return f"* {one_line(visit.field.name)}: {finding}."


def _as_read(speak: Words, visit: Placed, line: str) -> list[str]:
    lines = [speak("answer.read_as", line=line)] if line else []
    if visit.day_assumed:
        lines.append(speak("answer.day_assumed", day=visit.on))
    return lines


def _complaints(speak: Words, resolved: Resolved) -> list[str]:
    """What was corrected silently, then what was not understood: quoted, said, and a line that works."""
    lines = [telling.sentence(remark.wrong) for remark in resolved.remarks]
    problems = [problem for problem in resolved.problems if not (problem.holds and resolved.held)]  # held: asked below
    for problem in problems[:PROBLEMS_TOLD]:
        lines += _problem(speak, problem)
    if len(problems) > PROBLEMS_TOLD:
        lines.append(telling.sentence(speak("digest.more", count=len(problems) - PROBLEMS_TOLD)))
    return lines


def _problem(speak: Words, problem: Problem) -> list[str]:
    quote = telling.cut(" ".join(problem.where.text.split()), QUOTE)
    heading = "answer.settle" if problem.kind in TO_SETTLE else "answer.problem"
    lines = [speak(heading, line=problem.where.line, quote=quote)]
    if problem.wrong:
        lines.append(telling.sentence(problem.wrong))
    if problem.instead:
        lines.append(speak("answer.problem_works", instead=problem.instead))
    return lines


def _outlook_lines(letter: Letter, speak: Words, note: Note, outlook: Outlook, *, joined: bool) -> None:
    letter.line(*telling.meaning(speak, note, outlook))
    letter.line(*telling.again(speak, outlook))
    letter.line(*telling.to_do(speak, outlook))
    letter.line(*telling.cautions(speak, outlook))
    if not joined:
        letter.line(*telling.basis(speak, outlook))


def _leads(answer: Fact | str) -> bool:
    """A correction is what the writer wants to see first: it stands before the note it changed."""
    return isinstance(answer, Fact) and answer.key == "corrected"


def _answer_lines(speak: Words, answer: Fact | str, skip: str = "") -> list[str]:
    told = telling.sentence(speak.say(answer)) if isinstance(answer, Fact) else answer.strip()
    lines = told.splitlines() or [""]
    return lines[1:] if lines[0] == skip else lines


def _held_head(speak: Words, held: Held) -> str:
    if held.note.field is None:
        return speak("held.head_unnamed")
    return telling.headline([speak("held.head", name=telling.NAME)], held.note.field)


def _held_lines(speak: Words, held: Held, skip: str) -> list[str]:
    head = _held_head(speak, held)
    lines = [] if head == skip else [head]
    if held.nearest:
        lines.append(speak("held.ask", names=_choice(speak, held.nearest)))
    else:
        lines.append(speak("held.ask_open"))
    if held.note.field:
        lines.append(speak("held.new", name=held.note.field))
    return lines


def _choice(speak: Words, names: Sequence[str]) -> str:
    return speak.listed(names[:4], "or")


def _example(speak: Words, visit: Placed) -> str:
    """One short reply that corrects: the number of plants when one was said, else taking the note back."""
    plants = visit.note.plants
    if plants:
        return speak("answer.wrong_example", field=visit.field.name, plants=plants + 2)
    return speak("answer.wrong_undo", field=visit.field.name)


def _subject(speak: Words, fields: Sequence[Field], now: datetime) -> str:
    names = {field.id: field.name for field in fields}
    if len(names) == 1:
        return speak("answer.subject", field=next(iter(names.values())), year=str(now.year))
    if names:
        return speak("answer.subject_many", count=len(names), year=str(now.year))
    return speak("answer.subject_service")


def _calendar(
    windows: Sequence[tuple[Field, Promise | Reminder]],
    now: datetime,
    organizer: str,
    person: Person,
    language: Language,
) -> bytes:
    if not windows or not organizer:
        return b""
    return calendar_for(windows, now=now, organizer=organizer, zone=person.timezone, language=language)


# --- one segment ------------------------------------------------------------------------------------


def _short(speak: Words, resolved: Resolved, outlooks: Mapping[int, Outlook], answers: Sequence[Fact | str]) -> str:
    """The most useful thing first, in one segment."""
    bad = [problem for problem in resolved.problems if not (problem.holds and resolved.held)]
    complaint = ""
    if bad:
        quote = telling.cut(" ".join(bad[0].where.text.split()), 24)
        complaint = speak("short.bad", count=len(bad), quote=quote)
    placed = resolved.visits
    if len(placed) == 1:
        lead = speak("short.corrected") if any(_leads(answer) for answer in answers) else ""
        return _short_one(speak, placed[0], outlooks.get(placed[0].field.id), complaint, lead)
    if placed:
        items = [_short_item(speak, visit, outlooks.get(visit.field.id)) for visit in placed]
        return _joined(speak, items, complaint)
    if resolved.held:
        held = resolved.held[0]
        if held.nearest:
            return first_that_fits(
                [
                    speak("held.short", name=held.note.field or "?", names=_choice(speak, held.nearest[:count]))
                    for count in (4, 3, 2, 1)
                ]
            )
        return shorten(speak("held.short_open"))
    if answers:
        told = " ".join(" ".join(_answer_lines(speak, answer)) for answer in answers)
        return shorten(f"{told} {complaint}".strip())
    return shorten(complaint or speak("answer.nothing_kept"))


def _short_one(speak: Words, visit: Placed, outlook: Outlook | None, complaint: str, lead: str) -> str:
    name = telling.cut(visit.field.name, 32)
    finding = _short_finding(speak, visit.note, outlook)
    following = _short_next(speak, outlook)
    stage = telling.sentence(_short_stage(speak, outlook)).removesuffix(".")
    purpose = speak.name("purpose", outlook.recheck.purpose) if outlook and outlook.recheck else ""
    wrong = speak("short.wrong", example=_example(speak, visit))
    again = f"{following}, {purpose}" if purpose else following
    dug = speak("short.dug", plants=visit.note.plants) if visit.note.plants else ""
    core = f"{lead} {name}: {f'{finding} {dug}'.strip()}.".strip()
    tail = f" {complaint}." if complaint else ""
    tops = _short_tops(speak, visit.note, outlook)
    choices = [
        f"{core} {tops}. {stage}. {again}.{tail} {wrong}",
        f"{core} {tops}. {stage}. {again}.{tail}",
        f"{core} {tops}. {following}.{tail}",
        f"{core} {again}.{tail}",
        f"{core} {following}.{tail}",
        f"{core} {following}.",
    ]
    return first_that_fits([choice.replace(" .", "") for choice in choices])


def _short_tops(speak: Words, note: Note, outlook: Outlook | None) -> str:
    """What the tops point at, when that is not the nematode alone."""
    found = outlook.finding if outlook else None
    if found is None or not note.tops or not found.look_alikes:
        return ""
    causes = found.both or ((found.look_alikes[0].cause,) if found.look_alikes[0].cause != "scn" else ())
    return speak("short.tops", causes=speak.listed(speak.name("cause", cause) for cause in causes)) if causes else ""


def _short_finding(speak: Words, note: Note, outlook: Outlook | None) -> str:
    found = outlook.finding if outlook else None
    if found is not None and found.verdict == "seen" and found.females_per_plant is not None:
        apart = [spot for spot in found.spots if not spot.check]
        if len(apart) < 2:
            number = telling.density(speak, found.females_per_plant, at_least=note.too_many)
            return speak("short.seen", density=number)
    return telling.finding(speak, note, found)


def _short_stage(speak: Words, outlook: Outlook | None) -> str:
    if outlook is None or outlook.infested_probability < telling.LIKELY_HERE:
        return ""
    stage = speak.name("stage_short", outlook.stage)
    if outlook.generation is None:
        return stage
    return f"{speak.name('generation_short', str(outlook.generation))}, {stage}"


def _short_next(speak: Words, outlook: Outlook | None) -> str:
    if outlook is None:
        return ""
    again = outlook.recheck
    if again is None:
        return speak("short.none_set")
    if telling.one_day(again):
        return speak("short.again_day", likely=again.likely)
    return speak("short.again", span=speak.span(again.earliest, again.latest), likely=again.likely)


def _short_item(speak: Words, visit: Placed, outlook: Outlook | None) -> str:
    finding = _short_finding(speak, visit.note, outlook)
    again = outlook.recheck if outlook else None
    look = speak("short.item_look", likely=again.likely) if again else ""
    return f"{telling.cut(visit.field.name, 24)}: {finding}{look}"


def _joined(speak: Words, items: Sequence[str], complaint: str) -> str:
    """As many items as fit, and how many more."""
    tail = f". {complaint}" if complaint else ""
    choices = ["; ".join(items) + tail]
    for count in range(len(items) - 1, 0, -1):
        more = speak("reminder.short_more", count=len(items) - count)
        choices.append("; ".join(items[:count]) + f"; {more}{tail}")
    choices.append(items[0])
    return first_that_fits(choices)


def _named(speak: Words, head: str, names: Sequence[str]) -> str:
    if not names:
        return shorten(head)
    return _joined(speak, [f"{head} {names[0]}", *names[1:]], "")
