"""The writer's own language and place."""

from __future__ import annotations

from notes_bot.language.lexicon.joining import is_any, linking
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.requests import asking
from notes_bot.language.requests.commands.line import LONGEST_NAME, LONGEST_REQUEST, Line


def language(line: Line) -> bool:
    """language spanish; español; in english please."""
    named = [n for n, piece in enumerate(line.ps) if "LANGUAGE_NAME" in piece.types]
    if len(named) != 1 or len(line.ps) > 4:
        return False
    n = named[0]
    lead = all(is_any(p, ("LANGUAGE", "LINK", "MOVE")) or p.kind == "sign" for p in line.ps[:n])
    tail = all(is_any(p, ("COURTESY",)) for p in line.ps[n + 1 :])
    if not (lead and tail) or (n == 0 and len(line.ps[0].text) <= 3):
        return False
    return line.emit("language", language=line.ps[n].types["LANGUAGE_NAME"].value)


def language_wanted(line: Line) -> bool:
    """ "Ponme los mensajes en español por favor", "tá vindo tudo em inglês pra mim, muda pra português"."""
    said = {*line.vocabulary, *(p.text for p in line.ps)}
    wanted = any(line.made.has("language_wanted", words) for words in said)
    if not wanted or len(line.ps) > LONGEST_REQUEST or line.tells():
        return False
    if any("FIELD" in p.types or p.kind == "number" for p in line.ps):
        return False
    names = asking.languages_wanted(line)
    return len(names) == 1 and line.emit("language", language=names[0])


def place(line: Line) -> bool:
    """place iowa; i am in iowa."""
    tails = (n for n, p in enumerate(line.ps) if n > 1 and (p.kind == "break" or line.made.has("place_tail", p.text)))
    stop = next(tails, len(line.ps))
    if not 2 <= stop <= LONGEST_NAME or line.noted(1):
        return False
    if _small(line, line.ps[1]):
        return False  # "we're in the truck"
    name = line.name(1, stop)
    return name is not None and line.emit("place", place=name)


def _small(line: Line, piece: Piece) -> bool:
    """A little word in small letters, such as "the"."""
    return linking(piece) and len(piece.text) > 1 and line.context.text[piece.start].islower()
