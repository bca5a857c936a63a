"""What each word does in a sentence that puts values right: a value, what it is of, "not", "instead", "i put", "is" ..

A number, a stage, "wet", "pulled" and the name of a variety are values; "white" and "plants" are what numbers are of.
A word that does nothing of this and is no little word is a stray one.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from notes_bot.language.lexicon.days import UNIT_DAYS
from notes_bot.language.lexicon.joining import day_words, is_any, linking, number_words, stage_words
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import Entry, Table, anywhere
from notes_bot.language.names.named_seeds import worded_end
from notes_bot.language.requests.amends import dated
from notes_bot.language.requests.corrections import in_figures
from notes_bot.language.senses import stage

if TYPE_CHECKING:
    from notes_bot.language.requests.commands.line import Line


CODE_LETTERS = 4
"""Letters that lead the number of a variety ("KR 2417") at most (judgement)."""
COUNTS = frozenset({"white", "yellow", "tan", "brown", "plants", "total"})
SHADES = frozenset({"white", "yellow", "tan", "brown"})
LISTS = frozenset({"roots", "tops"})
"""Data of several words each."""
KINDS = {
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
OF_TOPS = {"VEINS": "interveinal_new", "EDGES": "edges_old", "BANDS": "flash_bands"}
"""What tells where leaves are yellow; "yellow" beside it says no more."""
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


def joined_pieces(pieces: list[Piece], made: Table) -> list[Piece]:
    """Pieces with numbers, stages and days of several words as one, and what a phrase denies apart."""
    dug = any("DUG" in p.types for p in pieces)
    sets = any(sets_value(p, made) for p in pieces)
    whole = [q for p in pieces for q in (_unled(p, made) if sets else [p])]
    whole = [q for p in whole for q in _undenied(p, made, dug)]
    whole = stage_words(number_words(whole, made), made)
    led = [False, *(is_any(p, ("CORRECT",)) or made.has("is_now", p.text) for p in whole)]
    whole = [in_figures(p, made) if behind else p for p, behind in zip(whole, led, strict=False)]  # "it was nineteen"
    return day_words(dated(whole), made)


def sets_value(piece: Piece, made: Table) -> bool:
    """A verb of changing, also in "kindly change"?"""
    return made.has("set_verb", piece.text.rpartition(" ")[2]) or made.has("set_verb", piece.text.partition(" ")[0])


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
    if dug and "TOOL" in piece.types and piece.types["TOOL"].value != "shovel" and " " in piece.text:
        yield from _untooled(piece, made)
        return
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


def _untooled(piece: Piece, made: Table) -> Iterator[Piece]:
    """ "Didn't use the spade", where another way is told: what is denied, and the tool."""
    first, last = piece.text.partition(" ")[0], piece.text.rpartition(" ")[2]
    tool = tuple(entry for entry in made.singles.get(last, ()) if entry.type == "TOOL" and entry.value == "shovel")
    if not tool or not made.denies(first) or not made.has_any("beside_way", piece.text.split(" ")):
        yield piece
        return
    cut = piece.start + len(first)
    yield Piece("word", first, piece.start, cut, (Entry("NOT", "not"),), None, piece.spaced)
    yield Piece("word", last, piece.end - len(last), piece.end, tool, None, True)


def _unled(piece: Piece, made: Table) -> list[Piece]:
    """ "(Cambiá el suelo) a seco": behind a verb of changing, what leads to a value apart from it."""
    first, _, rest = piece.text.partition(" ")
    meant = [entry for entry in made.singles.get(rest, ()) if entry.type in KINDS]
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
    ("TOPS", ("TOP", *OF_TOPS), "tops"),
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
            size, part = phrase_part(clause, n, made)
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
            if n > 1 and sets_value(clause[n - 2], made):
                yield Part("now")  # "make dry creek moist"
            continue
        timed = is_any(behind, ("UNIT",)) and not (cried and is_any(behind, ("COLOUR",)))
        if piece.kind == "number" and isinstance(piece.value, int) and timed:
            unit = behind.types["UNIT"].value if behind is not None else ""
            days = piece.value * UNIT_DAYS.get(unit, 0)
            yield Part("value", "look_again", days, verb=unit != "day") if days else Part("stray")
            n += 1
            continue
        ours = (
            behind is not None and span is not None and span[0] <= behind.start < span[1]
        )  # "el día de (bajo grande)"
        sets = not ours and any(sets_value(p, made) for p in clause[: n - 1])
        if sets and (turn := _turn(piece, made)) is not None:
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
        yield part_of(piece, None if counted and "COLOUR" in piece.types else topic, made)


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


def cries(pieces: list[Piece], made: Table) -> bool:
    """ "Wait 5w not 4": is the first word a cry, and no look, where a letter is a color as well as a time?"""
    first = pieces[0]
    shaded = any(p.kind == "number" and is_any(q, ("COLOUR",)) and is_any(q, ("UNIT",)) for p, q in pairwise(pieces))
    return shaded and is_any(first, ("LOOK",)) and made.has("slip_cry", first.text)


def phrase_part(clause: list[Piece], n: int, made: Table) -> tuple[int, Part]:
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
    if line.made.has("said_wrong", piece.text) or line.made.has("amend_cue", piece.text):
        return 0, Part("stray")  # "a variedade .. tá errada"
    end = worded_end(clause, n, line.made, text, sure=bool(n) and _tells_name(clause[n - 1], line.made))
    return end - n, Part("value", "variety", text[piece.start : clause[end - 1].end])


def _tells_name(piece: Piece, made: Table) -> bool:
    """ "Is (brown kettle)", "not (gray wren)": does a word before a value tell that one is behind it?"""
    return _role(piece, None, made).role in ("now", "not", "instead", "wrote") or made.has("from_old", piece.text)


MOST_COUNTED = 100
"""From here on a number behind letters is a code, and no count (judgement)."""


def part_of(piece: Piece, topic: str | None, made: Table) -> Part:
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
    if topic == "tops" and (where := next((kind for kind in OF_TOPS if kind in types), None)) is not None:
        return Part("value", "tops", [OF_TOPS[where]])
    if topic == "tops" and "COLOUR" in types and types["COLOUR"].value == "yellow":
        return Part("value", "tops", ["yellow"])
    if types.keys() >= {"NONE", "NUMBER_WORD"}:
        return Part("value", None, int(types["NUMBER_WORD"].value))
    if "SOAKED" in types and types["SOAKED"].value in ("yes", "no"):
        return Part("value", "soaked", types["SOAKED"].value == "yes")
    kind = next((kind for kind in KINDS if kind in types and types[kind].value != "any"), None)
    if kind is None or "COLOUR" in types:
        return None
    return Part("value", KINDS[kind], types[kind].value, verb=kind == "DUG")


NOUNS = {"FEMALES": "total", "TOTAL": "total", "VARIETY": "variety", "LOOK": "look_again", "DUG": "dug"}
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
    if made.has("yes_word", piece.text):
        return Part("now")  # "no estaba lavado, puse que sí"
    if "NOT" in piece.types:
        return Part("lacks" if made.has("lacks", piece.text) else "not")
    if not piece.types and made.denies(piece.text):
        return Part("not")  # "i didnt (pull), i dug"
    if made.has("wrote", piece.text) or made.has("put_wrong", piece.text) or made.has("put_down", piece.text):
        return Part("wrote")
    if made.has("strong_correct", piece.text):
        return Part("sure", "strong")
    if sets_value(piece, made):
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
    noun = next((what for kind, what in NOUNS.items() if kind in piece.types), None)
    if noun is not None:
        return Part("noun", noun)
    return Part("little") if _little(piece, words, made) else Part("stray")


def _names_plants(piece: Piece, made: Table) -> bool:
    """Is there a word for plants in it ("las plantas")?"""
    own = (entry.type for word in piece.text.split(" ") for entry in made.singles.get(word, ()))
    return "PLANTS" in piece.types or "PLANTS" in own


_NOTES = ("mail_word", "note_noun", "note_word", "sent_count", "visit_noun", "day_word", "stage_word", "soil_word")
_LITTLE = (
    *_NOTES,
    "what_changed",
    "it_word",
    "we_word",
    "name_article",
    "of_note",
    "plea_word",
    "beside_talk",
    "adds",
    "beside_way",
)
"""Manners of words that tell nothing here."""


def _little(piece: Piece, words: list[str], made: Table) -> bool:
    """A word for the note, the writer, a plea or nothing at all."""
    if linking(piece) or is_any(piece, ("COURTESY", "FIELD_WORD", "LINK", "TOPIC")) or piece.text in anywhere("please"):
        return True
    if any(made.has(trait, piece.text) for trait in _LITTLE):
        return True
    return all(any(made.has(trait, word) for trait in _LITTLE) for word in words)


LONGEST_EXCUSE = 5
"""Words of the longest phrase for how a slip came (judgement)."""
