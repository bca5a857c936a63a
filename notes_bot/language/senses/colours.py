"""Colors of females, leaves and roots, and how many of the females have them ("mostly", "all")."""

from __future__ import annotations

import itertools

from notes_bot.language.lexicon.joining import claims, is_any, linking, neighbour_index
from notes_bot.language.lexicon.pieces import Piece, ends_clause
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.names.naming import joints
from notes_bot.language.senses.adjectives import noun_beside
from notes_bot.language.senses.around import (
    COUNTED,
    CROP_AHEAD,
    LEAST_CODE,
    goes_on,
    goes_on_nowhere,
    is_shape,
    of_the_roots,
    with_slash,
)
from notes_bot.language.senses.units import is_measure
from notes_bot.language.senses.walk import Walk, is_number, unknown

MOST_BY_LETTER = 1999
"""More females than this are no count behind a letter, but a name's number (judgement)."""


def colour(walk: Walk) -> int:
    """A colour of females beside a number, of leaves or roots beside those, else a shade said without number."""
    piece, before, after = walk.piece, walk.before, walk.after
    if piece.value == "tied":
        return walk.take()
    other = _another_word(walk)
    if other is not None:
        return other
    led = walk.ps[walk.i - 1].text if walk.i else ""
    if led == "%" or led in anywhere("percent"):
        return _shade(walk)
    if is_number(before) and walk.last_is("NUMBER"):
        return _metres(walk) or _counted_colour(walk, after)
    other = _of_something_else(walk)
    if other is not None:
        return other
    near_before, near_after = walk.near_before, walk.near_after
    numbered = is_number(near_after) and not _only_a_link(walk)
    if walk.entry.slip and not is_any(near_before, ("MOSTLY",)) and (not numbered or piece.text in walk.made.plain):
        return 0
    if walk.entry.value in ("brown", "tan") and not numbered and _some_of_the_leaves(walk):
        return walk.text()
    if walk.entry.value == "yellow" and not numbered and _some_of_the_tops(walk):
        return walk.take("LEAF")
    counted = [word.type for word in walk.out[-2:]] == ["NUMBER", "FEMALES"] and walk.lead == ""
    if counted and _joined(walk) and _joined_behind(walk):
        walk.lead = "soft"  # "12 cysts w+y": as many of both together
        return _shade(walk)
    paired = [word.type for word in walk.out[-3:]] == ["NUMBER", "FEMALES", "COLOUR"] and walk.lead == "link"
    if paired and not numbered and getattr(walk.after, "text", "") in anywhere("size"):
        return _shade(walk)  # "28 hembras blancas y amarillas chiquitas"
    listed = any(word.type == "NUMBER" for word in walk.out[-4:]) and walk.last_is("MOSTLY")
    listed = listed or counted  # "2 fêmeas brancas raiz alva"
    beside = "" if is_any(after, ("FEMALES",)) or listed else noun_beside(walk)  # "16 5 mostly yellow there is a .."
    free = numbered and _free_number(walk)
    if beside and not free:
        return _adjective(walk, beside)
    if walk.last_is("NONE") and "root" in walk.out[-1].text.lower() and walk.entry.value == "white" and not numbered:
        return walk.take("ROOT", "white")  # "roots clean and white"
    if of_the_roots(walk) and not _counted_behind(walk) and not is_any(near_after, ("FEMALES", "MOSTLY", "NONE")):
        return _adjective(walk, "ROOT")
    if _closes_a_list(walk):
        walk.emit("MOSTLY", "all", piece.start, piece.start)
        return _shade(walk)  # "0 0 3 1 0; W."
    edges = (walk.at(walk.i - 1), walk.at(walk.i + 1))
    if len(piece.text) == 1 and [p.text if p is not None else "" for p in edges] == ["(", ")"]:
        return walk.take()  # "2 3 2 6 1 (w)"
    if walk.entry.value == "yellow" and _of_a_place(walk):
        return walk.take("LEAF")
    if walk.entry.value == "yellow" and _yellow_leaves(walk, numbered=numbered, listed=listed):
        return walk.take("LEAF")
    if not numbered and walk.last_is("COLOUR", "TEXT") and _of_the_rest(walk):
        walk.lead = "soft"
        return _shade(walk)  # "8 white and the rest tan"
    shaded = is_any(near_before, ("MOSTLY", "NOT", "TOO_MANY")) or is_any(before, ("HAD",)) or walk.last_is("NOT")
    if shaded or _joined(walk):
        return _shade(walk)
    if free:
        return walk.take()
    if goes_on(walk, "TOP", "LEAF") and walk.entry.value == "yellow" and not numbered:
        return walk.take("LEAF")  # "tops stunted, yellow"
    if goes_on(walk, "NODULE", "NODULES") and walk.entry.value in ("brown", "tan") and not numbered:
        return walk.take("NODULE", "brown")  # "nódulos muertos, pardos"
    return _without_number(walk, numbered=numbered)


