"""The running service, as its keeper meets it: a real process, a real client, stopped and killed."""

from __future__ import annotations

import re
import signal
import smtplib
import socket
import subprocess
import sys
import time
import tomllib
from contextlib import closing
from dataclasses import replace
from email import message_from_bytes, policy
from email.message import EmailMessage
from email.utils import format_datetime
from pathlib import Path

import pytest

from notes_bot import clock
from notes_bot.model import DayTemperature, Field
from notes_bot.service import Service
from notes_bot.settings import STARTER, MailIn, MailOut, Settings, settings_from
from notes_bot.settings import Service as ServiceSettings
from notes_bot.store import Store
from notes_bot.weather import WeatherWrong


class Running:
    """One ``notes-bot serve`` in a folder of its own."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.settings = folder / "notes-bot.toml"
        self.settings.write_text(STARTER.replace("port = 8025", "port = 0"), "utf-8")
        self.process: subprocess.Popen[str] | None = None
        self.port = 0

    def start(self) -> None:
        self.process = subprocess.Popen(
            [sys.executable, "-u", "-m", "notes_bot", "serve", "--settings", str(self.settings)],
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        line = self.process.stdout.readline()
        found = re.search(r"listening for mail at 127\.0\.0\.1:(\d+)", line)
        assert found, line + self.process.stdout.read()
        self.port = int(found[1])

    def send(self, text: str, *, sender: str = "scout1@crew.example", message_id: str = "<1@phone.example>") -> None:
        mail = EmailMessage()
        mail["From"], mail["To"], mail["Subject"] = sender, "notes@crew.example", "note"
        mail["Date"], mail["Message-ID"] = format_datetime(clock.now()), message_id
        mail.set_content(text)
        with smtplib.SMTP("127.0.0.1", self.port, timeout=10) as client:
            client.send_message(mail, sender, ["notes@crew.example"])

    def answers(self, most: int, within: float = 20.0) -> list[EmailMessage]:
        """The mails in the outbox folder once there are ``most`` of them."""
        end = time.monotonic() + within
        while True:
            files = sorted((self.folder / "notes-bot-data" / "outbox").glob("answer*.eml"))
            if len(files) >= most or time.monotonic() > end:
                return [message_from_bytes(file.read_bytes(), policy=policy.default) for file in files]
            time.sleep(0.02)

    def settled(self, messages: int, within: float = 20.0) -> dict[str, int]:
        """The counts once nothing waits and this many messages are in the inbox."""
        store = Store(self.folder / "notes-bot-data" / "notes.db")
        try:
            end = time.monotonic() + within
            while True:
                counts = store.counts()
                taken = sum(n for state, n in counts.items() if state.startswith("inbox"))
                if (taken >= messages and not counts.get("inbox waiting")) or time.monotonic() > end:
                    return counts
                time.sleep(0.02)
        finally:
            store.close()

    def stop(self, how: signal.Signals = signal.SIGTERM) -> int:
        if self.process is None:
            return -1
        if self.process.poll() is None:
            self.process.send_signal(how)
        code = self.process.wait(timeout=30)
        self.process.stdout.close()
        self.process = None
        return code


@pytest.fixture
def service(tmp_path):
    running = Running(tmp_path)
    running.start()
    yield running
    running.stop(signal.SIGKILL)


def test_a_note_is_answered_as_a_threaded_reply_and_stored(service):
    """Sent by a real client, the note comes back as one reply in its conversation."""
    service.send("kestrel, 6 pl shovel, 12 white 3 yellow")
    (answer,) = service.answers(1)

    assert answer["To"] == "scout1@crew.example"
    assert answer["In-Reply-To"] == "<1@phone.example>"
    assert str(answer["References"]).split()[-1] == "<1@phone.example>"
    assert answer["Auto-Submitted"] == "auto-replied"
    assert answer.get_body(("plain",)).get_content().startswith("Kestrel Bottom")
    store = Store(service.folder / "notes-bot-data" / "notes.db")
    (visit,) = store.latest_visits_by(1)
    store.close()
    assert (visit.note.females.white, visit.note.females.yellow, visit.note.plants) == (12, 3, 6)


def test_the_same_message_again_changes_nothing(service):
    """A repeat is taken (250), filed, and neither recorded nor answered."""
    for _ in range(3):
        service.send("kestrel, 6 pl shovel, 12 white 3 yellow")
    counts = service.settled(3)

    assert counts["inbox done"] == 1
    assert counts["inbox filed"] == 2
    assert len(service.answers(1)) == 1


def test_a_stranger_is_taken_and_held_but_not_answered(service):
    """No mail leaves for somebody who is not in the crew."""
    service.send("kestrel 6 pl 12 white", sender="someone@elsewhere.example")
    counts = service.settled(1)

    assert counts == {"inbox held": 1}


def test_it_stops_when_told_and_twice_is_harmless(service):
    """SIGTERM ends it with status 0; a second one in the middle of stopping changes nothing."""
    service.process.send_signal(signal.SIGTERM)
    service.process.send_signal(signal.SIGTERM)

    assert service.process.wait(timeout=30) == 0
    assert "nothing taken was lost" in service.process.stdout.read()
    assert service.stop() == 0


def test_what_was_taken_before_a_kill_is_answered_after_it(service):
    """kill -9 right after the 250: the next start deals with the message, once."""
    service.send("kestrel, 6 pl shovel, 12 white 3 yellow")
    service.stop(signal.SIGKILL)
    service.start()
    counts = service.settled(1)

    assert counts["inbox done"] == 1
    assert len(service.answers(1)) == 1


def test_a_port_that_is_taken_is_told_in_one_line(service, tmp_path_factory):
    """The second service says which port and what to do, and ends with status 2."""
    folder = tmp_path_factory.mktemp("second")
    settings = folder / "second.toml"
    settings.write_text(STARTER.replace("port = 8025", f"port = {service.port}"), "utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "notes_bot", "serve", "--settings", str(settings)],
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )

    assert done.returncode == 2
    assert "set another mail_in.port" in done.stderr


def test_neighbouring_fields_share_one_question_to_the_weather_service(tmp_path, monkeypatch):
    """Two fields in one tenth of a degree cost one question; a service that fails for another place stops nothing."""
    fields = (
        Field(1, "Near", "crew", latitude=42.01, longitude=-93.62),
        Field(2, "Nearer", "crew", latitude=42.02, longitude=-93.63),
        Field(3, "Far", "crew", latitude=45.0, longitude=-96.0),
        Field(4, "Nowhere", "crew"),
    )
    settings = Settings(service=ServiceSettings(folder=tmp_path), fields=fields)
    store = Store(settings.database)
    store.adopt((), fields)
    asked = []

    def answer(latitude, longitude, today, client):
        asked.append((latitude, longitude))
        if latitude > 44:
            raise WeatherWrong("no answer")
        return (DayTemperature(today, 14.0, 27.0),)

    monkeypatch.setattr("notes_bot.service.live_temperatures", answer)
    monkeypatch.setattr("notes_bot.service.WEATHER_PACE_SECONDS", 0.0)
    said = []
    Service(settings, clock.now, said.append)._weather()
    day = clock.today()

    assert asked == [(42.0, -93.6), (45.0, -96.0)]
    assert store.temperatures("near", day, day) == store.temperatures("nearer", day, day) != ()
    assert store.temperatures("far", day, day) == ()
    assert said == ["no live temperatures for 45.0, -96.0: no answer"]
    store.close()


def test_a_relay_that_hangs_does_not_hold_up_the_end_and_its_message_goes_out_at_the_next_start(tmp_path, monkeypatch):
    """Stopped in the middle of a delivery: within the grace, and afterwards the same bytes leave once."""
    monkeypatch.setattr("notes_bot.service.GRACE_SECONDS", 0.5)
    with closing(socket.create_server(("127.0.0.1", 0))) as deaf:
        deaf.settimeout(20)
        relay = MailOut(way="relay", host="127.0.0.1", port=deaf.getsockname()[1], tls="none")
        settings = replace(
            settings_from(tomllib.loads(STARTER), tmp_path), mail_out=relay, mail_in=MailIn(host="127.0.0.1", port=0)
        )
        service = Service(settings, clock.now, lambda _: None)
        service.start()
        mail = EmailMessage()
        mail["From"], mail["Date"], mail["Message-ID"] = (
            "scout1@crew.example",
            format_datetime(clock.now()),
            "<1@x.example>",
        )
        mail.set_content("kestrel, 6 pl shovel, 12 white")
        with smtplib.SMTP("127.0.0.1", service.parts.listener.port, timeout=10) as client:
            client.send_message(mail, "scout1@crew.example", ["notes@crew.example"])
        hanging, _ = deaf.accept()
        hanging.sendall(b"220 hello\r\n")
        began = time.monotonic()
        service.stop()
        took = time.monotonic() - began
        hanging.close()
    assert took < 5
    store = Store(settings.database)
    assert store.counts() == {"inbox done": 1, "outbox waiting": 1}
    store.close()
    again = Service(replace(settings, mail_out=MailOut()), clock.now, lambda _: None)
    again.start()
    for _ in range(200):
        if list(settings.outbox_folder.glob("*.eml")):
            break
        time.sleep(0.05)
    again.stop()

    assert len(list(settings.outbox_folder.glob("answer-1-*.eml"))) == 1
