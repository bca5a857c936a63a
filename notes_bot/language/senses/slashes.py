"""Numbers with slashes: a day, a part ("4/6 plants"), one number a plant ("2/0/1/4"), or one a color ("w/y 12/3")."""

from __future__ import annotations

from notes_bot.language.lexicon.days import DayWritten
from notes_bot.language.lexicon.joining import is_any, linking, number_like
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.senses.around import MOST_OF_PLANTS
from notes_bot.language.senses.walk import Walk, is_number


def day(walk: Walk) -> int:
    """A day; two numbers with a slash may also be a share of the plants or females, or counts of two colors."""
    value: DayWritten = walk.piece.value
    if _share(walk, value):
        return walk.emit("MOSTLY", "mostly", walk.piece.start, walk.piece.end)
    if value.first and value.second and value.year is None:
        infested = walk.direct_index(walk.direct_index(walk.i, 1), 1)
        had = is_any(walk.at(infested), ("HAD",)) or (walk.last_is("FEMALES") and value.first <= value.second)
        hit = walk.at(infested)  # "3/5 pl pos"
        had = had or (hit is not None and walk.made.has("infested_word", hit.text) and value.first <= value.second)
        if is_any(walk.after, ("PLANTS",)) and had:
            return _some_of(walk, value.first, value.second)
        if _part_of_plants(walk, value.first, value.second):
            return walk.text()
    if value.first is not None and value.second is not None and value.year is None:
        labels = _labels(walk, walk.i, -1) or _labels(walk, walk.i, 1)
        if len(labels) == 2:
            return _labelled_series(walk, (value.first, value.second))
    return walk.emit("DATE", value, walk.piece.start, walk.piece.end)


def _share(walk: Walk, value: DayWritten) -> bool:
    """ "2/3 white, rest yellow": a fraction of the females, where a date would need its own place."""
    if value.year is not None or (value.first, value.second) not in ((1, 2), (1, 3), (2, 3), (1, 4), (3, 4)):
        return False
    colour = walk.direct_index(walk.i, 1)
    counted = is_any(walk.at(colour), ("COLOUR",)) and not is_number(walk.direct(colour, 1))
    return counted and any(word.type in ("NUMBER", "NONE", "SERIES") for word in walk.out)


def _part_of_plants(walk: Walk, some: int, of: int) -> bool:
    """ "2/3 of the plants had white ones": a part, and no day."""
    noun = walk.direct_index(walk.i, 1)
    led = walk.at(noun) is not None and walk.ps[noun].text.split(" ")[0] in anywhere("of_plants")
    while led and noun < len(walk.ps) and linking(walk.ps[noun]):
        noun += 1
    return led and some < of and is_any(walk.at(noun), ("PLANTS", "ROOTS"))


def _labels(walk: Walk, i: int, step: int) -> list[int]:
    """Indices of colours joined by slashes right before or behind: w/y/b."""
    found: list[int] = []
    j = i + step
    while 0 <= j < len(walk.ps):
        piece = walk.ps[j]
        if "COLOUR" in piece.types and j not in walk.found:
            found.append(j)
        elif not (piece.text == "/" and found) and piece.text not in (":", "=", "(", ")"):
            break
        j += step
    if len(found) < 2:
        return []
    return sorted(found)


def _labelled_series(walk: Walk, counts: tuple[int, ...]) -> int:
    """As many numbers as colors beside them: "w/y/b 12/3/0"."""
    before, behind = _labels(walk, walk.i, -1), _labels(walk, walk.i, 1)
    labels = before if len(before) == len(counts) else behind
    if len(labels) != len(counts):
        walk.draft.ask("which_number", walk.piece.start, walk.piece.end)
        return walk.text()
    if labels is before:
        while walk.out and walk.out[-1].start >= walk.ps[labels[0]].start:
            walk.lead = walk.out.pop().lead
    colours = tuple(walk.ps[j].types["COLOUR"].value for j in labels)
    if labels is before:
        more, last = _series_behind(walk, len(colours))
        if more:
            return _series_a_plant(walk, colours, [counts, *more], last)
    return series(walk, colours, 1 if labels is before else labels[-1] - walk.i + 1, counts)


