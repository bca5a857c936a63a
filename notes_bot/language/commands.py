"""What is asked rather than noted: lines that are commands, and short replies that correct, choose or move."""

from __future__ import annotations

import re
from datetime import timedelta
from typing import TYPE_CHECKING, Any

from notes_bot.language.days import DayWritten, coming_day, past_day
from notes_bot.language.facts import Fact, parse
from notes_bot.language.lexer import Draft, day_words, number_words, written
from notes_bot.language.mistakes import place
from notes_bot.language.pieces import Piece
from notes_bot.language.words import table
from notes_bot.model import Command

if TYPE_CHECKING:
    from notes_bot.language.reader import _Message

_DROP = frozenset(
    ["please", "pls", "now", "today", "doing", "looking", "going", "field", "lote", "talhao", "field's", "anything", "new", "the", "for", "of", "on", "about", "de", "do", "da", "del", "el", "la", "sobre", "por", "favor", "note", "nota", "last"]
)
_STRONG_CORRECT = frozenset(
    (
        "should be",
        "should have been",
        "should read",
        "meant",
        "i meant",
        "meant to say",
        "debe ser",
        "quise decir",
        "deve ser",
        "quis dizer",
        "deberia ser",
        "deveria ser",
    )
)
_NOTE_WORDS = frozenset(["DUG", "PLANTS", "NONE", "NOT_LOOKED", "COLOUR", "FEMALES", "MOISTURE", "TOOL", "SOAKED"])


def take(message: _Message, pieces: list[Piece]) -> list[Piece]:
    """Commands of the message, line by line; what is left is notes."""
    rest: list[Piece] = []
    line: list[Piece] = []
    for piece in [*pieces, None]:
        if piece is not None and piece.kind != "line":
            line.append(piece)
            continue
        content = _content(line)
        if not (content and _Line(message, content).take()):
            rest.extend(line)
            if piece is not None:
                rest.append(piece)
        elif piece is not None:
            rest.append(piece)
        line = []
    return rest if any(p.kind != "line" for p in rest) else []


def _content(line: list[Piece]) -> list[Piece]:
    """A line without greetings before it and signs after it."""
    first, last = 0, len(line)
    while last > first and (
        line[last - 1].kind == "break" or (line[last - 1].kind == "sign" and line[last - 1].text != "?")
    ):
        last -= 1
    while first < last and (
        line[first].kind in ("break",)
        or (
            line[first].types.keys() & {"COURTESY"}
            and first + 1 < last
            and "HELP" not in line[first].types
            and line[first + 1].kind == "break"
        )
    ):
        first += 1
    return line[first:last]


