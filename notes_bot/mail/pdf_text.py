"""A PDF on standard input to its text on standard output, laid out as on the page; a process of its own.

Run as ``python -m notes_bot.mail.pdf_text`` by ``papers.py``. It limits itself before it reads: memory, processor
time, no files. Whatever goes wrong in a damaged or hostile file ends this process and nothing else.
"""

from __future__ import annotations

import resource
import sys
from io import BytesIO

MOST_PAGES = 12
MOST_CHARACTERS = 200_000
MOST_SECONDS = 10
MOST_MEMORY = 768 * 1024 * 1024


def text_of(data: bytes) -> str:
    """The text of the first pages."""
    from pypdf import PdfReader  # here, behind the limits

    reader = PdfReader(BytesIO(data), strict=False)
    out: list[str] = []
    size = 0
    for page in reader.pages[:MOST_PAGES]:
        found = page.extract_text(extraction_mode="layout") or ""
        out.append(found)
        size += len(found)
        if size > MOST_CHARACTERS:
            break
    return "\n".join(out)[:MOST_CHARACTERS]


def main() -> None:
    for what, most in (
        (resource.RLIMIT_AS, MOST_MEMORY),
        (resource.RLIMIT_CPU, MOST_SECONDS),
        (resource.RLIMIT_FSIZE, 0),
        (resource.RLIMIT_CORE, 0),
    ):
        resource.setrlimit(what, (most, most))
    sys.stdout.buffer.write(text_of(sys.stdin.buffer.read()).encode("utf-8", "replace"))


if __name__ == "__main__":
    main()
