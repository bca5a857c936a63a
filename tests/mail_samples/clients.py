"""Raw mail as phones, desktop programs, web mail and text-message gateways write it.

Each function gives the whole message as bytes, CRLF line ends, as it would arrive over SMTP. The shapes
(part order, encodings, attribution lines, signatures, quoting) were written down from such programs' mail,
from memory; the values are made up. Same arguments, same bytes: boundaries and ids come from the content.

Common arguments: ``note`` is what the person typed (``\\n`` line ends), ``sender`` and ``to`` are plain
addresses, ``date`` is aware, ``in_reply_to`` is a Message-ID with its brackets, ``quoted`` is the message
being answered (a text, or a :class:`Quoted` that also says who wrote it and when), ``language`` is the
language the program is set to: en, es or pt.
"""

# ruff: noqa: E501 (lines of mail are kept whole)

from __future__ import annotations

import base64
import hashlib
import html
import quopri
import struct
import textwrap
import zlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

JPEG = base64.b64decode(
    "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAA0JCgsKCA0LCgsODg0PEyAVExISEyccHhcgLikxMC4pLSwzOko+MzZGNywtQFdBRkxO"
    "UlNSMj5aYVpQYEpRUk//2wBDAQ4ODhMREyYVFSZPNS01T09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09P"
    "T09PT09PT0//wAARCAAQABgDASIAAhEBAxEB/8QAFgABAQEAAAAAAAAAAAAAAAAABgAF/8QAGxABAAAHAAAAAAAAAAAAAAAAAAIE"
    "BRZTktL/xAAVAQEBAAAAAAAAAAAAAAAAAAABBP/EABgRAQADAQAAAAAAAAAAAAAAAAABEUEC/9oADAMBAAIRAxEAPwDJIrNqWeU3"
    "i5HSK8qlglNIukcVqrq8HUkC/9k="
)
"""A valid 24 x 16 picture: a pale spot on brown."""


