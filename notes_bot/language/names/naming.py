"""Where the fields of a message are named.

A name is what the crew calls its fields, what stands behind "field", or what stands first and is nothing else.
A new name behind a finding starts a new note.
"""

from __future__ import annotations

import itertools
import re
from bisect import bisect_left
from dataclasses import dataclass
from functools import cache, cached_property, lru_cache

from notes_bot.language.lexicon.crew_names import name_parts, short_for
from notes_bot.language.lexicon.joining import NOUNS, claims, day_number, is_any, linking, number_like
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import COMMAND_TYPES, Table, anywhere
from notes_bot.language.names.brought_up import Prose
from notes_bot.language.names.field_groups import LONGEST_GROUP
from notes_bot.language.names.moving_on import lead_to, look_told

HARD = frozenset(
    {"DUG", "TOOL", "NONE", "NOT_LOOKED", "SOAKED", "RESISTANCE", "CHECK", "PLANTED", "SPRAY", "EACH", "FEMALES"}
    | {"NODULES", "NOT", "TOO_MANY", "CHEMICAL", "ENTRY", "SOURCE", "DAP", "TODAY", "PH", "SAME", "VARIETY"}
)
"""Kinds of word that never belong to a field's name."""
_THINGS = ("SOAKED", "TOOL")
"""Words for things, which may name a field where a word for field says so ("talhão Mangueira")."""
_TOLD_ON_WAY = frozenset({"NONE", "NOT_LOOKED", "FEMALES", "TOO_MANY", "COLOUR", "PLANTS", "TOOL", "FIELD", "NOT"})
"""What is not told in a sentence before "stopped at" another field."""
FINDINGS = frozenset({"DUG", "NONE", "NOT_LOOKED", "FEMALES", "TOO_MANY"})
_BEFORE_NAME = frozenset({"LINK", "COURTESY", "TODAY", "WEEKDAY", "ABOUT", "SAME"})
SIDES = frozenset("nsewol")
"""Letters for a side that may end or begin a name of the crew ("old mill e"), whatever else they mean."""
LIKE = 80.0
"""Likeness, in hundredths, from which a few words are taken for a name of the crew (judgement)."""
LIKE_WHOLE = 85.0
"""Likeness from which the word behind a short name belongs to the name ("kestrel botom", judgement)."""
SHORTEST_SHORT = 4
"""Characters in the shortest writing that may be short for a name (judgement)."""
MOST_FIELDS = 12
"""Fields that a day's message may tell of ("two done", judgement); a name may hold a larger number ("the forty")."""
MOST_OF_HEADING = 24
"""Pieces of a heading above lines of fields (judgement)."""
LEAST_TITLE = 10
"""A smaller number behind a word for a place counts something (judgement)."""
LEAST_LABELS = 4
"""Lines that begin with a label from which a message is a form (judgement)."""
LED_WORDS = 5
"""Little words that lead to a field's name, "then over in", "na quarta foi a" (judgement)."""
LONGEST_WAY = 10
"""Pieces before "stopped at", "since it was on the way home, i" (judgement)."""
LONGEST_ASIDE = 7
"""Pieces of an aside between a field gone to and the look told of it, "ate a pickle" (judgement)."""
MOST_LED = 2
"""Little words that lead to another field behind "and" (judgement)."""
LONGEST = 7
"""Pieces in the longest name looked for (judgement)."""


@dataclass(slots=True)
class FieldName:
    """A field's name: pieces ``first`` to ``last`` (exclusive) are used up, ``start`` to ``end`` is the name."""

    first: int
    last: int
    start: int
    end: int
    also: tuple[str, ...] = ()
    """Other known fields named in one breath with it ("kestrel and tinkers both none")."""
    called: str = ""
    """The name, where only "the first", "the second" of them stands there."""


def written(text: str, start: int, end: int) -> str:
    """A slice of the text in lower case with single spaces, as a name is kept."""
    return " ".join(text[start:end].replace("’", "'").lower().split()).strip(" .,:;?!'\"-#()“”„«»‘’")


@dataclass(frozen=True, slots=True, eq=False)
class Crew:
    """The names a crew gives its fields, made ready once for all its messages; compared by identity."""

    names: tuple[str, ...]
    """In lower case, single spaces."""
    in_full: frozenset[str]
    """The names, folded."""
    firsts: frozenset[str]
    """First words of the names: "pothole" alone may stand for Pothole Flat, "tranquera" for La Tranquera."""
    articled: frozenset[str]
    """Names that are an article and one word, without the article."""
    heads: frozenset[tuple[str, str]]
    """An article and the word behind it, where longer names begin with them: "La Tranquera" of La Tranquera Vieja."""
    parts: tuple[tuple[str, ...], ...]
    """The words and numbers of each name."""
    initials: frozenset[str]
    """First letters of names of three words and more, numbers whole: "ome" for Old Mill East, "hr3"."""


@cache
def joints() -> frozenset[str]:
    """What joins two fields told of together, in any language: names are looked for before the words are sorted out."""
    return anywhere("joint") | frozenset("&+/,")


@lru_cache(maxsize=256)
def crew_of(fields: tuple[str, ...]) -> Crew:
    """The crew whose fields these are."""
    names = tuple(" ".join(name.lower().split()) for name in fields)
    words = [fold(name).split(" ") for name in names if name]
    led = [name for name in words if len(name) > 1 and name[0] in anywhere("name_article")]
    firsts = frozenset(name[1] if name in led else name[0] for name in words)
    articled = frozenset(name[1] for name in led if len(name) == 2)
    heads = frozenset((name[0], name[1]) for name in led if len(name) > 2)
    parts = tuple(name_parts(name) for name in names)
    initials = frozenset(
        "".join(p if p.isdigit() else p[0] for p in row) for row in parts if len(row) > 2 or row[-1].isdigit()
    )
    return Crew(names, frozenset(map(fold, names)), firsts, articled, heads, parts, initials)


_OF_A_PLACE = frozenset({"SPOT", "MOSTLY", "LINK", "EACH", "MOISTURE", "BELOW", "OLD", "NEW"})
"""What the second word of a place's name may be besides."""


