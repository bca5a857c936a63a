"""Keys that were missed: a sign for the figure on its key ("v%" is V5), a zero in a word for an o ("zer0", "n0ne")."""

from __future__ import annotations

import re
from itertools import pairwise

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece, piece_at
from notes_bot.language.lexicon.tokens import Draft, Slip
from notes_bot.language.lexicon.words import Entry, Table

_ON_KEYS = dict(zip("!@#$%^&*", "12345678", strict=True))
"""Signs of the keys with figures."""
_EVERYWHERE = frozenset("!$%")
"""Those that stand on the same keys wherever people write Spanish or Portuguese too."""
_ZEROED = re.compile(r"[a-z]+0[a-z]*|[a-z]*0[a-z]+")
_TEXT = (Entry("TEXT", "text"),)


def missed_keys(draft: Draft, made: Table) -> list[Piece]:
    """The pieces with what was meant, and a slip told for each."""
    out: list[Piece] = []
    skip = False
    for n, piece in enumerate(draft.pieces):
        if skip:
            skip = False
            continue
        sign = piece_at(draft.pieces, n + 1)
        if piece.kind == "word" and piece.text in ("v", "r") and sign is not None and _ends_stage(draft, n, made):
            stage = f"{piece.text}{_ON_KEYS[sign.text]}"
            draft.slips.append(Slip("near_word", stage.upper(), piece.start, sign.end))
            out.append(Piece("stage", stage, piece.start, sign.end, (), stage.upper()))
            skip = True
            continue
        word = piece.text.replace("0", "o") if piece.kind == "word" and _ZEROED.fullmatch(piece.text) else ""
        entries = made.singles.get(word, ())
        if entries and not piece.types:
            draft.slips.append(Slip("near_word", word, piece.start, piece.end))
            piece = Piece("word", word, piece.start, piece.end, entries, piece.value, piece.spaced)
        out.append(piece)
    return out


def _ends_stage(draft: Draft, n: int, made: Table) -> bool:
    """Does a sign for a figure stand right behind the letter, and nothing that it belongs to behind it?"""
    sign, behind = draft.pieces[n + 1], piece_at(draft.pieces, n + 2)
    glued = sign.text in (_ON_KEYS if made.language == "en" else _EVERYWHERE) and sign.start == draft.pieces[n].end
    return glued and (behind is None or behind.start > sign.end or behind.kind in ("break", "line"))


def words_meant(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Emails 14 on 6 plants (females not emails, dang phone)": which word was meant is no finding of its own."""
    for n, (piece, denial) in enumerate(pairwise(pieces)):
        again = piece_at(pieces, n + 2)
        told = piece.kind == "word" and again is not None and again.text == piece.text and bool(piece.types)
        if told and is_any(denial, ("NOT",)) and any(p.text == piece.text for p in pieces[:n]):
            end = n + 3
            while pieces[n - 1].text == "(" and end < len(pieces) and pieces[end].text != ")":
                end += 1
            said = Piece("word", "", piece.start, pieces[end - 1].end, _TEXT)
            return [*pieces[:n], said, *words_meant(pieces[end:], made)]
    return pieces
