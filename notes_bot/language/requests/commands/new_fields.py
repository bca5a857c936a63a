"""A new field, and what is told of it."""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any, linking, phrase_end
from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.names.naming import written
from notes_bot.language.requests import asking
from notes_bot.language.requests.commands.cutting import words_said
from notes_bot.language.requests.commands.line import TOLD, Line
from notes_bot.language.requests.properties import begins_property, properties
from notes_bot.language.requests.states import without_state

OPENING = 4
"""Pieces of "can you please add a field" (judgement)."""
_REGISTERING = ("register_cue", "register_frame")
"""Manners of words that tell of a new field, and name none."""


def add(line: Line) -> bool:
    """add field kestrel 42.03, -93.62 planted 5/6 peking."""
    if any("FIELD" in p.types for p in line.ps) and asking.asked(line):
        return True  # "add kestrel to my list for friday"
    i = 2 if line.has(2, "FIELD_WORD") and linking(line.ps[1]) else 1  # "add the field Chapel Road"
    while line.has(i, "FIELD_WORD") or (i < len(line.ps) and line.ps[i].text in (":", "#", ",")):
        i += 1
    if i == 1 and " " not in line.ps[0].text and (len(line.ps) < 2 or line.noted(1)):
        return False
    if i + 1 < len(line.ps) and line.made.has("adds_to", line.ps[i].text) and line.has(i + 1, "FIELD"):
        return False  # "add to kestrel: roots dark"
    added_to = i < len(line.ps) and line.made.has("adds_to", line.ps[i].text)
    if added_to and any(line.made.stemmed("ask_record", word) for word in words_said(line.ps[i:])):
        return False  # "please add to the field record"
    if line.has(i, "RENAME_TO") and line.has(i + 1, "ADD"):
        i += 2  # "new field to add bittersweet ridge"
    elif line.has(i, "ADD") and " " in line.ps[i].text and i + 1 < len(line.ps):
        i += 1  # "add new field Bluestem"
    colon = next((n for n in range(i, min(i + 6, len(line.ps))) if line.ps[n].text == ":"), None)
    if colon is not None and all(not is_any(p, ("FIELD",)) for p in line.ps[i:colon]):
        i = colon + 1  # "new field for the list, please: quarry bend"
    while i < len(line.ps) and (line.ps[i].text in (",", "-") or _is_called(line, i)):
        i += 1  # "un lote nuevo, se llama coyote bottom", "a new field, it's called Chapel Road"
    while i + 1 < len(line.ps) and line.ps[i].text in anywhere("please"):
        i += 1  # "add a field plz Chapel Road"
    for size in (3, 2, 1):
        said = " ".join(p.text for p in line.ps[i : i + size])
        if line.made.has("for_us", said) and i + size < len(line.ps):
            i += size  # "add a field for me, hilltop forty"
            break
    while i < len(line.ps) and line.ps[i].text in (",", "-", ":"):
        i += 1
    counted = any(_counted(line, n) for n in range(i, len(line.ps)))
    if counted or (i < len(line.ps) and line.ps[i].kind == "stage") or _known_already(line, i):
        return False  # "lote nuevo 6 plantas 3 blancas", "anota aí talhão Baixada, seis plantas"
    j = i
    while j < len(line.ps) and not begins_property(line, j) and not _to_list(line, j) and not _sizes(line, j):
        j += 1
    stop = j
    little = ("HAD", "LINK")
    while stop > i + 1 and (is_any(line.ps[stop - 1], little) or line.made.has("is_now", line.ps[stop - 1].text)):
        stop -= 1  # "Lorenz Place has a susceptible variety"
    if line.made.has("for_us", " ".join(p.text for p in line.ps[max(i + 1, stop - 2) : stop])):
        stop -= 2  # "add Hilltop Forty for me, forty acres"
    name = line.name(i, stop, whole=True)
    if name is not None and line.made.has("season_no_name", name):
        again = next((n for n in range(stop, len(line.ps)) if line.has(n, "ADD")), None)
        return again is not None and add(Line(line.context, line.ps[again:]))  # "a field this year. Add Tile Corner"
    if name is None:
        return False
    name, state = without_state(line, name)
    return line.emit("field", name=name, **{**state, **properties(line, j)})


def _known_already(line: Line, i: int) -> bool:
    """ "New field, Kestrel, 6 plants ..": one the crew has, and what was seen or done there, in its line or behind."""
    if not line.has(i, "FIELD") or not any(line.made.has("new_word", word) for word in line.ps[0].text.split(" ")[:2]):
        return False
    text, field = line.context.text, line.ps[i]
    if fold(written(text, field.start, field.end)) not in {fold(name) for name in line.context.listed}:
        return False
    rest = line.ps[i + 1 :]
    return Line(line.context, rest).tells() if rest else any(char.isalnum() for char in text[line.end :])