class _Line:
    def __init__(self, message: _Message, pieces: list[Piece]) -> None:
        self.m = message
        self.asked = pieces[-1].text == "?" and len(pieces) > 1
        while len(pieces) > 1 and pieces[-1].text == "?":
            pieces = pieces[:-1]
        self.ps = pieces
        self.start, self.end = pieces[0].start, pieces[-1].end

    def emit(self, kind: str, **args: Any) -> bool:
        given = {key: value for key, value in args.items() if value is not None}
        self.m.commands.append(Command(kind, given, place(self.m.text, self.start, self.end)))
        return True

    def has(self, i: int, *types: str) -> bool:
        return i < len(self.ps) and not self.ps[i].types.keys().isdisjoint(types)

    def name(self, i: int, last: int | None = None) -> str | None:
        """The words from i on as a field's name."""
        ps = self.ps[i:last]
        while ps and (
            ps[0].kind in ("sign", "break") or (ps[0].text in _DROP and len(ps) >= 1 and "FIELD" not in ps[0].types)
        ):
            ps = ps[1:]
        while ps and (
            ps[-1].kind in ("sign", "break")
            or ps[-1].text in _DROP
            or "FIELD_WORD" in ps[-1].types
            or ("COURTESY" in ps[-1].types and len(ps) > 1)
        ):
            ps = ps[:-1]
        if not ps or len(ps) > 6:
            return None
        return written(self.m.text, ps[0].start, ps[-1].end) or None

    def _noted(self, i: int) -> bool:
        """Does a note follow rather than a name?"""
        for n in range(i, len(self.ps)):
            piece = self.ps[n]
            if piece.kind in ("stage", "day", "series", "range"):
                return True
            if piece.kind == "number" and self.has(n + 1, "PLANTS", "COLOUR", "FEMALES", "UNIT", "DUG"):
                return True
            if piece.types.keys() & {"DUG", "NONE", "NOT_LOOKED"} and "FIELD" not in piece.types:
                return True
        return False

    def take(self) -> bool:
        first = self.ps[0].types
        size = len(self.ps)
        if "FIELD" in first and size == 1:
            return self.asked and self.emit("state", field=self.name(0))
        for kind, method in _FIRST.items():
            if kind in first and getattr(self, method)():
                return True
        if self._correction() or self._eggs() or self._late_word():
            return True
        if (
            self.asked
            and size <= 4
            and not self._noted(0)
            and all(not p.entries or "FIELD" in p.types for p in self.ps)
            and all(p.kind in ("word", "number") for p in self.ps)
        ):
            return self.emit("state", field=self.name(0))
        return False

    def _late_word(self) -> bool:
        """ "kestrel status", "kestrel history": the name first."""
        last = self.ps[-1]
        if not 2 <= len(self.ps) <= 5 or self._noted(0):
            return False
        for type_, kind in (
            ("STATE", "state"),
            ("HISTORY", "history"),
            ("PICTURE", "picture"),
            ("MUTE", "mute"),
            ("RESUME", "resume"),
        ):
            if (
                type_ in last.types
                and last.text not in ("show", "log", "info", "in", "en")
                and (not self.ps[0].entries or "FIELD" in self.ps[0].types)
            ):
                return self.emit(kind, field=self.name(0, len(self.ps) - 1))
        return False

    # one method a command; False means "not this after all"

    def help(self) -> bool:
        if len(self.ps) == 1:
            return self.emit("help")
        if len(self.ps) > 4 or self._noted(1):
            return False
        for piece in self.ps[1:]:
            if "TOPIC" in piece.types:
                return self.emit("help", topic=piece.types["TOPIC"].value)
        return self.emit("help", topic=self.name(1))

    def undo(self) -> bool:
        if len(self.ps) > 5 or self._noted(1):
            return False
        if len(self.ps) > 1 and any(not p.entries and p.kind == "word" for p in self.ps[1:]) and len(self.ps) > 4:
            return False
        return self.emit("take_back", field=self.name(1))

    def _about(self, kind: str, needed: bool) -> bool:
        if len(self.ps) > 7 or self._noted(1):
            return False
        name = self.name(1)
        if name is None and needed:
            if len(self.ps) > 1:
                return False
            self.m.complain("which_field", self.start, self.end)
            return True
        return self.emit(kind, field=name)

    def state(self) -> bool:
        if self.ps[0].text in ("info", "show") and len(self.ps) == 1:
            return False
        return self._about("state", needed=True)

    def history(self) -> bool:
        return self._about("history", needed=True)

    def picture(self) -> bool:
        if (
            self.ps[0].text in ("plot", "draw", "picture")
            and len(self.ps) > 1
            and not (self.has(1, "FIELD") or not self.ps[1].entries)
        ):
            return False
        return self._about("picture", needed=True)

    def mute(self) -> bool:
        return self._about("mute", needed=False)

    def resume(self) -> bool:
        return self._about("resume", needed=False)

    def due(self) -> bool:
        return len(self.ps) <= 2 and not self._noted(1) and all(p.entries for p in self.ps) and self.emit("due")

    def digest(self) -> bool:
        return len(self.ps) == 1 and self.emit("digest")

    def skip(self) -> bool:
        return len(self.ps) == 1 and self.emit("move", skip=True)

    def language(self) -> bool:
        for i, piece in enumerate(self.ps[:4]):
            if (
                "LANGUAGE_NAME" in piece.types
                and i <= 3
                and len(self.ps) <= 4
                and (i > 0 or (len(piece.text) > 3 and len(self.ps) <= 2))
            ):
                if i > 0 and not all(
                    self.ps[k].types.keys() & {"LANGUAGE", "LINK", "MOVE"} or self.ps[k].kind == "sign"
                    for k in range(i)
                ):
                    return False
                return self.emit("language", language=piece.types["LANGUAGE_NAME"].value)
        return False

    def place(self) -> bool:
        if len(self.ps) < 2 or len(self.ps) > 6 or self._noted(1):
            return False
        name = self.name(1)
        return name is not None and self.emit("place", place=name)

    def release(self) -> bool:
        return self._numbered("release")

    def refuse(self) -> bool:
        return self._numbered("refuse")

    def _numbered(self, kind: str) -> bool:
        numbers = [p for p in self.ps[1:] if p.kind == "number"]
        others = [p for p in self.ps[1:] if p.kind not in ("number", "sign")]
        return len(numbers) == 1 and not others and self.emit(kind, number=int(numbers[0].value))

    def rename(self) -> bool:
        for i in range(2, len(self.ps)):
            if "RENAME_TO" in self.ps[i].types:
                old, new = self.name(1, i), self.name(i + 1)
                if old and new:
                    return self.emit("field", name=old, rename_to=new)
        return False

    def add(self) -> bool:
        if self.ps[0].text in ("add", "agregar", "agrega", "adicionar", "adiciona", "anadir", "cadastrar") and (
            len(self.ps) < 2 or (self._noted(1) and not self.has(1, "FIELD_WORD"))
        ):
            return False
        i = 1
        while i < len(self.ps) and ("FIELD_WORD" in self.ps[i].types or self.ps[i].text in (":", "#")):
            i += 1
        j = i
        while j < len(self.ps) and not self._property(j):
            j += 1
        name = self.name(i, j)
        if name is None:
            return False
        return self.emit("field", name=name, **self.properties(j))

    def alias(self) -> bool:
        return False

    def _property(self, j: int) -> bool:
        piece = self.ps[j]
        if piece.kind == "break" and piece.text in (",", "(", ";", "."):
            return True
        if piece.kind == "number" and (isinstance(piece.value, float) or self.has(j + 1, "ACRES")):
            return True
        if piece.kind in ("link", "day") or (
            piece.kind == "sign"
            and piece.text in ("@", "-")
            and j + 1 < len(self.ps)
            and self.ps[j + 1].kind == "number"
            and piece.text == "-"
        ):
            return True
        if "PLACE" in piece.types and self.ps[j - 1].kind != "break" and piece.text == "place":
            return False
        return bool(piece.types.keys() & {"NEAR", "PLANTED", "VARIETY", "RESISTANCE", "SOURCE", "PLACE", "ALIAS"})

    def properties(self, i: int) -> dict[str, Any]:
        """Coordinates, planting day, seed and the rest, from piece i on."""
        if i >= len(self.ps):
            return {}
        out: dict[str, Any] = {}
        raw = self.m.text[self.ps[i].start : self.end]
        where = coordinates(raw)
        if where is not None:
            out["latitude"], out["longitude"] = where
        ps = day_words(number_words(self.ps[i:], table(self.m.language)), table(self.m.language))
        k = 0
        while k < len(ps):
            types = ps[k].types
            if "PLANTED" in types:
                day = next((p for p in ps[k : k + 4] if p.kind == "day"), None)
                if day is not None:
                    found = past_day(day.value, self.m.sent, self.m.language, self.m.day_first)
                    if found.wrong or found.day is None:
                        self.m.complain(found.wrong, day.start, day.end, sent=self.m.sent.isoformat())
                    else:
                        out["planted"] = found.day
            elif "RESISTANCE" in types:
                out["resistance"] = types["RESISTANCE"].value
            elif "SOURCE" in types:
                out["source"] = types["SOURCE"].value
            elif "VARIETY" in types or "ALIAS" in types or "NEAR" in types or "PLACE" in types:
                key = next(name for name in ("VARIETY", "ALIAS", "NEAR", "PLACE") if name in types)
                stop = k + 1
                while (
                    stop < len(ps)
                    and ps[stop].kind in ("word", "number")
                    and not ps[stop].types.keys()
                    & {"NEAR", "PLANTED", "VARIETY", "RESISTANCE", "SOURCE", "PLACE", "ALIAS"}
                ):
                    stop += 1
                if stop > k + 1:
                    text = self.m.text[ps[k + 1].start : ps[stop - 1].end].strip()
                    out[{"VARIETY": "variety", "ALIAS": "alias", "NEAR": "near", "PLACE": "place"}[key]] = (
                        text if key == "VARIETY" else text.lower()
                    )
                    k = stop - 1
            elif ps[k].kind == "number" and k + 1 < len(ps) and "ACRES" in ps[k + 1].types:
                factor = 2.4711 if ps[k + 1].types["ACRES"].value == "hectare" else 1.0
                out["acres"] = round(ps[k].value * factor, 1)
            k += 1
        return out

    def weather(self) -> bool:
        entry = self.ps[0].types["WEATHER"]
        numbers = [p for p in self.ps if p.kind == "number"]
        if not numbers or entry.value in ("high", "low") or len(self.ps) > 16:
            return False
        out: dict[str, Any] = {}
        ps = day_words(self.ps, table(self.m.language))
        label = entry.value
        used: set[int] = set()
        for k, piece in enumerate(ps):
            found = piece.types.get("WEATHER")
            if found is not None:
                label = found.value
                used.add(k)
            elif piece.kind == "day":
                out["date"] = past_day(piece.value, self.m.sent, self.m.language, self.m.day_first).day
                used.add(k)
            elif piece.kind == "number":
                unit = ps[k + 1].text if k + 1 < len(ps) else ""
                sign = -1 if k and ps[k - 1].text == "-" else 1
                value = float(piece.value) * sign
                used.add(k)
                if label == "rain":
                    if unit in ("mm", "in", "inch", "inches", "cm", "pulgadas", "tenths"):
                        out["rain_mm"] = round(value * {"mm": 1.0, "cm": 10.0, "tenths": 2.54}.get(unit, 25.4), 1)
                        used.add(k + 1)
                    elif unit == "" or self.m.language != "en":
                        out["rain_mm"] = value
                elif label in ("high", "low"):
                    celsius = unit == "c" or (unit != "f" and self.m.language != "en")
                    out["tmax_c" if label == "high" else "tmin_c"] = round(value if celsius else (value - 32) / 1.8, 1)
                    if unit in ("c", "f"):
                        used.add(k + 1)
        if not out.keys() & {"rain_mm", "tmax_c", "tmin_c"}:
            return False
        left = [
            p for k, p in enumerate(ps) if k not in used and p.kind == "word" and (not p.entries or "FIELD" in p.types)
        ]
        if entry.value == "rain" and len(left) > 3:
            return False
        if left:
            out["field"] = written(self.m.text, left[0].start, left[-1].end)
        return self.emit("weather", **out)

    def lab(self) -> bool:
        if not self._eggs():
            if (
                len(self.ps) <= 4
                and not self._noted(1)
                and "LAB" in self.ps[0].types
                and self.ps[0].text in ("lab", "laboratorio", "lab result", "lab results", "egg count")
            ):
                self.m.complain("lab_what", self.start, self.end)
                return True
            return False
        return True

    def _eggs(self) -> bool:
        for k, piece in enumerate(self.ps):
            if "EGGS" not in piece.types:
                continue
            before = self.ps[k - 1] if k else None
            after = next((p for p in self.ps[k + 1 : k + 3] if p.kind == "number"), None)
            number = before if before is not None and before.kind == "number" else None
            tail = self.m.text[piece.start : self.end].lower()
            volume = re.search(r"(\d+)\s*(?:cc|cm3|cm³|ml|g)\b", tail)
            if number is None and after is not None and (volume is None or after.value != int(volume.group(1))):
                number = after
            if number is None:
                continue
            value = float(number.value)
            unit = f"eggs per {volume.group(1)} cc" if volume else tail.split(",")[0].strip()
            if not volume and not any("LAB" in p.types for p in self.ps):
                return False
            per_100 = round(value * 100 / int(volume.group(1)), 1) if volume and int(volume.group(1)) else None
            last = k - 1 if number is before else k
            names = [p for p in self.ps[:last] if p.kind in ("word", "number") and not p.types.keys() & {"LAB", "LINK"}]
            ps = day_words(self.ps, table(self.m.language))
            day = next((p for p in ps if p.kind == "day"), None)
            names = [p for p in names if day is None or not (day.start <= p.start < day.end)]
            return self.emit(
                "lab",
                field=written(self.m.text, names[0].start, names[-1].end) if names else None,
                eggs_per_100cc=per_100,
                value=value,
                unit=unit,
                date=past_day(day.value, self.m.sent, self.m.language, self.m.day_first).day
                if day is not None
                else None,
            )
        return False

    # corrections with a word for it

    def _correction(self) -> bool:
        for k, piece in enumerate(self.ps[:10]):
            if "CORRECT" not in piece.types:
                continue
            leading = (
                all(
                    p.kind in ("break", "sign") or not p.entries or p.types.keys() & {"FIELD", "COURTESY", "LINK"}
                    for p in self.ps[:k]
                )
                and k <= 4
            )
            if piece.text not in _STRONG_CORRECT and not leading:
                continue
            after = [p for p in self.ps[k + 1 :]]
            while after and (after[0].kind in ("sign", "break") or "CORRECT" in after[0].types):
                after = after[1:]
            before = self.ps[:k]
            if not after:
                if k == 0 and piece.text in ("correction", "correccion", "correcao", "fix", "corregir", "corrigir"):
                    self.m.complain("no_change", self.start, self.end)
                    return True
                return False
            return self._change(before, after)
        return False

    def _change(self, before: list[Piece], after: list[Piece]) -> bool:
        old = _facts(self.m, before) if before else []
        new = _facts(self.m, after)
        field = next((f.first("FIELD") for f in [*old, *new] if f.kind == "field"), None)
        changes = _pairs([f for f in new if f.kind not in ("field",)])
        bare = [f for f in new if f.kind == "per_plant" and len(f.numbers) == 1]
        if bare and len(bare) == 1 and not changes:
            for fact in old:
                what, value = _value(fact)
                if what is not None:
                    changes = [(what, bare[0].numbers[0], value)]
                elif fact.kind == "shades" and len(fact.all("COLOUR")) == 1:
                    changes = [(fact.first("COLOUR"), bare[0].numbers[0], None)]
                elif fact.kind == "text" and any("PLANTS" in p.types for p in before):
                    changes = [("plants", bare[0].numbers[0], None)]
        elif changes and old:
            olds = {what: value for what, value in (_value(f) for f in old) if what is not None}
            changes = [(what, value, was if was is not None else olds.get(what)) for what, value, was in changes]
        if not changes:
            named = [f for f in new if f.kind == "field"]
            if named and any("FIELD_WORD" in p.types for p in [*before, *after]):
                return self.emit("correct", what="field", value=named[0].first("FIELD"))
            return False
        for what, value, was in changes:
            self.emit("correct", field=field, what=what, value=_settled(self.m, value), old=_settled(self.m, was))
        return True


