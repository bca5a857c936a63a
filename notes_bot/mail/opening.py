"""Raw bytes to a :class:`~notes_bot.model.Message`: decoded, without quoted history and signature.

Whatever arrives, :func:`open_message` gives a message back; what cannot be read says why in ``unreadable``.
Everything is bounded before it is parsed. Headers are read here rather than by the standard library's
header objects, which raise on some malformed addresses and take quadratic time on others.
"""

from __future__ import annotations

import binascii
import codecs
import email
import email.policy
import hashlib
import logging
import re
import textwrap
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from email.errors import HeaderParseError, MessageError
from email.header import decode_header
from email.message import Message as Part
from email.utils import parsedate_to_datetime
from itertools import islice, pairwise

import quotequail
from flufl.bounce import all_failures
from inscriptis import get_text
from inscriptis.css_profiles import CSS_PROFILES
from inscriptis.html_properties import Display
from inscriptis.model.config import ParserConfig
from inscriptis.model.html_element import HtmlElement
from lxml import etree as lxml_etree  # type: ignore[import-untyped,unused-ignore]
from lxml import html as lxml_html  # type: ignore[import-untyped,unused-ignore]

from notes_bot.model import Attachment, DeliveryNotice, Message

MARKER = "=== notes_bot ==="
"""Where a mail of ours carries this line, an answer to it ends there: what follows is ours, however the
writer's program quoted it. Our mails do without it so far: lines of ours are known from the outbox
(:func:`drop_our_lines`), and a mark like this one costs a line on a small screen."""

LOOP_HEADER = "X-Loop"
"""Our own mails carry it with our address: mail that comes back to us is known by it."""

ADDRESS = re.compile(r"[A-Za-z0-9.!#$%&'*+/=?^_`{|}~-]{1,64}@[A-Za-z0-9-]{1,63}(?:\.[A-Za-z0-9-]{1,63})*")
MESSAGE_ID = re.compile(r"<[\x21-\x3b\x3d\x3f-\x7e]{1,400}>")

MOST_HEADER_BYTES = 64 * 1024
MOST_HEADER_LINES = 200
MOST_ADDRESS_BYTES = 4 * 1024
MOST_BOUNDARIES = 20
MOST_PARTS = 1000
MOST_DEPTH = 12
MOST_HTML = 1024 * 1024
MOST_TEXT = 20_000
"""Characters of a note that are read; a longer one is not a note."""

OLDEST = timedelta(hours=72)
"""Phones out of coverage queue mail: a Date up to this old is believed."""
NEWEST = timedelta(minutes=10)

MOST_ANSWERED = 30
"""Quoted passages with answers between them."""
MOST_WRITTEN = 200_000
"""Characters looked at for the note; what comes after is the history of a long conversation."""

UNREADABLE = {
    "encrypted": "it is encrypted",
    "winmail": "it came as a winmail.dat file",
    "only_pictures": "it holds no text, only files",
    "only_quote": "nothing is written above the quoted message",
    "no_text": "no text could be found in it",
    "empty": "it is empty",
    "too_big": "it has too many parts or too long headers",
    "damaged": "it is damaged",
}
"""Values of ``Message.unreadable`` and what they mean."""

AUTOMATIC = {
    "ourselves": "it came from ourselves",
    "bounce": "it is a report about undelivered mail",
    "auto_reply": "a program sent it",
    "list": "it came through a mailing list",
    "calendar_answer": "a calendar program sent it",
    "robot": "it comes from an address nobody reads",
}
"""Values of ``Message.automatic`` and what they mean."""


logging.getLogger("flufl.bounce").setLevel(logging.CRITICAL)
"""It reports each of its patterns that stumbles over a mail; for us that mail is simply no bounce."""


@dataclass(frozen=True, slots=True)
class Gateway:
    """A service that turns text messages into mail."""

    domain: str
    """Of its From addresses, exact."""
    country: str = "1"
    """Calling code put before numbers of ten digits."""


def open_message(
    raw: bytes,
    *,
    arrived_at: datetime,
    door: str,
    envelope_from: str = "",
    envelope_to: Sequence[str] = (),
    ours: Callable[[str], bool],
    gateways: Sequence[Gateway | str] = (),
) -> Message:
    """The message in ``raw``, as a person wrote it.

    ``door`` is smtp, imap or drop; ``ours`` tells whether an address is one of our own; ``gateways`` turn
    text messages into mail (a domain, or a :class:`Gateway`). Never raises on what strangers may send.
    """
    if door == "drop":
        return _open_text_message(raw, arrived_at, envelope_from, envelope_to)
    heads = read_headers(raw)
    known = tuple(g if isinstance(g, Gateway) else Gateway(g) for g in gateways)
    sender, by_text = _sender(heads, known)
    message_id = _first_id(heads.all("message-id")) or _made_id(raw, heads)
    message = Message(
        sender=sender,
        subject=_subject(heads),
        text="",
        message_id=message_id,
        arrived_at=arrived_at,
        sent_at=_sent_at(heads, arrived_at),
        references=_references(heads),
        by_text=by_text,
        to=tuple(address.lower() for address in envelope_to),
    )
    too_big = heads.too_big or _too_many_parts(raw)
    if too_big:
        automatic = _automatic(heads, None, envelope_from, door, sender, ours)
        return replace(message, automatic=automatic, unreadable="too_big")
    try:
        part = email.message_from_bytes(raw, policy=email.policy.compat32)
        return _open_parts(message, part, heads, envelope_from, door, ours)
    except _RAISED:
        # The standard library and lxml raise these on some malformed mail; the raw bytes stay kept.
        automatic = _automatic(heads, None, envelope_from, door, sender, ours)
        return replace(message, automatic=automatic, unreadable="damaged")


_RAISED = (
    *(MessageError, ValueError, LookupError, TypeError, AttributeError, AssertionError),
    *(RecursionError, MemoryError),
)


