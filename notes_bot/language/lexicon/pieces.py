"""Lexemes to pieces: the longest phrase of the word tables at each place, with everything it can mean."""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import cache, lru_cache
from typing import Any

from notes_bot.language.lexicon.crew_names import only_one
from notes_bot.language.lexicon.days import DayWritten
from notes_bot.language.lexicon.figures import without_figures
from notes_bot.language.lexicon.number_names import NumberNames, only_number
from notes_bot.language.lexicon.scan import Lexeme, bones, clean, consonants, scan
from notes_bot.language.lexicon.times import without_times
from notes_bot.language.lexicon.words import COMMAND_TYPES, Entry, anywhere, is_field_word, spoken_numbers, table
from notes_bot.model import LANGUAGES, Language

BREAKS = {
    ".": "hard",
    ";": "hard",
    "!": "hard",
    "|": "hard",
    ",": "soft",
    "(": "soft",
    ")": "soft",
    "[": "soft",
    "]": "soft",
}
"""Signs that end a clause; a hard one also ends a sentence."""


@dataclass(slots=True)
class Piece:
    """A word or phrase, a number, a day, a sign; ``kind`` says which."""

    kind: str
    """word, number, day, stage, series, ratio, range, measure, quoted, link, place, sign, break, line"""
    text: str
    """Folded."""
    start: int
    end: int
    entries: tuple[Entry, ...] = ()
    value: Any = None
    spaced: bool = True
    plus: bool = False
    """A number written as a lower bound: 100+ or >100."""
    types: dict[str, Entry] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.types = {e.type: e for e in reversed(self.entries)} if self.entries else {}


def number_told(piece: Piece | None) -> int | float | None:
    """The number a piece is, in figures or as a word; ``None`` for any other piece and for none."""
    if piece is None:
        return None
    if piece.kind == "number":
        value: int | float = piece.value
        return value
    word = piece.types.get("NUMBER_WORD")
    return int(word.value) if word is not None else None


def put_aside(pieces: list[Piece], end_of: Callable[[int], int]) -> list[Piece]:
    """The pieces with every stretch from a place to the end told for it (0 for none) as one aside."""
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        end = end_of(n)
        out.append(Piece("aside", "", pieces[n].start, pieces[end - 1].end) if end else pieces[n])
        n = end or n + 1
    return out


def count_told(piece: Piece | None) -> int | None:
    """The whole number a piece is, in figures or as a word; ``None`` for any other piece and for none."""
    told = number_told(piece)
    return told if isinstance(told, int) else None


def piece_at(pieces: Sequence[Piece], n: int) -> Piece | None:
    """The piece there; ``None`` before the first and behind the last."""
    return pieces[n] if 0 <= n < len(pieces) else None


def ends_clause(piece: Piece | None) -> bool:
    """Does a clause end there, or the message?"""
    return piece is None or piece.kind in ("break", "line")


def _number(lexeme: Lexeme, language: Language) -> list[tuple[int | float, int, int]]:
    """The number or numbers a lexeme holds, with their places."""
    text = lexeme.text
    if lexeme.kind == "number":
        digits = text.rstrip("stndrh")
        return [(int(digits) if len(digits) <= 9 else 999_999_999, lexeme.start, lexeme.end)]
    sign = "," if "," in text else "."
    left, right = text.split(sign)
    if len(left) > 9 or len(right) > 9:
        return [(999_999_999, lexeme.start, lexeme.end)]
    if len(right) == 3 and 1 <= len(left) <= 3 and left != "0" and (sign == ",") == (language == "en"):
        return [(int(left + right), lexeme.start, lexeme.end)]
    if sign == "," and language == "en":
        middle = lexeme.start + len(left)
        return [(int(left), lexeme.start, middle), (int(right), middle + 1, lexeme.end)]
    return [(float(f"{left}.{right}"), lexeme.start, lexeme.end)]


_OPENS = frozenset(".,;:!?")
"""Signs behind which a clause begins."""
LONGEST_REFUSAL = 7
"""Words of the longest phrase for not looked behind a short name (judgement)."""
_LAST_SIGN = "⇿"
"""Signs up to here (degrees, arrows) are no pictures."""
MOST_OF_HEAD = 4
"""Words of a field's name in short at the head of a line (judgement)."""
_TOLD_OF_VISIT = frozenset(
    {
        "DUG",
        "TOOL",
        "SOAKED",
        "NOT_LOOKED",
        "NONE",
        "MOISTURE",
        "TEXTURE",
        "SPRAY",
        "CHEMICAL",
        "WEEKDAY",
        "TODAY",
        "SAME",
    }
)
_ASKED_OF = frozenset({"HISTORY", "PICTURE", "STATE", "MUTE", "RESUME", "SKIP", "UNDO", "MOVE", "CORRECT", "COURTESY"})
"""What is asked of a field named behind it."""
OPENED = 40
"""Lexemes back in which an open bracket is looked for (judgement)."""


_NUMBER_AND_LETTER = re.compile(r"\d{1,4}[^\W\d_]|[^\W\d_]\d{1,4}")


