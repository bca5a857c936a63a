"""Numbers and ranges: what they count, and the many that count nothing of ours."""

from __future__ import annotations

import itertools
import re

from notes_bot.language.lexicon.days import DayWritten
from notes_bot.language.lexicon.joining import claims, is_any, linking
from notes_bot.language.lexicon.pieces import Piece, ends_clause
from notes_bot.language.lexicon.scan import NTH_ENDS
from notes_bot.language.lexicon.tokens import Slip
from notes_bot.language.lexicon.words import COMMAND_TYPES, anywhere
from notes_bot.language.names.naming import written
from notes_bot.language.senses.around import (
    COUNTED,
    LOOKED_BACK,
    MOST_OF_PLANTS,
    dashes_days,
    goes_on_nowhere,
    of_plants_told,
)
from notes_bot.language.senses.some_plants import some_of_plants
from notes_bot.language.senses.units import span, with_unit
from notes_bot.language.senses.walk import Walk, is_number

LEAST_PH, MOST_PH = 3, 10
"""Of soils (common knowledge, no source)."""
USUAL_HOURS = frozenset({4, 8, 12, 24, 36, 48, 72})
"""Hours of a restricted entry; told without a unit they are no days (common practice, no source)."""
FEWEST_THOUSANDS = 60
"""Thousands from which a number is of seeds or plants of a field (judgement)."""
_PRICE = re.compile(r"\d+[.,]\d\d")
_ZEROED = re.compile(r"0\d{3}")
MOST_COUNTED = 49_999
"""A number larger than this beside another is a telephone's (judgement)."""


def number(walk: Walk) -> int:
    """A number: of places or fields, behind its label, in a name, with a unit, of plants; else what it counts."""
    used = _places_times(walk) or _of_fields(walk) or _behind_label(walk) or _plants_none(walk) or _in_seed_name(walk)
    if used:
        return used
    j = walk.i + 1
    while j < len(walk.ps) and walk.ps[j].kind == "sign" and walk.ps[j].text in "-.":
        j += 1
    after = walk.at(j)
    used = _without_any(walk, j)
    if not used and after is not None and after.kind == "word":
        used = with_unit(walk, j, after)
    if used := used or _plants_looked_at(walk, j) or some_of_plants(walk, j):
        return used
    return walk.text() if _counts_nothing(walk, j) else _count(walk, j)


def _of_fields(walk: Walk) -> int:
    """So many places or fields, or the number of one: nothing is counted; or so many plants in each field."""
    piece, i = walk.piece, walk.i
    if _counts_places(walk) or _for_in_figures(walk):
        return walk.text()
    before, after = walk.at(i - 1), walk.at(i + 1)
    of = after.text if after is not None else ""
    if is_any(before, ("FIELD_WORD",)) and (of == "/" or of in anywhere("of_word")):
        walk.emit("TEXT", None, piece.start, walk.ps[min(i + 2, len(walk.ps) - 1)].end)
        return 3  # "field 1 of 12"
    if is_any(after, ("FIELD_WORD",)) and _heads_fields(walk, i + 2):
        walk.emit("TEXT", None, piece.start, walk.ps[i + 1].end)
        return 2  # "hoje 2 talhões."
    if walk.colon_at(i + 1) and _heads_fields(walk, i + 1) and walk.first_name > i:
        return walk.text()  # "te passo 3: açude velho .., sanga funda .."
    led = f"{walk.ps[i - 1].text} {piece.text}" if i else piece.text
    if (
        walk.made.has("for_both", led)
        and piece.value == _fields_told(walk)
        and (goes_on_nowhere(walk) or is_any(after, ("NONE",)))
    ):
        return walk.text()  # "solo seco nos 2", "hoy los 2 sin nada"
    if walk.first_name <= i:
        return 0
    if before is not None and walk.made.has("did_fields", before.text):
        dated = is_any(after, ("TODAY",)) or (after is not None and after.kind == "day")
        if _heads_fields(walk, i + 1 + dated):
            return walk.text()  # "did 2 today. kestrel .. tinkers .."
    if " ".join([p.text for p in walk.ps[i + 1 : i + 3]]) in anywhere("per_field"):
        return _as_plants(walk)  # "all dug with the spade, 8 per field."
    return 0