_LEAVES = frozenset({"TOPS", "LEAF", "EDGES"})
"""What is said of leaves."""
_LEAF_SHAPES = ("edges_old", "interveinal_new", "flash_bands")


def _some_of_the_leaves(walk: Walk) -> bool:
    """ "(Lower leaves yellow on the edges,) some brown": of leaves just told, no plants being told before them."""
    some = walk.out[-1] if walk.last_is("MOSTLY", "TEXT") else None
    told = walk.out[: -1 if some is not None else None][-1:]
    lead = walk.lead if some is None else some.lead
    leafy = bool(told) and (told[0].type in _LEAVES or told[0].value in _LEAF_SHAPES)
    if not leafy or lead not in ("soft", "link") or not goes_on_nowhere(walk):
        return False
    for word in reversed(walk.out):
        if word.type in ("NUMBER", "PLANTS", "DUG", "FEMALES"):
            return False
        if word.type == "FIELD":
            break
    if some is not None:
        some.type = "TEXT"
    return True


def _some_of_the_tops(walk: Walk) -> bool:
    """ "11 white; tops uneven, some yellow": of tops just told by name, behind females counted by color."""
    some = walk.out[-1] if walk.last_is("MOSTLY", "TEXT") else None
    led = [word.type for word in walk.out[-3:-1]]
    if some is None or led not in (["TOPS", "TOP"], ["LEAF", "TOP"]) or some.lead not in ("soft", "link"):
        return False
    kinds = [word.type for word in walk.out]
    counted = any(pair in (("NUMBER", "COLOUR"), ("COLOUR", "NUMBER")) for pair in itertools.pairwise(kinds))
    if not counted or not goes_on_nowhere(walk):
        return False
    some.type = "TEXT"
    return True


def _of_the_rest(walk: Walk) -> bool:
    """Is "the rest" or "the others" said right before, a color with its number before that?"""
    before = walk.at(walk.i - 1)
    if before is None or not walk.made.has("rest_word", before.text.split(" ")[-1]) or is_number(walk.at(walk.i + 1)):
        return False
    told = (word.type for word in reversed(walk.out) if word.type in ("NUMBER", "COLOUR"))
    return sorted(itertools.islice(told, 2)) == ["COLOUR", "NUMBER"]


def _of_a_place(walk: Walk) -> bool:
    """ "Low end (yellow) 4 plants ..": in brackets between a place and its plants, the color of its leaves."""
    place, opens, closes = (walk.at(walk.i + k) for k in (-2, -1, 1))
    bracketed = opens is not None and closes is not None and opens.text == "(" and closes.text == ")"
    dug = is_number(walk.at(walk.i + 2)) and is_any(walk.at(walk.i + 3), ("PLANTS", "DUG"))
    return bracketed and dug and is_any(place, ("SPOT",))


