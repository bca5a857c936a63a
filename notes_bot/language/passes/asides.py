"""What a message tells of another time, of other people, or of nothing seen on this visit, left to the free text.

"Ketterby had nothing at all two weeks ago", "the neighbor had maybe ten", "I would not plant beans there again": such
words stand beside the notes of a visit, and none of their numbers, fields and words is a datum of it or asks anything.
Words that only may be of another time ("last week 6 plants, 3 white") are a visit told late where nothing else is told
of the field; so an aside needs a count of its own beside it. Where there is none, all stays as it is told.

Each clause of a sentence is looked at for a cue (:func:`_cue`); the aside takes in the clause, the list it counts and
the clauses that only go on with it, up to a word for now. Its pieces become one piece of the kind "aside".
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import cache

from notes_bot.language.lexicon.joining import LAST_OF_MONTH, is_any, number_like
from notes_bot.language.lexicon.kept import kept
from notes_bot.language.lexicon.pieces import Piece, piece_at
from notes_bot.language.lexicon.words import Table, anywhere, table
from notes_bot.model import Language

_CUES = (
    *("aside_once", "aside_lately", "aside_month", "aside_others", "aside_theirs", "aside_ahead", "aside_report"),
    *("aside_talk", "aside_cause", "aside_fancied", "aside_unseen", "aside_he_counted", "aside_then", "aside_person"),
)
"""Manners of phrases by which an aside is known."""
_LEFT = frozenset(
    {
        "PLANTED",
        "SPRAY",
        "CHEMICAL",
        "ENTRY",
        "VARIETY",
        "RESISTANCE",
        "SOURCE",
        "PH",
        "POTASSIUM",
        "PPM",
        "LAB",
        "EGGS",
    }
)
"""What is told of another day, or by other people, and is yet a datum: planting, spraying, the seed, a soil test."""
_DONE = frozenset({"PLANTED", "SPRAY", "CHEMICAL"})
"""What was done to the field on a day of its own."""
_LOOKED = ("DUG", "TOOL", "SOAKED")
_FEMALE = ("COLOUR", "FEMALES", "TOTAL", "HAD")
_TELLS = ("NONE", "TOO_MANY", "MOSTLY", "COLOUR", "FEMALES", "TOP", "MOISTURE", "TEXTURE", "SAME", "NOT_LOOKED", "ROOT")
"""What tells something of a visit without a number."""
_YEARS = range(2000, 2100)
"""Numbers that may be years."""
_YEAR = "<year>"
"""How a year of the past stands among the words of a clause."""


@dataclass(slots=True)
class _Clause:
    """A stretch between two stops."""

    start: int
    end: int
    """Its pieces, the stop behind it left out."""
    sentence: int
    words: list[str]
    at: list[int]
    """The piece each word is of."""
    fields: list[str]
    """Fields named in it."""
    of: str | None
    """The field it is told of: the one named last."""
    types: frozenset[str]
    numbers: list[int] = field(default_factory=list)
    """Where numbers stand that may count something; no spans of time, no years."""
    found: bool = False
    """Does it tell what was found?"""
    runs: dict[str, tuple[int, int]] = field(default_factory=dict)
    """What its words say one, two and more together, and from where to where first; the longest first."""

    def __post_init__(self) -> None:
        for n in range(len(self.words)):
            for end in range(min(n + LONGEST_CUE, len(self.words)), n, -1):
                self.runs.setdefault(" ".join(self.words[n:end]), (n, end))

    def says(self, manner: frozenset[str]) -> tuple[int, int] | None:
        """The words from and to which a phrase of this manner stands; the longest one, ``None`` for none."""
        if self.runs.keys().isdisjoint(manner):
            return None
        return next((place for said, place in self.runs.items() if said in manner), None)


LONGEST_CUE = 6
"""Words of the longest cue."""


def set_aside(pieces: list[Piece], made: Table, sent: date) -> tuple[list[Piece], list[Piece]]:
    """The pieces of a message without its asides, and the asides.

    Args:
        pieces: as cut.
        made: the words of the message's language.
        sent: the writer's day, from which years and months are of the past.
    """
    spoken = _spoken(pieces, made)
    if not (_may_tell(spoken, pieces, made) or _day_of_past(pieces, made, spoken)):
        return pieces, []
    clauses = _clauses(pieces, made, sent)
    if not any(clause.found for clause in clauses):
        return pieces, []
    asides = _told(pieces, clauses, made)
    if not asides:
        return pieces, []
    gone = {n for begin, end in asides for n in range(begin, end)}
    told = [Piece("aside", "", pieces[begin].start, pieces[end - 1].end) for begin, end in asides]
    return [piece for n, piece in enumerate(pieces) if n not in gone], told


def put_back(pieces: list[Piece], asides: list[Piece]) -> list[Piece]:
    """Asides in their places among the pieces that are left of a message as its notes."""
    return sorted([*pieces, *asides], key=lambda piece: piece.start) if asides else pieces


@cache
def _keys(language: Language) -> Mapping[str, tuple[str, ...]]:
    """The longest word of every cue, without which it cannot be told, with those cues; years have none."""
    return kept(f"asides_{language}.pickle", lambda: _keys_made(language))


def _keys_made(language: Language) -> dict[str, tuple[str, ...]]:
    traits = table(language).traits
    keyed: dict[str, list[str]] = {word: [] for word in ("'", *map(str, _YEARS))}
    for phrase in (phrase for cue in _CUES for phrase in traits.get(cue, ())):
        keyed.setdefault(max(phrase.split(" "), key=len), []).append(phrase)
    return {word: tuple(phrases) for word, phrases in keyed.items()}


def _may_tell(spoken: set[str], pieces: Sequence[Piece], made: Table) -> bool:
    """Can a cue be told: are its words there, as they stand, or with any number or month?"""
    keys = _keys(made.language)
    met = [keys[word] for word in keys.keys() & spoken]
    if not met:
        return False
    said = f" {' '.join([piece.text for piece in pieces])} "
    month = _month(made)
    return any(
        not phrases or any(f" {phrase} " in said or "9" in phrase or month in phrase for phrase in phrases)
        for phrases in met
    )


def _day_of_past(pieces: list[Piece], made: Table, spoken: set[str]) -> bool:
    """Is a day told behind the first sentence, and a word for what was: "On 6/30 it was 9 white"?"""
    if spoken.isdisjoint(_phrases(made, "aside_past")):
        return False
    return any(piece.kind == "day" or is_any(piece, ("WEEKDAY", "MONTH")) for piece in pieces[SHORTEST_VISIT:])


SHORTEST_VISIT = 5
"""Pieces of the shortest visit told before another day (judgement)."""


def _spoken(pieces: Sequence[Piece], made: Table) -> set[str]:
    """The words of the pieces; any month is written as one of them."""
    spoken = set(" ".join([piece.text for piece in pieces]).split(" "))
    return spoken | {_month(made)} if any("MONTH" in piece.types for piece in pieces) else spoken


def _month(made: Table) -> str:
    """The month for which any of the past stands in the phrases of the word files."""
    return made.first["MONTH", "6"]


# --- clauses


def _clauses(pieces: list[Piece], made: Table, sent: date) -> list[_Clause]:
    """All clauses of a message, each with the field it is told of; those of then and of now are parted."""
    out: list[_Clause] = []
    begin = sentence = 0
    for n, piece in enumerate([*pieces, Piece("line", "", 0, 0)]):
        if piece.kind not in ("break", "line"):
            continue
        if n > begin:
            clause = _clause(pieces, begin, n, sentence, made, sent)
            if piece.value == "soft" and _only_time(clause, made):
                continue  # "The year before, Kestrel had none"
            out += _parted(pieces, clause, made, sent)
        begin = n + 1
        sentence += piece.kind == "line" or piece.value == "hard"
    of = None
    for clause in out:
        of = clause.fields[0] if clause.fields else of
        clause.of = of
        of = clause.fields[-1] if clause.fields else of
    return out


def _clause(pieces: list[Piece], start: int, end: int, sentence: int, made: Table, sent: date) -> _Clause:
    """The clause of the pieces from start to end."""
    words: list[str] = []
    at: list[int] = []
    numbers: list[int] = []
    for n in range(start, end):
        piece = pieces[n]
        before = pieces[n - 1] if n > start else None
        behind = pieces[n + 1] if n + 1 < end else None
        of_day = _of_a_day(pieces, n)
        said = piece.text.split(" ") if of_day else _in_general(piece, before, made, sent)
        words += said
        at += [n] * len(said)
        timed = is_any(behind, ("UNIT",)) or of_day or _is_year(piece, before, sent)
        if (number_like(piece) and not timed) or piece.kind in ("series", "ratio"):
            numbers.append(n)
    run = pieces[start:end]
    types = frozenset(kind for piece in run for kind in piece.types) | frozenset(piece.kind for piece in run)
    fields = [piece.types["FIELD"].value for piece in run if "FIELD" in piece.types]
    clause = _Clause(start, end, sentence, words, at, fields, None, types, numbers)
    now = bool(numbers) and clause.says(_phrases(made, "aside_now")) is not None  # "ahora 7"
    clause.found = now or _finds(clause, pieces)
    return clause


def _only_time(clause: _Clause, made: Table) -> bool:
    """Is it nothing but words for another time, before what was then? Not "same as last year, tops yellow"."""
    said = next((said for cue in _TIMES if (said := clause.says(_phrases(made, cue)))), None)
    if said is None or clause.fields or _measures(clause, said, made) is not None:
        return False
    return said[0] <= 1 and len(clause.words) == said[1]


def _measures(clause: _Clause, said: tuple[int, int], made: Table) -> int | None:
    """The word by which what is now is only held against another time: "bigger than last week", "since last week"."""
    for n in range(said[0] - 1, max(-1, said[0] - 1 - WORDS_BETWEEN), -1):
        if made.has("aside_than", clause.words[n]):
            return n
    return None


WORDS_BETWEEN = 3
"""Words between "than" and the other time: "than on the June round" (judgement)."""


def _in_general(piece: Piece, before: Piece | None, made: Table, sent: date) -> list[str]:
    """The words of a piece as the word files have them: any number is 9, any month but that of sending is June."""
    if number_like(piece):
        return [_YEAR if _is_year(piece, before, sent) else "9"]
    month = piece.types.get("MONTH")
    if month is not None and (month.value != str(sent.month) or is_any(before, ("WHICH",))):
        return [_month(made)]
    return piece.text.split(" ")


def _of_a_day(pieces: list[Piece], n: int) -> bool:
    """ "Oct 22 2025", "22 de octubre de 2025": a month, its day or its year, told whole: the day of what is told."""
    first = max(0, n - DATE_BACK)
    near = range(first, min(len(pieces), n + DATE_BACK + 1))
    years = [k for k in near if pieces[k].kind == "number" and pieces[k].value in _YEARS]
    for year in years:
        told = pieces[max(0, year - DATE_BACK) : year + 1]
        months = [p for p in told if "MONTH" in p.types]
        days = [p for p in told[:-1] if p.kind == "number" and 0 < p.value <= LAST_OF_MONTH]
        if months and days and year - DATE_BACK <= n <= year and (pieces[n] in (*months, *days) or n == year):
            return True
    return False


DATE_BACK = 4
"""Pieces from a year back to its day: "22 de octubre de 2025" (judgement)."""


def _is_year(piece: Piece, before: Piece | None, sent: date) -> bool:
    """ "(in) 2024", "'23": a year before this one."""
    if piece.kind != "number" or not isinstance(piece.value, int):
        return False
    short = before is not None and before.text == "'" and len(piece.text) == SHORT_YEAR
    year = 2000 + piece.value if short else piece.value
    return year in _YEARS and year < sent.year


SHORT_YEAR = 2
"""Figures of a year behind an apostrophe."""


def _finds(clause: _Clause, pieces: list[Piece]) -> bool:
    """Does it tell what was found, or that nobody looked?"""
    if clause.types & {"NONE", "TOO_MANY", "NOT_LOOKED", "series", "ratio"}:
        return True
    counted = len(clause.numbers) > 1 and not clause.types.isdisjoint((*_LOOKED, "PLANTS", "FIELD"))
    beside = any(is_any(pieces[n + 1], _FEMALE) for n in clause.numbers if n + 1 < clause.end)
    behind = any(is_any(pieces[n - 1], _FEMALE) for n in clause.numbers if n > clause.start)
    return counted or beside or behind


def _parted(pieces: list[Piece], clause: _Clause, made: Table, sent: date) -> list[_Clause]:
    """ "3 white last week | and 12 today", "was V4 then | now R1": a clause of then and now is two."""
    other = clause.says(_phrases(made, "aside_others"))
    then = next((said for cue in _TIMES if (said := clause.says(_phrases(made, cue)))), other)
    now = clause.says(_phrases(made, "aside_now")) or (clause.says(_phrases(made, "aside_but")) if other else None)
    if then is None or now is None or then[0] == now[0] or clause.types & _LEFT:
        return [clause]
    alike = clause.says(_phrases(made, "aside_same_time"))
    if alike is not None and alike[0] <= now[0] < alike[1]:
        return [clause]  # "last year at this time we had 22"
    first, second = min(then[1], now[1]), max(then[0], now[0])
    turns = [n for n in range(first, second) if made.has("aside_turn", clause.words[n])]
    if not turns and now[0] < then[0]:
        return [clause]
    cut = clause.at[turns[-1] if turns else now[0]]
    if cut in (clause.start, clause.end):
        return [clause]
    halves = ((clause.start, cut), (cut, clause.end))
    return [_clause(pieces, begin, end, clause.sentence, made, sent) for begin, end in halves]


def _phrases(made: Table, manner: str) -> frozenset[str]:
    """The phrases of a manner in the message's language."""
    return made.traits.get(manner, frozenset())


