"""What a sentence tells that is none of a field: the road, lunch, a ball game, another's cattle, thanks.

People who write from the truck talk beside their findings, and their talk is full of what looks like data: "Cubs lost
7 to 2", "hands are muddy", "none of the gates are marked", "my brown dog". Lists of such words have no end. So a
sentence of several words of which few tell anything of a field is weighed: each word and pair of words, the kinds the
word files give them, and how many are of no kind, tell something for talk or against it. What they tell
(``grammar/talk.json``) is learned from the corpora, where a sentence without which nothing else is read is talk, and
from lists of talk and of findings told talkatively (``learn_talk.py``): logistic regression, so that it says how sure
it is. A sentence that is surely talk is put aside before anything is read in it; it stays in the free text.
"""

from __future__ import annotations

import json
import math
from bisect import bisect_right
from collections.abc import Collection, Mapping, Sequence
from functools import cache
from importlib.resources import files
from itertools import pairwise

from notes_bot.language.lexicon.joining import LAST_OF_MONTH
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.signs import NUMBERS, scale_of, words_in_general
from notes_bot.language.lexicon.words import anywhere

SURE, SUREST = 0.9, 0.98
"""How likely talk a sentence must be to be put aside, and one with a word that may tell a datum (judgement)."""
_TELLING = frozenset(
    {
        "COLOUR",
        "FEMALES",
        "NONE",
        "TOO_MANY",
        "PLANTS",
        "MOISTURE",
        "TEXTURE",
        "DUG",
        "TOOL",
        "SOAKED",
        "NOT_LOOKED",
        "ROOTS",
        "TOPS",
        "TOP",
    }
    | {"TODAY", "WEEKDAY", "MONTH", "LOOK", "PH", "POTASSIUM", "VARIETY", "RESISTANCE", "SOURCE", "SPRAY", "CHEMICAL"}
    | {"PLANTED", "ACRES", "EGGS", "LAB", "WEATHER", "DUE", "HISTORY", "STATE", "UNDO", "SKIP", "DIGEST", "PICTURE"}
    | {"MUTE", "RESUME", "ADD", "HELP", "CORRECT"}
)
"""Kinds of words that tell a datum or ask for something."""
LEAST_WORDS = 5
"""Pieces of the shortest sentence that is weighed, its stop left out (judgement)."""
LEAST_STRANGE = 2
"""Words that tell nothing of a field in the least talkative sentence that is weighed (judgement)."""
LONGEST = 60
"""Pieces of the longest sentence weighed (judgement)."""
_LIGHT = frozenset({"LINK", "ABOUT", "COURTESY"})
"""Kinds of words that tell nothing alone."""
_MOST_COUNTED = 8
_FEWEST_LETTERS = 4
"""Letters by which forms of a word are one ("drove", "drives")."""


def talk_aside(pieces: list[Piece]) -> tuple[list[Piece], list[Piece]]:
    """The pieces of a message without its sentences of talk, and each of these as one piece.

    A message of nothing but talk stays as it is: what is talk beside a note may ask for something by itself.
    """
    if len(pieces) < LEAST_WORDS:
        return pieces, []
    sentences = sentences_of(pieces)
    idle = [sentence for sentence in sentences if is_talk(sentence)] if len(sentences) > 1 else []
    if not 0 < len(idle) < len(sentences):
        return pieces, []
    spans = [(sentence[0].start, sentence[-1].end) for sentence in idle]
    begins = [start for start, _ in spans]
    last = ((piece, bisect_right(begins, piece.start) - 1) for piece in pieces)
    kept = [piece for piece, n in last if n < 0 or piece.start >= spans[n][1]]
    return kept, [Piece("aside", "", start, end) for start, end in spans]


def sentences_of(pieces: Sequence[Piece]) -> list[list[Piece]]:
    """The pieces between two full stops or ends of lines, these left out."""
    out: list[list[Piece]] = [[]]
    for piece in pieces:
        if piece.kind == "line" or (piece.kind == "break" and piece.value == "hard"):
            out.append([])
        else:
            out[-1].append(piece)
    return [sentence for sentence in out if sentence]


