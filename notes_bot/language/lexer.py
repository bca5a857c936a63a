"""Pieces to typed tokens: each ambiguous word gets the one meaning its neighbours allow, numbers get their nouns.

The tokens go straight into lark's LALR parser. Nothing is corrected here without a slip noted for the answer.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from lark.lexer import Lexer

from notes_bot.language.chains import bind
from notes_bot.language.days import DayWritten
from notes_bot.language.pieces import Cutter, Piece
from notes_bot.language.scan import scan
from notes_bot.language.words import COMMAND_TYPES, Entry, Table, near_words, table
from notes_bot.model import Language


class Word:
    """A typed token: what lark sees of a piece (it needs the place attributes of its own tokens)."""

    __slots__ = ("end", "lead", "start", "text", "type", "value")
    line = column = end_line = end_column = 1

    def __init__(self, type: str, value: Any, start: int, end: int, text: str, lead: str = "") -> None:  # noqa: A002 - lark's name
        self.type = type
        self.value = value
        self.start = start
        self.end = end
        self.text = text
        self.lead = lead
        """What stands before it: a hard or soft break, a colon, or nothing."""

    @property
    def start_pos(self) -> int:
        return self.start

    @property
    def end_pos(self) -> int:
        return self.end

    def __repr__(self) -> str:
        return f"{self.type}:{self.value!r}"


@dataclass(slots=True)
class Slip:
    """A word read only after a correction."""

    kind: str
    written: str
    read: str
    start: int
    end: int


@dataclass(slots=True)
class Draft:
    """A text on its way to the parser: what goes in, and what the lexer found besides tokens."""

    text: str
    language: Language
    fields: tuple[str, ...] = ()
    pieces: list[Piece] = field(default_factory=list)
    slips: list[Slip] = field(default_factory=list)
    asks: list[tuple[str, int, int]] = field(default_factory=list)
    """Places the lexer itself must ask about: kind, start, end."""


class NoteLexer(Lexer):
    """lark's door to our tokens: lexes a :class:`Draft`."""

    def __init__(self, lexer_conf: object) -> None:
        pass

    def lex(self, draft: Draft) -> Iterator[Word]:  # type: ignore[override]  # lark's base knows only text
        """All tokens of the draft; the draft collects slips and asks on the way."""
        return iter(tokens(draft))


DIRECTIONS = frozenset(
    ["n", "s", "e", "w", "ne", "nw", "se", "sw", "north", "south", "east", "west", "norte", "sur", "sul", "este", "leste", "oeste", "no", "so", "o", "l", "lado"]
)
NAME_LINKS = frozenset(["de", "del", "da", "do", "dos", "das", "la", "el", "los", "las", "of", "the", "y", "e", "and"])
GEOGRAPHIC = frozenset(("SPOT", "FIELD_WORD", "NEAR"))
HARD = frozenset(
    ["DUG", "TOOL", "NONE", "NOT_LOOKED", "SOAKED", "RESISTANCE", "CHECK", "PLANTED", "SPRAY", "EACH", "FEMALES", "NODULES", "NOT", "TOO_MANY", "CHEMICAL", "ENTRY", "SOURCE", "DAP", "TODAY", "PH"]
)
"""Kinds of word that never belong to a field's name at the start of a note."""
NOUNS = frozenset(["COLOUR", "PLANTS", "FEMALES", "TOTAL", "EACH", "DUG", "NODULES", "UNIT", "DAP", "PPM"])
FINDINGS = frozenset(["DUG", "NONE", "NOT_LOOKED", "FEMALES", "TOO_MANY"])
TOPS_NEAR = frozenset(["TOPS", "EDGES", "VEINS", "NEW", "OLD", "BANDS"])
WEAK = frozenset(
    ["good", "fine", "ok", "even", "nice", "great", "short", "small", "behind", "normal", "turning", "bien", "bem", "boa", "boas", "buen", "buena", "heavy", "light", "low", "little", "poor", "variable", "spot", "spots", "pequenas", "chicas", "bajas", "baixas", "menores", "uniform", "uniforme", "linda", "lindas", "bonita", "bonitas", "turning", "puntas"]
)
"""Everyday adjectives that speak of plants only beside a word for plants, or alone between two breaks."""
WEAK_LOOK = frozenset(["back", "look", "return", "go", "back", "check", "again", "come", "back", "volver", "voltar", "rev", "revisar", "vuelvo", "volto", "retornar", "regresar", "try", "again"]) | {
    "go back", "check again", "come back", "look back", "be back", "try again", "remind", "remind me", "conferir",
}  # fmt: skip
ASIDE = frozenset(["most", "some", "few", "a", "few", "only", "just", "several", "various", "all"]) | {"a few"}


def tokens(draft: Draft) -> list[Word]:
    """Typed tokens of a draft in order, with BREAKs where clauses end."""
    if not draft.pieces:
        draft.pieces = Cutter(draft.language, draft.fields).cut(scan(draft.text))
    made = table(draft.language)
    pieces = number_words(draft.pieces, made)
    pieces = day_words(pieces, made)
    draft.pieces = pieces
    names = find_fields(draft, pieces)
    chosen = _Senses(draft, pieces, names, made).run()
    return bind(chosen, draft)


# --- number words -----------------------------------------------------------------------------------


def linking(piece: Piece) -> bool:
    """A little word that carries no meaning of its own here."""
    types = piece.types.keys()
    return bool(types & {"LINK", "ABOUT"}) and not types - _LITTLE


_LITTLE = COMMAND_TYPES | {"LINK", "ABOUT", "SPOT", "MEASURE", "BELOW", "TOTAL", "COURTESY"}


def _next(pieces: list[Piece], i: int, step: int) -> Piece | None:
    """The next piece that carries meaning in the same clause, little words and signs left out."""
    i += step
    while 0 <= i < len(pieces):
        piece = pieces[i]
        if piece.kind == "sign" and piece.text not in "()":
            i += step
            continue
        if piece.kind == "word" and linking(piece):
            i += step
            continue
        return None if piece.kind in ("break", "line") else piece
    return None


def number_words(pieces: list[Piece], made: Table) -> list[Piece]:
    """Number words become numbers where they stand as one: "twelve white", "three zero seven"."""
    if not any("NUMBER_WORD" in p.types for p in pieces):
        return pieces
    out: list[Piece] = []
    i = 0
    while i < len(pieces):
        piece = pieces[i]
        entry = piece.types.get("NUMBER_WORD")
        if entry is None or not _numeric(pieces, i, made):
            out.append(piece)
            i += 1
            continue
        value = int(entry.value)
        last = i
        while True:
            j = last + 1
            if j < len(pieces) and pieces[j].text in ("and", "y", "e") and j + 1 < len(pieces):
                j += 1
            more = pieces[j].types.get("NUMBER_WORD") if j < len(pieces) else None
            if more is None:
                break
            unit = int(more.value)
            if unit == 100 and 1 <= value <= 9 and j == last + 1:
                value *= 100
            elif (value in (20, 30, 40, 50, 60, 70, 80, 90) and 1 <= unit <= 9) or (
                value >= 100 and value % 100 == 0 and unit < 100
            ):
                if j > last + 1 and pieces[last + 1].text == "and" and value < 100:
                    break
                value += unit
            elif value > 100 and value % 10 == 0 and value % 100 >= 20 and 1 <= unit <= 9:
                value += unit
            else:
                break
            last = j
        out.append(Piece("number", piece.text, piece.start, pieces[last].end, (), value, piece.spaced))
        i = last + 1
    return out


def _numeric(pieces: list[Piece], i: int, made: Table) -> bool:
    before, after = _next(pieces, i, -1), _next(pieces, i, 1)
    careful = pieces[i].text in ("one", "um", "uma", "uno", "una", "once")

    def number_like(p: Piece | None) -> bool:
        return p is not None and (p.kind in ("number", "range") or "NUMBER_WORD" in p.types)

    def noun(p: Piece | None, kinds: frozenset[str]) -> bool:
        return p is not None and not kinds.isdisjoint(p.types)

    if noun(after, NOUNS - {"EACH"} | {"NONE"}):
        if (
            careful
            and pieces[i].text in ("um", "uma", "una")
            and not noun(after, frozenset(("COLOUR", "PLANTS", "FEMALES")))
        ):
            return number_like(before)
        return True
    if number_like(before) and (not careful or number_like(after) or i > 1):
        return True
    if number_like(after) and not careful:
        return True
    if noun(before, NOUNS - {"EACH", "UNIT"}) and not careful:
        return True
    if noun(before, frozenset(("DUG", "COLOUR", "PLANTS"))) and after is None:
        return True
    if careful:
        return number_like(before) or (number_like(after) and after is not None and after.kind != "word")
    alone = before is None and after is None
    return alone and pieces[i].text not in ("forty", "eighty", "hundred")


