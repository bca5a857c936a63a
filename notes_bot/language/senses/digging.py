"""How it was dug and washed."""

from __future__ import annotations

import itertools

from notes_bot.language.lexicon.joining import claims, is_any, linking
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.senses.around import beside_number
from notes_bot.language.senses.walk import Walk, is_number, unknown

LEAST_ASKED = 3
"""Pieces of a question about a bucket; "bucket?" answers a form (judgement)."""
NEAR_THING = 3
"""Pieces behind washing in which what is washed stands, "washed the machines" (judgement)."""
NEAR_AGAIN = 4
"""Pieces behind "have to dig" in which "again" stands (judgement)."""
TOOL_BEHIND = 6
"""Pieces before a tool in which it is said that it was of no use, "too wet to use the spade" (judgement)."""


def dug(walk: Walk) -> int:
    """Dug, pulled: "pull" and "dig" only with a number, "checked" only with a number that nothing else claims."""
    if walk.has("checked"):
        j = walk.direct_index(walk.i, 1)
        free = is_number(walk.after) and not (claims(walk.ps, j + 1) and not is_any(walk.at(j + 1), ("PLANTS",)))
        free = free and not is_any(walk.at(j + 1), ("MEASURE", "UNIT", "FIELD_WORD"))
        return walk.take() if free else 0
    if walk.entry.value == "any" and _coming(walk):
        return 0  # "Reviso jueves": when to look again
    if walk.entry.slip and not (beside_number(walk) or is_any(walk.before, ("PLANTS",))):
        return 0
    without = walk.i > 0 and walk.ps[walk.i - 1].text in anywhere("without_word")
    if (_denied_before(walk) or without) and not is_number(walk.near_after):
        return walk.text()  # "hasn't been dug yet this year", "sem puxar"
    if walk.has("must_dig") and _once_more(walk):
        return walk.text()  # "tem que cavar aqui outra vez daqui a 2 semanas"
    if walk.has("begins_too") and walk.before is not None and walk.before.kind == "stage":
        return 0 if is_number(walk.near_after) else walk.text()  # "R1 arrancando"
    if walk.has("sets_out") and _sets_out(walk):
        return walk.text()  # "arranco con La Tapera"
    placed = is_any(walk.at(walk.i + 1), ("SPOT",)) and is_number(walk.at(walk.i + 2))  # "arranqué en la loma cinco"
    bare = walk.piece.text in anywhere("bare_dig") and not is_number(walk.near_after) and not placed
    if bare and not (_behind_plants(walk) or _somebody_digs(walk)):
        return 0
    return walk.take()


def _once_more(walk: Walk) -> bool:
    """Is "again" said in the words right behind it, and no plants?"""
    for piece in walk.ps[walk.i + 1 : walk.i + 1 + NEAR_AGAIN]:
        if piece.kind != "word" or is_any(piece, ("PLANTS", "TOOL")):
            return False
        if is_any(piece, ("LOOK",)):
            return True
    return False


def _sets_out(walk: Walk) -> bool:
    """ "Arranco (el día) con La Tapera", "arrancamos por Loma Alta": a round that begins at a field, and no plants."""
    words = itertools.takewhile(lambda n: n not in walk.found, range(walk.i + 1, min(walk.i + 7, len(walk.ps))))
    between = [walk.ps[n] for n in words]
    named = walk.i + 1 + len(between) in walk.found
    plain = all(p.kind in ("word", "aside") and not is_any(p, ("PLANTS", "NONE")) for p in between)
    return named and plain and bool(between) and walk.made.has("sets_out_at", between[-1].text)


def _somebody_digs(walk: Walk) -> bool:
    """ "Cavó Silvia", "las cavó Raúl", also "cavo Silvia": somebody dug, as the accent or a name behind it tells."""
    text = walk.draft.text
    if text[walk.piece.start : walk.piece.end].endswith("ó"):
        return True
    who = walk.at(walk.i + 1)
    return who is not None and unknown(who) and text[who.start].isupper()


def _coming(walk: Walk) -> bool:
    """Does a weekday that ends the sentence follow a word for looking, which may be one for looking again?"""
    day, behind = walk.at(walk.i + 1), walk.at(walk.i + 2)
    if not is_any(walk.piece, ("LOOK",)) or day is None or day.kind != "day":
        return False
    if day.value.weekday is None and day.value.named is None:
        return False
    return behind is None or behind.kind == "line" or behind.value == "hard"


def _behind_plants(walk: Walk) -> bool:
    """ "6 plants dig, 1 white": right behind a count of plants, and a stop behind it."""
    ends = walk.after is None or walk.after.kind in ("break", "line")
    return ends and walk.last_is("PLANTS") and len(walk.out) > 1 and walk.out[-2].type == "NUMBER"


