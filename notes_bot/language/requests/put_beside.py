"""One value put beside another of its kind, in free words: "tops were stunted not wilted", "no wait it was 8 not 6".

Every word of the sentence must be a value, what it is the value of, a word that denies, a word for writing or for what
is so, an excuse or a little word; with any other word the sentence tells something else and is left alone. So a plain
note ("dug 6 not 5 like usual") puts nothing right.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise, takewhile
from typing import TYPE_CHECKING, Any

from notes_bot.language.lexicon.days import UNIT_DAYS, DayWritten, coming_day
from notes_bot.language.lexicon.joining import day_words, is_any, linking, number_words, stage_words
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import Entry, Table, anywhere, is_field_word
from notes_bot.language.names.named_seeds import worded_end
from notes_bot.language.names.naming import Names, joints, written
from notes_bot.language.noting.crop import ROOT_WORDS, TOP_WORDS
from notes_bot.language.passes.keyed import SAMPLE
from notes_bot.language.requests import asking
from notes_bot.language.requests.amends import MOST_DAY, dated, named_field
from notes_bot.language.requests.corrections import cannot_go, correction, in_figures
from notes_bot.language.senses import stage

if TYPE_CHECKING:
    from notes_bot.language.clauses.context import Context
    from notes_bot.language.requests.commands.line import Line

LONGEST = 30
"""Pieces of the longest sentence that puts values right (judgement)."""
MOST_PAIRS = 3
"""Data put right in one sentence; more is a note (judgement)."""
CODE_LETTERS = 4
"""Letters that lead the number of a variety ("KR 2417") at most (judgement)."""

_COUNTS = frozenset({"white", "yellow", "tan", "brown", "plants", "total"})
_SHADES = frozenset({"white", "yellow", "tan", "brown"})
_LISTS = frozenset({"roots", "tops"})
"""Data of several words each."""
_KINDS = {
    "MOISTURE": "moisture",
    "TEXTURE": "texture",
    "TOOL": "method",
    "DUG": "method",
    "RESISTANCE": "resistance",
    "SOURCE": "source",
    "CHEMICAL": "spray",
}
"""What a word's value can be the value of."""
_OF_ROOTS = {"white": "white", "brown": "dark"}
"""A color said of roots."""
_OF_TOPS = {"VEINS": "interveinal_new", "EDGES": "edges_old", "BANDS": "flash_bands"}
"""What tells where leaves are yellow; "yellow" beside it says no more."""
_ALL_WORDS = (*ROOT_WORDS, *TOP_WORDS)
_NODULES = {"pink": "nodules_pink", "brown": "nodules_brown", "few": "nodules_few", "many": "nodules_many"}


@dataclass(slots=True)
class Part:
    """One word of the sentence and its part in it: value, noun, not, instead, wrote, had, now, sure, stop .."""

    role: str
    what: str | None = None
    """Of a value or noun: what it tells; ``None`` for a bare number."""
    value: Any = None
    verb: bool = False
    """A verb of digging, that may only say that plants were dug; a span told in weeks; a verb of changing with "to"."""


@dataclass(slots=True)
class Right:
    """One datum put right."""

    what: str
    value: Any
    old: Any = None
    told: bool = False
    """Without an old one: do words right before it say that it be so ("should read 9", "change it to 9")?"""


def also_right(line: Line) -> bool:
    """ ".. also tallow was V6": behind a correction, one field and one value of it that counts no females."""
    span = field_span(line)
    parts = _parts(line, span) if span is not None and len(line.ps) <= LONGEST and not line.asked else None
    values = [part for part in parts or () if part.role == "value"]
    if span is None or parts is None or len(values) != 1 or not any(part.role == "now" for part in parts):
        return False
    rights = _rights([Part("sure"), *parts])
    if not rights or rights[0].what in _SHADES | {"total", "visit"}:
        return False
    emit(line, field_name(line, span), rights[0], None)
    return True


def right_of(line: Line, field: Piece) -> bool:
    """ "(There are two slips in my note on Kestrel.) And the whites were 18, I'd put 8": read as of that field.

    Only what is put right: false where nothing is, or where the sentence names another field.
    """
    own = [p for p in line.ps if "FIELD" in p.types]
    said = list(line.ps)
    while said and (said[0].text in joints() or said[0].text in anywhere("also")):
        said = said[1:]
    if not said or len(own) > 1 or any(p.text != field.text for p in own):
        return False
    context, kept = line.context, line.context.found()
    whole = type(line)(context, said if own else [field, *said])
    name = whole.written(field)
    if put_beside(whole) or correction(context, whole.ps):
        made = context.commands[kept[0] :]
        right = all(c.kind == "correct" and "what" in c.args and c.args.get("field") in (None, name) for c in made)
        if made and right and context.found()[1] == kept[1]:
            context.told_of(name, kept[0])
            return True
    context.forget(kept)
    return False


def put_beside(line: Line, other_than: Piece | None = None, lone: bool = False) -> bool:
    """Read a line, or a sentence among others, as values put right; false when any of its words tells more than that.

    Beside a note, ``other_than`` is its field: only another field's note is put right there. With ``lone`` a value
    with no other beside it counts too, where a word says that something was wrong ("oops, tallow was 7 plants").
    """
    if len(line.ps) > LONGEST or line.asked or not _may_put(line):
        return False
    if any(_tells_of_plants(p, q, line.made) for p, q in pairwise(line.ps)):
        return False
    if (
        cannot_go(line.context, line.ps)
        or asking.parts_of(line).says("ask_reminder")
        or asking.parts_of(line).takes_back()
    ):
        return False
    span = field_span(line)
    below = "\n" in line.context.text.strip()
    if span is None and (other_than is not None or below or any("FIELD" in p.types for p in line.ps)):
        return False
    field = field_name(line, span) if span is not None else None
    if other_than is not None and field == field_name(line, (other_than.start, other_than.end)):
        return False
    parts = _parts(line, span)
    if parts is not None and (_shades_turned(parts) or _either(parts)):
        line.context.complain("no_change", line.start, line.end)
        return True
    rights = _rights(parts) if parts is not None else None
    days = [r for r in rights or () if r.what == "visit"]
    rights = [r for r in rights or () if r.what != "visit"]
    sure = span is not None or any(part.what == "unlike" for part in parts or ())
    told = lone or all(r.told and sure for r in rights or () if r.old is None)
    if not rights or len(days) > 1 or not told:
        return False
    on = line.context.quietly(days[0].value) if days else None
    for right in rights:
        emit(line, field, right, on)
    return True


