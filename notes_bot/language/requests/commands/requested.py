"""A word for asking, anywhere in a line that tells nothing seen."""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.requests import asking
from notes_bot.language.requests.commands.helping import helped
from notes_bot.language.requests.commands.known_fields import pinned
from notes_bot.language.requests.commands.line import ASKED, LONGEST_REQUEST, Line
from notes_bot.language.requests.commands.reminders import looked_at_then, moved_in_words
from notes_bot.language.requests.commands.standing import of_the_season
from notes_bot.language.requests.corrections import other_field

UNDONE_SOON = 5
"""Pieces of a line in which it is said that something is taken back: "uh me equivoqué, borrá lo último" (judgement)."""


def requested(line: Line) -> bool:
    """ "Send me the chart for kestrel please": a word for asking anywhere in a line that tells nothing seen."""
    if len(line.ps) > LONGEST_REQUEST:
        return False
    if looked_at_then(line) or (not line.tells(reasons=True) and (moved_in_words(line) or pinned(line))):
        return True
    if asking.skipped(line):
        return True
    silenced = any(
        "MUTE" in p.types and " " in p.text and line.known_name(n) is not None for n, p in enumerate(line.ps)
    )
    if line.tells(reasons=silenced):
        return False
    undone = next((n for n, p in enumerate(line.ps[:UNDONE_SOON]) if "UNDO" in p.types and " " in p.text), None)
    if undone is not None and undone > 1 and line.made.has("weak_undo", line.ps[undone].text):
        undone = None  # "who's hauling the hay never mind"
    if undone is not None and other_field(line.context, line.ps[undone + 1 :]):
        return True  # "take that last one back, it was dry creek not kestrel"
    if undone is not None:
        return line.emit("take_back", field=line.known_name(undone) or asking.lead_name(line))
    for kind in ASKED:
        asked = [n for n, p in enumerate(line.ps) if kind in p.types and "FIELD" not in p.types and not line.quiet(n)]
        if not asked:
            continue
        field = line.known_name(asked[0])
        if kind in ("MUTE", "RESUME") and line.asked and line.made.has("is_word", line.ps[0].text):
            continue  # "is tinkers done for the year?"
        if field is None and kind not in ("DUE", "MUTE", "RESUME", "DIGEST"):
            continue
        if kind == "DIGEST" and field is not None:
            return line.emit("state", field=field)  # "send me a summary of kestrel"
        if kind in ("DUE", "DIGEST") and field is not None:
            # "take tinkers off my list", "when is dry creek due"
            return asking.asked(line) or line.emit("state", field=field)
        if kind == "DUE" and asking.parts_of(line).says("ask_drop"):
            line.context.complain("which_field", line.start, line.end)
            return True  # "take tinkers off my list", and no Tinkers is known
        if kind == "DUE" and line.made.has("it_word", line.ps[min(asked[0] + 1, len(line.ps) - 1)].text):
            continue  # "i'm going back on monday to do it over"
        if kind == "DUE" and any(p.kind == "link" for p in line.ps):
            continue  # "here's where gopher strip is: (a link), put it on my list"
        if kind == "DUE" and line.made.has("puts_on", line.ps[0].text) and (new := _put_on_list(line, asked[0])):
            return line.emit("field", name=new)
        if kind in ("DUE", "DIGEST"):
            return line.emit(kind.lower())
        if kind == "STATE" and of_the_season(line, asked[0]):
            kind = "HISTORY"
        return line.emit(kind.lower(), field=field)
    return helped(line)


def _put_on_list(line: Line, at: int) -> str | None:
    """ "Put Mulberry Hill on my list": the name between, where no field of the crew is named."""
    end = at
    while end > 1 and linking(line.ps[end - 1]):
        end -= 1
    named = end > 1 and all(p.kind in ("word", "number") and not is_any(p, ("FIELD",)) for p in line.ps[1:end])
    strange = any(p.kind == "word" and not p.types for p in line.ps[1:end])
    return line.name(1, end) if named and strange else None
