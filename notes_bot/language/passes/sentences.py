"""What is told in full sentences: plants place by place before what was found there, counts that "I would call yellow".

"I dug five plants near the gate and five near the creek. Near the gate I counted nine white females."
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

from notes_bot.language.lexicon.joining import in_figures, is_any, linking
from notes_bot.language.lexicon.pieces import Piece, count_told
from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import Entry, Table, anywhere
from notes_bot.language.names.naming import joints, written

LEAST_PLACES = 2
"""Places from which each has its own plants."""
LONGEST_PLACE = 4
"""Words of a place with what leads to it, "down by the gate" (judgement)."""
LONGEST_SAID = 8
"""Words between a count and its color, "that I would rather call" (judgement)."""
FARTHEST_SHADE = 4
"""Pieces from a number to its color, "nine of those little white ones" (judgement)."""
NODULES_CUT = 5
"""Pieces from cutting to the nodules cut, "sliced open a few of the nodules" (judgement)."""
MOST_AT_PLACE = 40
"""More plants than this are dug in no place (judgement)."""
MOST_PLACES = 20
"""Places told in one sentence; more is no sentence, and would cost time (judgement)."""
_PLANTS = (Entry("PLANTS", "plants"),)
_HAD = (Entry("HAD", "had"),)
_SPOT = (Entry("SPOT", "spot"),)
_LEADS = ("at", "lies_by", "leads_noun", "article", "name_link", "determiner", "place_lead")
"""Manners of words that lead to a place."""
_NO_PLACE = frozenset(
    {
        "FIELD",
        "HAD",
        "PLANTS",
        "DUG",
        "TOOL",
        "SOAKED",
        "COLOUR",
        "FEMALES",
        "NONE",
        "TODAY",
        "WEEKDAY",
        "MONTH",
    }
    | {"ORDINAL", "NTH", "STAGE_NAME", "EACH", "ROOTS", "UNIT"}
)
"""What names no place."""
_TELLS_SEED = ("RESISTANCE", "SOURCE", "VARIETY")
"""Words for seed."""
LONGEST_NAME = 3
"""Pieces in the name of a place before its seed (judgement)."""
_SHAPES = frozenset({"patch", "ring"})
"""Shapes of sick beans that plants are dug in."""


def told_ahead(pieces: list[Piece]) -> list[Piece]:
    """ "R3 at Kestrel, R4 at Depot": of fields not yet told of, each behind its stage or soil, the field put first."""
    n = 0
    while n < len(pieces):
        groups = _ahead_from(pieces, n)
        if len(groups) < LEAST_PLACES or any(is_any(p, ("FIELD",)) for p in pieces[:n]):
            n += 1
            continue
        out = list(pieces)
        for first in groups:
            field = pieces[first + 2]  # "na Baixada": no low place
            named = replace(field, entries=tuple(entry for entry in field.entries if entry.type == "FIELD"))
            out[first : first + 3] = [named, pieces[first + 1], pieces[first]]
        kept = [p for k, p in enumerate(out) if k - 1 not in groups]
        inner = [p for k, p in enumerate(pieces) if k + 1 in groups[1:] and p.text in joints()]
        return [Piece("break", ",", p.start, p.end, (), "soft") if p in inner else p for p in kept]
    return pieces


def _ahead_from(pieces: list[Piece], n: int) -> list[int]:
    """Where the groups of value, "at" and field begin, from one at the head of a clause on."""
    if n and pieces[n - 1].kind not in ("break", "line"):
        return []
    groups: list[int] = []
    while len(pieces) >= n + 3 and _is_ahead(pieces[n : n + 3]):
        groups.append(n)
        behind = pieces[n + 3 : n + 5]
        n += 3 + bool(behind and behind[0].text in {",", *joints()})
        n += n == groups[-1] + 4 and len(behind) > 1 and behind[1].text in joints()
        if n == groups[-1] + 3:
            break
    ends = n >= len(pieces) or pieces[n].kind in ("break", "line") or n > groups[-1] + 3 if groups else False
    return groups if ends else []


def _is_ahead(group: list[Piece]) -> bool:
    """Are three pieces a stage or a soil, "at", and a field?"""
    value, at, field = group
    told = value.kind == "stage" or is_any(value, ("MOISTURE",))
    return told and "FIELD" not in value.types and at.text in anywhere("at") and is_any(field, ("FIELD",))


_PULLED = (Entry("DUG", "pulled"),)


def pulled_out(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Ten plants pulled out of wet clay", not "pulled out of the drive": out of soil, plants told before."""
    out = list(pieces)
    for n, piece in enumerate(pieces):
        if not made.has("pulled_out", piece.text) or not any(is_any(p, ("PLANTS",)) for p in pieces[max(0, n - 2) : n]):
            continue
        behind = next((p for p in pieces[n + 1 :] if not (linking(p) and not made.has("soil_word", p.text))), None)
        if is_any(behind, ("MOISTURE", "TEXTURE")) or (behind is not None and made.has("soil_word", behind.text)):
            out[n] = Piece("word", piece.text, piece.start, piece.end, _PULLED, None, piece.spaced)
    return out


