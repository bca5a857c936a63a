"""Notes cut by slashes: "Depot R2/5 pl/6w 9y/dug/rinsed" is read as with commas."""

from __future__ import annotations

import itertools
import re

from notes_bot.language.scan import Lexeme
from notes_bot.language.words import Table

LEAST_SPACED = 3
"""Slashes with blanks around from which a line is cut by them (judgement)."""
LEAST_TIGHT = 2
"""Slashes that part a count or a stage from what stands beside it, from which a line is cut by them (judgement)."""
_STAGE_AND_COUNT = re.compile(r"([vr])(\d{1,2})/(\d{1,2})")
_COUNTED = frozenset({"PLANTS", "COLOUR", "FEMALES", "TOTAL", "DUG", "TOOL"})
"""Kinds of word behind a number that say what it counts."""
_UNITS = frozenset({"PLANTS", "FIELD_WORD", "UNIT", "MEASURE", "EACH", "SPOT"})
"""Kinds of word behind a slash that a number is told by: "3 white/plant", "5 pl/fld"."""


def parted(lexemes: list[Lexeme], made: Table) -> list[Lexeme]:
    """The lexemes with the slashes that part clauses as commas."""
    if not any("/" in lexeme.text for lexeme in lexemes):
        return lexemes
    out: list[Lexeme] = []
    for _, line in itertools.groupby(lexemes, key=lambda lexeme: lexeme.kind == "nl"):
        out += _tight(_spaced(list(line)), made)
    return out


def _spaced(line: list[Lexeme]) -> list[Lexeme]:
    """ "tinkers / 6 plts / all w / bkt": slashes with blanks around, several of them."""
    at = [
        n
        for n, (lexeme, after) in enumerate(itertools.pairwise(line))
        if n and _is_slash(lexeme) and lexeme.spaced and after.spaced
    ]
    between = [n for n in at if not line[n - 1].kind == line[n + 1].kind == "number"]
    if len(between) < LEAST_SPACED or len(between) < len(at):
        return line
    return [_comma(lexeme) if n in at else lexeme for n, lexeme in enumerate(line)]


def _tight(line: list[Lexeme], made: Table) -> list[Lexeme]:
    """ "5 pl/V2-3/shov/none": slashes without blanks, where several of them part a count or a stage from the rest."""
    line, apart = _stages_apart(line, made)
    at = [n for n in range(1, len(line) - 1) if _is_slash(line[n]) and not _keeps(line, n, made)]
    parting = [n for n in at if _parts(line, n, made)]
    if len(parting) + apart < LEAST_TIGHT:
        return line
    return [_comma(lexeme) if n in at else lexeme for n, lexeme in enumerate(line)]


def _stages_apart(line: list[Lexeme], made: Table) -> tuple[list[Lexeme], int]:
    """ "R2/5 pl", "V3/6 dug": a stage and the plants behind it, no stage between two; and how many such."""
    out: list[Lexeme] = []
    for n, lexeme in enumerate(line):
        both = _STAGE_AND_COUNT.fullmatch(lexeme.text) if lexeme.kind == "stage" else None
        if both is None or not _counts_behind(line, n, made):
            out.append(lexeme)
            continue
        middle = lexeme.start + both.start(3) - 1
        out.append(Lexeme("stage", lexeme.text[: both.start(3) - 1], lexeme.start, middle, lexeme.spaced))
        out.append(Lexeme("sign", ",", middle, middle + 1))
        out.append(Lexeme("number", both.group(3), middle + 1, lexeme.end))
    return out, (len(out) - len(line)) // 2


def _counts_behind(line: list[Lexeme], n: int, made: Table) -> bool:
    """Does the second number of a stage like "R3/6" count what stands behind it?"""
    after = line[n + 1] if n + 1 < len(line) else None
    kinds = _kinds(after, made)
    letter, first, second = line[n].text[0], *map(int, line[n].text[1:].split("/"))
    beside = second - first == 1 and second <= (8 if letter == "r" else 20)
    if not beside:
        return bool(kinds & (_COUNTED | {"EACH"})) or (after is not None and _is_slash(after))
    beyond = line[n + 2] if n + 2 < len(line) else None
    told = (
        beyond is not None and beyond.kind == "number" and not _kinds(line[n + 3] if n + 3 < len(line) else None, made)
    )
    return bool(kinds & {"PLANTS", "DUG"}) and not told


def _keeps(line: list[Lexeme], n: int, made: Table) -> bool:
    """Does a slash belong to what stands around it: "w/ bucket", "3 white/plant", "w/y", "N/S"?"""
    before, after = line[n - 1], line[n + 1]
    counted = n > 1 and line[n - 2].kind == "number"
    if len(before.text) == 1 and before.kind == "word" and not counted:
        return True
    if before.kind == after.kind == "number":
        return True
    beyond = line[n + 2] if n + 2 < len(line) else None
    titled = beyond is not None and beyond.kind in ("number", "word") and not counted
    unit = bool(_kinds(after, made) & _UNITS) or made.has("place_unit", after.text)
    if unit and (before.kind == "number" or (counted and not titled)):
        return True
    shades = "COLOUR" in _kinds(before, made) and "COLOUR" in _kinds(after, made)
    return shades and not counted


def _parts(line: list[Lexeme], n: int, made: Table) -> bool:
    """Does it part a number, a stage or a word for none from what stands beside it?"""
    before, after = line[n - 1], line[n + 1]
    if "stage" in (before.kind, after.kind):
        return True
    if n > 1 and line[n - 2].kind == "number" and _kinds(before, made) & _COUNTED:
        return True
    beyond = line[n + 2] if n + 2 < len(line) else None
    if after.kind == "number":
        return beyond is None or _is_slash(beyond) or bool(_kinds(beyond, made) & _COUNTED)
    return before.kind == "number" or "NONE" in _kinds(after, made)


def _kinds(lexeme: Lexeme | None, made: Table) -> set[str]:
    """What a word can be."""
    return {entry.type for entry in made.singles.get(lexeme.text, ())} if lexeme is not None else set()


def _is_slash(lexeme: Lexeme) -> bool:
    return lexeme.text == "/"


def _comma(slash: Lexeme) -> Lexeme:
    """A comma in its place."""
    return Lexeme("sign", ",", slash.start, slash.end, spaced=True)
