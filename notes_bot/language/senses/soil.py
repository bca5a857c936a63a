"""Soil: moisture, texture, pH, potassium."""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.pieces import Piece, ends_clause
from notes_bot.language.lexicon.scan import shouted
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.names.naming import written
from notes_bot.language.senses.adjectives import noun_beside
from notes_bot.language.senses.walk import Walk, is_number, unknown

NEAR_SOIL = 3
"""Pieces before "dry" in which a word for the ground says that it is dry (judgement)."""

SAID_BACK = 5
"""Pieces before "lack of rain" in which it is told who says so (judgement)."""
AWAITED_BACK = 12
"""Pieces before "wet" in which the next look is told that waits for it (judgement)."""


def below(walk: Walk) -> int:
    """Top and below: of moisture."""
    return walk.take() if is_any(walk.near_before, ("MOISTURE",)) or is_any(walk.near_after, ("MOISTURE",)) else 0


def moisture(walk: Walk) -> int:
    """Dry, moist, wet; a letter only alone between two breaks."""
    before, after = walk.before, walk.after
    if len(walk.piece.text) <= 2:
        signed = before is None or before.kind == "line"
        if signed and (after is None or after.kind in ("break", "line")):
            return 0  # "M." under a mail is a name
        closed = before is None or before.kind not in ("word", "number") or (bool(before.types) and walk.out != [])
        staged = before is not None and before.kind == "stage" and is_any(after, ("TOOL", "DUG", "SOAKED"))
        return walk.take() if closed and (after is None or after.kind in ("break", "line") or staged) else 0
    if roots := _soaked_roots(walk):
        return roots
    if _sorry_for(walk) or _on_a_thing(walk):
        return walk.text()
    if walk.last_is("SOAKED") and any(walk.made.has("water", word) for word in walk.piece.text.split(" ")):
        return walk.text()  # "sin lavar por falta de agua"
    if walk.entry.value == "dry" and walk.lead != "hard" and _of_cysts(walk):
        return walk.text()
    if _names_place(walk, walk.i) and any(_names_place(walk, n) for n in range(len(walk.ps)) if n != walk.i):
        name = written(walk.draft.text, walk.piece.start, walk.piece.end)
        return walk.emit("SPOT", name, walk.piece.start, walk.piece.end)
    if (walk.has("timid_moisture") and unknown(after)) or _awaited(walk):
        return walk.text()
    if walk.has("timid_moisture") and before is not None and walk.made.has("broken_thing", before.text.split(" ")[-1]):
        return walk.text()  # "my spade handle cracked"
    if walk.made.has_any("rain_noun", walk.piece.text.split(" ")):
        said = [word for piece in walk.ps[max(0, walk.i - SAID_BACK) : walk.i] for word in piece.text.split(" ")]
        if walk.made.has_any("says_it", said):
            return walk.text()  # "acha que é tudo falta de chuva"
    season = after if walk.made.language == "en" else before
    if season is not None and season.kind == "word" and walk.made.has("weather_noun", season.text):
        return walk.text()  # "a cool wet week", "semana seca"
    edged = walk.last_is("EDGES", "OLD", "NEW") and is_any(walk.near_before, ("EDGES",))
    edged = edged and not any(walk.made.has("soil_word", p.text) for p in walk.ps[max(0, walk.i - NEAR_SOIL) : walk.i])
    if edged and walk.entry.value == "dry":
        return walk.emit("TOP", "yellow", walk.piece.start, walk.piece.end)  # dry edges of leaves
    return 0 if is_any(walk.piece, ("ROOT",)) and noun_beside(walk) == "ROOT" else walk.take()


def _soaked_roots(walk: Walk) -> int:
    """ "(Everything was soaked in water) first": roots put into something; what is said of the ground stays so."""
    words = walk.piece.text.split(" ")
    soaked = any(entry.type == "SOAKED" for entry in walk.made.singles.get(words[-1], ()))
    if not soaked or not is_any(walk.at(walk.i + 1), ("SOAKED",)):
        return 0
    if walk.made.has_any("soil_word", words) or any(walk.made.has("soil_word", p.text) for p in _lately(walk)):
        walk.take()
    else:
        walk.emit("SOAKED", "yes", walk.piece.start, walk.ps[walk.i + 1].end)
    return 2


def _sorry_for(walk: Walk) -> bool:
    """ "Sorry for the (mud) on the scan": little words back to one that asks to be pardoned."""
    k = walk.i - 1
    while k > 0 and linking(walk.ps[k]):
        k -= 1
    return 0 <= k < walk.i - 1 and walk.made.has("sorry", walk.ps[k].text)


