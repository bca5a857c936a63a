"""Questions about a look, and the crew's own digging trial.

"how many plants kestrel, 90 sure", "what did 5 pulled plants tell me", and the trial's counts: for each plant the
females found as usual, a plus, and those found on a slow second look: "trial kestrel pulled dry loam: 2+5 0+7".
"""

from __future__ import annotations

import re
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from notes_bot.language.lexicon.joining import is_any, number_words
from notes_bot.language.lexicon.pieces import Piece, count_told
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.names.naming import written
from notes_bot.language.requests import asking

if TYPE_CHECKING:
    from notes_bot.language.lexicon.words import Table
    from notes_bot.language.requests.commands.line import Line

LONGEST = 16
"""Pieces of a line that may be a question about a look (judgement)."""
LEAST_SURE, MOST_SURE = 50, 99
"""Percent that may be asked for (judgement)."""
_PLANT = re.compile(r"(?<![\d.,])(\d{1,4})((?:\s*\+\s*\d{1,4})+|\s+(?:of|de)\s+\d{1,4})(?![\d.,]*\d)")
"""Plants with some of all: "5+2", "3 of 5"; signs around one little word."""
_ONLY_PLANTS = re.compile(rf"(?:[\s,;]*{_PLANT.pattern})+[\s,;.]*", re.IGNORECASE)

_WAYS = {"pulled": "look_pulled", "eased": "look_eased"}
"""Ways to dig and the manner of the words that tell them only where a look is asked about."""


def how_many(line: Line) -> bool:
    """how many plants kestrel; how many to be 90 sure; how many with a shovel at 3 spots."""
    if len(line.ps) > LONGEST or tells(line.ps):
        return False
    if asking.parts_of(line).says("look_past"):
        field = asking.name_in(line)
        return field is not None and line.emit("history", field=field)  # "how many plants did i dig at kestrel"
    return line.emit("look_plan", **plan_of(line))


def plan_of(line: Line, wide: bool = True) -> dict[str, Any]:
    """What a question for how many plants names (see ``asked_of``)."""
    asked = asked_of(line, wide)
    asked.pop("plants", None)
    if asked.get("method") == "shovel" and not any("TOOL" in p.types for p in line.ps):
        asked.pop("method")  # "how many should I dig" names no way of digging
    return asked


def told(line: Line) -> bool:
    """what did 5 pulled plants tell me; are 6 plants enough?; what did my look tell me."""
    if len(line.ps) > LONGEST or tells(line.ps):
        return False
    if line.ps[0].text == "¿" and len(line.ps) > 1:
        asked_at_all = line.asked
        line = type(line)(line.context, line.ps[1:])
        line.asked = line.asked or asked_at_all
    first = line.ps[0]
    if any("SAID" in p.types and line.made.has("first_person", q.text) for q, p in pairwise(line.ps)):
        field = _field(line, line.ps[1:])
        return field is not None and line.emit("history", field=field)  # "what did I tell you the last times .."
    asks, says = "ASK_LOOK" in first.types, any("SAID" in p.types for p in line.ps)
    asked = asked_of(line)
    if not (asks or (says and (line.asked or line.made.has("look_opens", first.text)))):
        return False
    if "plants" not in asked and not (asks and says):
        return False
    return line.emit("look_worth", **asked)


def trial(line: Line) -> bool:
    """trial kestrel pulled dry loam: 2+5 0+7; trial; undo trial."""
    value = line.ps[0].types["TRIAL"].value
    if value == "drop":
        return len(line.ps) <= 2 and line.emit("trial", drop=True)
    raw = line.context.text[line.start : line.end]
    plants = _plants(raw)
    if plants:
        spans = [(line.start + m.start(), line.start + m.end()) for m in _PLANT.finditer(raw)]
        rest = [p for p in line.ps if not any(start <= p.start < end for start, end in spans)]
        return line.emit("trial", plants=plants, **_manner(rest), field=_field(line, rest[1:]))
    if len(line.ps) > LONGEST or tells(line.ps) or any(p.kind in ("number", "series") for p in line.ps):
        return False
    if value == "trial" and any(not p.entries and p.kind == "word" for p in line.ps[1:]):
        return False  # a field called "trial plot"
    return line.emit("trial_help", **_manner(line.ps), field=_field(line, line.ps[1:]))


