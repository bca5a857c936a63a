"""The SMTP listener, talked to by a real client and by a rude one."""

from __future__ import annotations

import asyncio
import datetime as dt
import shutil
import smtplib
import socket
import ssl
import subprocess
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from notes_bot.mail.passwords import hash_password
from notes_bot.mail.smtp_in import Listener
from notes_bot.store.inbox import Inbox, NotKept
from notes_bot.store.store import Store
from tests.mail_samples import clients

NOW = dt.datetime(2026, 7, 6, 19, 2, 11, tzinfo=dt.UTC)
NOTE = clients.plain_terminal("north 40 none seen", "scout@farm.example", "notes@crew.example", NOW)


class Kept:
    """Remembers what it was given; may be told to fail or to wait."""

    def __init__(self) -> None:
        self.messages: list[dict[str, Any]] = []
        self.error: Exception | None = None
        self.delay = 0.0

    async def __call__(self, raw: bytes, **how: Any) -> int:
        if self.delay:
            await asyncio.sleep(self.delay)
        if self.error is not None:
            raise self.error
        self.messages.append({"raw": raw, **how})
        return len(self.messages)


@pytest.fixture
def kept() -> Kept:
    return Kept()


@pytest.fixture
def listen(kept: Kept) -> Iterator[Callable[..., Listener]]:
    """Starts listeners that are stopped at the end."""
    started: list[Listener] = []

    def start(**options: Any) -> Listener:
        listener = Listener(kept, **{"domains": ["crew.example"], "now": lambda: NOW, "patience": 2.0, **options})
        listener.start()
        started.append(listener)
        return listener

    yield start
    for listener in started:
        listener.stop()


class Rude:
    """A client that says exactly what it is told to."""

    def __init__(self, port: int) -> None:
        self.socket = socket.create_connection(("127.0.0.1", port), timeout=5)
        self.lines = self.socket.makefile("rb")

    def hear(self) -> bytes:
        """One whole reply."""
        reply = line = self.lines.readline()
        while line[3:4] == b"-":
            line = self.lines.readline()
            reply += line
        return reply

    def say(self, data: bytes) -> bytes:
        self.socket.sendall(data)
        return self.hear()

    def close(self) -> None:
        self.lines.close()
        self.socket.close()


def rude(port: int, *, up_to: str = "hello") -> Rude:
    client = Rude(port)
    client.hear()
    client.say(b"EHLO phone.example\r\n")
    if up_to in ("mail", "rcpt", "data"):
        client.say(b"MAIL FROM:<scout@farm.example>\r\n")
    if up_to in ("rcpt", "data"):
        client.say(b"RCPT TO:<notes@crew.example>\r\n")
    if up_to == "data":
        client.say(b"DATA\r\n")
    return client


def test_a_note_sent_by_a_mail_client_is_kept_byte_for_byte(kept: Kept, listen: Callable[..., Listener]) -> None:
    """The envelope, the peer and the time of arrival are handed over with the raw message."""
    listener = listen()
    with smtplib.SMTP("127.0.0.1", listener.port) as client:
        client.sendmail("Scout@Farm.example", ["Notes@Crew.example"], NOTE)

    assert kept.messages == [
        {
            "raw": NOTE,
            "door": "smtp",
            "peer": "127.0.0.1",
            "envelope_from": "scout@farm.example",
            "envelope_to": ["notes@crew.example"],
            "arrived_at": NOW,
        }
    ]


def test_250_is_said_only_after_the_message_is_kept(listen: Callable[..., Listener], kept: Kept) -> None:
    """While the disk works the client waits."""
    kept.delay = 0.3
    listener = listen()
    with smtplib.SMTP("127.0.0.1", listener.port) as client:
        started = time.monotonic()
        client.sendmail("scout@farm.example", ["notes@crew.example"], NOTE)

        assert time.monotonic() - started >= 0.3
        assert len(kept.messages) == 1


