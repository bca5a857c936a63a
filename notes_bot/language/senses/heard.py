"""Words that are numbers only as heard ("for white", "too plants"), and the sign of statistics for plants looked at."""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.passes.dictation import heard_number
from notes_bot.language.passes.keyed import SAMPLE
from notes_bot.language.senses import numbers
from notes_bot.language.senses.adjectives import LEAFY
from notes_bot.language.senses.around import COUNTED
from notes_bot.language.senses.walk import Walk, is_number, unknown

MOST_HEARD_ALONE = 2
"""Only words for more than this are heard as plants: "to plants" is no two of them (judgement)."""
_HEARD_BEHIND = frozenset({"PLANTS", "COLOUR", "SOAKED", "NUMBER", "STAGE", "TOOL", "DUG", "HAD"})
"""What a count may stand behind, so that "for white" is four of them."""


def sample_size(walk: Walk) -> int:
    """ "Por planta (n=8): 2, 0, ..", "n = 10", "n=6 plants": the sign of statistics for plants looked at."""
    if walk.piece.text != SAMPLE or getattr(walk.at(walk.i + 1), "text", "") != "=":
        return 0
    number = walk.at(walk.i + 2)
    if number is None or not isinstance(number.value, int):
        return 0
    if walk.last_is("FEMALES", "COLOUR") or walk.lead == "colon":
        return 2  # "females: n=12", "plants: n=6"
    noun = walk.at(walk.i + 3)
    if is_any(noun, ("PLANTS",)):
        return 2
    if is_any(noun, ("COLOUR", "FEMALES")) and not is_number(walk.at(walk.i + 4)):
        walk.draft.ask("which_number", walk.piece.start, walk.ps[walk.i + 3].end)  # "n=7 white": plants or females?
        walk.emit("TEXT", None, walk.piece.start, walk.ps[walk.i + 3].end)
        return 4
    walk.emit("NUMBER", number.value, number.start, number.end)
    walk.emit("PLANTS", "plants", number.end, number.end)
    stop = getattr(walk.at(walk.i + 3), "text", "") == ")" and walk.colon_at(walk.i + 4)
    walk.lead = "colon" if stop else walk.lead
    return 5 if stop else 3


def sounds_like_number(walk: Walk) -> int:
    """ "Five plants for white too yellow": a dictated word is the number it sounds like, where nothing else fits.

    The answer says so. Where it might be a word or one of a list, it is asked about; a number is never changed.
    """
    heard = heard_number(walk.made, walk.piece.text)
    if heard is None:
        return 0
    noun = walk.direct_index(walk.i, 1)
    beyond = walk.direct(noun, 1)
    if walk.last_is("NUMBER") and walk.lead == "" and is_any(walk.at(noun), ("COLOUR",)):
        walk.draft.ask("which_number", walk.out[-1].start, walk.piece.end)  # "twenty to white"
        return walk.text()
    span = is_any(walk.at(noun), ("UNIT",)) and len(walk.ps[noun].text) > 2
    if span and (is_any(walk.at(walk.i - 1), ("LOOK",)) or getattr(walk.before, "text", "") == "in"):
        return _as_heard(walk, heard)  # "look again in too weeks"
    if is_number(walk.before) and is_number(walk.after) and walk.last_is("NUMBER"):
        listed = [word.type for word in walk.out[-3:]] == ["NUMBER"] * 3 and not _is_range_behind(walk)
        if listed:
            return _as_heard(walk, heard)  # "one zero four to zero three": no range ends lower than it begins
        walk.draft.ask("which_number", walk.piece.start, walk.piece.end)
        return walk.text()  # "one zero four to zero three"
    behind_dug = walk.last_is("DUG") and walk.piece.text == "too"
    if (heard > MOST_HEARD_ALONE or behind_dug) and walk.made.has("heard_noun", getattr(walk.at(noun), "text", "")):
        led = any(word.type in ("DUG", "SPOT", "TOOL", "CHECK", "STAGE") for word in walk.out[-3:])
        some = beyond is not None and beyond.value != 0
        if some and is_number(beyond) and not is_any(walk.direct(walk.direct_index(noun, 1), 1), COUNTED):
            return 0
        return _as_heard(walk, heard) if led else 0
    if walk.last_is("DUG") and walk.lead == "" and walk.made.has("heard_noun", getattr(walk.at(noun), "text", "")):
        return _as_heard(walk, heard)  # "dug too plants"
    if not is_any(walk.at(noun), ("COLOUR",)) or len(walk.ps[noun].text) < 3:
        return 0
    said = [word for word in walk.out[-5:] if word.type != "LINK"]
    told = bool(said) and said[-1].type in _HEARD_BEHIND and said[-1].value != "any"
    before = walk.before
    near = before is not None and (not linking(before) or walk.made.has("before_count", before.text))
    counts = near and any(word.type in ("NUMBER", "PLANTS", "HAD") for word in said)
    towards = walk.direct_index(walk.direct_index(noun, 1), 1)
    if getattr(beyond, "text", "") == "to" and not is_any(walk.at(towards), ("COLOUR",)):
        return 0
    if is_any(beyond, LEAFY | {"ROOTS", "NODULES", "TOP"}):
        return 0
    if walk.piece.text == "to" and not (is_number(beyond) or heard_number(walk.made, getattr(beyond, "text", ""))):
        return 0  # "white to yellow"
    strange = beyond is not None and unknown(beyond) and beyond.text not in walk.made.plain
    if not (told and counts) or (strange and heard_number(walk.made, getattr(beyond, "text", "")) is None):
        return 0  # "too white to see", "for white grubs"
    return _as_heard(walk, heard)


def _is_range_behind(walk: Walk) -> bool:
    """Might "to" between the two numbers beside it mean a range?"""
    low, high = walk.out[-1].value, getattr(walk.after, "value", None)
    return isinstance(high, int) and isinstance(low, int) and high > low


def _as_heard(walk: Walk, number: int) -> int:
    """The word at hand as the number it sounds like, and said so."""
    walk.slip("near_word", str(number))
    piece = walk.piece
    walk.piece = walk.ps[walk.i] = Piece("number", piece.text, piece.start, piece.end, (), number, piece.spaced)
    return numbers.number(walk)
