"""What is asked in words that no phrase of the tables holds: read by its parts.

A clause asks when a word for the deed ("delete", "nag", "push") stands with a word for what it is done to ("note",
"me", a day, a field's name). Each rule needs both, and nothing seen or counted beside them.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from notes_bot.language.lexicon.days import UNIT_DAYS, DayWritten, coming_day, past_day
from notes_bot.language.lexicon.joining import (
    day_words,
    is_any,
    linking,
    number_like,
    number_words,
    stage_words,
    until_days,
)
from notes_bot.language.lexicon.kept import kept
from notes_bot.language.lexicon.scan import fold, scan
from notes_bot.language.lexicon.words import LONGEST_PHRASE, Table, anywhere, heads_of, is_field_word, phrases, table
from notes_bot.language.names.naming import Names, crew_of, written
from notes_bot.language.passes.shares import told_as_share
from notes_bot.language.requests.corrections import never_then
from notes_bot.model import Language

if TYPE_CHECKING:
    from collections.abc import Sequence

    from notes_bot.language.clauses.context import Context
    from notes_bot.language.lexicon.pieces import Piece
    from notes_bot.language.requests.commands.line import Line

LIKENED_BEFORE = 5
"""Words before a picture in which something is likened to it (judgement)."""
PRINTED_BEHIND = 5
"""Words behind a picture in which it is told where it is printed (judgement)."""
LONGEST_CLAUSE = 20
"""Pieces of the longest clause that asks (judgement)."""
NOTE_BEHIND = 120
"""Characters behind a heading in which its note begins (judgement)."""
LONGEST_LINE = 60
"""Pieces of the longest sentence in which a clause that asks is looked for (judgement)."""
OPENING = 5
"""Words of a clause in which the word for the deed is looked for (judgement)."""
SHORT_QUESTION = 4
"""Words of a question beside a field's name that can ask for nothing but how it stands (judgement)."""
LONGEST_BARE = 3
"""Words of "delete harrow": with more, what is deleted must be said (judgement)."""
_NUMERIC = frozenset({"number", "range", "series", "stage", "ratio"})
_SEEN = ("COLOUR", "NONE", "TOO_MANY", "NOT_LOOKED", "RESISTANCE", "PLANTED", "CHEMICAL", "SPRAY", "SOAKED", "EGGS")
"""Words of something seen or done: with one, a clause asks nothing."""
_OTHERWISE = ("CORRECT", "HOW_MANY", "DUE", "DIGEST", "HELP")
"""What asks for something else than how a field stands."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What a clause asks: the kind of command, its arguments, and of which field."""

    kind: str
    args: dict[str, Any] = field(default_factory=dict)
    of: str = "one"
    """one: its own or the one told of before; own: its own, or none; any: its own, the one before, or none."""


_CUES = (
    *(
        "ask_undo",
        "ask_undo_it",
        "undone_for",
        "ask_move",
        "ask_move_it",
        "ask_remind",
        "ask_drop",
        "ask_silence",
        "ask_leave",
        "ask_skip",
    ),
    *("ask_put", "ask_remember", "must_be", "ask_instead", "ask_do", "not_yet"),
    *("ask_see", "ask_state", "asks_for", "asks_politely", "opens_question", "asks_first", "which_word"),
)
"""What a clause that asks holds, unless it ends in a question mark."""


@cache
def _cue_words(language: Language) -> frozenset[str]:
    """First words of everything that may be a cue."""
    traits = table(language).traits
    skips = (said.split(" ")[0] for said in _ends_skip(table(language)))
    cues = (said.split(" ")[0] for cue in _CUES for said in traits.get(cue, ()))
    return frozenset((*skips, *cues))


@cache
def _pairs(language: Language) -> tuple[tuple[frozenset[str], frozenset[str]], ...]:
    """First words of what asks only beside another word: leaving out and "this time", a summary and the day."""
    traits = table(language).traits
    return tuple(
        (
            frozenset(said.split(" ")[0] for said in traits.get(one, ())),
            frozenset(said.split(" ")[0] for said in traits.get(other, ())),
        )
        for one, other in (("skips_it", "this_time"), ("asks_digest", "whole_day"))
    )


def _of_place(piece: Piece) -> bool:
    """A field's name, or a phrase for a place in a field ("curva de nível"): its words ask nothing."""
    return "FIELD" in piece.types or (piece.types.keys() == {"SPOT"} and " " in piece.text)


def _holds_phrase(line: Line) -> bool:
    """A quick look for a phrase that can ask nothing else, before the clause is taken apart."""
    words = [w for p in line.ps if p.kind == "word" and not _of_place(p) for w in p.text.split(" ")]
    wants = _wants(line.made.language)
    for n, word in enumerate(words):
        for phrase, _, _ in wants.get(word, ()):
            if tuple(words[n : n + len(phrase)]) == phrase:
                return True
    said = set(words)
    return any(not said.isdisjoint(one) and not said.isdisjoint(other) for one, other in _pairs(line.made.language))


def may_ask(line: Line) -> bool:
    """A quick look for a cue, before the clause is taken apart."""
    cues = _cue_words(line.made.language)
    cued = line.asked or any(word in cues for p in line.ps for word in p.text.split(" "))
    return cued or _holds_phrase(line)


def may_say(line: Line, *traits: str) -> bool:
    """Can a phrase of one of these manners stand in the line? A quick look before it is taken apart."""
    return not line.vocabulary.isdisjoint(heads_of(line.made.language, traits))


def opens_with(line: Line, trait: str) -> bool:
    """Do the very first words make a word or phrase of this manner?"""
    words = [word for p in line.ps[:LONGEST_PHRASE] for word in p.text.split(" ")][:LONGEST_PHRASE]
    return any(line.made.has(trait, " ".join(words[:size])) for size in range(1, len(words) + 1))


def cues(piece: Piece, made: Table) -> bool:
    """Does a word for asking begin there?"""
    return piece.text.split(" ")[0] in _cue_words(made.language)


