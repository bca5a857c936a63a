"""None seen, not looked, and what else is denied."""

from __future__ import annotations

import itertools

from notes_bot.language.lexicon.joining import claims, is_any, neighbour_index
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import COMMAND_TYPES, anywhere
from notes_bot.language.senses.around import LOOKED_BACK, of_plants_told
from notes_bot.language.senses.walk import Walk, is_number

WASHED_BEHIND = 6
"""Pieces behind "none" in which "washed" stands, "none of the roots of these plants was washed" (judgement)."""
COLORS_BEHIND = 6
"""Pieces behind "didn't look" in which it is said at what (judgement)."""

_DENIABLE = frozenset(
    {"COLOUR", "FEMALES", "PLANTS", "MOISTURE", "TEXTURE", "DUG", "TOOL", "SOAKED", "FIELD", "RESISTANCE", "NONE"}
)
"""What "no" and "not" can stand before."""


def none(walk: Walk) -> int:
    """None seen; "clean" only where nothing else is clean; "none" before nodules or a colour denies just that."""
    before, after = walk.near_before, walk.near_after
    if used := _none_washed(walk) or _nothing_save(walk):
        return used
    if some := _some_plants_clean(walk):
        return some
    if walk.entry.value == "clean":
        beyond = walk.at(walk.i + 1)
        other = beyond is not None and walk.made.has("clean_but", beyond.text)
        plants = walk.last_is("PLANTS") or (walk.lead == "colon" and bool(walk.out) and walk.out[-1].type == "PLANTS")
        counted = plants and len(walk.out) > 1 and walk.out[-2].type == "NUMBER"  # "6 matas: limpias, ni una"
        tops = is_any(before, ("TOPS", "SOAKED", "EDGES", "FIELD")) and not counted  # "3 matas limpias"
        tops = tops and not (before is not None and walk.made.has("bucket_word", before.text))  # "5pl bkt clean"
        if tops or is_any(after, ("TOPS",)) or other:
            return 0
        if _clean_roots(walk):
            ahead = is_any(walk.after, ("COLOUR", "ROOT")) and not is_number(walk.before)
            return 1 if ahead else walk.text()  # "clean white roots", "raíz blanca y limpia, 6 pl 2 hembras"
        walk.slip("clean_as_none", "")
        return walk.take(value="none")
    other = is_any(walk.after, ("TOPS", "TOP", "EDGES", "BANDS")) and not is_any(walk.after, ("PLANTS",))
    if walk.has("open_none") and (other or _noun_behind(walk)):
        return 0  # "no se ven manchones", "no hubo forma": none of something else
    if is_any(after, ("NODULES",)) and not _said_of_nodules(walk):
        return walk.emit("NODULE", "few", walk.piece.start, walk.piece.end)
    titled = bool(walk.out) and walk.out[-1].type == "COLOUR" and walk.lead == "colon"
    counted = len(walk.out) > 1 and walk.out[-2].type == "NUMBER" and walk.out[-1].lead == ""
    bare = (walk.last_is("COLOUR") or titled) and not (counted and not _labels_first(walk))
    if bare and is_any(walk.direct(walk.i, -1), ("COLOUR",)) and not is_any(after, ("COLOUR",)):
        colour = walk.out.pop()
        walk.emit("NOT", "not", walk.piece.start, walk.piece.end, lead=colour.lead)
        walk.out.append(colour)
        colour.lead, colour.free = "link", True
        return 1
    if is_any(after, ("COLOUR",)) and _labels_zero(walk):
        return walk.emit("NUMBER", 0, walk.piece.start, walk.piece.end)
    if is_any(after, ("COLOUR",)) and "clean" not in walk.piece.text and not _number_ahead(walk):
        return walk.take("NOT", "not")
    beyond, following = walk.at(walk.i + 1), walk.at(walk.i + 2)
    story = beyond is not None and beyond.text == "but" and following is not None and following.kind == "word"
    if story and following is not None and not (_colour_in_clause(walk) or walk.made.has("vague", following.text)):
        return walk.take()  # "saw nothing but the ground was hard"
    return 0 if beyond is not None and walk.made.has("nothing_but", beyond.text) else walk.take()


