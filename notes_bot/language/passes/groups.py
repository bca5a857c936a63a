"""Plants told by groups: "first three clean, last two had 4 and 7", "4 plants with none, 2 with 5, the rest 0".

Each group says how many plants it is and what was on each of them. A row of such groups becomes plants told one by
one (see ``marks.py``). Where one of them cannot be told plant by plant ("two had 3": together or each?), or the groups
are more or fewer than the plants dug, the row stays as it is.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece, count_told, piece_at
from notes_bot.language.lexicon.times import MOST_PLANTS
from notes_bot.language.lexicon.words import Entry, Table

MOST_GROUPS = 12
"""Groups of one row (judgement)."""
LOOKED_FOR_PLANTS = 30
"""Pieces before, and behind, a row of groups in which its plants may be counted (judgement)."""

LOOKED_FOR_PLACES = 8
"""Pieces before a row in which places may be counted (judgement)."""
LEAST_LISTED = 2
"""Numbers behind a word for the rest of the plants, from which each is of one plant."""

_Told = tuple[int, Piece | None]
"""Females on a plant, with their color if it is told."""
_Count = _Told | None
"""The same; ``None`` for none seen."""
_STOPS = frozenset((",", ";", ".", "-", "&"))
_END = Piece("line", "", 0, 0)
"""Stands past the ends of a text."""


@dataclass(frozen=True, slots=True)
class _Group:
    """So many plants, ``None`` for the rest of them, with what was on each."""

    plants: int | None
    counts: list[_Count]
    """One for each plant, or one that is said of all of them."""
    end: int
    """Where what follows it begins."""
    named: bool
    """Is it said to be plants, or some of them: "first", "of them", "plants"?"""
    tied: bool
    """Does a word tie the count to the plants ("with", "had", "each"), or is it none?"""
    turned: bool = False
    """Is the count told before its plants ("one each on the other 2")?"""

    def spread(self, plants: int) -> list[_Count]:
        """What was on each of so many plants."""
        return self.counts * plants if len(self.counts) == 1 else self.counts


def first_few(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "1st three clean": the first three, and no first of the month."""
    entries = tuple(made.singles.get("first", ()))
    out = list(pieces)
    for n, piece in enumerate(pieces[:-1]):
        few = count_told(pieces[n + 1])
        had = few == 1 and is_any(piece_at(pieces, n + 2), ("HAD",))  # "1st one had 6 the other four clean"
        if entries and piece.kind == "number" and piece.text == "1st" and (had or (few is not None and few > 1)):
            out[n] = Piece("word", "first", piece.start, piece.end, entries)
    return out


