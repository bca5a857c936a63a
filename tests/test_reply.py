"""Answers: what is said, in which order, within which limits, in three languages."""

from __future__ import annotations

import re
import textwrap
from dataclasses import replace
from datetime import date, timedelta
from typing import get_args

import pytest
import smsutil
from hypothesis import example, given
from hypothesis import strategies as st

from notes_bot.model import (
    LANGUAGES,
    Day,
    Fact,
    Field,
    FieldToday,
    Finding,
    Interval,
    Language,
    Outlook,
    Placed,
    Promise,
    Reply,
    Resolved,
)
from notes_bot.reply import (
    compose,
    compose_digest,
    compose_done,
    compose_due,
    compose_held,
    compose_help,
    compose_history,
    compose_reminder,
    compose_state,
    compose_unreadable,
)
from notes_bot.reply.segments import SINGLE, septets
from notes_bot.reply.telling import HEADLINE
from notes_bot.reply.words import words
from tests import reply_cases as cases

CASES = list(cases.every_case())
UNFILLED = re.compile(r"[{}]|\bNone\b(?! seen)|[a-z]_[a-z]|(?<!\.)\.\.(?!\.|$)|\?\?| \?|:\.")
SPELLED = "Old Mill East, 25 Jun, R2, moist, shovel, 6 plants: 12 white 30 yellow 4 tan"


def answer(visit: Placed, outlook: Outlook, language: Language = "en", **more: object) -> Reply:
    resolved = Resolved(visits=(visit,), **more)  # type: ignore[arg-type]
    return compose(language, resolved, {visit.field.id: outlook}, cases.SCOUT, spelled=[SPELLED], now=cases.NOW)


every_case = pytest.mark.parametrize(("visit", "outlook"), [c[1:] for c in CASES], ids=[c[0] for c in CASES])
every_language = pytest.mark.parametrize("language", LANGUAGES)


# --- limits that hold for every answer ---


@every_language
@every_case
def test_the_first_line_fits_a_lock_screen(visit: Placed, outlook: Outlook, language: Language):
    """At most 110 characters: field, finding, next look."""
    line = answer(visit, outlook, language).text.splitlines()[0]

    assert 10 < len(line) <= HEADLINE
    assert line.startswith(visit.field.name[:20])


@every_language
@every_case
def test_the_short_form_is_one_segment(visit: Placed, outlook: Outlook, language: Language):
    """At most 160 septets of GSM-7, by our count and by another library's."""
    short = answer(visit, outlook, language, problems=(cases.problem(),)).short

    assert septets(short) <= SINGLE
    assert len(smsutil.split(short).parts) == 1
    assert smsutil.is_valid_gsm(short)


@every_language
@every_case
def test_the_text_wraps_on_a_narrow_screen(visit: Placed, outlook: Outlook, language: Language):
    """No column work and no word longer than a 40-column screen, so soft wrapping loses nothing."""
    text = answer(visit, outlook, language).text
    for line in text.splitlines():
        assert "\t" not in line
        assert "  " not in line
        assert all(len(row) <= 40 for row in textwrap.wrap(line, 40, break_long_words=False, break_on_hyphens=False))


@every_language
@every_case
def test_nothing_unfilled_reaches_a_reader(visit: Placed, outlook: Outlook, language: Language):
    """No braces, no None, no key with underscores, no doubled stop, no ``?`` standing in for a value."""
    reply = answer(visit, outlook, language)
    for text in (reply.text, reply.short, reply.subject):
        assert not UNFILLED.search(text.replace(visit.field.name, ""))


@every_language
@every_case
def test_the_order_is_always_the_same(visit: Placed, outlook: Outlook, language: Language):
    """Read as, meaning, look again, what to do, caution, basis, how to correct."""
    speak = words(language)
    text = answer(visit, outlook, language).text
    again = "answer.again_none" if outlook.recheck is None else "answer.again"
    heads = [
        speak.tables["answer"]["read_as"].partition("{")[0],
        speak.tables["answer"][again.partition(".")[2]].partition("{")[0],
        speak.tables["answer"]["do"].partition("{")[0],
        speak.tables["answer"]["caution"].partition("{")[0],
        speak.tables["answer"]["used"].partition("{")[0],
        speak.tables["answer"]["wrong"].partition("{")[0],
    ]
    places = [text.index(head) for head in heads if head in text]

    assert places == sorted(places)
    assert heads[0] in text
    assert heads[1] in text
    assert heads[-1] in text


