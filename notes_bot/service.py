"""The running service: doors, desk, clock and outbox, built in one place, started and stopped in order.

Stopping: the doors close first (what was taken is kept), then the desk finishes the message in hand, then the
outbox its delivery. Whatever is left is in the database and goes on at the next start.
"""

from __future__ import annotations

import fcntl
import os
import random
import secrets
import sqlite3
import ssl
import threading
import time
import traceback
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from pathlib import Path

import httpx

from notes_bot.desk import Desk
from notes_bot.mail.drop_in import DropFolder
from notes_bot.mail.identity import Accept, Patient, dns_lookup
from notes_bot.mail.smtp_in import Listener
from notes_bot.mail.smtp_out import Folder, Relay, Sending, Several, Signing, TextFolder, Way
from notes_bot.model import Field
from notes_bot.rounds import Rounds
from notes_bot.settings import Settings, secret
from notes_bot.store import DatabaseWrong, ImapPlaces, Inbox, Outbox, Queued, Store, Turn
from notes_bot.weather import WeatherWrong, live_temperatures, read_temperatures

TICK_SECONDS = 1.0
"""How long the desk waits for a new message before it looks at the clock again."""
OUTBOX_SECONDS = 0.5
WEATHER_SECONDS = 6 * 3600.0
WEATHER_PACE_SECONDS = 1.0
"""Between two questions to a public service."""
REFUSALS_TO_UNREACHABLE = 2
"""An address that refuses this many mails in a row for good is given up until a supervisor is told."""


GRACE_SECONDS = 15.0
"""At the end: how long deliveries under way may take before they are broken off."""
KEY_BYTES = 32


class ServiceWrong(RuntimeError):
    """The service cannot start; the message says why and what to do."""


@dataclass
class Parts:
    """The real things, built from the settings, not yet running."""

    settings: Settings
    now: Callable[[], datetime]
    inbox: Inbox
    listener: Listener
    store: Store
    desk: Desk
    rounds: Rounds
    outbox: Outbox
    mail_way: Way
    text_way: Way | None

    def send(self, waiting: Queued) -> Sending:
        """One attempt to deliver one message."""
        if waiting.door == "text":
            if self.text_way is None:
                return Sending("never", "no folder for text messages is set", whose="ours")
            return self.text_way.send(waiting.envelope_from, waiting.recipient, waiting.raw)
        return self.mail_way.send(waiting.envelope_from, waiting.recipient, waiting.raw)

    def post_all(self) -> Turn:
        """One turn over the outbox."""
        return self.outbox.turn(self.send, self.now)

    def close(self) -> None:
        """Close the doors, then the rest. Twice is harmless."""
        self.listener.stop()
        self.inbox.close()
        self.mail_way.close()
        with suppress(Exception):  # closed already
            self.outbox.close()
        with suppress(Exception):
            self.store.close()


def build(settings: Settings, now: Callable[[], datetime], *, chance: random.Random | None = None) -> Parts:
    """Everything the service is made of.

    Raises:
        ServiceWrong: the data folder, a certificate or a temperature file cannot be used.
    """
    try:
        settings.service.folder.mkdir(parents=True, exist_ok=True)
        key = _token_key(settings.service.folder / "token.key")
    except OSError as error:
        raise ServiceWrong(f"{settings.service.folder} cannot be used: {error.strerror}") from None
    try:
        store = Store(settings.database)
    except (DatabaseWrong, sqlite3.OperationalError, OSError) as error:
        raise ServiceWrong(f"{settings.database} cannot be used: {error}") from None
    store.adopt(settings.people, settings.fields)
    _take_temperatures(settings, store)
    accept = what_counts(settings, store, key, now)
    desk = Desk(store, settings, now, accept)
    inbox = Inbox(settings.database)
    listener = Listener(
        inbox.keep_soon,
        domains=(settings.domain,),
        now=now,
        host=settings.mail_in.host,
        port=settings.mail_in.port,
        tls=tls_context(settings),
        require_tls=settings.mail_in.require_tls,
        accounts=settings.mail_in.logins,
        require_login=settings.mail_in.require_login,
        most_bytes=int(settings.mail_in.max_size_mb * 1024 * 1024),
    )
    relayed = settings.mail_out.way == "relay"
    return Parts(
        settings=settings,
        now=now,
        inbox=inbox,
        listener=listener,
        store=store,
        desk=desk,
        rounds=Rounds(store, settings, desk, now),
        outbox=Outbox(
            settings.database,
            chance=chance or random.Random(),  # noqa: S311 - spreads retries, hides nothing
            at_once=settings.mail_out.connections if relayed else 1,
            most_a_minute=settings.mail_out.most_a_minute if relayed else 0,
        ),
        mail_way=_mail_way(settings),
        text_way=TextFolder(settings.texts.folder_out) if settings.texts.folder_out else None,
    )


