"""What is asked and told of soil samples, laboratories, tests and plans: one line each, read by its opening word.

Such lines are lists of numbers with labels rather than prose, so each has a small reader of its own over the line's
text: known words are found first and taken out, what is left where a name stands is the field. The words are in
grammar/words/winter_*.toml and are looked for only here, so that none of them bends a note.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache, cached_property, lru_cache
from importlib.resources import files
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import tomli

from notes_bot.language.lexicon.days import past_day
from notes_bot.language.lexicon.joining import day_words, is_any, linking
from notes_bot.language.lexicon.pieces import count_told
from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import anywhere, table
from notes_bot.language.names.naming import written
from notes_bot.language.requests import asking
from notes_bot.model import LANGUAGES, Language

if TYPE_CHECKING:
    from notes_bot.language.clauses.context import Context
    from notes_bot.language.lexicon.pieces import Piece
    from notes_bot.language.requests.commands.line import Line

MOST_PLANS = 4
"""Plans set side by side in one answer; more cannot be compared on a phone (judgement)."""
MOST_YEARS = 6
"""Years a plan looks ahead; the science says nothing beyond (judgement)."""

_NUMBER = re.compile(
    r"(?<![\w.,])(\d{1,3}(?:,\d{3})+(?![\d])|\d{1,3}(?:\.\d{3})+(?![\d.])|\d+(?:[.,]\d+)?(?:k\b)?)(?![\w])"
)


@dataclass(frozen=True, slots=True)
class Found:
    """A word of a section in the line."""

    start: int
    end: int
    value: str


@cache
def source(language: Language) -> dict[str, dict[str, list[str]]]:
    """The word file of a language as written."""
    return tomli.loads((files("notes_bot.grammar.words") / f"winter_{language}.toml").read_text("utf-8"))


@cache
def _section(language: Language, section: str) -> tuple[re.Pattern[str], dict[str, str]]:
    values = {" ".join(fold(w).split()): value for value, words in source(language)[section].items() for word in [words]
              for w in word}  # fmt: skip
    longest = sorted(values, key=len, reverse=True)
    pattern = "|".join(re.escape(word).replace(r"\ ", r"\s+") for word in longest)
    ahead = r"(?<![^\W\d])" if section == "VOLUME" else r"(?<!\w)"  # 100cc is one word
    return re.compile(rf"{ahead}(?:{pattern})(?!\w)"), values


def find(language: Language, section: str, text: str, start: int = 0) -> Iterator[Found]:
    """Every word of the section in a folded text from `start` on, in order."""
    pattern, values = _section(language, section)
    for match in pattern.finditer(text, start):
        yield Found(match.start(), match.end(), values[" ".join(match.group().split())])


@cache
def _spoken_values(language: Language) -> dict[str, int]:
    """Words for numbers, from the notes' own table and the big ones of this room."""
    values = {
        word: int(entry.value)
        for word, entries in table(language).singles.items()
        for entry in entries
        if entry.type == "NUMBER_WORD"
    }
    return values | {fold(word): int(value) for value, words in source(language)["BIG"].items() for word in words}


HUNDRED, THOUSAND = 100, 1000


def dictated_numbers(
    text: str, language: Language, start: int = 0, least: int = HUNDRED
) -> list[tuple[int, int, float]]:
    """Numbers of a hundred and more said in words in a folded text ("thirty two hundred", "mil ochocientos").

    ``least``: the smallest big number they must hold, less than a hundred for all ("vinte subamostras").
    """
    values = _spoken_values(language)
    found: list[tuple[int, int, float]] = []
    run: list[re.Match[str]] = []
    joins = anywhere("and_word") | {"-"}
    for match in [*re.finditer(r"[^\W\d_]+|\S", text[start:]), None]:
        word = match.group() if match is not None else ""
        if match is not None and (word in values or (run and word in joins)):
            run.append(match)
            continue
        while run and run[-1].group() in joins:
            run.pop()
        total = now = 0
        for value in [values[m.group()] for m in run if m.group() in values]:
            if value == THOUSAND:
                total, now = total + max(now, 1) * value, 0
            elif value == HUNDRED and 0 < now < HUNDRED:
                now *= value
            else:
                now += value
        if any(values.get(m.group(), 0) >= least for m in run):
            found.append((start + run[0].start(), start + run[-1].end(), float(total + now)))
        run = []
    return found


LONGEST_SAID = 60
"""Characters a dictated number before a volume may take (judgement)."""


def spoken(text: str) -> Language | None:
    """The one language a message of this room is written in; ``None`` when it is none, or its words do not say."""
    start = fold(text.lstrip()[:400])
    told = frozenset(_WORD.findall(start))
    letters = dict.fromkeys(LANGUAGES, 0)
    for lang in LANGUAGES:
        eggs = not _egg_words(lang).isdisjoint(told) and _any(lang, "EGGS", start)
        if _opens(lang, start) or (eggs and _any(lang, "VOLUME", start)):
            letters[lang] = sum(f.end - f.start for section in TELLING for f in find(lang, section, start))
    longest = [lang for lang, count in letters.items() if count == max(letters.values()) > 0]
    return longest[0] if len(longest) == 1 else None


