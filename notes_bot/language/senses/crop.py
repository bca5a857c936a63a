"""The crop: its variety and seed, planting, resistance, stage, sprays and hours of no entry."""

from __future__ import annotations

import itertools
import re

from notes_bot.language.lexicon.joining import claims, is_any, linking, neighbour_index
from notes_bot.language.lexicon.mending import ordinary
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.scan import shouted
from notes_bot.language.lexicon.words import anywhere
from notes_bot.language.names.naming import written
from notes_bot.language.senses.around import LEAST_CODE, LOOKED_BACK, data_at
from notes_bot.language.senses.walk import Walk, is_number, unknown
from notes_bot.model import LANGUAGES

SHORTENED = 4
"""Letters of a word cut short with a stop: "var.", "cult." (judgement)."""
MAKERS_LETTERS = range(2, 5)
"""Letters of a maker's short name in the name of a seed (judgement)."""
_SPOKEN = frozenset("aeiouy")
"""Letters that a word that is spoken has one of."""
LEAST_LOW_CODE = 10
"""The least number of a seed named by small letters that spell no word, as "mw 19" (judgement)."""
LEAST_SEED = 10
"""The smallest number of a variety's name before the crop; fewer are plants (judgement)."""


def variety(walk: Walk) -> int:
    """Variety: the words behind it are its name."""
    walk.variety_open = True
    return walk.take()


def variety_code(walk: Walk) -> int:
    """ "variety S22-T7": what is written without blanks behind the word, with a digit in it, is one name."""
    i = walk.i
    if walk.variety_open:
        _drop_links(walk)
    labelled = walk.variety_open and walk.lead in ("", "colon", "link") and bool(walk.out)
    if not labelled or walk.out[-1].type not in ("VARIETY", "NAME") or walk.piece.kind not in ("word", "number"):
        return 0
    j = i + 1
    while (piece := walk.at(j)) is not None and not piece.spaced and piece.kind in ("word", "number", "sign"):
        j += 1
    if walk.ps[j - 1].kind == "sign":
        j -= 1
    if j - i < 3 or not any(ch.isdigit() for piece in walk.ps[i:j] for ch in piece.text):
        return 0
    start, end = walk.piece.start, walk.ps[j - 1].end
    walk.emit("NAME", walk.draft.text[start:end], start, end)
    return j - i


def shortened(walk: Walk) -> bool:
    """ "var. Yryvu 61": is the stop at hand that of a word for variety cut short?"""
    stop = walk.piece.text == "." and walk.last_is("VARIETY") and walk.lead == ""
    return stop and len(walk.out[-1].text) <= SHORTENED


def _drop_links(walk: Walk) -> None:
    """ "variety is Marlo 22": the little word between belongs to neither."""
    n = len(walk.out)
    while n and walk.out[n - 1].type == "LINK":
        n -= 1
    tied = n < len(walk.out) and walk.out[n].lead in ("", "link", "colon")  # not "the seed, which is a matter for"
    if n and tied and walk.out[n - 1].type == "VARIETY" and walk.lead == "link":
        del walk.out[n:]


def resistance(walk: Walk) -> int:
    """Resistant, susceptible; three letters are other things too. A code behind "res var" is a name."""
    if walk.last_is("CHECK"):
        return 1  # "check strip of susceptible beans"
    if len(walk.piece.text) <= 3 and is_number(walk.before) and walk.last_is("NUMBER"):
        return 0
    is_ = walk.i > 0 and walk.made.has("is_word", walk.ps[walk.i - 1].text)
    if is_ and getattr(walk.at(walk.i + 1), "text", "") == "?":
        walk.draft.ask("doubtful", walk.piece.start, walk.ps[walk.i + 1].end)  # "a mangueira é resistente?"
        return walk.text()
    place = next((w.type for w in reversed(walk.out) if w.type in ("CHECK", "SPOT", "FIELD")), "")
    counted = next((w.type for w in reversed(walk.out) if w.type in ("CHECK", "NUMBER", "NONE")), "") != "CHECK"
    own = walk.entry.value == "susceptible" and not counted
    named = walk.entry.value == "resistant" and bool(walk.out) and walk.out[-1].type == "NAME"
    bracket = walk.i > 0 and walk.ps[walk.i - 1].text == "(" and not named  # ".. Corvale 21 (resistant): 5 pl"
    if place == "CHECK" and (own or bracket):
        return 1  # "testigo (susceptible)": the strip's own seed, not the field's
    others = [p.types["RESISTANCE"].value for p in walk.ps if "RESISTANCE" in p.types and p is not walk.piece]
    strip = walk.entry.value == "susceptible" and "resistant" in others and len(walk.piece.text) > 3
    if strip and not walk.last_is("VARIETY", "NAME"):
        number = walk.direct_index(walk.i, 1)
        if is_number(walk.at(number)) and data_at(walk, number):
            return walk.take("CHECK", written(walk.draft.text, walk.piece.start, walk.piece.end))
    labels = [entry for word in walk.piece.text.split() for entry in walk.made.singles.get(word, ())]
    walk.variety_open = any(entry.type == "VARIETY" for entry in labels)
    return walk.take()


