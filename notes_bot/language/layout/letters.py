"""What makes a mail a letter says nothing of a field: whom it greets, its subject line, who signs it, "P.S.".

Each is left out of the text before anything is read: "Dear planning group,", "Subject: wet week", "Talk tomorrow, /
trainee", "Kind regards, the area agronomist", "P.S.". Only what is short, holds no number and no name of the crew, and
is shaped like such a part; all else stays as written. A line left out leaves its line break.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from notes_bot.language.lexicon.pieces import Cutter
from notes_bot.language.lexicon.scan import fold, scan
from notes_bot.language.lexicon.words import Table, anywhere, table
from notes_bot.language.names.naming import Names
from notes_bot.model import Language

LONGEST_PART = 10
"""Words of the longest salutation or signature (judgement)."""
LONGEST_CLOSING = 6
"""Words of a line before a signature that ends in a comma ("More when I've slept,"; judgement)."""
LONGEST_GREETING = 3
"""Words of the longest phrase that greets, or that begins a closing (judgement)."""
MOST_BEFORE_ROLE = 4
"""Words before what somebody is: "the new extension (agent)" (judgement)."""
LONGEST_NOWHERE = 8
"""Words of the longest phrase for having gone nowhere."""
MOST_AHEAD = 10
"""Words before what says that somebody went nowhere: "and today I really" (judgement)."""
SHORTEST_BODY = 3
"""Words that must be left of a message, or nothing is left out (judgement)."""
_WORD = re.compile(r"[^\W_]+(?:['’.-][^\W\d_]+)*")
_SEGMENT = re.compile(r"(?:[^.!?;\n]|[.!?;](?=\S))+[.!?;]*")
"""A sentence, or what a line holds of it."""
_HEAD = re.compile(r"\s*([^,.:;!\n]+)([,.:;!]+|\n|$)")
_FOUND = frozenset({"NONE", "NOT_LOOKED", "COLOUR", "FEMALES", "PLANTS", "DUG", "TOO_MANY", "STAGE", "NODULES"})
"""Kinds of word that tell of a visit: no part of a letter."""
_TOLD = _FOUND | {
    "MOISTURE",
    "TEXTURE",
    "TOPS",
    "LOOK",
    "SPRAY",
    "RESISTANCE",
    "SOAKED",
    "ROOT",
    "ROOTS",
    "NUMBER_WORD",
}

_DOTTED = frozenset({"p.s", "p.d", "p", "att", "at.te"})
"""Words written with stops of their own."""
_TOLD_BESIDE = (_FOUND - {"DUG", "PLANTS"}) | {
    "TOPS",
    "RESISTANCE",
    "CHEMICAL",
    "SKIP",
    "MUTE",
    "UNDO",
    "HELP",
    "CORRECT",
    "SAME",
}
"""What talk beside notes does not hold ("enough digging" it may)."""
_NO_OPINION = (
    (_FOUND - {"DUG", "PLANTS"})
    | {"LOOK", "WEEKDAY", "TODAY", "CORRECT", "UNDO", "SKIP", "MUTE"}
    | {"CHEMICAL", "SPRAY", "SOURCE", "VARIETY", "EGGS"}
)
"""What a hope or an opinion does not hold."""
_SEEN = frozenset({"PLANTS", "MOISTURE", "TEXTURE"})
"""What talk may hold only where its beginning shows that it is talk ("mind the dry grass")."""


@dataclass(frozen=True, slots=True)
class Part:
    """A sentence, or a line without a stop: where it stands, and its words."""

    start: int
    end: int
    words: tuple[str, ...]
    """Folded."""
    text: str
    begins_line: bool


def without_letter(text: str, language: Language, fields: Sequence[str] = ()) -> str:
    """The text without its salutation, subject line, signature and the mark of a post scriptum.

    Args:
        text: the cleaned text.
        language: the message's language.
        fields: the crew's names; what is like one of them stays.
    """
    letter = _Letter(text, table(language), tuple(fields))
    told = frozenset(_WORD.findall(fold(text)))
    gone = letter.subject()
    if not told.isdisjoint(_marks("letter_greets", "letter_dear")):
        gone += letter.salutation()
    closes = _marks("letter_closes", "letter_farewell", "post_scriptum")
    if not told.isdisjoint(closes) or not told.isdisjoint(_roles()):
        gone += letter.ending()
    if not told.isdisjoint(_marks("heading_report", "heading_span")):
        gone += letter.heading(max((end for start, end, _ in gone if not text[:start].strip()), default=0))
    if not told.isdisjoint(_marks("talk_nowhere")):
        whole = letter.nowhere()
        gone = _apart(gone, whole) + whole  # "Dear all, I have nothing from the fields."
    if not told.isdisjoint(_marks("talk_stands")):
        gone += _apart(letter.stands(), gone)
    if not told.isdisjoint(_marks("talk_begins", "talk_of", "talk_opines")):
        gone += _apart(letter.talk(), gone)
    if not gone:
        return text
    kept = text
    for start, end, instead in sorted(gone, reverse=True):
        kept = kept[:start] + instead + kept[end:]
    return kept if len(_WORD.findall(kept)) >= SHORTEST_BODY else text


def _apart(spans: list[tuple[int, int, str]], gone: list[tuple[int, int, str]]) -> list[tuple[int, int, str]]:
    """Those spans that lie apart from what is gone already."""
    return [span for span in spans if all(span[1] <= start or end <= span[0] for start, end, _ in gone)]


@cache
def _marks(*manners: str) -> frozenset[str]:
    """The last words of the phrases of some manners, one of which is told where such a phrase is."""
    return frozenset(phrase.split(" ")[-1] for manner in manners for phrase in anywhere(manner)) | _DOTTED


@cache
def _roles() -> frozenset[str]:
    """Words for what somebody is, one or several."""
    roles = (word.replace(" - ", "-") for word in anywhere("letter_role"))
    return frozenset(word + end for word in roles for end in ("", "s", "es"))


@cache
def _post_scriptum() -> re.Pattern[str]:
    """ "PS:", "P.S.", "P. D." at the head of a line or sentence."""
    words = "|".join(sorted((r"\.? ?".join(re.escape(c) for c in w) for w in anywhere("post_scriptum")), reverse=True))
    return re.compile(rf"(?:^|(?<=\n)|(?<=[.!?] ))[ \t]*(?:{words})(?:\.:?|:|,| -|(?= ))[ \t]*", re.IGNORECASE)


class _Letter:
    """One message, looked at as a letter."""

    def __init__(self, text: str, made: Table, fields: tuple[str, ...]) -> None:
        self.text = text
        self.made = made
        self.fields = fields

    def subject(self) -> list[tuple[int, int, str]]:
        """ "Subject: wet week", "Re: reminder Gantry" above more: only a field is kept that is told of nowhere else."""
        line, broken, body = self.text.partition("\n")
        label, colon, said = line.partition(":")
        if not (colon and broken and fold(label.strip()) in anywhere("subject_line")):
            return []
        if len(_WORD.findall(body)) < SHORTEST_BODY:
            return []
        whole = (0, len(line), "")
        if not self.fields:
            shown = re.match(r"\s*((?:[A-ZÀ-Ý][\w']*[ ]?)+)", said)
            told = fold(shown[1].strip()) if shown else ""
            return [whole if not told or told in fold(body) else (0, len(line) - len(said), "")]
        named = [name for name in self.fields if _holds(said, name)]
        if not named and re.search(r"\d", said):
            return [(0, len(line) - len(said), "")]
        if not named or any(_holds(body, name) for name in self.fields):
            return [whole]
        longest = max(named, key=len)
        return [(0, len(line), longest if len(named) == 1 or all(n in longest for n in named) else said.strip())]

    def salutation(self) -> list[tuple[int, int, str]]:
        """ "Dear friends of the road less traveled,", "Hello from the river route.", "Estimado equipo:"."""
        start = 0
        first, _, rest = self.text.partition("\n")
        if rest and fold(first.partition(":")[0].strip()) in anywhere("subject_line"):
            start = len(first) + 1
        gone: list[tuple[int, int, str]] = []
        while (end := self._greeted(start, again=bool(gone))) is not None:
            gone.append((start, end, ""))  # "Dear grower, dear desk,"
            start = end
        return gone

    def _greeted(self, start: int, again: bool) -> int | None:
        """Where ends the salutation that begins there; ``None`` for none."""
        found = _HEAD.match(self.text, start)
        if found is None or not (words := _words(found[1])) or len(words) > LONGEST_PART:
            return None
        greeted = 0 if again else _begun(words, "letter_greets")
        addressed = _begun(words, "letter_dear")
        behind = words[max(greeted, addressed) :]
        if not behind or not (greeted or addressed) or self._tells(found.start(1), found.end(1), _FOUND):
            return None
        little = anywhere("letter_joint")
        known = all(word in anywhere("letter_to") or word in little for word in behind)
        shown = _WORD.findall(found[1])[max(greeted, addressed) :]
        place = behind[0] in anywhere("letter_from") and len(behind) > 1 and behind[1] in little
        plain = place and all(word[:1].islower() for word in shown)
        if not (known or plain or (addressed and not found[2].startswith((".", ";")))):
            return None
        return found.end() - found[2].startswith("\n")

    def ending(self) -> list[tuple[int, int, str]]:
        """Who signs, the closing before that, and the mark of what is written below it."""
        marks = [m for m in _post_scriptum().finditer(self.text) if m.start() and _WORD.search(self.text, m.end())]
        gone = [(m.start(), m.end(), "") for m in marks]
        end = marks[0].start() if marks else len(self.text)
        parts = self._parts(end)
        if len(parts) < 2:
            return gone
        last = len(parts) - 1
        signed = self._signed(parts[last])
        closed = False
        if signed is not None:
            gone.append((signed, parts[last].end, ""))
            closed = signed != parts[last].start or _begun(parts[last].words, "letter_closes") > 0
            last -= 1
        elif self._closed_by(parts[last - 1], parts[last]):
            gone.append((parts[last].start, parts[last].end, ""))
            signed = parts[last].start
            last -= 1
        if last and not closed and self._closes(parts[last], signed is not None):
            gone.append((parts[last].start, parts[last].end, ""))
        return gone

    def heading(self, start: int) -> list[tuple[int, int, str]]:
        """ "Resultados de la semana, los mando juntos.", "Informe corto de El Algarrobo:" above notes: no request.

        A field it names is kept; one that tells a day stays as it is.
        """
        found = re.compile(r"\s*([^.:;!?\n]+)([.:;\n])").match(self.text, start)
        below = self.text[found.end() :] if found is not None else ""
        if found is None or not re.search(r"\d", below) or re.search(r"\d", found[1]):
            return []
        words = _words(found[1])
        while words and (greeted := _begun(words, "letter_greets") or (words[0] in anywhere("letter_to"))):
            words = words[int(greeted) :]
        report = any(word in anywhere("heading_report") for word in words) and found[2] == ":"
        span = any(word in anywhere("heading_span") for word in words)
        if not (report or span) or len(words) > LONGEST_PART or not _begun(words, "heading_begins"):
            return []
        if self._kinds(found.start(1), found.end(1)) & (_FOUND | {"TODAY", "WEEKDAY", "MONTH"}):
            return []
        named = [name for name in self.fields if _holds(found[1], name)]
        if len(named) > 1 or (not self.fields and report):
            return []
        return [(found.start(1), found.end() - (found[2] == "\n"), f"{named[0]}:" if named else "")]

    def nowhere(self) -> list[tuple[int, int, str]]:
        """ "I have not been to any field since, the truck is in the shop.": of no field, and so no note.

        Not where it names a field, tells a number, or asks.
        """
        gone: list[tuple[int, int, str]] = []
        parts = self._parts(len(self.text))
        for before, part in zip([None, *parts], parts, strict=False):
            heads = range(min(MOST_AHEAD + 1, len(part.words)))
            first = next((n for n in heads if _begun(part.words[n:], "talk_nowhere", LONGEST_NOWHERE)), None)
            if first is None or not all(word in anywhere("talk_nowhere_ahead") for word in part.words[:first]):
                continue
            if re.search(r"[\d?]", part.text) or any(_holds(part.text, name) for name in self.fields):
                continue
            if before is not None and len(before.words) < LONGEST_CLOSING and self._heads(before):
                continue  # "El Tala. Hoy no salí al campo, llovía."
            shown = [word for word in _WORD.findall(part.text)[1:] if word[:1].isupper() and len(word) > 1]
            known = {"TODAY", "WEEKDAY", "MONTH"}
            if any(
                not self.fields and known.isdisjoint(self._kinds_of(word)) and word[1] not in "'’" for word in shown
            ):
                continue
            if not self._kinds(part.start, part.end) & {"COLOUR", "FEMALES", "PLANTS", "STAGE", "TOO_MANY"}:
                gone.append((part.start, part.end, ""))
        return gone

    def stands(self) -> list[tuple[int, int, str]]:
        """ "The number of white ones is right as it stands.": nothing is told anew, and nothing put right."""
        gone: list[tuple[int, int, str]] = []
        for part in self._parts(len(self.text)):
            said = f" {' '.join(part.words)} "
            stands = any(f" {phrase} " in said for phrase in anywhere("talk_stands"))
            numbered = re.search(r"[\d?]", part.text) or self._kinds(part.start, part.end) & {"NOT", "CORRECT"}
            if stands and not numbered and not any(_holds(part.text, name) for name in self.fields):
                gone.append((part.start, part.end, ""))
        return gone

    def _heads(self, part: Part) -> bool:
        """May a few words be the name of a field, told before what they head?"""
        named = [name for name in self.fields if _holds(part.text, name)]
        if named:
            return len(part.words) <= max(len(_words(name)) for name in named) + 1
        return len(part.words) <= LONGEST_GREETING and not (
            self.fields or _begun(part.words, "letter_greets") or _begun(part.words, "letter_dear")
        )

    def _kinds_of(self, word: str) -> set[str]:
        """What a word may mean on its own."""
        return {entry.type for entry in self.made.singles.get(fold(word), ())}

    def talk(self) -> list[tuple[int, int, str]]:
        """ "My back says that is enough digging for one week.", "I'll ring him about the key." behind what is noted.

        Also what somebody hopes or expected of a field told of: "I hope to do Ridge properly once the fair is over."
        """
        gone: list[tuple[int, int, str]] = []
        parts = self._parts(len(self.text))
        for part in parts[1:]:
            if _begun(part.words, "talk_opines"):
                gone += [(part.start, part.end, "")] if self._opines(part, parts) else []
                continue
            begins = _begun(part.words, "talk_begins")
            spans = (" ".join(part.words[n : n + size]) for n in range(len(part.words)) for size in (2, 3))
            if not begins and not any(said in anywhere("talk_of") for said in spans):
                continue
            if re.search(r"[\d?]", part.text) or any(_holds(part.text, name) for name in self.fields):
                continue
            if self._kinds(part.start, part.end) & (_TOLD_BESIDE if begins else _TOLD_BESIDE | _SEEN):
                continue
            gone.append((part.start, part.end, ""))
        return gone

    def _opines(self, part: Part, parts: list[Part]) -> bool:
        """Does a part tell no number, day, look or finding, and name only fields that others tell of?"""
        named = [name for name in self.fields if _holds(part.text, name)]
        known = all(any(_holds(other.text, name) for other in parts if other is not part) for name in named)
        kinds = self._kinds(part.start, part.end)
        seed = "RESISTANCE" in kinds and not any(word in anywhere("resists") for word in part.words[:LONGEST_CLOSING])
        return known and not seed and not re.search(r"[\d?]", part.text) and not kinds & _NO_OPINION

    def _kinds(self, start: int, end: int) -> set[str]:
        """What the words and phrases of a stretch may mean."""
        cut = Cutter(self.made.language, self.fields).cut(scan(self.text[start:end]))
        return {kind for piece in cut for kind, entry in piece.types.items() if not entry.slip and len(piece.text) > 1}

    def _parts(self, end: int) -> list[Part]:
        """The sentences and lines before a place."""
        found = []
        for match in _SEGMENT.finditer(self.text, 0, end):
            said = match[0]
            start = match.start() + len(said) - len(said.lstrip(" \t,-–—*"))
            words = _words(said)
            if words:
                begins = self.text[:start].rstrip(" \t,-–—*")[-1:] in ("\n", "")
                found.append(Part(start, match.start() + len(said.rstrip()), words, said.strip(), begins))
        return found

    def _signed(self, part: Part) -> int | None:
        """Where the signature begins in a part that ends with one: "Kind regards, the area agronomist"; ``None``."""
        if len(part.words) > LONGEST_PART + LONGEST_CLOSING or ":" in part.text:
            return None
        closing = _begun(part.words, "letter_closes") or _begun(part.words, "letter_farewell")
        spans = [(m.start(), m.end()) for m in _WORD.finditer(self.text, part.start, part.end)]
        commas = [n for n in range(len(spans) - 1) if "," in self.text[spans[n][1] : spans[n + 1][0]]]
        begins = {0} if part.begins_line or len(part.words) <= MOST_BEFORE_ROLE else set()
        if closing:
            begins |= {closing, *(n + 1 for n in commas if n < LONGEST_PART)}
        for first in sorted(begins):
            if first < len(spans) and self._says_role(part, spans, first):
                if self._tells(part.start, part.end, _FOUND):
                    return None
                return part.start
        return None

    def _says_role(self, part: Part, spans: list[tuple[int, int]], first: int) -> bool:
        """Do words from one on say what somebody is: "Extension agent, west counties", "the agronomist on call"?"""
        words = part.words[first:]
        while words and words[0] in anywhere("letter_from"):
            words, first = words[1:], first + 1
        role = next((n for n, word in enumerate(words[: MOST_BEFORE_ROLE + 1]) if word in _roles()), None)
        if role is None or len(words) > LONGEST_PART:
            return False
        before = [word for word in words[:role] if word not in anywhere("letter_joint")]
        strange = [word for word in before if word not in anywhere("letter_of_role")]
        if len(strange) > 1 or any(self.made.singles.get(word) for word in strange):
            return False
        for n in range(role + 1, len(words)):
            between = self.text[spans[first + n - 1][1] : spans[first + n][0]]
            if any(sign in between for sign in ",(/") or words[n] in anywhere("letter_behind_role"):
                return True
            if not (words[n] in _roles() or words[n] in anywhere("letter_of_role")):
                return False
        return True

    def _closes(self, part: Part, signed: bool) -> bool:
        """ "Talk tomorrow,", "See you at the field day." before a signature or at the end, "More when I've slept,"."""
        if self._tells(part.start, part.end, _FOUND | {"TOPS"}) or len(part.words) > LONGEST_PART:
            return False  # "From the road the tops looked healthy."
        if _begun(part.words, "letter_farewell"):
            return True
        courteous = _begun(part.words, "letter_closes")
        if courteous:
            return signed and (courteous == len(part.words) or part.text.endswith(","))
        short = part.begins_line and part.text.endswith(",") and len(part.words) <= LONGEST_CLOSING
        return signed and short and not self._tells(part.start, part.end, _TOLD)

    def _closed_by(self, closing: Part, part: Part) -> bool:
        """Is a line below "Regards," who signs, whatever is said of them: "the west route"?"""
        closed = closing.begins_line and closing.text.endswith(",") and part.begins_line
        courteous = _begun(closing.words, "letter_closes")
        closed = closed and (courteous == len(closing.words) or _begun(closing.words, "letter_farewell") > 0)
        return (
            closed
            and len(part.words) <= LONGEST_CLOSING
            and not self._tells(part.start, part.end, _TOLD)
            and not self._names(part)
        )

    def _tells(self, start: int, end: int, kinds: frozenset[str]) -> bool:
        """Does a stretch hold a number, a word of these kinds, or what is like a field of the crew?"""
        said = self.text[start:end]
        if re.search(r"\d", said) or "?" in said:
            return True
        words = [word for word in _words(said) if len(word) > 1]
        if any(e.type in kinds and not e.slip for word in words for e in self.made.singles.get(word, ())):
            return True
        return any(_holds(said, name) for name in self.fields)

    def _names(self, part: Part) -> bool:
        """Is a part nearly a name of the crew, or short for one?"""
        names = Names(part.text, [], self.made, self.fields)
        return bool(self.fields) and names.like_known(0, len(part.text))


def _words(said: str) -> tuple[str, ...]:
    return tuple(fold(word) for word in _WORD.findall(said))


def _begun(words: tuple[str, ...], manner: str, longest: int = LONGEST_GREETING + 1) -> int:
    """How many words at the head are a phrase of a manner."""
    known = anywhere(manner)
    return next((size for size in range(longest, 0, -1) if " ".join(words[:size]) in known), 0)


def _holds(said: str, name: str) -> bool:
    """Does a name stand in a text, whole?"""
    told = " ".join(_words(name))
    return bool(told) and f" {told} " in f" {' '.join(_words(said))} "