def _tells_of_plants(piece: Piece, behind: Piece, made: Table) -> bool:
    """ "N = 10, total de 31", "six plants gave me 19": the size of a sample, and what plants had."""
    return (piece.text == SAMPLE and behind.text == "=") or (
        is_any(piece, ("PLANTS",)) and made.has("gave", behind.text)
    )


def _may_put(line: Line) -> bool:
    """Is anything denied, told to have been written, or said to be wrong? A look before the sentence is read."""
    made = line.made
    if any(is_any(p, ("NOT", "CORRECT")) for p in line.ps):
        return True
    cues = ("wrote", "amend_cue", "really", "had_alone", "set_verb", "note_says")
    if any(map(made.denies, line.vocabulary)) or any(made.has_any(trait, line.vocabulary) for trait in cues):
        return True
    return asking.parts_of(line).says("amend_cue", "owns_up", "instead_of", "put_wrong", "scratches", "right_now")


def field_span(line: Line) -> tuple[int, int] | None:
    """Where the one field of the sentence stands, no word of ours in its name; ``None`` with none or two."""
    span = named_field(line) if line.context.fields else _head(line)
    if span is not None and any(_counts(p, q, span) for p, q in pairwise(line.ps)):
        return None
    own = [p for p in line.ps if span is not None and span[0] <= p.start < span[1] and "FIELD" not in p.types]
    told = any(p.types for p in own) if line.context.fields else bool(own) and all(p.types for p in own)
    return None if told else span  # without a list "lark hollow" is one, a low spot or not


def _counts(piece: Piece, behind: Piece, span: tuple[int, int]) -> bool:
    """ "Correct 12 white to 14": a number by which a field is called, and which counts here."""
    named = (piece.start, piece.end) == span and piece.text.isdigit()
    return named and is_any(behind, ("COLOUR", "FEMALES", "PLANTS"))


def _head(line: Line) -> tuple[int, int] | None:
    """ "Canal Grande: fueron 12 plantas, puse 10": without a list of fields, a name in front."""
    colon = next((n for n, p in enumerate(line.ps[: LONGEST_HEAD + 1]) if p.text == ":"), 0)
    if colon and all(p.kind in ("word", "number") for p in line.ps[:colon]) and not line.ps[0].types:
        return line.ps[0].start, line.ps[colon - 1].end
    names = Names(line.context.text, line.ps, line.made, ()).find()
    first = names.get(0)
    behind = next((p for p in line.ps if first is not None and p.start >= first.end), None)
    runs_on = behind is not None and behind.kind != "break"  # "fat thumbs. make that 14 white not 41" names none
    if first is not None:
        return (first.start, first.end) if runs_on and len(names) == 1 else None
    return _of_note(line.ps, line.made)


def _of_note(pieces: list[Piece], made: Table) -> tuple[int, int] | None:
    """ "My (sawyer) note", "la nota de (santa clara)": without a list, words of no meaning beside one for a note."""
    at = next((n for n, p in enumerate(pieces) if made.has("mail_word", p.text)), None)
    if at is None:
        return None
    first = at
    while first > 0 and pieces[first - 1].kind == "word" and not pieces[first - 1].types:
        first -= 1
    if 0 < first < at <= first + LONGEST_HEAD and linking(pieces[first - 1]):
        return pieces[first].start, pieces[at - 1].end
    begin = end = at + 2
    while end < len(pieces) and pieces[end].kind == "word" and not pieces[end].types:
        end += 1
    led = begin < end <= begin + LONGEST_HEAD and made.has("of_note", pieces[at + 1].text)
    ends = end == len(pieces) or pieces[end].kind in ("break", "sign")
    return (pieces[begin].start, pieces[end - 1].end) if led and ends else None


LONGEST_HEAD = 4
"""Words and numbers of the longest name before a colon (judgement)."""


def field_name(line: Line, span: tuple[int, int]) -> str:
    """The field's name without a word for field before it, unless the crew's name has it."""
    name = written(line.context.text, *span)
    words = name.split(" ")
    known = {fold(" ".join(field.split())) for field in line.context.fields if not any(map(str.isdigit, field))}
    led = len(words) > 1 and is_field_word(fold(words[0])) and fold(name) not in known
    return " ".join(words[1:]) if led else name


# --- what each word does in the sentence


def _parts(line: Line, span: tuple[int, int] | None) -> list[Part] | None:
    """Every word's part, the field left out; ``None`` where a word has none ("like usual")."""
    made = line.made
    whole = joined_pieces(line.ps, made)
    puts = made.has("puts_down", whole[0].text)
    if puts:
        whole = whole[1:]  # "put birch bottom down as V5": what is so
    topic = topic_of(whole)
    cried = _cries(whole, made)
    out: list[Part] = [Part("sure")] if cried else []
    colon = next((n for n, p in enumerate(whole) if p.text == ":"), 0)
    if colon and _asks_right(whole[:colon], made):
        out, whole = [Part("sure", "strong")], whole[colon + 1 :]
    for clause in clauses_of(whole[cried:]):
        if _asks_right(clause, made):
            out.append(Part("sure", "strong"))
            continue
        clause, unlike = _unlike_sent(clause, made)
        told = [*told_parts(clause, topic, span, line, cried=bool(cried)), *unlike]
        if any(part.role == "value" for part in told) and not _forgotten(clause, made):
            if any(part.role == "stray" for part in told):
                return None
            out += told
        elif any(part.role == "stray" for part in told):
            if not _only_excuses(clause, made):
                return None
            wrote = any(part.role == "wrote" for part in told)
            said = f" {' '.join(p.text for p in clause)} "
            turned = any(f" {phrase} " in said for phrase in made.traits["mixed_up"])
            out += [Part("stop"), Part("sure", "strong" if turned else None)] if not wrote else [Part("stop")]
        else:
            out += told
    if puts and span is not None and any(p.start == span[0] for p in whole[:PAIR]) and _says_now(out):
        out.insert(0, Part("sure", "strong"))  # "poné en bajo grande que fue con pala"
    if named_note(whole, span, made):
        out = [replace(part, what="strong") if part.what == "set" else part for part in out]
    return _without_verbs(_none_of(_answered(_joined(out))))


