"""The SMTP listener: takes mail for our domain, keeps it, and only then says 250.

Built on aiosmtpd with everything bounded: connections in all and from one peer, commands, recipients, sizes,
bytes in flight, time. A reply that starts with 4 means that the sender must keep the message and try again;
5 is said only of what can never succeed. Line ends follow RFC 5321: only CRLF ``.`` CRLF ends a message.
"""

# ruff: noqa: ARG002, N802 - aiosmtpd fixes the hooks' names and arguments

from __future__ import annotations

import asyncio
import collections
import logging
import re
import ssl
import threading
from collections.abc import Callable, Collection, Mapping, Sequence
from contextlib import suppress
from datetime import datetime
from typing import Any, Protocol, cast

from aiosmtpd.smtp import SMTP, AuthResult, Envelope, LoginPassword, Session

from notes_bot.mail.passwords import Logins

log = logging.getLogger(__name__)

ADDRESS = re.compile(r"[A-Za-z0-9.!#$%&'*+/=?^_`{|}~-]{1,64}@[A-Za-z0-9-]{1,63}(?:\.[A-Za-z0-9-]{1,63})*")
"""Addresses that may stand in an envelope here: plain ASCII, no quoted local part, no address literal."""

UTF8_ADDRESS = re.compile(
    r"[^\s\x00-\x20\"(),:;<>@\[\]\\\x7f-\xa0\ud800-\udfff]{1,64}@[^\s@<>\x00-\x2c\x7f-\xa0\ud800-\udfff]{1,250}"
)
"""The same where SMTPUTF8 (RFC 6531) is spoken."""

_PATH = re.compile(r"\s*(?:<(?P<angle>[^<>\s]*)>|(?P<bare>[^<>\s]+))(?P<rest>(?:\s.*)?)")

COMMANDS = {
    "*": 20,
    "NOOP": 10,
    "RSET": 200,
    "MAIL": 1000,
    "RCPT": 2000,
    "DATA": 1000,
    "EHLO": 10,
    "HELO": 10,
    "AUTH": 3,
    "STARTTLS": 2,
    "QUIT": 2,
}
"""How often one connection may give each command."""

NOT_NOW = "451 4.3.0 Cannot keep the message now, please try again later"


class Keep(Protocol):
    """Keeps a message durably or raises; ``store.Inbox.keep_soon`` is one."""

    async def __call__(
        self,
        raw: bytes,
        *,
        door: str,
        peer: str,
        envelope_from: str,
        envelope_to: Sequence[str],
        arrived_at: datetime,
    ) -> int: ...


