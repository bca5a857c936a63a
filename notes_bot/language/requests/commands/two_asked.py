"""Two or three things asked or told in one line, each with its own field, or with the one named before.

"Start the reminders back up for lower bench and what did the lab give for it", "esta vez saltate la lechuza, y pozo
viejo pasalo al lunes", "tallow eggs 1800 per 100cc, hg 2.5.7": the line is cut at a stop or an "and" where each part,
read alone, is such a thing. One part that is none, and the line is left to the other readers.
"""

from __future__ import annotations

from dataclasses import replace

from notes_bot.language.lexicon.joining import day_words, is_any, linking
from notes_bot.language.lexicon.pieces import Piece, piece_at
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.names.naming import joints, written
from notes_bot.language.requests import asking, winter
from notes_bot.language.requests.commands.aside import read_aside
from notes_bot.language.requests.commands.cutting import sentences_of, words_said
from notes_bot.language.requests.commands.line import Line
from notes_bot.language.requests.commands.whole import read_line
from notes_bot.model import Command

LONGEST = 32
"""Pieces of the longest such line (judgement)."""
MOST_PARTS = 3
"""Things asked in one line (judgement)."""
MOST_CUTS = 4
"""Places looked at where a line may be cut (judgement)."""
_ASKS = ("MUTE", "RESUME", "PICTURE", "HISTORY", "STATE", "SKIP", "MOVE", "DUE", "DIGEST", "EGGS", "LAB", "PLANTED")
_ADDS = ("ADD", "NEAR", "VARIETY", "OPENER", "UNDO", "HELP")
_KINDS = frozenset(
    {
        "mute",
        "resume",
        "picture",
        "history",
        "state",
        "move",
        "due",
        "digest",
        "lab",
        "hg",
        "field",
        "rotation",
        "sample",
    }
    | {"report"}
)
"""Kinds of what is asked so."""
_EACH = frozenset({"mute", "resume", "picture", "history", "state", "move"})
"""Kinds of which one each is asked, where several fields are named together."""
_OF_NO_FIELD = frozenset({"due", "digest"})
_SEEN = ("PLANTS", "COLOUR", "FEMALES", "DUG", "TOO_MANY", "NOT_LOOKED", "SOAKED", "TOOL")


def two_asked(line: Line) -> bool:
    """Read a line as several things asked; false when it is not."""
    ps = line.ps
    if len(ps) > LONGEST or not any("FIELD" in p.types for p in ps):
        return False
    if any(is_any(p, _SEEN) and len(p.text) > 1 and "FIELD" not in p.types and not linking(p) for p in ps):
        return False
    context = line.context
    kept = context.found()
    if _read(line, ps, None, MOST_PARTS):
        made = context.commands[kept[0] :]
        told = {(c.kind, c.args.get("field") or c.args.get("name")) for c in made}
        if len(told) == len(made) > 1 and len(context.problems) == kept[1] and _go_together(made):
            return True
    context.forget(kept)
    return False


def _read(line: Line, ps: list[Piece], named: Piece | None, most: int) -> bool:
    """Read pieces as at most so many things, the first of them as short as it may be."""
    context = line.context
    for at in _cuts(ps):
        first, rest = ps[:at], _behind_joint(line, ps[at:])
        kept = context.found()
        if _only_named(rest):
            being = context.text[ps[at].start : ps[at].end] in ("é", "É")  # "o que lancei na baixada é do lote 7"
            if not being and _may(line, first) and _one(line, first, named) and _of_each(line, rest):
                return True
            context.forget(kept)
            continue
        if (
            not first
            or not rest
            or winter.ends_in_crop(asking.line_of(line, first))
            or not (_may(line, first) and _may(line, rest))
        ):
            continue
        if _one(line, first, named):
            own = next((p for p in first if "FIELD" in p.types), named)
            told = context.found()
            if _one(line, rest, own):
                return True
            context.forget(told)
            if most > 2 and _read(line, rest, own, most - 1):
                return True
        context.forget(kept)
    return False


def _cuts(ps: list[Piece]) -> list[int]:
    """Where a stop or an "and" stands, the first few; "lote nuevo Loma, cerca de Kestrel" is one thing."""
    at = [n for n in range(1, len(ps)) if _joint(ps, n) and not _joint(ps, n - 1)]
    return [n for n in at if not is_any(piece_at(ps, n + 1), ("NEAR",))][:MOST_CUTS]


def _joint(ps: list[Piece], n: int) -> bool:
    """Is the piece a stop, but not one within a number or a type ("2.5.7"), or "and"?"""
    piece = ps[n]
    glued = 0 < n < len(ps) - 1 and ps[n - 1].end == piece.start and ps[n + 1].start == piece.end
    return (piece.kind == "break" and not glued) or piece.text in joints() or piece.text in anywhere("also")


def _behind_joint(line: Line, ps: list[Piece]) -> list[Piece]:
    """The pieces without the stops, "and" and "then" before them."""
    first = 0
    while first < len(ps) and (_joint(ps, first) or line.made.has("then_word", ps[first].text)):
        first += 1
    cry, *rest = sentences_of(ps[first:]) or [[]]
    if rest and len(cry) <= LONGEST_CRY and all(not p.types and p.kind in ("word", "break", "sign") for p in cry):
        return _behind_joint(line, [p for sentence in rest for p in sentence])  # ", yikes. And what .."
    return ps[first:]


