"""A finished :class:`~notes_bot.model.Reply` to the bytes of a mail, and those bytes to the wire.

The bytes are made once, Message-ID included, before the first attempt; every attempt sends the same.
"""

from __future__ import annotations

import queue
import re
import smtplib
import socket
import ssl
import tempfile
import textwrap
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from datetime import datetime
from email.header import Header
from email.headerregistry import Address, BaseHeader, HeaderRegistry, UnstructuredHeader
from email.message import EmailMessage
from email.policy import SMTP, Policy
from email.utils import format_datetime
from os import fsync
from pathlib import Path
from typing import Literal, Protocol

import dkim

from notes_bot.mail.opening import ADDRESS, LOOP_HEADER, MESSAGE_ID
from notes_bot.model import Reply

Kind = Literal["answer", "reminder", "digest", "notice"]


class _Tokens(UnstructuredHeader, BaseHeader):
    """A header of tokens that may be folded between them but never encoded: encoded Message-IDs break threads.

    The standard library encodes any token that does not fit into 78 columns (CPython issues 79986, 100991).
    """

    def fold(self, *, policy: Policy) -> str:
        lines, line = [], f"{self.name}:"
        for token in str(self).split():
            if len(line) + 1 + len(token) > 78 and not line.endswith(":"):
                lines.append(line)
                line = ""
            line += " " + token
        return policy.linesep.join([*lines, line]) + policy.linesep


class _Subject(UnstructuredHeader, BaseHeader):
    """A subject folded without loss: the newer folding of the standard library drops the space between a word in
    plain letters and one that must be encoded ("em dúvida" came out as "emdúvida"), and may begin with an empty line.
    """

    def fold(self, *, policy: Policy) -> str:
        text = str(self)
        header = Header(text, "us-ascii" if text.isascii() else "utf-8", maxlinelen=76, header_name=self.name)
        return f"{self.name}: {header.encode(linesep=policy.linesep)}{policy.linesep}"


def _registry() -> HeaderRegistry:
    registry = HeaderRegistry()
    registry.map_to_type("subject", _Subject)
    for name in ("references", "in-reply-to", "message-id", "list-unsubscribe", "list-id"):
        registry.map_to_type(name, _Tokens)
    return registry


COLUMNS = 72
"""Of the text part; the space that joins two lines stands behind them."""
POLICY = SMTP.clone(header_factory=_registry(), max_line_length=78)


def new_message_id(domain: str, token: str) -> str:
    """A Message-ID from a token that the caller makes unique: the same token, the same id.

    Raises:
        ValueError: when they cannot stand in a Message-ID.
    """
    made = f"<{token}@{domain}>"
    if not MESSAGE_ID.fullmatch(made) or len(made) > 250:
        raise ValueError(f"{made!r} cannot be a Message-ID")
    return made