def is_talk(sentence: Sequence[Piece]) -> bool:
    """Is it surely talk? A number with a letter ("331E") may be the name of a seed."""
    if not may_be_talk(sentence):
        return False
    tells = any(piece.kind in ("stage", "day") or not _TELLING.isdisjoint(piece.types) for piece in sentence)
    tells = tells or any(a.kind == "number" and b.kind == "word" and not b.spaced for a, b in pairwise(sentence))
    sure = likelihood(signs_of(sentence)) >= (SUREST if tells else SURE)
    return sure and not _tells_day(sentence)


def _tells_day(sentence: Sequence[Piece]) -> bool:
    """ "Los datos son del 12", "tomorrow we go there again": a time, and all strange words are of visits and notes."""
    if not any(piece.kind == "day" or not _OF_TIME.isdisjoint(piece.types) or _nth(piece) for piece in sentence):
        return False
    strange = {piece.text for piece in sentence if piece.kind == "word" and not piece.entries}
    known = anywhere("of_visit") | anywhere("day_part")
    visit = bool(strange & anywhere("of_visit")) or any("AGO" in p.types or "LOOK" in p.types for p in sentence)
    return (strange <= known and visit) or _goes_again(sentence)


def _goes_again(sentence: Sequence[Piece]) -> bool:
    """ "Amanhã venho dar mais uma espiada": is a next look told in words that tell nothing else?"""
    words = [word for piece in sentence for word in piece.text.split(" ")]
    sure = anywhere("sure_visit")
    return any(" ".join(words[n : n + size]) in sure for n in range(len(words)) for size in range(2, _LONGEST_PHRASE))


_LONGEST_PHRASE = 6


def _nth(piece: Piece) -> bool:
    """May it be the number of a day?"""
    return piece.kind == "number" and isinstance(piece.value, int) and 0 < piece.value <= LAST_OF_MONTH


_OF_TIME = frozenset({"WEEKDAY", "MONTH", "TODAY", "AGO", "UNIT"})


def may_be_talk(sentence: Sequence[Piece]) -> bool:
    """Is it long enough, and has it strange words? A sentence that names a field of the crew is never talk."""
    if not LEAST_WORDS <= len(sentence) <= LONGEST or any("FIELD" in piece.types for piece in sentence):
        return False
    return sum(piece.kind == "word" and not piece.types.keys() - _LIGHT for piece in sentence) >= LEAST_STRANGE


def likelihood(signs: Collection[str], weights: Mapping[str, int] | None = None) -> float:
    """How likely a sentence with these signs is talk, from 0 to 1, by weights in hundredths or by what was learned."""
    weights = learned() if weights is None else weights
    told = sum(weights.get(sign, 0) for sign in signs) / 100 * scale_of(signs)
    return 1 / (1 + math.exp(-max(told, -_FARTHEST)))


_FARTHEST = 100.0
"""Log odds beyond which nothing is likely."""


def signs_of(sentence: Sequence[Piece]) -> set[str]:
    """The signs of a sentence: its words and their kinds, alone and in pairs, and how many of them are strange."""
    told = ["<b>", *words_in_general(sentence), "<e>"]
    signs = {f"1 {word}" for word in told}
    signs |= {f"4 {word[:_FEWEST_LETTERS]}" for word in told if len(word) > _FEWEST_LETTERS and word[0] != "<"}
    signs |= {f"2 {a} {b}" for a, b in pairwise(told)}
    kinds = [_kind(piece) for piece in sentence]
    signs |= {f"k {kind}" for piece in sentence for kind in piece.types if kind not in _LIGHT}
    signs |= {f"kk {a} {b}" for a, b in pairwise(["<", *kinds, ">"])}
    strange, telling = kinds.count("?"), sum(kind not in ("?", ".") for kind in kinds)
    signs |= {f"u {min(strange, _MOST_COUNTED)}", f"w {min(telling, _MOST_COUNTED)}"}
    signs.add(f"r {round(4 * strange / max(1, strange + telling))}")
    return signs


def _kind(piece: Piece) -> str:
    """What a piece tells of, in one word: "?" for a strange word, "." for a little one."""
    if piece.kind in NUMBERS:
        return "N"
    kinds = [kind for kind in piece.types if kind not in _LIGHT]
    if kinds:
        return "F" if "FIELD" in kinds else min(kinds)
    return "?" if piece.kind == "word" and not piece.entries else "."


@cache
def learned() -> Mapping[str, int]:
    """The weights as they were learned, in hundredths by sign; above 0 tells for talk."""
    weights: dict[str, int] = json.loads((files("notes_bot.grammar") / "talk.json").read_text("utf-8"))
    return weights