def _series_behind(walk: Walk, size: int) -> tuple[list[tuple[int, ...]], int]:
    """ "w/y: 4/2 0/3 6/1": more numbers with slashes, as many in each, right behind the first; and their last index."""
    found: list[tuple[int, ...]] = []
    j = walk.i + 1
    while (piece := walk.at(j)) is not None:
        if piece.text in (",", ";", "-"):
            j += 1
            continue
        numbers = (
            (piece.value.first, piece.value.second)
            if piece.kind == "day" and piece.value.year is None and piece.value.first is not None
            else piece.value
            if piece.kind in ("ratio", "series")
            else ()
        )
        if len(numbers) != size:
            break
        found.append(tuple(numbers))
        j += 1
    return found, j - 1


def _series_a_plant(walk: Walk, colours: tuple[str, ...], plants: list[tuple[int, ...]], last: int) -> int:
    """One series a plant: the totals by color, and a list of what each plant had."""
    while walk.out and walk.out[-1].type == "EACH":
        walk.out.pop()  # "per plant w/y: 4/2 0/3"
    end = walk.ps[last].end
    sums = tuple((colour, sum(plant[n] for plant in plants)) for n, colour in enumerate(colours))
    walk.emit("SERIES", sums, walk.piece.start, end)
    for n, plant in enumerate(plants):
        walk.emit("NUMBER", sum(plant), walk.piece.start, walk.piece.end if n else end, lead="" if n else "colon")
    return last - walk.i + 1


def series(walk: Walk, colours: tuple[str, ...], used: int, counts: tuple[int, ...] | None = None) -> int:
    """Counts by color, in the order of the colors given; those at hand may be plants one by one, or asked about."""
    numbers = walk.piece.value if counts is None else counts
    if counts is None and len(_labels_one(walk)) == 1:
        return _slash_list(walk, numbers)
    if counts is None and (_labels(walk, walk.i, -1) or _labels(walk, walk.i, 1)):
        return _labelled_series(walk, numbers)
    if counts is None:
        match _series_of_plants(walk, len(numbers)):
            case "plants":
                return _told_a_plant(walk, numbers)
            case "unclear":
                walk.draft.ask("which_number", walk.piece.start, walk.piece.end)
                return walk.text()
    end = walk.ps[walk.i + used - 1].end
    walk.emit("SERIES", tuple(zip(colours, numbers, strict=True)), walk.piece.start, end)
    return used


WITHIN_NOTE = 80
"""Pieces before and behind that are looked at for what else a note counts, at most (judgement)."""


def _series_of_plants(walk: Walk, size: int) -> str:
    """Is a bare "2/0/7/4" plants one by one, or the colors in their order, or might it be either?

    "2/0/7/4 cavadas", "3/0/5/1 so 9 cysts total": plants, where none are told. "4 pl 2/0/7/4": either.
    """
    first = max((name for name in walk.found if name < walk.i), default=0)
    last = min((name for name in walk.found if name > walk.i), default=len(walk.ps))
    own = range(max(first, walk.i - WITHIN_NOTE), min(last, walk.i + WITHIN_NOTE))
    beside = walk.direct_index(walk.i, 1)
    dug = is_any(walk.at(beside), ("DUG", "PLANTS")) and not is_number(walk.at(beside + 1))
    told = [walk.ps[n].value for n in own if _is_plants(walk, n)]
    each = _each_before(walk) or is_any(walk.at(beside), ("EACH",))
    each = each or (bool(walk.out) and walk.out[-1].type == "PLANTS" and walk.lead == "colon")  # "4 pl: 0/3/1/0"
    if told:
        return "" if told[0] != size else "plants" if each else "unclear"
    others = any(walk.ps[n].kind == "series" for n in own if n != walk.i)
    total = any(is_any(walk.ps[n], ("TOTAL",)) for n in own)
    return "plants" if dug or total or each else "" if others else "unclear"