def _as_plants(walk: Walk, lead: str | None = None) -> int:
    """The number at hand as so many plants."""
    piece = walk.piece
    walk.emit("NUMBER", piece.value, piece.start, piece.end, lead)
    return walk.emit("PLANTS", "plants", piece.end, piece.end)


def _behind_label(walk: Walk) -> int:
    """A pH, or the hours of no entry, right behind the word for it."""
    piece = walk.piece
    if walk.last_is("PH") and walk.lead == "" and LEAST_PH < piece.value < MOST_PH and isinstance(piece.value, float):
        return walk.emit("NUMBER", piece.value, piece.start, piece.end)  # "pH 6.2 lvs edge yel"
    if walk.last_is("ENTRY") and piece.value in USUAL_HOURS and _stands_alone(walk, walk.i + 1):
        return walk.emit("SPAN", ("hours", piece.value, ""), piece.start, piece.end)  # "REI 12."
    return 0


def _in_seed_name(walk: Walk) -> int:
    """The number of a variety's name, or its code ("variety Marlo 22", "Marlo 22T")."""
    piece, i = walk.piece, walk.i
    if not (walk.variety_open and walk.lead in ("", "colon") and walk.out and walk.out[-1].type in ("VARIETY", "NAME")):
        return 0
    if walk.at(i + 1) is not None and not walk.ps[i + 1].spaced and walk.ps[i + 1].kind in ("word", "stage"):
        walk.emit("NAME", walk.draft.text[piece.start : walk.ps[i + 1].end], piece.start, walk.ps[i + 1].end)
        return 2
    heads = getattr(walk.at(i + 1), "text", "") == ":" and walk.last_is("NAME")  # "variety Marlo 22: 6 plants"
    if heads or not walk.names.bound(i):
        return walk.emit("NAME", walk.draft.text[piece.start : piece.end], piece.start, piece.end)
    return 0


def _without_any(walk: Walk, j: int) -> int:
    """ "2 with white, 4 without any": the plants that had none, behind those that had some."""
    after = walk.at(j)
    if after is None or after.text not in anywhere("without_word"):
        return 0
    ends = j + 1 + (getattr(walk.at(j + 1), "text", "") in anywhere("any_word"))
    if "POSITIVE" not in [w.type for w in walk.out[-4:]] or not _stands_alone(walk, ends):
        return 0
    walk.emit("TEXT", None, walk.piece.start, walk.ps[ends - 1].end)
    return ends - walk.i


def _plants_looked_at(walk: Walk, j: int) -> int:
    """Plants that no word names: "did 5, found ..", "3 white a plant on 6"."""
    if _did_so_many(walk, j):
        return _as_plants(walk)
    value = walk.piece.value
    upon = walk.i > 0 and walk.ps[walk.i - 1].text in anywhere("upon_plant")
    upon = upon and any(word.type == "EACH" for word in walk.out[-2:])
    if upon and _stands_alone(walk, j) and isinstance(value, int) and 0 < value <= MOST_OF_PLANTS:
        return _as_plants(walk, "soft")
    return 0


def _counts_nothing(walk: Walk, j: int) -> bool:
    """Is it a number of something else, or of what was counted before?"""
    if _names_something(walk) or _of_something_else(walk, j) or _through(walk) or _sums_each(walk):
        return True
    broke = walk.last_is("ROOT") and walk.out[-1].value == "snapped"
    return _all_of_them(walk) or (broke and _stands_alone(walk, j))  # "se cortaron 3"


def _sums_each(walk: Walk) -> bool:
    """The 12 of "6 pulled, 2 white on each one so 12"."""
    if [word.type for word in walk.out[-3:]] != ["NUMBER", "COLOUR", "EACH"]:
        return False
    lead = getattr(walk.at(walk.i - 1), "text", "")
    if not (walk.made.has("makes_sum", lead) or walk.made.has("sums_up", lead)):
        return False
    dug = [word.value for n, word in enumerate(walk.out[:-3]) if word.type == "NUMBER" and of_plants_told(walk, n)]
    return bool(dug) and walk.piece.value == dug[-1] * walk.out[-3].value


