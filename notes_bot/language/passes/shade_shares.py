"""Colors told as shares of a sum: "18 females, half white half yellow", "2/3 of them white and 1/3 tan", "80% white".

Where the shares make up the whole, and each comes to a whole number of females, they are written as counts; else they
stay as they are told, colors without numbers. What "about" stands before is no share that counts. A share of something
else, "1/4 of the field", is no day.
"""

from __future__ import annotations

import re
from fractions import Fraction

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.pieces import Piece, count_told, piece_at
from notes_bot.language.lexicon.words import Table, anywhere

LEAST_SHARES = 2
"""Shares that make up a whole."""
MOST_PARTS = 10
"""A fraction of more parts than these is none (judgement)."""
LITTLE_WORDS = 5
"""Words between a share and its color, "of the 10 females were" (judgement)."""
_PARTS = {"half_word": 2, "third_word": 3, "quarter_word": 4}
"""Manners of words for a part, and how many such parts make the whole."""
_RATIO = re.compile(r"(\d{1,2})/(\d{1,2})")
_PERCENT = re.compile(r"(\d{1,2}) ?(?:%|[^\W\d_]+)")
_JOINS = frozenset({",", ";", "-", "/", "&", "+"})
"""Signs that may stand between two shares."""
_REST = Fraction(0)
"""What is left of the whole."""


