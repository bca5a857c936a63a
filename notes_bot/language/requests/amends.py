"""What is put right in a writer's own words: what is so, and what was written or is denied, each told of one field.

"Roots at plot 12 did get soaked, i put no", "total on railroad strip comes to 31, i added wrong". Only where a field is
named, where nothing else is told, and where one value stands against another or beside a word for a mistake.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from notes_bot.language.lexicon.days import DayAhead, DayWritten
from notes_bot.language.lexicon.joining import day_words, is_any, linking, number_like, number_words
from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import anywhere, is_field_word
from notes_bot.language.names.naming import joints, written
from notes_bot.language.requests import asking
from notes_bot.language.requests.corrections import (
    Change,
    as_told,
    cannot_go,
    denied_number,
    in_month,
    pairs_of,
    read_facts,
    value_of,
    without_excuse,
    without_note_word,
)
from notes_bot.language.requests.no_correction import all_dug_so

if TYPE_CHECKING:
    from notes_bot.language.clauses.facts import Fact
    from notes_bot.language.lexicon.pieces import Piece
    from notes_bot.language.lexicon.words import Table
    from notes_bot.language.requests.commands.line import Line

BEFORE_NAME = 6
"""Pieces before a field's name in which a word for what was written may lead to it (judgement)."""
LONGEST = 26
"""Pieces of the longest line that puts something right (judgement)."""
_SHADES = frozenset({"white", "yellow", "tan", "brown"})
_CHANGED = frozenset({"white", "yellow", "tan", "brown", "plants", "total", "stage", "moisture", "method", "soaked"})
"""What is put right here, days aside; the rest is a note."""
_BESIDE = _CHANGED | {"date", "texture", "look_again"}
"""What is put right where its old value is told beside it."""


def amended(line: Line) -> bool:
    """Read a line, or a sentence among others, as a correction told in its own words; false when it is none."""
    line = _without_plea(line)
    if (
        len(line.ps) > LONGEST
        or line.asked
        or cannot_go(line.context, line.ps)
        or not _may_amend(line)
        or all_dug_so(line)
        or asking.parts_of(line).says("ask_reminder")
        or asking.parts_of(line).takes_back()
    ):
        return False
    named = named_field(line)
    if named is None:
        return False
    pieces = [part for p in line.ps for part in denied_number(p, line.made)]
    line = type(line)(line.context, without_note_word(pieces, line.made))
    cut = [part for clause in asking.cut(line) for part in _said_and_was(line, clause)]
    clauses = [clause for clause in (_bare(line, clause, named) for clause in cut) if clause]
    noted = _as_noted(line, cut, named)
    change = noted[0] if noted is not None else _written_otherwise(line, clauses) or _mistaken(line, named)
    context = line.context
    field = written(context.text, *named)
    field = " ".join(field.split(" ")[1:]) if _led_by_field_word(line, field) else field
    changes = [change] if change is not None else []
    if any(isinstance(value, DayAhead) for _, value, _ in changes):
        return False  # "remind me thursday about gravel pit not tomorrow"
    ahead = [p for p in day_words(_day_before(line, named), line.made) if p.kind == "day"]
    told = ahead[0].value if len(ahead) == 1 and _of_a_note(line, named) else None
    day = noted[1] if noted is not None else told
    visit = context.quietly(day) if day is not None else None
    if any(what == "date" for what, _, _ in changes) and asking.parts_of(line).says("to_be_made"):
        return False  # "dont need to go to kestrel monday, moved to tues"
    for what, value, was in changes:
        if what == "look_again" and _in_weeks(line):
            was = None  # "in 2 weeks, not 3": weeks or days is not said
        if isinstance(value, DayWritten) and isinstance(was, int):
            was = replace(value, day=was)  # "foi dia 28, não 29"
        now, then = context.quietly(value), context.quietly(in_month(was, value))
        now, then = as_told(what, now), as_told(what, then)
        on = visit if what != "date" else None
        context.command("correct", line.start, line.end, field=field, what=what, value=now, old=then, date=on)
    return bool(changes)


def _in_weeks(line: Line) -> bool:
    """Is one span of the line told with its unit, and that no day?"""
    units = [p.types["UNIT"].value for p in line.ps if "UNIT" in p.types]
    return len(units) == 1 and units[0] != "day"