def planted(walk: Walk) -> int:
    """Planted; "sembramos maíz al lado" is another crop."""
    other = walk.made.has("other_crop", getattr(walk.at(walk.i + 1), "text", ""))
    if other:
        return walk.text()
    if walk.has("timid_planted"):
        day, beans = walk.near_after, walk.at(walk.i - 1)
        grown = walk.i - 1 in walk.named or is_any(beans, ("FIELD", "TOPS"))
        if day is None or day.kind != "day" or not grown:
            return 0  # "went in on may 18, 5 plants none"
    walk.take()
    return 1 + _seed_with(walk)


def _seed_with(walk: Walk) -> int:
    """ "Sembrada con la 48B20", "plantado com M 6410": a code behind planting and "with" is the seed's name."""
    k = walk.i + 1
    if getattr(walk.at(k), "text", "") not in anywhere("with_word"):
        return 0
    k += 1 + (getattr(walk.at(k + 1), "text", "") in anywhere("name_article"))
    end = k
    while (piece := walk.at(end)) is not None and end < k + 3 and piece.kind in ("word", "number"):
        if end > k and (piece.kind == "word" or walk.names.bound(end)) and piece.spaced:
            break
        end += 1
    first = walk.at(k)
    said = walk.draft.text[first.start : walk.ps[end - 1].end] if first is not None and end > k else ""
    code = any(ch.isdigit() for ch in said) and any(ch.isalpha() for ch in said)
    if first is None or not code or (is_any(first, ("PLANTS", "UNIT")) and first.spaced and len(first.text) > 1):
        return 0
    walk.emit("VARIETY", "variety", first.start, first.start, lead="link")
    walk.emit("NAME", said, first.start, walk.ps[end - 1].end)
    return end - walk.i - 1


def named(walk: Walk) -> int:
    """A seed or a spray that no list has, beside what tells that it is one."""
    if used := _sprayed_with(walk):
        return used
    piece = walk.piece
    written_as = walk.draft.text[piece.start : piece.end]
    if walk.variety_open:
        _drop_links(walk)
    if walk.variety_open and (walk.has("wrote") or walk.has("said_of_seed")):
        walk.variety_open = False  # "si hay que cambiar de semilla, le dije que espere", "the variety itself"
    if _seed_told(walk):
        walk.emit("VARIETY", "variety", piece.start, piece.start)
        walk.variety_open = True
        return walk.emit("NAME", written_as, piece.start, piece.end)
    if used := _maker_code(walk) or _beans_named(walk):
        return used
    if _variety_behind_planting(walk):
        walk.variety_open = True
        return walk.emit("NAME", written_as, piece.start, piece.end)
    last = walk.out[-1].type if walk.out and walk.lead in ("", "link", "colon") else ""
    code = any(ch.isdigit() for ch in piece.text) or walk.names.capital(walk.i)
    code = code or (last == "RESISTANCE" and _numbered_seed(walk))
    if walk.variety_open and (last in ("VARIETY", "NAME") or (last == "RESISTANCE" and code)):
        if (last == "NAME" and not walk.has("no_place")) or _may_name_seed(walk, code):
            return walk.emit("NAME", written_as, piece.start, piece.end)
        walk.variety_open = False
    dated = walk.last_is("DATE") and len(walk.out) > 1 and walk.out[-2].type == "SPRAY"
    strange = len(piece.text) > SHORTENED and piece.text.isalpha() and not ordinary(piece.text, walk.made.language)
    if (walk.last_is("SPRAY") or dated) and strange:
        return walk.emit("CHEMICAL", piece.text, piece.start, piece.end)
    return 0


def seed(walk: Walk) -> int:
    """The name of a variety in one piece: its name, a strip's, or, behind the check strip, what grows only there."""
    piece = walk.piece
    of_check = any(is_any(other, ("CHECK",)) for other in walk.ps[max(0, walk.i - 2) : walk.i])
    if of_check and "SPOT" not in piece.types:
        return 1
    labelled = walk.out and walk.out[-1].type == "VARIETY" and walk.lead in ("", "link", "colon")
    strip = "SPOT" in piece.types
    if not labelled and not strip:
        walk.emit("VARIETY", "variety", piece.start, piece.start)
    if labelled or not strip:
        walk.emit("NAME", piece.value, piece.start, piece.end, lead="")
        walk.variety_open = True
    if strip:
        walk.emit("SPOT", piece.text, piece.start, piece.end, lead="soft")
    return 1