def shares_counted(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Half of the 10 females were white and half were yellow": five of each."""
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        told = _row(pieces, n, made) if _may_begin(pieces[n], made) else None
        if told is None:
            out.append(pieces[n])
            n += 1
            continue
        counts, n = told
        while out and made.has("article", out[-1].text) and linking(out[-1]):
            out.pop()
        out += counts
    return out


def shares_of_else(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Yellow on 1/4 of it", "2/3 of the roots dark": a fraction with what it is of behind it, and no day."""
    out = list(pieces)
    for n, piece in enumerate(pieces):
        if piece.kind != "day" or _ratio(piece) is None:
            continue
        k = n + 1
        while k < len(pieces) and k <= n + LITTLE_WORDS and (linking(pieces[k]) or made.has("of_word", pieces[k].text)):
            if made.has("share_whole", pieces[k].text):
                break
            k += 1
        of = k > n + 1 and made.has("of_word", pieces[n + 1].text.split(" ")[0])
        if of and k < len(pieces) and (made.has("share_whole", pieces[k].text) or is_any(pieces[k], ("FIELD_WORD",))):
            out[n] = Piece("word", piece.text, piece.start, piece.end, (), None, piece.spaced)
    return out


def _may_begin(piece: Piece, made: Table) -> bool:
    """Can a share begin there? Only looked at in full where it can."""
    if piece.kind in ("day", "measure", "number"):
        return True
    return piece.kind == "word" and (linking(piece) or any(made.has(manner, piece.text) for manner in _PARTS))


def _row(pieces: list[Piece], n: int, made: Table) -> tuple[list[Piece], int] | None:
    """The counts that shares from n on stand for, and where the shares end; ``None`` for no such."""
    if n and is_any(pieces[n - 1], ("ABOUT",)):
        return None
    shares: list[tuple[Fraction, Piece]] = []
    whole, k, end = 0, n, n
    while (told := _share(pieces, k, made)) is not None:
        share, behind = told
        shade, within = _to_shade(pieces, behind, made)
        if not shade or (share == _REST and not shares):
            return None
        whole = whole or within
        shares.append((share, pieces[shade]))
        k = end = shade + 1 + is_any(piece_at(pieces, shade + 1), ("FEMALES",))
        while k < len(pieces) and (pieces[k].text in _JOINS or pieces[k].text in anywhere("and_word")):
            k += 1
    left = 1 - sum(share for share, _ in shares)
    rests = sum(share == _REST for share, _ in shares)
    if len(shares) < LEAST_SHARES or rests > 1 or (left <= 0 if rests else left != 0):
        return None
    whole = whole or _counted_before(pieces, n)
    counts = [(share or left) * whole for share, _ in shares]
    if not whole or any(count.denominator != 1 for count in counts):
        return None
    out: list[Piece] = []
    for count, (_, color) in zip(counts, shares, strict=True):
        out += [Piece("number", str(count), color.start, color.start, (), int(count), True), color]
    return out, end


def _share(pieces: list[Piece], n: int, made: Table) -> tuple[Fraction, int] | None:
    """The share that begins there and where it ends: "half", "a third", "2/3", "80 %", "the rest"."""
    k = n
    while k < len(pieces) and k < n + 2 and _little(pieces[k], made):
        k += 1
    piece = piece_at(pieces, k)
    if piece is None:
        return None
    if piece.kind == "day":
        ratio = _ratio(piece)
        return (ratio, k + 1) if ratio is not None else None
    if piece.kind == "measure":
        found = _PERCENT.fullmatch(piece.text)
        sure = found is not None and ("%" in piece.text or made.has("percent", piece.text.split(" ")[-1]))
        return (Fraction(int(found[1]), 100), k + 1) if found is not None and sure else None
    if made.has("rest_word", piece.text.split(" ")[-1]):
        return _REST, k + 1
    count = count_told(piece) or 1
    if count_told(piece) is not None:
        k += 1
    if count_told(piece) is None and made.has("other_word", piece.text):
        k += 1  # "the other half"
    parts = _part(piece_at(pieces, k), made)
    return (Fraction(count, parts), k + 1) if parts and count < parts else None


def _little(piece: Piece, made: Table) -> bool:
    """ "A (third)", "the (rest)": a little word that names no share, nor says that it is a guess."""
    named = bool(_part(piece, made)) or made.has("rest_word", piece.text.split(" ")[-1])
    return linking(piece) and not named and not is_any(piece, ("ABOUT",))


def _part(piece: Piece | None, made: Table) -> int:
    """How many such parts make the whole; 0 where a word names none."""
    if piece is None or piece.kind != "word":
        return 0
    return next((parts for manner, parts in _PARTS.items() if made.has(manner, piece.text)), 0)


def _ratio(piece: Piece) -> Fraction | None:
    """ "2/3", "1/4": less than the whole."""
    found = _RATIO.fullmatch(piece.text)
    if found is None or not 0 < int(found[1]) < int(found[2]) <= MOST_PARTS:
        return None
    return Fraction(int(found[1]), int(found[2]))


def _to_shade(pieces: list[Piece], n: int, made: Table) -> tuple[int, int]:
    """Where the color behind a share stands, and the whole told before it: "of the (10) females were (white)"."""
    whole = 0
    for k in range(n, min(len(pieces), n + LITTLE_WORDS + 1)):
        piece = pieces[k]
        if is_any(piece, ("COLOUR",)):
            return k, whole
        if (count := count_told(piece)) is not None and not whole:
            whole = count
        elif not (linking(piece) or is_any(piece, ("FEMALES",)) or _copula(piece, made)):
            return 0, 0
    return 0, 0


def _copula(piece: Piece, made: Table) -> bool:
    """ "Were", "of"."""
    return made.has("copula", piece.text) or made.has("of_word", piece.text)


def _counted_before(pieces: list[Piece], n: int) -> int:
    """How many females were counted last before n, of the same field: "(18) females, half white ..", "total (18)"."""
    for k in range(n - 1, -1, -1):
        piece = pieces[k]
        if is_any(piece, ("COLOUR",)) or (is_any(piece, ("FIELD",)) and (not k or _begins(pieces[k - 1]))):
            return 0
        if (count := count_told(piece)) is None:
            continue
        behind, before = piece_at(pieces, k + 1), piece_at(pieces, k - 1)
        if is_any(behind, ("FEMALES", "TOTAL")) or (k and is_any(before, ("TOTAL",))):
            return count
    return 0


def _begins(before: Piece) -> bool:
    """Does a new clause begin behind it?"""
    return before.kind == "line" or before.value == "hard"