def _on_a_thing(walk: Walk) -> bool:
    """ "(Mud) on the paper", "barro en la hoja": on what is written or carried, little words between."""
    if walk.entry.value != "wet" or getattr(walk.after, "text", "") not in anywhere("upon_plant") | anywhere("at"):
        return False
    k = walk.i + 1
    while (piece := walk.at(k)) is not None and (linking(piece) or is_any(piece, ("MOSTLY",))):
        k += 1
    return k > walk.i + 1 and piece is not None and walk.made.has("muddied_thing", piece.text)


def _lately(walk: Walk) -> list[Piece]:
    """The pieces right before, in which the ground may be named."""
    return walk.ps[max(0, walk.i - NEAR_SOIL) : walk.i]


HARD_BEHIND = 3
"""Pieces behind "dry" in which "and hard" is told (judgement)."""


def _of_cysts(walk: Walk) -> bool:
    """ "12 marrones secos y duros", "12 brown, dry and hard, no white": of the old cysts counted last, not of the soil.

    Where "dry and hard" ends the sentence, either may be meant: it is asked about.
    """
    told = [word for word in walk.out[-5:] if word.type not in ("TEXT", "OLD", "LINK")]
    shade = next((word for word in reversed(told) if word.type == "COLOUR"), None)
    if not told or told[-1].type not in ("COLOUR", "FEMALES") or shade is None or shade.value not in ("brown", "tan"):
        return False
    words = walk.piece.text.split(" ")
    if walk.made.has_any("soil_word", words):
        return False
    if walk.made.has_any("dry_ones", words):
        return True
    behind = walk.ps[walk.i + 1 : walk.i + 1 + HARD_BEHIND]
    hard = next((n + 1 for n, piece in enumerate(behind) if walk.made.has("hard_ones", piece.text)), 0)
    hard = 0 if walk.made.has_any("hard_ones", words) else hard
    joined = all(linking(piece) or piece.text in anywhere("and_word") | {","} for piece in behind[: max(0, hard - 1)])
    if not joined or (not hard and not walk.made.has_any("hard_ones", words)):
        return False
    noun, beyond = (walk.at(walk.i + 1 + hard + k) for k in (0, 1))
    if is_any(noun, ("FEMALES",)) or (noun is not None and noun.text in anywhere("noun_one")):
        return True
    if not ends_clause(noun):
        return False  # "dry and hard clay"
    counted = is_number(beyond) and is_any(walk.at(walk.i + 3 + hard), ("COLOUR", "FEMALES"))
    if counted or told[-1].type == "FEMALES" or is_any(beyond, ("COLOUR", "FEMALES", "NONE", "NOT")):
        return True
    walk.draft.ask("doubtful", walk.piece.start, walk.ps[walk.i + hard].end)
    return True


def _awaited(walk: Walk) -> bool:
    """ "Recheck in two weeks when it's wet": how the soil is to be for the next look."""
    until = False
    for piece in reversed(walk.ps[max(0, walk.i - AWAITED_BACK) : walk.i]):
        if piece.kind == "line" or (piece.kind == "break" and (piece.value == "hard" or not until)):
            return False
        if until and is_any(piece, ("LOOK",)):
            return True
        until = until or walk.made.has("if_word", piece.text) or walk.made.has("once_word", piece.text)
    return False


def _names_place(walk: Walk, n: int) -> bool:
    """ "Divisa: 3 em 5. Brejo: 14 em 5", "dry: 4 pl 2w. wet: 4 pl 9w": one of several places with their counts."""
    begins = n == 0 or walk.ps[n - 1].kind in ("break", "line") or is_any(walk.ps[n - 1], ("FIELD",))
    return (
        begins
        and is_any(walk.ps[n], ("MOISTURE", "SPOT"))
        and walk.colon_at(n + 1)
        and (is_number(walk.at(n + 2)) or is_any(walk.at(n + 2), ("NONE",)))
    )


