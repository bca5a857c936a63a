"""The outbox: finished messages that wait to leave, tried until they are sent, refused for good, or too late.

One thread takes turns over it. What happened to a message is written right after its attempt, so a crash
repeats at most one message, with the same bytes and the same Message-ID.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any, Protocol

from notes_bot.store.store import instant_from, instant_text, open_database

WAITS = (
    timedelta(seconds=30),
    timedelta(minutes=2),
    timedelta(minutes=5),
    timedelta(minutes=15),
    timedelta(minutes=30),
    timedelta(hours=1),
)
"""Between one attempt and the next, each shorter or longer by up to a fifth; the last one repeats."""

JITTER = 0.2


@dataclass(frozen=True, slots=True)
class Queued:
    """One message that waits."""

    id: int
    kind: str
    door: str
    recipient: str
    envelope_from: str
    message_id: str
    raw: bytes
    tries: int
    expires_at: datetime | None
    person_id: int | None
    inbox_id: int | None


class Attempt(Protocol):
    """How an attempt ended; ``mail.smtp_out.Sending`` is one."""

    @property
    def outcome(self) -> str: ...
    @property
    def detail(self) -> str: ...
    @property
    def status(self) -> str: ...
    @property
    def whose(self) -> str: ...
    @property
    def way_down(self) -> bool: ...


@dataclass(frozen=True, slots=True)
class Lost:
    """A message that will not be tried again."""

    id: int
    state: str
    """failed or expired."""
    kind: str
    recipient: str
    person_id: int | None
    status: str
    detail: str
    whose: str
    """person: the address is at fault; ours: our own service; empty: it only took too long."""


@dataclass(frozen=True, slots=True)
class Turn:
    """What one turn over the outbox did."""

    sent: int = 0
    later: int = 0
    lost: tuple[Lost, ...] = ()
    down: tuple[str, ...] = ()
    """Doors that are closed for now: nothing leaves there."""


class Outbox:
    """Turns over the waiting messages. One instance, one thread; ``chance`` spreads the retries."""

    def __init__(self, path: Path | str, *, chance: random.Random) -> None:
        self._db = open_database(path)
        self._chance = chance
        self._down: dict[str, tuple[int, datetime, datetime]] = {}

    def close(self) -> None:
        self._db.close()

    def turn(
        self,
        send: Callable[[Queued], Attempt],
        now: Callable[[], datetime],
        *,
        most: int = 200,
        stop: Callable[[], bool] = lambda: False,
    ) -> Turn:
        """Try what is due, at most ``most`` messages, until ``stop`` says so."""
        sent = later = 0
        lost = list(self._expire(now()))
        for waiting in self.due(now(), most):
            if stop():
                break
            if self._closed(waiting.door, now()):
                continue
            attempt = send(waiting)
            at = now()
            if attempt.way_down and attempt.outcome == "later":
                self._close_door(waiting.door, at)
                self._note(waiting, attempt.detail)
                later += 1
                continue
            self._down.pop(waiting.door, None)
            if attempt.outcome == "sent":
                self._settle(waiting, "sent", attempt.detail, at)
                sent += 1
            elif attempt.outcome == "never":
                self._settle(waiting, "failed", attempt.detail, at)
                lost.append(_lost(waiting, "failed", attempt))
            else:
                self._postpone(waiting, attempt.detail, at)
                later += 1
        return Turn(sent, later, tuple(lost), tuple(sorted(self._down)))

    def due(self, at: datetime, most: int = 200) -> tuple[Queued, ...]:
        """Messages whose time has come, oldest first.

        A next try further off than any wait of ours can only come from a clock that was set back: it is due.
        """
        rows = self._db.query(
            "select * from outbox where state = 'waiting' and (next_try_at <= ? or next_try_at > ?)"
            " order by next_try_at, id limit ?",
            [instant_text(at), instant_text(at + WAITS[-1] * (1 + 2 * JITTER)), most],
        )
        return tuple(_queued(row) for row in rows)

    def next_try(self) -> datetime | None:
        """When the next message is due; ``None`` when nothing waits."""
        row = self._db.conn.execute("select min(next_try_at) from outbox where state = 'waiting'").fetchone()
        return instant_from(row[0]) if row[0] else None

    def wait_after(self, tries: int) -> timedelta:
        """How long to wait after this many attempts."""
        base = WAITS[min(tries, len(WAITS)) - 1] if tries > 0 else timedelta(0)
        return base * self._chance.uniform(1 - JITTER, 1 + JITTER)

    def refusals(self, recipient: str) -> int:
        """Messages to this address refused for good since the last one that was taken."""
        row = self._db.conn.execute(
            "select count(*) from outbox where recipient = ? and state = 'failed' and id >"
            " coalesce((select max(id) from outbox where recipient = ? and state = 'sent'), 0)",
            [recipient, recipient],
        ).fetchone()
        return int(row[0])

    # --- writing ---

    def _closed(self, door: str, at: datetime) -> bool:
        if door not in self._down:
            return False
        _, since, until = self._down[door]
        return since <= at < until  # a clock set back opens the door again

    def _close_door(self, door: str, at: datetime) -> None:
        times = self._down[door][0] + 1 if door in self._down else 1
        self._down[door] = (times, at, at + min(self.wait_after(times), timedelta(minutes=15)))

    def _expire(self, at: datetime) -> tuple[Lost, ...]:
        rows = list(
            self._db.query(
                "select * from outbox where state = 'waiting' and expires_at is not null and expires_at <= ?",
                [instant_text(at)],
            )
        )
        for row in rows:
            self._settle(_queued(row), "expired", row["last_error"] or "", at)
        return tuple(
            Lost(row["id"], "expired", row["kind"], row["recipient"], row["person_id"], "", row["last_error"] or "", "")
            for row in rows
        )

    def _settle(self, waiting: Queued, state: str, detail: str, at: datetime) -> None:
        self._write(
            "update outbox set state = ?, tries = tries + ?, last_error = ?, finished_at = ?"
            " where id = ? and state = 'waiting'",
            [state, 0 if state == "expired" else 1, "" if state == "sent" else detail, instant_text(at), waiting.id],
        )

    def _postpone(self, waiting: Queued, detail: str, at: datetime) -> None:
        self._write(
            "update outbox set tries = tries + 1, last_error = ?, next_try_at = ? where id = ? and state = 'waiting'",
            [detail, instant_text(at + self.wait_after(waiting.tries + 1)), waiting.id],
        )

    def _note(self, waiting: Queued, detail: str) -> None:
        """The way was down, which is not the message's fault: it stays first in line."""
        self._write("update outbox set last_error = ? where id = ?", [detail, waiting.id])

    def _write(self, sql: str, values: list[Any]) -> None:
        conn = self._db.conn
        conn.execute("BEGIN IMMEDIATE")
        try:
            conn.execute(sql, values)
        except BaseException:
            if conn.in_transaction:
                conn.rollback()
            raise
        conn.commit()


def _lost(waiting: Queued, state: str, attempt: Attempt) -> Lost:
    return Lost(
        waiting.id,
        state,
        waiting.kind,
        waiting.recipient,
        waiting.person_id,
        attempt.status,
        attempt.detail,
        attempt.whose,
    )


def _queued(row: Mapping[str, Any]) -> Queued:
    return Queued(
        id=row["id"],
        kind=row["kind"],
        door=row["door"] or "mail",
        recipient=row["recipient"],
        envelope_from=row["envelope_from"] or "",
        message_id=row["message_id"],
        raw=row["raw"],
        tries=row["tries"] or 0,
        expires_at=instant_from(row["expires_at"]) if row["expires_at"] else None,
        person_id=row["person_id"],
        inbox_id=row["inbox_id"],
    )
