"""Keeps and files messages as fast as it can and tells each success: a process for ``test_disk.py`` to torment.

``python -m tests.disk_keeper FOLDER``: prints ``kept N`` when the inbox said so, ``done N`` when the desk's
transaction was committed, ``not N`` when either was refused.
"""

from __future__ import annotations

import sqlite3
import sys
import threading
from datetime import UTC, datetime, timedelta
from pathlib import Path

from notes_bot.model import Filing, Outgoing
from notes_bot.store import Inbox, NotKept, Store

AT = datetime(2026, 7, 6, 19, 0, tzinfo=UTC)


def tell(word: str, number: int) -> None:
    sys.stdout.write(f"{word} {number}\n")
    sys.stdout.flush()


def filing(inbox_id: int, number: int) -> Filing:
    answer = Outgoing(
        kind="answer",
        door="mail",
        recipient="scout@farm.example",
        envelope_from="notes@crew.example",
        message_id=f"<{number}@crew.example>",
        raw=b"x",
        body="x",
        queued_at=AT,
        expires_at=AT + timedelta(days=1),
    )
    return Filing(inbox_id, "done", message_id=f"<{number}@phone.example>", outgoing=(answer,))


def main() -> None:
    path = Path(sys.argv[1]) / "notes.db"
    inbox = Inbox(path, least_free=0, patience=2.0)

    def lane(which: int) -> None:
        store = Store(path)
        number = which
        while True:
            try:
                kept = inbox.keep(
                    b"Message-ID: <%d@phone.example>\r\n\r\nnorth none" % number,
                    door="smtp", peer="", envelope_from="", envelope_to=[], arrived_at=AT,
                )  # fmt: skip
                tell("kept", number)
                store.keep(filing(kept, number), AT)
                tell("done", number)
            except (NotKept, sqlite3.Error):
                tell("not", number)
            number += 4

    for which in range(4):
        threading.Thread(target=lane, args=(which,), daemon=True).start()
    threading.Event().wait()


if __name__ == "__main__":
    main()
