"""Days told by a distance or a part of a month: "last week on Tuesday", "two days since they sprayed".

What is told so is written as the reader knows it: a day of its own, or the deed with its distance behind it.
"""

from __future__ import annotations

import calendar
from dataclasses import replace

from notes_bot.language.lexicon.days import DayWritten
from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece, count_told, piece_at
from notes_bot.language.lexicon.words import Entry, Table, anywhere

LONGEST_PHRASE = 4
"""Pieces that a phrase for the week before may be told in (judgement)."""
DEED_NEAR = 5
"""Words between a distance and the deed it is counted from, "que o patrão passou o" (judgement)."""
_PLANTED = (Entry("PLANTED", "planted"),)
_SPRAYED = (Entry("SPRAY", "spray"),)
_AGO = (Entry("AGO", "ago"),)
_AFTER = (Entry("AFTER", "after"),)
_DAYS = (Entry("UNIT", "day"),)
MOST_MONTHS = 11
"""A planting day so many months back at most (judgement: not the season before)."""


def _is(pieces: list[Piece], i: int, *manners: str) -> bool:
    """Is the piece there a word of one of these manners, in any language?"""
    piece = piece_at(pieces, i)
    return piece is not None and piece.kind in ("word", "link") and any(piece.text in anywhere(m) for m in manners)


def _phrase(pieces: list[Piece], i: int, manner: str) -> int:
    """Where a phrase of a manner that begins here ends; the place itself for none."""
    for end in range(min(len(pieces), i + LONGEST_PHRASE), i, -1):
        if " ".join(piece.text for piece in pieces[i:end]) in anywhere(manner):
            return end
    return i


def weeks_before(pieces: list[Piece], _: Table) -> list[Piece]:
    """ "Last week on Tuesday", "quinta da semana passada": one day, of the week before this one."""
    out: list[Piece] = []
    i = 0
    while i < len(pieces):
        end = _phrase(pieces, i, "week_before")
        k = end
        while end > i and (_is(pieces, k, "to_weekday") or getattr(piece_at(pieces, k), "text", "") == ","):
            k += 1
        if end > i and _weekday(piece_at(pieces, k)):
            out.append(_of_week_before(pieces[k], pieces[i].start, pieces[k].end, pieces[i].spaced))
            i = k + 1
            continue
        end = _phrase(pieces, i + 1, "week_before") if _weekday(pieces[i]) else i
        if end > i + 1:
            out.append(_of_week_before(pieces[i], pieces[i].start, pieces[end - 1].end, pieces[i].spaced))
            i = end
            continue
        out.append(pieces[i])
        i += 1
    return out


def _weekday(piece: Piece | None) -> bool:
    told = piece is not None and piece.kind == "day" and isinstance(piece.value, DayWritten)
    return told and piece is not None and piece.value.weekday is not None and not piece.value.weeks


def _of_week_before(piece: Piece, start: int, end: int, spaced: bool) -> Piece:
    """The weekday as a day of the week before."""
    return Piece("day", piece.text, start, end, (), replace(piece.value, weeks=-1, next=False), spaced)


def ends_of_months(pieces: list[Piece], _: Table) -> list[Piece]:
    """ "The last day of April", "el último de abril", "first of May": a day of that month."""
    out: list[Piece] = []
    i = 0
    while i < len(pieces):
        manner = next((m for m in ("first_of_month", "last_of_month") if _phrase(pieces, i, m) > i), "")
        end = _phrase(pieces, i, manner) if manner else i
        while manner and _is(pieces, end, "of_word", "of_date"):
            end += 1
        month = pieces[end].types.get("MONTH") if manner and end < len(pieces) else None
        if month is None:
            out.append(pieces[i])
            i += 1
            continue
        number = int(month.value)
        day = 1 if manner == "first_of_month" else calendar.monthrange(2001, number)[1]
        if out and out[-1].text in anywhere("nth_before"):
            out.pop()
        written = DayWritten(pieces[end].text, day=day, month=number)
        out.append(Piece("day", pieces[end].text, pieces[i].start, pieces[end].end, (), written, pieces[i].spaced))
        i = end + 1
    return out


