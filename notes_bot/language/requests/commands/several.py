"""Several requests in one line, each read by itself."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from itertools import pairwise

from notes_bot.language.clauses.context import Context
from notes_bot.language.lexicon.joining import day_words, is_any, linking, number_like
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import Table, anywhere, table
from notes_bot.language.names.naming import Names, joints, written
from notes_bot.language.requests import asking, put_beside, winter
from notes_bot.language.requests.commands.aside import corrects, read_aside, says_wrote
from notes_bot.language.requests.commands.cutting import content_of, contents_of, words_said
from notes_bot.language.requests.commands.headings import OF_A_FIELD
from notes_bot.language.requests.commands.line import BEGINS, MOST_NAMED, Line
from notes_bot.language.requests.commands.whole import read_line
from notes_bot.language.requests.corrections import correction
from notes_bot.model import Command

_OF_NO_FIELD = frozenset({"due", "help", "digest"})
"""Kinds of asking that are of no one field."""
_VALUES = ("TEXTURE", "MOISTURE", "TOOL", "RESISTANCE", "SOURCE")
"""Values in words that a sentence may put right by itself."""
MOST_REQUESTS = 5
"""Sentences of one line that may each be a request (judgement)."""


def several_requests(context: Context, content: list[Piece]) -> bool:
    """ "Skip tinkers, already sampled it. Also rename kestrel to gin lot.": two sentences, each a request."""
    parts = contents_of(content)
    if _corrected_next(context, parts) or _corrected_then_asked(context, parts):
        return True
    parts = _told_of_new(context, content, parts)
    if Line(context, content).tells(reasons=True):
        return False
    parts = [part for whole in parts for part in joined_requests(context, whole)]
    if not 2 <= len(parts) <= MOST_REQUESTS:
        return False
    before = context.found()
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
        taken += (of_it and read_aside(line, named)) or read_line(line) or read_aside(line, named)
        if of_it and named is not None:
            # "puxa o histórico do cupim e me lembra dele em 5 dias"
            context.told_of(written(context.text, named.start, named.end), started, OF_A_FIELD)
        named = next((p for p in part if p.kind == "word" and "FIELD" in p.types), named)
    made = context.commands[before[0] :]
    asked = {(command.kind, str(command.args.get("field") or command.args.get("name") or "")) for command in made}
    asked -= {(kind, "") for kind, name in asked if name}  # "not gonna do kestrel this time, skip it": said twice
    if taken < 2 or len(asked) < 2 or not all(_names_known(context, command) for command in made):
        taken = 0
        context.forget(before)
    return taken > 1


def asked_of_going(context: Context, content: list[Piece]) -> bool:
    """ "Heading to Kestrel now. How many plants should I pull?": asked of the field somebody is going to."""
    parts = contents_of(content)
    if len(parts) != GOING_AND_ASKING:
        return False
    asks = any(is_any(p, ("HOW_MANY",)) for p in parts[1][:2]) or asking.opens_with(Line(context, parts[1]), "how_many")
    if not asks:
        return False
    named = [p for p in parts[0] if "FIELD" in p.types]
    going = any(table(context.language).has("heads_to", said) for said in _runs_of(parts[0]))
    if len(named) != 1 or not going or any("FIELD" in p.types for p in parts[1]) or Line(context, parts[0]).tells():
        return False
    kept = context.found()
    asked = read_line(Line(context, parts[1]))
    if asked and all(c.kind == "look_plan" for c in context.commands[kept[0] :]) and context.found()[1] == kept[1]:
        context.told_of(written(context.text, named[0].start, named[0].end), kept[0])
        return True
    context.forget(kept)
    return False


GOING_AND_ASKING = 2
"""Sentences of "heading to Kestrel now. How many ..?"."""


def _runs_of(part: list[Piece]) -> set[str]:
    """Runs of up to three words of a sentence."""
    words = words_said(part)
    return {" ".join(words[n : n + size]) for n in range(len(words)) for size in (1, 2, 3)}


def slips_told(context: Context, content: list[Piece]) -> bool:
    """ "There are two slips in my note on Kestrel. The soil was dry, not moist. And the whites were 18, I'd put 8.".

    What is put right below such an opening is of its field and its day; of other sentences none may tell anything.
    """
    parts = contents_of(content)
    colon = next((n for n, p in enumerate(parts[0]) if p.text == ":"), 0) if parts else 0
    if colon:
        parts[:1] = [parts[0][:colon], parts[0][colon + 1 :]]
    if not 2 <= len(parts) <= MOST_SENTENCES or not (opening := _opens_slips(context, parts[0])):
        return False
    field, day = opening
    kept = context.found()
    right = [put_beside.right_of(Line(context, part), field) for part in parts[1:]]
    told = (part for part, taken in zip(parts[1:], right, strict=True) if not taken)
    if not any(right) or any(_tells_more(p) for part in told for p in part):
        context.forget(kept)
        return False
    if day is not None:
        rights = context.commands[kept[0] :]
        context.commands[kept[0] :] = [replace(c, args={"date": day, **c.args}) for c in rights]
    return True


def _tells_more(piece: Piece) -> bool:
    """Does a word beside what is put right tell something: a number, a stage, a finding, a field?"""
    return number_like(piece) or piece.kind == "stage" or is_any(piece, ("NONE", "FEMALES", "FIELD", "NOT_LOOKED"))


def _opens_slips(context: Context, part: list[Piece]) -> tuple[Piece, date | None] | None:
    """The field of a note in which a sentence says that something is wrong, and the day of that note."""
    made = table(context.language)
    named = [p for p in part if "FIELD" in p.types]
    words = words_said(part)
    spans = {" ".join(words[n : n + size]) for n in range(len(words)) for size in (1, 2, 3)}
    wrong = made.has_any("slip_noun", spans) or any("CORRECT" in p.types for p in part)
    noted = any(made.has(manner, word) for word in spans for manner in ("wrote", "note_word", "mail_word"))
    told = day_words(part, made)
    counted = any(p.kind in ("number", "stage", "series") for p in told) or any(
        is_any(p, ("MOISTURE", "TEXTURE")) for p in part
    )
    if not (wrong and noted) or counted or len({p.text for p in named}) != 1 or part[-1].text == "?":
        return None
    days = [p for p in told if p.kind == "day"]
    dated = len(days) == 1 and days[0].value.days_ago is None  # "I gave you a wrong number yesterday"
    day = context.quietly(days[0].value) if dated else None
    return named[0], day


def read_whole(context: Context, content: list[Piece]) -> bool:
    """A line read as one request; or sentence by sentence, where those that name other fields ask more of them.

    "Take back my note on Kestrel. At Depot I put 8 white, it was 18.": two requests, and neither is of the other field.
    """
    kept = context.found()
    line = Line(context, content)
    if not read_line(line):
        return False
    parts = contents_of(content)
    if not 2 <= len(parts) <= MOST_SENTENCES:
        return True
    named = {p.text for part in parts for p in part if "FIELD" in p.types}
    whole = context.commands[kept[0] :]
    context.forget(kept)
    right = {c.kind for c in whole} == {"correct"} and not _owns_up(context, parts[0])
    if right and any(map(_plainly_seen, parts[1:])):
        return False  # "the map is wrong on Kestrel, its clay loam. 5 dug 2 white"
    new = any("ADD" in piece.types for piece in content)
    if new and {c.kind for c in whole} == {"field"} and any(_noted(part) for part in parts):
        return False  # "Kestrel 6 plants none. Please also add a field called Mill Race."
    if len(named) > 1 and _each_alone(context, parts, kept, len(whole)):
        return True
    context.forget(kept)
    if len(whole) == len(named) == 1 and _one_alone(context, parts, whole[0]):
        return True
    context.forget(kept)
    return read_line(line)


def _noted(part: list[Piece]) -> bool:
    """Does a sentence tell what was dug or found, or that nobody looked, and of no new field?"""
    if any("ADD" in p.types for p in part):
        return False
    counted = any(number_like(p) and is_any(q, ("PLANTS", "COLOUR", "FEMALES", "DUG")) for p, q in pairwise(part))
    return counted or any(is_any(p, ("NOT_LOOKED", "NONE")) for p in part)


def _owns_up(context: Context, part: list[Piece]) -> bool:
    """ "Correction for Kestrel, it was V5", "sorry, I meant V5": a word for putting right, or for what was written."""
    made = table(context.language)
    manners = ("sorry", "wrote", "mail_word", "note_word", "sent_count")
    said = [word for p in part for word in (p.text, *p.text.split(" "))]
    strong = any(made.has("strong_correct", word) and not made.has("said_wrong", word) for word in said)
    return strong or any(made.has(manner, word) for word in said for manner in manners)


def _plainly_seen(part: list[Piece]) -> bool:
    """ "5 dug 2 white": plants and what was found on them, and nothing denied or put right."""
    dug = any(number_like(p) and is_any(q, ("PLANTS", "DUG")) for p, q in pairwise(part))
    dug = dug or any(is_any(p, ("DUG",)) and number_like(q) for p, q in pairwise(part))
    found = any(number_like(p) and is_any(q, ("COLOUR", "FEMALES")) for p, q in pairwise(part))
    found = found or any(is_any(p, ("NONE",)) for p in part)
    return dug and found and not any(is_any(p, ("CORRECT", "NOT")) for p in part)


def _one_alone(context: Context, parts: list[list[Piece]], whole: Command) -> bool:
    """ "I have no numbers to report today. Show me the history of Kestrel.": what one sentence asks by itself."""
    made = len(context.commands)
    asked = [part for part in parts if read_line(Line(context, part))]
    new = context.commands[made:]
    if len(asked) != 1 or len(new) != 1 or not any("FIELD" in p.types for p in asked[0]):
        return False
    if any(number_like(p) or p.kind == "series" for part in parts if part is not asked[0] for p in part):
        return False  # "trial numbers from Kestrel. Found + missed for each plant: 3+1, 0+2"
    return new[0].kind != whole.kind and new[0].args.get("field") == whole.args.get("field")


def _each_alone(context: Context, parts: list[list[Piece]], kept: tuple[int, int, int], whole: int) -> bool:
    """Do sentences, each by itself, ask more than so many things, of several fields, and the others tell nothing?"""
    last: Piece | None = None
    for part in parts:
        line = Line(context, _without_also(part))
        asks = read_aside(line, last) or read_line(line)
        own = next((p for p in part if p.kind == "word" and "FIELD" in p.types), None)
        if not asks and (line.tells() or (own is not None and last is not None and own.text != last.text)):
            return False
        last = own or last
    made = context.commands[kept[0] :]
    of = {str(command.args.get("field") or command.args.get("name") or "") for command in made}
    known = all(_names_known(context, command) for command in made)
    return len(made) > whole and len(of - {""}) > 1 and known and context.found()[1] == kept[1]


MOST_SENTENCES = 8
"""Sentences of a line that are tried each by itself (judgement)."""


def _told_of_new(context: Context, content: list[Piece], parts: list[list[Piece]]) -> list[list[Piece]]:
    """ "Add a field called Mill Race. It lies near Kestrel and has 62 acres.": what is told of a new field, as one."""
    out: list[list[Piece]] = []
    for part in parts:
        if out and any("ADD" in p.types for p in out[-1]) and _goes_on_of_it(context, part):
            out[-1] = content[content.index(out[-1][0]) : content.index(part[-1]) + 1]
        else:
            out.append(part)
    return out


def _goes_on_of_it(context: Context, part: list[Piece]) -> bool:
    """ "It lies near Kestrel", "it was planted May 14": no field but one it lies near, and a word for what is told."""
    near = [n for n, p in enumerate(part) if "NEAR" in p.types]
    other = [n for n, p in enumerate(part) if "FIELD" in p.types and not any(n - NEAR_NAME <= k < n for k in near)]
    if other or any(is_any(p, BEGINS) and not linking(p) for p in part):
        return False
    return bool(near) or (
        table(context.language).has("it_word", part[0].text.split(" ")[0])
        and any(is_any(p, ("PLANTED", "ACRES")) for p in part)
    )


NEAR_NAME = 3
"""Pieces from a word for near to the field it is said of, at most (judgement)."""
NEAR_ASKED = 12
"""Pieces behind a joining word that are looked at for what is asked there, at most (judgement)."""


def joined_requests(context: Context, part: list[Piece]) -> list[list[Piece]]:
    """ "Push gravel hill back 3 days n skip lone ash": cut before a word for asking that is joined by "and"."""
    made = table(context.language)
    out: list[list[Piece]] = [[]]
    for n, piece in enumerate(part):
        joint = _joins(piece, made)
        last = n + 1
        while joint and last < len(part) and _joins(part[last], made):
            last += 1
        ahead = " ".join(p.text for p in part[last : last + 3]) + " " if joint else ""
        polite = any(ahead.startswith(word + " ") for word in made.traits["asks_politely"])
        asks = joint and _begins_request(part[last : last + NEAR_ASKED], made)
        asks = asks or (last < len(part) and made.has("asks_for", part[last].text))
        asks = asks or (last < len(part) and made.has("opens_question", part[last].text))
        named = last < len(part) and is_any(part[last], ("FIELD",)) and is_any(part[-1], ("PICTURE", "HISTORY"))
        asks = asks or (named and last == len(part) - MOST_NAMED)  # "tower hist, depot chart"
        if joint and out[-1] and n and (polite or asks):
            out.append([])
            continue
        if not out[-1] and len(out) > 1 and joint:
            continue
        out[-1].append(piece)
    return [cut for cut in (content_of(piece) for piece in out) if cut]


def _joins(piece: Piece, made: Table) -> bool:
    """ "And", "then"."""
    return piece.text in joints() or made.has("then_word", piece.text)


def _begins_request(ahead: list[Piece], made: Table) -> bool:
    """ ".. y el historial de zanja sur", ".., lab tinkers": a word for what is asked, an article before it or not."""
    led = len(ahead) > 1 and made.has("nth_article", ahead[0].text)
    first, behind = (ahead[1], ahead[2:]) if led else (ahead[0] if ahead else None, ahead[1:])
    if first is None or is_any(first, ("FIELD",)) or (is_any(first, ("LINK",)) and not led):
        return False
    field = next((p for p in behind if not linking(p)), None)
    lab = made.has("lab_thing", first.text) and field is not None and is_any(field, ("FIELD",))
    return is_any(first, BEGINS) or lab


def _names_known(context: Context, command: Command) -> bool:
    """Is the field a request speaks of one of the crew's?"""
    told = command.args.get("field")
    if not told or not context.fields:
        return command.kind != "history"
    return Names(str(told), [], table(context.language), context.fields).like_known(0, len(str(told)))