def _open_parts(
    message: Message,
    part: Part,
    heads: Headers,
    envelope_from: str,
    door: str,
    ours: Callable[[str], bool],
) -> Message:
    automatic = _automatic(heads, part, envelope_from, door, message.sender, ours)
    found = _Found()
    _collect(part, found, 0)
    notice = _notice(part, heads, envelope_from, door, len(found.seen))
    if notice is not None:
        automatic = "bounce"
    text, why = _text(found, message.by_text)
    if not text and not automatic and why in ("empty", "only_pictures", "only_quote"):
        # Many people write the whole note in the subject.
        subject = message.subject.strip()
        if subject and not _REPLY_SUBJECT.match(subject) and not message.by_text:
            text, why = tidy(subject), ""
    return replace(
        message,
        text=text,
        automatic=automatic,
        unreadable="" if text else why,
        attachments=tuple(attachment for attachment, _ in found.attachments()),
        notice=notice,
    )


_REPLY_SUBJECT = re.compile(r"(?i)\s*(re|aw|sv|fwd?|rv|res|enc)\s*(\[\d+\])?:")


# --- headers ----------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Headers:
    """The header block: names in lower case with their raw values, unfolded, in order."""

    fields: tuple[tuple[str, bytes], ...]
    too_big: bool = False

    def all(self, name: str) -> list[bytes]:
        return [value for found, value in self.fields if found == name]

    def has(self, prefix: str) -> bool:
        return any(found.startswith(prefix) for found, _ in self.fields)

    def text(self, name: str) -> str:
        """The first such header as plain text, or empty."""
        values = self.all(name)
        return values[0].decode("utf-8", "replace").strip() if values else ""


_BLANK = re.compile(rb"\r?\n\r?\n")


def read_headers(raw: bytes) -> Headers:
    """The headers of a message, read in linear time and bounded."""
    window = raw[: MOST_HEADER_BYTES + 4]
    end = _BLANK.search(window)
    if window[:1] == b"\n" or window[:2] == b"\r\n":
        return Headers(())
    too_big = end is None and len(raw) > MOST_HEADER_BYTES
    block = window[: end.start()] if end else window[:MOST_HEADER_BYTES]
    lines = block.replace(b"\r\n", b"\n").split(b"\n")
    if len(lines) > 4 * MOST_HEADER_LINES:
        too_big = True
        lines = lines[: 4 * MOST_HEADER_LINES]
    fields: list[tuple[str, bytearray]] = []
    for line in lines:
        if line[:1] in (b" ", b"\t"):
            if fields:
                fields[-1][1].extend(line)
            continue
        name, colon, value = line.partition(b":")
        name = name.rstrip()
        if colon and name and all(0x21 <= byte <= 0x7E for byte in name):
            fields.append((name.decode("ascii").lower(), bytearray(value)))
    if len(fields) > MOST_HEADER_LINES:
        too_big = True
    for key, long in fields:
        if key in ("from", "sender", "reply-to", "subject", "message-id", "date") and len(long) > MOST_ADDRESS_BYTES:
            too_big = True
            del long[MOST_ADDRESS_BYTES:]
    return Headers(tuple((key, bytes(long)) for key, long in fields), too_big)


_MAILBOX = re.compile(
    r"""\s*(?:"(?P<quoted>(?:[^"\\]|\\.)*)"|(?P<plain>[^<>",;:()]*))\s*<\s*(?P<angle>[^<>\s]+)\s*>\s*(?:\([^()]*\)\s*)?"""
    r"""|\s*(?P<bare>[^<>\s",;:()]+)\s*(?:\((?P<comment>[^()]*)\)\s*)?"""
)


def only_mailbox(values: Sequence[bytes]) -> tuple[str, str]:
    """Name and address when there is exactly one From header with exactly one plain ASCII mailbox; else empty.

    Anything else - several headers, several mailboxes, groups, routes, comments inside the address - can be
    read in more than one way, and must not count as anybody's address.
    """
    if len(values) != 1 or len(values[0]) > MOST_ADDRESS_BYTES:
        return "", ""
    text = values[0].decode("utf-8", "replace")
    match = _MAILBOX.fullmatch(text)
    if match is None:
        return "", ""
    address = match["angle"] or match["bare"] or ""
    if not ADDRESS.fullmatch(address):
        return "", ""
    name = match["quoted"] if match["quoted"] is not None else (match["plain"] or match["comment"] or "")
    return decoded_words(name).strip(), address.lower()


def _sender(heads: Headers, gateways: Sequence[Gateway]) -> tuple[str, bool]:
    """The address, or the number when it came through a text-message gateway; and whether it did."""
    name, address = only_mailbox(heads.all("from"))
    local, _, domain = address.rpartition("@")
    for gateway in gateways:
        if domain and domain == gateway.domain.lower():
            for candidate in (local.partition("/")[0], name):
                number = phone_number(candidate, gateway.country)
                if number:
                    return number, True
            return address, True
    return address, False


def phone_number(text: str, country: str = "1") -> str:
    """A number in international form (``+`` and 7 to 15 digits), or empty when this is no number."""
    digits = re.sub(r"[\s().-]", "", text.strip())
    if not re.fullmatch(r"\+?[0-9]{7,15}", digits) or not digits.isascii():
        return ""
    if digits.startswith("+"):
        return digits
    return f"+{country}{digits}" if len(digits) == 10 else f"+{digits}"


def decoded_words(text: str) -> str:
    """RFC 2047 words decoded; control characters out, so that the result may stand in a header again."""
    try:
        pieces = [
            piece if isinstance(piece, str) else decode_bytes(piece, charset or "")
            for piece, charset in decode_header(text[:MOST_ADDRESS_BYTES])
        ]
        text = "".join(pieces)
    except (HeaderParseError, ValueError, LookupError, binascii.Error, AssertionError):
        pass
    return re.sub(r"[\x00-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff]+", " ", text)


def _subject(heads: Headers) -> str:
    values = heads.all("subject")
    if not values:
        return ""
    text = decode_bytes(values[0], "utf-8")
    return re.sub(r"\s+", " ", decoded_words(text)).strip()[:500]


