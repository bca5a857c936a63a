"""A count of this message put right further down in it: "Wait, the top end was 2 white, not 1", "Sorry, it was 11".

The count itself is changed where it stands, so that all that hangs on it (places, totals, plants) is read anew, and the
sentence is left to the text. Only where a word tells of a slip, one count of that kind stands in what was told of the
field or place named, and the old value, if one is told, is the one that stands there; else nothing is changed.
"""

from __future__ import annotations

from dataclasses import dataclass

from notes_bot.language.lexicon.joining import is_any, number_like
from notes_bot.language.lexicon.pieces import Piece, count_told, piece_at
from notes_bot.language.lexicon.tokens import Slip
from notes_bot.language.lexicon.words import Table, heads_of, phrases

_SLIPS = ("owns_up", "amend_cue", "said_wrong", "right_now", "should_say", "slip_below")
"""Manners of words for a slip, or for having looked again."""
_AT_HEAD = ("repairs", "slip_word", "slip_at_head")
"""The same, where a clause begins with it."""
_OTHER = ("earlier_note", "aside_person", "aside_once", "aside_lately", "aside_then")
"""Manners of words by which a sentence is of another note, of others or of another time."""
_DENIES = ("instead_of", "not_but")
MOST_SENTENCE = 40
"""Pieces of the longest sentence that puts right (judgement)."""
LEAST_LISTED = 3
"""Numbers in a row from which they are a list, one a plant."""
NEAR = 3
"""Pieces from "not" to the value that is denied (judgement)."""
_FEMALE = ("COLOUR", "FEMALES", "TOTAL")
_DUG = ("PLANTS", "DUG")
_OTHERWISE = frozenset(
    {"day", "stage", "ratio", "series", "range", "WEEKDAY", "MONTH", "UNIT", "PLANTED", "SPRAY", "EGGS", "PH"}
    | {"RESISTANCE", "SOURCE", "TODAY", "NOT_LOOKED", "SKIP", "MUTE", "MOSTLY", "TOO_MANY", "EACH"}
)
"""What does not stand in such a sentence: then it tells more than a count, or of another day."""


@dataclass(frozen=True, slots=True)
class _Value:
    """A count told in the sentence: of plants, of a color, of females, or of what is not said ("")."""

    of: str
    count: int
    denied: bool


def put_right_below(pieces: list[Piece], made: Table) -> tuple[list[Piece], list[Piece], list[Slip]]:
    """The pieces with counts changed, the sentences that told so, and what the answer says of them."""
    words = {word for piece in pieces if piece.kind == "word" for word in piece.text.split(" ")}
    if heads_of(made.language, (*_SLIPS, *_AT_HEAD)).isdisjoint(words) or not any(
        is_any(p, ("FIELD",)) for p in pieces
    ):
        return pieces, [], []
    asides: list[Piece] = []
    slips: list[Slip] = []
    spans = _sentences(pieces)
    gone: set[int] = set()
    for n, (begin, end) in enumerate(spans):
        told = pieces[begin:end]
        cued = _owns_up(told, made)
        before = spans[n - 1] if n else None
        led = not cued and before is not None and _only_owns_up(pieces[before[0] : before[1]], made)
        if not n or not (cued or led) or not _may_put_right(pieces, begin, end, made):
            continue
        first = before[0] if led and before is not None else begin
        changed = _changed(pieces, first, begin, end, made)
        if changed is None:
            continue
        for at, value in changed.items():
            pieces = [*pieces[:at], value, *pieces[at + 1 :]]
        if n + 1 < len(spans) and _confirms(pieces, spans[n + 1], made):
            end = spans[n + 1][1]
        read = ", ".join(value.text for value in changed.values())
        slips.append(Slip("near_word", read, pieces[first].start, pieces[end - 1].end))
        asides.append(Piece("aside", "", pieces[first].start, pieces[end - 1].end))
        gone |= set(range(first, end))
    return [piece for n, piece in enumerate(pieces) if n not in gone], asides, slips


def _sentences(pieces: list[Piece]) -> list[tuple[int, int]]:
    """Where the sentences begin and end, their stops left out."""
    out: list[tuple[int, int]] = []
    begin = 0
    for n, piece in enumerate([*pieces, Piece("line", "", 0, 0)]):
        if piece.kind == "line" or piece.text == "?" or (piece.kind == "break" and piece.value == "hard"):
            if n > begin:
                out.append((begin, n))
            begin = n + 1
    return out


