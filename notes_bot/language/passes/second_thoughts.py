"""What is thought better of within a note: "Depot no, Tinkers. 6 dug ..", "4 0 9 2. no wait the 9 was a 6".

The first field or number is left out, and the answer says so. Only where nothing else can be meant: a field told of at
once with another one, and words for putting right between them; a number that stands in the list just once.
"""

from __future__ import annotations

import itertools
import re
from dataclasses import replace
from itertools import pairwise

from notes_bot.language.lexicon.joining import is_any, linking, number_like
from notes_bot.language.lexicon.pieces import Piece, count_told, ends_clause, piece_at, put_aside
from notes_bot.language.lexicon.tokens import Draft, Slip
from notes_bot.language.lexicon.words import Entry, Table, anywhere
from notes_bot.language.passes.repairs import repaired

LONGEST_RETRACTION = 5
"""Pieces between the wrong name and the right one (judgement)."""
LEAST_LISTED = 3
"""Numbers in a row from which they are a list, one a plant."""
FARTHEST_LIST = 14
"""Pieces before the wrong number is told in which the list ends (judgement)."""
_NOT = (Entry("NOT", "not"),)


def fields_put_right(draft: Draft, made: Table) -> list[Piece]:
    """ "Depot no wait Tinkers, 6 plants": the second name alone, where the first begins the message."""
    pieces = draft.pieces
    if len(pieces) < LEAST_LISTED or not _names(pieces, 0):
        return pieces
    k, said = 1, []
    while k < min(len(pieces), LONGEST_RETRACTION + 1) and not _names(pieces, k):
        if pieces[k].kind == "word":
            said.append(pieces[k].text)
        elif pieces[k].text not in (".", ",", "-", "..", "..."):
            return pieces
        k += 1
    if k >= len(pieces) or not _names(pieces, k) or pieces[k].text == pieces[0].text or not _takes_back(said, made):
        return pieces
    behind = pieces[k + 1] if k + 1 < len(pieces) else None
    stopped = pieces[1].kind in ("break", "sign")
    if behind is None or (behind.kind not in ("break", "line") and (stopped or len(said) == 1)):
        return pieces  # "kestrel no, tinkers 4 white": none there?
    draft.slips.append(Slip("near_word", pieces[k].text, pieces[0].start, pieces[k].end))
    return pieces[k:]


def _names(pieces: list[Piece], n: int) -> bool:
    return "FIELD" in pieces[n].types


def _takes_back(said: list[str], made: Table) -> bool:
    """Is it "no", "no wait that's", "sorry": words for putting right, with a word for being behind them?"""
    while said and (made.has("is_word", said[-1]) or made.has("its_word", said[-1])):
        said = said[:-1]
    told = " ".join(said)
    return bool(said) and any(made.has(manner, told) for manner in ("repairs", "spoken_repair", "meant_instead"))


def lists_put_right(draft: Draft, made: Table) -> list[Piece]:
    """ "4 0 0 9 2 1 whites. no wait the 9 was a 6": the number of the list put right, the words for it left out."""
    pieces = draft.pieces
    for n, piece in enumerate(pieces):
        old = count_told(piece)
        if old is None or n < LEAST_LISTED + 1 or not _points(pieces, n - 1, made):
            continue
        k = n + 1
        being = k < len(pieces) and any(made.has(manner, pieces[k].text) for manner in ("is_word", "should_be"))
        k += 1
        while k < len(pieces) and pieces[k].kind == "word" and linking(pieces[k]) and count_told(pieces[k]) is None:
            k += 1
        new = count_told(pieces[k]) if being and k < len(pieces) else None
        ends = k + 1 >= len(pieces) or pieces[k + 1].kind in ("break", "line")
        begins = _sentence_begins(pieces, n - 1)
        if new is None or not ends or not all(_of_putting_right(p, made) for p in pieces[begins : n - 1]):
            continue
        at = [m for m in _listed(pieces, begins) if pieces[m].value == old]
        if len(at) != 1:
            continue
        (m,) = at
        draft.slips.append(Slip("near_word", str(new), pieces[begins].start, pieces[k].end))
        right = replace(pieces[m], value=new, text=str(new))
        return [*pieces[:m], right, *pieces[m + 1 : begins], *pieces[k + 1 :]]
    return pieces