def test_a_failing_disk_makes_the_sender_try_again_later(kept: Kept, listen: Callable[..., Listener]) -> None:
    """4xx, never 250 and never 5xx; and nothing of our trouble is told to the outside."""
    kept.error = NotKept("OperationalError: /secret/path disk I/O error")
    listener = listen()
    with smtplib.SMTP("127.0.0.1", listener.port) as client:
        with pytest.raises(smtplib.SMTPDataError) as refused:
            client.sendmail("scout@farm.example", ["notes@crew.example"], NOTE)
        kept.error = None
        client.sendmail("scout@farm.example", ["notes@crew.example"], NOTE)

    assert refused.value.smtp_code == 451
    assert b"secret" not in refused.value.smtp_error
    assert len(kept.messages) == 1


def test_a_bug_in_the_listener_is_a_temporary_failure_too(kept: Kept, listen: Callable[..., Listener]) -> None:
    """An exception outside the disk, here in the recipient check, is 451 and tells nothing."""

    def broken(address: str) -> bool:
        raise RuntimeError("internal detail")

    listener = listen(takes=broken)
    with closing(rude(listener.port, up_to="mail")) as client:
        reply = client.say(b"RCPT TO:<notes@crew.example>\r\n")

    assert reply.startswith(b"451")
    assert b"internal" not in reply


def test_mail_for_other_domains_is_refused(kept: Kept, listen: Callable[..., Listener]) -> None:
    """We are no open relay: whatever trick names another domain, the answer is 550 or a syntax error."""
    listener = listen()
    tricks = [
        b"<victim@elsewhere.example>",
        b"<victim%elsewhere.example@other.example>",
        b"<@crew.example:victim@elsewhere.example>",
        b"<victim@elsewhere.example@crew.example.evil.example>",
        b'<"victim@elsewhere.example"@evil.example>',
        b"<notes@crew.example.evil.example>",
        b"<notes@[127.0.0.1]>",
        b"<notes>",
    ]
    for trick in tricks:
        with closing(rude(listener.port, up_to="mail")) as client:
            reply = client.say(b"RCPT TO:" + trick + b"\r\n")

            assert reply[:1] == b"5", (trick, reply)
            assert client.say(b"DATA\r\n").startswith(b"503")


def test_role_addresses_are_taken_and_postmaster_without_a_domain_too(
    kept: Kept, listen: Callable[..., Listener]
) -> None:
    """RFC 2142 and RFC 5321, 4.5.1: somebody can always write to the keeper of a domain."""
    listener = listen()
    for address in ("postmaster@crew.example", "abuse@crew.example", "Postmaster", "postmaster@crew.example"):
        with closing(rude(listener.port, up_to="mail")) as client:
            assert client.say(b"RCPT TO:<" + address.encode() + b">\r\n").startswith(b"250")
            client.say(b"DATA\r\n")
            assert client.say(NOTE + b"\r\n.\r\n").startswith(b"250")

    assert [message["envelope_to"] for message in kept.messages] == [
        ["postmaster@crew.example"],
        ["abuse@crew.example"],
        ["postmaster@crew.example"],
        ["postmaster@crew.example"],
    ]


def test_a_message_that_is_too_big_is_refused_for_good(kept: Kept, listen: Callable[..., Listener]) -> None:
    """Announced by SIZE or found while it comes."""
    listener = listen(most_bytes=10_000)
    with smtplib.SMTP("127.0.0.1", listener.port) as client:
        client.ehlo()
        assert int(client.esmtp_features["size"]) == 10_000
        code, _ = client.docmd("MAIL FROM:<scout@farm.example> SIZE=20000")
        assert code == 552
        client.docmd("MAIL FROM:<scout@farm.example>")
        client.docmd("RCPT TO:<notes@crew.example>")
        code, _ = client.data(b"x" * 70 + b"\r\n" + b"y" * 9_990 + b"\r\n")

    assert code == 552
    assert kept.messages == []


def test_an_endless_line_is_cut_off_before_it_fills_the_memory(kept: Kept, listen: Callable[..., Listener]) -> None:
    """A client that sends on and on without a line end is disconnected."""
    listener = listen(most_bytes=10_000)
    with closing(rude(listener.port, up_to="data")) as client, pytest.raises(OSError):
        for _ in range(2000):
            client.socket.sendall(b"x" * 10_000)

    assert kept.messages == []


