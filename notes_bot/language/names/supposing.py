"""Where a message probably names its fields, when no list of the crew's fields is at hand.

People name a field anywhere: "pulled six at lower brome", "how's tinkers sitting", "dry creek looks rough". A name is
made of any words at all, so it is told by its surroundings: every word of a message gets its signs (what the word
tables make of it and of its neighbours, how it is written, what it opens), the weights of the signs are added, and the
best row of begins, goes on and is none is kept. The weights (``grammar/names.json``) are learned from the corpora with
their fields renamed again and again, so that surroundings are learned and not names (``learn_names.py``).

It is a linear sequence model: the averaged structured perceptron with Viterbi's search of Collins (2002, EMNLP),
from memory.
"""

from __future__ import annotations

import itertools
import json
from bisect import bisect_right
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from itertools import pairwise

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece, number_told
from notes_bot.language.lexicon.scan import Lexeme, fold
from notes_bot.language.lexicon.words import Table, anywhere, table
from notes_bot.language.names.codes import codes_named
from notes_bot.language.names.naming import HARD, Names
from notes_bot.model import Language

MOST_LEXEMES = 1500
"""Lexemes of the longest message in which names are supposed (judgement)."""
MOST_ADDED = 3
"""Words that are tried as one name more (judgement)."""
MOST_VARIED = 12
"""Names of a message that are tried longer, shorter and left out (judgement)."""
MOST_NAMES = 40
"""Names supposed in one message (judgement)."""
NONE, BEGINS, GOES_ON = range(3)
_OPENING = {"nl": "line", ".": "end", ";": "end", "!": "end", "?": "end", ",": "part", ":": "part"}
_MAY_JOIN = frozenset("'-.&#/")
"""Signs that may stand within a name."""
_MAY_NAME = frozenset({"word", "wordnum", "number", "stage", "soilnum", "quoted", "dims", "decimal"})
_IMPOSSIBLE = -1e9
_NO_NAMES = HARD | {"PLANTS", "COLOUR", "NUMBER_WORD", "WEEKDAY", "MONTH", "UNIT", "TEXTURE", "MOISTURE"}
"""Kinds of word that make no name alone."""
Signs = list[str]


@dataclass(frozen=True, slots=True)
class Weights:
    """What each sign tells: for a name beginning here and for one going on, against none; and what follows what."""

    signs: Mapping[str, Sequence[float]]
    follow: Sequence[float]
    """From each of none, begins, goes on to each of them."""
    sense: Mapping[str, float]
    """What the traces of a reading weigh, by name; see ``choosing.py``."""


@cache
def learned() -> Weights:
    """The weights as they were learned."""
    kept = json.loads((files("notes_bot.grammar") / "names.json").read_text("utf-8"))
    return Weights(kept["signs"], kept["follow"], kept["sense"])


@dataclass(frozen=True, slots=True)
class _Seen:
    """What is seen of a lexeme."""

    kind: str
    word: str
    sense: str
    """Kinds of word it may be; marked when it stands within a longer phrase."""
    shape: str
    opens: str
    """What it opens: a message, a line, a sentence, a part of one."""


_EDGE = _Seen("edge", "<>", "", "", "")


@dataclass(frozen=True, slots=True)
class Guess:
    """Names a message may tell, as written, each once, and how much less likely they are than the likeliest."""

    names: tuple[str, ...]
    cost: float


def guesses(
    text: str,
    lexemes: Sequence[Lexeme],
    pieces: Sequence[Piece],
    language: Language,
    dearest: float,
    weights: Weights | None = None,
    codes: bool = False,
) -> list[Guess]:
    """What the names of a message may be, the likeliest first: one name more or less, or a word longer or shorter.

    Args:
        text: the cleaned text.
        lexemes: as scanned.
        pieces: cut from them without any name known.
        language: the message's language.
        dearest: guesses that cost more are left out.
        weights: the learned ones when ``None``.
        codes: whether a letter and a number may be a field as well (:mod:`codes`).
    """
    if len(lexemes) > MOST_LEXEMES:
        return [Guess((), 0.0)]
    weights = weights or learned()
    lattice = _weigh(signs_of(text, lexemes, pieces, language), lexemes, weights)
    best = _best_row(lattice, weights)
    top = _weight(best, lattice, weights)
    names = Names(text, list(pieces), table(language), ())
    coded = codes_named(pieces, names.made, text) if codes else ()
    found: dict[tuple[str, ...], float] = {}
    for row in (best, *_variants(best, lattice, [lexeme.kind == "number" for lexeme in lexemes])):
        cost = top - _weight(row, lattice, weights)
        told = _names(text, [_with_title(lexemes, *span, names.made) for span in spans(row)], names)
        told = _with_codes(told, coded) if coded else told
        if cost <= dearest and cost < found.get(told, dearest + 1):
            found[told] = cost
    likely = sorted((Guess(told, cost) for told, cost in found.items()), key=lambda guess: guess.cost)
    return likely or [Guess((), 0.0)]


