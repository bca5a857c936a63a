"""The records: questions answered and one message's effects written, each in one transaction.

Only this room speaks SQL. Methods are named for the question asked and hold no judgement. A ``Store`` has
one connection and belongs to one thread; open another for another thread (the file is in WAL mode).
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, timedelta
from functools import lru_cache
from pathlib import Path
from typing import Any

from sqlite_utils import Database

from notes_bot.asdata import note_as_data, note_from_data
from notes_bot.model import (
    DatabaseWrong,
    DayTemperature,
    Fact,
    Field,
    Filing,
    Interval,
    Note,
    Outgoing,
    PastYear,
    Person,
    Promise,
    Recheck,
    Reminder,
    Standing,
    Visit,
    Waiting,
)
from notes_bot.store.upgrade import bring_up_to_date

MOST_BYTES_AT_ONCE = 32 * 1024 * 1024
"""Of waiting messages read at once; a single larger one is read alone."""

TAKEN_BACK = 0
"""In ``visits.replaced_by``: the visit was taken back, nothing stands in its place."""


def instant_text(instant: datetime) -> str:
    """An aware instant as UTC text whose order is time order.

    Raises:
        ValueError: for a naive instant.
    """
    if instant.tzinfo is None:
        raise ValueError("instants are kept in UTC: give an aware datetime")
    return instant.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")


def instant_from(text: str) -> datetime:
    """The instant that ``instant_text`` wrote."""
    return datetime.fromisoformat(text)


def open_database(path: Path | str) -> Database:
    """A connection with the durability the promise needs: WAL, synchronous FULL, foreign keys, patient locks.

    Tables of an earlier release are brought up to date first.

    Raises:
        DatabaseWrong: the file is no database of ours, or one of a newer release.
    """
    conn = sqlite3.connect(str(path), timeout=30.0, check_same_thread=False)
    try:
        conn.execute("PRAGMA journal_mode=WAL")
        conn.execute("PRAGMA synchronous=FULL")
        conn.execute("PRAGMA foreign_keys=ON")
        db = Database(conn)
        bring_up_to_date(db, path)
    except sqlite3.DatabaseError as error:
        conn.close()
        if isinstance(error, sqlite3.OperationalError):  # locked, full, unreadable: not the file's fault
            raise
        raise DatabaseWrong(f"{path} is damaged or no database of notes-bot ({error}): restore the backup") from None
    except BaseException:
        conn.close()
        raise
    return db


@dataclass(frozen=True, slots=True)
class Kept:
    """One inbox message."""

    id: int
    arrived_at: datetime
    door: str
    peer: str
    envelope_from: str
    envelope_to: tuple[str, ...]
    raw: bytes
    state: str
    reason: str
    tries: int
    trouble: str = ""
    proof: str = ""
    dealt_at: datetime | None = None
    """First time at the desk."""
    finished_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class HeldNote:
    """A note that waits for its field's name."""

    id: int
    inbox_id: int
    person_id: int
    note: Note
    nearest: tuple[str, ...]
    day: date


@dataclass(frozen=True, slots=True)
class Looks:
    """What the visits of a field come to."""

    found: int | None = None
    """Id of the first visit that saw females."""
    none: bool = False
    """True when a visit dug and saw none."""
    last: int | None = None
    """Id of the last visit."""
    last_on: date | None = None


@dataclass(frozen=True, slots=True)
class Told:
    """What a mail of ours speaks of."""

    kind: str
    fields: tuple[int, ...]
    """In its order; only where it speaks of several."""
    at: datetime