def texture(walk: Walk) -> int:
    """Sand, loam, clay; not "sand pit"."""
    after = walk.after
    if _put_right(walk):
        return walk.text()
    if walk.has("black_earth") and _told_nearer(walk):
        return walk.text()
    if walk.has("soil_letters") and not _letters_of_soil(walk):
        return 0
    short = len(walk.piece.text) <= 2 and after is not None and after.kind == "word"
    short = short and not is_any(walk.before, ("MOISTURE",))  # "dry lm tops fine"
    if short and not walk.has("soil_letters") and not is_any(after, ("MOISTURE", "DUG", "PH")):  # "SL pH 6.9"
        return 0
    shown = walk.draft.text[walk.piece.start : walk.piece.end].lower()
    led = walk.at(walk.i - 1)
    if led is not None and walk.made.has("after_to_snd", f"{led.text} {shown}"):
        return walk.text()  # "forgot to snd": to send
    if after is not None and after.text in anywhere("named_for_soil"):
        return walk.text()
    return walk.take()


def _told_nearer(walk: Walk) -> bool:
    """ "Tierra negra (franca)", "black dirt, (silt loam)": the soil itself is told right behind its color."""
    n = walk.i + 1
    while (piece := walk.at(n)) is not None and n < walk.i + 1 + NEAR_SOIL:
        if is_any(piece, ("TEXTURE",)) and len(piece.text) > 1:
            return True
        if not (piece.text in (",", "(", "-") or linking(piece) or is_any(piece, ("MOISTURE",))):
            return False
        n += 1
    return False


def _put_right(walk: Walk) -> bool:
    """ "(Arenoso) não, é argila", "clay, no, sand": denied at once, and another soil told behind it."""
    k, denied = walk.i + 1, False
    while (piece := walk.at(k)) is not None and k <= walk.i + DENIED_WITHIN and piece.kind in ("word", "break"):
        if piece.text == "." or (is_any(piece, ("TEXTURE",)) and not denied):
            return False
        if is_any(piece, ("TEXTURE",)):
            before = walk.at(k - 1)
            return not is_any(before, ("NOT",)) and piece.types["TEXTURE"].value != walk.entry.value
        if not (is_any(piece, ("NOT",)) or piece.text == "," or linking(piece)):
            return False
        denied = denied or is_any(piece, ("NOT",))
        if denied and is_any(piece, ("NOT",)) and k > walk.i + 1 and not ends_clause(walk.at(k + 1)):
            return False  # "clay, no sand"
        k += 1
    return False


DENIED_WITHIN = 6
"""Pieces between a soil that is denied and the right one (judgement)."""


def _letters_of_soil(walk: Walk) -> bool:
    """ "CL", "CL mst", "dry cl": letters of a soil, beside its moisture or in capitals in a clause of their own."""
    beside = (walk.before, walk.after)
    soil = [p for p in beside if is_any(p, ("MOISTURE",)) or (p is not None and walk.made.has("soil_word", p.text))]
    shown = walk.draft.text[walk.piece.start : walk.piece.end]
    capitals = shown.isupper() and not shouted(walk.draft.text)
    if soil:
        return capitals or not any(unknown(p) for p in beside)
    return capitals and all(p is None or p.kind in ("break", "line", "stage") for p in beside)


def ph(walk: Walk) -> int:
    """pH with its number."""
    if walk.last_is("NUMBER") and isinstance(walk.out[-1].value, float) and not is_number(walk.after):
        number = walk.out.pop()  # "6.5 ph"
        walk.emit("PH", "ph", number.start, number.start, lead=number.lead)
        return walk.emit("NUMBER", number.value, number.start, walk.piece.end)
    if is_number(walk.near_after) or _named_between(walk):
        return walk.take()
    for j in range(walk.i + 1, walk.i + 7):
        piece = walk.at(j)
        if piece is None or piece.kind not in ("word", "number"):
            break
        if piece.kind == "number" and 3 <= piece.value <= 10 and piece.value != int(piece.value):
            walk.take()  # "pH on the slip was 7.9"
            walk.emit("NUMBER", piece.value, piece.start, piece.end)
            return j + 1 - walk.i
        if piece.types and not linking(piece):
            break
    return walk.text()


def _named_between(walk: Walk) -> bool:
    """ "pH del lote 7 dio 6,1": only a field's name between a label and its number."""
    j = walk.i + 1
    while j < len(walk.ps) and j not in walk.found and linking(walk.ps[j]):
        j += 1
    name = walk.found.get(j)
    if name is None:
        return False
    j = name.last
    while j < len(walk.ps) and walk.ps[j].kind in ("word", "sign") and (linking(walk.ps[j]) or walk.colon_at(j)):
        j += 1
    return j < len(walk.ps) and walk.ps[j].kind == "number"


def potassium(walk: Walk) -> int:
    """K with its number."""
    return walk.take() if is_number(walk.near_after) or _named_between(walk) else 0