def _with_codes(told: tuple[str, ...], codes: tuple[str, ...]) -> tuple[str, ...]:
    """The names with the codes that no name begins with or is part of."""
    words = [name.split(" ") for name in told]
    return (*told, *(code for code in codes if not any(code in name for name in words)))


def _names(text: str, said: Iterable[Sequence[Lexeme]], names: Names) -> tuple[str, ...]:
    """The words as names, without those that can be none."""
    found: dict[str, None] = {}
    for span in said:
        if (span := _may_name(names, span)) and not (found and _only_side(names, span, found)):
            end = span[-1].end - (len(_POSSESSIVE) if _owns(names, span[-1]) else 0)
            found[" ".join(text[span[0].start : end].split())] = None
    return tuple(found)[:MOST_NAMES]


def _only_side(names: Names, span: Sequence[Lexeme], found: Iterable[str]) -> bool:
    """ "Blue Tank R2. East 3 pl none. West ..": a side alone behind a field that is called otherwise."""
    sides = anywhere("direction")
    if len(span) > 1 or span[0].text not in sides or any(fold(name) in sides for name in found):
        return False
    n = bisect_right(names.ps, span[0].start, key=lambda p: p.start) - 1
    after = names.at(n + 1)
    goes_on = after is not None and after.kind == "word" and not is_any(after, ("LINK", "DUG", "TOOL", "NONE"))
    return not is_any(names.at(n - 1), ("FIELD_WORD",)) and not goes_on


_POSSESSIVE = "'s"


def _owns(names: Names, word: Lexeme) -> bool:
    """ "old mill's name", "cemetery's at R3": does a name end in what only ties it to the next word?"""
    after = names.at(bisect_right(names.ps, word.start, key=lambda p: p.start))
    told = after is not None and names.made.has("behind_possessive", after.text.split(" ")[0])
    return word.text.endswith(_POSSESSIVE) and told


def _with_title(lexemes: Sequence[Lexeme], first: int, last: int, made: Table) -> Sequence[Lexeme]:
    """The words of a name, with a title before it, or what belongs to it behind: "são jorge", "South trial"."""
    before = lexemes[first - 2] if first > 1 else None
    if first and made.has("titled_name", lexemes[first - 1].text) and not _they_are(lexemes[first - 1], before, made):
        first -= 1
    behind = lexemes[last] if last < len(lexemes) else None
    if last - first > 1 or behind is None or behind.kind != "word":
        return lexemes[first:last]
    beyond = lexemes[last + 1].kind if last + 1 < len(lexemes) else ""
    alone = sum(made.has("high_or_low", lexeme.text) for lexeme in lexemes) == 1
    high = made.has("high_or_low", behind.text) and beyond != "number" and alone  # "morro alto, 6 pés"
    of_plots = made.has("plots_behind", behind.text) and beyond in ("sign", "nl") and last + 2 < len(lexemes)
    return lexemes[first : last + (high or of_plots or made.has("titled_name", lexemes[first].text))]


def _they_are(word: Lexeme, before: Lexeme | None, made: Table) -> bool:
    """ "as plantas são": a verb that some names begin with, behind several things?"""
    return made.has("name_link", word.text) and before is not None and before.text.endswith("s")


