"""Dictated and typed-out forms written as they are usually written, before anything is read.

"old mill comma dug six period": said stops become stops, where the text has none of its own. "lat 42.03 lon -93.62"
becomes a pair of coordinates. "stage V for", "at are one": a letter and a word that sounds like a number are a stage.
"""

from __future__ import annotations

import re
from functools import cache

from notes_bot.language.layout.glued import apart
from notes_bot.language.lexicon.joining import claims, is_any
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.scan import fold, scan
from notes_bot.language.lexicon.tokens import Draft, Slip
from notes_bot.language.lexicon.words import Entry, Table, anywhere, spoken_numbers, table
from notes_bot.model import Language

HEARD = (1, 2, 4, 8)
"""Numbers that sound like other words; which words is said in the word files."""
_SIGNS = (("said_line", "\n"), ("said_comma", ","), ("said_question", "?"), ("said_stop", "."))
"""Traits of the word files whose words are signs said aloud, and the sign; lines before stops they may begin with."""
# Labels of coordinates as devices write them in every language.
_PLACED = re.compile(
    r"\blat(?:itude)?\.?\s*[:=]?\s*(-?\d{1,2}\.\d{3,8})\s*[,;]?\s*"
    r"(?:lon|lng|long)(?:gitude)?\.?\s*[:=]?\s*(-?\d{1,3}\.\d{3,8})",
    re.IGNORECASE,
)


@cache
def _with_winds(language: Language) -> re.Pattern[str]:
    """ "41.87 north 93.02 west": a latitude and a longitude, each with the word for its side of the world."""
    winds = [
        "|".join(sorted(table(language).traits.get(side, ()), key=len, reverse=True))
        for side in ("wind_north", "wind_south", "wind_east", "wind_west")
    ]
    north, south, east, west = winds
    joint = "|".join(sorted(table(language).traits.get("and_word", ())))
    degrees = sorted((word for word in table(language).traits["degree_word"] if len(word) > 1), key=len, reverse=True)
    unit = rf"\s*(?:°|{'|'.join(degrees)})?\s*"
    return re.compile(
        rf"(?<![\w.,])-?(\d{{1,2}}\.\d+){unit}(?:({north})|({south}))\b[\s,;/]*(?:(?:{joint})\s+)?"
        rf"(?:(?:lon|lng|long)\w*\.?\s*[:=]?\s*)?-?(\d{{1,3}}\.\d+){unit}(?:({east})|({west}))\b",
        re.IGNORECASE,
    )


def _as_pair(match: re.Match[str]) -> str:
    """A place told with its winds as two signed numbers: "41.87,-93.02"."""
    south, west = match.group(3), match.group(6)
    return f"{'-' if south else ''}{match.group(1)},{'-' if west else ''}{match.group(4)}"


_DOTTED = re.compile(r"(?<![^\W\d_])(?:[^\W\d_]\.){2,}(?![^\W\d_])")
"""Letters with a stop behind each: p.p.m., c.c., N.W., a.m."""


SAID_BEFORE = 40
"""Letters before a shortened word that are looked at, at most (judgement)."""
_COUNTED = re.compile(r"(?:\d|(?i:all|only|mostly|tod[ao]s?|puras?|tudo|s[oó]))[ ]*$")
"""What makes a shortened color or noun complete, so that its stop ends the sentence where a number follows."""


@cache
def _cut_words(language: Language) -> re.Pattern[str]:
    """Words that are written short with a stop ("pls.", "wh."), where the sentence goes on behind it."""
    traits = table(language).traits
    nouns = "|".join(sorted(traits.get("abbreviated", ()), key=len, reverse=True))
    shades = "|".join(sorted(traits.get("abbreviated_shade", ()), key=len, reverse=True))
    counted = "|".join(sorted(traits.get("abbreviated_counted", ()), key=len, reverse=True))
    return re.compile(
        rf"(?<![^\W_])((?i:{nouns}))\.(?=[ ]*[,;:)&]|[ ]+(?:[a-z0-9(&\"]|[VR]\d))"
        rf"|(?<![^\W_])((?i:{shades}))\.(?=[ ]*[,;:)&]|[ ]+(?:\d|(?:{counted})\b))"
    )


_STOPPED = re.compile(r"(?<![^\W_])[^\W_]++\.")
"""A word with a stop right behind it: only there the words written short are tried."""


@cache
def _labelled(language: Language) -> re.Pattern[str]:
    """A shortened color with its count behind it, at the end."""
    shades = "|".join(sorted(table(language).traits.get("abbreviated_shade", ()), key=len, reverse=True))
    return re.compile(rf"(?<![^\W_])(?i:{shades})[. ]+\d+[ ]*$")


