"""Strips of a field told apart by their seed: "Check strip: 4 plants .. Resistant: 6 plants ..", "Peking side 5 pl ..".

A word for seed tells what grows in a field. Where it heads counts of its own beside those of a check strip, or beside
those of another seed, it is the name of the strip that was counted.
"""

from __future__ import annotations

from dataclasses import dataclass

from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.tokens import Word
from notes_bot.language.lexicon.words import Table
from notes_bot.language.names.naming import written

_SEED = frozenset({"RESISTANCE", "SOURCE", "VARIETY"})
_TIED = frozenset({"", "link"})
_TELLS = frozenset({"NUMBER", "NONE", "TOO_MANY", "SERIES", "PLANTS", "COLOUR", "FEMALES", "OVER"})
"""What tells of plants or of what was found."""
NEAR_COUNTS = 4
"""Words behind a strip in which its counts begin, "the strip, where I dug (four)" (judgement)."""
_HEADS = frozenset({"soft", "hard", "line", "colon"})
_COUNTED = frozenset({"PLANTS", "COLOUR", "FEMALES", "NUMBER", "DUG", "OVER"})
"""What a number behind a strip's name counts, or is followed by."""


@dataclass(slots=True)
class _Strip:
    """A strip with counts behind it: its words from ``first`` to ``end`` (exclusive), and the one for its seed."""

    first: int
    end: int
    seed: Word

    @property
    def told_as_part(self) -> bool:
        """ "Peking side", "franja 88788": a word for a part of a field beside the seed."""
        return self.end - self.first > 1


def strips_told(words: list[Word], made: Table, text: str) -> list[Word]:
    """The words with seed that names a strip as a SPOT; a susceptible one beside a resistant one is a CHECK."""
    kinds = {word.type for word in words}
    if _SEED.isdisjoint(kinds) and "CHECK" not in kinds:
        return words
    out: list[Word] = []
    for run in _by_field(words):
        run = _without_mention(run, made)
        out += run if _SEED.isdisjoint(kinds) else _in_one_field(run, made, text)
    return out


LONG_SENTENCE = 80
"""Words before and behind in a sentence that are looked at, at most (judgement)."""


def _without_mention(words: list[Word], made: Table) -> list[Word]:
    """ "There is a check strip down the middle. .. The strip: 4 plants, 30 white": told to be there, and counted later.

    In the first sentence nothing is counted, so it heads no counts; what it is called later is the check strip.
    """
    checks = [n for n, word in enumerate(words) if word.type == "CHECK"]
    for n in checks:
        first, last = max(0, n - LONG_SENTENCE), min(len(words), n + LONG_SENTENCE)
        begin = next((k for k in range(n, first, -1) if words[k].lead in ("hard", "line")), first)
        end = next((k for k in range(n + 1, last) if words[k].lead in ("hard", "line")), last)
        sentence = words[begin:end]
        said = any(word.type in ("TEXT", "LINK", "VARIETY", "RESISTANCE") for word in sentence)
        headed = end < len(words) and words[end].type not in (*_TELLS, "NUMBER", "CHECK")
        said = said or (headed and any(word.type == "FIELD" for word in sentence))  # "Kestrel, with a check strip."
        if not said or any(word.type in _TELLS for word in sentence):
            continue
        again = [word for k, word in enumerate(words[end:], end) if _strip_again(words, k, made)]
        if not again:
            continue
        for word in again:
            if word.type != "CHECK":
                word.type, word.value = "CHECK", " ".join(word.text.lower().split())
        if n + 1 < end and words[n].lead in ("hard", "line"):
            words[n + 1].lead = words[n].lead
        return [*words[:n], *words[n + 1 :]]
    return words


def _strip_again(words: list[Word], n: int, made: Table) -> bool:
    """ "The check strip (4 plants)", "strip: (4 plants)": is it told of by name, with plants or counts behind it?"""
    word = words[n]
    part = word.type in ("SPOT", "TEXT") and made.has("seed_part", fold(word.text).split(" ")[-1])
    named = word.type == "CHECK" or (part and word.lead in ("hard", "line") and len(word.text.split(" ")) < NEAR_COUNTS)
    behind = range(n + 1, min(len(words), n + 1 + NEAR_COUNTS))
    return named and any(
        words[k].type in _TELLS and all(w.lead != "hard" for w in words[n + 1 : k + 1]) for k in behind
    )


