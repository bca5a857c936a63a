"""The pieces of a text one after the other, each by its kind."""

from __future__ import annotations

from notes_bot.language.lexicon.tokens import Draft, Word
from notes_bot.language.lexicon.words import Table
from notes_bot.language.names.naming import FieldName, Names, written
from notes_bot.language.senses import afterwards, crop, meanings, numbers, slashes
from notes_bot.language.senses.around import counted_last
from notes_bot.language.senses.walk import Walk, is_number
from notes_bot.model import COLOURS


def sensed(draft: Draft, names: Names, found: dict[int, FieldName], made: Table) -> list[Word]:
    """All tokens of one text, each with what stands before it, without the breaks the chains put between numbers."""
    walk = Walk(draft, names, found, made)
    i = 0
    while i < len(walk.ps):
        name = walk.found.get(i)
        if name is None:
            i += _one(walk, i)
            continue
        called = name.called or written(walk.draft.text, name.start, name.end)
        walk.emit("FIELD", called, name.start, name.end, lead="hard")
        _label_behind_name(walk)
        if name.also:
            walk.draft.together[name.start] = name.also
        i = name.last
        following = walk.ps[i].text if i < len(walk.ps) else ""
        walk.lead = "soft" if following in (":", "-", ",") else ""
    afterwards.lighter_brown(walk)
    afterwards.plants_head_a_list(walk)
    afterwards.bare_plants(walk)
    afterwards.counts_before_places(walk)
    return walk.out


def _label_behind_name(walk: Walk) -> None:
    """The label of a number that stands behind the field's name goes behind the name as well."""
    label = next((n for n in range(len(walk.out) - 2, -1, -1) if walk.out[n].type != "LINK"), -1)
    if label >= 0 and walk.out[label].type in ("PH", "POTASSIUM", "SPOT", "CHECK"):
        walk.out.append(walk.out.pop(label))


def _one(walk: Walk, i: int) -> int:
    """The piece at an index, by its kind: how many pieces it used."""
    walk.i, walk.piece = i, walk.ps[i]
    piece = walk.piece
    if used := crop.variety_code(walk):
        return used
    match piece.kind:  # the most frequent first
        case "word":
            return meanings.meaning(walk)
        case "number":
            return numbers.number(walk)
        case "line":
            walk.lead = "line"
            walk.variety_open = False
            return 1
        case "break":
            if crop.shortened(walk):
                return 1
            walk.variety_open = walk.variety_open and piece.value != "hard"
            if walk.lead not in ("line", "hard"):
                walk.lead = piece.value
            return 1
        case "sign":
            return _sign(walk)
        case "range":
            return numbers.number_range(walk)
        case "day":
            return slashes.day(walk)
        case "stage":
            if piece.value == "heard":
                walk.slip("near_word", crop.stage(piece.text))
            return walk.emit("STAGE", crop.stage(piece.text), piece.start, piece.end)
        case "series":
            return slashes.series(walk, COLOURS, 1)
        case "ratio":
            return slashes.ratio(walk)
        case "quoted":
            return walk.emit("QUOTED", None, piece.start + 1, piece.end - 1)
        case "aside":
            return walk.emit("QUOTED", None, piece.start, piece.end)
        case "place":
            return walk.emit(next(iter(piece.types)), piece.text, piece.start, piece.end, lead="soft")
        case "seed":
            return crop.seed(walk)
        case "mark":
            return walk.emit("MARK", piece.value, piece.start, piece.end)
        case _:
            return walk.text()


def _sign(walk: Walk) -> int:
    """A sign: it sums up, leads on, or doubts; what is no sign of writing is text."""
    piece = walk.piece
    counted = counted_last(walk) and walk.out[-1].lead in ("", "link")
    if piece.text == "=" and walk.last_is("COLOUR") and counted and _sum_behind(walk):
        walk.emit("TOTAL", "total", piece.start, piece.end, lead="soft")
    elif piece.text in (":", "="):
        if walk.lead == "":
            walk.lead = "colon"
    elif piece.text == "?" and walk.last_is("TEXT"):
        walk.out[-1].end = piece.end
        walk.out[-1].text = walk.draft.text[walk.out[-1].start : piece.end]
    elif not piece.text.isascii() and piece.text not in "️‍°¿¡":
        return walk.text()
    return 1


def _sum_behind(walk: Walk) -> bool:
    """ "28 w + 3 y = 31"."""
    beyond = walk.at(walk.i + 2)
    return is_number(walk.at(walk.i + 1)) and (beyond is None or beyond.kind in ("break", "line"))
