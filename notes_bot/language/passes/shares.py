"""So many of the plants had females: "one lone plant in six showed females", "2 pés com cisto e 4 limpos".

Each is written as "so many of so many plants infested", which says how many were dug and that females were seen, and
takes no share for a count of females.
"""

from __future__ import annotations

import itertools
import re
from dataclasses import replace

from notes_bot.language.lexicon.joining import in_figures, is_any, linking
from notes_bot.language.lexicon.pieces import Piece, count_told, ends_clause, piece_at
from notes_bot.language.lexicon.times import MOST_PLANTS
from notes_bot.language.lexicon.words import Entry, Table, anywhere

LONGEST_SHARE = 8
"""Pieces behind the first number in which the plants and what they had are looked for (judgement)."""
LABEL_OF_SHARE = 4
"""Pieces of a label before a share, "plants with females" (judgement)."""
LEAST_ANSWERS = 3
"""Answers of yes or no that are one a plant (judgement)."""
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
        if _so_many_had(pieces, n):
            pieces = [*pieces[:n], in_figures(pieces[n]), *pieces[n + 1 :]]
        if _plainly_negative(pieces, n, made):
            out.append(replace(pieces[n], entries=_NONE))
            n += 1
            continue
        share = _of_so_many(pieces, n, made) or _and_the_others(pieces, n, made) or _for_all(pieces, n, made)
        share = share or _upon(pieces, n, dug, made) or _under_label(pieces, n, made) or _found_on(pieces, n, dug, made)
        share = share or _but_one(pieces, n, dug, made) or _yes_and_no(pieces, n)
        if share is None and (each := _some_with_count(pieces, n, made)):
            told, n = each
            out += told
            continue
        if share is None and (end := _some_of_them(pieces, n, made)):
            out += _infested("1", pieces[n], pieces[end - 1])  # at least
            out += [piece for piece in pieces[n:end] if is_any(piece, ("DUG",))]
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


def _so_many_had(pieces: list[Piece], n: int) -> bool:
    """ "8 plants. (Six) had females, around 3 each": a word for a number, of plants with any."""
    k = n + 1
    while (piece := piece_at(pieces, k)) is not None and linking(piece) and k < n + 3 and "HAD" not in piece.types:
        k += 1
    had = piece.types.get("HAD") if piece is not None else None
    opens = ends_clause(piece_at(pieces, n - 1))
    return opens and is_any(pieces[n], ("NUMBER_WORD",)) and had is not None and had.value == "infested"


