"""Signs of plants that somebody did not see: "didn't notice any yellowing", "sin señales de enanismo", "no reboleiras".

A denial and a sign of tops, roots or nodules with nothing between them but words for seeing, being and plants: the sign
is not there, and it is not the females that nobody saw. Both are put aside; a list goes on to its last sign ("no
stunting or yellowing"), and what is told behind "but" stands.
"""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece, ends_clause, number_told, piece_at
from notes_bot.language.lexicon.words import Entry, Table, anywhere

MOST_BETWEEN = 8
"""Pieces between a denial and the sign: "can't say that I saw any signs of yellowing" (judgement)."""
LONGEST_SIGN = 6
"""Pieces of the longest sign: "old yellow leaves" (judgement)."""
MOST_LISTED = 8
"""Signs of the longest list that one denial begins (judgement)."""
_NOUNS = ("TOPS", "PLANTS", "ROOTS", "NODULES")
_RUN = (*_NOUNS, "TOP", "ROOT", "NODULE", "COLOUR", "BANDS", "OLD", "NEW", "VEINS")
"""Kinds of words a sign is told by: "yellow leaves", "raíces oscuras"."""
_HEALTHY = (Entry("TOP", "healthy"),)


def signs_denied(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with each sign that is denied, its denial and the list it begins as one aside."""
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        begin, end = _denied(pieces, n, made)
        if end > n:
            out += pieces[n:begin]
            told = pieces[begin:end]
            symptoms = any(made.has("symptom_word", piece.text.split(" ")[-1]) for piece in told)
            kind, entries = ("word", _HEALTHY) if symptoms else ("aside", ())
            out.append(Piece(kind, "no symptoms" if symptoms else "", told[0].start, told[-1].end, entries))
        else:
            out.append(pieces[n])
        n = max(end, n + 1)
    return out


def _denied(pieces: list[Piece], n: int, made: Table) -> tuple[int, int]:
    """From and to where what is denied at n goes; the end is 0 where nothing is."""
    piece = pieces[n]
    if piece.kind != "word":
        return n, 0
    if _sign_ends(pieces, n, made) and (end := _none_behind(pieces, n, made)):
        return n, end
    if not _denies(piece, made):
        return n, 0
    if is_any(piece, ("TOP",)):  # "no stunting", which is a way to say healthy, "or yellowing"
        end = _list_ends(pieces, n + 1, made)
        return n + 1, end if end > n + 1 else 0
    if _told_whole(piece, made):
        return _beside_females(pieces, n, made)
    first = n + 1
    most = n if _said_of_looking(piece, made) else n + MOST_BETWEEN
    while first < len(pieces) and first <= most and not _sign_ends(pieces, first, made):
        if is_any(pieces[first], ("FEMALES",)):
            return _beside_females(pieces, first, made)
        if not _between(pieces[first], made) or _second_noun(pieces, n, first):
            return n, 0
        first += 1
    end = _sign_ends(pieces, first, made)
    soil_or_stage = end and (is_any(pieces[first], ("MOISTURE",)) or pieces[first].kind == "stage")
    if soil_or_stage and (_one_for_another(pieces, n) or (first == n + 1 and is_any(piece, ("NOT",)))):
        return n, 0
    if not end or _stands_alone(pieces, n, made) or _second_noun(pieces, n, first):
        return n, 0
    return n, _list_ends(pieces, end, made)


def _denies(piece: Piece, made: Table) -> bool:
    """A denial, or a phrase that begins with one; no word for clean, and nothing that tells something else."""
    words = piece.text.split(" ")
    if piece.kind != "word" or is_any(piece, ("FIELD", "RESISTANCE", "MOISTURE", "DUG", "SOAKED", "TOOL")):
        return False
    if is_any(piece, ("NOT_LOOKED",)) and not _seen_or_looked(piece, made):
        return False  # "didn't look at any (wilted pretty bad)"
    did = ("DUG", "SOAKED", "TOOL")
    if made.has("sign_affirmed", piece.text) or any(e.type in did for w in words for e in made.singles.get(w, ())):
        return False  # "no doubt stunted", "not dug"
    if len(words) > 1 and not is_any(piece, ("TOP",)) and not all(_little(word, made) for word in words[1:]):
        return False  # "didn't count (wilted pretty bad)"
    within = is_any(piece, ("NONE", "NOT", "NOT_LOOKED")) and any(map(made.denies, words))  # "there weren't any"
    return within or made.denies(words[0]) or words[0] in anywhere("sign_denial")


def _one_for_another(pieces: list[Piece], n: int) -> bool:
    """ "R4 not R5", "dry and not wet", "0 found, V6": the right one for the wrong one, or nobody there at all."""
    said = pieces[max(0, n - 1 - MOST_BETWEEN) : n]
    right = any(piece.kind == "stage" or is_any(piece, ("MOISTURE",)) for piece in said)
    return right or is_any(pieces[n], ("NONE", "NOT_LOOKED")) or pieces[n].text in anywhere("sign_alone")


def _told_whole(piece: Piece, made: Table) -> bool:
    """ "No females", "no cysts": a denial that says of what."""
    words = piece.text.split(" ")[1:]
    return any(e.type == "FEMALES" for word in words for e in made.singles.get(word, ()))


def _little(word: str, made: Table) -> bool:
    """A word for seeing, being, or plants and roots."""
    if word in anywhere("sign_between") or made.denies(word) or made.has("sign_seen", word):
        return True
    return any(e.type in (*_NOUNS, "FEMALES", "COLOUR") for e in made.singles.get(word, ()))


def _seen_or_looked(piece: Piece, made: Table) -> bool:
    """ "No le vi", "zero plants", "don't look": does it deny that something was seen, was there or looked so?"""
    last = piece.text.split(" ")[-1]
    return made.has("sign_seen", last) or made.has("sign_looks", last)


def _said_of_looking(piece: Piece, made: Table) -> bool:
    """ "Didn't look (at tops, yellow)", "don't look (stunted)": nobody looked, or it is said right behind how."""
    return is_any(piece, ("NOT_LOOKED",)) and made.has("sign_looks", piece.text.split(" ")[-1])


def _stands_alone(pieces: list[Piece], n: int, made: Table) -> bool:
    """ "6 plants none tops yellow", "nothing on any of them roots are white": none seen, and something else behind it.

    Not so in "none of the plants look yellow", "nothing looked stunted", "nada de manchones".
    """
    words = pieces[n].text.split(" ")
    if words[0] not in anywhere("sign_alone"):
        return False
    behind = words[1] if len(words) > 1 else pieces[n + 1].text.split(" ")[0]
    return not (made.has("sign_of", behind) or made.has("sign_looks", behind))


def _second_noun(pieces: list[Piece], n: int, at: int) -> bool:
    """ "No nodules roots (dark)": something else named behind what is denied."""
    kinds = [kind for k in range(n + 1, at + 1) for kind in ("ROOTS", "NODULES") if is_any(pieces[k], (kind,))]
    return len(set(kinds)) > 1


def _between(piece: Piece, made: Table) -> bool:
    """May it stand between a denial and its sign: "see any", "of the plants look", "señales de"?"""
    if piece.text == "ve" or (piece.text == "-" and not piece.spaced):
        return True  # "no se ve", "não observou-se"
    if piece.kind != "word" or is_any(piece, ("FIELD", "FEMALES", "COLOUR")) or number_told(piece) is not None:
        return False
    words = piece.text.split(" ")
    return is_any(piece, _NOUNS) or all(word in anywhere("sign_between") or made.denies(word) for word in words)


def _sign_ends(pieces: list[Piece], n: int, made: Table) -> int:
    """Where the words for a sign that begins at n end; 0 for none."""
    end = n
    named = told = False
    if n < len(pieces) and (
        is_any(pieces[n], ("MOISTURE",))
        or (pieces[n].kind == "stage" and pieces[n].text not in anywhere("sign_between"))
    ):
        return n + 1
    while end < min(len(pieces), n + LONGEST_SIGN) and pieces[end].kind == "word" and is_any(pieces[end], _RUN):
        if _denies(pieces[end], made) or is_any(pieces[end], ("FIELD", "NONE", "FEMALES")):
            break
        noun = is_any(pieces[end], _NOUNS)
        if noun and named and (told or _second_noun(pieces, n - 1, end)):
            break  # "(no hay hojas amarillas) plantas enanas", "(no nodules) roots dark"
        named, told = named or noun, told or not noun
        end += 1
        if noun and told and is_any(pieces[n], ("TOP", "ROOT", "COLOUR")) and not is_any(pieces[n], _NOUNS):
            break  # "(no yellow plants) stunted"
    if is_any(piece_at(pieces, end), ("FEMALES",)):
        return 0
    return end if any(_signs(pieces, k, n, end, made) for k in range(n, end)) else 0


def _signs(pieces: list[Piece], k: int, begin: int, end: int, made: Table) -> bool:
    """Does a word tell a sign: of tops, of bands, or of roots, nodules and leaves named beside it or before it?"""
    piece = pieces[k]
    if is_any(piece, ("BANDS",)) or ("TOP" in piece.types and piece.types["TOP"].value != "healthy"):
        return True
    if made.has("symptom_word", piece.text.split(" ")[-1]):
        return True
    named = _names_roots(piece, made) or (begin > 0 and _names_roots(pieces[begin - 1], made))
    near = [*pieces[max(begin, k - 1) : k], *pieces[k + 1 : min(k + 2, end)], *_before(pieces, begin, made)]
    below = named or any(is_any(other, ("ROOTS", "NODULES")) for other in near)
    shade = is_any(piece, ("COLOUR",)) and len(piece.text) > 1
    return (is_any(piece, ("ROOT", "NODULE")) and below) or (shade and any(is_any(other, _NOUNS) for other in near))


def _names_roots(piece: Piece, made: Table) -> bool:
    """ "Raíces cortadas", "no vi raíces": a phrase with a word for roots in it."""
    words = piece.text.split(" ")
    return len(words) > 1 and any(e.type == "ROOTS" for word in words for e in made.singles.get(word, ()))


def _before(pieces: list[Piece], n: int, made: Table) -> list[Piece]:
    """What of plants or roots is named before it in its clause, no number in between: "roots don't look (dark)"."""
    for k in range(n - 1, max(-1, n - 1 - MOST_BETWEEN), -1):
        piece = pieces[k]
        word = piece.kind == "word" or _between(piece, made)
        if not word or number_told(piece) is not None or is_any(piece, ("FEMALES", "COLOUR")):
            return []
        if is_any(piece, _NOUNS):
            return [piece] if number_told(piece_at(pieces, k - 1)) is None else []
    return []


def _list_ends(pieces: list[Piece], end: int, made: Table) -> int:
    """Where a list of denied signs ends: "(no yellowing), stunting or wilting", "(sin manchones) ni plantas enanas"."""
    closed = end
    for _ in range(MOST_LISTED):
        piece = piece_at(pieces, end)
        if piece is None:
            break
        either = piece.text in anywhere("sign_or")
        if not either and piece.text != "," and not made.has("and_word", piece.text):
            break
        first = end + 1
        while first < len(pieces) and first - end <= MOST_BETWEEN and _between(pieces[first], made):
            if _sign_ends(pieces, first, made):
                break
            first += 1
        after = _sign_ends(pieces, first, made) if first < len(pieces) else 0
        bare = first == end + 1 and not any(is_any(p, _NOUNS) for p in pieces[first:after])
        if not after or not (either or bare):
            break
        end = after
        if either or (piece.text != "," and ends_clause(piece_at(pieces, end))):
            closed = end
    return closed


def _beside_females(pieces: list[Piece], n: int, made: Table) -> tuple[int, int]:
    """ "(No cysts) or yellowing": a sign denied in one breath with the females."""
    joint = piece_at(pieces, n + 1)
    if joint is None or joint.text not in anywhere("sign_or"):
        return n, 0
    end = _list_ends(pieces, n + 1, made)
    return n + 1, end if end > n + 1 else 0


def _none_behind(pieces: list[Piece], n: int, made: Table) -> int:
    """Where "yellowing: none", "manchones no hay" ends: the denial behind the sign, and nothing behind it."""
    end = _sign_ends(pieces, n, made)
    sign = piece_at(pieces, end)
    titled = sign is not None and sign.text in (":", "=", "?")
    last = piece_at(pieces, end + titled)
    if last is None or not _denies(last, made) or not ends_clause(piece_at(pieces, end + titled + 1)):
        return 0
    told = titled or last.text.split(" ")[-1] in anywhere("sign_seen")
    begins = n == 0 or pieces[n - 1].kind in ("break", "line") or is_any(pieces[n - 1], ("FIELD",))
    return end + titled + 1 if told and begins else 0