class Listener:
    """Listens in a thread and an event loop of its own between :meth:`start` and :meth:`stop`.

    ``domains`` are those we take mail for. ``port`` 0 takes a free port; :attr:`port` then tells which.
    ``takes`` may refuse single recipients (``550``); without it every address of our domains is taken.
    ``accounts`` turns AUTH on (user name -> hashed password, see ``mail.passwords``), offered over TLS only;
    with ``require_login`` nothing is taken without it. Who logged in stands behind the peer's address, as
    ``192.0.2.1 login=name``.
    ``utf8_addresses`` offers SMTPUTF8: only for a relay that does too, or answers to such senders cannot leave.
    """

    def __init__(
        self,
        keep: Keep,
        *,
        domains: Collection[str],
        now: Callable[[], datetime],
        host: str = "127.0.0.1",
        port: int = 0,
        hostname: str = "",
        takes: Callable[[str], bool] | None = None,
        tls: ssl.SSLContext | None = None,
        require_tls: bool = False,
        accounts: Mapping[str, str] | None = None,
        require_login: bool = True,
        utf8_addresses: bool = False,
        most_bytes: int = 10 * 1024 * 1024,
        most_recipients: int = 20,
        most_connections: int = 100,
        most_per_peer: int = 50,
        most_bytes_in_flight: int = 128 * 1024 * 1024,
        idle_seconds: float = 300.0,
        patience: float = 30.0,
    ) -> None:
        self._host = host
        self._wanted_port = port
        self._idle_seconds = idle_seconds
        self._patience = patience
        self._thread: threading.Thread | None = None
        self._loop: asyncio.AbstractEventLoop | None = None
        self._stopping: asyncio.Event | None = None
        self._started = threading.Event()
        self._trouble: BaseException | None = None
        self._lock = threading.Lock()
        self.port = 0
        self.limits = _Limits(most_connections, most_per_peer, most_bytes, most_bytes_in_flight)
        self._hook = _Hook(keep, frozenset(d.lower() for d in domains), now, takes, most_recipients, utf8_addresses)
        self._options: dict[str, Any] = {
            "data_size_limit": most_bytes,
            "enable_SMTPUTF8": utf8_addresses,
            "hostname": hostname or min(domains, default="localhost"),
            "ident": "ready",
            "tls_context": tls,
            "require_starttls": require_tls and tls is not None,
            "timeout": idle_seconds,
            "command_call_limit": dict(COMMANDS),
        }
        self._hook.offers_login = bool(accounts)
        if accounts:
            self._options |= {
                "authenticator": _Authenticator(Logins(accounts, now)),
                "auth_required": require_login,
                "auth_require_tls": True,
            }

    def start(self) -> None:
        """Listen; returns when the port is open.

        Raises:
            OSError: the port cannot be had.
        """
        self._thread = threading.Thread(target=self._run, name="smtp listener", daemon=True)
        self._thread.start()
        self._started.wait()
        if self._trouble is not None:
            self._thread.join()
            raise self._trouble

    def stop(self) -> None:
        """Close the door: idle clients hear 421, those in the middle of a message may finish it. Twice is harmless."""
        with self._lock:
            thread, self._thread = self._thread, None
        if thread is None or self._loop is None or self._stopping is None:
            return
        with suppress(RuntimeError):  # the loop may be closed already
            self._loop.call_soon_threadsafe(self._stopping.set)
        thread.join()

    def _run(self) -> None:
        try:
            asyncio.run(self._serve())
        except BaseException as error:
            if not self._started.is_set():
                self._trouble = error
                self._started.set()
            else:
                log.exception("the SMTP listener ended")

    async def _serve(self) -> None:
        self._loop = loop = asyncio.get_running_loop()
        self._stopping = asyncio.Event()
        open_now: set[_Session] = set()

        def session() -> _Session:
            return _Session(self._hook, open_now, self.limits, loop, self._options)

        server = await loop.create_server(session, self._host, self._wanted_port, backlog=256)
        self.port = server.sockets[0].getsockname()[1]
        self._started.set()
        await self._stopping.wait()
        server.close()
        for connection in list(open_now):
            connection.say_goodbye()
        deadline = loop.time() + self._patience
        while open_now and loop.time() < deadline:
            await asyncio.sleep(0.02)
        for connection in list(open_now):
            connection.drop()
        await server.wait_closed()
        while open_now and loop.time() < deadline + 1:
            await asyncio.sleep(0.01)


class _Limits:
    """What all connections share. Used from the listener's loop only."""

    def __init__(self, most_connections: int, most_per_peer: int, most_bytes: int, most_in_flight: int) -> None:
        self.most_connections = most_connections
        self.most_per_peer = most_per_peer
        self.most_bytes = most_bytes
        self.most_in_flight = most_in_flight
        self.peers: collections.Counter[str] = collections.Counter()
        self.in_flight = 0


