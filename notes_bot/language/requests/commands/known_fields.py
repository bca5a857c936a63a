"""A known field's new name, its size and where it lies."""

from __future__ import annotations

from itertools import pairwise

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.names.naming import joints
from notes_bot.language.requests.commands.line import Line
from notes_bot.language.requests.corrections import acres_told
from notes_bot.language.requests.properties import coordinates, properties
from notes_bot.language.requests.states import state_told


def rename(line: Line) -> bool:
    """rename kestrel to kestrel 40."""
    for i in range(2, len(line.ps)):
        if "RENAME_TO" in line.ps[i].types:
            stop = next((n for n in range(i + 1, len(line.ps)) if line.ps[n].kind == "break"), len(line.ps))
            old, new = line.name(1, i), line.name(i + 1, stop)
            if old and new:
                return line.emit("field", name=old, rename_to=new)
    return False


def renamed(line: Line) -> bool:
    """ "Kestrel is now called home place", "la baixada ahora se llama ..": a known field's new name."""
    at = next((n for n, p in enumerate(line.ps[:4]) if "FIELD" in p.types), None)
    if at is None or at + 2 >= len(line.ps) or line.tells():
        return False
    if _renames_it(line, at):
        return True
    to, behind = line.ps[at + 1], line.ps[at + 2]
    if not is_any(to, ("RENAME_TO", "RENAME")) or " " not in to.text or any(p.kind == "day" for p in line.ps):
        return False
    if behind.kind == "break":
        return False  # "Bajo Grande cambia de nombre, llamale La Hondonada"
    new = line.name(at + 2, whole=True)
    old = line.written(line.ps[at])
    return new is not None and line.emit("field", name=old, rename_to=new)


def _renames_it(line: Line, at: int) -> bool:
    """ "Kestrel belongs to a different grower now, please rename it Windmill 60"."""
    k = next((n for n, p in enumerate(line.ps) if n > at and "RENAME" in p.types), None)
    if k is None or k + 2 >= len(line.ps) or not line.made.has("it_word", line.ps[k + 1].text):
        return False
    start = k + 2 + is_any(line.ps[k + 2], ("RENAME_TO", "LINK"))
    new = line.name(start, whole=True) if start < len(line.ps) else None
    old = line.written(line.ps[at])
    return new is not None and line.emit("field", name=old, rename_to=new)


def told_where(line: Line) -> bool:
    """ "O Talhão 3 fica perto de Rio Verde e tem 120 acres": where a known field lies, and how large it is."""
    field = next((n for n, p in enumerate(line.ps[:3]) if "FIELD" in p.types), None)
    near = next((n for n, p in enumerate(line.ps) if "NEAR" in p.types), None)
    if field is None or near is None or not field < near <= field + 3 or line.tells():
        return False
    if not all(linking(p) or line.made.has("lies", p.text) for p in line.ps[field + 1 : near]):
        return False
    if near == field + 1 or near + 1 >= len(line.ps):
        return False
    name = line.written(line.ps[field])
    stop = next((n for n in range(near + 2, len(line.ps)) if _ends_place(line, n)), len(line.ps))
    acres = acres_told(line.context.text[line.ps[stop - 1].end : line.end], line.context.language)
    return line.emit("field", name=name, near=line.name(near + 1, stop), acres=acres)


def _ends_place(line: Line, n: int) -> bool:
    """Does the name of a place near by end there ("perto de rio verde e tem 120 acres")?"""
    piece = line.ps[n]
    return piece.kind in ("break", "number", "line") or piece.text in joints() or "HAD" in piece.types


def sized(line: Line) -> bool:
    """ "Dry creek is 80 acres, sits next to kestrel": a known field's size, and where it lies."""
    if not ("FIELD" in line.ps[0].types or (len(line.ps) > 1 and "FIELD" in line.ps[1].types)) or line.tells():
        return False
    at = next((n for n, (p, q) in enumerate(pairwise(line.ps)) if p.kind == "number" and "ACRES" in q.types), None)
    planted = any("PLANTED" in p.types for p in line.ps)
    other = ("number", "stage") if planted else ("number", "day", "stage")
    if at is None or any(p.kind in other for n, p in enumerate(line.ps) if n != at):
        return False
    if any(is_any(p, ("TOP",)) for p in line.ps):
        return False  # "na baixada tem mancha nova de 2 ha": a patch, and not the field
    field = next(p for p in line.ps if "FIELD" in p.types)
    told = properties(line, line.ps.index(field) + 1)
    return line.emit("field", name=line.written(field), **{**state_told(line, line.written(field)), **told})


def pinned(line: Line) -> bool:
    """ "Pin for larkspur is 42.07, -93.55": coordinates told of a known field."""
    where = coordinates(line.context.text[line.start : line.end])
    if where is not None and any(is_any(p, ("NEAR",)) and "FIELD" in q.types for p, q in _beside(line)):
        return False  # "Pau Ferro, perto da Cabeceira, 40.21, -89.55": where another one lies
    field = line.known_name(-1) if where is not None else None
    return field is not None and line.emit("field", name=field, **properties(line, 0))


def _beside(line: Line) -> list[tuple[Piece, Piece]]:
    """Each word with the next one that is more than a little word."""
    told = [p for p in line.ps if not linking(p) or is_any(p, ("NEAR", "FIELD"))]
    return list(pairwise(told))
