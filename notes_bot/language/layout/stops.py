"""Notes cut by a sign of the writer's own: "Depot R2/5 pl/6w 9y/dug", "depot + 6 pl + none" are read as with commas."""

from __future__ import annotations

import itertools
import re
from collections import Counter
from dataclasses import dataclass

from notes_bot.language.lexicon.scan import Lexeme, scan
from notes_bot.language.lexicon.words import Table, anywhere

LEAST_SPACED = 3
"""Slashes with blanks around from which a line is cut by them (judgement)."""
LEAST_OWN = 2
"""Other signs with a blank behind that part clauses, from which a text is cut by them (judgement)."""
LEAST_TIGHT = 2
"""Signs that part a count or a stage from what stands beside it, from which a line is cut by them (judgement)."""
LEAST_HYPHENS = 3
"""Hyphens without blanks from which a line is cut by them: words have them too (judgement)."""
LEAST_LISTED = 3
"""Numbers from which a run of them is a list, one a plant (judgement)."""
MANY_TIGHT = 4
"""Signs without blanks from which a line is cut by them, where only one parts a count or a stage (judgement)."""
_STAGE_AND_COUNT = re.compile(r"([vr])(\d{1,2})[/-](\d{1,2})")
_COUNTED = frozenset({"PLANTS", "COLOUR", "FEMALES", "TOTAL", "DUG", "TOOL"})
"""Kinds of word behind a number that say what it counts."""
_SHADED = frozenset({"COLOUR", "FEMALES", "TOTAL"})
"""Those of them that say what was found."""
_UNITS = frozenset({"PLANTS", "FIELD_WORD", "UNIT", "MEASURE", "EACH", "SPOT"})
"""Kinds of word behind a slash that a number is told by: "3 white/plant", "5 pl/fld"."""
_LABELS = frozenset({"PLANTS", "COLOUR", "FEMALES", "TOTAL", "SPOT", "CHECK", "PH", "POTASSIUM"})
"""Kinds of word that a sign leads to a number from: "white = 3"."""
_LEADS = ("=", "-", "~", "->", "=>")
"""Signs between a label and its number."""
_OWN = frozenset("+=~>*_\\&^-:·•")
"""Signs that mean nothing more once they stand again and again between clauses."""
_TIGHT = frozenset("/+~*\\>-")
"""Signs that may part clauses without a blank."""
_TOLD_TWICE = _OWN | _TIGHT
"""Signs that part nothing unless they stand there twice."""
_ANY = re.compile(rf"[{re.escape(''.join(sorted(_OWN)))}/]|\.\.")
_GLUED = frozenset((*"/.-~>+*=_", "->", "=>"))
"""Signs that may be told again and again without a blank."""
_RUN = re.compile(r"(?:\.{2,}|//+|--+|~~+|>>+|\+\++|\*\*+|==+|__+|->|=>|[-=]+>)")


def with_commas(text: str, made: Table, lexemes: list[Lexeme] | None = None) -> str:
    """The text with the signs that part clauses as commas, each other character still where it was.

    ``lexemes``: those of the text, where it was scanned before.
    """
    if not _ANY.search(text) or not (_RUN.search(text) or any(text.count(sign) >= LEAST_OWN for sign in _TOLD_TWICE)):
        return text
    told = list(text)
    for lexeme in _parted(scan(text) if lexemes is None else lexemes, made):
        if lexeme.text == ":":
            told[lexeme.start : lexeme.end] = lexeme.text.ljust(lexeme.end - lexeme.start)
        elif lexeme.text in (",", ";") and text[lexeme.start] not in ",;":
            between = text[lexeme.start - 1].isdigit() and text[lexeme.end : lexeme.end + 1].isdigit()
            stop = ";" if between else lexeme.text  # "4,0" would be a decimal
            told[lexeme.start : lexeme.end] = stop.ljust(lexeme.end - lexeme.start)
    return "".join(told)


def _parted(lexemes: list[Lexeme], made: Table) -> list[Lexeme]:
    """The lexemes with the signs that part clauses as commas."""
    lexemes = _own(_in_runs(_labelled(lexemes, made)), made)
    out: list[Lexeme] = []
    for _, line in itertools.groupby(lexemes, key=lambda lexeme: lexeme.kind == "nl"):
        told = _spaced(list(line))
        texts = {lexeme.text for lexeme in told} | {"/"}  # which also stands within "3/4"
        for sign in sorted(_TIGHT & texts):
            told = _Tight(told, sign, made).read()
        out += told
    return out