_FIRST = {
    "HELP": "help",
    "UNDO": "undo",
    "ADD": "add",
    "RENAME": "rename",
    "HISTORY": "history",
    "STATE": "state",
    "PICTURE": "picture",
    "DUE": "due",
    "MUTE": "mute",
    "RESUME": "resume",
    "DIGEST": "digest",
    "SKIP": "skip",
    "LANGUAGE": "language",
    "LANGUAGE_NAME": "language",
    "MOVE": "language",
    "RELEASE": "release",
    "REFUSE": "refuse",
    "LAB": "lab",
    "WEATHER": "weather",
    "PLACE": "place",
}


def coordinates(raw: str) -> tuple[float, float] | None:
    """Latitude and longitude in a text or a shared map link; ``None`` when there are none."""
    signed = re.search(r"(-?\d{1,2}\.\d+)\s*°?\s*([NSns])?\s*[,;/ ]\s*(-?\d{1,3}\.\d+)\s*°?\s*([EWOewo])?", raw)
    if signed is None:
        return None
    latitude, longitude = float(signed.group(1)), float(signed.group(3))
    if signed.group(2) in ("S", "s"):
        latitude = -abs(latitude)
    if signed.group(4) in ("W", "w", "O", "o"):
        longitude = -abs(longitude)
    if not (-90 <= latitude <= 90 and -180 <= longitude <= 180):
        return None
    return latitude, longitude