def _count(walk: Walk, j: int) -> int:
    """A number of a count: what it counts stands beside it, or was told before."""
    piece, i = walk.piece, walk.i
    after = walk.at(j)
    if _sums_the_list(walk):
        walk.lead = "hard"  # "5, 9, 3, 7 (24 blancas)"
        if walk.ps[i - 1].text != "(" and not is_any(after, ("COLOUR", "FEMALES", "TOTAL")):
            walk.emit("TOTAL", "total", piece.start, piece.start, lead="hard")  # "2+0+1+4+3 = 10, todas con pala"
    elif i and walk.ps[i - 1].text == "=" and _last_is_count(walk):
        walk.emit("TOTAL", "total", walk.ps[i - 1].start, walk.ps[i - 1].end, lead="soft")  # "4 b + 3 a = 7"
    if piece.plus and not is_any(after, ("NODULES", "MEASURE")):
        walk.emit("PLUS", None, piece.start, piece.end)
    walk.emit("NUMBER", piece.value, piece.start, piece.end)
    if used := _of_them(walk, j):
        return used
    if _said_to_be_counted(walk, j):
        walk.emit("FEMALES", "female", piece.end, piece.end)
    return 1


def _of_them(walk: Walk, j: int) -> int:
    """ "8 of em": of the plants or females told before."""
    after, end = walk.at(j), walk.piece.end
    k = j + 1
    if after is None or after.text != "of" or not walk.made.has("them", getattr(walk.at(k), "text", "")):
        return 0
    told = any(word.type in ("COLOUR", "FEMALES", "MOSTLY") for word in walk.out[-5:-1])
    if told and getattr(walk.at(walk.i - 1), "text", "") in anywhere("upon_plant") and _fewer_than_dug(walk):
        walk.out[-1].type = "POSITIVE"  # "10 pulled, 7 white, on 3 of em"
        return k + 1 - walk.i
    before = walk.out[-2] if len(walk.out) > 1 else None
    if before is not None and before.type == "OVER" and any(w.type in ("PLANTS", "DUG") for w in walk.out[:-2]):
        del walk.out[-2:]
        walk.emit("TEXT", None, before.start, walk.ps[k].end)
        return k + 1 - walk.i  # "5 plants, 3 white on one of them"
    comma = getattr(walk.at(k + 1), "text", "") == ","
    if is_any(walk.at(k + 1), ("TOTAL",)) and not is_number(walk.at(k + 2)):
        return k + 1 - walk.i  # "counted 16 of them in all"
    if (before is not None and before.type == "DUG") or is_any(walk.at(k + 1 + comma), ("DUG",)):
        walk.emit("PLANTS", "plants", end, end)  # "dug four of them and counted thirty white"
        return k + 1 - walk.i
    if told and _stands_alone(walk, k + 1):
        walk.emit(*_what_they_are(walk), end, end)
        return k + 1 - walk.i
    return 0


def _fewer_than_dug(walk: Walk) -> bool:
    """Were more plants told before than the number at hand?"""
    dug = [word.value for n, word in enumerate(walk.out) if word.type == "NUMBER" and of_plants_told(walk, n)]
    return bool(dug) and isinstance(walk.piece.value, int) and walk.piece.value < dug[-1]


def _said_to_be_counted(walk: Walk, j: int) -> bool:
    """ "She counted eight", "there were 17": a bare number behind a word for counting is females."""
    if not _stands_alone(walk, j):
        return False
    i = walk.i
    titled = [word.type for word in walk.out[-3:-1]] == ["COLOUR", "TOTAL"]
    titled = titled or (len(walk.out) > 1 and walk.out[-2].type in ("PH", "POTASSIUM"))  # "K deu 48"
    before = walk.at(i - 1)
    if before is not None and before.text == "," and i > 1:
        before = walk.ps[i - 2]  # "she counted, eight she says"
    there = i > 1 and walk.made.has("counted", " ".join(p.text for p in walk.ps[i - 2 : i]))  # "there were 17"
    told = before is not None and (there or walk.made.has("counted", before.text))
    return told and not titled


