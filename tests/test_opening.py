"""Raw mail to a message: every client's shape, three languages, and what nobody should send."""

from __future__ import annotations

import base64
import time
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pytest

from notes_bot.mail.opening import (
    MARKER,
    UNREADABLE,
    Gateway,
    attachments_of,
    decode_bytes,
    drop_our_lines,
    open_message,
    phone_number,
    tidy,
    unflowed,
    written,
)
from notes_bot.model import Message
from tests.mail_samples import clients

SENT = datetime(2026, 7, 6, 14, 2, 11, tzinfo=timezone(timedelta(hours=-5)))
ARRIVED = SENT.astimezone(UTC) + timedelta(seconds=20)
US = "notes@crew.example"
SCOUT = "scout@farm.example"
GATEWAYS = ("sms.gateway.example", "mms.carrier.example", Gateway("mms.other-carrier.example"))

OURS = f"""North 40: early white, look again 9-13 Jul

I read: north 40, 5 plants dug, 12 white
What it means: first females are out.

{MARKER}
To correct it, answer with one line.
5 plants dug, 12 white
"""

NOTES = {
    "two fields": "north 40: 5 plants dug, 12 white 3 yellow\nhome: none seen",
    "lines like marks": "- n40 5 dug\n-- home none\n>5 white here\nFrom: the east side\nthanks",
    "lines like attributions": "El campo norte: 5 plantas, 12 blancas 2026\nOn hill 3 2026-07-06: none",
    "one long line": "n40 " + "5 dug, 3 white, " * 12 + "ok",
    "underscores and wrote": "__\nOn 7/5 he wrote: none seen\nDe la loma: 3",
    "numbers only": "5",
    "accents": "raíces: 3 plantas, ½ amarilla, 2 brancas “maçã”",
    "sent from": "sent from field 7: 5 dug none\nenviado do campo 3: nada",
    "a list": "1. north 5 dug 2 white\n2. south 5 dug none\n* east: 3 dug",
    "blank lines": "north 5 dug\n\nsouth 3 dug\n\n\neast none",
    "dashes": "north\n---\nsouth 5 dug",
    "date and subject words": "Date: 7/5\nnorth 40 5 dug\nTo: west as well",
}


def opened(raw: bytes, *, envelope_from: str = SCOUT, door: str = "smtp") -> Message:
    return open_message(
        raw,
        arrived_at=ARRIVED,
        door=door,
        envelope_from=envelope_from,
        envelope_to=[US],
        ours=lambda address: address == US,
        gateways=GATEWAYS,
    )


def mail(body: str | bytes, *heads: str, sender: str = f"From: {SCOUT}") -> bytes:
    """A small message with these extra headers."""
    data = body.encode() if isinstance(body, str) else body
    lines = [sender, "To: notes@crew.example", "Date: Mon, 6 Jul 2026 14:02:11 -0500", *heads]
    return "\r\n".join([*[line for line in lines if line], "", ""]).encode() + data


# --- clients ---


@pytest.mark.parametrize("language", ["en", "es", "pt"])
@pytest.mark.parametrize("client", clients.REPLYING)
@pytest.mark.parametrize("note", NOTES)
def test_only_what_was_typed_this_time_is_left(client: str, language: str, note: str) -> None:
    """Each program, language and tricky note: alone, above our whole mail, and above one without our marker."""
    want = tidy(NOTES[note])
    for quoted in (None, OURS, OURS.replace(MARKER, "")):
        raw = clients.REPLYING[client](
            NOTES[note],
            SCOUT,
            US,
            SENT,
            "<a1@crew.example>" if quoted else None,
            quoted,
            name="First scout",
            language=language,
        )
        message = opened(raw)

        assert message.text == want, (client, language, note, quoted is not None)
        assert message.sender == SCOUT
        assert message.sent_at == SENT
        assert message.references == (("<a1@crew.example>",) if quoted else ())
        assert message.automatic == message.unreadable == ""