@dataclass(frozen=True, slots=True)
class _Told:
    """So many plants at a place: where its pieces begin and end (exclusive), the number, and its name, folded."""

    first: int
    end: int
    number: Piece
    name: str
    at: Piece
    """The last piece of the place."""
    shown: str
    """The name as written."""

    @property
    def plants(self) -> int:
        """How many were dug there."""
        return count_told(self.number) or 0


def places_first(pieces: list[Piece], made: Table, text: str) -> list[Piece]:
    """ "Five plants near the gate and five near the creek": a place and its plants each, where told of again.

    Or each with what was found right behind it: "three on the hill, 4, 6 and 5, and three in the bottom, 0, 0 and 1".
    """
    message = _Message(pieces, made)
    for n, piece in enumerate(pieces):
        if not count_told(piece) or not _begins(pieces, n):
            continue
        rows = _rows(message, n, text)
        if len(rows) < LEAST_PLACES or not message.digs(rows):
            continue
        if any(is_any(p, ("CHECK",)) for row in rows for p in pieces[row.first : row.end]):
            continue
        told = _found_each(pieces, rows) or _found_later(message, rows)
        if told:
            return told
    return pieces


class _Message:
    """The pieces of a message; what is asked of all of them is looked up once, or a long one would cost its square."""

    def __init__(self, pieces: list[Piece], made: Table) -> None:
        self.pieces, self.made = pieces, made

    @cached_property
    def ends(self) -> list[int]:
        """Of each piece where its sentence ends."""
        ends, end = [0] * len(self.pieces), len(self.pieces)
        for k in range(len(self.pieces) - 1, -1, -1):
            if self.pieces[k].kind == "line" or self.pieces[k].value == "hard":
                end = k
            ends[k] = end
        return ends

    @cached_property
    def _last_stop(self) -> int:
        return max((k for k, p in enumerate(self.pieces) if p.kind in ("break", "line", "sign")), default=-1)

    @cached_property
    def _plants(self) -> dict[int, int]:
        """Where so many plants are told first."""
        told: dict[int, int] = {}
        for k, (piece, behind) in enumerate(pairwise(self.pieces)):
            count = count_told(piece)
            if count is not None and is_any(behind, ("PLANTS",)):
                told.setdefault(count, k)
        return told

    @cached_property
    def _places(self) -> dict[str, list[tuple[int, int, bool]]]:
        """Of each name where a place of that name may stand, and whether a clause opens there."""
        pieces = self.pieces
        places: dict[str, list[tuple[int, int, bool]]] = {}
        for k, piece in enumerate(pieces):
            before = pieces[k - 1] if k else None
            opens = before is not None and (
                before.kind in ("break", "line") or before.text in (":", *anywhere("and_then"))
            )
            if not opens and not is_any(piece, ("SPOT",)):
                continue
            for end in range(k + 1, min(k + LONGEST_PLACE, len(pieces)) + 1):
                named = places.setdefault(" ".join(_without_lead(pieces[k:end], self.made)), [])
                if not named or named[-1][0] != k:
                    named.append((k, end, opens))
        return places

    def stopless(self, start: int) -> bool:
        """ "Five on the hill and five in the draw on the hill nothing in the draw nine": spoken on and on?"""
        return start > self._last_stop

    def again(self, start: int, name: str) -> list[tuple[int, int]]:
        """Where a place is told of again at the start of a clause, with what leads to it and "plants" behind it."""
        return [(k, last + self._noun_behind(last)) for k, last, _ in self._told_behind(start, name)][::-1]

    def told_again(self, start: int, name: str) -> bool:
        """Is a place told of again behind?"""
        return next(self._told_behind(start, name), None) is not None

    def _told_behind(self, start: int, name: str) -> Iterator[tuple[int, int, bool]]:
        """From the last to the first."""
        spoken = start < len(self.pieces) and self.stopless(start)
        behind = itertools.takewhile(lambda at: at[0] >= start + (not spoken), reversed(self._places.get(name, ())))
        return (at for at in behind if at[2] or spoken)

    def _noun_behind(self, last: int) -> bool:
        behind = self.pieces[last] if last < len(self.pieces) else None
        return behind is not None and (self.made.has("noun_one", behind.text) or is_any(behind, ("PLANTS",)))

    def digs(self, rows: list[_Told]) -> bool:
        """Are they plants that were dug: behind digging, told as plants, or as many as were told of before?"""
        first = rows[0].first
        if is_any(self.pieces[first - 1] if first else None, ("DUG",)) or is_any(self.pieces[first + 1], ("PLANTS",)):
            return True
        return self._plants.get(sum(row.plants for row in rows), first) < first - 1


