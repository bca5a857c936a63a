"""A letter: paragraphs of short lines, as text and as HTML."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined

from notes_bot.model import Language, Picture, Reply
from notes_bot.reply.segments import PART, first_that_fits


@dataclass(slots=True)
class Letter:
    """Paragraphs in order; each is a tuple of lines, each line one sentence or two."""

    paragraphs: list[tuple[str, ...]] = field(default_factory=list)

    def line(self, *lines: str) -> None:
        """Add one paragraph of the lines that say something."""
        kept = tuple(line for line in lines if line)
        if kept:
            self.paragraphs.append(kept)

    def text(self) -> str:
        return "\n\n".join("\n".join(lines) for lines in self.paragraphs) + "\n"


@cache
def templates() -> Environment:
    """The HTML templates: strict on missing names, everything escaped."""
    return Environment(
        loader=PackageLoader("notes_bot.reply"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def letter_html(letter: Letter, pictures: Sequence[Picture], language: Language) -> str:
    """The letter with its pictures; empty without pictures, since the text part says it all."""
    if not pictures:
        return ""
    paragraphs = letter.paragraphs
    page = templates().get_template("html/letter.html")
    return page.render(language=language, headline=paragraphs[0][0], paragraphs=paragraphs[1:], pictures=list(pictures))


def together(letters: Sequence[Reply]) -> Reply:
    """Several whole replies as one, in order: the first gives the subject; pages to print go along.

    A short text speaks of the first and says nothing false by leaving the others out: they stand in full in mail.
    """
    if len(letters) == 1:
        return letters[0]
    first = letters[0]
    return Reply(
        subject=first.subject,
        text="\n".join(letter.text for letter in letters),
        short=first_that_fits([" ".join(letter.short for letter in letters), first.short], 2 * PART),
        documents=tuple(document for letter in letters for document in letter.documents),
    )