# --- what is an aside


def _told(pieces: list[Piece], clauses: list[_Clause], made: Table) -> list[tuple[int, int]]:
    """Where the asides of a message begin and end."""
    asking = _asking(pieces, clauses, made)
    cues = [None if clause.sentence in asking else _cue(pieces, clauses, n, made) for n, clause in enumerate(clauses)]
    whole = _whole_sentences(pieces, clauses, made)
    for n, last in whole.items():
        cues[n : last + 1] = ["whole"] * (last + 1 - n)
    out: list[tuple[int, int]] = []
    done = -1
    for n, cue in enumerate(cues):
        if n in whole:
            out.append((_sentence_start(pieces, clauses[n].start), clauses[whole[n]].end))
            done = whole[n]
            continue
        if cue is None or n <= done or not _beside(clauses, cues, n, cue, made):
            continue
        if cue in ("cause", "measure"):
            out.append(_cause(clauses[n], made) if cue == "cause" else _measure(clauses[n], made))
            continue
        first, last = _reach(pieces, clauses, cues, n, made)
        first = max(first, done + 1)
        begin, end = clauses[first].start, clauses[last].end
        if not _swallows(clauses, first, last):
            begin = _behind_field(pieces, begin)
        if begin < end:
            out.append((begin, end))
        done = last
    return out