def _seed_told(walk: Walk) -> bool:
    """ "A soja da baixada é BMX Desafio": a maker's letters behind "the beans are"."""
    word = walk.draft.text[walk.piece.start : walk.piece.end]
    is_ = walk.ps[walk.i - 1].text if walk.i else ""
    beans = any(is_any(piece, ("VARIETY", "TOPS")) for piece in walk.ps[max(0, walk.i - 6) : walk.i])
    capital = word.isupper() and len(word) > 1 and not shouted(walk.draft.text)  # "SOIL IS FIT"
    return is_ in anywhere("seed_is") and beans and capital


def _maker_code(walk: Walk) -> int:
    """ "Água Boa com TMG 7062", "es NA 5909": a maker's capitals and a large number behind "with" or "is"."""
    word = walk.draft.text[walk.piece.start : walk.piece.end]
    number, led = walk.at(walk.i + 1), walk.at(walk.i - 1)
    maker = word.isupper() and word.isalpha() and len(word) in MAKERS_LETTERS
    code = word.isalpha() and word.islower() and len(word) in MAKERS_LETTERS and not set(walk.piece.text) & _SPOKEN
    code = code and word not in walk.made.plain and not claims(walk.ps, walk.i + 2)
    whole = number is not None and number.kind == "number" and isinstance(number.value, int)
    least = LEAST_LOW_CODE if code else LEAST_CODE
    if led is None or number is None or not ((maker or code) and whole and number.value >= least):
        return 0
    if code and walk.made.has("article", led.text) and walk.i > 1:
        led = walk.ps[walk.i - 2]  # "é a rn 71"
    told = led.text in anywhere("with_word") | anywhere("seed_is") | anywhere("seed_word")
    told = told or (code and led.text in anywhere("seed_in"))
    if not told or walk.names.bound(walk.i + 1):
        return 0
    walk.emit("VARIETY", "variety", walk.piece.start, walk.piece.start)
    walk.emit("NAME", walk.draft.text[walk.piece.start : number.end], walk.piece.start, number.end)
    return 2


def _beans_named(walk: Walk) -> int:
    """ "Kestrel has Tamsin 31 beans in it": a name with its number before the crop is a seed and no plants."""
    number, crop, led = walk.at(walk.i + 1), walk.at(walk.i + 2), walk.at(walk.i - 1)
    whole = number is not None and number.kind == "number" and isinstance(number.value, int)
    if number is None or crop is None or led is None or not whole or number.value < LEAST_SEED:
        return 0
    named = walk.names.capital(walk.i) and not walk.made.has("seed_lead", walk.piece.text)
    labelled = walk.variety_open and is_any(led, ("VARIETY",))
    if not named or not walk.made.has("seed_crop", crop.text):
        return 0
    if not labelled and not walk.made.has("seed_lead", led.text):
        return 0
    if not labelled:
        walk.emit("VARIETY", "variety", walk.piece.start, walk.piece.start)
    walk.emit("NAME", walk.draft.text[walk.piece.start : number.end], walk.piece.start, number.end)
    return 3


def _variety_behind_planting(walk: Walk) -> bool:
    """ "planted 5/9, Maple Crest 19", "the new Ombra 25 (Peking)": capitals and a number beside words of seed."""
    if not walk.names.capital(walk.i):
        return False
    j = walk.i + 1
    while j < walk.i + 3 and (piece := walk.at(j)) is not None and piece.kind == "word" and walk.names.capital(j):
        j += 1
    said = [word.type for word in walk.out[-6:] if word.type != "LINK"]
    told = said[-2:] in (["PLANTED", "DATE"], ["DATE", "PLANTED"])
    k = j + 1
    while (piece := walk.at(k)) is not None and (piece.text in ("(", ",", "-") or linking(piece)):
        k += 1
    sourced = is_any(walk.at(k), ("SOURCE", "RESISTANCE")) and k < j + 5 and not walk.variety_open
    if not is_number(walk.at(j)):
        return False
    return (told and not walk.names.bound(j)) or (sourced and not walk.last_is("NUMBER", "NAME"))


def _numbered_seed(walk: Walk) -> bool:
    """ "(variedad susceptible) tapuia 73, ..": a strange word with a number that counts nothing."""
    number = walk.direct_index(walk.i, 1)
    behind = walk.at(number + 1)
    ends = behind is None or behind.kind in ("break", "line") or behind.text == ":"
    return (
        ends and is_number(walk.at(number)) and not any(ordinary(walk.piece.text, language) for language in LANGUAGES)
    )