def test_too_many_recipients_are_told_to_come_again(kept: Kept, listen: Callable[..., Listener]) -> None:
    """452 for each one too many; the message goes to the others."""
    listener = listen(most_recipients=3)
    with smtplib.SMTP("127.0.0.1", listener.port) as client:
        refused = client.sendmail("scout@farm.example", [f"notes+{n}@crew.example" for n in range(5)], NOTE)

    assert {address: code for address, (code, _) in refused.items()} == {
        "notes+3@crew.example": 452,
        "notes+4@crew.example": 452,
    }
    assert len(kept.messages[0]["envelope_to"]) == 3


def test_connections_from_one_peer_are_bounded(kept: Kept, listen: Callable[..., Listener]) -> None:
    """One too many hears 421; when one leaves the next may come."""
    listener = listen(most_per_peer=3)
    clients_open = [rude(listener.port) for _ in range(3)]
    with closing(Rude(listener.port)) as fourth:
        assert fourth.hear().startswith(b"421")
    for client in clients_open:
        client.close()
    deadline = time.monotonic() + 3
    greeting = b""
    while not greeting.startswith(b"220") and time.monotonic() < deadline:
        with closing(Rude(listener.port)) as later:
            greeting = later.hear()

    assert greeting.startswith(b"220")


def test_an_idle_client_is_sent_away(kept: Kept, listen: Callable[..., Listener]) -> None:
    """Slow clients do not hold their place for ever, neither between commands nor within a message."""
    listener = listen(idle_seconds=0.3)
    for up_to in ("hello", "data"):
        with closing(rude(listener.port, up_to=up_to)) as client:
            assert client.lines.readline() == b""


def test_endless_small_talk_ends(kept: Kept, listen: Callable[..., Listener]) -> None:
    """NOOP renews the time limit, so the number of commands is bounded."""
    listener = listen()
    with closing(rude(listener.port)) as client:
        replies = [client.say(b"NOOP\r\n") for _ in range(11)]

    assert replies[-1].startswith(b"421")


@pytest.mark.parametrize(
    "end",
    [b"\n.\n", b"\n.\r\n", b"\r.\r", b"\r\n.\n", b"\r\n.\r", b"\n.\r", b"\r.\r\n", b"\r\n\x00.\r\n"],
)
def test_a_false_end_of_message_does_not_smuggle_a_second_one(
    kept: Kept, listen: Callable[..., Listener], end: bytes
) -> None:
    """Only CRLF dot CRLF ends a message: what follows another kind of end stays content, never commands."""
    listener = listen()
    inner = b"MAIL FROM:<boss@farm.example>\r\nRCPT TO:<notes@crew.example>\r\nDATA\r\nSubject: forged\r\n\r\nx"
    with closing(rude(listener.port, up_to="data")) as client:
        reply = client.say(b"Subject: one\r\n\r\ntext" + end + inner + b"\r\n.\r\n")

        assert reply.startswith(b"250")
        assert client.say(b"NOOP\r\n").startswith(b"250")
    assert len(kept.messages) == 1
    assert b"forged" in kept.messages[0]["raw"]


def test_a_dot_at_the_start_of_a_line_arrives_as_it_was_meant(kept: Kept, listen: Callable[..., Listener]) -> None:
    """RFC 5321 transparency, with a real client doing its half."""
    listener = listen()
    with smtplib.SMTP("127.0.0.1", listener.port) as client:
        client.sendmail("scout@farm.example", ["notes@crew.example"], b"Subject: x\r\n\r\n.5 acres\r\n.\r\n..\r\n")

    assert kept.messages[0]["raw"] == b"Subject: x\r\n\r\n.5 acres\r\n.\r\n..\r\n"


def test_a_line_of_several_thousand_characters_is_taken(kept: Kept, listen: Callable[..., Listener]) -> None:
    """Some programs write a paragraph as one line; refusing it for good would lose a note."""
    listener = listen()
    with smtplib.SMTP("127.0.0.1", listener.port) as client:
        client.sendmail("scout@farm.example", ["notes@crew.example"], b"Subject: x\r\n\r\n" + b"a " * 15_000)

    assert len(kept.messages) == 1


