"""Lines that head others, or stand below what they are of."""

from __future__ import annotations

import itertools
from collections.abc import Iterable
from dataclasses import replace
from itertools import pairwise

from notes_bot.language.clauses.context import Context
from notes_bot.language.lexicon.joining import day_words, is_any, linking, number_words
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.scan import fold, scan
from notes_bot.language.lexicon.words import anywhere, table
from notes_bot.language.names.naming import written
from notes_bot.language.requests.commands.cutting import sentences_of, words_said
from notes_bot.language.requests.commands.line import LONGEST_NAME, Line
from notes_bot.language.requests.commands.whole import read_line
from notes_bot.model import Command

_ASKED_ABOVE = ("MUTE", "RESUME", "PICTURE", "HISTORY", "STATE", "UNDO", "SKIP")
OF_A_FIELD = frozenset(
    {"move", "take_back", "state", "picture", "history", "mute", "resume", "lab", "sample", "report", "rotation"}
    | {"look_plan", "look_worth"}
)
"""Kinds of asking that are of one field."""
LONGEST_HEADING = 8
"""Words of the longest line that says what the notes below it are (judgement)."""


def asked_above(context: Context, lines: list[list[Piece]]) -> bool:
    """ "Hist" above "quarry": a word for what is asked alone, and a field's name on the next line."""
    if len(lines) != 2 or len(lines[0]) != 1 or len(lines[1]) > LONGEST_NAME:
        return False
    asked, name = lines[0][0], lines[1]
    alone = is_any(asked, _ASKED_ABOVE) and "FIELD" not in asked.types
    known = "FIELD" in name[0].types or Line(context, name).known_span(-1) == (name[0].start, name[-1].end)
    known = known and not any(p.kind == "line" for p in name)
    strange = not context.fields and name[0].kind == "word" and all(p.kind in ("word", "number") for p in name)
    strange = strange and not any(is_any(p, ("COURTESY", "PLANTS", "DUG", "COLOUR", "NONE")) for p in name)
    return alone and (known or strange) and read_line(Line(context, [asked, *name]))


def asked_of_heading(context: Context, rest: list[Piece]) -> bool:
    """ "Quarry" or "Field: Quarry" above "skip": a field's name alone, and what is asked of it on the next line."""
    told = [piece for piece in rest if piece.kind not in ("line", "break") and piece.text != ":"]
    told = told[len(told) > 1 and is_any(told[0], ("FIELD_WORD",)) :]
    if len(told) != 1 or "FIELD" not in told[0].types or len(context.commands) != 1:
        return False
    asked = context.commands[0]
    name = written(context.text, told[0].start, told[0].end)
    below = asked.where.line - context.text.count("\n", 0, told[0].start) - 1
    if below != 1 or asked.kind not in OF_A_FIELD or asked.args.get("field") not in (None, name):
        return False
    if asked.args.get("all"):
        return False
    context.commands[0] = replace(asked, args={**asked.args, "field": name})
    return True


def heads_list(context: Context, content: list[Piece], below: list[list[Piece]]) -> bool:
    """ "My list for today", "Rain was 1.3 inches. Both fields below:" above lines that each tell of a field."""
    if not (any("DUE" in p.types for p in content) or len(sentences_of(content)) > 1):
        return False
    told = [Line(context, other) for other in below if other]
    fields = [line for line in told if any("FIELD" in p.types for p in line.ps[:3])]
    return len(fields) > 1 and all(line.tells(reasons=False) or _untold(line) for line in fields)


def _untold(line: Line) -> bool:
    """Does the line say why nobody looked?"""
    return any(is_any(piece, ("NOT_LOOKED", "MOISTURE")) for piece in line.ps)