def _whole_sentences(pieces: list[Piece], clauses: list[_Clause], made: Table) -> dict[int, int]:
    """The first and last clause of each sentence that is, whole, of another time or of what others counted."""
    out: dict[int, int] = {}
    of_them = False
    first = 0
    while first < len(clauses):
        sentence = clauses[first].sentence
        last = first
        while last + 1 < len(clauses) and clauses[last + 1].sentence == sentence:
            last += 1
        asked = any(p.text == "?" for p in pieces[clauses[first].start : clauses[last].end + 1])
        if not asked and not _puts_right(pieces, clauses[first : last + 1], made):
            begin = next((k for k in range(first, last + 1) if _of_person(clauses, k, last, made)), None)
            if begin is not None and not any(c.numbers or c.types & {*_TELLS, "stage"} for c in clauses[first:begin]):
                out[first] = last
            elif begin is not None:
                out[begin] = last
            elif (
                _of_then(pieces, clauses, first, last, made)
                or _of_neighbors_seed(clauses[first : last + 1], made)
                or (of_them and _goes_on_of_them(clauses[first : last + 1], made))
            ):
                out[first] = last
            of_them = begin is not None or (of_them and first in out)
        first = last + 1
    return out


def _of_neighbors_seed(clauses: list[_Clause], made: Table) -> bool:
    """ "The people next door have susceptible beans": a seed, and not this field's."""
    said = clauses[0].says(_phrases(made, "aside_others"))
    seed = any(clause.types & _OF_SEED for clause in clauses)
    own = any(clause.fields or made.has_any("own_turn", clause.words) for clause in clauses)
    return said is not None and said[0] == 0 and seed and not own