def _found_later(message: _Message, rows: list[_Told]) -> list[Piece]:
    """Places and plants with what was found told behind all of them; nothing where it is not told so."""
    pieces, end = message.pieces, rows[-1].end
    beside = any(last.end < row.first and not _joins(pieces[last.end : row.first]) for last, row in pairwise(rows))
    spoken = end < len(pieces) and is_any(pieces[end], ("SPOT",)) and message.stopless(end)
    again = [(*met, row.shown) for row in rows for met in message.again(end, row.name)]
    ended = end == len(pieces) or pieces[end].kind in ("break", "line") or spoken or pieces[end].text == ":"
    if beside or not (ended or (again and _told_why(pieces, end))):
        return []
    if {name for _, _, name in again} == {row.shown for row in rows}:
        return [*pieces[: rows[0].first], *_placed(rows), *_with_spots(pieces, end, sorted(again))]
    behind = pieces[end:]
    placed = any(is_any(row.at, ("SPOT",)) for row in rows)
    if placed and not again and not _places_behind(behind):
        total = sum(row.plants for row in rows)
        first, at = rows[0].first, rows[-1].at.end
        whole = Piece("number", str(total), pieces[first].start, at, (), total)
        return [*pieces[:first], whole, Piece("word", "", at, at, _PLANTS), *behind]
    return []


def _places_behind(behind: list[Piece]) -> bool:
    """Is a place told behind, of the same field, that is not said of leaves ("older leaves yellow down low")?"""
    leafy = False
    for piece in itertools.takewhile(lambda p: not is_any(p, ("FIELD",)), behind):
        if piece.kind in ("break", "line"):
            leafy = False
        leafy = leafy or is_any(piece, ("TOPS",))
        if is_any(piece, ("CHECK",)) or (is_any(piece, ("SPOT",)) and not leafy):
            return True
    return False


def _told_why(pieces: list[Piece], start: int) -> bool:
    """ "(Five on the right side) because he wanted to see": nothing but words up to the end of the sentence?"""
    rest = pieces[start : _sentence_end(pieces, start)]
    kinds = {"COLOUR", "FEMALES", "NONE", "PLANTS", "DUG", "FIELD", "CHECK"}
    return not any(count_told(piece) is not None or not piece.types.keys().isdisjoint(kinds) for piece in rest)


def _found_each(pieces: list[Piece], rows: list[_Told]) -> list[Piece]:
    """Places and plants, each with its own finding right behind it; nothing where one has none."""
    out: list[Piece] = pieces[: rows[0].first]
    for row, after in zip(rows, [*rows[1:], None], strict=True):
        end = after.first if after else _sentence_end(pieces, row.end)
        found = pieces[row.end : end]
        while after and found and (_joins(found[-1:]) or found[-1].text in anywhere("and_next")):
            found.pop()
        listed = _list_of(found, row.plants)
        if listed is None:
            return []
        out += [_spot(row.shown, row.number.start, row.at.end), *_plants(row)]
        if listed < 0:
            apart = Piece("break", ",", row.at.end, row.at.end, (), "soft")  # "four plants with two" may be two each
            out += found if found[0].kind == "break" else [apart, *found]
        else:
            out += [Piece("sign", ":", row.at.end, row.at.end), *map(in_figures, found[listed:])]
        if after:
            out.append(Piece("break", ",", pieces[end - 1].end, pieces[end - 1].end, (), "soft"))
        else:
            out += pieces[end:]
    return out