def _says_now(parts: list[Part]) -> bool:
    """Does a word say that something was so?"""
    return any(part.role == "now" for part in parts)


def named_note(pieces: list[Piece], span: tuple[int, int] | None, made: Table) -> bool:
    """ "Kestrel note (from yesterday, make that 7 plants)": is a word for a note right beside the field's name?"""
    at = next((n for n, p in enumerate(pieces) if span is not None and p.end == span[1]), None)
    behind = pieces[at + 1 : at + 2] if at is not None else []
    return any(made.has("mail_word", p.text) for p in behind)


def _answered(parts: list[Part]) -> list[Part]:
    """ "(Soaked the roots,) note says we didn't": the one thing that is so or not, denied in what was written."""
    told = [part for part in parts if isinstance(part.value, bool)]
    ends = [*parts[1:], Part("stop"), Part("stop")]
    if len(told) != 1:
        return parts
    out = list(parts)
    for n, (part, behind, beyond) in enumerate(zip(parts, ends, ends[1:], strict=False)):
        if part.role == "wrote" and behind.role in ("not", "lacks") and beyond.role == "stop":
            out[n + 1] = replace(told[0], value=not told[0].value)
    return out


def _either(parts: list[Part]) -> bool:
    """ "Blancas 9 no son 11": the "no" may be of either number."""
    roles = [part.role for part in parts]
    return any(roles[n : n + EITHER] == ["value", "not", "now", "value"] for n in range(len(roles)))


EITHER = 4
"""Parts of "9 no son 11"."""


def _none_of(parts: list[Part]) -> list[Part]:
    """ "Had no brown, i put 3": a color denied, where another number of it was written, is none of it."""
    values = [part for part in parts if part.role == "value"]
    if len(values) != 1 or values[0].what is not None or not any(part.role == "wrote" for part in parts):
        return parts
    denied = next((n for n, part in enumerate(parts) if part.role in ("not", "lacks")), len(parts))
    noun = denied + 1
    while noun < len(parts) and parts[noun].role in ("now", "had"):
        noun += 1
    if noun >= len(parts) or parts[noun].role != "noun" or parts[noun].what not in _SHADES or values[0] in parts[:noun]:
        return parts
    return [*parts[:denied], Part("value", None, 0), *parts[noun:]]


def _shades_turned(parts: list[Part]) -> bool:
    """ "6 white should be yellow", "whites were really yellows": one color stood for another; how many, is asked."""
    at = [n for n, part in enumerate(parts) if part.role == "noun" and part.what in _SHADES]
    values = [n for n, part in enumerate(parts) if part.role == "value"]
    if len(at) != PAIR or parts[at[0]].what == parts[at[1]].what or len(values) > 1:
        return False
    before, between = parts[: at[0]], parts[at[0] + 1 : at[1]]
    roles = {part.role for part in between}
    if "stop" in roles or any(parts[n].what is not None or n >= at[0] for n in values):
        return False
    led = not before or before[-1].role == "value" or before[0].what == "set" or before[0].role == "instead"
    turned = any(part.what == "strong" for part in between) or roles >= {"now", "sure"} or (led and "now" in roles)
    denied = "not" in roles and bool(values) and any(part.role == "now" for part in before)
    return turned or denied


def _asks_right(clause: list[Piece], made: Table) -> bool:
    """ "Fix my kestrel note please", "my kestrel note needs fixing": a note to be put right, and no value of it."""
    told = [p for p in clause if "FIELD" not in p.types and len(p.text) > 1 and not linking(p)]
    if any(p.kind not in ("word", "break", "sign") or is_any(p, (*_COUNTABLE, *_NOUNS)) for p in told):
        return False  # "corrija o prazo para olhar de novo (7 dias)"
    words = [word for p in clause for word in p.text.split(" ")]
    note = any(made.has_any(trait, words) for trait in ("mail_word", "note_noun", "visit_noun"))
    if not note:
        return False
    said = f" {' '.join(words)} "
    return made.has_any("set_verb", words) or any(f" {phrase} " in said for phrase in made.traits["owns_up"])


def _unlike_sent(clause: list[Piece], made: Table) -> tuple[list[Piece], list[Part]]:
    """ "(9 white,) not what i just sent": a clause without what denies a note as a whole, and the part that has."""
    at = next((n for n, p in enumerate(clause) if is_any(p, ("NOT",))), len(clause))
    denied = clause[at:]
    wrote = any(made.has("wrote", p.text) for p in denied)
    if not wrote or any(p.kind != "word" or is_any(p, _COUNTABLE) for p in denied):
        return clause, []
    return clause[:at], [Part("sure", "unlike")]


_COUNTABLE = (*_KINDS, "COLOUR", "PLANTS", "FEMALES", "FIELD", "NUMBER_WORD", "ROOTS", "ROOT", "TOPS", "TOP", "NONE")
"""What may be denied itself: "not yellow like i sent"."""


def _joined(parts: list[Part]) -> list[Part]:
    """ "Dark and stubby", "yellow between the veins", "dug with a shovel": what is said together, as one value."""
    out: list[Part] = []
    for part in (part for part in parts if part.role != "little"):
        if out and part.what == "method" and (out[-1].what, out[-1].value) == (part.what, part.value):
            out[-1] = replace(part, verb=False)  # "not dug with a shovel": said twice
            continue
        kept = out[:-1] if out and out[-1].role == "and" else out
        last = kept[-1] if kept and kept[-1].role == "value" and kept[-1].what == part.what in _LISTS else None
        if last is None or part.role != "value" or last.value == part.value:
            out.append(part)
            continue
        words = {*last.value, *part.value}
        words -= {"yellow"} if words & set(_OF_TOPS.values()) else set()
        out = [*kept[:-1], Part("value", part.what, sorted(words, key=_ALL_WORDS.index))]
    return out