def _by_field(words: list[Word]) -> list[list[Word]]:
    """The words of each field; "Mill Race check: .. Mill Race resistant: .." is one of them."""
    runs: list[list[Word]] = [[]]
    name = None
    for word in words:
        if word.type == "FIELD":
            if name not in (None, word.value):
                runs.append([])
            name = word.value
        runs[-1].append(word)
    return runs


def _in_one_field(words: list[Word], made: Table, text: str) -> list[Word]:
    strips = _strips(words, made)
    checks = sum(word.type == "CHECK" and _counted_at(words, n + 1, ("soft",)) for n, word in enumerate(words))
    resists = any(_tells_resistant(word, made) for word in words)
    named = [strip for strip in strips if _names_strip(words, strip, strips, checks)]
    out: list[Word] = []
    at = 0
    for strip in named:
        out += words[at : strip.first]
        out += _as_place(words, strip, resists, text)
        at = strip.end
    return [*out, *words[at:]]


def _strips(words: list[Word], made: Table) -> list[_Strip]:
    """All words for seed that counts follow, each with the word for a part of the field beside it."""
    found: list[_Strip] = []
    for n, word in enumerate(words):
        if word.type not in _SEED:
            continue
        first, end = n, n + 1
        if n and _is_part(words[n - 1], made) and word.lead in _TIED:
            first = n - 1
        elif end < len(words) and _is_part(words[end], made) and words[end].lead == "":
            end += 1
        if _counted_at(words, end):
            found.append(_Strip(first, end, word))
    return found


def _tells_resistant(word: Word, made: Table) -> bool:
    """ "Resistant", "the resistant side" as a place."""
    if word.type == "RESISTANCE":
        return bool(word.value == "resistant")
    entries = (entry for one in fold(word.text).split(" ") for entry in made.singles.get(one, ()))
    return word.type == "SPOT" and any(e.type == "RESISTANCE" and e.value == "resistant" for e in entries)


def _is_part(word: Word, made: Table) -> bool:
    """ "side", "franja": one word for a part of a field, and nothing else."""
    return word.type in ("TEXT", "SPOT", "BANDS") and made.has("seed_part", fold(word.text))


def _counted_at(words: list[Word], n: int, leads: tuple[str, ...] = ()) -> bool:
    """Do plants, females, a list or none follow there, behind no stop or one of these?"""
    if n >= len(words) or words[n].lead not in (*_TIED, "colon", *leads):
        return False
    if words[n].type in ("NONE", "SERIES"):
        return True
    number = n + (words[n].type in ("DUG", "COLOUR"))
    if number >= len(words) or words[number].type != "NUMBER":
        return False
    return number > n or (n + 1 < len(words) and words[n + 1].type in _COUNTED)


def _names_strip(words: list[Word], strip: _Strip, strips: list[_Strip], checks: int) -> bool:
    """Does it name a strip, rather than tell the seed of the field?

    "Peking side .." does beside another strip, "Peking 5 plants .." beside one of another source; "resistant" and
    "variety" at the head of a clause do beside a check strip, if no seed is told besides.
    """
    others = [other for other in strips if other.seed.value != strip.seed.value]
    if strip.told_as_part:
        return bool(others) or checks > 0 or any(w.type == "SPOT" for w in (*words[: strip.first], *words[strip.end :]))
    if strip.seed.type == "SOURCE":
        return any(other.seed.type == "SOURCE" and not other.told_as_part for other in others)
    named_again = words[strip.first - 1].type == "FIELD" and any(w.type == "FIELD" for w in words[: strip.first - 1])
    heads = strip.first > 0 and (words[strip.first].lead in _HEADS or named_again)
    besides = any(word.type in (*_SEED, "NAME") and word is not strip.seed for word in words)
    alone = " " not in strip.seed.text and strip.seed.value != "susceptible"
    return heads and alone and not besides and checks > 0


def _as_place(words: list[Word], strip: _Strip, resists: bool, text: str) -> list[Word]:
    """The strip as a place, or a check; the only source that is told stays that of the field as well."""
    start, end = words[strip.first].start, words[strip.end - 1].end
    check = strip.seed.value == "susceptible" and resists
    lead = words[strip.first].lead
    place = Word("CHECK" if check else "SPOT", written(text, start, end), start, end, text[start:end], lead)
    if lead in _TIED:
        place.lead = "soft"
    only = strip.seed.type == "SOURCE" and sum(word.type == "SOURCE" for word in words) == 1
    seed = Word("SOURCE", strip.seed.value, strip.seed.start, strip.seed.end, strip.seed.text, place.lead)
    if only:
        place.lead = "soft"
    return [seed, place] if only else [place]
