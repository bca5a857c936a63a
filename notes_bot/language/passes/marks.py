"""Plants told one by one: "p1 3w p2 0 p3 2w 1y", "plant 1: 3 white, plant 2: none"."""

from __future__ import annotations

import itertools
import re
from collections.abc import Collection

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece, count_told
from notes_bot.language.lexicon.scan import NTH_ENDS
from notes_bot.language.lexicon.words import Entry, anywhere

_SHORT = re.compile(r"(?:p|pl|pt|plt|planta|plant|pe)\s?(\d{1,2})")
"""A plant and its number scanned as one word: here and not in the word files, as it is half a word."""


_LETTERS = "abcdefghij"
"""Letters that plants are called by."""


def mark_plants(pieces: list[Piece]) -> list[Piece]:
    """The marks of an enumeration (1, 2, 3 ... each behind a word for plant) as pieces of kind ``mark``.

    Only a run that starts at 1 and counts up, with at least two marks, is one: "plants 6" is a count. Behind it another
    may begin at 1, of the next place.
    """
    pieces = list(pieces)
    marks = _marks_told(pieces)
    if len(marks) < 2:
        _mark_items(pieces)
        _mark_bare_items(pieces)
        return pieces
    upon = [mark for mark in marks if mark[0] > 1 and pieces[mark[0] - 1].text in anywhere("upon_plant")]
    joined = len(upon) > 1 and all(pieces[i - 1].text in anywhere("and_word") for i, _, _ in marks[len(upon) :])
    if upon == marks[: len(upon)] and joined:
        _mark_before(pieces, upon)
        return pieces
    ends = {i for i, _, _ in marks} | {len(pieces)}
    for i, used, number in reversed(marks):
        first, last = pieces[i], pieces[i + used - 1]
        at = i + used + (i + used < len(pieces) and pieces[i + used].text in (":", "=", "-"))
        if at < len(pieces) and _counts_nothing_else(pieces, at, ends):
            end = pieces[at].end
            pieces.insert(at + 1, Piece("word", "", end, end, _FEMALE))
        pieces[i : i + used] = [Piece("mark", first.text, first.start, last.end, (), number, first.spaced)]
    return pieces


def _marks_told(pieces: list[Piece]) -> list[tuple[int, int, int]]:
    """The marks of enumerations: where each begins, the pieces it takes, and the plant's number."""
    marks: list[tuple[int, int, int]] = []
    ended: list[tuple[int, int, int]] = []
    for i, piece in enumerate(pieces):
        if not marks and piece.kind == "number" and piece.value != 1:
            continue  # the first is the first plant's
        number, used = _mark(pieces, i, len(marks) + 1)
        if number is not None and number == len(marks) + 1 and (not marks or i >= marks[-1][0] + marks[-1][1]):
            marks.append((i, used, number))
        elif number is not None and number == 1 and len(marks) == 1:
            marks = [(i, used, number)]
        elif number == 1 and len(marks) > 1 and piece.kind == "word":
            ended, marks = [*ended, *marks], [(i, used, number)]  # "edge p1 4 p2 6; middle p1 0 p2 1"
    return [*ended, *marks]


def others_told(pieces: list[Piece]) -> list[Piece]:
    """ "#1 had 3 white, #2 had 1 white, the other three clean": the others as marks with nothing behind them."""
    pieces = list(pieces)
    marks = _marks_told(pieces)
    if len(marks) > 1:
        _mark_others(pieces, [i + used - 1 for i, used, _ in marks])
    return pieces


def _counts_nothing_else(pieces: list[Piece], at: int, ends: set[int]) -> bool:
    """ "p4 1, dug": a bare number behind a plant's mark is what it had, whatever stands behind it."""
    if pieces[at].kind != "number" or not isinstance(pieces[at].value, int):
        return False
    behind = pieces[at + 1] if at + 1 < len(pieces) else None
    ended = behind is None or at + 1 in ends or behind.kind in ("break", "line")
    return ended or is_any(behind, ("DUG", "TOOL", "SOAKED"))


MOST_BETWEEN = 4
"""Pieces between an ordinal and the count behind it (judgement)."""
MOST_TOLD = 6
"""Pieces more that one plant's colors and stops may take: "first had 3 white 1 yellow, second 0" (judgement)."""