def what_counts(settings: Settings, store: Store, key: bytes, now: Callable[[], datetime]) -> Accept:
    """What counts as proof of a sender, by the settings."""
    proof_needed = settings.mail_in.believe == "proof" or bool(settings.imap.host)
    return Accept(
        loopback=settings.mail_in.believe == "loopback",
        relays=settings.trust.relays,
        relay_networks=settings.trust.relay_networks,
        lookup=Patient(dns_lookup(), now) if settings.trust.check_dkim and proof_needed else None,
        key=key,
        person_of=lambda address: person.id if (person := store.person_at(address)) is not None else None,
        code_word=secret(settings.trust.code_word_env),
        wrong_tries=lambda sender: store.unproved_since(sender, now() - timedelta(days=1)),
    )


@dataclass
class Service:
    """The parts in their threads, between :meth:`start` and :meth:`stop`."""

    settings: Settings
    now: Callable[[], datetime]
    say: Callable[[str], None]
    trouble: str = ""
    """Why the service cannot go on, or empty."""
    parts: Parts | None = None
    _stop: threading.Event = field(default_factory=threading.Event)
    _threads: list[threading.Thread] = field(default_factory=list)
    _told: dict[str, str] = field(default_factory=dict)
    _lock: Lock | None = None

    def start(self) -> None:
        """Open the doors; returns when the listener's port is open.

        Raises:
            ServiceWrong: it cannot start; the message says what to do.
        """
        try:
            self._lock = only_one(self.settings.service.folder)
        except OSError as error:
            raise ServiceWrong(f"{self.settings.service.folder} cannot be used: {error.strerror}") from None
        try:
            parts = self.parts = build(self.settings, self.now)
        except BaseException:
            self._unlock()
            raise
        mail_in = self.settings.mail_in
        try:
            parts.listener.start()
        except OSError as error:
            self.parts = None
            parts.close()
            self._unlock()
            raise ServiceWrong(
                f"port {mail_in.port} at {mail_in.host} cannot be had ({error.strerror}):"
                " stop what uses it, or set another mail_in.port"
            ) from None
        self.say(f"listening for mail at {mail_in.host}:{parts.listener.port}")
        self._run("desk", self._desk)
        self._run("outbox", self._outbox)
        imap = self.settings.imap
        if imap.host:
            from notes_bot.mail.imap_in import Poller

            poller = Poller(
                parts.inbox.keep,
                ImapPlaces(self.settings.database),
                host=imap.host,
                port=imap.port,
                user=imap.user,
                password=secret(imap.password_env),
                tls=imap.tls,
                mailbox=imap.mailbox,
                also=imap.also,
                done_mailbox=imap.done_mailbox,
                now=self.now,
            )
            self._run("mailbox", lambda: poller.run(self._stop))
            self.say(f"reading mailbox {imap.mailbox} at {imap.host}")
        folder_in = self.settings.texts.folder_in
        if folder_in is not None:
            drop = DropFolder(folder_in, parts.inbox.keep, now=self.now)
            self._run("texts", lambda: self._every(1.0, drop.turn))
            self.say(f"taking text messages from {folder_in}")
        if self.settings.live_weather.on:
            self._run("weather", lambda: self._every(WEATHER_SECONDS, self._weather))
        leaves = (
            f"to files in {self.settings.outbox_folder}"
            if self.settings.mail_out.way == "folder"
            else f"through {self.settings.mail_out.host}"
        )
        self.say(f"answers leave {leaves}")

    def stop(self) -> None:
        """Close the doors, finish what is in hand, stop. Twice is harmless."""
        parts, self.parts = self.parts, None
        if parts is None:
            return
        parts.listener.stop()
        self._stop.set()
        parts.inbox.arrived.set()  # wakes the desk
        end = time.monotonic() + GRACE_SECONDS
        for thread in self._threads:
            thread.join(timeout=max(end - time.monotonic(), 0.1))
        parts.mail_way.hang_up()  # a relay that does not answer has had its time; its message stays in line
        for thread in self._threads:
            thread.join(timeout=60)
        parts.close()
        self._unlock()
        self.say("stopped; nothing taken was lost")

    def _unlock(self) -> None:
        handle, self._lock = self._lock, None
        if handle is not None:
            handle.close()

    # --- threads ---

    def _run(self, name: str, body: Callable[[], None]) -> None:
        def guarded() -> None:
            try:
                body()
            except Exception:  # noqa: BLE001 - a thread must not die unseen: the keeper is told and the service ends
                self.trouble = f"the {name} thread failed\n{traceback.format_exc()}"

        thread = threading.Thread(target=guarded, name=name)
        self._threads.append(thread)
        thread.start()

    def _every(self, seconds: float, deed: Callable[[], object]) -> None:
        """A deed again and again; what goes wrong is told once and tried again."""
        while not self._stop.is_set():
            self._try(deed)
            self._stop.wait(seconds)

    def _desk(self) -> None:
        parts = self.parts
        if parts is None:
            return
        while not self._stop.is_set():
            parts.inbox.arrived.clear()
            busy: list[int] = []
            self._try(lambda: busy.append(parts.rounds.turn()))  # noqa: B023 - called before the next turn
            if not any(busy):
                parts.inbox.arrived.wait(TICK_SECONDS)

    def _outbox(self) -> None:
        parts = self.parts
        if parts is None:
            return

        def post() -> None:
            turn = parts.outbox.turn(parts.send, parts.now, stop=self._stop.is_set)
            for lost in turn.lost:
                self.say(f"a mail to {lost.recipient} did not arrive ({lost.state}): {lost.status} {lost.detail}")
                if lost.whose == "person" and parts.outbox.refusals(lost.recipient) >= REFUSALS_TO_UNREACHABLE:
                    self._give_up(lost.person_id)

        self._every(OUTBOX_SECONDS, post)

    def _weather(self) -> None:
        """Fetch recent and forecast days for every field with a place; fields close together share one question."""
        store = Store(self.settings.database)
        agent = f"notes_bot ({self.settings.live_weather.contact or self.settings.service.address})"
        try:
            known = [f for crew in store.crews() for f in store.fields(crew) if f.latitude is not None]
            spots = {(round(f.latitude or 0.0, 1), round(f.longitude or 0.0, 1)) for f in known}
            with httpx.Client(headers={"User-Agent": agent}, follow_redirects=True) as client:
                for spot in sorted(spots):
                    if self._stop.wait(WEATHER_PACE_SECONDS):
                        return
                    try:
                        days = live_temperatures(*spot, self.now().date(), client)
                    except WeatherWrong as error:
                        self.say(f"no live temperatures for {spot[0]}, {spot[1]}: {error}")
                        continue
                    for f in known:
                        if (round(f.latitude or 0.0, 1), round(f.longitude or 0.0, 1)) == spot:
                            store.keep_temperatures(f.name.casefold(), days, "live")
        finally:
            store.close()

    def _give_up(self, person_id: int | None) -> None:
        """Nothing more is sent to a person whose address refuses it; the digest says so."""
        if person_id is None:
            return
        store = Store(self.settings.database)
        try:
            person = store.person(person_id)
            if person is not None and person.reachable:
                store.change_person(replace(person, reachable=False), self.now())
        finally:
            store.close()

    def _try(self, deed: Callable[[], object]) -> None:
        """A deed whose failure must not end the service: a full disk or a locked file passes."""
        try:
            deed()
        except Exception as error:  # noqa: BLE001 - told once, tried again
            what = f"{type(error).__name__}: {error}"
            name = threading.current_thread().name
            if self._told.get(name) != what:
                self._told[name] = what
                self.say(f"{name}: {what} (tried again)")
            self._stop.wait(1.0)


