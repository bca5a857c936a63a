"""Which of several guesses at a message's names is meant: the one whose reading makes most sense of the message.

A wrong name leaves traces: a question that nobody raised, a note of nothing, counts without plants, words that nothing
was made of. Each trace weighs what it weighed in the corpora (``learn_names.py``).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from notes_bot.language.lexicon.scan import clean, fold, scan
from notes_bot.language.names.supposing import Guess, learned
from notes_bot.model import Command, Note, Reading

DEAREST = 200.0
"""Guesses that cost more are not read (judgement)."""
SURE = 250.0
"""What no name must cost at least, for a crew with a list to have named a field that is not on it (judgement)."""
UNLIKELY = 150.0
"""What guesses cost at most whose words may be in a name that only the rules found (judgement)."""
MOST_READ = 12
"""Guesses at one message that are read (judgement)."""
MOST_WORK = 3000
"""Lexemes read for all guesses at one message, so that a long one is not read so often (judgement)."""
NO_GUESS = 250.0
"""What it costs to suppose no name where that is no guess of its own (judgement)."""
AS_PLACE = 1.0
"""How much sense is lost by a likely field read as a place of another one (judgement)."""
_OF_A_FIELD = frozenset({"correct", "state", "picture", "history", "lab", "hg", "rotation", "sample"})
_TELLING = frozenset({"field", "correct", "move"})
_ASKING = frozenset({"state", "help", "due", "history"})


def best_reading(
    guesses: list[Guess], size: int, plain: Reading, read: Callable[[tuple[str, ...]], Reading]
) -> Reading:
    """The reading that makes most sense, and asks no more than a plain one that names all it tells of.

    Args:
        guesses: at the names of the message, the likeliest first.
        size: lexemes of the message.
        plain: the reading without any name supposed.
        read: reads the message with these names taken for the crew's fields.
    """
    sure = len(guesses) == 1 and names_of(plain) == {name.lower() for name in guesses[0].names}
    if sure and not plain.problems and not any(note.text for note in plain.notes):
        return plain  # what is put right is left in the text: "roots at Otis were dark, i had white"
    likely = with_none(guesses, MOST_WORK // max(size, 1))
    readings = [(guess, read(guess.names) if guess.names else plain) for guess in likely]
    if plain.notes and not plain.commands and all(note.field for note in plain.notes):
        readings = [pair for pair in readings if len(pair[1].problems) <= len(plain.problems)]
    likeliest = frozenset(map(fold, guesses[0].names))
    return max(readings, key=lambda pair: sense(traces(*pair)) - AS_PLACE * _as_places(pair[1], likeliest))[1]


def _as_places(reading: Reading, names: frozenset[str]) -> int:
    """How many of the likeliest names are read as places of another field."""
    return sum(fold(spot.name or "") in names for note in reading.notes for spot in note.spots)


def names_of(reading: Reading) -> set[str]:
    """The fields a reading tells of."""
    told = [note.field for note in reading.notes] + [c.args.get("field") for c in reading.commands]
    return {name for name in told if name is not None}


def likely_words(guesses: list[Guess]) -> frozenset[str]:
    """All words, folded, of the names of likely guesses."""
    likely = (name for guess in guesses if guess.cost <= UNLIKELY for name in guess.names)
    return frozenset(lexeme.text for name in likely for lexeme in scan(clean(name)))


def with_none(guesses: list[Guess], most: int = MOST_READ) -> list[Guess]:
    """The likeliest guesses, at least one and at most so many, and that there is no name."""
    likely = guesses[: max(1, min(most, MOST_READ))]
    return likely if any(not guess.names for guess in likely) else [*likely, Guess((), NO_GUESS)]


def sense(traces: Mapping[str, float]) -> float:
    """How much sense a reading makes, from its traces."""
    weights = learned().sense
    return sum(weights[name] * value for name, value in traces.items())


def traces(guess: Guess, reading: Reading) -> dict[str, float]:
    """What tells a right guess from a wrong one, by name."""
    notes, commands = reading.notes, reading.commands
    names = [note.field for note in notes if note.field]
    names += [str(c.args[key]) for c in commands for key in ("field", "name") if c.args.get(key)]
    found = {
        "cost": guess.cost / 100,
        "problems": len(reading.problems),
        "any problem": bool(reading.problems),
        "unnamed": sum(note.field is None for note in notes) + sum(map(_wants_field, commands)),
        "told": sum(map(_told, notes)) + sum(len(c.args) + 1 for c in commands) - len(names),
        "names told": len(names),
        "words left": sum(len(note.text.split()) for note in notes) / 3,
        "asked": bool(commands),
        "none supposed": not guess.names,
        "supposed": len(set(map(fold, guess.names))),  # "VARJÃO" above its note and "o Varjão" below are one
        "notes": len(notes),
        "notes of nothing": sum(map(empty, notes)),
        "plants": sum(note.plants is not None for note in notes),
        "outcomes": sum(note.outcome is not None for note in notes),
        "remarks": len(reading.remarks),
        "answers": sum(command.kind == "choose" for command in commands),
        "telling": sum(command.kind in _TELLING for command in commands),
        "asking": sum(command.kind in _ASKING for command in commands),
        "counts without plants": sum(n.females.total is not None and n.plants is None for n in notes),
    }
    return {name: float(value) for name, value in found.items()}


def _wants_field(command: Command) -> bool:
    return command.kind in _OF_A_FIELD and not command.args.get("field")


def empty(note: Note) -> bool:
    """Does a note tell nothing that was found, done or planned?"""
    told = (note.plants, note.outcome, note.stage, note.look_again, note.planted, note.spray)
    return all(value is None for value in told) and not note.tops


def _told(note: Note) -> int:
    """How many data a note holds."""
    soil, females = note.soil, note.females
    single = (
        *(note.field, note.date, note.plants, note.method, note.soaked, note.outcome, note.stage, note.planted),
        *(females.white, females.yellow, females.tan, females.brown, females.total, note.look_again),
        *(soil.moisture, soil.texture, soil.ph, soil.k_ppm, note.too_many or None),
    )
    of_seed = note.variety and (note.variety.name, note.variety.resistance, note.variety.source)
    of_spray = note.spray and (note.spray.what, note.spray.date, note.spray.days_ago, note.spray.entry_hours)
    spots = sum(2 + (spot.females.total is not None) * 5 + (spot.plants is not None) for spot in note.spots)
    several = bool(note.per_plant) + bool(note.roots) + bool(note.tops) + bool(note.mostly)
    return sum(v is not None for v in (*single, *(of_seed or ()), *(of_spray or ()))) + several + spots
