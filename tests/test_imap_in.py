"""The mailbox reader against a real Dovecot: new mail, dead and silent servers, renumbered mailboxes."""

from __future__ import annotations

import contextlib
import os
import threading
import time
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from imapclient import IMAPClient

from notes_bot.mail.imap_in import Poller
from notes_bot.store import ImapPlaces, Inbox, NotKept, Store
from tests.servers import SIGKILL, SIGSTOP, Dovecot, wait_for

NOW = datetime(2030, 1, 1, tzinfo=UTC)


def note(number: int) -> bytes:
    return (
        f"Return-Path: <scout@farm.example>\r\nFrom: scout@farm.example\r\nTo: notes+abc@crew.example\r\n"
        f"Message-ID: <{number}@farm.example>\r\nSubject: {number}\r\n\r\nnorth {number} none\r\n"
    ).encode()


@pytest.fixture(scope="module")
def dovecot() -> Iterator[Dovecot]:
    server = Dovecot()
    yield server
    server.remove()


class Kept:
    """Remembers what it was given."""

    def __init__(self) -> None:
        self.messages: list[dict[str, Any]] = []
        self.error: Exception | None = None

    def __call__(self, raw: bytes, **how: Any) -> int:
        if self.error is not None:
            raise self.error
        self.messages.append({"raw": raw, **how})
        return len(self.messages)

    def subjects(self) -> list[str]:
        return [m["raw"].split(b"Subject: ")[1].split(b"\r\n")[0].decode() for m in self.messages]


@pytest.fixture
def kept() -> Kept:
    return Kept()


@pytest.fixture
def user(request: pytest.FixtureRequest) -> str:
    """A mailbox of its own for each test."""
    return "u" + str(abs(hash(request.node.name)) % 10**8)


@pytest.fixture
def poll(dovecot: Dovecot, kept: Kept, user: str, tmp_path: Path) -> Iterator[Callable[..., Poller]]:
    Inbox(tmp_path / "notes.db").close()
    made: list[Poller] = []

    def poller(**options: Any) -> Poller:
        made.append(
            Poller(
                kept,
                ImapPlaces(tmp_path / "notes.db"),
                host="127.0.0.1",
                port=dovecot.imap,
                user=user,
                password="secret",
                tls=False,
                now=lambda: NOW,
                **options,
            )
        )
        return made[-1]

    yield poller
    for one in made:
        one.close()


def mailbox(dovecot: Dovecot, user: str) -> IMAPClient:
    client = IMAPClient("127.0.0.1", dovecot.imap, ssl=False)
    client.login(user, "secret")
    return client


def test_new_mail_is_kept_once_with_its_envelope_and_marked_seen(
    dovecot: Dovecot, kept: Kept, poll: Callable[..., Poller], user: str
) -> None:
    """The time is the server's, the recipient comes from the headers, and a second turn finds nothing."""
    dovecot.deliver(note(1), user)
    dovecot.deliver(note(2), user)
    poller = poll()

    assert poller.fetch_new() == 2
    assert poller.fetch_new() == 0
    assert kept.subjects() == ["1", "2"]
    first = kept.messages[0]
    assert (first["door"], first["envelope_from"]) == ("imap", "scout@farm.example")
    assert "notes+abc@crew.example" in first["envelope_to"]
    assert first["arrived_at"].tzinfo is not None
    with mailbox(dovecot, user) as client:
        client.select_folder("INBOX")
        assert client.search("UNSEEN") == []


def test_what_was_kept_may_be_moved_to_a_folder_that_is_made_when_missing(
    dovecot: Dovecot, kept: Kept, poll: Callable[..., Poller], user: str
) -> None:
    """The inbox stays empty, the done folder fills."""
    dovecot.deliver(note(1), user)
    poll(done_mailbox="Done").fetch_new()

    with mailbox(dovecot, user) as client:
        assert client.select_folder("INBOX")[b"EXISTS"] == 0
        assert client.select_folder("Done")[b"EXISTS"] == 1


def test_nothing_is_marked_when_the_disk_fails_and_it_is_read_again(
    dovecot: Dovecot, kept: Kept, poll: Callable[..., Poller], user: str
) -> None:
    """The flag is set only after the commit."""
    dovecot.deliver(note(1), user)
    kept.error = NotKept("disk full")
    poller = poll()
    with pytest.raises(NotKept):
        poller.fetch_new()
    with mailbox(dovecot, user) as client:
        client.select_folder("INBOX")
        assert client.search("UNSEEN") == [1]
    kept.error = None

    assert poller.fetch_new() == 1


def test_old_mail_that_people_have_read_is_not_ours_at_the_first_start(
    dovecot: Dovecot, kept: Kept, poll: Callable[..., Poller], user: str
) -> None:
    """A mailbox with a history: only what is unseen, then what comes."""
    for number in (1, 2, 3):
        dovecot.deliver(note(number), user)
    with mailbox(dovecot, user) as client:
        client.select_folder("INBOX")
        client.add_flags([1, 3], [b"\\Seen"])
    poller = poll()
    poller.fetch_new()
    dovecot.deliver(note(4), user)
    poller.fetch_new()

    assert kept.subjects() == ["2", "4"]


def test_a_message_read_by_a_person_first_is_kept_all_the_same(
    dovecot: Dovecot, kept: Kept, poll: Callable[..., Poller], user: str
) -> None:
    """Work goes by UID, not by the seen flag."""
    poller = poll()
    poller.fetch_new()
    dovecot.deliver(note(1), user)
    with mailbox(dovecot, user) as client:
        client.select_folder("INBOX")
        client.add_flags([1], [b"\\Seen"])

    assert poller.fetch_new() == 1


