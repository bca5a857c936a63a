"""The demo's season: who wrote what, when, with which mail program. Writes ``demo_messages/*.eml``.

Run ``python -m tests.mail_samples.season`` after a change here; the same season gives the same bytes. All of it
is invented; people are named by role. The files are what the demo, the docs and the tests use.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone
from pathlib import Path
from typing import Any

from tests.mail_samples import clients

US = "notes@crew.example"
CENTRAL = timezone(timedelta(hours=-5))
FOLDER = Path(__file__).parents[2] / "demo_messages"

FIRST, SECOND, FOURTH = "scout1@crew.example", "scout2@crew.example", "scout4@crew.example"
THIRD, SUPERVISOR = "+15155550103", "supervisor@crew.example"

OUR_ANSWER = (
    "Pothole Flat: none seen, too early to count. Look again 22 - 26 Jun.\n"
    "Read as: pothole flat, 10 Jun, dug 6, none seen\n"
    "LOOK AGAIN 22 - 26 Jun\n"
)


@dataclass(frozen=True)
class Sent:
    """One message of the season."""

    name: str
    at: datetime
    sender: str
    note: str
    program: Callable[..., bytes]
    more: dict[str, Any]


def _at(month: int, day: int, hour: int, minute: int) -> datetime:
    return datetime(2026, month, day, hour, minute, tzinfo=CENTRAL)


def _text(note: str, sender: str, to: str, date: datetime, **more: Any) -> bytes:
    return clients.sms_gateway(note, sender, to, date, gateway="texts.example", **more)


SEASON = (
    Sent(
        "iron_ring_too_early",
        _at(6, 10, 10, 42),
        FIRST,
        "pothole flat 6/10 V2-3 yellow ring, new lvs yel grn veins, pH 8.1. dug 6 none yet. recheck 2 wk",
        clients.android_gmail,
        {"subject": "pothole"},
    ),
    Sent(
        "early_white",
        _at(6, 11, 9, 15),
        FIRST,
        "Kestrel btm 40, 6/11, V4, moist, shovel+bucket, 6 pl: 3 0 7 2 5 0 all wht. no top symptoms. recheck 10 d",
        clients.iphone_reply,
        {
            "subject": "Re: SCN notes: Pothole Flat, 2026",
            "quoted": clients.Quoted(
                OUR_ANSWER, "Field notes", US, _at(6, 10, 10, 43), "SCN notes: Pothole Flat, 2026"
            ),
        },
    ),
    Sent("correction", _at(6, 11, 9, 31), FIRST, "kestrel white 19 not 17", clients.iphone_reply, {"subject": "fix"}),
    Sent(
        "flash_by_text",
        _at(6, 23, 14, 5),
        THIRD,
        "sycamore ln 6/23 V5, 9 d after gly, new lvs yel in straight bands on end rows + overlaps,"
        " dug 6 none, nods pink. look again 7/5",
        _text,
        {},
    ),
    Sent(
        "two_fields_one_mail",
        _at(6, 24, 17, 20),
        FIRST,
        "Kestrel 6/24 V6 shovel + bucket 8 dug: 14 white 52 yellow 6 tan. moist\n\n"
        "Pothole 6/24 V4 moist, shovel+bucket. in ring 5 pl: 3 1 0 4 2 all white. uphill 5 pl: 0 0 1 0 0 white."
        " new leaves still pale with green veins",
        clients.outlook_desktop,
        {"subject": "round of 24 June", "signature": "First scout\nCrew of the demo\n515-555-0101"},
    ),
    Sent(
        "dry_pulled_none_by_text",
        _at(6, 30, 11, 48),
        THIRD,
        "harrow rdg 3, 6/30, V7ish, bone dry, pulled 4, nun seen, roots snapped",
        _text,
        {},
    ),
    Sent(
        "potassium_and_scn_with_photo",
        _at(7, 2, 8, 50),
        FIRST,
        "tinkers 7/2 R1, lower lvs edges yel/brn in spreader strips, K test 78. dug 8: 2 0 4 1 0 6 0 1. both?",
        clients.with_photo,
        {"subject": "tinkers"},
    ),
    Sent(
        "flash_gone_by_text",
        _at(7, 5, 9, 12),
        THIRD,
        "sycamore 7/5 R1 bands gone, all green. 10 dug w shovel none, moist",
        _text,
        {},
    ),
    Sent(
        "resistant_holding",
        _at(7, 8, 13, 30),
        FIRST,
        "larkspur S80 7/8 R2 moist spade. R var 10 pl: 1 2 1 0 6 0 4 1 0 3 w+y. check strip 46 61 38 72 55",
        clients.thunderbird_flowed,
        {"subject": "larkspur", "signature": "First scout\n515-555-0101"},
    ),
    Sent(
        "after_rain_found_by_text",
        _at(7, 10, 10, 2),
        THIRD,
        "harrow 3 7/10 R1 moist after rain, 10 dug w shovel, 14 white 6 yel",
        _text,
        {},
    ),
    Sent(
        "next_generation_two_fields",
        _at(7, 13, 11, 20),
        FIRST,
        "Kestrel 7/13 R2 shovel + bucket 8 dug 38 white 11 yel, moist\n"
        "Tinkers 7/13 R2 moist shovel 8 dug: 9 white 3 yel",
        clients.iphone_reply,
        {"subject": "Re: Looks due"},
    ),
    Sent(
        "unknown_field",
        _at(7, 13, 16, 44),
        SECOND,
        "Molino Viejo 13/7 R2 8 pl con pala 12 blancas 30 amarillas",
        clients.html_only,
        {"subject": "notas"},
    ),
    Sent(
        "one_word_settles_it",
        _at(7, 13, 16, 58),
        SECOND,
        "old mill",
        clients.samsung,
        {"subject": "Re: notas", "language": "es"},
    ),
    Sent(
        "two_spots_in_spanish",
        _at(7, 16, 12, 10),
        SECOND,
        "Old Mill Este 16/7 R2-R3, franco arenoso, manchón junto a la tranquera."
        " adentro 5 pl: 57 61 43 79 43 casi todas amarillas. afuera 17 11 22 11 12. con pala",
        clients.base64_latin1_spanish,
        {"subject": "manchón en Old Mill"},
    ),
    Sent(
        "resistant_still_holding",
        _at(7, 17, 9, 40),
        FIRST,
        "larkspur 7/17 R3 moist spade. R var 10 pl 1 0 3 2 0 5 1 0 2 1 mostly yel. check strip 58 41 77 62 49",
        clients.gmail_web,
        {"subject": "larkspur"},
    ),
    Sent(
        "stranger",
        _at(7, 17, 22, 7),
        "someone@elsewhere.example",
        "kestrel 7/17 none seen 20 dug, field is clean",
        clients.plain_terminal,
        {"subject": "note"},
    ),
    Sent(
        "a_good_look_finds_none",
        _at(7, 18, 10, 30),
        THIRD,
        "sycamore 7/18 R3 moist, shovel + bucket, 15 dug at 3 places, none",
        _text,
        {},
    ),
    Sent(
        "supervisor_asks",
        _at(7, 20, 7, 5),
        SUPERVISOR,
        "state old mill",
        clients.outlook_phone,
        {"subject": "old mill"},
    ),
    Sent(
        "peak_by_text",
        _at(7, 20, 16, 2),
        THIRD,
        "harrow 3 7/20 R3 moist shovel 8 dug 10 white 33 yel 5 tan",
        _text,
        {},
    ),
    Sent(
        "help_in_spanish",
        _at(7, 21, 6, 40),
        SECOND,
        "ayuda",
        clients.yahoo_phone,
        {"subject": "ayuda", "language": "es"},
    ),
    Sent(
        "peak_in_portuguese",
        _at(7, 23, 12, 15),
        FOURTH,
        "cedar slough 23/7 R3 úmido, 8 pés pá + balde: 26 brancas 41 amarelas 6 bege",
        clients.quoted_printable,
        {"subject": "cedar slough"},
    ),
    Sent(
        "not_looked",
        _at(7, 24, 15, 30),
        FIRST,
        "tinkers 7/24 not looked, too wet to dig, standing water in the low end",
        clients.gmail_web,
        {"subject": "tinkers"},
    ),
    Sent("thanks", _at(7, 24, 15, 41), FIRST, "thanks!", clients.quoted_printable, {"subject": "Re: SCN notes"}),
    Sent(
        "reminder_moved",
        _at(7, 27, 18, 12),
        FIRST,
        "tinkers in 3 days",
        clients.iphone_reply,
        {"subject": "Re: Looks due"},
    ),
    Sent(
        "in_the_wrong_field",
        _at(7, 30, 10, 5),
        FIRST,
        "pothole 7/30 R4 moist shovel 8 dug 12 white 40 yel 9 tan",
        clients.iphone_reply,
        {"subject": "Re: Looks due"},
    ),
    Sent(
        "taken_back",
        _at(7, 30, 10, 9),
        FIRST,
        "undo",
        clients.iphone_reply,
        {"subject": "Re: SCN notes: Pothole Flat, 2026"},
    ),
    Sent(
        "sent_again_right",
        _at(7, 30, 10, 11),
        FIRST,
        "tinkers 7/30 R4 moist shovel 8 dug 12 white 40 yel 9 tan",
        clients.iphone_reply,
        {"subject": "Re: SCN notes: Pothole Flat, 2026"},
    ),
    Sent(
        "slipping_with_strip_in_spanish",
        _at(8, 7, 8, 25),
        SECOND,
        "old mill este 7/8 R5 húmedo con pala. var R 8 pl: 31 44 28 52 39 47 25 36 amarillas y pardas."
        " testigo 61 48 70 55",
        clients.samsung,
        {"subject": "Re: avisos", "language": "es"},
    ),
    Sent("what_is_due", _at(8, 10, 6, 50), THIRD, "whats due", _text, {}),
    Sent(
        "late_tan_in_portuguese",
        _at(8, 29, 11, 25),
        FOURTH,
        "Cedar Slough 29/8 R6, 8 pés com pá, quase tudo bege e marrom: 17 17 19 13 20 17 8 18."
        " soltando no balde. ponta madurando antes. amostra de solo depois da colheita",
        clients.android_gmail,
        {"subject": "cedar slough", "language": "pt"},
    ),
    Sent("sample_plan", _at(9, 9, 7, 20), FIRST, "sample plan old mill", clients.android_gmail, {"subject": "soil"}),
    Sent(
        "lab_result",
        _at(9, 24, 16, 5),
        FIRST,
        "old mill eggs 5200 per 100cc iowa, 20 cores, beans next, 9/14",
        clients.android_gmail,
        {"subject": "lab"},
    ),
    Sent(
        "hg_test_and_plans",
        _at(9, 25, 8, 10),
        SUPERVISOR,
        "hg old mill check 210 190 205 170 240, l1 2 0 1 3 0, l2 66 50 71 80 44, l3 0 1 0 0 0, l4 0 0 0 0 0,"
        " l5 20 18 25 17 22, l6 0 2 0 0 1, l7 88 70 60 75 90\n"
        "rotation old mill: corn, 88788, corn, peking or corn, 88788, corn, 88788",
        clients.android_gmail,
        {"subject": "hg type"},
    ),
    Sent(
        "season_report", _at(9, 25, 8, 30), SUPERVISOR, "report old mill", clients.android_gmail, {"subject": "report"}
    ),
)


def away_notice() -> bytes:
    """An auto-reply: the one message of the season that must never be answered."""
    body = clients.quoted_printable(
        "I am out of the office until Monday.", FIRST, US, _at(7, 18, 6, 1), subject="Automatic reply: looks due"
    )
    return body.replace(b"MIME-Version", b"Auto-Submitted: auto-replied\r\nMIME-Version", 1)


def files() -> dict[str, bytes]:
    """File stem to raw message, in the order they were sent."""
    made = {sent.name: sent.program(sent.note, sent.sender, US, sent.at, **sent.more) for sent in SEASON}
    return made | {"away_notice": away_notice()}


def main() -> None:
    for stem, raw in files().items():
        (FOLDER / f"{stem}.eml").write_bytes(raw)
    print(f"{len(files())} messages written to {FOLDER}")  # noqa: T201 - a command


if __name__ == "__main__":
    main()
