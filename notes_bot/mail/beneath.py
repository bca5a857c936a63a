"""What was written beneath which line of ours: answers put between the lines of a quoted mail.

Programs quote in many ways: ``>`` before each line, broken anew at their own width; no mark at all; the bullets of an
HTML list as other signs. So lines are compared by their letters and figures alone, with what we sent.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from notes_bot.mail.opening import full_text, is_quoted, not_said, written

MOST_LINES = 4000
LEAST_LETTERS = 12
"""A shorter line without quote marks is not taken for a piece of ours, unless a whole line of ours says just that."""
_SHOWN = re.compile(r"^(?:[-*\u2022\u25cf\u25d0\u25cb\u00b7]\s+|\d{1,3}\.\s+)")


@dataclass(slots=True)
class Stretch:
    """Some lines in a row of the writer's own."""

    entry: str
    """The line of ours they stand beneath, as sent, without its bullet or number; empty: beneath none, or several."""
    text: str


@dataclass(slots=True)
class _Run:
    above: list[str] = field(default_factory=list)
    own: list[str] = field(default_factory=list)


def written_beneath(raw: bytes, sent: str) -> tuple[Stretch, ...]:
    """The writer's own stretches of a mail that answers ``sent`` (the text of ours), in order.

    A stretch is beneath a line of ours when that line, or its beginning, is all that stands between it and the stretch
    before, or the end of what else is quoted there. Where all that is quoted is one line, what is written above it is
    beneath it as well. Only lines of a list of ours count (those that begin with ``-`` or a number).
    """
    entries = {letters(line): line for line in map(_entry, sent.split("\n")) if line}
    body = letters(sent)
    whole = {letters(line) for line in sent.split("\n")} - {""}
    runs = [_Run()]
    lines = full_text(raw).split("\n")[:MOST_LINES]
    aside, signed = not_said(lines), False
    for number, line in enumerate(lines):
        plain = letters(line)
        if not plain:
            signed = signed or line == "-- "
            (runs[-1].own or runs[-1].above).append("")
        elif number in aside or is_quoted(line) or _ours(plain, body, whole):
            if any(runs[-1].own):
                runs.append(_Run())
            runs[-1].own.clear()
            runs[-1].above.append("" if number in aside else plain)
            signed = False
        elif not signed:
            runs[-1].own.append(line)
    found = [Stretch(_beneath(run.above, entries), written("\n".join(run.own))) for run in runs]
    quoted = " ".join(line for run in runs for line in run.above if line)
    only = [entry for key, entry in entries.items() if quoted and key.startswith(quoted)]
    if len(only) == 1 and found and not found[0].entry:
        found[0].entry = only[0]
    return tuple(stretch for stretch in found if stretch.text)


def letters(line: str) -> str:
    """Letters and figures in lower case, one space between words: what is left of a line however it is quoted."""
    return " ".join(re.findall(r"\w+", line.replace("_", " ").casefold()))


def _entry(line: str) -> str:
    shown = _SHOWN.match(line)
    return line[shown.end() :].strip() if shown else ""


def _ours(plain: str, body: str, whole: set[str]) -> bool:
    return plain in whole or (len(plain) >= LEAST_LETTERS and f" {plain} " in f" {body} ")


def _beneath(above: Sequence[str], entries: dict[str, str]) -> str:
    """The entry that the lines above end with, or end with the beginning of."""
    joined, longest = "", max((len(key) for key in entries), default=0) + 4
    for line in reversed(above):
        joined = f"{line} {joined}".strip()
        if len(joined) > longest:
            break
        for shown in (joined, re.sub(r"^\d{1,3} ", "", joined)):  # a numbered list keeps its number in the letters
            fitting = [entry for key, entry in entries.items() if shown and f"{key} ".startswith(f"{shown} ")]
            if len(fitting) == 1:
                return fitting[0]
    return ""