def _goes_on_of_them(clauses: list[_Clause], made: Table) -> bool:
    """ "(He counted a dozen on his.) He grows a susceptible variety": a sentence that goes on with what others have."""
    head = clauses[0].words[:1]
    now = any(clause.fields or clause.says(_phrases(made, "aside_now")) is not None for clause in clauses)
    return bool(head) and made.has("aside_goes_on_he", head[0]) and not now


def _sentence_start(pieces: list[Piece], n: int) -> int:
    """Where the words for a time before a comma begin: "The year before, | Kestrel had none"."""
    begin = n
    while begin and pieces[begin - 1].kind != "line" and pieces[begin - 1].value != "hard":
        begin -= 1
    said = pieces[begin:n]
    plain = all(p.kind in ("word", "break") and not is_any(p, (*_TELLS, "FIELD")) for p in said)
    return begin if plain and len(said) <= MOST_BEFORE else n


MOST_BEFORE = 8
"""Pieces of words for a time before a comma (judgement)."""


def _puts_right(pieces: list[Piece], clauses: list[_Clause], made: Table) -> bool:
    """ "Sorry, on the 18th it was 11": is something put right in it?"""
    said = pieces[clauses[0].start : clauses[-1].end]
    if any(is_any(p, ("CORRECT",)) and not made.has_any("aside_past", p.text.split(" ")) for p in said):
        return True
    if any(clauses[0].says(_phrases(made, manner)) == (0, size) for manner in _REPAIRS for size in (1, 2, 3)):
        return True
    return any(clause.says(_phrases(made, manner)) is not None for clause in clauses for manner in _RIGHTS)


_REPAIRS = ("repairs", "slip_word", "amends")
_RIGHTS = ("right_now", "said_wrong", "slip_reason", "owns_up", "should_say")


def _of_then(pieces: list[Piece], clauses: list[_Clause], first: int, last: int, made: Table) -> bool:
    """ "Early in the month it had 31, so about the same": a count of another time of a field counted whole above."""
    said = clauses[first : last + 1]
    if not _told_before(clauses, first) or any(c.types & _NOT_THEN for c in said):
        return False
    named = {name for c in said for name in c.fields}
    if named and not named <= {name for c in clauses[:first] if c.found for name in (c.of, *c.fields)}:
        return False  # "then, still on the 5th, I passed by Ponte Alta, ten plants too"
    counts = [k for c in said for k in c.numbers if not _is_day(pieces, k)]
    if not counts and not any(c.types & {"NONE", "TOO_MANY"} for c in said):
        return False
    if any(_of_this_time(c, made) for c in said):
        return False
    start = _sentence_start(pieces, said[0].start)
    head = [word for p in pieces[start : said[0].start] for word in p.text.split(" ") if p.kind == "word"]
    times = [(head + c.words if c is said[0] else c.words) for c in said]
    past = any(made.has_any("aside_past", words) or made.has_any("aside_shows", words) for words in times)
    then = next((k for k, words in enumerate(times) if _tells_then(pieces, clauses, first + k, words, made)), None)
    before = said[: then or 0]
    return past and then is not None and not any(c.found or c.types & {*_TELLS, "stage"} for c in before)


