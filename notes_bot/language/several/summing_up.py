"""Sentences behind several notes that say of groups of their fields what stage, soil or digging was.

"R5 at Kestrel, R6 at the other two", "all V4 and moist except Tinkers which is dry", "R4 R4 R3 in that order",
"moist where I dug": what is told and whom it is told of are set beside each other over the whole sentence, and each
note meant is added to. Only where every part of the sentence finds its fields; else it is left as it stands.
"""

from __future__ import annotations

import itertools
import re
from bisect import bisect_right
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cache

from notes_bot.language.clauses.context import Context
from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.crew_names import name_cut
from notes_bot.language.lexicon.scan import Lexeme, scan
from notes_bot.language.lexicon.tokens import Word
from notes_bot.language.lexicon.words import Table, is_field_word, table
from notes_bot.language.names.field_groups import count_of
from notes_bot.language.several.shared_facts import COUNTING, FOUND, OF_DIGGING, Gathered, here_said, is_undug
from notes_bot.model import Language

LEAST_NOTES = 2
"""Notes told before a sentence from which it may say something of a group of them."""
LONGEST_PHRASE = 6
"""Words of the longest phrase for a group of fields, "in all of the other three fields" (judgement)."""
_TOLD = frozenset(
    {"soaked", "moisture", "texture", "stage", "date", "ago", "look_again", "tops", "roots", "how"}
    | {"acidity", "potassium", "variety"}
)
"""Kinds of fact such a sentence may tell."""
_OF_NAMES = frozenset({"soaked", "moisture", "texture", "stage", "tops", "roots"})
"""Kinds that it may tell of fields by their names alone; a day would begin another visit."""
_GOES_ON = frozenset({"how", "soaked", "moisture", "texture", "roots"})
"""Kinds of what is said of all in the sentence behind one that was: "All V6. Every root was soaked."."""
_ONLY_NAMED = frozenset({"TOPS", "ROOTS", "NODULES"})
"""Words that name a part of the crop, and tell nothing of it: "the plants at Kestrel were wilted"."""
_ALSO = frozenset({"text", "field", "courtesy", "quoted"})
_SENTENCE = re.compile(r"(?:[^.;!?\n]|[.;!?](?!\s|$))+")
_STAGE = re.compile(r"(?<!\w)(?:[rv] ?\d{1,2}(?:\.\d)?|v[ec])(?!\w|\.\d)", re.IGNORECASE)
_GROUPS = ("field_group", "for_both", "for_all", "of_fields", "all_over_fields")


@dataclass(frozen=True, slots=True)
class Added:
    """What is told of one field, behind its note."""

    field: str
    fact: Fact


@dataclass(slots=True)
class NoteSoFar:
    """A note as far as it is told: its field's name, and the kinds of its facts."""

    name: str
    kinds: set[str] = field(default_factory=set)

    @property
    def dug(self) -> bool:
        """Is it told of more than that nobody looked?"""
        return "not_looked" not in self.kinds or bool(self.kinds & {"plants", "none"})


@dataclass(slots=True)
class _Part:
    """A part of a sentence: what is told, of which fields, "except", or a word that says neither."""

    kind: str
    facts: list[Fact] = field(default_factory=list)
    names: list[str] = field(default_factory=list)
    group: bool = False
    """Are its fields meant by a word for several of them?"""
    over: bool = False
    """By one that may be told of one field as well: "throughout"?"""
    never: bool = False
    """By one that denies: "neither"?"""
    loose: bool = False
    """By one that may be all of one field's own: "all", "everything"?"""
    short: bool = False
    """Is its field called by a word of its name: "the pit" for Gravel Pit?"""


Told = tuple[list[Fact], list[Added], list[tuple[int, int]]]
"""The facts that are left, what is told of which field, and where that stands."""


