"""The noun that an adjective or a color is said of: roots, nodules or leaves."""

from __future__ import annotations

from notes_bot.language.lexicon.joining import claims, is_any
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.names.naming import joints
from notes_bot.language.senses.walk import Walk, is_number

LEAFY = frozenset({"TOPS", "EDGES", "VEINS", "NEW", "OLD", "BANDS"})
"""Kinds of word for leaves and their parts."""


def noun_beside(walk: Walk) -> str:
    """Which noun an adjective stands nearest to: ROOT, NODULE, LEAF or none."""
    joint, left = walk.at(walk.i + 1), noun_towards(walk, -1)
    ends = joint is not None and joint.kind == "word" and joint.text in joints() and left is not None
    if ends and left is not None and _said_to_be(walk, left[0]):
        return left[1]  # "the roots are nice and white and the nodules are pink"
    sides = [side for side in (noun_towards(walk, -1), noun_towards(walk, 1)) if side is not None]
    return min(sides, key=lambda side: side[0])[1] if sides else ""


def _said_to_be(walk: Walk, distance: int) -> bool:
    """Does a word like "are" stand between the noun so far before and the adjective?"""
    between = walk.ps[max(0, walk.i - distance) : walk.i]
    return any(walk.made.has("copula", piece.text) for piece in between)


def noun_towards(walk: Walk, step: int) -> tuple[int, str] | None:
    """The first noun on one side, other adjectives passed over: its distance, and ROOT, NODULE or LEAF."""
    j = walk.i
    for distance in range(9):
        j = _over_name(walk, j + step, step)
        other = walk.at(j)
        quantity = other.types.get("NODULE") if other is not None and step > 0 else None
        if quantity is not None and quantity.value in ("few", "many") and not is_any(other, ("TOP", "LINK")):
            return None  # "dark hardly any nodules": what stands before the quantity is said of the roots
        told_of = other is not None and other.text == "," and step < 0 and walk.made.has("which", walk.ps[j + 1].text)
        labelled = other is not None and step < 0 and other.text in (":", "=") and _labels_roots(walk, j - 1)
        if told_of or labelled:
            continue  # "rinsed the roots, which were white"
        if other is None or (other.kind != "word" and not (other.kind == "sign" and other.text in "+/&-")):
            return None
        noun = "" if other.kind == "sign" else _noun(walk, j, step)
        if noun:
            on = noun == "ROOT" and step == 1 and walk.ps[walk.i + 1].text in anywhere("upon")  # "yellow on the roots"
            return None if on else (distance, noun)
        types = other.types.keys()
        if step == -1 and distance < 2 and other.kind == "word" and not types:
            continue  # "roots look terrible black"
        passing = types & {"COLOUR", "LINK", "ROOT", "NODULE", "GREEN", "ABOUT", "TOP"} or (
            step == -1 and "MOSTLY" in types
        )
        if other.kind == "word" and not passing and not walk.made.has("degree", other.text):  # "raiz meio escura"
            return None
    return None


def _labels_roots(walk: Walk, j: int) -> bool:
    """ "Roots: white": roots, nodules or tops before a colon, and no plants counted."""
    piece = walk.at(j)
    return is_any(piece, ("ROOTS", "NODULES")) or (is_any(piece, ("TOPS",)) and not is_any(piece, ("PLANTS",)))


def _over_name(walk: Walk, j: int, step: int) -> int:
    """Past a field's name in the middle of a sentence ("the roots at old mill east were white")."""
    for first, name in walk.found.items():
        if first <= j < name.last and first > 0:
            return name.last if step > 0 else first - 1
    return j


def _noun(walk: Walk, j: int, step: int) -> str:
    """What the word at j is the name of: ROOT, NODULE, LEAF or nothing."""
    piece = walk.ps[j]
    types = piece.types.keys()
    if step < 0 and "SOAKED" in types and " root" in piece.text:
        return "ROOT"  # "rinsed the roots, which were white"
    if ("ROOTS" in types and not _counts(walk, j)) or ("ROOT" in types and " " in piece.text):
        return "ROOT"
    if "NODULES" in types:
        return "NODULE"
    if types & LEAFY and not _counts(walk, j):
        bare = types & {"NEW", "OLD"} and not types & {"EDGES", "VEINS"}
        return "LEAF" if not bare or leaves_near(walk, j) else ""
    top = piece.types.get("TOP")
    if top is None or "COLOUR" in types or not (step == 1 or top.value in ("patch", "ring")):
        return ""
    if walk.made.has("weak", piece.text) and is_any(walk.direct(j, 1), ("NODULES", "ROOTS")):
        return ""
    return "LEAF" if not walk.made.has("weak", piece.text) or top.value in ("patch", "stunted") else ""


def _counts(walk: Walk, j: int) -> bool:
    """Does the word at j stand beside a number that it could count?"""
    if not is_any(walk.ps[j], ("PLANTS",)):
        return False
    k = walk.direct_index(j, 1)
    behind = is_number(walk.at(k)) and not claims(walk.ps, k + 1)
    return behind or is_number(walk.direct(j, -1))


def leaves_near(walk: Walk, i: int) -> bool:
    """New or old what? Leaves must be near."""
    return any(is_any(walk.at(j), ("TOPS", "EDGES", "VEINS")) for j in range(i - 3, i + 4))
