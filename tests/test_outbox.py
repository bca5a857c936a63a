"""The outbox: the same bytes until sent, refused or too late; patience in between."""

from __future__ import annotations

import random
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


def mail(number: int, *, door: str = "mail", lives: timedelta = timedelta(days=1), to: str = "") -> Outgoing:
    return Outgoing(
        kind="answer",
        door=door,  # type: ignore[arg-type]
        recipient=to or f"scout{number}@farm.example",
        envelope_from="notes@crew.example",
        message_id=f"<{number}@crew.example>",
        raw=f"Message-ID: <{number}@crew.example>\r\n\r\n{number}".encode(),
        body=str(number),
        queued_at=START,
        expires_at=START + lives,
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
