"""A laboratory's table to egg counts: rows under a heading, or one field a sheet with a label before each value.

The laboratory's language need not be the writer's: all three are tried. A row without a number where the eggs stand
is left out; a field's name is taken as written and looked up by whoever keeps it.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from notes_bot.language.lexicon.scan import fold
from notes_bot.language.requests.winter import find
from notes_bot.model import LANGUAGES, Command, Language, Where

MOST_RESULTS = 40
"""Results read from one message (judgement)."""

_NUMBER = re.compile(r"(?<![\w.,])\d{1,3}(?:[.,]\d{3})+(?![\w])|(?<![\w.,])\d+(?:[.,]\d+)?(?![\w])")
_ISO = re.compile(r"\b(\d{4})-(\d{1,2})-(\d{1,2})\b")
_SLASHED = re.compile(r"\b(\d{1,2})[/.](\d{1,2})[/.](\d{4}|\d{2})\b")


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell of a row and where it stands on the line."""

    start: int
    end: int
    text: str


def lab_results(lines: Sequence[str], *, day_first: bool = False) -> tuple[Command, ...]:
    """The egg counts of a paper, as ``lab`` commands; none when it holds no table of them."""
    best: tuple[Command, ...] = ()
    for language in LANGUAGES:
        found = tuple((_table(lines, language, day_first) or _labelled(lines, language, day_first))[:MOST_RESULTS])
        if len(found) > len(best):
            best = found
    return best


def _cells(line: str) -> list[Cell]:
    """Cells by the sign that parts them: tab, bar, semicolon, comma of a CSV, else two spaces and more."""
    for sign in ("\t", "|", ";"):
        if sign in line:
            return _split(line, re.compile(re.escape(sign)))
    if line.count(",") >= 1 and not re.search(r"\S\s{2,}\S", line):
        try:
            row = next(csv.reader([line]))
        except csv.Error:
            return []
        return [Cell(n, n, text.strip()) for n, text in enumerate(row)]  # a CSV has no columns but its order
    return _split(line, re.compile(r"\s{2,}"))


def _split(line: str, sign: re.Pattern[str]) -> list[Cell]:
    cells, start = [], 0
    for match in [*sign.finditer(line), None]:
        end = match.start() if match else len(line)
        text = line[start:end]
        if text.strip():
            lead = len(text) - len(text.lstrip())
            cells.append(Cell(start + lead, start + len(text.rstrip()), text.strip()))
        start = match.end() if match else end
    return cells


def unit_in(language: Language, text: str) -> str | None:
    """A unit such as "eggs per 100 cc" or "huevos/250 cm3" in a text, as it is kept; ``None`` without one."""
    folded = fold(text)
    counted = next(find(language, "EGGS", folded), None)
    for volume in find(language, "VOLUME", folded):
        number = re.search(r"(?<![\d.])(\d+(?:\.\d+)?)\.?\s*$", folded[: volume.start])
        if volume.value in ("cc", "g") and number is None:
            continue
        if number is not None and float(number.group(1)) <= 0:
            continue
        size = f"{float(number.group(1)):g} " if number else ""
        what = counted.value if counted is not None else "eggs"
        return f"{what} per {size}{volume.value}"
    return None


def _table(lines: Sequence[str], language: Language, day_first: bool) -> list[Command]:
    for n, line in enumerate(lines):
        heads = _cells(line)
        eggs = next((c for c in heads if next(find(language, "EGGS", fold(c.text)), None)), None)
        if eggs is None or len(heads) < 2 or any(_NUMBER.fullmatch(c.text) for c in heads):
            continue
        unit = unit_in(language, eggs.text) or next((u for other in lines if (u := unit_in(language, other))), None)
        if unit is None:
            continue
        rows = [
            _row(row, number, heads, eggs, unit, language, day_first)
            for number, row in enumerate(lines[n + 1 :], n + 2)
        ]
        found = [row for row in rows if row is not None]
        if found:
            return found
    return []


def _row(
    line: str, number: int, heads: Sequence[Cell], eggs: Cell, unit: str, language: Language, day_first: bool
) -> Command | None:
    cells = _cells(line)
    if len(cells) < 2:
        return None
    by_head: dict[str, Cell] = {}
    for cell in cells:
        head = min(heads, key=lambda h: abs((h.start + h.end) - (cell.start + cell.end)))
        by_head.setdefault(head.text, cell)
    counted = by_head.get(eggs.text)
    value = _count(counted.text, language) if counted is not None else None
    named = next((h for h in heads if next(find(language, "FIELD_COLUMN", fold(h.text)), None)), heads[0])
    name = by_head.get(named.text)
    if value is None or name is None or name is counted or not re.search(r"[^\W\d]", name.text):
        return None
    cores = next((h for h in heads if next(find(language, "CORES", fold(h.text)), None)), None)
    told = _count(by_head[cores.text].text, language) if cores is not None and cores.text in by_head else None
    return _command(line, number, name.text, value, unit, _day(line, day_first), int(told) if told else None)


def _labelled(lines: Sequence[str], language: Language, day_first: bool) -> list[Command]:
    """One field a sheet: "Field: Kestrel Bottom", "Eggs per 100 cc: 2400"."""
    found: list[Command] = []
    name, day = None, None
    for number, line in enumerate(lines, 1):
        label, colon, value = line.partition(":")
        if not colon:
            continue
        if next(find(language, "FIELD_COLUMN", fold(label)), None) and re.search(r"[^\W\d]", value):
            name, day = value.strip(), None
        day = _day(value, day_first) or day
        unit = unit_in(language, line)
        counted = next(find(language, "EGGS", fold(line)), None)
        if name is None or unit is None or counted is None:
            continue
        # "350 per 100 cc", "350 por 100 cc": the volume behind is no part of the count.
        count = _count(re.sub(r"(?i)\bper\b.*|\bpor\b.*", "", value), language)
        if count is not None:
            found.append(_command(line, number, name, count, unit, day, None))
    return found


def _command(line: str, number: int, name: str, value: float, unit: str, on: date | None, cores: int | None) -> Command:
    args: dict[str, Any] = {"field": " ".join(name.lower().split()), "value": value, "unit": unit}
    args |= {key: told for key, told in (("date", on), ("cores", cores)) if told is not None}
    return Command("lab", args, Where(number, 1, line.strip()))


def _count(text: str, language: Language) -> float | None:
    """The number of a cell; "none detected" is 0; a cell with letters is no count."""
    folded = fold(text).strip()
    if next((f for f in find(language, "NONE_FOUND", folded) if f.start == 0 and f.end == len(folded)), None):
        return 0.0
    match = _NUMBER.fullmatch(folded)
    if match is None:
        return None
    digits = match.group()
    if re.fullmatch(r"\d{1,3}(?:,\d{3})+|\d{1,3}(?:\.\d{3})+", digits):
        return float(re.sub(r"[.,]", "", digits))
    return float(digits.replace(",", "."))


def _day(text: str, day_first: bool) -> date | None:
    for pattern in (_ISO, _SLASHED):
        match = pattern.search(text)
        if match is None:
            continue
        one, two, three = (int(part) for part in match.groups())
        year, month, day = (
            (one, two, three) if pattern is _ISO else (three, two, one) if day_first else (three, one, two)
        )
        try:
            return date(year + 2000 if year < 100 else year, month, day)
        except ValueError:
            return None
    return None
