"""Counts glued together, written apart where only one cutting is possible: "6p14w2y", "la10d", "n3p5 s3p0", "7of7"."""

from __future__ import annotations

import itertools
import re
from functools import cache

from notes_bot.language.lexicon.times import MOST_PLANTS
from notes_bot.language.lexicon.words import Table, anywhere

_CHAIN = re.compile(r"(?<![\w.,/:-])(?:\d{1,4}[^\W\d_]{1,6}){2,6}(?!\w)")
"""Each count before its word: 6p14w2y."""
_TURNED = re.compile(r"(?<![\w.,/:-])p(?:l|lt|ls|lts)?\d{1,2}(?:[^\W\d_]{1,6}\d{1,4}){1,4}(?!\w)", re.IGNORECASE)
"""Plants first, each word before its count: pl6w14y2."""
_LONE = re.compile(
    r"(?<![\w.,/:-])p(?:l|lt|ls|lts)?(\d{1,2})(?=[ ,;/]+([^\W\d_]{1,6})\d{1,3}(?!\w))(?!\w)", re.IGNORECASE
)
"""Plants before a color, each word before its count: p5 w3."""
_PLANT = re.compile(r"(?<![^\W_])p(?:l|lt|ls|lts)? ?\d{1,2}(?!\w)", re.IGNORECASE)
"""A plant and its number, or so many of them: p5, pl 5."""
_PLACED = re.compile(r"(?<![\w.,/:-])([^\W\d_]{1,6})(\d{1,2})p(?:l|lt|ls|lts)?(\d{1,4})(?!\w)", re.IGNORECASE)
"""A place, its plants, and what was on them: n3p5."""
_ITEM = r"(?:0(?!\w|\.\w)|(?:\d{1,3}[^\W\d_]{1,6}\+?){1,4}(?!\w)|(?:[^\W\d_]{1,6}\d{1,3}){1,4}(?!\w))"
"""What one plant had: 0, 3w1y, 3w+1y, w3y1."""
_ROW = re.compile(rf"(?<![\w.,:+-]){_ITEM}(?:(?P<sep> *[,;/+|-] *| +){_ITEM})(?:(?P=sep){_ITEM})+")
"""Plants one by one, each part of the row from the next by the same sign: 1w,0,3w1y; 1w 0 3w1y."""
LEAST_ROW = 3
"""Plants told one by one from which a row is one (judgement)."""
LEAST_BARE_ROW = 4
"""The same with nothing but blanks between plants of one color each: "2w" may be weeks (judgement)."""
_AGAIN = re.compile(
    r"(?<![\w.,:-])([^\W\d_]{2,8})(\d{1,2})(d|days?|w|wks?|weeks?|dias?|días?|sem)(?!\w)", re.IGNORECASE
)
"""When to look again: la10d, bk2wk."""
_COUNTED = re.compile(r"(?<![^\W_])([^\W\d_]{1,8})[ :=]?[ ]?\d{1,4}(?!\w)")
"""A word and its count behind it: wh 21."""
LEAST_SHADES = 2
"""Other colors with counts from which a short word is one too (judgement)."""
_SHARE = re.compile(r"(?<![\w.,:-])(?<!\d/)(\d{1,2})([^\W\d_]{2,3})(\d{1,2})(?!\d)(?=\W|$|([^\W\d_]{2,9})(?![^\W_]))")
"""So many of so many: 7of7."""


_LETTER_BEHIND = re.compile(r"\d[^\W\d_]")
_BOTH_WAYS = re.compile(r"\d[^\W\d_]{1,8}\d|[^\W\d_]\d+[^\W\d_]")
"""Letters between figures, or figures between letters: what all of the following have."""


def apart(text: str, made: Table) -> str:
    """The text with a blank between counts that were glued together."""
    text = _ROW.sub(lambda match: _row(match, made), _tan_beside(text, made))
    text = _LONE.sub(lambda match: _lone(match, made), text) if len(_PLANT.findall(text)) == 1 else text
    if not (_LETTER_BEHIND.search(text) and _BOTH_WAYS.search(text)):
        return text
    text = _places_apart(text, made)
    text = _CHAIN.sub(lambda match: _chain(match.group(), made), text)
    text = _TURNED.sub(lambda match: _turned(match.group(), made), text)
    text = _AGAIN.sub(lambda match: _again(match, made), text)
    return _SHARE.sub(_share, text)


def _tan_beside(text: str, made: Table) -> str:
    """ "wh 21 ye 9 ta 4": short for tan only among counts of two other colors; else it may be thanks."""
    if not made.may_say("short_tan", text):
        return text
    words = {match.group(1).lower() for match in _COUNTED.finditer(text)}
    short = words & made.traits.get("short_tan", frozenset())
    shades = {_kind(word, made) for word in words} - {None, "plants", "females"}
    if not short or len(shades) < LEAST_SHADES or "tan" in shades:
        return text
    write = made.first["COLOUR", "tan"]

    def tan(match: re.Match[str]) -> str:
        word = match.group(1)
        return match.group().replace(word, write) if word.lower() in short else match.group()

    return _COUNTED.sub(tan, text)


def _chain(chain: str, made: Table) -> str:
    """ "6p 14w 2y": each count with the word behind it, plants first or last and every word once."""
    pairs = re.findall(r"\d+[^\W\d_]+", chain)
    kinds = [_kind(re.sub(r"\d", "", pair), made) for pair in pairs]
    plants = [n for n, kind in enumerate(kinds) if kind == "plants"]
    whole = None not in kinds and len(set(kinds)) == len(kinds)
    return " ".join(pairs) if whole and plants in ([], [0], [len(kinds) - 1]) else chain