LEAST_TOLD = 3
"""Plants told by ordinals alone (judgement)."""


def nth_plants(pieces: list[Piece]) -> list[Piece]:
    """ "La primera tres, la segunda cero, la tercera nueve": plants told by ordinals alone become marks.

    At least three that count up from the first, a number or none right behind each.
    """
    pieces = list(pieces)
    if _counts_on_each(pieces):
        return pieces
    _none_on_both(pieces)
    found: list[int] = []
    for i, piece in enumerate(pieces):
        last = len(found) >= LEAST_TOLD - 1 and piece.text in anywhere("last_plant")  # ".. y la última 1"
        last = last and not _last_few(pieces, i)
        if _nth(piece) != len(found) + 1 and not last:
            continue
        if i + 1 < len(pieces) and pieces[i + 1].text in anywhere("place_unit"):
            return pieces  # "first stop 4 plants 3 white, second stop .."
        if found and i - found[-1] > MOST_BETWEEN + MOST_TOLD:
            return pieces
        behind = pieces[i + 1 : i + 1 + MOST_BETWEEN]
        named = bool(behind) and behind[0].text in anywhere("nth_noun")
        counts = (
            named and _counts(behind[0]) and (len(behind) == 1 or "COLOUR" in behind[1].types)
        )  # "fourth one white"
        behind = behind[1:] if named and not counts else behind
        counted = next((p for p in behind if _counts(p)), None)
        if counted is None or any(_nth(p) for p in behind[: behind.index(counted)]):
            return pieces
        found.append(i)
    size = len(pieces)
    if len(found) < LEAST_TOLD - (bool(found) and not _counted_ahead(pieces, found[0])):
        return pieces
    _mark_others(pieces, found)
    if len(found) < LEAST_TOLD and len(pieces) == size:
        return pieces
    for n, i in reversed(list(enumerate(found, 1))):
        first = pieces[i]
        noun = pieces[i + 1] if i + 1 < len(pieces) else None
        told = noun is not None and ("PLANTS" in noun.types or noun.text in anywhere("nth_noun"))
        counts = noun is not None and _counts(noun) and (_coloured_at(pieces, i + 2) or i + 2 == len(pieces))
        told = told and not counts
        end = i + 2 if told else i + 1
        begin = i - 1 if i and pieces[i - 1].text in anywhere("nth_article") else i
        _count_in_figures(pieces, end)
        pieces[begin:end] = [Piece("mark", first.text, first.start, pieces[end - 1].end, (), n, first.spaced)]
    return pieces


def _counted_ahead(pieces: list[Piece], i: int) -> bool:
    """ "3 white on the first": does what a plant had stand before its ordinal?"""
    at = i - 1
    while at > 0 and pieces[at].text in anywhere("nth_article") | anywhere("upon_plant"):
        at -= 1
    return at > 0 and at < i - 1 and (_counts(pieces[at]) or is_any(pieces[at], ("COLOUR", "FEMALES")))


def _count_in_figures(pieces: list[Piece], i: int) -> None:
    """ "First had (two) second had none": the word for a number behind an ordinal, alone before the next, is one."""
    while i < len(pieces) and (is_any(pieces[i], ("HAD",)) or pieces[i].text in (":", "=")):
        i += 1
    if i >= len(pieces) or pieces[i].kind != "word" or not (word := pieces[i].types.get("NUMBER_WORD")):
        return
    behind = pieces[i + 1] if i + 1 < len(pieces) else None
    joined = anywhere("and_word") | anywhere("and_then") | anywhere("nth_article")
    ends = behind is None or behind.kind in ("break", "line", "mark") or _nth(behind) or behind.text in joined
    if ends:
        number = Piece("number", pieces[i].text, pieces[i].start, pieces[i].end, (), int(word.value))
        pieces[i : i + 1] = [number, Piece("word", "", number.end, number.end, _FEMALE)]


