"""What is told of several fields at once, and what is told further on of a field whose note was already written.

"Both are at R2", "the other two at R1", "Kestrel and Tinkers are moist", "Kestrel is a silt loam": a sentence of a
group of fields, or of fields told of before, adds to the notes meant. It makes no note of its own and changes nothing
that a note tells itself.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cache

from notes_bot.language.clauses.context import Context
from notes_bot.language.clauses.facts import Fact
from notes_bot.language.lexicon.scan import fold, scan
from notes_bot.language.lexicon.words import Table, anywhere, table
from notes_bot.language.names.field_groups import LONGEST_GROUP, count_of

COUNTING = frozenset(
    {"plants", "colour_count", "colour_series", "total_count", "per_plant", "each", "none", "too_many", "shades"}
    | {"not_looked", "positive", "mark", "spot", "check", "refused"}
)
"""What tells of plants and females, and where."""
FOUND = COUNTING - {"plants", "spot", "check"}
"""What tells of females."""
SENTENCE = 80
"""Characters before a word in which its sentence is taken to begin (judgement)."""
_SAID_OF_ALL = frozenset(
    {"none", "not_looked", "how", "soaked", "moisture", "texture", "stage", "date", "variety", "look_again"}
)
OF_DIGGING = frozenset({"how", "soaked"})
"""What is said of plants dug, and so of no field where nobody dug."""
_MANNERS = frozenset(
    {"how", "soaked", "moisture", "texture", "stage", "date", "variety", "look_again", "tops", "acidity", "potassium"}
    | {"planted", "spray", "entry"}
)
"""What may be told of several fields alike."""
_FURTHER = _MANNERS - {"date"}
"""What is told further on of a field told before; a day would begin another visit."""
LONGEST_WAY = 3
"""Words of a way of digging between plants and "each" (judgement)."""
_STOP = re.compile(r"[.,;:!?\n]")


@dataclass(slots=True)
class Gathered:
    """The facts of one note, and its name."""

    facts: list[Fact] = field(default_factory=list)
    name: Fact | None = None
    header: list[Fact] = field(default_factory=list)
    """What is said of this and other fields above it."""
    thanks: bool = False
    """Does it begin with a word of courtesy?"""

    @property
    def field(self) -> str | None:
        """The name of its field."""
        return self.name.first("FIELD") if self.name is not None else None


@dataclass(frozen=True, slots=True)
class _Clause:
    """Facts between two stops, and the words around them."""

    facts: list[Fact]
    lead: tuple[str, ...]
    """Words before the first fact that is no free text."""
    behind: tuple[str, ...]
    """Words behind the last one."""


# --- notes told further on


def told_further(context: Context, drafts: list[Gathered], together: Mapping[int, tuple[str, ...]]) -> list[Gathered]:
    """ "Kestrel 6 dug 4 w. Depot 6 dug none. Kestrel is sand, Depot at R2": what is added to notes told before.

    Also of several of them, and of those that it does not name: "Kestrel and Depot are at R2, the other two at R1".
    """
    kept: list[Gathered] = []
    own: dict[str, Gathered] = {}
    listed: list[Gathered] = []
    for draft in drafts:
        names = [str(draft.field), *together.get(draft.name.start, ())] if draft.name is not None else []
        if names and not draft.facts and all(name in own for name in names):
            listed.append(draft)  # "Kestrel, Depot and Tower are at R2"
            continue
        if len(names) == 1 and names[0] in own and _only_speaks(context.text, draft, own[names[0]]):
            own[names[0]].facts += [replace(fact, shared=True) for fact in draft.facts]
            continue
        ahead = _joined_before(context.text, draft.name.start, own) if draft.name is not None else []
        rows = _told_again(context, draft, [*dict.fromkeys([*ahead, *names])], own)
        if not rows or not _adds(draft, rows):
            kept += [*listed, draft]
            alone = (other for other in (*listed, draft) if other.name and other.name.start not in together)
            own |= {str(other.field): other for other in alone}
        else:
            for notes, facts in rows:
                for note in notes:
                    _add(note, facts)
        listed = []
    return kept + listed


def _only_speaks(text: str, draft: Gathered, note: Gathered) -> bool:
    """ "Kestrel had wheat, that's the difference": words about a field told before, without a number."""
    told = {fact.kind for fact in note.facts}
    words = all(fact.kind == "quoted" or (fact.kind == "text" and fact.first("TEXT")) for fact in draft.facts)
    said = (fact for fact in draft.facts if fact.kind == "text")
    counted = any(char.isdigit() for fact in said for char in text[fact.start : fact.end])
    return words and bool(told & COUNTING) and not counted


def _joined_before(text: str, at: int, own: Mapping[str, Gathered]) -> list[str]:
    """ "Kestrel, Depot and (Tower are at R2)": the names told before that are joined to one in its sentence."""
    if not own:
        return []
    said = fold(re.split(r"[.;:!?\n]", text[max(0, at - SENTENCE) : at])[-1])
    found: list[str] = []
    while True:
        said = said.rstrip(" ,")
        last = said.rsplit(" ", 1)[-1]
        if last in anywhere("and_word"):
            said = said[: -len(last)].rstrip(" ,")
        name = next((name for name in own if f" {said}".endswith(f" {fold(name)}")), None)
        if name is None:
            return found
        found.append(name)
        said = said[: -len(fold(name))]


_Rows = list[tuple[list[Gathered], list[Fact]]]
"""Notes, and what is told of each of them."""


def _told_again(context: Context, draft: Gathered, names: list[str], own: dict[str, Gathered]) -> _Rows | None:
    """What a draft tells clause by clause of notes told before; ``None`` where one clause is told of others."""
    if draft.name is None or not names or not all(name in own for name in names):
        return None
    rows: _Rows = []
    meant = [own[name] for name in names]
    named = list(meant)
    for n, clause in enumerate(_clauses(context.text, draft.facts, draft.name.end)):
        facts = [fact for fact in clause.facts if fact.kind in _FURTHER]
        group = _group_of(clause, table(context.language))
        said = f" {' '.join(clause.lead)} "
        others = [note for name, note in own.items() if f" {fold(name)} " in said]
        if group is not None:
            found = _meant(group, list(own.values()), named)
            if found is None:
                return None
            meant = found
        elif others:
            meant = others if n else [*meant, *others]
            named += others
        if facts:
            rows.append((meant, facts))
    return rows


def _adds(draft: Gathered, rows: _Rows) -> bool:
    """Does a draft tell nothing but of soil, stage or the like, and nothing that its field's note tells otherwise?"""
    kinds = {fact.kind for fact in draft.facts}
    if not kinds & _FURTHER or not kinds <= _FURTHER | {"text"}:
        return False
    for notes, facts in rows:
        for note in notes:
            told = {fact.kind for fact in note.facts}
            if not told & COUNTING or told & {fact.kind for fact in facts} - {"tops"}:
                return False
    return True


