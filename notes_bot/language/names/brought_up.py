"""Where prose goes on to another field: a sentence that only brings it up, and what another is held against.

"Just climbed out of Quarry, muddy lane. Five plants, none." is another visit; "same as Quarry" is none.
"""

from __future__ import annotations

import itertools
from bisect import bisect_right
from collections.abc import Iterable
from functools import cached_property

from notes_bot.language.lexicon.joining import is_any, linking, number_like
from notes_bot.language.lexicon.pieces import Piece, piece_at
from notes_bot.language.lexicon.words import Table

LONGEST_CLAUSE = 26
"""Pieces of the longest sentence that only brings up another field (judgement)."""
FEWEST_LISTED = 2
"""Counts behind another from which a list tells a look, with no plants named (judgement)."""
_OUTCOME = ("NONE", "NOT_LOOKED", "FEMALES", "TOO_MANY", "COLOUR", "TOTAL")
"""What a look ends with."""
_TOLD_APART = frozenset({*_OUTCOME, "PLANTS", "FIELD", "SAME", "SOAKED", "EGGS", "WEEKDAY"})
"""What is not told in a sentence that only brings up another field."""
_DUG_APART = frozenset({"DUG", "PLANTS", "NOT_LOOKED", "TOOL", "SOAKED"})
"""What tells that another field was dug, or not, where no full stop stands before the words that bring it up."""


