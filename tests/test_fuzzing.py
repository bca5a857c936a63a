"""Mail and SMTP dialogues that nobody would write: no exception, no hang, no growing memory."""

# ruff: noqa: E501 - tables of pieces are kept short in lines, not in columns

from __future__ import annotations

import gc
import logging
import os
import random
import socket
import sys
import time
from collections.abc import Callable
from contextlib import closing, suppress
from datetime import UTC, datetime
from typing import Any

import pytest

from notes_bot.mail.identity import Accept, prove, switched
from notes_bot.mail.manners import may_pass
from notes_bot.mail.opening import AUTOMATIC, MOST_TEXT, UNREADABLE, attachments_of, open_message
from notes_bot.mail.smtp_in import Listener
from tests.mail_samples import clients

NOW = datetime(2026, 7, 6, 19, 2, 11, tzinfo=UTC)
SCOUT, US = "scout@farm.example", "notes@crew.example"
MESSAGES = int(os.environ.get("NOTES_BOT_FUZZ_MESSAGES", "200000"))
DIALOGUES = int(os.environ.get("NOTES_BOT_FUZZ_DIALOGUES", "10000"))

QUOTED = "North 40: early white\n\nI read: north 40, 5 dug, 12 white\n"


def seeds() -> list[bytes]:
    """One mail of every shape we know."""
    made = [
        write("north 40: 5 dug, 12 white ½", SCOUT, US, NOW, "<a@b.example>", QUOTED, language=language)
        for write in clients.REPLYING.values()
        for language in ("en", "es", "pt")
    ]
    made += [
        clients.with_photo("north 40", SCOUT, US, NOW),
        clients.base64_latin1_spanish("raíz", SCOUT, US, NOW),
        clients.quoted_printable("raíz “x”", SCOUT, US, NOW),
        clients.sms_gateway("n40 5dug", "+15155550101", US, NOW),
        clients.carrier_gateway("n40 5dug", "+15155550101", US, NOW),
        clients.carrier_page_gateway("n40 5dug", "+15155550101", US, NOW),
        clients.out_of_office("away", SCOUT, US, NOW),
        clients.bounce(SCOUT, US, NOW, "<a@crew.example>"),
        (
            b"DKIM-Signature: v=1; a=rsa-sha256; d=farm.example; s=s; h=from:date:subject:message-id; b=AAAA; bh=BBBB\r\n"
            b"Authentication-Results: mx.crew.example; dkim=pass header.d=farm.example\r\n"
            b"Received: from a by b; Mon\r\nFrom: scout@farm.example\r\n\r\nx\r\n"
        ),
    ]
    return made


PIECES = [
    b"\r\n", b"\n", b"\r", b"\x00", b"\xff\xfe", b"=", b"=?utf-8?q?", b"?=", b"--", b"\r\n--", b"; boundary=", b'"', b"<", b">",
    b"From: ", b"\r\nFrom: x@y.example\r\n", b"Content-Type: multipart/mixed; boundary=b\r\n", b"Content-Type: text/html\r\n",
    b"Content-Transfer-Encoding: base64\r\n", b"Content-Transfer-Encoding: x\r\n", b"charset=utf-7", b"charset=x", b"charset*=",
    b"name*0*=utf-8''%", b"\r\n\r\n", b" ", b"\t", b"<div>", b"</div>", b"<blockquote type=cite>", b"&#0;", b"&#x110000;", b"<!--",
    b"<style>", b"> ", b"On 2026 a@b wrote:\r\n", b"-- \r\n", b"\xe2\x80\xae", b"\xed\xa0\x80", b"(" * 50, b"A" * 500,
    b"message/rfc822", b"multipart/report; report-type=delivery-status", b"text/calendar; method=REPLY", b"format=flowed",
]  # fmt: skip


def mutate(raw: bytes, chance: random.Random, others: list[bytes]) -> bytes:
    data = bytearray(raw)
    for _ in range(chance.randint(1, 8)):
        at = chance.randrange(len(data) + 1)
        kind = chance.randrange(7)
        if kind == 0 and data:
            data[at % len(data)] = chance.randrange(256)
        elif kind == 1:
            data[at:at] = chance.choice(PIECES)
        elif kind == 2:
            del data[at : at + chance.randint(1, 200)]
        elif kind == 3:
            end = at + chance.randint(1, 300)
            data[at:at] = data[at:end] * chance.randint(1, 5)
        elif kind == 4:
            other = chance.choice(others)
            start = chance.randrange(len(other))
            data[at:at] = other[start : start + chance.randint(1, 600)]
        elif kind == 5:
            data = data.replace(chance.choice(PIECES[:14]), chance.choice(PIECES), chance.randint(1, 3))
        else:
            lines = bytes(data).split(b"\r\n")
            chance.shuffle(lines[: chance.randint(0, len(lines))])
            first, second = chance.randrange(len(lines)), chance.randrange(len(lines))
            lines[first], lines[second] = lines[second], lines[first]
            data = bytearray(b"\r\n".join(lines))
        if len(data) > 30_000:
            del data[30_000:]
    return bytes(data)