def png(width: int = 8, height: int = 8, rgb: tuple[int, int, int] = (120, 86, 52)) -> bytes:
    """A valid PNG of one colour."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    rows = (b"\x00" + bytes(rgb) * width) * height
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")


@dataclass(frozen=True)
class Quoted:
    """The message being answered."""

    text: str
    name: str = "Field notes"
    address: str = ""
    date: datetime | None = None
    subject: str = ""


# --- small parts ------------------------------------------------------------------------------------

_DAYS = {
    "en": ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"),
    "es": ("lun", "mar", "mié", "jue", "vie", "sáb", "dom"),
    "pt": ("seg.", "ter.", "qua.", "qui.", "sex.", "sáb.", "dom."),
}
_LONG_DAYS = {
    "en": ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"),
    "es": ("lunes", "martes", "miércoles", "jueves", "viernes", "sábado", "domingo"),
    "pt": ("segunda-feira", "terça-feira", "quarta-feira", "quinta-feira", "sexta-feira", "sábado", "domingo"),
}
_MONTHS = {
    "en": ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"),
    "es": ("ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sep", "oct", "nov", "dic"),
    "pt": ("jan.", "fev.", "mar.", "abr.", "mai.", "jun.", "jul.", "ago.", "set.", "out.", "nov.", "dez."),
}
_LONG_MONTHS = {
    "en": [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ],
    "es": [
        "enero",
        "febrero",
        "marzo",
        "abril",
        "mayo",
        "junio",
        "julio",
        "agosto",
        "septiembre",
        "octubre",
        "noviembre",
        "diciembre",
    ],
    "pt": [
        "janeiro",
        "fevereiro",
        "março",
        "abril",
        "maio",
        "junho",
        "julho",
        "agosto",
        "setembro",
        "outubro",
        "novembro",
        "dezembro",
    ],
}


def _clock(at: datetime, space: str = " ") -> str:
    """6:02 AM."""
    return f"{at.hour % 12 or 12}:{at:%M}{space}{'AM' if at.hour < 12 else 'PM'}"


def _rfc_date(at: datetime) -> str:
    return f"{_DAYS['en'][at.weekday()]}, {at.day} {_MONTHS['en'][at.month - 1]} {at:%Y %H:%M:%S %z}"


def _mark(*parts: object) -> str:
    return hashlib.sha256("\0".join(map(str, parts)).encode()).hexdigest()


def _id(shape: str, note: str, sender: str, date: datetime) -> str:
    """A Message-ID in the manner of a program; ``shape`` has {h} for hex digits and {d} for the domain."""
    digest = _mark(note, sender, date.isoformat())
    return "<" + shape.format(h=digest, u=_uuid(digest), d=sender.rpartition("@")[2]) + ">"


def _uuid(digest: str) -> str:
    up = digest.upper()
    return f"{up[:8]}-{up[8:12]}-{up[12:16]}-{up[16:20]}-{up[20:32]}"


def _qp(text: str, charset: str = "utf-8") -> str:
    return quopri.encodestring(text.encode(charset)).decode("ascii")


def _b64(data: bytes) -> str:
    text = base64.b64encode(data).decode("ascii")
    return "\n".join(text[i : i + 76] for i in range(0, len(text), 76)) + "\n"


def _header_word(text: str, charset: str = "utf-8") -> str:
    if text.isascii():
        return text
    return f"=?{charset}?B?{base64.b64encode(text.encode(charset)).decode('ascii')}?="


def _box(name: str, address: str) -> str:
    return f"{_header_word(name)} <{address}>" if name else address


def _wire(text: str, charset: str = "utf-8") -> bytes:
    return text.replace("\r\n", "\n").replace("\n", "\r\n").encode(charset)


def _part(content_type: str, body: str, encoding: str = "7bit", extra: str = "") -> str:
    return f"Content-Type: {content_type}\nContent-Transfer-Encoding: {encoding}\n{extra}\n{body}"


def _multipart(boundary: str, parts: Sequence[str], preamble: str = "") -> str:
    out = preamble
    for part in parts:
        out += f"--{boundary}\n{part.rstrip(chr(10))}\n\n"
    return out + f"--{boundary}--\n"


def _quoted(quoted: str | Quoted | None, to: str, date: datetime) -> Quoted | None:
    if quoted is None:
        return None
    if isinstance(quoted, str):
        quoted = Quoted(quoted)
    return Quoted(
        quoted.text.rstrip("\n"),
        quoted.name,
        quoted.address or to,
        quoted.date or (date - timedelta(hours=3, minutes=11)),
        quoted.subject or "Field notes",
    )


def _angle(text: str, mark: str = "> ") -> str:
    return "\n".join((mark + line).rstrip() if line else mark.rstrip() for line in text.split("\n"))


def _threading(in_reply_to: str | None, references: Sequence[str] = ()) -> str:
    if in_reply_to is None:
        return ""
    chain = [*references, in_reply_to] if in_reply_to not in references else list(references)
    return f"In-Reply-To: {in_reply_to}\nReferences: " + "\n ".join(chain) + "\n"


def _html_lines(text: str) -> str:
    return "<br>".join(html.escape(line, quote=False) for line in text.split("\n"))


# --- phones -----------------------------------------------------------------------------------------


def iphone_reply(
    note: str,
    sender: str,
    to: str,
    date: datetime,
    in_reply_to: str | None = None,
    quoted: str | Quoted | None = None,
    *,
    name: str = "",
    subject: str = "",
    references: Sequence[str] = (),
    language: str = "en",
    message_id: str | None = None,
) -> bytes:
    """An iPhone: both parts, signature between note and quote, U+202F before AM, U+FEFF in the quote."""
    q = _quoted(quoted, to, date)
    sign = {"en": "Sent from my iPhone", "es": "Enviado desde mi iPhone", "pt": "Enviado do meu iPhone"}[language]
    plain = f"{note}\n\n{sign}\n"
    rich = f'<div dir="ltr">{_html_lines(note)}</div>'
    rich += f'<br id="lineBreakAtBeginningOfSignature"><div dir="ltr">{sign}</div>'
    if q is not None and q.date is not None:
        on = {
            "en": f"On {_MONTHS['en'][q.date.month - 1]} {q.date.day}, {q.date.year}, at {_clock(q.date, chr(0x202F))}, "
            f"{q.name} <{q.address}> wrote:",
            "es": f"El {q.date.day} {_MONTHS['es'][q.date.month - 1]} {q.date.year}, a la(s) "
            f"{q.date.hour % 12 or 12}:{q.date:%M}\u202f{'a.m.' if q.date.hour < 12 else 'p.m.'}, {q.name} <{q.address}> escribió:",
            "pt": f"Em {q.date.day} de {_MONTHS['pt'][q.date.month - 1]} de {q.date.year}, à(s) {q.date:%H:%M}, "
            f"{q.name} <{q.address}> escreveu:",
        }[language]
        plain += f"\n{_angle(on)}\n> \n> \ufeff{_angle(q.text)[2:]}\n"
        rich += (
            f'<div dir="ltr"><br><blockquote type="cite">{html.escape(on)}<br><br></blockquote></div>'
            f'<blockquote type="cite"><div dir="ltr">\ufeff{_html_lines(q.text)}</div></blockquote>'
        )
    page = (
        '<html><head><meta http-equiv="content-type" content="text/html; charset=utf-8"></head>'
        f'<body dir="auto">{rich}</body></html>'
    )
    boundary = "Apple-Mail-" + _uuid(_mark(note, date))
    head = (
        f"Content-Type: multipart/alternative; boundary={boundary}\nContent-Transfer-Encoding: 7bit\n"
        f"From: {_box(name, sender)}\nMime-Version: 1.0 (1.0)\nDate: {_rfc_date(date)}\n"
        f"Subject: {_header_word(subject or ('Re: ' + q.subject if q else ''))}\n"
        f"Message-Id: {message_id or _id('{u}@{d}', note, sender, date)}\n{_threading(in_reply_to, references)}"
        f"To: {to}\nX-Mailer: iPhone Mail (21F90)\n\n"
    )
    body = _multipart(
        boundary,
        [
            _part("text/plain;\n\tcharset=utf-8", _qp(plain), "quoted-printable"),
            _part("text/html;\n\tcharset=utf-8", _qp(page), "quoted-printable"),
        ],
        "\n",
    )
    return _wire(head + body)


def android_gmail(
    note: str,
    sender: str,
    to: str,
    date: datetime,
    in_reply_to: str | None = None,
    quoted: str | Quoted | None = None,
    *,
    name: str = "",
    subject: str = "",
    references: Sequence[str] = (),
    language: str = "en",
    message_id: str | None = None,
) -> bytes:
    """The same mail service on an Android phone: ``dir="auto"``, otherwise as on the web."""
    return _gmail(note, sender, to, date, in_reply_to, quoted, name, subject, references, language, message_id, "auto")


def samsung(
    note: str,
    sender: str,
    to: str,
    date: datetime,
    in_reply_to: str | None = None,
    quoted: str | Quoted | None = None,
    *,
    name: str = "",
    subject: str = "",
    references: Sequence[str] = (),
    language: str = "en",
    message_id: str | None = None,
) -> bytes:
    """A Samsung phone: base64 parts, the old message unquoted below a dashed line and four header lines."""
    q = _quoted(quoted, to, date)
    sign = {"en": "Sent from my Galaxy", "es": "Enviado desde mi Galaxy", "pt": "Enviado do meu Galaxy"}[language]
    plain = f"{note}\n\n\n{sign}\n"
    rich = (
        f'<div dir="auto">{_html_lines(note)}</div><div><br></div><div id="composer_signature" dir="auto">{sign}</div>'
    )
    if q is not None and q.date is not None:
        bar, frm, when, target, about = {
            "en": ("Original message", "From", "Date", "To", "Subject"),
            "es": ("Mensaje original", "De", "Fecha", "Para", "Asunto"),
            "pt": ("Mensagem original", "De", "Data", "Para", "Assunto"),
        }[language]
        stamp = (
            f"{q.date.month}/{q.date.day}/{q.date:%y}  {_clock(q.date)}  (GMT-06:00) "
            if language == "en"
            else f"{q.date.day}/{q.date.month}/{q.date:%y}  {q.date:%H:%M}  (GMT-06:00) "
        )
        heads = f"{frm}: {q.name} <{q.address}> \n{when}: {stamp}\n{target}: {sender} \n{about}: {q.subject} "
        plain += f"\n\n-------- {bar} --------\n{heads}\n\n{q.text}\n"
        rich += f'<div><br></div><div align="left" dir="auto" style="font-size:100%;color:#000000"><div>-------- {bar} --------</div>'
        rich += "".join(f"<div>{html.escape(line)}</div>" for line in heads.split("\n"))
        rich += f"<div><br></div></div><div>{_html_lines(q.text)}</div>"
    page = f'<html><head><meta http-equiv="Content-Type" content="text/html; charset=UTF-8"></head><body dir="auto">{rich}</body></html>'
    mark = _mark(note, date)
    boundary = f"--_com.samsung.android.email_{int(mark[:12], 16)}"
    head = (
        f"Date: {_rfc_date(date)}\nSubject: {_header_word(subject or ('Re: ' + q.subject if q else ''))}\n"
        f"Message-ID: {message_id or _id('{h:.24}.1@email.android.example', note, sender, date)}\n"
        f"X-Android-Message-ID: <{mark[:24]}@email.android.example>\n{_threading(in_reply_to, references)}"
        f"Importance: normal\nFrom: {_box(name, sender)}\nTo: {to}\nMIME-Version: 1.0\n"
        f'Content-Type: multipart/alternative; boundary="{boundary}"\n\n'
    )
    body = _multipart(
        boundary,
        [
            _part("text/plain; charset=utf-8", _b64(plain.encode()), "base64"),
            _part("text/html; charset=utf-8", _b64(page.encode()), "base64"),
        ],
    )
    return _wire(head + body)


def outlook_phone(
    note: str,
    sender: str,
    to: str,
    date: datetime,
    in_reply_to: str | None = None,
    quoted: str | Quoted | None = None,
    *,
    name: str = "",
    subject: str = "",
    references: Sequence[str] = (),
    language: str = "en",
    message_id: str | None = None,
) -> bytes:
    """Outlook on a phone: an advertising line with a link, a row of underscores, then header lines."""
    get = {"en": "Get Outlook for iOS", "es": "Obtener Outlook para iOS", "pt": "Obter o Outlook para iOS"}[language]
    sign = f"{get}<https://aka.ms/o0ukef>"
    return _outlook(note, sender, to, date, in_reply_to, quoted, name, subject, references, language, message_id, sign)


# --- web and desktop --------------------------------------------------------------------------------


def _hard_wrap(text: str, width: int = 76) -> str:
    return "\n".join(
        "\n".join(textwrap.wrap(line, width, break_long_words=False, break_on_hyphens=False))
        for line in text.split("\n")
    )


def _gmail(
    note: str,
    sender: str,
    to: str,
    date: datetime,
    in_reply_to: str | None,
    quoted: str | Quoted | None,
    name: str,
    subject: str,
    references: Sequence[str],
    language: str,
    message_id: str | None,
    direction: str,
) -> bytes:
    q = _quoted(quoted, to, date)
    plain = _hard_wrap(note) + "\n"
    if direction == "ltr":
        rich = '<div dir="ltr">' + "".join(
            f"<div>{html.escape(line, quote=False) or '<br>'}</div>" for line in note.split("\n")
        )
        rich += "</div>"
    else:
        rich = f'<div dir="auto">{_html_lines(note)}</div>'
    if q is not None and q.date is not None:
        day, month = _DAYS[language][q.date.weekday()], _MONTHS[language][q.date.month - 1]
        on, wrote = {
            "en": (
                f"On {day}, {month} {q.date.day}, {q.date.year} at {_clock(q.date, chr(0x202F))} {q.name}",
                "wrote:",
            ),
            "es": (
                f"El {day}, {q.date.day} {month} {q.date.year} a las {q.date.hour}:{q.date:%M}, {q.name}",
                "escribió:",
            ),
            "pt": (f"Em {day}, {q.date.day} de {month} de {q.date.year} às {q.date:%H:%M}, {q.name}", "escreveu:"),
        }[language]
        address = f"(<{q.address}>)" if language == "es" else f"<{q.address}>"
        plain += "\n" + _hard_wrap(f"{on} {address} {wrote}", 72) + f"\n\n{_angle(q.text)}\n>\n"
        rich += (
            f'<br><div class="gmail_quote gmail_quote_container"><div dir="ltr" class="gmail_attr">{html.escape(on)} '
            f'&lt;<a href="mailto:{q.address}">{q.address}</a>&gt; {wrote}<br></div>'
            '<blockquote class="gmail_quote" style="margin:0px 0px 0px 0.8ex;border-left:1px solid rgb(204,204,204);'
            f'padding-left:1ex">{_html_lines(q.text)}<br>\n</blockquote></div>\n'
        )
    boundary = "000000000000" + _mark(note, date)[:16]
    head = (
        f"MIME-Version: 1.0\n{_threading(in_reply_to, references)}From: {_box(name, sender)}\nDate: {_rfc_date(date)}\n"
        f"Message-ID: {message_id or _id('CA{h:.50}@mail.gmail.example', note, sender, date)}\n"
        f"Subject: {_header_word(subject or ('Re: ' + q.subject if q else ''), 'UTF-8')}\nTo: {to}\n"
        f'Content-Type: multipart/alternative; boundary="{boundary}"\n\n'
    )
    encoding = "7bit" if plain.isascii() else "quoted-printable"
    parts = [
        _part('text/plain; charset="UTF-8"', plain if encoding == "7bit" else _qp(plain), encoding),
        _part('text/html; charset="UTF-8"', _qp(rich), "quoted-printable"),
    ]
    return _wire(head + _multipart(boundary, parts))


def gmail_web(
    note: str,
    sender: str,
    to: str,
    date: datetime,
    in_reply_to: str | None = None,
    quoted: str | Quoted | None = None,
    *,
    name: str = "",
    subject: str = "",
    references: Sequence[str] = (),
    language: str = "en",
    message_id: str | None = None,
) -> bytes:
    """Gmail in a browser: the plain part hard-wrapped, the attribution often broken over two lines."""
    return _gmail(note, sender, to, date, in_reply_to, quoted, name, subject, references, language, message_id, "ltr")


def _outlook(
    note: str,
    sender: str,
    to: str,
    date: datetime,
    in_reply_to: str | None,
    quoted: str | Quoted | None,
    name: str,
    subject: str,
    references: Sequence[str],
    language: str,
    message_id: str | None,
    sign: str,
) -> bytes:
    q = _quoted(quoted, to, date)
    plain = f"{note}\n\n"
    rich = "".join(
        f"<p class=MsoNormal>{html.escape(line, quote=False) or '&nbsp;'}<o:p></o:p></p>\n" for line in note.split("\n")
    )
    if sign:
        plain += f"{sign}\n"
        rich += f"<p class=MsoNormal>{html.escape(sign)}</p>\n"
    if q is not None and q.date is not None:
        frm, sent, target, about = {
            "en": ("From", "Sent", "To", "Subject"),
            "es": ("De", "Enviado el", "Para", "Asunto"),
            "pt": ("De", "Enviada em", "Para", "Assunto"),
        }[language]
        day = _LONG_DAYS[language][q.date.weekday()]
        month = _LONG_MONTHS[language][q.date.month - 1]
        stamp = {
            "en": f"{day}, {month} {q.date.day}, {q.date.year} {_clock(q.date)}",
            "es": f"{day}, {q.date.day} de {month} de {q.date.year} {q.date.hour}:{q.date:%M}",
            "pt": f"{day}, {q.date.day} de {month} de {q.date.year} {q.date:%H:%M}",
        }[language]
        heads = [f"{frm}: {q.name} <{q.address}>", f"{sent}: {stamp}", f"{target}: {sender}", f"{about}: {q.subject}"]
        bar = "________________________________\n" if sign else "\n"
        plain += bar + "\n".join(heads) + f"\n\n{q.text}\n"
        rich += (
            "<div><div style='border:none;border-top:solid #E1E1E1 1.0pt;padding:3.0pt 0in 0in 0in'><p class=MsoNormal>"
        )
        rich += "<br>\n".join(
            f"<b>{html.escape(line.split(':', 1)[0])}:</b>{html.escape(line.split(':', 1)[1])}" for line in heads
        )
        rich += "<o:p></o:p></p></div></div>\n"
        rich += "".join(
            f"<p class=MsoNormal>{html.escape(line) or '&nbsp;'}<o:p></o:p></p>\n" for line in q.text.split("\n")
        )
    page = (
        '<html xmlns:o="urn:schemas-microsoft-com:office:office" xmlns="http://www.w3.org/TR/REC-html40"><head>\n'
        '<meta http-equiv="Content-Type" content="text/html; charset=utf-8">\n'
        '<style><!--\np.MsoNormal, li.MsoNormal\n\t{margin:0in;\n\tfont-size:11.0pt;\n\tfont-family:"Calibri",sans-serif;}\n--></style></head>\n'
        f'<body lang=EN-US link="#0563C1"><div class=WordSection1>\n{rich}</div></body></html>'
    )
    mark = _mark(note, date)
    boundary = f"----=_NextPart_000_{mark[:4].upper()}_01DA{mark[4:8].upper()}.{mark[8:16].upper()}"
    long_id = f"<{mark[:2].upper()}0C{mark.upper():.60}@BN8PR12MB{mark[60:64].upper()}.namprd12.prod.outlook.example>"
    head = (
        f"From: {_box(name, sender)}\nTo: <{to}>\n{_threading(in_reply_to, references)}"
        f"Subject: {_header_word(subject or ({'en': 'RE: ', 'es': 'RE: ', 'pt': 'RES: '}[language] + q.subject if q else ''))}\n"
        f"Date: {_rfc_date(date)}\nMessage-ID: {message_id or long_id}\nMIME-Version: 1.0\n"
        f'Content-Type: multipart/alternative;\n\tboundary="{boundary}"\nX-Mailer: Microsoft Outlook 16.0\n'
        f"Thread-Index: AQ{mark[:26]}==\nContent-Language: {'en-us' if language == 'en' else language}\n\n"
    )
    body = _multipart(
        boundary,
        [
            _part('text/plain;\n\tcharset="utf-8"', _qp(plain), "quoted-printable"),
            _part('text/html;\n\tcharset="utf-8"', _qp(page), "quoted-printable"),
        ],
        "This is a multipart message in MIME format.\n\n",
    )
    return _wire(head + body)


def outlook_desktop(
    note: str,
    sender: str,
    to: str,
    date: datetime,
    in_reply_to: str | None = None,
    quoted: str | Quoted | None = None,
    *,
    name: str = "",
    subject: str = "",
    references: Sequence[str] = (),
    language: str = "en",
    message_id: str | None = None,
    signature: str = "",
) -> bytes:
    """Outlook on a desktop: no mark before the old message but its header lines; a very long Message-ID."""
    return _outlook(
        note, sender, to, date, in_reply_to, quoted, name, subject, references, language, message_id, signature
    )


def thunderbird_flowed(
    note: str,
    sender: str,
    to: str,
    date: datetime,
    in_reply_to: str | None = None,
    quoted: str | Quoted | None = None,
    *,
    name: str = "",
    subject: str = "",
    references: Sequence[str] = (),
    language: str = "en",
    message_id: str | None = None,
    signature: str = "",
) -> bytes:
    """Thunderbird: plain ``format=flowed`` text, soft-wrapped at 72, a signature below ``-- ``."""
    q = _quoted(quoted, to, date)
    lines: list[str] = []
    for line in note.split("\n"):
        wrapped = textwrap.wrap(line, 71, break_long_words=False, break_on_hyphens=False) or [""]
        lines += [soft + " " for soft in wrapped[:-1]] + [wrapped[-1]]
    plain = "\n".join(" " + line if line.startswith((" ", ">", "From ")) else line for line in lines) + "\n"
    if q is not None and q.date is not None:
        on = {
            "en": f"On {q.date.month}/{q.date.day}/{q.date:%y} {q.date:%H:%M}, {q.name} wrote:",
            "es": f"El {q.date.day}/{q.date.month}/{q.date:%y} a las {q.date.hour}:{q.date:%M}, {q.name} escribió:",
            "pt": f"Em {q.date:%d/%m/%Y %H:%M}, {q.name} escreveu:",
        }[language]
        plain += f"\n{on}\n{_angle(q.text)}\n"
    if signature:
        plain += f"\n-- \n{signature}\n"
    head = (
        f"Message-ID: {message_id or _id('{u}@{d}', note, sender, date).lower()}\nDate: {_rfc_date(date)}\nMIME-Version: 1.0\n"
        f"User-Agent: Mozilla Thunderbird\nSubject: {_header_word(subject or ('Re: ' + q.subject if q else ''), 'UTF-8')}\n"
        f"To: {to}\n{_threading(in_reply_to, references)}Content-Language: {language}\nFrom: {_box(name, sender)}\n"
        f"Content-Type: text/plain; charset=UTF-8; format=flowed\nContent-Transfer-Encoding: 8bit\n\n"
    )
    return _wire(head + plain)


def yahoo_phone(
    note: str,
    sender: str,
    to: str,
    date: datetime,
    in_reply_to: str | None = None,
    quoted: str | Quoted | None = None,
    *,
    name: str = "",
    subject: str = "",
    references: Sequence[str] = (),
    language: str = "en",
    message_id: str | None = None,
) -> bytes:
    """Yahoo's phone program: signature, then the attribution and the old text indented by two spaces."""
    q = _quoted(quoted, to, date)
    sign = {
        "en": "Sent from Yahoo Mail on Android",
        "es": "Enviado desde Yahoo Mail con Android",
        "pt": "Enviado do Yahoo Mail no Android",
    }[language]
    plain = f"{note}\n\n{sign} \n"
    rich = f'<div>{_html_lines(note)}</div><br><div id="ymail_android_signature"><a href="https://mail.onelink.example/">{sign}</a></div>'
    if q is not None and q.date is not None:
        day, month = _DAYS[language][q.date.weekday()], _MONTHS[language][q.date.month - 1]
        on = {
            "en": f"On {day}, {month} {q.date.day}, {q.date.year} at {_clock(q.date)}, {q.name}<{q.address}> wrote:",
            "es": f"El {day}, {q.date.day} {month} {q.date.year} a las {q.date.hour}:{q.date:%M}, {q.name}<{q.address}> escribió:",
            "pt": f"Em {day}, {q.date.day} {month} {q.date.year} às {q.date:%H:%M}, {q.name}<{q.address}> escreveu:",
        }[language]
        plain += f" \n  {on}   " + "\n".join(q.text.split("\n")) + "  \n"
        rich += f'<blockquote style="margin: 0 0 20px 0;"><div>{html.escape(on)}</div><div>{_html_lines(q.text)}</div></blockquote>'
    mark = _mark(note, date)
    boundary = f"----=_Part_{int(mark[:5], 16)}_{int(mark[5:12], 16)}.{int(mark[12:22], 16)}"
    head = (
        f"Date: {_rfc_date(date)}\nFrom: {_box(name, sender)}\nTo: {to}\n"
        f"Message-ID: {message_id or '<' + str(int(mark[:8], 16)) + '.' + str(int(mark[8:16], 16)) + '@mail.yahoo.example>'}\n"
        f"{_threading(in_reply_to, references)}Subject: {_header_word(subject or ('Re: ' + q.subject if q else ''))}\nMIME-Version: 1.0\n"
        f'Content-Type: multipart/alternative; \n\tboundary="{boundary}"\nX-Mailer: WebService/1.1.22 YMailNorrin\n\n'
    )
    parts = [
        _part("text/plain; charset=UTF-8", _qp(plain), "quoted-printable"),
        _part("text/html; charset=UTF-8", _qp(rich), "quoted-printable"),
    ]
    return _wire(head + _multipart(boundary, parts))


