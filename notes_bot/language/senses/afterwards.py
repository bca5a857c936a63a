"""What is set right when all tokens of the text stand."""

from __future__ import annotations

import itertools

from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.tokens import Slip, Word
from notes_bot.language.senses.around import LOOKED_BACK
from notes_bot.language.senses.walk import Walk

MOST_PLACES = 12
"""Places of one note that may be told with their plants first (judgement)."""
MOST_BARE_PLANTS = 20
"""Plants a small bare number between a field and a glued count may mean: "tinkers 5 3w" (judgement)."""


def bare_plants(walk: Walk) -> None:
    """ "Tinkers 5 3w": a small number between the field and a glued count of a color is plants, and said so."""
    out: list[Word] = []
    for n, word in enumerate(walk.out):
        out.append(word)
        if n == 0 or word.type != "NUMBER" or walk.out[n - 1].type != "FIELD" or not _small(word):
            continue
        count, colour = [*walk.out[n + 1 : n + 3], None, None][:2]
        glued = count is not None and colour is not None and count.type == "NUMBER" and colour.type == "COLOUR"
        if not glued or count is None or colour is None or count.end != colour.start or count.lead not in ("", "soft"):
            continue
        rest = itertools.takewhile(lambda other: other.type != "FIELD", walk.out[n + 1 : n + LOOKED_BACK])
        if not any(other.type in ("PLANTS", "DUG", "EACH") for other in rest):
            out.append(Word("PLANTS", "plants", word.end, word.end, ""))
            plants = walk.made.first["PLANTS", "plants"]
            walk.draft.slips.append(Slip("near_word", f"{word.value} {plants}", word.start, word.end))
    walk.out = out


def _small(word: Word) -> bool:
    """Is it a number that so many plants may be dug of?"""
    return isinstance(word.value, int) and 0 < word.value <= MOST_BARE_PLANTS


def plants_head_a_list(walk: Walk) -> None:
    """ "plantas: 1 2 0 4, todas blancas": the word before the colon heads a list, one number a plant."""
    for n, word in enumerate(walk.out):
        if word.type != "PLANTS":
            continue
        row = [other.type for other in walk.out[n + 1 : n + 4]]
        before = walk.out[n - 1].type if n else ""
        if row != ["NUMBER"] * 3 or before in ("NUMBER", "DUG", "EACH", "TOTAL"):
            continue
        tied = all(other.lead in ("", "soft") for other in walk.out[n + 2 : n + 4])
        if ":" in walk.draft.text[word.end : walk.out[n + 1].start] and tied:
            word.type, word.value = "TEXT", None


def counts_before_places(walk: Walk) -> None:
    """ "3 pl dentro 25 b, 3 pl fora 2 b": the plants before each place are that place's own."""
    places = [n for n, word in enumerate(walk.out) if word.type in ("SPOT", "CHECK")]
    heads = [_count_before(walk, n) for n in places]
    if any(head is None for head in heads):
        listed = _told_ahead(walk, places, heads)
        places, heads = places[:listed], heads[:listed]
    if not places:
        return
    for n, head in sorted(zip(places, heads, strict=True), reverse=True):
        at = head if head is not None else n
        place, counted = walk.out[n], walk.out[at:n]
        if len(counted) == 1:
            counted.append(Word("PLANTS", "plants", counted[0].end, counted[0].end, ""))
        lead = counted[0].lead
        place.lead, counted[0].lead = ("soft" if lead in ("", "link") else lead), ""
        walk.out[at : n + 1] = [place, *counted]


def _told_ahead(walk: Walk, places: list[int], heads: list[int | None]) -> int:
    """How many places are told with their plants first, to be told of again in later sentences; 0 for none.

    "4 from the north end and 4 from the south end. North end was 16 white .. South end was 0."
    """
    names = [str(walk.out[n].value) for n in places[: 2 * MOST_PLACES]]
    first = next((k for k, name in enumerate(names) if name in names[:k]), 0)
    again = names[first:]
    told = first > 1 and all(head is not None for head in heads[:first]) and set(again) <= set(names[:first])
    return first if told else 0


def _count_before(walk: Walk, n: int) -> int | None:
    """Where the count of plants right before a place begins, when the place has none of its own behind it."""
    if walk.out[n].lead not in ("", "link"):
        return None
    at = n - 2 if n and walk.out[n - 1].type == "PLANTS" else n - 1
    if at < 0 or walk.out[at].type != "NUMBER":
        return None
    if at > 1 and walk.out[at - 1].type == "OVER" and walk.out[at - 2].type in ("COLOUR", "FEMALES"):
        return None  # "3 white on four plants near the lane": the plants are those of the count before
    beside = at > 0 and walk.out[at - 1].type in ("NUMBER", "COLOUR", "PLANTS")
    if beside and walk.out[at].lead in ("", "link"):
        return None
    behind = [word.type for word in walk.out[n + 1 : n + 3]]
    return None if "PLANTS" in behind or "DUG" in behind else at


def lighter_brown(walk: Walk) -> None:
    """ "5 castanhas e 2 marrons": where two words for brown are counted, the lighter one is tan."""
    browns = [w for w in walk.out if w.type == "COLOUR" and w.value == "brown"]
    light = [w for w in browns if walk.made.has("tan_beside_brown", fold(w.text))]
    told = any(w.type == "COLOUR" and w.value == "tan" for w in walk.out)
    if not told and light and len(light) < len(browns):
        for word in light:
            word.value = "tan"
            walk.draft.slips.append(Slip("near_word", walk.made.first["COLOUR", "tan"], word.start, word.end))
