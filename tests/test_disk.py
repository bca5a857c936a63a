"""Disks that fill up, fail to sync, or lose their power: what was said to be kept is there, the rest was refused.

A small library put in front of the system's makes the faults; SQLite and the service know nothing of it.
"""

from __future__ import annotations

import os
import random
import shutil
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import pytest

from tests.servers import end, wait_for


@pytest.fixture(scope="module")
def library(tmp_path_factory: pytest.TempPathFactory) -> Path:
    compiler = shutil.which("gcc") or shutil.which("cc")
    if compiler is None or sys.platform != "linux":
        pytest.skip("no C compiler (apt-get install gcc)")
    made = tmp_path_factory.mktemp("disk") / "faulty_disk.so"
    source = Path(__file__).parent / "faulty_disk.c"
    subprocess.run([compiler, "-O1", "-shared", "-fPIC", "-o", str(made), str(source), "-ldl", "-pthread"], check=True)
    return made


class Keeper:
    """The tormented process and what it said."""

    def __init__(self, library: Path, folder: Path, *, remember: bool = False) -> None:
        self.disk, self.control = folder / "disk", folder / "control"
        self.disk.mkdir()
        self.control.mkdir()
        if remember:  # from the first byte: a sync before it would be missing from what the power cut leaves
            self.fault("remember")
        self.said = folder / "said"
        environment = os.environ | {
            "LD_PRELOAD": str(library), "FAULTY_DISK": str(self.disk), "FAULTY_CONTROL": str(self.control),
        }  # fmt: skip
        with self.said.open("wb") as out:
            self.process = subprocess.Popen(
                [sys.executable, "-m", "tests.disk_keeper", str(self.disk)], env=environment, stdout=out
            )

    def words(self) -> list[tuple[str, int]]:
        lines = self.said.read_text().split("\n")[:-1]
        return [(word, int(number)) for word, number in (line.split() for line in lines)]

    def count(self, word: str) -> int:
        return sum(said == word for said, _ in self.words())

    def fault(self, name: str, *, on: bool = True) -> None:
        if on:
            (self.control / name).touch()
        else:
            (self.control / name).unlink()


@pytest.fixture
def keep(library: Path, tmp_path: Path) -> Iterator[Callable[..., Keeper]]:
    started: list[Keeper] = []

    def start(*, remember: bool = False) -> Keeper:
        folder = tmp_path / str(len(started))
        folder.mkdir()
        started.append(Keeper(library, folder, remember=remember))
        return started[-1]

    yield start
    for keeper in started:
        end(keeper.process)


def there(database: Path) -> tuple[set[int], set[int], set[int]]:
    """Numbers in the inbox, those filed as done, those with an answer in the outbox; after a check of the file."""
    with closing(sqlite3.connect(database)) as conn:
        assert conn.execute("pragma integrity_check").fetchone() == ("ok",)
        inbox = conn.execute("select raw, state from inbox").fetchall()
        outbox = [message_id for (message_id,) in conn.execute("select message_id from outbox")]
    number = [int(bytes(raw).split(b"<")[1].split(b"@")[0]) for raw, _ in inbox]
    done = {n for n, (_, state) in zip(number, inbox, strict=True) if state == "done"}
    assert len(number) == len(set(number))
    return set(number), done, {int(message_id[1:].split("@")[0]) for message_id in outbox}


def agree(keeper: Keeper, database: Path) -> None:
    """All that was said is so, and effects are whole: an answer exactly for what is done."""
    inbox, done, answered = there(database)
    said = keeper.words()

    assert {n for word, n in said if word == "kept"} <= inbox
    assert {n for word, n in said if word == "done"} <= done
    assert done == answered


@pytest.mark.parametrize("fault", ["sync_fails", "full"])
def test_a_failing_or_full_disk_refuses_messages_and_heals(keep: Callable[..., Keeper], fault: str) -> None:
    """While it fails nothing is said to be kept; afterwards all goes on, and the file is sound."""
    keeper = keep()
    wait_for(lambda: keeper.count("done") > 20)
    for _ in range(2):
        keeper.fault(fault)
        time.sleep(0.05)  # what was under way when the fault began may still succeed
        kept, refused = keeper.count("kept"), keeper.count("not")
        wait_for(lambda refused=refused: keeper.count("not") > refused + 20)
        assert keeper.count("kept") == kept
        keeper.fault(fault, on=False)
        done = keeper.count("done")
        wait_for(lambda done=done: keeper.count("done") > done + 20)
    end(keeper.process)

    agree(keeper, keeper.disk / "notes.db")


