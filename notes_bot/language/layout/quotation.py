"""Lines of another's mail that an answer quotes with ">" before them.

They tell what somebody else wrote, asked or counted before: nothing of it is a note or a request of this message. Only
the field they name is meant by the answer, where it names none at its head ("> How is Windmill looking?" above "It
looks fine. I dug ten plants").
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from notes_bot.language.lexicon.scan import fold, scan

SHORTEST_ANSWER = 6
"""Words of the shortest answer below a quotation (judgement)."""
LONGEST_HEAD = 60
"""Characters of an answer in which it names its own field (judgement)."""
_MARK = re.compile(r"^\s*>[\s>]*", re.MULTILINE)
_WORD = re.compile(r"[^\W_]+")


def without_quotation(text: str, fields: Sequence[str] = ()) -> str:
    """The text with the field's name alone for the lines it quotes.

    Lines that each begin with a name of the crew are a list, and stay.
    """
    if ">" not in text or not fields:
        return text
    lines = text.split("\n")
    quoted = [n for n, line in enumerate(lines) if _MARK.match(line)]
    own = "\n".join(lines[quoted[-1] + 1 :]) if quoted else ""
    if len(_WORD.findall(own)) < SHORTEST_ANSWER:
        return text
    told = [_MARK.sub("", lines[n]) for n in quoted]
    names = sorted(fields, key=len, reverse=True)
    if any(_begins(line, name) for line in told for name in names):
        return text
    met = {name for line in told for name in names if _named(line, name)}
    met -= {name for name in met for other in met if name != other and _named(other, name)}
    head = own.strip()[:LONGEST_HEAD]
    kept = [line for n, line in enumerate(lines) if n not in quoted]
    if len(met) == 1 and not any(_named(head, name) for name in names):
        kept.insert(quoted[0], f"{met.pop()}:")
    return "\n".join(kept)


def _begins(line: str, name: str) -> bool:
    """ "(> )kestrel 6 pl none": does a line begin with a field's name, and not "Kestrel was due on Saturday"?"""
    words, own = [x.text for x in scan(fold(line))], [x.text for x in scan(fold(name))]
    return words[: len(own)] == own and any(char.isdigit() for char in line)


def _named(text: str, name: str) -> bool:
    return re.search(rf"(?<!\w){re.escape(fold(name))}(?!\w)", fold(text)) is not None