def soaked(walk: Walk) -> int:
    """Washed or not; "soak no" says not; "10 cm de agua" is water that stands."""
    led = walk.ps[walk.i - 1].text if walk.i else ""
    of_bucket = walk.last_is("SOAKED") or _in_vessel(walk)  # "cubeta de agua"
    if walk.made.has("water", walk.piece.text) and walk.made.has("much_water", led) and not of_bucket:
        return walk.emit("MOISTURE", "wet", walk.piece.start, walk.piece.end)
    sentence = _sentence(walk)
    if _thing_talked_of(walk, sentence) or _other_washed(walk, sentence) or _field_of_that_name(walk):
        return walk.text()
    if walk.entry.value == "yes" and _unwashed(walk):
        return walk.emit("SOAKED", "no", walk.piece.start, walk.piece.end)  # "havent washed em"
    if walk.entry.value == "yes" and _answered_no(walk):
        j = walk.direct_index(walk.i, 1)
        walk.emit("SOAKED", "no", walk.piece.start, walk.ps[j].end)
        return j - walk.i + 1
    return walk.take()


def _in_vessel(walk: Walk) -> bool:
    """ "Enjuagadas con el bidón de agua": is it the water of a vessel one carries?"""
    return any(walk.made.has("water_in", piece.text) for piece in walk.ps[max(0, walk.i - 2) : walk.i])


def _thing_talked_of(walk: Walk, sentence: list[Piece]) -> bool:
    """ "My bucket is still at the shop", "has anyone found my bucket?", "el señor del agua": no root was in it."""
    water = walk.made.has("water", walk.piece.text)
    if walk.entry.value != "yes" or not (water or walk.made.has("bucket_word", walk.piece.text)):
        return False
    behind = walk.at(walk.i + 1)
    used = any(p is not None and walk.made.has("tool_used", p.text) for p in (behind, walk.at(walk.i + 2)))
    if behind is not None and walk.made.has("tool_is", behind.text) and not used:
        return True
    asked = len(sentence) > LEAST_ASKED and sentence[-1].text == "?"
    if asked and not any(is_number(p) or is_any(p, ("DUG", "PLANTS", "ROOTS", "COLOUR")) for p in sentence):
        return True
    seen = any(is_number(p) or is_any(p, ("PLANTS", "ROOTS", "COLOUR")) for p in sentence)
    if not seen and any(walk.made.has("mishap", word) for piece in sentence for word in piece.text.split(" ")):
        return True  # "I'd spilled my water jug", "the kid kicked over the bucket"
    led = [piece.text.split(" ")[-1] for piece in walk.ps[max(0, walk.i - 2) : walk.i]]
    named = bool(led) and (
        walk.made.has("water_of", led[-1])
        or (water and (led[-1] in anywhere("article") or walk.made.has("name_article", led[-1])))
    )
    return named and not any(walk.made.has("dips_in", word) for word in led)


def _field_of_that_name(walk: Walk) -> bool:
    """ "Last year (the) Mangueira was worse": a field of the crew that is named after the thing, in a sentence."""
    within = walk.i > 0 and walk.ps[walk.i - 1].kind not in ("break", "line")
    return within and "FIELD" in walk.piece.types and walk.draft.text[walk.piece.start].isupper()


def _other_washed(walk: Walk, sentence: list[Piece]) -> bool:
    """ "No machine leaves there without being washed", "washed the truck": what is washed is no root."""
    ours = ("DUG", "PLANTS", "ROOTS", "COLOUR", "FEMALES", "TOOL")
    if any(is_any(piece, ours) or is_number(piece) for piece in sentence):
        return False
    before = [piece for piece in sentence if piece.start <= walk.piece.start]
    behind = itertools.takewhile(lambda piece: piece.kind != "break", walk.ps[walk.i + 1 : walk.i + 1 + NEAR_THING])
    words = [word for piece in (*before, *behind) for word in piece.text.split(" ")]
    return any(
        walk.made.has("washed_thing", word) and not any(walk.made.has("lies_on", w) for w in words[max(0, n - 2) : n])
        for n, word in enumerate(words)
    )


LONG_SENTENCE = 80
"""Pieces before and behind in a sentence that are looked at, at most (judgement)."""


def _sentence(walk: Walk) -> list[Piece]:
    """The pieces of the sentence at hand, with the stop behind it; of a very long one those near by."""
    first, last = walk.i, walk.i
    least, most = max(0, walk.i - LONG_SENTENCE), min(len(walk.ps) - 1, walk.i + LONG_SENTENCE)
    while first > least and not _ends_sentence(walk.ps[first - 1]):
        first -= 1
    while last < most and not _ends_sentence(walk.ps[last]):
        last += 1
    return walk.ps[first : last + 1]


def _ends_sentence(piece: Piece) -> bool:
    return piece.kind == "line" or piece.value == "hard" or piece.text in ("?", "!", ".")


