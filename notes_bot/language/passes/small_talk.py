"""Numbers and colors of small talk: years long ago, ages, hours, cars, plants taken along; none tells what was found.

"Clean since he bought it in '71", "my sister who is 10", "the heat got me and I quit at 1", "a door for a 98 pickup",
"put two plants in a bag for the clinic". Each is known by a word beside it that has no use in a count; where such a
word is missing, the number stays and is asked about.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from itertools import pairwise

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece, count_told, ends_clause, number_told, piece_at, put_aside
from notes_bot.language.lexicon.words import Table, anywhere, table
from notes_bot.language.passes.colored_things import counts_on
from notes_bot.model import Language

FIRST_YEAR, LAST_YEAR = 1900, 2035
"""Years people tell stories of (judgement)."""
OLD_YEAR = 40
"""Two figures from which a number behind "in" is a year of the last century (judgement)."""
LAST_HOUR = 12
"""Of a clock."""
LEAST_MINUTES, MOST_MINUTES, LAST_MINUTE = 5, 30, 59
"""Minutes told beside an hour, "twenty past" (judgement)."""
LEAST_AGE, MOST_AGE = 3, 99
"""Ages told in passing (judgement)."""
LONGEST_CLAUSE = 30
"""Pieces of the longest clause looked at (judgement)."""
NEAR_GOAL = 8
"""Pieces from plants taken along to where they went: "two plants, roots and all, in a bag" (judgement)."""
FARTHEST_PLANTS = 120
"""Pieces from plants taken along back to those dug (judgement)."""
NEAR_VERB = 3
"""Pieces from the verb to the plants taken along: "put another two plants" (judgement)."""
_COUNTED = ("COLOUR", "FEMALES", "PLANTS", "DUG", "HAD", "EGGS", "PPM", "UNIT", "NODULES", "TOTAL", "EACH")
_HOUR_WRITTEN = frozenset({"à", "às"})
"""As written: the word files know no accents, and without its accent it is only an article."""
_FOUND = ("COLOUR", "FEMALES", "NONE", "TOO_MANY", "HAD")


def figures_of_talk(pieces: list[Piece], made: Table, text: str) -> list[Piece]:
    """The pieces with each number of small talk, and the words that belong to it, as one aside."""
    return put_aside(pieces, lambda n: (size := _talk(pieces, n, made, text)) and n + size)


def _talk(pieces: list[Piece], n: int, made: Table, text: str) -> int:
    """How many pieces from n on are a number of small talk; 0 for none."""
    piece = pieces[n]
    openers = _openers(made.language, _FIGURES)
    if piece.kind == "word" and "NUMBER_WORD" not in piece.types and openers.isdisjoint(piece.text.split(" ")):
        return 0
    told = _event(pieces, n, made) or _machine(pieces, n, made) or _hours(pieces, n, made)
    if told or number_told(pieces[n]) is None or _heads_list(pieces, n):
        return told
    if minutes := _minutes(pieces, n, made):
        return minutes
    number = (
        _year(pieces, n, made)
        or _age(pieces, n, made)
        or _hour(pieces, n, made, text)
        or _past_counting(pieces, n, made)
        or _lasting_until(pieces, n, made)
        or _the_one(pieces, n, made)
    )
    return int(number) or _taken_along(pieces, n, made)


def _heads_list(pieces: list[Piece], n: int) -> bool:
    """ "(Per plant it was) 4,0,2": does a list of numbers begin there?"""
    return all(number_told(piece_at(pieces, n + k)) is not None for k in (2, 4)) and all(
        getattr(piece_at(pieces, n + k), "text", "") == "," for k in (1, 3)
    )


_FIGURES = ("talk_event_of_year", "talk_machine_word", "talk_hours_from", "talk_pronoun_one")
"""Manners of words with which a number of small talk begins, where it does not begin with the number."""
_SHADES = ("talk_hardly_any", "talk_all_that", "talk_colored_body", "talk_they_word")
"""The same for a color of small talk."""


@cache
def _openers(language: Language, manners: tuple[str, ...]) -> frozenset[str]:
    """The words of what has one of these manners."""
    traits = table(language).traits
    return frozenset(word for manner in manners for phrase in traits.get(manner, ()) for word in phrase.split(" "))


def colors_of_talk(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with each color of small talk as an aside: "my hands are still brown", "hardly any white left"."""
    openers = _openers(made.language, _SHADES)
    if not any(
        ("COLOUR" in a.types and any(made.has(of, b.text) for of in ("talk_colored_thing", "noun_one")))
        or b.text.split(" ")[0] in openers
        for a, b in pairwise([Piece("line", "", 0, 0), *pieces])
    ):
        return pieces
    counted = any(
        is_any(b, ("COLOUR", "FEMALES", "TOTAL")) and (number_told(a) is not None or is_any(a, ("MOSTLY",)))
        for a, b in pairwise(pieces)
    )
    if not counted and not any(is_any(piece, ("NONE",)) for piece in pieces):
        return pieces
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        if "COLOUR" not in pieces[n].types and pieces[n].text.split(" ")[0] not in openers:
            out.append(pieces[n])
            n += 1
            continue
        if n and _roots_meant(pieces, n, made):
            out.append(
                Piece("word", pieces[n].text, pieces[n].start, pieces[n].end, tuple(made.singles.get("roots", ())))
            )
            n += 1
            continue
        end = _hardly_any(pieces, n, made) or _colored_thing(pieces, n, made) or _shade_judged(pieces, n, made)
        end = end or _colored_body(pieces, n, made) or _shade_of_then(pieces, n, made) or _shade_unsure(pieces, n, made)
        if end:
            out.append(Piece("aside", "", pieces[n].start, pieces[end - 1].end))
        else:
            out.append(pieces[n])
        n = end or n + 1
    return out


