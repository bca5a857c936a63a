"""Which noun each number belongs to: "pulled 4 3 white 2 yellow" is three clauses, not one silently wrong.

A chain is a run of numbers and nouns without a stop. Every way of pairing them costs something; the cheapest is
taken when it is clearly the cheapest, otherwise the chain is asked about. Costs are judgement, kept in one place.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from notes_bot.language.tokens import Draft, Word

CHAIN = frozenset(["NUMBER", "COLOUR", "PLANTS", "FEMALES", "TOTAL", "EACH", "DUG", "NODULES", "PH", "POTASSIUM", "OVER"])
ALONE = {
    "COLOUR": 6.0,
    "PLANTS": 3.0,
    "FEMALES": 1.0,
    "TOTAL": 3.0,
    "EACH": 0.0,
    "DUG": 1.0,
    "NODULES": 0.0,
    "PH": 8.0,
    "POTASSIUM": 8.0,
}
"""Cost of a noun without a number."""
RIGHT_ONLY = frozenset(("PH", "POTASSIUM"))
LISTABLE = frozenset(("COLOUR",))
STRAY = 10.0
PAIR_LIST = 4.0
SPLIT = 1.0
ACROSS_COMMA = 3.0
TIGHT = -1.0
MARGIN = 0.5
"""Two readings closer than this are both possible: ask."""


class _Item(NamedTuple):
    words: list[Word]
    noun: bool


class _Way(NamedTuple):
    cost: float
    segments: tuple[object, ...] | None
    """Linked list: (earlier, segment); a segment is a list of words that belong together."""
    ways: int


def bind(words: list[Word], draft: Draft) -> list[Word]:
    """The words with BREAKs put where clauses end, free text joined, and doubtful chains asked about."""
    from notes_bot.language.tokens import Word

    out: list[Word] = []
    words = _join_text(words, draft)
    expected = _expected(words)
    i = 0
    while i < len(words):
        word = words[i]
        if word.lead in ("hard", "line", "soft", "colon") and out:
            out.append(Word("_BREAK", None, word.start, word.start, ""))
        if word.type not in CHAIN and word.type != "PLUS":
            out.append(word)
            i += 1
            continue
        j = i + 1
        while (
            j < len(words)
            and (words[j].type in CHAIN or words[j].type == "PLUS")
            and words[j].lead not in ("hard", "line")
        ):
            j += 1
        chain = words[i:j]
        before = words[i - 1] if i and word.lead in ("", "link") else None
        plus = [w for w in chain if w.type == "PLUS"]
        chain = [w for w in chain if w.type != "PLUS"]
        if any(w.type == "NUMBER" for w in chain):
            _emit(chain, before, expected, draft, out)
        else:
            for n, w in enumerate(chain):
                if n and w.lead in ("soft", "colon"):
                    out.append(Word("_BREAK", None, w.start, w.start, ""))
                out.append(w)
        for w in plus:
            out.append(Word("_BREAK", None, w.start, w.start, ""))
            out.append(Word("TOO_MANY", "at_least", w.start, w.end, w.text))
            out.append(Word("_BREAK", None, w.start, w.start, ""))
        i = j
    return out


def _join_text(words: list[Word], draft: Draft) -> list[Word]:
    out: list[Word] = []
    for i, word in enumerate(words):
        previous = out[-1] if out else None
        if word.type == "LINK":
            after = words[i + 1] if i + 1 < len(words) else None
            if (
                previous is not None
                and previous.type == "TEXT"
                and word.lead in ("", "link")
                and (after is None or (after.type in ("TEXT", "LINK") and after.lead in ("", "link")))
            ):
                previous.end = word.end
                previous.text = draft.text[previous.start : word.end]
                continue
            if after is not None and after.type == "TEXT" and after.lead in ("", "link"):
                word.type = "TEXT"
                out.append(word)
                continue
            if after is not None and after.lead in ("", "link") and word.lead not in ("", "link"):
                after.lead = word.lead
            continue
        if (
            word.type == "TEXT"
            and previous is not None
            and previous.type == "TEXT"
            and word.lead in ("", "link", "colon")
        ):
            previous.end = word.end
            previous.text = draft.text[previous.start : word.end]
            continue
        out.append(word)
    for word in out:
        if word.type == "TEXT":
            word.value = word.text
    return out


def _expected(words: list[Word]) -> frozenset[int]:
    """Numbers that may be the count of plants: those beside a word for plants or digging."""
    found: set[int] = set()
    for i, word in enumerate(words):
        if word.type == "NUMBER" and isinstance(word.value, int):
            for j in (i - 1, i + 1):
                if 0 <= j < len(words) and words[j].type in ("PLANTS", "DUG"):
                    found.add(word.value)
    return frozenset(found)


def _items(chain: list[Word]) -> list[_Item]:
    """Nouns and runs of numbers; a colon or a lone comma ends a run, a comma list of three and more is one run."""
    from notes_bot.language.tokens import Word

    words: list[Word] = []
    for n, word in enumerate(chain):
        previous = words[-1] if words else None
        if word.type == "FEMALES" and previous is not None and previous.type == "COLOUR" and word.lead in ("", "link"):
            previous.end = word.end
            continue
        if word.type == "EACH" and any(w.type == "EACH" for w in words[-3:]):
            continue
        if word.type == "OVER":
            after = chain[n + 1] if n + 1 < len(chain) else None
            beyond = chain[n + 2] if n + 2 < len(chain) else None
            if previous is not None and previous.type == "NUMBER" and beyond is not None and beyond.type == "PLANTS":
                words.append(Word("FEMALES", "female", word.start, word.start, "", "link"))
            if (
                after is not None
                and (beyond is None or beyond.type not in ("PLANTS", "NUMBER"))
                and word.text.lower() not in ("of", "de")
            ):
                words.append(Word("PLANTS", "plants", word.start, word.end, word.text, "link"))
            continue
        words.append(word)
    items: list[_Item] = []
    n = 0
    while n < len(words):
        if words[n].type != "NUMBER":
            items.append(_Item([words[n]], noun=True))
            n += 1
            continue
        m = n + 1
        while m < len(words) and words[m].type == "NUMBER" and words[m].lead in ("", "link"):
            m += 1
        if m == n + 1:
            k = n + 1
            while k < len(words) and words[k].type == "NUMBER" and words[k].lead == "soft":
                k += 1
            if k - n >= 3:
                m = k
        items.append(_Item(words[n:m], noun=False))
        n = m
    return items


def _crossing(left: Word, right: Word) -> float:
    if right.lead == "soft":
        return ACROSS_COMMA
    if right.lead == "" and right.start == left.end:
        return TIGHT
    return 0.0


def _list_cost(size: int, expected: frozenset[int]) -> float:
    if size == 0:
        return 0.0
    if size in expected and size >= 2:
        return -1.0
    if size == 1:
        return STRAY
    return PAIR_LIST if size == 2 else 0.0


def _mismatch(noun: Word, number: Word, left_over: int) -> float:
    """A count of plants beside a list: dearer when the list has another length."""
    if noun.type not in ("PLANTS", "DUG") or left_over < 3 or number.value == left_over:
        return 0.0
    return 0.2 if isinstance(number.value, int) and abs(number.value - left_over) == 1 else 2.0


def _solve(items: list[_Item], before: Word | None, text: str, expected: frozenset[int]) -> _Way:
    free = {id(item.words[0]): _free(items, n, before, text) for n, item in enumerate(items) if item.noun}
    closed: _Way | None = _Way(0.0, None, 1)
    opened: _Way | None = None
    taken: _Way | None = None
    """Ways in which the noun at hand already has its number."""
    for n, item in enumerate(items):
        following = items[n + 1] if n + 1 < len(items) else None
        if item.noun:
            word = item.words[0]
            done: list[_Way] = []
            if taken is not None:
                done.append(taken)
            if closed is not None:
                cost = 0.0 if free[id(word)] else ALONE[word.type]
                done.append(_Way(closed.cost + cost, (closed.segments, [word]), closed.ways))
            opened = closed if following is not None and not following.noun else None
            closed, taken = _best(done), None
            continue
        numbers = item.words
        noun_before = items[n - 1].words[0] if n and items[n - 1].noun else None
        noun_after = following.words[0] if following is not None and following.noun else None
        if noun_after is not None and noun_after.type in RIGHT_ONLY:
            noun_after = None
        next_closed: list[_Way] = []
        next_taken: list[_Way] = []
        starts: list[tuple[_Way, Word | None]] = []
        if closed is not None:
            starts.append((closed, None))
        if opened is not None and noun_before is not None:
            starts.append((opened, noun_before))
        for way, left in starts:
            options: list[tuple[float, list[list[Word]], int]] = []
            if left is None:
                options.append((0.0, [], 0))
            else:
                options.append(
                    (
                        _crossing(left, numbers[0])
                        + _number_cost(left)
                        + (_mismatch(left, numbers[0], len(numbers) - 1)),
                        [[left, numbers[0]]],
                        1,
                    )
                )
                if left.type in LISTABLE and len(numbers) >= 2 and not free[id(left)]:
                    cost = (
                        0.3
                        + _crossing(left, numbers[0])
                        + min(0.0, _list_cost(len(numbers), expected))
                        + (PAIR_LIST if len(numbers) == 2 and 2 not in expected else 0.0)
                    )
                    next_closed.append(_Way(way.cost + cost, (way.segments, [left, *numbers]), way.ways))
            for cost, segments, used in options:
                rest = numbers[used:]
                split = SPLIT if used and rest else 0.0
                linked = way.segments
                for segment in segments:
                    linked = (linked, segment)
                total = way.cost + cost
                next_closed.append(
                    _Way(
                        total + split * (1 if rest else 0) + _list_cost(len(rest), expected),
                        (linked, rest) if rest else linked,
                        way.ways,
                    )
                )
                if noun_after is None or not rest:
                    continue
                tight = _crossing(rest[-1], noun_after)
                inner = rest[:-1]
                more = (
                    tight
                    + _number_cost(noun_after)
                    + _mismatch(noun_after, rest[-1], len(inner))
                    + (SPLIT if used and not inner else 0.0) * 0
                )
                more += _list_cost(len(inner), expected) + (SPLIT if inner else 0.0) + (split if inner else 0.0)
                chained = (linked, inner) if inner else linked
                next_taken.append(_Way(total + more, (chained, [rest[-1], noun_after]), way.ways))
                if noun_after.type in LISTABLE and len(rest) >= 2 and not free[id(noun_after)]:
                    cost_list = (
                        0.3
                        + max(tight, 0.0)
                        + split
                        + min(0.0, _list_cost(len(rest), expected))
                        + (PAIR_LIST if len(rest) == 2 and 2 not in expected else 0.0)
                    )
                    next_taken.append(_Way(total + cost_list, (linked, [*rest, noun_after]), way.ways))
        closed, taken, opened = _best(next_closed), _best(next_taken), None
    ends = [way for way in (closed, taken) if way is not None]
    best = _best(ends)
    assert best is not None
    return best


def _number_cost(noun: Word) -> float:
    return 0.5 if noun.type == "EACH" else 0.0


def _best(ways: list[_Way]) -> _Way | None:
    """The cheapest; its ``ways`` grows when another is as good."""
    if not ways:
        return None
    ways = sorted(ways, key=lambda way: way.cost)
    best = ways[0]
    more = sum(way.ways for way in ways[1:] if way.cost - best.cost < MARGIN)
    return best._replace(ways=min(best.ways + more, 99))


def _free(items: list[_Item], n: int, before: Word | None, text: str) -> bool:
    """May this noun stand without a number? A colour may after "mostly" or "no", or joined to another (w+y)."""
    word = items[n].words[0]
    if word.type != "COLOUR":
        return False
    if n == 0 and before is not None and before.type in ("MOSTLY", "NOT", "TOO_MANY"):
        return True
    for other in (n - 1, n + 1):
        if 0 <= other < len(items) and items[other].noun and items[other].words[0].type == "COLOUR":
            a, b = sorted((word, items[other].words[0]), key=lambda w: w.start)
            between = text[a.end : b.start].strip()
            if between:
                return True
    return False


def _emit(chain: list[Word], before: Word | None, expected: frozenset[int], draft: Draft, out: list[Word]) -> None:
    from notes_bot.language.tokens import Word

    items = _items(chain)
    best = _solve(items, before, draft.text, expected)
    if best.ways > 1:
        start, end = chain[0].start, chain[-1].end
        draft.asks.append(("which_number", start, end))
        out.append(Word("_BREAK", None, start, start, ""))
        out.append(Word("TEXT", draft.text[start:end], start, end, draft.text[start:end]))
        out.append(Word("_BREAK", None, end, end, ""))
        return
    segments: list[list[Word]] = []
    node = best.segments
    while node is not None:
        earlier, segment = node
        segments.append(segment)  # type: ignore[arg-type]
        node = earlier  # type: ignore[assignment]
    segments.reverse()
    first = True
    for segment in segments:
        single = len(segment) == 1 and segment[0].type != "NUMBER"
        if (
            out
            and not (single and first)
            and not (first and out[-1].type == "NOT" and segment[0].lead in ("", "link"))
            and not (single and out[-1].type == "COLOUR" and segment[0].type == "COLOUR")
        ):
            out.append(Word("_BREAK", None, segment[0].start, segment[0].start, ""))
        out.extend(segment)
        if not single:
            out.append(Word("_BREAK", None, segment[-1].end, segment[-1].end, ""))
        first = False
