"""Killed at any moment, nothing that was accepted is lost, doubled or left without its answer.

The real service runs as a process of its own; clients behave as mail servers do: they send again, with the
same Message-ID, until they hear 250.
"""

from __future__ import annotations

import collections
import os
import random
import re
import signal
import smtplib
import sqlite3
import subprocess
import sys
import threading
import time
from collections.abc import Sequence
from contextlib import closing
from email.utils import format_datetime
from pathlib import Path

import pytest

from notes_bot import clock
from tests.crash_service import FIELDS, PEOPLE, POINTS, field_name
from tests.servers import answers, free_port, wait_for

NOTES = int(os.environ.get("NOTES_BOT_CRASH_NOTES", "10000"))
KILLS = int(os.environ.get("NOTES_BOT_CRASH_KILLS", "50"))
RATE = float(os.environ.get("NOTES_BOT_CRASH_RATE", "15"))
"""Notes a second, all clients together: about what the desk can answer, so that kills meet every stage."""


class Victim:
    """The service, started again after each kill at the same port."""

    def __init__(self, folder: Path, *more: str) -> None:
        self.folder = folder
        self.port = free_port()
        self.more = more
        self.log = (folder / "log").open("ab")
        self.process: subprocess.Popen[bytes] | None = None

    def start(self, *, arm: bool = True) -> None:
        more = self.more if arm else ()
        command = [sys.executable, "-m", "tests.crash_service", str(self.folder), str(self.port), *more]
        self.process = subprocess.Popen(command, stdout=self.log, stderr=self.log)
        wait_for(lambda: answers(self.port) or self.ended(), 60)

    def ended(self) -> bool:
        assert self.process is not None
        return self.process.poll() is not None

    def kill(self) -> None:
        assert self.process is not None
        self.process.kill()
        self.process.wait()

    def finish(self, seconds: float) -> None:
        """Let it answer everything, then stop it politely."""
        wait_for(lambda: self.count("inbox", "waiting") == 0 and self.count("outbox", "waiting") == 0, seconds)
        assert self.process is not None
        self.process.send_signal(signal.SIGTERM)
        assert self.process.wait(60) == 0
        self.log.close()

    def count(self, table: str, state: str) -> int:
        with closing(sqlite3.connect(self.folder / "notes.db", timeout=30)) as conn:
            return int(conn.execute(f"select count(*) from {table} where state = ?", [state]).fetchone()[0])  # noqa: S608

    def all(self, sql: str) -> list[tuple]:  # type: ignore[type-arg]
        with closing(sqlite3.connect(self.folder / "notes.db", timeout=30)) as conn:
            return conn.execute(sql).fetchall()


def note(number: int) -> tuple[str, bytes]:
    sender = f"s{number % PEOPLE + 1}@crew.example"
    heads = f"From: {sender}\r\nTo: notes@crew.example\r\nDate: {format_datetime(clock.now())}\r\n"
    text = f"{field_name(number % FIELDS)}: dug 6, {number % 40} white"
    return sender, f"{heads}Message-ID: <{number}@phone.example>\r\n\r\n{text}\r\n".encode()


def send_all(
    port: int, numbers: Sequence[int], pause: float, accepted: set[int], tries: collections.Counter[int]
) -> None:
    """Like a mail server with a queue: in order, again and again until 250."""
    client: smtplib.SMTP | None = None
    for number in numbers:
        sender, raw = note(number)
        while True:
            try:
                if client is None:
                    client = smtplib.SMTP("127.0.0.1", port, timeout=20)
                tries[number] += 1
                client.sendmail(sender, ["notes@crew.example"], raw)
            except (OSError, smtplib.SMTPException):
                if client is not None:
                    client.close()
                client = None
                time.sleep(0.1)
            else:
                break
        accepted.add(number)
        time.sleep(pause)
    if client is not None:
        client.close()


