"""Pages to print: headings, lines and pictures on letter paper, as PDF.

The letters are DejaVu Sans, which comes with matplotlib, so that every name a crew can write has its letters.
"""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from pathlib import Path
from typing import Any

import matplotlib as mpl

from notes_bot.model import Language, Picture

Section = tuple[str, Sequence[str]]
"""A heading (or none) and its lines."""

MARGIN_MM = 16.0
PICTURE_MM = 84.0
GAP_MM = 4.0
INK, SOFT = (28, 30, 29), (86, 90, 87)


def paper(
    title: str,
    blocks: Sequence[tuple[Sequence[Section], Sequence[Picture]]],
    *,
    language: Language,
    foot: str,
    page_word: str,
    one_page: bool = False,
    pictures_first: bool = False,
    heads: Sequence[str] = (),
) -> bytes:
    """A PDF of `blocks`, each a run of sections and the pictures that follow it.

    ``heads``: one heading a block, for a report of several fields. ``pictures_first``: above the text.
    ``one_page`` makes letters and picture smaller
    until all fits on one sheet; a text that fits at no readable size runs on to a second.
    """
    sizes = (10.0, 9.4, 8.8, 8.2, 7.6) if one_page else (9.6,)
    for size in sizes:
        page = _write(
            title, blocks, heads, first=pictures_first, size=size, language=language, foot=foot, page_word=page_word
        )
        fits = page.pages_count == 1 or size == sizes[-1]
        made = bytes(page.output()) if fits else b""
        _close_letters(page)
        if fits:
            break
    return made


def _close_letters(page: Any) -> None:
    """The library keeps the files of its letters open until the collector comes; a service must not."""
    for font in page.fonts.values():
        font.ttfont.close()


def _write(
    title: str,
    blocks: Sequence[tuple[Sequence[Section], Sequence[Picture]]],
    heads: Sequence[str],
    *,
    first: bool,
    size: float,
    language: Language,
    foot: str,
    page_word: str,
) -> Any:
    page = _sheet(language, foot, page_word, title)
    page.set_font("sans", "B", size * 1.5)
    page.set_text_color(*INK)
    page.multi_cell(0, size * 0.66, title, new_x="LMARGIN", new_y="NEXT", align="L")
    page.ln(1.5)
    for number, (sections, pictures) in enumerate(blocks):
        if heads and number < len(heads) and heads[number]:
            if number:
                page.ln(2)
            _keep_room(page, 28 + (_row(page, pictures, size)[1] if first else 0))
            page.set_draw_color(*SOFT)
            page.line(page.l_margin, page.get_y(), page.w - page.r_margin, page.get_y())
            page.ln(1.5)
            page.set_font("sans", "B", size * 1.2)
            page.multi_cell(0, size * 0.56, heads[number], new_x="LMARGIN", new_y="NEXT", align="L")
        if first:
            _pictures(page, pictures, size)
        for heading, lines in sections:
            _section(page, heading, lines, size)
        if not first:
            _pictures(page, pictures, size)
    return page


def _section(page: Any, heading: str, lines: Sequence[str], size: float) -> None:
    step = size * 0.46
    _keep_room(page, 3 * step)
    if heading:
        page.ln(step * 0.45)
        page.set_font("sans", "B", size * 0.9)
        page.set_text_color(*SOFT)
        page.multi_cell(0, step, heading, new_x="LMARGIN", new_y="NEXT", align="L")
    page.set_text_color(*INK)
    page.set_font("sans", "", size)
    for line in lines:
        page.multi_cell(0, step, line, new_x="LMARGIN", new_y="NEXT", align="L")
    page.ln(step * 0.35)


def _pictures(page: Any, pictures: Sequence[Picture], size: float) -> None:
    """Up to three beside each other; each with its words as alternative text."""
    if not pictures:
        return
    beside = min(len(pictures), 3)
    width, _ = _row(page, pictures, size)
    for first in range(0, len(pictures), beside):
        row = pictures[first : first + beside]
        tall = max(width * _height_over_width(picture.png) for picture in row)
        _keep_room(page, tall)
        top = page.get_y()
        for n, picture in enumerate(row):
            left = page.l_margin + n * (width + GAP_MM)
            page.image(BytesIO(picture.png), x=left, y=top, w=width, alt_text=picture.alt)
        page.set_y(top + tall + 3)


def _row(page: Any, pictures: Sequence[Picture], size: float) -> tuple[float, float]:
    """Width of each picture and height of the first row, in millimetres."""
    beside = min(len(pictures), 3)
    if not beside:
        return 0.0, 0.0
    room = page.w - page.l_margin - page.r_margin
    width = min(PICTURE_MM * size / 10.0, (room - GAP_MM * (beside - 1)) / beside)
    return width, max(width * _height_over_width(picture.png) for picture in pictures[:beside])


def _height_over_width(png: bytes) -> float:
    """From the picture's own head (PNG: width and height stand in bytes 16 to 24)."""
    return int.from_bytes(png[20:24], "big") / int.from_bytes(png[16:20], "big")


def _keep_room(page: Any, millimetres: float) -> None:
    """No heading alone at the foot of a page."""
    if page.get_y() + millimetres > page.h - page.b_margin:
        page.add_page()


def _sheet(language: Language, foot: str, page_word: str, title: str) -> Any:
    from fpdf import FPDF  # here, because only few answers carry a page and reading it takes a while

    class Sheet(FPDF):
        def footer(self) -> None:
            self.set_y(-12)
            self.set_font("sans", "", 7)
            self.set_text_color(*SOFT)
            self.cell(0, 4, f"{foot}   {page_word} {self.page_no()}", align="L")

    page = Sheet(format="letter", unit="mm")
    fonts = Path(mpl.get_data_path()) / "fonts" / "ttf"
    page.add_font("sans", "", fonts / "DejaVuSans.ttf")
    page.add_font("sans", "B", fonts / "DejaVuSans-Bold.ttf")
    page.set_margins(MARGIN_MM, MARGIN_MM, MARGIN_MM)
    page.set_auto_page_break(True, margin=16)
    page.set_title(title)
    page.set_lang({"en": "en-US", "es": "es", "pt": "pt-BR"}[language])
    page.add_page()
    return page
