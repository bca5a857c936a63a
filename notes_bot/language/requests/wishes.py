"""What a sentence probably asks, where no rule knows its words.

People ask for the same dozen things in endless words: "any word on kestrel?", "whats left for me today", "bug me about
it friday instead". The rules of ``asking`` and ``inquiring`` come first. A sentence that tells nothing counted is
weighed as well: each of its words and pairs of words, and the kinds and manners the word files give them, tells
something for each thing that can be asked and for nothing at all. What they tell (``grammar/wishes.json``) is learned
from the corpora and from lists of ways to ask (``learn_wishes.py``): multinomial logistic regression, so that it says
how sure it is. What only shows something may be less sure than what changes something, and what a rule read gives way
only to what is sure; else the sentence stays what it was.
"""

from __future__ import annotations

import json
import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.signs import NUMBERS, scale_of, words_in_general
from notes_bot.language.lexicon.words import table
from notes_bot.language.names.naming import written
from notes_bot.language.requests import asking, inquiring, looking, registering, telling
from notes_bot.model import Command, Language

if TYPE_CHECKING:
    from notes_bot.language.clauses.context import Context
    from notes_bot.language.lexicon.pieces import Piece
    from notes_bot.language.requests.commands.line import Line

KINDS = (
    *("none", "state", "history", "picture", "due", "help", "digest", "mute", "resume", "take_back", "move", "skip"),
    *("lab_again", "report", "sample", "rotation", "look_plan", "look_worth"),
    *("language", "place", "release", "refuse", "trial_help", "trial_drop", "watch", "hg_again", "choose_n", "alias"),
)
"""What is weighed; ``none`` is everything else, told or asked."""
CHANGES = frozenset(
    {"mute", "resume", "take_back", "move", "skip", "language", "place", "release", "refuse", "trial_drop", "alias"}
)
"""What changes something."""
_FIELDS_CHANGE = frozenset({"mute", "resume", "take_back", "move", "skip"})
"""Those of them that change something of a field."""
SHOWN, CHANGED, ASIDE, SUREST = 0.67, 0.8, 0.9, 0.95
"""How sure a wish must be that only shows something, one that changes something, one beside a note of whose field it
would be, and one that changes something and names no field or in whose sentence something done is told ("i pulled 5
there, is that enough"; all judgement)."""
OVERRULED, UNLIKELY = (0.9, 0.95), (0.05, 0.02)
"""How sure it must be against what a rule reads from little and against what it reads from more, and how likely that
may then be at most (judgement)."""
_WEAK = frozenset({"choose", "correct", "state", "picture", "due", "digest", "lab_again", "look_plan"})
"""Kinds that rules read from little; what they read as another stands."""
_VALUELESS = frozenset({"choose", "correct"})
"""Those of them that are no ``KINDS``: weighed where no value is told with them."""
_WEAKEST = frozenset({"due", "digest", "picture", "choose"})
"""Those of them that may be no request at all where a field is named ("heres a pic of kestrel")."""
_UNNAMED = _WEAK | {"history", "move", "mute"}
"""Those that may be none where no field is named ("forecast says storms friday")."""
_SURER = CHANGES | {"look_plan", "look_worth", "report"}
"""Kinds for which a sentence must be as sure as for a change."""
SHORTEST, LONGEST = 3, 30
"""Pieces of the shortest and the longest sentence weighed (judgement)."""
TALK = 0.15
"""How likely what rules read in a sentence of talk beside a note may be at most, for it to be none (judgement)."""
_TALKED_OF = frozenset({"state", "history", "picture", "due", "digest", "mute", "resume", "take_back", "help"})
"""Kinds that rules read in talk beside a note ("which I counted twice", "whose turn is it to buy donuts")."""
_ANSWERS = frozenset({"choose_n"})
"""Kinds that answer a question of ours, and are no part of a note."""
_OF_ALL = frozenset({"due", "digest", "help"})
"""Kinds of no field, which a sentence beside a note must ask for, or be sure of."""
_NARROWER: Mapping[str, frozenset[str]] = {
    "trial_help": frozenset({"help"}),
    "trial_drop": frozenset({"take_back"}),
    "hg_again": frozenset({"lab_again"}),
    "watch": frozenset({"help"}),
    "release": frozenset({"move", "take_back"}),
    "refuse": frozenset({"mute", "take_back"}),
}
"""What rules that know less may take these for: they read the wider kind from a word of it ("don't send number 9")."""
_OF_FIELD = frozenset(
    {"state", "history", "picture", "lab_again", "hg_again", "report", "sample", "rotation", "look_worth"}
    | {"skip", "move"}
)
"""Kinds that need a field, its own or the one told of before."""
_WEIGHED = (frozenset(KINDS) | _VALUELESS) - {"none"}