class Store:
    """The one database file, as questions and answers."""

    def __init__(self, path: Path | str) -> None:
        self._db = open_database(path)
        self._past: dict[tuple[str, int], tuple[tuple[int, float], tuple[PastYear, ...]]] = {}
        """Past years by place, with the count and sum of the rows they were read from."""

    def close(self) -> None:
        self._db.close()

    @contextmanager
    def _write(self) -> Iterator[Database]:
        """One immediate transaction: all of it or nothing."""
        conn = self._db.conn
        conn.execute("BEGIN IMMEDIATE")
        try:
            yield self._db
        except BaseException:
            if conn.in_transaction:
                conn.rollback()
            raise
        conn.commit()

    # --- the crew ---

    def adopt(self, people: Iterable[Person], fields: Iterable[Field]) -> None:
        """Bring the crew of the settings file in; what was learned by mail stays where the file is silent."""
        fields = tuple(fields)
        named = {(field.crew, field.name) for field in fields}
        with self._write() as db:
            for person in people:
                row = _person_row(person)
                del row["id"], row["reachable"], row["by_clock"]
                known = list(db.query("select id from people where crew = ? and name = ?", [person.crew, person.name]))
                if known:
                    db.table("people").update(known[0]["id"], row)
                else:
                    db.table("people").insert({**row, "reachable": 1, "by_clock": 1})
            renames = _renames(db, named)
            for field in fields:
                row = {name: value for name, value in _field_row(field).items() if value not in (None, "[]")}
                row.pop("id"), row.pop("muted")
                known = list(db.query("select * from fields where crew = ? and name = ?", [field.crew, field.name]))
                if not known and (renamed := renames.get((field.crew, field.name))):
                    known = [renamed]
                    row.pop("name"), row.pop("aliases", None)
                if known and any(known[0][name] != value for name, value in row.items()):
                    db.table("fields").update(known[0]["id"], row)
                    db.execute("delete from standings where field_id = ?", [known[0]["id"]])
                elif not known:
                    db.table("fields").insert({"aliases": "[]", "muted": 0, **row}, alter=False)

    def people(self) -> tuple[Person, ...]:
        return tuple(_person(row) for row in self._db.query("select * from people order by id"))

    def person(self, person_id: int) -> Person | None:
        return next((p for p in self.people() if p.id == person_id), None)

    def person_at(self, address: str) -> Person | None:
        """Who writes from this address or number (exact, lower case)?"""
        wanted = address.strip().lower()
        return next((person for person in self.people() if wanted in person.addresses), None)

    def change_person(self, person: Person, at: datetime) -> None:
        """Keep a person's new settings or reachability."""
        with self._write() as db:
            _change_person(db, person, instant_text(at))

    def lost_sight_of_since(self, crew: str, since: datetime) -> bool:
        """Has somebody of the crew become unreachable since this instant?"""
        rows = self._db.query(
            "select 1 from people where crew = ? and reachable = 0 and unreachable_since > ? limit 1",
            [crew, instant_text(since)],
        )
        return next(iter(rows), None) is not None

    def supervisors(self, crew: str) -> tuple[Person, ...]:
        return tuple(p for p in self.people() if p.role == "supervisor" and p.crew == crew)

    def fields(self, crew: str) -> tuple[Field, ...]:
        """The crew's fields by name."""
        rows = self._db.query("select * from fields where crew = ? order by name", [crew])
        return tuple(_field(row) for row in rows)

    def fields_between(self, crew: str, south: float, north: float, west: float, east: float) -> tuple[Field, ...]:
        """The crew's fields whose place lies in a box of degrees, by name."""
        rows = self._db.query(
            "select * from fields where crew = ? and latitude between ? and ? and longitude between ? and ?"
            " order by name",
            [crew, south, north, west, east],
        )
        return tuple(_field(row) for row in rows)

    def crews(self) -> tuple[str, ...]:
        rows = self._db.query("select crew from people union select crew from fields order by crew")
        return tuple(row["crew"] for row in rows)

    def field(self, field_id: int) -> Field | None:
        rows = list(self._db.query("select * from fields where id = ?", [field_id]))
        return _field(rows[0]) if rows else None

    def next_field_id(self, taken: Sequence[int] = ()) -> int:
        """The id the next new field will have, beside those ``taken``; good for the one desk that writes records."""
        highest = int(next(self._db.query("select coalesce(max(id), 0) as n from fields"))["n"])
        return max([highest, *taken]) + 1

    # --- visits ---

    def visits(self, field_id: int, since: date, until: date) -> tuple[Visit, ...]:
        """A field's standing visits from ``since`` to ``until``, both included, oldest first."""
        rows = self._db.query(
            "select * from visits where field_id = ? and replaced_by is null and day between ? and ? order by day, id",
            [field_id, since.isoformat(), until.isoformat()],
        )
        return tuple(_visit(row) for row in rows)

    def crew_looks(self, crew: str, since: date, until: date) -> dict[int, Looks]:
        """What the crew's visits of a span come to, by field; fields without any are left out."""
        rows = self._db.query(
            "select v.field_id, v.id, v.day, json_extract(v.note, '$.outcome') as outcome"
            " from visits v join fields f on f.id = v.field_id"
            " where f.crew = ? and v.replaced_by is null and v.day between ? and ? order by v.day, v.id",
            [crew, since.isoformat(), until.isoformat()],
        )
        found: dict[int, Looks] = {}
        for row in rows:
            before = found.get(row["field_id"], Looks())
            found[row["field_id"]] = Looks(
                before.found or (row["id"] if row["outcome"] == "seen" else None),
                before.none or row["outcome"] == "none_seen",
                row["id"],
                date.fromisoformat(row["day"]),
            )
        return found

    def ever_found(self, field_id: int, before: date) -> bool | None:
        """Were females found here before this day? ``None`` when nobody looked."""
        seen = self.visits(field_id, date.min, before)
        outcomes = {visit.note.outcome for visit in seen}
        return True if "seen" in outcomes else False if "none_seen" in outcomes else None

    def latest_visits_by(self, person_id: int, field_id: int | None = None) -> tuple[Visit, ...]:
        """The standing visits of this person's last message, or the last one in a field."""
        where, values = "person_id = ? and replaced_by is null", [person_id]
        if field_id is not None:
            where, values = where + " and field_id = ?", [person_id, field_id]
        rows = list(self._db.query(f"select * from visits where {where} order by inbox_id desc, id desc", values))  # noqa: S608 - fixed text only
        if not rows:
            return ()
        if field_id is not None:
            return (_visit(rows[0]),)
        return tuple(_visit(row) for row in reversed(rows) if row["inbox_id"] == rows[0]["inbox_id"])

    def entry_closed_until(self, field_id: int, since: date) -> datetime | None:
        """The latest stated end of a restricted-entry interval noted since this day."""
        rows = self._db.query(
            "select max(entry_closed_until) as until from visits"
            " where field_id = ? and replaced_by is null and day >= ?",
            [field_id, since.isoformat()],
        )
        until = next(rows)["until"]
        return instant_from(until) if until else None

    def fields_noted_since(self, crew: str, instant: datetime) -> frozenset[int]:
        """Fields with anything recorded after this instant."""
        rows = self._db.query(
            "select distinct v.field_id as id from visits v join fields f on f.id = v.field_id"
            " where f.crew = ? and v.recorded_at > ?",
            [crew, instant_text(instant)],
        )
        return frozenset(row["id"] for row in rows)

    def events(self, field_id: int, kind: str) -> tuple[tuple[datetime, Mapping[str, Any]], ...]:
        """What was said of this kind about a field, oldest first."""
        rows = self._db.query(
            "select at, args from events where field_id = ? and kind = ? order by id", [field_id, kind]
        )
        return tuple((instant_from(row["at"]), json.loads(row["args"])) for row in rows)

    def told_weather(self, crew: str, since: date) -> tuple[tuple[date, int | None, Mapping[str, Any]], ...]:
        """Weather the people of a crew told since a day, oldest first: when it was told, of which field, and what."""
        rows = self._db.query(
            "select e.at, e.field_id, e.args from events e join people p on p.id = e.person_id"
            " where e.kind = 'weather' and p.crew = ? and e.at >= ? order by e.id",
            [crew, since.isoformat()],
        )
        return tuple((instant_from(row["at"]).date(), row["field_id"], json.loads(row["args"])) for row in rows)

    def last_said(self, person_id: int, kind: str) -> tuple[datetime, Mapping[str, Any]] | None:
        """The newest thing of this kind that a person said."""
        rows = self._db.query(
            "select at, args from events where person_id = ? and kind = ? order by id desc limit 1", [person_id, kind]
        )
        row = next(iter(rows), None)
        return None if row is None else (instant_from(row["at"]), json.loads(row["args"]))

    def crew_events(self, crew: str, kind: str) -> tuple[Mapping[str, Any], ...]:
        """What the people of a crew said of this kind, about any field or none, oldest first."""
        rows = self._db.query(
            "select e.args from events e join people p on p.id = e.person_id"
            " where e.kind = ? and p.crew = ? order by e.id",
            [kind, crew],
        )
        return tuple(json.loads(row["args"]) for row in rows)

    # --- messages ---

    def kept(self, inbox_id: int) -> Kept | None:
        rows = list(self._db.query("select * from inbox where id = ?", [inbox_id]))
        return _kept(rows[0]) if rows else None

    def waiting(self, limit: int = 100, at: datetime | None = None) -> tuple[Kept, ...]:
        """Messages nobody has dealt with yet, in the order they came; not more at once than memory holds well.

        With ``at`` those that are put off beyond it are left out, and what the same envelope sender wrote after
        them: a correction must not overtake its note.
        """
        ready = "state = 'waiting'"
        if at is not None and self._put_off_beyond(at):
            ready += (
                " and not (not_before is not null and not_before > :at and not_before <= :far) and not exists"
                " (select 1 from inbox p where p.state = 'waiting' and p.not_before > :at and p.not_before <= :far"
                " and p.id < inbox.id and p.envelope_from = inbox.envelope_from and p.envelope_from <> '')"
            )
        values = {"limit": limit, "at": instant_text(at) if at else "", "far": _far(at) if at else ""}
        sizes = self._db.query(f"select id, length(raw) size from inbox where {ready} order by id limit :limit", values)  # noqa: S608 - fixed text only
        ids: list[int] = []
        total = 0
        for row in sizes:
            total += row["size"]
            if ids and total > MOST_BYTES_AT_ONCE:
                break
            ids.append(row["id"])
        return tuple(kept for inbox_id in ids if (kept := self.kept(inbox_id)) is not None)

    def _put_off_beyond(self, at: datetime) -> bool:
        rows = self._db.query(
            "select 1 from inbox where not_before is not null and not_before > ? and state = 'waiting' limit 1",
            [instant_text(at)],
        )
        return next(iter(rows), None) is not None

    def put_off(self, inbox_id: int, until: datetime, at: datetime) -> None:
        """Leave a message waiting until then: what it needs (the name service) is not to be had now."""
        with self._write() as db:
            db.execute(
                "update inbox set not_before = ?, dealt_at = coalesce(dealt_at, ?) where id = ? and state = 'waiting'",
                [instant_text(until), instant_text(at), inbox_id],
            )

    def try_again(self, inbox_ids: Sequence[int]) -> tuple[int, ...]:
        """Put messages that were set aside back in line; gives those that were."""
        with self._write() as db:
            found = [
                inbox_id
                for inbox_id in inbox_ids
                if list(db.query("select 1 from inbox where id = ? and state = 'stuck'", [inbox_id]))
            ]
            for inbox_id in found:
                db.execute(
                    "update inbox set state = 'waiting', reason = '', tries = 0, finished_at = null where id = ?",
                    [inbox_id],
                )
        return tuple(found)

    def seen_before(self, repeat_key: str) -> int | None:
        """The message, already dealt with, that this one repeats."""
        rows = self._db.query(
            "select id from inbox where repeat_key = ? and state = 'done' order by id limit 1", [repeat_key]
        )
        row = next(iter(rows), None)
        return None if row is None else int(row["id"])

    def held_messages(self, crew: str | None = None) -> tuple[Waiting, ...]:
        """Messages held for a supervisor of this crew, or all with ``None``.

        A stranger who may be any crew's is shown to each, but where there are several crews without the text, and
        none of them can settle it by mail.
        """
        rows = self._db.query(
            "select i.id, i.sender, i.reason, i.first_line, i.arrived_at, coalesce(p.crew, i.crew, '') as crew"
            " from inbox i left join people p on p.id = i.person_id where i.state = 'held' order by i.id"
        )
        alone = crew is None or len(self.crews()) <= 1
        return tuple(
            Waiting(
                row["id"],
                row["sender"] or "",
                row["reason"] or "",
                (row["first_line"] or "") if alone or row["crew"] else "",
                instant_from(row["arrived_at"]),
                by_mail=bool(alone or row["crew"]),
            )
            for row in rows
            if crew is None or row["crew"] in ("", crew)
        )

    def answers_since(self, person_id: int, since: datetime) -> tuple[tuple[datetime, str], ...]:
        """When and what we answered this person, oldest first: for the limits of good manners."""
        rows = self._db.query(
            "select queued_at, body from outbox where person_id = ? and kind = 'answer' and queued_at > ? order by id",
            [person_id, instant_text(since)],
        )
        return tuple((instant_from(row["queued_at"]), row["body"] or "") for row in rows)

    def answers_in_all_since(self, since: datetime) -> int:
        """How many answers were queued for everybody since this instant."""
        rows = self._db.query(
            "select count(*) as n from outbox where kind = 'answer' and queued_at > ?", [instant_text(since)]
        )
        return int(next(rows)["n"])

    def unproved_since(self, sender: str, since: datetime) -> int:
        """How many messages under this sender's name were held for want of proof since this instant."""
        rows = self._db.query(
            "select count(*) as n from inbox where sender = ? and reason = 'unproved' and arrived_at > ?",
            [sender, instant_text(since)],
        )
        return int(next(rows)["n"])

    def sent_by_us(self, message_ids: Sequence[str]) -> tuple[str, int | None, int | None] | None:
        """The newest of these Message-IDs that we sent: its text, person and field."""
        for message_id in reversed(message_ids):
            rows = list(
                self._db.query("select body, person_id, field_id from outbox where message_id = ?", [message_id])
            )
            if rows:
                return (rows[0]["body"] or "", rows[0]["person_id"], rows[0]["field_id"])
        return None

    def told_in(self, message_ids: Sequence[str], person_id: int) -> Told | None:
        """What the newest of these mails that we sent to this person speaks of."""
        for message_id in reversed(message_ids):
            rows = list(self._db.query("select * from outbox where message_id = ?", [message_id]))
            if rows:
                return _told(rows[0]) if rows[0]["person_id"] == person_id else None
        return None

    def last_told(self, person_id: int, since: datetime) -> Told | None:
        """What the last message to this person since an instant speaks of."""
        rows = self._db.query(
            "select * from outbox where person_id = ? and queued_at > ? order by id desc limit 1",
            [person_id, instant_text(since)],
        )
        row = next(iter(rows), None)
        return None if row is None else _told(row)

    def stuck(self, inbox_id: int, trouble: str, *, give_up: bool, at: datetime) -> None:
        """Our own fault with a message: kept with its traceback, tried again or set aside for the keeper."""
        with self._write() as db:
            db.execute(
                "update inbox set tries = tries + 1, trouble = ?, state = ?, reason = ?, finished_at = ? where id = ?",
                [
                    trouble,
                    "stuck" if give_up else "waiting",
                    "an error of the service" if give_up else "",
                    instant_text(at) if give_up else None,
                    inbox_id,
                ],
            )

    def counts(self) -> dict[str, int]:
        """How many messages are in each state, and how many answers wait to leave."""
        found = {
            f"inbox {r['state']}": r["n"] for r in self._db.query("select state, count(*) n from inbox group by state")
        }
        found |= {
            f"outbox {r['state']}": r["n"]
            for r in self._db.query("select state, count(*) n from outbox group by state")
        }
        return found

    def stuck_messages(self) -> tuple[Kept, ...]:
        """Messages set aside because of an error of ours, with the traceback."""
        return tuple(_kept(row) for row in self._db.query("select * from inbox where state = 'stuck' order by id"))

    # --- held notes ---

    def held_notes(self, person_id: int) -> tuple[HeldNote, ...]:
        """Notes of this person that wait for a field's name, oldest first."""
        rows = self._db.query(
            "select * from held_notes where person_id = ? and state = 'waiting' order by id", [person_id]
        )
        return tuple(
            HeldNote(
                row["id"],
                row["inbox_id"],
                row["person_id"],
                note_from_data(json.loads(row["note"])),
                tuple(json.loads(row["nearest"])),
                date.fromisoformat(row["day"]),
            )
            for row in rows
        )

    # --- promises ---

    def open_promises(self, crew: str | None = None) -> tuple[Reminder, ...]:
        """Look-again windows that are still open, soonest first: a crew's, or all."""
        rows = self._db.query(
            "select r.* from reminders r join fields f on f.id = r.field_id"
            " where r.state in ('waiting', 'sent', 'nudged') and (? is null or f.crew = ?) order by r.likely, r.id",
            [crew, crew],
        )
        return tuple(_reminder(row) for row in rows)

    def promises_due(self, person_id: int, until: date) -> tuple[tuple[Reminder, Field], ...]:
        """This person's windows that open by ``until`` and still want a mail, each with its field, which is not
        muted; soonest last day first."""
        rows = self._db.query(
            "select r.id as reminder_id, f.id as of_field from reminders r join fields f on f.id = r.field_id"
            " where r.person_id = ? and r.state in ('waiting', 'sent') and r.earliest <= ? and f.muted = 0"
            " order by r.latest, r.id",
            [person_id, until.isoformat()],
        )
        found = [(self._promise_by(row["reminder_id"]), self.field(row["of_field"])) for row in list(rows)]
        return tuple((promise, known) for promise, known in found if promise is not None and known is not None)

    def promises_over(self, before: date) -> tuple[Reminder, ...]:
        """Windows that are still open although their last day lies before this day."""
        rows = self._db.query(
            "select * from reminders where state in ('waiting', 'sent', 'nudged') and latest < ? order by id",
            [before.isoformat()],
        )
        return tuple(_reminder(row) for row in rows)

    def passed_on(self, person_id: int, since: datetime) -> tuple[tuple[Field, Reminder], ...]:
        """Windows this person was promised that ended after ``since`` without a next one of their own, as cancelled
        and with a higher sequence: what a calendar needs to drop them. Windows the person ended by an own message are
        left out; that answer has told the calendar."""
        rows = self._db.query(
            "select r.id from reminders r where r.person_id = ? and r.state in ('kept', 'cancelled')"
            " and r.changed_at > ? and r.id = (select max(o.id) from reminders o where o.field_id = r.field_id and"
            " o.person_id = r.person_id) and not exists (select 1 from inbox i where i.person_id = r.person_id"
            " and i.finished_at = r.changed_at) order by r.id",
            [person_id, instant_text(since)],
        )
        found = [self._promise_by(row["id"]) for row in list(rows)]
        return tuple(
            (known, replace(told, state="cancelled", sequence=told.sequence + 1))
            for told in found
            if told is not None and (known := self.field(told.field_id)) is not None
        )

    def promise_for(self, field_id: int) -> Reminder | None:
        """The field's newest look-again window, whatever its state."""
        rows = list(self._db.query("select * from reminders where field_id = ? order by id desc limit 1", [field_id]))
        return _reminder(rows[0]) if rows else None

    def _promise_by(self, reminder_id: int) -> Reminder | None:
        rows = list(self._db.query("select * from reminders where id = ?", [reminder_id]))
        return _reminder(rows[0]) if rows else None

    def last_change_of_promises(self) -> str:
        """Something that differs whenever a look-again window has changed."""
        row = next(self._db.query("select count(*) as n, max(changed_at) as at from reminders"))
        return f"{row['n']} {row['at']}"

    def missed(self, field_id: int, since: date = date.min) -> tuple[date, ...]:
        """Last days, not before ``since``, of windows that closed unused since the field was last looked at, newest
        first."""
        rows = self._db.query(
            "select latest from reminders where field_id = ? and state = 'closed' and latest >= ? order by id desc",
            [field_id, since.isoformat()],
        )
        return tuple(date.fromisoformat(row["latest"]) for row in rows)

    def crew_missed(self, crew: str, since: date) -> dict[int, tuple[date, ...]]:
        """As :meth:`missed`, for every field of the crew that has any."""
        found: dict[int, list[date]] = {}
        rows = self._db.query(
            "select r.field_id, r.latest from reminders r join fields f on f.id = r.field_id"
            " where f.crew = ? and r.state = 'closed' and r.latest >= ? order by r.id desc",
            [crew, since.isoformat()],
        )
        for row in rows:
            found.setdefault(row["field_id"], []).append(date.fromisoformat(row["latest"]))
        return {field_id: tuple(days) for field_id, days in found.items()}

    # --- the clock's own books ---

    def standings(self, crew: str) -> dict[int, Standing]:
        """How the crew's fields stood when last reckoned, by field."""
        rows = self._db.query("select s.* from standings s join fields f on f.id = s.field_id where f.crew = ?", [crew])
        return {row["field_id"]: _standing(row) for row in rows}

    def keep_standings(self, standings: Iterable[Standing]) -> None:
        """Keep how fields stand, in place of what was known. A new note or a change of the field makes it void."""
        rows = [_standing_row(standing) for standing in standings]
        if rows:
            with self._write() as db:
                db.table("standings").upsert_all(rows, pk="field_id")

    def unreckoned(self, before: date, limit: int) -> tuple[tuple[Field, date | None], ...]:
        """Fields whose standing is unknown or from before this day, the unknown and the oldest first, with its day."""
        rows = list(
            self._db.query(
                "select f.id, s.as_of from fields f left join standings s on s.field_id = f.id"
                " where s.as_of is null or s.as_of < ? order by s.as_of, f.id limit ?",
                [before.isoformat(), limit],
            )
        )
        found = [(self.field(row["id"]), row["as_of"]) for row in rows]
        return tuple((known, date.fromisoformat(on) if on else None) for known, on in found if known is not None)

    def clock_mails_since(self, person_id: int, since: datetime) -> int:
        """How many mails of the clock (nothing that was asked for) this person was sent since an instant."""
        rows = self._db.query(
            "select count(*) as n from outbox where person_id = ? and queued_at >= ? and inbox_id is null",
            [person_id, instant_text(since)],
        )
        return int(next(rows)["n"])

    def last_noted(self, crew: str, since: date) -> datetime | None:
        """When the crew last recorded a visit made since this day; ``None`` when it made none."""
        rows = self._db.query(
            "select max(v.recorded_at) as at from visits v join fields f on f.id = v.field_id"
            " where f.crew = ? and v.replaced_by is null and v.day >= ?",
            [crew, since.isoformat()],
        )
        at = next(rows)["at"]
        return instant_from(at) if at else None

    def last_measured(self, since: date, until: date) -> dict[str, date]:
        """For each place that has temperatures in the span: the last day that was measured, not forecast."""
        rows = self._db.query(
            "select place, max(day) as day from temperatures where day between ? and ? and forecast = 0 group by place",
            [since.isoformat(), until.isoformat()],
        )
        return {row["place"]: date.fromisoformat(row["day"]) for row in rows}

    def rounds_of(self, what: str, since: date) -> frozenset[tuple[str, date]]:
        """Who had this kind of round on which day, from ``since``."""
        rows = self._db.query("select who, day from rounds where what = ? and day >= ?", [what, since.isoformat()])
        return frozenset((row["who"], date.fromisoformat(row["day"])) for row in rows)

    def rounds_done(self, what: str, who: str, day: date) -> bool:
        """Was this day's digest (or reminder round) already sent to this person?"""
        rows = self._db.query(
            "select 1 from rounds where what = ? and who = ? and day = ?", [what, who, day.isoformat()]
        )
        return next(iter(rows), None) is not None

    def last_round(self, what: str, who: str) -> datetime | None:
        """When this person last had such a mail."""
        rows = self._db.query("select max(at) as at from rounds where what = ? and who = ?", [what, who])
        at = next(rows)["at"]
        return instant_from(at) if at else None

    # --- temperatures ---

    def temperatures(self, place: str, since: date, until: date) -> tuple[DayTemperature, ...]:
        rows = self._db.query(
            "select * from temperatures where place = ? and day between ? and ? order by day",
            [place, since.isoformat(), until.isoformat()],
        )
        return tuple(
            DayTemperature(
                date.fromisoformat(row["day"]),
                row["tmin_c"],
                row["tmax_c"],
                row["soil_mean_c"],
                bool(row["forecast"]),
                row["rain_mm"],
            )
            for row in rows
        )

    def past_years(self, place: str, before: int) -> tuple[PastYear, ...]:
        """Years of measured air temperature kept for a place, before a calendar year; oldest first."""
        asked = [place, f"{before:04d}-01-01"]
        kept = "from temperatures where place = ? and day < ? and forecast = 0"
        row = next(iter(self._db.query(f"select count(*) as n, total(tmin_c + tmax_c) as sum {kept}", asked)))
        held = (int(row["n"]), float(row["sum"]))
        if self._past.get((place, before), ((0, 0.0), ()))[0] != held:
            years: dict[int, list[float | None]] = {}
            both = f"select day, (tmin_c + tmax_c) / 2 as air_c {kept} and tmin_c is not null and tmax_c is not null"
            for row in self._db.query(f"{both} order by day", asked):
                day = date.fromisoformat(row["day"])
                air = years.setdefault(day.year, [None] * 366)
                air[day.timetuple().tm_yday - 1] = row["air_c"]
            self._past[place, before] = (held, tuple(PastYear(year, tuple(air)) for year, air in years.items()))
        return self._past[place, before][1] if held[0] else ()

    def keep_temperatures(self, place: str, days: Iterable[DayTemperature], source: str) -> None:
        """Keep a place's daily temperatures; a day that is there already is replaced."""
        rows = [
            {
                "place": place,
                "day": day.date.isoformat(),
                "tmin_c": day.tmin_c,
                "tmax_c": day.tmax_c,
                "soil_mean_c": day.soil_mean_c,
                "forecast": int(day.forecast),
                "rain_mm": day.rain_mm,
                "source": source,
            }
            for day in days
        ]
        with self._write() as db:
            db.table("temperatures").upsert_all(rows, pk=("place", "day"))

    # --- one message's effects ---

    def keep(self, filing: Filing, at: datetime) -> None:
        """Write all a message leads to, together with its end state. A message that is done stays untouched.

        Raises:
            LookupError: when the message is not in the inbox.
        """
        with self._write() as db:
            rows = list(db.query("select state from inbox where id = ?", [filing.inbox_id]))
            if not rows:
                raise LookupError(f"no message {filing.inbox_id} in the inbox")
            if rows[0]["state"] in ("done", "filed"):
                return
            self._write_records(db, filing, at)
            for inbox_id in filing.released:
                db.execute(
                    "update inbox set state = 'waiting', reason = 'released' where id = ? and state = 'held'",
                    [inbox_id],
                )
            for inbox_id in filing.refused:
                db.execute(
                    "update inbox set state = 'filed', reason = 'refused' where id = ? and state = 'held'", [inbox_id]
                )
            for outgoing in filing.outgoing:
                _queue(db, outgoing, filing.inbox_id)
            if filing.state == "done" and filing.repeat_key:
                # A copy that came by a way that proves nothing, and was held, needs no decision any more.
                db.execute(
                    "update inbox set state = 'filed', reason = ?, first_line = '', finished_at = ?"
                    " where state = 'held' and repeat_key = ? and id <> ?",
                    [f"repeat of message {filing.inbox_id}", instant_text(at), filing.repeat_key, filing.inbox_id],
                )
            db.execute(
                "update inbox set dealt_at = coalesce(dealt_at, ?) where id = ?", [instant_text(at), filing.inbox_id]
            )
            db.table("inbox").update(
                filing.inbox_id,
                {
                    "state": filing.state,
                    "reason": filing.reason,
                    "sender": filing.sender,
                    "message_id": filing.message_id,
                    "person_id": filing.person_id,
                    "first_line": filing.first_line,
                    "repeat_key": filing.repeat_key,
                    "proof": filing.proof,
                    "crew": filing.shown_to,
                    "not_before": None,
                    "trouble": "",
                    "finished_at": None if filing.state == "held" else instant_text(at),
                },
            )

    def keep_round(
        self,
        outgoing: Sequence[Outgoing],
        at: datetime,
        *,
        moved: Mapping[int, str] | None = None,
        promises: Sequence[Promise] = (),
        done: Sequence[tuple[str, str, date]] = (),
    ) -> None:
        """Write one turn of the clock: what is to be sent, promises' new states and successors, what is done today."""
        with self._write() as db:
            for message in outgoing:
                _queue(db, message, None)
            for reminder_id, state in (moved or {}).items():
                db.table("reminders").update(reminder_id, {"state": state, "changed_at": instant_text(at)})
            for promise in promises:
                _promise(db, promise, instant_text(at))
            for what, who, day in done:
                db.table("rounds").upsert(
                    {"what": what, "who": who, "day": day.isoformat(), "at": instant_text(at)},
                    pk=("what", "who", "day"),
                )

    def _write_records(self, db: Database, filing: Filing, at: datetime) -> None:
        stamp = instant_text(at)
        for field in filing.fields:
            row = _field_row(field)
            if list(db.query("select 1 from fields where id = ?", [field.id])):
                db.table("fields").update(field.id, row)
            else:
                db.table("fields").insert(row)
        for person in filing.people:
            _change_person(db, person, stamp)
        for visit in filing.visits:
            new_id = (
                db.table("visits")
                .insert(
                    {
                        "inbox_id": filing.inbox_id,
                        "field_id": visit.field_id,
                        "person_id": visit.person_id,
                        "day": visit.on.isoformat(),
                        "day_assumed": int(visit.day_assumed),
                        "note": json.dumps(note_as_data(visit.note), ensure_ascii=False),
                        "entry_closed_until": instant_text(visit.entry_closed_until)
                        if visit.entry_closed_until
                        else None,
                        "recorded_at": stamp,
                    }
                )
                .last_pk
            )
            if visit.replaces is not None:
                db.table("visits").update(visit.replaces, {"replaced_by": new_id})
        for visit_id in filing.taken_back:
            db.table("visits").update(visit_id, {"replaced_by": TAKEN_BACK})
        _void_standings(db, filing)
        for event in filing.events:
            db.table("events").insert(
                {
                    "inbox_id": filing.inbox_id,
                    "at": stamp,
                    "person_id": event.person_id,
                    "field_id": event.field_id,
                    "kind": event.kind,
                    "args": json.dumps(dict(event.args), default=str, ensure_ascii=False),
                }
            )
        for held in filing.held:
            db.table("held_notes").insert(
                {
                    "inbox_id": filing.inbox_id,
                    "person_id": filing.person_id,
                    "note": json.dumps(note_as_data(held.note), ensure_ascii=False),
                    "nearest": json.dumps(list(held.nearest), ensure_ascii=False),
                    "day": (held.note.date or filing.held_day or at.date()).isoformat(),
                    "state": "waiting",
                }
            )
        for held_id in filing.settled:
            db.table("held_notes").update(held_id, {"state": "placed"})
        followed = {promise.field_id for promise in filing.promises}
        for field_id in sorted(followed | set(filing.ended)):
            # One without a successor is withdrawn from calendars, which takes a sequence number of its own.
            db.execute(
                "update reminders set state = ?, changed_at = ?, sequence = sequence + ?"
                " where field_id = ? and state in ('waiting', 'sent', 'nudged')",
                ["kept", stamp, int(field_id not in followed), field_id],
            )
        for field_id in sorted({visit.field_id for visit in filing.visits} | followed | set(filing.ended)):
            # A late look, a new day for it, or a word that it is not wanted settles what closed without one.
            db.execute(
                "update reminders set state = 'kept', changed_at = ? where field_id = ? and state = 'closed'",
                [stamp, field_id],
            )
        for promise in filing.promises:
            _promise(db, promise, stamp)


