"""What is counted: females, plants, each of them, totals, too many."""

from __future__ import annotations

import itertools

from notes_bot.language.lexicon.joining import claims, is_any, linking, neighbour_index
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.senses.around import beside_number, goes_on_nowhere
from notes_bot.language.senses.walk import Walk, is_number


def females(walk: Walk) -> int:
    """Females, cysts: beside a number or a word of seeing."""
    if _names_a_list(walk):
        return 1
    beside = beside_number(walk) or is_any(walk.near_before, ("COLOUR",))
    if walk.entry.slip and not (beside and not walk.has("timid_females")) and not _upon_roots(walk):
        return 0  # "went with my two sisters"
    words = walk.piece.text.split(" ")
    told = words if len(words) > 1 and walk.last_is("NUMBER") else words[1:]  # "2 white dots"
    within = [e for word in told for e in walk.made.singles.get(word, ())]
    colours = [e.value for e in within if e.type == "COLOUR"]
    walk.take()
    if colours and not is_any(walk.near_after, ("COLOUR",)):
        bare = len(walk.out) < 2 or walk.out[-2].type != "NUMBER"
        if bare and not is_any(walk.near_before, ("MOSTLY",)):
            walk.emit("MOSTLY", "all", walk.piece.end, walk.piece.end)  # "había bolitas blancas, conté 13"
        walk.emit("COLOUR", colours[0], walk.piece.end, walk.piece.end)
        walk.out[-1].free = bare
    return 1


def _names_a_list(walk: Walk) -> bool:
    """ "3-0-1-6-2 cysts": what a list written as one counts, one number a plant."""
    row = list(itertools.takewhile(lambda word: word.type == "NUMBER", reversed(walk.out)))[::-1]
    between = {walk.draft.text[one.end : other.start] for one, other in itertools.pairwise(row)}
    return len(row) > 2 and walk.lead == "" and between in ({"-"}, {"/"})


def _upon_roots(walk: Walk) -> bool:
    """ "Sisters on the roots again"."""
    upon = walk.at(walk.i + 1)
    if upon is None or upon.text not in anywhere("upon_plant"):
        return False
    k = walk.i + 2
    k += k < len(walk.ps) and linking(walk.ps[k])
    return is_any(walk.at(k), ("ROOTS",))


def each(walk: Walk) -> int:
    """Per plant, average: said of a count."""
    if of_all := _each_of_all(walk):
        return of_all
    if is_any(walk.at(walk.i + 1), ("MOISTURE", "UNIT")) and " " not in walk.piece.text:
        return 0  # "tierra media seca", "media hora"
    if used := _each_of_a_color(walk):
        return used
    around = [p for p in (walk.near_before, walk.near_after) if p is not None]
    counted = any(
        is_number(p) or p.kind == "series" or is_any(p, ("COLOUR", "FEMALES", "NODULES", "NONE", "MOSTLY"))
        for p in around
    )
    heads = walk.colon_at(walk.i + 1)
    plants = walk.last_is("PLANTS", "DUG", "TOOL") or [w.type for w in walk.out[-2:]] == ["DUG", "NUMBER"]
    if heads and walk.i + 2 in walk.found and plants:
        return walk.text()  # "5 plants each: kestrel 4 white, tinkers none": so many in each field
    return walk.take() if counted or heads else 0


def _each_of_a_color(walk: Walk) -> int:
    """ "2 per plant white": the number counts the color behind, which no other number claims."""
    shade = walk.at(walk.i + 1)
    ends = walk.at(walk.i + 2) is None or walk.ps[walk.i + 2].kind in ("break", "line")
    if not walk.last_is("NUMBER") or walk.lead or not is_any(shade, ("COLOUR",)) or not ends or shade is None:
        return 0
    walk.emit("COLOUR", shade.types["COLOUR"].value, shade.start, shade.end)
    walk.emit("EACH", "each", walk.piece.start, walk.piece.end)
    return 2


def _each_of_all(walk: Walk) -> int:
    """ "Cada una de las cuatro plantas examinadas presentó 5": the plants first, then what is said of each."""
    k = walk.i + 1
    while (piece := walk.at(k)) is not None and piece.kind == "word" and linking(piece) and k < walk.i + 4:
        k += 1
    number, noun = walk.at(k), walk.at(k + 1)
    if (
        getattr(walk.at(walk.i + 1), "text", "") not in anywhere("of_plants")
        or number is None
        or number.kind != "number"
        or not is_any(noun, ("PLANTS",))
    ):
        return 0
    end = k + 2 + is_any(walk.at(k + 2), ("DUG",))
    walk.emit("NUMBER", number.value, walk.piece.start, number.end)
    walk.emit("PLANTS", "plants", walk.ps[k + 1].start, walk.ps[end - 1].end)
    walk.emit("EACH", "each", walk.ps[end - 1].end, walk.ps[end - 1].end, lead="soft")
    return end - walk.i


def plants(walk: Walk) -> int:
    """Plants dug: with a number. Without one, plants are tops."""
    piece, before = walk.piece, walk.before
    ends = walk.last_is("NUMBER") and goes_on_nowhere(walk)
    counts = is_number(walk.after) or walk.colon_at(walk.i + 1) or ends
    if piece.text == "p" and piece.spaced and not counts:
        return 0  # "5 p arriba"
    if piece.value == "tied" or walk.last_is("NUMBER", "POSITIVE"):
        return walk.take()
    if is_number(walk.near_after) and "ROOTS" not in piece.types and _claims_number(walk):
        return walk.take()
    if is_any(before, ("DUG",)) and not is_any(piece, ("TOPS", "ROOTS")):
        return walk.take()
    if walk.has("counts_plants") and (at := _labelled_number(walk)):
        walk.take()
        if is_any(walk.at(walk.i + 1), ("DUG",)) and walk.ps[walk.i + 1].types["DUG"].value != "any":
            return 1
        walk.emit("NUMBER", walk.ps[at].value, walk.ps[at].start, walk.ps[at].end)
        return at + 1 - walk.i
    if walk.entry.slip or len(piece.text) <= 3 or is_any(piece, ("TOPS", "ROOTS")):
        return 0
    return walk.text()