_WORD = re.compile(r"\w+")


@cache
def _egg_words(language: Language) -> frozenset[str]:
    """A word of each way to say eggs or cysts, without which none is said."""
    return frozenset(_WORD.findall(said)[0] for said in _section(language, "EGGS")[1])


def _opens(language: Language, text: str) -> bool:
    return _section(language, "OPENER")[0].match(text) is not None


def _any(language: Language, section: str, text: str) -> bool:
    return _section(language, section)[0].search(text) is not None


_OTHER_CROPS = frozenset({"corn", "wheat", "other"})
"""Crops that feed no females."""
TELLING = ("OPENER", "EGGS", "VOLUME", "PER", "CORES", "NEXT", "AFTER", "CHECK", "LINE_WORD", "CROP", "EITHER", "WEEDS")
"""Sections whose words tell the language of such a line."""


@lru_cache(maxsize=16)
def _may_count(text: str, language: Language) -> bool:
    """Is a word for eggs or cysts anywhere in a message? Without one no line of it needs a closer look."""
    folded = fold(text)
    return any(word.split()[0] in folded for word in _section(language, "EGGS")[1])


def holds_count(line: Line) -> bool:
    """Does the line hold a count of eggs or cysts in a volume of soil?"""
    if not _may_count(line.context.text, line.context.language):
        return False
    reader = _Reader(line)
    counted = reader.eggs()
    volume = reader._volume()
    if counted is None or volume is None:
        return False
    reader.take(volume[0], volume[1])
    return bool(reader.numbers())


def lab_list(context: Context, lines: Sequence[Line | None]) -> frozenset[int]:
    """ "Lab sheet, eggs per 100 cc:" and a field with its number a line below: the lines read as results.

    A line of nothing is ``None``.
    """
    if not _may_count(context.text, context.language):
        return frozenset()
    used: set[int] = set()
    unit: str | None = None
    for n, line in enumerate(lines):
        if line is None:
            unit = None if n and unit is not None and n - 1 in used and len(used) > 1 else unit
            continue
        reader = _Reader(line)
        counted, volume = reader.eggs(), reader._volume()
        if counted is not None and volume is not None:
            reader.take(volume[0], volume[1])
            unit = (
                f"{'cysts' if counted.value == 'cysts' else 'eggs'} per {volume[2]}" if not reader.numbers() else None
            )
            head = n
            continue
        if unit is None:
            continue
        row = re.fullmatch(r"\W*(.*?[^\W\d].*?)[\s:=-]+(" + _NUMBER.pattern + r")\W*", reader.text)
        known = row is not None and reader.known(reader.text[row.start(1) : row.end(1)])
        if row is None or not (known or not context.fields):
            unit = None
            continue
        cc = re.fullmatch(r"eggs per ([\d.]+) cc", unit)
        value = reader._value(row.group(3))
        reader.emit(
            "lab",
            field=written(reader.raw, row.start(1), row.end(1)),
            value=value,
            unit=unit,
            eggs_per_100cc=round(value * 100.0 / float(cc.group(1)), 1) if cc and float(cc.group(1)) else None,
        )
        used |= {head, n}
    return frozenset(used)


def take(line: Line) -> bool:
    """Read the line as one of this room's; false when it is none."""
    reader = _Reader(line)
    if _typed(reader):
        return True
    opener = _opener(reader)
    if opener is not None:
        return READERS[opener.value](reader, opener)
    return (reader.eggs() is not None and reader.lab()) or planned(line)


def _opener(reader: _Reader) -> Found | None:
    """The word that says what a line is: the first in it, or behind the field or words for making a plan."""
    for opener in reader.all("OPENER"):
        before = reader.text[: opener.start]
        named = opener.start > 0 and opener.value != "lab" and reader.known(before) and not _visited(reader.line.ps)
        run = opener.value == "rotation" and all(word in anywhere("runs_plan") for word in re.findall(r"\w+", before))
        if opener.start == 0 or named or (run and len(_crops(reader)) >= LEAST_YEARS):
            return opener
    return None


def opened_beside(line: Line) -> bool:
    """ "(Kestrel 5 plants 6 white.) Rotation for Kestrel: corn, Peking, corn, 88788?": beside a note, of a field."""
    reader = _Reader(line)
    named, planned_row = any("FIELD" in p.types for p in line.ps), len(_crops(reader)) >= LEAST_IN_ROW
    opener = None if _visited(line.ps) or not (named or planned_row) else _opener(reader)
    if opener is None or opener.value not in _BESIDE:
        return False
    if opener.value == "rotation" and not (planned_row or len(line.ps) <= MOST_BARE):
        return False  # "Plan de La Curva: volver el viernes"
    return READERS[opener.value](reader, opener)


MOST_BARE = 4
"""Pieces of a wish for the usual plans, the field's name among them (judgement)."""
_BESIDE = frozenset({"rotation", "report", "hg"})
"""What a sentence behind a note may ask or tell by its opening word."""


