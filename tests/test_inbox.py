"""The inbox: nothing is reported kept before it is safe, whatever breaks."""

from __future__ import annotations

import asyncio
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from notes_bot.store.inbox import Inbox, NotKept, _connect
from notes_bot.store.store import Store

ARRIVED = datetime(2026, 7, 6, 19, 2, 11, tzinfo=UTC)
HOW: dict[str, Any] = {
    "door": "smtp",
    "peer": "127.0.0.1",
    "envelope_from": "scout@farm.example",
    "envelope_to": ["notes@crew.example"],
    "arrived_at": ARRIVED,
}


@pytest.fixture
def inbox(tmp_path: Path) -> Iterator[Inbox]:
    made = Inbox(tmp_path / "notes.db")
    yield made
    made.close()


def test_a_kept_message_can_be_read_back_with_its_envelope(inbox: Inbox, tmp_path: Path) -> None:
    """Raw bytes and envelope are stored exactly as they came."""
    number = inbox.keep(b"Subject: x\r\n\r\nnorth 40 \xff\x00", **HOW)
    inbox.close()

    with closing(Store(tmp_path / "notes.db")) as store:
        kept = store.kept(number)

    assert kept is not None
    assert kept.raw == b"Subject: x\r\n\r\nnorth 40 \xff\x00"
    assert (kept.door, kept.peer, kept.envelope_from) == ("smtp", "127.0.0.1", "scout@farm.example")
    assert kept.envelope_to == ("notes@crew.example",)
    assert kept.arrived_at == ARRIVED
    assert kept.state == "waiting"