def _add(target: Gathered, facts: list[Fact]) -> None:
    """Facts to a note that tells nothing of their kinds."""
    told = {fact.kind for fact in target.facts}
    target.facts += [replace(fact, shared=True) for fact in facts if fact.kind not in told]


def _clauses(text: str, facts: list[Fact], start: int) -> list[_Clause]:
    """The facts of a draft clause by clause; "moist and both r two" are two clauses."""
    rows: list[tuple[int, list[Fact]]] = []
    at = start
    for fact in facts:
        stops = list(_STOP.finditer(text, at, fact.start))
        if stops or not rows:
            rows.append((stops[-1].end() if stops else at, []))
        elif fact.kind == "text" and scan(text[at : fact.start]) and rows[-1][1][-1].kind != "text":
            rows.append((at, []))  # behind "and"
        rows[-1][1].append(fact)
        at = max(at, fact.end)
    return [_clause(text, begins, told) for begins, told in rows]


def _clause(text: str, begins: int, facts: list[Fact]) -> _Clause:
    """One clause with the words around what it tells."""
    told = [fact for fact in facts if fact.kind != "text"]
    first, last = (told[0].start, told[-1].end) if told else (facts[-1].end, facts[-1].end)
    behind = _STOP.split(text[last : last + SENTENCE])[0]
    lead, tail = (tuple(x.text for x in scan(said)) for said in (text[begins:first], behind))
    return _Clause(facts, lead, tail)