def _plainly_negative(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "6 plants, spade. NEG.", "dug 6 neg": negative as a clause of its own, or right behind digging."""
    if not made.has("negative_word", pieces[n].text) or not ends_clause(piece_at(pieces, n + 1)):
        return False
    before = piece_at(pieces, n - 1)
    opens = ends_clause(before) or before is None or before.kind == "sign" or is_any(before, ("FIELD", "DUG", "PLANTS"))
    dug = any(is_any(piece, ("PLANTS", "DUG")) for piece in pieces)
    return opens and dug and not any(p.types.keys() & {"LAB", "EGGS", "PH"} for p in pieces)


def _under_label(pieces: list[Piece], n: int, made: Table) -> tuple[int, int, int] | None:
    """ "Infested plants: 4 out of 12", "plants with females: 2 of 8", "plantas positivas 3 de 8"."""
    k, infested, plants = n, False, False
    while (piece := piece_at(pieces, k)) is not None and k < n + LABEL_OF_SHARE:
        plants = plants or is_any(piece, ("PLANTS",))
        infested = infested or _is_infested(piece, made) or is_any(piece, ("FEMALES",))
        if not (is_any(piece, ("PLANTS", "FEMALES")) or _is_infested(piece, made) or made.has("with_word", piece.text)):
            break
        k += 1
    k += piece is not None and piece.text in (":", "=", "-")
    if not (plants and infested) or k == n or count_told(pieces[n]) is not None:
        return None
    before = piece_at(pieces, n - 1)
    some, of, whole = count_told(piece_at(pieces, k)), piece_at(pieces, k + 1), count_told(piece_at(pieces, k + 2))
    free = before is None or before.kind in ("break", "line", "sign") or is_any(before, ("FIELD",))
    if some is None or whole is None or of is None or of.text not in anywhere("share_of") or not free:
        return None
    end = k + 3 + is_any(piece_at(pieces, k + 3), ("PLANTS",))
    fits = 0 <= some <= whole <= MOST_PLANTS and whole > 0
    return (some, whole, end) if fits and ends_clause(piece_at(pieces, end)) else None


def _found_on(pieces: list[Piece], n: int, dug: set[int | None], made: Table) -> tuple[int, int, int] | None:
    """ "Of the 10 plants .. found females on 3", "das 10 plantas .., em 3 achei fêmeas": so many of those dug."""
    wholes = {count for count in dug if count}
    if len(wholes) != 1:
        return None
    (whole,) = wholes
    if made.has("upon_plant", pieces[n].text):
        some = count_told(piece_at(pieces, n + 1))
        found = piece_at(pieces, n + 2)
        told = found is not None and made.has("counted", found.text) and is_any(piece_at(pieces, n + 3), ("FEMALES",))
        end = n + 4
    else:
        some = count_told(piece_at(pieces, n + 3))
        on = piece_at(pieces, n + 2)
        told = made.has("counted", pieces[n].text) and is_any(piece_at(pieces, n + 1), ("FEMALES",))
        told = told and on is not None and made.has("upon_plant", on.text)
        end = n + 4
    fits = told and some is not None and 0 < some <= whole and ends_clause(piece_at(pieces, end))
    fits = fits and _any_told_whole(pieces[max(0, n - LOOK_BACK) : n], made)
    return (some, whole, end) if fits and some is not None else None


LOOK_BACK = 40
"""Pieces before a share in which the number of all plants is looked for (judgement)."""


def _any_told_whole(pieces: list[Piece], made: Table) -> bool:
    """ "Of the 10 plants", "das 10 plantas": is a number of plants told behind a word for of?"""
    for n, piece in enumerate(pieces[:-1]):
        led = next((p for p in reversed(pieces[:n]) if not made.has("name_article", p.text)), None)
        of = led is not None and any(made.has("of_the", word) for word in (led.text, *led.text.split(" ")))
        if of and count_told(piece) and is_any(pieces[n + 1], ("PLANTS",)):
            return True
    return False


def _but_one(pieces: list[Piece], n: int, dug: set[int | None], made: Table) -> tuple[int, int, int] | None:
    """ "Except for one, the other 5 plants all had females", "6 pés, só um sem fêmea"."""
    if made.has("all_but", pieces[n].text):
        k = n + 1
        while (piece := piece_at(pieces, k)) is not None and (
            piece.text in anywhere("all_but_tail") or piece.text == ","
        ):
            k += 1
        without = count_told(piece)
        k += 1
        while (piece := piece_at(pieces, k)) is not None and count_told(piece) is None:
            joint = piece.text == "," or linking(piece) or is_any(piece, ("PLANTS",))
            if not (joint or made.has("other_word", piece.text) or made.has("determiner", piece.text)):
                return None
            k += 1
        others = count_told(piece)
        if not without or not others or not is_any(piece_at(pieces, k + 1), ("PLANTS",)):
            return None
        k += 2
        while (piece := piece_at(pieces, k)) is not None and is_any(piece, ("EACH", "MOSTLY", "HAD", "LINK")):
            k += 1
        return (others, others + without, k + 1) if is_any(piece, ("FEMALES",)) or _is_hit(piece, made) else None
    wholes = {count for count in dug if count}
    lone = made.has("lone_word", pieces[n].text) or is_any(pieces[n], ("MOSTLY",))
    some = count_told(piece_at(pieces, n + 1))
    clean = piece_at(pieces, n + 2)
    told = (
        is_any(clean, ("NONE",))
        and clean is not None
        and any(w in anywhere("without_word") for w in clean.text.split())
    )
    if not (lone and some and told and len(wholes) == 1):
        return None
    (whole,) = wholes
    return (whole - some, whole, n + 3) if some < whole and ends_clause(piece_at(pieces, n + 3)) else None


def _is_hit(piece: Piece | None, made: Table) -> bool:
    return piece is not None and _is_infested(piece, made)


def _yes_and_no(pieces: list[Piece], n: int) -> tuple[int, int, int] | None:
    """ "Yes yes no no yes no for cysts": a plant each."""
    k, told = n, []
    while (piece := piece_at(pieces, k)) is not None and (piece.text in (",", "/") or piece.text in anywhere("yes_no")):
        if piece.text in anywhere("yes_no"):
            told.append(piece.text in anywhere("yes_word"))
        k += 1
    if len(told) < LEAST_ANSWERS or not any(told):
        return None
    while (piece := piece_at(pieces, k)) is not None and linking(piece):
        k += 1
    k += is_any(piece, ("FEMALES",))
    return (sum(told), len(told), k) if ends_clause(piece_at(pieces, k)) else None


def _some_with_count(pieces: list[Piece], n: int, made: Table) -> tuple[list[Piece], int] | None:
    """ "1 in 6 with 3 females, rest nothing", "2 of 8 plants had 4 each, none on the rest": the sum on those dug."""
    some = count_told(pieces[n])
    k = n + 1 + is_any(piece_at(pieces, n + 1), ("PLANTS",))
    of = piece_at(pieces, k)
    if not some or of is None or of.text not in anywhere("share_of"):
        return None
    k += 1
    while (piece := piece_at(pieces, k)) is not None and made.has("determiner", piece.text):
        k += 1
    whole = count_told(piece)
    k += 1 + is_any(piece_at(pieces, k + 1), ("PLANTS",))
    had = piece_at(pieces, k)
    count = count_told(piece_at(pieces, k + 1))
    if not whole or not some < whole <= MOST_PLANTS or not is_any(had, ("HAD",)) or not count:
        return None
    k += 2
    noun = piece_at(pieces, k) if is_any(piece_at(pieces, k), ("FEMALES", "COLOUR")) else None
    k += noun is not None
    k += is_any(piece_at(pieces, k), ("FEMALES",))
    each = is_any(piece_at(pieces, k), ("EACH",))
    k += each
    end = rest_none(pieces, k, made)
    if not (each or some == 1) or not end:
        return None
    first, at = pieces[n], pieces[end - 1].end
    entries = noun.entries if noun is not None else (Entry("FEMALES", "female"),)
    return [
        Piece("number", str(whole), first.start, at, (), whole, first.spaced),
        Piece("word", "", at, at, _PLANTS),
        Piece("break", ",", at, at, (), "soft"),
        Piece("number", str(some * count), at, at, (), some * count),
        Piece("word", noun.text if noun is not None else "", at, at, entries),
    ], end


def rest_none(pieces: list[Piece], k: int, made: Table) -> int:
    """Where ", the rest nothing", ", none on the others" ends; 0 for no such words."""
    while (piece := piece_at(pieces, k)) is not None and (
        piece.text in (",", ";", "-") or piece.text in anywhere("and_then")
    ):
        k += 1
    if piece is None:
        return 0
    if made.has("rest_none", piece.text):
        return k + 1
    none = is_any(piece, ("NONE",)) or count_told(piece) == 0
    if none:
        k += 1
        while (piece := piece_at(pieces, k)) is not None and (linking(piece) or made.has("upon_plant", piece.text)):
            if made.has("rest_of_plants", piece.text):
                break
            k += 1
        return k + 1 if piece is not None and made.has("rest_of_plants", piece.text) else 0
    while (piece := piece_at(pieces, k)) is not None and made.has("group_article", piece.text):
        k += 1
    if piece is None or not made.has("rest_of_plants", piece.text):
        return 0
    k += 1
    while (piece := piece_at(pieces, k)) is not None and (is_any(piece, ("PLANTS", "HAD")) or linking(piece)):
        k += 1
    return k + 1 if piece is not None and (is_any(piece, ("NONE",)) or count_told(piece) == 0) else 0


def _infested(some: str, first: Piece, last: Piece) -> list[Piece]:
    """So many infested, in the place of what told it."""
    return [
        Piece("number", some, first.start, last.end, (), int(some), first.spaced),
        Piece("word", "infested", last.end, last.end, _INFESTED),
    ]


def _of_so_many(pieces: list[Piece], n: int, made: Table) -> tuple[int, int, int] | None:
    """ "One plant out of 10 with any cysts", "una sola mata de las 5 traía bolitas", "3/10 pos", "pos 3/10"."""
    if fraction := _fraction(pieces, n, made):
        return fraction
    some = count_told(pieces[n])
    if some is None or not 0 <= some <= MOST_PLANTS:
        return None
    k, between = n + 1, False
    while (piece := piece_at(pieces, k)) is not None and k < n + 4:
        if not (is_any(piece, ("PLANTS",)) or made.has("lone_word", piece.text)):
            break
        between, k = True, k + 1
    of = piece_at(pieces, k)
    if of is None or of.text not in anywhere("share_of"):
        return None
    k += 1
    while (piece := piece_at(pieces, k)) is not None and made.has("determiner", piece.text):
        k += 1
    whole = count_told(piece)
    if not whole or not some <= whole <= MOST_PLANTS:
        return None
    k += 1
    plants = is_any(piece_at(pieces, k), ("PLANTS",))
    k += plants
    end = _had_some(pieces, k, made)
    clean = k
    while (piece := piece_at(pieces, clean)) is not None and piece.kind == "word" and (linking(piece) or _had(piece)):
        clean += 1
    without = clean + (piece is not None and (is_any(piece, ("NONE",)) or made.has("negative_word", piece.text)))
    if end is None and 0 < some <= whole and without > clean and ends_clause(piece_at(pieces, without)):
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
        return None if is_any(piece_at(pieces, at + 1), ("PLANTS", "COLOUR", "FEMALES")) else (some, whole, at + 1)
    k = at + 1 + is_any(piece_at(pieces, at + 1), ("PLANTS",))
    word = piece_at(pieces, k)
    return (some, whole, k + 1) if word is not None and _is_infested(word, made) else None


_IN_SEASON = {"en": range(5, 10), "es": (11, 12, 1, 2, 3), "pt": (11, 12, 1, 2, 3)}
"""Months in which people dig: "cysts on 7/8" may be a day then (judgement)."""


def _upon(pieces: list[Piece], n: int, dug: set[int | None], made: Table) -> tuple[int, int, int] | None:
    """ "Cysts on 2/6 pl": females, a word for on, and a fraction that is no day of the season, or of the plants dug."""
    if not is_any(pieces[n], ("FEMALES",)) or (
        n and count_told(pieces[n - 1]) is not None and pieces[n - 1].value != 0
    ):
        return None
    on, piece = piece_at(pieces, n + 1), piece_at(pieces, n + 2)
    if on is None or piece is None or not (made.has("upon_plant", on.text) or made.has("share_in", on.text)):
        return None
    if piece.kind not in ("day", "ratio") or not re.fullmatch(r"\d{1,2}/\d{1,2}", piece.text):
        return None
    some, whole = (int(part) for part in piece.text.split("/"))
    if not 0 <= some <= whole <= MOST_PLANTS or not whole:
        return None
    plants = is_any(piece_at(pieces, n + 3), ("PLANTS",))
    month = some if made.language == "en" else whole
    if month in _IN_SEASON[made.language] and not plants and whole not in dug:
        return None
    return some, whole, n + 3 + plants


def _some_of_them(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "half pos", "most w/ cysts", "cysts on half" ends: some had females, and nobody says how many; or 0."""
    before = piece_at(pieces, n - 1)
    if before is not None and (made.denies(before.text) or is_any(before, ("NOT",))):
        return 0
    if is_any(pieces[n], ("FEMALES",)):
        counted = count_told(before) is not None and not is_any(piece_at(pieces, n - 2), ("DUG", "TOOL"))
        on = piece_at(pieces, n + 1)
        if counted or on is None or not made.has("upon_plant", on.text):
            return 0
        end = behind = _vague(pieces, n + 2, made)
        while end and (piece := piece_at(pieces, behind)) is not None and linking(piece):
            behind += 1  # ".. em quase toda planta que eu arranquei"
        dug = is_any(piece_at(pieces, behind), ("DUG", "COLOUR"))
        return end if end and (ends_clause(piece_at(pieces, end)) or dug) else 0
    if _each_had(pieces, n):
        return n + 2
    if _is_infested(pieces[n], made) and getattr(piece_at(pieces, n + 1), "text", "") in ("=", ":"):
        end = _vague(pieces, n + 2, made)
        return end if end and ends_clause(piece_at(pieces, end)) else 0
    end = _vague(pieces, n, made)
    last = _had_some(pieces, _that_were_dug(pieces, end), made) if end else None
    return last if last is not None and not is_any(pieces[last - 1], ("TOO_MANY",)) else 0


def _each_had(pieces: list[Piece], n: int) -> bool:
    """ "Every plant had females", "cada planta tenía hembras": on each of them, and no number is told."""
    each, what, behind = pieces[n], piece_at(pieces, n + 1), piece_at(pieces, n + 2)
    told = is_any(each, ("EACH",)) and " " in each.text and is_any(what, ("FEMALES",))
    open_end = ends_clause(behind) or (behind is not None and behind.text in anywhere("contrast"))
    return told and open_end and count_told(piece_at(pieces, n - 1)) is None


def _vague(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "half", "most of the plants" ends; 0 for no such word."""
    while (piece := piece_at(pieces, n)) is not None and made.has("determiner", piece.text):
        n += 1
    before = piece_at(pieces, n - 1)
    opens = ends_clause(before) or is_any(before, ("FIELD",))  # "no todas las plantas tienen hembras"
    if piece is None or not (made.has("vague_share", piece.text) or (opens and made.has("the_plants", piece.text))):
        return 0
    n += 1
    while (piece := piece_at(pieces, n)) is not None and (
        any(made.has(manner, piece.text) for manner in ("of_word", "of_plants", "determiner", "the_plants"))
    ):
        n += 1
    return n + is_any(piece, ("PLANTS",))


def _that_were_dug(pieces: list[Piece], n: int) -> int:
    """Where "que tirei" behind "todas as plantas" ends; the place itself where nothing of the kind follows."""
    that = piece_at(pieces, n)
    told = that is not None and that.text in anywhere("that_word") and is_any(piece_at(pieces, n + 1), ("DUG",))
    return n + 2 if told else n


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


def _had_some(pieces: list[Piece], k: int, made: Table) -> int | None:
    """Where "with any cysts", "tava com cisto" ends; ``None`` where a number of females is told, or nothing."""
    start, had = k, False
    while (piece := piece_at(pieces, k)) is not None and k < start + LONGEST_SHARE:
        if count_told(piece) is not None or piece.kind in ("break", "line", "stage", "day"):
            return None
        if _is_infested(piece, made):
            return k + 1
        if is_any(piece, _FEMALES):
            return k + 1 if had else None
        if is_any(piece, ("HAD",)) or made.has("counted", piece.text) or made.has("group_verb", piece.text):
            had = True
        elif piece.text == "w" and getattr(piece_at(pieces, k + 1), "text", "") == "/":
            had, k = True, k + 1  # "3 of 12 w/ cysts"
        elif not (linking(piece) or made.has("any_word", piece.text) or made.has("determiner", piece.text)):
            return None
        k += 1
    return None


def _and_the_others(pieces: list[Piece], n: int, made: Table) -> tuple[int, int, int] | None:
    """ "2 plants had cysts, other 4 nothing": with females and without, together the plants dug."""
    some = count_told(pieces[n])
    if some is None or not 0 < some <= MOST_PLANTS or not is_any(piece_at(pieces, n + 1), ("PLANTS",)):
        return None
    end = _had_some(pieces, n + 2, made)
    if end is None:
        return None
    k = end
    while (piece := piece_at(pieces, k)) is not None and k < end + 4 and count_told(piece) is None:
        joint = piece.text == "," or linking(piece) or made.has("rest_word", piece.text)
        if not (joint or made.has("other_word", piece.text) or made.has("determiner", piece.text)):
            return None
        k += 1
    others = count_told(piece)
    k += 1
    k += is_any(piece_at(pieces, k), ("PLANTS",))
    while (piece := piece_at(pieces, k)) is not None and linking(piece):
        k += 1
    if others is None or not 0 < others <= MOST_PLANTS or not is_any(piece, ("NONE",)):
        return None
    return some, some + others, k + 1


def _for_all(pieces: list[Piece], n: int, made: Table) -> tuple[int, int, int] | None:
    """ "6 for 6 on cysts"."""
    some, joint, whole = count_told(pieces[n]), piece_at(pieces, n + 1), count_told(piece_at(pieces, n + 2))
    if some is None or whole is None or joint is None or not made.has("for_share", joint.text):
        return None
    if not 0 <= some <= whole <= MOST_PLANTS or not whole:
        return None
    k = n + 3
    while (piece := piece_at(pieces, k)) is not None and linking(piece) and k < n + 6:
        k += 1
    told = piece is not None and (is_any(piece, ("FEMALES", "HAD")) or made.has("infest_word", piece.text))
    return (some, whole, k + 1) if told else None