def _none_washed(walk: Walk) -> int:
    """ "None of it was washed", "ninguna se lavó", "no se lavó ninguna": so many were washed; none seen is not said.

    "6 dug, none washed" is said so only where females are counted.
    """
    if walk.entry.value != "none" or walk.has("checked"):
        return 0
    if walk.last_is("SOAKED") and walk.out[-1].value == "no" and (walk.after is None or walk.after.kind != "word"):
        return walk.text() if _females_counted(walk) else 0
    j = walk.i + 1
    while (piece := walk.at(j)) is not None and j <= walk.i + WASHED_BEHIND and _between_washed(walk, piece):
        j += 1
    told = piece.types.get("SOAKED") if piece is not None and not is_any(piece, ("DUG",)) else None
    if (
        piece is None
        or told is None
        or told.value != "yes"
        or not any(walk.made.has("washing", w) for w in piece.text.split())
    ):
        return 0
    if j == walk.i + 1 and not _females_counted(walk, max((n for n in walk.named if n < walk.i), default=0)):
        return 0  # "Kestrel 4 white. Depot 8 dug none washed"
    walk.emit("SOAKED", "no", walk.piece.start, piece.end)
    return j - walk.i + 1


def _nothing_save(walk: Walk) -> int:
    """ "Nothing but white (on these)", "nada más que blancas": all of them are of that color; "nothing but 3 white"."""
    if walk.entry.value != "none":
        return 0
    words = [piece.text for piece in walk.ps[walk.i + 1 : walk.i + 1 + LONGEST_SAVE] if piece.kind == "word"]
    size = next((k for k in range(len(words), 0, -1) if walk.made.has("nothing_save", " ".join(words[:k]))), 0)
    shade, noun = walk.at(walk.i + 1 + size), walk.at(walk.i + 2 + size)
    if not size or shade is None or is_any(noun, ("ROOTS", "TOPS", "EDGES", "NODULES")):
        return 0
    if is_any(shade, ("COLOUR",)) and len(shade.text) > 1 and not is_number(noun):
        walk.emit("MOSTLY", "all", walk.piece.start, walk.ps[walk.i + size].end)
        return size + 1
    if is_number(shade) and is_any(noun, ("COLOUR", "FEMALES")):
        walk.emit("TEXT", None, walk.piece.start, walk.ps[walk.i + size].end)
        return size + 1
    return 0


LONGEST_SAVE = 4
"""Words of the longest "but", "a não ser" (judgement)."""


def _between_washed(walk: Walk, piece: Piece) -> bool:
    """May a piece stand between "none" and "washed": "of them was", "das plantas foi"?"""
    filler = all(walk.made.has("undone_filler", word) or walk.made.has("of_word", word) for word in piece.text.split())
    return piece.kind in ("word", "link") and (filler or is_any(piece, ("ROOTS", "PLANTS", "LINK")))


def _females_counted(walk: Walk, start: int = 0) -> bool:
    """Are females counted anywhere in the message, or from a piece on?"""
    pairs = itertools.pairwise(walk.ps[start:])
    return any(is_number(p) and p.value and is_any(q, ("COLOUR", "FEMALES")) for p, q in pairs)


def _clean_roots(walk: Walk) -> bool:
    """Is it said of roots, where females are counted elsewhere?"""
    near = walk.ps[max(0, walk.i - 3) : walk.i + 3]
    if not any(is_any(p, ("ROOTS",)) and not is_any(p, ("NONE",)) for p in near):
        return False
    return _females_counted(walk)


def _labels_first(walk: Walk) -> bool:
    """ "Marrones 23 amarillas 4 blancas no vi": in a row of colors each stands before its count."""
    n = len(walk.out) - 1
    while n > 1 and [word.type for word in walk.out[n - 2 : n]] == ["COLOUR", "NUMBER"]:
        n -= 2
    return n < len(walk.out) - 1 and not (n and walk.out[n - 1].type == "NUMBER" and walk.out[n].lead == "")


def _labels_zero(walk: Walk) -> bool:
    """ "White none yellow six tan 31": each color before its count, and none of the first."""
    first = walk.last_is("COLOUR") and not (len(walk.out) > 1 and walk.out[-2].type == "NUMBER")
    second = walk.direct_index(walk.i, 1)
    count, beyond = walk.direct(second, 1), walk.direct(walk.direct_index(second, 1), 1)
    return (
        first
        and is_number(count)
        and (beyond is None or beyond.kind in ("break", "line") or is_any(beyond, ("COLOUR",)))
    )


