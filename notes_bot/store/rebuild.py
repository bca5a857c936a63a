"""Records made anew beside the old ones, from the same raw messages: a store that sends nothing and looks back.

``Rebuilt`` is a store of its own in which messages are dealt with again. It takes from the old file what is not in
the mail (people, temperatures, what was sent and when), and gives both sides' records as plain values to compare.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator, Mapping, Sequence
from contextlib import closing
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from notes_bot.asdata import note_as_data, note_from_data
from notes_bot.model import Field, Filing, Note, Outgoing, Promise
from notes_bot.store.store import Kept, Store, _field, _field_row, _kept, instant_from, instant_text

RECORDS = ("fields", "visits", "events", "held_notes", "reminders")
"""Tables that follow from the messages: made anew and swapped in."""
GIVEN = ("people", "temperatures", "rounds", "outbox", "imap_places", "inbox")
"""Tables that do not: taken as they are. Of the inbox the raw messages are; their end states are compared too."""
DERIVED = ("standings",)
"""Tables that are reckoned from the records when wanted: emptied."""


@dataclass(frozen=True, slots=True)
class Record:
    """One record as a value. ``at`` is the message it came from, 0 when from none."""

    kind: str
    """visit, event, waiting note, field, window or message."""
    at: int
    field: str
    person: str
    day: str
    note: Note | None = None
    rest: str = ""
    """Everything else that must agree, as text."""


class Rebuilt(Store):
    """A fresh store that is filled from the messages of ``old``, a file that nothing else writes to."""

    def __init__(self, path: Path, old: Path) -> None:
        super().__init__(path)
        self._db.conn.execute("attach ? as old", (str(old),))

    # --- what is given ---

    def begin(self, fields: Sequence[Field]) -> None:
        """Take people, temperatures and past digests over; the fields named get the ids they have in the old file."""
        with self._write() as db:
            for table in ("people", "temperatures"):
                self._copy(table, "1")
            self._copy("rounds", "what not in ('reminder', 'reminded')")
            known = list(db.query("select id, crew, name, aliases from old.fields"))
            late: list[dict[str, Any]] = []
            for field in fields:
                row = {**_field_row(field), "id": _id_of(field, known), "muted": 0}
                if row["id"] is None:
                    late.append(row)
                else:
                    db.table("fields").insert(row)
            for row in late:
                db.table("fields").insert({**row, "id": self.next_field_id()})

    def _copy(self, table: str, where: str, values: Sequence[Any] = ()) -> None:
        names = ", ".join(column.name for column in self._db.table(table).columns)
        self._db.execute(f"insert into main.{table} ({names}) select {names} from old.{table} where {where}", values)  # noqa: S608 - fixed text only

    def next_field_id(self, taken: Sequence[int] = ()) -> int:
        """The id the field had in the old file, as far as fields come in the same order."""
        rows = self._db.query("select id from old.fields where id not in (select id from main.fields) order by id")
        free = [int(row["id"]) for row in rows if row["id"] not in taken]
        if free:
            return free[0]
        highest = next(
            self._db.query(
                "select max((select max(id) from old.fields), (select coalesce(max(id), 0) from main.fields)) n"
            )
        )["n"]
        return max([highest or 0, *taken]) + 1

    def receive(self, kept: Kept) -> None:
        """Put a message in line. Its raw bytes stay in the old file."""
        with self._write() as db:
            db.table("inbox").insert(
                {
                    "id": kept.id,
                    "arrived_at": instant_text(kept.arrived_at),
                    "door": kept.door,
                    "peer": kept.peer,
                    "envelope_from": kept.envelope_from,
                    "envelope_to": json.dumps(list(kept.envelope_to)),
                    "raw": b"",
                    "state": "waiting",
                    "tries": 0,
                }
            )

    def sent_on(self, until: datetime) -> None:
        """What the rounds had sent before an instant is known from now on: answers to it are recognised."""
        with self._write():
            self._copy(
                "outbox",
                "inbox_id is null and queued_at < ? and message_id not in (select message_id from main.outbox)",
                [instant_text(until)],
            )

    # --- nothing leaves ---

    def keep(self, filing: Filing, at: datetime) -> None:
        """As ever, but nothing is queued: what was answered then is noted as sent then."""
        super().keep(replace(filing, outgoing=()), at)
        with self._write() as db:
            if filing.state == "done":
                self._copy(
                    "outbox",
                    "inbox_id = ? and message_id not in (select message_id from main.outbox)",
                    [filing.inbox_id],
                )
            for made in filing.outgoing:
                if not list(db.query("select 1 from main.outbox where message_id = ?", [made.message_id])):
                    _as_sent(db, made, filing.inbox_id)

    def keep_round(
        self,
        outgoing: Sequence[Outgoing],  # noqa: ARG002 - what was sent is taken from the old file
        at: datetime,
        *,
        moved: Mapping[int, str] | None = None,
        promises: Sequence[Promise] = (),
        done: Sequence[tuple[str, str, Any]] = (),
    ) -> None:
        """As ever, but nothing is queued."""
        super().keep_round((), at, moved=moved, promises=promises, done=done)

    def fields_of_former_files(self, fields: Sequence[Field]) -> tuple[Field, ...]:
        """``fields`` with all that the old file has and reading again has not made: it came from an earlier settings
        file. What mail says otherwise stays as mail says it."""
        mine = {(row["crew"], row["name"]): row for row in self._db.query("select * from main.fields")}
        named = {(field.crew, field.name): field for field in fields}
        for old in map(_field, self._db.query("select * from old.fields order by id")):
            key = (old.crew, old.name)
            if key not in mine:
                named[key] = old
                continue
            silent = {name: getattr(old, name) for name in _TOLD if mine[key][name] is None and getattr(old, name)}
            if silent and key in named:
                named[key] = replace(named[key], **silent)
        return tuple(named.values())


_TOLD = ("latitude", "longitude", "planted", "resistance", "source", "variety", "place", "acres")


def _id_of(field: Field, known: Sequence[Mapping[str, Any]]) -> int | None:
    """The old id of a field of the settings file, which mail may have given another name since."""
    same = [row for row in known if row["crew"] == field.crew and row["name"] == field.name]
    same = same or [
        row for row in known if row["crew"] == field.crew and field.name in json.loads(row["aliases"] or "[]")
    ]
    return int(same[0]["id"]) if same else None


def _as_sent(db: Any, made: Outgoing, inbox_id: int) -> None:
    db.table("outbox").insert(
        {
            "queued_at": instant_text(made.queued_at),
            "kind": made.kind,
            "door": made.door,
            "inbox_id": inbox_id,
            "person_id": made.person_id,
            "field_id": made.field_id,
            "recipient": made.recipient,
            "message_id": made.message_id,
            "raw": b"",
            "body": made.body,
            "state": "sent",
            "next_try_at": instant_text(made.queued_at),
        }
    )


# --- reading the old file ---------------------------------------------------------------------------


def messages_in(path: Path) -> Iterator[Kept]:
    """Every message of a file in the order they came."""
    with closing(sqlite3.connect(path)) as conn:
        conn.row_factory = sqlite3.Row
        for row in conn.execute("select * from inbox order by id"):
            yield _kept(dict(row))


def outlines_in(path: Path) -> tuple[Kept, ...]:
    """The same without the raw bytes: what was decided about each and when."""
    with closing(sqlite3.connect(path)) as conn:
        conn.row_factory = sqlite3.Row
        names = [row["name"] for row in conn.execute("pragma table_info(inbox)") if row["name"] != "raw"]
        rows = conn.execute(f"select {', '.join(names)}, x'' as raw from inbox order by id")  # noqa: S608 - our own columns
        return tuple(_kept(dict(row)) for row in rows)


def last_sign_of_life(path: Path) -> datetime | None:
    """The last instant at which the service did anything."""
    with closing(sqlite3.connect(path)) as conn:
        (text,) = conn.execute(
            "select max(at) from (select max(finished_at) at from inbox union select max(dealt_at) from inbox"
            " union select max(queued_at) from outbox union select max(at) from rounds"
            " union select max(changed_at) from reminders)"
        ).fetchone()
    return instant_from(text) if text else None


def records_in(path: Path) -> list[Record]:
    """All records of a file as values, by names instead of row numbers."""
    with closing(sqlite3.connect(path)) as conn:
        conn.row_factory = sqlite3.Row
        fields = {row["id"]: row["name"] for row in conn.execute("select id, name from fields")}
        people = {row["id"]: row["name"] for row in conn.execute("select id, name from people")}
        visits = {row["id"]: dict(row) for row in conn.execute("select * from visits order by id")}
        found: list[Record] = []

        def record(kind: str, row: Mapping[str, Any], **more: Any) -> None:
            of, by = fields.get(row["field_id"], "") if "field_id" in row else "", people.get(row["person_id"], "")
            found.append(Record(kind, row["inbox_id"] or 0, of, by, **more))

        for row in visits.values():
            closed = f", entry closed until {row['entry_closed_until']}" if row["entry_closed_until"] else ""
            assumed = ", day assumed" if row["day_assumed"] else ""
            record("visit", row, day=row["day"], note=_note(row), rest=_fate(row, visits) + assumed + closed)
        for row in map(dict, conn.execute("select * from events order by id")):
            said = json.dumps(json.loads(row["args"] or "{}"), sort_keys=True, ensure_ascii=False)
            record("event", row, day="", rest=f"{row['kind']} {said}")
        for row in map(dict, conn.execute("select * from held_notes order by id")):
            record(
                "waiting note", row, day=row["day"], note=_note(row), rest=f"{row['state']}, offered {row['nearest']}"
            )
        for row in map(dict, conn.execute("select * from reminders order by id")):
            span = f"{row['earliest']} - {row['likely']} - {row['latest']}"
            more = f"{row['purpose']}, {row['state']}, calendar {row['uid']} {row['sequence']}"
            record("window", {**row, "inbox_id": 0}, day=row["earliest"], rest=f"{span}, {more}")
        for row in map(dict, conn.execute("select * from fields order by id")):
            told = {k: v for k, v in row.items() if k not in ("id", "name") and v not in (None, "", "[]", 0)}
            of = Record("field", 0, row["name"], "", "", rest=json.dumps(told, sort_keys=True, ensure_ascii=False))
            found.append(of)
        ends = conn.execute("select id, state, reason from inbox where state <> 'waiting' order by id")
        found += [Record("message", n, "", "", "", rest=f"{state} {reason or ''}".strip()) for n, state, reason in ends]
    return found


def _note(row: Mapping[str, Any]) -> Note:
    """The note in today's shape, whatever release wrote it."""
    return note_from_data(note_as_data(note_from_data(json.loads(row["note"]))))