def _without_also(part: list[Piece]) -> list[Piece]:
    """ "Also rename kestrel to gin lot": what stands behind the "also"."""
    while len(part) > 1 and part[0].text in anywhere("also"):
        part = part[1:]
    return part


def _corrected_next(context: Context, parts: list[list[Piece]]) -> bool:
    """ "I made a mistake in my note about Kestrel. White should be 24, not 22.": two sentences, one field."""
    if len(parts) != 2 or any(p.kind in ("number", "stage", "day", "series") for p in parts[0]):
        return False
    opening = Line(context, parts[0])
    should = next((n for n, p in enumerate(parts[0]) if "CORRECT" in p.types), len(parts[0]))
    if any(is_any(p, _VALUES) and not linking(p) for p in parts[0][should + 1 :]):
        return False  # "the soil at Kestrel should read silt loam. .."
    field = opening.known_name(-1)
    wrong = any("CORRECT" in p.types or says_wrote(context, p) for p in parts[0])
    made = len(context.commands)
    other = next((p for p in parts[1] if "FIELD" in p.types), None)
    if any("UNDO" in p.types for p in parts[0]) or (other is not None and opening.written(other) != field):
        return False  # "Take back my note on Kestrel. At Depot I put 8 white, it was 18."
    if field is None or not wrong or opening.tells() or not correction(context, Line(context, parts[1]).ps):
        return False
    context.told_of(field, made)
    return True


