"""What is asked rather than noted: a line that starts (or ends) with a word for it.

Notes are free prose and go through the grammar; what is asked is one short line, so a table of first words and one
small method each is the whole of it. A line that turns out to hold a note is left to the note.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from functools import cached_property
from itertools import pairwise
from typing import Any

from notes_bot.language.clauses.context import Context
from notes_bot.language.lexicon.days import PLANTED_DAYS, UNIT_DAYS, DayWritten, coming_day, past_day
from notes_bot.language.lexicon.joining import (
    NOUNS,
    day_words,
    is_any,
    linking,
    number_like,
    number_words,
    phrase_end,
    stage_words,
    until_days,
)
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.scan import clean, fold, scan
from notes_bot.language.lexicon.words import Table, anywhere, is_field_word, table
from notes_bot.language.names.naming import LIKE, LIKE_WHOLE, Names, joints, written
from notes_bot.language.requests import (
    amends,
    asking,
    inquiring,
    looking,
    misplaced,
    put_beside,
    rain_at,
    registering,
    seeds,
    skies,
    telling,
    winter,
    wishes,
)
from notes_bot.language.requests.corrections import ACRES_PER_HECTARE, acres_told, correction, other_field
from notes_bot.language.requests.no_correction import plainly_noted
from notes_bot.language.requests.two_asked import two_asked
from notes_bot.language.requests.twofold import twofold
from notes_bot.model import Command

LONGEST_NAME = 6
"""Pieces in the longest name of a field that is asked about (judgement)."""
MOST_NAMED = 2
"""Pieces of a request that is only a field and what is asked of it (judgement)."""
LONGEST_REQUEST = 20
"""Pieces in the longest sentence that asks; a longer one tells (judgement)."""
_ASKED = ("PICTURE", "HISTORY", "MUTE", "RESUME", "DUE", "DIGEST", "STATE")
"""What may be asked for in a whole sentence, the more particular first."""
_TOLD = (
    "COLOUR",
    "NONE",
    "DUG",
    "TOOL",
    "NOT_LOOKED",
    "TOO_MANY",
    "SOAKED",
    "PLANTED",
    "SPRAY",
    "CHEMICAL",
    "RESISTANCE",
)
"""Words of a note: a line that holds one asks nothing."""
PROPERTIES = frozenset({"NEAR", "PLANTED", "VARIETY", "RESISTANCE", "SOURCE", "PLACE", "ALIAS"})
MM_PER_INCH = 25.4
"""Exact, by definition of the inch."""
MM = {"mm": 1.0, "cm": 10.0, "in": MM_PER_INCH, '"': MM_PER_INCH}
"""Millimetres of a unit of rain, by its sign."""
_MM_SAID = {"in_millimetres": 1.0, "in_inches": MM_PER_INCH, "in_tenths": 2.54, "in_hundredths": 0.254}
"""Millimetres of a unit of rain, by the manner of the words for it."""
SHORT_RAIN = 6
"""Pieces of "half inch today finally", which tells of nothing but rain (judgement)."""
LONGEST_DRY = 10
"""Pieces of the longest line that only says no rain fell (judgement)."""
OPENING_WORDS = 4
"""Pieces of "y por favor corrijan" with which a sentence opens (judgement)."""
MOST_INCHES = 8.0
"""Inches of rain told without their unit (judgement)."""
MOST_RAIN = 400.0
"""Millimetres of rain told in passing; more was not rain (judgement)."""


def take(context: Context, pieces: list[Piece]) -> list[Piece]:
    """Commands of the message, line by line, into the context; the pieces that are left are notes."""
    rest: list[Piece] = []
    lines = [_without_plea(context, line) for line in _lines(pieces)]
    if _asked_above(context, [content for line in lines if (content := _content(line))]):
        return []
    listed = winter.lab_list(context, [_content(line) for line in lines])
    for n, line in enumerate(lines):
        content = _content(line)
        if n not in listed and only_noted(content):
            rest.extend(line)
            continue
        if n and content and n not in listed and _right_below(context, content, rest):
            continue
        if content and n not in listed and (twofold(Line(context, content)) or _several_requests(context, content)):
            continue
        if content and n not in listed and two_asked(Line(context, content)):
            continue
        below = lines[n + 1 : n + 1 + MOST_BELOW]
        if content and n not in listed and _heads_notes(context, content, below):
            rest.extend(line)
            continue
        if content and n not in listed and _heads_list(context, content, below):
            rest.extend(_without_requests(context, line, rest))
            continue
        if content and len(lines) > 1 and n and _only_day(context, content):
            rest.extend(line)  # the day of a note told in lines
            continue
        if content and n not in listed and _noted_and_corrected(context, content):
            rest.extend(_without_requests(context, line, rest))
            continue
        if content and n not in listed and (rained := _rained_first(context, content)):
            line = line[line.index(content[0]) + rained :]
            rest.extend(_without_requests(context, line, rest))
            continue
        if content and n not in listed and asking.noted_first(Line(context, content)):
            rest.extend(_without_requests(context, line, rest))
            continue
        if content and n not in listed and _noted_beside(content):
            rest.extend(_without_requests(context, line, rest))
            continue
        if content and n not in listed and _adds_first(context, content, rest):
            rest.extend(_without_requests(context, line, rest))
            continue
        if content and n not in listed and _asked_below(context, content, rest):
            if line[-1].kind == "line":
                rest.append(line[-1])
            continue
        if n in listed or (content and not _several_results(context, content) and Line(context, content).take()):
            rest.extend(_pinned_name(context, content, lines[n + 1 : n + 2]))
            if line[-1].kind == "line":
                rest.append(line[-1])
        elif (asked := _beside_talk(content)) and Line(context, asked).take():
            rest.extend(line[-1:] if line[-1].kind == "line" else [])
        else:
            rest.extend(_without_requests(context, line, rest))
    if _asked_of_heading(context, rest) or (context.commands and _only_talk(context, rest)):
        return []
    return rest if any(piece.kind != "line" for piece in rest) else []


def _right_below(context: Context, content: list[Piece], before: list[Piece]) -> bool:
    """ "County line was V5" below a correction of another field, and below no note."""
    noted = any(piece.kind not in ("line", "break") for piece in before)
    corrected = bool(context.commands) and all(command.kind == "correct" for command in context.commands)
    return corrected and not noted and put_beside.also_right(Line(context, content))


_ADDS = ("MOISTURE", "TEXTURE", "TOPS", "ROOTS", "NODULES", "RESISTANCE", "SOURCE")
"""What a sentence below a note adds to it."""


def _adds_first(context: Context, content: list[Piece], before: list[Piece]) -> bool:
    """ "Both fields dry. What else is due?" below notes: the first sentence adds to them."""
    sentences = _sentences(content) if before else []
    first = _content(sentences[0]) if len(sentences) > 1 else []
    added = any(p.kind == "stage" or (is_any(p, _ADDS) and not linking(p)) for p in first)
    return added and not asking.may_ask(Line(context, first))


_ASKED_ABOVE = ("MUTE", "RESUME", "PICTURE", "HISTORY", "STATE", "UNDO", "SKIP")


def _asked_above(context: Context, lines: list[list[Piece]]) -> bool:
    """ "Hist" above "quarry": a word for what is asked alone, and a field's name on the next line."""
    if len(lines) != 2 or len(lines[0]) != 1 or len(lines[1]) > LONGEST_NAME:
        return False
    asked, name = lines[0][0], lines[1]
    alone = is_any(asked, _ASKED_ABOVE) and "FIELD" not in asked.types
    known = "FIELD" in name[0].types or Line(context, name).known_span(-1) == (name[0].start, name[-1].end)
    known = known and not any(p.kind == "line" for p in name)
    strange = not context.fields and name[0].kind == "word" and all(p.kind in ("word", "number") for p in name)
    strange = strange and not any(is_any(p, ("COURTESY", "PLANTS", "DUG", "COLOUR", "NONE")) for p in name)
    return alone and (known or strange) and Line(context, [asked, *name]).take()


_OF_A_FIELD = frozenset(
    {"move", "take_back", "state", "picture", "history", "mute", "resume", "lab", "sample", "report", "rotation"}
    | {"look_plan", "look_worth"}
)
"""Kinds of asking that are of one field."""


def _asked_of_heading(context: Context, rest: list[Piece]) -> bool:
    """ "Quarry" above "skip": a field's name alone, and what is asked of it on the next line."""
    told = [piece for piece in rest if piece.kind not in ("line", "break")]
    if len(told) != 1 or "FIELD" not in told[0].types or len(context.commands) != 1:
        return False
    asked = context.commands[0]
    name = written(context.text, told[0].start, told[0].end)
    below = asked.where.line - context.text.count("\n", 0, told[0].start) - 1
    if below != 1 or asked.kind not in _OF_A_FIELD or asked.args.get("field") not in (None, name):
        return False
    if asked.args.get("all"):
        return False
    context.commands[0] = replace(asked, args={**asked.args, "field": name})
    return True


_NOTED = frozenset(
    {"FIELD", "PLANTS", "DUG", "TOOL", "SOAKED", "COLOUR", "FEMALES", "NONE", "NODULE", "NODULES", "ROOT", "ROOTS"}
    | {"MOISTURE", "TEXTURE", "LINK", "SPOT", "MONTH", "TOPS", "TOP", "EACH", "MOSTLY", "TOTAL", "NEW", "OLD", "VEINS"}
    | {
        "LOOK",
        "UNIT",
        "FIELD_WORD",
        "NUMBER_WORD",
        "TODAY",
        "WEEKDAY",
        "BELOW",
        "ABOUT",
        "TOO_MANY",
        "EDGES",
        "GREEN",
        "CHECK",
        "PH",
    }
)
"""Kinds of words of a plain note: a line with no others asks for nothing and puts nothing right."""
_NO_NOTE = frozenset({"CORRECT", "NOT", "UNDO", "PLANTED", "RESISTANCE", "SOURCE", "EGGS", "SAME", "HAD", "DAP"})


def only_noted(content: list[Piece]) -> bool:
    """Is a line a plain note, and so need not be searched for requests? That changes no reading."""
    return _plain_note(content)


def _plain_note(content: list[Piece]) -> bool:
    """Only words of a plain note, of what was dug and seen: "kestrel 6/11 V4 moist 6 pl none"?"""
    dug = seen = False
    if content and "PLANTS" in content[0].types:
        return False  # "muda marrom pra 5 no lote 7": seedling, or change
    for piece in content:
        if piece.text == "?" or piece.text in anywhere("really"):
            return False  # "kestrel 8 plants was really 10"
        if piece.kind != "word":
            seen = seen or piece.kind in ("number", "series")
            continue
        kinds = piece.types.keys()
        if kinds.isdisjoint(_NOTED) or not kinds.isdisjoint(_NO_NOTE):
            return False
        dug = dug or not kinds.isdisjoint(("PLANTS", "DUG", "TOOL"))
        seen = seen or "NONE" in kinds
    return dug and seen


LEAST_BESIDE = 2
"""Sentences of a line that tells a note and asks of another field."""
_OF_ANOTHER = ("EGGS", "MUTE", "RESUME", "PICTURE", "HISTORY", "STATE", "SKIP", "MOVE")
"""What is told or asked of one field beside the note of another."""


def _noted_beside(content: list[Piece]) -> bool:
    """ "Tannery pulled 4, 0. Lab Sumac 2400 eggs per 100cc": a plain note, and another field in its own sentence."""
    sentences = _sentences(content)
    if len(sentences) < LEAST_BESIDE:
        return False
    noted: set[str] = set()
    others: set[str] = set()
    for sentence in sentences:
        named = {piece.text for piece in sentence if "FIELD" in piece.types}
        if _plain_note(sentence) or any("NOT_LOOKED" in piece.types for piece in sentence):
            noted |= named
        elif any(is_any(piece, _OF_ANOTHER) for piece in sentence):
            others |= named
    return bool(noted and others) and not noted & others


def _without_plea(context: Context, line: list[Piece]) -> list[Piece]:
    """A line without "Please fix." at its end, which adds nothing to the correction told before it."""
    made = table(context.language)
    sentences = _sentences(line)
    last = [p for p in sentences[-1] if p.kind not in ("break", "line")] if sentences else []
    little = ("please", "it_word", "lone_correct")
    plea = any(made.has("lone_correct", p.text) for p in last) and all(
        "COURTESY" in p.types or any(made.has(trait, p.text) for trait in little) for p in last
    )
    if len(sentences) < 2 or not plea:
        return line
    ends = [p for p in sentences[-1] if p.kind == "line"]
    return [p for sentence in sentences[:-1] for p in sentence] + ends


def _pinned_name(context: Context, content: list[Piece], below: list[list[Piece]]) -> list[Piece]:
    """ "Kestrel 41.9 N 93.4 W" above "R1, 4 plants, no females": its name, of which the note below is told, too."""
    told = _content(below[0]) if below else []
    named = [p for p in content if "FIELD" in p.types]
    kinds = {command.kind for command in context.commands[-1:]}
    if kinds != {"field"} or len(named) != 1 or not told or any("FIELD" in p.types for p in told[:LONGEST_NAME]):
        return []
    visit = any(p.kind == "stage" for p in told) or any(
        p.kind == "number" and is_any(q, ("PLANTS",)) for p, q in pairwise(told)
    )
    return named if visit else []


def _asked_below(context: Context, content: list[Piece], above: list[Piece]) -> bool:
    """A line below a note that asks of its field: "whats the history there", "les pido silenciar ese lote"."""
    if all(piece.kind in ("line", "break") for piece in above) or len(_sentences(content)) > 1:
        return False
    named = _named_last(above)
    return Line(context, content).aside(named, (above, []))


_TALKED = frozenset(
    {"due", "help", "state", "history", "picture", "move", "digest", "mute", "resume", "language", "place"}
)
"""Kinds of asking that people explain in more words ("Which fields are due? I can cover 5 or 6 on Thursday.")."""


