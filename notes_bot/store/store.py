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
from pathlib import Path
from typing import Any

from sqlite_utils import Database

from notes_bot.asdata import note_as_data, note_from_data
from notes_bot.model import (
    DayTemperature,
    Field,
    Filing,
    Note,
    Outgoing,
    Person,
    Promise,
    Reminder,
    Visit,
    Waiting,
)
from notes_bot.store.upgrade import DatabaseWrong, bring_up_to_date

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


class Store:
    """The one database file, as questions and answers."""

    def __init__(self, path: Path | str) -> None:
        self._db = open_database(path)

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
                del row["id"], row["reachable"]
                known = list(db.query("select id from people where crew = ? and name = ?", [person.crew, person.name]))
                if known:
                    db.table("people").update(known[0]["id"], row)
                else:
                    db.table("people").insert({**row, "reachable": 1})
            for field in fields:
                row = {name: value for name, value in _field_row(field).items() if value not in (None, "[]")}
                row.pop("id"), row.pop("muted")
                known = list(db.query("select id from fields where crew = ? and name = ?", [field.crew, field.name]))
                if not known and (renamed := _renamed(db, field, named)):
                    known = [renamed]
                    row.pop("name"), row.pop("aliases", None)
                if known:
                    db.table("fields").update(known[0]["id"], row)
                else:
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

    def crews(self) -> tuple[str, ...]:
        rows = self._db.query("select crew from people union select crew from fields order by crew")
        return tuple(row["crew"] for row in rows)

    def field(self, field_id: int) -> Field | None:
        rows = list(self._db.query("select * from fields where id = ?", [field_id]))
        return _field(rows[0]) if rows else None

    def next_field_id(self) -> int:
        """The id the next new field will have; good for the one desk that writes records."""
        return int(next(self._db.query("select coalesce(max(id), 0) + 1 as n from fields"))["n"])

    # --- visits ---

    def visits(self, field_id: int, since: date, until: date) -> tuple[Visit, ...]:
        """A field's standing visits from ``since`` to ``until``, both included, oldest first."""
        rows = self._db.query(
            "select * from visits where field_id = ? and replaced_by is null and day between ? and ? order by day, id",
            [field_id, since.isoformat(), until.isoformat()],
        )
        return tuple(_visit(row) for row in rows)

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
        """Look-again windows that are still open, soonest first."""
        rows = self._db.query(
            "select r.* from reminders r join fields f on f.id = r.field_id"
            " where r.state in ('waiting', 'sent', 'nudged') and (? is null or f.crew = ?) order by r.likely, r.id",
            [crew, crew],
        )
        return tuple(_reminder(row) for row in rows)

    def promise_for(self, field_id: int) -> Reminder | None:
        """The field's newest look-again window, whatever its state."""
        rows = list(self._db.query("select * from reminders where field_id = ? order by id desc limit 1", [field_id]))
        return _reminder(rows[0]) if rows else None

    def missed(self, field_id: int) -> tuple[date, ...]:
        """Last days of the windows that closed unused since the field was last looked at, newest first."""
        rows = self._db.query("select state, latest from reminders where field_id = ? order by id desc", [field_id])
        closed: list[date] = []
        for row in rows:
            if row["state"] == "kept":
                break
            if row["state"] == "closed":
                closed.append(date.fromisoformat(row["latest"]))
        return tuple(closed)

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
                date.fromisoformat(row["day"]), row["tmin_c"], row["tmax_c"], row["soil_mean_c"], bool(row["forecast"])
            )
            for row in rows
        )

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
        ended = {promise.field_id for promise in filing.promises} | set(filing.ended)
        for field_id in sorted(ended):
            db.execute(
                "update reminders set state = 'kept', changed_at = ?"
                " where field_id = ? and state in ('waiting', 'sent', 'nudged')",
                [stamp, field_id],
            )
        for field_id in sorted({visit.field_id for visit in filing.visits}):
            # A late look settles the windows that closed without one.
            db.execute(
                "update reminders set state = 'kept', changed_at = ? where field_id = ? and state = 'closed'",
                [stamp, field_id],
            )
        for promise in filing.promises:
            _promise(db, promise, stamp)


def _renamed(db: Database, field: Field, named: Collection[tuple[str, str]]) -> dict[str, Any] | None:
    """The field that mail has given another name since: its old name, the file's, is an alias now."""
    rows = db.query("select id, name, aliases from fields where crew = ?", [field.crew])
    return next(
        (
            row
            for row in rows
            if field.name in json.loads(row["aliases"] or "[]") and (field.crew, row["name"]) not in named
        ),
        None,
    )


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
    on = date.fromisoformat(row["day"])
    note = replace(note_from_data(json.loads(row["note"])), date=on)
    return Visit(row["id"], row["field_id"], on, note, row["person_id"], bool(row["day_assumed"]))


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
    )
