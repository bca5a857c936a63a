"""Numbers with slashes that a heading explains: "plants/females: cemetery road 5/17, county line 5/0"."""

from __future__ import annotations

import re
from functools import partial

from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import Table

LEAST_ROWS = 2
"""Rows of numbers from which words with slashes are their heading (judgement)."""
MOST_HEADINGS = 8
"""Words that may be such a heading and are tried, at most (judgement)."""
_HEADING = re.compile(r"(?<![^\W_])([^\W\d_]+(?: ?/ ?[^\W\d_]+)+)\b[ ]*[:=)]?")
_ROW = re.compile(r"(?<![\w/.-])\d{1,4}(?:/\d{1,4})+(?![\w/]|\.\d)")

_TWICE = re.compile(r"\d/\d+[ ]+\d+/\d")
"""Two of them side by side: one may be a day."""


def slashes_told(text: str, made: Table) -> str:
    """Each row with its words, where a heading of plants and what was found has as many parts as every row.

    "plants/females: cemetery road 5/17, county line 5/0" is "cemetery road 5 plants 17 females, ..".
    """
    if text.count("/") <= LEAST_ROWS:
        return text
    tried = 0
    for heading in _HEADING.finditer(text):
        labels = [fold(label.strip()) for label in heading.group(1).split("/")]
        if not _counts(labels, made):
            continue
        if tried == MOST_HEADINGS:
            break
        tried += 1
        before, behind = text[: heading.start()], text[heading.end() :]
        told = behind if _ROW.search(behind) else before
        rows = _ROW.findall(told)
        fitting = all(row.count("/") == len(labels) - 1 for row in rows) and not _TWICE.search(told)
        if len(rows) < LEAST_ROWS or not fitting:
            continue
        written = _ROW.sub(partial(_with_words, labels), told)
        if told is before:
            return written.rstrip(" (") + behind
        return before.rstrip(" (-") + (written if before.strip() else written.lstrip(" -\n"))
    return text


def _counts(labels: list[str], made: Table) -> bool:
    """Is one label the word for plants, and each of the others one for females or a color?"""
    kinds = [{entry.type for entry in made.singles.get(label, ())} for label in labels]
    plants = [label for label, kind in zip(labels, kinds, strict=True) if "PLANTS" in kind]
    return len(plants) == 1 and all(kind & {"PLANTS", "FEMALES", "COLOUR"} for kind in kinds)


def _with_words(labels: list[str], row: re.Match[str]) -> str:
    """ "5/17" as "5 plants 17 females"."""
    return " ".join(f"{number} {label}" for number, label in zip(row.group().split("/"), labels, strict=True))
