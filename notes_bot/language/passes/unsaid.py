"""Words left unsaid: a number that counts plants or females though the word for them is not said again.

"On the west side four plants had 15 white, on the east side four had 7": the second four are plants. "6 plants, 27 on
the roots", "41 (w+y)": females. Such numbers get the word they go without, so that all that follows reads them as told.
"""

from __future__ import annotations

import itertools
import re

from notes_bot.language.lexicon.joining import NOUNS, claims, day_number, in_figures, is_any, linking, number_like
from notes_bot.language.lexicon.pieces import Piece, count_told, ends_clause, number_told, piece_at, put_aside
from notes_bot.language.lexicon.words import Entry, Table, anywhere

_FEMALE = (Entry("FEMALES", "female"),)
_PLANT = (Entry("PLANTS", "plants"),)
_TOLD = (Entry("TEXT", "text"),)


def females_told(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "41 (w+y)", "6 plants, 27 on the roots": numbers that count females, though the word for them is left out."""
    out: list[Piece] = []
    plants = False
    skip = -1
    for n, piece in enumerate(pieces):
        if n <= skip:
            continue
        if "FEMALES" in piece.types and _shaded_each(pieces, n):
            continue  # "deu duas fêmeas brancas em cada uma"
        out.append(piece)
        plants = plants or "PLANTS" in piece.types
        if piece.kind != "number" or (n and "DUG" in pieces[n - 1].types):
            continue
        if n > 2 and (_of_all_these(pieces, n, made) or _roots_of(pieces, n, made)):
            out.append(Piece("word", "", piece.end, piece.end, _PLANT))
            continue
        roots = _on_roots(pieces, n + 1, made) if plants else 0
        bracketed = _shades_in_brackets(pieces, n + 1) or _sum_in_brackets(pieces, n)
        if roots or bracketed or _given(pieces, n, made) or _found(pieces, n, made):
            out.append(Piece("word", "", piece.end, piece.end, _FEMALE))
            skip = max(skip, roots)
    return out


def _shaded_each(pieces: list[Piece], n: int) -> bool:
    """ "(Two females) white in each": behind a number, and before a color and a word for each plant."""
    counted = 0 < n < len(pieces) - 2 and number_like(pieces[n - 1])
    return counted and "COLOUR" in pieces[n + 1].types and "EACH" in pieces[n + 2].types


def _roots_of(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "Washed the roots of 5 in a bucket": is a number of plants told by whose roots they were?"""
    behind = pieces[n + 1] if n + 1 < len(pieces) else None
    ends = behind is None or behind.kind in ("break", "line") or is_any(behind, ("SOAKED", "LINK"))
    ends = ends and (behind is None or behind.text not in anywhere("and_word"))
    if not ends or not linking(pieces[n - 1]) or pieces[n - 1].text not in anywhere("roots_of"):
        return False
    before = pieces[max(0, n - LITTLE_WORDS - 2) : n - 1]
    noun = made.singles.get(before[-1].text.split(" ")[-1], ())  # also of "washed roots" in one
    return any(is_any(p, ("SOAKED",)) for p in before) and any(entry.type == "ROOTS" for entry in noun)


def counted_of_each(pieces: list[Piece]) -> list[Piece]:
    """ "Kestrel 0, Sumac 3, Tannery 14 females": what the last of several fields had, the others had as well."""
    meant: set[int] = set()
    for n in range(2, len(pieces)):
        if is_any(pieces[n], ("FEMALES",)) and _of_field(pieces, n - 1):
            k = n - 1
            while k > 3 and ends_clause(pieces[k - 2]) and _of_field(pieces, k - 3):
                k -= 3
                meant.add(k)
    out: list[Piece] = []
    for n, piece in enumerate(pieces):
        out += [piece, Piece("word", "", piece.end, piece.end, _FEMALE)] if n in meant else [piece]
    return out


def _of_field(pieces: list[Piece], n: int) -> bool:
    """Is it a number right behind a known name?"""
    return n > 0 and pieces[n].kind == "number" and "FIELD" in pieces[n - 1].types


def _given(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "Six plants gave me (19)", "6 plantas dieron (12)": what plants gave, at the end of a clause."""
    if not ends_clause(piece_at(pieces, n + 1)):
        return False
    k = n - 1
    k -= k > 0 and made.has("to_us", pieces[k].text)
    return k > 0 and made.has("gave", pieces[k].text) and is_any(pieces[k - 1], ("PLANTS",))


def _found(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "Dug 6, (15) found, dry", "6 plantas, (4) encontradas": a number found, between two stops."""
    if not n or n + 1 >= len(pieces) or not made.has("found_behind", pieces[n + 1].text):
        return False
    beyond = piece_at(pieces, n + 2)
    begins = ends_clause(pieces[n - 1]) or is_any(pieces[n - 1], ("PLANTS",))
    return begins and (ends_clause(beyond) or is_any(beyond, ("ALL", "MOSTLY", "COLOUR")))


def none_of_dug(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "5 pl none dug": behind plants that were counted it is none seen, and how; elsewhere that nobody dug."""
    out: list[Piece] = []
    for n, piece in enumerate(pieces):
        words = piece.text.split(" ") if is_any(piece, ("NOT_LOOKED",)) else []
        kinds = [{e.type: e for e in made.singles.get(word, ())} for word in words]
        if len(kinds) == 2 and "NONE" in kinds[0] and "DUG" in kinds[1] and _otherwise_dug(pieces, n, kinds[1]["DUG"]):
            out.append(Piece("aside", "", piece.start, piece.end))
            continue
        behind = n - 1 - (n > 0 and pieces[n - 1].text == ",")
        counted = behind > 0 and is_any(pieces[behind], ("PLANTS",)) and pieces[behind - 1].kind == "number"
        if len(kinds) != 2 or not counted or "NONE" not in kinds[0] or "DUG" not in kinds[1]:
            out.append(piece)
            continue
        middle = piece.start + len(words[0])
        out.append(Piece("word", words[0], piece.start, middle, (kinds[0]["NONE"],), None, piece.spaced))
        out.append(Piece("word", words[1], piece.end - len(words[1]), piece.end, (kinds[1]["DUG"],), None, spaced=True))
    return out


def _otherwise_dug(pieces: list[Piece], n: int, denied: Entry) -> bool:
    """ "Everything was dug with a shovel, none pulled": another way is told in the sentence."""
    first, last = n, n + 1
    while first and not _sentence_ends(pieces[first - 1]):
        first -= 1
    while last < len(pieces) and not _sentence_ends(pieces[last]):
        last += 1
    told = [*pieces[first:n], *pieces[n + 1 : last]]
    if any(is_any(piece, ("NOT", "NOT_LOOKED", "NEAR")) or "FIELD" in piece.types for piece in told):
        return False
    used = (entry for piece in told for kind, entry in piece.types.items() if kind in ("DUG", "TOOL"))
    return any(entry.value not in (denied.value, "any") for entry in used)


def _sentence_ends(piece: Piece) -> bool:
    return piece.kind == "line" or (piece.kind == "break" and piece.value == "hard")


LEAST_LETTERS = 3
"""Letters for colors in a row, and no word for a mixture beside them, from which they are shades (judgement)."""


def shades_in_letters(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "W y t mix", "mostly w y t": letters for colors one behind the other, no number among them, as "w + y + t"."""
    letters = [len(piece.text) == 1 and "COLOUR" in piece.types for piece in pieces]
    if not any(first and second for first, second in itertools.pairwise(letters)):
        return pieces
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        end = n
        while end < len(pieces) and letters[end]:
            end += 1
        run = pieces[n:end]
        shades = {piece.types["COLOUR"].value for piece in run}
        before, after = (pieces[k] if 0 <= k < len(pieces) else None for k in (n - 1, end))
        mixed = [piece is not None and made.has("mix_word", piece.text) for piece in (before, after)]
        least = 2 if any(mixed) or is_any(before, ("MOSTLY",)) else LEAST_LETTERS
        counted = any(piece is not None and piece.kind == "number" for piece in (before, after))
        if len(run) < least or len(shades) < len(run) or (counted and not any(mixed)) or run[0].value == "tied":
            out += run or [pieces[n]]
            n = max(end, n + 1)
            continue
        if mixed[0]:
            out.pop()
        if before is not None and before.kind == "number":
            listed = n > 1 and (pieces[n - 2].kind == "number" or pieces[n - 2].text == ",")
            mostly = Piece("word", "", before.end, before.end, (Entry("MOSTLY", "mostly"),))
            out += [] if listed else [Piece("word", "", before.end, before.end, _FEMALE)]
            out.append(mostly)  # "12 w y mix", "3 0 1 w y mix"
        for piece in run:
            only = tuple(entry for entry in piece.entries if entry.type == "COLOUR")
            out += [Piece("sign", "+", piece.start, piece.start)] if piece is not run[0] else []
            out.append(Piece("word", piece.text, piece.start, piece.end, only, None, piece.spaced))
        n = end + mixed[1]
    return out


def ends_in_zero(pieces: list[Piece]) -> list[Piece]:
    """ "1, 0, 4, 2, 0 hembras": the last plant of a list had none, and not all of them."""
    out = list(pieces)
    for n in range(len(pieces) - 1, 3, -1):
        piece = pieces[n]
        joint, number, comma, other = pieces[n - 1], pieces[n - 2], pieces[n - 3], pieces[n - 4]
        listed = joint.text == "," or joint.text in anywhere("and_word")
        listed = listed and number_like(number) and comma.text == "," and number_like(other)
        if listed and is_any(piece, ("NONE",)) and piece.text.startswith("0 "):
            out[n] = Piece("number", "0", piece.start, piece.end, (), 0, piece.spaced)
    return out


def none_twice(pieces: list[Piece]) -> list[Piece]:
    """ "Clean, zero.", "nothing on the roots, zero, though ..", "none, nada, not one": none in several ways is none."""
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        end = _nones_end(pieces, n) if is_any(pieces[n], ("NONE",)) else n
        out.append(pieces[n])
        n = max(n + 1, end)
    return out


def _nones_end(pieces: list[Piece], n: int) -> int:
    """Where other words for none, each behind a comma, end behind the first at n; n if there are none, or a list."""
    if n > 1 and pieces[n - 1].text == "," and (number_like(pieces[n - 2]) or is_any(pieces[n - 2], ("NONE",))):
        return n
    told, end = {pieces[n].text}, n + 1
    while end + 1 < len(pieces) and pieces[end].value == "soft" and _means_none(pieces[end + 1]):
        if pieces[end + 1].text in told:
            return n
        told.add(pieces[end + 1].text)
        end += 2
    behind = pieces[end] if end < len(pieces) else None
    beyond = pieces[end + 1] if end + 1 < len(pieces) else None
    listed = behind is not None and behind.value == "soft" and beyond is not None and number_like(beyond)
    ends = behind is None or behind.kind in ("break", "line")
    return end if len(told) > 1 and ends and not listed else n


def _means_none(piece: Piece) -> bool:
    """None, or the number for it."""
    return is_any(piece, ("NONE",)) or number_told(piece) == 0


def ends_of_lists(pieces: list[Piece]) -> list[Piece]:
    """ "Three, one, four and no females" on four plants: the last of them had none."""
    told = {count_told(p) for p, q in itertools.pairwise(pieces) if count_told(p) and is_any(q, ("PLANTS",))}
    told |= {count_told(q) for p, q in itertools.pairwise(pieces) if count_told(q) and is_any(p, ("DUG",))}
    for n in range(2, len(pieces)):
        piece = pieces[n]
        if not is_any(piece, ("NONE",)) or pieces[n - 1].text not in anywhere("and_word"):
            continue
        first = n - 1
        first -= pieces[first - 1].text == ","
        size = 0
        while first > 0 and count_told(pieces[first - 1]) is not None:
            size, first = size + 1, first - 1
            if first < 2 or pieces[first - 1].text != ",":
                break
            first -= 1
        if size > 1 and size + 1 in told:
            return [*pieces[:n], Piece("number", "0", piece.start, piece.end, (), 0, piece.spaced), *pieces[n + 1 :]]
    return pieces


def plants_by_quantity(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Qty 5, 3 white", "site 1: qty 8 dug": a quantity of which no noun is told is one of plants."""
    out: list[Piece] = []
    for n, piece in enumerate(pieces):
        before, number, behind = (piece_at(pieces, k) for k in (n - 1, n + 1, n + 2))
        begins = before is None or before.kind in ("break", "line", "sign") or is_any(before, ("FIELD", "SPOT"))
        counts = number is not None and count_told(number) is not None and not is_any(behind, NOUNS - {"DUG"})
        if begins and counts and number is not None and made.has("quantity", piece.text):
            out.append(Piece("word", piece.text, piece.start, piece.end, _PLANT, None, piece.spaced))
        else:
            out.append(piece)
    return out


def plants_in_brackets(pieces: list[Piece]) -> list[Piece]:
    """ "Per plant (7, washed): 2, 0, 5, ..", "n 10": a number that tells of how many plants a list or a count is."""
    for n, piece in enumerate(pieces[:-2]):
        number, behind = pieces[n + 1 : n + 3]
        whole = count_told(number)
        if not whole or piece.text not in ("(", "n"):
            continue
        each = n > 0 and piece.text == "(" and is_any(pieces[n - 1], ("EACH",)) and behind.text in (",", ")")
        begins = n == 0 or pieces[n - 1].kind in ("break", "line", "sign")
        other = any(p.text in _OTHER_SIDES and number_like(q) for p, q in itertools.pairwise(pieces))  # "n 5, s 5"
        sized = (
            piece.text == "n"
            and begins
            and not other
            and (behind.kind in ("break", "line") or behind.text in ("-", ":"))
        )
        told = any(is_any(q, ("PLANTS",)) and number_like(p) for p, q in itertools.pairwise(pieces))
        lists = sum(number_like(p) for p in pieces[n + 2 : n + 3 * whole + 4])
        if (each and lists >= whole) or (sized and not told and lists):
            start = n if sized else n + 1
            plants = Piece("word", "", number.end, number.end, _PLANT)
            return [*pieces[:start], in_figures(number), plants, *pieces[n + 2 :]]
    return pieces


def plants_behind_places(pieces: list[Piece]) -> list[Piece]:
    """ "Gate (5): 8 white. Hill (5): none": the numbers in brackets right behind two places or more are their plants.

    No such where they are the places' own numbers, "Spot (1) .. Spot (2)".
    """
    placed = [n for n in range(1, len(pieces) - 3) if _sized_place(pieces, n)]
    sizes = [count_told(pieces[n + 1]) for n in placed]
    if len(placed) < LEAST_SIZED or sizes == list(range(1, len(placed) + 1)):
        return pieces
    out: list[Piece] = []
    at = 0
    for n in placed:
        number = pieces[n + 1]
        out += [*pieces[at : n + 1], in_figures(number), Piece("word", "", number.end, number.end, _PLANT)]
        at = n + 2
    return [*out, *pieces[at:]]


LEAST_SIZED = 2
"""Places with a number in brackets from which these are plants."""


def _sized_place(pieces: list[Piece], n: int) -> bool:
    """Is it "(5)", right behind a place or a field and ahead of a count?"""
    sized = pieces[n].text == "(" and bool(count_told(pieces[n + 1])) and pieces[n + 2].text == ")"
    if not sized or not (pieces[n - 1].kind == "place" or is_any(pieces[n - 1], ("SPOT", "CHECK", "FIELD"))):
        return False
    k = n + 3
    while k < len(pieces) - 1 and (pieces[k].text in (":", "=", "-", ",") or is_any(pieces[k], ("HAD",))):
        k += 1
    return number_like(pieces[k]) or is_any(pieces[k], ("NONE",))


def durations(pieces: list[Piece]) -> list[Piece]:
    """ "Soaked em about twenty minutes 3 1 0 6 2": the minutes are told as a word, and count nothing else."""
    out = list(pieces)
    for n, (number, unit) in enumerate(itertools.pairwise(pieces)):
        alone = n == 0 or "NUMBER_WORD" not in pieces[n - 1].types  # "a hundred and fifty two acres"
        if alone and "NUMBER_WORD" in number.types and is_any(unit, ("MEASURE",)):
            out[n] = out[n] if is_any(unit, ("PLANTS", "SPOT", "ACRES")) else in_figures(number)
    return out


_OTHER_SIDES = frozenset("seo")
"""Letters for sides of a field beside which "n" is one too."""


def all_told(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Thirty on em all told": so many females, on all the plants."""
    for n in range(len(pieces) - 3):
        number, on, them, whole = pieces[n : n + 4]
        counted = bool(count_told(number)) and on.text in anywhere("upon_plant")
        before = pieces[n - 1] if n else None
        if counted and made.has("on_all", them.text) and made.has("all_told", whole.text):
            if is_any(before, ("DUG", "TOOL")):
                continue
            noun = Piece("word", "", number.end, number.end, _FEMALE)
            return [*pieces[: n + 1], noun, *pieces[n + 4 :]]
    return pieces


def apart_from_tops(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Mostly white some yellow and the tops look stunted": a count or shade of females, then something else."""
    out = list(pieces)
    for n in range(1, len(pieces) - 2):
        joint = pieces[n + 1]
        if "COLOUR" not in pieces[n].types or joint.text not in anywhere("and_word"):
            continue
        shaded = number_like(pieces[n - 1]) or is_any(pieces[n - 1], ("MOSTLY", "TOO_MANY"))
        noun = n + 2 + (made.has("determiner", pieces[n + 2].text) or made.has("article", pieces[n + 2].text))
        other = noun < len(pieces) and is_any(pieces[noun], ("TOPS", "LEAF")) and pieces[noun].text != "plants"
        looks = noun + 1 < len(pieces) and is_any(pieces[noun + 1], ("LINK", "TOP", "LOOK"))
        if shaded and other and looks and noun > n + 2:
            out[n + 1] = Piece("break", ",", joint.start, joint.end, (), "soft")
    return out


def none_had(pieces: list[Piece]) -> list[Piece]:
    """ "Três no meio com zero, está em V8", "five on the hill had zero": no female, and no plant of a list."""
    out: list[Piece] = []
    for n, piece in enumerate(pieces):
        word = piece.types.get("NUMBER_WORD")
        zero = word is not None and word.value == "0" and n > 0 and is_any(pieces[n - 1], ("HAD",))
        behind, beyond = piece_at(pieces, n + 1), piece_at(pieces, n + 2)
        counts = is_any(behind, NOUNS) or (behind is not None and number_like(behind))
        listed = behind is not None and behind.text in (",", *anywhere("and_word")) and beyond is not None
        listed = listed and (number_like(beyond) or is_any(beyond, NOUNS))
        none = zero and not counts and not listed
        out.append(Piece("word", piece.text, piece.start, piece.end, _NONE) if none else piece)
    return out


def total_upon(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Ahora 7 nomás, en 5 plantas", "12, em 5 plantas": so many females on so many plants, without the comma."""
    out = list(pieces)
    for n in range(len(out) - 4, -1, -1):
        comma = n + 1 + is_any(out[n + 1], ("MOSTLY",))
        number, led = piece_at(out, comma + 2), piece_at(out, comma + 1)
        upon = led is not None and (made.has("at", led.text) or led.text in anywhere("upon_plant"))
        if count_told(out[n]) is None or out[comma].text != "," or not upon or number is None:
            continue
        plants = count_told(number) is not None and is_any(piece_at(out, comma + 3), ("PLANTS",))
        before = piece_at(out, n - 1)
        counted = before is not None and (before.kind not in ("word", "line") or is_any(before, (*NOUNS, "DUG")))
        if plants and not counted:
            del out[n + 1 : comma + 1]
    return out


def entry_apart(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Hace dos días, y la reentrada (es de) 72 horas, vuelvo ..": the hours behind the word, and no other span."""
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        first = n + 1
        while first < min(len(pieces), n + ENTRY_WORDS) and (
            linking(pieces[first]) or made.has("copula", pieces[first].text) or made.has("is_word", pieces[first].text)
        ):
            first += 1
        span = pieces[first : first + 2]
        timed = len(span) > 1 and number_like(span[0]) and is_any(span[1], ("UNIT",))
        if not timed or not is_any(pieces[n], ("ENTRY",)):
            out.append(pieces[n])
            n += 1
            continue
        k = len(out)
        while k and linking(out[k - 1]) and out[k - 1].kind == "word":
            k -= 1
        if k > 1 and is_any(out[k - 1], ("UNIT",)) and number_like(out[k - 2]):
            out[k:] = [Piece("break", ",", out[k - 1].end, out[k - 1].end, (), "soft")]
        out += [pieces[n], *span]
        n = first + 2
        if n < len(pieces) and is_any(pieces[n], ("LOOK",)):
            out.append(Piece("break", ",", span[1].end, span[1].end, (), "soft"))
    return out


ENTRY_WORDS = 4
"""Words between "re-entry" and its hours, "es de" (judgement)."""


def shapes_uncounted(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Maduró antes en dos manchones", "yellow in two patches": how many shapes there are counts nothing of ours."""
    out: list[Piece] = []
    for n, piece in enumerate(pieces):
        led, shape = piece_at(pieces, n - 1), piece_at(pieces, n + 1)
        top = shape.types.get("TOP") if shape is not None else None
        shaped = top is not None and top.value in ("patch", "ring") and ends_clause(piece_at(pieces, n + 2))
        if shaped and number_like(piece) and led is not None and made.has("at", led.text) and n > 1:
            told = pieces[n - 2 - (pieces[n - 2].text == ",")]
            if is_any(told, ("TOP", "COLOUR", "GREEN", "VEINS", "EDGES")):
                continue
        out.append(piece)
    return out


def _skip(pieces: list[Piece], n: int, made: Table) -> int:
    """Behind the little words from n on: "of the", "were"."""
    end = n + LITTLE_WORDS
    while n < len(pieces) and n < end and _little_word(pieces[n], made):
        n += 1
    return n


def _little_word(piece: Piece, made: Table) -> bool:
    return linking(piece) or made.has("copula", piece.text) or made.has("of_word", piece.text)


LITTLE_WORDS = 3
"""Words between "half", its number and its color (judgement)."""


def compared(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "From 3 white last week to 11 today", "11 white, up from 3 last week": what was counted before is only told."""
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        end, colour = _counted_before(pieces, n, made)
        if end is None:
            out.append(pieces[n])
            n += 1
            continue
        first, last = pieces[n], pieces[end - 1]
        out.append(Piece("word", "", first.start, last.end, _TOLD))
        n = end
        if made.has("compared_to", last.text):
            out.append(Piece("break", ",", last.end, last.end, (), "soft"))
            out.append(pieces[n])
            n += 1
            if colour is not None and not (n < len(pieces) and is_any(pieces[n], NOUNS)):
                out.append(Piece("word", colour.text, out[-1].end, out[-1].end, colour.entries))
    return out


def _counted_before(pieces: list[Piece], n: int, made: Table) -> tuple[int | None, Piece | None]:
    """Where the words for an earlier count end ("from 3 white last week to"), ``None`` for none; and its color."""
    k = n
    while k < len(pieces) and k < n + 3 and made.has("compared_with", pieces[k].text):
        k += 1
    if k == n or k >= len(pieces) or not number_like(pieces[k]):
        return None, None
    k += 1
    if k < len(pieces) and is_any(pieces[k], ("UNIT",)):
        return None, None  # "glyphosate was 9 days ago"
    colour = pieces[k] if k < len(pieces) and is_any(pieces[k], ("COLOUR", "FEMALES")) else None
    k += colour is not None
    when = k
    while k < len(pieces) and k < when + TIME_WORDS and _tells_time(pieces[k], made):
        k += 1
    verb = k + 2 < len(pieces) and k == when and made.has("compared_verb", pieces[k].text)
    k += verb and made.has("compared_to", pieces[k + 1].text)  # "de 4 foi pra 16"
    to = k + 1 < len(pieces) and made.has("compared_to", pieces[k].text) and number_like(pieces[k + 1])
    if to:
        return k + 1, colour
    said = any(not made.has("compared_from", p.text) for p in pieces[n:when] if p.kind == "word" and p is not colour)
    past = any(not is_any(p, ("UNIT",)) for p in pieces[when:k])
    ends = k >= len(pieces) or pieces[k].kind in ("break", "line", "sign")
    return (k, None) if said and past and ends else (None, None)


TIME_WORDS = 4
"""Words for an earlier time ("the week before") between two counts (judgement)."""


def _tells_time(piece: Piece, made: Table) -> bool:
    days = piece.types.get("TODAY")
    past = days is not None and days.value not in ("0", 0)
    return (
        past
        or is_any(piece, ("WHICH", "UNIT", "WEEKDAY"))
        or piece.kind == "day"
        or made.has("time_before", piece.text)
    )


def _said_of_seed(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "The beans there are supposed to be resistant" as "are resistant": told of the seed, and nothing put right."""
    if not made.has_any("talk_said_to_be", [piece.text for piece in pieces]):
        return pieces
    out = list(pieces)
    for n in range(1, len(pieces) - 1):
        said = made.has("talk_said_to_be", pieces[n].text) and made.has("copula", pieces[n - 1].text)
        crop = any(is_any(piece, ("PLANTS", "VARIETY")) for piece in pieces[max(0, n - CROP_BEFORE) : n])
        if said and crop and is_any(pieces[n + 1], ("RESISTANCE",)):
            out[n] = Piece("word", pieces[n].text, pieces[n].start, pieces[n].end, (Entry("LINK", "link"),))
    return out


def _whose(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Una foto de sus raíces", "sus hijos": whose a thing is, and no short word for susceptible."""
    if not made.has_any("short_or_whose", [piece.text for piece in pieces]):
        return pieces
    out = list(pieces)
    for n, (piece, behind) in enumerate(itertools.pairwise(pieces)):
        if not made.has("short_or_whose", piece.text) or is_any(piece_at(pieces, n - 1), ("VARIETY", "PLANTS")):
            continue
        if behind.kind == "word" and behind.types.keys() <= _OWNED and behind.text not in anywhere("and_word"):
            out[n] = Piece("word", piece.text, piece.start, piece.end, (Entry("LINK", "link"),))
    return out


_OWNED = frozenset({"ROOTS", "ROOT", "PLANTS", "TOPS", "LEAF", "FIELD_WORD", "VARIETY", "TEXT", "TOPIC"})
"""What may belong to somebody."""


CROP_BEFORE = 4
"""Pieces from the word for the crop to what its seed is said to be (judgement)."""


def intended(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Supposed to dig 6 but only got 4", "quería sacar 10 y saqué 6": what was meant to be dug was not."""
    pieces = _said_of_seed(_whose(_planting_of(_waited(_in_full(pieces, made), made), made), made), made)
    if not made.has_any("meant_to", [p.text for p in pieces]):
        return pieces
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        number = _meant(pieces, n, made)
        if number is None:
            out.append(pieces[n])
            n += 1
            continue
        end = number + 1
        end += end < len(pieces) and is_any(pieces[end], ("PLANTS",))
        out.append(Piece("word", "", pieces[n].start, pieces[end - 1].end, _TOLD))
        n = end
        out.append(Piece("break", ",", pieces[n - 1].end, pieces[n - 1].end, (), "soft"))
        done = n
        while done < len(pieces) and done < n + MEANT_WORDS and not number_like(pieces[done]):
            done += 1
        ends = done + 1 >= len(pieces) or pieces[done + 1].kind in ("break", "line")
        if done > n and done < len(pieces) and number_like(pieces[done]) and ends:
            got = pieces[done]
            out += [p for p in pieces[n:done] if is_any(p, ("DUG", "TOOL")) or p.kind == "break"]
            out.append(in_figures(got))
            out.append(Piece("word", "", got.end, got.end, _PLANT))
            n = done + 1
    return out


def _in_full(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Scrap what i sent 4 kestrel": a "4" that stands for "for", between a word for a note and a field."""
    if "4" not in [p.text for p in pieces]:
        return pieces
    return [
        Piece("word", "for", p.start, p.end, tuple(made.singles.get("for", ())), None, True)
        if p.text == "4"
        and 0 < n < len(pieces) - 1
        and is_any(pieces[n + 1], ("FIELD",))
        and made.has("before_four", pieces[n - 1].text)
        else p
        for n, p in enumerate(pieces)
    ]


def _planting_of(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Kestrel 6 plants none. The planting of Depot was 5/22": of the field named behind it, and not of the note's."""
    if sum(["FIELD" in piece.types for piece in pieces]) < LEAST_FIELDS:
        return pieces
    for n, piece in enumerate(pieces):
        if not is_any(piece, ("PLANTED",)):
            continue
        field = n + 1
        while field < min(n + LITTLE_WORDS, len(pieces)) and is_any(pieces[field], ("LINK",)):
            field += 1
        day = _skip(pieces, field + 1, made) if field < len(pieces) else len(pieces)
        of = field > n + 1 and field < len(pieces) and is_any(pieces[field], ("FIELD",))
        begin = n
        while begin and _little_before(pieces[begin - 1]) and begin > n - LITTLE_WORDS - 2:
            begin -= 1
        stops = begin == 0 or pieces[begin - 1].kind in ("break", "line")
        if of and stops and begin and day < len(pieces) and pieces[day].kind == "day":
            name = pieces[field]
            stop = Piece("break", ".", name.start, name.start, (), "hard")
            planted = Piece("word", piece.text, name.end, name.end, piece.entries, None, True)
            lead = [] if pieces[begin - 1].kind == "line" or pieces[begin - 1].value == "hard" else [stop]
            return [*pieces[:begin], *lead, name, planted, *pieces[day:]]
    return pieces


def _little_before(piece: Piece) -> bool:
    """ "Also the", "ah e o": no name or verb, before what is told of a planting."""
    return is_any(piece, ("LINK", "COURTESY")) or (piece.kind == "word" and not piece.types and len(piece.text) < 3)


LEAST_FIELDS = 2
"""Fields named from which a planting may be of another one than the note's."""


def _waited(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "I waited until Tuesday to go to Kestrel", "no pude entrar hasta el martes": the day is that of the visit."""
    if not made.has_any("until", " ".join([piece.text for piece in pieces]).split(" ")):
        return pieces
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        sizes = (k for k in (4, 3, 2, 1) if n + k <= len(pieces))
        size = next((k for k in sizes if _waits(pieces[n : n + k], made)), 0)
        at_once = bool(size) and made.has("until", pieces[n + size - 1].text.split(" ")[-1])  # "had to wait till"
        until, end, day = _until_day(pieces, n + size - at_once, made) if size else (0, 0, None)
        if day is None:
            out.append(pieces[n])
            n += 1
            continue
        out += [*pieces[n + size : until], day]
        n = end
        if n < len(pieces) and day_number(pieces[n]) and not claims(pieces, n + 1):
            out.append(pieces[n])  # "until Tuesday 10"
            n += 1
        out.append(Piece("break", ",", out[-1].end, out[-1].end, (), "soft"))
        while n < len(pieces) and made.has("way_to_field", pieces[n].text):
            n += 1
    return out


def _waits(words: list[Piece], made: Table) -> bool:
    """Do these words say that somebody waited, with "until" or without ("had to", "wait till" are cut in two)?"""
    said = " ".join(piece.text for piece in words)
    waited, _, last = said.rpartition(" ")
    return made.has("waited", waited if made.has("until", last) else said)


def _until_day(pieces: list[Piece], n: int, made: Table) -> tuple[int, int, Piece | None]:
    """Where "until" and its day begin and end, soon behind n in the sentence, and the day; ``None`` for none."""
    for k in range(n, min(n + MEANT_WORDS + 1, len(pieces))):
        if pieces[k].kind in ("break", "line"):
            break
        until, _, name = pieces[k].text.partition(" ")
        until = name if made.has("until", name) else until  # "wait till"
        if not made.has("until", until):
            continue
        entries = tuple(entry for entry in made.singles.get(name, ()) if entry.type == "WEEKDAY")
        if entries:  # "till monday" may be one phrase
            at = pieces[k].end - len(name)
            return k, k + 1, Piece("word", name, at, pieces[k].end, entries, None, True)
        day = k + 1 + (k + 1 < len(pieces) and pieces[k + 1].text in anywhere("name_article"))
        told = day < len(pieces) and (pieces[day].kind == "day" or is_any(pieces[day], ("WEEKDAY",)))
        return k, day + 1, pieces[day] if told else None
    return 0, 0, None


def _meant(pieces: list[Piece], n: int, made: Table) -> int | None:
    """The number of plants behind "supposed to dig", "quería sacar"."""
    if not made.has("meant_to", pieces[n].text):
        return None
    k = n + 1
    while k < len(pieces) and k <= n + MEANT_WORDS and pieces[k].kind == "word" and not number_like(pieces[k]):
        k += 1
    verbs = [word for p in pieces[n + 1 : k] for word in p.text.split(" ")]
    dig = any(made.has("to_dig", word) for word in verbs)
    return k if dig and k < len(pieces) and number_like(pieces[k]) else None


MEANT_WORDS = 3
"""Words between what was meant and the number, or between "but" and what was done (judgement)."""


def _shades_in_brackets(pieces: list[Piece], n: int) -> bool:
    """Several colors in brackets, none with a number."""
    if n >= len(pieces) or pieces[n].text != "(":
        return False
    inner = list(itertools.takewhile(lambda p: p.text != ")", pieces[n + 1 : n + 8]))
    if not inner or n + 1 + len(inner) >= len(pieces):
        return False
    colours = sum("COLOUR" in p.types for p in inner)
    joints = all("COLOUR" in p.types or p.kind == "sign" or p.text in (",", "/") or linking(p) for p in inner)
    return colours > 1 and joints and not any(p.kind == "number" for p in inner)


def _sum_in_brackets(pieces: list[Piece], n: int) -> bool:
    """ "17 (12 br, 5 am)" behind a colon: colors in brackets that add up to the number."""
    if not n or pieces[n - 1].text != ":" or n + 1 >= len(pieces) or pieces[n + 1].text != "(":
        return False
    inner = list(itertools.takewhile(lambda p: p.text != ")", pieces[n + 2 : n + 2 + FOUND_WITHIN]))
    counts = [p.value for p, q in itertools.pairwise(inner) if p.kind == "number" and is_any(q, ("COLOUR",))]
    whole = sum(p.kind == "number" for p in inner) == len(counts) > 1
    return whole and sum(counts) == pieces[n].value


def dug_in_all(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Eased the plants out, six in all. Eleven females": the six are the plants dug, as no others are told.

    Only where plants are spoken of before, or nothing was found; "dug with a spade, 8 in all, 4 white" may be either.
    Each field of a message by itself.
    """
    begins = [n for n, piece in enumerate(pieces) if is_any(piece, ("FIELD",))][1:]
    parts = (pieces[a:b] for a, b in itertools.pairwise([0, *begins, len(pieces)]))
    return [piece for part in parts for piece in _dug_in_all(part, made)]


def _dug_in_all(pieces: list[Piece], made: Table) -> list[Piece]:
    """The same of the pieces of one field."""
    if any(number_like(p) and _counts_plants(pieces, n) for n, p in enumerate(pieces)):
        return _without_total(pieces)
    for n in range(1, len(pieces) - 1):
        number, total = pieces[n : n + 2]
        if is_any(number, ("TOTAL",)):  # "en total nueve", "no total foram nove"
            behind = n + 1 + (n + 2 < len(pieces) and made.has("they_were", total.text))
            number, total = pieces[behind], number
            apart = number_like(number) and _ends_clause(pieces, behind + 1)
            end = behind + 1
        else:
            first = n - 1 - (n > 1 and made.has("they_were", pieces[n - 1].text))  # "fueron ocho en total"
            first -= first > 0 and pieces[first].text in anywhere("and_word")
            apart = pieces[first].kind == "break" and _ends_clause(pieces, n + 2)
            end = n + 2
        if not (apart and day_number(in_figures(number)) and is_any(total, ("TOTAL",))):
            continue
        before = [p for p in pieces[:n] if p.kind != "break"]
        counted = any(is_any(p, ("FEMALES", "NONE")) for p in before) or _shades_counted(before)
        dug = any(is_any(p, ("DUG", "TOOL")) for p in before)
        if counted or not dug:
            continue
        words = (word for p in before[-NAMED_WITHIN:] for word in p.text.split(" "))
        named = any(e.type == "PLANTS" for word in words if len(word) > 2 for e in made.singles.get(word, ()))
        found = [k for k in range(end, len(pieces)) if _found_number(pieces, k)]
        sum_told, told = sum(in_figures(pieces[k]).value for k in found), in_figures(number).value
        none = any(is_any(p, ("NONE",)) for p in pieces[end:])
        stop = next(
            (p for p in pieces[end:] if p.kind == "line" or p.value == "hard" or is_any(p, ("COLOUR", "FEMALES"))), None
        )
        listed = any(number_like(p) for p in before)  # "per plant 6 2 0, total 8"
        apart = stop is not None and not listed and not is_any(stop, ("COLOUR", "FEMALES"))
        alone, silent = apart and found, apart and named and not found  # "12 en total. Vi 7 amarillas"
        if ((named or alone) and found and sum_told != told) or (none and not found) or sum_told > told or silent:
            at = max(number.end, total.end)
            plants = Piece("word", total.text, at, at, _PLANT, None, total.spaced)
            return [*pieces[:n], in_figures(number), plants, *pieces[end:]]
    return pieces


def _shades_counted(pieces: list[Piece]) -> bool:
    """Is a number of a color told, and not the color of leaves or roots?"""
    return any(is_any(p, ("COLOUR",)) and number_like(q) for q, p in itertools.pairwise(pieces))


def _without_total(pieces: list[Piece]) -> list[Piece]:
    """ "2 puntos de 5 plantas, (dez no total)": as many as all the places make, told once more."""
    for n in range(1, len(pieces) - 1):
        number, total = pieces[n : n + 2]
        apart = pieces[n - 1].kind == "break" and _ends_clause(pieces, n + 2)
        if not (apart and number_like(number) and is_any(total, ("TOTAL",))):
            continue
        told = [in_figures(p).value for p in pieces[max(0, n - NAMED_WITHIN) : n] if number_like(p)]
        if len(told) == 2 and told[0] * told[1] == in_figures(number).value:
            aside = Piece("aside", "", number.start, total.end)
            return [*pieces[:n], aside, *pieces[n + 2 :]]
    return pieces


def dug_so_many(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Usé la palita, y fueron once": behind how they were dug, so many were the plants, as no others are told."""
    if any(is_any(p, ("PLANTS",)) and not is_any(p, ("ROOTS",)) for p in pieces):
        return pieces
    for n in range(2, len(pieces)):
        led = made.has("they_were", pieces[n - 1].text) and number_like(pieces[n]) and _ends_clause(pieces, n + 1)
        if not led:
            continue
        before = pieces[n - 2]
        joined = before.kind == "break" or before.text in anywhere("and_word")
        sentence = list(
            itertools.takewhile(lambda p: p.value != "hard" and p.kind != "line", reversed(pieces[: n - 1]))
        )
        dug = any(is_any(p, ("DUG", "TOOL")) for p in sentence)
        told = any(is_any(p, ("FEMALES", "COLOUR", "NONE")) or number_like(p) for p in sentence)
        if joined and dug and not told:
            plants = Piece("word", "", pieces[n].end, pieces[n].end, _PLANT)
            return [*pieces[:n], in_figures(pieces[n]), plants, *pieces[n + 1 :]]
    return pieces


NAMED_WITHIN = 10
"""Pieces before "six in all" in which plants are spoken of (judgement)."""


def _found_number(pieces: list[Piece], k: int) -> bool:
    """A number of females or of a color, in figures or told as a word."""
    if not (number_like(pieces[k]) and isinstance(in_figures(pieces[k]).value, int)):
        return False
    if any(is_any(piece_at(pieces, at), ("COLOUR", "FEMALES")) for at in (k + 1, k - 1)):
        return True
    first = k - 1
    while first > 0 and (pieces[first].text in (":", ",", "=") or is_any(pieces[first], ("HAD", "POSITIVE"))):
        first -= 1  # "Females: 5", "hembras hay, cinco"
    return 0 <= first < k - 1 and is_any(pieces[first], ("FEMALES",)) and _ends_clause(pieces, k + 1)


def _of_all_these(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "No females on any of the 8": so many plants, and nothing counted behind them."""
    the, of, none = pieces[n - 1], pieces[n - 2], pieces[n - 3]
    ends = n + 1 >= len(pieces) or pieces[n + 1].kind in ("break", "line")
    return made.has("determiner", the.text) and of.text in anywhere("of_word") and is_any(none, ("NONE",)) and ends


def _on_roots(pieces: list[Piece], n: int, made: Table) -> int:
    """The last piece of "on the roots" right behind a number; 0 for none."""
    if n + 1 >= len(pieces) or pieces[n].text not in anywhere("upon_plant"):
        return 0
    k = n + 1
    while k < len(pieces) and (made.has("article", pieces[k].text) or made.has("determiner", pieces[k].text)):
        k += 1
    return k if k < len(pieces) and k > n + 1 and is_any(pieces[k], ("ROOTS",)) else 0


def headings(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Plants 1 to 5: 0 0 3 1 0" heads a list; "rinsed 5, 22w" counts plants, where nothing else does."""
    counted = any(_counts_plants(pieces, n) for n in range(len(pieces)))
    pieces = _plants_times(pieces) if counted else _labelled_plants(pieces)
    times = anywhere("times")
    out: list[Piece] = []
    skip = 0
    for n, piece in enumerate(pieces):
        if n < skip:
            continue
        before = pieces[n - 1] if n else None
        behind = pieces[n + 1] if n + 1 < len(pieces) else None
        sign = behind.text if behind is not None else ""
        if before is not None and "PLANTS" in before.types:
            if until := _from_first_to(pieces, n):
                skip = until
                continue
            if piece.kind == "range" and sign == ":" and piece.value[0] == 1:
                continue
        share = _so_many_of(pieces, n) if piece.kind == "day" else None
        if share is not None:
            out += share
            continue
        if sign == "=" and "COLOUR" in piece.types and (number_like(before) or is_any(before, NOUNS)):
            out.append(Piece("break", ",", piece.start, piece.start, (), "soft"))  # "4 plants white=6 yellow=2"
        if piece.kind == "word" and number_like(before):
            if end := _of_the_sort(pieces, n, made):
                out[-1] = in_figures(out[-1])
                skip = end
                continue  # "four of the little white ones"
            sized = is_any(behind, ("COLOUR",)) and not is_any(piece, ("COLOUR", "PLANTS", "UNIT"))
            if sized and made.has("size", piece.text):
                out[-1] = in_figures(out[-1])
                continue  # "two little white ones"
        if behind is not None and (piece.text in ("x", "*") or piece.text in times) and _times(pieces, n):
            out.append(Piece("word", "", piece.start, piece.end, _EACH))  # "2 white x 6 plants"
            continue
        if counted:
            out.append(piece)
            continue
        if _washed(pieces, n):
            out += [in_figures(piece), Piece("word", "", piece.end, piece.end, _PLANT)]
            continue
        out.append(piece)
        stops = behind is not None and behind.kind == "break" and day_number(piece)
        coloured = stops and n + 3 < len(pieces) and "COLOUR" in pieces[n + 3].types
        if coloured and is_any(before, ("SOAKED",)):
            out.append(Piece("word", "", piece.end, piece.end, _PLANT))
    return out


def _of_the_sort(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "of the little" between a number and its color ends; 0 for anything else."""
    k = n
    while k < len(pieces) and k < n + 4 and pieces[k].kind == "word":
        if is_any(pieces[k], ("COLOUR",)) and k > n:
            return k
        of = all(word in anywhere("of_word") or made.has("determiner", word) for word in pieces[k].text.split(" "))
        if not (of or made.has("size", pieces[k].text)):
            return 0
        k += 1
    return 0


def _times(pieces: list[Piece], n: int) -> bool:
    """Does a sign for times stand between a count of a color and the plants?"""
    if n < 2 or n + 2 >= len(pieces):
        return False
    counted = is_any(pieces[n - 1], ("COLOUR", "FEMALES")) and number_like(pieces[n - 2])
    return counted and number_like(pieces[n + 1]) and is_any(pieces[n + 2], ("PLANTS",))


def _plants_times(pieces: list[Piece]) -> list[Piece]:
    """ "6 plants x 2 white": so many on each."""
    for n in range(2, len(pieces) - 2):
        if "PLANTS" not in pieces[n - 1].types or not number_like(pieces[n - 2]):
            continue
        if not (pieces[n].text in ("x", "*") or pieces[n].text in anywhere("times")):
            continue
        if number_like(pieces[n + 1]) and is_any(pieces[n + 2], ("COLOUR", "FEMALES")):
            each = Piece("word", "", pieces[n + 2].end, pieces[n + 2].end, _EACH)
            return [*pieces[:n], *pieces[n + 1 : n + 3], each, *pieces[n + 3 :]]
    return pieces


def _from_first_to(pieces: list[Piece], n: int) -> int:
    """Where "1 thru 6" behind "plants", of "plants 1 thru 6: 2 5 0 ..", ends; 0 for anything else."""
    run = pieces[n : n + 4]
    if len(run) < 4 or run[0].value != 1:
        return 0
    through = run[1].text in anywhere("through") and number_like(run[2]) and run[3].text == ":"
    return n + 3 if through else 0


_P_NUMBER = re.compile(r"(?:p|pl|plt|plts|pls)(\d{1,2})")
"""Plants and their number scanned as one word: here and not in the word files, as it is half a word."""


def _labelled_plants(pieces: list[Piece]) -> list[Piece]:
    """ "W12 Y3 P6" once, "kestrel (6): 2 5 0 0 1 3": so many plants, where no plants are told."""
    labels = [n for n, p in enumerate(pieces) if p.kind == "word" and not p.types and _P_NUMBER.fullmatch(p.text)]
    if len(labels) == 1:
        piece = pieces[labels[0]]
        size = int(_P_NUMBER.sub(r"\1", piece.text))
        at = piece.end - len(str(size))
        told = [
            Piece("number", str(size), at, piece.end, (), size, True),
            Piece("word", "", piece.end, piece.end, _PLANT),
        ]
        return [*pieces[: labels[0]], *told, *pieces[labels[0] + 1 :]] if size else pieces
    for n in range(1, len(pieces) - 4):
        opens, number, closes, colon = pieces[n : n + 4]
        signs = (opens.text, closes.text, colon.text) == ("(", ")", ":")
        if not signs or not number_like(number) or not is_any(pieces[n - 1], ("FIELD", "SPOT", "CHECK")):
            continue
        listed = list(itertools.takewhile(lambda p: number_like(p) or p.text == ",", pieces[n + 4 :]))
        if sum(number_like(p) for p in listed) == in_figures(number).value:
            told = [in_figures(number), Piece("word", "", number.end, number.end, _PLANT)]
            return [*pieces[:n], *told, *pieces[n + 3 :]]
    return pieces


def _so_many_of(pieces: list[Piece], n: int) -> list[Piece] | None:
    """ "2/10 with females", "4/6 plants w cysts", "plants with cysts 3/6": so many of so many, and no day."""
    piece = pieces[n]
    if piece.value.first is None or piece.text.count("/") != 1:
        return None
    k = n + 1 + (n + 1 < len(pieces) and is_any(pieces[n + 1], ("PLANTS",)))
    behind = pieces[k] if k < len(pieces) else None
    noun = pieces[k + 1] if k + 1 < len(pieces) else None
    infested = behind is not None and "HAD" in behind.types and behind.types["HAD"].value == "infested"
    infested = infested or (is_any(behind, ("HAD",)) and is_any(noun, ("FEMALES",)))
    infested = infested or (k > n + 1 and behind is not None and behind.text == "w" and is_any(noun, ("FEMALES",)))
    led = pieces[max(0, n - 4) : n]
    infested = infested or (
        any(is_any(p, ("PLANTS",)) for p in led)
        and (is_any(led[-1], ("FEMALES",)) or led[-1].types.get("HAD", Entry("", "")).value == "infested")
    )
    if not infested:
        return None
    some, whole = piece.value.first, piece.value.second
    if some > whole:
        return None
    return [
        Piece("number", str(some), piece.start, piece.start + len(str(some)), (), some),
        Piece("word", "of", piece.start + len(str(some)), piece.end - len(str(whole)), (Entry("LINK", "link"),)),
        Piece("number", str(whole), piece.end - len(str(whole)), piece.end, (), whole),
    ]


def _washed(pieces: list[Piece], n: int) -> bool:
    """ "Soaked the roots of six.", "washed six.": so many plants, where the sentence ends."""
    if n < 2 or not number_like(pieces[n]):
        return False
    behind = pieces[n + 1] if n + 1 < len(pieces) else None
    ends = behind is None or behind.kind == "line" or (behind.kind == "break" and behind.value == "hard")
    of = pieces[n - 1].text in anywhere("of_word")
    return ends and is_any(pieces[n - 2 if of else n - 1], ("SOAKED",))


def _counts_plants(pieces: list[Piece], n: int) -> bool:
    """Is it a number of plants?"""
    if not number_like(pieces[n]):
        return False
    before, behind = piece_at(pieces, n - 1), piece_at(pieces, n + 1)
    return is_any(behind, ("PLANTS", "DUG", "TOOL")) or is_any(before, ("PLANTS", "DUG", "TOOL"))


def each_of_them(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Every one of the 5 plants I dug had two white ones": so many on each."""
    joined = " ".join(p.text for p in pieces)
    if not any(said in joined for said in made.traits.get("each_of", ())):
        return pieces
    for n in range(len(pieces) - 4):
        of = " ".join(p.text for p in pieces[n : n + 4])
        if not any(of.startswith(f"{said} ") for said in made.traits.get("each_of", ())):
            continue
        plants = next((k for k in range(n + 1, min(n + 7, len(pieces))) if is_any(pieces[k], ("PLANTS",))), None)
        if plants is None and (told := _told_before(pieces, n, n + 7)) is not None:
            return each_of_them([*pieces[: told + 1], _PLANTS, *pieces[told + 1 :]], made)
        if plants is None or not number_like(pieces[plants - 1]):
            continue
        for k in range(plants + 1, min(plants + 6, len(pieces) - 1)):
            if (is_any(pieces[k], ("HAD",)) or made.has("carried_word", pieces[k].text)) and number_like(pieces[k + 1]):
                end = k + 2
                while end < min(k + 4, len(pieces)) and is_any(pieces[end], ("COLOUR", "FEMALES")):
                    end += 1  # "tenía 5 hembras amarillas"
                each = Piece("word", "", pieces[end - 1].end, pieces[end - 1].end, _EACH)
                return [*pieces[:end], each, *pieces[end:]]
    return pieces


def _told_before(pieces: list[Piece], n: int, end: int) -> int | None:
    """Where "six" of "every one of the six" stands: as many as the plants counted before it."""
    at = next((k for k in range(n + 1, min(end, len(pieces))) if count_told(pieces[k]) not in (None, 1)), None)
    dug = [count_told(pieces[k - 1]) for k in range(1, n) if is_any(pieces[k], ("PLANTS",))]
    return at if at is not None and dug and count_told(pieces[at]) == dug[-1] else None


_PLANTS = Piece("word", "plants", 0, 0, (Entry("PLANTS", "plants"),))
"""Plants that are left unsaid behind their number."""
_EACH = (Entry("EACH", "each"),)
_NONE = (Entry("NONE", "none"),)


def by_their_color(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "One yellow one", "saw one and it was white": a color behind words that say nothing more, or before "one"."""
    out: list[Piece] = []
    for n, piece in enumerate(pieces):
        before = pieces[n - 2] if n > 1 else None
        counted = before is not None and number_like(before) and is_any(pieces[n - 1], ("COLOUR",))
        if counted and made.has("noun_one", piece.text) and not _more_counted(pieces, n + 1):
            out.append(Piece("word", piece.text, piece.start, piece.end, _FEMALE))
            continue
        if is_any(piece, ("COLOUR",)) and _ends_clause(pieces, n + 1):
            k = len(out)
            while k and (out[k - 1].text == "," or linking(out[k - 1]) or made.has("it_was", out[k - 1].text)):
                k -= 1
            one = k  # "saw one on the last plant and it was brown"
            while k and (is_any(out[k - 1], ("PLANTS", "LINK")) or made.has("which_plants", out[k - 1].text)):
                k -= 1
            apart = any(is_any(p, ("PLANTS",)) for p in out[k + 1 : one])  # "6 plants, it was white": no females
            k = k if apart else one
            said = any(made.has("it_was", p.text) for p in out[k:])
            if said and k and (number_like(out[k - 1]) or is_any(out[k - 1], ("FEMALES",))):
                whole = k - 1 if number_like(out[k - 1]) else k - 2
                if whole >= 0 and number_like(out[whole]):
                    out[whole:] = [in_figures(out[whole])]  # "one and .." was left a word
        out.append(piece)
    return out


def among_colors(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "9 entre blancas y amarillas", "entre blancas y amarillas 9": so many of several colors together."""
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        end = _colors_joined(pieces, n + 1) if made.has("among", pieces[n].text) else 0
        number = pieces[end] if 0 < end < len(pieces) else None
        if end and out and number_like(out[-1]):
            out += pieces[n + 1 : end]
            n = end
        elif number is not None and number_like(number) and not claims(pieces, end + 1):
            out += [in_figures(number), *pieces[n + 1 : end]]
            n = end + 1
        else:
            out.append(pieces[n])
            n += 1
    return out


def _colors_joined(pieces: list[Piece], n: int) -> int:
    """Where "white and yellow" that begins here ends; 0 for one color, or none."""
    start = n
    while n < len(pieces) and is_any(pieces[n], ("COLOUR",)):
        n += 1
        joined = n + 1 < len(pieces) and (linking(pieces[n]) or pieces[n].text in (",", "+", "/"))
        if not joined or not is_any(pieces[n + 1], ("COLOUR",)):
            return n if n - start > 1 else 0
        n += 1
    return 0


def shade_behind(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Achei 1 só, branca", "una sola. amarilla", "2, las dos amarillas": a color behind a stop is of those before."""
    out: list[Piece] = []
    for n, piece in enumerate(pieces):
        if is_any(piece, ("COLOUR",)) and len(piece.text) > 1 and _ends_clause(pieces, n + 1):
            k = len(out)
            both = k > 1 and made.has("for_both", out[k - 1].text)
            k -= both
            apart = k > 1 and out[k - 1].kind == "break"
            k -= apart
            lone = k > 1 and made.has("lone_word", out[k - 1].text)
            k -= lone
            number = out[k - 1] if k else None
            labelled = k > 1 and is_any(out[k - 2], ("PLANTS",)) and not (k > 2 and number_like(out[k - 3]))
            dug = labelled or (k > 1 and is_any(out[k - 2], ("DUG",)))  # "plantas 1", "saqué 4 nomás"
            told = number is not None and number_like(number) and not dug
            value = in_figures(number).value if number is not None else None
            few = value == 1 if lone else both and value in _FEW and not (k > 1 and _in_a_list(out, k - 2))
            if apart and told and few and number is not None:
                out[k - 1 :] = [in_figures(number)]
        out.append(piece)
    return out


_FEW = (2, 3)
"""So many females are "las dos", "all three"."""


def _in_a_list(pieces: list[Piece], n: int) -> bool:
    """Is it a number, or the comma behind one?"""
    return number_like(pieces[n]) or (n > 0 and pieces[n].text == "," and number_like(pieces[n - 1]))


def _more_counted(pieces: list[Piece], n: int) -> bool:
    """Does a color or a noun claim what stands before it?"""
    return n < len(pieces) and is_any(pieces[n], NOUNS)


def _ends_clause(pieces: list[Piece], n: int) -> bool:
    return n >= len(pieces) or pieces[n].kind in ("break", "line")


def roots_of_the_rest(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Roots dark on 3 of 8 plants, white on the rest": no females are counted there, and both colors are of roots."""
    out: list[Piece] = []
    rooted = False
    n = 0
    while n < len(pieces):
        piece = pieces[n]
        if piece.kind == "line" or (piece.kind == "break" and piece.value == "hard"):
            rooted = False
        out.append(piece)
        n += 1
        behind = pieces[n : n + 5]
        upon = bool(behind) and behind[0].text in anywhere("upon_plant")
        if is_any(piece, ("ROOT",)) and any(is_any(p, ("ROOTS",)) for p in out[-3:-1] + behind[:1]):
            rooted = True
            some = upon and len(behind) > 3 and number_like(behind[1]) and behind[2].text in anywhere("of_word")
            n += 3 if some and number_like(behind[3]) else 0
        shaded = rooted and upon and "COLOUR" in piece.types and not (len(out) > 1 and number_like(out[-2]))
        if shaded and made.has_any("rest_of_plants", [p.text for p in behind[1:3]]):
            colour = (Entry("ROOT", piece.types["COLOUR"].value),)
            out[-1:] = [
                Piece("word", "", piece.start, piece.start, (Entry("ROOTS", "roots"),)),
                Piece("word", piece.text, piece.start, piece.end, colour),
            ]
    return out


def loosened(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Worked 6 loose", "worked 6 plants free", "ease 8 of them out": the number stands within the word for it."""
    for n in range(len(pieces) - 2):
        verb, number = pieces[n : n + 2]
        if not (made.has("eased_verb", verb.text) and day_number(number)):
            continue
        noun = n + 3 < len(pieces) and is_any(pieces[n + 2], ("PLANTS",))
        of = n + 4 < len(pieces) and pieces[n + 2].text == "of" and made.has("them", pieces[n + 3].text)
        k = n + 2 + noun + 2 * of
        if made.has("eased_end", pieces[k].text.split(" ")[0]):  # "loose by hand"
            eased = Piece("word", verb.text, verb.start, verb.end, _EASED, None, verb.spaced)
            return [*pieces[:n], eased, *pieces[n + 1 : n + 2 + noun], *pieces[k + 1 :]]
    return pieces


_EASED = (Entry("DUG", "eased"),)
PLACE_WORDS = 4
"""Words of a place between a number and what was found there: "four on the flat had" (judgement)."""


def plants_at_each(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Ten plants out with a spade, five at each end": the number before "at each end" counts plants as well.

    Before "per spot" it does where nothing was counted yet: "10 pl, 5 per spot".
    So does as many of another field "again" or "too": "six plants with a shovel .. At Kiln, six again".
    """
    out: list[Piece] = []
    dug = found = False
    before: set[int] = set()
    pieces = _dug_before_at_each(pieces, made)
    for n, piece in enumerate(pieces):
        of = n > 0 and piece.text in anywhere("of_word") and is_any(pieces[n - 1], ("EACH",))
        of = of and not ends_clause(piece_at(pieces, n - 2))  # not "cada una de las 3 plantas tenía 5 hembras"
        if of and _so_many_plants(pieces, n + 1):
            out.append(Piece("break", ",", piece.start, piece.start, (), "soft"))  # "6 females on each of 3 plants"
            continue
        out.append(piece)
        dug = dug or is_any(piece, ("PLANTS", "DUG"))
        found = found or is_any(piece, ("COLOUR", "FEMALES"))
        value = count_told(piece)
        if value is None or not 0 < value <= MOST_DUG:
            continue
        if is_any(piece_at(pieces, n + 1), ("PLANTS",)):
            before.add(value)
        named = n > 0 and is_any(pieces[n - 1], ("FIELD",))
        if not dug or not (named or _begins_clause(pieces, n)):
            continue
        said = [word for p in pieces[n + 1 : n + 4] for word in p.text.split(" ")]
        each = any(made.has("each_place_noun", " ".join(said[:size])) for size in (2, 3))
        each = each or bool(_at_each_of(pieces, n + 1, made)[0])
        each = each or (not found and any(made.has("per_each_place", " ".join(said[:size])) for size in (2, 3)))
        more = pieces[n + 1].text if n + 1 < len(pieces) else ""
        again = value in before and (made.has("once_more", more) or made.has("as_well", more))
        if each or (again and ends_clause(piece_at(pieces, n + 2))):
            out[-1:] = [in_figures(piece), Piece("word", "", piece.end, piece.end, _PLANT)]
    return out


def _so_many_plants(pieces: list[Piece], k: int) -> bool:
    """ "(Each of) three plants", "(each of) the 3 plants"?"""
    k += k < len(pieces) and linking(pieces[k])
    return count_told(piece_at(pieces, k)) is not None and is_any(piece_at(pieces, k + 1), ("PLANTS",))


def _dug_before_at_each(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "20 plants dug, (five at each of four stops)": the same plants again, as an aside."""
    if not any(made.has("place_count", piece.text) for piece in pieces):
        return pieces
    told: set[int] = set()

    def end_of(n: int) -> int:
        count = count_told(pieces[n])
        if count is None:
            return 0
        if is_any(piece_at(pieces, n + 1), ("PLANTS", "DUG")) or is_any(piece_at(pieces, n - 1), ("DUG",)):
            told.add(count)
            return 0
        end, places = _at_each_of(pieces, n + 1, made)
        return end if count * places in told else 0

    return put_aside(pieces, end_of)


def _at_each_of(pieces: list[Piece], k: int, made: Table) -> tuple[int, int]:
    """ "(Five) at each of four stops", "(4) each at 3 stops": where that ends, and how many places; zeros for none."""
    for n in range(k + 1, min(k + LONGEST_AT_EACH, len(pieces) - 1)):
        places = count_told(pieces[n])
        if places is None:
            continue
        lead = [
            piece.text
            for piece in pieces[k:n]
            if piece.text not in anywhere("of_word") and not made.has("determiner", piece.text)
        ]
        each = made.has("each_of_places", " ".join(lead))
        return (n + 2, places) if each and made.has("place_count", pieces[n + 1].text) else (0, 0)
    return 0, 0


LONGEST_AT_EACH = 5
"""Pieces of "at each of the", before how many places (judgement)."""


def _begins_clause(pieces: list[Piece], n: int) -> bool:
    """Does a clause begin there, or stands "and" before?"""
    return n == 0 or ends_clause(pieces[n - 1]) or pieces[n - 1].text in anywhere("and_word")


def plants_again(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "On the west side four plants had 15 white, on the east side four had 7", "9 white on six plants .. 3 on six".

    Once plants were counted, a number that had so many, or on which so many were found, counts plants too.
    """
    out: list[Piece] = []
    had = upon = False
    if any("DUG" in p.types or "PLANTS" in p.types for p in pieces):
        pieces = _others_dug(pieces, made)
    more = {n for n in range(len(pieces) - 1) if _more_dug(pieces, n, made)}
    each = _at_each_place(pieces, made)
    dug = _dug_at_places(pieces) | each | more
    if more:
        dug |= {n for n in range(1, min(more)) if _dug_so_many(pieces, n)}
    for n, piece in enumerate(pieces):
        if n - 1 in more:
            continue  # "5 more by the fence line"
        if n in each and out and not (out[-1].kind in ("break", "line") or "DUG" in out[-1].types):
            joint = out.pop() if out[-1].text in anywhere("and_word") else piece
            out.append(Piece("break", ",", joint.start, joint.start, (), "soft"))
        out.append(in_figures(piece) if n in more else piece)
        if n in dug:
            out.append(Piece("word", "", piece.end, piece.end, _PLANT))
            continue
        if piece.kind != "number" or not isinstance(piece.value, int) or not 0 < piece.value <= MOST_DUG:
            continue
        counted = n + 1 < len(pieces) and "PLANTS" in pieces[n + 1].types
        over = n > 1 and pieces[n - 1].text in anywhere("upon_plant") and _counts_females(pieces[n - 2])
        found = _found_there(pieces, n + 1 + counted, made)
        if counted:
            had, upon = had or found, upon or over
        elif (had and found and _placed(pieces, n, made)) or (upon and over and _clause_ends(pieces, n + 1, made)):
            out.append(Piece("word", "", piece.end, piece.end, _PLANT))
    return out


def _dug_at_places(pieces: list[Piece]) -> set[int]:
    """ "Gate 3 = 0/1/0, ditch 3 = 8/5/11", "loma 4 con 3 blancas, bajo 4 con 12": what stands between place and find.

    Only where several places are told so.
    """
    found = {
        n
        for n in range(1, len(pieces) - 1)
        if day_number(pieces[n]) and is_any(pieces[n - 1], _STANDS_BEFORE) and _leads_to_find(pieces, n + 1)
    }
    return found if len(found) > 1 else set()


def _at_each_place(pieces: list[Piece], made: Table) -> set[int]:
    """ "Five at the east end with 13 white and four at the pond with none": numbers before a place and its find.

    Only where several places are told so.
    """
    found = {
        n
        for n in range(len(pieces) - 1)
        if day_number(pieces[n]) and pieces[n].value <= MOST_DUG and _place_and_find(pieces, n + 1, made)
    }
    return found if len(found) > 1 else set()


def _place_and_find(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "(five) at the east end with 13 white"?"""
    end = next((k for k in range(n, min(n + PLACE_WORDS + 1, len(pieces))) if "HAD" in pieces[k].types), None)
    placed = end is not None and any(is_any(p, ("SPOT", "CHECK")) and not linking(p) for p in pieces[n:end])
    return placed and _found_there(pieces, n, made)


_STANDS_BEFORE = ("SPOT", "CHECK", "FIELD")


def _leads_to_find(pieces: list[Piece], n: int) -> bool:
    """ "(gate 3) = ..", "(loma 4) con 3", "(top 4) had none"?"""
    behind = pieces[n + 1] if n + 1 < len(pieces) else None
    found = behind is not None and (number_like(behind) or is_any(behind, ("NONE",)))
    nothing = is_any(pieces[n], ("NONE",)) and not is_any(pieces[n], ("LINK",))
    return nothing or pieces[n].text == "=" or (is_any(pieces[n], ("HAD",)) and found)


def _others_dug(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "En el fondo otras 4", "dug another four on the hill": the number with its plants, without "otras"."""
    out: list[Piece] = []
    skip = -1
    for n, piece in enumerate(pieces):
        if n <= skip:
            continue
        number = pieces[n + 1] if n + 1 < len(pieces) else None
        if number is None or not made.has("another_before", piece.text) or not day_number(in_figures(number)):
            out.append(piece)
            continue
        named = is_any(pieces[n + 2] if n + 2 < len(pieces) else None, ("PLANTS",))
        if not any(p.types.keys() & {"DUG", "PLANTS"} for p in out):
            out.append(piece)
        elif named:
            out.append(in_figures(number))
            skip = n + 1
        elif not claims(pieces, n + 2) and _another_place(pieces, n, n + 2, made):
            out += [in_figures(number), Piece("word", "", number.end, number.end, _PLANT)]
            skip = n + 1
        else:
            out.append(piece)
    return out


def _more_dug(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "Dug 5 by the drive .. then 5 more over by the fence line", "no fundo mais 5": more plants, at another place."""
    if not made.has("more_word", pieces[n + 1].text) or not day_number(in_figures(pieces[n])):
        return False
    before = any("DUG" in p.types or "PLANTS" in p.types for p in pieces[:n])
    return before and _another_place(pieces, n, n + 2, made)


def _another_place(pieces: list[Piece], start: int, end: int, made: Table) -> bool:
    """Are the words from start to end, "4 more", plants of another place?

    Right behind a word for digging, right before a place, or behind one with what was found there told next.
    """
    behind = pieces[end] if end < len(pieces) else None
    placed = is_any(behind, ("SPOT", "NEAR"))
    led = behind is not None and made.has("place_lead", behind.text.split(" ")[0]) and not _count_linked(pieces, end)
    led = led and not any(
        is_any(p, ("ROOTS", "PLANTS")) or made.has("which_plants", p.text) for p in pieces[end : end + PLACE_WORDS]
    )  # "then two more on the last root"
    if placed or led:
        return not _females_at_place(pieces, start) or _found_next(pieces, end)
    k = start - 1
    while k >= 0 and linking(pieces[k]):
        k -= 1
    if k >= 0 and is_any(pieces[k], ("DUG",)):
        return True
    while k >= 0 and pieces[k].kind == "word" and not is_any(pieces[k], NOUNS | {"NONE"}):
        if is_any(pieces[k], ("SPOT", "FIELD")) or made.has("place_lead", pieces[k].text):
            return _found_next(pieces, end)
        k -= 1
    return False


def _females_at_place(pieces: list[Piece], n: int) -> bool:
    """ "12 white on the hill, another 4 in the draw": is the last thing counted females, their place behind them?"""
    placed = False
    for k in range(n - 1, max(-1, n - FOUND_WITHIN), -1):
        placed = placed or is_any(pieces[k], ("SPOT",))
        if number_like(pieces[k]):
            return placed and is_any(pieces[k + 1], ("COLOUR", "FEMALES"))
    return False


def _count_linked(pieces: list[Piece], n: int) -> bool:
    """ "Mais 4 e 3 amarelas": does a count follow the little word right away?"""
    return n + 1 < len(pieces) and number_like(pieces[n + 1])


def _found_next(pieces: list[Piece], n: int) -> bool:
    """Is what was found the next thing counted in the sentence ("otras 4, también a mano, y no apareció ninguna")?"""
    for k in range(n, min(n + FOUND_WITHIN, len(pieces))):
        if pieces[k].kind == "line" or (pieces[k].kind == "break" and pieces[k].value == "hard"):
            return False
        if is_any(pieces[k], ("NONE", "TOO_MANY")):
            return True
        if number_like(pieces[k]):
            listed = k + 1 < len(pieces) and (pieces[k + 1].text == "," or number_like(pieces[k + 1]))
            return listed or is_any(pieces[k + 1] if k + 1 < len(pieces) else None, ("COLOUR", "FEMALES"))
    return False


FOUND_WITHIN = 14
"""Pieces between plants of another place and what was found there (judgement)."""


def _dug_so_many(pieces: list[Piece], n: int) -> bool:
    """ "Dug 5": a number behind a word for digging, that no noun claims."""
    dug = pieces[n - 1].types.get("DUG")
    return dug is not None and dug.value != "any" and day_number(pieces[n]) and not claims(pieces, n + 1)


MOST_DUG = 40
"""Plants of one place (judgement)."""


def _counts_females(piece: Piece) -> bool:
    """Does it end a count of females: a color, "females", none, too many?"""
    return is_any(piece, ("COLOUR", "FEMALES", "NONE", "TOO_MANY")) or (piece.kind == "number" and piece.value == 0)


def _found_there(pieces: list[Piece], n: int, made: Table) -> bool:
    """Do words for a place, a word for having, and a count follow ("on the flat had 5 yellow")?"""
    for k in range(n, min(n + PLACE_WORDS + 1, len(pieces) - 1)):
        piece = pieces[k]
        if "HAD" in piece.types or made.has("gave", piece.text):
            behind = pieces[k + 1]
            return number_like(behind) or is_any(behind, ("NONE",))
        if piece.kind != "word" or is_any(piece, NOUNS) or "NUMBER_WORD" in piece.types:
            return False
    return False


def _placed(pieces: list[Piece], n: int, made: Table) -> bool:
    """Does a place stand before the number in its clause, or between it and what was found?"""
    if n + 1 < len(pieces) and not ("HAD" in pieces[n + 1].types or made.has("gave", pieces[n + 1].text)):
        return True
    before = pieces[n - 1] if n else None
    return before is not None and before.kind == "word" and not before.types.keys() & (NOUNS | {"HAD", "SAME"})


def _clause_ends(pieces: list[Piece], n: int, made: Table) -> bool:
    """A stop, a joining word or the lead to a place behind a number."""
    if n >= len(pieces) or pieces[n].kind in ("break", "line"):
        return True
    return made.has("and_then", pieces[n].text) or made.has("place_lead", pieces[n].text) or "SPOT" in pieces[n].types