def plain_terminal(
    note: str,
    sender: str,
    to: str,
    date: datetime,
    in_reply_to: str | None = None,
    quoted: str | Quoted | None = None,
    *,
    name: str = "",
    subject: str = "",
    references: Sequence[str] = (),
    language: str = "en",
    message_id: str | None = None,
) -> bytes:
    """A program without MIME: bare text, no Content-Type, quote marks without an attribution's address."""
    q = _quoted(quoted, to, date)
    body = f"{note}\n"
    if q is not None and q.date is not None:
        word = {"en": "wrote", "es": "escribió", "pt": "escreveu"}[language]
        body += f"\nOn {_rfc_date(q.date)}, {q.name} {word}:\n{_angle(q.text)}\n"
    head = (
        f"Date: {_rfc_date(date)}\nFrom: {_box(name, sender)}\nTo: {to}\n{_threading(in_reply_to, references)}"
        f"Message-ID: {message_id or _id('{h:.20}@{d}', note, sender, date)}\n"
        f"Subject: {_header_word(subject or ('Re: ' + q.subject if q else ''))}\n\n"
    )
    return _wire(head + body)


def html_only(
    note: str,
    sender: str,
    to: str,
    date: datetime,
    in_reply_to: str | None = None,
    quoted: str | Quoted | None = None,
    *,
    name: str = "",
    subject: str = "",
    references: Sequence[str] = (),
    language: str = "en",
    message_id: str | None = None,
) -> bytes:
    """A web form or company mail program that sends HTML alone, with a style sheet in the head."""
    q = _quoted(quoted, to, date)
    rich = "".join(f"<p>{html.escape(line, quote=False) or '&nbsp;'}</p>\n" for line in note.split("\n"))
    if q is not None and q.date is not None:
        word = {"en": "wrote", "es": "escribió", "pt": "escreveu"}[language]
        rich += (
            f"<div>On {q.date:%Y-%m-%d %H:%M}, {html.escape(q.name)} &lt;{q.address}&gt; {word}:</div>"
            f'<blockquote type="cite">{_html_lines(q.text)}</blockquote>\n'
        )
    page = f"<!DOCTYPE html>\n<html><head><style>p {{ margin: 0; }}</style><title>note</title></head>\n<body>\n{rich}</body></html>\n"
    head = (
        f"From: {_box(name, sender)}\nTo: {to}\nDate: {_rfc_date(date)}\nMIME-Version: 1.0\n"
        f"Subject: {_header_word(subject)}\n{_threading(in_reply_to, references)}"
        f"Message-ID: {message_id or _id('{h:.32}@{d}', note, sender, date)}\n"
        'Content-Type: text/html; charset="utf-8"\nContent-Transfer-Encoding: quoted-printable\n\n'
    )
    return _wire(head + _qp(page))


