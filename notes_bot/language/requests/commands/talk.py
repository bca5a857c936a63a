"""Everyday talk beside what is asked."""

from __future__ import annotations

from notes_bot.language.clauses.context import Context
from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import table
from notes_bot.language.requests.commands.cutting import contents_of, sentences_of
from notes_bot.language.requests.commands.line import TOLD

TALKED = frozenset(
    {"due", "help", "state", "history", "picture", "move", "digest", "mute", "resume", "language", "place"}
)
"""Kinds of asking that people explain in more words ("Which fields are due? I can cover 5 or 6 on Thursday.")."""
LONGEST_ASKED = 4
"""Pieces of the longest phrase that asks politely."""
_DATA = (
    *TOLD,
    *("PLANTS", "FEMALES", "EACH", "FIELD", "FIELD_WORD", "CHECK", "CORRECT", "MOISTURE", "PH", "POTASSIUM"),
)
"""Kinds of word that tell something of a field."""
_TALKED_OF = frozenset({"LINK", "TEXT", "COURTESY", "SPOT", "ABOUT", "MEASURE", "LOOK", "WEEKDAY", "TODAY", "HAD"})
"""Kinds of word that everyday talk holds too."""


def without_plea(context: Context, line: list[Piece]) -> list[Piece]:
    """A line without "Please fix." at its end, which adds nothing to the correction told before it."""
    made = table(context.language)
    if not made.has_any("lone_correct", [p.text for p in line]):
        return line
    sentences = sentences_of(line)
    last = [p for p in sentences[-1] if p.kind not in ("break", "line")] if sentences else []
    little = ("please", "it_word", "lone_correct")
    plea = any(made.has("lone_correct", p.text) for p in last) and all(
        "COURTESY" in p.types or any(made.has(trait, p.text) for trait in little) for p in last
    )
    if len(sentences) < 2 or not plea:
        return line
    ends = [p for p in sentences[-1] if p.kind == "line"]
    return [p for sentence in sentences[:-1] for p in sentence] + ends


def beside_talk(content: list[Piece]) -> list[Piece]:
    """ "Undo. Gate was left open again.": the one sentence beside sentences that tell and ask nothing; or nothing."""
    sentences = contents_of(content)
    told = [part for part in sentences if not _is_talk(part)]
    return told[0] if len(told) == 1 < len(sentences) else []


def without_asking(context: Context, content: list[Piece]) -> list[Piece]:
    """ "Can you (put Kestrel off to Friday)?": a line behind words that ask for it politely; nothing without them."""
    made, first = table(context.language), 0
    while first < len(content):
        words = [piece.text for piece in content[first : first + LONGEST_ASKED]]
        sizes = (size for size in range(len(words), 0, -1) if made.has("asks_politely", " ".join(words[:size])))
        size = next(sizes, 0)
        if not size:
            break
        first += size
    return content[first:] if first else []


def before_reason(context: Context, content: list[Piece]) -> list[Piece]:
    """ "Can you rename Kestrel to Big Oak? Grower hates the old name.": what is asked before what only says why.

    Nothing where the question is not a polite one, or what stands behind it tells or asks something.
    """
    asked, *behind = sentences_of(content) or [[]]
    if not behind or asked[-1].text != "?":
        return []
    why = [piece for sentence in behind for piece in sentence]
    plain = all(piece.kind in ("word", "break") and not is_any(piece, _DATA) for piece in why)
    return asked if without_asking(context, asked) and plain and not any(piece.text == "?" for piece in why) else []


def _is_talk(sentence: list[Piece]) -> bool:
    """A sentence of several words, none of them a number or a word of notes and requests."""
    words = all(piece.kind in ("word", "break", "sign") and piece.text != "?" for piece in sentence)
    planned = any(is_any(p, ("LOOK",)) for p in sentence) and any(is_any(p, ("WEEKDAY", "TODAY")) for p in sentence)
    plain = all(not piece.types or piece.types.keys() & _TALKED_OF for piece in sentence)
    return len(sentence) > 2 and words and plain and not planned and not any(is_any(p, ("FIELD",)) for p in sentence)


def only_talk(context: Context, rest: list[Piece]) -> bool:
    """Do the sentences beside what is asked name no field and tell nothing of one?"""
    if not {command.kind for command in context.commands} <= TALKED or not context.fields:
        return False
    return not any(piece.kind in ("stage", "series", "ratio") or is_any(piece, _DATA) for piece in rest)
