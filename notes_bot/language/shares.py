"""So many of the plants had females: "one lone plant in six showed females", "2 pés com cisto e 4 limpos".

Each is written as "so many of so many plants infested", which says how many were dug and that females were seen, and
takes no share for a count of females.
"""

from __future__ import annotations

import re

from notes_bot.language.joining import is_any, linking
from notes_bot.language.pieces import Piece, count_told
from notes_bot.language.times import MOST_PLANTS
from notes_bot.language.words import Entry, Table, anywhere

LONGEST_SHARE = 8
"""Pieces behind the first number in which the plants and what they had are looked for (judgement)."""
_PLANTS = (Entry("PLANTS", "plants"),)
_OF = (Entry("LINK", "link"),)
_NONE = (Entry("NONE", "none"),)
_INFESTED = (Entry("HAD", "infested"),)
_FEMALES = frozenset({"FEMALES", "TOO_MANY"})


def shared(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with every share of the plants as "2 of 6 plants infested"."""
    if not any(p.types.keys() & {"HAD", "FEMALES", "NONE"} or made.has("infest_word", p.text) for p in pieces):
        return pieces
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        share = _of_so_many(pieces, n, made) or _and_the_others(pieces, n, made) or _for_all(pieces, n, made)
        if share is None:
            out.append(pieces[n])
            n += 1
            continue
        some, whole, end = share
        first, last = pieces[n], pieces[end - 1]
        if some == 0:
            out += [
                Piece("word", "", first.start, last.end, _NONE),
                Piece("number", str(whole), last.end, last.end, (), whole),
                Piece("word", "", last.end, last.end, _PLANTS),
            ]
            n = end
            continue
        out += [
            Piece("number", str(some), first.start, last.end, (), some, first.spaced),  # as written, for the free text
            Piece("word", "of", last.end, last.end, _OF),
            Piece("number", str(whole), last.end, last.end, (), whole),
            Piece("word", "", last.end, last.end, _PLANTS),
            Piece("word", "infested", last.end, last.end, _INFESTED),
        ]
        n = end
    return out


def _at(pieces: list[Piece], n: int) -> Piece | None:
    return pieces[n] if 0 <= n < len(pieces) else None


def _of_so_many(pieces: list[Piece], n: int, made: Table) -> tuple[int, int, int] | None:
    """ "One plant out of 10 with any cysts", "una sola mata de las 5 traía bolitas", "3/10 pos", "pos 3/10"."""
    if fraction := _fraction(pieces, n, made):
        return fraction
    some = count_told(pieces[n])
    if some is None or not 0 <= some <= MOST_PLANTS:
        return None
    k, between = n + 1, False
    while (piece := _at(pieces, k)) is not None and k < n + 4:
        if not (is_any(piece, ("PLANTS",)) or made.has("lone_word", piece.text)):
            break
        between, k = True, k + 1
    of = _at(pieces, k)
    if of is None or of.text not in anywhere("share_of"):
        return None
    k += 1
    while (piece := _at(pieces, k)) is not None and made.has("determiner", piece.text):
        k += 1
    whole = count_told(piece)
    if not whole or not some <= whole <= MOST_PLANTS:
        return None
    k += 1
    plants = is_any(_at(pieces, k), ("PLANTS",))
    k += plants
    end = _had_some(pieces, k, made)
    clean = k
    while (piece := _at(pieces, clean)) is not None and piece.kind == "word" and linking(piece):
        clean += 1
    if end is None and 0 < some < whole and is_any(piece, ("NONE",)) and _ends(_at(pieces, clean + 1)):
        return whole - some, whole, clean + 1  # "5 of 6 plants clean": one was not
    plain = not between and not made.has("share_in", of.text)
    return None if end is None or (plain and plants and some) else (some, whole, end)


def _fraction(pieces: list[Piece], n: int, made: Table) -> tuple[int, int, int] | None:
    """ "3/10 pos", "3/10 plants infested", "infested 3/10": so many of so many, and no day."""
    labelled = n + 1 < len(pieces) and _is_infested(pieces[n], made)
    at = n + labelled
    at += labelled and pieces[at].text in (":", "=", "-") and at + 1 < len(pieces)
    piece = pieces[at]
    if piece.kind not in ("day", "ratio") or not re.fullmatch(r"\d{1,2}/\d{1,2}", piece.text):
        return None
    some, whole = (int(part) for part in piece.text.split("/"))
    if not 0 <= some <= whole <= MOST_PLANTS or not whole:
        return None
    if labelled:
        return None if is_any(_at(pieces, at + 1), ("PLANTS", "COLOUR", "FEMALES")) else (some, whole, at + 1)
    k = at + 1 + is_any(_at(pieces, at + 1), ("PLANTS",))
    word = _at(pieces, k)
    return (some, whole, k + 1) if word is not None and _is_infested(word, made) else None


def _is_infested(piece: Piece, made: Table) -> bool:
    """Is it a word for plants that have females?"""
    had = piece.types.get("HAD")
    return made.has("infest_word", piece.text) or (had is not None and had.value == "infested")


def _ends(piece: Piece | None) -> bool:
    return piece is None or piece.kind in ("break", "line")


def _had_some(pieces: list[Piece], k: int, made: Table) -> int | None:
    """Where "with any cysts", "tava com cisto" ends; ``None`` where a number of females is told, or nothing."""
    start, had = k, False
    while (piece := _at(pieces, k)) is not None and k < start + LONGEST_SHARE:
        if count_told(piece) is not None or piece.kind in ("break", "line", "stage", "day"):
            return None
        if _is_infested(piece, made):
            return k + 1
        if is_any(piece, _FEMALES):
            return k + 1 if had else None
        if is_any(piece, ("HAD",)) or made.has("counted", piece.text) or made.has("group_verb", piece.text):
            had = True
        elif piece.text == "w" and getattr(_at(pieces, k + 1), "text", "") == "/":
            had, k = True, k + 1  # "3 of 12 w/ cysts"
        elif not (linking(piece) or made.has("any_word", piece.text) or made.has("determiner", piece.text)):
            return None
        k += 1
    return None


def _and_the_others(pieces: list[Piece], n: int, made: Table) -> tuple[int, int, int] | None:
    """ "2 plants had cysts, other 4 nothing": with females and without, together the plants dug."""
    some = count_told(pieces[n])
    if some is None or not 0 < some <= MOST_PLANTS or not is_any(_at(pieces, n + 1), ("PLANTS",)):
        return None
    end = _had_some(pieces, n + 2, made)
    if end is None:
        return None
    k = end
    while (piece := _at(pieces, k)) is not None and k < end + 4 and count_told(piece) is None:
        joint = piece.text == "," or linking(piece) or made.has("rest_word", piece.text)
        if not (joint or made.has("other_word", piece.text) or made.has("determiner", piece.text)):
            return None
        k += 1
    others = count_told(piece)
    k += 1
    k += is_any(_at(pieces, k), ("PLANTS",))
    while (piece := _at(pieces, k)) is not None and linking(piece):
        k += 1
    if others is None or not 0 < others <= MOST_PLANTS or not is_any(piece, ("NONE",)):
        return None
    return some, some + others, k + 1


def _for_all(pieces: list[Piece], n: int, made: Table) -> tuple[int, int, int] | None:
    """ "6 for 6 on cysts"."""
    some, joint, whole = count_told(pieces[n]), _at(pieces, n + 1), count_told(_at(pieces, n + 2))
    if some is None or whole is None or joint is None or not made.has("for_share", joint.text):
        return None
    if not 0 <= some <= whole <= MOST_PLANTS or not whole:
        return None
    k = n + 3
    while (piece := _at(pieces, k)) is not None and linking(piece) and k < n + 6:
        k += 1
    told = piece is not None and (is_any(piece, ("FEMALES", "HAD")) or made.has("infest_word", piece.text))
    return (some, whole, k + 1) if told else None