def base64_latin1_spanish(
    note: str,
    sender: str,
    to: str,
    date: datetime,
    in_reply_to: str | None = None,
    quoted: str | Quoted | None = None,
    *,
    name: str = "",
    subject: str = "",
    references: Sequence[str] = (),
    message_id: str | None = None,
) -> bytes:
    """An older program: one ISO-8859-1 part in base64, a subject in the same charset, a Spanish quote."""
    q = _quoted(quoted, to, date)
    body = f"{note}\n"
    if q is not None and q.date is not None:
        body += f"\nEl {q.date:%d/%m/%Y} a las {q.date:%H:%M}, {q.name} escribió:\n{_angle(q.text)}\n"
    data = body.replace("\n", "\r\n").encode("iso-8859-1", "replace")
    head = (
        f"From: {_box(name, sender)}\nTo: {to}\nDate: {_rfc_date(date)}\nMIME-Version: 1.0\n"
        f"Subject: {_header_word(subject, 'ISO-8859-1')}\n{_threading(in_reply_to, references)}"
        f"Message-ID: {message_id or _id('{h:.28}@{d}', note, sender, date)}\n"
        "Content-Type: text/plain; charset=ISO-8859-1\nContent-Transfer-Encoding: base64\n\n"
    )
    return _wire(head + _b64(data))