def _says(told: list[Piece], manners: tuple[str, ...], made: Table) -> bool:
    """Does a word or phrase of one of these manners stand among the pieces?"""
    said = phrases([word for p in told if p.kind == "word" for word in p.text.split(" ")])
    return any(made.has_any(manner, said) for manner in manners)


def _owns_up(told: list[Piece], made: Table) -> bool:
    """Does a word tell of a slip: anywhere in it, or at the head of a clause ("wait, ..", and not "can't wait")?"""
    if _says(told, _SLIPS, made):
        return True
    heads = [n for n in range(len(told)) if not n or told[n - 1].kind in ("break", "sign")]
    return any(_says(told[n : n + size], _AT_HEAD, made) for n in heads for size in (1, 2))


def _only_owns_up(told: list[Piece], made: Table) -> bool:
    """ "Scratch that on Airstrip, I miscounted.": a slip without what is so."""
    plain = not any(number_like(p) or is_any(p, ("COLOUR", "NONE", "STAGE_NAME")) for p in told)
    return plain and len(told) <= MOST_SENTENCE and _owns_up(told, made)


def _confirms(pieces: list[Piece], span: tuple[int, int], made: Table) -> bool:
    """ "(Slip up there, Kestrel was 6 plants.) The 9 females stand.": what else was told is said to be right."""
    told = pieces[span[0] : span[1]]
    own = any(is_any(p, ("FIELD", "DUG")) or p.kind in _OTHERWISE for p in told)
    return not own and len(told) <= SHORT and _says(told, ("stands_so",), made)


SHORT = 9
"""Pieces of the longest sentence that only says that the rest is right (judgement)."""


def _may_put_right(pieces: list[Piece], begin: int, end: int, made: Table) -> bool:
    """Is it a sentence of counts alone, of this visit, and no question?"""
    told = pieces[begin : _values_end(pieces, begin, end)]
    behind = piece_at(pieces, end)
    if end - begin > MOST_SENTENCE or (behind is not None and behind.text == "?"):
        return False
    checks = any(is_any(p, ("CHECK",)) for p in told)
    if checks and not any(is_any(p, ("CHECK",)) for p in pieces[:begin]):
        return False  # "sorry, in the check 3 plants 20 white": one thing more
    summed = _says(told, ("so_they_are",), made)  # "my wife found another one, so that makes 4"
    if _says(told, _OTHER if not summed else _OTHER[:1], made):
        return False
    if any(p.kind in _OTHERWISE or not _OTHERWISE.isdisjoint(p.types) for p in told if not is_any(p, ("FIELD",))):
        return False
    return summed or not _says(told[: 2 * NEAR], ("more", "added_too"), made)


def _values_end(pieces: list[Piece], begin: int, end: int) -> int:
    """Where the clause ends that tells the last count with what it counts, or else the last number."""
    named = [k for k in range(begin, end) if _count(pieces[k]) is not None and _named_behind(pieces, k)]
    numbers = named or [k for k in range(begin, end) if _count(pieces[k]) is not None]
    last = numbers[-1] if named else (numbers[0] if numbers else end)
    return next((k for k in range(last, end) if pieces[k].kind == "break"), end)


def _changed(pieces: list[Piece], first: int, begin: int, end: int, made: Table) -> dict[int, Piece] | None:
    """The pieces that stand for others, by their place; ``None`` where it is not sure which are meant."""
    values = _values(pieces, begin, end, made)
    so = [value for value in values if not value.denied]
    old = [value.count for value in values if value.denied]
    if not so or len(old) > 1 or (old and len(so) > 1):
        return None
    section = _section(pieces, first, end)
    if section is None or _by_list(pieces, section) or _of_earlier(pieces, section, made):
        return None
    out: dict[int, Piece] = {}
    for value in so:
        places = _counts_of(pieces, section, value, any_kind=bool(old))
        places = [at for at in places if not old or _count(pieces[at]) == old[0]]
        if len(places) != 1 or places[0] in out:
            return None
        (at,) = places
        of_all = value.of == "plants" and any(is_any(pieces[k], ("EACH",)) for k in section)
        if of_all or (is_any(pieces[at], ("NONE",)) and value.of != "females"):
            return None
        if _count(pieces[at]) != value.count:
            out[at] = _as_count(pieces[at], value.count)
    return out or None


