"""Counts set out as a table, one plant, place or field a row, rewritten as the lines the note language reads.

A heading of at least two colors ("plant | W | Y | T", "Site  plants  W  Y") and rows of a label and as many numbers
below it. "P1  6  2  0" becomes "p1: 6 white 2 yellow 0 tan"; a column of plants makes the row a place. Columns may ask
for all that a form does ("Date,Field,Stage,Plants,Method,White"): a column of fields makes each row a note. What is no
such table stays as it is, to the letter.

A heading may name nothing but what is counted, or stand behind the field ("Kestrel R1   plants   females"), and a cell
may be blank: columns that stand apart are told by their place in the line.

A column of numbers below "per plant", or below as many plants, becomes a list in one line.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from notes_bot.language.layout.forms import cell_told, filled_in, own_kind, shade_of
from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import Entry, Table, table
from notes_bot.model import COLOURS, Language

MOST_ROWS = 60
"""Rows of a table; beyond these it is no tally of a stop (judgement)."""
MOST_HEADING = 5
"""Words of a line that heads a column of counts (judgement)."""
MOST_COLUMNS = 16
"""Columns of a table; beyond these it is no tally of a stop (judgement)."""
_BARRED, _APART = re.compile(r"\s*[|;\t]\s*"), re.compile(r"\s{2,}")
_CELLS = (_BARRED, re.compile(r"\s*,\s*"), re.compile(r"\s+/\s+"), _APART, re.compile(r"\s+"))
"""Ways of setting cells apart, the plainest first."""
_CELL = re.compile(r"\d{1,4}\+?|[-–—?]+")
"""A count, "20+", or a mark that may be none or not counted: which of them is asked."""
_RULE = re.compile(r"[-=+|: ]*[-=][-=+|: ]*")
"""A line drawn below a heading."""
_BROKEN = re.compile(r"[^\W\d_].*\d\s*$")


@dataclass(frozen=True, slots=True)
class _Heading:
    """What the columns hold: "label", "plants", "total", a color or what a form asks for; how cells are set apart."""

    columns: tuple[str, ...]
    cells: re.Pattern[str]
    lead: str = ""
    """What stands before the columns in the same line and is none: "Kestrel R1"."""
    places: tuple[tuple[int, int], ...] = ()
    """Where in the line the columns stand that are set apart by blanks; else none."""
    named: bool = True
    """Has the column of labels a heading of its own?"""
    of_plants: bool = False
    """Does that heading say "plants", more than one?"""

    def label(self) -> int:
        """Which column says what a row tells of."""
        return self.columns.index("field") if "field" in self.columns else self.columns.index("label")

    def counted(self, cells: list[str]) -> bool:
        """Does a row hold counts where the columns do, and a label?"""
        counts = [cell for cell, column in zip(cells, self.columns, strict=True) if column in _COUNTED]
        label = cells[self.label()]
        told = [cell for cell in counts if cell]
        whole = bool(told) and all(_CELL.fullmatch(cell) for cell in told)
        places = self.named or "plants" not in self.columns or label[:1].isalpha()
        return whole and (all(cell[0].isdigit() for cell in told) or _numbered([label])) and label != "" and places


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
        ruled = n + 1 < len(lines) and _RULE.fullmatch(lines[n + 1]) is not None
        tables = [(heading, _rows(lines[n + 1 + ruled :], heading, made)) for heading in _headings(lines[n], made)]
        heading, rows = max(tables, key=lambda table: len(table[1]), default=(None, []))
        if heading is None or not rows:
            out.append(lines[n])
            n += 1
            continue
        told = [row for row in rows if isinstance(row, str) or not _sums([row[heading.label()]], made)]
        numbered = (
            "plants" not in heading.columns
            and all(_numbered([row[heading.label()]]) for row in told if not isinstance(row, str))
            and "field" not in heading.columns
        )
        if numbered and heading.of_plants and _so_many_each([row for row in told if not isinstance(row, str)]):
            numbered = False
            told = [
                row if isinstance(row, str) else [f"{row[0]} {made.first['PLANTS', 'plants']}", *row[1:]]
                for row in told
            ]
        out += [heading.lead] if heading.lead else []
        out.extend(
            row if isinstance(row, str) else _line(row, k, heading, made, numbered) for k, row in enumerate(told, 1)
        )
        n += 1 + ruled + len(rows)
    return "\n".join(out)


def _so_many_each(rows: list[list[str]]) -> bool:
    """Below "plants": a lone row that is not the first plant's, or the same number again, tells how many they are."""
    labels = [row[0] for row in rows]
    return (len(labels) == 1 and labels[0] != "1") or len(set(labels)) < len(labels)


