"""The meanings of a word, tried in their order; a word that no list knows may be a seed, a spray, or a slip."""

from __future__ import annotations

from collections.abc import Callable

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.mending import ordinary
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import NEAR_TYPES, Entry, near_words
from notes_bot.language.senses import again, asides, colours, counted, crop, denied, digging, roots, soil, spots, tops
from notes_bot.language.senses.around import COUNTED, counted_last
from notes_bot.language.senses.heard import sample_size, sounds_like_number
from notes_bot.language.senses.walk import Walk, is_number

PLACED = frozenset({"MOISTURE", "COLOUR", "TEXTURE"})
"""Kinds of word that are also parts of place names."""

TRIED: dict[str, Callable[[Walk], int]] = {
    "TEXT": Walk.text,  # a phrase that looks like ours and is not: white mold, soil sample
    "SOURCE": Walk.take,
    "NOT_LOOKED": denied.not_looked,
    "SOAKED": digging.soaked,
    "HAD": denied.had,
    "NONE": denied.none,
    "NOT": denied.not_,
    "COLOUR": colours.colour,
    "FEMALES": counted.females,
    "EACH": counted.each,
    "PLANTS": counted.plants,
    "DUG": digging.dug,
    "TOOL": digging.tool,
    "TOTAL": counted.total,
    "NODULES": Walk.take,
    "NODULE": roots.nodule,
    "ROOTS": roots.roots,
    "ROOT": roots.root,
    "CHECK": spots.check,
    "SPOT": spots.spot,
    "TOO_MANY": counted.too_many,
    "MOSTLY": colours.mostly,
    "BELOW": soil.below,
    "MOISTURE": soil.moisture,
    "TEXTURE": soil.texture,
    "PH": soil.ph,
    "POTASSIUM": soil.potassium,
    "PPM": Walk.text,  # was read with its number
    "RESISTANCE": crop.resistance,
    "VARIETY": crop.variety,
    "CHEMICAL": Walk.take,
    "SPRAY": crop.spray,
    "ENTRY": crop.entry,
    "AFTER": again.after,
    "AGO": again.ago,
    "LOOK": again.look,
    "WHICH": again.which,
    "PLANTED": crop.planted,
    "DAP": again.dap,
    "SAME": asides.same,
    "COURTESY": asides.courtesy,
    "VEINS": tops.veins,
    "EDGES": tops.edges,
    "NEW": tops.new,
    "OLD": tops.old,
    "BANDS": tops.bands,
    "GREEN": tops.green,
    "TOPS": tops.tops,
    "TOP": tops.top,
    "FIELD": asides.field,
}
"""How each kind of word is told from what else it may be, in the order in which they are tried; 0 for "not that"."""
_RANK = {kind: n for n, kind in enumerate(TRIED)}


def meaning(walk: Walk) -> int:
    """A word: a number as heard, its kinds one after the other, a little word, or text."""
    piece = walk.piece
    if walk.lead == "" and walk.last_is("NUMBER"):
        if walk.has("size") and is_any(walk.after, ("COLOUR", "FEMALES")):
            return 1  # "3 little white balls"
        if walk.has("more") and is_any(walk.after, ("PLANTS",)):
            return 1  # "5 more plants"
    if walk.has("range_words") and is_any(walk.after, COUNTED):
        noun = walk.direct_index(walk.i, 1)
        walk.draft.ask("which_of_range", piece.start, walk.ps[noun].end)  # "one or two yellow"
        walk.emit("TEXT", None, piece.start, walk.ps[noun].end)
        return noun + 1 - walk.i
    if sampled := sample_size(walk):
        return sampled
    if not piece.types and (heard := sounds_like_number(walk)):
        return heard
    if not piece.types:
        return _unknown_word(walk)
    doubt = walk.at(walk.i + 1)
    if "CHEMICAL" in piece.types and doubt is not None and doubt.text == "?":
        return walk.text()  # "leaves cupped (dicamba?)"
    if piece.text == "?" and walk.last_is("COLOUR", "NUMBER", "FEMALES", "PLANTS") and counted_last(walk):
        walk.draft.ask("doubtful", walk.out[-2].start, walk.out[-1].end)
        return 1
    if heard := sounds_like_number(walk):
        return heard
    for name in sorted(_RANK.keys() & piece.types.keys(), key=_RANK.__getitem__):
        if name in PLACED and _in_a_place_name(walk):
            continue
        walk.entry = piece.types[name]
        if used := TRIED[name](walk):
            return used
    if is_any(piece, ("LINK", "ABOUT")):
        over = walk.made.has("over", piece.text) and walk.last_is("NUMBER", "COLOUR", "FEMALES", "TOTAL", "NONE")
        if over and walk.last_is("TOTAL") and (len(walk.out) < 2 or walk.out[-2].type != "NUMBER"):
            over = False  # "a total of 30"
        following = walk.at(walk.i + 1)
        if over and following is not None and following.kind == "number":
            return walk.emit("OVER", None, piece.start, piece.end)
        return walk.link()
    if walk.variety_open and walk.last_is("VARIETY") and walk.has("names_variety"):
        return walk.link()  # "la variedad es la NA 5909"
    return walk.text()


