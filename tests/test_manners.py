"""Who is answered, who is held, what is filed."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from notes_bot.mail.manners import MOST_A_DAY, MOST_ALIKE, MOST_AN_HOUR, MOST_OF_ALL_AN_HOUR, Recent, Verdict, may_pass
from notes_bot.mail.opening import AUTOMATIC, open_message
from notes_bot.mail.smtp_out import write_mail
from notes_bot.model import Message, Proof, Reply

NOW = datetime(2026, 7, 6, 19, 2, tzinfo=UTC)
MESSAGE = Message("scout@farm.example", "", "north 40 none", "<a@b.example>", NOW)
PROVED = Proof("dkim", "farm.example")
UNPROVED = Proof("none", "no signature")


def test_a_known_and_proved_sender_is_answered() -> None:
    """The one way through."""
    assert may_pass(MESSAGE, known=True, proof=PROVED) == Verdict(True, "answer")


@pytest.mark.parametrize(
    ("known", "proof", "reason"),
    [(True, UNPROVED, "unproved"), (False, PROVED, "stranger"), (False, UNPROVED, "stranger")],
)
def test_strangers_and_unproved_senders_are_held_and_never_answered(known: bool, proof: Proof, reason: str) -> None:
    """A supervisor decides."""
    assert may_pass(MESSAGE, known=known, proof=proof) == Verdict(False, "hold", reason)


def test_a_sender_that_cannot_be_told_is_held() -> None:
    """No address, no answer, whatever is known."""
    assert may_pass(replace(MESSAGE, sender=""), known=True, proof=PROVED).reason == "unclear_sender"


@pytest.mark.parametrize("why", AUTOMATIC)
def test_programs_are_filed_without_a_word_even_when_known_and_proved(why: str) -> None:
    """Being on the list does not make a holiday notice a note."""
    assert may_pass(replace(MESSAGE, automatic=why), known=True, proof=PROVED) == Verdict(False, "file", why)


@pytest.mark.parametrize(
    ("recent", "action", "reason"),
    [
        (Recent(to_sender_in_hour=MOST_AN_HOUR), "hold", "too_many"),
        (Recent(to_sender_in_day=MOST_A_DAY), "hold", "too_many"),
        (Recent(to_all_in_hour=MOST_OF_ALL_AN_HOUR), "hold", "busy"),
        (Recent(alike_in_ten_minutes=MOST_ALIKE), "file", "too_many_alike"),
        (Recent(MOST_AN_HOUR - 1, MOST_A_DAY - 1, MOST_OF_ALL_AN_HOUR - 1, MOST_ALIKE - 1), "answer", ""),
    ],
)
def test_limits_hold_a_flood(recent: Recent, action: str, reason: str) -> None:
    """Kept for the supervisor rather than answered; the same answer a third time in ten minutes is a loop."""
    verdict = may_pass(MESSAGE, known=True, proof=PROVED, recent=recent)

    assert (verdict.action, verdict.reason) == (action, reason)


def test_two_of_us_that_write_to_each_other_fall_silent_after_one_turn() -> None:
    """Our own answer, received by another such service where our address is on the list, is filed."""
    answer = write_mail(
        Reply("Field notes", "North 40: none seen."),
        message_id="<1@crew.example>",
        date=NOW,
        from_address="notes@crew.example",
        to="notes@other.example",
        kind="answer",
    )
    received = open_message(
        answer,
        arrived_at=NOW,
        door="smtp",
        envelope_from="notes@crew.example",
        envelope_to=["notes@other.example"],
        ours=lambda address: address == "notes@other.example",
    )

    assert may_pass(received, known=True, proof=PROVED).action == "file"