def _sentence_end(pieces: list[Piece], n: int) -> int:
    """Where the sentence from n on ends."""
    return next(
        (k for k in range(n, len(pieces)) if pieces[k].kind == "line" or pieces[k].value == "hard"), len(pieces)
    )


def _list_of(found: list[Piece], plants: int) -> int | None:
    """What was found on so many plants: where its list begins, -1 for a count or none; ``None`` for neither."""
    first = next((k for k, p in enumerate(found) if count_told(p) is not None or is_any(p, ("NONE",))), len(found))
    if first == len(found) or any(is_any(p, ("PLANTS", "DUG", "FIELD", "SPOT")) for p in found[:first]):
        return None
    if is_any(found[first], ("NONE",)):
        return -1
    k, numbers = first, 0
    while k < len(found) and (count_told(found[k]) is not None or _joins(found[k : k + 1])):
        numbers += count_told(found[k]) is not None
        k += 1
    if numbers == plants > 1:
        return first
    if numbers == 1 and k == len(found) and count_told(found[first]) == 0:
        return -1  # "3 at the creek 0"
    return -1 if numbers == 1 and k < len(found) and is_any(found[k], ("COLOUR", "FEMALES", "TOTAL")) else None


def _joins(pieces: list[Piece]) -> bool:
    """Nothing but commas, brackets and "and"?"""
    return all(p.value == "soft" or p.text in anywhere("and_then") for p in pieces)


def _plants(row: _Told) -> list[Piece]:
    """So many plants, as two pieces."""
    number = row.number
    return [
        Piece("number", str(row.plants), number.start, number.end, (), row.plants),
        Piece("word", "", number.end, number.end, _PLANTS),
    ]


def _placed(rows: list[_Told]) -> list[Piece]:
    """Each place with its plants behind it."""
    out: list[Piece] = []
    for row in rows:
        out += [_spot(row.shown, row.at.start, row.at.end), *_plants(row)]
        out.append(Piece("break", ",", row.at.end, row.at.end, (), "soft"))
    return out[:-1]


def _with_spots(pieces: list[Piece], at: int, again: list[tuple[int, int, str]]) -> list[Piece]:
    """What stands behind the places with their plants, each of them a place where it is told of again."""
    out: list[Piece] = []
    noun: Piece | None = None
    for n, (first, last, name) in enumerate(again):
        end = again[n + 1][0] if n + 1 < len(again) else _sentence_end(pieces, last)
        out += [*pieces[at:first], _spot(name, pieces[first].start, pieces[last - 1].end)]
        counted = [k for k in range(last, end) if count_told(pieces[k]) is not None]
        at = last
        if len(counted) != 1:
            noun = None
            continue
        k = counted[0]
        behind = pieces[k + 1] if k + 1 < len(pieces) else None
        if is_any(behind, ("COLOUR", "FEMALES")):
            noun = behind
        elif noun is not None and (behind is None or behind.kind in ("break", "line") or k + 1 == end):
            out += [*pieces[last : k + 1], Piece("word", noun.text, pieces[k].end, pieces[k].end, noun.entries)]
            at = k + 1  # "the patch gave 17 females and the good part 2"
    return [*out, *pieces[at:]]


def _spot(name: str, start: int, end: int) -> Piece:
    """A place's name as one piece."""
    return Piece("place", name, start, end, _SPOT)


def _begins(pieces: list[Piece], n: int) -> bool:
    """May a number begin what is told of plants at a place: behind digging, a stop, "and", or with its word behind?"""
    if n == 0 or is_any(pieces[n - 1], ("DUG",)):
        return True
    if is_any(pieces[n + 1] if n + 1 < len(pieces) else None, ("PLANTS",)):
        return True
    return pieces[n - 1].kind in ("break", "line", "sign") or pieces[n - 1].text in anywhere("and_next")