def _fields_told(walk: Walk) -> int:
    """How many fields are told of."""
    fields = {written(walk.draft.text, name.start, name.end) for name in walk.found.values()}
    return len(fields.union(*(name.also for name in walk.found.values())))


def _sums_the_list(walk: Walk) -> bool:
    """ "5, 9, 3, 7 (24 brancas)", "2+0+1+4+3 = 10", ".. son 10": a number behind a list that is the sum of it."""
    before = walk.ps[walk.i - 1].text if walk.i else ""
    made = before == "=" or walk.made.has("makes_sum", before)
    if before != "(" and not made:
        return False
    listed = [w.value for w in itertools.takewhile(lambda w: w.type == "NUMBER", reversed(walk.out))]
    added = made and all(getattr(walk.at(walk.i - back), "text", "") == "+" for back in (3, 5))
    return len(listed) > 1 + made and (added or walk.piece.value == sum(listed))


def _through(walk: Walk) -> bool:
    """The second number of "rows 4 thru 8", where the first was none of ours."""
    before = walk.at(walk.i - 1)
    return before is not None and walk.made.has("through", before.text) and walk.last_is("TEXT", "LINK")


def _heads_fields(walk: Walk, i: int) -> bool:
    """ "2 fields today." before the first of several: so many fields, and no plants."""
    several = len(walk.found) == walk.piece.value or (len(walk.found) > 1 and walk.first_name > walk.i)
    stop = walk.at(i)
    return several and (stop is None or stop.kind in ("break", "line", "day") or stop.text == ":")


def _times(walk: Walk, piece: Piece) -> bool:
    """Is it a sign or a word for "times"?"""
    return piece.text in ("x", "*", "@") or walk.made.has("times", piece.text)


def _for_in_figures(walk: Walk) -> bool:
    """ "Didnt dig, running late 4 practice": the word that sounds like it, where nothing was dug to be counted."""
    if walk.piece.text != "4":
        return False
    before, after = walk.at(walk.i - 1), walk.at(walk.i + 1)
    if before is None or not walk.made.has("for_written_4", before.text.split(" ")[-1]):
        return False
    free = after is not None and after.kind == "word" and (not after.entries or walk.made.has("article", after.text))
    return free and any(word.type == "NOT_LOOKED" for word in walk.out)


def _places_times(walk: Walk) -> int:
    """ "4 spots x 3 plants": so many plants at each of so many places, and said so."""
    if walk.i + 5 > len(walk.ps) or not walk.made.has("place_count", walk.ps[walk.i + 1].text):
        return 0
    ps = walk.ps[walk.i : walk.i + 5]
    of = ps[2].text in anywhere("of_plants") and not walk.made.has(
        "each_place", getattr(walk.at(walk.i + 5), "text", "")
    )
    if not (_times(walk, ps[2]) or of):
        return 0  # "3 estaciones de 3 plantas", but "3 pontos de 4 plantas cada" is told elsewhere
    here, each = ps[0].value, ps[3].value
    if not (ps[3].kind == "number" and isinstance(here, int) and isinstance(each, int) and "PLANTS" in ps[4].types):
        return 0
    walk.emit("NUMBER", here * each, ps[0].start, ps[3].end)
    walk.emit("PLANTS", "plants", ps[4].start, ps[4].end)
    walk.draft.slips.append(Slip("near_word", str(here * each), ps[0].start, ps[3].end))
    return 5


def _counts_places(walk: Walk) -> bool:
    """ "3 lugares, 4 plantas en cada uno", "em 2 pontos:": so many places, and none of ours."""
    noun = walk.at(walk.i + 1)
    if noun is None or noun.kind != "word" or not walk.made.has("place_count", noun.text):
        return False
    return not noun.types.keys() - COMMAND_TYPES and not is_any(walk.at(walk.i + 2), COUNTED)


def _what_they_are(walk: Walk) -> tuple[str, str]:
    """ "First whites of the year, 8 of em": the one color named before, or females."""
    since = range(max(0, len(walk.out) - LOOKED_BACK), len(walk.out) - 1)
    told = [n for n in since if walk.out[n].type in ("COLOUR", "FEMALES", "MOSTLY", "NUMBER")]
    last = walk.out[told[-1]] if told else None
    bare = last is not None and last.type == "COLOUR" and (len(told) < 2 or told[-2] != told[-1] - 1)
    if last is None or not bare or len(last.text) < 3:
        return "FEMALES", "female"
    last.type = "TEXT"
    return "COLOUR", last.value