class _Reader:
    """One line: its folded text, and which parts of it are spoken for."""

    def __init__(self, line: Line) -> None:
        self.line = line
        self.language = line.context.language
        self.start = line.start
        self.raw = line.context.text[line.start : line.end]
        self.text = fold(self.raw)
        self.taken: list[tuple[int, int]] = []

    @cached_property
    def field_span(self) -> tuple[int, int] | None:
        """Where the crew's field named in the line stands, in full or in short; looked for only when it is wanted."""
        spans = [(p.start - self.start, p.end - self.start) for p in self.line.ps if "FIELD" in p.types]
        if spans or not self.line.context.fields:
            return next((span for span in spans if not self._is_source(span)), None)
        found = self.line.known_span(-1)
        span = (found[0] - self.start, found[1] - self.start) if found is not None else None
        crops = {(f.start, f.end) for f in find(self.language, "CROP", self.text)} if span is not None else set()
        return None if span in crops else span  # "corn", where Rook Corner is a field

    def _is_source(self, span: tuple[int, int]) -> bool:
        return any(f.start <= span[0] and span[1] <= f.end for f in find(self.language, "LINE", self.text))

    def all(self, section: str, start: int = 0) -> list[Found]:
        """Words of the section that are not spoken for."""
        return [f for f in find(self.language, section, self.text, start) if not self._used(f.start, f.end)]

    def first(self, section: str, start: int = 0) -> Found | None:
        """The first of them, taken."""
        found = next(iter(self.all(section, start)), None)
        if found is not None:
            self.take(found.start, found.end)
        return found

    def take(self, start: int, end: int) -> None:
        self.taken.append((start, end))

    def _used(self, start: int, end: int) -> bool:
        return any(start < e and s < end for s, e in self.taken)

    def known(self, text: str) -> bool:
        """Does the text start like the name of one of the crew's fields, and hold little more?"""
        words = text.strip(" :,-").split()
        firsts = {fold(name).split(" ")[0] for name in self.line.context.fields if name}
        return 0 < len(words) <= 5 and words[0] in firsts

    def numbers(self, start: int = 0, end: int | None = None) -> list[tuple[int, int, float]]:
        """Numbers that are not spoken for, with their places."""
        end = len(self.text) if end is None else end
        found = [(*m.span(), self._value(m.group(1))) for m in _NUMBER.finditer(self.text, start, end)]
        dictated = dictated_numbers(self.text[:end], self.language, start)
        return [number for number in sorted([*found, *dictated]) if not self._used(*number[:2])]

    def _value(self, digits: str) -> float:
        if digits.endswith("k"):
            return round(float(digits[:-1].replace(",", ".")) * 1000, 1)  # "2.4k eggs"
        if re.fullmatch(r"[1-9]\d{0,2}(?:,\d{3})+|[1-9]\d{0,2}(?:\.\d{3})+", digits):
            return float(re.sub(r"[.,]", "", digits))  # 1,850 in Mexico, 1.850 in Brazil: nobody counts thousandths
        return float(digits.replace(",", "."))

    def name(self, start: int = 0, end: int | None = None) -> str | None:
        """The field: a known name if the line has one, else what stands there unspoken for, little words left out."""
        if self.field_span is not None:
            self.take(*self.field_span)
            return written(self.raw, *self.field_span)
        end = len(self.text) if end is None else end
        chars = "".join(
            " " if self._used(i, i + 1) or c in ",;:()" else c for i, c in enumerate(self.text[:end]) if i >= start
        )
        words = list(re.finditer(r"\S+", chars))
        little = {f.start for f in find(self.language, "LITTLE", chars)}
        while words and words[0].start() in little:
            words.pop(0)
        while words and words[-1].start() in little:
            words.pop()
        if not words or len(words) > 6:
            return None
        return written(self.raw, start + words[0].start(), start + words[-1].end()) or None

    def day(self, but: tuple[int, int] | None = None) -> Any:
        """A day in the line, as a date, ``but`` for what stands there; told as a problem when it cannot be."""
        line = self.line
        kept = [p for p in line.ps if but is None or not but[0] <= p.start - self.start < but[1]]
        for piece in day_words(kept, line.made):
            at = (piece.start - self.start, piece.end - self.start)
            if piece.kind == "day" and not self._used(*at):
                self.take(*at)
                found = past_day(piece.value, line.context.sent, self.language, line.context.day_first)
                if found.wrong:
                    line.context.complain(found.wrong, piece.start, piece.end, sent=line.context.day(line.context.sent))
                return found.day
        return None

    def measured(self, end: int) -> bool:
        """Does what a number counts or measures stand behind it ("2.5 acres", "6 plants")?"""
        behind = next((p for p in self.line.ps if p.start - self.start >= end), None)
        kinds = ("ACRES", "UNIT", "PLANTS", "COLOUR", "FEMALES")
        return behind is not None and is_any(behind, kinds) and not linking(behind)

    def noted(self, opener: Found) -> bool:
        """Does a note follow the opening words?"""
        line = self.line
        return line.noted(next((n for n, p in enumerate(line.ps) if p.start - self.start >= opener.end), len(line.ps)))

    def place(self) -> str | None:
        found = self.first("REGION")
        return found.value if found is not None else None

    def emit(self, kind: str, **args: Any) -> bool:
        return self.line.emit(kind, **args)

    def complain(self, kind: str, **values: object) -> bool:
        self.line.context.complain(kind, self.line.start, self.line.end, **values)
        return True

    # --- an egg count

    def eggs(self) -> Found | None:
        """The word for eggs or cysts, when the line also says how much soil."""
        counted = next(iter(self.all("EGGS")), None)
        return counted if counted is not None and self._volume() is not None else None

    def _volume(self) -> tuple[int, int, str] | None:
        """Where the volume stands and how it is kept: "250 cc", "cup"; the word before it for "per" included."""
        for found in self.all("VOLUME"):
            before = re.search(r"(\d[\d.,]*)?\s*$", self.text[: found.start])
            assert before is not None  # noqa: S101 - the pattern matches the empty text
            number = before.group(1)
            if number is not None and not _NUMBER.fullmatch(number.rstrip(".,")):
                continue  # "2.5.7 cc"
            near = dictated_numbers(self.text[: found.start], self.language, max(0, found.start - LONGEST_SAID))
            said = next((n for n in near if n[1] == before.start()), None)
            if said is not None:  # "per hundred cc"
                number, before = f"{said[2]:g}", re.search(r"$", self.text[: said[0]])
                assert before is not None  # noqa: S101 - the end is always there
            if found.value in ("cc", "g") and number is None:
                continue
            if number is not None and self._value(number.rstrip(".,")) <= 0:
                continue
            ahead = self.text[: before.start()]
            per = next((f for f in find(self.language, "PER", ahead) if not ahead[f.end :].strip()), None)
            tied = number is not None and self._behind_eggs(ahead)
            if per is None and not ahead.rstrip().endswith("/") and not tied:
                continue
            size = f"{self._value(number.rstrip('.,')):g} " if number else ""
            start = per.start if per is not None else len(ahead) if tied else ahead.rstrip().rindex("/")
            return start, found.end, f"{size}{found.value}".replace("1 kg", "kg")
        return None

    def _behind_eggs(self, ahead: str) -> bool:
        """ "1800 huevos 100cc": does the text end in the word for eggs or cysts, a number before it?"""
        last = next((f for f in find(self.language, "EGGS", ahead) if not ahead[f.end :].strip()), None)
        return last is not None and bool(re.search(r"\d\s*$", ahead[: last.start]))

    def lab(self) -> bool:
        volume = self._volume()
        opener = next((f for f in self.all("OPENER") if f.value == "lab"), None)
        within: Found | None = None
        if opener is not None:
            within = next((f for f in self.all("EGGS") if opener.start <= f.start < opener.end), None)
            self.take(opener.start, opener.end)
        if self.field_span is not None:
            self.take(*self.field_span)
        if volume is not None:
            self.take(volume[0], volume[1])
        counted = next(iter(self.all("EGGS")), within)
        on, place = self.day(), self.place()
        following, after = self._following(), self.first("AFTER")
        cores = None
        for found in self.all("CORES"):
            said = dictated_numbers(self.text[: found.start], self.language, least=1)
            near = [n for n in [*said, *self.numbers(0, found.start)] if not self.text[n[1] : found.start].strip()]
            if near:
                cores = int(near[-1][2]) or None
                self.take(near[-1][0], found.end)
                break
        numbers = self.numbers()
        if counted is None or not numbers:
            if numbers:
                return not self._tells_soil() and self.complain("lab_what")
            name = self.name()
            if name is None and any(self.line.made.has("arrived_word", word) for word in self.text.split()):
                return False  # "lab sheets came back"
            return self.emit("lab", field=name)
        self.take(counted.start, counted.end)
        behind = [n for n in numbers if n[0] >= counted.end]
        before = [n for n in numbers if n[1] <= counted.start]
        start, end, value = behind[0] if behind and not _beside(self.text, before, counted) else (before or behind)[-1]
        self.take(start, end)
        name = self.name(0, min(start, counted.start)) or self.name(max(end, counted.end))
        if volume is None:
            if counted.value == "cysts":
                return self.complain("lab_what")
            return self.complain("lab_volume", count=f"{value:g}", field=name or "kestrel")
        what = "cysts" if counted.value == "cysts" else "eggs"
        unit = f"{what} per {volume[2]}"
        cc = re.fullmatch(r"eggs per ([\d.]+) cc", unit)
        share = 100.0 / float(cc.group(1)) if cc and float(cc.group(1)) else None
        for other, amount in [(name, value), *self._others(name)]:
            self.emit(
                "lab",
                field=other,
                value=amount,
                unit=unit,
                eggs_per_100cc=round(amount * share, 1) if share is not None else None,
                date=on,
                place=place,
                cores=cores,
                next_crop=following,
                after=after.value if after else None,
            )
        if self.numbers():
            self.complain("lab_what")
        return True

    def _following(self) -> str | None:
        """What is planted next: "corn next", "el año que viene va maíz", "corn there next year"."""
        if (told := self.first("NEXT")) is not None:
            return told.value
        crops = [(f.start, f.end, "other") for f in self.all("CROP") if f.value in _OTHER_CROPS]
        crops += [(f.start, f.end, "soybean") for f in self.all("NEXT_BEANS")]
        for start, end, crop in sorted(crops):
            lead = next((f for f in self.all("NEXT_LEAD") if not self.text[f.end : start].strip(" :")), None)
            tail = next((f for f in self.all("NEXT_TAIL") if not self.text[end : f.start].strip(" ,")), None)
            if lead is not None or tail is not None:
                self.take(min(start, lead.start if lead else start), max(end, tail.end if tail else end))
                return crop
        return None

    def _tells_soil(self) -> bool:
        """ "Soil test of kestrel came back pH 7.4, K 132": how the soil is, told in a note, and nothing of eggs."""
        singles = self.line.made.singles
        words = re.findall(r"[^\W\d]+", fold(self.text))
        return any(entry.type in ("PH", "POTASSIUM") for word in words for entry in singles.get(word, ()))

    def _others(self, told: str | None) -> list[tuple[str, float]]:
        """ "Kestrel 640 eggs per 100 cc, tinkers 5200": other known fields of the line, each with its own number."""
        out: list[tuple[str, float]] = []
        for found in self.all("VOLUME"):
            again = re.search(r"\d[\d.,]*\s*$", self.text[: found.start])
            if again is not None:
                self.take(again.start(), found.end)  # ".. per 100 cc, la tranquera 450 per 100 cc"
        spans = [(p.start - self.start, p.end - self.start) for p in self.line.ps if "FIELD" in p.types]
        for n, (start, end) in enumerate(spans):
            stop = spans[n + 1][0] if n + 1 < len(spans) else len(self.text)
            name = written(self.raw, start, end)
            amounts = self.numbers(end, stop)
            if name != told and len(amounts) == 1:
                self.take(*amounts[0][:2])
                out.append((name, amounts[0][2]))
        return out