def write_mail(
    reply: Reply,
    *,
    message_id: str,
    date: datetime,
    from_address: str,
    to: str,
    kind: Kind,
    from_name: str = "",
    to_name: str = "",
    reply_to: str | None = None,
    in_reply_to: str | None = None,
    references: Sequence[str] = (),
    list_id: str | None = None,
    unsubscribe: str | None = None,
    by_text: bool = False,
) -> bytes:
    """The whole mail, CRLF line ends, ASCII only.

    Plain text alone for a text-only reply; text and HTML with inline pictures otherwise; a calendar is
    attached as a published event that asks for no answer. ``date`` is aware. ``references`` is oldest
    first; ``in_reply_to`` is added to its end. ``unsubscribe`` is one of our addresses (a mailto is made).
    ``by_text`` is for a gateway that makes text messages of mail: no line is broken.

    Raises:
        ValueError: for an address or id that cannot stand in a header, or a naive date.
    """
    if date.tzinfo is None:
        raise ValueError("give an aware date")
    mail = EmailMessage(policy=POLICY)
    mail["From"] = _address(from_address, from_name)
    mail["To"] = _address(to, to_name)
    mail["Subject"] = _line(reply.subject)[:200]
    mail["Date"] = format_datetime(date)
    mail["Message-ID"] = _id(message_id)
    if reply_to is not None and reply_to != from_address:
        mail["Reply-To"] = _address(reply_to, from_name)
    chain = list(dict.fromkeys(_id(reference) for reference in references))
    if in_reply_to is not None:
        mail["In-Reply-To"] = _id(in_reply_to)
        chain = [reference for reference in chain if reference != in_reply_to] + [in_reply_to]
    if chain:
        # The root keeps the conversation together, the newest ids place the answer.
        mail["References"] = " ".join(chain if len(chain) <= 20 else [chain[0], *chain[-19:]])
    mail["Auto-Submitted"] = "auto-replied" if kind == "answer" else "auto-generated"
    mail["X-Auto-Response-Suppress"] = "All"
    mail[LOOP_HEADER] = _plain_address(from_address)
    if list_id:
        mail["List-Id"] = f"<{_token(list_id)}>"
    if unsubscribe:
        mail["List-Unsubscribe"] = f"<mailto:{_plain_address(unsubscribe)}?subject=stop>"
    if by_text:  # a gateway passes line ends on
        mail.set_content(_body(reply.text), cte="quoted-printable")
    else:
        mail.set_content(flowed(_body(reply.text)), cte="quoted-printable", params={"format": "flowed"})
    if reply.html:
        mail.add_alternative(_body(reply.html), subtype="html", cte="quoted-printable")
        page = mail.get_payload()[-1]  # type: ignore[index]
        for picture in reply.pictures:
            page.add_related(  # type: ignore[union-attr]
                picture.png,
                maintype="image",
                subtype="png",
                cid=f"<{_token(picture.content_id)}>",
                filename=_file(picture.name, ".png"),
                disposition="inline",
            )
    else:
        for picture in reply.pictures:
            mail.add_attachment(picture.png, maintype="image", subtype="png", filename=_file(picture.name, ".png"))
    if reply.calendar:
        mail.add_attachment(
            reply.calendar.decode("utf-8"),
            subtype="calendar",
            params={"method": "PUBLISH"},
            filename="look-again.ics",
            cte="quoted-printable" if reply.calendar.isascii() else "base64",
        )
    for document in reply.documents:
        main, _, sub = document.content_type.partition("/")
        mail.add_attachment(document.data, maintype=main, subtype=sub, filename=_file(document.name, ".pdf"))
    return mail.as_bytes(policy=POLICY)


def _address(address: str, name: str = "") -> Address:
    local, _, domain = _plain_address(address).partition("@")
    return Address(_line(name)[:100], local, domain)


def _plain_address(address: str) -> str:
    if not ADDRESS.fullmatch(address):
        raise ValueError(f"{address!r} is not a plain mail address")
    return address


def _id(message_id: str) -> str:
    if not MESSAGE_ID.fullmatch(message_id):
        raise ValueError(f"{message_id!r} is not a Message-ID")
    return message_id


def _token(text: str) -> str:
    if not re.fullmatch(r"[A-Za-z0-9._@-]{1,200}", text):
        raise ValueError(f"{text!r} cannot stand in a header")
    return text


def _line(text: str) -> str:
    """One line, without control characters: what people wrote must not become a header."""
    return re.sub(r"[\x00-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff]+", " ", text).strip()


def flowed(text: str) -> str:
    """The text in lines of at most 72 columns that a program may join again (RFC 3676 section 4, without DelSp).

    A line that ends in a space goes on in the next one. Programs that do not know this show lines of 72 columns,
    those that do fit the text to the screen.
    """
    lines = []
    for line in text.split("\n"):
        line = line.rstrip(" ") if line != "-- " else line
        pieces = textwrap.wrap(line, COLUMNS, break_long_words=False, break_on_hyphens=False) or [line]
        stuffed = [" " + piece if piece.startswith((" ", ">", "From ")) else piece for piece in pieces]
        lines += [*(f"{piece} " for piece in stuffed[:-1]), stuffed[-1]]
    return "\n".join(lines)