def _another_word(walk: Walk) -> int | None:
    """What is no color, though written like one ("w/", "looked for white"), or cannot be told; ``None`` for others."""
    piece, before = walk.piece, walk.before
    if piece.text == "y" and _and_of_counts(walk):
        return walk.link()  # "10 white y 4 yellow"
    sold = len(piece.text) == 1 and walk.after is not None and walk.made.has("sold_by", walk.after.text)
    if with_slash(walk, walk.i) or _with_word(walk) or sold:  # "soja a 128 a saca"
        return 0
    seeks = before is not None and walk.made.has("seeks", before.text)
    if (seeks and not is_any(walk.at(walk.i - 2), ("ROOTS", "NODULES", "TOPS"))) or _late_for(walk):
        return walk.text()  # "looked for white, saw none", and not "roots look white"
    if walk.i and walk.ps[walk.i - 1].text in ("?", "x", "xx") and walk.last_is("DUG", "PLANTS", "TEXT", "TOOL"):
        walk.draft.ask("doubtful", walk.ps[walk.i - 1].start, piece.end)  # "6 dug ??? white"
        return walk.text()
    bare = not is_number(walk.after) and not is_number(before) and not is_any(walk.near_before, ("MOSTLY", "TOO_MANY"))
    if bare and walk.has("shade_or_soil") and not is_any(walk.near_after, ("FEMALES", "COLOUR", "TOO_MANY")):
        walk.draft.ask("unknown_word", piece.start, piece.end)  # "R3 wt": wet, or white?
        return walk.text()
    if _ten_or_tan(walk):
        walk.draft.ask("which_number", piece.start, walk.ps[walk.i + 1].end)
        return walk.text()
    return None


def _of_something_else(walk: Walk) -> int | None:
    """What is said of stages, of another crop, or names a seed or a road; ``None`` for a color of ours."""
    piece, before, after = walk.piece, walk.before, walk.after
    staged = [p is not None and p.kind == "stage" for p in (before, after)]
    if all(staged) and "LINK" in piece.types:
        return 0  # "V4 a V5"
    if not is_number(after) and not is_number(before) and _of_another_crop(walk):
        return walk.text()  # "el maíz del vecino está amarillo"
    little = len(piece.text) == 1 and "LINK" in piece.types and walk.made.language != "en"
    if little and is_any(before, ("HAD",)) and unknown(walk.at(walk.i + 1)):
        return 0  # "com a estrada vazia"
    letter = len(piece.text) == 1 and piece.spaced and after is not None and after.kind == "number"
    if letter and after is not None and after.value > MOST_BY_LETTER:
        return walk.text()  # "material M 5917"
    if _road(walk, after) and after is not None:
        walk.emit("TEXT", None, piece.start, after.end)
        return walk.direct_index(walk.i, 1) - walk.i + 1
    return None


def _yellow_leaves(walk: Walk, *, numbered: bool, listed: bool) -> bool:
    """Is this yellow said of the plants above ground?"""
    piece, before, after = walk.piece, walk.before, walk.after
    if not is_number(before) and not listed and _on_top(walk):
        return True  # "stunted patch the size of a barn, yellow on top too"
    joined = walk.lead == "link" and walk.ps[walk.i - 1].text in joints() and not is_any(after, ("FEMALES",))
    if walk.last_is("TOP") and joined and not numbered:
        return True  # "stunted y yellow", "short and yellow"
    if is_any(after, ("SPOT",)) and len(piece.text) > 1 and not numbered:
        return True  # "in the yellow strip 3 plants"
    sized = [word.type for word in walk.out[-2:]] == ["TOP", "TEXT"] and walk.lead == ""
    if sized and walk.out[-2].value in ("patch", "ring") and not numbered:
        return True  # "manchón de 20x30 amarillo"
    told = walk.draft.text[walk.out[-1].end : piece.start].lower().split() if walk.out else []
    if walk.last_is("FIELD") and told and told[0] in anywhere("looks"):
        return True  # "tinkers is yellow"
    if len(piece.text) > 1 and not numbered and _of_the_crop(walk):
        return True  # "it's a little yellow"
    if _whole_crop(walk):
        walk.out[-1].type, walk.out[-1].value = "TEXT", None
        return True  # "V5 baixinha, toda amarela"
    return False


