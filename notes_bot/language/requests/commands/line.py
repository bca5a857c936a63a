"""One line that may ask, and small questions about it."""

from __future__ import annotations

from functools import cached_property
from typing import Any

from notes_bot.language.clauses.context import Context
from notes_bot.language.lexicon.days import PLANTED_DAYS, past_day
from notes_bot.language.lexicon.joining import day_words, is_any, number_words
from notes_bot.language.lexicon.pieces import Piece
from notes_bot.language.lexicon.scan import clean, scan
from notes_bot.language.lexicon.words import Table, anywhere, table
from notes_bot.language.names.naming import LIKE, LIKE_WHOLE, Names, joints, written
from notes_bot.language.requests import asking

LONGEST_NAME = 6
"""Pieces in the longest name of a field that is asked about (judgement)."""
MOST_NAMED = 2
"""Pieces of a request that is only a field and what is asked of it (judgement)."""
LONGEST_REQUEST = 20
"""Pieces in the longest sentence that asks; a longer one tells (judgement)."""
ASKED = ("PICTURE", "HISTORY", "MUTE", "RESUME", "DUE", "DIGEST", "STATE")
"""What may be asked for in a whole sentence, the more particular first."""
TOLD = (
    *("COLOUR", "NONE", "DUG", "TOOL", "NOT_LOOKED", "TOO_MANY", "SOAKED"),
    *("PLANTED", "SPRAY", "CHEMICAL", "RESISTANCE"),
)
"""Words of a note: a line that holds one asks nothing."""
BEGINS = ("PICTURE", "HISTORY", "STATE", "MUTE", "RESUME", "SKIP", "MOVE", "UNDO", "RENAME", "DUE", "DIGEST")
"""Words a second request of one sentence begins with."""
_FOR_EACH = frozenset({"state", "history", "picture", "mute", "resume", "weather", "move"})


