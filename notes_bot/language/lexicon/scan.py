"""Text to lexemes: words, numbers, dates, stages and signs with their place. No meaning yet, no language yet."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from functools import lru_cache

_SMART = str.maketrans(
    {
        "‘": "'", "’": "'", "‛": "'", "´": "'", "`": "'", "“": '"', "”": '"', "„": '"', "«": '"', "»": '"',
        "–": "-", "—": "-", "‐": "-", "‑": "-", "−": "-", "\u00a0": " ", "\u2009": " ", "\u202f": " ", "\t": " ",
        "×": "x", "…": ".", "\r": "\n", "\x0b": "\n", "\x0c": "\n", "\u2028": "\n", "\u2029": "\n", "\u0085": "\n",
        "½": " ", "\ufe0f": " ", "º": "o", "ª": "a", "，": ",", "。": ".",
    }
)  # fmt: skip

_SIGNS = re.compile(r"[`\t\r\x0b\x0c]")
"""ASCII signs among them."""

_LEXEME = re.compile(
    r"""
    (?P<nl>\n)
  | (?P<space>[ ]+)
  | (?P<quoted>"[^"\n]*")
  | (?P<link>(?:https?://|www\.)\S+|-?\d{1,2}\.\d{3,8}°?[ ]?[,;/ ][ ]?-?\d{1,3}\.\d{3,8}(?!\d)
      |-?\d{1,2}\.\d{2,8}[ ]?°?[ ]?[ns]?[ ]?[,;/ ]?[ ]?-?\d{1,3}\.\d{2,8}[ ]?°?[ ]?[ewo](?!\w)
      |-?\d{1,2}\.\d{2,8}[ ]?/[ ]?-\d{1,3}\.\d{2,8}(?!\d)
      |[\w.+-]{1,64}+@[\w-]{1,64}\.[\w.-]{1,64})
  | (?=[\d+(.])(?:  # figures, which no word is tried for
        (?P<phone>\+?\d{0,2}[ ]?\(?\d{3}\)?[-. ]\d{3}[-. ]\d{4}|\b\d{3}-\d{4}\b)
      | (?P<iso>\d{4}-\d{1,2}-\d{1,2}(?![\d/]))
      | (?P<series>\d{1,4}(?:/\d{1,4}){3}(?![\d/]))
      | (?P<dashed>\d{1,3}(?:-\d{1,3}){3,19}+(?![\d-])|\d{1,3}(?:/\d{1,3}){4,19}+(?![\d/])
          |\d{1,3}-\d{1,3}-\d(?![\d-])|(?:0-\d{1,3}|\d{1,3}-0)-\d{1,3}(?![\d-]))
      | (?P<dmy>\d{1,2}(?P<dsep>[/.-])\d{1,2}(?P=dsep)(?:\d{4}|\d{2})(?![\d/]))
      | (?P<slashed>\d{1,4}/\d{1,4}/\d{1,4}(?![\d/]))
      | (?P<time>\d{1,2}:\d{2}(?:\s?[ap]\.?m\b\.?)?|\d{1,2}h[0-5]\d(?!\w))
      | (?P<dims>\d+\s?x\s?\d+\b)
      | (?P<frac>\d{1,4}/\d{1,4}(?![\d/]))
      | (?P<decimal>(?<!\d[.,])\d+[.,]\d+(?!\d|[.,]\d)|(?<![^\s(:=])[.]\d{1,2}(?![\d.,]))
      | (?P<number>\d+(?:st|nd|rd|th)?\b|\d+)
    )
  | (?P<stage>[vr]\d{1,2}(?:\.\d)?
      (?:[ ]?(?:-|/|to|a|ate|going|going[ ]to|almost|,)[ ]?[vr][ ]?\d{1,2}(?:\.\d)?
      |[-/](?!0)\d{1,2}(?:\.\d)?(?![\dx-]|/\d{1,2}(?![\da-z])))?
      (?:[ ]?-?ish|[+])?(?!\w)|v[ec](?!\w))
  | (?P<soilnum>(?<!\w)(?:ph|k)\d{1,4}(?:[.,]\d+)?(?!\w))
  | (?P<wordnum>[^\W\d_]++\d[\w]*)
  | (?P<word>[^\W\d_]+(?:'[^\W\d_]+)*)
  | (?P<arrow>->|=>)
  | (?P<sign>[^\s\w]|_)
    """,
    re.VERBOSE,
)
"""What the text is cut into. The few words in it (ends of ordinals, "V4 to V5") are part of the shape of a number or
stage and read before any language is known; all others stand in the word files."""


NTH_ENDS = ("st", "nd", "rd", "th")
"""Ends of ordinals in figures; "1º" is scanned as "1th"."""


@dataclass(slots=True)
class Lexeme:
    """One piece of text: ``kind`` is the name of the pattern that found it, ``text`` is folded."""

    kind: str
    text: str
    start: int
    end: int
    spaced: bool = False
    """True when there is a space (or the start of the text or line) before it."""


@lru_cache(maxsize=4096)
def _fold_char(char: str) -> str:
    low = char.lower()
    if len(low) != 1:
        low = low[0]
    plain = unicodedata.normalize("NFKD", low)
    return plain[0] if plain and (plain[0].isalnum() or not low.isspace()) else low


_PLAIN = {number: _fold_char(chr(number)) for number in range(0xC0, 0x180)} | _SMART
"""Accented letters of our languages without their accents, and the signs."""


def clean(text: str) -> str:
    """The text as we count its columns: composed characters, one kind of line end."""
    return unicodedata.normalize("NFC", text.replace("\r\n", "\n").replace("\x00", " "))


@lru_cache(maxsize=4)
def shouted(text: str) -> bool:
    """Is a message written in capitals? Each of its words may ask."""
    return text.isupper()


def fold(text: str) -> str:
    """Lower case without accents or typographic signs, character for character (same length)."""
    if text.isascii() and not _SIGNS.search(text):
        return text.lower()
    low = text.translate(_PLAIN)
    if low.isascii():
        return low.lower()
    return "".join([c.lower() if c.isascii() else _fold_char(c) for c in low])


def scan(text: str) -> list[Lexeme]:
    """Every lexeme of a cleaned text, in order, spaces left out."""
    out: list[Lexeme] = []
    spaced = True
    for match in _LEXEME.finditer(fold(text)):
        kind = match.lastgroup or "sign"
        if kind == "space":
            spaced = True
            continue
        start, end = match.span()
        out.append(Lexeme("dmy" if kind == "dsep" else kind, match.group(), start, end, spaced))
        spaced = kind == "nl"
    degrees = "°" in text and all(re.search(rf"(?<!\d){n}°", text) for n in (1, 2, 3))  # else heat, or a place on earth
    return _nth(out, text, _RAISED + "°" if degrees else _RAISED) if degrees or "ª" in text or "º" in text else out


_RAISED = "ªº"
"""Raised letters of ordinals."""


def _nth(lexemes: list[Lexeme], text: str, letters: str) -> list[Lexeme]:
    """ "1ª planta", "2º", "1° 3, 2° 0": a number and its raised letter are one ordinal; "2ª feira" is a weekday."""
    out: list[Lexeme] = []
    for n, lexeme in enumerate(lexemes):
        before = out[-1] if out else None
        raised = text[lexeme.start : lexeme.end] in letters and not lexeme.spaced
        weekday = n + 1 < len(lexemes) and lexemes[n + 1].text in ("feira", "-")
        if raised and before is not None and before.kind == "number" and before.text.isdigit() and not weekday:
            out[-1] = Lexeme("number", f"{before.text}th", before.start, lexeme.end, before.spaced)
        else:
            out.append(lexeme)
    return out


VOWELS = frozenset("aeiou")
"""Letters that people leave out who write no letter too much."""
_LEFT_OUT = str.maketrans(dict.fromkeys(VOWELS, ""))
_DOUBLED = re.compile(r"(.)\1+", re.DOTALL)


def consonants(word: str) -> str:
    """The first letter and the consonants behind it: "pull" is "pll"."""
    return word[0] + word[1:].translate(_LEFT_OUT)


def bones(word: str) -> str:
    """The first letter and the consonants behind it, doubled ones once: "pulled" and "plld" are both "pld"."""
    return _DOUBLED.sub(r"\1", consonants(word))