def _only_talk(context: Context, rest: list[Piece]) -> bool:
    """Do the sentences beside what is asked name no field and tell nothing of one?"""
    if not {command.kind for command in context.commands} <= _TALKED or not context.fields:
        return False
    data = {
        *_TOLD,
        "PLANTS",
        "FEMALES",
        "EACH",
        "FIELD",
        "FIELD_WORD",
        "CHECK",
        "CORRECT",
        "MOISTURE",
        "PH",
        "POTASSIUM",
    }
    return not any(piece.kind in ("stage", "series", "ratio") or is_any(piece, data) for piece in rest)


_TALKED_OF = frozenset({"LINK", "TEXT", "COURTESY", "SPOT", "ABOUT", "MEASURE", "LOOK", "WEEKDAY", "TODAY", "HAD"})
"""Kinds of word that everyday talk holds too."""


def _beside_talk(content: list[Piece]) -> list[Piece]:
    """ "Undo. Gate was left open again.": the one sentence beside sentences that tell and ask nothing; or nothing."""
    sentences = [part for part in (_content(sentence) for sentence in _sentences(content)) if part]
    told = [part for part in sentences if not _is_talk(part)]
    return told[0] if len(told) == 1 < len(sentences) else []


def _is_talk(sentence: list[Piece]) -> bool:
    """A sentence of several words, none of them a number or a word of notes and requests."""
    words = all(piece.kind in ("word", "break", "sign") and piece.text != "?" for piece in sentence)
    planned = any(is_any(p, ("LOOK",)) for p in sentence) and any(is_any(p, ("WEEKDAY", "TODAY")) for p in sentence)
    plain = all(not piece.types or piece.types.keys() & _TALKED_OF for piece in sentence)
    return len(sentence) > 2 and words and plain and not planned and not any(is_any(p, ("FIELD",)) for p in sentence)


def _sentences(line: list[Piece]) -> list[list[Piece]]:
    """A line cut behind every stop, but for those of a type ("2.5.7")."""
    out: list[list[Piece]] = [[]]
    for n, piece in enumerate(line):
        out[-1].append(piece)
        stop = piece.kind == "break" and piece.value == "hard" and not _within_number(line, n)
        if piece.kind == "line" or stop or piece.text == "?":
            out.append([])
    return [sentence for sentence in out if sentence]


def _within_number(line: list[Piece], n: int) -> bool:
    """Is the stop one between two numbers that touch it?"""
    if not 0 < n < len(line) - 1:
        return False
    before, stop, behind = line[n - 1 : n + 2]
    glued = before.end == stop.start and stop.end == behind.start
    return stop.text == "." and glued and before.kind == behind.kind == "number"


def _several_requests(context: Context, content: list[Piece]) -> bool:
    """ "Skip tinkers, already sampled it. Also rename kestrel to gin lot.": two sentences, each a request."""
    parts = [part for part in (_content(sentence) for sentence in _sentences(content)) if part]
    if _corrected_next(context, parts) or _corrected_then_asked(context, parts):
        return True
    if Line(context, content)._tells(reasons=True):
        return False
    parts = [part for whole in parts for part in _joined_requests(context, whole)]
    if not 2 <= len(parts) <= MOST_REQUESTS:
        return False
    before = [len(rows) for rows in (context.commands, context.problems, context.remarks)]
    taken = 0
    if any(winter.holds_count(Line(context, part)) for part in parts):
        return False
    named: Piece | None = None
    for part in parts:
        line = Line(context, _without_also(part))
        of_it = named is not None and not any("FIELD" in p.types for p in part)
        of_it = of_it and (
            len(part) == 1
            or any(table(context.language).has(trait, p.text) for p in part for trait in ("it_word", "ask_it"))
        )
        started = len(context.commands)
        taken += (of_it and line.aside(named)) or line.take() or line.aside(named)
        if of_it and named is not None:
            _of_it(context, started, named)
        named = next((p for p in part if p.kind == "word" and "FIELD" in p.types), named)
    made = context.commands[before[0] :]
    asked = {(command.kind, str(command.args.get("field") or command.args.get("name") or "")) for command in made}
    asked -= {(kind, "") for kind, name in asked if name}  # "not gonna do kestrel this time, skip it": said twice
    if taken < 2 or len(asked) < 2 or not all(_names_known(context, command) for command in made):
        taken = 0
        for rows, size in zip((context.commands, context.problems, context.remarks), before, strict=True):
            del rows[size:]  # type: ignore[attr-defined]  # three lists of three kinds
    return taken > 1


def _of_it(context: Context, made: int, named: Piece) -> None:
    """ "Puxa o histórico do cupim e me lembra dele em 5 dias": what is asked of it is asked of the field before."""
    name = written(context.text, named.start, named.end)
    for n, command in enumerate(context.commands[made:], made):
        if command.kind in _OF_A_FIELD and not command.args.get("field") and not command.args.get("all"):
            context.commands[n] = replace(command, args={**command.args, "field": name})


def _corrected_then_asked(context: Context, parts: list[list[Piece]]) -> bool:
    """ "Make that 9 plants. Mute kestrel", "tans on kestrel were 7 actually. What's due?": put right, and then more.

    Where the correction names no field, what is asked must name one: else it may be of the last note as well.
    """
    if not 2 <= len(parts) <= MOST_REQUESTS:
        return False
    named = next((p for p in parts[0] if "FIELD" in p.types), None)
    if named is None and not all(any("FIELD" in p.types for p in part) for part in parts[1:]):
        return False
    kept = [len(rows) for rows in (context.commands, context.problems, context.remarks)]
    first = Line(context, parts[0])
    right = put_beside.put_beside(first, lone=True) or ((first._corrects() or named is None) and first.take())
    right = right and all(c.kind == "correct" for c in context.commands[kept[0] :])
    asked = len(context.commands)
    right = right and asked > kept[0] and len(context.problems) == kept[1]
    right = right and all(_asked_then(Line(context, _without_also(part)), named) for part in parts[1:])
    for n, command in enumerate(context.commands[asked:], asked):
        if named is not None and command.kind == "correct" and command.args.get("field") is None:
            field = context.commands[kept[0]].args.get("field")
            context.commands[n] = replace(command, args={**command.args, "field": field})
    new = context.commands[asked:]
    right = right and (named is not None or all(c.kind != "correct" for c in new))
    if right and all(c.kind == "correct" or _names_known(context, c) or c.kind in _OF_NO_FIELD for c in new):
        return True
    for rows, size in zip((context.commands, context.problems, context.remarks), kept, strict=True):
        del rows[size:]  # type: ignore[attr-defined]  # three lists of three kinds
    return False


_OF_NO_FIELD = frozenset({"due", "help", "digest"})
"""Kinds of asking that are of no one field."""


def _asked_then(line: Line, named: Piece | None) -> bool:
    """What is asked, or put right, behind a correction: of a field of its own, or of the one put right."""
    if put_beside.also_right(line):
        return True
    own = any("FIELD" in p.types for p in line.ps)
    return (not own and named is not None and line.aside(named)) or line.take()


def _corrected_next(context: Context, parts: list[list[Piece]]) -> bool:
    """ "I made a mistake in my note about Kestrel. White should be 24, not 22.": two sentences, one field."""
    if len(parts) != 2 or any(p.kind in ("number", "stage", "day", "series") for p in parts[0]):
        return False
    opening = Line(context, parts[0])
    field = opening._known_name(-1)
    wrong = any("CORRECT" in p.types or _says_wrote(context, p) for p in parts[0])
    made = len(context.commands)
    if field is None or not wrong or opening._tells() or not correction(context, Line(context, parts[1]).ps):
        return False
    for n, command in enumerate(context.commands[made:], made):
        if command.args.get("field") is None:
            context.commands[n] = replace(command, args={**command.args, "field": field})
    return True


def _only_day(context: Context, content: list[Piece]) -> bool:
    """A line that is nothing but a day with its number ("on the 6th", "7/6")."""
    days = day_words(number_words(content, table(context.language)), table(context.language))
    rest = [p for p in days if p.kind not in ("sign", "break") and not linking(p)]
    return len(rest) == 1 and rest[0].kind == "day" and not rest[0].value.next


MOST_BELOW = 8
"""Lines looked at below one that may head a list (judgement)."""


def _heads_list(context: Context, content: list[Piece], below: list[list[Piece]]) -> bool:
    """ "My list for today", "Rain was 1.3 inches. Both fields below:" above lines that each tell of a field."""
    if not (any("DUE" in p.types for p in content) or len(_sentences(content)) > 1):
        return False
    told = [Line(context, _content(line)) for line in below if _content(line)]
    fields = [line for line in told if any("FIELD" in p.types for p in line.ps[:3])]
    return len(fields) > 1 and all(line._tells(reasons=False) or _untold(line) for line in fields)


def _heads_notes(context: Context, content: list[Piece], below: list[list[Piece]]) -> bool:
    """ "Summary of July 6 rounds", "Season report - Kestrel" above lines of notes: what they are, and nothing asked."""
    line = Line(context, content)
    words = [word for piece in content for word in piece.text.split(" ")]
    headed = any(line.made.has("notes_heading", word) for word in words)
    asks = line.asked or any(line.made.has("asks_for", word) or word in anywhere("please") for word in words)
    if not headed or asks or len(words) > LONGEST_HEADING or line._tells():
        return False
    told = [Line(context, _content(other)) for other in below if _content(other)]
    return any(other._tells() for other in told) and not any(other.asked for other in told)


LONGEST_HEADING = 8
"""Words of the longest line that says what the notes below it are (judgement)."""


def _untold(line: Line) -> bool:
    """Does the line say why nobody looked?"""
    return any(is_any(piece, ("NOT_LOOKED", "MOISTURE")) for piece in line.ps)


def _noted_and_corrected(context: Context, content: list[Piece]) -> bool:
    """ "Kestrel 5 plants none. For tinkers i meant 14 white not 4": a note, and a correction of another field's."""
    parts = [part for part in (_content(sentence) for sentence in _sentences(content)) if part]
    named = [next((p.text for p in part if "FIELD" in p.types), "") for part in parts]
    if len(parts) < 2 or not named[0] or not Line(context, parts[0])._tells() or Line(context, parts[0])._corrects():
        return False
    return any(name not in ("", named[0]) and Line(context, parts[n])._corrects() for n, name in enumerate(named))


def _says_wrote(context: Context, piece: Piece) -> bool:
    """A word for what was written before ("my note about ..")?"""
    made = table(context.language)
    return any(made.has("wrote", word) or made.has("mail_word", word) for word in piece.text.split(" "))


_BEGINS = ("PICTURE", "HISTORY", "STATE", "MUTE", "RESUME", "SKIP", "MOVE", "UNDO", "RENAME", "DUE", "DIGEST")
"""Words a second request of one sentence begins with."""


def _joined_requests(context: Context, part: list[Piece]) -> list[list[Piece]]:
    """ "Push gravel hill back 3 days n skip lone ash": cut before a word for asking that is joined by "and"."""
    made = table(context.language)
    out: list[list[Piece]] = [[]]
    for n, piece in enumerate(part):
        joint = piece.text in joints() or made.has("then_word", piece.text)
        last = n + 1
        while joint and last < len(part) and (made.has("then_word", part[last].text) or part[last].text in joints()):
            last += 1
        ahead = " ".join(p.text for p in part[last : last + 3]) + " " if joint else ""
        polite = any(ahead.startswith(word + " ") for word in made.traits["asks_politely"])
        asks = joint and _begins_request(part[last:], made)
        asks = asks or (last < len(part) and made.has("asks_for", part[last].text))
        asks = asks or (last < len(part) and made.has("opens_question", part[last].text))
        named = last < len(part) and is_any(part[last], ("FIELD",)) and is_any(part[-1], ("PICTURE", "HISTORY"))
        asks = asks or (named and last == len(part) - MOST_NAMED)  # "tower hist, depot chart"
        if joint and out[-1] and n and (polite or asks):
            out.append([])
            continue
        if not out[-1] and len(out) > 1 and (piece.text in joints() or made.has("then_word", piece.text)):
            continue
        out[-1].append(piece)
    return [cut for cut in (_content(piece) for piece in out) if cut]


def _begins_request(ahead: list[Piece], made: Table) -> bool:
    """ ".. y el historial de zanja sur", ".., lab tinkers": a word for what is asked, an article before it or not."""
    led = len(ahead) > 1 and made.has("nth_article", ahead[0].text)
    first, behind = (ahead[1], ahead[2:]) if led else (ahead[0] if ahead else None, ahead[1:])
    if first is None or is_any(first, ("FIELD",)) or (is_any(first, ("LINK",)) and not led):
        return False
    field = next((p for p in behind if not linking(p)), None)
    lab = made.has("lab_thing", first.text) and field is not None and is_any(field, ("FIELD",))
    return is_any(first, _BEGINS) or lab


def _names_known(context: Context, command: Command) -> bool:
    """Is the field a request speaks of one of the crew's?"""
    told = command.args.get("field")
    if not told or not context.fields:
        return command.kind != "history"
    return Names(str(told), [], table(context.language), context.fields).like_known(0, len(str(told)))


def _without_also(part: list[Piece]) -> list[Piece]:
    while len(part) > 1 and part[0].text in anywhere("also"):
        part = part[1:]
    return part


MOST_REQUESTS = 5
"""Sentences of one line that may each be a request (judgement)."""


def _rained_first(context: Context, content: list[Piece]) -> int:
    """ "Choveu 12 mm ontem e por isso não deu pra cavar no ..": rain, and behind it a note; where that begins, or 0."""
    bounds = [n for n, p in enumerate(content[:LONGEST_REQUEST]) if n and (p.kind == "break" or p.text in joints())]
    for n in bounds:
        told = any("FIELD" in p.types for p in content[:n])
        if told or not any("FIELD" in p.types for p in content[n:]) or not Line(context, content[n:])._tells():
            continue
        if Line(context, content[:n])._rained():
            return n
    return 0


def _several_results(context: Context, content: list[Piece]) -> bool:
    """ "Kestrel 2400 eggs per 100 cc. North forty 350 eggs per 100 cc.": each sentence is a result of its own."""
    parts = [part for part in (_content(sentence) for sentence in _sentences(content)) if part]
    counts = [winter.holds_count(Line(context, part)) for part in parts]
    noted = any(
        not count and any(p.kind == "number" and is_any(q, ("PLANTS", "COLOUR")) for p, q in pairwise(part))
        for count, part in zip(counts, parts, strict=True)
    )
    return sum(counts) > 1 or (any(counts) and noted)