_WANTED = {
    "history": Asked("history"),
    "picture": Asked("picture"),
    "state": Asked("state"),
    "skip": Asked("move", {"skip": True}),
    "mute": Asked("mute", of="any"),
    "resume": Asked("resume", of="any"),
    "undo": Asked("take_back", of="own"),
    "due": Asked("due", of="own"),
    "digest": Asked("digest", of="own"),
    "help": Asked("help", of="own"),
}
"""What a phrase that can ask nothing else asks for, by its kind."""
_PHRASES = (
    *(("history", "wants_history", False), ("history", "bare_history", True)),
    *(("picture", "wants_picture", False), ("picture", "bare_picture", True)),
    *(("state", "wants_state", False), ("state", "bare_state", True)),
    *(("mute", "wants_mute", False), ("mute", "bare_mute", True)),
    *(("resume", "wants_resume", False), ("resume", "bare_resume", True)),
    *(("due", "wants_due", False), ("due", "bare_due", True)),
    *(("help", "wants_help", False), ("help", "bare_help", True)),
    *(("undo", "wants_undo", False), ("undo", "bare_undo", True)),
    *(("digest", "wants_digest", False), ("skip", "bare_skip", True)),
)
"""The kind of the phrases of each manner, and whether they ask only where nothing else is said."""
_OF_NO_FIELD = frozenset({"due", "digest", "help"})
_LOOKED = ("DUG", "TOOL", "ROOTS", "TOPS", "MOISTURE", "TEXTURE", "PH", "POTASSIUM", "FEMALES")
"""Words of a visit that was made: with one, no field is left out of a round."""
MOST_ASIDE = 40
"""Characters said around "daily report pls"; with more it is a heading (judgement)."""


@cache
def _wants(language: Language) -> dict[str, list[tuple[tuple[str, ...], str, bool]]]:
    """Phrases that ask, by their first word, the longest first: their words, the kind, and whether they are bare."""
    return kept(f"asking_{language}.pickle", lambda: _wants_made(language))


def _wants_made(language: Language) -> dict[str, list[tuple[tuple[str, ...], str, bool]]]:
    out: dict[str, list[tuple[tuple[str, ...], str, bool]]] = {}
    shorts = table(language).shorts
    for kind, trait, bare in _PHRASES:
        for said in table(language).traits.get(trait, ()):
            words = tuple(said.split(" "))
            ways = [words]
            if not shorts.keys().isdisjoint(words):
                ways.append(tuple(part for word in words for part in shorts.get(word, (word,))))
            for phrase in dict.fromkeys(ways):
                out.setdefault(phrase[0], []).append((phrase, kind, bare))
    return {word: sorted(rows, key=lambda row: -len(row[0])) for word, rows in out.items()}


