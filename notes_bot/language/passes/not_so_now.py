"""Facts of a field that are not so there and now: asked for, to come, of another time, or of something else.

"Are the plants yellow?", "the ground will be wet by Friday", "if they get wilted", "roots had been white before the
rain", "the corn is dry", "the beans next door look stunted": a clause that tells nothing but such a fact, and a word by
which it is not told of this field as it is. The clause is put aside; where a visit is told in it, only from its "if" or
"before" on. Counts have passes of their own (``asides.py``).
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece, number_told, piece_at
from notes_bot.language.lexicon.words import Table, anywhere, table
from notes_bot.model import Language

LONGEST_CLAUSE = 24
"""Pieces of the longest clause looked at (judgement)."""
LONGEST_CUE = 5
"""Words of the longest cue."""
FROM_SUBJECT = 5
"""Pieces from what is not the field to the verb: "the grass in the ditch (is)" (judgement)."""
NEAR_PLACE = 4
"""Pieces from the word for a place to the thing there: "near the propane (tank)" (judgement)."""
LEAST_ASKED = 3
"""Words of the shortest question: "R3?" is a doubt, and read (judgement)."""
_FACTS = ("TOP", "MOISTURE", "TEXTURE", "BANDS")
_OF_NOUNS = ("ROOT", "NODULE", "COLOUR")
_NOUNS = ("TOPS", "PLANTS", "ROOTS", "NODULES")
_VISIT = (
    *("FIELD", "FEMALES", "DUG", "TOOL", "NONE", "NOT_LOOKED", "TOO_MANY", "LOOK", "SPRAY", "CHEMICAL", "PLANTED"),
    *("CHECK", "MOSTLY", "SOAKED", "RESISTANCE", "VARIETY", "SOURCE", "UNDO", "CORRECT", "SKIP", "ENTRY", "PH"),
    *("POTASSIUM", "EACH", "TOTAL", "SAME", "ADD", "MUTE"),
)
"""Kinds of words with which more than a fact of the crop is told."""
_SPANS = ("UNIT", "AGO")


def facts_of_else(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with each clause that tells what is not so in the field now as an aside."""
    out: list[Piece] = []
    for begin, end, asked in _clauses(pieces):
        clause = pieces[begin:end]
        asked = asked and not _answered(pieces, end + 1, made)
        aside = _aside_in(clause, asked, made)
        if aside is None:
            out += clause
        else:
            first, last = aside
            out += clause[:first]
            out.append(Piece("aside", "", clause[first].start, clause[last - 1].end))
            out += clause[last:]
        out += pieces[end : end + 1]
    return out


def _clauses(pieces: list[Piece]) -> Iterator[tuple[int, int, bool]]:
    """Where each clause begins and ends, its stop left out, and whether its sentence ends in a question mark."""
    begin = 0
    for n, piece in enumerate([*pieces, Piece("line", "", 0, 0)]):
        if piece.kind in ("break", "line") or piece.text in ("?", "¿") or piece.text in anywhere("aside_but"):
            yield begin, n, piece.text == "?"
            begin = n + 1


def _aside_in(clause: list[Piece], asked: bool, made: Table) -> tuple[int, int] | None:
    """From and to where a clause is an aside; ``None`` for nowhere."""
    if not 0 < len(clause) <= LONGEST_CLAUSE or not any(_fact(clause, n) for n in range(len(clause))):
        return None
    words, at = _words(clause)
    for first in _cues(words, at, made, "else_if"):
        behind = clause[first:]
        end = next((n for n in range(len(behind)) if _of_visit(behind, n, made)), len(behind))
        if any(_fact(behind, n) for n in range(end)):
            return first, first + end
    if not _only_facts(clause, made):
        return None
    told = asked and len(words) >= LEAST_ASKED and _asks(words, made)
    told = told or any(True for _ in _cues(words, at, made, "else_awaited")) or _to_come(words, at, made)
    told = told or _then(words, at, made) or _of_others(clause, words, at, made)
    return (0, len(clause)) if told else None


