"""Numbers put right while speaking: "12 white... no sorry thats 10 white", "8 dug, make that 9", "8 plants, not 80"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from notes_bot.language.lexicon.joining import in_figures, is_any, linking
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.tokens import Slip
from notes_bot.language.lexicon.words import Table, anywhere

MOST_REPAIR = 12
"""Pieces of the words for putting right between two numbers, stops among them (judgement)."""
MOST_NOUNS = 2
"""Words behind a number that say what it counts: "plants dug"."""
_REPEATED = frozenset({"PLANTS", "COLOUR", "FEMALES", "DUG"})
"""What may be said again with the number put right."""
_STOPS = frozenset({",", ".", "-", "(", "!", ":", "/"})
"""Signs that may stand among the words."""


def put_right(pieces: list[Piece], made: Table) -> tuple[list[Piece], list[Slip]]:
    """ "Dug six, no seven plants", "12 white, make that 10": the second number stands, and the answer says so."""
    slips: list[Slip] = []
    out: list[Piece] = []
    noted = _tells_visit(pieces)
    figures = [_figure(piece) for piece in pieces]
    n = 0
    while n < len(pieces):
        put = _put(figures, n, made, noted)
        if put is None:
            out.append(pieces[n])
            n += 1
            continue
        while put.leads and out and _goes_along(out[-1], made):
            out.pop()
        slips.append(Slip("near_word", _read(put.right), pieces[n].start, put.right.end))
        out += put.kept
        n = put.end
    return out, slips


def _figure(piece: Piece) -> Piece:
    """A word that is a number and nothing else as that number: "five, no wait six, plants"."""
    return in_figures(piece) if piece.types.keys() == {"NUMBER_WORD"} else piece


@dataclass(frozen=True, slots=True)
class _Put:
    """What stands for the pieces up to an end (exclusive): the right number, with what it counts."""

    right: Piece
    kept: list[Piece]
    end: int
    leads: bool = False
    """Do words that go with it, "no", stand before it?"""


def number_again(pieces: list[Piece], n: int, made: Table) -> tuple[list[Piece], int, str] | None:
    """ "20, digo, 25 hembras", "V5, no, V6": what stands for the pieces from there to an end, and how it was read."""
    put = _said_again(pieces, n, made) if pieces[n].kind in ("number", "stage") else None
    return (put.kept or [put.right], put.end + (not put.kept), _read(put.right)) if put is not None else None


def _read(right: Piece) -> str:
    """How a number or a stage is shown."""
    return f"{right.value:g}" if right.kind == "number" else right.text.upper()


def _put(pieces: list[Piece], n: int, made: Table, noted: bool) -> _Put | None:
    """What is put right from n on; ``None`` for nothing."""
    piece = pieces[n]
    if piece.kind in ("number", "stage"):
        return _said_again(pieces, n, made) or (_denied_behind(pieces, n) if noted else None)
    return _denied_first(pieces, n, made) if noted and "NOT" in piece.types else None


def _tells_visit(pieces: list[Piece]) -> bool:
    """Are plants and what was found on them told, and one thing denied? "14 white not 12" is a short reply."""
    denied = [n for n, p in enumerate(pieces[:-1]) if "NOT" in p.types and pieces[n + 1].kind == "number"]
    counted = [n for n, p in enumerate(pieces[:-1]) if p.kind == "number" and n - 1 not in denied]
    dug = any(is_any(p, ("DUG", "TOOL")) for p in pieces)
    dug = dug or any(is_any(pieces[n + 1], ("PLANTS",)) for n in counted)
    found = any(is_any(pieces[n + 1], ("COLOUR", "FEMALES")) for n in counted) or any("NONE" in p.types for p in pieces)
    return len(denied) == 1 and dug and found


def repaired(words: Sequence[str], made: Table) -> bool:
    """ "No sorry thats": a word that puts right what stands before it, and no others but such as go with it?

    "No wait, I have it written down here", "hmm, let me count again... no": also where the right one was looked up.
    """
    n, strong, denied, looked = 0, False, False, False
    while n < len(words):
        size = _longest("repairs", words, n, made)
        found = 0 if size else _longest("looks_up", words, n, made)
        beside = size or found or made.has("beside_repair", words[n]) or made.has("fillers", words[n])
        if not beside:
            return False
        strong, looked = strong or bool(size), looked or bool(found)
        denied = denied or made.has("spoken_repair", words[n]) or made.has("stopped_repair", words[n])
        n += int(beside)
    return strong or (denied and looked)


def _longest(manner: str, words: Sequence[str], n: int, made: Table) -> int:
    """How many words from n on are the longest phrase of a manner; 0 for none."""
    return next((k for k in range(len(words) - n, 0, -1) if made.has(manner, " ".join(words[n : n + k]))), 0)


def _said_again(pieces: list[Piece], n: int, made: Table) -> _Put | None:
    """The number or stage behind words that put right the one at n."""
    nouns = _nouns(pieces, n + 1)
    nouns += [p for p in pieces[n + 1 + len(nouns) :][:1] if nouns and is_any(p, ("TOOL",))]
    k = n + 1 + len(nouns)
    words: list[str] = []
    stops = ""
    while k < len(pieces) and k <= n + len(nouns) + MOST_REPAIR and pieces[k].kind not in ("number", "stage"):
        if pieces[k].kind == "word":
            words += pieces[k].text.split(" ")
        elif pieces[k].text in _STOPS:
            stops += pieces[k].text
        else:
            return None
        k += 1
    if k >= len(pieces) or pieces[k].kind != pieces[n].kind or not words:
        return None
    told = " ".join(words)
    strong = repaired(words, made)
    if pieces[n].kind == "stage":
        said = made.has("spoken_repair", told) or (pieces[k - 1].text == "," and made.has("stopped_repair", told))
        return _Put(pieces[k], [], k) if strong or said else None  # "R3, no R2" denies the other
    first, right = pieces[n], pieces[k]
    if not (isinstance(first.value, int) and isinstance(right.value, int) and first.value != right.value):
        return None
    between = pieces[n + 1 + len(nouns)].text in _STOPS and pieces[k - 1].text == ","
    plain = between and any(made.has(how, told) for how in ("spoken_repair", "stopped_repair"))  # "20... no, 25"
    if not nouns:
        spoken = not (first.text.isdigit() or right.text.isdigit())  # "14 no 12" denies the 12
        ended = "." in stops.replace("...", "")
        sure = strong or plain or (spoken and made.has("spoken_repair", told))
        return _confirmed(pieces, k, [], made) if sure and not ended else None
    stopped = pieces[k - 1].text == "," and made.has("stopped_repair", told)  # "3 blancas no, 13 blancas"
    if _same(nouns, _nouns(pieces, k + 1)):
        tools = [p for p in nouns if is_any(p, ("TOOL",)) and not is_any(p, ("PLANTS",))]
        return _confirmed(pieces, k, [], made, tools) if strong or stopped or made.has("spoken_repair", told) else None
    return _confirmed(pieces, k, nouns, made) if (strong or plain) and _stands_alone(pieces, k) else None


def _confirmed(pieces: list[Piece], k: int, nouns: list[Piece], made: Table, tools: Sequence[Piece] = ()) -> _Put:
    """The number at k, which counts these nouns or those behind it, without its being said once more.

    "5 plants, no, 6, I pulled 6", "20... não, 25 fêmeas, 25 mesmo".
    """
    right = pieces[k]
    end = k + 1 if nouns else k + 1 + len(_nouns(pieces, k + 1))
    kept = [right, *(nouns or pieces[k + 1 : end]), *tools]
    at = end + 1
    while at < len(pieces) and (_goes_along(pieces[at], made) or is_any(pieces[at], ("DUG",))):
        at += 1
    again = pieces[at] if at < len(pieces) and pieces[end].text == "," else None
    if again is None or again.kind != "number" or again.value != right.value:
        return _Put(right, kept, end)
    dug = [pieces[m] for m in range(end + 1, at) if is_any(pieces[m], ("DUG",))]
    at += 1 + len(_nouns(pieces, at + 1))
    while at < len(pieces) and any(made.has(how, pieces[at].text) for how in ("said_firmly", "yes_word")):
        at += 1
    ends = at == len(pieces) or pieces[at].kind in ("break", "line")
    return _Put(right, [*dug, *kept], at) if ends else _Put(right, kept, end)


def _nouns(pieces: list[Piece], n: int) -> list[Piece]:
    """The words from n on that say what a number counts."""
    end = n
    while end < len(pieces) and end < n + MOST_NOUNS and is_any(pieces[end], _REPEATED):
        end += 1
    return pieces[n:end]


def _same(nouns: list[Piece], others: list[Piece]) -> bool:
    """Is the same counted by both?"""
    return any(_alike(noun, other) for noun in nouns for other in others)


def _alike(noun: Piece, other: Piece) -> bool:
    """Two words for plants, for digging, for the same color."""
    if is_any(noun, ("COLOUR",)) and is_any(other, ("COLOUR",)):
        return noun.types["COLOUR"].value == other.types["COLOUR"].value
    return bool(noun.types.keys() & other.types.keys() & _REPEATED)


def _stands_alone(pieces: list[Piece], n: int) -> bool:
    """Does a clause end behind a number, and is it none of a list ("8 plants, wait: 3, 0, 2")?"""
    behind = pieces[n + 1] if n + 1 < len(pieces) else None
    if behind is None or behind.kind == "line" or behind.text in anywhere("and_word"):
        return True
    listed = n + 2 < len(pieces) and pieces[n + 2].kind == "number" and not _nouns(pieces, n + 3)
    return behind.text in {",", ".", "!", ")"} and not listed


def _denied_behind(pieces: list[Piece], n: int) -> _Put | None:
    """ "8 dug, not 80 lol": what a number is not says no more than the number."""
    nouns = _nouns(pieces, n + 1)
    counts = nouns or (n > 0 and is_any(pieces[n - 1], ("DUG",)))
    k = n + 1 + len(nouns)
    while k < len(pieces) and pieces[k].text in {",", "("}:
        k += 1
    if not counts or k + 1 >= len(pieces) or "NOT" not in pieces[k].types or not _denies(pieces[k + 1], pieces[n]):
        return None
    again = _nouns(pieces, k + 2)
    if again and not _same(nouns, again):
        return None
    end = k + 2 + len(again)
    while end < len(pieces) and _laughs(pieces[end]):
        end += 1
    ends = end == len(pieces) or pieces[end].kind in ("break", "line") or pieces[end].text == ")"
    return _Put(pieces[n], [pieces[n], *nouns], end) if ends else None


def _denied_first(pieces: list[Piece], n: int, made: Table) -> _Put | None:
    """ "No not 80 plants lol, eight. eight dug": what is denied stands before what is so."""
    nouns = _nouns(pieces, n + 2)
    k = n + 2 + len(nouns)
    while k < len(pieces) and (pieces[k].text in _STOPS or _laughs(pieces[k]) or _goes_along(pieces[k], made)):
        k += 1
    if not nouns or k >= len(pieces) or k == n + 2 + len(nouns) or not _denies(pieces[n + 1], pieces[k]):
        return None
    if _same(nouns, _nouns(pieces, k + 1)):
        return _Put(pieces[k], [pieces[k]], k + 1, leads=True)
    return _Put(pieces[k], [pieces[k], *nouns], k + 1, leads=True) if _stands_alone(pieces, k) else None


def _denies(denied: Piece, right: Piece) -> bool:
    """Two numbers, and the denied one says more than none ("not one", "not 1")."""
    whole = all(p.kind == "number" and isinstance(p.value, int) for p in (denied, right))
    return whole and denied.value > 1 and denied.value != right.value


def _laughs(piece: Piece) -> bool:
    return "COURTESY" in piece.types and "NOT" not in piece.types


def _goes_along(piece: Piece, made: Table) -> bool:
    """A word that may stand beside one that puts right."""
    return (
        piece.kind == "word"
        and not linking(piece)
        and all(made.has("beside_repair", word) for word in piece.text.split(" "))
    )