class Parts:
    """One clause and the words in it that may ask."""

    def __init__(self, line: Line) -> None:
        self.line, self.made, self.ps = line, line.made, line.ps
        own = _leading_capitals(line) or _leading_short(line)
        said = [
            (word, n)
            for n, p in enumerate(self.ps)
            if p.kind == "word" and n >= own and not _of_place(p)
            for word in p.text.split(" ")
        ]
        self.words = [word for word, _ in said]
        self.at = [n for _, n in said]
        """The piece each of the words is of."""
        self.text = f" {' '.join(self.words)} "
        self.said = phrases(self.words)
        self.opening = phrases(self.words[:OPENING])
        self.named = any("FIELD" in p.types for p in self.ps)
        self.numbered = any(
            p.kind in _NUMERIC or ("NUMBER_WORD" in p.types and not self.made.has("careful", p.text))
            for p in self.ps[own:]
        )
        start = 0
        while start + 1 < len(self.words) and self._filler(self.words[start]):
            start += 1
        asides = self.made.traits.get("ask_aside", ())
        for size in range(LONGEST_PHRASE, 0, -1):
            if " ".join(self.words[start : start + size]) in asides:
                start += size  # "while im at it what was .."
                break
        own_start = self.words[start : start + LONGEST_PHRASE]
        self.start = {" ".join(own_start[:size]) for size in range(1, len(own_start) + 1)}

    def says(self, *traits: str) -> bool:
        """Is a word or phrase of one of these manners anywhere in the clause?"""
        return any(not self.said.isdisjoint(self.made.traits.get(trait, ())) for trait in traits)

    def opens(self, *traits: str) -> bool:
        """Is one among its first words?"""
        return any(not self.opening.isdisjoint(self.made.traits.get(trait, ())) for trait in traits)

    def begins(self, *traits: str) -> bool:
        """Does the clause begin with one, "also" and "please" aside?"""
        return any(not self.start.isdisjoint(self.made.traits.get(trait, ())) for trait in traits)

    def _filler(self, word: str) -> bool:
        little = word in anywhere("also") or word in anywhere("please") or word in anywhere("name_article")
        return little or self.made.has("then_word", word)

    def stems(self, trait: str) -> bool:
        """Does a word of the clause begin like one of this manner?"""
        return any(self.made.stemmed(trait, word) for word in self.words)

    def asked(self) -> Asked | None:
        """What the clause asks, the more particular first."""
        if not self.words or len(self.ps) > LONGEST_CLAUSE or self.says("knew_not"):
            return None  # "they asked me about the history and i didn't know"
        if (found := self.wanted()) is not None:
            return found
        rules = (self._undone, self._moved, self._reminded, self._skipped, self._shown, self._listed, self._summed)
        return next((found for rule in rules if (found := rule()) is not None), None) or self._wondered()

    def silent_until(self) -> Asked | None:
        """ "Don't remind me of kestrel until friday", "no me avises por 3 días": reminders put off, and not ended."""
        denied = self.says("ask_stop") or any(self.made.denies(word) for word in self.words)
        if not denied or not self.says("ask_remind") or not self.says("until") or self._seen("NOT_LOOKED"):
            return None
        return self.put_to() if name_in(self.line) is not None else None

    def wanted(self) -> Asked | None:
        """ "Catch me up on dry creek", "santa rita, visitas passadas", "who's up next": a phrase that only asks."""
        if not self.words or len(self.ps) > LONGEST_CLAUSE or not _holds_phrase(self.line):
            return None
        if self.says("asks_digest") and name_in(self.line) is None and self._sums_day():
            return _WANTED["digest"]
        if self.says("skips_it") and self.says("this_time"):  # "let old mill go this time"
            bare = name_in(self.line) is None
            if self._asks_alone("skip", bare, self._of("skips_it", "this_time")):
                return _WANTED["skip"]
        wants = _wants(self.made.language)
        met = [
            (bare, kind, range(n, n + len(phrase)))
            for n, word in enumerate(self.words)
            for phrase, kind, bare in wants.get(word, ())
            if tuple(self.words[n : n + len(phrase)]) == phrase
        ]
        for bare, kind, spoken in sorted(met, key=lambda row: row[0]):  # what is bare comes last
            if kind == "history" and self.takes_back():
                continue  # "forget what i sent for kestrel"
            if (kind == "picture" and self.says("made_it")) or (kind == "history" and self.says("for_the_record")):
                continue  # "i made a little bar chart", "for the log please keep that one"
            if self._asks_alone(kind, bare, spoken):
                return _WANTED[kind]
        return None

    def _sums_day(self) -> bool:
        """ "Sum up today", "o que rolou hoje", "the rundown for all fields"."""
        if not (self.says("asks_digest") and self.says("whole_day")):
            return False
        return self._asks_alone("digest", not self.begins("asks_digest"), self._of("asks_digest", "whole_day"))

    def _of(self, *traits: str) -> list[int]:
        """Which of the words are of phrases of these manners."""
        runs = [
            range(n, n + size)
            for size in range(1, LONGEST_PHRASE + 1)
            for n in range(len(self.words) - size + 1)
            if any(self.made.has(trait, " ".join(self.words[n : n + size])) for trait in traits)
        ]
        return sorted({n for run in runs for n in run})

    def _asks_alone(self, kind: str, bare: bool, spoken: Sequence[int]) -> bool:
        """Is nothing told beside the phrase that asks, and, where it is bare, nothing else said at all?"""
        of_phrase = {self.at[n] for n in spoken}
        rest = [p for n, p in enumerate(self.ps) if n not in of_phrase and "FIELD" not in p.types]
        if kind == "history" and any("NOT_LOOKED" in self.ps[n].types for n in of_phrase):
            return False  # "visitas canceladas"
        if kind == "skip" and any("SOAKED" in self.ps[n].types for n in of_phrase):
            return False  # "dessa vez não lavei as raízes"
        kinds = (*_SEEN, *_LOOKED) if kind == "skip" else _SEEN
        told = [p for p in rest if is_any(p, kinds) and not linking(p) and not (len(p.text) == 1 and "LINK" in p.types)]
        if kind == "due":
            told = [p for p in told if "NOT_LOOKED" not in p.types]  # "who's up next for digging"
        if told or any(p.kind in _NUMERIC for p in rest):
            return False
        if (kind in _OF_NO_FIELD and self.named) or (kind == "help" and any("TOPIC" in p.types for p in rest)):
            return False
        looked_for = self.opens if self.made.language == "en" else self.begins  # "da" of a name is no "dá"
        if kind not in ("help", "skip") and (self.line.asked or looked_for("ask_see", "asks_for", "asks_politely")):
            return True
        lone = kind in _OF_NO_FIELD or name_in(self.line) is None
        if (kind == "digest" or (bare and lone)) and self._heads():
            return False
        return not bare or all(self._little(p) for p in rest)

    def _heads(self) -> bool:
        """ "Weekly roundup, friends. Church Road R4, ..": does it stand in a message that tells more?"""
        text = self.line.context.text
        others = (text[: self.ps[0].start] + text[self.ps[-1].end :]).strip()
        return len(others) > MOST_ASIDE or "\n" in others or any(char.isdigit() for char in others)

    def _little(self, piece: Piece) -> bool:
        """A word that adds nothing to what is asked: "pls", "on", "the", "for me"."""
        little = piece.kind != "word" or linking(piece) or is_any(piece, ("COURTESY", "TODAY", "FIELD_WORD"))
        return little or all(self._filler(word) or self.made.has("around_name", word) for word in piece.text.split(" "))

    def _seen(self, *but: str) -> bool:
        """Is something seen or done told?"""
        kinds = [kind for kind in _SEEN if kind not in but]
        told = [p for p in self.ps if "FIELD" not in p.types and not (len(p.text) == 1 and "LINK" in p.types)]
        return any(is_any(p, kinds) and not linking(p) for p in told)

    def _undone(self) -> Asked | None:
        """ "Throw away my other note on Pump House", "lo del tajamar anulalo", "delete harrow"."""
        if self.begins("before_forgetting") or self.says("undo_told"):
            return None  # "the digest please, before I forget what week it is", "I forget what I sent"
        if self.says("ask_drop"):
            return Asked("mute")  # "tira a sede velha da minha lista"
        if self._taken_out() or (self.takes_back() and name_in(self.line) is not None):
            return Asked("take_back", of="own")
        if self._undone_for():
            return Asked("take_back", of="own")
        closes = bool(self.words) and self.made.has("ask_undo_it", self.words[-1])
        if self.numbered or not (self.opens("ask_undo", "ask_undo_it") or closes) or self._seen("SOAKED"):
            return None
        thing = self.stems("ask_record") or self.says("wrote", "ask_last", "ask_undo_it")
        if self.says("ask_for_now"):
            return None
        if not thing and self.says("ask_remind"):
            return None  # "throw out kestrel reminders"
        bare = len(self.words) <= LONGEST_BARE and self.begins("ask_undo") and name_in(self.line) is not None
        return Asked("take_back", of="own") if thing or bare else None

    def _undone_for(self) -> bool:
        """ "My colleague wants his note on Kestrel taken back": a wish that a note of a field be undone."""
        wished = self.says("undone_for") and self.says("wants_done") and self.stems("ask_record")
        denied = self.line.asked or any(self.made.denies(word) for word in self.words)
        return bool(wished) and not denied and name_in(self.line) is not None and not self._seen()

    def takes_back(self) -> bool:
        """ "Don't use what i sent on dry creek, i dug in the wrong field": a word for it, and what was sent behind."""
        told = self.numbered or self.says("undo_told")
        return self.begins("ask_undo") and not told and self.says("wrote", "what_i_sent")

    def _taken_out(self) -> bool:
        """ "Can you take my last Pump House entry out": a verb, what was sent, and behind it "out"."""
        verb = next((n for n, word in enumerate(self.words[:OPENING]) if self.made.has("ask_take", word)), None)
        if verb is None or self.numbered or self._seen("SOAKED") or self.says("ask_out"):
            return False
        noted = next((n for n, word in enumerate(self.words) if self.made.stemmed("ask_record", word)), 0)
        return noted > verb and any(self.made.has("ask_away", word) for word in self.words[noted + 1 :])

    def _reminded(self) -> Asked | None:
        """ "Dont bug me on it anymore", "u can nag me about quarry east again", "silenciá molino norte"."""
        if self.numbered or self._seen("NOT_LOOKED"):
            return None
        if self.says("ask_drop"):
            return Asked("mute")
        dated = any(p.kind == "day" or is_any(p, ("WEEKDAY",)) for p in self.ps)
        if self.says("ask_back_on") and not self.says("came_back") and (not dated or self.says("ask_remind")):
            return Asked("resume")  # "back on saturday" is a day to come
        if not self.says("ask_remind"):
            return Asked("mute") if self.opens("ask_silence") and name_in(self.line) is not None else None
        if self.says("ask_stop") or any(self.made.denies(word) for word in self.words):
            return Asked("mute", of="any")
        if dated and not self.named:
            return None  # "couldn't get to Kestrel, remind me again tuesday"
        return Asked("resume", of="any") if self.says("ask_start") or self.stems("ask_start_stem") else None

    def _skipped(self) -> Asked | None:
        """ "Leave Bluebird out of this round", "la loma salteala esta vez"."""
        left = self.opens("ask_leave") and self.says("ask_out")
        left = left or (self.begins("ask_undo") and self.says("ask_for_now"))  # "forget cutoff for now"
        if (
            self.numbered
            or not (left or self.opens("ask_skip") or self.text.endswith(_ends_skip(self.made)))
            or self._seen("NOT_LOOKED")
            or any(
                is_any(p, ("NOT_LOOKED",)) and self.made.has_any("skip_word", p.text.split(" ")) for p in self.ps
            )  # "had to skip it"
        ):
            return None
        told = name_in(self.line) is not None or (left and self.says("ask_it"))  # "leave it out this round"
        return Asked("move", {"skip": True}) if told else None

    def _moved(self) -> Asked | None:
        """ "Push it 5 days", "el recordatorio de los eucaliptos pasalo al viernes", "varzea adia 1 semana"."""
        # In Spanish and Portuguese "pasa" also tells of others: it asks only where it begins, or of a reminder.
        verb = (
            self.opens("ask_move_it")
            or self.begins("ask_move")
            or (self.made.language == "en" and self.opens("ask_move"))
        )
        verb = verb or (self.says("ask_move") and (self.says("ask_remind") or self.opens("asks_politely")))
        verb = verb or self._another_day()
        put = self.begins("ask_put") or (self.opens("asks_politely") and self.says("ask_put"))
        verb = verb or put or self.says("ask_remember")
        if not verb and not (self.says("ask_reminder") and name_in(self.line) is not None):
            return None
        aimed = self.says("ask_remind", "ask_it", "ask_move_it") or name_in(self.line) is not None
        return None if self._seen() or not aimed else self.put_to()

    def put_to(self) -> Asked | None:
        """The one day to come or span of days it names: "5 more days", "to 7-22", "next week"."""
        named = self.says("ask_remember", "ask_instead", "must_be") or self.opens("asks_politely")
        if told_as_share(self.ps, self.made) or (not named and never_then(self.words, self.made)):
            return None
        ps = [p for p in self.ps if not self.made.has("more_days", p.text)]  # "5 more days"
        ps = _dashed(day_words(number_words(stage_words(until_days(ps, self.made), self.made), self.made), self.made))
        days = [p for p in ps if p.kind == "day"]
        spans = [
            int(p.value * UNIT_DAYS[q.types["UNIT"].value])
            for p, q in pairwise(ps)
            if p.kind == "number" and "UNIT" in q.types and q.types["UNIT"].value in UNIT_DAYS
        ]
        others = sum(p.kind in _NUMERIC for p in ps)
        one = [(p, q) for p, q in pairwise(ps) if is_any(p, ("WHICH",)) or self.made.has("another_one", p.text)]
        coming = [q.types["UNIT"].value for _, q in one if "UNIT" in q.types]
        if len(coming) == 1 and not days and not others and coming[0] in UNIT_DAYS:
            return Asked("move", {"days": UNIT_DAYS[coming[0]]})  # "can you put kestrel on for next week"
        if len(days) == 1 and not others:
            context = self.line.context
            found = coming_day(days[0].value, context.sent, context.language, context.day_first)
            return Asked("move", {"date": found.day}) if found.day is not None else None
        return Asked("move", {"days": spans[0]}) if len(spans) == others == 1 and not days else None

    def _another_day(self) -> bool:
        """ "Can we do dry creek on the 16th instead", "kestrel will have to be friday": a field and a day to come."""
        planned = name_in(self.line) is not None and (
            self.begins("ask_do") or self.says("ask_instead", "asks_politely", "must_be")
        )
        if (
            not planned
            or self.says("likened")
            or any("TODAY" in p.types and p.types["TODAY"].value == "0" for p in self.ps)
        ):
            return False
        said = {self.ps[self.at[n]].start for n in self._of("ask_instead", "ask_do", "must_be")}
        day = ("FIELD", "WEEKDAY", "MONTH", "UNIT", "WHICH")
        rest = [p for p in until_days(self.ps, self.made) if p.start not in said and not is_any(p, day)]
        return (self.says("ask_instead") and self.opens("ask_do")) or all(self._little(p) for p in rest)

    def _shown(self) -> Asked | None:
        """ "Mossy Ford, let me see the graph", "whats the history there", "preciso rever tudo o que registramos"."""
        if self.begins("ask_when_did") and name_in(self.line) is not None and not self.numbered:
            return Asked("history")  # "when did we spray upper bend"
        if (
            self.numbered
            or self._seen()
            or self.says("took_it", "made_it", "for_the_record")
            or self.begins("ask_mine")
        ):
            return None
        if not self.line.asked and self.says("likened"):
            return None  # "seems like less than last time"
        asks = self.line.asked or self.opens("ask_see", "asks_for", "asks_politely")
        if not asks and not self.begins("opens_question", "asks_first", "ask_state") and not self.says("ask_past"):
            return None
        if self.stems("ask_picture") or (self.named and any("PICTURE" in p.types for p in self.ps)):
            return Asked("picture")
        return Asked("history") if self.past() else None

    def past(self) -> bool:
        """Is it asked what was found before ("what did i find at ..", "when i was last in ..")?"""
        if any("HISTORY" in p.types and " " in p.text for p in self.ps) or self.says("ask_past"):
            return True
        told = self.stems("noted_stem") or self.says("wrote", "ask_found")
        if self.says("so_far") and (self.opens("ask_see", "asks_for") or self.begins("which_word")):
            return True  # "show me how bus stop has done all season"
        return self.stems("ask_history") or (told and (self.says("whole_word") or self.begins("which_word")))

    def _listed(self) -> Asked | None:
        """ "Decime también qué lotes me faltan esta semana", "whats due tmrw"."""
        wanted = self.opens("ask_due") or (self.line.asked and self.says("ask_due"))  # not "saw cysts on whats left"
        if not self.named and not self.numbered and wanted and not self._seen("NOT_LOOKED"):
            return Asked("due", of="own")
        asks = self.line.asked or self.opens("asks_for", "asks_politely", "which_word")
        listed = any("DUE" in p.types and " " in p.text for p in self.ps)
        if listed and not self.named and not self.numbered and (self.line.asked or self.begins("which_word")):
            return Asked("due", of="own")  # "whats on my list for tomorrow"
        asked_for = self.begins("which_word") and any(self.made.stemmed("fields_stem", w) for w in self.words[1:3])
        if asked_for and not self.named and not self.numbered and self.says("not_yet"):
            return Asked("due", of="own")  # "which fields haven't been checked"
        which = self.says("which_word") and self.stems("due_stem")
        fields = self.stems("fields_stem") or any(is_any(p, ("TODAY", "WEEKDAY")) for p in self.ps)
        if self.named or self.numbered or not (asks and which and fields) or self._seen("NOT_LOOKED"):
            return None
        if not self.line.asked and any(is_any(p, ("DUG",)) for p in self.ps):
            return None  # "Sinkhole, which I looked at Monday."
        return Asked("due", of="own")

    def _summed(self) -> Asked | None:
        """ "I would also like the summary for the week", "me manda um resumão do que vimos"."""
        asks = self.line.asked or self.opens("ask_see", "asks_for", "asks_politely") or self._only_digest()
        if (
            self.named
            or self.numbered
            or not asks
            or not (self.stems("ask_digest") or self.says("ask_digest"))
            or self._seen()
        ):
            return None
        return Asked("digest", of="own")

    def _only_digest(self) -> bool:
        """ "Digest for the week" as the last words of a message: nothing but what is wanted, and of which days."""
        last = not self.line.context.text[self.line.end :].strip(" .!?\n")
        spans = ("digest_week", "span_season", "span_day")
        little = all(linking(p) or is_any(p, ("DIGEST", "TODAY", "COURTESY", "UNIT")) for p in self.ps)
        return last and is_any(self.ps[0], ("DIGEST",)) and (little or (len(self.words) <= SHORT and self.says(*spans)))

    def _wondered(self) -> Asked | None:
        """ "Whats schoolhouse looking like", "me diz do t4 tb", "quiero saber en qué situación está Doña Elvira"."""
        opens = "FIELD" not in self.ps[0].types  # not "Lower Bench was visited 6/4"
        if (
            opens
            and self.begins("is_word")
            and self.stems("due_stem")
            and name_in(self.line) is not None
            and not self.numbered
        ):
            return Asked("state")  # "is mule barn due yet"
        if self.numbered or self._seen() or any(p.kind == "day" or is_any(p, _OTHERWISE) for p in self.ps):
            return None
        if self.says("no_state") and not self.named:
            return None  # ".. one fence between. how's that work"
        if not self.says("ask_it", "ask_there") and name_in(self.line) is None:
            return None
        if self.line.asked and len(self.words) <= SHORT_QUESTION and name_in(self.line) is not None:
            return Asked("state")  # "pump corner looks ok?"
        if self.begins("ask_state", "ask_how_it") or (self.line.asked and self.begins("ask_how")):
            return Asked("history" if self.says("so_far") else "state")
        if self.opens("asks_for", "asks_politely") and self.says("ask_state"):
            return Asked("state")
        return None