def counts_told_anew(draft: Draft, made: Table) -> list[Piece]:
    """ "7 white. I mean 7 total, 5 white 2 yellow", "5 white no wait 5 was the plants": what was told then stands."""
    pieces = draft.pieces
    for n, piece in enumerate(pieces):
        if piece.kind != "word" or not (repair := _repair_ends(pieces, n, made)):
            continue
        right = _counts(pieces, repair)
        wrong = _run_before(pieces, n)
        kinds, old = {kind for *_, kind in right}, {kind for *_, kind in wrong}
        values = [pieces[k].value for k, *_ in wrong], [pieces[k].value for k, *_ in right]
        other = len(right) == len(wrong) == 1 and values[0] == values[1] and kinds != old
        shades = [sum(kind == "females" for *_, kind in run) for run in (right, wrong)]
        if not wrong or not right or not (other or (kinds <= old and len(right) > 1)) or shades[0] == 1 < shades[1]:
            continue  # of "6 plants 4 white 2 yellow, sorry 6 plants 5 white" the yellow may stand
        end = right[-1][1]
        if end < len(pieces) and pieces[end].kind not in ("break", "line") and not linking(pieces[end]):
            continue
        kept = [p for first, last, kind in wrong if kind not in kinds and not other for p in pieces[first:last]]
        told = [p for first, last, _ in right for p in pieces[first:last]]
        said = draft.text[told[0].start : told[-1].end]
        draft.slips.append(Slip("near_word", said, pieces[wrong[0][0]].start, told[-1].end))
        return [*pieces[: wrong[0][0]], *kept, *told, *pieces[end:]]
    return pieces


def _repair_ends(pieces: list[Piece], n: int, made: Table) -> int:
    """Where the number begins that words for putting right, beginning at n, lead to; 0 for no such words."""
    words: list[str] = []
    k = n
    while k < len(pieces) and k - n < LONGEST_RETRACTION and (pieces[k].kind == "word" or pieces[k].text in ",.:"):
        words += pieces[k].text.split(" ") if pieces[k].kind == "word" and count_told(pieces[k]) is None else []
        if count_told(pieces[k]) is not None and pieces[k].kind == "word":
            break
        k += 1
    return k if k < len(pieces) and words and pieces[k].kind == "number" and repaired(words, made) else 0


def _counts(pieces: list[Piece], n: int) -> list[tuple[int, int, str]]:
    """The counts told in a row from n on: from where, to where, and of plants or females."""
    out: list[tuple[int, int, str]] = []
    while n < len(pieces) and pieces[n].kind == "number":
        k = n + 1
        while k < len(pieces) and k < n + 3 and linking(pieces[k]) and not is_any(pieces[k], _COUNTED):
            k += 1  # "5 was the plants"
        if k >= len(pieces) or not is_any(pieces[k], _COUNTED):
            break
        out.append((n, k + 1, _of_what(pieces[k])))
        n = k + 1
        while n < len(pieces) and (pieces[n].text == "," or linking(pieces[n])) and n < k + 3:
            n += 1
    return out


def _run_before(pieces: list[Piece], n: int) -> list[tuple[int, int, str]]:
    """The counts told in a row right before n: from where, to where, and of plants or females."""
    out: list[tuple[int, int, str]] = []
    while n and pieces[n - 1].text in (",", ".", "..", "...", "-"):
        n -= 1
    while n > 1 and is_any(pieces[n - 1], _COUNTED) and pieces[n - 2].kind == "number":
        out.insert(0, (n - 2, n, _of_what(pieces[n - 1])))
        n -= 2
        while n and (pieces[n - 1].text == "," or linking(pieces[n - 1])):
            n -= 1
    return out


_COUNTED = ("PLANTS", "COLOUR", "FEMALES", "TOTAL")


def _of_what(noun: Piece) -> str:
    """Plants or females?"""
    return "plants" if is_any(noun, ("PLANTS",)) else "females"


_LABEL = re.compile(r"p(?:l|lt)?\d{1,2}")
"""A plant by its letter and number: here and not in the word files, as it is half a word."""
_RIGHTING = ("repairs", "spoken_repair", "stopped_repair", "meant_instead")
"""Words that put right what was said, one of which must be told."""