LONGEST_HEADING = 160
"""Characters of the longest heading (judgement)."""
LEAST_COLOURS = 2
"""Colors that make a line a heading, where it names no column of plants and one of fields (judgement)."""
LEAST_CELLS = 2
"""Cells of the shortest heading: a label and what is counted."""
_COUNTED = frozenset((*COLOURS, "plants", "total"))
LEAST_COLUMN = 3
"""Counts, one a line below a heading, from which they are one a plant (judgement)."""


def _column_of_counts(lines: list[str], made: Table) -> list[str]:
    """ "per pl" above lines of one number each: the numbers as a list behind it."""
    lone = [re.fullmatch(r"\s*(\d{1,3})\s*[.,;]?\s*", line) for line in lines]
    ends = list(range(1, len(lines) + 1))
    """Where the lines of one number each end that stand below a line."""
    for n in range(len(lines) - 2, -1, -1):
        if lone[n + 1]:
            ends[n] = ends[n + 1]
    out: list[str] = []
    n = 0
    while n < len(lines):
        end = ends[n]
        if end - n - 1 < LEAST_COLUMN or not _heads_counts(lines[n], end - n - 1, made):
            out.append(lines[n])
            n += 1
            continue
        counts = [match[1] for match in lone[n + 1 : end] if match]
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


def _headings(line: str, made: Table) -> Iterator[_Heading]:
    """The line as a heading, for every way in which its cells may be set apart."""
    for cells in _CELLS if len(line) <= LONGEST_HEADING else ():
        called = _split(line, cells)
        if len(called) < LEAST_CELLS or _column(called[-1], len(called) - 1, made) is None:
            continue  # most lines: what stands last calls no column
        columns = _columns(called, made)
        bare = [_column(cell, 1, made) or "" for cell in called]
        if "plants" in bare and 1 < len(set(bare)) == len(bare) and _COUNTED.issuperset(bare):
            yield _Heading(("label", *bare), cells, "", _places(line, called, cells), named=False)
        told = [column for column in columns if column not in ("label", "field", "aside", "person", "remark")]
        counts = [column for column in columns if column in (*COLOURS, "total")]
        if not 0 < len(columns) <= MOST_COLUMNS:
            yield from _led_headings(line, called, cells, made)
            continue
        if len(set(told)) < len(told):
            continue
        if len(counts) < (1 if "plants" in columns and {"label", "field"} & set(columns) else LEAST_COLOURS):
            continue
        several = columns[0] == "plants" and fold(called[0]).strip(" .:#").endswith("s")
        if not {"label", "field"} & set(columns):
            columns.insert(0, "label") if columns[0] in COLOURS else columns.__setitem__(0, "label")
        yield _Heading(tuple(columns), cells, "", _places(line, called, cells), of_plants=several)


def _led_headings(line: str, called: list[str], cells: re.Pattern[str], made: Table) -> Iterator[_Heading]:
    """ "Kestrel R1   plants   females", "Site   females": cells that call no column before others that all do."""
    n = len(called)
    while n and _column(called[n - 1], 1, made) in _COUNTED:
        n -= 1
    columns = [_column(cell, 1, made) or "" for cell in called[n:]]
    counts = [column for column in columns if column in (*COLOURS, "total")]
    counting = cells is _CELLS[-1] and called[n - 1][-1:].isdigit()  # "6 plants white yellow"
    if not 0 < n < len(called) - 1 or not counts or len(set(columns)) < len(columns) or counting:
        return
    lead = called[: n - made.has("table_label", fold(called[n - 1]).strip(" .:#"))]
    places = _places(line, called, cells)[n:]
    yield _Heading(("label", *columns), cells, " ".join(lead).rstrip(" :,"), places, named=False)


def _places(line: str, called: list[str], cells: re.Pattern[str]) -> tuple[tuple[int, int], ...]:
    """Where the columns stand that at least two blanks set apart; none for others."""
    if cells is not _APART:
        return ()
    places, at = [], 0
    for cell in called:
        at = line.index(cell, at)
        places.append((at, at + len(cell)))
        at += len(cell)
    return tuple(places)


def _columns(cells: list[str], made: Table) -> list[str]:
    """What the columns are called; none where a cell calls none."""
    columns: list[str] = []
    for n, cell in enumerate(cells):
        column = _column(cell, n, made)
        if column is None:
            return []
        columns.append(column)
    return columns


