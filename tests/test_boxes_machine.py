"""Inbox, records and outbox as a machine that crashes at any step: what was promised holds in every order of events."""

from __future__ import annotations

import os
import random
import shutil
import sqlite3
import tempfile
from contextlib import closing, suppress
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from notes_bot.mail.smtp_out import Sending
from notes_bot.model import Field, Filing, NewVisit, Note, Outgoing, Person
from notes_bot.store import Inbox, NotKept, Outbox, Queued, Store
from notes_bot.store import inbox as inbox_module

START = datetime(2026, 7, 6, 19, 0, tzinfo=UTC)


class Crash(BaseException):
    """The process dies here."""


DISK = st.sampled_from(["", "", "", "", "", "BEGIN", "SAVEPOINT", "insert", "RELEASE", "COMMIT"])
STEPS = st.one_of(st.just(0), st.integers(1, 120))
OUTCOME = st.sampled_from(["sent", "sent", "later", "down", "dies before", "dies after"])
EVENTS = st.one_of(
    st.tuples(st.just("clients_send"), st.integers(1, 4), DISK),
    st.tuples(st.just("the_desk_files_some"), st.integers(1, 6), STEPS, st.sampled_from([False, False, True])),
    st.tuples(st.just("the_outbox_takes_a_turn"), st.lists(OUTCOME, max_size=5)),
    st.tuples(st.just("a_supervisor_releases"), st.integers(1, 12)),
    st.tuples(st.just("time_passes_or_the_clock_is_set"), st.sampled_from([1, 10, 120, 3000, 3000, -600])),
    st.tuples(st.just("a_message_fails_in_the_desk"), st.integers(0, 3)),
)
"""One strategy for all: a machine with many rules switches most of them off in most of its runs."""


