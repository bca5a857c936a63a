"""How many of the plants had any ("3 had white", "4 of 6 plants"): numbers that count no females."""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any, linking, neighbour, neighbour_index
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.senses.around import LOOKED_BACK, MOST_OF_PLANTS, of_plants_told, with_slash
from notes_bot.language.senses.walk import Walk, is_number


def some_of_plants(walk: Walk, j: int) -> int:
    """How many of the plants had any; j is where the number at hand is followed by what it counts."""
    piece = walk.piece
    if isinstance(piece.value, int) and is_any(walk.at(j), ("PLANTS",)) and (half := _half_before(walk)) is not None:
        while walk.out and walk.out[-1].start >= walk.ps[half].start:
            walk.lead = walk.out.pop().lead
        walk.emit("POSITIVE", max(1, piece.value // 2), walk.ps[half].start, walk.ps[half].end)
        return walk.emit("NUMBER", piece.value, piece.start, piece.end)
    if k := _described_share(walk, j):
        walk.emit("TEXT", None, piece.start, walk.ps[k - 1].end)
        return k - walk.i  # "4 of the 6 plants stunted": nothing is said of females
    had = None if walk.last_is("POSITIVE") else _infested(walk, j)
    if had is not None:
        return walk.emit("POSITIVE", piece.value, piece.start, had)
    if _females_on(walk, j):
        for word in walk.out[-2:]:
            word.lead = "hard" if word.type == "COLOUR" else word.lead
            word.type = "TEXT" if word.type == "FEMALES" else word.type  # no count of them: "pulled six, females on"
        return walk.emit("POSITIVE", piece.value, piece.start, piece.end)
    return 0


WITHIN_NOTE = 80
"""Words before that are looked at for the plants a note has told, at most (judgement)."""


def _females_on(walk: Walk, j: int) -> bool:
    """ "Dug eight, found females on three": how many of the plants had any."""
    on = walk.at(walk.i - 1)
    if on is None or on.text not in anywhere("upon_plant"):
        return False
    females, before = walk.at(walk.i - 2), walk.at(walk.i - 3)
    if not is_any(females, ("FEMALES", "COLOUR")):
        return False
    told = []
    for n in range(len(walk.out) - 1, max(-1, len(walk.out) - WITHIN_NOTE), -1):
        if walk.out[n].type == "FIELD":
            break
        if walk.out[n].type == "NUMBER" and of_plants_told(walk, n):
            told.append(walk.out[n].value)
    fewer = any(isinstance(value, int) and 0 < walk.piece.value <= value for value in told)
    after = walk.at(j)
    ends = after is None or after.kind in ("break", "line") or (linking(after) and after.kind == "word")
    ends = ends or (after is not None and after.text in anywhere("of_word"))
    ends = ends or (is_any(after, ("PLANTS",)) and walk.piece.value < max((v for v in told if v), default=0))
    return fewer and ends and not is_number(before)


def _half_before(walk: Walk) -> int | None:
    """ "Half of the 10 plants", "la mitad de las 10": where "half" stands, with little words between."""
    k = walk.i - 1
    while k >= 0 and k > walk.i - 4 and walk.ps[k].kind == "word" and not walk.made.has("half_word", walk.ps[k].text):
        if "LINK" not in walk.ps[k].types:
            return None
        k -= 1
    return k if k >= 0 and walk.made.has("half_word", walk.ps[k].text) else None


def _infested(walk: Walk, j: int) -> int | None:
    """3 had white, 2 plants with females, 4 of 6 plants: how many plants had any, not a count of females.

    Gives where the words for it end, or ``None``.
    """
    after = walk.at(j)
    if after is not None and after.text in anywhere("out_of"):
        return _out_of_plants(walk, j + 1)
    if is_any(after, ("PLANTS",)) and walk.last_is("DUG") and walk.lead == "" and not _plants_before(walk):
        return None  # "arranqué siete plantas, traían quistes": all that were dug
    if is_any(after, ("PLANTS",)) or (after is not None and after.text in anywhere("of_them")):
        j = walk.direct_index(j, 1)
        after = walk.at(j)
    if after is not None and with_slash(walk, j):
        return walk.ps[j + 2].end if is_any(walk.at(j + 2), ("FEMALES",)) else None
    if after is None or "HAD" not in after.types or walk.ps[j - 1].kind == "break":
        return None
    if _had_roots(walk, j + 1):
        return None  # "6 plants with brown nodules"
    beyond = neighbour(walk.ps, j, 1)
    if (
        walk.piece.value == 1
        and is_number(beyond)
        and any(w.type in ("PLANTS", "DUG") for w in walk.out[-LOOKED_BACK:])
    ):
        at = neighbour_index(walk.ps, j, 1)
        if at is not None and is_any(walk.direct(at, 1), ("COLOUR", "FEMALES")):
            return after.end  # "5 clean, 1 had 3 white"
    if is_number(beyond) and _each_behind(walk, j):
        return after.end  # "três tinham duas brancas cada"
    if is_any(beyond, ("COLOUR",)) and _counts_behind(walk, j) and not _plants_before(walk):
        return None  # "6 plants with white 12 yellow 3": all that were dug
    some = is_any(beyond, ("COLOUR", "FEMALES", "TOO_MANY", "MOSTLY")) and not is_number(beyond)
    return after.end if some or after.types["HAD"].value == "infested" else None


def _counts_behind(walk: Walk, j: int) -> bool:
    """Does a number of its own follow the color behind the piece at j: "white 12", "w: 12"?"""
    at = neighbour_index(walk.ps, j, 1)
    k = walk.direct_index(at, 1) if at is not None else j
    return is_number(walk.at(k + walk.colon_at(k)))


def _plants_before(walk: Walk) -> bool:
    """Are the plants of the field told before?"""
    own = max((n for n, word in enumerate(walk.out) if word.type == "FIELD"), default=0)
    return any(word.type == "NUMBER" and of_plants_told(walk, own + n) for n, word in enumerate(walk.out[own:]))


def _out_of_plants(walk: Walk, k: int) -> int | None:
    """ "(4) of the 6 plants", "(three) of which had females": where the number at hand ends, or ``None``."""
    which = walk.at(k)
    if which is not None and which.text in anywhere("of_which") and _had_behind(walk, k):
        return walk.piece.end  # "three of which had females"
    while is_any(walk.at(k), ("LINK",)) and not walk.made.has("them", walk.ps[k].text):
        k += 1
    number = walk.at(k)
    since = range(max(0, len(walk.out) - LOOKED_BACK), len(walk.out))
    told = [walk.out[n].value for n in since if walk.out[n].type == "NUMBER" and of_plants_told(walk, n)]
    of_plants = (
        number is not None
        and number.kind == "number"
        and (is_any(walk.direct(k, 1), ("PLANTS", "ROOTS")) or (number.value in told and _had_behind(walk, k)))
    )
    of_plants = (of_plants or _of_so_many(walk, k)) and not _counts_its_color(walk, number)
    if of_plants and not is_any(walk.direct(k, 1), ("PLANTS", "ROOTS")):
        walk.of_plants = k
    return walk.piece.end if of_plants else None


def _had_roots(walk: Walk, j: int) -> bool:
    """Do words for nodules or roots follow, with nothing counted before them?"""
    for piece in walk.ps[j : j + 4]:
        if piece.kind != "word" or is_any(piece, ("FEMALES", "NONE")):
            return False
        if is_any(piece, ("NODULES", "ROOTS")):
            return True
    return False


def _each_behind(walk: Walk, j: int) -> bool:
    """Is what these plants had told of each of them: a number, perhaps a color, and "each" at the end?"""
    if not any(of_plants_told(walk, n) for n, word in enumerate(walk.out) if word.type == "NUMBER"):
        return False  # of how many?
    k = walk.direct_index(j, 1)
    k = walk.direct_index(k, 1)
    while is_any(walk.at(k), ("COLOUR", "FEMALES")):
        k = walk.direct_index(k, 1)
    end = walk.at(k + 1)
    return is_any(walk.at(k), ("EACH",)) and (end is None or end.kind in ("break", "line"))


def _counts_its_color(walk: Walk, number: Piece | None) -> bool:
    """ "White 9 out of 6 plants", "white 7 yellow 2 of 6 plants": females of the color before it, not plants."""
    beside = bool(walk.out) and walk.out[-1].type == "COLOUR" and walk.lead in ("", "link", "colon")
    if not beside or number is None or not isinstance(number.value, int):
        return False
    told = [word.type for word in walk.out[-3:-1]] == ["COLOUR", "NUMBER"]
    return told or (isinstance(walk.piece.value, int) and walk.piece.value > number.value)


def _of_so_many(walk: Walk, k: int) -> bool:
    """ "White on half the plants, 5 of 10", "3 of 10 had some": the second number can only be plants."""
    number, some = walk.at(k), walk.piece.value
    whole = number is not None and number.kind == "number" and isinstance(number.value, int)
    if not whole or number is None or not isinstance(some, int) or not some <= number.value <= MOST_OF_PLANTS:
        return False
    behind = walk.at(k + 1)
    said = any(word.type in ("COLOUR", "FEMALES", "NONE") for word in walk.out[-4:])
    return _had_behind(walk, k) or (said and (behind is None or behind.kind in ("break", "line")))


def _had_behind(walk: Walk, k: int) -> bool:
    """ "Four of the six had females", "3 of 5 had some", "4 of the 10 i pulled had any"."""
    k = walk.direct_index(k, 1)
    dug = k
    while is_any(walk.at(dug), ("LINK",)) and dug < k + 2 and not is_any(walk.at(dug), ("HAD", "DUG")):
        dug += 1
    if is_any(walk.at(dug), ("DUG",)):
        k = walk.direct_index(dug, 1)
    return is_any(walk.at(k), ("HAD",))


def _described_share(walk: Walk, j: int) -> int:
    """The index of the second number of "4 of the 6 plants stunted"; 0 for any other."""
    of = walk.at(j)
    if of is None or of.text not in anywhere("out_of"):
        return 0
    k = j + 1
    while is_any(walk.at(k), ("LINK",)) and not walk.made.has("them", walk.ps[k].text):
        k += 1
    return k if is_number(walk.at(k)) and _only_described(walk, k) else 0


def _only_described(walk: Walk, k: int) -> bool:
    """Is what stands behind so many of so many plants how they look ("stunted", "alive"), and not what they had?"""
    noun = walk.direct_index(k, 1)
    if not is_any(walk.at(noun), ("PLANTS",)):
        return False
    behind = walk.direct(noun, 1)
    while behind is not None and behind.kind == "word" and linking(behind) and "HAD" not in behind.types:
        noun = walk.direct_index(noun, 1)
        behind = walk.direct(noun, 1)
    if behind is None or behind.kind != "word":
        return False
    return is_any(behind, ("TOP",)) or not behind.types