def _dashed(ps: list[Piece]) -> list[Piece]:
    """ "Set the reminder to 7-22": two numbers behind "to", and no unit behind them, are a day."""
    out = list(ps)
    for n, piece in enumerate(ps):
        led = piece.kind == "range" and "-" in piece.text and n > 0 and linking(ps[n - 1])
        if led and not (n + 1 < len(ps) and is_any(ps[n + 1], ("UNIT",))):
            first, second = piece.value
            out[n] = replace(piece, kind="day", value=DayWritten(piece.text, first=int(first), second=int(second)))
    return out


def surely(line: Line) -> bool:
    """Read a sentence with a phrase that asks and can ask nothing else, before its first word is looked at."""
    return len(line.ps) <= LONGEST_LINE and _holds_phrase(line) and asked(line, sure=True)


def asked(line: Line, named: Piece | None = None, before: tuple[list[Piece], ...] = (), sure: bool = False) -> bool:
    """Read a clause, or a sentence of which one clause asks and the others only say why, as a request.

    Args:
        line: the sentence.
        named: the field told of before it, which "it" and "there" mean.
        before: what stands before it, to look for such a field where none of the crew's was met.
        sure: only a phrase that can ask nothing else counts.
    """
    if asks_others(line):
        return False
    clauses = cut(line) if len(line.ps) <= LONGEST_LINE else []
    for n, clause in enumerate(clauses):
        part = line_of(line, clause)
        parts = parts_of(part) if may_ask(part) else None
        found = None if parts is None else parts.wanted() if sure else parts.asked()
        if found is None and n == 1 and parts is not None and not sure:
            found = _moved_behind_name(line, clauses)
        if found is None or (found.kind == "move" and "date" in found.args and _heads_a_note(line)):
            continue
        others = [other for m, other in enumerate(clauses) if m != n]
        if sure and found.kind in _OF_NO_FIELD and not any(_of_field(p) for other in others for p in other):
            others = []  # "got the truck loaded, what fields are up"
        if any(_tells_more(line, other) or _looks_again(other) for other in others):
            return False
        if found.of != "own" and before:
            wider = told_of(line.context, [p for row in before for p in row[-LONGEST_LINE:]])
            if named is None or (wider is not None and wider.start < named.start <= named.end <= wider.end):
                named = wider  # "do ipe" of "vazea do ipe"
        if found.kind in ("due", "digest") and any("FIELD" in p.types for other in others for p in other):
            found = Asked("state")  # "e o Seu Joaquim, quando é que eu volto?"
        beside = [*clauses[:n], *(clauses[n + 1 :] if sure else [])]  # "earlier findings, cedar slough"
        return _emit(line, part, found, beside, named)
    return False