def raised_letters(pieces: list[Piece]) -> list[Piece]:
    """ "1a 3, 2a 0, 3a 6": numbers that count up with an "a" or "o" at each, and a count behind it, are ordinals."""
    found: list[int] = []
    for i in range(len(pieces) - 2):
        number, letter, behind = pieces[i : i + 3]
        raised = number.kind == "number" and letter.text in ("a", "o") and letter.start == number.end
        if not raised or number.value != len(found) + 1:
            continue
        leads = behind.text in (":", "=", "-") or "HAD" in behind.types
        at = i + 3 if leads and i + 3 < len(pieces) else i + 2
        if not _counts(pieces[at]) or _coloured_at(pieces, at + 1):
            return pieces  # "1a 2b, 2a 0": yellow and white, or the first?
        found.append(i)
    if len(found) < LEAST_TOLD:
        return pieces
    out = list(pieces)
    for i in reversed(found):
        number, letter = out[i : i + 2]
        text = f"{number.text}{NTH_ENDS[-1]}"
        out[i : i + 2] = [Piece("number", text, number.start, letter.end, (), number.value, number.spaced)]
    return out


def _none_on_both(pieces: list[Piece]) -> None:
    """ "1ra y 2da nada, 3ra 6": what is said of two plants is nothing, and so nothing on each."""
    joints = anywhere("and_word") | {",", "&"}
    for i in range(len(pieces) - 1, 2, -1):
        told = pieces[i]
        if not ("NONE" in told.types or told.value == 0 or _zero(told)) or not _nth(pieces[i - 1]):
            continue
        at = i - 1
        while (first := _nth_before(pieces, at, joints)) >= 0:
            zero = Piece("number", "0", pieces[first].end, pieces[first].end, (), 0)
            joint = pieces[first + 1]
            pieces[first + 1 : first + 2] = [
                zero,
                Piece("break", ",", joint.start, joint.end, (), "soft", joint.spaced),
            ]
            at = first


def _nth_before(pieces: list[Piece], at: int, joints: Collection[str]) -> int:
    """Where the ordinal before the one at an index stands, joined to it by "and" or a comma; -1 for none."""
    i = at - 1
    while i > 0 and pieces[i].text in anywhere("nth_article"):
        i -= 1
    joined = i > 0 and pieces[i].text in joints
    return i - 1 if joined and 0 < _nth(pieces[i - 1]) == _nth(pieces[at]) - 1 else -1


def _zero(piece: Piece) -> bool:
    word = piece.types.get("NUMBER_WORD")
    return word is not None and word.value == "0"


def _coloured_at(pieces: list[Piece], i: int) -> bool:
    return i < len(pieces) and "COLOUR" in pieces[i].types


def _counts_on_each(pieces: list[Piece]) -> bool:
    """ "3 on the first 0 on the second 6 on the third": each count before its plant; the marks go before them."""
    told: list[tuple[int, int]] = []
    for i, piece in enumerate(pieces):
        final = len(told) >= LEAST_TOLD - 1 and piece.text in anywhere("last_plant") and not _last_few(pieces, i)
        if _nth(piece) != len(told) + 1 and not final:
            continue
        at = i - 1
        little = anywhere("nth_before") | anywhere("name_article")
        while at > 0 and pieces[at].text in little and pieces[at].text not in anywhere("upon_plant"):
            at -= 1
        if at < 1 or pieces[at].text not in anywhere("upon_plant"):
            return False
        colour = at > 1 and is_any(pieces[at - 1], ("COLOUR", "FEMALES")) and not is_any(pieces[at - 1], ("NONE",))
        first = at - 1 - colour
        first -= first > 0 and pieces[first].text in anywhere("more_word")  # "two more on the third"
        if not _counts(pieces[first]):
            return False
        while colour and first > 1 and (size := _color_before(pieces, first)):
            first -= size  # "2 white and 1 yellow on the first"
        told.append((first, i))
    said = any(i + 1 < len(pieces) and "PLANTS" in pieces[i + 1].types for _, i in told)
    said = said and not any(_counts(pieces[k - 1]) and "PLANTS" in pieces[k].types for k in range(1, told[0][0]))
    if len(told) < LEAST_TOLD - said:
        return False
    _mark_others(pieces, [last for _, last in told])
    for n, (first, last) in reversed(list(enumerate(told, 1))):
        nothing = "NONE" in pieces[first].types or _zero(pieces[first]) or pieces[first].value == 0
        others = _none_on_next(pieces, last) if nothing and n == len(told) else []
        plant = last + 1 < len(pieces) and "PLANTS" in pieces[last + 1].types
        count = pieces[first:last]
        led = anywhere("upon_plant") | anywhere("nth_before") | anywhere("name_article") | anywhere("more_word")
        kept = [p for p in count if p.text not in led or p.types.keys() & {"COLOUR", "NONE"}]
        start = pieces[first].start
        pieces[first : last + 1 + plant] = [Piece("mark", "", start, start, (), n, True), *kept, *others]
    return True


