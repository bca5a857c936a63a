"""Facts of a field that are not so there and now: asked for, to come, of another time, or of something else.

"Are the plants yellow?", "the ground will be wet by Friday", "if they get wilted", "roots had been white before the
rain", "the corn is dry", "the beans next door look stunted", "no fungicide on it", "next year a resistant bean", "won't
be back Friday": a clause that tells nothing but facts of one matter, and a word by which they are not told of this
field as it is. The clause is put aside; where a visit is told in it, only from its "if" or "before" on. Counts have
passes of their own (``asides.py``), and so have signs that are denied (``denied_signs.py``).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
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
NEAR_LIKENED = 2
"""Words before another time in which it is said that it is only held against it (judgement)."""
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
NEAR_DENIAL = 6
"""Pieces from a denial to the spray it denies (judgement)."""
_OTHERWISE = {"else_if": "else_if_but", "else_awaited": "else_awaited_but"}
"""Manners of phrases that begin like those of another and say otherwise: "if anything", "will be back"."""
MOST_DENIED = 6
"""Words from a denial to what it denies: "I don't think we need to come back (Friday)" (judgement)."""


@dataclass(frozen=True, slots=True)
class _Matter:
    """What may be told in one clause, by its kinds of words, and by what it is known not to be so."""

    kinds: frozenset[str]
    cues: str
    """Manner of the words by which it is yet to come, beside those common to all."""
    times: tuple[str, ...]
    """Manners of words for another time."""
    past: bool = True
    """Must it be said, too, that it was so then?"""
    before: bool = True
    """Does what stands before such a word stand? "Fungicide Monday, will see"; not "resistant ones cost more"."""
    denied: Callable[[list[Piece], Table], bool] | None = None


def _undone(clause: list[Piece], made: Table) -> bool:
    """ "No fungicide on it", "todavía no se aplicó", "fungicide was not applied": is the spray itself denied?

    Little words alone stand between the denial and the spray, or behind the denial: "sprayed Monday, no sign" was done.
    """
    if made.has_any("else_denied_but", _runs(_words(clause)[0])):
        return False
    for n in (n for n, piece in enumerate(clause) if any(map(made.denies, piece.text.split(" ")))):
        behind = clause[n + 1 : n + 1 + NEAR_DENIAL]
        told = next((k for k, piece in enumerate(behind) if _sprays(piece)), None)
        if told is not None and all(_undone_little(piece, made) for piece in behind[:told]):
            return True
        more = [piece for piece in clause[n + 1 :] if not _undone_little(piece, made)]
        if _sprays(clause[n]) or (n and not more and not clause[n].types.get("TEXT")):
            return True  # "(herbicide yesterday) no sign posted" is text
    return False


def _sprays(piece: Piece) -> bool:
    return is_any(piece, ("SPRAY", "CHEMICAL"))


def _undone_little(piece: Piece, made: Table) -> bool:
    """ "(Didn't) get its (fungicide)", "(fungicide has not been) put on yet": a word that tells nothing of its own."""
    words = piece.text.split(" ")
    return _sprays(piece) or all(made.has("else_spray_between", word) for word in words)


def _not_again(clause: list[Piece], made: Table) -> bool:
    """ "Won't be back Friday", "no need to look again": little words alone from a denial to the next look?"""
    words, _ = _words(clause)
    if made.has_any("else_denied_but", _runs(words)):
        return False
    told = " ".join(piece.text if not is_any(piece, ("LOOK",)) else f"{piece.text} <look>" for piece in clause).split()
    for n in (k for k, word in enumerate(told) if made.denies(word)):
        behind = told[n + 1 : n + 1 + MOST_DENIED]
        until = behind.index("<look>") if "<look>" in behind else -1
        if until >= 0 and all(made.has("else_look_between", word) for word in behind[: until - 1]):
            return True
    return False


_LONG_AGO = ("aside_once",)
_THEN = ("aside_lately", "aside_once", "aside_month")
_MATTERS = (
    _Matter(frozenset({*_FACTS, *_OF_NOUNS}), "else_crop_awaited", _THEN),
    _Matter(frozenset({"SPRAY", "CHEMICAL"}), "else_spray_awaited", _LONG_AGO, past=False, denied=_undone),
    _Matter(frozenset({"RESISTANCE", "VARIETY", "SOURCE"}), "else_seed_awaited", _LONG_AGO, past=False, before=False),
    _Matter(frozenset({"DUG", "TOOL", "SOAKED"}), "else_dig_awaited", _THEN, before=False),
    _Matter(frozenset({"LOOK"}), "else_never", (), denied=_not_again),
)
"""In the order they are tried; a clause that tells of two matters is read as it stands."""


def facts_of_else(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with each clause that tells what is not so in the field now as an aside."""
    said = set(" ".join([piece.text for piece in pieces]).split(" "))
    if said.isdisjoint(_keys(made.language)) and not any(map(made.denies, said)):
        return pieces
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


