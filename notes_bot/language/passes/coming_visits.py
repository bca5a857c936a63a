"""Days of a mail that are told in words of its own: when its writer goes to a field again, or a day of something else.

"Twelve days from now I drive through there again and will stop", "Marquei nova vistoria para 20/8": somebody goes, it
is once more, and there is one day or time, not past. All but the time and the field is put aside, and the time is that
of a next look. "Saturday's inch of rain" tells of no visit.
"""

from __future__ import annotations

from collections.abc import Sequence

from notes_bot.language.lexicon.days import DayWritten
from notes_bot.language.lexicon.joining import day_number, is_any, linking
from notes_bot.language.lexicon.pieces import Piece, piece_at
from notes_bot.language.lexicon.words import Entry, Table, anywhere

LEAST_WORDS = 3
"""Words of a sentence that tells a next look at length; a shorter one is read as notes are (judgement)."""
LONGEST_PHRASE = 5
"""Words of the longest phrase for going somewhere once more (judgement)."""
_LOOK = (Entry("LOOK", "look"),)
_TOLD = (
    *("COLOUR", "PLANTS", "NONE", "FEMALES", "TOO_MANY", "SPRAY", "CHEMICAL", "PLANTED", "EGGS", "NOT_LOOKED"),
    *("CHECK", "RESISTANCE", "ENTRY", "MONTH", "AGO", "CORRECT", "UNDO"),
)
"""Kinds of word of a sentence that tells more than a next look."""


