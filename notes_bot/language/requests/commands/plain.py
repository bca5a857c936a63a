"""Lines that are nothing but a plain note."""

from __future__ import annotations

from functools import cache

from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import anywhere

_NOTED = frozenset(
    {"FIELD", "PLANTS", "DUG", "TOOL", "SOAKED", "COLOUR", "FEMALES", "NONE", "NODULE", "NODULES", "ROOT", "ROOTS"}
    | {"MOISTURE", "TEXTURE", "LINK", "SPOT", "MONTH", "TOPS", "TOP", "EACH", "MOSTLY", "TOTAL", "NEW", "OLD", "VEINS"}
    | {"LOOK", "UNIT", "FIELD_WORD", "NUMBER_WORD", "TODAY", "WEEKDAY", "BELOW", "ABOUT", "TOO_MANY", "EDGES", "GREEN"}
    | {"CHECK", "PH"}
)
"""Kinds of words of a plain note: a line with no others asks for nothing and puts nothing right."""
_NO_NOTE = frozenset({"CORRECT", "NOT", "UNDO", "PLANTED", "RESISTANCE", "SOURCE", "EGGS", "SAME", "HAD", "DAP"})


def only_noted(content: list[Piece]) -> bool:
    """Only words of a plain note, of what was dug and seen: "kestrel 6/11 V4 moist 6 pl none"?

    Such a line need not be searched for requests; that changes no reading.
    """
    dug = seen = False
    if content and "PLANTS" in content[0].types:
        return False
    changes = _changes()
    opens = False
    for piece in content:
        if piece.text in changes or (opens and piece.text in anywhere("had_before")):
            return False
        opens = piece.text == "("
        if piece.kind != "word":
            seen = seen or piece.kind in ("number", "series")
            continue
        kinds = piece.types.keys()
        if "MOVE" in kinds and "LOOK" in kinds:
            return False  # "remind me Depot in 4 days": a reminder of another field
        if kinds.isdisjoint(_NOTED) or not kinds.isdisjoint(_NO_NOTE):
            return False
        dug = dug or not kinds.isdisjoint(("PLANTS", "DUG", "TOOL"))
        seen = seen or "NONE" in kinds
    return dug and seen


@cache
def _changes() -> frozenset[str]:
    """What asks or puts right: "was really 10", "muda o total pra 22", though it may be a seedling."""
    return anywhere("really") | anywhere("set_verb") | {"?", "->", "=>"}
