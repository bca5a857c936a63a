"""Who really sent it: each proof, and each way to forge it."""

from __future__ import annotations

import subprocess
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

import dkim
import dns.resolver
import pytest

from notes_bot.mail.identity import (
    Accept,
    NoAnswer,
    aligned,
    bounce_address,
    dns_lookup,
    is_our_bounce,
    is_ours,
    prove,
    reply_address,
    token_person,
    without_code_word,
)
from notes_bot.mail.opening import open_message
from notes_bot.mail.smtp_out import Folder, Signing, write_mail
from notes_bot.model import DeliveryNotice, Message, Proof, Reply
from tests.mail_samples import clients
from tests.servers import NameServer, OpenDkim, Postfix, running, wait_for

NOW = datetime(2026, 7, 6, 19, 2, tzinfo=UTC)
US = "notes@crew.example"
SCOUT = "scout@farm.example"
KEY = b"k" * 32

MAIL = (
    b"From: First scout <scout@farm.example>\r\nTo: notes@crew.example\r\nSubject: note\r\n"
    b"Date: Mon, 06 Jul 2026 14:02:11 -0500\r\nMessage-ID: <1@farm.example>\r\n\r\nnorth 40 none\r\n"
)


@pytest.fixture(scope="module")
def pair(tmp_path_factory: pytest.TempPathFactory) -> tuple[bytes, bytes]:
    """A private key and its DNS record."""
    return make_pair(tmp_path_factory.mktemp("key"), 2048)


def make_pair(folder: Path, bits: int) -> tuple[bytes, bytes]:
    private = folder / "private.pem"
    try:
        subprocess.run(
            ["openssl", "genrsa", "-traditional", "-out", str(private), str(bits)], check=True, capture_output=True
        )
        der = subprocess.run(
            ["openssl", "rsa", "-in", str(private), "-pubout", "-outform", "PEM"], check=True, capture_output=True
        ).stdout
    except FileNotFoundError:
        pytest.skip("openssl is not installed")
    public = b"".join(der.splitlines()[1:-1])
    return private.read_bytes(), b"v=DKIM1; k=rsa; p=" + public


def opened(raw: bytes, *, to: str = US, by: str = SCOUT) -> Message:
    return open_message(
        raw, arrived_at=NOW, door="smtp", envelope_from=by, envelope_to=[to], ours=lambda a: is_ours(a, US),
        gateways=["sms.gateway.example"],
    )  # fmt: skip


def proof(raw: bytes, accept: Accept, *, peer: str = "203.0.113.9", door: str = "smtp", to: str = US) -> Proof:
    return prove(raw, opened(raw, to=to), accept=accept, door=door, peer=peer)


def signed(
    pair: tuple[bytes, bytes],
    raw: bytes = MAIL,
    *,
    domain: bytes = b"farm.example",
    headers: Any = None,
    **options: Any,
) -> bytes:
    wanted = headers or [b"from", b"to", b"subject", b"date", b"message-id"]
    return bytes(dkim.sign(raw, b"sel", domain, pair[0], include_headers=wanted, **options)) + raw


def looking(pair: tuple[bytes, bytes], *domains: str) -> Accept:
    table = {f"sel._domainkey.{domain}.": pair[1] for domain in domains or ("farm.example",)}
    return Accept(lookup=table.get)


# --- the way it came ---


def test_a_loopback_listener_believes_only_loopback_and_only_when_told_to() -> None:
    """The demo's default; never the network."""
    assert proof(MAIL, Accept(loopback=True), peer="127.0.0.1").kind == "private_listener"
    assert proof(MAIL, Accept(loopback=True), peer="::1").kind == "private_listener"
    assert proof(MAIL, Accept(loopback=True), peer="::ffff:127.0.0.1").kind == "private_listener"
    for peer in ("203.0.113.9", "", "127.0.0.1.evil.example", "local"):
        assert not proof(MAIL, Accept(loopback=True), peer=peer).holds
    assert not proof(MAIL, Accept(), peer="127.0.0.1").holds
    assert not proof(MAIL, Accept(loopback=True), peer="127.0.0.1", door="imap").holds


def test_mail_that_a_server_in_front_has_handed_on_is_not_believed_for_its_way() -> None:
    """A mail server set up later on the same machine must not open the door to the whole world."""
    handed_on = b"Received: from anywhere by mx.crew.example; Mon, 6 Jul 2026 14:02:12 -0500\r\n" + MAIL

    assert not proof(handed_on, Accept(loopback=True), peer="127.0.0.1").holds