def _without_number(walk: Walk, *, numbered: bool) -> int:
    """A colour that no number counts: a shade, the head of what follows, or not that."""
    piece, before, after = walk.piece, walk.before, walk.after
    near_before, near_after = walk.near_before, walk.near_after
    letter = len(piece.text) == 1
    heads = before is None or before.kind in ("break", "line") or is_any(before, ("FIELD",))
    if heads and getattr(walk.at(walk.i + 1), "text", "") == "," and is_any(walk.at(walk.i + 2), ("TOO_MANY",)):
        return walk.take()  # "w, 2 mny 2 cnt"
    little = letter and "LINK" in piece.types and walk.made.language != "en"  # "a media ladera"
    if is_any(after, ("EACH",)) and not is_number(near_before) and not little:
        return _shade(walk)
    behind = walk.at(walk.i + 2)
    ends = behind is None or behind.kind in ("break", "line") or behind.text == ":"
    shaded = not letter or (ends and not little)  # "w only: 3 2 0"
    if is_any(after, ("MOSTLY",)) and shaded and not is_number(before) and (letter or not numbered):
        if letter and after is not None and after.types["MOSTLY"].value == "all":
            walk.emit("MOSTLY", "all", piece.start, piece.start)
        return _shade(walk)
    if is_any(near_after, ("MOSTLY", "TOO_MANY", "FEMALES", "NONE")) and not letter:
        return walk.take()
    if walk.last_is("FEMALES") and any(word.type == "POSITIVE" for word in walk.out[-3:]):
        return _shade(walk)  # "3 com cisto marrom, 19 no total"
    if is_any(near_before, ("FEMALES",)):
        return walk.take()
    if letter and before is not None and walk.made.has("rest_word", before.text) and goes_on_nowhere(walk):
        return _shade(walk)  # "28 w, rest y"
    if letter or walk.entry.slip:
        return 0
    if unknown(after) or (unknown(before) and walk.lead in ("", "link")):
        return walk.text()
    return walk.take()


def _on_top(walk: Walk) -> bool:
    """ "(Yellow) on top": right behind the word at hand, and no letter."""
    top = walk.at(walk.i + 1)
    below = top.types.get("BELOW") if top is not None else None
    return below is not None and below.value == "top" and len(walk.piece.text) > 2


def _road(walk: Walk, number: Piece | None) -> bool:
    """ "Passei pela BR 163": two capitals behind a little word, a large number behind them."""
    word = walk.draft.text[walk.piece.start : walk.piece.end]
    led = walk.ps[walk.i - 1].text if walk.i else ""
    large = number is not None and number.kind == "number" and number.value >= LEAST_CODE
    return len(word) == 2 and word.isupper() and large and led in anywhere("road_lead")


def _and_of_counts(walk: Walk) -> bool:
    """The Spanish "and" between two counts of a note in English words."""
    number = walk.direct_index(walk.i, 1)
    counts = is_number(walk.at(number)) and is_any(walk.direct(number, 1), ("COLOUR", "FEMALES"))
    return counts and walk.piece.spaced and walk.last_is("COLOUR") and walk.out[-2:-1] != []


def _ten_or_tan(walk: Walk) -> bool:
    """ "6 plants tan white", as heard: ten of them, or tan ones and white ones?"""
    if walk.piece.text != "tan" or not walk.last_is("PLANTS", "DUG", "SOAKED"):
        return False
    beyond, behind = walk.at(walk.i + 1), walk.direct(walk.i + 1, 1)
    colours = beyond is not None and "COLOUR" in beyond.types and len(beyond.text) > 2 and beyond.spaced
    return colours and not is_number(behind) and not is_any(behind, ("TOPS",))


def _with_word(walk: Walk) -> bool:
    """ "4 w my hands": a letter before a little word that leads to a noun is "with", not white."""
    if walk.piece.text not in ("w", "c") or not walk.piece.spaced or walk.after is None:
        return False
    if is_any(walk.before, ("TOO_MANY", "MOSTLY")) and is_any(walk.at(walk.i + 2), ("COLOUR",)):
        return False  # "lots w some y"
    return walk.made.has("leads_noun", walk.after.text.split(" ")[0])


