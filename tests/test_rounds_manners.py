"""Who is mailed when: the hour people chose, days without the service, closed fields, limits, bare replies."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from email import message_from_bytes, policy

import pytest
import vobject

from notes_bot import survey
from notes_bot.deeds import outlook_of
from notes_bot.model import Field, Promise
from notes_bot.rounds import Rounds, on_time
from notes_bot.settings import MailIn, Service, Settings, Texts
from tests.crew_kit import FIELDS, OTHER, PEOPLE, SUPERVISOR, US, Crew, noon
from tests.test_rounds import mails, walk

CHICAGO_SUMMER = 5
"""Hours behind UTC."""


@pytest.fixture
def crew(tmp_path):
    crew = Crew(tmp_path, noon(6, 11))
    yield crew
    crew.close()


def crew_of(tmp_path, people=PEOPLE, fields=FIELDS, at=None, **service) -> Crew:
    """A crew with other people, fields or settings."""
    settings = Settings(
        service=Service(folder=tmp_path, address=US, **service),
        mail_in=MailIn(port=0),
        texts=Texts(mail_gateways=("texts.example",)),
        people=people,
        fields=fields,
    )
    return Crew(tmp_path, at or noon(6, 11), settings)


def promise(crew: Crew, field_id: int, earliest: date, latest: date, person_id: int = 1) -> None:
    """A window as if an answer had promised it."""
    likely = earliest + (latest - earliest) / 2
    window = Promise(field_id, person_id, earliest, likely, latest, "catch_peak", f"look-{field_id}@crew.example", 0)
    store = crew.parts.store
    ended = {open_one.id: "cancelled" for open_one in store.open_promises() if open_one.field_id == field_id}
    store.keep_round((), crew.clock.at, moved=ended, promises=[window])


def at(row) -> datetime:
    return datetime.fromisoformat(row["queued_at"])


def newest(crew: Crew, kind: str = "reminder"):
    return mails(crew, kind)[-1]


def calendar_of(raw: bytes):
    """The calendar file of a mail, read by another library than wrote it."""
    mail = message_from_bytes(raw, policy=policy.default)
    part = next(part for part in mail.walk() if part.get_content_type() == "text/calendar")
    calendar = vobject.readOne(part.get_content())
    assert calendar.validate(raiseException=True)
    return calendar


# --- the hour ---


def test_an_evening_person_is_reminded_on_the_evening_before(tmp_path):
    """With remind = "evening" and hour 18 the mail for a look on the 21st comes on the 20th at six in the evening."""
    crew = crew_of(tmp_path, people=(replace(PEOPLE[0], remind="evening", hour=18), *PEOPLE[1:]))
    promise(crew, 1, date(2026, 6, 21), date(2026, 6, 28))
    walk(crew, noon(6, 22))
    (mail,) = mails(crew, "reminder")

    assert at(mail) == datetime(2026, 6, 20, 18 + CHICAGO_SUMMER, tzinfo=UTC)
    crew.close()


def test_a_late_mail_waits_for_the_next_morning(crew):
    """Back at half past eleven in the evening, the service lets people sleep; at six one mail comes."""
    promise(crew, 1, date(2026, 6, 14), date(2026, 6, 24))
    crew.clock.walk_to(datetime(2026, 6, 16, 4, 30, tzinfo=UTC))  # 23:30 on the 15th
    crew.parts.rounds.turn()
    assert mails(crew, "reminder") == mails(crew, "digest") == []

    walk(crew, noon(6, 17), timedelta(minutes=30))
    (mail,) = mails(crew, "reminder")
    assert at(mail) == datetime(2026, 6, 16, 6 + CHICAGO_SUMMER, tzinfo=UTC)


@pytest.mark.parametrize(
    ("hour", "now", "sent"),
    [(6, 5, False), (6, 6, True), (6, 19, True), (6, 20, False), (0, 0, True), (22, 23, True), (23, 0, False)],
)
def test_mail_goes_out_from_the_hour_on_but_not_late(hour, now, sent):
    """From the chosen hour until eight in the evening, or two hours for those who chose a late one."""
    assert on_time(datetime(2026, 6, 11, now, 30, tzinfo=UTC), hour) is sent


@pytest.mark.parametrize("hour", [1, 2])
def test_an_hour_that_is_skipped_or_doubled_brings_one_mail(tmp_path, hour):
    """In Chicago 2:00 is missing on 8 March 2026 and 1:00 comes twice on 1 November."""
    crew = crew_of(
        tmp_path, people=(replace(PEOPLE[0], hour=hour), *PEOPLE[1:]), at=datetime(2026, 3, 7, 18, tzinfo=UTC)
    )
    promise(crew, 1, date(2026, 3, 8), date(2026, 3, 8))
    walk(crew, datetime(2026, 3, 8, 18, tzinfo=UTC), timedelta(minutes=20))
    spring = mails(crew, "reminder")
    crew.clock.walk_to(datetime(2026, 10, 31, 18, tzinfo=UTC))
    crew.parts.rounds.turn()
    promise(crew, 2, date(2026, 11, 1), date(2026, 11, 1))
    walk(crew, datetime(2026, 11, 1, 18, tzinfo=UTC), timedelta(minutes=20))
    autumn = mails(crew, "reminder")[len(spring) :]

    # 8:00 UTC is 2:00 standard time, told as 3:00; 1:00 first comes at 6:00 UTC, 2:00 at 8:00.
    assert [at(row).hour for row in spring] == [{1: 7, 2: 8}[hour]]
    assert [at(row).hour for row in autumn] == [{1: 6, 2: 8}[hour]]
    crew.close()


# --- days without the service ---


def test_a_window_that_passed_while_the_service_was_down_is_nobodys_fault(crew):
    """Nobody was told of it: it does not count as missed, and a new window is promised."""
    crew.note("kestrel 6 dug 12 white, recheck 10 d")
    crew.clock.walk_to(crew.clock.at + timedelta(days=30))
    walk(crew, crew.clock.at + timedelta(days=2))

    assert crew.parts.store.missed(1) == ()
    (window,) = crew.parts.store.open_promises()
    assert window.latest > date(2026, 7, 11)
    assert window.sequence == 2


def test_the_supervisor_is_told_for_how_long_the_service_was_down(crew):
    """After three days away one digest covers them and says so."""
    walk(crew, noon(6, 12))
    crew.note("kestrel 6 dug 12 white, recheck 10 d")
    crew.clock.walk_to(datetime(2026, 6, 16, 12, tzinfo=UTC))
    for _ in range(4):
        crew.parts.rounds.turn()
    (digest,) = mails(crew, "digest")

    assert "Kestrel Bottom" in digest["body"]
    assert "covers 4 days" in digest["body"]


def test_a_nudge_leaves_a_late_reminder_its_time(crew):
    """Reminded on the last day but two, a scout is not nudged the morning after."""
    promise(crew, 1, date(2026, 6, 12), date(2026, 6, 22))
    crew.clock.walk_to(datetime(2026, 6, 20, 14, tzinfo=UTC))
    walk(crew, noon(6, 23))
    days = [at(row).date() for row in mails(crew, "reminder")]

    assert days == [date(2026, 6, 20), date(2026, 6, 22)]


def test_a_backlog_of_notes_is_read_before_anybody_is_reminded(crew, monkeypatch):
    """The look that is due may be among the messages that wait."""
    promise(crew, 1, date(2026, 6, 11), date(2026, 6, 20))
    monkeypatch.setattr("notes_bot.rounds.MESSAGES_A_TURN", 2)
    crew.keep("old mill 6 dug none")
    crew.keep("harrow ridge 3 6 dug none")
    crew.keep("kestrel 6 dug 12 white")
    for _ in range(3):
        crew.parts.rounds.turn()

    assert mails(crew, "reminder") == []


# --- people and fields that must not be mailed about ---


def test_a_muted_look_is_reminded_when_it_is_unmuted_in_time(crew):
    """Muting keeps the window as it is; nothing is counted as sent."""
    promise(crew, 1, date(2026, 6, 12), date(2026, 6, 30))
    crew.note("mute kestrel")
    walk(crew, noon(6, 15))
    assert mails(crew, "reminder") == []

    crew.note("resume kestrel")
    walk(crew, noon(6, 16))
    assert [at(row).date() for row in mails(crew, "reminder")] == [date(2026, 6, 16)]


def test_a_muted_window_that_ends_is_no_reproach(crew):
    """Nobody is late for a field that was muted."""
    promise(crew, 1, date(2026, 6, 12), date(2026, 6, 14))
    crew.note("mute kestrel")
    walk(crew, noon(6, 17))

    assert crew.parts.store.missed(1) == ()
    assert crew.parts.store.open_promises() == ()


def test_a_person_who_can_be_reached_again_is_reminded(crew):
    """What an unreachable person was not sent is still to be sent."""
    promise(crew, 1, date(2026, 6, 12), date(2026, 6, 30))
    store = crew.parts.store
    store.change_person(replace(store.person(1), reachable=False), crew.clock.at)
    walk(crew, noon(6, 15))
    store.change_person(replace(store.person(1), reachable=True), crew.clock.at)
    walk(crew, noon(6, 16))

    assert [at(row).date() for row in mails(crew, "reminder")] == [date(2026, 6, 16)]


def test_no_reminder_falls_into_an_entry_interval(crew):
    """Sprayed with 48 hours to wait: the look asked for inside them is reminded of on the first whole open day."""
    crew.note("kestrel 6 dug 12 white, sprayed today, rei 48 h, recheck 1 d")
    until = crew.parts.store.entry_closed_until(1, date(2026, 1, 1))
    assert until is not None
    promise(crew, 1, date(2026, 6, 12), date(2026, 6, 20))  # a window from before the spraying was told
    walk(crew, noon(6, 16))
    (mail,) = mails(crew, "reminder")

    assert at(mail) > until
    assert at(mail).date() == date(2026, 6, 14)


def test_the_end_of_an_entry_interval_is_judged_where_the_field_is(crew):
    """Closed until 23:00 on the 13th in Chicago, which is the 14th in Greenwich: the 14th is open, the 13th is not."""
    note = crew.note("kestrel 6 dug 12 white")
    assert note is not None
    closed = datetime(2026, 6, 14, 4, 0, tzinfo=UTC)
    with crew.parts.store._write() as db:
        db.execute("update visits set entry_closed_until = ?", ["2026-06-14T04:00:00.000000Z"])
    assert crew.parts.store.entry_closed_until(1, date(2026, 1, 1)) == closed
    body = crew.body(crew.note("kestrel saturday"))

    assert "closed to entry until 13 Jun" in body
    assert crew.parts.store.promise_for(1).earliest == date(2026, 6, 14)


def test_nobody_gets_more_mails_a_day_than_set(tmp_path):
    """With one a day a supervisor who also scouts gets the reminder today and the digest when there is room."""
    boss = replace(PEOPLE[2], hour=6)
    crew = crew_of(tmp_path, people=(*PEOPLE[:2], boss), most_mails_a_day=1)
    for field_id, day in ((1, 13), (2, 14), (3, 15)):
        promise(crew, field_id, date(2026, 6, day), date(2026, 6, 25), person_id=3)
    crew.note("kestrel 6 dug 12 white", SUPERVISOR)
    walk(crew, noon(6, 20))
    days = [at(row).date() for kind in ("reminder", "digest") for row in mails(crew, kind) if row["person_id"] == 3]

    assert len(days) == len(set(days)) >= 3
    crew.close()


def test_more_looks_than_one_mail_holds_are_told_the_next_day(tmp_path):
    """Forty are named and counted as told; the others follow, those with the soonest last day first."""
    fields = tuple(Field(n, f"Block {n}", "crew", planted=date(2026, 5, 6)) for n in range(1, 44))
    crew = crew_of(tmp_path, fields=fields)
    for known in fields:
        promise(crew, known.id, date(2026, 6, 12), date(2026, 6, 30) + timedelta(days=known.id % 2))
    walk(crew, datetime(2026, 6, 12, 12, tzinfo=UTC))
    first = newest(crew)["body"]
    walk(crew, datetime(2026, 6, 13, 12, tzinfo=UTC))
    second = newest(crew)["body"]

    told = [{n for n in range(1, 44) if f" Block {n}:" in body} for body in (first, second.replace("Block", " Block"))]
    assert len(told[0]) == 40
    assert told[0] | told[1] == set(range(1, 44))
    assert not told[0] & told[1]
    crew.close()


def test_a_mail_that_cannot_be_made_keeps_nobody_elses(crew, monkeypatch):
    """One person's reminder fails: the other's goes out, and the failed one is tried again after a while."""
    promise(crew, 1, date(2026, 6, 12), date(2026, 6, 25))
    promise(crew, 2, date(2026, 6, 12), date(2026, 6, 25), person_id=2)
    real, broken = Rounds._reminder, [1, 1]

    def sometimes(self, person, looks, day, *, nudge):
        if person.id == 1 and broken:
            broken.pop()
            raise RuntimeError("a poisoned field")
        return real(self, person, looks, day, nudge=nudge)

    monkeypatch.setattr(Rounds, "_reminder", sometimes)
    walk(crew, noon(6, 12), timedelta(minutes=5))
    first, second = mails(crew, "reminder")

    assert (first["person_id"], second["person_id"]) == (2, 1)
    assert at(second) - at(first) == timedelta(minutes=20)


# --- answers to a reminder ---


def reminded(crew: Crew) -> str:
    """The Message-ID of a reminder of three fields, all noted before by the scout, the last one Old Mill."""
    for text in ("kestrel 6 dug 12 white", "harrow ridge 3 6 dug 9 white", "old mill 6 dug 4 white"):
        crew.note(text)
    for field_id in (1, 2, 3):
        promise(crew, field_id, date(2026, 6, 12), date(2026, 6, 22))
    walk(crew, datetime(2026, 6, 12, 12, tzinfo=UTC))
    return newest(crew)["message_id"]


def test_a_bare_day_moves_every_look_the_reminder_named(crew):
    """ "monday" can only mean the round; the answer names the fields, and how to move only some."""
    mail = reminded(crew)
    body = crew.body(crew.note("monday", reply_to=mail))

    assert {p.earliest for p in crew.parts.store.open_promises()} == {date(2026, 6, 15)}
    assert all(known.name in body for known in FIELDS)
    assert "Moved all 3 looks to Mon 15 Jun" in body


def test_a_bare_day_leaves_alone_what_was_looked_at_since(crew):
    """One of the three was visited after the reminder: its new window stays."""
    mail = reminded(crew)
    crew.note("kestrel 6 dug 20 white 3 yellow, recheck 14 d")
    crew.note("monday", reply_to=mail)
    days = {p.field_id: p.earliest for p in crew.parts.store.open_promises()}

    assert days[2] == days[3] == date(2026, 6, 15)
    assert days[1] == date(2026, 6, 26)


def test_a_bare_skip_is_asked_about_and_skip_all_skips_all(crew):
    """ "skip" would lose looks: it is asked which, and "skip all" is understood."""
    mail = reminded(crew)
    body = crew.body(crew.note("skip", reply_to=mail))
    assert len(crew.parts.store.open_promises()) == 3
    assert "speaks of 3 looks" in body
    assert "skip all" in body

    crew.note("skip all", reply_to=mail)
    assert crew.parts.store.open_promises() == ()


def test_a_named_field_is_moved_alone(crew):
    """ "kestrel monday" under a reminder of three moves one."""
    mail = reminded(crew)
    crew.note("kestrel monday", reply_to=mail)
    days = {p.field_id: p.earliest for p in crew.parts.store.open_promises()}

    assert days == {1: date(2026, 6, 15), 2: date(2026, 6, 12), 3: date(2026, 6, 12)}


def test_a_bare_day_by_text_message_is_meant_for_the_reminder_before_it(tmp_path):
    """Text messages have no threads: what came last is what is answered."""
    phone = "15555550101@texts.example"
    crew = crew_of(tmp_path, people=(replace(PEOPLE[0], addresses=("+15555550101",)), *PEOPLE[1:]))
    crew.note("old mill 6 dug 4 white", phone)
    for field_id in (1, 3):
        promise(crew, field_id, date(2026, 6, 12), date(2026, 6, 22))
    walk(crew, datetime(2026, 6, 12, 12, tzinfo=UTC))
    crew.note("monday", phone)
    days = {p.field_id: p.earliest for p in crew.parts.store.open_promises()}

    assert days[1] == days[3] == date(2026, 6, 15)
    assert days[2] != date(2026, 6, 15)
    crew.close()


def test_a_bare_day_under_a_digest_is_asked_about(crew):
    """A digest speaks of the whole crew; the supervisor must say which field."""
    for text in ("kestrel 6 dug 12 white", "old mill 6 dug 4 white"):
        crew.note(text)
    walk(crew, datetime(2026, 6, 12, 12, tzinfo=UTC))
    before = crew.parts.store.open_promises()
    body = crew.body(crew.note("friday", SUPERVISOR, reply_to=newest(crew, "digest")["message_id"]))

    assert crew.parts.store.open_promises() == before
    assert "Say which" in body
    assert "Kestrel Bottom friday" in body or "Old Mill East friday" in body


# --- the calendar follows ---


def test_a_moved_look_moves_its_calendar_entry_and_a_skipped_one_takes_it_out(crew):
    """One UID from the first answer on; the sequence rises; a skip is CANCELLED (RFC 5546)."""
    answers = [
        crew.note("kestrel 6 dug 12 white, recheck 10 d"),
        crew.note("kestrel in 3 days"),
        crew.note("skip kestrel"),
    ]
    events = [calendar_of(answer.outgoing[0].raw).vevent for answer in answers if answer is not None]
    numbers = [int(event.sequence.value) for event in events]

    assert len({event.uid.value for event in events}) == 1
    assert numbers == sorted(set(numbers))
    assert [event.status.value for event in events] == ["CONFIRMED", "CONFIRMED", "CANCELLED"]
    assert events[1].dtstart.value == date(2026, 6, 14)


def test_a_look_somebody_else_made_leaves_the_first_persons_calendar(crew):
    """The second scout looked: the first one's next reminder takes the entry out."""
    crew.note("kestrel 6 dug 12 white, recheck 10 d")
    promise(crew, 3, date(2026, 6, 14), date(2026, 6, 25))
    crew.note("kestrel 6 plantas con pala 20 blancas", OTHER)
    walk(crew, noon(6, 15))
    entries = calendar_of(newest(crew)["raw"]).vevent_list

    assert {(entry.location.value, entry.status.value) for entry in entries} == {
        ("Harrow Ridge 3", "CONFIRMED"),
        ("Kestrel Bottom", "CANCELLED"),
    }