_NOT_THEN = (_LEFT - frozenset({"RESISTANCE", "VARIETY", "SOURCE"})) | {"WEATHER", "UNDO", "SKIP", "MUTE"}
"""What a sentence about another time's count does not hold."""


def _of_this_time(clause: _Clause, made: Table) -> bool:
    """ "(In June it had three,) and now it has ten", and not "last year at this time we had twenty-two"."""
    now = clause.says(_phrases(made, "aside_now"))
    if now is None or not (clause.numbers or clause.types & {*_TELLS, "stage"}):
        return False
    alike = clause.says(_phrases(made, "aside_same_time"))
    return alike is None or not alike[0] <= now[0] < alike[1]


def _tells_then(pieces: list[Piece], clauses: list[_Clause], n: int, words: list[str], made: Table) -> bool:
    """Is another time told in it: "last week", "on the 18th", "my note of late June", "the first time"?"""
    clause = clauses[n]
    cues = [cue for cue in (*_TIMES, "aside_then") if _says(words, _phrases(made, cue)) is not None]
    if cues:
        spans = [said for cue in cues if (said := clause.says(_phrases(made, cue))) is not None]
        if any(_measures(clause, said, made) is not None for said in spans):
            return False  # "five white, which is fewer than they had a week earlier"
        said = clause.says(_phrases(made, "aside_then")) or clause.says(_phrases(made, "aside_lately"))
        return not _looks_again(pieces, clause, said)
    days = {pieces[k].text for k in range(clause.start, clause.end) if _is_day(pieces, k)}
    told = (c for c in clauses[:n] if c.of == clause.of)
    of_day = bool(days) and not any(pieces[k].text in days for c in told for k in range(c.start, c.end))
    return of_day and not _looks_again(pieces, clause)


def _is_day(pieces: list[Piece], n: int) -> bool:
    """ "6/30", "July 6", "doce de julio", "(on) the 18th", "(no) dia 20", a month by itself."""
    piece = pieces[n]
    if piece.kind == "day" or "MONTH" in piece.types:
        return True
    before, behind = piece_at(pieces, n - 1), piece_at(pieces, n + 1)
    if behind is not None and behind.text in anywhere("of_word"):
        behind = piece_at(pieces, n + 2)
    if any(is_any(beside, ("MONTH",)) and not is_any(beside, ("COLOUR",)) for beside in (before, behind)):
        return True
    counted = is_any(piece_at(pieces, n + 1), (*_FEMALE, "PLANTS"))
    leads = anywhere("day_lead") | (anywhere("day_led") - anywhere("nth_before"))
    led = before is not None and before.text in leads and not counted
    return led or (piece.kind == "number" and piece.text[-2:] in ("st", "nd", "rd", "th"))


def _says(words: list[str], manner: frozenset[str], longest: int = 6) -> int | None:
    """Where the first phrase of this manner stands among words; ``None`` for none."""
    for n in range(len(words)):
        for size in range(min(longest, len(words) - n), 0, -1):
            if " ".join(words[n : n + size]) in manner:
                return n
    return None


def _of_person(clauses: list[_Clause], n: int, last: int, made: Table) -> bool:
    """ "He dug his own and says 9 on 3 plants", "the temp guy counted it after me and got 9, I'd leave it at 8"."""
    clause = clauses[n]
    who = clause.says(_phrases(made, "aside_person"))
    if who is None or who[0] > 0 or clause.types & (_NOT_THEN - {"WEATHER"}):
        return False
    said = clauses[n : last + 1]
    rest = [word for c in said for word in c.words]
    counted = [c for c in said if c.numbers or c.types & {"NONE", "TOO_MANY"}]
    if not counted or _own_count(said, made):
        return False
    own: set[str | None] = {*clause.fields} or {clause.of}
    others = [*clauses[:n], *clauses[last + 1 :]]
    if not any(c.found and own & {c.of, *c.fields} for c in others):
        return False
    if any(_says(rest, _phrases(made, cue)) is not None for cue in ("aside_says", "aside_own")):
        return True
    behind = [word for c in clauses[last + 1 :][:2] for word in c.words]
    kept_so = _says(rest, _phrases(made, "aside_stays")) is not None or (
        _says(behind, _phrases(made, "aside_stays")) is not None
    )
    return kept_so and _says(rest, _phrases(made, "aside_counted")) is not None


def _own_count(clauses: list[_Clause], made: Table) -> bool:
    """ "He had two and I had four": is a count of the writer's told in it, too?"""
    for clause in clauses:
        if clause.says(_phrases(made, "aside_stays")) is not None:
            continue
        own = next((k for k, word in enumerate(clause.words) if made.has("own_turn", word)), None)
        if own is not None and any(n >= clause.at[own] for n in clause.numbers):
            return True
    return False