def _corrected_then_asked(context: Context, parts: list[list[Piece]]) -> bool:
    """ "Make that 9 plants. Mute kestrel", "tans on kestrel were 7 actually. What's due?": put right, and then more.

    Where the correction names no field, what is asked must name one: else it may be of the last note as well.
    """
    if not 2 <= len(parts) <= MOST_REQUESTS:
        return False
    named = next((p for p in parts[0] if "FIELD" in p.types), None)
    if named is None and not all(any("FIELD" in p.types for p in part) for part in parts[1:]):
        return False
    kept = context.found()
    first = Line(context, parts[0])
    right = put_beside.put_beside(first, lone=True) or ((corrects(first) or named is None) and read_line(first))
    right = right and all(c.kind == "correct" for c in context.commands[kept[0] :])
    asked = len(context.commands)
    right = right and asked > kept[0] and len(context.problems) == kept[1]
    right = right and all(_asked_then(Line(context, _without_also(part)), named) for part in parts[1:])
    field = context.commands[kept[0]].args.get("field") if named is not None and asked > kept[0] else None
    if field is not None:
        context.told_of(str(field), asked, ("correct",))
    new = context.commands[asked:]
    right = right and (named is not None or all(c.kind != "correct" for c in new))
    if right and all(c.kind == "correct" or _names_known(context, c) or c.kind in _OF_NO_FIELD for c in new):
        return True
    context.forget(kept)
    return False


def _asked_then(line: Line, named: Piece | None) -> bool:
    """What is asked, or put right, behind a correction: of a field of its own, or of the one put right."""
    if put_beside.also_right(line):
        return True
    own = any("FIELD" in p.types for p in line.ps)
    return (not own and named is not None and read_aside(line, named)) or read_line(line)
