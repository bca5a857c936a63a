"""Plants that nobody dug: "sprayed today, 24 h rei, dug none" tells of no look, and not of roots without females."""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.pieces import Piece, count_told, ends_clause, piece_at
from notes_bot.language.lexicon.words import Entry, Table

_UNDUG = (Entry("NOT_LOOKED", "not_looked"),)
_DENIED = (Entry("NOT", "not"),)


def none_dug(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Dug none", "pulled no plants", "0 dug", where no plants are told of the field: none was dug."""
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        end = _undug(pieces, n, made)
        if end is None or _plants_told(pieces, n, end):
            out.append(pieces[n])
            n += 1
            continue
        said = " ".join(piece.text for piece in pieces[n:end])
        out.append(Piece("word", said, pieces[n].start, pieces[end - 1].end, _UNDUG))
        n = end
    return out


def nor_there(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "La Manguera no la pude ver. El Ombú tampoco": of the next field the same is told, and nothing else of it.

    Also "kestrel not looked. old mill too".
    """
    for n in range(len(pieces) - 1, 0, -1):
        said = [" ".join(p.text for p in pieces[n : n + k]) for k in (1, 2) if n + k <= len(pieces)]
        size = max((k for k, words in enumerate(said, 1) if made.has("nor_word", words)), default=0)
        too = max((k for k, words in enumerate(said, 1) if made.has("as_well", words)), default=0) if not size else 0
        named = is_any(pieces[n - 1], ("FIELD",)) and not is_any(pieces[n], ("SAME",))
        if too and not (named and ends_clause(piece_at(pieces, n + too))):
            continue
        if not (size := size or too):
            continue
        first, last = (n - 1, n + size) if ends_clause(piece_at(pieces, n + size)) else (n, n + size + 1)
        name = pieces[first] if first < n else piece_at(pieces, n + size)
        begins = piece_at(pieces, first - 1)
        joined = begins is not None and (ends_clause(begins) or linking(begins))
        behind = next((p for p in pieces[last:] if p.kind not in ("break", "line")), None)
        alone = ends_clause(piece_at(pieces, last)) and (behind is None or is_any(behind, ("FIELD", "COURTESY")))
        told = _told_of_last(pieces[:first]) if is_any(name, ("FIELD",)) and joined and alone else None
        if name is not None and told is not None:
            entry = Entry(told, {"NOT_LOOKED": "not_looked", "NONE": "none"}[told])
            nor = Piece("word", pieces[n].text, pieces[n].start, pieces[n + size - 1].end, (entry,))
            pieces = [*pieces[:first], name, nor, *pieces[last:]]
    return pieces


def no_time_for(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "No time for Tinkers. Kestrel 5 none": nobody looked at that field; "no time for soaking": no roots were."""
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        size = _no_time(pieces, n, made)
        if not size:
            out.append(pieces[n])
            n += 1
            continue
        said, what = " ".join(piece.text for piece in pieces[n : n + size]), pieces[n + size]
        start, end = pieces[n].start, pieces[n + size - 1].end
        if is_any(what, ("SOAKED",)):
            out += [Piece("word", said, start, end, _DENIED), what]
        else:
            out += [what, Piece("word", said, start, end, _UNDUG)]
        n += size + 1
    return out


LONGEST_NO_TIME = 6
"""Words of the longest phrase for having had no time ("no me dio el tiempo para"; judgement)."""


def _no_time(pieces: list[Piece], n: int, made: Table) -> int:
    """How many pieces before a field's name, or a word for soaking, say that there was no time for it; 0 for none."""
    for size in range(min(LONGEST_NO_TIME, len(pieces) - n - 1), 0, -1):
        said = " ".join(piece.text for piece in pieces[n : n + size])
        what, behind = pieces[n + size], piece_at(pieces, n + size + 1)
        if made.has("no_time", said) and is_any(what, ("FIELD", "SOAKED")):
            alone = ends_clause(behind) or is_any(behind, ("TODAY",)) or getattr(behind, "kind", "") == "day"
            return size if alone or is_any(what, ("SOAKED",)) else 0
    return 0


def _told_of_last(pieces: list[Piece]) -> str | None:
    """Was the last field not looked at, or did it have none? ``None`` where something else is told of it."""
    names = [n for n, piece in enumerate(pieces) if is_any(piece, ("FIELD",))]
    since = pieces[names[-1] :] if names else []
    if any(is_any(piece, ("COLOUR", "FEMALES", "TOO_MANY")) and "NONE" not in piece.types for piece in since):
        return None
    told = {kind for piece in since for kind in ("NOT_LOOKED", "NONE") if kind in piece.types}
    return told.pop() if len(told) == 1 else None


def _undug(pieces: list[Piece], n: int, made: Table) -> int | None:
    """Where "dug none" ends that begins there, a clause ending or a day or place behind it; ``None`` for no such."""
    first, second = pieces[n], piece_at(pieces, n + 1)
    if second is None:
        return None
    if count_told(first) == 0 and is_any(second, ("DUG",)) and not _listed(pieces, n):
        end = n + 2
    elif not (is_any(first, ("DUG",)) and made.has("plain_dig", first.text)) or _goes_on(piece_at(pieces, n - 1)):
        return None
    elif is_any(second, ("NONE",)):
        end = n + 2
    elif is_any(second, ("NOT",)) and is_any(piece_at(pieces, n + 2), ("PLANTS",)):
        end = n + 3
    else:
        return None
    behind = piece_at(pieces, end)
    ends = ends_clause(behind) or is_any(behind, ("TODAY", "WEEKDAY", "FIELD", "ENTRY", "SPRAY", "CHEMICAL"))
    ends = ends or (behind is not None and (behind.kind == "day" or made.has("behind_undug", behind.text)))
    return end if ends else None


def _listed(pieces: list[Piece], n: int) -> bool:
    """Is the number there the last of several ("3 0 5 1 2 0 cavadas")?"""
    n -= 1 + (n > 0 and pieces[n - 1].text in (",", "-", "/"))
    return count_told(piece_at(pieces, n)) is not None


def _goes_on(before: Piece | None) -> bool:
    """ "6 (dug none)", "6 plants (dug none)": what stands before the digging tells how many were dug."""
    return count_told(before) is not None or is_any(before, ("NOT", "PLANTS", "DUG", "TOOL"))


def _plants_told(pieces: list[Piece], n: int, end: int) -> bool:
    """Are plants counted of the same field, before or behind: "6 plants, dug none had any"?"""
    first = n
    while first and not (is_any(pieces[first - 1], ("FIELD",)) or pieces[first - 1].kind == "line"):
        first -= 1
    last = end
    while last < len(pieces) and not is_any(pieces[last], ("FIELD",)):
        last += 1
    rest = [*pieces[first:n], None, *pieces[end:last]]
    for k, piece in enumerate(rest):
        near = [other for other in (rest[k - 1] if k else None, *rest[k + 1 : k + 2]) if other is not None]
        counted = any(count_told(other) for other in near)
        if is_any(piece, ("FEMALES",)) or (counted and is_any(piece, ("PLANTS", "DUG", "TOOL", "COLOUR"))):
            return True
    return False