def _some_plants_clean(walk: Walk) -> int:
    """ "6 dug, 5 clean, 1 had 3 white": some of the plants told had none; what the others had stands behind."""
    count = walk.out[-1] if walk.last_is("NUMBER") and walk.lead == "" else None
    if count is None or not isinstance(count.value, int) or count.lead not in ("soft", "hard", "link", "colon"):
        return 0
    since = range(len(walk.out) - 2, max(-1, len(walk.out) - LOOKED_BACK), -1)
    told = next((walk.out[n].value for n in since if walk.out[n].type == "NUMBER" and of_plants_told(walk, n)), 0)
    if not (isinstance(told, int) and told > count.value > 0):
        return 0
    count.type = "TEXT"
    return walk.text()


def _noun_behind(walk: Walk) -> bool:
    """A noun that is not ours right behind "there was no"."""
    noun = walk.at(walk.i + 1)
    ours = noun is None or noun.kind != "word" or bool(noun.types.keys() - COMMAND_TYPES)
    return noun is not None and not ours and noun.text not in anywhere("still")


def _colour_in_clause(walk: Walk) -> bool:
    """Are females or a color told further on in the clause?"""
    for j in range(walk.i + 1, len(walk.ps)):
        piece = walk.at(j)
        if piece is None or piece.kind in ("break", "line"):
            return False
        if is_any(piece, ("COLOUR", "FEMALES")) and len(piece.text) > 1:
            return True
    return False


def _said_of_nodules(walk: Walk) -> bool:
    """Do the nodules behind "none" have words of their own ("none, nodules pink")?"""
    j = neighbour_index(walk.ps, walk.i, 1)
    return j is not None and is_any(walk.near(j, 1), ("NODULE", "GREEN"))


def _number_ahead(walk: Walk) -> bool:
    """Does a number follow behind words, which nothing else claims?"""
    j = walk.i + 1
    while j < len(walk.ps) and walk.ps[j].kind == "word":
        j += 1
    return is_number(walk.at(j)) and not claims(walk.ps, j + 1)


def not_(walk: Walk) -> int:
    """No, not, without: before something it can deny."""
    after = walk.near_after
    if after is None:
        return 0
    if after.kind in ("number", "stage", "day"):
        return walk.take()
    if is_any(after, ("COLOUR",)) and is_any(walk.after, ("CORRECT",)) and not is_number(walk.before):
        walk.draft.ask("doubtful", walk.piece.start, after.end)  # "no eran blancas": then of which color?
        return walk.text()
    if is_any(after, ("SOAKED",)) and not is_any(after, ("DUG", "COLOUR")):
        j = neighbour_index(walk.ps, walk.i, 1) or walk.i
        said = "no" if after.types["SOAKED"].value == "yes" else "yes"
        walk.emit("SOAKED", said, walk.piece.start, walk.ps[j].end)
        return j - walk.i + 1
    if is_any(after, ("NODULES",)):
        return walk.emit("NODULE", "few", walk.piece.start, walk.piece.end)
    if is_any(after, ("TOP", "TOPS", "BANDS", "VEINS", "ROOT", "ROOTS")) and not is_any(
        after, ("COLOUR", "DUG", "PLANTS")
    ):
        return _denied(walk)
    return walk.take() if is_any(after, _DENIABLE) else 0


def _denied(walk: Walk) -> int:
    """No patches, not stunted: said, but nothing to keep except the words."""
    j = neighbour_index(walk.ps, walk.i, 1) or walk.i
    walk.emit("TEXT", None, walk.piece.start, walk.ps[j].end)
    return j - walk.i + 1


def had(walk: Walk) -> int:
    """ "Infested" behind a number of plants was used up with it."""
    if walk.out and walk.out[-1].type == "POSITIVE" and walk.out[-1].end >= walk.piece.end:
        return 1
    if walk.entry.value == "infested" and any(w.type == "POSITIVE" for w in walk.out[-3:]):
        return walk.emit("HAD", None, walk.piece.start, walk.piece.end)
    return 0


