"""Talk beside notes that is said to be left as it stands, and not asked about.

"Who has the good bucket?" gets no answer, and "Badger I leave for whoever comes after me" is no note of Badger: both
are named in the answer. Only where notes were read, and nothing in the words may be a datum or a visit not made.
"""

from __future__ import annotations

import re
from dataclasses import replace

from notes_bot.language.lexicon.mistakes import remark
from notes_bot.language.lexicon.scan import clean, scan
from notes_bot.language.lexicon.words import Table, table
from notes_bot.language.noting import says_nothing
from notes_bot.model import Note, Problem, Reading, Where

_DATA = frozenset({"COLOUR", "FEMALES", "NONE", "TOO_MANY", "POSITIVE", "MOSTLY", "NOT_LOOKED", "PLANTS", "DUG"})
"""Kinds of word with which something may be told of a visit."""
_SENTENCE = re.compile(r"[.!?\n]")


def without_talk(reading: Reading, text: str) -> Reading:
    """The reading with questions nobody asked us, and fields only spoken of, as remarks."""
    if not reading.problems or all(map(says_nothing, reading.notes)):
        return reading
    made = table(reading.language)
    problems, remarks, notes = list(reading.problems), list(reading.remarks), list(reading.notes)
    for problem in reading.problems:
        said = problem.where.text
        if problem.kind == "doubtful" and _asked_last(said, text) and not tells_data(made, said):
            problems.remove(problem)
            remarks.append(remark("unanswered", reading.language, problem.where))
        elif problem.kind == "only_words" and (note := _spoken_of(notes, problem, made)) is not None:
            problems.remove(problem)
            notes = [other for other in notes if other is not note]
            where = replace(note.where, text=_SENTENCE.split(note.where.text)[0])
            remarks.append(remark("only_named", reading.language, where, field=note.field))
    return replace(reading, notes=tuple(notes), problems=tuple(problems), remarks=tuple(remarks))


def _asked_last(said: str, text: str) -> bool:
    """A question with nothing behind it but perhaps a signature: no "5 blancas"?"""
    if not said.rstrip().endswith("?"):
        return False
    return not any(ch.isdigit() for ch in clean(text).rpartition(clean(said))[2])


def tells_data(made: Table, said: str) -> bool:
    """Is there a number in it, a denial, or a word of ours that may be a datum?"""
    lexemes = scan(clean(said))
    if any(x.kind != "word" and x.text.isdigit() for x in lexemes) or any(made.denies(x.text) for x in lexemes):
        return True
    ours = (e for x in lexemes for e in made.singles.get(x.text, ()) if len(x.text) > 2 and not e.slip)
    return any(entry.type in _DATA for entry in ours)


def _spoken_of(notes: list[Note], problem: Problem, made: Table) -> Note | None:
    """The note a complaint of words alone is about, if its field is only spoken of in its first sentence."""
    told = [note for note in notes if says_nothing(note) and note.field and _within(note.where, problem.where)]
    if len(told) != 1 or told[0].field is None:
        return None
    around = _SENTENCE.split(problem.where.text)[0]
    said = around if told[0].field in clean(around).lower() else _SENTENCE.split(told[0].where.text)[0]
    rest = clean(said).lower().replace(told[0].field, " ", 1)
    return None if tells_data(made, rest) else told[0]


def _within(inner: Where, outer: Where) -> bool:
    """Does one place of the text hold the other?"""
    lines = outer.text.split("\n")
    first, last = (outer.line, outer.column), (outer.line + len(lines) - 1, len(lines[-1]))
    last = (last[0], last[1] + (outer.column if len(lines) == 1 else 0))
    return first <= (inner.line, inner.column) <= last
