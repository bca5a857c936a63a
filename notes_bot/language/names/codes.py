"""Fields that are called a letter and a number, where a count of females is written so too: "T12 V3 dug 6, 4w"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.scan import shouted
from notes_bot.language.lexicon.words import Table

_LETTERED = re.compile(r"[^\W\d_]\d{1,3}")
"""A letter, then figures: "T12"."""
_NUMBERED = re.compile(r"\d{1,3}[^\W\d_]")
"""Figures, then a letter: "14B"."""
_FOUND = ("COLOUR", "NONE", "FEMALES", "NOT_LOOKED", "TOO_MANY", "TOTAL")
"""What tells that something else was counted, or nothing."""
_BEHIND_CODE = ("NONE", "NOT_LOOKED", "PLANTED", "VARIETY")
"""What stands right behind no count of females."""
_NUMBERED_THINGS = ("PLANTS", "DAP", "PPM", "TOTAL", "EACH", "DUG", "FEMALES", "NODULES")
"""What a letter behind figures may count."""
_SHORT_PLACES = frozenset("pslrb")
"""Letters that number plants, spots, lines, rows and blocks, where they are no color."""
LEAST_ROW = 3
"""Numbers in a row that are counts, one a plant (judgement)."""
MOST_JOINED = 8
"""Codes told of in one breath, "14B, 22A, 9W: .." (judgement)."""


def codes_named(pieces: Sequence[Piece], made: Table, text: str) -> tuple[str, ...]:
    """Fields of a message that are a letter and a number, as written; none where they may be counts.

    "T12 V3 dug 6p 4w", "14B: 8 dug, 5 white", "C7 W9 / C4 W4": one such opens the message or a line, and what was
    found is told otherwise. Behind it, what is written so and opens a line, a sentence or a part is another field.
    """
    codes = [n for n in range(len(pieces)) if _size(pieces, n, text)]
    if not codes:
        return ()
    first = next((n for n in codes if _opens(pieces, n, line=True) and _names(pieces, n, text, codes)), None)
    if first is None:
        led = [
            n for n in codes if _shade(pieces, n) and _lettered(pieces, n, text) and _behind_article(pieces, n, made)
        ]
        return tuple(dict.fromkeys(_code(pieces, n, text) for n in led))
    form = _lettered(pieces, first, text)
    same = [n for n in codes if _lettered(pieces, n, text) == form or (_opens(pieces, n) and _headed(pieces, n))]
    named = [n for n in same if n == first or _opens(pieces, n) or _joined(pieces, n, same)]
    told = tuple(dict.fromkeys(_code(pieces, n, text) for n in named))
    return () if _counted_up(told) else told


def _size(pieces: Sequence[Piece], n: int, text: str) -> int:
    """How many pieces a code takes from n on; 0 for none."""
    piece, after = pieces[n], pieces[n + 1] if n + 1 < len(pieces) else None
    if n and pieces[n - 1].end == piece.start and pieces[n - 1].kind in ("word", "number"):
        return 0
    if piece.kind == "word" and not piece.types and _LETTERED.fullmatch(piece.text):
        return 1 if piece.text[0] not in _SHORT_PLACES else 0
    if after is None or piece.end != after.start or {piece.kind, after.kind} != {"word", "number"}:
        return 0
    word = piece if piece.kind == "word" else after
    said = text[piece.start : after.end]
    glued = after.end < len(text) and text[after.end].isalnum()
    code = _LETTERED.fullmatch(said) or (_NUMBERED.fullmatch(said) and not is_any(word, _NUMBERED_THINGS))
    may_name = is_any(word, ("COLOUR",)) or (word is after and word.types.keys() <= {"LINK"})
    return 2 if code and may_name and not glued else 0


def _shade(pieces: Sequence[Piece], n: int) -> bool:
    """May the code be a count with its color?"""
    return any(is_any(piece, ("COLOUR",)) for piece in pieces[n : _end(pieces, n)])


def _headed(pieces: Sequence[Piece], n: int) -> bool:
    """Does a colon stand behind the code?"""
    return getattr(_at(pieces, _end(pieces, n)), "text", "") in (":", "=")


def _lettered(pieces: Sequence[Piece], n: int, text: str) -> bool:
    return not text[pieces[n].start].isdigit()


def _end(pieces: Sequence[Piece], n: int) -> int:
    """The first piece behind a code."""
    return n + 1 if len(pieces[n].text) > 1 and pieces[n].kind == "word" else n + 2


def _code(pieces: Sequence[Piece], n: int, text: str) -> str:
    return text[pieces[n].start : pieces[_end(pieces, n) - 1].end]


def _at(pieces: Sequence[Piece], n: int) -> Piece | None:
    return pieces[n] if 0 <= n < len(pieces) else None


def _opens(pieces: Sequence[Piece], n: int, line: bool = False) -> bool:
    """Does the code open the message or a line, or else a sentence or a part behind a stroke?"""
    before = _at(pieces, n - 1)
    if before is None or before.kind == "line":
        return True
    if line:
        return False
    return before.text in (".", ";") or (before.text == "/" and before.spaced) or _headed(pieces, n)


def _joined(pieces: Sequence[Piece], n: int, same: Sequence[int]) -> bool:
    """ "14B, 22A, 9W: all three not looked": another code a comma before, and a colon or another behind."""
    before, after = _at(pieces, n - 1), _at(pieces, _end(pieces, n))
    led = before is not None and before.text == "," and any(_end(pieces, k) == n - 1 for k in same)
    goes_on = after is not None and (after.text == ":" or (after.text == "," and _end(pieces, n) + 1 in same))
    return led and goes_on


def _names(pieces: Sequence[Piece], n: int, text: str, codes: Sequence[int]) -> bool:
    """Is a code that opens a line no count, by what else is told?"""
    end = _end(pieces, n)
    if not _shade(pieces, n) and _lettered(pieces, n, text):
        return any(_opens(pieces, k) for k in codes if k != n)
    rest = [p for k, p in enumerate(pieces) if not n <= k < end]
    others = [k for k in codes if k != n and _shade(pieces, k)]
    counts = [k for k in others if _lettered(pieces, k, text) == _lettered(pieces, n, text)]
    if any(not _opens(pieces, k) and not _joined(pieces, k, codes) for k in counts):
        return False  # "w9 y3, 6 pl"
    behind = _at(pieces, end)
    for _ in range(MOST_JOINED):
        if behind is None or behind.text != "," or end + 1 not in counts:
            break
        end = _end(pieces, end + 1)
        behind = _at(pieces, end)
    told = any(
        is_any(p, _FOUND) for k, p in enumerate(pieces) if not any(c <= k < _end(pieces, c) for c in (n, *counts))
    )
    found = told or any(p.kind == "number" and p.value == 0 for p in rest) or _row_of_counts(rest)
    if _lettered(pieces, n, text):
        return found
    if behind is None or not _shade(pieces, n):
        return found and behind is not None
    if is_any(behind, _BEHIND_CODE) or behind.text in (":", "="):
        return True
    capital = text[pieces[n + 1].start].isupper() and not shouted(text)
    after = end + (behind.kind == "break")
    return capital and found and not is_any(behind, ("LINK", "ABOUT", "PLANTS")) and not _counts_more(pieces, after)


def _counts_more(pieces: Sequence[Piece], n: int) -> bool:
    """ "6W, 3 Y", "6W 5 pl": does another number with its noun follow?"""
    return getattr(_at(pieces, n), "kind", "") == "number" and is_any(_at(pieces, n + 1), ("COLOUR", "PLANTS", "DUG"))


def _row_of_counts(pieces: Sequence[Piece]) -> bool:
    """Are several numbers told in a row?"""
    row = 0
    for piece in pieces:
        row = row + 1 if piece.kind == "number" else row if piece.text in (",", "/", "+") else 0
        if row == LEAST_ROW or piece.kind in ("series", "range"):
            return True
    return False


def _behind_article(pieces: Sequence[Piece], n: int, made: Table) -> bool:
    """ "pula o t4", "the 31A", "do t4": a count has no article."""
    before = _at(pieces, n - 1)
    word = "" if before is None else before.text.rpartition(" ")[2]
    traits = ("name_article", "leads_code")
    return bool(word) and before is not None and before.end < pieces[n].start and any(made.has(t, word) for t in traits)


def _counted_up(codes: Sequence[str]) -> bool:
    """ "A1, A2, A3": places told by number, from the first on."""
    letters = {code.strip("0123456789").lower() for code in codes}
    numbers = [int(re.sub(r"\D", "", code)) for code in codes]
    return len(codes) > 1 and len(letters) == 1 and numbers == list(range(1, len(codes) + 1))