class _Session(SMTP):
    """One connection."""

    line_length_limit = 65536  # people's programs write lines longer than 998; a 5xx would bounce their note
    local_part_limit = 64

    def __init__(
        self,
        hook: _Hook,
        open_now: set[_Session],
        limits: _Limits,
        loop: asyncio.AbstractEventLoop,
        options: Mapping[str, Any],
    ) -> None:
        super().__init__(hook, loop=loop, **options)
        self._open_now = open_now
        self._limits = limits
        self._peer_host = ""
        self._counted = False
        self._in_message = False
        self._taken = 0
        self._leaving = False

    # --- the connection ---

    def connection_made(self, transport: asyncio.BaseTransport) -> None:
        if self._original_transport is not None:  # the same connection again, after STARTTLS
            super().connection_made(transport)
            return
        peer = transport.get_extra_info("peername")
        self._peer_host = str(peer[0]) if peer else "local"
        limits = self._limits
        full = len(self._open_now) >= limits.most_connections
        crowded = limits.peers[self._peer_host] >= limits.most_per_peer
        if full or crowded:
            transport = cast(asyncio.WriteTransport, transport)
            transport.write(b"421 4.3.2 Too many connections, please try again later\r\n")
            transport.close()
            self._refused = True
            return
        self._counted = True
        self._open_now.add(self)
        limits.peers[self._peer_host] += 1
        super().connection_made(transport)

    _refused = False

    def connection_lost(self, error: Exception | None) -> None:
        if self._refused:
            return
        if self._counted:
            self._counted = False
            self._open_now.discard(self)
            self._limits.peers[self._peer_host] -= 1
            if self._limits.peers[self._peer_host] <= 0:
                del self._limits.peers[self._peer_host]
            self._forget_bytes()
        if self.session is not None:
            super().connection_lost(error)

    def data_received(self, data: bytes) -> None:
        if self._refused:
            return
        if self._in_message:
            self._taken += len(data)
            self._limits.in_flight += len(data)
            too_much = self._taken > 2 * self._limits.most_bytes + 1_000_000
            if too_much or self._limits.in_flight > self._limits.most_in_flight:
                # Past the size limit aiosmtpd reads on to say 552, keeping what has no line end in memory.
                status = b"552 5.3.4 Message too big" if too_much else b"452 4.3.1 Too busy, please try again later"
                self._close_after(status)
                return
        super().data_received(data)

    def eof_received(self) -> bool | None:
        return False if self._refused else super().eof_received()

    def say_goodbye(self) -> None:
        """We are stopping: between messages the client is told so now, in a message when it is done."""
        self._leaving = True
        if not self._in_message:
            self._close_after(b"421 4.3.2 Going down, please try again later")

    def drop(self) -> None:
        if self.transport is not None:
            with suppress(Exception):
                self.transport.abort()  # type: ignore[attr-defined]

    def _close_after(self, status: bytes) -> None:
        transport = cast(asyncio.WriteTransport | None, self.transport)
        if transport is None or transport.is_closing():
            return
        transport.write(status + b"\r\n")
        transport.close()

    def _forget_bytes(self) -> None:
        self._limits.in_flight -= self._taken
        self._taken = 0

    # --- the dialogue ---

    async def smtp_DATA(self, arg: str) -> None:
        self._in_message = True
        try:
            await super().smtp_DATA(arg)
        finally:
            self._in_message = False
            self._forget_bytes()
        if self._leaving:
            self._close_after(b"421 4.3.2 Going down, please try again later")

    async def smtp_VRFY(self, arg: str) -> None:
        await self.push("252 2.1.5 Send some mail, we will try")

    async def smtp_EXPN(self, arg: str) -> None:
        await self.push("502 5.5.1 Not offered")

    async def smtp_HELP(self, arg: str) -> None:
        await self.push("214 2.0.0 See RFC 5321")

    def _getaddr(self, arg: str) -> tuple[str | None, str | None]:
        """The address of a MAIL or RCPT and what follows it; ``<>`` for the null sender, ``None`` when malformed.

        aiosmtpd asks the standard library's header parser, which raises IndexError on some malformed ones.
        """
        match = _PATH.fullmatch(arg or "")
        if match is None:
            return None, None
        address = match["angle"] if match["angle"] is not None else match["bare"]
        if len(address.rpartition("@")[0]) > self.local_part_limit:
            return None, None
        return address or "<>", match["rest"]

    async def handle_exception(self, error: Exception) -> str:
        """Our own fault is never the sender's: try again later; and nothing of it is told."""
        if isinstance(error, asyncio.IncompleteReadError | ConnectionError):
            return NOT_NOW
        log.error("SMTP session from %s failed", self._peer_host, exc_info=error)
        return NOT_NOW