def _counted_behind(walk: Walk) -> bool:
    """ "Blancas 3": does the number behind this color count it? Not in "marrones, 3 hembras"."""
    j = neighbour_index(walk.ps, walk.i, 1)
    return j is not None and is_number(walk.at(j)) and not claims(walk.ps, j + 1)


def _of_the_crop(walk: Walk) -> bool:
    """ "Depot was yellow on ..", "it's a little yellow": said of the field, with no number before it."""
    k, said = walk.i - 1, False
    while k >= 0 and walk.i - k <= CROP_AHEAD and walk.ps[k].kind == "word":
        text = walk.ps[k].text
        if not (walk.made.has("copula", text) or walk.made.has("degree", text)):
            break
        said = said or walk.made.has("copula", text)
        k -= 1
    if not said or is_any(walk.after, ("FEMALES", "PLANTS")):
        return False
    named = walk.made.has("crop_pronoun", walk.ps[k].text if k >= 0 else "")
    named = named or walk.made.has("crop_pronoun", walk.ps[k + 1].text)
    opens = k < 0 or walk.ps[k].kind in ("break", "line")
    named = named or (opens and walk.made.has("unsaid_subject", walk.ps[k + 1].text))  # "Está medio amarillo"
    counts = {"NUMBER", "FEMALES", "POSITIVE", "TOO_MANY"}
    before = next((word for word in reversed(walk.out) if word.start < walk.ps[k + 1].start), None)
    ends = before is not None and before.type == "FIELD" and walk.ps[k].end >= before.end
    field = k >= 0 and (is_any(walk.ps[k], ("FIELD",)) or ends)
    if not (field or (named and not any(word.type in counts for word in walk.out))):
        return False
    for word in itertools.takewhile(lambda word: word.start >= walk.ps[k + 1].start, reversed(walk.out)):
        if word.type == "MOSTLY":
            word.type, word.value = "TEXT", None  # "a little", "just plain"
    return True


WITHIN_NOTE = 80
"""Words before that are looked at for what a note has counted, at most (judgement)."""


def _whole_crop(walk: Walk) -> bool:
    """ "V5, toda amarela": all of it, told right behind how the crop stands, before anything is counted."""
    before = walk.at(walk.i - 1)
    if before is None or not walk.made.has("whole_crop", before.text) or not walk.last_is("MOSTLY"):
        return False
    own = [word.type for word in walk.out[-WITHIN_NOTE:]]
    since = own[max((n for n, type_ in enumerate(own) if type_ == "FIELD"), default=0) :]
    counted = {"NUMBER", "FEMALES", "POSITIVE", "TOO_MANY", "NONE", "DUG", "TOOL", "PLANTS"} & set(since)
    female = any(is_any(walk.at(walk.i + ahead), ("FEMALES",)) for ahead in (1, 2))  # "tudo amarelo as fêmeas"
    return not counted and not female and len(own) > 1 and own[-2] in ("STAGE", "TOP", "TOPS", "LEAF")


def _late_for(walk: Walk) -> bool:
    """ "Seems late for white", "too early for tan": what is said of the time of the year."""
    words = [piece.text for piece in walk.ps[max(0, walk.i - 2) : walk.i]]
    return len(words) == 2 and walk.made.has("timing", words[0]) and walk.made.has("timing_for", words[1])


def _closes_a_list(walk: Walk) -> bool:
    """Is this letter, or this color behind a full stop, alone between two stops, right behind a list?"""
    whole = len(walk.piece.text) > 1 and walk.lead != "hard"
    if whole or [word.type for word in walk.out[-3:]] != ["NUMBER"] * 3:
        return False
    sides = (walk.at(walk.i - 1), walk.at(walk.i + 1))
    return sides[0] is not None and all(p is None or p.kind in ("break", "line") for p in sides)