def _beside(text: str, before: list[tuple[int, int, float]], counted: Found) -> bool:
    """Does a number stand right before the word for eggs?"""
    return bool(before) and not text[before[-1][1] : counted.start].strip()


def _lab(reader: _Reader, opener: Found) -> bool:
    if reader.noted(opener) and reader.eggs() is None:
        return False
    return reader.lab()


def _sample(reader: _Reader, opener: Found) -> bool:
    made = reader.line.made
    dug = any(is_any(p, ("TOOL", "SOAKED")) for p in reader.line.ps)  # "muestreo a pala, raíz lavada"
    if dug or reader.noted(opener) or any(made.denies(word) for word in reader.text[: opener.start].split()):
        return False  # "no se muestreó"
    reader.take(opener.start, opener.end)
    place = reader.place()
    return reader.emit("sample", field=reader.name(), place=place)


def _hg(reader: _Reader, opener: Found) -> bool:
    """Females on the check and the lines, or the type a laboratory named."""
    reader.take(opener.start, opener.end)
    if reader.field_span is not None:
        reader.take(*reader.field_span)
    named = _type_in(reader, opener.end)
    on, place = reader.day(named and _span_of(named, opener.end)), reader.place()
    plants = None
    for found in reader.all("REPLICATES"):
        near = [n for n in reader.numbers(0, found.start) if not reader.text[n[1] : found.start].strip()]
        if near:
            plants = int(near[-1][2]) or None
            reader.take(near[-1][0], found.end)
            break
    labels = _labels(reader)
    index = reader.first("INDEX")
    if not labels:
        if named is not None and reader.measured(opener.end + named.end(1)):
            return reader.noted(opener) is False and reader.complain("hg_what")  # "hg test at kestrel 2.5 acres"
        if named is not None and not reader._used(opener.end + named.start(1), opener.end + named.end(1)):
            reader.take(opener.end + named.start(1), opener.end + named.end(1))
            reader.first("TYPE")
            numbers = [int(part) for part in named.group(1).split(".")]
            said = _sentence_of(reader.text, opener.end + named.start(1))
            beside = len(numbers) > 1 and bool(reader.numbers(*said))
            if beside or numbers != sorted(set(numbers)):
                return reader.complain("hg_what")  # lines are named in rising order, each once
            return reader.emit("hg", field=reader.name(), type=named.group(1), date=on, place=place)
        name = reader.name(opener.end)
        return reader.complain("hg_what") if reader.numbers() else reader.emit("hg", field=name)
    first = min(label.start for label in labels)
    name = reader.name(0, first)
    values: dict[str, list[float]] = {}
    for label, following in zip(labels, [*labels[1:], None], strict=True):
        stop = following.start if following is not None else len(reader.text)
        values[label.value] = [n[2] for n in reader.numbers(label.end, stop)]
    check, pickett = values.pop("check", None), values.pop("pickett", None)
    lines = {label: counts for label, counts in values.items() if counts}
    if index is not None and not check and lines:
        return reader.emit(
            "hg", field=name, indices={k: v[0] for k, v in lines.items()},
            pickett=pickett[0] if pickett else None, date=on, place=place,
        )  # fmt: skip
    if not check or not (lines or pickett):
        return reader.complain("hg_what")
    return reader.emit(
        "hg", field=name, check=check, lines=lines, pickett=pickett or None, plants=plants, date=on, place=place
    )


