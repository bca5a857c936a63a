"""Finished replies as mail, and mail on its way: headers that programs understand, relays that misbehave."""

from __future__ import annotations

import email
import email.policy
import shutil
import socket
import subprocess
import threading
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, contextmanager
from datetime import UTC, datetime, timedelta, timezone
from email.message import EmailMessage
from pathlib import Path
from typing import Any

import icalendar
import pytest
from hypothesis import given
from hypothesis import strategies as st

from notes_bot.mail.opening import open_message, unflowed
from notes_bot.mail.smtp_in import Listener
from notes_bot.mail.smtp_out import Folder, Relay, Sending, Several, TextFolder, judge, new_message_id, write_mail
from notes_bot.model import Picture, Reply
from tests.mail_samples import clients
from tests.servers import end, free_port, need, wait_for

NOW = datetime(2026, 7, 6, 14, 2, 11, tzinfo=timezone(timedelta(hours=-5)))
ICS = b"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//x//\r\nMETHOD:PUBLISH\r\nEND:VCALENDAR\r\n"
LONG_ID = "<" + "A" * 60 + "0C" + "b" * 40 + "@BN8PR12MB1234.namprd12.prod.outlook.example>"


def written(reply: Reply, **options: Any) -> bytes:
    return write_mail(
        reply,
        **{
            "message_id": "<answer-1@crew.example>",
            "date": NOW,
            "from_address": "notes@crew.example",
            "from_name": "field notes",
            "to": "scout@farm.example",
            "kind": "answer",
            **options,
        },
    )


MAIL = written(Reply("x", "y"))


def read(raw: bytes) -> EmailMessage:
    made = email.message_from_bytes(raw, policy=email.policy.default)
    assert isinstance(made, EmailMessage)
    return made


def text(mail: EmailMessage) -> str:
    return str(mail.get_content()).replace("\r\n", "\n")


def test_an_answer_is_plain_threaded_and_marked_as_automatic() -> None:
    """What RFC 3834 and 5322 ask for, and nothing else."""
    raw = written(
        Reply("North 40", "North 40: early white.\n\nLook again 9-13 Jul.\n"),
        in_reply_to="<note@farm.example>",
        references=["<root@crew.example>", "<note@farm.example>"],
        reply_to="notes+abc@crew.example",
    )
    mail = read(raw)

    assert mail.get_content_type() == "text/plain"
    assert text(mail) == "North 40: early white.\n\nLook again 9-13 Jul.\n"
    assert mail["From"] == "field notes <notes@crew.example>"
    assert mail["In-Reply-To"] == "<note@farm.example>"
    assert mail["References"] == "<root@crew.example> <note@farm.example>"
    assert mail["Auto-Submitted"] == "auto-replied"
    assert mail["Reply-To"] == "field notes <notes+abc@crew.example>"
    assert mail["Message-ID"] == "<answer-1@crew.example>"
    assert mail["Date"].datetime == NOW


def test_every_line_ends_in_crlf_is_ascii_and_short_enough() -> None:
    """RFC 5321 and 5322: whatever the text holds."""
    raw = written(
        Reply("Raíz ½", "a" * 3000 + "\nñandú – “x”\n.\n..dot\nFrom here\n" + "é" * 500),
        references=[LONG_ID] * 1 + [f"<{n}@x.example>" for n in range(100)],
        in_reply_to=LONG_ID.replace("A", "C"),
    )

    assert raw.isascii()
    assert b"\n" not in raw.replace(b"\r\n", b"")
    assert max(len(line) for line in raw.split(b"\r\n")) <= 998
    assert read(raw)["Subject"] == "Raíz ½"
    assert "“x”" in read(raw).get_content()


def test_long_message_ids_are_never_encoded() -> None:
    """The standard library would write =?utf-8?q?...?= and break the thread in some programs."""
    raw = written(Reply("x", "y"), in_reply_to=LONG_ID, references=[LONG_ID.replace("A", "B")])

    assert b"=?" not in raw
    assert f"In-Reply-To: {LONG_ID}\r\n".encode() in raw
    assert LONG_ID.encode() in raw.split(b"References:")[1]