def _group_of(clause: _Clause, made: Table) -> str | None:
    """ "Both are", "and the other two at", "R7 both": the group of fields a clause is told of."""
    lead = list(clause.lead)
    while lead and lead[0] in anywhere("and_word"):
        lead.pop(0)
    for size in range(min(LONGEST_GROUP, len(lead)), 0, -1):
        said = " ".join(lead[:size])
        if made.has("field_group", said) or made.has("field_rest", said):
            manners = ("group_link", "for_both", "for_all")  # "the three are all at"
            linked = (any(made.has(manner, word) for manner in manners) for word in lead[size:])
            return said if all(linked) else None
    behind = list(clause.behind)
    while behind and made.has("group_link", behind[0]):
        behind.pop(0)
    said = " ".join(behind)
    return said if made.has("field_group", said) or made.has("field_rest", said) else None


def _meant(group: str, drafts: list[Gathered], named: list[Gathered]) -> list[Gathered] | None:
    """The notes a group means; ``None`` where there are more or fewer of them than it says."""
    made_of = [draft for draft in drafts if draft.name is not None]
    rest = group in anywhere("field_rest")
    found = [draft for draft in made_of if not (rest and any(draft is other for other in named))]
    count = _counted(group)
    if count is not None and count != len(found):
        return None
    return found


@cache
def _counted(group: str) -> int | None:
    """How many fields a group has, in any language."""
    return next((n for language in ("en", "es", "pt") if (n := count_of(group, table(language))) is not None), None)


# --- groups in the midst of a message


def said_of_groups(context: Context, drafts: list[Gathered], together: Mapping[int, tuple[str, ...]]) -> None:
    """ "Both are at R2." behind two notes, whatever is told further on: said of each of them."""
    made = table(context.language)
    if len(drafts) < 2 or not context.may_say("field_group", "field_rest"):
        return
    for n, draft in enumerate(drafts[1:], 1):
        if draft.name is None or sum(fact.kind in ("spot", "check") for fact in draft.facts) > 1:
            continue
        if any(other.name is None or other.name.start in together for other in drafts[: n + 1]):
            continue
        meant: list[Gathered] | None = None
        for clause in _clauses(context.text, draft.facts, draft.name.end):
            told = [fact for fact in clause.facts if fact.kind != "text"]
            group = _group_of(clause, made)
            if group is not None:
                plants = made.has("field_rest", group) or _of_plants(draft, group)
                meant = None if plants else _meant(group, drafts[: n + 1], [])
            elif clause.facts[0].lead in ("hard", "line"):
                meant = None
            if not {fact.kind for fact in told} <= _MANNERS | {"plants"}:
                meant = None
            for other in meant or ():
                if other is not draft:
                    _add(other, told)


def _of_plants(draft: Gathered, group: str) -> bool:
    """May "both" be the two plants dug?"""
    count = _counted(group)
    return _marked(draft, count) or any(fact.kind == "plants" and fact.numbers[:1] == [count] for fact in draft.facts)


def _marked(draft: Gathered, count: int | None) -> bool:
    """ "First plant had 7 yellow and the second 5, both dug": are so many plants told of one by one?"""
    return sum(fact.kind == "mark" for fact in draft.facts) == count


BOTH = 2
"""Plants that "both" may be."""


# --- behind the last of several notes


@cache
def _each_field() -> re.Pattern[str]:
    """Behind a count of plants: so many in every field named; not "each plant"."""
    words = sorted(anywhere("each_field"), key=len, reverse=True)
    said = "|".join(re.sub(" ?/ ?", " ?/ ?", word) for word in words)  # "c/u", "/field"
    return re.compile(rf" ?(?:{said})\b(?! plant)", re.IGNORECASE)


