"""A note written for the wrong field, in a writer's own words: "those kestrel numbers belong to north forty"."""

from __future__ import annotations

from typing import TYPE_CHECKING

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.names.naming import written
from notes_bot.language.requests import asking
from notes_bot.language.requests.corrections import other_field

if TYPE_CHECKING:
    from notes_bot.language.lexicon.pieces import Piece
    from notes_bot.language.requests.commands.line import Line

LONGEST = 22
"""Pieces of the longest line that moves a note to another field (judgement)."""
LEADS = 4
"""Words before a field's name that tell whether it is the right one (judgement)."""
_COUNTED = frozenset({"number", "range", "ratio", "series", "stage", "day"})
_VISIT = ("PLANTS", "FEMALES", "DUG", "NONE", "MOISTURE", "PLANTED", "RESISTANCE", "MUTE", "TODAY")


def misplaced(line: Line) -> bool:
    """Read a line as the right field of the last note, or of what was sent for another; false when it is none."""
    at = [n for n, p in enumerate(line.ps) if "FIELD" in p.types]
    if not 0 < len(at) <= 2 or len(line.ps) > LONGEST or line.asked:
        return False
    if not asking.may_say(line, "wrong_field", "that_note", "wrote"):
        return False
    if any(p.kind in _COUNTED or (is_any(p, _VISIT) and "FIELD" not in p.types) for p in line.ps):
        return False
    parts = asking.parts_of(line)
    if len(at) == 1 and line.made.has("asks_first", line.ps[0].text) and not parts.says("wrong_field"):
        return False  # "what all has been written down for kestrel"
    if len(at) == 1 and any(is_any(p, ("WEEKDAY",)) for p in line.ps) and not parts.says("wrong_field"):
        return False  # "i put saturday for kestrel, it was friday"
    if len(at) > 1 and _undone_for(line, at):
        told = {"value": _name(line, line.ps[at[1]]), "old": _name(line, line.ps[at[0]])}
        return line.context.command("correct", line.start, line.end, what="field", **told)
    if len(at) == 1 and _undoes(line, at[0]):
        return False  # "wrong field on the last one, forget kestrel"
    undone = any("UNDO" in p.types and not _slipped(line, p) for p in line.ps)
    undone = undone or (len(at) == 1 and parts.opens("ask_undo", "ask_undo_it"))
    if undone and not (len(at) == 1 and _is_said(line, at[0])):
        return False  # "undo that kestrel one, wrong field", "throw out what i sent on hollow 12, wrong farm entirely"
    if any("NOT_LOOKED" in p.types for p in line.ps) and not parts.says("never_in"):
        return False
    wrong = parts.says("wrong_field")
    if not wrong and not parts.says("that_note") and not _wrote(line, at[0]):
        return False
    if other_field(line.context, line.ps):
        return True
    new, old = _sides(line, at, wrong)
    if new is None or (old is None and len(at) > 1):
        return False
    then = _name(line, old) if old is not None else None
    return line.context.command("correct", line.start, line.end, what="field", value=_name(line, new), old=then)


def _undone_for(line: Line, at: list[int]) -> bool:
    """ "Wrong field on the last one, forget kestrel it was dry creek": the one taken back, and what it was."""
    refused = _undoes(line, at[0]) or any("NOT" in p.types for p in line.ps[max(0, at[0] - 2) : at[0]])
    return refused and _is_said(line, at[1])


def _undoes(line: Line, n: int) -> bool:
    """Does a word for taking back lead to the field at n ("forget kestrel", "borrá la tranquera")?"""
    before = line.ps[max(0, n - 2) : n]
    return any(
        "UNDO" in p.types or line.made.has("ask_undo", word) for p in before for word in (p.text, *p.text.split(" "))
    )


def _is_said(line: Line, n: int) -> bool:
    """ "Scratch that, wrong field, it was dry creek": is the field led by "it was"?"""
    before = line.ps[n - 1] if n else None
    return before is not None and ("CORRECT" in before.types or line.made.has("is_now", before.text.split(" ")[-1]))


def _slipped(line: Line, piece: Piece) -> bool:
    """ "Oops wrong field": said of the field, and nothing is taken back."""
    words = piece.text.split(" ")
    return any(line.made.has("wrong_field", " ".join(words[n:])) for n in range(len(words)))


def _sides(line: Line, at: list[int], wrong: bool) -> tuple[Piece | None, Piece | None]:
    """The right field and the wrong one, as far as the words before them tell."""
    ps = line.ps
    right = [n for n in at if _led(line, n, at, "belongs") or _led(line, n, at, "stood_in")]
    never = [n for n in at if _led(line, n, at, "never_in")]
    right = [n for n in right if n not in never]
    if len(at) > 1 and _wrote(line, at[0]):  # "the visit you put under dutchman south was really dutchman north"
        right = [n for n in right if n != at[0]] or [n for n in at[1:] if _led(line, n, at, "is_now")]
    if len(at) == 1:
        sure = wrong or (right and not _sent_for(line, at[0]))
        return (ps[at[0]], None) if sure and not never else (None, None)
    if len(right) == 1:
        return ps[right[0]], ps[at[1] if right[0] == at[0] else at[0]]
    if len(never) == 1:
        return ps[at[1] if never[0] == at[0] else at[0]], ps[never[0]]
    return None, None


def _sent_for(line: Line, n: int) -> bool:
    """ "(Everything we) recorded for (kestrel)": what was written of it, and no field that is the right one."""
    lead = line.ps[n - 2 : n] if n > 1 else []
    return bool(lead) and line.made.has("wrote", lead[0].text) and line.made.has("of_note", lead[1].text)


def _led(line: Line, n: int, at: list[int], trait: str) -> bool:
    """Does a phrase of this manner stand right before the field at n ("belong to north forty")?"""
    first = max([m + 1 for m in at if m < n], default=0)
    words = [word for p in line.ps[max(first, n - LEADS - 2) : n] for word in p.text.split(" ") if p.kind == "word"]
    tail = words[-LEADS:]
    said = {" ".join(tail[k:end]) for k in range(len(tail)) for end in range(k + 1, len(tail) + 1)}
    behind = " ".join(p.text for p in line.ps[n + 1 : n + 2])
    return any(line.made.has(trait, phrase) for phrase in said) or (
        trait == "belongs" and line.made.has("belongs_end", behind)
    )


def _wrote(line: Line, first: int) -> bool:
    """ "I wrote Dry Creek but ..": a word for writing right before the first field."""
    before = line.ps[max(0, first - LEADS) : first]
    return any(line.made.has("wrote", said) for p in before for said in (p.text, *p.text.split(" ")))


def _name(line: Line, piece: Piece) -> str:
    return written(line.context.text, piece.start, piece.end)