def labels_put_right(draft: Draft, made: Table) -> list[Piece]:
    """ "P1 2 p4 3, sorry p4 is 5", "p2 is 1 actually": what a plant told before had, the words for it left out."""
    pieces = draft.pieces
    told: dict[str, int] = {}
    for n, piece in enumerate(pieces):
        if piece.kind != "word" or not _LABEL.fullmatch(piece.text):
            continue
        at = n + 1
        while at + 1 < len(pieces) and (pieces[at].text in (":", "=") or _is_being(pieces[at], made)):
            at += 1
        if at >= len(pieces) or pieces[at].kind != "number" or count_told(pieces[at]) is None:
            continue
        old = told.setdefault(piece.text, at)
        begin, end = _sentence_begins(pieces, n), at + 1
        while end < len(pieces) and pieces[end].kind == "word" and _of_putting_right(pieces[end], made):
            end += 1
        said = [p for p in (*pieces[begin:n], *pieces[at + 1 : end]) if p.kind == "word"]
        surely = any(made.has(manner, p.text) for p in said for manner in _RIGHTING)
        ends = end >= len(pieces) or pieces[end].kind in ("break", "line")
        if old == at or not ends or not surely or not all(_of_putting_right(p, made) for p in pieces[begin:n]):
            continue
        draft.slips.append(Slip("near_word", f"{piece.text} {pieces[at].text}", piece.start, pieces[at].end))
        right = replace(pieces[old], value=pieces[at].value, text=pieces[at].text)
        return [*pieces[:old], right, *pieces[old + 1 : begin], *pieces[end:]]
    return pieces


def _is_being(piece: Piece, made: Table) -> bool:
    """ "Is", "was", "had", "é"."""
    told = any(made.has(manner, piece.text) for manner in ("is_word", "its_word", "should_be", "copula"))
    return told or is_any(piece, ("HAD",))