def _type_in(reader: _Reader, start: int) -> re.Match[str] | None:
    """The type behind "hg", the lines parted by points before a line alone: of "hg limekiln 2 1.5.7" the last."""
    behind = reader.text[start:]
    found = list(re.finditer(r"(?<![\w./-])(0|[1-7](?:\.[1-7])*)(?![\w/-]|\.\w)", behind))
    free = [match for match in found if not reader._used(start + match.start(), start + match.end())]
    return next((match for match in free if "." in match.group()), None) or next(iter(free or found), None)


def _span_of(named: re.Match[str], start: int) -> tuple[int, int] | None:
    """Where a type of several lines stands ("1.2" is then no day); ``None`` for a line alone."""
    return (start + named.start(1), start + named.end(1)) if "." in named.group() else None


def _sentence_of(text: str, at: int) -> tuple[int, int]:
    """Where the sentence around a place begins and ends: "it is 2.5.7. I'd have bet on 2." tells one type."""
    stops = [match.end() for match in re.finditer(r"[.!?](?=\s|$)", text)]
    return max((stop for stop in stops if stop <= at), default=0), min((s for s in stops if s > at), default=len(text))


def _typed(reader: _Reader) -> bool:
    """ "The HG type for Long Acre turned out to be 2.5.7", "o tipo HG saiu 1.2.3": a type named in a sentence."""
    cues = [f for f in reader.all("OPENER") if f.value == "hg"]
    if not cues or cues[0].start == 0 or reader.line.asked:
        return False
    said = reader.text[slice(*_sentence_of(reader.text, cues[0].start))]
    bare = [m for f in cues if (m := _bare_type(reader.text[f.end :]))]
    named = _DOTTED.findall(said) or bare or _DOTTED.findall(reader.text)
    if len(named) != 1 or (numbers := [int(part) for part in named[0].split(".")]) != sorted(set(numbers)):
        return False
    field = reader.name() if reader.field_span is not None else asking.name_in(reader.line)
    field = field or asking.lead_name(reader.line)
    at = reader.text.rindex(named[0])
    reader.take(at, at + len(named[0]))
    on = reader.day((at, at + len(named[0])))
    if (
        field is None
        or reader.numbers(*_sentence_of(reader.text, at))
        or _labels(reader)
        or _visit_told(reader.line.ps)
    ):
        return False
    return reader.emit("hg", field=field, type=named[0], date=on, place=reader.place())


