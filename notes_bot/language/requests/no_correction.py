"""What looks like a correction and is part of a plain note.

A number beside another with "not" between them, or behind "oops" or "said", puts right what was sent. It does not
where the other one is what is usual ("dug 6 not 5 like usual"), where somebody else said it ("they said 5 was
enough"), where a whole note comes late ("oops forgot kestrel, 7 plants 3 white"), and where plants are healthy and the
rest only says what they are not ("tops healthy, not stunted").
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from notes_bot.language.lexicon.crew_names import name_cut
from notes_bot.language.lexicon.joining import is_any, number_like
from notes_bot.language.lexicon.scan import clean, scan
from notes_bot.language.requests import asking
from notes_bot.language.requests.corrections import tells_of_else

if TYPE_CHECKING:
    from notes_bot.language.requests.commands.line import Line

SOON = 4
"""Pieces of a line among which a word for having forgotten stands (judgement)."""


def plainly_noted(line: Line) -> bool:
    """Does a line only look like a correction?"""
    return (
        _as_usual(line)
        or _others_said(line)
        or _told_late(line)
        or _healthy(line)
        or all_dug_so(line)
        or _found_so(line)
        or _ought_of_else(line)
    )


def _ought_of_else(line: Line) -> bool:
    """ "Kestrel. Powder where there ought to be soil. 6 plants, 12 white": what ought to be is no value of the note."""
    made = line.made
    at = [n for n, p in enumerate(line.ps) if made.has("strong_correct", p.text)]
    if not at or any(made.has("set_verb", p.text) or made.has("lone_correct", p.text) for p in line.ps):
        return False
    return all(tells_of_else(line.ps[:n], line.ps[n + 1 :], made) for n in at)


def all_dug_so(line: Line) -> bool:
    """ "Kestrel: everything I looked at was dug, not pulled. 12 white": how all came up, in a note of counts."""
    if not any(is_any(p, ("NOT",)) for p in line.ps) or not any(is_any(p, ("DUG", "TOOL")) for p in line.ps):
        return False
    made = line.made
    words = [word for piece in line.ps if "FIELD" not in piece.types for word in piece.text.split(" ")]
    subject = next((word for word in words if word not in ":,-"), "")
    if not made.has("all_of_plants", subject) or made.has_any("amend_cue", words):
        return False
    told = [p.kind == "number" or is_any(p, ("CORRECT", "COLOUR", "FEMALES")) for p in line.ps]
    return not any(told) and any(ch.isdigit() for ch in line.context.text)


def _found_so(line: Line) -> bool:
    """ "Kestrel, eight plants" and below "it was 42 white": what was found, where only the plants were told above."""
    first = line.ps[0]
    if not is_any(first, ("CORRECT",)) or not line.made.has("it_was", first.text) or not first.start:
        return False
    others = line.ps[1:]
    if any(is_any(p, ("CORRECT", "NOT", "FIELD", "PLANTS")) or p.kind in ("day", "stage") for p in others):
        return False
    if not any(number_like(p) and is_any(q, ("COLOUR", "FEMALES")) for p, q in pairwise(others)):
        return False
    said = f" {' '.join(x.text for x in scan(clean(line.context.text[: first.start])))} "
    names = [at for name in line.context.fields if (at := said.rfind(f" {' '.join(name_cut(name))} ")) >= 0]
    words = said[max(names, default=0) :].split(" ")
    above = [e.type for word in words for e in line.made.singles.get(word, ())]
    return bool({"PLANTS", "DUG"} & set(above)) and not {"COLOUR", "FEMALES", "NONE"} & set(above)


def _as_usual(line: Line) -> bool:
    """ "Kestrel dug 6 not 5 like usual", "6 plantas, no 5 como siempre"."""
    return asking.may_say(line, "as_usual") and asking.parts_of(line).says("as_usual")


def _others_said(line: Line) -> bool:
    """ "Boss said kestrel was resistant", "dug 6, they said 5 was enough": somebody else did, and not the writer."""
    words = [word for piece in line.ps if "FIELD" not in piece.types for word in piece.text.split(" ")]
    mine = any(line.made.has("who_goes", word) for word in words)
    return not mine and any(
        (line.made.has("other_subject", first) or line.made.has("who_says", first)) and line.made.has("says_it", second)
        for first, second in pairwise(words)
    )


def _told_late(line: Line) -> bool:
    """ "Oops forgot kestrel, 7 plants 3 white": a note with its plants, told late."""
    if not any(line.made.has("forgot_it", word) for piece in line.ps[:SOON] for word in piece.text.split(" ")):
        return False
    plants = any(p.kind == "number" and is_any(q, ("PLANTS",)) for p, q in pairwise(line.ps))
    dug = any(is_any(p, ("DUG",)) and q.kind == "number" for p, q in pairwise(line.ps))
    return plants or dug


def _healthy(line: Line) -> bool:
    """ "Kestrel tops healthy, not stunted": what healthy plants are not, and no verb that tells how it was."""
    made = line.made
    at = next((n for n, p in enumerate(line.ps) if "TOP" in p.types and p.types["TOP"].value == "healthy"), None)
    denied = at is not None and any(made.denies(p.text) for p in line.ps[at + 1 :])
    said = ("is_word", "wrote", "amend_cue", "really")
    return denied and not any(
        is_any(p, ("CORRECT",)) or any(made.has(trait, word) for trait in said for word in p.text.split(" "))
        for p in line.ps
    )