def added_count(line: Line) -> bool:
    """ "Add 2 tan to dry creek", "faltaron 2 marrones en santa rita": how many there are now is asked."""
    if named_field(line) is None or len(line.ps) > LONGEST:
        return False
    numbers = [n for n, p in enumerate(line.ps) if number_like(p) and "FIELD" not in p.types]
    if len(numbers) != 1 or any(is_any(p, ("PLANTS", "DUG", "NONE", "NOT_LOOKED")) for p in line.ps):
        return False
    at = numbers[0]
    lead = at - 1
    while lead > 0 and linking(line.ps[lead]):
        lead -= 1
    shade = next((p for p in line.ps[at + 1 : at + 1 + MOST_WRONG] if is_any(p, ("COLOUR",))), None)
    if shade is None or lead < 0 or not line.made.has("adds_count", line.ps[lead].text.split(" ")[-1]):
        return False
    line.context.complain("no_change", line.start, line.end)
    return True


def _without_plea(line: Line) -> Line:
    """ "A visita da baixada foi dia 6/7, não 8/7. Pode trocar?": without the clause that only asks to put it right."""
    last = next((n for n in range(len(line.ps) - 1, 0, -1) if line.ps[n].kind == "break"), None)
    plea = line.ps[last + 1 :] if last is not None else []
    words = [word for p in plea for word in p.text.split(" ")]
    if not plea or not all(p.kind == "word" for p in plea) or not all(line.made.has("plea_word", w) for w in words):
        return line
    return type(line)(line.context, line.ps[:last])


def only_wrong(line: Line) -> bool:
    """ "The count i sent for kestrel is wrong can u change it": asked back what is right."""
    if not asking.may_say(line, "said_wrong") or len(line.ps) > LONGEST or sum("FIELD" in p.types for p in line.ps) > 1:
        return False
    parts = asking.parts_of(line)
    if not parts.says("said_wrong") or parts.says("wrong_field", "wrong_day") or parts.numbered:
        return False
    sent = parts.says("sent_count") and parts.says("wrote")
    valued = ("COLOUR", "NONE", "MOISTURE", "TEXTURE", "DUG", "TOOL", "NOT_LOOKED", "WEEKDAY", "UNDO")
    said = [p for p in line.ps if len(p.text) > 1]
    if not sent or any(p.kind == "day" or (is_any(p, valued) and not linking(p)) for p in said):
        return False
    line.context.complain("no_change", line.start, line.end)
    return True


def value_wrong(line: Line) -> bool:
    """ "I said 6 white. That is wrong.", "kestrel 6 white was wrong": written so, and wrong; asked what is right."""
    if not asking.may_say(line, "said_wrong") or len(line.ps) > LONGEST or line.asked:
        return False
    last = next((n for n in range(len(line.ps) - 1, -1, -1) if _valued(line.ps[n])), -1)
    behind = [p for p in line.ps[last + 1 :] if p.kind == "word" and "COURTESY" not in p.types]
    told = [p.text for p in behind if not is_any(p, (*_COUNTED, "FIELD"))]
    words = [word for text in told for word in text.split(" ") if not line.made.has("sorry", word)]
    at = next((n for n in range(len(words)) if line.made.has("said_wrong", " ".join(words[n:]))), None)
    if last < 0 or at is None or sum(map(_valued, line.ps)) > MOST_WRONG:
        return False
    lead = words[:at]
    if not all(line.made.has("it_word", word) or line.made.has("at", word) or _links(line, word) for word in lead):
        return False
    line.context.complain("no_change", line.start, line.end)
    return True


_COUNTED = ("COLOUR", "FEMALES", "PLANTS", "TOTAL", "NONE")
"""What a number counts."""
MOST_WRONG = 2
"""Values that are said to be wrong, of one message (judgement)."""


def _valued(piece: Piece) -> bool:
    """A number or a stage, that may be wrong."""
    return "FIELD" not in piece.types and (piece.kind == "stage" or number_like(piece))


def _links(line: Line, word: str) -> bool:
    """Is it a little word ("for")?"""
    return any(entry.type == "LINK" for entry in line.made.singles.get(word, ()))