def _without_requests(context: Context, line: list[Piece], before: list[Piece]) -> list[Piece]:
    """A line of a note without the sentences of it that ask ("6 plants none. Stop reminding me about it.")."""
    sentences = [part for sentence in _sentences(line) for part in _cut_before_request(context, sentence)]
    sentences = [part for sentence in sentences for part in asking.asked_behind(Line(context, sentence), sentence)]
    if len(sentences) < 2:
        return line
    rest: list[Piece] = []
    undone = False
    kept = [len(rows) for rows in (context.commands, context.problems, context.remarks)]
    for sentence, ahead in zip(sentences, [*sentences[1:], []], strict=True):
        content = _content(sentence)
        named = _named_last(rest) or _named_last(before)
        if content and _answered(context, content, ahead):
            told_of = any("FIELD" in p.types for p in content)
            rest.extend(sentence if told_of else sentence[-1:] if sentence[-1].kind in ("line", "break") else [])
        elif content and _both_asked(context, content, named, (before, rest)):
            rest.extend(sentence[-1:] if sentence[-1].kind in ("line", "break") else [])
        elif not (content and Line(context, content).aside(named, (before, rest))):
            rest.extend(sentence)
        elif sentence[-1].kind in ("line", "break"):
            rest.append(sentence[-1])
            undone = undone or any("UNDO" in p.types for p in sentence)
    if undone and rest and not Line(context, rest)._tells():
        return [piece for piece in rest if piece.kind == "line"]  # why it is taken back
    asked = [command for command in context.commands[kept[0] :] if command.kind == "state"]
    nameless = not any("FIELD" in p.types for p in (*before, *rest))
    if asked and nameless and rest and Line(context, rest)._tells() and not _asks_at_once(sentences[0]):
        for rows, size in zip((context.commands, context.problems, context.remarks), kept, strict=True):
            del rows[size:]  # type: ignore[attr-defined]  # three lists of three kinds
        return line  # "Grange S resistant var? 5 pl 22w"
    return rest


def _answered(context: Context, asked: list[Piece], ahead: list[Piece]) -> bool:
    """ "How many? 31 on 6 plants", "cuántas plantas quería saber el capataz... fueron 8": answered at once."""
    made = table(context.language)
    opens = "HOW_MANY" in asked[0].types or asking.opens_with(Line(context, asked), "how_many")
    told = [p for p in ahead if not (linking(p) or any(made.has(trait, p.text) for trait in ("is_word", "is_now")))]
    return opens and len(asked) <= LONGEST_HEADING and any(number_like(p) for p in told[:2])


def _named_last(pieces: list[Piece]) -> Piece | None:
    """The field named last in the pieces right before a sentence."""
    near = pieces[-telling.LOOK_BACK :]
    return next((p for p in reversed(near) if p.kind == "word" and "FIELD" in p.types), None)


def _asks_at_once(sentence: list[Piece]) -> bool:
    """Does a sentence hold a word for asking how a field is?"""
    return any("STATE" in piece.types for piece in sentence)


def _both_asked(context: Context, content: list[Piece], named: Piece | None, before: tuple[list[Piece], ...]) -> bool:
    """ "Cancela os avisos dela e me mostra o histórico da Boa Vista": one sentence behind a note, two requests."""
    cuts = _joined_requests(context, content) if len(content) <= LONGEST_REQUEST else []
    if not 2 <= len(cuts) <= MOST_REQUESTS:
        return False
    kept = [len(rows) for rows in (context.commands, context.problems, context.remarks)]
    if all(Line(context, cut).aside(named, before) for cut in cuts):
        return True
    for rows, size in zip((context.commands, context.problems, context.remarks), kept, strict=True):
        del rows[size:]  # type: ignore[attr-defined]  # three lists of three kinds
    return False


def _cut_before_request(context: Context, sentence: list[Piece]) -> list[list[Piece]]:
    """ "5 plants none, skip tinkers this time": cut before a word for asking with a field of the crew behind it."""
    made = table(context.language)
    out: list[list[Piece]] = [[]]
    for n, piece in enumerate(sentence):
        before = sentence[n - 1] if n else None
        led = before is not None and (before.kind == "break" or made.has("and_then", before.text))
        led = led or is_any(before, ("UNIT",))  # "back in 2 wks. mute silo hill"
        behind = sentence[n + 1] if n + 1 < len(sentence) else None
        asks = is_any(piece, ("SKIP", "MUTE", "RESUME", "MOVE")) and not is_any(
            piece, ("FIELD", "LINK", "SPOT", "TOOL")
        )
        if led and asks and is_any(behind, ("FIELD",)):
            out.append([])
        out[-1].append(piece)
    return out


def _lines(pieces: list[Piece]) -> list[list[Piece]]:
    lines: list[list[Piece]] = [[]]
    for piece in pieces:
        lines[-1].append(piece)
        if piece.kind == "line":
            lines.append([])
    return [line for line in lines if line]


def _content(line: list[Piece]) -> list[Piece]:
    """A line without greetings and "please" before it and stops behind it."""
    first, last = 0, len(line)
    while last > first and (
        line[last - 1].kind in ("break", "line")
        or (line[last - 1].kind == "sign" and line[last - 1].text != "?")
        or (last - 1 > first and _thanks(line[last - 1]))
    ):
        last -= 1
    while first < last - 1 and (line[first].kind == "break" or _greets(line, first, last)):
        first += 1
    return line[first:last]


def _thanks(piece: Piece) -> bool:
    """ "Undo thanks", "delete my last note thx": a word of thanks at the end."""
    return "COURTESY" in piece.types and piece.text in anywhere("thank_word")


def _greets(line: list[Piece], i: int, last: int) -> bool:
    if "COURTESY" not in line[i].types or "HELP" in line[i].types or i + 1 >= last:
        return False
    return line[i + 1].kind == "break" or line[i].text in anywhere("please")


UNDONE_SOON = 5
"""Pieces of a line in which it is said that something is taken back: "uh me equivoqué, borrá lo último" (judgement)."""


def words_said(pieces: list[Piece]) -> list[str]:
    """The words of pieces, those of phrases one by one."""
    return [word for piece in pieces for word in piece.text.split(" ")]


_REGISTERING = ("register_cue", "register_frame")
"""Manners of words that tell of a new field, and name none."""
_FOR_EACH = frozenset({"state", "history", "picture", "mute", "resume", "weather", "move"})