def check(victim: Victim, accepted: set[int]) -> dict[str, int]:
    """Count what was lost, doubled or left unanswered."""
    rows = victim.all("select id, raw, state, reason from inbox")
    done: collections.Counter[int] = collections.Counter()
    there: set[int] = set()
    repeats = 0
    for _, raw, state, reason in rows:
        found = re.search(rb"Message-ID: <(\d+)@", raw)
        assert found
        there.add(int(found[1]))
        if state == "done":
            done[int(found[1])] += 1
        else:
            assert state == "filed" and reason.startswith("repeat"), (state, reason)
            repeats += 1
    visits = collections.Counter(inbox_id for (inbox_id,) in victim.all("select inbox_id from visits"))
    answered: collections.Counter[str] = collections.Counter()
    files = list((victim.folder / "outbox").glob("answer-*.eml"))
    for path in files:
        found = re.search(rb"(?m)^In-Reply-To:\s*<(\d+)@", path.read_bytes())
        assert found
        answered[found[1].decode()] += 1
    return {
        "accepted": len(accepted),
        "lost": len(accepted - there),
        "not done": len(accepted - set(done)),
        "done twice": sum(count > 1 for count in done.values()),
        "visits": sum(visits.values()),
        "visits doubled": sum(count > 1 for count in visits.values()),
        "answers": len(files),
        "unanswered": sum(str(number) not in answered for number in accepted),
        "answered twice": sum(count > 1 for count in answered.values()),
        "repeats recognised": repeats,
    }


def tell(capsys: pytest.CaptureFixture[str], line: str) -> None:
    """Figures are for people: past the capture, to the terminal."""
    with capsys.disabled():
        sys.stdout.write(f"\n{line}\n")


GOOD = ("lost", "not done", "done twice", "visits doubled", "unanswered", "answered twice")


@pytest.mark.heavy
def test_notes_survive_a_service_that_is_killed_again_and_again(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Thousands of notes from many connections, dozens of kills at random moments; figures are printed."""
    chance = random.Random(20260706)
    victim = Victim(tmp_path)
    victim.start()
    accepted: set[int] = set()
    tries: collections.Counter[int] = collections.Counter()
    lanes = 8
    threads = [
        threading.Thread(target=send_all, args=(victim.port, range(lane, NOTES, lanes), lanes / RATE, accepted, tries))
        for lane in range(lanes)
    ]
    started = time.monotonic()
    for thread in threads:
        thread.start()
    kills = 0
    life = 1.6 * NOTES / RATE / max(KILLS, 1)
    # Kills go on while notes come in, and after that until there were enough.
    while any(thread.is_alive() for thread in threads) or kills < KILLS:
        time.sleep(chance.uniform(0.02, life))
        victim.kill()
        kills += 1
        victim.start()
    for thread in threads:
        thread.join()
    victim.finish(3600)
    found = check(victim, accepted)
    tell(
        capsys,
        f"{NOTES} notes, {kills} kills, {sum(tries.values())} transmissions,"
        f" {time.monotonic() - started:.0f} s: {found}",
    )

    assert {name: found[name] for name in GOOD} == dict.fromkeys(GOOD, 0)
    assert found["accepted"] == found["visits"] == NOTES
    assert kills >= KILLS


@pytest.mark.heavy
@pytest.mark.parametrize("point", POINTS)
def test_a_kill_at_each_point_of_the_road_neither_loses_nor_doubles(tmp_path: Path, point: str) -> None:
    """Before and after the commit, before and after the desk's transaction, between sending and noting it."""
    victim = Victim(tmp_path, point)
    victim.start()
    accepted: set[int] = set()
    thread = threading.Thread(target=send_all, args=(victim.port, range(5), 0.0, accepted, collections.Counter()))
    thread.start()
    wait_for(victim.ended, 60)
    victim.start(arm=False)
    thread.join()
    victim.finish(60)
    found = check(victim, accepted)

    assert {name: found[name] for name in GOOD} == dict.fromkeys(GOOD, 0)
    assert found["visits"] == 5
    assert found["repeats recognised"] == (1 if point == "after commit" else 0)
