"""Names of varieties that no list has: a word or letters and a figure ("Corvale 21", "QT 2214", "HB31").

Told as such by what stands beside them: a word for seed, resistance or its source before ("susc. VB 12", "Peking bean
(Corvale 21)", "the bean is LR26N", "que se llama Lapacho 58"), an article and what it had behind ("a siriema 70 tem
cinco plantas"), or, where a check strip or a trial is told, what was counted on several of them. Each becomes one
piece, so that its figure is never taken for plants or females.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from notes_bot.language.lexicon.joining import claims, is_any, linking, number_like
from notes_bot.language.lexicon.mending import ordinary
from notes_bot.language.lexicon.pieces import Piece, piece_at
from notes_bot.language.lexicon.scan import shouted
from notes_bot.language.lexicon.words import Entry, Table, anywhere
from notes_bot.language.names.naming import written
from notes_bot.model import LANGUAGES

LETTERS = range(2, 5)
"""Capitals of a maker's short name (judgement)."""
LEAST = 10
"""The smallest number behind a word that is a variety's (judgement)."""
LEAST_CODE = 100
"""The smallest number of a seed's code told only by what stands behind it (judgement)."""
MOST = 9999
"""The largest one (judgement)."""
TRAIT = 4
"""Letters of a trait behind the number, "61 RG" (judgement)."""
MOST_WORDS = 2
"""Words of a variety's name before its number (judgement)."""
LOOKED_BACK = 10
"""Pieces back in which the variety is told that is called so (judgement)."""
CALLED_BEHIND = 8
"""Pieces behind a name's begin in which "is the number" stands (judgement)."""
_COUNTED = ("PLANTS", "COLOUR", "FEMALES", "UNIT", "MEASURE", "EACH", "TOTAL", "ACRES", "EGGS", "AGO", "MONTH")
"""What the number would count instead."""
_LABELS = ("VARIETY", "RESISTANCE", "SOURCE")
_SHORT = 4
"""Letters of a word cut short with a stop: "susc.", "var." (judgement)."""
_OF_CODES = frozenset({"UNIT", "MEASURE", "SPOT", "TOPIC", "WEATHER"})
"""What the capitals of a maker may mean besides ("QT")."""
LEAST_STRIPS = 2
"""Strips told by their seed from which they are places without a check strip (judgement)."""
_CODE = re.compile(r"-?[A-Z][A-Z0-9]{0,3}(?![\w-])")
"""What is glued to the number of a seed's code."""
_CROSSED = re.compile(r"\d{2,4}X\d{1,2}")
"""A seed's code that would be a measure in small letters."""
Told = Callable[[list[Piece], int, Table], bool]
"""Do the words around the place there tell of a variety?"""


def seeds_named(pieces: list[Piece], made: Table, text: str) -> list[Piece]:
    """The pieces with every variety told as such as one piece: "susc. VB 12", "Peking bean (Corvale 21)"."""
    return _lettered(
        _joined(pieces, made, text, lambda ps, i, made: _told_so(ps, i, made) or _labelled_behind(ps, i, text)), made
    )