def of_each_field(context: Context, fact: Fact) -> bool:
    """ "Dug 6 in each", "6p dug ea", "both 6 plants": so many plants in every field named."""
    if fact.kind != "plants":
        return False
    text = fold(context.text)
    if _each_field().match(text, fact.end) is not None:
        return True
    made = table(context.language)
    behind = [x.text for x in scan(_STOP.split(text[fact.end : fact.end + SENTENCE])[0])]
    ahead = [x.text for x in scan(_STOP.split(text[max(0, fact.start - SENTENCE) : fact.start])[-1])]
    for n in range(1, min(LONGEST_WAY, len(behind)) + 1):
        phrase = made.longest(behind[:n], 0)  # "eased out"
        meant = phrase[1] if phrase is not None and phrase[0] == n else made.singles.get(behind[n - 1], ())
        tool = any(entry.type in ("DUG", "TOOL") for entry in meant)
        if tool and _each_field().match(" ".join(behind[n:])) is not None:
            return True  # "6 plantas na pá em cada"
    return bool(ahead) and any(made.has("field_group", " ".join(ahead[:size])) for size in (len(ahead), len(ahead) - 1))


def _none_on_each(context: Context, drafts: list[Gathered], plants: Fact) -> list[Fact]:
    """ "(Kestrel R3, Depot R4.) 6 dug at each, none": of each as well, where nothing was found in any."""
    last = drafts[-1]
    found = [f for draft in drafts for f in draft.facts if f.kind in FOUND]
    told = [f for f in found if f.kind == "none" and f in last.facts and f.start > plants.end]
    if len({f.start for f in found}) != 1 or not told:
        return []
    return [] if re.search(r"[.;!\n]", context.text[plants.end : told[0].start]) else told


def _dug_so(facts: list[Fact], plants: Fact) -> list[Fact]:
    """ "5 plants each, (dug, washed)": how they came up, told right behind "each"."""
    row = list(itertools.islice(itertools.dropwhile(lambda fact: fact is not plants, facts), 1, None))
    row = row[1:] if row and row[0].kind == "text" else row
    return list(itertools.takewhile(lambda f: f.kind in OF_DIGGING and f.lead not in ("hard", "line"), row))


def said_of_all(context: Context, drafts: list[Gathered]) -> None:
    """ "All soaked", "both were dug with the shovel" behind the last of several fields is said of each of them."""
    if len(drafts) < 2:
        return
    made = table(context.language)
    last = drafts[-1]
    for fact in [f for f in last.facts if of_each_field(context, f)]:
        if not any(f.kind == "plants" for other in drafts[:-1] for f in other.facts):
            manner = _dug_so(last.facts, fact)
            for other in (other for other in drafts[:-1] if not is_undug(other)):
                told = {f.kind for f in other.facts}
                other.facts += [fact, *(f for f in manner if f.kind not in told), *_none_on_each(context, drafts, fact)]
            if is_undug(last):
                last.facts.remove(fact)  # "Kestrel none. Sumac not looked. 5 plants each"
    counted = min((f.start for f in last.facts if f.kind in FOUND), default=-1)
    for n, fact in enumerate(last.facts):
        if fact.shared or fact.kind not in _SAID_OF_ALL:
            continue  # told of it and of others named: "Kestrel and Tinkers are both V7"
        clause = re.split(r"[.;!\n,]", context.text[max(0, fact.end - SENTENCE) : fact.end])[-1]
        words = [x.text for x in scan(clause.rsplit("?", 1)[-1])]
        of_all = any(_all_of_them(made, " ".join(words[:size]), fact) for size in (1, 2))
        end = _end_of_said(context.text, last.facts, n)
        behind = [x.text for x in scan(re.split(r"[.;!\n,]", context.text[end : end + SENTENCE])[0])]
        of_all = of_all or _both_behind(made, behind)  # "r four both", "seco en los dos"
        behind = behind[:3]
        of_all = of_all or (bool(behind) and made.has("for_all", " ".join(behind)))  # "back in 10 d all."
        looks = fact.kind == "look_again"  # "recheck all in 2 wks"
        shaded = [any(e.type == "COLOUR" for e in made.singles.get(word, ())) for word in (*words[1:], "")]
        all_said = (_all_of_them(made, word, fact) and not of for word, of in zip(words, shaded, strict=True))
        of_all = of_all or (looks and any(all_said))  # not "all w / bkt / nxt 2wk"
        of_all = of_all or (fact.kind == "soaked" and _washed_all(made, words, behind))
        own = of_all and fact.kind in OF_DIGGING
        own = own and (
            _of_own_plants(clause, last, n)
            or _marked(last, BOTH)
            or (not _both_said(made, words) and _of_own_look(context, last, n))
        )
        if own:
            continue
        of_all = of_all or any(
            made.has("for_both", " ".join(words[at : at + size])) for at in range(len(words)) for size in (1, 2, 3)
        )
        if of_all and (fact.end < counted or here_said(made, words)) and not _of_fields(made, [*words, *behind]):
            continue  # "all soaked first. Females: none": all of this field's own
        if of_all:
            bare = {"none", "not_looked"}
            found = any(f.kind in FOUND - bare for other in drafts for f in other.facts) and fact.kind not in bare
            if fact.kind == "none" and any(f.kind in FOUND for other in drafts for f in other.facts if f is not fact):
                continue
            said = _SAID_OF_ALL - bare if found else _SAID_OF_ALL  # "none, both moist"
            rest = [f for f in last.facts[n:] if f.kind in said]
            for other in drafts[:-1]:
                kinds = {told.kind for told in other.facts} | (OF_DIGGING if is_undug(other) else set())
                other.facts += [f for f in rest if f.kind not in kinds]
            if is_undug(last):
                last.facts = [f for f in last.facts if f not in rest or f.kind not in OF_DIGGING]
            return