def day_noted(line: Line) -> bool:
    """ "A visita da Santa Rita ficou com dia 7/7 mas eu fui dia 6/7": the day as noted, and the day as it was."""
    if len(line.ps) > LONGEST or line.asked or sum("FIELD" in p.types for p in line.ps) != 1:
        return False
    ps = day_words(line.ps, line.made)
    at = [n for n, p in enumerate(ps) if p.kind == "day"]
    named = next((n for n, p in enumerate(ps) if "FIELD" in p.types), -1)
    rest = [p for n, p in enumerate(ps) if n not in at and n != named]
    seen = ("PLANTS", "COLOUR", "FEMALES", "NONE", "NOT_LOOKED", "NUMBER_WORD", "MOISTURE", "UNDO")
    told = any(p.kind in ("number", "stage", "series", "range") or (is_any(p, seen) and len(p.text) > 1) for p in rest)
    planted = any(
        is_any(p, ("PLANTED",)) and (q is None or q.text != "as") for p, q in zip(ps, [*ps[1:], None], strict=True)
    )
    if len(at) != 2 or not 0 <= named < at[0] or told or planted:
        return False
    noted = [word for p in ps[: at[0]] if "FIELD" not in p.types for word in p.text.split(" ")]
    between = ps[at[0] + 1 : at[1]]
    was = [word for p in between for word in p.text.split(" ")]
    turns = any(p.kind == "break" or p.text in joints() or line.made.has("but_word", p.text) for p in between)
    really = any(line.made.has("really_on", word) for word in was)
    if not (turns and really and any(line.made.has("day_noted", word) for word in noted)):
        return False
    old, new = (line.context.quietly(ps[n].value) for n in at)
    field = written(line.context.text, ps[named].start, ps[named].end)
    return old != new and line.context.command(
        "correct", line.start, line.end, field=field, what="date", value=new, old=old, date=None
    )


def planting_put_right(line: Line) -> bool:
    """ "Set Kestrel planted to May 6", "muda o plantio do Kestrel pra 6 de maio": the planting day put right.

    A verb of changing or "should be", one field, one day, or two of which the one before is wrong; nothing else.
    """
    made = line.made
    if len(line.ps) > LONGEST or line.asked or sum("FIELD" in p.types for p in line.ps) != 1:
        return False
    cues = [p for p in line.ps if made.has("set_verb", p.text) or made.has("strong_correct", p.text)]
    ps = day_words(line.ps, made) if cues else []
    days = [p for p in ps if p.kind == "day"]
    rest = [p for p in ps if p not in cues and p.kind != "day" and "FIELD" not in p.types]
    planted = [p for p in rest if is_any(p, ("PLANTED",)) or _planted_to(p, made)]
    little = all(
        p in planted or p.kind in ("break", "sign") or linking(p) or is_any(p, ("COURTESY", "RENAME_TO", "NOT"))
        or any(made.has(manner, p.text) for manner in ("date_noun", "plea_word", "is_now", "from_old", "day_word"))
        or p.text in anywhere("please")
        for p in rest
    )  # fmt: skip
    been = any(made.has("visit_noun", p.text) or made.has("who_goes", p.text) for p in rest)  # "visit went in as 7/7"
    if not planted or not 0 < len(days) <= MOST_DAYS or not little or been:
        return False
    denied = any(is_any(p, ("NOT",)) for p in rest)
    told = [line.past(day) for day in days]
    if any(day is None for day in told):
        return True  # asked about
    new, old = (told[0], told[1] if denied else None) if len(told) == 1 or denied else (told[1], told[0])
    name = next(line.written(p) for p in line.ps if "FIELD" in p.types)
    name = " ".join(name.split(" ")[1:]) if _led_by_field_word(line, name) else name
    added = any(made.has("adds", word) for p in cues for word in p.text.split(" "))  # "forgot to tell you .."
    if added or all(made.has("timid_set", p.text) for p in cues):
        return line.context.command("field", line.start, line.end, name=name, planted=new)
    return line.context.command("correct", line.start, line.end, field=name, what="planted", value=new, old=old)


MOST_DAYS = 2
"""The day a field was planted, and the one written."""


def _planted_to(piece: Piece, made: Table) -> bool:
    """ "Planted to (May 6)": what else leads to a variety."""
    first = piece.text.split(" ")[0]
    return any(entry.type == "PLANTED" for entry in made.singles.get(first, ()))


