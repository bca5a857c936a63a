"""The whole service between real mail servers: Postfix in front and behind, a checker of signatures, real bounces."""

from __future__ import annotations

import email
import email.policy
import smtplib
import subprocess
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from email.message import EmailMessage
from email.utils import format_datetime
from typing import Any

import dkim
import pytest

from notes_bot import clock
from notes_bot.mail.smtp_in import Listener
from notes_bot.model import Field, Person
from notes_bot.service import Service, ServiceWrong
from notes_bot.settings import MailIn, MailOut, Settings, Trust
from notes_bot.settings import Service as Names
from notes_bot.store import Store
from tests.servers import OpenDkim, Postfix, free_port, need, running, wait_for

SCOUT, GONE, US = "scout@farm.example", "gone@farm.example", "notes@crew.example"


class Letterbox:
    """The crew's own mail server, played by a listener that knows one of its two addresses no more."""

    def __init__(self) -> None:
        self.mails: list[EmailMessage] = []
        self.listener = Listener(
            self._keep, domains=["farm.example"], now=clock.now, takes=lambda address: address == SCOUT
        )
        self.listener.start()

    async def _keep(self, raw: bytes, **_: Any) -> int:
        mail = email.message_from_bytes(raw, policy=email.policy.default)
        assert isinstance(mail, EmailMessage)
        self.mails.append(mail)
        return len(self.mails)


@dataclass
class Town:
    """Everything running."""

    postfix: Postfix
    letterbox: Letterbox
    service: Service
    settings: Settings
    key: bytes

    def write(self, text: str, sender: str = SCOUT, *, number: int = 1, sign: bool = True) -> bytes:
        raw = (
            f"From: {sender}\r\nTo: {US}\r\nSubject: note\r\nDate: {format_datetime(clock.now())}\r\n"
            f"Message-ID: <{number}@farm.example>\r\n\r\n{text}\r\n"
        ).encode()
        heads = [b"from", b"to", b"subject", b"date", b"message-id"]
        return bytes(dkim.sign(raw, b"sel", b"farm.example", self.key, include_headers=heads)) + raw if sign else raw

    def send(self, raw: bytes, sender: str = SCOUT) -> None:
        with smtplib.SMTP("127.0.0.1", self.postfix.port, timeout=20) as client:
            client.sendmail(sender, [US], raw)

    def ask(self, question: Callable[[Store], Any]) -> Any:
        store = Store(self.settings.database)
        try:
            return question(store)
        finally:
            store.close()


@pytest.fixture(scope="module")
def town(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Town]:
    folder = tmp_path_factory.mktemp("town")
    need("postfix", "postfix")
    need("openssl", "openssl")
    private = subprocess.run(["openssl", "genrsa", "-traditional", "2048"], check=True, capture_output=True).stdout
    public = subprocess.run(["openssl", "rsa", "-pubout"], input=private, check=True, capture_output=True).stdout
    record = b"v=DKIM1; k=rsa; p=" + b"".join(public.splitlines()[1:-1])
    letterbox = Letterbox()
    port = free_port()
    with (
        running(OpenDkim(folder / "dkim", {"sel._domainkey.farm.example": record})) as checker,
        running(
            Postfix(port, others={"farm.example": letterbox.listener.port}, milter=checker.port, lifetime="1d")
        ) as postfix,
    ):
        settings = Settings(
            service=Names(folder=folder / "data", address=US),
            mail_in=MailIn(port=port, believe="proof"),
            mail_out=MailOut(way="relay", host="127.0.0.1", port=postfix.port, tls="none"),
            trust=Trust(relays=("mx.crew.example",), check_dkim=False),
            people=(
                Person(1, "scout", "scout", "crew", (SCOUT,)),
                Person(2, "gone", "scout", "crew", (GONE,)),
            ),
            fields=(Field(1, "Kestrel Bottom", "crew"),),
        )
        service = Service(settings, clock.now, lambda _: None)
        service.start()
        yield Town(postfix, letterbox, service, settings, private)
        service.stop()
        letterbox.listener.stop()


