"""A whole season of a large crew, played through the real inbox, desk, rounds and store, and judged by other means.

Run ``python -m tests.benchmarks.rounds_season [small|middle]``: prints the figures. Twenty scouts, 600 fields and two
supervisors in the south, 2018-19: the clocks change on 4 November (midnight is skipped) and 17 February (23:00 comes
twice) in one zone, on 24 March in the other. Daily temperatures are those of tests/published/cordoba_2018_2019.csv
(from the PyPI package aquacrop 3.1.0). The service is down three times, once over a clock change. Scouts follow,
move, skip or ignore what they are reminded of; their counts are invented.

The judge knows nothing of the rounds' code: from the windows, the notes and the hours people chose it works out slot by
slot when each look should have been reminded of, and compares that with the mails that were queued.
"""

from __future__ import annotations

import heapq
import itertools
import sys
import tempfile
import time as stopwatch
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, time, timedelta
from email.message import EmailMessage
from email.utils import format_datetime
from functools import partial
from pathlib import Path
from random import Random
from zoneinfo import ZoneInfo

from notes_bot.model import Field, Person, Picture
from notes_bot.reply import digest, reminder
from notes_bot.rounds import MESSAGES_A_TURN
from notes_bot.settings import MailIn, Service, Settings
from notes_bot.store import instant_text
from notes_bot.weather import read_temperatures
from tests.crew_kit import US, Crew

RECORD = Path(__file__).parents[1] / "published" / "cordoba_2018_2019.csv"
TICK = timedelta(minutes=30)
MOST_MAILS = 3
NEVER = 9999
JUDGED_EVERY = timedelta(days=7)
SAO_PAULO, ASUNCION = "America/Sao_Paulo", "America/Asuncion"
NAMES = (
    "Heron", "Alder", "Plover", "Linden", "Curlew", "Rowan", "Siskin", "Hazel", "Dunlin", "Maple",
    "Avocet", "Cedar", "Bittern", "Aspen", "Wagtail", "Larch", "Osprey", "Poplar", "Swift", "Juniper",
)  # fmt: skip
HOURS = (6, 5, 7, 0, 23, 6, 22, 8, 6, 5)
EVENINGS = (18, 19, 20)
WORDS = {
    "en": ("8 dug {w} white {y} yellow", "8 dug none seen", ", sprayed today, rei {h} h",
           "{f} in 3 days", "friday", "skip {f}"),
    "es": ("8 plantas con pala {w} blancas {y} amarillas", "8 plantas con pala nada", ", fumigado hoy, reingreso {h} h",
           "{f} en 3 días", "viernes", "saltar {f}"),
    "pt": ("8 plantas com pá {w} brancas {y} amarelas", "8 plantas com pá nada", ", pulverizado hoje, reentrada {h} h",
           "{f} em 3 dias", "sexta", "pular {f}"),
}  # fmt: skip


@dataclass(frozen=True)
class Scale:
    """How much of it is played."""

    scouts: int = 20
    fields_each: int = 30
    supervisors: int = 2
    last: date = date(2019, 4, 12)
    outages: tuple[tuple[datetime, datetime], ...] = (
        (datetime(2018, 12, 3, 6, tzinfo=UTC), datetime(2018, 12, 4, 20, tzinfo=UTC)),
        (datetime(2019, 1, 9, 12, tzinfo=UTC), datetime(2019, 1, 16, 2, 30, tzinfo=UTC)),  # back at half past midnight
        (datetime(2019, 2, 16, 18, tzinfo=UTC), datetime(2019, 2, 17, 16, tzinfo=UTC)),  # over the clock change
    )


FULL = Scale()
MIDDLE = Scale(scouts=5, fields_each=6)
SMALL = Scale(
    scouts=4,
    fields_each=4,
    supervisors=1,
    last=date(2018, 12, 8),
    outages=((datetime(2018, 11, 20, 2, tzinfo=UTC), datetime(2018, 11, 23, 20, tzinfo=UTC)),),
)
FIRST = datetime(2018, 10, 24, 12, tzinfo=UTC)