def colored_creatures(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "(Three brown dogs) met me", "(os 2 cachorros brancos) da vizinha": their number and color as an aside."""
    out = list(pieces)
    for n, piece in enumerate(pieces):
        if not is_any(piece, ("COLOUR",)):
            continue
        before, behind = piece_at(pieces, n - 1), piece_at(pieces, n + 1)
        if made.language == "en" and behind is not None and made.has("talk_creature", behind.text):
            first, last = n, n + 1
        elif made.language != "en" and before is not None and made.has("talk_creature", before.text):
            first, last = n - 1, n
        else:
            continue
        first -= number_told(piece_at(pieces, first - 1)) is not None
        if number_told(pieces[first]) is not None and counts_on(pieces, first):
            continue
        out[first : last + 1] = [Piece("aside", "", p.start, p.end) for p in pieces[first : last + 1]]
    return out


def _hardly_any(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "hardly any white left", "casi ninguna blanca", "hardly a white one to be found" ends; 0 for none."""
    words = [piece.text for piece in pieces[n : n + 4]]
    size = next((k for k in (3, 2, 1) if made.has("talk_hardly_any", " ".join(words[:k]))), 0)
    if not size or not is_any(piece_at(pieces, n + size), ("COLOUR",)):
        return 0
    end = n + size + 1
    behind = piece_at(pieces, end)
    return end + (behind is not None and made.has("noun_one", behind.text))


def _colored_thing(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "(those) white tags", "a white pickup" ends: a color of what is no female; 0 for none."""
    behind = piece_at(pieces, n + 1)
    counted = number_told(piece_at(pieces, n - 1)) not in (None, 1)
    thing = behind is not None and made.has("talk_colored_thing", behind.text)
    return n + 2 if thing and not counted and is_any(pieces[n], ("COLOUR",)) else 0


def _shade_judged(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "brown ones don't count", "my first tan ones" ends: what is thought of a color; 0 for none."""
    if not is_any(pieces[n], ("COLOUR",)) or number_told(piece_at(pieces, n - 1)) is not None:
        return 0
    one = piece_at(pieces, n + 1)
    if one is None or not made.has("noun_one", one.text):
        return 0
    words = _words(pieces[n + 2 : n + 5])
    judged = any(made.has("talk_shade_judged", " ".join(words[:size])) for size in (1, 2, 3))
    before = _words(pieces[max(0, n - 2) : n])
    first = any(made.has("talk_shade_of_mine", " ".join(before[-size:])) for size in (1, 2))
    return n + 2 if judged or (first and ends_clause(piece_at(pieces, n + 2))) else 0


def _colored_body(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "(my) hands are still brown" ends; 0 for none."""
    if not made.has("talk_colored_body", pieces[n].text):
        return 0
    end = _clause_end(pieces, n)
    shades = [k for k in range(n + 1, end) if is_any(pieces[k], ("COLOUR",))]
    verbs = [k for k in range(n + 1, end) if made.has("copula", pieces[k].text)]
    plain = shades and verbs and verbs[0] < shades[0] and not any(number_told(p) is not None for p in pieces[n:end])
    return shades[-1] + 1 if plain else 0


def _shade_of_then(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "(compared to) all that white in July" ends; 0 for none."""
    words = [piece.text for piece in pieces[n : n + 3]]
    size = next((k for k in (3, 2, 1) if made.has("talk_all_that", " ".join(words[:k]))), 0)
    shade, upon, month = (piece_at(pieces, n + size + k) for k in range(3))
    then = upon is not None and made.has("year_lead", upon.text) and is_any(month, ("MONTH",))
    return n + size + 3 if size and is_any(shade, ("COLOUR",)) and then else 0


def _shade_unsure(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "(show me what a) tan one (looks like)", "tan (I am not so sure)" ends: a color somebody is to learn."""
    if not is_any(pieces[n], ("COLOUR",)):
        return 0
    clause = pieces[_clause_start(pieces, n) : _clause_end(pieces, n)]
    said = f" {' '.join(_words(clause))} "
    one = piece_at(pieces, n + 1)
    counted = any(number_told(piece) is not None and piece is not one for piece in clause)
    if counted or not any(f" {phrase} " in said for phrase in made.traits.get("talk_unsure", ())):
        return 0
    return n + 1 + (one is not None and (made.has("noun_one", one.text) or number_told(one) == 1))


def _roots_meant(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "Nothing on the roots. (They) were nice and white too": the roots told at the end of the sentence before."""
    if not made.has("talk_they_word", pieces[n].text) or pieces[n - 1].value != "hard":
        return False
    if not any(is_any(piece, ("ROOT", "NONE")) and "root" in piece.text for piece in pieces[max(0, n - 3) : n]):
        return False
    clause = pieces[n : _clause_end(pieces, n)]
    shaded = any(
        is_any(piece, ("ROOTS",)) or (is_any(piece, ("COLOUR",)) and is_any(piece, ("ROOT",))) for piece in clause
    )
    return shaded and not any(number_told(piece) is not None for piece in clause)


# --- years


def _figures(piece: Piece | None) -> int:
    """How many figures a number is written in; 0 for a number in words, and for none."""
    return len(piece.text) if piece is not None and piece.kind == "number" and piece.text.isdecimal() else 0


def _of_a_year(piece: Piece | None) -> bool:
    """ "1988", "88": written as a year is."""
    size = _figures(piece)
    return size == 2 or (size == 4 and FIRST_YEAR <= (count_told(piece) or 0) <= LAST_YEAR)


def _event(pieces: list[Piece], n: int, made: Table) -> int:
    """ "The flood of 93", "la seca del 2008", "summer of '88"."""
    if not any(made.has("talk_event_of_year", word) for word in pieces[n].text.split(" ")):
        return 0
    of = piece_at(pieces, n + 1)
    if of is None or not made.has("talk_of_year", of.text):
        return 0
    k = n + 2
    while (piece := piece_at(pieces, k)) is not None and (piece.text == "'" or made.has("talk_of_year", piece.text)):
        k += 1
    return k + 1 - n if _of_a_year(piece_at(pieces, k)) and not is_any(piece_at(pieces, k + 1), _COUNTED) else 0


def _machine(pieces: list[Piece], n: int, made: Table) -> int:
    """ "A 98 pickup", "una chata modelo 94", "um trator de 78": the year a machine was built."""
    behind = piece_at(pieces, n + 1)
    if _of_a_year(pieces[n]) and behind is not None and made.has("talk_machine_word", behind.text):
        return 2
    if not made.has("talk_machine_word", pieces[n].text):
        return 0
    k = n + 1
    while (piece := piece_at(pieces, k)) is not None and made.has("talk_of_year", piece.text):
        k += 1
    told = k > n + 1 and _of_a_year(piece_at(pieces, k)) and not is_any(piece_at(pieces, k + 1), _COUNTED)
    return k + 1 - n if told else 0


def _year(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "(Told us about) 1988", "(since he bought it in) '71": a year, and nothing it could count behind it."""
    if not _of_a_year(pieces[n]) or is_any(piece_at(pieces, n + 1), _COUNTED):
        return False
    before = piece_at(pieces, n - 1)
    short = before is not None and before.text == "'" and before.end == pieces[n].start
    lead = piece_at(pieces, n - 1 - short)
    if is_any(lead, ("MONTH",)) or (lead is not None and lead.kind == "day"):
        return False
    words = _words(pieces[_clause_start(pieces, n) : n])
    led = any(made.has("talk_year_lead", " ".join(words[-size - short :][:size])) for size in (1, 2, 3))
    if short or not led:
        return short
    old = _figures(pieces[n]) == 2 and (count_told(pieces[n]) or 0) >= OLD_YEAR
    return _figures(pieces[n]) == 4 or (old and made.has_any("talk_long_ago", words))


# --- ages and hours


def _age(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "My sister who is 10", "she is fourteen": one of the people, and how old."""
    value = count_told(pieces[n])
    if value is None or not LEAST_AGE <= value <= MOST_AGE or not _ends(pieces, n + 1, made, "talk_age_goes_on"):
        return False
    words = _words(pieces[_clause_start(pieces, n) : n])
    lead = next((k for k in (3, 2, 1) if made.has("talk_age_lead", " ".join(words[-k:]))), 0)
    return bool(lead) and any(made.has("talk_person_of_age", word) for word in words)


def _hour(pieces: list[Piece], n: int, made: Table, text: str) -> int:
    """How many pieces an hour takes, "(quit at) 1", "(salí a la) 1", "(llegado tipo) dos y media"; 0 for none."""
    value = count_told(pieces[n])
    size = 1 + _part_of_hour(pieces, n + 1, made)
    if value is None or not 0 < value <= LAST_HOUR or not _ends(pieces, n + size, made, "talk_hour_goes_on"):
        return 0
    before = piece_at(pieces, n - 1)
    if before is None:
        return 0
    if text[before.start : before.end].lower() in _HOUR_WRITTEN:
        return size
    begin = _clause_start(pieces, n)
    words = _words(pieces[begin:n])
    if any(made.has("talk_hour_sure", " ".join(words[-k:])) for k in (1, 2, 3)):
        return size
    if any(made.has("talk_clock_lead", " ".join(words[-k:])) for k in (2, 3)):
        return size  # "by quarter past 2"
    led = any(made.has("talk_hour_lead", " ".join(words[-k:])) for k in (1, 2))
    arrived = made.has_any("talk_arrives", words) and any(is_any(piece, ("FIELD",)) for piece in pieces[begin:n])
    return size if led and (arrived or made.has_any("talk_hour_verb", words)) else 0


def _part_of_hour(pieces: list[Piece], n: int, made: Table) -> int:
    """How many pieces "(dos) y media", "(oito) e pouco", "(nove) e 15" take; 0 where the hour is whole."""
    joint, part = piece_at(pieces, n), piece_at(pieces, n + 1)
    if part is None or joint is None or joint.text not in anywhere("and_word"):
        return 0
    minutes = count_told(part)
    timed = minutes is not None and LEAST_MINUTES <= minutes <= LAST_MINUTE
    return 2 * (timed or made.has("talk_hour_part", part.text))


def _minutes(pieces: list[Piece], n: int, made: Table) -> int:
    """ "Ten till 4", "20 after 3", "five past noon": minutes beside an hour, and no count."""
    joint, hour = piece_at(pieces, n + 1), piece_at(pieces, n + 2)
    value, until = count_told(pieces[n]), count_told(hour)
    if joint is None or hour is None or not made.has("talk_clock_joint", joint.text):
        return 0
    if value is None or not LEAST_MINUTES <= value <= MOST_MINUTES:
        return 0
    clock = (until is not None and 0 < until <= LAST_HOUR) or made.has("talk_clock_word", hour.text)
    before = piece_at(pieces, n - 1)
    free = before is None or ends_clause(before) or before.text == ":" or made.has("talk_hour_lead", before.text)
    return 3 if clock and free and _ends(pieces, n + 3, made, "talk_hour_goes_on") else 0


def _hours(pieces: list[Piece], n: int, made: Table) -> int:
    """ "Between 7 and 1", "from 8 until 12 in the heat", "entre las 7 y la 1", "das 7 à 1": no count falls so."""
    if not made.has("talk_hours_from", pieces[n].text):
        return 0
    k = _behind_articles(pieces, n + 1, made)
    first, joint = count_told(piece_at(pieces, k)), piece_at(pieces, k + 1)
    if first is None or joint is None or not made.has("talk_hours_to", joint.text):
        return 0
    last = _behind_articles(pieces, k + 2, made)
    until = count_told(piece_at(pieces, last))
    if until is None or not 0 < until <= LAST_HOUR or not 0 < first <= LAST_HOUR:
        return 0
    named = last > k + 2 or k > n + 1
    behind = _words(pieces[last + 1 : last + 3])
    of_day = any(made.has("talk_hour_goes_on", " ".join(behind[:size])) for size in (1, 2))
    counts = is_any(piece_at(pieces, last + 1), _COUNTED)
    return last + 1 - n if not counts and (first > until or named or of_day) else 0


def _behind_articles(pieces: list[Piece], k: int, made: Table) -> int:
    """Behind the articles of an hour: "las (7)", "a (1)"."""
    while (piece := piece_at(pieces, k)) is not None and made.has("talk_hour_article", piece.text):
        k += 1
    return k


# --- others


def _lasting_until(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "The bridge is closed until the (15)", "el puente está cerrado hasta el (15)": a day on which that ends."""
    if not (pieces[n].kind == "number" and 0 < (count_told(pieces[n]) or 0) <= LAST_DAY):
        return False
    words = _words(pieces[_clause_start(pieces, n) : n])
    until = any(made.has("until_entry", word) for word in words[-UNTIL_NEAR:])
    return until and made.has_any("lasts", words) and not is_any(piece_at(pieces, n + 1), (*_COUNTED, "MEASURE"))


LAST_DAY = 31
"""Of a month."""
UNTIL_NEAR = 3
"""Words from "until" to its day, "até o dia" (judgement)."""


def _past_counting(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "Lost count past 60": how far somebody counted where they were too many."""
    words = _words(pieces[_clause_start(pieces, n) : n])
    led = bool(words) and made.has("talk_counted_past", words[-1])
    many = any(is_any(piece, ("TOO_MANY",)) for piece in pieces[_clause_start(pieces, n) : n])
    return led and many and ends_clause(piece_at(pieces, n + 1))


def _the_one(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "That's the one to watch", "(typing) with one thumb": somebody or something, and no number."""
    lead, behind = piece_at(pieces, n - 1), piece_at(pieces, n + 1)
    if not made.has("talk_pronoun_one", pieces[n].text) or lead is None:
        return False
    thing = made.has("with_word", lead.text) and behind is not None and behind.kind == "word" and not behind.entries
    if not (made.has("talk_one_lead", lead.text) or thing):
        return False
    if any(is_any(piece, ("NONE",)) for piece in pieces[_clause_start(pieces, n) : n]):
        return False  # "zeros except for the last one"
    rest = pieces[n + 1 : _clause_end(pieces, n)]
    end = next((k for k, piece in enumerate(rest) if piece.text == ":"), len(rest))
    return not any(is_any(piece, (*_COUNTED, "NONE")) or number_told(piece) is not None for piece in rest[:end])


def _taken_along(pieces: list[Piece], n: int, made: Table) -> int:
    """ "(Put) two plants in a bag for the clinic": of those dug before, taken somewhere; nothing was found on them."""
    plants = piece_at(pieces, n + 1)
    if not is_any(plants, ("PLANTS",)) or not _dug_before(pieces, n):
        return 0
    begin, end = _clause_start(pieces, n), _clause_end(pieces, n)
    verb = _words(pieces[max(begin, n - NEAR_VERB) : n])
    if not made.has_any("talk_takes_along", verb) or any(is_any(piece, _FOUND) for piece in pieces[n:end]):
        return 0
    goals = [
        k for k in range(n + 2, min(end, n + NEAR_GOAL)) if made.has_any("talk_taken_to", _words(pieces[k : k + 1]))
    ]
    return goals[-1] + 1 - n if goals else 0


def _dug_before(pieces: list[Piece], n: int) -> bool:
    """Are plants counted before, of the same field?"""
    for k in range(n - 1, max(0, n - FARTHEST_PLANTS), -1):
        if is_any(pieces[k], ("FIELD",)):
            return False
        near = (piece_at(pieces, k - 1), piece_at(pieces, k + 1))
        if is_any(pieces[k], ("PLANTS", "DUG")) and any(number_told(piece) is not None for piece in near):
            return True
    return False


def _clause_start(pieces: Sequence[Piece], n: int) -> int:
    """Where the clause begins in which n stands, not farther back than a clause is long."""
    least = max(0, n - LONGEST_CLAUSE)
    while n > least and not ends_clause(pieces[n - 1]):
        n -= 1
    return n


def _clause_end(pieces: Sequence[Piece], n: int) -> int:
    """Where the clause ends in which n stands, not farther than a clause is long."""
    most = min(len(pieces), n + LONGEST_CLAUSE)
    while n < most and not ends_clause(pieces[n]):
        n += 1
    return n


def _ends(pieces: list[Piece], n: int, made: Table, goes_on: str) -> bool:
    """Does the clause end there, or go on with words of a manner?"""
    words = _words(pieces[n : n + 3])
    ended = ends_clause(piece_at(pieces, n)) or words[:1] == [":"]
    return ended or any(made.has(goes_on, " ".join(words[:k])) for k in (1, 2))


def _words(pieces: Sequence[Piece]) -> list[str]:
    """The words of pieces, each on its own."""
    return " ".join(piece.text for piece in pieces).split()
