"""Who really sent it: what proves that a message is from the address it names.

A From line is written by whoever sends the mail, so it proves nothing. What counts, strongest first: the
way it came (a listener strangers cannot reach, or a folder on this machine), our own check of a DKIM
signature that is aligned with the From address, the verdict of a mail server we trust, a token that we gave
this person in the address they answer to, and a code word for text-message gateways that sign nothing.
"""

from __future__ import annotations

import base64
import binascii
import hashlib
import hmac
import ipaddress
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, timedelta

import authres
import dkim
import dns.exception
import dns.resolver

from notes_bot.mail.opening import Headers, only_mailbox, read_headers
from notes_bot.model import Message, Proof

Lookup = Callable[[str], bytes | None]
"""TXT record of a name, ``None`` when there is none; raises :class:`NoAnswer` when nobody could be asked."""

MOST_SIGNATURES = 5
LEAST_KEY_BITS = 1024
MOST_KEY_RECORD = 4096
TOKEN_LENGTH = 24
"""Characters of a reply token: 2 bytes of day, 3 of person, 10 of MAC (80 bits), in base32."""
TOKEN_DAYS = 120
_EPOCH = date(2020, 1, 1)


class NoAnswer(Exception):
    """The name service could not be asked: neither proved nor disproved."""


@dataclass(frozen=True, slots=True)
class Accept:
    """What counts as proof here."""

    loopback: bool = False
    """A mail handed to the SMTP listener from ``private`` is believed, where strangers cannot do that. A mail
    with a Received line has come through another server, which may take mail from anybody: not believed."""
    private: tuple[str, ...] = ("127.0.0.0/8", "::1/128")
    """Networks for ``loopback``."""
    drop: bool = True
    """A file in the drop folder is believed: only programs of this machine write there."""
    relays: tuple[str, ...] = ()
    """authserv-ids of mail servers whose Authentication-Results are believed. They must remove incoming
    headers that carry their own id, as RFC 8601 section 5 demands."""
    relay_networks: tuple[str, ...] = ("127.0.0.0/8", "::1/128")
    """Networks from which such a server hands mail to our listener (IMAP has no such question)."""
    lookup: Lookup | None = None
    """Turns our own DKIM check on."""
    key: bytes = b""
    """Secret for tokens; empty: none are believed."""
    person_of: Callable[[str], int | None] | None = None
    """Whose address this is, for tokens."""
    code_word: str = ""
    """First word of a text message; empty: none is believed."""
    wrong_tries: Callable[[str], int] | None = None
    """Unproved messages of this sender within the last day: five lock the code word for it."""


def prove(
    raw: bytes,
    message: Message,
    *,
    accept: Accept,
    door: str = "smtp",
    peer: str = "",
    text_before: str | None = None,
) -> Proof:
    """The first proof that holds, or one of kind ``none`` whose detail says what was found wanting.

    ``door`` and ``peer`` are as kept with the raw message. ``text_before`` is the text with a code word
    still in it, when ``message`` has been through :func:`without_code_word` already. Never raises; when the
    name service cannot be asked the detail starts with ``later``.
    """
    if not message.sender:
        return Proof("none", "the From line names no single plain address")
    if door == "drop":
        return Proof("private_listener", "drop folder") if accept.drop else Proof("none", "drop folder not believed")
    why: list[str] = []
    heads = read_headers(raw)
    if accept.loopback and door == "smtp" and _within(peer, accept.private):
        if not heads.has("received"):
            return Proof("private_listener", peer)
        why.append("handed on by another server: strangers may reach it")
    if door == "smtp" and message.sender and peer.partition(" login=")[2] == message.sender:
        return Proof("login", message.sender)  # logged in under the very address the mail is from
    domain = message.sender.rpartition("@")[2] if "@" in message.sender else _from_domain(heads)
    for proof in (
        _by_token(message, accept),
        _by_relay(heads, domain, accept, door, peer),
        _by_own_check(raw, heads, domain, accept),
        _by_code_word(message if text_before is None else replace(message, text=text_before), accept),
    ):
        if proof.holds:
            return proof
        if proof.detail:
            why.append(proof.detail)
    why.sort(key=lambda text: not text.startswith("later"))
    return Proof("none", "; ".join(why) or "nothing proves the sender")


def _from_domain(heads: Headers) -> str:
    return only_mailbox(heads.all("from"))[1].rpartition("@")[2]