def _as_count(piece: Piece, count: int) -> Piece:
    """A number in the place of a piece; behind "none" it counts females."""
    return Piece("number", str(count), piece.start, piece.end, (), count, piece.spaced)


def _count(piece: Piece) -> int | None:
    """The number a piece is; none is 0."""
    return 0 if is_any(piece, ("NONE",)) and count_told(piece) is None else count_told(piece)


# --- what is put right


def _values(pieces: list[Piece], begin: int, end: int, made: Table) -> list[_Value]:
    """The counts of a sentence up to where it only goes on to talk: "(it was 9,) the tenth was a grain of sand"."""
    out: list[_Value] = []
    being = False
    for n in range(begin, end):
        piece = pieces[n]
        being = being or piece.text == ":" or _is_being(piece, made)
        if is_any(piece, ("FIELD",)):
            continue
        count = _count(piece)
        if count is None or (is_any(piece, ("NONE",)) and not (being or out)):
            continue
        if count == 0 and out and _not_one(piece, made):
            out.append(_Value("", 1, denied=True))
            continue
        clause = _clause_begin(pieces, begin, n)
        denied = _is_denied(pieces, clause, n, made)
        if out and clause > begin and not denied and not _named_behind(pieces, n) and _so_told(out):
            break
        if not being and not denied and not out:
            return []
        of = _of_what(pieces, clause, n, end)
        of = of or (next((v.of for v in out if v.of), "") if denied or out else "")
        out.append(_Value(of, count, denied))
    return out


def _not_one(piece: Piece, made: Table) -> bool:
    """ "(2 white,) not 1", where "not 1" may also say none."""
    words = piece.text.split(" ")
    one = words[-1] == "1" or any(
        e.type == "NUMBER_WORD" and str(e.value) == "1" for e in made.singles.get(words[-1], ())
    )
    return len(words) > 1 and made.denies(words[0]) and one


def _so_told(values: list[_Value]) -> bool:
    """Is a value told that is so?"""
    return any(not value.denied for value in values)


def _is_being(piece: Piece, made: Table) -> bool:
    """ "Was", "it should be", "had", "eran"."""
    words = (piece.text, *piece.text.split(" "))
    manners = ("is_word", "its_word", "should_be", "copula", "aside_past", "right_now", "should_say", "is_now")
    return is_any(piece, ("CORRECT", "HAD")) or any(made.has_any(manner, words) for manner in manners)


def _clause_begin(pieces: list[Piece], begin: int, n: int) -> int:
    """Where the clause begins in which n stands."""
    while n > begin and pieces[n - 1].kind != "break" and pieces[n - 1].text != ":":
        n -= 1
    return n


def _is_denied(pieces: list[Piece], clause: int, n: int, made: Table) -> bool:
    """ "(2 white,) not 1", "no fueron cinco", "4 em vez de 3"."""
    near = pieces[max(clause, n - NEAR) : n]
    words = [word for p in near for word in p.text.split(" ")]
    for k in range(len(near) - 1, -1, -1):
        if count_told(near[k]) is not None or made.has("but_rather", near[k].text):
            return False
        if is_any(near[k], ("NOT",)) or made.denies(near[k].text):
            return True
    return any(made.has_any(manner, phrases(words)) for manner in _DENIES)


def _named_behind(pieces: list[Piece], n: int) -> bool:
    """Stands what it counts right behind a number?"""
    return is_any(piece_at(pieces, n + 1), (*_FEMALE, *_DUG))


def _of_what(pieces: list[Piece], clause: int, n: int, end: int) -> str:
    """What a number counts: what is named behind it, or last before it in its clause."""
    behind = pieces[n + 1] if n + 1 < end else None
    named = behind if is_any(behind, (*_FEMALE, *_DUG)) else None
    if named is None:
        before = [p for p in pieces[clause:n] if is_any(p, (*_FEMALE, *_DUG)) and not is_any(p, ("FIELD",))]
        named = before[-1] if before else None
    if named is None:
        return "females" if is_any(pieces[n], ("NONE",)) and count_told(pieces[n]) is None else ""
    if is_any(named, ("COLOUR",)):
        return str(named.types["COLOUR"].value)
    return "plants" if is_any(named, _DUG) else "females"