def sentences_of(text: str, facts: Sequence[Fact]) -> Iterator[tuple[tuple[int, int], list[Fact]]]:
    """The sentences behind the first of several fields that tell anything, where they stand and what they tell."""
    names = [fact for fact in facts if fact.kind == "field"]
    if len(names) < LEAST_NOTES:
        return
    spans = [found.span() for found in _SENTENCE.finditer(text, names[1].start)]
    begins = [start for start, _ in spans]
    told: list[list[Fact]] = [[] for _ in spans]
    for fact in facts:
        n = bisect_right(begins, fact.start) - 1
        if n >= 0 and fact.start < spans[n][1]:
            told[n].append(fact)
    for (start, end), said in zip(spans, told, strict=True):
        if said and said[-1].end <= end:
            yield (start, end), said


def summed_up(context: Context, facts: list[Fact], together: Mapping[int, tuple[str, ...]]) -> Told:
    """The facts without such sentences; what these tell of which field; and where they stand."""
    added: list[Added] = []
    spans: list[tuple[int, int]] = []
    everyone: list[str] = []
    last = 0
    so_far = SoFar(facts)
    for (start, end), said in sentences_of(context.text, facts):
        if any(at < start for at in together):
            break
        notes = so_far.before(start)
        if not any(fact.kind in _TOLD for fact in said) or len(notes) < LEAST_NOTES:
            everyone = []
            continue
        found = _in_order(context, said, start, end, notes) or _of_groups(context, facts, said, start, end, notes)
        if found:
            added += found
            spans.append((start, end))
            everyone = [note.name for note in notes]
            everyone = everyone if {one.field for one in found} == set(everyone) and _told_alike(found) else []
        elif context.text[last:start].strip(" .;!\n"):
            everyone = []
        elif {fact.kind for fact in said} <= _GOES_ON | _ALSO - {"field"}:
            added += [Added(name, fact) for name in everyone for fact in said if fact.kind in _GOES_ON]
        else:
            everyone = []
        last = end
    return [fact for fact in facts if not _within(fact, spans)] if spans else facts, added, spans


def _told_alike(found: Sequence[Added]) -> bool:
    """Is the same told of each field: not "V6 at the Larks, V5 at the pit"?"""
    values = {(one.fact.kind, str(one.fact.words[0].value) if one.fact.words else "") for one in found}
    return len(values) == len({kind for kind, _ in values})


def add_summed(drafts: Sequence[Gathered], added: Sequence[Added]) -> None:
    """What was told of several fields to the notes of each, where they tell nothing of that kind."""
    for one in added:
        own = [d for d in drafts if d.field == one.field and d.name is not None and d.name.start < one.fact.start]
        told = next((draft for draft in reversed(own) if {f.kind for f in draft.facts} & COUNTING), None)
        if told is not None and one.fact.kind in OF_DIGGING and is_undug(told):
            continue
        if told is not None and all(f.kind != one.fact.kind or f.shared for f in told.facts):
            told.facts.append(replace(one.fact, shared=True))


def _within(fact: Fact, spans: Sequence[tuple[int, int]]) -> bool:
    return fact.kind != "courtesy" and any(start <= fact.start < end for start, end in spans)


class SoFar:
    """The notes as far as they are told, sentence by sentence."""

    def __init__(self, facts: Sequence[Fact]) -> None:
        self._facts = facts
        self._at = 0
        self._notes: dict[str, NoteSoFar] = {}

    def before(self, start: int) -> list[NoteSoFar]:
        """The notes told before a sentence, no earlier one than was asked for, in order; a field only named has none.

        A field told of again is the last of them.
        """
        while self._at < len(self._facts) and self._facts[self._at].start < start:
            fact = self._facts[self._at]
            self._at += 1
            if fact.kind == "field":
                name = str(fact.first("FIELD"))
                self._notes[name] = self._notes.pop(name) if name in self._notes else NoteSoFar(name)
            elif self._notes:
                self._notes[next(reversed(self._notes))].kinds.add(fact.kind)
        return [note for note in self._notes.values() if note.kinds & COUNTING]


