"""May it pass? Who is answered, who is held for a supervisor, what is filed without a word.

No answer ever goes to lists, programs, bounces, ourselves or strangers (RFC 3834), so nobody can make us
send mail to a third party, and two robots that meet fall silent after one turn.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from notes_bot.model import Message, Proof

MOST_AN_HOUR = 20
MOST_A_DAY = 100
MOST_OF_ALL_AN_HOUR = 500
MOST_ALIKE = 2


@dataclass(frozen=True, slots=True)
class Recent:
    """What was answered lately, for the limits."""

    to_sender_in_hour: int = 0
    to_sender_in_day: int = 0
    to_all_in_hour: int = 0
    alike_in_ten_minutes: int = 0
    """Answers with the same text to this sender."""


@dataclass(frozen=True, slots=True)
class Verdict:
    """``answer``: go on; ``hold``: keep and show to a supervisor; ``file``: keep and do nothing."""

    ok: bool
    action: Literal["answer", "hold", "file"]
    reason: str = ""


def may_pass(message: Message, *, known: bool, proof: Proof, recent: Recent | None = None) -> Verdict:
    """Judge one message. ``known``: the sender is on the crew's list; ``recent``: answers given lately.

    ``reason`` is one of: the values of ``Message.automatic``, ``unclear_sender``, ``stranger``, ``unproved``,
    ``too_many``, ``too_many_alike``, ``busy``.
    """
    recent = recent or Recent()
    if message.automatic:
        return Verdict(False, "file", message.automatic)
    if not message.sender:
        return Verdict(False, "hold", "unclear_sender")
    if not known:
        return Verdict(False, "hold", "stranger")
    if not proof.holds:
        return Verdict(False, "hold", "unproved")
    if recent.alike_in_ten_minutes >= MOST_ALIKE:
        return Verdict(False, "file", "too_many_alike")
    if recent.to_sender_in_hour >= MOST_AN_HOUR or recent.to_sender_in_day >= MOST_A_DAY:
        return Verdict(False, "hold", "too_many")
    if recent.to_all_in_hour >= MOST_OF_ALL_AN_HOUR:
        return Verdict(False, "hold", "busy")
    return Verdict(True, "answer")