def test_a_photo_comes_along_and_the_signature_behind_it_goes() -> None:
    """Text, picture, signature in three parts: one text and one attachment with its bytes."""
    raw = clients.with_photo("north 40 5 dug 3 white", SCOUT, US, SENT)
    message = opened(raw)

    assert message.text == "north 40 5 dug 3 white"
    assert [(a.name, a.content_type, a.size) for a in message.attachments] == [
        ("IMG_0412.jpeg", "image/jpeg", len(clients.JPEG))
    ]
    assert attachments_of(raw) == ((message.attachments[0], clients.JPEG),)


@pytest.mark.parametrize("shape", [clients.base64_latin1_spanish, clients.quoted_printable])
def test_accents_survive_older_encodings(shape: object) -> None:
    """ISO-8859-1 in base64 and Windows-1252 in quoted-printable."""
    raw = shape("raíz: 3 plantas ¿sí? ½", SCOUT, US, SENT)  # type: ignore[operator]

    assert opened(raw).text == "raíz: 3 plantas ¿sí? ½"


@pytest.mark.parametrize("shape", [clients.sms_gateway, clients.carrier_gateway, clients.carrier_page_gateway])
def test_a_text_message_come_as_mail_is_from_a_number(shape: object) -> None:
    """The number is the sender, footers and advertising go, the answer must be one segment."""
    message = opened(shape("n40 5dug 3w", "+15155550101", US, SENT))  # type: ignore[operator]

    assert message.sender == "+15155550101"
    assert message.by_text
    assert message.text == "n40 5dug 3w"


def test_a_number_at_an_unknown_domain_is_just_an_address() -> None:
    """Only configured gateways may speak for numbers."""
    message = opened(mail("n40 5 dug", sender="From: 15155550101@evil.example"))

    assert message.sender == "15155550101@evil.example"
    assert not message.by_text


def test_a_note_in_the_subject_of_an_empty_mail_is_read() -> None:
    """Phones invite it."""
    assert opened(mail("", "Subject: north 40 none seen")).text == "north 40 none seen"
    assert opened(mail("", "Subject: Re: north 40 none seen")).unreadable == "empty"


def test_text_below_the_quote_is_kept() -> None:
    """Some people answer underneath, or in between."""
    raw = mail(
        "On 7/5/26 06:02, Field notes wrote:\n> Look again 9 Jul\n> ok?\nnorth 40 none\n> more of ours\nhome 3 white\n"
    )

    assert opened(raw).text == "north 40 none\n> more of ours\nhome 3 white"


def test_our_own_unmarked_lines_can_be_dropped_when_the_answer_is_known() -> None:
    """For programs that quote without a mark; short lines that both sides may say stay."""
    text = "north 40 none\n\nI read: north 40, 5 plants dug, 12 white\nok\n> 5 plants dug, 12 white"

    assert drop_our_lines(text, OURS + "\nok") == "north 40 none\n\nok"


def test_a_hard_wrapped_line_is_joined_from_the_html_part_only_if_the_words_agree() -> None:
    """The HTML knows where lines end; but hidden words in it must not get into a note."""
    note = "north 40 " + "5 dug 3 white " * 8
    raw = clients.gmail_web(note, SCOUT, US, SENT)

    assert "\n" not in opened(raw).text
    assert "\n" in opened(raw.replace(b"north 40", b"north 4=30", 1).replace(b"<div>north 40", b"<div>south 40")).text


# --- odd mail ---


@pytest.mark.parametrize(
    ("raw", "why"),
    [
        (b"", "empty"),
        (b"\r\n\r\n", "empty"),
        (mail("  \r\n\r\n"), "empty"),
        (mail("x", "Content-Type: multipart/encrypted; boundary=b"), "encrypted"),
        (mail("MIIB", "Content-Type: application/pkcs7-mime; smime-type=enveloped-data"), "encrypted"),
        (mail("eJ8+", "Content-Type: application/ms-tnef; name=winmail.dat"), "winmail"),
        (mail("AAAA", "Content-Type: image/png", "Content-Transfer-Encoding: base64"), "only_pictures"),
        (mail("<html><body><img src=x></body></html>", "Content-Type: text/html"), "empty"),
        (mail("On 7/5/26 06:02, Notes wrote:\r\n> x\r\n"), "only_quote"),
        (mail("x", *[f"X-{n}: y" for n in range(300)]), "too_big"),
        (mail("x", "Subject: " + "y" * 9000), "too_big"),
        (mail("x", "X-Long: " + "y" * 90_000), "too_big"),
        (mail("".join(f"\r\n--b{n}\r\n" for n in range(2000)), "Content-Type: multipart/mixed; boundary=b"), "too_big"),
    ],
)
def test_what_cannot_be_read_says_why(raw: bytes, why: str) -> None:
    """Each with a reason that has words."""
    message = opened(raw)

    assert (message.text, message.unreadable) == ("", why)
    assert why in UNREADABLE


