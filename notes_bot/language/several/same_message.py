"""What a message says again of a note of its own, further on: a value put right, or one thing more.

"Vesper: 6 plants dug, 3 white. .. PS: I mistyped, Vesper was 5 white, not 3": the note itself is put right, and the
answer says so. Only where the old value, if one is told, is the note's own, and nothing else of the note hangs on it;
else it stays a correction, of an earlier note. "Sorry, at Vesper it was 7 plants." does the same, without a word for
putting right that our requests know. "Look again in 10 days at Long Acre." is told of that field's own note.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence, Set
from dataclasses import fields as parts_of
from dataclasses import replace
from typing import Any

from notes_bot.language.clauses.context import Context
from notes_bot.language.lexicon.crew_names import folded_names
from notes_bot.language.lexicon.pieces import Cutter
from notes_bot.language.lexicon.scan import clean, fold, scan
from notes_bot.language.lexicon.words import anywhere, table
from notes_bot.model import Command, Females, Language, Note, Soil

_SHADES = ("white", "yellow", "tan", "brown")
_OF_SOIL = ("moisture", "texture", "ph", "k_ppm")
_PLAIN = ("plants", "method", "soaked", "stage", "date")
_ADDED = ("look_again", "soil", "stage", "tops", "roots", "variety", "soaked", "planted", "spray", "method")
"""What may be told of a field further on, behind other fields."""
_BLANK = Note()
LEAST_FIELDS = 2
"""Fields among which it must be told whose note is added to."""
_SENTENCE = re.compile(r"(?:(?<=[.!;\n] )|(?<=\n)|^)[^.!;\n ][^.!;\n]*[.!;]?", re.MULTILINE)
_COUNTED = frozenset(
    {
        "COLOUR",
        "FEMALES",
        "PLANTS",
        "NONE",
        "NOT_LOOKED",
        "DUG",
        "TOO_MANY",
        "CORRECT",
        "UNDO",
        "SKIP",
        "MUTE",
        "HISTORY",
    }
    | {"CHEMICAL", "SPRAY", "RESISTANCE", "EGGS", "PLANTED", "CHECK"}
)
"""Kinds of word of a sentence that does more than add."""


def put_right_here(context: Context) -> None:
    """Corrections of a note of this very message: the note holds the right one."""
    for command in [c for c in context.commands if c.kind == "correct"]:
        if not set(command.args) <= {"field", "what", "value", "old"} or _of_earlier(context, command):
            continue
        above = [n for n, note in enumerate(context.notes) if _stands_before(note, command)]
        field = command.args.get("field")
        if command.args.get("what") == "date" and len(context.notes) == 1:
            above = [0]  # "Kestrel / it was monday i looked / 6 plants, none"
        own = [n for n in above if field is None or context.notes[n].field == field]
        if len(own) != 1 or (field is None and len(context.notes) != 1):
            continue
        right = _put_right(context, context.notes[own[0]], command)
        if right is not None:
            context.notes[own[0]] = right
            context.commands.remove(command)
            start = context.offset(command.where)
            context.mention("near_word", start, start + len(command.where.text), read=_shown(command.args["value"]))


def told_anew_here(context: Context) -> None:
    """A later note of a field already noted, behind "sorry" or "slip up there": its plants and counts stand instead."""

    def anew(note: Note, later: Note) -> Note | None:
        if not _told(later) <= _COUNTS or not _behind_sorry(context, later):
            return None
        hangs = note.per_plant is not None or bool(note.spots) or _by_plant(context, note)
        if hangs or note.outcome not in ("seen", "none_seen"):
            return None
        if later.plants is not None:
            note = replace(note, plants=later.plants)
        for shade in _SHADES:
            if count := getattr(later.females, shade):
                note = _recounted(note, shade, count) or note
        start = context.offset(later.where)
        context.mention(
            "near_word", start, start + len(later.where.text), read=str(later.plants or later.females.total)
        )
        return note

    _into_first(context, anew)


def _into_first(context: Context, joined: Callable[[Note, Note], Note | None]) -> None:
    """Every later note of a field goes into that field's first one where both can be joined."""
    kept: list[Note] = []
    firsts: dict[str, int] = {}
    for later in context.notes:
        first = None if later.field is None else firsts.setdefault(later.field, len(kept))
        both = None if first is None or first == len(kept) else joined(kept[first], later)
        if first is None or both is None:
            kept.append(later)
        else:
            kept[first] = both
    context.notes[:] = kept


_COUNTS = {"plants", "females", "outcome", "date"}
"""What a count told anew may tell."""