LONGEST_CRY = 2
"""Pieces of a cry between two things asked, its stop among them."""


def _may(line: Line, ps: list[Piece]) -> bool:
    """Can anything be asked or told there? A look before it is read."""
    part = asking.line_of(line, ps)
    return any(is_any(p, (*_ASKS, *_ADDS)) or p.kind == "link" for p in ps) or asking.may_ask(part) or _typed(ps)


def _only_named(ps: list[Piece]) -> bool:
    """ "(The report of Kestrel and) the one of Depot?": one field more of what is asked before it."""
    return any("FIELD" in p.types for p in ps) and all(
        "FIELD" in p.types or linking(p) or p.kind in ("break", "sign") or _joint([p], 0) for p in ps
    )


def _of_each(line: Line, ps: list[Piece]) -> bool:
    """ "(History of Kestrel) and Depot?": the same of each field named there; a report is made of all at once."""
    context = line.context
    asked = context.commands[-1]
    if asked.kind not in _EACH or not asked.args.get("field"):
        return False
    for piece in [p for p in ps if "FIELD" in p.types]:
        args = {**asked.args, "field": written(context.text, piece.start, piece.end)}
        context.commands.append(replace(asked, args=args))
    return True


def _typed(ps: list[Piece]) -> bool:
    """ "Hg 2.5.7"."""
    return any(p.text == "hg" for p in ps)


def _one(line: Line, ps: list[Piece], named: Piece | None) -> bool:
    """Read a part as one thing, of its own field or of the one named before where it points to that."""
    context = line.context
    part = asking.line_of(line, ps)
    own = any("FIELD" in p.types for p in ps)
    made, problems = len(context.commands), len(context.problems)
    read = _planted(part) or read_line(part) or (named is not None and not own and read_aside(part, named))
    new = context.commands[made:]
    if not read or len(new) != 1 or len(context.problems) > problems or new[0].kind not in _KINDS:
        return False
    kind, args = new[0].kind, new[0].args
    if kind in _OF_NO_FIELD:
        return not own and any("DUE" in p.types or "DIGEST" in p.types for p in ps)
    if kind == "field":
        return _of_field(part, str(args.get("name")))
    if args.get("field") and own:
        return str(args["field"]) in _names(part)
    if named is None or own or not (_points(part) or kind in ("lab", "hg")):
        return False
    name = written(context.text, named.start, named.end)
    context.commands[made] = replace(new[0], args={**args, "field": name})
    return True


def _names(part: Line) -> set[str]:
    """The fields named in a part."""
    return {written(part.context.text, p.start, p.end) for p in part.ps if "FIELD" in p.types}


def _of_field(part: Line, name: str) -> bool:
    """Is it the planting of a field named there, or a new one with a capital?"""
    if any(is_any(p, ("PLANTED",)) for p in part.ps) and name in _names(part):
        return True
    return asking.parts_of(part).says("new_field") and _capital(part, name)


def _go_together(made: list[Command]) -> bool:
    """Two fields, or two things of one: results of one sample, or two wishes that do not undo each other."""
    kinds = {c.kind for c in made}
    fields = {c.args.get("field") or c.args.get("name") for c in made} - {None}
    counted = any(c.kind == "lab" and c.args.get("value") is not None for c in made)
    if len(fields) > 1:
        return True
    return kinds <= {"lab", "hg", "rotation"} if counted else not {"mute", "resume"} <= kinds


def _capital(part: Line, name: str) -> bool:
    """ "Laguna Corta", and not "for you": is a new name written with a capital?"""
    said = part.context.text[part.start : part.end]
    at = said.lower().find(name)
    return at >= 0 and said[at : at + 1].isupper()


def _points(part: Line) -> bool:
    """ "What did the lab give for it", "me lembra dele em 5 dias": the field named before is meant."""
    words = words_said(part.ps)
    return any(part.made.has(trait, word) for word in words for trait in ("it_word", "ask_it", "ask_there"))


def _planted(part: Line) -> bool:
    """ "Cañada seca se sembró el 17/5", "capão alto plantou 12/5": one field, and the day it was planted."""
    if not any(is_any(p, ("PLANTED",)) for p in part.ps) or part.asked:
        return False
    ps = day_words(part.ps, part.made)
    days = [p for p in ps if p.kind == "day"]
    fields = [p for p in ps if "FIELD" in p.types]
    rest = [p for p in ps if p not in days and p not in fields and not is_any(p, ("PLANTED", "FIELD_WORD"))]
    if len(days) != 1 or len(fields) != 1 or not all(linking(p) or _little(part, p) for p in rest):
        return False
    day = part.context.quietly(days[0].value)
    name = written(part.context.text, fields[0].start, fields[0].end)
    return day is not None and part.context.command("field", part.start, part.end, name=name, planted=day)


def _little(part: Line, piece: Piece) -> bool:
    """ "Was", "se", "foi"."""
    return piece.kind == "word" and all(part.made.has("seed_frame", w) or len(w) < 3 for w in piece.text.split(" "))