def _last_is_count(walk: Walk) -> bool:
    """Is what stands before the sign at hand a color with its number, another count before it?"""
    told = [word.type for word in walk.out[-4:]]
    tied = bool(walk.out) and walk.out[-1].lead in ("", "link", "colon")  # not "w=3; y=1"
    return tied and told in (["NUMBER", "COLOUR"] * 2, ["COLOUR", "NUMBER"] * 2)


def _all_of_them(walk: Walk) -> bool:
    """ "Dug five and soaked all five": the same plants again."""
    before = walk.before
    if before is None:
        return False
    all_ = "MOSTLY" in before.types and before.types["MOSTLY"].value == "all"
    all_ = all_ or before.text.endswith(" all")  # "soaked all five"
    those = walk.made.has("determiner", before.text) and _stands_alone(walk, walk.i + 1)
    upon = those and getattr(walk.at(walk.i - 2), "text", "") in anywhere("upon_plant")
    if upon and any(w.value == walk.piece.value and of_plants_told(walk, n) for n, w in enumerate(walk.out)):
        return True  # "dug 5 .. found 11 white on the five"
    if not all_ or is_any(walk.after, ("COLOUR", "FEMALES")):
        return False
    if len(walk.found) > 1 and walk.piece.value == len(walk.found):
        return True  # "recheck all three in 10 days"
    return any(w.type == "NUMBER" and w.value == walk.piece.value for w in walk.out)


def _stands_alone(walk: Walk, j: int) -> bool:
    """Is nothing behind the number that it could count ("i got 21 but ..")?"""
    after = walk.at(j)
    if after is None or after.kind in ("break", "line"):
        beyond = walk.at(j + 1) if after is not None else None
        return not (is_number(beyond) or is_any(beyond, ("COLOUR", "PLANTS")))
    mostly, little = "MOSTLY" in after.types, after.kind == "word" and linking(after)
    if not (mostly or little):
        return False
    beyond = walk.near(j, 1)
    if mostly and is_any(beyond, ("COLOUR",)):
        return not is_number(walk.at(j + 2))  # "pulled 4 got 9 mostly w"
    more = walk.made.has("then_word", after.text) and is_number(beyond)  # "counted 8 then 2 then 11"
    return little and not is_any(beyond, COUNTED) and not more


def _plants_none(walk: Walk) -> int:
    """ "6 none": a number right before "none" is plants, when nothing else says how many; so is the 10 of "5 of 10"."""
    return _as_plants(walk) if walk.i == walk.of_plants or _before_none(walk) else 0


def _before_none(walk: Walk) -> bool:
    """Does "none" follow, with no plants told before?"""
    few = isinstance(walk.piece.value, int) and 0 < walk.piece.value <= 99 and not walk.piece.plus
    after = walk.after
    if not few or after is None or "NONE" not in after.types or "COLOUR" in after.types:
        return False
    if walk.last_is("NUMBER", "PLANTS", "DUG", "COLOUR", "TOOL", "PH", "POTASSIUM", "SPAN", "TOTAL"):
        return False
    since = next((n for n in range(len(walk.out) - 1, -1, -1) if walk.out[n].type == "FIELD"), 0)
    return not any(word.type in ("PLANTS", "DUG") for word in walk.out[since:])


def _did_so_many(walk: Walk, j: int) -> bool:
    """ "Old Mill: did 5, found ..": plants looked at, where nothing else claims the number."""
    did = walk.at(walk.i - 1)
    if did is None or not walk.made.has("did_plants", did.text):
        return False
    value = walk.piece.value
    free = isinstance(value, int) and 0 < value <= MOST_OF_PLANTS and not claims(walk.ps, j)
    stop = walk.at(j)
    dug = is_any(stop, ("TOOL",)) or (stop is not None and stop.kind == "day")  # "did ten today with the shovel"
    dug = dug and walk.first_name < walk.i  # "did two today with the spade. Kestrel .. Tinkers ..": fields
    return free and (stop is None or dug or stop.kind in ("break", "line") or walk.made.has("at", stop.text))