def _color_before(pieces: list[Piece], i: int) -> int:
    """Pieces that a count and its color take right before another, a joint between them or not; 0 for no such."""
    if i > 2 and _joins_colors(pieces, i - 1):
        return 3
    return 2 * ("COLOUR" in pieces[i - 1].types and _counts(pieces[i - 2]))


def _joins_colors(pieces: list[Piece], i: int) -> bool:
    """Is it a joint, a count and its color before it?"""
    joint = pieces[i].text in (",", "&", "+") or pieces[i].text in anywhere("and_word") | anywhere("and_then")
    return joint and "COLOUR" in pieces[i - 1].types and _counts(pieces[i - 2])


def _mark_others(pieces: list[Piece], found: list[int]) -> None:
    """ ".. la cuarta una y las otras dos nada": each of the others becomes a mark with nothing behind it."""
    for k in range(found[-1] + 2, min(found[-1] + 2 + MOST_TOLD, len(pieces))):
        if turned := _none_on_others(pieces, k):
            number = count_told(pieces[turned + 1]) if turned + 1 < len(pieces) else None
            _as_marks(pieces, found, k, turned + bool(number), number or 0)
            return
        whole = pieces[k].text in anywhere("rest_none")
        last = pieces[k].text in anywhere("last_plant")
        if not (whole or last) and pieces[k].text not in _others():
            continue
        number = 0 if whole or k + 1 == len(pieces) else (count_told(pieces[k + 1]) or 0)
        at = k if whole else k + 1 + (number > 0)
        while not whole and at + 1 < len(pieces) and _leads_to_none(pieces[at]):
            at += 1
        if last and number < LEAST_LAST:
            return
        if at < len(pieces) and (whole or "NONE" in pieces[at].types or _zero(pieces[at]) or pieces[at].value == 0):
            _as_marks(pieces, found, k, at, number)
        return


def _last_few(pieces: list[Piece], i: int) -> bool:
    """ "The last two": does a number of plants stand behind "last"?"""
    return i + 1 < len(pieces) and (count_told(pieces[i + 1]) or 0) >= LEAST_LAST


LEAST_LAST = 2
"""Plants of which "the last two" are told together."""


def _others() -> frozenset[str]:
    """Words for the plants that were not told of yet."""
    return frozenset(anywhere("rest_word") | anywhere("rest_of_plants") | anywhere("other_word"))


def _leads_to_none(piece: Piece) -> bool:
    """ "Had", "were", or plants that are named once more, before nothing was on them."""
    return (
        piece.types.keys() & {"HAD", "PLANTS"} != set()
        or piece.text in anywhere("group_verb")
        or piece.text in (":", "=")
    )


def _none_on_others(pieces: list[Piece], k: int) -> int:
    """Where "none on the others" that begins here ends; 0 for none."""
    if "NONE" not in pieces[k].types or k + 1 >= len(pieces) or pieces[k + 1].text not in anywhere("upon_plant"):
        return 0
    end = k + 2
    while end < len(pieces) and pieces[end].text in anywhere("nth_before") | anywhere("group_article"):
        end += 1
    if end < len(pieces) and pieces[end].text in anywhere("last_plant"):
        return end if _last_few(pieces, end) else 0
    return end if end < len(pieces) and pieces[end].text in _others() else 0


def _as_marks(pieces: list[Piece], found: list[int], k: int, at: int, number: int = 0) -> None:
    """Put so many marks with nothing, or one for each plant dug that was not told of, in the place of words."""
    others = number or _plants_before(pieces, found[0]) - len(found)
    if not 0 < others <= MOST_ITEMS:
        return
    first, end = pieces[k], pieces[at].end
    marks = range(len(found) + 1, len(found) + 1 + others)
    zero = Piece("number", "0", end, end, (), 0)
    row = [(Piece("mark", "", first.start, end, (), n, True), zero) for n in marks]
    pieces[k : at + 1] = [piece for pair in row for piece in pair]


