"""Answers written between the lines of a quoted mail of ours, as mail programs send them."""

from __future__ import annotations

import html
import textwrap
from datetime import UTC, date, datetime
from email.message import EmailMessage
from email.utils import format_datetime

import pytest

from notes_bot.mail.beneath import written_beneath
from notes_bot.model import Person
from notes_bot.settings import MailIn, Service, Settings
from tests.crew_kit import FIELDS, PEOPLE, SUPERVISOR, US, Crew, noon
from tests.test_rounds import mails, walk

SENT = """\
crew, Fri 12 Jun: 2 new, 1 due this week

3 fields: SCN found 2, not looked yet 1.

NEW
- Kestrel Bottom: females seen, 2 a plant, 11 Jun, first scout; gen 1, early, white; look 22-26 Jun.
- Old Mill East: females seen, 0.7 a plant, 11 Jun, second scout; gen 1, early, white; look 23-27 Jun.

OTHER FIELDS

Not looked yet (1)
- Harrow Ridge 3: not looked yet; no look set.

To act on a field, reply with its name first, for example: Kestrel Bottom friday
"""
KESTREL, MILL = SENT.splitlines()[5][2:], SENT.splitlines()[6][2:]
WROTE = {
    "en": "On Fri, Jun 12, 2026 at 6:00 AM field notes <notes@crew.example> wrote:",
    "es": "El vie, 12 jun 2026 a las 6:00, field notes (<notes@crew.example>) escribió:",
    "pt": "Em sex., 12 de jun. de 2026 às 06:00, field notes <notes@crew.example> escreveu:",
}
languages = pytest.mark.parametrize("language", ["en", "es", "pt"])


def raw(body: str, page: str = "", **heads: str) -> bytes:
    mail = EmailMessage()
    mail["From"], mail["To"], mail["Subject"] = SUPERVISOR, US, "Re: crew"
    for name, value in heads.items():
        mail[name.replace("_", "-")] = value
    if body:
        mail.set_content(body)
        if page:
            mail.add_alternative(page, subtype="html")
    else:
        mail.set_content(page, subtype="html")
    return bytes(mail)


def marked(text: str, width: int = 0) -> str:
    """Quoted with ``>``, at the program's own width."""
    lines = text.rstrip("\n").split("\n")
    if width:
        lines = [piece for line in lines for piece in (textwrap.wrap(line, width) or [""])]
    return "\n".join(f"> {line}".rstrip() for line in lines)


def between(answers: dict[str, str], sent: str = SENT, width: int = 0) -> str:
    """The whole mail quoted, with answers beneath some of its lines."""
    out = []
    for line in sent.rstrip("\n").split("\n"):
        out.append(marked(line, width))
        out += ["", answer, ""] if (answer := next((a for name, a in answers.items() if name in line[:30]), "")) else []
    return "\n".join(out)


def found(mail: bytes, sent: str = SENT) -> list[tuple[str, str]]:
    return [(stretch.entry.partition(":")[0], stretch.text) for stretch in written_beneath(mail, sent)]


@languages
@pytest.mark.parametrize("width", [0, 72, 40])
def test_answers_beneath_two_lines_belong_to_them(language: str, width: int):
    """Quoted with marks, whole or broken anew: each answer goes with the line above it."""
    body = f"{WROTE[language]}\n\n" + between({"- Kestrel": "skip", "- Old Mill": "friday"}, width=width)

    assert found(raw(body)) == [("Kestrel Bottom", "skip"), ("Old Mill East", "friday")]


def test_a_word_above_the_quote_belongs_to_no_line():
    """The whole digest is quoted below: nobody can say which field is meant."""
    assert found(raw(f"friday\n\n{WROTE['en']}\n\n{marked(SENT)}\n")) == [("", "friday")]