def quoted_printable(
    note: str,
    sender: str,
    to: str,
    date: datetime,
    *,
    name: str = "",
    subject: str = "",
    charset: str = "windows-1252",
    message_id: str | None = None,
) -> bytes:
    """One quoted-printable part in a Windows charset: curly quotes and dashes as one byte each."""
    head = (
        f"From: {_box(name, sender)}\nTo: {to}\nDate: {_rfc_date(date)}\nMIME-Version: 1.0\n"
        f"Subject: {_header_word(subject)}\nMessage-ID: {message_id or _id('{h:.28}@{d}', note, sender, date)}\n"
        f"Content-Type: text/plain; charset={charset}\nContent-Transfer-Encoding: quoted-printable\n\n"
    )
    return _wire(head + _qp(note + "\n", charset))


def with_photo(
    note: str,
    sender: str,
    to: str,
    date: datetime,
    in_reply_to: str | None = None,
    quoted: str | Quoted | None = None,
    *,
    name: str = "",
    subject: str = "",
    references: Sequence[str] = (),
    language: str = "en",
    message_id: str | None = None,
    photo: bytes = JPEG,
    photo_name: str = "IMG_0412.jpeg",
) -> bytes:
    """A phone with a picture attached: mixed, the text first, then the picture, then the signature as its own part."""
    q = _quoted(quoted, to, date)
    sign = {"en": "Sent from my iPhone", "es": "Enviado desde mi iPhone", "pt": "Enviado do meu iPhone"}[language]
    boundary = "Apple-Mail-" + _uuid(_mark(note, date, "photo"))
    tail = f"\n\n{sign}\n"
    if q is not None:
        tail += f"\n{_angle(q.text)}\n"
    head = (
        f"From: {_box(name, sender)}\nContent-Type: multipart/mixed; boundary={boundary}\nContent-Transfer-Encoding: 7bit\n"
        f"Mime-Version: 1.0 (1.0)\nSubject: {_header_word(subject)}\n{_threading(in_reply_to, references)}"
        f"Message-Id: {message_id or _id('{u}@{d}', note, sender, date)}\nDate: {_rfc_date(date)}\nTo: {to}\n"
        "X-Mailer: iPhone Mail (21F90)\n\n"
    )
    kind = "image/png" if photo.startswith(b"\x89PNG") else "image/jpeg"
    parts = [
        _part("text/plain;\n\tcharset=utf-8", _qp(note + "\n"), "quoted-printable"),
        _part(
            f"{kind};\n\tname={photo_name};\n\tx-apple-part-url={_uuid(_mark(note))}",
            _b64(photo),
            "base64",
            f"Content-Disposition: inline;\n\tfilename={photo_name}\n",
        ),
        _part("text/plain;\n\tcharset=utf-8", _qp(tail), "quoted-printable"),
    ]
    return _wire(head + _multipart(boundary, parts, "\n"))