@every_case
def test_every_date_told_is_one_the_outlook_holds(visit: Placed, outlook: Outlook):
    """No date is made in this room: each day in the text stands in the outlook, its facts or the note as read."""
    speak = words("en")
    known = {speak.day(visit.on)}
    if outlook.recheck:
        known |= {speak.day(outlook.recheck.earliest), speak.day(outlook.recheck.likely)}
        known |= {speak.day(outlook.recheck.latest)}
    known |= {speak.day(day) for day in re.findall(r"\d{4}-\d\d-\d\d", repr(outlook))}
    found = outlook.finding
    if found is not None:
        moments = [fact.values.get("until") for fact in found.cautions]
        known |= {speak.day(moment) for moment in moments if moment is not None}
        known |= {speak.day(found.change.since)} if found.change else set()
    text = answer(visit, outlook).text.replace(SPELLED, "").replace(visit.field.name, "")
    told = set(re.findall(r"\d{1,2} (?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)\b", text))

    assert told <= known


# --- what must be true of what is said ---


def test_the_answer_to_an_early_note_reads_as_a_person_would_say_it():
    """One whole answer, to be read from top to bottom."""
    visit, outlook = cases.placed(), cases.outlook()

    assert answer(visit, outlook).text == textwrap.dedent(
        """\
        Old Mill East: females seen, 7.7 a plant. Look again 30 Jun-9 Jul, best 4 Jul.

        Read as: Old Mill East, 25 Jun, R2, moist, shovel, 6 plants: 12 white 30 yellow 4 tan

        SCN is in this field. First generation (87% sure), at the peak, mostly yellow.
        7.7 females a plant (likely 4.4 to 13).

        LOOK AGAIN 30 Jun-9 Jul, best 4 Jul, to catch the peak (fairly sure).
        Most yellow females of the first generation: about 4 Jul.

        NEXT: Dig in the same spots and count by color, so the dates get sharper.

        CAUTION: Clean boots and shovel before the next field. Visit this field last.

        Based on: average weather for 50 days (Ames 8 WSW IA; 38 km off); planted 12 May.

        Wrong? Reply: fix Old Mill East: 8 plants
        """
    )


@every_language
@pytest.mark.parametrize("verdict", [v for v in cases.VERDICTS if v not in {"seen", "not_looked"}])
def test_none_seen_is_never_none_there(verdict: str, language: Language):
    """Every none says what it is worth, and speaks of the population only with an if."""
    speak = words(language)
    text = answer(cases.placed(verdict), cases.outlook(verdict), language).text

    assert speak.name("none", verdict) in text
    assert speak("answer.here") not in text
    assert speak.tables["answer"]["if_here"].partition("{")[0] in text
    assert not re.search(r"\b(free of SCN|no SCN|sin NQS|libre|sem NCS|livre)\b", text)


@every_language
def test_no_chance_is_told_as_certain(language: Language):
    """0 and 1 become "under 1" and "over 99" percent."""
    speak = words(language)
    for share in (0.0, 0.001, 0.999, 1.0):
        assert not re.match(r"(0|100)\b", speak.percent(share))
    assert re.match(r"50\b", speak.percent(0.5))


@every_language
def test_a_generation_is_named_only_for_the_first_two(language: Language):
    """From the third on it is "third or later", without a chance that would claim more."""
    speak = words(language)
    second = answer(cases.placed(), cases.outlook(generation=2), language).text
    third = answer(cases.placed(), cases.outlook(generation=3), language).text

    assert f"{speak.name('generation', '2')} ({speak.percent(0.87)}" in second
    assert f"{speak.name('generation', '3')}," in third
    assert speak.percent(0.87) not in third


@every_language
def test_thin_data_are_called_thin(language: Language):
    """The look-again line says how sure it is."""
    speak = words(language)
    for sure in ("thin", "fair", "firm"):
        text = answer(cases.placed(), replace(cases.outlook(), sure=sure), language).text

        assert f"({speak.name('sure', sure)})" in text