def sent_late(line: Line) -> bool:
    """ "That visit was on Saturday, I only got around to texting it today": the day it was, and when it was sent."""
    made = line.made
    if len(line.ps) > LONGEST or line.asked or sum("FIELD" in p.types for p in line.ps) > 1:
        return False
    ps = day_words(line.ps, made)
    stop = next((n for n, p in enumerate(ps) if p.kind == "break"), len(ps))
    was, sent = ps[:stop], ps[stop + 1 :]
    days = [p for p in was if p.kind == "day"]
    late = any(p.kind == "day" and p.value.days_ago == 0 for p in sent)
    late = late or any(made.has("only_now", word) for p in sent for word in p.text.split(" "))
    words = [word for p in sent for word in p.text.split(" ")]
    if len(days) != 1 or not late or not made.has_any("sends_late", words):
        return False
    named = (
        "visit_noun",
        "it_word",
        "mail_word",
        "it_was",
        "look_noun",
        "was_on",
        "really_on",
        "points_to",
        "note_word",
    )
    subject = [p for p in was if p.kind != "day"]
    plain = all(
        "FIELD" in p.types or linking(p) or is_any(p, ("LOOK", "COURTESY"))
        or all(any(made.has(manner, word) for manner in named) for word in p.text.split(" "))
        for p in subject
    )  # fmt: skip
    turns = any(made.has("was_on", word) or made.has("it_was", p.text) for p in subject for word in p.text.split(" "))
    others = any(number_like(p) or p.kind in ("stage", "series") for p in (*subject, *sent) if "FIELD" not in p.types)
    if not plain or not turns or others or days[0].value.days_ago == 0:
        return False
    field = next((line.written(p) for p in was if "FIELD" in p.types), None)
    day = line.past(days[0])
    return day is not None and line.context.command(
        "correct", line.start, line.end, field=field, what="date", value=day
    )


def _said_and_was(line: Line, clause: list[Piece]) -> list[list[Piece]]:
    """ "I said nine white at kestrel it was nineteen not nine": what was written, and what was so, without a stop."""
    for n in range(2, len(clause) - 1):
        turns = is_any(clause[n], ("CORRECT",)) and number_like(clause[n + 1])
        wrote = turns and any(line.made.has("wrote", p.text) for p in clause[:n])
        if wrote and any(number_like(p) for p in clause[:n]):
            return [clause[:n], clause[n:]]
    return [clause]


def _led_by_field_word(line: Line, field: str) -> bool:
    """Is the first word of what was found a word for field that is no part of the crew's name?"""
    words = field.split(" ")
    known = {fold(" ".join(name.split())) for name in line.context.fields}
    return len(words) > 1 and is_field_word(fold(words[0])) and fold(field) not in known


def named_field(line: Line) -> tuple[int, int] | None:
    """Where the one field of the line stands; ``None`` with none or two."""
    known = [p for p in line.ps if "FIELD" in p.types]
    if len(known) > 1 or not line.context.fields:
        return None
    if known:
        return known[0].start, known[0].end
    span = line.known_span(-1)
    own = [p for p in line.ps if span is not None and span[0] <= p.start < span[1] and not linking(p)]
    return span if own else None


def _bare(line: Line, clause: list[Piece], named: tuple[int, int]) -> list[Piece]:
    """A clause without the field's name and the little words that lead to it ("at docs bottom")."""
    out: list[Piece] = []
    for piece in clause:
        if named[0] <= piece.start < named[1]:
            while out and (linking(out[-1]) or line.made.has("at", out[-1].text)):
                out.pop()
            continue
        out.append(piece)
    return out


def _facts(line: Line, clause: list[Piece]) -> list[Fact]:
    """What a clause says, words and what is only talked of ("roots") aside."""
    told = [fact for fact in read_facts(line.context, clause) if fact.kind not in _TALK]
    return [fact for fact in told if fact.kind != "roots" or any(word.type != "ROOTS" for word in fact.words)]


_TALK = frozenset({"text", "courtesy", "quoted", "field"})
"""Facts that say nothing here: the field's name is known, what else is taken for one is not."""


def _changes(line: Line, clause: list[Piece]) -> list[Change]:
    """What a clause says to be so, with what it denies; empty when it says more than that."""
    facts = _facts(line, clause)
    pairs = list(dict.fromkeys(pairs_of(facts)))
    bare = [f.numbers[0] for f in facts if f.kind == "per_plant" and len(f.numbers) == 1]
    if len(pairs) == 1 and not bare:
        told = [(f.kind, value_of(f)) for f in facts if f.kind != "refused"]
        rest = {value for kind, value in told if (kind, value) != ("how", (None, None))}  # "las saqué con pala"
        return pairs if len(rest) == 1 else []
    nouns = _nouns(clause)
    if all(fact.kind == "shades" for fact in facts) and len(nouns) == 1:
        return _by_numbers(line, clause, nouns.pop())
    if pairs or len(bare) != 1 or len(nouns) != 1 or not isinstance(bare[0], int):
        return []
    denied = next((f.numbers[0] for f in facts if f.kind == "refused" and f.numbers), None)
    return [(nouns.pop(), bare[0], denied)]


