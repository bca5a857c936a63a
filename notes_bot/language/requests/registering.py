"""A new field with its size, and a new name for a field, told in a writer's own words.

"We picked up another field, Schoolhouse, 80 acres just outside of Jewell", "old mill -> stone mill. just the name": the
little words such sentences are made of stand in the word files; what is left of the sentence, if it is one run of
words, is the name. With two runs left, or a number that is no size, the sentence is left to the other readers.
"""

from __future__ import annotations

import re
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from notes_bot.language.lexicon.joining import is_any, number_words
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.names.naming import written
from notes_bot.language.requests import asking
from notes_bot.language.requests.corrections import ACRES_PER_HECTARE
from notes_bot.language.requests.properties import properties
from notes_bot.language.requests.states import without_state

if TYPE_CHECKING:
    from notes_bot.language.requests.commands.line import Line

LONGEST = 40
"""Pieces of the longest line that tells of a new field or a new name (judgement)."""
LONGEST_NAME = 5
"""Pieces of the longest name (judgement)."""
LONGEST_PLACE = 3
"""Words of the longest place a field lies near (judgement)."""
MOST_ACRES = 5000
"""Acres of the largest field (judgement)."""
_VISIT = ("PLANTS", "FEMALES", "DUG", "NOT_LOOKED", "EGGS", "TOO_MANY", "UNIT", "MUTE", "RESUME", "UNDO")
"""What no name holds."""
_FINDINGS = ("MOISTURE", "NONE", "CLEAN", "HEALTHY", "RESISTANCE", "SOURCE", "TODAY", "WEEKDAY", "TOP", "CORRECT")
"""What names no field alone."""
_COUNTED = frozenset({"number", "range", "series", "stage", "ratio", "day"})
_SEED = ("PLANTED", "VARIETY", "RESISTANCE", "SOURCE", "ALIAS", "PLACE")
"""What is told of a new field beside its size."""


def registered(line: Line) -> bool:
    """ "Got a new field to scout, Pump House, 55 acres over by Huxley": a name, a size and a word for what is new."""
    made = line.made
    acred = any("ACRES" in p.types for p in line.ps)
    if len(line.ps) > LONGEST or not (acred or _may_size(line) or asking.may_say(line, "new_field")):
        return False
    ps = number_words(line.ps, made)
    size = _size(line, ps) if acred or _may_size(line) else None
    if size is None and (acred or line.asked or not _named_new(line)):
        return False
    acres, used = (size[0], set(range(size[1], size[2] + 1))) if size is not None else (None, set())
    near = _near(line, ps, used)
    if any("FIELD" in p.types and n not in used for n, p in enumerate(ps)):
        return _pinned_new(line, ps)
    kinds = _SEED if size is not None else tuple(kind for kind in _SEED if kind != "ALIAS")  # "le decimos La Higuera"
    seed = next(
        (n for n, p in enumerate(ps) if n and n not in used and is_any(p, kinds) and _begins(ps, n, used)), None
    )
    told = range(seed, len(ps)) if seed is not None else ()
    used.update(told)
    if not any(_cues(line, p) for n, p in enumerate(ps) if n not in used):
        return False
    run = _only(line, _runs(line, ps, used, "register_frame"))
    if run is None or _other_subject(line, run) or all(is_any(p, _FINDINGS) for p in run):
        return False
    left = [p for n, p in enumerate(ps) if n not in used and p not in run]
    if any(p.kind in _COUNTED and (p.text.isdigit() or p.value != 1) for p in left):
        return False  # "Hollow Oak new field, 40 acres. dug 6, 12 white": a note too
    given: dict[str, Any] = (
        properties(line, line.ps.index(ps[seed])) if seed is not None and ps[seed] in line.ps else {}
    )
    pin = next((n for n, p in enumerate(line.ps) if _is_pin(p)), None)
    if pin is not None:
        given |= {key: value for key, value in properties(line, pin).items() if key in ("latitude", "longitude")}
    given |= ({"acres": acres} if acres else {}) | ({"near": near} if near else {})
    name, state = without_state(line, _text(line, run))
    return line.context.command("field", line.start, line.end, name=name, **{**state, **given})