def test_a_signed_note_comes_back_as_a_threaded_answer_within_two_seconds(town: Town) -> None:
    """In through Postfix and its checker, out through Postfix, to the crew's own server."""
    started = time.monotonic()
    town.send(town.write("kestrel 6 dug 12 white"))
    wait_for(lambda: town.letterbox.mails)
    took = time.monotonic() - started
    answer = town.letterbox.mails[-1]

    assert took < 5  # two seconds alone on the machine; the road itself is measured in docs
    assert answer["In-Reply-To"] == "<1@farm.example>"
    assert answer["References"].split()[-1] == "<1@farm.example>"
    assert answer["Auto-Submitted"] == "auto-replied"
    assert answer["From"].endswith(f"<{US}>")
    assert "kestrel" in answer.get_content().casefold()


def test_the_same_mail_again_and_a_forged_one_bring_no_answer(town: Town) -> None:
    """A repeat is filed, an unsigned mail is held; neither is written to."""
    town.send(town.write("kestrel 6 dug 13 white", number=2))
    wait_for(lambda: any(m["In-Reply-To"] == "<2@farm.example>" for m in town.letterbox.mails))
    before = len(town.letterbox.mails)
    visits = town.ask(lambda s: len(s.visits(1, clock.today().replace(month=1, day=1), clock.today())))
    raw = town.write("kestrel 6 dug 14 white", number=3)
    town.send(town.write("kestrel 6 dug 13 white", number=2))
    town.send(town.write("kestrel 6 dug 99 white", number=4, sign=False))
    town.send(raw)
    wait_for(lambda: any(m["In-Reply-To"] == "<3@farm.example>" for m in town.letterbox.mails))

    assert len(town.letterbox.mails) == before + 1
    assert town.ask(lambda s: [m.reason for m in s.held_messages()]) == ["unproved"]
    assert town.ask(lambda s: len(s.visits(1, clock.today().replace(month=1, day=1), clock.today()))) == visits + 1


def test_a_real_bounce_comes_home_and_marks_the_person_unreachable(town: Town) -> None:
    """The crew's server knows the address no more; Postfix's report goes to the mail's own envelope sender."""
    town.send(town.write("kestrel 6 dug 15 white", GONE, number=5), GONE)
    wait_for(lambda: not town.ask(lambda s: s.person(2).reachable), 30)

    assert town.ask(lambda s: s.person(1).reachable)


def test_an_answer_by_reply_address_proves_its_writer_without_a_signature(town: Town) -> None:
    """The Reply-To of our own answer is proof enough."""
    wait_for(lambda: town.letterbox.mails)
    reply_to = town.letterbox.mails[0]["Reply-To"].addresses[0].addr_spec
    raw = town.write("kestrel 6 dug 16 white", number=6, sign=False)
    with smtplib.SMTP("127.0.0.1", town.postfix.port, timeout=20) as client:
        client.sendmail(SCOUT, [reply_to], raw)

    wait_for(lambda: any(m["In-Reply-To"] == "<6@farm.example>" for m in town.letterbox.mails))


def test_swaks_is_served_like_any_client(town: Town) -> None:
    """A foreign client, straight to our listener: taken with 250, held for want of proof."""
    program = need("swaks", "swaks")
    port = town.settings.mail_in.port
    command = [program, "--server", f"127.0.0.1:{port}", "--from", SCOUT, "--to", US, "--body", "kestrel none"]
    made = subprocess.run(command, capture_output=True, check=False)

    assert made.returncode == 0, made.stdout
    assert b"250 2.0.0 Kept" in made.stdout


def test_a_second_service_on_the_same_folder_does_not_start(town: Town) -> None:
    """It would send everything twice; the first one is not disturbed."""
    second = Service(replace(town.settings, mail_in=MailIn(port=0)), clock.now, lambda _: None)

    with pytest.raises(ServiceWrong, match="another notes-bot serves"):
        second.start()