# --- text messages ----------------------------------------------------------------------------------


def sms_gateway(
    note: str,
    sender: str,
    to: str,
    date: datetime,
    *,
    gateway: str = "sms.gateway.example",
    footer: str = "Reply to this email to answer by text message.",
    message_id: str | None = None,
) -> bytes:
    """A provider that turns text messages into mail: the number as local part, a footer below ``--``.

    ``sender`` is the phone number, such as ``+15155550101``.
    """
    digits = sender.lstrip("+")
    body = f"{note}\n\n--\n{footer}\n"
    head = (
        f'From: "{sender}" <{digits}@{gateway}>\nTo: {to}\nDate: {_rfc_date(date)}\nSubject: Text message from {sender}\n'
        f"MIME-Version: 1.0\nContent-Type: text/plain; charset=utf-8\nContent-Transfer-Encoding: 8bit\n"
        f"Message-ID: {message_id or _id('{h:.24}@' + gateway, note, sender, date)}\n\n"
    )
    return _wire(head + body)


def carrier_gateway(
    note: str,
    sender: str,
    to: str,
    date: datetime,
    *,
    gateway: str = "mms.carrier.example",
    message_id: str | None = None,
) -> bytes:
    """A carrier's own gateway: no subject, the text as an attachment ``text_0.txt`` behind a layout part."""
    boundary = "==" + _mark(note, date)[:20] + "=="
    digits = sender.lstrip("+")
    smil = (
        '<smil><head><layout><root-layout width="100%" height="100%"/></layout></head>'
        '<body><par dur="5000ms"><text src="text_0.txt" region="Text"/></par></body></smil>\n'
    )
    head = (
        f"From: {digits}/TYPE=PLMN@{gateway}\nTo: {to}\nDate: {_rfc_date(date)}\nSubject: \nMIME-Version: 1.0\n"
        f'Message-ID: {message_id or _id("{h:.24}@" + gateway, note, sender, date)}\nContent-Type: multipart/mixed; boundary="{boundary}"\n\n'
    )
    parts = [
        _part('application/smil; charset="utf-8"; name="smil.xml"', _b64(smil.encode()), "base64"),
        _part(
            'text/plain; charset="utf-8"; name="text_0.txt"',
            _b64(note.encode()),
            "base64",
            'Content-Disposition: attachment; filename="text_0.txt"\nContent-ID: <text_0>\n',
        ),
    ]
    return _wire(head + _multipart(boundary, parts))