def power_cut(keeper: Keeper, folder: Path, chance: random.Random | None) -> Path:
    """The files as a power cut may leave them: what was synced, and perhaps some of what was not, torn."""
    folder.mkdir()
    for name in ("notes.db", "notes.db-wal"):
        synced = keeper.control / f"{name}.synced"
        surely = synced.read_bytes() if synced.exists() else b""
        if chance is not None:
            now = (keeper.disk / name).read_bytes() if (keeper.disk / name).exists() else b""
            if len(now) > len(surely) and name.endswith("-wal"):
                tail = bytearray(now[len(surely) : chance.randint(len(surely), len(now))])
                for _ in range(chance.randint(0, 3)):
                    if tail:
                        tail[chance.randrange(len(tail))] ^= 0xFF
                surely += bytes(tail)
        (folder / name).write_bytes(surely)
    return folder / "notes.db"


@pytest.mark.parametrize("torn", [False, True])
def test_a_power_cut_takes_nothing_that_was_said_to_be_kept(
    keep: Callable[..., Keeper], tmp_path: Path, torn: bool
) -> None:
    """Only synced bytes survive (or those and a torn piece more): every kept and every done message is there."""
    chance = random.Random(7)
    keeper = keep(remember=True)
    wait_for(lambda: keeper.count("done") > 60)
    time.sleep(chance.uniform(0, 0.5))
    keeper.process.kill()
    keeper.process.wait()

    agree(keeper, power_cut(keeper, tmp_path / "after", chance if torn else None))


@pytest.mark.heavy
def test_many_power_cuts_take_nothing(library: Path, tmp_path: Path) -> None:
    """The same at forty random moments, torn in random ways."""
    for seed in range(4 if os.environ.get("NOTES_BOT_PROOFS") == "small" else 40):
        chance = random.Random(seed)
        folder = tmp_path / str(seed)
        folder.mkdir()
        keeper = Keeper(library, folder, remember=True)
        wait_for(lambda keeper=keeper: keeper.count("done") > 10)
        time.sleep(chance.uniform(0, 2.0))
        keeper.process.kill()
        keeper.process.wait()
        agree(keeper, power_cut(keeper, folder / "after", chance if seed % 2 else None))
        shutil.rmtree(folder)


def test_the_disk_is_synced_before_each_250(tmp_path: Path) -> None:
    """Seen from outside, by the system calls: between two 250s that end a message lies a sync of the log."""
    import smtplib

    from tests.servers import free_port

    if shutil.which("strace") is None:
        pytest.skip("strace is not installed (apt-get install strace)")
    port = free_port()
    script = (
        "import sys, threading, datetime\n"
        "from notes_bot.store import Inbox\nfrom notes_bot.mail.smtp_in import Listener\n"
        f"inbox = Inbox({str(tmp_path / 'notes.db')!r})\n"
        "now = lambda: datetime.datetime(2026, 7, 6, tzinfo=datetime.timezone.utc)\n"
        f"Listener(inbox.keep_soon, domains=['crew.example'], now=now, port={port}).start()\n"
        "threading.Event().wait()\n"
    )
    trace = tmp_path / "trace"
    command = ["strace", "-f", "-qq", "-e", "trace=fdatasync,fsync,sendto,write", "-s", "40", "-o", str(trace)]
    process = subprocess.Popen([*command, sys.executable, "-c", script], start_new_session=True)

    def up() -> bool:
        try:
            smtplib.SMTP("127.0.0.1", port, timeout=5).quit()
        except OSError:
            return False
        return True

    try:
        wait_for(up, 60)
        with smtplib.SMTP("127.0.0.1", port) as client:
            for _ in range(5):
                client.sendmail("a@b.example", ["notes@crew.example"], b"Subject: x\r\n\r\ny\r\n")
    finally:
        os.killpg(process.pid, signal.SIGKILL)  # the traced program too
        process.wait()
    events = []
    for line in trace.read_text().split("\n"):
        if ("sync(" in line and line.endswith("= 0")) or "sync resumed" in line:
            events.append("sync")
        elif "250 2.0.0 Kept" in line:
            events.append("250")

    assert events.count("250") == 5
    assert "250 250" not in " ".join(events)
    assert events.index("sync") < events.index("250")
