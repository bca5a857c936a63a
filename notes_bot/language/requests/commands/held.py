"""Held messages let through or refused."""

from __future__ import annotations

from notes_bot.language.requests.commands.line import Line


def release(line: Line) -> bool:
    """release 4."""
    return _numbered(line, "release")


def refuse(line: Line) -> bool:
    """refuse 4."""
    return _numbered(line, "refuse")


def _numbered(line: Line, kind: str) -> bool:
    """A number behind the word, and no more."""
    rest = [p for p in line.ps[1:] if p.kind != "sign"]
    return len(rest) == 1 and rest[0].kind == "number" and line.emit(kind, number=int(rest[0].value))