def _facts(message: _Message, pieces: list[Piece]) -> list[Fact]:
    draft = Draft(message.text, message.language, message.fields, list(pieces))
    facts = parse(draft)
    return [] if draft.asks else facts


def _value(fact: Fact) -> tuple[str | None, Any]:
    """What a fact says as a pair (what, value), for corrections."""
    numbers = fact.numbers
    kind = fact.kind
    if kind == "colour_count" and len(numbers) == 1:
        return fact.first("COLOUR"), numbers[0]
    if kind == "plants" and len(numbers) == 1:
        return "plants", numbers[0]
    if kind == "total_count" and len(numbers) == 1:
        return "total", numbers[0]
    if kind == "stage":
        return "stage", fact.first("STAGE")
    if kind == "moisture":
        return "moisture", fact.first("MOISTURE")
    if kind == "texture":
        return "texture", fact.first("TEXTURE")
    if kind == "how":
        value = fact.first("TOOL") or fact.first("DUG")
        return ("method", value) if value != "any" else (None, None)
    if kind == "soaked":
        return "soaked", fact.first("SOAKED") == "yes"
    if kind == "date":
        return "date", fact.first("DATE")
    if kind == "per_plant" and len(numbers) > 1:
        return "per_plant", tuple(numbers)
    if kind == "variety" and fact.has("RESISTANCE"):
        return "resistance", fact.first("RESISTANCE")
    if kind == "none":
        return "outcome", "none_seen"
    if kind == "look_again" and fact.has("SPAN") and fact.first("SPAN")[0] == "days":
        return "look_again", fact.first("SPAN")[1]
    if kind == "planted" and fact.has("DATE"):
        return "planted", fact.first("DATE")
    return None, None


