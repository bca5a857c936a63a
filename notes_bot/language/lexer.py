"""Text to typed tokens: pieces joined, names found, senses chosen, numbers bound to their nouns.

The tokens go straight into lark's LALR parser.
"""

from __future__ import annotations

from collections.abc import Iterator

from lark.lexer import Lexer

from notes_bot.language.chains import bind
from notes_bot.language.dictation import heard_stages
from notes_bot.language.groups import grouped
from notes_bot.language.joining import (
    acidity_apart,
    bearings,
    day_words,
    ends_and_sides,
    labelled,
    next_looks,
    number_words,
    place_words,
    planted_days,
    plants_at_places,
    put_right,
    spoken_lists,
    stage_words,
    staged_beans,
)
from notes_bot.language.leaves import burnt_edges
from notes_bot.language.marks import mark_plants, nth_plants
from notes_bot.language.naming import Names
from notes_bot.language.place_lists import places_listed
from notes_bot.language.senses import Senses
from notes_bot.language.shares import shared
from notes_bot.language.tokens import Draft, Word
from notes_bot.language.unsaid import (
    by_their_color,
    compared,
    dug_in_all,
    each_of_them,
    ends_in_zero,
    females_told,
    halves,
    headings,
    loosened,
    none_of_dug,
    plants_again,
    roots_of_the_rest,
    shades_in_letters,
)
from notes_bot.language.words import table


class NoteLexer(Lexer):
    """lark's door to our tokens: it lexes a :class:`Draft`, whose slips and questions it fills in on the way."""

    def __init__(self, lexer_conf: object) -> None:
        """lark hands over its settings; we need none."""

    def lex(self, draft: Draft) -> Iterator[Word]:  # type: ignore[override]  # lark's base knows only text
        """All tokens of the draft in order, with BREAKs where clauses end."""
        if not draft.pieces:
            return
        made = table(draft.language)
        draft.pieces = labelled(acidity_apart(draft.pieces, made))
        draft.pieces = shades_in_letters(none_of_dug(draft.pieces, made), made)
        heard_stages(draft, made)
        draft.pieces = place_words(staged_beans(stage_words(draft.pieces, made)), made)
        draft.pieces = ends_and_sides(draft.pieces, made)
        draft.pieces = bearings(draft.pieces, made, draft.fields)
        draft.pieces = burnt_edges(draft.pieces, made)
        draft.pieces = places_listed(draft.pieces, made, draft.fields)
        nth_plants(draft.pieces)
        draft.pieces = day_words(number_words(spoken_lists(ends_in_zero(draft.pieces)), made), made)
        draft.pieces, slips = put_right(planted_days(draft.pieces, made), made)
        draft.slips += slips
        draft.pieces = shared(compared(halves(next_looks(draft.pieces, made), made), made), made)
        draft.pieces = headings(each_of_them(loosened(draft.pieces, made), made), made)
        draft.pieces = roots_of_the_rest(by_their_color(draft.pieces, made), made)
        draft.pieces = females_told(dug_in_all(draft.pieces, made), made)
        draft.pieces = plants_again(grouped(draft.pieces, made), made)
        draft.pieces = plants_at_places(draft.pieces, made)
        mark_plants(draft.pieces)
        names = Names(draft.text, draft.pieces, made, draft.fields)
        found = names.find()
        for start, end in names.two_fields(found):
            draft.ask("two_fields", start, end)
        yield from bind(Senses(draft, names, found, made).run(), draft)