def asks_others(line: Line) -> bool:
    """ "Does anyone have the key to Kestrel?", "shall I bill it?": for people; "I want to report on Kestrel": told."""
    words = [word for p in line.ps[:LONGEST_PHRASE] for word in p.text.split(" ") if p.kind == "word"]
    heads = {" ".join(words[:size]) for size in range(1, LONGEST_PHRASE + 1)}
    if line.made.has_any("asks_others", heads):
        return True
    return not line.asked and line.made.has_any("tells_head", heads)


def _heads_a_note(line: Line) -> bool:
    """ "Kestrel, visit of 7/8. R2. 6 plants dug .." sent on that day: it has been, and a note stands behind it."""
    context, made = line.context, line.made
    nouns = [n for n, piece in enumerate(line.ps) if made.has("day_word", piece.text)]
    n = nouns[0] + 1 if nouns else len(line.ps)
    while n < len(line.ps) and line.ps[n].kind == "word" and linking(line.ps[n]):
        n += 1
    if n >= len(line.ps) or line.ps[n].kind != "day" or line.asked:
        return False
    day: DayWritten = line.ps[n].value
    if day.first is None or past_day(day, context.sent, context.language, context.day_first).day is None:
        return False
    told = scan(context.text[line.end : line.end + NOTE_BEHIND])
    counted = any(x.kind == "number" for x in told)
    dug = ("PLANTS", "DUG", "TOOL")
    return counted and any(e.type in dug for x in told for e in made.singles.get(x.text, ()))