class Line:
    """One line that may be a command."""

    def __init__(self, context: Context, pieces: list[Piece]) -> None:
        self.context = context
        self.made: Table = table(context.language)
        self.asked = len(pieces) > 1 and pieces[-1].text == "?"
        while len(pieces) > 1 and pieces[-1].text == "?":
            pieces = pieces[:-1]
        self.ps = pieces
        self.start, self.end = pieces[0].start, pieces[-1].end
        self.parts: asking.Parts | None = None
        """Its words that may ask (see ``asking.parts_of``)."""

    @cached_property
    def vocabulary(self) -> frozenset[str]:
        """Every word of the line, those of phrases one by one."""
        return frozenset(word for piece in self.ps for word in piece.text.split(" "))

    def _of_kin(self, name: str) -> bool:
        """ "How's your mom doing", "como vai a família": no field of that name is known."""
        told = any(self.made.has("kin_word", word) for word in name.split(" "))
        return told and not any("FIELD" in piece.types for piece in self.ps)

    def emit(self, kind: str, **args: Any) -> bool:
        """The line is this command; "mute kestrel and tinkers" is one for each field named."""
        field = args.get("field")
        if kind == "picture" and asking.likens_picture(self):
            return False
        if kind == "state" and field and self._of_kin(str(field)):
            return False
        if field and self._names_nothing(str(field)):
            return False
        if kind == "digest" and args.get("span") is None:
            args["span"] = self._span_summed()
        if kind not in _FOR_EACH or not field:
            return self.context.command(kind, self.start, self.end, **args)
        others = [
            (piece.start, written(self.context.text, piece.start, piece.end))
            for n, piece in enumerate(self.ps)
            if self._joined_field(n, kind) and written(self.context.text, piece.start, piece.end) not in field
        ]
        own = next((p.start for p in self.ps if written(self.context.text, p.start, p.end) in field), self.start)
        for _, name in sorted([(own, field), *others]):
            self.context.command(kind, self.start, self.end, **{**args, "field": name})
        return True

    def _names_nothing(self, field: str) -> bool:
        """ "Truck wont start again lol": what belongs to no field, or a denial, and no name of the crew."""
        words = [x.text for x in scan(clean(field))]
        other = any(map(self.made.denies, words)) or (words and self.made.has("other_subject", words[0]))
        return bool(other or all(self.made.has("no_name", word) for word in words)) and not self._is_known(field)

    def _span_summed(self) -> str | None:
        """ "Wk digest for my crew", "the rundown for the whole season"; ``None`` for the day."""
        parts = asking.parts_of(self)
        if parts.says("digest_season"):
            return "season"
        if any(is_any(piece, ("TODAY",)) for piece in self.ps) or parts.says("span_day"):
            return None  # "the summary for today, busy week"
        return "week" if parts.says("digest_week") else "season" if parts.says("span_season") else None

    def _joined_field(self, n: int, kind: str) -> bool:
        """Is the field at n joined to another by a comma or "and"?"""
        piece = self.ps[n]
        if piece.types.keys() != {"FIELD"} and not (kind == "weather" and "FIELD" in piece.types):
            return False
        beside = [self.ps[n - 1]] if n > 1 else []
        beside += self.ps[n + 1 : n + 2] if self.has(n + 2, "FIELD") else []  # "tower + depot history"
        return any(p.text in joints() or self.made.has("or_word", p.text) for p in beside)

    def has(self, i: int, *types: str) -> bool:
        """Can the piece at i be a word of one of these kinds?"""
        return i < len(self.ps) and is_any(self.ps[i], types)

    def quiet(self, i: int = 0) -> bool:
        """Is the word at i an everyday word that asks nothing by itself?"""
        return self.made.has("quiet_command", self.ps[i].text)

    def name(self, i: int, last: int | None = None, whole: bool = False) -> str | None:
        """The words from i on as a field's name, little words around it left out (unless a name is being given)."""
        ps = self.ps[i:last]
        while len(ps) > 1 and (ps[0].kind == "sign" or (ps[0].text in joints() and "FIELD" in ps[1].types)):
            ps = ps[1:]  # "¿y bajo grande, cómo está?"
        while (
            ps
            and not whole
            and (
                ps[0].kind in ("sign", "break")
                or (self.made.has("around_name", ps[0].text) and "FIELD" not in ps[0].types)
            )
        ):
            ps = ps[1:]
        while ps and (ps[-1].kind in ("sign", "break") or self._trailing(ps)):
            ps = ps[:-1]
        if not 0 < len(ps) <= LONGEST_NAME:
            return None
        return written(self.context.text, ps[0].start, ps[-1].end) or None

    def _trailing(self, ps: list[Piece]) -> bool:
        last = ps[-1]
        return (
            (self.made.has("around_name", last.text) and "FIELD" not in last.types)
            or "FIELD_WORD" in last.types
            or ("COURTESY" in last.types and len(ps) > 1)
        )

    def noted(self, i: int) -> bool:
        """Does a note follow from i rather than a name?"""
        for n in range(i, len(self.ps)):
            piece = self.ps[n]
            if piece.kind in ("stage", "day", "series", "range") and not self.has(n - 1, "PLANTED"):
                return True
            counts = piece.kind == "number" or "NUMBER_WORD" in piece.types
            if counts and self.has(n + 1, "PLANTS", "COLOUR", "FEMALES", "UNIT", "DUG"):
                return True
            if is_any(piece, ("DUG", "NONE", "NOT_LOOKED")) and "FIELD" not in piece.types:
                return True
        return False

    def take(self) -> bool:
        """Read the line as a command; false when it is none."""
        if len(_sentences(self.ps)) != 1:
            return self._taken()
        return wishes.settled(self, self._taken, beside=self._among_others())

    def _among_others(self) -> bool:
        """ "All of it today's, in order of how bad" above notes: does the message tell more?"""
        others = (self.context.text[: self.start] + self.context.text[self.end :]).strip()
        return len(others) > asking.MOST_ASIDE

    def _asks_then(self) -> bool:
        """ "Yes it was. Push Tallow to Thursday": is a later sentence a request of its own, with its field?"""
        later = [_content(sentence) for sentence in _sentences(self.ps)[1:]]
        return any(
            part
            and is_any(part[0], _BEGINS)
            and not is_any(part[0], ("FIELD", "LINK"))
            and any("FIELD" in p.types for p in part[1:LONGEST_NAME])
            for part in later
        )

    def _left_or_back(self) -> bool:
        """A whole message that is "stop" or "start", as with any number that sends texts."""
        if self.context.text.strip(" .!\n") != self.context.text[self.start : self.end]:
            return False
        said = " ".join(piece.text for piece in self.ps)
        if self.made.has("lone_start", said):
            return self.emit("resume")
        return self.made.has("lone_stop", said) and self.emit("mute")

    def _taken(self) -> bool:
        """Read the line as a command by the rules."""
        noted = plainly_noted(self) or self._asks_then()
        if not noted and put_beside.put_beside(self):
            return True
        first = self.ps[0].types
        if self.made.has("timid_history", self.ps[0].text) and not self.asked:
            return False  # "last time at kestrel i guess"
        if "FIELD" in first and len(self.ps) == 1:
            return self.asked and self.emit("state", field=self.name(0))
        if (
            self._left_or_back()
            or winter.take(self)
            or inquiring.inquired(self)
            or registering.aliased(self)
            or amends.only_wrong(self)
            or amends.day_noted(self)
            or asking.silenced_until(self)
            or asking.all_left_out(self)
            or (len(self.ps) > 1 and asking.surely(self))
            or self._asked_what_was()
            or self._asked_what_was_written()
        ):
            return True
        if (
            telling.size_denied(self)
            or registering.registered(self)
            or registering.renamed(self)
            or skies.reported(self, _mm_of)
            or rain_at.fell_at(self, _RAIN_UNITS)
            or rain_at.was_hot(self)
        ):
            return True
        if misplaced.misplaced(self) or seeds.seeded(self):
            return True
        for kind, method in FIRST.items():
            if kind in first and (method(self) if callable(method) else getattr(self, method)()):
                return True
        right = not noted and (
            correction(self.context, self.ps) or amends.amended(self) or put_beside.put_beside(self, lone=True)
        )
        return (
            right
            or looking.more_of_trial(self)
            or looking.told(self)
            or self._added_behind()
            or self._name_first()
            or self._just_asked()
            or self._requested()
            or self._wondered()
            or self._rained()
            or self._warmed()
            or self._language_wanted()
            or self._renamed()
            or self._told_where()
            or self._sized()
            or self._asked_of_field()
            or telling.told(self)
            or asking.asked(self)
        )

    def aside(self, named: Piece | None, before: tuple[list[Piece], ...] = ()) -> bool:
        """Read one sentence among others as a request that can be nothing else; ``named`` is the field before it."""
        return wishes.settled(self, lambda: self._taken_aside(named, before), named, beside=True)

    def _taken_aside(self, named: Piece | None, before: tuple[list[Piece], ...]) -> bool:
        """Read one sentence among others by the rules."""
        if winter.holds_count(self):
            return self._result_of(named)
        if (self._corrects() or self._swaps()) and correction(self.context, self.ps):
            return True
        if telling.told(self, named, before) or inquiring.inquired(self):
            return True
        added = any(p.kind == "link" for p in self.ps) and any("ADD" in p.types for p in self.ps)
        if added and not self._tells() and self._pinned():
            return True  # ".. also add Rusty Pine at 41.2230, -92.7716"
        if self.asked and looking.told(self):
            return True  # "what did my look at kestrel tell me?"
        if asking.asked(self, named, before) or (not self._of(named) and amends.amended(self)):
            return True
        if named is not None and put_beside.put_beside(self, named):
            return True
        if self._tells() or len(self.ps) > LONGEST_REQUEST:
            return False
        for kind in ("MUTE", "RESUME", "PICTURE", "HISTORY"):
            for n, piece in enumerate(self.ps):
                asks = kind in piece.types and " " in piece.text and "FIELD" not in piece.types and not self.quiet(n)
                asks = asks and (self.asked or not self.made.has("timid_history", piece.text))
                asks = asks and not (n + 1 < len(self.ps) and is_any(self.ps[n + 1], ("FEMALES",)))  # "history of SCN"
                if asks and not (kind == "PICTURE" and any(self.made.has("took_it", p.text) for p in self.ps)):
                    field = self._known_name(n)
                    if field is None and named is not None:
                        field = written(self.context.text, named.start, named.end)
                    return field is not None and self.emit(kind.lower(), field=field)
        if named is not None and self._silenced_there(named):
            return True
        if self._named_and_asked(named):
            return True
        if self._plainly():
            return True
        if self.asked and self._moved_in_words():
            return True
        if (
            (self.asked or is_any(self.ps[0], ("DUE",)))
            and any("DUE" in p.types and " " in p.text for p in self.ps)
            and self._known_name(-1) is None
        ):
            return self.emit("due")
        alone = len(self.ps) == 1 and named is None  # "undo. kestrel 6 plants .."
        if any("UNDO" in p.types and (" " in p.text or alone) for p in self.ps[:3]):
            field = self._known_name(0)
            if field is None and named is not None:
                field = written(self.context.text, named.start, named.end)
            return self.emit("take_back", field=field)
        if self._asked_what_was_written():
            return True
        told = [p for p in self.ps if not (p.text in joints() or is_any(p, ("LINK",))) or "FIELD" in p.types]
        if self.asked and len(told) == 1 and "FIELD" in told[0].types:
            return self.emit("state", field=written(self.context.text, told[0].start, told[0].end))  # "e a baixada?"
        if self._politely() and self._requested():
            return True
        made = len(self.context.commands)
        if rain_at.fell_at(self, _RAIN_UNITS):
            return True
        if not (rain_at.was_hot(self) or skies.reported(self, _mm_of) or self._rained() or self._warmed()):
            return False
        self._fell_there(made, named)
        return True

    def _fell_there(self, made: int, named: Piece | None) -> None:
        """ ".. and rain there was .8 last night" behind a note: of its field."""
        there = any(self.made.has("ask_there", word) for piece in self.ps for word in piece.text.split(" "))
        if named is None or not there:
            return
        name = written(self.context.text, named.start, named.end)
        rows = self.context.commands
        rows[made:] = [replace(c, args={**c.args, "field": c.args.get("field") or name}) for c in rows[made:]]

    def _result_of(self, named: Piece | None) -> bool:
        """ ".. 4 plants 7 white. Lab says 3100 eggs per 100cc there": a result of the field told of before."""
        made = len(self.context.commands)
        if not winter.take(self):
            return False
        for n, command in enumerate(self.context.commands[made:], made):
            if command.kind == "lab" and named is not None and self._known_name(-1) is None:
                name = written(self.context.text, named.start, named.end)
                self.context.commands[n] = replace(command, args={**command.args, "field": name})
        return True

    def _of(self, named: Piece | None) -> bool:
        """Is the field of the sentence the one told of before it?"""
        own = next((p.text for p in self.ps if "FIELD" in p.types), None)
        return named is not None and own is not None and own == named.text

    def _silenced_there(self, named: Piece) -> bool:
        """ "Les pido silenciar los avisos de ese lote": reminders and a word for stopping them, of the field before."""
        words = [word for piece in self.ps for word in piece.text.split(" ")]
        stops = all(any(self.made.stemmed(kind, word) for word in words) for kind in ("reminder_stem", "stop_stem"))
        there = any("FIELD_WORD" in piece.types for piece in self.ps) and self._known_name(-1) is None
        field = written(self.context.text, named.start, named.end)
        return stops and there and self.emit("mute", field=field)

    def _named_and_asked(self, named: Piece | None) -> bool:
        """ "Also tower chart", ".. & hist": a field of the crew, here or before, and a word for what is asked."""
        ps = self.ps[1:] if len(self.ps) > 1 and self.ps[0].text in anywhere("also") else self.ps
        own = len(ps) == MOST_NAMED and "FIELD" in ps[0].types
        field = ps[0] if own else named
        if field is None or len(ps) != 1 + own or any(p.kind != "word" for p in ps):
            return False
        kind = next((kind for kind in ("PICTURE", "HISTORY", "STATE") if kind in ps[-1].types), None)
        name = written(self.context.text, field.start, field.end)
        return kind is not None and not ps[-1].types.keys() & set(_TOLD) and self.emit(kind.lower(), field=name)

    def _plainly(self) -> bool:
        """ "Skip tinkers this week", "also show me tinkers history": a sentence that asks at once, of a known field."""
        ps = self.ps
        while len(ps) > 1 and (
            ps[0].text in anywhere("also") or "COURTESY" in ps[0].types or self.made.has("then_word", ps[0].text)
        ):
            ps = ps[1:]
        begins = is_any(ps[0], _BEGINS) and not is_any(ps[0], ("FIELD", "LINK"))
        begins = begins or self.made.has("asks_for", ps[0].text.split(" ")[0])
        if not begins or not any("FIELD" in p.types for p in ps[1:]):
            return False
        made = len(self.context.commands)
        if not Line(self.context, ps).take():
            return False
        short = len(ps) <= 3  # "undo tinkers", and no story
        if {command.kind for command in self.context.commands[made:]} <= _TALKED | ({"take_back"} if short else set()):
            return True
        del self.context.commands[made:]
        return False

    def _politely(self) -> bool:
        """A question, or a sentence that begins with a word of asking ("could you", "please")?"""
        opening = " ".join(p.text for p in self.ps[:3]) + " "
        return self.asked or any(opening.startswith(word + " ") for word in self.made.traits["asks_politely"])

    def _swaps(self) -> bool:
        """ "The last one I sent belongs to Widow's, not Water Tower": two fields, a "not", and what was written."""
        denied = next((n for n, p in enumerate(self.ps) if "NOT" in p.types), None)
        if denied is None or any(p.kind == "number" for p in self.ps):
            return False
        named = any("FIELD" in p.types for p in self.ps[denied:])
        return named and any(_says_wrote(self.context, p) for p in self.ps[:denied])

    def _corrects(self) -> bool:
        """Is one sentence among others a correction: a field or what was written, and "should be" or "make that"?"""
        if not any("CORRECT" in p.types for p in self.ps):
            return False
        last = next((n for n in range(len(self.ps) - 1, 0, -1) if "CORRECT" in self.ps[n].types), 0)
        wrote = any(self.made.has("wrote", p.text) for p in self.ps[:last])
        named = any("FIELD" in p.types for p in self.ps[:last])
        strong = any(self.made.has("strong_correct", p.text) for p in self.ps)
        first = next((n for n, p in enumerate(self.ps[:OPENING_WORDS]) if "CORRECT" in p.types), None)
        opens = first is not None and any("FIELD" in p.types for p in self.ps[first:])
        opens = opens and any("NOT" in p.types for p in self.ps[first:])  # "please fix dry creek, it was 8, not 6"
        return wrote or (named and strong) or opens

    def _rained(self) -> bool:
        """ "Had 0.6 inches last night", "kestrel 0.4 in rain overnight", "half inch today finally"."""
        if self._stayed_dry():
            return True
        if self._tells():
            return False
        ps = day_words(number_words(self.ps, self.made), self.made)
        told = any("WEATHER" in p.types and p.types["WEATHER"].value == "rain" for p in ps)
        told = told or any(self.made.has("rain_told", word) for p in ps for word in p.text.split())
        dated = any(p.kind == "day" or is_any(p, ("TODAY", "WEEKDAY")) for p in ps)
        caught = dated and (any(self.made.has("rain_got", p.text) for p in ps[:4]) or len(ps) <= SHORT_RAIN)
        metric = self.made.language != "en" and any(
            p.kind == "number" and _mm_of(q.text) == 1.0 for p, q in pairwise(ps)
        )
        caught = caught or (dated and metric)  # "ayer 30 mm en la loma"
        if self._soil_depth(ps, 0, len(ps)):
            caught = False
        parts = any(p.kind == "number" and q.text in anywhere("rain_part") for p, q in pairwise(ps))
        if (told or caught or parts) and self._rained_at_each(ps):
            return True
        named = any("FIELD" in p.types for p in ps) and any(self.made.has("rain_got", p.text) for p in ps[:6])
        if (told or caught or named) and (inches := _spoken_inches(self.context.text[self.start : self.end].lower())):
            return self.emit("weather", rain_mm=round(inches * MM_PER_INCH, 1), **self._weather_where(ps))
        for n, piece in enumerate(ps):
            behind = ps[n + 1].text if n + 1 < len(ps) else ""
            unit = behind.split()[0] if behind else ""
            word = piece.types.get("NUMBER_WORD")
            value = piece.value if piece.kind == "number" else int(word.value) if word is not None else None
            got = isinstance(value, float) and any(self.made.has("rain_got", p.text) for p in ps[:3])
            sure = told or caught or got or unit in anywhere("rain_part")
            if value is not None and (mm := _mm_of(unit)) and sure and not self._soil_depth(ps, n + 1, n + 4):
                amount = round(value * mm, 1)
                return amount <= MOST_RAIN and self.emit("weather", rain_mm=amount, **self._weather_where(ps))
        numbers = [p for p in ps if p.kind in ("number", "range", "series")]
        bare = len(numbers) == 1 and numbers[0].kind == "number" and numbers[0].value <= MOST_RAIN
        if bare and self.made.language != "en" and any(self.made.has("it_rained", p.text) for p in ps):
            amount = round(float(numbers[0].value), 1)  # "ayer llovieron 20"
            return self.emit("weather", rain_mm=amount, **self._weather_where(ps))
        inches_alone = bare and self.made.language == "en" and isinstance(numbers[0].value, float)
        if inches_alone and (told or caught) and numbers[0].value < MOST_INCHES and not self._measured(ps):
            amount = round(numbers[0].value * MM_PER_INCH, 1)  # "had .7 last night"
            return self.emit("weather", rain_mm=amount, **self._weather_where(ps))
        return False

    def _stayed_dry(self) -> bool:
        """ "No rain at kestrel last night", "no llovió nada ayer": none that day, and no females that were not seen."""
        words = words_said(self.ps)
        rain = any(self.made.has("rain_noun", word) for word in words)
        if not rain or len(self.ps) > LONGEST_DRY or not any(self.made.denies(word) for word in words):
            return False
        seen = ("PLANTS", "COLOUR", "FEMALES", "DUG", "NOT_LOOKED", "TOOL", "MOISTURE", "SPRAY")
        if any(p.kind in ("number", "stage", "series", "range") or is_any(p, seen) for p in self.ps):
            return False
        where = self._weather_where(day_words(number_words(self.ps, self.made), self.made))
        return where["date"] is not None and self.emit("weather", rain_mm=0.0, **where)

    def _rained_at_each(self, ps: list[Piece]) -> bool:
        """ "Ayer 30 mm en potrero largo y 25 en la lomita": an amount before each of several fields."""
        told = [p for p in ps if p.kind == "number" or "FIELD" in p.types]
        amounts, fields = told[::2], told[1::2]
        behind = {p.start: q.text.split(" ")[0] for p, q in pairwise(ps)}
        mm = next((mm for p in amounts if p.kind == "number" and (mm := _mm_of(behind.get(p.start, "")))), 0.0)
        if not mm and self.made.language != "en" and any(self.made.has("it_rained", p.text) for p in ps):
            mm = 1.0  # "choveu 25 na santa rita e 10 na sede velha"
        if len(fields) < 2 or len(amounts) != len(fields) or not mm:
            return False
        inches = MM_PER_INCH if self.made.language == "en" else 0.0

        def unit(amount: Piece) -> float:
            own = _mm_of(behind.get(amount.start, ""))
            return own or (inches if isinstance(amount.value, float) else mm)  # "2 tenths at .., 0.9 at .."

        if not all(p.kind == "number" and "FIELD" in q.types for p, q in zip(amounts, fields, strict=True)):
            return False
        day = self._day_of(ps)
        for amount, place in zip(amounts, fields, strict=True):
            name = written(self.context.text, place.start, place.end)
            rain = round(float(amount.value) * unit(amount), 1)
            self.context.command("weather", self.start, self.end, rain_mm=rain, date=day, field=name)
        return True

    def _measured(self, ps: list[Piece]) -> bool:
        """Does what is measured stand behind the one number ("0.5 acres", "6.3 ph")?"""
        at = next(n for n, p in enumerate(ps) if p.kind == "number")
        beside = [*ps[max(0, at - 1) : at], *ps[at + 1 : at + 2]]
        return any(is_any(p, ("ACRES", "UNIT", "PH", "POTASSIUM", "PPM", "MEASURE")) for p in beside)

    def _weather_where(self, ps: list[Piece]) -> dict[str, Any]:
        """The day and the field of a report of rain or heat."""
        numeric = any("NUMBER_WORD" in p.types or self.made.has("part_of_inch", p.text) for p in self.ps)
        # "forty hundredths" is no North Forty, "an inch and a quarter" no Schoolhouse Quarter
        named = any("FIELD" in p.types for p in self.ps)
        return {"date": self._day_of(ps), "field": self._known_name(-1) if named or not numeric else None}

    def _day_of(self, ps: list[Piece]) -> Any:
        """The day told with rain or heat; a weekday alone at the end is one ("3 tenths sat")."""
        measured = {p.end for p, q in pairwise(ps) if _mm_of(q.text.split(" ")[0])}  # "1 1/2 inch" is no 2nd of January
        day = next((p for p in ps if p.kind == "day" and p.end not in measured), None)
        if day is not None:
            since = any(q is day and self.made.has("since_word", p.text) for p, q in pairwise(ps))
            return None if since or day.value.weeks is not None else self._past(day)  # "over the weekend": one of two
        last = ps[-1]
        if last.types.keys() != {"WEEKDAY"}:
            return None
        value = DayWritten(last.text, weekday=int(last.types["WEEKDAY"].value))
        return self._past(replace(last, kind="day", value=value))

    def _warmed(self) -> bool:
        """ "It got up to 95 F yesterday and only came down to 68", "hoy máx 34 mín 21 grados"."""
        if self._tells() or len(self.ps) > LONGEST_REQUEST or any("FEMALES" in p.types for p in self.ps):
            return False
        ps = day_words(number_words(self.ps, self.made), self.made)
        label, used, out, count = "", -1, {}, 0
        for k, piece in enumerate(ps):
            label = (self._heat_label(ps, k) if k > used else "") or label
            if piece.kind != "number":
                continue
            count += 1
            if not label:  # "35 grados de máxima y 19 de mínima"
                used = next((n for n in range(k + 1, min(k + 4, len(ps))) if self._heat_label(ps, n)), k)
                label = self._heat_label(ps, used)
            unit = ps[k + 1].text if k + 1 < len(ps) else ""
            out.update(self._weather_value(label, float(piece.value), unit))
            label = ""
        told = any(self.made.has("degree_word", word) for p in ps for word in p.text.split())
        if len(out) != count or not (len(out) == 2 or (told and out)):
            return False
        return self.emit("weather", **self._weather_where(ps), **out)

    def _heat_label(self, ps: list[Piece], k: int) -> str:
        """Does a word for the day's high or low end at a piece ("got up to", "mín")?"""
        if "WEATHER" in ps[k].types:
            value = ps[k].types["WEATHER"].value
            return value if value in ("high", "low") else ""
        words = f" {' '.join(p.text for p in ps[max(0, k - 2) : k + 1])} "
        told = [t for t in ("heat_high", "heat_low") if any(words.endswith(f" {w} ") for w in self.made.traits[t])]
        return told[0].removeprefix("heat_") if told else ""

    def _soil_depth(self, ps: list[Piece], first: int, last: int) -> bool:
        """ "Dry 2 in down": a depth, not rain."""
        behind = [p.text for p in ps[first:last] if "FIELD" not in p.types]
        return any(self.made.has("depth_word", word) for text in behind for word in text.split())

    def _name_first(self) -> bool:
        """ "kestrel status", "kestrel history"."""
        while len(self.ps) > 2 and "COURTESY" in until_days(self.ps[-1:], self.made)[0].types:
            self.ps = self.ps[:-1]  # not of "kestrel tendrá que esperar hasta el lunes"
        last = self.ps[-1]
        if not 2 <= len(self.ps) <= 5 or self.noted(0) or self.quiet(-1):
            return False
        if any("HELP" in p.types and " " in p.text for p in self.ps):
            return False
        if self.ps[0].entries and "FIELD" not in self.ps[0].types:
            return False
        for kind in ("STATE", "HISTORY", "PICTURE", "MUTE", "RESUME"):
            if kind in last.types:
                last_at = len(self.ps) - 1
                return self.emit(kind.lower(), field=self._nearest_name(self.name(0, last_at), last_at))
        return False

    def _just_asked(self) -> bool:
        """ "kestrel?"."""
        named = all(p.kind in ("word", "number") and (not p.entries or "FIELD" in p.types) for p in self.ps)
        return self.asked and named and len(self.ps) <= 4 and self.emit("state", field=self.name(0))

    def _asked_of_field(self) -> bool:
        """ "Quando eu volto na santa rita?", "oiga y cuando le toca a dry creek?": a question that names a field."""
        first = self.made.has("asks_first", self.ps[0].text)
        if not (self.asked or first) or len(self.ps) > LONGEST_REQUEST or self._tells(reasons=first):
            return False
        opens = first or any(self.made.has("opens_question", p.text) for p in self.ps[:3])
        field = next((n for n, p in enumerate(self.ps) if "FIELD" in p.types), None)
        if not opens or field is None or any(p.kind in ("number", "day", "range") for p in self.ps):
            return False
        if any(p.kind == "break" and p.value == "hard" for p in self.ps[:field]):
            return False  # "Can somebody order more flags. Dry Creek couldn't dig."
        name = written(self.context.text, self.ps[field].start, self.ps[field].end)
        kinds = {kind for p in self.ps for kind in p.types if "FIELD" not in p.types}
        parts = asking.parts_of(self)
        if (found := parts.asked()) is not None and found.kind not in ("state", "history", "picture"):
            return False  # "can you put twin pines back on the schedule"
        default = "history" if parts.past() else "state"
        return self.emit(next((k.lower() for k in ("HISTORY", "PICTURE") if k in kinds), default), field=name)

    def _asked_what_was(self) -> bool:
        """ "How many white did I have at kestrel last time": what was counted then, and nothing told."""
        words = [word for piece in self.ps for word in piece.text.split(" ")]
        opens = self.made.has("how_many", " ".join(words[:2])) or self.made.has("how_many", words[0])
        told = any(p.kind in ("number", "range", "series", "stage") for p in self.ps) or is_any(
            self.ps[0], ("HOW_MANY",)
        )
        if not opens or told or len(self.ps) > LONGEST_REQUEST or not any(self.made.has("had_then", w) for w in words):
            return False
        field = self._known_name(-1)
        return field is not None and self.emit("history", field=field)

    def _asked_what_was_written(self) -> bool:
        """ "Can you tell me what i wrote about cedar slough": the history of a field."""
        opening = self.ps[0].text.split(" ")[0]
        if not (self.asked or self.made.has("asks_for", opening) or self._politely()):
            return False
        words = [word for piece in self.ps for word in piece.text.split(" ")]
        about = any(self.made.has("wrote", word) or self.made.stemmed("noted_stem", word) for word in words[1:])
        stands = any("STATE" in p.types for p in self.ps[:2])
        if not about or stands or len(self.ps) > LONGEST_REQUEST or self._tells(reasons=True):
            return False
        if any(p.kind == "number" or is_any(p, ("MUTE", "CORRECT", "UNDO")) for p in self.ps):
            return False
        if any("WHICH" in p.types and p.types["WHICH"].value == "next" for p in self.ps):
            return False  # "can you put kestrel on for next week"
        parts = asking.parts_of(self)
        if parts.says("ask_back_on") or parts.opens("ask_undo"):
            return False  # "can you put twin pines back on the schedule", "can you remove my dry creek note?"
        field = self._known_name(-1)
        return field is not None and self.emit("history", field=field)

    def _sized(self) -> bool:
        """ "Dry creek is 80 acres, sits next to kestrel": a known field's size, and where it lies."""
        if not ("FIELD" in self.ps[0].types or (len(self.ps) > 1 and "FIELD" in self.ps[1].types)) or self._tells():
            return False
        at = next((n for n, (p, q) in enumerate(pairwise(self.ps)) if p.kind == "number" and "ACRES" in q.types), None)
        planted = any("PLANTED" in p.types for p in self.ps)
        other = ("number", "stage") if planted else ("number", "day", "stage")
        if at is None or any(p.kind in other for n, p in enumerate(self.ps) if n != at):
            return False
        if any(is_any(p, ("TOP",)) for p in self.ps):
            return False  # "na baixada tem mancha nova de 2 ha": a patch, and not the field
        field = next(p for p in self.ps if "FIELD" in p.types)
        told = self._properties(self.ps.index(field) + 1)
        return self.emit("field", name=written(self.context.text, field.start, field.end), **told)

    def _requested(self) -> bool:
        """ "Send me the chart for kestrel please": a word for asking anywhere in a line that tells nothing seen."""
        if len(self.ps) > LONGEST_REQUEST:
            return False
        if self._looked_at_then() or (not self._tells(reasons=True) and (self._moved_in_words() or self._pinned())):
            return True
        if asking.skipped(self):
            return True
        silenced = any(
            "MUTE" in p.types and " " in p.text and self._known_name(n) is not None for n, p in enumerate(self.ps)
        )
        if self._tells(reasons=silenced):
            return False
        undone = next((n for n, p in enumerate(self.ps[:UNDONE_SOON]) if "UNDO" in p.types and " " in p.text), None)
        if undone is not None and undone > 1 and self.made.has("weak_undo", self.ps[undone].text):
            undone = None  # "who's hauling the hay never mind"
        if undone is not None and other_field(self.context, self.ps[undone + 1 :]):
            return True  # "take that last one back, it was dry creek not kestrel"
        if undone is not None:
            return self.emit("take_back", field=self._known_name(undone) or asking.lead_name(self))
        for kind in _ASKED:
            asked = [
                n for n, p in enumerate(self.ps) if kind in p.types and "FIELD" not in p.types and not self.quiet(n)
            ]
            if not asked:
                continue
            field = self._known_name(asked[0])
            if kind in ("MUTE", "RESUME") and self.asked and self.made.has("is_word", self.ps[0].text):
                continue  # "is tinkers done for the year?"
            if field is None and kind not in ("DUE", "MUTE", "RESUME", "DIGEST"):
                continue
            if kind == "DIGEST" and field is not None:
                return self.emit("state", field=field)  # "send me a summary of kestrel"
            if kind in ("DUE", "DIGEST") and field is not None:
                # "take tinkers off my list", "when is dry creek due"
                return asking.asked(self) or self.emit("state", field=field)
            if kind == "DUE" and asking.parts_of(self).says("ask_drop"):
                self.context.complain("which_field", self.start, self.end)
                return True  # "take tinkers off my list", and no Tinkers is known
            if kind == "DUE" and self.made.has("it_word", self.ps[min(asked[0] + 1, len(self.ps) - 1)].text):
                continue  # "i'm going back on monday to do it over"
            if kind == "DUE" and any(p.kind == "link" for p in self.ps):
                continue  # "here's where gopher strip is: (a link), put it on my list"
            if kind in ("DUE", "DIGEST"):
                return self.emit(kind.lower())
            if kind == "STATE" and self._of_the_season(asked[0]):
                kind = "HISTORY"
            return self.emit(kind.lower(), field=field)
        return self._helped()

    def _of_the_season(self, i: int) -> bool:
        """ "What have we got on kestrel so far this year": all of it, and not only how it stands."""
        words = " ".join(p.text for p in self.ps[i:]).split(" ")
        said = {" ".join(words[n : n + size]) for n in range(len(words)) for size in (1, 2, 3)}
        return any(self.made.has("so_far", part) for part in said)

    def _wondered(self) -> bool:
        """ "Was i supposed to wash em", "what do the white ones mean": a question about the work, of no field."""
        words = " ".join(p.text for p in self.ps[:6]).split(" ")
        opens = [
            " ".join(words[n : n + size]) for n in range(len(words)) for size in (1, 2) if not n or words[0] != "i"
        ]
        if self._asks_to_write():
            return self.emit("help", topic="counts")
        if self._asks_of_stage(words):
            return self.emit("help", topic="stages")
        polite = self._politely() or any(self.made.has("wonders", said) for said in opens[:2])
        if not polite or not any(self.made.has("wonders", said) for said in opens):
            return False  # "hey can you tell me how deep to dig"
        told = any(p.kind in ("number", "range", "day", "series") or "FIELD" in p.types for p in self.ps)
        means = any(self.made.has("means_word", word) for word in words_said(self.ps))
        told = told or (not means and any(p.kind == "stage" for p in self.ps))
        if told or len(self.ps) > LONGEST_REQUEST:
            return False
        kinds = {kind for p in self.ps for kind in p.types}
        first = any(self.made.has("wonders", said) for said in opens[:2])
        supposed = first and any(self.made.has("if_word", p.text) for p in self.ps)
        if supposed and kinds & {"NOT_LOOKED", "MOISTURE"}:
            return self.emit("help", topic="method")  # "what do i do if it is too wet to dig"
        if "NOT_LOOKED" in kinds:
            return False
        if self.asked and kinds & {"ROOTS", "PLANTS"}:
            kinds.add("TOOL")
        topic = (
            "method"
            if kinds & {"SOAKED", "DUG", "TOOL"}
            else "counts"
            if kinds & {"COLOUR", "FEMALES", "NONE"}
            else None
        )
        return (topic is not None or means) and self.emit("help", topic=topic)

    def _asks_of_stage(self, words: list[str]) -> bool:
        """ "How do u know what r2 looks like": a question that speaks of a stage and of nothing seen."""
        opens = bool(words) and self.made.has("asks_first", words[0])
        staged = any(p.kind == "stage" for p in self.ps)
        other = any(p.kind in ("number", "range", "day", "series") or "FIELD" in p.types for p in self.ps)
        if not (opens and staged) or other or len(self.ps) > LONGEST_REQUEST:
            return False
        rest = [p for p in self.ps if p.kind != "stage"]
        return bool(rest) and not Line(self.context, rest)._tells(reasons=True)

    def _asks_to_write(self) -> bool:
        """ "How do you want the counts written?", "cómo te tengo que pasar los conteos?": how, counts and writing."""
        words = [word for p in self.ps for word in p.text.split(" ")]
        opens = any(self.made.has("how_word", word) for word in words[:2])
        counts = any(p.types["TOPIC"].value == "counts" for p in self.ps if "TOPIC" in p.types)
        counts = counts or any(is_any(p, ("COLOUR", "FEMALES", "NONE")) and not linking(p) for p in self.ps)
        writes = any(self.made.has("sends_word", word) for word in words)
        told = any(p.kind in ("number", "range", "day", "stage", "series") or "FIELD" in p.types for p in self.ps)
        return opens and counts and writes and not told and len(self.ps) <= LONGEST_REQUEST

    def _helped(self) -> bool:
        """ "Hey boss, what can you even do?", "i keep forgetting what to type": help asked for in a sentence."""
        asked = next((n for n, p in enumerate(self.ps) if "HELP" in p.types and " " in p.text), None)
        asked = self._help_behind() if asked is None else asked
        if asked is None or any(p.kind == "number" or "FIELD" in p.types for p in self.ps):
            return False
        said = [*self.ps[asked + 1 :], *self.ps[:asked]]
        topic = next((p.types["TOPIC"].value for p in said if "TOPIC" in p.types), None)
        topic = topic or inquiring.topic_of(asking.parts_of(self))
        return len(self.ps) < LONGEST_REQUEST and not self._tells() and self.emit("help", topic=topic)

    def _help_behind(self) -> int | None:
        """ "No me deja, ayuda por favor": the word alone behind a stop, where it ends the line."""
        last = len(self.ps) - 1
        while last > 0 and ("COURTESY" in self.ps[last].types or self.ps[last].text in anywhere("please")):
            last -= 1
        ends = last > 0 and is_any(self.ps[last], ("HELP",)) and self.ps[last - 1].kind == "break"
        return last if ends and self.ps[last].kind == "word" else None

    def _pinned(self) -> bool:
        """ "Pin for larkspur is 42.07, -93.55": coordinates told of a known field."""
        where = coordinates(self.context.text[self.start : self.end])
        field = self._known_name(-1) if where is not None else None
        return field is not None and self.emit("field", name=field, **self._properties(0))

    def _tells(self, reasons: bool = False) -> bool:
        """Does the line tell of something seen or done? Then it asks nothing. Not having looked may be a reason."""
        for n, piece in enumerate(self.ps):
            if piece.kind in ("stage", "series", "range", "ratio"):
                return True
            if piece.kind == "number" and self.has(n + 1, "PLANTS", "COLOUR", "FEMALES", "DUG"):
                return True
            if "NUMBER_WORD" in piece.types and "FIELD" not in piece.types and self.has(n + 1, "PLANTS"):
                return True
            if n > 1 and all(p.kind == "number" for p in self.ps[n - 2 : n + 1]):
                return True  # "2 0 4 1 3 on five plants"
            if reasons and is_any(piece, ("NOT_LOOKED", "DUG", "RESISTANCE", "PLANTED", "SOAKED")):
                continue
            letter = len(piece.text) == 1 and "LINK" in piece.types
            letter = letter or (n == 0 and "COURTESY" in piece.types)  # "hello" is no yellow
            if (
                is_any(piece, _TOLD)
                and not letter
                and not piece.types.keys() & {*_ASKED, "FIELD", "UNDO", "HELP", "MOVE"}
            ):
                return True
        return False

    def _added_behind(self) -> bool:
        """ "Voss corner - new field. planted 5/12, peking"."""
        at = next((n for n, p in enumerate(self.ps[:8]) if "ADD" in p.types and " " in p.text), None)
        called = at is not None and phrase_end(self.ps[at]) in anywhere("phrase_calls")
        called = called or (bool(at) and all(self.made.has("register_cue", p.text) for p in self.ps[:at]))
        while (  # "register new field: Bluestem"
            at is not None
            and at + 2 < len(self.ps)
            and (
                self.ps[at + 1].kind in ("break", "sign")
                or is_any(self.ps[at + 1], ("LINK",))
                or self.ps[at + 1].text in anywhere("name_follows")
            )
        ):
            called = called or self.ps[at + 1].text in anywhere("name_follows")
            at += 1
        if at is not None and called and at + 1 < len(self.ps):
            stop = next((n for n in range(at + 1, len(self.ps)) if self._property(n)), len(self.ps))
            name = self.name(at + 1, stop, whole=True)
            return name is not None and self.emit("field", name=name, **self._properties(stop))
        at = next((n for n, p in enumerate(self.ps[:8]) if "ADD" in p.types and " " in p.text), None)
        at = at or self._new_behind()
        if not at or any(p.kind in ("number", "stage", "day") for p in self.ps[:at]):
            return False
        titled = all(
            linking(p) or self.context.text[p.start : p.start + 1].isupper() for p in self.ps[:at]
        )  # "Cerca Branca é área .."
        if not titled and any(is_any(p, _TOLD) for p in self.ps[:at]):
            return False
        stop = next((n for n, p in enumerate(self.ps[:at]) if n and p.kind == "break"), at)
        while stop > 1 and (
            "LINK" in self.ps[stop - 1].types
            or any(self.made.has(trait, self.ps[stop - 1].text) for trait in ("is_word", "is_now"))
        ):
            stop -= 1  # "Curva Larga es un lote nuevo"
        name = self.name(0, stop, whole=True)
        if all(any(self.made.has(t, w) for t in _REGISTERING) for p in self.ps[:stop] for w in p.text.split(" ")):
            return False  # "entrou um talhão novo, Lagoa Torta"
        return name is not None and self.emit("field", name=name, **self._properties(at + 1))

    def _new_behind(self) -> int | None:
        """ "Mulberry Hill talhão novo, perto de ..": where "new field" stands behind a name."""
        for n in range(1, min(6, len(self.ps) - 1)):
            pair = [self.ps[n], self.ps[n + 1]]
            new = any("FIELD_WORD" in p.types for p in pair) and any(self.made.has("new_word", p.text) for p in pair)
            if (
                new
                and not any("FIELD" in p.types for p in self.ps[:n])
                and any(self._property(m) for m in range(n, len(self.ps)))
            ):
                return n
        return None

    def _looked_at_then(self) -> bool:
        """ "Recheck kestrel aug 3", "look at tinkers again in 10 days": when to look at a field, and no more."""
        at = 1
        while at < 3 and at < len(self.ps) and self.ps[at].text in anywhere("look_of"):
            at += 1
        if len(self.ps) < at + 2 or "LOOK" not in self.ps[0].types or not self.has(at, "FIELD"):
            return False
        ps = day_words(number_words(self.ps[at + 1 :], self.made), self.made)
        rest = [p for p in ps if p.kind not in ("sign", "break") and not is_any(p, ("LINK", "COURTESY", "LOOK"))]
        field = written(self.context.text, self.ps[at].start, self.ps[at].end)
        if len(rest) == 1 and rest[0].kind == "day":
            found = coming_day(rest[0].value, self.context.sent, self.context.language, self.context.day_first)
            return found.day is not None and self.emit("move", date=found.day, field=field)
        if len(rest) == 2 and rest[0].kind == "number" and "UNIT" in rest[1].types:
            days = UNIT_DAYS.get(rest[1].types["UNIT"].value)
            return days is not None and self.emit("move", days=int(rest[0].value * days), field=field)
        return False

    def _moved_in_words(self) -> bool:
        """ "Please put off my reminder for dry creek until july 24", "skip larkspur this time"."""
        at = next(
            (n for n, p in enumerate(self.ps) if is_any(p, ("MOVE", "SKIP")) and self.made.has("move", p.text)), None
        )
        opening = f" {' '.join(p.text for p in self.ps[:4])} "
        wish = any(f" {said} " in opening for said in self.made.traits.get("wishes", ()))
        if at is None and wish:
            at = next((n for n, p in enumerate(self.ps) if "LOOK" in p.types and "FIELD" not in p.types), None)
        if at is None:
            return False
        field = self._known_name(at)
        if "LOOK" in self.ps[at].types and any("NOT_LOOKED" in p.types for p in self.ps):
            return False  # not looked, and when to look: a note
        if "SKIP" in self.ps[at].types:
            return at <= 4 and field is not None and self.emit("move", skip=True, field=field)
        ps = day_words(number_words(stage_words(until_days(self.ps, self.made), self.made), self.made), self.made)
        verb = self.ps[at].start  # "can't make it today, push it 2 days": what stands behind the verb counts
        behind, before = [p for p in ps if p.start > verb], [p for p in ps if p.start <= verb]
        return self._moved_to(behind, field) or self._moved_to(before, field)

    def _moved_to(self, ps: list[Piece], field: str | None) -> bool:
        """The day or the span a reminder is put off by, if one is told among these pieces."""
        spans = [p for p, unit in pairwise(ps) if p.kind == "number" and is_any(unit, ("UNIT",))]
        told = [p for p in ps if p.kind == "day" and not (spans and p.value.days_ago == 0)]  # "que hoy no puedo"
        day = told[0] if told else None
        if day is not None:
            found = coming_day(day.value, self.context.sent, self.context.language, self.context.day_first)
            return found.day is not None and self.emit("move", date=found.day, field=field)
        for piece, unit in pairwise(ps):
            days = UNIT_DAYS.get(unit.types["UNIT"].value) if "UNIT" in unit.types else None
            if piece.kind == "number" and days:
                return self.emit("move", days=int(piece.value * days), field=field)
            if days and "WHICH" in piece.types and piece.types["WHICH"].value == "next":
                return self.emit("move", days=days, field=field)  # "next week remind me about kestrel"
        return False

    def _is_known(self, name: str) -> bool:
        folded = {" ".join(known.lower().split()) for known in self.context.fields}
        return name in folded or Names(name, [], self.made, self.context.fields).like_known(0, len(name))

    def _nearest_name(self, name: str | None, asked: int = 0) -> str | None:
        """A name as given, or the crew's field among its words ("old mill e last time")."""
        if name is None or not self.context.fields:
            return name
        folded = {" ".join(known.lower().split()) for known in self.context.fields}
        whole = [written(self.context.text, p.start, p.end) for p in self.ps if "FIELD" in p.types]
        if name not in folded and len(whole) == 1 and whole[0] in folded and whole[0] in name:
            return whole[0]  # "qué encontramos en molino viejo hasta hoy"
        return name if self._is_known(name) else self._known_name(asked) or name

    def _known_name(self, asked: int) -> str | None:
        """The crew's field named in the line, in full or in short; the word that asks is not part of it."""
        span = self.known_span(asked)
        return written(self.context.text, *span) if span is not None else None

    def known_span(self, asked: int) -> tuple[int, int] | None:
        """Where in the text that field stands."""
        known = next((n for n, p in enumerate(self.ps) if "FIELD" in p.types and n != asked), None)
        names = Names(self.context.text, self.ps, self.made, self.context.fields)
        if known is not None:
            return self._wider(names, (self.ps[known].start, self.ps[known].end))
        best, found, bare = LIKE, None, False
        for size in range(4, 0, -1):
            for i in range(len(self.ps) - size + 1):
                run = self.ps[i : i + size]
                plain = all(p.kind in ("word", "number") for p in run) and not i <= asked < i + size
                plain = plain and not (run[-1].kind == "number" and self.has(i + size, "UNIT"))  # "push church 4 days"
                plain = plain and not all("FIELD_WORD" in p.types for p in run)  # "ese lote", where Lote 7 is one
                likeness = names.likeness(run[0].start, run[-1].end) if plain else 0.0
                if size > 1 and likeness and names.likeness(run[1].start, run[-1].end) > likeness:
                    continue  # "put church bottm off"
                inner = found is not None and found[0] <= run[0].start and run[-1].end <= found[1] and bare
                if (likeness > best and not inner) or (likeness == best and found is None):
                    best, found = likeness, (run[0].start, run[-1].end)
                    bare = not any(p.types for p in run)  # "nrth frty" is more than "nrth"
        return self._wider(names, found) if found is not None and not self._of_another(found) else None

    def _of_another(self, found: tuple[int, int]) -> bool:
        """ "Quarry forty is ..", "Ridge of Pines is ..", where North Forty and Harrow Ridge are fields."""
        at = next((n for n, p in enumerate(self.ps) if p.start == found[0]), 0)
        last = next((n for n in range(len(self.ps) - 1, -1, -1) if self.ps[n].end == found[1]), at)
        if asking.goes_on(self, last + 1):
            return True
        if len(self.ps) < 3 or at != 1 or found[1] == self.end:
            return False
        first = self.ps[0]
        named = first.kind == "word" and not first.types and first.text not in self.made.plain
        return named and not (asking.cues(first, self.made) or first.text in anywhere("also"))

    def _wider(self, names: Names, found: tuple[int, int]) -> tuple[int, int]:
        """ "Crooked creak": the word behind a short name is of it when the two are like a name of the crew."""
        behind = next((p for p in self.ps if p.start >= found[1]), None) if self.context.fields else None
        plain = behind is not None and behind.kind == "word" and not behind.types
        if behind is None or not plain or written(self.context.text, *found) in names.fields:
            return found
        if names.likeness(found[0], behind.end) < LIKE_WHOLE:
            return found
        return found[0], behind.end

    def _about(self, kind: str, needed: bool) -> bool:
        if len(self.ps) > LONGEST_NAME + 1 or self.noted(1) or self.only_days(1):
            return False
        spoken = [p for p in self.ps[1:] if p.kind == "word" and not linking(p)]
        about = len(self.ps) > 1 and all(
            self.made.has("no_name", p.text) or (p.entries and is_any(p, ("TOPIC", "COURTESY", kind.upper())))
            for p in spoken
        )
        name = None if about else self._nearest_name(self.name(1))  # "mute the reminders for now"
        if name is not None or not needed:
            return self.emit(kind, field=name)
        if len(self.ps) > 1 or self.quiet():
            return False
        self.context.complain("which_field", self.start, self.end)
        return True

    def only_days(self, i: int) -> bool:
        """ "Visitas de sábado": what follows is a day, the heading of a round."""
        ps = day_words(number_words(self.ps[i:], self.made), self.made)
        rest = [p for p in ps if not is_any(p, ("LINK",)) and p.kind not in ("sign", "break")]
        return bool(rest) and all(p.kind == "day" or is_any(p, ("WEEKDAY", "TODAY", "MONTH")) for p in rest)

    # --- one method a first word; false means "not this after all"

    def help(self) -> bool:
        """help; help counts."""
        if self.ps[0].text == "?" and self.context.commands:
            return True  # the second of "cómo viene??"
        if len(self.ps) == 1:
            return self.emit("help")
        long = self.asked or " " in self.ps[0].text
        if len(self.ps) > (16 if long else 4) or (long and not self.asked and self._tells()):
            return False
        topics = [p.types["TOPIC"].value for p in self.ps[1:] if "TOPIC" in p.types]
        if not topics and asking.parts_of(self).past() and any("FIELD" in p.types for p in self.ps):
            return False  # "show me how bus stop has done all season"
        if len(topics) > 1 and any(p.text in anywhere("reports") for p in self.ps[1:4]):
            topics = [topic for topic in topics if topic != "lab"] or topics  # "how I should report counts"
        named = len(self.ps) <= 4 and not (long and self.asked) and not any(is_any(p, ("HELP",)) for p in self.ps[1:])
        return self.emit("help", topic=topics[0] if topics else self.name(1) if named else None)

    def undo(self) -> bool:
        """undo; undo kestrel."""
        if self._tells() or asking.parts_of(self).says("ask_drop"):
            return False
        if other_field(self.context, self.ps[1:]):
            return True  # "take that last one back, it was dry creek not kestrel"
        stop = self._name_ends()
        name = self._nearest_name(self.name(1, stop)) if len(self.ps) <= 7 or stop <= LONGEST_NAME else None
        name = name or self._known_name(0)
        named = self._is_known(name) if name is not None and self.context.fields else self._bare_name()
        named = named and not (name and is_field_word(name))
        return self.emit("take_back", field=name if named else None)

    def _name_ends(self) -> int:
        """Where a name behind the first word ends: at a comma, when it is written with a capital."""
        shown = len(self.ps) > 1 and self.context.text[self.ps[1].start].isupper()
        return next((n for n, p in enumerate(self.ps) if shown and n and p.kind == "break"), len(self.ps))

    def _bare_name(self) -> bool:
        """Is what stands behind the first word a name and no sentence ("lo último q te mandé, me equivoqué")?"""
        rest = self.ps[1 : self._name_ends()]
        return 0 < len(rest) < LONGEST_NAME and not any(p.kind == "break" or p.text in self.made.plain for p in rest)

    def state(self) -> bool:
        """state kestrel; how is kestrel doing? "show me the chart for kestrel" is a picture."""
        if "MOVE" in self.ps[0].types and self._moved_in_words():
            return True  # "remind me about old mill on the 30th"
        if self._of_the_season(0) and not self._tells() and (name := self._known_name(0)) is not None:
            return self.emit("history", field=name)  # "what's the story on kestrel so far"
        drawn = next((n for n in range(1, len(self.ps)) if self.has(n, "PICTURE") and not self.has(n, "FIELD")), None)
        if drawn is not None and len(self.ps) <= LONGEST_NAME + 3:
            name = self.name(drawn + 1) or self._known_name(drawn)
            if name is not None:
                return self.emit("picture", field=name)
        if is_any(self.ps[-1], ("HISTORY",)) and (name := self._known_name(len(self.ps) - 1)) is not None:
            return self.emit("history", field=name)  # "show me tinkers history"
        return self._about("state", needed=True)

    def history(self) -> bool:
        """history kestrel."""
        return self._about("history", needed=True)

    def picture(self) -> bool:
        """chart kestrel."""
        if self.quiet() and not (self.has(1, "FIELD") or (len(self.ps) > 1 and not self.ps[1].entries)):
            return False
        return self._about("picture", needed=True)

    def mute(self) -> bool:
        """mute; mute kestrel; mute all."""
        if self.made.has("lone_mute", self.ps[0].text) and len(self.ps) > 1:
            if len(self.ps) == 2 and is_any(self.ps[1], ("FIELD",)):
                return self.emit("mute", field=self.name(1))
            return False  # "stop 1: kestrel .."
        if self.ps[0].types["MUTE"].value == "season":
            return len(self.ps) == 1 and self.emit("mute", season=True)
        return self._about("mute", needed=False)

    def resume(self) -> bool:
        """resume; resume kestrel; resume all."""
        if self.ps[0].types["RESUME"].value == "season":
            return len(self.ps) == 1 and self.emit("resume", season=True)
        return self._about("resume", needed=False)

    def due(self) -> bool:
        """due; what's due today; "when do I go back to dry creek" asks how that field stands."""
        named = next((p for p in self.ps[1:] if "FIELD" in p.types), None)
        if named is not None and len(self.ps) <= LONGEST_NAME and not self.noted(1):
            return self.emit("state", field=written(self.context.text, named.start, named.end))
        if len(self.ps) > 1 and " " not in self.ps[0].text and all(linking(p) for p in self.ps[1:]):
            return False  # "every visit to old mill, list em"
        return (
            len(self.ps) <= 5
            and all(p.entries or p.kind == "day" for p in self.ps)
            and not self.noted(1)
            and self.emit("due")
        )

    def digest(self) -> bool:
        """digest; digest week; season digest."""
        span = self.ps[0].types["DIGEST"].value
        return len(self.ps) == 1 and self.emit("digest", span=span if span in ("week", "season") else None)

    def skip(self) -> bool:
        """skip; skip kestrel; skip all."""
        if self.ps[0].types["SKIP"].value == "all":
            return len(self.ps) == 1 and self.emit("move", skip=True, all=True)
        listed = all("FIELD" in p.types or p.text in joints() for p in self.ps[1:])  # "skip tower, depot and airstrip"
        if (
            self.made.has("ask_move", self.ps[0].text)
            and any("WEEKDAY" in p.types for p in self.ps)
            and asking.asked(self)
        ):
            return True  # "deixa a santa rita pra quinta"
        if (len(self.ps) > 5 and not listed) or self.noted(1):
            return False
        first = written(self.context.text, self.ps[1].start, self.ps[1].end) if listed and len(self.ps) > 1 else None
        return self.emit("move", skip=True, field=first or self._nearest_name(self.name(1)))

    def move(self) -> bool:
        """push to monday; later, 5 days."""
        ps = day_words(number_words(stage_words(until_days(self.ps[1:], self.made), self.made), self.made), self.made)
        rest = [
            p
            for p in ps
            if p.kind not in ("sign", "break") and not is_any(p, ("LINK", "MOVE", "COURTESY", "RENAME_TO"))
        ]
        if len(rest) == 1 and rest[0].kind == "day":
            found = coming_day(rest[0].value, self.context.sent, self.context.language, self.context.day_first)
            return found.day is not None and self.emit("move", date=found.day)
        if len(rest) == 2 and rest[0].kind == "number" and "UNIT" in rest[1].types:
            days = UNIT_DAYS.get(rest[1].types["UNIT"].value)
            return days is not None and self.emit("move", days=int(rest[0].value * days))
        return self.language()

    def language(self) -> bool:
        """language spanish; español; in english please."""
        named = [n for n, piece in enumerate(self.ps) if "LANGUAGE_NAME" in piece.types]
        if len(named) != 1 or len(self.ps) > 4:
            return False
        n = named[0]
        lead = all(is_any(p, ("LANGUAGE", "LINK", "MOVE")) or p.kind == "sign" for p in self.ps[:n])
        tail = all(is_any(p, ("COURTESY",)) for p in self.ps[n + 1 :])
        if not (lead and tail) or (n == 0 and len(self.ps[0].text) <= 3):
            return False
        return self.emit("language", language=self.ps[n].types["LANGUAGE_NAME"].value)

    def _topic(self) -> str | None:
        """What help is asked about: the first word for a topic, alone or within a phrase."""
        told = next((p.types["TOPIC"].value for p in self.ps[1:] if "TOPIC" in p.types), None)
        words = [e for p in self.ps[1:] for word in p.text.split()[1:] for e in self.made.singles.get(word, ())]
        return told or next((e.value for e in words if e.type == "TOPIC"), None)

    def _renamed(self) -> bool:
        """ "Kestrel is now called home place", "la baixada ahora se llama ..": a known field's new name."""
        at = next((n for n, p in enumerate(self.ps[:4]) if "FIELD" in p.types), None)
        if at is None or at + 2 >= len(self.ps) or self._tells():
            return False
        if self._renames_it(at):
            return True
        to, behind = self.ps[at + 1], self.ps[at + 2]
        if not is_any(to, ("RENAME_TO", "RENAME")) or " " not in to.text or any(p.kind == "day" for p in self.ps):
            return False
        if behind.kind == "break":
            return False  # "Bajo Grande cambia de nombre, llamale La Hondonada"
        new = self.name(at + 2, whole=True)
        old = written(self.context.text, self.ps[at].start, self.ps[at].end)
        return new is not None and self.emit("field", name=old, rename_to=new)

    def _renames_it(self, at: int) -> bool:
        """ "Kestrel belongs to a different grower now, please rename it Windmill 60"."""
        k = next((n for n, p in enumerate(self.ps) if n > at and "RENAME" in p.types), None)
        if k is None or k + 2 >= len(self.ps) or not self.made.has("it_word", self.ps[k + 1].text):
            return False
        start = k + 2 + is_any(self.ps[k + 2], ("RENAME_TO", "LINK"))
        new = self.name(start, whole=True) if start < len(self.ps) else None
        old = written(self.context.text, self.ps[at].start, self.ps[at].end)
        return new is not None and self.emit("field", name=old, rename_to=new)

    def _told_where(self) -> bool:
        """ "O Talhão 3 fica perto de Rio Verde e tem 120 acres": where a known field lies, and how large it is."""
        field = next((n for n, p in enumerate(self.ps[:3]) if "FIELD" in p.types), None)
        near = next((n for n, p in enumerate(self.ps) if "NEAR" in p.types), None)
        if field is None or near is None or not field < near <= field + 3 or self._tells():
            return False
        if not all(linking(p) or self.made.has("lies", p.text) for p in self.ps[field + 1 : near]):
            return False
        if near == field + 1 or near + 1 >= len(self.ps):
            return False
        name = written(self.context.text, self.ps[field].start, self.ps[field].end)
        stop = next((n for n in range(near + 2, len(self.ps)) if self._ends_place(n)), len(self.ps))
        acres = acres_told(self.context.text[self.ps[stop - 1].end : self.end], self.context.language)
        return self.emit("field", name=name, near=self.name(near + 1, stop), acres=acres)

    def _ends_place(self, n: int) -> bool:
        """Does the name of a place near by end there ("perto de rio verde e tem 120 acres")?"""
        piece = self.ps[n]
        return piece.kind in ("break", "number", "line") or piece.text in joints() or "HAD" in piece.types

    def _language_wanted(self) -> bool:
        """ "Ponme los mensajes en español por favor", "tá vindo tudo em inglês pra mim, muda pra português"."""
        said = {*self.vocabulary, *(p.text for p in self.ps)}
        wanted = any(self.made.has("language_wanted", words) for words in said)
        if not wanted or len(self.ps) > LONGEST_REQUEST or self._tells():
            return False
        if any("FIELD" in p.types or p.kind == "number" for p in self.ps):
            return False
        names = asking.languages_wanted(self)
        return len(names) == 1 and self.emit("language", language=names[0])

    def place(self) -> bool:
        """place iowa; i am in iowa."""
        tails = (
            n for n, p in enumerate(self.ps) if n > 1 and (p.kind == "break" or self.made.has("place_tail", p.text))
        )
        stop = next(tails, len(self.ps))
        if not 2 <= stop <= LONGEST_NAME or self.noted(1):
            return False
        name = self.name(1, stop)
        return name is not None and self.emit("place", place=name)

    def release(self) -> bool:
        """release 4."""
        return self._numbered("release")

    def refuse(self) -> bool:
        """refuse 4."""
        return self._numbered("refuse")

    def _numbered(self, kind: str) -> bool:
        rest = [p for p in self.ps[1:] if p.kind != "sign"]
        return len(rest) == 1 and rest[0].kind == "number" and self.emit(kind, number=int(rest[0].value))

    def rename(self) -> bool:
        """rename kestrel to kestrel 40."""
        for i in range(2, len(self.ps)):
            if "RENAME_TO" in self.ps[i].types:
                stop = next((n for n in range(i + 1, len(self.ps)) if self.ps[n].kind == "break"), len(self.ps))
                old, new = self.name(1, i), self.name(i + 1, stop)
                if old and new:
                    return self.emit("field", name=old, rename_to=new)
        return False

    # --- a new field and what is known of it

    def add(self) -> bool:
        """add field kestrel 42.03, -93.62 planted 5/6 peking."""
        if any("FIELD" in p.types for p in self.ps) and asking.asked(self):
            return True  # "add kestrel to my list for friday"
        i = 1
        while self.has(i, "FIELD_WORD") or (i < len(self.ps) and self.ps[i].text in (":", "#", ",")):
            i += 1
        if i == 1 and " " not in self.ps[0].text and (len(self.ps) < 2 or self.noted(1)):
            return False
        if i + 1 < len(self.ps) and self.made.has("adds_to", self.ps[i].text) and self.has(i + 1, "FIELD"):
            return False  # "add to kestrel: roots dark"
        added_to = i < len(self.ps) and self.made.has("adds_to", self.ps[i].text)
        if added_to and any(self.made.stemmed("ask_record", word) for word in words_said(self.ps[i:])):
            return False  # "please add to the field record"
        if self.has(i, "RENAME_TO") and self.has(i + 1, "ADD"):
            i += 2  # "new field to add bittersweet ridge"
        elif self.has(i, "ADD") and " " in self.ps[i].text and i + 1 < len(self.ps):
            i += 1  # "add new field Bluestem"
        colon = next((n for n in range(i, min(i + 6, len(self.ps))) if self.ps[n].text == ":"), None)
        if colon is not None and all(not is_any(p, ("FIELD",)) for p in self.ps[i:colon]):
            i = colon + 1  # "new field for the list, please: quarry bend"
        while i < len(self.ps) and (self.ps[i].text in (",", "-") or self.made.has("called", self.ps[i].text)):
            i += 1  # "un lote nuevo, se llama coyote bottom"
        for size in (3, 2, 1):
            said = " ".join(p.text for p in self.ps[i : i + size])
            if self.made.has("for_us", said) and i + size < len(self.ps):
                i += size  # "add a field for me, hilltop forty"
                break
        while i < len(self.ps) and self.ps[i].text in (",", "-", ":"):
            i += 1
        if self._counts_at(i):
            return False  # "lote nuevo 6 plantas 3 blancas"
        j = i
        while j < len(self.ps) and not self._property(j) and not self._to_list(j) and not self._sizes(j):
            j += 1
        stop = j
        while stop > i + 1 and is_any(self.ps[stop - 1], ("HAD", "LINK")):
            stop -= 1  # "Lorenz Place has a susceptible variety"
        if self.made.has("for_us", " ".join(p.text for p in self.ps[max(i + 1, stop - 2) : stop])):
            stop -= 2  # "add Hilltop Forty for me, forty acres"
        name = self.name(i, stop, whole=True)
        return name is not None and self.emit("field", name=name, **self._properties(j))

    def _counts_at(self, i: int) -> bool:
        """Does a stage or a count stand there, where a name would?"""
        piece = self.ps[i] if i < len(self.ps) else None
        counts = piece is not None and (piece.kind == "number" or "NUMBER_WORD" in piece.types)
        staged = piece is not None and piece.kind == "stage"
        return staged or (counts and self.has(i + 1, "PLANTS", "COLOUR", "FEMALES", "DUG"))

    def _sizes(self, j: int) -> bool:
        """ "Thirty eight acres": a number in words before a word for acres."""
        k = j
        while self.has(k, "NUMBER_WORD"):
            k += 1
        return k > j and self.has(k, "ACRES")

    def _to_list(self, j: int) -> bool:
        """ "Add Turkey Run to my list": where the name ends."""
        words = [p.text for p in self.ps[j : j + 3]]
        return any(self.made.has("to_list", " ".join(words[:size])) for size in (1, 2, 3))

    def _property(self, j: int) -> bool:
        """Does something other than the name start at j?"""
        piece = self.ps[j]
        after = self.ps[j + 1] if j + 1 < len(self.ps) else None
        if piece.kind in ("link", "day") or (piece.kind == "break" and piece.text in ",(;."):
            return True
        if piece.kind == "number":
            return isinstance(piece.value, float) or self.has(j + 1, "ACRES")
        if piece.text in ("@", "-") and after is not None and after.kind == "number":
            return True
        if piece.text == "place" and self.ps[j - 1].kind != "break":
            return False  # "smith place": part of the name
        return is_any(piece, PROPERTIES)

    def _properties(self, i: int) -> dict[str, Any]:
        """Coordinates, planting day, seed and the rest, from piece i on."""
        if i >= len(self.ps):
            return {}
        out: dict[str, Any] = {}
        where = coordinates(self.context.text[self.ps[i].start : self.end])
        if where is not None:
            out["latitude"], out["longitude"] = where
        ps = day_words(number_words(self.ps[i:], self.made), self.made)
        k = 0
        while k < len(ps):
            k = self._one_property(ps, k, out) + 1
        if "source" in out:
            out.setdefault("resistance", "resistant")
        return out

    def _one_property(self, ps: list[Piece], k: int, out: dict[str, Any]) -> int:
        """Read what stands at k into out; the index of the last piece used."""
        types = ps[k].types
        called = k + 1 < len(ps) and self.made.has("names_variety", ps[k + 1].text) and "VARIETY" in types
        if "PLANTED" in types:
            day = next((p for p in ps[k : k + 4] if p.kind == "day"), None)
            if day is not None:
                out["planted"] = self._past(day)
                return self._seed_behind(ps, ps.index(day) + 1, out) - 1
        elif "RESISTANCE" in types:
            out["resistance"] = types["RESISTANCE"].value
        elif "SOURCE" in types:
            out["source"] = types["SOURCE"].value
        elif ps[k].kind == "number" and k + 1 < len(ps) and "ACRES" in ps[k + 1].types:
            factor = ACRES_PER_HECTARE if ps[k + 1].types["ACRES"].value == "hectare" else 1.0
            out["acres"] = round(ps[k].value * factor, 1)
        else:
            key = next((name for name in ("VARIETY", "ALIAS", "NEAR", "PLACE") if name in types), None)
            k += bool(called)
            stop = k + 1
            while key and stop < len(ps) and ps[stop].kind in ("word", "number") and not is_any(ps[stop], PROPERTIES):
                stop += 1
            while key == "NEAR" and k + 2 < stop and (linking(ps[k + 1]) or self.made.has("name_link", ps[k + 1].text)):
                k += 1  # "perto do kestrel"
            if key and stop > k + 1:
                said = self.context.text[ps[k + 1].start : ps[stop - 1].end].strip()
                out[key.lower()] = said if key == "VARIETY" else said.lower()
                return stop - 1
        return k

    def _seed_behind(self, ps: list[Piece], k: int, out: dict[str, Any]) -> int:
        """ "planted 5/20 with Asgrow 24": a seed's name behind the day; where the next word to read stands."""
        j = k
        while j < len(ps) and (ps[j].text == "," or linking(ps[j]) or is_any(ps[j], ("HAD",))):
            j += 1
        stop = j
        while stop < len(ps) and ps[stop].kind == "word" and not ps[stop].types and stop < j + 3:
            stop += 1
        numbered = stop > j and stop < len(ps) and (ps[stop].kind == "number" or any(map(str.isdigit, ps[stop].text)))
        if not numbered or "variety" in out or not self.context.text[ps[j].start].isupper():
            return k
        if is_any(ps[stop + 1] if stop + 1 < len(ps) else None, ("ACRES",)):
            return k
        out["variety"] = self.context.text[ps[j].start : ps[stop].end]
        return stop + 1

    def _past(self, day: Piece) -> Any:
        order = (self.context.language, self.context.day_first)
        found = past_day(day.value, self.context.sent, *order, PLANTED_DAYS)
        if found.wrong:
            self.context.complain(found.wrong, day.start, day.end, sent=self.context.day(self.context.sent))
        return found.day

    # --- weather

    def weather(self) -> bool:
        """rain 0.4 in; weather kestrel high 88 low 64 6/10."""
        label = self.ps[0].types["WEATHER"].value
        labels = {p.types["WEATHER"].value for p in self.ps if "WEATHER" in p.types}
        if (label in ("high", "low") and not labels >= {"high", "low"}) or len(self.ps) > 16:
            return False
        out: dict[str, Any] = {}
        left: list[Piece] = []
        ps = day_words(number_words(self.ps, self.made), self.made)
        if self._rained_at_each(ps):
            return True
        told: set[str] = set()
        for k, piece in enumerate(ps):
            if "WEATHER" in piece.types:
                label = piece.types["WEATHER"].value
            elif piece.kind == "day" and not (k and self.made.has("since_word", ps[k - 1].text)):
                out["date"] = self._past(piece)
            elif piece.kind == "number":
                unit = ps[k + 1].text if k + 1 < len(ps) else ""
                if label in told:  # "low of 48 this morning, 79 the high"
                    label = next((p.types["WEATHER"].value for p in ps[k + 1 : k + 4] if "WEATHER" in p.types), label)
                if label in told:
                    return False
                told.add(label)
                minus = k > 0 and ps[k - 1].text == "-" and ps[k - 1].end == piece.start and label != "rain"
                out.update(self._weather_value(label, -piece.value if minus else piece.value, unit))
            elif (
                piece.kind == "word" and (not piece.entries or "FIELD" in piece.types) and piece.text not in ("c", "f")
            ):
                left.append(piece)
        if not out.keys() & {"rain_mm", "tmax_c", "tmin_c"} or len(left) > 4:
            return False
        if self.context.fields:
            left = [p for p in left if "FIELD" in p.types]
        if left:
            out["field"] = written(self.context.text, left[0].start, left[-1].end)
        return self.emit("weather", **out)

    def _weather_value(self, label: str, value: float, unit: str) -> dict[str, float]:
        """Rain in millimetres, temperatures in Celsius; English notes mean Fahrenheit unless they say C."""
        english = self.context.language == "en"
        if label == "rain":
            if any(entry.type in NOUNS for entry in self.made.singles.get(unit, ())):
                return {}  # "choveu domingo. santa rita 5 plantas nada"
            if mm := _mm_of(unit):
                return {"rain_mm": round(value * mm, 1)}
            if english and isinstance(value, float) and value < 6:
                return {"rain_mm": round(value * MM_PER_INCH, 1)}  # ".45" is inches; millimetres are told whole
            return {} if english else {"rain_mm": float(value)}
        if label in ("high", "low"):
            celsius = unit == "c" or (unit != "f" and not english)
            return {"tmax_c" if label == "high" else "tmin_c": round(value if celsius else (value - 32) / 1.8, 1)}
        return {}