def _may_name(names: Names, span: Sequence[Lexeme]) -> Sequence[Lexeme]:
    """The words without a number that counts what follows; none where one word of notes, a day or a count stands alone.

    "Talhão 3": a number is a name only behind its word, which is read without a list.
    """
    first, last = (bisect_right(names.ps, x.start, key=lambda p: p.start) - 1 for x in (span[0], span[-1]))
    own, made = names.ps[max(0, first) : last + 1], names.made
    if len(span) > 1 and is_any(own[0], ("FIELD_WORD",)) and not made.has("titled_field", span[0].text):
        return _may_name(names, span[1:])  # "Chacra del Tío"
    if len(span) > 1 and is_any(own[-1], ("FIELD_WORD",)) and not names.made.has("numbered_name", span[-1].text):
        return _may_name(names, span[:-1])  # "how is the quarry field doing"
    of_field = is_any(names.at(first - 1), ("FIELD_WORD",))  # "el lote del fondo"
    titled = made.has("titled_name", span[0].text)
    if len(span) > 1 and _leads(made, span[0].text) and not (names.capital(first) or of_field or titled):
        return _may_name(names, span[1:])  # "del surazo", "da divisa"
    if len(span) > 1 and (begun := _told_before(made, span)):
        rest = span[begun:]  # "regarding nursery 2", "nota do lajeado"
        return rest if rest[0].kind == "number" and len(rest) > 1 and not rest[1].spaced else _may_name(names, rest)
    if len(span) > 1 and made.has("behind_name", span[-1].text) and not names.capital(last):
        return _may_name(names, span[:-1])  # "sand hill shows"
    if len(span) > 1 and _one_side(names, last):
        return _may_name(names, span[:-1])  # "otis north 3 pl none\nsouth 3 pl 2w"
    if len(span) == len(own) > 1 and made.has("several_places", span[-1].text) and number_told(own[0]) is not None:
        return ()  # "two farms today"
    other = next(x.text for x in (*span, span[-1]) if not _article(made, x.text) or x is span[-1])
    led = _article(made, span[0].text) or _article(made, getattr(names.at(first - 1), "text", ""))
    if led and made.has("other_subject", other):
        return ()  # "the neighbor rented 40 acres"
    way = [piece.text for piece in names.ps[max(0, first - 2) : max(0, first)]]
    if any(made.has("leads_place", word) for word in (way[:1] if way and _article(made, way[-1]) else way[-1:])):
        return ()  # "along the back fence i dug four more"
    if is_any(own[0], ("SPOT",)) and names.colon(last + 1) and _places_headed(names) > 1:
        return ()  # "gate: dug 3 none. draw: dug 3 9 tan"
    if any(made.has(trait, span[0].text) for trait in ("opens_question", "asks_first")):
        return ()
    if _compares(names, first):
        return ()  # "Comparado con febrero, La Herradura sigue igual"
    if all(made.has("no_name", x.text) or made.has("name_link", x.text) for x in span) or names.places_told(
        max(0, first), last + 1
    ):
        return ()
    counts = own[-1].kind == "number" and is_any(names.at(last + 1), ("PLANTS", "COLOUR", "FEMALES"))
    if len(own) > 1 and counts and not isinstance(getattr(names.at(last + 2), "value", None), int):
        return _may_name(names, span[:-1])  # "kestrel 12 yellow plants"
    if len(own) > 1 and own[-1].kind == "number" and (own[-1].value == 0 or _counts_dug(names, last)):
        return _may_name(names, span[:-1])  # "depot 0", "tjaden 5 dg 0"
    if len(own) > 1 and (_heads_list(names, last) or _counts_list(names, last)):
        return _may_name(names, span[:-1])  # "kestrel 22, 30, 17, 41"
    if own[0].kind != "word" and all(p.kind != "word" or p.types for p in own):
        return ()
    if is_any(own[0], ("POTASSIUM", "PH")) and len(own) < 3:
        return ()  # "K 78; hojas sanas"
    told = len(own) == 1 and is_any(own[0], _NO_NAMES)
    return () if told or all(is_any(p, ("MOISTURE", "TEXTURE")) for p in own) else span  # "dry clay"