def _asking(pieces: list[Piece], clauses: list[_Clause], made: Table) -> set[int]:
    """The sentences that end with a question mark, or begin with what is asked for."""
    out: set[int] = set()
    opened = -1
    for clause in clauses:
        opens, opened = clause.sentence != opened, clause.sentence
        asked = opens and any(made.has("asks_for", word) or made.has("please", word) for word in clause.words[:LITTLE])
        if asked or any(piece.text == "?" for piece in pieces[clause.start : clause.end + 1]):
            out.add(clause.sentence)
    return out


def _cue(pieces: list[Piece], clauses: list[_Clause], n: int, made: Table) -> str | None:
    """What makes a clause an aside, if there is a count of its own elsewhere; ``None`` if nothing does."""
    clause = clauses[n]
    if is_any(pieces[clause.start], ("NOT",)) and made.has_any("wrote", clause.words):
        return None  # "(9 white,) not what I said before": put right
    if clause.says(_phrases(made, "aside_cause")) and not clause.types & {"PLANTS", "DUG", "RESISTANCE"}:
        return "cause"
    if clause.says(_phrases(made, "aside_now")) or {"WEATHER", "TODAY"} <= clause.types:
        return None  # "and rain there was .8 last night" is told of a day
    if _fancied(clauses, n, made):
        return "fancied"
    if _unseen(clauses, n, made):
        return "unseen"
    if _he_counted(clause, made):
        return "others"
    visited = not clause.types.isdisjoint(_LOOKED)
    plants = any(is_any(pieces[n + 1], ("PLANTS",)) for n in clause.numbers if n + 1 < clause.end)
    once = clause.says(_phrases(made, "aside_once"))
    done = bool(clause.types & _DONE)  # "ojo que aplicaron glufosinato hace dos semanas"
    times = (clause.says(_phrases(made, cue)) for cue in _TIMES)
    if not done and any(said and _measures(clause, said, made) is not None for said in times):
        return "measure"
    if once is not None and _beside_data(clause, once, made):
        return "measure"
    if once is not None or _YEAR in clause.words:
        left = _LEFT - _OF_SEED if once is not None and once[0] == 0 else _LEFT  # "last year's resistant bean"
        return None if clause.types & left or _looks_again(pieces, clause, once) else "once"
    if clause.types & _LEFT:
        return None
    if clause.says(_phrases(made, "aside_talk")) and not (clause.types & {"number"} or visited or plants):
        return None if _looks_again(pieces, clause) else "talk"
    counts = bool(clause.numbers) or not clause.types.isdisjoint(("NONE", "TOO_MANY"))
    said_of = (
        piece for piece in pieces[clause.start : clause.end] if "LINK" not in piece.types
    )  # "a vistoria foi ..."
    tells = counts or "stage" in clause.types or any(is_any(piece, _TELLS) for piece in said_of)
    tells = tells or _told_with(clauses, n, made)
    if _of_another_day(pieces, clauses, n, made):
        return "once"
    if ((visited or plants) and not _told_before(clauses, n)) or not tells:
        return None
    for cue in ("lately", "month", "others", "theirs", "ahead", "report"):
        said = clause.says(_phrases(made, f"aside_{cue}"))
        if said is None or _looks_again(pieces, clause, said) or _compares(clause, said, made):
            continue
        if cue in _AT_HEAD and (said[0] > LITTLE or (cue == "report" and not counts)):
            continue  # "6 plants by the neighbor", "he says it's clay loam"
        if cue != "month" or made.has_any("aside_past", clause.words):
            return cue
    return None


def _he_counted(clause: _Clause, made: Table) -> bool:
    """ "The man from the co-op told me that he counted 40 on a single plant": told by others of what they counted."""
    told = clause.says(_phrases(made, "aside_told_me"))
    counted = clause.says(_phrases(made, "aside_he_counted"))
    if told is None or counted is None or not told[1] <= counted[0] or clause.fields:
        return False
    return any(n >= clause.at[counted[1] - 1] for n in clause.numbers) and clause.at[told[0]] > clause.start


def _told_with(clauses: list[_Clause], n: int, made: Table) -> bool:
    """ "The neighbor sent a picture of his roots, with dozens of white ones": told of others in the next clause."""
    said = clauses[n].says(_phrases(made, "aside_others"))
    behind = clauses[n + 1] if n + 1 < len(clauses) else None
    if said is None or said[0] > LITTLE or behind is None or behind.sentence != clauses[n].sentence:
        return False
    opens = n == 0 or clauses[n - 1].sentence < clauses[n].sentence
    return opens and _with_them(behind, made) and not behind.types.isdisjoint(_TELLS) and not behind.fields


def _with_them(clause: _Clause, made: Table) -> bool:
    """ ", with dozens of white ones on them": no number, and a word by which it is told of what stands before."""
    return bool(clause.words) and made.has("aside_with", clause.words[0]) and not clause.numbers