def _moved_behind_name(line: Line, clauses: list[list[Piece]]) -> Asked | None:
    """ "Barra Nova, deixa pra daqui a 5 dias": a day to come, said of the name alone before it."""
    if name_in(line_of(line, clauses[0]), alone=True) is None or len(clauses[0]) > LONGEST_BARE:
        return None
    found = parts_of(line_of(line, [*clauses[0], *clauses[1]])).asked()
    return found if found is not None and found.kind == "move" else None


def _of_field(piece: Piece) -> bool:
    """Does a piece speak of a field or of what was counted there?"""
    return piece.kind in (*_NUMERIC, "day") or is_any(piece, ("FIELD", "COLOUR", "NONE", "FEMALES", "ROOTS", "TOPS"))


def likens_picture(line: Line) -> bool:
    """ "Scorched, like the potassium picture in our handbook": something looks like another one; none is asked for."""
    made = line.made
    question = line.asked or parts_of(line).begins("opens_question", "asks_first", "which_word", "ask_state")
    words = [word for p in line.ps for word in p.text.split(" ")]
    drawn = [word for p in line.ps if is_any(p, ("PICTURE",)) for word in p.text.split(" ")]
    for n, word in enumerate(words):
        if word not in drawn and not made.stemmed("ask_picture", word):
            continue
        before, behind = words[max(0, n - LIKENED_BEFORE) : n], words[n + 1 : n + 1 + PRINTED_BEHIND]
        wished = question or any(made.has("would_word", other) for other in before)
        if (not wished and any(made.has("likens", other) for other in before)) or _printed(made, behind):
            return True
    return False


def _printed(made: Table, words: list[str]) -> bool:
    """ "Of the manual", "you showed us": what stands in print, or was shown once."""
    return any(made.has("printed", word) for word in words)


def silenced_until(line: Line) -> bool:
    """ "Stop nagging me about kestrel for 5 days": no end of the reminders, but a later day."""
    found = parts_of(line).silent_until() if may_say(line, "until") and len(line.ps) <= LONGEST_CLAUSE else None
    return found is not None and line.emit(found.kind, **found.args, field=name_in(line))


def all_left_out(line: Line) -> bool:
    """ "Skip everything thats due", "silence all the fields for this season", "turn everything back on"."""
    if line.asked or not may_say(line, "every_field", "rest_of_season"):
        return False
    for clause in cut(line)[:MOST_BOUNDS]:
        parts = parts_of(line_of(line, clause))
        aimed = parts.named or name_in(parts.line) is not None or _points(parts)
        if aimed or parts.numbered or any(p.kind == "day" or is_any(p, _LOOKED) for p in clause):
            continue
        every, season = parts.says("every_field"), parts.says("rest_of_season")
        skips = parts.opens("ask_skip", "skips_every") or (parts.opens("ask_leave") and parts.says("ask_out"))
        if skips and every and not season and not parts._seen("NOT_LOOKED"):
            return line.emit("move", skip=True, all=True)
        if every and _starts_all(parts):
            return line.emit("resume", season=True)
        if season and _stops_all(parts, every):
            return line.emit("mute", season=True)
    return False


def _stops_all(parts: Parts, every: bool) -> bool:
    """ "No more reminders this season": a word for stopping reminders, and no other word that may name a field."""
    denied = any(parts.made.denies(word) for word in parts.words)
    stops = parts.says("ask_stop") or denied or parts.opens("ask_silence")
    reminds = parts.says("ask_remind") or any(is_any(p, ("MUTE",)) for p in parts.ps)
    if not stops or not (reminds or every):
        return False
    told = {parts.at[n] for n in parts._of("ask_remind", "ask_stop", "rest_of_season", "ask_silence", "every_field")}
    rest = [p for n, p in enumerate(parts.ps) if n not in told and not is_any(p, ("MUTE", "FIELD_WORD", "COURTESY"))]
    return all(
        parts.made.has("mute_frame", word) or parts.made.denies(word) for p in rest for word in p.text.split(" ")
    )


def _starts_all(parts: Parts) -> bool:
    """ "Turn everything back on", "volvé a activar todos los avisos": all of it, a word for starting, little else."""
    starts = parts.says("ask_start", "ask_back_on") or parts.stems("ask_start_stem")
    starts = starts or any(is_any(p, ("RESUME",)) for p in parts.ps)
    if not starts or any(parts.made.denies(word) for word in parts.words) or parts.line.asked:
        return False
    told = {parts.at[n] for n in parts._of("ask_remind", "ask_start", "ask_back_on", "every_field")}
    rest = [p for n, p in enumerate(parts.ps) if n not in told and not is_any(p, ("RESUME", "FIELD_WORD", "COURTESY"))]
    little = ("mute_frame", "start_frame")
    return all(
        any(parts.made.has(trait, word) for trait in little) or parts.made.stemmed("ask_start_stem", word)
        for p in rest
        for word in p.text.split(" ")
    )


def _points(parts: Parts) -> bool:
    """ "Skip everything at larkspur": does "at" lead to a word that may name a place?"""
    ps, made = parts.ps, parts.made
    return any(made.has("at", p.text) and q.kind == "word" and not q.types for p, q in pairwise(ps))


def skipped(line: Line) -> bool:
    """ "Dont need to do cutoff this week skip it": left out, whatever else the words could ask."""
    parts = parts_of(line)
    found = parts._skipped() if parts.text.endswith(_ends_skip(line.made)) else None
    return found is not None and line.emit(found.kind, **found.args, field=name_in(line))


def _tells_more(line: Line, clause: list[Piece]) -> bool:
    """Does a clause beside the request tell of a visit, and is no reason ("is getting sprayed tomorrow")?"""
    planned = any(
        line.made.has("planned", p.text) or ("TODAY" in p.types and p.types["TODAY"].value < "0") for p in clause
    )
    sprayed = planned and any(is_any(p, ("SPRAY", "CHEMICAL")) for p in clause)
    rest = [p for p in clause if not (sprayed and is_any(p, ("SPRAY", "CHEMICAL")))]
    return bool(rest) and line_of(line, rest).tells(reasons=True)


