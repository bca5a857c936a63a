"""Pictures of our mail as a mail program shows it: 320, 480 and 800 pixels wide, light, dark, and with images off.

Run ``python -m tests.benchmarks.shots FOLDER [NAME ...]``: plays a small invented season, takes the mails the service
would send (a reminder, answers, the digests of day, week and season, a report, each in three languages) and writes PNGs
of each mail, all widths side by side. ``NAME`` is the beginning of a mail's name, such as ``digest-day-es``.
Needs a headless Chromium on the path.
"""

from __future__ import annotations

import base64
import html
import subprocess
import sys
import tempfile
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from email import message_from_bytes, policy
from email.message import EmailMessage
from pathlib import Path
from random import Random

from notes_bot.model import Field, Filing, Person
from notes_bot.settings import MailIn, Service, Settings
from notes_bot.weather import read_temperatures
from tests.crew_kit import US, Crew

WIDTHS = (320, 480, 800)
GAP = 16
RECORD = Path(__file__).parents[1] / "published" / "lincoln_2016.csv"
LANGUAGES = ("en", "es", "pt")
NAMES = (
    "Kestrel Bottom", "Old Mill East", "Harrow Ridge 3", "Pothole Flat", "Larkspur South eighty", "Back Forty",
    "Tinker's Field", "Sycamore Lane", "Creek Bend", "Section 9", "Section 10", "Windbreak",
    "The long strip by the elevator",
    "Juniper", "Cañada Norte", "São João 4", "Gate Field", "Stone Pile",
)  # fmt: skip
LOOKS = {
    "en": ("{f} 8 dug {w} white {y} yellow", "{f} 8 dug none seen"),
    "es": ("{f} 8 plantas con pala {w} blancas {y} amarillas", "{f} 8 plantas con pala nada"),
    "pt": ("{f} 8 plantas com pá {w} brancas {y} amarelas", "{f} 8 plantas com pá nada"),
}
ASKED = {
    "en": {"state": "state kestrel", "report": "report kestrel", "reply": "kestrel 6 dug 12 white 30 yellow"},
    "es": {"state": "estado kestrel", "report": "informe kestrel", "reply": "kestrel 6 plantas con pala 12 blancas"},
    "pt": {"state": "estado kestrel", "report": "relatório kestrel", "reply": "kestrel 6 plantas com pá 12 brancas"},
}


def people() -> tuple[Person, ...]:
    """A scout and a supervisor for each language."""
    found = []
    for n, language in enumerate(LANGUAGES):
        more = {"language": language, "units": "acre" if language == "en" else "hectare", "timezone": "America/Chicago"}
        role = {"en": "scout {}", "es": "explorador {}", "pt": "monitor {}"}[language].format(n + 1)
        found.append(Person(2 * n + 1, role, "scout", "north crew", (f"scout{n}@crew.example",), **more))
        boss = (f"boss{n}@crew.example",)
        found.append(Person(2 * n + 2, f"supervisor {n + 1}", "supervisor", "north crew", boss, **more))
    return tuple(found)


def fields(chance: Random) -> tuple[Field, ...]:
    return tuple(
        Field(
            n + 1, name, "north crew", latitude=40.75 + chance.random() / 6, longitude=-96.9 + chance.random() / 4,
            planted=date(2016, 5, 1) + timedelta(days=n), acres=40.0 + 7 * n,
        )
        for n, name in enumerate(NAMES)
    )  # fmt: skip


def mails(folder: Path) -> dict[str, EmailMessage]:
    """Each kind of mail in each language, from one played season."""
    chance = Random(20160701)
    start = datetime(2016, 6, 10, 18, tzinfo=UTC)
    service = Service(folder=folder, address=US, timezone="America/Chicago", week_summary=False)
    settings = Settings(service=service, mail_in=MailIn(port=0), people=people(), fields=fields(chance))
    crew = Crew(folder, start, settings)
    store = crew.parts.store
    store.keep_temperatures("*", [day for day in read_temperatures(RECORD) if day.date.year == 2016], RECORD.name)
    scouts, bosses = people()[::2], people()[1::2]
    found: dict[str, EmailMessage] = {}

    def look(number: int) -> None:
        scout = scouts[number % 3]
        seen, none = LOOKS[scout.language]
        text = seen.format(f=NAMES[number], w=chance.randint(3, 90), y=chance.randint(0, 60)) if number % 3 else none
        crew.note(text.format(f=NAMES[number]), scout.addresses[0])

    def turns(until: datetime) -> None:
        while crew.clock.at < until:
            crew.clock.walk_to(crew.clock.at + timedelta(hours=1))
            crew.parts.rounds.turn()

    for number in range(15):
        look(number)
    turns(datetime(2016, 6, 28, 18, tzinfo=UTC))
    for number in (1, 4, 7, 2, 8):
        look(number)
    crew.keep("kestrel 6 dug 3 white", "someone@elsewhere.example")
    store.change_person(replace(scouts[2], reachable=False), crew.clock.at)
    crew.parts.rounds.messages()
    crew.clock.walk_to(datetime(2016, 6, 29, 12, tzinfo=UTC))
    for boss in bosses:
        for span in ("day", "week", "season"):
            found[f"digest-{span}-{boss.language}"] = parsed(crew.parts.rounds.digest_now(boss, span).raw)
    store.change_person(scouts[2], crew.clock.at)
    for row in store._db.query("select * from outbox where kind = 'reminder' order by length(raw)"):
        language = next(person.language for person in people() if person.id == row["person_id"])
        found[f"reminder-{language}"] = parsed(row["raw"])
    for scout, boss in zip(scouts, bosses, strict=True):
        for what, text in ASKED[scout.language].items():
            filing = crew.note(text, (boss if what == "report" else scout).addresses[0])
            found[f"{what}-{scout.language}"] = parsed(_answer(filing))
    crew.close()
    return found


