"""When to look again, and how long ago or after planting."""

from __future__ import annotations

from notes_bot.language.lexicon.days import UNIT_DAYS
from notes_bot.language.lexicon.joining import is_any, linking, neighbour_index
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.passes.dictation import heard_number
from notes_bot.language.senses.around import dashes_days
from notes_bot.language.senses.units import span
from notes_bot.language.senses.walk import Walk, is_number

LOOK_AHEAD = 8
"""Pieces behind "look again" in which its day or time is looked for (judgement)."""


def look(walk: Walk) -> int:
    """Look again: with a day or a span; everyday words like "back" mean nothing without one."""
    j = neighbour_index(walk.ps, walk.i, 1)
    if used := _next_week(walk, j):
        return used
    after = walk.near_after
    if after is not None and after.kind == "day" and after.value.days_ago is not None and after.value.days_ago >= 0:
        return 0  # "first look today": this visit
    timed = after is not None and after.kind == "day"
    if j is not None and is_any(after, ("WHICH",)):
        timed = not is_any(walk.direct(j, 1), ("FIELD_WORD",))  # "vuelvo a este lote en 10 d"
    if after is not None and after.kind in ("number", "range") and j is not None:
        timed = is_any(walk.direct(j, 1), ("UNIT",))
        timed = timed or (after.kind == "range" and dashes_days(walk, after))
    if timed:
        return walk.take()
    if walk.piece.text == "again":
        weekday = walk.last_is("DATE") and walk.out[-1].value.weekday is not None
        return walk.take() if weekday else 0
    if walk.made.has("again_look", walk.piece.text):
        dated = walk.last_is("DATE") and walk.out[-1].value.weekday is not None
        return walk.take() if dated and after is None else 0
    goes_back = after is None or walk.made.has("sure_look", walk.piece.text)  # "en dos semanas vuelvo con Pedro"
    spanned = walk.last_is("SPAN") and walk.out[-1].value[0] == "days" and goes_back
    if spanned and not (len(walk.out) > 1 and walk.out[-2].type == "AGO"):
        return walk.take()  # "en 10 d vuelvo"
    coming = walk.last_is("DATE") and walk.out[-1].value.weekday is not None
    coming = coming and goes_back
    if walk.last_is("DATE") and (coming or not walk.made.has("weak_look", walk.piece.text)):
        return walk.take()
    weak = walk.made.has("weak_look", walk.piece.text) and " " not in walk.piece.text
    j = _later_span(walk, weak)
    sure = walk.made.has("sure_look", walk.piece.text)  # "volto pra olhar na sexta"
    if j is None and ((weak and not sure) or (j := _later_day(walk)) is None):
        return _untimed_look(walk, weak)
    walk.take()
    return j - walk.i


def _later_span(walk: Walk, weak: bool) -> int | None:
    """ "Back sometime next week", "will look again in about 10 days": where the time begins, or ``None``."""
    if weak and walk.lead not in ("hard", "soft", "line"):
        return None
    stopped = False
    for j in range(walk.i + 1, walk.i + LOOK_AHEAD):
        piece = walk.at(j)
        if piece is None:
            return None
        k = walk.direct_index(j, 1)
        timed = is_any(walk.at(k), ("UNIT",))
        if piece.kind in ("number", "range") or (is_any(piece, ("WHICH",)) and timed):
            return j if timed and not (stopped and is_any(walk.at(k + 1), ("AGO", "AFTER"))) else None
        if piece.text == "," and not stopped:
            stopped = True  # "revisit, 12 days"
            continue
        here = is_any(piece, ("FIELD_WORD", "WHICH")) or walk.made.has(
            "determiner", piece.text
        )  # "vuelvo a este lote en 10 d"
        if not (here or walk.made.has("look_filler", piece.text) or "ABOUT" in piece.types):
            return None
    return None


def _untimed_look(walk: Walk, weak: bool) -> int:
    """ "Recheck mid july", "look again at R3": a wanted look whose day we cannot tell is asked about."""
    if (weak and walk.lead not in ("hard", "soft", "line")) or "WHICH" in walk.piece.types:
        return 0
    for j in range(walk.i + 1, walk.i + LOOK_AHEAD):
        if j in walk.found or (j < len(walk.ps) and "FIELD" in walk.ps[j].types):
            continue  # "recheck kestrel at R3"
        piece = walk.at(j)
        if piece is None or piece.kind in ("break", "line", "number") or is_any(piece, ("LOOK",)):
            return 0
        staged = piece.kind == "stage" and walk.made.has("at_stage", walk.ps[j - 1].text)
        if heard_number(walk.made, walk.ps[j - 1].text):
            return 0  # "again in too days"
        if staged or piece.types.keys() & {"UNIT", "MONTH", "WEEK_PART"}:
            walk.draft.ask("which_look", walk.piece.start, piece.end)
            if any(k in walk.found for k in range(walk.i, j)):
                walk.ps[j] = Piece("word", piece.text, piece.start, piece.end, (), None, piece.spaced)
                return walk.text()  # the field's name stands between, and is one
            walk.emit("TEXT", None, walk.piece.start, piece.end)
            return j + 1 - walk.i
        if weak and piece.types and not (linking(piece) or is_any(piece, ("MOSTLY", "ABOUT", "WHICH", "ORDINAL"))):
            return 0
    return 0