def test_the_null_sender_is_taken_and_kept_as_empty(kept: Kept, listen: Callable[..., Listener]) -> None:
    """Bounces come from <>; they must be heard."""
    listener = listen()
    with smtplib.SMTP("127.0.0.1", listener.port) as client:
        client.sendmail("", ["notes@crew.example"], NOTE)

    assert kept.messages[0]["envelope_from"] == ""


@pytest.mark.parametrize("sender", [b"<a\x00b@x.example>", b"<a b@x.example>", b"<\xe9@x.example>", b"<a@b@c>", b"<>x"])
def test_a_sender_that_is_no_address_is_refused(kept: Kept, listen: Callable[..., Listener], sender: bytes) -> None:
    """Nothing odd gets into the table."""
    listener = listen()
    with closing(rude(listener.port)) as client:
        reply = client.say(b"MAIL FROM:" + sender + b"\r\n")

    assert reply[:1] == b"5"


@pytest.mark.parametrize(
    "path", [b"<", b"<a", b"<<a@b>>", b"<a@b.example", b"", b"<a@b.example>x", b'<"a b"@c.example>']
)
def test_a_malformed_path_is_refused_and_is_no_error_of_ours(
    kept: Kept, listen: Callable[..., Listener], path: bytes, caplog: pytest.LogCaptureFixture
) -> None:
    """The library's own parser raises on some of these; a sender must not be told to try those again."""
    listener = listen()
    with closing(rude(listener.port)) as client:
        assert client.say(b"MAIL FROM:" + path + b"\r\n")[:1] == b"5"
        client.say(b"MAIL FROM:<a@b.example>\r\n")
        assert client.say(b"RCPT TO:" + path + b"\r\n")[:1] == b"5"

    assert [record for record in caplog.records if record.levelname == "ERROR"] == []


def test_utf8_addresses_are_taken_only_where_offered(kept: Kept, listen: Callable[..., Listener]) -> None:
    """SMTPUTF8 is off unless the relay that takes our answers speaks it as well."""
    plain, offered = listen(), listen(utf8_addresses=True)
    with smtplib.SMTP("127.0.0.1", plain.port) as client:
        client.ehlo()
        assert not client.has_extn("smtputf8")
    with smtplib.SMTP("127.0.0.1", offered.port) as client:
        client.sendmail("núñez@farm.example", ["notes@crew.example"], NOTE, mail_options=["SMTPUTF8", "BODY=8BITMIME"])

    assert kept.messages[0]["envelope_from"] == "núñez@farm.example"


def test_eight_bit_bytes_in_a_message_survive(kept: Kept, listen: Callable[..., Listener]) -> None:
    """8BITMIME is offered and kept."""
    listener = listen()
    raw = "Subject: x\r\n\r\nmañana ½\r\n".encode()
    with smtplib.SMTP("127.0.0.1", listener.port) as client:
        client.ehlo()
        assert client.has_extn("8bitmime")
        client.sendmail("scout@farm.example", ["notes@crew.example"], raw, mail_options=["BODY=8BITMIME"])

    assert kept.messages[0]["raw"] == raw


def test_a_client_that_hangs_up_before_the_250_does_not_undo_the_commit(
    kept: Kept, listen: Callable[..., Listener]
) -> None:
    """The client will send it again; the copy is recognised later."""
    kept.delay = 0.2
    listener = listen()
    client = rude(listener.port, up_to="data")
    client.socket.sendall(b"Subject: x\r\n\r\ntext\r\n.\r\n")
    time.sleep(0.05)
    client.close()
    deadline = time.monotonic() + 3
    while not kept.messages and time.monotonic() < deadline:
        time.sleep(0.01)

    assert len(kept.messages) == 1


