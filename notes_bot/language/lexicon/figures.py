"""Figures that count nothing of ours: shares, temperatures, ids of samples and points, told around a note.

"87 % white", "28 C", "record 118", "wp 22", "T-09", "0723-B": each becomes one measure, so that no number and no letter
of it is taken for females, a soil or a stage.
"""

from __future__ import annotations

from functools import cache

from notes_bot.language.lexicon.scan import Lexeme
from notes_bot.language.lexicon.words import Table, anywhere, table
from notes_bot.model import Language

LONGEST_CODE = 7
"""Parts of the longest code looked at (judgement)."""
FIRST_YEAR, LAST_YEAR = 1980, 2099
"""Years people tell of what grew somewhere (judgement)."""
CROP_BEFORE = 6
"""Words between a crop and the year it grew, "beans both times, in 2024" (judgement)."""
HOTTEST_C, COLDEST_F, HOTTEST_F = 50, 32, 120
"""Temperatures people tell; a letter behind another number is none (judgement)."""


def without_figures(lexemes: list[Lexeme], made: Table, names: frozenset[str] = frozenset()) -> list[Lexeme]:
    """The lexemes with every share, temperature, id and code as one measure; a field called "7C" is no temperature."""
    if _cues(made.language).isdisjoint([x.text for x in lexemes]) and not any(map(_of_century, lexemes)):
        return lexemes
    coloured = _counts_colours(lexemes, made)
    out: list[Lexeme] = []
    i = 0
    while i < len(lexemes):
        size = _share(lexemes, i, made, coloured) or _warmth(lexemes, i, names) or _code(lexemes, i, made)
        size = size or _numbered(lexemes, i, made) or _years(lexemes, i, made)
        if not size:
            out.append(lexemes[i])
            i += 1
            continue
        run = lexemes[i : i + size]
        text = " ".join(x.text for x in run)
        out.append(Lexeme("dims", text, run[0].start, run[-1].end, run[0].spaced))
        i += size
    return out


@cache
def _cues(language: Language) -> frozenset[str]:
    """Words and signs beside a figure, or letters, without which none of them is told."""
    traits = table(language).traits
    return frozenset("%cf('").union(traits.get("id_word", ()), traits.get("code_lead", ()), anywhere("percent"))


def _types(lexeme: Lexeme | None, made: Table) -> set[str]:
    return {entry.type for entry in made.singles.get(lexeme.text, ())} if lexeme is not None else set()


def _at(lexemes: list[Lexeme], i: int) -> Lexeme | None:
    return lexemes[i] if 0 <= i < len(lexemes) else None


def _counts_colours(lexemes: list[Lexeme], made: Table) -> bool:
    """Is a color counted anywhere, so that its share says nothing more?"""
    for n, lexeme in enumerate(lexemes):
        if lexeme.kind == "number" and "COLOUR" in _types(_at(lexemes, n + 1), made):
            return True
    return False


def _share(lexemes: list[Lexeme], i: int, made: Table, coloured: bool) -> int:
    """ "15 %", "87 pct white" where the white ones were counted."""
    sign = _at(lexemes, i + 1)
    if lexemes[i].kind not in ("number", "decimal") or sign is None or sign.text not in anywhere("percent") | {"%"}:
        return 0
    return 2 + (coloured and "COLOUR" in _types(_at(lexemes, i + 2), made))


def _warmth(lexemes: list[Lexeme], i: int, names: frozenset[str]) -> int:
    """ "28 C", "96F": a letter that is no other word behind a number of degrees."""
    unit = _at(lexemes, i + 1)
    if lexemes[i].kind != "number" or unit is None or unit.kind != "word" or not lexemes[i].text.isdigit():
        return 0
    if not unit.spaced and lexemes[i].text + unit.text in names:
        return 0
    ahead = lexemes[max(0, i - 3) : i]
    ahead = ahead[:-1] if ahead and ahead[-1].text in (",", "+") else ahead
    if len(ahead) > 1 and ahead[-2].kind == "number" and len(ahead[-1].text) == 1 and ahead[-1].kind == "word":
        return 0  # "2 b, 1 a, 1 c": a color that is asked about
    value = int(lexemes[i].text)
    celsius = unit.text == "c" and value <= HOTTEST_C
    fahrenheit = unit.text == "f" and not unit.spaced and COLDEST_F <= value <= HOTTEST_F
    return 2 * (celsius or fahrenheit)


