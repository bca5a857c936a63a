"""Lines and sentences, as the message is cut."""

from __future__ import annotations

from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.words import anywhere


def lines_of(pieces: list[Piece]) -> list[list[Piece]]:
    """The pieces line by line, each with its end."""
    lines: list[list[Piece]] = [[]]
    for piece in pieces:
        lines[-1].append(piece)
        if piece.kind == "line":
            lines.append([])
    return [line for line in lines if line]


def sentences_of(line: list[Piece]) -> list[list[Piece]]:
    """A line cut behind every stop, but for those of a type ("2.5.7")."""
    out: list[list[Piece]] = [[]]
    for n, piece in enumerate(line):
        out[-1].append(piece)
        stop = piece.kind == "break" and piece.value == "hard" and not _within_number(line, n)
        if piece.kind == "line" or stop or piece.text == "?":
            out.append([])
    return [sentence for sentence in out if sentence]


def _within_number(line: list[Piece], n: int) -> bool:
    """Is the stop one between two numbers that touch it?"""
    if not 0 < n < len(line) - 1:
        return False
    before, stop, behind = line[n - 1 : n + 2]
    glued = before.end == stop.start and stop.end == behind.start
    return stop.text == "." and glued and before.kind == behind.kind == "number"


def content_of(line: list[Piece]) -> list[Piece]:
    """A line without greetings and "please" before it and stops behind it."""
    first, last = 0, len(line)
    while last > first and (
        line[last - 1].kind in ("break", "line")
        or (line[last - 1].kind == "sign" and line[last - 1].text != "?")
        or (last - 1 > first and _thanks(line[last - 1]))
    ):
        last -= 1
    while first < last - 1 and (line[first].kind == "break" or _greets(line, first, last)):
        first += 1
    return line[first:last]


def contents_of(line: list[Piece]) -> list[list[Piece]]:
    """The sentences of a line without greetings and stops, those left out of which nothing is left."""
    return [content for sentence in sentences_of(line) if (content := content_of(sentence))]


def end_of(line: list[Piece], *kinds: str) -> list[Piece]:
    """What stays of a line that is read: its end, where it has one."""
    return line[-1:] if line[-1].kind in ("line", *kinds) else []


def _thanks(piece: Piece) -> bool:
    """ "Undo thanks", "delete my last note thx": a word of thanks at the end."""
    return "COURTESY" in piece.types and piece.text in anywhere("thank_word")


def _greets(line: list[Piece], i: int, last: int) -> bool:
    """A greeting with a stop behind it, or "please"."""
    if "COURTESY" not in line[i].types or "HELP" in line[i].types or i + 1 >= last:
        return False
    return line[i + 1].kind == "break" or line[i].text in anywhere("please")


def words_said(pieces: list[Piece]) -> list[str]:
    """The words of pieces, those of phrases one by one."""
    return [word for piece in pieces for word in piece.text.split(" ")]
