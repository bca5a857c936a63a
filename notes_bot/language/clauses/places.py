"""Places in a field that no table has: where plants and females are counted again and again, words between name where.

"By the cattails 18 white on 4 plants but up by the windmill just 1 white on 4 plants": two groups, each with plants and
what was on them, each with words of its own. The repetition tells that the words are places, not the words themselves.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from itertools import pairwise

from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.tokens import Word
from notes_bot.language.lexicon.words import Table
from notes_bot.language.names.naming import written

LONGEST_PLACE = 5
"""Words in the name of a place that no table has (judgement)."""
LEAST_PLACES = 2
"""Places from which plants told before them may be those of all (judgement)."""
_NAMED = frozenset({"SPOT", "CHECK"})
_FINDING = frozenset({"NONE", "TOO_MANY", "SERIES"})
_COUNTED = frozenset({"COLOUR", "FEMALES", "TOTAL"})
_DESCRIBES = frozenset({"TEXT", "TEXTURE", "MOISTURE", "RESISTANCE"})
"""What a place may be told by: the sandy rise, resistant rows."""
_MEASURES = frozenset({"NUMBER", "PLANTS", "COLOUR", "FEMALES", "TOTAL"})
_TIED = frozenset({"", "link"})
_POINT = re.compile(r"p\d", re.IGNORECASE)
"""A point in short, where so many plants were dug at each: "5 per spot. P1 2w, P2 1w"."""


@dataclass(slots=True)
class _Group:
    """Words from one place to the next: what may name it, and the indices of what was counted there."""

    names: list[int] = field(default_factory=list)
    first: int = -1
    last: int = -1
    plants: int = 0
    found: bool = False

    @property
    def whole(self) -> bool:
        """Plants and what was on them."""
        return self.plants == 1 and self.found

    def measure(self, n: int) -> None:
        """One more measuring word."""
        self.first = n if self.first < 0 else self.first
        self.last = n


def name_places(words: list[Word], made: Table, text: str) -> list[Word]:
    """The words with those that name places made SPOTs, each before what was counted there."""
    fields = [n for n, word in enumerate(words) if word.type == "FIELD"]
    bounds = [0, *fields[1:], len(words)]
    if fields and any(stop in text[words[0].start : words[fields[0]].start] for stop in ".;!?\n"):
        bounds = sorted({0, *fields, len(words)})  # a sentence before the field's name holds no place of it
    out: list[Word] = []
    for begin, end in pairwise(bounds):
        out += _in_one_field(words[begin:end], made, text)
    return out


def _in_one_field(words: list[Word], made: Table, text: str) -> list[Word]:
    marks = [n for n, word in enumerate(words[:-1]) if word.type == "MARK"]
    pointed = bool(marks) and any(w.type == "TEXT" and made.has("each_place", fold(w.text)) for w in words)
    for n in marks:
        word = words[n]
        if words[n + 1].lead not in ("", "link", "colon"):
            continue
        if _plants_at(words, n + 1) or (pointed and _POINT.fullmatch(word.text) and _counted_at(words, n + 1)):
            word.type, word.value = "SPOT", written(text, word.start, word.end)  # "P1: 4 pl .. P2: 4 pl"
    words = _found_behind(_beside_places(_plants_untold(_over(words)), made), made)
    if sum(_plants_at(words, n) for n, word in enumerate(words) if word.type == "NUMBER") < 2:
        return words
    groups = [group for group in _grouped(words) if group.plants or group.found]
    groups = _without_sum(words, _completed(words, groups), made)
    if len(groups) < 2 or not all(group.whole for group in groups):
        return words
    names = _before_each(words, groups, made) or _behind_each(words, groups, made)
    return _check_behind(words, groups, made) if names is None else _reordered(words, groups, names, made, text)


def _check_behind(words: list[Word], groups: list[_Group], made: Table) -> list[Word]:
    """ "40 white on 2 plants in the check, 3 white on 6 plants in the crop": what is of no strip first."""
    at = [group.last + 1 for group in groups]
    strips = [k < len(words) and words[k].lead in _TIED and _is_check(words[k], made) for k in at]
    if len(groups) != LEAST_PLACES or sum(strips) != 1:
        return words
    own = strips.index(True)
    after = at[own] + 1
    group, other = groups[own], groups[1 - own]
    if after < len(words) and (words[after].lead in (*_TIED, "colon") or (own == 0 and after != other.first)):
        return words
    first, last = other.first, at[1 - own] + (at[1 - own] < len(words) and words[at[1 - own]].type == "TOPS")
    if last < len(words) and words[last].lead in (*_TIED, "colon"):
        return words  # "3 white on 6 plants by the creek": told of a place
    strip = words[at[own]]
    strip.type, strip.lead, strip.value = "CHECK", "soft", _place(strip.text, made)
    counted = words[group.first : at[own]]
    counted[0].lead, lead = "", counted[0].lead
    if own:
        return [*words[: group.first], strip, *counted, *words[after:]]
    words[first].lead = lead
    return [*words[: group.first], *words[first:last], strip, *counted, *words[last:]]


def _is_check(word: Word, made: Table) -> bool:
    """ "The check", "testigo"."""
    return word.type == "CHECK" or (
        word.type == "TEXT" and any(e.type == "CHECK" for e in made.singles.get(fold(_place(word.text, made)), ()))
    )


def _without_sum(words: list[Word], groups: list[_Group], made: Table) -> list[_Group]:
    """ "Dug 10 plants. Gate 4 plants .., middle 3 .., back 3 ..": the plants of all places told first are no place."""
    if len(groups) > LEAST_PLACES:
        last, others = groups[-1], groups[:-1]
        summed = any(_leads_sum(words[n].text, made) for n in last.names)
        if _sums(words, last, others) or (summed and _plants_summed(words, last, others)):
            return others  # ".. back 4 plants, none. That is nine plants in all", "o sea 11 en 10 plantas"
    first, *others = groups
    if len(others) < LEAST_PLACES or first.names or first.found or first.plants != 1:
        return groups
    return others if _sums(words, first, others) else groups


def _sums(words: list[Word], one: _Group, others: list[_Group]) -> bool:
    """Are the plants of a group, in which nothing is told to be found, those of all others?"""
    return not one.found and _plants_summed(words, one, others)


def _plants_summed(words: list[Word], one: _Group, others: list[_Group]) -> bool:
    """Are the plants of a group, whatever was found on them, those of all others?"""
    told = [_plants_of(words, group) for group in (one, *others)]
    return None not in told and told[0] == sum(n or 0 for n in told[1:])


def _plants_of(words: list[Word], group: _Group) -> int | None:
    """The plants of a group; ``None`` if they are not told once, as a number."""
    at = next((n for n in range(group.first, group.last + 1) if _plants_at(words, n)), -1)
    return int(words[at].value) if group.plants == 1 and at >= 0 and words[at].type == "NUMBER" else None


def _leads_sum(said: str, made: Table) -> bool:
    """ "O sea", "so that makes": words that lead to what all places had together, and name none."""
    words = fold(_place(said, made)).split(" ")
    ends = [" ".join(words[-size:]) for size in (1, 2, 3)]
    return any(made.has_any(manner, ends) for manner in ("leads_sum", "sums_up", "all_told"))


def _found_behind(words: list[Word], made: Table) -> list[Word]:
    """ "Dug 3 at the gate and 3 at the far end, 4 white at the gate, none at the far end": each place behind its count.

    Two such clauses in a row, or one with a place named before, and not right before.
    """
    known = {word.value for word in words if word.type in _NAMED}
    if not known:
        return words
    ours = [word for n, word in enumerate(words) if n > 1 and _place_of_ours(words, n, made)]
    _plants_tied(words)
    clauses: list[list[Word]] = []
    for n, word in enumerate(words):
        counted = n > 0 and words[n - 1].type in _COUNTED | _FINDING
        if counted and word.type == "TEXT" and word.lead in _TIED and _place(word.text, made) in known:
            word.type, word.value = "SPOT", _place(word.text, made)
        placed = (
            n > 0 and words[n - 1].type in _NAMED and word.type in ("NUMBER", *_FINDING) and not _plants_at(words, n)
        )
        headed = n > 0 and words[n - 1].type == "FIELD"
        if not clauses or headed or word.lead in ("soft", "hard", "line") or (placed and word.lead == "link"):
            clauses.append([])
        clauses[-1].append(word)
    places = [_place_of(clause, ours) for clause in clauses]
    named: list[str] = []
    out: list[Word] = []
    for n, (clause, spot) in enumerate(zip(clauses, places, strict=True)):
        again = spot is not None and spot.value in named[:-1]
        if spot is not None and (again or any(0 <= k < len(places) and places[k] for k in (n - 1, n + 1))):
            if spot.type == "TEXT":
                spot.type, spot.value = "SPOT", _place(spot.text, made)
            spot.lead, clause[0].lead = "soft", ""
            clause = [spot, *(word for word in clause if word is not spot)]
        named += [word.value for word in clause if word.type in _NAMED]
        out += clause
    return out


def _plants_tied(words: list[Word]) -> None:
    """ "12 white by the well (4 plants) and none by the lane (4 plants)": plants behind each place are of that place.

    Not where plants are told behind one of the places only.
    """
    found = [n for n, word in enumerate(words) if n and word.type in _NAMED and _finding_ends(words, n - 1)]
    plants = [n + 1 for n in found if n + 2 < len(words) and words[n + 1].lead == "soft" and _plants_at(words, n + 1)]
    closed = all(n + 2 == len(words) or words[n + 2].lead in ("soft", "hard", "line", "link") for n in plants)
    if len(plants) > 1 and len(plants) == len(found) and closed:
        for n in plants:
            words[n].lead = ""
            if n + 2 < len(words) and words[n + 2].lead == "link":
                words[n + 2].lead = "soft"


def _finding_ends(words: list[Word], n: int) -> bool:
    """Does a count of females, or none, end there, its place right behind it?"""
    return words[n].type in _COUNTED | _FINDING and words[n + 1].lead in _TIED


def _place_of_ours(words: list[Word], n: int, made: Table) -> bool:
    """ "(9 white) in the hollow": a word for a place behind a count, where no count of it follows."""
    word = words[n]
    if word.type != "TEXT" or word.lead not in _TIED or words[n - 1].type not in _COUNTED | _FINDING:
        return False
    return any(entry.type == "SPOT" for entry in made.singles.get(fold(_place(word.text, made)), ()))


def _place_of(clause: list[Word], ours: list[Word]) -> Word | None:
    """The place of a clause that tells a count of females, or none, with the place behind it and nothing else.

    The plants may stand behind the place: "none on the hill on 5 plants".
    """
    plants = len(clause) > 3 and _plants_at(clause, len(clause) - 2)
    told = clause[:-2] if plants else clause
    spot, counts = told[-1], [word.type for word in told[:-1]]
    if not counts or not all(word.lead in _TIED for word in clause[1:]):
        return None
    if not (spot.type in _NAMED or any(spot is word for word in ours)):
        return None
    if len(counts) == 1:
        return spot if counts[0] in _FINDING - {"SERIES"} else None
    pairs = all(kind == "NUMBER" for kind in counts[::2]) and all(kind in _COUNTED for kind in counts[1::2])
    return spot if pairs and len(counts) % 2 == 0 else None


def _beside_places(words: list[Word], made: Table) -> list[Word]:
    """ "North end 5w 11y; drain 9w": beside a known place, words that begin a clause and are counted behind are one.

    "Resto 6 pl" is a place only behind another.
    """
    placed = [n for n, word in enumerate(words) if word.type in _NAMED and _counted_at(words, n + 1)]
    for n in _in_each(words, made, len(placed)):
        words[n].type, words[n].value = "SPOT", _place(words[n].text, made)
    for n, word in enumerate(words) if placed else ():
        if word.type != "TEXT" or word.lead not in ("soft", "hard", "line") or not _counted_at(words, n + 1):
            continue
        said = fold(_place(word.text, made)).split(" ")
        rest = n > placed[0] and len(said) == 1 and made.has("rest_word", said[0])
        titles = words[n + 1].lead == "colon"  # "Área: 6 plantas .."
        known = said[0] in made.singles or (said[0] in made.plain and len(placed) < 2 and not titles)
        new = len(said) == 1 and not known
        if rest or (new and _names_place(words, n, made)):
            word.type, word.value = "SPOT", _place(word.text, made)
    return words


def _in_each(words: list[Word], made: Table, placed: int) -> list[int]:
    """ "Dug 3 plants in each. Maple side 2 white. Open side 15 white": words that head a sentence and are counted."""
    texts = [n for n, word in enumerate(words) if word.type == "TEXT"]
    said = (one for n in texts for one in fold(words[n].text).split(" "))
    if not any(made.has("each_place", one) for one in said):
        return []
    heads = [n for n in texts if words[n].lead in ("hard", "line") and _counted_at(words, n + 1)]
    heads = [n for n in heads if _names_place(words, n, made)]
    return heads if len(heads) + placed > 1 and any(_plants_at(words, n) for n in range(len(words))) else []


def _counted_at(words: list[Word], n: int) -> bool:
    """Does a count of a color, females or plants stand there?"""
    pair = words[n : n + 2]
    tied = len(pair) == 2 and pair[0].lead in ("", "link", "colon") and pair[1].lead in _TIED
    return tied and pair[0].type == "NUMBER" and pair[1].type in _MEASURES - {"NUMBER"}


def _grouped(words: list[Word]) -> list[_Group]:
    """Groups, cut where words that may name a place follow something measured."""
    groups = [_Group()]
    for n, word in enumerate(words):
        group = groups[-1]
        if word.type == "TEXT" or word.type in _NAMED:
            if group.first >= 0:
                group = _Group()
                groups.append(group)
            group.names.append(n)
        elif _plants_at(words, n):
            above = groups[-2] if len(groups) > 1 else _Group()
            if group.whole or (group.found and above.plants and not above.found):
                group = _Group()
                groups.append(group)
            group.plants += 1
            group.measure(n)
            group.measure(n + 1)
        elif word.type == "NUMBER":
            finds = _finds(words, n)
            group.found = group.found or finds
            if finds:
                group.measure(n)
        elif word.type in _FINDING or _shade_first(words, n):
            group.found = True
            group.measure(n)
        elif word.type in _COUNTED and group.first >= 0 and word.lead in _TIED:
            group.measure(n)
    return groups


def _shade_first(words: list[Word], n: int) -> bool:
    """ "White 9 yellow 3 on 4 plants": does a color begin there whose count stands behind it?"""
    if words[n].type != "COLOUR" or n + 1 >= len(words) or words[n + 1].type != "NUMBER" or words[n + 1].lead != "":
        return False
    if n and words[n - 1].type == "NUMBER" and words[n].lead in _TIED:
        return n > 1 and words[n - 2].type == "COLOUR" and _shade_first(words, n - 2)
    behind = words[n + 2] if n + 2 < len(words) else None
    return behind is None or behind.lead in ("soft", "hard", "line") or behind.type in ("COLOUR", "OVER")


def _completed(words: list[Word], groups: list[_Group]) -> list[_Group]:
    """ "6 plants on the hill (4 white) and 6 in the draw (19 white)": plants before a place, females behind it."""
    out: list[_Group] = []
    for group in groups:
        last = out[-1] if out else None
        if last is not None and last.plants == 1 and not last.found and group.found and not group.plants:
            behind = bool(group.names) and words[group.names[0]].lead in _TIED
            if behind and not any(words[n].type in _NAMED for n in last.names):
                last.names = group.names
            last.found, last.last = True, group.last
        elif last is not None and last.whole and group.found and not group.plants:
            last.last = group.last  # one more color, after a remark
        else:
            out.append(group)
    return out


def _over(words: list[Word]) -> list[Word]:
    """ "11 white on 6 plants, the check strip 88 white on 6": the second 6 counts plants as the first.

    So do all of them where each heads a place: "inside 13w on 3, outside 0 on 3".
    """
    over = [n for n, word in enumerate(words) if word.type == "OVER" and n + 1 < len(words)]
    bare = {n + 1 for n in over if words[n + 1].type == "NUMBER" and not _plants_at(words, n + 1)}
    if not bare or (len(bare) == len(over) and not (len(bare) > 1 and all(_closes_place(words, n) for n in bare))):
        return words
    out: list[Word] = []
    for n, word in enumerate(words):
        out.append(word)
        behind = words[n + 1] if n + 1 < len(words) else None
        if n in bare and (behind is None or behind.lead in ("soft", "hard", "line") or behind.type not in _MEASURES):
            out.append(Word("PLANTS", "plants", word.end, word.end, ""))
    return out


def _closes_place(words: list[Word], n: int) -> bool:
    """ "Outside 0 on 3": does the number end a clause of words for a place and counts?"""
    if n + 1 < len(words) and words[n + 1].lead not in ("soft", "hard", "line"):
        return False
    first = n
    while first and words[first].lead in (*_TIED, "colon") and words[first - 1].type != "FIELD":
        first -= 1
    named, *counts = words[first:n]
    return named.type in ("TEXT", *_NAMED) and all(
        word.type in (*_COUNTED, "NUMBER", "NONE", "OVER") for word in counts
    )


def _plants_untold(words: list[Word]) -> list[Word]:
    """ "6 plants on the hill (4 white) and 6 in the draw (19 white)": the second 6 counts plants too."""
    out: list[Word] = []
    told = False
    for n, word in enumerate(words):
        out.append(word)
        told = told or word.type == "PLANTS"
        if word.type != "NUMBER" or not told:
            continue
        at = n + 1
        while at < len(words) and words[at].type == "LINK":
            at += 1
        placed = n < at < len(words) - 1 and words[at].type == "TEXT" and words[n + 1].lead == "link"
        if placed and words[at + 1].type in ("NUMBER", *_FINDING) and words[at + 1].lead in ("soft", "colon"):
            out.append(Word("PLANTS", "plants", word.end, word.end, ""))
    return out


def _plants_at(words: list[Word], n: int) -> bool:
    """Does a count of plants begin there? Not the last of a list."""
    if words[n].type != "NUMBER" or n + 1 == len(words):
        return False
    beside = words[n + 1]
    if not (beside.type == "PLANTS" or _dug_at(words, n + 1)) or beside.lead not in _TIED:
        return False
    before = words[n - 1] if n else None
    return not (before is not None and before.type == "NUMBER" and words[n].lead in _TIED)


def _dug_at(words: list[Word], n: int) -> bool:
    """ "5 dug at the gate", "gate 5 dug 18w 2y", "low end, 5 dug 0": dug, with a place or what was found behind it."""
    if words[n].type != "DUG" or n + 1 >= len(words):
        return False
    behind = words[n + 1]
    if behind.type in ("TEXT", *_NAMED):
        return True
    placed = words[n - 2].type in ("TEXT", "TOP", "LEAF", *_NAMED) if n > 1 else False
    counted = behind.type in ("NUMBER", *_FINDING) and behind.lead in (*_TIED, "soft", "colon")
    return placed and counted


def _finds(words: list[Word], n: int) -> bool:
    """Is the number a count of females: beside a color, or one of a list?"""
    after = words[n + 1] if n + 1 < len(words) else None
    before = words[n - 1] if n else None
    if after is not None and after.lead in _TIED and after.type in (*_COUNTED, "OVER"):
        return True
    if after is not None and after.type == "NUMBER" and after.lead in ("", "link", "soft"):
        return True
    if before is not None and (before.type == "PLANTS" or (before.type == "DUG" and _plants_at(words, n - 2))):
        return True
    return before is not None and before.type in ("NUMBER", *_COUNTED) and words[n].lead in ("", "link", "colon")


# --- their names


def _before_each(words: list[Word], groups: list[_Group], made: Table) -> list[int] | None:
    """For each group the index of the words before it that name its place."""
    found: list[int] = []
    for group in groups:
        told = [n for n in group.names if words[n].type in _NAMED and n < group.last]
        told = [n for n in told if not _told_before(words, n, group.first)]
        said = [n for n in group.names if words[n].type == "TEXT" and n < group.last]
        seed = words[group.first - 1] if group.first else None
        if told and seed is not None and seed.type == "RESISTANCE" and seed.lead in ("hard", "line"):
            return None  # "faixa suscetível do lado. Resistente 5 pés 2": seed tells the two apart
        at = next(iter(told), said[-1] if said else -1)
        if at < 0 and group.first and _is_stand(words[group.first - 1], made):
            at = group.first - 1
        elif at < 0 and group.first and words[group.first - 1].type in ("TEXTURE", "MOISTURE"):
            at = group.first - 1 if words[group.first].lead in ("", "link", "colon") else -1  # "sand 5 pl, gumbo 5 pl"
        elif at >= 0 and not told and not _names_place(words, at, made):
            return None
        if at < 0:
            return None
        found.append(at)
    return found


def _told_before(words: list[Word], n: int, first: int) -> bool:
    """ "Kestrel has our check strip. In the resistant variety five plants ..": a place of an earlier sentence."""
    behind = words[n + 1 : first + 1]
    return len(behind) > 2 and any(word.lead in ("hard", "line") for word in behind[1:])


def _is_stand(word: Word, made: Table) -> bool:
    """ "The resistant bean had ..": seed told by the plants grown of it."""
    last = fold(word.text).split(" ")[-1]
    plants = (entry.type for form in (last, last + "s") for entry in made.singles.get(form, ()))
    return word.type == "RESISTANCE" and any(kind in ("TOPS", "PLANTS") for kind in plants)


def _behind_each(words: list[Word], groups: list[_Group], made: Table) -> list[int] | None:
    """ "18 white on 4 plants by the cattails; 1 white on 4 plants by the windmill"."""
    found: list[int] = []
    for group, after in zip(groups, [*groups[1:], None], strict=True):
        at = group.last + 1
        while at < len(words) and words[at].type == "LINK":
            at += 1
        if at >= len(words) or words[at].lead not in _TIED:
            return None
        if after is not None and (at >= after.first or words[after.first].lead not in ("soft", "hard", "line", "link")):
            return None
        if words[at].type not in _NAMED and not (words[at].type == "TEXT" and _names_place(words, at, made)):
            return None
        found.append(at)
    return found


def _names_place(words: list[Word], at: int, made: Table) -> bool:
    before = words[at - 1] if at else None
    if before is not None and words[at].lead == "" and before.type in ("SOURCE", "VARIETY", "NAME"):
        return False  # "PI 437654 line. 10 pl .."
    if _leads_sum(words[at].text, made):
        return False
    if made.said("before_now", words[at].text):
        return False  # "last year Depot had forty on five plants, this year six"
    said = _place(words[at].text, made).split()
    if not 0 < len(said) <= LONGEST_PLACE or not any(ch.isalpha() for ch in words[at].text):
        return False
    if all(any(e.type in ("HAD", "VARIETY") for e in made.singles.get(fold(one), ())) for one in said):
        return False  # "de la variedad ocho plantas", "y tuvieron"
    if all(made.has("place_lead", fold(one)) for one in said):
        return False  # "whereas five plants in the resistant part .."
    if said[0].isdigit() and any(made.has("place_count", fold(one)) for one in said[1:]):
        return False  # "3 pontos de 4 plantas cada": how many places, and none of them
    if any(made.has("each_place", fold(one)) for one in said):
        return False  # "3 plants each, and found .."
    behind = words[at + 1] if at + 1 < len(words) else None
    if made.has_any("time_unit", map(fold, said)) or (
        behind is not None and behind.type == "SPAN" and behind.lead == ""
    ):
        return False  # "bucket 5 min: 6 pl ..", "soaked half an hour: 6 pl .."
    never = any(made.has("no_place", fold(one)) or made.has("no_spot", fold(one)) for one in said)
    return not never and "?" not in words[at].text


def _place(said: str, made: Table) -> str:
    """The words that name a place, without those that lead to it ("but up by the cattails")."""
    words = written(said, 0, len(said)).split(": ")[-1].split(" ")  # "ensaio: linha 1"
    is_ = next((n for n, word in enumerate(words) if n and made.has("is_word", fold(word))), len(words))
    words = words[:is_]  # "the west side is the susceptible check strip"
    told = [fold(word) for word in words]
    ways = (n for n in range(len(told) - 2, 1, -1) if made.has("and_then", told[n]) and made.has("at", told[n + 1]))
    words = words[next(ways, -1) + 1 :]  # "so i huffed it up there and on the hilltop"
    while len(words) > 1 and (made.has("place_lead", fold(words[0])) or made.has("place_walk", fold(words[0]))):
        words = words[1:]
    while len(words) > 1 and made.has("place_tail", fold(words[-1])):
        words = words[:-1]  # "along the fence line we found 9 white"
    return " ".join(words)


def _reordered(words: list[Word], groups: list[_Group], names: list[int], made: Table, text: str) -> list[Word]:
    """Each place before its own counts, as a SPOT; what stands right before it in the same breath is of its name."""
    before = {group.first: name for group, name in zip(groups, names, strict=True)}
    moved = {at for at in names if words[at].type != "RESISTANCE"}
    for at in moved.copy():
        begin = at
        while begin and begin - 1 not in moved and words[begin].lead == "" and words[begin - 1].type in _DESCRIBES:
            begin -= 1
        while begin < at and words[begin].lead == "":
            begin += 1  # "R2 sandy gate": of the field, not of the gate
        moved.update(n for n in range(begin, at) if words[n].type != "RESISTANCE")
        spot = words[at]
        beans = words[at + 1] if at + 1 < len(words) else None
        if beans is not None and beans.type == "TOPS" and beans.lead == "":
            spot.end = beans.end  # "in decent beans"
            moved.add(at + 1)
        spot.lead, spot.start = words[begin].lead, words[begin].start
        spot.text = text[spot.start : spot.end]
        if spot.type not in _NAMED or begin < at or (beans is not None and spot.end == beans.end):
            strip = any(entry.type == "CHECK" for entry in made.singles.get(fold(spot.text), ()))
            spot.type = spot.type if spot.type in _NAMED else "CHECK" if strip else "SPOT"
            spot.value = _place(spot.text, made)
        spot.lead = "soft" if spot.lead in _TIED else spot.lead
    out: list[Word] = []
    for n, word in enumerate(words):
        if n in before and words[before[n]].type == "RESISTANCE":
            seed = words[before[n]]
            out.append(Word("SPOT", _place(seed.text, made), seed.start, seed.end, seed.text, "soft"))
        elif n in before:
            word.lead = "colon" if word.lead in ("hard", "line") else word.lead
            out.append(words[before[n]])
        if n not in moved:
            out.append(word)
    return out