def _visit_told(ps: list[Piece]) -> bool:
    """A stage, a finding, or plants beside a type: a note."""
    told = ("COLOUR", "NONE", "NOT_LOOKED", "DUG", "TOOL")
    return any(p.kind in ("stage", "series", "range") or is_any(p, told) for p in ps) or _visited(ps)


_DOTTED = re.compile(r"(?<![\w.,])[1-7](?:\.[1-7])+(?![\w.]*\d)")
"""The lines of a type in rising order, parted by points."""


def _bare_type(behind: str) -> str | None:
    """ "(HG type) is 2", "(tipo HG) 0": one line alone, right behind the word."""
    found = re.match(r"\s*(?:=|:|\w{1,4}\s)?\s*([0-7])(?![\w.,]*\d)(?!\w)", behind)
    return found.group(1) if found is not None else None


def _labels(reader: _Reader) -> list[Found]:
    """Labels of the lines in order: check, l1 or 1:, names of the lines, Pickett."""
    found = [Found(f.start, f.end, "check") for f in reader.all("CHECK")][:1]
    found += reader.all("LINE")
    spoken_for = [(f.start, f.end) for f in found]
    word = "|".join(re.escape(fold(w)) for w in source(reader.language)["LINE_WORD"]["line"])
    for match in re.finditer(rf"(?<![\w.,])(?:(?:{word})\s*#?([1-7])\b\s*[:=]?|([1-7])\s*[:=])(?!\d*:)", reader.text):
        if not any(match.start() < e and s < match.end() for s, e in spoken_for) and not reader._used(*match.span()):
            found.append(Found(match.start(), match.end(), match.group(1) or match.group(2)))
    found.sort(key=lambda f: f.start)
    return found