def _behind_sorry(context: Context, note: Note) -> bool:
    """Does the sentence in which a note begins open with a word that puts right?"""
    start = context.offset(note.where)
    line = re.split(r"[.!?\n]", context.text[max(0, start - SAID_WITHIN) : start])[-1]
    words = [x.text for x in scan(clean(line)) if x.kind == "word"]
    made = table(context.language)
    spans = [" ".join(words[n : n + size]) for n in range(len(words)) for size in (1, 2, 3)]
    if made.has_any("added_too", spans):
        return False  # "oops, also 5 white on the far side of Kestrel"
    return any(made.has(manner, said) for said in spans for manner in ("repairs", "amends", "slip_word"))


def added_here(context: Context) -> None:
    """A later note of a field already noted that only adds to it ("Look again in 10 days at Long Acre.")."""

    def added(note: Note, later: Note) -> Note | None:
        told = _told(later)
        if not told or not told <= set(_ADDED) or note.outcome is None or told & _told(note):
            return None
        text = "; ".join(part for part in (note.text, later.text) if part)
        return replace(note, text=text, **{key: getattr(later, key) for key in told})

    _into_first(context, added)


def noted_there(context: Context) -> None:
    """ "Como faço a amostra na Gralha? Hoje lá: 6 plantas": the note is of the one field that was asked about."""
    asked = {str(c.args["field"]) for c in context.commands if c.args.get("field")}
    if len(asked) != 1 or len(context.notes) != 1 or context.notes[0].field is not None:
        return
    start = context.offset(context.notes[0].where)
    before = [c for c in context.commands if c.args.get("field") and context.offset(c.where) < start]
    said = [x.text for x in scan(context.text[start : start + SAID_WITHIN])]
    there = table(context.language).traits.get("noted_there", frozenset())
    if before and not there.isdisjoint(said):
        context.notes[0] = replace(context.notes[0], field=asked.pop())


SAID_WITHIN = 30
"""Letters of a note within which it is told that it is of "there" (judgement)."""


def named_first(text: str, language: Language, fields: Sequence[str]) -> str:
    """ "Look again in 10 days at Kestrel." behind another field's note: "Kestrel: Look again in 10 days."."""
    low = fold(text)
    again = [name for name, said in zip(fields, folded_names(tuple(fields)), strict=True) if low.count(said) > 1]
    if not again or len(fields) < LEAST_FIELDS:
        return text
    for match in reversed(list(_SENTENCE.finditer(text))):
        said, above = match[0], low[: match.start()]
        named = [name for name in fields if re.search(rf"\b{re.escape(fold(name))}\b", fold(said))]
        named = [name for name in named if not any(name != other and name in other for other in named)]
        if len(named) > 1 and (parted := _looks_parted(said, [fold(name) for name in named], language)):
            if all(fold(name) in above for name in named):
                text = f"{text[: match.start()]}{parted}{text[match.end() :]}"
                low = fold(text)
            continue
        if len(named) != 1 or named[0] not in again:
            continue
        name = fold(named[0])
        at, last = fold(said).find(name), above.rfind(name)
        others = any(above.rfind(fold(other)) > last for other in fields if fold(other) not in name)
        if at <= 0 or last < 0 or not others or not _adds_only(said, language):
            continue
        before = re.sub(r"\s+$", "", said[:at])
        word = re.search(r"(?:^|\s)([^\W\d_]+)$", before)
        if word is None or fold(word[1]) not in anywhere("before_name") | anywhere("named_at"):
            continue
        rest = f"{before[: word.start(1)].rstrip()} {said[at + len(name) :].lstrip()}".strip()
        shown = said[at : at + len(name)]
        rest = re.sub(r" ([.!;,])", r"\1", rest)
        text = f"{text[: match.start()]}{shown}: {rest}{text[match.end() :]}"
        low = fold(text)
    return text


def _looks_parted(said: str, names: Sequence[str], language: Language) -> str:
    """ "Vuelvo a Kestrel en 15 días y a Tinkers en 30.": a sentence for each of the fields; "" for no such."""
    low = fold(said)
    if not _adds_only(said, language) or any(low.count(name) != 1 for name in names):
        return ""
    at = sorted((low.find(name), len(name)) for name in names)
    lead = _without_last(said[: at[0][0]], anywhere("before_name") | anywhere("named_at"))
    parts: list[str] = []
    unit = ""
    for n, (start, size) in enumerate(at):
        end = at[n + 1][0] if n + 1 < len(at) else len(said)
        span = said[start + size : end].strip(" .;!,\n")
        for words in (anywhere("before_name") | anywhere("named_at"), anywhere("and_word")):
            span = _without_last(span, words) if n + 1 < len(at) else span
        cut = Cutter(language, ()).cut(scan(span))
        if not any(p.kind in ("number", "day") or {"NUMBER_WORD", "WEEKDAY", "TODAY"} & set(p.types) for p in cut):
            return ""
        units = [span[p.start : p.end] for p in cut if "UNIT" in p.types]
        unit = units[-1] if units else unit
        bare = cut[-1].kind == "number" or "NUMBER_WORD" in cut[-1].types
        parts.append(f"{said[start : start + size]}: {lead.strip()} {span}{f' {unit}' if bare and unit else ''}.")
    return " ".join(parts)