def here_said(made: Table, words: Sequence[str]) -> bool:
    """ "Everything was wilted by the time I got there", "acá todo": told of one place, the field of the note."""
    return any(made.has("refers_here", word) for word in words)


def _of_fields(made: Table, words: list[str]) -> bool:
    """Is a group of fields named: "both", "all three fields"? "All of them" may be the plants of one."""
    groups = (" ".join(words[at : at + size]) for at in range(len(words)) for size in range(1, LONGEST_GROUP + 1))
    return any(made.has("field_group", said) for said in groups)


def _both_behind(made: Table, behind: list[str]) -> bool:
    """ "(R4) both", "(seco) en los dos": not "parejo en todo el recorrido"."""
    for at in (0, 1):
        for size in (1, 2, 3):
            of_one = behind[at + size :] and made.has("article", behind[at + size])
            if made.has("for_both", " ".join(behind[at : at + size])) and not of_one:
                return True
    return False


def _of_own_plants(clause: str, last: Gathered, n: int) -> bool:
    """ "I dug ten plants and soaked every one of them": all of the plants told in its clause, and of no other field."""
    begin = last.facts[n].end - len(clause.lstrip())
    own = last.name is None or begin >= last.name.start
    return own and any(other.kind == "plants" and other.start >= begin for other in last.facts[:n])


def _both_said(made: Table, words: list[str]) -> bool:
    """Is it said of fields by a word for them ("both", "at each field"), and not only by "all"?"""
    plain = [made.has("for_all", word) and not made.has("field_group", word) for word in words]
    spans = [(at, size) for at in range(len(words)) for size in (1, 2, 3) if not any(plain[at : at + size])]
    said = (" ".join(words[at : at + size]) for at, size in spans)
    return any(made.has("for_both", span) or made.has("field_group", span) for span in said)


def _of_own_look(context: Context, last: Gathered, n: int) -> bool:
    """ "Tinkers done too. All of it with the shovel. 3 white", "plant one two, plant two none, all dug": of it alone.

    What was found in the last field is told behind it, or plant by plant right before it.
    """
    fact = last.facts[n]
    if last.name is None or fact.start < last.name.start:
        return False
    text, found = context.text, [f.start for f in last.facts if f.kind in FOUND]
    if found and min(found) > fact.end:
        return True
    marks = [f for f in last.facts[:n] if f.kind == "mark" and not re.search(r"[.;!?\n]", text[f.end : fact.start])]
    made = table(context.language)
    words = [x.text for f in marks for x in scan(text[f.start : f.end])]
    return any(entry.type == "PLANTS" for word in words for entry in made.singles.get(word, ()))