def heads_notes(context: Context, content: list[Piece], below: list[list[Piece]]) -> bool:
    """ "Summary of July 6 rounds", "Season report - Kestrel" above lines of notes: what they are, and nothing asked."""
    line = Line(context, content)
    words = words_said(content)
    headed = any(line.made.has("notes_heading", word) for word in words)
    asks = line.asked or any(line.made.has("asks_for", word) or word in anywhere("please") for word in words)
    if not headed or asks or len(words) > LONGEST_HEADING or line.tells():
        return False
    told = [Line(context, other) for other in below if other]
    return any(other.tells() for other in told) and not any(other.asked for other in told)


MOST_AHEAD = 20
"""Sentences behind one that are looked at for what is told of its field, at most (judgement)."""


def brings_up(context: Context, content: list[Piece], ahead: Iterable[list[Piece]]) -> bool:
    """ "Paso a contarte qué encontré en Loma Alta." before "6 plantas ..": the field of what is told behind it.

    Then it asks nothing, unless it does so by its sign or a word for asking.

    Args:
        content: a sentence or line.
        ahead: the sentences or lines behind it; those from the next that names a field on are of another.
    """
    if sum("FIELD" in p.types for p in content) != 1 or any(p.text == "?" for p in content):
        return False
    line = Line(context, content)
    if line.tells() or (line.politely() and not any(command.kind == "correct" for command in context.commands[-1:])):
        return False  # but "Put this under Quarry please" above a visit
    if any(line.made.has("asks_for", word) for word in words_said(content)):
        return False
    own = itertools.takewhile(lambda part: not any("FIELD" in p.types for p in part), filter(None, ahead))
    told = [Line(context, part) for part in itertools.islice(own, MOST_AHEAD)]
    return any(other.tells(reasons=False) or _untold(other) for other in told) and not any(o.asked for o in told)


SHOWN = frozenset({"state", "history", "picture", "due", "digest"})
"""Kinds of asking that only show something."""


def only_shows(context: Context, made: int) -> bool:
    """Do all commands from one on only show something, or read a stop on the way for one ("Second stop Kestrel")?"""
    asked = context.commands[made:]
    return bool(asked) and all(command.kind in SHOWN or _on_the_way(context, command) for command in asked)


def _on_the_way(context: Context, command: Command) -> bool:
    """ "Second stop Kestrel", "otro lote, La Tapera": where one was next, no end of reminders and nothing put right.

    "New field, Kestrel" adds none that the crew has already.
    """
    made = table(context.language)
    words = [x.text for x in scan(command.where.text)]
    if command.kind == "mute":
        led = [e.type for word in words[:1] for e in made.singles.get(word, ())]
        return bool({"ORDINAL", "NTH"} & set(led)) or any(made.has("goes_on", word) for word in words[:1])
    if command.kind == "field":
        own = [key for key, value in command.args.items() if value is not None]
        return own == ["name"] and command.args["name"] in {fold(name) for name in context.listed}
    return command.kind == "correct" and command.args.keys() == {"what", "value"} and command.args["what"] == "field"


def only_day(context: Context, content: list[Piece]) -> bool:
    """A line that is nothing but a day with its number ("on the 6th", "7/6")."""
    days = day_words(number_words(content, table(context.language)), table(context.language))
    rest = [p for p in days if p.kind not in ("sign", "break") and not linking(p)]
    return len(rest) == 1 and rest[0].kind == "day" and not rest[0].value.next


def pinned_name(context: Context, content: list[Piece], below: list[list[Piece]]) -> list[Piece]:
    """ "Kestrel 41.9 N 93.4 W" above "R1, 4 plants, no females": its name, of which the note below is told, too."""
    told = below[0] if below else []
    named = [p for p in content if "FIELD" in p.types]
    kinds = {command.kind for command in context.commands[-1:]}
    if kinds != {"field"} or len(named) != 1 or not told or any("FIELD" in p.types for p in told[:LONGEST_NAME]):
        return []
    visit = any(p.kind == "stage" for p in told) or any(
        p.kind == "number" and is_any(q, ("PLANTS",)) for p, q in pairwise(told)
    )
    return named if visit else []
