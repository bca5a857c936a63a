"""Notes that name their fields last, one behind the other: "2 brown, 4 plants: kestrel / 5 plants none: dry creek".

Only where each line, or each sentence of a text of one line, ends in another field of the crew and counts something;
each is written with its field first. One note alone is read in either order.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from notes_bot.language.lexicon.crew_names import folded_names
from notes_bot.language.lexicon.pieces import Cutter
from notes_bot.language.lexicon.scan import fold, scan
from notes_bot.language.lexicon.words import Table, anywhere

LEAST_NOTES = 2
"""Notes from which it must be told which field each is of."""
_SENTENCE = re.compile(r"(?<=[.;!])\s+(?=\S)")
LONGEST_LINE = 400
"""Characters of a text of one line that is searched for fields told last in one sentence (judgement)."""
_AFTER = " .;,!)"
"""Signs that may stand behind the name."""
_BEFORE = " :,-–—(=>"
"""Signs that may part the name from what is told of it."""
_DUG = frozenset({"PLANTS", "DUG", "TOOL"})
_FOUND = frozenset({"COLOUR", "FEMALES", "NONE", "TOO_MANY"})
_TOLD = frozenset({"NOT_LOOKED", "LOOK", "MOISTURE"})
"""What a line of its own may tell of a field besides."""


def names_ahead(text: str, made: Table, fields: Sequence[str]) -> str:
    """The text with the name of each field before what is told of it."""
    names = [name for name in folded_names(tuple(fields)) if name] if len(fields) >= LEAST_NOTES else []
    if not names or (len(text) < LONGEST_LINE and (spread := _in_one_sentence(text, names, made))):
        return spread if names else text
    whole, more = _without_last(text, names)
    if not _ends_in_name(whole, names):
        return text
    if behind := _each_behind(whole, names, made):
        return "\n".join(f"{name}: {told}" for name, told in behind) + (f". {more}" if more else "")
    if more:
        return text
    lines = [line for line in text.split("\n") if line.strip()]
    head = lines[:1] if len(lines) > LEAST_NOTES and _heads(lines[0], names) else []
    lines = lines[len(head) :]
    parts = lines if len(lines) >= LEAST_NOTES else _SENTENCE.split(text)
    if len(parts) < LEAST_NOTES:
        return text
    told = [_named(part, names, made, spoken=parts is not lines) for part in parts]
    named = [name for row in told if row is not None for name in row[:1]]
    if len(named) < len(parts) or len({fold(name) for name in named}) < len(named):
        return text
    return "\n".join((*head, *(f"{row[0]}: {row[1]}" for row in told if row is not None)))


def _without_last(text: str, names: Sequence[str]) -> tuple[str, str]:
    """A text without the last sentence, and that, where it names no field: ".. at Kestrel. thats 12 plants in all"."""
    parts = _SENTENCE.split(text)
    if len(parts) <= LEAST_NOTES or any(name in fold(parts[-1]) for name in names):
        return text, ""
    return text[: len(text) - len(parts[-1])].rstrip(), parts[-1]


def _each_behind(text: str, names: Sequence[str], made: Table) -> list[tuple[str, str]]:
    """ "6 plants 12 white at Kestrel, 6 dug none at Tinkers": every field with what is told before it, or nothing.

    Whatever parts them; each is led to by a word for where or a sign, and its digging and finding, or that nobody
    looked, stand before it.
    """
    low = fold(text)
    if len(low) != len(text) or "?" in text or len(text) > LONGEST_LINE:
        return []
    found = list(_any_of(tuple(names)).finditer(low))
    if len(found) < LEAST_NOTES or len({m[0] for m in found}) < len(found) or low[found[-1].end() :].strip(_AFTER):
        return []
    told: list[tuple[str, str]] = []
    last = 0
    for name in found:
        rest = _without_joint(text[last : name.start()], made) if last else text[: name.start()]
        body = rest.rstrip(_BEFORE)
        stopped = rest.rstrip() != body
        bare, _ = _without_lead(body, made)
        if not _tells_visit(bare, made) or not (stopped or bare != body) or name.start() == 0:
            return []
        told.append((text[name.start() : name.end()], bare))
        last = name.end()
    return told


def _tells_visit(told: str, made: Table) -> bool:
    """Digging and finding, or that nobody looked; or a count or list, and no word that is not ours ("unlike")."""
    pieces = Cutter(made.language, ()).cut(scan(told))
    kinds = {kind for piece in pieces for kind in piece.types}
    if (kinds & _DUG and kinds & _FOUND) or "NOT_LOOKED" in kinds:
        return True
    numbers = sum(piece.kind == "number" for piece in pieces)
    counted = "NONE" in kinds or bool(kinds & _FOUND and numbers) or bool(kinds & _DUG and numbers > 1)
    return counted and all(piece.types for piece in pieces if piece.kind == "word")


@lru_cache(maxsize=256)
def _any_of(names: tuple[str, ...]) -> re.Pattern[str]:
    """Any of the folded names, the longest one that stands there."""
    ways = "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True))
    return re.compile(rf"(?<!\w)(?:{ways})(?!\w)")


def _without_joint(text: str, made: Table) -> str:
    """What is told behind a field, without what parts it from that: ", and then"."""
    text = text.lstrip(_PARTING)
    while (word := re.match(r"[^\W\d_]+", text)) is not None and (
        fold(word[0]) in anywhere("and_then") or made.has("then_word", fold(word[0]))
    ):
        text = text[word.end() :].lstrip(_PARTING)
    return text


_PARTING = " .;,:/-–—\n"
"""Signs between a field and what is told of the next."""


def _ends_in_name(text: str, names: Sequence[str]) -> bool:
    """Is a name of the crew's the last thing said?"""
    return fold(text[-60:]).rstrip(_AFTER + "\n").endswith(tuple(names))