# --- digests on request and by the calendar ---


@pytest.mark.parametrize(
    ("language", "asked", "said"),
    [
        ("en", "digest", "crew, Thu 11 Jun:"),
        ("en", "digest week", "crew, week to Thu 11 Jun:"),
        ("en", "season digest", "crew, season to Thu 11 Jun:"),
        ("es", "resumen de la semana", "crew, semana hasta jue 11 jun:"),
        ("pt", "resumo da safra", "crew, safra até qui 11 jun:"),
    ],
)
def test_a_supervisor_may_ask_for_the_day_the_week_or_the_season(tmp_path, language, asked, said):
    """In any of the three languages, answered in the supervisor's own."""
    crew = crew_of(tmp_path, people=(*PEOPLE[:2], replace(PEOPLE[2], language=language)))
    crew.note("kestrel 6 dug 12 white")
    filing = crew.note(asked, SUPERVISOR)
    assert filing is not None
    (digest,) = [out for out in filing.outgoing if out.kind == "digest"]

    assert digest.body.startswith(said)
    crew.close()


def test_the_season_is_summed_up_once_when_nothing_is_left_to_look_for(crew):
    """Three weeks after the last note, with the roots gone, one digest covers the season."""
    crew.note("kestrel 6 dug 12 white, recheck 10 d")
    walk(crew, noon(11, 20), timedelta(hours=4))
    heads = [row["body"].splitlines()[0] for row in mails(crew, "digest")]

    assert sum(head.startswith("crew, season to") for head in heads) == 1


