"""Which noun each number belongs to: "pulled 4 3 white 2 yellow" is three clauses, not one silently wrong.

A chain is a run of numbers and nouns without a stop. Every way of pairing them costs something; the cheapest is
taken when it is clearly the cheapest, otherwise the chain is asked about. The costs are judgement, kept in one place.
The search walks the chain once, so its time grows with the chain's length and no faster.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import NamedTuple

from notes_bot.language.clauses.places import name_places
from notes_bot.language.clauses.strips import strips_told
from notes_bot.language.lexicon.tokens import Draft, Word
from notes_bot.language.lexicon.words import anywhere, table

CHAIN = frozenset(
    {
        "NUMBER",
        "COLOUR",
        "PLANTS",
        "FEMALES",
        "TOTAL",
        "EACH",
        "DUG",
        "NODULES",
        "PH",
        "POTASSIUM",
        "OVER",
        "PLUS",
        "TOOL",
    }
)
ALONE = {
    "COLOUR": 6.0,
    "PLANTS": 6.0,
    "FEMALES": 1.0,
    "TOTAL": 3.0,
    "EACH": 0.0,
    "DUG": 1.0,
    "TOOL": 0.0,
    "NODULES": 0.0,
    "PH": 8.0,
    "POTASSIUM": 8.0,
}
"""Cost of a noun without a number; a color said to be mostly there costs nothing."""
RIGHT_ONLY = frozenset({"PH", "POTASSIUM"})
STRAY = 10.0
"""Cost of a number without a noun (judgement)."""
STRAY_ZERO = 2.0
"""Cost of a lone 0: it is a count, none (judgement)."""
PLANTS_FIRST = 0.6
"""Cost of the number behind "plants" without a colon: "6 plants 14" is rather six plants (judgement)."""
PLANTS_COMMA = 3.0
"""Cost of the number behind "plants" and a comma (judgement)."""
TOTAL_OF_SHADE = 4.0
"""Cost of a lone number where all females were said to be of one color: it may be their total (judgement)."""
OF_SHADE = 3.0
"""Cost of the number that "all yellow:" takes: in "todo amarillo: 5 plantas 38" they are plants (judgement)."""
PAIR = 4.0
"""Cost of two numbers as a list: rarely one, unless two plants were dug (judgement)."""
AS_DUG = -1.0
"""Gain of a list as long as the plants dug (judgement)."""
OF_COLOUR = 0.3
"""Cost of a list that belongs to a color beside it (judgement)."""
COUNTED_ALREADY = 3.0
"""Cost of the number behind "4 plants:" as those plants again: it is what was on them (judgement)."""
SPLIT = 1.0
"""Cost of cutting a run of numbers in two (judgement)."""
ACROSS_COMMA = 3.0
"""Cost of a number and its noun with a comma between them (judgement)."""
TIGHT = -1.0
"""Gain of a number glued to its noun: 12w (judgement)."""
TO_EACH = 0.5
"""Cost of a number taken by "each" or by a tool rather than by a count (judgement)."""
LOOKED_BACK = 30
"""Words looked back at in a sentence (judgement)."""
NO_PLANTS = 3.0
"""Cost of no plants dug, which nobody does: "4 plants dug 0 cysts" (judgement)."""
_TIED = ("", "link")
MARGIN = 0.5
"""Two readings whose costs are closer than this are both possible: ask (judgement)."""


class _Item(NamedTuple):
    """A noun, or a run of numbers."""

    words: list[Word]
    noun: bool


@dataclass(slots=True)
class _Way:
    """A reading of the chain so far: its cost, its clauses (last first, linked), and how many are as good."""

    cost: float
    clauses: tuple[object, list[Word]] | None
    ways: int = 1

    def plus(self, cost: float, *clauses: list[Word]) -> _Way:
        """This reading with more clauses."""
        linked = self.clauses
        for clause in clauses:
            if clause:
                linked = (linked, clause)
        return _Way(self.cost + cost, linked, self.ways)

    def in_order(self) -> list[list[Word]]:
        """The clauses, first to last."""
        out: list[list[Word]] = []
        node: object = self.clauses
        while isinstance(node, tuple):
            node, clause = node
            out.append(clause)
        return out[::-1]


def bind(words: list[Word], draft: Draft) -> list[Word]:
    """The words with BREAKs put where clauses end, free text joined, and doubtful chains asked about."""
    words = _join_text(words, draft)
    words = _plants_from(words)
    for n in range(1, len(words) - 2):
        pair, beyond = words[n], words[n + 2]
        if not (pair.type == beyond.type == "NUMBER" and pair.lead == beyond.lead == "colon"):
            continue
        if words[n - 1].type in ALONE and words[n + 1].type in ALONE:
            words[n + 1].lead = "soft" if words[n + 1].lead in _TIED else words[n + 1].lead  # "p:8 b:3 a:17"
    _list_behind_digging(words)
    made = table(draft.language)
    words = name_places(strips_told(words, made, draft.text), made, draft.text)
    expected = _expected(words)
    out: list[Word] = []
    i = 0
    while i < len(words):
        word = words[i]
        if word.lead in ("hard", "line", "soft", "colon") and out:
            out.append(_break(word.start))
        if word.type not in CHAIN:
            out.append(word)
            i += 1
            continue
        j = i + 1
        while j < len(words) and words[j].type in CHAIN and words[j].lead not in ("hard", "line"):
            j += 1
        more = [w for w in words[i:j] if w.type == "PLUS"]
        _bind_chain([w for w in words[i:j] if w.type != "PLUS"] if more else words[i:j], expected, draft, out)
        for plus in more:
            at_least = Word("TOO_MANY", "at_least", plus.start, plus.end, plus.text)
            out.extend([_break(plus.start), at_least, _break(plus.end)])
        i = j
    return out


def _list_behind_digging(words: list[Word]) -> None:
    """ "4 plants dug with the spade: 3 0 2 1": no number behind the colon is of the digging, whose plants are told.

    And "dug 6 3,0,7,2,5,0": the first number, when it is as many as there are behind it.
    """
    for n, word in enumerate(words):
        if word.type == "DUG" and [w.type for w in words[n + 1 : n + 3]] == ["NUMBER", "NUMBER"]:
            row = itertools.takewhile(lambda w: w.type == "NUMBER" and w.lead in (*_TIED, "soft"), words[n + 2 :])
            leads = [w.lead for w in row]
            if len(leads) == words[n + 1].value and leads[0] in _TIED and "soft" in leads[1:]:
                words[n + 2].lead = "soft"
        if word.type != "NUMBER" or word.lead != "colon":
            continue
        k = n - 1
        while k > 1 and words[k].type in ("DUG", "TOOL") and words[k].lead in (*_TIED, "soft"):
            k -= 1
        if 0 < k < n - 1 and words[k].type == "PLANTS" and words[k - 1].type == "NUMBER":
            word.lead = "soft"


def _break(at: int) -> Word:
    return Word("_BREAK", None, at, at, "")


# --- free text


def _join_text(words: list[Word], draft: Draft) -> list[Word]:
    """Words of free text that stand together become one; little words are kept only between two of them."""
    out: list[Word] = []
    for i, word in enumerate(words):
        if word.type not in ("LINK", "TEXT"):
            out.append(word)
            continue
        before = out[-1] if out else None
        after = words[i + 1] if i + 1 < len(words) else None
        follows = after is not None and after.lead in ("", "link")
        in_text = before is not None and before.type == "TEXT" and word.lead in ("", "link")
        if word.type == "LINK":
            more = follows and after is not None and after.type in ("TEXT", "LINK")
            if in_text and more and before is not None:
                before.end = word.end
            elif more and after is not None and after.type == "TEXT" and not in_text:
                word.type = "TEXT"
                out.append(word)
            elif follows and after is not None and word.lead not in ("", "link"):
                after.lead = word.lead
        elif before is not None and before.type == "TEXT" and word.lead in ("", "link", "colon"):
            before.end = word.end
        else:
            out.append(word)
    for word in out:
        if word.type == "TEXT":
            word.text = word.value = draft.text[word.start : word.end]
    return out


# --- plants counted before their place


def _plants_from(words: list[Word]) -> list[Word]:
    """ "5 from the bad area 88 total": a number that only a place follows counts the plants dug there."""
    out: list[Word] = []
    n = 0
    while n < len(words):
        word = words[n]
        if word.type != "NUMBER" or n + 1 == len(words) or words[n + 1].type not in ("SPOT", "CHECK"):
            out.append(word)
            n += 1
            continue
        place = words[n + 1]
        behind = words[n + 2] if n + 2 < len(words) else None
        starts = word.lead in ("soft", "hard", "line", "colon") or (
            n > 0 and words[n - 1].type in ("FIELD", "DUG", "TOOL", "TEXT")
        )
        beyond = words[n + 3].type if n + 3 < len(words) else ""
        counts = behind is not None and (
            behind.type in ("NUMBER", "NONE", "TOO_MANY", "SERIES") or (behind.type == "TOTAL" and beyond == "NUMBER")
        )
        if (
            not (n > 0 and words[n - 1].type == "NUMBER")
            and starts
            and place.lead in ("", "link")
            and counts
            and not _females_before_places(words, n)
            and behind is not None
            and behind.lead in ("", "link", "soft", "colon")
        ):
            place.lead, word.lead, behind.lead = word.lead, "", "link"
            out += [place, word, Word("PLANTS", "plants", word.end, word.end, "", "")]
            n += 2
            continue
        out.append(word)
        n += 1
    return out


def _females_before_places(words: list[Word], n: int) -> bool:
    """ "4 white at the gate, 9 at the pond": earlier in the sentence females were counted before their place."""
    for k in range(n - 1, max(0, n - LOOKED_BACK), -1):
        if words[k + 1].lead in ("hard", "line") or words[k].type == "FIELD":
            return False
        placed = words[k].type in ("SPOT", "CHECK", "TEXT") and words[k].lead in ("", "link")
        if placed and words[k - 1].type in ("COLOUR", "FEMALES") and k > 1 and words[k - 2].type == "NUMBER":
            return True
    return False


# --- the chain as items


def _expected(words: list[Word]) -> frozenset[int]:
    """Numbers that may be the count of plants: those beside a word for plants or digging."""
    found: set[int] = set()
    for i, word in enumerate(words):
        if word.type == "NUMBER" and isinstance(word.value, int):
            before = words[i - 1] if i else None
            after = words[i + 1] if i + 1 < len(words) else None
            beside = [
                *([before] if before is not None and word.lead in ("", "link", "colon") else []),
                *([after] if after is not None and after.lead in ("", "link") else []),
            ]
            if any(other.type in ("PLANTS", "DUG", "TOOL") for other in beside):
                found.add(word.value)
    return frozenset(found)


LEAST_OF_FEMALES = 4
"""Numbers before a word for females that are a list, one a plant, though no plants are counted (judgement)."""
_PLANTS_AND_FEMALES = ["NUMBER", "PLANTS", "NUMBER", "FEMALES"]


def _tidy(chain: list[Word]) -> list[Word]:
    """ "12 white females" is "12 white"; "12 on 6 plants" is "12 females, 6 plants"; one "per plant" is enough."""
    words: list[Word] = []
    for n in range(len(chain) - 2):
        if [w.type for w in chain[n : n + 3]] == ["DUG", "TOOL", "NUMBER"]:
            chain[n], chain[n + 1] = chain[n + 1], chain[n]
            chain[n].lead, chain[n + 1].lead = chain[n + 1].lead, chain[n].lead
    for n, word in enumerate(chain):
        before = words[-1] if words else None
        behind = [w.type for w in chain[n + 1 : n + 4] if w.type != "TOOL"][:2]
        if word.type == "DUG" and [w.type for w in words[-3:] if w.type != "TOOL"][-2:] + behind == _PLANTS_AND_FEMALES:
            word.free = True  # "5 plantas aflojadas a mano 18 hembras"
        if word.type == "FEMALES" and before is not None and before.type == "COLOUR" and word.lead in ("", "link"):
            before.end = word.end
        elif word.type == "FEMALES" and (_colour_behind(chain, n) or _ends_a_list(words, chain, n)):
            chain[n + 1].start = word.start
        elif word.type == "FEMALES" and _of_whole_list(words, chain, n):
            words[-1].end = word.end  # "dug 8: 3 0 5 2 1 females"
        elif word.type == "TOTAL" and [w.type for w in chain[n + 1 : n + 3]] == ["NUMBER", "TOTAL"]:
            chain[n + 1].lead = word.lead  # "conté 40 total"
        elif word.type == "TOTAL" and _titles_a_list(chain, n):
            chain[n - 1].end = word.end
        elif word.type == "TOTAL" and _opens_a_list(chain, n):
            chain[n + 1].lead = word.lead
            continue  # "counts were 2, 6, 0 and 4"
        elif word.type == "EACH" and before is not None and before.type == "COLOUR" and _list_behind(chain, n):
            before.end, before.free = word.end, False  # "whites per plant: 0, 0, 1, 0"
        elif word.type == "EACH" and any(w.type == "EACH" for w in words[-3:]):
            continue
        elif word.type == "OVER":
            behind = [w.type for w in chain[n + 1 : n + 3]]
            bare = (
                before is not None
                and before.type == "NUMBER"
                and (len(words) < 2 or words[-2].type in ("NUMBER", "DUG", "PLANTS"))
            )
            if behind == ["NUMBER", "PLANTS"]:
                chain[n + 2].value = "over"
                if bare:
                    words.append(Word("FEMALES", "female", word.start, word.start, "", "link"))
            elif behind and behind[0] == "NUMBER" and (len(behind) == 1 or behind[1] not in ("PLANTS", "NUMBER")):
                if bare:
                    words.append(Word("FEMALES", "female", word.start, word.start, "", "link"))
                words.append(Word("PLANTS", "plants", word.start, word.end, word.text, "link"))
        else:
            words.append(word)
    return words


def _list_behind(chain: list[Word], n: int) -> bool:
    """Three numbers and more right behind a word, and none right before its color?"""
    listed = [w.type for w in chain[n + 1 : n + 4]] == ["NUMBER"] * 3
    return listed and not (n > 1 and chain[n - 2].type == "NUMBER")


def _opens_a_list(chain: list[Word], n: int) -> bool:
    """Is a word for counting the head of a list, one number a plant, and the first not their total?"""
    tied = n > 0 and chain[n - 1].type == "NUMBER" and chain[n].lead == ""  # "14 total 3 0 7 4"
    if tied or [w.type for w in chain[n + 1 : n + 4]] != ["NUMBER"] * 3:
        return False
    values = [w.value for w in itertools.takewhile(lambda w: w.type == "NUMBER", chain[n + 1 :])]
    return not n or chain[n].text in anywhere("list_title") or values[0] != sum(values[1:])


def _ends_a_list(words: list[Word], chain: list[Word], n: int) -> bool:
    """ "Con 1, 0, 6 y 2 hembras marrones": females between a whole list and the color of all of it."""
    run = list(itertools.takewhile(lambda word: word.type == "NUMBER", reversed(words)))[::-1]
    colour = chain[n + 1] if n + 1 < len(chain) else None
    free = n + 2 >= len(chain) or chain[n + 2].type != "NUMBER" or chain[n + 2].lead not in _TIED
    return _and_last(run) and colour is not None and colour.type == "COLOUR" and colour.lead in _TIED and free


def _of_whole_list(words: list[Word], chain: list[Word], n: int) -> bool:
    """ "8 plants: 3 0 5 2 1 females": behind a list that a colon leads to, at the end of its clause."""
    run = list(itertools.takewhile(lambda word: word.type == "NUMBER", reversed(words)))[::-1]
    first = max((k for k, word in enumerate(run) if word.lead == "colon"), default=len(run))
    led = len(run) - first > 2 and not any(word.lead for word in run[first + 1 :])
    ends = n + 1 >= len(chain) or chain[n + 1].lead not in _TIED
    return led and ends and chain[n].lead == ""


def _and_last(numbers: list[Word]) -> bool:
    """ "4, 9, 0, 6 y 2": three numbers and more with commas, the last one behind "and", are one list."""
    commas = all(word.lead == "soft" for word in numbers[1:-1])
    return len(numbers) > 2 and commas and numbers[-1].lead == "link"


def _colour_behind(chain: list[Word], n: int) -> bool:
    """ "12 hembras blancas y 3 amarillas": number, females, color is one count, unless the color has its own number."""
    types = [word.type for word in chain[n - 1 : n + 4]] if n else []
    if types[:3] != ["NUMBER", "FEMALES", "COLOUR"] or any(w.lead not in ("", "link") for w in chain[n : n + 2]):
        return False
    if n > 1 and chain[n - 2].type in ("NUMBER", "COLOUR") and chain[n - 1].lead in ("", "link"):
        return False
    return types[3:4] != ["NUMBER"] or types[4:5] == ["COLOUR"] or chain[n + 2].lead not in ("", "link")


def _titles_a_list(chain: list[Word], n: int) -> bool:
    """ "White counts 3 0 7 2": a word for counting between a color and its numbers says nothing more."""
    before, behind = chain[n - 1] if n else None, [word.type for word in chain[n + 1 : n + 3]]
    if before is None or before.type != "COLOUR" or chain[n].lead not in ("", "link"):
        return False
    if chain[n].type == "EACH" and (behind != ["NUMBER", "NUMBER"] or chain[n + 1].lead not in ("colon", "")):
        return False
    if (
        (before.free and chain[n].type != "EACH")
        or behind[:1] != ["NUMBER"]
        or (n > 1 and chain[n - 2].type == "NUMBER" and before.lead in ("", "link"))
    ):
        return False
    ends = len(behind) == 1 or chain[n + 2].lead not in ("", "link")
    return behind == ["NUMBER", "NUMBER"] or (ends and chain[n + 1].lead in ("", "link", "colon"))


def _items(words: list[Word]) -> list[_Item]:
    """Nouns and runs of numbers; a colon or a lone comma ends a run, a comma list of three and more is one run."""
    items: list[_Item] = []
    n = 0
    while n < len(words):
        m = n + 1
        if words[n].type != "NUMBER":
            items.append(_Item([words[n]], noun=True))
        else:
            while m < len(words) and words[m].type == "NUMBER" and words[m].lead in ("", "link"):
                m += 1
            k = m
            while m == n + 1 and k < len(words) and words[k].type == "NUMBER" and _listed(words[k], k - n):
                k += 1
            if k - n >= 3:
                m = k
            items.append(_Item(words[n:m], noun=False))
        n = m
    return items


def _listed(word: Word, place: int) -> bool:
    """A comma before it, or the "and" before the last."""
    return word.lead == "soft" or (word.lead == "link" and place > 1)


# --- costs


def _distance(left: Word, right: Word) -> float:
    if right.lead == "soft":
        return ACROSS_COMMA
    return TIGHT if right.lead == "" and right.start == left.end else 0.0


def _list_cost(numbers: list[Word], expected: frozenset[int]) -> float:
    """A run that belongs to no noun."""
    size = len(numbers)
    if size == 0:
        return 0.0
    if size == 1 and numbers[0].value == 0:
        return STRAY_ZERO
    if size >= 2 and size in expected:
        return AS_DUG
    return {1: STRAY, 2: PAIR}.get(size, 0.0)


def _colour_list_cost(size: int, expected: frozenset[int]) -> float:
    return OF_COLOUR + (AS_DUG if size in expected else PAIR if size == 2 else 0.0)


def _pair_cost(noun: Word, number: Word, distance: float, beside: int, expected: frozenset[int]) -> float:
    """A number with a noun, a list of so many beside it: a count of plants should be as long as its list."""
    cost = distance + (TO_EACH if noun.type in ("EACH", "TOOL") else 0.0)
    if noun.type in ("PLANTS", "DUG", "TOOL") and number.value == 0:
        cost += NO_PLANTS + any(expected)  # "dug 0" is asked about, "6p dug 0" found none
    if noun.type in ("PLANTS", "DUG", "TOOL") and beside >= 3 and number.value != beside:
        cost += 0.2 if isinstance(number.value, int) and abs(number.value - beside) == 1 else 2.0
    return cost


def _alone(word: Word) -> float:
    """A noun without a number; "para mí es potasio" says no figure, "K" and "pH" do."""
    if word.free:
        return 0.0
    said = word.type == "POTASSIUM" and len(word.text) > len("k+")
    return ALONE["TOTAL"] if said else ALONE[word.type]


# --- the search


def _best(ways: list[_Way]) -> _Way | None:
    """The cheapest; it remembers how many others are as good."""
    if not ways:
        return None
    best = min(ways, key=lambda way: way.cost)
    equal = sum(way.ways for way in ways if way.cost - best.cost < MARGIN)
    return _Way(best.cost, best.clauses, min(equal, 99))


def _solve(items: list[_Item], expected: frozenset[int]) -> _Way:
    """The best reading of a chain.

    ``closed``: ways in which everything so far is settled; ``opened``: the noun at hand waits for a number behind it;
    ``taken``: the noun ahead has already taken a number before it.
    """
    closed: _Way | None = _Way(0.0, None)
    opened: _Way | None = None
    taken: _Way | None = None
    shaded = any(item.words[0].type == "COLOUR" and item.words[0].free for item in items)
    plants_told = False
    for n, item in enumerate(items):
        ahead = items[n + 1] if n + 1 < len(items) else None
        if item.noun:
            word = item.words[0]
            plants_told = plants_told or word.type == "PLANTS"
            settled = [taken] if taken is not None else []
            if closed is not None:
                settled.append(closed.plus(_alone(word), [word]))
            opened = closed if ahead is not None and not ahead.noun else None
            closed, taken = _best(settled), None
            continue
        noun_before = items[n - 1].words[0] if n and items[n - 1].noun else None
        noun_ahead = (
            ahead.words[0] if ahead is not None and ahead.noun and ahead.words[0].type not in RIGHT_ONLY else None
        )
        starts: list[tuple[_Way, list[Word]]] = []
        ends: list[_Way] = []
        if closed is not None:
            starts.append((closed, item.words))
        if opened is not None and noun_before is not None:
            had = n > 1 and not items[n - 2].noun and noun_before.lead in ("", "link")
            plants = had and noun_before.type == "PLANTS"
            if item.words[0].lead == "colon" and (plants or _dug_already(items, n)):
                opened = opened.plus(COUNTED_ALREADY)
            starts.extend(_take_before(opened, noun_before, item.words, expected, ends))
        handed: list[_Way] = []
        for way, rest in starts:
            alone = len(rest) == 1 and shaded and rest[0].lead in ("", "soft")
            ends.append(way.plus(TOTAL_OF_SHADE if alone else _list_cost(rest, expected), rest))
            if noun_ahead is not None and rest:
                told = noun_ahead.type == "DUG" and plants_told
                again = COUNTED_ALREADY if told and len(rest) > 2 else 0.0  # "5 plants 3 0 8 1 4 dug"
                handed.extend(_take_ahead(way.plus(again), noun_ahead, rest, expected))
        closed, taken, opened = _best(ends), _best(handed), None
    best = _best([way for way in (closed, taken) if way is not None])
    return best if best is not None else _Way(0.0, None)


def _dug_already(items: list[_Item], n: int) -> bool:
    """ "4 plants pulled by hand: 3 0 2 1": a list behind plants counted before how they were dug."""
    k = n - 1
    while k > 0 and items[k].noun and items[k].words[0].type in _OF_PLANTS and items[k].words[0].lead in _TIED:
        k -= 1
    counted = k < n - 1 and not items[k].noun and len(items[k].words) == 1
    return counted and items[k].words[0].value == len(items[n].words) > 2


_OF_PLANTS = frozenset({"PLANTS", "DUG", "TOOL"})


def _take_before(
    way: _Way, noun: Word, numbers: list[Word], expected: frozenset[int], ends: list[_Way]
) -> list[tuple[_Way, list[Word]]]:
    """The noun before a run takes its first number, or, being a color, all of it (into ``ends``)."""
    distance = _distance(noun, numbers[0])
    if (noun.type == "COLOUR" and len(numbers) >= 2 and not noun.free) or _lists_females(noun, numbers[::-1], expected):
        ends.append(way.plus(distance + _colour_list_cost(len(numbers), expected), [noun, *numbers]))
    rest = numbers[1:]
    distance += OF_SHADE if noun.type == "COLOUR" and noun.free and numbers[0].lead == "colon" else 0.0
    distance += PLANTS_FIRST if noun.type == "PLANTS" and numbers[0].lead in ("", "link") else 0.0
    distance += PLANTS_COMMA if noun.type == "PLANTS" and numbers[0].lead == "soft" else 0.0
    cost = _pair_cost(noun, numbers[0], distance, len(rest), expected) + (SPLIT if rest else 0.0)
    return [(way.plus(cost, [noun, numbers[0]]), rest)]


def _take_ahead(way: _Way, noun: Word, numbers: list[Word], expected: frozenset[int]) -> list[_Way]:
    """The noun behind a run takes its last number, or, being a color, all of it."""
    distance = _distance(numbers[-1], noun)
    rest = numbers[:-1]
    if _and_last(numbers) and noun.type in ("COLOUR", "FEMALES") and noun.lead in _TIED and not noun.free:
        return [way.plus(distance + _list_cost(numbers, expected), [*numbers, noun])]
    cost = _pair_cost(noun, numbers[-1], distance, len(rest), expected) + _list_cost(rest, expected)
    out = [way.plus(cost + (SPLIT if rest else 0.0), rest, [numbers[-1], noun])]
    if (noun.type == "COLOUR" and rest and not noun.free) or _lists_females(noun, numbers, expected):
        whole = max(distance, 0.0) + _colour_list_cost(len(numbers), expected)
        out.append(way.plus(whole, [*numbers, noun]))
    return out


def _lists_females(noun: Word, numbers: list[Word], expected: frozenset[int]) -> bool:
    """ "3 0 5 2 1 females": one number a plant, and the one beside the word not the sum of the others."""
    *rest, last = [word.value for word in numbers]
    listed = len(numbers) >= LEAST_OF_FEMALES or len(numbers) in expected
    return noun.type == "FEMALES" and len(rest) > 1 and listed and last != sum(rest)


# --- what comes of it


def _bind_chain(chain: list[Word], expected: frozenset[int], draft: Draft, out: list[Word]) -> None:
    if not any(word.type == "NUMBER" for word in chain):
        for n, word in enumerate(word for word in chain if word.type != "OVER"):
            if n and word.lead in ("soft", "colon"):
                out.append(_break(word.start))
            out.append(word)
        return
    best = _solve(_items(_tidy(chain)), expected)
    clauses = best.in_order()
    if best.ways > 1 or _three_of_a_colour(clauses) or _bare_colour(clauses):
        _ask(chain, draft, out)
        return
    for n, clause in enumerate(clauses):
        bare = len(clause) == 1 and clause[0].type != "NUMBER"
        continues = n == 0 and bool(out) and out[-1].type == "NOT" and clause[0].lead in ("", "link")
        beside = bool(out) and out[-1].type == clause[0].type == "COLOUR"
        if out and not continues and not (bare and (n == 0 or beside)):
            out.append(_break(clause[0].start))
        out.extend(clause)
        if not bare:
            out.append(_break(clause[-1].end))


def _three_of_a_colour(clauses: list[list[Word]]) -> bool:
    """ "dug 6 10 20 white": three plants, or six and two of them? Nobody can tell."""
    for before, clause in itertools.pairwise(clauses):
        if (
            len(before) == 1
            and before[0].type in ("DUG", "PLANTS")
            and len(clause) == 4
            and clause[-1].type == "COLOUR"
        ):
            return True
    return False


def _bare_colour(clauses: list[list[Word]]) -> bool:
    """ "white yellow 20": a color without a number right beside one that has it."""
    for n, clause in enumerate(clauses):
        if len(clause) > 1 or clause[0].type != "COLOUR" or clause[0].free:
            continue
        for other in (clauses[n - 1] if n else None, clauses[n + 1] if n + 1 < len(clauses) else None):
            if other is not None and len(other) > 1 and any(word.type == "COLOUR" for word in other):
                later = max((clause[0], other[0]), key=lambda word: word.start)
                if later.lead in ("", "link"):
                    return True
    return False


def _ask(chain: list[Word], draft: Draft, out: list[Word]) -> None:
    start, end = chain[0].start, chain[-1].end
    draft.ask("which_number", start, end)
    text = draft.text[start:end]
    out.extend([_break(start), Word("TEXT", text, start, end, text), _break(end)])
