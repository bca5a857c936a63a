"""The outbox: the same bytes until sent, refused or too late; patience in between."""

from __future__ import annotations

import random
import threading
import time
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from pathlib import Path

import pytest

from notes_bot.mail.smtp_out import Sending
from notes_bot.model import Outgoing
from notes_bot.store import Outbox, Queued, Store

START = datetime(2026, 7, 6, 19, 0, tzinfo=UTC)


class Clock:
    def __init__(self) -> None:
        self.at = START

    def __call__(self) -> datetime:
        return self.at

    def on(self, **by: float) -> None:
        self.at += timedelta(**by)


class Wire:
    """Remembers what was sent and answers as it is told."""

    def __init__(self) -> None:
        self.sent: list[Queued] = []
        self.tries = 0
        self.answer: Callable[[Queued], Sending] = lambda _: Sending("sent")

    def __call__(self, waiting: Queued) -> Sending:
        self.tries += 1
        result = self.answer(waiting)
        if result.sent:
            self.sent.append(waiting)
        return result


def mail(
    number: int,
    *,
    door: str = "mail",
    lives: timedelta = timedelta(days=1),
    to: str = "",
    kind: str = "answer",
    at: datetime = START,
) -> Outgoing:
    return Outgoing(
        kind=kind,  # type: ignore[arg-type]
        door=door,  # type: ignore[arg-type]
        recipient=to or f"scout{number}@farm.example",
        envelope_from="notes@crew.example",
        message_id=f"<{number}@crew.example>",
        raw=f"Message-ID: <{number}@crew.example>\r\n\r\n{number}".encode(),
        body=str(number),
        queued_at=at,
        expires_at=at + lives,
    )


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def wire() -> Wire:
    return Wire()


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    made = Store(tmp_path / "notes.db")
    yield made
    made.close()


@pytest.fixture
def outbox(tmp_path: Path, store: Store) -> Iterator[Outbox]:
    made = Outbox(tmp_path / "notes.db", chance=random.Random(1))
    yield made
    made.close()


def test_what_waits_is_sent_once_in_order(outbox: Outbox, store: Store, wire: Wire, clock: Clock) -> None:
    """And what was sent is not sent again."""
    store.keep_round([mail(1), mail(2), mail(3)], START)

    assert outbox.turn(wire, clock).sent == 3
    assert outbox.turn(wire, clock).sent == 0
    assert [waiting.message_id for waiting in wire.sent] == ["<1@crew.example>", "<2@crew.example>", "<3@crew.example>"]


def test_a_temporary_refusal_is_tried_again_with_growing_waits_and_the_same_bytes(
    outbox: Outbox, store: Store, wire: Wire, clock: Clock
) -> None:
    """30 s, 2, 5, 15, 30 minutes, then hourly, each give or take a fifth."""
    store.keep_round([mail(1, lives=timedelta(days=3))], START)
    seen: list[bytes] = []
    wire.answer = lambda waiting: (seen.append(waiting.raw), Sending("later", "451 try later"))[1]
    times: list[datetime] = []
    for _ in range(60 * 6 * 6):
        before = wire.tries
        outbox.turn(wire, clock)
        if wire.tries > before:
            times.append(clock.at)
        clock.on(seconds=10)
    gaps = [(b - a).total_seconds() for a, b in pairwise(times)]

    for gap, wanted in zip(gaps, [30, 120, 300, 900, 1800, 3600, 3600], strict=False):
        assert wanted * 0.8 - 10 <= gap <= wanted * 1.2 + 10
    assert len(set(seen)) == 1


def test_retries_of_many_messages_are_spread(outbox: Outbox) -> None:
    """They must not all come back in the same second."""
    waits = {outbox.wait_after(3).total_seconds() for _ in range(50)}

    assert len(waits) > 40
    assert all(240 <= wait <= 360 for wait in waits)


def test_a_permanent_refusal_ends_it_and_is_reported(outbox: Outbox, store: Store, wire: Wire, clock: Clock) -> None:
    """With whose fault it was; others go on."""
    store.keep_round([mail(1), mail(2)], START)
    wire.answer = lambda waiting: (
        Sending("never", "550 5.1.1 no such user", "5.1.1", "person")
        if waiting.recipient[5] == "1"
        else Sending("sent")
    )
    turn = outbox.turn(wire, clock)

    assert turn.sent == 1
    assert [(lost.recipient, lost.state, lost.status, lost.whose) for lost in turn.lost] == [
        ("scout1@farm.example", "failed", "5.1.1", "person")
    ]
    assert outbox.turn(wire, clock).lost == ()
    assert outbox.refusals("scout1@farm.example") == 1