def visits_promised(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with each such sentence as a next look and its time, its field kept."""
    out: list[Piece] = []
    told: list[str] = []
    start = 0
    for n, piece in enumerate(pieces):
        ends = (_stops(piece) and piece.text != ";") or (piece.kind == "sign" and piece.text == ".")
        if not (ends or n + 1 == len(pieces)):
            continue
        last = n if ends else n + 1
        sentence = pieces[start:last]
        named = [piece.types["FIELD"].value for piece in sentence if is_any(piece, ("FIELD",))]
        again = _of_one_before(told, set(named))
        told += named
        out += sentence if again else _as_look(sentence, made) or _clauses_as_looks(sentence, made)
        out += pieces[last : n + 1]
        start = n + 1
    return out


def _of_one_before(told: Sequence[str], named: set[str]) -> bool:
    """ "En El Fresno .. En diez días volvemos a La Loma": is it of a field told of, and not the last one?"""
    return bool(told) and len(named) == 1 and told[-1] not in named and not named.isdisjoint(told)


def _clauses_as_looks(sentence: list[Piece], made: Table) -> list[Piece]:
    """A sentence with each of its clauses that promises a visit as a next look."""
    if not any(piece.kind == "break" for piece in sentence):
        return sentence
    out: list[Piece] = []
    start = 0
    for n in range(len(sentence) + 1):
        if n == len(sentence) or sentence[n].kind == "break":
            clause = sentence[start:n]
            out += [*(_as_look(clause, made) or clause), *sentence[n : n + 1]]
            start = n + 1
    return out


def _as_look(sentence: list[Piece], made: Table) -> list[Piece]:
    """A sentence that promises a visit as a next look and its time; empty when it is none."""
    sentence, dated = _nth_as_day(sentence, made)
    words = [word for piece in sentence if piece.kind == "word" for word in piece.text.split(" ")]
    if len(words) + dated < LEAST_WORDS or (sentence and sentence[-1].text == "?"):
        return []
    if dated and made.has_any("else_was", words):
        return []  # "a visita foi dia 28"
    times = _times(sentence)
    first, last = times[0] if len(times) == 1 else (0, 0)
    if first == last or _told_at_once(sentence, first) or _tells_more(sentence, sentence[first:last], made):
        return []
    phrases = _phrases(words)
    goes = made.has_any("sure_visit", phrases) or all(
        made.has_any(manner, phrases) for manner in ("visits_then", "once_again")
    )
    goes = goes or _only_again([*sentence[:first], *sentence[last:]], made)
    if not goes or made.has_any("been_there", words) or any(made.has_any(of, phrases) for of in _OTHERS):
        return []
    look = Piece("word", made.write("look"), sentence[first].start, sentence[first].start, _LOOK, None, True)
    if any(is_any(piece, ("FIELD",)) for piece in sentence[last:]):
        named = [piece for piece in sentence if is_any(piece, ("FIELD",))]
        return [*named, look, *sentence[first:last]]
    return [*_field_only(sentence[:first]), look, *sentence[first:last], *_field_only(sentence[last:])]


def _phrases(words: Sequence[str]) -> set[str]:
    """What words say, one and more together."""
    return {" ".join(words[n : n + size]) for n in range(len(words)) for size in range(1, LONGEST_PHRASE + 1)}


def _nth_as_day(sentence: list[Piece], made: Table) -> tuple[list[Piece], bool]:
    """ "El 24 vuelvo", "para el 24 otra pasada": with the only number as the day it is, behind what leads to one."""
    numbers = [n for n, piece in enumerate(sentence) if piece.kind in ("number", "range", "day")]
    n = numbers[0] if len(numbers) == 1 else 0
    weekday = n > 0 and sentence[n].kind == "number" and is_any(sentence[n - 1], ("WEEKDAY",))
    if not n or not day_number(sentence[n]) or not (weekday or made.has("nth_lead", sentence[n - 1].text)):
        return sentence, False
    if is_any(piece_at(sentence, n + 1), ("UNIT", "PLANTS", "COLOUR", "FEMALES", "MONTH")):
        return sentence, False
    day = DayWritten(sentence[n].text, day=sentence[n].value)
    told = Piece("day", sentence[n].text, sentence[n].start, sentence[n].end, (), day, sentence[n].spaced)
    return [*sentence[:n], told, *sentence[n + 1 :]], True


def _only_again(rest: list[Piece], made: Table) -> bool:
    """ "(En 10 días) otra vez", "daqui (10 dias) de novo": nothing beside the time but that it is once more."""
    said = [p.text for p in rest if not (linking(p) or p.kind == "break" or made.has("span_lead", p.text))]
    return bool(said) and made.has("once_again", " ".join(said))


def _field_only(pieces: list[Piece]) -> list[Piece]:
    """Pieces with all but a field's name put aside."""
    stop = next((n for n, piece in enumerate(pieces) if is_any(piece, ("FIELD",))), len(pieces))
    runs = (pieces[:stop], pieces[stop : stop + 1], pieces[stop + 1 :])
    aside = [[Piece("aside", "", run[0].start, run[-1].end)] if run else [] for run in runs]
    return [*aside[0], *runs[1], *aside[2]]


_OTHERS = ("kin_word", "other_deed", "story_word", "field_group")
"""Manners of words of a sentence that is of other people or deeds, or of several fields."""


def _times(sentence: Sequence[Piece]) -> list[tuple[int, int]]:
    """Where the days, and times of days or weeks, of a sentence stand."""
    out: list[tuple[int, int]] = []
    pieces = list(sentence)
    for n, piece in enumerate(pieces):
        if piece.kind == "day":
            out.append((n, n + 1))
        elif piece.kind == "number" and is_any(piece_at(pieces, n + 1), ("UNIT",)):
            out.append((n, n + 2))
    return out


def _told_at_once(sentence: Sequence[Piece], first: int) -> bool:
    """Does a word for looking again stand right before the time, so that it is read as it is?"""
    before = [piece for piece in sentence[:first] if not linking(piece)]
    return bool(before) and is_any(before[-1], ("LOOK",))


def _tells_more(sentence: Sequence[Piece], time: Sequence[Piece], made: Table) -> bool:
    """Is there a count, a finding, a second field or a day that is past?"""
    day = time[0].value if time[0].kind == "day" else None
    if day is not None and day.days_ago is not None and day.days_ago >= 0:
        return True
    rest = [piece for piece in sentence if piece not in time and not made.has("visit_noun", piece.text)]
    if any(piece.kind not in ("word", "break", "sign", "aside") or _tells(piece) for piece in rest):
        return True
    return sum(is_any(piece, ("FIELD",)) for piece in sentence) > 1


def _tells(piece: Piece) -> bool:
    """Does a word tell more than a next look? "A" is a color only beside a count, and "sacar raíces" what is to do."""
    kinds = piece.types.keys() & set(_TOLD)
    kinds -= {"COLOUR"} if "LINK" in piece.types else set()
    return bool(kinds - {"PLANTS"} if "ROOTS" in piece.types else kinds)


def plants_to_come(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Will dig (8) thursday", "back wed (to pull 12)": how many are to be dug then is put aside."""
    out = list(pieces)
    for n, piece in enumerate(pieces):
        if not is_any(piece, ("LOOK",)):
            continue
        near = range(n + 1, min(n + NEAR_DAY, len(pieces)))
        time = [k for k in near if pieces[k].kind == "day" or is_any(pieces[k], ("UNIT", "WHICH"))]
        if not time or any(p.kind in ("break", "line") for p in pieces[n : time[-1]]):
            continue
        if len(time) == 1 and pieces[time[0]].kind == "day":
            for k in range(n + 1, time[0]):
                if pieces[k].kind == "number" or (k > n + 1 and is_any(pieces[k], ("PLANTS",))):
                    out[k] = Piece("aside", "", pieces[k].start, pieces[k].end)  # "will dig 8 plants thursday"
        day = time[-1]
        last = min(len(pieces), day + LONGEST_PURPOSE)
        end = next((k for k in range(day, last) if pieces[k].kind in ("break", "line")), last)
        told = pieces[day + 1 : end]
        words = [word for p in told[:2] for word in p.text.split(" ")]
        purpose = bool(words) and made.has("then_to", words[0])
        purpose = purpose or (len(words) > 1 and made.has("and_word", words[0]) and made.has("digs_then", words[1]))
        if purpose and any(p.kind == "number" for p in told) and not any(is_any(p, _FOUND) for p in told):
            out[day + 1 : end] = [Piece("aside", "", p.start, p.end) for p in told]
    return out


_FOUND = ("COLOUR", "FEMALES", "NONE", "UNIT", "TOTAL", "FIELD")
"""Kinds of word beside which a number is of what was found, or of a time."""
LONGEST_PURPOSE = 10
"""Pieces behind the day among which is told what for: "to pull another 12 plants or so" (judgement)."""
NEAR_DAY = 5
"""Pieces behind a word for looking again among which its day stands (judgement)."""


def days_of_events(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "(Wet after) Saturday's (inch of rain)", "tomorrow (I am at the store)": the day of something else, aside."""
    out = list(pieces)
    for n, piece in enumerate(pieces):
        if piece.kind == "day" and (_of_event(pieces, n, made) or _of_other_deed(pieces, n, made)):
            out[n] = Piece("aside", "", piece.start, piece.end)
    return out


def _of_event(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "Saturday's inch of rain", "Monday's meeting"."""
    if not pieces[n].text.endswith("'s") or pieces[n].value.weekday is None:
        return False
    behind = [word for p in pieces[n + 1 : n + 1 + NEAR_EVENT] if p.kind == "word" for word in p.text.split(" ")]
    return made.has_any("weather_word", behind) or made.has_any("event_word", behind)


LONG_SENTENCE = 60
"""Pieces of a sentence before and behind a day that are looked at, at most (judgement)."""


def _of_other_deed(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "So tomorrow I am at the hardware store": what is done that day, and no word of looking, there or again."""
    if not (pieces[n].value.days_ago or 0) < 0:
        return False
    first, last = n, n
    while first > max(0, n - LONG_SENTENCE) and not _stops(pieces[first - 1]):
        first -= 1
    while last + 1 < min(len(pieces), n + LONG_SENTENCE) and not _stops(pieces[last + 1]):
        last += 1
    rest = [*pieces[first:n], *pieces[n + 1 : last + 1]]
    words = [word for piece in rest if piece.kind == "word" for word in piece.text.split(" ")]
    told = [piece for piece in rest if not linking(piece)]
    lead = piece_at(pieces, n - 1) if n > first else None
    closed = any(is_any(piece, ("SPRAY", "CHEMICAL", "ENTRY")) for piece in told)
    if lead is not None and closed and (lead.text in anywhere("until_entry") or made.has("before_day", lead.text)):
        return True  # "nobody go in before tomorrow noon, insecticide went on"
    if len(words) < LEAST_DEED or any(is_any(piece, ("FIELD", "SPRAY", "CHEMICAL", "ENTRY")) for piece in told):
        return False
    looks = any(is_any(piece, ("LOOK", "DUG", "NOT_LOOKED", "PLANTS")) for piece in told)
    there = any(made.has_any(manner, words) for manner in ("ask_there", "once_again", "tries", "them", "for_all"))
    there = there or made.has_any("ask_it", words) or made.has_any("sure_visit", _phrases(words))
    return not (looks or there) or (looks and any(map(made.denies, words)))


def _stops(piece: Piece) -> bool:
    """Does a sentence end with it?"""
    return piece.kind == "line" or (piece.kind == "break" and piece.value == "hard")


LEAST_DEED = 4
"""Words of a sentence that tells what is done tomorrow (judgement)."""
NEAR_EVENT = 3
"""Pieces behind a weekday among which the rain or the like is named (judgement)."""
