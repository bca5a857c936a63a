"""Counts set out as a table, one plant or place a row, rewritten as the lines the note language reads.

A heading of at least two colors ("plant | W | Y | T", "Site  plants  W  Y") and rows of a label and as many numbers
below it. "P1  6  2  0" becomes "p1: 6 white 2 yellow 0 tan"; a column of plants makes the row a place. What is no such
table stays as it is, to the letter.

A column of numbers below "per plant", or below as many plants, becomes a list in one line.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from notes_bot.language.forms import filled_in
from notes_bot.language.scan import fold
from notes_bot.language.words import Entry, Table, table
from notes_bot.model import Language

MOST_ROWS = 60
"""Rows of a table; beyond these it is no tally of a stop (judgement)."""
MOST_HEADING = 5
"""Words of a line that heads a column of counts (judgement)."""
MOST_COLUMNS = 8
"""Columns of a table; beyond these it is no tally of a stop (judgement)."""
_CELLS = (re.compile(r"\s*[|;\t]\s*"), re.compile(r"\s*,\s*"), re.compile(r"\s+/\s+"), re.compile(r"\s+"))
"""Ways of setting cells apart, the plainest first."""
_CELL = re.compile(r"\d{1,4}\+?|[-–—?]+")
"""A count, "20+", or a mark that may be none or not counted: which of them is asked."""
_BROKEN = re.compile(r"[^\W\d_].*\d\s*$")


@dataclass(frozen=True, slots=True)
class _Heading:
    """What the columns hold: "label", "plants", "total" or a color each, and how cells are set apart."""

    columns: tuple[str, ...]
    cells: re.Pattern[str]


def rewritten(text: str, language: Language) -> str:
    """The text with every table of counts in it, and what is filled in as a form, as lines the reader knows."""
    text = filled_in(text, language)
    if "\n" not in text:
        return text
    made = table(language)
    lines = _column_of_counts(text.split("\n"), made)
    out: list[str] = []
    n = 0
    while n < len(lines):
        heading = _heading(lines[n], made)
        rows = _rows(lines[n + 1 :], heading) if heading is not None else []
        if heading is None or not rows:
            out.append(lines[n])
            n += 1
            continue
        told = [row for row in rows if isinstance(row, str) or not _sums(row, made)]
        numbered = "plants" not in heading.columns and all(_numbered(row) for row in told if not isinstance(row, str))
        out.extend(
            row if isinstance(row, str) else _line(row, k, heading, made, numbered) for k, row in enumerate(told, 1)
        )
        n += 1 + len(rows)
    return "\n".join(out)


LEAST_COLUMN = 3
"""Counts, one a line below a heading, from which they are one a plant (judgement)."""


def _column_of_counts(lines: list[str], made: Table) -> list[str]:
    """ "per pl" above lines of one number each: the numbers as a list behind it."""
    out: list[str] = []
    n = 0
    while n < len(lines):
        end = n + 1
        while end < len(lines) and re.fullmatch(r"\s*\d{1,3}\s*[.,;]?\s*", lines[end]):
            end += 1
        counts = [re.sub(r"\D", "", line) for line in lines[n + 1 : end]]
        if len(counts) < LEAST_COLUMN or not _heads_counts(lines[n], len(counts), made):
            out.append(lines[n])
            n += 1
            continue
        out.append(f"{lines[n].rstrip(' :.,;-')}: {', '.join(counts)}")
        n = end
    return out


def _heads_counts(line: str, size: int, made: Table) -> bool:
    """ "per pl", "cysts per plant:", "each", "4 pl": what each plant had is told below, or as many as plants dug."""
    words = [word for word in re.split(r"[\s:.,;-]+", fold(line)) if word]
    if not words or len(words) > MOST_HEADING:
        return False
    kinds = [{e.type for entries in _entries(words, n, made) for e in entries} for n in range(len(words))]
    if any("EACH" in kind for kind in kinds):
        return not any(word.isdigit() for word in words)
    plants = any(kind & {"PLANTS", "DUG"} for kind in kinds)
    return plants and [int(word) for word in words if word.isdigit()] == [size]


def _entries(words: list[str], n: int, made: Table) -> list[tuple[Entry, ...]]:
    """What the word at n, and the longest phrase that begins there, may mean."""
    longest = made.longest(words, n)
    return [made.singles.get(words[n], ()), *([longest[1]] if longest is not None else [])]


def _split(line: str, cells: re.Pattern[str]) -> list[str]:
    return [cell.strip() for cell in cells.split(line.strip().strip("|").strip())]


def _heading(line: str, made: Table) -> _Heading | None:
    if len(line) > 120:
        return None
    for cells in _CELLS:
        columns = [_column(cell, made) for cell in _split(line, cells)]
        colours = [column for column in columns if column in ("white", "yellow", "tan", "brown")]
        if len(columns) <= MOST_COLUMNS and None not in columns and len(set(colours)) == len(colours) > 1:
            if columns[0] in ("white", "yellow", "tan", "brown"):
                columns.insert(0, "label")
            if columns[0] == "plants":
                columns[0] = "label"
            return _Heading(tuple(str(column) for column in columns), cells)
    return None


def _column(cell: str, made: Table) -> str | None:
    """What a column is called."""
    word = fold(cell).strip(" .:#")
    entries = made.singles.get(word, ())
    colour = next((entry.value for entry in entries if entry.type == "COLOUR"), None)
    if colour is not None:
        return colour
    if made.has("table_label", word) or word == "":
        return "label"
    if any(entry.type == "PLANTS" for entry in entries):
        return "plants"
    return "total" if any(entry.type == "TOTAL" for entry in entries) else None


def _rows(lines: list[str], heading: _Heading) -> list[list[str] | str]:
    """The rows below a heading as cells; a line that is none but has a row below it stays text, and is asked about."""
    rows: list[list[str] | str] = []
    end = 0
    for line in lines[:MOST_ROWS]:
        cells = _split(line, heading.cells)
        if len(cells) > len(heading.columns):
            spare = len(cells) - len(heading.columns)
            cells = [" ".join(cells[: spare + 1]), *cells[spare + 1 :]]  # "road side  5  22  13"
        counted = len(cells) == len(heading.columns) and all(_CELL.fullmatch(cell) for cell in cells[1:])
        if counted and (all(cell[0].isdigit() for cell in cells[1:]) or _numbered(cells)):
            rows.append(cells)
            end = len(rows)
        elif _BROKEN.search(line):
            rows.append(line)  # "pond   3" below three columns
        else:
            break
    return rows[:end]


def _numbered(row: list[str]) -> bool:
    """Is the row a plant: "1", "P1", "plant 1"?"""
    return re.fullmatch(r"(?:[^\W\d_]+\s?)?\d+", row[0]) is not None


def _sums(row: list[str], made: Table) -> bool:
    """A last row that adds the others up says nothing more."""
    return any(entry.type == "TOTAL" for entry in made.singles.get(fold(row[0]).strip(" :."), ()))


def _line(row: list[str], number: int, heading: _Heading, made: Table, numbered: bool) -> str:
    label = f"p{number}" if numbered else row[0]
    counts: list[str] = []
    for column, cell in zip(heading.columns[1:], row[1:], strict=True):
        if column == "plants":
            counts.insert(0, f"{cell} {made.first['PLANTS', 'plants']}")
        elif column != "total":
            counts.append(f"{cell if cell[0].isdigit() else '???'} {made.first['COLOUR', column]}")
    return f"{label}: {' '.join(counts)}"