def _one_side(names: Names, last: int) -> bool:
    """Is the word a side, and does another side open a line or a part further on?"""
    side = names.ps[last].text
    if len(side) < SHORTEST_SIDE or not names.made.has("direction", side):
        return False
    opening = (b.text for a, b in pairwise(names.ps[last:]) if a.kind in ("line", "break") or a.text == "/")
    return any(len(x) >= SHORTEST_SIDE and x != side and names.made.has("direction", x) for x in opening)


SHORTEST_SIDE = 3
"""Letters of the shortest word for a side that is no letter for it (judgement)."""


def _told_before(made: Table, span: Sequence[Lexeme]) -> int:
    """How many words at the start of a name only say what is told or wanted of it."""
    if made.has("ahead_of_name", span[0].text):
        return 1
    links = [n for n, x in enumerate(span[1:-1], 1) if made.has("of_word", x.text) or made.has("of_name", x.text)]
    return links[0] + 1 if links and any(made.has("told_of", x.text) for x in span[: links[0]]) else 0


def _counts_dug(names: Names, last: int) -> bool:
    """ "5 dg 0", "6 pulled none", "8 dug 12 white": do females, not plants, follow the number and how they were dug?"""
    n = last + 1
    title = getattr(names.at(last - 1), "text", "")
    if not is_any(names.at(n), ("DUG", "TOOL")) or names.made.has("numbered_name", title):
        return False
    found, noun = names.at(n + 1), names.at(n + 2)
    if found is not None and found.kind == "number":
        ahead = names.ps[n + 2 : n + 2 + NEAR_LIST]
        of_plants = any(is_any(p, ("PLANTS",)) for p in ahead)
        own = getattr(names.at(n + 3), "kind", "") == "number" and not names.ps[n + 3].spaced  # "5 w3"
        return found.value == 0 or (is_any(noun, ("COLOUR", "FEMALES")) and not (of_plants or own))
    return is_any(found, ("NONE",))


def _heads_list(names: Names, last: int) -> bool:
    """Is the last word the first of numbers told with commas, three and more?"""
    row = [names.at(n) for n in range(last, last + 5)]
    return all(
        piece is not None and (piece.text == "," if n % 2 else piece.kind == "number") for n, piece in enumerate(row)
    )


def _counts_list(names: Names, last: int) -> bool:
    """ "La Tinaja (4) arrancadas a mano: 3, 0, 2, 1": are so many numbers told behind a colon, one a plant?"""
    number = names.at(last)
    colon = next((n for n in range(last + 1, last + 1 + NEAR_LIST) if names.colon(n)), None)
    if number is None or number.kind != "number" or colon is None or not is_any(names.at(last + 1), ("DUG", "TOOL")):
        return False
    row = list(itertools.takewhile(lambda p: p.kind == "number" or p.text == ",", names.ps[colon + 1 :]))
    told = sum(p.kind == "number" for p in row)
    return bool(told == number.value > LEAST_LISTED)


LEAST_LISTED = 2
"""Numbers up to which a row is no list, one a plant (judgement)."""
NEAR_LIST = 5
"""Pieces behind a number among which the colon before its list stands (judgement)."""


def _compares(names: Names, first: int) -> bool:
    """Do words begin there that hold what is now against another time: "compared with", "em relação a"?"""
    words = " ".join(piece.text for piece in names.ps[max(0, first) : first + LONGEST_COMPARING]).split(" ")
    return any(names.made.has("aside_compares", " ".join(words[:size])) for size in range(2, LONGEST_COMPARING + 1))


LONGEST_COMPARING = 3
"""Words of "em relação a"."""


def _article(made: Table, word: str) -> bool:
    return made.has("article", word) or made.has("leads_noun", word)


def _leads(made: Table, word: str) -> bool:
    """Does a word lead to a name and belong to none?"""
    return made.has("at", word) or (made.has("name_link", word) and not _article(made, word))


def _places_headed(names: Names) -> int:
    """How many words for a place have a colon behind."""
    return sum(is_any(piece, ("SPOT",)) and names.colon(n + 1) for n, piece in enumerate(names.ps))


