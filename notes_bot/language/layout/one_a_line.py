"""Requests and forms written with a datum on each line: "correct / Kestrel / white / 8 / not 6", "plants: / 8".

The lines of such a request are one sentence, and what stands below a label alone is its value. A note with a datum a
line needs none of this: its lines are clauses as they are.
"""

from __future__ import annotations

from collections.abc import Sequence

from notes_bot.language.lexicon.crew_names import folded_names
from notes_bot.language.lexicon.pieces import Cutter, Piece
from notes_bot.language.lexicon.scan import clean, fold, scan
from notes_bot.language.lexicon.words import Table

MOST_WORDS = 8
"""Words of a line that is one datum of a request (judgement)."""
MOST_LINES = 9
"""Lines of such a request (judgement)."""
_OF_NOTES = frozenset({"PLANTS", "COLOUR", "DUG", "TOOL", "FEMALES", "NONE", "NOT_LOOKED"})


def request_joined(text: str, made: Table, fields: Sequence[str]) -> str:
    """ "Lab / Kestrel / 1850 eggs / per 100 cc" as one line; any other text as it is."""
    if "\n" not in text or not fields or text.count("\n") > 2 * MOST_LINES:
        return text
    lines = [line.strip() for line in text.split("\n") if line.strip()]
    if not 2 <= len(lines) <= MOST_LINES or any(len(line.split(" ")) > MOST_WORDS for line in lines):
        return text
    names = frozenset(folded_names(tuple(fields)))
    head = _head(lines, names, made)
    if not head:
        return text
    body = lines[head:]
    cut = [piece for line in body for piece in Cutter(made.language, tuple(fields)).cut(scan(clean(line)))]
    if any("FIELD" in piece.types for piece in cut) or "?" in text or not _is_data(lines[:head], cut, made):
        return text
    first = " ".join(line.rstrip(" :") for line in lines[:head])
    return f"{first} {' '.join(body)}".strip()


def _head(lines: list[str], names: frozenset[str], made: Table) -> int:
    """How many lines say what is asked and of which field: "lab" above "Kestrel", "lab Kestrel"; 0 for none."""
    told = [fold(line.rstrip(" :.,-")) for line in lines[:2]]
    if any(_asks(told[n], made) and told[1 - n] in names for n in (0, 1)):
        return 2
    for name in names:
        for rest in (told[0].removesuffix(f" {name}"), told[0].removeprefix(f"{name} ")):
            if rest != told[0] and _asks(rest, made):
                return 1
    return 0


def _asks(said: str, made: Table) -> bool:
    """ "Lab", "rotation for", "fix": words that open a request which goes on."""
    first, _, last = said.rpartition(" ")
    return made.has("asks_in_lines", said) or (made.has("name_link", last) and made.has("asks_in_lines", first))


def _is_data(head: list[str], body: list[Piece], made: Table) -> bool:
    """Do the lines below tell one change, or a result or plan, and nothing of a note?"""
    kinds = {kind for piece in body for kind in piece.types}
    if any(made.has("lone_correct", word) for line in head for word in fold(line).rstrip(":").split(" ")):
        numbers = sum(piece.kind in ("number", "stage", "day") for piece in body)
        return 0 < numbers <= 1 + ("NOT" in kinds)
    return kinds.isdisjoint(_OF_NOTES)