def _pinned_new(line: Line, ps: list[Piece]) -> bool:
    """ "Got a new one for you, Stony Lot, 42.1175 N 94.0310 W": a field already known, and where it lies."""
    known = [n for n, p in enumerate(ps) if "FIELD" in p.types]
    pins = [n for n, p in enumerate(line.ps) if _is_pin(p)]
    if len(known) != 1 or len(pins) != 1 or _runs(line, ps, {known[0]}, "register_frame"):
        return False
    where = {k: v for k, v in properties(line, pins[0]).items() if k in ("latitude", "longitude")}
    return bool(where) and line.context.command(
        "field", line.start, line.end, name=_text(line, [ps[known[0]]]), **where
    )


def _other_subject(line: Line, run: list[Piece]) -> bool:
    """ "The creek", and not "Lagoa Torta": a thing told of, in small letters."""
    return line.made.has("other_subject", run[0].text) and not line.context.text[run[0].start].isupper()


def renamed(line: Line) -> bool:
    """ "Dont call it old mill anymore, its wheel house", "troca o nome: baixada vira brejo"."""
    if len(line.ps) > LONGEST or not any("FIELD" in p.types for p in line.ps):
        return False
    arrow = any(p.text in ("->", "=>") for p in line.ps)
    if not arrow and not asking.may_say(line, "renames"):
        return False
    parts = asking.parts_of(line)
    if is_any(line.ps[0], ("ADD",)) or (not arrow and not parts.says("renames")):
        return False  # "add a field called Mulberry Hill near Kestrel" is another one
    asks = line.made.has("opens_question", line.ps[0].text.split(" ")[0]) or line.made.has(
        "asks_first", line.ps[0].text
    )
    told = any(
        p.kind in _COUNTED - {"number"} or is_any(p, ("PLANTED", "VARIETY", "RESISTANCE", "SOURCE")) for p in line.ps
    )
    if told or (asks and not parts.opens("asks_politely")):
        return False
    at = next(n for n, p in enumerate(line.ps) if "FIELD" in p.types)
    apart = [part for p in line.ps for part in _turned(line, p)]
    runs = _runs(line, apart, {n for n, p in enumerate(apart) if p is line.ps[at]}, "rename_frame")
    known = {fold(" ".join(name.split())) for name in line.context.listed}
    run = _only(line, runs)
    if run is None or fold(_text(line, run)) in known or run[0].text in anywhere("please"):
        return False
    sure = parts.says("name_word")
    if line.made.has("no_new_name", run[0].text) or (not sure and all(is_any(p, _FINDINGS) for p in run)):
        return False
    old = line.ps[at]
    name = written(line.context.text, old.start, old.end)
    return line.context.command("field", line.start, line.end, name=name, rename_to=_text(line, run))


def _turned(line: Line, piece: Piece) -> list[Piece]:
    """ "Virou Lagoa (Nova)": a word for becoming, joined to a name by a phrase of ours, on its own."""
    first, _, rest = piece.text.partition(" ")
    if not rest or "FIELD" in piece.types or not line.made.has("becomes", first):
        return [piece]
    cut = piece.start + len(first)
    return [Piece("word", first, piece.start, cut), Piece("word", rest, cut + 1, piece.end)]


def _named_new(line: Line) -> bool:
    """ "A new field next door to foxglove, calling it Gopher Flat", "got us a new one, .., it sits at 41.7, -93.4".

    Also "talhão novo Barreirinho plantado 25/10".
    """
    lies = any(is_any(p, ("NEAR", "PLANTED")) or _is_pin(p) for p in line.ps) or asking.parts_of(line).says("lies_by")
    return lies and asking.parts_of(line).says("new_field") and not line.tells(reasons=True)


def _is_pin(piece: Piece) -> bool:
    """Coordinates, or a link to a map."""
    return piece.kind == "link"


def aliased(line: Line) -> bool:
    """ "The guys also call stillwater 'Soggy', its the same field", "a baixada também é conhecida como Brejinho"."""
    at = [n for n, p in enumerate(line.ps) if "FIELD" in p.types]
    if len(at) != 1 or len(line.ps) > LONGEST or line.asked or not asking.may_say(line, "also_called", "as_well"):
        return False
    parts = asking.parts_of(line)
    too = parts.says("as_well") and parts.says("renames", "also_called")  # "we call dry creek the wash too"
    if not (too or parts.says("also_called")) or any(p.kind in _COUNTED - {"number"} for p in line.ps):
        return False
    name = written(line.context.text, line.ps[at[0]].start, line.ps[at[0]].end)
    if (alias := _quoted(line) or _short_form(line)) is not None:
        return line.context.command("field", line.start, line.end, name=name, alias=alias)
    run = _only(line, _runs(line, line.ps, set(at), "alias_frame"))
    run = run and _whole_alias(line, run)
    if run and any(line.made.has("we_word", word) for word in run[0].text.split(" ")):
        return False  # "this here is Kestrel I'm talking about"
    if run is None or not (too or run[0].kind == "quoted" or line.context.text[run[0].start].isupper()):
        return False
    return line.context.command("field", line.start, line.end, name=name, alias=_text(line, run).strip("'\""))