# --- one a field, in order


def _in_order(context: Context, said: list[Fact], start: int, end: int, notes: list[NoteSoFar]) -> list[Added]:
    """ "R4 R4 R3 in that order", "R5, R5, R6", "dry, moist and dry respectively": one for each field, as they came."""
    made = table(context.language)
    kinds = {fact.kind for fact in said if fact.kind in _TOLD}
    if len(kinds) != 1 or not kinds <= {"stage", "moisture", "texture"}:
        return []
    text = context.text[start:end]
    kind = kinds.pop()
    told = list(_stages(text, start)) if kind == "stage" else [fact for fact in said if fact.kind == kind]
    ordered, plain = _only_lists(made, text, [(f.start - start, f.end - start) for f in told])
    meant = next((group for group in (notes, [n for n in notes if n.dug]) if len(group) == len(told)), [])
    if not plain or len(told) < LEAST_NOTES or not meant or any(kind in note.kinds for note in meant):
        return []
    if not ordered and len({str(f.words[0].value) for f in told}) == 1 and len({f.words[0].text for f in told}) > 1:
        return []  # "seco, hecho un ladrillo": the same in other words
    if not ordered and len(told) == LEAST_NOTES and not _no_range(text, told):
        return []
    return [Added(note.name, fact) for note, fact in zip(meant, told, strict=True)]


def _stages(text: str, start: int) -> Iterator[Fact]:
    """The stages written in a sentence, each by itself; "R2-3" is one that no list holds."""
    for found in _STAGE.finditer(text):
        value = found[0].replace(" ", "").upper()
        at = (start + found.start(), start + found.end())
        yield Fact("stage", [Word("STAGE", value, *at, found[0], "hard")], *at)


def _only_lists(made: Table, text: str, told: Sequence[tuple[int, int]]) -> tuple[bool, bool]:
    """Does a sentence say that it tells in order, and does it hold nothing but its list?"""
    rest = "".join(" " if any(a <= n < b for a, b in told) else char for n, char in enumerate(text))
    words = [x.text for x in scan(rest) if x.text not in ",/:"]
    ordered = False
    while words:
        size = next((n for n in range(min(LONGEST_PHRASE, len(words)), 0, -1) if _orders(made, words[:n])), 0)
        ordered = ordered or bool(size)
        if not size and not _links(made, words[0]):
            return ordered, False
        words = words[size or 1 :]
    return ordered, True


def _orders(made: Table, words: list[str]) -> bool:
    return made.has("in_their_order", " ".join(words))


def _no_range(text: str, told: Sequence[Fact]) -> bool:
    """Two that are no "from .. to": parted by a comma, or by a slash with the later one first."""
    first, second = (str(fact.words[0].value) for fact in told)
    return "," in text or (first >= second and first[0] == second[0])


# --- of groups, and of fields named


def _of_groups(
    context: Context, facts: Sequence[Fact], said: list[Fact], start: int, end: int, notes: list[NoteSoFar]
) -> list[Added]:
    """ "R5 at Kestrel, R6 at the other two": what is told set beside whom it is told of; nothing where one is left."""
    made = table(context.language)
    parts = _parts(made, context.text, said, (start, end), notes)
    if parts is None:
        return []
    if not _shorts_fit(parts):
        return []
    grouped = any(part.group or part.short for part in parts)
    if any(part.loose or part.over for part in parts) and _all_of_one(made, context.text[start:end]):
        return []
    if any(part.loose for part in parts) and _of_one(made, context.text, facts, start, end):
        return []
    if not grouped and not any(part.kind == "but" for part in parts) and not _names_ahead(parts, said):
        return []
    if any(part.kind == "told" and not _may_tell(part, grouped) for part in parts):
        return []
    but = next((n for n, part in enumerate(parts) if part.kind == "but"), len(parts))
    rows = _paired(parts[:but], notes, but < len(parts))
    if rows is None:
        return []
    rest = _excepted(parts[but + 1 :]) if but < len(parts) else []
    if rest is None:
        return []
    return _added(rows, rest, notes)