# --- days -------------------------------------------------------------------------------------------


def day_words(pieces: list[Piece], made: Table) -> list[Piece]:
    """Month names, weekdays, today and yesterday become days."""
    if not any(p.types.keys() & {"MONTH", "WEEKDAY", "TODAY"} for p in pieces):
        return pieces
    out: list[Piece] = []
    i = 0
    while i < len(pieces):
        piece = pieces[i]
        if "MONTH" in piece.types:
            step = _month(pieces, i, out, made)
            if step:
                i += step
                continue
        if "WEEKDAY" in piece.types and _weekday_stands(pieces, i, out):
            after = pieces[i + 1] if i + 1 < len(pieces) else None
            before = out[-1] if out else None
            start, which, used = piece.start, "", 1
            if before is not None and "WHICH" in before.types:
                which, start = before.types["WHICH"].value, before.start
                out.pop()
            elif after is not None and "WHICH" in after.types:
                which, used = after.types["WHICH"].value, 2
            end = pieces[i + used - 1].end
            day = DayWritten(piece.text, weekday=int(piece.types["WEEKDAY"].value), next=which == "next")
            out.append(Piece("day", piece.text, start, end, (), day, piece.spaced))
            i += used
            continue
        if "TODAY" in piece.types:
            day = DayWritten(piece.text, days_ago=int(piece.types["TODAY"].value))
            out.append(Piece("day", piece.text, piece.start, piece.end, (), day, piece.spaced))
            i += 1
            continue
        out.append(piece)
        i += 1
    return out


def _month(pieces: list[Piece], i: int, out: list[Piece], made: Table) -> int:
    month = int(pieces[i].types["MONTH"].value)

    def day_number(p: Piece | None) -> bool:
        return p is not None and p.kind == "number" and isinstance(p.value, int) and 1 <= p.value <= 31 and not p.plus

    k = i + 1
    while k < len(pieces) and pieces[k].text in ("de", ".", "-", "the", "/"):
        k += 1
    after = pieces[k] if k < len(pieces) else None
    back = len(out)
    while back and out[back - 1].text in ("de", "of", "-", "/"):
        back -= 1
    before = out[back - 1] if back else None
    before_ok, after_ok = day_number(before), day_number(after)
    if before_ok and after_ok:
        beyond = _next(pieces, k, 1)
        bound = beyond is not None and not (NOUNS | {"MEASURE"}).isdisjoint(beyond.types)
        earlier = out[back - 2] if back > 1 else None
        taken = earlier is not None and bool(earlier.types.keys() & {"DUG", "COLOUR", "PLANTS", "PH", "POTASSIUM"})
        if bound or (before is not None and before.text.endswith(("st", "nd", "rd", "th"))):
            after_ok = taken and not bound
            before_ok = not after_ok
        else:
            before_ok = made.language != "en" and not taken
            after_ok = not before_ok
    if before_ok and before is not None:
        del out[back - 1 :]
        end, used = pieces[i].end, 1
        year = _year_after(pieces, i + 1)
        if year:
            used += year[1]
            end = pieces[i + year[1]].end
        day = DayWritten(pieces[i].text, day=before.value, month=month, year=year[0] if year else None)
        out.append(Piece("day", f"{before.text} {pieces[i].text}", before.start, end, (), day, before.spaced))
        return used
    if after_ok and after is not None:
        used = k - i + 1
        end = after.end
        year = _year_after(pieces, k + 1)
        if year:
            used += year[1]
            end = pieces[k + year[1]].end
        day = DayWritten(pieces[i].text, day=after.value, month=month, year=year[0] if year else None)
        out.append(Piece("day", f"{pieces[i].text} {after.text}", pieces[i].start, end, (), day, pieces[i].spaced))
        return used
    return 0


def _year_after(pieces: list[Piece], i: int) -> tuple[int, int] | None:
    used = 0
    while i < len(pieces) and pieces[i].text in (",", "de", "."):
        i += 1
        used += 1
    if (
        i < len(pieces)
        and pieces[i].kind == "number"
        and isinstance(pieces[i].value, int)
        and 2000 <= pieces[i].value <= 2099
    ):
        return pieces[i].value, used + 1
    return None


def _weekday_stands(pieces: list[Piece], i: int, out: list[Piece]) -> bool:
    word = pieces[i].text
    before = out[-1] if out else None
    after = pieces[i + 1] if i + 1 < len(pieces) else None
    if before is not None and before.types.keys() & {"WHICH", "LOOK", "MOVE"}:
        return True
    if after is not None and "WHICH" in after.types:
        return True
    if len(word) >= 5 and not (
        word in ("sexta", "terca", "quarta", "quinta", "segunda")
        and after is not None
        and after.kind == "word"
        and not after.entries
    ):
        return True
    ends = after is None or after.kind != "word" or bool(after.entries)
    starts = (
        before is None or before.kind in ("break", "line") or before.text in ("on", "el", "na", "no", "last", "next")
    )
    named = before is not None and before.kind == "word" and not before.entries
    if word in ("sun", "ter", "mar", "sat"):
        return ends and starts
    return ends and (starts or named or (before is not None and "FIELD" in before.types))


# --- fields -----------------------------------------------------------------------------------------


@dataclass(slots=True)
class FieldName:
    """A field's name in the text: pieces first to last (exclusive)."""

    first: int
    last: int
    start: int
    end: int
    known: bool


def written(text: str, start: int, end: int) -> str:
    """A slice of the text in lower case with single spaces, as a name is kept."""
    name = re.sub(r"\s+", " ", text[start:end].replace("’", "'").lower()).strip(" .,:;'\"-#()")
    return name


def find_fields(draft: Draft, pieces: list[Piece]) -> dict[int, FieldName]:
    """Where the fields of the message are named, by index of their first piece."""
    found: dict[int, FieldName] = {}
    finding = False
    have = False
    clause_start = True
    line_start = True
    i = 0
    budget = 0
    while i < len(pieces):
        piece = pieces[i]
        if piece.kind in ("break", "line"):
            clause_start = True
            line_start = line_start or piece.kind == "line"
            i += 1
            continue
        name: FieldName | None = None
        word = piece.types.get("FIELD_WORD")
        if word is not None:
            name = _after_field_word(draft, pieces, i, clause_start, have)
        if name is None and "FIELD" in piece.types and _known_stands(pieces, i, clause_start, have, finding):
            name = _extend(draft, pieces, i)
        if name is None and clause_start and not have and budget < 3:
            name = _leading(draft, pieces, i)
            if not _skippable(piece):
                budget += 1
        if name is None and line_start and have and finding and not _skippable(piece):
            name = _new_line_name(draft, pieces, i)
        if name is not None:
            found[name.first] = name
            have = True
            finding = False
            clause_start = line_start = False
            i = name.last
            continue
        if piece.kind in ("number", "range", "series") or piece.types.keys() & FINDINGS:
            finding = True
        if not (clause_start and _skippable(piece)):
            clause_start = line_start = False
        i += 1
    if not found:
        name = _after_at(draft, pieces)
        if name is not None:
            found[name.first] = name
    return found


def _skippable(piece: Piece) -> bool:
    """What may stand before a field's name: a day, a stage, a greeting, "at"."""
    if piece.kind in ("day", "stage", "sign"):
        return True
    types = piece.types.keys()
    return bool(types) and types <= {"LINK", "COURTESY", "TODAY", "WEEKDAY", "ABOUT", "SAME"} and len(piece.text) > 1


def _unknown(piece: Piece) -> bool:
    return piece.kind == "word" and not piece.entries


def _bound(pieces: list[Piece], i: int) -> bool:
    """Does the number at i belong to the noun after it?"""
    after = pieces[i + 1] if i + 1 < len(pieces) else None
    if after is None:
        return False
    if after.kind == "number":
        beyond = pieces[i + 2] if i + 2 < len(pieces) else None
        return beyond is not None and beyond.kind == "number"
    nouns = NOUNS | {"MEASURE", "MONTH", "MOSTLY", "FEMALES", "ROOTS", "TOO_MANY", "NUMBER_WORD", "RESISTANCE"}
    return (after.kind in ("range", "sign") and after.text not in ("#",)) or not nouns.isdisjoint(after.types)