def test_stopping_lets_a_message_finish_and_sends_idle_clients_home(
    kept: Kept, listen: Callable[..., Listener]
) -> None:
    """421 to those who only wait; the one in the middle of a message hears its 250 first."""
    kept.delay = 0.2
    listener = listen(patience=5.0)
    idle, busy = rude(listener.port), rude(listener.port, up_to="data")
    busy.socket.sendall(b"Subject: x\r\n\r\ntext\r\n")
    stopping = threading.Thread(target=listener.stop)
    stopping.start()

    assert idle.hear().startswith(b"421")
    assert busy.say(b".\r\n").startswith(b"250")
    assert busy.hear().startswith(b"421")
    stopping.join(5)
    assert len(kept.messages) == 1
    with pytest.raises(OSError):
        socket.create_connection(("127.0.0.1", listener.port), timeout=1)
    idle.close()
    busy.close()
    listener.stop()


def test_a_port_that_is_taken_is_told_at_the_start(kept: Kept, listen: Callable[..., Listener]) -> None:
    """start() raises in the thread that called it."""
    listener = listen()
    second = Listener(kept, domains=["crew.example"], now=lambda: NOW, port=listener.port)

    with pytest.raises(OSError, match="in use"):
        second.start()


def test_starttls_and_login_work_together(
    kept: Kept, listen: Callable[..., Listener], certificate: tuple[Path, Path]
) -> None:
    """With accounts set, mail is taken only after TLS and the right password."""
    context = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    context.load_cert_chain(*certificate)
    listener = listen(tls=context, require_tls=True, accounts={"relay": hash_password("toy password")})
    trusting = ssl.create_default_context(cafile=str(certificate[0]))
    with smtplib.SMTP("localhost", listener.port) as client:
        client.ehlo()
        assert client.docmd("MAIL FROM:<scout@farm.example>")[0] == 530
        client.starttls(context=trusting)
        client.ehlo()
        assert client.docmd("MAIL FROM:<scout@farm.example>")[0] == 530
        assert not client.has_extn("smtputf8")
        for wrong in (("relay", "wrong"), ("nobody", "toy password")):
            with pytest.raises(smtplib.SMTPAuthenticationError):
                client.login(*wrong, initial_response_ok=True)
            client.close()
            client.connect("localhost", listener.port)
            client.ehlo()
            client.starttls(context=trusting)
        client.login("relay", "toy password")
        client.sendmail("scout@farm.example", ["notes@crew.example"], NOTE)

    assert [message["peer"] for message in kept.messages] == ["127.0.0.1 login=relay"]


def test_a_password_is_never_asked_for_nor_taken_in_the_clear(
    kept: Kept, listen: Callable[..., Listener], certificate: tuple[Path, Path]
) -> None:
    """AUTH is not offered before TLS, and refused (538) when it is tried all the same; without accounts never."""
    context = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    context.load_cert_chain(*certificate)
    trusting = ssl.create_default_context(cafile=str(certificate[0]))
    listener = listen(tls=context, accounts={"relay": hash_password("toy password")}, require_login=False)
    without = listen(tls=context)
    with smtplib.SMTP("localhost", listener.port) as client:
        client.ehlo()
        assert not client.has_extn("auth")
        assert client.docmd("AUTH PLAIN AHJlbGF5AHRveSBwYXNzd29yZA==")[0] == 538
        client.sendmail("scout@farm.example", ["notes@crew.example"], NOTE)
        client.starttls(context=trusting)
        client.ehlo()
        assert client.has_extn("auth")
    with smtplib.SMTP("localhost", without.port) as client:
        client.starttls(context=trusting)
        client.ehlo()
        assert not client.has_extn("auth")

    assert [message["peer"] for message in kept.messages] == ["127.0.0.1"]


def test_guessing_passwords_ends_in_try_later(
    kept: Kept, listen: Callable[..., Listener], certificate: tuple[Path, Path]
) -> None:
    """After five wrong ones a peer is told 454, right or wrong, over as many connections as it likes."""
    context = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    context.load_cert_chain(*certificate)
    trusting = ssl.create_default_context(cafile=str(certificate[0]))
    listener = listen(tls=context, accounts={"relay": hash_password("toy password")})
    codes = []
    for password in ("a", "b", "c", "d", "toy password"):
        with smtplib.SMTP("localhost", listener.port) as client:
            client.starttls(context=trusting)
            with pytest.raises(smtplib.SMTPAuthenticationError) as refused:
                client.login("relay", password)
            codes.append(refused.value.smtp_code)

    assert codes[:2] == [535, 535]  # smtplib tries each password by two mechanisms
    assert codes[-1] == 454
    assert kept.messages == []


