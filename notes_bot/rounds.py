"""One turn of the clock: kept messages go to the desk, reminders and digests fall due.

``Rounds.turn`` may be called as often as one likes: what has been done for a day is written with it, so a service
that was down sends one mail of each kind when it is back, not a flood. Everything is reckoned in the person's zone.
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from notes_bot.deeds import outlook_of, season_start, status_of
from notes_bot.desk import Desk, thread_root
from notes_bot.mail import new_message_id, write_mail
from notes_bot.mail.smtp_out import Kind
from notes_bot.model import (
    Day,
    Fact,
    Field,
    FieldToday,
    Filing,
    Outgoing,
    Outlook,
    Person,
    Promise,
    Recheck,
    Reminder,
    Reply,
)
from notes_bot.reply import compose_digest, compose_reminder
from notes_bot.settings import Settings
from notes_bot.store import Store

DIGEST_LIVES = timedelta(hours=20)
"""A digest that could not be delivered before the next is due is not wanted any more."""
MESSAGES_A_TURN = 50
MONDAY = 0
MOST_MISSED = 2
"""After this many windows in a row without a look nobody is reminded again; the digest keeps saying so."""


@dataclass
class Rounds:
    """What happens with time. Belongs to one thread, like its store."""

    store: Store
    settings: Settings
    desk: Desk
    now: Callable[[], datetime]

    def __post_init__(self) -> None:
        self.desk.digest = self.digest_now

    def turn(self) -> int:
        """Deal with what waits and with what fell due; gives the number of messages dealt with."""
        dealt = len(self.messages())
        self.reminders()
        self.digests()
        return dealt

    def messages(self) -> list[tuple[int, Filing | None]]:
        """Take waiting messages to the desk, in the order they came."""
        return [(kept.id, self.desk.turn(kept)) for kept in self.store.waiting(MESSAGES_A_TURN, self.now())]

    # --- reminders ---

    def reminders(self) -> list[Outgoing]:
        """One mail a person a day for every window that opened, one nudge when it is half gone; closed ones end."""
        sent: list[Outgoing] = []
        fields = {known.id: known for crew in self.store.crews() for known in self.store.fields(crew)}
        promises = [p for p in self.store.open_promises() if p.field_id in fields]
        for person in self.store.people():
            mine = [p for p in promises if p.person_id == person.id]
            local = self.now().astimezone(ZoneInfo(person.timezone))
            moved: dict[int, str] = {p.id: "closed" for p in mine if local.date() > p.latest}
            mine = [p for p in mine if p.id not in moved]
            if moved:
                again = [p for i in moved if (p := self._next_window(fields, promises, i, local.date())) is not None]
                self.store.keep_round((), self.now(), moved=moved, promises=again)
                moved = {}
            if local.hour < person.hour or self.store.rounds_done("reminder", str(person.id), local.date()):
                continue
            due = [p for p in mine if p.state == "waiting" and p.earliest <= local.date()]
            nudged = [p for p in mine if p.state == "sent" and p.latest > p.earliest and local.date() >= _half_gone(p)]
            wanted = [p for p in (*due, *nudged) if not fields[p.field_id].muted]
            outgoing: tuple[Outgoing, ...] = ()
            if wanted and person.reachable:
                outgoing = (self._reminder(person, wanted, fields, local.date(), nudge=not due),)
                sent.extend(outgoing)
            moved |= {p.id: "sent" for p in due} | {p.id: "nudged" for p in nudged}
            done = [("reminder", str(person.id), local.date())] if outgoing else []
            if moved or outgoing:
                self.store.keep_round(outgoing, self.now(), moved=moved, done=done)
        return sent

    def _next_window(
        self, fields: dict[int, Field], promises: Sequence[Reminder], closed_id: int, today: date
    ) -> Promise | None:
        """The window after one that closed unused, for the same person; after two in a row the supervisor decides."""
        closed = next(p for p in promises if p.id == closed_id)
        known = fields[closed.field_id]
        again = outlook_of(self.store, known, today).recheck
        if again is None or known.muted or len(self.store.missed(known.id)) + 1 >= MOST_MISSED:
            return None
        return Promise(
            known.id,
            closed.person_id,
            again.earliest,
            again.likely,
            again.latest,
            again.purpose,
            closed.uid,
            closed.sequence + 2,
        )

    def _reminder(
        self, person: Person, due: Sequence[Reminder], fields: dict[int, Field], today: date, *, nudge: bool
    ) -> Outgoing:
        outlooks = {p.field_id: outlook_of(self.store, fields[p.field_id], today) for p in due}
        infested = {
            p.field_id for p in due if self._status(fields[p.field_id], outlooks[p.field_id], today) == "infested"
        }
        order = driving_order([fields[p.field_id] for p in due], infested)
        by_field = {p.field_id: p for p in due}
        items = [(known, by_field[known.id], outlooks[known.id]) for known in order]
        reply = compose_reminder(
            person,
            items,
            today,
            now=self.now(),
            organizer=self.settings.service.address,
            nudge=nudge,
            ordered=len(items) > 1,
        )
        end = datetime.combine(max(p.latest for p in due) + timedelta(days=1), time(0), ZoneInfo(person.timezone))
        only = items[0][0].id if len(items) == 1 else None
        return self.outgoing(person, reply, "reminder", today, expires_at=end.astimezone(UTC), field_id=only)

    def _status(self, known: Field, outlook: Outlook, today: date) -> str:
        season = self.store.visits(known.id, season_start(today, known.latitude), today)
        return str(status_of(season, outlook))

    # --- digests ---

    def digests(self) -> list[Outgoing]:
        """Each supervisor's digest, once a day at or after their hour."""
        sent: list[Outgoing] = []
        for person in self.store.people():
            if person.role != "supervisor" or not person.reachable:
                continue
            local = self.now().astimezone(ZoneInfo(person.timezone))
            if local.hour < person.hour or self.store.rounds_done("digest", str(person.id), local.date()):
                continue
            if self.store.last_round("digest", str(person.id)) is None and local.hour > person.hour:
                continue  # a service that starts at noon for the first time begins its digests the next morning
            outgoing = self._send_digest(person, local.date())
            if outgoing is not None:
                sent.append(outgoing)
        return sent

    def _send_digest(self, person: Person, today: date) -> Outgoing | None:
        since = self._since(person, today)
        day = self.day(person, today)
        quiet = self.settings.service.quiet_days == "none" and not self.has_news(day, since)
        outgoing = None if quiet else self._digest_mail(person, day)
        self.store.keep_round([outgoing] if outgoing else [], self.now(), done=[("digest", str(person.id), today)])
        return outgoing

    def has_news(self, day: Day, since: datetime) -> bool:
        """Anything new since the last digest? What is only still open is told again on Mondays."""
        fresh = any(known.changed or (known.overdue and self._closed_since(known.field, since)) for known in day.fields)
        fresh = fresh or any(held.arrived_at > since for held in day.held)
        fresh = fresh or self.store.lost_sight_of_since(day.crew, since)
        still_open = day.held or day.unreachable or day.notices or any(known.overdue for known in day.fields)
        return bool(fresh or (still_open and day.on.weekday() == MONDAY))

    def _closed_since(self, known: Field, since: datetime) -> bool:
        missed = self.store.missed(known.id)
        return bool(missed) and missed[0] >= since.date()

    def _since(self, person: Person, today: date) -> datetime:
        """The instant of the last digest, or the start of yesterday."""
        yesterday = datetime.combine(today - timedelta(days=1), time(0), UTC)
        return self.store.last_round("digest", str(person.id)) or yesterday

    def digest_now(self, person: Person) -> Outgoing:
        """The digest a supervisor asked for, for the desk to send with the rest of its answer."""
        today = self.now().astimezone(ZoneInfo(person.timezone)).date()
        return self._digest_mail(person, self.day(person, today), asked=True)

    def _digest_mail(self, person: Person, day: Day, *, asked: bool = False) -> Outgoing:
        expires = self.now() + DIGEST_LIVES
        return self.outgoing(person, compose_digest(day, person), "digest", day.on, expires_at=expires, asked=asked)

    def day(self, person: Person, today: date) -> Day:
        """The crew's picture of a day: every field with its outlook, and what waits for the supervisor."""
        noted = self.store.fields_noted_since(person.crew, self._since(person, today))
        promises = {p.field_id: p for p in self.store.open_promises(person.crew)}
        names = {p.id: p.name for p in self.store.people()}
        fields = []
        for known in self.store.fields(person.crew):
            changed = known.id in noted
            fresh = outlook_of(self.store, known, today, with_mix=changed)
            outlook = self._as_promised(fresh, promises.get(known.id))
            season = self.store.visits(known.id, season_start(today, known.latitude), today)
            last = season[-1] if season else None
            # With the roots gone there is nothing left to be late for.
            missed = () if known.muted or fresh.recheck is None else self.store.missed(known.id)
            found = [visit for visit in season if visit.note.outcome == "seen"]
            promise = promises.get(known.id)
            fields.append(
                FieldToday(
                    field=known,
                    outlook=outlook,
                    last_visit=last,
                    last_by=names.get(last.person_id, "") if last else "",
                    status=status_of(season, outlook),
                    overdue=bool(missed),
                    changed=changed,
                    first_find=changed and len(found) == 1 and found[0] is last,
                    window_closed=missed[0] if missed else None,
                    next_by=names.get(promise.person_id, "") if promise else "",
                    visits=tuple(season) if changed else (),
                )
            )
        unreachable = tuple(p.name for p in self.store.people() if p.crew == person.crew and not p.reachable)
        stuck = self.store.counts().get("inbox stuck", 0)
        notices = (Fact("stuck_messages", {"count": stuck}),) if stuck else ()
        return Day(today, person.crew, tuple(fields), self.store.held_messages(person.crew), unreachable, notices)

    @staticmethod
    def _as_promised(outlook: Outlook, promise: Reminder | None) -> Outlook:
        """With the window that was promised: it stays put until the next look, while the outlook moves on daily."""
        if promise is None:
            return outlook
        why = outlook.recheck.why if outlook.recheck else Fact("promised", {})
        window = Recheck(promise.earliest, promise.likely, promise.latest, promise.purpose, why)
        return replace(outlook, recheck=window)

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
        )

    def _thread(self, field_id: int | None, person: Person, today: date) -> tuple[str, ...]:
        known = self.store.field(field_id) if field_id is not None else None
        return () if known is None else (thread_root(known, person, today, self.settings.domain),)


