"""How long reading takes, beside a bare lark LALR parse of the same text and beside starting Python with lark.

    python -m tests.benchmarks.reading_speed

Times of a shared machine mean little; the ratios are taken in one run, alternating, and the medians are printed.
A cold start is measured twice: as installed, with Python's compiled modules kept (in a folder of this run), and in
this shell's own environment, which may tell Python to write none and so to compile ours at every start.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import date

from lark import Lark

from notes_bot.language import read_note

NOTE = "Kestrel 6/11 V4 moist shovel+bucket 6 pl: 17 wht. recheck 10 d"
"""62 characters, as scouts write."""
PAGE = "\n".join(f"field {n} 7/{n} R2 moist shovel, 10 plants: 4w 12y 3t 1b, roots dark" for n in range(1, 29))
"""A whole round in one mail: 28 fields."""
FIELDS = ("Kestrel", "Old Mill East", "Cedar Slough", "Harrow Ridge 3", "Tinker's", "Pothole Flat")
BARE = Lark(
    r"""
    start: (WORD | NUMBER | SIGN)*
    WORD: /[^\W\d_]+/
    NUMBER: /\d+/
    SIGN: /[^\w\s]/
    %ignore /\s+/
    """,
    parser="lalr",
)
"""The least a parser of the grammar's own library can do: cut the text and accept it."""
SENT = date(2026, 6, 11)


def main() -> int:
    """Print milliseconds and ratios."""
    for name, text, repeats in (("one note", NOTE, 300), ("28 fields", PAGE, 12)):
        ours, bare = _alternate(lambda text=text: read_note(text, sent=SENT, fields=FIELDS), text, repeats)
        print(f"{name} ({len(text)} characters): {ours:.2f} ms, {ours / bare:.1f} times a bare parse ({bare:.3f} ms)")
    read = [sys.executable, "-m", "notes_bot", "read", NOTE]
    lark = [sys.executable, "-c", "import lark; lark.Lark('start: /a/', parser='lalr').parse('a')"]
    with tempfile.TemporaryDirectory() as folder:
        kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
        kept["PYTHONPYCACHEPREFIX"] = folder
        for name, environment in (("as installed", kept), ("as set here", dict(os.environ))):
            ours, bare = _started(read, lark, environment)
            print(f"cold start {name}: {ours:.2f} s, {ours / bare:.1f} times Python with lark ({bare:.2f} s)")
    return 0


def _alternate(work: Callable[[], object], text: str, repeats: int) -> tuple[float, float]:
    """Medians in milliseconds of our reading and of the bare parse, taken in turns."""
    work()
    ours, bare = [], []
    for _ in range(repeats):
        ours.append(_clocked(work))
        bare.append(_clocked(lambda: BARE.parse(text)))
    return statistics.median(ours), statistics.median(bare)


def _started(ours: list[str], bare: list[str], environment: dict[str, str]) -> tuple[float, float]:
    """Median seconds of two commands run in turns, after one run of each that does not count."""
    times = [(_run(ours, environment), _run(bare, environment)) for _ in range(8)][1:]
    first, second = (statistics.median(column) for column in zip(*times, strict=True))
    return first, second


def _clocked(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1000


def _run(command: list[str], environment: dict[str, str]) -> float:
    start = time.perf_counter()
    subprocess.run(command, check=True, capture_output=True, env=environment)
    return time.perf_counter() - start


if __name__ == "__main__":
    sys.exit(main())
