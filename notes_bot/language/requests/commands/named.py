"""A field's name and a word for what is asked, and no more."""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any, linking, until_days
from notes_bot.language.requests.commands.line import LONGEST_NAME, Line


def about(line: Line, kind: str, needed: bool) -> bool:
    """ "History kestrel", "mute the reminders for now": a first word, and the name of a field or none."""
    if len(line.ps) > LONGEST_NAME + 1 or line.noted(1) or line.only_days(1):
        return False
    spoken = [p for p in line.ps[1:] if p.kind == "word" and not linking(p)]
    nameless = len(line.ps) > 1 and all(
        line.made.has("no_name", p.text) or (p.entries and is_any(p, ("TOPIC", "COURTESY", kind.upper())))
        for p in spoken
    )
    name = None if nameless else line.nearest_name(line.name(1))  # "mute the reminders for now"
    if name is not None or not needed:
        return line.emit(kind, field=name)
    if len(line.ps) > 1 or line.quiet():
        return False
    line.context.complain("which_field", line.start, line.end)
    return True


def name_first(line: Line) -> bool:
    """ "kestrel status", "kestrel history"."""
    while len(line.ps) > 2 and "COURTESY" in until_days(line.ps[-1:], line.made)[0].types:
        line.ps = line.ps[:-1]  # not of "kestrel tendrá que esperar hasta el lunes"
    last = line.ps[-1]
    if not 2 <= len(line.ps) <= 5 or line.noted(0) or line.quiet(-1):
        return False
    if any("HELP" in p.types and " " in p.text for p in line.ps):
        return False
    if line.ps[0].entries and "FIELD" not in line.ps[0].types:
        return False
    for kind in ("STATE", "HISTORY", "PICTURE", "MUTE", "RESUME"):
        if kind in last.types:
            last_at = len(line.ps) - 1
            return line.emit(kind.lower(), field=line.nearest_name(line.name(0, last_at), last_at))
    return False


def just_asked(line: Line) -> bool:
    """ "kestrel?"."""
    named = all(p.kind in ("word", "number") and (not p.entries or "FIELD" in p.types) for p in line.ps)
    return line.asked and named and len(line.ps) <= 4 and line.emit("state", field=line.name(0))
