"""Which of its meanings a word has here: its neighbours decide.

``sensed`` (``reading.py``) goes over the pieces of a text; ``meanings.py`` holds the table of the kinds of word. Every
kind has a function in the room of its matter, which looks around on the ``Walk`` and emits the token, or returns 0 for
"not that"; otherwise it gives how many pieces it used. Kinds are tried in the order of the table; what no kind claims
is free text. Nothing is corrected without a slip noted for the answer, and numbers are never corrected.

The rooms, each of which knows only those before it: ``walk`` (where we are); ``around`` and ``adjectives`` (questions
about the neighbours); ``units``, ``some_plants``, ``numbers``, ``slashes`` and ``heard`` (figures); ``spots``, and the
other matters; ``meanings`` (a word) and ``afterwards`` (what is set right at the end); ``reading``.
"""

from notes_bot.language.senses.crop import stage
from notes_bot.language.senses.reading import sensed

__all__ = ["sensed", "stage"]
