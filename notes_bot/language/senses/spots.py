"""Places of the field, and the check strip."""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any, linking, neighbour_index
from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.names.naming import written
from notes_bot.language.passes.dictation import heard_number
from notes_bot.language.senses.around import LOOKED_BACK, data_at
from notes_bot.language.senses.heard import MOST_HEARD_ALONE
from notes_bot.language.senses.walk import Walk, is_number, unknown

LITTLE_BEFORE_COUNT = 5
"""Stops and little words between a place and what was found there, ", and those had only" (judgement)."""
LOOKED_AHEAD = 60
"""Pieces behind a place in which it may be told of again (judgement)."""


def check(walk: Walk) -> int:
    """The check strip; a bare "check" only with counts behind it."""
    if walk.last_is("CHECK"):
        return walk.text()
    j = walk.direct_index(walk.i, 1)
    if walk.piece.text == "s strip" and any(walk.made.has("side_strip", p.text) for p in walk.ps):
        return walk.take("SPOT", "s strip")
    bracket = walk.at(j)
    if bracket is not None and bracket.text == "(" and is_any(walk.at(j + 1), ("RESISTANCE",)):
        j = walk.direct_index(j + 2, 1)
    if bracket is not None and bracket.kind == "seed":
        j = walk.direct_index(j, 1)  # "testemunha Mutum 60: 4 pl"
    lies = walk.direct_index(j, 1) if is_any(walk.at(j), ("SPOT",)) else j  # "testigo en la cabecera: 3 pl"
    beside = _lies_beside(walk, j)
    lies = walk.direct_index(j + beside - 1, 1) if beside else lies
    lies += getattr(walk.at(lies), "text", "") == ","
    if " " not in walk.piece.text and not data_at(walk, lies):
        return 0
    start = walk.piece.start
    if walk.last_is("RESISTANCE") and walk.out[-1].value == "susceptible" and walk.lead == "":
        start = walk.out.pop().start  # "the susceptible comparison row": the strip's own seed
    name = written(walk.draft.text, start, walk.piece.end).split(" ")
    if start == walk.piece.start and len(name) == len(walk.piece.text.split(" ")):
        mended = zip(name, walk.piece.text.split(" "), strict=True)
        name = [word if fold(word) == meant else meant for word, meant in mended]  # "chekc strip"
    while len(name) > 1 and (walk.made.has("place_lead", fold(name[0])) or fold(name[0]) in anywhere("name_article")):
        del name[0]  # "el testigo", "na testemunha"
    return walk.emit("CHECK", " ".join(name), start, walk.piece.end) + beside


def _lies_beside(walk: Walk, j: int) -> int:
    """How many pieces from j on say that the strip lies beside the field ("al lado", "next to it")."""
    for size in (4, 3, 2, 1):
        said = [piece for piece in (walk.at(k) for k in range(j, j + size)) if piece is not None]
        if len(said) == size and walk.made.has("lies_beside", " ".join(piece.text for piece in said)):
            return size
    return 0


def spot(walk: Walk) -> int:
    """A place of the field, when counts follow it; of none a word for its plants may tell how they look."""
    if _only_somewhat(walk):
        return walk.link()
    return _as_place(walk) or _looks_told_as_place(walk)


def _only_somewhat(walk: Walk) -> bool:
    """ "Raiz (meio) escura", "hojas (medio) amarillas": between a noun and its adjective, "somewhat"."""
    before, after = walk.at(walk.i - 1), walk.at(walk.i + 1)
    if not walk.made.has("degree", walk.piece.text) or not is_any(after, ("ROOT", "TOP", "COLOUR", "MOISTURE")):
        return False
    soil = before is not None and walk.made.has("soil_word", before.text)
    return soil or is_any(before, ("ROOTS", "TOPS", "NODULES"))