def _looks_again(clause: list[Piece]) -> bool:
    """ "Look again fri": part of a note, and no reason."""
    timed = any(p.kind == "day" or is_any(p, ("UNIT", "WEEKDAY", "MONTH")) for p in clause)
    return timed and is_any(clause[0], ("LOOK",))


def _emit(line: Line, part: Line, found: Asked, before: list[list[Piece]], named: Piece | None) -> bool:
    """The request with its field: of the clause itself, of a name alone before it, or of what was told of last."""
    name = name_in(part) or next(
        (name for other in before if (name := name_in(line_of(line, other), alone=True))), None
    )
    if name is None and named is not None and found.of != "own":
        name = written(line.context.text, named.start, named.end)
    if name is None and found.of == "one":
        return False
    part.start, part.end = line.start, line.end
    return part.emit(found.kind, **found.args, field=name)


def parts_of(line: Line) -> Parts:
    """The words of a clause that may ask, taken apart once."""
    if line.parts is None:
        line.parts = Parts(line)
    return line.parts


def line_of(line: Line, pieces: list[Piece]) -> Line:
    """A part of a line as a line of its own; asked when its last piece is the one before the question mark."""
    made = type(line)(line.context, pieces)
    made.asked = made.asked or (line.asked and pieces[-1] is line.ps[-1])
    return made


def cut(line: Line) -> list[list[Piece]]:
    """A sentence cut at its commas, colons and dashes, and before "but" and "because"."""
    out: list[list[Piece]] = [[]]
    for n, piece in enumerate(line.ps):
        spaced = line.context.text[piece.start - 1 : piece.start] == " "
        if piece.kind == "break" or piece.text in (":", "(", ")") or (piece.text == "-" and spaced):
            out.append([])
            continue
        reason = piece.kind == "word" and line.made.has("ask_reason", piece.text)
        if out[-1] and (reason or _today_why(line, n)):
            out.append([])
        out[-1].append(piece)
    return [clause for clause in out if clause]


def languages_wanted(line: Line) -> list[str]:
    """The languages named, each once, but for those complained of: "no entiendo inglés, cambia a español".

    Of two the one right behind "in": "escribime en español, el inglés me cuesta".
    """
    clauses = [clause for clause in cut(line) if not _complains(line, clause)]
    named = [p for clause in clauses for p in clause if "LANGUAGE_NAME" in p.types and len(p.text) > 2]
    led = [q for p, q in pairwise(line.ps) if q in named and line.made.has("into_language", p.text.split(" ")[-1])]
    told = [list(dict.fromkeys(p.types["LANGUAGE_NAME"].value for p in found)) for found in (named, led)]
    return told[1] if len(told[0]) > 1 and told[1] else told[0]


def _complains(line: Line, clause: list[Piece]) -> bool:
    """ "No entiendo inglés", "everything is coming in spanish": what comes, and is not wanted."""
    part = line_of(line, clause)
    return any(line.made.denies(word) for word in part.vocabulary) or parts_of(part).says("language_comes")


def _today_why(line: Line, n: int) -> bool:
    """ "Pasalo al viernes que hoy llueve": "que" right before today and what hinders."""
    ahead = line.ps[n + 1] if n + 2 < len(line.ps) else None
    if ahead is None or not line.made.has("so_that", line.ps[n].text):
        return False
    day = n > 0 and (line.ps[n - 1].kind == "day" or is_any(line.ps[n - 1], ("UNIT", "WEEKDAY")))
    reason = day and line.made.has("name_article", ahead.text)  # "pra daqui a 5 dias q a estrada tá um sabão"
    return reason or is_any(ahead, ("TODAY",))


def noted_first(line: Line) -> bool:
    """ "Docs bottom too muddy to dig, push it 5 days": a field was seen or not dug, and behind that a request."""
    undone = {n for n, p in enumerate(line.ps) if _noted(line, p)}
    if len(line.ps) > LONGEST_LINE or not undone:
        return False
    clauses = cut(line)
    for n, clause in enumerate(clauses[1:], 1):
        before = [p for other in clauses[:n] for p in other]
        if not any(line.ps[m] is p for m in undone for p in before):
            continue
        named = any("FIELD" in p.types for p in before) or name_in(line_of(line, before)) is not None
        part = line_of(line, clause)
        if named and may_ask(part) and parts_of(part).asked() is not None:
            return all(parts_of(line_of(line, other)).asked() is None for other in clauses[:n])
    return False


def _noted(line: Line, piece: Piece) -> bool:
    """Does a piece tell of a visit: not dug, or females seen?"""
    if "FIELD" in piece.types:
        return False
    return ("NOT_LOOKED" in piece.types and not _ahead(line, piece)) or "FEMALES" in piece.types


def _ahead(line: Line, piece: Piece) -> bool:
    """ "Cant get to tinkers": not yet, and no visit."""
    return any(piece.text.startswith(word) for word in line.made.traits.get("ask_cannot", ()))


def asked_behind(line: Line, sentence: list[Piece]) -> list[list[Piece]]:
    """ "6 plants none, dont bug me on it anymore": a sentence of a note cut before the clause of it that asks."""
    bounds = [n for n, p in enumerate(sentence) if n and (p.kind == "break" or p.text in anywhere("joint"))]
    for n in bounds[-MOST_BOUNDS:]:
        first = n
        while first < len(sentence) and (
            sentence[first].kind in ("break", "sign", "line") or sentence[first].text in anywhere("joint")
        ):
            first += 1
        clause = sentence[first:]
        while clause and clause[-1].kind in ("break", "line"):
            clause = clause[:-1]
        if not 0 < len(clause) <= LONGEST_CLAUSE:
            continue
        told = type(line)(line.context, sentence[:n]).tells() or _looks_again(sentence[:n])
        if not told:
            continue
        part = type(line)(line.context, clause)
        denied = any(line.made.denies(word) for p in sentence[:n] for word in p.text.split(" "))
        if denied and parts_of(part).says("bare_undo"):
            continue  # "kestrel was pulled not dug, my mistake"
        if _of_another(part, sentence[:n]) or (may_ask(part) and parts_of(part).asked() is not None):
            return [sentence[:first], sentence[first:]]
    return [sentence]