def test_a_long_conversation_keeps_its_root_and_its_newest_ids() -> None:
    """References do not grow for ever."""
    raw = written(Reply("x", "y"), references=[f"<{n}@x.example>" for n in range(100)], in_reply_to="<99@x.example>")
    chain = read(raw)["References"].split()

    assert (chain[0], chain[-1], len(chain)) == ("<0@x.example>", "<99@x.example>", 20)


@pytest.mark.parametrize(
    "options",
    [
        {"to": "a@b.example\r\nBcc: evil@x.example"},
        {"to": "a b@c.example"},
        {"from_address": "x"},
        {"in_reply_to": "<a@b>\r\nBcc: evil@x.example"},
        {"references": ["<a b@c>"]},
        {"message_id": "no brackets"},
        {"reply_to": "a@b.example, c@d.example"},
        {"unsubscribe": "a@b.example>,<http://evil.example"},
        {"list_id": "x>\r\nBcc: y"},
        {"date": datetime(2026, 7, 6)},  # noqa: DTZ001 - the naive one is the point
    ],
)
def test_nothing_can_be_injected_into_headers(options: dict[str, Any]) -> None:
    """Addresses and ids are checked, not escaped."""
    with pytest.raises(ValueError, match=r"."):
        written(Reply("x", "y"), **options)


def test_line_breaks_in_subjects_and_names_become_spaces() -> None:
    """Field names come from people; an answer must not fail over one."""
    raw = written(Reply("North\r\nBcc: evil@x.example", "y\x00\x1b"), from_name="field\nnotes", to_name='a "b" <c>')

    assert read(raw)["Bcc"] is None
    assert read(raw)["Subject"] == "North Bcc: evil@x.example"
    assert text(read(raw)) == "y\n"


@pytest.mark.parametrize(
    "subject",
    [
        "north crew, safra até qua 29 jun: com NCS 10, em dúvida 5, não olhado 3",
        "north crew, Wed 29 Jun: 2 to decide, 6 overdue, 5 new, 4 due this week",
        "crew é, a b" * 12,
    ],
)
def test_a_long_subject_arrives_as_it_was_written(subject: str) -> None:
    """No space is lost where one word must be encoded and its neighbour not, and the first line is not empty."""
    raw = written(Reply(subject, "y"))

    assert read(raw)["Subject"] == subject
    assert b"Subject:\r\n" not in raw


@given(st.text(st.sampled_from("abcé ã,:1ñ"), min_size=1, max_size=190).map(lambda text: " ".join(text.split())))
def test_every_subject_arrives_as_it_was_written(subject: str) -> None:
    """Whatever words and accents it has."""
    assert read(written(Reply(subject, "y")))["Subject"] == subject


def test_a_digest_has_text_html_pictures_and_a_calendar() -> None:
    """text + (html + inline pictures) + .ics; each part as it went in."""
    picture = Picture("season-1", "north forty.png", clients.png(), "a chart")
    reply = Reply(
        "Digest", "text ½", html='<p>½ <img src="cid:season-1" alt="a chart"></p>', pictures=(picture,), calendar=ICS
    )
    raw = written(reply, kind="digest", list_id="digest.crew.example", unsubscribe="notes+stop@crew.example")
    mail = read(raw)
    kinds = [part.get_content_type() for part in mail.walk()]

    assert " ".join(kinds) == (
        "multipart/mixed multipart/alternative text/plain multipart/related text/html image/png text/calendar"
    )
    parts = {part.get_content_type(): part for part in mail.walk()}
    assert parts["image/png"].get_content() == clients.png()
    assert parts["image/png"]["Content-ID"] == "<season-1>"
    assert "½" in parts["text/html"].get_content()
    assert parts["text/calendar"].get_param("method") == "PUBLISH"
    assert parts["text/calendar"].get_filename() == "look-again.ics"
    assert icalendar.Calendar.from_ical(parts["text/calendar"].get_content())["METHOD"] == "PUBLISH"
    assert mail["Auto-Submitted"] == "auto-generated"
    assert mail["List-Unsubscribe"] == "<mailto:notes+stop@crew.example?subject=stop>"
    assert mail["List-Id"] == "<digest.crew.example>"