def _whole_alias(line: Line, run: list[Piece]) -> list[Piece]:
    """ "Also known as (Home Place)", "we call it (home place) too": with the words of it that say nothing elsewhere."""
    first = line.ps.index(run[0])
    end = first + len(run)
    too = next((n for n, p in enumerate(line.ps) if n > first and line.made.has("as_well", p.text)), 0)
    if 0 < too - first <= LONGEST_NAME:
        return line.ps[first:too]
    while end < len(line.ps) and line.ps[end].kind == "word" and line.context.text[line.ps[end].start].isupper():
        end += 1
    return line.ps[first:end]


def _short_form(line: Line) -> str | None:
    """ "Sawyers eighty, let me just say S80 for short": the word, letters and figures, right before "for short"."""
    said = fold(line.context.text[line.start : line.end])
    at = next((at for phrase in line.made.traits["short_form"] if (at := said.find(f" {phrase}")) > 0), 0)
    before = line.context.text[line.start : line.start + at].split(" ")[-1].strip(",.;:'\"")
    return before.lower() if at and len(before) >= LEAST_ALIAS and any(char.isupper() for char in before) else None


def other_name(line: Line) -> tuple[str, str] | None:
    """The one field of a sentence, and the one other name in it: in quotation marks, or in capitals not at its head.

    "Old Mill is what you have, the co-op has it as Rattlesnake"; behind "=" or "is" the head may be it as well.
    """
    fields = [n for n, p in enumerate(line.ps) if "FIELD" in p.types]
    if len(fields) != 1 or any(p.kind in _COUNTED or p.kind == "day" for p in line.ps):
        return None
    name = written(line.context.text, line.ps[fields[0]].start, line.ps[fields[0]].end)
    if (quoted := _quoted(line)) is not None:
        return name, quoted
    runs: list[list[Piece]] = []
    for n, piece in enumerate(line.ps):
        capital = piece.kind == "word" and n != fields[0] and line.context.text[piece.start].isupper()
        if not capital or (n == 0 and _little(line, piece, "alias_frame")) or len(piece.text) < LEAST_ALIAS:
            continue
        if runs and line.ps[n - 1] is runs[-1][-1]:
            runs[-1].append(piece)
        else:
            runs.append([piece])
    heads = [run for run in runs if run[0] is line.ps[0] and run[0].types]
    runs = [run for run in runs if run not in heads] if len(runs) > 1 else runs
    return (name, _text(line, runs[0])) if len(runs) == 1 and len(runs[0]) <= LONGEST_PLACE else None


LEAST_ALIAS = 2
"""Letters of the shortest other name."""
# What stands in quotation marks is a pattern here, as the marks and not the words are read.
_QUOTED = re.compile(r"""(?<!\w)['"\u2018\u201c]([^'"\u2018-\u201d]{2,30})['"\u2019\u201d](?!\w)""")


def _quoted(line: Line) -> str | None:
    """The one name in quotation marks of a line ("when dad writes 'the pit' he means kestrel")."""
    found = list(_QUOTED.finditer(line.context.text[line.start : line.end]))
    if len(found) != 1:
        return None
    return written(line.context.text, line.start + found[0].start(1), line.start + found[0].end(1)) or None


def _may_size(line: Line) -> bool:
    """Is a size told without a word for acres ("42a", "acreage is 46")?"""
    if asking.may_say(line, "acreage"):
        return True
    return any(q.text == "a" and p.kind == "number" and p.end == q.start for p, q in pairwise(line.ps))


def _size(line: Line, ps: list[Piece]) -> tuple[float, int, int] | None:
    """The one size told, in acres, with its first and last piece; ``None`` without one or with two."""
    found: list[tuple[float, int, int]] = []
    for n, piece in enumerate(ps):
        if "ACRES" in piece.types and n and ps[n - 1].kind == "number":
            factor = ACRES_PER_HECTARE if piece.types["ACRES"].value == "hectare" else 1.0
            found.append((round(float(ps[n - 1].value) * factor, 1), n - 1, n))
        elif piece.text == "a" and n and ps[n - 1].kind == "number" and ps[n - 1].end == piece.start:
            found.append((float(ps[n - 1].value), n - 1, n))
        elif line.made.has("acreage", piece.text):
            at = next((k for k in range(n + 1, min(n + 4, len(ps))) if ps[k].kind == "number"), None)
            if at is not None and not (at + 1 < len(ps) and "ACRES" in ps[at + 1].types):
                found.append((float(ps[at].value), n, at))
    return found[0] if len(found) == 1 and 0 < found[0][0] <= MOST_ACRES else None


