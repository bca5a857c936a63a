"""Text messages: what fits in one segment.

A text message carries 160 septets of the GSM 7-bit default alphabet, or 153 in each part of a longer
one; ten characters of the extension table cost two septets and may not be split between parts. One
character outside both tables turns the whole message into 16-bit units (70, or 67 a part), so accents
the alphabet lacks are written without. Source: 3GPP TS 23.038 section 6.2.1, TS 23.040 section 9.2.3.24.
"""

from __future__ import annotations

import unicodedata

BASIC = frozenset(
    "@£$¥èéùìòÇ\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ !\"#¤%&'()*+,-./0123456789:;<=>?"
    "¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿abcdefghijklmnopqrstuvwxyzäöñüà"
)
EXTENSION = frozenset("\f^{}\\[~]|€")
SINGLE, PART = 160, 153

_PLAIN = {
    "’": "'", "‘": "'", "“": '"', "”": '"', "«": '"', "»": '"', "–": "-", "—": "-", "−": "-", "…": "...",
    "·": "-", "•": "-", "×": "x", "≤": "<=", "≥": ">=", "≈": "~", "→": ">", "½": "1/2", "¼": "1/4", "¾": "3/4",
    "°": "", "º": "o", "ª": "a", "µ": "u", "\t": " ", "\u00a0": " ", "\u202f": " ", "ç": "c",
}  # fmt: skip


def plain(text: str) -> str:
    """The text in GSM-7 characters only: ñ, é and ü stay, á becomes a, what has no near letter becomes ``?``."""
    return "".join(_letter(char) for char in unicodedata.normalize("NFC", text))


def septets(text: str) -> int:
    """Length in septets; raises ``ValueError`` on a character GSM-7 does not have."""
    alien = {char for char in text if char not in BASIC and char not in EXTENSION}
    if alien:
        raise ValueError(f"not in GSM-7: {sorted(alien)}")
    return sum(2 if char in EXTENSION else 1 for char in text)


def segments(text: str) -> int:
    """How many text messages the text needs, filling each part without splitting a two-septet character."""
    if septets(text) <= SINGLE:
        return 1
    parts, used = 1, 0
    for char in text:
        cost = 2 if char in EXTENSION else 1
        if used + cost > PART:
            parts, used = parts + 1, 0
        used += cost
    return parts


def shorten(text: str, room: int = SINGLE) -> str:
    """The text made plain and cut at a word so that it fits in ``room`` septets; a cut ends in ``..``."""
    flat = plain(text)
    if septets(flat) <= room:
        return flat
    kept = ""
    for word in flat.split(" "):
        longer = f"{kept} {word}" if kept else word
        if septets(longer) > room - 2:
            break
        kept = longer
    if not kept:  # one endless word
        kept = flat
        while septets(kept) > room - 2:
            kept = kept[:-1]
    return kept.rstrip(" ,;:-(") + ".."


def first_that_fits(choices: list[str], room: int = SINGLE) -> str:
    """The first of several wordings, longest first, that fits; the last one is cut if none does."""
    for choice in choices:
        flat = plain(choice)
        if septets(flat) <= room:
            return flat
    return shorten(choices[-1], room)


def _letter(char: str) -> str:
    if char in BASIC or char in EXTENSION:
        return char
    if char in _PLAIN:
        return _PLAIN[char]
    bare = "".join(part for part in unicodedata.normalize("NFD", char) if not unicodedata.combining(part))
    return bare if bare and all(part in BASIC for part in bare) else "?"
