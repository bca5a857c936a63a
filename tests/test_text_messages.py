"""Whatever we answer or send by itself, as a text message: GSM-7, one segment or at most two, the point of it first."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from email import message_from_bytes, policy

import pytest
import smsutil
from hypothesis import given
from hypothesis import strategies as st

from notes_bot.model import LANGUAGES, Day, Fact, Field, FieldToday, Language, Person, Promise, Reply, Resolved
from notes_bot.reply import (
    compose,
    compose_digest,
    compose_done,
    compose_due,
    compose_held,
    compose_help,
    compose_history,
    compose_plan,
    compose_reminder,
    compose_report,
    compose_sheet,
    compose_state,
    compose_switched,
    compose_told,
    compose_trial,
    compose_unreadable,
    together,
)
from notes_bot.worth import plan_look, tell_look
from tests import reply_cases as cases
from tests.crew_kit import PEOPLE
from tests.test_rounds import mails, walk
from tests.test_rounds_manners import crew_of, noon
from tests.test_winter_words import SHEETS

every_language = pytest.mark.parametrize("language", LANGUAGES)
Kind = Callable[[str, Language], Reply]


def _field(name: str, number: int = 1) -> Field:
    return cases.field(number, name)


def _scout(language: Language) -> Person:
    return replace(cases.SCOUT, language=language)


def _promise(number: int = 1) -> Promise:
    on = cases.DAY
    return Promise(number, 1, on, on + timedelta(days=3), on + timedelta(days=9), "catch_peak", "u", 0)


def _due(name: str, count: int) -> list[tuple[Field, Promise, None]]:
    return [(_field(name if n == 1 else f"{name} {n}", n), _promise(n), None) for n in range(1, count + 1)]


def _day(name: str, count: int) -> Day:
    fields: tuple[FieldToday, ...] = tuple(
        replace(known, field=replace(known.field, name=f"{name} {known.field.id}")) for known in cases.crew(count)
    )
    return Day(cases.DAY, name, fields)


def _answer(name: str, language: Language, *, verdict: str = "seen") -> Reply:
    visit = cases.placed(verdict, name=name)
    return compose(language, cases.one(visit), {1: cases.outlook(verdict)}, cases.SCOUT, spelled=[name], now=cases.NOW)


def _several(name: str, language: Language) -> Reply:
    visits = tuple(cases.placed(number=n, name=f"{name} {n}") for n in range(1, 12))
    outlooks = {n: cases.outlook() for n in range(1, 12)}
    return compose(language, Resolved(visits=visits), outlooks, cases.SCOUT, now=cases.NOW)


def _deeds(name: str, language: Language) -> Reply:
    said = [Fact("muted", {"field": name}), Fact("moved", {"field": name, "date": "2026-07-01"})]
    return compose(language, Resolved(), {}, cases.SCOUT, now=cases.NOW, answers=said)


def _boss(language: Language) -> Person:
    return replace(cases.SUPERVISOR, language=language)


OF_A_FIELD: dict[str, Kind] = {
    "note": _answer,
    "note of none": lambda name, language: _answer(name, language, verdict="too_weak"),
    "state": lambda name, language: compose_state(
        _field(name), cases.outlook(), cases.season(), cases.SCOUT, today=cases.DAY, language=language, picture=False
    ),
    "history": lambda name, language: compose_history(
        _field(name), [(cases.DAY, "6 dug 12 white")], cases.SCOUT, today=cases.DAY, language=language
    ),
    "reminder of one": lambda name, language: compose_reminder(_scout(language), _due(name, 1), cases.DAY),
}
"""Kinds that speak of one field: its name comes first."""
OF_SEVERAL: dict[str, Kind] = {
    "notes": _several,
    "deeds": _deeds,
    "done": lambda name, language: compose_done(Fact("muted", {"field": name}), language),
    "held": lambda name, language: compose_held([cases.held(name, f"{name} 2", name=name)], language),
    "due": lambda name, language: compose_due(
        [(known, window) for known, window, _ in _due(name, 6)], cases.SCOUT, until=cases.DAY, language=language
    ),
    "reminder of many": lambda name, language: compose_reminder(
        _scout(language), _due(name, 12), cases.DAY, nudge=True
    ),
    "digest": lambda name, language: compose_digest(_day(name, 14), _boss(language), pictures=False),
    "digest of the week": lambda name, language: compose_digest(
        _day(name, 14), _boss(language), pictures=False, span="week"
    ),
    "digest of the season": lambda name, language: compose_digest(
        _day(name, 14), _boss(language), pictures=False, span="season"
    ),
    "quiet digest": lambda name, language: compose_digest(
        Day(cases.DAY, name, (replace(cases.crew(1)[0], changed=False, overdue=False),)),
        _boss(language),
        pictures=False,
    ),
    "plan of a look": lambda name, language: compose_plan(
        plan_look("clay"), _field(name), cases.outlook(), _scout(language), year=2026
    ),
    "what a look told": lambda name, language: compose_told(
        tell_look(5, "pulled", True, "wet", "clay"), _field(name), _scout(language), year=2026
    ),
    "trial": lambda _, language: compose_trial((), language),
    "help": lambda _, language: compose_help(language),
    "unreadable": lambda _, language: compose_unreadable("only_pictures", language),
    "switched": lambda _, language: compose_switched(False, language),
    "together": lambda name, language: together([_answer(name, language), _several(name, language)]),
}


def parts(short: str) -> list[object]:
    """As another library splits it (oracle: smsutil)."""
    assert smsutil.is_valid_gsm(short)
    return list(smsutil.split(short).parts)


@every_language
@pytest.mark.parametrize("kind", [*OF_A_FIELD, *OF_SEVERAL])
@pytest.mark.parametrize("name", ["9", "Old Mill East", *cases.NAMES[2:]])
def test_every_answer_is_one_segment(kind: str, name: str, language: Language):
    """All kinds, short names and names no segment holds, in three languages; two only where two letters are joined."""
    short = (OF_A_FIELD | OF_SEVERAL)[kind](name, language).short

    assert short
    assert len(parts(short)) <= (2 if kind == "together" else 1)


@every_language
@pytest.mark.parametrize("kind", OF_A_FIELD)
def test_the_field_is_named_first(kind: str, language: Language):
    """On a watch or a lock screen the first words are all that is seen."""
    assert OF_A_FIELD[kind]("Old Mill East", language).short.startswith("Old Mill East")


@given(st.text(min_size=1, max_size=120), st.sampled_from([*OF_A_FIELD, *OF_SEVERAL]), st.sampled_from(LANGUAGES))
def test_no_name_makes_a_third_segment(name: str, kind: str, language: Language):
    """Any characters in the name of a field or crew: never more than two segments, never outside the alphabet."""
    assert len(parts((OF_A_FIELD | OF_SEVERAL)[kind](name, language).short)) <= 2


@every_language
def test_winter_answers_are_two_segments_at_most(language: Language):
    """Egg counts, HG types, rotations, sample plans and reports."""
    person = _scout(language)
    for sheet in SHEETS[::5]:
        bare = replace(sheet, plans=(), counts=(), points=())
        assert 1 <= len(parts(compose_sheet(bare, person, year=2026).short)) <= 2
    reports = [sheet for sheet in SHEETS if sheet.kind == "report"]
    report = compose_report(reports[:3], [()] * 3, person, year=2026, left_out=0)
    assert 1 <= len(parts(report.short)) <= 2


@every_language
def test_what_leaves_for_a_phone_is_the_short_form(tmp_path, language: Language):
    """Through the whole road to a gateway: an answer and a reminder, one segment each, text only."""
    phone = "15555550101@texts.example"
    scout = replace(PEOPLE[0], addresses=("+15555550101",), language=language)
    crew = crew_of(tmp_path, people=(scout, *PEOPLE[1:]))
    crew.note("kestrel 6 dug 12 white, recheck 10 d", phone)
    crew.note("old mill 6 dug none, recheck 10 d", phone)
    walk(crew, noon(6, 22))
    sent = [row for kind in ("answer", "reminder") for row in mails(crew, kind) if row["person_id"] == 1]
    crew.close()

    assert {row["kind"] for row in sent} == {"answer", "reminder"}
    for row in sent:
        mail = message_from_bytes(row["raw"], policy=policy.default)
        assert mail.get_content_type() == "text/plain"
        assert len(parts(mail.get_content().strip())) == 1
