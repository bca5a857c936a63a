"""How long the digest of a very large crew takes, where the time goes, and how big the mail is.

Run ``python -m tests.benchmarks.digest_of_many [FIELDS [first]]``; ``first`` stops after the very first digest. Fields,
visits and windows are invented; temperatures are those of Lincoln, Nebraska, 2016 (NOAA), up to the day of the digest.
"""

from __future__ import annotations

import json
import sys
import tempfile
import time
from datetime import UTC, date, datetime, timedelta
from email import message_from_bytes, policy
from pathlib import Path
from random import Random

from notes_bot.asdata import note_as_data
from notes_bot.model import Females, Field, Note, Person, Promise
from notes_bot.settings import MailIn, Service, Settings
from notes_bot.survey import renew_idle
from notes_bot.weather import read_temperatures
from tests.crew_kit import US, Crew

DAY = date(2016, 7, 20)
ZONE = "America/Chicago"
LOOKS = 3
SCOUTS = 200
RECORD = Path(__file__).parents[1] / "published" / "lincoln_2016.csv"


def a_note(chance: Random) -> Note:
    """Every third field has females; others were dug without."""
    if chance.random() < 0.35:
        white, yellow = chance.randint(1, 60), chance.randint(0, 40)
        females = Females(white, yellow, 0, 0, white + yellow)
        return Note(plants=8, method="shovel", females=females, outcome="seen")
    none = Females(0, 0, 0, 0, 0)
    return Note(plants=chance.choice((4, 8, 20)), method="shovel", females=none, outcome="none_seen")


def fill(crew: Crew, fields: int, chance: Random) -> None:
    """Visits and open windows straight into the tables: the way they came there is not measured here."""
    store = crew.parts.store
    store.keep_temperatures("*", [day for day in read_temperatures(RECORD) if day.date <= DAY], "lincoln_2016.csv")
    with store._write() as db:
        rows = []
        for field_id in range(1, fields + 1):
            if field_id % 20 == 0:
                continue  # never looked at
            for look in range(LOOKS):
                on = DAY - timedelta(days=1 + field_id % 12 + 14 * (LOOKS - 1 - look))
                note = json.dumps(note_as_data(a_note(chance)))
                at = datetime.combine(on, datetime.min.time(), UTC) + timedelta(hours=20)
                rows.append(
                    (0, field_id, 1 + field_id % SCOUTS, on.isoformat(), 0, note, f"{at:%Y-%m-%dT%H:%M:%S.%fZ}")
                )
        db.conn.executemany(
            "insert into visits (inbox_id, field_id, person_id, day, day_assumed, note, recorded_at)"
            " values (?, ?, ?, ?, ?, ?, ?)",
            rows,
        )
    promises = [
        Promise(
            n, 1 + n % SCOUTS, first, first + timedelta(days=4), first + timedelta(days=8), "catch_peak", f"look-{n}", 0
        )
        for n in range(1, fields + 1)
        if n % 20 and (first := DAY + timedelta(days=n % 14 - 6))
    ]
    store.keep_round((), crew.clock.at - timedelta(days=3), promises=promises)


def main(count: int) -> None:
    chance = Random(20160720)
    people = (
        Person(1, "supervisor", "supervisor", "crew", ("supervisor@crew.example",)),
        *(Person(n, f"scout {n}", "scout", "crew", (f"scout{n}@crew.example",)) for n in range(2, SCOUTS + 2)),
    )
    fields = tuple(
        Field(
            n,
            f"Block {n}",
            "crew",
            latitude=40.2 + (n % 100) / 90,
            longitude=-97.6 + (n // 100) / 70,
            planted=date(2016, 4, 28) + timedelta(days=n % 23),
            acres=60.0 + n % 90,
        )
        for n in range(1, count + 1)
    )
    with tempfile.TemporaryDirectory() as folder:
        settings = Settings(
            service=Service(folder=Path(folder), address=US), mail_in=MailIn(port=0), people=people, fields=fields
        )
        crew = Crew(Path(folder), datetime(2016, 7, 20, 11, 0, tzinfo=UTC), settings)
        fill(crew, count, chance)
        boss = crew.parts.store.people()[0]
        rounds = crew.parts.rounds
        print(f"{count} fields, {count * LOOKS * 19 // 20} visits, {SCOUTS} scouts, on {DAY}")

        began = time.perf_counter()
        cold = rounds.day(boss, DAY)
        print(f"the very first digest, nothing known before: {time.perf_counter() - began:.1f} s", end="")
        left = [fact.values["count"] for fact in cold.notices if fact.key == "unreckoned"]
        print(f", {left[0]} fields not yet reckoned" if left else "")

        if "first" in sys.argv[2:]:
            crew.close()
            return
        began, done = time.perf_counter(), 0
        while more := renew_idle(crew.parts.store, DAY, {"crew": ZONE}, 500):
            done += more
        spent = time.perf_counter() - began
        each = 1000 * spent / max(done, 1)
        print(f"reckoning the others in idle turns: {done} fields, {spent:.0f} s ({each:.1f} ms each)")

        began = time.perf_counter()
        day = rounds.day(boss, DAY)
        gathered = time.perf_counter() - began
        began = time.perf_counter()
        mail = rounds._digest_mail(boss, day, "day")
        composed = time.perf_counter() - began
        changed = sum(known.changed for known in day.fields)
        print(
            f"a day's digest with {changed} fields noted: gathered in {gathered:.1f} s, mail made in {composed:.1f} s"
        )
        parts = list(message_from_bytes(mail.raw, policy=policy.default).walk())
        html = next(part for part in parts if part.get_content_type() == "text/html").get_content()
        drawn = sum(part.get_content_maintype() == "image" for part in parts)
        sizes = [len(mail.raw), len(html.encode()), len(mail.body.encode())]
        whole, page, text = (f"{size / 1000:.0f} kB" for size in sizes)
        print(f"whole mail {whole}, HTML {page}, text {text}, {drawn} pictures")
        for span in ("week", "season"):
            began = time.perf_counter()
            asked = rounds.digest_now(boss, span)  # type: ignore[arg-type]
            print(f"{span}: {time.perf_counter() - began:.1f} s, whole mail {len(asked.raw) / 1000:.0f} kB")
        crew.close()


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