def _first_id(values: Sequence[bytes]) -> str:
    for value in values:
        match = MESSAGE_ID.search(value.decode("ascii", "replace"))
        if match:
            return match[0]
    return ""


def _made_id(raw: bytes, heads: Headers) -> str:
    """The same message by two ways gets the same id: trace headers differ, these do not."""
    digest = hashlib.sha256()
    for name in ("from", "date", "subject"):
        for value in heads.all(name):
            digest.update(b" ".join(value.split()) + b"\n")
    end = _BLANK.search(raw[: MOST_HEADER_BYTES + 4])
    digest.update(raw[end.end() :].replace(b"\r\n", b"\n") if end else raw)
    return f"<{digest.hexdigest()[:40]}@no-message-id.invalid>"


def _references(heads: Headers) -> tuple[str, ...]:
    found: list[str] = []
    for name in ("references", "in-reply-to"):
        for value in heads.all(name):
            for token in MESSAGE_ID.findall(value.decode("ascii", "replace")):
                if token in found:
                    found.remove(token)
                found.append(token)
    return tuple(found[-50:])


def _sent_at(heads: Headers, arrived_at: datetime) -> datetime | None:
    values = heads.all("date")
    if len(values) != 1:
        return None
    try:
        claimed = parsedate_to_datetime(values[0].decode("ascii", "replace").strip())
        if claimed.tzinfo is None:
            claimed = claimed.replace(tzinfo=UTC)  # -0000: the zone is not known, the instant is UTC
        claimed = claimed.astimezone(UTC)
    except (ValueError, TypeError, IndexError, OverflowError):
        return None
    return claimed if arrived_at - OLDEST <= claimed <= arrived_at + NEWEST else None


# --- may it be answered at all ----------------------------------------------------------------------

_ROBOTS = re.compile(
    r"(?:mailer-daemon|postmaster|no-?reply|do-?not-?reply|nobody|bounces?|listserv|majordomo|.*-(?:request|bounces?|owner))"
    r"(?:[+=].*)?|owner-.*"
)


def _automatic(
    heads: Headers,
    part: Part | None,
    envelope_from: str,
    door: str,
    sender: str,
    ours: Callable[[str], bool],
) -> str:
    """Why this must never be answered (RFC 3834), or empty."""
    loop = heads.text(LOOP_HEADER.lower()).lower()
    if (sender and ours(sender)) or (loop and ours(loop)) or (envelope_from and ours(envelope_from.lower())):
        return "ourselves"
    content_type = part.get_content_type() if part is not None else ""
    null_sender = not envelope_from.strip("<> ") if door == "smtp" else heads.text("return-path") == "<>"
    if content_type == "multipart/report":
        return "bounce"
    submitted = heads.text("auto-submitted").lower().partition(";")[0].strip()
    if submitted and submitted != "no":
        return "auto_reply"
    if any(heads.has(name) for name in ("x-auto-response-suppress", "x-autoreply", "x-autorespond", "x-autoresponse")):
        return "auto_reply"
    if heads.has("list-") or heads.has("mailing-list"):
        return "list"
    precedence = heads.text("precedence").lower()
    if precedence in ("bulk", "list", "junk", "auto_reply"):
        return "list" if precedence == "list" else "auto_reply"
    if part is not None and _calendar_answer(part):
        return "calendar_answer"
    if null_sender:
        return "bounce"
    if _ROBOTS.fullmatch(sender.rpartition("@")[0]):
        return "robot"
    return ""


def _calendar_answer(part: Part) -> bool:
    for count, sub in enumerate(part.walk()):
        if count > MOST_PARTS:
            return False
        if sub.get_content_type() == "text/calendar":
            method = sub.get_param("method")
            if isinstance(method, str) and method.strip().lower() in ("reply", "counter", "refresh"):
                return True
    return False


def _notice(part: Part, heads: Headers, envelope_from: str, door: str, parts: int) -> DeliveryNotice | None:
    """What a bounce says: RFC 3464 first, then the shapes other servers use."""
    if part.get_content_type() == "multipart/report":
        kind = part.get_param("report-type")
        if isinstance(kind, str) and kind.lower() != "delivery-status":
            return None
    null_sender = not envelope_from.strip("<> ") if door == "smtp" else heads.text("return-path") == "<>"
    if part.get_content_type() != "multipart/report" and not null_sender:
        return None
    message_id = _returned_id(part)
    for sub in part.walk():
        if sub.get_content_type() in ("message/delivery-status", "message/global-delivery-status"):
            notice = _status(sub, message_id)
            if notice is not None:
                return notice
    if parts > 30:
        return None
    try:
        soft, hard = all_failures(part)
    except Exception:  # noqa: BLE001 - a collection of patterns over hostile text; what it cannot read is no bounce
        return None
    for addresses, final in ((hard, True), (soft, False)):
        for address in sorted(addresses):
            plain = bytes(address).decode("ascii", "replace")
            if ADDRESS.fullmatch(plain):
                return DeliveryNotice(plain.lower(), message_id, final, "", "")
    return None


def _status(part: Part, message_id: str) -> DeliveryNotice | None:
    blocks = part.get_payload()
    for block in blocks if isinstance(blocks, list) else ():
        if not isinstance(block, Part):
            continue
        recipient = str(block.get("Original-Recipient") or block.get("Final-Recipient") or "")
        match = ADDRESS.search(recipient.partition(";")[2] or recipient)
        if match is None:
            continue
        action = str(block.get("Action") or "").strip().lower()
        code = re.search(r"\b[245]\.\d{1,3}\.\d{1,3}\b", str(block.get("Status") or ""))
        status = code[0] if code else ""
        if action in ("delivered", "relayed", "expanded"):
            continue
        final = action == "failed" or (action != "delayed" and status.startswith("5"))
        reason = tidy(decoded_words(str(block.get("Diagnostic-Code") or "")))[:300]
        return DeliveryNotice(match[0].lower(), message_id, final, status, reason)
    return None