def _token_key(path: Path) -> bytes:
    """The secret behind our reply addresses: made once, whole or not at all, readable by the service alone."""
    with suppress(FileNotFoundError):
        if len(key := path.read_bytes()) >= KEY_BYTES:
            return key
    key = secrets.token_bytes(KEY_BYTES)
    part = path.with_name(path.name + ".new")
    part.unlink(missing_ok=True)
    handle = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(handle, "wb") as file:
        file.write(key)
        file.flush()
        os.fsync(handle)
    part.replace(path)
    return key


class Lock:
    """The right to serve a folder, until it is closed or the process ends."""

    def __init__(self, handle: int) -> None:
        self._handle = handle

    def close(self) -> None:
        os.close(self._handle)


def only_one(folder: Path) -> Lock:
    """A lock that lasts as long as this process: two services on one folder would send everything twice.

    Raises:
        ServiceWrong: another one has it.
    """
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    handle = os.open(folder / "running", os.O_RDWR | os.O_CREAT, 0o600)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        os.close(handle)
        raise ServiceWrong(f"another notes-bot serves {folder}: stop it first, or set another service.folder") from None
    return Lock(handle)


def faults(settings: Settings) -> list[str]:
    """What would keep the service from starting or from doing its work: certificates, keys, missing passwords."""
    found: list[str] = []
    for look in (tls_context, _mail_way, _try_to_sign):
        try:
            look(settings)
        except ServiceWrong as error:
            found.append(str(error))
    out, imap = settings.mail_out, settings.imap
    if out.way == "relay" and out.user and not secret(out.password_env):
        found.append(f"mail_out.user is set, but the environment has no {out.password_env}: the relay will refuse us")
    if imap.host and not secret(imap.password_env):
        found.append(f"imap.host is set, but the environment has no {imap.password_env}: the mailbox will refuse us")
    listed = {address for person in settings.people for address in person.addresses}
    found += [
        f"mail_in.logins: {name} is no address of anybody in the crew; the login opens the door but proves nobody"
        for name in settings.mail_in.logins
        if name not in listed
    ]
    if out.way == "relay" and out.tls == "none" and not _on_this_machine(out.host):
        found.append(f'mail_out.tls is "none" for {out.host}: mail, and the password, travel in the clear')
    if settings.mail_in.believe == "loopback" and not _on_this_machine(settings.mail_in.host):
        found.append(
            f'mail_in.host is {settings.mail_in.host}, which others can reach, and believe is "loopback":'
            ' write believe = "proof", or what others send is held'
        )
    return found