def _looks_told_as_place(walk: Walk) -> int:
    """ "A ring of (stunted) yellow beans by the oak": no counts follow, so the color is that of the plants."""
    words = walk.piece.text.split(" ")
    if walk.entry.value != "bad" or len(words) != 2 or set(walk.piece.types) != {"SPOT"} or walk.last_is("NUMBER"):
        return 0
    entries = [(entry.type, entry.value) for word in words for entry in walk.made.singles.get(word, ())]
    for type_, value, told in (("COLOUR", "yellow", "LEAF"), ("TOP", "stunted", "TOP")):
        if (type_, value) in entries:
            return walk.emit(told, value, walk.piece.start, walk.piece.end)
    return 0


def _as_place(walk: Walk) -> int:
    """A place of the field, when counts follow it."""
    i, piece = walk.i, walk.piece
    if walk.last_is("CHECK") and walk.lead == "":
        return 1  # where the check strip lies
    colon = walk.colon_at(i + 1)
    j = walk.direct_index(i, 1)
    after = walk.at(j)
    if piece.text == "in" and not colon and (is_any(after, ("SPOT",)) or _leads_noun(walk)):
        return 0  # "3 plants in the bad spot", "2 plants in the check"
    if _of_each_place(walk, j):
        return walk.text()
    dug = [word.type for word in walk.out[-3:]]
    if piece.text == "out" and walk.lead == "" and (dug[1:] == ["DUG", "NUMBER"] or dug == ["DUG", "NUMBER", "PLANTS"]):
        return 1  # "eased 4 out by hand", "eased 4 plants out: 3 3 0 2"
    if is_any(piece, ("BANDS", "TOP")) and walk.last_is("LEAF", "TOP", "TOPS") and not colon:
        return 0  # "yellow in bands, 4 plants 5 white"
    if told := _told_of_later(walk):
        return told
    stopped = getattr(walk.at(i + 1), "kind", "break") in ("break", "line") and walk.lead in ("", "link")
    if stopped and walk.last_is("TOP", "LEAF", "GREEN") and (shape := _shape_within(walk)):
        return shape  # "ripe early in ring, 5 plants 22 brown"
    inner = walk.at(i + 2) if colon else None
    if is_any(piece, ("TOP",)) and is_any(inner, ("SPOT",)) and not is_any(inner, ("NUMBER_WORD",)):
        return 0  # "tem reboleira: dentro 4 plantas .. fora 4 plantas .."
    listed = [word.type for word in walk.out[-3:]] == ["NUMBER"] * 3
    claimed = walk.last_is("NUMBER") and walk.lead == "" and not colon and not listed and not _counts_behind(walk, j)
    claimed = claimed and not _told_like_another(walk, j)
    if after is None or after.kind == "line" or claimed:
        return 0
    counted = after.kind == "number" and (is_number(walk.at(j + 1)) or _out_follows(walk, j))
    if not colon and piece.text == "in" and not counted:
        return 0
    told = after.kind in ("number", "mark") or is_any(walk.near_after, ("DUG",))
    counted = (told and data_at(walk, j)) or is_any(after, ("NONE",)) or _counts_behind(walk, j) or _shades_at(walk, j)
    if _heard_plants(walk, j):
        return walk.take(value=_place_name(walk))
    if not colon and walk.has("timid_spot") and not counted:
        return 0
    span = walk.near(neighbour_index(walk.ps, i, 1) or i, 1)
    if not colon and after.text == "de" and is_any(span, ("UNIT",)) and len(getattr(span, "text", "")) > 1:
        return 0  # "dentro de diez días"
    if after.kind == "break" and piece.value == "numbered":
        j += 1
    if after.text == "," and i in _places_before_plants(walk):
        return walk.take(value=_place_name(walk))
    if colon or data_at(walk, j) or _counts_behind(walk, j):
        return walk.take(value=_place_name(walk))
    return _place_of_something(walk) or strip_of_seed(walk) or _shape_within(walk)


def _leads_noun(walk: Walk) -> bool:
    """ "In (the check)": does an article stand right behind it?"""
    behind = walk.at(walk.i + 1)
    return behind is not None and behind.text in anywhere("nth_article")