def _column(cell: str, n: int, made: Table) -> str | None:
    """What a column is called."""
    word = fold(cell).strip(" .:#")
    if shade := shade_of(word, made):
        return shade  # "W", "White females"
    kinds = [{entry.type for entry in made.singles.get(part, ())} for part in word.split()]
    if word == "" or (n == 0 and made.has("table_label", word)):
        return "label"
    if any(entry.type == "PLANTS" for entry in made.singles.get(word, ())) or own_kind(word, made) == "plants":
        return "plants"
    if any("TOTAL" in kind for kind in kinds) or own_kind(word, made) == "females" or kinds == [{"FEMALES"}]:
        return "total"
    if made.has("table_label", word):
        return "label"
    return own_kind(word, made) or None


def _rows(lines: list[str], heading: _Heading, made: Table) -> list[list[str] | str]:
    """The rows below a heading as cells; a line that is none but has a row below it stays text, and is asked about."""
    rows: list[list[str] | str] = []
    end = 0
    for line in lines[:MOST_ROWS]:
        cells = _cells_of(line, heading)
        if len(cells) == len(heading.columns) and heading.counted(cells) and not _plant_apart(cells, heading, made):
            rows.append(cells)
            end = len(rows)
        elif _BROKEN.search(line):
            rows.append(line)  # "pond   3" below three columns
        else:
            break
    labels = [row[0] for row in rows[:end] if not isinstance(row, str)]
    again = not heading.named and len(set(labels)) < len(labels)  # "row 1  6  2" below "plant  W  Y"
    return rows[:end] if not again else []


def _cells_of(line: str, heading: _Heading) -> list[str]:
    """The cells of a row; what is blank in one is told by the bars of the line, or by the place of the others."""
    cells = _split(line, heading.cells)
    spare = len(cells) - len(heading.columns)
    if spare > 0 and heading.columns[0] in ("label", "field"):
        return [" ".join(cells[: spare + 1]), *cells[spare + 1 :]]  # "road side  5  22  13"
    if spare < 0 and heading.cells is _BARRED and len(cells) > 1 and _BARRED.search(line) is not None:
        return [*cells, *[""] * -spare] if line.count("\t") + line.count("|") >= len(heading.columns) - 1 else cells
    return _below_columns(line, cells, heading) if spare < 0 and len(cells) > 1 and heading.places else cells


def _below_columns(line: str, cells: list[str], heading: _Heading) -> list[str]:
    """ "p2       4" below "plant   W   Y": each cell below what it touches; the same cells where any touches none.

    A heading above the labels themselves does not stand above its columns.
    """
    places = heading.places[-(len(heading.columns) - 1) :]
    row = [cells[0], *[""] * len(places)]
    at = line.index(cells[0]) + len(cells[0])
    if at > places[0][0]:
        return cells
    for cell in cells[1:]:
        start = line.index(cell, at)
        at = start + len(cell)
        under = [n for n, (first, end) in enumerate(places, 1) if start < end and first < at]
        if len(under) != 1 or row[under[0]]:
            return cells
        row[under[0]] = cell
    return row


def _plant_apart(cells: list[str], heading: _Heading, made: Table) -> bool:
    """Is the label only the word of "plant 1" and its number taken for a count?"""
    return not heading.named and any(e.type == "PLANTS" for e in made.singles.get(fold(cells[0]).strip(" .:#"), ()))


def _numbered(row: list[str]) -> bool:
    """Is the row a plant: "1", "P1", "plant 1"?"""
    return re.fullmatch(r"(?:[^\W\d_]+\s?)?\d+", row[0]) is not None


def _sums(row: list[str], made: Table) -> bool:
    """A last row that adds the others up says nothing more."""
    return any(entry.type == "TOTAL" for entry in made.singles.get(fold(row[0]).strip(" :."), ()))


def _line(row: list[str], number: int, heading: _Heading, made: Table, numbered: bool) -> str:
    label = f"p{number}" if numbered else row[heading.label()]
    if heading.columns[heading.label()] == "field":
        label = f"{made.write('field')} {label}"
    counts: list[str] = []
    told: list[str] = []
    colours = any(column in COLOURS for column in heading.columns)
    found = any(cell for cell, column in zip(row, heading.columns, strict=True) if column in (*COLOURS, "total"))
    for n, (column, cell) in enumerate(zip(heading.columns, row, strict=True)):
        count = cell if cell[:1].isdigit() else "???"
        blank = cell == "" and column in _COUNTED and (found or column == "plants")
        if n == heading.label() or blank:
            continue
        if column == "plants":
            counts.insert(0, f"{count} {made.first['PLANTS', 'plants']}")
        elif column in COLOURS:
            counts.append(f"{count} {made.first['COLOUR', column]}")
        elif column == "total":
            counts += [] if colours else [f"{count} {made.first['FEMALES', 'female']}"]
        elif column != "label":
            told.append(cell_told(cell, column, made))
    return f"{label}: {', '.join(part for part in (*told, ' '.join(counts)) if part)}"
