"""A mailbox read over IMAP: fetch what is new, keep it, and only then mark or move it.

Work goes by UID above the last one kept, together with the mailbox's UIDVALIDITY. A crash between keeping
and marking shows a message twice, which the desk recognises. Any doubt about the connection throws it away.
"""

from __future__ import annotations

import contextlib
import logging
import random
import re
import ssl
import threading
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Protocol

from imapclient import IMAPClient, SocketTimeout
from imapclient.exceptions import IMAPClientError

from notes_bot.mail.opening import ADDRESS, read_headers

log = logging.getLogger(__name__)

IDLE_SECONDS = 9 * 60.0
"""Servers and the boxes between drop an idle connection after 10 to 30 minutes."""
POLL_SECONDS = 60.0
"""Between looks where the server does not offer IDLE, and at mailboxes that are not watched."""
LOT = 20
MOST_BYTES = 10 * 1024 * 1024


class Places(Protocol):
    """Remembers how far each mailbox has been read; ``store.ImapPlaces`` is one."""

    def last(self, mailbox: str) -> tuple[int, int] | None:
        """UIDVALIDITY and last UID kept, or ``None`` for a mailbox never read."""
        ...

    def remember(self, mailbox: str, validity: int, uid: int) -> None: ...


class Broken(ConnectionError):
    """The server is there no more, or does not behave like one."""