def _row(match: re.Match[str], made: Table) -> str:
    """ "1w, 0, 3w 1y": a comma between the plants, where colors are counted and one of them comes again beside a none.

    What else stands in the row ("4w, 5p frk") is left as it is.
    """
    sep = match.group("sep")
    if "/" in sep and re.search(r"\d/$", match.string[: match.start()]):
        return match.group()  # "R2/0/3w/1w"
    items = match.group().split(sep) if sep.strip() != "+" else re.split(r" *(?<!\+)\+ *", match.group())
    out: list[str] = []
    for counted, run in itertools.groupby(items, key=lambda item: _shades(item, made) is not None):
        told = list(run)
        if counted and _is_row(told, sep, made):
            out.append(", ".join(_plainly(item) for item in told))
        else:
            out.append(sep.join(told))
    return sep.join(out)


def _is_row(items: list[str], sep: str, made: Table) -> bool:
    """Are these plants told one by one, and no counts of several colors, and no weeks?"""
    shades = [_shades(item, made) or [] for item in items]
    each = [shade for own in shades for shade in own]
    again = len(set(each)) < len(each)
    none = any(not own for own in shades)
    several = any(len(own) > 1 for own in shades)
    if len(items) < LEAST_ROW or not each:
        return False
    if not sep.strip():
        bare = shades.count([]) > 1 or (none and again)
        return (bare and len(items) >= LEAST_BARE_ROW) or (again and several)
    return again or none


def _shades(item: str, made: Table) -> list[str] | None:
    """The colors counted in an item of such a row; ``None`` where anything else is counted, or one twice."""
    kinds = [_kind(word, made) for word in re.findall(r"[^\W\d_]+", item)]
    shades = [kind for kind in kinds if kind not in (None, "plants", "females")]
    return shades if len(shades) == len(kinds) == len(set(kinds)) else None


def _plainly(item: str) -> str:
    """ "3w 1y" for "3w1y", "3w+1y", "w3y1"."""
    turned = item[0].isalpha()
    pairs = re.findall(r"[^\W\d_]+\d+" if turned else r"\d+[^\W\d_]*", item)
    return " ".join(re.sub(r"([^\W\d_]+)(\d+)", r"\2\1", pair) if turned else pair for pair in pairs)


def _turned(chain: str, made: Table) -> str:
    """ "pl 6 w 14 y 2": each word with the count behind it."""
    pairs = re.findall(r"[^\W\d_]+\d+", chain)
    kinds = [_kind(re.sub(r"\d", "", pair), made) for pair in pairs]
    if None in kinds or len(set(kinds)) < len(kinds) or kinds[0] != "plants":
        return chain
    plant = re.sub(r"\d", "", pairs[0]).lower() == "p"
    first = pairs[0] if plant else re.sub(r"(?<=\D)(?=\d)", " ", pairs[0])  # "p1 w3 y1 p2 w0": its number, maybe
    return " ".join([first, *(re.sub(r"(?<=\D)(?=\d)", " ", pair) for pair in pairs[1:])])


def _lone(match: re.Match[str], made: Table) -> str:
    """ "p5 w3 y2": five plants, where no other plant has a number; "p1 w3" may be the first of them."""
    shade = _kind(match.group(2), made) not in (None, "plants", "females")
    return f"{match.group(1)} {made.first['PLANTS', 'plants']}" if shade and int(match.group(1)) > 1 else match.group()


def _places_apart(text: str, made: Table) -> str:
    """ "n: 3p 5, s: 3p 0": several places told alike, where the other cutting cannot be meant."""
    found = list(_PLACED.finditer(text))
    names = [match.group(1).lower() for match in found]
    if len(found) < 2 or len(set(names)) < len(names) or not all(_is_place(name, made) for name in names):
        return text
    plants = [int(match.group(2)) for match in found]
    counts = [int(match.group(3)) for match in found]
    other = all(0 < count <= MOST_PLANTS for count in counts)  # "n3 p5": three females on five plants
    if other and (len(set(plants)) > 1 or len(set(counts)) == 1):
        return text
    if not all(0 < count <= MOST_PLANTS for count in plants):
        return text
    word = made.first["PLANTS", "plants"]
    return _PLACED.sub(rf"\1 \2 {word} \3,", text)


def _again(match: re.Match[str], made: Table) -> str:
    """ "la 10d": a word for looking again and a span of days."""
    word = match.group(1).lower()
    said = made.shorts.get(word, (word,))
    looks = any(entry.type == "LOOK" for part in said for entry in made.singles.get(part, ()))
    looks = looks or any(made.has("weak_look", part) for part in said)
    return f"{match.group(1)} {match.group(2)}{match.group(3)}" if looks else match.group()


def _share(match: re.Match[str]) -> str:
    """ "7 of 7": so many of so many."""
    some, whole = int(match.group(1)), int(match.group(3))
    of = match.group(2).lower() in _joints() and some <= whole
    return " ".join(match.groups()[:3]) + (" " if match.group(4) else "") if of else match.group()


@cache
def _joints() -> frozenset[str]:
    """Words between a part and the whole."""
    return anywhere("share_of")


def _kind(word: str, made: Table) -> str | None:
    """What a glued count counts: a color, "plants", "females"; ``None`` for anything else."""
    entries = {entry.type: entry for entry in made.singles.get(word.lower(), ())}
    if "COLOUR" in entries:
        return str(entries["COLOUR"].value)
    if "PLANTS" in entries or word.lower() == "p":
        return "plants"
    return "females" if "FEMALES" in entries or "TOTAL" in entries else None


def _is_place(word: str, made: Table) -> bool:
    """Is it a word or a letter for a place?"""
    known = any(entry.type in ("SPOT", "CHECK") for entry in made.singles.get(word, ()))
    return known or made.has("direction", word)