def test_refusals_are_counted_from_the_last_success(outbox: Outbox, store: Store, wire: Wire, clock: Clock) -> None:
    """One good delivery clears an address."""
    for number, good in ((1, False), (2, True), (3, False), (4, False)):
        store.keep_round([mail(number, to="scout@farm.example")], START)
        wire.answer = lambda _, good=good: Sending("sent") if good else Sending("never", "550", "5.1.1", "person")  # type: ignore[misc]
        outbox.turn(wire, clock)

    assert outbox.refusals("scout@farm.example") == 2


def test_a_message_that_is_too_late_is_not_sent_any_more(
    outbox: Outbox, store: Store, wire: Wire, clock: Clock
) -> None:
    """A reminder whose window has passed would only confuse; it is reported as expired."""
    store.keep_round([mail(1, lives=timedelta(hours=1)), mail(2)], START)
    clock.on(hours=2)
    turn = outbox.turn(wire, clock)

    assert [lost.state for lost in turn.lost] == ["expired"]
    assert [waiting.message_id for waiting in wire.sent] == ["<2@crew.example>"]


def test_a_relay_that_is_down_is_not_asked_for_every_message_and_costs_none_a_try(
    outbox: Outbox, store: Store, wire: Wire, clock: Clock
) -> None:
    """One attempt, then a pause; when it is back all leave at once; another door stays open meanwhile."""
    store.keep_round([mail(number) for number in range(1, 51)] + [mail(99, door="text")], START)
    wire.answer = lambda waiting: (
        Sending("sent") if waiting.door == "text" else Sending("later", "connection refused", way_down=True)
    )
    turn = outbox.turn(wire, clock)
    assert (turn.sent, turn.down) == (1, ("mail",))
    assert wire.tries == 2
    outbox.turn(wire, clock)
    assert wire.tries == 2
    for _ in range(60 * 5):
        clock.on(minutes=1)
        outbox.turn(wire, clock)
    assert wire.tries < 2 + 40
    wire.answer = lambda _: Sending("sent")
    clock.on(minutes=20)

    turn = outbox.turn(wire, clock)

    assert (turn.sent, turn.down) == (50, ())
    assert all(waiting.tries == 0 for waiting in wire.sent)


def test_a_clock_set_back_does_not_stop_the_mail(outbox: Outbox, store: Store, wire: Wire, clock: Clock) -> None:
    """A next try that seems far off is tried now, and a pause of a relay does not last for a year."""
    store.keep_round([mail(1, lives=timedelta(days=900)), mail(2, door="text", lives=timedelta(days=900))], START)
    clock.on(days=400)
    wire.answer = lambda waiting: Sending("later", "x", way_down=waiting.door == "text")
    outbox.turn(wire, clock)
    clock.on(days=-400)
    wire.answer = lambda _: Sending("sent")

    assert outbox.turn(wire, clock).sent == 2


def test_a_crash_between_sending_and_noting_repeats_one_message_with_the_same_id(
    outbox: Outbox, store: Store, wire: Wire, clock: Clock, tmp_path: Path
) -> None:
    """The receiver can recognise the second copy."""
    store.keep_round([mail(1), mail(2)], START)

    class Crash(BaseException):
        pass

    def send(waiting: Queued) -> Sending:
        wire.sent.append(waiting)
        if len(wire.sent) == 1:
            raise Crash
        return Sending("sent")

    with pytest.raises(Crash):
        outbox.turn(send, clock)
    again = Outbox(tmp_path / "notes.db", chance=random.Random(2))
    again.turn(send, clock)
    again.close()

    assert [waiting.message_id[:2] for waiting in wire.sent] == ["<1", "<1", "<2"]
    assert wire.sent[0].raw == wire.sent[1].raw


def test_stopping_leaves_the_rest_for_the_next_start(outbox: Outbox, store: Store, wire: Wire, clock: Clock) -> None:
    """A turn ends between two messages."""
    store.keep_round([mail(1), mail(2), mail(3)], START)

    outbox.turn(wire, clock, stop=lambda: len(wire.sent) >= 1)

    assert len(wire.sent) == 1
    assert len(outbox.due(clock.at)) == 2
    assert outbox.next_try() == START


def test_no_more_leave_in_a_minute_than_the_relay_allows_not_even_over_a_restart(
    tmp_path: Path, store: Store, wire: Wire, clock: Clock
) -> None:
    """In any sixty seconds, however the minutes are cut; what was sent before a restart counts."""
    store.keep_round([mail(number) for number in range(100)], START)
    when: list[datetime] = []
    wire.answer = lambda _: (when.append(clock.at), Sending("sent"))[1]
    outbox = Outbox(tmp_path / "notes.db", chance=random.Random(1), most_a_minute=10)
    for second in range(60 * 12):
        outbox.turn(wire, clock)
        clock.on(seconds=1)
        if second % 97 == 0:
            outbox.close()
            outbox = Outbox(tmp_path / "notes.db", chance=random.Random(1), most_a_minute=10)
    outbox.close()

    assert len(when) == 100
    for first in when:
        assert sum(first <= at < first + timedelta(minutes=1) for at in when) <= 10
    assert when[-1] - when[0] <= timedelta(minutes=11)