def test_a_word_beneath_the_whole_quote_belongs_to_no_line():
    """Below the end of the digest stands no field's line."""
    assert found(raw(f"{WROTE['en']}\n{marked(SENT)}\n\nskip\n")) == [("", "skip")]


@languages
@pytest.mark.parametrize("above", [True, False])
def test_one_line_alone_left_of_the_quote_is_what_is_meant(language: str, above: bool):
    """Cut down to one line, the answer above it or beneath it."""
    quote = f"{WROTE[language]}\n{marked('- ' + KESTREL)}"
    body = f"skip\n\n{quote}\n" if above else f"{quote}\n\nskip\n"

    assert found(raw(body)) == [("Kestrel Bottom", "skip")]


def test_a_line_cut_short_in_the_quote_is_still_known():
    """People leave only the beginning of a line."""
    assert found(raw(f"{WROTE['en']}\n> - Kestrel Bottom: females seen\nskip\n")) == [("Kestrel Bottom", "skip")]


def test_an_answer_beneath_a_heading_belongs_to_no_line():
    """A heading stands between the last field and the words."""
    body = between({"OTHER FIELDS": "friday"})

    assert found(raw(body)) == [("", "friday")]


def test_quotes_without_marks_are_known_by_their_words():
    """Outlook's way: header lines, then the old text bare, the answers between."""
    heads = f"From: field notes <{US}>\nSent: Friday, June 12, 2026 6:00 AM\nTo: supervisor\nSubject: crew"
    lines = SENT.replace(KESTREL, f"{KESTREL}\nskip").replace(MILL, f"{MILL}\nfriday please")

    assert found(raw(f"See below.\n\n________________________________\n{heads}\n\n{lines}")) == [
        ("", "See below."),
        ("Kestrel Bottom", "skip"),
        ("Old Mill East", "friday please"),
    ]


def test_a_page_without_a_text_part_is_read_too():
    """Only HTML: the list's marks are other signs, names are bold."""
    lines = SENT.rstrip("\n").split("\n")
    rows = "".join(
        f"<p>{html.escape(line).replace('- ', '● ', 1)}</p>" + ("<p>skip</p>" if line[2:] == KESTREL else "")
        for line in lines
    )

    assert found(raw("", f"<html><body><blockquote>{rows}</blockquote></body></html>")) == [("Kestrel Bottom", "skip")]


def test_bold_names_and_signs_in_the_text_part_do_not_matter():
    """A program makes its text of the page: asterisks for bold, a bullet for the mark."""
    quote = f"> ● *Kestrel Bottom*{KESTREL.removeprefix('Kestrel Bottom')}"

    assert found(raw(f"{WROTE['en']}\n{quote}\nskip\n")) == [("Kestrel Bottom", "skip")]


def test_a_broken_attribution_is_no_answer():
    """The line that says who wrote is often broken in two."""
    two = WROTE["en"].replace(" <notes", "\n<notes")

    assert found(raw(f"{two}\n\n{between({'- Kestrel': 'skip'})}")) == [("Kestrel Bottom", "skip")]


def test_a_signature_is_no_answer():
    """What stands below two dashes goes, as everywhere."""
    body = f"{between({'- Kestrel': 'skip'})}\n\n-- \nSupervisor, phone 555-0100\n"

    assert found(raw(body)) == [("Kestrel Bottom", "skip")]


def test_numbered_lists_are_known_as_well():
    """A reminder numbers its fields."""
    sent = "2 fields to look at.\n\n1. Kestrel Bottom: until 9 Jul, peak\n2. Old Mill East: until 9 Jul, peak\n"

    assert found(raw(between({"2. Old": "skip"}, sent)), sent) == [("Old Mill East", "skip")]


# --- the whole road ---

SAID = {
    "en": ("skip it", "monday", "8 dug 3 white"),
    "es": ("saltar", "lunes", "8 plantas con pala 3 blancas"),
    "pt": ("pular", "segunda", "8 plantas com pá 3 brancas"),
}


