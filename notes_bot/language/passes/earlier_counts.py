"""Counts of an earlier look that are held against those of this one: "last time was 4, now 13 white", "11w, was 5w".

What was counted then goes to the free text as an aside, before any number of it can be taken for one of this visit.
Only where both are told: words for then with a count, and a count of now behind a word for now (or before the "was").
Without either, all stays as it is told, and is asked about where it contradicts itself.
"""

from __future__ import annotations

from collections.abc import Sequence

from notes_bot.language.lexicon.joining import is_any, number_like
from notes_bot.language.lexicon.pieces import Piece, count_told, ends_clause, piece_at
from notes_bot.language.lexicon.words import Table

FARTHEST_NOW = 16
"""Pieces from the words for then in which the word for now is looked for (judgement)."""
LONGEST_THEN = 6
"""Pieces of the words for then: "at the time of the previous visit" (judgement)."""
FARTHEST_COUNT = 120
"""Pieces back to the count of this look, and of the longest sentence held against it (judgement)."""
LONGEST_TIME = 4
"""Words for a time behind what was: "(was 5 white) the week before" (judgement)."""
_FEMALE = ("COLOUR", "FEMALES", "TOTAL")
_LOOKED = ("PLANTS", "DUG", "TOOL", "SOAKED")
_NO_THEN = frozenset({"FIELD", "SPRAY", "CHEMICAL", "ENTRY", "PLANTED", "LOOK", "CORRECT", "LAB", "EGGS", "PH", "PPM"})
"""What does not stand among counts of an earlier look."""
_JOINS = frozenset({",", "+", "&", "/", "-"})


def held_against(pieces: list[Piece], made: Table) -> tuple[list[Piece], list[Piece]]:
    """The pieces of a message without its counts of an earlier look, and these, a piece each."""
    words = {piece.text for piece in pieces}
    cued = any(made.has_any(then, words) for then in ("then_or_was", "talk_then"))
    if not (cued or made.has_any("usual_word", words)) or not any(is_any(p, _LOOKED) for p in pieces):
        return pieces, []
    out: list[Piece] = []
    asides: list[Piece] = []
    n = 0
    while n < len(pieces):
        end = _not_as_usual(pieces, n, made)
        if cued:
            end = end or _then_up_to_now(pieces, n, made) or _what_was(pieces, n, made) or _from_to(pieces, n, made)
            end = end or _was_on_day(pieces, n, made) or _times_as_many(pieces, n, made) or _none_then(pieces, n, made)
            end = end or _last_time(pieces, n, made)
        if end:
            asides.append(Piece("aside", "", pieces[n].start, pieces[end - 1].end))
            n = end
            continue
        out.append(pieces[n])
        n += 1
    return out, asides


def _then_up_to_now(pieces: list[Piece], n: int, made: Table) -> int:
    """Where the earlier look of "last time was 4 | now 13 white" ends, from its first piece on; 0 for none."""
    behind = _behind_then(pieces, n, made)
    if not behind:
        return 0
    now = behind
    while now < len(pieces) and now < n + FARTHEST_NOW and not _says_now(pieces, now, made):
        risen = made.has("compared_to", pieces[now].text) and number_like(piece_at(pieces, now + 1))
        if risen or pieces[now].kind == "line" or not pieces[now].types.keys().isdisjoint(_NO_THEN):
            return 0  # "from 3 white last week to 11 today" is told in one breath
        now += 1
    if now >= min(len(pieces), n + FARTHEST_NOW) or not _counts(pieces[behind:now]):
        return 0
    end = next((k for k in range(now, len(pieces)) if pieces[k].kind == "line" or pieces[k].value == "hard"), None)
    said = pieces[now:end]
    clause = next((k for k, p in enumerate(said) if is_any(p, ("FIELD", *_NO_THEN))), len(said))
    return now if _counts(said[:clause]) or any(is_any(p, ("NONE",)) for p in said[:clause]) else 0