def dated(pieces: list[Piece]) -> list[Piece]:
    """ "El sábado 18": a weekday with the number of the day, and nothing counted behind it."""
    out: list[Piece] = []
    for n, piece in enumerate(pieces):
        before = pieces[n - 1] if n else None
        counted = n + 1 < len(pieces) and is_any(pieces[n + 1], ("COLOUR", "PLANTS", "FEMALES", "UNIT", "DUG"))
        day = piece.kind == "number" and isinstance(piece.value, int) and 0 < piece.value <= MOST_DAY
        if day and is_any(before, ("WEEKDAY",)) and out and not counted:
            start = out.pop().start
            out.append(replace(piece, kind="day", start=start, value=DayWritten(piece.text, day=piece.value)))
        else:
            out.append(piece)
    return out


MOST_DAY = 31
"""The last day of the longest month."""


def _by_numbers(line: Line, clause: list[Piece], noun: str) -> list[Change]:
    """ "Total comes to 31", "that 12 yellow was really 21": one noun, one number or two with "was really" between."""
    ps = number_words(clause, line.made)
    at = [n for n, p in enumerate(ps) if p.kind == "number" and isinstance(p.value, int)]
    if any(p.kind in ("day", "range", "series", "stage") or is_any(p, ("UNIT",)) for p in ps):
        return []
    if any(is_any(q, ("MEASURE",)) for p, q in pairwise(ps) if p.kind == "number"):
        return []
    if len(at) == 1:
        return [(noun, ps[at[0]].value, None)]
    words = [word for p in ps[at[0] + 1 : at[1]] for word in p.text.split(" ")] if len(at) == 2 else []
    now = any(line.made.has("is_now", word) for word in words) and any(line.made.has("really", word) for word in words)
    return [(noun, ps[at[1]].value, ps[at[0]].value)] if now else []


def _nouns(clause: list[Piece]) -> set[str]:
    """What a bare number of the clause may count."""
    shades = {p.types["COLOUR"].value for p in clause if "COLOUR" in p.types and len(p.text) > 1}
    if shades:
        return shades
    whole = {"total" for p in clause if is_any(p, ("TOTAL", "FEMALES"))}
    return {"plants"} if any(is_any(p, ("PLANTS",)) for p in clause) else whole


def _written_otherwise(line: Line, clauses: list[list[Piece]]) -> Change | None:
    """ "The soil was saturated, i had put moist": a value, and another of its kind behind a word for writing."""
    wrote = [n for n, clause in enumerate(clauses) if _tells_written(line, clause)]
    if len(wrote) != 1 or len(clauses) < 2:
        return None
    told = [clause for n, clause in enumerate(clauses) if n not in wrote]
    now = [change for clause in told for change in _changes(line, clause)]
    now = now or [change for clause in told for change in _changes(line, _undated(clause))]  # "this morning was 23 w"
    said = [n for n, clause in enumerate(clauses) if n not in wrote and _facts(line, clause)]
    if not now and len(clauses) == 2 and wrote == [0]:
        return _number_instead(line, *clauses)
    if len(now) != 1 or len(said) > 1 or now[0][0] not in _BESIDE:
        return None
    what, value, _ = now[0]
    then = [old for old in _changes(line, dated(clauses[wrote[0]])) if old[0] == what and old[1] != value]
    if then:
        return what, value, then[0][1]
    if what in _COUNTS and (number := _number_alone(line, clauses[wrote[0]])) not in (None, value):
        return what, value, number  # "kestrel had 9 white, i put 6"
    if what == "look_again" and _number_alone(line, clauses[wrote[0]]) is not None:
        return what, value, None  # "recheck 3 weeks, i put 2": weeks or days is not said
    denied = any(line.made.denies(p.text) or line.made.has("answers_no", p.text) for p in clauses[wrote[0]])
    return (what, value, not value) if what == "soaked" and denied and value else None


def _undated(clause: list[Piece]) -> list[Piece]:
    """A clause without the day of the visit."""
    return [p for p in clause if p.kind != "day" and not is_any(p, ("TODAY", "WEEKDAY"))]