def _fancied(clauses: list[_Clause], n: int, made: Table) -> bool:
    """ "He swore he saw white specks on the eleventh, which was a ragweed": thought to be seen, and it was not."""
    said = clauses[n].says(_phrases(made, "aside_fancied"))
    if said is None or clauses[n].fields or not clauses[n].types.isdisjoint(_LOOKED):
        return False
    words = [*clauses[n].words[said[1] :]]
    for clause in clauses[n + 1 :]:
        words += clause.words if clause.sentence == clauses[n].sentence else ()
    told = f" {' '.join(words)} "
    return any(f" {phrase} " in told for phrase in _phrases(made, "aside_refuted"))


def _unseen(clauses: list[_Clause], n: int, made: Table) -> bool:
    """ "The neighbor has plenty, but I have not seen that": what others told of, in the clause before, is denied."""
    clause = clauses[n]
    said = clause.says(_phrases(made, "aside_unseen"))
    if said is None or said[0] > LITTLE or said[1] + LITTLE < len(clause.words) or clause.fields or clause.numbers:
        return False
    before = [c for c in clauses[:n] if c.sentence == clause.sentence]
    return any(c.says(_phrases(made, cue)) is not None for c in before for cue in (*_OF_OTHERS, "aside_claims"))


_OF_OTHERS = ("aside_others", "aside_report")


def _of_another_day(pieces: list[Piece], clauses: list[_Clause], n: int, made: Table) -> bool:
    """ "On 6/30 it was 9 white on the same number": a count of a day before, where this visit is told whole above."""
    clause = clauses[n]
    span = range(clause.start, clause.end)
    days = [k for k in span if pieces[k].kind == "day" or is_any(pieces[k], ("WEEKDAY", "MONTH"))]
    if len(days) != 1 or not clause.found or days[0] - clause.start > LITTLE or clause.fields:
        return False
    told = {pieces[k].text for c in clauses[:n] if c.of == clause.of for k in range(c.start, c.end)}
    past = made.has_any("aside_past", clause.words)
    return past and pieces[days[0]].text not in told and _told_before(clauses, n)


_OF_SEED = frozenset({"VARIETY", "RESISTANCE", "SOURCE"})
_TIMES = ("aside_once", "aside_lately", "aside_month")
_AT_HEAD = ("others", "report")
LITTLE = 2
"""Words before who is spoken of: "but the neighbor" (judgement)."""


def _compares(clause: _Clause, said: tuple[int, int], made: Table) -> bool:
    """ "Up from 3 last week to 11": read together with the count of now."""
    return any(
        made.has("compared_with", clause.words[n]) and clause.words[n + 1] == "9" for n in range(said[0] - 1)
    ) and any(made.has("compared_to", word) for word in clause.words[said[1] :])


def _looks_again(pieces: list[Piece], clause: _Clause, said: tuple[int, int] | None = None) -> bool:
    """Is the next look told in it, outside of the words of its cue: not "on the first look", "a week back"?"""
    own = set(clause.at[said[0] : said[1]]) if said is not None else set()
    return any(is_any(pieces[n], ("LOOK",)) and n not in own for n in range(clause.start, clause.end))


def _beside(clauses: list[_Clause], cues: list[str | None], n: int, cue: str, made: Table) -> bool:
    """Is there a count beside the aside: for what cannot be of this visit of any field, else of its own?

    And told before it, or as of now, or with its field named again: "2 days ago: 9 shovld, 1w+1y" is a late note.
    """
    found = [k for k, clause in enumerate(clauses) if clause.found and cues[k] is None]
    if cue not in ("lately", "month", "report"):
        return bool(found)
    own: set[str | None] = {*clauses[n].fields} or {clauses[n].of}
    now = next((k for k in range(n + 1, len(clauses)) if clauses[k].says(_phrases(made, "aside_now"))), len(clauses))
    if not made.has_any("own_turn", clauses[n].words):  # "boss counted 14 white last week, i dug 8 .."
        behind = range(n + 1, len(clauses))
        now = min(now, next((k for k in behind if made.has_any("own_turn", clauses[k].words[:LITTLE])), now))
    named = next((k for k in range(n + 1, len(clauses)) if own & set(clauses[k].fields)), len(clauses))
    told = (name for k in found if k < n or k >= min(now, named) for name in (clauses[k].of, *clauses[k].fields))
    return own <= set(told)


def _told_before(clauses: list[_Clause], n: int) -> bool:
    """Stands a whole note of its field before the sentence of an aside, plants and all?"""
    if n and clauses[n - 1].sentence == clauses[n].sentence:
        return False
    dug = found = False
    for c in clauses[:n]:
        if clauses[n].of in (c.of, *c.fields):
            dug = dug or "PLANTS" in c.types or ("DUG" in c.types and bool(c.numbers)) or "series" in c.types
            found = found or c.found
        if dug and found:
            return True
    return False


def _of_now(pieces: list[Piece], clause: _Clause, made: Table) -> bool:
    """Is it of this visit by a word for now, a field, digging, or what is left a datum?"""
    now = clause.says(_phrases(made, "aside_now")) is not None
    return now or bool(clause.fields or clause.types & {*_LOOKED, *_LEFT}) or _looks_again(pieces, clause)


