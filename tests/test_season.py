"""The demo's season through the real desk: every message gets the answer that stands in tests/replies, word for word.

After a change of wording run with ``--write-replies`` and read the difference as a tired scout would.
"""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from email import message_from_bytes, policy

import pytest

from notes_bot.demo import TRANSIT, WalkingClock, crew, season
from notes_bot.mail import write_mail
from notes_bot.mail.opening import unflowed
from notes_bot.model import Reply
from notes_bot.service import build
from tests.conftest import REPLIES

SILENT = {"stranger": "held: stranger", "away_notice": "filed: auto_reply", "thanks": "done: no answer"}
"""Messages of the season that must not be answered, and what becomes of them."""


@pytest.fixture(scope="module")
def played(tmp_path_factory):
    """The season played once, without the wire: stem -> (filing, text of the answer)."""
    folder = tmp_path_factory.mktemp("season")
    settings = crew(folder)
    mails = season()
    clock = WalkingClock(mails[0].sent_at)
    parts = build(settings, clock)
    found = {}
    for mail in mails:
        clock.walk_to(mail.sent_at + TRANSIT)
        parts.inbox.keep(
            mail.raw,
            door="smtp",
            peer="127.0.0.1",
            envelope_from=mail.sender,
            envelope_to=["notes@crew.example"],
            arrived_at=clock(),
        )
        ((_, filing),) = parts.rounds.messages()
        assert filing is not None, parts.store.stuck_messages() or parts.store.waiting()[0].trouble
        found[mail.stem] = (filing, _words(filing))
    yield parts, found
    parts.close()


def _words(filing) -> str:
    if not filing.outgoing:
        return f"{filing.state}: {filing.reason or 'no answer'}\n"
    mail = message_from_bytes(filing.outgoing[0].raw, policy=policy.default)
    files = [part.get_filename() for part in mail.walk() if part.get_filename()]
    head = f"To: {mail['To']}\nSubject: {mail['Subject']}\n" + "".join(f"File: {name}\n" for name in files)
    return head + "\n" + unflowed(mail.get_body(("plain",)).get_content().replace("\r\n", "\n"))


@pytest.mark.parametrize("stem", [mail.stem for mail in season()])
def test_every_demo_message_gets_its_expected_answer(played, stem, request):
    """The answer (or the silence) is the one that was read and approved."""
    _, found = played
    file = REPLIES / f"{stem}.txt"
    if request.config.getoption("--write-replies"):
        file.write_text(found[stem][1], "utf-8")

    assert found[stem][1] == file.read_text("utf-8")


def test_every_expected_answer_has_its_message():
    """No answer is left over from a message that is gone."""
    assert {file.stem for file in REPLIES.glob("*.txt")} == {mail.stem for mail in season()}


def test_who_must_not_be_answered_is_not(played):
    """A stranger, an away notice and a word of thanks get no mail."""
    _, found = played

    assert {
        stem: words.strip() for stem, (_, words) in found.items() if ":" in words.split()[0] and stem in SILENT
    } == SILENT
    assert {stem for stem, (filing, _) in found.items() if not filing.outgoing} == set(SILENT)


def test_every_answer_obeys_the_rules_of_an_answer(played):
    """A headline for a lock screen, a text that fits a text message, headers that no robot answers."""
    _, found = played
    for stem, (filing, _words) in found.items():
        for outgoing in filing.outgoing:
            mail = message_from_bytes(outgoing.raw, policy=policy.default)
            body = unflowed(mail.get_body(("plain",)).get_content().replace("\r\n", "\n"))
            if "texts.example" not in str(mail["To"]):
                assert len(body.splitlines()[0]) <= 110, stem
            assert mail["Auto-Submitted"] == "auto-replied"
            assert mail["In-Reply-To"] in str(mail["References"])
            if "texts.example" in str(mail["To"]):
                assert len(body.strip()) <= 160, (stem, body)
                assert [p for p in mail.walk() if p.get_filename()] == []


def test_no_answer_speaks_of_certainty_it_has_not(played):
    """None seen is never none there, and only the first two generations are named by number."""
    _, found = played
    for stem, (_, words) in found.items():
        lowered = words.lower()
        assert "field is clean" not in lowered, stem
        assert "4th generation" not in lowered
        assert "fourth generation" not in lowered


def test_the_same_message_again_changes_nothing(played, demo):
    """Sent a second time, the message is filed as a repeat: no record, no mail."""
    parts, _ = played
    before = parts.store.counts()
    parts.inbox.keep(
        demo("early_white"),
        door="smtp",
        peer="127.0.0.1",
        envelope_from="scout1@crew.example",
        envelope_to=["notes@crew.example"],
        arrived_at=parts.now(),
    )
    ((_, filing),) = parts.rounds.messages()

    assert (filing.state, filing.reason.startswith("repeat of message")) == ("filed", True)
    assert parts.store.counts() == before | {"inbox filed": before["inbox filed"] + 1}


def test_the_correction_stands_and_the_first_count_is_kept_but_not_used(played):
    """Kestrel, 11 June: 19 white stand, 17 do not."""
    parts, _ = played
    field = next(f for f in parts.store.fields("North round") if f.name.startswith("Kestrel"))
    first = parts.store.visits(field.id, date(2026, 6, 11), date(2026, 6, 11))

    assert [visit.note.females.white for visit in first] == [19]


def test_the_held_note_found_its_field_by_one_word(played):
    """Nothing of the note was lost while it waited."""
    parts, _ = played
    field = next(f for f in parts.store.fields("North round") if f.name == "Old Mill East")
    visits = parts.store.visits(field.id, date(2026, 7, 13), date(2026, 7, 13))

    assert [(v.note.females.white, v.note.females.yellow, v.note.plants) for v in visits] == [(12, 30, 8)]


def test_reminders_go_out_once_at_the_scouts_hour(played):
    """A morning's turn taken many times sends one mail a person; before the hour none."""
    parts, _ = played
    parts.rounds.now = parts.desk.now = lambda: datetime(2026, 9, 1, 10, 30, tzinfo=UTC)  # 5:30 in Chicago
    assert parts.rounds.reminders() == []

    parts.rounds.now = parts.desk.now = lambda: datetime(2026, 9, 1, 11, 5, tzinfo=UTC)
    sent = parts.rounds.reminders()
    again = parts.rounds.reminders()

    assert len(sent) == len({outgoing.person_id for outgoing in sent})
    assert again == []


def test_the_supervisor_sees_what_is_held(played):
    """The stranger's message is in the digest with its number and first line, not its whole text."""
    parts, _ = played
    supervisor = next(p for p in parts.store.people() if p.role == "supervisor")
    day = parts.rounds.day(supervisor, date(2026, 7, 18))

    assert [(w.sender, w.reason) for w in day.held] == [("someone@elsewhere.example", "stranger")]
    body = parts.rounds.digest_now(supervisor).body
    assert "someone@elsewhere.example" in body


def test_an_answer_can_be_written_as_mail_in_every_language(played):
    """Accents, arrows and long lines survive the trip through MIME."""
    raw = write_mail(
        Reply("Prüfung ñ", "La línea é longa " * 20),
        message_id="<x@crew.example>",
        date=datetime.combine(date(2026, 7, 1), time(12), UTC) + timedelta(0),
        from_address="notes@crew.example",
        to="scout2@crew.example",
        kind="answer",
    )

    assert message_from_bytes(raw, policy=policy.default).get_content().startswith("La línea é")
