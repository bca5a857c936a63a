"""A slip in an earlier note, told at length in a mail of other fields: what was written, and what is so.

"In Tuesday's note for Kestrel I put down 9 white; my card says 6, so please change that." Everything else of these
sentences is talk. Only where one field is named, a word tells of a slip, and each value that is so stands against one
of its kind that was written or is denied; else nothing is taken out.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from notes_bot.language.clauses.context import Context
from notes_bot.language.lexicon.days import DayWritten
from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import Table, heads_of, phrases, table
from notes_bot.language.requests.commands import Line
from notes_bot.language.requests.put_beside import emit, field_name, field_span, right_of
from notes_bot.language.requests.which_is_so import Right
from notes_bot.language.requests.word_parts import COUNTS, Part, clauses_of, joined_pieces, told_parts, topic_of
from notes_bot.model import COLOURS

LEAST_SENTENCES = 2
"""Sentences of a message among which a slip may be told at length."""
LONG_ALONE = 30
"""Pieces from which a message is a mail, though it tells of nothing but the slip (judgement)."""
MOST_SENTENCES = 3
"""Sentences that may tell one slip (judgement)."""
MOST_CHANGES = 3
"""Data that one slip is of; more is a note (judgement)."""
LONGEST_PLEA = 9
"""Words of the longest sentence that only asks to put it right, or is sorry (judgement)."""
_SLIPS = ("amend_cue", "said_wrong", "slip_reason", "slip_digit", "owns_up")
"""Manners of words for a slip, or for putting it right."""


def owned_up(context: Context, pieces: list[Piece]) -> list[Piece]:
    """Slips told in several words among other sentences become corrections; the pieces that are left."""
    if not context.fields or not _owns_up(context, [pieces], wrote=True):
        return pieces
    sentences = sentences_of(pieces)
    if len(sentences) < LEAST_SENTENCES:
        return pieces
    kept = len(context.commands)
    rest: list[Piece] = []
    n = 0
    while n < len(sentences):
        size = _slip_told(context, sentences, n)
        told = sentences[n : n + size]
        while told and n + len(told) < len(sentences) and _more_of_it(context, sentences, n, len(told)):
            told.append(sentences[n + len(told)])
        rest += [p for p in told[-1][-1:] if p.kind in ("break", "line")] if told else sentences[n]
        n += len(told) or 1
    if len(pieces) < LONG_ALONE and not any(is_any(p, ("FIELD",)) for p in rest):
        del context.commands[kept:]  # a short message that is nothing else is read as one
        return pieces
    return rest


def _more_of_it(context: Context, sentences: list[list[Piece]], n: int, size: int) -> bool:
    """ "(The stage was R2, not R3.) And the yellows were 7, I had written 17": more put right of the same note."""
    line = _line(context, sentences[n + size])
    field = next((p for sentence in sentences[n : n + size] for p in sentence if "FIELD" in p.types), None)
    if line is None or field is None or line.asked or not context.commands:
        return False
    last, made = context.commands[-1], len(context.commands)
    if not right_of(line, field):
        return False
    day = {"date": last.args["date"]} if "date" in last.args else {}
    context.commands[made:] = [replace(c, args={**day, **c.args}) for c in context.commands[made:]]
    return True


def sentences_of(pieces: list[Piece]) -> list[list[Piece]]:
    """Pieces cut behind every stop that ends a sentence, question mark and line."""
    out: list[list[Piece]] = [[]]
    for piece in pieces:
        out[-1].append(piece)
        ends = piece.kind == "break" and piece.value == "hard" and piece.text != ";"
        if ends or piece.kind == "line" or piece.text == "?":
            out.append([])
    return [sentence for sentence in out if sentence]


@dataclass
class Slip:
    """What was written and what is so, as far as the sentences tell it."""

    written: list[tuple[str | None, Any]] = field(default_factory=list)
    so: list[tuple[str | None, Any]] = field(default_factory=list)
    day: Any = None
    """The day of the note that is meant."""
    wrote: bool = False
    at_once: bool = False
    """Is what is so told of the time of this message ("today it was 14")?"""


def _slip_told(context: Context, sentences: list[list[Piece]], n: int) -> int:
    """Read a slip whose telling begins with this sentence; how many sentences it takes, or 0."""
    line = _line(context, sentences[n])
    span = field_span(line) if line is not None and not line.asked else None
    if line is None or span is None:
        return 0
    slip = Slip()
    before = sentences[n - 1] if n else []
    for size in range(1, MOST_SENTENCES + 1):
        last = sentences[n + size - 1] if n + size <= len(sentences) else []
        more = _line(context, last)
        if more is None or more.asked or (size > 1 and _names_other(more, line, span)):
            return 0
        _read(slip, more, span)
        size_with_plea = size + _pleas(context, sentences[n + size :])
        owned = [before, *sentences[n : n + size_with_plea]]
        rights = _rights(slip) if _owns_up(context, owned, slip.wrote) else []
        if rights and not slip.at_once:
            on = context.quietly(slip.day or _day_of(context, before))
            whole = Line(context, [p for part in sentences[n : n + size] for p in part if p.kind != "line"])
            for right in rights:
                emit(whole, field_name(line, span), right, on if isinstance(on, date) else None)
            return size_with_plea
        if slip.so and not rights and slip.written:
            return 0
    return 0


def _line(context: Context, sentence: list[Piece]) -> Line | None:
    """A sentence as a line that may ask, without its stop."""
    told = list(sentence)
    while told and told[-1].kind in ("break", "line"):
        told.pop()
    return Line(context, told) if told else None


def _names_other(line: Line, first: Line, span: tuple[int, int]) -> bool:
    """Does a later sentence name a field other than the first one's?"""
    name = field_name(first, span)
    return any("FIELD" in p.types and field_name(line, (p.start, p.end)) != name for p in line.ps)


