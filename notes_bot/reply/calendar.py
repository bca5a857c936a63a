"""Look-again windows as calendar entries, RFC 5545 with the rules of RFC 5546 for a published calendar.

One entry per field window, under one UID for its whole life: moved by a higher SEQUENCE, withdrawn by
``STATUS:CANCELLED``. A published calendar asks nobody to answer, so nothing comes back to us. Entries are
all-day on the likeliest day: a look takes an hour whose time only the scout knows, and an all-day entry
needs no zone.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta

from icalendar import Calendar, Event, vCalAddress

from notes_bot.model import Field, Language, Promise, Reminder
from notes_bot.reply.words import words

FEED_READ_AGAIN = timedelta(hours=6)
GONE = frozenset({"cancelled", "kept", "closed"})


def calendar_for(
    items: Sequence[tuple[Field, Reminder | Promise]],
    *,
    now: datetime,
    organizer: str,
    zone: str,
    language: Language = "en",
    feed: bool = False,
) -> bytes:
    """The windows as one ``METHOD:PUBLISH`` calendar, UTF-8 with CRLF; empty bytes without any window.

    With ``feed`` it is a file to subscribe to: it says how often to read it again (RFC 7986), and without any window
    it is a calendar with nothing in it.

    ``now`` is aware and becomes DTSTAMP in UTC; ``organizer`` is our own address; ``zone`` is an IANA name and
    only tells calendar programs where the crew is, since all-day entries float.
    """
    if not items and not feed:
        return b""
    speak = words(language)
    calendar = Calendar()
    calendar.add("prodid", "-//notes_bot//SCN looks//EN")
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    calendar.add("method", "PUBLISH")
    calendar.add("x-wr-calname", speak("event_entry.name"))
    calendar.add("x-wr-timezone", zone)
    if feed:
        calendar.add("name", speak("event_entry.name"))
        calendar.add("refresh-interval", FEED_READ_AGAIN, parameters={"VALUE": "DURATION"})
        calendar.add("x-published-ttl", "PT6H")
    for place, window in items:
        calendar.add_component(_entry(place, window, now, organizer, language))
    return bytes(calendar.to_ical())


def _entry(place: Field, window: Reminder | Promise, now: datetime, organizer: str, language: Language) -> Event:
    speak = words(language)
    purpose = speak.name("purpose", window.purpose)
    entry = Event()
    entry.add("uid", window.uid)
    entry.add("sequence", window.sequence)
    entry.add("dtstamp", now.astimezone(UTC))
    entry.add("organizer", vCalAddress(f"mailto:{organizer}"))
    entry.add("dtstart", _all_day(window.likely))
    entry.add("dtend", _all_day(window.likely) + timedelta(days=1))
    entry.add("summary", speak("event_entry.summary", field=place.name, purpose=purpose))
    what = speak("event_entry.window", span=speak.span(window.earliest, window.latest), likely=window.likely)
    entry.add("description", f"{what}\n{speak.name('do', window.purpose)}\n{speak('event_entry.moved')}")
    entry.add("location", place.name)
    if place.latitude is not None and place.longitude is not None:
        entry.add("geo", (round(place.latitude, 6), round(place.longitude, 6)))
    entry.add("transp", "TRANSPARENT")
    cancelled = isinstance(window, Reminder) and window.state in GONE
    entry.add("status", "CANCELLED" if cancelled else "CONFIRMED")
    return entry


def _all_day(day: date) -> date:
    """A plain date, so that a time of day given by mistake cannot turn the entry into a timed one."""
    return date(day.year, day.month, day.day)