def _within(peer: str, networks: Sequence[str]) -> bool:
    try:
        address = ipaddress.ip_address(peer.partition(" ")[0].partition("%")[0])
    except ValueError:
        return False
    mapped = getattr(address, "ipv4_mapped", None)
    address = mapped or address
    return any(address in ipaddress.ip_network(network, strict=False) for network in networks)


def aligned(signing: str, from_domain: str) -> bool:
    """Whether a signature of domain ``signing`` speaks for addresses of ``from_domain``.

    The same domain, or a parent of it: whoever holds a domain decides on everything below it anyway. The
    other way round (a sub-domain speaking for its parent) is not accepted, so no list of public suffixes
    is needed; a signing domain of one label never counts.
    """
    signing, from_domain = signing.lower().rstrip("."), from_domain.lower().rstrip(".")
    return "." in signing and (signing == from_domain or from_domain.endswith("." + signing))


# --- a trusted server's verdict ---------------------------------------------------------------------


def _by_relay(heads: Headers, domain: str, accept: Accept, door: str, peer: str) -> Proof:
    """Only the topmost Authentication-Results with a trusted id, and only above the second Received line.

    A server adds its results at the top, above or right below its own Received line; whatever a stranger
    wrote into the message stands further down.
    """
    if not accept.relays or not domain:
        return Proof("none")
    if door == "smtp" and not _within(peer, accept.relay_networks):
        return Proof("none", "not handed over by a trusted server")
    trusted = {name.lower() for name in accept.relays}
    received = 0
    for name, value in heads.fields:
        if name == "received":
            received += 1
            if received > 1:
                break
        if name != "authentication-results" or len(value) > 8192:
            continue
        text = re.sub(r"\s+", " ", value.decode("ascii", "replace")).strip()
        try:
            results = authres.parse("Authentication-Results: " + text)
        except (authres.AuthResError, ValueError, AttributeError, TypeError, IndexError, RecursionError):
            if text.lower().startswith(tuple(trusted)):
                return Proof("none", "a trusted server's verdict cannot be read")
            continue
        if str(results.authserv_id or "").lower() not in trusted:
            continue
        return _verdict(results, domain)
    return Proof("none", "no verdict of a trusted server")


def _verdict(results: authres.AuthenticationResultsHeader, domain: str) -> Proof:
    for result in results.results:
        method, verdict = str(result.method).lower(), str(result.result).lower()
        if verdict != "pass":
            continue
        properties = {(p.type, p.name): str(p.value).lower() for p in result.properties if p.value is not None}
        if method == "dmarc" and properties.get(("header", "from")) == domain:
            return Proof("relay", f"{results.authserv_id}: dmarc")
        if method == "dkim":
            signing = properties.get(("header", "d")) or properties.get(("header", "i"), "").rpartition("@")[2]
            if signing and aligned(signing, domain):
                return Proof("relay", f"{results.authserv_id}: dkim {signing}")
    return Proof("none", f"{results.authserv_id} found nothing that proves {domain}")


# --- our own DKIM check -----------------------------------------------------------------------------

_ONCE = ("from", "date", "subject", "message-id", "to", "content-type", "mime-version", "content-transfer-encoding")
_MUST_BE_SIGNED = ("from", "date", "subject", "message-id")


def _by_own_check(raw: bytes, heads: Headers, domain: str, accept: Accept) -> Proof:
    if accept.lookup is None or not domain:
        return Proof("none")
    signatures = heads.all("dkim-signature")
    if not signatures:
        return Proof("none", "no signature")
    doubled = [name for name in _ONCE if len(heads.all(name)) > 1]
    if doubled or heads.too_big:
        return Proof("none", f"header twice: {', '.join(doubled)}" if doubled else "headers too big")
    why = ""
    asked = accept.lookup
    unanswered: list[str] = []

    def record(name: bytes | str, timeout: float = 5) -> bytes | None:  # noqa: ARG001 - dkimpy passes it
        try:
            found = asked(name.decode("ascii", "replace") if isinstance(name, bytes) else name)
        except NoAnswer as error:
            unanswered.append(str(error))
            return None
        return found if found is not None and len(found) <= MOST_KEY_RECORD else None

    try:
        check = dkim.DKIM(raw, minkey=LEAST_KEY_BITS)
    except (dkim.DKIMException, ValueError, TypeError, IndexError) as error:
        return Proof("none", f"cannot be checked: {type(error).__name__}")
    for number in range(min(len(signatures), MOST_SIGNATURES)):
        try:
            tags = dkim.util.parse_tag_value(signatures[number])
            fault = _unfit(tags, heads, domain)
            if fault:
                why = why or fault
                continue
            if check.verify(idx=number, dnsfunc=record):
                return Proof("dkim", tags[b"d"].decode("ascii").lower())
            why = "the signature does not fit the message"
        except (
            dkim.DKIMException,
            dkim.util.InvalidTagValueList,
            ValueError,
            TypeError,
            KeyError,
            IndexError,
        ) as error:
            why = why or f"bad signature: {type(error).__name__}"
    if unanswered:
        return Proof("none", "later: the name service does not answer")
    return Proof("none", why)