def _code(lexemes: list[Lexeme], i: int, made: Table) -> int:
    """ "Device T-09", "(SQ-55)", "sample KS-0417-01": letters, figures and dashes, behind a word for ids."""
    before = lexemes[max(0, i - 2) : i]
    if not any(made.has("id_word", x.text) or made.has("code_lead", x.text) or x.text == "(" for x in before):
        return 0
    end = i + 1
    while end < min(i + LONGEST_CODE, len(lexemes)) and not lexemes[end].spaced:
        if lexemes[end].text != "-" and lexemes[end].kind not in ("word", "number", "wordnum"):
            break
        end += 1
    run = lexemes[i:end]
    if run[-1].text == "-" or run[0].kind not in ("word", "number", "wordnum") or "-" not in [x.text for x in run]:
        return 0
    words = [x for x in run if x.kind == "word"]
    digits = [x.text for x in run if x.kind == "number"]
    long = any(text.startswith("0") and len(text) > 1 for text in digits) or any(len(text) > 3 for text in digits)
    if not digits or (not words and not long):
        return 0
    known = any(_types(x, made) & {"COLOUR", "PLANTS", "MONTH", "UNIT", "PH", "POTASSIUM"} for x in words)
    lettered = any(len(x.text) > 1 for x in words) and not known
    return end - i if long or (lettered and all(len(x.text) < 5 for x in words)) else 0


def _numbered(lexemes: list[Lexeme], i: int, made: Table) -> int:
    """ "Record 118", "wp 22", "bag 3 of 9": an id, unless the number counts what stands behind it."""
    starts = i == 0 or lexemes[i - 1].kind == "nl"  # "Transect 12 South" is a name
    if starts or not made.has("id_word", lexemes[i].text):
        return 0
    number = _at(lexemes, i + 1)
    if number is None or number.kind not in ("number", "wordnum", "decimal"):
        return 0
    behind = _at(lexemes, i + 2)
    if _types(behind, made) & {"PLANTS", "COLOUR", "FEMALES", "DUG", "TOOL"} or (
        behind is not None and behind.text == ":"
    ):
        return 0
    of = behind is not None and (behind.text == "/" or behind.text in anywhere("of_word"))
    last = _at(lexemes, i + 3)
    return 4 if of and last is not None and last.kind == "number" else 2


def _of_century(lexeme: Lexeme) -> bool:
    """ "2024": a number that may be a year."""
    return len(lexeme.text) == 4 and lexeme.text.isdecimal() and FIRST_YEAR <= int(lexeme.text) <= LAST_YEAR


def _years(lexemes: list[Lexeme], i: int, made: Table) -> int:
    """ "All had beans in 2024", "corn in '23 and '24": when a crop grew, no number of plants."""
    if i == 0 or lexemes[i - 1].text not in anywhere("year_lead"):
        return 0
    before = lexemes[max(0, i - CROP_BEFORE) : i]
    crop = any(_types(x, made) & {"PLANTS", "TOPS"} or made.has("other_crop", x.text) for x in before)
    size = _year_at(lexemes, i) if crop else 0
    while size and i + size < len(lexemes):
        joint = lexemes[i + size].text in anywhere("and_word") | {","}
        more = _year_at(lexemes, i + size + 1) if joint else 0
        if not more:
            break
        size += 1 + more
    return size


def _year_at(lexemes: list[Lexeme], i: int) -> int:
    """ "2024" or "'24": how many lexemes it takes."""
    number = _at(lexemes, i)
    if number is not None and number.text == "'":
        short = _at(lexemes, i + 1)
        return 2 if short is not None and short.kind == "number" and len(short.text) == 2 and not short.spaced else 0
    return int(number is not None and _of_century(number))