def _body(text: str) -> str:
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    return re.sub(r"[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff]", "", text).rstrip("\n") + "\n"


def _file(name: str, extension: str) -> str:
    plain = re.sub(r"[^A-Za-z0-9._-]+", "-", name).strip("-.")[:80] or "picture"
    return plain if plain.endswith(extension) else plain + extension


# --- leaving ----------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Sending:
    """How one attempt ended."""

    outcome: Literal["sent", "later", "never"]
    """later: try again; never: a permanent refusal."""
    detail: str = ""
    status: str = ""
    """Enhanced status code, such as 5.1.1, when the other side gave one."""
    whose: Literal["", "person", "ours"] = ""
    """For never: whether the person's address is at fault (5.1.x, 5.2.1) or our own service (5.7.x and others)."""

    way_down: bool = False
    """For later: nothing else will leave this way now either (no connection, no login)."""

    @property
    def sent(self) -> bool:
        return self.outcome == "sent"


class Way(Protocol):
    """A way for finished mail to leave."""

    def send(self, envelope_from: str, recipient: str, raw: bytes) -> Sending: ...

    def hang_up(self) -> None:
        """Break off what is under way, from another thread: it ends as put off. Nothing is sent afterwards."""
        ...

    def close(self) -> None: ...


_STATUS = re.compile(r"\b([245]\.\d{1,3}\.\d{1,3})\b")


def judge(code: int, text: str) -> Sending:
    """What an SMTP reply code means for the next attempt."""
    found = _STATUS.search(text)
    status = found[1] if found else ""
    detail = f"{code} {text}"[:500]
    if 400 <= code < 500 or code < 100:
        return Sending("later", detail, status)
    person = status.startswith(("5.1.", "5.2.1")) or (not status and code in (550, 551, 553))
    if status == "5.2.2":  # a full box is emptied some day
        return Sending("later", detail, status)
    return Sending("never", detail, status, "person" if person else "ours")