def _in_runs(lexemes: list[Lexeme]) -> list[Lexeme]:
    """Signs told again and again without a blank ("//", "..", ">>") as one, where the text has that one twice."""
    runs: list[Lexeme] = []
    for n, lexeme in enumerate(lexemes):
        last = runs[-1] if runs else None
        sign = lexeme.kind in ("sign", "arrow") and lexeme.text in _GLUED
        glued = last is not None and sign and last.kind in ("sign", "run", "arrow") and last.end == lexeme.start
        if last is not None and glued and _RUN.fullmatch(last.text + lexeme.text):
            runs[-1] = Lexeme("run", last.text + lexeme.text, last.start, lexeme.end, last.spaced)
        else:
            parts = lexeme.kind == "arrow" and not _turns_number(lexemes, n)
            runs.append(Lexeme("run", *_rest(lexeme)) if parts else lexeme)
    again = Counter(lexeme.text for lexeme in runs if lexeme.kind == "run")
    if not again or max(again.values()) < LEAST_OWN:
        return _with_double(lexemes, runs)
    return _stopped(runs)


def _turns_number(lexemes: list[Lexeme], n: int) -> bool:
    """ "White 11 -> 16": an arrow from a number to another, and no row of them."""
    kinds = [lexeme.kind for lexeme in lexemes[max(0, n - 2) : n + 3]]
    return n > 1 and kinds[1:4] == ["number", "arrow", "number"] and "arrow" not in (kinds[0], *kinds[4:])


def _rest(lexeme: Lexeme) -> tuple[str, int, int, bool]:
    return lexeme.text, lexeme.start, lexeme.end, lexeme.spaced


def _with_double(lexemes: list[Lexeme], runs: list[Lexeme]) -> list[Lexeme]:
    """ "kestrel/4 pl/3w//tinkers/4 pl/0": one double slash among single ones ends a note."""
    tight = sum(lexeme.text == "/" for lexeme in runs) >= LEAST_TIGHT
    doubles = [lexeme for lexeme in runs if lexeme.kind == "run"]
    if not tight or not doubles or any(lexeme.text != "//" for lexeme in doubles):
        return lexemes
    return _stopped(runs)


def _stopped(runs: list[Lexeme]) -> list[Lexeme]:
    """A comma in the place of each run; a stop for a double slash where single ones part the clauses."""
    single = sum(lexeme.text == "/" for lexeme in runs) >= LEAST_TIGHT
    return [
        Lexeme("sign", ";" if single and run.text[0] == "/" else ",", run.start, run.end, spaced=True)
        if run.kind == "run"
        else run
        for run in runs
    ]


def _labelled(lexemes: list[Lexeme], made: Table) -> list[Lexeme]:
    """ "plants = 6 white = 9 yellow = 3", "pl-6 w-9 y-3": a sign between each label and its number, as a colon."""
    for sign in _LEADS:
        at = [n for n in range(1, len(lexemes) - 1) if lexemes[n].text == sign]
        labels = [n for n in at if _is_label(lexemes, n, made)]
        labels = [n for n in labels if _ends_value(lexemes, n + 2, sign, made)]
        told = set(labels)
        parting = [n for n in at if n not in told and _ends_clause(lexemes, n, made)]
        if not _often_in_a_line(lexemes, labels) or len(parting) >= len(labels):
            continue
        lexemes = [
            Lexeme("sign", ":", lexeme.start, lexeme.end, lexeme.spaced) if n in told else lexeme
            for n, lexeme in enumerate(lexemes)
        ]
    return lexemes


def _ends_value(lexemes: list[Lexeme], n: int, sign: str, made: Table) -> bool:
    """Does no other word count what the number before n tells, but one with a number of its own behind the sign?"""
    if n >= len(lexemes) or not _kinds(lexemes[n], made) & (_COUNTED | {"UNIT", "MEASURE", "EACH"}):
        return True
    return n + 1 < len(lexemes) and lexemes[n + 1].text == sign