FIRST: dict[str, str | Callable[[Line], bool]] = {
    "TRIAL": looking.trial,
    "HOW_MANY": looking.how_many,
    "ASK_LOOK": looking.told,
    "HELP": "help",
    "UNDO": "undo",
    "ADD": "add",
    "RENAME": "rename",
    "HISTORY": "history",
    "STATE": "state",
    "PICTURE": "picture",
    "DUE": "due",
    "MUTE": "mute",
    "RESUME": "resume",
    "DIGEST": "digest",
    "SKIP": "skip",
    "LANGUAGE": "language",
    "LANGUAGE_NAME": "language",
    "MOVE": "move",
    "RELEASE": "release",
    "REFUSE": "refuse",
    "WEATHER": "weather",
    "PLACE": "place",
}
"""First words and what reads the line: a method of the line, or a function of a family's own module. In order."""


# How many inches, said in words: patterns here and not in the word files, as the order of the words is what is read.
_INCHES = re.compile(
    r"(?:(?P<whole>an?|one|two|three|four|five|\d{1,2}) )?inch(?:es)? (?:and?|n|&) "
    r"(?P<part>(?:an? |one )?(?:half|quarter)|"
    r"three quarters|\w+ tenths?)\b"
    r"|(?:(?P<whole2>an?|one|two|three|four|five|\d{1,2}) and (?P<part2>(?:an? |one )?(?:half|quarter)|three quarters|"
    r"\w+ tenths?) inch)"
    r"|(?:(?P<before>\d{1,2})[ -])?(?P<only>three[ -]quarters?|3/4|half|1/2|quarter|1/4)(?: of)?(?: an?)?[ -]"
    r"(?:inch|in)\b"
    r"|\b(?<!of )(?P<one>an|one) inch\b(?! and| an a)"
)
_WHOLE = {"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8}
_WHOLE["nine"] = 9
_PART = {"half": 0.5, "1/2": 0.5, "quarter": 0.25, "1/4": 0.25, "quarters": 0.75}


def _number_said(word: str) -> int:
    return _WHOLE.get(word, int(word) if word.isdigit() else 1)


def _spoken_inches(text: str) -> float:
    """ "An inch and a half", "half an inch", "three quarters of an inch"; 0 when there are none."""
    found = _INCHES.search(text)
    if found is None:
        return _spoken_elsewhere(fold(text))
    if found["one"]:
        return 1.0
    if found["only"]:
        return int(found["before"] or 0) + _PART.get(found["only"], 0.75)
    first, last = (found["part"] or found["part2"]).split(" ")[0], (found["part"] or found["part2"]).split(" ")[-1]
    part = _number_said(first) / 10 if last.startswith("tenth") else _PART[last]
    return _number_said(found["whole"] or found["whole2"] or "1") + part


# The same in Spanish and Portuguese, for the same reason.
_PULGADAS = re.compile(
    r"(?P<many>\d{1,2}|un|una|uma|dos|duas|dois|tres|cuatro|quatro)? ?(?:pulgadas?|polegadas?) (?:y|e) (?:media|meia)\b"
    r"|(?P<part>media|meia|tres cuartos de|tres quartos de|(?:un |um )?(?:cuarto|quarto) de) ?(?:pulgada|polegada)\b"
)
_NUMEROS = {"un": 1, "una": 1, "uma": 1, "dos": 2, "duas": 2, "dois": 2, "tres": 3, "cuatro": 4, "quatro": 4}


def _spoken_elsewhere(text: str) -> float:
    """ "Media pulgada", "uma polegada e meia" in inches; 0 when there are none."""
    found = _PULGADAS.search(text)
    if found is None:
        return 0.0
    if found["part"]:
        return 0.75 if "tres" in found["part"] else 0.5 if found["part"].startswith("me") else 0.25
    many = found["many"] or "1"
    return _NUMEROS.get(many, int(many) if many.isdigit() else 1) + 0.5


def _mm_of(unit: str) -> float:
    """Millimetres of a unit of rain, by its sign or a folded word for it in any language; 0 for no unit."""
    return MM.get(unit) or next((mm for trait, mm in _MM_SAID.items() if unit in anywhere(trait)), 0.0)


_RAIN_UNITS = rain_at.Units(_mm_of, _spoken_inches)


def coordinates(raw: str) -> tuple[float, float] | None:
    """Latitude and longitude in degrees in a text or a shared map link; ``None`` when there are none."""
    found = re.search(
        r"(-?\d{1,2}\.\d+)\s*°?\s*([NSns])?\s*[,;/ ]\s*(?:(?:lon|lng|long)\w*\.?\s*[:=]?\s*)?(-?\d{1,3}\.\d+)"
        r"\s*°?\s*([EWOewo](?!\w))?",
        raw,
        re.IGNORECASE,
    )
    if found is None:
        return None
    latitude, longitude = float(found.group(1)), float(found.group(3))
    if found.group(2) in ("S", "s"):
        latitude = -abs(latitude)
    if found.group(4) in ("W", "w", "O", "o"):
        longitude = -abs(longitude)
    return (latitude, longitude) if -90 <= latitude <= 90 and -180 <= longitude <= 180 else None