def _fate(row: Mapping[str, Any], visits: Mapping[int, Mapping[str, Any]]) -> str:
    by = row["replaced_by"]
    if by is None:
        return "stands"
    return f"replaced by message {visits[by]['inbox_id']}" if by in visits else "taken back"


# --- swapping in ------------------------------------------------------------------------------------


def swap_in(live: Path, fresh: Path) -> None:
    """Put the records of ``fresh`` in the place of those of ``live``, in one transaction: all or nothing.

    Raw messages, people, temperatures and all that was sent stay. Calendar entries keep counting upwards.

    Raises:
        ValueError: the two files do not hold the same messages.
        sqlite3.Error: the disk; nothing was changed.
    """
    with closing(sqlite3.connect(live, isolation_level=None, timeout=30.0)) as conn:
        conn.execute("pragma synchronous=FULL")
        conn.execute("attach ? as fresh", (str(fresh),))
        conn.execute("begin immediate")
        try:
            _swap(conn)
        except BaseException:
            conn.execute("rollback")
            raise
        conn.execute("commit")


def _swap(conn: sqlite3.Connection) -> None:
    unknown = "select count(*) from main.inbox where state <> 'waiting' and id not in (select id from fresh.inbox)"
    if conn.execute(unknown).fetchone()[0]:
        raise ValueError("messages have been dealt with in the meantime")
    conn.execute(
        "update main.outbox set field_id = coalesce((select n.id from fresh.fields n join main.fields o"
        " on n.crew = o.crew and n.name = o.name where o.id = main.outbox.field_id), field_id)"
        " where field_id is not null"
    )
    # A calendar takes a change only when its number is higher than the last one it was sent.
    sent = "(select max(o.sequence) from main.reminders o where o.uid = reminders.uid)"
    newest = "select max(id) from fresh.reminders group by uid"
    conn.execute(f"update fresh.reminders set sequence = 2 + {sent} where id in ({newest}) and sequence < {sent}")  # noqa: S608 - fixed text only
    for table in RECORDS:
        names = ", ".join(row[1] for row in conn.execute(f"pragma fresh.table_info({table})"))
        conn.execute(f"delete from main.{table}")  # noqa: S608 - fixed text only
        conn.execute(f"insert into main.{table} ({names}) select {names} from fresh.{table}")  # noqa: S608 - fixed text only
    for table in DERIVED:
        conn.execute(f"delete from main.{table}")  # noqa: S608 - fixed text only
    settled = ("state", "reason", "message_id", "sender", "person_id", "first_line", "repeat_key", "crew", "trouble")
    sets = ", ".join(f"{name} = (select f.{name} from fresh.inbox f where f.id = inbox.id)" for name in settled)  # noqa: S608 - fixed text only
    conn.execute(
        f"update main.inbox set {sets}, finished_at = coalesce(finished_at,"  # noqa: S608 - fixed text only
        " (select f.finished_at from fresh.inbox f where f.id = inbox.id))"
        " where state <> 'waiting' and exists (select 1 from fresh.inbox f where f.id = inbox.id and"
        " (f.state <> inbox.state or coalesce(f.reason, '') <> coalesce(inbox.reason, '')))"
    )


def now_text(at: datetime) -> str:
    """An instant for a file name."""
    return at.astimezone(UTC).strftime("%Y%m%d-%H%M%S")