def _shades_at(walk: Walk, j: int) -> bool:
    """ "Hill white 8, low end white 21", "hill w 3 y 1": colors told with their counts behind them."""
    while is_any(walk.at(j), ("COLOUR",)) and is_number(walk.at(j + 1)):
        j += 2
        if (piece := walk.at(j)) is None or piece.kind in ("break", "line"):
            return True
    return False


def _of_each_place(walk: Walk, j: int) -> bool:
    """ "Gate and knoll, 4 plants each": the last of places only named, what is said of each behind them."""
    before, other = walk.at(walk.i - 1), walk.at(walk.i - 2)
    if before is None or before.text not in anywhere("and_word") or other is None or is_number(other):
        return False
    j += getattr(walk.at(j), "text", "") == ","
    counted = is_number(walk.at(j)) and is_any(walk.at(j + 1), ("PLANTS",))
    each = walk.at(j + 2)
    return counted and each is not None and (is_any(each, ("EACH",)) or walk.made.has("each_place", each.text))


def _shape_within(walk: Walk) -> int:
    """ "The plants in the ring are wilted": a ring is told, and no place that was counted."""
    word = walk.piece.text.split(" ")[-1]
    shape = next((e.value for e in walk.made.singles.get(word, ()) if e.type == "TOP"), "")
    if " " not in walk.piece.text or shape not in ("patch", "ring") or walk.entry.value != "in":
        return 0
    return walk.emit("TOP", shape, walk.piece.start, walk.piece.end)


def _told_like_another(walk: Walk, j: int) -> bool:
    """ "4 pl en la tranquera 8 bl, 4 en el fondo 1 bl": a place told as the one before, its plants first."""
    since = [word.type for word in walk.out[-LOOKED_BACK:]]
    placed = any(types == ("NUMBER", "PLANTS", "SPOT") for types in zip(since, since[1:], since[2:], strict=False))
    counted = is_number(walk.at(j)) and is_any(walk.direct(j, 1), ("COLOUR", "FEMALES"))
    return placed and counted and walk.out[-1].lead in ("soft", "hard", "line")


def _out_follows(walk: Walk, j: int) -> bool:
    """ "In 3 plants 18 white, out 3 plants 2 white": the other place with its plants further on."""
    later = range(j + 1, min(len(walk.ps) - 2, walk.i + LOOKED_AHEAD))
    out = any(walk.ps[k].text in ("out", "outside") and is_number(walk.at(k + 1)) for k in later)
    return is_any(walk.at(j + 1), ("PLANTS",)) and out


def _places_before_plants(walk: Walk) -> list[int]:
    """ "At the gate, I dug four plants ..; on the hill, another four ..": a comma and plants behind each."""
    if walk.comma_places is None:
        found = [k for k in range(len(walk.ps)) if is_any(walk.at(k), ("SPOT",)) and _plants_behind_comma(walk, k)]
        walk.comma_places = found if len(found) > 1 else []
    return walk.comma_places


def _plants_behind_comma(walk: Walk, k: int) -> bool:
    """Does a comma follow the place at k, and plants with their number a few words on?"""
    if getattr(walk.at(k + 1), "text", "") != ",":
        return False
    k += 2
    most = k + 4
    while k < most and (piece := walk.at(k)) is not None and piece.kind == "word" and not is_any(piece, ("SPOT",)):
        if is_any(walk.at(k + 1), ("PLANTS",)) and "NUMBER_WORD" in piece.types:
            return True
        k += 1
    return is_number(walk.at(k)) and is_any(walk.at(k + 1), ("PLANTS",))