def test_who_logged_in_is_believed_to_be_that_address_and_no_other() -> None:
    """The listener writes the login behind the peer; the mail must be from that very address."""
    mail = clients.plain_terminal("north 40 none seen", "scout@farm.example", "notes@crew.example", NOW)
    for peer, door, kind in (
        ("192.0.2.1 login=scout@farm.example", "smtp", "login"),
        ("192.0.2.1 login=other@farm.example", "smtp", "none"),
        ("192.0.2.1 login=", "smtp", "none"),
        ("192.0.2.1 login=scout@farm.example", "imap", "none"),
    ):
        message = open_message(mail, arrived_at=NOW, door=door, ours=lambda _: False)
        assert prove(mail, message, accept=Accept(), door=door, peer=peer).kind == kind, peer


def test_nobody_is_proved_without_a_clear_sender() -> None:
    """Two From lines: no sender, no proof, whatever else holds."""
    assert not proof(b"From: evil@x.example\r\n" + MAIL, Accept(loopback=True), peer="127.0.0.1").holds


# --- DKIM ---


def test_a_signature_of_the_senders_domain_proves_it(pair: tuple[bytes, bytes]) -> None:
    """Verified here, with the key from the name service."""
    assert proof(signed(pair), looking(pair)) == Proof("dkim", "farm.example")


def test_a_parent_domain_may_sign_for_what_is_below_it(pair: tuple[bytes, bytes]) -> None:
    """Whoever holds farm.example decides on mail.farm.example anyway; not the other way round."""
    below = MAIL.replace(b"scout@farm", b"scout@mail.farm")

    assert proof(signed(pair, below), looking(pair)).kind == "dkim"
    assert not proof(signed(pair, domain=b"mail.farm.example"), looking(pair, "mail.farm.example")).holds
    assert aligned("Farm.example", "farm.EXAMPLE.")
    for signing, sender in [
        ("example", "farm.example"),
        ("arm.example", "farm.example"),
        ("evil.example", "farm.example"),
        ("", ""),
    ]:
        assert not aligned(signing, sender)


def test_the_second_signature_counts_when_the_first_is_a_strangers(pair: tuple[bytes, bytes]) -> None:
    """Mail services add their own signature on top."""
    raw = signed(pair, signed(pair), domain=b"service.example")

    assert proof(raw, looking(pair, "farm.example", "service.example")) == Proof("dkim", "farm.example")


@pytest.mark.parametrize(
    ("name", "change"),
    [
        ("body", lambda raw: raw.replace(b"none", b"99 white")),
        ("subject", lambda raw: raw.replace(b"Subject: note", b"Subject: other")),
        ("date", lambda raw: raw.replace(b"14:02", b"15:02")),
        ("message-id", lambda raw: raw.replace(b"<1@", b"<2@")),
        ("second subject", lambda raw: b"Subject: x\r\n" + raw),
        ("second message-id", lambda raw: b"Message-ID: <9@x.example>\r\n" + raw),
        ("second date", lambda raw: raw.replace(b"Date:", b"Date: Mon, 06 Jul 2026 10:00:00 -0500\r\nDate:", 1)),
        ("second content type", lambda raw: b"Content-Type: text/html\r\nContent-Type: text/plain\r\n" + raw),
    ],
)
def test_a_signed_mail_that_was_changed_proves_nothing(pair: tuple[bytes, bytes], name: str, change: Any) -> None:
    """Body, signed headers, and headers added on top of the signed ones."""
    assert not proof(change(signed(pair)), looking(pair)).holds, name


def test_another_domains_signature_proves_nothing_about_this_sender(pair: tuple[bytes, bytes]) -> None:
    """The attacker's own valid signature below the scout's name."""
    found = proof(signed(pair, domain=b"evil.example"), looking(pair, "evil.example"))

    assert not found.holds
    assert "does not speak for" in found.detail


def test_signatures_that_leave_things_open_prove_nothing(pair: tuple[bytes, bytes], tmp_path: Path) -> None:
    """Part of the body only, important headers left out, an old method, a short key."""
    partly = signed(pair, length=True)
    open_date = signed(pair, headers=[b"from", b"to", b"subject", b"message-id"])
    open_id = signed(pair, headers=[b"from", b"to", b"subject", b"date"])
    short = make_pair(tmp_path, 768)

    assert b"l=" in partly.split(b"\r\n\r\n")[0]
    for raw in (partly, open_date, open_id):
        assert not proof(raw, looking(pair)).holds
    assert not proof(signed(short), looking(short)).holds


