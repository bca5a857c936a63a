"""Plants told one by one: "p1 3w p2 0 p3 2w 1y", "plant 1: 3 white, plant 2: none"."""

from __future__ import annotations

import re

from notes_bot.language.pieces import Piece

_SHORT = re.compile(r"(?:p|pl|pt|plt|planta|plant|pe)\s?(\d{1,2})")


def mark_plants(pieces: list[Piece]) -> None:
    """Turn the marks of an enumeration (1, 2, 3 ... each behind a word for plant) into pieces of kind ``mark``.

    Only a run that starts at 1 and counts up, with at least two marks, is one: "plants 6" is a count.
    """
    marks: list[tuple[int, int, int]] = []
    for i in range(len(pieces)):
        number, used = _mark(pieces, i, len(marks) + 1)
        if number is not None and number == len(marks) + 1 and (not marks or i >= marks[-1][0] + marks[-1][1]):
            marks.append((i, used, number))
        elif number is not None and number == 1 and len(marks) == 1:
            marks = [(i, used, number)]
    if len(marks) < 2:
        return
    for i, used, number in reversed(marks):
        first, last = pieces[i], pieces[i + used - 1]
        pieces[i : i + used] = [Piece("mark", first.text, first.start, last.end, (), number, first.spaced)]


def _mark(pieces: list[Piece], i: int, expected: int) -> tuple[int | None, int]:
    """The number a mark at i would have and the pieces it would use."""
    piece = pieces[i]
    if piece.kind == "number" and _lists(pieces, i, expected):
        return piece.value, 2
    if piece.kind == "number" and piece.text.endswith(("st", "nd", "rd", "th")):
        plant = i + 1 < len(pieces) and "PLANTS" in pieces[i + 1].types
        return piece.value, 2 if plant else 1
    if piece.kind == "day" and piece.value.day == expected > 1 and piece.value.month is None:
        return expected, 1
    if "ORDINAL" in piece.types and int(piece.types["ORDINAL"].value) == expected:
        behind = pieces[i + 1] if i + 1 < len(pieces) else None
        if behind is not None and ("PLANTS" in behind.types or expected > 1):
            return expected, 2 if "PLANTS" in behind.types else 1
    if piece.text == "#" and i + 1 < len(pieces) and pieces[i + 1].kind == "number":
        return pieces[i + 1].value, 2
    if piece.kind != "word":
        return None, 0
    short = _SHORT.fullmatch(piece.text)
    if short is not None:
        return int(short.group(1)), 1
    after = pieces[i + 1] if i + 1 < len(pieces) else None
    before = pieces[i - 1] if i else None
    if (
        "PLANTS" in piece.types
        and after is not None
        and after.text == "#"
        and i + 2 < len(pieces)
        and pieces[i + 2].kind == "number"
    ):
        return pieces[i + 2].value, 3
    plant = "PLANTS" in piece.types and not piece.text.endswith("s")
    if (
        plant
        and after is not None
        and after.kind == "number"
        and isinstance(after.value, int)
        and (before is None or before.kind != "number" or (after.value == expected > 1))
    ):
        return after.value, 2
    return None, 0


def _lists(pieces: list[Piece], i: int, expected: int) -> bool:
    """ "1 - 3 white" on a line of its own, the next in count: the plant's number, then what it had."""
    piece, starts = pieces[i], i == 0 or pieces[i - 1].kind in ("line", "break")
    dash = pieces[i + 1] if i + 1 < len(pieces) else None
    behind = pieces[i + 2] if i + 2 < len(pieces) else None
    if not (i == 0 or pieces[i - 1].kind == "line") and (dash is None or dash.text != ":"):
        return False
    dashed = dash is not None and (dash.text in ("-", ":", "=", ")") and dash.kind in ("break", "sign"))
    counted = behind is not None and (behind.kind == "number" or "NONE" in behind.types)
    return starts and dashed and counted and piece.value == expected
