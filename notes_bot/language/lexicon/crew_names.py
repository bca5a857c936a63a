"""What a crew calls its fields, and what is short for it: "harrow rdg 3", "old mill", "h w", "twr", "sec17"."""

from __future__ import annotations

import re
from functools import lru_cache

from notes_bot.language.lexicon.scan import clean, fold, scan
from notes_bot.language.lexicon.words import anywhere, is_field_word, spoken_numbers

LEAST_ALONE = 3
"""Letters from which a word alone may be short for a name at the head of a line (judgement)."""


@lru_cache(maxsize=4096)
def name_cut(name: str) -> tuple[str, ...]:
    """The words of a name as they are cut in a message."""
    return tuple(lexeme.text for lexeme in scan(name))


@lru_cache(maxsize=4096)
def name_parts(name: str) -> tuple[str, ...]:
    """The words and numbers of a name, numbers in figures: "s80" is two."""
    found = re.findall(r"[^\W\d_]+|\d+", fold(name).replace("'", ""))
    figures = spoken_numbers()
    return tuple(figures.get(part, part) for part in found)


def short_for(said: tuple[str, ...], words: tuple[str, ...]) -> bool:
    """Does each word said shorten a word of the known name, in order ("harrow rdg 3", "old mill")?"""
    n = 0
    for word in said:
        while n < len(words) and not _shortens(word, words[n]):
            n += 1
        if n == len(words):
            return False
        n += 1
    return True


def _shortens(short: str, word: str) -> bool:
    if short.isdigit() or word.isdigit():
        return short == word
    if word.startswith(short):
        return True
    letters = iter(word)
    return len(short) >= 2 and short[0] == word[0] and all(letter in letters for letter in short)


@lru_cache(maxsize=64)
def folded_names(fields: tuple[str, ...]) -> tuple[str, ...]:
    """The names of a crew's fields, folded."""
    return tuple(map(fold, fields))


@lru_cache(maxsize=64)
def _parted(fields: tuple[str, ...]) -> tuple[tuple[str, ...], ...]:
    return tuple(dict.fromkeys(name_parts(name) for name in fields))


@lru_cache(maxsize=4096)
def only_one(said: str, fields: tuple[str, ...]) -> bool:
    """Are the words short for one field of the crew, and for one only?

    A word alone is as long as ``LEAST_ALONE`` letters, or has a number.
    """
    parts = name_parts(said)
    if not parts or (len(parts) == 1 and (len(parts[0]) < LEAST_ALONE or parts[0].isdigit())):
        return False
    return sum(short_for(parts, known) for known in _parted(fields)) == 1


LEAST_HEAD = 4
"""Letters of the shortest first word by which a field may be named in a sentence (judgement)."""


@lru_cache(maxsize=64)
def name_heads(fields: tuple[str, ...]) -> frozenset[str]:
    """First words of names, the article left out or not, that only one name begins with: "ditch" of Ditch Road."""
    begun: dict[str, set[str]] = {}
    for name in fields:
        words = [x.text for x in scan(clean(name))]
        bare = words[1:] if len(words) > 1 and words[0] in anywhere("name_article") else words
        for row in (words, bare):
            for size in range(1, len(row) + 1):
                begun.setdefault(" ".join(row[:size]), set()).add(name)
    return frozenset(
        head
        for head, names in begun.items()
        if len(names) == 1
        and len(head) >= LEAST_HEAD
        and not is_field_word(head)
        and head not in anywhere("direction") | anywhere("name_article")
    )