def _told_a_plant(walk: Walk, numbers: tuple[int, ...]) -> int:
    """A list of so many plants, its own clause: "dug 3/0/5/1 so 9 cysts", "2/0/7/4 plantas"."""
    noun = walk.direct_index(walk.i, 1)
    named = is_any(walk.at(noun), ("PLANTS",))
    if not _each_before(walk):
        lead = "soft" if walk.lead in ("", "link") else walk.lead
        walk.emit("EACH", "each", walk.piece.start, walk.piece.start, lead=lead)
    _slash_list(walk, numbers)
    if not is_any(walk.at(noun), ("EACH",)):
        walk.lead = "soft"
    return noun + 1 - walk.i if named else 1


def _each_before(walk: Walk) -> bool:
    """ "Per plant: 3/0/5/1"."""
    return bool(walk.out) and walk.out[-1].type == "EACH" and walk.lead in ("", "link", "colon")


def _is_plants(walk: Walk, n: int) -> bool:
    """Is it a number of plants: a word for them behind it, or one for digging before?"""
    if not number_like(walk.ps[n]):
        return False
    behind = is_any(walk.at(walk.direct_index(n, 1)), ("PLANTS", "DUG"))
    return behind or is_any(walk.direct(n, -1), ("DUG",))


def ratio(walk: Walk) -> int:
    """4/6 plants: four of six; three and more numbers are a series when colours stand beside them."""
    counts = walk.piece.value
    if len(counts) > 2 and not (_labels(walk, walk.i, -1) or _labels(walk, walk.i, 1)):
        return _slash_list(walk, counts)
    if len(counts) > 2:
        return _labelled_series(walk, counts)
    if is_any(walk.after, ("PLANTS",)) and counts[0]:
        return _some_of(walk, counts[0], counts[1])
    if counts[0] == 0 < counts[1] <= MOST_OF_PLANTS and (
        walk.last_is("FEMALES") or is_any(walk.after, ("PLANTS",)) or _none_of_so_many(walk)
    ):
        walk.emit("NONE", "none", walk.piece.start, walk.piece.start + 1)  # "cysts 0/6"
        walk.emit("NUMBER", counts[1], walk.piece.start + 2, walk.piece.end, lead="soft")
        if not is_any(walk.after, ("PLANTS",)):
            walk.emit("PLANTS", "plants", walk.piece.end, walk.piece.end)
        return 1
    walk.draft.ask("which_number", walk.piece.start, walk.piece.end)
    return walk.text()


def _none_of_so_many(walk: Walk) -> bool:
    """ "5 pl 0/5.", "R2 0/5, moist": alone in its clause, and no counts of two colors."""
    ends = walk.after is None or walk.after.kind in ("break", "line", "stage")
    return ends and not walk.last_is("COLOUR") and not _labels(walk, walk.i, -1)


def _labels_one(walk: Walk) -> list[int]:
    """A single colour right behind numbers with slashes: one number a plant, all of that colour."""
    after = walk.direct_index(walk.i, 1)
    if is_any(walk.at(after), ("FEMALES",)) and not is_any(walk.at(after), ("COLOUR",)):
        after = walk.direct_index(after, 1)  # "1/0/0/2/1/0 fêmeas brancas"
    if not is_any(walk.at(after), ("COLOUR",)) or _labels(walk, walk.i, 1) or _labels(walk, walk.i, -1):
        return []
    return [after]


def _slash_list(walk: Walk, numbers: tuple[int, ...]) -> int:
    """2/0/1/4/0: one number a plant."""
    at = walk.piece.start
    for number in numbers:
        walk.emit("NUMBER", number, at, at + len(str(number)))
        at += len(str(number)) + 1
    return 1


def _some_of(walk: Walk, some: int, of: int) -> int:
    """So many of so many plants: "4/6 plants"."""
    piece = walk.piece
    middle = piece.start + len(walk.draft.text[piece.start : piece.end].split("/")[0])
    walk.emit("POSITIVE", some, piece.start, middle)
    return walk.emit("NUMBER", of, middle + 1, piece.end)
