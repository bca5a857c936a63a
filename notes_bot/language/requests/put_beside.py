"""One value put beside another of its kind, in free words: "tops were stunted not wilted", "no wait it was 8 not 6".

Every word of the sentence must be a value, what it is the value of, a word that denies, a word for writing or for what
is so, an excuse or a little word; with any other word the sentence tells something else and is left alone. So a plain
note ("dug 6 not 5 like usual") puts nothing right.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Any

from notes_bot.language.lexicon.days import DayWritten, coming_day, past_day
from notes_bot.language.lexicon.joining import is_any, linking, number_like
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.scan import clean, fold, scan
from notes_bot.language.lexicon.words import Table, anywhere, is_field_word
from notes_bot.language.names.naming import Names, joints, written
from notes_bot.language.passes.keyed import SAMPLE
from notes_bot.language.requests import asking
from notes_bot.language.requests.amends import named_field
from notes_bot.language.requests.corrections import cannot_go, correction
from notes_bot.language.requests.sentence_parts import sentence_parts
from notes_bot.language.requests.which_is_so import UNSAID, Right, bare_right, denies_either, rights_of, shades_turned
from notes_bot.language.requests.word_parts import SHADES, Part

if TYPE_CHECKING:
    from notes_bot.language.clauses.context import Context
    from notes_bot.language.requests.commands.line import Line


LONGEST = 30
"""Pieces of the longest sentence that puts values right (judgement)."""


def also_right(line: Line) -> bool:
    """ ".. also tallow was V6": behind a correction, one field and one value of it that counts no females."""
    span = field_span(line)
    parts = sentence_parts(line, span) if span is not None and len(line.ps) <= LONGEST and not line.asked else None
    values = [part for part in parts or () if part.role == "value"]
    if span is None or parts is None or len(values) != 1 or not any(part.role == "now" for part in parts):
        return False
    rights = rights_of([Part("sure"), *parts])
    if not rights or rights[0].what in SHADES | {"total", "visit"}:
        return False
    emit(line, field_name(line, span), rights[0], None)
    return True


def right_of(line: Line, field: Piece) -> bool:
    """ "(There are two slips in my note on Kestrel.) And the whites were 18, I'd put 8": read as of that field.

    Only what is put right: false where nothing is, or where the sentence names another field.
    """
    own = [p for p in line.ps if "FIELD" in p.types]
    said = list(line.ps)
    while said and (said[0].text in joints() or said[0].text in anywhere("also")):
        said = said[1:]
    if not said or len(own) > 1 or any(p.text != field.text for p in own):
        return False
    context, kept = line.context, line.context.found()
    whole = type(line)(context, said if own else [field, *said])
    name = whole.written(field)
    if put_beside(whole) or correction(context, whole.ps):
        made = context.commands[kept[0] :]
        right = all(c.kind == "correct" and "what" in c.args and c.args.get("field") in (None, name) for c in made)
        if made and right and context.found()[1] == kept[1]:
            context.told_of(name, kept[0])
            return True
    context.forget(kept)
    return False


def put_beside(line: Line, other_than: Piece | None = None, lone: bool = False) -> bool:
    """Read a line, or a sentence among others, as values put right; false when any of its words tells more than that.

    Beside a note, ``other_than`` is its field: only another field's note is put right there. With ``lone`` a value
    with no other beside it counts too, where a word says that something was wrong ("oops, tallow was 7 plants").
    """
    if len(line.ps) > LONGEST or line.asked or not _may_put(line):
        return False
    if any(_tells_of_plants(p, q, line.made) for p, q in pairwise(line.ps)):
        return False
    if (
        cannot_go(line.context, line.ps)
        or asking.parts_of(line).says("ask_reminder")
        or asking.parts_of(line).takes_back()
    ):
        return False
    span = field_span(line)
    below = "\n" in line.context.text.strip()
    if span is None and (other_than is not None or below or any("FIELD" in p.types for p in line.ps)):
        return False
    field = field_name(line, span) if span is not None else None
    if other_than is not None and field == field_name(line, (other_than.start, other_than.end)):
        return False
    parts = sentence_parts(line, span)
    if parts is not None and (shades_turned(parts) or denies_either(parts)):
        line.context.complain("no_change", line.start, line.end)
        return True
    rights = rights_of(parts) if parts is not None else None
    days = [r for r in rights or () if r.what == "visit"]
    rights = [r for r in rights or () if r.what != "visit"]
    sure = span is not None or any(part.what == "unlike" for part in parts or ())
    told = lone or all(r.told and sure for r in rights or () if r.old is None)
    if not rights or len(days) > 1 or not told:
        return False
    on = line.context.quietly(days[0].value) if days else None
    for right in rights:
        emit(line, field, right, on)
    return True


def one_for_another(line: Line) -> bool:
    """ "Sorry, 9 not 6": one number for another, without a word for what they count; nothing else in the message."""
    if len(line.ps) > LONGEST or line.asked or not _may_put(line) or not is_whole(line):
        return False
    span = field_span(line)
    if (span is None) == any("FIELD" in p.types for p in line.ps):
        return False  # a name no list has may hold the color, "no cupim branca é 12 e não 9"
    if any(is_any(p, ("COLOUR", "FEMALES", "PLANTS", "UNIT", "WEEKDAY", "MONTH")) for p in line.ps):
        return False
    parts = sentence_parts(line, span)
    right = bare_right(parts) if parts is not None else None
    field = field_name(line, span) if span is not None else None
    return right is not None and line.context.command(
        "correct", line.start, line.end, field=field, value=right.value, old=right.old
    )


MOST_BESIDE = 200
"""Letters beside a request, at most, that may all say "sorry" (judgement)."""


def is_whole(line: Line) -> bool:
    """Is it all of the message, but for "sorry"?"""
    text = line.context.text
    if line.start + len(text) - line.end > MOST_BESIDE:
        return False
    beside = [x.text for x in scan(clean(f"{text[: line.start]} {text[line.end :]}")) if x.kind != "nl"]
    return all(not word.isalnum() or line.made.has("sorry", word) for word in beside)


def _tells_of_plants(piece: Piece, behind: Piece, made: Table) -> bool:
    """ "N = 10, total de 31", "six plants gave me 19": the size of a sample, and what plants had."""
    return (piece.text == SAMPLE and behind.text == "=") or (
        is_any(piece, ("PLANTS",)) and made.has("gave", behind.text)
    )


def _may_put(line: Line) -> bool:
    """Is anything denied, told to have been written, or said to be wrong? A look before the sentence is read."""
    made = line.made
    if any(is_any(p, ("NOT", "CORRECT")) for p in line.ps):
        return True
    cues = ("wrote", "amend_cue", "really", "had_alone", "set_verb", "note_says")
    if any(map(made.denies, line.vocabulary)) or any(made.has_any(trait, line.vocabulary) for trait in cues):
        return True
    return asking.parts_of(line).says(
        "amend_cue", "slip_reason", "owns_up", "instead_of", "put_wrong", "scratches", "right_now"
    )


def field_span(line: Line) -> tuple[int, int] | None:
    """Where the one field of the sentence stands, no word of ours in its name; ``None`` with none or two."""
    span = named_field(line) if line.context.fields else _head(line)
    if span is not None and any(_counts(p, q, span) for p, q in pairwise(line.ps)):
        return None
    own = [p for p in line.ps if span is not None and span[0] <= p.start < span[1] and "FIELD" not in p.types]
    placed = not line.context.fields and any(not p.types for p in own)  # without a list "lark hollow" is a name
    return None if any(p.types and not (placed and p.types.keys() <= _PLACED) for p in own) else span


_PLACED = frozenset({"SPOT", "MOISTURE", "TEXTURE", "COLOUR", "ROOT", "LINK"})
"""Kinds of words that are also parts of names of places."""


def _counts(piece: Piece, behind: Piece, span: tuple[int, int]) -> bool:
    """ "Correct 12 white to 14": a number by which a field is called, and which counts here."""
    named = (piece.start, piece.end) == span and piece.text.isdigit()
    return named and is_any(behind, ("COLOUR", "FEMALES", "PLANTS"))


def _head(line: Line) -> tuple[int, int] | None:
    """ "Canal Grande: fueron 12 plantas, puse 10": without a list of fields, a name in front."""
    colon = next((n for n, p in enumerate(line.ps[: LONGEST_HEAD + 1]) if p.text == ":"), 0)
    if colon and all(p.kind in ("word", "number") for p in line.ps[:colon]) and not line.ps[0].types:
        return line.ps[0].start, line.ps[colon - 1].end
    names = Names(line.context.text, line.ps, line.made, ()).find()
    first = names.get(0)
    behind = next((p for p in line.ps if first is not None and p.start >= first.end), None)
    runs_on = behind is not None and behind.kind != "break"  # "fat thumbs. make that 14 white not 41" names none
    if first is not None:
        return (first.start, first.end) if runs_on and len(names) == 1 else None
    return _of_note(line.ps, line.made)


def _of_note(pieces: list[Piece], made: Table) -> tuple[int, int] | None:
    """ "My (sawyer) note", "la nota de (santa clara)": without a list, words of no meaning beside one for a note."""
    at = next((n for n, p in enumerate(pieces) if made.has("mail_word", p.text)), None)
    if at is None:
        return None
    first = at
    while first > 0 and pieces[first - 1].kind == "word" and not pieces[first - 1].types:
        first -= 1
    if 0 < first < at <= first + LONGEST_HEAD and linking(pieces[first - 1]):
        return pieces[first].start, pieces[at - 1].end
    begin = end = at + 2
    while end < len(pieces) and pieces[end].kind == "word" and not pieces[end].types:
        end += 1
    led = begin < end <= begin + LONGEST_HEAD and made.has("of_note", pieces[at + 1].text)
    ends = end >= len(pieces) or pieces[end].kind in ("break", "sign")
    return (pieces[begin].start, pieces[end - 1].end) if led and ends else None


LONGEST_HEAD = 4
"""Words and numbers of the longest name before a colon (judgement)."""


def field_name(line: Line, span: tuple[int, int]) -> str:
    """The field's name without a word for field before it, unless the crew's name has it."""
    name = written(line.context.text, *span)
    words = name.split(" ")
    known = {fold(" ".join(field.split())) for field in line.context.fields if not any(map(str.isdigit, field))}
    led = len(words) > 1 and is_field_word(fold(words[0])) and fold(name) not in known
    return " ".join(words[1:]) if led else name


def emit(line: Line, field: str | None, right: Right, on: Any) -> None:
    """One datum put right, as a command."""
    what, now, then = right.what, right.value, right.old
    if what == "look_again" and isinstance(now, DayWritten) and _been(line.context, now):
        what = "date"  # "wrong day on Kestrel, that look was 6/16 not 6/17"
    if what == "spray":
        now, then = {"what": now}, then and {"what": then}
    elif what == "look_again":
        now, then = _next_look(line.context, now, then)
    elif what == "date":
        now, then = _days(line.context, now, then)
        on = None
    line.context.command("correct", line.start, line.end, field=field, what=what, value=now, old=then, date=on)


def _been(context: Context, day: DayWritten) -> bool:
    """Is a day past, and none to come?"""
    found = past_day(day, context.sent, context.language, context.day_first)
    return found.day is not None and coming_day(day, context.sent, context.language, context.day_first).day is None


def share_turned(line: Line) -> bool:
    """ "Half my count was tan not brown", "half the whites were yellow": how many there are now is asked."""
    made = line.made
    if not asking.may_say(line, "share_of_count") or not asking.parts_of(line).opens("share_of_count"):
        return False
    if any(number_like(p) or p.kind in ("stage", "series", "day") for p in line.ps if "FIELD" not in p.types):
        return False
    shades = [n for n, p in enumerate(line.ps) if "COLOUR" in p.types and len(p.text) > 1]
    was = [n for n, p in enumerate(line.ps) if made.has("was_so", p.text)]
    counted = [n for n, p in enumerate(line.ps) if made.has_any("sent_count", p.text.split(" ")) or n in shades]
    if not was or not shades or not any(n < was[0] for n in counted) or shades[-1] < was[0]:
        return False
    line.context.complain("no_change", line.start, line.end)
    return True


def _next_look(context: Context, now: Any, then: Any) -> tuple[Any, Any]:
    """Days to the next look, or its day; "in 14 days not 10", "7/31 not the 24th"."""
    if isinstance(now, DayWritten):
        day = coming_day(now, context.sent, context.language, context.day_first).day
        old = day.replace(day=then) if day is not None and isinstance(then, int) else None
        if isinstance(then, DayWritten):
            old = coming_day(then, context.sent, context.language, context.day_first).day
        return day and {"date": day.isoformat()}, old and {"date": old.isoformat()}
    return {"days": now}, None if then in (None, UNSAID) else {"days": then}


def _days(context: Context, now: Any, then: Any) -> tuple[Any, Any]:
    """The day of the visit, and the one written; "not today" says the day of the note, which may be another by now."""
    day = context.quietly(now)
    if isinstance(then, int):
        return day, day.replace(day=then) if day is not None else None
    if isinstance(then, DayWritten) and then.days_ago == 0:
        return day, None
    return day, context.quietly(then)
