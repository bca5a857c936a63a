"""Which of its meanings a word has here: its neighbours decide.

Every kind of word that can be something else has a method named after it; it emits the token, or returns 0 for
"not that". Kinds are tried in the order of ``ORDER``; what no kind claims is free text. Nothing is corrected
without a slip noted for the answer, and numbers are never corrected.
"""

from __future__ import annotations

import itertools
import re
from dataclasses import replace
from typing import Any

from notes_bot.language.days import UNIT_DAYS, DayWritten
from notes_bot.language.dictation import heard_number
from notes_bot.language.joining import claims, is_any, linking, neighbour, neighbour_index, number_like
from notes_bot.language.keyed import SAMPLE
from notes_bot.language.mending import ordinary
from notes_bot.language.naming import FieldName, Names, joints, written
from notes_bot.language.pieces import Piece
from notes_bot.language.scan import NTH_ENDS, fold
from notes_bot.language.tokens import Draft, Slip, Word
from notes_bot.language.words import COMMAND_TYPES, NEAR_TYPES, Entry, Table, anywhere, near_words
from notes_bot.model import COLOURS, LANGUAGES

ORDER = (
    *(
        "TEXT",
        "SOURCE",
        "NOT_LOOKED",
        "SOAKED",
        "HAD",
        "NONE",
        "NOT",
        "COLOUR",
        "FEMALES",
        "EACH",
        "PLANTS",
        "DUG",
        "TOOL",
    ),
    *(
        "TOTAL",
        "NODULES",
        "NODULE",
        "ROOTS",
        "ROOT",
        "CHECK",
        "SPOT",
        "TOO_MANY",
        "MOSTLY",
        "BELOW",
        "MOISTURE",
        "TEXTURE",
    ),
    *("PH", "POTASSIUM", "PPM", "RESISTANCE", "VARIETY", "CHEMICAL", "SPRAY", "ENTRY", "AFTER", "AGO", "LOOK", "WHICH"),
    *("PLANTED", "DAP", "SAME", "COURTESY", "VEINS", "EDGES", "NEW", "OLD", "BANDS", "GREEN", "TOPS", "TOP", "FIELD"),
)
_RANK = {name: n for n, name in enumerate(ORDER)}
COUNTED = frozenset({"COLOUR", "PLANTS", "FEMALES", "EACH", "DUG", "TOTAL"})
LEAFY = frozenset({"TOPS", "EDGES", "VEINS", "NEW", "OLD", "BANDS"})
EDGE_WORDS = 4
"""Words behind "edge of" in which a place or a leaf is looked for (judgement)."""
TOOL_BEHIND = 6
"""Pieces before a tool in which it is said that it was of no use, "too wet to use the spade" (judgement)."""
LOOK_AHEAD = 8
"""Pieces behind "look again" in which its day or time is looked for (judgement)."""
LOOKED_BACK = 30
"""Words looked back at for the plants that were told (judgement)."""
LITTLE_BEFORE_COUNT = 5
"""Stops and little words between a place and what was found there, ", and those had only" (judgement)."""
LOOKED_AHEAD = 60
"""Pieces behind a place in which it may be told of again (judgement)."""
MOST_PLACES = 12
"""Places of one note that may be told with their plants first (judgement)."""
MOST_WEEKS = 12
"""More weeks than these nobody waits to check again (judgement)."""
SHORTENED = 4
"""Letters of a word cut short with a stop: "var.", "cult." (judgement)."""
MOST_BARE_PLANTS = 20
"""Plants a small bare number between a field and a glued count may mean: "tinkers 5 3w" (judgement)."""
MAKERS_LETTERS = range(2, 5)
"""Letters of a maker's short name in the name of a seed (judgement)."""
_SPOKEN = frozenset("aeiouy")
"""Letters that a word that is spoken has one of."""
LEAST_LOW_CODE = 10
"""The least number of a seed named by small letters that spell no word, as "mw 19" (judgement)."""
LEAST_SEED = 10
"""The smallest number of a variety's name before the crop; fewer are plants (judgement)."""
LEAST_CODE = 100
"""A smaller number behind such letters may count something (judgement)."""
MOST_OF_PLANTS = 40
"""More plants than this are dug by nobody (judgement)."""
NEAR_SOIL = 3
"""Pieces before "dry" in which a word for the ground says that it is dry (judgement)."""
COLORS_BEHIND = 6
"""Pieces behind "didn't look" in which it is said at what (judgement)."""
NODULES_NEAR = 4
"""Pieces behind "a lot of" in which the nodules stand (judgement)."""
CROP_AHEAD = 6
"""Pieces before "yellow" in which it is said of what (judgement)."""
LEAST_PH, MOST_PH = 3, 10
"""Of soils (common knowledge, no source)."""
USUAL_HOURS = frozenset({4, 8, 12, 24, 36, 48, 72})
"""Hours of a restricted entry; told without a unit they are no days (common practice, no source)."""
MOST_COUNTED = 49_999
"""A number larger than this beside another is a telephone's (judgement)."""
MOST_BY_LETTER = 1999
"""More females than this are no count behind a letter, but a name's number (judgement)."""
MOST_HEARD_ALONE = 2
"""Only words for more than this are heard as plants: "to plants" is no two of them (judgement)."""
_HEARD_BEHIND = frozenset({"PLANTS", "COLOUR", "SOAKED", "NUMBER", "STAGE", "TOOL", "DUG", "HAD"})
"""What a count may stand behind, so that "for white" is four of them."""
PLACED = frozenset({"MOISTURE", "COLOUR", "TEXTURE"})
"""Kinds of word that are also parts of place names."""


def stage(text: str) -> str:
    """V4, R2.5: the stage as we keep it; a range is its middle; V12 and R1 at once are both kept, with a slash."""
    numbers = [float(n) for n in re.findall(r"\d+(?:\.\d)?", text)]
    letters = re.findall(r"[vr](?=[ ]?\d)", text)
    if not numbers:
        return text.upper()
    if len(letters) > 1 and letters[0] != letters[1]:
        return f"{letters[0].upper()}{numbers[0]:g}/{letters[1].upper()}{numbers[1]:g}"
    middle = (numbers[0] + numbers[1]) / 2 if len(numbers) > 1 else numbers[0]
    return f"{text[0].upper()}{middle:g}"


def _small(word: Word) -> bool:
    return isinstance(word.value, int) and 0 < word.value <= MOST_BARE_PLANTS


def letter_of(piece: Piece) -> bool:
    """Is it a letter only?"""
    return len(piece.text) == 1


def numbered_by(piece: Piece | None) -> bool:
    """Is it a number?"""
    return piece is not None and piece.kind in ("number", "range")