def _returned_id(part: Part) -> str:
    """The Message-ID of the mail that came back, from the copy or the headers of it."""
    for count, sub in enumerate(part.walk()):
        if count > MOST_PARTS:
            break
        if sub.get_content_type() in ("message/rfc822", "text/rfc822-headers", "message/global"):
            inner = sub.get_payload()
            if isinstance(inner, list) and inner and isinstance(inner[0], Part):
                found = MESSAGE_ID.search(str(inner[0].get("Message-ID") or ""))
            else:
                text = decode_bytes(part_bytes(sub), "utf-8")
                found = MESSAGE_ID.search((re.search(r"(?im)^message-id:.*(?:\n[ \t].*)*", text) or [""])[0])
            if found:
                return found[0]
    return ""


# --- parts ------------------------------------------------------------------------------------------


def _too_many_parts(raw: bytes) -> bool:
    """Counted before parsing: the standard library's parser takes quadratic time on such mail."""
    return raw.lower().count(b"boundary=") > MOST_BOUNDARIES or raw.count(b"\n--") > MOST_PARTS


@dataclass(slots=True)
class _Piece:
    kind: str  # plain, html
    text: str
    named: bool = False  # a text part that has a file name
    flowed: bool = False


class _Found:
    """What a walk over the parts found, in reading order."""

    def __init__(self) -> None:
        self.pieces: list[tuple[_Piece, ...]] = []
        """Each entry is one text: the versions of it, as a multipart/alternative gives them."""
        self.files: list[Part] = []
        self.why: list[str] = []
        self.seen: list[str] = []

    def attachments(self) -> Iterator[tuple[Attachment, bytes]]:
        for number, part in enumerate(self.files, start=1):
            data = part_bytes(part)
            yield Attachment(_file_name(part, number), part.get_content_type(), len(data)), data


def _collect(part: Part, found: _Found, depth: int) -> None:
    kind = part.get_content_type()
    found.seen.append(kind)
    if depth > MOST_DEPTH or len(found.seen) > MOST_PARTS:
        found.why.append("too_big")
        return
    if kind == "multipart/encrypted" or kind in ("application/pkcs7-mime", "application/x-pkcs7-mime"):
        found.why.append("encrypted")
        return
    if kind == "application/ms-tnef" or (_file_name(part, 0).lower() == "winmail.dat"):
        found.why.append("winmail")
        found.files.append(part)
        return
    children = part.get_payload()
    if part.is_multipart() and isinstance(children, list) and part.get_content_maintype() == "multipart":
        if kind == "multipart/alternative":
            _collect_alternative(children, found, depth)
            return
        for child in children:
            if isinstance(child, Part):
                _collect(child, found, depth + 1)
        return
    if part.get_content_maintype() == "message" or kind == "text/rfc822-headers":
        found.files.append(part)
        return
    if kind in ("text/plain", "text/html") or (kind == "text/enriched"):
        piece = _piece(part, kind)
        if _is_file(part) and not _GATEWAY_TEXT.fullmatch(_file_name(part, 0)):
            found.files.append(part)
        else:
            found.pieces.append((piece,))
        return
    if kind in ("text/calendar", "application/smil") or _file_name(part, 0).lower().endswith(".smil"):
        return
    if kind.endswith(("pkcs7-signature", "pgp-signature")):
        return
    if kind == "text/vcard" or part.get_content_maintype() != "text" or _is_file(part):
        found.files.append(part)
        return
    found.pieces.append((_piece(part, "text/plain"),))


def _collect_alternative(children: Sequence[object], found: _Found, depth: int) -> None:
    """The versions of one text: kept together, so that the better one can be chosen later."""
    inner = _Found()
    for child in children:
        if isinstance(child, Part):
            _collect(child, inner, depth + 1)
    found.seen += inner.seen
    found.files += inner.files
    found.why += inner.why
    versions = tuple(piece for group in inner.pieces for piece in group)
    if versions:
        found.pieces.append(versions)


_GATEWAY_TEXT = re.compile(r"(?i)text_?[0-9a-z_-]{0,20}\.txt")


def _piece(part: Part, kind: str) -> _Piece:
    charset = part.get_param("charset")
    if isinstance(charset, tuple):
        charset = charset[2]
    text = decode_bytes(part_bytes(part), charset if isinstance(charset, str) else "")
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    flowed = str(part.get_param("format") or "").strip().lower() == "flowed"
    if kind == "text/plain" and flowed:
        text = unflowed(text, delete_space=str(part.get_param("delsp") or "").strip().lower() == "yes")
    named = bool(part.get_filename())
    return _Piece("html" if kind == "text/html" else "plain", text, named, flowed)


def _is_file(part: Part) -> bool:
    disposition = str(part.get("Content-Disposition") or "").strip().lower()
    return disposition.startswith("attachment") or (bool(part.get_filename()) and not disposition.startswith("inline"))


def _file_name(part: Part, number: int) -> str:
    name = part.get_filename()
    plain = decoded_words(str(name)) if name else ""
    plain = re.sub(r"[^\w .()+,-]+", "_", plain.replace("\\", "/").rpartition("/")[2]).strip(" .")[-100:]
    if plain or not number:
        return plain
    extension = {"image/jpeg": ".jpg", "image/png": ".png", "image/heic": ".heic", "message/rfc822": ".eml"}
    return f"file{number}{extension.get(part.get_content_type(), '')}"


def part_bytes(part: Part) -> bytes:
    """The decoded content of a part; damaged base64 gives what can be had of it."""
    children = part.get_payload()
    if isinstance(children, list):
        try:
            return b"".join(sub.as_bytes() for sub in children if isinstance(sub, Part))
        except (MessageError, ValueError, LookupError):
            return b""  # a message inside that cannot be written out again; the raw mail around it is kept
    data = part.get_payload(decode=True)
    return data if isinstance(data, bytes) else b""


