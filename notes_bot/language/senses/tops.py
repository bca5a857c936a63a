"""How the plants look above ground."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.tokens import Word
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.names.naming import joints, written
from notes_bot.language.senses.adjectives import leaves_near, noun_beside, noun_towards
from notes_bot.language.senses.around import LOOKED_BACK, data_at, is_shape, of_the_roots
from notes_bot.language.senses.spots import strip_of_seed
from notes_bot.language.senses.walk import Walk, is_number

EDGE_WORDS = 4
"""Words behind "edge of" in which a place or a leaf is looked for (judgement)."""


def tops(walk: Walk) -> int:
    """Leaves, plants without a number."""
    return walk.text() if walk.entry.slip and noun_beside(walk) != "LEAF" else walk.take()


def top(walk: Walk) -> int:
    """Stunted, patch, healthy; everyday adjectives need plants beside them, or a clause of their own.

    "Patch: 4 pl 1y" names a place.
    """
    if walk.has("persons_name") and walk.draft.text[walk.piece.start].isupper():
        return walk.text()  # "quem cavou foi a Ana", and no dwarf
    tinted = 1 + is_any(walk.at(walk.i + 1), ("COLOUR",))  # "manchón amarillo: 4 plantas"
    placed = is_any(walk.at(walk.i + tinted + 1), ("SPOT",))  # "tem reboleira: dentro 4 plantas .. fora .."
    heads = walk.colon_at(walk.i + tinted) and not placed and data_at(walk, walk.i + tinted + 1)
    heads = heads or (tinted == 1 and _against_outside(walk))
    if walk.entry.value in ("patch", "ring") and heads:
        start, end = _inside_or_outside(walk), walk.ps[walk.i + tinted - 1].end
        walk.emit("SPOT", written(walk.draft.text, start, end), start, end)
        return tinted
    of_plants = any(e.type == "TOPS" for w in walk.piece.text.split() for e in walk.made.singles.get(w, ()))
    of_roots = walk.entry.value == "healthy" and (noun_towards(walk, -1) or (0, ""))[1] in ("ROOT", "NODULE")
    of_roots = of_roots or (walk.entry.value == "healthy" and of_the_roots(walk))  # "las raíces blancas, sanitas"
    if of_roots and not of_plants:
        return 0  # "roots look nice"
    if walk.entry.value == "yellow" and is_any(walk.after, ("FEMALES",)):
        return walk.text()  # "a few pale females"
    turned = any(e.type == "COLOUR" for w in walk.piece.text.split() for e in walk.made.singles.get(w, ()))
    if turned and " " in walk.piece.text and walk.last_is("COLOUR") and walk.lead == "":
        return walk.text()  # "12 white turning yellow"
    if walk.has("even_denied") and walk.after is not None and walk.after.kind == "word" and not linking(walk.after):
        return 0  # "did not even get out of the truck", "barns not even red anymore"
    behind = walk.at(walk.i + 1)
    if walk.has("well_word") and behind is not None and behind.kind == "word" and not behind.types:
        return walk.text()  # "planta bem nutrida"
    if _shaped(walk):
        return walk.take()
    if not walk.has("weak"):
        return walk.take()
    if walk.entry.value == "stunted" and _too_small_to_dig(walk):
        return walk.text()
    if walk.has("all_well"):
        named = walk.first_name < walk.i
        return walk.take() if named and (walk.after is None or walk.after.kind in ("break", "line")) else 0
    beside = noun_beside(walk)
    if beside == "NODULE" and walk.last_is("NODULE"):
        return 1  # "few small nods": said of the nodules, and nothing we keep
    if beside == "ROOT":
        return walk.take("ROOT", "stubby") if walk.entry.value == "stunted" else 0
    tied = walk.lead == "link" and walk.ps[walk.i - 1].text in joints() and walk.entry.value in ("stunted", "uneven")
    if beside == "LEAF" or (walk.last_is("LEAF") and (walk.entry.value == "patch" or tied)):  # "amarelas e baixas"
        return walk.take()
    pair, shade = walk.at(walk.i + 1), walk.at(walk.i + 2)
    whole = shade is not None and walk.made.has("whole_crop", shade.text) and is_any(walk.at(walk.i + 3), ("COLOUR",))
    if pair is not None and pair.text == "," and whole and not is_number(walk.before):
        return walk.take()  # "V5 baixinha, toda amarela"
    if pair is not None and pair.text in joints() and is_any(shade, ("COLOUR",)) and not is_any(shade, ("LINK",)):
        beyond = walk.at(walk.i + 3)
        if not is_number(beyond) and not is_any(beyond, ("FEMALES",)) and not is_number(walk.before):
            return walk.take()  # "where they are short and yellow"
    noun, counted = walk.at(walk.i - 1), is_number(walk.at(walk.i - 2))
    plants = is_any(noun, ("PLANTS",)) and not counted and walk.near_after is None  # "pés baixinhos"
    alone = (walk.near_before is None or plants) and walk.near_after is None
    return walk.take() if alone and walk.entry.value in ("stunted", "uneven", "patch") else 0


_PATCHED = frozenset({"stunted", "wilted", "uneven", "early_ripe"})
"""What may be told of a patch of beans by an adjective right before it."""


def _shaped(walk: Walk) -> bool:
    """ "Maduró antes, en (círculos)", "amarelas, em (manchas)": how what was told of the plants lies there."""
    led = walk.at(walk.i - 1)
    if walk.entry.value not in ("patch", "ring") or led is None:
        return False
    if is_any(led, ("TOP",)) and walk.last_is("TOP") and walk.lead == "":
        return led.types["TOP"].value in _PATCHED  # "some stunted spots on the west side"
    if not walk.made.has("at", led.text):
        return False
    of_tops = any(word.type in ("TOP", "LEAF") for word in _of_sentence(walk.out))
    return of_tops and (walk.after is None or walk.after.kind in ("break", "line"))


def _of_sentence(words: Sequence[Word]) -> list[Word]:
    """The last words of a sentence, whose first one stands behind a stop."""
    begins = next((n for n in range(len(words) - 1, 0, -1) if words[n].lead in ("hard", "line", "colon")), 0)
    return list(words[begins:])


def _too_small_to_dig(walk: Walk) -> bool:
    """ "We did not dig, the plants are too small": a reason to wait, and nothing that stunts them."""
    beside = [piece.text for piece in (walk.ps[max(0, walk.i - 1) : walk.i] + walk.ps[walk.i + 1 : walk.i + 2])]
    said = any(walk.made.has("too_word", word) for word in beside)
    return said and any("NOT_LOOKED" in piece.types for piece in walk.ps)


def _against_outside(walk: Walk) -> bool:
    """ "En el anillo 4 pl 26 bl, afuera 4 pl 2 bl": plants and a color behind the ring, and behind "outside"."""
    led = walk.ps[walk.i - 1].text if walk.i else ""
    if not (led in anywhere("name_article") or walk.made.has("at", led)):
        return False
    outside = next((k for k in range(walk.i + 1, min(walk.i + LOOKED_BACK, len(walk.ps))) if _is_outside(walk, k)), 0)
    counted = [p is not None and p.kind == "number" for p in (walk.at(walk.i + 1), walk.at(outside + 1))]
    return outside > 0 and all(counted) and is_any(walk.at(walk.i + 2), ("PLANTS",))


def _is_outside(walk: Walk, k: int) -> bool:
    """Is it a word for what lies outside?"""
    return "SPOT" in walk.ps[k].types and walk.ps[k].types["SPOT"].value == "out"


def _inside_or_outside(walk: Walk) -> int:
    """Where "inside the patch" begins; the patch itself where no such word leads to it."""
    k = walk.i - 1
    while k >= 0 and walk.ps[k].kind == "word" and (linking(walk.ps[k]) or "COLOUR" in walk.ps[k].types):
        if is_any(walk.ps[k], ("SPOT",)):
            break
        k -= 1
    told = k >= 0 and is_any(walk.ps[k], ("SPOT",)) and walk.ps[k].types["SPOT"].value in ("in", "out")
    if not told or k in walk.found:
        return walk.piece.start
    while walk.out and walk.out[-1].start >= walk.ps[k].start:
        walk.lead = walk.out.pop().lead
    return walk.ps[k].start


def veins(walk: Walk) -> int:
    """Green veins, interveinal; a bare "veins" beside leaves or a colour."""
    if walk.has("lone_vein"):
        around = (walk.near_before, walk.near_after)
        return walk.take() if any(is_any(p, ("GREEN", "COLOUR", "TOPS")) for p in around) else walk.text()
    return walk.take()


def bands(walk: Walk) -> int:
    """Bands of color; "faixa de Peking" is a strip with its seed."""
    return strip_of_seed(walk) or walk.take()


def edges(walk: Walk) -> int:
    """Edges of leaves."""
    if walk.entry.value == "burnt":
        return walk.take()
    around = (walk.near_before, walk.near_after)
    told = walk.lead in ("", "link") and any(word.type in ("LEAF", "TOPS") for word in walk.out[-3:])
    if _edge_of_place(walk) or _place_before(walk):
        return walk.text()
    near = told or any(is_any(p, ("TOPS", "OLD", "NEW", "COLOUR", "TOP", "GREEN")) for p in around)
    return walk.take() if near else 0


def _edge_of_place(walk: Walk) -> bool:
    """ "Along the edge of the yellow spot": an edge of ground, and of no leaf."""
    of = walk.direct(walk.i, 1)
    if of is None or of.text.split(" ")[0] not in anywhere("of_place") | anywhere("of_word"):
        return False
    behind = walk.ps[walk.i + 2 : walk.i + 2 + EDGE_WORDS]
    behind = list(itertools.takewhile(lambda p: p.kind == "word", behind))
    ground = any(is_any(p, ("SPOT", "FIELD_WORD")) or is_shape(p) for p in behind)
    return ground and not any(is_any(p, ("TOPS", "OLD", "NEW")) for p in behind)


def _place_before(walk: Walk) -> bool:
    """ "Na borda: 5 plantas .. A borda está mais baixa": a place that was counted before, and no edge of leaves."""
    same = [n for n in range(walk.i) if walk.ps[n].text == walk.piece.text]
    placed = any(walk.colon_at(n + 1) or is_number(walk.at(n + 1)) for n in same)
    around = (walk.near_before, walk.near_after)
    return placed and not any(is_any(p, ("TOPS", "OLD", "NEW")) for p in around)


def new(walk: Walk) -> int:
    """New leaves; "top" only right before them."""
    if walk.has("close_new"):
        return walk.take() if is_any(walk.after, ("TOPS",)) else 0
    return walk.take() if leaves_near(walk, walk.i) or _ones_of_leaves(walk) else 0


def _ones_of_leaves(walk: Walk) -> bool:
    """ "Leaves yellow but only the (new) ones": leaves told of before in its sentence."""
    noun = walk.at(walk.i + 1)
    ones = noun is not None and walk.made.has("noun_one", noun.text)
    return ones and any(word.type in ("LEAF", "TOPS") for word in _of_sentence(walk.out))


def old(walk: Walk) -> int:
    """Old leaves."""
    return walk.take() if leaves_near(walk, walk.i) or _ones_of_leaves(walk) else 0


def green(walk: Walk) -> int:
    """Green leaves."""
    around = (walk.near_before, walk.near_after)
    of_leaves = any(is_any(p, ("TOPS", "OLD", "NEW", "VEINS", "TOP", "COLOUR")) for p in around)
    return walk.take() if of_leaves else walk.text()
