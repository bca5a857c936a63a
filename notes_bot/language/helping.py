"""help_text: what can be sent, one phone screen a topic, in three languages."""

from __future__ import annotations

from functools import cache
from importlib.resources import files

import tomli

from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import split, table
from notes_bot.model import Language

LINES, COLUMNS = 18, 40
"""Lines and characters a line of one phone screen (judgement)."""


@cache
def screens() -> dict[str, dict[str, str]]:
    """help.toml: by language, by topic."""
    return tomli.loads((files("notes_bot.grammar") / "help.toml").read_text("utf-8"))


def help_text(topic: str | None, language: Language) -> str:
    """The help for a topic, or the first screen: at most 18 lines of 40 columns.

    ``topic`` is a key of help.toml, or a word a person may use for it in this language; an unknown one gives the
    first screen.
    """
    pages = screens()[language]
    key = "main" if topic is None else topic
    if key not in pages:
        entries = table(language).singles.get(" ".join(split(fold(key))), ())
        key = next((entry.value for entry in entries if entry.type == "TOPIC"), "main")
    return pages[key].strip("\n")