def _number_alone(line: Line, clause: list[Piece]) -> int | None:
    """The one number of "i put 6", where nothing is said of what it counts."""
    ps = number_words(clause, line.made)
    numbers = [value for p in ps if (value := _whole(p)) is not None]
    rest = [word for p in ps if _whole(p) is None for word in p.text.split(" ")]
    little = all(
        any(line.made.has(trait, word) for trait in (*_AROUND_NOW, "wrote")) or _is_little(word) for word in rest
    )
    return numbers[0] if len(numbers) == 1 and little else None


def _number_instead(line: Line, wrote: list[Piece], now: list[Piece]) -> Change | None:
    """ "I said nine white .. it was nineteen not nine fix that please": only the number is told again."""
    told = _changes(line, wrote)
    ps = [p for p in number_words(now, line.made) if not (linking(p) or is_any(p, ("CORRECT", "COURTESY")))]
    numbers = [value for p in ps if (value := _whole(p)) is not None]
    little = [p for p in ps if _whole(p) is None and not is_any(p, ("NOT",)) and p.text not in anywhere("please")]
    if len(told) != 1 or little or not numbers or _whole(ps[0]) is None:
        return None
    what, old, _ = told[0]
    denied = [numbers[1]] if len(numbers) == 2 and is_any(ps[1], ("NOT",)) else []
    fits = numbers[1:] == denied and denied in ([], [old])
    return (what, numbers[0], old) if fits and numbers[0] != old and what in _CHANGED else None


def _whole(piece: Piece) -> int | None:
    """A whole number, in figures or as a word."""
    word = piece.types.get("NUMBER_WORD")
    value = int(word.value) if word is not None else piece.value
    return value if isinstance(value, int) and piece.kind in ("number", "word") else None


Noted = tuple[Change, DayWritten | None]
"""What is put right, and the day of the note that is meant."""


def _as_noted(line: Line, clauses: list[list[Piece]], named: tuple[int, int]) -> Noted | None:
    """ "My note for schoolhouse on tuesday has 5 plants, that oughta be 8": what stands there, its day, what is so."""
    cut = [part for clause in clauses for part in _has_and_is(line, clause)]
    sure = [any(line.made.has("strong_correct", p.text) for p in clause) for clause in cut]
    at = next((n for n, clause in enumerate(cut[:-1]) if _stands_noted(line, clause, any(sure[n + 1 :]))), None)
    if at is None:
        return None
    cut = [_bare(line, clause, named) for clause in cut]
    dated = day_words(cut[at], line.made)
    days = [p for p in dated if p.kind == "day" or is_any(p, ("WEEKDAY",))]
    told = _changes(line, [p for p in dated if p not in days])
    if len(told) != 1 or told[0][0] not in _CHANGED or len(days) > 1:
        return None
    what, old, _ = told[0]
    rest = [clause for clause in cut[at + 1 :] if not _only_asks(line, clause)]
    now = _value_now(line, rest[0], what) if len(rest) == 1 else None
    if now is None or now == old:
        return None
    return (what, now, old), _day_of(days)


def _day_of(days: list[Piece]) -> DayWritten | None:
    """The one day of the note that is meant."""
    if not days:
        return None
    day = days[0]
    return day.value if day.kind == "day" else DayWritten(day.text, weekday=int(day.types["WEEKDAY"].value))


def _has_and_is(line: Line, clause: list[Piece]) -> list[list[Piece]]:
    """ "Quedó con V5 y es V6": cut before "and" with a word for what is so."""
    for n in range(2, len(clause) - 2):
        joins = clause[n].text in anywhere("and_word")
        now = line.made.has("is_now", clause[n + 1].text) or is_any(clause[n + 1], ("CORRECT",))
        if joins and now and _stands_noted(line, clause[:n]):
            return [clause[:n], clause[n + 1 :]]
    return [clause]


def _stands_noted(line: Line, clause: list[Piece], sure: bool = False) -> bool:
    """Does a clause tell what a note says: its verb, or a note (or a sure correction behind it) and "has"?"""
    made = line.made
    words = [(word, p) for p in clause for word in p.text.split(" ")]
    at = next((n for n, (word, _) in enumerate(words) if made.has("note_says", word)), None)
    says = at is not None
    if at is None:
        at = next((n for n, (word, _) in enumerate(words) if made.has("note_has", word)), None)
    if at is None:
        return False
    before = [(word, p) for word, p in words[: at + 1] if "FIELD" not in p.types]
    note = any(made.has(trait, word) for word, _ in before for trait in _NOTES)
    little = all(_leads_note(line, word, piece) for word, piece in before[:-1])
    return little and (says or note or sure)