def _of_one(made: Table, text: str, facts: Sequence[Fact], start: int, end: int) -> bool:
    """ "Everything was dug. 8 females.": is what it holds told behind, or "here" said?"""
    told = [(fact.start, fact.kind) for fact in facts if fact.kind in FOUND or fact.kind == "field"]
    ahead = next((kind for at, kind in reversed(told) if at < start), "")
    behind = next((kind for at, kind in told if at >= end), "field")
    return (ahead == "field" and behind != "field") or here_said(made, [x.text for x in scan(text[start:end])])


def _all_of_one(made: Table, text: str) -> bool:
    """ "Parejo en todo el recorrido", "toda a lavoura": over the whole of one thing."""
    words = [x.text for x in scan(text)]
    pairs = itertools.pairwise(words)
    return any(made.has("over_whole", one) and made.has("the_one", the) for one, the in pairs)


def _shorts_fit(parts: Sequence[_Part]) -> bool:
    """Is a word of one field's name told beside another field, or none so told? "The bottom was wet" may be a place."""
    return not any(part.short for part in parts) or len({name for part in parts for name in part.names}) >= LEAST_NOTES


def _names_ahead(parts: Sequence[_Part], said: Sequence[Fact]) -> bool:
    """ "R5 at Kestrel, R6 at Tinkers", "the plants at Kestrel were wilted": names that begin no note of their own."""
    heads = next((part.kind for part in parts if part.kind != "word"), "")
    return heads == "told" or not any(fact.kind == "field" for fact in said)


def _may_tell(part: _Part, grouped: bool) -> bool:
    return grouped or {fact.kind for fact in part.facts} <= _OF_NAMES


_Row = tuple[list[Fact], _Part]
"""What is told, and the fields it is told of."""


def _paired(parts: Sequence[_Part], notes: Sequence[NoteSoFar], excepts: bool) -> list[_Row] | None:
    """Each thing told beside its fields; ``None`` where something is told of none, or fields of nothing."""
    runs = _runs(parts)
    told = [part for part in runs if part.kind == "told"]
    named = [part for part in runs if part.kind == "of"]
    if not named and excepts and told:
        everyone = _Part("of", names=[note.name for note in notes], group=True)
        return [(part.facts, everyone) for part in told]
    if not told or not named:
        return None
    rows: list[_Row] = []
    first = min(runs.index(told[0]), runs.index(named[0]))
    step = runs[first:]
    if step[0].kind == "of" and step[0].group and len(named) == len(told) + 1:
        step = step[1:]  # "everything is V6 at both Larks, V5 at the pit"
    lead = "told" if step[0].kind == "told" else "of"
    n = 0
    while n < len(step):
        if step[n].kind == "word":
            n += 1
            continue
        pair = step[n : n + 2]
        if len(pair) < LEAST_NOTES or {p.kind for p in pair} != {"told", "of"}:
            last = lead == "told" and len(rows) >= LEAST_NOTES and n == len(step) - 1  # "R2 at A, R3 at B, dry"
            if pair[0].kind == "told" and rows and (rows[-1][1].group or last) and step[n - 1].kind == "of":
                rows.append((pair[0].facts, rows[-1][1]))  # "V6 the lot, dry as dust"
                n += 1
                continue
            return None
        if pair[0].kind != lead:
            return None
        facts, fields = pair if lead == "told" else pair[::-1]
        rows.append((facts.facts, fields))
        n += 2
    return rows