def _ended(pieces: list[Piece], i: int) -> bool:
    return i >= len(pieces) or pieces[i].kind in ("break", "line", "day", "stage", "sign")


def _make(
    draft: Draft, pieces: list[Piece], first: int, last: int, begin: int, known: bool = False
) -> FieldName | None:
    start, end = pieces[begin].start, pieces[last - 1].end
    if not written(draft.text, start, end):
        return None
    return FieldName(first, last, start, end, known)


def _after_field_word(draft: Draft, pieces: list[Piece], i: int, clause_start: bool, have: bool) -> FieldName | None:
    if not clause_start and have:
        return None
    j = i + 1
    while j < len(pieces) and pieces[j].text in ("#", ":", "no", "nro", "n", "number", "numero", "o", "."):
        j += 1
    if j >= len(pieces) or pieces[j].kind in ("break", "line"):
        return None
    if pieces[j].kind == "quoted":
        return _make(draft, pieces, i, j + 1, j)
    if pieces[j].kind == "number" and not _tied(pieces, j):
        last = j + 1
        if (
            last < len(pieces)
            and pieces[last].kind == "word"
            and len(pieces[last].text) == 1
            and not pieces[last].spaced
        ):
            last += 1
        return _make(draft, pieces, i, last, j)
    if "FIELD" in pieces[j].types:
        return _extend(draft, pieces, j, i)
    lead = _run(pieces, j)
    if lead > j:
        return _make(draft, pieces, i, lead, j)
    return None


def _tied(pieces: list[Piece], i: int) -> bool:
    """A number glued to its noun (6pl), or followed by one without another number to spare."""
    after = pieces[i + 1] if i + 1 < len(pieces) else None
    return (
        after is not None
        and after.kind == "word"
        and not after.spaced
        and len(after.text) > 1
        and not NOUNS.isdisjoint(after.types)
    )


def _known_stands(pieces: list[Piece], i: int, clause_start: bool, have: bool, finding: bool) -> bool:
    piece = pieces[i]
    other = bool(piece.types.keys() - {"FIELD", "LINK"}) or piece.kind == "number"
    if clause_start:
        return not (other and have)
    if other and " " not in piece.text:
        return False
    if not have:
        return True
    before = pieces[i - 1] if i else None
    linked = (
        before is not None
        and bool(before.types.keys() & {"LINK", "NEAR", "SAME", "NOT", "RENAME_TO"})
        and before.text not in ("and", "y", "e", "then")
    )
    return finding and not linked


def _extend(draft: Draft, pieces: list[Piece], i: int, first: int | None = None) -> FieldName | None:
    """A known name, with a direction or number that would make it another field."""
    last = i + 1
    known = True
    while last < len(pieces) and last - i < 4:
        piece = pieces[last]
        if (
            piece.kind == "word"
            and piece.text in DIRECTIONS
            and not _sided(pieces, last)
            and "FIELD" not in piece.types
        ) or (
            piece.kind == "number"
            and not _bound(pieces, last)
            and _ended(pieces, last + 1)
            and not pieces[last].plus
            and not _colon(pieces, last + 1)
        ):
            last += 1
            known = False
        else:
            break
    if last < len(pieces) and "FIELD_WORD" in pieces[last].types and not _next_is_name(pieces, last):
        return _widen(_make(draft, pieces, i if first is None else first, last, i, known), last + 1)
    return _make(draft, pieces, i if first is None else first, last, i, known)


def _widen(name: FieldName | None, last: int) -> FieldName | None:
    if name is not None:
        name.last = last
    return name


def _colon(pieces: list[Piece], i: int) -> bool:
    return i < len(pieces) and pieces[i].text in (":", "=")


def _sided(pieces: list[Piece], i: int) -> bool:
    after = pieces[i + 1] if i + 1 < len(pieces) else None
    return after is not None and after.text in ("side", "end", "half", "of", "edge")


def _next_is_name(pieces: list[Piece], i: int) -> bool:
    after = pieces[i + 1] if i + 1 < len(pieces) else None
    return after is not None and (after.kind == "number" or _unknown(after))


def _run(pieces: list[Piece], i: int) -> int:
    """End of the run of name-like pieces from i; i when there is none."""
    j = i
    unknown = False
    size = 0
    while j < len(pieces) and size < 7:
        piece = pieces[j]
        if piece.kind == "number":
            if j == i or piece.plus or isinstance(piece.value, float):
                break
            after = pieces[j + 1] if j + 1 < len(pieces) else None
            if (
                (unknown
                and after is not None
                and after.kind == "number"
                and not (j + 2 < len(pieces) and pieces[j + 2].kind == "number"))
                or not _bound(pieces, j)
            ):
                j += 1
            break
        if (
            piece.kind == "sign"
            and piece.text in ("'", "-", "&", "#", "/", ".")
            and j > i
            and j + 1 < len(pieces)
            and _unknown(pieces[j + 1])
        ):
            j += 1
            size += 1
            continue
        if piece.kind != "word":
            break
        types = piece.types.keys()
        if not types:
            unknown = True
            j += 1
            size += 1
            continue
        if piece.value == "tied":
            break
        after = pieces[j + 1] if j + 1 < len(pieces) else None
        follows = after is not None and _unknown(after)
        if types & HARD and not (piece.text in ("no", "clean") and False):
            break
        if "FIELD_WORD" in types and unknown:
            j += 1
            size += 1
            break
        if unknown and (
            piece.text in DIRECTIONS
            or (
                "SPOT" in types
                and " " not in piece.text
                and not _colon(pieces, j + 1)
                and (after is None or after.kind in ("break", "line", "day", "stage"))
            )
        ):
            j += 1
            size += 1
            continue
        if unknown and types & {"NUMBER_WORD"}:
            j += 1
            size += 1
            continue
        if follows and (not unknown or piece.text in NAME_LINKS or len(piece.text) > 1):
            if types <= {"LINK", "ABOUT"} and piece.text not in NAME_LINKS:
                break
            if types & {"COLOUR"} and j > i and pieces[j - 1].kind == "number":
                break
            if unknown and not types & {"SPOT", "OLD", "NEW", "TOPS", "MONTH", "GREEN", "LINK"}:
                break
            j += 1
            size += 1
            continue
        if (
            not unknown
            and piece.text in ("back", "home", "front")
            and after is not None
            and ("NUMBER_WORD" in after.types or after.kind == "number")
        ):
            unknown = True
            j += 1
            size += 1
            continue
        break
    return j if unknown else i


def _leading(draft: Draft, pieces: list[Piece], i: int) -> FieldName | None:
    if _skippable(pieces[i]) and not _unknown(pieces[i]):
        return None
    last = _run(pieces, i)
    if last == i:
        return None
    name_last = last
    if "FIELD_WORD" in pieces[last - 1].types and last - 1 > i:
        name_last = last - 1
    made = _make(draft, pieces, i, name_last, i)
    return _widen(made, last)


def _new_line_name(draft: Draft, pieces: list[Piece], i: int) -> FieldName | None:
    """An unknown name that starts a new note: a short run at the start of a line, followed by data."""
    last = _run(pieces, i)
    if last == i or last - i > 5:
        return None
    made = table(draft.language)
    words = [p.text for p in pieces[i:last] if p.kind == "word"]
    if all(word in made.plain or table("en").plain.__contains__(word) for word in words):
        return None
    j = last
    while j < len(pieces) and (pieces[j].kind in ("day", "stage") or pieces[j].text in (":", ",", "-")):
        j += 1
    if j > last and (j >= len(pieces) or pieces[j].kind == "line"):
        return None
    if j >= len(pieces):
        return None
    piece = pieces[j]
    data = bool(piece.types.keys() & (FINDINGS | {"PLANTS", "SAME"})) or (
        piece.kind in ("number", "series")
        and j + 1 < len(pieces)
        and (not NOUNS.isdisjoint(pieces[j + 1].types) or pieces[j + 1].kind == "number")
    )
    if not data and j > last and any(p.kind == "day" for p in pieces[last:j]):
        data = True
    return _leading(draft, pieces, i) if data else None


def _after_at(draft: Draft, pieces: list[Piece]) -> FieldName | None:
    for i, piece in enumerate(pieces[:-1]):
        if piece.text in ("at", "in", "on", "en", "em", "no", "na", "@") and _unknown(pieces[i + 1]):
            last = _run(pieces, i + 1)
            if last > i + 1:
                return _make(draft, pieces, i, last, i + 1)
    return None


