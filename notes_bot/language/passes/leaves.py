"""What is said of leaves in the words of a sentence: edges, which leaves, and burnt, in any order.

"Hojas de abajo con el borde quemado", "edges of low leaves scorched": the three words stand in one clause, others
between them. The word for burnt is then said of the edge, whatever else it may mean.
"""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any
from notes_bot.language.lexicon.pieces import Piece, count_told, ends_clause, piece_at
from notes_bot.language.lexicon.words import Entry, Table, anywhere

NEAR_GROUND = 2
"""Pieces beside "dry" in which a word for the ground says what is dry (judgement)."""
_BURNT = (Entry("EDGES", "burnt"),)
_OLD = (Entry("OLD", "old"),)


def burnt_edges(pieces: list[Piece], made: Table) -> list[Piece]:
    """The pieces with the edge and the word for burnt of each clause about leaves as burnt edges."""
    if not any("EDGES" in piece.types for piece in pieces):
        return pieces
    pieces = _shade_behind(_without_of(_low_leaves(pieces, made), made), made)
    out = list(pieces)
    begin = 0
    for end in [*(n for n, piece in enumerate(pieces) if piece.kind in ("break", "line")), len(pieces)]:
        clause = range(begin, end)
        edges = [n for n in clause if "EDGES" in pieces[n].types and not _of_ground(pieces, n, end, made)]
        burnt = [n for n in clause if _burnt(pieces[begin:end], n - begin, made)]
        old = any("OLD" in pieces[n].types for n in clause) and any("TOPS" in pieces[n].types for n in clause)
        if edges and burnt and (old or any(_leafy(pieces[n], made) for n in clause)):
            for n in (edges[0], min(burnt, key=lambda n: abs(n - edges[0]))):
                out[n] = Piece("word", pieces[n].text, pieces[n].start, pieces[n].end, _BURNT, None, pieces[n].spaced)
        begin = end + 1
    return out


def _shade_behind(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Los bordes de las hojas de abajo, amarillos": a shade alone behind a comma is that of the edges before it."""
    out: list[Piece] = []
    for n, piece in enumerate(pieces):
        shade = pieces[n + 1] if n + 1 < len(pieces) else None
        begin = n
        while begin and pieces[begin - 1].kind not in ("break", "line"):
            begin -= 1
        told = pieces[begin:n]
        if piece.text in (",", ":") and shade is not None and _of_leaf(shade) and ends_clause(piece_at(pieces, n + 2)):
            edges = any("EDGES" in p.types for p in told) and any("OLD" in p.types or _leafy(p, made) for p in told)
            if edges and not any(p.kind == "number" or is_any(p, ("COLOUR", "FEMALES")) for p in told):
                continue
        out.append(piece)
    return out


def _of_leaf(piece: Piece) -> bool:
    """A word for yellow or burnt, and no letter for it."""
    yellow = is_any(piece, ("COLOUR",)) and piece.types["COLOUR"].value == "yellow" and len(piece.text) > 1
    return yellow or piece.text in anywhere("burnt_word")


def _low_leaves(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Edges of low leaves": the low ones are the old ones."""
    out = list(pieces)
    for n, piece in enumerate(pieces[:-1]):
        if made.has("low_word", piece.text) and made.stemmed("leaf_stem", pieces[n + 1].text):
            out[n] = Piece("word", piece.text, piece.start, piece.end, _OLD, None, piece.spaced)
    return out


def _without_of(pieces: list[Piece], made: Table) -> list[Piece]:
    """ "Margem das folhas inferiores amarelada": the edge beside its leaves, as in "margem folhas"."""
    out: list[Piece] = []
    for n, piece in enumerate(pieces):
        of = n > 0 and n + 1 < len(pieces) and is_any(pieces[n - 1], ("EDGES",)) and piece.text in anywhere("of_place")
        if not (of and _leafy(pieces[n + 1], made)):
            out.append(piece)
    return out


def _burnt(clause: list[Piece], n: int, made: Table) -> bool:
    """A word for burnt, and no dry ground ("suelo seco", "the ground is dry", "seca la tierra")."""
    near = clause[max(0, n - NEAR_GROUND) : n + NEAR_GROUND + 1]
    ground = any(made.has("soil_word", word) for piece in near for word in piece.text.split(" "))
    potash = "POTASSIUM" in clause[n].types and len(clause[n].text) > 1
    potash = potash and all(count_told(p) is None for p in clause)  # not "potassium sixty eight"
    return (clause[n].text in anywhere("burnt_word") or potash) and not ground


def _leafy(piece: Piece, made: Table) -> bool:
    """Does the word tell of leaves, and not only of plants?"""
    return any(made.stemmed("leaf_stem", word) for word in piece.text.split(" "))


def _of_ground(pieces: list[Piece], n: int, end: int, made: Table) -> bool:
    """ "Hojas secas en el borde del lote": an edge of the ground."""
    of = pieces[n + 1] if n + 1 < end else None
    if of is None or _leafy(pieces[n], made) or is_any(of, ("OLD", "NEW")):
        return False
    if of.text.split(" ")[0] not in anywhere("of_place") | anywhere("of_word"):
        return False
    return not any(_leafy(p, made) or is_any(p, ("OLD", "NEW")) for p in pieces[n + 2 : min(n + 5, end)])