def test_refusals_count_for_the_pace_too(tmp_path: Path, store: Store, wire: Wire, clock: Clock) -> None:
    """A relay that puts everything off (greylisting) is not hammered either."""
    store.keep_round([mail(number) for number in range(100)], START)
    wire.answer = lambda _: Sending("later", "451 greylisted")
    outbox = Outbox(tmp_path / "notes.db", chance=random.Random(1), most_a_minute=10)
    for _ in range(60):
        outbox.turn(wire, clock)
        clock.on(seconds=1)
    outbox.close()

    assert wire.tries == 10


def test_a_relay_that_was_away_for_days_gets_no_flood_and_fresh_answers_do_not_wait_behind_the_old(
    tmp_path: Path, store: Store, wire: Wire, clock: Clock
) -> None:
    """Three days' backlog leaves oldest first at the allowed pace; an answer of this minute leaves within it."""
    outbox = Outbox(tmp_path / "notes.db", chance=random.Random(1), at_once=2, most_a_minute=30)
    wire.answer = lambda _: Sending("later", "connection refused", way_down=True)
    tried: list[int] = []
    for block in range(12):  # of six hours
        at = clock.at
        kinds = ["answer", *["digest"] * 14]
        store.keep_round(
            [mail(block * 15 + n, kind=kind, lives=timedelta(days=9), at=at) for n, kind in enumerate(kinds)], at
        )
        before = wire.tries
        for _ in range(36):
            outbox.turn(wire, clock)
            clock.on(minutes=10)
        tried.append(wire.tries - before)
    assert max(tried[1:]) <= 36  # a try now and then, not one a message
    left: list[tuple[datetime, int]] = []
    wire.answer = lambda waiting: (
        left.append((clock.at, int(waiting.message_id[1:].partition("@")[0]))),
        Sending("sent"),
    )[1]
    back = clock.at
    fresh = 0
    for second in range(0, 60 * 30, 5):
        if second % 60 == 0:
            store.keep_round([mail(1000 + fresh, at=clock.at)], clock.at)
            fresh += 1
        outbox.turn(wire, clock)
        clock.on(seconds=5)
    outbox.close()
    old = [number for _, number in left if number < 1000]
    young = {number: at for at, number in left if number >= 1000}

    assert old == sorted(old)
    assert len(old) == 180
    assert wire.tries - sum(tried) == 180 + fresh
    assert left[0][0] - back <= timedelta(minutes=15)  # how long a door stays closed at most
    for number, at in young.items():
        asked = max(back + timedelta(seconds=60 * (number - 1000)), left[0][0])
        assert at - asked <= timedelta(seconds=75), number
    for at, _ in left:
        assert sum(at <= other < at + timedelta(minutes=1) for other, _ in left) <= 30


def test_as_many_are_under_way_at_once_as_allowed_and_each_is_noted(tmp_path: Path, store: Store, clock: Clock) -> None:
    """Three connections, never a fourth; a door that was down is tried by one message alone."""
    store.keep_round([mail(number) for number in range(12)], START)
    lock, now, most, sent = threading.Lock(), [0], [0], []
    down = [True]

    def send(waiting: Queued) -> Sending:
        with lock:
            now[0] += 1
            most[0] = max(most[0], now[0])
        time.sleep(0.03)
        with lock:
            now[0] -= 1
            if not down[0]:
                sent.append(waiting.id)
        return Sending("later", way_down=True) if down[0] else Sending("sent")

    outbox = Outbox(tmp_path / "notes.db", chance=random.Random(1), at_once=3)
    assert outbox.turn(send, clock).later <= 3
    clock.on(minutes=20)
    most[0] = 0
    assert outbox.turn(send, clock).later == 1
    assert most[0] == 1
    down[0] = False
    clock.on(minutes=20)
    turn = outbox.turn(send, clock)
    outbox.close()

    assert turn.sent == 12
    assert sorted(sent) == list(range(1, 13))
    assert most[0] == 3


def test_a_fault_in_one_attempt_does_not_lose_the_others_outcome(tmp_path: Path, store: Store, clock: Clock) -> None:
    """Else what was sent beside it would be sent again."""
    store.keep_round([mail(number) for number in range(3)], START)

    def send(waiting: Queued) -> Sending:
        if waiting.id == 1:
            raise RuntimeError("a bug")
        time.sleep(0.05)
        return Sending("sent")

    outbox = Outbox(tmp_path / "notes.db", chance=random.Random(1), at_once=3)
    with pytest.raises(RuntimeError):
        outbox.turn(send, clock)
    left = [waiting.id for waiting in outbox.due(clock.at)]
    outbox.close()

    assert left == [1]
