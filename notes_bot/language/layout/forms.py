"""Notes filled in as a form, a label before each datum ("Stg: R3", "Meth: shovel", "Comments: none"), as plain notes.

A label is one of the words for it (the manners "form_..." of the word files) or those letters of one that people write
("mthd", "vrty"). A message is a form from a few of them on; then a label that means nothing to us is no field, "none"
behind "comments" counts no females, what was left blank is not told, and who scouted in which weather is text. Boxes to
tick ("[x] shovel [ ] pulled") are read in any message. What is no form stays as it is, to the letter.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from notes_bot.language.lexicon.scan import clean, fold, scan
from notes_bot.language.lexicon.words import Table, table
from notes_bot.model import COLOURS, Language

LEAST_LABELS = 3
"""Different labels from which a message is a form (judgement)."""
LEAST_BELOW = 2
"""Labels alone on a line, each with a colon, from which what stands below them is their value (judgement)."""
LEAST_UNSIGNED = 5
"""Lines that begin with a label and no sign behind it, from which a message is a form (judgement)."""
MOST_OF_LABEL = 3
"""Words of a label that stands without a sign (judgement)."""
MOST_OF_TITLE = 4
"""Words of a title above a form (judgement)."""
SHORTEST_LABEL = 2
"""Letters of the shortest label that is taken for a short one of ours (judgement)."""
KINDS = (
    *("field", "day", "stage", "method", "washed", "plants", "females", "soil", "roots", "tops", "nodules", "seed"),
    *("resistance", "source", "planted", "spray", "next", "remark", "person", "aside"),
)
"""What a label may ask for."""
_AS_LABELLED = frozenset(
    {"field", "stage", "soil", "roots", "tops", "nodules", "seed", "source", "planted", "spray", "next"}
)
"""Kinds of which the label is written before the value, in our word."""
_OF_VISIT = frozenset({"stage", "method", "washed", "plants", "females", "soil", "roots", "tops", "nodules", "next"})
"""Kinds of which a form of a visit has one; without any it tells of a field ("Planted: ..", "Acres: ..")."""
_COUNTS = frozenset({"females", "plants"})
_IN_WORDS = frozenset({"soil", "roots", "tops", "nodules"})
"""What is told in words, line by line below its label."""
_LABEL = re.compile(
    r"(?:^|(?<=[\n;|,/]))(?P<lead>[ ]*(?:[-*•·][ ]+|[qQ]?\(?\d{1,2}[.):]?[ ]+|\(?\d{1,2}[.)])?[*_(]{0,2})"
    r"(?P<label>\#?[ ]?[^\W\d_](?:[\w/#']|[. ]{1,2}(?=[\w#/(])){0,24}?\.?)"
    r"(?:[ ]*[*_]{0,2}[:=>?](?!(?<=\d.)\d\d\b)[*_]{0,2}|[ ]+[-–—](?=[ ])|\)(?=[ ])|[ ]*\.{2,}|[ ]*\t"
    r"|[ ]{2,}(?![^\n:=]{0,20}[:=]))[ ]*"
)
"""A label at the start of a line, or behind a sign that parts clauses."""
_ENDS_LABEL = (":", "=", ">", "?", ")", "\t", "- ", "–", "—", "..", "  ")
"""Signs one of which every label has at its end."""
_WORD = re.compile(r"[^\W\d_]+")
_BLANK = re.compile(r"(?:_+|-+|\.{2,}|n ?/ ?a|na|\?)?[ .]*", re.IGNORECASE)
_BOX = re.compile(r"\[ ?([xX✓✔]?) ?\]|\(([xX✓✔]| {0,3})\)|([☐☑☒□■✅])")
_IN_BOX = frozenset("])☐☑☒□■✅")
"""Signs one of which every box has."""
_EMPTY = frozenset("☐□")
LEAST_BOXES = 2
"""Boxes in a line from which they are there to be ticked, at least one of them empty (judgement)."""


@dataclass(frozen=True, slots=True)
class _Line:
    """A label and its value: where they stand, and what the label asks for ("" where nobody knows)."""

    start: int
    value: int
    end: int
    label: str
    kind: str


def filled_in(text: str, language: Language) -> str:
    """The text with the labels of a form in our words, and without what was left blank."""
    text = _ticked(text)
    if "\n" in text:
        text = _values_below(text, table(language))
    if sum(map(text.count, _ENDS_LABEL)) < LEAST_LABELS and text.count("\n") < LEAST_UNSIGNED - 1:
        return text
    made = table(language)
    lines = _labelled(text, made) or _without_signs(text, made)
    asked = {line.kind for line in lines} - {""}
    shades = asked & set(COLOURS)
    if len(asked - shades) + min(len(shades), 1) < LEAST_LABELS or asked.isdisjoint(_OF_VISIT):
        return text
    out: list[str] = []
    at = lines[0].start if lines[0].kind == "field" and _is_title(text[: lines[0].start], made) else 0
    for n, line in enumerate(lines):
        told = _told(text[line.value : line.end], line, _Form(text, lines, n, made))
        if told is not None:
            out += [text[at : line.start], told]
            at = line.end
    return "".join((*out, text[at:]))


def _is_title(head: str, made: Table) -> bool:
    """ "PRÁCTICA 3" above "Campo: ..": a line of a few words that tell nothing, with the number of the sheet."""
    said = scan(head.strip())
    words = said[:-1] if said and said[-1].kind == "number" and len(said) > 1 else said
    plain = all(x.kind == "word" and not made.singles.get(x.text) for x in words)
    return 0 < len(said) <= MOST_OF_TITLE and head.endswith("\n") and plain


def _values_below(text: str, made: Table) -> str:
    """ "Plants:" above "8", "Roots" above "fine" above "stubby": labels alone on a line, with their values behind."""
    rows = text.split("\n")
    heads = [n for n, row in enumerate(rows) if _heads_values(row, made)]
    signed = [n for n in heads if rows[n].rstrip().endswith(":")]
    alone = len(signed) == 1 and own_kind(_bare_label(rows[signed[0]]), made) in _IN_WORDS
    by_turns = _by_turns(rows, heads)
    if not (len(signed) >= LEAST_BELOW or by_turns or alone):
        return text
    heads = heads if by_turns else signed
    out: list[str] = []
    n = 0
    while n < len(rows):
        end = _values_end(rows, n, heads, worded=alone) if n in heads else n + 1
        values = [row.strip() for row in rows[n + 1 : end] if row.strip()]
        out.append(f"{rows[n].strip().rstrip(':')}: {', '.join(values)}" if n in heads else rows[n])
        n = end
    return "\n".join(out)


def _by_turns(rows: list[str], heads: list[int]) -> bool:
    """ "Plants", "8", "White", "3": is every other line a label, and the others their values?"""
    told = [n for n, row in enumerate(rows) if row.strip()]
    return len(heads) >= LEAST_LABELS and heads == told[told.index(heads[0]) :: 2] and heads[-1] != told[-1]


def _values_end(rows: list[str], n: int, heads: list[int], *, worded: bool) -> int:
    """Where the values below a label end: at the next label, a blank line, or a number where they are words."""
    k = n + 1
    while k < len(rows) and k not in heads and not _LABEL.match(rows[k]):
        ended = not rows[k].strip() and any(row.strip() for row in rows[n + 1 : k])
        if ended or (worded and re.search(r"\d", rows[k])):
            break
        k += 1
    return k


def _bare_label(row: str) -> str:
    return fold(row).strip(" :#*-")


def _heads_values(row: str, made: Table) -> bool:
    """Is a line nothing but a label that asks for something of a visit?"""
    label = _bare_label(row)
    kind = own_kind(label, made) if label and not label[-1].isdigit() else ""
    return kind in _OF_VISIT or kind == "field" or (bool(label) and kind == "" and shade_of(label, made) != "")


def _ticked(text: str) -> str:
    """Only what is ticked of boxes in a line: "[x] dry [ ] wet", "dry (x) wet ( )"."""
    if _IN_BOX.isdisjoint(text) or not _BOX.search(text):
        return text
    return "\n".join(_chosen(line) for line in text.split("\n"))


def _chosen(line: str) -> str:
    """A line without its boxes, and without the words of those that are empty."""
    boxes = list(_BOX.finditer(line))
    ticks = [_is_ticked(box) for box in boxes]
    if len(boxes) < LEAST_BOXES or all(ticks):
        return line
    head, tail = line[: boxes[0].start()], line[boxes[-1].end() :]
    first = tail.strip(" .,;|/") != "" or _LABEL.fullmatch(head) is not None or not head.strip()
    if first:
        ends = [box.start() for box in boxes[1:]] + [len(line)]
        kept = [line[box.end() : end] for box, end, tick in zip(boxes, ends, ticks, strict=True) if tick]
        return " ".join((head.strip(), ", ".join(words.strip(" ,;|/") for words in kept))).strip()
    label = _LABEL.match(line)
    begin = label.end() if label is not None else 0
    starts = [begin, *(box.end() for box in boxes[:-1])]
    kept = [line[start : box.start()] for start, box, tick in zip(starts, boxes, ticks, strict=True) if tick]
    return line[:begin] + ", ".join(words.strip(" ,;|/") for words in kept)


def _is_ticked(box: re.Match[str]) -> bool:
    return bool((box[1] or "").strip() or (box[2] or "").strip() or (box[3] and box[3] not in _EMPTY))


def _labelled(text: str, made: Table) -> list[_Line]:
    """Every label of the text, and where its value ends: at the sign before the next label, or with the line."""
    found = list(_LABEL.finditer(text))
    lines = []
    for n, match in enumerate(found):
        stop = text.find("\n", match.end())
        stop = len(text) if stop < 0 else stop
        if n + 1 < len(found) and found[n + 1].start() <= stop:
            stop = found[n + 1].start()
            stop -= stop > match.end() and text[stop - 1] in ";|,/\n"
        label = " ".join(fold(match["label"]).strip(" .#").split()) if match["label"].strip(" #.") else ""
        begin = match.start("lead") + len(match["lead"]) - len(match["lead"].lstrip())
        lines.append(_Line(begin, match.end(), stop, label, kind_of(label, made)))
    return lines


def _without_signs(text: str, made: Table) -> list[_Line]:
    """ "stage R3", "method pull", "comments none", one a line: labels with nothing but a blank behind them."""
    if text.count("\n") < LEAST_UNSIGNED - 1:
        return []
    lines = []
    at = 0
    for row in text.split("\n"):
        words = [word for word in _WORD.finditer(row) if word.end() < len(row)][:MOST_OF_LABEL]
        labels = [(word.end(), fold(row[words[0].start() : word.end()])) for word in words]
        known = [(end, label, own_kind(label, made)) for end, label in labels if own_kind(label, made)]
        if known and words[0].start() == len(row) - len(row.lstrip(" -*•·")):
            end, label, kind = known[-1]
            lines.append(_Line(at + words[0].start(), at + end, at + len(row), label, kind))
        at += len(row) + 1
    return lines if len(lines) >= LEAST_UNSIGNED else []


def own_kind(label: str, made: Table) -> str:
    """What a label asks for, when it is one of our words for it."""
    told = made.manners.get(label)
    return next((kind for kind in KINDS if f"form_{kind}" in told), "") if told else ""


def shade_of(label: str, made: Table) -> str:
    """The color that is counted behind "W", "White females", "No. of white"; "" where it is none or several."""
    words = [word for word in re.split(r"[ .#]+", label) if word and not made.has("column_word", word)]
    entries = [made.singles.get(word, ()) for word in words]
    shades = [entry.value for row in entries for entry in row if entry.type == "COLOUR"]
    counted = all(any(entry.type in ("COLOUR", "FEMALES", "PLANTS") for entry in row) for row in entries)
    return shades[0] if len(shades) == 1 and counted else ""


def kind_of(label: str, made: Table) -> str:
    """What a label asks for: told by its words, or by those letters of one of them that are written; else ""."""
    if own := own_kind(label, made) or shade_of(label, made):
        return own
    short = label.replace(" ", "")
    if len(short) < SHORTEST_LABEL or not short.isalpha() or _means(label, made):
        return ""
    kinds = {kind for word, kind in _labels(made.language) if _shortens(short, word)}
    return kinds.pop() if len(kinds) == 1 else ""


@cache
def _labels(language: Language) -> tuple[tuple[str, str], ...]:
    """Every label that is one word, with its kind."""
    made = table(language)
    rows = ((word, kind) for kind in KINDS for word in made.traits.get(f"form_{kind}", ()))
    return tuple((word, kind) for word, kind in rows if word.isalpha())


def _shortens(short: str, word: str) -> bool:
    """ "mthd" for method, "vrty" for variety: its first letter, and others of it in their order."""
    if len(short) >= len(word) or short[0] != word[0]:
        return False
    letters = iter(word)
    return all(letter in letters for letter in short)


def _means(label: str, made: Table) -> bool:
    """Is it a word of notes, or an everyday one?"""
    words = label.split(" ")
    return all(word in made.singles or word in made.plain for word in words)


@dataclass(frozen=True, slots=True)
class _Form:
    """A form and which of its lines is looked at."""

    text: str
    lines: list[_Line]
    n: int
    made: Table

    def has_field(self) -> bool:
        """Is its field told above its first label, or behind a label for it?"""
        headed = bool(self.text[: self.lines[0].start].strip(" \n#-*"))
        return headed or any(line.kind == "field" for line in self.lines[: self.n])

    def names_field(self) -> bool:
        """Has another line a label for the field?"""
        return any(line.kind == "field" for line in self.lines)

    def within(self) -> bool:
        """Does this line stand between lines of known labels, each of which is there once or is named again?"""
        around = self.lines[max(0, self.n - 1) : self.n] + self.lines[self.n + 1 : self.n + 2]
        label = self.lines[self.n].label
        again = sum(line.label == label for line in self.lines) > 1
        kinds = [line.kind for line in self.lines if line.kind and line.kind not in ("aside", "remark", "soil")]
        once = len(set(kinds)) == len(kinds)
        return all(line.kind or _means(line.label, self.made) for line in around) and (once or again)

    def data(self, value: str) -> bool:
        """Does a value hold a number, or a word of notes?"""
        words = [x for x in scan(clean(value)) if x.kind not in ("sign", "nl")]
        little = {"LINK", "ABOUT", "COURTESY", "TEXT", "MOSTLY", "TOP", "NONE"}
        return any(
            word.kind != "word" or any(e.type not in little for e in self.made.singles.get(word.text, ()))
            for word in words
        )


def _told(value: str, line: _Line, form: _Form) -> str | None:
    """A line of a form in plain words, "" for what is not told; ``None`` where it stays as it is."""
    made, value = form.made, value.strip()
    none = _says(value, "form_none", made)
    if _BLANK.fullmatch(value):
        return "" if line.kind or not _heads_block(form) else None
    if line.kind == "":
        return _unknown(value, line, form, none=none)
    if line.kind in COLOURS:
        return f"{value} {made.first['COLOUR', line.kind]}" if value.isdigit() else None
    if line.kind in _COUNTS:
        return _plants(value, made) if line.kind == "plants" else _females(value, form)
    if line.kind in ("person", "aside") and not none:
        return _aside(value, line, form)
    if line.kind == "method":
        return _method(value, made)
    if line.kind in ("washed", "resistance"):
        return _yes_or_no(value, line.kind, made)
    if none and line.kind != "tops":
        return ""
    if none:
        return made.first["WRITTEN_TOP", "healthy"]
    if line.kind in _AS_LABELLED:
        return f"{_label(made, line.kind)}: {value}"
    return value


def _label(made: Table, kind: str) -> str:
    """A label as we write it."""
    return made.first["WRITTEN_FORM", kind]


def _says(value: str, manner: str, made: Table) -> bool:
    return made.has(manner, fold(value).strip(" .!"))


def _heads_block(form: _Form) -> bool:
    """ "Kestrel:" with nothing behind it may be the field of what follows."""
    line = form.lines[form.n]
    return not _means(line.label, form.made)


def _unknown(value: str, line: _Line, form: _Form, *, none: bool) -> str | None:
    """Behind a label that nobody knows: of no field where the form has its own, and nothing where it says none."""
    made = form.made
    counted = [e.type for e in made.singles.get(line.label, ())]
    if any(kind in ("TOOL", "DUG") for kind in counted) and (
        _says(value, "form_yes", made) or _says(value, "form_no", made)
    ):
        return line.label if _says(value, "form_yes", made) else ""  # "Shovel: y"
    if counted or _means(line.label, made):
        return None
    if none and form.has_field():
        return ""
    if not form.has_field() or not form.within():
        return None
    return f"{_as_text(line.label)} {value}" if form.data(value) else _as_text(f"{line.label}: {value}")


def cell_told(cell: str, kind: str, made: Table) -> str:
    """What stands in a cell of a table, below a heading that asks for it, in plain words; "" for what is not told."""
    if _BLANK.fullmatch(cell) or _says(cell, "form_none", made):
        return ""
    if kind in ("person", "aside", "remark"):
        return "" if kind != "remark" else cell
    if kind in ("washed", "resistance"):
        return _yes_or_no(cell, kind, made)
    if kind == "method":
        return _method(cell, made)
    return f"{_label(made, kind)} {cell}" if kind in _AS_LABELLED else cell


_BESIDE_CROP = frozenset({"PLANTED", "VARIETY", "RESISTANCE", "SOURCE"})
"""What may be told behind a label for the crop or the weather besides."""


def _aside(value: str, line: _Line, form: _Form) -> str | None:
    """ "Scout: Amy", "Weather: 82 and sunny": text; "Crop: beans, R3, planted 5/12" is told."""
    if line.label in form.made.traits["form_name"] and not form.names_field():
        return None if form.n else f"{_label(form.made, 'field')}: {value}"  # "Name: Heron Slough"
    told = [e.type for word in scan(clean(value)) for e in form.made.singles.get(word.text, ())]
    staged = any(word.kind == "stage" for word in scan(clean(value)))
    if line.kind == "aside" and "NONE" not in told and (staged or not _BESIDE_CROP.isdisjoint(told)):
        return value
    return _as_text(f"{line.label}: {value}")


def _method(value: str, made: Table) -> str:
    """ "Pull", "hand pulled", "shovel": a way of digging alone, as its tool."""
    words = [word.text for word in scan(clean(value))]
    whole = made.longest(words, 0) if words else None
    entries = whole[1] if whole is not None and whole[0] == len(words) else ()
    way = next((e.value for e in entries if e.type in ("DUG", "TOOL") and ("TOOL", e.value) in made.first), None)
    return value if way is None else made.first["TOOL", way]


def _as_text(said: str) -> str:
    """Words that are kept as they are: in quotes."""
    return '"' + said.replace('"', " ") + '"'


def _plants(value: str, made: Table) -> str | None:
    """ "6", "6, spade", "6 dug": so many plants; a list of counts stays one."""
    number = re.match(r"\d{1,3}(?![\d/.-])", value)
    if number is None or len(re.findall(r"\d+", value)) > 1:
        return None
    behind = value[number.end() :].lstrip()
    words = scan(fold(behind))
    if words and any(e.type in ("PLANTS", "FEMALES", "COLOUR") for e in made.singles.get(words[0].text, ())):
        return value
    return f"{number.group()} {made.first['PLANTS', 'plants']} {behind}".strip()


def _females(value: str, form: _Form) -> str:
    """ "Females: 12 white"; "SCN present: N" is none seen, and "Y" says no more than counts on other lines do."""
    made = form.made
    if _says(value, "form_no", made) or _says(value, "form_none", made):
        return f"{_label(made, 'females')}: {made.first['NONE', 'none']}"
    if not _says(value, "form_yes", made):
        return f"{_label(made, 'females')}: {value}"
    counted = any(line.kind in (*COLOURS, "females") and line.label != form.lines[form.n].label for line in form.lines)
    return "" if counted else made.write("females_seen")


def _yes_or_no(value: str, kind: str, made: Table) -> str:
    """ "Washed: y", "Resistant: no"; "Wash: bucket", "Resistance: Peking" as they are."""
    words = {"washed": ("SOAKED", "yes", "no"), "resistance": ("RESISTANCE", "resistant", "susceptible")}[kind]
    if _says(value, "form_yes", made):
        return made.first[words[0], words[1]]
    if _says(value, "form_no", made) or _says(value, "form_none", made):
        return made.first[words[0], words[2]]
    return value
