"""A color that a note left off, and how many of it there were: "at Gristle Hill i left off the tan ones, 5 tan".

It is the count of that color, put right. Where only what is to be added is told ("left out 3 brown"), how many there
are now is asked.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from notes_bot.language.lexicon.joining import is_any, linking, number_words
from notes_bot.language.names.naming import written
from notes_bot.language.requests import asking
from notes_bot.language.requests.amends import named_field
from notes_bot.language.requests.corrections import in_figures

if TYPE_CHECKING:
    from notes_bot.language.lexicon.pieces import Piece
    from notes_bot.language.requests.commands.line import Line

LONGEST = 24
"""Pieces of the longest sentence that tells it (judgement)."""
_ELSE = (
    *("PLANTS", "DUG", "NONE", "NOT_LOOKED", "TOO_MANY", "EGGS", "PLANTED", "MOISTURE", "TEXTURE", "SOAKED", "LOOK"),
    *("UNIT", "WEEKDAY", "MONTH", "TOP", "ROOT", "NODULE", "RESISTANCE", "SPRAY", "CHEMICAL", "CHECK", "EACH"),
)
"""Kinds of words of a sentence that tells more."""


def left_off(line: Line, named: Piece | None = None) -> bool:
    """Read a sentence as a color left off; ``named`` is the field told of before it."""
    if len(line.ps) > LONGEST or line.asked or not asking.may_say(line, "left_off", "left_word"):
        return False
    span = named_field(line)
    if span is None and named is None:
        return False
    own = range(*span) if span is not None else range(0)
    ps = [in_figures(p, line.made) for p in number_words([p for p in line.ps if p.start not in own], line.made)]
    told = [p for p in ps if not (linking(p) or len(p.text) == 1) or p.kind == "number"]
    if any(is_any(p, ("FIELD",)) or _tells_else(p) or p.kind in ("stage", "day", "series", "range") for p in told):
        return False
    said = _said_at(line, ps)
    shades = [n for n, p in enumerate(ps) if "COLOUR" in p.types and len(p.text) > 1]
    numbers = [n for n, p in enumerate(ps) if p.kind == "number"]
    if said is None or len(numbers) != 1 or not shades or len({ps[n].types["COLOUR"].value for n in shades}) != 1:
        return False
    at, end = said
    if numbers[0] < at or not isinstance(ps[numbers[0]].value, int) or abs(shades[0] - at) > NEAR:
        return False
    if any(not linking(p) and not line.made.has("wrote", p.text) for p in ps[end : shades[0]] if p.kind != "number"):
        return False  # "forgot my glasses at Kestrel, 3 yellow"
    if numbers[0] < shades[0]:
        line.context.complain("no_change", line.start, line.end)
        return True  # "left out 3 brown at Hobbs"
    source = span or ((named.start, named.end) if named is not None else (0, 0))
    return line.context.command(
        "correct",
        line.start,
        line.end,
        field=written(line.context.text, *source),
        what=ps[shades[0]].types["COLOUR"].value,
        value=ps[numbers[0]].value,
    )


def _tells_else(piece: Piece) -> bool:
    """Does a word tell more than colors ("brown" is also said of roots)?"""
    return is_any(piece, _ELSE) and "COLOUR" not in piece.types


NEAR = 6
"""Pieces from the word for leaving off to the color left off (judgement)."""
APART = 5
"""Pieces from "left" to the "off" of "i left the tans off" (judgement)."""


def _said_at(line: Line, ps: list[Piece]) -> tuple[int, int] | None:
    """Where it is said that something was left off: "forgot to put", "i left the tans off", "me comí"."""
    made = line.made
    for n, piece in enumerate(ps):
        for size in (4, 3, 2, 1):
            if made.has("left_off", " ".join(p.text for p in ps[n : n + size])):
                return n, n + size
        behind = [word for p in ps[n + 1 : n + 1 + APART] for word in p.text.split(" ")]
        if made.has("left_word", piece.text.split(" ")[-1]) and made.has_any("off_word", behind):
            return n, n + 1
    return None
