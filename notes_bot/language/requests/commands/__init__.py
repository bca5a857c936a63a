"""What is asked rather than noted: a line that starts (or ends) with a word for it.

Notes are free prose and go through the grammar; what is asked is one short line, so a table of first words
(``whole.FIRST``) and small rules are the whole of it. A line that turns out to hold a note is left to the note.

``take`` (``lines.py``) goes over the lines of a message and gives back what is left for the notes. A line is read whole
(``whole.py``), as several requests (``twofold.py``, ``two_asked.py``, ``several.py``), or sentence by sentence
(``aside.py``) where it tells a note as well (``behind_notes.py``); lines that head others or belong to them stand in
``headings.py``, everyday talk in ``talk.py``, lines that need no search in ``plain.py``. Each of these asks the rules,
which stand in the rooms of their matters: a function takes the ``Line`` and puts its command into the context, or says
false: "not this after all".

The rooms, each of which knows only those below it: ``lines``; ``behind_notes``; ``several`` and ``two_asked``;
``aside`` and ``headings``; ``whole``; ``requested`` (a word for asking, anywhere in a line); ``standing``, ``weather``
and ``heat``; ``reminders``, ``rain``, ``rain_at`` and ``skies``; ``held``, ``helping``, ``known_fields``, ``named``,
``new_fields``, ``own``, ``undoing`` and ``sky_words``, with ``talk`` and ``twofold``; ``line`` (one line, and small
questions about it), ``cutting``, ``plain`` and ``rain_units``.
"""

from notes_bot.language.requests.commands.cutting import content_of, lines_of, sentences_of
from notes_bot.language.requests.commands.line import Line
from notes_bot.language.requests.commands.lines import take

__all__ = ["Line", "content_of", "lines_of", "sentences_of", "take"]
