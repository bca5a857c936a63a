"""Plants told by times: "4x 3w, 1x 0" is four plants with three white each and one with none, "clean x5" five."""

from __future__ import annotations

import re

from notes_bot.language.lexicon.scan import Lexeme
from notes_bot.language.lexicon.words import Table, anywhere

MOST_PLANTS = 40
"""More plants than this in one place are dug by nobody: rather a question (judgement)."""
_TIMES = re.compile(r"(\d{1,2})(\s?x\s?)(\d{1,3})")
_X = "x"
_COUNTED = frozenset({"COLOUR", "PLANTS", "FEMALES", "TOTAL", "UNIT", "MEASURE", "DUG", "TOOL"})
"""What a number behind may count, so that it is none of a list."""


def without_times(lexemes: list[Lexeme], made: Table) -> list[Lexeme]:
    """The lexemes with every "so many times so many" as plants with so many each."""
    if not any(lexeme.kind in ("dims", "wordnum") or lexeme.text == _X for lexeme in lexemes):
        return lexemes
    out: list[Lexeme] = []
    i = 0
    while i < len(lexemes):
        used = (
            _row(lexemes, i, made, out)
            or _in_list(lexemes, i, made, out)
            or _spread(lexemes, i, made, out)
            or _behind(lexemes, i, made, out)
        )
        if not used:
            out.append(lexemes[i])
        i += used or 1
    return out


def _row(lexemes: list[Lexeme], i: int, made: Table, out: list[Lexeme]) -> int:
    """ "4x0, 2x3": a row of them, where a zero says which number is the count; how many lexemes it took."""
    row, last = [], i
    for n in range(i, min(len(lexemes), i + 2 * MOST_PLANTS)):
        if lexemes[n].kind == "dims" and (whole := _TIMES.fullmatch(lexemes[n].text)) is not None:
            row.append((int(whole.group(1)), int(whole.group(3))))
            last = n + 1
        elif lexemes[n].text != ",":
            break
    firsts, seconds = [one for one, _ in row], [other for _, other in row]
    if len(row) < 2 or (0 in firsts) == (0 in seconds):
        return 0
    times, counts = (firsts, seconds) if 0 in seconds else (seconds, firsts)
    behind = lexemes[last] if last < len(lexemes) else None
    measured = _kinds(behind, made) & {"MEASURE", "UNIT", "COLOUR"} or (out and "TOP" in _kinds(out[-1], made))
    if measured or sum(times) > MOST_PLANTS or 0 in times:
        return 0
    for many, count in zip(times, counts, strict=True):
        out += [Lexeme("number", str(count), lexemes[i].start, lexemes[last - 1].end, spaced=True) for _ in range(many)]
    return last - i


def _in_list(lexemes: list[Lexeme], i: int, made: Table, out: list[Lexeme]) -> int:
    """ "0x4 3 5", "2 3 0x4": plants with nothing told by times in a list; how many lexemes it took."""
    lexeme = lexemes[i]
    whole = _TIMES.fullmatch(lexeme.text) if lexeme.kind == "dims" else None
    numbers = (int(whole.group(1)), int(whole.group(3))) if whole is not None else (1, 1)
    times = max(numbers)
    if 0 not in numbers or not 1 < times <= MOST_PLANTS or (out and "TOP" in _kinds(out[-1], made)):
        return 0
    row = [other for other in lexemes[i + 1 : i + 6] if other.text != ","]
    behind = len(row) > 0 and row[0].kind == "number" and (len(row) < 2 or not _kinds(row[1], made) & _COUNTED)
    told = [other for other in out[-5:] if other.text != ","]
    ahead = [other.kind for other in told[-3:]] == ["number"] * 3 or (
        len(told) > 2 and "PLANTS" in _kinds(told[-3], made) and [o.kind for o in told[-2:]] == ["number"] * 2
    )
    ahead = ahead and (not row or not _kinds(row[0], made) & _COUNTED)
    if not behind and not ahead:
        return 0
    parted = i + 1 < len(lexemes) and lexemes[i + 1].text == ","
    row_parted = i + 3 < len(lexemes) and lexemes[i + 3].text == ","
    if parted and not row_parted and len(row) > 1 and row[1].kind == "number":
        out += [Lexeme("number", "0", lexeme.start, lexeme.end, spaced=True) for _ in range(times)]
        return 2  # "3x0, 2 2 5"
    comma = parted or (ahead and out[-1].text == ",")
    for n in range(times):
        if n and comma:
            out.append(Lexeme("sign", ",", lexeme.start, lexeme.end))
        out.append(Lexeme("number", "0", lexeme.start, lexeme.end, spaced=True))
    return 1