# --- senses -----------------------------------------------------------------------------------------


class _Senses:
    """Chooses for each piece the token it is, from its neighbours."""

    def __init__(self, draft: Draft, pieces: list[Piece], names: dict[int, FieldName], made: Table) -> None:
        self.draft = draft
        self.pieces = pieces
        self.names = names
        self.made = made
        self.out: list[Word] = []
        self.lead = "hard"
        self.variety_open = False

    def run(self) -> list[Word]:
        """Tokens without clause breaks between numbers yet; each knows what stands before it."""
        i = 0
        while i < len(self.pieces):
            if i in self.names:
                name = self.names[i]
                self._emit("FIELD", written(self.draft.text, name.start, name.end), name.start, name.end, lead="hard")
                i = name.last
                self.lead = ""
                if i < len(self.pieces) and self.pieces[i].text in (":", "-", ","):
                    self.lead = "soft"
                continue
            i += self._one(i)
        return self.out

    def _emit(self, type_: str, value: Any, start: int, end: int, lead: str | None = None) -> int:
        self.out.append(Word(type_, value, start, end, self.draft.text[start:end], self.lead if lead is None else lead))
        self.lead = ""
        return 1

    def _take(self, i: int, entry: Entry, type_: str | None = None, value: Any = None) -> int:
        piece = self.pieces[i]
        if entry.slip:
            self.draft.slips.append(
                Slip("near_word", self.draft.text[piece.start : piece.end], self._shown(entry), piece.start, piece.end)
            )
        return self._emit(type_ or entry.type, entry.value if value is None else value, piece.start, piece.end)

    def _shown(self, entry: Entry) -> str:
        return self.made.first.get((entry.type, entry.value), entry.value)

    def _text(self, i: int) -> int:
        piece = self.pieces[i]
        return self._emit("TEXT", None, piece.start, piece.end)

    def near(self, i: int, step: int) -> Piece | None:
        """The neighbour that carries meaning, within the clause."""
        piece = _next(self.pieces, i, step)
        return piece

    def _direct(self, i: int, step: int) -> Piece | None:
        """The very next piece, signs that glue left out."""
        j = i + step
        while 0 <= j < len(self.pieces) and self.pieces[j].kind == "sign":
            j += step
        return self.pieces[j] if 0 <= j < len(self.pieces) and j not in self.names else None

    def _one(self, i: int) -> int:
        piece = self.pieces[i]
        kind = piece.kind
        if kind == "line":
            self.lead = "line"
            self.variety_open = False
            return 1
        if kind == "break":
            if self.lead not in ("line", "hard"):
                self.lead = piece.value if piece.value == "hard" else "soft"
            return 1
        if kind == "sign":
            return self._sign(i)
        if kind == "number":
            return self._number(i)
        if kind == "day":
            return self._emit("DATE", piece.value, piece.start, piece.end)
        if kind == "stage":
            return self._emit("STAGE", stage(piece.text), piece.start, piece.end)
        if kind == "series":
            return self._emit("SERIES", piece.value, piece.start, piece.end)
        if kind == "range":
            return self._range(i)
        if kind == "ratio":
            after = self.near(i, 1)
            if len(piece.value) == 2 and after is not None and "PLANTS" in after.types:
                return self._text(i)
            self.draft.asks.append(("which_number", piece.start, piece.end))
            return self._text(i)
        if kind in ("measure", "link"):
            return self._text(i)
        if kind == "quoted":
            return self._emit("QUOTED", None, piece.start + 1, piece.end - 1)
        return self._word(i)

    def _sign(self, i: int) -> int:
        piece = self.pieces[i]
        if piece.text in (":", "="):
            if self.lead == "":
                self.lead = "colon"
        elif piece.text in ("?",) and self.out and self.out[-1].type == "TEXT" and self.lead == "":
            self.out[-1].end = piece.end
            self.out[-1].text = self.draft.text[self.out[-1].start : piece.end]
        elif not piece.text.isascii() and not piece.text.isspace() and piece.text not in "️‍°¿¡":
            return self._emit("TEXT", None, piece.start, piece.end)
        return 1

    # numbers

    def _number(self, i: int) -> int:
        piece = self.pieces[i]
        after = self._direct(i, 1)
        if (
            self.variety_open
            and self.lead in ("", "colon")
            and self.out
            and self.out[-1].type in ("VARIETY", "NAME")
            and not _bound(self.pieces, i)
        ):
            return self._emit("NAME", self.draft.text[piece.start : piece.end], piece.start, piece.end)
        if after is not None and after.kind == "word" and self._next_index(i) is not None:
            j = self._next_index(i) or i
            unit = after.types.get("UNIT")
            if unit is not None and self._is_unit(i, j, after):
                return self._span(i, j, unit.value)
            if "DAP" in after.types:
                days = piece.value * (7 if after.types["DAP"].value == "week" else 1)
                self._emit("SPAN_AFTER_PLANTING", days, piece.start, after.end)
                return j - i + 1
            if "PPM" in after.types:
                self._emit("NUMBER", piece.value, piece.start, after.end)
                return j - i + 1
            if "MEASURE" in after.types and self._is_measure(i, j, after):
                self._emit("TEXT", None, piece.start, after.end)
                return j - i + 1
            if (
                j == i + 1
                and after.types.keys() & {"TOP", "BANDS"}
                and after.text not in WEAK
                and "NUMBER_WORD" not in after.types
            ):
                self._emit("TEXT", None, piece.start, piece.end)
                return 1
        if self._loose(i):
            self._emit("TEXT", None, piece.start, piece.end)
            return 1
        if piece.plus:
            self._emit("PLUS", None, piece.start, piece.end)
        return self._emit("NUMBER", piece.value, piece.start, piece.end)

    def _loose(self, i: int) -> bool:
        """Numbers that name something: #4, 1/2, 4-row, $12, 12:30."""
        before = self.pieces[i - 1] if i else None
        after = self.pieces[i + 1] if i + 1 < len(self.pieces) else None
        if (
            before is not None
            and before.kind == "sign"
            and before.text in ("$", "€", "@")
            and before.end == self.pieces[i].start
        ):
            return True
        if self.pieces[i].text.endswith(("st", "nd", "rd", "th")):
            return True
        return (
            after is not None
            and after.kind == "sign"
            and after.text in ("%", "°", "'")
            and after.start == self.pieces[i].end
        )

    def _next_index(self, i: int) -> int | None:
        j = i + 1
        while j < len(self.pieces) and self.pieces[j].kind == "sign" and self.pieces[j].text in ("-", "."):
            j += 1
        return j if j < len(self.pieces) and j not in self.names else None

    def _is_unit(self, i: int, j: int, after: Piece) -> bool:
        if not isinstance(self.pieces[i].value, int) and after.types["UNIT"].value != "hour":
            return False
        if "COLOUR" in after.types:
            before = self.near(i, -1)
            return before is not None and "LOOK" in before.types
        if after.text in ("s", "h", "mo", "back") and after.spaced and after.text != "h":
            return False
        return True

    def _span(self, i: int, j: int, unit: str) -> int:
        value = self.pieces[i].value
        days: float = value * {"day": 1, "week": 7, "month": 30, "hour": 0}[unit]
        hours = value if unit == "hour" else None
        self._emit(
            "SPAN",
            ("hours", hours) if unit == "hour" else ("days", int(days)),
            self.pieces[i].start,
            self.pieces[j].end,
        )
        return j - i + 1

    def _is_measure(self, i: int, j: int, after: Piece) -> bool:
        types = after.types.keys()
        if types & {"COLOUR", "PLANTS", "DUG", "FEMALES"}:
            if self.draft.language == "en":
                return False
            beyond = self.pieces[j + 1] if j + 1 < len(self.pieces) else None
            return beyond is not None and beyond.text in ("de", "del", "da", "do", "al", "desde", "x")
        if "SPOT" in types or "CHECK" in types:
            return not _colon(self.pieces, j + 1) and not (
                j + 1 < len(self.pieces) and self.pieces[j + 1].kind == "number"
            )
        if after.text == "to":
            return False
        if after.text in ("f", "c", "m", "x", "l", "sc"):
            return True
        return True

    def _range(self, i: int) -> int:
        piece = self.pieces[i]
        after = self._direct(i, 1)
        j = self._next_index(i)
        if after is not None and j is not None:
            unit = after.types.get("UNIT")
            if unit is not None and "COLOUR" not in after.types:
                low, high = piece.value
                factor = {"day": 1, "week": 7, "month": 30, "hour": 0}[unit.value]
                if factor:
                    self._emit("SPAN", ("days", low * factor), piece.start, after.end)
                    self.draft.slips.append(
                        Slip(
                            "span_range",
                            self.draft.text[piece.start : after.end],
                            f"{low} {after.text}",
                            piece.start,
                            after.end,
                        )
                    )
                    return j - i + 1
            if "MEASURE" in after.types and not after.types.keys() & {"COLOUR", "PLANTS"}:
                self._emit("TEXT", None, piece.start, after.end)
                return j - i + 1
            if "NODULES" in after.types:
                self._emit("TEXT", None, piece.start, piece.end)
                return 1
            if after.types.keys() & {"COLOUR", "PLANTS", "FEMALES", "EACH", "DUG", "TOTAL"}:
                self.draft.asks.append(("which_of_range", piece.start, after.end))
                self._emit("TEXT", None, piece.start, after.end)
                return j - i + 1
        before = self.near(i, -1)
        if before is not None and before.types.keys() & {"COLOUR", "PLANTS", "FEMALES", "EACH", "DUG", "TOTAL"}:
            self.draft.asks.append(("which_of_range", piece.start, piece.end))
            return self._text(i)
        low, high = piece.value
        if 1 <= low <= 12 and 1 <= high <= 31 and "-" in piece.text and not any(w.type == "DATE" for w in self.out):
            day = DayWritten(piece.text, first=low, second=high)
            self.draft.slips.append(
                Slip("dashed_day", self.draft.text[piece.start : piece.end], "", piece.start, piece.end)
            )
            return self._emit("DATE", day, piece.start, piece.end)
        self.draft.asks.append(("which_of_range", piece.start, piece.end))
        return self._text(i)

    # words

    def _word(self, i: int) -> int:
        piece = self.pieces[i]
        types = piece.types
        if not types:
            return self._unknown_word(i)
        if len(types) == 1 and next(iter(types)) in _PLAIN_TYPES:
            return self._take(i, next(iter(types.values())))
        for name in _ORDER:
            entry = types.get(name)
            if entry is not None:
                made = getattr(self, "_as_" + name.lower(), None)
                step: int = made(i, entry) if made is not None else self._take(i, entry)
                if step:
                    return step
        if types.keys() & {"LINK", "ABOUT"}:
            if piece.text in ("on", "of", "in", "from", "out of", "de", "en", "em") and self._over(i):
                return self._emit("OVER", None, piece.start, piece.end)
            return self._link(i)
        return self._text(i)

    def _over(self, i: int) -> bool:
        after = self.pieces[i + 1] if i + 1 < len(self.pieces) else None
        return (
            after is not None
            and after.kind == "number"
            and bool(self.out)
            and self.out[-1].type in ("NUMBER", "COLOUR", "FEMALES", "TOTAL")
            and self.lead == ""
        )

    def _link(self, i: int) -> int:
        """A little word: kept only as part of free text around it."""
        piece = self.pieces[i]
        if self.lead == "":
            self.lead = "link"
        before = self.out[-1] if self.out else None
        if before is not None and before.type in ("TEXT", "LINK") and self.lead == "link":
            self._emit("LINK", None, piece.start, piece.end, lead="link")
        else:
            after = self.pieces[i + 1] if i + 1 < len(self.pieces) else None
            lead = self.lead
            if after is not None and after.kind == "word" and not after.entries and i + 1 not in self.names:
                self._emit("LINK", None, piece.start, piece.end, lead=lead)
                self.lead = "link"
        return 1

    def _unknown_word(self, i: int) -> int:
        piece = self.pieces[i]
        if (
            self.variety_open
            and self.lead in ("", "colon", "link")
            and self.out
            and self.out[-1].type in ("VARIETY", "NAME")
        ):
            return self._emit("NAME", self.draft.text[piece.start : piece.end], piece.start, piece.end)
        if self.lead in ("", "link") and self.out and self.out[-1].type == "SPRAY" and piece.text.isalpha():
            return self._emit("CHEMICAL", piece.text, piece.start, piece.end)
        if len(piece.text) >= 4:
            entry = self._near_entry(i)
            if entry is not None:
                self.pieces[i] = Piece(piece.kind, piece.text, piece.start, piece.end, (entry,), None, piece.spaced)
                before = len(self.out)
                step = self._word(i)
                if len(self.out) > before and self.out[before].type not in ("TEXT", "LINK"):
                    self.draft.slips.append(
                        Slip(
                            "near_word",
                            self.draft.text[piece.start : piece.end],
                            entry.value if entry.type == "FIELD" else self._near_shown,
                            piece.start,
                            piece.end,
                        )
                    )
                return step
        return self._text(i)

    _near_shown = ""

    def _near_entry(self, i: int) -> Entry | None:
        """The one meaning a misspelt word can have here, or ``None``."""
        piece = self.pieces[i]
        words = near_words(piece.text, self.made.language)
        if not words:
            return None
        meanings: dict[tuple[str, str], tuple[Entry, str]] = {}
        for word in words:
            for entry in self.made.singles[word]:
                if entry.type in _NEAR_TYPES and not entry.slip:
                    meanings.setdefault((entry.type, entry.value), (entry, word))
        fitting = [pair for pair in meanings.values() if self._fits(i, pair[0])]
        if len(fitting) != 1:
            return None
        self._near_shown = fitting[0][1]
        return fitting[0][0]

    def _fits(self, i: int, entry: Entry) -> bool:
        before, after = self._direct(i, -1), self._direct(i, 1)
        number_before = before is not None and before.kind == "number"
        number_after = after is not None and after.kind == "number"
        kind = entry.type
        if kind == "COLOUR":
            shaded = before is not None and "MOSTLY" in before.types
            return number_before or number_after or shaded
        if kind in ("PLANTS", "FEMALES"):
            return number_before
        if kind == "DUG":
            return number_before or number_after
        if kind in ("TOPS", "ROOTS"):
            return False
        alone_before = (
            before is None or before.kind in ("break", "line", "number", "stage", "day") or bool(before.types)
        )
        alone_after = after is None or after.kind in ("break", "line", "number", "stage", "day") or bool(after.types)
        return alone_before and alone_after

    # one method for each kind of word that needs its neighbours; 0 means "not that"

    def _as_text(self, i: int, entry: Entry) -> int:
        return self._text(i)

    def _as_colour(self, i: int, entry: Entry) -> int:
        piece = self.pieces[i]
        before, after = self._direct(i, -1), self._direct(i, 1)
        near_before, near_after = self.near(i, -1), self.near(i, 1)
        number_before = before is not None and before.kind in ("number", "range") and self._is_open(i)
        number_after = after is not None and after.kind in ("number", "range")
        short = len(piece.text) == 1
        after_types = after.types.keys() if after is not None else set()
        if piece.value == "tied":
            return self._take(i, entry)
        if number_before:
            if (
                after is not None
                and after_types & {"TOPS", "TOP", "BANDS", "EDGES"}
                and not after_types & {"COLOUR", "PLANTS", "TOP_WEAK"}
                and after.text not in WEAK
            ):
                if after_types & {"TOPS", "BANDS", "EDGES"} or not number_after:
                    self._back_to_text()
                    return self._take(i, Entry("LEAF", entry.value, entry.slip))
            if after is not None and after.types.keys() >= {"PLANTS", "TOPS"} and not self._number_after_next(i):
                self.draft.asks.append(("coloured_plants", self.out[-1].start, after.end))
                self._back_to_text()
                self._text(i)
                return 2 if self.pieces[i + 1] is after else 1
            return self._take(i, entry)
        if entry.slip and not number_after:
            if not (near_before is not None and "MOSTLY" in near_before.types):
                return 0
        beside = self._beside(i)
        if beside and not (number_after and self._free_number(i)):
            if beside == "ROOT":
                value = {"white": "white", "brown": "dark"}.get(entry.value)
                return self._take(i, Entry("ROOT", value, entry.slip)) if value and not short else 0
            if beside == "NODULE":
                value = {"brown": "brown"}.get(entry.value)
                return self._take(i, Entry("NODULE", value, entry.slip)) if value and not short else self._text(i)
            return self._take(i, Entry("LEAF", entry.value, entry.slip))
        if number_after and self._free_number(i):
            return self._take(i, entry)
        joined = self._joined_colour(i)
        mostly = near_before is not None and bool(near_before.types.keys() & {"MOSTLY", "NOT", "TOO_MANY"})
        if mostly or joined:
            return self._take(i, entry)
        if near_after is not None and near_after.types.keys() & {"MOSTLY", "TOO_MANY", "FEMALES", "NONE"} and not short:
            return self._take(i, entry)
        if near_before is not None and near_before.types.keys() & {"FEMALES"}:
            return self._take(i, entry)
        if short or entry.slip:
            return 0
        if after is not None and after.kind == "word" and not after.entries and not number_after:
            return self._text(i)
        if (
            before is not None
            and before.kind == "word"
            and not before.entries
            and i - 1 not in self._name_ends()
            and self.lead == ""
        ):
            return self._text(i)
        return self._take(i, entry)

    def _name_ends(self) -> set[int]:
        return {name.last - 1 for name in self.names.values()}

    def _is_open(self, i: int) -> bool:
        return bool(self.out) and self.out[-1].type == "NUMBER" and self.lead in ("", "link")

    def _number_after_next(self, i: int) -> bool:
        j = i + 2
        while j < len(self.pieces) and self.pieces[j].kind == "sign":
            j += 1
        return j < len(self.pieces) and self.pieces[j].kind == "number" and self.pieces[i + 1].kind == "word"

    def _free_number(self, i: int) -> bool:
        """Is the number after this word free, or does a noun behind it claim it?"""
        before = self.near(i, -1)
        if before is None or not before.types.keys() & (TOPS_NEAR | {"ROOTS", "NODULES"}):
            return True
        j = i + 1
        while j < len(self.pieces) and self.pieces[j].kind == "sign":
            j += 1
        after = self.near(j, 1)
        return after is None or not (NOUNS & after.types.keys())

    def _back_to_text(self) -> None:
        if self.out and self.out[-1].type == "NUMBER":
            self.out[-1].type = "TEXT"

    def _joined_colour(self, i: int) -> bool:
        """w+y, white/yellow, tan and brown: another colour right beside it."""
        for step in (-1, 1):
            j = i + step
            joined = False
            while 0 <= j < len(self.pieces) and (
                (self.pieces[j].kind == "sign" and self.pieces[j].text in "+/&,-")
                or (self.pieces[j].text in ("and", "y", "e", "some", "or", "o", "ou")
                and "COLOUR" not in self.pieces[j].types)
            ):
                joined = True
                j += step
            if (
                0 <= j < len(self.pieces)
                and "COLOUR" in self.pieces[j].types
                and j not in self.names
                and (joined or len(self.pieces[j].text) > 1)
            ):
                if len(self.pieces[i].text) > 1 or joined:
                    return True
        return False

    def _beside(self, i: int) -> str:
        """Which noun an adjective stands beside: ROOT, NODULE, LEAF or none."""
        for step in (-1, 1):
            j = i
            for _ in range(4):
                j += step
                if not 0 <= j < len(self.pieces) or j in self.names:
                    break
                other = self.pieces[j]
                if other.kind == "sign" and other.text in "+/&-":
                    continue
                if other.kind != "word":
                    break
                types = other.types.keys()
                if "ROOTS" in types:
                    return "ROOT"
                if "NODULES" in types:
                    return "NODULE"
                if types & TOPS_NEAR and not (types & {"PLANTS", "NUMBER_WORD"} and self._counted(j)):
                    if types & {"NEW", "OLD"} and not types & {"EDGES", "VEINS"} and not self._leafy(j):
                        break
                    return "LEAF"
                if step == 1 and "TOP" in types and other.text not in WEAK and not types & {"COLOUR"}:
                    return "LEAF"
                if types & {"COLOUR", "LINK", "ROOT", "GREEN", "ABOUT"} or (types & {"MOSTLY"} and step == -1):
                    continue
                break
        return ""

    def _leafy(self, i: int) -> bool:
        """New or old what? Only with leaves near by, or at a clause of its own, is it said of leaves."""
        for j in range(max(0, i - 3), min(len(self.pieces), i + 4)):
            if self.pieces[j].types.keys() & {"TOPS", "EDGES", "VEINS"}:
                return True
        return False

    def _counted(self, i: int) -> bool:
        before = self._direct(i, -1)
        after = self._direct(i, 1)
        return (before is not None and before.kind == "number") or (after is not None and after.kind == "number")

    def _as_plants(self, i: int, entry: Entry) -> int:
        piece = self.pieces[i]
        before, after = self._direct(i, -1), self._direct(i, 1)
        if piece.value == "tied":
            return self._take(i, entry)
        if (
            before is not None
            and before.kind in ("number", "range")
            and self.out
            and self.out[-1].type == "NUMBER"
            and self.lead in ("", "link")
        ):
            return self._take(i, entry)
        if before is not None and before.kind == "ratio":
            return self._text(i)
        if after is not None and after.kind in ("number", "range"):
            return self._take(i, entry)
        if before is not None and "DUG" in before.types and "TOPS" not in piece.types:
            return self._take(i, entry)
        if entry.slip or len(piece.text) <= 3:
            return 0
        if "TOPS" in piece.types:
            return 0
        return self._text(i)

    def _as_dug(self, i: int, entry: Entry) -> int:
        if entry.slip and not self._counted(i):
            return 0
        if self.pieces[i].text in ("pull", "dig", "digging", "pulling"):
            after = self.near(i, 1)
            if after is None or after.kind != "number":
                return 0
        return self._take(i, entry)

    def _as_females(self, i: int, entry: Entry) -> int:
        if (
            entry.slip
            and not self._counted(i)
            and not (self.near(i, -1) is not None and "COLOUR" in self.near(i, -1).types)
        ):  # type: ignore[union-attr]
            return 0
        return self._take(i, entry)

    def _as_total(self, i: int, entry: Entry) -> int:
        return self._take(i, entry) if self._counted(i) else self._text(i)

    def _as_each(self, i: int, entry: Entry) -> int:
        before, after = self.near(i, -1), self.near(i, 1)
        counted = self._counted(i) or any(
            p is not None and p.types.keys() & {"COLOUR", "FEMALES", "NODULES", "NONE", "MOSTLY"}
            for p in (before, after)
        )
        if not counted and not _colon(self.pieces, i + 1) and not (before is not None and before.kind == "number"):
            return 0
        return self._take(i, entry)

    def _as_mostly(self, i: int, entry: Entry) -> int:
        after, before = self.near(i, 1), self.near(i, -1)
        if after is not None and "COLOUR" in after.types and not after.types.keys() & {"TOPS"} and len(after.text) > 0:
            j = i + 1
            while j < len(self.pieces) and self.pieces[j] is not after:
                j += 1
            beyond = self.near(j, 1)
            if beyond is not None and beyond.types.keys() & {"TOPS", "ROOTS", "EDGES"} and "PLANTS" not in beyond.types:
                return 0
            return self._take(i, entry)
        if (
            before is not None
            and "COLOUR" in before.types
            and self.pieces[i].text not in ASIDE
            and (after is None or not after.types.keys() & {"NODULES"})
        ):
            return self._take(i, entry)
        return 0

    def _as_too_many(self, i: int, entry: Entry) -> int:
        piece = self.pieces[i]
        before, after = self.near(i, -1), self.near(i, 1)
        strong = (
            piece.text
            in (
                "loaded",
                "tntc",
                "plastered",
                "covered",
                "hundreds",
                "thousands",
                "incontables",
                "incontable",
                "incontavel",
                "incontaveis",
                "plagadas",
                "centenas",
                "cientos",
                "lotadas",
                "cheias",
                "llenas",
            )
            or "count" in piece.text
            or "contar" in piece.text
        )
        if after is not None and after.types.keys() & {"COLOUR", "FEMALES"} and not self._beside_tops(i):
            return self._take(i, entry)
        if (
            after is not None
            and after.kind not in ("number", "stage", "day")
            and not after.types.keys() & {"EACH", "SAME", "LOOK", "TOOL", "SOAKED", "MOISTURE"}
        ):
            return 0
        if strong or (before is not None and before.types.keys() & {"COLOUR", "FEMALES"}):
            return self._take(i, entry)
        return 0

    def _beside_tops(self, i: int) -> bool:
        for j in range(i + 1, min(len(self.pieces), i + 4)):
            if self.pieces[j].kind in ("break", "line"):
                return False
            if self.pieces[j].types.keys() & {"TOPS", "EDGES", "NODULES", "ROOTS"}:
                return True
        return False

    def _as_none(self, i: int, entry: Entry) -> int:
        piece = self.pieces[i]
        before, after = self.near(i, -1), self.near(i, 1)
        if entry.value == "clean":
            if (
                (before is not None
                and before.types.keys() & {"TOPS", "SOAKED", "EDGES", "FIELD"})
                or (after is not None and after.types.keys() & {"TOPS"})
            ):
                return 0
            self.draft.slips.append(
                Slip(
                    "clean_as_none",
                    self.draft.text[piece.start : piece.end],
                    self._shown(Entry("NONE", "none")),
                    piece.start,
                    piece.end,
                )
            )
            return self._take(i, entry, value="none")
        if after is not None and after.types.keys() & {"NODULES"}:
            return self._take(i, Entry("NODULE", "few"))
        if after is not None and "COLOUR" in after.types and not self._is_number_ahead(i):
            return self._take(i, entry, type_="NOT", value="not")
        if (
            piece.text in ("nada", "nothing", "nil", "zip")
            and after is not None
            and after.kind == "word"
            and not after.entries
        ):
            return self._text(i)
        return self._take(i, entry)

    def _is_number_ahead(self, i: int) -> bool:
        j = i + 1
        while j < len(self.pieces) and self.pieces[j].kind == "word":
            j += 1
        return j < len(self.pieces) and self.pieces[j].kind == "number"

    def _as_not(self, i: int, entry: Entry) -> int:
        after = self.near(i, 1)
        before = self.near(i, -1)
        if (
            self.pieces[i].text == "no"
            and self.draft.language == "en"
            and after is not None
            and (after.kind in ("number",))
        ):
            return self._take(i, entry)
        if after is None:
            return 0
        if after.kind in ("number", "stage", "day"):
            return self._take(i, entry)
        types = after.types.keys()
        if "NODULES" in types:
            return self._take(i, Entry("NODULE", "few"))
        if types & {
            "COLOUR",
            "FEMALES",
            "PLANTS",
            "MOISTURE",
            "DUG",
            "TOOL",
            "FIELD",
            "RESISTANCE",
            "TOP",
            "BANDS",
            "ROOT",
            "TOPS",
            "ROOTS",
            "VEINS",
            "SOAKED",
            "NONE",
        }:
            if self.pieces[i].text in ("n", "no", "ni") and before is None and after.kind != "word":
                return 0
            if types & {"TOP", "TOPS", "BANDS", "VEINS", "ROOT", "ROOTS"} and not types & {"COLOUR", "DUG"}:
                return self._text(i) if types & {"TOPS", "ROOTS"} else self._negated(i)
            return self._take(i, entry)
        return 0

    def _negated(self, i: int) -> int:
        """no patches, not stunted: said, but nothing to keep except the words."""
        j = i + 1
        while (
            j < len(self.pieces) and self.pieces[j].types.keys() <= {"LINK", "ABOUT"} and self.pieces[j].kind == "word"
        ):
            j += 1
        self._emit("TEXT", None, self.pieces[i].start, self.pieces[j].end)
        return j - i + 1

    def _as_moisture(self, i: int, entry: Entry) -> int:
        piece = self.pieces[i]
        before, after = self._direct(i, -1), self._direct(i, 1)
        if len(piece.text) <= 2:
            closed = before is None or before.kind != "word" or bool(before.types)
            ended = after is None or after.kind in ("break", "line")
            return (
                self._take(i, entry) if closed and ended and not (before is not None and before.kind == "number") else 0
            )
        if before is not None and before.kind == "number" and after is not None and after.kind == "number":
            return 0
        if (
            after is not None
            and after.kind == "word"
            and not after.entries
            and self.lead != ""
            and piece.text in ("hard", "dusty", "cracked", "mud", "crust")
        ):
            return self._text(i)
        if "ROOT" in piece.types and self._beside(i) == "ROOT":
            return 0
        return self._take(i, entry)

    def _as_below(self, i: int, entry: Entry) -> int:
        before, after = self.near(i, -1), self.near(i, 1)
        for other in (before, after):
            if other is not None and "MOISTURE" in other.types:
                return self._take(i, entry)
        return 0

    def _as_texture(self, i: int, entry: Entry) -> int:
        piece = self.pieces[i]
        after = self._direct(i, 1)
        if len(piece.text) <= 2 and after is not None and after.kind == "word":
            return 0
        if (
            after is not None
            and after.kind == "word"
            and after.text in ("hill", "hills", "knob", "road", "pit", "creek", "bar")
        ):
            return self._text(i)
        return self._take(i, entry)

    def _as_ph(self, i: int, entry: Entry) -> int:
        after = self.near(i, 1)
        return self._take(i, entry) if after is not None and after.kind == "number" else self._text(i)

    def _as_potassium(self, i: int, entry: Entry) -> int:
        after = self.near(i, 1)
        return self._take(i, entry) if after is not None and after.kind == "number" else 0

    def _as_ppm(self, i: int, entry: Entry) -> int:
        return 1 if self.out and self.out[-1].type == "NUMBER" else self._text(i)

    def _as_root(self, i: int, entry: Entry) -> int:
        piece = self.pieces[i]
        if (
            piece.text in ("broke", "broken", "snapped", "snap", "stripped", "torn", "stubs", "stub")
            or " " in piece.text
            or entry.value in ("snapped", "stubby")
        ):
            if "TOOL" in piece.types or piece.text in ("cortas", "pruned"):
                return self._take(i, entry) if self._beside(i) == "ROOT" else 0
            return self._take(i, entry)
        return self._take(i, entry) if self._beside(i) == "ROOT" else 0

    def _as_nodule(self, i: int, entry: Entry) -> int:
        if self._beside(i) == "NODULE":
            return self._take(i, entry)
        if self.pieces[i].types.keys() <= {"NODULE"} and self.out and self.out[-1].type in ("NODULES", "NODULE"):
            return self._take(i, entry)
        return 0

    def _as_tops(self, i: int, entry: Entry) -> int:
        if "PLANTS" in self.pieces[i].types and self._counted(i):
            return 0
        if entry.slip and not (self._beside(i) == "LEAF"):
            return self._text(i)
        return self._take(i, entry)

    def _as_new(self, i: int, entry: Entry) -> int:
        return self._take(i, entry) if self._leafy(i) else 0

    _as_old = _as_new

    def _as_edges(self, i: int, entry: Entry) -> int:
        around = [p for p in (self.near(i, -1), self.near(i, 1)) if p is not None]
        if any(p.types.keys() & {"TOPS", "OLD", "NEW", "COLOUR", "TOP", "GREEN"} for p in around):
            return self._take(i, entry)
        return 0

    def _as_veins(self, i: int, entry: Entry) -> int:
        if self.pieces[i].text in ("vein", "veins", "nervaduras", "nervuras"):
            around = [p for p in (self.near(i, -1), self.near(i, 1)) if p is not None]
            if not any(p.types.keys() & {"GREEN", "COLOUR", "TOPS"} for p in around):
                return self._text(i)
        return self._take(i, entry)

    def _as_green(self, i: int, entry: Entry) -> int:
        around = [p for p in (self.near(i, -1), self.near(i, 1)) if p is not None]
        if any(p.types.keys() & {"TOPS", "OLD", "NEW", "VEINS", "TOP", "COLOUR"} for p in around):
            return self._take(i, entry)
        return self._text(i)

    def _as_bands(self, i: int, entry: Entry) -> int:
        return self._take(i, entry)

    def _as_top(self, i: int, entry: Entry) -> int:
        piece = self.pieces[i]
        if piece.text not in WEAK:
            return self._take(i, entry)
        beside = self._beside(i)
        if beside == "ROOT":
            return self._take(i, Entry("ROOT", "stubby")) if entry.value == "stunted" else 0
        if beside == "LEAF":
            return self._take(i, entry)
        before, after = self.near(i, -1), self.near(i, 1)
        if before is None and after is None and entry.value in ("stunted", "uneven", "patch"):
            return self._take(i, entry)
        return 0

    def _as_spot(self, i: int, entry: Entry) -> int:
        piece = self.pieces[i]
        j = i + 1
        colon = _colon(self.pieces, j)
        while j < len(self.pieces) and self.pieces[j].kind == "sign":
            j += 1
        after = self.pieces[j] if j < len(self.pieces) else None
        if after is None or after.kind == "line":
            return 0
        before = self.out[-1] if self.out else None
        if piece.text == "in" and not colon:
            beyond = self.pieces[j + 1] if j + 1 < len(self.pieces) else None
            if after.kind != "number" or beyond is None or beyond.kind != "number":
                return 0
        if (
            piece.text
            in (
                "mal",
                "malo",
                "bueno",
                "ruim",
                "bom",
                "medio",
                "meio",
                "alto",
                "bajo",
                "baixo",
                "good",
                "bad",
                "low",
                "poor",
                "drive",
                "entry",
                "hill",
                "fuera",
                "fora",
                "out",
            )
            and not colon
        ):
            if after.kind != "number" or not self._data_at(j):
                return 0
        if before is not None and before.type == "NUMBER" and self.lead == "" and not colon:
            return 0
        if colon or self._data_at(j):
            return self._take(i, entry, value=written(self.draft.text, piece.start, piece.end))
        return 0

    def _data_at(self, j: int) -> bool:
        """Do counts follow here: a number with its noun or a list, or none?"""
        while (
            j < len(self.pieces)
            and self.pieces[j].kind == "word"
            and self.pieces[j].types.keys()
            and self.pieces[j].types.keys() <= {"LINK", "ABOUT", "MOSTLY"}
        ):
            j += 1
        piece = self.pieces[j] if j < len(self.pieces) else None
        if piece is None:
            return False
        if piece.types.keys() & {"NONE", "TOO_MANY"}:
            return True
        if piece.types.keys() & {"DUG", "PLANTS", "COLOUR"}:
            after = self._direct(j, 1)
            return after is not None and after.kind == "number"
        if piece.kind == "series":
            return True
        if piece.kind != "number":
            return False
        after = self._direct(j, 1)
        if after is None or after.kind in ("break", "line"):
            return True
        return after.kind == "number" or bool(
            after.types.keys() & {"PLANTS", "COLOUR", "FEMALES", "DUG", "TOTAL", "EACH"}
        )

    def _as_check(self, i: int, entry: Entry) -> int:
        if self.pieces[i].text in ("check", "ck", "chk", "testigo", "testemunha"):
            j = i + 1
            while j < len(self.pieces) and self.pieces[j].kind == "sign":
                j += 1
            after = self.pieces[j] if j < len(self.pieces) else None
            if after is None or not (self._data_at(j) or "RESISTANCE" in after.types):
                return 0
        return self._take(i, entry, value=written(self.draft.text, self.pieces[i].start, self.pieces[i].end))

    def _as_unit(self, i: int, entry: Entry) -> int:
        return 0

    def _as_measure(self, i: int, entry: Entry) -> int:
        return 0

    def _as_after(self, i: int, entry: Entry) -> int:
        before, after = self.out[-1] if self.out else None, self.near(i, 1)
        if (
            before is not None
            and before.type == "SPAN"
            and after is not None
            and after.types.keys() & {"SPRAY", "CHEMICAL"}
        ):
            return self._take(i, entry)
        if before is not None and before.type == "SPAN" and after is not None and "PLANTED" in after.types:
            return self._take(i, entry)
        return 0

    def _as_ago(self, i: int, entry: Entry) -> int:
        before, after = self.out[-1] if self.out else None, self._direct(i, 1)
        if before is not None and before.type == "SPAN" and self.lead == "":
            if self.pieces[i].text == "back" and len(self.out) > 1 and self.out[-2].type == "LOOK":
                return 0
            return self._take(i, entry)
        if (
            self.pieces[i].text in ("hace", "faz", "ha")
            and after is not None
            and (after.kind == "number" or "NUMBER_WORD" in after.types)
        ):
            return self._take(i, entry)
        return 0

    def _as_look(self, i: int, entry: Entry) -> int:
        piece = self.pieces[i]
        after = self.near(i, 1)
        timed = after is not None and (
            after.kind in ("day", "number", "range") or bool(after.types.keys() & {"WHICH", "UNIT"})
        )
        if after is not None and after.kind == "number":
            j = i + 1
            while self.pieces[j] is not after:
                j += 1
            beyond = self._direct(j, 1)
            timed = beyond is not None and "UNIT" in beyond.types
        if piece.text in WEAK_LOOK and not timed:
            return 0
        if not timed and not self._look_next(i):
            return 0
        return self._take(i, entry)

    def _look_next(self, i: int) -> bool:
        """ "recheck next week", "look again in a week"."""
        return False

    def _as_which(self, i: int, entry: Entry) -> int:
        after = self._direct(i, 1)
        unit = after.types.get("UNIT") if after is not None else None
        if (
            unit is not None
            and unit.value in ("week", "month")
            and entry.value == "next"
            and self.out
            and self.out[-1].type == "LOOK"
        ):
            self._emit(
                "SPAN", ("days", 7 if unit.value == "week" else 30), self.pieces[i].start, self.pieces[i + 1].end
            )
            return 2
        return 0

    def _as_planted(self, i: int, entry: Entry) -> int:
        return self._take(i, entry)

    def _as_variety(self, i: int, entry: Entry) -> int:
        self.variety_open = True
        return self._take(i, entry)

    def _as_resistance(self, i: int, entry: Entry) -> int:
        piece = self.pieces[i]
        if len(piece.text) <= 3 and self._direct(i, -1) is not None and self._direct(i, -1).kind == "number":  # type: ignore[union-attr]
            return 0
        return self._take(i, entry)

    def _as_spray(self, i: int, entry: Entry) -> int:
        if self.pieces[i].text in ("app", "post", "pre", "passou", "application") and not (
            self.near(i, 1) is not None and self.near(i, 1).kind == "day"
        ):  # type: ignore[union-attr]
            return 0
        return self._take(i, entry)

    def _as_entry(self, i: int, entry: Entry) -> int:
        after, before = self.near(i, 1), self.out[-1] if self.out else None
        timed = (after is not None and after.kind == "number") or (before is not None and before.type == "SPAN")
        return self._take(i, entry) if timed else 0

    def _as_same(self, i: int, entry: Entry) -> int:
        after = self._direct(i, 1)
        if (
            after is not None
            and after.kind == "word"
            and not after.entries
            and self.pieces[i].text in ("same", "igual")
        ):
            return self._text(i)
        return self._take(i, entry)

    def _as_courtesy(self, i: int, entry: Entry) -> int:
        after, before = self._direct(i, 1), self._direct(i, -1)
        closed = (before is None or before.kind in ("break", "line") or "COURTESY" in before.types) and (
            after is None or after.kind in ("break", "line") or "COURTESY" in after.types or i == 0
        )
        return self._emit("COURTESY", None, self.pieces[i].start, self.pieces[i].end) if closed else 0

    def _as_field(self, i: int, entry: Entry) -> int:
        if len(self.pieces[i].types) > 1:
            return 0
        return self._text(i)