def _next_week(walk: Walk, j: int | None) -> int:
    """ "Vuelvo la semana que viene", "volto semana que vem", "vuelvo la próxima semana"."""
    pair = (walk.at(j), walk.direct(j, 1)) if j is not None else (None, None)
    unit = next((p.types["UNIT"] for p in pair if p is not None and "UNIT" in p.types), None)
    which = next((p.types["WHICH"] for p in pair if p is not None and "WHICH" in p.types), None)
    if j is None or unit is None or which is None or which.value != "next" or unit.value not in ("week", "month"):
        return 0
    walk.take()
    last = walk.ps[walk.direct_index(j, 1)]
    walk.emit("SPAN", ("days", UNIT_DAYS[unit.value], ""), walk.ps[j].start, last.end)
    return walk.direct_index(j, 1) - walk.i + 1


def _later_day(walk: Walk) -> int | None:
    """ "Come back with a shovel thursday": a day a few words on in the clause, nothing of this visit between."""
    for j in range(walk.i + 1, walk.i + 7):
        piece = walk.at(j)
        if piece is None or piece.kind in ("break", "line", "stage", "number"):
            return None
        if piece.kind == "day":
            return j
        if (
            piece.kind == "word"
            and piece.types
            and not (linking(piece) or is_any(piece, ("TOOL", "SOAKED", "NOT_LOOKED")))
        ):
            return None
    return None


def which(walk: Walk) -> int:
    """Next week behind "look again"."""
    after = walk.after
    unit = after.types.get("UNIT") if after is not None else None
    if unit is None or walk.entry.value != "next" or unit.value not in ("week", "month"):
        return 0
    j = walk.direct_index(walk.i, 1)
    alone = walk.near_before is None and walk.near(j, 1) is None
    if not (alone or walk.last_is("LOOK")):
        return 0
    return span(walk, 1, unit.value, j)


def after(walk: Walk) -> int:
    """9 d after spraying."""
    words = (e.type for word in walk.piece.text.split(" ") for e in walk.made.singles.get(word, ()))
    told = is_any(walk.near_after, ("SPRAY", "CHEMICAL", "PLANTED")) or "SPRAY" in words  # "9 dias da aplicação"
    return walk.take() if walk.last_is("SPAN") and told else 0


def ago(walk: Walk) -> int:
    """3 days ago, hace 3 días."""
    if walk.last_is("SPAN") and walk.lead == "":
        came_back = walk.piece.text == "back" and len(walk.out) > 1 and walk.out[-2].type == "LOOK"
        return 0 if came_back else walk.take()
    after = walk.after
    early = walk.piece.text in anywhere("ago_before")
    return walk.take() if early and after is not None and after.kind == "number" else 0


def dap(walk: Walk) -> int:
    """DDS 71: the number behind."""
    after = walk.after
    linked = "LINK" in walk.piece.types
    before = walk.at(walk.i - 1)
    said = walk.draft.text[walk.piece.start : walk.piece.end].islower() and before is not None
    if linked and said and before is not None and before.kind == "word" and "FIELD" not in before.types:
        return 0  # "metade das 12 que arranquei"
    if linked and (walk.names.bound(walk.direct_index(walk.i, 1)) or is_number(walk.at(walk.i - 1))):
        return 0  # "4 das 6 plantas", "3 das 8 que arranquei"
    dug = walk.at(walk.direct_index(walk.i, 1) + 2)
    if linked and is_any(dug, ("DUG",)):
        return 0  # "das nove que olhei"
    if after is None or after.kind != "number" or not isinstance(after.value, int):
        return walk.text()
    j = walk.direct_index(walk.i, 1)
    days = after.value * (7 if walk.entry.value == "week" else 1)
    walk.emit("SPAN_AFTER_PLANTING", days, walk.piece.start, after.end)
    return j - walk.i + 1