def carrier_page_gateway(
    note: str,
    sender: str,
    to: str,
    date: datetime,
    *,
    gateway: str = "mms.other-carrier.example",
    message_id: str | None = None,
) -> bytes:
    """Another carrier's gateway: an HTML page of its own advertising first, the text as the last part, logos between."""
    boundary = "----=_Part_" + _mark(note, date)[:16]
    digits = sender.lstrip("+")
    page = (
        '<html><head><title>Picture and video messaging</title></head><body><img src="cid:dottedline" width="600">'
        "<p>This message was sent to you by a phone of our network.</p></body></html>\n"
    )
    head = (
        f"From: {digits}@{gateway}\nTo: {to}\nDate: {_rfc_date(date)}\nMIME-Version: 1.0\n"
        f"Message-ID: {message_id or _id('{h:.24}@' + gateway, note, sender, date)}\n"
        f'Content-Type: multipart/related; type="text/html"; boundary="{boundary}"\n\n'
    )
    parts = [
        _part("text/html; charset=utf-8", page),
        _part(
            "image/gif; name=dottedline.gif",
            _b64(b"GIF89a\x01\x00\x01\x00\x00\x00\x00;"),
            "base64",
            "Content-ID: <dottedline>\n",
        ),
        _part("text/plain; charset=utf-8; name=text_0.txt", _qp(note + "\n"), "quoted-printable", "Content-ID: <0>\n"),
    ]
    return _wire(head + _multipart(boundary, parts))