def _spread(lexemes: list[Lexeme], i: int, made: Table, out: list[Lexeme]) -> int:
    """ "4x 3w", "5x0", "1x 0": appends the plants and what each had; how many lexemes it took, 0 for no such thing."""
    lexeme = lexemes[i]
    after = lexemes[i + 1] if i + 1 < len(lexemes) else None
    whole = _TIMES.fullmatch(lexeme.text) if lexeme.kind == "dims" else None
    if whole is not None:
        times, count, used = int(whole.group(1)), whole.group(3), 1
    elif lexeme.kind == "number" and lexeme.text.isdigit() and after is not None and after.text == _X:
        number = lexemes[i + 2] if i + 2 < len(lexemes) else None
        if number is None or number.kind != "number" or after.spaced:
            return 0
        times, count, used = int(lexeme.text), number.text, 3
    else:
        return 0
    behind = lexemes[i + used] if i + used < len(lexemes) else None
    if times == 0 and whole is not None and count != "0":
        times, count = int(count), "0"  # "0 x5"
    beyond = lexemes[i + used + 1] if i + used + 1 < len(lexemes) else None
    if behind is not None and behind.text == "." and beyond is not None and not beyond.spaced:
        return 0  # "5x0.5 m"
    coloured = "COLOUR" in _kinds(behind, made)
    nothing = count == "0"
    measured = nothing and not coloured and _kinds(behind, made) & {"MEASURE", "UNIT"}
    before = out[-1] if out else None
    if before is not None and (before.text in anywhere("of_word") or "TOP" in _kinds(before, made)):
        return 0  # "manchón de 20x30 amarillo": its size
    if not 0 < times <= MOST_PLANTS or not (coloured or nothing) or measured:
        return 0
    start, end = lexeme.start, lexemes[i + used - 1].end
    out.append(Lexeme("number", str(times), start, end - 1, lexeme.spaced))
    out.append(Lexeme("word", made.first["PLANTS", "plants"], end - 1, end - 1, spaced=True))
    out.append(Lexeme("number", count, end - 1, end, spaced=True))
    if coloured and behind is not None:
        out.append(behind)
        used += 1
        out += [] if nothing or times == 1 else _each(behind.end, made)
    return used


def _each(at: int, made: Table) -> list[Lexeme]:
    """The words for "each", of no length."""
    return [Lexeme("word", word, at, at, spaced=True) for word in made.first["EACH", "each"].split()]


def _behind(lexemes: list[Lexeme], i: int, made: Table, out: list[Lexeme]) -> int:
    """ "Clean x5", "3w x 5": so many plants behind a word for none or a count; how many lexemes it took."""
    lexeme = lexemes[i]
    before = out[-1] if out else None
    after = lexemes[i + 1] if i + 1 < len(lexemes) else None
    nothing = before is not None and (before.text == "0" or "NONE" in _kinds(before, made))
    counted = len(out) > 1 and out[-2].kind == "number" and "COLOUR" in _kinds(before, made)
    if before is None or not (nothing or counted):
        return 0
    glued = lexeme.kind == "wordnum" and lexeme.text[0] == _X and lexeme.text[1:].isdigit()
    parted = lexeme.text == _X and after is not None and after.kind == "number" and after.text.isdigit()
    last = lexemes[i + parted]
    number = lexeme.text[1:] if glued else last.text
    behind = lexemes[i + 1 + parted] if i + 1 + parted < len(lexemes) else None
    if not (glued or parted) or not 0 < int(number) <= MOST_PLANTS:
        return 0
    out += [] if nothing else _each(before.end, made)
    out.append(Lexeme("number", number, last.end - len(number), last.end, spaced=True))
    if "PLANTS" not in _kinds(behind, made):
        out.append(Lexeme("word", made.first["PLANTS", "plants"], last.end, last.end, spaced=True))
    return 1 + parted


def _kinds(lexeme: Lexeme | None, made: Table) -> set[str]:
    """What a word can be."""
    return {entry.type for entry in made.singles.get(lexeme.text, ())} if lexeme is not None else set()
