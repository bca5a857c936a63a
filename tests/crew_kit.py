"""A small crew with the real store, desk and rounds, and a clock set by hand: what tests of the road need."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from email.message import EmailMessage
from email.utils import format_datetime
from pathlib import Path

from notes_bot.demo import WalkingClock
from notes_bot.model import Field, Filing, Person
from notes_bot.service import Parts, build
from notes_bot.settings import MailIn, Service, Settings

US = "notes@crew.example"
SCOUT, OTHER, SUPERVISOR = "scout1@crew.example", "scout2@crew.example", "supervisor@crew.example"
PEOPLE = (
    Person(1, "first scout", "scout", "crew", (SCOUT,)),
    Person(2, "second scout", "scout", "crew", (OTHER,), language="es", day_first=True),
    Person(3, "supervisor", "supervisor", "crew", (SUPERVISOR,)),
)
FIELDS = (
    Field(1, "Kestrel Bottom", "crew", latitude=42.06, longitude=-93.87, planted=date(2026, 5, 6)),
    Field(2, "Old Mill East", "crew", latitude=42.12, longitude=-93.70, planted=date(2026, 5, 12)),
    Field(3, "Harrow Ridge 3", "crew", latitude=42.02, longitude=-93.95, planted=date(2026, 5, 9)),
)


class Crew:
    """Sends notes and reads what came of them."""

    def __init__(self, folder: Path, at: datetime, settings: Settings | None = None) -> None:
        self.clock = WalkingClock(at)
        self.settings = settings or Settings(
            service=Service(folder=folder, address=US),
            mail_in=MailIn(port=0),
            people=PEOPLE,
            fields=FIELDS,
        )
        self.parts: Parts = build(self.settings, self.clock)
        self.sent = 0

    def note(self, text: str, sender: str = SCOUT, *, reply_to: str = "", **heads: str) -> Filing | None:
        """One mail through inbox and desk; gives what it led to, ``None`` when it failed."""
        self.keep(text, sender, reply_to=reply_to, **heads)
        return self.parts.rounds.messages()[-1][1]

    def keep(self, text: str, sender: str = SCOUT, *, reply_to: str = "", **heads: str) -> int:
        """One mail into the inbox, no further."""
        self.sent += 1
        self.clock.walk_to(self.clock.at + timedelta(minutes=1))
        mail = EmailMessage()
        mail["From"], mail["To"], mail["Subject"] = sender, US, ""
        mail["Date"] = format_datetime(self.clock.at)
        mail["Message-ID"] = heads.pop("message_id", f"<{self.sent}@phone.example>")
        if reply_to:
            mail["In-Reply-To"] = mail["References"] = reply_to
        for name, value in heads.items():
            mail[name.replace("_", "-")] = value
        mail.set_content(text)
        return self.raw(bytes(mail), sender)

    def raw(self, raw: bytes, sender: str = SCOUT, *, peer: str = "127.0.0.1", to: str = US) -> int:
        return self.parts.inbox.keep(
            raw, door="smtp", peer=peer, envelope_from=sender, envelope_to=[to], arrived_at=self.clock.at
        )

    def body(self, filing: Filing | None) -> str:
        """The text of the one answer."""
        assert filing is not None
        (outgoing,) = filing.outgoing
        return outgoing.body

    def visits(self, field_id: int):
        return self.parts.store.visits(field_id, date(2026, 1, 1), date(2026, 12, 31))

    def close(self) -> None:
        self.parts.close()


def noon(month: int, day: int) -> datetime:
    """About noon in Chicago."""
    return datetime(2026, month, day, 17, 0, tzinfo=UTC)