class Cutter:
    """Cuts one text; holds what is needed for it."""

    def __init__(self, language: Language, fields: tuple[str, ...]) -> None:
        self.language = language
        self.table = table(language)
        self.names = _names(fields)
        self.figured = _in_figures(fields)
        self.short = _short_names(fields)
        self.own = _spelled(fields)
        self.numbers = _numbers(fields)
        self.long_numbers = _long_numbers(fields)
        self.number_names = NumberNames(self.table, _bare_numbers(fields))
        self.words = _words_of(fields)
        self.fields = fields

    def cut(self, lexemes: list[Lexeme]) -> list[Piece]:
        """All pieces of the text in order."""
        lexemes = self._in_full(without_times(lexemes, self.table))
        lexemes = without_figures(lexemes, self.table, self.number_names.names)
        texts = [lexeme.text for lexeme in lexemes]
        out: list[Piece] = []
        i = 0
        count = len(lexemes)
        while i < count:
            lexeme = lexemes[i]
            named = self._name(lexemes, i)
            if named and self._is_count(lexemes, i, named, out):
                named = None
            named = named or self._cut_short(lexemes, i, out) or self._numbered(lexemes, i, out)
            named = named or self._number_and_letter(lexemes, i, out)
            phrase = self._phrase(lexemes, texts, i)
            if named and named[0] >= (phrase[0] if phrase else 0):
                size, name = named
                last = lexemes[i + size - 1]
                written = last.end - last.start == len(last.text)  # not "tinkers" mended to "tinker's"
                kept = phrase[1] if phrase and phrase[0] == size and not only_number(name.split(" ")) else ()
                owning = written and last.text.endswith("'s") and not self._own_name(name)
                out.append(
                    self._piece(
                        "word",
                        lexemes,
                        i,
                        size,
                        (Entry("FIELD", name), *kept),
                    )
                )
                if owning:
                    out[-1].end -= 2
                i += size
                continue
            if phrase and phrase[0] > 1:
                phrase = self._kept(phrase, lexemes, texts, i, out)
            if (
                phrase
                and not named
                and (self._hides_a_name(lexemes, i, phrase[0]) or self._hides_a_place(lexemes, i, out))
            ):
                phrase = self._phrase(lexemes, texts[: i + 1], i)
            if phrase and phrase[0] > 1 and _counted(lexemes, i) and {e.type for e in phrase[1]} == {"SPOT"}:
                alone = self._phrase(lexemes, texts[: i + 1], i)
                phrase = (
                    alone if alone and any(e.type == "COLOUR" for e in alone[1]) else phrase
                )  # "1 yellow ground dry"
            if phrase and (phrase[0] > 1 or lexeme.kind in ("word", "sign", "wordnum") or len(lexeme.text) >= 5):
                size, entries = phrase
                out.append(self._piece("word", lexemes, i, size, entries))
                i += size
                continue
            i += self._single(lexemes, i, out)
        return out

    def _kept(
        self,
        phrase: tuple[int, tuple[Entry, ...]] | None,
        lexemes: list[Lexeme],
        texts: list[str],
        i: int,
        out: list[Piece],
    ) -> tuple[int, tuple[Entry, ...]] | None:
        """What is left of a phrase of several words where some of them say something else; ``None`` for nothing."""
        lexeme = lexemes[i]
        if phrase and phrase[0] > 1 and self._counts_a_colour(phrase[1], lexeme, out):
            phrase = self._phrase(lexemes, texts[: i + 1], i)
        if phrase and phrase[0] == 2 and lexeme.text == "/" and _one_number(lexemes, i + 2):
            phrase = None  # "12w/p 6": six plants
        if phrase and phrase[0] == 2 and self._leads_no_number(lexemes, i):
            phrase = self._phrase(lexemes, texts[: i + 1], i)
        if phrase and phrase[0] > 1 and lexeme.kind == "number" and _in_a_row(lexemes, i, phrase[0]):
            phrase = None  # "5 plants 10 4 6 0 7"
        if phrase and phrase[0] == 2 and lexeme.kind == "number" and _ends_row(out, phrase[1]):
            phrase = None  # "3 plants 7 1 2 dry"
        if phrase and phrase[0] > 1 and lexeme.kind == "number" and _counts_up(lexemes, i, phrase):
            phrase = None  # "eran 9 no 7"
        if phrase and phrase[0] > 1 and self._takes_a_denial(texts, i + phrase[0] - 1):
            phrase = self._phrase(lexemes, texts[: i + phrase[0] - 1], i)
        return phrase

    def _own_name(self, name: str) -> bool:
        """Is this, with its "'s", what the crew calls the field, or the first words of it?"""
        return name in self.own or any(known.startswith(f"{name} ") for known in self.own)

    def _in_full(self, lexemes: list[Lexeme]) -> list[Lexeme]:
        """Chat spellings written out: "como q ta" is "como que está"; c/ and s/ before a word are "with", "without"."""
        slashed = self.table.slashed
        if not (self.table.shorts or slashed):
            return lexemes
        out: list[Lexeme] = []
        skip = False
        for n, lexeme in enumerate(lexemes):
            if skip:
                skip = False
                continue
            text = lexeme.text
            words = () if len(text) > 1 and text in self.words else self.table.shorts.get(text, ())
            if not words and text not in slashed and text not in ("2", "4"):
                out.append(lexeme)
                continue
            after = lexemes[n + 1] if n + 1 < len(lexemes) else None
            if text in slashed and after is not None and after.text == "/" and not after.spaced:
                word = lexemes[n + 2] if n + 2 < len(lexemes) else None
                if word is not None and word.kind == "word" and len(word.text) > 2:
                    out.append(Lexeme("word", slashed[text], lexeme.start, after.end, lexeme.spaced))
                    skip = True
                    continue
            if text in ("2", "4") and (texted := self._texted_number(lexemes, n)) is not None:
                out.append(Lexeme("word", texted, lexeme.start, lexeme.end, lexeme.spaced))
                continue
            ends = bool(words) and n > 0 and not lexeme.spaced
            if ends and self.table.longest([lexemes[n - 1].text, text], 0) is not None:
                words = ()  # "4ta": the end of an ordinal
            if (
                words
                and lexeme.kind == "word"
                and ((len(text) > 1 and not self.table.has("phrase_short", text)) or self._little(lexemes, n, words))
            ):
                out.extend(Lexeme("word", word, lexeme.start, lexeme.end, lexeme.spaced) for word in words)
            else:
                out.append(lexeme)
        return out

    def _texted_number(self, lexemes: list[Lexeme], n: int) -> str | None:
        """ "2 wet 2 dig", "late 4 mtg": a figure for the word it sounds like, by the word behind it."""
        if n + 1 >= len(lexemes) or lexemes[n + 1].kind != "word":
            return None
        before, after = lexemes[n - 1] if n else None, lexemes[n + 1].text
        worded = before is not None and before.kind == "word" and not self.table.has("was_then", before.text)
        for trait, figure in (("after_too", "2"), ("after_to", "2"), ("after_for", "4")):
            told = worded or (trait == "after_too" and before is not None and before.kind == "sign")
            if figure == lexemes[n].text and told and self.table.has(trait, after):
                return self.table.write(trait)
        return None

    def _little(self, lexemes: list[Lexeme], n: int, words: tuple[str, ...]) -> bool:
        """Is a single letter a word here: not beside a number or a sign; a direction only starts phrases.

        "3 branca i 2 amarela": what joins may lead a number.
        """
        before = lexemes[n - 1] if n else None
        after = lexemes[n + 1] if n + 1 < len(lexemes) else None
        if lexemes[n].text in anywhere("and_letter"):
            joined = before is not None and after is not None and before.kind == "word" and lexemes[n].spaced
            return joined and after.kind in ("word", "number")  # type: ignore[union-attr]  # joined says so
        text, phrased = lexemes[n].text, self.table.has("phrase_short", lexemes[n].text)
        opens = before is None or before.kind == "nl" or (before.text in _OPENS and (len(text) == 1 or phrased))
        if after is None or after.kind != "word" or not (opens or (before is not None and before.kind == "word")):
            return False
        if not phrased:
            return before is None or before.kind in ("word", "nl")
        return self.table.begins((*words, after.text))

    def _piece(
        self, kind: str, lexemes: list[Lexeme], i: int, size: int, entries: tuple[Entry, ...] = (), value: Any = None
    ) -> Piece:
        first, last = lexemes[i], lexemes[i + size - 1]
        text = first.text if size == 1 else " ".join([lexeme.text for lexeme in lexemes[i : i + size]])
        return Piece(kind, text, first.start, last.end, entries, value, first.spaced)

    def _name(self, lexemes: list[Lexeme], i: int) -> tuple[int, str] | None:
        for words in self.names.get(lexemes[i].text, ()):
            if _matches(lexemes, i, words) and not (words in self.figured and lexemes[i + 1].spaced):
                return len(words), " ".join(words)
        after = lexemes[i + 1] if i + 1 < len(lexemes) else None
        if after is not None and after.kind == lexemes[i].kind == "word" and len(after.text) > 2:
            for words in self.names.get(lexemes[i].text + after.text, ()):  # "pump house" for Pumphouse
                if _matches(lexemes, i + 2, words[1:]):
                    return len(words) + 1, " ".join(words)
        return None

    def _is_count(self, lexemes: list[Lexeme], i: int, named: tuple[int, str], out: list[Piece]) -> bool:
        """ "12 white", where a field of the crew is called 12: a number, and no name."""
        size, name = named
        return only_number(name.split(" ")) and not self.number_names.is_name(lexemes, i, size, out)

    def _cut_short(self, lexemes: list[Lexeme], i: int, out: list[Piece]) -> tuple[int, str] | None:
        """A name cut short, with all its words ("Gravel P." and not just "Gravel")."""
        short = self._short(lexemes, i, out)
        if out and not _ends(out[-1]):
            return short
        head = self._line_head(lexemes, i, out)
        return head if head and (short is None or head[0] > short[0]) else short

    def _short(self, lexemes: list[Lexeme], i: int, out: list[Piece]) -> tuple[int, str] | None:
        """A name cut short, where a name is looked for: "talked to Miller" and "- Miller" may be a person.

        Where a note goes on behind it ("railroad five plants"), the name may also be an everyday word, or a later one
        of the name.
        """
        ways = self.short.get(lexemes[i].text.removesuffix("'s"), ())
        if not ways:
            return None
        starts = not out or out[-1].kind in ("nl", "line")
        the = not starts and any(
            self.table.has(kind, out[-1].text) for kind in ("article", "name_article", "determiner")
        )
        if out and (self.table.has("time_lead", out[-1].text) or self._begins_longer(out)):
            return None  # "after church"; "gravle pit", "bridge tract"
        behind = self.table.singles.get(lexemes[i + 1].text, ()) if i + 1 < len(lexemes) else ()
        if any(entry.type in ("ROOTS", "EDGES", "VEINS", "LEAF") or entry.value == "leaves" for entry in behind):
            return None  # "the lower leaves", where Lower Bottom is a field
        asked = bool(out) and not out[-1].types.keys().isdisjoint(_ASKED_OF)  # "history tower and depot"
        led = starts or the or asked or out[-1].text in _before_short() or self._gone_to(out)
        for words, plain in ways:
            owned = len(words) == 1 and lexemes[i].text == f"{words[0]}'s" and not plain  # "tower's looking good"
            if not owned and not _matches(lexemes, i, words):
                continue
            words = (lexemes[i].text,) if owned else words
            if _is_place(words[0]) and len(words) == 1:
                at = not starts and (self.table.has("at", out[-1].text) or the) and (len(out) < 2 or _ends(out[-2]))
                colon = i + 1 < len(lexemes) and lexemes[i + 1].text == ":"
                if (starts or at or _ends(out[-1])) and self._goes_on(lexemes, i + 1 + colon):
                    return 1, words[0]  # "na coxilha 4 pés e nada", where Coxilha do Umbu is a field
                continue
            if len(words) == 1 and len(words[0]) == 2 and words[0].isalpha():
                if starts and (i + 1 == len(lexemes) or lexemes[i + 1].text not in ("/", "+", "?")):
                    return 1, words[0]
                continue
            if words[0].isalnum() and not words[0].isalpha():
                leads = starts or the or out[-1].text in (".", ";", ":") or self.table.has("at", out[-1].text)
                heads = i + 1 < len(lexemes) and (
                    lexemes[i + 1].text == ":" or self.table.has("at", lexemes[i + 1].text)
                )
                if self._goes_on(lexemes, i + 1) or (leads and (heads or not plain)):  # not "3b, t4", which is females
                    return 1, words[0]
                continue
            if plain and len(words) > 1 and not any("FIELD" in piece.types for piece in out):
                return len(words), " ".join(words)
            listed = not plain and bool(out) and "COLOUR" in out[-1].types and self._counts_on(lexemes, i + len(words))
            if listed or (led and not plain) or ((led or not plain) and self._goes_on(lexemes, i + len(words))):
                return len(words), " ".join(words)
        return None

    def _begins_longer(self, out: list[Piece]) -> bool:
        """Does a word that means nothing stand first in its clause, so that a longer name may begin with it?"""
        word = out[-1]
        strange = word.kind == "word" and not word.entries and word.text not in self.table.plain and len(word.text) > 2
        return strange and (len(out) == 1 or _ends(out[-2]))

    def _numbered(self, lexemes: list[Lexeme], i: int, out: list[Piece]) -> tuple[int, str] | None:
        """ "No 11 arranquei 6", "en el 12 saqué 5", where the crew has a Talhão 11, a Lote 12: the number alone."""
        if lexemes[i].kind != "number":
            return None
        if lexemes[i].text in self.long_numbers:
            return (1, lexemes[i].text) if self._stands_as_name(lexemes, i, out) else None
        if not out:
            colon = i + 1 < len(lexemes) and lexemes[i + 1].text == ":" and self._goes_on(lexemes, i + 2)
            return (1, lexemes[i].text) if colon and lexemes[i].text in self.numbers else None
        letter = lexemes[i + 1] if i + 1 < len(lexemes) and not lexemes[i + 1].spaced else None
        if letter is not None and lexemes[i].text + letter.text in self.numbers:
            behind = out[-1].text in anywhere("lettered_lead")
            return (2, lexemes[i].text + letter.text) if behind else None  # "era o 4B", where Talhão 4B is a field
        if lexemes[i].text not in self.numbers:
            return None
        joint = lexemes[i + 1].text if i + 1 < len(lexemes) else ""
        if "FIELD_WORD" in out[-1].types and self.table.has("and_then", joint):
            return 1, lexemes[i].text  # "talhões 8 e 18"
        if self.table.has("and_then", out[-1].text) and len(out) > 1 and self._named_by_number(out[:-1]):
            return 1, lexemes[i].text  # "lote 6 y 16"
        heads = i + 1 < len(lexemes) and lexemes[i + 1].text == ":" and self._goes_on(lexemes, i + 2)
        if heads and (_ends(out[-1]) or out[-1].kind == "line"):
            return 1, lexemes[i].text  # "11: V5, 6 p. 20: V5, 6 p"
        led = next((n for n in (1, 2) if self.table.has("at_numbered", " ".join(p.text for p in out[-n:]))), 0)
        before = out[-led - 1] if len(out) > led else None
        starts = led > 0 and (before is None or _ends(before) or "COURTESY" in before.types)
        starts = starts or (led > 0 and before is not None and self.table.has("and_then", before.text))
        following = lexemes[i + 1].text if i + 1 < len(lexemes) else ""
        dug = any(entry.type == "DUG" for entry in self.table.singles.get(following, ()))
        told = dug or following == ":" or self._goes_on(lexemes, i + 1)
        comma = following == "," and self._goes_on(lexemes, i + 2)
        return (1, lexemes[i].text) if starts and (told or comma) else None

    def _stands_as_name(self, lexemes: list[Lexeme], i: int, out: list[Piece]) -> bool:
        """ "2207 V4, 4 pl", "S end 4 pl 3w - 2207", where the crew has a Tract 2207: no count of anything."""
        after = lexemes[i + 1] if i + 1 < len(lexemes) else None
        kinds = {entry.type for entry in self.table.singles.get(after.text, ())} if after is not None else set()
        counted = kinds & {"PLANTS", "COLOUR", "FEMALES", "TOTAL", "EACH", "UNIT", "MEASURE"}
        before = out[-1] if out else None
        starts = before is None or _ends(before) or before.text in (":", "-") or self.table.has("at", before.text)
        starts = starts or (before is not None and not before.types.keys().isdisjoint(_ASKED_OF))  # "skip 2207"
        return starts and not counted and (after is None or after.text not in ("%", "/"))

    def _named_by_number(self, out: list[Piece]) -> bool:
        """Does a field told by a number stand last ("lote 6", "talhões 8")?"""
        named = "FIELD" in out[-1].types and out[-1].text.split(" ")[-1] in self.numbers
        led = len(out) > 1 and "FIELD_WORD" in out[-2].types
        return named or (out[-1].kind == "number" and out[-1].text in self.numbers and led)

    def _line_head(self, lexemes: list[Lexeme], i: int, out: list[Piece]) -> tuple[int, str] | None:
        """ "h w R3 4 pl ..", "sec17 gly sprayd ..": short for one field of the crew, at the head of a note's line.

        Several words are so behind another field's note too ("Tower 0, Kess 80 3w"), one behind a stop and before a
        number ("Tower 0. Pit 3w").
        """
        if not self.fields or lexemes[i].kind not in ("word", "wordnum"):
            return None
        starts = not out or out[-1].kind == "line"
        counted = (
            not starts
            and lexemes[i].text in self.words
            and out[-1].value == "hard"
            and [x.kind for x in lexemes[i + 1 : i + 2]] == ["number"]
        )
        for size in range(MOST_OF_HEAD, 0 if starts or counted else 1, -1):
            run = lexemes[i : i + size]
            inner = all(x.kind in ("word", "number", "wordnum") or x.text == "." for x in run)
            ends = i + size < len(lexemes) and lexemes[i + size].text == "." and size > 1  # "Gravel P. R5"
            alone = starts and size > 1 and i + size < len(lexemes) and lexemes[i + size].kind == "nl"
            heads = alone or self._heads(lexemes, i + size + ends)
            if len(run) < size or not inner or run[-1].text == "." or not heads:
                continue
            if size > 1 and not ends and self._counts_a_letter(lexemes, i + size - 1):
                continue  # "persimmon b 4"
            said = " ".join(x.text for x in run if x.text != ".")
            everyday = not starts and any(x.text in self.table.plain or _is_little(x.text) for x in run[:-1])
            if not everyday and not self._tells_more(run) and only_one(said, self.fields):
                return size, said
        return None

    def _counts_a_letter(self, lexemes: list[Lexeme], i: int) -> bool:
        """ "Lorenz pl 4 9w": is a word beside a number rather what it counts?"""
        number, noun = [*lexemes[i + 1 : i + 3], None, None][:2]
        kinds = {entry.type for entry in self.table.singles.get(lexemes[i].text, ())}
        counts = bool(kinds & {"PLANTS", "COLOUR", "FEMALES"}) and number is not None and number.kind == "number"
        nouns = self.table.singles.get(noun.text, ()) if noun is not None else ()
        return counts and not any(entry.type in ("PLANTS", "DUG") for entry in nouns)

    def _number_and_letter(self, lexemes: list[Lexeme], i: int, out: list[Piece]) -> tuple[int, str] | None:
        """ "12B, V4, dug five" heading a line, "me diz do t4": the number of one field of the crew, with its letter."""
        if not self.fields or lexemes[i].kind not in ("word", "wordnum", "number"):
            return None
        one = lexemes[i].kind == "wordnum"
        if not one and (i + 1 == len(lexemes) or lexemes[i + 1].spaced):
            return None
        run = lexemes[i : i + (1 if one else 2)]
        said = "".join(x.text for x in run)
        glued = one or run[0].end == run[1].start
        if not glued or not _NUMBER_AND_LETTER.fullmatch(said):
            return None
        after = lexemes[i + len(run)] if i + len(run) < len(lexemes) else None
        heads = (not out or out[-1].kind == "line") and said[0].isdigit()
        heads = heads and after is not None and (after.text in (",", ":") or after.kind == "stage")
        led = bool(out) and self.table.has("of_field", out[-1].text)
        led = led and (after is None or after.kind not in ("number", "wordnum")) and not said[0].isdigit()
        return (len(run), said) if (heads or led) and only_one(said, self.fields) else None

    def _tells_more(self, run: list[Lexeme]) -> bool:
        """Is a word alone one of ours or everyday, or the first of several one that is no side, letter or place?"""
        kinds = {entry.type for entry in self.table.singles.get(run[0].text, ())}
        if len(run) == 1:
            return bool(kinds) or run[0].text in self.table.plain
        side = len(run[0].text) == 1 or self.table.has("direction", run[0].text)
        side = side or self.table.has("short_height", run[0].text)
        return bool(kinds - {"SPOT"}) and not side

    def _heads(self, lexemes: list[Lexeme], i: int) -> bool:
        """Do data follow: a day, a stage, a number, anything that is told of a visit?"""
        first = lexemes[i] if i < len(lexemes) else None
        if first is None or first.kind in ("stage", "number", "frac", "wordnum", "iso", "dmy"):
            return first is not None
        kinds = {entry.type for entry in self.table.singles.get(first.text, ())}
        return first.text in (":", ",", "-", ";") or bool(kinds & _TOLD_OF_VISIT)

    def _gone_to(self, out: list[Piece]) -> bool:
        """ "Then went over to railroad and dug six": on the way to a field."""
        way = out[-4:]
        return self.table.has("goal", way[-1].text) and any(self.table.has("gone", piece.text) for piece in way)

    def _counts_on(self, lexemes: list[Lexeme], i: int) -> bool:
        """ "Sanga 6 brancas anselmo 2 amarelas": a count of a color behind the name, as before it."""
        pair = lexemes[i : i + 2]
        kinds = {entry.type for entry in self.table.singles.get(pair[1].text, ())} if len(pair) == 2 else set()
        return len(pair) == 2 and pair[0].kind == "number" and "COLOUR" in kinds

    def _goes_on(self, lexemes: list[Lexeme], i: int) -> bool:
        """Does a note follow: a stage, plants counted, digging, a finding?"""
        if i < len(lexemes) and lexemes[i].text == "(":
            i += 1  # "o açude (4 pés, nada)"
        while i < len(lexemes) and self.table.has("and_then", lexemes[i].text):
            i += 1
        first, second = [*lexemes[i : i + 2], None, None][:2]
        if first is None:
            return False
        phrase = self.table.longest([lexeme.text for lexeme in lexemes[i : i + LONGEST_REFUSAL]], 0)
        if phrase is not None and phrase[0] > 1 and any(entry.type == "NOT_LOOKED" for entry in phrase[1]):
            return True  # "coxilha nem desci da camioneta"
        kinds = {entry.type for entry in self.table.singles.get(first.text, ())}
        behind = {entry.type for entry in self.table.singles.get(second.text, ())} if second is not None else set()
        counted = second is not None and (second.kind == "number" or "NUMBER_WORD" in behind)
        if first.kind == "stage" or (first.text in ("v", "r") and counted):
            return True
        if first.kind == "number" or "NUMBER_WORD" in kinds:
            return bool(behind & {"PLANTS", "DUG"})
        if "SPRAY" in kinds and "CHEMICAL" in behind:
            return True  # "na baixada passaram herbicida"
        return bool(kinds & {"DUG", "NOT_LOOKED"}) and not kinds & {"LINK", "COLOUR"}

    def _counts_a_colour(self, entries: tuple[Entry, ...], first: Lexeme, out: list[Piece]) -> bool:
        """ "1 yellow ground moist", "six white over there": a color behind a number is counted, no phrase."""
        if not out or not (out[-1].kind == "number" or "NUMBER_WORD" in out[-1].types):
            return False
        allowed = ("SPOT", "TEXT") if out[-1].kind == "number" else ("TEXT",)  # "one yellow area"
        listed = out[-1].kind == "number" and self._of_letters(out[:-1], first)  # "8 b 1 a pá"
        counted = listed or all(entry.type in allowed for entry in entries)
        return counted and any(entry.type == "COLOUR" for entry in self.table.singles.get(first.text, ()))

    def _of_letters(self, before: list[Piece], letter: Lexeme) -> bool:
        """ "22 b 4 a 9 m": a letter for a color behind a number, as behind the number before it."""
        letters = len(letter.text) == 1 and any(e.type == "COLOUR" for e in self.table.singles.get(letter.text, ()))
        shade, number = (before[-1], before[-2]) if len(before) > 1 else (None, None)
        counted = number is not None and number.kind == "number" and not number.plus
        return letters and counted and shade is not None and len(shade.text) == 1 and "COLOUR" in shade.types

    def _leads_no_number(self, lexemes: list[Lexeme], i: int) -> bool:
        """ "6 plants out of the field": no "9 out of 6"."""
        if not self.table.has("out_of_so_many", f"{lexemes[i].text} {lexemes[i + 1].text}"):
            return False
        behind = lexemes[i + 2] if i + 2 < len(lexemes) else None
        if behind is not None and behind.text in anywhere("of_which"):
            return False  # "2 out of those had white"
        if behind is not None and self.table.has("determiner", behind.text):
            behind = lexemes[i + 3] if i + 3 < len(lexemes) else None  # "9 out of the 10 plants"
        entries = self.table.singles.get(behind.text, ()) if behind is not None else ()
        return behind is None or not (behind.kind == "number" or any(e.type == "NUMBER_WORD" for e in entries))

    def _takes_a_denial(self, texts: list[str], i: int) -> bool:
        """ "Spade and bucket no cysts": the "no" that ends a phrase begins another one."""
        if not self.table.has("plain_denial", texts[i]):
            return False
        behind = self.table.longest(texts, i)
        return behind is not None and behind[0] > 1

    def _hides_a_name(self, lexemes: list[Lexeme], i: int, size: int) -> bool:
        """ "en la tranquera" where La Tranquera is a field of the crew: the name goes before the phrase."""
        for j in range(i + 1, i + size):
            name = self._name(lexemes, j)
            led = j == i + 1 and size == 2 and self.table.has("at", lexemes[i].text)
            if name is not None and j + name[0] >= i + size and (name[0] > 1 or led):
                return True
        return False

    def _hides_a_place(self, lexemes: list[Lexeme], i: int, out: list[Piece]) -> bool:
        """ "Na coxilha 4 pés ..", where Coxilha do Umbu is a field: behind "at", where a clause starts."""
        word = lexemes[i + 1].text if i + 1 < len(lexemes) else ""
        if word not in self.short:
            return False
        short = any(words == (word,) and _is_place(word) for words, _ in self.short[word])
        starts = not out or _ends(out[-1])
        return short and starts and self.table.has("at", lexemes[i].text) and self._goes_on(lexemes, i + 2)

    def _phrase(self, lexemes: list[Lexeme], texts: list[str], i: int) -> tuple[int, tuple[Entry, ...]] | None:
        lexeme = lexemes[i]
        if lexeme.kind in ("nl", "quoted", "link"):
            return None
        best = self.table.longest(texts, i)
        if best is not None:
            return best
        heads = i == 0 or lexemes[i - 1].kind == "nl"  # "Brown's 40 5 plants"
        if lexeme.kind == "word" and lexeme.text.endswith("'s") and not heads:
            short = tuple(e for e in self.table.singles.get(lexeme.text[:-2], ()) if e.type in ("COLOUR", "PLANTS"))
            best = (1, short) if short else None
        if best is not None or lexeme.kind not in ("word", "sign") or len(lexeme.text) < 3:
            return best
        for other in LANGUAGES:
            if other != self.language:
                found = table(other).longest(texts, i)
                if found is not None:
                    brief = len(lexeme.text) < 4 and found[0] == 1
                    kinds = {"DUG", "MOISTURE", *(("COLOUR",) if _counted(lexemes, i) else ())}
                    long = len(lexeme.text) > 5 and found[0] == 1
                    whole = len(lexeme.text) > 3 and lexeme.text not in self.table.plain
                    entries = tuple(
                        e
                        for e in found[1]
                        if (
                            e.type not in _OWN_LANGUAGE
                            or (long and e.type == "WEEKDAY")
                            or (whole and e.type in _SHARED)
                        )
                        and not e.slip
                        and (not brief or e.type in kinds)
                    )
                    if entries:
                        return found[0], entries
        return None

    def _single(self, lexemes: list[Lexeme], i: int, out: list[Piece]) -> int:
        lexeme = lexemes[i]
        kind, text = lexeme.kind, lexeme.text
        if kind == "nl":
            out.append(Piece("line", text, lexeme.start, lexeme.end))
        elif kind == "number" and self._bullet(lexemes, i):
            out.append(Piece("break", text, lexeme.start, lexemes[i + 1].end, (), "hard"))
            return 2
        elif kind == "decimal" and text[0] == "." and self._counts_plants(lexemes, i):
            out.append(Piece("break", ".", lexeme.start, lexeme.start + 1, (), "hard"))  # "R6 .12 plts"
            out.append(Piece("number", text[1:], lexeme.start + 1, lexeme.end, (), int(text[1:]), lexeme.spaced))
        elif kind in ("number", "decimal"):
            spoken = "en" if self._counts_plants(lexemes, i) else self.language
            for value, start, end in _number(lexeme, spoken):
                piece = Piece("number", text, start, end, (), value, lexeme.spaced)
                out.append(piece)
            after = lexemes[i + 1] if i + 1 < len(lexemes) else None
            before = out[-2] if len(out) > 1 else None
            if before is not None and before.text == ">":
                out[-1].plus = True
            if after is not None and after.text == "+" and not after.spaced:
                follow = lexemes[i + 2] if i + 2 < len(lexemes) else None
                if follow is None or follow.kind not in ("number", "decimal"):
                    out[-1].plus = True
                    return 2
            return self._range(lexemes, i, out) or 1
        elif kind in ("dmy", "slashed") and "/" in text and self._as_many(out, text):
            out.append(Piece("sign", "=", lexeme.start, lexeme.start))
            at = lexeme.start
            for part in text.split("/"):
                out.append(Piece("number", part, at, at + len(part), (), int(part), at == lexeme.start))
                at += len(part) + 1
        elif kind == "frac" and self._measures(lexemes, i):
            out.append(Piece("measure", text, lexeme.start, lexeme.end, (), None, lexeme.spaced))
        elif kind in ("iso", "dmy", "frac", "slashed"):
            out.append(self._day(lexeme))
        elif kind == "dashed":
            at, spaced = lexeme.start, lexeme.spaced
            for part in re.split(r"[-/]", text):
                out.append(Piece("number", part, at, at + len(part), (), int(part), spaced))
                at, spaced = at + len(part) + 1, False
        elif kind == "series":
            numbers = tuple(int(part) for part in text.split("/"))
            out.append(Piece("series", text, lexeme.start, lexeme.end, (), numbers, lexeme.spaced))
        elif kind == "stage" and self._you(lexemes, i):
            out.append(Piece("word", text, lexeme.start, lexeme.end, (Entry("LINK", "link"),), None, lexeme.spaced))
        elif kind == "stage":
            out.append(Piece("stage", text, lexeme.start, lexeme.end, (), None, lexeme.spaced))
        elif kind in ("dims", "time", "phone"):
            out.append(Piece("measure", text, lexeme.start, lexeme.end, (), None, lexeme.spaced))
        elif kind == "soilnum":
            out.extend(self._soil_number(lexeme))
        elif kind == "wordnum":
            out.extend(self._wordnum(lexemes, i, out))
        elif kind in ("word", "link", "quoted"):
            out.append(Piece(kind, text, lexeme.start, lexeme.end, (), None, lexeme.spaced))
        elif text in BREAKS:
            out.append(self._break(lexemes, i, out))
        elif text == "-" and lexeme.spaced and i + 1 < len(lexemes) and lexemes[i + 1].spaced and not _titles(out):
            out.append(Piece("break", text, lexeme.start, lexeme.end, (), "soft"))
        elif text > _LAST_SIGN and unicodedata.category(text) == "So":
            out.append(Piece("break", text, lexeme.start, lexeme.end, (), "hard"))  # a picture ends a sentence
        else:
            out.append(Piece("sign", text, lexeme.start, lexeme.end, (), None, lexeme.spaced))
        return 1

    def _as_many(self, out: list[Piece], text: str) -> bool:
        """ "Ditch 3 = 8/5/11", "3 plants: 8/5/11": as many numbers as plants, and no day."""
        sign = out[-1] if out else None
        if sign is None or sign.text not in ("=", ":"):
            return False
        count = next((p for p in reversed(out[-3:-1]) if p.kind == "number"), None)
        return count is not None and count.value == len(text.split("/"))

    def _measures(self, lexemes: list[Lexeme], i: int) -> bool:
        """ "3/4 mile", "1/2 inch": a part of a measure, and no day."""
        after = lexemes[i + 1] if i + 1 < len(lexemes) else None
        top, bottom = lexemes[i].text.split("/")
        part = int(top) < int(bottom) in (2, 3, 4, 8)
        entries = self.table.singles.get(after.text, ()) if after is not None else ()
        return part and any(entry.type == "MEASURE" for entry in entries)

    def _you(self, lexemes: list[Lexeme], i: int) -> bool:
        """ "vc me avisa": the word for "you" in short, and no stage."""
        after = lexemes[i + 1].text if i + 1 < len(lexemes) else ""
        return self.table.has("short_you", lexemes[i].text) and self.table.has("behind_you", after)

    def _bullet(self, lexemes: list[Lexeme], i: int) -> bool:
        """1) and 2) of a list; "1." only at the start of a line."""
        if i + 1 >= len(lexemes) or lexemes[i + 1].spaced or lexemes[i].text.startswith("0"):
            return False
        sign, before = lexemes[i + 1].text, lexemes[i - 1] if i else None
        starts = before is None or before.kind == "nl"
        if sign == ")":
            opened = next((x.text for x in reversed(lexemes[max(0, i - OPENED) : i]) if x.text in ("(", ")")), "")
            return starts or (opened != "(" and lexemes[i].spaced and len(lexemes[i].text) == 1)
        word = lexemes[i + 2] if i + 2 < len(lexemes) else None
        return sign == "." and starts and word is not None and word.kind == "word"

    def _counts_plants(self, lexemes: list[Lexeme], i: int) -> bool:
        """ "k 78,8 plantas": plants are whole, so the comma is one between two numbers."""
        decimal = lexemes[i].kind == "decimal" and ("," in lexemes[i].text or lexemes[i].text[0] == ".")
        if not decimal or i + 1 >= len(lexemes):
            return False
        return any(entry.type == "PLANTS" for entry in self.table.singles.get(lexemes[i + 1].text, ()))

    def _range(self, lexemes: list[Lexeme], i: int, out: list[Piece]) -> int:
        """12-15, 12 to 15: one piece that holds both; 0 if it is none."""
        if i + 2 >= len(lexemes) or lexemes[i].kind != "number" or lexemes[i + 2].kind != "number":
            return 0
        sign, high = lexemes[i + 1], lexemes[i + 2]
        tight = sign.text == "-" and not sign.spaced and not high.spaced
        worded = self.table.has("up_to", sign.text) or sign.text in anywhere("or_word")
        worded = worded and (sign.spaced or len(sign.text) > 1)  # not "18a 25a 31a", which is yellow
        if worded and self._of_letters(out[:-1], sign) and _letter_behind(lexemes, i + 2):
            return 0  # "22 b 4 a 9 m"
        if not (tight or worded):
            return 0
        low_value = out[-1].value
        high_value = _number(high, self.language)[0][0]
        if not isinstance(low_value, int) or not isinstance(high_value, int) or (high_value <= low_value and worded):
            return 0
        out[-1] = Piece(
            "range",
            f"{lexemes[i].text}-{high.text}",
            lexemes[i].start,
            high.end,
            (),
            (low_value, high_value),
            lexemes[i].spaced,
        )
        return 3

    def _day(self, lexeme: Lexeme) -> Piece:
        text = lexeme.text
        for sign in "/.-":
            if sign in text:
                parts = [int(part) for part in text.split(sign)]
                break
        if lexeme.kind == "iso":
            day = DayWritten(text, day=parts[2], month=parts[1], year=parts[0])
            return Piece("day", text, lexeme.start, lexeme.end, (), day, lexeme.spaced)
        first, second = parts[0], parts[1]
        plausible = 1 <= first <= 31 and 1 <= second <= 31 and min(first, second) <= 12
        if lexeme.kind == "slashed" or not plausible:
            if lexeme.kind == "dmy" and not plausible:
                return Piece(
                    "day",
                    text,
                    lexeme.start,
                    lexeme.end,
                    (),
                    DayWritten(text, first=first, second=second),
                    lexeme.spaced,
                )
            return Piece("ratio", text, lexeme.start, lexeme.end, (), tuple(parts), lexeme.spaced)
        year = parts[2] if len(parts) == 3 else None
        return Piece(
            "day",
            text,
            lexeme.start,
            lexeme.end,
            (),
            DayWritten(text, first=first, second=second, year=year),
            lexeme.spaced,
        )

    def _soil_number(self, lexeme: Lexeme) -> list[Piece]:
        """pH6.2, K110."""
        size = 2 if lexeme.text.startswith("ph") else 1
        middle, label = lexeme.start + size, lexeme.text[:size]
        value = float(lexeme.text[size:].replace(",", "."))
        number = int(value) if value == int(value) else value
        word = Piece("word", label, lexeme.start, middle, self.table.singles.get(label, ()), None, lexeme.spaced)
        return [word, Piece("number", lexeme.text[size:], middle, lexeme.end, (), number, spaced=False)]

    def _beside_counts(self, lexemes: list[Lexeme], i: int) -> bool:
        """ "w3 y2 b4" are counts, "b4 lunch" is a word: a count stands beside another one, or at the end."""
        sides = [lexemes[k] for k in (i - 1, i + 1) if 0 <= k < len(lexemes)]
        sides += [lexemes[k] for k in (i - 2, i + 2) if 0 <= k < len(lexemes) and lexemes[(k + i) // 2].text in ",/+"]
        return i + 1 == len(lexemes) or any(side.kind in ("wordnum", "number", "series") for side in sides)

    def _wordnum(self, lexemes: list[Lexeme], i: int, out: list[Piece]) -> list[Piece]:
        """w12, pl6, y0: a short word with its number; anything else is a word of its own (S80, NW4)."""
        lexeme = lexemes[i]
        text = lexeme.text
        if self.table.has("texted_word", text) and not self._beside_counts(lexemes, i):
            return [Piece("word", text, lexeme.start, lexeme.end, (Entry("LINK", "link"),), None, lexeme.spaced)]
        size = 0
        while size < len(text) and text[size].isalpha():
            size += 1
        letters, digits = text[:size], text[size:]
        entries = self.table.singles.get(letters, ())
        if digits.isdigit() and 0 < int(digits) <= 31 and any(e.type == "MONTH" for e in entries):
            month = Piece("word", letters, lexeme.start, lexeme.start + size, entries, None, lexeme.spaced)
            return [month, Piece("number", digits, lexeme.start + size, lexeme.end, (), int(digits), spaced=False)]
        if (
            digits.isdigit()
            and len(digits) <= 4
            and letters != "p"
            and any(e.type in ("COLOUR", "PLANTS") for e in entries)
        ):
            kept = tuple(e for e in entries if e.type in ("COLOUR", "PLANTS"))
            word = Piece("word", letters, lexeme.start, lexeme.start + size, kept, "tied", lexeme.spaced)
            number = Piece("number", digits, lexeme.start + size, lexeme.end, (), int(digits), spaced=False)
            return [word, number]
        return self._glued(lexeme, bool(out) and out[-1].kind == "number" and not lexeme.spaced) or [
            Piece("word", text, lexeme.start, lexeme.end, (), None, lexeme.spaced)
        ]

    def _glued(self, lexeme: Lexeme, behind_number: bool) -> list[Piece]:
        """ "5w1y", "w5y1": counts of colors written without a blank; nothing for other words with a digit."""
        parts = re.findall(r"[a-z]+|\d+", lexeme.text)
        letters = [part for part in parts if part.isalpha()]
        coloured = all(any(e.type == "COLOUR" for e in self.table.singles.get(part, ())) for part in letters)
        if not coloured or len(letters) < 2 or (len(parts) % 2 == 0) == behind_number:
            return []
        out: list[Piece] = []
        at = lexeme.start
        for part in parts:
            entries = tuple(e for e in self.table.singles.get(part, ()) if e.type == "COLOUR")
            kind, value = ("word", "tied") if part.isalpha() else ("number", None)
            made = Piece(kind, part, at, at + len(part), entries, value, lexeme.spaced and at == lexeme.start)
            made.value = int(part) if kind == "number" else value
            out.append(made)
            at += len(part)
        return out

    def _break(self, lexemes: list[Lexeme], i: int, out: list[Piece]) -> Piece:
        lexeme = lexemes[i]
        kind = BREAKS[lexeme.text]
        if lexeme.text == "." and out and out[-1].kind == "word" and out[-1].end == lexeme.start:
            word = out[-1]
            short = len(word.text) <= 4 and word.text not in anywhere("whole_short")
            after = lexemes[i + 1] if i + 1 < len(lexemes) else None
            measured = any(
                e.type in ("COLOUR", "PLANTS", "MONTH", "WEEKDAY", "EACH", "UNIT", "TEXTURE", "VARIETY", "TOTAL")
                for e in word.entries
            )
            earlier = out[-2] if len(out) > 1 else None
            counted = earlier is not None and (earlier.kind == "number" or "MOSTLY" in earlier.types)
            measured = measured and not (counted and "COLOUR" in word.types)  # "all wh. 1 snapped root"
            if short and measured and after is not None and after.kind in ("number", "decimal"):
                return Piece("sign", ".", lexeme.start, lexeme.end, (), None, lexeme.spaced)
        return Piece("break", lexeme.text, lexeme.start, lexeme.end, (), kind)


_SHARED = frozenset({"UNIT", "MOSTLY"})
"""Words of other languages told among one's own: "todas white", "em 7 dias"."""
_OWN_LANGUAGE = COMMAND_TYPES | frozenset(
    [
        "LINK",
        "ABOUT",
        "COURTESY",
        "MEASURE",
        "MONTH",
        "WEEKDAY",
        "UNIT",
        "NOT",
        "SPOT",
        "TOP_WEAK",
        "TEXT",
        "MOSTLY",
        "NODULE",
    ]
)
"""Kinds of word that are not lent to a note in another language."""


def _titles(out: list[Piece]) -> bool:
    """ "Roots - white": roots, nodules or tops alone before a dash are what the words behind it are said of."""
    starts = bool(out) and (len(out) < 2 or out[-2].kind in ("break", "line") or out[-2].text == ":")
    return starts and not out[-1].types.keys().isdisjoint({"ROOTS", "NODULES", "TOPS"})


def _ends_row(out: list[Piece], entries: tuple[Entry, ...]) -> bool:
    """Is a figure the last of a row of numbers, and no word that sounds like it ("2 dry")?"""
    return bool(out) and out[-1].kind == "number" and all(entry.type == "MOISTURE" for entry in entries)


def _counts_up(lexemes: list[Lexeme], i: int, phrase: tuple[int, tuple[Entry, ...]]) -> bool:
    """Is it the end of an ordinal that stands apart from its number ("9 no", and not "9no")?"""
    return lexemes[i + 1].spaced and phrase[0] == 2 and all(entry.type == "NTH" for entry in phrase[1])


def _one_number(lexemes: list[Lexeme], i: int) -> bool:
    """Does a number stand there that begins no list?"""
    behind = [x for x in lexemes[i + 1 : i + 3] if x.text != ","]
    return i < len(lexemes) and lexemes[i].kind == "number" and not (behind and behind[0].kind == "number")


def _in_a_row(lexemes: list[Lexeme], i: int, size: int) -> bool:
    """Are these nothing but numbers, with another number beside them?"""
    beside = [lexemes[k] for k in (i - 1, i + size) if 0 <= k < len(lexemes)]
    return all(x.kind == "number" for x in lexemes[i : i + size]) and any(x.kind == "number" for x in beside)


def _letter_behind(lexemes: list[Lexeme], i: int) -> bool:
    """Does one letter stand behind a number, as in "9 m"?"""
    return i + 1 < len(lexemes) and lexemes[i + 1].kind == "word" and len(lexemes[i + 1].text) == 1


def _counted(lexemes: list[Lexeme], i: int) -> bool:
    """Does a number stand before and nothing else behind that it could count ("5 tan 3 brown")?"""
    before, after = lexemes[i - 1] if i else None, lexemes[i + 1] if i + 1 < len(lexemes) else None
    ends = after is None or after.kind != "word" or after.text in anywhere("counted_end")
    return before is not None and before.kind == "number" and ends


def _matches(lexemes: list[Lexeme], i: int, words: tuple[str, ...]) -> bool:
    if i + len(words) > len(lexemes):
        return False
    return all(lexemes[i + j].text == word for j, word in enumerate(words))


def _spoken(words: tuple[str, ...]) -> list[tuple[str, ...]]:
    """A name as it is dictated in each language: "harrow ridge three" for Harrow Ridge 3, "las ochenta" for Las 80."""
    found: list[tuple[str, ...]] = []
    for language in LANGUAGES if any(map(str.isdigit, words)) else ():
        ways: list[tuple[str, ...]] = [()]
        for word in words:
            ways = [(*way, *said) for way in ways for said in (_said_number(word, language) or ((word,),))]
        found += ways[:MOST_SHORT]
    return found


@cache
def _said_number(figures: str, language: Language) -> tuple[tuple[str, ...], ...]:
    """A number of a name in words: 80 is "eighty", 120 "one twenty" and "one hundred (and) twenty"."""
    made = table(language)
    if not figures.isdigit() or not 0 < (value := int(figures)) < 1000:
        return ()

    def said(part: int) -> str:
        return made.first.get(("NUMBER_WORD", str(part)), "")

    def below_hundred(part: int) -> tuple[tuple[str, ...], ...]:
        if word := said(part):
            return ((word,),)
        tens, ones = said(part // 10 * 10), said(part % 10)
        joints = sorted(made.traits.get("and_number", ()))
        return ((tens, ones), *((tens, joint, ones) for joint in joints)) if tens and ones else ()

    if value <= 100:
        return below_hundred(value)
    heads = [tuple(head.split()) for head in sorted(made.traits.get("hundred_before", ()))]
    if (one := said(value // 100)) and language == "en":
        heads = [*((one, *head) for head in heads), *([(one,)] if value % 100 > 9 else [])]
    elif value > 199:
        heads = []
    if value % 100 == 0:
        return tuple(head for head in heads if len(head) < 3)
    return tuple((*head, *rest) for head in heads for rest in below_hundred(value % 100))


MOST_SHORT = 24
"""Short forms of one name (judgement)."""


def _shortened(words: tuple[str, ...]) -> list[tuple[str, ...]]:
    """A name with its everyday words in short: "dry ck", "larkspur s 80", "larkspur s80", "harrow rdg 3"."""
    shorts = _name_shorts()
    ways: list[tuple[str, ...]] = [()]
    for n, word in enumerate(words):
        numbered = n + 1 < len(words) and words[n + 1].isdigit()
        short = shorts.get(word, ()) if n or numbered or word in anywhere("direction") else ()
        ways = [(*way, other) for way in ways[:MOST_SHORT] for other in (word, *short)]
    glued = [
        (*way[:-2], way[-2] + way[-1])
        for way in ways
        if len(way) > 1 and len(way[-2]) == 1 and way[-2].isalpha() and way[-1].isdigit()
    ]
    return [way for way in (*ways, *glued) if way != words]


@cache
def _name_shorts() -> dict[str, tuple[str, ...]]:
    """How the everyday words of names are written short, of every language."""
    return {word: shorts for language in LANGUAGES for word, shorts in table(language).name_shorts.items()}


@lru_cache(maxsize=64)
def _spelled(fields: tuple[str, ...]) -> frozenset[str]:
    return frozenset(" ".join(lexeme.text for lexeme in scan(clean(name))) for name in fields)


def name_ways(name: str) -> list[tuple[str, ...]]:
    """The ways people write a name, as folded words: in full, dictated, in short, joined, its side first or last."""
    words = tuple(lexeme.text for lexeme in scan(clean(name)))
    if not words:
        return []
    plain = tuple(spoken_numbers().get(word, word) for word in words)  # "creamery 80" for Creamery Eighty
    figured = _figured(words)
    made = (*_spoken(words), *_shortened(words), *_owned(words), *_glued_words(words), *_turned(words))
    made = (*made, *_boned(words))
    return list(dict.fromkeys((words, plain, *figured, *made)))


@lru_cache(maxsize=64)
def _in_figures(fields: tuple[str, ...]) -> frozenset[tuple[str, ...]]:
    """Names told in figures that are so only in one word: "6mile", and no "6 mile"."""
    whole = (tuple(lexeme.text for lexeme in scan(clean(name))) for name in fields)
    return frozenset(way for words in whole if words for way in _figured(words))


def _figured(words: tuple[str, ...]) -> list[tuple[str, ...]]:
    """ "6mile" for Sixmile: a number said as the first part of a word, in figures."""
    for said, figure in spoken_numbers().items():
        rest = words[0].removeprefix(said)
        if rest != words[0] and rest.isalpha() and len(rest) >= LEAST_BEHIND_FIGURE:
            return [(figure, rest, *words[1:])]
    return []


LEAST_BEHIND_FIGURE = 4
"""Letters behind a number in one word of a name from which it is told in figures too (judgement): no "7th"."""


LEAST_BONED = 4
"""Letters from which a word of a name is also written without its vowels (judgement)."""
LEAST_ALONE_BONED = 4
"""Consonants that tell a name of one word (judgement)."""


def _boned(words: tuple[str, ...]) -> list[tuple[str, ...]]:
    """ "lm kiln", "hrn pst" for Lime Kiln, Heron Pasture: words without their vowels, doubled letters once or twice."""
    ways: list[tuple[str, ...]] = [()]
    for word in words:
        short = {consonants(word), bones(word)} if len(word) >= LEAST_BONED and word.isalpha() else set()
        short = {way for way in short if len(way) > 1 and way != word}
        ways = [(*way, other) for way in ways[:MOST_SHORT] for other in (word, *sorted(short))]
    ways = [way for way in ways if way != words]
    if len(words) == 1:
        ways = [way for way in ways if len(way[0]) >= LEAST_ALONE_BONED and not _means_more(way[0])]
    return ways


def _turned(words: tuple[str, ...]) -> list[tuple[str, ...]]:
    """ "chapel north" for North Chapel, "east elevator" for Elevator East."""
    sides = [word in anywhere("direction") and len(word) > 1 for word in words]
    if len(words) != 2 or sum(sides) != 1:
        return []
    return [(words[1], words[0])]


@lru_cache(maxsize=64)
def _names(fields: tuple[str, ...]) -> dict[str, list[tuple[str, ...]]]:
    out: dict[str, list[tuple[str, ...]]] = {}
    for name in fields:
        for way in name_ways(name):
            out.setdefault(way[0], []).append(way)
            if not way[-1].endswith("s") and way[-1].isalpha():
                owning = (*way[:-1], f"{way[-1]}'s")
                out.setdefault(owning[0], []).append(owning)
    for rows in out.values():
        rows.sort(key=len, reverse=True)
    return out


def _owned(words: tuple[str, ...]) -> list[tuple[str, ...]]:
    """ "dutchs corner", "dutches corner" and "dutch corner" for Dutch's Corner."""
    if not any(word.endswith("'s") for word in words):
        return []
    ends = ("s", "es", "")
    return [tuple(word[:-2] + end if word.endswith("'s") else word for word in words) for end in ends]


def _glued_words(words: tuple[str, ...]) -> list[tuple[str, ...]]:
    """ "watertower" for Water Tower."""
    pairs = [n for n in range(len(words) - 1) if words[n].isalpha() and words[n + 1].isalpha()]
    long = [n for n in pairs if len(words[n]) > 2 and len(words[n + 1]) > 2]
    return [(*words[:n], words[n] + words[n + 1], *words[n + 2 :]) for n in long]


@lru_cache(maxsize=64)
def _short_names(fields: tuple[str, ...]) -> dict[str, list[tuple[tuple[str, ...], bool]]]:
    """Words of a name that only it has, longest first, and whether they need a note behind them.

    The first words, when they mean nothing else, need none: "kestrel" for Kestrel Bottom.
    """
    whole = list(dict.fromkeys(tuple(lexeme.text for lexeme in scan(clean(name))) for name in fields))
    had: Counter[tuple[str, ...]] = Counter()
    for words in whole:
        had.update({words[n:m] for n in range(len(words)) for m in range(n + 1, len(words) + 1)})
    begun = Counter(words[:size] for words in whole for size in range(1, len(words) + 1))
    begun_with = Counter("".join(word[0] for word in words) for words in whole)
    found: dict[str, list[tuple[tuple[str, ...], bool]]] = {}
    for words in whole:
        parts = [(n, m) for n in range(len(words)) for m in range(n + 1, len(words) + 1) if m - n < len(words)]
        for n, m in sorted(parts, key=lambda part: part[0] - part[1]):
            short = words[n:m]
            little = m - n == 1 and (len(short[0]) < SHORTEST_ALONE if _means_more(short[0]) else len(short[0]) < 3)
            if m == 1 and not little and begun[short] == 1 and had[short] == 1 and _is_place(short[0]):
                found.setdefault(short[0], []).append((short, True))
            named = n == 0 and m > 1 and begun[short] == 1 and all(map(str.isalpha, short))
            if named and _has_meaning(short[-1]) and not any(_is_little(word) for word in (short[0], short[-1])):
                found.setdefault(short[0], []).append((short, True))  # "slough side" for Slough Side 160
                continue
            led = n > 0 and _has_meaning(short[0]) and not (m - n > 1 and _only_links(short[0]))  # "são bento"
            if little or not all(map(str.isalpha, short)) or _has_meaning(short[-1]) or led:
                continue
            first = n == 0 or (n == 1 and m == len(words) and m > 2 and words[0] in anywhere("farm_word"))
            if first and max(begun[short], had[short] * n) == 1 and not _means_more(short[-1]):
                found.setdefault(short[0], []).append((short, False))
            elif had[short] == 1:
                found.setdefault(short[0], []).append((short, _means_more(short[-1]) or _means_more(short[0])))
        pair = "".join(word[0] for word in words)
        if len(words) == 2 and all(map(str.isalpha, words)) and _is_free(pair) and begun_with[pair] == 1:
            found.setdefault(pair, []).append(((pair,), True))  # "lb too wet to dig" for Long Bottom
        if len(words) == 2 and words[0].isalpha() and words[1].isdigit():
            glued = words[0][0] + words[1]  # "t4" for Talhão 4, "t6" for Tract 6
            found.setdefault(glued, []).append(((glued,), not is_field_word(words[0])))
    return found


@cache
def _before_short() -> frozenset[str]:
    """What a name cut short stands behind: a stop, "and", "at", "is" of a question."""
    manners = ("joint", "shade_joint", "also", "at", "of_name", "opens_question", "asks_first")
    return frozenset(".;,!?&+:").union(*(anywhere(manner) for manner in manners))


SHORTEST_ALONE = 5
"""Letters from which a word of a name that means more may stand for it as if it were the whole (judgement)."""


@lru_cache(maxsize=64)
def _numbers(fields: tuple[str, ...]) -> frozenset[str]:
    """Numbers that are, behind a word for field, the name of one field only: 11 for Talhão 11."""
    names = [tuple(lexeme.text for lexeme in scan(clean(name))) for name in fields]
    ends = Counter(part for words in names for part in words if part.isdigit())
    own = {words[1] for words in names if len(words) == 2 and is_field_word(words[0]) and ends[words[1]] == 1}
    lettered = {words[1] + words[2] for words in names if len(words) == 3 and len(words[2]) == 1 and words[1].isdigit()}
    return frozenset(own | lettered)


@lru_cache(maxsize=64)
def _words_of(fields: tuple[str, ...]) -> frozenset[str]:
    """All words of the crew's names."""
    return frozenset(lexeme.text for name in fields for lexeme in scan(clean(name)) if lexeme.kind == "word")


LONG_NUMBER = 3
"""Figures from which a number alone may be the name of the one field that has it (judgement)."""


@lru_cache(maxsize=64)
def _long_numbers(fields: tuple[str, ...]) -> frozenset[str]:
    """Long numbers that only one field of the crew has: 2207 of Tract 2207."""
    parts = Counter(x.text for name in fields for x in scan(clean(name)) if x.kind == "number")
    return frozenset(part for part, times in parts.items() if times == 1 and len(part) >= LONG_NUMBER)


@lru_cache(maxsize=64)
def _bare_numbers(fields: tuple[str, ...]) -> frozenset[str]:
    """Names that are nothing but a number, or a number and its letter: 12, 31a."""
    names = (tuple(lexeme.text for lexeme in scan(clean(name))) for name in fields)
    return frozenset("".join(words) for words in names if words and only_number(words))


@cache
def _is_little(word: str) -> bool:
    """Is it a little word, or a number, in any language?"""
    types = {entry.type for other in LANGUAGES for entry in table(other).singles.get(word, ())}
    return bool(types & {"LINK", "ABOUT", "NUMBER_WORD", "NOT"}) or len(word) < 3


@cache
def _is_free(letters: str) -> bool:
    """Do two letters stand for no word of a note ("lb" is only a measure)?"""
    types = {entry.type for other in LANGUAGES for entry in table(other).singles.get(letters, ())}
    return types <= {"MEASURE"} and not any(letters in table(other).plain for other in LANGUAGES)


@cache
def _has_meaning(word: str) -> bool:
    """Is it a word of ours in any language?"""
    return any(word in table(other).singles for other in LANGUAGES)


@cache
def _only_links(word: str) -> bool:
    """Is it nothing but a little word, in every language that knows it?"""
    return all(entry.type in ("LINK", "HAD") for other in LANGUAGES for entry in table(other).singles.get(word, ()))


@cache
def _is_place(word: str) -> bool:
    """Is it a word for a place, in any language that knows it, and nothing else of ours?"""
    kinds = {entry.type for other in LANGUAGES for entry in table(other).singles.get(word, ())}
    return kinds == {"SPOT"}


def _ends(piece: Piece) -> bool:
    """Does a sentence or a clause end with it?"""
    return piece.kind in ("break", "line")


@cache
def _means_more(word: str) -> bool:
    """Is it a word of ours, or an everyday one, in any language?"""
    return _has_meaning(word) or any(word in table(other).plain for other in LANGUAGES)