def _of_something_else(walk: Walk, j: int) -> bool:
    """Aphids 250 per plant: the noun before says what is counted, and it is nothing of ours."""
    before, after = walk.at(walk.i - 1), walk.at(j)
    if before is None:
        return False
    if "MEASURE" in before.types and is_number(walk.direct(walk.i - 1, -1)):
        return False  # "soaked twenty minutes 3 1 0 6 2"
    if walk.made.has("label", before.text):
        return True
    if walk.made.has("heading", before.text):
        return after is None or after.kind in ("break", "line") or after.text == ":"  # "round 2."
    near = walk.near_before if is_any(before, ("ABOUT",)) else before  # "aphids about 50 per plant"
    other = near is not None and near.kind == "word" and near.types.keys() == {"MEASURE"}
    return (other and not claims(walk.ps, j)) or (other and is_any(after, ("EACH", "TOTAL")))


def _is_hour(walk: Walk, before: Piece | None, after: Piece | None) -> bool:
    """ "Salí a las 7", "voltei às 11": a time of day, where nothing behind is counted."""
    if before is None or not isinstance(walk.piece.value, int) or not 0 < walk.piece.value <= 24:
        return False
    behind = [piece.text for piece in walk.ps[walk.i + 1 : walk.i + 4]]
    begins = bool(behind) and walk.made.may_begin("part_of_day", behind[0])
    if begins and any(walk.made.has("part_of_day", " ".join(behind[:size])) for size in (1, 2, 3)):
        return True  # "ya eran las 8 de la noche"
    if _stands_alone(walk, walk.i + 1):
        ahead = [piece.text for piece in walk.ps[max(0, walk.i - 3) : walk.i]]
        if any(walk.made.has("hour_lead", " ".join(ahead[-size:])) for size in (1, 2, 3)):
            return True  # "out there since 7"
    said = walk.draft.text[before.start : before.end].lower()
    # As written and not from the word files, which know no accents: "as" without its accent is only an article.
    at = said in ("às", "a las") or (said == "las" and walk.i > 1 and walk.ps[walk.i - 2].text == "a")
    return at and not is_any(after, COUNTED) and not is_number(after)


def _is_upon_thing(walk: Walk) -> bool:
    """ "94 in the shade", "the 11 on the bag"."""
    behind = [piece.text for piece in walk.ps[walk.i + 1 : walk.i + 4]]
    if not behind or not walk.made.may_begin("upon_thing", behind[0]):
        return False
    return any(walk.made.has("upon_thing", " ".join(behind[:size])) for size in (2, 3))


def _is_population(walk: Walk, after: Piece | None) -> bool:
    """ "Planted 5/6 at 140k", "stand 280 mil": thousands of seeds or plants a hectare or acre."""
    value, before = walk.piece.value, walk.at(walk.i - 1)
    if not isinstance(value, int | float) or value < FEWEST_THOUSANDS:
        return False
    thousand = after is not None and walk.made.has("thousand", after.text)
    glued = after is not None and (after.text == "k" and not after.spaced)
    told = (before is not None and walk.made.has("at", before.text)) or walk.last_is("PLANTED", "DATE")
    return thousand or (glued and told)


def _is_phone(walk: Walk, before: Piece | None, after: Piece | None) -> bool:
    """ "64 99123 4567", "555 0142": numbers in a row, one of them longer than any count, or begun with a zero."""
    if is_number(after) and after is not None and _ZEROED.fullmatch(after.text) and walk.piece.text.isdigit():
        return True
    beside = (walk.at(walk.i - 2), before, after, walk.at(walk.i + 2))
    row = [p for p in beside if p is not None and p.kind in ("number", "range")]
    return bool(row) and any(p.kind == "number" and p.value > MOST_COUNTED for p in (walk.piece, *row))


