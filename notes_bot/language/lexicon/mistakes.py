"""Complaints are data: a row of mistakes.toml, filled in with what was written, becomes a Problem."""

from __future__ import annotations

from bisect import bisect_right
from datetime import date
from functools import cache, lru_cache
from importlib.resources import files
from typing import Any

import tomli

from notes_bot.language.lexicon.words import table
from notes_bot.model import Language, Problem, Where


@cache
def rows() -> dict[str, dict[str, Any]]:
    """mistakes.toml as written: sections ``mistake`` and ``remark``."""
    return tomli.loads((files("notes_bot.grammar") / "mistakes.toml").read_text("utf-8"))


def day_text(day: date, language: Language) -> str:
    """A day as we write it: 11 Jun, with the year only when it would be missed (never here)."""
    return f"{day.day} {table(language).first['WRITTEN_MONTH', str(day.month)]}"


def place(text: str, start: int, end: int) -> Where:
    """Line and column, from 1, of a slice of the cleaned text."""
    starts = line_starts(text)
    line = bisect_right(starts, start)
    return Where(line, start - starts[line - 1] + 1, text[start:end])


@lru_cache(maxsize=4)
def line_starts(text: str) -> list[int]:
    """Where each line of a text begins."""
    return [0, *(n + 1 for n, char in enumerate(text) if char == "\n")]


def problem(kind: str, language: Language, where: Where, **values: object) -> Problem:
    """The complaint of a kind at a place, in the writer's language."""
    row = rows()["mistake"][kind]
    filled = {"text": where.text, **values}
    return Problem(
        where,
        row["wrong"][language].format(**filled),
        row["instead"][language].format(**filled),
        kind,
        bool(row.get("holds")),
    )


def remark(kind: str, language: Language, where: Where, **values: object) -> Problem:
    """What was read only after a correction, in the writer's language."""
    row = rows()["remark"][kind]
    return Problem(where, row["wrong"][language].format(**{"text": where.text, **values}), "", kind)