def joined_pieces(pieces: list[Piece], made: Table) -> list[Piece]:
    """Pieces with numbers, stages and days of several words as one, and what a phrase denies apart."""
    dug = any("DUG" in p.types for p in pieces)
    sets = any(_sets(p, made) for p in pieces)
    whole = [q for p in pieces for q in (_unled(p, made) if sets else [p])]
    whole = [q for p in whole for q in _undenied(p, made, dug)]
    whole = stage_words(number_words(whole, made), made)
    led = [False, *(is_any(p, ("CORRECT",)) or made.has("is_now", p.text) for p in whole)]
    whole = [in_figures(p, made) if behind else p for p, behind in zip(whole, led, strict=False)]  # "it was nineteen"
    return day_words(dated(whole), made)


def _sets(piece: Piece, made: Table) -> bool:
    """A verb of changing, also in "kindly change"?"""
    return made.has("set_verb", piece.text.rpartition(" ")[2]) or made.has("set_verb", piece.text.partition(" ")[0])


def _without_verbs(parts: list[Part]) -> list[Part]:
    """ "Only 4 plants got dug not 5": dug, said in passing, is no value; in "was pulled not dug" it is."""
    ways = [part for part in parts if part.what == "method" and part.role == "value"]
    verbs = [part for part in ways if part.verb]
    tools = len(ways) - len(verbs)
    others = any(part.role == "value" and part.what != "method" for part in parts)
    if not (tools > 1 or (others and len(ways) < PAIR)):
        return parts
    return [Part("noun", "dug") if part in verbs else part for part in parts]


PAIR = 2
"""Values of a pair."""


def clauses_of(pieces: list[Piece]) -> Iterator[list[Piece]]:
    """The sentence cut before its stops."""
    clause: list[Piece] = []
    for piece in pieces:
        if piece.kind in ("break", "line") and clause:
            yield clause
            clause = []
        clause.append(piece)
    yield clause


def _undenied(piece: Piece, made: Table, dug: bool) -> Iterator[Piece]:
    """ "Not dug", "no era", "not many": where a phrase denies, the denial apart from what it denies.

    So is "(pulled em,) didn't dig", where it is told how they came out.
    """
    ways = dug and "NOT_LOOKED" in piece.types  # "did not dig"
    first, _, rest = piece.text.rpartition(" ") if ways else piece.text.partition(" ")
    meant = made.singles.get(rest, ())
    denies = first in anywhere("plain_no")
    denies = denies or (ways and any(map(made.denies, first.split(" "))) and any(e.type == "DUG" for e in meant))
    if piece.kind != "word" or not rest or not denies or not (meant or rest.isdigit()):
        yield piece
        return
    cut = piece.start + len(first)
    yield Piece("word", first, piece.start, cut, (Entry("NOT", "not"),), None, piece.spaced)
    if rest.isdigit():
        yield Piece("number", rest, piece.end - len(rest), piece.end, (), int(rest), True)
    else:
        yield Piece("word", rest, piece.end - len(rest), piece.end, tuple(meant), None, True)


def _unled(piece: Piece, made: Table) -> list[Piece]:
    """ "(Cambiá el suelo) a seco": behind a verb of changing, what leads to a value apart from it."""
    first, _, rest = piece.text.partition(" ")
    meant = [entry for entry in made.singles.get(rest, ()) if entry.type in _KINDS]
    if piece.kind != "word" or not meant or not made.has("swapped_for", first):
        return [piece]
    cut = piece.start + len(first)
    lead = Piece("word", first, piece.start, cut, (), None, piece.spaced)
    return [lead, Piece("word", rest, piece.end - len(rest), piece.end, tuple(meant), None, True)]


def topic_of(pieces: list[Piece]) -> str | None:
    """What the colors and words of plants are said of: roots, tops, nodules; ``None`` for females."""
    for noun, values, topic in _TOPICS:
        named = [p for p in pieces if is_any(p, (noun,)) and not is_any(p, values)]
        if named and any(is_any(p, values) for p in pieces):
            return topic
    for kind, topic in (("VARIETY", "variety"), ("CHEMICAL", "spray")):
        if any(is_any(p, (kind,)) for p in pieces):
            return topic
    leaves = any(is_any(p, ("TOPS",)) and not is_any(p, ("PLANTS",)) for p in pieces)
    yellow = any("COLOUR" in p.types and p.types["COLOUR"].value == "yellow" for p in pieces)
    if leaves and yellow and not any(p.kind == "number" for p in pieces):
        return "tops"
    return "tops" if any(p.types.keys() == {"TOP"} for p in pieces) else None


_TOPICS = (
    ("NODULES", ("NODULE",), "nodules"),
    ("ROOTS", ("ROOT",), "roots"),
    ("TOPS", ("TOP", *_OF_TOPS), "tops"),
)
"""What is named, what may be said of it, and the topic."""


def told_parts(
    clause: list[Piece], topic: str | None, span: tuple[int, int] | None, line: Line, cried: bool = False
) -> Iterator[Part]:
    """The part of each word of a clause."""
    made = line.made
    n = 0
    while n < len(clause):
        piece, behind = clause[n], clause[n + 1] if n + 1 < len(clause) else None
        size, part = _code(clause, n)
        if not size and topic == "variety":
            size, part = _seed(clause, n, span, line)
        if not size:
            size, part = _phrase(clause, n, made)
        if size:
            n += size
            yield part
            continue
        if made.has("note_says", piece.text) and all(_points_to_note(p, made) for p in clause[:n]):
            n += 1
            yield Part("wrote")  # "white 16 please, it says 6"
            continue
        n += 1
        if span is not None and span[0] <= piece.start < span[1]:
            if n > 1 and _sets(clause[n - 2], made):
                yield Part("now")  # "make dry creek moist"
            continue
        timed = is_any(behind, ("UNIT",)) and not (cried and is_any(behind, ("COLOUR",)))
        if piece.kind == "number" and isinstance(piece.value, int) and timed:
            unit = behind.types["UNIT"].value if behind is not None else ""
            days = piece.value * UNIT_DAYS.get(unit, 0)
            yield Part("value", "look_again", days, verb=unit != "day") if days else Part("stray")
            n += 1
            continue
        if any(_sets(p, made) for p in clause[: n - 1]) and (turn := _turn(piece, made)) is not None:
            yield turn
            values = _turned_to(behind, made) if turn.role == "now" else _both_values(behind)
            yield from values
            n += bool(values)
            continue
        if len(piece.text) == 1 and "COLOUR" in piece.types:
            counted = any(q is not None and q.kind == "number" for q in (behind, clause[n - 2] if n > 1 else None))
            named = span is not None and behind is not None and span[0] <= behind.start < span[1]
            if counted and not named:
                yield Part("noun", piece.types["COLOUR"].value)
                continue
            if "LINK" in piece.types or piece.text in anywhere("and_word"):
                yield Part("and" if piece.text in anywhere("and_word") else "little")
                continue
        counted = n > 1 and clause[n - 2].kind == "number"
        yield _part(piece, None if counted and "COLOUR" in piece.types else topic, made)