def more_of_trial(line: Line) -> bool:
    """A line of nothing but counts below a trial's line: more plants of it."""
    last = line.context.commands[-1] if line.context.commands else None
    raw = line.context.text[line.start : line.end]
    if last is None or last.kind not in ("trial", "trial_help") or not _ONLY_PLANTS.fullmatch(raw):
        return False
    told_before = {key: value for key, value in last.args.items() if key != "plants"}
    line.context.commands.pop()
    return line.emit("trial", plants=[*last.args.get("plants", ()), *_plants(raw)], **told_before)


def _plants(raw: str) -> list[list[int]]:
    """Found as usual and found later, plant by plant: 2+5, 2+4+1 (in two further steps), 2 of 7."""
    out = []
    for first, rest in _PLANT.findall(raw):
        numbers = [int(n) for n in re.findall(r"\d+", rest)]
        left = sum(numbers) if "+" in rest else numbers[0] - int(first)
        if left >= 0:
            out.append([int(first), left])
    return out


def tells(pieces: list[Piece]) -> bool:
    """Does the line say what was seen? Then it is a note."""
    return any(
        p.kind in ("stage", "day", "series", "range")
        or (is_any(p, ("NONE", "COLOUR", "NOT_LOOKED")) and p.kind == "word")
        for p in pieces
        if "FIELD" not in p.types and len(p.text) > 1
    )


def asked_of(line: Line, wide: bool = True) -> dict[str, Any]:
    """What a question names: plants, percent, places, field, and how the plants come up.

    Args:
        line: the question.
        wide: it begins with the word that asks, so that words that mean nothing else are a field's name.
    """
    made = line.made
    ps = number_words(line.ps, made)
    out: dict[str, Any] = _manner(ps)
    if "method" not in out and (way := _way_asked(line)) is not None:
        out["method"] = way
    for k, piece in enumerate(ps):
        share = re.match(r"(\d+) ?\S", piece.text) if piece.kind == "measure" else None  # "95% sure", "80 pct"
        share = share if share is not None and _is_share(piece.text[share.end(1) :]) else None
        if share is not None and LEAST_SURE <= int(share.group(1)) <= MOST_SURE:
            out["percent"] = int(share.group(1))
        said, sign = count_told(piece), ps[k + 1] if k + 1 < len(ps) else None
        if said is not None and sign is not None and _is_share(sign.text) and LEAST_SURE <= said <= MOST_SURE:
            out["percent"] = said  # "noventa por cento"
        places = ps[k + 1] if k + 1 < len(ps) else None
        if "NUMBER_WORD" in piece.types and places is not None and made.has("look_places", places.text):
            out["places"] = int(piece.types["NUMBER_WORD"].value)  # "three places: how many .."
        if piece.kind != "number" or "FIELD" in piece.types or not float(piece.value).is_integer():
            continue
        after = ps[k + 1] if k + 1 < len(ps) else None
        number = int(piece.value)
        if after is not None and made.has("look_places", after.text):
            out["places"] = number
        elif after is not None and _sure(made, after) and LEAST_SURE <= number <= MOST_SURE:
            out["percent"] = number
        elif after is not None and is_any(after, ("PLANTS", "DUG", "TOOL")) and number > 0:
            out["plants"] = number
        elif number in (80, 90, 95, 99):
            out["percent"] = number
        elif k and number > 0 and _digs(made, ps[k - 1]) and "plants" not in out:
            out["plants"] = number  # "if i pull 4"
    headed = "FIELD" in ps[0].types  # "Kestrel: what did my 10 pulled plants tell me?"
    out["field"] = _field(line, ps if headed else ps[1:]) if wide else _led_name(line)
    return out


def _led_name(line: Line) -> str | None:
    """A field named in the midst of a question: the crew's in full, or in short behind "at" ("en", "na")."""
    known = next((p for p in line.ps if "FIELD" in p.types), None)
    if known is not None:
        return written(line.context.text, known.start, known.end)
    if not line.context.fields:
        return asking.name_in(line)
    span = line.known_span(-1)
    before = [p for p in line.ps if span is not None and p.end <= span[0]][-1:]
    led = bool(before) and (line.made.has("at", before[0].text) or line.made.has("of_note", before[0].text))
    return written(line.context.text, *span) if span is not None and led else None  # "haber mirado" is no El Mirador


