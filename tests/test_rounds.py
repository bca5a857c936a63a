"""The turn of the clock: reminders and digests at the right local hour, once, whatever happened in between."""

from __future__ import annotations

import itertools
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notes_bot.model import Field
from notes_bot.route import driving_order, way_km
from tests.crew_kit import OTHER, SUPERVISOR, Crew, noon


@pytest.fixture
def crew(tmp_path):
    crew = Crew(tmp_path, noon(6, 11))
    yield crew
    crew.close()


def mails(crew: Crew, kind: str) -> list:
    rows = crew.parts.store._db.query("select * from outbox where kind = ? order by id", [kind])
    return list(rows)


def walk(crew: Crew, until: datetime, step: timedelta = timedelta(hours=1)) -> None:
    while crew.clock.at < until:
        crew.clock.walk_to(crew.clock.at + step)
        crew.parts.rounds.turn()


def test_a_window_is_reminded_once_at_the_scouts_hour_and_nudged_once(crew):
    """Looked at every hour for weeks, one reminder on the first day and one nudge half-way."""
    crew.note("kestrel 6 dug 12 white, recheck 10 d")
    promise = crew.parts.store.promise_for(1)
    walk(crew, noon(7, 10))
    sent = [row for row in mails(crew, "reminder") if row["person_id"] == 1]

    first, nudge = (datetime.fromisoformat(row["queued_at"]) for row in sent[:2])
    assert first.date() == promise.earliest
    assert first.astimezone(UTC).hour == 11  # six in Chicago, in summer
    assert promise.earliest < nudge.date() <= promise.latest
    assert all(datetime.fromisoformat(row["queued_at"]).date() > promise.latest for row in sent[2:])


def test_a_window_that_closes_unused_is_followed_by_one_more(crew):
    """The next window is promised once; after two missed in a row it is the supervisor's to decide."""
    crew.note("kestrel 6 dug 12 white, recheck 10 d")
    walk(crew, noon(8, 25), timedelta(hours=6))
    days = {datetime.fromisoformat(row["queued_at"]).date() for row in mails(crew, "reminder")}

    assert len(crew.parts.store.missed(1)) == 2
    assert crew.parts.store.open_promises() == ()
    assert 2 < len(days) <= 4


def test_a_visit_ends_the_promise_and_no_reminder_comes(crew):
    """Looked at before the window opens: the old window is kept, a new one takes its place."""
    crew.note("kestrel 6 dug 12 white, recheck 10 d")
    crew.clock.walk_to(noon(6, 18))
    crew.note("kestrel 6 dug 10 white 12 yellow, recheck 20 d")
    walk(crew, noon(6, 24))

    assert mails(crew, "reminder") == []
    assert len(crew.parts.store.open_promises()) == 1


def test_after_an_outage_one_mail_catches_up(crew):
    """Three windows opened while the service was down: one mail names all three, in driving order."""
    for text in (
        "kestrel 6 dug 12 white, recheck 10 d",
        "old mill 6 dug none, recheck 8 d",
        "harrow 3 5 dug none, recheck 9 d",
    ):
        crew.note(text)
    crew.clock.walk_to(datetime(2026, 6, 21, 19, 0, tzinfo=UTC))
    for _ in range(5):
        crew.parts.rounds.turn()
    (mail,) = mails(crew, "reminder")

    assert all(name in mail["body"] for name in ("Kestrel Bottom", "Old Mill East", "Harrow Ridge 3"))
    # The infested field comes last, whatever the way.
    assert mail["body"].index("Kestrel Bottom") > mail["body"].index("Old Mill East")


def test_a_muted_field_is_not_reminded(crew):
    """ "mute kestrel" keeps the window and sends no mail."""
    crew.note("kestrel 6 dug 12 white, recheck 10 d")
    crew.note("mute kestrel")
    walk(crew, noon(6, 24))

    assert mails(crew, "reminder") == []