def _turn(piece: Piece, made: Table) -> Part | None:
    """ "Change the total (from) 12 (to) 22": behind a verb of changing, what leads to the old value and the new."""
    if made.has("from_old", piece.text):
        return Part("wrote")
    return Part("now") if made.has("swapped_for", piece.text) else None


def _turned_to(piece: Piece | None, made: Table) -> list[Part]:
    """ "(Troca pá por) mão": a word for the hand, which is a way only where one is changed for another."""
    return [Part("value", "method", "pulled")] if piece is not None and made.has("hand_word", piece.text) else []


def _both_values(piece: Piece | None) -> list[Part]:
    """ "(From) 8 to 10", "(de) R3 a R4": both values of one piece behind such a word."""
    if piece is not None and piece.kind == "range":
        first, last = piece.value
        return [Part("value", None, first), Part("now"), Part("value", None, last)]
    staged = [w for w in piece.text.split(" ") if any(map(str.isdigit, w))] if piece and piece.kind == "stage" else []
    if len(staged) != PAIR:
        return []
    first, last = map(stage, staged)
    return [Part("value", "stage", first), Part("now"), Part("value", "stage", last)]


def _points_to_note(piece: Piece, made: Table) -> bool:
    """ "It (says)", "the note (says)", and not "my card (says)"."""
    if piece.kind != "word" or is_any(piece, ("FIELD",)):
        return True
    manners = ("it_word", "note_noun", "mail_word", "there")
    return linking(piece) or any(made.has(manner, piece.text) for manner in manners)


def _cries(pieces: list[Piece], made: Table) -> bool:
    """ "Wait 5w not 4": is the first word a cry, and no look, where a letter is a color as well as a time?"""
    first = pieces[0]
    shaded = any(p.kind == "number" and is_any(q, ("COLOUR",)) and is_any(q, ("UNIT",)) for p, q in pairwise(pieces))
    return shaded and is_any(first, ("LOOK",)) and made.has("slip_cry", first.text)


def _phrase(clause: list[Piece], n: int, made: Table) -> tuple[int, Part]:
    """ "Two mistakes", "tendrían que ser": words that stand for one part; how many pieces they take, or 0."""
    for size in range(min(LONGEST_EXCUSE, len(clause) - n), 0, -1):
        run = clause[n : n + size]
        if any(p.kind not in ("word", "number") or "FIELD" in p.types for p in run):
            continue
        said = " ".join(p.text for p in run)
        role = next((role for trait, role in _PHRASES.items() if made.has(trait, said)), None)
        if role is not None:
            strong = any(made.has(manner, said) for manner in ("right_now", "mixed_up", "wrong_day"))
            return size, Part(role, "look_again" if role == "noun" else "strong" if strong else None)
    return 0, Part("stray")


_PHRASES = {
    "put_wrong": "wrote",
    "right_now": "sure",
    "mixed_up": "sure",
    "wrong_day": "sure",
    "beside_excuse": "sure",
    "slip_digit": "sure",
    "slip_reason": "sure",
    "scratches": "not",
    "look_beside": "noun",
}
"""What phrases of these manners do in the sentence."""


def _code(clause: list[Piece], n: int) -> tuple[int, Part]:
    """ "KR 2417", "lm3306": the name of a variety, letters and a number; how many pieces it takes, or 0."""
    piece, behind = clause[n], clause[n + 1] if n + 1 < len(clause) else None
    letters = piece.kind == "word" and not piece.types and piece.text.isalpha() and len(piece.text) <= CODE_LETTERS
    if letters and behind is not None and behind.kind == "number" and behind.value >= MOST_COUNTED:
        return 2, Part("value", "variety", f"{piece.text} {behind.text}".upper())
    glued = piece.kind == "word" and not piece.types and piece.text[:1].isalpha() and piece.text[-2:].isdigit()
    return (1, Part("value", "variety", piece.text.upper())) if glued else (0, Part("stray"))


def _seed(clause: list[Piece], n: int, span: tuple[int, int] | None, line: Line) -> tuple[int, Part]:
    """ "Velda 2710", "Brown Kettle" where a variety is spoken of; how many pieces its name takes, or 0."""
    piece, behind = clause[n], clause[n + 1] if n + 1 < len(clause) else None
    text = line.context.text
    if span is not None and span[0] <= piece.start < span[1]:
        return 0, Part("stray")
    if piece.kind == "word" and not piece.types and behind is not None and behind.kind == "number":
        return 2, Part("value", "variety", text[piece.start : behind.end])
    end = worded_end(clause, n, line.made, text, sure=bool(n) and _tells_name(clause[n - 1], line.made))
    return end - n, Part("value", "variety", text[piece.start : clause[end - 1].end])


def _tells_name(piece: Piece, made: Table) -> bool:
    """ "Is (brown kettle)", "not (gray wren)": does a word before a value tell that one is behind it?"""
    return _role(piece, None, made).role in ("now", "not", "instead", "wrote") or made.has("from_old", piece.text)


MOST_COUNTED = 100
"""From here on a number behind letters is a code, and no count (judgement)."""


