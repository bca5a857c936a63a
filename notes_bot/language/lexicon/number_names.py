"""Fields called by a number alone, told from counts: "12 R3, 6 pl 4w" and "dug 5 at 14", but "12 white" and "dug 12".

Such a name ("12", "31B", "40 w" for 40 West) is only looked for at the head of a message, line or sentence, behind a
word that leads to a field (field, at, in, state), or beside another one ("12 and 14 both wet"); never where the number
counts what stands behind it.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import TYPE_CHECKING

from notes_bot.language.lexicon.scan import Lexeme
from notes_bot.language.lexicon.words import Table, anywhere, table
from notes_bot.model import LANGUAGES

if TYPE_CHECKING:
    from notes_bot.language.lexicon.pieces import Piece

COUNTED = frozenset({"COLOUR", "FEMALES", "PLANTS", "EACH", "UNIT", "MEASURE", "TOTAL", "ACRES", "EGGS", "AGO"})
"""What a number before it counts or measures."""
_NOUNS = COUNTED | {"DUG", "TOOL"}
"""What a second number counts, so that the first one may be a name ("12 6 pl")."""
_FOUND = frozenset({"COLOUR", "FEMALES", "NONE", "TOTAL", "TOO_MANY", "LOOK", "PH", "POTASSIUM", "NUMBER_WORD"})
"""Behind these "in 12" and "on 12" tell of plants, days or soil."""
_DAYS = frozenset({"TODAY", "WEEKDAY", "COURTESY", "SAME"})
"""What may stand before the head of a note ("today 12, 6 plants")."""
_ASKED = frozenset({"HISTORY", "PICTURE", "STATE", "MUTE", "RESUME", "SKIP", "UNDO", "DUE", "RENAME", "HOW_MANY"})
"""What is asked of a field named right behind it ("state 12", "mute 14")."""
MOST_AHEAD = 3
"""Pieces before the head of a note that tell only its day or greet (judgement)."""
MOST_JOINED = 6
"""Names of a list of fields told by numbers (judgement)."""


def only_number(words: Sequence[str]) -> bool:
    """Is a name nothing but a number, or a number with a single letter ("12", "twelve", "31a", "40 w")?"""
    return (words[0].isdigit() or _says_number(words[0])) and (
        len(words) == 1 or (len(words) == 2 and len(words[1]) == 1 and words[1].isalpha())
    )


@cache
def _says_number(word: str) -> bool:
    """ "Twelve", "doce": a number as a word of any language."""
    return any(entry.type == "NUMBER_WORD" for other in LANGUAGES for entry in table(other).singles.get(word, ()))


class NumberNames:
    """Tells in one text which numbers of the crew's names are told as names."""

    def __init__(self, made: Table, names: frozenset[str]) -> None:
        self.made = made
        self.names = names
        """The numbers that are names, in figures."""

    def is_name(self, lexemes: list[Lexeme], i: int, size: int, out: list[Piece]) -> bool:
        """Is the number (with its letter) at i a field here, by what stands before and behind?"""
        if size == 2 and not lexemes[i + 1].spaced and not self._kinds(lexemes, i + 1) & COUNTED:
            return True  # "31k": a letter that counts nothing
        end = i + size
        if self._listed(lexemes, i, out) or self._labels(lexemes, end, out, lettered=size > 1):
            return True
        heads = size > 1 and not lexemes[i + 1].spaced and not out  # "31D plants 5", in front of all
        if (self._counts(lexemes, end) and not heads) or self._spelled_on(lexemes, end):
            return False
        if self._does(lexemes, end, out):
            return True
        if self._led(out) or (self._looked_at(out) and self._when(lexemes, end)):
            return not self._field_told(out) or self._told_on(lexemes, end) or end >= len(lexemes)
        if self._heads(out):
            return self._goes_on(lexemes, end, first=not out, lettered=size > 1) and not self._of_note(
                lexemes, end, out
            )
        return self._gone_on(out[-1]) and self._told_on(lexemes, end)

    def _does(self, lexemes: list[Lexeme], end: int, out: list[Piece]) -> bool:
        """ "El 40 sigue lodoso", "o 21 tá murcho", "al 7 le tiraron fungicida": with its article, told of as a field.

        Digging and looking are told of a day as well ("el 7 saqué 5 plantas"), females of a plant ("o 14 tinha 3").
        """
        if not out or not self.made.has("number_article", out[-1].text) or self._number(lexemes, end + 1):
            return False
        before = out[-2] if len(out) > 1 else None
        ends = before is None or before.kind in ("break", "line")
        if not (ends or self._joins(out[-2].text) or self.made.has("opens_note", out[-2].text)):
            return False
        words = [lexeme.text for lexeme in lexemes[end : end + 2]]
        return any(self.made.has("field_does", " ".join(words[:size])) for size in (1, 2))

    def _labels(self, lexemes: list[Lexeme], end: int, out: list[Piece], *, lettered: bool) -> bool:
        """ "31A = 0 on 6 plants, 31B: 4 white", "12 = none": a sign behind it at the head of a clause."""
        signs = ("=", ":") if lettered else ("=",)
        begins = not out or out[-1].kind in ("break", "line")
        return begins and end < len(lexemes) and lexemes[end].text in signs

    def _of_note(self, lexemes: list[Lexeme], end: int, out: list[Piece]) -> bool:
        """Is it more of a note whose field is told: "section 9, 20 plants. 14 had some", a list one a line, "3) 14"?"""
        if not any("FIELD" in piece.types for piece in out):
            return False
        last = out[-1]
        if last.kind == "line":
            alone = end >= len(lexemes) or lexemes[end].kind == "nl"
            return alone and not self._told_on(lexemes, end + 1)
        if last.kind == "break" and last.text.isdigit():
            return not self._told_on(lexemes, end)
        return bool(self._kinds(lexemes, end) & {"HAD", "NONE", "NOT"})

    def _gone_on(self, last: Piece) -> bool:
        """Does a stop, or a word that goes on ("so", "then", "and"), stand before it?"""
        goes = any(self.made.has(way, last.text) for way in ("also", "goes_on", "opens_note", "lettered_lead"))
        return goes or last.kind == "break" or not last.types.keys().isdisjoint({"SAME", "TODAY"})

    def _kinds(self, lexemes: list[Lexeme], i: int) -> set[str]:
        """What the word there may mean, alone."""
        return {entry.type for entry in self.made.singles.get(lexemes[i].text, ())} if i < len(lexemes) else set()

    def _number(self, lexemes: list[Lexeme], i: int) -> bool:
        """Is a number there, in figures or as a word?"""
        return i < len(lexemes) and (
            lexemes[i].kind in ("number", "decimal") or "NUMBER_WORD" in self._kinds(lexemes, i)
        )

    def _counts(self, lexemes: list[Lexeme], end: int) -> bool:
        """ "12 white", "14 days", "12 dug, 3 white", "12 de julio": does the number count what is behind it?"""
        kinds = self._kinds(lexemes, end)
        if end < len(lexemes) and lexemes[end].text in anywhere("at") and self._number(lexemes, end + 1):
            return False  # "12 in 14 days"
        if kinds & COUNTED and end < len(lexemes):
            # "12 pl 6 4w": the plants are the second number's
            led = "PLANTS" in kinds and self._number(lexemes, end + 1) and self._number(lexemes, end + 2)
            return not (led and self._kinds(lexemes, end + 3) & COUNTED)
        if "DUG" in kinds:
            beyond = self._kinds(lexemes, end + 2)
            return not self._number(lexemes, end + 1) or bool(beyond & {"COLOUR", "FEMALES"})
        if "MONTH" in kinds:
            # "12 july", but "12 july 7, dug 6"
            return not self._number(lexemes, end + 1) or bool(self._kinds(lexemes, end + 2) & COUNTED)
        if end < len(lexemes) and self._joins(lexemes[end].text) and self._number(lexemes, end + 1):
            return True  # "12 and 14 white"
        linked = end < len(lexemes) and lexemes[end].text in anywhere("of_word")
        return linked and bool(self._kinds(lexemes, end + 1) & (COUNTED | {"MONTH"}))

    def _spelled_on(self, lexemes: list[Lexeme], end: int) -> bool:
        """ "12-15", "12/3", "12 %", "12+": a sign that makes it part of another number."""
        if end >= len(lexemes):
            return False
        sign = lexemes[end]
        if sign.text == "/" and end + 1 < len(lexemes) and lexemes[end + 1].text == "/":
            return False  # "7C // W9"
        return sign.text in ("%", "/", "+", "x", "=") or (sign.text == "-" and not sign.spaced)

    def _heads(self, out: list[Piece]) -> bool:
        """Does a note begin here: a message, line or sentence, with at most a day or greeting before it?"""
        for n in range(MOST_AHEAD + 1):
            before = out[-1 - n] if n < len(out) else None
            if before is None or before.kind == "line" or (before.kind == "break" and before.value == "hard"):
                return True
            day = before.kind in ("day", "break") or not before.types.keys().isdisjoint(_DAYS)
            if not day or (before.kind == "break" and n == 0 and not self._only_days(out)):
                return False
        return False

    def _only_days(self, out: list[Piece]) -> bool:
        """Is nothing told before but a day or a greeting ("hola, 12: ..")?"""
        return len(out) <= MOST_AHEAD and all(
            p.kind in ("day", "break") or not p.types.keys().isdisjoint(_DAYS) for p in out
        )

    def _led(self, out: list[Piece]) -> bool:
        """ "field 12", "at 14", "state 12", "went to 14": a word before it that leads to a field."""
        if not out:
            return False
        last = out[-1]
        if "FIELD_WORD" in last.types or last.text == "@" or not last.types.keys().isdisjoint(_ASKED):
            return True
        before = out[-2] if len(out) > 1 else None
        if "ABOUT" in last.types:
            return False
        if "CORRECT" in last.types:
            return before is None
        two = " ".join(piece.text for piece in out[-2:])
        if any(self.made.has("leads_number", said) for said in (last.text.split(" ")[-1], last.text, two)):
            return True
        if any(self.made.has(way, said) for way in ("named_at", "at_numbered") for said in (last.text, two)):
            return before is None or before.types.keys().isdisjoint({"LOOK", "PH", "POTASSIUM"})
        way = out[:-1] if last.text in anywhere("nth_article") else out  # "pasé por el 40"
        if way and self.made.has("goal", way[-1].text) and any(self.made.has("gone", p.text) for p in way[-4:-1]):
            return True
        if self.made.has("of_field", last.text) and any(not p.types.keys().isdisjoint(_ASKED) for p in out):
            return True
        found = before is not None and (
            before.kind in ("number", "range") or not before.types.keys().isdisjoint(_FOUND)
        )
        return self.made.has("at", last.text) and not found

    def _looked_at(self, out: list[Piece]) -> bool:
        """ "Recheck 12 in 14 days", "look again at 12 friday": what is to be looked at stands behind."""
        at = bool(out) and self.made.has("at", out[-1].text)
        return any("LOOK" in piece.types for piece in out[-1 - at :][:1])

    def _when(self, lexemes: list[Lexeme], end: int) -> bool:
        """Does a day follow, or "in 14 days"?"""
        led = end < len(lexemes) and lexemes[end].text in anywhere("at")
        dated = end < len(lexemes) and lexemes[end].kind in ("dmy", "iso", "frac")
        return (
            dated or (led and self._number(lexemes, end + 1)) or bool(self._kinds(lexemes, end) & {"WEEKDAY", "TODAY"})
        )

    def _field_told(self, out: list[Piece]) -> bool:
        """Was a field told in this sentence?"""
        for piece in reversed(out):
            if piece.kind == "line" or (piece.kind == "break" and piece.value == "hard"):
                return False
            if "FIELD" in piece.types:
                return True
        return False

    def _goes_on(self, lexemes: list[Lexeme], end: int, *, first: bool, lettered: bool) -> bool:
        """Behind the head of a note: anything but more numbers of a list, which only the first of a message heads.

        "9W. 0, 0, 2": what ends with a letter is no number of a list.
        """
        stop = end < len(lexemes) and lexemes[end].text in (",", ";", ":", "-", ".")
        at = end + stop
        if not self._number(lexemes, at):
            return True
        if self._kinds(lexemes, at + 1) & _NOUNS or (at + 1 < len(lexemes) and lexemes[at + 1].text in anywhere("at")):
            return True
        return first and (not stop or lexemes[end].text == ":" or (lettered and lexemes[end].text in (".", ";")))

    def _told_on(self, lexemes: list[Lexeme], end: int) -> bool:
        """Does surely a note follow: a colon, a stage, a day, plants counted, no look?"""
        stop = end < len(lexemes) and lexemes[end].text in (",", ":", "-")
        at = end + stop
        if at >= len(lexemes):
            return False
        if self._number(lexemes, at):
            return bool(self._kinds(lexemes, at + 1) & {"PLANTS", "DUG"})
        if stop and lexemes[end].text == ":":
            return True
        kinds = self._kinds(lexemes, at)
        dug = "DUG" in kinds and self._number(lexemes, at + 1)
        return lexemes[at].kind == "stage" or dug or bool(kinds & {"NOT_LOOKED", "TODAY", "WEEKDAY"})

    def _listed(self, lexemes: list[Lexeme], i: int, out: list[Piece]) -> bool:
        """ "12 and 14 both too wet", "12, 14 and 31a not looked": numbers joined, all of them names, at a head."""
        back = len(out)
        while back and ("FIELD" in out[back - 1].types or out[back - 1].text == "," or self._joins(out[back - 1].text)):
            back -= 1
        ahead = out[:back]
        if not (self._heads(ahead) if ahead else True) and not self._led(ahead):
            return False
        names, joined, n = sum("FIELD" in piece.types for piece in out[back:]), back < len(out), i
        joined = joined and any(self._joins(piece.text) for piece in out[back:])
        while n < len(lexemes) and names <= MOST_JOINED:
            size = self._named(lexemes, n)
            if not size:
                return False
            names, n = names + 1, n + size
            if n >= len(lexemes) or not (lexemes[n].text == "," or self._joins(lexemes[n].text)):
                break
            joined = joined or self._joins(lexemes[n].text)
            more = n + 1 < len(lexemes) and self._named(lexemes, n + 1)
            if not more:
                break
            n += 1
        return joined and names > 1 and not self._counts(lexemes, n) and not self._number(lexemes, n)

    def _joins(self, text: str) -> bool:
        """ "And", "y", "&"."""
        return text == "&" or self.made.has("and_then", text) or self.made.has("joint", text)

    def _named(self, lexemes: list[Lexeme], n: int) -> int:
        """How many lexemes a number that is a name takes there; 0 for none."""
        pair = [x.text for x in lexemes[n : n + 2]]
        if len(pair) == 2 and not lexemes[n + 1].spaced and "".join(pair) in self.names:
            return 2
        return int(bool(pair) and pair[0] in self.names)