def _owns_up(context: Context, sentences: list[list[Piece]], wrote: bool) -> bool:
    """Does a word tell of a slip, or ask to put it right? "Sorry", "should be" are enough behind what was written."""
    made = table(context.language)
    manners = (*_SLIPS, "sorry", "right_now") if wrote else _SLIPS
    for sentence in sentences:
        words = [word for p in sentence if p.kind == "word" for word in p.text.split(" ")]
        if heads_of(context.language, manners).isdisjoint(words):
            continue
        said = phrases(words)
        if any(made.has_any(manner, said) for manner in manners):
            return True
    return False


def _pleas(context: Context, sentences: list[list[Piece]]) -> int:
    """ "Please put that right.", "Sorry!!": how many of the next sentences say no more than that."""
    size = 0
    for sentence in sentences:
        words = [word for p in sentence if p.kind == "word" for word in p.text.split(" ")]
        valued = any(p.kind not in ("word", "break", "line", "sign") or is_any(p, _VALUED) for p in sentence)
        if valued or len(words) > LONGEST_PLEA or sentence[-1].text == "?":
            break
        if words and not _owns_up(context, [sentence], wrote=True):
            break
        size += 1
        if sentence[-1].kind == "line":
            break
    return size


_VALUED = ("FIELD", "COLOUR", "NONE", "NOT_LOOKED", "UNDO", "SKIP", "MUTE")
"""Kinds of word of a sentence that says more than a plea."""


def _day_of(context: Context, sentence: list[Piece]) -> Any:
    """ "I need to fix something from yesterday.": the day told with a slip in the sentence before."""
    if not sentence or not _owns_up(context, [sentence], wrote=False):
        return None
    return _day_in(joined_pieces(sentence, table(context.language)))


def _day_in(pieces: list[Piece]) -> DayWritten | None:
    """The first day told of a note ("on Tuesday", "from yesterday"), and none of the slip ("wrong yesterday")."""
    for n, piece in enumerate(pieces):
        if is_any(piece, ("WEEKDAY",)):
            return DayWritten(piece.text, weekday=int(piece.types["WEEKDAY"].value))
        if piece.kind == "day" and isinstance(piece.value, DayWritten):
            led = n > 0 and (linking(pieces[n - 1]) or is_any(pieces[n - 1], ("FIELD",)))
            return piece.value if led or piece.value.days_ago is None or "'" in piece.text else None
    return None


