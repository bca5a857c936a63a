"""One turn of the clock: kept messages go to the desk, reminders and digests fall due.

``Rounds.turn`` may be called as often as one likes. Each person is looked at once a local day, at or after the own
hour; what was done is written with it in one transaction, so a service that was down sends one mail of each kind when
it is back, at an hour at which people want mail. Everything is reckoned in the person's zone.
"""

from __future__ import annotations

import hashlib
import logging
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, time, timedelta
from functools import partial
from pathlib import Path
from zoneinfo import ZoneInfo

from notes_bot.deeds import Span, first_open_day, outlook_of, quiet_this_season, season_start, status_of
from notes_bot.desk import Desk, thread_root
from notes_bot.feeds import write_feeds
from notes_bot.mail import new_message_id, write_mail
from notes_bot.mail.smtp_out import Kind
from notes_bot.model import Day, Document, Field, Filing, Outgoing, Outlook, Person, Promise, Reminder, Reply
from notes_bot.reply import compose_digest, compose_reminder, told_in_full
from notes_bot.route import driving_order, way_km
from notes_bot.settings import Settings
from notes_bot.store import Store
from notes_bot.survey import Since, Survey, renew_idle
from notes_bot.winter_deeds import MOST_IN_REPORT, season_report

log = logging.getLogger("notes_bot")

DIGEST_LIVES = timedelta(hours=20)
"""A digest that could not be delivered before the next is due is not wanted any more."""
MESSAGES_A_TURN = 50
BACKLOG_WAITS = timedelta(minutes=10)
"""So long the clock's own mails wait for a backlog of messages, which may hold the very looks they ask for."""
MOST_GROWERS_BYTES = 100_000
"""The growers' pages in the mail of the season's digest: as many as leave the whole under 300 kB."""
MONDAY = 0
WEEK = timedelta(days=7)
MOST_MISSED = 2
"""After this many windows in a row without a look nobody is reminded again; the digest keeps saying so."""
MOST_LOOKS = 40
"""In one reminder; more wait for the next day's, those with the soonest last day first."""
LATE_HOUR = 20
"""A mail that is late does not go out at this hour or after; it waits for the next day's."""
GRACE_HOURS = 2
"""But a person whose own hour is late has this long."""
NUDGE_APART = timedelta(days=2)
"""Between a reminder and its nudge at least."""
SOON = timedelta(days=3)
"""Windows that open so soon after a reminder's day are named in it."""
CALENDAR_BACK = timedelta(days=45)
"""How far back a reminder looks for windows that others have taken over, to take them out of the calendar."""
SEASON_ENDS = timedelta(days=21)
"""So long after the last note, with no look open, a season counts as over."""
ASKED_OF_SEASON = 20
"""So many of the fields looked at must have no look to come."""
TRY_AGAIN = timedelta(minutes=10)
"""After a mail to one person could not be composed."""
IDLE_FIELDS = 10
"""Reckoned anew in a turn without messages."""


