"""Reminders stopped, started, put off and skipped."""

from __future__ import annotations

from itertools import pairwise

from notes_bot.language.lexicon.days import UNIT_DAYS, coming_day
from notes_bot.language.lexicon.joining import day_words, is_any, number_words, stage_words, until_days
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.names.naming import joints
from notes_bot.language.requests import asking
from notes_bot.language.requests.commands.cutting import sentences_of
from notes_bot.language.requests.commands.line import Line
from notes_bot.language.requests.commands.named import about
from notes_bot.language.requests.commands.own import language


def mute(line: Line) -> bool:
    """mute; mute kestrel; mute all."""
    if line.made.has("lone_mute", line.ps[0].text) and len(line.ps) > 1:
        if len(line.ps) == 2 and is_any(line.ps[1], ("FIELD",)):
            return line.emit("mute", field=line.name(1))
        return False  # "stop 1: kestrel .."
    if line.ps[0].types["MUTE"].value == "season":
        return len(line.ps) == 1 and line.emit("mute", season=True)
    return about(line, "mute", needed=False)


def resume(line: Line) -> bool:
    """resume; resume kestrel; resume all."""
    if line.ps[0].types["RESUME"].value == "season":
        return len(line.ps) == 1 and line.emit("resume", season=True)
    return about(line, "resume", needed=False)


def skip(line: Line) -> bool:
    """skip; skip kestrel; skip all."""
    if line.ps[0].types["SKIP"].value == "all":
        return len(line.ps) == 1 and line.emit("move", skip=True, all=True)
    listed = all("FIELD" in p.types or p.text in joints() for p in line.ps[1:])  # "skip tower, depot and airstrip"
    if line.made.has("ask_move", line.ps[0].text) and any("WEEKDAY" in p.types for p in line.ps) and asking.asked(line):
        return True  # "deixa a santa rita pra quinta"
    if (len(line.ps) > 5 and not listed) or line.noted(1):
        return False
    first = line.written(line.ps[1]) if listed and len(line.ps) > 1 else None
    return line.emit("move", skip=True, field=first or line.nearest_name(line.name(1)))


def move(line: Line) -> bool:
    """push to monday; later, 5 days."""
    ps = day_words(number_words(stage_words(until_days(line.ps[1:], line.made), line.made), line.made), line.made)
    return _put_off(line, ps, ("LINK", "MOVE", "COURTESY", "RENAME_TO")) or language(line)


def _put_off(line: Line, ps: list[Piece], little: tuple[str, ...], field: str | None = None) -> bool:
    """Put off to a day or by a span, where nothing else stands there but little words."""
    rest = [p for p in ps if p.kind not in ("sign", "break") and not is_any(p, little)]
    if len(rest) == 1 and rest[0].kind == "day":
        return _to_day(line, rest[0], field)
    return len(rest) == 2 and rest[0].kind == "number" and _by_span(line, rest[0].value, rest[1], field)


def _to_day(line: Line, day: Piece, field: str | None) -> bool:
    """Put off to a day that is still to come."""
    found = coming_day(day.value, line.context.sent, line.context.language, line.context.day_first)
    return found.day is not None and line.emit("move", date=found.day, field=field)


def _by_span(line: Line, count: float, unit: Piece, field: str | None) -> bool:
    """Put off by so many days or weeks."""
    days = UNIT_DAYS.get(unit.types["UNIT"].value) if "UNIT" in unit.types else None
    return days is not None and line.emit("move", days=int(count * days), field=field)


def looked_at_then(line: Line) -> bool:
    """ "Recheck kestrel aug 3", "look at tinkers again in 10 days": when to look at a field, and no more."""
    at = 1
    while at < 3 and at < len(line.ps) and line.ps[at].text in anywhere("look_of"):
        at += 1
    if len(line.ps) < at + 2 or "LOOK" not in line.ps[0].types or not line.has(at, "FIELD"):
        return False
    ps = day_words(number_words(line.ps[at + 1 :], line.made), line.made)
    return _put_off(line, ps, ("LINK", "COURTESY", "LOOK"), line.written(line.ps[at]))


def moved_in_words(line: Line) -> bool:
    """ "Please put off my reminder for dry creek until july 24", "skip larkspur this time"."""
    at = next((n for n, p in enumerate(line.ps) if is_any(p, ("MOVE", "SKIP")) and line.made.has("move", p.text)), None)
    opening = f" {' '.join(p.text for p in line.ps[:4])} "
    wish = any(f" {said} " in opening for said in line.made.traits.get("wishes", ()))
    if at is None and wish:
        at = next((n for n, p in enumerate(line.ps) if "LOOK" in p.types and "FIELD" not in p.types), None)
    if at is None or _of_another_sentence(line, at):
        return False
    field = line.known_name(at)
    if "LOOK" in line.ps[at].types and any("NOT_LOOKED" in p.types for p in line.ps):
        return False  # not looked, and when to look: a note
    if "SKIP" in line.ps[at].types:
        return at <= 4 and field is not None and line.emit("move", skip=True, field=field)
    ps = day_words(number_words(stage_words(until_days(line.ps, line.made), line.made), line.made), line.made)
    verb = line.ps[at].start  # "can't make it today, push it 2 days": what stands behind the verb counts
    behind, before = [p for p in ps if p.start > verb], [p for p in ps if p.start <= verb]
    return _moved_to(line, behind, field) or _moved_to(line, before, field)


def _of_another_sentence(line: Line, at: int) -> bool:
    """ "Baixada: .. . Adie Sede Velha ..": a field in the sentence of the verb, and another in another sentence."""
    sentences = sentences_of(line.ps)
    named = [{p.text for p in sentence if "FIELD" in p.types} for sentence in sentences]
    own = next((n for n, sentence in enumerate(sentences) if any(p is line.ps[at] for p in sentence)), 0)
    return bool(named[own]) and any(other - named[own] for other in named)


def _moved_to(line: Line, ps: list[Piece], field: str | None) -> bool:
    """The day or the span a reminder is put off by, if one is told among these pieces."""
    spans = [p for p, unit in pairwise(ps) if p.kind == "number" and is_any(unit, ("UNIT",))]
    told = [p for p in ps if p.kind == "day" and not (spans and p.value.days_ago == 0)]  # "que hoy no puedo"
    day = told[0] if told else None
    if day is not None:
        return _to_day(line, day, field)
    for piece, unit in pairwise(ps):
        after_next = "WHICH" in piece.types and piece.types["WHICH"].value == "next"
        count = piece.value if piece.kind == "number" else int(after_next)  # "next week remind me about kestrel"
        if count and _by_span(line, count, unit, field):
            return True
    return False