def _may_name_seed(walk: Walk, code: bool) -> bool:
    """May this word begin a seed's name? Not "dad says" behind "a resistant variety", nor "guy" behind "seed"."""
    after = walk.after
    beyond = walk.direct(walk.direct_index(walk.i, 1), 1) if after is not None and linking(after) else None
    if not code and (is_any(after, ("SOURCE", "RESISTANCE")) or is_any(beyond, ("SOURCE",))):
        return False  # "la semilla trae PI 88788", "variety traces to PI 437654"
    numbered = is_number(after) or (after is not None and any(ch.isdigit() for ch in after.text))
    led = walk.lead == "colon" or (walk.lead == "link" and walk.before is not None and walk.before.text != "the")
    if numbered:
        return True
    if walk.piece.text in walk.made.plain and not walk.names.capital(walk.i):
        return False  # "the variety is holding"
    if led and not walk.out[-1].text.startswith("seed"):
        return True
    plain = after is not None and after.kind == "word" and not walk.names.capital(walk.direct_index(walk.i, 1))
    says = plain and after is not None and (not after.types or linking(after)) and after.text in walk.made.plain
    says = says or (plain and after is not None and not after.types and code)
    story = walk.piece.text in walk.made.plain or says or walk.has("no_place")
    return not story and (code or walk.ps[walk.i - 1].text not in anywhere("seed_word"))


def spray(walk: Walk) -> int:
    """Sprayed; "app", "applied", "passou" only with a day or a chemical."""
    timed = is_any(walk.near_after, ("AGO",)) or walk.last_is("CHEMICAL")
    if walk.has("weak_spray") and timed:
        return walk.take()
    if walk.has("weak_spray"):
        after = walk.near_after
        if unknown(after) and after is not None and after.text not in walk.made.plain:
            dated = walk.direct(neighbour_index(walk.ps, walk.i, 1) or walk.i, 1)
            stop = dated is None or dated.kind in ("break", "line")
            told = walk.last_is("DATE") and stop and not ordinary(after.text, walk.made.language)
            timed = dated is not None and (dated.kind == "day" or is_any(dated, ("AGO",)))
            return walk.take() if told or timed else 0  # "aplicaron cletodim ayer", "passaram Fusão há 3 dias"
        daily = after is not None and after.kind == "day"
        if daily and walk.has("visit_verb") and not any("CHEMICAL" in p.types for p in _clause_behind(walk)):
            return 0  # "passei ontem no Lote 12"
        return walk.take() if after is not None and (daily or "CHEMICAL" in after.types) else 0
    return walk.take()


def _clause_behind(walk: Walk) -> list[Piece]:
    """The pieces behind the one at hand, up to the next stop."""
    behind = walk.ps[walk.i + 1 : walk.i + LOOKED_BACK]
    return list(itertools.takewhile(lambda p: p.kind not in ("break", "line"), behind))


def _sprayed_with(walk: Walk) -> int:
    """ "Sprayed: lambda-cyhalothrin", "sprayed with Tornado": what no list has, as written."""
    led = walk.lead == "colon" or (
        walk.lead == "link" and walk.before is not None and walk.before.text in anywhere("with_word")
    )
    if not (walk.out and walk.out[-1].type == "SPRAY" and led) or len(walk.piece.text) < 3:
        return 0
    j = walk.i + 1
    while (piece := walk.at(j)) is not None and not piece.spaced and piece.kind in ("word", "sign", "number"):
        j += 1
    while j > walk.i + 1 and walk.ps[j - 1].kind == "sign":
        j -= 1
    end = walk.ps[j - 1].end
    walk.emit("CHEMICAL", written(walk.draft.text, walk.piece.start, end), walk.piece.start, end)
    return j - walk.i


def entry(walk: Walk) -> int:
    """Re-entry: with hours or days."""
    if walk.last_is("SPAN") and not is_number(walk.near_after):
        walk.out[-1].lead = "soft"  # "the fungicide has a 12 hr restricted entry"
        return walk.take()
    return walk.take() if is_number(walk.near_after) else 0


def stage(text: str) -> str:
    """V4, R2.5: the stage as we keep it; a range is its middle; V12 and R1 at once are both kept, with a slash."""
    numbers = [float(n) for n in re.findall(r"\d+(?:\.\d)?", text)]
    letters = re.findall(r"[vr](?=[ ]?\d)", text)
    if not numbers:
        return text.upper()
    if len(letters) > 1 and letters[0] != letters[1]:
        return f"{letters[0].upper()}{numbers[0]:g}/{letters[1].upper()}{numbers[1]:g}"
    middle = (numbers[0] + numbers[1]) / 2 if len(numbers) > 1 else numbers[0]
    return f"{text[0].upper()}{middle:g}"