def _rotation(reader: _Reader, opener: Found) -> bool:
    """One to four plans, years in order, parted by "or"; without crops the two usual plans are meant."""
    if _visited(reader.line.ps):
        return False  # "rotation on kestrel was corn last year, dug 5 plants none"
    if reader.field_span is not None:
        reader.take(*reader.field_span)
    known = reader.field_span is not None or reader.known(reader.text[opener.end :] or reader.text[: opener.start])
    reader.take(opener.start, opener.end)
    weeds, place = reader.first("WEEDS"), reader.place()
    eggs = _start_eggs(reader)
    crops = _crops(reader)
    if not crops and not known and opener_text(reader, opener) in anywhere("bare_plan"):
        return False  # "plan to come back friday"
    led = reader.text[opener.end :].split()[:1]
    if not crops and led and fold(led[0]) in anywhere("plan_verb"):
        return False  # "plan on tinkers monday"
    if not crops:
        return False if reader.noted(opener) else reader.emit("rotation", field=reader.name(), eggs=eggs, place=place)
    stop = crops[0].start
    name = reader.name(0, stop)
    plans = _plans(reader, crops)
    if len(plans) > MOST_PLANS or any(len(plan) > MOST_YEARS for plan in plans):
        return reader.complain("rotation_long")
    return reader.emit("rotation", field=name, plans=plans, eggs=eggs, weeds=True if weeds else None, place=place)


def _visited(ps: list[Piece]) -> bool:
    """Is digging told of, or a number of plants? "Pls" without one is please."""
    for n, piece in enumerate(ps):
        beside = [count_told(other) for other in (*ps[max(0, n - 1) : n], *ps[n + 1 : n + 2])]
        counted = any(count is not None and count < LEAST_SOURCE for count in beside)
        if "FIELD" not in piece.types and (is_any(piece, ("DUG",)) or (is_any(piece, ("PLANTS",)) and counted)):
            return True
    return False


def _crops(reader: _Reader) -> list[Found]:
    """The years' crops in order, each place once."""
    found = sorted([*reader.all("CROP"), *_plain_beans(reader)], key=lambda f: (f.start, -f.end))
    return [f for n, f in enumerate(found) if not any(g.start <= f.start and f.end <= g.end for g in found[:n])]


def ends_in_crop(line: Line) -> bool:
    """ "Plan for it: corn, (peking, corn)": a plan is not cut between two of its years."""
    reader = _Reader(line)
    return any(not reader.text[crop.end :].strip() for crop in _crops(reader))


def _plans(reader: _Reader, crops: list[Found]) -> list[list[str]]:
    """The plans, parted by "or"; a crop with "x3" behind it is grown as often."""
    plans: list[list[str]] = [[]]
    at = crops[0].start
    edges = [f.start for f in reader.all("EITHER", at)]
    for crop in crops:
        if any(at <= edge < crop.start for edge in edges) and plans[-1]:
            plans.append([])
        at = crop.end
        times = re.match(r"\s*[x*]\s?([1-6])\b", reader.text[crop.end :])
        plans[-1] += [crop.value] * (int(times.group(1)) if times else 1)
    return plans


LEAST_SOURCE = 1000
"""A larger number is that of a source of resistance, and counts no plants (judgement)."""
LEAST_YEARS = 2
"""Years of each of several plans set side by side in a sentence (judgement)."""


def compared(line: Line) -> bool:
    """ "Would corn, peking, corn hold up better at stony 60 or corn, 88788, corn": plans without a word for them."""
    if not asking.may_say(line, "plans_compared") or not asking.parts_of(line).says("plans_compared"):
        return False
    visit = ("DUG", "PLANTS", "COLOUR", "NOT_LOOKED", "PLANTED")
    if any(is_any(p, visit) and "FIELD" not in p.types and not linking(p) and len(p.text) > 1 for p in line.ps):
        return False
    reader = _Reader(line)
    if reader.field_span is None:
        return False
    reader.take(*reader.field_span)
    crops = _crops(reader)
    plans = _plans(reader, crops) if crops else []
    if not 1 < len(plans) <= MOST_PLANS or any(not LEAST_YEARS <= len(plan) <= MOST_YEARS for plan in plans):
        return False
    return reader.emit("rotation", field=reader.name(), plans=plans)


def planned(line: Line) -> bool:
    """ "What happens if we go corn, peking, corn, 88788 on kestrel": crops in a row are a plan, and no field's seed."""
    if not any("SOURCE" in p.types for p in line.ps) or holds_count(line) or _visited(line.ps):
        return False
    reader = _Reader(line)
    crops = _crops(reader)
    between = [reader.text[f.end : g.start] for f, g in pairwise(crops)]
    others = any(crop.value in _NO_BEANS for crop in crops)
    if len(crops) < LEAST_IN_ROW or not others or not all(_in_row(line, words) for words in between):
        return False
    field = asking.name_in(line)
    plans = _plans(reader, crops)
    told = any(p.kind == "stage" or is_any(p, ("COLOUR", "NONE", "NOT_LOOKED", "TOOL")) for p in line.ps)
    last = reader.start + crops[-1].start
    stop = next((n for n, p in enumerate(line.ps) if p.start > last and (p.text == "?" or p.value == "hard")), None)
    before = asking.parts_of(asking.line_of(line, line.ps[:stop])).says("grown_before")  # no ".. due before Christmas"
    if told or before or not 0 < len(plans) <= MOST_PLANS:
        line.context.complain("only_words", line.start, line.end)
        return True
    if any(len(plan) > MOST_YEARS for plan in plans):
        return reader.complain("rotation_long")
    return reader.emit("rotation", field=field, plans=plans)