def _own(lexemes: list[Lexeme], made: Table) -> list[Lexeme]:
    """ "depot + 6 pl + none + dug", "depot> 6 pl> none": a sign with a blank behind, again and again."""
    out = list(lexemes)
    for sign in sorted(_OWN.intersection([lexeme.text for lexeme in lexemes])):
        at = [n for n in range(1, len(out) - 1) if out[n].text == sign and out[n + 1].spaced]
        at = [n for n in at if out[n].spaced or sign != ":"]
        at = [n for n in at if out[n - 1].kind != "nl" and out[n + 1].kind != "nl"]
        parting = [n for n in at if _ends_clause(out, n, made)]
        labels = [n for n in at if _is_label(out, n, made)]
        told = at if len(at) >= LEAST_SPACED and parting else parting  # "depot + 3 gate 0 2 1 + 3 hill 5 4 0 + .."
        if not _often_in_a_line(out, told) or len(parting) < len(labels):
            continue
        signs = set(at)
        out = [_comma(lexeme) if n in signs else lexeme for n, lexeme in enumerate(out)]
    return out


def _often_in_a_line(lexemes: list[Lexeme], at: list[int]) -> bool:
    """Does some line have the sign several times? "Plants - 5" on a line of a form says what the 5 is."""
    if len(at) < LEAST_OWN:
        return False
    line = list(itertools.accumulate([lexeme.kind == "nl" for lexeme in lexemes]))
    return any(count >= LEAST_OWN for count in Counter(line[n] for n in at).values())


def _ends_clause(line: list[Lexeme], n: int, made: Table) -> bool:
    """Does the sign stand between two clauses: not two numbers, two colors, two stages, a label and its number?"""
    before, after = line[n - 1], line[n + 1]
    if before.kind == after.kind and before.kind in ("number", "stage"):
        return False
    alike = "COLOUR" in _kinds(before, made) and "COLOUR" in _kinds(after, made)
    return not alike and not _is_label(line, n, made)


def _is_label(line: list[Lexeme], n: int, made: Table) -> bool:
    """ "gate 3 = 0/1/0", "white = 3": a list behind it, or a word that says what the number behind it counts."""
    before, after = line[n - 1], line[n + 1]
    if after.kind in ("slashed", "dashed", "series"):
        return True
    if after.kind != "number" or before.kind == "number":
        return False
    own = n > 1 and line[n - 2].kind == "number" and (n < 3 or line[n - 3].text != line[n].text)
    return not own and bool(_kinds(before, made) & _LABELS)


HEAD_WORDS = 4
"""Words before a colon that head what is told behind it (judgement)."""


def _heads(line: list[Lexeme], n: int) -> bool:
    """ "Dealer side: 2 dug, 5 white / customer side: 2 dug, 0": words and a colon behind the slash?"""
    words = list(itertools.takewhile(lambda lexeme: lexeme.kind == "word", line[n : n + HEAD_WORDS + 1]))
    end = n + len(words)
    return 0 < len(words) <= HEAD_WORDS and end < len(line) and line[end].text == ":"


def _nothing_beside(line: list[Lexeme], n: int) -> bool:
    """ "6 wht 2 yel / 0 / 3 wht": a zero alone between two slashes is what one plant had, and no part of a fraction."""
    zero = next((k for k in (n - 1, n + 1) if line[k].text == "0"), None)
    other = None if zero is None else 2 * zero - n
    return other is not None and (other >= len(line) or line[other].text == "/")


def _spaced(line: list[Lexeme]) -> list[Lexeme]:
    """ "tinkers / 6 plts / all w / bkt": slashes with blanks around, several of them."""
    at = [
        n
        for n, (lexeme, after) in enumerate(itertools.pairwise(line))
        if n and lexeme.text == "/" and lexeme.spaced and after.spaced
    ]
    between = [n for n in at if not line[n - 1].kind == line[n + 1].kind == "number" or _nothing_beside(line, n)]
    if at and all(_heads(line, n + 1) for n in at) and any(lexeme.text == ":" for lexeme in line[: at[0]]):
        return [_comma(lexeme) if n in at else lexeme for n, lexeme in enumerate(line)]
    if len(between) < LEAST_SPACED or len(between) < len(at):
        return line
    signs = set(at)
    return [_comma(lexeme) if n in signs else lexeme for n, lexeme in enumerate(line)]


