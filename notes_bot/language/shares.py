"""So many of the plants had females: "one lone plant in six showed females", "2 pés com cisto e 4 limpos".

Each is written as "so many of so many plants infested", which says how many were dug and that females were seen, and
takes no share for a count of females.
"""

from __future__ import annotations

import itertools
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
    words = ("infest_word", "negative_word")
    if not any(p.types.keys() & {"HAD", "FEMALES", "NONE"} or any(made.has(w, p.text) for w in words) for p in pieces):
        return pieces
    dug = {count_told(p) for p, q in itertools.pairwise(pieces) if is_any(q, ("PLANTS", "DUG"))}
    dug |= {count_told(q) for p, q in itertools.pairwise(pieces) if is_any(p, ("PLANTS", "DUG"))}
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        share = _of_so_many(pieces, n, made) or _and_the_others(pieces, n, made) or _for_all(pieces, n, made)
        share = share or _upon(pieces, n, dug, made)
        if share is None and (end := _some_of_them(pieces, n, made)):
            out += _infested("1", pieces[n], pieces[end - 1])  # at least
            n = end
            continue
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


def _infested(some: str, first: Piece, last: Piece) -> list[Piece]:
    """So many infested, in the place of what told it."""
    return [
        Piece("number", some, first.start, last.end, (), int(some), first.spaced),
        Piece("word", "infested", last.end, last.end, _INFESTED),
    ]


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
    while (piece := _at(pieces, clean)) is not None and piece.kind == "word" and (linking(piece) or _had(piece)):
        clean += 1
    without = clean + (piece is not None and (is_any(piece, ("NONE",)) or made.has("negative_word", piece.text)))
    if end is None and 0 < some <= whole and without > clean and _ends(_at(pieces, without)):
        return whole - some, whole, without  # "5 of 6 plants clean": one was not; "5 of 5 clean": none was
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


_IN_SEASON = {"en": range(5, 10), "es": (11, 12, 1, 2, 3), "pt": (11, 12, 1, 2, 3)}
"""Months in which people dig: "cysts on 7/8" may be a day then (judgement)."""


def _upon(pieces: list[Piece], n: int, dug: set[int | None], made: Table) -> tuple[int, int, int] | None:
    """ "Cysts on 2/6 pl": females, a word for on, and a fraction that is no day of the season, or of the plants dug."""
    if not is_any(pieces[n], ("FEMALES",)) or (
        n and count_told(pieces[n - 1]) is not None and pieces[n - 1].value != 0
    ):
        return None
    on, piece = _at(pieces, n + 1), _at(pieces, n + 2)
    if on is None or piece is None or not (made.has("upon_plant", on.text) or made.has("share_in", on.text)):
        return None
    if piece.kind not in ("day", "ratio") or not re.fullmatch(r"\d{1,2}/\d{1,2}", piece.text):
        return None
    some, whole = (int(part) for part in piece.text.split("/"))
    if not 0 <= some <= whole <= MOST_PLANTS or not whole:
        return None
    plants = is_any(_at(pieces, n + 3), ("PLANTS",))
    month = some if made.language == "en" else whole
    if month in _IN_SEASON[made.language] and not plants and whole not in dug:
        return None
    return some, whole, n + 3 + plants


def _some_of_them(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "half pos", "most w/ cysts", "cysts on half" ends: some had females, and nobody says how many; or 0."""
    before = _at(pieces, n - 1)
    if before is not None and (made.denies(before.text) or is_any(before, ("NOT",))):
        return 0
    if is_any(pieces[n], ("FEMALES",)):
        counted = count_told(before) is not None and not is_any(_at(pieces, n - 2), ("DUG", "TOOL"))
        on = _at(pieces, n + 1)
        if counted or on is None or not made.has("upon_plant", on.text):
            return 0
        end = behind = _vague(pieces, n + 2, made)
        while end and (piece := _at(pieces, behind)) is not None and linking(piece):
            behind += 1  # ".. em quase toda planta que eu arranquei"
        dug = is_any(_at(pieces, behind), ("DUG", "COLOUR"))
        return end if end and (_ends(_at(pieces, end)) or dug) else 0
    if _is_infested(pieces[n], made) and getattr(_at(pieces, n + 1), "text", "") in ("=", ":"):
        end = _vague(pieces, n + 2, made)
        return end if end and _ends(_at(pieces, end)) else 0
    end = _vague(pieces, n, made)
    last = _had_some(pieces, end, made) if end else None
    return last if last is not None and not is_any(pieces[last - 1], ("TOO_MANY",)) else 0


def _vague(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "half", "most of the plants" ends; 0 for no such word."""
    while (piece := _at(pieces, n)) is not None and made.has("determiner", piece.text):
        n += 1
    if piece is None or not made.has("vague_share", piece.text):
        return 0
    n += 1
    while (piece := _at(pieces, n)) is not None and (
        any(made.has(manner, piece.text) for manner in ("of_word", "of_plants", "determiner"))
    ):
        n += 1
    return n + is_any(piece, ("PLANTS",))


def told_as_share(pieces: list[Piece], made: Table) -> bool:
    """Is some fraction a share of the plants, and so no day: "3/10 hit"?"""
    return any(_fraction(pieces, n, made) is not None for n in range(len(pieces)))


def _is_infested(piece: Piece, made: Table) -> bool:
    """Is it a word for plants that have females?"""
    had = piece.types.get("HAD")
    return made.has("infest_word", piece.text) or (had is not None and had.value == "infested")


def _had(piece: Piece) -> bool:
    """ "(5 of 5) had (none)": a word for having, and none for females found."""
    had = piece.types.get("HAD")
    return had is not None and had.value != "infested"


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