def _rows(message: _Message, n: int, text: str) -> list[_Told]:
    """ "5 [plants] by the gate and 5 [plants] by the creek": each, whatever stands between them in one sentence.

    None where a place is told twice, or too many are.
    """
    rows: list[_Told] = []
    told: set[str] = set()
    while not rows or n < message.ends[rows[0].first]:
        row = _row(message, n, text, told) if not rows or _begins(message.pieces, n) else None
        if row is not None:
            if row.name in told or len(rows) == MOST_PLACES:
                return []
            rows.append(row)
            told.add(row.name)
        elif not rows:
            return []
        n = row.end if row is not None else n + 1
    return rows


def _row(message: _Message, n: int, text: str, before: set[str]) -> _Told | None:
    """ "Five plants down by the gate": so many plants at a place from n on, up to one of the places before it."""
    pieces, made = message.pieces, message.made
    if not 0 < (count_told(pieces[n]) or 0) <= MOST_AT_PLACE:
        return None
    k = n + 1 + is_any(pieces[n + 1] if n + 1 < len(pieces) else None, ("PLANTS", "DUG"))
    stop = k
    while stop < len(pieces) and stop - k <= LONGEST_PLACE and _of_place(pieces[stop]):
        if stop > k and is_any(pieces[stop], ("SPOT",)) and " ".join(_without_lead([pieces[stop]], made)) in before:
            break
        stop += 1
    if k < stop < len(pieces) and is_any(pieces[stop], ("PLANTS",)):
        return None  # "two on the second plant"
    longer = stop - k > LONGEST_PLACE
    stop -= longer
    told = _words(pieces[k:stop])
    name = _without_lead(pieces[k:stop], made)
    if not name:
        return None
    called = _called_again(name, message, stop)
    if longer and not called:
        return None
    if all(made.has("refers_there", word) for word in name):
        meant = _meant(pieces, n)
        return _Told(n, stop, pieces[n], meant, pieces[stop - 1], meant) if meant else None
    if name == told and not (stop - k == 1 and is_any(pieces[k], ("SPOT",))):
        return None
    if called and called != name:
        shown = _as_written(called, pieces[k:stop], text)
        return _Told(n, stop, pieces[n], " ".join(called), pieces[stop - 1], shown)
    shown = _as_written(name, pieces[k:stop], text) if name[-1] == told[-1] else " ".join(name)
    return _Told(n, stop, pieces[n], " ".join(name), pieces[stop - 1], shown)


def _called_again(name: list[str], message: _Message, stop: int) -> list[str]:
    """ "(Five on) the left side just to see. Left side 2 white": the words of a place by which it is told of again.

    Empty where none are.
    """
    runs = [name[:end] for end in range(len(name), 0, -1)] + [name[begin:] for begin in range(1, len(name))]
    places = (run for run in runs if not _leads(run[0], message.made) and not _leads(run[-1], message.made))
    return next((run for run in places if message.told_again(stop, " ".join(run))), [])


def _of_place(piece: Piece) -> bool:
    """May a piece stand in the name of a place, or lead to it?"""
    plain = piece.kind == "word" and piece.text not in anywhere("and_then") and count_told(piece) is None
    return plain and piece.types.keys().isdisjoint(_NO_PLACE)


def _meant(pieces: list[Piece], n: int) -> str:
    """ "A wilted ring by the shed, dug four in it": what "in it" or "there" says, "" for nothing told of."""
    for piece in reversed(pieces[:n]):
        if is_any(piece, ("FIELD",)):
            return ""
        top = piece.types.get("TOP")
        if top is not None and top.value in _SHAPES:
            return piece.text.split(" ")[-1]
    return ""


def _words(pieces: list[Piece]) -> list[str]:
    return [word for piece in pieces for word in piece.text.split(" ")]


def _without_lead(pieces: list[Piece], made: Table) -> list[str]:
    """The words of a place without "down by the" before it; "outside" alone is one."""
    told = _words(pieces)
    begin = next(
        (k for k, word in enumerate(told) if not _leads(word, made) and not _goes_to(told, k, made)), len(told)
    )
    name = told[begin:]
    while len(name) > 1 and made.has("refers_there", name[-1]):
        name = name[:-1]  # "(three) inside it"
    return name or (told[-1:] if pieces and is_any(pieces[-1], ("SPOT",)) else [])


def _goes_to(told: list[str], k: int, made: Table) -> bool:
    """ "Back (by the trees)": a way to go, before what leads to a place."""
    return made.has("way_before_place", told[k]) and k + 1 < len(told) and made.has("lies_by", told[k + 1])