class Boxes(RuleBasedStateMachine):
    """Clients send, the desk files, the outbox sends; any of them may die at any statement, and all restart."""

    @initialize()
    def start(self) -> None:
        self.folder = Path(tempfile.mkdtemp(prefix="notes-bot-machine-"))
        self.path = self.folder / "notes.db"
        self.now = START
        self.sent_by_clients = 0
        self.fail_at: list[str] = []
        self.kept: dict[int, bytes] = {}
        self.delivered: dict[str, list[bytes]] = {}
        self.settled: set[str] = set()
        with closing(Store(self.path)) as store:
            store.adopt((Person(1, "scout", "scout", "crew", ("scout@farm.example",)),), (Field(1, "north", "crew"),))

    def teardown(self) -> None:
        if hasattr(self, "folder"):
            shutil.rmtree(self.folder)

    @rule(event=EVENTS)
    def happens(self, event: tuple[Any, ...]) -> None:
        name, *how = event
        getattr(self, name)(*how)

    # --- events ---

    def clients_send(self, count: int, fails: str) -> None:
        """Some messages; the disk may fail in a statement, and then nobody may have heard 250."""
        machine = self

        class Connection:
            def __init__(self, path: Path, patience: float) -> None:
                self.inner = inbox_module._connect(path, patience)

            def execute(self, sql: str, parameters: Any = ()) -> Any:
                if fails and sql.startswith(fails):
                    raise sqlite3.OperationalError("disk I/O error")
                return self.inner.execute(sql, parameters)

            def close(self) -> None:
                self.inner.close()

        inbox = Inbox(self.path, connect=Connection, least_free=0)
        for _ in range(count):
            self.sent_by_clients += 1
            raw = b"Message-ID: <%d@phone.example>\r\n\r\nnorth none\r\n" % self.sent_by_clients
            try:
                number = inbox.keep(raw, door="smtp", peer="", envelope_from="", envelope_to=[], arrived_at=machine.now)
            except NotKept:
                assert fails
            else:
                assert not fails
                self.kept[number] = raw
        inbox.close()

    def the_desk_files_some(self, most: int, steps: int, held: bool) -> None:
        """The effects of some messages; the process may die after any number of steps of the database."""
        left = [steps]
        with closing(Store(self.path)) as store, suppress(sqlite3.OperationalError):
            for kept in store.waiting(most):
                hold = held and kept.reason != "released"
                filing = Filing(
                    kept.id,
                    "held" if hold else "done",
                    message_id=f"<{kept.id}@phone.example>",
                    person_id=1,
                    visits=() if hold else (NewVisit(1, START.date(), Note(field="north", outcome="none_seen"), 1),),
                    outgoing=() if hold else (self._answer(kept.id),),
                )
                if steps:
                    store._db.conn.set_progress_handler(lambda: self._step(left), 10)
                store.keep(filing, self.now)

    @staticmethod
    def _step(left: list[int]) -> int:
        """Interrupts the running statement when the steps are used up: as good as dying there."""
        left[0] -= 1
        return 1 if left[0] <= 0 else 0

    def _answer(self, inbox_id: int) -> Outgoing:
        return Outgoing(
            kind="answer",
            door="mail",
            recipient="scout@farm.example",
            envelope_from="notes@crew.example",
            message_id=f"<answer-{inbox_id}@crew.example>",
            raw=b"answer %d" % inbox_id,
            body="x",
            queued_at=self.now,
            expires_at=self.now + timedelta(days=3650),
            person_id=1,
        )

    def the_outbox_takes_a_turn(self, outcomes: list[str]) -> None:
        """Messages leave, are put off, or the process dies before or after the other side took one."""
        left = iter(outcomes)

        def send(waiting: Queued) -> Sending:
            outcome = next(left, "sent")
            if outcome == "dies before":
                raise Crash
            if outcome in ("later", "down"):
                return Sending("later", way_down=outcome == "down")
            self.delivered.setdefault(waiting.message_id, []).append(waiting.raw)
            if outcome == "dies after":
                raise Crash
            self.settled.add(waiting.message_id)
            return Sending("sent")

        with closing(Outbox(self.path, chance=random.Random(1))) as outbox, suppress(Crash):
            outbox.turn(send, lambda: self.now)

    def a_supervisor_releases(self, number: int) -> None:
        with closing(Store(self.path)) as store:
            held = [m.number for m in store.held_messages()]
            waiting = store.waiting(1)
            if number in held and waiting:
                store.keep(Filing(waiting[0].id, "filed", released=(number,)), self.now)

    def time_passes_or_the_clock_is_set(self, minutes: int) -> None:
        self.now += timedelta(minutes=minutes)

    def a_message_fails_in_the_desk(self, often: int) -> None:
        if often:
            return
        with closing(Store(self.path)) as store:
            waiting = store.waiting(1)
            if waiting:
                store.stuck(waiting[0].id, "traceback", give_up=waiting[0].tries >= 1, at=self.now)

    # --- what must always be so ---

    @invariant()
    def nothing_kept_is_lost(self) -> None:
        if not hasattr(self, "path"):
            return
        with closing(sqlite3.connect(self.path)) as conn:
            rows = {number: bytes(raw) for number, raw in conn.execute("select id, raw from inbox")}
        for number, raw in self.kept.items():
            assert rows.get(number) == raw

    @invariant()
    def effects_are_whole_and_single(self) -> None:
        """A message is done exactly if it has its one visit and its one answer."""
        if not hasattr(self, "path"):
            return
        with closing(sqlite3.connect(self.path)) as conn:
            done = sorted(n for (n,) in conn.execute("select id from inbox where state = 'done'"))
            visits = sorted(n for (n,) in conn.execute("select inbox_id from visits"))
            answers = sorted(n for (n,) in conn.execute("select inbox_id from outbox"))
        assert done == visits == answers

    @invariant()
    def a_noted_sending_was_taken_and_repeats_are_the_same_bytes(self) -> None:
        if not hasattr(self, "path"):
            return
        with closing(sqlite3.connect(self.path)) as conn:
            sent = {m for (m,) in conn.execute("select message_id from outbox where state = 'sent'")}
        assert sent <= set(self.delivered)
        assert self.settled == sent
        for copies in self.delivered.values():
            assert len(set(copies)) == 1


Boxes.TestCase.settings = settings(
    max_examples=20, stateful_step_count=40, deadline=None, suppress_health_check=list(HealthCheck)
)
TestBoxes = Boxes.TestCase


@pytest.mark.heavy
def test_the_machine_for_much_longer() -> None:
    """The same with many more and longer histories."""
    from hypothesis.stateful import run_state_machine_as_test

    examples = 60 if os.environ.get("NOTES_BOT_PROOFS") == "small" else 250
    longer = settings(Boxes.TestCase.settings, max_examples=examples, stateful_step_count=60)
    run_state_machine_as_test(Boxes, settings=longer)
