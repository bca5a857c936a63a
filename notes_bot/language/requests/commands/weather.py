"""Weather told with its word first."""

from __future__ import annotations

from typing import Any

from notes_bot.language.lexicon.joining import day_words, number_words
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.names.naming import written
from notes_bot.language.requests.commands.line import Line
from notes_bot.language.requests.commands.rain import rained_at_each
from notes_bot.language.requests.commands.sky_words import value_told


def weather(line: Line) -> bool:
    """rain 0.4 in; weather kestrel high 88 low 64 6/10."""
    label = line.ps[0].types["WEATHER"].value
    labels = {p.types["WEATHER"].value for p in line.ps if "WEATHER" in p.types}
    if (label in ("high", "low") and not labels >= {"high", "low"}) or len(line.ps) > 16:
        return False
    out: dict[str, Any] = {}
    left: list[Piece] = []
    ps = day_words(number_words(line.ps, line.made), line.made)
    if rained_at_each(line, ps):
        return True
    told: set[str] = set()
    for k, piece in enumerate(ps):
        if "WEATHER" in piece.types:
            label = piece.types["WEATHER"].value
        elif piece.kind == "day" and not (k and line.made.has("since_word", ps[k - 1].text)):
            out["date"] = line.past(piece)
        elif piece.kind == "number":
            unit = ps[k + 1].text if k + 1 < len(ps) else ""
            if label in told:  # "low of 48 this morning, 79 the high"
                label = next((p.types["WEATHER"].value for p in ps[k + 1 : k + 4] if "WEATHER" in p.types), label)
            if label in told:
                return False
            told.add(label)
            minus = k > 0 and ps[k - 1].text == "-" and ps[k - 1].end == piece.start and label != "rain"
            out.update(value_told(line, label, -piece.value if minus else piece.value, unit))
        elif piece.kind == "word" and (not piece.entries or "FIELD" in piece.types) and piece.text not in ("c", "f"):
            left.append(piece)
    if not out.keys() & {"rain_mm", "tmax_c", "tmin_c"} or len(left) > 4:
        return False
    if line.context.fields:
        left = [p for p in left if "FIELD" in p.types]
    if left:
        out["field"] = written(line.context.text, left[0].start, left[-1].end)
    return line.emit("weather", **out)