def test_a_signed_message_is_read_like_any_other() -> None:
    """multipart/signed: the text, and the signature is no attachment."""
    raw = mail(
        "--b\r\nContent-Type: text/plain\r\n\r\nnorth 40 none\r\n"
        "--b\r\nContent-Type: application/pgp-signature; name=signature.asc\r\n\r\nxx\r\n--b--\r\n",
        'Content-Type: multipart/signed; boundary=b; protocol="application/pgp-signature"',
    )

    assert opened(raw).text == "north 40 none"
    assert opened(raw).attachments == ()


def test_a_forwarded_message_is_an_attachment_not_a_note() -> None:
    """What somebody else wrote is not this writer's note."""
    raw = mail(
        "--b\r\nContent-Type: text/plain\r\n\r\nsee below\r\n--b\r\nContent-Type: message/rfc822\r\n\r\n"
        "From: x@y.example\r\nSubject: z\r\n\r\nnorth 40 999 white\r\n--b--\r\n",
        "Content-Type: multipart/mixed; boundary=b",
    )
    message = opened(raw)

    assert message.text == "see below"
    assert [a.content_type for a in message.attachments] == ["message/rfc822"]


@pytest.mark.parametrize(
    "charset", ["", "utf-8", "iso-8859-1", "windows-1252", "x-unknown", "us-ascii", "hex", "zip", "\0"]
)
@pytest.mark.parametrize("data", ["año ½".encode(), "año ½".encode("cp1252")])
def test_a_missing_or_wrong_charset_is_guessed(charset: str, data: bytes) -> None:
    """UTF-8 and Windows-1252 bytes come out right whenever the claim leaves room for it; nothing raises."""
    text = decode_bytes(data, charset)

    lied = charset in ("iso-8859-1", "windows-1252") and data == "año ½".encode()
    assert text == ("aÃ±o Â½" if lied else "año ½")


def test_flowed_text_is_joined_and_quotes_keep_their_depth() -> None:
    """RFC 3676: soft breaks, space-stuffing, DelSp, and the signature mark."""
    assert unflowed("one \ntwo\n three\n> a \n> b\n>> c\n-- \nme") == "one two\nthree\n> a b\n>> c\n-- \nme"
    assert unflowed("lon \ng", delete_space=True) == "long"


def test_invisible_characters_and_odd_spaces_are_cleaned() -> None:
    """What looks like a space is one; what cannot be seen is gone."""
    assert tidy("\ufeffnorth\u00a040\u202f5\u200b dug\u00ad\r\nx\x00\x1b[31m") == "north 40 5 dug\nx[31m"


def test_html_with_five_thousand_levels_is_told_not_lost() -> None:
    """Deep nesting makes converters give up silently; that must be noticed."""
    raw = mail("<div>" * 5000 + "north 40 none" + "</div>" * 5000, "Content-Type: text/html")
    message = opened(raw)

    assert message.text == "north 40 none" or message.unreadable == "no_text"