def _pairs(facts: list[Fact]) -> list[tuple[str, Any, Any]]:
    """(what, new, old) from facts, "not" clauses giving the old value."""
    out: list[tuple[str, Any, Any]] = []
    loose: Any = None
    for fact in facts:
        if fact.kind == "per_plant" and len(fact.numbers) == 1:
            loose = fact.numbers[0]
            continue
        if fact.kind == "refused":
            number = fact.first("NUMBER")
            colour = fact.first("COLOUR")
            if loose is not None and colour is not None:
                out.append((colour, loose, number))
                loose = None
                continue
            was: Any = number
            for type_ in ("STAGE", "MOISTURE", "TOOL", "DUG", "DATE", "RESISTANCE"):
                if fact.has(type_):
                    was = fact.first(type_)
            if out and out[-1][2] is None:
                out[-1] = (out[-1][0], out[-1][1], was)
            elif colour is not None or was is not None:
                out.append(("?", None, (colour, was)))
            continue
        what, value = _value(fact)
        if what is not None:
            if out and out[-1][0] == "?":
                colour, was = out.pop()[2]
                out.append((what, value, was))
            else:
                out.append((what, value, None))
    return [row for row in out if row[0] != "?"]


def _settled(message: _Message, value: Any) -> Any:
    if isinstance(value, DayWritten):
        return past_day(value, message.sent, message.language, message.day_first).day
    return value