def _renames(db: Database, named: Collection[tuple[str, str]]) -> dict[tuple[str, str], dict[str, Any]]:
    """Fields that mail has given another name since, by the old one: the file's name is an alias now."""
    rows = [row for row in db.query("select * from fields") if (row["crew"], row["name"]) not in named]
    return {(row["crew"], alias): row for row in reversed(rows) for alias in json.loads(row["aliases"] or "[]")}


def _void_standings(db: Database, filing: Filing) -> None:
    """What is newly known of a field makes its last reckoning void."""
    fields = {visit.field_id for visit in filing.visits} | {known.id for known in filing.fields}
    for field_id in sorted(fields):
        db.execute("delete from standings where field_id = ?", [field_id])
    for visit_id in filing.taken_back:
        db.execute("delete from standings where field_id = (select field_id from visits where id = ?)", [visit_id])


def _change_person(db: Database, person: Person, stamp: str) -> None:
    row = _person_row(person)
    db.table("people").update(person.id, {**row, "unreachable_since": None if person.reachable else stamp})


def _promise(db: Database, promise: Promise, stamp: str) -> None:
    db.table("reminders").insert(
        {
            "field_id": promise.field_id,
            "person_id": promise.person_id,
            "earliest": promise.earliest.isoformat(),
            "likely": promise.likely.isoformat(),
            "latest": promise.latest.isoformat(),
            "purpose": promise.purpose,
            "state": "waiting",
            "uid": promise.uid,
            "sequence": promise.sequence,
            "changed_at": stamp,
        }
    )


