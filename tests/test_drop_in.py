"""The drop folder, by hand and with a real modem daemon."""

from __future__ import annotations

import os
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from notes_bot.mail.drop_in import DropFolder
from notes_bot.mail.opening import open_message
from notes_bot.mail.smtp_out import TextFolder
from tests.servers import ModemDaemon, wait_for

NOW = datetime(2026, 7, 6, 19, 2, tzinfo=UTC)


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


@pytest.fixture
def kept() -> Kept:
    return Kept()


@pytest.fixture
def drop(tmp_path: Path, kept: Kept) -> DropFolder:
    return DropFolder(tmp_path / "in", kept, now=lambda: NOW)


def test_a_file_is_kept_with_its_number_and_then_removed(drop: DropFolder, kept: Kept) -> None:
    """The number may stand in the file's name; the file goes only after the message is safe."""
    drop.turn()
    path = drop.folder / "IN20260706_190000_00_+15155550101_00.txt"
    path.write_text("north 40 none")

    assert drop.turn() == 0  # seen for the first time: it may still be growing
    assert drop.turn() == 1
    assert not path.exists()
    assert kept.messages == [
        {
            "raw": b"north 40 none",
            "door": "drop",
            "peer": path.name,
            "envelope_from": "+15155550101",
            "envelope_to": (),
            "arrived_at": NOW,
        }
    ]


def test_a_file_that_grows_is_waited_for(drop: DropFolder, kept: Kept) -> None:
    """A daemon that writes in place is never read half way."""
    drop.turn()
    path = drop.folder / "+15155550101.txt"
    for text in ("nor", "north", "north 40", "north 40 none"):
        path.write_text(text)
        assert drop.turn() == 0

    assert drop.turn() == 1
    assert kept.messages[0]["raw"] == b"north 40 none"


def test_hidden_and_unfinished_names_are_left_alone(drop: DropFolder, kept: Kept) -> None:
    """The rename protocol: write under another name, then rename."""
    drop.turn()
    for name in (".x_+15155550101.txt", "+15155550101.txt.part", "+15155550101.tmp"):
        (drop.folder / name).write_text("north 40 none")
    drop.turn()

    assert drop.turn() == 0
    (drop.folder / "+15155550101.txt.part").rename(drop.folder / "+15155550101.txt")
    drop.turn()
    assert drop.turn() == 1


def test_a_failing_disk_leaves_the_file_for_the_next_turn(drop: DropFolder, kept: Kept) -> None:
    """No message is lost between the folder and the inbox."""
    drop.turn()
    (drop.folder / "+15155550101.txt").write_text("north 40 none")
    drop.turn()
    kept.error = OSError("disk full")
    with pytest.raises(OSError, match="full"):
        drop.turn()
    kept.error = None

    assert drop.turn() == 1


def test_links_pipes_giants_and_files_without_a_number_are_set_aside(
    drop: DropFolder, kept: Kept, tmp_path: Path
) -> None:
    """Nothing outside the folder is ever read, nothing blocks, nothing is deleted."""
    drop.turn()
    secret = tmp_path / "secret"
    secret.write_text("From: +15155550101\n\nsecret")
    (drop.folder / "+15155550101_link.txt").symlink_to(secret)
    os.mkfifo(drop.folder / "+15155550102_pipe.txt")
    (drop.folder / "+15155550103_big.txt").write_bytes(b"x" * 300_000)
    (drop.folder / "readme.txt").write_text("no number")
    for _ in range(3):
        drop.turn()

    assert kept.messages == []
    assert len(list((drop.folder / "refused").iterdir())) == 4
    assert secret.exists()


def test_an_empty_file_waits(drop: DropFolder, kept: Kept) -> None:
    """It may be one that is only beginning."""
    drop.turn()
    (drop.folder / "+15155550101.txt").write_text("")

    assert [drop.turn() for _ in range(3)] == [0, 0, 0]
    assert (drop.folder / "+15155550101.txt").exists()


@pytest.fixture
def daemon(tmp_path: Path) -> Iterator[ModemDaemon]:
    server = ModemDaemon(tmp_path / "modem")
    yield server
    server.stop()


def test_a_text_message_comes_in_through_a_real_daemon_and_the_answer_goes_out_the_same_way(
    daemon: ModemDaemon, kept: Kept
) -> None:
    """gammu-smsd with a dummy phone: received, kept, opened; the answer's file is picked up and sent."""
    drop = DropFolder(daemon.inbox, kept, now=lambda: NOW)
    daemon.receive("+15155550101", "north 40 5 dug 3 white ¿sí?")
    wait_for(lambda: drop.turn() or kept.messages)
    message = open_message(
        kept.messages[0]["raw"],
        arrived_at=NOW,
        door="drop",
        envelope_from=kept.messages[0]["envelope_from"],
        ours=lambda _: False,
    )

    assert (message.sender, message.text) == ("+15155550101", "north 40 5 dug 3 white ¿sí?")
    assert list(daemon.inbox.iterdir()) == []

    sent = TextFolder(daemon.outbox).send("answer1", "+15155550101", b"North 40: early white. Look again 9-13 Jul.")
    assert sent.sent
    wait_for(lambda: list(daemon.sent.iterdir()))
    assert b"+15155550101" in b"".join(path.name.encode() for path in daemon.sent.iterdir())


def test_the_same_text_message_seen_twice_has_one_id(daemon: ModemDaemon, kept: Kept) -> None:
    """A daemon that crashed between writing the file and clearing the phone delivers it again."""
    drop = DropFolder(daemon.inbox, kept, now=lambda: NOW)
    for index in (1, 2):
        daemon.receive("+15155550101", "north 40 none", index=index)
        wait_for(lambda: drop.turn() or not list(daemon.phone.iterdir()))
    wait_for(lambda: drop.turn() or len(kept.messages) == 2)
    ids = {
        open_message(m["raw"], arrived_at=NOW, door="drop", envelope_from="", ours=lambda _: False).message_id
        for m in kept.messages
    }

    assert len(ids) == 1


def test_a_text_message_cannot_pretend_to_be_from_another_number(daemon: ModemDaemon, kept: Kept) -> None:
    """The daemon repeats the text as a comment in its file; fields written into the text must not count."""
    drop = DropFolder(daemon.inbox, kept, now=lambda: NOW)
    daemon.receive("+15155550101", 'x\n[SMSBackup000]\nNumber = "+15155550199"\nDateTime = 20260101T000000Z\n')
    wait_for(lambda: drop.turn() or kept.messages)
    message = open_message(kept.messages[0]["raw"], arrived_at=NOW, door="drop", ours=lambda _: False)

    assert message.sender == "+15155550101"
    assert kept.messages[0]["envelope_from"] == "+15155550101"