class _Hook:
    """What aiosmtpd asks us: is this sender, this recipient acceptable; here is the message."""

    def __init__(
        self,
        keep: Keep,
        domains: frozenset[str],
        now: Callable[[], datetime],
        takes: Callable[[str], bool] | None,
        most_recipients: int,
        utf8_addresses: bool,
    ) -> None:
        self._address = UTF8_ADDRESS if utf8_addresses else ADDRESS
        self._keep = keep
        self._domains = domains
        self._now = now
        self._takes = takes
        self._most_recipients = most_recipients
        self.offers_login = False

    async def handle_EHLO(
        self, server: SMTP, session: Session, envelope: Envelope, hostname: str, responses: list[str]
    ) -> list[str]:
        session.host_name = hostname
        # aiosmtpd offers AUTH to everybody, accounts or not: clients would try.
        return [line for line in responses if self.offers_login or not line.startswith("250-AUTH")]

    async def handle_MAIL(
        self, server: SMTP, session: Session, envelope: Envelope, address: str, options: list[str]
    ) -> str:
        if address not in ("<>", "") and not self._address.fullmatch(address):
            return "553 5.1.7 This sender address cannot be used here"
        envelope.mail_from = address or "<>"  # kept truthy: aiosmtpd asks whether there is a sender by its truth
        envelope.mail_options.extend(options)
        return "250 2.1.0 Sender taken"

    async def handle_RCPT(
        self, server: SMTP, session: Session, envelope: Envelope, address: str, options: list[str]
    ) -> str:
        if address.lower() == "postmaster" and self._domains:
            address = f"postmaster@{min(self._domains)}"  # RFC 5321, 4.5.1: taken without a domain too
        domain = address.rpartition("@")[2].lower()
        if not self._address.fullmatch(address) or domain not in self._domains:
            return "550 5.7.1 No such address here, and we do not relay"
        if self._takes is not None and not self._takes(address.lower()):
            return "550 5.1.1 No such address here"
        if len(envelope.rcpt_tos) >= self._most_recipients:
            return "452 4.5.3 Too many recipients in one message"
        envelope.rcpt_tos.append(address)
        return "250 2.1.5 Recipient taken"

    async def handle_DATA(self, server: SMTP, session: Session, envelope: Envelope) -> str:
        content = cast(bytes, envelope.original_content)
        sender = "" if envelope.mail_from in (None, "<>") else str(envelope.mail_from)
        peer = session.peer[0] if isinstance(session.peer, tuple) else "local"
        user: Any = session.auth_data if session.authenticated else None
        if isinstance(user, bytes):
            peer = f"{peer} login={user.decode('utf-8', 'replace').lower()}"
        keeping = asyncio.ensure_future(
            self._keep(
                content,
                door="smtp",
                peer=str(peer),
                envelope_from=sender.lower(),
                envelope_to=[str(address).lower() for address in envelope.rcpt_tos],
                arrived_at=self._now(),
            )
        )
        try:
            # A client that hangs up now cancels us, but not the commit: it will try again, and be recognised.
            await asyncio.shield(keeping)
        except asyncio.CancelledError:
            keeping.add_done_callback(_look_at)
            raise
        except Exception as error:  # noqa: BLE001 - full disk, failing disk, lock: the sender keeps the message
            log.warning("a message from %s was not kept: %s", peer, error)
            return NOT_NOW
        return "250 2.0.0 Kept"


def _look_at(task: asyncio.Future[int]) -> None:
    """Nobody awaits it any more: take its exception so that it is not reported as forgotten."""
    if not task.cancelled():
        task.exception()


class _Authenticator:
    """Asks :class:`Logins` in the words of aiosmtpd."""

    def __init__(self, logins: Logins) -> None:
        self._logins = logins

    def __call__(
        self, server: SMTP, session: Session, envelope: Envelope, mechanism: str, auth_data: Any
    ) -> AuthResult:
        if not isinstance(auth_data, LoginPassword):
            return AuthResult(success=False, handled=False)
        peer = str(session.peer[0]) if isinstance(session.peer, tuple) else "local"
        answer = self._logins.check(auth_data.login, auth_data.password, peer)
        if answer == "right":
            return AuthResult(success=True, handled=False, auth_data=auth_data.login)
        log.warning("a login from %s was refused (%s)", peer, answer)
        if answer == "later":
            return AuthResult(success=False, handled=False, message="454 4.7.0 Too many wrong passwords, try later")
        return AuthResult(success=False, handled=False)