def test_places_kept_apart_are_never_averaged():
    """Two places give two densities, and no number of the whole field."""
    text = {c[0]: answer(c[1], c[2]).text for c in CASES}["two places apart"]

    assert "57 females a plant (oval), 15 (good beans)" in text.splitlines()[0]
    assert "36" not in text


def test_a_field_ratio_is_never_called_a_female_index():
    """The share of the check strip says what it is not."""
    text = {c[0]: answer(c[1], c[2]).text for c in CASES}["resistance holding"]

    assert "3% of the check strip (2% to 6%): a field comparison, not a female index." in text
    assert text.count("check strip (") == 1


def test_a_change_is_told_only_when_it_is_one():
    """Clear and comparable: how many times; unclear: no clear change; looked at differently: not compared."""
    texts = {name: answer(visit, outlook).text for name, visit, outlook in CASES}

    assert "About 2.7 times the count of 11 Jun (likely 1.6 to 4.4)." in texts["many more than last time"]
    assert "No clear change since 11 Jun." in texts["much the same as last time"]
    assert "2.7 times" not in texts["not to be compared"]
    assert (
        "Not to be compared with 11 Jun: looked in another way (pulled then, shovel now)."
        in texts["not to be compared"]
    )


def test_a_weak_look_says_what_it_would_miss():
    """A density says more to a scout than a chance of detection; the most is told as "even 100"."""
    texts = {name: answer(visit, outlook).text for name, visit, outlook in CASES}

    assert "Half the time such a look would miss females even at 6.2 a plant." in texts["overlooks 6.2 a plant"]
    assert "Half the time such a look would miss females even at 100 a plant." in texts["overlooks 100 a plant"]


def test_two_causes_at_once_are_told_as_both():
    """SCN found does not rule potassium out, nor the other way round."""
    text = {c[0]: answer(c[1], c[2]).text for c in CASES}["both at once"]

    assert "Likely both: SCN and potassium shortage." in text
    assert "Potassium shortage or SCN? Test soil and leaves" in text


def test_an_entry_interval_is_told_in_the_readers_own_time_and_defers_to_the_label():
    """13:00 UTC is 08:00 in Chicago in June."""
    text = {c[0]: answer(c[1], c[2]).text for c in CASES}["closed to entry"]

    assert "CAUTION: Do not enter before 26 Jun 08:00, as the note says (12 h). The label rules." in text


def test_too_many_to_count_is_told_as_a_lower_bound():
    """The headline says "over", and no interval pretends to know better."""
    visit = cases.placed()
    visit = replace(visit, note=replace(visit.note, too_many=True))
    text = answer(visit, cases.outlook()).text

    assert "over 7.7 a plant" in text.splitlines()[0]
    assert "likely" not in text.partition("LOOK AGAIN")[0]


@pytest.mark.parametrize(
    ("likely", "told"),
    [(1.0, "1 female a plant"), (1.04, "1 female a plant"), (0.8, "0.8 females a plant"), (1.2, "1.2 females a plant")],
)
def test_one_female_is_one(likely: float, told: str):
    """Only the number one takes the singular."""
    outlook = cases.outlook()
    finding = replace(outlook.finding, females_per_plant=Interval(0.5, likely, 2.4))

    assert told in answer(cases.placed(), replace(outlook, finding=finding)).text


def test_an_assumed_day_is_told():
    """A note without a day was dated by us; the reader must see that."""
    visit = replace(cases.placed(), day_assumed=True)

    assert "No day in the note: taken as 25 Jun." in answer(visit, cases.outlook()).text


def test_a_wish_of_the_writer_is_kept_as_one_day():
    """A look-again the writer asked for is named once, as theirs."""
    again = replace(cases.recheck("asked"), earliest=date(2026, 7, 4), latest=date(2026, 7, 4))
    text = answer(cases.placed(), replace(cases.outlook(), recheck=again)).text

    assert "LOOK AGAIN 4 Jul, the day you asked for." in text
    assert "Look again 4 Jul." in text.splitlines()[0]