def test_what_we_write_we_recognise_as_ours() -> None:
    """Mail that comes back to us is filed, whatever its envelope says."""
    raw = written(Reply("x", "y"))
    back = open_message(
        raw, arrived_at=NOW, door="smtp", envelope_from="other@x.example", ours=lambda a: a == "notes@crew.example"
    )

    assert back.automatic == "ourselves"


def test_message_ids_are_made_from_tokens_only() -> None:
    """The same token, the same id; nothing that could break a header."""
    assert new_message_id("crew.example", "answer-7") == "<answer-7@crew.example>"
    for token in ("a b", "a>b", "", "x" * 300, "a\r\nb"):
        with pytest.raises(ValueError, match=r"."):
            new_message_id("crew.example", token) if token else new_message_id("crew example", "x")


def test_long_lines_are_broken_softly_at_72_columns_and_joined_again() -> None:
    """format=flowed (RFC 3676): no line over 72 columns and the space behind it, and nothing lost; texts stay whole."""
    long = "Kestrel Bottom: females seen, 7.7 a plant, 21 Jun, first scout; gen 1, peak, yellow; look 6-12 Jul. " * 3
    text = f"{long.strip()}\n\n> not a quote\n- short\n"
    mail = read(written(Reply("s", text), kind="digest"))
    body = mail.get_content().replace("\r\n", "\n")

    assert mail["Content-Type"].params["format"] == "flowed"
    assert max(len(line.rstrip(" ")) for line in body.splitlines()) <= 72
    assert unflowed(body) == text
    short = read(written(Reply("s", long.strip()), by_text=True))
    assert short.get_content().strip() == long.strip()


@pytest.mark.parametrize(
    ("code", "text", "outcome", "whose"),
    [
        (451, "4.3.0 later", "later", ""),
        (421, "going down", "later", ""),
        (550, "5.1.1 no such user", "never", "person"),
        (550, "no such user", "never", "person"),
        (552, "5.2.2 mailbox full", "later", ""),
        (550, "5.7.1 spam", "never", "ours"),
        (554, "5.7.1 relay denied", "never", "ours"),
        (535, "5.7.8 bad password", "never", "ours"),
        (552, "5.3.4 too big", "never", "ours"),
    ],
)
def test_reply_codes_are_judged_by_whose_fault_they_are(code: int, text: str, outcome: str, whose: str) -> None:
    """A full box is emptied some day; a policy refusal is ours to mend; an unknown user is the person's address."""
    judged = judge(code, text)

    assert (judged.outcome, judged.whose) == (outcome, whose)


# --- leaving ---


def test_a_folder_takes_each_mail_once_however_often_it_is_sent(tmp_path: Path) -> None:
    """The file is named after the Message-ID, and is there whole or not at all."""
    raw = written(Reply("x", "y"))
    way = Folder(tmp_path / "out")

    assert way.send("a@b.example", "c@d.example", raw).sent
    assert way.send("a@b.example", "c@d.example", raw).sent
    assert [path.name for path in (tmp_path / "out").iterdir()] == ["answer-1.eml"]
    assert (tmp_path / "out" / "answer-1.eml").read_bytes() == raw


def test_a_folder_that_cannot_be_written_is_a_delay(tmp_path: Path) -> None:
    """Not a loss."""
    (tmp_path / "out").write_text("a file where the folder should be")
    sending = Folder(tmp_path / "out").send("a@b.example", "c@d.example", written(Reply("x", "y")))

    assert (sending.outcome, sending.way_down) == ("later", True)


def test_a_text_answer_becomes_a_file_for_its_number(tmp_path: Path) -> None:
    """Only numbers; no path tricks through names."""
    way = TextFolder(tmp_path / "out")

    assert way.send("answer-7/../../x", "+15155550101", "North 40: ½".encode()).sent
    assert [path.name for path in (tmp_path / "out").iterdir()] == ["OUTC00000000_000000_00_+15155550101_answer7x.txt"]
    assert way.send("a", "../../etc/x", b"x").outcome == "never"


class Kept:
    def __init__(self) -> None:
        self.messages: list[dict[str, Any]] = []

    async def __call__(self, raw: bytes, **how: Any) -> int:
        self.messages.append({"raw": raw, **how})
        return len(self.messages)


