"""The outbox: finished messages that wait to leave, tried until they are sent, refused for good, or too late.

One thread takes turns over it and hands messages to as many connections as are allowed. What happened to a message
is written right after its attempt, so a crash repeats at most one message a connection, with the same bytes and the
same Message-ID.
"""

from __future__ import annotations

import random
from collections import deque
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ThreadPoolExecutor, wait
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
MINUTE = timedelta(minutes=1)
FRESH = timedelta(minutes=15)
"""Somebody in a field waits for an answer this young: it does not stand behind a backlog of days."""


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
    queued_at: datetime | None = None


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
    """Turns over the waiting messages. One instance, one thread; ``chance`` spreads the retries.

    ``at_once`` is the most mails under way at the same moment (``send`` is then called from that many threads),
    ``most_a_minute`` the most attempts by mail in any minute, 0 for no limit; what was sent before a restart counts.
    """

    def __init__(self, path: Path | str, *, chance: random.Random, at_once: int = 1, most_a_minute: int = 0) -> None:
        self._db = open_database(path)
        self._chance = chance
        self._down: dict[str, tuple[int, datetime, datetime]] = {}
        self._at_once = at_once
        self._most_a_minute = most_a_minute
        self._pool = ThreadPoolExecutor(at_once, "sending") if at_once > 1 else None
        self._attempts: deque[datetime] = deque(self._sent_lately()) if most_a_minute else deque()

    def close(self) -> None:
        """Wait for what is under way, then close."""
        if self._pool is not None:
            self._pool.shutdown(wait=True, cancel_futures=True)
        self._db.close()

    def turn(
        self,
        send: Callable[[Queued], Attempt],
        now: Callable[[], datetime],
        *,
        most: int = 200,
        stop: Callable[[], bool] = lambda: False,
    ) -> Turn:
        """Try what is due, at most ``most`` messages, until ``stop`` says so; what is under way then is finished.

        Raises:
            Exception: what ``send`` raised; everything else under way is noted first.
        """
        sent = later = 0
        lost = list(self._expire(now()))
        line = deque(self.due(now(), most))
        under_way: dict[Future[Attempt], Queued] = {}
        wrong: BaseException | None = None
        while True:
            while line and wrong is None and not stop() and self._room(line[0].door, len(under_way), now()):
                waiting = line.popleft()
                if not self._closed(waiting.door, now()):
                    under_way[self._begin(send, waiting, now())] = waiting
            if not under_way:
                break
            for done in wait(under_way, return_when=FIRST_COMPLETED).done:
                waiting = under_way.pop(done)
                if (error := done.exception()) is not None:
                    wrong = wrong or error
                    continue
                attempt, at = done.result(), now()
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
        if wrong is not None:
            raise wrong
        return Turn(sent, later, tuple(lost), tuple(sorted(self._down)))

    def _begin(self, send: Callable[[Queued], Attempt], waiting: Queued, at: datetime) -> Future[Attempt]:
        """Start an attempt: in a thread of its own where several may be under way, else here and now."""
        if waiting.door == "mail" and self._most_a_minute:
            self._attempts.append(at)
        if self._pool is not None:
            return self._pool.submit(send, waiting)
        made: Future[Attempt] = Future()
        try:
            made.set_result(send(waiting))
        except BaseException as error:  # noqa: BLE001 - raised again at the end of the turn
            made.set_exception(error)
        return made

    def _room(self, door: str, under_way: int, at: datetime) -> bool:
        """May one more leave now? A door that was down is tried by one message alone."""
        if under_way >= (1 if door in self._down else self._at_once):
            return False
        if door != "mail" or not self._most_a_minute:
            return True
        # A clock set back makes attempts of the future: they count for nothing.
        self._attempts = deque(when for when in self._attempts if when <= at < when + MINUTE)
        return len(self._attempts) < self._most_a_minute

    def _sent_lately(self) -> list[datetime]:
        """When the last mails left, oldest first."""
        rows = self._db.query(
            "select finished_at from outbox where state in ('sent', 'failed') and door = 'mail'"
            " order by finished_at desc limit ?",
            [self._most_a_minute],
        )
        return [instant_from(row["finished_at"]) for row in rows if row["finished_at"]][::-1]

    def due(self, at: datetime, most: int = 200) -> tuple[Queued, ...]:
        """Messages whose time has come: the oldest first, and by turns with them answers that are fresh.

        A next try further off than any wait of ours can only come from a clock that was set back: it is due.
        """
        values = {
            "at": instant_text(at),
            "far": instant_text(at + WAITS[-1] * (1 + 2 * JITTER)),
            "fresh": instant_text(at - FRESH),
            "most": most,
        }
        ready = "state = 'waiting' and (next_try_at <= :at or next_try_at > :far)"
        oldest = [
            _queued(row)
            for row in self._db.query(
                f"select * from outbox where {ready} order by next_try_at, id limit :most",  # noqa: S608 - fixed text only
                values,
            )
        ]
        if len(oldest) < 2:
            return tuple(oldest)
        fresh = [
            _queued(row)
            for row in self._db.query(
                f"select * from outbox where {ready} and kind = 'answer' and tries = 0 and queued_at > :fresh"  # noqa: S608 - fixed text only
                " order by id limit :most",
                values,
            )
        ]
        return by_turns(oldest, fresh)[:most]

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


def by_turns(oldest: Sequence[Queued], fresh: Sequence[Queued]) -> tuple[Queued, ...]:
    """Both in their order, one of each by turns, nothing twice."""
    first, second = deque(oldest), deque(fresh)
    line: dict[int, Queued] = {}
    while first or second:
        for side in (first, second):
            while side and side[0].id in line:
                side.popleft()
            if side:
                waiting = side.popleft()
                line[waiting.id] = waiting
    return tuple(line.values())


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
        queued_at=instant_from(row["queued_at"]),
    )