def _answered(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "Se tem reboleira? Tem": does the answer follow?"""
    answer = piece_at(pieces, n)
    return answer is not None and made.has("else_yes", answer.text.split(" ")[0])


def _words(clause: list[Piece]) -> tuple[list[str], list[int]]:
    """The words of a clause, and the piece each is of; any number is 9."""
    words: list[str] = []
    at: list[int] = []
    for n, piece in enumerate(clause):
        said = ["9"] if number_told(piece) is not None else piece.text.split(" ")
        words += said
        at += [n] * len(said)
    return words, at


def _fact(clause: list[Piece], n: int) -> bool:
    """Does a piece tell a fact of the crop, its roots or its soil?"""
    piece = clause[n]
    if piece.kind == "stage" or is_any(piece, _FACTS):
        return True
    if not is_any(piece, _OF_NOUNS) or len(piece.text) < LEAST_ASKED:
        return False
    shade = is_any(piece, ("COLOUR",))
    return shade or any(is_any(other, ("ROOTS", "NODULES")) for other in clause)


def _only_facts(clause: list[Piece], made: Table) -> bool:
    """Is no visit told in it, no count, and no number but one of days?"""
    return not any(_of_visit(clause, n, made) for n in range(len(clause)))


def _of_visit(clause: list[Piece], n: int, made: Table) -> bool:
    """Does a piece tell of a visit or a count; not "next" of "next week", nor "should be"?"""
    piece, behind = clause[n], piece_at(clause, n + 1)
    if number_told(piece) is not None:
        return not is_any(behind, _SPANS)
    if piece.kind in ("series", "ratio", "range", "measure", "decimal"):
        return True
    if not is_any(piece, _VISIT) or _fact(clause, n) or "LINK" in piece.types or made.has("else_copula", piece.text):
        return False
    timed = f"{piece.text} {behind.text}" if behind is not None else piece.text
    said = _phrases(made.language, "else_in_time") | _phrases(made.language, "else_may_be")
    return said.isdisjoint((piece.text, timed))


@cache
def _phrases(language: Language, manner: str) -> frozenset[str]:
    return frozenset(table(language).traits.get(manner, ()))


def _cues(words: list[str], at: list[int], made: Table, manner: str) -> Iterator[int]:
    """The pieces at which a phrase of this manner begins, but for one that says otherwise ("if anything")."""
    told, other = _phrases(made.language, manner), _phrases(made.language, f"{manner}_but")
    for n in range(len(words)):
        runs = {" ".join(words[n : n + size]) for size in range(1, LONGEST_CUE + 1)}
        if not runs.isdisjoint(told) and runs.isdisjoint(other):
            yield at[n]


def _says(words: list[str], at: list[int], made: Table, manner: str) -> bool:
    return next(_cues(words, at, made, manner), None) is not None


def _asks(words: list[str], made: Table) -> bool:
    """Is it built as a question: "are the plants ..", "¿plantas están .."?"""
    opens = words[0] in _phrases(made.language, "else_question")
    return opens or (made.language != "en" and made.has_any("else_copula", words))


def _to_come(words: list[str], at: list[int], made: Table) -> bool:
    """ "Should be R4 next week", "could be wet by Friday": what may be, and when."""
    return _says(words, at, made, "else_may_be") and _says(words, at, made, "else_in_time")


def _then(words: list[str], at: list[int], made: Table) -> bool:
    """ "Roots were white last week", "two weeks ago the plants were wilted": what was, and when."""
    past = made.has_any("aside_past", words) or made.has_any("else_was", words)
    return past and any(_says(words, at, made, manner) for manner in ("aside_lately", "aside_once", "aside_month"))


def _of_others(clause: list[Piece], words: list[str], at: list[int], made: Table) -> bool:
    """ "The beans next door look stunted", "the corn is dry", "wet boots": what it is told of is not the field."""
    for n in _cues(words, at, made, "else_others"):
        if not _at_place(clause[max(0, n - 2) : n], made) and not _fact(clause, n):
            return True
    for n, piece in enumerate(clause):
        if not made.has("else_thing", piece.text.split(" ")[-1]) or _at_place([piece], made):
            continue
        before = clause[max(0, n - NEAR_PLACE) : n]
        if _at_place(before, made) or _named_before(clause, n, made):
            continue
        behind = range(n + 1, min(len(clause), n + 1 + FROM_SUBJECT))
        verb = next((k for k in behind if made.has_any("else_copula", clause[k].text.split(" "))), None)
        if verb is not None and not any(is_any(clause[k], _NOUNS) for k in range(n + 1, verb)):
            return True
        if made.language == "en" and n and _fact(clause, n - 1):
            return True
        if made.language != "en" and n + 1 < len(clause) and _fact(clause, n + 1):
            return True
    return False


def _at_place(pieces: list[Piece], made: Table) -> bool:
    """ "By the (road)", "like (the neighbor said)": is it where something is, or what it is like?"""
    return any(made.has_any("else_at", piece.text.split(" ")) for piece in pieces)


def _named_before(clause: list[Piece], n: int, made: Table) -> bool:
    """ "Beans yellow where the truck was": is the crop or its soil told of before it?"""
    return any(is_any(p, _NOUNS) or made.has_any("soil_word", p.text.split(" ")) for p in clause[:n])
