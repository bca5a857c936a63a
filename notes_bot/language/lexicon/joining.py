"""Words that are one thing together: "twenty three", "aug 29", "last tue", "v 4", "a week"."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace

from notes_bot.language.lexicon.days import DayWritten
from notes_bot.language.lexicon.pieces import Piece, count_told, number_told, piece_at
from notes_bot.language.lexicon.scan import NTH_ENDS, fold
from notes_bot.language.lexicon.tokens import Slip
from notes_bot.language.lexicon.words import COMMAND_TYPES, Entry, Table, anywhere

NOUNS = frozenset({"COLOUR", "PLANTS", "FEMALES", "TOTAL", "EACH", "DUG", "NODULES", "UNIT", "DAP", "PPM"})
"""Kinds of word a number can belong to."""
_LITTLE = COMMAND_TYPES | {"LINK", "ABOUT", "SPOT", "MEASURE", "BELOW", "TOTAL", "COURTESY", "HAD"}
_TENS = frozenset({20, 30, 40, 50, 60, 70, 80, 90})


LEAST_ACID, MOST_ACID = 3, 10
"""Between these a number behind "pH" may be one (common knowledge, no source)."""


def linking(piece: Piece) -> bool:
    """A little word that carries no meaning of its own here."""
    types = piece.types.keys()
    return bool(types & {"LINK", "ABOUT"}) and not types - _LITTLE


def neighbour(pieces: list[Piece], i: int, step: int) -> Piece | None:
    """The next piece that carries meaning in the same clause, little words and signs left out."""
    j = neighbour_index(pieces, i, step)
    return None if j is None else pieces[j]


def neighbour_index(pieces: list[Piece], i: int, step: int) -> int | None:
    """Where the next piece that carries meaning stands; ``None`` when the clause ends before it."""
    i += step
    while 0 <= i < len(pieces):
        piece = pieces[i]
        if piece.kind == "sign" or (piece.kind == "word" and linking(piece)):
            i += step
            continue
        return None if piece.kind in ("break", "line") else i
    return None


def is_any(piece: Piece | None, kinds: Iterable[str]) -> bool:
    """Can the piece be a word of one of these kinds?"""
    return piece is not None and not piece.types.keys().isdisjoint(kinds)


def phrase_end(piece: Piece) -> str:
    """The last word of a phrase; "" for a single word."""
    return piece.text.partition(" ")[2].rpartition(" ")[2]


def claims(pieces: list[Piece], i: int) -> bool:
    """Does the word at i need the number right before it? "3 dug 6" leaves the 3 free, "3 dug" does not."""
    piece = pieces[i] if i < len(pieces) else None
    if not is_any(piece, NOUNS):
        return False
    after = pieces[i + 1] if i + 1 < len(pieces) else None
    if is_any(piece, ("COLOUR",)) and after is not None and not is_any(after, NOUNS):
        top = after.types.get("TOP")
        return not (
            "BANDS" in after.types or "TOPS" in after.types or (top is not None and top.value in ("patch", "ring"))
        )
    if is_any(piece, ("DUG",)):
        j = neighbour_index(pieces, i, 1)
        if j is not None and pieces[j].kind == "number":
            return claims(pieces, j + 1) and not is_any(pieces[j + 1], ("PLANTS",))
    return True


def stage_words(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "v 4" and "r 2" as stages, unless the number belongs to what stands behind it ("var r 8 plants")."""
    out: list[Piece] = []
    i = 0
    while i < len(pieces):
        piece, after = pieces[i], pieces[i + 1] if i + 1 < len(pieces) else None
        if spoken := _spoken_stage(pieces, i, made):
            text, size = spoken
            kind = "stage" if text else "word"
            entries = () if text else (Entry("LINK", "link"),)
            out.append(
                Piece(kind, text or piece.text, piece.start, pieces[i + size - 1].end, entries, None, piece.spaced)
            )
            i += size
            continue
        if named := _named_stage(pieces, i, made):
            text, size = named
            out.append(Piece("stage", text, piece.start, pieces[i + size - 1].end, (), None, piece.spaced))
            i += size
            continue
        lettered = (
            piece.kind == "word" and piece.text in ("v", "r") and not is_any(out[-1] if out else None, ("VARIETY",))
        )
        if lettered and _dashed_stage(pieces, i):
            out.append(
                Piece("stage", piece.text + pieces[i + 2].text, piece.start, pieces[i + 2].end, (), None, piece.spaced)
            )
            i += 3
            continue
        if leaves := _leaves_out(pieces, i, made):
            out.append(Piece("stage", f"v{leaves}", piece.start, pieces[i + 1].end, (), None, piece.spaced))
            i += 2
            continue
        value = number_told(after)
        numbered = value is not None and 0 < value <= (8 if piece.text == "r" else 20)
        if lettered and numbered and after is not None and value is not None and after.kind == "word":
            out.append(Piece("stage", f"{piece.text}{value}", piece.start, after.end, (), None, piece.spaced))
            i += 2
        elif lettered and numbered and after is not None and not claims(pieces, i + 2):
            out.append(Piece("stage", piece.text + after.text, piece.start, after.end, (), None, piece.spaced))
            i += 2
        elif made.has("one", piece.text) and _one_of(pieces, i):
            out.append(Piece("number", piece.text, piece.start, piece.end, (), 1, piece.spaced))
            i += 1
        else:
            out.append(piece)
            i += 1
    return out


def _dashed_stage(pieces: list[Piece], i: int) -> bool:
    """ "V-8", "R-2": letter, dash and number in one."""
    if i + 2 >= len(pieces) or pieces[i + 1].text != "-" or pieces[i + 1].spaced or pieces[i + 2].spaced:
        return False
    value = number_told(pieces[i + 2])
    return value is not None and pieces[i + 2].kind == "number" and 0 < value <= (8 if pieces[i].text == "r" else 20)


def _leaves_out(pieces: list[Piece], i: int, made: Table) -> int:
    """ "Has four trifoliates", "con tres trifolios abiertos": how many leaves of three are out, 0 for nothing told."""
    if i + 1 >= len(pieces) or not made.has("trifoliate", pieces[i + 1].text):
        return 0
    value = number_told(pieces[i])
    before, behind = pieces[i - 1] if i else None, pieces[i + 2] if i + 2 < len(pieces) else None
    led = before is None or before.kind in ("break", "line", "number") or made.has("with_leaves", before.text)
    out = behind is None or behind.kind in ("break", "line") or made.has("leaves_out", behind.text)
    return int(value) if led and out and value is not None and 0 < value <= 20 else 0


def _one_of(pieces: list[Piece], i: int) -> bool:
    """Is "a" one: "a week", "a white apiece", "a yellow on each"?"""
    if i + 1 < len(pieces) and "UNIT" in pieces[i + 1].types and "NUMBER_WORD" not in pieces[i].types:
        return True
    colour = pieces[i + 1] if i + 1 < len(pieces) else None
    each = pieces[i + 2] if i + 2 < len(pieces) else None
    female = each is not None and is_any(each, ("FEMALES",)) and i + 3 < len(pieces)
    each = pieces[i + 3] if female else each
    return is_any(colour, ("COLOUR",)) and is_any(each, ("EACH",))


def _named_stage(pieces: list[Piece], i: int, made: Table) -> tuple[str, int] | None:
    """ "beginning bloom" is R1, "third trifoliate" V3: the stage and how many pieces tell it."""
    piece, after = pieces[i], pieces[i + 1] if i + 1 < len(pieces) else None
    named = piece.types.get("STAGE_NAME")
    if named is not None:
        return named.value.lower(), 1
    if after is None or not made.has("leaf_stage", after.text):
        return None
    nth = piece.kind == "number" and piece.text.endswith(NTH_ENDS)
    word = piece.types.get("ORDINAL") or piece.types.get("NTH")
    value = int(word.value) if word is not None else piece.value if nth else 0
    return (f"v{value}", 2) if 0 < value <= 20 else None