@cache
def _keys(language: Language) -> frozenset[str]:
    """The longest word of every cue, without which it cannot be told, and the question mark."""
    traits = table(language).traits
    cues = (phrase for manner in _CUES for phrase in traits.get(manner, ()))
    return frozenset({"?", *(max(phrase.split(" "), key=len) for phrase in cues)})


_CUES = (
    *("else_if", "else_awaited", "else_crop_awaited", "else_spray_awaited", "else_seed_awaited", "else_dig_awaited"),
    *("else_spray_goes", "else_spray_named", "else_may_be", "else_others", "else_thing", "other_crop"),
    *("aside_lately", "aside_once", "aside_month"),
)
"""Manners of words by which something is known not to be so."""


def _clauses(pieces: list[Piece]) -> Iterator[tuple[int, int, bool]]:
    """Where each clause begins and ends, its stop left out, and whether its sentence ends in a question mark."""
    begin = 0
    for n, piece in enumerate([*pieces, Piece("line", "", 0, 0)]):
        if piece.kind in ("break", "line") or piece.text in ("?", "¿") or piece.text in anywhere("aside_but"):
            yield begin, n, piece.text == "?"
            begin = n + 1


def _aside_in(clause: list[Piece], asked: bool, made: Table) -> tuple[int, int] | None:
    """From and to where a clause is an aside; ``None`` for nowhere."""
    if not 0 < len(clause) <= LONGEST_CLAUSE:
        return None
    told = {n: _matter_of(clause, n) for n in range(len(clause))}
    matters = [matter for matter in _MATTERS if matter in told.values()]
    for first in _cues(*_words(clause), made, "else_if") if matters else ():
        for matter in matters:
            if "LOOK" in matter.kinds or "DUG" in matter.kinds or _asked_about(clause, first):
                continue
            end = next((n for n in range(first, len(clause)) if _ends_if(clause, n, matter, made)), len(clause))
            if any(told[n] is matter for n in range(first, end)):
                return first, end
    for matter in matters:
        if any(_of_visit(clause, n, matter, made) for n in range(len(clause))):
            continue
        facts = [n for n, other in told.items() if other is matter]
        if _not_so(clause, facts, matter, asked, made):
            return 0, len(clause)
        begins = _awaited_from(clause, matter, made)
        if begins is None or (matter.before and facts[-1] <= begins > facts[0]):
            return None
        return (0, len(clause)) if not matter.before or facts[0] >= begins else (begins, len(clause))
    return None


def _awaited_from(clause: list[Piece], matter: _Matter, made: Table) -> int | None:
    """Where it begins that something is yet to come: "ground wet, | hope it gets dry"; ``None`` for nowhere.

    What stands before it is so: "fungicide on Monday, hopefully it works".
    """
    words, at = _words(clause)
    if "LOOK" in matter.kinds:
        return None
    if "DUG" in matter.kinds and any(_timed(piece) for piece in clause):
        return None  # "will dig some Friday" is a next look
    cues = [n for manner in {matter.cues, "else_awaited"} for n in _cues(words, at, made, manner)]
    if _says(words, at, made, "else_in_time"):
        cues += _cues(words, at, made, "else_may_be")  # "should be R4 next week"
    return min(cues, default=None)


def _timed(piece: Piece) -> bool:
    return piece.kind == "day" or is_any(piece, ("WEEKDAY", "UNIT", "MONTH"))