def test_a_key_that_is_missing_broken_or_revoked_proves_nothing(pair: tuple[bytes, bytes]) -> None:
    """And none of it raises."""
    for record in (None, b"", b"v=DKIM1; p=", b"v=DKIM1; k=rsa; p=AAAA", b"\xff\xfe", b"v=DKIM1; p=" + b"A" * 100_000):
        assert not proof(signed(pair), Accept(lookup=lambda _, r=record: r)).holds  # type: ignore[misc]


def test_a_name_service_that_is_away_means_later_not_no(pair: tuple[bytes, bytes]) -> None:
    """The detail says so; the message is held, not refused."""

    def away(name: str) -> bytes | None:
        raise NoAnswer("timeout")

    found = proof(signed(pair), Accept(lookup=away))

    assert not found.holds
    assert found.detail.startswith("later")


def test_keys_are_asked_from_a_real_name_server(pair: tuple[bytes, bytes]) -> None:
    """Found, not there, and no answer at all."""
    with running(NameServer({"sel._domainkey.farm.example": pair[1]})) as server:
        lookup = dns_lookup(["127.0.0.1"], server.port, 1.0)

        assert proof(signed(pair), Accept(lookup=lookup)).kind == "dkim"
        assert not proof(signed(pair, domain=b"other.example"), Accept(lookup=lookup)).holds
        assert lookup("nothing.example") is None
        server.deaf = True
        with pytest.raises(NoAnswer):
            lookup("sel._domainkey.farm.example")


def test_a_machine_without_a_name_service_still_starts(monkeypatch: pytest.MonkeyPatch) -> None:
    """No resolver is set up: a question has no answer now, and making the look-up is no error."""

    def none(*_: Any, **__: Any) -> None:
        raise dns.resolver.NoResolverConfiguration

    monkeypatch.setattr(dns.resolver.Resolver, "read_resolv_conf", none)
    lookup = dns_lookup()

    with pytest.raises(NoAnswer):
        lookup("sel._domainkey.farm.example")


@pytest.mark.parametrize(
    "header",
    [
        b"",
        b"v=1",
        b"=" * 500,
        b"v=1; a=rsa-sha256; d=farm.example; s=sel; h=from; b=x; bh=y",
        b";;;",
        b"\xff\xfe\x00",
        b"v=1; " * 300,
    ],
)
def test_malformed_signatures_never_raise(pair: tuple[bytes, bytes], header: bytes) -> None:
    """Whatever stands in the header."""
    assert not proof(b"DKIM-Signature: " + header + b"\r\n" + MAIL, looking(pair)).holds


def test_what_we_sign_ourselves_is_proved_by_our_own_check(pair: tuple[bytes, bytes], tmp_path: Path) -> None:
    """The optional signature on mail that leaves; a key that is none puts the mail off and loses nothing."""
    how = {
        "message_id": "<1@farm.example>",
        "date": NOW,
        "from_address": SCOUT,
        "to": US,
        "references": ["<0@x.example>"],
    }
    mail = write_mail(Reply("Field notes", "North 40: ½ seen.\n"), kind="notice", **how)
    way = Signing(Folder(tmp_path), "farm.example", "sel", pair[0])
    assert way.send("b@farm.example", US, mail).sent
    (path,) = tmp_path.iterdir()

    assert proof(path.read_bytes(), looking(pair)) == Proof("dkim", "farm.example")
    assert not proof(path.read_bytes().replace(b"seen", b"none"), looking(pair)).holds
    assert replace(way, key=b"no key").send("b@farm.example", US, mail).outcome == "later"


# --- a trusted server's verdict ---

RECEIVED = b"Received: from x by mx.crew.example; Mon, 6 Jul 2026 14:02:12 -0500\r\n"
RELAY = Accept(relays=("mx.crew.example",))


def verdict(text: bytes, *, where: str = "top", raw: bytes = MAIL) -> bytes:
    line = b"Authentication-Results: " + text + b"\r\n"
    older = b"Received: from phone by out.farm.example; Mon, 6 Jul 2026 14:02:11 -0500\r\n"
    if where == "top":
        return line + RECEIVED + older + raw
    if where == "below own":
        return RECEIVED + line + older + raw
    return RECEIVED + older + line + raw