def _plants_before(pieces: list[Piece], end: int) -> int:
    """The count of plants told last before an index; 0 for none."""
    for i in range(end - 1, 0, -1):
        if "PLANTS" in pieces[i].types and (count := count_told(pieces[i - 1])):
            return count
    return 0


def _nth(piece: Piece) -> int:
    """Which one an ordinal says, in words or as "1st"; 0 for no ordinal."""
    if piece.kind == "number" and piece.text.endswith(NTH_ENDS):
        return int(piece.value)
    word = piece.types.get("NTH") or piece.types.get("ORDINAL")
    return int(word.value) if word is not None else 0


def _counts(piece: Piece) -> bool:
    return (piece.kind == "number" and not _nth(piece)) or bool(piece.types.keys() & {"NUMBER_WORD", "NONE"})


def _none_on_next(pieces: list[Piece], i: int) -> list[Piece]:
    """ "None on third (and fourth)": the marks of the plants behind an ordinal that had none as well, each with a zero.

    They are taken out of the pieces.
    """
    joints = anywhere("and_word") | {",", "&"}
    found: list[Piece] = []
    while i + 2 < len(pieces) and pieces[i + 1].text in joints:
        at = i + 2 + (pieces[i + 2].text in anywhere("nth_article") and i + 3 < len(pieces))
        if not 0 < _nth(pieces[at]) == _nth(pieces[i]) + 1 + len(found) // 2:
            break
        more, end = pieces[at], pieces[at].end
        del pieces[i + 1 : at + 1]
        number = _nth(more)
        found += [Piece("mark", "", more.start, end, (), number, True), Piece("number", "0", end, end, (), 0)]
    return found


def _mark_before(pieces: list[Piece], marks: list[tuple[int, int, int]]) -> None:
    """ "2 females on plant one, none on plant two": each mark stands behind its count, and goes before it."""
    for i, used, number in reversed(marks):
        at = i - 1
        while at and not (pieces[at].kind == "number" or "NONE" in pieces[at].types):
            at -= 1
        while at > 1 and "COLOUR" in pieces[at - 1].types and pieces[at - 2].kind == "number":
            at -= 2
        first, last = pieces[i], pieces[i + used - 1]
        nothing = "NONE" in pieces[at].types or _zero(pieces[at]) or pieces[at].value == 0
        others = _none_on_next(pieces, i + used - 1) if nothing and number == len(marks) else []
        mark = Piece("mark", first.text, first.start, last.end, (), number, first.spaced)
        pieces[i - 1 : i + used] = others
        pieces.insert(at, mark)


SHORT_MARKS = 2
"""Plants told in full before one of them is told by its number alone (judgement)."""
_FEMALE = (Entry("FEMALES", "female"),)
FAR_PLANTS = 60
"""Pieces before and behind a row in which the plants are told (judgement)."""
LEAST_ITEMS = 3
"""Plants told as items of one list, wherever it stands (judgement)."""
MOST_ITEMS = 20
"""Plants told as items of one list (judgement)."""


def _mark_items(pieces: list[Piece]) -> None:
    """ "6 pl: 2w, 0, 5w1y, 3w, 0, 1y": as many items as plants, each with its colors, are plants told one by one.

    Also behind "per plant:" where the plants were counted before it, and again at every place.
    """
    dug = 0
    i = 0
    while i < len(pieces) - 3:
        piece, behind = pieces[i], pieces[i + 1]
        number = piece.kind == "number" and isinstance(piece.value, int)
        counted = number and ("PLANTS" in behind.types or (i > 0 and "DUG" in pieces[i - 1].types))
        each = "EACH" in piece.types and behind.text == ":"
        i += 1
        if not (counted or each):
            continue
        dug = piece.value if counted else dug
        starts = _items_from(pieces, i + (each or "PLANTS" in behind.types)) if 2 < dug <= MOST_ITEMS else []
        if not starts or len(starts) != dug:
            continue
        for n, at in reversed(list(enumerate(starts, 1))):
            first = pieces[at]
            pieces.insert(at, Piece("mark", "", first.start, first.start, (), n, first.spaced))
        if each:
            del pieces[i - 1]
        i = starts[-1] + len(starts)