def _told_of_later(walk: Walk) -> int:
    """ "4 from the north end and 4 from the south end. North end was 16 white ..": plants first, females later."""
    n = len(walk.out) - 1
    while n > 0 and walk.out[n].type in ("TEXT", "LINK") and walk.made.has("place_lead", fold(walk.out[n].text)):
        n -= 1
    number = walk.out[n - 1] if n > 0 and walk.out[n].type == "PLANTS" else walk.out[n] if n >= 0 else None
    if number is None or number.type != "NUMBER":
        return 0
    value = walk.piece.types["SPOT"].value
    later = range(walk.i + 2, min(len(walk.ps), walk.i + LOOKED_AHEAD))
    again = next((k for k in later if is_any(walk.ps[k], ("SPOT",)) and walk.ps[k].types["SPOT"].value == value), 0)
    stop = any(piece.kind in ("break", "line") for piece in walk.ps[walk.i : again])
    if not stop or is_number(walk.ps[again - 1]):
        return 0
    del walk.out[n + 1 :]
    walk.lead = "link"
    return walk.take(value=_place_name(walk))


def _place_of_something(walk: Walk) -> int:
    """ "A la orilla del canal 4 plantas": a place told by what it lies at, counts behind it."""
    of = walk.at(walk.i + 1)
    if of is None or of.text not in anywhere("of_place"):
        return 0
    k = walk.i + 2
    while (word := walk.at(k)) is not None and k < walk.i + 6 and (unknown(word) or linking(word)):
        k += 1
    last = walk.at(k - 1)
    if not unknown(last) or last is None or not (is_number(walk.at(k)) or walk.colon_at(k)):
        return 0
    if not data_at(walk, k + walk.colon_at(k)):
        return 0
    walk.emit("SPOT", _place_name(walk, last.end), walk.piece.start, last.end)
    return k - walk.i


def strip_of_seed(walk: Walk) -> int:
    """ "Faixa de Peking na Sede Velha: 6 plantas": a strip told by its seed, counts behind it."""
    of, seed = walk.at(walk.i + 1), walk.at(walk.i + 2)
    if of is None or of.text not in anywhere("of_seed") or not is_any(seed, ("SOURCE",)):
        return 0
    j = walk.direct_index(walk.i + 2, 1)
    k = j + 1 if j < len(walk.ps) and j + 1 in walk.found and linking(walk.ps[j]) else j
    named = walk.found.get(k)
    j = named.last if named is not None else j
    if not (walk.colon_at(j) or walk.colon_at(walk.i + 3)) and not data_at(walk, j):
        return 0
    if sum("SOURCE" in piece.types for piece in walk.ps) == 1 and seed is not None:
        walk.emit("SOURCE", seed.types["SOURCE"].value, seed.start, seed.end)
    start, end = walk.piece.start, walk.ps[walk.i + 2].end
    walk.emit("SPOT", written(walk.draft.text, start, end), start, end)
    return 3


def _heard_plants(walk: Walk, j: int) -> bool:
    """ "At the hill for plants eleven white": a dictated number of plants."""
    word, noun = walk.at(j), walk.direct(j, 1)
    heard = word is not None and (heard_number(walk.made, word.text) or 0) > MOST_HEARD_ALONE
    counted = is_number(walk.direct(walk.direct_index(j, 1), 1))
    return heard and counted and noun is not None and walk.made.has("heard_noun", noun.text)


def _place_name(walk: Walk, end: int = 0) -> str:
    """The place as written, without the little word that leads to it ("en la loma" is "loma")."""
    words = written(walk.draft.text, walk.piece.start, end or walk.piece.end).split(" ")
    while len(words) > 1 and walk.made.has("place_lead", fold(words[0])):
        words = words[1:]
    return " ".join(words)


def _counts_behind(walk: Walk, j: int) -> bool:
    """ "2 inside, 40 white", "4 lá no fundo e deu 23": a count behind a place whose plants stand before it."""
    k = j
    while (piece := walk.at(k)) is not None and k < j + LITTLE_BEFORE_COUNT:
        stop = piece.kind == "break" and piece.text in ",("
        little = piece.kind == "word" and (linking(piece) or is_any(piece, ("HAD", "MOSTLY")))
        if not (stop or little or walk.made.has("those_plants", piece.text)):
            break
        k += 1
    counted = is_number(walk.at(k)) and is_any(walk.at(k + 1), ("COLOUR", "FEMALES", "PLANTS"))
    return k > j and (counted or is_any(walk.at(k), ("NONE",)))