def reply(message: _Message, name: Fact | None, facts: list[Fact]) -> bool:
    """Is this not a note but a reply: a correction, a choice, a new day, or a field's own data? Then it is a command."""
    start = min(f.start for f in ([name] if name else []) + facts)
    end = max(f.end for f in ([name] if name else []) + facts)
    field = name.first("FIELD") if name is not None else None
    only = not message.notes

    def emit(kind: str, **args: Any) -> bool:
        given = {key: value for key, value in args.items() if value is not None}
        message.commands.append(Command(kind, given, place(message.text, start, end)))
        return True

    if not facts and name is not None:
        return only and emit("choose", name=field)
    if (
        name is None
        and len(facts) == 1
        and facts[0].kind == "per_plant"
        and len(facts[0].numbers) == 1
        and isinstance(facts[0].numbers[0], int)
        and only
    ):
        return emit("choose", number=facts[0].numbers[0])
    kinds = {f.kind for f in facts}
    if kinds & {"refused"}:
        others = [f for f in facts if f.kind != "text" or len(message.text[f.start : f.end].split()) > 2]
        pairs = _pairs([f for f in others if not (f.kind == "date" and len(others) > 2)])
        paired = sum(1 if was is None else 2 for _, _, was in pairs)
        day = next((f for f in facts if f.kind == "date"), None)
        if pairs and any(was is not None for _, _, was in pairs) and paired >= len([f for f in others if f is not day]):
            visit = (
                _settled(message, day.first("DATE"))
                if day is not None and not any(what == "date" for what, _, _ in pairs)
                else None
            )
            for what, value, was in pairs:
                if was is not None:
                    emit(
                        "correct",
                        field=field,
                        what=what,
                        value=_settled(message, value),
                        old=_settled(message, was),
                        date=visit,
                    )
            return True
    timed = [f for f in facts if f.kind in ("date", "look_again")]
    if len(timed) == 1 and len(facts) == 1 and only:
        fact = timed[0]
        day_written, span = fact.first("DATE"), fact.first("SPAN")
        if span is not None and span[0] == "days":
            return emit("move", days=span[1], field=field)
        if day_written is not None and (name is None or fact.kind == "look_again" or day_written.weekday is not None):
            found = coming_day(day_written, message.sent, message.language, message.day_first)
            if found.day is not None and not found.wrong:
                return emit("move", date=found.day, field=field)
    if name is not None and kinds and kinds <= {"planted", "variety", "after_planting"}:
        given: dict[str, Any] = {}
        for fact in facts:
            if fact.kind == "planted":
                if fact.first("DATE") is None:
                    return False
                given["planted"] = message.past(fact, fact.first("DATE"))
            elif fact.kind == "after_planting":
                given["planted"] = message.sent - timedelta(days=min(int(fact.first("SPAN_AFTER_PLANTING")), 400))
            else:
                names = fact.all("NAME")
                given["variety"] = " ".join(names) or None
                given["resistance"] = fact.first("RESISTANCE") or ("resistant" if fact.first("SOURCE") else None)
                given["source"] = fact.first("SOURCE")
        return emit("field", name=field, **given)
    return False
