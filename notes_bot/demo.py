"""The demo: an invented crew's season played over real mail on this machine, the clock walked by hand.

The listener, the inbox, the desk, the rounds and the outbox are the real ones; only the time of day is ours.
Every mail goes to the listener through a real SMTP client. Nothing leaves the machine.
"""

from __future__ import annotations

import shutil
import smtplib
import textwrap
import time as stopwatch
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, time, timedelta
from email import message_from_bytes, policy
from email.message import EmailMessage
from email.utils import parseaddr, parsedate_to_datetime
from importlib import resources
from pathlib import Path
from zoneinfo import ZoneInfo

from notes_bot.mail import open_message
from notes_bot.mail.opening import unflowed
from notes_bot.model import Filing, Message
from notes_bot.service import Parts, build
from notes_bot.settings import Settings, read_settings

WIDTH = 76
MARKER = "made-by-notes-bot-demo"
"""A file in the demo's folder: only a folder that holds it is made anew."""
TRANSIT = timedelta(seconds=20)
"""How long a mail of the season was under way."""
LAST_DAY = date(2026, 8, 31)
QUICK_LAST_DAY = date(2026, 7, 3)

Say = Callable[[str], None]


@dataclass
class WalkingClock:
    """A clock that stands still until it is set forward."""

    at: datetime

    def __call__(self) -> datetime:
        return self.at

    def walk_to(self, instant: datetime) -> None:
        self.at = max(self.at, instant)


@dataclass(frozen=True)
class Mail:
    """One raw mail of the season."""

    stem: str
    raw: bytes
    sent_at: datetime
    sender: str


def season() -> list[Mail]:
    """The season's mails in the order they were sent."""
    mails = []
    for file in resources.files("notes_bot.demo_messages").iterdir():
        if file.name.endswith(".eml"):
            raw = file.read_bytes()
            heads = message_from_bytes(raw, policy=policy.compat32)
            sent_at = parsedate_to_datetime(str(heads["Date"])).astimezone(UTC)
            mails.append(Mail(file.name.removesuffix(".eml"), raw, sent_at, parseaddr(str(heads["From"]))[1]))
    return sorted(mails, key=lambda mail: (mail.sent_at, mail.stem))


def crew(folder: Path) -> Settings:
    """The invented crew, with everything kept under ``folder`` and a free port for the listener."""
    with resources.as_file(resources.files("notes_bot.demo_messages") / "crew.toml") as file:
        settings = read_settings(file)
    return replace(
        settings,
        service=replace(settings.service, folder=folder),
        mail_in=replace(settings.mail_in, port=0),
    )


def play(folder: Path, *, say: Say, quick: bool = False) -> int:
    """Play the season and leave all it made in ``folder``; gives an exit status."""
    began = stopwatch.perf_counter()
    folder = folder.resolve()
    if folder.exists():
        if not (folder / MARKER).exists():
            say(f"{folder} is there already and was not made by the demo: name another with --folder")
            return 1
        shutil.rmtree(folder)
    folder.mkdir(parents=True)
    (folder / MARKER).write_text("Everything here was made by notes-bot demo and may be deleted.\n", "utf-8")
    mails = [mail for mail in season() if not quick or mail.sent_at.date() <= QUICK_LAST_DAY]
    settings = crew(folder)
    clock = WalkingClock(mails[0].sent_at - timedelta(hours=6))
    say("An invented crew's season: real mail on this machine, the calendar walked by hand.")
    crew_size = f"{len(settings.people)} people, {len(settings.fields)} fields, {len(mails)} mails"
    say(f"{crew_size}. Temperatures: monthly normals.")
    parts = build(settings, clock)
    parts.listener.start()
    say(f"Listening on 127.0.0.1:{parts.listener.port}.")
    try:
        stage = _Stage(parts, clock, folder, say)
        for mail in mails:
            stage.mornings(until=mail.sent_at)
            stage.deliver(mail)
        last = QUICK_LAST_DAY if quick else LAST_DAY
        stage.mornings(until=datetime.combine(last + timedelta(days=1), time(0), UTC))
    finally:
        parts.close()
    say("")
    say(f"Done in {stopwatch.perf_counter() - began:.0f} s. Everything it made is in {folder}:")
    for line in _inventory(folder):
        say(f"  {line}")
    return 0