def _in_one_sentence(text: str, names: Sequence[str], made: Table) -> str:
    """ "Dug 5 in each. 4 white in Kestrel, none at all in Tinkers": the sentence as one a field, or ""."""
    sentences = _SENTENCE.split(text) if "\n" not in text else []
    for n, sentence in enumerate(sentences):
        if not _ends_in_name(sentence, names) or sum(name in fold(sentence) for name in names) < LEAST_NOTES:
            continue
        if n == 0 and _named(sentence, names, made, spoken=False) is not None:
            continue
        led, found = _found_in_each(sentence, names, made)
        if found and not any(name in fold(other) for name in names for other in sentences[n + 1 :]):
            return " ".join((*sentences[:n], *led, *(f"{name}: {told}." for name, told in found), *sentences[n + 1 :]))
    return ""


def _found_in_each(sentence: str, names: Sequence[str], made: Table) -> tuple[list[str], list[tuple[str, str]]]:
    """What stands before, and what was found in each field: "dug 5 each, 4 white in Kestrel and none in Tinkers"."""
    first, _, rest = sentence.partition(",")
    kinds = {kind for piece in Cutter(made.language, ()).cut(scan(first)) for kind in piece.types}
    if not kinds & _FOUND and (found := _each_behind(rest.lstrip(), names, made)):
        return [f"{first}."], found
    return [], _each_behind(sentence, names, made)


def _heads(line: str, names: Sequence[str]) -> bool:
    """ "Today:", "Monday rounds:": a line that heads the others and names no field."""
    return line.rstrip().endswith(":") and not any(name in fold(line) for name in names)


def _named(part: str, names: Sequence[str], made: Table, *, spoken: bool) -> tuple[str, str] | None:
    """The name a line or sentence ends in, and what is told of it; ``None`` where it is no such."""
    whole = part.strip().rstrip(_AFTER)
    low = fold(whole)
    own = max((name for name in names if low.endswith(name)), key=len, default="")
    rest = whole[: len(whole) - len(own)]
    if not own or len(low) != len(whole) or any(name in fold(rest) for name in names) or rest[-1:].isalnum():
        return None
    body = rest.rstrip(_BEFORE)
    stopped = rest.strip() != "" and rest.rstrip()[-1] in _BEFORE
    bare, led = _without_lead(body, made)
    last = fold(body.split(" ")[-1].strip(".;!"))
    if bare == body and not stopped and not (last in made.singles or last.isdigit()):
        return None  # "none here, unlike Kestrel"
    body = bare
    kinds = {kind for piece in Cutter(made.language, ()).cut(scan(body)) for kind in piece.types}
    counted = bool(kinds & _DUG) and bool(kinds & _FOUND) if spoken else bool(kinds & (_DUG | _FOUND | _TOLD))
    sure = stopped or led if spoken else True
    return (whole[len(rest) :], body) if counted and sure and "?" not in body else None


def _without_lead(body: str, made: Table) -> tuple[str, bool]:
    """ "(3 white,) that's", "(5 plants none) at": what is told without what leads to the name; is it "that's"?"""
    led = False
    while (last := re.search(r"(?:^|[\s,])((?:[^\W\d_]|')+)\s*$", body)) is not None:
        two = re.search(r"(?:^|[\s,])((?:[^\W\d_]|')+ (?:[^\W\d_]|')+)\s*$", body)
        if two is not None and made.has("its_word", fold(two[1])):
            body, led = body[: two.start(1)].rstrip(_BEFORE), True
        elif made.has("its_word", fold(last[1])) or made.has("is_word", fold(last[1])):
            led = led or fold(last[1]) not in anywhere("named_at")
            body = body[: last.start(1)].rstrip(_BEFORE)
        elif fold(last[1]) in anywhere("before_name") | anywhere("named_at"):
            body = body[: last.start(1)].rstrip(_BEFORE)
        else:
            break
    return body, led
