"""Counts under a head of letters, one for each color: "wytb 4-2-1-0", "b/a/m 5/8/3" tell each color's count in turn.

Also numbers one a plant told once for each color: "white per plant 3 1 4, yellow per plant 0 0 1".
"""

from __future__ import annotations

import re

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece, piece_at
from notes_bot.language.lexicon.tokens import Draft
from notes_bot.language.lexicon.words import Entry, Table

LEAST_HEADED = 3
"""Letters from which a word without slashes heads counts: fewer are a word or a name (judgement)."""
MOST_HEADED = 4
"""Letters of such a word at most: there are four colors."""
_HEAD = re.compile(r"[a-z]{2,4}|[a-z](?:/[a-z]){1,3}|[a-z](?:-[a-z]){1,3}")
_SIGNS = frozenset(":=-/,")


def counts_under_letters(pieces: list[Piece], made: Table) -> list[Piece]:
    """Each count with its color, in the place of the head and the numbers."""
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        head = _head_at(pieces, n, made) if _may_head(pieces[n]) else None
        counts, end = _counts_at(pieces, n + head[1], len(head[0])) if head else ([], n)
        if head is None or len(counts) != len(head[0]):
            out.append(pieces[n])
            n += 1
            continue
        start = pieces[n].start
        for k, (count, color) in enumerate(zip(counts, head[0], strict=True)):
            at = start if k == 0 else pieces[end - 1].end
            out.append(Piece("number", str(count), at, pieces[end - 1].end, (), count))
            out.append(Piece("word", color.value, at, pieces[end - 1].end, (color,), "tied"))
        n = end
    return out


def _may_head(piece: Piece) -> bool:
    """Is it as short as a head, and no word of ours?"""
    size = len(piece.text)
    return piece.kind == "word" and size <= MOST_HEADED and (size <= 1 or not piece.types)


def _head_at(pieces: list[Piece], n: int, made: Table) -> tuple[list[Entry], int] | None:
    """The colors of a head that begins there, each once, and how many pieces it takes; ``None`` for no head."""
    before = piece_at(pieces, n - 1)
    if before is not None and (before.kind == "number" or is_any(before, ("NUMBER_WORD", "VARIETY", "FIELD_WORD"))):
        return None  # "4 w/y", "var wty 4-2-1"
    end, said = n + 1, pieces[n].text.replace(" ", "")
    while end < len(pieces) and ({pieces[end].text, said[-1:]} & {"/", "-"}):
        said += pieces[end].text.replace(" ", "")
        end += 1
    whole = said.isalpha()
    known = bool(pieces[n].types) and whole
    if not _HEAD.fullmatch(said) or known or (whole and len(said) < LEAST_HEADED):
        return None
    colors = [_letter(letter, made) for letter in said if letter.isalpha()]
    told = [color for color in colors if color is not None]
    return (told, end - n) if 1 < len({color.value for color in told}) == len(colors) else None


def _letter(letter: str, made: Table) -> Entry | None:
    """The color a letter stands for."""
    return next((entry for entry in made.singles.get(letter, ()) if entry.type == "COLOUR"), None)


def _counts_at(pieces: list[Piece], n: int, size: int) -> tuple[list[int], int]:
    """So many whole numbers from there on, and where what follows begins; none where a word claims the last of them."""
    counts: list[int] = []
    end = n
    while len(counts) < size and (piece := piece_at(pieces, n)) is not None:
        if piece.kind in ("ratio", "series"):
            counts += piece.value
        elif piece.kind == "day" and piece.value.year is None and piece.value.first is not None:
            counts += [piece.value.first, piece.value.second]
        elif piece.kind == "number" and isinstance(piece.value, int):
            counts.append(piece.value)
        elif not (piece.text in _SIGNS and not counts) and piece.text not in ("-", "/", ","):
            break
        n += 1
        end = n if piece.kind not in ("sign", "break") else end
    behind = piece_at(pieces, end)
    claimed = is_any(behind, ("COLOUR", "PLANTS", "FEMALES"))
    claimed = claimed or (behind is not None and behind.kind in ("ratio", "series", "day", "number"))  # "4/2 0/3 6/1"
    return ([], n) if claimed else (counts, end)


MOST_STROKES = 4
"""Strokes of one group of a tally, whose fifth goes across the others."""
_STROKE = "|"


def tallied(draft: Draft, _: Table) -> list[Piece]:
    """ "White ||| yellow |": strokes behind a color are its count; of several groups it is asked what they come to."""
    rows = [(n, _strokes_end(draft.pieces, n)) for n in range(len(draft.pieces)) if _opens_tally(draft.pieces, n)]
    if not any(end - n > 1 for n, end in rows):
        return draft.pieces
    out: list[Piece] = []
    at = 0
    for n, end in rows:
        start, last = draft.pieces[n].start, draft.pieces[end - 1].end
        out += draft.pieces[at:n]
        if last - start == end - n <= MOST_STROKES:
            out.append(Piece("number", str(end - n), start, last, (), end - n))
        else:
            draft.ask("which_number", start, last)
        out.append(Piece("break", ",", last, last, (), "soft"))
        at = end
    return [*out, *draft.pieces[at:]]


