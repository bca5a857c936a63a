"""The note language: what people in the field write, read into a :class:`~notes_bot.model.Reading` and spelled back.

``read_note`` reads a message, ``spell`` writes a note as one line that reads back the same, ``help_text`` is the
card a phone can show. ``lab_results`` reads a laboratory's table.
"""

from notes_bot.language.helping import help_text
from notes_bot.language.reader import read_note
from notes_bot.language.requests.lab_table import lab_results
from notes_bot.language.spelling import spell

__all__ = ["help_text", "lab_results", "read_note", "spell"]