def test_a_window_moved_by_an_entry_interval_says_so():
    """Nobody is sent into a closed field."""
    why = Fact("peak_ahead", {"generation": 1, "likely": "2026-07-04", "closed_until": "2026-07-02"})
    text = answer(cases.placed(), replace(cases.outlook(), recheck=replace(cases.recheck(), why=why))).text

    assert "Moved back: closed to entry until 2 Jul." in text


def test_no_look_again_says_why():
    """After the roots a soil sample tells more."""
    text = answer(cases.placed(), cases.outlook(purpose=None)).text

    assert "NO LOOK SET. Roots are too old to judge since about 1 Sep. A soil sample tells more." in text


# --- several fields, problems, commands ---


@every_language
def test_several_fields_get_a_block_each(language: Language):
    """One headline for all, then each field with what it means; bases are left out to stay short."""
    visits = tuple(cases.placed(number=n, name=f"Section {n}") for n in (1, 2, 3))
    outlooks = {n: cases.outlook() for n in (1, 2, 3)}
    reply = compose(language, Resolved(visits=visits), outlooks, cases.SCOUT, spelled=["a", "b", "c"], now=cases.NOW)

    assert len(reply.text.splitlines()[0]) <= HEADLINE
    for n in (1, 2, 3):
        assert reply.text.count(f"* Section {n}: ") == 1
    assert words(language).tables["answer"]["used"].partition("{")[0] not in reply.text
    assert septets(reply.short) <= SINGLE


def test_many_fields_in_one_text_message_keep_what_fits():
    """A text message with twelve fields names the first ones and says how many more."""
    visits = tuple(cases.placed(number=n, name=f"Section number {n}") for n in range(1, 13))
    outlooks = {n: cases.outlook() for n in range(1, 13)}
    short = compose("en", Resolved(visits=visits), outlooks, cases.SCOUT, now=cases.NOW).short

    assert short.startswith("Section number 1: ")
    assert re.search(r"\+\d+ more$", short)


def test_two_looks_at_one_field_are_judged_once():
    """The outlook is one per field; the earlier block shows only how it was read."""
    visits = (cases.placed(), cases.placed())
    text = compose(
        "en", Resolved(visits=visits), {1: cases.outlook()}, cases.SCOUT, spelled=["first", "second"], now=cases.NOW
    ).text

    assert text.count("LOOK AGAIN") == 1
    assert text.index("Read as: first") < text.index("Read as: second") < text.index("LOOK AGAIN")


@every_language
def test_a_problem_is_quoted_with_a_line_that_works(language: Language):
    """What was kept comes first; the bad line is quoted, explained, and a good one given; slips are told."""
    text = answer(
        cases.placed(), cases.outlook(), language, problems=(cases.problem(),), remarks=(cases.remark(),)
    ).text

    assert text.index("Old Mill East") < text.index("dug 6 12 purple") < text.index("dug 6: 12 white")
    assert 'I know no colour "purple".' in text
    assert "ead `whte` as white." in text
    assert "2" in next(line for line in text.splitlines() if "dug 6 12 purple" in line)


@every_language
def test_only_problems_means_nothing_was_kept(language: Language):
    """The first line says so plainly."""
    reply = compose(language, Resolved(problems=(cases.problem(),)), {}, cases.SCOUT, now=cases.NOW)

    assert words(language)("answer.nothing_kept") in reply.text.splitlines()[0]
    assert "dug 6 12 purple" in reply.short


@every_language
def test_an_unknown_field_is_asked_about_in_one_line(language: Language):
    """The nearest names are offered, and one of them as the whole reply settles it."""
    reply = compose_held([cases.held("Old Mill East", "Old Mill West", "Mill Pond")], language)

    assert '"old mll"' in reply.text.splitlines()[0]
    assert "Old Mill East, Old Mill West" in reply.text
    assert "Old Mill East" in reply.short
    assert septets(reply.short) <= SINGLE