def _unwashed(walk: Walk) -> bool:
    """Does a word right before deny the washing ("havent washed em", "hasn't been rinsed")?"""
    j, dipped, linked = walk.i - 1, False, False
    while (before := walk.at(j)) is not None and j > walk.i - 3 - linked - 2 * dipped:
        dips = walk.made.stemmed("dips_stem", before.text) and not before.types.keys() & {"LOOK", "PLANTED"}
        filler = walk.made.has("undone_filler", before.text)
        if not (dips or filler or linking(before)):
            break
        dipped, linked, j = dipped or dips, linked or not (dips or filler), j - 1
    if before is None or before.kind != "word" or (linked and not dipped):
        return False
    if not dipped and before.text in ("no", "not"):
        return False
    return walk.made.denies(before.text)


def tool(walk: Walk) -> int:
    """A shovel, unless denied; "space" only where one stands: behind "with", or before a bucket."""
    if walk.entry.value == "shovel" and _answered_no(walk):
        return walk.text()
    if walk.entry.value == "shovel" and _denied_before(walk):
        return walk.text()
    before = itertools.takewhile(
        lambda p: p.kind not in ("break", "line"), reversed(walk.ps[max(0, walk.i - 3) : walk.i])
    )
    said = [word for piece in before for word in piece.text.split()]
    if walk.made.has_any("tool_lost", said) or _tool_elsewhere(walk) or _tool_useless(walk):
        return walk.text()  # "se rompió la pala nueva", "the shovel is at the shop"
    if walk.has("timid_tool"):
        led = walk.at(walk.i - 1)
        joined = is_any(walk.near_after, ("SOAKED",)) and not unknown(walk.after)
        if not (joined or (led is not None and walk.made.has("leads_tool", led.text) and led.kind == "word")):
            return 0
    return walk.take()


def _tool_useless(walk: Walk) -> bool:
    """ "Too wet to use the spade", "ground too hard for the shovel", "wish I had the shovel"."""
    before = [word for piece in walk.ps[max(0, walk.i - TOOL_BEHIND) : walk.i] for word in piece.text.split(" ")]
    if not (walk.made.has_any("too_word", before) or walk.made.has_any("wished", before)):
        return False
    cut = max((n for n, word in enumerate(before) if word in ".,;!"), default=-1)
    clause = before[cut + 1 :]
    too = next((n for n, word in enumerate(clause) if walk.made.has("too_word", word)), None)
    useless = too is not None and any(walk.made.has("for_use", word) for word in clause[too + 1 :])
    return useless or any(walk.made.has("wished", word) for word in clause)


def _tool_elsewhere(walk: Walk) -> bool:
    """Is the tool what its clause speaks of ("la pala quedó en casa"), and not what was dug with?"""
    behind = walk.at(walk.i + 1)
    verb = behind.text.split(" ")[0] if behind is not None and is_any(behind, ("NOT_LOOKED",)) else ""
    told = behind is not None and behind.kind == "word" and walk.made.has("tool_is", verb or behind.text)
    used = is_any(behind, ("LINK",)) and any(
        beyond is not None and walk.made.has("tool_used", beyond.text)
        for beyond in (walk.at(walk.i + 1), walk.at(walk.i + 2))
    )
    return told and not used and not is_any(behind, ("DUG", "SOAKED", "PLANTS"))


def _answered_no(walk: Walk) -> bool:
    """ "Soak no", "bucket: no": is a bare "no" right behind it?"""
    j = walk.direct_index(walk.i, 1)
    answer, beyond = walk.at(j), walk.at(j + 1)
    ends = beyond is None or beyond.kind in ("break", "line")
    if answer is None or not ends or answer.text not in anywhere("answers_no"):
        return False
    found = (n for n, p in enumerate(walk.ps) if is_any(p, ("NONE", "COLOUR", "FEMALES", "TOO_MANY")))
    counts = [n for n in found if walk.ps[n] is not answer and not _of_leaves(walk, n)]
    return not is_any(answer, ("NONE",)) or bool(counts)  # "6 plants bucket soak none": none were seen


def _of_leaves(walk: Walk, n: int) -> bool:
    """ "New leaves yellow": is a color that of the leaves or roots told right before it?"""
    return is_any(walk.at(n), ("COLOUR",)) and any(
        is_any(walk.at(k), ("TOPS", "ROOTS", "VEINS")) for k in (n - 1, n - 2)
    )


def _denied_before(walk: Walk) -> bool:
    """Do the few words before deny it ("couldnt get a spade in")?"""
    for j in range(walk.i - 1, max(-1, walk.i - 5), -1):
        piece = walk.at(j)
        if piece is None or piece.kind != "word" or is_any(piece, ("NONE", "DUG", "PLANTS", "COLOUR", "SOAKED")):
            return False
        if walk.made.denies(piece.text):
            return piece.text not in anywhere("plain_denial")
    return False