def not_looked(walk: Walk) -> int:
    """ "To dig" means not looked only behind a reason: too wet to dig; "pulled, not dug" denies the digging."""
    if walk.piece.text == "not dug" and walk.last_is("DUG", "TOOL"):
        walk.emit("NOT", "not", walk.piece.start, walk.piece.start + 3)
        return walk.emit("DUG", "shovel", walk.piece.end - 3, walk.piece.end)
    if _looked_at_colors(walk) or _no_such_roots(walk) or _others_never(walk):
        return walk.text()
    if _for_hours(walk):
        return walk.emit("ENTRY", "entry", walk.piece.start, walk.piece.end)  # "no se puede entrar por 24 horas"
    if walk.has("timid_not_looked") and _only_on_the_road(walk):
        return walk.text()
    bare = walk.piece.text.startswith(tuple(f"{word} " for word in anywhere("purpose")))
    return 0 if bare and not (walk.out and walk.out[-1].type == "MOISTURE") else walk.take()


def _only_on_the_road(walk: Walk) -> bool:
    """ "(The dog) stayed in the truck", "drove on .. 6 plants": somebody else did, or plants were dug all the same."""
    before = walk.at(walk.i - 1)
    mine = before is None or before.kind in ("break", "line", "sign") or is_any(before, ("FIELD", "LINK"))
    mine = mine or walk.made.has("who_goes", before.text if before is not None else "")
    found = ("PLANTS", "DUG", "COLOUR", "FEMALES", "NONE", "TOO_MANY")
    begin = max((n for n in walk.named if n <= walk.i), default=0)
    end = min((n for n in walk.named if n > walk.i), default=len(walk.ps))
    own = [n for n in range(begin, end) if n != walk.i and is_any(walk.ps[n], found)]  # of the field at hand
    return not mine or any(_tells_look(walk, n) for n in own)


def _tells_look(walk: Walk, n: int) -> bool:
    """Not "pls" for please, nor "lots of fine roots"."""
    piece = walk.ps[n]
    if is_any(piece, ("ROOTS",)) and not is_number(walk.at(n - 1)):
        return False
    behind = walk.ps[n + 1 : n + 3]
    many = is_any(piece, ("TOO_MANY",)) and any(is_any(p, ("ROOT", "ROOTS", "TOP", "TOPS")) for p in behind)
    return len(piece.text) > 1 and "COURTESY" not in piece.types and not many


def _others_never(walk: Walk) -> bool:
    """ "(10 white.) They have never dug one up": others, where females are counted here."""
    start = max((n for n in walk.named if n < walk.i), default=0)
    who = [word for piece in walk.ps[max(0, walk.i - 2) : walk.i] for word in piece.text.split(" ")]
    return walk.made.has_any("others_they", who) and _females_counted(walk, start)


def _for_hours(walk: Walk) -> bool:
    """ "Can't go in for 48 hours": is a number of hours said right behind it?"""
    number = neighbour_index(walk.ps, walk.i, 1)
    if number is None or not is_number(walk.at(number)):
        return False
    unit = walk.at(number + 1)
    return is_any(unit, ("UNIT",)) and unit is not None and unit.types["UNIT"].value == "hour"


def _no_such_roots(walk: Walk) -> bool:
    """ "Didn't see any roots rotting", "no vi raíces oscuras": no such roots, and not none at all."""
    last, behind = walk.piece.text.rsplit(" ", 1)[-1], walk.at(walk.i + 1)
    of_roots = any(entry.type == "ROOTS" for entry in walk.made.singles.get(last, ()))
    if not of_roots or behind is None or behind.kind != "word":
        return False
    with_them = walk.made.has("with_word", behind.text) or is_any(behind, ("ROOT", "COLOUR", "HAD"))
    return with_them or not behind.types


def _looked_at_colors(walk: Walk) -> bool:
    """ "I didn't look close at the color": nobody denies having looked for females."""
    behind = itertools.takewhile(lambda p: p.kind == "word", walk.ps[walk.i + 1 : walk.i + 1 + COLORS_BEHIND])
    return any(walk.made.has("color_word", word) for piece in behind for word in piece.text.split(" "))
