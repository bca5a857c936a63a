"""Counts told person by person: "he dug five and found six females, I dug five and found eight, so fourteen".

What each of them dug and found is added up, as all of it is of one field; a sum told behind it is left to the text
where it is right. "His 5 plants had nothing, my 5 had 6 white" and "she had 5 on her four and I had 9 on mine" are told
alike. Where the colors of one are told and those of another are not, all stays as it is.
"""

from __future__ import annotations

from dataclasses import dataclass

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece, count_told, ends_clause, piece_at
from notes_bot.language.lexicon.words import Entry, Table

LONGEST_PERSON = 3
"""Pieces of the longest word for somebody: "my brother", "the co-op boy" (judgement)."""
_PLANTS = (Entry("PLANTS", "plants"),)
_FEMALES = (Entry("FEMALES", "female"),)


@dataclass(frozen=True, slots=True)
class _Share:
    """What one person dug and found."""

    plants: int | None
    found: int
    shade: Piece | None
    """The color or the word for females behind the number."""
    person: bool
    """Is it told who it was?"""
    dug: Piece | None
    end: int


def by_persons(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with the counts of several people as one."""
    out: list[Piece] = []
    n = 0
    while n < len(pieces):
        shares = _shares(pieces, n, made) if _may_begin(pieces, n, made) else []
        told = _together(pieces, n, shares)
        if told:
            out += told
            n = _behind_sum(pieces, shares, made)
            continue
        out.append(pieces[n])
        n += 1
    return out


def _may_begin(pieces: list[Piece], n: int, made: Table) -> bool:
    """Does a clause begin there, or what is told of a field, or of somebody?"""
    before = piece_at(pieces, n - 1)
    opens = ends_clause(before) or is_any(before, ("FIELD",)) or getattr(before, "text", "") in (":", "-")
    return opens or made.has("talk_person_digs", pieces[n].text.split(" ")[0])


def _shares(pieces: list[Piece], n: int, made: Table) -> list[_Share]:
    """What each of several people dug and found, from n on."""
    shares: list[_Share] = []
    k = n
    while (share := _share(pieces, k, made)) is not None:
        shares.append(share)
        k = _behind_joints(pieces, share.end, made)
    return shares


def _behind_joints(pieces: list[Piece], k: int, made: Table) -> int:
    """Behind the comma and the "and" before the next of them; a full stop ends what is told in one breath."""
    while (piece := piece_at(pieces, k)) is not None and (
        piece.value == "soft" or made.has("and_word", piece.text) or piece.text == ";"
    ):
        k += 1
    return k


def _share(pieces: list[Piece], n: int, made: Table) -> _Share | None:
    """What one person dug and found; ``None`` where that is not told there."""
    k = _behind_person(pieces, n, made)
    return _dug_and_found(pieces, n, k, made) or _had_of_plants(pieces, n, k, made) or _had_on(pieces, n, k, made)


def _behind_person(pieces: list[Piece], n: int, made: Table) -> int:
    """Behind a word for somebody: "he", "my brother", "the co-op boy"; n for none."""
    for size in range(1, LONGEST_PERSON + 1):
        run = pieces[n : n + size]
        if any(is_any(piece, ("FIELD", "DUG", "PLANTS", "COLOUR")) or piece.kind != "word" for piece in run):
            return n
        if (
            run
            and made.has("talk_person_digs", run[-1].text)
            and (size == 1 or made.has("talk_person_lead", run[0].text))
        ):
            return n + size
    return n


def _dug_and_found(pieces: list[Piece], n: int, k: int, made: Table) -> _Share | None:
    """ "He dug five plants and found six females", "I dug five and got none"."""
    dug = piece_at(pieces, k)
    plants = count_told(piece_at(pieces, k + 1))
    if not is_any(dug, ("DUG",)) or plants is None or dug is None:
        return None
    person = k > n or any(made.has("talk_person_digs", word) for word in dug.text.split(" ")[:1])
    k += 2
    k += is_any(piece_at(pieces, k), ("PLANTS",))
    k = _behind_joints(pieces, k, made)
    if is_any(piece_at(pieces, k), ("NONE",)):
        return _found(pieces, k, plants, person=person, dug=dug)  # "e não achei nada"
    verb = piece_at(pieces, k)
    if verb is None or not (_finds(verb, made) or is_any(verb, ("HAD",))):
        return None
    return _found(pieces, k + 1, plants, person=person, dug=dug)


def _finds(verb: Piece, made: Table) -> bool:
    """ "Found", "encontró", "achei"."""
    return made.has("counted", verb.text) or made.has("talk_person_found", verb.text)


def _had_of_plants(pieces: list[Piece], n: int, k: int, made: Table) -> _Share | None:
    """ "His 5 plants had nothing", "my 5 had 6 white"."""
    plants = count_told(piece_at(pieces, n + 1))
    if plants is None or not made.has("talk_persons_own", pieces[n].text):
        return None
    k = n + 2 + is_any(piece_at(pieces, n + 2), ("PLANTS",))
    return _found(pieces, k + 1, plants, person=True, dug=None) if is_any(piece_at(pieces, k), ("HAD",)) else None


def _had_on(pieces: list[Piece], n: int, k: int, made: Table) -> _Share | None:
    """ "She had 5 on her four", "I had 9 on mine"."""
    verb = piece_at(pieces, k)
    if k == n or verb is None or not (is_any(verb, ("HAD",)) or _finds(verb, made)):
        return None
    share = _found(pieces, k + 1, None, person=True, dug=None)
    upon = piece_at(pieces, share.end) if share is not None else None
    own = piece_at(pieces, share.end + 1) if share is not None else None
    if share is None or upon is None or own is None or not made.has("upon_plant", upon.text):
        return None
    if not made.has("talk_persons_own", own.text):
        return None
    end = share.end + 2
    plants = count_told(piece_at(pieces, end))
    end += plants is not None
    end += is_any(piece_at(pieces, end), ("PLANTS",))
    return _Share(plants, share.found, share.shade, True, None, end)


def _found(pieces: list[Piece], k: int, plants: int | None, *, person: bool, dug: Piece | None) -> _Share | None:
    """How many, and of which color, from k on."""
    if is_any(piece_at(pieces, k), ("NONE",)):
        return _Share(plants, 0, None, person, dug, k + 1)
    found, shade = count_told(piece_at(pieces, k)), piece_at(pieces, k + 1)
    if found is None or is_any(shade, ("PLANTS", "DUG", "EACH", "UNIT")):
        return None
    shaded = shade if is_any(shade, ("COLOUR", "FEMALES")) else None
    return _Share(plants, found, shaded, person, dug, k + 1 + (shaded is not None))


def _together(pieces: list[Piece], n: int, shares: list[_Share]) -> list[Piece]:
    """The plants and females of all of them; nothing where they cannot be added up."""
    if len(shares) < 2 or not any(share.person for share in shares):
        return []
    counts = _by_color(shares)
    if not counts:
        return []
    start, end = pieces[n].start, pieces[shares[-1].end - 1].end
    plants = [share.plants for share in shares]
    whole = [count for count in plants if count is not None]
    out: list[Piece] = []
    if len(whole) == len(plants):
        out += [
            Piece("number", str(sum(whole)), start, end, (), sum(whole)),
            Piece("word", "plants", end, end, _PLANTS),
        ]
        dug = next((share.dug for share in shares if share.dug is not None), None)
        out += [Piece("word", dug.text, end, end, dug.entries)] if dug is not None else []
        out.append(Piece("break", ",", end, end, value="soft"))
    for shade, found in counts:
        out.append(Piece("number", str(found), end if out else start, end, (), found))
        text, entries = (shade.text, shade.entries) if shade is not None else ("females", _FEMALES)
        out.append(Piece("word", text, end, end, entries))
    return out


def _by_color(shares: list[_Share]) -> list[tuple[Piece | None, int]]:
    """How many of each color all of them found; none where only some of them tell the color."""
    some = [share for share in shares if share.found]
    colored = [share for share in some if is_any(share.shade, ("COLOUR",))]
    if not colored:
        return [(None, sum(share.found for share in some))]
    if len(colored) < len(some):
        return []
    counts: dict[str, tuple[Piece | None, int]] = {}
    for share in colored:
        if share.shade is not None:
            color = share.shade.types["COLOUR"].value
            counts[color] = (share.shade, counts.get(color, (None, 0))[1] + share.found)
    return list(counts.values())


def _behind_sum(pieces: list[Piece], shares: list[_Share], made: Table) -> int:
    """Behind ", so fourteen", "so nineteen on ten", "14 in all", where that is their sum; else where they end."""
    begin = shares[-1].end
    k = begin
    while (piece := piece_at(pieces, k)) is not None and (
        (piece.kind == "break" and piece.text in (",", "."))
        or made.has("sums_up", piece.text)
        or is_any(piece, ("TOTAL",))
    ):
        k += 1
    if count_told(piece_at(pieces, k)) != sum(share.found for share in shares):
        return begin
    k += 1
    k += is_any(piece_at(pieces, k), ("TOTAL", "FEMALES"))
    upon, plants = piece_at(pieces, k), count_told(piece_at(pieces, k + 1))
    if upon is not None and made.has("upon_plant", upon.text) and plants == sum(share.plants or 0 for share in shares):
        k += 2
        k += is_any(piece_at(pieces, k), ("PLANTS",))
    return k