@pytest.mark.parametrize("where", ["top", "below own"])
@pytest.mark.parametrize(
    "text",
    [
        b"mx.crew.example; dkim=pass (2048-bit key) header.d=farm.example header.i=@farm.example header.s=sel",
        b"mx.crew.example;\r\n\tdmarc=pass (p=none dis=none) header.from=farm.example",
        b"MX.crew.example; spf=fail smtp.mailfrom=x@y.example; dkim=pass header.i=scout@farm.example",
    ],
)
def test_a_trusted_servers_pass_counts(text: bytes, where: str) -> None:
    """DMARC, or DKIM aligned with the sender, written above or right below the server's own Received line."""
    assert proof(verdict(text, where=where), RELAY, peer="127.0.0.1").kind == "relay"


@pytest.mark.parametrize(
    ("text", "where", "peer"),
    [
        (b"mx.crew.example; dkim=pass header.d=farm.example", "below", "127.0.0.1"),
        (b"mx.crew.example; dkim=pass header.d=farm.example", "top", "203.0.113.9"),
        (b"mx.evil.example; dkim=pass header.d=farm.example", "top", "127.0.0.1"),
        (b"mx.crew.example; dkim=pass header.d=evil.example", "top", "127.0.0.1"),
        (b"mx.crew.example; dkim=fail header.d=farm.example", "top", "127.0.0.1"),
        (b"mx.crew.example; spf=pass smtp.mailfrom=scout@farm.example", "top", "127.0.0.1"),
        (b"mx.crew.example; dmarc=pass header.from=evil.example", "top", "127.0.0.1"),
        (b"mx.crew.example; dkim=fail (dkim=pass header.d=farm.example) header.d=farm.example", "top", "127.0.0.1"),
        (b'mx.crew.example; dkim=fail reason="; dkim=pass header.d=farm.example"', "top", "127.0.0.1"),
        (b"mx.crew.example; none", "top", "127.0.0.1"),
        (b"mx.crew.example; ((((", "top", "127.0.0.1"),
    ],
)
def test_other_verdicts_do_not_count(text: bytes, where: str, peer: str) -> None:
    """Too far down, from elsewhere, by another server, for another domain, not a pass, or hidden in a comment."""
    assert not proof(verdict(text, where=where), RELAY, peer=peer).holds


def test_only_the_topmost_verdict_of_the_server_is_read() -> None:
    """What a stranger wrote into the message stands below the server's own line."""
    forged = verdict(b"mx.crew.example; dkim=pass header.d=farm.example", where="below own")

    assert not proof(b"Authentication-Results: mx.crew.example; dkim=none\r\n" + forged, RELAY, peer="127.0.0.1").holds
    assert not proof(b"Authentication-Results: mx.crew.example; ((\r\n" + forged, RELAY, peer="127.0.0.1").holds


@pytest.mark.heavy
def test_a_real_postfix_with_opendkim_tells_true_from_forged(pair: tuple[bytes, bytes], tmp_path: Path) -> None:
    """Signed mail through the real servers is proved, changed and forged mail is not, forged verdicts are removed."""
    import smtplib

    from notes_bot.mail.smtp_in import Listener

    kept: list[dict[str, Any]] = []

    async def keep(raw: bytes, **how: Any) -> int:
        kept.append({"raw": raw, **how})
        return len(kept)

    listener = Listener(keep, domains=["crew.example"], now=lambda: NOW)
    listener.start()
    forged = b"Authentication-Results: mx.crew.example; dkim=pass header.d=farm.example\r\n" + MAIL
    try:
        with (
            running(OpenDkim(tmp_path / "dkim", {"sel._domainkey.farm.example": pair[1]})) as checker,
            running(Postfix(listener.port, milter=checker.port)) as postfix,
            smtplib.SMTP("127.0.0.1", postfix.port) as client,
        ):
            for raw in (signed(pair), signed(pair).replace(b"none", b"99 white"), MAIL, forged):
                before = len(kept)
                client.sendmail(SCOUT, [US], raw)
                wait_for(lambda before=before: len(kept) > before)
    finally:
        listener.stop()
    kinds = [proof(m["raw"], RELAY, peer=m["peer"]).kind for m in kept]

    assert kinds == ["relay", "none", "none", "none"]
    assert b"dkim=pass header.d=farm.example\r\nFrom" not in kept[3]["raw"]


# --- tokens ---

PEOPLE = {SCOUT: 7, "other@farm.example": 8}
TOKENS = Accept(key=KEY, person_of=PEOPLE.get)
UNTIL = date(2026, 10, 1)