def _read(slip: Slip, line: Line, span: tuple[int, int]) -> None:
    """The values of one sentence, each with what is said of it: written, denied, or so."""
    made = line.made
    whole = joined_pieces(line.ps, made)
    topic = topic_of(whole)
    side = "old" if slip.wrote and not slip.so else None
    for clause in clauses_of(whole):
        parts = _plain(_parts_of(clause, topic, span, line))
        side = side if side == "old" or (side == "new" and _leads_on(parts)) else None
        slip.day = slip.day or (None if slip.so else _day_in(clause))
        mine = slip.wrote or _is_mine(clause, made)
        for n, part in enumerate(parts):
            side = _side(slip, part, side) if mine or part.role != "wrote" else side
            if part.role != "value":
                continue
            if part.what == "date":
                continue
            what = part.what or _noun(parts, n)
            if side == "old":
                slip.written.append((what, part.value))
            elif side == "new":
                slip.so.append((what, part.value))
                slip.at_once = slip.at_once or any(_is_now(p, made) for p in clause)
            side = None if side == "old" and not slip.wrote else side


def _parts_of(clause: list[Piece], topic: str | None, span: tuple[int, int], line: Line) -> list[Part]:
    """The parts of a clause, "says" among them: "my card says 6"."""
    out: list[Part] = []
    run: list[Piece] = []
    for piece in clause:
        if line.made.has("so_it_was", piece.text):
            out += [*told_parts(run, topic, span, line), Part("says")]
            run = []
        else:
            run.append(piece)
    return [*out, *told_parts(run, topic, span, line)]


def _is_mine(clause: list[Piece], made: Table) -> bool:
    """ "I wrote", and not "the grower wrote"; elsewhere the verb itself tells whose it is."""
    words = [word for p in clause for word in p.text.split(" ")]
    return made.language != "en" or made.has_any("mine_word", words)


def _plain(parts: list[Part]) -> list[Part]:
    """The parts of a clause; dug, where it is no value of a pair, says what was counted."""
    ways = {part.value for part in parts if part.what == "method" and part.role == "value"}
    counts = any(part.role == "value" and part.what is None for part in parts)
    dug = counts and len(ways) == 1
    return [Part("noun", "dug") if dug and part.verb and part.what == "method" else part for part in parts]


def _side(slip: Slip, part: Part, side: str | None) -> str | None:
    """What the next value is: written ("old"), so ("new"), or neither."""
    if part.role == "wrote":
        slip.wrote = True
        return "old" if not slip.so else side
    if part.role in ("not", "instead"):
        return "old" if slip.so else side
    if part.role == "now" or part.what == "strong" or (part.role == "says" and slip.written):
        return "new"
    return side


def _leads_on(parts: list[Part]) -> bool:
    """ "It was 5 plants, 17 white": does a clause begin with a value, or deny one?"""
    told = [part for part in parts if part.role not in ("stop", "little", "and")]
    return bool(told) and told[0].role in ("value", "not", "instead")


def _noun(parts: list[Part], n: int) -> str | None:
    """What a bare number counts: what is named right behind it, or last before it."""
    behind = parts[n + 1 : n + 2]
    ahead = [k for k, part in enumerate(parts[:n]) if part.role == "noun"][-1:]
    ahead = [k - _of_colour(parts, k) for k in ahead]
    named = [part for part in behind if part.role == "noun"] or [parts[k] for k in ahead]
    what = named[0].what if named else None
    what = "plants" if what == "dug" else what
    return what if what in COUNTS else None


def _of_colour(parts: list[Part], k: int) -> bool:
    """ "The yellow count": is it of the color named right before it?"""
    return k > 0 and parts[k].what == "total" and parts[k - 1].role == "noun" and parts[k - 1].what in COLOURS


def _is_now(piece: Piece, made: Table) -> bool:
    """ "Today it was 14": a word for the time of this message."""
    return any(made.has("now_told", word) for word in (piece.text, *piece.text.split(" ")))


def _rights(slip: Slip) -> list[Right]:
    """Each value that is so against the one of its kind that was written; none where one has no other."""
    out: list[Right] = []
    for what, value in slip.so:
        alike = [
            (kind, old)
            for kind, old in slip.written
            if (what is None and isinstance(old, int) and not isinstance(old, bool) and isinstance(value, int))
            or kind == what
            or (kind is None and what in COUNTS)
        ]
        other = [(kind, old) for kind, old in alike if old != value]
        if alike and not other:
            continue  # "5 plants with 11 white. It was 5 plants with 17 white"
        if len(other) != 1 or (what or other[0][0]) is None:
            return []
        out.append(Right(str(what or other[0][0]), value, other[0][1]))
    told = {right.what for right in out}
    return out if len(told) == len(out) <= MOST_CHANGES else []