def test_temperatures_that_stop_coming_are_told(crew):
    """Measured until the 12th and no longer: the supervisor hears of it once it is five days, and again on Mondays."""
    from notes_bot.model import DayTemperature

    days = [DayTemperature(date(2026, 6, 1) + timedelta(days=n), 14.0, 27.0) for n in range(12)]
    crew.parts.store.keep_temperatures("*", days, "file")
    walk(crew, noon(6, 24))
    told = [at(row).date() for row in mails(crew, "digest") if "No new temperatures since 12 Jun" in row["body"]]

    assert told == [date(2026, 6, 18), date(2026, 6, 22)]


def test_a_calendar_feed_holds_the_open_looks(tmp_path):
    """A scout's file holds own looks, the supervisor's all; a look that is over is gone from it."""
    crew = crew_of(tmp_path, calendar_feed=True)
    crew.note("kestrel 6 dug 12 white, recheck 10 d")
    crew.note("old mill 6 plantas con pala 12 blancas", OTHER)
    crew.parts.rounds.turn()
    files = {path.name.split("-")[1]: path for path in (tmp_path / "feeds").glob("*.ics")}

    def fields(person: str) -> list[str]:
        calendar = vobject.readOne(files[person].read_text("utf-8"))
        return sorted(entry.location.value for entry in calendar.contents.get("vevent", []))

    assert (fields("1"), fields("2"), fields("3")) == (
        ["Kestrel Bottom"],
        ["Old Mill East"],
        ["Kestrel Bottom", "Old Mill East"],
    )
    crew.note("skip kestrel")
    crew.parts.rounds.turn()
    assert fields("1") == []
    crew.close()