def _runs(parts: Sequence[_Part]) -> list[_Part]:
    """Things told in one breath joined to one, and fields named in one breath."""
    runs: list[_Part] = []
    comma = tied = False
    ahead = next((part.kind for part in parts if part.kind in ("told", "of")), "") == "told"
    for part in (*parts, _Part("comma")):
        last = runs[-1] if runs else None
        if part.kind == "comma":
            if tied and ahead and [run.kind for run in runs[-3:]] == ["told", "of", "told"] and not runs[-2].group:
                runs[-3].facts += runs.pop().facts  # "R2 at the oak and dry, R3 at .."
            comma = True
            continue
        tied = not comma if last is not None and last.kind == "of" else tied
        comma = False
        if last is not None and last.kind == part.kind == "told":
            last.facts += part.facts
        elif last is not None and last.kind == part.kind == "of" and not (part.group and not last.group):
            last.names += [name for name in part.names if name not in last.names]
        elif last is not None and last.kind == part.kind == "of":
            if len(last.names) != len(part.names) and not part.over:
                runs.append(part)  # "Kestrel and Tinkers are both": no more than these
        elif last is not None and last.kind == part.kind == "word":
            continue
        else:
            runs.append(replace(part, facts=list(part.facts), names=list(part.names)))
    return runs


def _excepted(parts: Sequence[_Part]) -> list[_Row] | None:
    """ ".. except Tinkers which is dry", ".. but Kestrel": the fields left out, and what is told of them instead."""
    runs = [part for part in _runs(parts) if part.kind != "word"]
    if not runs or len(runs) > LEAST_NOTES or sum(part.kind == "of" for part in runs) != 1:
        return None
    fields = next(part for part in runs if part.kind == "of")
    facts = [fact for part in runs if part.kind == "told" for fact in part.facts]
    return [(facts, fields)]


def _added(rows: Sequence[_Row], rest: Sequence[_Row], notes: Sequence[NoteSoFar]) -> list[Added]:
    """What is told of each field; of one left out only what is not told of it instead."""
    out: list[Added] = []
    told = {note.name: note.kinds for note in notes}
    if _contradicts(rows):
        return []
    left = {name: {fact.kind for fact in facts} for facts, part in rest for name in part.names}
    for n, (facts, part) in sorted(enumerate(rows), key=lambda row: row[1][1].group):
        for fact in facts:
            others = [name for name in part.names if name != notes[-1].name]
            if part.over and any(fact.kind in told[name] for name in others):
                return []  # "R3 throughout" behind fields with stages of their own: of the last one
            if part.never and fact.kind != "soaked":
                return []
            meant = _denied(fact) if part.never else fact
            for name in part.names:
                instead = left.get(name)
                if instead is None or (instead and fact.kind not in instead) or (not instead and n < len(rows) - 1):
                    out.append(Added(name, meant))
    return out + [Added(name, fact) for facts, part in rest for fact in facts for name in part.names]


def _contradicts(rows: Sequence[_Row]) -> bool:
    """Is a field named told of with one kind of fact twice, and not the same?"""
    seen: dict[tuple[str, str], object] = {}
    for facts, part in rows:
        for fact in facts:
            value = fact.words[0].value if fact.words else None
            if any(seen.setdefault((name, fact.kind), value) != value for name in part.names if not part.over):
                return fact.kind in ("soaked", "stage")
    return False


def _denied(fact: Fact) -> Fact:
    """ "Neither washed": that it was not."""
    word = fact.words[0]
    return replace(fact, words=[Word("SOAKED", "no", word.start, word.end, word.text, word.lead)])


# --- what a sentence is made of


