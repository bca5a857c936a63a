"""The pocket card: one printable page a language, half a letter sheet, from ``grammar/card.toml``.

What the card promises is kept by the tests: every line on it is read as a note or a request, without a question.
"""

from __future__ import annotations

import tomllib
from importlib.resources import files
from pathlib import Path
from typing import Any

from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle
from matplotlib.text import Text

from notes_bot.model import LANGUAGES, Language

WIDE, HIGH = 5.5, 8.5
"""Inches: half a letter sheet, so that two print side by side."""
MARGIN = 0.3
LABEL_WIDE = 1.24
"""Inches for what a line is about, before what is sent."""
INK, SOFT, RULE, PAPER = "#1c1e1d", "#4c504d", "#8a8f8b", "#ffffff"
BAND = "#ebece6"
DOTS = 160


def source() -> dict[str, Any]:
    """The card's text as written, by language."""
    return tomllib.loads((files("notes_bot.grammar") / "card.toml").read_text("utf-8"))


def page(language: Language) -> Figure:
    """The card of a language as a figure of 5.5 by 8.5 inches."""
    return _Page(source()[language]).figure


def write(folder: Path) -> list[Path]:
    """A PDF and a PNG a language into a folder; the paths written."""
    folder.mkdir(parents=True, exist_ok=True)
    made = []
    for language in LANGUAGES:
        figure = page(language)
        for ending, kept in (("pdf", {"CreationDate": None}), ("png", {})):
            path = folder / f"pocket-card-{language}.{ending}"
            figure.savefig(path, dpi=DOTS, facecolor=PAPER, metadata=kept)
            made.append(path)
    return made


class _Page:
    """Sets the text from the top of the page down; all measures are inches."""

    def __init__(self, words: dict[str, Any]) -> None:
        self.figure = Figure(figsize=(WIDE, HIGH), dpi=DOTS)
        self.renderer = FigureCanvasAgg(self.figure).get_renderer()  # type: ignore[no-untyped-call]
        self.y = HIGH - MARGIN
        self._flow(words["title"], MARGIN, WIDE - 2 * MARGIN, size=13, weight="bold")
        self.y -= 0.03
        self._flow(words["lead"], MARGIN, WIDE - 2 * MARGIN, size=7.3, colour=SOFT)
        self.y -= 0.07
        self._example(words["example"])
        for block in words["block"]:
            self._block(block)
        self.y -= 0.08
        self._flow(words["foot"], MARGIN, WIDE - 2 * MARGIN, size=6.9, colour=SOFT)
        if self.y < MARGIN / 2:
            raise ValueError(f"the card is {MARGIN / 2 - self.y:.2f} inches too long for its page")

    def _example(self, example: dict[str, Any]) -> None:
        """One whole note, and what each part of it says."""
        top = self.y
        self.y -= 0.07
        self._flow(example["line"], MARGIN + 0.1, WIDE - 2 * MARGIN - 0.2, size=9, weight="bold")
        self.y -= 0.04
        half = (WIDE - 2 * MARGIN - 0.2) * 0.46
        parts = example["parts"]
        start, rows = self.y, (len(parts) + 1) // 2
        for n, (sent, said) in enumerate(parts):
            column, row = divmod(n, rows)
            x, self.y = MARGIN + 0.1 + column * half, start - row * 0.145
            wide = self._put(sent, x, size=7.4, weight="bold")
            self._put("  " + said, x + wide, size=7.4, colour=SOFT)
        self.y = start - rows * 0.145 - 0.05
        self._band(top, self.y)
        self.y -= 0.03

    def _block(self, block: dict[str, Any]) -> None:
        self.y -= 0.07
        self._flow(block["head"], MARGIN, WIDE - 2 * MARGIN, size=9, weight="bold")
        self.y -= 0.01
        self._rule()
        self.y -= 0.025
        for said, ways in block["rows"]:
            self.y -= 0.02
            top = self.y
            self._put(said, MARGIN, size=7.1, colour=SOFT)
            self.y = top
            self._flow(ways, MARGIN + LABEL_WIDE, WIDE - 2 * MARGIN - LABEL_WIDE, size=7.2, keep=" · ")

    # --- ink

    def _text(self, text: str, x: float, size: float, weight: str, colour: str) -> Text:
        return self.figure.text(
            x / WIDE, self.y / HIGH, text, size=size, weight=weight, color=colour, va="top", ha="left"
        )

    def _width(self, text: str, size: float, weight: str) -> float:
        made = self._text(text, 0, size, weight, INK)
        wide = made.get_window_extent(self.renderer).width / self.figure.dpi
        made.remove()
        return float(wide)

    def _put(self, text: str, x: float, size: float, weight: str = "normal", colour: str = INK) -> float:
        """One line; its width."""
        self._text(text, x, size, weight, colour)
        return self._width(text, size, weight)

    def _flow(
        self,
        text: str,
        x: float,
        wide: float,
        size: float,
        weight: str = "normal",
        colour: str = INK,
        keep: str = " ",
    ) -> None:
        """Lines that fit a width, broken at ``keep`` (a way to say a thing is never torn apart)."""
        line = ""
        lines = []
        for part in text.split(keep):
            longer = f"{line}{keep}{part}" if line else part
            if line and self._width(longer, size, weight) > wide:
                lines.append(line + keep.rstrip() if keep.strip() else line)
                line = part
            else:
                line = longer
        for one in (*lines, line):
            self._text(one, x, size, weight, colour)
            self.y -= size * 1.28 / 72

    def _rule(self) -> None:
        ends = (MARGIN / WIDE, 1 - MARGIN / WIDE)
        self.figure.add_artist(Line2D(ends, (self.y / HIGH, self.y / HIGH), color=RULE, linewidth=0.6))

    def _band(self, top: float, bottom: float) -> None:
        corner = (MARGIN / WIDE, bottom / HIGH)
        size = ((WIDE - 2 * MARGIN) / WIDE, (top - bottom) / HIGH)
        self.figure.add_artist(Rectangle(corner, *size, facecolor=BAND, edgecolor="none", zorder=-1))
