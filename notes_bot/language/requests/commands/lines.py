"""The lines of a message: which of them ask, and what is left for the notes."""

from __future__ import annotations

from notes_bot.language.clauses.context import Context
from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.requests import asking, put_beside, second_names, several_right, winter
from notes_bot.language.requests.commands.behind_notes import (
    adds_first,
    asked_below,
    noted_and_corrected,
    noted_beside,
    rained_first,
    several_results,
    without_requests,
)
from notes_bot.language.requests.commands.cutting import content_of, end_of, lines_of, sentences_of
from notes_bot.language.requests.commands.headings import (
    asked_above,
    asked_of_heading,
    brings_up,
    heads_list,
    heads_notes,
    only_day,
    only_shows,
    pinned_name,
)
from notes_bot.language.requests.commands.line import Line
from notes_bot.language.requests.commands.plain import only_noted
from notes_bot.language.requests.commands.several import asked_of_going, read_whole, several_requests, slips_told
from notes_bot.language.requests.commands.talk import (
    before_reason,
    beside_talk,
    only_talk,
    without_asking,
    without_plea,
)
from notes_bot.language.requests.commands.two_asked import two_asked
from notes_bot.language.requests.commands.twofold import twofold
from notes_bot.language.requests.commands.whole import read_line

MOST_BELOW = 8
"""Lines looked at below one that may head a list (judgement)."""


def _puts_right(line: list[Piece]) -> bool:
    """Is there a word for putting right or denying in the line: "6 dug" alone is of a note?"""
    return any(is_any(piece, ("CORRECT", "NOT")) for piece in line)


def take(context: Context, pieces: list[Piece]) -> list[Piece]:
    """Commands of the message, line by line, into the context; the pieces that are left are notes."""
    rest: list[Piece] = []
    lines = [without_plea(context, line) for line in lines_of(pieces)]
    contents = [content_of(line) for line in lines]
    if asked_above(context, [content for content in contents if content]):
        return []
    noted = any(any(is_any(p, ("DUG", "TOOL")) for p in content) and not _puts_right(content) for content in contents)
    said = content_of(pieces) if len(lines) > 1 and not noted else []
    if said and several_right.several_right(Line(context, said)):
        return []
    if len(lines) == 1 and several_right.answered_no(Line(context, lines[0])):
        return []
    listed = winter.lab_list(context, [Line(context, content) if content else None for content in contents])
    for n, (line, content) in enumerate(zip(lines, contents, strict=True)):
        below = contents[n + 1 : n + 1 + MOST_BELOW]
        if n in listed:
            dated = n and only_day(context, content)
            rest.extend(line if dated else [*pinned_name(context, content, below), *end_of(line)])
        elif not content or only_noted(content):
            rest.extend(line)
        else:
            rest.extend(_left_of(context, line, below, rest, first=not n))
    if asked_of_heading(context, rest) or (context.commands and only_talk(context, rest)):
        return []
    return rest if any(piece.kind != "line" for piece in rest) else []


def _left_of(
    context: Context, pieces: list[Piece], below: list[list[Piece]], rest: list[Piece], first: bool
) -> list[Piece]:
    """What is left for the notes of one line; ``rest`` is what was left of those above it."""
    content, found = content_of(pieces), context.found()
    left = _unasked_of(context, pieces, content, below, rest, first)
    if only_shows(context, found[0]) and brings_up(context, content, below):
        context.forget(found)
        return pieces
    return left


def _unasked_of(
    context: Context,
    pieces: list[Piece],
    content: list[Piece],
    below: list[list[Piece]],
    rest: list[Piece],
    first: bool,
) -> list[Piece]:
    """What is left of a line without what it asks."""
    line = Line(context, content)
    if not first and _right_below(context, line, rest):
        return []
    if _done_politely(context, content, first):
        return end_of(pieces)
    if (
        several_right.several_right(line)
        or second_names.second_named(line)
        or asked_of_going(context, content)
        or slips_told(context, content)
        or twofold(line)
        or several_requests(context, content)
        or two_asked(line)
    ):
        return []
    if heads_notes(context, content, below):
        return pieces
    if heads_list(context, content, below):
        return without_requests(context, pieces, rest, below)
    if not first and only_day(context, content):
        return pieces  # the day of a note told in lines
    if noted_and_corrected(context, content):
        return without_requests(context, pieces, rest, below)
    if rained := rained_first(context, content):
        return without_requests(context, pieces[pieces.index(content[0]) + rained :], rest)
    if asking.noted_first(line) or noted_beside(context, content) or adds_first(context, content, rest):
        return without_requests(context, pieces, rest, below)
    if asked_below(context, content, rest):
        return end_of(pieces)
    if (asked := before_reason(context, content)) and read_line(Line(context, asked)):
        return end_of(pieces)
    if not several_results(context, content) and read_whole(context, content):
        return [*pinned_name(context, content, below), *end_of(pieces)]
    if (asked := beside_talk(content)) and read_line(Line(context, asked)):
        return end_of(pieces)
    return without_requests(context, pieces, rest, below)


_DEEDS = frozenset({"correct", "take_back", "field", "move", "mute", "resume"})
"""What is asked to be done, and not to be told."""


def _done_politely(context: Context, content: list[Piece], first: bool) -> bool:
    """ "Can you put Kestrel off to Friday?": what is read as a deed behind the words that ask for it politely.

    Below another line its field must be told: "les pido silenciar los avisos de ese lote" is of the note above.
    """
    alone = before_reason(context, content) or content
    asked = without_asking(context, alone)
    if not asked:
        return False
    one = len(sentences_of(alone)) == 1
    asked = [Piece("break", ".", p.start, p.end, (), "hard") if p.text == "?" else p for p in asked]
    kept = context.found()
    if read_whole(context, asked):
        found = context.commands[kept[0] :]
        named = all(command.args.get("field") or command.args.get("name") for command in found)
        kinds = {command.kind for command in found}
        # What stands behind a request may be a note, and is its own; what is to be fixed is told behind the plea.
        if (first or named) and kinds <= (_DEEDS if one else {"correct"}):
            return True
    context.forget(kept)
    return False


def _right_below(context: Context, line: Line, before: list[Piece]) -> bool:
    """ "County line was V5" below a correction of another field, and below no note."""
    noted = any(piece.kind not in ("line", "break") for piece in before)
    corrected = bool(context.commands) and all(command.kind == "correct" for command in context.commands)
    return corrected and not noted and put_beside.also_right(line)