def _mark_bare_items(pieces: list[Piece]) -> None:
    """ "2w1y, 0, 4w, 1y, 0": a plant an item, wherever the row begins, where nothing else can be meant.

    As many as the plants told, if they are told.
    """
    if [piece.text for piece in pieces].count(",") < LEAST_ITEMS - 1:
        return
    i = 0
    while i < len(pieces):
        starts, end = _row_from(pieces, i) if _opens_row(pieces, i) else ([], i)
        if not LEAST_ITEMS <= len(starts) <= MOST_ITEMS or not _told_singly(pieces, starts, end):
            i = max(i + 1, end)
            continue
        last = starts[-1]
        if not _coloured(pieces, last) and last + 1 < len(pieces) and pieces[last + 1].kind == "word":
            at = pieces[last].end
            pieces.insert(last + 1, Piece("word", "", at, at, _FEMALE))  # "2w, 0 dug"
        for n, at in reversed(list(enumerate(starts, 1))):
            first = pieces[at]
            pieces.insert(at, Piece("mark", "", first.start, first.start, (), n, first.spaced))
        each = _each_before(pieces, i)
        del pieces[each:i]
        i = each + end - i + len(starts)


def _opens_row(pieces: list[Piece], i: int) -> bool:
    """Does an item of a row stand there, and no other number, color or plant of a row that is told before it?"""
    item = pieces[i].kind == "number" or "NONE" in pieces[i].types
    before = pieces[i - 1] if i else None
    tied = before is not None and (before.kind in ("number", "mark") or is_any(before, ("COLOUR", "MOSTLY", "NONE")))
    listed = before is not None and i > 1 and before.text in (",", ":") and pieces[i - 2].kind in ("mark", "number")
    return item and not tied and not listed


def _row_from(pieces: list[Piece], i: int) -> tuple[list[int], int]:
    """Where the items of a row with commas begin, and where it ends."""
    starts: list[int] = []
    end = i
    while (after := _item_end(pieces, i)) > i:
        starts.append(i)
        end = after
        if end >= len(pieces) or pieces[end].text != ",":
            break
        i = end + 1
    return starts, end


def _item_end(pieces: list[Piece], i: int) -> int:
    """Where what one plant had ends, each color once, or nothing; the place itself for no such item."""
    shades: set[str] = set()
    while _coloured(pieces, i) and pieces[i + 1].types["COLOUR"].value not in shades:
        shades.add(pieces[i + 1].types["COLOUR"].value)
        i += 2
        if i < len(pieces) and pieces[i].text in ("+", "&") and _coloured(pieces, i + 1):
            i += 1
    if shades or i >= len(pieces):
        return i
    nothing = pieces[i].kind == "number" and pieces[i].value == 0
    return i + (nothing or "NONE" in pieces[i].types)


def _told_singly(pieces: list[Piece], starts: list[int], end: int) -> bool:
    """Does a color come again, beside a none or where all have one or some have two: plants, told one by one?"""
    rows = [{p.types["COLOUR"].value for p in pieces[a:b] if "COLOUR" in p.types} for a, b in _spans(starts, end)]
    each = [shade for row in rows for shade in row]
    nothing = sum(not row for row in rows)
    again = len(set(each)) < len(each)
    told = _plants_of_note(pieces, starts[0], end)
    goes_on = end + 1 < len(pieces) and pieces[end].text == "," and _bare_number(pieces, end + 1)
    if not each or goes_on or (told and len(starts) not in told):
        return False
    led = _each_before(pieces, starts[0]) < starts[0]
    several = any(len(row) > 1 for row in rows)
    return nothing > 1 or (again and bool(nothing or several or told or led or len(set(each)) == 1))


def _bare_number(pieces: list[Piece], i: int) -> bool:
    """A number that counts nothing named?"""
    behind = pieces[i + 1] if i + 1 < len(pieces) else None
    return pieces[i].kind == "number" and (behind is None or not is_any(behind, ("PLANTS", "DUG", "TOOL", "UNIT")))