@dataclass
class Window:
    """A promised look as the judge saw it come and go."""

    id: int
    field_id: int
    person_id: int
    earliest: date
    latest: date
    came: datetime
    state: str = "waiting"
    went: datetime | None = None
    mails: list[datetime] = field(default_factory=list)
    judged: bool = False


@dataclass
class Figures:
    """What the season came to."""

    notes: int = 0
    windows: int = 0
    reminded: int = 0
    not_due: int = 0
    """Ended before any slot: looked at, moved or skipped in time."""
    carried: int = 0
    """Passed without a slot, because the service was down or the field closed: replaced."""
    closed: int = 0
    nudges: int = 0
    mails: int = 0
    digests: int = 0
    most_a_day: int = 0
    on_the_hour: int = 0
    late: int = 0
    biggest_mail: int = 0
    wrong: list[str] = field(default_factory=list)
    seconds: float = 0.0


class Season:
    """The players: clock, crew, scouts; and the judge's own books."""

    def __init__(self, folder: Path, scale: Scale, seed: int = 7, say: Callable[[str], None] = lambda _: None) -> None:
        self.say = say
        self.scale, self.chance = scale, Random(seed)
        self.people = tuple(self._people())
        self.fields = tuple(self._fields())
        service = Service(folder=folder, address=US, timezone=SAO_PAULO, most_mails_a_day=MOST_MAILS)
        settings = Settings(service=service, mail_in=MailIn(port=0), people=self.people, fields=self.fields)
        self.crew = Crew(folder, FIRST, settings)
        days = read_temperatures(RECORD)
        self.crew.parts.store.keep_temperatures("*", days, RECORD.name)
        self.events: list[tuple[datetime, int, Person, str, str]] = []
        self.ups: list[datetime] = []
        self.windows: dict[int, Window] = {}
        self.muted: dict[int, tuple[datetime, datetime]] = {}
        self._seen_outbox = 0
        self._watched = ""
        self._number = 0
        self.figures = Figures()

    def _people(self) -> list[Person]:
        found = []
        for n in range(self.scale.scouts):
            evening = n % 5 == 3
            person = Person(
                n + 1,
                f"scout {n + 1}",
                "scout",
                "crew",
                (f"scout{n + 1}@crew.example",),
                language=("en", "es", "pt")[n % 3],
                timezone=ASUNCION if n % 5 == 4 else SAO_PAULO,
                day_first=True,
                units="hectare",
                hour=EVENINGS[n // 5 % 3] if evening else HOURS[n // 2 % len(HOURS)],
                remind="evening" if evening else "morning",
            )
            found.append(person)
        for n in range(self.scale.supervisors):
            hour, language = ((6, "pt"), (19, "en"))[n]
            number = self.scale.scouts + n + 1
            address = (f"supervisor{n + 1}@crew.example",)
            found.append(
                Person(number, f"supervisor {n + 1}", "supervisor", "crew", address, language, SAO_PAULO, hour=hour)
            )
        return found

    def _fields(self) -> list[Field]:
        found = []
        for n in range(self.scale.scouts):
            for k in range(self.scale.fields_each):
                place = (
                    -31.0 - (n % 5) / 5 - self.chance.random() / 8,
                    -53.0 - (n // 5) / 5 - self.chance.random() / 8,
                )
                planted = date(2018, 10, 3) + timedelta(days=self.chance.randrange(20))
                name = f"{NAMES[n]} {k + 1}"
                found.append(
                    Field(len(found) + 1, name, "crew", (), *place, planted, acres=80.0, place="Rio Grande do Sul")
                )
        return found

    # --- playing ---

    def play(self) -> Figures:
        began = stopwatch.perf_counter()
        for known in self.fields:
            scout = self.people[(known.id - 1) // self.scale.fields_each]
            on = (known.planted or FIRST.date()) + timedelta(days=22 + self.chance.randrange(14))
            self._visit(scout, [known], on)
        for known in self.chance.sample(self.fields, max(len(self.fields) // 60, 1)):
            scout = self.people[(known.id - 1) // self.scale.fields_each]
            off = datetime(2018, 11, 18, 15, tzinfo=UTC) + timedelta(days=self.chance.randrange(60))
            self._later(off, scout, f"mute {known.name}")
            self._later(off + timedelta(days=16), scout, f"resume {known.name}")
        judged = FIRST
        at, end = FIRST, datetime.combine(self.scale.last, time(23), UTC)
        while at < end:
            at += TICK
            if any(down <= at < up for down, up in self.scale.outages):
                continue
            self.crew.clock.walk_to(at)
            self.ups.append(at)
            while self.events and self.events[0][0] <= at:
                self._deliver(*heapq.heappop(self.events))
            while self.crew.parts.rounds.turn() >= MESSAGES_A_TURN:
                pass  # a backlog after an outage is read in turns that follow each other at once
            self._watch(at)
            if at - judged >= JUDGED_EVERY:
                judged = at
                self._judge(ended=False)
                self.say(
                    f"  {at.date()}: {self.figures.windows} windows judged, {stopwatch.perf_counter() - began:.0f} s"
                )
        self.figures.seconds = stopwatch.perf_counter() - began
        self._judge(ended=True)
        self._judge_mails()
        return self.figures

    def _later(self, when: datetime, who: Person, text: str, reply_to: str = "") -> None:
        self._number += 1
        heapq.heappush(self.events, (when, self._number, who, text, reply_to))

    def _deliver(self, when: datetime, number: int, who: Person, text: str, reply_to: str) -> None:
        mail = EmailMessage()
        mail["From"], mail["To"], mail["Subject"] = who.addresses[0], US, ""
        mail["Date"], mail["Message-ID"] = format_datetime(when), f"<{number}@phone.example>"
        if reply_to:
            mail["In-Reply-To"] = reply_to
        mail.set_content(text)
        self.crew.raw(bytes(mail), who.addresses[0])
        self.figures.notes += 1

    def _visit(self, scout: Person, fields: list[Field], on: date) -> None:
        """One message in the afternoon of a day, a line a field."""
        seen, none, spray, *_ = WORDS[scout.language]
        lines = []
        for known in fields:
            grown = (on - (known.planted or on)).days
            found = known.id % 3 == 0 and grown > 32
            what = seen.format(w=self.chance.randint(2, 60), y=self.chance.randint(0, 40)) if found else none
            if self.chance.random() < 0.08:
                what += spray.format(h=self.chance.choice((12, 24, 48)))
            lines.append(f"{known.name}: {what}")
        hour = time(self.chance.randint(9, 17), self.chance.choice((5, 20, 40)))
        when = datetime.combine(on, hour, ZoneInfo(scout.timezone)).astimezone(UTC)
        self._later(when, scout, "\n".join(lines))

    def _act(self, scout: Person, mail_id: str, fields: list[Field], at: datetime, nudge: bool) -> None:
        """What a scout makes of a reminder."""
        local = at.astimezone(ZoneInfo(scout.timezone))
        _, _, _, later, friday, skip = WORDS[scout.language]
        mood = self.chance.random()
        soon = at + timedelta(hours=1 + self.chance.random())
        if mood < 0.08:
            self._later(soon, scout, friday, mail_id)
            return
        rounds: dict[date, list[Field]] = defaultdict(list)
        for known in fields:
            mood = self.chance.random()
            if mood < 0.04:
                self._later(soon, scout, later.format(f=known.name), mail_id)
            elif mood < 0.06:
                self._later(soon, scout, skip.format(f=known.name), mail_id)
            elif mood < (0.6 if nudge else 0.85):
                rounds[local.date() + timedelta(days=self.chance.randint(1, 3))].append(known)
        for on, group in rounds.items():
            self._visit(scout, group, on)

    # --- watching ---

    def _watch(self, at: datetime) -> None:
        """Take down what windows came and went and what was mailed in this turn."""
        db = self.crew.parts.store._db
        last, self._watched = self._watched, instant_text(at)
        for row in db.query("select * from reminders where changed_at >= ?", [last]):
            window = self.windows.get(row["id"])
            if window is None:
                days = (date.fromisoformat(row["earliest"]), date.fromisoformat(row["latest"]))
                window = self.windows[row["id"]] = Window(row["id"], row["field_id"], row["person_id"], *days, at)
            if window.went is None and row["state"] not in ("waiting", "sent", "nudged"):
                window.went = at
            window.state = row["state"]
        muted = {row["id"] for row in db.query("select id from fields where muted = 1")}
        for field_id in muted - self.muted.keys():
            self.muted[field_id] = (at, datetime.max.replace(tzinfo=UTC))
        for field_id, (start, end) in list(self.muted.items()):
            if field_id not in muted and end.year == NEVER:
                self.muted[field_id] = (start, at)
        told = self.crew.parts.store.told_in
        for row in db.query("select * from outbox where id > ? order by id", [self._seen_outbox]):
            self._seen_outbox = row["id"]
            self.figures.biggest_mail = max(self.figures.biggest_mail, len(row["raw"]))
            if row["kind"] != "reminder":
                continue
            mail = told([row["message_id"]], row["person_id"])
            fields = [self.fields[i - 1] for i in mail.fields] if mail else []
            nudges = 0
            for known in fields:
                if known.name not in row["body"]:
                    self._wrong(f"{known.name} is not in the mail that counts as telling of it")
                open_ones = [w for w in self.windows.values() if w.field_id == known.id and w.went is None]
                for window in open_ones:
                    nudges += bool(window.mails)
                    window.mails.append(at)
            scout = self.people[row["person_id"] - 1]
            self._act(scout, row["message_id"], fields, at, nudge=nudges == len(fields))

    # --- judging ---

    def _slots(self, person: Person) -> list[tuple[datetime, date]]:
        """The turn of each local day at which this person's reminder was possible, with the day it would be for."""
        zone = ZoneInfo(person.timezone)
        late = max(20, person.hour + 2)
        found: dict[date, datetime] = {}
        for at in self.ups:
            local = at.astimezone(zone)
            if person.hour <= local.hour < late:
                found.setdefault(local.date(), at)
        ahead = timedelta(days=1 if person.remind == "evening" else 0)
        return [(at, day + ahead) for day, at in sorted(found.items())]

    def _intervals(self) -> dict[int, list[tuple[datetime, datetime]]]:
        """Entry intervals by field: when each was told, and until when."""
        found: dict[int, list[tuple[datetime, datetime]]] = defaultdict(list)
        rows = self.crew.parts.store._db.query(
            "select field_id, recorded_at, entry_closed_until as until from visits where entry_closed_until is not null"
        )
        for row in rows:
            found[row["field_id"]].append(
                (datetime.fromisoformat(row["recorded_at"]), datetime.fromisoformat(row["until"]))
            )
        return found

    def _wrong(self, what: str) -> None:
        self.figures.wrong.append(what)
        self.say(f"  difference {len(self.figures.wrong)}: {what}")

    def _judge(self, *, ended: bool) -> None:
        """Judge the windows not judged yet: those that have ended, and in the end all."""
        figures, never = self.figures, datetime.max.replace(tzinfo=UTC)
        intervals = self._intervals()
        slots = {person.id: self._slots(person) for person in self.people}
        for window in self.windows.values():
            if window.judged or (window.went is None and not ended):
                continue
            window.judged = True
            person = self.people[window.person_id - 1]
            zone = ZoneInfo(person.timezone)
            muted = self.muted.get(window.field_id, (never, never))
            expected = None
            for at, day in slots[person.id]:
                if not window.came <= at < (window.went or never) or not window.earliest <= day <= window.latest:
                    continue
                told = [until for known, until in intervals[window.field_id] if known <= at]
                midnight = datetime.combine(day, time(0), zone)
                if any(at < until or midnight < until for until in told) or muted[0] <= at < muted[1]:
                    continue
                expected = at
                break
            figures.windows += 1
            first, *more = window.mails or [None]
            if first != expected:
                self._wrong(f"{self._told(window)}: expected {expected}, came {first}")
            figures.reminded += first is not None
            figures.not_due += first is None and window.state in ("kept", "waiting")
            figures.carried += first is None and window.state == "cancelled"
            figures.closed += window.state == "closed"
            figures.nudges += len(more)
            days = [at.astimezone(zone).date() for at in window.mails]
            if len(more) > 1 or (more and days[1] - days[0] < timedelta(days=2)):
                self._wrong(f"{self._told(window)}: nudged wrongly, {[str(at) for at in more]}")
            for at in window.mails:
                told = [until for known, until in intervals[window.field_id] if known <= at]
                if any(at < until for until in told):
                    self._wrong(f"{self._told(window)}: mailed inside an entry interval at {at}")
            if first is not None:
                local = first.astimezone(zone)
                figures.on_the_hour += local.hour == person.hour and local.minute < 30
                figures.late += not (local.hour == person.hour and local.minute < 30)

    def _told(self, window: Window) -> str:
        """A window in a line, with all that could explain it."""
        person = self.people[window.person_id - 1]
        return (
            f"window {window.id} of {self.fields[window.field_id - 1].name} for {person.name} ({person.timezone},"
            f" {person.hour} h, {person.remind}), {window.earliest} to {window.latest}, known {window.came},"
            f" {window.state} {window.went or ''}"
        )

    def _judge_mails(self) -> None:
        """No mail outside a person's hours, and how many a day."""
        figures = self.figures
        per_day: Counter[tuple[int, date]] = Counter()
        for row in self.crew.parts.store._db.query("select * from outbox where inbox_id is null"):
            person = self.people[row["person_id"] - 1]
            local = datetime.fromisoformat(row["queued_at"]).astimezone(ZoneInfo(person.timezone))
            per_day[(person.id, local.date())] += 1
            figures.mails += 1
            figures.digests += row["kind"] == "digest"
            if not person.hour <= local.hour < max(20, person.hour + 2):
                self._wrong(f"a {row['kind']} to {person.name} at {local}")
        figures.most_a_day = max(per_day.values(), default=0)


@contextmanager
def seldom_drawn(each: int = 10) -> Iterator[None]:
    """One mail in ten with its pictures: they take most of the time a mail takes, and the judge reads words."""
    count = itertools.count()

    def seldom(draw: Callable[..., tuple[Picture, ...]]) -> Callable[..., tuple[Picture, ...]]:
        return lambda *args, **more: draw(*args, **more) if next(count) % each == 0 else ()

    real = {module: module._pictures for module in (digest, reminder)}
    for module, draw in real.items():
        module._pictures = seldom(draw)  # type: ignore[attr-defined]
    try:
        yield
    finally:
        for module, draw in real.items():
            module._pictures = draw  # type: ignore[attr-defined]


def played(scale: Scale, folder: Path, say: Callable[[str], None] = lambda _: None) -> Figures:
    """The season from beginning to end; ``say`` is told of each difference as it comes to light."""
    season = Season(folder, scale, say=say)
    try:
        with seldom_drawn():
            return season.play()
    finally:
        season.crew.close()


def main(size: str) -> None:
    scale = {"small": SMALL, "middle": MIDDLE}.get(size, FULL)
    with tempfile.TemporaryDirectory() as folder:
        figures = played(scale, Path(folder), partial(print, flush=True))
    print(
        f"{scale.scouts} scouts, {scale.scouts * scale.fields_each} fields, {scale.supervisors} supervisors,", end=" "
    )
    print(f"{FIRST.date()} to {scale.last}, {len(scale.outages)} outages: {figures.seconds:.0f} s")
    for name, value in vars(replace(figures, wrong=[], seconds=0.0)).items():
        if name not in ("wrong", "seconds"):
            print(f"  {name.replace('_', ' ')}: {value}")
    print(f"  wrong: {len(figures.wrong)}")


if __name__ == "__main__":
    main(sys.argv[1] if len(sys.argv) > 1 else "full")