@pytest.mark.parametrize(
    ("name", "raw"),
    [
        ("quotes in From", mail("x", sender="From: " + '"' * 50_000)),
        ("100,000 empty parts", mail("--b\r\n\r\n" * 100_000, "Content-Type: multipart/mixed; boundary=b")),
        (
            "2,000 levels",
            mail("".join(f"--{n}\r\nContent-Type: multipart/mixed; boundary={n + 1}\r\n\r\n" for n in range(2000)),
                 "Content-Type: multipart/mixed; boundary=0"),
        ),
        ("one megabyte of >", mail(">" * 1_000_000)),
        ("many > lines", mail(">\n" * 300_000)),
        ("attributions without end", mail("On 2026 a@b\n" * 50_000)),
        ("many On lines", mail("On Monday 2026 at 10:10 somebody@x.example\n\n" * 20_000)),
        ("answers between quotes", mail("On 7/5/2026 10:10, a@b.example wrote:\n> x\nyes\n" * 5000)),
        ("signature marks", mail("--\n" * 60_000)),
        ("header blocks", mail("From: 1\n" * 25_000)),
        ("blank lines", mail("\n" * 800_000)),
        ("spaces", mail(" " * 800_000 + "x")),
        ("unclosed tags", mail("<a" * 300_000, "Content-Type: text/html")),
        ("tables in tables", mail("<table><tr><td>" * 20_000, "Content-Type: text/html")),
        ("style soup", mail("<style>" * 100_000, "Content-Type: text/html")),
        ("long encoded words", mail("x", "Subject: " + "=?utf-8?q?" * 400)),
        ("parameters", mail("x", "Content-Type: text/plain; " + "; ".join(f"a{n}*{n}*=x" for n in range(5000)))),
        ("boundary lines", mail("\n--x" * 900, "Content-Type: multipart/mixed; boundary=x")),
        ("dots and dashes", mail("-" * 500_000 + "\n" + "_" * 500_000)),
        ("header lines", b"From: a@b.example\n" * 100_000),
        ("no line end", b"x" * 2_000_000),
    ],
)  # fmt: skip
def test_mail_made_to_waste_time_is_over_quickly(name: str, raw: bytes) -> None:
    """Each of these takes seconds or crashes a naive reader; two seconds are plenty on a slow machine."""
    started = time.process_time()
    opened(raw)

    assert time.process_time() - started < 2.0, name


# --- who and when ---


@pytest.mark.parametrize(
    ("line", "sender"),
    [
        ("From: Scout@Farm.example", "scout@farm.example"),
        ('From: "Scout, first" <scout@farm.example>', "scout@farm.example"),
        ("From: scout@farm.example (First scout)", "scout@farm.example"),
        ("From: =?utf-8?q?N=C3=BA=C3=B1ez?= <scout@farm.example>", "scout@farm.example"),
        ("From: supervisor@farm.example <evil@x.example>", "evil@x.example"),
        ('From: "supervisor@farm.example" <evil@x.example>', "evil@x.example"),
        ("From: evil@x.example, scout@farm.example", ""),
        ("From: scout@farm.example\r\nFrom: evil@x.example", ""),
        ("From: <scout@farm.example> <evil@x.example>", ""),
        ("From: scout@farm.example@evil.example", ""),
        ("From: scout@good.example)b@evil.example", ""),
        ("From: group: scout@farm.example;", ""),
        ("From: <@evil.example:scout@farm.example>", ""),
        ("From: scout@f\u0430rm.example", ""),
        ("From: <", ""),
        ('From: "', ""),
        ("From:", ""),
        ("", ""),
        ("From: scout@farm.example\x00", ""),
        ("From: scout\r\n @farm.example", ""),
    ],
)
def test_the_sender_is_exactly_one_plain_address_or_nobody(line: str, sender: str) -> None:
    """Whatever could be read in two ways counts as no sender at all."""
    assert opened(mail("x", sender=line)).sender == sender


@pytest.mark.parametrize(
    ("date", "believed"),
    [
        ("Mon, 6 Jul 2026 14:02:11 -0500", True),
        ("Sat, 4 Jul 2026 14:02:11 -0500", True),
        ("Mon, 6 Jul 2026 19:11:00 -0000", True),
        ("Fri, 3 Jul 2026 14:02:11 -0500", False),
        ("Mon, 6 Jul 2026 14:20:11 -0500", False),
        ("Mon, 6 Jul 2026 14:02:11 +9999", False),
        ("Mon, 6 Jul 99999 14:02:11 +0000", False),
        ("yesterday", False),
        ("", False),
    ],
)
def test_the_date_is_a_claim_checked_against_arrival(date: str, believed: bool) -> None:
    """From three days before arrival to ten minutes after it; anything else is not believed."""
    raw = f"From: {SCOUT}\r\nDate: {date}\r\n\r\nx".encode()

    assert (opened(raw).sent_at is not None) is believed