def _number_before(before: str) -> bool:
    """Does a text end with a number, in figures or in words?"""
    last = before.split()[-1:]
    return bool(last) and (last[0][-1:].isdigit() or fold(last[0]) in spoken_numbers())


def _without_stops(text: str, language: Language) -> str:
    """The text without the stops of shortened words, each character still where it was."""
    if "." not in text:
        return text

    cut, made = _cut_words(language), table(language)

    def joined(match: re.Match[str]) -> str:
        letters = match.group().replace(".", "")
        return ("" if letters.lower() in ("am", "pm") else letters).ljust(len(match.group()))

    def shortened(match: re.Match[str]) -> str:
        if cut.match(text, match.start()) is None:
            return match.group()
        before = text[max(0, match.start() - SAID_BEFORE) : match.start()]
        if match.group()[:-1].lower() in made.traits.get("please", ()) and not _number_before(before):
            return match.group()  # "put this under Kestrel pls. Five plants ..": please, not plants
        counted = _COUNTED.search(before) and text[match.end() :].lstrip()[:1].isdigit()
        counted = counted and not _labelled(language).search(before)  # "wh. 22 yel. 5"
        return match.group() if counted else f"{match.group()[:-1]} "  # "all wh. 1 snapped": the sentence ends

    text = _DOTTED.sub(joined, text) if text.count(".") > 1 else text
    return _STOPPED.sub(shortened, text)


@cache
def _fillers(language: Language) -> re.Pattern[str] | None:
    words = sorted(table(language).traits.get("fillers", ()), key=len, reverse=True)
    return re.compile(rf"(?<![^\W_])(?:{'|'.join(words)})(?![^\W_])(?!')", re.IGNORECASE) if words else None


def _without_fillers(text: str, language: Language) -> str:
    """The text with a comma for every "um" and "uh", each other character still where it was."""
    fillers, made = _fillers(language), table(language)
    if fillers is None or not made.may_say("fillers", text):
        return text

    def left_out(match: re.Match[str]) -> str:
        word = text[: match.start()].rstrip(" \t").rpartition(" ")[2].lower()
        goes_on = any(entry.type == "HAD" for entry in made.singles.get(word, ()))  # "with um thirteen white"
        return (" " if not match.start() or goes_on else ",").ljust(len(match.group()))

    return fillers.sub(left_out, text)


_ACCENTED = {
    "a": "[aáàâã]",
    "e": "[eéê]",
    "i": "[ií]",
    "o": "[oóôõ]",
    "u": "[uúü]",
    "c": "[cç]",
    "n": "[nñ]",
    "'": "'?",
}


def _accented(words: str) -> str:
    """A pattern of folded words for a text with its accents."""
    return "".join(_ACCENTED.get(letter, re.escape(letter)) for letter in words)


@cache
def _gropings(language: Language) -> re.Pattern[str] | None:
    """What one says while the word does not come, "what was it", between stops."""
    words = table(language).traits.get("said_between", ())
    if not words:
        return None
    said = "|".join(map(_accented, sorted(words, key=len, reverse=True)))
    return re.compile(rf"(?<=[^\W_])[,;.]+ (?:{said})(?:[,;.?]+(?= ))", re.IGNORECASE)


_BETWEEN_STOPS = re.compile(r"(?<=[^\W_])[,;.]+ ([^,;.?]+)(?=[,;.?]+ )")
"""What stands between two stops."""


@cache
def _groping_words(language: Language) -> frozenset[str]:
    """What one says meanwhile, folded, without apostrophes; no such phrase holds a stop."""
    return frozenset(words.replace("'", "") for words in table(language).traits.get("said_between", ()))


def _may_grope(text: str, language: Language) -> bool:
    """May such a phrase stand in the text? The pattern of all of them takes long to build, and is seldom needed."""
    told = _BETWEEN_STOPS.findall(text)
    return bool(told) and not _groping_words(language).isdisjoint([fold(words).replace("'", "") for words in told])


def _without_groping(text: str, language: Language) -> str:
    """ "Dug up, what was it, five plants" as "Dug up five plants", each other character still where it was."""
    groping = _gropings(language) if _may_grope(text, language) else None
    text = groping.sub(lambda match: " ".ljust(len(match.group())), text) if groping is not None else text
    return text if ", " not in text else _STAMMERED.sub(lambda match: match.group(1).ljust(len(match.group())), text)


