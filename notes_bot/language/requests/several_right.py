"""Several values put right in one message: "fix white to 10 and tan to 3", "4 white 9 yellow, not 9 white 4 yellow".

Every word has its part (``word_parts.py``); the parts in a row tell what each value is of and which one it replaces. A
word that does nothing of this leaves the message to other rules, unless it stands in a clause without a value behind an
open request to put something right ("fix white to 10 and tan to 3, i filled those in from memory").
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise, permutations
from typing import TYPE_CHECKING, Any

from notes_bot.language.lexicon.joining import is_any, linking, number_like
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.requests.amends import dated
from notes_bot.language.requests.corrections import in_figures, without_excuse
from notes_bot.language.requests.no_correction import plainly_noted
from notes_bot.language.requests.put_beside import emit, field_name, field_span, is_whole
from notes_bot.language.requests.which_is_so import Right
from notes_bot.language.requests.word_parts import COUNTS, Part, joined_pieces, part_of, phrase_part

if TYPE_CHECKING:
    from notes_bot.language.lexicon.pieces import Piece
    from notes_bot.language.lexicon.words import Table
    from notes_bot.language.requests.commands.line import Line

LONGEST = 60
"""Pieces of the longest message that puts several values right (judgement)."""
LEAST = 2
"""Values put right; a single one has rules of its own."""
MOST = 3
"""Values of one field put right, where one is no count; more are a note (judgement)."""
_WORDED = frozenset({"stage", "moisture", "texture", "method"})
"""What is put right in words."""


@dataclass(frozen=True, slots=True)
class _Sign:
    """A word in its part, as one letter: n what is counted, v a number, w a value in words, x not, r wrote, = is .."""

    letter: str
    part: Part
    piece: Piece


@dataclass(frozen=True, slots=True)
class _Item:
    """One value put right; numbers are places of signs."""

    noun: int | None
    now: int
    old: int | None = None
    again: int | None = None
    """What is counted, told a second time beside the other value."""


def several_right(line: Line) -> bool:
    """Read a line, or a whole message, as several values put right; false when it is anything else."""
    if not LEAST < len(line.ps) <= LONGEST or line.asked or not _may_hold(line) or plainly_noted(line):
        return False
    told = _told(line)
    if told is None:
        return False
    signs, fields = told
    said = "".join(sign.letter for sign in signs)
    if signs and said.strip(",=&") == "!" and any(sign.part.what == "swap" for sign in signs):
        line.context.complain("no_change", line.start, line.end)
        return True  # "swap white and yellow on kestrel": how many there are is asked
    parses = {tuple(items) for items in _whole(said) if items and _fits(signs, items)}
    parses = {items for items in parses if _surely(said, signs, items, line.made)}
    rights = {found for items in parses if (found := _rights(signs, items, fields)) is not None}
    swapped = next((sign.part.value for sign in signs if sign.part.what == "swap"), None)
    if len(rights) != 1 or (
        swapped is not None and any({right[0] for _, right in found} - swapped for found in rights)
    ):
        return False
    for name, right in rights.pop():
        emit(line, name, Right(*right), None)
    return True


def answered_no(line: Line) -> bool:
    """ "Nope, 22 brown", "no, las tostadas son 6": a whole message that begins with "no" and tells one value, or more.

    What was sent last is put right; plants and what was found on them are a note.
    """
    begin = _refused(line)
    if not begin or line.asked or not begin < len(line.ps) <= LONGEST or not is_whole(line):
        return False
    if any("MOISTURE" in p.types and " " in p.text for p in line.ps):
        return False  # "no, too wet"
    rest = type(line)(line.context, line.ps[begin:])
    told = _told(rest)
    said = "".join(sign.letter for sign in told[0]) if told is not None else ""
    if told is None or "!" in said or not said:
        return False
    if "=" not in said and line.ps[begin - 1].kind != "break":
        return False
    whole = (
        items for items, end in _rows(said, _match(_OPENS, said, 0), _PLAIN) if _match(_ENDS, said, end) == len(said)
    )
    rights = {found for items in whole if _fits(told[0], items) and (found := _rights(told[0], items, told[1]))}
    whats = {right[0] for found in rights for _, right in found}
    if len(rights) != 1 or ("plants" in whats and len(whats) > 1):
        return False
    for name, right in rights.pop():
        emit(line, name, Right(*right), None)
    return True


def _refused(line: Line) -> int:
    """Where what follows "no" and a stop begins; 0 without it."""
    for size in (2, 1):
        said = " ".join(p.text for p in line.ps[:size])
        if len(line.ps) > size and line.made.has("refuses", said):
            return size + (line.ps[size].kind == "break" or line.ps[size].text == "-")
    return 0


def _may_hold(line: Line) -> bool:
    """Two values, and a word that denies, changes or tells what was written? A look before the words are read."""
    if any(line.made.has("swap_word", word) for word in line.vocabulary) and _shades(line.ps) > 1:
        return True
    values = sum(
        p.kind in ("number", "stage", "range") or is_any(p, ("NUMBER_WORD", "MOISTURE", "TEXTURE", "TOOL", "DUG"))
        for p in line.ps
    )
    made = line.made
    if values < LEAST or any(
        made.has("who_goes", a.text) and made.has("makes_it", b.text) for a, b in pairwise(line.ps)
    ):
        return False  # "I make it 3 white and 11 yellow" is what was counted
    cues = ("set_verb", "strong_correct", "wrote", "put_wrong", "instead_of", "amend_cue")
    texts = {p.text for p in line.ps}
    if not texts.isdisjoint(_ARROWS) or any(is_any(p, ("CORRECT", "NOT")) for p in line.ps):
        return True
    if any(made.has_any(cue, texts) for cue in cues):
        return True
    if made.has_any("slip_noun", line.vocabulary) or _needs_right(line.vocabulary, made):
        return True
    if values >= LEAST + LEAST and made.has_any("had_alone", line.vocabulary):
        return True
    told = any(p.text == "(" and made.has("had_before", q.text) for p, q in pairwise(line.ps))  # "(was 5)"
    return told or any(map(made.denies, line.vocabulary)) or made.has_any("set_verb", line.vocabulary)


_ARROWS = frozenset({"->", "=>", ">"})
"""Signs from an old value to the new one."""


def _needs_right(words: Collection[str], made: Table) -> bool:
    """ "My counts need fixing", "the numbers were off": is it said of a note, or of what it tells?"""
    told = any(made.has_any(manner, words) for manner in ("sent_count", "mail_word", "note_noun"))
    return told and made.has_any("needs_right", words)


def _shades(pieces: Sequence[Piece]) -> int:
    """How many colors are named."""
    return len({p.types["COLOUR"].value for p in pieces if "COLOUR" in p.types and len(p.text) > 1})


# --- words as signs


def _told(line: Line) -> tuple[list[_Sign], list[tuple[int, str]]] | None:
    """The signs of a message, and its fields, each with the sign it stands before; ``None`` where a word tells more."""
    made = line.made
    pieces = without_excuse(line.ps, made)
    span = None if any("FIELD" in p.types for p in pieces) else field_span(line)
    pieces = [p for p in joined_pieces(pieces, made) if not (p.kind == "sign" and p.text in ("-", "*", "•"))]
    pieces = [in_figures(p, made) if "LINK" not in p.types else p for p in dated(pieces)]
    signs: list[_Sign] = []
    fields: list[tuple[int, str]] = []
    wrong = _owned_up(pieces, made) if _needs_right(line.vocabulary, made) else set()
    slips = not line.vocabulary.isdisjoint(word for said in made.traits["was_slip"] for word in said.split(" ")[-1:])
    slips = slips or made.has_any("slip_noun", line.vocabulary)
    n = 0
    while n < len(pieces):
        piece = pieces[n]
        if "FIELD" in piece.types:
            fields.append((len(signs), field_name(line, (piece.start, piece.end))))
            n += 1
            continue
        if span is not None and span[0] <= piece.start < span[1]:
            if piece.start == span[0]:
                fields.append((len(signs), field_name(line, span)))
            n += 1
            continue
        if n in wrong:
            signs.append(_Sign("!", Part("sure", "strong"), piece))
            n += 1
            continue
        size, phrase = (_slip(pieces, n, made) if slips else None) or phrase_part(pieces, n, made)
        if size:
            signs.append(_Sign(_LETTERS.get(phrase.role, "?"), phrase, piece))
            n += size
            continue
        signs.extend(_signs(pieces, n, made))
        n += 1
    signs, fields = _said_wrong(signs, fields, made)
    kept = _without_excuses(signs)
    return None if kept is None else _with_nouns(*_renumbered(signs, kept, fields))


def _slip(pieces: list[Piece], n: int, made: Table) -> tuple[int, Part] | None:
    """ "(The wet was) a slip of mine": how many pieces it takes."""
    for size in range(min(LONGEST_SLIP, len(pieces) - n), 0, -1):
        said = " ".join(p.text for p in pieces[n : n + size])
        first, _, rest = said.partition(" ")
        if made.has("was_slip", said) or (made.has("is_now", first) and made.has("was_slip", rest)):
            return size, Part("slip")
    return None


LONGEST_SLIP = 5
"""Pieces of "was a slip of mine"."""
_LETTERS = {
    "slip": "s",
    "noun": "n",
    "now": "=",
    "not": "x",
    "lacks": "x",
    "instead": "i",
    "wrote": "r",
    "had": "r",
    "and": "&",
    "but": "b",
    "sure": "!",
    "stop": ",",
    "little": "",
    "stray": "?",
}
"""The letter of each part, but for values."""


def _signs(pieces: list[Piece], n: int, made: Table) -> Iterator[_Sign]:
    """The signs of one word, mostly one; of a range two values."""
    piece = pieces[n]
    if piece.kind == "range" and all(isinstance(value, int) for value in piece.value):
        first, last = piece.value
        yield _Sign("v", Part("value", None, first), piece)
        yield _Sign("=", Part("now"), piece)
        yield _Sign("v", Part("value", None, last), piece)
        return
    ahead = [p for p in pieces[n + 1 : n + 3] if p.kind != "sign"]
    beside = (*pieces[n - 1 : n], *ahead[:1]) if n else ahead[:1]
    leads = made.has("swapped_for", piece.text) and n + 1 < len(pieces) and pieces[n + 1].kind in ("number", "stage")
    if not leads and len(piece.text) == 1 and "COLOUR" in piece.types and any(p.kind == "number" for p in beside):
        yield _Sign("n", Part("noun", piece.types["COLOUR"].value), piece)
        return
    if piece.kind == "break" and piece.text in ("(", ")"):
        yield _Sign(piece.text, Part("stop"), piece)
        return
    if made.has("swapped_for", piece.text) or made.has("leads_new", piece.text):
        yield _Sign("=", Part("now"), piece)
        return
    if made.has("from_old", piece.text) and n + 1 < len(pieces) and pieces[n + 1].kind in ("number", "stage"):
        yield _Sign("f", Part("wrote"), piece)
        return
    if "NOT_LOOKED" in piece.types:
        yield _Sign("?", Part("stray"), piece)  # "too wet"
        return
    part = part_of(piece, None, made)
    if part.role == "now" and piece.text in anywhere("and_word") and n and pieces[n - 1].kind in ("number", "stage"):
        part = Part("and")  # "R4 e R3", where "e" is also "é"
    if part.what == "set" and piece.types and "CORRECT" not in piece.types:
        part = Part("stray")  # "change of plans"
    letter = _LETTERS.get(part.role, "?")
    if part.role == "value":
        dug = part.verb and any(p.kind == "number" for p in beside)
        letter = "n" if dug else "v" if part.what is None else "w" if part.what in _WORDED else "?"
        part = Part("noun", "plants") if dug else part
    elif part.role == "noun":
        named = part.what in COUNTS or part.what == "dug"
        letter = "n" if named else "?"
        part = replace(part, what="plants") if part.what == "dug" else part
    mine = bool(n) and made.has("who_goes", pieces[n - 1].text)
    if part.role == "had" and not mine and not any(number_like(p) or p.kind == "stage" for p in pieces[:n]):
        letter = "="  # "kestrel had 16 white, .."
    if letter:
        yield _Sign(letter, part, piece)


def _said_wrong(
    signs: list[_Sign], fields: list[tuple[int, str]], made: Table
) -> tuple[list[_Sign], list[tuple[int, str]]]:
    """ "I swapped white and yellow(, 9 yellow 4 white)": a clause that says so as one word that asks to put right."""
    out: list[_Sign] = []
    places: list[int] = []
    clause: list[_Sign] = []
    for n, sign in enumerate([*signs, None]):
        places.append(len(out) + len(clause))
        ends = sign is None or sign.letter in ",()" or (sign.piece.text == ":" and bool(clause))
        if not ends and sign is not None:
            clause.append(sign)
            continue
        if _tells_swap(clause, made):
            places = [min(place, len(out)) for place in places]
            clause = [
                _Sign("!", Part("sure", "swap", {s.part.what for s in clause if s.letter == "n"}), clause[0].piece)
            ]
        out += [*clause, *([sign] if sign is not None else [])]
        clause = []
        places[n] = len(out) - (sign is not None)
    return out, [(places[at], name) for at, name in fields]


def _owned_up(pieces: list[Piece], made: Table) -> set[int]:
    """Places of the words of clauses like "Kestrel counts need fixing": no value, and that what was sent is wrong."""
    out: set[int] = set()
    clause: list[int] = []
    for n in range(len(pieces) + 1):
        if n < len(pieces) and pieces[n].kind not in ("break", "line") and pieces[n].text != ":":
            clause.append(n)
            continue
        told = [pieces[k] for k in clause if "FIELD" not in pieces[k].types]
        words = {word for p in told for word in p.text.split(" ")}
        valued = any(p.kind != "word" or is_any(p, ("COLOUR", "PLANTS", "FEMALES", "MOISTURE", "TOOL")) for p in told)
        plain = all(linking(p) or all(_of_what_was_sent(word, made) for word in p.text.split(" ")) for p in told)
        if told and plain and not valued and _needs_right(words, made):
            out |= {k for k in clause if "FIELD" not in pieces[k].types}
        clause = []
    return out


def _of_what_was_sent(word: str, made: Table) -> bool:
    """A word of "my numbers were off"."""
    manners = ("sent_count", "mail_word", "note_noun", "needs_right", "is_word", "is_now", "we_word", "it_word")
    return any(
        made.has(manner, word)
        for manner in (*manners, "name_article", "of_note", "plea_word", "points_to", "around_now")
    )


def _tells_swap(clause: list[_Sign], made: Table) -> bool:
    """Two colors, no number, and a word for one in the place of the other."""
    letters = "".join(sign.letter for sign in clause)
    nouns = [sign.part.what for sign in clause if sign.letter == "n"]
    others = [sign for sign in clause if sign.letter not in "n&=!r"]
    words = [word for sign in clause for word in (sign.piece.text, *sign.piece.text.split(" "))]
    swaps = made.has_any("swap_word", words)
    tells = all(sign.letter == "?" and made.has_any("swap_word", sign.piece.text.split(" ")) for sign in others)
    return swaps and tells and len(nouns) == len(set(nouns)) > 1 and not {"v", "w"} & set(letters)


def _without_excuses(signs: list[_Sign]) -> list[int] | None:
    """The places of signs that are left without clauses that tell nothing; ``None`` where a word tells more."""
    kept: list[int] = []
    clause: list[int] = []
    opened = False
    for n in range(len(signs) + 1):
        if n < len(signs) and signs[n].letter not in (",", "(", ")"):
            clause.append(n)
            continue
        letters = {signs[k].letter for k in clause}
        if "?" in letters:
            talk = all(_only_talk(signs[k]) for k in clause)
            if letters & {"v", "w"} or not talk or not (opened or not kept):
                return None
            clause = []
        opened = opened or any(_asks_right(signs[k]) for k in clause)
        kept += [*clause, *([n] if n < len(signs) else [])]
        clause = []
    return kept


def _only_talk(sign: _Sign) -> bool:
    """Does a word, that has no part here, tell nothing of a field either?"""
    return sign.letter != "?" or (sign.piece.kind == "word" and (not sign.piece.types or linking(sign.piece)))


def _asks_right(sign: _Sign) -> bool:
    """ "Change", "should be", "correction": an open request to put something right."""
    return sign.letter == "!" and (sign.part.what in ("set", "strong", "swap") or "CORRECT" in sign.piece.types)


def _renumbered(
    signs: list[_Sign], kept: list[int], fields: list[tuple[int, str]]
) -> tuple[list[_Sign], list[tuple[int, str]]]:
    """The signs kept, and the fields at their new places."""
    return [signs[n] for n in kept], [(sum(k < at for k in kept), name) for at, name in fields]


def _with_nouns(signs: list[_Sign], fields: list[tuple[int, str]]) -> tuple[list[_Sign], list[tuple[int, str]]]:
    """ "Kestrel's plants to 8 and sumac's to 6": what is counted, told again for a second field."""
    nouns = [sign for sign in signs if sign.letter == "n"]
    if len(nouns) != 1 or len({name for _, name in fields}) < LEAST or any(sign.letter == "w" for sign in signs):
        return signs, fields
    second = next(at for at, name in fields if name != fields[0][1])
    if not any(sign is nouns[0] for sign in signs[:second]):
        return signs, fields
    first = next((n for n in range(second, len(signs)) if signs[n].letter in "v=x"), len(signs))
    return [*signs[:first], nouns[0], *signs[first:]], [(at + (at > first), name) for at, name in fields]


# --- which signs stand for a value, what it is of and what it replaces


_BETWEEN = "[,&=!bq()]*"
_SLIP = "[,(&]+=?(?P<old>{v})=?s\\)?"
_OLD = "[,(]?[xi]=?(?P<old>{v})(?P<again>n)?\\)?"
_ITEMS = {
    "v": (
        r"(?P<n>n)[=!]*(?P<now>v)" + _OLD,  # white 14 not 12
        r"(?P<n>n)[=!]*(?P<now>v)" + _SLIP,  # white 14, the 12 was a typo
        r"(?P<n>n)[=!]*(?P<now>v)[,(&b]*r=?(?P<old>v)(?P<again>n)?\)?",  # white 14, i put 12
        r"(?P<n>n)[=!]*(?P<now>v)\(=(?P<old>v)(?:\)|$)",  # white 14 (was 12)
        r"(?P<n>n)[=!]*[fri]?=?(?P<old>v)[,b]?[=!]+(?P<now>v)",  # white from 12 to 14
        r"(?P<n>n)=?x=?(?P<old>v)[,b&]*[=!]*(?P<now>v)",  # white not 12 but 14
        r"(?P<n>n)[=!]*(?P<now>v)",  # white to 14
        r"[=!]*(?P<now>v)=?(?P<n>n)" + _OLD,  # 14 white not 12
        r"[=!]*(?P<now>v)=?(?P<n>n)" + _SLIP,
        r"[=!]*(?P<now>v)[,(]?[xi]=?(?P<old>v)(?P<n>n)\)?",  # 14 not 12 white
        r"[=!]*(?P<now>v)=?(?P<n>n)[,(&b]*r=?(?P<old>v)(?P<again>n)?\)?",  # 14 white, i put 12
        r"[=!]*(?P<now>v)=?(?P<n>n)\(=(?P<old>v)(?:\)|$)",  # 14 white (was 12)
        r"[fri]?=?(?P<old>v)(?P<n>n)[,b&]*[=!]+(?P<now>v)(?P<again>n)?",  # 12 white should be 14
        r"[=!]*x=?(?P<old>v)(?P<n>n)[,b&]*[=!]*(?P<now>v)(?P<again>n)?",  # not 12 white but 14
        r"[=!]*(?P<now>v)=?(?P<n>n)",  # 14 white
    ),
    "w": (
        r"[=!]*(?P<now>w)" + _OLD,
        r"[=!]*(?P<now>w)" + _SLIP,
        r"=?(?P<old>w)=?s[,&b(]+[=!]*(?P<now>w)",  # the wet was a typo, it is dry
        r"[=!]*(?P<now>w)[,(&b]*r=?(?P<old>w)\)?",
        r"[=!]*(?P<now>w)\(=(?P<old>w)(?:\)|$)",
        r"[fri]?=?(?P<old>w)[,b]?[=!]+(?P<now>w)",
        r"[=!]*x=?(?P<old>w)[,b&]*[=!]*(?P<now>w)",
        r"[=!]*(?P<now>w)",
    ),
}
"""A value with what it is of and what it replaces."""
_PATTERNS = tuple(re.compile(way.replace("{v}", kind)) for kind, ways in _ITEMS.items() for way in ways)
_PLAIN = tuple(
    re.compile(way) for way in (r"(?P<n>n)[=!]*(?P<now>v)", r"[=!]*(?P<now>v)=?(?P<n>n)", r"[=!]*(?P<now>w)")
)
"""A value alone with what it is of."""
_BARE = re.compile(r"=?(?P<now>v)(?!n)")
"""A number alone, in a row of old ones."""
_SEPARATES = re.compile(_BETWEEN)
_OPENS = re.compile(r"[,=!&]*")
_DENIES = re.compile(r"[,(&b=]*[xi]=?")
_WROTE = re.compile(r"[,(&b]*[ri]=?")
_IS_SO = re.compile(r"[,&]*(?:b[=!]*|[=!]+)")
_ENDS = re.compile(r"[,&=!)(]*")


def _whole(said: str) -> Iterator[list[_Item]]:
    """Every way in which the signs, from first to last, are values put right."""
    begin = _match(_OPENS, said, 0)
    for items, end in _row(said, begin, _PATTERNS):
        if _match(_ENDS, said, end) == len(said):
            yield items
    yield from _two_rows(said, begin)


def _two_rows(said: str, begin: int) -> Iterator[list[_Item]]:
    """ "4 white 9 yellow, not 9 white 4 yellow"; "i put 9 white and 4 yellow, it was 4 white and 9 yellow"."""
    for items, end in _row(said, begin, _PLAIN):
        for parts in (_DENIES, _WROTE):
            found = parts.match(said, end)
            for olds, last in _row(said, found.end(), (*_PLAIN, _BARE)) if found else ():
                if _match(_ENDS, said, last) == len(said):
                    yield from _beside(said, items, olds)
    led = re.compile(r"[xri]=?").match(said, begin)
    for olds, end in _row(said, led.end(), _PLAIN) if led else ():
        found = _IS_SO.match(said, end)
        for items, last in _row(said, found.end(), (*_PLAIN, _BARE)) if found else ():
            if _match(_ENDS, said, last) == len(said):
                yield from _beside(said, items, olds)


def _beside(said: str, items: list[_Item], olds: list[_Item]) -> Iterator[list[_Item]]:
    """Values with the old ones of a second row: by what they are of, or bare numbers in the same order."""
    if len(items) != len(olds):
        return
    told = all(one.noun is not None or said[one.now] == "w" for one in (*items, *olds)) and len(olds) <= MOST
    for row in permutations(olds) if told else (olds,):
        pairs = zip(items, row, strict=True)
        yield [
            replace(
                item,
                noun=item.noun if item.noun is not None else old.noun,
                old=old.now,
                again=old.noun if item.noun is not None else None,
            )
            for item, old in pairs
        ]


def _match(pattern: re.Pattern[str], said: str, at: int) -> int:
    """Where a run of such signs ends."""
    found = pattern.match(said, at)
    return found.end() if found is not None else at


def _row(said: str, at: int, patterns: tuple[re.Pattern[str], ...]) -> Iterator[tuple[list[_Item], int]]:
    """Values one behind the other from a place on, and where they end; at least two, but where one was a slip."""
    least = 1 if "s" in said else LEAST
    yield from ((list(items), end) for items, end in _rows(said, at, patterns) if len(items) >= least)


@lru_cache(maxsize=256)
def _rows(said: str, at: int, patterns: tuple[re.Pattern[str], ...]) -> tuple[tuple[tuple[_Item, ...], int], ...]:
    """All rows of values from a place on; none where they are too many to tell."""
    out: list[tuple[tuple[_Item, ...], int]] = []
    for pattern in patterns:
        found = pattern.match(said, at)
        if found is None:
            continue
        groups = found.groupdict()
        places = {name: found.start(name) for name in groups if groups[name] is not None}
        item = _Item(places.get("n"), places["now"], places.get("old"), places.get("again"))
        out.append(((item,), found.end()))
        behind = _match(_SEPARATES, said, found.end())
        for start in {found.end(), behind}:
            out += [((item, *items), end) for items, end in _rows(said, start, patterns)]
        if len(out) > MOST_WAYS:
            return ()
    return tuple(out)


MOST_WAYS = 400
"""Ways to part a row of values; with more it is left alone (judgement)."""


# --- what is so


def _fits(signs: list[_Sign], items: Sequence[_Item]) -> bool:
    """Is every number and noun of the message in one of the values, and each old value of the kind of the new?"""
    used = [place for item in items for place in (item.noun, item.now, item.old, item.again) if place is not None]
    return sorted(used) == [n for n, sign in enumerate(signs) if sign.letter in "vwn"]


def _surely(said: str, signs: list[_Sign], items: tuple[_Item, ...], made: Table) -> bool:
    """Do words say that the values are put right: a verb of changing, "should be", or an old value beside each?"""
    if all(item.old is not None for item in items):
        return True
    first = min(min(place for place in (item.noun, item.now) if place is not None) for item in items)
    last = max(item.now for item in items)
    led = said[first : items[0].now]
    nouns_first = all(item.noun is None or item.noun < item.now for item in items)
    for n, sign in enumerate(signs[:last]):
        if sign.letter != "!":
            continue
        if sign.part.what in ("strong", "swap") or (
            sign.part.what != "set" and made.has("lone_correct", sign.piece.text)
        ):
            return True
        if sign.part.what == "set" and (
            not made.has("timid_set", sign.piece.text) or nouns_first or "=" in said[n:first]
        ):
            return n < first
        if n < first and nouns_first and "=" in led and _said_so(signs[first : items[0].now]):
            return True
    return False


def _said_so(signs: list[_Sign]) -> bool:
    """ "(Oops, white) was (16)": a verb, and not only a colon."""
    return any(sign.letter == "=" and sign.piece.kind == "word" for sign in signs)


_Told = tuple[tuple[str | None, tuple[str, Any, Any]], ...]
"""Each field with what is put right of it: what, value, old value."""


def _rights(signs: list[_Sign], items: tuple[_Item, ...], fields: list[tuple[int, str]]) -> _Told | None:
    """What is put right of which field; ``None`` where that is not clear."""
    out: list[tuple[str | None, tuple[str, Any, Any]]] = []
    names = _fields_of(signs, items, fields)
    for item, name in zip(items, names or (), strict=False):
        now, old = signs[item.now].part, signs[item.old].part if item.old is not None else None
        what = now.what or (signs[item.noun].part.what if item.noun is not None else None)
        again = signs[item.again].part.what if item.again is not None else what
        if what is None or again != what:
            return None
        if old is not None and ((old.what or what) != what or old.value == now.value):
            return None
        out.append((name, (what, now.value, old.value if old is not None else None)))
    told = [(name, right[0]) for name, right in out]
    counted = all(right[0] in COUNTS for _, right in out)
    most = max((sum(name == other for other, _ in told) for name, _ in told), default=0)
    if not out or len(set(told)) < len(told) or (most > MOST and not counted):
        return None
    return tuple(out)


def _fields_of(signs: list[_Sign], items: tuple[_Item, ...], fields: list[tuple[int, str]]) -> list[str | None] | None:
    """The field of each value: the only one named, else the one of its clause or of a clause before it."""
    names = {name for _, name in fields}
    if len(names) < LEAST:
        return [next(iter(names), None)] * len(items)
    out: list[str | None] = []
    last: str | None = None
    begin = 0
    for n, item in enumerate(items):
        places = [place for place in (item.noun, item.now, item.old) if place is not None]
        ahead = items[n + 1] if n + 1 < len(items) else None
        most = min(p for p in (ahead.noun, ahead.now, ahead.old) if p is not None) if ahead else len(signs)
        end = next((k for k in range(max(places), most) if signs[k].letter in ",&;("), most)
        own = {name for at, name in fields if begin <= at <= end}
        if len(own) > 1 or not (own or last):
            return None
        last = own.pop() if own else last
        out.append(last)
        begin = end + 1
    used = {name for name in out if name is not None}
    return out if used == names else None
