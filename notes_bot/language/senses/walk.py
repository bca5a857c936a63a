"""The walk over the pieces of one text: the piece at hand, its neighbours, and the tokens so far."""

from __future__ import annotations

from typing import Any

from notes_bot.language.lexicon.joining import neighbour_index
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.tokens import Draft, Slip, Word
from notes_bot.language.lexicon.words import Entry, Table
from notes_bot.language.names.naming import FieldName, Names


class Walk:
    """The pieces of one text, where among them we are, and the tokens so far."""

    def __init__(self, draft: Draft, names: Names, found: dict[int, FieldName], made: Table) -> None:
        self.draft = draft
        self.ps = draft.pieces
        """The pieces; one that is read otherwise than written stands here as it is read."""
        self.names = names
        self.found = found
        """Fields named, by the index of their first piece."""
        self.first_name = min(found, default=len(draft.pieces))
        self.named = frozenset(found) | {name.last - 1 for name in found.values()}
        """Indices of the first and last pieces of names: no neighbours."""
        self.made = made
        self.out: list[Word] = []
        """The tokens so far."""
        self.lead = "hard"
        """What stands before the next token (see :class:`Word`)."""
        self.variety_open = False
        """May the next words be the name of a variety?"""
        self.comma_places: list[int] | None = None
        """Places with a comma and plants behind each, once they were looked for."""
        self.of_plants = -1
        """Where the second number of "5 of 10" stands when it counts plants."""
        self.i = 0
        self.piece = self.ps[0]
        """The piece at hand, at ``i``."""
        self.entry = Entry("TEXT", "text")
        """The meaning that is tried."""

    def emit(self, type_: str, value: Any, start: int, end: int, lead: str | None = None) -> int:
        """A token more, behind the lead that stands unless one is given."""
        text = self.draft.text[start:end]
        self.out.append(Word(type_, value, start, end, text, self.lead if lead is None else lead))
        self.lead = ""
        return 1

    def take(self, type_: str | None = None, value: Any = None) -> int:
        """The piece at hand as a token, its slip noted."""
        if self.entry.slip:
            self.slip("near_word", self.made.first.get((self.entry.type, self.entry.value), self.entry.value))
        return self.emit(
            type_ or self.entry.type, self.entry.value if value is None else value, self.piece.start, self.piece.end
        )

    def slip(self, kind: str, read: str, piece: Piece | None = None) -> None:
        """Note that the piece at hand, or another, was read after a correction."""
        at = piece or self.piece
        self.draft.slips.append(Slip(kind, read, at.start, at.end))

    def text(self) -> int:
        """The piece at hand as free text."""
        return self.emit("TEXT", None, self.piece.start, self.piece.end)

    def at(self, i: int) -> Piece | None:
        """The piece at an index unless it is past the ends or part of a field's name."""
        return self.ps[i] if 0 <= i < len(self.ps) and i not in self.named else None

    def direct_index(self, i: int, step: int) -> int:
        """Index of the very next piece, signs that only glue left out (may be past the ends)."""
        j = i + step
        while 0 <= j < len(self.ps) and self.ps[j].kind == "sign":
            j += step
        return j

    def direct(self, i: int, step: int) -> Piece | None:
        """The very next piece, signs that only glue left out."""
        j, ps = i + step, self.ps
        while 0 <= j < len(ps):
            piece = ps[j]
            if piece.kind != "sign":
                return None if j in self.named else piece
            j += step
        return None

    def near(self, i: int, step: int) -> Piece | None:
        """The next piece of the clause that carries meaning."""
        j = neighbour_index(self.ps, i, step)
        return None if j is None else self.at(j)

    @property
    def before(self) -> Piece | None:
        """What stands right before the piece at hand."""
        return self.direct(self.i, -1)

    @property
    def after(self) -> Piece | None:
        """What stands right behind the piece at hand."""
        return self.direct(self.i, 1)

    @property
    def near_before(self) -> Piece | None:
        """What carries meaning before the piece at hand."""
        return self.near(self.i, -1)

    @property
    def near_after(self) -> Piece | None:
        """What carries meaning behind the piece at hand."""
        return self.near(self.i, 1)

    def has(self, trait: str) -> bool:
        """Has the piece at hand this manner (see [TRAIT] in the word files)?"""
        return self.made.has(trait, self.piece.text)

    def colon_at(self, i: int) -> bool:
        """Does a colon or an equals sign stand there?"""
        return i < len(self.ps) and self.ps[i].text in (":", "=")

    def last_is(self, *types: str) -> bool:
        """Is the last token of one of these types, with nothing but little words since?"""
        return bool(self.out) and self.out[-1].type in types and self.lead in ("", "link")

    def link(self) -> int:
        """A little word: kept only as part of free text around it."""
        piece = self.piece
        if self.variety_open and self.last_is("VARIETY") and not self.has("names_variety"):
            self.variety_open = False  # "a peking variety this spring"
        if self.has("new_clause") and self.lead in ("", "link") and self.last_is("NUMBER", "COLOUR", "PLANTS"):
            self.lead = "soft"
        if self.lead == "":
            self.lead = "link"
        if self.last_is("TEXT", "LINK") and self.lead == "link":
            return self.emit("LINK", None, piece.start, piece.end)
        if unknown(self.at(self.i + 1)):
            self.emit("LINK", None, piece.start, piece.end)
            self.lead = "link"
        return 1


def is_number(piece: Piece | None) -> bool:
    """Is it a number or a range?"""
    return piece is not None and piece.kind in ("number", "range")


def unknown(piece: Piece | None) -> bool:
    """A word no table has?"""
    return piece is not None and piece.kind == "word" and not piece.entries