_STAMMERED = re.compile(
    r"(?<![^\W_])(?<!\d )((?:the|they|a|an|like|is|was|el|la|los|las|un|una|o|os|as|um|uma)),? \1(?![^\W_])",
    re.IGNORECASE,
)
"""A little word said twice while the next does not come: "they put on the, the herbicide"."""


def as_written(text: str, language: Language) -> str:
    """The text with said stops as stops, named coordinates as a pair, and shortened words without their stops."""
    text = _without_groping(_without_fillers(_without_stops(text, language), language), language)
    if _PLACED.search(text):
        text = _PLACED.sub(r"\1,\2", text)
    if text.count(".") > 1:
        text = _with_winds(language).sub(_as_pair, text)
    text = _QUOTED.sub(lambda match: _unquoted(match, language), text)
    told = _said(language)
    if not re.search(r"[.,;:](?=\s|$)", text) and any(pattern.search(text) for pattern, _ in told[:2]):
        for pattern, sign in told:
            text = pattern.sub(sign, text)
    return apart(_named_first(text, table(language)), table(language))


_NAMED_LAST = re.compile(
    r"(?P<told>[^@]{1,400}?)[ ,;]{0,3}@ ?(?P<name>[^@,;.|\n]{2,40}?)(?P<end>\s{0,3}(?:[,;|\n]\s{0,3}|$))"
)
"""A note that ends with its field: "5w on 4p @cart rd"."""
_PLANTS_TOLD = re.compile(r"(?<![\w.,/])\d{1,2} ?p(?:l|lt|ls|lts)?(?![^\W_])", re.IGNORECASE)
"""So many plants in the letters that stand for them in every language."""
LEAST_PLACES = 2
"""Plants told so often before the name of a note alone that they are of several places (judgement)."""


def _named_first(text: str, made: Table) -> str:
    """ "5w on 4p @cart rd, 0 on 4p @eel dtch": each field told last before what is told of it.

    Several of them, or one behind several places; each begins with data, and no name is a word of ours.
    """
    notes = list(_NAMED_LAST.finditer(text)) if "@" in text else []
    if not notes or notes[0].start() or text.count("@") != len(notes):
        return text
    several = len(notes) > 1 or len(_PLANTS_TOLD.findall(notes[0]["told"])) >= LEAST_PLACES
    if not several or not all(_begins_told(note["told"], made) and _is_name(note["name"], made) for note in notes):
        return text
    rest = text[notes[-1].end() :]
    if len(notes) > 1 and rest:
        return text  # of which of them?
    told = [f"{note['name'].strip()}: {note['told'].strip(' ,;')}" for note in notes]
    return "\n".join(told) + (f", {rest}" if rest else "")


def _begins_told(told: str, made: Table) -> bool:
    """Does it begin with a number, a stage or a word of a note?"""
    first = scan(told)[0] if told.strip() else None
    if first is None:
        return False
    return (
        first.kind in ("number", "stage", "dashed", "frac") or first.text in made.singles or first.text in made.shorts
    )


def _is_name(name: str, made: Table) -> bool:
    """Has it a word that is none of ours, or a capital, and begins with no number?"""
    words = scan(name)
    strange = any(x.kind == "word" and x.text not in made.singles and x.text not in made.plain for x in words)
    return bool(words) and words[0].kind == "word" and (strange or name[0].isupper())


_QUOTED = re.compile(r"[“«„]([^\W_]{1,12}(?: [^\W_]{1,12})?)[”»“]")
"""A word or two in quotes as people set them; in straight ones stands what we quote ourselves."""


def _unquoted(match: re.Match[str], language: Language) -> str:
    """ "Dug 5, “zero” on all of em", "“mostly yel”": a word for nothing says so in quotes too, and so do shades."""
    said = fold(match.group(1))
    found = table(language).longest(words := said.split(" "), 0)
    nothing = found is not None and found[0] == len(words) and any(_is_nothing(entry) for entry in found[1])
    kinds = [{entry.type for entry in table(language).singles.get(word, ())} for word in words]
    shaded = len(kinds) == len(("mostly", "yel")) and "MOSTLY" in kinds[0] and "COLOUR" in kinds[1]
    return f" {match.group(1)} " if nothing or shaded or said == "0" else match.group()


def _is_nothing(entry: Entry) -> bool:
    return entry.type == "NONE" or (entry.type == "NUMBER_WORD" and entry.value == "0")