def _queue(db: Database, message: Outgoing, inbox_id: int | None) -> None:
    db.table("outbox").insert(
        {
            "queued_at": instant_text(message.queued_at),
            "kind": message.kind,
            "door": message.door,
            "inbox_id": inbox_id,
            "person_id": message.person_id,
            "field_id": message.field_id,
            "envelope_from": message.envelope_from,
            "recipient": message.recipient,
            "message_id": message.message_id,
            "raw": message.raw,
            "body": message.body,
            "about": json.dumps(list(message.about)),
            "state": "waiting",
            "next_try_at": instant_text(message.queued_at),
            "expires_at": instant_text(message.expires_at),
        }
    )


def _person_row(person: Person) -> dict[str, Any]:
    return {
        "id": person.id,
        "name": person.name,
        "role": person.role,
        "crew": person.crew,
        "addresses": json.dumps(list(person.addresses)),
        "language": person.language,
        "timezone": person.timezone,
        "day_first": int(person.day_first),
        "units": person.units,
        "hour": person.hour,
        "reachable": int(person.reachable),
        "remind": person.remind,
        "by_clock": int(person.by_clock),
    }


def _person(row: Mapping[str, Any]) -> Person:
    return Person(
        id=row["id"],
        name=row["name"],
        role=row["role"],
        crew=row["crew"],
        addresses=tuple(json.loads(row["addresses"])),
        language=row["language"],
        timezone=row["timezone"],
        day_first=bool(row["day_first"]),
        units=row["units"],
        hour=row["hour"],
        reachable=bool(row["reachable"]),
        remind=row["remind"],
        by_clock=bool(row["by_clock"]),
    )