def _part(piece: Piece, topic: str | None, made: Table) -> Part:
    """The part of one word."""
    match piece.kind:
        case "break" | "line":
            return Part("stop")
        case "sign":
            return Part("now" if piece.text in ("=", ":", ">", "->", "=>") else "little")
        case "number":
            return Part("value", None, piece.value) if isinstance(piece.value, int) else Part("stray")
        case "stage":
            return Part("value", "stage", stage(piece.text))
        case "day":
            return Part("value", "date", piece.value)
        case "word":
            return _value(piece, topic) or _role(piece, topic, made)
    return Part("stray")


def _value(piece: Piece, topic: str | None) -> Part | None:
    """A word that is a value: wet, clay, pulled, resistant, or of roots and tops what is said of them."""
    types = piece.types
    if topic == "nodules" and "NODULE" in types:
        word = _NODULES.get(types["NODULE"].value)
        return Part("value", "roots", [word]) if word else None
    if topic == "roots" and ("ROOT" in types or ("COLOUR" in types and types["COLOUR"].value in _OF_ROOTS)):
        word = types["ROOT"].value if "ROOT" in types else _OF_ROOTS[types["COLOUR"].value]
        return Part("value", "roots", [word])
    if topic == "tops" and "TOP" in types:
        return Part("value", "tops", [types["TOP"].value])
    if topic == "tops" and (where := next((kind for kind in _OF_TOPS if kind in types), None)) is not None:
        return Part("value", "tops", [_OF_TOPS[where]])
    if topic == "tops" and "COLOUR" in types and types["COLOUR"].value == "yellow":
        return Part("value", "tops", ["yellow"])
    if types.keys() >= {"NONE", "NUMBER_WORD"}:
        return Part("value", None, int(types["NUMBER_WORD"].value))
    if "SOAKED" in types and types["SOAKED"].value in ("yes", "no"):
        return Part("value", "soaked", types["SOAKED"].value == "yes")
    kind = next((kind for kind in _KINDS if kind in types and types[kind].value != "any"), None)
    if kind is None or "COLOUR" in types:
        return None
    return Part("value", _KINDS[kind], types[kind].value, verb=kind == "DUG")


_NOUNS = {"FEMALES": "total", "TOTAL": "total", "VARIETY": "variety", "LOOK": "look_again", "DUG": "dug"}
"""What a word names that a number beside it counts; "dug" counts plants where nothing else is named."""
_NO_PART = frozenset(
    {"NONE", "NOT_LOOKED", "TOO_MANY", "PLANTED", "EGGS", "SAME", "EACH", "CHECK", "SPRAY", "CHEMICAL", "PH"}
    | {"POTASSIUM", "UNDO", "MUTE", "RESUME", "SKIP", "HISTORY", "PICTURE", "STATE", "DUE", "MONTH", "WEEKDAY", "UNIT"}
)
"""Kinds of words that tell of something else."""


def _role(piece: Piece, topic: str | None, made: Table) -> Part:
    """What a word that is no value does."""
    words = piece.text.split(" ")
    last = words[-1]
    if made.has("instead_of", piece.text):
        return Part("instead")
    if "NOT" in piece.types:
        return Part("lacks" if made.has("lacks", piece.text) else "not")
    if not piece.types and made.denies(piece.text):
        return Part("not")  # "i didnt (pull), i dug"
    if made.has("wrote", piece.text) or made.has("put_wrong", piece.text) or made.has("put_down", piece.text):
        return Part("wrote")
    if made.has("strong_correct", piece.text):
        return Part("sure", "strong")
    if _sets(piece, made):
        return Part("sure", "set", verb=made.has("swapped_for", last))  # "change it to (5)"
    if any(made.has(trait, piece.text) for trait in ("really", "amend_cue", "sorry", "slip_reason")):
        return Part("sure")
    if made.has("had_alone", piece.text):
        return Part("had")
    if made.has("is_now", piece.text) or made.has("is_word", piece.text):
        return Part("now")
    if "CORRECT" in piece.types:
        return Part("now" if made.has("is_now", last) or made.has("is_word", last) else "sure")
    if piece.text in anywhere("and_word"):
        return Part("and")
    if "COLOUR" in piece.types and len(piece.text) > 1:
        return Part("noun", piece.types["COLOUR"].value)
    if topic is not None and is_any(piece, ("ROOTS", "TOPS", "NODULES", "NEW", "OLD")):
        return Part("little")
    if topic == "spray" and is_any(piece, ("SPRAY",)):
        return Part("little")
    if made.has("but_word", piece.text):
        return Part("but")
    if made.has("date_noun", piece.text):
        return Part("noun", "date")
    if _names_plants(piece, made):
        return Part("noun", "plants")
    if piece.types.keys() & _NO_PART or piece.types.keys() == {"ABOUT"}:
        return Part("stray")
    noun = next((what for kind, what in _NOUNS.items() if kind in piece.types), None)
    if noun is not None:
        return Part("noun", noun)
    return Part("little") if _little(piece, words, made) else Part("stray")


def _names_plants(piece: Piece, made: Table) -> bool:
    """Is there a word for plants in it ("las plantas")?"""
    own = (entry.type for word in piece.text.split(" ") for entry in made.singles.get(word, ()))
    return "PLANTS" in piece.types or "PLANTS" in own


_NOTES = ("mail_word", "note_noun", "note_word", "sent_count", "visit_noun", "day_word", "stage_word", "soil_word")
_LITTLE = (*_NOTES, "what_changed", "it_word", "we_word", "name_article", "of_note", "plea_word", "beside_talk", "adds")
"""Manners of words that tell nothing here."""


def _little(piece: Piece, words: list[str], made: Table) -> bool:
    """A word for the note, the writer, a plea or nothing at all."""
    if linking(piece) or is_any(piece, ("COURTESY", "FIELD_WORD", "LINK", "TOPIC")) or piece.text in anywhere("please"):
        return True
    if any(made.has(trait, piece.text) for trait in _LITTLE):
        return True
    return all(any(made.has(trait, word) for trait in _LITTLE) for word in words)