def _behind_then(pieces: list[Piece], n: int, made: Table) -> int:
    """Where words for an earlier look end that begin there: "last time", "two weeks back", "to compare with 7/2"."""
    before = piece_at(pieces, n - 1)
    begins = made.may_begin("then_told", _said(pieces[n : n + 1]))
    for size in range(min(LONGEST_THEN, len(pieces) - n), 0, -1) if begins else ():
        if made.has("then_told", _said(pieces[n : n + size])):
            return n + size
    opens = ends_clause(before) or is_any(before, ("FIELD",)) or (before is not None and before.kind == "sign")
    if opens and made.has("then_at_head", pieces[n].text):
        counted = piece_at(pieces, n + 1)
        counted = piece_at(pieces, n + 2) if counted is not None and made.has("was_then", counted.text) else counted
        return n + 1 if number_like(counted) or is_any(counted, ("COLOUR", "NONE")) else 0
    if opens and made.has("was_then", pieces[n].text) and _then_within(pieces, n + 1, made):
        return n + 1
    was = piece_at(pieces, n + 1)
    of_day = pieces[n].kind == "day" and was is not None and made.has("was_then", was.text)
    return n + 1 if of_day else 0


def _then_within(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "(Had) 3 white on 6 plants last time": words for an earlier look at the end of the clause from n on."""
    end = next((k for k in range(n, len(pieces)) if ends_clause(pieces[k])), len(pieces))
    return any(made.has("then_told", _said(pieces[max(n, end - size) : end])) for size in range(2, LONGEST_THEN))


def _said(pieces: Sequence[Piece]) -> str:
    """Pieces as the phrases of the word files have them, any number a 9 and any day 6/9."""
    return " ".join("9" if number_like(p) else "6/9" if p.kind == "day" else p.text for p in pieces)


def _says_now(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "Now", "this time", "ahora"."""
    return any(made.has("now_told", " ".join(p.text for p in pieces[n : n + size])) for size in (1, 2))


def _counts(pieces: Sequence[Piece]) -> bool:
    """Is anything counted there: a number that is no span of time?"""
    timed = (
        is_any(piece_at(pieces, n + 1), ("UNIT",)) and not is_any(pieces[n + 1], ("COLOUR",))
        for n in range(len(pieces))
    )
    return any(number_like(p) and not unit for p, unit in zip(pieces, timed, strict=True))


def _what_was(pieces: list[Piece], n: int, made: Table) -> int:
    """Where ", was 5w", "(previously 5 white)", ", up from 5" ends, behind a count of colors; 0 for none."""
    k = n
    for size in (3, 2, 1):
        if made.has("was_before", " ".join(p.text for p in pieces[n : n + size])):
            k = n + size
            break
    before = piece_at(pieces, n - 1)
    held = any(made.has("likens_to", p.text) for p in pieces[n:k])
    if (
        k == n
        or before is None
        or _written_before(pieces, n, made)
        or not (ends_clause(before) or before.kind == "sign" or is_any(before, _FEMALE))
    ):
        return 0
    k += made.has("lone_word", pieces[k].text) if k < len(pieces) else 0
    end = shaded = 0
    while count_told(piece_at(pieces, k)) is not None:
        k += 1
        shade = is_any(piece_at(pieces, k), _FEMALE)
        k += shade
        end, shaded = k, shaded or shade
        while (piece := piece_at(pieces, k)) is not None and (piece.text in _JOINS or made.has("and_word", piece.text)):
            k += 1
    if not end or not _counted_before(pieces, n, shaded=bool(shaded)):
        return 0
    time = end
    while (piece := piece_at(pieces, time)) is not None and time < end + LONGEST_TIME and _of_time(piece, made):
        time += 1
    if time == end and made.has("was_then", pieces[n].text) and _other_shades(pieces, n, end):
        return 0  # "3 amarillas, había 40 blancas": counted now, as the verb alone tells no other time
    return time if (time > end or not held) and ends_clause(piece_at(pieces, time)) else 0


def _other_shades(pieces: list[Piece], n: int, end: int) -> bool:
    """Are the colors told up to an end none of those counted in the clauses before?"""
    shades = {piece.types["COLOUR"].value for piece in pieces[n:end] if "COLOUR" in piece.types}
    for k in range(n - 1, max(0, n - FAR_BEFORE), -1):
        if is_any(pieces[k], ("FIELD",)) or pieces[k].kind == "line" or pieces[k].value == "hard":
            break
        counted = count_told(pieces[k - 1]) is not None or count_told(piece_at(pieces, k + 1)) is not None
        if counted and "COLOUR" in pieces[k].types and pieces[k].types["COLOUR"].value in shades:
            return False
    return bool(shades)


FAR_BEFORE = 40
"""Pieces before that are looked at for the same color, at most (judgement)."""


def _from_to(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "went from 2w to" ends, with a count of a color behind it; 0 for none."""
    k = n
    while (piece := piece_at(pieces, k)) is not None and made.has("compared_with", piece.text):
        k += 1
    if k == n or all(made.has("compared_from", p.text) for p in pieces[n:k]) or count_told(piece) is None:
        return 0
    k += 1 + is_any(piece_at(pieces, k + 1), _FEMALE)
    to = piece_at(pieces, k)
    told = to is not None and made.has("compared_to", to.text) and count_told(piece_at(pieces, k + 1)) is not None
    return k + 1 if told and is_any(piece_at(pieces, k + 2), _FEMALE) else 0


def _was_on_day(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "it was 10 on the first of July", "Kestrel was 19 on the 8th" ends, told of a field counted before."""
    if not _opens_sentence(pieces, n) or not _counted_whole(pieces, n):
        return 0
    k = n
    told = piece_at(pieces, k)
    if is_any(told, ("FIELD",)):
        if not _field_told(pieces, n):
            return 0
        k += 1
    words = " ".join(p.text for p in pieces[k : k + 3]).split(" ")
    size = next((size for size in (2, 1) if made.has("talk_it_was_then", " ".join(words[:size]))), 0)
    while size > 0 and k < len(pieces):
        size -= len(pieces[k].text.split(" "))
        k += 1
    if k == n + is_any(told, ("FIELD",)) or count_told(piece_at(pieces, k)) is None:
        return 0
    if is_any(piece_at(pieces, k + 1), ("UNIT",)) and not is_any(piece_at(pieces, k + 1), ("COLOUR",)):
        return 0  # "it was two days back I looked"
    end = _sentence_end(pieces, k)
    clause = pieces[k:end]
    if any(is_any(piece, (*_NO_THEN, *_LOOKED, "FIELD")) for piece in clause):
        return 0
    return end if _day_told(clause[1:], made) else 0


def _day_told(clause: Sequence[Piece], made: Table) -> bool:
    """ "On the 8th", "on the first of July", "no dia 2", "on June 20": is a day told among them?"""
    for k, piece in enumerate(clause[:-1]):
        lead = made.has("talk_day_of_then", piece.text)
        behind = clause[k + 1 : k + 4]
        if piece.text == "dia" and count_told(behind[0]) is not None:
            return True
        if lead and any(
            is_any(p, ("MONTH", "ORDINAL", "NTH", "WEEKDAY")) or p.kind == "day" or _nth(p) for p in behind
        ):
            return True
    return False


def _nth(piece: Piece) -> bool:
    """ "8th", "10th"."""
    return piece.kind == "number" and piece.text[:1].isdigit() and piece.text[-2:] in ("st", "nd", "rd", "th")


def _times_as_many(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "treble what it was on the 10th when I mailed in 4", "half as many last week" ends, behind a count."""
    words = " ".join(p.text for p in pieces[n : n + 6]).split(" ")
    size = next((k for k in (6, 5, 4, 3, 2) if made.has("talk_times_as_many", " ".join(words[:k]))), 0)
    if not size or not _counted_whole(pieces, n):
        return 0
    end = next((k for k in range(n, len(pieces)) if ends_clause(pieces[k])), len(pieces))
    held = pieces[n:end]
    other = (*(_NO_THEN - {"CORRECT"}), *_LOOKED, "FIELD")  # "it was" may begin what is put right
    return 0 if any(is_any(piece, other) for piece in held) else end


def _none_then(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "(where) it was nothing in June and nothing in July" ends, "all my zeros in June"; 0 for none."""
    words = " ".join(p.text for p in pieces[n : n + 3]).split(" ")
    led = any(made.has("talk_none_then_lead", " ".join(words[:size])) for size in (3, 2, 1))
    k = next((k for k in range(n, min(n + 4, len(pieces))) if is_any(pieces[k], ("NONE",))), None)
    if not led or k is None:
        return 0
    end = 0
    while is_any(piece_at(pieces, k), ("NONE",)):
        upon, month = piece_at(pieces, k + 1), piece_at(pieces, k + 2)
        if upon is None or not made.has("year_lead", upon.text) or not is_any(month, ("MONTH",)):
            break
        end = k + 3
        joint = piece_at(pieces, end)
        k = end + (joint is not None and (joint.text == "," or made.has("and_word", joint.text)))
    found = any(is_any(p, _FEMALE) and count_told(piece_at(pieces, k - 1)) for k, p in enumerate(pieces))
    return end if found else 0


def _last_time(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "Last time, in July, I'd 9 on six plants" ends, told of a field counted before; 0 for none."""
    if not _opens_sentence(pieces, n) or not _counted_whole(pieces, n):
        return 0
    if not any(made.has("then_told", _said(pieces[n : n + size])) for size in range(2, LONGEST_THEN)):
        return 0
    end = _sentence_end(pieces, n)
    told = pieces[n:end]
    now = any(_says_now(pieces, k, made) or made.has("compared_to", pieces[k].text) for k in range(n, end))
    counts = any(number_like(piece) for piece in told[2:])
    other = any(is_any(piece, (*_NO_THEN, "FIELD", "stage")) for piece in told)
    return end if counts and not now and not other else 0


def _opens_sentence(pieces: list[Piece], n: int) -> bool:
    """Does a sentence begin there?"""
    before = piece_at(pieces, n - 1)
    return before is None or before.kind == "line" or before.value == "hard"


def _sentence_end(pieces: list[Piece], n: int) -> int:
    """Where the sentence ends in which n stands."""
    last = min(len(pieces), n + FARTHEST_COUNT)
    return next((k for k in range(n, last) if pieces[k].kind == "line" or pieces[k].value == "hard"), last)


def _counted_whole(pieces: list[Piece], n: int) -> bool:
    """Are plants and what was on them counted before, of the field told last?"""
    least = max(0, n - FARTHEST_COUNT)
    begin = next((k for k in range(n - 1, least, -1) if is_any(pieces[k], ("FIELD",))), least)
    told = pieces[begin:n]
    dug = any(is_any(piece, ("PLANTS", "DUG")) for piece in told)
    return dug and sum(number_like(piece) for piece in told) > 1


def _field_told(pieces: list[Piece], n: int) -> bool:
    """Is the field named there named before as well?"""
    name = pieces[n].types["FIELD"].value
    return any(is_any(piece, ("FIELD",)) and piece.types["FIELD"].value == name for piece in pieces[:n])


def _not_as_usual(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "(dug 6) not 5 like usual", "(dug 6) instead of the usual 5" ends, from "not" on; 0 for none."""
    heads = [" ".join(p.text for p in pieces[n : n + size]) for size in (1, 2, 3)]
    denies = made.denies(pieces[n].text) or any(made.has("instead_of", head) for head in heads)
    near = next((k for k in range(n + 1, n + LONGEST_TIME) if number_like(piece_at(pieces, k))), 0)
    if not denies or not n or not near:
        return 0
    between = [word for p in pieces[n + 1 : near] for word in p.text.split(" ")]
    if any(made.has("usual_word", word) for word in between):
        return near + 1
    behind = near + 1 + is_any(piece_at(pieces, near + 1), ("PLANTS",))
    for size in range(LONGEST_TIME, 0, -1):
        told = " ".join(p.text for p in pieces[behind : behind + size])
        if made.has("as_usual", told) or made.has("of_usual", told):
            return min(behind + size, len(pieces))
    return 0


def _of_time(piece: Piece, made: Table) -> bool:
    """A word for a time of the past: "last", "week", "before"."""
    past = made.has("time_before", piece.text) or made.has("visit_word", piece.text)
    return past or is_any(piece, ("WHICH", "UNIT", "WEEKDAY")) or piece.kind == "day" or is_any(piece, ("LINK",))


def _written_before(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "(At Depot, where I wrote 21 white), it was 12 white": what was written is told, and then what was so."""
    first = n
    while first and n - first < FARTHEST_NOW and pieces[first - 1].kind != "line" and pieces[first - 1].value != "hard":
        first -= 1
    words = [word for piece in pieces[first:n] for word in (piece.text, *piece.text.split(" "))]
    mine = made.language != "en" or made.has_any("mine_word", words)  # and not "the grower wrote"
    return mine and made.has_any("wrote", words)


def _counted_before(pieces: list[Piece], n: int, *, shaded: bool) -> bool:
    """Was a color counted before it, of the same field? Right before it, where what was has no color of its own."""
    for k in range(n - 1, 0, -1):
        if is_any(pieces[k], ("FIELD",)):
            return False
        if is_any(pieces[k], ("PLANTS",)) and not shaded:
            return False
        if is_any(pieces[k], ("COLOUR", "FEMALES")) and (
            count_told(pieces[k - 1]) or count_told(piece_at(pieces, k + 1))
        ):
            return True
    return False