def _opens_tally(pieces: list[Piece], n: int) -> bool:
    """Do strokes begin there, behind a color, with nothing behind them but another color or the end of a clause?"""
    shade = n - 1 - (n > 1 and pieces[n - 1].text in (":", "="))
    if pieces[n].text != _STROKE or shade < 0 or not is_any(pieces[shade], ("COLOUR",)):
        return False
    if shade and (pieces[shade - 1].kind == "number" or is_any(pieces[shade - 1], ("MOSTLY", "NUMBER_WORD"))):
        return False
    end = _strokes_end(pieces, n)
    behind = piece_at(pieces, end)
    if is_any(behind, ("COLOUR",)):
        return end + 1 < len(pieces) and _opens_tally(pieces, end + 1)  # "w |||| y ||"
    return behind is None or behind.kind in ("break", "line")


def _strokes_end(pieces: list[Piece], n: int) -> int:
    """Where strokes that begin there end; the place itself for none."""
    while n < len(pieces) and pieces[n].text == _STROKE:
        n += 1
    return n


LEAST_SHADES = 2
"""Colors in a row that head as many counts (judgement)."""
_PARTS = frozenset({",", "/", "|", "-"})
"""Signs that may part two colors of a head, or two counts below it."""
_OPENS = frozenset({":", "=", "(", ")", "-"})
"""Signs between a head of colors and its counts."""


def counts_under_colors(pieces: list[Piece]) -> list[Piece]:
    """ "W Y T B" above "3 1 0 0", "(w,y,t,b) = (3,1,0,0)": as many counts as colors, each of the color above it."""
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        shades, at = _row_of_colors(pieces, n)
        counts, end = _row_of_counts(pieces, at) if shades else ([], n)
        if len(counts) > len(shades) > 0:  # "white, yellow: 3, 1, 0, 0, 2": one a plant, of both colors
            stop = shades[-1].end
            listed = pieces.index(counts[0], n)
            out += [*pieces[n : pieces.index(shades[-1], n) + 1], Piece("break", ".", stop, stop, (), "hard")]
            n = listed
            continue
        if not shades or len(counts) != len(shades):
            out.append(pieces[n])
            n += 1
            continue
        for k, (count, shade) in enumerate(zip(counts, shades, strict=True)):
            start = pieces[n].start if k == 0 else count.end
            color = shade.types["COLOUR"]
            out.append(Piece("number", count.text, start, count.end, (), count.value))
            out.append(Piece("word", color.value, count.end, count.end, (color,), "tied"))
        n = end
    return out


def _row_of_colors(pieces: list[Piece], n: int) -> tuple[list[Piece], int]:
    """The colors of a head that begins there, each once, and where what follows it begins; none for no head.

    It heads a clause or a line, behind no number and no "mostly", and a sign or a new line parts it from its counts.
    """
    before = piece_at(pieces, n - 1) if n else None
    begins = before is None or before.kind in ("break", "line") or before.text in _OPENS
    begins = begins or is_any(before, ("FIELD", "TOOL", "DUG", "PLANTS"))
    shades: list[Piece] = []
    k = n
    while begins and k < len(pieces) and is_any(pieces[k], ("COLOUR",)):
        shades.append(pieces[k])
        k += 1 + (k + 2 < len(pieces) and pieces[k + 1].text in _PARTS and is_any(pieces[k + 2], ("COLOUR",)))
    parted = k
    while k < len(pieces) and (pieces[k].text in _OPENS or pieces[k].kind == "line"):
        k += 1
    values = {shade.types["COLOUR"].value for shade in shades}
    told = LEAST_SHADES <= len(values) == len(shades) and (k > parted or len(shades) > LEAST_SHADES)
    return (shades, k) if told else ([], n)


def _row_of_counts(pieces: list[Piece], n: int) -> tuple[list[Piece], int]:
    """The whole numbers from there on, and where what follows begins; none where they go on, or count a noun."""
    counts: list[Piece] = []
    k = n
    while k < len(pieces) and pieces[k].kind == "number" and isinstance(pieces[k].value, int):
        counts.append(pieces[k])
        k += 1
        k += k + 1 < len(pieces) and pieces[k].text in _PARTS and pieces[k + 1].kind == "number"
    k += k < len(pieces) and pieces[k].text == ")"
    behind = piece_at(pieces, k)
    if behind is not None and behind.kind not in ("break", "line"):
        return [], n
    below = piece_at(pieces, k + 1) if behind is not None and behind.kind == "line" else None
    noun = is_any(piece_at(pieces, k + 2), ("PLANTS", "DUG", "TOOL"))
    goes_on = below is not None and below.kind == "number" and not noun  # one row a plant
    return ([], n) if goes_on else (counts, k)


def lists_by_color(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "White (per plant) 3 1 4 0 2, yellow (per plant) 0 0 1 0 1": between a color and its list it says no more."""
    del made
    gone = {n for n in range(1, len(pieces) - 2) if _told_of_list(pieces, n)}
    return [p for n, p in enumerate(pieces) if n not in gone] if len(gone) > 1 else pieces


def _told_of_list(pieces: list[Piece], n: int) -> bool:
    """Does "per plant" stand between a color and two numbers there?"""
    k = n + 1 + (pieces[n + 1].text in (":", "="))
    listed = [getattr(piece_at(pieces, k + step), "kind", "") for step in (0, 1)] == ["number", "number"]
    return "EACH" in pieces[n].types and is_any(pieces[n - 1], ("COLOUR",)) and listed