def counted_from(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Faz dois dias que passou o glifo", "planted two months ago today": the deed, and its distance behind it."""
    out: list[Piece] = []
    i = 0
    while i < len(pieces):
        found = (
            _since_deed(pieces, i, made) or _ago_today(pieces, i) or _after_spraying(pieces, i) or _put_in(pieces, i)
        )
        found = found or _look_with(pieces, i)
        if found is None:
            out.append(pieces[i])
            i += 1
            continue
        told, i = found
        out += told
    return out


def _span_at(pieces: list[Piece], i: int) -> bool:
    """A number of days, weeks or months?"""
    unit = piece_at(pieces, i + 1)
    return count_told(piece_at(pieces, i)) is not None and is_any(unit, ("UNIT",)) and not is_any(unit, ("COLOUR",))


def _since_deed(pieces: list[Piece], i: int, made: Table) -> tuple[list[Piece], int] | None:
    """ "[Hoje] faz dois meses [hoje] que plantou", "tem três dias que passaram herbicida"."""
    start = i
    i += is_any(piece_at(pieces, i), ("TODAY",)) or _today(piece_at(pieces, i))
    if not (is_any(piece_at(pieces, i), ("AGO",)) or _is(pieces, i, "days_since")):
        return None
    i += 1
    i += _is(pieces, i, "days_since") or is_any(piece_at(pieces, i), ("ABOUT",))
    if not _span_at(pieces, i):
        return None
    number, unit = pieces[i], pieces[i + 1]
    i += 2
    while _is(pieces, i, "just_so") or _today(piece_at(pieces, i)):
        i += 1
    if not _is(pieces, i, "that_since"):
        return None
    end = i + 1
    while end < min(len(pieces), i + DEED_NEAR) and pieces[end].kind in ("word", "link"):
        deed = pieces[end]
        if is_any(deed, ("PLANTED",)):
            return [_placed(deed, pieces[start]), *_ago(number, unit, deed)], end + 1
        if is_any(deed, ("SPRAY",)) or made.has("spray_verb", deed.text):
            k = end + 1
            while _is(pieces, k, "name_article"):
                k += 1
            if not is_any(piece_at(pieces, k), ("CHEMICAL",)):
                return None
            verb = Piece("word", deed.text, pieces[start].start, deed.end, _SPRAYED, None, pieces[start].spaced)
            return [verb, pieces[k], *_ago(number, unit, pieces[k])], k + 1
        if deed.types.keys() & {"COLOUR", "FEMALES", "PLANTS", "DUG", "NONE"}:
            return None
        end += 1
    return None


def _placed(deed: Piece, first: Piece) -> Piece:
    """The word for planting, in the place of what told it."""
    return Piece("word", deed.text, first.start, deed.end, _PLANTED, None, first.spaced)


def _ago(number: Piece, unit: Piece, behind: Piece) -> list[Piece]:
    """A distance back, behind a piece; months of a planting as a day of the calendar."""
    count = count_told(number) or 0
    months = is_any(unit, ("UNIT",)) and unit.types["UNIT"].value == "month" and 0 < count <= MOST_MONTHS
    if months and is_any(behind, ("PLANTED",)):
        return [_months(count, behind.end, behind.end)]
    at = behind.end
    return [
        Piece("number", str(count), at, at, (), count),
        Piece("word", unit.text, at, at, unit.entries),
        Piece("word", "", at, at, _AGO),
    ]


def _months(count: int, start: int, end: int) -> Piece:
    """So many months back, to the day."""
    return Piece("day", "", start, end, (), DayWritten("", months_ago=count))


def _today(piece: Piece | None) -> bool:
    return piece is not None and piece.kind == "day" and piece.value.days_ago == 0


def _ago_today(pieces: list[Piece], i: int) -> tuple[list[Piece], int] | None:
    """ "Planted two months ago [today]": months to the day, and today is not the day of the visit."""
    if not is_any(pieces[i], ("PLANTED",)):
        return None
    k = i + 1
    k += is_any(piece_at(pieces, k), ("AGO", "ABOUT"))
    if not _span_at(pieces, k):
        return None
    end = k + 2
    while _is(pieces, end, "just_so"):
        end += 1
    told = is_any(piece_at(pieces, k - 1), ("AGO",))
    if is_any(piece_at(pieces, end), ("AGO",)):
        told, end = True, end + 1
    end += _today(piece_at(pieces, end))
    return ([pieces[i], *_ago(pieces[k], pieces[k + 1], pieces[i])], end) if told else None


def _after_spraying(pieces: list[Piece], i: int) -> tuple[list[Piece], int] | None:
    """ "14 DAA glyphosate": days after it was applied; "ontem teve fungicida": it was sprayed."""
    number, short = count_told(pieces[i]), piece_at(pieces, i + 1)
    if number is not None and _is(pieces, i + 1, "days_after_spray") and short is not None:
        near = [piece_at(pieces, i - 1), piece_at(pieces, i - 2), piece_at(pieces, i + 2), piece_at(pieces, i + 3)]
        if not any(is_any(piece, ("CHEMICAL", "SPRAY")) for piece in near):
            return None
        at = short.start
        days, after = Piece("word", "d", at, at, _DAYS), Piece("word", short.text, at, short.end, _AFTER)
        return [pieces[i], days, after], i + 2
    if pieces[i].kind == "day" and _is(pieces, i + 1, "had_spray"):
        k = i + 2
        while _is(pieces, k, "name_article"):
            k += 1
        chemical = piece_at(pieces, k)
        if chemical is not None and is_any(chemical, ("CHEMICAL",)):
            end = chemical.end
            what = Piece("word", chemical.text, pieces[i].start, end, chemical.entries, None, pieces[i].spaced)
            return [what, replace(pieces[i], start=end, end=end)], k + 1
    return None


def _look_with(pieces: list[Piece], i: int) -> tuple[list[Piece], int] | None:
    """ "Repetir c/ 12 d", "volver con 10 días": the word for with says nothing between a next look and its days."""
    if not is_any(pieces[i], ("LOOK",)):
        return None
    letter = _is(pieces, i + 1, "with_letter") and getattr(piece_at(pieces, i + 2), "text", "") == "/"
    k = i + 3 if letter else i + 2 if _is(pieces, i + 1, "with_word") else 0
    return ([pieces[i]], k) if k and _span_at(pieces, k) else None


def _put_in(pieces: list[Piece], i: int) -> tuple[list[Piece], int] | None:
    """ "He put Dry Creek in on May 2nd": a field, or the beans, put in on a day are planted."""
    verb = pieces[i].text.split(" ")[-1] if pieces[i].kind == "word" else ""
    if verb not in anywhere("put_verb"):
        return None
    k = i + 1
    while (
        k < min(len(pieces), i + DEED_NEAR) and pieces[k].kind in ("word", "number") and not _is(pieces, k, "in_word")
    ):
        k += 1
    day = k + 1
    day += _is(pieces, day, "on_day")
    told = piece_at(pieces, day)
    if k == i + 1 or not _is(pieces, k, "in_word") or told is None or told.kind != "day":
        return None
    if not any(is_any(p, ("FIELD", "FIELD_WORD", "TOPS")) or p.text in anywhere("it_word") for p in pieces[i + 1 : k]):
        return None
    word = pieces[k]
    return [
        *pieces[i + 1 : k],
        Piece("word", word.text, word.start, word.end, _PLANTED, None, word.spaced),
        told,
    ], day + 1