_CHARSET = re.compile(
    r"(?:utf-?(?:7|8|16|16le|16be|32)|us-ascii|ascii|iso-?8859-?\d{1,2}|latin-?\d|l1|(?:windows-|cp)(?:125\d|874|437|85\d|1140)"
    r"|koi8-[rut]|mac-?(?:roman|latin2|cyrillic)|macintosh|gb2312|gbk|gb18030|big5(?:-?hkscs)?|shift[_-]?jis"
    r"|euc-?(?:jp|kr|cn)"
    r"|iso-2022-(?:jp|kr)(?:-\d)?|tis-620|hz-gb-2312)"
)


def decode_bytes(data: bytes, charset: str = "") -> str:
    """Text in the charset it claims, else UTF-8, else Windows-1252, else with replacement marks; never fails."""
    name = charset.strip().strip("\"'").lower().replace("_", "-")
    tries = ["utf-8", "cp1252"]
    if name in ("iso-8859-1", "latin1", "latin-1", "l1", "us-ascii", "ascii", ""):
        tries = ["utf-8", "cp1252"] if name in ("us-ascii", "ascii", "") else ["cp1252"]
    elif name == "macintosh":
        tries.insert(0, "mac-roman")
    elif _CHARSET.fullmatch(name):
        tries.insert(0, name)
    for codec in tries:
        try:
            return codecs.decode(data, codec)
        except (UnicodeError, LookupError, ValueError):
            continue
    return data.decode("latin-1" if name.startswith("iso") else "utf-8", "replace")


def unflowed(text: str, *, delete_space: bool = False) -> str:
    """``format=flowed`` text (RFC 3676) with its soft line breaks joined again."""
    out: list[str] = []
    depth_open = -1
    for line in text.split("\n"):
        body = line.lstrip(">")
        depth = len(line) - len(body)
        body = body.removeprefix(" ")
        soft = body.endswith(" ") and body != "-- "
        mark = ">" * depth + " " if depth else ""
        piece = body[:-1] if soft and delete_space else body
        if depth_open == depth and body != "-- ":
            out[-1] += piece
        else:
            out.append(mark + piece)
        depth_open = depth if soft else -1
    return "\n".join(out)


def full_text(raw: bytes) -> str:
    """All that a mail shows as text, quoted lines and their marks included; empty where that cannot be read."""
    try:
        found = _Found()
        _collect(email.message_from_bytes(raw, policy=email.policy.compat32), found, 0)
        shown = []
        for group in found.pieces:
            plain = next((piece.text for piece in group if piece.kind == "plain" and piece.text.strip()), None)
            page = next((piece.text for piece in reversed(group) if piece.kind == "html" and piece.text.strip()), "")
            shown.append(plain if plain is not None else str(get_text(page[:MOST_HTML], _HTML)))
    except (*_RAISED, lxml_etree.LxmlError):
        return ""
    text = "\n".join(shown)[:MOST_WRITTEN].replace("\r\n", "\n")
    return _CONTROLS.sub("", _SPACES.sub(" ", _INVISIBLE.sub("", text)))


# --- choosing the text ------------------------------------------------------------------------------

_CSS = {**CSS_PROFILES["strict"], "p": HtmlElement(display=Display.block)}  # mail programs write each line as a <p>
_HTML = ParserConfig(css=_CSS, display_links=False, display_images=False)


def html_text(source: str) -> str | None:
    """An HTML page as lines of text, quoted messages and marked signatures left out.

    ``None`` when the page has words that could not be brought out: converters give up silently on pages
    nested too deep, and an empty note is not what was sent.
    """
    source = re.sub(r"^\s*<\?xml[^<>]*\?>", "", source[:MOST_HTML])
    if not source.strip():
        return ""
    try:
        tree = lxml_html.document_fromstring(source.encode("utf-8", "replace"), parser=_html_parser())
        cut = False
        for found in list(tree.iter("blockquote", "div", "table", "hr", "p")):
            if _quotes(found):
                cut = True
                _cut_out(found)
            elif found.tag == "p" and len(found) == 0 and (found.text or "").strip(" \n") == "\u00a0":
                found.text = None
                found.append(lxml_etree.Element("br"))  # an empty line, which the converter would drop
        lxml_etree.strip_elements(tree, "style", "script", "head", "title", with_tail=False)
        text = str(get_text(lxml_html.tostring(tree, encoding="unicode"), _HTML))
        if not text.strip() and not cut and _shows_words(source):
            return None
    except (ValueError, TypeError, AttributeError, RecursionError, AssertionError, lxml_etree.LxmlError):
        return None if _shows_words(source) else ""
    return text


def _html_parser() -> lxml_html.HTMLParser:
    return lxml_html.HTMLParser(
        encoding="utf-8", remove_comments=True, remove_pis=True, huge_tree=False, no_network=True
    )


_QUOTE_CLASSES = frozenset(
    [
        "gmail_quote",
        "gmail_quote_container",
        "gmail_extra",
        "yahoo_quoted",
        "moz-cite-prefix",
        "protonmail_quote",
        "zmail_extra",
        "gmail_signature",
        "moz-signature",
    ]
)
_QUOTE_IDS = re.compile(
    r"(?i)(?:x_)*(?:divRplyFwdMsg|appendonsend|mail-editor-reference-message-container|reply-intro)"
)
_SIGNATURE_IDS = re.compile(
    r"(?i)(?:x_)*(?:composer_signature|ymail_android_signature|signature|ms-outlook-mobile-signature)"
)


def _quotes(element: lxml_html.HtmlElement) -> bool:
    if element.tag == "blockquote" and element.get("type", "").lower() == "cite":
        return True
    names = set((element.get("class") or "").split())
    mark = element.get("id") or ""
    return bool(names & _QUOTE_CLASSES) or bool(_QUOTE_IDS.fullmatch(mark) or _SIGNATURE_IDS.fullmatch(mark))