def _on_this_machine(host: str) -> bool:
    return host == "localhost" or host.startswith("127.") or host == "::1"


def _try_to_sign(settings: Settings) -> None:
    way = _mail_way(settings)
    if isinstance(way, Signing) and (why := way.fault()):
        raise ServiceWrong(f"mail_out.dkim_key {settings.mail_out.dkim_key} cannot sign: {why}")


def tls_context(settings: Settings) -> ssl.SSLContext | None:
    if settings.mail_in.certificate is None or settings.mail_in.key is None:
        return None
    context = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    try:
        context.load_cert_chain(settings.mail_in.certificate, settings.mail_in.key)
    except (OSError, ssl.SSLError) as error:
        raise ServiceWrong(f"mail_in.certificate or key cannot be used: {error}") from None
    return context


def _mail_way(settings: Settings) -> Way:
    out = settings.mail_out
    if out.way == "folder":
        return Folder(settings.outbox_folder)
    password = secret(out.password_env) if out.user else ""
    relay = Several(
        [
            Relay(out.host, out.port, out.user, password, out.tls, hostname=settings.domain)
            for _ in range(out.connections)
        ]
    )
    if out.dkim_key is None:
        return relay
    try:
        return Signing(relay, settings.domain, out.dkim_selector, out.dkim_key.read_bytes())
    except OSError as error:
        raise ServiceWrong(f"mail_out.dkim_key {out.dkim_key} cannot be read: {error.strerror}") from None


def known_fields(settings: Settings, store: Store) -> list[Field]:
    """Fields of the settings and those added by message."""
    return [*settings.fields, *(f for crew in store.crews() for f in store.fields(crew))]


def places_of(settings: Settings, store: Store, names: Sequence[str]) -> list[tuple[float, float]]:
    """Where fields lie, as far as it is known; of all fields when none are named."""
    wanted = {name.casefold() for name in names}
    return [
        (f.latitude, f.longitude)
        for f in known_fields(settings, store)
        if f.latitude is not None and f.longitude is not None and (not wanted or f.name.casefold() in wanted)
    ]


def _take_temperatures(settings: Settings, store: Store) -> None:
    for file in settings.weather:
        try:
            days = read_temperatures(file.path, units=file.units or None, near=places_of(settings, store, file.fields))
        except WeatherWrong as error:
            raise ServiceWrong(f"{file.path}: {error}") from None
        for name in file.fields or ("*",):
            store.keep_temperatures(name.casefold(), days, file.path.name)