@dataclass(slots=True)
class Relay:
    """An SMTP server that takes our mail. One connection is kept open and renewed when it breaks.

    ``password`` with ``user`` logs in; ``tls`` is starttls (a server that does not offer it is refused),
    tls from the start, or none (loopback only, in practice). Not for use from two threads at once.
    """

    host: str
    port: int = 587
    user: str = ""
    password: str = field(default="", repr=False)
    tls: Literal["starttls", "tls", "none"] = "starttls"
    hostname: str = ""
    timeout: float = 60.0
    connect_timeout: float = 20.0
    context: ssl.SSLContext | None = None
    most_per_connection: int = 100
    _open: smtplib.SMTP | None = field(default=None, init=False, repr=False)
    _used: int = field(default=0, init=False, repr=False)
    _named: bool = field(default=False, init=False, repr=False)
    _handed_over: bool = field(default=False, init=False, repr=False)
    _hung_up: bool = field(default=False, init=False, repr=False)

    def send(self, envelope_from: str, recipient: str, raw: bytes) -> Sending:
        """One attempt for one recipient. Never raises for what the network or the server does."""
        if self._hung_up:
            return Sending("later", "we are stopping", way_down=True)
        fresh = self._open is None
        self._named = self._handed_over = False
        try:
            server = self._server()
            result = self._transact(server, envelope_from, recipient, raw)
        except smtplib.SMTPServerDisconnected as error:
            self._drop()
            if not fresh and not self._handed_over:
                return self.send(envelope_from, recipient, raw)  # it had only grown tired of waiting for us
            return Sending("later", f"disconnected: {error}"[:500], way_down=not self._handed_over)
        except smtplib.SMTPAuthenticationError as error:
            self._drop()
            return Sending("later", f"the relay refuses our password: {error.smtp_code}", way_down=True)
        except smtplib.SMTPResponseException as error:
            self._drop()
            text = (
                error.smtp_error
                if isinstance(error.smtp_error, str)
                else bytes(error.smtp_error).decode("ascii", "replace")
            )
            result = judge(error.smtp_code, text) if error.smtp_code >= 400 else Sending("later", text[:500])
            # Refused before our mail was even named: that says nothing about the mail.
            return result if self._named else Sending("later", result.detail, result.status, way_down=True)
        except (OSError, smtplib.SMTPException, ssl.SSLError, ValueError) as error:
            self._drop()
            return Sending("later", f"{type(error).__name__}: {error}"[:500], way_down=not self._named)
        self._used += 1
        if self._used >= self.most_per_connection:
            self.close()
        return result

    def _server(self) -> smtplib.SMTP:
        if self._open is not None:
            return self._open
        local = self.hostname or "localhost"
        context = self.context or ssl.create_default_context()
        patience = min(self.connect_timeout, self.timeout)
        if self.tls == "tls":
            server: smtplib.SMTP = smtplib.SMTP_SSL(
                self.host, self.port, local_hostname=local, timeout=patience, context=context
            )
        else:
            server = smtplib.SMTP(self.host, self.port, local_hostname=local, timeout=patience)
        self._open = server  # from here on it can be broken off
        try:
            if server.sock is not None:
                server.sock.settimeout(self.timeout)
            if self.tls == "starttls":
                server.starttls(context=context)
            if self.user:
                server.login(self.user, self.password)
        except BaseException:
            server.close()
            self._open = None
            raise
        self._used = 0
        return server

    def hang_up(self) -> None:
        """Break off what is under way, from another thread."""
        self._hung_up = True
        server = self._open
        if server is not None and server.sock is not None:
            with suppress(OSError):
                server.sock.shutdown(socket.SHUT_RDWR)

    def _transact(self, server: smtplib.SMTP, envelope_from: str, recipient: str, raw: bytes) -> Sending:
        server.ehlo_or_helo_if_needed()
        options = [f"size={len(raw)}"] if server.has_extn("size") else []
        self._named = True
        code, answer = server.mail(envelope_from, options)
        if code == 250:
            code, answer = server.rcpt(recipient)
            if code in (250, 251):
                self._handed_over = True
                code, answer = server.data(raw)
                if code == 250:
                    return Sending("sent", answer.decode("ascii", "replace")[:200])
        with suppress(smtplib.SMTPException, OSError):
            server.rset()
        result = judge(code, answer.decode("ascii", "replace"))
        if code == 421:
            self._drop()
            result = replace(result, way_down=True)
        return result

    def _drop(self) -> None:
        if self._open is not None:
            with suppress(OSError, smtplib.SMTPException):
                self._open.close()
        self._open = None

    def close(self) -> None:
        """Say goodbye. The next :meth:`send` connects again."""
        if self._open is not None:
            with suppress(OSError, smtplib.SMTPException):
                self._open.quit()
        self._drop()


class Several:
    """Some ways side by side, for as many threads: each attempt takes one that is free."""

    def __init__(self, ways: Sequence[Way]) -> None:
        self._ways = tuple(ways)
        self._free: queue.LifoQueue[Way] = queue.LifoQueue()  # the last used has a connection open
        for way in reversed(self._ways):
            self._free.put(way)

    def send(self, envelope_from: str, recipient: str, raw: bytes) -> Sending:
        way = self._free.get()
        try:
            return way.send(envelope_from, recipient, raw)
        finally:
            self._free.put(way)

    def hang_up(self) -> None:
        for way in self._ways:
            way.hang_up()

    def close(self) -> None:
        for way in self._ways:
            way.close()