def _variants(row: Sequence[int], lattice: Sequence[Sequence[float]], numbers: Sequence[bool]) -> list[list[int]]:
    """Rows one step from a row: a name left out, a word less at either end or more, a likely single word added.

    Or all names without the numbers they end with.
    """
    made = []

    def changed(changes: Mapping[int, int]) -> None:
        made.append([changes.get(n, tag) for n, tag in enumerate(row)])

    numbered = [last - 1 for first, last in spans(row) if last - first > 1 and numbers[last - 1]]
    if len(numbered) > 1:
        changed(dict.fromkeys(numbered, NONE))  # "wolcott 5 dug, 3 white / tjaden 5 dug, none"
    for first, last in spans(row)[:MOST_VARIED]:
        changed(dict.fromkeys(range(first, last), NONE))
        if last - first > 1:
            changed({last - 1: NONE})
            changed({first: NONE, first + 1: BEGINS})
        if last - first > 2:
            changed({last - 1: NONE, last - 2: NONE})
        if last < len(row) and row[last] == NONE:
            changed({last: GOES_ON})
        if first and row[first - 1] == NONE:
            changed({first - 1: BEGINS, first: GOES_ON})
    free = [n for n, tag in enumerate(row) if tag == NONE and lattice[n][BEGINS] > _IMPOSSIBLE]
    for n in sorted(free, key=lambda n: lattice[n][NONE] - lattice[n][BEGINS])[:MOST_ADDED]:
        changed({n: BEGINS})
        if n + 1 < len(row) and row[n + 1] == NONE:
            changed({n: BEGINS, n + 1: GOES_ON})
    return made


def spans(tags: Sequence[int]) -> list[tuple[int, int]]:
    """First and last (exclusive) lexeme of every name in a row of tags."""
    starts = [n for n, tag in enumerate(tags) if tag == BEGINS]
    ends = [next((k for k in range(n + 1, len(tags)) if tags[k] != GOES_ON), len(tags)) for n in starts]
    return list(zip(starts, ends, strict=True))


def _look(text: str, lexemes: Sequence[Lexeme], pieces: Sequence[Piece], language: Language) -> list[_Seen]:
    made = table(language)
    starts = [piece.start for piece in pieces]
    senses = ["+".join(sorted(piece.types)) or ("" if piece.kind == "word" else piece.kind) for piece in pieces]
    capitals = sum(map(str.isupper, text))
    case = "all" if capitals > sum(map(str.islower, text)) else "" if capitals else "none"
    seen = []
    opens = "message"
    for lexeme in lexemes:
        sign = lexeme.kind in ("sign", "nl")
        sense, shape, word = "", "", "#"
        if sign:
            word = lexeme.text if lexeme.kind == "sign" else "nl"
        else:
            n = bisect_right(starts, lexeme.start) - 1
            if n >= 0 and pieces[n].end >= lexeme.end:
                sense = senses[n] + ("<" * (pieces[n].start < lexeme.start) or ">" * (pieces[n].end > lexeme.end))
            if lexeme.kind in ("word", "wordnum", "stage", "soilnum", "quoted"):
                word = lexeme.text if lexeme.kind != "quoted" else "quoted"
                raw = text[lexeme.start : lexeme.end]
                shape = case or ("XX" if raw.isupper() and len(raw) > 1 else "X" if raw[:1].isupper() else "x")
                shape += "+" if word in made.plain else ""
            elif not lexeme.spaced:
                shape = "glued"
        seen.append(_Seen(lexeme.kind, word, sense, shape, opens))
        opens = _OPENING.get(word, "aside") if sign else ""
    return seen