class Line:
    """One line that may ask."""

    def __init__(self, context: Context, pieces: list[Piece]) -> None:
        self.context = context
        self.made: Table = table(context.language)
        self.asked = len(pieces) > 1 and pieces[-1].text == "?"
        while len(pieces) > 1 and pieces[-1].text == "?":
            pieces = pieces[:-1]
        self.ps = pieces
        self.start, self.end = pieces[0].start, pieces[-1].end
        self.parts: asking.Parts | None = None
        """Its words that may ask (see ``asking.parts_of``)."""

    @cached_property
    def vocabulary(self) -> frozenset[str]:
        """Every word of the line, those of phrases one by one."""
        return frozenset(word for piece in self.ps for word in piece.text.split(" "))

    def _of_kin(self, name: str) -> bool:
        """ "How's your mom doing", "como vai a família": no field of that name is known."""
        told = any(self.made.has("kin_word", word) for word in name.split(" "))
        return told and not any("FIELD" in piece.types for piece in self.ps)

    def emit(self, kind: str, **args: Any) -> bool:
        """The line is this command; "mute kestrel and tinkers" is one for each field named."""
        field = args.get("field")
        if kind == "picture" and (asking.likens_picture(self) or self._hands_over()):
            return False
        if kind == "state" and field and self._of_kin(str(field)):
            return False
        if field and self._names_nothing(str(field)):
            return False
        if kind == "digest" and args.get("span") is None:
            args["span"] = self._span_summed()
        if kind not in _FOR_EACH or not field:
            return self.context.command(kind, self.start, self.end, **args)
        others = [
            (piece.start, self.written(piece))
            for n, piece in enumerate(self.ps)
            if self._joined_field(n, kind) and self.written(piece) not in field
        ]
        own = next((p.start for p in self.ps if self.written(p) in field), self.start)
        for _, name in sorted([(own, field), *others]):
            self.context.command(kind, self.start, self.end, **{**args, "field": name})
        return True

    def _hands_over(self) -> bool:
        """ "Here's a pic of Kestrel", "te mando foto": one's own, and none is asked for."""
        words = [word for p in self.ps[:MOST_NAMED] for word in p.text.split(" ")]
        return not self.asked and any(self.made.has("own_picture", " ".join(words[:size])) for size in (1, 2))

    def _names_nothing(self, field: str) -> bool:
        """ "Truck wont start again lol": what belongs to no field, or a denial, and no name of the crew."""
        words = [x.text for x in scan(clean(field))]
        other = any(map(self.made.denies, words)) or (words and self.made.has("other_subject", words[0]))
        return bool(other or all(self.made.has("no_name", word) for word in words)) and not self.is_known(field)

    def _joined_field(self, n: int, kind: str) -> bool:
        """Is the field at n joined to another by a comma or "and"?"""
        piece = self.ps[n]
        if piece.types.keys() != {"FIELD"} and not (kind == "weather" and "FIELD" in piece.types):
            return False
        beside = [self.ps[n - 1]] if n > 1 else []
        beside += self.ps[n + 1 : n + 2] if self.has(n + 2, "FIELD") else []  # "tower + depot history"
        return any(p.text in joints() or self.made.has("or_word", p.text) for p in beside)

    def _span_summed(self) -> str | None:
        """ "Wk digest for my crew", "the rundown for the whole season"; ``None`` for the day."""
        parts = asking.parts_of(self)
        if parts.says("digest_season"):
            return "season"
        if any(is_any(piece, ("TODAY",)) for piece in self.ps) or parts.says("span_day"):
            return None  # "the summary for today, busy week"
        return "week" if parts.says("digest_week") else "season" if parts.says("span_season") else None

    def written(self, piece: Piece) -> str:
        """A piece as it is written."""
        return written(self.context.text, piece.start, piece.end)

    def has(self, i: int, *types: str) -> bool:
        """Can the piece at i be a word of one of these kinds?"""
        return i < len(self.ps) and is_any(self.ps[i], types)

    def quiet(self, i: int = 0) -> bool:
        """Is the word at i an everyday word that asks nothing by itself?"""
        return self.made.has("quiet_command", self.ps[i].text)

    def name(self, i: int, last: int | None = None, whole: bool = False) -> str | None:
        """The words from i on as a field's name, little words around it left out (unless a name is being given)."""
        ps = self.ps[i:last]
        while len(ps) > 1 and (ps[0].kind == "sign" or (ps[0].text in joints() and "FIELD" in ps[1].types)):
            ps = ps[1:]  # "¿y bajo grande, cómo está?"
        while (
            ps
            and not whole
            and (
                ps[0].kind in ("sign", "break")
                or (self.made.has("around_name", ps[0].text) and "FIELD" not in ps[0].types)
            )
        ):
            ps = ps[1:]
        while ps and (ps[-1].kind in ("sign", "break") or self._trailing(ps)):
            ps = ps[:-1]
        if not 0 < len(ps) <= LONGEST_NAME:
            return None
        return written(self.context.text, ps[0].start, ps[-1].end) or None

    def _trailing(self, ps: list[Piece]) -> bool:
        """Is the last piece no part of the name?"""
        last = ps[-1]
        return (
            (self.made.has("around_name", last.text) and "FIELD" not in last.types)
            or "FIELD_WORD" in last.types
            or ("COURTESY" in last.types and len(ps) > 1)
        )

    def noted(self, i: int) -> bool:
        """Does a note follow from i rather than a name?"""
        for n in range(i, len(self.ps)):
            piece = self.ps[n]
            if piece.kind in ("stage", "day", "series", "range") and not self.has(n - 1, "PLANTED"):
                return True
            counts = piece.kind == "number" or "NUMBER_WORD" in piece.types
            if counts and self.has(n + 1, "PLANTS", "COLOUR", "FEMALES", "UNIT", "DUG"):
                return True
            if is_any(piece, ("DUG", "NONE", "NOT_LOOKED")) and "FIELD" not in piece.types:
                return True
        return False

    def tells(self, reasons: bool = False) -> bool:
        """Does the line tell of something seen or done? Then it asks nothing. Not having looked may be a reason."""
        for n, piece in enumerate(self.ps):
            if piece.kind in ("stage", "series", "range", "ratio"):
                return True
            if piece.kind == "number" and self.has(n + 1, "PLANTS", "COLOUR", "FEMALES", "DUG"):
                return True
            if "NUMBER_WORD" in piece.types and "FIELD" not in piece.types and self.has(n + 1, "PLANTS"):
                return True
            if n > 1 and all(p.kind == "number" for p in self.ps[n - 2 : n + 1]):
                return True  # "2 0 4 1 3 on five plants"
            if reasons and is_any(piece, ("NOT_LOOKED", "DUG", "RESISTANCE", "PLANTED", "SOAKED")):
                continue
            letter = len(piece.text) == 1 and "LINK" in piece.types
            letter = letter or (n == 0 and "COURTESY" in piece.types)  # "hello" is no yellow
            if (
                is_any(piece, TOLD)
                and not letter
                and not piece.types.keys() & {*ASKED, "FIELD", "UNDO", "HELP", "MOVE"}
            ):
                return True
        return False

    def politely(self) -> bool:
        """A question, or a sentence that begins with a word of asking ("could you", "please")?"""
        opening = " ".join(p.text for p in self.ps[:3]) + " "
        return self.asked or any(opening.startswith(word + " ") for word in self.made.traits["asks_politely"])

    def is_known(self, name: str) -> bool:
        """Is it the name of a field of the crew, or like one?"""
        folded = {" ".join(known.lower().split()) for known in self.context.fields}
        return name in folded or Names(name, [], self.made, self.context.fields).like_known(0, len(name))

    def nearest_name(self, name: str | None, asked: int = 0) -> str | None:
        """A name as given, or the crew's field among its words ("old mill e last time")."""
        if name is None or not self.context.fields:
            return name
        folded = {" ".join(known.lower().split()) for known in self.context.fields}
        whole = [self.written(p) for p in self.ps if "FIELD" in p.types]
        if name not in folded and len(whole) == 1 and whole[0] in folded and whole[0] in name:
            return whole[0]  # "qué encontramos en molino viejo hasta hoy"
        return name if self.is_known(name) else self.known_name(asked) or name

    def known_name(self, asked: int) -> str | None:
        """The crew's field named in the line, in full or in short; the word that asks is not part of it."""
        span = self.known_span(asked)
        return written(self.context.text, *span) if span is not None else None

    def known_span(self, asked: int) -> tuple[int, int] | None:
        """Where in the text that field stands."""
        known = next((n for n, p in enumerate(self.ps) if "FIELD" in p.types and n != asked), None)
        names = Names(self.context.text, self.ps, self.made, self.context.fields)
        if known is not None:
            return self._wider(names, (self.ps[known].start, self.ps[known].end))
        best, found, bare = LIKE, None, False
        for size in range(4, 0, -1):
            for i in range(len(self.ps) - size + 1):
                run = self.ps[i : i + size]
                plain = all(p.kind in ("word", "number") for p in run) and not i <= asked < i + size
                plain = plain and not (run[-1].kind == "number" and self.has(i + size, "UNIT"))  # "push church 4 days"
                plain = plain and not all("FIELD_WORD" in p.types for p in run)  # "ese lote", where Lote 7 is one
                plain = plain and not (size == 1 and self.made.has("mail_word", run[0].text))  # no Northeast: "note"
                plain = plain and not (size == 1 and self.made.has("to_come", run[0].text))  # no Windmill: "will"
                likeness = names.likeness(run[0].start, run[-1].end) if plain else 0.0
                if size > 1 and likeness and names.likeness(run[1].start, run[-1].end) > likeness:
                    continue  # "put church bottm off"
                inner = found is not None and found[0] <= run[0].start and run[-1].end <= found[1] and bare
                if (likeness > best and not inner) or (likeness == best and found is None):
                    best, found = likeness, (run[0].start, run[-1].end)
                    bare = not any(p.types for p in run)  # "nrth frty" is more than "nrth"
        return self._wider(names, found) if found is not None and not self._of_another(found) else None

    def _of_another(self, found: tuple[int, int]) -> bool:
        """ "Quarry forty is ..", "Ridge of Pines is ..", where North Forty and Harrow Ridge are fields."""
        at = next((n for n, p in enumerate(self.ps) if p.start == found[0]), 0)
        last = next((n for n in range(len(self.ps) - 1, -1, -1) if self.ps[n].end == found[1]), at)
        if asking.goes_on(self, last + 1):
            return True
        if len(self.ps) < 3 or at != 1 or found[1] == self.end:
            return False
        first = self.ps[0]
        named = first.kind == "word" and not first.types and first.text not in self.made.plain
        return named and not (asking.cues(first, self.made) or first.text in anywhere("also"))

    def _wider(self, names: Names, found: tuple[int, int]) -> tuple[int, int]:
        """ "Crooked creak": the word behind a short name is of it when the two are like a name of the crew."""
        behind = next((p for p in self.ps if p.start >= found[1]), None) if self.context.fields else None
        plain = behind is not None and behind.kind == "word" and not behind.types
        if behind is None or not plain or written(self.context.text, *found) in names.fields:
            return found
        if names.likeness(found[0], behind.end) < LIKE_WHOLE:
            return found
        return found[0], behind.end

    def only_days(self, i: int) -> bool:
        """ "Visitas de sábado": what follows is a day, the heading of a round."""
        ps = day_words(number_words(self.ps[i:], self.made), self.made)
        rest = [p for p in ps if not is_any(p, ("LINK",)) and p.kind not in ("sign", "break")]
        return bool(rest) and all(p.kind == "day" or is_any(p, ("WEEKDAY", "TODAY", "MONTH")) for p in rest)

    def past(self, day: Piece) -> Any:
        """The day of something that happened; a complaint where it cannot be."""
        order = (self.context.language, self.context.day_first)
        found = past_day(day.value, self.context.sent, *order, PLANTED_DAYS)
        if found.wrong:
            self.context.complain(found.wrong, day.start, day.end, sent=self.context.day(self.context.sent))
        return found.day