@dataclass(frozen=True, slots=True)
class Signing:
    """Signs each mail with DKIM before it leaves by another way: where the relay does not do it itself."""

    way: Way
    domain: str
    selector: str
    key: bytes = field(repr=False)
    """The private key, PEM; its public half stands in DNS at ``<selector>._domainkey.<domain>``."""

    def send(self, envelope_from: str, recipient: str, raw: bytes) -> Sending:
        """One attempt with a signature of this moment; Message-ID and text are those of every other attempt."""
        try:
            signature = self._sign(raw)
        except (dkim.DKIMException, ValueError) as error:
            return Sending("later", f"cannot sign: {type(error).__name__}: {error}", way_down=True)
        return self.way.send(envelope_from, recipient, signature + raw)

    def fault(self) -> str:
        """Why the key cannot sign, or empty."""
        try:
            self._sign(b"From: a@example.org\r\nSubject: x\r\n\r\nx\r\n")
        except (dkim.DKIMException, ValueError) as error:
            return f"{type(error).__name__}: {error}"
        return ""

    def _sign(self, raw: bytes) -> bytes:
        return bytes(
            dkim.sign(
                raw,
                self.selector.encode("ascii"),
                self.domain.encode("ascii"),
                self.key,
                include_headers=[name.encode("ascii") for name in _SIGNED],
                canonicalize=(b"relaxed", b"relaxed"),
            )
        )

    def hang_up(self) -> None:
        self.way.hang_up()

    def close(self) -> None:
        self.way.close()


_SIGNED = (
    *("from", "to", "subject", "date", "message-id", "reply-to", "in-reply-to", "references", "auto-submitted"),
    *("mime-version", "content-type", "content-transfer-encoding", "list-id", "list-unsubscribe", "from"),
)
"""From twice, so that no second one can be added on the way."""


@dataclass(frozen=True, slots=True)
class Folder:
    """Each mail becomes a file: nothing leaves the machine. The file appears whole or not at all."""

    path: Path

    def send(self, envelope_from: str, recipient: str, raw: bytes) -> Sending:  # noqa: ARG002 - as the relay does
        name = _message_name(raw) + ".eml"
        try:
            write_whole(self.path / name, raw)
        except OSError as error:
            return Sending("later", f"{type(error).__name__}: {error}", way_down=True)
        return Sending("sent", name)

    def hang_up(self) -> None:
        """A file is there whole or not at all."""

    def close(self) -> None:
        """Nothing is kept open."""


def _message_name(raw: bytes) -> str:
    """A file name from the Message-ID: the same mail sent again after a crash overwrites itself."""
    found = re.search(rb"(?im)^message-id:\s*<([^>\r\n]+)>", raw[:8192])
    name = found[1].decode("ascii", "replace") if found else "mail"
    return re.sub(r"[^A-Za-z0-9._+-]+", "_", name.partition("@")[0])[:120] or "mail"


@dataclass(frozen=True, slots=True)
class TextFolder:
    """Replies to text messages, one file each, for a gateway's daemon to pick up.

    The name is ``OUTC<date>_<time>_<serial>_<number>_<mark>.txt``, as gammu-smsd wants it to find number and
    mark; date and time only order its queue, so they are zeros and the mark decides.
    """

    path: Path

    def send(self, envelope_from: str, recipient: str, raw: bytes) -> Sending:
        """``raw`` is the text itself in UTF-8; ``envelope_from`` names the file, so that a repeat replaces it."""
        if not re.fullmatch(r"\+[0-9]{7,15}", recipient):
            return Sending("never", f"{recipient!r} is no number", whose="person")
        mark = re.sub(r"[^A-Za-z0-9]+", "", envelope_from)[:40] or "note"
        try:
            write_whole(self.path / f"OUTC00000000_000000_00_{recipient}_{mark}.txt", raw)
        except OSError as error:
            return Sending("later", f"{type(error).__name__}: {error}", way_down=True)
        return Sending("sent")

    def hang_up(self) -> None:
        """A file is there whole or not at all."""

    def close(self) -> None:
        """Nothing is kept open."""


def write_whole(path: Path, data: bytes) -> None:
    """Write a file so that it is there whole, and on the disk, or not at all.

    Raises:
        OSError: the folder cannot be written.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.NamedTemporaryFile(dir=path.parent, prefix=".new-", delete=False) as part:
        name = Path(part.name)
        try:
            part.write(data)
            part.flush()
            fsync(part.fileno())
            name.chmod(0o640)
            name.replace(path)
        except OSError:
            with suppress(OSError):
                name.unlink()
            raise
