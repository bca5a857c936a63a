"""The state a field lies in: "Stenner is in Minnesota btw, about 38 acres", "new field Pigeon Run, Nebraska, 65 ac".

Where the crew works is told elsewhere (``telling``); here a field is named, or a new one told of.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import anywhere, is_field_word
from notes_bot.language.names.naming import written
from notes_bot.language.requests import winter
from notes_bot.language.requests.corrections import acres_told

if TYPE_CHECKING:
    from notes_bot.language.lexicon.pieces import Piece
    from notes_bot.language.requests.commands.line import Line

SHORTEST = 4
"""Letters of the shortest state that no everyday word is like: "Iowa", and not "in" (judgement)."""
LONGEST = 20
"""Pieces of the longest line that only tells where a field lies (judgement)."""
LONGEST_NAME = 4
"""Words of the longest name no list has before "lies in" (judgement)."""
_ELSE = (
    *("COLOUR", "FEMALES", "NONE", "PLANTS", "NOT_LOOKED", "DUG", "MOISTURE", "EGGS", "TOP", "PLANTED", "SOURCE"),
    *("RESISTANCE", "TODAY", "WEEKDAY", "CORRECT", "VARIETY", "CHEMICAL", "SPRAY"),
)
"""Kinds of words of a line that tells more than where a field lies."""


def state_told(line: Line, name: str = "") -> dict[str, Any]:
    """The one state a line names outside a field's name, and does not deny, as the ``place`` of that field."""
    start, end = line.start, line.end
    raw = fold(line.context.text[start:end])
    at = raw.find(fold(name)) if name else -1
    own = range(at, at + len(name)) if at >= 0 else range(0)
    found = [f for f in winter.find(line.context.language, "REGION", raw) if f.end - f.start >= SHORTEST]
    found = [f for f in found if f.start not in own and not _denied(line, raw[: f.start])]
    if len({f.value for f in found}) != 1:
        return {}
    return {"place": written(line.context.text, start + found[0].start, start + found[0].end)}


def without_state(line: Line, name: str) -> tuple[str, dict[str, Any]]:
    """ "Pigeon Run in Nebraska": a new field's name without the state it lies in, and the state."""
    told = state_told(line, "")
    state = str(told.get("place", ""))
    words = name.split(" ")
    size = len(state.split(" "))
    led = len(words) > size + 1 and line.made.has("lies_in", fold(words[-size - 1]))
    if state and led and " ".join(words[-size:]) == state:
        return " ".join(words[: -size - 1]), told
    return name, state_told(line, name)


def _denied(line: Line, before: str) -> bool:
    """ "Minnesota, not (Iowa)": does a word right before a state deny it?"""
    words = before.replace(",", " ").split()
    return any(line.made.denies(word) for word in words[-2:])


def lies_in_state(line: Line) -> bool:
    """ "Stenner is in Minnesota", "Paiol fica em Goiás, viu", "Marlow is a Missouri field": a field and its state."""
    ps = line.ps
    if len(ps) > LONGEST or line.asked or any(is_any(p, _ELSE) and not linking(p) for p in ps):
        return False
    state = state_told(line)
    acres = acres_told(line.context.text[line.start : line.end], line.context.language)
    counted = sum(p.kind in ("number", "range", "series", "stage", "day", "link") for p in ps)
    if not state or counted > (acres is not None):
        return False
    span = _field(line)
    if span is None:
        return False
    at = line.start + fold(line.context.text[line.start : line.end]).rindex(fold(str(state["place"])))
    between = [p for p in ps if span[1] <= p.start < at]
    if not between or not _lies(line, between, at):
        return False
    name = written(line.context.text, *span)
    return line.context.command("field", line.start, line.end, name=name, acres=acres, **state)


def _lies(line: Line, between: list[Piece], at: int) -> bool:
    """Do only a word for lying, "in" and little words stand between a field and its state ("is over in")?"""
    made = line.made
    little = ("place_frame", "lies", "lies_in", "is_word", "is_now")
    if not all(
        linking(p) or any(made.has(t, w) for t in little for w in (p.text, *p.text.split(" "))) for p in between
    ):
        return False
    words = [word for p in between for word in p.text.split(" ")]
    lies = any(
        made.has(t, said) for said in (*words, *(p.text for p in between)) for t in ("lies", "is_word", "is_now")
    )
    behind = next((p for p in line.ps if p.start > at and "FIELD_WORD" in p.types), None)
    led = made.has("lies_in", words[-1]) or words[-1] in ("'s", "s")
    return lies and (led or (behind is not None and words[-1] in anywhere("name_article")))


def _field(line: Line) -> tuple[int, int] | None:
    """The one field of the crew in the line; without a list the words in capitals it begins with."""
    named = [(p.start, p.end) for p in line.ps if "FIELD" in p.types]
    if line.context.fields and named:
        return named[0] if len({line.context.text[s:e] for s, e in named}) == 1 else None
    if line.context.listed:
        return None
    ps = line.ps
    while len(ps) > 1 and (is_any(ps[0], ("COURTESY", "FIELD_WORD")) or ps[0].text in anywhere("name_article")):
        ps = ps[1:]
    size = 0
    while size < len(ps) and size <= LONGEST_NAME and ps[size].kind == "word":
        if not line.context.text[ps[size].start].isupper() or is_field_word(ps[size].text):
            break
        size += 1
    mine = any(line.made.has(trait, p.text) for trait in ("we_word", "it_word", "who_goes") for p in ps[:size])
    return (ps[0].start, ps[size - 1].end) if 0 < size <= LONGEST_NAME and not mine else None