def _names_something(walk: Walk) -> bool:
    """Numbers that count nothing of ours: $12, 85%, 2nd, 0800."""
    piece = walk.piece
    before, after = walk.at(walk.i - 1), walk.at(walk.i + 1)
    if _is_hour(walk, before, after) or _is_phone(walk, before, after) or _is_population(walk, after):
        return True
    if _is_upon_thing(walk):
        return True
    if before is not None and before.kind == "sign" and before.text in "$€" and before.end == piece.start:
        return True
    if (
        walk.made.has("sold_by", getattr(walk.at(walk.i + 2), "text", ""))
        and after is not None
        and len(after.text) == 1
    ):
        return True  # "soja a 128 a saca"
    if _PRICE.fullmatch(piece.text) and not walk.last_is("PH", "POTASSIUM") and not is_any(after, COUNTED):
        return True  # "bad luck at the elevator, beans 9.80"
    if piece.text.endswith(NTH_ENDS) or (piece.text.startswith("0") and len(piece.text) == 4):
        return True
    if after is not None and after.text == "s" and after.start == piece.end and walk.piece.value in (7, 15, 20, 30, 36):
        return True  # "planted in 30s": rows
    return after is not None and after.kind == "sign" and after.text in "%°'" and after.start == piece.end


def _again_dashed(walk: Walk) -> bool:
    """ "7-7, R1, .. return 7-21": another day written with a dash, in a clause of what has one of its own."""
    begin = next((n for n in range(len(walk.out) - 1, -1, -1) if walk.out[n].lead not in ("", "link")), 0)
    clause = {word.type for word in walk.out[begin:]}
    own = not clause.isdisjoint({"LOOK", "SPRAY", "CHEMICAL", "PLANTED"}) and "DATE" not in clause
    return own and dashes_days(walk, walk.piece) and ends_clause(walk.at(walk.i + 1))


def number_range(walk: Walk) -> int:
    """From one number to another: plants one by one, a span, a day with a dash; which of them is asked about."""
    piece = walk.piece
    low, high = piece.value
    whole = isinstance(high, int) and low == 1 < high <= MOST_OF_PLANTS
    if whole and is_any(walk.at(walk.i - 1), ("PLANTS",)) and not is_any(walk.at(walk.i + 1), COUNTED):
        walk.emit("NUMBER", high, piece.start, piece.end)  # "plantas 1 a 6: 0, 2, 7, 0, 1, 3"
        walk.emit("PLANTS", "plants", piece.end, piece.end)
        walk.lead = "colon"
        return 1
    j = walk.direct_index(walk.i, 1)
    after = walk.at(j)
    shown = walk.draft.text[piece.start : after.end] if after is not None else ""
    if after is not None and after.kind == "word":
        unit = after.types.get("UNIT")
        if unit is not None and "COLOUR" not in after.types and unit.value != "hour":
            return span(walk, low, unit.value, j, shown)
        if "MEASURE" in after.types and not is_any(after, ("COLOUR", "PLANTS")):
            walk.emit("TEXT", None, piece.start, after.end)
            return j - walk.i + 1
        if "NODULES" in after.types:
            return walk.text()
        if is_any(after, COUNTED) and claims(walk.ps, j):
            walk.draft.ask("which_of_range", piece.start, after.end)
            some = low > 0 and is_any(after, ("COLOUR", "FEMALES")) and not is_any(after, ("PLANTS", "ROOTS"))
            walk.emit("POSITIVE" if some else "TEXT", 1 if some else None, piece.start, after.end)
            return j - walk.i + 1
    if (rows := walk.at(walk.i - 1)) is not None and walk.made.has("row_word", rows.text):
        return walk.text()  # "rows 40-46"
    dashed = 1 <= low <= 12 and 1 <= high <= 31 and "-" in walk.draft.text[piece.start : piece.end]
    dashed = dashed and not is_any(walk.before, ("ABOUT",))  # "about 4-5", "4 or 5" are no days
    days = any(w.type == "DATE" for w in walk.out)
    if dashed and not is_any(walk.near_before, COUNTED) and (not days or _again_dashed(walk)):
        walk.slip("dashed_day", "")
        return walk.emit("DATE", DayWritten(piece.text, first=low, second=high), piece.start, piece.end)
    walk.draft.ask("which_of_range", piece.start, piece.end)
    return walk.text()
