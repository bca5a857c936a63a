"""Questions about what stands around the piece at hand, and bounds, that several matters share."""

from __future__ import annotations

import re

from notes_bot.language.lexicon.days import DayWritten
from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.senses.walk import Walk, is_number

COUNTED = frozenset({"COLOUR", "PLANTS", "FEMALES", "EACH", "DUG", "TOTAL"})
"""Kinds of word that a number before them counts."""
LOOKED_BACK = 30
"""Words looked back at for the plants that were told (judgement)."""
LEAST_CODE = 100
"""A smaller number behind the letters of a seed or a road may count something (judgement)."""
MOST_OF_PLANTS = 40
"""More plants than this are dug by nobody (judgement)."""
CROP_AHEAD = 6
"""Pieces before a word, or behind it, in which it is told what it is said of (judgement)."""


_DASHED = re.compile(r"\d{1,2}-\d{1,2}")


def dashes_days(walk: Walk, piece: Piece) -> bool:
    """ "7-7, .. return 7-21": are all days so far written with a dash, and is the range of about the same month?"""
    days = [word.value for word in walk.out if word.type == "DATE"]
    if not days or not all(isinstance(day, DayWritten) and _DASHED.fullmatch(day.text) for day in days):
        return False
    low, high = piece.value
    first, second = days[0].first, days[0].second
    return first is not None and second is not None and min(abs(low - first), abs(high - second)) <= 1


def goes_on_nowhere(walk: Walk) -> bool:
    """Does the clause end here?"""
    return walk.after is None or walk.after.kind in ("break", "line")


def goes_on(walk: Walk, *types: str) -> bool:
    """ "Roots stubby, dark": does a comma lead on from what was said of the same, with nothing behind it?"""
    told = bool(walk.out) and walk.out[-1].type in types and walk.lead == "soft"
    return told and goes_on_nowhere(walk)


def of_the_roots(walk: Walk) -> bool:
    """ "Raíz linda, blanca, con nódulos": a clause that goes on about the roots its sentence began with."""
    if walk.lead not in ("", "soft", "link") or len(walk.piece.text) < 3:
        return False
    for n in range(len(walk.out) - 1, max(-1, len(walk.out) - LOOKED_BACK), -1):
        word, before = walk.out[n], walk.out[n - 1].type if n else ""
        roots = word.type == "ROOTS" or (word.type == "ROOT" and " " in word.text)
        if roots and (word.lead in ("hard", "line", "soft") or before in ("FIELD", "STAGE", "DATE")):
            return word.type == "ROOT" or n < len(walk.out) - 1
        if word.type not in ("TEXT", "LINK", "ROOT", "NODULE", "NODULES") or word.lead in ("hard", "line"):
            return False
    return False


def with_slash(walk: Walk, i: int) -> bool:
    """ "w/" before a word that is no colour: with."""
    if walk.ps[i].text not in ("w", "c") or not walk.ps[i].spaced:
        return False
    slash, beyond = walk.at(i + 1), walk.at(i + 2)
    if slash is None or slash.text != "/":
        return False
    return beyond is not None and beyond.kind in ("word", "number") and "COLOUR" not in beyond.types


def is_shape(piece: Piece | None) -> bool:
    """Patches, rings, bands: what numbers and colours before them speak of."""
    if piece is None:
        return False
    top = piece.types.get("TOP")
    return "BANDS" in piece.types or (top is not None and top.value in ("patch", "ring"))


def of_plants_told(walk: Walk, n: int) -> bool:
    """Is the number told at n a count of plants?"""
    beside = [walk.out[m].type for m in (n - 1, n + 1) if 0 <= m < len(walk.out)]
    return bool({"PLANTS", "DUG", "TOOL"} & set(beside))


def data_at(walk: Walk, j: int) -> bool:
    """Do counts follow here: a number with its noun, a list, or none?"""
    while (
        (piece := walk.at(j)) is not None
        and piece.kind == "word"
        and (linking(piece) or piece.types.keys() == {"MOSTLY"} or _says_had(walk, j))
    ):
        j += 1
    if piece is None:
        return False
    if is_any(piece, ("EACH",)) and is_number(walk.direct(j, 1)):
        return True  # "far end avg 3"
    if is_any(piece, ("NONE", "TOO_MANY", "RESISTANCE")) or piece.kind in ("series", "mark"):
        return True
    after = walk.direct(j, 1)
    if is_any(piece, ("DUG", "PLANTS", "COLOUR")):
        return after is not None and after.kind == "number"
    if piece.kind != "number":
        return False
    if after is None or after.kind in ("break", "line", "number"):
        return True
    return is_any(after, COUNTED)


def _says_had(walk: Walk, j: int) -> bool:
    """ "In the hole I dug five", "na porteira deu nove": a word for having before a number."""
    return is_any(walk.ps[j], ("HAD",)) and is_number(walk.direct(j, 1))


def beside_number(walk: Walk) -> bool:
    """Does a number stand right before or behind?"""
    return is_number(walk.before) or is_number(walk.after)


def counted_last(walk: Walk) -> bool:
    """Are the last two tokens a count ("1 brown")?"""
    return len(walk.out) > 1 and sum(word.type == "NUMBER" for word in walk.out[-2:]) == 1