def _field_row(field: Field) -> dict[str, Any]:
    return {
        "id": field.id,
        "name": field.name,
        "crew": field.crew,
        "aliases": json.dumps(list(field.aliases), ensure_ascii=False),
        "latitude": field.latitude,
        "longitude": field.longitude,
        "planted": field.planted.isoformat() if field.planted else None,
        "resistance": field.resistance,
        "source": field.source,
        "variety": field.variety,
        "place": field.place,
        "acres": field.acres,
        "muted": int(field.muted),
    }


def _field(row: Mapping[str, Any]) -> Field:
    return Field(
        id=row["id"],
        name=row["name"],
        crew=row["crew"],
        aliases=tuple(json.loads(row["aliases"] or "[]")),
        latitude=row["latitude"],
        longitude=row["longitude"],
        planted=date.fromisoformat(row["planted"]) if row["planted"] else None,
        resistance=row["resistance"],
        source=row["source"],
        variety=row["variety"],
        place=row["place"],
        acres=row["acres"],
        muted=bool(row["muted"]),
    )


def _visit(row: Mapping[str, Any]) -> Visit:
    note = _note(row["note"], row["day"])
    on = date.fromisoformat(row["day"])
    return Visit(row["id"], row["field_id"], on, note, row["person_id"], bool(row["day_assumed"]))