def _parts(
    made: Table, text: str, said: Sequence[Fact], span: tuple[int, int], notes: Sequence[NoteSoFar]
) -> list[_Part] | None:
    """The parts of a sentence; ``None`` where it tells what only one note can (a count), or of unknown fields."""
    start, end = span
    words = [Lexeme(x.kind, x.text, x.start + start, x.end + start, x.spaced) for x in scan(text[start:end])]
    named = {note.name: name_cut(note.name) for note in notes}
    whole = f" {' '.join([x.text for x in words])} "
    here = {name for name, own in named.items() if f" {' '.join(own)} " in whole}
    of_names = set(itertools.chain.from_iterable(named.values()))
    here |= {name for n, x in enumerate(words) if x.text in of_names and (name := _short_name(made, words, n, named))}
    said = [fact for fact in said if not {word.type for word in fact.words} <= _ONLY_NAMED]
    begun = [fact.start for fact in said if fact.kind in _TOLD]
    parts: list[_Part] = []
    n = 0
    while n < len(words):
        size, part = _phrase_at(made, words, n, named, notes, here, begun)
        at = words[n + size - 1].end if size else words[n].end
        if part is not None and part.kind == "dug":
            part = _only_dug(parts, notes)
            if part is None:
                return None
        elif not size:
            fact = next((f for f in said if f.kind not in _ALSO and f.start <= words[n].start < f.end), None)
            if fact is not None and fact.kind not in _TOLD:
                return None
            if fact is not None:
                part, at = _Part("told", [fact]), fact.end
            elif words[n].text == ",":
                part = _Part("comma")
            elif words[n].text in ":()-&" or _links(made, words[n].text):
                part = None
            elif words[n].kind == "number":
                return None
            else:
                part = _Part("word")
        if part is not None and part.kind == "of" and not part.names:
            return None
        if part is not None:
            parts.append(part)
        n += 1
        while n < len(words) and words[n].start < at:
            n += 1
    return parts


def _links(made: Table, word: str) -> bool:
    manners = ("group_link", "sums_link", "and_word", "joint")
    return is_field_word(word) or any(made.has(manner, word) for manner in manners)


def _phrase_at(
    made: Table,
    words: list[Lexeme],
    n: int,
    named: Mapping[str, Sequence[str]],
    notes: Sequence[NoteSoFar],
    here: set[str],
    begun: Sequence[int],
) -> tuple[int, _Part | None]:
    """How many words from n on name fields, or a group of them, or say "except" or "that I dug"; 0 for none."""
    first = words[n].text
    begins = first in _begin_phrases(made.language) or any(first in told[:1] for told in named.values())
    for size in range(min(LONGEST_PHRASE, len(words) - n), 0, -1) if begins else ():
        own = tuple([x.text for x in words[n : n + size]])
        said = " ".join(own)
        if own in named.values():
            return size, _Part("of", names=[next(name for name, told in named.items() if told == own)])
        if nth := _nth_named(made, own, notes):
            return size, _Part("of", names=[nth], short=True)
        kin = _of_kind(own[-1], named)
        if kin and size > 1 and made.has("field_group", " ".join(own[:-1])) and _fits_count(own[:-1], kin, made):
            return size, _Part("of", names=kin, group=True)  # "both Larks"
        if made.has("where_dug", said):
            return size, _Part("of", names=[note.name for note in notes if note.dug], group=True)
        if made.has("that_dug", said):
            return size, _Part("dug")
        if made.has("all_but", said) and n:
            return size, _Part("but")
        if made.has("field_rest", said):
            return size, _the_rest(said, made, notes, here)
        grouped = any(made.has(manner, said) for manner in _GROUPS) or made.has("of_no_field", said)
        if (
            grouped
            and not made.has("article", own[-1])
            and not any(words[n].start < at < words[n + size - 1].end for at in begun)
        ):
            return size, _group(said, made, notes, here)
    kin = _of_kind(words[n].text, named)
    if kin:
        return 1, _Part("of", names=kin, group=True)
    short = _short_name(made, words, n, named)
    return (1, _Part("of", names=[short], short=True)) if short else (0, None)


@cache
def _begin_phrases(language: Language) -> frozenset[str]:
    """First words of all phrases of several fields and what stands beside them."""
    traits = table(language).traits
    manners = (*_GROUPS, "field_group", "field_rest", "of_no_field", "where_dug", "that_dug", "all_but")
    said = itertools.chain.from_iterable(traits.get(manner, ()) for manner in (*manners, "article", "determiner"))
    return frozenset(phrase.split(" ")[0] for phrase in said)