_PLAIN_TYPES = frozenset(["NOT_LOOKED", "TOOL", "SOAKED", "SOURCE", "CHEMICAL", "SAME"])
_ORDER = ["TEXT", "SOURCE", "NOT_LOOKED", "SOAKED", "NONE", "NOT", "COLOUR", "FEMALES", "EACH", "PLANTS", "DUG", "TOOL", "TOTAL", "NODULES", "NODULE", "ROOTS", "ROOT", "CHECK", "SPOT", "TOO_MANY", "MOSTLY", "BELOW", "MOISTURE", "TEXTURE", "PH", "POTASSIUM", "PPM", "RESISTANCE", "VARIETY", "CHEMICAL", "SPRAY", "ENTRY", "AFTER", "AGO", "LOOK", "WHICH", "PLANTED", "SAME", "COURTESY", "VEINS", "EDGES", "NEW", "OLD", "BANDS", "GREEN", "TOPS", "TOP", "FIELD"]
_NEAR_TYPES = frozenset(
    ["COLOUR", "FEMALES", "PLANTS", "DUG", "TOOL", "SOAKED", "NONE", "MOISTURE", "TEXTURE", "NODULES", "ROOT", "LOOK", "PLANTED", "RESISTANCE", "TOP", "TOO_MANY", "MOSTLY", "CHECK"]
)
assert not COMMAND_TYPES & set(_ORDER)


def stage(text: str) -> str:
    """V4, R2.5: the stage as we keep it; a range is its middle."""
    numbers = [float(n) for n in re.findall(r"\d+(?:\.\d)?", text)]
    letter = text[0].upper()
    if not numbers:
        return text.upper()
    letters = re.findall(r"[vr]", text)
    if len(numbers) > 1 and len(set(letters)) == 1:
        middle = (numbers[0] + numbers[1]) / 2
    else:
        middle = numbers[0]
    return f"{letter}{middle:g}"
