"""The supervisor's digest: what needs a decision, what is overdue, what is new, what comes; each field once."""

from __future__ import annotations

from notes_bot.model import Day, Person, Reply
from notes_bot.reply.words import words


def compose_digest(day: Day, person: Person, *, pictures: bool = True) -> Reply:
    """The digest of one day, as text, HTML and pictures."""
    speak = words(person.language)
    quiet = speak("digest.quiet", crew=day.crew, day=day.on, count=len(day.fields))
    return Reply(quiet, quiet + "\n")