def _forgotten(clause: list[Piece], made: Table) -> bool:
    """ "I forgot one w nothing on it": how the slip came, and no figure."""
    said = " ".join(p.text for p in clause if p.kind == "word")
    opens = any(said.startswith(phrase + " ") for phrase in made.traits.get("put_wrong_lead", ()))
    return opens and not any(p.kind != "word" and (p.kind != "number" or p.text.isdigit()) for p in clause[1:])


def _only_excuses(clause: list[Piece], made: Table) -> bool:
    """A clause that only tells how the slip came ("boss says", "forgot to put that right"), and no value."""
    words = [word for p in clause for word in p.text.split(" ")]
    if _forgotten(clause, made):
        return True
    if any(p.kind not in ("word", "break", "sign") or is_any(p, ("FIELD", "NONE", "NOT_LOOKED")) for p in clause):
        return False
    runs = (" ".join(words[n : n + size]) for size in range(1, LONGEST_EXCUSE + 1) for n in range(len(words)))
    return any(
        made.has(trait, run) for run in runs for trait in ("slip_reason", "amend_cue", "slip_digit", "beside_excuse")
    )


LONGEST_EXCUSE = 5
"""Words of the longest phrase for how a slip came (judgement)."""


# --- which of two values is so


def _rights(parts: list[Part]) -> list[Right] | None:
    """What is put right, in order; ``None`` where a value stands for nothing."""
    parts = [part for part in parts if part.role != "little"]
    if any(part.role == "lacks" and other.role != "stop" for part, other in pairwise([*parts, Part("stop")])):
        return None  # "no shovel, pulled"
    at = [n for n, part in enumerate(parts) if part.role == "value"]
    sure = any(part.role == "sure" and part.what != "set" for part in parts)
    if not at:
        return None
    out: list[Right] = []
    alone: list[tuple[int, Part]] = []
    n = 0
    done = 0
    while n < len(at):
        first = parts[at[n]]
        second = parts[at[n + 1]] if n + 1 < len(at) else None
        order = None
        if second is not None and _of_one_kind(first, second) and _alike(parts, at[n], at[n + 1], done):
            order = _order(parts[done : at[n]], parts[at[n] + 1 : at[n + 1]], first.what == "method")
        if order is None:
            alone.append((n, first))
            done = at[n] + 1
            n += 1
            continue
        what = _what(parts, at[n], at[n + 1], done)
        if what is None:
            return None
        new, old = parts[at[n]], parts[at[n + 1]]
        new, old = (new, old) if order == "new" else (old, new)
        weeks = what == "look_again" and new.verb and old.what is None
        out.append(Right(what, new.value, UNSAID if weeks else old.value))
        done = at[n + 1] + 1
        n += 2
    out += _alone(parts, at, alone, bool(out), sure) or ([] if not alone else [Right("", None)])
    if any(not right.what or right.value == right.old for right in out) or len(out) > MOST_PAIRS + 1:
        return None
    told = [right.what for right in out]
    return out if len(set(told)) == len(told) else None


UNSAID = -1
"""Days of "i put 2" beside "3 weeks": days or weeks is not said."""


def _of_one_kind(first: Part, second: Part) -> bool:
    """Can the one stand for the other: two stages, two numbers, a day and the number of one?"""
    if first.what == second.what:
        return True
    bare = second if second.what is None else first
    other = first if bare is second else second
    if bare.what is not None or not isinstance(bare.value, int):
        return False
    return other.what == "look_again" or (other.what == "date" and 0 < bare.value <= MOST_DAY)


def _alike(parts: list[Part], first: int, second: int, done: int) -> bool:
    """Do two numbers count the same thing, as far as each has its own word beside it? "Dug 6 had 9 white" does not.

    Nor does the number of a day count anything: "in tuesday's note change the total to 22".
    """
    own = _noun_of(parts, first, done), _noun_of(parts, second, first + 1)
    if {parts[first].what, parts[second].what} == {"date", None}:
        return own == (None, None)
    return None in own or own[0] == own[1]


def _noun_of(parts: list[Part], at: int, begin: int) -> str | None:
    """What is named right behind a number, or else before it."""
    if at + 1 < len(parts) and parts[at + 1].role == "noun":
        return _counted(parts[at + 1])
    return next((_counted(part) for part in reversed(parts[begin:at]) if part.role == "noun"), None)


def _order(before: list[Part], between: list[Part], ways: bool) -> str | None:
    """Which of two values is so: "new" the first, "old" the second, ``None`` when no word tells.

    Of two ``ways`` to take plants out, one denied is enough: "i didn't pull the kestrel plants i dug them".
    """
    roles = ["not" if part.role == "lacks" else part.role for part in between if part.role != "noun"]
    ahead = [part.role for part in before if part.role != "noun"]
    stops = bool({"stop", "now", "sure", "but"} & set(roles))
    denies = {"not", "instead"} & set(roles)
    if "not" in ahead and _last_but(ahead, ("now", "stop")) == "not" and not denies:
        return "old" if (stops and roles != ["but"]) or (ways and not roles) else None
    if "instead" in ahead and not denies:
        return "old"
    if denies:
        if roles[:2] == ["not", "stop"] and "not" not in roles[2:]:
            return "old"  # "blancas 9 no, son 11"
        led = roles[roles.index("not" if "not" in denies else "instead") + 1 :]
        return "new" if set(led) <= {"now", "had", "wrote"} else None
    if "wrote" in roles and "wrote" not in ahead:
        return _around_wrote(roles)
    if "had" in roles and not {"wrote", "and"} & {*ahead, *roles} and roles[-1] == "had":
        return "new"  # "dug five plants and they had 17 on them" counts females
    if "wrote" in ahead and (stops or "had" in roles):
        return "old"
    sets = any(part.what == "set" for part in before) and roles == ["now"]  # "chg plts 6 > 5"
    return "old" if sets or ("sure" in roles and "now" in roles) else None


def _around_wrote(roles: list[str]) -> str | None:
    """ "14 white, i put 12", "that 6 yellow i sent should read 16": is what was written told behind or before?"""
    at = roles.index("wrote")
    told = roles[at + 1 :]
    if "sure" in told or ("now" in told and "stop" in told[: told.index("now")]):
        return "old"
    return "new" if "now" not in told or "stop" in roles[:at] else None