def _labelled_number(walk: Walk) -> int:
    """ "Number of plants examined was 10": where the number of a label stands, few words on; 0 without one."""
    for j in range(walk.i + 1, walk.i + 6):
        piece = walk.at(j)
        if piece is None or piece.kind in ("break", "line", "day", "stage"):
            return 0
        if piece.kind == "number":
            return j if not claims(walk.ps, j + 1) else 0
        if piece.kind == "word" and not (linking(piece) or is_any(piece, ("DUG", "CORRECT", "TOTAL"))):
            return 0
    return 0


def _claims_number(walk: Walk) -> bool:
    """ "Plants 6" counts; "plants stunted 6 white" does not, nor does "plants: 6 white"."""
    j = neighbour_index(walk.ps, walk.i, 1)
    if j is not None and is_any(walk.at(j + 1), ("MEASURE",)) and not is_any(walk.at(j + 1), ("COLOUR", "LINK")):
        return False  # "planta com 50 cm"
    if j is None or "TOPS" not in walk.piece.types:
        return True
    beyond = walk.near(j, 1)
    if is_any(beyond, ("PLANTS",)) and not is_any(beyond, ("UNIT",)):
        return False  # "res beans 10 roots 0 0 1": the number belongs to the noun behind it
    return not is_any(beyond, ("COLOUR", "FEMALES", "UNIT", "PLANTS")) or is_number(
        walk.near(neighbour_index(walk.ps, j, 1) or j, 1)
    )


def total(walk: Walk) -> int:
    """Total, count: with a number."""
    if walk.last_is("POTASSIUM", "PH"):
        return 0
    counted = walk.direct_index(walk.direct_index(walk.i, 1), 1)
    counted += is_any(walk.at(counted), ("FEMALES",))  # "deu uma fêmea branca em cada uma"
    if "HAD" in walk.piece.types and is_number(walk.after) and is_any(walk.at(counted), ("COLOUR", "EACH")):
        return 0  # "olhei cinco e deu três amarelas", "deu três fêmeas por planta"
    of_each = is_number(walk.near_after) and _so_many_each(walk)
    if of_each and not walk.made.has("sums_behind", walk.piece.text):
        return walk.text()  # "I counted about three females per plant"
    dug = [word.type for word in walk.out[-2:]] == ["DUG", "NUMBER"] and walk.lead in ("", "link")
    if walk.made.has("sums_behind", walk.piece.text) or (dug and is_number(walk.after)):
        walk.lead = "hard"  # "plant four had two that makes fifteen", "dug 5 counted 12"
    return walk.take() if beside_number(walk) or is_number(walk.near_after) else walk.text()


def _so_many_each(walk: Walk) -> bool:
    """Is the number behind one a plant, its color and "females" between them?"""
    j = neighbour_index(walk.ps, walk.i, 1)
    j = j + 1 if j is not None else len(walk.ps)
    while is_any(walk.at(j), ("COLOUR", "FEMALES")):
        j += 1
    return is_any(walk.at(j), ("EACH",))


def too_many(walk: Walk) -> int:
    """Loaded, too many to count; "lots" only of females."""
    before, after = walk.near_before, walk.near_after
    if walk.last_is("NODULES") and after is None:
        return walk.emit("NODULE", "many", walk.piece.start, walk.piece.end)  # "nódulos un montón"
    if is_any(walk.at(walk.i - 1), ("MOISTURE",)) and walk.made.has("too_after", walk.piece.text):
        return walk.text()  # "seco demais da conta"
    words = walk.piece.text.split(" ")
    within = [e for word in words if len(word) > 2 for e in walk.made.singles.get(word, ())]
    colours = [e.value for e in within if e.type == "COLOUR"]
    counting = len(words) > 1 and any(walk.made.has("count_word", word) for word in words)
    of_females = any(e.type == "FEMALES" for e in within)  # "llenas de quistes"
    if colours or of_females or (counting and not is_any(after, ("COLOUR", "FEMALES"))):
        return _too_many_of(walk, colours)
    if is_any(after, ("COLOUR", "FEMALES")) and not _of_plants_ahead(walk):
        return walk.take()
    ends = after is None or after.kind in ("number", "stage", "day")
    ends = ends or is_any(after, ("EACH", "SAME", "LOOK", "TOOL", "SOAKED", "MOISTURE", "MOSTLY"))
    words = walk.piece.text.split(" ")
    strong = walk.has("strong_many") or "count" in walk.piece.text
    strong = strong or (len(words) > 1 and any(word in anywhere("counting") for word in words))
    if ends and (strong or is_any(before, ("COLOUR", "FEMALES"))):
        return walk.take()
    return 0


def _too_many_of(walk: Walk, colours: list[str]) -> int:
    """ "Too many white ones to count": with the first color named within."""
    if colours:
        walk.emit("COLOUR", colours[0], walk.piece.start, walk.piece.start)
    return walk.take()


def _of_plants_ahead(walk: Walk) -> bool:
    """Lots of yellow leaves."""
    for j in range(walk.i + 1, walk.i + 4):
        piece = walk.at(j)
        if piece is None or piece.kind in ("break", "line"):
            return False
        if is_any(piece, ("TOPS", "EDGES", "NODULES", "ROOTS")):
            return True
    return False