@lru_cache(maxsize=16_384)
def _note(written: str, day: str) -> Note:
    """A note as kept: the same again and again, since a field's outlook reads its neighbours' notes as well."""
    return replace(note_from_data(json.loads(written)), date=date.fromisoformat(day))


def _told(row: Mapping[str, Any]) -> Told:
    return Told(row["kind"], tuple(json.loads(row["about"] or "[]")), instant_from(row["queued_at"]))


def _kept(row: Mapping[str, Any]) -> Kept:
    return Kept(
        id=row["id"],
        arrived_at=instant_from(row["arrived_at"]),
        door=row["door"],
        peer=row["peer"] or "",
        envelope_from=row["envelope_from"] or "",
        envelope_to=tuple(json.loads(row["envelope_to"] or "[]")),
        raw=row["raw"],
        state=row["state"],
        reason=row["reason"] or "",
        tries=row["tries"] or 0,
        trouble=row["trouble"] or "",
        proof=row["proof"] or "",
        dealt_at=instant_from(row["dealt_at"]) if row["dealt_at"] else None,
        finished_at=instant_from(row["finished_at"]) if row["finished_at"] else None,
    )


def _far(at: datetime) -> str:
    """Nothing is put off further than this: what seems so was put off by a clock that has been set back since."""
    return instant_text(at + timedelta(hours=1))