def _in_a_place_name(walk: Walk) -> bool:
    """Dry Creek, White Oak: a place, not soil or females."""
    after = walk.at(walk.i + 1)
    named = after is not None and after.spaced and walk.made.has("place_word", after.text) and "SPOT" not in after.types
    return named and not walk.last_is("NUMBER")


def _unknown_word(walk: Walk) -> int:
    """A word no list has: a seed or spray named, or a slip for the one word of ours that fits here; else text."""
    if used := crop.named(walk):
        return used
    piece = walk.piece
    if len(piece.text) < 4:
        return walk.text()
    led = is_number(walk.before) or is_any(walk.before, ("FEMALES",)) or _sums_up_color(walk)
    story = not led and ordinary(piece.text, walk.made.language)
    entry, shown = (None, "") if story else _near_entry(walk)
    if entry is None:
        return walk.text()
    i = walk.i
    walk.ps[i] = walk.piece = Piece("word", piece.text, piece.start, piece.end, (entry,), None, piece.spaced)
    size = len(walk.out)
    used = meaning(walk)
    if len(walk.out) > size and walk.out[size].type not in ("TEXT", "LINK"):
        walk.slip("near_word", shown, piece)
        if (
            entry.type == "COLOUR"
            and size
            and is_any(walk.at(i - 1), ("MOSTLY",))
            and walk.out[size - 1].type == "TEXT"
        ):
            walk.out[size - 1].type, walk.out[size - 1].value = "MOSTLY", walk.ps[i - 1].types["MOSTLY"].value
    return used


def _sums_up_color(walk: Walk) -> bool:
    """ "0, 1, 0, 2, todas bracas": behind "all" at the end of a clause, where something was counted."""
    ends = walk.after is None or walk.after.kind in ("break", "line")
    return ends and is_any(walk.before, ("MOSTLY",)) and any(word.type == "NUMBER" for word in walk.out)


def _near_entry(walk: Walk) -> tuple[Entry | None, str]:
    """The one meaning a misspelt word can have here and the word it is taken for, or ``None``."""
    meanings: dict[tuple[str, str], tuple[Entry, str]] = {}
    for word in near_words(walk.piece.text, walk.made.language):
        if any(walk.made.has(trait, word) for trait in ("weak", "weak_look", "vague", "no_near")):
            continue
        for entry in walk.made.singles[word]:
            if entry.type in NEAR_TYPES and not entry.slip and _fits(walk, entry.type, word):
                kind = "TOOL" if entry.type == "DUG" else entry.type
                meanings.setdefault((kind, entry.value), (entry, word))
    colours = [key for key in meanings if key[0] == "COLOUR"]
    if len(colours) == 1 and all(kind in ("COLOUR", "ROOT", "NODULE") for kind, _ in meanings):
        return meanings[colours[0]]  # the same word, also said of roots
    if len(meanings) != 1:
        return None, ""
    return next(iter(meanings.values()))


def _fits(walk: Walk, kind: str, word: str) -> bool:
    """Could this word of a kind stand here? Without a number beside it, only long words that start alike."""
    before, after = walk.before, walk.after
    numbered = (is_number(before), is_number(after))
    if kind == "COLOUR":
        counted = walk.last_is("FEMALES") and len(walk.out) > 1 and walk.out[-2].type == "NUMBER"
        return any(numbered) or counted or is_any(before, ("MOSTLY",))
    if kind in ("PLANTS", "FEMALES"):
        return numbered[0]
    if kind == "DUG":
        return any(numbered) or (is_any(before, ("PLANTS",)) and len(word) > 5)
    ends = [p is None or p.kind != "word" or bool(p.types) for p in (before, after)]
    return all(ends) and min(len(word), len(walk.piece.text)) >= 5 and word[0] == walk.piece.text[0]