def _of_another(part: Line, before: list[Piece]) -> bool:
    """ ".. and then for Plover the yellow should be five", ".. and can you remind me of Silo Row in 3 days".

    A word for putting right or a plea to be reminded, and a field not yet told of.
    """
    at = [n for n, p in enumerate(part.ps) if "FIELD" in p.types]
    if len(at) != 1 or not any("FIELD" in p.types for p in before) or any(map(number_like, part.ps[: at[0]])):
        return False
    if any(p.text == part.ps[at[0]].text for p in before):
        return False
    made = part.made
    reminded = parts_of(part).opens("asks_politely", "ask_remind") and parts_of(part).says("ask_remind")
    return reminded or any(made.has("strong_correct", p.text) or made.has("set_verb", p.text) for p in part.ps)


SHORT = 4
"""Words of "digest for the week" (judgement)."""
MOST_BOUNDS = 8
"""Places of a sentence, from its end, where something asked may begin (judgement)."""


def pushes(context: Context, text: str) -> bool:
    """Is it a reminder that is put off ("push it 5 days"), not when to look again?"""
    made = table(context.language)
    for stop in (f", {word} " for word in made.traits["if_word"]):
        text = fold(text).split(stop)[0]  # "volver en 10 días, si el tiempo nos deja"
    return made.said("ask_move", text) or made.said("ask_remind", text)


def reminds_of_look(context: Context, text: str) -> bool:
    """ "Me lembra de voltar aqui": is what one wants to be reminded of to look again, and nothing put off?"""
    made = table(context.language)
    return made.said("ask_remind", text) and made.said("goes_back", text) and not made.said("ask_move", text)


# --- the name of a field in a clause that asks


def told_of(context: Context, pieces: list[Piece]) -> Piece | None:
    """The name a note before begins with, where it is no name of the crew's in full ("widows 40 r4 5 pl 1w, ..")."""
    told = [p for p in pieces if p.kind != "line"]
    if not told:
        return None
    names = Names(context.text, told, table(context.language), context.fields).find()
    if not names:
        return None
    name = names[max(names)]
    return replace(told[name.first], start=name.start, end=name.end)


def name_in(line: Line, alone: bool = False) -> str | None:
    """The field a clause names, or the name it is nothing but."""
    text = line.context.text
    if not line.context.fields and (known := next((p for p in line.ps if "FIELD" in p.types), None)) is not None:
        return written(text, known.start, known.end)
    if line.context.fields:
        span = line.known_span(-1) or _first_word(line)
        name = written(text, *span) if span is not None else ""
        return name if name and not is_field_word(fold(name)) else None
    run = line.ps[: _leading_capitals(line)] or _capitals(line, alone)
    return written(text, run[0].start, run[-1].end) if run else None


def lead_name(line: Line) -> str | None:
    """A name no list has, alone before the comma or colon of what is asked ("Lagoa Seca, apaga a nota de hoje")."""
    clauses = cut(line) if not line.context.fields else []
    return name_in(line_of(line, clauses[0]), alone=True) if len(clauses) > 1 else None


def _first_word(line: Line) -> tuple[int, int] | None:
    """The first word of a name of the crew: "schoolhouse" of Schoolhouse North and South."""
    firsts = Names(line.context.text, line.ps, line.made, line.context.fields).firsts
    piece = next((p for p in line.ps if p.kind == "word" and p.text in firsts and not p.types), None)
    return (piece.start, piece.end) if piece is not None else None


def _ends_skip(made: Table) -> tuple[str, ...]:
    """How "dont need to do cutoff this week, skip it" ends."""
    return tuple(f" {said} " for said in made.traits.get("ask_skip_it", ()))


def _leading_capitals(line: Line) -> int:
    """How many words of a name no list has the clause begins with: "Gravel Pit Forty how are we doing there"."""
    text, size = line.context.text, 0
    for piece in () if line.context.fields else line.ps:
        if piece.kind != "word" or " " in piece.text or not text[piece.start : piece.start + 1].isupper():
            break
        size += 1
    deed = any(line.made.has(trait, line.ps[0].text) for trait in _DEEDS)
    return size if 1 < size <= OPENING and size < len(line.ps) and not deed else 0


def _leading_short(line: Line) -> int:
    """1 where a clause begins with the first word of a name of the crew ("várzea adia 1 semana"), else 0."""
    first = line.ps[0]
    short = (
        first.kind == "word" and first.types.keys() <= {"SPOT"} and first.text in crew_of(line.context.fields).firsts
    )
    return int(short and len(line.ps) > 1)


def _capitals(line: Line, alone: bool) -> list[Piece]:
    """A name no list has: written with capitals, behind "on" or "de", or all that the clause is."""
    text = line.context.text
    ps = line.ps
    plain = [p for p in ps if p.kind in ("word", "number")]
    if alone and len(plain) == len(ps) <= OPENING and text[ps[0].start].isupper():
        return ps
    for n, piece in enumerate(ps[:-1]):
        deed = n == 0 and any(line.made.has(trait, piece.text) for trait in _DEEDS)  # "push Quarry Bend to friday"
        led = deed or line.made.has("at", piece.text) or line.made.has("of_note", piece.text) or piece.text in _of()
        stop = _name_end(line, n + 1)
        first = n + 1
        if led and stop > first:
            if n and piece.text in _of() and _capital(line, n - 1) and not ps[n - 1].types:
                first = n - 1  # "Baixão da Onça tem 60 ha"
            return ps[first:stop]
    return []


def _capital(line: Line, n: int) -> bool:
    """Is a word written with a capital there?"""
    if n >= len(line.ps) or line.ps[n].kind != "word":
        return False
    return line.context.text[line.ps[n].start : line.ps[n].end][:1].isupper()  # a word put in is written nowhere


def goes_on(line: Line, n: int) -> bool:
    """ "Ridge of Pines": does a name go on there, with a word of its own behind "of"?"""
    return n < len(line.ps) and _joins_name(line, n) and not line.ps[n + 1].types


def _name_end(line: Line, first: int) -> int:
    """Where words with a capital end, "of" and the next such word among them ("Baixão da Onça")."""
    stop = first
    while _capital(line, stop) or (stop > first and line.ps[stop : stop + 1] and _joins_name(line, stop)):
        stop += 1
    return stop


def _joins_name(line: Line, n: int) -> bool:
    return line.ps[n].text in _of() and _capital(line, n + 1)


_DEEDS = ("ask_move", "ask_skip", "ask_silence", "ask_undo")
"""Words for a deed that a field's name may follow at once."""


def _of() -> frozenset[str]:
    return anywhere("of_name")
