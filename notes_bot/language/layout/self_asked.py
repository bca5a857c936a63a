"""Who asks and answers in the same breath: "How many plants? Five. Females? 6 white. Where? Kestrel."

Each question with its answer is written as a label with its datum ("plants: Five."), where at least two are answered,
or one that only its writer can know. A question without an answer is one, and stays as it is.
"""

from __future__ import annotations

import re

from notes_bot.language.layout.forms import own_kind
from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import Table, anywhere, table
from notes_bot.model import Language

LEAST_ANSWERED = 2
"""Questions that are answered, from which all of them are the writer's own (judgement)."""
MOST_ANSWER = 12
"""Words of an answer (judgement)."""
_PAIR = re.compile(
    r"(?:^|(?<=[.!?;:,\n])[ ]?)¿?(?P<asked>[^.!?;:,\n¿]{2,60})\?[ \n]+"
    r"(?P<told>[^?¿\n]*?[^?¿\n\s.!;])(?:[.!;](?=\s|$)|(?=\n|$))",
    re.MULTILINE,
)
_WORD = re.compile(r"\S+")
_OWN = {
    "plants": "self_plants",
    "females": "self_females",
    "field": "self_field",
    "washed": "self_washed",
    "next": "self_next",
    "found": "self_found",
}
"""What one asks oneself in words of its own, and the manner of these."""
_LABELLED = frozenset({"females", "field", "stage", "soil", "roots", "tops", "nodules", "next"})
"""What is written behind our word for it; the others as they are."""


def answers_told(text: str, language: Language) -> str:
    """The text with each question its writer answers as a plain datum."""
    if "?" not in text:
        return text
    made = table(language)
    pairs = [(match, _as_told(match["asked"], match["told"], made)) for match in _PAIR.finditer(text)]
    told = [(match, said) for match, (_, said) in pairs if said]
    own = any(kind in ("washed", "next") and said for _, (kind, said) in pairs)
    if len(told) < LEAST_ANSWERED and not own:
        return text
    out, at = [], 0
    for match, said in told:
        out += [text[at : match.start()], " " if match.start() else "", said, "."]
        at = match.end()
    return "".join((*out, text[at:]))


def thoughts_told(text: str, made: Table) -> str:
    """ "Q falta... ah sí, Monte Chico. 6 plantas": who thinks aloud what comes next, and tells it, asks nobody."""
    if not _MUSING.search(text):
        return text
    out = []
    for line in text.split("\n"):
        thought = _MUSING.search(line)
        head = fold(line[: thought.start()]).strip(" ¿,") if thought is not None else ""
        more = thought is not None and len(text.split()) > len(head.split()) + LEAST_TOLD
        plain = more and made.has("thinks_aloud", head)
        out.append(line[thought.end() :] if thought is not None and plain else line)
    return "\n".join(out)


LEAST_TOLD = 6
"""Words behind a thought, from which it is no question for others (judgement)."""
_MUSING = re.compile(r"\s*(?:\.{2,}|…)\s*(?=\S)|[,:]?\s+(?=(?:ah|oh|eh|hm+)\b)", re.IGNORECASE)
"""What stands between a thought and what one then says."""


def _as_told(asked: str, told: str, made: Table) -> tuple[str, str]:
    """What a question asks for, and it with its answer as a datum; "" for a question of something else."""
    kind, place = _asked_for(asked, made)
    if not kind or len(told.split()) > MOST_ANSWER:
        return kind, ""
    lead = f"{place}. " if place else ""
    answer = _yes_or_no(told, asked, made)
    if kind == "washed":
        first, comma, more = told.partition(",")  # "no I did not, just shook the dirt off"
        answer = _yes_or_no(first, asked, made)
        if answer:
            return kind, lead + made.first["SOAKED", answer] + comma + more
        how = any(e.type == "SOAKED" for word in fold(told).split() for e in made.singles.get(word, ()))
        unsure = "" if how else f'"{told}"'  # "roots washed? in the bucket", but "washed? not sure"
        return kind, lead + unsure if unsure else ""
    if kind == "females" and answer == "no":
        return kind, f"{lead}{made.first['WRITTEN_FORM', kind]}: {made.first['NONE', 'none']}"
    if answer:
        return kind, ""
    if kind == "plants":
        return kind, f"{lead}{made.first['PLANTS', 'plants']}: {told}"
    if kind == "field":
        first, _, rest = told.partition(" ")
        told = rest if rest and made.has("at", fold(first)) else told
    return kind, f"{lead}{made.first['WRITTEN_FORM', kind]}: {told}" if kind in _LABELLED else lead + told


def _asked_for(asked: str, made: Table) -> tuple[str, str]:
    """What a question asks for, and the field that stands at its end: "Quando volto na Baixada" is next, there."""
    words = list(_WORD.finditer(asked))
    folded = [fold(word.group()) for word in words]
    if folded and folded[0] in anywhere("and_word"):
        words, folded = words[1:], folded[1:]
    for size in range(len(words), 0, -1):
        phrase = " ".join(folded[:size])
        kind = next((kind for kind, manner in _OWN.items() if made.has(manner, phrase)), "")
        if not kind and size == len(words):
            kind = own_kind(phrase, made)
            kind = kind if kind in _LABELLED or kind in _OWN or kind == "method" else ""
        if not kind:
            continue
        if size == len(words):
            return kind, ""
        led = made.has("at", folded[size]) or made.has("goal", folded[size])
        return (kind, asked[words[size + 1].start() :].strip()) if led and size + 1 < len(words) else ("", "")
    return "", ""


def _yes_or_no(told: str, asked: str, made: Table) -> str:
    """ "Yes", "I did", or the verb again: yes; "nope": no; "" for anything else."""
    answer = fold(told).strip(" .!,")
    if made.has("form_no", answer) or made.has("self_no", answer):
        return "no"
    head, _, tail = answer.partition(" ")
    if made.has("form_no", head) and made.has("self_no", tail):
        return "no"
    if made.has("form_yes", head) and made.has("self_yes", tail):
        return "yes"
    again = answer in [fold(word) for word in asked.split()]
    return "yes" if again or made.has("form_yes", answer) or made.has("self_yes", answer) else ""