def test_a_digest_that_takes_too_long_tells_the_rest_as_it_last_stood(crew, monkeypatch):
    """On a machine so slow that reckoning one field takes its whole patience: every field is there, the mail goes."""
    crew.note("kestrel 6 dug 12 white")
    crew.note("old mill 6 plantas con pala 12 blancas", OTHER)
    reckoned = []

    def slowly(store, known, *args, **more):
        reckoned.append(known.id)
        crew.clock.walk_to(crew.clock.at + survey.PATIENCE)
        return outlook_of(store, known, *args, **more)

    monkeypatch.setattr(survey, "outlook_of", slowly)
    digest = crew.parts.rounds.digest_now(crew.parts.store.person(3))

    assert len(reckoned) == 1
    assert all(known.name in digest.body for known in FIELDS)


def test_a_field_that_cannot_be_reckoned_keeps_no_other_waiting(crew, monkeypatch):
    """The idle service writes down that nothing is known of it, and goes on to the next."""
    crew.note("kestrel 6 dug 12 white")

    def not_kestrel(store, known, *args, **more):
        if known.id == 1:
            raise ValueError("no such day")
        return outlook_of(store, known, *args, **more)

    monkeypatch.setattr(survey, "outlook_of", not_kestrel)
    for _ in range(3):
        survey.renew_idle(crew.parts.store, crew.clock.at.date(), {}, 1)

    assert set(crew.parts.store.standings("crew")) == {1, 2, 3}