def _answer(filing: Filing | None) -> bytes:
    assert filing is not None
    return filing.outgoing[-1].raw


def parsed(raw: bytes) -> EmailMessage:
    return message_from_bytes(raw, policy=policy.default)  # type: ignore[return-value]


def page_of(mail: EmailMessage, *, images: bool = True) -> str:
    """The part a mail program shows: HTML with its own pictures put in, else the text as most programs set it."""
    page = mail.get_body(("html", "plain"))
    assert page is not None
    shown = page.get_content()
    if page.get_content_type() == "text/plain":
        text = html.escape(
            shown.replace("\r\n", "\n").replace(" \n", " ")
        )  # joined again, as RFC 3676 lets a program do
        style = "margin:12px 14px;font:15px/1.45 sans-serif;white-space:pre-wrap;overflow-wrap:anywhere"
        head = "<meta name=color-scheme content='light dark'>"
        body = f"<body style='background:Canvas;color:CanvasText'><div style='{style}'>{text}</div></body>"
        return f"<!DOCTYPE html><html><head>{head}</head>{body}</html>"
    for part in mail.walk():
        if part.get_content_maintype() == "image":
            cid = str(part["Content-ID"]).strip("<>")
            data = base64.b64encode(part.get_payload(decode=True)).decode()
            shown = shown.replace(f"cid:{cid}", f"data:image/png;base64,{data}" if images else "cid:none")
    return shown


def sheet(mail: EmailMessage, height: int, *, images: bool) -> str:
    """All widths side by side, each in a frame of its own, so that its width is the frame's."""
    inside = html.escape(page_of(mail, images=images), quote=True)
    frames = "".join(
        f'<iframe srcdoc="{inside}" style="width:{width}px;height:{height}px;border:0;margin-left:{GAP}px"></iframe>'
        for width in WIDTHS
    )
    head = '<meta charset="utf-8"><meta name="color-scheme" content="light dark">'
    body = f'<body style="margin:0;background:#808080;white-space:nowrap">{frames}</body>'
    return f"<!DOCTYPE html><html><head>{head}</head>{body}</html>"


def shoot(page: str, to: Path, height: int, *, dark: bool) -> None:
    """One picture of a page, in the light or the dark scheme."""
    wide = sum(WIDTHS) + GAP * (len(WIDTHS) + 1)
    with tempfile.TemporaryDirectory() as folder:
        source = Path(folder) / "page.html"
        source.write_text(page, "utf-8")
        scheme = "0" if dark else "1"
        command = [
            "chromium", "--no-sandbox", "--headless", "--disable-gpu", "--hide-scrollbars",
            f"--user-data-dir={folder}/profile", f"--window-size={wide},{height}",
            f"--blink-settings=preferredColorScheme={scheme}", f"--screenshot={to}", source.as_uri(),
        ]  # fmt: skip
        subprocess.run(command, check=True, capture_output=True, timeout=120)


def main(folder: Path, wanted: list[str]) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as place:
        found = mails(Path(place))
    for name, mail in sorted(found.items()):
        if wanted and not any(name.startswith(each) for each in wanted):
            continue
        size = len(bytes(mail)) / 1000
        height = 2400 if name.startswith(("digest", "report")) else 1500
        for form, images, dark in (("light", True, False), ("dark", True, True), ("no-images", False, False)):
            if form == "no-images" and mail.get_body(("html",)) is None:
                continue
            shoot(sheet(mail, height, images=images), folder / f"{name}-{form}.png", height, dark=dark)
        print(f"{name}: {mail['Subject']} ({size:.0f} kB)", flush=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2:])
