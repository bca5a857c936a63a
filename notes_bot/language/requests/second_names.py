"""A second name of a field, told by who says it: "My grandson writes Crooked when he means Crooked Mile".

Somebody writes or says a name, and the field that is meant stands in the same line by its whole name; a word for
meaning, or for counting both as one, ties the two.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.names.naming import written
from notes_bot.language.requests import asking

if TYPE_CHECKING:
    from notes_bot.language.lexicon.pieces import Piece
    from notes_bot.language.requests.commands.line import Line

LONGEST = 30
"""Pieces of the longest line that tells a second name (judgement)."""
LONGEST_NAME = 3
"""Pieces of the longest second name (judgement)."""
_ELSE = ("COLOUR", "FEMALES", "NONE", "PLANTS", "NOT_LOOKED", "DUG", "MOISTURE", "TEXTURE", "EGGS", "PLANTED", "ACRES")
"""Kinds of words of a line that tells more than a name."""


def second_named(line: Line) -> bool:
    """Read a line as the second name of one field; false when it is not."""
    if not line.context.fields or len(line.ps) > LONGEST or not asking.may_say(line, "says_name"):
        return False
    if any(p.kind in ("number", "stage", "day", "series", "range") and "FIELD" not in p.types for p in line.ps):
        return False
    parts = asking.parts_of(line)
    added = any(is_any(p, ("ADD",)) for p in line.ps) and not parts.says("same_field")
    if added or parts.says("new_field", "lies_by") or any(is_any(p, ("NEAR", "RENAME")) for p in line.ps):
        return False  # "a new piece of ground, call it Plover Eighty, its right by Sexton"
    field = _whole_named(line)
    if field is None or not (parts.says("same_field", "means_field") or _short_for(line, field)):
        return False
    rest = [p for p in line.ps if p is not field and len(p.text) > 1 and not linking(p)]
    if any(is_any(p, _ELSE) and "FIELD" not in p.types for p in rest):
        return False
    alias = _said_name(line, field)
    if alias is None:
        return False
    name = written(line.context.text, field.start, field.end)
    return alias != name and line.context.command("field", line.start, line.end, name=name, alias=alias)


def _short_for(line: Line, field: Piece) -> bool:
    """ "(The guys put) Hatchet for Hatchet Creek": words of the name, "for", and the whole name."""
    at = line.ps.index(field)
    led = at > 1 and line.made.has("for_name", line.ps[at - 1].text)
    return led and set(line.ps[at - 2].text.split(" ")) < set(field.text.split(" "))


def _whole_named(line: Line) -> Piece | None:
    """The one field of the crew that stands in the line by its whole name."""
    known = {fold(" ".join(name.split())) for name in line.context.fields}
    whole = [p for p in line.ps if "FIELD" in p.types and fold(written(line.context.text, p.start, p.end)) in known]
    return whole[0] if len({p.text for p in whole}) == 1 else None


def _said_name(line: Line, field: Piece) -> str | None:
    """The words in capitals, or words of the field's own name, behind a verb of saying: "says (Hatchet)"."""
    own = set(field.text.split(" "))
    for n, piece in enumerate(line.ps[:-1]):
        if not any(line.made.has("says_name", said) for said in (piece.text, piece.text.split(" ")[-1])):
            continue
        first = n + 1
        while first < len(line.ps) and _leads(line, line.ps[first]):
            first += 1
        last = first
        while last < len(line.ps) and last < first + LONGEST_NAME and _of_name(line, line.ps[last], field, own):
            last += 1
        if last > first:
            return written(line.context.text, line.ps[first].start, line.ps[last - 1].end).strip("'\"") or None
    return None


def _leads(line: Line, piece: Piece) -> bool:
    """ "Le dice (a)", "just", "it": little words in small letters before the name."""
    small = line.context.text[piece.start].islower()
    return piece.kind == "word" and small and (linking(piece) or line.made.has("alias_frame", piece.text))


def _of_name(line: Line, piece: Piece, field: Piece, own: set[str]) -> bool:
    """Can a piece be a word of the second name: in capitals, in quotes, or one of the field's own words?"""
    if piece is field or (is_any(piece, ("FIELD",)) and not set(piece.text.split(" ")) < own):
        return False
    if piece.kind == "quoted":
        return True
    if piece.kind != "word" or piece.text in anywhere("and_word"):
        return False
    return line.context.text[piece.start].isupper() or set(piece.text.split(" ")) <= own