def test_a_reminder_names_what_opens_in_the_days_after(crew):
    """One trip may do for two: what opens within three days is named, later ones are not, and none is sent."""
    promise(crew, 1, date(2026, 6, 12), date(2026, 6, 25))
    promise(crew, 2, date(2026, 6, 15), date(2026, 6, 25))
    promise(crew, 3, date(2026, 6, 16), date(2026, 6, 25))
    walk(crew, datetime(2026, 6, 12, 12, tzinfo=UTC))
    body = newest(crew)["body"]

    assert "Opening soon: Old Mill East: 15-25 Jun." in body
    assert "Harrow Ridge 3" not in body
    assert [p.state for p in crew.parts.store.open_promises()] == ["sent", "waiting", "waiting"]


def test_what_opens_soon_in_a_closed_field_is_not_named(crew):
    """Nobody is sent towards a field that may not be entered on that day."""
    crew.note("old mill 6 dug 4 white, sprayed today rei 96 h")
    promise(crew, 1, date(2026, 6, 12), date(2026, 6, 25))
    promise(crew, 2, date(2026, 6, 14), date(2026, 6, 25))
    walk(crew, datetime(2026, 6, 12, 12, tzinfo=UTC))

    assert "Old Mill East" not in newest(crew)["body"]


# --- quiet for a season ---