@dataclass(frozen=True, slots=True)
class Weights:
    """What each sign tells for each of ``KINDS``."""

    signs: Mapping[str, str]
    """By sign, the number of a kind and its weight in hundredths, and so on: ``"2,35,9,-18"``."""

    @staticmethod
    @lru_cache(maxsize=4096)
    def row(spelled: str) -> tuple[tuple[int, int], ...]:
        """The kinds and weights of a sign. Read when it is met: a message holds a hundred signs of fifty thousand."""
        numbers = [int(number) for number in spelled.split(",")]
        return tuple(zip(numbers[::2], numbers[1::2], strict=True))


@cache
def learned() -> Weights:
    """The weights as they were learned."""
    return Weights(json.loads((files("notes_bot.grammar") / "wishes.json").read_text("utf-8")))


LONGEST_PHRASE = 4
"""Words of the longest phrase looked up (judgement)."""


def signs_of(pieces: Sequence[Piece], language: Language) -> set[str]:
    """The signs of a sentence: its words and their kinds and manners, names, numbers and days, alone and in pairs."""
    told = ["<b>", *words_in_general(pieces), "<e>"]
    signs = {f"1 {word}" for word in told}
    signs |= {f"4 {word[:4]}" for word in told if len(word) > 4 and word[0] != "<"}
    signs |= {f"2 {a} {b}" for a, b in pairwise(told)}
    manners = table(language).manners
    for size in range(1, LONGEST_PHRASE + 1):
        for n in range(1, len(told) - size):
            signs |= {f"a {manner}" for manner in manners.get(" ".join(told[n : n + size]), ())}
    signs |= {f"k {kind}" for piece in pieces for kind in piece.types}
    signs.add(f"n {min(len(told), 14)}")
    return signs


def weigh(signs: set[str], weights: Weights) -> list[float]:
    """How likely each of ``KINDS`` is; together 1."""
    sums = [0.0] * len(KINDS)
    for spelled in filter(None, map(weights.signs.get, signs)):
        for kind, weight in weights.row(spelled):
            sums[kind] += weight
    scale = scale_of(signs) / 100
    powers = [math.exp(scale * (own - max(sums))) for own in sums]
    return [power / sum(powers) for power in powers]


def may_wish(line: Line) -> bool:
    """Can the sentence be a wish at all? Nothing counted is told in it; what was done may be asked about."""
    if not SHORTEST <= len(line.ps) <= LONGEST:
        return False
    if not line.tells():
        return True
    looked = any(p.kind == "number" and line.has(n + 1, "PLANTS", "DUG") for n, p in enumerate(line.ps))
    if looked and any(is_any(p, ("NONE",)) for p in line.ps):
        return False  # "kestrel dug 6 plants none, is that good enough?" is a note whatever it asks
    return not any(_counted(line, n) for n in range(len(line.ps)))