def _near(line: Line, ps: list[Piece], used: set[int]) -> str | None:
    """The place beside it ("over by Huxley", "Ankeny area", "em Palotina"); its pieces become used."""
    found: str | None = None
    for leads in (_near_word, _lies_by, _lies_in):
        for n in range(len(ps)):
            if n in used or not (size := leads(line, ps, n)) or (found is not None and leads is _lies_in):
                continue
            place = _place_from(line, ps, n, n + size, used)
            found = found or place
    at = next((n for n in range(len(ps) - 1, 0, -1) if n not in used and line.made.has("area_word", ps[n].text)), None)
    if found is not None or at is None:
        return found
    first = at
    while first > 0 and at - first < LONGEST_PLACE and _of_place(line, ps, first - 1) and first - 1 not in used:
        if _little(line, ps[first - 1], "register_frame"):
            break
        first -= 1
    used.update(range(first, at + 1))
    return written(line.context.text, ps[first].start, ps[at - 1].end) if first < at else None


def _near_word(_: Line, ps: list[Piece], n: int) -> int:
    return int("NEAR" in ps[n].types)


def _lies_by(line: Line, ps: list[Piece], n: int) -> int:
    """How many pieces lead to a place: "outside", "south of", "por"."""
    pair = f"{ps[n].text} {ps[n + 1].text}" if n + 1 < len(ps) else ""
    return 2 if line.made.has("lies_by", pair) else int(n > 0 and line.made.has("lies_by", ps[n].text))


def _lies_in(line: Line, ps: list[Piece], n: int) -> int:
    """ "Em Palotina": a little word before a name in capitals, at the head of a clause or behind the size."""
    clause = n > 0 and (ps[n - 1].kind == "break" or is_any(ps[n - 1], ("ACRES",)))
    named = n + 1 < len(ps) and ps[n + 1].kind == "word" and line.context.text[ps[n + 1].start].isupper()
    return int(clause and named and line.made.has("lies_in", ps[n].text))


def _place_from(line: Line, ps: list[Piece], start: int, first: int, used: set[int]) -> str | None:
    """The name of a place from a piece on, little words before it left out."""
    made = line.made
    while first < len(ps) and (made.has("near_link", ps[first].text) or ps[first].text in anywhere("of_name")):
        first += 1
    known = first < len(ps) and "FIELD" in ps[first].types
    last, most = (first + 1, first + 1) if known else (first, first + LONGEST_PLACE)
    while last < min(most, len(ps)) and _of_place(line, ps, last) and last not in used:
        last += 1
    if last < len(ps) - 1 and last == first + 1 and ps[last].kind == "number" and "ACRES" not in ps[last + 1].types:
        last += 1  # "off Hwy 30"
    if last == first:
        return None
    place = written(line.context.text, ps[first].start, ps[last - 1].end)
    while last < len(ps) and made.has("area_word", ps[last].text):
        last += 1
    used.update(range(start, last))
    return place


def _of_place(line: Line, ps: list[Piece], n: int) -> bool:
    """Can a piece be a word of a place's name?"""
    piece = ps[n]
    ends = (
        line.made.has("area_word", piece.text) or piece.text in anywhere("and_word") or piece.text in anywhere("also")
    )
    if piece.kind != "word" or ends or is_any(piece, ("HAD", "NEAR", *_SEED)):
        return False
    return piece.text in anywhere("of_name") or not _holds(line, piece, "register_cue")


def _begins(ps: list[Piece], n: int, used: set[int]) -> bool:
    """Does a piece begin what is told of the seed: alone, behind the place near by, or a day of planting?"""
    planted = is_any(ps[n], ("PLANTED",)) and any(p.kind == "day" or is_any(p, ("MONTH",)) for p in ps[n + 1 : n + 3])
    return planted or n - 1 in used or _alone(ps, n)