def _asked_about(clause: list[Piece], first: int) -> bool:
    """ "Back (if it is R3)", "not sure (if the brown was a cyst)": a next look without its day, a female: asked."""
    looks = any(is_any(piece, ("LOOK",)) for piece in clause[:first])
    timed = any(piece.kind == "day" or is_any(piece, ("UNIT", "WEEKDAY")) for piece in clause)
    return (looks and not timed) or any(is_any(piece, ("FEMALES",)) for piece in clause[first:])


def _ends_if(clause: list[Piece], n: int, matter: _Matter, made: Table) -> bool:
    """ "Before the heat came | and dug half a dozen": does what is supposed end there?"""
    return _of_visit(clause, n, matter, made) or made.has("and_word", clause[n].text)


def _not_so(clause: list[Piece], facts: list[int], matter: _Matter, asked: bool, made: Table) -> bool:
    """Is all that a clause tells of one matter denied, asked, of another time or of something else?"""
    words, at = _words(clause)
    if matter.denied is not None and matter.denied(clause, made):
        return True
    if "LOOK" in matter.kinds or ("DUG" in matter.kinds and any(_timed(piece) for piece in clause)):
        return False
    if "SPRAY" in matter.kinds and _only_named(clause, words, at, made):
        return True
    if "DUG" in matter.kinds:
        return _then(words, at, facts, matter, made)
    told = asked and len(words) >= LEAST_ASKED and _asks(words, made)
    return told or _then(words, at, facts, matter, made) or _of_others(clause, words, at, made)


def _only_named(clause: list[Piece], words: list[str], at: list[int], made: Table) -> bool:
    """ "Fungicide is going on next week", "herbicide jug in the ditch": named, and nobody tells that it was sprayed."""
    done = any(_timed(p) or (is_any(p, ("SPRAY", "AGO", "TODAY")) and not is_any(p, ("CHEMICAL",))) for p in clause)
    return (not done and _says(words, at, made, "else_spray_named")) or _says(words, at, made, "else_spray_goes")


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


def _matter_of(clause: list[Piece], n: int) -> _Matter | None:
    """What a piece tells of: the crop, its roots or its soil, a spray, the seed, the digging, or the next look."""
    piece = clause[n]
    if piece.kind == "stage" or is_any(piece, _FACTS):
        return _MATTERS[0]
    if is_any(piece, _OF_NOUNS) and len(piece.text) >= LEAST_ASKED:
        below = any(is_any(other, ("ROOTS", "NODULES")) for other in clause)
        return _MATTERS[0] if is_any(piece, ("COLOUR",)) or below else None
    if "LINK" in piece.types and "LOOK" in piece.types:
        return None
    return next((matter for matter in _MATTERS[1:] if is_any(piece, tuple(matter.kinds))), None)


def _of_visit(clause: list[Piece], n: int, matter: _Matter, made: Table) -> bool:
    """Does a piece tell of a visit, a count or another matter; not "next" of "next week", nor "should be"?"""
    piece, behind = clause[n], piece_at(clause, n + 1)
    if number_told(piece) is not None:
        return not is_any(behind, _SPANS)
    if piece.kind in ("series", "ratio", "range", "measure", "decimal"):
        return True
    own = _matter_of(clause, n)
    if own is not None and own is not matter and "LOOK" not in own.kinds:
        return True  # a next look is told of below: "next" of "next week" is none
    if not is_any(piece, _VISIT) or own is matter or "LINK" in piece.types or made.has("else_copula", piece.text):
        return False
    if matter.denied is not None and is_any(piece, ("SKIP",)):
        return False  # "no need to (come back Friday)", "skip the fungicide"
    timed = f"{piece.text} {behind.text}" if behind is not None else piece.text
    said = _phrases(made.language, "else_in_time") | _phrases(made.language, "else_may_be")
    return said.isdisjoint((piece.text, timed))


def _runs(words: list[str]) -> set[str]:
    """What words say, one and more together."""
    return {" ".join(words[n : n + size]) for n in range(len(words)) for size in range(1, LONGEST_CUE + 1)}


@cache
def _phrases(language: Language, manner: str) -> frozenset[str]:
    return frozenset(table(language).traits.get(manner, ()))