def _metres(walk: Walk) -> int:
    """ "Manchón de 30 m": a letter behind a number that "of" or "at" leads to is a measure's, no color's."""
    led = walk.ps[walk.i - 2] if walk.i > 1 else None
    letter = len(walk.piece.text) == 1 and walk.piece.spaced and walk.made.language != "en"
    if not (letter and led is not None and walk.made.has("leads_measure", led.text)):
        return 0
    walk.out[-1].type, walk.out[-1].value = "TEXT", None
    return walk.text()


def _only_a_link(walk: Walk) -> bool:
    """ "seco a 60 m": a letter that is also a little word names a colour only where its number stands free."""
    if len(walk.piece.text) > 1 or "LINK" not in walk.piece.types or walk.colon_at(walk.i + 1):
        return False
    j = walk.direct_index(walk.i, 1)
    if j < len(walk.ps) and walk.ps[j].kind == "word" and linking(walk.ps[j]):
        return True  # "próxima mirada a los 12 días"
    k = walk.direct_index(j, 1)
    beyond = walk.at(k)
    if beyond is not None and is_any(beyond, ("MEASURE",)) and is_measure(walk, k, beyond):
        return True
    free = beyond is None or beyond.kind in ("break", "line", "number") or is_any(beyond, ("COLOUR", "PLANTS", "EACH"))
    free = free or (is_any(beyond, ("NOT",)) and is_number(walk.direct(k, 1)))  # "w 11 not 9"
    return not (free or (beyond is not None and walk.made.has("over", beyond.text)))


def _shade(walk: Walk) -> int:
    """A colour that may stand without a number; "no white or yellow" denies both."""
    types = [word.type for word in walk.out[-2:]]
    if types == ["NOT", "COLOUR"] and walk.lead == "link" and _joined(walk):
        walk.emit("NOT", "not", walk.piece.start, walk.piece.start, lead="soft")
    used = walk.take()
    walk.out[-1].free = True
    return used


def _of_another_crop(walk: Walk) -> bool:
    """Is another crop named before it in its sentence?"""
    for j in range(walk.i - 1, max(-1, walk.i - 7), -1):
        piece = walk.ps[j]
        if piece.kind in ("line", "number") or piece.value == "hard":
            return False
        if any(walk.made.has("other_crop", word) for word in piece.text.split()):
            return True
    return False


def _of_its_own_clause(walk: Walk) -> bool:
    """ "(12 white,) 3 yellow leaves", "3 yellow spots by the gate": a clause of a count of leaves or plants alone?"""
    noun = walk.at(walk.i + 1)
    if walk.made.language != "en" or walk.out[-1].lead not in ("soft", "hard", "line"):
        return False
    if not (is_any(noun, ("TOPS", "TOP")) or is_shape(noun)):
        return False
    behind = walk.at(walk.i + 2)
    return ends_clause(behind) or (behind is not None and walk.made.has("else_at", behind.text.split(" ")[0]))


def _counted_colour(walk: Walk, after: Piece | None) -> int:
    """3 white; but 3 yellow leaves are leaves, and 12 yellow plants must be asked about."""
    counting = [word.type for word in walk.out[-3:-1]] == ["NUMBER", "COLOUR"]  # "9 white 4 yellow, edges .."
    counting = counting or walk.made.language != "en" or walk.piece.text.endswith("s")  # "10 bcas 2 amar hojas .."
    counting = (counting or _crop_told(walk, after)) and not _of_its_own_clause(walk)
    leaf = (is_any(after, ("TOPS", "EDGES")) and not counting) or (is_shape(after) and not counting)
    if leaf and not is_any(after, ("COLOUR", "PLANTS")):
        walk.out[-1].type = "TEXT"
        return walk.take("LEAF")
    if (
        is_any(after, ("PLANTS",))
        and is_any(after, ("TOPS",))
        and not counting
        and not is_number(walk.direct(walk.direct_index(walk.i, 1), 1))
    ):
        j = walk.direct_index(walk.i, 1)
        walk.draft.ask("coloured_plants", walk.out[-1].start, walk.ps[j].end)
        walk.out[-1].type = "TEXT"
        walk.emit("TEXT", None, walk.piece.start, walk.ps[j].end)
        return j - walk.i + 1
    if _joined(walk) and _joined_behind(walk):
        walk.emit("FEMALES", "female", walk.piece.start, walk.piece.start)
        walk.lead = "soft"  # "12 white/yellow": as many of both together
        return _shade(walk)
    return _shade(walk) if _joined(walk) else walk.take()


