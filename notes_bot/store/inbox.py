"""The inbox: raw messages kept before anybody is told that they were taken.

One writer thread takes all messages that wait at the same moment and commits them together: they share one
sync of the disk. A message is reported kept only after that commit; whatever goes wrong before is
:class:`NotKept`, and the sender tries again later. The state of a message (done, held, filed, stuck)
changes elsewhere, in the same transaction as its effects.
"""

from __future__ import annotations

import asyncio
import json
import queue
import shutil
import sqlite3
import threading
from collections.abc import Callable, Sequence
from concurrent.futures import Future
from contextlib import closing, suppress
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import Any, Protocol

from notes_bot.store.store import instant_text, open_database

_INSERT = (
    "insert into inbox (arrived_at, door, peer, envelope_from, envelope_to, raw, state, tries)"
    " values (?, ?, ?, ?, ?, ?, 'waiting', 0)"
)


class NotKept(Exception):
    """The message is not safe on the disk: whoever sent it must keep it and try again later."""


class Connection(Protocol):
    """What the writer needs of a database connection."""

    def execute(self, sql: str, parameters: Sequence[Any] = ..., /) -> Any: ...
    def close(self) -> None: ...


@dataclass(slots=True)
class _Arrival:
    row: tuple[Any, ...]
    kept: Future[int] = field(default_factory=Future)


class Inbox:
    """Keeps raw messages durably; safe to call from any thread and from any event loop.

    ``most_at_once`` is the most messages in one commit, ``least_free`` the bytes that must stay free on the
    disk (the records that follow a message need room too), ``most_waiting`` the bytes that may wait for the
    writer before new messages are refused. ``arrived`` is set whenever something new was kept.
    """

    def __init__(
        self,
        path: Path | str,
        *,
        most_at_once: int = 200,
        most_waiting: int = 256 * 1024 * 1024,
        least_free: int = 32 * 1024 * 1024,
        patience: float = 10.0,
        connect: Callable[[Path, float], Connection] | None = None,
        free: Callable[[Path], int] | None = None,
    ) -> None:
        self._path = Path(path)
        self._most_at_once = most_at_once
        self._most_waiting = most_waiting
        self._least_free = least_free
        self._patience = patience
        self._connect = connect or _connect
        self._free = free or _free
        self._queue: queue.SimpleQueue[_Arrival | None] = queue.SimpleQueue()
        self._waiting_bytes = 0
        self._closed = False
        self._lock = threading.Lock()
        self.arrived = threading.Event()
        open_database(self._path).close()
        self._writer = threading.Thread(target=self._write_for_ever, name="inbox writer", daemon=True)
        self._writer.start()

    def keep(
        self,
        raw: bytes,
        *,
        door: str,
        peer: str,
        envelope_from: str,
        envelope_to: Sequence[str],
        arrived_at: datetime,
    ) -> int:
        """Keep one message; returns its number once it is safe on the disk.

        Raises:
            NotKept: the disk is full or failing, the database is locked for too long, or we are closing.
        """
        return self._put(raw, door, peer, envelope_from, envelope_to, arrived_at).result()

    async def keep_soon(
        self,
        raw: bytes,
        *,
        door: str,
        peer: str,
        envelope_from: str,
        envelope_to: Sequence[str],
        arrived_at: datetime,
    ) -> int:
        """The same for an event loop, which stays free while the disk works.

        A caller that is cancelled while waiting cannot undo the message: it may still be kept.
        """
        kept = self._put(raw, door, peer, envelope_from, envelope_to, arrived_at)
        return await asyncio.wrap_future(kept)

    def close(self) -> None:
        """Keep what waits, then stop. Twice is harmless."""
        with self._lock:
            if not self._closed:
                self._closed = True
                self._queue.put(None)
        self._writer.join()

    def _put(
        self, raw: bytes, door: str, peer: str, envelope_from: str, envelope_to: Sequence[str], arrived_at: datetime
    ) -> Future[int]:
        row = (
            instant_text(arrived_at),
            door,
            _clean(peer),
            _clean(envelope_from),
            json.dumps([_clean(address) for address in envelope_to]),
            raw,
        )
        arrival = _Arrival(row)
        with self._lock:
            if self._closed:
                raise NotKept("the inbox is closed")
            if self._waiting_bytes + len(raw) > self._most_waiting:
                raise NotKept("too much waits for the disk")
            self._waiting_bytes += len(raw)
            self._queue.put(arrival)
        return arrival.kept

    # --- the writer's thread ---

    def _write_for_ever(self) -> None:
        conn: Connection | None = None
        last = False
        while not last:
            batch, last = self._take()
            if not batch:
                continue
            with self._lock:
                self._waiting_bytes -= sum(len(arrival.row[5]) for arrival in batch)
            try:
                if self._free(self._path.parent) < self._least_free:
                    raise NotKept("the disk is nearly full")
                if conn is None:
                    conn = self._connect(self._path, self._patience)
                results = _commit(conn, batch)
            except Exception as error:  # noqa: BLE001 - whatever it was, nobody may be told that a message was kept
                if conn is not None:
                    with suppress(Exception):
                        conn.close()
                conn = None  # after a failed write or sync only a new connection knows what is on the disk
                results = [error] * len(batch)
            for arrival, result in zip(batch, results, strict=True):
                if isinstance(result, int):
                    _tell(arrival.kept, result)
                else:
                    _tell(arrival.kept, _not_kept(result))
            if any(isinstance(result, int) for result in results):
                self.arrived.set()
        if conn is not None:
            with suppress(Exception):
                conn.close()

    def _take(self) -> tuple[list[_Arrival], bool]:
        """All that waits, up to the limit; and whether it is time to stop."""
        first = self._queue.get()
        if first is None:
            return [], True
        batch = [first]
        while len(batch) < self._most_at_once:
            try:
                more = self._queue.get_nowait()
            except queue.Empty:
                break
            if more is None:
                return batch, True
            batch.append(more)
        return batch, False