# --- what must not be answered ----------------------------------------------------------------------


def out_of_office(
    note: str,
    sender: str,
    to: str,
    date: datetime,
    in_reply_to: str | None = None,
    *,
    subject: str = "Automatic reply: Field notes",
) -> bytes:
    """A holiday notice as servers send it."""
    head = (
        f"From: {sender}\nTo: {to}\nSubject: {subject}\nDate: {_rfc_date(date)}\n{_threading(in_reply_to)}"
        f"Message-ID: {_id('{h:.24}@{d}', note, sender, date)}\nAuto-Submitted: auto-replied\nX-Auto-Response-Suppress: All\n"
        "MIME-Version: 1.0\nContent-Type: text/plain; charset=us-ascii\n\n"
    )
    return _wire(head + note + "\n")


def bounce(
    address: str,
    to: str,
    date: datetime,
    message_id: str,
    *,
    status: str = "5.1.1",
    action: str = "failed",
    reason: str = "user unknown",
    reporter: str = "mx.example",
) -> bytes:
    """A delivery report (RFC 3464) about our message ``message_id`` to ``address``."""
    boundary = _mark(address, date, message_id)[:18] + "." + reporter
    head = (
        f"Return-Path: <>\nFrom: MAILER-DAEMON@{reporter} (Mail Delivery System)\nTo: {to}\nDate: {_rfc_date(date)}\n"
        f"Subject: Undelivered Mail Returned to Sender\nAuto-Submitted: auto-replied\nMIME-Version: 1.0\n"
        f"Message-Id: {_id('{h:.12}@' + reporter, address, to, date)}\n"
        f'Content-Type: multipart/report; report-type=delivery-status;\n\tboundary="{boundary}"\n\n'
    )
    parts = [
        _part(
            "text/plain; charset=us-ascii", f"This is the mail system at host {reporter}.\n\n<{address}>: {reason}\n"
        ),
        (
            f"Content-Description: Delivery report\nContent-Type: message/delivery-status\n\nReporting-MTA: dns; {reporter}\n"
            f"Arrival-Date: {_rfc_date(date)}\n\nFinal-Recipient: rfc822; {address}\nAction: {action}\nStatus: {status}\n"
            f"Diagnostic-Code: smtp; 550 {status} {reason}\n"
        ),
        (
            f"Content-Description: Undelivered Message\nContent-Type: message/rfc822\n\nFrom: {to}\nTo: {address}\n"
            f"Subject: Field notes\nMessage-ID: {message_id}\n\ntext\n"
        ),
    ]
    return _wire(head + _multipart(boundary, parts, "This is a MIME-encapsulated message.\n\n"))


REPLYING: dict[str, Callable[..., bytes]] = {
    "iphone": iphone_reply,
    "android_gmail": android_gmail,
    "gmail_web": gmail_web,
    "samsung": samsung,
    "outlook_phone": outlook_phone,
    "outlook_desktop": outlook_desktop,
    "thunderbird_flowed": thunderbird_flowed,
    "yahoo_phone": yahoo_phone,
    "plain_terminal": plain_terminal,
    "html_only": html_only,
}
"""Programs that quote what they answer, by name; all take the same arguments."""
