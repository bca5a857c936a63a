"""What is told beside a count and counts nothing: "6 white (4 of them on a single plant)", "two of them were dirt".

"Same number" beside what was found ("Tinkers, same number and same spade, had none") is so many plants as before.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from notes_bot.language.lexicon.joining import is_any, number_like
from notes_bot.language.lexicon.pieces import Piece, count_told, ends_clause, piece_at, put_aside
from notes_bot.language.lexicon.words import Entry, Table

LONGEST_PHRASE = 5
"""Words of the longest phrase for one plant (judgement)."""
LONGEST_CLAUSE = 14
"""Pieces of the longest clause looked at (judgement)."""
_LINK = (Entry("LINK", "link"),)
_PLANT = (Entry("PLANTS", "plants"),)
_COUNTED = ("COLOUR", "FEMALES")


def upon_one_plant(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "6 white (4 of them on a single plant)", "2 white, both on the same plant": part of the count before it."""
    return put_aside(pieces, lambda n: _upon_one(pieces, n, made))


def _upon_one(pieces: list[Piece], n: int, made: Table) -> int:
    """Where such a clause ends; 0 for any other."""
    if n == 0 or pieces[n - 1].text not in (",", "(", "-", ";") or not _counted_before(pieces, n):
        return 0
    end = _clause_end(pieces, n)
    return end if _part_of_it(pieces[n:end], made, pieces[n - 1].text == "(") else 0