def _as_written(name: list[str], pieces: list[Piece], text: str) -> str:
    """The words of a name as they stand in the text, with their accents."""
    said = written(text, pieces[0].start, pieces[-1].end).split(" ")
    runs = (said[at : at + len(name)] for at in range(len(said) - len(name), -1, -1))
    return next((" ".join(run) for run in runs if [fold(word) for word in run] == name), " ".join(name))


def _leads(word: str, made: Table) -> bool:
    """Does a word lead to a place? "Na beira da estrada": not where it may be one itself."""
    if made.has("lies_by", word) and not made.has("place_lead", word):
        return not any(entry.type == "SPOT" for entry in made.singles.get(word, ()))
    return any(made.has(manner, word) for manner in _LEADS)


def counted_there(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "I counted six white on the first and one on the second": the color behind it makes no sum of it."""
    out = list(pieces)
    for n, piece in enumerate(pieces[:-2]):
        led = n > 0 and made.has("who_counts", pieces[n - 1].text)
        coloured = count_told(pieces[n + 1]) is not None and is_any(pieces[n + 2], ("COLOUR",))
        if led and coloured and "TOTAL" in piece.types:
            out[n] = Piece("word", piece.text, piece.start, piece.end, _HAD, None, piece.spaced)
    return out


def shades_said(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Eleven white and four that I would call yellow", "4 turning yellow": a count of that color, beside another."""
    for n, piece in enumerate(pieces):
        count = count_told(piece)
        if count is None or n + 1 == len(pieces) or not made.has("shade_lead", pieces[n + 1].text.split(" ")[0]):
            continue
        k = n + 1
        while k < len(pieces) and k <= n + LONGEST_SAID and _leads_shade(pieces[k], made):
            k += 1
        shade = _shade(pieces[k], made) if k < len(pieces) else None
        if shade is None or not _counted_before(pieces, n):
            continue
        end = k + 1
        if end + 1 < len(pieces) and made.has("likened", pieces[end].text) and is_any(pieces[end + 1], ("COLOUR",)):
            end += 2  # "more yellow than white"
        told = Piece("number", str(count), piece.start, piece.end, (), count, piece.spaced)
        return [*pieces[:n], told, shade, *shades_said(pieces[end:], made)]
    return pieces


def opened_nodules(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Cut some nodules open and they were all brown", "split nodules, pink": the color behind is that of nodules."""
    for n, piece in enumerate(pieces):
        if not any(made.has("cut_open", word) for word in piece.text.split(" ")):
            continue
        near = range(n + 1, min(n + NODULES_CUT, len(pieces)))
        at = next((k for k in near if is_any(pieces[k], ("NODULES",))), None)
        end = _shade_of_nodules(pieces, at) if at is not None else 0
        if at is None or not end:
            continue
        entries = tuple(entry for entry in pieces[end].entries if entry.type == "NODULE")
        shade = Piece("word", pieces[end].text, pieces[at].end, pieces[end].end, entries)
        return [*pieces[:n], pieces[at], shade, *opened_nodules(pieces[end + 1 :], made)]
    return pieces


def nodules_cut(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Nodules are few, and brown when you cut them": a color that is seen where they are cut is theirs."""
    out = list(pieces)
    nodules = False
    for n, piece in enumerate(pieces):
        if piece.kind == "line" or piece.value == "hard":
            nodules = False
        nodules = nodules or is_any(piece, ("NODULES",))
        entries = tuple(entry for entry in piece.entries if entry.type == "NODULE")
        if not (nodules and entries and is_any(piece, ("COLOUR",))) or count_told(pieces[n - 1]) is not None:
            continue
        words = " ".join(p.text for p in pieces[n + 1 : n + 1 + LONGEST_CUT]).split(" ")
        if any(made.has("when_cut", " ".join(words[:size])) for size in range(1, LONGEST_CUT + 1)):
            out[n] = replace(piece, entries=entries)
    return out


LONGEST_CUT = 4
"""Words of "when you cut them"."""


def _shade_of_nodules(pieces: list[Piece], at: int) -> int:
    """Where the color told of cut nodules stands, with nothing counted or named before it; 0 for none."""
    for k in range(at + 1, min(at + LONGEST_SAID, len(pieces))):
        nodule = pieces[k].types.get("NODULE")
        if nodule is not None and nodule.value in ("pink", "brown"):
            return k
        stop = pieces[k].kind not in ("word", "link") and pieces[k].text not in (",", ":", "-", ".")
        if stop or is_any(pieces[k], ("ROOTS", "PLANTS", "FEMALES", "FIELD")):
            return 0
    return 0


def _leads_shade(piece: Piece, made: Table) -> bool:
    return piece.kind == "word" and all(made.has("shade_said", word) for word in piece.text.split(" "))


def _shade(piece: Piece, made: Table) -> Piece | None:
    """The color a piece is, or ends with: "turning yellow"."""
    if piece.kind != "word":
        return None
    *before, last = piece.text.split(" ")
    entries = tuple(entry for entry in made.singles.get(last, ()) if entry.type == "COLOUR")
    if len(last) == 1 or not entries or not all(made.has("shade_said", word) for word in before):
        return None
    return Piece("word", last, piece.end - len(last), piece.end, entries)


def _counted_before(pieces: list[Piece], n: int) -> bool:
    """Is a color or females counted before, in the same sentence, and are no plants told by this number?"""
    before = pieces[n - 1] if n else None
    if is_any(before, ("DUG", "TOOL")):
        return False
    k, shaded = n - 1, n
    while k >= 0 and not (pieces[k].kind == "line" or pieces[k].value == "hard"):
        if is_any(pieces[k], ("COLOUR",)):
            shaded = k
        if count_told(pieces[k]) is not None and k < shaded <= k + FARTHEST_SHADE:
            return shaded < n
        k -= 1
    return False


def seed_ahead(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Main block, resistance from PI 88788: 4 plants, 5 white": the seed of a place before its name."""
    for n, piece in enumerate(pieces):
        if n and pieces[n - 1].kind not in ("break", "line"):
            continue
        if piece.kind != "word" or is_any(piece, _TELLS_SEED):
            continue
        name = n + sum(1 for _ in itertools.takewhile(_of_place, pieces[n : n + LONGEST_NAME]))
        seed = name + 1
        while seed < len(pieces) and _of_seed(pieces[seed], made):
            seed += 1
        told = any(is_any(p, _TELLS_SEED) for p in pieces[name + 1 : seed])
        if name == n or not told or pieces[name].value != "soft" or is_any(piece, ("CHECK",)):
            continue
        plants = pieces[seed : seed + 3]
        if len(plants) == 3 and plants[0].text == ":" and count_told(plants[1]) and is_any(plants[2], ("PLANTS",)):
            stop = Piece("break", ".", pieces[seed - 1].end, pieces[seed - 1].end, (), "hard")
            return [*pieces[:n], *pieces[name + 1 : seed], stop, *pieces[n:name], *pieces[seed:]]
    return pieces


def _of_seed(piece: Piece, made: Table) -> bool:
    """ "Resistance from PI 88788", "resistant variety"."""
    plain = piece.kind == "word" and not is_any(piece, ("FIELD", "SPOT", "CHECK", "PLANTS", "COLOUR", "DUG"))
    little = is_any(piece, ("LINK",)) or made.has("seed_said", piece.text)
    return plain and (is_any(piece, _TELLS_SEED) or little)


def each_of_shades(pieces: list[Piece]) -> list[Piece]:
    """ "White/yellow by plant: 3/1, 2/0, 4/2": what stands behind the colors is told plant by plant anyway."""
    for n, piece in enumerate(pieces):
        if not is_any(piece, ("EACH",)) or n < 3:
            continue
        before = n - 1
        while before > 2 and is_any(pieces[before], ("LINK",)) and not is_any(pieces[before], ("COLOUR",)):
            before -= 1
        shades = is_any(pieces[before], ("COLOUR",)) and pieces[before - 1].text == "/"
        if not shades or not is_any(pieces[before - 2], ("COLOUR",)):
            continue
        behind = n + 1 + (n + 1 < len(pieces) and pieces[n + 1].text in (":", "="))
        rows = [p for p in pieces[behind : behind + 3] if p.text not in (",", ";")]
        if len(rows) > 1 and all(p.kind in ("ratio", "series", "day") and "/" in p.text for p in rows[:2]):
            return [*pieces[: before + 1], *pieces[n + 1 :]]
    return pieces