LEAST_IN_ROW = 3
"""Crops in a row that make a plan though no word says so (judgement)."""
_NO_BEANS = frozenset({"corn", "wheat", "other"})


def _in_row(line: Line, between: str) -> bool:
    """Do only commas, "then" and "or" stand between two crops?"""
    words = re.findall(r"\w+", between)
    little = all(
        line.made.has("then_word", word) or word in anywhere("and_word") or line.made.has("or_word", word)
        for word in words
    )
    return little and not re.search(r"[.?!:]", between)


def _plain_beans(reader: _Reader) -> list[Found]:
    """A resistant year whose source is not said: the field's own is meant."""
    return [Found(f.start, f.end, "resistant") for f in reader.all("RESISTANT")]


def opener_text(reader: _Reader, opener: Found) -> str:
    return " ".join(reader.text[opener.start : opener.end].split())


def _start_eggs(reader: _Reader) -> float | None:
    """ "1800 eggs", "eggs 1800": how many there are to begin with."""
    for found in reader.all("EGGS"):
        near = [n for n in reader.numbers(0, found.start) if not reader.text[n[1] : found.start].strip()]
        near = near or [n for n in reader.numbers(found.end) if not reader.text[found.end : n[0]].strip(" :=")][:1]
        if near:
            reader.take(min(near[-1][0], found.start), max(near[-1][1], found.end))
            volume = reader._volume()
            if volume is not None:
                reader.take(volume[0], volume[1])
            return near[-1][2]
    return None


def _report(reader: _Reader, opener: Found) -> bool:
    """One field, several by comma, or all; "relatório de quinta:" heads a round."""
    line = reader.line
    if reader.eggs() is not None:
        return reader.lab()  # "dry creek soil report: 900 eggs per 100 cc"
    if line.made.said("report_for", reader.text) and any(is_any(p, ("HISTORY",)) for p in line.ps):
        return False  # "the full history of Kestrel for my report"
    told = [p for p in line.ps if not is_any(p, ("FIELD",))]
    if any(is_any(p, ("TOPS", "EDGES", "VEINS", "BANDS", "ROOTS")) for p in told):
        return False  # "growers report edges of older leaves turning yellow"
    if reader.noted(opener) or line.only_days(
        next((n for n, p in enumerate(line.ps) if p.start - reader.start >= opener.end), len(line.ps))
    ):
        return False
    reader.take(opener.start, opener.end)
    if reader.first("ALL") is not None and not any(is_any(p, ("FIELD",)) for p in line.ps):
        return "," not in reader.raw[opener.end :][:1] and reader.emit("report", all=True)  # "Report, all three walked"
    names = _names_listed(reader, opener)
    if len(names) > 1:
        return reader.emit("report", fields=names)
    return reader.emit("report", field=reader.name())


_JOINTS = r"[,;+&]|\s(?:{})(?=\s)"
"""What parts the names of a list; the little words are those that join names."""


def _names_listed(reader: _Reader, opener: Found) -> list[str]:
    """ "On Dutch Corner, Rubys & Turkey Run": the crew's fields in the line, or what stands between commas."""
    known = [written(reader.line.context.text, p.start, p.end) for p in reader.line.ps if "FIELD" in p.types]
    if len(known) > 1:
        return list(dict.fromkeys(known))
    raw, text = reader.raw[opener.end :], reader.text[opener.end :]
    joined = _JOINTS.format("|".join(map(re.escape, sorted(anywhere("and_word")))))
    edges = [(0, 0), *(m.span() for m in re.finditer(joined, text)), (len(text), len(text))]
    parts = [(a[1], b[0]) for a, b in pairwise(edges)]
    return [name for start, end in parts if (name := _without_little(reader.language, raw[start:end]))]


def _without_little(language: Language, part: str) -> str:
    """A name of a list without "on", "the" before it and "please" behind it."""
    words = part.split()
    _, little = _section(language, "LITTLE")
    while words and fold(words[0].strip(":")) in little:
        words.pop(0)
    while words and fold(words[-1].strip(".!?")) in little:
        words.pop()
    name = " ".join(words)
    return written(name, 0, len(name))


def _watch(reader: _Reader, opener: Found) -> bool:
    """Varieties, or one source of resistance, across the fields; supervisors."""
    words = opener_text(reader, opener).split()
    reader.take(opener.start, opener.end)
    wanted = reader.first("SOURCE")
    if wanted is None and len(words) == 1 and reader.first("VARIETIES") is None:
        return False
    return reader.emit("watch", source=wanted.value if wanted else None)


READERS: dict[str, Callable[[_Reader, Found], bool]] = {
    "lab": _lab,
    "sample": _sample,
    "hg": _hg,
    "rotation": _rotation,
    "report": _report,
    "watch": _watch,
}
"""By the opening word's value."""
