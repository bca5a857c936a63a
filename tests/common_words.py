"""Common words that would be taken for a slip of one of ours, put into ``grammar/words/common_*.toml``.

    pip install wordfreq && python tests/common_words.py

To be run after words were added to the tables: whatever is common in a language is no misspelling in it ("unidos" is
not "úmidos", "taller" not "yaller"). Forms of a word of ours stay out of it ("collects"), they are read as that word.
Words and their order: wordfreq 3 (R. Speer, 2022; data CC BY-SA 4.0).
"""

from __future__ import annotations

import sys
import textwrap
from itertools import takewhile
from pathlib import Path

import tomli
import wordfreq  # type: ignore[import-not-found]

from notes_bot.language.lexicon.mending import mend, ordinary
from notes_bot.language.lexicon.scan import fold, scan
from notes_bot.model import LANGUAGES, Language

WORDS = Path(__file__).parents[1] / "grammar" / "words"
MOST = 30_000
"""Words looked at, the most frequent first."""
BESIDE: dict[Language, str] = {
    "en": "kestrel dug 6 beans {} me",
    "es": "kestrel 6 soja {} me",
    "pt": "kestrel 6 soja {} me",
}
"""A message in which a strange word is mended if it ever is."""
INFLECTED = 3
"""Letters at its end in which a form of a word may differ from it."""


def main() -> int:
    """Rewrite the three lists."""
    for language in LANGUAGES:
        path = WORDS / f"common_{language}.toml"
        text = path.read_text("utf-8")
        words = set(tomli.loads(text)["words"].split())
        frequent = (fold(word) for word in wordfreq.top_n_list(language, MOST) if word.isalpha())
        more = {word for word in frequent if not ordinary(word, language) and mistaken(word, language)}
        head = text[: text.index("words = '''")]
        lines = textwrap.wrap(" ".join(sorted(words | more)), 120)
        path.write_text(head + "words = '''\n" + "\n".join(lines) + "'''\n", "utf-8")
        print(f"{language}: {len(more)} more")
    return 0


def mistaken(word: str, language: Language) -> bool:
    """Is it read as another word, which it is no form of?"""
    text = BESIDE[language].format(word)
    at = text.index(f" {word} ") + 1
    slips = mend(text, scan(text), language, ("kestrel",))[1]
    return any(slip.start == at and not _a_form(word, fold(slip.read)) for slip in slips)


def _a_form(word: str, read: str) -> bool:
    alike = sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(word, read, strict=False)))
    return alike >= max(4, max(len(word), len(read)) - INFLECTED)


if __name__ == "__main__":
    sys.exit(main())