def _cut_out(element: lxml_html.HtmlElement) -> None:
    """Remove an element but keep what follows it; below Outlook's own mark all that follows is quoted too."""
    parent = element.getparent()
    if parent is None:
        return
    if _QUOTE_IDS.fullmatch(element.get("id") or ""):
        for later in list(element.itersiblings()):
            parent.remove(later)
        parent.remove(element)
        return
    before = element.getprevious()
    if element.tail and element.tail.strip():
        if before is not None:
            before.tail = (before.tail or "") + "\n" + element.tail
        else:
            parent.text = (parent.text or "") + "\n" + element.tail
    parent.remove(element)


def _text(found: _Found, by_text: bool) -> tuple[str, str]:
    """The writer's own words, and why there are none."""
    texts: list[str] = []
    html_failed = False
    named_only = [group for group in found.pieces if any(piece.named and piece.kind == "plain" for piece in group)]
    groups = named_only if named_only and by_text else found.pieces
    for group in groups:
        plain = next((piece for piece in group if piece.kind == "plain" and piece.text.strip()), None)
        page = next((piece for piece in reversed(group) if piece.kind == "html" and piece.text.strip()), None)
        if plain is not None and page is not None:
            own = written(plain.text, gateway=by_text)
            if _hard_wrapped(own) and not plain.flowed:
                other = written(html_text(page.text) or "", gateway=by_text)
                own = other if own.split() == other.split() else own
            texts.append(own or plain.text)
        elif plain is not None:
            texts.append(plain.text)
        elif page is not None:
            converted = html_text(page.text)
            html_failed = html_failed or converted is None
            texts.append(converted if converted is not None else "")
            if converted == "" and _shows_words(page.text):
                texts.append(f"{MARKER}\n")  # all of it was a quoted message
    text = written("\n".join(texts), gateway=by_text)[:MOST_TEXT]
    if text:
        return text, ""
    for why in ("encrypted", "winmail", "too_big"):
        if why in found.why:
            return "", why
    if html_failed:
        return "", "no_text"
    if any(text.strip() for text in texts):
        return "", "only_quote"
    return "", "only_pictures" if found.files else "empty"


def _shows_words(page: str) -> bool:
    """Whether there is any word outside the tags of a page, found without parsing it."""
    page = page[:MOST_HTML]
    for tag in ("style", "script", "title"):
        lower, kept, place = page.lower(), [], 0
        while (start := lower.find(f"<{tag}", place)) >= 0 and (end := lower.find(f"</{tag}", start)) >= 0:
            kept.append(page[place:start])
            place = end
        page = "".join(kept) + page[place:]
    return bool(re.sub(r"<[^<>]*>?|&nbsp;|\s+", "", page))


def _hard_wrapped(text: str) -> bool:
    lines = text.split("\n")
    return any(len(line) >= 60 and following.strip() for line, following in pairwise(lines))


# --- the writer's own words -------------------------------------------------------------------------

_INVISIBLE = re.compile(
    r"[\u00ad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180b-\u180e\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u206f\ufe00-\ufe0f\ufeff\ufff9-\ufffb]"
)
_SPACES = re.compile(r"[\t\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]")
_CONTROLS = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff]")


def tidy(text: str) -> str:
    """Odd spaces made plain, invisible and control characters out, line ends ``\\n``, no blank edges."""
    text = (
        text.replace("\r\n", "\n")
        .replace("\r", "\n")
        .replace("\u2028", "\n")
        .replace("\u2029", "\n")
        .replace("\x0c", "\n")
    )
    text = _CONTROLS.sub("", _SPACES.sub(" ", _INVISIBLE.sub("", text)))
    lines = [line.rstrip() for line in text.split("\n")]
    return re.sub(r"\n{3,}", "\n\n", "\n".join(lines)).strip("\n").strip()


_WROTE = r"(?:wrote|escribi[oó]|escreveu|schrieb|a écrit|ha scritto|написал)"
_ATTRIBUTION = re.compile(rf"(?i)^(?:on|el|em|le|am|op|il|no dia)\b.*\b{_WROTE}\s*:?$")
_ATTRIBUTION_ANY = re.compile(rf"(?i)^.*@.*\b{_WROTE}\b[^:]{{0,60}}:?$")
_ATTRIBUTION_AND_TEXT = re.compile(rf"(?i)^(?:on|el|em)\b.*@[^ ]*>?\)?,?\s+{_WROTE}:\s+\S")
_ATTRIBUTION_OLD = re.compile(
    r"(?i)^(?:\d{4}-\d\d-\d\d|\d{1,2}[/.]\d{1,2}[/.]\d{2,4})[ ,]+\d{1,2}:\d\d\b.*<[^<>@\s]+@[^<>\s]+>:?$"
)
_WHEN = re.compile(r"\d{1,2}[:h.]\d\d|\b(?:19|20)\d\d\b|@|\d{1,2}/\d{1,2}/\d\d")
_HEADER_LINE = re.compile(
    r"(?i)^\*{0,2}(from|sent|to|cc|bcc|subject|date|reply-to|importance|attachments"
    r"|de|enviado|enviado el|fecha|para|asunto|enviado em|enviada em|enviada|data|assunto|cco"
    r"|von|gesendet|an|betreff|datum|envoyé|à|objet)\s?:\*{0,2}(\s|$)"
)
_FROM_LINE = re.compile(r"(?i)^\*{0,2}(from|de|von)\s?:")
_ORIGINAL = re.compile(
    r"(?i)^[-_=*\s]{2,}\s*(?:original (?:message|appointment)|mensaje original|mensagem original|forwarded message"
    r"|mensaje reenviado|mensagem encaminhada|reply above this line|ursprüngliche nachricht"
    r"|message d'origine)\s*[-_=*\s]{2,}$"
)
_RULE = re.compile(r"^(?:_{20,}|-{20,}|={20,})$")
_DEVICE_LINE = re.compile(
    r"(?i)^\W{0,3}(?:(?:sent|written)\s+(?:from|via|using|with)\b|get outlook for\b"
    r"|enviado\s+(?:desde|do|de|da|con|com|a partir d[oe]|por|pelo|via)\b"
    r"|(?:obtener|obt[eé]n|descargar?|obter|obtenha|baixar?)\s+(?:o\s+)?outlook para\b"
    r"|von meinem\b.*gesendet|envoyé de\b|yahoo mail:)"
    r"(?=.{0,80}$)(?=.*\b(?:iphone|ipad|ios|android|galaxy|samsung|outlook|yahoo|gmail|mail|smartphone|phone|m[oó]vil"
    r"|celular|mobile|tel[eé]fono|telefone|motorola|moto|pixel|huawei|xiaomi|blackberry|windows|proton|dispositivo"
    r"|device|tablet|at&t|verizon|t-mobile)\b)"
)
_PLACEHOLDER = re.compile(
    r"(?i)^(?:\[(?:image|cid|inline image|imagen|imagem)\s*:[^\]]*\]|<[\w .()-]+\.(?:jpe?g|png|heic|gif|mov|mp4)>"
    r"|\uFFFC+)$"
)
_CONTACT = re.compile(r"@|https?://|www\.|\(?\d{3}\)?[\s.-]\d{3}[\s.-]\d{4}|\+\d[\d\s.-]{8,}")