@pytest.mark.parametrize(
    ("language", "off", "on"),
    [
        ("en", "mute all", "resume all"),
        ("es", "no más avisos esta campaña", "reanudar todo"),
        ("pt", "silenciar tudo", "retomar tudo"),
    ],
)
def test_a_person_may_mute_all_reminders_of_a_season(tmp_path, language, off, on):
    """No reminder of any field until it is asked for again; the supervisor's digest says whose reminders are off."""
    crew = crew_of(tmp_path, people=(replace(PEOPLE[0], language=language), *PEOPLE[1:]))
    for field_id in (1, 2):
        promise(crew, field_id, date(2026, 6, 12), date(2026, 6, 25))
    crew.note(off)
    walk(crew, datetime(2026, 6, 15, 12, tzinfo=UTC))
    assert mails(crew, "reminder") == []
    assert "First scout wants no reminders this season" in newest(crew, "digest")["body"]

    crew.note(on)
    walk(crew, datetime(2026, 6, 16, 12, tzinfo=UTC))
    assert [row["person_id"] for row in mails(crew, "reminder")] == [1]
    crew.close()


def test_the_next_season_is_heard_of_again(crew):
    """What was muted for a season is over with it."""
    crew.note("mute all")
    crew.clock.walk_to(datetime(2027, 6, 10, 17, tzinfo=UTC))
    promise(crew, 1, date(2027, 6, 12), date(2027, 6, 25))
    walk(crew, datetime(2027, 6, 12, 12, tzinfo=UTC))

    assert len(mails(crew, "reminder")) == 1


def test_a_window_that_closes_while_its_person_is_quiet_is_the_supervisors(crew):
    """Nobody was told, by the person's own wish: it is overdue, not passed over in silence."""
    promise(crew, 1, date(2026, 6, 12), date(2026, 6, 14))
    crew.note("kestrel 6 dug 12 white, recheck 1 d")
    crew.note("mute all")
    walk(crew, datetime(2026, 6, 22, 12, tzinfo=UTC))

    assert "OVERDUE" in newest(crew, "digest")["body"]