_NOTES = ("mail_word", "note_noun")
"""Manners of words for a note."""


def _leads_note(line: Line, word: str, piece: Piece) -> bool:
    """ "My .. note of tuesday", and not "the grower (says)": a word that may stand before what a note says."""
    day = piece.kind in ("day", "number", "sign") or is_any(piece, ("WEEKDAY", "TODAY", "FIELD_WORD", "CORRECT"))
    little = linking(piece) or any(line.made.has(trait, word) for trait in _BEFORE_SAYS)
    return day or little or _is_little(word)


_BEFORE_SAYS = (*_NOTES, "it_word", "we_word", "name_article", "of_note", "wrote", "before_says")
"""Manners of the words before what a note says."""


def _only_asks(line: Line, clause: list[Piece]) -> bool:
    """ "Can u fix", "corrige pra mim": a plea to put it right, and no value."""
    values = _facts(line, clause) or any(number_like(p) for p in clause)
    return not values


def _value_now(line: Line, clause: list[Piece], what: str) -> object | None:
    """What is so: a value of the same kind, or only its number ("that oughta be 8", "i only had 6")."""
    if any(p.kind == "day" or is_any(p, ("TODAY", "WEEKDAY", "WHICH", "UNIT", "DUE")) for p in clause):
        return None  # "quedó seco, ahora está húmedo", "shows R2, was V6 last week": it was so then
    if any(line.made.has("by_now", word) for p in clause for word in p.text.split(" ")):
        return None
    if what in _COUNTS and (number := _number_alone(line, clause)) is not None:
        return number
    changes = _changes(line, clause)
    return changes[0][1] if len(changes) == 1 and changes[0][0] == what else None


_COUNTS = frozenset({"white", "yellow", "tan", "brown", "plants", "total"})
_AROUND_NOW = ("is_now", "is_word", "it_word", "really", "around_now", "we_word", "name_article", "note_says")
"""Manners of the little words around a number that is so."""


def _is_little(word: str) -> bool:
    return word in anywhere("please") or word in anywhere("also")


def _tells_written(line: Line, clause: list[Piece]) -> bool:
    """Does a clause tell what was written ("i put ..", "u got it down as ..")?"""
    told = [p for p in clause if p.text not in anywhere("please")]
    if told and any(line.made.has(trait, told[0].text) for trait in ("puts_down", "set_verb")):
        return False  # "put kestrel down as V5"
    put = any(line.made.has("wrote", p.text) for p in clause)
    return put or asking.parts_of(asking.line_of(line, clause)).says("put_down")


def _without_slip(line: Line) -> list[Piece]:
    """A line without "extra zero on", "me sobró un cero en": a slip of a digit told, which is no number."""
    out = list(line.ps)
    for n in range(len(out)):
        for size in range(LONGEST_SLIP, 0, -1):
            said = " ".join(p.text for p in out[n : n + size])
            if line.made.has("slip_digit", said):
                return out[:n] + out[n + size :]
    return out


LONGEST_SLIP = 5
"""Pieces of the longest words for a slip of a digit (judgement)."""


def _mistaken(line: Line, named: tuple[int, int]) -> Change | None:
    """ "Tan at docs bottom 3 not 13", "ojo en loma eran 9 blancas": a value, what it is not, or a word for a slip."""
    body = [
        p
        for p in _bare(line, dated(without_excuse(_without_slip(line), line.made)), named)
        if not is_any(p, ("CORRECT",)) or is_any(p, ("COLOUR", "PLANTS"))
    ]
    at = next((n for n, p in enumerate(line.ps) if p.start >= named[1]), len(line.ps))
    sent = line.ps[at : _look_sent(line, at)]
    body = [p for p in body if not any(p.start == q.start for q in sent)]
    changes = _changes(line, body)
    ahead = _day_before(line, named)
    if not changes and ahead and _of_a_note(line, named):
        changes = _changes(line, [p for p in body if p not in ahead])  # "en la nota de ayer de bajo grande eran 5 .."
    if len(changes) != 1:
        return _denied_before(line, body)
    what, value, was = changes[0]
    if was is not None and was != value and what in _BESIDE:
        return changes[0]
    slip = asking.parts_of(line).says("amend_cue", "wrong_day") or _of_a_note(line, named)
    slip = slip or any(is_any(p, ("CORRECT",)) and line.made.has("amend_cue", p.text) for p in line.ps)
    slip = slip or any(_puts_right(line, clause) for clause in asking.cut(line))
    other_day = what == "date" and (asking.parts_of(line).says("wrong_day") or _of_a_note(line, named, ahead=False))
    return changes[0] if slip and (what in _CHANGED or other_day) else None