def _alone(ps: list[Piece], n: int) -> bool:
    """Does a piece begin a clause or follow a size or a stop ("planted 5/6", ", peking")?"""
    return ps[n - 1].kind in ("break", "sign") or is_any(ps[n - 1], ("ACRES", "LINK"))


def _cues(line: Line, piece: Piece) -> bool:
    """Does a piece hold a word for what is new ("added", "nw field")?"""
    return "ADD" in piece.types or any(line.made.has("register_cue", word) for word in piece.text.split(" "))


def _holds(line: Line, piece: Piece, trait: str) -> bool:
    """Are all words of a piece of this manner?"""
    return piece.kind == "word" and all(line.made.has(trait, word) for word in piece.text.split(" "))


def _little(line: Line, piece: Piece, frame: str) -> bool:
    """Are all words of a piece little words of such sentences ("we picked up", "put in")?"""
    made = line.made
    words = piece.text.split(" ") if piece.kind == "word" else []
    new = frame == "register_frame"
    if new and "ADD" in piece.types:
        return True
    return bool(words) and all(made.has(frame, word) or (new and made.has("register_cue", word)) for word in words)


def _runs(line: Line, ps: list[Piece], used: set[int], frame: str) -> list[list[Piece]]:
    """What is left of each stretch between stops when the words of the frame are taken off its ends."""
    runs: list[list[Piece]] = []
    stretch: list[Piece] = []
    for n, piece in enumerate([*ps, None]):
        hyphen = piece is not None and piece.text == "-" and not piece.spaced and bool(stretch)
        if piece is not None and n not in used and (piece.kind in ("word", "number", "quoted") or hyphen):
            stretch.append(piece)
            continue
        while stretch and _frames(line, stretch, 0, frame):
            stretch = stretch[1:]
        while stretch and _frames(line, stretch, -1, frame):
            stretch = stretch[:-1]
        if stretch:
            runs.append(stretch)
        stretch = []
    return runs


def _frames(line: Line, stretch: list[Piece], n: int, frame: str) -> bool:
    """Is the word at an end of a stretch a little word of the sentence, and no part of a name?"""
    piece = stretch[n]
    little = _little(line, piece, frame)
    if not little and not (is_any(piece, ("COURTESY", "FIELD_WORD")) and piece.kind == "word"):
        return False
    if n and frame == "rename_frame" and line.made.has("new_word", piece.text):
        return False  # "molino nuevo"
    text = line.context.text
    if n == 0 and line.made.language == "es" and line.made.has("name_article", piece.text) and len(stretch) > 1:
        capitals = (
            text[piece.start : piece.start + 1].isupper(),
            text[stretch[1].start : stretch[1].start + 1].isupper(),
        )
        return capitals[0] != capitals[1] or stretch[1].kind != "word" or _holds(line, stretch[1], frame)
    led = (
        n == 0
        and len(stretch) > 1
        and text[stretch[1].start : stretch[1].start + 1].isupper()
        and piece.start > line.start
    )
    return not (
        led and text[piece.start : piece.start + 1].isupper() and line.made.language != "en" and len(piece.text) > 1
    )


def _only(line: Line, runs: list[list[Piece]]) -> list[Piece] | None:
    """The one run that can be a name; of several the one in quotes, or the one in capitals."""
    quoted = [p for run in runs for p in run if p.kind == "quoted"]
    if len(quoted) == 1:
        return quoted
    for run in runs:
        for one, other in pairwise(run):
            if one.kind == "number" and is_any(other, ("PLANTS", "COLOUR", "FEMALES", "UNIT", "DUG", "MEASURE")):
                return None
    if len(runs) > 1:
        runs = [run for run in runs if _titled(line, run)]
    if len(runs) != 1:
        return None
    run = runs[0]
    visit = _VISIT if len(run) == 1 or any(p.kind == "number" for p in run) else _VISIT[1:]  # "mata virada"
    fits = len(run) <= LONGEST_NAME and run[0].kind == "word" and not any(is_any(p, visit) for p in run)
    return run if fits else None


def _titled(line: Line, run: list[Piece]) -> bool:
    """Is each word of a run written with a capital, little ones aside ("Curva do Rio")?"""
    text = line.context.text
    begins = run[0].start == line.start and len(run) == 1
    words = [p for p in run if p.kind == "word" and p.text not in anywhere("of_name")]
    return not begins and bool(words) and all(text[p.start : p.start + 1].isupper() for p in words)


def _text(line: Line, run: list[Piece]) -> str:
    return written(line.context.text, run[0].start, run[-1].end)
