"""What passes between the lexer, the chains and the parser: typed tokens, and the draft they come from."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from notes_bot.language.lexicon.pieces import Piece
from notes_bot.model import Language


class Word:
    """A typed token: what lark sees of a piece. lark wants the place attributes of its own tokens."""

    __slots__ = ("end", "free", "lead", "start", "text", "type", "value")
    line = column = end_line = end_column = 1

    def __init__(self, type_: str, value: Any, start: int, end: int, text: str, lead: str = "") -> None:
        self.type = type_
        self.value = value
        self.start = start
        self.end = end
        self.text = text
        self.free = False
        """A colour that may stand without a number: mostly white, w+y, had yellow."""
        self.lead = lead
        """What stands before it: "line", "hard" (a stop), "soft" (a comma), "colon", "link" (a little word), or ""."""

    @property
    def start_pos(self) -> int:
        """lark's name for ``start``."""
        return self.start

    @property
    def end_pos(self) -> int:
        """lark's name for ``end``."""
        return self.end

    def __repr__(self) -> str:
        return f"{self.type}:{self.value!r}"


@dataclass(slots=True)
class Slip:
    """A word read only after a correction: the kind of remark, how it was read, and where it stands."""

    kind: str
    read: str
    start: int
    end: int


@dataclass(slots=True)
class Draft:
    """A text on its way to the parser: what goes in, and what the lexer found besides tokens."""

    text: str
    language: Language
    pieces: list[Piece]
    fields: tuple[str, ...] = ()
    likely: frozenset[str] | None = None
    """See :class:`notes_bot.language.names.naming.Names`."""
    slips: list[Slip] = field(default_factory=list)
    asks: list[tuple[str, int, int]] = field(default_factory=list)
    """What the lexer itself must ask about: kind, start, end."""

    together: dict[int, tuple[str, ...]] = field(default_factory=dict)
    """Fields named in one breath with another, by where that one stands."""

    def ask(self, kind: str, start: int, end: int) -> None:
        """Note a question about a place in the text."""
        self.asks.append((kind, start, end))
