"""Text to typed tokens: pieces joined, names found, senses chosen, numbers bound to their nouns.

The tokens go straight into lark's LALR parser.
"""

from __future__ import annotations

from collections.abc import Iterator

from lark.lexer import Lexer

from notes_bot.language.clauses.chains import bind
from notes_bot.language.lexicon.tokens import Draft, Word
from notes_bot.language.lexicon.words import table
from notes_bot.language.names.naming import Names
from notes_bot.language.passes.in_order import gone_over
from notes_bot.language.senses import sensed


class NoteLexer(Lexer):
    """lark's door to our tokens: it lexes a :class:`Draft`, whose slips and questions it fills in on the way."""

    def __init__(self, lexer_conf: object) -> None:
        """lark hands over its settings; we need none."""

    def lex(self, draft: Draft) -> Iterator[Word]:  # type: ignore[override]  # lark's base knows only text
        """All tokens of the draft in order, with BREAKs where clauses end."""
        if not draft.pieces:
            return
        made = table(draft.language)
        gone_over(draft, made)
        names = Names(draft.text, draft.pieces, made, draft.fields, draft.likely)
        found = names.find()
        for start, end in names.two_fields(found):
            draft.ask("two_fields", start, end)
        yield from bind(sensed(draft, names, found, made), draft)
