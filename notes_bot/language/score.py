"""How well messages are understood, datum by datum: ``python -m notes_bot.language.score tests/corpus``.

A corpus is JSON Lines: ``text``, ``sent``, the writer's ``language``, perhaps ``fields`` and ``day_first``, and the
``reading`` a person expects, in the keys of the note contract (what is left out is null or empty). ``asks`` says that
the message must be asked about.

Every expected datum counts once: *understood* when it was read so, *asked about* when it was not but the answer asks
about that message, *silently wrong* otherwise; a datum read that nobody said counts as silently wrong too, unless a
question or a remark speaks of it, or it is one the contract does not have. Of a message that must be asked about only
the data expected are scored.
"""

from __future__ import annotations

import json
import re
import sys
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any

from notes_bot.language.reader import read_note
from notes_bot.model import COLOURS, Command, Females, Note, Reading

Flat = dict[str, Any]
_BEYOND_CONTRACT = re.compile(r"\.spots \d+\.mostly$|\bcommand \d+\.unit$|^note \d+\.too_many$")
"""Keys of ours the contract does not have: told where nobody expects them, they are not wrong."""
UNSCORED = frozenset({"text"})
"""Free text is what is left; there is no one right way to keep it."""


@dataclass(slots=True)
class Score:
    """Counts over a corpus, and what went wrong."""

    messages: int = 0
    understood: int = 0
    asked: int = 0
    wrong: int = 0
    by_key: Counter[str] = field(default_factory=Counter)
    """Silently wrong data by key."""
    failures: list[str] = field(default_factory=list)

    @property
    def data(self) -> int:
        """All data scored."""
        return self.understood + self.asked + self.wrong

    def share(self, count: int) -> float:
        """Percent of all data."""
        return 100.0 * count / self.data if self.data else 0.0


def score(rows: Iterable[Mapping[str, Any]]) -> Score:
    """Score every message of a corpus."""
    total = Score()
    for row in rows:
        _score_one(row, read_row(row), total)
    return total


def read_row(row: Mapping[str, Any]) -> Reading:
    """Read the message of one line of a corpus."""
    return read_note(
        row["text"],
        sent=date.fromisoformat(row["sent"]),
        fields=row.get("fields", ()),
        language=row.get("language"),
        day_first=row.get("day_first"),
    )


def alone(row: Mapping[str, Any]) -> dict[str, Any]:
    """The row without what a crew's settings tell: names of fields, the writer's language, the order of days."""
    return {key: value for key, value in row.items() if key not in ("fields", "language", "day_first")}


def score_reading(row: Mapping[str, Any], reading: Reading) -> Score:
    """How well one reading of the message of a row is what is expected."""
    total = Score()
    _score_one(row, reading, total)
    return total


def _score_one(row: Mapping[str, Any], reading: Reading, total: Score) -> None:
    expected, found = _expected(row["reading"]), told_by(reading)
    total.messages += 1
    asking = bool(reading.problems)
    if row["reading"].get("asks"):
        total.understood += asking
        total.wrong += not asking
        if not asking:
            _fail(total, row, "asks", "a question", "none")
    elif asking:
        total.asked += 1
        _fail(total, row, "asks", "no question", reading.problems[0].kind)
    dated = any(remark.kind in ("which_day", "flipped_day", "dashed_day") for remark in reading.remarks)
    doubtful = bool(row["reading"].get("asks"))
    for key in sorted(expected.keys() if doubtful else expected.keys() | found.keys()):
        wanted, got = expected.get(key), found.get(key)
        if wanted is None and " " in key and _BEYOND_CONTRACT.search(key):
            continue
        if wanted == got:
            total.understood += 1
        elif asking or (dated and key.endswith(("date", "planted"))):
            total.asked += 1
            _fail(total, row, key, wanted, got)
        else:
            total.wrong += 1
            total.by_key[key.split(".")[-1]] += 1
            _fail(total, row, key, wanted, got)


def _fail(total: Score, row: Mapping[str, Any], key: str, wanted: object, got: object) -> None:
    total.failures.append(f"{row.get('id', '')}  {row['text']!r}\n    {key}: expected {wanted!r}, read {got!r}")


# --- one flat table of data for what is expected and what was read


def _expected(reading: Mapping[str, Any]) -> Flat:
    flat: Flat = {}
    for n, note in enumerate(reading.get("notes", ())):
        _flatten(flat, f"note {n}", note)
    for n, command in enumerate(reading.get("commands", ())):
        _flatten(flat, f"command {n}", command)
    return flat


def _flatten(flat: Flat, name: str, value: Any) -> None:
    if isinstance(value, Mapping):
        for key, inner in value.items():
            if key not in UNSCORED:
                _flatten(flat, f"{name}.{key}", inner)
    elif isinstance(value, list) and value and isinstance(value[0], Mapping):
        for n, inner in enumerate(value):
            _flatten(flat, f"{name} {n}", inner)
    elif value is not None and value != [] and value is not False:
        flat[name] = sorted(value) if isinstance(value, list) and name.endswith(("roots", "tops", "mostly")) else value
    elif value is False and name.endswith("soaked"):
        flat[name] = False