def test_a_renumbered_mailbox_is_read_again_from_the_start(
    dovecot: Dovecot, kept: Kept, poll: Callable[..., Poller], user: str
) -> None:
    """UIDVALIDITY has changed (a restored mailbox): nothing is missed, what is known comes twice."""
    dovecot.deliver(note(1), user)
    poller = poll()
    poller.fetch_new()
    poller.close()
    maildir = dovecot.folder / "mail" / user
    for index in maildir.glob("dovecot*"):
        index.unlink()
    time.sleep(1.1)  # the new number is made from the time in seconds
    dovecot.deliver(note(2), user)
    for _ in range(15):  # a busy server may show what came within the same second on the next look only
        poller.fetch_new()
        if "2" in kept.subjects():
            break
        time.sleep(1.1)

    assert sorted(kept.subjects()) == ["1", "1", "2"]


def test_two_folders_are_read(dovecot: Dovecot, kept: Kept, poll: Callable[..., Poller], user: str) -> None:
    """A provider that files mail as junk does not hide a note."""
    with mailbox(dovecot, user) as client:
        client.create_folder("Junk")
        client.append("Junk", note(7))
    dovecot.deliver(note(8), user)
    poll(also=["Junk"]).fetch_new()

    assert sorted(kept.subjects()) == ["7", "8"]


def test_a_message_that_is_too_big_is_kept_in_part(
    dovecot: Dovecot, kept: Kept, poll: Callable[..., Poller], user: str
) -> None:
    """The start of it holds the text; the rest does not fill the memory."""
    dovecot.deliver(note(1) + b"x" * 70 + b"\r\n" * 5000, user)
    poll(most_bytes=1000).fetch_new()

    assert len(kept.messages[0]["raw"]) == 1000
    assert b"north 1 none" in kept.messages[0]["raw"]


def start(poller: Poller) -> tuple[threading.Thread, threading.Event]:
    stop = threading.Event()
    thread = threading.Thread(target=poller.run, args=(stop,))
    thread.start()
    return thread, stop


def test_mail_is_noticed_within_seconds_and_stopping_is_prompt(
    dovecot: Dovecot, kept: Kept, poll: Callable[..., Poller], user: str
) -> None:
    """IDLE: no polling interval to wait for."""
    thread, stop = start(poll())
    try:
        wait_for(lambda: dovecot.imap_processes())
        time.sleep(0.5)
        started = time.monotonic()
        dovecot.deliver(note(1), user)
        wait_for(lambda: kept.messages)
        assert time.monotonic() - started < 3
    finally:
        stop.set()
        thread.join(10)
    assert not thread.is_alive()


@pytest.mark.parametrize("how", [SIGKILL, pytest.param(SIGSTOP, marks=pytest.mark.heavy)])
def test_a_dead_or_silent_server_is_left_and_found_again(
    dovecot: Dovecot, kept: Kept, poll: Callable[..., Poller], user: str, how: int
) -> None:
    """Killed: the connection ends. Frozen: nothing comes any more, and only a time limit tells."""
    thread, stop = start(poll(first_wait=0.1, idle_seconds=2.0, read_seconds=2.0))
    frozen: list[int] = []
    try:
        wait_for(lambda: dovecot.imap_processes())
        time.sleep(0.5)
        cpu = time.process_time()
        frozen = dovecot.imap_processes()
        for process in frozen:
            os.kill(process, how)
        dovecot.deliver(note(1), user)
        wait_for(lambda: kept.messages, 20)
        assert time.process_time() - cpu < 2.0  # waiting, not spinning
    finally:
        stop.set()
        thread.join(20)
        for process in frozen:
            with contextlib.suppress(ProcessLookupError):
                os.kill(process, SIGKILL)
    assert not thread.is_alive()


def test_a_server_that_is_away_is_tried_again_until_it_is_back(
    dovecot: Dovecot, kept: Kept, poll: Callable[..., Poller], user: str
) -> None:
    """Each try a little later; the first mail after its return is kept."""
    dovecot.stop()
    thread, stop = start(poll(first_wait=0.05, longest_wait=0.3))
    try:
        time.sleep(0.5)
        assert thread.is_alive()
        dovecot.start()
        dovecot.deliver(note(1), user)
        wait_for(lambda: kept.messages)
    finally:
        stop.set()
        thread.join(20)


def test_a_message_by_two_ways_is_two_rows_with_one_id(dovecot: Dovecot, user: str, tmp_path: Path) -> None:
    """SMTP and IMAP both keep it; that they are one is seen by id and text when the desk opens them."""
    from notes_bot.mail.opening import open_message

    inbox = Inbox(tmp_path / "notes.db")
    inbox.keep(
        note(1), door="smtp", peer="127.0.0.1", envelope_from="scout@farm.example", envelope_to=[], arrived_at=NOW
    )
    dovecot.deliver(note(1), user)
    places = ImapPlaces(tmp_path / "notes.db")
    account: dict[str, Any] = {"host": "127.0.0.1", "port": dovecot.imap, "user": user, "password": "secret"}
    poller = Poller(inbox.keep, places, tls=False, now=lambda: NOW, **account)
    poller.fetch_new()
    poller.close()
    inbox.close()
    store = Store(tmp_path / "notes.db")
    opened = [
        open_message(k.raw, arrived_at=k.arrived_at, door=k.door, envelope_from=k.envelope_from, ours=lambda _: False)
        for k in store.waiting()
    ]
    store.close()

    assert len(opened) == 2
    assert len({(m.message_id, m.text, m.sender) for m in opened}) == 1