class Senses:
    """Tokens of one text, without the breaks the chains put between numbers."""

    def __init__(self, draft: Draft, names: Names, found: dict[int, FieldName], made: Table) -> None:
        self.draft = draft
        self.ps = draft.pieces
        self.names = names
        self.found = found
        self.first_name = min(found, default=len(draft.pieces))
        self.named = frozenset(found) | {name.last - 1 for name in found.values()}
        self.made = made
        self.out: list[Word] = []
        self.lead = "hard"
        self.variety_open = False
        self.near_shown = ""
        self.series_end = 0
        self.comma_places: list[int] | None = None
        self.of_plants = -1
        """Where the second number of "5 of 10" stands when it counts plants."""
        self.i = 0
        self.piece = self.ps[0]
        self.entry = Entry("TEXT", "text")

    def run(self) -> list[Word]:
        """All tokens, each with what stands before it."""
        i = 0
        while i < len(self.ps):
            name = self.found.get(i)
            if name is None:
                i += self._one(i)
                continue
            called = name.called or written(self.draft.text, name.start, name.end)
            self._emit("FIELD", called, name.start, name.end, lead="hard")
            self._label_behind_name()
            if name.also:
                self.draft.together[name.start] = name.also
            i = name.last
            following = self.ps[i].text if i < len(self.ps) else ""
            self.lead = "soft" if following in (":", "-", ",") else ""
        self._lighter_brown()
        self._plants_head_a_list()
        self._bare_plants()
        self._counts_before_places()
        return self.out

    def _bare_plants(self) -> None:
        """ "Tinkers 5 3w": a small number between the field and a glued count of a color is plants, and said so."""
        out: list[Word] = []
        for n, word in enumerate(self.out):
            out.append(word)
            if n == 0 or word.type != "NUMBER" or self.out[n - 1].type != "FIELD" or not _small(word):
                continue
            count, colour = [*self.out[n + 1 : n + 3], None, None][:2]
            glued = count is not None and colour is not None and count.type == "NUMBER" and colour.type == "COLOUR"
            if (
                not glued
                or count is None
                or colour is None
                or count.end != colour.start
                or count.lead not in ("", "soft")
            ):
                continue
            rest = itertools.takewhile(lambda other: other.type != "FIELD", self.out[n + 1 : n + LOOKED_BACK])
            if not any(other.type in ("PLANTS", "DUG", "EACH") for other in rest):
                out.append(Word("PLANTS", "plants", word.end, word.end, ""))
                plants = self.made.first["PLANTS", "plants"]
                self.draft.slips.append(Slip("near_word", f"{word.value} {plants}", word.start, word.end))
        self.out = out

    def _plants_head_a_list(self) -> None:
        """ "plantas: 1 2 0 4, todas blancas": the word before the colon heads a list, one number a plant."""
        for n, word in enumerate(self.out):
            if word.type != "PLANTS":
                continue
            row = [other.type for other in self.out[n + 1 : n + 4]]
            before = self.out[n - 1].type if n else ""
            if row != ["NUMBER"] * 3 or before in ("NUMBER", "DUG", "EACH", "TOTAL"):
                continue
            tied = all(other.lead in ("", "soft") for other in self.out[n + 2 : n + 4])
            if ":" in self.draft.text[word.end : self.out[n + 1].start] and tied:
                word.type, word.value = "TEXT", None

    def _counts_before_places(self) -> None:
        """ "3 pl dentro 25 b, 3 pl fora 2 b": the plants before each place are that place's own."""
        places = [n for n, word in enumerate(self.out) if word.type in ("SPOT", "CHECK")]
        heads = [self._count_before(n) for n in places]
        if any(head is None for head in heads):
            listed = self._told_ahead(places, heads)
            places, heads = places[:listed], heads[:listed]
        if not places:
            return
        for n, head in sorted(zip(places, heads, strict=True), reverse=True):
            at = head if head is not None else n
            place, counted = self.out[n], self.out[at:n]
            if len(counted) == 1:
                counted.append(Word("PLANTS", "plants", counted[0].end, counted[0].end, ""))
            lead = counted[0].lead
            place.lead, counted[0].lead = ("soft" if lead in ("", "link") else lead), ""
            self.out[at : n + 1] = [place, *counted]

    def _told_ahead(self, places: list[int], heads: list[int | None]) -> int:
        """How many places are told with their plants first, to be told of again in later sentences; 0 for none.

        "4 from the north end and 4 from the south end. North end was 16 white .. South end was 0."
        """
        names = [str(self.out[n].value) for n in places[: 2 * MOST_PLACES]]
        first = next((k for k, name in enumerate(names) if name in names[:k]), 0)
        again = names[first:]
        told = first > 1 and all(head is not None for head in heads[:first]) and set(again) <= set(names[:first])
        return first if told else 0

    def _count_before(self, n: int) -> int | None:
        """Where the count of plants right before a place begins, when the place has none of its own behind it."""
        if self.out[n].lead not in ("", "link"):
            return None
        at = n - 2 if n and self.out[n - 1].type == "PLANTS" else n - 1
        if at < 0 or self.out[at].type != "NUMBER":
            return None
        if at > 1 and self.out[at - 1].type == "OVER" and self.out[at - 2].type in ("COLOUR", "FEMALES"):
            return None  # "3 white on four plants near the lane": the plants are those of the count before
        beside = at > 0 and self.out[at - 1].type in ("NUMBER", "COLOUR", "PLANTS")
        if beside and self.out[at].lead in ("", "link"):
            return None
        behind = [word.type for word in self.out[n + 1 : n + 3]]
        return None if "PLANTS" in behind or "DUG" in behind else at

    def _lighter_brown(self) -> None:
        """ "5 castanhas e 2 marrons": where two words for brown are counted, the lighter one is tan."""
        browns = [w for w in self.out if w.type == "COLOUR" and w.value == "brown"]
        light = [w for w in browns if self.made.has("tan_beside_brown", fold(w.text))]
        told = any(w.type == "COLOUR" and w.value == "tan" for w in self.out)
        if not told and light and len(light) < len(browns):
            for word in light:
                word.value = "tan"
                self.draft.slips.append(Slip("near_word", self.made.first["COLOUR", "tan"], word.start, word.end))

    # --- small helpers

    def _emit(self, type_: str, value: Any, start: int, end: int, lead: str | None = None) -> int:
        text = self.draft.text[start:end]
        self.out.append(Word(type_, value, start, end, text, self.lead if lead is None else lead))
        self.lead = ""
        return 1

    def take(self, type_: str | None = None, value: Any = None) -> int:
        """The piece at hand as a token, its slip noted."""
        if self.entry.slip:
            self._slip("near_word", self.made.first.get((self.entry.type, self.entry.value), self.entry.value))
        return self._emit(
            type_ or self.entry.type, self.entry.value if value is None else value, self.piece.start, self.piece.end
        )

    def _slip(self, kind: str, read: str, piece: Piece | None = None) -> None:
        at = piece or self.piece
        self.draft.slips.append(Slip(kind, read, at.start, at.end))

    def text(self) -> int:
        """The piece at hand as free text."""
        return self._emit("TEXT", None, self.piece.start, self.piece.end)

    def at(self, i: int) -> Piece | None:
        """The piece at an index unless it is past the ends or part of a field's name."""
        return self.ps[i] if 0 <= i < len(self.ps) and i not in self.named else None

    def direct_index(self, i: int, step: int) -> int:
        """Index of the very next piece, signs that only glue left out (may be past the ends)."""
        j = i + step
        while 0 <= j < len(self.ps) and self.ps[j].kind == "sign":
            j += step
        return j

    def direct(self, i: int, step: int) -> Piece | None:
        """The very next piece, signs that only glue left out."""
        return self.at(self.direct_index(i, step))

    def near(self, i: int, step: int) -> Piece | None:
        """The next piece of the clause that carries meaning."""
        j = neighbour_index(self.ps, i, step)
        return None if j is None else self.at(j)

    @property
    def before(self) -> Piece | None:
        """What stands right before the piece at hand."""
        return self.direct(self.i, -1)

    @property
    def after(self) -> Piece | None:
        """What stands right behind the piece at hand."""
        return self.direct(self.i, 1)

    @property
    def near_before(self) -> Piece | None:
        """What carries meaning before the piece at hand."""
        return self.near(self.i, -1)

    @property
    def near_after(self) -> Piece | None:
        """What carries meaning behind the piece at hand."""
        return self.near(self.i, 1)

    def has(self, trait: str) -> bool:
        """Has the piece at hand this manner (see [TRAIT] in the word files)?"""
        return self.made.has(trait, self.piece.text)

    def colon_at(self, i: int) -> bool:
        """Does a colon or an equals sign stand there?"""
        return i < len(self.ps) and self.ps[i].text in (":", "=")

    def is_number(self, piece: Piece | None) -> bool:
        """Is it a number or a range?"""
        return piece is not None and piece.kind in ("number", "range")

    def unknown(self, piece: Piece | None) -> bool:
        """A word no table has?"""
        return piece is not None and piece.kind == "word" and not piece.entries

    def last_is(self, *types: str) -> bool:
        """Is the last token of one of these types, with nothing but little words since?"""
        return bool(self.out) and self.out[-1].type in types and self.lead in ("", "link")

    # --- one piece

    def _drop_links(self) -> None:
        """ "variety is Marlo 22": the little word between belongs to neither."""
        n = len(self.out)
        while n and self.out[n - 1].type == "LINK":
            n -= 1
        if n and n < len(self.out) and self.out[n - 1].type == "VARIETY" and self.lead == "link":
            del self.out[n:]

    def _variety_code(self) -> int:
        """ "variety S22-T7": what is written without blanks behind the word, with a digit in it, is one name."""
        i = self.i
        if self.variety_open:
            self._drop_links()
        labelled = self.variety_open and self.lead in ("", "colon", "link") and bool(self.out)
        if not labelled or self.out[-1].type not in ("VARIETY", "NAME") or self.piece.kind not in ("word", "number"):
            return 0
        j = i + 1
        while (piece := self.at(j)) is not None and not piece.spaced and piece.kind in ("word", "number", "sign"):
            j += 1
        if self.ps[j - 1].kind == "sign":
            j -= 1
        if j - i < 3 or not any(ch.isdigit() for piece in self.ps[i:j] for ch in piece.text):
            return 0
        start, end = self.piece.start, self.ps[j - 1].end
        self._emit("NAME", self.draft.text[start:end], start, end)
        return j - i

    def _one(self, i: int) -> int:
        self.i, self.piece = i, self.ps[i]
        piece = self.piece
        if used := self._variety_code():
            return used
        match piece.kind:
            case "line":
                self.lead = "line"
                self.variety_open = False
                return 1
            case "break":
                if (
                    piece.text == "."
                    and self.last_is("VARIETY")
                    and self.lead == ""
                    and len(self.out[-1].text) <= SHORTENED
                ):
                    return 1  # "var. Yryvu 61"
                self.variety_open = self.variety_open and piece.value != "hard"
                if self.lead not in ("line", "hard"):
                    self.lead = piece.value
                return 1
            case "sign":
                return self._sign()
            case "number":
                return self._number()
            case "range":
                return self._range()
            case "day":
                return self._day()
            case "stage":
                if piece.value == "heard":
                    self._slip("near_word", stage(piece.text))
                return self._emit("STAGE", stage(piece.text), piece.start, piece.end)
            case "series":
                return self._series(COLOURS, 1)
            case "ratio":
                return self._ratio()
            case "quoted":
                return self._emit("QUOTED", None, piece.start + 1, piece.end - 1)
            case "word":
                return self._word()
            case "place":
                return self._emit(next(iter(piece.types)), piece.text, piece.start, piece.end, lead="soft")
            case "mark":
                return self._emit("MARK", piece.value, piece.start, piece.end)
            case _:
                return self.text()

    def _sign(self) -> int:
        piece = self.piece
        counted = self._counted_last() and self.out[-1].lead in ("", "link")
        if piece.text == "=" and self.last_is("COLOUR") and counted and self._sum_behind():
            self._emit("TOTAL", "total", piece.start, piece.end, lead="soft")
        elif piece.text in (":", "="):
            if self.lead == "":
                self.lead = "colon"
        elif piece.text == "?" and self.last_is("TEXT"):
            self.out[-1].end = piece.end
            self.out[-1].text = self.draft.text[self.out[-1].start : piece.end]
        elif not piece.text.isascii() and piece.text not in "️‍°¿¡":
            return self.text()
        return 1

    def _sum_behind(self) -> bool:
        """ "28 w + 3 y = 31"."""
        beyond = self.at(self.i + 2)
        return self.is_number(self.at(self.i + 1)) and (beyond is None or beyond.kind in ("break", "line"))

    def _counted_last(self) -> bool:
        """Are the last two tokens a count ("1 brown")?"""
        return len(self.out) > 1 and sum(word.type == "NUMBER" for word in self.out[-2:]) == 1

    def _day(self) -> int:
        labels = self._labels(self.i, -1) or self._labels(self.i, 1)
        value: DayWritten = self.piece.value
        if self._share(value):
            return self._emit("MOSTLY", "mostly", self.piece.start, self.piece.end)
        infested = self.direct_index(self.direct_index(self.i, 1), 1)
        if value.first and value.second and value.year is None:
            had = is_any(self.at(infested), ("HAD",)) or (self.last_is("FEMALES") and value.first <= value.second)
            hit = self.at(infested)  # "3/5 pl pos"
            had = had or (hit is not None and self.made.has("infested_word", hit.text) and value.first <= value.second)
            if is_any(self.after, ("PLANTS",)) and had:
                return self._some_of(value.first, value.second)
            if self._part_of_plants(value.first, value.second):
                return self.text()
        if len(labels) == 2 and value.first is not None and value.second is not None and value.year is None:
            return self._labelled_series((value.first, value.second))
        return self._emit("DATE", value, self.piece.start, self.piece.end)

    def _share(self, value: DayWritten) -> bool:
        """ "2/3 white, rest yellow": a fraction of the females, where a date would need its own place."""
        if value.year is not None or (value.first, value.second) not in ((1, 2), (1, 3), (2, 3), (1, 4), (3, 4)):
            return False
        colour = self.direct_index(self.i, 1)
        counted = is_any(self.at(colour), ("COLOUR",)) and not self.is_number(self.direct(colour, 1))
        return counted and any(word.type in ("NUMBER", "NONE", "SERIES") for word in self.out)

    def _part_of_plants(self, some: int, of: int) -> bool:
        """ "2/3 of the plants had white ones": a part, and no day."""
        noun = self.direct_index(self.i, 1)
        led = self.at(noun) is not None and self.ps[noun].text.split(" ")[0] in anywhere("of_plants")
        while led and noun < len(self.ps) and linking(self.ps[noun]):
            noun += 1
        return led and some < of and is_any(self.at(noun), ("PLANTS", "ROOTS"))

    # --- numbers in a row with slashes: 12/3/0/0, w/y/b 12/3/0, 4/6 plants

    def _labels(self, i: int, step: int) -> list[int]:
        """Indices of colours joined by slashes right before or behind: w/y/b."""
        found: list[int] = []
        j = i + step
        while 0 <= j < len(self.ps):
            piece = self.ps[j]
            if "COLOUR" in piece.types and j not in self.found:
                found.append(j)
            elif not (piece.text == "/" and found) and piece.text not in (":", "=", "(", ")"):
                break
            j += step
        if len(found) < 2:
            return []
        return sorted(found)

    def _labelled_series(self, counts: tuple[int, ...]) -> int:
        before, behind = self._labels(self.i, -1), self._labels(self.i, 1)
        labels = before if len(before) == len(counts) else behind
        if len(labels) != len(counts):
            self.draft.ask("which_number", self.piece.start, self.piece.end)
            return self.text()
        if labels is before:
            while self.out and self.out[-1].start >= self.ps[labels[0]].start:
                self.lead = self.out.pop().lead
        colours = tuple(self.ps[j].types["COLOUR"].value for j in labels)
        if labels is before and (more := self._series_behind(len(colours))):
            return self._series_a_plant(colours, [counts, *more])
        return self._series(colours, 1 if labels is before else labels[-1] - self.i + 1, counts)

    def _series_behind(self, size: int) -> list[tuple[int, ...]]:
        """ "w/y: 4/2 0/3 6/1": more numbers with slashes, as many in each, right behind the first."""
        found: list[tuple[int, ...]] = []
        j = self.i + 1
        while (piece := self.at(j)) is not None:
            if piece.text in (",", ";", "-"):
                j += 1
                continue
            numbers = (
                (piece.value.first, piece.value.second)
                if piece.kind == "day" and piece.value.year is None and piece.value.first is not None
                else piece.value
                if piece.kind in ("ratio", "series")
                else ()
            )
            if len(numbers) != size:
                break
            found.append(tuple(numbers))
            j += 1
        self.series_end = j - 1
        return found

    def _series_a_plant(self, colours: tuple[str, ...], plants: list[tuple[int, ...]]) -> int:
        """One series a plant: the totals by color, and a list of what each plant had."""
        while self.out and self.out[-1].type == "EACH":
            self.out.pop()  # "per plant w/y: 4/2 0/3"
        end = self.ps[self.series_end].end
        sums = tuple((colour, sum(plant[n] for plant in plants)) for n, colour in enumerate(colours))
        self._emit("SERIES", sums, self.piece.start, end)
        for n, plant in enumerate(plants):
            self._emit("NUMBER", sum(plant), self.piece.start, self.piece.end if n else end, lead="" if n else "colon")
        return self.series_end - self.i + 1

    def _series(self, colours: tuple[str, ...], used: int, counts: tuple[int, ...] | None = None) -> int:
        numbers = self.piece.value if counts is None else counts
        if counts is None and len(self._labels_one()) == 1:
            return self._slash_list(numbers)
        if counts is None and (self._labels(self.i, -1) or self._labels(self.i, 1)):
            return self._labelled_series(numbers)
        if counts is None:
            match self._series_of_plants(len(numbers)):
                case "plants":
                    return self._told_a_plant(numbers)
                case "unclear":
                    self.draft.ask("which_number", self.piece.start, self.piece.end)
                    return self.text()
        end = self.ps[self.i + used - 1].end
        self._emit("SERIES", tuple(zip(colours, numbers, strict=True)), self.piece.start, end)
        return used

    def _series_of_plants(self, size: int) -> str:
        """Is a bare "2/0/7/4" plants one by one, or the colors in their order, or might it be either?

        "2/0/7/4 cavadas", "3/0/5/1 so 9 cysts total": plants, where none are told. "4 pl 2/0/7/4": either.
        """
        first = max((name for name in self.found if name < self.i), default=0)
        last = min((name for name in self.found if name > self.i), default=len(self.ps))
        own = range(first, last)
        beside = self.direct_index(self.i, 1)
        dug = is_any(self.at(beside), ("DUG", "PLANTS")) and not self.is_number(self.at(beside + 1))
        told = [self.ps[n].value for n in own if self._is_plants(n)]
        each = self._each_before() or is_any(self.at(beside), ("EACH",))
        if told:
            return "" if told[0] != size else "plants" if each else "unclear"
        others = any(self.ps[n].kind == "series" for n in own if n != self.i)
        total = any(is_any(self.ps[n], ("TOTAL",)) for n in own)
        return "plants" if dug or total or each else "" if others else "unclear"

    def _told_a_plant(self, numbers: tuple[int, ...]) -> int:
        """A list of so many plants, its own clause: "dug 3/0/5/1 so 9 cysts", "2/0/7/4 plantas"."""
        noun = self.direct_index(self.i, 1)
        named = is_any(self.at(noun), ("PLANTS",))
        if not self._each_before():
            lead = "soft" if self.lead in ("", "link") else self.lead
            self._emit("EACH", "each", self.piece.start, self.piece.start, lead=lead)
        self._slash_list(numbers)
        if not is_any(self.at(noun), ("EACH",)):
            self.lead = "soft"
        return noun + 1 - self.i if named else 1

    def _each_before(self) -> bool:
        """ "Per plant: 3/0/5/1"."""
        return bool(self.out) and self.out[-1].type == "EACH" and self.lead in ("", "link", "colon")

    def _is_plants(self, n: int) -> bool:
        """Is it a number of plants: a word for them behind it, or one for digging before?"""
        if not number_like(self.ps[n]):
            return False
        behind = is_any(self.at(self.direct_index(n, 1)), ("PLANTS", "DUG"))
        return behind or is_any(self.direct(n, -1), ("DUG",))

    def _ratio(self) -> int:
        """4/6 plants: four of six; three and more numbers are a series when colours stand beside them."""
        counts = self.piece.value
        if len(counts) > 2 and not (self._labels(self.i, -1) or self._labels(self.i, 1)):
            return self._slash_list(counts)
        if len(counts) > 2:
            return self._labelled_series(counts)
        if is_any(self.after, ("PLANTS",)) and counts[0]:
            return self._some_of(counts[0], counts[1])
        if counts[0] == 0 < counts[1] <= MOST_OF_PLANTS and (
            self.last_is("FEMALES") or is_any(self.after, ("PLANTS",)) or self._none_of_so_many()
        ):
            self._emit("NONE", "none", self.piece.start, self.piece.start + 1)  # "cysts 0/6"
            self._emit("NUMBER", counts[1], self.piece.start + 2, self.piece.end, lead="soft")
            if not is_any(self.after, ("PLANTS",)):
                self._emit("PLANTS", "plants", self.piece.end, self.piece.end)
            return 1
        self.draft.ask("which_number", self.piece.start, self.piece.end)
        return self.text()

    def _none_of_so_many(self) -> bool:
        """ "5 pl 0/5.", "R2 0/5, moist": alone in its clause, and no counts of two colors."""
        ends = self.after is None or self.after.kind in ("break", "line", "stage")
        return ends and not self.last_is("COLOUR") and not self._labels(self.i, -1)

    def _labels_one(self) -> list[int]:
        """A single colour right behind numbers with slashes: one number a plant, all of that colour."""
        after = self.direct_index(self.i, 1)
        if is_any(self.at(after), ("FEMALES",)) and not is_any(self.at(after), ("COLOUR",)):
            after = self.direct_index(after, 1)  # "1/0/0/2/1/0 fêmeas brancas"
        if not is_any(self.at(after), ("COLOUR",)) or self._labels(self.i, 1) or self._labels(self.i, -1):
            return []
        return [after]

    def _slash_list(self, numbers: tuple[int, ...]) -> int:
        """2/0/1/4/0: one number a plant."""
        at = self.piece.start
        for number in numbers:
            self._emit("NUMBER", number, at, at + len(str(number)))
            at += len(str(number)) + 1
        return 1

    def _some_of(self, some: int, of: int) -> int:
        piece = self.piece
        middle = piece.start + len(self.draft.text[piece.start : piece.end].split("/")[0])
        self._emit("POSITIVE", some, piece.start, middle)
        return self._emit("NUMBER", of, middle + 1, piece.end)

    # --- numbers

    def _number(self) -> int:
        piece, i = self.piece, self.i
        if times := self._places_times():
            return times
        if self._counts_places() or self._for_in_figures():
            return self.text()
        of = getattr(self.at(i + 1), "text", "")
        if is_any(self.at(i - 1), ("FIELD_WORD",)) and (of == "/" or of in anywhere("of_word")):
            self._emit("TEXT", None, piece.start, self.ps[min(i + 2, len(self.ps) - 1)].end)
            return 3  # "field 1 of 12"
        if is_any(self.at(i + 1), ("FIELD_WORD",)) and self.at(i + 1) is not None and self._heads_fields(i + 2):
            self._emit("TEXT", None, piece.start, self.ps[i + 1].end)
            return 2  # "hoje 2 talhões."
        if self.colon_at(i + 1) and self._heads_fields(i + 1) and self.first_name > i:
            return self.text()  # "te passo 3: açude velho .., sanga funda .."
        led = " ".join(other.text for other in self.ps[max(0, i - 1) : i + 1])
        if (
            self.made.has("for_both", led)
            and piece.value == self._fields_told()
            and (self._goes_on_nowhere() or is_any(self.at(i + 1), ("NONE",)))
        ):
            return self.text()  # "solo seco nos 2", "hoy los 2 sin nada"
        did = self.at(i - 1)
        dated = is_any(self.at(i + 1), ("TODAY",)) or getattr(self.at(i + 1), "kind", "") == "day"
        headed = did is not None and self.made.has("did_fields", did.text) and self.first_name > i
        if headed and self._heads_fields(i + 1 + dated):
            return self.text()  # "did 2 today. kestrel .. tinkers .."
        if self.first_name > i and " ".join(p.text for p in self.ps[i + 1 : i + 3]) in anywhere("per_field"):
            self._emit("NUMBER", piece.value, piece.start, piece.end)  # "all dug with the spade, 8 per field."
            return self._emit("PLANTS", "plants", piece.end, piece.end)
        if (
            self.last_is("PH")
            and self.lead == ""
            and LEAST_PH < piece.value < MOST_PH
            and isinstance(piece.value, float)
        ):
            return self._emit("NUMBER", piece.value, piece.start, piece.end)  # "pH 6.2 lvs edge yel"
        if self.last_is("ENTRY") and piece.value in USUAL_HOURS and self._stands_alone(i + 1):
            return self._emit("SPAN", ("hours", piece.value, ""), piece.start, piece.end)  # "REI 12."
        if self._plants_none() or i == self.of_plants:
            self._emit("NUMBER", piece.value, piece.start, piece.end)
            return self._emit("PLANTS", "plants", piece.end, piece.end)
        code = self.at(i + 1) is not None and not self.ps[i + 1].spaced and self.ps[i + 1].kind == "word"
        named = self.variety_open and self.lead in ("", "colon") and bool(self.out)
        named = named and self.out[-1].type in ("VARIETY", "NAME")
        if named and code:
            self._emit("NAME", self.draft.text[piece.start : self.ps[i + 1].end], piece.start, self.ps[i + 1].end)
            return 2
        heads = getattr(self.at(i + 1), "text", "") == ":" and self.last_is("NAME")  # "variety Marlo 22: 6 plants"
        if named and (heads or not self.names.bound(i)):
            return self._emit("NAME", self.draft.text[piece.start : piece.end], piece.start, piece.end)
        j = i + 1
        while j < len(self.ps) and self.ps[j].kind == "sign" and self.ps[j].text in "-.":
            j += 1
        after = self.at(j)
        if (
            after is not None
            and after.text in anywhere("without_word")
            and "POSITIVE" in [w.type for w in self.out[-4:]]
        ):
            ends = j + 1 + (getattr(self.at(j + 1), "text", "") in anywhere("any_word"))
            if self._stands_alone(ends):
                self._emit("TEXT", None, piece.start, self.ps[ends - 1].end)
                return ends - i  # "2 with white, 4 without any"
        if after is not None and after.kind == "word":
            used = self._with_unit(j, after)
            if used:
                return used
        if self._did_so_many(j):
            self._emit("NUMBER", piece.value, piece.start, piece.end)  # "did 5, found 0, 0, 3, 1, 0"
            return self._emit("PLANTS", "plants", piece.end, piece.end)
        upon = (
            self.i
            and self.ps[self.i - 1].text in anywhere("upon_plant")
            and any(w.type == "EACH" for w in self.out[-2:])
        )
        if upon and self._stands_alone(j) and isinstance(piece.value, int) and 0 < piece.value <= MOST_OF_PLANTS:
            self._emit("NUMBER", piece.value, piece.start, piece.end, lead="soft")  # "3 white a plant on 6"
            return self._emit("PLANTS", "plants", piece.end, piece.end)
        if isinstance(piece.value, int) and (half := self._half_before()) is not None and is_any(after, ("PLANTS",)):
            while self.out and self.out[-1].start >= self.ps[half].start:
                self.lead = self.out.pop().lead
            self._emit("POSITIVE", max(1, piece.value // 2), self.ps[half].start, self.ps[half].end)
            return self._emit("NUMBER", piece.value, piece.start, piece.end)
        if k := self._described_share(j):
            self._emit("TEXT", None, piece.start, self.ps[k - 1].end)
            return k - i  # "4 of the 6 plants stunted": nothing is said of females
        had = None if self.last_is("POSITIVE") else self._infested(j)
        if had is not None:
            return self._emit("POSITIVE", piece.value, piece.start, had)
        if self._females_on(j):
            for word in self.out[-2:]:
                word.lead = "hard" if word.type == "COLOUR" else word.lead
                word.type = (
                    "TEXT" if word.type == "FEMALES" else word.type
                )  # no count of them: "pulled six, females on"
            return self._emit("POSITIVE", piece.value, piece.start, piece.end)
        if self._names_something() or self._of_something_else(j) or self._through():
            return self.text()
        broke = self.last_is("ROOT") and self.out[-1].value == "snapped"
        if self._all_of_them() or (broke and self._stands_alone(j)):
            return self.text()  # "se cortaron 3"
        if self._sums_the_list():
            self.lead = "hard"  # "5, 9, 3, 7 (24 blancas)"
            if self.ps[i - 1].text != "(" and not is_any(after, ("COLOUR", "FEMALES", "TOTAL")):
                self._emit("TOTAL", "total", piece.start, piece.start, lead="hard")  # "2+0+1+4+3 = 10, todas con pala"
        elif i and self.ps[i - 1].text == "=" and self.last_is_count():
            self._emit("TOTAL", "total", self.ps[i - 1].start, self.ps[i - 1].end, lead="soft")  # "4 b + 3 a = 7"
        if piece.plus and not is_any(after, ("NODULES", "MEASURE")):
            self._emit("PLUS", None, piece.start, piece.end)
        self._emit("NUMBER", piece.value, piece.start, piece.end)
        before = self.at(i - 1)
        k = j + 1
        of_them = after is not None and after.text == "of" and self.made.has("them", getattr(self.at(k), "text", ""))
        told = any(word.type in ("COLOUR", "FEMALES", "MOSTLY") for word in self.out[-5:-1])
        upon = len(self.out) > 1 and self.out[-2].type == "OVER"
        if of_them and upon and any(word.type in ("PLANTS", "DUG") for word in self.out[:-2]):
            over = self.out[-2]
            del self.out[-2:]
            self._emit("TEXT", None, over.start, self.ps[k].end)
            return k + 1 - i  # "5 plants, 3 white on one of them"
        dug_before = len(self.out) > 1 and self.out[-2].type == "DUG" and self.lead in ("", "link")
        if of_them and (
            dug_before or is_any(self.at(k + 1 + (getattr(self.at(k + 1), "text", "") == ",")), ("DUG",))
        ):  # "dug four of them and counted thirty white"
            self._emit("PLANTS", "plants", piece.end, piece.end)
            return k + 1 - i
        if of_them and told and self._stands_alone(k + 1):
            self._emit(*self._what_they_are(), piece.end, piece.end)
            return k + 1 - i
        titled = [word.type for word in self.out[-3:-1]] == ["COLOUR", "TOTAL"]
        titled = titled or (self.out[-2:-1] != [] and self.out[-2].type in ("PH", "POTASSIUM"))  # "K deu 48"
        if before is not None and before.text == "," and i > 1:
            before = self.ps[i - 2]  # "she counted, eight she says"
        there = i > 1 and self.made.has("counted", " ".join(p.text for p in self.ps[i - 2 : i]))  # "there were 17"
        told = before is not None and (there or self.made.has("counted", before.text))
        if told and not titled and self._stands_alone(j):
            self._emit("FEMALES", "female", piece.end, piece.end)
        return 1

    def _fields_told(self) -> int:
        """How many fields are told of."""
        fields = {written(self.draft.text, name.start, name.end) for name in self.found.values()}
        return len(fields.union(*(name.also for name in self.found.values())))

    def _sums_the_list(self) -> bool:
        """ "5, 9, 3, 7 (24 brancas)", "2+0+1+4+3 = 10", ".. son 10": a number behind a list that is the sum of it."""
        before = self.ps[self.i - 1].text if self.i else ""
        made = before == "=" or self.made.has("makes_sum", before)
        if before != "(" and not made:
            return False
        listed = [w.value for w in itertools.takewhile(lambda w: w.type == "NUMBER", reversed(self.out))]
        added = made and all(getattr(self.at(self.i - back), "text", "") == "+" for back in (3, 5))
        return len(listed) > 1 + made and (added or self.piece.value == sum(listed))

    def _females_on(self, j: int) -> bool:
        """ "Dug eight, found females on three": how many of the plants had any."""
        on, females, before = self.at(self.i - 1), self.at(self.i - 2), self.at(self.i - 3)
        if on is None or on.text not in anywhere("upon_plant") or not is_any(females, ("FEMALES", "COLOUR")):
            return False
        own = max((n for n, word in enumerate(self.out) if word.type == "FIELD"), default=0)
        told = [
            word.value
            for n, word in enumerate(self.out)
            if n >= own and word.type == "NUMBER" and self._of_plants_told(n)
        ]
        fewer = any(isinstance(value, int) and 0 < self.piece.value <= value for value in told)
        after = self.at(j)
        ends = after is None or after.kind in ("break", "line") or (linking(after) and after.kind == "word")
        ends = ends or (after is not None and after.text in anywhere("of_word"))
        ends = ends or (is_any(after, ("PLANTS",)) and self.piece.value < max((v for v in told if v), default=0))
        return fewer and ends and not self.is_number(before)

    def _through(self) -> bool:
        """The second number of "rows 4 thru 8", where the first was none of ours."""
        before = self.at(self.i - 1)
        return before is not None and self.made.has("through", before.text) and self.last_is("TEXT", "LINK")

    def _heads_fields(self, i: int) -> bool:
        """ "2 fields today." before the first of several: so many fields, and no plants."""
        several = len(self.found) == self.piece.value or (len(self.found) > 1 and self.first_name > self.i)
        stop = self.at(i)
        return several and (stop is None or stop.kind in ("break", "line", "day") or stop.text == ":")

    def _times(self, piece: Piece) -> bool:
        return piece.text in ("x", "*", "@") or self.made.has("times", piece.text)

    def _for_in_figures(self) -> bool:
        """ "Didnt dig, running late 4 practice": the word that sounds like it, where nothing was dug to be counted."""
        before, after = self.at(self.i - 1), self.at(self.i + 1)
        if self.piece.text != "4" or before is None or not self.made.has("for_written_4", before.text.split(" ")[-1]):
            return False
        free = (
            after is not None and after.kind == "word" and (not after.entries or self.made.has("article", after.text))
        )
        return free and any(word.type == "NOT_LOOKED" for word in self.out)

    def _places_times(self) -> int:
        """ "4 spots x 3 plants": so many plants at each of so many places, and said so."""
        ps = self.ps[self.i : self.i + 5]
        if len(ps) < 5 or not self.made.has("place_count", ps[1].text):
            return 0
        of = ps[2].text in anywhere("of_plants") and not self.made.has(
            "each_place", getattr(self.at(self.i + 5), "text", "")
        )
        if not (self._times(ps[2]) or of):
            return 0  # "3 estaciones de 3 plantas", but "3 pontos de 4 plantas cada" is told elsewhere
        here, each = ps[0].value, ps[3].value
        if not (ps[3].kind == "number" and isinstance(here, int) and isinstance(each, int) and "PLANTS" in ps[4].types):
            return 0
        self._emit("NUMBER", here * each, ps[0].start, ps[3].end)
        self._emit("PLANTS", "plants", ps[4].start, ps[4].end)
        self.draft.slips.append(Slip("near_word", str(here * each), ps[0].start, ps[3].end))
        return 5

    def _counts_places(self) -> bool:
        """ "3 lugares, 4 plantas en cada uno", "em 2 pontos:": so many places, and none of ours."""
        noun, behind = self.at(self.i + 1), self.at(self.i + 2)
        if noun is None or noun.kind != "word" or not self.made.has("place_count", noun.text):
            return False
        return not noun.types.keys() - COMMAND_TYPES and not is_any(behind, COUNTED)

    def _what_they_are(self) -> tuple[str, str]:
        """ "First whites of the year, 8 of em": the one color named before, or females."""
        since = range(max(0, len(self.out) - LOOKED_BACK), len(self.out) - 1)
        told = [n for n in since if self.out[n].type in ("COLOUR", "FEMALES", "MOSTLY", "NUMBER")]
        last = self.out[told[-1]] if told else None
        bare = last is not None and last.type == "COLOUR" and (len(told) < 2 or told[-2] != told[-1] - 1)
        if last is None or not bare or len(last.text) < 3:
            return "FEMALES", "female"
        last.type = "TEXT"
        return "COLOUR", last.value

    def last_is_count(self) -> bool:
        """Is what stands before the sign at hand a color with its number, another count before it?"""
        told = [word.type for word in self.out[-4:]]
        tied = bool(self.out) and self.out[-1].lead in ("", "link", "colon")  # not "w=3; y=1"
        return tied and told in (["NUMBER", "COLOUR"] * 2, ["COLOUR", "NUMBER"] * 2)

    def _all_of_them(self) -> bool:
        """ "Dug five and soaked all five": the same plants again."""
        before = self.before
        all_ = before is not None and "MOSTLY" in before.types and before.types["MOSTLY"].value == "all"
        all_ = all_ or (before is not None and before.text.endswith(" all"))  # "soaked all five"
        behind = is_any(self.after, ("COLOUR", "FEMALES"))
        those = before is not None and self.made.has("determiner", before.text) and self._stands_alone(self.i + 1)
        upon = those and getattr(self.at(self.i - 2), "text", "") in anywhere("upon_plant")
        if upon and any(w.value == self.piece.value and self._of_plants_told(n) for n, w in enumerate(self.out)):
            return True  # "dug 5 .. found 11 white on the five"
        fields = len(self.found) > 1 and self.piece.value == len(self.found)
        if all_ and not behind and fields:
            return True  # "recheck all three in 10 days"
        return all_ and not behind and any(w.type == "NUMBER" and w.value == self.piece.value for w in self.out)

    def _stands_alone(self, j: int) -> bool:
        """Is nothing behind the number that it could count ("i got 21 but ..")?"""
        after = self.at(j)
        if after is None or after.kind in ("break", "line"):
            beyond = self.at(j + 1) if after is not None else None
            return not (self.is_number(beyond) or is_any(beyond, ("COLOUR", "PLANTS")))
        beyond = self.near(j, 1)
        more = self.made.has("then_word", after.text) and self.is_number(beyond)  # "counted 8 then 2 then 11"
        if is_any(after, ("MOSTLY",)) and is_any(beyond, ("COLOUR",)):
            return not self.is_number(self.at(j + 2))  # "pulled 4 got 9 mostly w"
        return after.kind == "word" and linking(after) and not is_any(beyond, COUNTED) and not more

    def _plants_none(self) -> bool:
        """ "6 none": a number right before "none", when nothing else says how many plants."""
        number = isinstance(self.piece.value, int) and 0 < self.piece.value <= 99 and not self.piece.plus
        if not (number and is_any(self.after, ("NONE",)) and "COLOUR" not in getattr(self.after, "types", {})):
            return False
        if self.last_is("NUMBER", "PLANTS", "DUG", "COLOUR", "TOOL", "PH", "POTASSIUM", "SPAN", "TOTAL"):
            return False
        since = next((n for n in range(len(self.out) - 1, -1, -1) if self.out[n].type == "FIELD"), 0)
        return not any(word.type in ("PLANTS", "DUG") for word in self.out[since:])

    def _with_unit(self, j: int, after: Piece) -> int:
        """A number with its unit: a span, days after planting, ppm, or a measure that is only text."""
        piece, i = self.piece, self.i
        unit = after.types.get("UNIT")
        if unit is not None and self._is_unit(after):
            return self._span(piece.value, unit.value, j)
        among = "LINK" in after.types and self.names.bound(self.direct_index(j, 1))
        if "DAP" in after.types and not among:
            days = piece.value * (7 if after.types["DAP"].value == "week" else 1)
            self._emit("SPAN_AFTER_PLANTING", days, piece.start, after.end)
            return j - i + 1
        if "PPM" in after.types:
            k = neighbour_index(self.ps, j, 1)
            of = self.at(k) if k is not None else None
            if k is not None and is_any(of, ("POTASSIUM",)) and not self.is_number(self.near(k, 1)):
                self._emit("POTASSIUM", "potassium", piece.start, piece.start)
                self._emit("NUMBER", piece.value, piece.start, self.ps[k].end)
                return k - i + 1
            self._emit("NUMBER", piece.value, piece.start, after.end)
            return j - i + 1
        if after.text == "f" and self._females_letter(j):
            self._emit("NUMBER", piece.value, piece.start, piece.end)
            self._emit("FEMALES", "female", after.start, after.end)
            return j - i + 1
        if "MEASURE" in after.types and self._is_measure(j, after):
            self._emit("TEXT", None, piece.start, after.end)
            return j - i + 1
        return self.text() if self._shape(after) and not is_any(after, COUNTED) else 0

    def _females_letter(self, j: int) -> bool:
        """ "6 pl 31 f": females, where plants were told and nothing speaks of the weather."""
        ends = (
            self.at(j + 1) is None or self.ps[j + 1].kind in ("break", "line") or self.ps[j + 1].text in (":", "=", "-")
        )
        plants = bool(self.out) and self.out[-1].type in ("PLANTS", "DUG")
        return self.made.language == "en" and ends and plants and isinstance(self.piece.value, int)

    def _shape(self, piece: Piece | None) -> bool:
        """Patches, rings, bands: what numbers and colours before them speak of."""
        if piece is None:
            return False
        top = piece.types.get("TOP")
        return "BANDS" in piece.types or (top is not None and top.value in ("patch", "ring"))

    def _is_unit(self, after: Piece) -> bool:
        value = self.piece.value
        if not isinstance(value, int) and after.types["UNIT"].value != "hour":
            return False
        if "NOT" in after.types and not (self.last_is("LOOK") or is_any(self.near_before, ("LOOK", "AGO"))):
            ahead = self.direct(self.direct_index(self.i, 1), 1)  # "cinco sem separar": not five weeks
            return ahead is None or ahead.kind != "word" or is_any(ahead, ("LOOK", "AGO", "AFTER"))
        if "COLOUR" in after.types:
            k = self.direct_index(self.direct_index(self.i, 1), 1)
            plants = self.is_number(self.at(k)) and is_any(self.at(self.direct_index(k, 1)), ("PLANTS", "DUG"))
            of_strip = self.last_is("CHECK") and (plants or value > MOST_WEEKS)  # "chk 40w 3p"
            return is_any(self.near_before, ("LOOK",)) and not of_strip
        return not (after.text in ("s", "mo") and after.spaced)

    def _span(self, count: int | float, unit: str, j: int, shown: str = "") -> int:
        start, day = self.at(j + 1), self.at(j + 2)
        if start is not None and start.text in anywhere("from_day") and day is not None and day.kind == "day":
            weekday = unit in ("week", "fortnight") and day.value.weekday is not None and isinstance(count, int)
            if weekday and (self.last_is("LOOK") or is_any(self.at(j + 3), ("LOOK",))):
                later = replace(day.value, later=count * UNIT_DAYS[unit] // 7)
                self._emit("DATE", later, self.piece.start, day.end)  # "back a week from friday"
                return j + 3 - self.i
            if day.value.days_ago != 0:
                self.draft.ask("which_visit", self.piece.start, day.end)  # "a week from tuesday"
                self._emit("TEXT", None, self.piece.start, day.end)
                return j + 3 - self.i
            j += 2
        half = self._and_a_half(j)
        if half > j:
            count, shown, j = count + 0.5, self.draft.text[self.piece.start : self.ps[half].end], half
        took = self.i and self.made.has("took_time", self.ps[self.i - 1].text)
        if unit == "hour" and took:
            self._emit("TEXT", None, self.piece.start, self.ps[j].end)
            return j - self.i + 1  # "me llevó dos horas"
        value = ("hours", count, shown) if unit == "hour" else ("days", int(count * UNIT_DAYS[unit]), shown)
        sprayed = self.last_is("CHEMICAL", "SPRAY") and is_any(self.direct(j, 1), ("AGO",))
        lead = "" if sprayed else self.lead  # "glyphosate was 9 days ago"
        self._emit("SPAN", value, self.piece.start, self.ps[j].end, lead=lead)
        return j - self.i + 1

    def _and_a_half(self, j: int) -> int:
        """ "A week and a half": where the half ends, or the index given."""
        words = [piece.text for piece in (self.at(k) for k in range(j + 1, j + 4)) if piece is not None]
        for size in (3, 2):
            if self.made.has("and_a_half", " ".join(words[:size])):
                return j + size
        return j

    def _had_roots(self, j: int) -> bool:
        """Do words for nodules or roots follow, with nothing counted before them?"""
        for piece in self.ps[j : j + 4]:
            if piece.kind != "word" or is_any(piece, ("FEMALES", "NONE")):
                return False
            if is_any(piece, ("NODULES", "ROOTS")):
                return True
        return False

    def _is_measure(self, j: int, after: Piece) -> bool:
        """Yards, acres, rows: not a count of ours. A letter that is also a colour is one only with "of" behind it."""
        if is_any(after, ("COLOUR", "PLANTS", "DUG", "FEMALES")):
            beyond = self.at(j + 1)
            return beyond is not None and self.made.has("of_measure", beyond.text)
        if is_any(after, ("LINK",)) and is_any(self.at(j + 1), ("LINK", "SPOT", "CHECK", "TOTAL", "EACH")):
            return False  # "ten in the field proper", "four by the willows"
        beyond = self.at(j + 1)
        if self.last_is("DUG") and is_any(after, ("LINK",)) and (is_any(beyond, ("FIELD",)) or j + 1 in self.found):
            return False  # "hand pulled 6 in cedar slough"
        if self.last_is("DUG") and "SPOT" in after.types and beyond is not None and beyond.kind == "word":
            return False  # "dug 6 in ours"
        if is_any(after, ("SPOT", "CHECK")):
            return not self.colon_at(j + 1) and not self.is_number(self.at(j + 1))
        return after.text != "to"  # "10 to ..": a range

    def _did_so_many(self, j: int) -> bool:
        """ "Old Mill: did 5, found ..": plants looked at, where nothing else claims the number."""
        did = self.at(self.i - 1)
        if did is None or not self.made.has("did_plants", did.text):
            return False
        value = self.piece.value
        free = isinstance(value, int) and 0 < value <= MOST_OF_PLANTS and not claims(self.ps, j)
        stop = self.at(j)
        return free and (stop is None or stop.kind in ("break", "line") or self.made.has("at", stop.text))

    def _half_before(self) -> int | None:
        """ "Half of the 10 plants", "la mitad de las 10": where "half" stands, with little words between."""
        k = self.i - 1
        while (
            k >= 0 and k > self.i - 4 and self.ps[k].kind == "word" and not self.made.has("half_word", self.ps[k].text)
        ):
            if "LINK" not in self.ps[k].types:
                return None
            k -= 1
        return k if k >= 0 and self.made.has("half_word", self.ps[k].text) else None

    def _infested(self, j: int) -> int | None:
        """3 had white, 2 plants with females, 4 of 6 plants: how many plants had any, not a count of females.

        Gives where the words for it end, or ``None``.
        """
        after = self.at(j)
        if after is not None and after.text in anywhere("out_of"):
            k = j + 1
            which = self.at(k)
            if which is not None and which.text in anywhere("of_which") and self._had_behind(k):
                return self.piece.end  # "three of which had females"
            while is_any(self.at(k), ("LINK",)) and not self.made.has("them", self.ps[k].text):
                k += 1
            number = self.at(k)
            since = range(max(0, len(self.out) - LOOKED_BACK), len(self.out))
            told = [self.out[n].value for n in since if self.out[n].type == "NUMBER" and self._of_plants_told(n)]
            of_plants = (
                number is not None
                and number.kind == "number"
                and (is_any(self.direct(k, 1), ("PLANTS", "ROOTS")) or (number.value in told and self._had_behind(k)))
            )
            of_plants = (of_plants or self._of_so_many(k)) and not self._counts_its_color(number)
            if of_plants and not is_any(self.direct(k, 1), ("PLANTS", "ROOTS")):
                self.of_plants = k
            return self.piece.end if of_plants else None
        if is_any(after, ("PLANTS",)) or (after is not None and after.text in anywhere("of_them")):
            j = self.direct_index(j, 1)
            after = self.at(j)
        if after is not None and self._with_slash(j):
            return self.ps[j + 2].end if is_any(self.at(j + 2), ("FEMALES",)) else None
        if after is None or "HAD" not in after.types or self.ps[j - 1].kind == "break":
            return None
        if self._had_roots(j + 1):
            return None  # "6 plants with brown nodules"
        beyond = neighbour(self.ps, j, 1)
        if (
            self.piece.value == 1
            and self.is_number(beyond)
            and any(w.type in ("PLANTS", "DUG") for w in self.out[-LOOKED_BACK:])
        ):
            at = neighbour_index(self.ps, j, 1)
            if at is not None and is_any(self.direct(at, 1), ("COLOUR", "FEMALES")):
                return after.end  # "5 clean, 1 had 3 white"
        if self.is_number(beyond) and self._each_behind(j):
            return after.end  # "três tinham duas brancas cada"
        some = is_any(beyond, ("COLOUR", "FEMALES", "TOO_MANY", "MOSTLY")) and not self.is_number(beyond)
        return after.end if some or after.types["HAD"].value == "infested" else None

    def _described_share(self, j: int) -> int:
        """The index of the second number of "4 of the 6 plants stunted"; 0 for any other."""
        of = self.at(j)
        if of is None or of.text not in anywhere("out_of"):
            return 0
        k = j + 1
        while is_any(self.at(k), ("LINK",)) and not self.made.has("them", self.ps[k].text):
            k += 1
        return k if self.is_number(self.at(k)) and self._only_described(k) else 0

    def _only_described(self, k: int) -> bool:
        """Is what stands behind so many of so many plants how they look ("stunted", "alive"), and not what they had?"""
        noun = self.direct_index(k, 1)
        if not is_any(self.at(noun), ("PLANTS",)):
            return False
        behind = self.direct(noun, 1)
        while behind is not None and behind.kind == "word" and linking(behind) and "HAD" not in behind.types:
            noun = self.direct_index(noun, 1)
            behind = self.direct(noun, 1)
        if behind is None or behind.kind != "word":
            return False
        return is_any(behind, ("TOP",)) or not behind.types

    def _each_behind(self, j: int) -> bool:
        """Is what these plants had told of each of them: a number, perhaps a color, and "each" at the end?"""
        if not any(self._of_plants_told(n) for n, word in enumerate(self.out) if word.type == "NUMBER"):
            return False  # of how many?
        k = self.direct_index(j, 1)
        k = self.direct_index(k, 1)
        while is_any(self.at(k), ("COLOUR", "FEMALES")):
            k = self.direct_index(k, 1)
        end = self.at(k + 1)
        return is_any(self.at(k), ("EACH",)) and (end is None or end.kind in ("break", "line"))

    def _counts_its_color(self, number: Piece | None) -> bool:
        """ "White 9 out of 6 plants", "white 7 yellow 2 of 6 plants": females of the color before it, not plants."""
        beside = bool(self.out) and self.out[-1].type == "COLOUR" and self.lead in ("", "link", "colon")
        if not beside or number is None or not isinstance(number.value, int):
            return False
        told = [word.type for word in self.out[-3:-1]] == ["COLOUR", "NUMBER"]
        return told or (isinstance(self.piece.value, int) and self.piece.value > number.value)

    def _of_so_many(self, k: int) -> bool:
        """ "White on half the plants, 5 of 10", "3 of 10 had some": the second number can only be plants."""
        number, some = self.at(k), self.piece.value
        whole = number is not None and number.kind == "number" and isinstance(number.value, int)
        if not whole or number is None or not isinstance(some, int) or not some <= number.value <= MOST_OF_PLANTS:
            return False
        behind = self.at(k + 1)
        said = any(word.type in ("COLOUR", "FEMALES", "NONE") for word in self.out[-4:])
        return self._had_behind(k) or (said and (behind is None or behind.kind in ("break", "line")))

    def _of_plants_told(self, n: int) -> bool:
        """Is the number told at n a count of plants?"""
        beside = [self.out[m].type for m in (n - 1, n + 1) if 0 <= m < len(self.out)]
        return bool({"PLANTS", "DUG", "TOOL"} & set(beside))

    def _had_behind(self, k: int) -> bool:
        """ "Four of the six had females", "3 of 5 had some"."""
        return is_any(self.direct(k, 1), ("HAD",))

    def _with_slash(self, i: int) -> bool:
        """ "w/" before a word that is no colour: with."""
        slash, beyond = self.at(i + 1), self.at(i + 2)
        if self.ps[i].text not in ("w", "c") or not self.ps[i].spaced or slash is None or slash.text != "/":
            return False
        return beyond is not None and beyond.kind in ("word", "number") and "COLOUR" not in beyond.types

    def _with_word(self) -> bool:
        """ "4 w my hands": a letter before a little word that leads to a noun is "with", not white."""
        if self.piece.text not in ("w", "c") or not self.piece.spaced or self.after is None:
            return False
        if is_any(self.before, ("TOO_MANY", "MOSTLY")) and is_any(self.at(self.i + 2), ("COLOUR",)):
            return False  # "lots w some y"
        return self.made.has("leads_noun", self.after.text.split(" ")[0])

    def _of_something_else(self, j: int) -> bool:
        """Aphids 250 per plant: the noun before says what is counted, and it is nothing of ours."""
        before, after = self.at(self.i - 1), self.at(j)
        if self.is_number(self.direct(self.i - 1, -1)) and is_any(before, ("MEASURE",)):
            return False  # "soaked twenty minutes 3 1 0 6 2"
        if before is not None and self.made.has("label", before.text):
            return True
        if before is not None and self.made.has("heading", before.text):
            return after is None or after.kind in ("break", "line") or after.text == ":"  # "round 2."
        near = self.near_before if is_any(before, ("ABOUT",)) else before  # "aphids about 50 per plant"
        other = near is not None and near.kind == "word" and near.types.keys() == {"MEASURE"}
        return (other and not claims(self.ps, j)) or (other and is_any(after, ("EACH", "TOTAL")))

    def _is_hour(self, before: Piece | None, after: Piece | None) -> bool:
        """ "Salí a las 7", "voltei às 11": a time of day, where nothing behind is counted."""
        if before is None or not isinstance(self.piece.value, int) or self.piece.value > 24:
            return False
        said = self.draft.text[before.start : before.end].lower()
        # As written and not from the word files, which know no accents: "as" without its accent is only an article.
        at = said in ("às", "a las") or (said == "las" and self.i > 1 and self.ps[self.i - 2].text == "a")
        return at and not is_any(after, COUNTED) and not self.is_number(after)

    def _is_phone(self, before: Piece | None, after: Piece | None) -> bool:
        """ "64 99123 4567": numbers in a row, one of them longer than any count."""
        row = [p for p in (self.at(self.i - 2), before, self.piece, after, self.at(self.i + 2)) if numbered_by(p)]
        return len(row) > 1 and any(p.kind == "number" and p.value > MOST_COUNTED for p in row if p is not None)

    def _names_something(self) -> bool:
        """Numbers that count nothing of ours: $12, 85%, 2nd, 0800."""
        piece = self.piece
        before, after = self.at(self.i - 1), self.at(self.i + 1)
        if self._is_hour(before, after) or self._is_phone(before, after):
            return True
        if before is not None and before.kind == "sign" and before.text in "$€" and before.end == piece.start:
            return True
        if piece.text.endswith(NTH_ENDS) or (piece.text.startswith("0") and len(piece.text) == 4):
            return True
        if (
            after is not None
            and after.text == "s"
            and after.start == piece.end
            and self.piece.value in (7, 15, 20, 30, 36)
        ):
            return True  # "planted in 30s": rows
        return after is not None and after.kind == "sign" and after.text in "%°'" and after.start == piece.end

    def _range(self) -> int:
        piece = self.piece
        plants = self.at(self.i - 1)
        first, last = piece.value
        whole = isinstance(last, int) and first == 1 < last <= MOST_OF_PLANTS
        if whole and is_any(plants, ("PLANTS",)) and not is_any(self.at(self.i + 1), COUNTED):
            self._emit("NUMBER", last, piece.start, piece.end)  # "plantas 1 a 6: 0, 2, 7, 0, 1, 3"
            self._emit("PLANTS", "plants", piece.end, piece.end)
            self.lead = "colon"
            return 1
        j = self.direct_index(self.i, 1)
        after = self.at(j)
        shown = self.draft.text[piece.start : after.end] if after is not None else ""
        low, high = piece.value
        if after is not None and after.kind == "word":
            unit = after.types.get("UNIT")
            if unit is not None and "COLOUR" not in after.types and unit.value != "hour":
                return self._span(low, unit.value, j, shown)
            if "MEASURE" in after.types and not is_any(after, ("COLOUR", "PLANTS")):
                self._emit("TEXT", None, piece.start, after.end)
                return j - self.i + 1
            if "NODULES" in after.types:
                return self.text()
            if is_any(after, COUNTED) and claims(self.ps, j):
                self.draft.ask("which_of_range", piece.start, after.end)
                self._emit("TEXT", None, piece.start, after.end)
                return j - self.i + 1
        if (rows := self.at(self.i - 1)) is not None and self.made.has("row_word", rows.text):
            return self.text()  # "rows 40-46"
        dashed = 1 <= low <= 12 and 1 <= high <= 31 and "-" in self.draft.text[piece.start : piece.end]
        dashed = dashed and not is_any(self.before, ("ABOUT",))  # "about 4-5", "4 or 5" are no days
        if dashed and not is_any(self.near_before, COUNTED) and not any(w.type == "DATE" for w in self.out):
            self._slip("dashed_day", "")
            return self._emit("DATE", DayWritten(piece.text, first=low, second=high), piece.start, piece.end)
        self.draft.ask("which_of_range", piece.start, piece.end)
        return self.text()

    # --- words

    def _word(self) -> int:
        piece = self.piece
        sized = self.last_is("NUMBER") and self.lead == "" and self.has("size")
        if sized and is_any(self.after, ("COLOUR", "FEMALES")):
            return 1  # "3 little white balls"
        if self.last_is("NUMBER") and self.lead == "" and self.has("more") and is_any(self.after, ("PLANTS",)):
            return 1  # "5 more plants"
        if self.has("range_words") and is_any(self.after, COUNTED):
            noun = self.direct_index(self.i, 1)
            self.draft.ask("which_of_range", piece.start, self.ps[noun].end)  # "one or two yellow"
            self._emit("TEXT", None, piece.start, self.ps[noun].end)
            return noun + 1 - self.i
        if sampled := self._sample_size():
            return sampled
        if not piece.types and (heard := self._sounds_like_number()):
            return heard
        if not piece.types:
            return self._unknown_word()
        doubt = self.at(self.i + 1)
        if "CHEMICAL" in piece.types and doubt is not None and doubt.text == "?":
            return self.text()  # "leaves cupped (dicamba?)"
        if piece.text == "?" and self.last_is("COLOUR", "NUMBER", "FEMALES", "PLANTS") and self._counted_last():
            self.draft.ask("doubtful", self.out[-2].start, self.out[-1].end)
            return 1
        if heard := self._sounds_like_number():
            return heard
        for name in sorted(_RANK.keys() & piece.types.keys(), key=_RANK.__getitem__):
            if name in PLACED and self._in_a_place_name():
                continue
            self.entry = piece.types[name]
            method = getattr(self, "as_" + name.lower(), None)
            used: int = method() if method is not None else self.take()
            if used:
                return used
        if is_any(piece, ("LINK", "ABOUT")):
            over = self.made.has("over", piece.text) and self.last_is("NUMBER", "COLOUR", "FEMALES", "TOTAL", "NONE")
            if over and self.last_is("TOTAL") and (len(self.out) < 2 or self.out[-2].type != "NUMBER"):
                over = False  # "a total of 30"
            following = self.at(self.i + 1)
            if over and following is not None and following.kind == "number":
                return self._emit("OVER", None, piece.start, piece.end)
            return self._link()
        if self.variety_open and self.last_is("VARIETY") and self.has("names_variety"):
            return self._link()  # "la variedad es la NA 5909"
        return self.text()

    def _sample_size(self) -> int:
        """ "Por planta (n=8): 2, 0, ..", "n = 10", "n=6 plants": the sign of statistics for plants looked at."""
        number = self.at(self.i + 2)
        equals = getattr(self.at(self.i + 1), "text", "") == "="
        if self.piece.text != SAMPLE or not equals or number is None or not isinstance(number.value, int):
            return 0
        if self.last_is("FEMALES", "COLOUR") or self.lead == "colon":
            return 2  # "females: n=12", "plants: n=6"
        noun = self.at(self.i + 3)
        if is_any(noun, ("PLANTS",)):
            return 2
        if is_any(noun, ("COLOUR", "FEMALES")) and not self.is_number(self.at(self.i + 4)):
            self.draft.ask("which_number", self.piece.start, self.ps[self.i + 3].end)  # "n=7 white": plants or females?
            self._emit("TEXT", None, self.piece.start, self.ps[self.i + 3].end)
            return 4
        self._emit("NUMBER", number.value, number.start, number.end)
        self._emit("PLANTS", "plants", number.end, number.end)
        stop = getattr(self.at(self.i + 3), "text", "") == ")" and self.colon_at(self.i + 4)
        self.lead = "colon" if stop else self.lead
        return 5 if stop else 3

    def _sounds_like_number(self) -> int:
        """ "Five plants for white too yellow": a dictated word is the number it sounds like, where nothing else fits.

        The answer says so. Where it might be a word or one of a list, it is asked about; a number is never changed.
        """
        heard = heard_number(self.made, self.piece.text)
        if heard is None:
            return 0
        noun = self.direct_index(self.i, 1)
        beyond = self.direct(noun, 1)
        if self.last_is("NUMBER") and self.lead == "" and is_any(self.at(noun), ("COLOUR",)):
            self.draft.ask("which_number", self.out[-1].start, self.piece.end)  # "twenty to white"
            return self.text()
        span = is_any(self.at(noun), ("UNIT",)) and len(self.ps[noun].text) > 2
        if span and (is_any(self.at(self.i - 1), ("LOOK",)) or getattr(self.before, "text", "") == "in"):
            return self._as_heard(heard)  # "look again in too weeks"
        if self.is_number(self.before) and self.is_number(self.after) and self.last_is("NUMBER"):
            listed = [word.type for word in self.out[-3:]] == ["NUMBER"] * 3 and not self.is_range_behind()
            if listed:
                return self._as_heard(heard)  # "one zero four to zero three": no range ends lower than it begins
            self.draft.ask("which_number", self.piece.start, self.piece.end)
            return self.text()  # "one zero four to zero three"
        behind_dug = self.last_is("DUG") and self.piece.text == "too"
        if (heard > MOST_HEARD_ALONE or behind_dug) and self.made.has("heard_noun", getattr(self.at(noun), "text", "")):
            led = any(word.type in ("DUG", "SPOT", "TOOL", "CHECK", "STAGE") for word in self.out[-3:])
            some = beyond is not None and beyond.value != 0
            if some and self.is_number(beyond) and not is_any(self.direct(self.direct_index(noun, 1), 1), COUNTED):
                return 0
            return self._as_heard(heard) if led else 0
        if self.last_is("DUG") and self.lead == "" and self.made.has("heard_noun", getattr(self.at(noun), "text", "")):
            return self._as_heard(heard)  # "dug too plants"
        if not is_any(self.at(noun), ("COLOUR",)) or len(self.ps[noun].text) < 3:
            return 0
        said = [word for word in self.out[-5:] if word.type != "LINK"]
        told = bool(said) and said[-1].type in _HEARD_BEHIND and said[-1].value != "any"
        before = self.before
        near = before is not None and (not linking(before) or self.made.has("before_count", before.text))
        counts = near and any(word.type in ("NUMBER", "PLANTS", "HAD") for word in said)
        towards = self.direct_index(self.direct_index(noun, 1), 1)
        if getattr(beyond, "text", "") == "to" and not is_any(self.at(towards), ("COLOUR",)):
            return 0
        if is_any(beyond, LEAFY | {"ROOTS", "NODULES", "TOP"}):
            return 0
        if self.piece.text == "to" and not (
            self.is_number(beyond) or heard_number(self.made, getattr(beyond, "text", ""))
        ):
            return 0  # "white to yellow"
        if not (told and counts) or (
            self.unknown(beyond) and beyond is not None and beyond.text not in self.made.plain
        ):
            return 0  # "too white to see", "for white grubs"
        return self._as_heard(heard)

    def is_range_behind(self) -> bool:
        """Might "to" between the two numbers beside it mean a range?"""
        low, high = self.out[-1].value, getattr(self.after, "value", None)
        return isinstance(high, int) and isinstance(low, int) and high > low

    def _as_heard(self, number: int) -> int:
        self._slip("near_word", str(number))
        piece = self.piece
        self.piece = self.ps[self.i] = Piece("number", piece.text, piece.start, piece.end, (), number, piece.spaced)
        return self._number()

    def _in_a_place_name(self) -> bool:
        """Dry Creek, White Oak: a place, not soil or females."""
        after = self.at(self.i + 1)
        named = (
            after is not None and after.spaced and self.made.has("place_word", after.text) and "SPOT" not in after.types
        )
        return named and not self.last_is("NUMBER")

    def _link(self) -> int:
        """A little word: kept only as part of free text around it."""
        piece = self.piece
        if self.variety_open and self.last_is("VARIETY") and not self.has("names_variety"):
            self.variety_open = False  # "a peking variety this spring"
        if self.has("new_clause") and self.lead in ("", "link") and self.last_is("NUMBER", "COLOUR", "PLANTS"):
            self.lead = "soft"
        if self.lead == "":
            self.lead = "link"
        if self.last_is("TEXT", "LINK") and self.lead == "link":
            return self._emit("LINK", None, piece.start, piece.end)
        if self.unknown(self.at(self.i + 1)):
            self._emit("LINK", None, piece.start, piece.end)
            self.lead = "link"
        return 1

    def _sprayed_with(self) -> int:
        """ "Sprayed: lambda-cyhalothrin", "sprayed with Tornado": what no list has, as written."""
        led = self.lead == "colon" or (
            self.lead == "link" and self.before is not None and self.before.text in anywhere("with_word")
        )
        if not (self.out and self.out[-1].type == "SPRAY" and led) or len(self.piece.text) < 3:
            return 0
        j = self.i + 1
        while (piece := self.at(j)) is not None and not piece.spaced and piece.kind in ("word", "sign", "number"):
            j += 1
        while j > self.i + 1 and self.ps[j - 1].kind == "sign":
            j -= 1
        end = self.ps[j - 1].end
        self._emit("CHEMICAL", written(self.draft.text, self.piece.start, end), self.piece.start, end)
        return j - self.i

    def _unknown_word(self) -> int:
        if used := self._sprayed_with():
            return used
        piece = self.piece
        written_as = self.draft.text[piece.start : piece.end]
        if self.variety_open:
            self._drop_links()
        if self.variety_open and self.has("wrote"):
            self.variety_open = False  # "si hay que cambiar de semilla, le dije que espere"
        if self._seed_told():
            self._emit("VARIETY", "variety", piece.start, piece.start)
            self.variety_open = True
            return self._emit("NAME", written_as, piece.start, piece.end)
        if used := self._maker_code() or self._beans_named():
            return used
        if self._variety_behind_planting():
            self.variety_open = True
            return self._emit("NAME", written_as, piece.start, piece.end)
        last = self.out[-1].type if self.out and self.lead in ("", "link", "colon") else ""
        code = any(ch.isdigit() for ch in piece.text) or self.names.capital(self.i)
        code = code or (last == "RESISTANCE" and self._numbered_seed())
        if self.variety_open and (last in ("VARIETY", "NAME") or (last == "RESISTANCE" and code)):
            if (last == "NAME" and not self.has("no_place")) or self._may_name_seed(code):
                return self._emit("NAME", written_as, piece.start, piece.end)
            self.variety_open = False
        dated = self.last_is("DATE") and len(self.out) > 1 and self.out[-2].type == "SPRAY"
        named = len(piece.text) > SHORTENED and piece.text.isalpha() and not ordinary(piece.text, self.made.language)
        if (self.last_is("SPRAY") or dated) and named:
            return self._emit("CHEMICAL", piece.text, piece.start, piece.end)
        if len(piece.text) < 4:
            return self.text()
        led = self.is_number(self.before) or is_any(self.before, ("FEMALES",)) or self._sums_up_color()
        story = not led and ordinary(piece.text, self.made.language)
        entry, shown = (None, "") if story else self._near_entry()
        if entry is None:
            return self.text()
        i = self.i
        self.ps[i] = self.piece = Piece("word", piece.text, piece.start, piece.end, (entry,), None, piece.spaced)
        size = len(self.out)
        used = self._word()
        if len(self.out) > size and self.out[size].type not in ("TEXT", "LINK"):
            self._slip("near_word", shown, piece)
            if (
                entry.type == "COLOUR"
                and size
                and is_any(self.at(i - 1), ("MOSTLY",))
                and self.out[size - 1].type == "TEXT"
            ):
                self.out[size - 1].type, self.out[size - 1].value = "MOSTLY", self.ps[i - 1].types["MOSTLY"].value
        return used

    def _sums_up_color(self) -> bool:
        """ "0, 1, 0, 2, todas bracas": behind "all" at the end of a clause, where something was counted."""
        ends = self.after is None or self.after.kind in ("break", "line")
        return ends and is_any(self.before, ("MOSTLY",)) and any(word.type == "NUMBER" for word in self.out)

    def _numbered_seed(self) -> bool:
        """ "(variedad susceptible) tapuia 73, ..": a strange word with a number that counts nothing."""
        number = self.direct_index(self.i, 1)
        behind = self.at(number + 1)
        ends = behind is None or behind.kind in ("break", "line") or behind.text == ":"
        return (
            ends
            and self.is_number(self.at(number))
            and not any(ordinary(self.piece.text, language) for language in LANGUAGES)
        )

    def _may_name_seed(self, code: bool) -> bool:
        """May this word begin a seed's name? Not "dad says" behind "a resistant variety", nor "guy" behind "seed"."""
        after = self.after
        beyond = self.direct(self.direct_index(self.i, 1), 1) if after is not None and linking(after) else None
        if not code and (is_any(after, ("SOURCE", "RESISTANCE")) or is_any(beyond, ("SOURCE",))):
            return False  # "la semilla trae PI 88788", "variety traces to PI 437654"
        numbered = self.is_number(after) or (after is not None and any(ch.isdigit() for ch in after.text))
        led = self.lead == "colon" or (self.lead == "link" and self.before is not None and self.before.text != "the")
        if numbered:
            return True
        if self.piece.text in self.made.plain and not self.names.capital(self.i):
            return False  # "the variety is holding"
        if led and not self.out[-1].text.startswith("seed"):
            return True
        plain = after is not None and after.kind == "word" and not self.names.capital(self.direct_index(self.i, 1))
        says = plain and after is not None and (not after.types or linking(after)) and after.text in self.made.plain
        says = says or (plain and after is not None and not after.types and code)
        story = self.piece.text in self.made.plain or says or self.has("no_place")
        return not story and (code or self.ps[self.i - 1].text not in anywhere("seed_word"))

    def _maker_code(self) -> int:
        """ "Água Boa com TMG 7062", "es NA 5909": a maker's capitals and a large number behind "with" or "is"."""
        word = self.draft.text[self.piece.start : self.piece.end]
        number, led = self.at(self.i + 1), self.at(self.i - 1)
        maker = word.isupper() and word.isalpha() and len(word) in MAKERS_LETTERS
        code = word.isalpha() and word.islower() and len(word) in MAKERS_LETTERS and not set(self.piece.text) & _SPOKEN
        code = code and word not in self.made.plain and not claims(self.ps, self.i + 2)
        whole = number is not None and number.kind == "number" and isinstance(number.value, int)
        least = LEAST_LOW_CODE if code else LEAST_CODE
        if led is None or number is None or not ((maker or code) and whole and number.value >= least):
            return 0
        if code and self.made.has("article", led.text) and self.i > 1:
            led = self.ps[self.i - 2]  # "é a rn 71"
        told = led.text in anywhere("with_word") | anywhere("seed_is") | anywhere("seed_word")
        told = told or (code and led.text in anywhere("seed_in"))
        if not told or self.names.bound(self.i + 1):
            return 0
        self._emit("VARIETY", "variety", self.piece.start, self.piece.start)
        self._emit("NAME", self.draft.text[self.piece.start : number.end], self.piece.start, number.end)
        return 2

    def _beans_named(self) -> int:
        """ "Kestrel has Tamsin 31 beans in it": a name with its number before the crop is a seed and no plants."""
        number, crop, led = self.at(self.i + 1), self.at(self.i + 2), self.at(self.i - 1)
        whole = number is not None and number.kind == "number" and isinstance(number.value, int)
        if number is None or crop is None or led is None or not whole or number.value < LEAST_SEED:
            return 0
        named = self.names.capital(self.i) and not self.made.has("seed_lead", self.piece.text)
        labelled = self.variety_open and is_any(led, ("VARIETY",))
        if not named or not self.made.has("seed_crop", crop.text):
            return 0
        if not labelled and not self.made.has("seed_lead", led.text):
            return 0
        if not labelled:
            self._emit("VARIETY", "variety", self.piece.start, self.piece.start)
        self._emit("NAME", self.draft.text[self.piece.start : number.end], self.piece.start, number.end)
        return 3

    def _variety_behind_planting(self) -> bool:
        """ "planted 5/9, Maple Crest 19", "the new Ombra 25 (Peking)": capitals and a number beside words of seed."""
        if not self.names.capital(self.i):
            return False
        j = self.i + 1
        while j < self.i + 3 and (piece := self.at(j)) is not None and piece.kind == "word" and self.names.capital(j):
            j += 1
        said = [word.type for word in self.out[-6:] if word.type != "LINK"]
        told = said[-2:] in (["PLANTED", "DATE"], ["DATE", "PLANTED"])
        k = j + 1
        while (piece := self.at(k)) is not None and (piece.text in ("(", ",", "-") or linking(piece)):
            k += 1
        sourced = is_any(self.at(k), ("SOURCE", "RESISTANCE")) and k < j + 5 and not self.variety_open
        if not self.is_number(self.at(j)):
            return False
        return (told and not self.names.bound(j)) or (sourced and not self.last_is("NUMBER", "NAME"))

    def _seed_told(self) -> bool:
        """ "A soja da baixada é BMX Desafio": a maker's letters behind "the beans are"."""
        word = self.draft.text[self.piece.start : self.piece.end]
        is_ = self.ps[self.i - 1].text if self.i else ""
        beans = any(is_any(piece, ("VARIETY", "TOPS")) for piece in self.ps[max(0, self.i - 6) : self.i])
        shouted = self.draft.text.isupper()  # "SOIL IS FIT"
        return is_ in anywhere("seed_is") and beans and word.isupper() and len(word) > 1 and not shouted

    def _near_entry(self) -> tuple[Entry | None, str]:
        """The one meaning a misspelt word can have here and the word it is taken for, or ``None``."""
        meanings: dict[tuple[str, str], tuple[Entry, str]] = {}
        for word in near_words(self.piece.text, self.made.language):
            if any(self.made.has(trait, word) for trait in ("weak", "weak_look", "vague", "no_near")):
                continue
            for entry in self.made.singles[word]:
                if entry.type in NEAR_TYPES and not entry.slip and self._fits(entry.type, word):
                    kind = "TOOL" if entry.type == "DUG" else entry.type
                    meanings.setdefault((kind, entry.value), (entry, word))
        colours = [key for key in meanings if key[0] == "COLOUR"]
        if len(colours) == 1 and all(kind in ("COLOUR", "ROOT", "NODULE") for kind, _ in meanings):
            return meanings[colours[0]]  # the same word, also said of roots
        if len(meanings) != 1:
            return None, ""
        return next(iter(meanings.values()))

    def _fits(self, kind: str, word: str) -> bool:
        """Could this word of a kind stand here? Without a number beside it, only long words that start alike."""
        before, after = self.before, self.after
        numbered = (self.is_number(before), self.is_number(after))
        if kind == "COLOUR":
            counted = self.last_is("FEMALES") and len(self.out) > 1 and self.out[-2].type == "NUMBER"
            return any(numbered) or counted or is_any(before, ("MOSTLY",))
        if kind in ("PLANTS", "FEMALES"):
            return numbered[0]
        if kind == "DUG":
            return any(numbered) or (is_any(before, ("PLANTS",)) and len(word) > 5)
        ends = [p is None or p.kind != "word" or bool(p.types) for p in (before, after)]
        return all(ends) and min(len(word), len(self.piece.text)) >= 5 and word[0] == self.piece.text[0]

    # --- a method for each kind that can be something else; 0 means "not that"

    def as_text(self) -> int:
        """A phrase that looks like ours and is not: white mold, soil sample."""
        return self.text()

    def as_not_looked(self) -> int:
        """ "To dig" means not looked only behind a reason: too wet to dig; "pulled, not dug" denies the digging."""
        if self.piece.text == "not dug" and self.last_is("DUG", "TOOL"):
            self._emit("NOT", "not", self.piece.start, self.piece.start + 3)
            return self._emit("DUG", "shovel", self.piece.end - 3, self.piece.end)
        if self._looked_at_colors() or self._no_such_roots():
            return self.text()
        if self._for_hours():
            return self._emit("ENTRY", "entry", self.piece.start, self.piece.end)  # "no se puede entrar por 24 horas"
        bare = self.piece.text.startswith(tuple(f"{word} " for word in anywhere("purpose")))
        return 0 if bare and not (self.out and self.out[-1].type == "MOISTURE") else self.take()

    def _for_hours(self) -> bool:
        """ "Can't go in for 48 hours": is a number of hours said right behind it?"""
        number = neighbour_index(self.ps, self.i, 1)
        if number is None or not self.is_number(self.at(number)):
            return False
        unit = self.at(number + 1)
        return is_any(unit, ("UNIT",)) and unit is not None and unit.types["UNIT"].value == "hour"

    def _no_such_roots(self) -> bool:
        """ "Didn't see any roots rotting", "no vi raíces oscuras": no such roots, and not none at all."""
        last, behind = self.piece.text.rsplit(" ", 1)[-1], self.at(self.i + 1)
        of_roots = any(entry.type == "ROOTS" for entry in self.made.singles.get(last, ()))
        if not of_roots or behind is None or behind.kind != "word":
            return False
        with_them = self.made.has("with_word", behind.text) or is_any(behind, ("ROOT", "COLOUR", "HAD"))
        return with_them or not behind.types

    def _looked_at_colors(self) -> bool:
        """ "I didn't look close at the color": nobody denies having looked for females."""
        behind = itertools.takewhile(lambda p: p.kind == "word", self.ps[self.i + 1 : self.i + 1 + COLORS_BEHIND])
        return any(self.made.has("color_word", word) for piece in behind for word in piece.text.split(" "))

    def as_had(self) -> int:
        """ "Infested" behind a number of plants was used up with it."""
        if self.out and self.out[-1].type == "POSITIVE" and self.out[-1].end >= self.piece.end:
            return 1
        if self.entry.value == "infested" and any(w.type == "POSITIVE" for w in self.out[-3:]):
            return self._emit("HAD", None, self.piece.start, self.piece.end)
        return 0

    def _clean_roots(self) -> bool:
        """Is it said of roots, where females are counted elsewhere?"""
        near = self.ps[max(0, self.i - 3) : self.i + 3]
        if not any(is_any(p, ("ROOTS",)) and not is_any(p, ("NONE",)) for p in near):
            return False
        pairs = zip(self.ps, self.ps[1:], strict=False)
        return any(self.is_number(p) and p.value and is_any(q, ("COLOUR", "FEMALES")) for p, q in pairs)

    def as_none(self) -> int:
        """None seen; "clean" only where nothing else is clean; "none" before nodules or a colour denies just that."""
        before, after = self.near_before, self.near_after
        if some := self._some_plants_clean():
            return some
        if self.entry.value == "clean":
            beyond = self.at(self.i + 1)
            other = beyond is not None and self.made.has("clean_but", beyond.text)
            counted = self.last_is("PLANTS") and len(self.out) > 1 and self.out[-2].type == "NUMBER"
            tops = is_any(before, ("TOPS", "SOAKED", "EDGES", "FIELD")) and not counted  # "3 matas limpias"
            tops = tops and not (before is not None and self.made.has("bucket_word", before.text))  # "5pl bkt clean"
            if tops or is_any(after, ("TOPS",)) or other:
                return 0
            if self._clean_roots():
                ahead = is_any(self.after, ("COLOUR", "ROOT")) and not self.is_number(self.before)
                return 1 if ahead else self.text()  # "clean white roots", "raíz blanca y limpia, 6 pl 2 hembras"
            self._slip("clean_as_none", "")
            return self.take(value="none")
        other = is_any(self.after, ("TOPS", "TOP", "EDGES", "BANDS")) and not is_any(self.after, ("PLANTS",))
        if self.has("open_none") and (other or self._noun_behind()):
            return 0  # "no se ven manchones", "no hubo forma": none of something else
        if is_any(after, ("NODULES",)) and not self._said_of_nodules():
            return self._emit("NODULE", "few", self.piece.start, self.piece.end)
        titled = bool(self.out) and self.out[-1].type == "COLOUR" and self.lead == "colon"
        counted = len(self.out) > 1 and self.out[-2].type == "NUMBER" and self.out[-1].lead == ""
        bare = (self.last_is("COLOUR") or titled) and not (counted and not self._labels_first())
        if bare and is_any(self.direct(self.i, -1), ("COLOUR",)) and not is_any(after, ("COLOUR",)):
            colour = self.out.pop()
            self._emit("NOT", "not", self.piece.start, self.piece.end, lead=colour.lead)
            self.out.append(colour)
            colour.lead, colour.free = "link", True
            return 1
        if is_any(after, ("COLOUR",)) and self._labels_zero():
            return self._emit("NUMBER", 0, self.piece.start, self.piece.end)
        if is_any(after, ("COLOUR",)) and "clean" not in self.piece.text and not self._number_ahead():
            return self.take("NOT", "not")
        beyond, following = self.at(self.i + 1), self.at(self.i + 2)
        story = beyond is not None and beyond.text == "but" and following is not None and following.kind == "word"
        if story and following is not None and not (self._colour_in_clause() or self.made.has("vague", following.text)):
            return self.take()  # "saw nothing but the ground was hard"
        return 0 if beyond is not None and self.made.has("nothing_but", beyond.text) else self.take()

    def _labels_first(self) -> bool:
        """ "Marrones 23 amarillas 4 blancas no vi": in a row of colors each stands before its count."""
        n = len(self.out) - 1
        while n > 1 and [word.type for word in self.out[n - 2 : n]] == ["COLOUR", "NUMBER"]:
            n -= 2
        return n < len(self.out) - 1 and not (n and self.out[n - 1].type == "NUMBER" and self.out[n].lead == "")

    def _labels_zero(self) -> bool:
        """ "White none yellow six tan 31": each color before its count, and none of the first."""
        first = self.last_is("COLOUR") and not (len(self.out) > 1 and self.out[-2].type == "NUMBER")
        second = self.direct_index(self.i, 1)
        count, beyond = self.direct(second, 1), self.direct(self.direct_index(second, 1), 1)
        return (
            first
            and self.is_number(count)
            and (beyond is None or beyond.kind in ("break", "line") or is_any(beyond, ("COLOUR",)))
        )

    def _some_plants_clean(self) -> int:
        """ "6 dug, 5 clean, 1 had 3 white": some of the plants told had none; what the others had stands behind."""
        count = self.out[-1] if self.last_is("NUMBER") and self.lead == "" else None
        if count is None or not isinstance(count.value, int) or count.lead not in ("soft", "hard", "link", "colon"):
            return 0
        since = range(len(self.out) - 2, max(-1, len(self.out) - LOOKED_BACK), -1)
        told = next((self.out[n].value for n in since if self.out[n].type == "NUMBER" and self._of_plants_told(n)), 0)
        if not (isinstance(told, int) and told > count.value > 0):
            return 0
        count.type = "TEXT"
        return self.text()

    def _noun_behind(self) -> bool:
        """A noun that is not ours right behind "there was no"."""
        noun = self.at(self.i + 1)
        ours = noun is None or noun.kind != "word" or bool(noun.types.keys() - COMMAND_TYPES)
        return noun is not None and not ours and noun.text not in anywhere("still")

    def _colour_in_clause(self) -> bool:
        for j in range(self.i + 1, len(self.ps)):
            piece = self.at(j)
            if piece is None or piece.kind in ("break", "line"):
                return False
            if is_any(piece, ("COLOUR", "FEMALES")) and len(piece.text) > 1:
                return True
        return False

    def _said_of_nodules(self) -> bool:
        """Do the nodules behind "none" have words of their own ("none, nodules pink")?"""
        j = neighbour_index(self.ps, self.i, 1)
        return j is not None and is_any(self.near(j, 1), ("NODULE", "GREEN"))

    def _number_ahead(self) -> bool:
        j = self.i + 1
        while j < len(self.ps) and self.ps[j].kind == "word":
            j += 1
        return self.is_number(self.at(j)) and not claims(self.ps, j + 1)

    def as_not(self) -> int:
        """No, not, without: before something it can deny."""
        after = self.near_after
        if after is None:
            return 0
        if after.kind in ("number", "stage", "day"):
            return self.take()
        if is_any(after, ("COLOUR",)) and is_any(self.after, ("CORRECT",)) and not self.is_number(self.before):
            self.draft.ask("doubtful", self.piece.start, after.end)  # "no eran blancas": then of which color?
            return self.text()
        if is_any(after, ("SOAKED",)) and not is_any(after, ("DUG", "COLOUR")):
            j = neighbour_index(self.ps, self.i, 1) or self.i
            said = "no" if after.types["SOAKED"].value == "yes" else "yes"
            self._emit("SOAKED", said, self.piece.start, self.ps[j].end)
            return j - self.i + 1
        if is_any(after, ("NODULES",)):
            return self._emit("NODULE", "few", self.piece.start, self.piece.end)
        if is_any(after, ("TOP", "TOPS", "BANDS", "VEINS", "ROOT", "ROOTS")) and not is_any(
            after, ("COLOUR", "DUG", "PLANTS")
        ):
            return self._denied()
        kinds = (
            "COLOUR",
            "FEMALES",
            "PLANTS",
            "MOISTURE",
            "DUG",
            "TOOL",
            "FIELD",
            "RESISTANCE",
            "SOAKED",
            "NONE",
            "TEXTURE",
        )
        return self.take() if is_any(after, kinds) else 0

    def _denied(self) -> int:
        """No patches, not stunted: said, but nothing to keep except the words."""
        j = neighbour_index(self.ps, self.i, 1) or self.i
        self._emit("TEXT", None, self.piece.start, self.ps[j].end)
        return j - self.i + 1

    def as_colour(self) -> int:
        """A colour of females beside a number, of leaves or roots beside those, else a shade said without number."""
        piece, before, after = self.piece, self.before, self.after
        if piece.value == "tied":
            return self.take()
        if piece.text == "y" and self._and_of_counts():
            return self._link()  # "10 white y 4 yellow"
        if self._with_slash(self.i) or self._with_word():
            return 0
        seeks = before is not None and self.made.has("seeks", before.text)
        if (seeks and not is_any(self.at(self.i - 2), ("ROOTS", "NODULES", "TOPS"))) or self._late_for():
            return self.text()  # "looked for white, saw none", and not "roots look white"
        if self.i and self.ps[self.i - 1].text in ("?", "x", "xx") and self.last_is("DUG", "PLANTS", "TEXT", "TOOL"):
            self.draft.ask("doubtful", self.ps[self.i - 1].start, piece.end)  # "6 dug ??? white"
            return self.text()
        bare = (
            not numbered_by(after)
            and not self.is_number(before)
            and not is_any(self.near_before, ("MOSTLY", "TOO_MANY"))
        )
        if bare and self.has("shade_or_soil") and not is_any(self.near_after, ("FEMALES", "COLOUR", "TOO_MANY")):
            self.draft.ask("unknown_word", piece.start, piece.end)  # "R3 wt": wet, or white?
            return self.text()
        if self._ten_or_tan():
            self.draft.ask("which_number", piece.start, self.ps[self.i + 1].end)
            return self.text()
        if self.i and self.ps[self.i - 1].text in anywhere("percent") | {"%"}:
            return self._shade()
        if self.is_number(before) and self.last_is("NUMBER"):
            return self._metres() or self._counted_colour(after)
        near_before, near_after = self.near_before, self.near_after
        staged = [p is not None and p.kind == "stage" for p in (before, after)]
        if all(staged) and "LINK" in piece.types:
            return 0  # "V4 a V5"
        if not numbered_by(after) and not self.is_number(before) and self._of_another_crop():
            return self.text()  # "el maíz del vecino está amarillo"
        letter = len(piece.text) == 1 and piece.spaced and after is not None and after.kind == "number"
        if letter and after is not None and after.value > MOST_BY_LETTER:
            return self.text()  # "material M 5917"
        if self._road(after) and after is not None:
            self._emit("TEXT", None, piece.start, after.end)
            return self.direct_index(self.i, 1) - self.i + 1
        numbered = self.is_number(near_after) and not self._only_a_link()
        if self.entry.slip and not is_any(near_before, ("MOSTLY",)):
            ordinary = piece.text in self.made.plain
            if not numbered or ordinary:
                return 0
        listed = any(word.type == "NUMBER" for word in self.out[-4:]) and self.last_is("MOSTLY")
        counted = [word.type for word in self.out[-2:]] == ["NUMBER", "FEMALES"] and self.lead == ""
        if counted and self._joined() and self._joined_behind():
            self.lead = "soft"  # "12 cysts w+y": as many of both together
            return self._shade()
        listed = listed or counted  # "2 fêmeas brancas raiz alva"
        beside = "" if is_any(after, ("FEMALES",)) or listed else self._beside()  # "16 5 mostly yellow there is a .."
        free = numbered and self._free_number()
        if beside and not free:
            return self._adjective(beside)
        if (
            self.last_is("NONE")
            and "root" in self.out[-1].text.lower()
            and self.entry.value == "white"
            and not numbered
        ):
            return self.take("ROOT", "white")  # "roots clean and white"
        if (
            self._of_the_roots()
            and not self._counted_behind()
            and not is_any(near_after, ("FEMALES", "MOSTLY", "NONE"))
        ):
            return self._adjective("ROOT")
        if self._closes_a_list():
            self._emit("MOSTLY", "all", piece.start, piece.start)
            return self._shade()  # "0 0 3 1 0; W."
        if self.entry.value == "yellow" and not self.is_number(before) and not listed and self._on_top():
            return self.take("LEAF", "yellow")  # "stunted patch the size of a barn, yellow on top too"
        edges = (self.at(self.i - 1), self.at(self.i + 1))
        if len(piece.text) == 1 and [p.text if p is not None else "" for p in edges] == ["(", ")"]:
            return self.take()  # "2 3 2 6 1 (w)"
        joined = self.lead == "link" and self.ps[self.i - 1].text in joints() and not is_any(after, ("FEMALES",))
        if self.entry.value == "yellow" and self.last_is("TOP") and joined and not numbered:
            return self.take("LEAF")  # "stunted y yellow", "short and yellow"
        if self.entry.value == "yellow" and is_any(after, ("SPOT",)) and len(piece.text) > 1 and not numbered:
            return self.take("LEAF")  # "in the yellow strip 3 plants"
        sized = [word.type for word in self.out[-2:]] == ["TOP", "TEXT"] and self.lead == ""
        if self.entry.value == "yellow" and sized and self.out[-2].value in ("patch", "ring") and not numbered:
            return self.take("LEAF")  # "manchón de 20x30 amarillo"
        told = self.draft.text[self.out[-1].end : piece.start].lower().split() if self.out else []
        if self.entry.value == "yellow" and self.last_is("FIELD") and told and told[0] in anywhere("looks"):
            return self.take("LEAF")  # "tinkers is yellow"
        if self.entry.value == "yellow" and not letter_of(piece) and not numbered and self._of_the_crop():
            return self.take("LEAF")  # "it's a little yellow"
        if self.entry.value == "yellow" and self._whole_crop():
            self.out[-1].type, self.out[-1].value = "TEXT", None
            return self.take("LEAF")  # "V5 baixinha, toda amarela"
        if (
            is_any(near_before, ("MOSTLY", "NOT", "TOO_MANY"))
            or is_any(before, ("HAD",))
            or self.last_is("NOT")
            or self._joined()
        ):
            return self._shade()
        if free:
            return self.take()
        if self._goes_on("TOP", "LEAF") and self.entry.value == "yellow" and not numbered:
            return self.take("LEAF")  # "tops stunted, yellow"
        if self._goes_on("NODULE", "NODULES") and self.entry.value in ("brown", "tan") and not numbered:
            return self.take("NODULE", "brown")  # "nódulos muertos, pardos"
        letter = len(piece.text) == 1
        heads = before is None or before.kind in ("break", "line") or is_any(before, ("FIELD",))
        if heads and getattr(self.at(self.i + 1), "text", "") == "," and is_any(self.at(self.i + 2), ("TOO_MANY",)):
            return self.take()  # "w, 2 mny 2 cnt"
        little = letter and "LINK" in piece.types and self.made.language != "en"  # "a media ladera"
        if is_any(after, ("EACH",)) and not self.is_number(near_before) and not little:
            return self._shade()
        behind = self.at(self.i + 2)
        ends = behind is None or behind.kind in ("break", "line") or behind.text == ":"
        shaded = not letter or (ends and not little)  # "w only: 3 2 0"
        if is_any(after, ("MOSTLY",)) and shaded and not self.is_number(before) and (letter or not numbered):
            if letter and after is not None and after.types["MOSTLY"].value == "all":
                self._emit("MOSTLY", "all", piece.start, piece.start)
            return self._shade()
        if is_any(near_after, ("MOSTLY", "TOO_MANY", "FEMALES", "NONE")) and not letter:
            return self.take()
        if self.last_is("FEMALES") and any(word.type == "POSITIVE" for word in self.out[-3:]):
            return self._shade()  # "3 com cisto marrom, 19 no total"
        if is_any(near_before, ("FEMALES",)):
            return self.take()
        if letter and before is not None and self.made.has("rest_word", before.text) and self._goes_on_nowhere():
            return self._shade()  # "28 w, rest y"
        if letter or self.entry.slip:
            return 0
        if self.unknown(after) or (self.unknown(before) and self.lead in ("", "link")):
            return self.text()
        return self.take()

    def _on_top(self) -> bool:
        """ "(Yellow) on top": right behind the word at hand, and no letter."""
        top = self.at(self.i + 1)
        below = top.types.get("BELOW") if top is not None else None
        return below is not None and below.value == "top" and len(self.piece.text) > 2

    def _road(self, number: Piece | None) -> bool:
        """ "Passei pela BR 163": two capitals behind a little word, a large number behind them."""
        word = self.draft.text[self.piece.start : self.piece.end]
        led = self.ps[self.i - 1].text if self.i else ""
        large = number is not None and number.kind == "number" and number.value >= LEAST_CODE
        return len(word) == 2 and word.isupper() and large and led in anywhere("road_lead")

    def _and_of_counts(self) -> bool:
        """The Spanish "and" between two counts of a note in English words."""
        number = self.direct_index(self.i, 1)
        counts = self.is_number(self.at(number)) and is_any(self.direct(number, 1), ("COLOUR", "FEMALES"))
        return counts and self.piece.spaced and self.last_is("COLOUR") and self.out[-2:-1] != []

    def _ten_or_tan(self) -> bool:
        """ "6 plants tan white", as heard: ten of them, or tan ones and white ones?"""
        beyond = self.at(self.i + 1)
        colours = is_any(beyond, ("COLOUR",)) and beyond is not None and len(beyond.text) > 2 and beyond.spaced
        alone = not self.is_number(self.direct(self.i + 1, 1)) and not is_any(self.direct(self.i + 1, 1), ("TOPS",))
        return self.piece.text == "tan" and colours and alone and self.last_is("PLANTS", "DUG", "SOAKED")

    def _goes_on_nowhere(self) -> bool:
        """Does the clause end here?"""
        return self.after is None or self.after.kind in ("break", "line")

    def _goes_on(self, *types: str) -> bool:
        """ "Roots stubby, dark": does a comma lead on from what was said of the same, with nothing behind it?"""
        told = bool(self.out) and self.out[-1].type in types and self.lead == "soft"
        return told and self._goes_on_nowhere()

    def _of_the_roots(self) -> bool:
        """ "Raíz linda, blanca, con nódulos": a clause that goes on about the roots its sentence began with."""
        if self.lead not in ("", "soft", "link") or len(self.piece.text) < 3:
            return False
        for n in range(len(self.out) - 1, max(-1, len(self.out) - LOOKED_BACK), -1):
            word, before = self.out[n], self.out[n - 1].type if n else ""
            roots = word.type == "ROOTS" or (word.type == "ROOT" and " " in word.text)
            if roots and (word.lead in ("hard", "line", "soft") or before in ("FIELD", "STAGE", "DATE")):
                return word.type == "ROOT" or n < len(self.out) - 1
            if word.type not in ("TEXT", "LINK", "ROOT", "NODULE", "NODULES") or word.lead in ("hard", "line"):
                return False
        return False

    def _counted_behind(self) -> bool:
        """ "Blancas 3": does the number behind this color count it? Not in "marrones, 3 hembras"."""
        j = neighbour_index(self.ps, self.i, 1)
        return j is not None and self.is_number(self.at(j)) and not claims(self.ps, j + 1)

    def _of_the_crop(self) -> bool:
        """ "Depot was yellow on ..", "it's a little yellow": said of the field, with no number before it."""
        k, said = self.i - 1, False
        while k >= 0 and self.i - k <= CROP_AHEAD and self.ps[k].kind == "word":
            text = self.ps[k].text
            if not (self.made.has("copula", text) or self.made.has("degree", text)):
                break
            said = said or self.made.has("copula", text)
            k -= 1
        if not said or is_any(self.after, ("FEMALES", "PLANTS")):
            return False
        named = self.made.has("crop_pronoun", self.ps[k].text if k >= 0 else "")
        named = named or self.made.has("crop_pronoun", self.ps[k + 1].text)
        opens = k < 0 or self.ps[k].kind in ("break", "line")
        named = named or (opens and self.made.has("unsaid_subject", self.ps[k + 1].text))  # "Está medio amarillo"
        counts = {"NUMBER", "FEMALES", "POSITIVE", "TOO_MANY"}
        before = next((word for word in reversed(self.out) if word.start < self.ps[k + 1].start), None)
        ends = before is not None and before.type == "FIELD" and self.ps[k].end >= before.end
        field = k >= 0 and (is_any(self.ps[k], ("FIELD",)) or ends)
        if not (field or (named and not any(word.type in counts for word in self.out))):
            return False
        for word in itertools.takewhile(lambda word: word.start >= self.ps[k + 1].start, reversed(self.out)):
            if word.type == "MOSTLY":
                word.type, word.value = "TEXT", None  # "a little", "just plain"
        return True

    def _whole_crop(self) -> bool:
        """ "V5, toda amarela": all of it, told right behind how the crop stands, before anything is counted."""
        before = self.at(self.i - 1)
        own = [word.type for word in self.out]
        since = own[max((n for n, type_ in enumerate(own) if type_ == "FIELD"), default=0) :]
        counted = {"NUMBER", "FEMALES", "POSITIVE", "TOO_MANY", "NONE", "DUG", "TOOL", "PLANTS"} & set(since)
        whole = before is not None and self.made.has("whole_crop", before.text) and self.last_is("MOSTLY")
        female = any(is_any(self.at(self.i + ahead), ("FEMALES",)) for ahead in (1, 2))  # "tudo amarelo as fêmeas"
        return whole and not counted and not female and len(own) > 1 and own[-2] in ("STAGE", "TOP", "TOPS", "LEAF")

    def _late_for(self) -> bool:
        """ "Seems late for white", "too early for tan": what is said of the time of the year."""
        words = [piece.text for piece in self.ps[max(0, self.i - 2) : self.i]]
        return len(words) == 2 and self.made.has("timing", words[0]) and self.made.has("timing_for", words[1])

    def _closes_a_list(self) -> bool:
        """Is this letter, or this color behind a full stop, alone between two stops, right behind a list?"""
        whole = len(self.piece.text) > 1 and self.lead != "hard"
        if whole or [word.type for word in self.out[-3:]] != ["NUMBER"] * 3:
            return False
        sides = (self.at(self.i - 1), self.at(self.i + 1))
        return sides[0] is not None and all(p is None or p.kind in ("break", "line") for p in sides)

    def _metres(self) -> int:
        """ "Manchón de 30 m": a letter behind a number that "of" or "at" leads to is a measure's, no color's."""
        led = self.ps[self.i - 2] if self.i > 1 else None
        letter = len(self.piece.text) == 1 and self.piece.spaced and self.made.language != "en"
        if not (letter and led is not None and self.made.has("leads_measure", led.text)):
            return 0
        self.out[-1].type, self.out[-1].value = "TEXT", None
        return self.text()

    def _only_a_link(self) -> bool:
        """ "seco a 60 m": a letter that is also a little word names a colour only where its number stands free."""
        if len(self.piece.text) > 1 or "LINK" not in self.piece.types or self.colon_at(self.i + 1):
            return False
        j = self.direct_index(self.i, 1)
        if j < len(self.ps) and self.ps[j].kind == "word" and linking(self.ps[j]):
            return True  # "próxima mirada a los 12 días"
        k = self.direct_index(j, 1)
        beyond = self.at(k)
        if beyond is not None and is_any(beyond, ("MEASURE",)) and self._is_measure(k, beyond):
            return True
        free = (
            beyond is None or beyond.kind in ("break", "line", "number") or is_any(beyond, ("COLOUR", "PLANTS", "EACH"))
        )
        free = free or (is_any(beyond, ("NOT",)) and self.is_number(self.direct(k, 1)))  # "w 11 not 9"
        return not (free or (beyond is not None and self.made.has("over", beyond.text)))

    def _shade(self) -> int:
        """A colour that may stand without a number; "no white or yellow" denies both."""
        types = [word.type for word in self.out[-2:]]
        if types == ["NOT", "COLOUR"] and self.lead == "link" and self._joined():
            self._emit("NOT", "not", self.piece.start, self.piece.start, lead="soft")
        used = self.take()
        self.out[-1].free = True
        return used

    def _of_another_crop(self) -> bool:
        """Is another crop named before it in its sentence?"""
        for j in range(self.i - 1, max(-1, self.i - 7), -1):
            piece = self.ps[j]
            if piece.kind in ("line", "number") or piece.value == "hard":
                return False
            if any(self.made.has("other_crop", word) for word in piece.text.split()):
                return True
        return False

    def _counted_colour(self, after: Piece | None) -> int:
        """3 white; but 3 yellow leaves are leaves, and 12 yellow plants must be asked about."""
        counting = [word.type for word in self.out[-3:-1]] == ["NUMBER", "COLOUR"]  # "9 white 4 yellow, edges .."
        counting = counting or self.made.language != "en" or self.piece.text.endswith("s")  # "10 bcas 2 amar hojas .."
        counting = counting or self._crop_told(after)
        leaf = (is_any(after, ("TOPS", "EDGES")) and not counting) or (self._shape(after) and not counting)
        if leaf and not is_any(after, ("COLOUR", "PLANTS")):
            self.out[-1].type = "TEXT"
            return self.take("LEAF")
        if (
            is_any(after, ("PLANTS",))
            and is_any(after, ("TOPS",))
            and not counting
            and not self.is_number(self.direct(self.direct_index(self.i, 1), 1))
        ):
            j = self.direct_index(self.i, 1)
            self.draft.ask("coloured_plants", self.out[-1].start, self.ps[j].end)
            self.out[-1].type = "TEXT"
            self._emit("TEXT", None, self.piece.start, self.ps[j].end)
            return j - self.i + 1
        if self._joined() and self._joined_behind():
            self._emit("FEMALES", "female", self.piece.start, self.piece.start)
            self.lead = "soft"  # "12 white/yellow": as many of both together
            return self._shade()
        return self._shade() if self._joined() else self.take()

    def _crop_told(self, after: Piece | None) -> bool:
        """ "6 plants 2 white plants look pale": counted plants, one count, and what the crop is like told behind it."""
        if self.entry.value != "white" or not is_any(after, ("TOPS", "EDGES", "TOP")):
            return False
        if not any(word.type == "PLANTS" for word in self.out):
            return False
        counts = any(p is not self.piece and is_any(p, ("FEMALES", "NONE", "TOO_MANY")) for p in self.ps)
        if counts or any(word.type in ("COLOUR", "TOTAL", "POSITIVE") for word in self.out):
            return False
        j = self.direct_index(self.direct_index(self.i, 1), 1)
        behind = self.ps[j : j + CROP_AHEAD]
        said = any(self.made.has("copula", p.text) or is_any(p, ("TOP",)) for p in behind)
        return said or is_any(after, ("TOP",))

    def _joined_behind(self) -> bool:
        """Are the colors joined behind this one without a number of their own ("12 w+y", "12 w+y+t")?"""
        j, last = self.i + 1, self.i
        while (piece := self.at(j)) is not None and self._joint(piece) and piece.text != "some":
            while (piece := self.at(j)) is not None and self._joint(piece) and piece.text != "some":
                j += 1
            if not is_any(piece, ("COLOUR",)):
                break
            last, j = j, j + 1
        behind = self.at(last + 1)
        ends = behind is None or behind.kind in ("break", "line") or is_any(behind, ("FEMALES",))
        ends = ends or getattr(behind, "text", "") in anywhere("blend") or self._is_of_the_look(last + 1)
        joint = self.at(self.i + 1)
        plain = len(self.piece.text) > 2 or (joint is not None and joint.kind == "sign")
        return last > self.i and plain and ends

    def _is_of_the_look(self, j: int) -> bool:
        """ "(9 white and yellow) on 6 plants", ".. con pala", ".. volto qua": no more is said of the colors."""
        piece, behind, beyond = self.at(j), self.at(j + 1), self.at(j + 2)
        upon = piece is not None and piece.text in anywhere("upon_plant") and self.is_number(behind)
        plants = is_any(beyond, ("PLANTS",)) if upon else self.is_number(piece) and is_any(behind, ("PLANTS",))
        return plants or is_any(piece, ("TOOL", "DUG", "SOAKED", "LOOK"))

    def _adjective(self, beside: str) -> int:
        """A colour said of roots, nodules or leaves."""
        if beside == "LEAF" and not (len(self.piece.text) == 1 and "LINK" in self.piece.types):
            return self.take("LEAF")
        if len(self.piece.text) == 1:
            return 0
        value = {("ROOT", "white"): "white", ("ROOT", "brown"): "dark", ("NODULE", "brown"): "brown"}.get(
            (beside, self.entry.value)
        )
        return self.take(beside, value) if value else self.text()

    def _beside(self) -> str:
        """Which noun an adjective stands nearest to: ROOT, NODULE, LEAF or none."""
        joint, left = self.at(self.i + 1), self._towards(-1)
        ends = joint is not None and joint.kind == "word" and joint.text in joints() and left is not None
        if ends and left is not None and self._said_to_be(left[0]):
            return left[1]  # "the roots are nice and white and the nodules are pink"
        sides = [side for side in (self._towards(-1), self._towards(1)) if side is not None]
        return min(sides, key=lambda side: side[0])[1] if sides else ""

    def _said_to_be(self, distance: int) -> bool:
        """Does a word like "are" stand between the noun so far before and the adjective?"""
        between = self.ps[max(0, self.i - distance) : self.i]
        return any(self.made.has("copula", piece.text) for piece in between)

    def _towards(self, step: int) -> tuple[int, str] | None:
        """The first noun on one side, other adjectives passed over: its distance, and ROOT, NODULE or LEAF."""
        j = self.i
        for distance in range(9):
            j = self._over_name(j + step, step)
            other = self.at(j)
            quantity = other.types.get("NODULE") if other is not None and step > 0 else None
            if quantity is not None and quantity.value in ("few", "many") and not is_any(other, ("TOP", "LINK")):
                return None  # "dark hardly any nodules": what stands before the quantity is said of the roots
            told_of = (
                other is not None and other.text == "," and step < 0 and self.made.has("which", self.ps[j + 1].text)
            )
            labelled = other is not None and step < 0 and other.text in (":", "=") and self._labels_roots(j - 1)
            if told_of or labelled:
                continue  # "rinsed the roots, which were white"
            if other is None or (other.kind != "word" and not (other.kind == "sign" and other.text in "+/&-")):
                return None
            noun = "" if other.kind == "sign" else self._noun(j, step)
            if noun:
                on = (
                    noun == "ROOT" and step == 1 and self.ps[self.i + 1].text in anywhere("upon")
                )  # "yellow on the roots"
                return None if on else (distance, noun)
            types = other.types.keys()
            if step == -1 and distance < 2 and other.kind == "word" and not types:
                continue  # "roots look terrible black"
            passing = types & {"COLOUR", "LINK", "ROOT", "NODULE", "GREEN", "ABOUT", "TOP"} or (
                step == -1 and "MOSTLY" in types
            )
            if other.kind == "word" and not passing:
                return None
        return None

    def _labels_roots(self, j: int) -> bool:
        """ "Roots: white": roots, nodules or tops before a colon, and no plants counted."""
        piece = self.at(j)
        return is_any(piece, ("ROOTS", "NODULES")) or (is_any(piece, ("TOPS",)) and not is_any(piece, ("PLANTS",)))

    def _over_name(self, j: int, step: int) -> int:
        """Past a field's name in the middle of a sentence ("the roots at old mill east were white")."""
        for first, name in self.found.items():
            if first <= j < name.last and first > 0:
                return name.last if step > 0 else first - 1
        return j

    def _noun(self, j: int, step: int) -> str:
        """What the word at j is the name of: ROOT, NODULE, LEAF or nothing."""
        piece = self.ps[j]
        types = piece.types.keys()
        if step < 0 and "SOAKED" in types and " root" in piece.text:
            return "ROOT"  # "rinsed the roots, which were white"
        if ("ROOTS" in types and not self._counts(j)) or ("ROOT" in types and " " in piece.text):
            return "ROOT"
        if "NODULES" in types:
            return "NODULE"
        if types & LEAFY and not self._counts(j):
            bare = types & {"NEW", "OLD"} and not types & {"EDGES", "VEINS"}
            return "LEAF" if not bare or self._leaves_near(j) else ""
        top = piece.types.get("TOP")
        if top is None or "COLOUR" in types or not (step == 1 or top.value in ("patch", "ring")):
            return ""
        if self.made.has("weak", piece.text) and is_any(self.direct(j, 1), ("NODULES", "ROOTS")):
            return ""
        return "LEAF" if not self.made.has("weak", piece.text) or top.value in ("patch", "stunted") else ""

    def _counts(self, j: int) -> bool:
        """Does the word at j stand beside a number that it could count?"""
        if not is_any(self.ps[j], ("PLANTS",)):
            return False
        k = self.direct_index(j, 1)
        behind = self.is_number(self.at(k)) and not claims(self.ps, k + 1)
        return behind or self.is_number(self.direct(j, -1))

    def _leaves_near(self, i: int) -> bool:
        """New or old what? Leaves must be near."""
        return any(is_any(self.at(j), ("TOPS", "EDGES", "VEINS")) for j in range(i - 3, i + 4))

    def _free_number(self) -> bool:
        """Is the number behind this colour free, or does a noun behind it claim it ("leaves yellow 6 plants")?"""
        if not self.last_is("TOPS", "NEW", "OLD", "EDGES", "VEINS", "BANDS", "LEAF", "TOP", "ROOTS", "ROOT", "NODULES"):
            return True
        j = neighbour_index(self.ps, self.i, 1)
        beyond = self.near(j, 1) if j is not None else None
        return not is_any(beyond, COUNTED | {"UNIT", "NODULES", "DAP", "MEASURE"})

    def _joined(self) -> bool:
        """w+y, white/yellow, tan and brown: another colour right beside it."""
        for step in (-1, 1):
            j = self.i + step
            joined = False
            while (piece := self.at(j)) is not None and self._joint(piece):
                joined = True
                j += step
            if joined and is_any(piece, ("COLOUR",)):
                return True
        return False

    def _joint(self, piece: Piece) -> bool:
        if piece.kind == "sign":
            return piece.text in "+/&-"
        return (piece.text == "&" or piece.text in anywhere("shade_joint")) and "COLOUR" not in piece.types

    def _names_a_list(self) -> bool:
        """ "3-0-1-6-2 cysts": what a list written as one counts, one number a plant."""
        row = list(itertools.takewhile(lambda word: word.type == "NUMBER", reversed(self.out)))[::-1]
        between = {self.draft.text[one.end : other.start] for one, other in itertools.pairwise(row)}
        return len(row) > 2 and self.lead == "" and between in ({"-"}, {"/"})

    def as_females(self) -> int:
        """Females, cysts: beside a number or a word of seeing."""
        if self._names_a_list():
            return 1
        beside = self._numbered() or is_any(self.near_before, ("COLOUR",))
        if self.entry.slip and not (beside and not self.has("timid_females")) and not self._upon_roots():
            return 0  # "went with my two sisters"
        words = self.piece.text.split(" ")
        told = words if len(words) > 1 and self.last_is("NUMBER") else words[1:]  # "2 white dots"
        within = [e for word in told for e in self.made.singles.get(word, ())]
        colours = [e.value for e in within if e.type == "COLOUR"]
        self.take()
        if colours and not is_any(self.near_after, ("COLOUR",)):
            bare = len(self.out) < 2 or self.out[-2].type != "NUMBER"
            if bare and not is_any(self.near_before, ("MOSTLY",)):
                self._emit("MOSTLY", "all", self.piece.end, self.piece.end)  # "había bolitas blancas, conté 13"
            self._emit("COLOUR", colours[0], self.piece.end, self.piece.end)
            self.out[-1].free = bare
        return 1

    def _upon_roots(self) -> bool:
        """ "Sisters on the roots again"."""
        upon = self.at(self.i + 1)
        if upon is None or upon.text not in anywhere("upon_plant"):
            return False
        k = self.i + 2
        k += k < len(self.ps) and linking(self.ps[k])
        return is_any(self.at(k), ("ROOTS",))

    def _numbered(self) -> bool:
        return self.is_number(self.before) or self.is_number(self.after)

    def as_each(self) -> int:
        """Per plant, average: said of a count."""
        if of_all := self._each_of_all():
            return of_all
        if is_any(self.at(self.i + 1), ("MOISTURE",)) and " " not in self.piece.text:
            return 0  # "tierra media seca"
        if used := self._each_of_a_color():
            return used
        around = [p for p in (self.near_before, self.near_after) if p is not None]
        counted = any(
            self.is_number(p) or p.kind == "series" or is_any(p, ("COLOUR", "FEMALES", "NODULES", "NONE", "MOSTLY"))
            for p in around
        )
        heads = self.colon_at(self.i + 1)
        plants = self.last_is("PLANTS", "DUG", "TOOL") or [w.type for w in self.out[-2:]] == ["DUG", "NUMBER"]
        if heads and self.i + 2 in self.found and plants:
            return self.text()  # "5 plants each: kestrel 4 white, tinkers none": so many in each field
        return self.take() if counted or heads else 0

    def _each_of_a_color(self) -> int:
        """ "2 per plant white": the number counts the color behind, which no other number claims."""
        shade = self.at(self.i + 1)
        ends = self.at(self.i + 2) is None or self.ps[self.i + 2].kind in ("break", "line")
        if not self.last_is("NUMBER") or self.lead or not is_any(shade, ("COLOUR",)) or not ends or shade is None:
            return 0
        self._emit("COLOUR", shade.types["COLOUR"].value, shade.start, shade.end)
        self._emit("EACH", "each", self.piece.start, self.piece.end)
        return 2

    def _each_of_all(self) -> int:
        """ "Cada una de las cuatro plantas examinadas presentó 5": the plants first, then what is said of each."""
        k = self.i + 1
        while (piece := self.at(k)) is not None and piece.kind == "word" and linking(piece) and k < self.i + 4:
            k += 1
        number, noun = self.at(k), self.at(k + 1)
        if (
            getattr(self.at(self.i + 1), "text", "") not in anywhere("of_plants")
            or number is None
            or number.kind != "number"
            or not is_any(noun, ("PLANTS",))
        ):
            return 0
        end = k + 2 + is_any(self.at(k + 2), ("DUG",))
        self._emit("NUMBER", number.value, self.piece.start, number.end)
        self._emit("PLANTS", "plants", self.ps[k + 1].start, self.ps[end - 1].end)
        self._emit("EACH", "each", self.ps[end - 1].end, self.ps[end - 1].end, lead="soft")
        return end - self.i

    def as_plants(self) -> int:
        """Plants dug: with a number. Without one, plants are tops."""
        piece, before = self.piece, self.before
        ends = self.last_is("NUMBER") and self._goes_on_nowhere()
        counts = self.is_number(self.after) or self.colon_at(self.i + 1) or ends
        if piece.text == "p" and piece.spaced and not counts:
            return 0  # "5 p arriba"
        if piece.value == "tied" or self.last_is("NUMBER", "POSITIVE"):
            return self.take()
        if self.is_number(self.near_after) and "ROOTS" not in piece.types and self._claims_number():
            return self.take()
        if is_any(before, ("DUG",)) and not is_any(piece, ("TOPS", "ROOTS")):
            return self.take()
        if self.has("counts_plants") and (at := self._labelled_number()):
            self.take()
            if is_any(self.at(self.i + 1), ("DUG",)) and self.ps[self.i + 1].types["DUG"].value != "any":
                return 1
            self._emit("NUMBER", self.ps[at].value, self.ps[at].start, self.ps[at].end)
            return at + 1 - self.i
        if self.entry.slip or len(piece.text) <= 3 or is_any(piece, ("TOPS", "ROOTS")):
            return 0
        return self.text()

    def _labelled_number(self) -> int:
        """ "Number of plants examined was 10": where the number of a label stands, few words on; 0 without one."""
        for j in range(self.i + 1, self.i + 6):
            piece = self.at(j)
            if piece is None or piece.kind in ("break", "line", "day", "stage"):
                return 0
            if piece.kind == "number":
                return j if not claims(self.ps, j + 1) else 0
            if piece.kind == "word" and not (linking(piece) or is_any(piece, ("DUG", "CORRECT", "TOTAL"))):
                return 0
        return 0

    def _claims_number(self) -> bool:
        """ "Plants 6" counts; "plants stunted 6 white" does not, nor does "plants: 6 white"."""
        j = neighbour_index(self.ps, self.i, 1)
        if j is not None and is_any(self.at(j + 1), ("MEASURE",)) and not is_any(self.at(j + 1), ("COLOUR", "LINK")):
            return False  # "planta com 50 cm"
        if j is None or "TOPS" not in self.piece.types:
            return True
        beyond = self.near(j, 1)
        if is_any(beyond, ("PLANTS",)) and not is_any(beyond, ("UNIT",)):
            return False  # "res beans 10 roots 0 0 1": the number belongs to the noun behind it
        return not is_any(beyond, ("COLOUR", "FEMALES", "UNIT", "PLANTS")) or self.is_number(
            self.near(neighbour_index(self.ps, j, 1) or j, 1)
        )

    def as_dug(self) -> int:
        """Dug, pulled: "pull" and "dig" only with a number, "checked" only with a number that nothing else claims."""
        if self.has("checked"):
            j = self.direct_index(self.i, 1)
            free = self.is_number(self.after) and not (
                claims(self.ps, j + 1) and not is_any(self.at(j + 1), ("PLANTS",))
            )
            free = free and not is_any(self.at(j + 1), ("MEASURE", "UNIT", "FIELD_WORD"))
            return self.take() if free else 0
        if self.entry.slip and not (self._numbered() or is_any(self.before, ("PLANTS",))):
            return 0
        without = self.i > 0 and self.ps[self.i - 1].text in anywhere("without_word")
        if (self._denied_before() or without) and not self.is_number(self.near_after):
            return self.text()  # "hasn't been dug yet this year", "sem puxar"
        if self.has("begins_too") and self.before is not None and self.before.kind == "stage":
            return 0 if self.is_number(self.near_after) else self.text()  # "R1 arrancando"
        if self.piece.text in anywhere("bare_dig") and not self.is_number(self.near_after):
            return 0
        return self.take()

    def _answered_no(self) -> bool:
        """ "Soak no", "bucket: no": is a bare "no" right behind it?"""
        j = self.direct_index(self.i, 1)
        answer, beyond = self.at(j), self.at(j + 1)
        ends = beyond is None or beyond.kind in ("break", "line")
        if answer is None or not ends or answer.text not in anywhere("answers_no"):
            return False
        counts = [p for p in self.ps if p is not answer and is_any(p, ("NONE", "COLOUR", "FEMALES", "TOO_MANY"))]
        return not is_any(answer, ("NONE",)) or bool(counts)  # "6 plants bucket soak none": none were seen

    def as_soaked(self) -> int:
        """Washed or not; "soak no" says not; "10 cm de agua" is water that stands."""
        led = self.ps[self.i - 1].text if self.i else ""
        of_bucket = self.last_is("SOAKED")  # "cubeta de agua"
        if self.made.has("water", self.piece.text) and self.made.has("much_water", led) and not of_bucket:
            return self._emit("MOISTURE", "wet", self.piece.start, self.piece.end)
        if self.entry.value == "yes" and self._unwashed():
            return self._emit("SOAKED", "no", self.piece.start, self.piece.end)  # "havent washed em"
        if self.entry.value == "yes" and self._answered_no():
            j = self.direct_index(self.i, 1)
            self._emit("SOAKED", "no", self.piece.start, self.ps[j].end)
            return j - self.i + 1
        return self.take()

    def _unwashed(self) -> bool:
        """Does a word right before deny the washing ("havent washed em", "hasn't been rinsed")?"""
        j = self.i - 1
        while (before := self.at(j)) is not None and self.made.has("undone_filler", before.text) and j > self.i - 3:
            j -= 1
        if before is None or before.kind != "word" or before.text in ("no", "not"):
            return False
        return self.made.denies(before.text)

    def as_tool(self) -> int:
        """A shovel, unless denied; "space" only where one stands: behind "with", or before a bucket."""
        if self.entry.value == "shovel" and self._answered_no():
            return self.text()
        if self.entry.value == "shovel" and self._denied_before():
            return self.text()
        before = itertools.takewhile(
            lambda p: p.kind not in ("break", "line"), reversed(self.ps[max(0, self.i - 3) : self.i])
        )
        said = [word for piece in before for word in piece.text.split()]
        if any(self.made.has("tool_lost", word) for word in said) or self._tool_elsewhere() or self._tool_useless():
            return self.text()  # "se rompió la pala nueva", "the shovel is at the shop"
        if self.has("timid_tool"):
            led = self.at(self.i - 1)
            joined = is_any(self.near_after, ("SOAKED",)) and not self.unknown(self.after)
            if not (joined or (led is not None and self.made.has("leads_tool", led.text) and led.kind == "word")):
                return 0
        return self.take()

    def _tool_useless(self) -> bool:
        """ "Too wet to use the spade", "ground too hard for the shovel", "wish I had the shovel"."""
        before = [word for piece in self.ps[max(0, self.i - TOOL_BEHIND) : self.i] for word in piece.text.split(" ")]
        cut = max((n for n, word in enumerate(before) if word in ".,;!"), default=-1)
        clause = before[cut + 1 :]
        too = next((n for n, word in enumerate(clause) if self.made.has("too_word", word)), None)
        useless = too is not None and any(self.made.has("for_use", word) for word in clause[too + 1 :])
        return useless or any(self.made.has("wished", word) for word in clause)

    def _tool_elsewhere(self) -> bool:
        """Is the tool what its clause speaks of ("la pala quedó en casa"), and not what was dug with?"""
        behind = self.at(self.i + 1)
        told = behind is not None and behind.kind == "word" and self.made.has("tool_is", behind.text)
        used = is_any(behind, ("LINK",)) and any(
            beyond is not None and self.made.has("tool_used", beyond.text)
            for beyond in (self.at(self.i + 1), self.at(self.i + 2))
        )
        return told and not used and not is_any(behind, ("DUG", "SOAKED", "PLANTS"))

    def _denied_before(self) -> bool:
        """Do the few words before deny it ("couldnt get a spade in")?"""
        for j in range(self.i - 1, max(-1, self.i - 5), -1):
            piece = self.at(j)
            if piece is None or piece.kind != "word" or is_any(piece, ("NONE", "DUG", "PLANTS", "COLOUR", "SOAKED")):
                return False
            if self.made.denies(piece.text):
                return piece.text not in anywhere("plain_denial")
        return False

    def as_total(self) -> int:
        """Total, count: with a number."""
        if self.last_is("POTASSIUM", "PH"):
            return 0
        counted = self.direct_index(self.direct_index(self.i, 1), 1)
        counted += is_any(self.at(counted), ("FEMALES",))  # "deu uma fêmea branca em cada uma"
        if "HAD" in self.piece.types and self.is_number(self.after) and is_any(self.at(counted), ("COLOUR", "EACH")):
            return 0  # "olhei cinco e deu três amarelas", "deu três fêmeas por planta"
        of_each = self.is_number(self.near_after) and self._so_many_each()
        if of_each and not self.made.has("sums_behind", self.piece.text):
            return self.text()  # "I counted about three females per plant"
        dug = [word.type for word in self.out[-2:]] == ["DUG", "NUMBER"] and self.lead in ("", "link")
        if self.made.has("sums_behind", self.piece.text) or (dug and self.is_number(self.after)):
            self.lead = "hard"  # "plant four had two that makes fifteen", "dug 5 counted 12"
        return self.take() if self._numbered() or self.is_number(self.near_after) else self.text()

    def _so_many_each(self) -> bool:
        """Is the number behind one a plant, its color and "females" between them?"""
        j = neighbour_index(self.ps, self.i, 1)
        j = j + 1 if j is not None else len(self.ps)
        while is_any(self.at(j), ("COLOUR", "FEMALES")):
            j += 1
        return is_any(self.at(j), ("EACH",))

    def as_roots(self) -> int:
        """Roots."""
        return (
            0
            if self.entry.slip
            and not is_any(self.near_after, ("ROOT", "COLOUR"))
            and not is_any(self.near_before, ("ROOT", "COLOUR"))
            else self.take()
        )

    def as_root(self) -> int:
        """Snapped and stubby speak for themselves; dark and fine need roots beside them."""
        if self.has("of_roots") and not (self._beside() == "ROOT" or self._roots_told()):
            return 0
        thing = self.at(self.i + 2)
        other = thing is not None and not is_any(thing, ("ROOTS", "PLANTS", "TOPS", "DUG"))
        if other and self.entry.value == "snapped" and self.made.has("article", self.ps[self.i + 1].text):
            return self.text()  # "se me rompió la chata"
        if self.entry.value == "snapped" and any(
            self.made.has("no_root", p.text) for p in self.ps[max(0, self.i - 4) : self.i]
        ):
            return self.text()  # "a estrada está cortada"
        if " " in self.piece.text and not is_any(self.piece, ("TOP", "TOPS")):
            return self.take()
        own = (
            self.entry.value in ("snapped", "stubby")
            and not is_any(self.piece, ("TOOL", "TOP"))
            and not self.has("weak")
        )
        if own and not (is_any(self.near_after, ("TOPS",)) and not is_any(self.near_after, ("ROOTS",))):
            return self.take()
        told = self._beside() == "ROOT" or self._goes_on("ROOT", "ROOTS")
        adjective = self.piece.types.keys() <= {"ROOT", "COLOUR", "TOP"}
        return self.take() if told or (adjective and self._of_the_roots()) else 0

    def _roots_told(self) -> bool:
        """Were roots or pulled plants told just before ("pulled 4, broke off"; not "truck broke down")?"""
        return self.lead != "hard" and any(
            word.type in ("ROOTS", "ROOT", "DUG", "TOOL", "PLANTS", "NUMBER") for word in self.out[-2:]
        )

    def as_nodule(self) -> int:
        """What is said of nodules; pink is said of nothing else."""
        if self.entry.value in ("few", "many") and (size := self._so_many_nodules()):
            self._emit("NODULE", self.entry.value, self.piece.start, self.ps[self.i + size - 1].end)
            return size
        if self.made.has_any("nodulated", self.piece.text.split(" ")):
            return self.take()  # "well nodulated", "poor nodulation"
        sides = [side for side in (self._towards(-1), self._towards(1)) if side is not None]
        nearest = min((distance for distance, _ in sides), default=0)
        if (nearest, "NODULE") in sides or (
            self.piece.types.keys() == {"NODULE"}
            and self.entry.value in ("pink", "brown")
            and (not self.has("of_nodules") or any(word.type in ("NODULES", "NODULE") for word in self.out[-3:]))
        ):
            return self.take()
        if is_any(self.near_before, ("EDGES",)) and self.last_is("EDGES", "OLD", "NEW"):
            return self._emit("TOP", "yellow", self.piece.start, self.piece.end)  # dry edges of leaves
        behind = bool(self.out) and self.out[-1].type in ("NODULES", "NODULE") and self.lead in ("", "link", "soft")
        if behind and self.near_after is None:
            return self.take()
        saw = self.at(self.i - 1)
        if self.has("few_numbers") and saw is not None and self.made.has("counted", saw.text) and not behind:
            self.draft.ask("which_of_range", self.piece.start, self.piece.end)  # "only saw one or two"
        return 0

    def _so_many_nodules(self) -> int:
        """ "A lot of little round nodules", "nodules look good, lots of them": how many pieces tell it, 0 for none."""
        for j in range(self.i + 1, min(self.i + 1 + NODULES_NEAR, len(self.ps))):
            if is_any(self.ps[j], ("NODULES",)) and not is_any(self.ps[j], ("PLANTS",)):
                return j - self.i if j > self.i + 1 else 0
            own = self.ps[j].types.get("NODULE")
            colored = own is not None and own.value not in ("few", "many")  # "lots of pink nodules"
            if self.ps[j].kind != "word" or self.ps[j].types.keys() - {"NODULE", "TOP", "LINK", "COLOUR"} or colored:
                break
        them = self.at(self.i + 1)
        if them is None or not self.made.has("them", them.text):
            return 0
        before = self.ps[max(0, self.i - CROP_AHEAD) : self.i]
        hard = [n for n, p in enumerate(before) if p.value == "hard" or p.kind == "line"]
        before = before[hard[-1] + 1 :] if hard else before
        return 2 if any(is_any(p, ("NODULES",)) for p in before) else 0

    def as_check(self) -> int:
        """The check strip; a bare "check" only with counts behind it."""
        if self.last_is("CHECK"):
            return self.text()
        j = self.direct_index(self.i, 1)
        if self.piece.text == "s strip" and any(self.made.has("side_strip", p.text) for p in self.ps):
            return self.take("SPOT", "s strip")
        bracket = self.at(j)
        if bracket is not None and bracket.text == "(" and is_any(self.at(j + 1), ("RESISTANCE",)):
            j = self.direct_index(j + 2, 1)
        lies = self.direct_index(j, 1) if is_any(self.at(j), ("SPOT",)) else j  # "testigo en la cabecera: 3 pl"
        beside = self._lies_beside(j)
        lies = self.direct_index(j + beside - 1, 1) if beside else lies
        lies += getattr(self.at(lies), "text", "") == ","
        if " " not in self.piece.text and not self._data_at(lies):
            return 0
        start = self.piece.start
        if self.last_is("RESISTANCE") and self.out[-1].value == "susceptible" and self.lead == "":
            start = self.out.pop().start  # "the susceptible comparison row": the strip's own seed
        name = written(self.draft.text, start, self.piece.end).split(" ")
        while len(name) > 1 and (
            self.made.has("place_lead", fold(name[0])) or fold(name[0]) in anywhere("name_article")
        ):
            del name[0]  # "el testigo", "na testemunha"
        return self._emit("CHECK", " ".join(name), start, self.piece.end) + beside

    def _lies_beside(self, j: int) -> int:
        """How many pieces from j on say that the strip lies beside the field ("al lado", "next to it")."""
        for size in (4, 3, 2, 1):
            said = [piece for piece in (self.at(k) for k in range(j, j + size)) if piece is not None]
            if len(said) == size and self.made.has("lies_beside", " ".join(piece.text for piece in said)):
                return size
        return 0

    def as_spot(self) -> int:
        """A place of the field, when counts follow it; of none a word for its plants may tell how they look."""
        return self._as_place() or self._looks_told_as_place()

    def _looks_told_as_place(self) -> int:
        """ "A ring of (stunted) yellow beans by the oak": no counts follow, so the color is that of the plants."""
        words = self.piece.text.split(" ")
        if self.entry.value != "bad" or len(words) != 2 or set(self.piece.types) != {"SPOT"} or self.last_is("NUMBER"):
            return 0
        entries = [(entry.type, entry.value) for word in words for entry in self.made.singles.get(word, ())]
        for type_, value, told in (("COLOUR", "yellow", "LEAF"), ("TOP", "stunted", "TOP")):
            if (type_, value) in entries:
                return self._emit(told, value, self.piece.start, self.piece.end)
        return 0

    def _as_place(self) -> int:
        """A place of the field, when counts follow it."""
        i, piece = self.i, self.piece
        if self.last_is("CHECK") and self.lead == "":
            return 1  # where the check strip lies
        colon = self.colon_at(i + 1)
        j = self.direct_index(i, 1)
        after = self.at(j)
        if piece.text == "in" and not colon and is_any(after, ("SPOT",)):
            return 0  # "3 plants in the bad spot"
        if self._of_each_place(j):
            return self.text()
        dug = [word.type for word in self.out[-3:]]
        if (
            piece.text == "out"
            and self.lead == ""
            and (dug[1:] == ["DUG", "NUMBER"] or dug == ["DUG", "NUMBER", "PLANTS"])
        ):
            return 1  # "eased 4 out by hand", "eased 4 plants out: 3 3 0 2"
        if is_any(piece, ("BANDS", "TOP")) and self.last_is("LEAF", "TOP", "TOPS") and not colon:
            return 0  # "yellow in bands, 4 plants 5 white"
        if told := self._told_of_later():
            return told
        inner = self.at(i + 2) if colon else None
        if is_any(piece, ("TOP",)) and is_any(inner, ("SPOT",)) and not is_any(inner, ("NUMBER_WORD",)):
            return 0  # "tem reboleira: dentro 4 plantas .. fora 4 plantas .."
        listed = [word.type for word in self.out[-3:]] == ["NUMBER"] * 3
        claimed = self.last_is("NUMBER") and self.lead == "" and not colon and not listed and not self._counts_behind(j)
        claimed = claimed and not self._told_like_another(j)
        if after is None or after.kind == "line" or claimed:
            return 0
        counted = after.kind == "number" and (self.is_number(self.at(j + 1)) or self._out_follows(j))
        if not colon and piece.text == "in" and not counted:
            return 0
        told = after.kind in ("number", "mark") or is_any(self.near_after, ("DUG",))
        counted = (told and self._data_at(j)) or is_any(after, ("NONE",)) or self._counts_behind(j)
        if self._heard_plants(j):
            return self.take(value=self._place_name())
        if not colon and self.has("timid_spot") and not counted:
            return 0
        span = self.near(neighbour_index(self.ps, i, 1) or i, 1)
        if not colon and after.text == "de" and is_any(span, ("UNIT",)) and len(getattr(span, "text", "")) > 1:
            return 0  # "dentro de diez días"
        if after.kind == "break" and piece.value == "numbered":
            j += 1
        if after.text == "," and i in self._places_before_plants():
            return self.take(value=self._place_name())
        if colon or self._data_at(j) or self._counts_behind(j):
            return self.take(value=self._place_name())
        return self._place_of_something() or self._strip_of_seed() or self._shape_within()

    def _of_each_place(self, j: int) -> bool:
        """ "Gate and knoll, 4 plants each": the last of places only named, what is said of each behind them."""
        before, other = self.at(self.i - 1), self.at(self.i - 2)
        if before is None or before.text not in anywhere("and_word") or other is None or self.is_number(other):
            return False
        j += getattr(self.at(j), "text", "") == ","
        counted = self.is_number(self.at(j)) and is_any(self.at(j + 1), ("PLANTS",))
        each = self.at(j + 2)
        return counted and each is not None and (is_any(each, ("EACH",)) or self.made.has("each_place", each.text))

    def _shape_within(self) -> int:
        """ "The plants in the ring are wilted": a ring is told, and no place that was counted."""
        word = self.piece.text.split(" ")[-1]
        shape = next((e.value for e in self.made.singles.get(word, ()) if e.type == "TOP"), "")
        if " " not in self.piece.text or shape not in ("patch", "ring") or self.entry.value != "in":
            return 0
        return self._emit("TOP", shape, self.piece.start, self.piece.end)

    def _told_like_another(self, j: int) -> bool:
        """ "4 pl en la tranquera 8 bl, 4 en el fondo 1 bl": a place told as the one before, its plants first."""
        since = [word.type for word in self.out[-LOOKED_BACK:]]
        placed = any(types == ("NUMBER", "PLANTS", "SPOT") for types in zip(since, since[1:], since[2:], strict=False))
        counted = self.is_number(self.at(j)) and is_any(self.direct(j, 1), ("COLOUR", "FEMALES"))
        return placed and counted and self.out[-1].lead in ("soft", "hard", "line")

    def _out_follows(self, j: int) -> bool:
        """ "In 3 plants 18 white, out 3 plants 2 white": the other place with its plants further on."""
        later = range(j + 1, min(len(self.ps) - 2, self.i + LOOKED_AHEAD))
        out = any(self.ps[k].text in ("out", "outside") and self.is_number(self.at(k + 1)) for k in later)
        return is_any(self.at(j + 1), ("PLANTS",)) and out

    def _places_before_plants(self) -> list[int]:
        """ "At the gate, I dug four plants ..; on the hill, another four ..": a comma and plants behind each."""
        if self.comma_places is None:
            found = [k for k in range(len(self.ps)) if is_any(self.at(k), ("SPOT",)) and self._plants_behind_comma(k)]
            self.comma_places = found if len(found) > 1 else []
        return self.comma_places

    def _plants_behind_comma(self, k: int) -> bool:
        if getattr(self.at(k + 1), "text", "") != ",":
            return False
        k += 2
        most = k + 4
        while k < most and (piece := self.at(k)) is not None and piece.kind == "word" and not is_any(piece, ("SPOT",)):
            if is_any(self.at(k + 1), ("PLANTS",)) and "NUMBER_WORD" in piece.types:
                return True
            k += 1
        return self.is_number(self.at(k)) and is_any(self.at(k + 1), ("PLANTS",))

    def _told_of_later(self) -> int:
        """ "4 from the north end and 4 from the south end. North end was 16 white ..": plants first, females later."""
        n = len(self.out) - 1
        while n > 0 and self.out[n].type in ("TEXT", "LINK") and self.made.has("place_lead", fold(self.out[n].text)):
            n -= 1
        number = self.out[n - 1] if n > 0 and self.out[n].type == "PLANTS" else self.out[n] if n >= 0 else None
        if number is None or number.type != "NUMBER":
            return 0
        value = self.piece.types["SPOT"].value
        later = range(self.i + 2, min(len(self.ps), self.i + LOOKED_AHEAD))
        again = next((k for k in later if is_any(self.ps[k], ("SPOT",)) and self.ps[k].types["SPOT"].value == value), 0)
        stop = any(piece.kind in ("break", "line") for piece in self.ps[self.i : again])
        if not stop or self.is_number(self.ps[again - 1]):
            return 0
        del self.out[n + 1 :]
        self.lead = "link"
        return self.take(value=self._place_name())

    def _place_of_something(self) -> int:
        """ "A la orilla del canal 4 plantas": a place told by what it lies at, counts behind it."""
        of = self.at(self.i + 1)
        if of is None or of.text not in anywhere("of_place"):
            return 0
        k = self.i + 2
        while (word := self.at(k)) is not None and k < self.i + 6 and (self.unknown(word) or linking(word)):
            k += 1
        last = self.at(k - 1)
        if not self.unknown(last) or last is None or not (self.is_number(self.at(k)) or self.colon_at(k)):
            return 0
        if not self._data_at(k + self.colon_at(k)):
            return 0
        words = written(self.draft.text, self.piece.start, last.end).split(" ")
        while len(words) > 1 and self.made.has("place_lead", fold(words[0])):
            words = words[1:]
        self._emit("SPOT", " ".join(words), self.piece.start, last.end)
        return k - self.i

    def _strip_of_seed(self) -> int:
        """ "Faixa de Peking na Sede Velha: 6 plantas": a strip told by its seed, counts behind it."""
        of, seed = self.at(self.i + 1), self.at(self.i + 2)
        if of is None or of.text not in anywhere("of_seed") or not is_any(seed, ("SOURCE",)):
            return 0
        j = self.direct_index(self.i + 2, 1)
        k = j + 1 if j < len(self.ps) and j + 1 in self.found and linking(self.ps[j]) else j
        named = self.found.get(k)
        j = named.last if named is not None else j
        if not (self.colon_at(j) or self.colon_at(self.i + 3)) and not self._data_at(j):
            return 0
        if sum("SOURCE" in piece.types for piece in self.ps) == 1 and seed is not None:
            self._emit("SOURCE", seed.types["SOURCE"].value, seed.start, seed.end)
        self._emit(
            "SPOT",
            written(self.draft.text, self.piece.start, self.ps[self.i + 2].end),
            self.piece.start,
            self.ps[self.i + 2].end,
        )
        return 3

    def _heard_plants(self, j: int) -> bool:
        """ "At the hill for plants eleven white": a dictated number of plants."""
        word, noun = self.at(j), self.direct(j, 1)
        heard = word is not None and (heard_number(self.made, word.text) or 0) > MOST_HEARD_ALONE
        counted = self.is_number(self.direct(self.direct_index(j, 1), 1))
        return heard and counted and noun is not None and self.made.has("heard_noun", noun.text)

    def _place_name(self) -> str:
        """The place as written, without the little word that leads to it ("en la loma" is "loma")."""
        words = written(self.draft.text, self.piece.start, self.piece.end).split(" ")
        while len(words) > 1 and self.made.has("place_lead", fold(words[0])):
            words = words[1:]
        return " ".join(words)

    def _counts_behind(self, j: int) -> bool:
        """ "2 inside, 40 white", "4 lá no fundo e deu 23": a count behind a place whose plants stand before it."""
        k = j
        while (piece := self.at(k)) is not None and k < j + LITTLE_BEFORE_COUNT:
            stop = piece.kind == "break" and piece.text in ",("
            little = piece.kind == "word" and (linking(piece) or is_any(piece, ("HAD", "MOSTLY")))
            if not (stop or little or self.made.has("those_plants", piece.text)):
                break
            k += 1
        counted = self.is_number(self.at(k)) and is_any(self.at(k + 1), ("COLOUR", "FEMALES", "PLANTS"))
        return k > j and (counted or is_any(self.at(k), ("NONE",)))

    def _says_had(self, j: int) -> bool:
        """ "In the hole I dug five", "na porteira deu nove": a word for having before a number."""
        return is_any(self.ps[j], ("HAD",)) and self.is_number(self.direct(j, 1))

    def _data_at(self, j: int) -> bool:
        """Do counts follow here: a number with its noun, a list, or none?"""
        while (
            (piece := self.at(j)) is not None
            and piece.kind == "word"
            and (linking(piece) or piece.types.keys() == {"MOSTLY"} or self._says_had(j))
        ):
            j += 1
        if piece is None:
            return False
        if is_any(piece, ("EACH",)) and self.is_number(self.direct(j, 1)):
            return True  # "far end avg 3"
        if is_any(piece, ("NONE", "TOO_MANY", "RESISTANCE")) or piece.kind in ("series", "mark"):
            return True
        after = self.direct(j, 1)
        if is_any(piece, ("DUG", "PLANTS", "COLOUR")):
            return after is not None and after.kind == "number"
        if piece.kind != "number":
            return False
        if after is None or after.kind in ("break", "line", "number"):
            return True
        return is_any(after, COUNTED)

    def _too_many_of(self, colours: list[str]) -> int:
        """ "Too many white ones to count": with the first color named within."""
        if colours:
            self._emit("COLOUR", colours[0], self.piece.start, self.piece.start)
        return self.take()

    def as_too_many(self) -> int:
        """Loaded, too many to count; "lots" only of females."""
        before, after = self.near_before, self.near_after
        if self.last_is("NODULES") and after is None:
            return self._emit("NODULE", "many", self.piece.start, self.piece.end)  # "nódulos un montón"
        words = self.piece.text.split(" ")
        within = [e for word in words if len(word) > 2 for e in self.made.singles.get(word, ())]
        colours = [e.value for e in within if e.type == "COLOUR"]
        counting = len(words) > 1 and any(self.made.has("count_word", word) for word in words)
        of_females = any(e.type == "FEMALES" for e in within)  # "llenas de quistes"
        if colours or of_females or (counting and not is_any(after, ("COLOUR", "FEMALES"))):
            return self._too_many_of(colours)
        if is_any(after, ("COLOUR", "FEMALES")) and not self._of_plants_ahead():
            return self.take()
        ends = after is None or after.kind in ("number", "stage", "day")
        ends = ends or is_any(after, ("EACH", "SAME", "LOOK", "TOOL", "SOAKED", "MOISTURE", "MOSTLY"))
        words = self.piece.text.split(" ")
        strong = self.has("strong_many") or "count" in self.piece.text
        strong = strong or (len(words) > 1 and any(word in anywhere("counting") for word in words))
        if ends and (strong or is_any(before, ("COLOUR", "FEMALES"))):
            return self.take()
        return 0

    def _of_plants_ahead(self) -> bool:
        """Lots of yellow leaves."""
        for j in range(self.i + 1, self.i + 4):
            piece = self.at(j)
            if piece is None or piece.kind in ("break", "line"):
                return False
            if is_any(piece, ("TOPS", "EDGES", "NODULES", "ROOTS")):
                return True
        return False

    def as_mostly(self) -> int:
        """Mostly, all, some: of a colour of females."""
        after, before = self.near_after, self.near_before
        if self.entry.value != "all" and self.last_is("TOPS") and is_any(after, ("COLOUR", "TOP")):
            return self._emit("LINK", "link", self.piece.start, self.piece.end)  # "tops a little yellow"
        if self.entry.value == "all" and is_any(after, ("FEMALES",)) and not self.is_number(self.before):
            k = neighbour_index(self.ps, self.i, 1) or self.i
            shade = self.at(k + 1)
            if is_any(shade, ("COLOUR",)) and shade is not None and not self.is_number(self.at(k + 2)):
                self.take()  # "puro quiste marrón cincuenta en total"
                self._emit("COLOUR", shade.types["COLOUR"].value, shade.start, shade.end)
                return k + 2 - self.i
        if is_any(after, ("COLOUR",)):
            j = neighbour_index(self.ps, self.i, 1) or self.i
            beyond = self.near(j, 1)
            of_leaves = is_any(beyond, ("TOPS", "ROOTS", "EDGES")) and not self.is_number(beyond)
            of_leaves = of_leaves and not (
                is_any(beyond, ("ROOTS",)) and getattr(self.at(j + 1), "text", "") in anywhere("upon")
            )
            if of_leaves and not is_any(beyond, ("PLANTS",)):
                return 0
            lone = self.last_is("NUMBER") and not (len(self.out) > 1 and self.out[-2].type == "NUMBER")
            if lone and self.lead == "link" and self.ps[self.i - 1].text in anywhere("and_word"):
                return self.text()  # "twenty and some white" is no number
            k = neighbour_index(self.ps, j, 1) or j
            plants = self.is_number(beyond) and is_any(self.at(k + 1), ("PLANTS", "DUG"))  # "22 all w 4p"
            if lone and (plants or not self.is_number(beyond)):
                self._emit("FEMALES", "female", self.piece.start, self.piece.start)
            return self.take()
        if is_any(before, ("COLOUR",)) and not self.has("vague") and not is_any(after, ("NODULES",)):
            return self.take()
        counted = len(self.out) > 1 and self.out[-2].type == "NUMBER" and self.out[-1].lead == ""
        listed = counted and len(self.out) > 2 and self.out[-3].type == "NUMBER" and self.out[-2].lead in ("", "soft")
        if self.last_is("COLOUR") and self.entry.value == "all" and (listed or not counted) and after is None:
            return self.take()  # "per plant 4 2 0 6. whites only"
        stop = self.at(self.i - 1)
        told = self.out[-1] if self.out and self.out[-1].type == "COLOUR" else None
        behind = stop is not None and stop.text == "," and told is not None and told.lead in ("hard", "line")
        ends = after is None or after.kind in ("break", "line")
        if told is not None and behind and self.entry.value == "all" and not counted and ends:
            self.out.pop()  # "Yellow, every one of em."
            self._emit("MOSTLY", "all", told.start, told.start, lead=told.lead)
            return self._emit("COLOUR", told.value, told.start, self.piece.end, lead="")
        return 0

    def as_below(self) -> int:
        """Top and below: of moisture."""
        return self.take() if is_any(self.near_before, ("MOISTURE",)) or is_any(self.near_after, ("MOISTURE",)) else 0

    def as_moisture(self) -> int:
        """Dry, moist, wet; a letter only alone between two breaks."""
        before, after = self.before, self.after
        if len(self.piece.text) <= 2:
            signed = before is None or before.kind == "line"
            if signed and (after is None or after.kind in ("break", "line")):
                return 0  # "M." under a mail is a name
            closed = before is None or before.kind not in ("word", "number") or (bool(before.types) and self.out != [])
            staged = before is not None and before.kind == "stage" and is_any(after, ("TOOL", "DUG", "SOAKED"))
            return self.take() if closed and (after is None or after.kind in ("break", "line") or staged) else 0
        if self.has("timid_moisture") and self.unknown(after):
            return self.text()
        season = after if self.made.language == "en" else before
        if season is not None and season.kind == "word" and self.made.has("weather_noun", season.text):
            return self.text()  # "a cool wet week", "semana seca"
        edged = is_any(self.near_before, ("EDGES",)) and self.last_is("EDGES", "OLD", "NEW")
        edged = edged and not any(
            self.made.has("soil_word", p.text) for p in self.ps[max(0, self.i - NEAR_SOIL) : self.i]
        )
        if edged and self.entry.value == "dry":
            return self._emit("TOP", "yellow", self.piece.start, self.piece.end)  # dry edges of leaves
        return 0 if is_any(self.piece, ("ROOT",)) and self._beside() == "ROOT" else self.take()

    def as_texture(self) -> int:
        """Sand, loam, clay; not "sand pit"."""
        after = self.after
        if self.has("soil_letters") and not self._letters_of_soil():
            return 0
        short = len(self.piece.text) <= 2 and after is not None and after.kind == "word"
        short = short and not is_any(self.before, ("MOISTURE",))  # "dry lm tops fine"
        if short and not self.has("soil_letters") and not is_any(after, ("MOISTURE", "DUG", "PH")):  # "SL pH 6.9"
            return 0
        if after is not None and after.text in anywhere("named_for_soil"):
            return self.text()
        return self.take()

    def _letters_of_soil(self) -> bool:
        """ "CL", "CL mst", "dry cl": letters of a soil, beside its moisture or in capitals in a clause of their own."""
        beside = (self.before, self.after)
        soil = [p for p in beside if is_any(p, ("MOISTURE",)) or (p is not None and self.made.has("soil_word", p.text))]
        shown = self.draft.text[self.piece.start : self.piece.end]
        capitals = shown.isupper() and not self.draft.text.isupper()
        if soil:
            return capitals or not any(self.unknown(p) for p in beside)
        return capitals and all(p is None or p.kind in ("break", "line", "stage") for p in beside)

    def as_ph(self) -> int:
        """pH with its number."""
        if self.last_is("NUMBER") and isinstance(self.out[-1].value, float) and not self.is_number(self.after):
            number = self.out.pop()  # "6.5 ph"
            self._emit("PH", "ph", number.start, number.start, lead=number.lead)
            return self._emit("NUMBER", number.value, number.start, self.piece.end)
        if self.is_number(self.near_after) or self._named_between():
            return self.take()
        for j in range(self.i + 1, self.i + 7):
            piece = self.at(j)
            if piece is None or piece.kind not in ("word", "number"):
                break
            if piece.kind == "number" and 3 <= piece.value <= 10 and piece.value != int(piece.value):
                self.take()  # "pH on the slip was 7.9"
                self._emit("NUMBER", piece.value, piece.start, piece.end)
                return j + 1 - self.i
            if piece.types and not linking(piece):
                break
        return self.text()

    def _named_between(self) -> bool:
        """ "pH del lote 7 dio 6,1": only a field's name between a label and its number."""
        j = self.i + 1
        while j < len(self.ps) and j not in self.found and linking(self.ps[j]):
            j += 1
        name = self.found.get(j)
        if name is None:
            return False
        j = name.last
        while j < len(self.ps) and self.ps[j].kind in ("word", "sign") and (linking(self.ps[j]) or self.colon_at(j)):
            j += 1
        return j < len(self.ps) and self.ps[j].kind == "number"

    def _label_behind_name(self) -> None:
        """The label of a number that stands behind the field's name goes behind the name as well."""
        label = next((n for n in range(len(self.out) - 2, -1, -1) if self.out[n].type != "LINK"), -1)
        if label >= 0 and self.out[label].type in ("PH", "POTASSIUM", "SPOT", "CHECK"):
            self.out.append(self.out.pop(label))

    def as_potassium(self) -> int:
        """K with its number."""
        return self.take() if self.is_number(self.near_after) or self._named_between() else 0

    def as_ppm(self) -> int:
        """ppm was read with its number."""
        return self.text()

    def as_resistance(self) -> int:
        """Resistant, susceptible; three letters are other things too. A code behind "res var" is a name."""
        if self.last_is("CHECK"):
            return 1  # "check strip of susceptible beans"
        if len(self.piece.text) <= 3 and self.is_number(self.before) and self.last_is("NUMBER"):
            return 0
        is_ = self.i > 0 and self.made.has("is_word", self.ps[self.i - 1].text)
        if is_ and getattr(self.at(self.i + 1), "text", "") == "?":
            self.draft.ask("doubtful", self.piece.start, self.ps[self.i + 1].end)  # "a mangueira é resistente?"
            return self.text()
        place = next((w.type for w in reversed(self.out) if w.type in ("CHECK", "SPOT", "FIELD")), "")
        counted = next((w.type for w in reversed(self.out) if w.type in ("CHECK", "NUMBER", "NONE")), "") != "CHECK"
        own = self.entry.value == "susceptible" and not counted
        if place == "CHECK" and (own or (self.i and self.ps[self.i - 1].text == "(")):
            return 1  # "testigo (susceptible)": the strip's own seed, not the field's
        others = [p.types["RESISTANCE"].value for p in self.ps if "RESISTANCE" in p.types and p is not self.piece]
        strip = self.entry.value == "susceptible" and "resistant" in others and len(self.piece.text) > 3
        if strip and not self.last_is("VARIETY", "NAME"):
            number = self.direct_index(self.i, 1)
            if self.is_number(self.at(number)) and self._data_at(number):
                return self.take("CHECK", written(self.draft.text, self.piece.start, self.piece.end))
        labels = [entry for word in self.piece.text.split() for entry in self.made.singles.get(word, ())]
        self.variety_open = any(entry.type == "VARIETY" for entry in labels)
        return self.take()

    def as_variety(self) -> int:
        """Variety: the words behind it are its name."""
        self.variety_open = True
        return self.take()

    def as_planted(self) -> int:
        """Planted; "sembramos maíz al lado" is another crop."""
        other = self.made.has("other_crop", getattr(self.at(self.i + 1), "text", ""))
        if other:
            return self.text()
        if self.has("timid_planted"):
            day, beans = self.near_after, self.at(self.i - 1)
            grown = self.i - 1 in self.named or is_any(beans, ("FIELD", "TOPS"))
            if day is None or day.kind != "day" or not grown:
                return 0  # "went in on may 18, 5 plants none"
        self.take()
        return 1 + self._seed_with()

    def _seed_with(self) -> int:
        """ "Sembrada con la 48B20", "plantado com M 6410": a code behind planting and "with" is the seed's name."""
        k = self.i + 1
        if getattr(self.at(k), "text", "") not in anywhere("with_word"):
            return 0
        k += 1 + (getattr(self.at(k + 1), "text", "") in anywhere("name_article"))
        end = k
        while (piece := self.at(end)) is not None and end < k + 3 and piece.kind in ("word", "number"):
            if end > k and (piece.kind == "word" or self.names.bound(end)) and piece.spaced:
                break
            end += 1
        first = self.at(k)
        said = self.draft.text[first.start : self.ps[end - 1].end] if first is not None and end > k else ""
        code = any(ch.isdigit() for ch in said) and any(ch.isalpha() for ch in said)
        if first is None or not code or (is_any(first, ("PLANTS", "UNIT")) and first.spaced and len(first.text) > 1):
            return 0
        self._emit("VARIETY", "variety", first.start, first.start, lead="link")
        self._emit("NAME", said, first.start, self.ps[end - 1].end)
        return end - self.i - 1

    def as_spray(self) -> int:
        """Sprayed; "app", "applied", "passou" only with a day or a chemical."""
        timed = is_any(self.near_after, ("AGO",)) or self.last_is("CHEMICAL")
        if self.has("weak_spray") and timed:
            return self.take()
        if self.has("weak_spray"):
            after = self.near_after
            if self.unknown(after) and after is not None and after.text not in self.made.plain:
                dated = self.direct(neighbour_index(self.ps, self.i, 1) or self.i, 1)
                stop = dated is None or dated.kind in ("break", "line")
                told = self.last_is("DATE") and stop and not ordinary(after.text, self.made.language)
                timed = dated is not None and (dated.kind == "day" or is_any(dated, ("AGO",)))
                return self.take() if told or timed else 0  # "aplicaron cletodim ayer", "passaram Fusão há 3 dias"
            daily = after is not None and after.kind == "day"
            if daily and self.has("visit_verb") and not any("CHEMICAL" in p.types for p in self._clause_behind()):
                return 0  # "passei ontem no Lote 12"
            return self.take() if after is not None and (daily or "CHEMICAL" in after.types) else 0
        return self.take()

    def _clause_behind(self) -> list[Piece]:
        """The pieces behind the one at hand, up to the next stop."""
        behind = self.ps[self.i + 1 : self.i + LOOKED_BACK]
        return list(itertools.takewhile(lambda p: p.kind not in ("break", "line"), behind))

    def as_entry(self) -> int:
        """Re-entry: with hours or days."""
        if self.last_is("SPAN") and not self.is_number(self.near_after):
            self.out[-1].lead = "soft"  # "the fungicide has a 12 hr restricted entry"
            return self.take()
        return self.take() if self.is_number(self.near_after) else 0

    def as_after(self) -> int:
        """9 d after spraying."""
        words = (e.type for word in self.piece.text.split(" ") for e in self.made.singles.get(word, ()))
        told = is_any(self.near_after, ("SPRAY", "CHEMICAL", "PLANTED")) or "SPRAY" in words  # "9 dias da aplicação"
        return self.take() if self.last_is("SPAN") and told else 0

    def as_ago(self) -> int:
        """3 days ago, hace 3 días."""
        if self.last_is("SPAN") and self.lead == "":
            came_back = self.piece.text == "back" and len(self.out) > 1 and self.out[-2].type == "LOOK"
            return 0 if came_back else self.take()
        after = self.after
        early = self.piece.text in anywhere("ago_before")
        return self.take() if early and after is not None and after.kind == "number" else 0

    def as_look(self) -> int:
        """Look again: with a day or a span; everyday words like "back" mean nothing without one."""
        j = neighbour_index(self.ps, self.i, 1)
        if used := self._next_week(j):
            return used
        after = self.near_after
        if after is not None and after.kind == "day" and after.value.days_ago is not None and after.value.days_ago >= 0:
            return 0  # "first look today": this visit
        timed = after is not None and (after.kind == "day" or is_any(after, ("WHICH",)))
        if after is not None and after.kind in ("number", "range") and j is not None:
            timed = is_any(self.direct(j, 1), ("UNIT",))
        if timed:
            return self.take()
        if self.piece.text == "again":
            weekday = self.last_is("DATE") and self.out[-1].value.weekday is not None
            return self.take() if weekday else 0
        if self.made.has("again_look", self.piece.text):
            dated = self.last_is("DATE") and self.out[-1].value.weekday is not None
            return self.take() if dated and after is None else 0
        spanned = self.last_is("SPAN") and self.out[-1].value[0] == "days" and after is None
        if spanned and not (len(self.out) > 1 and self.out[-2].type == "AGO"):
            return self.take()  # "en 10 d vuelvo"
        coming = self.last_is("DATE") and self.out[-1].value.weekday is not None
        coming = coming and (after is None or self.made.has("sure_look", self.piece.text))
        if self.last_is("DATE") and (coming or not self.made.has("weak_look", self.piece.text)):
            return self.take()
        weak = self.made.has("weak_look", self.piece.text) and " " not in self.piece.text
        j = self._later_span(weak)
        sure = self.made.has("sure_look", self.piece.text)  # "volto pra olhar na sexta"
        if j is None and ((weak and not sure) or (j := self._later_day()) is None):
            return self._untimed_look(weak)
        self.take()
        return j - self.i

    def _later_span(self, weak: bool) -> int | None:
        """ "Back sometime next week", "will look again in about 10 days": where the time begins, or ``None``."""
        if weak and self.lead not in ("hard", "soft", "line"):
            return None
        for j in range(self.i + 1, self.i + LOOK_AHEAD):
            piece = self.at(j)
            if piece is None:
                return None
            unit = self.direct(j, 1)
            if piece.kind in ("number", "range") or is_any(piece, ("WHICH",)):
                return j if unit is not None and "UNIT" in unit.types else None
            if not (self.made.has("look_filler", piece.text) or "ABOUT" in piece.types):
                return None
        return None

    def _untimed_look(self, weak: bool) -> int:
        """ "Recheck mid july", "look again at R3": a wanted look whose day we cannot tell is asked about."""
        if (weak and self.lead not in ("hard", "soft", "line")) or "WHICH" in self.piece.types:
            return 0
        for j in range(self.i + 1, self.i + LOOK_AHEAD):
            if j in self.found or (j < len(self.ps) and "FIELD" in self.ps[j].types):
                continue  # "recheck kestrel at R3"
            piece = self.at(j)
            if piece is None or piece.kind in ("break", "line", "number") or is_any(piece, ("LOOK",)):
                return 0
            staged = piece.kind == "stage" and self.made.has("at_stage", self.ps[j - 1].text)
            if heard_number(self.made, self.ps[j - 1].text):
                return 0  # "again in too days"
            if staged or piece.types.keys() & {"UNIT", "MONTH", "WEEK_PART"}:
                self.draft.ask("which_look", self.piece.start, piece.end)
                if any(k in self.found for k in range(self.i, j)):
                    self.ps[j] = Piece("word", piece.text, piece.start, piece.end, (), None, piece.spaced)
                    return self.text()  # the field's name stands between, and is one
                self._emit("TEXT", None, self.piece.start, piece.end)
                return j + 1 - self.i
            if weak and piece.types and not (linking(piece) or is_any(piece, ("MOSTLY", "ABOUT", "WHICH", "ORDINAL"))):
                return 0
        return 0

    def _next_week(self, j: int | None) -> int:
        """ "Vuelvo la semana que viene", "volto semana que vem", "vuelvo la próxima semana"."""
        pair = (self.at(j), self.direct(j, 1)) if j is not None else (None, None)
        unit = next((p.types["UNIT"] for p in pair if p is not None and "UNIT" in p.types), None)
        which = next((p.types["WHICH"] for p in pair if p is not None and "WHICH" in p.types), None)
        if j is None or unit is None or which is None or which.value != "next" or unit.value not in ("week", "month"):
            return 0
        self.take()
        last = self.ps[self.direct_index(j, 1)]
        self._emit("SPAN", ("days", UNIT_DAYS[unit.value], ""), self.ps[j].start, last.end)
        return self.direct_index(j, 1) - self.i + 1

    def _later_day(self) -> int | None:
        """ "Come back with a shovel thursday": a day a few words on in the clause, nothing of this visit between."""
        for j in range(self.i + 1, self.i + 7):
            piece = self.at(j)
            if piece is None or piece.kind in ("break", "line", "stage", "number"):
                return None
            if piece.kind == "day":
                return j
            if (
                piece.kind == "word"
                and piece.types
                and not (linking(piece) or is_any(piece, ("TOOL", "SOAKED", "NOT_LOOKED")))
            ):
                return None
        return None

    def as_which(self) -> int:
        """Next week behind "look again"."""
        after = self.after
        unit = after.types.get("UNIT") if after is not None else None
        if unit is None or self.entry.value != "next" or unit.value not in ("week", "month"):
            return 0
        j = self.direct_index(self.i, 1)
        alone = self.near_before is None and self.near(j, 1) is None
        if not (alone or self.last_is("LOOK")):
            return 0
        return self._span(1, unit.value, j)

    def as_dap(self) -> int:
        """DDS 71: the number behind."""
        after = self.after
        if "LINK" in self.piece.types and self.names.bound(self.direct_index(self.i, 1)):
            return 0  # "4 das 6 plantas"
        if after is None or after.kind != "number" or not isinstance(after.value, int):
            return self.text()
        j = self.direct_index(self.i, 1)
        days = after.value * (7 if self.entry.value == "week" else 1)
        self._emit("SPAN_AFTER_PLANTING", days, self.piece.start, after.end)
        return j - self.i + 1

    def as_same(self) -> int:
        """Same, ditto; not "same spot"."""
        if self.after is not None and self.made.has("except_word", self.after.text):
            return self.take()  # "ditto except 4 white"
        return 0 if " " not in self.piece.text and self.unknown(self.after) else self.take()

    def as_courtesy(self) -> int:
        """Thanks, ok: between two breaks."""

        def open_end(piece: Piece | None) -> bool:
            return piece is None or piece.kind in ("break", "line") or "COURTESY" in piece.types

        if self.has("all_well") and self.lead == "soft" and self.first_name < self.i:
            return 0  # "checked the beans at sycamore lane, all good"
        ends = open_end(self.at(self.direct_index(self.i, -1))) and (open_end(self.after) or self.i == 0)
        ends = ends or (self.has("thank_word") and open_end(self.after))  # "tomorrow thanks"
        return self._emit("COURTESY", None, self.piece.start, self.piece.end) if ends else 0

    def as_veins(self) -> int:
        """Green veins, interveinal; a bare "veins" beside leaves or a colour."""
        if self.has("lone_vein"):
            around = (self.near_before, self.near_after)
            return self.take() if any(is_any(p, ("GREEN", "COLOUR", "TOPS")) for p in around) else self.text()
        return self.take()

    def as_bands(self) -> int:
        """Bands of color; "faixa de Peking" is a strip with its seed."""
        return self._strip_of_seed() or self.take()

    def as_edges(self) -> int:
        """Edges of leaves."""
        if self.entry.value == "burnt":
            return self.take()
        around = (self.near_before, self.near_after)
        told = self.lead in ("", "link") and any(word.type in ("LEAF", "TOPS") for word in self.out[-3:])
        if self._edge_of_place():
            return self.text()
        near = told or any(is_any(p, ("TOPS", "OLD", "NEW", "COLOUR", "TOP", "GREEN")) for p in around)
        return self.take() if near else 0

    def _edge_of_place(self) -> bool:
        """ "Along the edge of the yellow spot": an edge of ground, and of no leaf."""
        of = self.direct(self.i, 1)
        if of is None or of.text.split(" ")[0] not in anywhere("of_place") | anywhere("of_word"):
            return False
        behind = self.ps[self.i + 2 : self.i + 2 + EDGE_WORDS]
        behind = list(itertools.takewhile(lambda p: p.kind == "word", behind))
        ground = any(is_any(p, ("SPOT", "FIELD_WORD")) or self._shape(p) for p in behind)
        return ground and not any(is_any(p, ("TOPS", "OLD", "NEW")) for p in behind)

    def as_new(self) -> int:
        """New leaves; "top" only right before them."""
        if self.has("close_new"):
            return self.take() if is_any(self.after, ("TOPS",)) else 0
        return self.take() if self._leaves_near(self.i) else 0

    def as_old(self) -> int:
        """Old leaves."""
        return self.take() if self._leaves_near(self.i) else 0

    def as_green(self) -> int:
        """Green leaves."""
        around = (self.near_before, self.near_after)
        return (
            self.take()
            if any(is_any(p, ("TOPS", "OLD", "NEW", "VEINS", "TOP", "COLOUR")) for p in around)
            else self.text()
        )

    def as_tops(self) -> int:
        """Leaves, plants without a number."""
        return self.text() if self.entry.slip and self._beside() != "LEAF" else self.take()

    def as_top(self) -> int:
        """Stunted, patch, healthy; everyday adjectives need plants beside them, or a clause of their own.

        "Patch: 4 pl 1y" names a place.
        """
        tinted = 1 + is_any(self.at(self.i + 1), ("COLOUR",))  # "manchón amarillo: 4 plantas"
        placed = is_any(self.at(self.i + tinted + 1), ("SPOT",))  # "tem reboleira: dentro 4 plantas .. fora .."
        heads = self.colon_at(self.i + tinted) and not placed and self._data_at(self.i + tinted + 1)
        heads = heads or (tinted == 1 and self._against_outside())
        if self.entry.value in ("patch", "ring") and heads:
            start, end = self._inside_or_outside(), self.ps[self.i + tinted - 1].end
            self._emit("SPOT", written(self.draft.text, start, end), start, end)
            return tinted
        of_plants = any(e.type == "TOPS" for w in self.piece.text.split() for e in self.made.singles.get(w, ()))
        of_roots = self.entry.value == "healthy" and (self._towards(-1) or (0, ""))[1] in ("ROOT", "NODULE")
        if of_roots and not of_plants:
            return 0  # "roots look nice"
        if self.entry.value == "yellow" and is_any(self.after, ("FEMALES",)):
            return self.text()  # "a few pale females"
        turned = any(e.type == "COLOUR" for w in self.piece.text.split() for e in self.made.singles.get(w, ()))
        if turned and " " in self.piece.text and self.last_is("COLOUR") and self.lead == "":
            return self.text()  # "12 white turning yellow"
        if self.has("even_denied") and self.unknown(self.after):
            return 0  # "did not even get out of the truck"
        if not self.has("weak"):
            return self.take()
        if self.entry.value == "stunted" and self._too_small_to_dig():
            return self.text()
        if self.has("all_well"):
            named = self.first_name < self.i
            return self.take() if named and (self.after is None or self.after.kind in ("break", "line")) else 0
        beside = self._beside()
        if beside == "NODULE" and self.last_is("NODULE"):
            return 1  # "few small nods": said of the nodules, and nothing we keep
        if beside == "ROOT":
            return self.take("ROOT", "stubby") if self.entry.value == "stunted" else 0
        tied = (
            self.lead == "link" and self.ps[self.i - 1].text in joints() and self.entry.value in ("stunted", "uneven")
        )
        if beside == "LEAF" or (self.last_is("LEAF") and (self.entry.value == "patch" or tied)):  # "amarelas e baixas"
            return self.take()
        pair, shade = self.at(self.i + 1), self.at(self.i + 2)
        whole = (
            shade is not None and self.made.has("whole_crop", shade.text) and is_any(self.at(self.i + 3), ("COLOUR",))
        )
        if pair is not None and pair.text == "," and whole and not self.is_number(self.before):
            return self.take()  # "V5 baixinha, toda amarela"
        if pair is not None and pair.text in joints() and is_any(shade, ("COLOUR",)) and not is_any(shade, ("LINK",)):
            beyond = self.at(self.i + 3)
            if not self.is_number(beyond) and not is_any(beyond, ("FEMALES",)) and not self.is_number(self.before):
                return self.take()  # "where they are short and yellow"
        noun, counted = self.at(self.i - 1), self.is_number(self.at(self.i - 2))
        plants = is_any(noun, ("PLANTS",)) and not counted and self.near_after is None  # "pés baixinhos"
        alone = (self.near_before is None or plants) and self.near_after is None
        return self.take() if alone and self.entry.value in ("stunted", "uneven", "patch") else 0

    def _too_small_to_dig(self) -> bool:
        """ "We did not dig, the plants are too small": a reason to wait, and nothing that stunts them."""
        beside = [piece.text for piece in (self.ps[max(0, self.i - 1) : self.i] + self.ps[self.i + 1 : self.i + 2])]
        said = any(self.made.has("too_word", word) for word in beside)
        return said and any("NOT_LOOKED" in piece.types for piece in self.ps)

    def _against_outside(self) -> bool:
        """ "En el anillo 4 pl 26 bl, afuera 4 pl 2 bl": plants and a color behind the ring, and behind "outside"."""
        led = self.ps[self.i - 1].text if self.i else ""
        if not (led in anywhere("name_article") or self.made.has("at", led)):
            return False
        outside = next(
            (k for k in range(self.i + 1, min(self.i + LOOKED_BACK, len(self.ps))) if self._is_outside(k)), 0
        )
        counted = [p is not None and p.kind == "number" for p in (self.at(self.i + 1), self.at(outside + 1))]
        return outside > 0 and all(counted) and is_any(self.at(self.i + 2), ("PLANTS",))

    def _is_outside(self, k: int) -> bool:
        return "SPOT" in self.ps[k].types and self.ps[k].types["SPOT"].value == "out"

    def _inside_or_outside(self) -> int:
        """Where "inside the patch" begins; the patch itself where no such word leads to it."""
        k = self.i - 1
        while k >= 0 and self.ps[k].kind == "word" and (linking(self.ps[k]) or "COLOUR" in self.ps[k].types):
            if is_any(self.ps[k], ("SPOT",)):
                break
            k -= 1
        told = k >= 0 and is_any(self.ps[k], ("SPOT",)) and self.ps[k].types["SPOT"].value in ("in", "out")
        if not told or k in self.found:
            return self.piece.start
        while self.out and self.out[-1].start >= self.ps[k].start:
            self.lead = self.out.pop().lead
        return self.ps[k].start

    def as_field(self) -> int:
        """A known name that is only mentioned."""
        return 0 if len(self.piece.types) > 1 else self.text()