def _is_share(sign: str) -> bool:
    """ "%", "pct", "por ciento": what stands behind the number of a share."""
    return sign.strip() == "%" or sign.strip() in anywhere("percent")


def _digs(made: Table, piece: Piece) -> bool:
    """ "Dig", "pull", "arrancar": a word for taking plants up."""
    return is_any(piece, ("DUG",)) or any(made.has(manner, piece.text) for manner in _WAYS.values())


def _sure(made: Table, piece: Piece) -> bool:
    """ "95 percent", "90 por ciento de certeza": does a piece say how sure?"""
    return any(made.has("look_sure", said) for said in (piece.text, piece.text.split(" ")[0]))


def _way_asked(line: Line) -> str | None:
    """ "Cuántas plantas hay que arrancar": a way of digging by a word that no note tells it with."""
    words = {word for p in line.ps if "FIELD" not in p.types for word in p.text.split(" ")}
    return next((way for way, manner in _WAYS.items() if words & line.made.traits.get(manner, frozenset())), None)


def _manner(pieces: list[Piece]) -> dict[str, Any]:
    """Method, water, moisture and soil as named; what is not named is left out."""
    out: dict[str, Any] = {}
    for piece in pieces:
        if "FIELD" in piece.types or (len(piece.text) == 1 and piece.kind == "word"):
            continue
        for kind, key in (("TOOL", "method"), ("DUG", "method"), ("MOISTURE", "moisture"), ("TEXTURE", "texture")):
            if kind in piece.types and piece.types[kind].value in _VALUES.get(key, (piece.types[kind].value,)):
                out.setdefault(key, piece.types[kind].value)
        if "SOAKED" in piece.types:
            out["soaked"] = piece.types["SOAKED"].value == "yes"
    return out


_VALUES = {"method": ("pulled", "eased", "shovel"), "moisture": ("dry", "moist", "wet")}


def _field(line: Line, pieces: list[Piece]) -> str | None:
    """The field named: a known name, else what starts with a word that means nothing else."""
    known = next((p for p in pieces if "FIELD" in p.types), None)
    if known is not None:
        return written(line.context.text, known.start, known.end)
    first = next((k for k, piece in enumerate(pieces) if _unknown(line, piece)), None)
    if first is None:
        return None
    last = first
    while first > 0 and pieces[first - 1].kind == "word" and _names_places(line, pieces[first - 1]):
        first -= 1
    while last + 1 < len(pieces) and pieces[last + 1].kind == "word" and not _means(line, pieces[last + 1]):
        last += 1
    return (
        written(line.context.text, pieces[first].start, pieces[last].end)
        if _is_name(line, pieces, first, last)
        else None
    )


def _is_name(line: Line, pieces: list[Piece], first: int, last: int) -> bool:
    """Where words that mean nothing else may be a name: at an end, behind "at", in capitals.

    Not "do i need if im pulling them".
    """
    if any(line.made.has("if_word", word) for piece in pieces[first : last + 1] for word in piece.text.split(" ")):
        return False
    if first == 0 or last == len(pieces) - 1 or pieces[last + 1].kind == "break":
        return True
    led = line.made.has("at", pieces[first - 1].text) or pieces[first - 1].text in anywhere("of_name")
    return led or line.context.text[pieces[first].start].isupper()


def _unknown(line: Line, piece: Piece) -> bool:
    ordinary = line.made.has("look_words", piece.text) or piece.text in line.made.plain
    return piece.kind == "word" and not piece.entries and not ordinary and len(piece.text) > 1


def _names_places(line: Line, piece: Piece) -> bool:
    """ "north", "old", "mill": words that names of fields begin with as well."""
    traits = ("direction", "place_word")
    return "SPOT" in piece.types or any(line.made.has(trait, piece.text) for trait in traits)


def _means(line: Line, piece: Piece) -> bool:
    """Does a word say how it was dug, how sure or where to ask, rather than belong to a name?"""
    named = line.made.has("look_words", piece.text) or line.made.has("look_sure", piece.text)
    return named or is_any(piece, ("TOOL", "DUG", "SOAKED", "MOISTURE", "TEXTURE", "PLANTS", "SAID"))