@pytest.fixture
def server() -> Iterator[tuple[Listener, Kept]]:
    kept = Kept()
    listener = Listener(kept, domains=["farm.example"], now=lambda: NOW.astimezone(UTC), patience=1.0)
    listener.start()
    yield listener, kept
    listener.stop()


def test_a_relay_takes_mail_over_one_connection(server: tuple[Listener, Kept]) -> None:
    """The bytes arrive as they were written, dots included."""
    listener, kept = server
    relay = Relay("127.0.0.1", listener.port, tls="none")
    raw = written(Reply("x", ".\n..\n.dot\n"))
    results = [relay.send("b@crew.example", "scout@farm.example", raw) for _ in range(3)]
    relay.close()

    assert all(result.sent for result in results)
    assert [m["raw"] for m in kept.messages] == [raw] * 3
    assert kept.messages[0]["envelope_from"] == "b@crew.example"


def test_a_refused_recipient_is_told_and_the_connection_goes_on(server: tuple[Listener, Kept]) -> None:
    """550 for one, 250 for the next, on the same connection."""
    listener, _ = server
    relay = Relay("127.0.0.1", listener.port, tls="none")
    refused = relay.send("b@crew.example", "x@elsewhere.example", written(Reply("x", "y")))
    taken = relay.send("b@crew.example", "scout@farm.example", written(Reply("x", "y")))
    relay.close()

    assert (refused.outcome, refused.status) == ("never", "5.7.1")
    assert taken.sent


def test_a_relay_that_hung_up_in_the_meantime_is_connected_again_at_once(server: tuple[Listener, Kept]) -> None:
    """An idle connection that the server closed costs no try."""
    listener, kept = server
    relay = Relay("127.0.0.1", listener.port, tls="none")
    relay.send("b@crew.example", "scout@farm.example", written(Reply("x", "y")))
    assert relay._open is not None
    assert relay._open.sock is not None
    relay._open.sock.shutdown(socket.SHUT_RDWR)

    assert relay.send("b@crew.example", "scout@farm.example", written(Reply("x", "y"))).sent
    assert len(kept.messages) == 2
    relay.close()


def test_no_server_no_tls_no_login_close_the_way_not_the_message(server: tuple[Listener, Kept]) -> None:
    """What says nothing about a mail is no reason to give that mail up."""
    listener, _ = server
    raw = written(Reply("x", "y"))
    nobody = Relay("127.0.0.1", free_port(), tls="none").send("b@crew.example", "scout@farm.example", raw)
    plain = Relay("127.0.0.1", listener.port, tls="starttls").send("b@crew.example", "scout@farm.example", raw)
    login = Relay("127.0.0.1", listener.port, "u", "p", tls="none").send("b@crew.example", "scout@farm.example", raw)
    unknown = Relay("no-such-host.invalid", 25, tls="none").send("b@crew.example", "scout@farm.example", raw)

    for sending in (nobody, plain, login, unknown):
        assert (sending.outcome, sending.way_down) == ("later", True), sending


@contextmanager
def sink(*options: str) -> Iterator[int]:
    """Postfix's smtp-sink: a server that misbehaves as told."""
    program = need("smtp-sink", "postfix")
    port = free_port()
    process = subprocess.Popen(
        [program, "-u", "nobody", *options, f"127.0.0.1:{port}", "50"],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )

    def up() -> bool:
        with socket.socket() as probe:
            return probe.connect_ex(("127.0.0.1", port)) == 0

    try:
        wait_for(up)
        yield port
    finally:
        end(process)


@pytest.mark.parametrize(
    ("options", "outcome", "way_down"),
    [
        ((), "sent", False),
        (("-f", "RCPT", "-B", "550 5.1.1 no such user"), "never", False),
        (("-r", ".", "-b", "451 4.3.0 later"), "later", False),
        (("-f", ".", "-B", "554 5.7.1 spam"), "never", False),
        (("-q", "."), "later", False),
        (("-q", "RCPT"), "later", True),
        (("-Q", "MAIL"), "later", True),
        (("-q", "CONNECT"), "later", True),
        (("-f", "CONNECT"), "later", True),
        (("-f", "DATA", "-B", "554 5.7.1 no"), "never", False),
    ],
)
def test_every_way_in_which_a_server_can_fail_is_judged(options: tuple[str, ...], outcome: str, way_down: bool) -> None:
    """Refused, put off, or hung up at each step of the dialogue."""
    with sink(*options) as port:
        relay = Relay("127.0.0.1", port, tls="none", timeout=5)
        sending = relay.send("b@crew.example", "scout@farm.example", written(Reply("x", "y")))
        relay.close()

    assert (sending.outcome, sending.way_down) == (outcome, way_down), sending