def _lettered(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Corvale 21 (R, Peking)": a letter in brackets right behind a variety tells whether it is resistant."""
    out = list(pieces)
    for n in range(2, len(pieces) - 1):
        seed, opens, letter, ends = pieces[n - 2 : n + 2]
        if seed.kind != "seed" or opens.text != "(" or ends.text not in _ENDS_LETTER:
            continue
        value = next((kind for manner, kind in _LETTERED if made.has(manner, letter.text)), "")
        if value:
            entries = (Entry("RESISTANCE", value),)
            out[n] = replace(letter, text=made.first["RESISTANCE", value], entries=entries, types={})
    return out


_LETTERED = (("seed_letter_resistant", "resistant"), ("seed_letter_susceptible", "susceptible"))
"""Manners of letters that tell of resistance, and what they tell."""
_ENDS_LETTER = frozenset("),;/")
"""Signs behind a letter in brackets."""


def seeds_told_of(pieces: list[Piece], made: Table, text: str) -> list[Piece]:
    """ "Porteira Preta a siriema 70 tem cinco plantas": behind its field, a strange word, a number, what it had."""
    return _joined(pieces, made, text, _had)


def strips_of_seeds(pieces: list[Piece], _: Table, text: str) -> list[Piece]:
    """ "Susc check: 4 plants .. Brell 2409: 4 plants ..": strips told by the variety that grows there."""
    if not any(is_any(piece, ("CHECK", "VARIETY")) for piece in pieces):
        return pieces  # "P1: 4 pl .. P2: 4 pl .." are points
    ends = {i: last for i in range(len(pieces)) if (last := _strip_end(pieces, i, text))}
    if len(ends) + any(is_any(piece, ("CHECK",)) for piece in pieces) < LEAST_STRIPS:
        return pieces
    out: list[Piece] = []
    i = 0
    while i < len(pieces):
        last = ends.get(i, 0)
        if not last:
            out.append(pieces[i])
            i += 1
            continue
        start, end = pieces[i].start, pieces[last - 1].end
        name = written(text, start, end)
        out.append(Piece("seed", name, start, end, (Entry("SPOT", name),), text[start:end], pieces[i].spaced))
        i = last
    return out


def seeds_compared(pieces: list[Piece]) -> list[Piece]:
    """ "Resistant x susceptible." above what was found on each: a heading, and no name of a strip.

    Behind it "R 10 plants ..", "S 10 plants .." are told in letters.
    """
    heads = [n for n in range(len(pieces) - 2) if _compares(pieces, n)]
    if not heads:
        return pieces
    n = heads[0]
    end = n + 3
    while end < len(pieces) and pieces[end].text in anywhere("seed_part"):
        end += 1
    behind = [_in_full(pieces, k) for k in range(end, len(pieces))]
    return [*pieces[:n], *_first_strip(pieces[n], behind), *behind]


def _first_strip(head: Piece, behind: list[Piece]) -> list[Piece]:
    """ "Resistant BX 7720 (88788): 10 plants ..": the strip that the heading names first, if its seed is told there."""
    again = (k for k, piece in enumerate(behind) if _resists(piece) == _resists(head) and "RESISTANCE" in piece.types)
    k = next(again, len(behind))
    goes_on = piece_at(behind, k + 1)
    if goes_on is None or goes_on.text in (":", ",") or number_like(goes_on) or is_any(goes_on, ("PLANTS", "DUG")):
        return []
    return [replace(head, entries=(Entry("SPOT", head.text),), types={})]


_AGAINST = frozenset({"x", "por", "/"})
"""Signs that hold one against the other; a Spanish "x" is written out."""
_IN_LETTERS = {"r": "resistant", "s": "susceptible"}
"""Letters of strips below such a heading."""


def _compares(pieces: list[Piece], n: int) -> bool:
    """Is one resistance held against the other there, at the end of a clause, and each told of behind?"""
    one, joint, other = pieces[n : n + 3]
    if not (is_any(one, ("RESISTANCE",)) and is_any(other, ("RESISTANCE", "CHECK"))):
        return False
    joined = joint.text in _AGAINST or joint.text in anywhere("likens_to") or joint.text in anywhere("and_word")
    k = n + 3
    while (part := piece_at(pieces, k)) is not None and part.text in anywhere("seed_part"):
        k += 1
    ends = part is None or part.kind in ("break", "line") or part.text == ":"
    again = any(is_any(piece, ("RESISTANCE", "CHECK")) or piece.text in _IN_LETTERS for piece in pieces[k:])
    return joined and ends and again and _resists(one) != _resists(other)


def _resists(piece: Piece) -> bool:
    """Is it told as resistant?"""
    return "RESISTANCE" in piece.types and piece.types["RESISTANCE"].value == "resistant"


def _in_full(pieces: list[Piece], k: int) -> Piece:
    """ "R 10 plants", "S: 10 plants": the letter before its counts as the word."""
    piece, before = pieces[k], pieces[k - 1]
    heads = before.kind in ("break", "line") or before.text == ":"
    number = k + 1 + (getattr(piece_at(pieces, k + 1), "text", "") in (":", ","))
    if not (heads and piece.text in _IN_LETTERS and number_like(piece_at(pieces, number))):
        return piece
    told = _IN_LETTERS[piece.text]
    return replace(piece, kind="word", text=told, entries=(Entry("RESISTANCE", told),), types={})


def worded_end(pieces: list[Piece], i: int, made: Table, text: str, sure: bool) -> int:
    """Behind a variety's name of plain words at i, "Brown Kettle", where a variety is spoken of; i itself for none.

    A name in small letters, or of one word that means something, is one only where it is ``sure`` that one is told.
    """
    end = i
    while end < min(len(pieces), i + MOST_PLAIN) and _may_name(pieces[end], made, text):
        end += 1
    run = pieces[i:end]
    strange = any(not piece.types for piece in run)
    capital = not shouted(text) and all(text[piece.start].isupper() for piece in run)
    named = (capital and (strange or len(run) > 1)) or (sure and strange)
    return end if named else i


MOST_PLAIN = 3
"""Plain words of the longest name of a variety (judgement)."""
_NO_NAME = ("VARIETY", "RESISTANCE", "SOURCE", "NOT", "CORRECT", "FIELD", "FIELD_WORD", "PLANTED", "COURTESY", "CHECK")
"""Kinds of words that name no variety."""
_FRAMES = ("seed_frame", "it_word", "wrote", "said_wrong", "is_now", "is_word", "plea_word", "set_verb", "note_says")
"""Manners of words around the name of a variety."""


def _may_name(piece: Piece, made: Table, text: str) -> bool:
    """Can a word be of such a name: a capital, or no meaning of ours, and no word around it?"""
    if piece.kind != "word" or is_any(piece, _NO_NAME) or linking(piece) or made.denies(piece.text):
        return False
    frame = any(made.has(manner, word) for word in piece.text.split(" ") for manner in _FRAMES)
    return not frame and (text[piece.start].isupper() or not piece.types or is_any(piece, ("COLOUR", "SPOT")))


def _joined(pieces: list[Piece], made: Table, text: str, told: Told) -> list[Piece]:
    """The pieces with each name that is told so as one."""
    out: list[Piece] = []
    i = 0
    while i < len(pieces):
        last = _name_end(pieces, i, text) or _shaded_end(pieces, i, made, text)
        if last and told(pieces, i, made):
            if out and out[-1].text in anywhere("name_article"):
                out[-1] = replace(out[-1], entries=(Entry("LINK", "link"),), types={})  # "com a Siriema 70": not yellow
            start, end = pieces[i].start, pieces[last - 1].end
            out.append(Piece("seed", written(text, start, end), start, end, (), text[start:end], pieces[i].spaced))
            i = last
        else:
            out.append(pieces[i])
            i += 1
    return out


def _name_end(pieces: list[Piece], i: int, text: str) -> int:
    """Behind the last piece of a variety's name that begins at i; 0 where none does."""
    said = text[pieces[i].start : pieces[i].end]
    if (
        pieces[i].kind == "word"
        and not pieces[i].types
        and said.isupper()
        and said[0].isalpha()
        and any(map(str.isdigit, said))
    ):
        behind = piece_at(pieces, i + 1)  # "HB31", and not the begin of "S22-T7"
        goes_on = behind is not None and behind.kind == "sign" and not behind.spaced and behind.text != ":"
        return 0 if goes_on or is_any(behind, ("PLANTS",)) else i + 1
    k = i
    while k < i + MOST_WORDS and k < len(pieces) and _names(pieces[k], text):
        k += 1
    number = piece_at(pieces, k)
    if (
        k > i
        and number is not None
        and number.kind == "measure"
        and _CROSSED.fullmatch(text[number.start : number.end])
    ):
        return k + 1  # "Calder 24X9"
    if k == i or number is None or number.kind != "number" or not number.text.isdigit():
        return 0
    if not LEAST <= number.value <= MOST or number.plus:
        return 0
    k += 1
    if (coded := _code_end(pieces, k, text)) > k:
        return coded
    behind = piece_at(pieces, k)
    if behind is not None and _is_trait(behind, text):
        return k + 1
    return 0 if _counts(pieces, k) else k


def _shaded_end(pieces: list[Piece], i: int, made: Table, text: str) -> int:
    """ "(The variety there is) BR 2407", "T 28": capitals that would be a color elsewhere; 0 where none is told of."""
    said, number = text[pieces[i].start : pieces[i].end], piece_at(pieces, i + 1)
    if not (said.isupper() and len(said) < LETTERS.stop and is_any(pieces[i], ("COLOUR",))) or shouted(text):
        return 0
    k = i - 1
    while k > max(0, i - TRAIT) and (pieces[k].text == ":" or made.has("calls_seed", pieces[k].text)):
        k -= 1
    coded = number is not None and number.kind == "number" and number.text.isdigit() and LEAST <= number.value <= MOST
    return i + 2 if coded and k >= 0 and is_any(pieces[k], ("VARIETY",)) and not _counts(pieces, i + 2) else 0


def _code_end(pieces: list[Piece], k: int, text: str) -> int:
    """ "31E3", "228E", "31P", "27-B": where the capitals glued to the number before k end; k itself for none."""
    tail = _CODE.match(text, pieces[k - 1].end)
    if tail is None or shouted(text):
        return k
    while k < len(pieces) and pieces[k].end <= tail.end():
        k += 1
    return k if pieces[k - 1].end == tail.end() else 0


def _counts(pieces: list[Piece], k: int) -> bool:
    """Does a number count or measure what stands behind it, and is no name's ("27 plants", "12 dug, 3 white")?"""
    noun, beyond = piece_at(pieces, k), piece_at(pieces, k + 1)
    if noun is None:
        return False
    if noun.text in anywhere("at") and beyond is not None and beyond.text in anywhere("it_word"):
        return False  # "has Delmar 27 in it"
    return is_any(noun, _COUNTED) or (is_any(noun, ("DUG",)) and claims(pieces, k)) or noun.text in ("%", "/")


def _is_trait(piece: Piece, text: str) -> bool:
    """ "61 RG", "27X": capitals behind the number."""
    said = text[piece.start : piece.end]
    short = piece.kind == "word" and said.isalpha() and said.isupper() and len(said) <= TRAIT and not shouted(text)
    return short and (not piece.spaced or len(said) > 1) and not is_any(piece, _COUNTED)


def _names(piece: Piece, text: str) -> bool:
    """Can a word begin a variety's name: a maker's capitals, a name, or a word of no language?"""
    said = text[piece.start : piece.end]
    if piece.kind != "word" or not said.isalpha():
        return False
    if said.isupper() and len(said) in LETTERS and not shouted(text):
        return piece.types.keys() <= _OF_CODES
    return not piece.types and len(said) > 2 and (said[0].isupper() or _strange(piece.text))


def _strange(word: str) -> bool:
    """Is it a word of none of our languages?"""
    return not any(ordinary(word, language) for language in LANGUAGES)


def _told_so(pieces: list[Piece], i: int, made: Table) -> bool:
    """Is a variety told before its name, or right behind it?"""
    return (
        _led(pieces, i, made)
        or _sown(pieces, i, made)
        or _called_behind(pieces, i, made)
        or _bracketed_behind(pieces, i)
    )


def _bracketed_behind(pieces: list[Piece], i: int) -> bool:
    """ "Kestrel. Corvale 21 (resistant): ..": its resistance or source in brackets, behind the field it stands in."""
    number = next((k for k in range(i, min(len(pieces), i + MOST_WORDS + 1)) if pieces[k].kind == "number"), 0)
    opens = piece_at(pieces, number + 1)
    return (
        bool(number)
        and opens is not None
        and opens.text == "("
        and is_any(piece_at(pieces, number + 2), ("RESISTANCE", "SOURCE"))
        and any(is_any(piece, ("FIELD",)) for piece in pieces[:i])
    )


def _labelled_behind(pieces: list[Piece], i: int, text: str) -> bool:
    """ "TG 6122, resistente (Peking)": a maker's capitals and a figure, what they are told right behind them."""
    number = piece_at(pieces, i + 1)
    if not i or number is None or number.kind != "number" or not isinstance(number.value, int):
        return False
    capitals = len(pieces[i].text) in LETTERS and text[pieces[i].start : pieces[i].end].isupper()
    if not capitals or number.value < LEAST_CODE or any(is_any(p, ("FIELD",)) for p in (pieces[i], number)):
        return False
    k = i + 2 + (getattr(piece_at(pieces, i + 2), "text", "") in (",", "(", "-"))
    return is_any(piece_at(pieces, k), ("RESISTANCE", "SOURCE"))


def _sown(pieces: list[Piece], i: int, made: Table) -> bool:
    """ "(He planted) Tuckahoe 31": what went into the ground."""
    return i > 0 and is_any(pieces[i - 1], ("PLANTED",)) and made.has("sows", pieces[i - 1].text)


def _called_behind(pieces: list[Piece], i: int, made: Table) -> bool:
    """ "Redwing 228E (is the number)", "Marlo 22 (is the variety)"."""
    words = " ".join(piece.text for piece in pieces[i + 1 : i + CALLED_BEHIND]).split(" ")
    return any(made.has("seed_called", " ".join(words[k : k + size])) for k in range(3) for size in (2, 3))


def _led(pieces: list[Piece], i: int, made: Table) -> bool:
    """Is a variety told before: a word for it or for its resistance, "the bean is", "called"?"""
    k, bracket, called = i - 1, False, False
    while k >= 0 and k > i - LOOKED_BACK:
        piece = pieces[k]
        if piece.text == "(":
            bracket = True
        elif piece.kind == "word" and not is_any(piece, _LABELS) and made.has("calls_seed", piece.text):
            called = True
        elif piece.text == "," and is_any(piece_at(pieces, k - 1), _LABELS) and pieces[k - 2].text == "(":
            return True  # "(88788, Corvale 21)"
        elif piece.text == "," and called and is_any(piece_at(pieces, k - 1), _LABELS):
            return True  # "variedad susceptible, se llama Ñandubay 48"
        elif piece.text != ":" and not _cut_short(pieces, k):
            break
        k -= 1
    label = piece_at(pieces, k)
    if label is None:
        return False
    if _on_a_sign(pieces, i, made):
        return True
    if is_any(label, _LABELS) or (is_any(label, ("CHECK",)) and pieces[k + 1].text != ":"):
        return True
    if made.has("seed_crop", label.text):
        field = any(is_any(piece, ("FIELD",)) for piece in pieces[max(0, k - LOOKED_BACK) : k])
        return bracket or called or field or is_any(piece_at(pieces, k - 1), _LABELS)
    return called and _of_variety(pieces, k)


def _on_a_sign(pieces: list[Piece], i: int, made: Table) -> bool:
    """ "The sign says (LK 2741)", "tag: (LK 2741)", "la estaca dice (LK 2741)": where a field's seed is written."""
    k = i - 1
    while k > 0 and (pieces[k].text == ":" or made.has("sign_says", pieces[k].text) or linking(pieces[k])):
        k -= 1
    said = pieces[k].text.split(" ")[-1] if 0 <= k < i - 1 else ""
    if made.has("seed_sign", said):
        return True
    if k == i - 1 or not any(made.has("sign_says", piece.text) for piece in pieces[k + 1 : i]):
        return False
    while k > max(0, i - LOOKED_BACK) and pieces[k].kind == "word":
        k -= 1  # "the tag on the end post says (LK 2741)"
        if made.has("seed_sign", pieces[k].text.split(" ")[-1]):
            return True
    return False


def _cut_short(pieces: list[Piece], k: int) -> bool:
    """Is it the stop of "susc.", "var."?"""
    word = piece_at(pieces, k - 1)
    return pieces[k].text == "." and word is not None and is_any(word, _LABELS) and len(word.text) <= _SHORT


def _of_variety(pieces: list[Piece], k: int) -> bool:
    """ "La variedad resistente de fuente Peking que se llama ..": is a variety told in the clause up to there?"""
    for piece in reversed(pieces[max(0, k - LOOKED_BACK) : k + 1]):
        if piece.kind in ("break", "line", "number"):
            return False
        if is_any(piece, ("VARIETY",)):
            return True
    return False


def _had(pieces: list[Piece], i: int, made: Table) -> bool:
    """Is it what the field before it has ("has Delmar 27 in it"), or what had so many behind its article?"""
    field = i - 1
    article = pieces[field].text if i else ""
    if article in anywhere("name_article") or made.has("determiner", article):
        field -= 1
    with_ = piece_at(pieces, field)
    if with_ is not None and (made.has("seed_had", with_.text) or with_.text in anywhere("with_word")):
        return is_any(piece_at(pieces, field - 1), ("FIELD",))
    comma = with_ is not None and with_.text == ","
    if field == i - 1 or not is_any(piece_at(pieces, field - comma), ("FIELD",)):
        return False
    number = next(n for n in range(i, len(pieces)) if pieces[n].kind == "number")
    found = piece_at(pieces, number + 2)
    verb = piece_at(pieces, number + 1)
    had = verb is not None and made.has("seed_had", verb.text) and (number_like(found) or is_any(found, ("NONE",)))
    return had and _strange(pieces[i].text)


def _strip_end(pieces: list[Piece], i: int, text: str) -> int:
    """Behind a strip's name that heads its counts; 0 where none is told."""
    before = piece_at(pieces, i - 1)
    heads = (
        before is None or before.kind in ("break", "line") or before.text == ":" or is_any(before, ("VARIETY", "FIELD"))
    )
    if not heads:
        return 0
    last = i + 1 if pieces[i].kind == "seed" else _name_end(pieces, i, text)
    k = last + (getattr(piece_at(pieces, last), "text", "") in (":", ","))
    number, noun = piece_at(pieces, k), piece_at(pieces, k + 1)
    counted = number is not None and number_like(number) and is_any(noun, ("PLANTS", "COLOUR", "FEMALES", "DUG"))
    return last if last and counted else 0