def _unfit(tags: dict[bytes, bytes], heads: Headers, domain: str) -> str:
    """Why a signature would prove nothing even if its sums are right; empty when it is fit."""
    signing = tags.get(b"d", b"").decode("ascii", "replace").strip()
    if not aligned(signing, domain):
        return f"signed by {signing[:80]}, which does not speak for {domain}"
    if b"l" in tags:
        return "signature covers only the start of the message"
    if tags.get(b"a", b"") not in (b"rsa-sha256", b"ed25519-sha256"):
        return "signature method too weak"
    covered = {name.strip().lower().decode("ascii", "replace") for name in tags.get(b"h", b"").split(b":")}
    missing = [name for name in _MUST_BE_SIGNED if name not in covered and heads.all(name)]
    if "from" not in covered or missing:
        return "signature leaves out " + ", ".join(missing or ["from"])
    return ""


def dns_lookup(servers: Sequence[str] = (), port: int = 53, seconds: float = 5.0) -> Lookup:
    """A :data:`Lookup` by DNS; ``servers`` are addresses of resolvers, empty for those of the system."""

    def resolver() -> dns.resolver.Resolver:
        if not servers:
            return dns.resolver.Resolver()
        made = dns.resolver.Resolver(configure=False)
        made.nameservers = list(servers)
        made.port = port
        return made

    def lookup(name: str) -> bytes | None:
        try:
            # Made anew each time: a machine without a name service, or with another one since, must not matter.
            answer = resolver().resolve(name, "TXT", lifetime=seconds, search=False)
        except (dns.resolver.NXDOMAIN, dns.resolver.NoAnswer, dns.name.LabelTooLong, dns.name.EmptyLabel):
            return None
        except (dns.exception.DNSException, OSError) as error:
            raise NoAnswer(type(error).__name__) from error
        return next((b"".join(row.strings) for row in answer), None)

    return lookup


SILENT_SECONDS = 60.0
MOST_SILENT = 3


@dataclass
class Patient:
    """A lookup that leaves a silent name service alone for a minute, so that one message pays for the waiting.

    Kept apart by domain: one domain whose servers are down does not delay the mail of others. When several are
    silent at once it is our own resolver, and nothing is asked for a minute.
    """

    ask: Lookup
    now: Callable[[], datetime]
    _silent: dict[str, datetime] = field(default_factory=dict, init=False, repr=False)

    def __call__(self, name: str) -> bytes | None:
        at = self.now()
        pause = timedelta(seconds=SILENT_SECONDS)
        self._silent = {domain: since for domain, since in self._silent.items() if since <= at < since + pause}
        domain = name.rpartition("._domainkey.")[2].rstrip(".").lower()
        if domain in self._silent or len(self._silent) >= MOST_SILENT:
            raise NoAnswer("silent a moment ago")
        try:
            return self.ask(name)
        except NoAnswer:
            self._silent[domain] = at
            raise


# --- tokens -----------------------------------------------------------------------------------------


def _mac(key: bytes, purpose: bytes, payload: bytes, length: int) -> bytes:
    return hmac.new(key, purpose + b"\0" + payload, hashlib.sha256).digest()[:length]


def _base32(data: bytes) -> str:
    return base64.b32encode(data).decode("ascii").rstrip("=").lower()


def _unbase32(text: str) -> bytes:
    try:
        return base64.b32decode(text.upper() + "=" * (-len(text) % 8))
    except (binascii.Error, ValueError):
        return b""


def reply_address(ours: str, key: bytes, person_id: int, expires: date) -> str:
    """Our address with a token for this person: whoever writes to it has read a mail we sent to them.

    Lower case and base32, because mail servers may change the case of the part before the @.
    """
    payload = (expires - _EPOCH).days.to_bytes(2, "big") + person_id.to_bytes(3, "big")
    local, _, domain = ours.partition("@")
    return f"{local}+{_base32(payload + _mac(key, b'reply', payload, 10))}@{domain}"