def signs_of(text: str, lexemes: Sequence[Lexeme], pieces: Sequence[Piece], language: Language) -> list[Signs]:
    """The signs of every lexeme: itself, its neighbours, and pairs of them."""
    seen = [_EDGE, _EDGE, *_look(text, lexemes, pieces, language), _EDGE, _EDGE, _EDGE]
    rows = []
    for n in range(2, len(seen) - 3):
        p2, p1, it, n1, n2, n3 = seen[n - 2 : n + 4]
        own, next_kind = f"{it.sense}|{it.shape}", f"{n1.sense}{n1.kind}"
        rows.append(
            [
                "any",
                f"w{it.word}",
                f"k{it.kind}",
                f"s{it.sense}",
                f"o{it.opens}{p1.opens}{p2.opens}",
                f"x{it.shape}{it.opens}",
                f"sx{own}",
                f"sxo{own}|{it.opens}",
                f"p{p1.word}",
                f"ps{p1.sense}",
                f"pp{p2.word}|{p1.word}",
                f"px{p1.shape}{it.shape}",
                f"n{n1.word}",
                f"ns{next_kind}",
                f"nk{n1.kind}{n2.kind}{n2.sense}",
                f"m{n2.word}",
                f"nm{n1.word}|{n2.word}",
                f"pw{p1.word}|{it.word}",
                f"wn{it.word}|{n1.word}",
                f"on{it.opens}{it.sense}|{next_kind}",
                f"on+{it.opens}|{n1.shape}{next_kind}",
                f"p.s{p1.word}|{it.sense}",
                f"nx{n1.shape}{it.shape}{it.opens}",
                f"kkk{n1.kind}{n2.kind}{n3.kind}{n1.sense}",
                f"psn{p1.sense}|{own}|{n1.sense}",
                f"e{it.word[-3:]}" if it.kind == "word" and not it.sense else "e",
                f"nn{n1.sense}|{n2.sense}|{n2.kind}",
                f"kw{it.kind}{it.sense}|{n1.word}|{n2.word}{n2.sense}",
                f"nnn{n1.sense}|{n2.sense}|{n3.sense}{n3.kind}",
                f"pps{p2.sense}|{p1.sense}|{it.sense}",
            ]
        )
    return rows


Lattice = list[list[float]]
"""For every lexeme what it weighs as none, as the begin of a name and as its going on."""


def _weigh(rows: Sequence[Signs], lexemes: Sequence[Lexeme], weights: Weights) -> Lattice:
    signs = weights.signs
    lattice = []
    for row, lexeme in zip(rows, lexemes, strict=True):
        begins = goes_on = 0.0
        for sign in row:
            weight = signs.get(sign)
            if weight is not None:
                begins += weight[0]
                goes_on += weight[1]
        if lexeme.kind not in _MAY_NAME:
            begins = _IMPOSSIBLE
            goes_on = goes_on if lexeme.text in _MAY_JOIN else _IMPOSSIBLE
        lattice.append([0.0, begins, goes_on])
    return lattice


def _best_row(lattice: Lattice, weights: Weights) -> list[int]:
    """The row of tags that weighs most (Viterbi)."""
    if not lattice:
        return []
    follow = weights.follow
    ways: list[list[int]] = []
    before = [lattice[0][NONE], lattice[0][BEGINS], _IMPOSSIBLE]
    for own in lattice[1:]:
        into = [[before[first] + follow[3 * first + tag] for first in range(3)] for tag in range(3)]
        into[GOES_ON][NONE] = _IMPOSSIBLE
        best = [max(range(3), key=way.__getitem__) for way in into]
        ways.append(best)
        before = [own[tag] + into[tag][best[tag]] for tag in range(3)]
    tags = [max(range(3), key=before.__getitem__)]
    for way in reversed(ways):
        tags.append(way[tags[-1]])
    tags.reverse()
    return tags


def _weight(row: Sequence[int], lattice: Lattice, weights: Weights) -> float:
    """What a row of tags weighs; a name can only go on where one began."""
    if (row and row[0] == GOES_ON) or any(a == NONE and b == GOES_ON for a, b in pairwise(row)):
        return _IMPOSSIBLE
    return sum(own[tag] for own, tag in zip(lattice, row, strict=True)) + sum(
        weights.follow[n] for n in transitions(row)
    )


MARGIN = 3.0
"""By how much, while learning, a name that is there must outweigh none (judgement)."""


def learning_row(rows: Sequence[Signs], lexemes: Sequence[Lexeme], weights: Weights, right: Sequence[int]) -> list[int]:
    """The row that weighs most, with the right one made harder to reach, so that it is learned with some room."""
    lattice = _weigh(rows, lexemes, weights)
    for own, tag in zip(lattice, right, strict=True):
        own[NONE] += MARGIN * (tag != NONE)
    return _best_row(lattice, weights)


def transitions(tags: Sequence[int]) -> list[int]:
    """Which of the nine what-follows-what weights a row of tags uses."""
    return [3 * first + second for first, second in pairwise(tags)]