def grouped(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with every row of groups as marks and counts."""
    rows = _Rows(pieces, made)
    several = sum("PLANTS" in p.types for p in pieces) > 1
    told = several or any(p.types.keys() & {"NONE", "EACH", "HAD"} for p in pieces)
    words = [p.text for p in pieces]
    if not told and not any(made.has_any(trait, words) for trait in ("rest_none", "which_plants", "group_verb")):
        return pieces
    upon, but = made.has_any("upon_plant", words), made.has_any("all_but", words)
    out: list[Piece] = []
    i = 0
    while i < len(pieces):
        opens = rows.may_open(i)
        nth, end = rows.of_the_nth(i) if opens and upon else ({}, i)
        if not nth and but:
            nth, end = rows.none_but_one(i)
        if nth:
            for n in range(1, max(nth) + 1):
                start = pieces[i].start if n == 1 else pieces[end - 1].end
                out += _marked(n, nth.get(n, ()), start, pieces[end - 1].end)
            i = end
            continue
        row = rows.row(i) if opens else []
        counts = rows.told(i, row) if len(row) > 1 else None
        if counts is None:
            out.append(pieces[i])
            i += 1
            continue
        first, last = pieces[i], pieces[row[-1].end - 1]
        out = _with_plants(out, len(counts))
        for n, count in enumerate(counts, 1):
            out += _marked(n, (count,) if count else (), first.start if n == 1 else last.end, last.end)
        i = row[-1].end
    return out


def _marked(n: int, counts: Collection[_Told], start: int, end: int) -> list[Piece]:
    """The mark of one plant, with what was on it: each color with its count, or zero."""
    out = [Piece("mark", "", start, end, (), n, True)]
    for number, colour in counts or ((0, None),):
        out.append(Piece("number", str(number), end, end, (), number))
        if colour is not None:
            out.append(Piece("word", colour.text, end, end, colour.entries))
    return out


def _with_plants(pieces: list[Piece], dug: int) -> list[Piece]:
    """ "Got 5 from Kestrel. 3 clean, other 2 had 4 and 6": as many as are told one by one are the plants."""
    for n in range(len(pieces) - 2):
        from_field = "LINK" in pieces[n + 1].types and any("FIELD" in p.types for p in pieces[n + 2 : n + 4])
        if pieces[n].value == dug and pieces[n].kind == "number" and from_field:
            at = pieces[n].end
            return [*pieces[: n + 1], Piece("word", "", at, at, (Entry("PLANTS", "plants"),)), *pieces[n + 1 :]]
    return pieces


class _Rows:
    """Finds the rows of groups in one text."""

    def __init__(self, pieces: list[Piece], made: Table) -> None:
        self.ps = pieces
        self.made = made
        self.left: int | None = None
        """Plants dug that no group of the row being read has told of; ``None`` where it is not known."""

    def at(self, i: int) -> Piece:
        """The piece at an index; the end of a line past the ends."""
        return self.ps[i] if 0 <= i < len(self.ps) else _END

    def has(self, i: int, *traits: str) -> bool:
        """Has the piece there one of these manners?"""
        text = self.at(i).text
        for trait in traits:  # noqa: SIM110 - a loop, as it is asked so often
            if self.made.has(trait, text):
                return True
        return False

    def is_any(self, i: int, kinds: Collection[str]) -> bool:
        """Can the piece there be a word of one of these kinds?"""
        return 0 <= i < len(self.ps) and not self.ps[i].types.keys().isdisjoint(kinds)

    def number(self, i: int) -> int | None:
        """The whole number there, in figures or as a word."""
        piece = self.at(i)
        return 2 if piece.kind != "number" and self.has(i, "two_of") else count_told(piece)

    def _or_none(self, i: int) -> int | None:
        """The number there, or 0 for none."""
        return 0 if self.is_any(i, ("NONE",)) else self.number(i)

    def may_open(self, i: int) -> bool:
        """A row begins with a clause, or right behind a name or a count of plants."""
        led = self.is_any(i - 1, ("FIELD", "PLANTS", "DUG", "LINK", "HAD", "FEMALES"))
        if (not led and self.at(i - 1).kind not in ("break", "line", "sign")) or self.at(i - 1).text == "#":
            return False
        if self.is_any(i - 1, ("COLOUR",)) and self.number(i - 2) is not None:
            return False  # "3 w 1 y on the first"
        if self.number(i) is not None or self.is_any(i, ("NONE",)):
            return True
        return self.has(i, "which_plants", "rest_of_plants", "rest_none", "group_article")

    def row(self, i: int) -> list[_Group]:
        """Groups one behind the other, from here on."""
        row: list[_Group] = []
        start, self.left = i, None
        while len(row) < MOST_GROUPS and (group := self._group(i, opened=bool(row))) is not None:
            row.append(group)
            i = group.end
            dug = self._dug(start, i)
            self.left = None if dug is None else dug - sum(told.plants or 0 for told in row)
            then = False
            while self.at(i).text in _STOPS or self.has(i, "and_then"):
                then = then or self.at(i).kind == "word"
                i += 1
            listed = self._listed(i) if then else None
            if listed is not None:
                row.append(listed)
            if listed is not None or group.plants is None:
                break
        return row

    def of_the_nth(self, i: int) -> tuple[dict[int, Collection[_Told]], int]:
        """ "Two females on the first plant, one on the fourth": plants told by their place, and where the row ends.

        Two and more of them, and none beyond the plants dug; the others had none.
        """
        start = end = behind = i
        found: dict[int, Collection[_Told]] = {}
        while self._or_none(i) is not None:
            counts, i = self._by_color(i)
            if not self.has(i, "upon_plant"):
                break
            places, i = self._places(i + 1, weekday=bool(found))
            if not places or (len(places) > 1 and counts) or found.keys() & set(places):
                break
            found |= dict.fromkeys(places, counts)
            if not self._ends(i):
                return {}, start
            end = i
            while self.at(i).text in _STOPS or self.has(i, "and_then"):
                i += 1
            behind = i
        if len(found) < 2:
            return {}, start
        others = self._turned(behind) or self._group(behind, opened=True)
        rest = others is not None and others.counts == [None]
        if rest and others is not None:
            end = others.end
        dug = self._dug(start, end)
        if dug is None or max(found) > dug or dug > MOST_PLANTS or self._places_before(start):
            return {}, start
        if rest and others is not None and others.plants not in (None, dug - len(found)):
            return {}, start  # "none on the other three", where two more or four were dug
        return {n: found.get(n, ()) for n in range(1, dug + 1)}, end

    def _places_before(self, start: int) -> bool:
        """ "5 plants at two places. 3 white on the first one, ..": is it the first of the places?"""
        before = range(max(1, start - LOOKED_FOR_PLACES), start)
        return any(self.has(k, "place_unit") and self.number(k - 1) is not None for k in before)

    def _noun_one(self, i: int) -> bool:
        """The "one" of "on the first one", which counts nothing, be it put aside already."""
        one = self.has(i, "nth_noun") or self.at(i).kind == "aside"
        return one and not self.is_any(i + 1, ("COLOUR", "FEMALES"))

    def _by_color(self, i: int) -> tuple[list[_Told], int]:
        """What one plant had from here on, "3 white 1 yellow", and where what follows begins; nothing for none."""
        counts: list[_Told] = []
        while (number := self._or_none(i)) is not None and (not counts or counts[-1][1] is not None):
            colour = self.at(i + 1) if self.is_any(i + 1, ("COLOUR",)) else None
            if counts and colour is None:
                break
            i += 1 + (colour is not None)
            i += self.is_any(i, ("FEMALES",))
            counts.append((number, colour))
            joined = self.at(i).text in (",", "&", "+") or self.has(i, "and_word")
            if joined and self.number(i + 1) is not None and self.is_any(i + 2, ("COLOUR",)):
                i += 1
        return [count for count in counts if count[0]], i

    def _places(self, i: int, weekday: bool) -> tuple[list[int], int]:
        """The plants told by their place from here on, "the third and the fourth", and where what follows begins."""
        places: list[int] = []
        end = i
        while True:
            while self._little(i):
                i += 1
            numbered = self.at(i).text == "#" or (self.is_any(i, ("PLANTS",)) and not self.at(i).text.endswith("s"))
            i += numbered
            nth = self.number(i) if numbered else self._nth(i, weekday=weekday or bool(places))
            if not nth or nth in places:
                return places, end
            places.append(nth)
            i += 1
            i += self._of_plants(i) or self._noun_one(i)
            end = i
            if not (self.at(i).text in (",", "&") or self.has(i, "and_word")):
                return places, end
            i += 1

    def none_but_one(self, start: int) -> tuple[dict[int, Collection[_Told]], int]:
        """ "All zeros except the fourth which had 6": one plant by its place, none on the others of those dug."""
        i = start + self.is_any(start, ("MOSTLY",))
        if not (self.is_any(i, ("NONE",)) or self.number(i) == 0):
            return {}, start
        i += 1
        if not self.has(i, "all_but"):
            return {}, start
        i += 1
        while self._little(i) or self.has(i, "all_but_tail", "upon_plant"):
            i += 1
        marked = self.is_any(i, ("PLANTS",)) and self.number(i + 1) is not None
        last = self.has(i, "last_plant") and not marked
        nth = self.number(i + 1) if marked else None if last else self._nth(i, weekday=True)
        if nth is None and not last:
            return {}, start
        i += 1 + marked
        i += not marked and (self._of_plants(i) or self.has(i, "nth_noun"))
        while self.at(i).text in (",", ":", "(") or self.has(i, "which", "it_word") or self._had(i):
            i += 1
        number = self.number(i)
        if not number:
            return {}, start
        i += 1
        colour = self.at(i) if self.is_any(i, ("COLOUR",)) else None
        i += colour is not None
        i += self.is_any(i, ("FEMALES",))
        i += self.at(i).text == ")"
        dug = self._dug(start, i)
        if not self._ends(i) or dug is None or dug > MOST_PLANTS:
            return {}, start
        nth = dug if last or nth is None else nth
        counts: dict[int, Collection[_Told]] = dict.fromkeys(range(1, dug + 1), ())
        counts[nth] = ((number, colour),)
        return (counts, i) if 0 < nth <= dug else ({}, start)

    def _had(self, i: int) -> bool:
        return self.is_any(i, ("HAD",)) or self.has(i, "group_verb")

    def _nth(self, i: int, weekday: bool) -> int | None:
        """The order a word gives; behind another one "quarta" is the fourth and no Wednesday."""
        piece = self.at(i)
        word = piece.types.get("ORDINAL") or piece.types.get("NTH")
        if word is None and weekday and piece.kind == "day":
            word = next((entry for entry in self.made.singles.get(piece.text, ()) if entry.type == "NTH"), None)
        return None if word is None else int(word.value)

    def told(self, start: int, row: list[_Group]) -> list[_Count] | None:
        """What each plant of a row had; ``None`` when it is no such row, or does not fit the plants dug."""
        known = sum(group.plants or 0 for group in row)
        dug = self._dug(start, row[-1].end)
        if row[-1].plants is None and (dug is None or dug <= known):
            return None
        fits = dug == known and any(group.tied for group in row)
        if dug is None and any(group.turned for group in row):
            return None
        listed = len(row) > 2 and all(group.named for group in row)  # "1 pl 12, 1 pl 4, 1 pl 0"
        clean = row[0].counts == [None] and all(group.tied for group in row)  # "4 clean and 2 with 5 white each"
        if not (fits or listed or clean or any(group.named and group.tied for group in row)):
            return None
        if all(group.counts == [None] for group in row):
            return None
        told: list[_Count] = []
        for group in row:
            told += group.spread(group.plants if group.plants is not None else (dug or 0) - known)
        return told if 1 < len(told) <= MOST_PLANTS and dug in (None, len(told)) else None

    # --- one group

    def _group(self, i: int, opened: bool) -> _Group | None:
        """The group that begins here."""
        if (turned := self._turned(i)) is not None:
            return turned
        start = i
        while self.has(i, "group_article") and not self._one_that(i):
            i += 1
        value = self.number(i)
        if opened and i > start and self.has(i - 1, "one") and value is not None and self._ends(i + 1):
            return _Group(1, [(value, None)], i + 1, named=False, tied=True)  # "four zeros, a 2 and a 3"
        if self.has(i, "rest_none"):
            return _Group(None, [None], i + 1, named=True, tied=True)
        rest = self.has(i, "rest_of_plants")
        behind = i if self.has(i - 1, "others_plural") else i + 1
        if opened and (rest or behind == i) and (one_by_one := self._rest_listed(behind)) is not None:
            return one_by_one
        plants, named, i = (None, True, i + 1) if rest else (0, False, i)
        fine = False
        while True:
            told = self.number(i) if plants == 0 and not (named and self.is_any(i + 1, ("COLOUR",))) else None
            if told is not None and 0 < told <= MOST_PLANTS:
                plants = told
            elif self.has(i, "which_plants") or ((plants or named) and self._of_plants(i)):
                named = True
            elif plants and self.has(i, "of_word") and self.has(i + 1, "them"):
                named, i = True, i + 1
            elif plants and self.has(i, "fine_plants"):
                fine, named = True, True  # "3 good plants and 2 with 6 each", "3 plants fine and .."
            else:
                break
            i += 1
        if fine and self.has(i, "and_word") and self.number(i + 1) is not None:
            return _Group(plants, [None], i, named, tied=True)
        if plants == 0 and not named:
            return None
        others = plants == 0 and opened and self.has(i - 1, "others_plural")  # "as outras nada"
        return self._with_counts(i, None if others else 1 if plants == 0 else plants, named, opened)  # "the next 0"

    def _rest_listed(self, i: int) -> _Group | None:
        """ "(First three clean,) others 2 4 and 1 white", "the other four 2 4 1 3": the rest told one by one."""
        while self.is_any(i, ("HAD",)) or self.has(i, "group_verb") or self.at(i).text in (":", "="):
            i += 1
        counts, end = self._counts(i, MOST_PLANTS, spaced=True)
        if len(counts) < LEAST_LISTED or not self._ends(end):
            return None
        if self.left == len(counts):
            told = counts
        elif self.left == len(counts) - 1 == counts[0][0]:
            told = counts[1:]  # "las otras 2: 4 y 1"
        else:
            return None
        last = told[-1][1]
        plants: list[_Count] = [(number, colour or last) if number else None for number, colour in told]
        return _Group(len(told), plants, end, named=True, tied=True)

    def _turned(self, i: int) -> _Group | None:
        """ "None on 7", "one white each on the other 2", "2 on each of the rest": the count before its plants."""
        count: _Count = None
        each = self.is_any(i, ("NONE",))
        if not each:
            number = self.number(i)
            colour = self.at(i + 1) if self.is_any(i + 1, ("COLOUR",)) else None
            if number is None:
                return None
            count = (number, colour)
            i += colour is not None
        i += 1
        i += self.is_any(i, ("FEMALES",))
        upon = False
        while self.is_any(i, ("EACH",)) or self.has(i, "upon_plant"):
            each, upon = each or self.is_any(i, ("EACH",)), upon or self.at(i).text != "each"
            i += 1
        if not upon and not (count is None and self._little(i)):  # "none on any of the others"
            return None
        rest = one = False
        while self._little(i) or self.has(i, "which_plants", "rest_of_plants"):
            rest = rest or self.has(i, "rest_of_plants", "others_plural")
            one = one or self.has(i, "which_plants")
            i += 1
        plants = self.number(i)
        i += plants is not None
        i += self._of_plants(i)
        if plants is None:
            plants = 1 if one and not rest else None
            if not (one or rest):
                return None
        if not (each or plants == 1) or not self._ends(i):
            return None
        return _Group(plants, [count], i, named=one or rest, tied=True, turned=True)

    def _little(self, i: int) -> bool:
        """ "The", "of the": words that lead to the plants of a group."""
        piece = self.at(i)
        little = self.made.traits.get("group_article", ()), self.made.traits.get("of_word", ())
        if piece.kind != "word" or self.number(i) is not None:
            return False
        return all(any(word in words for words in little) for word in piece.text.split(" "))

    def _one_that(self, i: int) -> bool:
        """ "Una tiene dos": a number and no article, where a word for having stands behind it."""
        return self.number(i) is not None and (self.is_any(i + 1, ("HAD",)) or self.has(i + 1, "group_verb"))

    def _of_plants(self, i: int) -> bool:
        return self.is_any(i, ("PLANTS",)) or self.has(i, "of_them")

    def _with_counts(self, i: int, plants: int | None, named: bool, opened: bool) -> _Group | None:
        """The group, with what was on each of its plants."""
        verb = ""
        while self.is_any(i, ("HAD",)) or self.has(i, "group_verb") or self.at(i).text in (":", "="):
            verb, i = self.at(i).text, i + 1
        if not verb and self.at(i).text == "w" and self.at(i + 1).text == "/":
            verb, i = "with", i + 2
        i += self.is_any(i, ("ABOUT",)) and self.number(i + 1) is not None
        if self.is_any(i, ("NONE",)):
            i += 1 + self.is_any(i + 1, ("FEMALES",))
            return _Group(plants, [None], i, named, tied=True) if self._ends(i) else None
        counts, i = self._counts(i, plants or 1, spaced=named and opened)
        each = self.is_any(i, ("EACH",))
        i += each
        if len(counts) == 1 and counts[0][0] == 0 and self._ends(i):
            return _Group(plants, [None], i, named, tied=True)  # "one had 12, the rest 0"
        fewer = (
            bool(counts) and verb not in (":", "=") and 0 < counts[0][0] < (plants or 1)
        )  # "two had 1": no less than one on each
        together = len(counts) == 1 and not (each or plants == 1 or fewer or self.made.has("group_with", verb))
        if not counts or together or not self._ends(i) or (len(counts) > 1 and (len(counts) != plants or each)):
            return None
        last = counts[-1][1]
        told: list[_Count] = [(number, colour or last) for number, colour in counts]  # "had 4 and 7 white"
        return _Group(plants, told, i, named, tied=bool(verb) or each)

    def _counts(self, i: int, most: int, spaced: bool = False) -> tuple[list[tuple[int, Piece | None]], int]:
        """Numbers with their colors, at most so many, and where what follows begins; none where plants are counted.

        With `spaced` also those with nothing between them ("2 4 1").
        """
        counts: list[tuple[int, Piece | None]] = []
        end = i
        while len(counts) < most and (number := self.number(i)) is not None:
            if counts and (self.is_any(i + 1, ("HAD",)) or self.has(i + 1, "group_verb")):
                break  # "two with 1 and one with 4"
            i += 1
            if self.is_any(i, ("PLANTS",)):
                return [], end
            i += self.is_any(i, ("FEMALES",))
            colour = self.at(i) if self.is_any(i, ("COLOUR",)) else None
            i += colour is not None
            i += self.is_any(i, ("FEMALES",))
            counts.append((number, colour))
            end = i
            while self.at(i).text in (",", "&", "-", "/") or self.has(i, "and_word"):
                i += 1
            if i == end and not (spaced and colour is None):
                break
        return counts, end

    def _listed(self, i: int) -> _Group | None:
        """ "First one had 3, next 0, then 4, 1, 1": what is left of the plants as a plain list."""
        counts: list[_Count] = []
        while len(counts) < MOST_PLANTS and (number := self._or_none(i)) is not None:
            counts.append((number, None) if number else None)
            i += 1
            k = i
            while self.at(k).text in (",", "&") or self.has(k, "and_then"):
                k += 1
            i = k if self._or_none(k) is not None else i
        if self.has(i, "upon_plant"):  # "and 3 on the last"
            i += 1
            while self.has(i, "group_article", "which_plants") or self._of_plants(i):
                i += 1
        if len(counts) < 2 or not self._ends(i):
            return None
        return _Group(len(counts), counts, i, named=False, tied=False)

    def _ends(self, i: int) -> bool:
        """Nothing more is said of the group: a stop, a line, a joining word, the next group, the end."""
        if self.at(i).kind in ("break", "line", "sign") or self.has(i, "and_then", "which_plants", "rest_of_plants"):
            return True
        return self.has(i, "group_article") and self.has(i + 1, "which_plants")

    def _dug(self, start: int, end: int) -> int | None:
        """The plants counted near a row of groups, in the same note."""
        beside = ("PLANTS", "DUG", "TOOL")
        for i in range(start - 1, max(-1, start - LOOKED_FOR_PLANTS), -1):
            if self.is_any(i, ("FIELD",)):
                counted = self.number(i - 2) is not None and self.is_any(
                    i - 3, ("DUG",)
                )  # "saqué cinco de la loma: .."
                if self.is_any(i - 1, ("LINK",)) and (counted or self.is_any(i - 2, ("PLANTS",))):
                    continue  # "dug five plants in kestrel: three on the first, .."
                break
            after = i + 1 < start and self.is_any(i + 1, beside)
            taken = self.is_any(i + 1, ("COLOUR", "FEMALES")) or self.number(i - 2) is not None  # "6 plants 3 white"
            if self.at(i).kind == "number" and (after or (self.is_any(i - 1, beside) and not taken)):
                return self.number(i)
        for i in range(end, end + LOOKED_FOR_PLANTS):
            if self.is_any(i, ("FIELD",)):
                break
            if self.at(i).kind == "number" and self.is_any(i + 1, ("PLANTS",)):
                return self.number(i)
        return None
