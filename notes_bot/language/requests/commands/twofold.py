"""Two deeds in one sentence: reminders stopped here and begun there, one held message let through and one not.

Also the days several fields were planted, each beside its field.
"""

from __future__ import annotations

from notes_bot.language.lexicon.joining import day_words, is_any
from notes_bot.language.lexicon.pieces import Piece, count_told
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.names.naming import joints, written
from notes_bot.language.requests import asking
from notes_bot.language.requests.commands.line import Line

LONGEST = 24
"""Pieces of the longest sentence looked at (judgement)."""
_SEEN = ("PLANTS", "COLOUR", "FEMALES", "DUG", "NONE", "NOT_LOOKED", "TOO_MANY", "MOISTURE", "PLANTED")


def twofold(line: Line) -> bool:
    """Read a sentence that asks two such things; false when it does not."""
    if len(line.ps) > LONGEST or line.asked:
        return False
    return _stopped_and_begun(line) or _let_and_refused(line) or _planted_each(line)


def _stopped_and_begun(line: Line) -> bool:
    """ "No more reminders for pump house, but start em up again on tollgate": two fields, a deed beside each."""
    ps = line.ps
    fields = [n for n, p in enumerate(ps) if "FIELD" in p.types]
    told = any(
        p.kind in ("number", "day", "stage", "series", "range") or (len(p.text) > 1 and is_any(p, _SEEN)) for p in ps
    )
    if len(fields) != 2 or told:
        return False
    cuts = [n for n in range(fields[0] + 1, fields[1]) if _joins(line, ps[n])]
    for at in cuts:
        deeds = [_deed(line, part) for part in (ps[:at], ps[at:])]
        if set(deeds) == {"mute", "resume"}:
            for deed, n in zip(deeds, fields, strict=True):
                name = written(line.context.text, ps[n].start, ps[n].end)
                line.context.command(str(deed), line.start, line.end, field=name)
            return True
    return False


def _planted_each(line: Line) -> bool:
    """ "Cold spring was planted 5/15 and pinchgut got planted 5/16": fields in turn with the day of each."""
    if not any(is_any(p, ("PLANTED",)) for p in line.ps):
        return False
    ps = day_words(line.ps, line.made)
    told = [p for p in ps if p.kind == "day" or "FIELD" in p.types]
    rest = [p for p in ps if p not in told]
    little = all(is_any(p, ("PLANTED", "LINK")) or _joins(line, p) or p.kind == "sign" for p in rest)
    fields, days = told[::2], told[1::2]
    in_turn = all("FIELD" in p.types for p in fields) and all(p.kind == "day" for p in days)
    planted = next(p.start for p in line.ps if is_any(p, ("PLANTED",)))
    if len(fields) < 2 or len(fields) != len(days) or not (little and in_turn) or planted > days[0].start:
        return False
    dates = [line.context.quietly(day.value) for day in days]
    if None in dates:
        return False
    for field, day in zip(fields, dates, strict=True):
        name = line.written(field)
        line.context.command("field", line.start, line.end, name=name, planted=day)
    return True


def _joins(line: Line, piece: Piece) -> bool:
    """A stop, "and", "but" between two things asked."""
    return piece.kind == "break" or piece.text in joints() or line.made.has("but_word", piece.text)


def _deed(line: Line, pieces: list[Piece]) -> str | None:
    """Are reminders stopped or begun in these words? ``None`` for neither, and for both."""
    part = asking.parts_of(asking.line_of(line, pieces))
    begun = part.says("ask_start", "ask_back_on", "begins_again") or part.stems("ask_start_stem")
    begun = begun or any(is_any(p, ("RESUME",)) for p in pieces)
    denied = any(line.made.denies(word) for word in part.words)
    stopped = any(is_any(p, ("MUTE",)) for p in pieces) or part.says("ask_silence", "silenced")
    stopped = stopped or (part.says("ask_remind") and (denied or part.says("ask_stop")))
    if stopped and not (begun and not denied and not part.says("ask_stop", "ask_silence")):
        return "mute"
    return "resume" if begun and not denied else None


def _let_and_refused(line: Line) -> bool:
    """ "Release 14 and refuse 15 of the held ones", "a 14 pode soltar e a 15 recusa": each number with its verb."""
    numbers = [n for n, p in enumerate(line.ps) if count_told(p) is not None]
    verbs = [(n, kind) for n, p in enumerate(line.ps) if (kind := _verdict(line, p)) is not None]
    if not numbers or not verbs:
        return False
    held = [_held_word(line, p) for n, p in enumerate(line.ps) if n not in numbers and n not in [v for v, _ in verbs]]
    kinds = {kind for _, kind in verbs}
    sure = kinds == {"release", "refuse"} or len(numbers) > 1 or "noun" in held
    if None in held or not sure:
        return False
    ahead = verbs[0][0] < numbers[0]
    denied = [n for n in numbers if _denied(line, n)]
    kinds |= {_other(kind) for kind in kinds} if denied else set()
    given: list[tuple[str, int]] = []
    for n in numbers:
        near = [kind for v, kind in verbs if (v < n if ahead else v > n)]
        if not near:
            return False
        kind = near[-1] if ahead else near[0]
        given.append((_other(kind) if n in denied else kind, int(count_told(line.ps[n]) or 0)))
    if {kind for kind, _ in given} != kinds or len({number for _, number in given}) < len(given):
        return False
    for kind, number in given:
        line.context.command(kind, line.start, line.end, number=number)
    return True


def _other(kind: str) -> str:
    """What is done to the other message: refused, where one is let through."""
    return "refuse" if kind == "release" else "release"


def _denied(line: Line, n: int) -> bool:
    """ "Pode deixar passar a 7, a 8 não", "let 7 through, not 8": a number with "not" right beside it."""
    beside = [line.ps[k] for k in (n - 1, n + 1) if 0 <= k < len(line.ps)]
    return any(p.kind == "word" and line.made.denies(p.text) for p in beside)


def _verdict(line: Line, piece: Piece) -> str | None:
    """Does a word let a held message through, or refuse it?"""
    last = piece.text.split(" ")[-1]
    for kind, verbs in (("release", "release_verb"), ("refuse", "refuse_verb")):
        if kind.upper() in piece.types or line.made.has(verbs, piece.text) or line.made.has(verbs, last):
            return kind
    return None


def _held_word(line: Line, piece: Piece) -> str | None:
    """ "noun" for a word that tells of held messages, "little" for one that says nothing; ``None`` for any other."""
    words = piece.text.split(" ")
    if piece.kind in ("break", "sign"):
        return "little"
    if any(line.made.has("held_noun", word) for word in words):
        return "noun"
    little = all(
        line.made.has("held_frame", word) or word in anywhere("please") or word in anywhere("also") for word in words
    )
    return "little" if little or piece.text in joints() or "COURTESY" in piece.types else None