@cache
def _said(language: Language) -> tuple[tuple[re.Pattern[str], str], ...]:
    """Signs said aloud. A stop is none behind "dry" ("a dry period") nor before a number ("punto 1")."""
    made = table(language)
    found: list[tuple[re.Pattern[str], str]] = []
    for trait, sign in _SIGNS:
        words = sorted(made.traits.get(trait, ()), key=len, reverse=True)
        if words:
            said = "|".join(re.escape(word).replace("i", "[ií]") for word in words)
            behind = r"(?=\s+[^\W\d]|\s*$)" if sign == "." else r"\b"
            ahead = "".join(f"(?<!{word})" for word in sorted(anywhere("no_stop_behind")))
            found.append((re.compile(rf"{ahead}\s+(?:{said}){behind}", re.IGNORECASE), sign))
    return tuple(found)


def heard_number(made: Table, word: str) -> int | None:
    """The number a word sounds like ("ate", "too")."""
    return _heard(made.language).get(word)


@cache
def _heard(language: Language) -> dict[str, int]:
    """Words that sound like a number, with the first number they sound like."""
    traits = table(language).traits
    return {word: number for number in reversed(HEARD) for word in traits.get(f"heard_{number}", ())}


def heard_units(draft: Draft, made: Table) -> list[Piece]:
    """ "Twenty won white", "thirty ate yellow": a unit behind its ten as it is heard, told in the answer."""
    ps = draft.pieces
    out = list(ps)
    for n in range(1, len(ps) - 1):
        ten = ps[n - 1].types.get("NUMBER_WORD")
        unit = heard_number(made, ps[n].text)
        tens = ten is not None and str(ten.value) in _SPOKEN_TENS
        if unit and tens and ps[n + 1].types.keys() & {"COLOUR", "FEMALES", "PLANTS"}:
            said = Entry("NUMBER_WORD", str(unit))
            out[n] = Piece("word", ps[n].text, ps[n].start, ps[n].end, (said,), None, ps[n].spaced)
            draft.slips.append(Slip("near_word", str(unit), ps[n].start, ps[n].end))
    return out


_SPOKEN_TENS = frozenset(str(ten) for ten in range(20, 100, 10))


def heard_stages(draft: Draft, made: Table) -> list[Piece]:
    """ "Stage V for", "beans are at are one": stages as they are heard, told in the answer."""
    if not made.traits.get("heard_r"):
        return draft.pieces
    ps = draft.pieces
    out: list[Piece] = []
    i = 0
    while i < len(ps):
        stage = _stage_at(ps, i, made)
        if stage is None:
            out.append(ps[i])
            i += 1
            continue
        start, end = ps[i].start, ps[i + 1].end
        out.append(Piece("stage", stage, start, end, (), None, ps[i].spaced))
        draft.slips.append(Slip("near_word", stage.upper(), start, end))
        i += 2
    return out


def _counted(ps: list[Piece], i: int) -> bool:
    """Does a number stand there?"""
    return i < len(ps) and (ps[i].kind == "number" or "NUMBER_WORD" in ps[i].types)


def _stage_at(ps: list[Piece], i: int, made: Table) -> str | None:
    """The stage two pieces sound like, when at least one of them is only heard."""
    piece, after = ps[i], ps[i + 1] if i + 1 < len(ps) else None
    if after is None or piece.kind != "word" or after.kind not in ("word", "number"):
        return None
    letter = "r" if piece.text == "r" or made.has("heard_r", piece.text) else "v" if piece.text == "v" else ""
    if not letter:
        return None
    heard = heard_number(made, after.text)
    word = after.types.get("NUMBER_WORD")
    number = heard or (int(word.value) if word is not None else after.value if after.kind == "number" else None)
    if not isinstance(number, int) or not 0 < number <= (8 if letter == "r" else 20):
        return None
    if piece.text in ("r", "v"):
        dug = is_any(ps[i + 2] if i + 2 < len(ps) else None, ("DUG",)) and _counted(ps, i + 3)  # "V for pulled five"
        return f"{letter}{number}" if heard is not None and (dug or not claims(ps, i + 2)) else None
    before = ps[i - 1] if i else None
    led = before is not None and (
        made.has("before_stage", before.text) or is_any(before, ("FIELD", "TODAY", "WEEKDAY"))
    )
    beyond = ps[i + 2] if i + 2 < len(ps) else None
    numbered = beyond is not None and (beyond.kind == "number" or "NUMBER_WORD" in beyond.types)
    dug = is_any(beyond, ("DUG",))  # "mint ground are four I pulled .."
    led = led or (dug and is_any(before, ("TOP",)) and (_counted(ps, i + 3) or _counted(ps, i + 4)))
    return f"{letter}{number}" if led and (numbered or dug or not claims(ps, i + 2)) else None