def _nth_named(made: Table, own: Sequence[str], notes: Sequence[NoteSoFar]) -> str:
    """ "The first of the two", "the second": the field told so far that it counts."""
    if len(own) < LEAST_NOTES or not any(made.has(manner, own[0]) for manner in ("article", "determiner")):
        return ""
    nth = [entry.value for entry in made.singles.get(own[1], ()) if entry.type in ("ORDINAL", "NTH")]
    rest = [word for word in own[2:] if not any(made.has(m, word) for m in ("of_word", "noun_one", "of_which"))]
    counts = not rest or count_of(" ".join(rest), made) == len(notes)
    return notes[int(nth[0]) - 1].name if nth and counts and 0 < int(nth[0]) <= len(notes) else ""


def _fits_count(said: Sequence[str], kin: Sequence[str], made: Table) -> bool:
    """ "Both" of two, "all three" of three."""
    return count_of(" ".join(said), made) in (None, len(kin))


def _short_name(made: Table, words: Sequence[Lexeme], n: int, named: Mapping[str, Sequence[str]]) -> str:
    """ "(V5 at) the pit": the one field told before whose name holds a word that "the" stands before."""
    led = n > 0 and (made.has("article", words[n - 1].text) or made.has("determiner", words[n - 1].text))
    led = led or (n > 0 and made.has("name_article", words[n - 1].text))
    if not led:
        return ""
    first = made.language == "en"  # "the gravel" is no field; "el pozo" may be Pozo Hondo
    held = [name for name, told in named.items() if words[n].text in told[first:] and len(told) > 1]
    beside = words[n + 1].text if n + 1 < len(words) else ""
    whole = any([words[n].text, beside] == told[-2:] for told in named.values())
    return held[0] if len(held) == 1 and not whole else ""


def _the_rest(said: str, made: Table, notes: Sequence[NoteSoFar], here: set[str]) -> _Part:
    """ "The other two": the fields that the sentence does not name."""
    names = [note.name for note in notes if note.name not in here]
    count = count_of(said, made)
    return _Part("of", names=names if here and count in (None, len(names)) else [], group=True)


def _group(said: str, made: Table, notes: Sequence[NoteSoFar], here: set[str]) -> _Part:
    """ "All three", "both", "everywhere": all fields, those that were dug, or those that the sentence does not name."""
    count = count_of(said, made)
    count = None if count == 1 else count  # "every one of them"
    dug = [note for note in notes if note.dug]
    others, named = ([note for note in notes if (note.name in here) == own] for own in (False, True))
    fits = [choice for choice in (list(notes), dug, others, named) if count in (None, len(choice))]
    names = [note.name for note in fits[0]] if fits else []
    never = made.has("of_no_field", said)
    over = made.has("all_over_fields", said)
    loose = not over and made.has("for_all", said) and not made.has("field_group", said)
    return _Part("of", names=names, group=True, over=over, never=never, loose=loose)


def _of_kind(word: str, named: Mapping[str, Sequence[str]]) -> list[str]:
    """ "The plots", "both stations": the fields whose names hold that word."""
    one = word.removesuffix("s")
    if one == word:
        return []
    kin = [name for name, told in named.items() if one in told]
    return kin if len(kin) >= LEAST_NOTES else []


def _only_dug(parts: list[_Part], notes: Sequence[NoteSoFar]) -> _Part | None:
    """ "All the ones (I dug)", "both (dug fields)": the group before it, without those nobody looked at."""
    if not parts or parts[-1].kind != "of" or not parts[-1].group:
        return None
    dug = {note.name for note in notes if note.dug}
    last = parts.pop()
    while parts and parts[-1].kind == "of" and parts[-1].group:
        parts.pop()  # "in all | the ones"
    return replace(last, names=[name for name in last.names if name in dug])