def _counted(line: Line, n: int) -> bool:
    """Is a stage, a list, or a count of something of a color told there? A number of plants may be asked about."""
    piece = line.ps[n]
    if piece.kind in ("stage", "series", "range", "ratio"):
        return True
    if piece.kind == "number" and line.has(n + 1, "COLOUR", "FEMALES"):
        return True
    letter = len(piece.text) == 1 and "LINK" in piece.types
    return is_any(piece, ("COLOUR", "TOO_MANY")) and not letter and not (piece.types.keys() & _ASKING)


_ASKING = frozenset({"PICTURE", "HISTORY", "MUTE", "RESUME", "DUE", "DIGEST", "STATE", "FIELD", "UNDO", "HELP", "MOVE"})


def settled(line: Line, rules: Callable[[], bool], named: Piece | None = None, beside: bool = False) -> bool:
    """Read a sentence by the rules, and where they find nothing or the most unlikely, as what it probably asks.

    Args:
        line: the sentence.
        rules: reads it into the context; false when it asks nothing by them.
        named: the field told of before it, which "it" and "there" mean.
        beside: whether it stands among others, of a note or of what else is asked.
    """
    context = line.context
    before = context.found()
    taken = rules()
    if not may_wish(line) or (not taken and beside and asking.asks_others(line)):
        return taken
    read = {_read_as(command) for command in context.commands[before[0] :]}
    if taken and before[0] and read <= {"state", "history"} and asking.parts_of(line).says("undo_told"):
        del context.commands[before[0] :]
        return False  # "How is Kestrel? I forget what I sent.": why it is asked
    if taken and not (read and read <= _WEIGHED):
        return True
    likely = dict(zip(KINDS, weigh(signs_of(line.ps, context.language), learned()), strict=True))
    best = max(likely, key=likely.__getitem__)
    talk = beside and best not in read and _names_nothing(line) and read <= _TALKED_OF
    talk = taken and talk and max(map(likely.__getitem__, read)) <= TALK
    if taken and not (talk or _overruled(line, read, likely, best)):
        return True
    made = [rows[size:] for rows, size in zip(_rows(context), before, strict=True)]
    context.forget(before)
    if (
        best != "none"
        and not (beside and _only_told(line, best, likely[best]))
        and _wished(line, best, likely[best], named)
    ):
        return True
    if taken and best != "none" and not talk:  # what it asks instead lacks something
        for rows, own in zip(_rows(context), made, strict=True):
            rows.extend(own)
        return True
    return False


def _only_told(line: Line, kind: str, sure: float) -> bool:
    """ "I'm writing this twice since the first one bounced", "all of it today's": no answer, and nothing asked."""
    parts = asking.parts_of(line)
    asks = line.asked or parts.begins("opens_question", "asks_first", "which_word")
    asks = asks or parts.opens("asks_for", "ask_see", "asks_politely")
    asks = asks and not parts.says("lends")  # "who can lend me a decent spade?"
    if kind == "skip" and parts.says("this_time"):  # "ok kestrel for real this time. 6 plants, .."
        strange = any(word not in line.made.every_word for word in parts.words)  # "la loma satleala esta vez"
        return not (strange or parts.says("skips_it") or any(map(line.made.denies, parts.words)))
    if kind == "watch" and not line.asked and any(is_any(p, ("SOURCE",)) for p in line.ps[:2]):
        return True  # ".. 3 white. PI 88788, the same source for years": the seed of this field
    forgot = parts.says("undo_told") and not parts.says("before_forgetting")
    return kind in _ANSWERS or forgot or (kind in _OF_ALL and sure < SUREST and not asks)


def _names_nothing(line: Line) -> bool:
    """ ".. is that better?", ".., which I counted twice": a sentence beside a note that names no field itself."""
    return not any("FIELD" in piece.types for piece in line.ps)