def _spoken_stage(pieces: list[Piece], i: int, made: Table) -> tuple[str, int] | None:
    """ "erre cuatro", "vê cinco", "vê cê" as dictated, and how many pieces; "" where "ve" is only a word ("se ve")."""
    piece, after = pieces[i], pieces[i + 1] if i + 1 < len(pieces) else None
    if piece.kind not in ("word", "stage"):
        return None
    letter = next((letter for letter in "vr" if made.has("says_" + letter, piece.text)), None)
    if letter is None:
        return None
    before = pieces[i - 1] if i else None
    value = number_told(after)
    if isinstance(value, int):
        return (f"{letter}{value}", 2) if 0 < value <= (8 if letter == "r" else 20) else None
    if letter == "v" and after is not None and made.has("says_c", after.text):
        return "vc", 2
    return ("", 1) if piece.kind == "stage" and before is not None and made.has("before_see", before.text) else None


def place_words(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "pozo 1", "cova dois", "ponto B": a numbered place, unless the number counts what stands behind it."""
    pieces = _lettered(pieces) if made.language == "en" else pieces
    out: list[Piece] = []
    i = 0
    while i < len(pieces):
        piece, after = pieces[i], pieces[i + 1] if i + 1 < len(pieces) else None
        if piece.kind != "word" or after is None or not made.has("numbered_spot", piece.text):
            out.append(piece)
            i += 1
            continue
        j = i + 2 if _numbers_spot(after) and i + 2 < len(pieces) else i + 1
        mark = pieces[j]
        most = 9999 if made.has("plot_word", piece.text) else 30
        numbered = (mark.kind == "number" and isinstance(mark.value, int) and 0 < mark.value <= most) or (
            "NUMBER_WORD" in mark.types or (mark.kind == "word" and mark.text in ("a", "b", "c", "d"))
        )
        colon = j + 1 < len(pieces) and pieces[j + 1].text in (":", ",", "=", "-", "(", ".")
        if out and "ORDINAL" in out[-1].types and not colon:
            numbered = False  # "at the first stop 4 white"
        if numbered and (colon or not claims(pieces, j + 1)):
            text = f"{piece.text} {mark.text}"
            spot = (Entry("SPOT", text),)
            out.append(Piece("word", text, piece.start, mark.end, spot, "numbered", piece.spaced))
            i = j + 1
        else:
            out.append(piece)
            i += 1
    return out


_MAY_NAME_PLACE = frozenset({"SPOT", "TEXT", "MEASURE", "TOPIC", "FIELD_WORD"})
"""What a word may mean besides that can stand before "end" or "side" in the name of a place."""


def ends_and_sides(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "At the creek end", "East rep .. West rep ..": a word before a word for a part of a field names the place.

    Behind a word that leads to a place, or where two such places begin sentences or lines.
    """
    found = [n for n in range(len(pieces) - 1) if _names_part(pieces[n], pieces[n + 1], made)]
    heads = [n for n in found if n == 0 or pieces[n - 1].kind in ("break", "line") or "FIELD" in pieces[n - 1].types]
    leads = anywhere("place_lead") | anywhere("name_article")
    led = {n for n in found if " " in pieces[n].text or (n and phrase_end(pieces[n - 1]) in leads)}
    led |= set(heads) if len(heads) > 1 else set()
    out: list[Piece] = []
    for n, piece in enumerate(pieces):
        if n - 1 in led:
            continue
        if n in led:
            end = pieces[n + 1]
            text = f"{piece.text} {end.text}"
            out.append(Piece("word", text, piece.start, end.end, (Entry("SPOT", text),), None, piece.spaced))
        else:
            out.append(piece)
    return out


def bearings(pieces: list[Piece], made: Table, fields: tuple[str, ...]) -> list[Piece]:
    """ "Aguapé. Norte: 5 pl 3 bl. Sur: 5 pl 11 bl": two directions that head counts are places of the field before.

    Not where the name of a field of the crew begins with one ("North Forty").
    """
    words = anywhere("bearing")
    heads = [n for n, piece in enumerate(pieces) if piece.text in words and _heads_counts(pieces, n, made)]
    told = {pieces[n].text for n in heads}
    if len(told) < 2 or not any(_may_be_named(piece) for piece in pieces[: heads[0]]):
        return pieces
    if told & {fold(word) for name in fields for word in name.split()[:1]}:
        return pieces
    out = list(pieces)
    for n in heads:
        piece = pieces[n]
        spot = (Entry("SPOT", piece.text),)
        out[n] = Piece("word", piece.text, piece.start, piece.end, spot, None, piece.spaced)
    return out


def _heads_counts(pieces: list[Piece], n: int, made: Table) -> bool:
    """Does a clause begin there, with a number or none right behind the word, a colon between or not?"""
    before = pieces[n - 1] if n else None
    starts = before is not None and (
        before.kind in ("break", "line") or before.text == ":" or made.has("and_then", before.text)
    )
    starts = starts or is_any(before, ("FIELD",))
    k = n + 1
    while k < len(pieces) and (pieces[k].text in (":", "-", "=") or is_any(pieces[k], ("DUG", "TOOL"))):
        k += 1
    behind = pieces[k] if k < len(pieces) else None
    return starts and (number_like(behind) or is_any(behind, ("NONE",)))


def _may_be_named(piece: Piece) -> bool:
    """May the word be a field's name, or a word for one?"""
    return piece.kind == "word" and (not piece.entries or is_any(piece, ("FIELD", "FIELD_WORD")))


def _names_part(piece: Piece, head: Piece, made: Table) -> bool:
    """Can these two words name a part of a field?"""
    words = piece.text.split(" ")
    plain = piece.kind == "word" and len(piece.text) > 2
    plain = plain and (piece.types.keys() <= _MAY_NAME_PLACE if len(words) == 1 else piece.types.keys() == {"SPOT"})
    little = any(made.has(trait, words[-1]) for trait in ("determiner", "no_part", "name_article"))
    return plain and not little and made.has("place_head", head.text) and not head.types.keys() & {"FIELD"}


def _numbers_spot(piece: Piece) -> bool:
    """Does it say that the number of a place follows ("stop # 3", "ponto no 2")?"""
    return piece.text == "#" or piece.text in anywhere("spot_numbering")


def _lettered(pieces: list[Piece]) -> list[Piece]:
    """ "A: 2 0 1 0 B: 0 0 0 3": letters in order, each with a colon and a count behind it, are places."""
    found: list[int] = []
    for i in range(len(pieces) - 2):
        letter = pieces[i].kind == "word" and pieces[i].text == "abcdef"[min(len(found), 5)]
        if letter and pieces[i + 1].text == ":" and (pieces[i + 2].kind == "number" or "NONE" in pieces[i + 2].types):
            found.append(i)
    if len(found) < 2:
        return pieces
    out = list(pieces)
    for i in found:
        piece = pieces[i]
        spot = (Entry("SPOT", piece.text),)
        out[i] = Piece("word", piece.text, piece.start, piece.end, spot, "numbered", piece.spaced)
    return out


def planted_days(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Sch 40 VC, pl 5/14": a short word for plants, no number before it and a day behind, is a planting day."""
    if any(piece.kind == "range" for piece in pieces):
        pieces = [_dashed_day(pieces, n, made) for n in range(len(pieces))]
    out = list(pieces)
    for n, piece in enumerate(pieces[:-1]):
        if pieces[n + 1].kind != "day" or not made.has("planted_short", piece.text):
            continue
        before = pieces[n - 1] if n else None
        if before is None or before.kind in ("break", "line", "sign") or is_any(before, ("FIELD",)):
            out[n] = Piece("word", piece.text, piece.start, piece.end, _PLANTED, None, piece.spaced)
    return out


def _dashed_day(pieces: list[Piece], n: int, made: Table) -> Piece:
    """ "Planted 05-14", "fecha 30-06", "next look 7-22": a day, where a zero or the word before it says so."""
    piece, before = pieces[n], pieces[n - 1] if n else None
    behind = pieces[n + 1] if n + 1 < len(pieces) else None
    if piece.kind != "range" or not _DASHED.fullmatch(piece.text) or is_any(behind, ("UNIT", "MEASURE")):
        return piece  # "recheck 10-14 days"
    low, high = piece.value
    told = before is not None and (is_any(before, ("PLANTED",)) or made.has("day_label", before.text))
    fits = isinstance(low, int) and isinstance(high, int) and min(low, high) <= 12 and max(low, high) <= 31
    if not fits or low < 1 or not (told or "0" in (piece.text[0], piece.text.partition("-")[2][0])):
        return piece
    return Piece("day", piece.text, piece.start, piece.end, (), DayWritten(piece.text, first=low, second=high))


_DASHED = re.compile(r"\d{1,2}-\d{1,2}")
_PLANTED = (Entry("PLANTED", "planted"),)


def staged_beans(pieces: list[Piece]) -> list[Piece]:
    """ "four tan beans at R3": the crop whose stage is told begins a clause of its own, and is no plants of a color.

    So does the crop behind several colors said to be mostly there ("mostly yellow and tan plants look stunted").
    """
    out: list[Piece] = []
    for n, piece in enumerate(pieces):
        if "PLANTS" not in piece.types:
            out.append(piece)
            continue
        stage = next((p for p in pieces[n + 1 : n + 4] if "LINK" not in p.types), None)
        counted = n > 1 and "COLOUR" in pieces[n - 1].types and number_like(pieces[n - 2])
        staged = counted and stage is not None and stage.kind == "stage"
        shades = (
            n > 3 and "COLOUR" in pieces[n - 1].types and linking(pieces[n - 2]) and "COLOUR" in pieces[n - 3].types
        )
        described = shades and "MOSTLY" in pieces[n - 4].types and is_any(stage, ("TOP",))
        if staged or described:
            out.append(Piece("break", "", piece.start, piece.start, (), "soft"))
        out.append(piece)
    return out


_DESCRIBED = frozenset({"ROOTS", "NODULES", "TOPS"})
_LABELS = ("PLANTED", "LOOK", "ENTRY", "SOURCE")
_DESCRIBES = frozenset(
    {"ROOT", "NODULE", "TOP", "COLOUR", "GREEN", "EDGES", "VEINS", "NEW", "OLD", "BANDS", "MOSTLY", "LINK"}
)


def labelled(pieces: list[Piece]) -> list[Piece]:
    """ "Roots: dark, stubby": what stands behind a label and its colon is said of it, comma or not."""
    out: list[Piece] = []
    i = 0
    while i < len(pieces):
        piece = pieces[i]
        out.append(piece)
        i += 1
        if i == len(pieces) or pieces[i].text not in (":", "="):
            continue
        after = pieces[i]
        if "LOOK" in piece.types and after.text == "=" and _tells_time(pieces, i + 1):
            i += 1  # "none, agn=2wk"
            continue
        before = out[-2] if len(out) > 1 else None
        starts = before is None or before.kind in ("break", "line") or is_any(before, ("FIELD",))
        if starts and is_any(piece, _LABELS):
            i += 1  # "Planted: May 12"
            continue
        if not (starts and is_any(piece, _DESCRIBED)):
            continue
        i += 1
        while i < len(pieces) and (is_any(pieces[i], _DESCRIBES) or pieces[i].text == ","):
            behind = pieces[i + 1] if i + 1 < len(pieces) else None
            if pieces[i].text == "," and not is_any(behind, _DESCRIBES):
                break
            if pieces[i].text != ",":
                out.append(pieces[i])
            i += 1
    return out


def _tells_time(pieces: list[Piece], i: int) -> bool:
    """Does a day or a span of days stand there?"""
    piece = pieces[i] if i < len(pieces) else None
    if piece is None or piece.kind != "number":
        return piece is not None and (piece.kind == "day" or is_any(piece, ("WEEKDAY", "TODAY")))
    return is_any(pieces[i + 1] if i + 1 < len(pieces) else None, ("UNIT",))


# --- number words -----------------------------------------------------------------------------------


def spoken_lists(pieces: list[Piece]) -> list[Piece]:
    """ "One, four, none, two": words for numbers in a list, and the one for none among them, as numbers."""
    out = _bare_list(list(pieces))
    i = 0
    while i < len(out):
        items: list[int] = []
        j = i
        while j < len(out) and _listed_value(out[j]) is not None:
            items.append(j)
            if j + 1 < len(out) and out[j + 1].text != ",":
                break
            j += 2 if j + 2 < len(out) and "LINK" not in out[j + 2].types else 3
        behind = out[items[-1] + 1] if items and items[-1] + 1 < len(out) else None
        inner = [k for k in items[1:-1] if "NONE" in out[k].types]
        counts = len(items) - len(inner)
        if inner and counts > (2 if claims(out, items[-1] + 1) else 1) and not is_any(behind, ("PLANTS",)):
            for k in items:
                piece = out[k]
                out[k] = Piece("number", piece.text, piece.start, piece.end, (), _listed_value(piece), piece.spaced)
        i = items[-1] + 1 if items else i + 1
    return out


def _bare_list(out: list[Piece]) -> list[Piece]:
    """ "5 plants none none 3 none 2": behind a number of plants as many counts, with nothing between them."""
    for n in range(1, len(out)):
        dug = _listed_value(out[n - 1]) if is_any(out[n], ("PLANTS",)) else None
        if not dug or not 2 < dug <= MOST_LISTED or n + dug >= len(out):
            continue
        row = range(n + 1, n + 1 + dug)
        values = [_listed_value(out[k]) for k in row]
        behind = out[row[-1] + 1] if row[-1] + 1 < len(out) else None
        ends = behind is None or behind.kind in ("break", "line") or is_any(behind, ("COLOUR",))
        if None in values or not ends or not any("NONE" in out[k].types for k in row):
            continue
        for k, value in zip(row, values, strict=True):
            out[k] = Piece("number", str(value), out[k].start, out[k].end, (), value, out[k].spaced)
    return out


MOST_LISTED = 20
"""Plants told one by one in words (judgement)."""


def _listed_value(piece: Piece) -> int | None:
    """What an item of a spoken list counts."""
    if piece.kind == "number":
        return int(piece.value) if isinstance(piece.value, int) else None
    if "NUMBER_WORD" in piece.types:
        return int(piece.types["NUMBER_WORD"].value)
    return 0 if "NONE" in piece.types else None


def number_words(pieces: list[Piece], made: Table) -> list[Piece]:
    """Number words as numbers, where they stand as numbers."""
    if any(made.has("couple", p.text) for p in pieces):
        pieces = [_couple(pieces, i, made) for i in range(len(pieces))]
    if any(made.has("one_of", p.text) for p in pieces):
        pieces = [_single(pieces, i, made) for i in range(len(pieces))]
    pieces = _between(pieces, made)
    if not any("NUMBER_WORD" in p.types for p in pieces):
        return pieces
    out: list[Piece] = []
    i = 0
    while i < len(pieces):
        piece = pieces[i]
        if "NUMBER_WORD" not in piece.types or not _numeric(pieces, i, made):
            out.append(piece)
            i += 1
            continue
        value, last = _compose(pieces, i)
        tenths = number_told(pieces[last + 2]) if last + 2 < len(pieces) else None
        if (
            tenths is not None
            and pieces[last + 1].text in anywhere("decimal_point") | anywhere("decimal_comma")
            and tenths < 10
        ):
            last += 2
            spoken = Piece("number", f"{value}.{tenths}", piece.start, pieces[last].end, (), value + tenths / 10)
            out.append(spoken)
            i = last + 1
            continue
        if days := _spoken_range(pieces, i, last, value):
            out.append(days[0])
            i = days[1]
            continue
        either = last + 2 < len(pieces) and pieces[last + 1].text in anywhere("or_word")
        if either and "NUMBER_WORD" in pieces[last + 2].types:
            high, end = _compose(pieces, last + 2)
            if high > value:  # "one or two yellow"
                text = f"{piece.text}-{pieces[end].text}"
                out.append(Piece("range", text, piece.start, pieces[end].end, (), (value, high), piece.spaced))
                i = end + 1
                continue
        text = piece.text if last == i else f"{piece.text} {pieces[last].text}"
        out.append(Piece("number", text, piece.start, pieces[last].end, (), value, piece.spaced))
        i = last + 1
    return out


_AND_SIGNS = frozenset("&+-")


def _between(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Between 10 and 14 days", "entre 15 y 20 blancas": two numbers of days, plants or females, as a range."""
    for n in range(len(pieces) - 4):
        if not made.has("between", pieces[n].text):
            continue
        low, joint, high, unit = pieces[n + 1 : n + 5]
        joined = made.has("and_word", joint.text) or joint.text in _AND_SIGNS
        if not (joined and is_any(unit, ("UNIT", "COLOUR", "FEMALES", "PLANTS"))):
            continue
        first, last = _listed_value(low), _listed_value(high)
        if first and last and first < last:
            made_range = Piece("range", f"{first}-{last}", low.start, high.end, (), (first, last), low.spaced)
            return [*pieces[:n], made_range, *pieces[n + 4 :]]
    return pieces


def _spoken_range(pieces: list[Piece], i: int, last: int, value: int) -> tuple[Piece, int] | None:
    """ "Dez a catorze dias": a range of days in words, and where what follows it begins."""
    if last + 3 >= len(pieces) or pieces[last + 1].text not in anywhere("up_to") | anywhere("or_word"):
        return None
    if "NUMBER_WORD" not in pieces[last + 2].types:
        return None
    high, end = _compose(pieces, last + 2)
    if high <= value or end + 1 >= len(pieces) or "UNIT" not in pieces[end + 1].types:
        return None
    first = pieces[i]
    return Piece("range", f"{value}-{high}", first.start, pieces[end].end, (), (value, high), first.spaced), end + 1


def _single(pieces: list[Piece], i: int, made: Table) -> Piece:
    """ "Three yellow and a tan", "a white and two yellow": an article before a color beside another count is one."""
    piece = pieces[i]
    if i + 1 == len(pieces) or not made.has("one_of", piece.text):
        return piece
    if not is_any(pieces[i + 1], ("COLOUR",)) or len(pieces[i + 1].text) < 3:
        return piece
    if not (_counted_shade_before(pieces, i, made) or _counted_shade_behind(pieces, i + 2, made)):
        return piece
    return Piece("number", piece.text, piece.start, piece.end, (), 1, piece.spaced)


def _counted_shade_before(pieces: list[Piece], i: int, made: Table) -> bool:
    """ "Three yellow (ones) and": does a count with its color end right before, a joint between?"""
    k = i - 1
    while k > 0 and k > i - LONGEST_JOINT and (linking(pieces[k]) or made.has("joins_counts", pieces[k].text)):
        k -= 1
    if k == i - 1:
        return False
    k -= is_any(pieces[k], ("FEMALES",)) or made.has("noun_one", pieces[k].text)
    k -= k > 0 and is_any(pieces[k], ("COLOUR",)) and is_any(pieces[k - 1], ("COLOUR",))
    number = k - 1 - (k > 1 and linking(pieces[k - 1]))  # "una docena de blancas"
    return number >= 0 and is_any(pieces[k], ("COLOUR",)) and number_told(pieces[number]) is not None


def _counted_shade_behind(pieces: list[Piece], k: int, made: Table) -> bool:
    """ "(A white) and two yellow": does a count with its color begin right behind, a joint between?"""
    k += k < len(pieces) and (is_any(pieces[k], ("FEMALES",)) or made.has("noun_one", pieces[k].text))
    joint = k
    while k < len(pieces) and k < joint + LONGEST_JOINT and made.has("joins_counts", pieces[k].text):
        k += 1
    shade = pieces[k + 1] if joint < k < len(pieces) - 1 else None
    return is_any(shade, ("COLOUR",)) and (number_told(pieces[k]) is not None or made.has("one_of", pieces[k].text))


LONGEST_JOINT = 4
"""Pieces between two counts: ", along with" (judgement)."""


def _couple(pieces: list[Piece], i: int, made: Table) -> Piece:
    """ "A couple of weeks", "a dozen white and a couple yellow", "pulled a couple plants": two of them."""
    piece = pieces[i]
    if not made.has("couple", piece.text):
        return piece
    behind = pieces[i + 1] if i + 1 < len(pieces) else None
    shade = is_any(behind, ("COLOUR",))
    two = is_any(behind, ("UNIT",)) or (shade and _counted_shade_before(pieces, i, made))
    if not (two or (shade and _counted_shade_behind(pieces, i + 2, made)) or _couple_dug(pieces, i)):
        return piece
    return Piece("number", piece.text, piece.start, piece.end, (), 2, piece.spaced)


def _couple_dug(pieces: list[Piece], i: int) -> bool:
    """ "Pulled a couple plants", "a couple of plants with the spade", "dug me a couple": are they what was dug?"""
    k = i + 1 + (i + 1 < len(pieces) and is_any(pieces[i + 1], ("PLANTS",)))
    behind = pieces[k] if k < len(pieces) else None
    ends = behind is None or behind.kind in ("break", "line") or linking(behind)
    before = neighbour(pieces, i, -1)
    if is_any(before, ("DUG",)) and (ends or is_any(behind, ("TOOL", "DUG", "SOAKED"))):
        return k > i + 1 or not (behind is not None and linking(behind))
    begins = before is None or is_any(before, ("FIELD",))
    dug = behind.text == "," if behind is not None else False
    told = pieces[k + 1] if dug and k + 1 < len(pieces) else behind
    return k > i + 1 and begins and is_any(told, ("DUG", "TOOL"))


def _compose(pieces: list[Piece], i: int) -> tuple[int, int]:
    """The value of the number words from i on, and the last piece used: twenty three, one hundred and twelve."""
    value = int(pieces[i].types["NUMBER_WORD"].value)
    last = i
    while True:
        j = last + 1
        joined = j + 1 < len(pieces) and (pieces[j].text == "-" or pieces[j].text in anywhere("and_word"))
        if joined:
            j += 1
        more = pieces[j].types.get("NUMBER_WORD") if j < len(pieces) else None
        if more is None:
            return value, last
        unit = int(more.value)
        if unit == 100 and 1 <= value <= 99 and not joined:
            value *= 100
        elif (  # "treinta y cinco" is one number, "thirty and five" are two
            (value in _TENS and 1 <= unit <= 9 and not (joined and pieces[last + 1].text == "and"))
            or (value >= 100 and value % 100 == 0 and unit < 100)
            or (value > 100 and value % 100 in _TENS and 1 <= unit <= 9)
        ):
            value += unit
        else:
            return value, last
        last = j


def in_figures(piece: Piece) -> Piece:
    """A number told as a word as a number; a number or a range as it is."""
    word = piece.types.get("NUMBER_WORD")
    if word is None:
        return piece
    return Piece("number", piece.text, piece.start, piece.end, (), int(word.value))


def number_like(piece: Piece | None) -> bool:
    return piece is not None and (piece.kind in ("number", "range") or "NUMBER_WORD" in piece.types)


def _between_numbers(pieces: list[Piece], i: int) -> bool:
    """An item of a list with commas: a number and a comma before it, a comma or "and" and a number behind it."""
    if not 1 < i < len(pieces) - 2 or pieces[i - 1].text != "," or not number_like(pieces[i - 2]):
        return False
    joint = pieces[i + 1]
    return (joint.text == "," or joint.text in anywhere("and_word")) and number_like(pieces[i + 2])


def _numeric(pieces: list[Piece], i: int, made: Table) -> bool:
    """Does this number word count something here? "one" and its sisters need a noun or digits beside them."""
    if i and pieces[i - 1].kind == "mark":
        return True  # "la primera tres, la segunda una"
    before, after = neighbour(pieces, i, -1), neighbour(pieces, i, 1)
    words = [p.text for p in pieces[i + 1 : i + 3]]
    if i > 1 and pieces[i - 1].text == "," and made.has("counted", pieces[i - 2].text):
        return True  # "she counted, eight she says"
    if _between_numbers(pieces, i):
        return True  # "two, zero, seven, one and five"
    if words and words[0] in anywhere("decimal_point") and number_like(pieces[i + 2] if i + 2 < len(pieces) else None):
        return True  # "seven point nine"
    if words and words[0] in anywhere("or_word") and number_like(pieces[i + 2] if i + 2 < len(pieces) else None):
        return True  # "una o dos amarillas"
    if pieces[i].types["NUMBER_WORD"].value == "100" and _compose(pieces, i)[1] > i:
        return True  # "a hundred and fifty two acres"
    share = pieces[i + 2 : i + 4] if words[:1] == ["of"] else []
    if share and any(number_like(p) for p in share[: 1 + (made.has("determiner", share[0].text))]):
        return True  # "seven of the ten"
    if words[:1] == ["of"] and made.has("them", words[-1]) and len(words) > 1:
        k = i + 3 + (i + 3 < len(pieces) and pieces[i + 3].text == ",")
        if is_any(pieces[k] if k < len(pieces) else None, ("DUG", "HAD")):
            return True  # "five of those, dug", "two of them had females"
    if _of_a_shape(pieces, i, made) or _pointed_at(pieces, i, made):
        return False
    if made.has("careful", pieces[i].text):
        sized = neighbour_index(pieces, i, 1)
        if sized is not None and made.has("size", pieces[sized].text) and sized + 1 < len(pieces):
            after = pieces[sized + 1]  # "one lone white female"
        more = pieces[i + 1 : i + 3]
        if len(more) > 1 and all(number_like(piece) for piece in more):
            return True  # "one zero four"
        if i > 1 and pieces[i - 1].text == "," and number_like(pieces[i - 2]):
            closes = [p.text for p in pieces[i + 1 : i + 2]]
            listed = i + 2 < len(pieces) and number_like(pieces[i + 2])
            if not closes or closes[0] == "." or (closes[0] == "," and listed):
                return True  # "zero, two, one, zero"
        slash = pieces[i + 2] if i + 2 < len(pieces) else None
        letter = (
            after is not None and len(after.text) == 1 and slash is not None and slash.text == "/"
        )  # "the one w/ .."
        if letter:
            return False
        if made.language != "en" and is_any(after, ("MONTH",)):
            return True  # "el uno de julio"
        if is_any(after, ("COLOUR", "PLANTS", "FEMALES", "UNIT")) or is_any(before, ("DUG", "COLOUR", "PLANTS")):
            return True
        return number_like(before) or (after is not None and after.kind == "number")
    had = pieces[i + 1] if i + 1 < len(pieces) else None
    if is_any(had, ("HAD",)) and any(number_like(p) for p in pieces[i + 2 : i + 4]):
        return True  # "três tinham duas brancas cada"
    counted = NOUNS | {"NONE", "ACRES", "MONTH", "SPOT", "CHECK"}
    if is_any(after, counted) or is_any(before, NOUNS - {"EACH", "UNIT"} | {"MONTH"}):
        return True
    begins = i == 0 or pieces[i - 1].kind in ("break", "line") or is_any(pieces[i - 1], ("FIELD",))
    begins = begins or pieces[i - 1].text in (":", "-")
    if begins and is_any(had, ("TOOL",)):
        return True  # "hice La Loma, seis con pala"
    did = i > 0 and made.has("did_plants", pieces[i - 1].text) and is_any(had, ("TOOL", "TODAY"))
    if did and any(is_any(piece, ("FIELD",)) for piece in pieces[:i]):
        return True  # "(Kestrel:) did ten today with the shovel"
    if is_any(before, ("NOT",)) and after is None:
        return True  # "four yellow, not three"
    if is_any(before, ("TOOL",)) and after is None and i and pieces[i - 1] is before:
        return True  # "no shovel so I just pulled four."
    if number_like(before) or number_like(after):
        return True
    behind = pieces[i + 2] if i + 2 < len(pieces) else None
    if (
        after is not None
        and not after.types
        and is_any(behind, ("COLOUR", "FEMALES"))
        and len(getattr(behind, "text", "")) > 2
    ):
        return True  # "seven wide females": a number, and a question
    on = pieces[i - 1] if i else None
    if on is not None and "NOT" in on.types and (after is None or after.kind in ("break", "line")):
        return True  # "it was four, not three"
    if after is None and on is not None and made.has("over", on.text) and is_any(before, ("NONE", "FEMALES")):
        return True  # "not a single female on eight"
    row = pieces[i + 1 : i + 5]
    commas = [p.text for p in row[::2]]
    if len(row) > 3 and commas == [",", ","] and all(number_like(p) for p in row[1::2]):
        return True  # "the low end had forty, fifty, thirty .."
    if i and after is None and pieces[i].types["NUMBER_WORD"].value == "0" and is_any(pieces[i - 1], ("FIELD", "SPOT")):
        return True  # "sanga 6 brancas, buritizal zero", "3 pés no alto zero"
    alone = before is None and after is None
    return alone and int(pieces[i].types["NUMBER_WORD"].value) < 40


def _pointed_at(pieces: list[Piece], i: int, made: Table) -> bool:
    """ "Come back to this one in a week": a field, or whatever is pointed at; not in "that one was white"."""
    pointed = i > 0 and made.has("points_here", pieces[i - 1].text) and made.has("noun_one", pieces[i].text)
    behind = neighbour(pieces, i, 1) if pointed else None
    return pointed and not is_any(behind, ("COLOUR", "PLANTS", "FEMALES"))


def _of_a_shape(pieces: list[Piece], i: int, made: Table) -> bool:
    """ "Yellow in one big patch": an article before a patch or ring and the words for its size, and no plants."""
    if not made.has("careful", pieces[i].text):
        return False
    noun = piece_at(pieces, i + 1)
    if i and made.has("compares", pieces[i - 1].text) and noun is not None and noun.kind == "word" and not noun.types:
        return True  # "manchón como una cancha de tenis"
    for piece in pieces[i + 1 : i + 4]:
        top = piece.types.get("TOP")
        if top is not None and top.value in ("patch", "ring"):
            return True
        if not (made.has("size", piece.text) or "NODULE" in piece.types or (piece.kind == "word" and not piece.types)):
            return False
    return False


def until_days(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Push it til thursday", "hasta el lunes": free text or a farewell in a note, and in what is asked the day."""
    out: list[Piece] = []
    for piece in pieces:
        said = piece.types.keys() in ({"TEXT"}, {"COURTESY"})
        entries = made.singles.get(piece.text.split(" ")[-1], ()) if said else ()
        day = tuple(entry for entry in entries if entry.type == "WEEKDAY")
        start = piece.end - len(piece.text.split(" ")[-1])
        out.append(Piece("word", piece.text[start - piece.end :], start, piece.end, day) if day else piece)
    return out


def near_days(pieces: list[Piece], made: Table, names: frozenset[str] = frozenset()) -> list[Slip]:
    """ "2 weaks", "auguat 14", "yesterfay": a misspelt day or unit, where nothing else is possible; never a number."""
    from rapidfuzz.distance import OSA

    slips: list[Slip] = []
    for i, piece in enumerate(pieces):
        if piece.kind != "word" or piece.entries or len(piece.text) < 4 or not piece.text.isalpha():
            continue
        if piece.text in made.plain or piece.text in names:
            continue
        before, after = pieces[i - 1] if i else None, pieces[i + 1] if i + 1 < len(pieces) else None
        kinds = {"TODAY", "WEEKDAY"} if len(piece.text) > 5 else set()
        if len(piece.text) == 5 and any(sorted(word) == sorted(piece.text) for word in _timely(made, 5)):
            kinds = {"TODAY", "WEEKDAY"}  # "toady"
        if len(piece.text) > 5 and (day_number(before) or day_number(after)):
            kinds.add("MONTH")
        if before is not None and before.kind == "number" and not is_any(after, ("COLOUR", "FEMALES")):
            timed = i > 1 and (is_any(pieces[i - 2], ("LOOK", "ENTRY")) or made.has("span_lead", pieces[i - 2].text))
            kinds.update(("UNIT",) if timed or after is None or after.text == "ago" else ())
        near = {
            entry: word
            for word in _timely(made, len(piece.text))
            if OSA.distance(piece.text, word, score_cutoff=1) == 1
            for entry in made.singles[word]
            if entry.type in kinds
        }
        if len(near) == 1:
            entry, word = near.popitem()
            pieces[i] = Piece("word", word, piece.start, piece.end, (entry,), None, piece.spaced)
            slips.append(Slip("near_word", word, piece.start, piece.end))
    return slips


def _timely(made: Table, size: int) -> list[str]:
    """Words for days and spans nearly as long as that."""
    return [word for n in (size - 1, size, size + 1) for word in made.timely.get(n, ())]


LABEL_APART = 7
"""Pieces between a label and its number: "the pH on that one is 7.8" (judgement)."""


def acidity_apart(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "The pH on that one is 7.8": the number a few words behind its label, and a word for being before it."""
    out = pieces
    for n, piece in enumerate(pieces):
        if not piece.types.keys() & {"PH", "POTASSIUM"}:
            continue
        for k in range(n + 2, min(n + LABEL_APART, len(out))):
            number = out[k]
            if number.kind == "number":
                acid = "PH" in piece.types and made.has("is_word", out[k - 1].text) and 3 < number.value < 10
                salt = "POTASSIUM" in piece.types and k + 1 < len(out) and "PPM" in out[k + 1].types
                out = [*out[: n + 1], *out[k:]] if acid or salt else out
            if number.kind != "word":
                break
    return out


def acidity_tenths(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "PH siete coma nueve", "pH 7,5": behind its label a number with a comma and a tenth is one."""
    del made
    for n, piece in enumerate(pieces[:-2]):
        if "PH" not in piece.types:
            continue
        at = n + 1 + (pieces[n + 1].text in (":", "=") or linking(pieces[n + 1]))
        for size in (2, 3):
            acid = _acidity_of(pieces[at : at + size]) if at + size <= len(pieces) else None
            if acid is not None and not claims(pieces, at + size):
                first, last = pieces[at], pieces[at + size - 1]
                number = Piece("number", f"{acid}", first.start, last.end, (), acid, first.spaced)
                return [*pieces[:at], number, *pieces[at + size :]]
    return pieces


def _acidity_of(said: list[Piece]) -> float | None:
    """ "7,5" cut in two, "siete, nueve" as dictated: the whole number and the tenths as one; ``None`` for no such."""
    whole, tenth = number_told(said[0]), number_told(said[-1])
    if not (isinstance(whole, int) and isinstance(tenth, int) and LEAST_ACID < whole < MOST_ACID and tenth < 10):
        return None
    cut = len(said) == 2 and said[0].text == said[1].text == f"{whole},{tenth}"
    spoken = len(said) == 3 and said[1].text in anywhere("decimal_comma") | anywhere("decimal_point") | {","}
    spoken = spoken and not (said[0].text + said[2].text).isdigit()
    return float(f"{whole}.{tenth}") if cut or spoken else None


def plants_at_places(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "2 plantas por ponto em 4 pontos": so many in all."""
    for i in range(len(pieces) - 3):
        number, plants, per, unit = pieces[i : i + 4]
        each = made.has("per_place", per.text) and made.has("place_unit", unit.text)
        if not (day_number(number) and is_any(plants, ("PLANTS",)) and each):
            continue
        near = range(i + 4, min(i + 7, len(pieces) - 1))
        at = next((k for k in near if day_number(pieces[k]) and made.has("place_unit", pieces[k + 1].text)), None)
        if at is None:
            return pieces
        value = number.value * pieces[at].value
        whole = Piece("number", str(value), number.start, number.end, (), value, number.spaced)
        used = {at, at + 1, i + 2, i + 3}
        return [whole if k == i else p for k, p in enumerate(pieces) if k not in used]
    return pieces


# --- days -------------------------------------------------------------------------------------------


WEEK_LEAD = 4
"""Pieces before "the end of next week" in which looking again is spoken of (judgement)."""
WEEK_TAIL = 2
"""Pieces behind it in which that is when it heads a clause, "end of the week check kestrel again" (judgement)."""


def day_words(pieces: list[Piece], made: Table) -> list[Piece]:
    """Month names with their number, weekdays, today and yesterday as days."""
    pieces = _ordinals(pieces)
    out: list[Piece] = []
    i = 0
    while i < len(pieces):
        piece = pieces[i]
        used = 0
        if "MONTH" in piece.types and not _weekday_rather(pieces, i, made):
            used = _month(pieces, i, out, made)
        counted = "COLOUR" in piece.types and bool(out) and out[-1].kind == "number"  # "2 mar": brown ones
        counted = counted or ("FIELD" in piece.types and _names_a_field(pieces, i))
        if not used and not counted and "WEEKDAY" in piece.types and _weekday_stands(pieces, i, out, made):
            used = _weekday(pieces, i, out, made)
        if not used and "TODAY" in piece.types:
            day = DayWritten(piece.text, days_ago=int(piece.types["TODAY"].value))
            out.append(Piece("day", piece.text, piece.start, piece.end, (), day, piece.spaced))
            used = 1
        if not used and "WEEK_PART" in piece.types and _of_looking(pieces, i, out):
            weeks, weekday = piece.types["WEEK_PART"].value.split(":")
            day = DayWritten(piece.text, weekday=int(weekday), weeks=int(weeks))
            out.append(Piece("day", piece.text, piece.start, piece.end, (), day, piece.spaced))
            used = 1
        if not used and (dated := _of_month(pieces, i, out, made)) is not None:
            out.append(Piece("day", dated.text, piece.start, pieces[i + 2].end, (), dated, piece.spaced))
            used = 3
        if not used and _behind_article(pieces, i):
            day = DayWritten(piece.text, day=piece.value)
            out.append(Piece("day", piece.text, piece.start, piece.end, (), day, piece.spaced))
            used = 1
        if not used and (number := _nth(pieces, i)) is not None:
            used = 1 if piece is number else 2
            if out and out[-1].text == "the":
                out.pop()
            day = DayWritten(f"{piece.text}", day=number.value)
            out.append(Piece("day", piece.text, piece.start, number.end, (), day, piece.spaced))
        if not used:
            out.append(piece)
            used = 1
        i += used
    return out


def _names_a_field(pieces: list[Piece], i: int) -> bool:
    """A field called "Domingo", at the head of its line: the only field told of, or with a day of its own."""
    if i and pieces[i - 1].kind != "line":
        return False
    others = [n for n, piece in enumerate(pieces) if n != i and is_any(piece, ("FIELD",))]
    end = next((n for n in range(i + 1, len(pieces)) if pieces[n].kind == "line"), len(pieces))
    dated = any("WEEKDAY" in p.types or "TODAY" in p.types or p.kind == "day" for p in pieces[i + 1 : end])
    return not others or dated or (i + 1 < len(pieces) and pieces[i + 1].text == ":")


def _weekday_rather(pieces: list[Piece], i: int, made: Table) -> bool:
    """ "Mar 7 plantas": where a word may be a weekday as well, a number behind it that counts plants is no day's."""
    counted = i + 1 < len(pieces) and pieces[i + 1].kind == "number" and claims(pieces, i + 2)
    before = i > 0 and pieces[i - 1].kind == "number"
    return made.language != "en" and "WEEKDAY" in pieces[i].types and counted and not before


def _of_month(pieces: list[Piece], i: int, out: list[Piece], made: Table) -> DayWritten | None:
    """ "Dia 3 do 10", "el 3 del 10": a day with its month as a number, behind what leads to a day."""
    led = bool(out) and any(made.has(lead, out[-1].text) for lead in ("day_lead", "nth_lead"))
    if led and made.has("of_this_month", " ".join(piece.text for piece in pieces[i + 1 : i + 3])):
        count = count_told(pieces[i])
        if count is not None and 0 < count <= LAST_OF_MONTH:
            return DayWritten(pieces[i].text, day=count)  # "no dia sete deste mês"
    if not led or i + 2 >= len(pieces) or not made.has("of_month", pieces[i + 1].text) or claims(pieces, i + 3):
        return None
    day, month = pieces[i], pieces[i + 2]
    if (
        day.kind != "number"
        or month.kind != "number"
        or not 0 < day.value <= LAST_OF_MONTH
        or not 0 < month.value <= 12
    ):
        return None
    return DayWritten(f"{day.text}/{month.text}", day=day.value, month=month.value)


LAST_OF_MONTH = 31
"""Days of the longest month."""


def _of_looking(pieces: list[Piece], i: int, out: list[Piece]) -> bool:
    """Is looking again spoken of before a part of a week, or right behind it where it heads a clause?"""
    heads = not out or out[-1].kind in ("break", "line")
    near = out[-WEEK_LEAD:] + (pieces[i + 1 : i + 1 + WEEK_TAIL] if heads else [])
    return any(is_any(piece, ("LOOK", "MOVE")) for piece in near)


MOST_TOOLS = 4
"""Pieces between "again" and its day, "with the spade" (judgement)."""
_WITH_TOOL = ("TOOL", "DUG", "SOAKED", "LINK")


def next_looks(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Try Mon", "again w spade mon": a word for trying before a day tells the next look, and its tool."""
    out: list[Piece] = []
    i = 0
    while i < len(pieces):
        piece = pieces[i]
        if "LOOK" in piece.types and (end := _tool_before_day(pieces, i + 1)):
            piece = Piece("word", piece.text, piece.start, pieces[end - 1].end, _LOOK, None, piece.spaced)
            i = end - 1
        elif made.has("tries", piece.text) and _comes(pieces, i + 1) and not (out and "NOT" in out[-1].types):
            piece = Piece("word", piece.text, piece.start, piece.end, _LOOK, None, piece.spaced)
        out.append(piece)
        i += 1
    return out


_LOOK = (Entry("LOOK", "look"),)


def _comes(pieces: list[Piece], i: int) -> bool:
    """Does a day stand there that is not told as past?"""
    return i < len(pieces) and pieces[i].kind == "day" and not pieces[i].value.days_ago


def _tool_before_day(pieces: list[Piece], i: int) -> int:
    """Where the day behind "w spade" begins; 0 when no tool, or no day, stands there."""
    k, tool = i, False
    while k < len(pieces) and k - i < MOST_TOOLS:
        piece = pieces[k]
        if piece.kind == "day":
            return k if tool and piece.value.weekday is not None else 0
        tool = tool or is_any(piece, ("TOOL",))
        if not (is_any(piece, _WITH_TOOL) or piece.kind == "sign" or piece.text in anywhere("with_letter")):
            return 0
        k += 1
    return 0


def days_told_once(pieces: list[Piece]) -> list[Piece]:
    """ "Fri 8/7", "martes, 14 de julio", "dia 5/9": a weekday, or the word for day, before a date is no second day."""
    out: list[Piece] = []
    for piece in pieces:
        before = out[-1] if out else None
        if before is not None and before.text == "," and len(out) > 1:
            before = out[-2]
        dated = piece.kind == "day" and piece.value.weekday is None and piece.value.days_ago is None
        if dated and before is not None and before.kind == "day" and before.value.weekday is not None:
            del out[out.index(before) :]
            value = replace(piece.value, named=before.value.weekday)
            piece = Piece("day", piece.text, before.start, piece.end, (), value, before.spaced)
        elif dated and before is not None and before.text in anywhere("day_lead") and _of_calendar(piece):
            del out[out.index(before) :]  # "volto lá dia 5 de setembro", "próxima olhada dia 20/7"
            piece = Piece("day", piece.text, before.start, piece.end, (), piece.value, before.spaced)
        out.append(piece)
    return out


def _of_calendar(piece: Piece) -> bool:
    """Is it a day of a month, as "5 de setembro" or "20/7"?"""
    return piece.value.month is not None or piece.value.first is not None


def _ordinals(pieces: list[Piece]) -> list[Piece]:
    """ "June twelfth", "the sixth of May", "Monday the twentieth": ordinals beside a month or a weekday are numbers."""
    if not any("ORDINAL" in piece.types for piece in pieces):
        return pieces
    out = []
    skip = False
    for i, piece in enumerate(pieces):
        if skip:
            skip = False
            continue
        value = int(piece.types["ORDINAL"].value) if "ORDINAL" in piece.types else 0
        after = pieces[i + 1].types.get("ORDINAL") if i + 1 < len(pieces) else None
        end = piece.end
        tens = piece.types.get("NUMBER_WORD")
        if tens is not None and after is not None and int(tens.value) in (20, 30) and int(after.value) < 10:
            value, end, skip = int(tens.value) + int(after.value), pieces[i + 1].end, True
        near = [_beside_ordinal(pieces, i, -1), _beside_ordinal(pieces, i + skip, 1)]
        dated = any(is_any(other, ("MONTH", "WEEKDAY")) for other in near)
        if value and (dated or (value > MOST_ORDERED and _led_day(pieces, i))):
            out.append(Piece("number", f"{value}th", piece.start, end, (), value, piece.spaced))
        else:
            skip = False
            out.append(piece)
    return out


MOST_ORDERED = 10
"""Up to the tenth an ordinal may be a plant's or a row's (judgement)."""


def _led_day(pieces: list[Piece], i: int) -> bool:
    """ "On the sixteenth", "it's the sixteenth": behind its article, and what leads to a day."""
    article, lead = pieces[i - 1] if i else None, pieces[i - 2] if i > 1 else None
    if article is None or lead is None or article.text not in anywhere("nth_before"):
        return False
    return lead.text in anywhere("on_day") or lead.text in anywhere("day_is")


def _beside_ordinal(pieces: list[Piece], i: int, step: int) -> Piece | None:
    """The piece before or behind, "of" and "the" left out."""
    i += step
    while 0 <= i < len(pieces) and _links_ordinal(pieces[i]):
        i += step
    return pieces[i] if 0 <= i < len(pieces) else None


def _links_ordinal(piece: Piece) -> bool:
    return piece.text == "," or piece.text in anywhere("of_word") or piece.text in anywhere("nth_before")


def _behind_article(pieces: list[Piece], i: int) -> bool:
    """ "Vuelvo el 30", "retorno dia 30": the number of a day behind a phrase for it that ends in an article."""
    before = pieces[i - 1] if i else None
    if not day_number(pieces[i]) or before is None or phrase_end(before) not in anywhere("nth_lead"):
        return False
    led = is_any(before, ("LOOK", "MOVE", "PLANTED"))
    behind = pieces[i + 1] if i + 1 < len(pieces) else None
    month = is_any(behind, ("MONTH",)) or (behind is not None and behind.text in anywhere("of_date"))
    return led and not month and not claims(pieces, i + 1)


def _nth(pieces: list[Piece], i: int) -> Piece | None:
    """ "the 13th", "día 13": the number of a day without its month, where nothing else claims it."""
    piece, after = pieces[i], pieces[i + 1] if i + 1 < len(pieces) else None
    if piece.text in anywhere("nth_lead") and day_number(after) and not claims(pieces, i + 2):
        behind = pieces[i + 2] if i + 2 < len(pieces) else None
        plain = (
            behind is None
            or behind.kind != "word"
            or bool(behind.types.keys() & {"NONE", "TOOL", "DUG", "MOISTURE", "NOT_LOOKED"})
            or (i > 0 and is_any(pieces[i - 1], ("FIELD",)) and bool(behind.types) and not linking(behind))
            or behind.text in anywhere("before_stage")
            or (i > 0 and is_any(pieces[i - 1], ("WEEKDAY",)))  # "na segunda dia 27 passo de novo"
        )  # "baixada dia 6 reboleira amarela"
        return after if plain and not is_any(pieces[i], ("FIELD",)) else None
    if not piece.text.endswith(NTH_ENDS) or not day_number(piece):
        return None
    before = pieces[i - 1] if i else None
    led = (
        before is None
        or before.kind in ("break", "line")
        or before.text in anywhere("nth_before")
        or "FIELD" in before.types
    )
    lead = pieces[i - 2].text if i > 1 else ""
    dated = led and before is not None and lead in anywhere("on_day") | anywhere("day_is")  # "on the 17th and .."
    noun = after is not None and (not after.types or bool(after.types.keys() & (NOUNS | {"SPOT", "FIELD_WORD"})))
    month = is_any(after, ("MONTH",)) or (
        after is not None and after.text in anywhere("of_date") | anywhere("of_word") | anywhere("nth_of")
    )
    named = i > 2 and is_any(pieces[i - 3], ("FIELD",))  # "old mill on the 6th beans are V6; .."
    weekday = (
        before is not None and before.text in anywhere("nth_before") and i > 1 and is_any(pieces[i - 2], ("WEEKDAY",))
    )
    if (dated and (named or not noun) and not month) or (weekday and not is_any(after, tuple(NOUNS))):
        return piece  # "monday the 27th for the next check"
    other = (
        after is not None
        and after.kind == "word"
        and not is_any(after, ("DUG", "NONE", "TOOL", "LOOK", "MOISTURE", "NOT_LOOKED"))
        and after.text not in anywhere("nth_behind")
    )
    first = after is not None and after.text in anywhere("nth_of")  # "1st look: 0 on 5"
    first = first or (number_like(after) and i + 2 < len(pieces) and is_any(pieces[i + 2], ("PLANTS",)))  # "1st 3 pl"
    return piece if led and not other and not first else None


def day_number(piece: Piece | None) -> bool:
    return (
        piece is not None
        and piece.kind == "number"
        and isinstance(piece.value, int)
        and 1 <= piece.value <= 31
        and not piece.plus
    )


def _month(pieces: list[Piece], i: int, out: list[Piece], made: Table) -> int:
    """A month name with the number before or behind it; how many pieces were used, 0 for none."""
    k = i + 1
    while k < len(pieces) and (pieces[k].text in (".", "-", "/") or made.has("behind_month", pieces[k].text)):
        k += 1
    after = pieces[k] if k < len(pieces) else None
    back = len(out)
    while back and _leads_month(out[back - 1], made):
        back -= 1
    before = out[back - 1] if back else None
    first, last = day_number(before), day_number(after)
    if "COLOUR" in pieces[i].types and first and before is not None:
        counted = back > 1 and is_any(out[back - 2], ("COLOUR",))
        if counted or not pieces[i].spaced:
            return 0  # "5am 20mar": females
    if first and last and before is not None:
        first = _number_first(pieces, k, out, back, made)
        last = not first
    if first and before is not None:
        del out[back - 1 :]
        return _add_month(pieces, i, out, before, i) - i
    if last and after is not None:
        return _add_month(pieces, i, out, after, k) - i
    return 0


def _leads_month(piece: Piece, made: Table) -> bool:
    """Does it join a day to the month behind it ("12 de", "3rd of", "5 d")?"""
    short = piece.text == "d" and made.language != "en"
    return piece.text in ("-", "/") or piece.text in anywhere("of_word") or short


def _number_first(pieces: list[Piece], k: int, out: list[Piece], back: int, made: Table) -> bool:
    """For "12 june 6": is the day the number before the month? The other number must belong to something else."""
    before = out[back - 1]
    if before.text.endswith(NTH_ENDS):
        return True
    earlier = out[back - 2] if back > 1 else None
    taken = is_any(earlier, ("DUG", "COLOUR", "PLANTS", "PH", "POTASSIUM"))
    j = neighbour_index(pieces, k, 1)
    if j is not None and (claims(pieces, j) or is_any(pieces[j], ("MEASURE",))):
        return True
    return not taken and made.language != "en"


def _add_month(pieces: list[Piece], i: int, out: list[Piece], number: Piece, last: int) -> int:
    """Append the day; the index of the next piece to read."""
    month = int(pieces[i].types["MONTH"].value)
    end = max(pieces[last].end, number.end)
    following = last + 1
    year = None
    j = following
    while j < len(pieces) and (pieces[j].text in (",", ".") or pieces[j].text in anywhere("of_date")):
        j += 1
    if (
        j < len(pieces)
        and pieces[j].kind == "number"
        and isinstance(pieces[j].value, int)
        and 2000 <= pieces[j].value <= 2099
    ):
        year, end, following = pieces[j].value, pieces[j].end, j + 1
    day = DayWritten(f"{number.text} {pieces[i].text}", day=number.value, month=month, year=year)
    start = min(pieces[i].start, number.start)
    out.append(Piece("day", day.text, start, end, (), day, True))
    return following


def _weekday(pieces: list[Piece], i: int, out: list[Piece], made: Table) -> int:
    piece = pieces[i]
    after = pieces[i + 1] if i + 1 < len(pieces) else None
    start, which, used = piece.start, "", 1
    led = bool(out) and (made.has("nth_article", out[-1].text) or made.has("at", out[-1].text))
    sprayed = _sprayed(out)
    if out and "WHICH" in out[-1].types:
        which, start, led = out[-1].types["WHICH"].value, out[-1].start, True
        out.pop()
    elif after is not None and "WHICH" in after.types:
        which, used = after.types["WHICH"].value, 2
    if day_number(after) and (_ends_day(pieces, i + 2) or _told_on(pieces, i + 2, led, sprayed, made)):
        number = pieces[i + 1]  # "martes 18."
        weekday = int(piece.types["WEEKDAY"].value)
        day = DayWritten(f"{piece.text} {number.text}", day=number.value, named=weekday)
        out.append(Piece("day", day.text, start, number.end, (), day, piece.spaced))
        return 2
    weekday = int(piece.types["WEEKDAY"].value)
    day = DayWritten(piece.text, weekday=weekday, next=which == "next", gone=which == "last")
    out.append(Piece("day", piece.text, start, pieces[i + used - 1].end, (), day, piece.spaced))
    return used


def _sprayed(before: list[Piece]) -> bool:
    """ "Sprayed on (Thursday 5) with ..": does a word for spraying lead to the day?"""
    n = len(before) - 1
    while n > 0 and linking(before[n]):
        n -= 1
    return is_any(piece_at(before, n), ("SPRAY", "CHEMICAL"))


def _ends_day(pieces: list[Piece], i: int) -> bool:
    """Does a day end before the piece at i, so that the number behind a weekday counts nothing?"""
    piece = pieces[i] if i < len(pieces) else None
    return piece is None or piece.kind in ("break", "line", "stage") or piece.text in (":", ")")


def _told_on(pieces: list[Piece], i: int, led: bool, sprayed: bool, made: Table) -> bool:
    """ "El jueves 5 recorrí ..", "on Friday 6 we ..": does a number end there, behind which is told what was done?

    "El viernes 6 saqué 5 plantas": what has a number of its own needs none before it; "sprayed Friday 6 with herbicide"
    is told before.
    """
    piece = piece_at(pieces, i)
    if piece is None or claims(pieces, i):
        return False
    if made.has("told_on", piece.text.split(" ")[0]) or is_any(piece, ("SPRAY",)):
        return True
    if sprayed:
        return is_any(piece_at(pieces, i + (piece.text in anywhere("with_word"))), ("CHEMICAL",))
    own = number_like(piece_at(pieces, i + 1)) and is_any(piece_at(pieces, i + 2), ("PLANTS",))
    return led and own and is_any(piece, ("DUG",))


def _list_behind(pieces: list[Piece], i: int) -> bool:
    """ "Kestrel sat (dry silt loam) dug 3": what a note lists goes on there, and not "the field sat wet for days"."""
    first, second = piece_at(pieces, i), piece_at(pieces, i + 1)
    if is_any(first, ("TOOL", "SOAKED", "TEXTURE", "NOT_LOOKED", "TOPS")):
        return True
    if not is_any(first, ("MOISTURE",)) or first is None:
        return False
    listed = is_any(second, ("TEXTURE", "DUG", "TOOL", "PLANTS")) or number_like(second)
    dry = first.types["MOISTURE"].value != "wet"
    return listed or (dry and (second is None or second.kind in ("break", "line", "stage")))


def _weekday_stands(pieces: list[Piece], i: int, out: list[Piece], made: Table) -> bool:
    """Is this really a weekday? Short ones (sun, sat, ter) are also other words and need a place where a day stands."""
    word = pieces[i].text
    before = out[-1] if out else None
    after = pieces[i + 1] if i + 1 < len(pieces) else None
    if after is not None and made.has("timid_weekday", word) and made.has("behind_must", after.text):
        return False  # "vamos ter que voltar"
    if is_any(before, ("WHICH", "LOOK", "MOVE", "SPRAY", "CHEMICAL", "PLANTED")) or is_any(after, ("WHICH",)):
        return True
    unknown_follows = after is not None and after.kind == "word" and not after.entries
    unknown_follows = unknown_follows and not (after is not None and made.has("visit_noun", after.text))  # "fri visit"
    unknown_follows = unknown_follows and not made.has("visit_verb", after.text if after is not None else "")
    ordinal = made.language == "pt" and not word.endswith("feira") and not made.has("plain_weekday", word)
    if len(word) >= 5 and not (ordinal and unknown_follows):
        return True
    starts = before is None or before.kind in ("break", "line") or made.has("at", before.text)
    named = before is not None and ((before.kind == "word" and not before.entries) or "FIELD" in before.types)
    numbered = before is not None and before.kind == "number" and len(out) > 1 and not out[-2].entries
    if numbered and out[-2].kind == "word" and after is not None and after.kind == "stage":
        return True  # "Blacktop 40 fri V6"
    told = after is None or after.kind in ("break", "line", "stage", "number") or is_any(after, ("PLANTS", "DUG"))
    told = told or (after is not None and after.text in (":", "-", "."))
    looked = before is not None and made.has("visit_verb", before.text)  # "Looked Fri: 5 pl 0"
    if (looked or is_any(before, ("FIELD",))) and (told or _list_behind(pieces, i + 1)):
        return True
    if made.has("timid_weekday", word):
        if (
            named
            and after is not None
            and (after.kind in ("stage", "break") or after.text == ":" or is_any(after, ("DUG",)))
        ):
            return True  # "baixda ter R1"
        return starts and not unknown_follows and not (after is not None and linking(after))
    last = after is None or after.kind in ("break", "line") or after.text == "."
    return (starts or named or last) and not unknown_follows
