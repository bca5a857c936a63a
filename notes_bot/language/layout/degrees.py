"""Degrees written with a comma: "lat -12,584 long -55,731" is "lat -12.584 long -55.731"."""

from __future__ import annotations

import re

_PAIR = re.compile(
    r"(?P<lat>\blat\w*\.?\s*[:=]?\s*)?(?<![\d.,])(?P<south>-?)(?P<a>\d{1,2}),(?P<b>\d{2,})(?P<ns>\s*°?\s*[NS]?\b)"
    r"(?P<gap>\s*[,;/ ]\s*(?:(?:lon|lng|long)\w*\.?\s*[:=]?\s*)?)"
    r"(?P<west>-?)(?P<c>\d{1,3}),(?P<d>\d{2,})(?![\d.,]\d)(?P<ew>\s*°?\s*[EWO]\b)?",
    re.IGNORECASE,
)
"""A latitude and a longitude behind it, two decimals and more each."""


def degrees_pointed(text: str) -> str:
    """The text with points in the degrees of each pair, nothing else changed: all stands where it stood.

    A pair is told by the word for latitude, by two minus signs, or by the sides of the world.
    """
    if text.count(",") < 2:
        return text
    return _PAIR.sub(_pointed, text)


def _pointed(found: re.Match[str]) -> str:
    sided = found["ns"].strip(" °") != "" and found["ew"] is not None
    if not (found["lat"] or sided or (found["south"] and found["west"])):
        return found[0]
    whole = list(found[0])
    for before in ("a", "c"):
        whole[found.end(before) - found.start()] = "."
    return "".join(whole)
