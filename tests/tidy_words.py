"""Set the lists of ``grammar/words`` a screen wide: ``python tests/tidy_words.py``. Nothing but line breaks changes."""

from __future__ import annotations

import re
from pathlib import Path

WIDTH = 120
WORDS = Path(__file__).parents[1] / "grammar" / "words"
_LIST = re.compile(r'^(\S+|"[^"]*") = \[(.*)\]$')
_ITEM = re.compile(r'"(?:[^"\\]|\\.)*"')


def crowded(line: str) -> bool:
    """Do several words stand on a line that is too wide? A long phrase may have one of its own."""
    return len(line) > WIDTH and len(_ITEM.findall(line)) > 1


def tidied(text: str) -> str:
    """The text of a word file, lists on one crowded line broken into several, crowded lines of a list likewise."""
    out: list[str] = []
    for line in text.split("\n"):
        found = _LIST.match(line) if crowded(line) else None
        if found is not None:
            out += [f"{found[1]} = [", *_rows(found[2]), "]"]
        elif crowded(line) and line.startswith("    "):
            out += _rows(line)
        else:
            out.append(line)
    return "\n".join(out)


def _rows(items: str) -> list[str]:
    rows = ["   "]
    for item in _ITEM.findall(items):
        if len(rows[-1]) + len(item) + 2 > WIDTH and rows[-1].strip():
            rows.append("   ")
        rows[-1] += f" {item},"
    return rows


if __name__ == "__main__":
    for file in sorted(WORDS.glob("*.toml")):
        file.write_text(tidied(file.read_text("utf-8")), "utf-8")