def test_swaks_logs_in_over_tls_and_is_refused_without(
    kept: Kept, listen: Callable[..., Listener], certificate: tuple[Path, Path]
) -> None:
    """A client of another hand: no TLS 530, no login 530, wrong password 535, all right 250."""
    if shutil.which("swaks") is None:
        pytest.skip("swaks is not installed")
    able = subprocess.run(["swaks", "--support"], capture_output=True, text=True, timeout=60, check=False)
    if "TLS supported" not in able.stdout + able.stderr:
        pytest.skip("swaks speaks no TLS here: it wants Net::SSLeay")
    context = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    context.load_cert_chain(*certificate)
    listener = listen(tls=context, require_tls=True, accounts={"scout@farm.example": hash_password("toy password")})

    def swaks(*more: str) -> str:
        command = ["swaks", "--server", f"127.0.0.1:{listener.port}", "--from", "scout@farm.example"]
        command += ["--to", "notes@crew.example", "--header", "Subject: note", "--body", "north 40 none seen", *more]
        return subprocess.run(command, capture_output=True, text=True, timeout=60, check=False).stdout

    login = ("--auth-user", "scout@farm.example", "--auth-password")
    assert "530 Must issue a STARTTLS" in swaks()
    assert "530 5.7.0 Authentication required" in swaks("--tls")
    assert "535 5.7.8" in swaks("--tls", "--auth", "PLAIN", *login, "wrong")
    for mechanism in ("PLAIN", "LOGIN"):
        assert "250 2.0.0 Kept" in swaks("--tls", "--auth", mechanism, *login, "toy password")

    assert [message["peer"] for message in kept.messages] == ["127.0.0.1 login=scout@farm.example"] * 2


def test_commands_sent_before_tls_are_forgotten_after_it(
    kept: Kept, listen: Callable[..., Listener], certificate: tuple[Path, Path]
) -> None:
    """Plain text injected behind STARTTLS must not be run inside the encrypted session."""
    context = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    context.load_cert_chain(*certificate)
    listener = listen(tls=context)
    client = rude(listener.port)
    assert client.say(b"STARTTLS\r\nMAIL FROM:<evil@x.example>\r\n").startswith(b"220")
    trusting = ssl.create_default_context(cafile=str(certificate[0]))
    with trusting.wrap_socket(client.socket, server_hostname="localhost") as secure:
        client.lines.close()
        client.socket, client.lines = secure, secure.makefile("rb")

        assert client.say(b"EHLO phone.example\r\n").startswith(b"250")
        assert client.say(b"RCPT TO:<notes@crew.example>\r\n").startswith(b"503")


def test_mail_goes_through_listener_and_inbox_into_the_file(tmp_path: Path) -> None:
    """The real inbox behind the real listener: many clients at once, each message there once."""
    inbox = Inbox(tmp_path / "notes.db")
    listener = Listener(inbox.keep_soon, domains=["crew.example"], now=lambda: NOW)
    listener.start()

    def send(which: int) -> None:
        with smtplib.SMTP("127.0.0.1", listener.port) as client:
            for count in range(10):
                client.sendmail(
                    "a@farm.example", ["notes@crew.example"], b"Subject: %d-%d\r\n\r\nx\r\n" % (which, count)
                )

    threads = [threading.Thread(target=send, args=(which,)) for which in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    listener.stop()
    inbox.close()

    with closing(Store(tmp_path / "notes.db")) as store:
        subjects = sorted(kept.raw.split(b"\r\n")[0] for kept in store.waiting(1000))

    assert subjects == sorted(b"Subject: %d-%d" % (which, count) for which in range(8) for count in range(10))