def _is_called(line: Line, i: int) -> bool:
    """Does a word for "called" stand there, or behind the "it's" there?"""
    return line.made.has("called", line.ps[i].text) or (
        line.made.has("is_now", line.ps[i].text)
        and i + 1 < len(line.ps)
        and line.made.has("called", line.ps[i + 1].text)
    )


def _counted(line: Line, i: int) -> bool:
    """Does a count of plants or females stand there?"""
    piece = line.ps[i]
    number = piece.kind == "number" or "NUMBER_WORD" in piece.types
    return number and line.has(i + 1, "PLANTS", "COLOUR", "FEMALES")


def _sizes(line: Line, j: int) -> bool:
    """ "Thirty eight acres": a number in words before a word for acres."""
    k = j
    while line.has(k, "NUMBER_WORD"):
        k += 1
    return k > j and line.has(k, "ACRES")


def _to_list(line: Line, j: int) -> bool:
    """ "Add Turkey Run to my list": where the name ends."""
    words = [p.text for p in line.ps[j : j + 3]]
    return any(line.made.has("to_list", " ".join(words[:size])) for size in (1, 2, 3))


def added_behind(line: Line) -> bool:
    """ "Voss corner - new field. planted 5/12, peking", "can you add a field, Stone Lot, by Kestrel"."""
    asked = next((n for n, p in enumerate(line.ps[:OPENING]) if n and "ADD" in p.types and " " in p.text), None)
    opening = [p.text for p in line.ps[:asked] if p.text not in anywhere("please")] if asked else []
    named = asked and not line.made.has("for_us", " ".join(p.text for p in line.ps[asked + 1 :]))
    if named and opening and line.made.has("asks_politely", " ".join(opening)):
        return add(Line(line.context, line.ps[asked:]))
    at = next((n for n, p in enumerate(line.ps[:8]) if "ADD" in p.types and " " in p.text), None)
    called = at is not None and phrase_end(line.ps[at]) in anywhere("phrase_calls")
    called = called or (bool(at) and all(line.made.has("register_cue", p.text) for p in line.ps[:at]))
    while (  # "register new field: Bluestem"
        at is not None
        and at + 2 < len(line.ps)
        and (
            line.ps[at + 1].kind in ("break", "sign")
            or is_any(line.ps[at + 1], ("LINK",))
            or line.ps[at + 1].text in anywhere("name_follows")
        )
    ):
        called = called or line.ps[at + 1].text in anywhere("name_follows")
        at += 1
    if at is not None and called and at + 1 < len(line.ps):
        stop = next((n for n in range(at + 1, len(line.ps)) if begins_property(line, n)), len(line.ps))
        name = line.name(at + 1, stop, whole=True)
        return name is not None and line.emit("field", name=name, **properties(line, stop))
    at = next((n for n, p in enumerate(line.ps[:8]) if "ADD" in p.types and " " in p.text), None)
    at = at or _new_behind(line)
    if not at or any(p.kind in ("number", "stage", "day") for p in line.ps[:at]) or line.noted(at + 1):
        return False  # "fomos no talhão novo, Paiol 5 plantas nenhuma"
    titled = all(
        linking(p) or line.context.text[p.start : p.start + 1].isupper() for p in line.ps[:at]
    )  # "Cerca Branca é área .."
    if not titled and any(is_any(p, TOLD) for p in line.ps[:at]):
        return False
    stop = next((n for n, p in enumerate(line.ps[:at]) if n and p.kind == "break"), at)
    while stop > 1 and (
        "LINK" in line.ps[stop - 1].types
        or any(line.made.has(trait, line.ps[stop - 1].text) for trait in ("is_word", "is_now"))
    ):
        stop -= 1  # "Curva Larga es un lote nuevo"
    name = line.name(0, stop, whole=True)
    if all(any(line.made.has(t, w) for t in _REGISTERING) for p in line.ps[:stop] for w in p.text.split(" ")):
        return False  # "entrou um talhão novo, Lagoa Torta"
    return name is not None and line.emit("field", name=name, **properties(line, at + 1))


def _new_behind(line: Line) -> int | None:
    """ "Mulberry Hill talhão novo, perto de ..": where "new field" stands behind a name."""
    for n in range(1, min(6, len(line.ps) - 1)):
        pair = [line.ps[n], line.ps[n + 1]]
        new = any("FIELD_WORD" in p.types for p in pair) and any(line.made.has("new_word", p.text) for p in pair)
        if (
            new
            and not any("FIELD" in p.types for p in line.ps[:n])
            and any(begins_property(line, m) for m in range(n, len(line.ps)))
        ):
            return n
    return None