def _crop_told(walk: Walk, after: Piece | None) -> bool:
    """ "6 plants 2 white plants look pale": counted plants, one count, and what the crop is like told behind it."""
    if walk.entry.value != "white" or not is_any(after, ("TOPS", "EDGES", "TOP")):
        return False
    if not any(word.type == "PLANTS" for word in walk.out):
        return False
    counts = any(p is not walk.piece and is_any(p, ("FEMALES", "NONE", "TOO_MANY")) for p in walk.ps)
    if counts or any(word.type in ("COLOUR", "TOTAL", "POSITIVE") for word in walk.out):
        return False
    j = walk.direct_index(walk.direct_index(walk.i, 1), 1)
    behind = walk.ps[j : j + CROP_AHEAD]
    said = any(walk.made.has("copula", p.text) or is_any(p, ("TOP",)) for p in behind)
    return said or is_any(after, ("TOP",))


def _joined(walk: Walk) -> bool:
    """w+y, white/yellow, tan and brown: another colour right beside it."""
    for step in (-1, 1):
        j = walk.i + step
        joined = False
        while (piece := walk.at(j)) is not None and _joint(piece):
            joined = True
            j += step
        if joined and is_any(piece, ("COLOUR",)):
            return True
    return False


def _joined_behind(walk: Walk) -> bool:
    """Are the colors joined behind this one without a number of their own ("12 w+y", "12 w+y+t")?"""
    j, last = walk.i + 1, walk.i
    while (piece := walk.at(j)) is not None and _joint(piece) and piece.text != "some":
        while (piece := walk.at(j)) is not None and _joint(piece) and piece.text != "some":
            j += 1
        if not is_any(piece, ("COLOUR",)):
            break
        last, j = j, j + 1
    behind = walk.at(last + 1)
    ends = behind is None or behind.kind in ("break", "line") or is_any(behind, ("FEMALES",))
    ends = ends or getattr(behind, "text", "") in anywhere("blend") | anywhere("size")
    ends = ends or _is_of_the_look(walk, last + 1)
    joint = walk.at(walk.i + 1)
    plain = len(walk.piece.text) > 2 or (joint is not None and joint.kind == "sign")
    return last > walk.i and plain and ends


def _joint(piece: Piece) -> bool:
    """Does it join two colors ("+", "and")?"""
    if piece.kind == "sign":
        return piece.text in "+/&-"
    return (piece.text == "&" or piece.text in anywhere("shade_joint")) and "COLOUR" not in piece.types


def _is_of_the_look(walk: Walk, j: int) -> bool:
    """ "(9 white and yellow) on 6 plants", ".. con pala", ".. volto qua": no more is said of the colors."""
    piece, behind, beyond = walk.at(j), walk.at(j + 1), walk.at(j + 2)
    upon = piece is not None and piece.text in anywhere("upon_plant") and is_number(behind)
    plants = is_any(beyond, ("PLANTS",)) if upon else is_number(piece) and is_any(behind, ("PLANTS",))
    return plants or is_any(piece, ("TOOL", "DUG", "SOAKED", "LOOK"))


def _adjective(walk: Walk, beside: str) -> int:
    """A colour said of roots, nodules or leaves."""
    if beside == "LEAF" and not (len(walk.piece.text) == 1 and "LINK" in walk.piece.types):
        return walk.take("LEAF")
    if len(walk.piece.text) == 1:
        return 0
    value = {("ROOT", "white"): "white", ("ROOT", "brown"): "dark", ("NODULE", "brown"): "brown"}.get(
        (beside, walk.entry.value)
    )
    return walk.take(beside, value) if value else walk.text()


