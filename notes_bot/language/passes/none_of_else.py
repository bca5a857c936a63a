"""What "nothing" and "not one" are said of: "no salió una sola hembra" is none seen, "nada quedó abajo" is not.

"Sem ferramenta nenhuma", "no se cortó ninguna raíz", "limpias de tierra" tell of the digging; "me volví sin sacar una
planta" of no look at all.
"""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any, number_like
from notes_bot.language.lexicon.pieces import Piece, count_told, ends_clause, piece_at
from notes_bot.language.lexicon.words import Entry, Table
from notes_bot.language.passes.second_thoughts import counts_females, denied_shade

NEAR_DENIAL = 6
"""Pieces from a denial to the one that it denies, "não consegui achar nas raízes uma fêmea" (judgement)."""
NEAR_VERB = 5
"""Pieces from "nothing" to the verb it is said of: "cuidado de no perder nada" (judgement)."""
NEAR_BEHIND = 2
"""Pieces behind "nothing" in which its verb stands, "ninguna se me cortó" (judgement)."""
NEAR_PLACE = 4
"""Pieces behind "nothing" in which it is said where it is left: "nada quedó en el suelo" (judgement)."""
_FOUND = frozenset({"COLOUR", "FEMALES", "TOO_MANY", "NODULES"})


def one_denied(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "No salió una sola hembra", "não tinha uma fêmea": none seen; "sin sacar una planta": not looked."""
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        found = _one_denied(out, pieces, n, made) if count_told(pieces[n]) == 1 else None
        if found is None:
            out.append(pieces[n])
            n += 1
            continue
        begin, end, entry = found
        said = " ".join(piece.text for piece in (*out[begin:], *pieces[n:end]))
        denied = Piece("word", said, out[begin].start, pieces[end - 1].end, (entry,), None, out[begin].spaced)
        out[begin:] = [denied]
        n = end
    return out


def _one_denied(before: list[Piece], pieces: list[Piece], n: int, made: Table) -> tuple[int, int, Entry] | None:
    """Where the denial of the one female or plant at n begins, where it ends, and what it says."""
    end = n + 1
    while (piece := piece_at(pieces, end)) is not None and made.has("lone_word", piece.text):
        end += 1
    plant = is_any(piece, ("PLANTS",)) and not is_any(piece, ("ROOTS",))
    behind = piece_at(pieces, end + 1)
    if piece is None or not (plant or is_any(piece, ("FEMALES",))) or is_any(behind, ("COLOUR", "PLANTS")):
        return None
    verb = False
    for begin in range(len(before) - 1, max(-1, len(before) - 1 - NEAR_DENIAL), -1):
        word = before[begin]
        if word.kind != "word" or is_any(word, ("COLOUR", "FEMALES")) or made.has("but_one", word.text):
            return None
        verb = verb or any(made.stemmed("look_stem", w) for w in word.text.split(" ")) or is_any(word, ("DUG",))
        if not made.has("denies", word.text.split(" ")[0]):
            continue
        infested = plant and behind is not None and made.has("with_word", behind.text)
        infested = infested and is_any(piece_at(pieces, end + 2), ("FEMALES",))  # "no vi una planta con quistes"
        if infested or not plant:
            return begin, end + 1 + 2 * infested, Entry("NONE", "none")
        return (begin, end + 1, Entry("NOT_LOOKED", "not_looked")) if verb else None
    return None


def nothing_else(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with each "nothing" that is said of something other than females as an aside."""
    out = list(pieces)
    n = 0
    while n < len(out):
        if is_any(out[n], ("NONE",)) and (span := _of_else(out, n, made)) is not None:
            first, last = span
            out[first : last + 1] = [Piece("aside", "", out[first].start, out[last].end)]
            n = first
        n += 1
    return out


def colors_searched(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Busqué puntitos blancos o amarillos y no hallé ninguno": what was searched and not found tells no color.

    Where others were counted before it, they alone are not there: "24 white. Looked hard for tan ones, found none".
    """
    out: list[Piece] = []
    counted, n = False, 0
    while n < len(pieces):
        none = _searched_to(pieces, n, made)
        if not none:
            counted = (counted or counts_females(pieces, n)) and not is_any(pieces[n], ("FIELD",))
            out.append(pieces[n])
            n += 1
            continue
        named = [k for k in range(n + 1, none) if is_any(pieces[k], ("COLOUR", "FEMALES"))]
        shades = [pieces[k] for k in named if is_any(pieces[k], ("COLOUR",))]
        if counted and shades:
            out += [part for shade in shades for part in denied_shade(shade)]
            n = none + 1
        else:
            out.append(Piece("aside", "", pieces[n].start, pieces[named[-1]].end))
            n = named[-1] + 1
    return out


def _searched_to(pieces: list[Piece], n: int, made: Table) -> int:
    """Where the "none" stands that is said of colors or females searched for from n on; 0 for none."""
    sizes = (size for size in (3, 2, 1) if made.has("searched", " ".join(p.text for p in pieces[n : n + size])))
    behind = n + next(sizes, 0)
    if behind == n:
        return 0
    none = next((k for k in range(behind, min(n + FARTHEST_NONE, len(pieces))) if is_any(pieces[k], ("NONE",))), 0)
    between = pieces[behind:none]
    parted = any(p.kind == "line" or p.value == "hard" or number_like(p) for p in between)
    searched = any(is_any(p, ("COLOUR", "FEMALES")) for p in between)
    other = any(is_any(p, _ELSEWHERE) for p in between)
    return none if searched and not parted and not other else 0


FARTHEST_NONE = 14
"""Pieces from the word for searching to "none" (judgement)."""
_ELSEWHERE = ("NODULES", "TOPS", "EDGES", "VEINS")
"""What may be searched for besides, and has colors too."""


def _of_else(pieces: list[Piece], n: int, made: Table) -> tuple[int, int] | None:
    """The first and last piece of what is said with the "nothing" at n of something else; ``None`` for no such."""
    nothing = made.has("nothing_word", pieces[n].text)
    if not nothing:
        return _cleaned(pieces, n, made)
    first = n
    while first and not ends_clause(pieces[first - 1]) and n - first < NEAR_VERB:
        first -= 1
    last = n
    while (piece := piece_at(pieces, last + 1)) is not None and not ends_clause(piece) and last - n < NEAR_VERB:
        last += 1
    if any(is_any(piece, _FOUND) for piece in pieces[first : last + 1]):
        return None
    for k in (n - 1, n + 1):
        thing = piece_at(pieces, k)
        if thing is not None and made.has("no_thing", thing.text):
            return _with_denial(pieces, min(k, n), made), max(k, n)
    before, behind = piece_at(pieces, n - 1), piece_at(pieces, n + 1)
    if before is not None and made.has("neither_word", before.text):
        return n - 1, n  # "sin lavar ni nada"
    of = behind is not None and made.has("of_word", behind.text)
    doing = piece_at(pieces, n + 2)
    if of and doing is not None and made.stemmed("no_doing", doing.text):
        return n, n + 2  # "nada de tironear"
    denied = next((k for k in range(n, first - 1, -1) if made.denies(pieces[k].text.split(" ")[0])), n)
    ends = min(last, n + NEAR_BEHIND)
    verbs = _verbs(pieces, denied, ends, "spoils", made)
    if not verbs:
        left = _verbs(pieces, denied, ends, "stays", made)
        placed = any(made.has("left_there", w) for p in pieces[n : n + NEAR_PLACE] for w in p.text.split(" "))
        verbs = left if placed else []
    if not verbs:
        return None
    noun = n + is_any(behind, ("PLANTS", "ROOTS"))
    return _with_denial(pieces, min(*verbs, n), made), max(*verbs, noun)


def _verbs(pieces: list[Piece], first: int, last: int, manner: str, made: Table) -> list[int]:
    """The pieces from one to another that hold a verb of a manner, and no participle: "raíces cortadas"."""
    endings = tuple(made.traits.get("participle_end", ()))
    return [
        k
        for k in range(first, last + 1)
        if any(made.stemmed(manner, w) and not w.endswith(endings) for w in pieces[k].text.split(" "))
    ]


def _with_denial(pieces: list[Piece], n: int, made: Table) -> int:
    """Where it begins with the words before that deny it: "(sin) perder nada", "(no se) cortó ninguna raíz"."""
    k = n
    while k and n - k < 2 and pieces[k - 1].kind in ("word", "link") and not made.denies(pieces[k].text):
        k -= 1
    return k if made.denies(pieces[k].text) else n


def _cleaned(pieces: list[Piece], n: int, made: Table) -> tuple[int, int] | None:
    """ "Limpias de tierra": clean of soil, which tells nothing of females."""
    of, soil = piece_at(pieces, n + 1), piece_at(pieces, n + 2)
    clean = made.has("clean_word", pieces[n].text.split(" ")[-1])
    if not clean or of is None or soil is None or not made.has("of_word", of.text):
        return None
    return (n, n + 2) if made.has("washed_off", soil.text) else None