def test_a_server_that_says_nothing_is_given_up_after_a_while() -> None:
    """No thread hangs for ever."""
    with closing(socket.create_server(("127.0.0.1", 0))) as deaf:
        started = time.monotonic()
        sending = Relay("127.0.0.1", deaf.getsockname()[1], tls="none", timeout=0.5).send(
            "b@crew.example", "scout@farm.example", written(Reply("x", "y"))
        )

    assert (sending.outcome, sending.way_down) == ("later", True)
    assert time.monotonic() - started < 3


def test_our_mail_survives_a_foreign_client_library(server: tuple[Listener, Kept]) -> None:
    """swaks hands our bytes over as it would any mail."""
    if shutil.which("swaks") is None:
        pytest.skip("swaks is not installed (apt-get install swaks)")
    listener, kept = server
    raw = written(Reply("x", "North 40\n.\nend"))
    command = [
        "swaks",
        "--server",
        f"127.0.0.1:{listener.port}",
        "--from",
        "b@crew.example",
        "--to",
        "scout@farm.example",
    ]
    made = subprocess.run([*command, "--data", "-"], input=raw, capture_output=True, check=False)

    assert made.returncode == 0, made.stdout
    assert text(read(kept.messages[0]["raw"])).rstrip("\n") == "North 40\n.\nend"


def test_sending_is_not_disturbed_by_threads_of_the_listener(server: tuple[Listener, Kept]) -> None:
    """Several relays at once into one server, each mail once."""
    listener, kept = server

    def go(which: int) -> None:
        relay = Relay("127.0.0.1", listener.port, tls="none", most_per_connection=3)
        for count in range(10):
            result: Sending = relay.send("b@crew.example", f"s{which}-{count}@farm.example", written(Reply("x", "y")))
            assert result.sent
        relay.close()

    threads = [threading.Thread(target=go, args=(which,)) for which in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    assert len({m["envelope_to"][0] for m in kept.messages}) == 40


def test_a_hanging_relay_is_broken_off_when_we_stop_and_nothing_is_sent_afterwards() -> None:
    """From another thread, within moments; the message counts as put off and its door as closed."""
    with closing(socket.create_server(("127.0.0.1", 0))) as deaf:
        relay = Relay("127.0.0.1", deaf.getsockname()[1], tls="none", connect_timeout=2.0)
        way = Several([relay])
        deaf.settimeout(5)
        found: list[Any] = []
        thread = threading.Thread(target=lambda: found.append(way.send("b@crew.example", "s@farm.example", MAIL)))
        thread.start()
        peer, _ = deaf.accept()
        peer.sendall(b"220 hello\r\n")
        peer.recv(100)  # EHLO, never answered
        way.hang_up()
        thread.join(timeout=5)

        assert not thread.is_alive()
        assert (found[0].outcome, found[0].way_down) == ("later", True)
        assert way.send("b@crew.example", "s@farm.example", MAIL).outcome == "later"
        peer.close()


def test_several_connections_serve_several_threads(server: tuple[Listener, Kept]) -> None:
    """Each thread has one to itself, and all mails arrive once."""
    listener, kept = server
    way = Several([Relay("127.0.0.1", listener.port, tls="none") for _ in range(3)])
    with ThreadPoolExecutor(3) as pool:
        ends = list(pool.map(lambda n: way.send("b@crew.example", f"s{n}@farm.example", MAIL), range(30)))
    way.close()

    assert all(end.sent for end in ends)
    assert sorted(m["envelope_to"][0] for m in kept.messages) == sorted(f"s{n}@farm.example" for n in range(30))