def test_a_message_without_an_id_gets_the_same_one_by_every_way() -> None:
    """Trace headers differ between two ways; the id made from the content does not."""
    one = mail("north 40 none", "Subject: x")
    other = b"Received: from a by b; Mon\r\nDelivered-To: q@x.example\r\n" + one.replace(b"\r\n", b"\n")

    assert opened(one).message_id == opened(other).message_id
    assert opened(one).message_id != opened(mail("north 41 none", "Subject: x")).message_id


def test_hostile_ids_and_subjects_cannot_become_headers() -> None:
    """Line breaks hidden in encoded words, ids with spaces: cleaned or left out."""
    raw = mail("x", "Subject: =?utf-8?q?a=0D=0ABcc:_evil=40x.example?=", "Message-ID: <a b> <c@d.example>")
    message = opened(raw)

    assert message.subject == "a Bcc: evil@x.example"
    assert message.message_id == "<c@d.example>"


# --- what is never answered ---


@pytest.mark.parametrize(
    ("heads", "why"),
    [
        (("Auto-Submitted: auto-replied",), "auto_reply"),
        (("Auto-Submitted: auto-generated; owner-email=x",), "auto_reply"),
        (("Auto-Submitted: no",), ""),
        (("X-Auto-Response-Suppress: OOF",), "auto_reply"),
        (("Precedence: bulk",), "auto_reply"),
        (("Precedence: list",), "list"),
        (("List-Id: <crew.lists.example>",), "list"),
        (("List-Unsubscribe: <mailto:x@y.example>",), "list"),
        (("X-Loop: notes@crew.example",), "ourselves"),
        (("Content-Type: multipart/report; report-type=disposition-notification; boundary=b",), "bounce"),
        (("Content-Type: text/calendar; method=REPLY",), "calendar_answer"),
        ((), ""),
    ],
)
def test_programs_lists_and_ourselves_are_recognised(heads: tuple[str, ...], why: str) -> None:
    """RFC 3834 and its customs."""
    assert opened(mail("x", *heads)).automatic == why


@pytest.mark.parametrize(
    ("sender", "envelope", "why"),
    [
        ("MAILER-DAEMON@mx.example", SCOUT, "robot"),
        ("no-reply@shop.example", SCOUT, "robot"),
        ("crew-request@lists.example", SCOUT, "robot"),
        ("owner-crew@lists.example", SCOUT, "robot"),
        (US, SCOUT, "ourselves"),
        (SCOUT, US, "ourselves"),
        (SCOUT, "", "bounce"),
        ("notary@farm.example", SCOUT, ""),
    ],
)
def test_addresses_nobody_reads_are_recognised(sender: str, envelope: str, why: str) -> None:
    """The null sender, ourselves, and local parts of robots."""
    assert opened(mail("x", sender=f"From: {sender}"), envelope_from=envelope).automatic == why


@pytest.mark.parametrize(
    ("action", "status", "final"),
    [("failed", "5.1.1", True), ("failed", "4.4.7", True), ("delayed", "4.4.1", False)],
)
def test_a_bounce_tells_who_which_mail_and_whether_it_is_final(action: str, status: str, final: bool) -> None:
    """RFC 3464; an expired queue reports 4.x and is final all the same."""
    raw = clients.bounce(SCOUT, US, SENT, "<a1@crew.example>", status=status, action=action)
    message = opened(raw, envelope_from="")

    assert message.automatic == "bounce"
    assert message.notice is not None
    assert (message.notice.address, message.notice.message_id) == (SCOUT, "<a1@crew.example>")
    assert (message.notice.final, message.notice.status) == (final, status)
    assert "user unknown" in message.notice.reason