def _cues(words: list[str], at: list[int], made: Table, manner: str) -> Iterator[int]:
    """The pieces at which a phrase of this manner begins."""
    return (at[n] for n in _cue_words(words, made, manner))


def _cue_words(words: list[str], made: Table, manner: str) -> Iterator[int]:
    """The words at which a phrase of this manner begins, but for one that says otherwise ("if anything")."""
    told, other = _phrases(made.language, manner), _OTHERWISE.get(manner, "")
    for n in range(len(words)):
        runs = {" ".join(words[n : n + size]) for size in range(1, LONGEST_CUE + 1)}
        if not runs.isdisjoint(told) and runs.isdisjoint(_phrases(made.language, other)):
            yield n


def _says(words: list[str], at: list[int], made: Table, manner: str) -> bool:
    return next(_cues(words, at, made, manner), None) is not None


def _asks(words: list[str], made: Table) -> bool:
    """Is it built as a question: "are the plants ..", "¿plantas están .."?"""
    opens = words[0] in _phrases(made.language, "else_question")
    return opens or (made.language != "en" and made.has_any("else_copula", words))


def _then(words: list[str], at: list[int], facts: list[int], matter: _Matter, made: Table) -> bool:
    """ "Roots were white last week", "last year it had fungicide": what was, and when; not "dry since last week".

    The word for what was stands before the fact; where "still" or "now" is said, it is so.
    """
    if _says(words, at, made, "aside_now"):
        return False
    was = [at[n] for n, word in enumerate(words) if made.has("aside_past", word) or made.has("else_was", word)]
    past = any(n <= facts[0] for n in was) or not matter.past
    begins = [n for manner in matter.times for n in _cue_words(words, made, manner)]
    return past and any(not _likened(words, n, made) for n in begins)


def _likened(words: list[str], n: int, made: Table) -> bool:
    """ "Same as (last week)", "since (June)", "worse than (last year)": is another time only held against it?"""
    before = words[max(0, n - NEAR_LIKENED) : n]
    return any(made.has("aside_than", word) or made.has("else_likens", word) for word in before)


def _of_others(clause: list[Piece], words: list[str], at: list[int], made: Table) -> bool:
    """ "The beans next door look stunted", "the corn is dry", "wet boots": what it is told of is not the field."""
    sprays = [n for n in range(len(clause)) if _matter_of(clause, n) is _MATTERS[1]]
    others = [
        n
        for n in _cues(words, at, made, "else_others")
        if not _at_place(clause[max(0, n - 2) : n], made) and _matter_of(clause, n) is not _MATTERS[0]
    ]
    if sprays:  # "neighbor sprayed fungicide"; not "fungicide on Monday, the neighbor did it", "neighbor sprayed it"
        said = made.has_any("else_says", words) or made.has_any("else_it", words)
        return not said and (any(n < sprays[0] for n in others) or _on_other_crop(clause, sprays, made))
    if others:
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
        beside = n - 1 if made.language == "en" else n + 1
        if 0 <= beside < len(clause) and _matter_of(clause, beside) is _MATTERS[0]:
            return True
    return False


def _on_other_crop(clause: list[Piece], sprays: list[int], made: Table) -> bool:
    """ "Fungicide on the corn", "al maíz le dieron herbicida", and not "fungicide on Monday, corn too"?"""
    for n, piece in enumerate(clause):
        if made.has_any("other_crop", piece.text.split(" ")):
            led = [word for p in clause[max(0, n - 2) : n] for word in p.text.split(" ")]
            led = [word for word in led if not made.has("determiner", word)][-1:]
            if n < sprays[0] or (n and made.has_any("else_on", led) and not _timed(clause[n - 1])):
                return True
    return False


def _at_place(pieces: list[Piece], made: Table) -> bool:
    """ "By the (road)", "like (the neighbor said)": is it where something is, or what it is like?"""
    return any(made.has_any("else_at", piece.text.split(" ")) for piece in pieces)


def _named_before(clause: list[Piece], n: int, made: Table) -> bool:
    """ "Beans yellow where the truck was": is the crop or its soil told of before it?"""
    return any(is_any(p, _NOUNS) or made.has_any("soil_word", p.text.split(" ")) for p in clause[:n])