def _points(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "The (9)", "that (7)", "o (9)"."""
    return made.has("points_to", pieces[n].text)


def _of_putting_right(piece: Piece, made: Table) -> bool:
    """ "No wait", "oops", "sorry", a comma."""
    said = any(made.has(manner, piece.text) for manner in ("repairs", "spoken_repair", "slip_cry", "meant_instead"))
    return said or piece.text == "," or all(made.has("slip_cry", word) for word in piece.text.split(" "))


def _sentence_begins(pieces: list[Piece], n: int) -> int:
    """Where the words for putting right before it begin: behind a stop, or a comma with such words behind it."""
    while n and pieces[n - 1].kind != "line" and (pieces[n - 1].kind != "break" or pieces[n - 1].text == ","):
        if pieces[n - 1].kind == "number" or is_any(pieces[n - 1], ("COLOUR", "PLANTS", "FEMALES")):
            break
        n -= 1
    return n


def _listed(pieces: list[Piece], end: int) -> list[int]:
    """Where the numbers of the last list before a place stand."""
    k = end - 1
    while k >= 0 and end - k < FARTHEST_LIST and pieces[k].kind != "number":
        k -= 1
    found: list[int] = []
    while k >= 0 and (pieces[k].kind == "number" or pieces[k].text in (",", "-", "/")):
        if pieces[k].kind == "number":
            found.append(k)
        k -= 1
    return found if len(found) >= LEAST_LISTED else []


def shades_denied(draft: Draft, made: Table) -> list[Piece]:
    """ "7 tan 4 brown, nary a white one", "ni una blanca": the color alone is denied, and its "one" counts nothing."""
    pieces, out, n = draft.pieces, [], 0
    while n < len(pieces):
        if (within := _denied_within(pieces, n, made)) is not None:
            out += [Piece("word", "no", pieces[n].start, pieces[n].start, _NOT), within]
            n += 1
            continue
        size = next((size for size in (3, 2, 1) if made.has("denies_one", _said(pieces, n, size))), 0)
        if listed := _denied_list(pieces, n, size or 1, made):
            shades, n = listed
            out += [part for shade in shades for part in denied_shade(shade)]
            continue
        shade = pieces[n + size] if size and n + size < len(pieces) else None
        if shade is None or not is_any(shade, ("COLOUR",)) or len(shade.text) < LEAST_LISTED:
            out.append(pieces[n])
            n += 1
            continue
        end = n + size + 1
        while end < len(pieces) and (made.has("noun_one", pieces[end].text) or is_any(pieces[end], ("FEMALES",))):
            end += 1
        out += [Piece("word", "no", pieces[n].start, pieces[n + size - 1].end, _NOT), shade]
        n = end
    return out


NEAR_DENIED = 4
"""Pieces between a denial and the one that it denies, "never did see (a brown one)" (judgement)."""
_NEVER_FEMALES = ("PLANTS", "ROOTS", "NODULES", "TOPS", "EDGES", "VEINS", "SPOT")
"""What else may have a color."""


def ones_denied(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "26 white. I didn't see a brown one anywhere", "no vi una marrón": no brown ones, and not one of them."""
    out: list[Piece] = []
    counted, n = False, 0
    while n < len(pieces):
        found = _one_denied(pieces, n, made) if counted else None
        if found is None:
            counted = counted or counts_females(pieces, n)
            out.append(pieces[n])
            n += 1
            continue
        shade, n = found
        out += denied_shade(shade)
    return out


def _one_denied(pieces: list[Piece], n: int, made: Table) -> tuple[Piece, int] | None:
    """The color of the one that is denied from n on, and where that ends; ``None`` where none is."""
    words = pieces[n].text.split(" ")
    first, last = words[0], words[-1]
    if pieces[n].kind != "word" or not (made.denies(first) or is_any(pieces[n], ("NOT", "NONE"))):
        return None
    k, one, seen = n + 1, len(words) > 1 and _is_one(last, made), False
    while k < len(pieces) and k <= n + NEAR_DENIED and not is_any(pieces[k], ("COLOUR",)):
        piece = pieces[k]
        lone = one and made.has("lone_word", piece.text)
        seen = seen or made.has("seen", piece.text)
        if lone or count_told(piece) == 1 or made.has("one_article", piece.text):
            one = True
        elif one or piece.kind != "word" or piece.types.keys() - {"LINK"} or count_told(piece) is not None:
            return None
        k += 1
    if (
        not (one or seen)
        or k >= len(pieces)
        or not is_any(pieces[k], ("COLOUR",))
        or len(pieces[k].text) < LEAST_LISTED
    ):
        return None
    shade, k = pieces[k], k + 1
    while k < len(pieces) and (made.has("noun_one", pieces[k].text) or is_any(pieces[k], ("FEMALES",))):
        k += 1
    behind = pieces[k] if k < len(pieces) else None
    other = behind is not None and (made.has("but_one", behind.text) or made.has("until", behind.text))
    return None if other or is_any(behind, _NEVER_FEMALES) else (shade, k)


def counts_females(pieces: list[Piece], n: int) -> bool:
    """Does a color or a word for females stand there, a number near before it ("nine of those little white ones")?"""
    near = pieces[max(0, n - NEAR_DENIED) : n]
    return is_any(pieces[n], ("COLOUR", "FEMALES")) and any(number_like(piece) for piece in near)


def shades_absent(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "12 white 5 yellow, tan not seen", "marrones no", "as for brown, none": denied behind its name, with a stop."""
    out: list[Piece] = []
    counted, n = False, 0
    while n < len(pieces):
        end = _absent_end(pieces, n, made) if out and _opens_shade(out, made) else 0
        none = any(is_any(piece, ("NONE",)) for piece in pieces[n + 1 : end])
        if not end or (none and not counted and not is_any(piece_at(pieces, end), ("COLOUR",))):
            counted = counted or counts_females(pieces, n)
            out.append(pieces[n])
            n += 1
            continue
        out += denied_shade(pieces[n])
        counted = True
        n = end
    return out


def _opens_shade(before: list[Piece], made: Table) -> bool:
    """Does a clause begin there, with "and" or "as for" or without? Not behind "blancas y (amarillas ninguna)"."""
    joined = len(before) > LEAST_SHADES and _joins(before[-1], made) and _is_shade(before[-2])
    if joined and not number_like(before[-3]):
        return False
    if len(before) >= LEAST_SHADES and is_any(before[-1], ("COLOUR",)) and number_like(before[-2]):
        return True  # "3 white yellow none tan none"
    words = " ".join(piece.text for piece in before[-2:])
    led = made.has("as_for", words) or (bool(before) and made.has("as_for", before[-1].text))
    return led or ends_clause(piece_at(before, len(before) - 1)) or before[-1].text in anywhere("and_then")


def _absent_end(pieces: list[Piece], n: int, made: Table) -> int:
    """Where the denial behind a color at n ends, its clause with it; 0 for none."""
    if not _is_shade(pieces[n]) or is_any(pieces[n], ("FIELD",)):
        return 0  # "Brown: none" of a field called so
    k = n + 1
    while k < len(pieces) and (_noun(pieces[k], made) or pieces[k].text in (":", ",", "-")):
        k += 1
    sizes = (size for size in (3, 2, 1) if made.has("not_there", " ".join(p.text for p in pieces[k : k + size])))
    end = k + next(sizes, 0)
    behind = piece_at(pieces, end)
    row = is_any(behind, ("COLOUR",)) and all(piece.kind == "word" for piece in pieces[n:k])
    return end if end > k and (ends_clause(behind) or row) else 0  # not "brancas, nenhuma (amarela)"


def _is_one(word: str, made: Table) -> bool:
    """ "Una", "a": one, or an article?"""
    number = any(entry.type == "NUMBER_WORD" and entry.value == "1" for entry in made.singles.get(word, ()))
    return number or made.has("one_article", word)


def _denied_list(pieces: list[Piece], n: int, size: int, made: Table) -> tuple[list[Piece], int] | None:
    """The colors of "not one white, yellow or brown anything", "no whites, tans or browns", and where that ends."""
    if not (is_any(pieces[n], ("NONE", "NOT")) or made.has("denies_one", _said(pieces, n, size))):
        return None
    k, closed = n + size, False
    k += k < len(pieces) and made.has("seen", pieces[k].text)  # "no vi blancas, amarillas ni marrones"
    shades: list[Piece] = []
    while k < len(pieces) and is_any(pieces[k], ("COLOUR",)) and len(pieces[k].text) >= LEAST_LISTED:
        shades.append(pieces[k])
        k += 1
        if closed:
            break
        joint = k
        while k < len(pieces) and (pieces[k].text == "," or pieces[k].text in anywhere("denied_joint")):
            closed = closed or pieces[k].text != ","
            k += 1
        if k == joint:
            break
    behind = pieces[k] if k < len(pieces) else None
    counted = number_like(behind) and not _noun(behind, made)
    if len(shades) < LEAST_SHADES or not closed or counted:
        return None
    if len(shades) == LEAST_SHADES and not (is_any(pieces[n], ("NONE",)) or _noun(behind, made)):
        return None  # "no white or yellow" is told elsewhere
    while k < len(pieces) and _noun(pieces[k], made):
        k += 1
    return shades, k


LEAST_SHADES = 2
"""Colors denied in one list."""


def _noun(piece: Piece | None, made: Table) -> bool:
    """ "(White or brown) ones", ".. females", ".. anything"."""
    if piece is None:
        return False
    return made.has("noun_one", piece.text) or made.has("any_noun", piece.text) or is_any(piece, ("FEMALES",))


def denied_shade(shade: Piece) -> tuple[Piece, Piece, Piece]:
    """A color with "no" before it, and a stop behind."""
    no = Piece("word", "no", shade.start, shade.start, _NOT)
    return no, shade, Piece("break", ",", shade.end, shade.end, (), "soft")


def none_of_shades(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "12 marrones, blancas y amarillas ninguna", "white or yellow: 0": none of each of the colors named before it."""
    for n in range(2, len(pieces)):
        none = is_any(pieces[n], ("NONE",)) or count_told(pieces[n]) == 0
        if not none or not ends_clause(piece_at(pieces, n + 1)):
            continue
        end = n - (pieces[n - 1].text in (":", "="))
        first, shades = end, list[Piece]()
        while first and (_is_shade(pieces[first - 1]) or (shades and _joins(pieces[first - 1], made))):
            first -= 1
            shades += [pieces[first]] if _is_shade(pieces[first]) else []
        if len(shades) < PAIR or not _is_shade(pieces[first]) or not (first and ends_clause(pieces[first - 1])):
            continue
        denied: list[Piece] = []
        for shade in reversed(shades):
            comma = [Piece("break", ",", shade.start, shade.start, (), "soft")] if denied else []
            denied += [*comma, shade, replace(pieces[n], start=shade.end, end=shade.end)]
        return [*pieces[:first], *denied, *none_of_shades(pieces[n + 1 :], made)]
    return pieces


PAIR = 2
"""Colors from which none is told of all of them."""


def _is_shade(piece: Piece) -> bool:
    return is_any(piece, ("COLOUR",)) and len(piece.text) >= LEAST_LISTED


def _joins(piece: Piece, made: Table) -> bool:
    """And, or, nor, a sign between two colors."""
    return piece.text in ("/", "+", "&") or made.has("or_word", piece.text) or piece.text in anywhere("and_word")


def none_darker(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "12 white and 3 yellow, nothing darker than that", "nenhuma passou de amarela": no other than counted."""
    if not any(number_like(p) and is_any(q, ("COLOUR", "FEMALES")) for p, q in pairwise(pieces)):
        return pieces
    return put_aside(pieces, lambda n: _none_beyond(pieces, n, made) if is_any(pieces[n], ("NONE",)) else 0)


def _none_beyond(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "nothing darker (than that)" from n on ends; 0 where nothing is compared."""
    more = [word for word in pieces[n].text.split(" ")[1:] if not made.has("noun_one", word)]
    for end in range(n + 1, min(n + 1 + LONGEST_BEYOND, len(pieces) + 1)):
        words = [*more, *(word for piece in pieces[n + 1 : end] for word in piece.text.split(" "))]
        if not words or not made.has("beyond_shade", " ".join(words)):
            continue
        than = pieces[end : end + LONGEST_THAN]
        size = next((k for k, p in enumerate(than) if p.kind != "word" or is_any(p, ("FIELD",))), len(than))
        led = size and (made.has("talk_than_word", than[0].text) or is_any(than[0], ("COLOUR",)))
        shade = next((k for k, p in enumerate(than[:size]) if is_any(p, ("COLOUR",))), -1)
        told = next((k for k, p in enumerate(than[:size]) if made.has("refers_that", p.text)), shade)
        return end + told + 1 if led and told >= 0 else end
    return 0


LONGEST_BEYOND = 5
"""Pieces of "darker", "further along", "más avanzada" (judgement)."""
LONGEST_THAN = 4
"""Pieces of "than the yellow" (judgement)."""


def sizes_denied(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Didn't see any of the little white balls", "no tiny yellow ones": denied whatever size they were to be."""
    out: list[Piece] = []
    denied = False
    for n, piece in enumerate(pieces):
        denies = is_any(piece, ("NONE",)) or any(made.has("denies_one", _said(pieces, n, size)) for size in (1, 2, 3))
        leads = piece.kind == "word" and (linking(piece) or piece.text in anywhere("name_link"))
        sized = piece.kind == "word" and made.has("size", piece.text)
        if not (denied and sized and _shade_behind(pieces, n, made)):
            out.append(piece)
        denied = denies or (denied and (leads or sized))
    return out


def _shade_behind(pieces: list[Piece], n: int, made: Table) -> bool:
    """Do a color and a word for females stand behind, sizes between them or not?"""
    n += 1
    while n < len(pieces) and made.has("size", pieces[n].text):
        n += 1
    noun = pieces[n + 1] if n + 1 < len(pieces) else None
    named = noun is not None and (is_any(noun, ("FEMALES",)) or made.has("noun_one", noun.text))
    return n < len(pieces) and is_any(pieces[n], ("COLOUR",)) and named


def _denied_within(pieces: list[Piece], n: int, made: Table) -> Piece | None:
    """The color of "not a white one" told as none at all, where others were counted before it."""
    words = pieces[n].text.split(" ")
    if not is_any(pieces[n], ("NONE",)) or len(words) < LEAST_LISTED or not made.has("noun_one", words[-1]):
        return None
    entries = [entry for entry in made.singles.get(words[-2], ()) if entry.type == "COLOUR"]
    counted = any(count_told(p) and is_any(q, ("COLOUR",)) for p, q in itertools.pairwise(pieces[:n]))
    return replace(pieces[n], text=words[-2], entries=tuple(entries)) if entries and counted else None


def seen_apart(draft: Draft, made: Table) -> list[Piece]:
    """ "Dug 3 and there was white ones all over": the plants dug, and no three white ones."""
    pieces, out = draft.pieces, []
    for n, piece in enumerate(pieces):
        out.append(piece)
        k = n + 1
        dug = n > 0 and is_any(pieces[n - 1], ("DUG", "TOOL")) and count_told(piece) is not None
        while (
            dug and k < len(pieces) and pieces[k].kind == "word" and linking(pieces[k]) and k < n + LONGEST_RETRACTION
        ):
            k += 1
        told = " ".join(p.text for p in pieces[n + 1 : k])
        there = any(told == said or told.endswith(f" {said}") for said in made.traits.get("there_is", ()))
        if dug and pieces[n + 1 : n + 2] and pieces[n + 1].text == ",":
            k = n + 2
            there = k + 1 < len(pieces) and made.has(
                "noun_one", pieces[k + 1].text
            )  # "dug 3, white ones on every root"
        if dug and there and k < len(pieces) and is_any(pieces[k], ("COLOUR", "FEMALES")) and pieces[k].kind == "word":
            out.append(Piece("break", ".", piece.end, piece.end, (), "hard"))
    return out


def _said(pieces: list[Piece], n: int, size: int) -> str:
    """So many pieces from n on as they are said."""
    return " ".join(piece.text for piece in pieces[n : n + size])


def nth_told_first(draft: Draft, made: Table) -> list[Piece]:
    """ "A and B, 6 plants each: none in the first and 5 white in the second": which of the fields stands first."""
    pieces = draft.pieces
    if sum(_names(pieces, n) for n in range(len(pieces))) < LEAST_FIELDS:
        return pieces
    told = [n for n in range(len(pieces)) if _nth_behind(pieces, n, made)]
    if [_nth(pieces[n]) for n in told] != [1, 2] or not any(_names(pieces, n) for n in range(told[0])):
        return pieces
    out: list[Piece] = []
    begins = _clause_begins(pieces, told[0] - 2 + _holds_at(pieces, told[0]))
    out += pieces[:begins]
    for n in told:
        clause = pieces[begins : n - 2 + _holds_at(pieces, n)]
        if not clause or any("FIELD" in piece.types for piece in clause):
            return pieces
        at = clause[0].start
        out += [Piece("break", ".", at, at, (), "hard"), pieces[n - 1], pieces[n], *clause]
        begins = n + 1
        while begins < len(pieces) and (pieces[begins].text == "," or made.has("and_then", pieces[begins].text)):
            begins += 1
    return [*out, *pieces[told[-1] + 1 :]]


LEAST_FIELDS = 2
"""Fields from which one is the first of them."""


def _nth(piece: Piece) -> int:
    """Which one "first" says; 0 for no such word."""
    entry = piece.types.get("NTH") or piece.types.get("ORDINAL")
    return int(entry.value) if entry is not None and str(entry.value).isdecimal() else 0


def _nth_behind(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "(None) in the first", "(4 blancas) en el segundo", at the end of its clause."""
    if n < LEAST_LISTED or not _nth(pieces[n]) or not made.has("nth_article", pieces[n - 1].text):
        return False
    behind = pieces[n + 1] if n + 1 < len(pieces) else None
    ends = behind is None or behind.kind in ("break", "line") or made.has("and_then", behind.text)
    return ends and (_holds_at(pieces, n) or made.has("at", pieces[n - 2].text) or linking(pieces[n - 2]))


def _holds_at(pieces: list[Piece], n: int) -> bool:
    """ "No (primeiro)", "en el (segundo)" in one piece: the article with a word for "at"."""
    return len(pieces[n - 1].text) > 1 and pieces[n - 1].text in anywhere("at_the")


def _clause_begins(pieces: list[Piece], n: int) -> int:
    """Where the clause that ends before a piece begins: behind a stop or a colon."""
    while n and pieces[n - 1].kind not in ("break", "line") and pieces[n - 1].text != ":":
        n -= 1
    return n