def told_by(reading: Reading) -> Flat:
    """All data of a reading, each by its place and key; free text is none."""
    flat: Flat = {}
    for n, note in enumerate(reading.notes):
        _flatten(flat, f"note {n}", note_data(note))
    for n, command in enumerate(reading.commands):
        _flatten(flat, f"command {n}", command_data(command))
    return flat


def note_data(note: Note) -> dict[str, Any]:
    """A note in the keys of the contract."""
    return {
        "field": note.field,
        "date": _day(note.date),
        "plants": note.plants,
        "method": note.method,
        "soaked": note.soaked,
        "females": _females(note.females),
        "mostly": list(note.mostly),
        "per_plant": list(note.per_plant or ()),
        "spots": [
            {
                "name": spot.name,
                "plants": spot.plants,
                "females": _females(spot.females),
                "per_plant": list(spot.per_plant or ()),
                "check": spot.check,
                "mostly": list(spot.mostly),
            }
            for spot in note.spots
        ],
        "outcome": note.outcome,
        "soil": {
            "moisture": note.soil.moisture,
            "texture": note.soil.texture,
            "ph": note.soil.ph,
            "k_ppm": note.soil.k_ppm,
        },
        "stage": note.stage,
        "roots": list(note.roots),
        "tops": list(note.tops),
        "variety": note.variety
        and {"name": note.variety.name, "resistance": note.variety.resistance, "source": note.variety.source},
        "spray": note.spray
        and {
            "what": note.spray.what,
            "date": _day(note.spray.date),
            "days_ago": note.spray.days_ago,
            "entry_hours": note.spray.entry_hours,
        },
        "look_again": note.look_again and {"days": note.look_again.days, "date": _day(note.look_again.date)},
        "planted": _day(note.planted),
        "too_many": note.too_many,
    }


def command_data(command: Command) -> dict[str, Any]:
    """A command in the keys of the contract."""
    args = {key: value.isoformat() if isinstance(value, date) else value for key, value in command.args.items()}
    return {"kind": command.kind, **{key: list(v) if isinstance(v, tuple) else v for key, v in args.items()}}


def _females(females: Females) -> dict[str, int | None]:
    return {key: getattr(females, key) for key in (*COLOURS, "total")}


def _day(day: date | None) -> str | None:
    return None if day is None else day.isoformat()


# --- the command


def corpus(path: Path) -> list[dict[str, Any]]:
    """The rows of a JSON Lines file that expect a whole reading."""
    rows = [json.loads(line) for line in path.read_text("utf-8").splitlines() if line.strip()]
    return [row for row in rows if "reading" in row]


FIGURES = "<!-- figures -->"
"""Stands before and behind the table in docs/language.md that ``--write`` renews."""


def table_row(path: Path) -> str:
    """The figures of a file as a row of a Markdown table."""
    rows = corpus(path)
    found, bare = score(rows), score(map(alone, rows))
    shares = " | ".join(
        f"{one.share(n):.2f} %" for one in (found, bare) for n in (one.understood, one.asked, one.wrong)
    )
    return f"| `{path.name}` | {found.messages} | {found.data:,} | {shares} |"


def write(document: Path, files: list[Path]) -> None:
    """Renew the table of figures between the two marks of a document."""
    before, _, rest = document.read_text("utf-8").partition(FIGURES)
    _, marked, behind = rest.partition(FIGURES)
    if not marked:
        raise ValueError(f"{document} does not hold {FIGURES} twice")
    shares = "understood | asked about | silently wrong"
    head = f"| corpus | messages | data | {shares} | alone: {shares} |"
    rows = "\n".join([head, "| --- " * 9 + "|", *(table_row(file) for file in files)])
    document.write_text(f"{before}{FIGURES}\n\n{rows}\n\n{FIGURES}{behind}", "utf-8")


def report(path: Path, failures: bool, bare: bool) -> str:
    """One line of figures a file; with failures, what went wrong behind it."""
    found = score(map(alone, corpus(path)) if bare else corpus(path))
    figures = (
        f"{path.name}: {found.messages} messages, {found.data} data: "
        f"{found.share(found.understood):.2f} % understood, {found.share(found.asked):.2f} % asked about, "
        f"{found.share(found.wrong):.2f} % silently wrong"
    )
    return "\n".join([figures, *(found.failures if failures else ())])


def main(arguments: list[str]) -> int:
    """Print the figures of each file of a folder (or of one file).

    ``--alone`` gives the reader the text and the day alone, no names of fields and no language; ``--failures`` lists
    what went wrong; ``--write=docs/language.md`` renews the table of figures there.
    """
    failures = "--failures" in arguments
    paths = [Path(argument) for argument in arguments if not argument.startswith("--")] or [Path("tests/corpus")]
    files = [file for path in paths for file in (sorted(path.glob("*.jsonl")) if path.is_dir() else [path])]
    files = [file for file in files if corpus(file)]
    for file in files:
        sys.stdout.write(report(file, failures, "--alone" in arguments) + "\n")
    for argument in arguments:
        if argument.startswith("--write="):
            write(Path(argument.removeprefix("--write=")), files)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