def test_messages_from_many_threads_all_get_their_own_number(inbox: Inbox, tmp_path: Path) -> None:
    """Group commit mixes up nobody's message."""
    numbers: dict[int, int] = {}

    def keep(which: int) -> None:
        for count in range(20):
            key = which * 100 + count
            numbers[key] = inbox.keep(str(key).encode(), **HOW)

    threads = [threading.Thread(target=keep, args=(which,)) for which in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    inbox.close()

    with closing(Store(tmp_path / "notes.db")) as store:
        found = {kept.id: kept.raw for kept in store.waiting(1000)}

    assert found == {number: str(key).encode() for key, number in numbers.items()}


def test_messages_that_wait_together_share_one_commit(tmp_path: Path) -> None:
    """While one commit runs the others gather, and then go together: fewer commits than messages."""
    commits: list[str] = []
    gate = threading.Event()

    class Counting:
        def __init__(self, path: Path, patience: float) -> None:
            self.inner = _connect(path, patience)

        def execute(self, sql: str, parameters: Any = ()) -> Any:
            if sql == "COMMIT":
                commits.append(sql)
                gate.wait(5)
            return self.inner.execute(sql, parameters)

        def close(self) -> None:
            self.inner.close()

    inbox = Inbox(tmp_path / "notes.db", connect=Counting)

    async def all_at_once() -> list[int]:
        tasks = [asyncio.create_task(inbox.keep_soon(b"%d" % n, **HOW)) for n in range(50)]
        await asyncio.sleep(0.05)
        gate.set()
        return await asyncio.gather(*tasks)

    numbers = asyncio.run(all_at_once())
    inbox.close()

    assert sorted(numbers) == list(range(1, 51))
    assert len(commits) <= 3


def test_a_full_disk_is_told_and_the_message_is_not_counted_as_kept(tmp_path: Path) -> None:
    """SQLite's own "full" error (forced by a page limit) becomes NotKept, and later mail is kept again."""
    limit = [12]

    def small(path: Path, patience: float) -> sqlite3.Connection:
        conn = sqlite3.connect(path, timeout=patience, isolation_level=None)
        conn.execute("PRAGMA journal_mode=WAL")
        pages = conn.execute("PRAGMA page_count").fetchone()[0]
        conn.execute(f"PRAGMA max_page_count={pages + limit[0]}")
        return conn

    inbox = Inbox(tmp_path / "notes.db", connect=small)
    first = inbox.keep(b"fits", **HOW)
    with pytest.raises(NotKept, match="full"):
        inbox.keep(b"x" * 200_000, **HOW)
    limit[0] = 1000
    second = inbox.keep(b"y" * 200_000, **HOW)
    inbox.close()

    with closing(Store(tmp_path / "notes.db")) as store:
        assert [kept.id for kept in store.waiting()] == [first, second]


def test_a_disk_that_is_nearly_full_takes_no_more_mail(tmp_path: Path) -> None:
    """Room is left for the records that follow from what was kept before."""
    free = [10**9]
    inbox = Inbox(tmp_path / "notes.db", least_free=10**6, free=lambda _: free[0])
    inbox.keep(b"one", **HOW)
    free[0] = 10**5

    with pytest.raises(NotKept, match="nearly full"):
        inbox.keep(b"two", **HOW)

    inbox.close()


@pytest.mark.parametrize("statement", ["BEGIN IMMEDIATE", "SAVEPOINT one", "insert into", "RELEASE one", "COMMIT"])
def test_an_input_output_error_at_any_step_keeps_nothing_and_heals(tmp_path: Path, statement: str) -> None:
    """Whichever statement the disk fails in, the sender hears "not kept" and the next message goes well."""
    failing = [False]

    class Failing:
        def __init__(self, path: Path, patience: float) -> None:
            self.inner = _connect(path, patience)

        def execute(self, sql: str, parameters: Any = ()) -> Any:
            if failing[0] and sql.startswith(statement):
                raise sqlite3.OperationalError("disk I/O error")
            return self.inner.execute(sql, parameters)

        def close(self) -> None:
            self.inner.close()

    inbox = Inbox(tmp_path / "notes.db", connect=Failing)
    inbox.keep(b"before", **HOW)
    failing[0] = True
    with pytest.raises(NotKept, match="disk I/O error"):
        inbox.keep(b"during", **HOW)
    failing[0] = False
    inbox.keep(b"after", **HOW)
    inbox.close()

    with closing(Store(tmp_path / "notes.db")) as store:
        assert [kept.raw for kept in store.waiting()] == [b"before", b"after"]


def test_a_locked_database_is_waited_for_and_then_told(tmp_path: Path) -> None:
    """Somebody else's transaction delays a message; if it lasts too long the sender must try again."""
    inbox = Inbox(tmp_path / "notes.db", patience=0.2)
    with closing(sqlite3.connect(tmp_path / "notes.db", isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(NotKept, match="locked"):
            inbox.keep(b"during", **HOW)
        other.execute("ROLLBACK")

    assert inbox.keep(b"after", **HOW) > 0
    inbox.close()


def test_a_row_that_cannot_be_written_does_not_take_its_neighbours_along(tmp_path: Path) -> None:
    """In one commit a poison row fails alone."""

    class Picky:
        def __init__(self, path: Path, patience: float) -> None:
            self.inner = _connect(path, patience)

        def execute(self, sql: str, parameters: Any = ()) -> Any:
            if parameters and parameters[5] == b"poison":
                raise sqlite3.DataError("string or blob too big")
            return self.inner.execute(sql, parameters)

        def close(self) -> None:
            self.inner.close()

    inbox = Inbox(tmp_path / "notes.db", connect=Picky)

    async def together() -> list[Any]:
        bodies = [b"a", b"poison", b"b"]
        return await asyncio.gather(*(inbox.keep_soon(body, **HOW) for body in bodies), return_exceptions=True)

    first, second, third = asyncio.run(together())
    inbox.close()

    assert isinstance(first, int)
    assert isinstance(second, NotKept)
    assert isinstance(third, int)


def test_mail_beyond_what_may_wait_is_refused_at_once(tmp_path: Path) -> None:
    """Memory is bounded: a slow disk turns new mail away instead of piling it up."""
    inbox = Inbox(tmp_path / "notes.db", most_waiting=10)

    with pytest.raises(NotKept, match="too much"):
        inbox.keep(b"more than ten bytes", **HOW)

    inbox.close()


def test_a_closed_inbox_keeps_what_waited_and_takes_nothing_new(tmp_path: Path) -> None:
    """Closing twice is harmless; what was accepted before is on the disk."""
    inbox = Inbox(tmp_path / "notes.db")
    inbox.keep(b"one", **HOW)
    inbox.close()
    inbox.close()

    with pytest.raises(NotKept):
        inbox.keep(b"two", **HOW)


def test_addresses_with_odd_characters_do_not_stop_a_message(inbox: Inbox, tmp_path: Path) -> None:
    """NUL and lone surrogates in an envelope are replaced; the message itself is untouched."""
    number = inbox.keep(b"x", **{**HOW, "envelope_from": "a\0b\udce9@x", "peer": "p" * 5000})
    inbox.close()

    with closing(Store(tmp_path / "notes.db")) as store:
        kept = store.kept(number)

    assert kept is not None
    assert kept.envelope_from == "ab?@x"
    assert len(kept.peer) == 1000


def test_whoever_waits_for_mail_is_woken(inbox: Inbox) -> None:
    """The event is set when something was kept."""
    assert not inbox.arrived.is_set()
    inbox.keep(b"x", **HOW)

    assert inbox.arrived.wait(1)


def test_many_big_messages_that_wait_are_read_a_few_at_a_time(inbox: Inbox, tmp_path: Path) -> None:
    """A backlog of pictures does not fill the memory; nothing is left out in the end."""
    for size in (10, 20_000_000, 20_000_000, 40_000_000, 10):
        inbox.keep(b"x" * size, **HOW)
    inbox.close()

    with closing(Store(tmp_path / "notes.db")) as store:
        assert [kept.id for kept in store.waiting()] == [1, 2]
        for done in (1, 2, 3):
            store._db.execute("update inbox set state = 'done' where id = ?", [done])
        assert [kept.id for kept in store.waiting()] == [4]
        assert [kept.id for kept in store.waiting(1)] == [4]