def written(text: str, *, gateway: bool = False) -> str:
    """What the writer typed this time: quoted history, signature and device line taken off.

    Rules that never lose a note: a line goes only for what surrounds it, never for a word in it. ``gateway``
    is for text messages come as mail, where a provider's footer follows a line of dashes.
    """
    text = text.lstrip("\r\n \t")[:MOST_WRITTEN].replace("\r\n", "\n")
    lines = _CONTROLS.sub("", _SPACES.sub(" ", _INVISIBLE.sub("", text))).split("\n")
    lines = _without_our_part(lines)
    lines = _without_answered(lines)
    lines = _without_header_block(lines)
    lines = _without_signature(lines, gateway)
    lines = [line for line in lines if not _PLACEHOLDER.fullmatch(line.strip())]
    own = tidy("\n".join(lines))
    if own and len(own) < MOST_TEXT:
        own = _by_library(own)
    return own


def _bare(line: str) -> str:
    """A line without its quote marks."""
    return re.sub(r"^(?:\s*>)+\s?", "", line).strip()


def not_said(lines: Sequence[str]) -> set[int]:
    """Places of the lines in which programs say whose message follows: "On Monday somebody wrote:", header blocks."""
    found: set[int] = set()
    rest, gone = list(lines), 0
    for _ in range(MOST_ANSWERED):
        place = _attribution(rest)
        if place is None:
            break
        found.update(range(gone + place[0], gone + place[1]))
        gone += place[1]
        rest = rest[place[1] :]
    run: list[int] = []
    for number, line in enumerate([*lines, ""]):
        bare = _bare(line)
        if _HEADER_LINE.match(bare):
            run.append(number)
            continue
        found.update(run if len(run) >= 3 else ())
        run = []
        if _ORIGINAL.match(bare) or _RULE.match(bare):
            found.add(number)
    return found


def is_quoted(line: str) -> bool:
    return line.lstrip().startswith(">")


def _without_our_part(lines: list[str]) -> list[str]:
    """Cut at our own marker: alone on its line, quoted or not, or run together with what follows."""
    for number, line in enumerate(lines):
        if MARKER in line:
            bare = _bare(line)
            if not bare.startswith(MARKER) and bare != MARKER:
                continue
            if not is_quoted(line):
                return lines[:number]
            end = number
            while end < len(lines) and (is_quoted(lines[end]) or not lines[end].strip()):
                end += 1
            return lines[:number] + lines[end:]
    return lines


def _without_answered(lines: list[str]) -> list[str]:
    """Cut at "On ... wrote:"; when what follows is marked with ``>``, only that goes, and text below it stays."""
    above: list[str] = []
    for _ in range(MOST_ANSWERED):
        place = _attribution(lines)
        if place is None:
            return above + lines
        start, end = place
        following = next((line for line in lines[end:] if line.strip()), "")
        if not (is_quoted(following) or (following and is_quoted(lines[start]))):
            return above + lines[:start]
        while end < len(lines) and (is_quoted(lines[end]) or not lines[end].strip()):
            end += 1
        above += lines[:start]
        lines = lines[end:]
    return above


def _attribution(lines: list[str]) -> tuple[int, int] | None:
    """The lines that say whose message follows: the shortest such sentence, so that no note is joined to it."""
    bare = [_bare(line) for line in lines]
    for joined in (1, 2, 3, 4):
        for start in range(len(lines) - joined + 1):
            block = bare[start : start + joined]
            if all(block) and len(sentence := " ".join(block)) <= 400 and _attributes(sentence):
                return start, start + joined
    return None


def _attributes(sentence: str) -> bool:
    if _ATTRIBUTION_AND_TEXT.match(sentence) or _ATTRIBUTION_OLD.match(sentence):
        return True
    if _ATTRIBUTION.match(sentence):
        return bool(_WHEN.search(sentence))
    return (
        bool(_ATTRIBUTION_ANY.match(sentence))
        and ":" in sentence[-62:]
        and bool(_WHEN.search(sentence.replace("@", "")))
    )


def _without_header_block(lines: list[str]) -> list[str]:
    for number, line in enumerate(lines):
        bare = _bare(line)
        if _ORIGINAL.match(bare):
            return lines[:number]
        if _RULE.match(bare):
            following = list(islice((_bare(later) for later in lines[number + 1 : number + 10] if later.strip()), 2))
            if any(_HEADER_LINE.match(later) for later in following):
                return lines[:number]
        if _FROM_LINE.match(bare):
            run = 0
            while number + run < len(lines) and run < 12 and _HEADER_LINE.match(_bare(lines[number + run])):
                run += 1
            block = " ".join(_bare(later) for later in lines[number : number + run])
            if run >= 3 and _WHEN.search(block):
                return lines[:number]
    return lines