def digest_of(tmp_path, language: str) -> tuple[Crew, str, str]:
    """A crew whose supervisor reads this language, and the digest of its first morning: text and Message-ID."""
    boss = Person(3, "supervisor", "supervisor", "crew", (SUPERVISOR,), language=language, day_first=language != "en")
    settings = Settings(
        service=Service(folder=tmp_path, address=US), mail_in=MailIn(port=0), people=(*PEOPLE[:2], boss), fields=FIELDS
    )
    crew = Crew(tmp_path, noon(6, 11), settings)
    for text in ("kestrel 6 dug 12 white, recheck 10 d", "old mill 6 dug 4 white, recheck 10 d", "harrow 6 dug none"):
        crew.note(text)
    walk(crew, datetime(2026, 6, 12, 12, tzinfo=UTC))
    row = mails(crew, "digest")[-1]
    return crew, row["body"], row["message_id"]


def answer(crew: Crew, body: str, message_id: str):
    crew.clock.walk_to(crew.clock.at.replace(hour=15))
    crew.raw(
        raw(body, Date=format_datetime(crew.clock.at), Message_ID="<r1@phone.example>", In_Reply_To=message_id),
        SUPERVISOR,
    )
    return crew.parts.rounds.messages()[-1][1]


@languages
@pytest.mark.parametrize("width", [0, 60])
def test_each_answer_between_the_lines_acts_on_its_field(tmp_path, language: str, width: int):
    """One skipped, one moved, one looked at, in one mail."""
    crew, sent, message_id = digest_of(tmp_path, language)
    skip, monday, note = SAID[language]
    answers = {"- Kestrel": skip, "- Old Mill": monday, "- Harrow": note}
    filing = answer(crew, f"{WROTE[language]}\n\n{between(answers, sent, width)}", message_id)
    windows = {p.field_id: p for p in crew.parts.store.open_promises()}

    assert 1 not in windows
    assert windows[2].earliest == date(2026, 6, 15)
    assert [visit.note.plants for visit in crew.visits(3)][-1] == 8
    assert "Old Mill East" in crew.body(filing)
    crew.close()


@languages
def test_a_word_beneath_a_held_message_settles_it(tmp_path, language: str):
    """Its number stands in the line above: the bare word is enough."""
    crew, _, _ = digest_of(tmp_path, language)
    crew.keep("kestrel 6 dug none", "someone@elsewhere.example")
    walk(crew, datetime(2026, 6, 13, 12, tzinfo=UTC))
    row = mails(crew, "digest")[-1]
    line = next(line for line in row["body"].split("\n") if "someone@elsewhere" in line)
    word = {"en": "refuse", "es": "rechazar", "pt": "recusar"}[language]
    filing = answer(crew, between({line[:20]: word}, row["body"]), row["message_id"])

    assert filing is not None
    assert len(filing.refused) == 1
    assert crew.parts.store.held_messages("crew") == ()
    crew.close()


def test_thanks_between_the_lines_changes_nothing(tmp_path):
    """Courtesy needs no mail and keeps every window."""
    crew, sent, message_id = digest_of(tmp_path, "en")
    before = crew.parts.store.open_promises()
    filing = answer(crew, between({"- Kestrel": "thanks"}, sent), message_id)

    assert filing is not None
    assert filing.outgoing == ()
    assert crew.parts.store.open_promises() == before
    crew.close()


def test_a_field_named_between_the_lines_is_the_one_meant(tmp_path):
    """Beneath Kestrel's line stands "old mill friday": Old Mill is moved."""
    crew, sent, message_id = digest_of(tmp_path, "en")
    answer(crew, between({"- Kestrel": "old mill monday"}, sent), message_id)
    windows = {p.field_id: p.earliest for p in crew.parts.store.open_promises()}

    assert windows[2] == date(2026, 6, 15)
    assert windows[1] == date(2026, 6, 21)
    crew.close()
