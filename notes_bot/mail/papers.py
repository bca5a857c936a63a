"""What comes with a mail and may hold a laboratory's table: the mail forwarded, CSV files, PDF files. As lines of text.

A mail may be hostile, so everything is bounded: files, bytes, lines; and a PDF is read by a process of its own that
may use so much memory and time and no more (``pdf_text.py``), and cannot take the service down with it.
"""

from __future__ import annotations

import email
import email.policy
import re
import subprocess
import sys

from notes_bot.mail.opening import attachments_of, decode_bytes, html_text, part_bytes
from notes_bot.mail.pdf_text import MOST_SECONDS
from notes_bot.model import Attachment, Message, Paper

MOST_FILES = 4
MOST_BYTES = 4 * 1024 * 1024
MOST_LINES = 2000
MOST_COLUMNS = 400
"""Characters of a line; a table of a laboratory is narrower."""
MOST_PARTS = 60

_FORWARDED = re.compile(
    r"(?im)^[>\s\-_*]*(?:begin forwarded message|forwarded message|original message|mensaje reenviado|"
    r"mensaje original|mensagem encaminhada|mensagem original|inicio del mensaje reenviado)\b.*$"
)
_FORWARD_SUBJECT = re.compile(r"(?i)\s*(fwd?|rv|enc|wg)\s*:")
_CSV = re.compile(r"(?i)\.(csv|tsv|txt)$")


def papers_of(raw: bytes, message: Message) -> tuple[Paper, ...]:
    """Every readable paper of a mail that could be opened; a file that cannot be read says why."""
    if message.by_text or message.unreadable in ("too_big", "damaged", "encrypted"):
        return ()
    found = []
    body = _body(raw)
    if body and (_FORWARD_SUBJECT.match(message.subject) or _FORWARDED.search(body)):
        found.append(Paper("", _lines(body)))
    files = [(about, data) for about, data in attachments_of(raw) if _kind(about)]
    found += [_paper(about, data) for about, data in files[:MOST_FILES]]
    return tuple(found)


def own_words(text: str) -> str:
    """What stands above a forwarded mail."""
    match = _FORWARDED.search(text)
    return text[: match.start()].rstrip() if match else text


def _kind(about: Attachment) -> str:
    if about.content_type == "application/pdf" or about.name.lower().endswith(".pdf"):
        return "pdf"
    if about.content_type in ("text/csv", "text/tab-separated-values") or _CSV.search(about.name):
        return "csv"
    return ""


def _paper(about: Attachment, data: bytes) -> Paper:
    if len(data) > MOST_BYTES:
        return Paper(about.name, trouble="too_big")
    if _kind(about) == "csv":
        return Paper(about.name, _lines(decode_bytes(data)))
    return _pdf(about.name, data)


def _pdf(name: str, data: bytes) -> Paper:
    """The text of a PDF, laid out as on the page, by a process of its own."""
    try:
        done = subprocess.run(  # our own module, no shell; the file goes in by the pipe
            [sys.executable, "-I", "-m", "notes_bot.mail.pdf_text"],
            input=data,
            capture_output=True,
            timeout=MOST_SECONDS + 5,
            env={},
            check=False,
        )
    except subprocess.TimeoutExpired:
        return Paper(name, trouble="damaged")
    if done.returncode != 0:
        return Paper(name, trouble="damaged")
    lines = _lines(done.stdout.decode("utf-8", "replace"))
    return Paper(name, lines) if any(lines) else Paper(name, trouble="only_pictures")


def _lines(text: str) -> tuple[str, ...]:
    """Lines without quote marks, as many and as long as a table needs."""
    rows = (re.sub(r"^(?:[ \t]*>)+ ?", "", line) for line in text.replace("\r", "\n").split("\n"))
    return tuple([row[:MOST_COLUMNS].rstrip() for row in rows if row.strip()][:MOST_LINES])


def _body(raw: bytes) -> str:
    """The whole text of a mail, what it quotes and forwards included."""
    try:
        whole = email.message_from_bytes(raw, policy=email.policy.compat32)
        parts = [part for _, part in zip(range(MOST_PARTS), whole.walk(), strict=False)]
        for kind in ("text/plain", "text/html"):
            for part in parts:
                if part.get_content_type() == kind and part.get_content_disposition() != "attachment":
                    data = part_bytes(part)[:MOST_BYTES]
                    text = decode_bytes(data, str(part.get_content_charset() or ""))
                    return text if kind == "text/plain" else html_text(text) or ""
    except (ValueError, LookupError, TypeError, AttributeError, RecursionError):
        return ""  # the same mail was opened once already; what cannot be opened twice holds no table
    return ""