def _overruled(line: Line, read: set[str], likely: Mapping[str, float], best: str) -> bool:
    """Is it so sure that the sentence asks something else than the rules read, or nothing?"""
    if best == "none":
        named = any("FIELD" in piece.types for piece in line.ps)
        may = weak = read <= (_WEAKEST if named else _UNNAMED)
    else:
        weak = read <= _WEAK | _NARROWER.get(best, frozenset())
        may = weak or (read <= CHANGES - {"move"} and best in CHANGES)  # a rule that reads a day stands
    if not may:
        return False
    sure, unlikely = OVERRULED[not weak], UNLIKELY[not weak]
    return best not in read and likely[best] >= sure and max(likely.get(kind, 0.0) for kind in read) <= unlikely


def _read_as(command: Command) -> str:
    """The kind of wish a command is, or the kind of a command that rules read from little."""
    bare = command.kind == "choose" or (command.kind == "correct" and command.args.get("value") is None)
    return command.kind if bare else kind_of(command.kind, command.args)


def _rows(context: Context) -> tuple[list[Any], ...]:
    return context.commands, context.problems, context.remarks


def _wished(line: Line, kind: str, sure: float, named: Piece | None) -> bool:
    """The wish of this kind with its field; false when it is not sure enough or lacks what it needs."""
    field = asking.name_in(line)
    if field is None and named is not None and kind in _OF_FIELD:
        if sure < ASIDE or kind == "move":  # "back in 2 weeks" is of the note before it
            return False
        if kind == "rotation" and not (_asks(line) or asking.parts_of(line).says("rotation_word")):
            return False  # behind a note, "para a próxima safra pensamos em milho ali" asks nothing
        field = written(line.context.text, named.start, named.end)
    surest = line.tells() or (kind in _FIELDS_CHANGE and field is None)  # "take me off the group text"
    if field is None and named is not None and kind == "look_plan" and asking.parts_of(line).says("ask_there"):
        field = written(line.context.text, named.start, named.end)
    if sure < (SUREST if surest else CHANGED if kind in _SURER else SHOWN):
        return False
    if kind in ("look_plan", "look_worth") and not _asks(line):
        return False
    if kind == "take_back" and asking.parts_of(line).begins("nobody_word"):
        return False  # "nobody wants the Kestrel note taken back"
    if field is None and kind in _OF_FIELD and kind not in ("report", "look_worth"):
        return False
    return _emit(line, kind, field)


def kind_of(kind: str, args: Mapping[str, Any]) -> str:
    """The kind of wish a command is; ``none`` where rules must read what it tells."""
    told = {key for key, value in args.items() if value is not None}
    if kind == "move":
        return "skip" if args.get("skip") else "move"
    if kind in ("lab", "hg"):
        return "none" if told - {"field"} else f"{kind}_again"
    if kind == "trial":
        return "trial_drop" if args.get("drop") else "none"
    if kind == "choose":
        return "choose_n" if args.get("number") is not None else "none"
    if kind == "field":
        return "alias" if "alias" in told else "none"
    return kind if kind in KINDS and not (kind == "rotation" and args.get("plans")) else "none"


def _asks(line: Line) -> bool:
    """Is it a question by its sign or its words ("half a dozen plants" is none)?"""
    asks = line.asked or any(is_any(p, ("HOW_MANY", "ASK_LOOK")) for p in line.ps)
    return asks or asking.parts_of(line).says("opens_question", "asks_first", "asks_politely", "worth_opens")


def _emit(line: Line, kind: str, field: str | None) -> bool:
    """The wish with what else it names."""
    parts = asking.parts_of(line)
    if kind in ("look_plan", "look_worth"):
        return _looked(line, kind, field)
    if kind in _VALUES:
        return _VALUES[kind](line)
    if kind == "move" and not _puts(line):
        return False
    if kind == "move":
        found = parts.put_to()
        return found is not None and line.emit("move", **found.args, field=field)
    if parts.numbered:
        return False
    if kind == "report":
        return _reported(line, parts, field)
    args: dict[str, dict[str, Any]] = {"skip": {"skip": True}, "help": {"topic": inquiring.topic_of(parts)}}
    named = {} if kind in ("due", "help", "digest") else {"field": field}
    kept = {"skip": "move", "lab_again": "lab", "hg_again": "hg"}.get(kind, kind)
    return line.emit(kept, **args.get(kind, {}), **named)


