"""The day of a visit that was gone on to from another: it is that one's.

"Kestrel yesterday, saturated. From there I drove to Dry Creek and dug five": both were yesterday. Only where the words
before the later field's name say so, and it has no day of its own.
"""

from __future__ import annotations

import re
from dataclasses import replace

from notes_bot.language.clauses.context import Context
from notes_bot.language.lexicon.scan import fold, scan
from notes_bot.language.lexicon.words import phrases, table
from notes_bot.model import Note

MOST_LEAD = 80
"""Letters before a name in which it is said that it was gone on to (judgement)."""
MOST_BEHIND = 30
"""Letters behind a name in which it is said that it was on the same day (judgement)."""


def same_days(context: Context) -> None:
    """Give the day of a visit to the one that was gone on to behind it."""
    for n, (before, note) in enumerate(zip(context.notes, context.notes[1:], strict=False), 1):
        if before.date is None or note.date is not None or note.field is None:
            continue
        if _gone_on(context, note):
            context.notes[n] = replace(note, date=context.notes[n - 1].date)


def _gone_on(context: Context, note: Note) -> bool:
    """ "From there I drove to ..", "..: same afternoon": is it told with the name that it was on the same day?"""
    start = context.offset(note.where)
    low = fold(context.text[max(0, start - MOST_LEAD) : start + len(note.where.text)])
    at = low.find(fold(str(note.field)), min(start, MOST_LEAD) - len(str(note.field)))
    if at < 0:
        return False
    lead = re.split(r"[.;!?\n]", low[:at])[-1]
    behind = re.split(r"[.;!?\n]", low[at + len(str(note.field)) :])[0][:MOST_BEHIND]
    made = table(context.language)
    led, followed = (phrases([x.text for x in scan(said)]) for said in (lead, behind))
    return made.has_any("went_on", led) or made.has_any("same_day", led | followed)