def driving_order(fields: Sequence[Field], infested: set[int]) -> list[Field]:
    """An order to drive: clean fields first and fields with SCN last, each part by the nearest next field.

    Fields without a place come at the end of their part, by name. Distances are straight lines.
    """
    part = [_nearest_next([f for f in fields if (f.id in infested) is last]) for last in (False, True)]
    return [*part[0], *part[1]]


def _nearest_next(fields: Sequence[Field]) -> list[Field]:
    placed = [f for f in fields if f.latitude is not None and f.longitude is not None]
    rest = sorted((f for f in fields if f not in placed), key=lambda f: f.name)
    if not placed:
        return rest
    route = [max(placed, key=lambda f: (f.latitude or 0.0, f.name))]  # start in the north, whatever the list's order
    left = [f for f in placed if f is not route[0]]
    while left:
        route.append(min(left, key=lambda f: (_distance(route[-1], f), f.name)))
        left.remove(route[-1])
    return [*_uncrossed(route), *rest]


def _uncrossed(route: list[Field]) -> list[Field]:
    """The route with crossings taken out (two-opt), up to thirty fields; longer lists stay as they are."""
    if len(route) > 30:
        return route
    better = True
    while better:
        better = False
        for i in range(len(route) - 2):
            for j in range(i + 2, len(route)):
                after = route[j + 1] if j + 1 < len(route) else None
                old = _distance(route[i], route[i + 1]) + (_distance(route[j], after) if after else 0.0)
                new = _distance(route[i], route[j]) + (_distance(route[i + 1], after) if after else 0.0)
                if new < old - 1e-9:
                    route = [*route[: i + 1], *reversed(route[i + 1 : j + 1]), *route[j + 1 :]]
                    better = True
    return route


def _distance(a: Field, b: Field) -> float:
    """Kilometres between two placed fields, near enough within a county."""
    north = (a.latitude or 0.0) - (b.latitude or 0.0)
    east = ((a.longitude or 0.0) - (b.longitude or 0.0)) * math.cos(math.radians(a.latitude or 0.0))
    return 111.2 * math.hypot(north, east)


def _half_gone(promise: Reminder) -> date:
    return promise.earliest + (promise.latest - promise.earliest) / 2 + timedelta(days=1)