@dataclass
class _Stage:
    """Shows the season as it happens."""

    parts: Parts
    clock: WalkingClock
    folder: Path
    say: Say
    _shown: set[str] = field(default_factory=set)

    def deliver(self, mail: Mail) -> None:
        """Send one mail over SMTP and show what came back."""
        self.clock.walk_to(mail.sent_at + TRANSIT)
        began = stopwatch.perf_counter()
        with smtplib.SMTP("127.0.0.1", self.parts.listener.port, local_hostname="phone.crew.example") as client:
            client.sendmail(mail.sender, [self.parts.settings.service.address], mail.raw)
        message = self._as_opened(mail)
        writer = self.parts.store.person_at(message.sender)
        self._head(mail.sent_at, f"{writer.name if writer else mail.sender} writes ({mail.stem.replace('_', ' ')})")
        self._block(message.text, "| ")
        for _, filing in self.parts.rounds.messages():
            self._outcome(filing, stopwatch.perf_counter() - began)
        self._post()

    def mornings(self, until: datetime) -> None:
        """Walk the clock to each morning before an instant: reminders and digests fall due."""
        zone = ZoneInfo(self.parts.settings.service.timezone)
        hours = sorted({person.hour for person in self.parts.settings.people})
        day = self.clock.at.astimezone(zone).date()
        while True:
            for hour in hours:
                morning = datetime.combine(day, time(hour), zone).astimezone(UTC)
                if morning >= until:
                    return
                if morning <= self.clock.at:
                    continue
                self.clock.walk_to(morning)
                self.parts.rounds.close_windows()
                self.parts.rounds.reminders()
                self.parts.rounds.digests()
                self._post()
            day += timedelta(days=1)

    def _as_opened(self, mail: Mail) -> Message:
        return open_message(
            mail.raw,
            arrived_at=self.clock.at,
            door="smtp",
            envelope_from=mail.sender,
            envelope_to=(self.parts.settings.service.address,),
            ours=lambda address: address.endswith("@" + self.parts.settings.domain) and address.startswith("notes"),
            gateways=self.parts.settings.texts.mail_gateways,
        )

    def _outcome(self, filing: Filing | None, seconds: float) -> None:
        if filing is None:
            self.say("  an error of ours: the message is kept and set aside")
        elif filing.state == "held":
            self.say(f"  held for the supervisor, not answered ({filing.reason})")
        elif filing.state == "filed":
            self.say(f"  filed, not answered ({filing.reason})")
        elif not filing.outgoing:
            self.say("  kept, no answer needed")
        else:
            self.say(f"  answered in {seconds:.1f} s")

    def _post(self) -> None:
        """Let the outbox deliver, and show what left."""
        self.parts.post_all()
        new = [path for path in self.parts.settings.outbox_folder.glob("*.eml") if path.name not in self._shown]
        for path in sorted(new, key=lambda path: (path.stat().st_mtime_ns, path.name)):
            self._shown.add(path.name)
            mail = message_from_bytes(path.read_bytes(), policy=policy.default)
            if isinstance(mail, EmailMessage):
                self._show(mail)

    def _show(self, mail: EmailMessage) -> None:
        kind = str(mail["Message-ID"]).lstrip("<").partition("-")[0]
        to = parseaddr(str(mail["To"]))[1]
        person = next(
            (p for p in self.parts.settings.people if to in (*p.addresses, _at_gateway(p.addresses[0], to))), None
        )
        name = person.name if person else to
        if kind != "answer":
            self._head(self.clock.at, f"{kind} to {name}: {mail['Subject']}")
        text = mail.get_body(("plain",))
        self._block(unflowed(str(text.get_content())) if text is not None else "", "> ")
        self._keep_parts(mail, kind, name)

    def _keep_parts(self, mail: EmailMessage, kind: str, name: str) -> None:
        """Leave digests as files one can look at, and calendar files as files one can open."""
        stem = f"{self.clock.at:%Y-%m-%d}_{kind}_{name.replace(' ', '_')}"
        for part in mail.walk():
            data = part.get_payload(decode=True)
            if not isinstance(data, bytes):
                continue
            if part.get_content_type() == "text/calendar":
                _write(self.folder / "calendar" / f"{stem}.ics", data)
            elif kind == "digest" and part.get_content_type() == "image/png":
                _write(self.folder / "digests" / f"{stem}_{part.get_filename() or 'picture.png'}", data)
            elif kind == "digest" and part.get_content_type() == "text/html":
                _write(self.folder / "digests" / f"{stem}.html", _with_files(mail, data, stem))
        if kind == "digest":
            _write(self.folder / "digests" / f"{stem}.eml", mail.as_bytes(policy=policy.SMTP))

    def _head(self, at: datetime, what: str) -> None:
        local = at.astimezone(ZoneInfo(self.parts.settings.service.timezone))
        self.say("")
        self.say(f"{local:%a} {local.day} {local:%b %H:%M}  {what}")

    def _block(self, text: str, mark: str) -> None:
        for line in text.strip().splitlines():
            for part in textwrap.wrap(line, WIDTH - 4, break_on_hyphens=False) or [""]:
                self.say(f"  {mark}{part}".rstrip())


def _with_files(mail: EmailMessage, page: bytes, stem: str) -> bytes:
    """The page with its inline pictures named as the files beside it."""
    for part in mail.walk():
        content_id = str(part["Content-ID"] or "").strip("<>")
        if content_id and part.get_filename():
            page = page.replace(f"cid:{content_id}".encode(), f"{stem}_{part.get_filename()}".encode())
    return page


def _at_gateway(address: str, to: str) -> str:
    return f"{address.lstrip('+')}@{to.partition('@')[2]}" if address.startswith("+") else ""


def _write(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)


def _inventory(folder: Path) -> Iterator[str]:
    """What is in the folder, a line a kind."""
    for path in sorted(folder.iterdir()):
        if path.is_dir():
            kinds: dict[str, int] = {}
            for file in path.rglob("*"):
                if file.is_file():
                    kinds[file.suffix] = kinds.get(file.suffix, 0) + 1
            yield f"{path.name}/  " + ", ".join(f"{count} {kind}" for kind, count in sorted(kinds.items()))
        elif path.name != MARKER and not path.name.endswith(("-wal", "-shm")):
            yield f"{path.name}  {path.stat().st_size // 1024} kB"