def token_person(address: str, key: bytes, on: date) -> int | None:
    """The person a reply token was given to; ``None`` when it is none of ours or has expired."""
    local = address.partition("@")[0]
    token = local.rpartition("+")[2] if "+" in local else ""
    data = _unbase32(token) if len(token) == TOKEN_LENGTH else b""
    if len(data) != 15 or not key:
        return None
    payload, mac = data[:5], data[5:]
    if not hmac.compare_digest(mac, _mac(key, b"reply", payload, 10)):
        return None
    expires = _EPOCH + timedelta(days=int.from_bytes(payload[:2], "big"))
    return int.from_bytes(payload[2:], "big") if on <= expires else None


def bounce_address(ours: str, key: bytes, message_id: str) -> str:
    """The envelope sender of one of our mails: a delivery report that comes to it is about that mail."""
    local, _, domain = ours.partition("@")
    mark = hashlib.sha256(message_id.encode()).digest()[:5]
    return f"{local}+b{_base32(mark + _mac(key, b'bounce', message_id.encode(), 10))}@{domain}"


def switch_address(ours: str, key: bytes, person_id: int, *, on: bool) -> str:
    """Our address that turns this person's reminders and digests on or off, whatever the mail to it says."""
    payload = bytes([on]) + person_id.to_bytes(3, "big")
    local, _, domain = ours.partition("@")
    return f"{local}+q{_base32(payload + _mac(key, b'switch', payload, 10))}@{domain}"


def switched(address: str, key: bytes) -> tuple[int, bool] | None:
    """Person and on or off of a switch address of ours; ``None`` when it is none."""
    token = address.partition("@")[0].rpartition("+")[2]
    data = _unbase32(token[1:]) if key and token[:1] == "q" else b""
    if len(data) != 14 or data[0] > 1 or not hmac.compare_digest(data[4:], _mac(key, b"switch", data[:4], 10)):
        return None
    return int.from_bytes(data[1:4], "big"), bool(data[0])


def token_given_to(address: str, key: bytes) -> int | None:
    """Whom a token of ours was given to, be it expired or not: no proof, but it says whose conversation it was."""
    return token_person(address, key, date.min)


def is_our_bounce(message: Message, ours: str, key: bytes) -> bool:
    """Whether a delivery report came to the address that its mail was sent from: others are forged."""
    if message.notice is None or not message.notice.message_id or not key:
        return False
    wanted = bounce_address(ours, key, message.notice.message_id)
    return any(hmac.compare_digest(address.encode(), wanted.encode()) for address in message.to)


def is_ours(address: str, ours: str) -> bool:
    """Our address, with or without a token."""
    local, _, domain = address.lower().partition("@")
    own_local, _, own_domain = ours.lower().partition("@")
    return domain == own_domain and local.partition("+")[0] == own_local


def _by_token(message: Message, accept: Accept) -> Proof:
    if not accept.key or accept.person_of is None:
        return Proof("none")
    writer = accept.person_of(message.sender)
    on = message.arrived_at.astimezone(UTC).date()
    for address in message.to:
        person = token_person(address, accept.key, on)
        if person is not None:
            return Proof("token", "") if person == writer else Proof("none", "the token was given to somebody else")
    return Proof("none")


# --- the code word ----------------------------------------------------------------------------------

MOST_WRONG = 5


def first_word(text: str) -> str:
    """The word where a code word would stand, as it is compared."""
    return text.split(None, 1)[0].strip(".,:;").casefold() if text.strip() else ""


def _by_code_word(message: Message, accept: Accept) -> Proof:
    """Only for text messages: mail has better proofs, and a word in mail is read by every server on the way."""
    if not accept.code_word or not message.by_text:
        return Proof("none")
    if accept.wrong_tries is not None and accept.wrong_tries(message.sender) >= MOST_WRONG:
        return Proof("none", "code word locked after too many messages without it")
    given = hashlib.sha256(first_word(message.text).encode("utf-8", "replace")).digest()
    right = hashlib.sha256(accept.code_word.casefold().encode()).digest()
    return Proof("code_word") if hmac.compare_digest(given, right) else Proof("none", "no code word")


def without_code_word(message: Message, accept: Accept) -> Message:
    """The message with a leading code word taken off, so that it is neither read as a note nor quoted back."""
    if not accept.code_word or first_word(message.text) != accept.code_word.casefold():
        return message
    rest = message.text.lstrip().split(None, 1)
    return replace(message, text=rest[1] if len(rest) > 1 else "")


def expiry(sent: datetime) -> date:
    """The day until which a token given now is good."""
    return sent.astimezone(UTC).date() + timedelta(days=TOKEN_DAYS)