def _reach(pieces: list[Piece], clauses: list[_Clause], cues: list[str | None], n: int, made: Table) -> tuple[int, int]:
    """The first and last clause of an aside whose cue stands in clause n."""
    first = last = n
    sentence = clauses[n].sentence
    compares = clauses[n].says(_phrases(made, "aside_compares")) is not None and not clauses[n].numbers
    while last + 1 < len(clauses) and clauses[last + 1].sentence == sentence:
        if compares and last == n and _judges(clauses, last + 1, made):
            last += 1
            continue
        fancied = cues[n] == "fancied" and not _of_now(pieces, clauses[last + 1], made)
        once = cues[n] == "once" and _told_before(clauses, n)
        whole = fancied or (once and not _of_now(pieces, clauses[last + 1], made))
        if not whole and not _goes_on(pieces, clauses[last + 1], made, counted=bool(clauses[n].numbers)):
            break
        last += 1
    while first and clauses[first - 1].sentence == sentence and _lists(pieces, clauses[first]):
        before = clauses[first - 1]
        if not before.numbers or before.types & {"PLANTS", *_LOOKED}:
            break
        first -= 1
    return first, last


def _goes_on(pieces: list[Piece], clause: _Clause, made: Table, *, counted: bool) -> bool:
    """Does a clause go on with the aside before it: "when the beans were at V4", "3 yellow" behind "12 white"?"""
    if _of_now(pieces, clause, made):
        return False
    if counted and _lists(pieces, clause):
        return True
    if made.has("aside_goes_on", clause.words[0] if clause.words else "") or _with_them(clause, made):
        return True
    return not clause.numbers and clause.types.isdisjoint((*_TELLS, "stage", "day", "PLANTS"))


def _judges(clauses: list[_Clause], n: int, made: Table) -> bool:
    """ "(Compared with February,) Tinkers is the same and Kestrel got worse": their counts stand elsewhere."""
    clause = clauses[n]
    others = {name for k, other in enumerate(clauses) if k != n and other.found for name in (other.of, *other.fields)}
    plain = not clause.numbers and clause.types.isdisjoint((*_LOOKED, *_LEFT, "NONE", "TOO_MANY", "stage"))
    return plain and set(clause.fields) <= others and clause.says(_phrases(made, "aside_now")) is None


def _lists(pieces: list[Piece], clause: _Clause) -> bool:
    """Is it one more count of a list: "3 yellow"?"""
    if not clause.numbers or clause.numbers[0] != clause.start:
        return False
    behind = pieces[clause.start + 1] if clause.start + 1 < clause.end else None
    return is_any(behind, ("COLOUR", "FEMALES")) and not clause.types & {"PLANTS", *_LOOKED}


def _swallows(clauses: list[_Clause], first: int, last: int) -> bool:
    """May the names of an aside go with it? Not where what stands behind it is told of the field it begins with."""
    names = {name for clause in clauses[first : last + 1] for name in clause.fields}
    if not names:
        return True
    others = {name for n, clause in enumerate(clauses) if not first <= n <= last for name in clause.fields}
    behind = clauses[last + 1] if last + 1 < len(clauses) else None
    alone = behind is None or bool(behind.fields) or not behind.of or not _tells_of_visit(clauses[last + 1 :])
    return names <= others or alone


def _tells_of_visit(clauses: list[_Clause]) -> bool:
    """Is anything of a visit told before the next field is named?"""
    for clause in clauses:
        if clause.fields:
            return False
        if clause.numbers or not clause.types.isdisjoint((*_TELLS, *_LOOKED, "stage")):
            return True
    return False


def _behind_field(pieces: list[Piece], begin: int) -> int:
    """Where an aside begins behind the name it is told of: "Kestrel | was full last year"."""
    return begin + 1 if "FIELD" in pieces[begin].types else begin


def _cause(clause: _Clause, made: Table) -> tuple[int, int]:
    """ "I think Hobnail is an iron problem and not SCN": all of it, or without an opinion what is denied."""
    said = clause.says(_phrases(made, "aside_cause"))
    opinion = clause.says(_phrases(made, "aside_opinion"))
    if said is None or (opinion is not None and opinion[0] <= LITTLE):
        return clause.start, clause.end
    return clause.at[said[0]], clause.at[said[1] - 1] + 1


def _beside_data(clause: _Clause, said: tuple[int, int], made: Table) -> bool:
    """ "R4 moist loam corn last year": what stands before the other time, without a verb of the past, is of now."""
    told = not clause.types.isdisjoint(("stage", "MOISTURE", "TEXTURE", "TOP", "ROOT", *_LOOKED))
    return told and said[0] > 1 and not made.has_any("aside_past", clause.words)


def _measure(clause: _Clause, made: Table) -> tuple[int, int]:
    """ "(Yellow patch is bigger) than last week": what is now stays, and what it is held against is left out."""
    told = [said for cue in _TIMES if (said := clause.says(_phrases(made, cue))) is not None]
    held = next((said for said in told if _measures(clause, said, made) is not None), told[0])
    than = _measures(clause, held, made)
    return clause.at[held[0] if than is None else than], clause.at[held[1] - 1] + 1