def test_a_held_note_is_not_also_a_problem():
    """Resolve reports the unknown field twice, as a held note and as a problem; the reader is asked once."""
    trouble = replace(cases.problem("old mll"), kind="unknown_field", holds=True)
    text = compose(
        "en", Resolved(problems=(trouble,), held=(cases.held("Old Mill East"),)), {}, cases.SCOUT, now=cases.NOW
    ).text

    assert text.count("old mll") == 2  # the question, and how to make it a new field
    assert "Not understood" not in text


@every_language
def test_a_correction_is_confirmed_before_anything_else(language: Language):
    """Who corrects wants to see the correction: before the note as read, and in the text message too."""
    deed = Fact("corrected", {"field": "Old Mill East", "date": "2026-07-08", "what": "white", "old": 12, "value": 14})
    reply = compose(
        language,
        cases.one(cases.placed()),
        {1: cases.outlook()},
        cases.SCOUT,
        spelled=["as read"],
        now=cases.NOW,
        answers=[deed],
    )

    assert reply.text.count("14") >= 1
    assert reply.text.index("14") < reply.text.index("as read")
    assert reply.short.startswith("Corr")


@every_language
def test_answers_to_commands_come_after_the_notes(language: Language):
    """A message may hold a note and a command; a command alone answers in the first line."""
    deed = Fact("muted", {"field": "Back Forty"})
    both = compose(
        language, cases.one(cases.placed()), {1: cases.outlook()}, cases.SCOUT, now=cases.NOW, answers=[deed]
    )
    alone = compose(language, Resolved(), {}, cases.SCOUT, now=cases.NOW, answers=[deed, "Old Mill East\nmore"])

    assert both.text.index("Old Mill East") < both.text.index("Back Forty")
    assert "Back Forty" in alone.text.splitlines()[0]
    assert alone.text.count("Back Forty") == compose_done(deed, language).text.count("Back Forty")
    assert "Back Forty" in alone.short


@every_language
@pytest.mark.parametrize("reason", ["encrypted", "only_pictures", "damaged", "empty", "a form nobody foresaw"])
def test_an_unreadable_message_gets_a_reason_and_an_example(reason: str, language: Language):
    """The writer learns why, and sees a line that works."""
    reply = compose_unreadable(reason, language)

    assert words(language)("unreadable.example") in reply.text
    assert septets(reply.short) <= SINGLE


@every_language
def test_help_is_one_screen_with_lines_that_work(language: Language):
    """All of it within 24 lines of 40 columns, and one line for a text message."""
    reply = compose_help(language)
    rows = [row for line in reply.text.splitlines() for row in textwrap.wrap(line, 40) or [""]]

    assert len(rows) <= 24
    assert septets(reply.short) <= SINGLE


@every_language
def test_the_state_of_a_field_stands_alone_as_text(language: Language):
    """Without the picture the text still says what was dug and which windows come."""
    reply = compose_state(
        cases.field(),
        cases.outlook(with_mix=True),
        cases.season(),
        cases.SCOUT,
        today=cases.DAY,
        status="infested",
        last_line=SPELLED,
        last_by="second scout",
        language=language,
    )
    (picture,) = reply.pictures

    assert reply.text.count(words(language)("picture.season_visits", parts="").partition(":")[0] + ": ") == 1
    assert all(words(language).span(w.earliest, w.latest) in reply.text for w in cases.windows()[1:])
    assert f"cid:{picture.content_id}" in reply.html
    last = words(language)("state.last_by", day=cases.season()[-1].on, name="second scout", line=SPELLED)
    assert last in reply.text
    assert len(reply.text.splitlines()[0]) <= HEADLINE
    assert septets(reply.short) <= SINGLE


@every_language
def test_a_field_never_looked_at_has_a_state_too(language: Language):
    """Before the first look there are only dates to tell."""
    outlook = replace(cases.outlook(purpose="first_look", stage="before_first"), finding=None, infested_probability=0.5)
    text = compose_state(cases.field(), outlook, (), cases.SCOUT, today=cases.DAY, language=language).text

    assert words(language)("state.never") in text
    assert words(language)("state.coming") in text