def _last_but(roles: list[str], passed: tuple[str, ...]) -> str | None:
    """The last of them, little ones passed over."""
    return next((role for role in reversed(roles) if role not in passed), None)


def _what(parts: list[Part], first: int, second: int, done: int) -> str | None:
    """What two values, or one, are of: their own kind, or what is named beside them."""
    own = parts[first].what or parts[second].what
    if own is not None:
        named = any(part.role == "noun" and part.what == "look_again" for part in parts)
        if own == "date":
            return "look_again" if named else "date"
        return own if own != "look_again" or named else None
    for at in (first, second):
        if at + 1 < len(parts) and parts[at + 1].role == "noun":
            return _counted(parts[at + 1])
    nouns = [part for part in parts[done:first] if part.role == "noun"]
    nouns = nouns or [part for part in parts[first + 1 : second] if part.role == "noun"]
    named_only = [part for part in nouns if part.what not in ("dug", "look_again", "date")] or nouns
    named_only = [part for part in named_only if part.what in _SHADES] or named_only  # "the yellow count"
    if len({part.what for part in named_only}) > 1:
        return None
    return _counted(named_only[-1]) if named_only else _counted_behind(parts, second)


def _counted_behind(parts: list[Part], second: int) -> str | None:
    """ "It was 7 not 5, the plants": the one thing named behind."""
    nouns = [part for part in parts[second + 1 :] if part.role == "noun" and part.what != "dug"]
    return _counted(nouns[0]) if len(nouns) == 1 and not any(p.role == "value" for p in parts[second + 1 :]) else None


def _counted(noun: Part) -> str | None:
    """What a number beside this noun counts."""
    what = "plants" if noun.what == "dug" else noun.what
    return what if what in _COUNTS else None


_ALONE = _COUNTS | {"stage", "moisture", "texture", "method", "roots", "tops", "variety", "spray", "look_again"}
"""What may be put right without its old value, where a word says that something was wrong."""


def _alone(
    parts: list[Part], at: list[int], alone: list[tuple[int, Part]], paired: bool, sure: bool
) -> list[Right] | None:
    """Values with none beside them: the day of the note, how it was dug in passing, or what is so after all."""
    out: list[Right] = []
    for n, part in alone:
        what = _what(parts, at[n], at[n], at[n - 1] + 1 if n else 0)
        wrong = any(p.what == "strong" or (sure and p.what == "date") for p in parts[: at[n]])
        if what == "date" and len(at) == 1 and wrong:
            out.append(Right("date", part.value, told=True))  # "had the wrong date. i was there yesterday"
            continue
        if part.what == "date" and (paired or any(p.role == "value" for m, p in enumerate(parts) if m != at[n])):
            if not (at[n] and parts[at[n] - 1].role == "wrote"):  # "lo que mandé anoche": when it was sent
                out.append(Right("visit", part.value))
            continue
        led = parts[: at[n]]
        says = any(p.role == "now" or p.what == "strong" for p in parts[max(0, at[n] - LED) : at[n] + LED])
        says = says or any(p.what == "strong" for p in parts[: at[0]])  # "al revés, 4 blancas y 12 amarillas"
        told = what is not None and _told_before(led, what) and not _named_behind(parts, at[n])
        unlike = any(p.what == "unlike" for p in parts)
        if paired or what not in _ALONE or not (told or unlike or (sure and says)) or _turned(led):
            return None
        out.append(Right(what, part.value, told=told or unlike))
    return out


def _turned(led: list[Part]) -> bool:
    """Does a word before a lone value deny it? "Scratch that, 9 white" denies what was before."""
    return any(p.role in ("not", "had") and q.role != "stop" for p, q in pairwise([*led, Part("now")]))


def _named_behind(parts: list[Part], at: int) -> bool:
    """ "Make 5 plants": is what a number counts named behind it?"""
    return parts[at].what is None and at + 1 < len(parts) and parts[at + 1].role == "noun"


def _told_before(led: list[Part], what: str) -> bool:
    """ "White should be 8", "make the whites ten and the tans two", "change the soil to wet": is a value said to be so?

    A verb of changing alone says nothing: "make a plan, 6 plants", "poné 6 plantas 3 blancas" are notes.
    """
    said = list(takewhile(lambda part: part.role != "stop", reversed(led)))[::-1]
    if any(part.what == "strong" for part in said):
        return True
    sets = next((n for n, part in enumerate(said) if part.what == "set"), None)
    if sets is None or not said:
        return False
    leads = said[-1].role == "now" or said[-1].verb
    if what not in _COUNTS:
        return leads
    return any(part.role == "noun" and _counted(part) == what for part in (led if leads else said))


LED = 4
"""Parts around a lone value among which it is said to be so (judgement)."""


# --- the correction


def emit(line: Line, field: str | None, right: Right, on: Any) -> None:
    """One datum put right, as a command."""
    what, now, then = right.what, right.value, right.old
    if what == "spray":
        now, then = {"what": now}, then and {"what": then}
    elif what == "look_again":
        now, then = _next_look(line.context, now, then)
    elif what == "date":
        now, then = _days(line.context, now, then)
        on = None
    line.context.command("correct", line.start, line.end, field=field, what=what, value=now, old=then, date=on)


def _next_look(context: Context, now: Any, then: Any) -> tuple[Any, Any]:
    """Days to the next look, or its day; "in 14 days not 10", "7/31 not the 24th"."""
    if isinstance(now, DayWritten):
        day = coming_day(now, context.sent, context.language, context.day_first).day
        old = day.replace(day=then) if day is not None and isinstance(then, int) else None
        if isinstance(then, DayWritten):
            old = coming_day(then, context.sent, context.language, context.day_first).day
        return day and {"date": day.isoformat()}, old and {"date": old.isoformat()}
    return {"days": now}, None if then in (None, UNSAID) else {"days": then}


def _days(context: Context, now: Any, then: Any) -> tuple[Any, Any]:
    """The day of the visit, and the one written; "not today" says the day of the note, which may be another by now."""
    day = context.quietly(now)
    if isinstance(then, int):
        return day, day.replace(day=then) if day is not None else None
    if isinstance(then, DayWritten) and then.days_ago == 0:
        return day, None
    return day, context.quietly(then)