def _puts_right(line: Line, clause: list[Piece]) -> bool:
    """ "Should be V6": a word for what should be, with a value; not "6 plants, cysts supposed to be here"."""
    strong = any(is_any(p, ("CORRECT",)) and line.made.has("strong_correct", p.text) for p in clause)
    told = not any(is_any(p, ("FEMALES",)) for p in clause) or any(p.kind == "number" for p in clause)
    return strong and told


def _day_before(line: Line, named: tuple[int, int]) -> list[Piece]:
    """The day that tells which note is meant: "la nota de ayer de bajo grande"."""
    return [p for p in line.ps if p.end <= named[0] and (p.kind == "day" or is_any(p, ("TODAY", "WEEKDAY")))]


def _may_amend(line: Line) -> bool:
    """Is anything denied or written, a slip owned up to, or a note spoken of? A look before the clause is read."""
    cues = ("amend_cue", "strong_correct", "mail_word", "note_word", "wrote", "note_says")
    words = [word for p in line.ps for word in p.text.split(" ")]
    if any(is_any(p, ("NOT", "CORRECT")) for p in line.ps) or any(line.made.denies(word) for word in words):
        return True
    return asking.parts_of(line).says("amend_cue", "put_down", "slip_digit", "mixed_up") or any(
        line.made.has(cue, word) for word in words for cue in cues
    )


def _denied_before(line: Line, body: list[Piece]) -> Change | None:
    """ "No era el martes, fui el miércoles": what was not so stands before what was."""
    told = [value_of(fact) for fact in _facts(line, body)]
    denied = any(line.made.denies(word) for p in line.ps[:2] for word in p.text.split(" "))
    if len(told) != 2 or told[0][0] != told[1][0] or told[0] == told[1] or not denied:
        return None
    what = told[1][0]
    return (what, told[1][1], told[0][1]) if what is not None and what in _CHANGED | {"date"} else None


def _look_sent(line: Line, at: int) -> int:
    """Behind "look i sent you", "visit i texted": where it ends; `at` without it."""
    if at >= len(line.ps) or not (is_any(line.ps[at], ("LOOK",)) or line.made.has("visit_noun", line.ps[at].text)):
        return at
    said = line.ps[at + 1 : at + 1 + LONGEST_SENT]
    wrote = [n for n, p in enumerate(said) if any(line.made.has("wrote", word) for word in p.text.split(" "))]
    if not wrote or any(p.kind != "word" for p in said[: wrote[0]]):
        return at
    end = at + 2 + wrote[0]
    return end + (end < len(line.ps) and line.ps[end].text in ("you", "u", "ya"))


LONGEST_SENT = 3
"""Pieces of "i sent" behind a look (judgement)."""


def _of_a_note(line: Line, named: tuple[int, int], ahead: bool = True) -> bool:
    """ "Lower bend note - plants were 10", "the mule barn one should be from yesterday": what was written is meant."""
    at = next((n for n, p in enumerate(line.ps) if p.start >= named[1]), len(line.ps))
    beside = line.ps[at : at + 1]
    note = any(line.made.has("mail_word", p.text) or line.made.has("note_word", p.text) for p in beside)
    sent = _look_sent(line, at)
    note = note or sent > at
    told = line.ps[max(sent, at + 1) :] if note else line.ps[at:]
    first = next((n for n, p in enumerate(line.ps) if p.end > named[0]), 0)
    lead = pairwise(line.ps[max(0, first - BEFORE_NAME) : first]) if ahead else ()
    note = note or any(
        line.made.has("mail_word", p.text) and linking(before) for before, p in lead
    )  # "en la nota de ayer de bajo grande"
    sets = any(line.made.has("set_verb", p.text) for p in told[:2])  # "on the dry creek note make yellow 7"
    return note and (sets or any(line.made.has("is_now", p.text) or "CORRECT" in p.types for p in told))