def only_so_many(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Deu uma fêmea bege só", "3 hembras blancas nomás": "only" behind a count says that there were no more."""
    out = list(pieces)
    for n, piece in enumerate(pieces):
        ends = n + 1 == len(pieces) or pieces[n + 1].kind in ("break", "line")
        if n and ends and is_any(piece, ("MOSTLY",)) and made.has("nothing_more", piece.text):
            k = n - 1
            while k and is_any(pieces[k], _COUNTED):
                k -= 1
            if k < n - 1 and count_told(pieces[k]) is not None:
                out[n] = Piece("word", piece.text, piece.start, piece.end, _LINK, None, piece.spaced)
    return out


def _clause_end(pieces: list[Piece], n: int) -> int:
    """Where the clause ends that begins at n."""
    end = n
    while end < len(pieces) and pieces[end].kind not in ("break", "line"):
        end += 1
    return end


LONG_SENTENCE = 80
"""Pieces of a sentence before that are looked at, at most (judgement)."""


def _counted_before(pieces: list[Piece], n: int) -> bool:
    """Are females counted in the sentence before?"""
    for k in range(n - 1, max(0, n - LONG_SENTENCE), -1):
        if pieces[k].kind == "line" or pieces[k].value == "hard":
            return False
        if is_any(pieces[k], _COUNTED) and (number_like(pieces[k - 1]) or is_any(pieces[k - 1], _COUNTED)):
            return True
    return False


def _part_of_it(clause: list[Piece], made: Table, bracket: bool) -> bool:
    """ "4 of them on a single plant", "most of them on one plant", in brackets also "4 on one plant"."""
    if not clause or len(clause) > LONGEST_CLAUSE:
        return False
    counted = count_told(clause[0]) is not None
    words = " ".join(piece.text for piece in clause[1:] if piece.text).split(" ")
    head = clause[0].text.split(" ")
    if not counted:
        words = [*head, *words]
        most = _begins(words, made, "whole_of_count")
        if not most:
            return False
        words = words[most:]
    of_them = _begins(words, made, "part_of_count")
    words = words[of_them:]
    while words and made.has("were_told", words[0]):
        words = words[1:]
    upon = _begins(words, made, "on_one_plant")
    rest = words[upon:]
    plain = not any(number_like(piece) for piece in clause[len(clause) - len(rest) :]) if rest else True
    return bool(upon) and plain and (not counted or bool(of_them) or bracket)


def _begins(words: list[str], made: Table, manner: str) -> int:
    """How many words at the head are a phrase of a manner."""
    sizes = range(min(LONGEST_PHRASE, len(words)), 0, -1)
    return next((size for size in sizes if made.has(manner, " ".join(words[:size]))), 0)


def found_by_one(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "12 white. My sister found 7 of them", "3 white (i found 2 of them)": whose eyes saw a part of the count."""
    return put_aside(pieces, lambda n: _found_by_one(pieces, n, made))


def _found_by_one(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "found eleven of them" ends, somebody named before it and more counted than that; 0 for none."""
    verb, number = pieces[n], piece_at(pieces, n + 1)
    who = pieces[n - 1].text if n else ""
    part = count_told(number)
    person = made.has("talk_person_digs", who) or made.has("talk_person_digs", verb.text.split(" ")[0])
    if part is None or not person or not made.has("counted", verb.text.split(" ")[-1]):
        return 0
    of_them = _begins([piece.text for piece in pieces[n + 2 : n + 4]], made, "part_of_count")
    end = n + 2 + of_them
    if not of_them or not ends_clause(piece_at(pieces, end)):
        return 0
    counted = (count_told(a) for a, b in pairwise(pieces[:n]) if is_any(b, _COUNTED) or made.has("counted", b.text))
    return end if any(count is not None and count >= part for count in counted) else 0


def dug_and_found(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Seven dug and fourteen found" as "seven dug, fourteen females"."""
    for n in range(len(pieces) - 4):
        plants, dug, joint, number, found = pieces[n : n + 5]
        told = count_told(plants) is not None and is_any(dug, ("DUG",)) and count_told(number) is not None
        joined = made.has("and_word", joint.text) or joint.value == "soft"
        if told and joined and made.has("counted", found.text) and ends_clause(piece_at(pieces, n + 5)):
            at = found.end
            comma = Piece("break", ",", joint.start, joint.end, value="soft")
            females = Piece("word", found.text, found.start, at, (Entry("FEMALES", "female"),))
            return [*pieces[: n + 2], comma, number, females, *pieces[n + 5 :]]
    return pieces


def more_than(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "More white than yellow" as "mostly white and yellow"; "more yellow than anything" as "mostly yellow"."""
    out = list(pieces)
    for n in range(len(pieces) - 3):
        more, shade, than, other = pieces[n : n + 4]
        compared = (
            made.has("more_word", more.text) and made.has("talk_than_word", than.text) and is_any(shade, ("COLOUR",))
        )
        if not compared or _number_ahead(pieces, n):
            continue
        mostly = Piece("word", more.text, more.start, more.end, (Entry("MOSTLY", "mostly"),))
        if is_any(other, ("COLOUR",)):
            out[n], out[n + 2] = mostly, Piece("word", "and", than.start, than.end, _LINK)
        elif made.has("talk_anything_word", other.text):
            out[n] = mostly
            out[n + 2 : n + 4] = [Piece("word", p.text, p.start, p.end, _LINK) for p in (than, other)]
    return out


def _number_ahead(pieces: list[Piece], n: int) -> bool:
    """ "Four that were (more yellow than white)": a number before it in its clause that no word counts yet."""
    while n and not ends_clause(pieces[n - 1]):
        n -= 1
        if number_like(pieces[n]):
            return True
        if is_any(pieces[n], ("PLANTS", "FEMALES", "COLOUR", "FIELD")):
            return False
    return False


def counted_behind_dug(pieces: list[Piece]) -> list[Piece]:
    """ "8 plants too, dug, 13, mostly yellow": the plants stand before "dug", so what stands behind it was found."""
    for n in range(1, len(pieces) - 3):
        dug, comma, number, stop = pieces[n : n + 4]
        row = is_any(dug, ("DUG",)) and comma.value == "soft" and number_like(number) and stop.value == "soft"
        if not row or pieces[n - 1].value != "soft":
            continue
        begin = n - 1
        while begin and not ends_clause(pieces[begin - 1]):
            begin -= 1
        plants = any(
            is_any(p, ("PLANTS",)) and number_like(pieces[k - 1]) for k, p in enumerate(pieces[:n]) if k > begin
        )
        shaded = any(is_any(p, ("COLOUR",)) for p in pieces[n + 4 : n + 7]) and not number_like(piece_at(pieces, n + 4))
        if plants and shaded:
            females = Piece("word", "", number.end, number.end, (Entry("FEMALES", "female"),))
            return [*pieces[: n + 3], females, *pieces[n + 3 :]]
    return pieces


_TOLD = frozenset(
    {"COLOUR", "FEMALES", "PLANTS", "NONE", "SPOT", "CHECK", "TOPS", "TOP", "ROOT", "ROOTS", "NODULES", "NODULE", "HAD"}
    | {"DUG", "NOT_LOOKED", "TOO_MANY", "FIELD", "MOISTURE", "TEXTURE", "stage", "day", "MOSTLY", "SOAKED"}
)
"""What a clause of some of the females tells where it is a datum."""


def of_them_told(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "15 white, not 17. Two of them turned out to be dirt.": words about some of them, and nothing we know."""
    return put_aside(pieces, lambda n: _of_them(pieces, n, made))


def _of_them(pieces: list[Piece], n: int, made: Table) -> int:
    """Where such a clause ends; 0 for any other."""
    opens = n == 0 or pieces[n - 1].kind == "line" or pieces[n - 1].value == "hard"
    end = _clause_end(pieces, n) if opens else n
    run = pieces[n + 1 : end]
    if not run or count_told(pieces[n]) is None:
        return 0
    words = " ".join(piece.text for piece in run).split(" ")
    earth = made.has_any("of_earth", words) and not any(map(number_like, run))  # "were only specks of dirt"
    of_them = _begins(words, made, "part_of_count")
    return end if 0 < of_them < len(words) - 1 and (earth or not any(map(_tells, run))) else 0


def those_counted(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "The white ones, nine of those. Two of those, yellow": females pointed at as "of them", where a clause ends."""
    out = list(pieces)
    for n in range(2, len(pieces)):
        points = made.has("those_plants", pieces[n].text) and made.has("of_word", pieces[n - 1].text)
        if points and count_told(pieces[n - 2]) is not None and ends_clause(piece_at(pieces, n + 1)):
            out[n] = replace(pieces[n], entries=_LINK)
    return out


def roots_of_some(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Em 4 delas a raiz partiu", "4 of them the roots snapped": only what the roots are is told."""
    for n, piece in enumerate(pieces):
        if count_told(piece) is None or not _opens(pieces, n, made):
            continue
        words = [p.text for p in pieces[n + 1 : n + 3]]
        of_them = _begins(words, made, "part_of_count")
        clause = pieces[n + 1 + of_them : _clause_end(pieces, n)]
        roots = any(is_any(p, ("ROOTS", "ROOT")) for p in clause)
        others = any(is_any(p, ("COLOUR", "FEMALES", "NONE", "TOO_MANY")) or number_like(p) for p in clause)
        if of_them and roots and not others:
            return [*pieces[:n], *pieces[n + 1 + of_them :]]
    return pieces


def _opens(pieces: list[Piece], n: int, made: Table) -> bool:
    """Does a clause begin there, a word for "on" between?"""
    before = n - 1 - (n > 0 and made.has("upon_plant", pieces[n - 1].text))
    return before < 0 or pieces[before].kind in ("break", "line") or made.has("and_word", pieces[before].text)


def females_on_some(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Females on 7 of them" as "7 of them had females": how many of the plants had any."""
    for n in range(len(pieces) - 3):
        females, upon, number = pieces[n : n + 3]
        first = n - (n > 0 and is_any(pieces[n - 1], ("COLOUR",)))  # "white females on 3 of them"
        before = pieces[first - 1] if first else None
        counted = before is not None and (number_like(before) or is_any(before, ("COLOUR", "NONE", "TOO_MANY", "NOT")))
        told = (
            is_any(females, ("FEMALES", "COLOUR"))
            and made.has("upon_plant", upon.text)
            and count_told(number) is not None
        )
        words = [p.text for p in pieces[n + 3 : n + 5]]
        of_them = _begins(words, made, "part_of_count")
        if told and not counted and of_them:
            at = pieces[n + 2 + of_them].end
            had = Piece("word", "had", at, at, (Entry("HAD", "had"),))
            some = [Piece("word", p.text, at, at, p.entries) for p in pieces[first : n + 1]]
            return [*pieces[:first], *pieces[n + 2 : n + 3 + of_them], had, *some, *pieces[n + 3 + of_them :]]
    return pieces


def _tells(piece: Piece) -> bool:
    """Is it a number, or of a kind that a note tells?"""
    return number_like(piece) or piece.kind in _TOLD or is_any(piece, tuple(_TOLD))


def check_mentioned(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "I had them leave a check strip by the fence. East: .. Check strip: ..": only its own line is the strip."""
    checks = [n for n, piece in enumerate(pieces) if is_any(piece, ("CHECK",))]
    heads = [
        n for n in checks if n and pieces[n - 1].kind == "line" and n + 1 < len(pieces) and pieces[n + 1].text == ":"
    ]
    if not heads or len(checks) == len(heads):
        return pieces
    out = list(pieces)
    for n in reversed([n for n in checks if n < heads[0]]):
        begin = n
        while begin and pieces[begin - 1].kind not in ("break", "line"):
            begin -= 1
        end = _clause_end(pieces, n)
        clause = pieces[begin:end]
        left = any(made.has("leaves_strip", piece.text.split(" ")[0]) for piece in clause[: n - begin])
        if left and not any(number_like(piece) or is_any(piece, ("FIELD",)) for piece in clause):
            out[begin:end] = [Piece("aside", "", clause[0].start, clause[-1].end)]
    return out


def gone_on_day(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "I went on Monday, once the rain had quit.": somebody went, and nothing was sprayed."""
    if any(is_any(piece, ("CHEMICAL",)) for piece in pieces):
        return pieces
    out = list(pieces)
    for n in range(1, len(pieces) - 1):
        day = pieces[n + 1].kind == "day" or is_any(pieces[n + 1], ("WEEKDAY", "MONTH", "TODAY"))
        goes = pieces[n].text.split(" ")[0] in made.traits.get("gone", frozenset()) and is_any(pieces[n], ("SPRAY",))
        if day and goes and made.has("who_goes", pieces[n - 1].text):
            out[n] = Piece("word", pieces[n].text, pieces[n].start, pieces[n].end, _LINK, None, pieces[n].spaced)
    return out


def same_number(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Tinkers, same number and same spade, had none": the same plants, where something was found on them."""
    out: list[Piece] = []
    for n, piece in enumerate(pieces):
        before = pieces[n - 1] if n else None
        number = before is not None and made.has("same_bare", before.text) and made.has("how_many_word", piece.text)
        out.append(piece)
        if number and _found_of_it(pieces, n):
            out[-1] = Piece("word", piece.text, piece.start, piece.end, _PLANT, None, piece.spaced)
    return out


def _found_of_it(pieces: list[Piece], n: int) -> bool:
    """Is it told in the sentence what was found, and no plants?"""
    found = False
    for piece in pieces[n + 1 :]:
        if piece.kind == "line" or piece.value == "hard" or is_any(piece, ("FIELD", "PLANTS")):
            break
        found = found or is_any(piece, ("NONE", *_COUNTED))
    behind = pieces[n + 1] if n + 1 < len(pieces) else None
    return found and not is_any(behind, ("PLANTS", *_COUNTED)) and getattr(behind, "text", "") != "of"