ACCEPT = Accept(
    relays=("mx.crew.example",), lookup=lambda _: b"v=DKIM1; p=AAAA", key=b"k", person_of=lambda _: 1, code_word="w"
)


def road(raw: bytes, door: str) -> None:
    """All that is done with a message before its note is read; what comes out keeps its promises."""
    message = open_message(
        raw, arrived_at=NOW, door=door, envelope_from=SCOUT, envelope_to=[US], ours=lambda a: a == US,
        gateways=["sms.gateway.example", "mms.carrier.example"],
    )  # fmt: skip
    assert len(message.text) <= MOST_TEXT
    assert message.unreadable == "" or (message.unreadable in UNREADABLE and not message.text)
    assert message.automatic == "" or message.automatic in AUTOMATIC
    assert "\r" not in message.text + message.subject
    assert "\n" not in message.subject + message.sender + message.message_id
    assert message.message_id.startswith("<")
    message.text.encode("utf-8")
    proof = prove(raw, message, accept=ACCEPT, door=door, peer="127.0.0.1")
    may_pass(message, known=True, proof=proof)
    assert all(switched(address, b"k") is None for address in message.to)
    if message.attachments:
        assert tuple(a for a, _ in attachments_of(raw)) == message.attachments


def memory() -> float:
    """Resident memory in megabytes."""
    with open("/proc/self/statm") as file:  # noqa: PTH123 - a file of the system
        return int(file.read().split()[1]) * os.sysconf("SC_PAGE_SIZE") / 1e6


def fuzz(count: int, seed: int) -> tuple[float, float]:
    """Slowest message in seconds of processor time, and growth of memory in megabytes after a warm-up."""
    chance, base = random.Random(seed), seeds()
    slowest = start = 0.0
    for number in range(count):
        raw = mutate(chance.choice(base), chance, base)
        door = "drop" if number % 20 == 0 else ("imap" if number % 3 == 0 else "smtp")
        began = time.process_time()
        try:
            road(raw, door)
        except Exception as error:
            raise AssertionError(f"message {number} of seed {seed}: {raw!r}") from error
        slowest = max(slowest, time.process_time() - began)
        if number == count // 4:
            gc.collect()
            start = memory()
    gc.collect()
    return slowest, memory() - start


def test_a_few_hundred_mutated_messages_are_taken_calmly() -> None:
    """A taste of the long run, with seven seeds."""
    for seed in range(7):
        slowest, _ = fuzz(100, seed)

        assert slowest < 2.0


@pytest.mark.heavy
def test_two_hundred_thousand_mutated_messages_are_taken_calmly(capsys: pytest.CaptureFixture[str]) -> None:
    """No exception, no slow message, no growing memory; figures are printed."""
    began = time.monotonic()
    slowest, growth = fuzz(MESSAGES, 2026)
    with capsys.disabled():
        sys.stdout.write(
            f"\n{MESSAGES} messages in {time.monotonic() - began:.0f} s, slowest {slowest:.2f} s, memory {growth:+.1f} MB\n"
        )

    assert slowest < 2.0
    assert growth < 25


# --- dialogues ---