def _reminder(row: Mapping[str, Any]) -> Reminder:
    return Reminder(
        id=row["id"],
        field_id=row["field_id"],
        person_id=row["person_id"],
        earliest=date.fromisoformat(row["earliest"]),
        likely=date.fromisoformat(row["likely"]),
        latest=date.fromisoformat(row["latest"]),
        purpose=row["purpose"],
        state=row["state"],
        uid=row["uid"],
        sequence=row["sequence"],
        changed_at=instant_from(row["changed_at"]) if row["changed_at"] else None,
    )


def _standing_row(standing: Standing) -> dict[str, Any]:
    again, females = standing.recheck, standing.females
    data = {
        "stage": standing.stage,
        "generation": standing.generation,
        "verdict": standing.verdict,
        "females": None if females is None else [females.low, females.likely, females.high],
        "watch": standing.watch,
        "watch_probability": standing.watch_probability,
        "recheck": None
        if again is None
        else [again.earliest.isoformat(), again.likely.isoformat(), again.latest.isoformat(), again.purpose],
    }
    return {
        "field_id": standing.field_id,
        "as_of": standing.as_of.isoformat(),
        "data": json.dumps(data),
    }


def _standing(row: Mapping[str, Any]) -> Standing:
    data = json.loads(row["data"])
    again = data["recheck"]
    return Standing(
        field_id=row["field_id"],
        as_of=date.fromisoformat(row["as_of"]),
        stage=data["stage"],
        generation=data["generation"],
        verdict=data["verdict"],
        females=None if data["females"] is None else Interval(*data["females"]),
        watch=data["watch"],
        watch_probability=data["watch_probability"],
        recheck=None
        if again is None
        else Recheck(
            date.fromisoformat(again[0]),
            date.fromisoformat(again[1]),
            date.fromisoformat(again[2]),
            again[3],
            Fact("promised", {}),
        ),
    )