class Prose:
    """The sentences of a message around the fields that it names."""

    def __init__(self, pieces: list[Piece], made: Table) -> None:
        self.ps, self.made = pieces, made

    def brought_up_from(self, i: int) -> int:
        """Where the words begin that only bring up the field at an index, another visit told behind; itself for none.

        The clause a sentence begins with, or one between commas.
        """
        begin, clause = self.sentence_from(i), self.clause_from(i)
        if self.brings_up(begin, i):
            return begin
        return clause if begin < clause < i and self.brings_up(clause, i, whole=True) else i

    def brought_up(self, i: int) -> bool:
        """Does its clause only bring up the field at an index, or its sentence?"""
        return self.brought_up_from(i) < i or self.brings_up(self.sentence_from(i), i)

    def brings_up(self, begin: int, i: int, whole: bool = False) -> bool:
        """Do the words around the field at an index only bring it up?

        What was found in the one before was told, and it is told of this one behind; whole, with the plants, where
        no full stop stands before it. Not what another is held against ("same as Quarry").
        """
        far = min(i + LONGEST_CLAUSE + 1, len(self.ps))
        ends = (k for k in range(i, far) if self.ps[k].kind in ("break", "line") or self.ps[k].text == ":")
        end = next(ends, far)
        if end - begin > LONGEST_CLAUSE + 1:
            return False
        told = [*self.ps[begin:i], *self.ps[i + 1 : end]]
        if any(p.text == "?" or self._told_apart(p) for p in told):
            return False
        near = [k for k in range(begin, i) if is_any(self.ps[k], ("NEAR",))]
        if any(not self.made.has("visits_by", f"{self.ps[k - 1].text} {self.ps[k].text}") for k in near):
            return False  # but "told them I'd swing by Quarry"
        if any("TOOL" in p.types and p.types["TOOL"].value != "pulled" for p in told):
            return False  # but "just pulled up to Quarry"
        if self.likened(begin, i, end):
            return False
        before = itertools.takewhile(lambda k: not is_any(self.ps[k], ("FIELD",)), range(begin - 1, -1, -1))
        behind = list(itertools.takewhile(lambda k: not is_any(self.ps[k], ("FIELD",)), range(end, len(self.ps))))
        dug = any(self._tells(self.ps[k], _DUG_APART) for k in behind)
        found = [k for k in behind if self._ends_look(k)]
        listed = sum(number_like(self.ps[k]) for k in found) >= FEWEST_LISTED
        return bool(found) and (dug or listed or not whole) and any(self._ends_look(k) for k in before)

    def likened(self, begin: int, i: int, end: int) -> bool:
        """ "Same as Quarry", "more than at Quarry", "worse than Quarry": is another held against the field at i?"""
        begin, end = max(begin, i - LONGEST_CLAUSE), min(end, i + LONGEST_CLAUSE)
        ahead = [piece for piece in self.ps[begin:i] if not self.made.has("article", piece.text)]
        if ahead and self._same_as(ahead[-1]):
            return True
        ahead = [piece for piece in ahead if not self.made.has("at", piece.text)]
        if ahead and self.made.has("aside_than", ahead[-1].text):
            return True
        said = f" {' '.join(piece.text for piece in self.ps[begin:end])} "
        return any(f" {phrase} " in said for phrase in self.made.traits.get("likened", ()))

    def _same_as(self, piece: Piece) -> bool:
        """ "Same as": not "mismo día", nor "same in (Sumac)"."""
        last = piece.text.rpartition(" ")[2]
        timed = any(entry.type == "UNIT" for entry in self.made.singles.get(last, ()))
        return is_any(piece, ("SAME",)) and not timed and not self.made.has("at", last)

    @staticmethod
    def _tells(piece: Piece, kinds: Iterable[str]) -> bool:
        """Is it a word of these kinds, and no little word ("w" for "with")?"""
        return is_any(piece, kinds) and not linking(piece) and "LINK" not in piece.types

    def _told_apart(self, piece: Piece) -> bool:
        """Does it tell what no sentence tells that only brings up a field? "Pls" without a number is no plants."""
        return self._tells(piece, _TOLD_APART) and "COURTESY" not in piece.types

    def _ends_look(self, k: int) -> bool:
        """What was found, a list of counts ("2, 0, 5"), what a plant had ("had 6"), or "without looking"?"""
        piece = self.ps[k]
        if number_like(piece):
            before = piece_at(self.ps, k - 1 - (k > 0 and self.ps[k - 1].text == ","))
            had = is_any(before, ("HAD",)) and (_ended(piece_at(self.ps, k + 1)) or linking(self.ps[k + 1]))
            return had or (before is not None and number_like(before))
        return self.unlooked(k) or piece.kind == "series" or self._tells(piece, _OUTCOME)

    def unlooked(self, k: int) -> bool:
        """ "(Left) without looking": does a denial of a look begin there?"""
        if self.ps[k].kind != "word" or not self.made.denies(self.ps[k].text):
            return False
        after = piece_at(self.ps, k + 1)
        return is_any(after, ("DUG",)) or (after is not None and self.made.stemmed("look_stem", after.text))

    def visit_behind(self, i: int) -> bool:
        """Is digging told in the rest of a sentence, or that nobody looked, or the latter "there" in the next one?"""
        behind = itertools.takewhile(lambda k: not self.opens(self.ps[k]), range(i, len(self.ps)))
        own = list(itertools.takewhile(lambda k: not is_any(self.ps[k], ("FIELD",)), behind))
        if any(is_any(self.ps[k], ("DUG", "NOT_LOOKED", "TOOL")) and not linking(self.ps[k]) for k in own):
            return True
        end = own[-1] + 2 if own else i + 1
        after = itertools.takewhile(lambda p: not (self.opens(p) or is_any(p, ("FIELD",))), self.ps[end:])
        told = list(after)
        there = any(self.made.has("refers_there", word) for p in told for word in p.text.split(" "))
        return there and any(is_any(p, ("NOT_LOOKED",)) for p in told)

    def sentence_from(self, i: int) -> int:
        """Where the sentence of a piece begins."""
        behind = bisect_right(self._sentences, i) - 1
        return self._sentences[behind]

    @cached_property
    def _sentences(self) -> list[int]:
        """Where sentences begin."""
        return [0, *(k + 1 for k, piece in enumerate(self.ps) if self.opens(piece))]

    def clause_from(self, i: int) -> int:
        """Where the clause of a piece begins, behind a comma or where its sentence does, as far back as one may be."""
        far = max(0, i - LONGEST_CLAUSE)
        while i > far and self.ps[i - 1].kind not in ("line", "break"):
            i -= 1
        return i

    @staticmethod
    def opens(piece: Piece) -> bool:
        """Does a sentence end with it, and the next one begin?"""
        return piece.kind == "line" or (piece.kind == "break" and piece.value == "hard")


def _ended(piece: Piece | None) -> bool:
    """Does a clause, or what a number counts, end there?"""
    return piece is None or piece.kind in ("break", "line", "day", "stage", "sign")