def _commit(conn: Connection, batch: Sequence[_Arrival]) -> list[int | Exception]:
    """One transaction for the batch; a row that cannot be written fails alone."""
    results: list[int | Exception] = []
    conn.execute("BEGIN IMMEDIATE")
    for arrival in batch:
        conn.execute("SAVEPOINT one")
        try:
            number = conn.execute(_INSERT, arrival.row).lastrowid
        except (sqlite3.IntegrityError, sqlite3.DataError, sqlite3.InterfaceError, OverflowError) as error:
            conn.execute("ROLLBACK TO one")
            results.append(error)
        else:
            results.append(number)
        conn.execute("RELEASE one")
    conn.execute("COMMIT")
    return results


def _connect(path: Path, patience: float) -> Connection:
    conn = sqlite3.connect(path, timeout=patience, isolation_level=None)
    for pragma in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", "journal_size_limit=67108864"):
        conn.execute(f"PRAGMA {pragma}")
    return conn


def _free(folder: Path) -> int:
    return shutil.disk_usage(folder).free


def _clean(text: str) -> str:
    """Addresses come from strangers: no NUL, no lone surrogates, no endless text in the table."""
    return text.encode("utf-8", "replace").decode("utf-8").replace("\0", "")[:1000]


def _tell(kept: Future[int], result: int | NotKept) -> None:
    """Nobody may be listening any more (a client hung up): then the message is kept all the same."""
    if not kept.set_running_or_notify_cancel():
        return
    if isinstance(result, int):
        kept.set_result(result)
    else:
        kept.set_exception(result)


def _not_kept(error: Exception) -> NotKept:
    if isinstance(error, NotKept):
        return error
    made = NotKept(f"{type(error).__name__}: {error}")
    made.__cause__ = error
    return made


class ImapPlaces:
    """How far each mailbox has been read. Safe to make in one thread and use in another."""

    def __init__(self, path: Path | str) -> None:
        self._path = Path(path)

    def last(self, mailbox: str) -> tuple[int, int] | None:
        """UIDVALIDITY and the last UID kept, or ``None`` for a mailbox never read."""
        with closing(_connect(self._path, 10.0)) as conn:
            row = conn.execute("select uidvalidity, last_uid from imap_places where mailbox = ?", (mailbox,)).fetchone()
        return None if row is None else (int(row[0]), int(row[1]))

    def remember(self, mailbox: str, validity: int, uid: int) -> None:
        with closing(_connect(self._path, 10.0)) as conn:
            conn.execute(
                "insert into imap_places (mailbox, uidvalidity, last_uid) values (?, ?, ?) on conflict (mailbox)"
                " do update set uidvalidity = excluded.uidvalidity, last_uid = excluded.last_uid",
                (mailbox, validity, uid),
            )
