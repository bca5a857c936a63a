"""A note taken back."""

from __future__ import annotations

from notes_bot.language.lexicon.words import is_field_word
from notes_bot.language.requests import asking
from notes_bot.language.requests.commands.line import LONGEST_NAME, Line
from notes_bot.language.requests.corrections import other_field


def undo(line: Line) -> bool:
    """undo; undo kestrel."""
    if line.tells() or asking.parts_of(line).says("ask_drop"):
        return False
    if other_field(line.context, line.ps[1:]):
        return True  # "take that last one back, it was dry creek not kestrel"
    stop = _name_ends(line)
    name = line.nearest_name(line.name(1, stop)) if len(line.ps) <= 7 or stop <= LONGEST_NAME else None
    name = name or line.known_name(0)
    named = line.is_known(name) if name is not None and line.context.fields else _bare_name(line)
    named = named and not (name and is_field_word(name))
    return line.emit("take_back", field=name if named else None)


def _name_ends(line: Line) -> int:
    """Where a name behind the first word ends: at a comma, when it is written with a capital."""
    shown = len(line.ps) > 1 and line.context.text[line.ps[1].start].isupper()
    return next((n for n, p in enumerate(line.ps) if shown and n and p.kind == "break"), len(line.ps))


def _bare_name(line: Line) -> bool:
    """Is what stands behind the first word a name and no sentence ("lo último q te mandé, me equivoqué")?"""
    rest = line.ps[1 : _name_ends(line)]
    return 0 < len(rest) < LONGEST_NAME and not any(p.kind == "break" or p.text in line.made.plain for p in rest)