def _language(line: Line) -> bool:
    """The one language that is named and not complained of, or behind "in": "this english is hard, spanish please"."""
    names = asking.languages_wanted(line)
    return len(names) == 1 and line.emit("language", language=names[0])


def _place(line: Line) -> bool:
    """The state where one works."""
    region = telling.region_in(line)
    return region is not None and line.emit("place", place=region)


def _numbered(kind: str) -> Callable[[Line], bool]:
    """Of a message, or one of a list, by its number; nothing but one number is told."""

    def read(line: Line) -> bool:
        told = [p for p in line.ps if p.kind in NUMBERS or is_any(p, ("NUMBER_WORD", "ORDINAL", "NTH"))]
        told = [p for n, p in enumerate(told) if not (n and line.made.has("noun_one", p.text))]  # "the second one"
        if told and any(line.made.has("more_word", p.text) for p in line.ps[line.ps.index(told[0]) + 1 :][:1]):
            return False  # "2 more loads to go"
        numbers = [int(n) for piece in told if (n := _whole(piece)) is not None]
        return len(numbers) == len(told) == 1 and line.emit(kind, number=numbers[0])

    return read


def _whole(piece: Piece) -> int | None:
    """ "12", "second", "2nd"."""
    if piece.kind == "number":
        return int(piece.value) if float(piece.value).is_integer() else None
    entry = next((piece.types[kind] for kind in ("ORDINAL", "NTH", "NUMBER_WORD") if kind in piece.types), None)
    return int(entry.value) if entry is not None and str(entry.value).isdigit() else None


def _watched(line: Line) -> bool:
    """How seed holds up over the fields, of one source where one is named."""
    return line.emit("watch", source=inquiring.source_in(line))


def _alias(line: Line) -> bool:
    """A field's second name."""
    found = registering.other_name(line)
    return found is not None and line.emit("field", name=found[0], alias=found[1])


_VALUES: Mapping[str, Callable[[Line], bool]] = {
    "language": _language,
    "place": _place,
    "release": _numbered("release"),
    "refuse": _numbered("refuse"),
    "choose_n": _numbered("choose"),
    "watch": _watched,
    "alias": _alias,
    "trial_help": lambda line: line.emit("trial_help"),
    "trial_drop": lambda line: line.emit("trial", drop=True),
}
"""How each kind is read whose values are not those of most."""


def _puts(line: Line) -> bool:
    """Is more told than a field and a day ("baixada dia 6"), and a day that is not past ("hace 2 días")?"""
    little = ("FIELD", "FIELD_WORD", "WEEKDAY", "MONTH", "UNIT", "TODAY", "COURTESY")
    more = [p for p in line.ps if p.kind == "word" and not is_any(p, little) and not linking(p)]
    return bool(more) and not any(is_any(piece, ("AGO",)) for piece in line.ps)


def _looked(line: Line, kind: str, field: str | None) -> bool:
    """How many plants to dig, and what a look was worth."""
    asked = looking.plan_of(line, wide=False) if kind == "look_plan" else looking.asked_of(line, wide=False)
    if kind == "look_worth" and "plants" not in asked and field is None:
        return False
    return line.emit(kind, **{**asked, **({"field": field} if field is not None else {})})


def _reported(line: Line, parts: asking.Parts, field: str | None) -> bool:
    """The season's report of a field, of several, of all."""
    names = inquiring.fields_in(line)
    if len(names) > 1:
        return line.emit("report", fields=names)
    if field is None:
        return parts.says("report_all") and line.emit("report", all=True)
    return line.emit("report", field=field)
