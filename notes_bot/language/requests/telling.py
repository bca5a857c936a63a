"""What is told of a field itself in own words: its size, its new name; and where the crew works.

"Turnpike Thirty is 33 ac by the map", "we call Plot 12 the Chapel Piece from now on", "we farm in Nebraska". A clause
that tells it holds nothing seen, and no number but the one told.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from notes_bot.language.lexicon.joining import is_any, linking, number_words
from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import anywhere, is_field_word
from notes_bot.language.names.naming import written
from notes_bot.language.requests import asking, winter
from notes_bot.language.requests.corrections import ACRES_PER_HECTARE, acres_told, near_told
from notes_bot.language.requests.states import lies_in_state, state_told

if TYPE_CHECKING:
    from notes_bot.language.lexicon.pieces import Piece
    from notes_bot.language.requests.commands.line import Line

SUBJECT = 4
"""Words of a clause in which its subject stands (judgement)."""
LONGEST_NAME = 5
"""Words of the longest new name (judgement)."""
LOOK_BACK = 400
"""Pieces at the head of a message and right before a sentence in which a visit told is looked for (judgement)."""
MOST_SIZES = 8
"""Fields of a line whose sizes are told one behind the other (judgement)."""


_VISITED = ("COLOUR", "FEMALES", "NONE", "PLANTS", "NOT_LOOKED", "DUG", "MOISTURE")
"""What tells of a visit."""


def told(line: Line, named: Piece | None = None, before: tuple[list[Piece], ...] = ()) -> bool:
    """Read a sentence as something told of a field or of the crew; false when it is a note or nothing."""
    if len(line.ps) > asking.LONGEST_LINE or line.asked:
        return False
    seen = (p for row in before for part in (row[:LOOK_BACK], row[-LOOK_BACK:]) for p in part)
    if before and not any(is_any(p, _VISITED) or p.kind in ("stage", "series") for p in seen):
        return False  # "it was planted on May 7. The field is 82 acres.": all of it is told of the field
    if not before:
        named = None
    elif named is None:
        named = asking.told_of(line.context, [p for row in before for p in row[-asking.LONGEST_LINE :]])
    return lies_in_state(line) or _sized(line, named) or _renamed(line, named) or _placed(line)


def _sized(line: Line, named: Piece | None) -> bool:
    """ "Bluebird is 38 acres", "eucaliptos 38 ha, molino sur 52,5 ha", "its 18 acres": one size a field."""
    context = line.context
    clauses = asking.cut(line)
    if any(is_any(p, ("PLANTED", "RESISTANCE", "SOURCE", "CORRECT", "TOP")) for p in line.ps):
        return False
    found: list[tuple[str, float]] = []
    for clause in clauses[:MOST_SIZES]:
        part = asking.line_of(line, clause)
        ps = number_words(clause, line.made)
        sized = any(is_any(p, ("ACRES",)) for p in ps)
        today = any(is_any(p, ("TODAY",)) for p in ps)  # "the field is 80 acres of mud today"
        if today or part.tells(reasons=True) or (not sized and any(p.kind in ("number", "day", "range") for p in ps)):
            return False
        named_to = next((p.end for p in clause if "FIELD" in p.types), part.start)  # "nine acre is really eleven acres"
        acres = acres_told(context.text[named_to : part.end], context.language) if sized else None
        if acres is None:
            continue
        words = [word for p in clause for word in p.text.split(" ")]
        subject = any(line.made.has("other_subject", word) for word in words[:SUBJECT])
        if subject or any(line.made.has("other_crop", word) for word in words):
            return False  # "the neighbor has 200 acres of wheat"
        name = asking.name_in(part) or _leading_name(part)
        if name is None and named is not None and not found and _of_it(part):
            name = written(context.text, named.start, named.end)
        if name is None:
            return False
        found.append((name, acres))
    near = near_told(context, line.start, line.end) if len(found) == 1 else {}
    near |= state_told(line, found[0][0]) if len(found) == 1 else {}
    for name, acres in found:
        context.command("field", line.start, line.end, name=name, acres=acres, **near)
    return bool(found)


def size_denied(line: Line) -> bool:
    """ "Wedge Forty isnt forty acres fyi, its 36.5", "la picada no tiene 40 ha, son 36": what it is not and is."""
    made = line.made
    if len(line.ps) > asking.LONGEST_LINE or line.asked or not any(is_any(p, ("ACRES",)) for p in line.ps):
        return False
    ps = number_words(line.ps, made)
    at = [n for n, p in enumerate(ps) if p.kind == "number" and "FIELD" not in p.types]
    units = [p.types["ACRES"].value for p in ps if "ACRES" in p.types]
    denied = [n for n in at if _denied_at(line, ps, n)]
    field = asking.name_in(line) or _leading_name(line)
    if len(at) != len(denied) + 1 or len(denied) != 1 or field is None or len(set(units)) != 1:
        return False
    if not any(is_any(p, ("ACRES",)) for n in at for p in ps[n + 1 : n + 2]):
        return False
    seen = ("PLANTS", "COLOUR", "FEMALES", "DUG", "TOO_MANY", "EGGS", "MOISTURE", "TOOL")
    if any(
        p.kind in ("stage", "series", "range") or (is_any(p, seen) and not linking(p) and len(p.text) > 1) for p in ps
    ):
        return False
    value = ps[next(n for n in at if n not in denied)].value
    acres = round(float(value) * (ACRES_PER_HECTARE if units[0] == "hectare" else 1.0), 1)
    return line.context.command("field", line.start, line.end, name=field, acres=acres)


def _denied_at(line: Line, ps: list[Piece], n: int) -> bool:
    """Does a word that denies stand before a number, and no other number or stop between them?"""
    for piece in reversed(ps[max(0, n - SUBJECT) : n]):
        if piece.kind in ("number", "break") and "FIELD" not in piece.types:
            return False
        if is_any(piece, ("NOT", "NONE")) or any(line.made.denies(word) for word in piece.text.split(" ")):
            return True
    return False


def _of_it(part: Line) -> bool:
    """ "Its 18 acres", "essa área tem 40 ha", "son 27 ha": the field told of before."""
    words = [word for p in part.ps[:LONGEST_NAME] for word in p.text.split(" ")]
    return any(part.made.has(trait, word) for word in words for trait in ("acres_are", "is_word", "it_word", "is_now"))


def _leading_name(part: Line) -> str | None:
    """A name no list has, before "is" or "has" or the size itself ("Sawmill Bend is 57 acres")."""
    text = part.context.text
    out: list[Piece] = []
    for piece in part.ps[: LONGEST_NAME + 1]:
        ends = part.made.has("acres_are", piece.text) or part.made.has("is_word", piece.text)
        if ends or piece.kind == "number" or is_any(piece, ("HAD", "ACRES")):
            break
        out.append(piece)
    shown = out and len(out) <= LONGEST_NAME and text[out[0].start].isupper()
    also = anywhere("also")
    if not shown or not all(p.kind == "word" and p.text not in also for p in out):
        return None
    if any(part.made.has("it_word", p.text) for p in out):
        return None
    return None if any(is_field_word(fold(p.text)) for p in out) else written(text, out[0].start, out[-1].end)


def _renamed(line: Line, named: Piece | None) -> bool:
    """ "We call larkspur the sandhill now", "kestrel got sold, call it Windmill 60 from now on"."""
    if not any(_holds(line, p, "rename_verb") or is_any(p, ("RENAME", "TODAY", "RENAME_TO")) for p in line.ps):
        return False
    context = line.context
    parts = asking.parts_of(line)
    calls = parts.says("rename_verb")
    if parts.begins("rename_now") and (found := _from_now_on(line)) is not None:
        return context.command("field", line.start, line.end, name=found[0], rename_to=found[1])
    sure = parts.says("rename_now", "rename_it") or any("RENAME" in p.types for p in line.ps)
    if not calls or not sure:
        return False
    if line.tells(reasons=True) or any(p.kind == "day" for p in line.ps):
        return False
    known = [n for n, p in enumerate(line.ps) if "FIELD" in p.types]
    span = line.known_span(-1) if not known and context.fields else None
    known = [n for n, p in enumerate(line.ps) if span is not None and p.start == span[0]] or known
    verbs = [n for n, p in enumerate(line.ps) if _holds(line, p, "rename_verb")]
    if len(known) > 1 or not verbs:
        return False
    verb = next((n for n in verbs if _it_behind(line, n) is not None), verbs[0])
    parted = not known or any(p.kind == "break" for p in line.ps[known[0] : verb])
    at = known[0] if known and known[0] > verb else _it_behind(line, verb) if parted else verb
    at = verb if at is None and known and known[0] < verb else at
    if not known and named is not None and _only_called(line, verb):
        return False
    old = line.ps[known[0]] if known else named
    new = _new_name(line, at + 1) if at is not None else None
    was = written(context.text, old.start, old.end) if old is not None else _leading_name(line)
    if new is None or was is None or (old is None and context.fields):
        return False
    return context.command("field", line.start, line.end, name=was, rename_to=new)


def _only_called(line: Line, verb: int) -> bool:
    """ ".. roots soft. I call that drowned, not nematode": what the writer calls something, and no name in capitals."""
    ahead = [word for piece in line.ps[:verb] for word in piece.text.split(" ")]
    mine = any(line.made.has("who_goes", word) for word in ahead)
    behind = line.ps[verb + 1 :]
    named = any(p.kind == "quoted" or line.context.text[p.start].isupper() for p in behind if p.kind != "break")
    return mine and not named and not asking.parts_of(line).says("rename_now")


def _from_now_on(line: Line) -> tuple[str, str] | None:
    """ "From now on Elevator 60 is Co-op 60": the old name and the new one."""
    ps = line.ps
    for n, piece in enumerate(ps[:-2]):
        if "FIELD" in piece.types and line.made.has("is_word", ps[n + 1].text) and not line.tells():
            new = _new_name(line, n + 2)
            return (written(line.context.text, piece.start, piece.end), new) if new is not None else None
    return None


def _holds(line: Line, piece: Piece, trait: str) -> bool:
    return piece.kind == "word" and any(line.made.has(trait, word) for word in (piece.text, *piece.text.split(" ")))


def _it_behind(line: Line, verb: int) -> int | None:
    """Where "it" or "the field" stands right behind the verb."""
    for n in range(verb + 1, min(verb + 3, len(line.ps))):
        it = line.made.has("it_word", line.ps[n].text) and line.ps[n].text not in anywhere("name_article")
        if it or is_any(line.ps[n], ("FIELD_WORD",)):
            return n
    return None


_FINDINGS = ("MOISTURE", "TEXTURE", "NONE", "CLEAN", "HEALTHY", "ROOT")
"""Kinds of words that tell what was found, and name no field alone."""
_COUNTED_NOUNS = ("UNIT", "COLOUR", "PLANTS", "FEMALES", "ACRES", "EGGS")
"""Kinds of words that a number before them counts."""


def _new_name(line: Line, first: int) -> str | None:
    """The words from a piece on, to a stop or a word for "from now on"."""
    made = line.made
    ps = line.ps
    while first < len(ps) and (ps[first].kind in ("sign", "break") or _leads_name(line, ps[first])):
        first += 1
    last = first
    while last < len(ps) and last < first + LONGEST_NAME and (ps[last].kind in ("word", "number") or _hyphen(ps, last)):
        ahead = " ".join(p.text for p in ps[last : last + 3]) + " "
        if any(ahead.startswith(said + " ") for trait in ("rename_now", "please") for said in made.traits[trait]):
            break
        last += 1
    if last > first and any(made.has("no_new_name", word) for word in (ps[first].text, ps[first].text.split(" ")[0])):
        return None  # "i'd call it a little of both"
    if first + 1 < last and ps[first].kind == "number" and is_any(ps[first + 1], _COUNTED_NOUNS):
        return None  # "within a fortnight, call it 14 days"
    if last == first or ps[first].text in anywhere("please") or all(is_any(p, _FINDINGS) for p in ps[first:last]):
        return None  # ".. so call it moist"
    return written(line.context.text, ps[first].start, ps[last - 1].end) or None


def _hyphen(pieces: list[Piece], n: int) -> bool:
    """ "Co-op 60": a hyphen between two words."""
    return 0 < n < len(pieces) - 1 and pieces[n].text == "-" and pieces[n - 1].end + 1 == pieces[n + 1].start


def _leads_name(line: Line, piece: Piece) -> bool:
    """A little word before a new name; "La" with a capital is part of it, except in English."""
    if line.made.language != "en" and line.context.text[piece.start : piece.start + 1].isupper():
        return False
    return is_any(piece, ("RENAME_TO", "RENAME")) or line.made.has("rename_lead", piece.text)


def _placed(line: Line) -> bool:
    """ "We farm in Nebraska if you need that", "a fazenda fica em Mato Grosso do Sul"."""
    context, made = line.context, line.made
    if (region := _region_set(line)) is not None:
        return context.command("place", line.start, line.end, place=region)
    if any("FIELD" in p.types or p.kind in ("number", "day", "stage") for p in line.ps) or line.tells():
        return False
    words = [p.text for p in line.ps]
    for n in range(min(len(words), LONGEST_NAME)):
        for size in (5, 4, 3, 2, 1):
            if not made.has("place_told", " ".join(words[n : n + size])):
                continue
            last = first = n + size
            if first < len(words) and linking(line.ps[first]) and len(words[first]) > 1:
                return False  # "we're in the truck"
            while last < len(line.ps) and line.ps[last].kind == "word" and _of_place(line, first, last):
                last += 1
            if last > first:
                place = written(context.text, line.ps[first].start, line.ps[last - 1].end)
                return context.command("place", line.start, line.end, place=place)
    return False


def _region_set(line: Line) -> str | None:
    """ "I work in Nebraska now so set my place to that", "muda meu lugar pra mato grosso": a state we know by name."""
    if not asking.may_say(line, "place_told", "place_set"):
        return None
    return region_in(line) if asking.parts_of(line).says("place_told", "place_set") else None


def region_in(line: Line) -> str | None:
    """The one state that a line names, where it tells nothing else of a field or a visit."""
    raw = line.context.text[line.start : line.end]
    found = [f for f in winter.find(line.context.language, "REGION", fold(raw)) if f.end - f.start >= SHORTEST_STATE]
    if len(found) != 1:
        return None
    start, end = line.start + found[0].start, line.start + found[0].end
    rest = [p for p in line.ps if not start <= p.start < end]
    if any("FIELD" in p.types or p.kind in ("number", "day", "stage", "series", "range") for p in rest):
        return None
    told = any(is_any(p, _VISITED) and not linking(p) and not line.made.has("set_verb", p.text) for p in rest)
    return None if told else written(line.context.text, start, end)


SHORTEST_STATE = 4
"""Letters of the shortest state that no everyday word is like: "Iowa", and not "in" (judgement)."""


def _of_place(line: Line, first: int, last: int) -> bool:
    """Is a word part of a place's name: written like the first, or a little word before one that is?"""
    text = line.context.text
    capital = text[line.ps[first].start].isupper()
    if last == first:
        return capital or (len(line.ps) <= LONGEST_NAME + 1 and not line.ps[first].types)
    if not capital:
        return False
    after = line.ps[last + 1] if last + 1 < len(line.ps) else None
    led = after is not None and after.kind == "word" and text[after.start : after.start + 1].isupper()
    return text[line.ps[last].start].isupper() or (led and line.ps[last].text in anywhere("of_name"))