def _free_number(walk: Walk) -> bool:
    """Is the number behind this colour free, or does a noun behind it claim it ("leaves yellow 6 plants")?"""
    if not walk.last_is("TOPS", "NEW", "OLD", "EDGES", "VEINS", "BANDS", "LEAF", "TOP", "ROOTS", "ROOT", "NODULES"):
        return True
    j = neighbour_index(walk.ps, walk.i, 1)
    beyond = walk.near(j, 1) if j is not None else None
    return not is_any(beyond, COUNTED | {"UNIT", "NODULES", "DAP", "MEASURE"})


def mostly(walk: Walk) -> int:
    """Mostly, all, some: of a colour of females."""
    after, before = walk.near_after, walk.near_before
    if walk.entry.value != "all" and walk.last_is("TOPS") and is_any(after, ("COLOUR", "TOP")):
        return walk.emit("LINK", "link", walk.piece.start, walk.piece.end)  # "tops a little yellow"
    if walk.entry.value == "all" and is_any(after, ("FEMALES",)) and not is_number(walk.before):
        k = neighbour_index(walk.ps, walk.i, 1) or walk.i
        shade = walk.at(k + 1)
        if is_any(shade, ("COLOUR",)) and shade is not None and not is_number(walk.at(k + 2)):
            walk.take()  # "puro quiste marrón cincuenta en total"
            walk.emit("COLOUR", shade.types["COLOUR"].value, shade.start, shade.end)
            walk.out[-1].free = True
            return k + 2 - walk.i
    if is_any(after, ("COLOUR",)):
        j = neighbour_index(walk.ps, walk.i, 1) or walk.i
        beyond = walk.near(j, 1)
        of_leaves = is_any(beyond, ("TOPS", "ROOTS", "EDGES")) and not is_number(beyond)
        of_leaves = of_leaves and not (
            is_any(beyond, ("ROOTS",)) and getattr(walk.at(j + 1), "text", "") in anywhere("upon")
        )
        if of_leaves and not is_any(beyond, ("PLANTS",)):
            return 0
        lone = walk.last_is("NUMBER") and not (len(walk.out) > 1 and walk.out[-2].type == "NUMBER")
        if lone and walk.lead == "link" and walk.ps[walk.i - 1].text in anywhere("and_word"):
            return walk.text()  # "twenty and some white" is no number
        k = neighbour_index(walk.ps, j, 1) or j
        plants = is_number(beyond) and is_any(walk.at(k + 1), ("PLANTS", "DUG"))  # "22 all w 4p"
        if lone and (plants or not is_number(beyond)):
            walk.emit("FEMALES", "female", walk.piece.start, walk.piece.start)
        return walk.take()
    if is_any(before, ("COLOUR",)) and not walk.has("vague") and not is_any(after, ("NODULES",)):
        return walk.take()
    counted = len(walk.out) > 1 and walk.out[-2].type == "NUMBER" and walk.out[-1].lead == ""
    listed = counted and len(walk.out) > 2 and walk.out[-3].type == "NUMBER" and walk.out[-2].lead in ("", "soft")
    if walk.last_is("COLOUR") and walk.entry.value == "all" and (listed or not counted) and after is None:
        return walk.take()  # "per plant 4 2 0 6. whites only"
    stop = walk.at(walk.i - 1)
    told = walk.out[-1] if walk.out and walk.out[-1].type == "COLOUR" else None
    behind = stop is not None and stop.text == "," and told is not None and told.lead in ("hard", "line")
    ends = after is None or after.kind in ("break", "line")
    if told is not None and behind and walk.entry.value == "all" and not counted and ends:
        walk.out.pop()  # "Yellow, every one of em."
        walk.emit("MOSTLY", "all", told.start, told.start, lead=told.lead)
        return walk.emit("COLOUR", told.value, told.start, walk.piece.end, lead="")
    return 0