def _spans(starts: list[int], end: int) -> list[tuple[int, int]]:
    return list(itertools.pairwise([*starts, end]))


def _plants_of_note(pieces: list[Piece], start: int, end: int) -> set[int]:
    """How many plants are told of the field at hand outside the row."""
    least, most = max(0, start - FAR_PLANTS), min(len(pieces), end + FAR_PLANTS)
    first = next((n for n in range(start - 1, least - 1, -1) if "FIELD" in pieces[n].types), least)
    last = next((n for n in range(end, most) if "FIELD" in pieces[n].types), most)
    told: set[int] = set()
    for part in (pieces[first:start], pieces[end:last]):
        for one, other in itertools.pairwise([p for p in part if p.text not in (":", "=")]):
            for number, noun in ((one, other), (other, one)):
                count = count_told(number)
                if count and number.kind == "number" and is_any(noun, ("PLANTS", "DUG", "TOOL")):
                    told.add(count)
    return told


def _each_before(pieces: list[Piece], i: int) -> int:
    """Where "ea plt:" before a row begins; the row itself when there is none."""
    at = i - (i > 0 and pieces[i - 1].text in (":", "="))
    return at - 1 if at and "EACH" in pieces[at - 1].types else i


def _items_from(pieces: list[Piece], i: int) -> list[int]:
    """Where the items of a list with commas begin; none unless zeros or a color told again show that it is one."""
    while i < len(pieces) and (pieces[i].text in (":", "-", "=", ",", "(") or "DUG" in pieces[i].types):
        i += 1
    starts: list[int] = []
    colours: list[str] = []
    zeros = 0
    while i < len(pieces):
        starts.append(i)
        nothing = pieces[i].kind == "number" and pieces[i].value == 0 and not _coloured(pieces, i)
        if nothing or "NONE" in pieces[i].types:
            zeros, i = zeros + 1, i + 1
        elif _coloured(pieces, i):
            own: set[str] = set()
            while _coloured(pieces, i) and pieces[i + 1].types["COLOUR"].value not in own:
                own.add(pieces[i + 1].types["COLOUR"].value)
                i += 2
            colours += own
        elif pieces[i - 1].text == ",":
            starts.pop()  # "18a 25a 31a, resto 9 plantas": the list ends before the comma
            break
        else:
            return []
        if i >= len(pieces) or pieces[i].kind == "line" or pieces[i].text in (".", ";", ")"):
            break
        if zeros and pieces[i - 1].text != "," and is_any(pieces[i], ("DUG", "TOOL", "SOAKED")):
            break  # "3w1y, 2w, 0 dug"
        i += pieces[i].text == ","
    told_again = zeros or len(set(colours)) < len(colours)
    return starts if colours and told_again else []


def _coloured(pieces: list[Piece], i: int) -> bool:
    return i + 1 < len(pieces) and pieces[i].kind == "number" and "COLOUR" in pieces[i + 1].types


def _mark(pieces: list[Piece], i: int, expected: int) -> tuple[int | None, int]:
    """The number a mark at i would have and the pieces it would use."""
    piece = pieces[i]
    if piece.kind == "number":
        return _mark_in_figures(pieces, i, expected)
    if piece.kind == "break" and piece.text.isdigit():
        return (int(piece.text), 1) if _item_behind(pieces, i + 1) else (None, 0)
    if piece.kind == "day" and piece.value.day == expected > 1 and piece.value.month is None:
        return expected, 1
    if "ORDINAL" in piece.types and int(piece.types["ORDINAL"].value) == expected:
        behind = pieces[i + 1] if i + 1 < len(pieces) else None
        if behind is not None and ("PLANTS" in behind.types or expected > 1):
            beyond = pieces[i + 2] if i + 2 < len(pieces) else None
            one = behind.text in anywhere("nth_noun") and is_any(beyond, ("HAD",))  # "second one had 13"
            return expected, 2 if "PLANTS" in behind.types or one else 1
    if piece.text == "#" and i + 1 < len(pieces) and pieces[i + 1].kind == "number":
        return pieces[i + 1].value, 2
    if piece.kind != "word":
        return None, 0
    short = _SHORT.fullmatch(piece.text) if piece.text[-1:].isdigit() else None
    if short is not None:
        return int(short.group(1)), 1
    plants, noun = "PLANTS" in piece.types, piece.text in anywhere("mark_noun")
    if not (plants or noun):
        return None, 0
    after = pieces[i + 1] if i + 1 < len(pieces) else None
    before = pieces[i - 1] if i else None
    if plants and after is not None and after.text == "#" and i + 2 < len(pieces) and pieces[i + 2].kind == "number":
        return pieces[i + 2].value, 3
    plant = (plants and not piece.text.endswith("s")) or noun
    if plant and after is not None and after.text == _LETTERS[expected - 1 : expected] != "":
        return expected, 2  # "plant a 3, plant b 0"
    number = count_told(after) if plant and after is not None and _tells_number(pieces, i + 1) else None
    dug = i > 1 and "DUG" in pieces[i - 2].types  # "I dug four plant one had five"
    if number is not None and (before is None or before.kind != "number" or dug or number == expected > 1):
        return number, 2
    return None, 0