def test_a_look_is_moved_or_skipped_by_one_line(crew):
    """ "kestrel in 3 days" moves the window; "skip kestrel" ends it."""
    crew.note("kestrel 6 dug 12 white, recheck 10 d")
    crew.note("kestrel in 3 days")
    assert crew.parts.store.promise_for(1).earliest == date(2026, 6, 14)

    crew.note("skip kestrel")
    assert crew.parts.store.open_promises() == ()


def test_a_look_moved_by_the_supervisor_stays_the_scouts(crew):
    """The scout who was promised the look is reminded of it on its new day."""
    crew.note("kestrel 6 dug 12 white, recheck 10 d")
    crew.note("kestrel in 3 days", SUPERVISOR)
    (promise,) = crew.parts.store.open_promises()

    assert (promise.person_id, promise.earliest) == (1, date(2026, 6, 14))


def test_the_hour_is_local_on_both_sides_of_a_clock_change(tmp_path):
    """Six in the morning in Chicago is 11 UTC in summer and 12 UTC in winter."""
    crew = Crew(tmp_path, datetime(2026, 10, 30, 17, 0, tzinfo=UTC))
    try:
        crew.note("kestrel 6 dug 12 white")
        walk(crew, datetime(2026, 11, 3, 18, 0, tzinfo=UTC))
        crew.note("old mill 6 dug 12 white")
        walk(crew, datetime(2026, 11, 4, 18, 0, tzinfo=UTC))
        hours = [datetime.fromisoformat(row["queued_at"]).hour for row in mails(crew, "digest")]
    finally:
        crew.close()

    assert hours[0] == 11
    assert hours[-1] == 12


def test_a_quiet_day_sends_no_digest_and_a_day_with_news_one(crew):
    """One mail on the morning after the note, the week's on Monday, then silence."""
    crew.note("kestrel 6 dug 12 white, recheck 10 d")
    walk(crew, noon(6, 20))
    sent = mails(crew, "digest")

    assert [datetime.fromisoformat(row["queued_at"]).date() for row in sent] == [date(2026, 6, 12), date(2026, 6, 15)]
    assert "Kestrel Bottom" in sent[0]["body"]
    assert "week to" in sent[1]["body"]


def test_what_is_only_still_open_is_told_again_on_mondays(crew):
    """A stranger's held message is news on its day and then once a week."""
    crew.keep("kestrel 6 dug none", "someone@elsewhere.example")
    walk(crew, noon(6, 25))
    days = [datetime.fromisoformat(row["queued_at"]).date() for row in mails(crew, "digest")]

    assert days[0] == date(2026, 6, 12)
    assert all(day.weekday() == 0 for day in days[1:])
    assert len(days) == 3


def test_quiet_days_can_be_one_line(tmp_path):
    """With quiet_days = "line" every morning brings a mail, short when nothing happened."""
    base = Crew(tmp_path, noon(6, 11))
    base.close()
    service = replace(base.settings.service, folder=tmp_path / "line", quiet_days="line")
    crew = Crew(tmp_path / "line", noon(6, 11), replace(base.settings, service=service))
    try:
        walk(crew, noon(6, 14))
        bodies = [row["body"] for row in mails(crew, "digest")]
    finally:
        crew.close()

    assert len(bodies) == 3
    assert all(len(body.strip().splitlines()) <= 2 for body in bodies)


def test_an_overdue_look_is_told_to_the_supervisor(crew):
    """A window that closed unused is in the digest of the next morning."""
    crew.note("kestrel 6 dug 12 white, recheck 10 d")
    closes = crew.parts.store.promise_for(1).latest
    walk(crew, noon(closes.month, closes.day) + timedelta(days=2))
    last = mails(crew, "digest")[-1]

    assert datetime.fromisoformat(last["queued_at"]).date() == closes + timedelta(days=1)
    assert "overdue" in last["body"].lower()


def test_a_late_look_settles_what_was_overdue(crew):
    """Looked at after its window had closed, the field is overdue no more."""
    crew.note("kestrel 6 dug 12 white, recheck 10 d")
    walk(crew, noon(6, 27), timedelta(hours=6))
    assert crew.parts.store.missed(1)

    crew.note("kestrel 8 dug 20 yellow 9 tan")
    assert crew.parts.store.missed(1) == ()
    supervisor = crew.parts.store.person(3)
    day = crew.parts.rounds.day(supervisor, date(2026, 6, 28))
    assert not any(known.overdue for known in day.fields)