def _without_signature(lines: list[str], gateway: bool) -> list[str]:
    for number, line in enumerate(lines):
        if line == "-- " or (gateway and re.fullmatch(r"\s*[-_]{2,}\s*", line)):
            lines = lines[:number]
            break
        if line.strip() == "--":
            rest = list(islice((later for later in lines[number + 1 :] if later.strip()), 7))
            if len(rest) <= 6 and any(_CONTACT.search(later) for later in rest):
                lines = lines[:number]
                break
    end = len(lines)
    while end and (not lines[end - 1].strip() or _DEVICE_LINE.match(lines[end - 1].strip())):
        end -= 1
    lines = lines[:end]
    # With the answer below the quote the device line stands between: alone between blank lines it goes as well.
    return [
        line
        for number, line in enumerate(lines)
        if not (
            _DEVICE_LINE.match(line.strip())
            and (number == 0 or not lines[number - 1].strip())
            and (number + 1 == len(lines) or not lines[number + 1].strip())
        )
    ]


def _by_library(text: str) -> str:
    """Shapes of other programs and languages, as a library knows them; it must leave some text."""
    try:
        parts = quotequail.unwrap(text)
    except (ValueError, IndexError, TypeError, AttributeError, RecursionError):
        return text
    if not parts or parts.get("type") != "reply":
        return text
    own = "\n".join(str(parts[key]) for key in ("text_top", "text_bottom") if parts.get(key))
    return tidy(own) or text


def drop_our_lines(text: str, sent: str) -> str:
    """The text without lines that stand, quoted or not, in a message we sent (``sent``: its text part).

    For programs that quote without any mark. Short lines may be said by both sides and stay unless quoted.
    """
    told = sent.split("\n")
    cut = [piece for line in told for piece in textwrap.wrap(line, 72, break_long_words=False, break_on_hyphens=False)]
    ours = {_bare(line).casefold() for line in (*told, *cut) if _bare(line)}
    kept = [
        line
        for line in text.split("\n")
        if not (_bare(line).casefold() in ours and (is_quoted(line) or len(_bare(line)) >= 25))
    ]
    return tidy("\n".join(kept))


# --- attachments ------------------------------------------------------------------------------------


def attachments_of(raw: bytes) -> tuple[tuple[Attachment, bytes], ...]:
    """Every file that came with a message, with its bytes, in the order of ``Message.attachments``."""
    if read_headers(raw).too_big or _too_many_parts(raw):
        return ()
    found = _Found()
    try:
        _collect(email.message_from_bytes(raw, policy=email.policy.compat32), found, 0)
        return tuple(found.attachments())
    except _RAISED:
        return ()


# --- text messages from the drop folder -------------------------------------------------------------


def _open_text_message(raw: bytes, arrived_at: datetime, envelope_from: str, envelope_to: Sequence[str]) -> Message:
    """A dropped file: a modem daemon's backup format, headers and a body, or bare text."""
    number, sent_at, text = read_dropped(raw)
    number = number or phone_number(envelope_from) or ""
    if sent_at is not None and not arrived_at - OLDEST <= sent_at <= arrived_at + NEWEST:
        sent_at = None
    text = tidy(text)[:MOST_TEXT]
    digest = hashlib.sha256(f"{number}\n{sent_at.isoformat() if sent_at else arrived_at.date()}\n{text}".encode())
    return Message(
        sender=number,
        subject="",
        text=text,
        message_id=f"<{digest.hexdigest()[:40]}@text-message.invalid>",
        arrived_at=arrived_at,
        sent_at=sent_at,
        by_text=True,
        unreadable="" if text else "empty",
        to=tuple(address.lower() for address in envelope_to),
    )


def read_dropped(raw: bytes) -> tuple[str, datetime | None, str]:
    """Number, time sent and text of a dropped file; number and time may be unknown (empty, ``None``)."""
    if re.match(rb"(?:\s*;[^\n]*\n|\s)*\[SMSBackup\d+\]", raw[:2000]):
        return _read_backup(raw)
    text = decode_bytes(raw.removeprefix(b"\xef\xbb\xbf"), "utf-16" if raw[:2] in (b"\xff\xfe", b"\xfe\xff") else "")
    text = text.replace("\r\n", "\n")
    head, blank, body = text.partition("\n\n")
    fields = (
        dict(re.findall(r"(?im)^(from|date|sent):[ \t]*(.*)$", head))
        if re.match(r"(?i)(from|date|sent):", head)
        else {}
    )
    if not fields:
        return "", None, text
    lower = {name.lower(): value.strip() for name, value in fields.items()}
    sent_at = _instant(lower.get("date") or lower.get("sent") or "")
    return phone_number(lower.get("from", "")), sent_at, body if blank else ""


def _instant(text: str) -> datetime | None:
    for read in (datetime.fromisoformat, parsedate_to_datetime):
        try:
            found = read(text)
            return (found if found.tzinfo else found.replace(tzinfo=UTC)).astimezone(UTC)
        except (ValueError, TypeError, IndexError, OverflowError):
            continue
    return None


def _read_backup(raw: bytes) -> tuple[str, datetime | None, str]:
    """The modem daemon's "detail" format: the text as UTF-16BE in hex, parts of a long message one after another."""
    source = raw.decode("ascii", "replace").replace("\r\n", "\n")
    number, sent_at, texts = "", None, []
    for section in re.split(r"(?m)^\[SMSBackup\d+\]$", source)[1:]:
        # The daemon writes the text as a comment above the fields: of two equal names the later is the field.
        found = dict(re.findall(r"(?m)^(\w+)[ \t]*=[ \t]*\"?([^\"\n]*)\"?[ \t]*$", section))
        number = number or phone_number(found.get("Number", ""))
        if sent_at is None and found.get("DateTime"):
            sent_at = _instant(found["DateTime"])
        digits = "".join(found[key] for key in sorted(found) if re.fullmatch(r"Text\d\d", key))
        try:
            texts.append(bytes.fromhex(digits).decode("utf-16-be", "replace"))
        except ValueError:
            texts.append("")
    return number, sent_at, "".join(texts)