@dataclass
class Poller:
    """Reads one account. ``keep`` is ``store.Inbox.keep``: it returns when the message is safe, or raises.

    ``mailbox`` is watched with IDLE; ``also`` are looked at now and then (a junk folder, say).
    ``done_mailbox`` takes what was kept; without it messages are marked seen. Belongs to one thread.
    """

    keep: Callable[..., int]
    places: Places
    host: str
    user: str
    password: str = field(repr=False)
    now: Callable[[], datetime]
    port: int = 993
    tls: bool = True
    mailbox: str = "INBOX"
    also: Sequence[str] = ()
    done_mailbox: str = ""
    context: ssl.SSLContext | None = None
    chance: random.Random = field(default_factory=random.Random)
    most_bytes: int = MOST_BYTES
    idle_seconds: float = IDLE_SECONDS
    poll_seconds: float = POLL_SECONDS
    read_seconds: float = 60.0
    first_wait: float = 1.0
    longest_wait: float = 300.0
    _client: IMAPClient | None = field(default=None, init=False, repr=False)

    def run(self, stop: threading.Event) -> None:
        """Read until ``stop`` is set; every trouble with server or disk is waited out, longer each time."""
        wait = self.first_wait
        while not stop.is_set():
            try:
                self.fetch_new()
                wait = self.first_wait
                self._watch(stop)
            except (IMAPClientError, OSError, ValueError) as error:
                log.warning("mailbox %s at %s: %s: %s", self.mailbox, self.host, type(error).__name__, error)
            except Exception as error:  # noqa: BLE001 - not kept: the message stays where it is and is read again
                log.warning("mailbox %s at %s: not kept: %s", self.mailbox, self.host, error)
            else:
                continue
            self.close()
            stop.wait(wait * self.chance.uniform(0.8, 1.2))
            wait = min(wait * 2, self.longest_wait)
        self.close()

    def fetch_new(self) -> int:
        """One turn over all mailboxes; gives the number of messages kept.

        Raises:
            IMAPClientError, OSError: the server; call :meth:`close` and try again later.
            Exception: whatever ``keep`` raises; the message was not marked and comes again.
        """
        client = self._connected()
        # The watched mailbox comes last, so that it is the one selected when IDLE starts.
        return sum(self._read(client, mailbox) for mailbox in (*self.also, self.mailbox))

    def close(self) -> None:
        """Leave politely if that works."""
        client, self._client = self._client, None
        if client is not None:
            with contextlib.suppress(IMAPClientError, OSError, ValueError):
                client.logout()
            with contextlib.suppress(IMAPClientError, OSError, ValueError):
                client.shutdown()

    # --- one turn ---

    def _connected(self) -> IMAPClient:
        if self._client is not None:
            return self._client
        client = IMAPClient(
            self.host,
            self.port,
            ssl=self.tls,
            ssl_context=(self.context or ssl.create_default_context()) if self.tls else None,
            timeout=SocketTimeout(connect=10, read=self.read_seconds),
        )
        try:
            client.normalise_times = False
            client.login(self.user, self.password)
            if self.done_mailbox and not client.folder_exists(self.done_mailbox):
                client.create_folder(self.done_mailbox)
        except BaseException:
            with contextlib.suppress(IMAPClientError, OSError, ValueError):
                client.shutdown()
            raise
        self._client = client
        return client

    def _read(self, client: IMAPClient, mailbox: str) -> int:
        name = f"{self.user}@{self.host}/{mailbox}"
        about = client.select_folder(mailbox)
        validity = int(about.get(b"UIDVALIDITY", 0))
        known = self.places.last(name)
        if known is None:
            # Never read: what people have read before is not for us.
            last, uids = 0, client.search("UNSEEN")
        elif known[0] != validity:
            # The numbers have been dealt anew: all is read again, and what is known is recognised.
            last, uids = 0, client.search("ALL")
        else:
            last = known[1]
            uids = [uid for uid in client.search(["UID", f"{last + 1}:*"]) if uid > last]
        count = 0
        for start in range(0, len(uids), LOT):
            for uid in sorted(uids)[start : start + LOT]:
                if self._take(client, mailbox, validity, uid):
                    count += 1
                last = max(last, uid)
                self.places.remember(name, validity, last)
                self._mark(client, uid)
        if known is None:
            last = max(last, int(about.get(b"UIDNEXT", 1)) - 1)
        if known is None or known[0] != validity:
            self.places.remember(name, validity, last)
        return count

    def _take(self, client: IMAPClient, mailbox: str, validity: int, uid: int) -> bool:
        """Fetch and keep one message; false when somebody deleted it in the meantime."""
        about = client.fetch([uid], ["RFC822.SIZE", "INTERNALDATE"]).get(uid)
        if about is None:
            return False
        size = int(about.get(b"RFC822.SIZE", 0))
        wanted = "BODY.PEEK[]" if size <= self.most_bytes else f"BODY.PEEK[]<0.{self.most_bytes}>"
        found = client.fetch([uid], [wanted]).get(uid, {})
        raw = next((value for key, value in found.items() if key.startswith(b"BODY[]")), None)
        if not isinstance(raw, bytes):
            return False
        arrived = about.get(b"INTERNALDATE")
        if not isinstance(arrived, datetime) or arrived.tzinfo is None or arrived > self.now():
            arrived = self.now()
        heads = read_headers(raw)
        self.keep(
            raw,
            door="imap",
            peer=f"{mailbox};UIDVALIDITY={validity};UID={uid}",
            envelope_from=heads.text("return-path").strip("<> ").lower(),
            envelope_to=_addressed_to(raw),
            arrived_at=arrived.astimezone(UTC),
        )
        return True

    def _mark(self, client: IMAPClient, uid: int) -> None:
        if not self.done_mailbox:
            client.add_flags([uid], [b"\\Seen"], silent=True)
        elif client.has_capability("MOVE"):
            client.move([uid], self.done_mailbox)
        else:
            client.copy([uid], self.done_mailbox)
            client.add_flags([uid], [b"\\Seen", b"\\Deleted"], silent=True)
            if client.has_capability("UIDPLUS"):
                client.uid_expunge([uid])

    # --- waiting for more ---

    def _watch(self, stop: threading.Event) -> None:
        client = self._connected()
        if not client.has_capability("IDLE"):
            stop.wait(self.poll_seconds)
            return
        step = 1.0
        limit = min(self.idle_seconds, self.poll_seconds if self.also else self.idle_seconds)
        client.idle()
        until = time.monotonic() + limit
        news = False
        while not news and not stop.is_set() and time.monotonic() < until:
            asked = time.monotonic()
            answers = client.idle_check(timeout=step)
            # A dead connection answers at once, with nothing, for ever.
            if not answers and time.monotonic() - asked < step / 2:
                raise Broken("the server has closed the connection")
            if any(isinstance(answer, tuple) and answer[:1] == (b"BYE",) for answer in answers):
                raise Broken("the server says goodbye")
            news = bool(answers)
        client.idle_done()


_TO_US = ("delivered-to", "x-original-to", "envelope-to", "to", "cc")


def _addressed_to(raw: bytes) -> list[str]:
    """Addresses the mail was delivered to, as far as its headers tell; for reply tokens."""
    heads = read_headers(raw)
    found: list[str] = []
    for name in _TO_US:
        for value in heads.all(name):
            found += [a.lower() for a in re.findall(ADDRESS.pattern, value[:4096].decode("ascii", "replace"))]
    return list(dict.fromkeys(found))[:20]