# --- where it stands


def _section(pieces: list[Piece], begin: int, end: int) -> list[int] | None:
    """The places of what was told above of the field or place the sentence names, or of the one told of last."""
    named = {pieces[k].types["FIELD"].value for k in range(begin, end) if "FIELD" in pieces[k].types}
    above = [k for k in range(begin) if "FIELD" in pieces[k].types]
    if len(named) > 1 or not above:
        return None
    name = named.pop() if named else pieces[above[-1]].types["FIELD"].value
    out: list[int] = []
    own = False
    for k in range(begin):
        if "FIELD" in pieces[k].types:
            own = pieces[k].types["FIELD"].value == name
        if own:
            out.append(k)
    return _of_place(pieces, out, begin, end) if out else None


def _of_place(pieces: list[Piece], section: list[int], begin: int, end: int) -> list[int]:
    """Of the lines of a section the one whose place the sentence names: "top end: .." for "the top end was"."""
    said = f" {' '.join(p.text for p in pieces[begin:end] if p.kind == 'word' and not is_any(p, ('FIELD',)))} "
    rows = [row for row in _rows(pieces, section) if (head := _head(pieces, row)) and f" {head} " in said]
    return rows[0] if len(rows) == 1 else section


def _rows(pieces: list[Piece], section: list[int]) -> list[list[int]]:
    """The sentences of a section."""
    out: list[list[int]] = [[]]
    for k in section:
        if pieces[k].kind == "line" or (pieces[k].kind == "break" and pieces[k].value == "hard"):
            out.append([])
        else:
            out[-1].append(k)
    return [row for row in out if row]


def _head(pieces: list[Piece], row: list[int]) -> str:
    """ "Top end" of "top end: 5 plants": the words before a colon or a number; "" where a field's name stands there."""
    words: list[str] = []
    for k in row:
        if pieces[k].text in (":", ",") or number_like(pieces[k]):
            break
        if is_any(pieces[k], ("FIELD",)) or pieces[k].kind != "word":
            return ""
        words.append(pieces[k].text)
    return " ".join(words)


def _of_earlier(pieces: list[Piece], section: list[int], made: Table) -> bool:
    """ "In my last note on Kestrel I gave you 12 white": does a sentence of the section tell of another message?"""
    told = set(section)
    spans = (span for span in _sentences(pieces) if not told.isdisjoint(range(*span)))
    return any(_says(pieces[begin:end], ("earlier_note",), made) for begin, end in spans)


def _by_list(pieces: list[Piece], section: list[int]) -> bool:
    """Is a list of counts told there, one a plant?"""
    run = 0
    for k in section:
        if pieces[k].kind == "series":
            return True
        joined = pieces[k].text == "," or pieces[k].kind == "sign"
        run = run + 1 if number_like(pieces[k]) else (run if joined else 0)
        if run >= LEAST_LISTED:
            return True
    return False


def _counts_of(pieces: list[Piece], section: list[int], value: _Value, *, any_kind: bool) -> list[int]:
    """Where a count of the kind of this value stands."""
    found: dict[int, str] = {}
    for k in section:
        if _count(pieces[k]) is None or is_any(pieces[k], ("FIELD",)):
            continue
        if is_any(pieces[k], ("NONE",)) and count_told(pieces[k]) is None:
            found[k] = "none"
            continue
        near = next(
            (p for p in (piece_at(pieces, k + 1), piece_at(pieces, k - 1)) if is_any(p, (*_FEMALE, *_DUG))), None
        )
        if near is not None:
            found[k] = _of_what([pieces[k], near], 0, 0, 2)
    if not value.of and any_kind:
        return list(found)
    if value.of == "plants":
        return [k for k, of in found.items() if of == "plants"]
    females = [k for k, of in found.items() if of not in ("plants", "none")]
    if value.of in ("", "females"):
        return females or [k for k, of in found.items() if of == "none"]
    return [k for k in females if found[k] == value.of]
