"""Facts of one note to a Note: a function for each rule of note.lark, then the parts are put together.

``make_note`` (``making.py``) goes over the facts of one note; ``kinds.py`` holds the table of which function reads
which kind of clause (``on_plants`` reads ``plants``). Each takes the ``Page`` of the note, which holds what was told so
far, and the fact, and changes the page. What is said in two ways or cannot be is asked about on the spot, what is
missing or doubtful once the whole note is read (``doubts.py``).

The rooms, each of which knows only those before it: ``page`` (the state of one note); ``around`` (what stands around a
clause) and ``places``; ``again``, ``crop``, ``days``, ``digging``, ``in_words``, ``same``, ``seed``, ``soil`` and
``spray``, each a matter of its own; ``lists`` and ``shades``; ``averages`` and ``outcome``; ``counts``; ``kinds``,
``others``, ``strays`` and ``doubts``; ``making``.
"""

from notes_bot.language.noting.crop import ROOT_WORDS, TOP_WORDS
from notes_bot.language.noting.doubts import says_nothing
from notes_bot.language.noting.making import make_note
from notes_bot.language.noting.page import lead_of

__all__ = ["ROOT_WORDS", "TOP_WORDS", "lead_of", "make_note", "says_nothing"]