WORDS = [
    b"EHLO x", b"HELO x", b"EHLO", b"MAIL FROM:<a@b.example>", b"MAIL FROM:<>", b"MAIL FROM:<a@b.example> SIZE=9999999999",
    b"MAIL FROM:<a@b.example> BODY=8BITMIME", b"MAIL FROM: a@b.example", b"MAIL FROM:<\xff@b>", b"MAIL", b"RCPT TO:<notes@crew.example>",
    b"RCPT TO:<x@y.example>", b"RCPT TO:<notes@crew.example> X=Y", b"RCPT TO:<" + b"a" * 600 + b"@crew.example>", b"DATA", b"DATA x",
    b"Subject: x\r\n\r\ny\r\n.", b".", b"RSET", b"NOOP", b"VRFY x", b"EXPN x", b"HELP", b"HELP MAIL", b"AUTH PLAIN", b"AUTH LOGIN",
    b"AUTH PLAIN AGEAYg==", b"AUTH X", b"STARTTLS", b"BDAT 5 LAST", b"ETRN x", b"XCLIENT ADDR=127.0.0.1", b"\x00", b"\xff" * 20, b"A" * 2000,
    b"", b" ", b"\tMAIL FROM:<a@b.example>", b"mail from:<a@b.example>", b"GET / HTTP/1.1", b"PROXY TCP4 1.2.3.4 5.6.7.8 1 2", b"\r", b"..",
]  # fmt: skip
ENDS = [b"\r\n"] * 12 + [b"\n", b"\r", b"", b"\r\n\r\n"]


def talk(port: int, chance: random.Random) -> None:
    """One rude conversation, sometimes cut off in the middle; every line heard is a reply."""
    with closing(socket.create_connection(("127.0.0.1", port), timeout=10)) as client:
        polite = [b"EHLO x\r\n", b"MAIL FROM:<a@b.example>\r\n", b"RCPT TO:<notes@crew.example>\r\n", b"DATA\r\n"]
        said = b"".join(polite[: chance.randint(0, 4)])
        for _ in range(chance.randint(1, 12)):
            word = chance.choice(WORDS)
            if chance.random() < 0.1:
                word = mutate(word or b"x", chance, WORDS[:8])[:5000]
            said += word + chance.choice(ENDS)
        try:
            client.sendall(said)
            if chance.random() < 0.2:
                return
            client.sendall(b"\r\n.\r\nQUIT\r\n")
            if chance.random() < 0.1:
                with suppress(OSError):  # the listener may have hung up already
                    client.shutdown(socket.SHUT_WR)
            heard = b""
            while piece := client.recv(65536):
                heard += piece
        except (ConnectionResetError, BrokenPipeError):
            return
    for line in heard.split(b"\r\n")[:-1]:
        assert line[:3].isdigit() and line[3:4] in (b" ", b"-", b""), (said, line)
        assert b"Traceback" not in line and b"Error: (" not in line, (said, line)


def dialogues(count: int, seed: int) -> tuple[int, float]:
    """Messages kept and growth of memory; the listener serves a polite client at the end."""
    import smtplib

    kept: list[int] = [0]

    async def keep(raw: bytes, **how: Any) -> int:
        kept[0] += 1
        return kept[0]

    listener = Listener(keep, domains=["crew.example"], now=lambda: NOW, patience=2.0)
    listener.start()
    chance = random.Random(seed)
    start = 0.0
    try:
        for number in range(count):
            talk(listener.port, chance)
            if number == count // 4:
                gc.collect()
                start = memory()
        before = kept[0]
        with smtplib.SMTP("127.0.0.1", listener.port, timeout=10) as client:
            client.sendmail("a@b.example", [US], b"Subject: x\r\n\r\ny\r\n")
        assert kept[0] == before + 1
    finally:
        listener.stop()
    gc.collect()
    return kept[0], memory() - start


def errors(caplog: pytest.LogCaptureFixture) -> list[str]:
    return [
        record.getMessage() + (record.exc_text or "") for record in caplog.records if record.levelno >= logging.ERROR
    ]


def test_two_hundred_rude_conversations_leave_the_listener_serving(caplog: pytest.LogCaptureFixture) -> None:
    """And nothing in them was an error of ours."""
    dialogues(200, 1)

    assert errors(caplog) == []


@pytest.mark.heavy
def test_ten_thousand_rude_conversations_leave_the_listener_serving(
    capsys: pytest.CaptureFixture[str], caplog: pytest.LogCaptureFixture
) -> None:
    """No error of ours, no growing memory, no leaked connection; figures are printed."""
    descriptors: Callable[[], int] = lambda: len(os.listdir("/proc/self/fd"))  # noqa: E731, PTH208
    caplog.set_level(logging.ERROR)  # captured warnings would be counted as growing memory
    before = descriptors()
    began = time.monotonic()
    kept, growth = dialogues(DIALOGUES, 2026)
    with capsys.disabled():
        sys.stdout.write(
            f"\n{DIALOGUES} conversations in {time.monotonic() - began:.0f} s, {kept} messages kept, memory {growth:+.1f} MB\n"
        )

    assert errors(caplog) == []
    assert growth < 25
    assert descriptors() <= before + 2
