"""The life of one message as values: what came, what was made of it, what left."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from notes_bot.asdata import note_from_data
from notes_bot.model import Note
from notes_bot.store.store import Kept, Store, instant_from


@dataclass(frozen=True, slots=True)
class Left:
    """One mail that followed."""

    kind: str
    recipient: str
    message_id: str
    state: str
    queued_at: datetime
    finished_at: datetime | None
    tries: int
    last_error: str


@dataclass(frozen=True, slots=True)
class Made:
    """One record that followed."""

    kind: str
    field: str
    day: str
    note: Note | None
    fate: str


@dataclass(frozen=True, slots=True)
class Trace:
    kept: Kept
    sender: str
    message_id: str
    made: tuple[Made, ...]
    left: tuple[Left, ...]


def trace(store: Store, which: str) -> tuple[Trace, ...]:
    """The messages with this number or this Message-ID (of theirs, or of our answer), oldest first."""
    db = store._db
    if which.isdecimal():
        rows = list(db.query("select id from inbox where id = ?", [int(which)]))
    else:
        rows = list(
            db.query(
                "select id from inbox where message_id = ? or id in"
                " (select inbox_id from outbox where message_id = ?) order by id",
                [which, which],
            )
        )
    return tuple(_trace(store, int(row["id"])) for row in rows)


def _trace(store: Store, inbox_id: int) -> Trace:
    db, kept = store._db, store.kept(inbox_id)
    if kept is None:
        raise LookupError(inbox_id)
    names = {row["id"]: row["name"] for row in db.query("select id, name from fields")}
    (own,) = db.query("select sender, message_id from inbox where id = ?", [inbox_id])
    made = [
        Made("visit", names.get(row["field_id"], ""), row["day"], note_from_data(json.loads(row["note"])), _fate(row))
        for row in db.query("select * from visits where inbox_id = ? order by id", [inbox_id])
    ]
    made += [
        Made(row["kind"], names.get(row["field_id"], ""), row["at"][:10], None, row["args"])
        for row in db.query("select * from events where inbox_id = ? order by id", [inbox_id])
    ]
    made += [
        Made("waiting note", "", row["day"], note_from_data(json.loads(row["note"])), row["state"])
        for row in db.query("select * from held_notes where inbox_id = ? order by id", [inbox_id])
    ]
    left = [
        Left(
            row["kind"],
            row["recipient"],
            row["message_id"],
            row["state"],
            instant_from(row["queued_at"]),
            instant_from(row["finished_at"]) if row["finished_at"] else None,
            row["tries"] or 0,
            row["last_error"] or "",
        )
        for row in db.query("select * from outbox where inbox_id = ? order by id", [inbox_id])
    ]
    return Trace(kept, own["sender"] or "", own["message_id"] or "", tuple(made), tuple(left))


def _fate(row: Mapping[str, Any]) -> str:
    by = row["replaced_by"]
    return "stands" if by is None else "replaced later" if by else "taken back"