def _mark_in_figures(pieces: list[Piece], i: int, expected: int) -> tuple[int | None, int]:
    """The number a mark at i has that begins with figures, and the pieces it uses: "1 -", "1st", "1a planta"."""
    piece, behind = pieces[i], pieces[i + 1] if i + 1 < len(pieces) else None
    plant = behind is not None and "PLANTS" in behind.types
    if _lists(pieces, i, expected):
        return piece.value, 2
    if piece.value == expected > SHORT_MARKS and behind is not None and "HAD" in behind.types:
        counted = i + 2 < len(pieces) and _counts(pieces[i + 2])
        if counted and (pieces[i - 1].kind in ("break", "line") or pieces[i - 1].text in anywhere("and_then")):
            return expected, 1  # "plant 1 had 4, plant 2 had 0, 3 had 1 and 4 had 5"
    if piece.text.endswith(NTH_ENDS):
        return piece.value, 2 if plant else 1
    if behind is None or behind.start != piece.end:
        return None, 0
    if behind.text[:2] in ("a ", "o "):
        return piece.value, 2  # "1a planta", where "a planta" is one phrase
    plant = i + 2 < len(pieces) and "PLANTS" in pieces[i + 2].types
    if behind.text in ("a", "o") and (plant or piece.value == expected > 1):
        return piece.value, 3 if plant else 2  # "1a planta 4 brancas, 2a nenhuma"
    return None, 0


def _tells_number(pieces: list[Piece], i: int) -> bool:
    """A plant's number: in figures, or as a word with what it had right behind ("la planta uno tenía cinco")."""
    piece, behind = pieces[i], pieces[i + 1] if i + 1 < len(pieces) else None
    if piece.kind == "number":
        return isinstance(piece.value, int)
    return "NUMBER_WORD" in piece.types and behind is not None and ("HAD" in behind.types or _counts(behind))


def _item_behind(pieces: list[Piece], i: int) -> bool:
    """ "1) 4", "2) 3 white": only a count, and no plants, behind the number of an item."""
    if i >= len(pieces) or not _counts(pieces[i]):
        return False
    while i < len(pieces) and (_counts(pieces[i]) or pieces[i].types.keys() & {"COLOUR", "FEMALES"}):
        i += 1
    return i == len(pieces) or pieces[i].kind in ("break", "line")


def _lists(pieces: list[Piece], i: int, expected: int) -> bool:
    """ "1 - 3 white" on a line of its own, the next in count: the plant's number, then what it had."""
    piece, starts = pieces[i], i == 0 or pieces[i - 1].kind in ("line", "break")
    dash = pieces[i + 1] if i + 1 < len(pieces) else None
    behind = pieces[i + 2] if i + 2 < len(pieces) else None
    if not (i == 0 or pieces[i - 1].kind == "line") and (dash is None or dash.text != ":"):
        return False
    dashed = dash is not None and (dash.text in ("-", ":", "=", ")", ".") and dash.kind in ("break", "sign"))
    counted = behind is not None and (behind.kind == "number" or "NONE" in behind.types)
    return starts and dashed and counted and piece.value == expected