def test_an_answer_to_the_address_we_gave_proves_its_writer() -> None:
    """In any case of letters, until it expires, and only for the person it was given to."""
    address = reply_address(US, KEY, 7, UNTIL)

    assert proof(MAIL, TOKENS, to=address).kind == "token"
    assert proof(MAIL, TOKENS, to=address.upper()).kind == "token"
    assert not proof(MAIL.replace(b"scout@", b"other@"), TOKENS, to=address).holds
    assert not proof(MAIL.replace(b"scout@", b"stranger@"), TOKENS, to=address).holds
    assert token_person(address, KEY, UNTIL) == 7
    assert token_person(address, KEY, UNTIL + timedelta(days=1)) is None
    assert token_person(address, b"other key", UNTIL) is None
    assert token_person(address, b"", UNTIL) is None


def test_a_token_that_was_changed_or_guessed_is_none() -> None:
    """Every single character matters; lengths and alphabets are checked; 80 bits cannot be tried out."""
    address = reply_address(US, KEY, 7, UNTIL)
    local, _, domain = address.partition("@")
    for place in range(len("notes+"), len(local)):
        other = "a" if local[place] != "a" else "b"
        assert token_person(f"{local[:place]}{other}{local[place + 1 :]}@{domain}", KEY, UNTIL) is None
    for guess in ("", "+", "+a", "+" + "a" * 24, "+" + "1" * 24, "+é", local[5:] + "a", local[5:-1]):
        assert token_person(f"notes{guess}@{domain}", KEY, UNTIL) is None


def test_a_bounce_counts_only_at_the_address_its_mail_came_from() -> None:
    """A forged delivery report cannot cut a scout off."""
    notice = DeliveryNotice(SCOUT, "<answer-1@crew.example>", True, "5.1.1")
    address = bounce_address(US, KEY, notice.message_id)
    message = replace(opened(MAIL, to=address), notice=notice)

    assert is_our_bounce(message, US, KEY)
    assert not is_our_bounce(replace(message, to=(US,)), US, KEY)
    assert not is_our_bounce(replace(message, notice=replace(notice, message_id="<answer-2@crew.example>")), US, KEY)
    assert not is_our_bounce(replace(message, notice=None), US, KEY)
    assert not is_our_bounce(replace(message, notice=replace(notice, message_id="")), US, KEY)


def test_a_bounce_token_is_no_reply_token() -> None:
    """Each secret is good for one purpose."""
    assert token_person(bounce_address(US, KEY, "<x@y>"), KEY, UNTIL) is None


def test_our_addresses_are_ours_with_and_without_a_token() -> None:
    """And look-alikes are not."""
    for address in (US, "NOTES@Crew.example", "notes+abc@crew.example"):
        assert is_ours(address, US)
    for address in ("notesx@crew.example", "notes@crew.example.evil.example", "n@crew.example", "notes", ""):
        assert not is_ours(address, US)


# --- the code word ---

TEXT = MAIL.replace(b"First scout <scout@farm.example>", b"15155550101@sms.gateway.example")
WORD = Accept(code_word="walnut")


@pytest.mark.parametrize("first", [b"walnut ", b"Walnut: ", b"WALNUT, ", b"walnut\n"])
def test_the_code_word_proves_a_text_message_and_is_taken_off(first: bytes) -> None:
    """As the first word, in any case; it is neither read as a note nor quoted back."""
    raw = TEXT.replace(b"north 40", first + b"north 40")

    assert proof(raw, WORD).kind == "code_word"
    assert without_code_word(opened(raw), WORD).text == "north 40 none"


def test_the_code_word_is_no_proof_for_mail_nor_in_another_place() -> None:
    """Mail has better proofs; a word in the middle is only a word."""
    assert not proof(MAIL.replace(b"north 40", b"walnut north 40"), WORD).holds
    for text in (b"north walnut 40", b"walnuts north 40", b"wal nut", b""):
        assert not proof(TEXT.replace(b"north 40 none", text), WORD).holds
    assert not proof(TEXT, Accept(code_word="")).holds
    assert without_code_word(opened(TEXT), WORD).text == "north 40 none"


def test_five_messages_without_it_lock_the_code_word() -> None:
    """Guessing ends after a handful of tries, even if the last guess is right."""
    raw = TEXT.replace(b"north 40", b"walnut north 40")

    assert proof(raw, replace(WORD, wrong_tries=lambda _: 4)).holds
    assert not proof(raw, replace(WORD, wrong_tries=lambda _: 5)).holds


def test_a_desk_that_took_the_word_off_first_still_proves_it() -> None:
    """The text with the word is handed in beside the message."""
    raw = TEXT.replace(b"north 40", b"walnut north 40")
    message = opened(raw)
    bare = without_code_word(message, WORD)

    assert prove(raw, bare, accept=WORD, door="smtp", peer="", text_before=message.text).kind == "code_word"