def _without_last(said: str, words: Set[str]) -> str:
    """A stretch of text without its last word, if it is one of these."""
    cut = re.search(r"(?:^|\s)([^\W\d_]+)\s*$", said)
    return said[: cut.start(1)].rstrip(" ,") if cut is not None and fold(cut[1]) in words else said


def _adds_only(said: str, language: Language) -> bool:
    """Is a sentence of when to look again, of tops, soil or roots, and asks and counts nothing?"""
    cut = Cutter(language, ()).cut(scan(said))
    kinds = {kind for piece in cut for kind in piece.types if len(piece.text) > 1}
    looks = "LOOK" in kinds and any(p.kind in ("number", "day") or "NUMBER_WORD" in p.types for p in cut)
    adds = looks or kinds & {"TOPS", "MOISTURE", "ROOTS"}
    return bool(adds) and "?" not in said and not kinds & _COUNTED


def _told(note: Note) -> set[str]:
    """Which parts of a note are told, its field and remaining text aside."""
    keys = (part.name for part in parts_of(note))
    aside = ("field", "text", "where")
    return {key for key in keys if key not in aside and getattr(note, key) != getattr(_BLANK, key)}


def _stands_before(note: Note, command: Command) -> bool:
    return (note.where.line, note.where.column) < (command.where.line, command.where.column)


def _of_earlier(context: Context, command: Command) -> bool:
    """ "In my last note on Ketterby ..", "yesterday's": another message's note."""
    words = [x.text for x in scan(clean(command.where.text))]
    spans = (" ".join(words[n : n + size]) for n in range(len(words)) for size in (1, 2, 3))
    return any(table(context.language).has("earlier_note", said) for said in spans)


def _put_right(context: Context, note: Note, command: Command) -> Note | None:
    """The note with its value put right; ``None`` where the old one does not fit, or more hangs on it."""
    what, value, old = (command.args.get(key) for key in ("what", "value", "old"))
    what = str(what)
    told = _part(note, what)
    if what == "date" and told is None:
        told = context.sent  # as it is taken where no day is told
    if value is None or told is None or (told == value if old is None else told != old):
        return None
    if what in _SHADES or what == "total":
        return _recounted(note, what, value)
    if what in _OF_SOIL:
        return replace(note, soil=Soil(**{**_soil(note), what: value}))
    if what not in _PLAIN:
        return None
    hangs = what == "plants" and (note.per_plant is not None or note.spots or _by_plant(context, note))
    return None if hangs else replace(note, **{what: value})


def _recounted(note: Note, what: str, value: Any) -> Note | None:
    """The note with one count of females put right, and their total."""
    if note.per_plant is not None or any(not spot.check for spot in note.spots) or not isinstance(value, int):
        return None
    females = note.females
    if what == "total":
        if any(getattr(females, shade) for shade in _SHADES):
            return None
        females = replace(females, total=value) if value else Females(0, 0, 0, 0, 0)
    else:
        counted = {shade: getattr(females, shade) or 0 for shade in _SHADES} | {what: value}
        females = Females(**counted, total=sum(counted.values()))
    return replace(note, females=females, outcome="seen" if females.total else "none_seen")


def _by_plant(context: Context, note: Note) -> bool:
    """ "3 white each": what was found hangs on the number of plants."""
    made = table(context.language)
    words = [x.text for x in scan(clean(note.where.text))]
    return any(entry.type == "EACH" for word in words for entry in made.singles.get(word, ())) or "per" in words


def _part(note: Note, what: str) -> Any:
    if what in (*_SHADES, "total"):
        return getattr(note.females, what)
    return getattr(note.soil, what) if what in _OF_SOIL else getattr(note, what, None)


def _soil(note: Note) -> dict[str, Any]:
    return {part: getattr(note.soil, part) for part in _OF_SOIL}


def _shown(value: object) -> str:
    return f"{value:g}" if isinstance(value, (int, float)) else str(value)
