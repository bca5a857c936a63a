"""Calendar files, read back by another library than the one that writes them."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest
import vobject

from notes_bot.model import LANGUAGES, Field, Promise, Reminder
from notes_bot.reply import calendar_for, compose, compose_reminder
from notes_bot.reply.words import words
from tests import reply_cases as cases

UID = "look-1-2026@crew.example"


def promise(**changes: object) -> Promise:
    first = Promise(1, 1, date(2026, 6, 30), date(2026, 7, 4), date(2026, 7, 9), "catch_peak", UID, 0)
    return replace(first, **changes)  # type: ignore[arg-type]


def written(*items: tuple[Field, Reminder | Promise], **more: object) -> bytes:
    asked = {"now": cases.NOW, "organizer": "notes@crew.example", "zone": "America/Chicago"} | more
    return calendar_for(items, **asked)  # type: ignore[arg-type]


def read(raw: bytes) -> list[vobject.base.Component]:
    return list(vobject.readOne(raw.decode()).vevent_list)


def test_a_window_becomes_one_all_day_entry_on_its_likeliest_day():
    """The entry says where, what for and the whole window, and blocks no time."""
    (entry,) = read(written((cases.field(), promise())))

    assert entry.dtstart.value == date(2026, 7, 4)
    assert entry.dtend.value == date(2026, 7, 5)
    assert entry.summary.value == "Dig Old Mill East, to catch the peak"
    assert "30 Jun-9 Jul, best 4 Jul" in entry.description.value
    assert entry.location.value == "Old Mill East"
    assert entry.transp.value == "TRANSPARENT"


def test_the_calendar_is_published_and_asks_nobody_to_answer():
    """RFC 5546 3.2.1: METHOD:PUBLISH needs an ORGANIZER and must not have an ATTENDEE."""
    calendar = vobject.readOne(written((cases.field(), promise())).decode())

    assert calendar.method.value == "PUBLISH"
    assert calendar.version.value == "2.0"
    assert calendar.prodid.value
    assert calendar.vevent.organizer.value == "mailto:notes@crew.example"
    assert "attendee" not in calendar.vevent.contents


def test_times_are_universal():
    """DTSTAMP is UTC whatever zone the clock was in; no VTIMEZONE is needed."""
    chicago = datetime.fromisoformat("2026-06-25T14:30:00-05:00")
    raw = written((cases.field(), promise()), now=chicago)

    assert b"DTSTAMP:20260625T193000Z\r\n" in raw
    assert b"VTIMEZONE" not in raw
    (entry,) = read(raw)
    assert entry.dtstamp.value.astimezone(UTC) == cases.NOW


def test_a_moved_window_keeps_its_identity():
    """Same UID, higher SEQUENCE: calendar programs move the entry and make no second one."""
    (before,) = read(written((cases.field(), promise())))
    (after,) = read(written((cases.field(), promise(likely=date(2026, 7, 6), sequence=1))))

    assert before.uid.value == after.uid.value == UID
    assert (int(before.sequence.value), int(after.sequence.value)) == (0, 1)
    assert after.dtstart.value == date(2026, 7, 6)


@pytest.mark.parametrize(
    ("state", "status"),
    [
        ("waiting", "CONFIRMED"),
        ("sent", "CONFIRMED"),
        ("nudged", "CONFIRMED"),
        ("kept", "CANCELLED"),
        ("closed", "CANCELLED"),
        ("cancelled", "CANCELLED"),
    ],
)
def test_a_window_that_ended_is_withdrawn(state: str, status: str):
    """A look that was made, missed or called off leaves the calendar by STATUS, under the same UID."""
    reminder = Reminder(
        5,
        1,
        1,
        date(2026, 6, 30),
        date(2026, 7, 4),
        date(2026, 7, 9),
        "catch_peak",
        state,
        UID,
        2,  # type: ignore[arg-type]
    )
    (entry,) = read(written((cases.field(), reminder)))

    assert entry.status.value == status
    assert entry.uid.value == UID


def test_the_file_keeps_the_form_of_the_standard():
    """RFC 5545 3.1: CRLF line ends, no line over 75 octets, UTF-8; long names are folded, not broken."""
    name = cases.NAMES[3] + " ñandú ação"
    raw = written((cases.field(1, name), promise()))
    (entry,) = read(raw)

    assert raw.endswith(b"\r\n")
    assert b"\n" not in raw.replace(b"\r\n", b"")
    assert max(len(line) for line in raw.split(b"\r\n")) <= 75
    assert entry.location.value == name


def test_a_field_name_cannot_add_lines_of_its_own():
    """A name with a newline, comma or semicolon stays text."""
    name = "Mill\r\nATTENDEE:mailto:x@evil.example\nEND:VEVENT, east; west"
    raw = written((cases.field(1, name), promise()))
    (entry,) = read(raw)

    assert "attendee" not in entry.contents
    assert b"\r\nATTENDEE" not in raw
    assert "east; west" in entry.location.value


def test_many_windows_share_one_calendar():
    """A reminder's file, or a feed, holds an entry for every window."""
    items = [(cases.field(n), promise(field_id=n, uid=f"look-{n}-2026@crew.example")) for n in range(1, 6)]

    assert len({entry.uid.value for entry in read(written(*items))}) == 5


def test_no_window_gives_no_file():
    """An empty calendar would only puzzle."""
    assert written() == b""


@pytest.mark.parametrize("language", LANGUAGES)
def test_entries_speak_the_readers_language(language: str):
    """Summary and description come from the language's own words."""
    (entry,) = read(written((cases.field(), promise()), language=language))

    assert words(language).name("purpose", "catch_peak") in entry.summary.value  # type: ignore[arg-type]


def test_coordinates_travel_when_known():
    """GEO lets a phone show the way; a field without a place has none."""
    (known,) = read(written((cases.field(), promise())))
    (unknown,) = read(written((replace(cases.field(), latitude=None), promise())))

    assert known.geo.value == "42.02;-93.525"
    assert "geo" not in unknown.contents


def test_an_answer_carries_the_window_it_promises():
    """With our address and a promise the answer has a calendar file; without either it has none."""
    visit, seen = cases.placed(), cases.outlook()
    asked = {"now": cases.NOW, "spelled": ["Old Mill East, 6 plants"]}
    with_file = compose(
        "en",
        cases.one(visit),
        {1: seen},
        cases.SCOUT,
        **asked,
        windows=[(visit.field, promise())],
        organizer="notes@crew.example",
    )
    without = compose("en", cases.one(visit), {1: seen}, cases.SCOUT, **asked)

    assert [entry.uid.value for entry in read(with_file.calendar)] == [UID]
    assert without.calendar == b""


def test_a_reminder_carries_all_its_windows():
    """One file for everything due."""
    items = [
        (cases.field(n), promise(field_id=n, uid=f"look-{n}-2026@crew.example"), cases.outlook()) for n in (1, 2, 3)
    ]
    reply = compose_reminder(cases.SCOUT, items, cases.DAY, now=cases.NOW, organizer="notes@crew.example")

    assert len(read(reply.calendar)) == 3


def test_entries_last_one_day():
    """DTEND is the day after: all-day entries end before it (RFC 5545 3.6.1)."""
    (entry,) = read(written((cases.field(), promise())))

    assert entry.dtend.value - entry.dtstart.value == timedelta(days=1)