class Names:
    """Finds the names in one text."""

    def __init__(
        self,
        text: str,
        pieces: list[Piece],
        made: Table,
        fields: tuple[str, ...],
        likely: frozenset[str] | None = None,
    ) -> None:
        self.text = text
        self.likely = likely
        """Words, folded, that an unknown name must hold one of where no word for field says so; any when ``None``."""
        self.ps = pieces
        self.made = made
        self.crew = crew_of(fields)
        self.fields, self.firsts, self.articled = self.crew.names, self.crew.firsts, self.crew.articled
        self.deferred: tuple[int, int] | None = None
        self.counted: bool | None = None
        self.labels: int | None = None
        """Lines that begin with a label, not counted yet."""
        self.headed = False
        """Does a colon stand behind the first name?"""
        self.together: set[str] = set()
        """Fields named in one breath with another: told of one by one afterwards."""
        self.last_headed: int | None = None
        """Where the last line that begins with a known field begins."""
        self.place_lines: frozenset[int] | None = None
        """Where lines begin, when they are places of the first line's field."""
        self.first_place: int | None = None
        """Where the first line begins that a place heads; not looked for yet."""
        self.named: set[str] = set()
        """All names found so far, folded."""
        self.begun: dict[str, list[FieldName]] = {}
        """The names found so far by their first piece, in order."""
        self.breath: set[str] = set()
        """All fields named in one breath, the first of them too."""
        self.led_first = False
        """Is the first field told of behind a word for "at", before anything was found?"""

    @cached_property
    def prose(self) -> Prose:
        """The sentences around the fields."""
        return Prose(self.ps, self.made)

    def at(self, i: int) -> Piece | None:
        """The piece at an index, or ``None`` past the ends."""
        return self.ps[i] if 0 <= i < len(self.ps) else None

    def two_fields(self, names: dict[int, FieldName]) -> list[tuple[int, int]]:
        """Places where two known fields share one note and it cannot be told what was found in which."""
        if not names:
            return []
        first = min(names)
        found = []
        either = self.at(names[first].last)
        if either is not None and self.made.has("or_word", either.text):
            other = names[first].last + 1 + is_any(self.at(names[first].last + 1), ("LINK",))
            if self._only_a_name(other) or self._only_a_name(names[first].last + 1):
                return [(self.ps[first].start, self.ps[min(other, len(self.ps) - 1)].end)]  # "kestrel or tinkers"
        finding = False
        for i in range(names[first].last, len(self.ps)):
            piece = self.ps[i]
            if i in names or finding:
                break
            finding = piece.kind in ("number", "range", "series") or is_any(piece, FINDINGS)
            before = self.ps[i - 1]
            if not self._only_a_name(i):
                continue
            if not is_any(before, ("LINK", "NEAR", "NOT", "SAME", "RENAME_TO")) or before.text in joints():
                found.append((self.ps[first].start, piece.end))
        return found

    def _only_a_name(self, i: int) -> bool:
        piece = self.at(i)
        return is_any(piece, ("FIELD",)) and piece is not None and not piece.types.keys() - {"FIELD", "LINK"}

    def _in_one_breath(self, name: FieldName) -> FieldName:
        """The name with the known fields joined to it by "and"."""
        also = []
        last = name.last
        neither = any(is_any(p, ("NOT_LOOKED",)) for p in self.ps[max(0, name.first - LONGEST) : name.first])
        while True:
            j = last
            while (piece := self.at(j)) is not None and (
                piece.text in joints() or (neither and self.made.has("or_word", piece.text))
            ):
                j += 1
            while j > last and (self.made.has("also", getattr(piece, "text", "")) or self._goal(j)):
                j += 1
                piece = self.at(j)  # "fui a la curva y también a el pozo"
            j = self._behind_little(j) if j > last else j
            alone = self._only_a_name(j) or (is_any(self.at(j), ("FIELD",)) and not self._data_from(j + 1))
            undone = is_any(self.at(j), ("FIELD",)) and is_any(self.at(j + 1), ("NOT_LOOKED",))
            told = getattr(self.at(j), "text", "")
            again = told in self.named or told == self.ps[name.first].text  # "Vermelha, terra vermelha argilosa"
            both = is_any(self.at(j), ("FIELD",)) and self._told_of_both(j + 1)
            beside = j == last and self._side_by_side(name.first, j)
            if (j == last and not beside) or again or not (alone or undone or both or self._dated(j)):
                break
            also.append(written(self.text, *self._without_field_word(self.ps[j].start, self.ps[j].end)))
            self.together.add(self.ps[j].text)
            last = j + 1
        return FieldName(name.first, last, name.start, name.end, tuple(also)) if also else name

    def _behind_little(self, j: int) -> int:
        """ "And (at) Depot", "y (en el) Church Corner": where the field stands behind little words; else the same."""
        k = j
        while k < j + MOST_LED and is_any(self.at(k), ("LINK",)) and not is_any(self.at(k), ("FIELD", "NEAR")):
            k += 1
        return k if is_any(self.at(k), ("FIELD",)) else j

    def _side_by_side(self, first: int, j: int) -> bool:
        """ "Teller East Long Levee and Sumac", "ceibo hornos ambos": fields without a comma, as all of them are meant.

        A word that joins two of them, or one for all of them behind the last, says so.
        """
        if not self._only_a_name(j):
            return False
        end, joined = j, any(piece.text in joints() for piece in self.ps[first:j])
        while (piece := self.at(end)) is not None and (
            is_any(piece, ("FIELD",)) or piece.text in joints() or (linking(piece) and joined)
        ):
            joined = joined or piece.text in joints()
            end += 1
        names = [piece.text for piece in self.ps[first:end] if is_any(piece, ("FIELD",))]
        if len(set(names)) < len(names):
            return False  # "I did Kestrel and Sumac Kestrel five plants .."
        behind = [piece.text for piece in self.ps[end : end + LONGEST_GROUP]]
        groups = (" ".join(behind[:size]) for size in range(1, len(behind) + 1))
        undone = is_any(piece, ("NOT_LOOKED",))
        return (joined and is_any(self.at(end - 1), ("FIELD",))) or undone or any(map(self._of_group, groups))

    def _of_group(self, said: str) -> bool:
        """Is it a word for several fields, "both", "all three"?"""
        return any(self.made.has(manner, said) for manner in ("field_group", "for_both", "for_all"))

    def _told_of_both(self, j: int) -> bool:
        """ "Santa Rita e Baixada: 5 arrancadas em cada": a stop behind a name that is also a place, and "in each"."""
        stop = self.at(j)
        if stop is None or stop.text not in (",", ":"):
            return False
        said, ended = bisect_left(self._of_each, j), bisect_left(self._lines, j)
        end = self._lines[ended] if ended < len(self._lines) else len(self.ps)
        return said < len(self._of_each) and self._of_each[said] < end

    @cached_property
    def _lines(self) -> list[int]:
        """Where lines end."""
        return [k for k, piece in enumerate(self.ps) if piece.kind == "line"]

    @cached_property
    def _of_each(self) -> list[int]:
        """Where it is said "in each" or "both"."""
        words = [(k, word) for k, piece in enumerate(self.ps) for word in piece.text.split(" ")]
        found = []
        for n, (k, _) in enumerate(words):
            spans = (" ".join(word for _, word in words[n : n + size]) for size in (1, 2, 3))
            if any(self.made.has("of_each_field", span) or self.made.has("for_both", span) for span in spans):
                found.append(k)
        return found

    def _goal(self, j: int) -> bool:
        """Is there a little word that leads to where somebody went, a known field behind it?"""
        word = getattr(self.at(j), "text", "")
        return self.made.has("goal", word) and is_any(self.at(j + 1), ("FIELD",))

    def _dated(self, j: int) -> bool:
        """A known field with only a day behind it: "sede velha e baixada hj."."""
        day, stop = self.at(j + 1), self.at(j + 2)
        ended = stop is None or stop.kind in ("break", "line")
        return is_any(self.at(j), ("FIELD",)) and day is not None and day.kind == "day" and ended

    def find(self) -> dict[int, FieldName]:
        """Every name, by index of its first piece."""
        found: dict[int, FieldName] = {}
        finding = False
        clause, line = True, True
        likely = self._likely()
        tries = 3
        i = 0
        while i < len(self.ps):
            piece = self.ps[i]
            if piece.kind in ("break", "line"):
                clause = True
                line = line or piece.kind == "line" or bool(self.fields) or piece.text in ".;"
                i += 1
                continue
            if piece.kind == "place":  # with a list of its own
                finding = True
                clause = line = False
                i += 1
                continue
            if found and finding and self.fields and not (clause or line) and self._within_finding(i):
                i += 1
                continue
            # Letters that are an article or "and" in one language or another: "o talhão 3", "e lote 7".
            skippable = (clause or line) and (  # elsewhere nothing depends on it
                self._skippable(piece)
                or (piece.text in ("a", "o", "e", "y") and is_any(self.at(i + 1), ("FIELD", "FIELD_WORD")))
            )
            if found and self._leads_on(i):
                clause = line = False
                i += 1
                continue
            name = self._named(i, clause, bool(found), finding)
            if name is None and i == 0 and (whole := self._known_run(0)):
                name = self._make(0, whole, 0)
            if name is None and piece.kind == "quoted" and i == 0 and len(self.ps) > 1 and self._ended(1):
                name = self._make(i, i + 1, i)
            if name is None and likely is not None and i == likely[0] and not found:
                name = self._make(i, likely[1], i)
            if name is None and clause and not found and tries and likely is None:
                name = self._leading(i, first=tries == 3)
                tries -= 0 if skippable or piece.kind != "word" else 1
            if name is None and not found and piece.text in anywhere("named_at") and self._may_be_named(i + 1):
                last = self._run(i + 1)
                name = self._make(i, last, i + 1) if last > i + 1 and not self._aside(i + 1, last) else None
            if name is None and line and found and finding and self._soft_start(i) and self._direction_first(i):
                name = self._make(i, i + 2, i)
            led = not self.fields and self.made.has("article", piece.text) and self.capital(i)  # ". La Unión: R2"
            if name is None and line and found and (finding or self._titled(i)) and (led or not skippable):
                name = self._new_note(i)
            if name is None and found and finding and not self.fields and i and self.ps[i - 1].text == ",":
                last = max(self._run(i), self._capitals_end(i))
                name = self._make(i, last, i) if last > i and self._says_name(i, last) else None
            if name is None and found and finding and i and self.made.has("and_then", self.ps[i - 1].text):
                last = self._run(i)
                name = self._make(i, last, i) if last > i and self._had_there(i, last) else None
            if name is None and found and finding and not self.fields:
                name = self._gone_on_to(i)
            if name is None and found and self._starts_clause(i):
                name = self._told_again(i)
            if name is None and self.breath:
                name = self._nth_of_breath(i, found) or self._word_of_breath(i)
            if name is not None:
                known = is_any(self.at(name.last - 1), ("FIELD",)) or self.likeness(name.start, name.end) >= 99
                name = self._in_one_breath(name) if known else name
                self.together.update(name.also)
                self.breath.update((*name.also, written(self.text, name.start, name.end)) if name.also else ())
                self.headed = self.colon(name.last) if not found else self.headed
                self.led_first = self.led_first or (not found and not finding and self._told_at(name.first))
                found[name.first] = name
                self.begun.setdefault(self.ps[name.first].text, []).append(name)
                self.named.add(fold(written(self.text, name.start, name.end)))
                finding = clause = line = False
                i = name.last
                continue
            shaded = i > 0 and is_any(piece, ("COLOUR",)) and is_any(self.ps[i - 1], ("MOSTLY",))  # "mostly white"
            told = piece.kind in ("range", "series") or is_any(piece, FINDINGS) or shaded or self.prose.unlooked(i)
            if not finding and (told or (piece.kind == "number" and not self._of_time(i))):
                finding = bool(self.fields) or not (is_any(piece, ("DUG",)) and self._only_dated(i))
            if (piece.text == ":" and not found) or (piece.text == "/" and piece.spaced and self.fields and finding):
                clause = line = True
            elif not (clause and skippable):
                clause = line = False
            i += 1
        if not found:
            deferred = self._make(self.deferred[0], self.deferred[1], self.deferred[0]) if self.deferred else None
            name = self._mentioned() or deferred or self._after_at()
            if name is not None:
                found[name.first] = name
        return found

    def _of_time(self, i: int) -> bool:
        """ "(In Kestrel for the last) forty minutes": a number that tells how long, and nothing found."""
        unit = self.at(i + 1)
        return unit is not None and self.made.has("time_unit", unit.text)

    def _within_finding(self, i: int) -> bool:
        """Can no name of the crew begin in the midst of a clause of what was found: no known one, none behind "and"?"""
        piece = self.ps[i]
        plain = "FIELD" not in piece.types and piece.text != "/" and not self.breath
        return plain and not self.made.has("and_then", self.ps[i - 1].text)

    def _may_be_named(self, i: int) -> bool:
        """A word we do not know, alone or behind "old" and "new" where no list of fields is known?"""
        old = is_any(self.at(i), ("OLD", "NEW")) and self._unknown(self.at(i + 1)) and not self.fields
        return self._unknown(self.at(i)) or old

    def _nth_of_breath(self, i: int, found: dict[int, FieldName]) -> FieldName | None:
        """ "Visité A y B. En el primero ..; en el segundo ..": which of the fields named in one breath."""
        piece, after = self.ps[i], self.at(i + 1)
        nth = piece.types.get("NTH") or piece.types.get("ORDINAL")
        latter, former = (self.made.has(trait, piece.text) for trait in ("latter", "former"))
        several = next((name for name in reversed(found.values()) if name.also), None)
        article = self.at(i - 1)
        counted = nth is None or is_any(after, NOUNS | {"TOPS", "DAP", "WEEKDAY"})
        if several is None or article is None or (counted and not (latter or former)):
            return None
        if not (self.made.has("nth_article", article.text) and self._starts_clause(self._led_from(i))):
            return None
        names = (written(self.text, several.start, several.end), *several.also)
        n = len(names) if latter else 1 if nth is None else int(nth.value)
        if not 0 < n <= len(names):
            return None
        self.together.add(names[n - 1])
        return FieldName(i, i + 1, piece.start, piece.end, (), names[n - 1])

    def _word_of_breath(self, i: int) -> FieldName | None:
        """ "Santa Elvira y Doña Clara .. Elvira 4 blancas. Clara nada": one word of a field named in one breath."""
        begins = self._starts_clause(self._led_from(i))  # "en Elvira 4 blancas"
        if not (begins and self.ps[i].kind == "word" and self._data_from(i + 1)):
            return None
        of = [name for name in self.breath if self.ps[i].text in fold(name).split(" ")]
        return self._make(i, i + 1, i) if len(of) == 1 and not self._is_field_word(self.ps[i].text) else None

    def _led_from(self, i: int) -> int:
        """Where the little words right before a piece begin ("y en el segundo")."""
        while i and is_any(self.ps[i - 1], ("LINK",)):
            i -= 1
        return i

    def _only_dated(self, i: int) -> bool:
        """ "Heron Slough, dug 8/14." above places told one a line: nothing was counted yet."""
        day = self.at(i + 1)
        return day is not None and day.kind == "day" and self._ended(i + 2)

    def _told_again(self, i: int) -> FieldName | None:
        """ "sta rita e baixada hj. sta rita r3 ..": a name no list has, at the start of a clause once more."""
        for name in self.begun.get(self.ps[i].text, ()):
            first = name.first
            size = len([k for k in range(first, name.last) if self.ps[k].end <= name.end])
            same = [p.text for p in self.ps[first : first + size]] == [p.text for p in self.ps[i : i + size]]
            if same and size and self.ps[i].kind == "word" and self._data_from(i + size):
                return self._make(i, i + size, i)
        return None

    def _likely(self) -> tuple[int, int] | None:
        """The words in the midst of a sentence most like a name of the crew ("so i got to larkspur s80 around 2").

        Not looked for where a known name stands in full, or where the first clause may hold one.
        """
        if not self.fields:
            return self._said_field()
        if any("FIELD" in piece.types for piece in self.ps):
            return None
        best, found = LIKE, None
        for i, piece in enumerate(self.ps):
            if piece.kind != "word" or is_any(piece, HARD) or (piece.types and not self._soft_start(i)):
                continue
            for last in range(i + 1, min(i + 5, len(self.ps) + 1)):
                run = self.ps[i:last]
                if run[-1].kind not in ("word", "number") or is_any(run[-1], HARD):
                    break
                lone = last == i + 1 and piece.text not in self.articled
                if lone and (piece.types or self.made.has("place_word", piece.text)):
                    continue
                likeness = self.likeness(run[0].start, run[-1].end)
                if likeness > best or (likeness == best and found is not None and found[0] == i):
                    best, found = likeness, (i, last)
        if found is not None and found[0]:
            word = self.ps[found[0] - 1]
            more = self._unknown(word) or self.made.has("article", word.text)
            if more and self._starts_clause(found[0] - 1) and self._like_known(found[0] - 1, found[1]):
                return None  # "snata rita": more than "rita" is like the name
        if found is None or (self._starts_clause(found[0]) and self._run(found[0]) > found[0]):
            self.deferred = found
            return None  # found where names are looked for first
        return found

    def _soft_start(self, i: int) -> bool:
        """May a word with a meaning of its own begin a name ("old mill")?"""
        piece, after = self.ps[i], self.at(i + 1)
        if self.made.has("direction", piece.text) and after is not None and after.kind in ("word", "number"):
            return self.likeness(piece.start, after.end) >= 99
        return is_any(piece, ("OLD", "NEW", "SPOT", "MOISTURE", "ORDINAL", "NTH")) and piece.text in self.firsts

    def _direction_first(self, i: int) -> bool:
        """ "n forty" for North Forty, at the start of a line with a note behind it."""
        return self.made.has("direction", self.ps[i].text) and self._data_from(i + 2)

    def _starts_clause(self, i: int) -> bool:
        return i == 0 or self.ps[i - 1].kind in ("break", "line")

    # what may be a name

    def _named(self, i: int, clause: bool, have: bool, finding: bool) -> FieldName | None:
        """A name that says it is one: behind the word for field, or known to the crew."""
        piece = self.ps[i]
        if "FIELD_WORD" in piece.types and (clause or not have):
            name = self._after_field_word(i)
            if name is not None:
                return name
        if "FIELD" in piece.types and self._known_stands(i, clause, have, finding):
            led = have and finding and not clause and self._and_the(i)
            own = not (led or clause or self._led_there(i, finding))
            if have and finding and own and (first := self.prose.brought_up_from(i)) < i:
                return self._extend(i, first)
            return self._extend(i, lead_to(self.ps, self.made, i) if have and self._moved_on(i) else i - led)
        return None

    def _skippable(self, piece: Piece) -> bool:
        """What may stand before a field's name: a day, a stage, a greeting, "at"."""
        if piece.kind in ("day", "stage", "sign"):
            return True
        types = piece.types.keys() - COMMAND_TYPES
        types -= {"MEASURE"} if "LINK" in types else set()  # "went to creek": no range here
        return bool(types) and types <= _BEFORE_NAME and len(piece.text) > 1

    def _unknown(self, piece: Piece | None) -> bool:
        free = piece is not None and piece.kind == "word" and not piece.entries
        return free and piece is not None and not self.made.has("soil_word", piece.text.removesuffix("'s"))  # "dirt's"

    def bound(self, i: int) -> bool:
        """Does the number at i belong to what stands behind it?"""
        after = self.at(i + 1)
        if after is None:
            return False
        if after.kind == "number":
            beyond = self.at(i + 2)
            return beyond is not None and beyond.kind == "number"
        if after.kind == "sign":
            return after.text != "#"
        beyond = self.at(i + 2)
        if linking(after) and beyond is not None and linking(beyond):
            return False  # "harrow ridge 3 in the corner": no inches
        others = ("MEASURE", "MONTH", "MOSTLY", "ROOTS", "TOO_MANY", "NUMBER_WORD", "HAD")
        if is_any(after, ("HAD",)) and beyond is not None and beyond.kind == "number" and claims(self.ps, i + 3):
            return False  # "pasture end 30 had 6 white"
        if is_any(after, ("TOOL",)) and beyond is not None and beyond.kind == "number":
            return is_any(self.at(i + 3), ("COLOUR",)) or self._ended(i + 3)  # "plumb bob 3 shvl 7w"
        return after.kind == "range" or claims(self.ps, i + 1) or is_any(after, others)

    def _tied(self, i: int) -> bool:
        """A number glued to its noun: 6pl."""
        after = self.at(i + 1)
        return (
            after is not None
            and after.kind == "word"
            and not after.spaced
            and len(after.text) > 1
            and is_any(after, NOUNS)
        )

    def _ended(self, i: int) -> bool:
        piece = self.at(i)
        return piece is None or piece.kind in ("break", "line", "day", "stage", "sign")

    def colon(self, i: int) -> bool:
        """Does a colon stand there?"""
        piece = self.at(i)
        return piece is not None and piece.text in (":", "=")

    def _make(self, first: int, last: int, begin: int, used: int | None = None) -> FieldName | None:
        start, end = self._without_field_word(self.ps[begin].start, self.ps[last - 1].end)
        if not written(self.text, start, end) or not self._likely_name(first, begin, last):
            return None
        return FieldName(first, last if used is None else used, start, end)

    def _likely_name(self, first: int, begin: int, last: int) -> bool:
        """A name of the crew, one that a word for field tells, or one that holds a likely word."""
        own = self.ps[begin:last]
        if self.likely is None or any(word in self.likely for piece in own for word in piece.text.split(" ")):
            return True
        ends = (self.ps[first], *own, self.at(last))
        told = any(is_any(piece, ("FIELD", "FIELD_WORD")) for piece in ends) or own[0].kind == "quoted"
        return told or self._like_known(begin, last)

    def _without_field_word(self, start: int, end: int) -> tuple[int, int]:
        """A name keeps its words, but not the word for field before or behind it ("lote 7", "tinker's field")."""
        words = list(re.finditer(r"\S+", self.text[start:end]))
        linked = len(words) > 1 and self.made.has("name_link", fold(words[1].group()))  # "Invernada do Meio"
        if len(words) > 1 and self._listed_in_full(words[0].group(), self.text[start:end]):
            return start, end
        if len(words) > 1 and self._is_field_word(words[0].group()) and not linked:
            return start + words[1].start(), end
        if len(words) > 1 and self._is_field_word(words[-1].group()):
            return start, start + words[-2].end()
        return start, end

    def _listed_in_full(self, first: str, said: str) -> bool:
        """ "Invernada Velha": a word for a field, of the name by the list."""
        told = fold(" ".join(said.split()))
        return fold(first) in anywhere("kept_in_full") and told in self.crew.in_full

    def _is_field_word(self, word: str) -> bool:
        return any(entry.type == "FIELD_WORD" for entry in self.made.singles.get(fold(word), ()))

    def _after_field_word(self, i: int) -> FieldName | None:
        j = i + 1
        numbering = anywhere("numbering")
        while (piece := self.at(j)) is not None and (
            piece.text in ("#", ":")
            or piece.text in numbering
            or (piece.text == "." and self.ps[j - 1].text in numbering)
        ):
            j += 1
        if piece is None or piece.kind in ("break", "line"):
            return None
        if piece.kind == "quoted":
            return self._make(i, j + 1, j)
        if piece.kind == "number":
            after = self.at(j + 1)
            if (
                after is not None
                and (after.text == "/" or after.text in anywhere("of_word"))
                and getattr(self.at(j + 2), "kind", "") == "number"
            ):
                return None  # "field 1 of 12: kestrel"
            letter = after is not None and after.kind == "word" and len(after.text) == 1 and not after.spaced
            if letter:
                return self._make(i, j + 2, j)
            if self._tied(j) or (is_any(after, NOUNS) and after is not None and not self._another_number(j)):
                return None
            return self._make(i, j + 1, j)
        if "FIELD" in piece.types:
            return self._extend(j, i)
        if is_any(piece, _THINGS) and self.capital(j) and self._ended(j + 1):
            return self._make(i, j + 1, j)  # "talhão Mangueira, 3 plantas"
        if self.fields and any("FIELD" in other.types for other in self.ps) and not self.capital(j):
            return None  # "first field ever": the crew's own name stands elsewhere
        if "NUMBER_WORD" in piece.types:
            beyond = self.at(j + 2)
            another = beyond is not None and (beyond.kind == "number" or "NUMBER_WORD" in beyond.types)
            if another or not is_any(self.at(j + 1), NOUNS):
                return self._make(i, j + 1, j)
        last = self._run(j)
        linked = piece.text.split(" ")[0]
        if last == j and " " in piece.text and self.made.has("name_link", linked) and not is_any(piece, HARD):
            last = j + 1
        elif last == j and self.made.has("name_link", piece.text):
            last = self._run(j + 1)
            after = self.at(j + 1)
            if last == j + 1 and after is not None and after.kind == "word" and not is_any(after, HARD):
                last = j + 2
        if (
            last > j
            and i == 0
            and self.made.has("titled_field", self.ps[i].text)
            and self.made.has("name_link", linked)
            and self.capital(i)
        ):
            return self._make(i, last, i)  # "Invernada do Tito"
        return self._make(i, last, j) if last > j else None

    def _another_number(self, j: int) -> bool:
        """Is there another number for the noun behind this one ("lote 7 plantas 6")?"""
        beyond = self.at(j + 2)
        if beyond is None or beyond.kind != "number":
            return False
        return is_any(self.at(j + 1), ("DUG",)) or not claims(self.ps, j + 3)  # "lote 7 saqué 6 plantas"

    def _known_stands(self, i: int, clause: bool, have: bool, finding: bool) -> bool:
        """A known name is a mention only when a little word leads to it ("next to kestrel") and a note is open."""
        piece = self.ps[i]
        other = bool(piece.types.keys() - {"FIELD", "LINK", "TEXT"}) or piece.kind == "number"
        if have and self._beside(i):
            lies = any(self.made.has("copula", p.text) for p in self.ps[self.prose.clause_from(i) : i])
            return finding and not clause and not lies and self._visit_apart(i)  # "put this under Quarry"
        if clause and piece.text in self.together:
            return True
        if clause and have and finding and self.prose.likened(self.prose.sentence_from(i), i, i + 1):
            return False
        if clause:
            brought = other and self.capital(i) and finding and self.prose.brought_up(i)
            return not (other and have) or self._starts_another(i, finding) or brought  # "Depois Mangueira: 7 plantas"
        if other and " " not in piece.text:
            on = have and finding and self.capital(i)
            # "then across the lane to Ridge"
            on = on and (self._moved_on(i) or self._stopped_there(i) or self._visit_apart(i))
            named = self.capital(i) and piece.kind == "word"  # "fiz Barreiro e Mangueira ontem"
            return on or (not have and (named or self._joined(i)))
        if not have:
            return True
        if self.colon(i + 1) and self._data_from(i + 2):
            return True  # "but i did do kestrel: 5 plants"
        if any(piece.text in (name, name.split(" ")[0]) for name in self.breath) and self._told_of_breath(i, finding):
            return True
        if finding and self.led_first and self._told_at(i):
            return True  # "all by spade in kestrel six plants .. fifteen white in cedar slough six plants .."
        if self._led_there(i, finding) or (finding and self._visit_apart(i)):
            return True
        before = self.at(i - 1)
        led = is_any(before, ("LINK", "NEAR", "SAME", "NOT", "RENAME_TO", "HAD")) and before is not None
        if not finding or self.prose.likened(self.prose.sentence_from(i), i, i + 1):
            return False
        return not (led and before is not None and before.text not in anywhere("and_then"))

    def _led_there(self, i: int, finding: bool) -> bool:
        """Do words we know lead to the name in the midst of a sentence, and is a note of it told behind?"""
        if self._gone_to(i) or self._and_staged(i) or self._and_is(i):
            return True
        if not finding:
            return False
        ways = (self._and_the, self._and_at, self._led_sentence, self._dug_at, self._more_at, self._moved_on)
        return any(way(i) for way in ways) or self._stopped_there(i)

    def _leads_on(self, i: int) -> bool:
        """ "Finally Turner Hill, ..", "Luego Monte Hondo, ..": a word for going on at the start, a name behind it."""
        if self.fields or not self._starts_clause(i):
            return False
        return self.made.has("goes_on", self.ps[i].text) and self.capital(i + 1)

    def _gone_on_to(self, i: int) -> FieldName | None:
        """ "After that the Cobbler Ridge field, seven plants": gone on to a name no list has, a look told of it."""
        if not self.capital(i) or is_any(self.ps[i], HARD) or self._starts_clause(i):
            return None
        last = self._capitals_end(i)
        if is_any(self.at(last - 1), ("FIELD_WORD",)) and last - 1 > i:
            last -= 1
        named = last - i > 1 or is_any(self.at(last), ("FIELD_WORD",)) or self._unknown(self.ps[i])
        known = all(self.made.has("no_name", p.text) for p in self.ps[i:last])
        first = lead_to(self.ps, self.made, i)
        digs = is_any(self.at(last), ("DUG", "NOT_LOOKED"))  # "then John dug 4 more"
        if not named or known or digs or first == i or not look_told(self.ps, self.made, last):
            return None
        return self._make(first, last, i, last + is_any(self.at(last), ("FIELD_WORD",)))

    def _beside(self, i: int) -> bool:
        """ "La Represa, cerca de Monte Chico: 5 plantas": only where the field lies that was named before."""
        j = i - 1
        while is_any(self.at(j), ("LINK",)) and not is_any(self.at(j), ("NEAR",)) and j > i - LED_WORDS:
            j -= 1
        before = self.at(j)
        if before is None or self.made.has("goes_on", before.text):
            return False  # "o próximo é retiro novo"
        return is_any(before, ("NEAR",)) or self.made.has("lies_by", before.text)

    def _gone_to(self, i: int) -> bool:
        """ "Then I went up to sandhill and dug six": gone to the next field, and a note of it behind."""
        way = [p.text for p in self.ps[max(0, i - 4) : i]]
        gone = any(self.made.has("gone", word) for word in way) and bool(way) and self.made.has("goal", way[-1])
        k = i + 1
        while is_any(self.at(k), ("LINK",)) and k < i + 4:
            k += 1
        return gone and (is_any(self.at(k), ("DUG", "NOT_LOOKED")) or self._data_from(k))

    def _stopped_there(self, i: int) -> bool:
        """ "Afterward I stopped at Quarry by myself, dug five", "the same afternoon I did Quarry, ..": a new visit."""
        j = i - 1
        while j > i - LED_WORDS and self._on_way(j) and not self.made.has("stops_at", self.ps[j].text):
            j -= 1
        verb = self.at(j)
        if verb is None or not self.made.has("stops_at", verb.text):
            return False
        lead = j - 1
        while (piece := self.at(lead)) is not None and lead >= j - LONGEST_WAY and not self.prose.opens(piece):
            likened = j - lead <= MOST_LED and self.made.has("aside_than", piece.text)
            if likened or number_like(piece) or not piece.types.keys().isdisjoint(_TOLD_ON_WAY):
                return False  # "just like I did Dry Creek"
            lead -= 1
        opened = piece is None or self.prose.opens(piece)
        who = self.made.language != "en" or any(self.made.has("who_goes", p.text) for p in self.ps[max(0, lead) : j])
        return opened and who and self.prose.visit_behind(i + 1)

    def _visit_apart(self, i: int) -> bool:
        """ ".., 3 white. Just climbed out of Quarry, muddy lane. Five plants, none": another visit, told behind it."""
        return self.prose.brought_up_from(i) < i or (self._starts_clause(i) and self.prose.brings_up(i, i))

    def _on_way(self, j: int) -> bool:
        """ "(Stopped) for a while at", "(entré) un rato en": a little word, or one that tells nothing."""
        piece = self.at(j)
        plain = piece is not None and piece.kind == "word" and not piece.types.keys() - {"TEXT", "NUMBER_WORD"}
        return plain or is_any(piece, ("LINK",))

    def _and_staged(self, i: int) -> bool:
        """ "Nuss South V1 and Nuss North V2. Not dug.": each field joined with its own stage."""
        kinds = [getattr(self.at(k), "kind", "") for k in (i - 2, i + 1)]
        joint = self.at(i - 1)
        return kinds == ["stage", "stage"] and joint is not None and joint.text in joints() | {","}

    def _and_is(self, i: int) -> bool:
        """ "Depot is a silt loam and Wagoner is sand": told of each, both named before."""
        article = self.at(i - 1)
        led = article is not None and article.text in anywhere("name_article") - joints()
        joint, k = self.at(i - 1 - led), i + 1
        if joint is None or joint.text not in joints() or fold(self.ps[i].text) not in self.named:
            return False
        while is_any(self.at(k), ("LINK",)) and k < i + LED_WORDS:
            k += 1
        told = getattr(self.at(k), "kind", "") == "stage" or is_any(self.at(k), ("MOISTURE", "TEXTURE", "RESISTANCE"))
        return told and k > i + 1

    def _and_the(self, i: int) -> bool:
        """ "Olhei a coxilha (8 pés, 5 brancas) e o açude (4 pés, nada)": joined with its article, a note behind it."""
        article, joint, stop = self.at(i - 1), self.at(i - 2), self.at(i - 3)
        led = article is not None and article.text in anywhere("name_article") | {"the"}
        ended = stop is not None and stop.kind in ("break", "line")
        then = joint is not None and self.made.has("and_then", joint.text)
        plants = is_any(self.at(i + 2), ("PLANTS",)) and number_like(self.at(i + 1))  # "nada e a sucuri 6 plantas .."
        return led and then and ((ended and self._data_from(i + 1)) or plants)

    def _told_of_breath(self, i: int, finding: bool) -> bool:
        """ "I did kestrel and tinkers kestrel five plants none tinkers five plants 6 white": each named once more."""
        begins = finding or is_any(self.at(i - 1), ("FIELD",))
        again = begins and not is_any(self.at(i - 1), ("LINK",)) and self._data_from(i + 1)
        return again or self._told_at(i)  # "at kestrel it was five plants .. and at tinkers .."

    def _and_at(self, i: int) -> bool:
        """ ".. and 1 yellow and at cedar slough I pulled five": joined and led by "at", digging or a count behind."""
        j = i - 1
        while j > i - 4 and is_any(self.at(j), ("LINK",)) and not self.made.has("and_then", self.ps[j].text):
            j -= 1
        then = self.at(j)
        return then is not None and j < i - 1 and self.made.has("and_then", then.text) and self._told_at(i)

    def _led_sentence(self, i: int) -> bool:
        """ ".. on seven plants. In Lone Elm I eased five plants": led by "in" at the start of a sentence."""
        j = i - 1
        while j > i - LED_WORDS and is_any(self.at(j), ("LINK", "SPOT", "ABOUT", "WEEKDAY")):
            j -= 1
        before = self.at(j)
        starts = before is not None and (before.kind == "line" or (before.kind == "break" and before.value == "hard"))
        at = any(self.made.has("at", piece.text) for piece in self.ps[j + 1 : i])
        told = at and (look_told(self.ps, self.made, i + 1) or self._visit_in_sentence(i))
        return starts and j < i - 1 and (self._told_at(i) or told)

    def _visit_in_sentence(self, i: int) -> bool:
        """ "Na Divisa, também com a pá, foram 5 plantas com 2 brancas": how, plants and what was found."""
        end = i + 1
        while (piece := self.at(end)) is not None and piece.kind != "line" and piece.value != "hard":
            if is_any(piece, ("FIELD",)) or self.colon(end):
                return False
            end += 1
        told = [kind for piece in self.ps[i + 1 : end] for kind in piece.types]
        comma = getattr(self.at(i + 1), "text", "") == ","
        dug = not {"TOOL", "DUG"}.isdisjoint(told)
        return comma and dug and "PLANTS" in told and not {"COLOUR", "FEMALES", "NONE"}.isdisjoint(told)

    def _moved_on(self, i: int) -> bool:
        """ "Next one is schoolhouse, six plants", "después seguí a Los Teros, que ..": gone on to it, a look told."""
        if lead_to(self.ps, self.made, i) == i:
            return False
        return look_told(self.ps, self.made, i + 1) or look_told(self.ps, self.made, self._aside_end(i + 1))

    def _aside_end(self, i: int) -> int:
        """ "(Then drove over to Depot), ate a pickle, (dug six)": where a clause of words that tell nothing ends."""
        if getattr(self.at(i), "text", "") != ",":
            return i
        k = i + 1
        while (piece := self.at(k)) is not None and piece.kind == "word" and k < i + LONGEST_ASIDE:
            little = linking(piece) or "TEXT" in piece.types or self.made.has("article", piece.text)
            if not (little or self._unknown(piece)):
                return i
            k += 1
        return k if getattr(self.at(k), "text", "") == "," else i

    def _dug_at(self, i: int) -> bool:
        """ ".. 4 white. Did 6 at Windmill Flat, and zero": another field's plants, and what was found behind it."""
        j = i - 1
        while j > i - LED_WORDS and is_any(self.at(j), ("LINK", "ABOUT")) and not day_number(self.ps[j]):
            j -= 1
        at = any(self.made.has("at", piece.text) for piece in self.ps[j + 1 : i])
        named = is_any(self.at(j), ("PLANTS", "DUG"))  # "six plants at Windmill Flat had 2 white"
        j -= named
        number, verb = self.at(j), self.at(j - 1)
        if not at or number is None or not day_number(number) or verb is None:
            return False
        dug = is_any(verb, ("DUG",)) or self.made.has("did_plants", verb.text)
        dug = dug or (named and verb.kind == "break" and verb.value == "hard")
        behind = itertools.takewhile(lambda p: p.kind != "line" and not is_any(p, ("FIELD",)), self.ps[i + 1 :])
        found = any(number_like(piece) or is_any(piece, ("NONE", "TOO_MANY", "MOSTLY")) for piece in behind)
        told = any(is_any(piece, ("PLANTS", "DUG", "TOOL")) for piece in self.ps[: j - 1])
        return dug and told and (found or is_any(verb, ("DUG",)))

    def _more_at(self, i: int) -> bool:
        """ ".., ninguna, nueve plantas en Ceibo con pala, tres blancas": a clause of plants, at another field.

        What was found in them is told behind it; a side of the field ("at the Kestrel end") is no other field.
        """
        j = i - 1
        while j > i - LED_WORDS and linking(self.ps[j]):
            j -= 1
        at = any(self.made.has("at", piece.text) for piece in self.ps[j + 1 : i])
        counted = j > 0 and is_any(self.ps[j], ("PLANTS",)) and number_like(self.ps[j - 1])
        if not (at and counted and self._starts_clause(j - 1)) or self._sided(i):
            return False
        behind = itertools.takewhile(lambda p: p.kind != "line" and not is_any(p, ("FIELD",)), self.ps[i + 1 :])
        earlier = any(is_any(piece, ("PLANTS", "DUG", "TOOL")) for piece in self.ps[: j - 1])
        return earlier and any(number_like(piece) or is_any(piece, ("NONE", "TOO_MANY", "MOSTLY")) for piece in behind)

    def _told_at(self, i: int) -> bool:
        """Is it led by "at" or "in", and does a note follow, little words ("it was") left out?"""
        j = i - 1
        while is_any(self.at(j), ("LINK",)) and not self.made.has("at", self.ps[j].text):
            j -= 1
        if self.at(j) is None or not self.made.has("at", self.ps[j].text):
            return False
        k = i + 1
        while is_any(self.at(k), ("LINK", "CORRECT", "HAD")) and k < i + 3:
            k += 1
        number, noun = self.at(k), self.at(k + 1)
        return self._data_from(k) or (number is not None and number.kind == "number" and is_any(noun, NOUNS))

    def _joined(self, i: int) -> bool:
        """ "Neither the low ground nor lote 7": another field joined to it, so the word for a place is a name."""
        joint, beyond, after = self.at(i + 1), self.at(i + 2), self.at(i + 3)
        if joint is None or joint.text not in anywhere("nor"):
            return False
        return is_any(after if is_any(beyond, ("LINK",)) else beyond, ("FIELD",))

    def _starts_another(self, i: int, finding: bool) -> bool:
        """A known field whose name is also a place ("baixada", "pothole") starts a note where no place came before."""
        before = self.at(i - 1)
        opened = before is not None and (before.kind == "line" or before.text in ".;!|" or before.value == "hard")
        listed = self._dated_behind(i) or is_any(self.at(i + 1), ("NOT_LOOKED",))
        opened = opened or (before is not None and before.kind == "break" and listed)
        if self._heads_line(i) or (finding and self.capital(i) and self._led_sentence(i)):
            return True  # "Na Mangueira cavei 5 plantas", though a hose is one too
        if not (opened and finding and self.ps[i].kind == "word"):
            return False
        if self.ps[i].types.keys() & {"MOISTURE", "TEXTURE"} and self.capital(i) and not self.colon(i + 1):
            return look_told(self.ps, self.made, i + 1)  # "Barreiro também, 6 plantas com pá e nenhuma fêmea"
        if "SPOT" not in self.ps[i].types:
            return False
        if self.headed and self.colon(i + 1) and self.capital(i):
            return self._data_from(i + 2)  # "Zilda: 3 pé, 14 branca. Coxilha: 3 pé, 1 branca"
        if self.capital(i) and self._day_titled(i):
            return True
        places = (piece for piece in self.ps[:i] if is_any(piece, ("SPOT",)) and not linking(piece))
        earlier = any(not ("FIELD" in piece.types and fold(piece.text) in self.named) for piece in places)
        told = self._data_from(i + 1) or (self.capital(i) and look_told(self.ps, self.made, i + 1))
        return told and not earlier and not self.colon(i + 1)  # "Ditch gave me four plants by shovel and 3 white"

    def _day_titled(self, i: int) -> bool:
        """ "Lagoa Seca, na terça: 6 plantas ... Baixada, ontem: 6 plantas": a day and a colon behind it, and a note."""
        j = i + 1 + (getattr(self.at(i + 1), "text", "") in (",", "("))
        while is_any(self.at(j), ("LINK",)) and not self._dated_behind(j - 1):
            j += 1
        closed = getattr(self.at(j + 1), "text", "") == ")"
        return self._dated_behind(j - 1) and self.colon(j + 1 + closed) and self._data_from(j + 2 + closed)

    def _heads_line(self, i: int) -> bool:
        """ "Sede Velha encharcado" above "Baixada. R3. 6 pl ..": heads a line, as no other place does."""
        after = i + 1 + self._ended(i + 1)
        whole = "FIELD" in self.ps[i].types and " " in self.ps[i].text  # "la curva", as the crew has it
        if i == 0 or self.ps[i - 1].kind != "line" or not (self.capital(i) or whole) or self.colon(i + 1):
            return False
        if self.first_place is None:
            heads = (k for k in range(len(self.ps)) if k == 0 or self.ps[k - 1].kind == "line")
            places = (k for k in heads if is_any(self.ps[k], ("SPOT", "CHECK")) and not linking(self.ps[k]))
            self.first_place = next((k for k in places if "FIELD" not in self.ps[k].types), len(self.ps))
        told = self._data_from(after) or look_told(self.ps, self.made, i + 1)
        return self.first_place > i and (told or is_any(self.at(after), ("TOP", "TOPS", "MOISTURE")))

    def _dated_behind(self, i: int) -> bool:
        """ "aroeira sex 6pl .., cabeceira sex 6pl ..": a day behind it, as behind the field before."""
        after = self.at(i + 1)
        return after is not None and (after.kind == "day" or is_any(after, ("WEEKDAY", "TODAY")))

    def _extend(self, i: int, first: int) -> FieldName | None:
        """A known name, with a direction or a number behind it that would make it another field."""
        last = self._longer(i)
        while (piece := self.at(last)) is not None and last - i < 4:
            turned = self.made.has("direction", piece.text) and "FIELD" not in piece.types and not self._sided(last)
            turned = turned and piece.kind != "place"
            turned = turned and (piece.text != "se" or self.made.language == "en" or self.capital(last))
            led = self.at(last + 1)
            turned = turned and not (len(piece.text) == 1 and led is not None and self.made.has("leads_noun", led.text))
            turned = turned and not (piece.text in joints() and is_any(self.at(last + 1), ("FIELD",)))
            numbered = piece.kind == "number" and isinstance(piece.value, int) and piece.value != 0 and not piece.plus
            numbered = numbered and not self.bound(last) and self._ended(last + 1)
            numbered = numbered and not self._in_list(last) and not self._counted_fields() and not self._of_noun(i)
            if not turned and not (numbered and not self.colon(last + 1)):
                break
            last += 1
        if is_any(self.at(last), ("FIELD_WORD",)) and not self._name_follows(last):
            return self._make(first, last, i, last + 1)
        return self._make(first, last, i)

    def _of_noun(self, i: int) -> bool:
        """ "Plants at kestrel 6": the number behind the name counts the noun before it."""
        at, noun, number = self.at(i - 1), self.at(i - 2), self.at(i - 3)
        counted = number is not None and (number.kind == "number" or "NUMBER_WORD" in number.types)
        return at is not None and linking(at) and is_any(noun, ("PLANTS", "FEMALES", "ROOTS")) and not counted

    def _longer(self, i: int) -> int:
        """The end of a known name that goes on in short ("kestrel bot" for Kestrel Bottom)."""
        last = i + 1
        if not self.fields or self.likeness(self.ps[i].start, self.ps[i].end) == 100:
            return last  # the whole name stands there
        while last - i < 4 and (piece := self.at(last)) is not None and piece.kind in ("word", "number"):
            like = self.likeness(self.ps[i].start, piece.end)
            if piece.kind == "number" and (like < 99 or self._counts_on(last)):
                break
            likely = like >= LIKE_WHOLE or (self._unknown(piece) and self._alike(i, last))
            likely = likely and not self.made.has("crop_word", piece.text)  # "old mill beans are V6"
            heard = like >= LIKE_WHOLE and len(piece.text) > 3 and not is_any(piece, HARD)  # "widow lane"
            if piece.kind == "word" and not (likely and (heard or self._unknown(piece))):
                break
            last += 1
        return last

    def _counts_on(self, i: int) -> bool:
        """ "harrow 3 plants", "harrow 3 dug": the number counts what stands behind it; in "harrow 3: .." nothing."""
        after = self.at(i + 1)
        return after is not None and after.kind != "sign" and self.bound(i)

    def _alike(self, i: int, last: int) -> bool:
        """ "cedar slew": does the word behind a short name begin as the name goes on?"""
        first, begins = fold(self.ps[i].text), fold(self.ps[last].text)[:2]
        return last == i + 1 and any(
            words[:1] == (first,) and words[1].startswith(begins) for words in self.crew.parts if len(words) > 1
        )

    def _counted_fields(self) -> bool:
        """ "Kestrel 0, Tinkers 14, Old Mill 22": a number behind each of several known fields is part of no name."""
        if self.counted is None:
            ends = [i for i in range(len(self.ps) - 1) if self._only_a_name(i) and self.ps[i + 1].kind == "number"]
            self.counted = sum(self._ended(i + 2) for i in ends) > 1
        return self.counted

    def _in_list(self, i: int) -> bool:
        """The first of three and more numbers with commas between."""
        comma, second, behind = self.at(i + 1), self.at(i + 2), self.at(i + 3)
        if comma is None or comma.text != "," or second is None or second.kind != "number":
            return False
        return behind is not None and (behind.text == "," or behind.kind == "number")

    def _sided(self, i: int) -> bool:
        """ "east side", "n end", w/y: not part of a name."""
        after = self.at(i + 1)
        return after is not None and (
            after.text in ("/", "+", "=") or after.text in anywhere("side_word") or after.kind == "number"
        )

    def _name_follows(self, i: int) -> bool:
        after = self.at(i + 1)
        return after is not None and (after.kind == "number" or self._unknown(after))

    def _run(self, i: int) -> int:
        """End of the run of name-like pieces from i; i itself when there is no name."""
        j = i
        unknown = False
        while j - i < LONGEST and (piece := self.at(j)) is not None:
            if piece.kind == "number":
                whole = not piece.plus and isinstance(piece.value, int)
                if j > i and unknown and whole and self._name_number(j) and not self._in_list(j):
                    j += 1
                    turned = self.at(j)
                    points = turned is not None and self.made.has("direction", turned.text)
                    if points and (not self._sided(j) or is_any(self.at(j + 2), ("PLANTS",))):
                        j += 1
                break
            if piece.kind == "sign":
                if j > i and piece.text in "'-&#." and self._unknown(self.at(j + 1)):
                    j += 1
                    continue
                break
            soaked = j == i and is_any(piece, ("SOAKED",)) and self._unknown(self.at(j + 1))
            waters = j == i and is_any(piece, ("SOAKED", "SPOT", "TEXTURE")) and self._titled_by(j + 1)
            if (soaked and self.capital(j) and self.capital(j + 1)) or (waters and self.capital(j)):
                unknown = True  # Água Fria, Agua Dulce
                j += 1
                continue
            tool = is_any(piece, ("TOOL",)) and j > i and self.capital(j) and self.capital(j - 1) and self._ended(j + 1)
            if piece.kind != "word" or piece.value == "tied" or (is_any(piece, HARD) and not tool):
                break
            if tool:
                j += 1
                break
            number = self.at(j + 1)
            if (
                (self.made.has("numbered", piece.text) or (unknown and "FIELD_WORD" in piece.types))
                and number is not None
                and number.kind == "number"
                and not self._tied(j + 1)
                and not (is_any(self.at(j + 2), NOUNS) and not self._another_number(j + 1))
            ):
                unknown = True
                j += 2
                continue
            if j == i and self.fields and self.made.has("article", piece.text) and self._unknown(number):
                last = self._run(i + 1)
                if last > i + 1 and self._like_known(i, last):
                    return last
            free = not self.fields or (number is not None and (piece.text, number.text) in self.crew.heads)
            article = j == i and free and self.made.has("article", piece.text)
            article = article and (is_any(number, ("SPOT", "TOPS", "OLD", "NEW")) or self._unknown(number))
            titled = self._unknown(number) and self.capital(j) and self.capital(j + 1)  # "La Unión: R2"
            if article and (titled or not self.colon(j + 2)):
                unknown = True
                j += 2
                continue
            if j == i + 1 and unknown and self._titled_by(j):
                j += 1
                continue  # Pedra Branca, Lagoa Seca, capão bonito
            if unknown and not self.fields and piece.types.keys() == {"MEASURE"} and self._unknown(self.at(j + 1)):
                j += 2
                continue  # "turkey foot corner"
            plain = not piece.types and piece.text in self.made.plain and not self.capital(j)
            placing = self.made.has("place_word", piece.text) or self.made.has("direction", piece.text)
            if (unknown and plain and not placing) or self._only_behind(i, j):
                break
            if unknown and self._of_plots(i, j):
                return j + 1
            if j > i and piece.text in joints() and is_any(self.at(j + 1), ("FIELD",)):
                break
            if unknown and self.made.denies(piece.text) and not self.capital(j):
                break  # "brndl cldnt dg"
            if not piece.types or (j == i and self._short_for_known(j)):
                unknown = True
            elif not self._soft(j, i, unknown) and not (unknown and self._completes(i, j)):
                break
            elif "FIELD_WORD" in piece.types and unknown:
                j += 1
                break
            elif not unknown and self._back_forty(j):
                unknown = True
            j += 1
        return j if unknown else i

    def _titled_by(self, j: int) -> bool:
        """Is the word at j an adjective of a name that stands first ("Pedra Branca, 13/7", "capão bonito R3")?"""
        noun, piece = self.ps[j - 1], self.at(j)
        kinds = {
            "COLOUR",
            "MOISTURE",
            "TOP",
            "ROOT",
            "GREEN",
            "NODULE",
            "OLD",
            "NEW",
            "COURTESY",
            "TEXTURE",
            "TOPS",
            "SPOT",
        }
        if piece is None or not piece.types or piece.types.keys() - kinds or self.made.language == "en":
            return False
        k = j - 1
        while (
            k
            and self.ps[k - 1].kind == "word"
            and (self.capital(k - 1) or self.made.has("name_link", self.ps[k - 1].text))
        ):
            k -= 1  # "Sítio do Ipê Seco"
        if not self._starts_clause(k) or len(piece.text) < 3 or (k < j - 1 and not self.capital(k)):
            return False
        told = (self.capital(j - 1) and self.capital(j)) or (
            self.made.has("place_noun", noun.text) and not self.capital(j)
        )
        behind = self.at(j + 1)
        ended = behind is None or behind.kind in ("day", "stage", "line") or behind.text in (",", ":", "-", "(")
        dated = behind is not None and behind.text in anywhere("day_lead")
        return told and (ended or dated or self._data_from(j + 1) or (behind is not None and behind.kind == "number"))

    def _only_behind(self, i: int, j: int) -> bool:
        """ "Sand Hill shows yellow edges": a verb that stands behind names, and in none that no list has."""
        return j > i and not self.fields and self.made.has("behind_name", self.ps[j].text) and not self.capital(j)

    def _of_plots(self, i: int, j: int) -> bool:
        """ "North trial. 8 Jul.", "Tower Plot, Friday ..": a word for what is asked ends a name that heads a note."""
        ours = self.ps[j].types.keys() <= {"TRIAL", "PICTURE"} and bool(self.ps[j].types)
        heads = ours and not self.fields and self.capital(i) and self._starts_clause(i)
        ended = self.colon(j + 1) or getattr(self.at(j + 1), "kind", "") == "break"
        return heads and j == i + 1 and ended and self.at(j + 2) is not None

    def _completes(self, i: int, j: int) -> bool:
        """Do the words up to j shorten one of the crew's names ("cedar sl", though "sl" is also a soil)?"""
        piece, after = self.ps[j], self.at(j + 1)
        side = piece.text in SIDES and after is not None and after.kind == "number"
        whole = bool(self.fields) and (len(piece.text) > 1 or side or self._tells_apart(i, j))
        return whole and self.likeness(self.ps[i].start, piece.end) >= 99

    def _tells_apart(self, i: int, j: int) -> bool:
        """ "Pruitt h" where the crew has Pruitt Home and Pruitt Lane: the letter says which."""
        fits = [self._fitting(i, last) for last in (j, j + 1)]
        return j > i and self.ps[j].text.isalpha() and fits[0] > 1 == fits[1]

    def _fitting(self, i: int, last: int) -> int:
        """How many names of the crew the words may be short for."""
        said = name_parts(self.text[self.ps[i].start : self.ps[max(i, last - 1)].end])
        return sum(short_for(said, known) for known in self.crew.parts)

    def capital(self, j: int) -> bool:
        """Is the word written like a name (and the message not in capitals throughout)?"""
        piece = self.at(j)
        word = self.text[piece.start : piece.end] if piece is not None else ""
        return word[:1].isupper() and word[1:2].islower()

    def _two_capitals(self, i: int) -> bool:
        """ "Morro Alto, R6": two words that are also places or soils, written like a name and followed by data."""
        kinds = {"SPOT", "MOISTURE", "COLOUR", "OLD", "NEW", "GREEN", "LINK", "BELOW"}
        pair = (self.at(i), self.at(i + 1))
        plain = all(p is not None and p.kind == "word" and p.types and not p.types.keys() - kinds for p in pair)
        written_so = plain and self.capital(i) and self.capital(i + 1)
        return written_so and (self._ended(i + 2) or self._data_from(i + 2)) and not self.colon(i + 2)

    def _titles(self, i: int) -> int:
        """The end of what stands first and is written like a name ("Passo das Pedras, hoje"); i if it is none."""
        j = self._capitals_end(i)
        stop = self.at(j)
        if i or stop is None or not 0 < j < LONGEST:
            return i
        if j == 1 and not self._all_capital(0):
            return i
        counted = stop.kind == "number" and is_any(self.at(j + 1), ("PLANTS",)) and j > 1  # "Fundo do Galpão 5 pl"
        linked = j > 2 and self.capital(j - 1) and any(self.made.has("name_link", p.text) for p in self.ps[1 : j - 1])
        if linked and (stop.kind == "word" or stop.text in ".;") and self.made.language != "en":
            return j  # "Várzea da Olaria dei uma olhada", "Cabeceira do Jatobá; 29/06"
        ends = stop.text == "," or (stop.text == ":" and j > 1) or stop.kind in ("day", "stage") or counted
        return j if ends else i

    def places_told(self, i: int, last: int) -> bool:
        """ "gate 3 plants 5 white, back corner 3 plants none": a place with its counts, and another further on."""
        j = last + self.colon(last)
        if i or not all(is_any(p, ("SPOT",)) for p in self.ps[:last]) or not self._data_from(j):
            return False
        places = (k for k in range(j, len(self.ps)) if is_any(self.ps[k], ("SPOT", "CHECK")))
        return any(self.ps[k - 1].kind != "word" and self._data_from(k + 1 + self.colon(k + 1)) for k in places)

    def _linked_place(self, i: int) -> int:
        """ "morro do cruzeiro r1": a place's word, "of" and a word of nothing else, with a note behind; else i."""
        link, of = self.at(i + 1), self.at(i + 2)
        named = is_any(self.ps[i], ("SPOT",)) and link is not None and self.made.has("name_link", link.text)
        middling = of is not None and of.types.keys() <= _OF_A_PLACE  # "capão do meio r2", "morro do alto 5 pl"
        data = self._data_from(i + 3) or (self._ended(i + 3) and self._data_from(i + 4))
        return i + 3 if i == 0 and named and (self._unknown(of) or middling) and data else i

    def _capitals_end(self, i: int) -> int:
        """The end of a run of words that are written like a name, little words between them."""
        j = i
        while (word := self.at(j)) is not None and word.kind == "word":
            link = j > i and self.made.has("name_link", word.text) and self.capital(j + 1)
            titled = j > i and self._linked_capital(word)
            if not (link or titled) and (not self.capital(j) or is_any(word, HARD)):
                break
            j += 1
        return j

    def _linked_capital(self, piece: Piece) -> bool:
        """ "de Agua" in one piece: a little word and one that is written like a name."""
        words = self.text[piece.start : piece.end].split()
        led = len(words) == 2 and self.made.has("name_link", fold(words[0]))
        return led and words[1][:1].isupper() and words[1][1:2].islower()

    def _numbered_title(self, i: int) -> bool:
        """ "HILLTOP 55 5pl": a place's word with a number of its own, the plants behind it."""
        number, plants = self.at(i + 1), self.at(i + 2)
        if number is None or plants is None or number.kind != "number" or plants.kind != "number":
            return False
        return is_any(self.at(i + 3), ("PLANTS",)) and number.value >= LEAST_TITLE

    def _all_capital(self, j: int) -> bool:
        """ "Creek Side": more than one word in one piece, each written like a name."""
        words = self.text[self.ps[j].start : self.ps[j].end].split()
        return len(words) > 1 and all(word[:1].isupper() and word[1:2].islower() for word in words)

    def _short_for_known(self, j: int) -> bool:
        """The first word of a crew's field, where it is not a word of notes itself ("pothole", not "dry")."""
        piece = self.ps[j]
        return (
            len(piece.text) >= 4 and piece.text in self.firsts and not is_any(piece, ("MOISTURE", "TEXTURE", "COLOUR"))
        )

    def _name_number(self, j: int) -> bool:
        """Is a number at the end of a run part of the name? Not when a noun needs it and no other number is there."""
        after, beyond = self.at(j + 1), self.at(j + 2)
        if after is not None and after.text == ":":
            return True
        if after is not None and after.kind == "number":
            return beyond is None or beyond.kind != "number"
        found = is_any(after, ("HAD",)) and claims(self.ps, j + 3)  # "pasture end 30 had 6 white"
        if is_any(after, ("LINK",)) and beyond is not None and beyond.kind == "number" and not found:
            return False
        return not self.bound(j)

    def _back_forty(self, j: int) -> bool:
        after = self.at(j + 1)
        return (
            self.ps[j].text in anywhere("forty_lead")
            and after is not None
            and ("NUMBER_WORD" in after.types or after.kind == "number")
        )

    def _soft(self, j: int, i: int, unknown: bool) -> bool:
        """May a word with a meaning of its own be part of the name here ("old mill", "pothole flat", "mill of dee")?"""
        piece, after = self.ps[j], self.at(j + 1)
        types = piece.types.keys()
        followed = self._unknown(after)
        if "FIELD_WORD" in types and unknown:
            return True
        if self._back_forty(j) and not unknown:
            return True
        if unknown:
            if self.made.has("direction", piece.text) and not self._sided(j):
                return True
            if (
                types & {"SPOT", "OLD", "NEW"}
                and " " not in piece.text
                and not types & {"LINK"}
                and (not self._leafy(j + 1) or (i == 0 and self.capital(i) and self.capital(j)))
            ):
                titles = i == 0 and not self._like_known(i, j)
                listed = not self.fields and i > 0 and self.ps[i - 1].text in ".;" and self._data_from(j + 1)
                if listed and self.capital(i) and self.capital(j) and not self._places_told(i):
                    return True  # "Stone Church: V5, 5 plants .. Ferry Road: V4, not dug"
                titles = titles and ((self.capital(i) and self.capital(j)) or not self._more_places(j + 2))
                return titles or not self.colon(j + 1)
            if self.made.has("place_word", piece.text) and not types & {"LINK", "COLOUR"} and not self._leafy(j + 1):
                return True
            if "TOP" in types and after is not None and self.made.has("direction", after.text):
                return True
            if "NUMBER_WORD" in types:
                return True
            if self.made.has("name_link", piece.text) and self.capital(j + 1) and is_any(after, ("SPOT",)):
                return True  # Capão do Meio
            if not followed:
                return False
            if types <= {"LINK", "ABOUT"} or self.made.has("name_link", piece.text):
                return self.made.has("name_link", piece.text)
            if types & {"MONTH", "GREEN"} or (self.capital(j) and self.capital(j + 1)):
                return True
            return types & {"TOPS", "MOISTURE", "COLOUR"} != set() and self._place_word(after)
        if not followed:
            return (
                bool(types & {"OLD", "NEW", "SPOT"})
                and is_any(after, ("SPOT", "OLD", "NEW"))
                and self._unknown(self.at(j + 2))
            )
        return not types <= {"LINK", "ABOUT"} or (self.made.has("name_link", piece.text) and j > i)

    def _place_word(self, piece: Piece | None) -> bool:
        return piece is not None and self.made.has("place_word", piece.text)

    def _leafy(self, j: int) -> bool:
        """Leaves, or counts, behind a word like "old" or "gate": then it is not a name's."""
        piece = self.at(j)
        if piece is not None and len(piece.text) == 1 and (self.at(j + 1) is None or self.ps[j + 1].kind != "number"):
            return False
        if is_any(piece, ("TOPS", "EDGES", "VEINS", "PLANTS", "DUG", "COLOUR", "NONE")):
            return piece is None or not (is_any(piece, ("DUG", "NONE")))
        if piece is not None and piece.kind == "number":
            return is_any(self.at(j + 1), ("PLANTS", "COLOUR", "FEMALES")) and is_any(self.at(j - 1), ("SPOT",))
        return False

    def _leading(self, i: int, first: bool = True) -> FieldName | None:
        """A name at the start of a clause; behind the first clause only with data behind it."""
        piece, after = self.ps[i], self.at(i + 1)
        sided = i == 0 and piece.text in SIDES and after is not None and after.kind in ("word", "number")
        if sided and after is not None and "FIELD" not in after.types and self.likeness(piece.start, after.end) >= 99:
            return self._make(i, i + 2, i)
        if (whole := self._known_run(i)) > i:
            return self._make(i, whole, i)
        saint = not self.fields and self.made.has("name_link", piece.text) and self.capital(i) and self.capital(i + 1)
        if saint and i == 0 and self._run(1) > 1:
            return self._make(0, self._run(1), 0)  # "São Bento do Alto R1"
        if self._skippable(piece) and not self._unknown(piece) and not self.made.has("article", piece.text):
            return None
        last = self._run(i)
        if not self.fields and i == 0 and last > 1 and is_any(self.at(last), ("SOAKED", "MOISTURE")):
            last = max(last, self._capitals_end(0))  # "Paraje Ojo de Agua, 18/6"
        if all(self.made.has("no_place", p.text) for p in self.ps[i:last]) and not self.capital(i):
            last = i  # "puede ser potasio?"
        if i == 0 and last == i and is_any(piece, ("SPOT",)) and is_any(after, ("FIELD_WORD",)) and self._ended(i + 2):
            return self._make(i, i + 1, i, i + 2)  # "Bottom field, R two."
        if i == 0 and last == i and not self.fields and is_any(piece, ("SPOT",)) and self._numbered_title(i):
            last = i + 2
        if last == i and not self.fields and first:
            last = i + 2 if self._two_capitals(i) else max(self._titles(i), self._linked_place(i))
        while last - i > 1 and self._visits(i):
            i += 1  # "Walked Plum Thicket on June 20"
        if last == i + 1 and self.fields and self._visits(i) and is_any(self.at(last), ("FIELD",)):
            return None  # "Fiz Barreiro e Mangueira anteontem"
        if last == i or (not self.fields and (self._story(i, last) or self._named_behind(i, last))):
            return None
        if self.fields and not self._like_known(i, last):
            i = next((k for k in range(i + 1, last) if self._like_known(k, last) and self._unknown(self.ps[i])), i)
        beside = self.fields and i > 1 and last == i + 1 and self.likeness(self.ps[i].start, self.ps[i].end) < 100
        if beside and any(p is not None and self.made.has("lies_by", p.text) for p in (self.at(i - 1), self.at(i - 2))):
            return None  # "by the slough 5 pl 9w", where Cedar Slough is a field
        known = self._like_known(i, last)
        if (self.fields or not first) and not known and not self._data_from(last):
            return None
        if self.fields and not known and all(self.made.has("no_name", p.text) for p in self.ps[i:last]):
            return None  # "Fri wrap, 5 pl ea dug. Tower 0."
        if not known and self._says_how_many(i, last):
            return None
        everyday = self.fields and not known and last == i + 1 and self.ps[i].text in self.made.plain
        if everyday and is_any(self.at(last), ("DUG", "TOOL")):
            return None  # "everything dug with the spade"
        if not known and (self._known_soon(last) or self._above_fields(i)):
            return None
        if self.fields and not known and last == i + 1 and is_any(self.ps[i], ("NUMBER_WORD",)):
            return None  # "hoy hice tres: ceibo .., hornos .."
        begins = self.capital(i + 1 if self.made.has("article", self.ps[i].text) else i)
        told = begins or ((self._data_from(last) or self._ended(last)) and not self._of_a_sentence(i))
        if first and not known and not told:
            self.deferred = self.deferred or (i, last)
            return None  # "te escribo recién ahora .. En La Tranquera, ayer"
        if is_any(self.ps[last - 1], ("FIELD_WORD",)) and last - 1 > i:
            return self._make(i, last - 1, i, last)
        last = self._without_count(i, last)
        while last - 1 > i and self._tells_on(i, last):
            last -= 1
        return self._make(i, self._without_place(i, last), i)

    def _visits(self, i: int) -> bool:
        """Is it a word for going to a field, or for having done it?"""
        return any(self.made.has(manner, self.ps[i].text) for manner in ("visit_verb", "did_plants"))

    def _known_run(self, i: int) -> int:
        """The end of words from i on that are a known name with its number spoken or its first word a letter.

        "Las ochenta" for Las 80, "h east" for Harmon East; i itself when there is none.
        """
        for size in range(4, 1, -1) if self.fields else ():
            run = self.ps[i : i + size]
            if len(run) < size or any(p.kind not in ("word", "number") or is_any(p, HARD) for p in run):
                continue
            letter = len(run[0].text) == 1 and run[0].text.isalpha()
            spoken = any("NUMBER_WORD" in p.types for p in run[1:])
            if not (letter or spoken) or self.likeness(run[0].start, run[-1].end) < 99:
                continue
            dated = is_any(self.at(i + size), ("TODAY", "WEEKDAY"))
            glued = letter and i == 0 and size == 2 and run[1].kind == "number" and not run[1].spaced  # "t3", "t12"
            if dated or glued or self._data_from(i + size):
                return i + size
        return i

    def _of_a_sentence(self, i: int) -> bool:
        """ "Estava ventando muito", "meu irmão veio": a little word before that leads to no name."""
        before = self.at(i - 1)
        if before is None or before.kind != "word" or before.types.keys() - COMMAND_TYPES - {"HAD"} != {"LINK"}:
            return False
        leads = any(self.made.has(trait, before.text) for trait in ("at", "article", "name_link", "around_name"))
        return not leads and " " not in before.text and self.made.language != "en"

    def _without_place(self, i: int, last: int) -> int:
        """ "molino v cabecera 4 pl .., medio 4 pl ..": short for a known name, and the first of several places."""
        end = last
        while end - 1 > i and is_any(self.ps[end - 1], ("SPOT",)):
            end -= 1
        cut = end < last and bool(self.fields) and self._like(i, end) >= 99 > self._like(i, last)
        counted = [j for j in range(last, len(self.ps)) if cut and self.ps[j].kind == "number"]
        return end if cut and any(is_any(self.at(j - 1), ("SPOT", "CHECK")) for j in counted) else last

    def _story(self, i: int, last: int) -> bool:
        """ "Two reports.", "first time in ..", "heyy": everyday words that name nothing."""
        words = self.ps[i:last]
        if self._says_how_many(i, last):
            return True
        if any("TEXT" in p.types for p in words):
            return all("TEXT" in p.types or self._story_word(p) for p in words)  # "Two fields done."
        return all(self.made.has("no_name", p.text) or "NUMBER_WORD" in p.types for p in words)

    def _says_how_many(self, i: int, last: int) -> bool:
        """ "Two done yesterday, 5 plants each.", "Both done, all dug.": how many fields a message tells of."""
        words = self.ps[i:last]
        numbers = [p.types["NUMBER_WORD"].value for p in words if "NUMBER_WORD" in p.types]
        few = all(str(number).isdecimal() and 1 < int(number) <= MOST_FIELDS for number in numbers)
        counted = bool(numbers) or any(self.made.has("for_both", p.text) for p in words)
        manners = ("did_fields", "done_fields", "for_both", "for_all", "no_name")
        told = all("NUMBER_WORD" in p.types or any(self.made.has(m, p.text) for m in manners) for p in words)
        return few and counted and told

    def _story_word(self, piece: Piece) -> bool:
        return self.made.has("no_name", piece.text) or self.made.has("no_place", piece.text)

    def _named_behind(self, i: int, last: int) -> bool:
        """ "Jus pulled 4 at lower brome 7/13": one small word before the digging, and a name behind "at"."""
        if last > i + 1 or self.capital(i) or not is_any(self.at(last), ("DUG",)):
            return False
        for j in range(last, min(last + 6, len(self.ps) - 1)):
            if self.ps[j].kind in ("break", "line"):
                break
            if self.ps[j].text in anywhere("named_at") and self._run(j + 1) > j + 1:
                return True
        return False

    def _said_field(self) -> tuple[int, int] | None:
        """ "First time in the sandpit field", "report from the loop road field": unknown words before it."""
        for j, piece in enumerate(self.ps):
            if "FIELD_WORD" not in piece.types or self.made.language != "en":
                continue
            i = j
            while i and self.ps[i - 1].kind == "word" and not is_any(self.ps[i - 1], HARD) and j - i < LONGEST:
                lead = self.ps[i - 1].text
                if linking(self.ps[j - 1]) and i < j:
                    break  # "in the middle of the field"
                if self.made.has("article", lead) or self.made.has("leads_noun", lead):
                    return (i, j) if i < j and not self._story(i, j) else None
                i -= 1
        return None

    def _known_soon(self, i: int) -> bool:
        """Does a field of the crew follow before anything is counted ("Dear all: on Tuesday we saw Kestrel")?"""
        for j in range(i, min(i + 12, len(self.ps))):
            piece = self.ps[j]
            known = self._only_a_name(j) or (is_any(piece, ("FIELD",)) and self.capital(j))  # "toquei pro Mangueira"
            if known and not is_any(self.at(j - 1), ("NEAR",)):
                return True
            if j == i + 1 and self.colon(i) and is_any(piece, ("FIELD",)):
                return True  # "só avisando: baixada 6 pés", though "baixada" is a place too
            counted = piece.kind in ("number", "range", "series") or is_any(piece, FINDINGS)
            if j >= i + 3 and (counted or piece.kind == "line" or piece.text in (".", ";", "!")):
                return False
        return False

    def _above_fields(self, i: int) -> bool:
        """ "Done today (Monday):" above lines that each begin with a field of the crew: a heading, and no name."""
        if self.last_headed is None:
            starts = [self._line_begins(k) for k in range(len(self.ps)) if self.ps[k].kind == "line"]
            self.last_headed = max((k for k in starts if is_any(self.at(k), ("FIELD",))), default=-1)
        if not self.fields or i >= self.last_headed:
            return False
        own = list(itertools.takewhile(lambda p: p.kind != "line", self.ps[i : i + MOST_OF_HEADING]))
        told = ("COLOUR", "NONE") if own and own[-1].text == ":" else ("PLANTS", "COLOUR", "NONE")
        return len(own) < MOST_OF_HEADING and not any(is_any(p, told) for p in own)

    def _line_begins(self, k: int) -> int:
        """Where the words of the line behind a line's end begin, a dash or a number before them left out."""
        k += 1
        while k < len(self.ps) and self.ps[k].kind in ("sign", "break", "number"):
            k += 1
        return k

    def _titled(self, i: int) -> bool:
        """ "Larkspur: dug 8 ..": short for a known field, with a colon behind it."""
        last = self._run(i)
        return last > i and self.colon(last) and self._like(i, last) >= 99

    def _without_count(self, i: int, last: int) -> int:
        """The end of a name short for a known one, without a number that the known one does not have."""
        while last - 1 > i and self.fields and self.ps[last - 1].kind == "number":
            if self.likeness(self.ps[i].start, self.ps[last - 2].end) < 99 or self._like(i, last) >= 99:
                break
            last -= 1
        return last

    def _tells_on(self, i: int, last: int) -> bool:
        """ "Old mill everything yellow": an everyday word behind what is short for a known name is none of it."""
        word = self.ps[last - 1]
        plain = word.kind == "word" and not word.types and word.text in self.made.plain
        return plain and bool(self.fields) and self._like(i, last - 1) >= 99 > self._like(i, last)

    def _like(self, i: int, last: int) -> float:
        return self.likeness(self.ps[i].start, self.ps[last - 1].end)

    def _new_note(self, i: int) -> FieldName | None:
        """An unknown name that starts a new note: a short run at the start of a line, followed by data."""
        last = self._run(i)
        if last == i or last - i > 5 or (not self._like_known(i, last) and self._heads_places(i)):
            return None
        numbered = self.ps[last - 1].kind == "number" and last - 1 > i
        bare = last - 1 if numbered else last
        listed = getattr(self.at(bare), "kind", "") == "number" and self._ended(bare + 1) and self._counted_fields()
        if listed and self._like(i, bare) >= 99:
            return self._make(i, bare, i)  # "kestrel 0, tinkers 14, old mill 22"
        words = [p.text for p in self.ps[i:last] if p.kind == "word"]
        on_line = i == 0 or self.ps[i - 1].kind == "line"
        placed = any(is_any(piece, ("SPOT",)) for piece in self.ps[i:last])
        if placed and last == i + 1 and self.colon(last) and self._places_told(i):
            return None
        titled = not self.fields and self.colon(last) and self.capital(i) and self.ps[i - 1].text in ".;"
        if not on_line and not titled and not self._says_name(i, last) and (placed or not self._like_known(i, last)):
            return None
        if all(word in self.made.plain for word in words) and not self.colon(last):
            return None
        if all(self.made.has("no_place", word) for word in words):
            return None  # "others: 0"
        if self.fields and words and self.made.has("sorry", words[0]) and not self._like_known(i, last):
            return None  # "Desculpem a confusão, a técnica"
        named = last - i > 1 and all(self.capital(j) for j in range(i, last))
        body = is_any(self.at(i), ("ROOTS", "TOPS", "PLANTS", "NODULES"))  # "Raízes deixadas de molho por 10 min"
        named = named or self.colon(last) or self._like_known(i, last)
        if not named and (body or not self._tells_visit(last)):
            return None  # "Ground's nice and moist", "havent washed em"
        if self.at(last) is None or (self._in_form() and self.colon(last) and not self._like_known(i, last)):
            return None
        return self._leading(i) if self._data_from(last) else None

    def _tells_visit(self, i: int) -> bool:
        """Is more told in the line than soil, seed and washing: a number, a day, a stage, what was found or not?"""
        line = itertools.takewhile(lambda piece: piece.kind != "line", self.ps[i:])
        kinds = ("number", "day", "stage", "series", "range", "ratio")
        found = ("NOT_LOOKED", "NONE", "TOO_MANY", "SAME", "DUG", "PLANTS", "COLOUR", "FEMALES", "SPRAY")
        told = frozenset((*found, "NUMBER_WORD", "TODAY", "WEEKDAY", "MONTH"))
        return any(p.kind in kinds or (is_any(p, told) and not linking(p)) for p in line)

    def _heads_places(self, i: int) -> bool:
        """ "Heron Slough, dug 8/14." above "Inlet 3 plants: ..", "Check strip 2 plants: ..": places, one a line.

        Nothing counted in the first line, and a known place or the check strip heading one of the others.
        """
        if self.place_lines is None:
            starts = [k + 1 for k in range(len(self.ps)) if self.ps[k].kind == "line"]
            heads = [self.ps[k] for k in starts if k < len(self.ps)]
            placed = any(is_any(piece, ("SPOT", "CHECK")) and not linking(piece) for piece in heads)
            counted = bool(starts) and any(is_any(p, ("PLANTS",)) for p in self.ps[: starts[0]])
            self.place_lines = frozenset(starts) if placed and not counted else frozenset()
        return i in self.place_lines

    def _in_form(self) -> bool:
        """ "Talhão: 22", "Data: 08/06", "Lavagem: sim": lines that each begin with a label are a form."""
        if self.labels is None:
            starts = [i for i in range(len(self.ps)) if i == 0 or self.ps[i - 1].kind == "line"]
            self.labels = sum(any(self.colon(i + size) for size in (1, 2, 3)) for i in starts)
        return self.labels >= LEAST_LABELS

    def _says_name(self, i: int, last: int) -> bool:
        """ "Ashby Court yesterday, five beans": two capitals start a sentence, data behind them."""
        stop = self.at(i - 1)
        numbered = last - i > 1 and self.ps[last - 1].kind == "number"  # "Ridge 30 ditto"
        words = self.ps[i : last - numbered]
        listed = stop is not None and stop.text == "," and is_any(self.at(last), ("DUG", "NOT_LOOKED"))
        if stop is None or not (stop.text in (".", ";", "!") or listed) or not all(p.kind == "word" for p in words):
            return False
        ends = last - numbered
        titles = [j for j in range(i, ends) if not (i < j < ends - 1 and self.made.has("name_link", self.ps[j].text))]
        if len(titles) + numbered < 2 or not all(self.capital(j) for j in titles) or self.colon(last):
            return False
        if listed and not self.fields:
            return True  # "Capão da Égua cavei 4 e nada, Lagoão do Meio cavei 4 e nada"
        if all(p.text in self.made.plain for p in words) or any(is_any(p, HARD) for p in words):
            return False
        j = last
        if self.at(j) is not None and self.ps[j].text in (",", "."):
            j += 1
        piece, after = self.at(j), self.at(j + 1)
        counted = piece is not None and piece.kind == "number" and is_any(after, ("PLANTS",))
        return counted or (piece is not None and piece.kind in ("day", "stage")) or is_any(piece, ("SAME",))

    def _had_there(self, i: int, last: int) -> bool:
        """ ".. and Coopers Lane the same day had 2 white": two capitals, and a word for having with a count behind."""
        words = self.ps[i:last]
        named = len(words) > 1 and all(p.kind == "word" and not is_any(p, HARD) for p in words)
        if not named or not all(self.capital(j) for j in range(i, last)):
            return False
        j = last
        while is_any(self.at(j), ("SAME", "TODAY", "WEEKDAY", "LINK")) and not is_any(self.at(j), ("HAD",)):
            j += 1
        return is_any(self.at(j), ("HAD",)) and self._data_from(j + 1)

    def _more_places(self, i: int) -> bool:
        """Does a place with a colon follow ("maple gate: 4 pl .., low end: ..")?"""
        return any(is_any(self.ps[j], ("SPOT", "CHECK")) and self.colon(j + 1) for j in range(i, len(self.ps)))

    def _places_told(self, i: int) -> bool:
        """Are places told one a line here ("loma: 4 pl ...", "bajo: 4 pl ...")?"""
        return any(
            is_any(self.ps[j], ("SPOT",)) and self.colon(j + 1) and (not j or self.ps[j - 1].kind in ("line", "break"))
            for j in range(i)
        )

    def _data_from(self, j: int) -> bool:
        """Does a note follow: a day, a stage, a count, a finding? Or nothing at all, and the name is an answer."""
        dated = False
        while (piece := self.at(j)) is not None and (
            piece.kind in ("day", "stage") or piece.text in (":", ",", "-", "(", ")")
        ):
            dated = dated or piece.kind in ("day", "stage") or piece.text == ":"
            j += 1
        if piece is None or dated or piece.kind == "mark":
            return True
        if piece.kind in ("number", "series"):
            after = self.at(j + 1)
            return is_any(after, NOUNS | {"TOOL"}) or (after is not None and after.kind == "number")
        words = FINDINGS | {
            "PLANTS",
            "SAME",
            "TOOL",
            "MOISTURE",
            "TEXTURE",
            "PLANTED",
            "VARIETY",
            "SOAKED",
            "RESISTANCE",
            "COLOUR",
            "PH",
            "POTASSIUM",
        }
        return is_any(piece, words)

    def _like_known(self, i: int, last: int) -> bool:
        return self.like_known(self.ps[i].start, self.ps[last - 1].end)

    def like_known(self, start: int, end: int) -> bool:
        """Is a slice of the text nearly a name of the crew, or short for one?"""
        return self.likeness(start, end) >= LIKE

    def likeness(self, start: int, end: int) -> float:
        """How much a slice of the text is like the nearest name of the crew: 100 the same, 99 short for it."""
        return _likeness(written(self.text, start, end), self.crew)

    def _mentioned(self) -> FieldName | None:
        """The one known field of a message, wherever it stands ("sprayed at the bottom": Bottom is also a place)."""
        of = anywhere("of_name")  # "a contagem da baixada: brancas 22"
        known = [i for i, piece in enumerate(self.ps) if "FIELD" in piece.types]
        known = [i for i in known if not self.colon(i + 1) or (i and self.ps[i - 1].text in of)]
        led = [i for i in known if self.at(i - 1) is not None and is_any(self.at(i - 1), ("LINK",))]
        return self._extend(led[0], led[0]) if len(known) == 1 and led else None

    def _aside(self, i: int, last: int) -> bool:
        """ "Sorry, was at camp. Sycamore ..": words that are like no field of the crew, and a stop behind them."""
        stranger = self.fields and not self.capital(i) and not self._like_known(i, last)
        return bool(stranger) and last + 1 < len(self.ps) and self.ps[last].text in (".", ";", "!", "?")

    def _after_at(self) -> FieldName | None:
        """ "dug 6 at swallow", or a word for a place that stands first: the last resort."""
        first = self.at(0)
        if (
            first is not None
            and is_any(first, ("SPOT",))
            and " " not in first.text
            and not self.colon(1)
            and not linking(first)
            and not self.places_told(0, 1)
        ) and self._data_from(1):
            return self._make(0, 1, 0)
        for i, piece in enumerate(self.ps[:-1]):
            led = self.made.has("at", piece.text)
            article = led and not self.fields and self.made.has("article", self.ps[i + 1].text) and self.capital(i + 2)
            if led and (article or self._unknown(self.ps[i + 1])):
                last = self._run(i + 1)
                if last > i + 1 and not self._aside(i + 1, last):
                    return self._make(i, last, i + 1)
        return None


@lru_cache(maxsize=4096)
def _likeness(name: str, crew: Crew) -> float:
    """See :meth:`Names.likeness`; one message asks for the same few words again and again."""
    from rapidfuzz import fuzz, process

    best = process.extractOne(name, crew.names, scorer=fuzz.ratio)
    nearest = best[1] if best is not None else 0.0
    if nearest == 100 or (len(name) < SHORTEST_SHORT and name not in crew.initials):
        return nearest
    said = name_parts(name)
    return 99.0 if "".join(said) in crew.initials or any(short_for(said, known) for known in crew.parts) else nearest