def _washed_all(made: Table, words: list[str], behind: list[str]) -> bool:
    """ "So none was washed", "I soaked all of them like the video says": all or none, anywhere in the clause."""
    counted = next((n for n in range(len(words), 0, -1) if words[n - 1].isdigit()), 0)  # "nothing yet 10 plants washed"
    rows = (words[counted:], behind)
    said = {" ".join(row[at : at + size]) for row in rows for at in range(len(row)) for size in (1, 2)}
    return any(made.has("all_washed", one) for one in said)


def is_undug(draft: Gathered) -> bool:
    """Is nothing told of a field but that nobody looked?"""
    kinds = {fact.kind for fact in draft.facts}
    return "not_looked" in kinds and not kinds & (FOUND - {"not_looked", "each"})


FEWEST_FIRST = 2
"""Fields of which "the first two" is no part of them."""


def said_of_first(context: Context, drafts: list[Gathered]) -> None:
    """ "Spade at the first two, 5 plants each" behind three fields is said of these two, not of the last."""
    if len(drafts) <= FEWEST_FIRST:
        return
    last, made = drafts[-1], table(context.language)
    for sentence in re.finditer(r"[^.;!\n]+", context.text[last.name.end :] if last.name is not None else ""):
        words = [x.text for x in scan(sentence.group())]
        said = (" ".join(words[n : n + size]) for n in range(len(words)) for size in (3, 2))
        count = next((count_of(run, made) for run in said if made.has("field_first", run)), None)
        if count is None or last.name is None or not 1 < count < len(drafts):
            continue
        begin, end = last.name.end + sentence.start(), last.name.end + sentence.end()
        told = [f for f in last.facts if begin <= f.start < end and (f.kind in _MANNERS or of_each_field(context, f))]
        last.facts = [fact for fact in last.facts if fact not in told]
        for other in drafts[:count]:
            _add(other, told)


def _all_of_them(made: Table, said: str, fact: Fact) -> bool:
    """Is "all", "both" said? "Nothing" says so of washing ("nothing got washed"), of females it is only none."""
    denied = any(entry.type == "NONE" for entry in made.singles.get(said, ()))
    return made.has("for_all", said) and (not denied or fact.kind in ("soaked", "how"))


def _end_of_said(text: str, facts: list[Fact], n: int) -> int:
    """Where ends what is told in one breath from a fact on ("spade and bucket" of "spade and bucket both places")."""
    end = facts[n].end
    for fact in facts[n + 1 :]:
        if fact.kind not in _SAID_OF_ALL or re.search(r"[.;!\n,]", text[end : fact.start]):
            break
        end = fact.end
    return end


def said_of_named(context: Context, drafts: list[Gathered]) -> None:
    """ "Could we look at cedar slough again in ten days?" behind another field's note is said of the one it names.

    Named before it or behind it: "Look again in ten days at cedar slough."
    """
    named = {draft.name.first("FIELD"): draft for draft in drafts if draft.name is not None}
    if len(named) < 2:
        return
    last = drafts[-1]
    for fact in [fact for fact in last.facts if fact.kind == "look_again"]:
        sentence = fold(re.split(r"[.;!?\n]", context.text[max(0, fact.end - SENTENCE) : fact.end])[-1])
        sentence += fold(re.split(r"[.;!?\n]", context.text[fact.end : fact.end + SENTENCE])[0])
        told = [draft for name, draft in named.items() if draft is not last and fold(name) in sentence]
        of_last = last.name is not None and fold(last.name.first("FIELD")) in sentence
        if len(told) == 1 and not of_last:
            behind = last.facts[last.facts.index(fact) + 1 :][:1]
            own = fold(str(told[0].field))
            moved = [fact, *(f for f in behind if f.kind == "text" and own in fold(context.text[f.start : f.end]))]
            last.facts = [f for f in last.facts if f not in moved]
            told[0].facts += moved