@every_language
def test_history_is_newest_first_and_short_when_long(language: Language):
    """The newest look comes first; a long season is cut and says so."""
    lines = [(cases.DAY - timedelta(days=n), f"look {n}") for n in range(40)]
    reply = compose_history(cases.field(), lines, cases.SCOUT, today=cases.DAY, language=language, limit=5)

    assert [f"look {n}" in reply.text for n in range(7)] == [True] * 5 + [False] * 2
    assert "35" in reply.text
    assert septets(reply.short) <= SINGLE
    assert "look 0" in reply.short


@every_language
def test_due_looks_come_soonest_first(language: Language):
    """A list of what to dig, in the order of the days."""
    items = [
        (
            cases.field(n, f"Section {n}"),
            Promise(
                n,
                1,
                cases.DAY,
                cases.DAY + timedelta(days=9 - n),
                cases.DAY + timedelta(days=12),
                "settle_none",
                "u",
                0,
            ),
        )
        for n in range(1, 6)
    ]
    reply = compose_due(items, cases.SCOUT, until=cases.DAY + timedelta(days=10), language=language)
    places = [reply.text.index(f"Section {n}") for n in range(1, 6)]

    assert places == sorted(places, reverse=True)
    assert septets(reply.short) <= SINGLE
    assert len(compose_due([], cases.SCOUT, until=cases.DAY, language=language).text.splitlines()) == 1


def test_one_conversation_a_field_and_season():
    """The subject names the field and year only, so mail programs keep a field's answers together."""
    subjects = {answer(visit, outlook).subject for _, visit, outlook in CASES if visit.field.name == "Old Mill East"}

    assert subjects == {"SCN notes: Old Mill East, 2026"}


@every_language
def test_a_field_without_an_outlook_is_still_answered(language: Language):
    """What was read and how to correct it can always be said."""
    reply = compose(language, cases.one(cases.placed()), {}, cases.SCOUT, spelled=[SPELLED], now=cases.NOW)

    assert SPELLED in reply.text
    assert reply.short


@pytest.mark.parametrize("verdict", get_args(Finding.__annotations__["verdict"]) or cases.VERDICTS)
def test_every_verdict_has_its_own_words(verdict: str):
    """No two verdicts sound alike in a headline."""
    heads = {v: answer(cases.placed(v), cases.outlook(v)).text.splitlines()[0] for v in cases.VERDICTS}

    assert sum(head == heads[verdict] for head in heads.values()) == 1


names = st.text(min_size=1, max_size=200)


@given(names, st.sampled_from(cases.VERDICTS), st.sampled_from(LANGUAGES), st.sampled_from(cases.NAMES))
@example("0" * 92, "seen", "en", "Old Mill East")  # a crew's name that leaves the headline too little room
def test_no_name_breaks_an_answer(name: str, verdict: str, language: Language, other: str):
    """Any characters at all, line breaks and controls included, in the field, the crew or a spelled note."""
    visit, outlook = cases.placed(verdict, name=name), cases.outlook(verdict)
    supervisor = replace(cases.SUPERVISOR, language=language)
    both = Resolved(visits=(visit, cases.placed(number=2, name=other)), held=(cases.held(name, other, name=name),))
    for reply in (
        compose(language, Resolved(visits=(visit,)), {1: outlook}, cases.SCOUT, spelled=[name], now=cases.NOW),
        compose(language, both, {1: outlook, 2: outlook}, cases.SCOUT, spelled=[name, name], now=cases.NOW),
        compose_state(visit.field, outlook, (), cases.SCOUT, today=cases.DAY, language=language),
        compose_held([cases.held(name, name=name)], language),
        compose_reminder(replace(cases.SCOUT, language=language), [due(name)], cases.DAY),
        compose_digest(Day(cases.DAY, name, (known_as(name),)), supervisor, pictures=False),
    ):
        assert len(reply.text.splitlines()[0]) <= HEADLINE
        assert septets(reply.short) <= SINGLE
        assert reply.subject.isprintable()
        assert all(char.isprintable() or char == "\n" for char in reply.text)


def due(name: str) -> tuple[Field, Promise, None]:
    return cases.field(1, name), Promise(1, 1, cases.DAY, cases.DAY, cases.DAY, "asked", "u", 0), None


def known_as(name: str) -> FieldToday:
    known = cases.crew(1)[0]
    return replace(known, field=replace(known.field, name=name), changed=True)
