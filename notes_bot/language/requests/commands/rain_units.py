"""Units of rain, and inches in words."""

from __future__ import annotations

import re

from notes_bot.language.lexicon.scan import fold
from notes_bot.language.lexicon.words import anywhere

MM_PER_INCH = 25.4
"""Exact, by definition of the inch."""
MOST_RAIN = 400.0
"""Millimetres of rain told; more was not rain (judgement)."""
_MM = {"mm": 1.0, "cm": 10.0, "in": MM_PER_INCH, '"': MM_PER_INCH}
"""Millimetres of a unit of rain, by its sign."""
_MM_SAID = {"in_millimetres": 1.0, "in_inches": MM_PER_INCH, "in_tenths": 2.54, "in_hundredths": 0.254}
"""Millimetres of a unit of rain, by the manner of the words for it."""
# How many inches, said in words: patterns here and not in the word files, as the order of the words is what is read.
_INCHES = re.compile(
    r"(?:(?P<whole>an?|one|two|three|four|five|\d{1,2}) )?inch(?:es)? (?:and?|n|&) "
    r"(?P<part>(?:an? |one )?(?:half|quarter)|"
    r"three quarters|\w+ tenths?)\b"
    r"|(?:(?P<whole2>an?|one|two|three|four|five|\d{1,2}) and (?P<part2>(?:an? |one )?(?:half|quarter)|three quarters|"
    r"\w+ tenths?) inch)"
    r"|(?:(?P<before>\d{1,2})[ -])?(?P<only>three[ -]quarters?|3/4|half|1/2|quarter|1/4)(?: of)?(?: an?)?[ -]"
    r"(?:inch|in)\b"
    r"|\b(?<!of )(?P<one>an|one) inch\b(?! and| an a)"
)
_WHOLE = {
    "a": 1,
    "an": 1,
    "one": 1,
    "two": 2,
    "three": 3,
    "four": 4,
    "five": 5,
    "six": 6,
    "seven": 7,
    "eight": 8,
    "nine": 9,
}
_PART = {"half": 0.5, "1/2": 0.5, "quarter": 0.25, "1/4": 0.25, "quarters": 0.75}
# The same in Spanish and Portuguese, for the same reason.
_PULGADAS = re.compile(
    r"(?P<many>\d{1,2}|un|una|uma|dos|duas|dois|tres|cuatro|quatro)? ?(?:pulgadas?|polegadas?) (?:y|e) (?:media|meia)\b"
    r"|(?P<part>media|meia|tres cuartos de|tres quartos de|(?:un |um )?(?:cuarto|quarto) de) ?(?:pulgada|polegada)\b"
)
_NUMEROS = {"un": 1, "una": 1, "uma": 1, "dos": 2, "duas": 2, "dois": 2, "tres": 3, "cuatro": 4, "quatro": 4}


def mm_of(unit: str) -> float:
    """Millimetres of a unit of rain, by its sign or a folded word for it in any language; 0 for no unit."""
    return _MM.get(unit) or next((mm for trait, mm in _MM_SAID.items() if unit in anywhere(trait)), 0.0)


def spoken_inches(text: str) -> float:
    """ "An inch and a half", "half an inch", "three quarters of an inch"; 0 when there are none."""
    found = _INCHES.search(text)
    if found is None:
        return _spoken_elsewhere(fold(text))
    if found["one"]:
        return 1.0
    if found["only"]:
        return int(found["before"] or 0) + _PART.get(found["only"], 0.75)
    first, last = (found["part"] or found["part2"]).split(" ")[0], (found["part"] or found["part2"]).split(" ")[-1]
    part = _number_said(first) / 10 if last.startswith("tenth") else _PART[last]
    return _number_said(found["whole"] or found["whole2"] or "1") + part


def _number_said(word: str) -> int:
    """A small number, in figures or in words; 1 for any other word."""
    return _WHOLE.get(word, int(word) if word.isdigit() else 1)


def _spoken_elsewhere(text: str) -> float:
    """ "Media pulgada", "uma polegada e meia" in inches; 0 when there are none."""
    found = _PULGADAS.search(text)
    if found is None:
        return 0.0
    if found["part"]:
        return 0.75 if "tres" in found["part"] else 0.5 if found["part"].startswith("me") else 0.25
    many = found["many"] or "1"
    return _NUMEROS.get(many, int(many) if many.isdigit() else 1) + 0.5
