"""Roots and nodules."""

from __future__ import annotations

import itertools

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.senses.adjectives import noun_beside, noun_towards
from notes_bot.language.senses.around import CROP_AHEAD, goes_on, goes_on_nowhere, of_the_roots
from notes_bot.language.senses.walk import Walk

NODULES_NEAR = 4
"""Pieces behind "a lot of" in which the nodules stand (judgement)."""


def roots(walk: Walk) -> int:
    """Roots; a misspelt word only beside what is said of them."""
    if (
        walk.entry.slip
        and not is_any(walk.near_after, ("ROOT", "COLOUR"))
        and not is_any(walk.near_before, ("ROOT", "COLOUR"))
    ):
        return 0
    return walk.take()


def root(walk: Walk) -> int:
    """Snapped and stubby speak for themselves; dark and fine need roots beside them."""
    if walk.has("of_roots") and not (noun_beside(walk) == "ROOT" or _roots_told(walk)):
        return 0
    thing = walk.at(walk.i + 2)
    other = thing is not None and not is_any(thing, ("ROOTS", "PLANTS", "TOPS", "DUG"))
    if other and walk.entry.value == "snapped" and walk.made.has("article", walk.ps[walk.i + 1].text):
        return walk.text()  # "se me rompió la chata"
    ahead = itertools.takewhile(lambda p: p.kind not in ("break", "line"), walk.ps[max(0, walk.i - 4) : walk.i][::-1])
    if walk.entry.value == "snapped" and any(walk.made.has("no_root", p.text) for p in ahead):
        return walk.text()  # "a estrada está cortada"
    if " " in walk.piece.text and not is_any(walk.piece, ("TOP", "TOPS")):
        return walk.take()
    own = walk.entry.value in ("snapped", "stubby") and not is_any(walk.piece, ("TOOL", "TOP")) and not walk.has("weak")
    if own and not (is_any(walk.near_after, ("TOPS",)) and not is_any(walk.near_after, ("ROOTS",))):
        return walk.take()
    told = noun_beside(walk) == "ROOT" or goes_on(walk, "ROOT", "ROOTS") or _roots_washed(walk)
    if walk.entry.value == "white" and is_any(walk.piece, ("TOP",)) and _of_the_tops(walk):
        return 0
    adjective = walk.piece.types.keys() <= {"ROOT", "COLOUR", "TOP"}
    return walk.take() if told or (adjective and of_the_roots(walk)) else 0


def _of_the_tops(walk: Walk) -> bool:
    """ "(Roots dark,) pale on top", "(raíces cortadas,) pálidas y petisas": pale plants, behind roots that are not."""
    last = walk.out[-1] if walk.out and walk.lead == "soft" else None
    other = last is not None and last.type == "ROOT" and last.value in ("dark", "snapped")
    return other or (is_any(walk.near_after, ("TOP", "TOPS", "BELOW")) and not is_any(walk.near_after, ("ROOT",)))


def _roots_washed(walk: Walk) -> bool:
    """ "Roots washed and dark", "raízes lavadas, escuras": washed roots right before, and a word for roots alone."""
    last = walk.out[-1] if walk.out else None
    if last is None or last.type != "SOAKED" or walk.lead not in ("", "link", "soft"):
        return False
    rooted = any(entry.type == "ROOTS" for word in fold(last.text).split() for entry in walk.made.singles.get(word, ()))
    alone = goes_on_nowhere(walk) or (walk.after is not None and walk.after.text in anywhere("and_word"))
    return rooted and alone and walk.piece.types.keys() <= {"ROOT", "COLOUR"}


def _roots_told(walk: Walk) -> bool:
    """Were roots or pulled plants told just before ("pulled 4, broke off"; not "truck broke down")?"""
    return walk.lead != "hard" and any(
        word.type in ("ROOTS", "ROOT", "DUG", "TOOL", "PLANTS", "NUMBER") for word in walk.out[-2:]
    )


def nodule(walk: Walk) -> int:
    """What is said of nodules; pink is said of nothing else."""
    if walk.entry.value in ("few", "many") and (size := _so_many_nodules(walk)):
        walk.emit("NODULE", walk.entry.value, walk.piece.start, walk.ps[walk.i + size - 1].end)
        return size
    if walk.made.has_any("nodulated", walk.piece.text.split(" ")):
        return walk.take()  # "well nodulated", "poor nodulation"
    sides = [side for side in (noun_towards(walk, -1), noun_towards(walk, 1)) if side is not None]
    nearest = min((distance for distance, _ in sides), default=0)
    if (nearest, "NODULE") in sides or (
        walk.piece.types.keys() == {"NODULE"}
        and walk.entry.value in ("pink", "brown")
        and (not walk.has("of_nodules") or any(word.type in ("NODULES", "NODULE") for word in walk.out[-3:]))
    ):
        return walk.take()
    if is_any(walk.near_before, ("EDGES",)) and walk.last_is("EDGES", "OLD", "NEW"):
        return walk.emit("TOP", "yellow", walk.piece.start, walk.piece.end)  # dry edges of leaves
    behind = bool(walk.out) and walk.out[-1].type in ("NODULES", "NODULE") and walk.lead in ("", "link", "soft")
    if behind and walk.near_after is None:
        return walk.take()
    saw = walk.at(walk.i - 1)
    if walk.has("few_numbers") and saw is not None and walk.made.has("counted", saw.text) and not behind:
        walk.draft.ask("which_of_range", walk.piece.start, walk.piece.end)  # "only saw one or two"
    return 0


def _so_many_nodules(walk: Walk) -> int:
    """ "A lot of little round nodules", "nodules look good, lots of them": how many pieces tell it, 0 for none."""
    for j in range(walk.i + 1, min(walk.i + 1 + NODULES_NEAR, len(walk.ps))):
        if is_any(walk.ps[j], ("NODULES",)) and not is_any(walk.ps[j], ("PLANTS",)):
            return j - walk.i if j > walk.i + 1 else 0
        own = walk.ps[j].types.get("NODULE")
        colored = own is not None and own.value not in ("few", "many")  # "lots of pink nodules"
        if walk.ps[j].kind != "word" or walk.ps[j].types.keys() - {"NODULE", "TOP", "LINK", "COLOUR"} or colored:
            break
    them = walk.at(walk.i + 1)
    if them is None or not walk.made.has("them", them.text):
        return 0
    before = walk.ps[max(0, walk.i - CROP_AHEAD) : walk.i]
    hard = [n for n, p in enumerate(before) if p.value == "hard" or p.kind == "line"]
    before = before[hard[-1] + 1 :] if hard else before
    return 2 if any(is_any(p, ("NODULES",)) for p in before) else 0