def test_a_bounce_of_another_shape_is_recognised_too() -> None:
    """A server that does not speak RFC 3464, here qmail's words."""
    body = (
        "Hi. This is the qmail-send program at mx.example.\nI'm afraid I wasn't able to deliver your message to the\n"
        "following addresses. This is a permanent error; I've given up.\nSorry it didn't work out.\n\n"
        "<scout@farm.example>:\nuser does not exist, but will deliver to /x\n\n"
        "--- Below this line is a copy of the message.\n"
    )
    message = opened(mail(body, sender="From: MAILER-DAEMON@mx.example"), envelope_from="")

    assert message.notice is not None
    assert message.notice.address == SCOUT
    assert message.notice.final


# --- the drop folder ---


def test_a_file_of_the_modem_daemon_is_a_text_message() -> None:
    """The detail format, a long message in two parts, as the daemon writes it."""

    def part(number: int, text: str) -> str:
        digits = text.encode("utf-16-be").hex().upper()
        lines = [digits[i : i + 200] for i in range(0, len(digits), 200)]
        texts = "\n".join(f"Text{n:02} = {line}" for n, line in enumerate(lines))
        return (
            f"[SMSBackup00{number}]\nPDU = Deliver\nDateTime = 20260706T190000Z\nState = UnRead\n"
            'Number = "+15155550101"\n'
            f"UDH = 0500037B020{number + 1}\n{texts}\nCoding = Default_No_Compression\n"
        )

    raw = (part(0, "north 40 5 dug 3 white, " + "x" * 60) + "\n" + part(1, "home none sí")).encode()
    message = open_message(raw, arrived_at=ARRIVED, door="drop", ours=lambda _: False)

    assert message.sender == "+15155550101"
    assert message.text == "north 40 5 dug 3 white, " + "x" * 60 + "home none sí"
    assert message.by_text
    assert message.sent_at == datetime(2026, 7, 6, 19, 0, tzinfo=UTC)


def test_a_dropped_file_may_be_headers_and_text_or_text_alone() -> None:
    """The two plain shapes; the number of a bare text comes with the envelope (from the file's name)."""
    headed = open_message(
        b"From: +1 515 555 0101\nDate: 2026-07-06T18:59:00Z\n\nnorth none\n",
        arrived_at=ARRIVED,
        door="drop",
        ours=lambda _: False,
    )
    bare = open_message(
        b"north none", arrived_at=ARRIVED, door="drop", envelope_from="+15155550101", ours=lambda _: False
    )

    assert (headed.sender, headed.text) == (bare.sender, bare.text) == ("+15155550101", "north none")
    assert headed.sent_at == datetime(2026, 7, 6, 18, 59, tzinfo=UTC)
    assert bare.sent_at is None


def test_numbers_are_read_in_international_form_only_when_they_are_numbers() -> None:
    """Ten digits get the gateway's country; letters, too few or foreign digits are no number."""
    assert phone_number("(515) 555-0101") == "+15155550101"
    assert phone_number("+55 11 5555 0101") == "+551155550101"
    assert phone_number("15155550101") == "+15155550101"
    for text in ("555", "call me", "+1515555010x", "٥١٥٥٥٥٠١٠١", ""):
        assert phone_number(text) == ""


def test_every_shipped_demo_message_opens() -> None:
    """The demo's raw messages have text and a sender."""
    folder = Path(__file__).parent.parent / "demo_messages"
    for path in sorted(folder.glob("*.eml")):
        message = opened(path.read_bytes())

        assert message.text or message.unreadable or message.automatic, path.name


def test_stripping_again_changes_nothing() -> None:
    """What is left is stable."""
    for note in NOTES.values():
        once = written(note)

        assert written(once) == once


def test_broken_base64_gives_what_can_be_had() -> None:
    """A line lost on the way must not cost the whole note."""
    data = base64.b64encode(b"north 40 none seen today and more").decode()
    raw = mail(data[:20] + "!" + data[20:31], "Content-Transfer-Encoding: base64", "Content-Type: text/plain")

    assert opened(raw).text.startswith("north 40 none")
