"""The real service as a process that tests kill: ``python -m tests.crash_service FOLDER PORT [POINT]``.

Everything is as in ``notes-bot serve`` but two things: the limit on answers to everybody in an hour is lifted
(a test sends a season's mail in minutes), and with ``POINT`` the process kills itself at that point, once,
when it first gets there (a file in the folder remembers that it has been).
"""

from __future__ import annotations

import os
import signal
import sys
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

from notes_bot import clock
from notes_bot.mail import manners, smtp_in
from notes_bot.model import Field, Person
from notes_bot.service import Service
from notes_bot.settings import MailIn, Settings
from notes_bot.settings import Service as Names
from notes_bot.store import inbox, outbox, store

PEOPLE, FIELDS = 600, 900
POINTS = ("before commit", "after commit", "in the desk", "after the desk", "before noting a sending")


def field_name(number: int) -> str:
    """Names far enough apart that none is taken for a slip of another."""
    words = ("kestrel", "harrow", "cedar", "willow", "quarry", "meadow", "timber", "juniper", "orchard", "badger")
    return f"{words[number % 10]} {words[number // 10 % 10]} {number // 100 + 1}"


def settings(folder: Path, port: int) -> Settings:
    return Settings(
        service=Names(folder=folder, address="notes@crew.example"),
        mail_in=MailIn(port=port),
        people=tuple(Person(n, f"scout {n}", "scout", "crew", (f"s{n}@crew.example",)) for n in range(1, PEOPLE + 1)),
        fields=tuple(Field(n, field_name(n - 1), "crew") for n in range(1, FIELDS + 1)),
    )


def _die(folder: Path, point: str) -> None:
    mark = folder / f"been {point}"
    if not mark.exists():
        mark.write_text("x")
        os.kill(os.getpid(), signal.SIGKILL)


def _wrap(
    owner: Any, name: str, before: Callable[[], None] | None = None, after: Callable[[], None] | None = None
) -> None:
    real = getattr(owner, name)

    def wrapped(*args: Any, **how: Any) -> Any:
        if before is not None:
            before()
        made = real(*args, **how)
        if after is not None:
            after()
        return made

    setattr(owner, name, wrapped)


def arm(folder: Path, point: str) -> None:
    """Make the process die at a point of the road."""

    def die() -> None:
        _die(folder, point)

    if point == "before commit":
        real = inbox._connect

        class Dying:
            def __init__(self, path: Path, patience: float) -> None:
                self.inner = real(path, patience)

            def execute(self, sql: str, parameters: Any = ()) -> Any:
                if sql == "COMMIT":
                    die()
                return self.inner.execute(sql, parameters)

            def close(self) -> None:
                self.inner.close()

        inbox._connect = Dying  # type: ignore[assignment]
    elif point == "after commit":
        _wrap(inbox, "_tell", before=die)
    elif point == "in the desk":
        _wrap(store.Store, "keep", before=die)
    elif point == "after the desk":
        _wrap(store.Store, "keep", after=die)
    elif point == "before noting a sending":
        _wrap(outbox.Outbox, "_settle", before=die)


def _say(line: str) -> None:
    sys.stderr.write(line + "\n")


def main() -> None:
    folder, port = Path(sys.argv[1]), int(sys.argv[2])
    manners.MOST_OF_ALL_AN_HOUR = 10**9
    smtp_in.COMMANDS["MAIL"] = smtp_in.COMMANDS["DATA"] = 10**6
    if len(sys.argv) > 3:
        arm(folder, sys.argv[3])
    stop = threading.Event()
    signal.signal(signal.SIGTERM, lambda *_: stop.set())
    service = Service(settings(folder, port), clock.now, _say)
    service.start()
    while not stop.wait(0.2) and not service.trouble:
        pass
    service.stop()
    sys.exit(1 if service.trouble else 0)


if __name__ == "__main__":
    main()