def test_nothing_is_overdue_once_the_roots_are_gone(crew):
    """A window missed in June is no reproach in October: no look would tell anything."""
    crew.note("kestrel 6 dug 12 white, recheck 10 d")
    walk(crew, noon(6, 27), timedelta(hours=6))
    supervisor = crew.parts.store.person(3)

    assert any(known.overdue for known in crew.parts.rounds.day(supervisor, date(2026, 6, 28)).fields)
    assert not any(known.overdue for known in crew.parts.rounds.day(supervisor, date(2026, 10, 15)).fields)


def test_nobody_unreachable_is_mailed(crew):
    """A person whose address refuses mail gets no reminder; the supervisor is told."""
    crew.note("kestrel 6 dug 12 white, recheck 10 d")
    scout = crew.parts.store.person(1)
    crew.parts.store.change_person(replace(scout, reachable=False), crew.clock.at)
    walk(crew, noon(6, 23))

    assert mails(crew, "reminder") == []
    assert any("first scout" in row["body"] for row in mails(crew, "digest"))


def test_each_person_has_an_own_reminder(crew):
    """Two scouts with looks due on one day get one mail each, in their own language."""
    crew.note("kestrel 6 dug 12 white, recheck 10 d")
    crew.note("old mill 6 plantas con pala 12 blancas, volver en 10 d", OTHER)
    walk(crew, datetime(2026, 6, 21, 13, 0, tzinfo=UTC))
    sent = mails(crew, "reminder")

    assert sorted(row["person_id"] for row in sent) == [1, 2]
    assert all(row["person_id"] != 3 for row in sent)
    assert SUPERVISOR not in {row["recipient"] for row in sent}


def test_clean_fields_come_first_and_the_way_has_no_crossings():
    """Four corners of a square and one infested field: the ring is driven in order, the infested one last."""
    spots = {1: (42.0, -93.0), 2: (42.1, -92.9), 3: (42.0, -92.9), 4: (42.1, -93.0), 5: (42.05, -92.95)}
    fields = [Field(n, f"field {n}", "crew", latitude=lat, longitude=lon) for n, (lat, lon) in spots.items()]
    order = [f.id for f in driving_order(fields, infested={5})]

    assert order[-1] == 5
    ring = order[:4]
    diagonal = {frozenset((1, 2)), frozenset((3, 4))}
    assert not any(frozenset(pair) in diagonal for pair in itertools.pairwise(ring))


def test_the_way_goes_on_from_the_last_clean_field():
    """Two infested fields: the one near where the clean ones end comes first."""
    spots = {1: (42.4, -93.0), 2: (42.3, -93.0), 3: (42.5, -93.0), 4: (42.2, -93.0)}
    fields = [Field(n, f"field {n}", "crew", latitude=lat, longitude=lon) for n, (lat, lon) in spots.items()]

    assert [f.id for f in driving_order(fields, infested={3, 4})] == [1, 2, 4, 3]


@given(st.lists(st.tuples(st.integers(0, 40), st.integers(0, 40)), min_size=2, max_size=6, unique=True))
def test_the_way_is_hardly_longer_than_the_shortest(places: list[tuple[int, int]]):
    """Against every order there is: never more than a third longer."""
    fields = [
        Field(n, f"field {n}", "crew", latitude=42 + y / 100, longitude=-93 + x / 100)
        for n, (x, y) in enumerate(places)
    ]
    shortest = min(way_km(order) for order in itertools.permutations(fields))

    assert way_km(driving_order(fields, set())) <= 1.34 * shortest


def test_fields_without_a_place_are_driven_last_in_their_part():
    """Nothing is known of the way, so they are named by name."""
    fields = [Field(1, "b", "crew"), Field(2, "a", "crew"), Field(3, "c", "crew", latitude=42.0, longitude=-93.0)]

    assert [f.name for f in driving_order(fields, infested=set())] == ["c", "a", "b"]