@dataclass(slots=True)
class _Tight:
    """A line looked through for one sign without blanks that parts its clauses: "5 pl/V2-3/shov/none"."""

    line: list[Lexeme]
    sign: str
    made: Table

    def read(self) -> list[Lexeme]:
        """The line with the sign as commas, where several of them part a count or a stage from the rest."""
        if self.sign != "/" and sum(lexeme.text == self.sign for lexeme in self.line) < LEAST_TIGHT:
            return self.line
        least = LEAST_HYPHENS if self.sign == "-" else LEAST_TIGHT
        apart = self._stages_apart()
        whole = self.line
        apart += self._counts_apart()
        line = self.line
        at = [n for n in range(1, len(line) - 1) if self._is_sign(n) and not self._keeps(n)]
        parting = [n for n in at if self._parts(n)]
        least = least if len(parting) + apart >= LEAST_TIGHT else MANY_TIGHT
        if (not parting and not apart) or len(at) + apart < least:
            return whole
        signs = set(at)
        return [_comma(lexeme) if n in signs else lexeme for n, lexeme in enumerate(line)]

    def _counts_apart(self) -> int:
        """ "pl 4/0 seen", "dug 8/12w": a number told by the word before it, no fraction; and how many such."""
        if self.sign != "/":
            return 0
        out: list[Lexeme] = []
        for n, lexeme in enumerate(self.line):
            told = lexeme.kind == "frac" and bool(self._kinds(n - 1) & (_COUNTED | {"EACH"}))
            if not told or not (self._kinds(n + 1) & _SHADED or self._nothing(lexeme, n + 1)):
                out.append(lexeme)
                continue
            middle = lexeme.start + lexeme.text.index("/")
            out.append(Lexeme("number", lexeme.text.split("/")[0], lexeme.start, middle, lexeme.spaced))
            out.append(Lexeme("sign", ",", middle, middle + 1))
            out.append(Lexeme("number", lexeme.text.split("/")[1], middle + 1, lexeme.end, spaced=True))
        apart = (len(out) - len(self.line)) // 2
        self.line = out
        return apart

    def _nothing(self, fraction: Lexeme, n: int) -> bool:
        """Do the second number and the word behind it say that there was nothing: "0 seen"?"""
        if n >= len(self.line):
            return False
        said = self.made.longest([fraction.text.split("/")[-1], self.line[n].text], 0)
        return said is not None and any(entry.type == "NONE" for entry in said[1])

    def _stages_apart(self) -> int:
        """ "R2/5 pl", "V3/6 dug": a stage and the plants behind it, no stage between two; and how many such."""
        hyphens = sum(lexeme.text == "-" and not lexeme.spaced for lexeme in self.line) >= LEAST_TIGHT
        if self.sign not in "/-" or (self.sign == "-" and not hyphens):
            return 0
        line = self.line
        out: list[Lexeme] = []
        for n, lexeme in enumerate(line):
            both = _STAGE_AND_COUNT.fullmatch(lexeme.text) if lexeme.kind == "stage" else None
            if both is None or self.sign not in lexeme.text or not self._counts_behind(n):
                out.append(lexeme)
                continue
            middle = lexeme.start + both.start(3) - 1
            out.append(Lexeme("stage", lexeme.text[: both.start(3) - 1], lexeme.start, middle, lexeme.spaced))
            out.append(Lexeme("sign", ",", middle, middle + 1))
            out.append(Lexeme("number", both.group(3), middle + 1, lexeme.end))
        self.line = out
        return (len(out) - len(line)) // 2

    def _counts_behind(self, n: int) -> bool:
        """Does the second number of a stage like "R3/6" count what stands behind it?"""
        kinds = self._kinds(n + 1)
        letter = self.line[n].text[0]
        first, second = (int(part) for part in re.split(r"[/-]", self.line[n].text[1:]))
        beside = second - first == 1 and second <= (8 if letter == "r" else 20)
        if not beside:
            return bool(kinds & (_COUNTED | {"EACH"})) or (n + 1 < len(self.line) and self._is_sign(n + 1))
        beyond = self.line[n + 2] if n + 2 < len(self.line) else None
        told = beyond is not None and beyond.kind == "number" and not self._kinds(n + 3)
        return bool(kinds & {"PLANTS", "DUG"}) and not told

    def _keeps(self, n: int) -> bool:
        """Does a sign belong to what stands around it: "w/ bucket", "3 white/plant", "w/y", "N/S"?"""
        line = self.line
        before, after = line[n - 1], line[n + 1]
        if self.sign != "/" and (line[n].spaced or after.spaced):
            return True
        counted = n > 1 and (line[n - 2].kind == "number" or self._all_of_a_color(n - 1))
        lone = len(before.text) == 1 and before.kind == "word" and not counted
        if lone and (after.kind != "number" or before.text in self.made.slashed or self.sign != "/" or n < 2):
            return True  # "w/ bucket", "c/ pala"; not "kettle b/6 dug"
        if before.kind == after.kind == "number":
            told = bool(self._kinds(n - 2) & {"PLANTS", "DUG"}) and "COLOUR" in self._kinds(n + 2)
            return self.sign == "/" or not told  # "dug 8-12w"
        beyond = line[n + 2] if n + 2 < len(line) else None
        titled = beyond is not None and beyond.kind in ("number", "word") and not counted
        shared = counted is False and n > 2 and line[n - 2].text in anywhere("share_of") and before.kind == "number"
        if shared and beyond is not None and beyond.kind == "number":
            return False  # "gate 3 of 5/mid 0 of 5"
        found = self.sign == "/" and not counted and self._kinds(n - 1) & {"FEMALES", "COLOUR"}
        if found and "PLANTS" in self._kinds(n + 1) and self._lists(n + 2):
            return True  # "cys/p 3,0,1,0", "w/p=3"
        unit = bool(self._kinds(n + 1) & _UNITS) or self.made.has("place_unit", after.text)
        if unit and (before.kind == "number" or (counted and not titled)):
            labelled = beyond is not None and beyond.kind == "number" and bool(self._kinds(n - 2) & _LABELS)
            return not labelled  # "w 2/pl 4"
        shades = "COLOUR" in self._kinds(n - 1) and "COLOUR" in self._kinds(n + 1)
        return shades and not counted

    def _all_of_a_color(self, n: int) -> bool:
        """ "22 all w/lwr lvs": a color said of all, and no "w/"."""
        said = self.made.shorts.get(self.line[n - 1].text, (self.line[n - 1].text,))[-1]  # "mstly"
        mostly = any(entry.type == "MOSTLY" for entry in self.made.singles.get(said, ()))
        return mostly and "COLOUR" in self._kinds(n)

    def _lists(self, n: int) -> bool:
        """Does a list of numbers begin there, or a sign that leads to what each plant had?"""
        line = self.line
        if n >= len(line) or line[n].text in ("=", ":"):
            return n < len(line)
        if line[n].kind in ("dashed", "series"):
            return True
        numbers = [x for x in line[n : n + 2 * LEAST_LISTED] if x.text != ","]
        return [x.kind for x in numbers[:LEAST_LISTED]] == ["number"] * LEAST_LISTED or line[n].kind == "decimal"

    def _parts(self, n: int) -> bool:
        """Does it part a number, a stage or a word for none from what stands beside it?"""
        line = self.line
        before, after = line[n - 1], line[n + 1]
        if "stage" in (before.kind, after.kind):
            return True
        if n > 1 and line[n - 2].kind == "number" and self._kinds(n - 1) & _COUNTED:
            return True
        if after.kind == "number":
            end = n + 2
            while end < len(line) and line[end].kind == "number":
                end += 1
            return end >= len(line) or self._is_sign(end) or bool(self._kinds(n + 2) & _COUNTED)
        return before.kind == "number" or "NONE" in self._kinds(n + 1)

    def _is_sign(self, n: int) -> bool:
        return self.line[n].text == self.sign

    def _kinds(self, n: int) -> set[str]:
        """What the word at n can be."""
        return _kinds(self.line[n], self.made) if 0 <= n < len(self.line) else set()


def _kinds(lexeme: Lexeme, made: Table) -> set[str]:
    """What a word can be."""
    return {entry.type for entry in made.singles.get(lexeme.text, ())}


def _comma(sign: Lexeme) -> Lexeme:
    """A comma in its place."""
    return Lexeme("sign", ",", sign.start, sign.end, spaced=True)
