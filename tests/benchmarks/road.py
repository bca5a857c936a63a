"""How fast the road is: notes taken a second, notes answered a second, and where the time goes.

Run ``python -m tests.benchmarks.road [NOTES]``. Ratios travel to other machines, absolute figures do not: the first
line gives a bare SQLite commit with full sync on the same disk, in the same run.
"""

from __future__ import annotations

import smtplib
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path
from threading import Thread

from notes_bot.language import read_note
from notes_bot.model import Field
from notes_bot.settings import MailIn, Service, Settings
from notes_bot.store import open_database
from tests.crew_kit import PEOPLE, SCOUT, US, Crew, noon

FIELDS = tuple(
    Field(n, f"Block {n}", "crew", latitude=42 + n / 500, longitude=-93.5, planted=date(2026, 5, 6))
    for n in range(1, 101)
)


def text(number: int) -> str:
    """A note for one of a hundred fields."""
    what = ("6 dug shovel 12 white 3 yellow, moist, V6", "5 pulled dry none seen", "8 dug: 3 0 7 2 5 0 1 4 mostly yel")
    return f"block {number % 100 + 1} {what[number % 3]}"


def _rate(count: int, deed: Callable[[int], object]) -> float:
    began = time.perf_counter()
    for number in range(count):
        deed(number)
    return count / (time.perf_counter() - began)


def main(notes: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        db = open_database(Path(folder) / "bare.db")
        db.conn.execute("create table t (x blob)")
        bare = _rate(notes, lambda _: (db.conn.execute("insert into t values (?)", [b"x" * 800]), db.conn.commit()))
        db.close()
        settings = Settings(
            service=Service(folder=Path(folder), address=US), mail_in=MailIn(port=0), people=PEOPLE, fields=FIELDS
        )
        crew = Crew(Path(folder), noon(7, 8), settings)
        crew.parts.listener.start()

        def send(share: int) -> None:
            with smtplib.SMTP("127.0.0.1", crew.parts.listener.port) as client:
                for number in range(share):
                    client.sendmail(
                        SCOUT,
                        [US],
                        f"From: {SCOUT}\r\nMessage-ID: <{share}-{number}@x.example>\r\n\r\n{text(number)}\r\n",
                    )

        began = time.perf_counter()
        senders = [Thread(target=send, args=(notes // 10 + n,)) for n in range(10)]
        for sender in senders:
            sender.start()
        for sender in senders:
            sender.join()
        taken = sum(notes // 10 + n for n in range(10))
        intake = taken / (time.perf_counter() - began)

        began, answered = time.perf_counter(), 0
        while answered < notes:
            crew.clock.walk_to(crew.clock.at + timedelta(hours=2))  # inside the limits a person has
            for kept in crew.parts.store.waiting(5):
                answered += crew.parts.desk.turn(kept) is not None
        desk = answered / (time.perf_counter() - began)
        reading = _rate(notes, lambda n: read_note(text(n), sent=noon(7, 8).date(), fields=[f.name for f in FIELDS]))
        crew.close()
    print(f"bare commits, full sync      {bare:8.0f} a second")
    print(f"taken over SMTP, 10 senders  {intake:8.0f} a second  ({intake / bare:.2f} of a bare commit)")
    print(f"read                         {reading:8.0f} a second")
    print(f"answered, start to end       {desk:8.1f} a second  (one desk)")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 300)