@dataclass
class Rounds:
    """What happens with time. Belongs to one thread, like its store."""

    store: Store
    settings: Settings
    desk: Desk
    now: Callable[[], datetime]
    _backlog_since: datetime | None = None
    _failed: dict[str, datetime] = field(default_factory=dict)
    _feeds_of: str = ""

    def __post_init__(self) -> None:
        self.desk.digest = self.digest_now

    def turn(self) -> int:
        """Deal with what waits and with what fell due; gives the number of messages dealt with."""
        dealt = len(self.messages())
        if self._backlog(dealt):
            return dealt
        self.close_windows()
        self.reminders()
        self.digests()
        self.feeds()
        if not dealt:
            zones = {person.crew: person.timezone for person in self.store.people()}
            renew_idle(self.store, self.now().date(), zones, IDLE_FIELDS)
        return dealt

    def messages(self) -> list[tuple[int, Filing | None]]:
        """Take waiting messages to the desk, in the order they came."""
        return [(kept.id, self.desk.turn(kept)) for kept in self.store.waiting(MESSAGES_A_TURN, self.now())]

    def _backlog(self, dealt: int) -> bool:
        """Are there so many messages that the clock had better wait for them?"""
        if dealt < MESSAGES_A_TURN:
            self._backlog_since = None
            return False
        self._backlog_since = self._backlog_since or self.now()
        return self.now() - self._backlog_since < BACKLOG_WAITS

    # --- windows that are over ---

    def close_windows(self) -> None:
        """End the windows whose last day is past where their person is.

        One that was reminded of and not used is missed: the supervisor is told, and the next window is promised. One
        that nobody was told of, because the service was down or the field closed to entry, is nobody's fault: a new
        window takes its place.
        """
        people = {person.id: person for person in self.store.people()}
        for promise in self.store.promises_over(self.now().date() + timedelta(days=1)):
            person = people.get(promise.person_id)
            today = self._local(person).date() if person else self.now().date()
            if promise.latest < today:
                self._guarded(f"end of look {promise.id}", partial(self._close, promise, person, today))

    def _close(self, promise: Reminder, person: Person | None, today: date) -> list[Outgoing]:
        known = self.store.field(promise.field_id)
        again: Promise | None = None
        state = "closed"
        if person is None or known is None or known.muted:
            state = "cancelled"
        elif promise.state == "waiting" and person.reachable and self._listens(person, today):
            state = "cancelled"
            again = self._successor(known, promise, person, today)
        elif person.reachable and len(self._missed(known, today)) + 1 < MOST_MISSED:
            again = self._successor(known, promise, person, today)
        self.store.keep_round((), self.now(), moved={promise.id: state}, promises=[again] if again else ())
        return []

    def _successor(self, known: Field, before: Reminder, person: Person, today: date) -> Promise | None:
        """The window after one that is over, for the same person."""
        again = outlook_of(self.store, known, today, zone=person.timezone).recheck
        if again is None:
            return None
        days = (again.earliest, again.likely, again.latest)
        return Promise(known.id, before.person_id, *days, again.purpose, before.uid, before.sequence + 2)

    def _missed(self, known: Field, today: date) -> tuple[date, ...]:
        return self.store.missed(known.id, season_start(today, known.latitude))

    # --- reminders ---

    def reminders(self) -> list[Outgoing]:
        """One mail a person for all looks that fell due, once a local day at the person's hour."""
        sent: list[Outgoing] = []
        done = self.store.rounds_of("reminder", self.now().date() - timedelta(days=1))
        for person in self.store.people():
            local = self._local(person)
            if on_time(local, person.hour) and (str(person.id), local.date()) not in done:
                sent += self._guarded(f"reminder for {person.name}", partial(self._remind, person, local))
        return sent

    def _remind(self, person: Person, local: datetime) -> list[Outgoing]:
        """The person's reminder of the day, and the note that the day is done."""
        day = local.date() + timedelta(days=person.remind == "evening")
        listens = person.reachable and self._listens(person, local.date())
        may = listens and self._may_have_another(person, local)
        due, nudged = self._wanted(person, day) if may else ([], [])
        outgoing: list[Outgoing] = []
        done = [("reminder", str(person.id), local.date())]
        if due or nudged:
            outgoing = [self._reminder(person, [*due, *nudged], day, nudge=not due)]
            done.append(("reminded", str(person.id), local.date()))
        moved = {promise.id: "sent" for promise, _ in due} | {promise.id: "nudged" for promise, _ in nudged}
        self.store.keep_round(outgoing, self.now(), moved=moved, done=done)
        return outgoing

    def _wanted(self, person: Person, day: date) -> tuple[list[tuple[Reminder, Field]], list[tuple[Reminder, Field]]]:
        """Looks to be reminded of for a day: those that fell due, and those half of whose window has gone by."""
        due, nudged = [], []
        for promise, known in self.store.promises_due(person.id, day):
            if promise.latest < day or self._closed_to_entry(known, person, day):
                continue
            if promise.state == "waiting":
                due.append((promise, known))
            elif day >= self._nudge_on(promise, person) <= promise.latest:
                nudged.append((promise, known))
        room = MOST_LOOKS
        return due[:room], nudged[: max(room - len(due), 0)]

    def _soon(self, person: Person, day: date) -> list[tuple[Field, Reminder]]:
        """Windows of a person that open in the days after one, so that they can be planned with what is due on it."""
        ahead = self.store.promises_due(person.id, day + SOON)
        return [
            (known, promise)
            for promise, known in ahead
            if promise.earliest > day and not self._closed_to_entry(known, person, promise.earliest)
        ]

    def _closed_to_entry(self, known: Field, person: Person, day: date) -> bool:
        """Is the field inside a restricted-entry interval now, or not open for the whole of the day?"""
        until = self.store.entry_closed_until(known.id, season_start(day, known.latitude))
        return until is not None and (self.now() < until or first_open_day(until, person.timezone) > day)

    def _nudge_on(self, promise: Reminder, person: Person) -> date:
        """The day after the middle of what was left of the window when it was reminded of."""
        told = promise.earliest
        if promise.changed_at is not None:
            told = promise.changed_at.astimezone(ZoneInfo(person.timezone)).date()
            told += timedelta(days=person.remind == "evening")
        start = max(promise.earliest, told)
        return max(start + (promise.latest - start) / 2 + timedelta(days=1), told + NUDGE_APART)

    def _reminder(self, person: Person, looks: Sequence[tuple[Reminder, Field]], day: date, *, nudge: bool) -> Outgoing:
        today = self._local(person).date()
        outlooks = {known.id: outlook_of(self.store, known, today, zone=person.timezone) for _, known in looks}
        infested = {known.id for _, known in looks if self._status(known, outlooks[known.id], today) == "infested"}
        order = driving_order([known for _, known in looks], infested)
        by_field = {known.id: promise for promise, known in looks}
        items = [(known, by_field[known.id], outlooks[known.id]) for known in order]
        told_last = self.store.last_round("reminded", str(person.id)) or self.now() - CALENDAR_BACK
        reply = compose_reminder(
            person,
            items,
            day,
            now=self.now(),
            organizer=self.settings.service.address,
            nudge=nudge,
            ordered=len(items) > 1,
            limit=MOST_LOOKS,
            gone=self.store.passed_on(person.id, told_last),
            infested=infested,
            way_km=way_km(order),
            soon=self._soon(person, day),
        )
        end = datetime.combine(max(p.latest for p, _ in looks) + timedelta(days=1), time(0), ZoneInfo(person.timezone))
        only = items[0][0].id if len(items) == 1 else None
        about = tuple(known.id for known in order)
        return self.outgoing(
            person, reply, "reminder", today, expires_at=end.astimezone(UTC), field_id=only, about=about
        )

    def _status(self, known: Field, outlook: Outlook, today: date) -> str:
        season = self.store.visits(known.id, season_start(today, known.latitude), today)
        return str(status_of(season, outlook))

    # --- digests ---

    def digests(self) -> list[Outgoing]:
        """Each supervisor's digest, once a day at or after their hour."""
        sent: list[Outgoing] = []
        done = self.store.rounds_of("digest", self.now().date() - timedelta(days=1))
        for person in self.store.people():
            local = self._local(person)
            wanted = person.role == "supervisor" and person.reachable and person.by_clock
            if not wanted or (str(person.id), local.date()) in done:
                continue
            if not on_time(local, person.hour):
                continue
            if self.store.last_round("digest", str(person.id)) is None and local.hour > person.hour:
                # A service that starts at noon for the first time begins its digests the next morning.
                midnight = datetime.combine(local.date(), time(0), local.tzinfo)
                self.store.keep_round((), midnight, done=[("digest", str(person.id), local.date())])
                continue
            sent += self._guarded(f"digest for {person.name}", partial(self._send_digest, person, local))
        return sent

    def _send_digest(self, person: Person, local: datetime) -> list[Outgoing]:
        today, who = local.date(), str(person.id)
        span = self._span(person, today)
        since = self._since(person, local, span)
        day = Survey(self.store, person.crew, today, person.timezone, self.now).day(since, span)
        quiet = self.settings.service.quiet_days == "none" and span != "season" and not self.has_news(day, since)
        wanted = not quiet and self._may_have_another(person, local)
        outgoing = [self._digest_mail(person, day, span)] if wanted else []
        done = [("digest", who, today)] + ([(span, who, today)] if span != "day" else [])
        self.store.keep_round(outgoing, self.now(), done=done)
        return outgoing

    def _span(self, person: Person, today: date) -> Span:
        """What today's digest covers: the season when it is over, the week on Mondays, else the day."""
        if self.settings.service.season_summary and self._season_over(person, today):
            return "season"
        return "week" if self.settings.service.week_summary and today.weekday() == MONDAY else "day"

    def _season_over(self, person: Person, today: date) -> bool:
        """Is nothing left to look at, for the first time since the crew's last season?"""
        starts = {season_start(today, known.latitude) for known in self.store.fields(person.crew)}
        if not starts:
            return False
        start = min(starts)
        told = self.store.last_round("season", str(person.id))
        if told is not None and told.date() >= start:
            return False
        noted = self.store.last_noted(person.crew, start)
        if noted is None or self.now() - noted <= SEASON_ENDS or self.store.open_promises(person.crew):
            return False
        looked = list(self.store.crew_looks(person.crew, start, today))[:ASKED_OF_SEASON]
        fields = [known for field_id in looked if (known := self.store.field(field_id)) is not None]
        return all(outlook_of(self.store, known, today, zone=person.timezone).recheck is None for known in fields)

    def has_news(self, day: Day, since: Since) -> bool:
        """Anything new since the last digest? What is only still open is told again on Mondays."""
        instant = since.instant
        fresh = any(
            known.changed
            or (known.overdue and known.window_closed is not None and known.window_closed >= instant.date())
            for known in day.fields
        )
        fresh = fresh or any(held.arrived_at > instant for held in day.held)
        fresh = fresh or self.store.lost_sight_of_since(day.crew, instant)
        fresh = fresh or any(fact.key in ("weather_stale", "late_service") for fact in day.notices)
        still_open = day.held or day.unreachable or day.notices or any(known.overdue for known in day.fields)
        return bool(fresh or (still_open and day.on.weekday() == MONDAY))

    def _since(self, person: Person, local: datetime, span: Span) -> Since:
        """The last digest of this kind; before the first, the start of yesterday or the day a week ago."""
        last = self.store.last_round("digest", str(person.id))
        down = (local.date() - last.astimezone(local.tzinfo).date()).days - 1 if last is not None else 0
        if span == "week":
            week = self.now() - WEEK
            return Since(min(last, week) if last is not None else week, all_notices=True, days_down=max(down, 0))
        yesterday = datetime.combine(local.date() - timedelta(days=1), time(0), local.tzinfo)
        return Since(last or yesterday, all_notices=span == "season", days_down=max(down, 0))

    def digest_now(self, person: Person, span: Span = "day") -> Outgoing:
        """The digest a supervisor asked for, for the desk to send with the rest of its answer."""
        day = self.day(person, self._local(person).date(), span)
        return self._digest_mail(person, day, span, asked=True)

    def day(self, person: Person, today: date, span: Span = "day") -> Day:
        """The crew's picture of a day: every field, and what waits for the supervisor."""
        since = self._since(person, self._local(person), span)
        asked = Since(since.instant, all_notices=True)
        return Survey(self.store, person.crew, today, person.timezone, self.now).day(asked, span)

    def _digest_mail(self, person: Person, day: Day, span: Span, *, asked: bool = False) -> Outgoing:
        expires = self.now() + DIGEST_LIVES
        reply = compose_digest(day, person, span=span)
        if span == "season":
            reply = replace(reply, documents=self._season_pages(person, day))
        about = tuple(told_in_full(day, span))
        return self.outgoing(person, reply, "digest", day.on, expires_at=expires, asked=asked, about=about)

    def _season_pages(self, person: Person, day: Day) -> tuple[Document, ...]:
        """The season's pages for the growers, of the fields that were looked at, those with SCN first."""
        looked = sorted((f for f in day.fields if f.last_visit is not None), key=lambda f: f.status != "infested")
        fields = [f.field for f in looked[:MOST_IN_REPORT]]
        while fields:
            pages = season_report(self.store, fields, person, today=day.on).documents
            size = sum(len(page.data) for page in pages)
            if size <= MOST_GROWERS_BYTES:
                return pages
            # As many as should fit, one less at least; the rest is had by asking: "report kestrel".
            fields = fields[: min(len(fields) * MOST_GROWERS_BYTES // size, len(fields) - 1)]
        return ()

    # --- the calendar feed ---

    def feeds(self) -> list[Path]:
        """Write the calendar files anew when any window has changed; gives the files written."""
        if not self.settings.service.calendar_feed:
            return []
        state = self.store.last_change_of_promises()
        if state == self._feeds_of:
            return []
        self._feeds_of = state
        return write_feeds(self.store, self.settings, self.desk.accept.key, self.now())

    # --- manners ---

    def _local(self, person: Person) -> datetime:
        return self.now().astimezone(ZoneInfo(person.timezone))

    def _listens(self, person: Person, today: date) -> bool:
        """Does the person want reminders?"""
        return person.by_clock and not quiet_this_season(self.store, person, today)

    def _may_have_another(self, person: Person, local: datetime) -> bool:
        """Has this person had fewer mails of the clock today than the settings allow?"""
        midnight = datetime.combine(local.date(), time(0), ZoneInfo(person.timezone)).astimezone(UTC)
        return self.store.clock_mails_since(person.id, midnight) < self.settings.service.most_mails_a_day

    def _guarded(self, what: str, deed: Callable[[], list[Outgoing]]) -> list[Outgoing]:
        """A deed for one person whose failure must not keep the others' mail; it is tried again after a while."""
        failed = self._failed.get(what)
        if failed is not None and self.now() - failed < TRY_AGAIN:
            return []
        try:
            sent = deed()
        except Exception:
            self._failed[what] = self.now()
            log.exception("the %s could not be made; nobody else is kept waiting", what)
            return []
        self._failed.pop(what, None)
        return sent

    # --- mail ---

    def outgoing(
        self,
        person: Person,
        reply: Reply,
        kind: Kind,
        today: date,
        *,
        expires_at: datetime,
        field_id: int | None = None,
        about: tuple[int, ...] = (),
        asked: bool = False,
    ) -> Outgoing:
        """A finished mail to a person; its Message-ID names person, kind and day, so a repeat is recognisable."""
        address = self.settings.service.address
        recipient = person.addresses[0]
        by_text = recipient.startswith("+")
        by_file = by_text and not self.settings.texts.mail_gateways
        if by_text and not by_file:
            recipient = f"{recipient.lstrip('+')}@{self.settings.texts.mail_gateways[0]}"
        stamp = f"{kind}-{person.id}-{today.isoformat()}" + (f"-{self.now():%H%M%S}" if asked else "")
        message_id = new_message_id(
            self.settings.domain, f"{stamp}-{hashlib.sha256(reply.text.encode()).hexdigest()[:8]}"
        )
        raw = (
            reply.short.encode()
            if by_file
            else write_mail(
                Reply(reply.subject, reply.short) if by_text else reply,
                message_id=message_id,
                date=self.now(),
                from_address=address,
                from_name=self.settings.service.name,
                to=recipient,
                reply_to=self.desk.reply_to(person),
                references=self._thread(field_id, person, today),
                kind=kind,
                by_text=by_text,
                list_id=f"{kind}.{self.settings.domain}",
                unsubscribe=None if by_text else self.desk.unsubscribe(person),
            )
        )
        return Outgoing(
            kind=kind,
            door="text" if by_file else "mail",
            recipient=recipient,
            # A text file is named after it, so that a repeat after a crash replaces the first.
            envelope_from=stamp if by_file else self.desk.bounces_to(message_id),
            message_id=message_id,
            raw=raw,
            body=reply.short if by_text else reply.text,
            queued_at=self.now(),
            expires_at=expires_at,
            person_id=person.id,
            field_id=field_id,
            about=about,
        )

    def _thread(self, field_id: int | None, person: Person, today: date) -> tuple[str, ...]:
        known = self.store.field(field_id) if field_id is not None else None
        return () if known is None else (thread_root(known, person, today, self.settings.domain),)


def on_time(local: datetime, hour: int) -> bool:
    """May a mail meant for this hour of the day go out now? At the hour or later, but not late in the evening.

    A clock change that skips the hour makes it the next one; a doubled hour counts once, since a day is done once.
    """
    return hour <= local.hour < max(LATE_HOUR, hour + GRACE_HOURS)
