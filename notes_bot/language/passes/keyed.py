"""Notes written as keys and values: "f=sump;p=5;m=pull;cys/p=2,0,4,1;lookd=no;mst=dry"."""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import Entry, Table

SAMPLE = "n"
"""The size of a sample in figures of every language: n = 8."""
_SIGNS = ("=", ":")
"""Signs between a key and its value."""
_SAYS_HOW = ("TOOL", "DUG")
_SAYS_SOIL = ("MOISTURE", "TEXTURE")


def keyed(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with what each key says of its value: the key goes, where its value alone tells as much."""
    form = sum(piece.text == "=" for piece in pieces) > 1
    out: list[Piece] = []
    i = 0
    while i < len(pieces):
        key, sign = pieces[i], pieces[i + 1].text if i + 2 < len(pieces) else ""
        if "COLOUR" in key.types and _each_of_it(pieces, i):
            out += [key, pieces[i + 2], pieces[i + 3], pieces[i + 1]]  # "w/p=3" as "w=3/p"
            i += 4
            continue
        if sign not in _SIGNS or key.kind != "word" or not (sign == "=" or _starts(out)):
            out.append(key)
            i += 1
            continue
        value = pieces[i + 2]
        counts = key.text == SAMPLE and bool(out) and is_any(out[-1], ("PLANTS", "FEMALES"))  # "females n=3"
        if form and not _starts(out) and not counts:
            out.append(Piece("break", "", key.start, key.start, (), "soft"))  # "p=5 m=pull": no metres
        told, used = _value(key, value, pieces[i + 3 :], made)
        out += told
        i += used
    return out


def _starts(out: list[Piece]) -> bool:
    """Does a clause begin behind these pieces?"""
    return not out or out[-1].kind in ("break", "line") or is_any(out[-1], ("FIELD",))


def _value(key: Piece, value: Piece, behind: list[Piece], made: Table) -> tuple[list[Piece], int]:
    """What a key and its value are read as, and how many pieces they take; the key alone where it stays as it is."""
    ends = not behind or behind[0].kind in ("break", "line") or (len(behind) > 1 and behind[1].text in _SIGNS)
    no = ends and made.has("form_no", value.text)
    yes = ends and made.has("form_yes", value.text)
    if made.has("key_field", key.text) and value.kind == "word":
        return [], 2
    if ends and value.kind == "number" and is_any(key, ("COLOUR",)):
        return [_as(key, "COLOUR", key.types["COLOUR"].value, made)], 1  # "a=1", no little word
    if _asks_how(made, key.text) and is_any(value, _SAYS_HOW):
        how = next(value.types[kind] for kind in _SAYS_HOW if kind in value.types)
        return [_as(value, "TOOL", how.value, made)], 3
    if _asks_soil(made, key.text) and is_any(value, _SAYS_SOIL):
        kind = next(kind for kind in _SAYS_SOIL if kind in value.types)
        return [_as(value, kind, value.types[kind].value, made)], 3
    if made.has("key_looked", key.text) and (no or yes):
        denied = Piece("word", value.text, key.start, value.end, (Entry("NOT_LOOKED", "not_looked"),))
        return ([denied] if no else []), 3
    if made.has("key_found", key.text) and (no or (ends and value.text == "0")):
        return [Piece("word", value.text, key.start, value.end, (Entry("NONE", "none"),))], 3
    if made.has("key_color", key.text) and "COLOUR" in value.types:
        shades = [value]
        while len(behind) > 1 and behind[0].text in (",", "+", "&") and is_any(behind[1], ("COLOUR",)):
            if len(behind) > 2 and behind[2].text in _SIGNS:
                break  # "col=w, y=3"
            shades.append(behind[1])
            behind = behind[2:]
        mostly = Piece("word", key.text, key.start, key.end, (Entry("MOSTLY", "mostly"),))
        return [mostly, *shades], 1 + 2 * len(shades)
    if no and is_any(key, ("MOISTURE", "TOP")):
        return [Piece("word", "", key.start, value.end, (Entry("TEXT", "text"),))], 3  # "dry=no"
    return [key], 1


def _asks_how(made: Table, key: str) -> bool:
    """Is it a label of forms for how the plants came up, or as short a key?"""
    return made.has("form_method", key) or made.has("key_method", key)


def _asks_soil(made: Table, key: str) -> bool:
    """Is it a label of forms for the soil, or as short a key?"""
    return made.has("form_soil", key) or made.has("key_soil", key)


def _each_of_it(pieces: list[Piece], i: int) -> bool:
    """ "w/p=3": a color, "a plant", a sign and one number."""
    run = pieces[i : i + 4]
    if len(run) < 4 or "EACH" not in run[1].types or run[2].text not in _SIGNS or run[3].kind != "number":
        return False
    behind = pieces[i + 4] if i + 4 < len(pieces) else None
    beyond = pieces[i + 5] if i + 5 < len(pieces) else None
    listed = behind is not None and (
        behind.kind == "number" or (behind.text == "," and getattr(beyond, "kind", "") == "number")
    )
    return not listed


def _as(piece: Piece, kind: str, value: str, made: Table) -> Piece:
    """The piece with one meaning only, in our own word for it."""
    text = made.first.get((kind, value), piece.text)
    return Piece("word", text, piece.start, piece.end, (Entry(kind, value),), None, piece.spaced)
