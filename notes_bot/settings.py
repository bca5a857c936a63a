"""Settings: one TOML file, read once. Every mistake in it is told at once, with what to write instead.

Passwords never stand in the file: it names the environment variable that holds one.
"""

from __future__ import annotations

import difflib
import ipaddress
import os
import re
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, fields
from datetime import date, datetime
from pathlib import Path
from typing import Any, Literal, TypeVar
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from notes_bot.model import LANGUAGES, Field, Person

ADDRESS = re.compile(r"[a-z0-9.!#$%&'*+/=?^_`{|}~-]{1,64}@[a-z0-9-]{1,63}(\.[a-z0-9-]{1,63})*")
PHONE = re.compile(r"\+[0-9]{7,15}")
PASSWORD = re.compile(r"scrypt:1[2-8]:[A-Za-z0-9+/=]{16,64}:[A-Za-z0-9+/=]{43,44}")
NOON = 12


class SettingsWrong(ValueError):
    """The settings cannot be used; the message lists each place and what to write there."""


@dataclass(frozen=True, slots=True)
class Service:
    """Who we are and where we keep things."""

    folder: Path = Path("notes-bot-data")
    """Holds the database, the outbox folder and kept pictures."""
    address: str = "notes@crew.example"
    """The address the crew writes to; answers come from it."""
    name: str = "field notes"
    """The name beside our address."""
    timezone: str = "America/Chicago"
    """Zone of people who state none."""
    quiet_days: Literal["line", "none"] = "none"
    """What a supervisor gets on a day without news: one line, or no mail."""
    week_summary: bool = True
    """On Mondays the digest covers the week."""
    season_summary: bool = True
    """When a season is over a last digest covers all of it."""
    most_mails_a_day: int = 3
    """Nobody gets more reminders and digests than this in a day; answers are not counted."""
    calendar_feed: bool = False
    """Keep a calendar file of the open looks for each person in ``feeds`` inside the folder, for a web server to hand
    out."""


@dataclass(frozen=True, slots=True)
class MailIn:
    """The SMTP listener."""

    host: str = "127.0.0.1"
    port: int = 8025
    """0 takes a free port."""
    believe: Literal["loopback", "proof"] = "loopback"
    """loopback: a listed sender that reaches this listener from this machine is believed (only for a listener
    that strangers cannot reach); proof: every mail needs DKIM, a trusted relay's verdict, a token or a code word."""
    certificate: Path | None = None
    key: Path | None = None
    require_tls: bool = False
    """True: nothing is taken from a client that does not start TLS."""
    logins: Mapping[str, str] = field(default_factory=dict)
    """User name -> hashed password (``notes-bot password`` makes one). Offered over TLS only. Who logs in under a
    listed address is believed to be that person."""
    require_login: bool = True
    """With logins: nothing is taken from a client that does not log in."""
    max_size_mb: float = 10.0


@dataclass(frozen=True, slots=True)
class Imap:
    """A mailbox to poll."""

    host: str = ""
    port: int = 993
    user: str = ""
    password_env: str = "NOTES_BOT_IMAP_PASSWORD"  # noqa: S105 - the name of a variable, not a password
    tls: bool = True
    mailbox: str = "INBOX"
    also: tuple[str, ...] = ()
    """Mailboxes that are looked at once a minute: the junk folder, where a provider puts what it doubts."""
    done_mailbox: str = ""
    """Where read mail is moved; empty: it is marked seen and stays."""


@dataclass(frozen=True, slots=True)
class Texts:
    """The drop folders of a text-message gateway."""

    folder_in: Path | None = None
    folder_out: Path | None = None
    mail_gateways: tuple[str, ...] = ()
    """Domains of gateways that turn text messages into mail; their answers are one short segment."""


@dataclass(frozen=True, slots=True)
class MailOut:
    """How answers leave."""

    way: Literal["folder", "relay"] = "folder"
    """folder: each mail becomes an .eml file in the outbox folder; relay: an SMTP server takes it."""
    host: str = ""
    port: int = 587
    user: str = ""
    password_env: str = "NOTES_BOT_RELAY_PASSWORD"  # noqa: S105 - the name of a variable, not a password
    tls: Literal["starttls", "tls", "none"] = "starttls"
    connections: int = 2
    """The most connections to the relay at the same moment."""
    most_a_minute: int = 60
    """The most mails handed to the relay in any minute."""
    dkim_selector: str = ""
    """With ``dkim_key``: sign what leaves, where the relay does not."""
    dkim_key: Path | None = None
    """The private key, PEM."""


@dataclass(frozen=True, slots=True)
class Trust:
    """What counts as proof of a sender."""

    relays: tuple[str, ...] = ()
    """Names (authserv-id) of our own mail servers whose Authentication-Results are believed."""
    relay_networks: tuple[str, ...] = ("127.0.0.0/8", "::1/128")
    """Networks from which those servers hand mail to our listener."""
    check_dkim: bool = True
    code_word_env: str = "NOTES_BOT_CODE_WORD"


@dataclass(frozen=True, slots=True)
class WeatherFile:
    """A temperature file and the fields it is for."""

    path: Path = Path("weather.csv")
    fields: tuple[str, ...] = ()
    """Names of fields; empty: all fields."""
    units: Literal["C", "F", ""] = ""
    """Empty: taken from the file, which must then say."""


@dataclass(frozen=True, slots=True)
class LiveWeather:
    """Temperatures fetched from public services for fields with a place."""

    on: bool = False
    contact: str = ""
    """A mail address named to the services, as they ask for."""


@dataclass(frozen=True, slots=True)
class Settings:
    """Everything the service is told, checked."""

    service: Service = field(default_factory=Service)
    mail_in: MailIn = field(default_factory=MailIn)
    imap: Imap = field(default_factory=Imap)
    texts: Texts = field(default_factory=Texts)
    mail_out: MailOut = field(default_factory=MailOut)
    trust: Trust = field(default_factory=Trust)
    live_weather: LiveWeather = field(default_factory=LiveWeather)
    weather: tuple[WeatherFile, ...] = ()
    people: tuple[Person, ...] = ()
    fields: tuple[Field, ...] = ()

    @property
    def domain(self) -> str:
        return self.service.address.rpartition("@")[2]

    @property
    def database(self) -> Path:
        return self.service.folder / "notes.db"

    @property
    def outbox_folder(self) -> Path:
        return self.service.folder / "outbox"


def secret(variable: str, environment: Mapping[str, str] = os.environ) -> str:
    """A password or code word from the environment, or empty."""
    return environment.get(variable, "")


def read_settings(path: Path) -> Settings:
    """The settings in a TOML file; relative paths in it start from its own folder.

    Raises:
        SettingsWrong: when it is missing, not TOML, or anything in it cannot be used.
    """
    try:
        raw = path.read_bytes()
    except FileNotFoundError:
        raise SettingsWrong(f"{path} is not there: make one with  notes-bot init {path}") from None
    except OSError as error:
        raise SettingsWrong(f"{path} cannot be read: {error.strerror}") from None
    try:
        data = tomllib.loads(raw.decode("utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise SettingsWrong(f"{path} is not TOML: {error}") from None
    return settings_from(data, path.resolve().parent)


def settings_from(data: Mapping[str, Any], base: Path) -> Settings:
    """Checked settings from parsed TOML."""
    wrong: list[str] = []
    known = {f.name for f in fields(Settings)}
    wrong.extend(_unknown(name, known, "section") for name in data if name not in known)
    service = _section(Service, data.get("service", {}), "service", base, wrong)
    settings = Settings(
        service=service,
        mail_in=_section(MailIn, data.get("mail_in", {}), "mail_in", base, wrong),
        imap=_section(Imap, data.get("imap", {}), "imap", base, wrong),
        texts=_section(Texts, data.get("texts", {}), "texts", base, wrong),
        mail_out=_section(MailOut, data.get("mail_out", {}), "mail_out", base, wrong),
        trust=_section(Trust, data.get("trust", {}), "trust", base, wrong),
        live_weather=_section(LiveWeather, data.get("live_weather", {}), "live_weather", base, wrong),
        weather=tuple(
            _section(WeatherFile, row, f"weather {n}", base, wrong)
            for n, row in enumerate(_rows(data, "weather", wrong), start=1)
        ),
        people=tuple(_person(row, n, service, wrong) for n, row in enumerate(_rows(data, "people", wrong), start=1)),
        fields=tuple(_field(row, n, wrong) for n, row in enumerate(_rows(data, "fields", wrong), start=1)),
    )
    _check(settings, wrong)
    if wrong:
        raise SettingsWrong("\n".join(wrong))
    return settings


def _check(settings: Settings, wrong: list[str]) -> None:
    if not ADDRESS.fullmatch(settings.service.address):
        wrong.append(
            f"service.address is {settings.service.address!r}: write a plain mail address such as notes@crew.example"
        )
    if settings.mail_out.way == "relay" and not settings.mail_out.host:
        wrong.append('mail_out.host is missing: name the relay, or set way = "folder"')
    for name, value, most in (
        ("connections", settings.mail_out.connections, 20),
        ("most_a_minute", settings.mail_out.most_a_minute, 6000),
    ):
        if not 1 <= value <= most:
            wrong.append(f"mail_out.{name} is {value}: write a whole number from 1 to {most}")
    if bool(settings.mail_out.dkim_key) != bool(settings.mail_out.dkim_selector):
        wrong.append("mail_out needs both dkim_selector and dkim_key to sign, or neither")
    for network in settings.trust.relay_networks:
        try:
            ipaddress.ip_network(network, strict=False)
        except ValueError:
            wrong.append(f"trust.relay_networks holds {network!r}: write a network such as 10.1.2.0/24")
    if bool(settings.mail_in.certificate) != bool(settings.mail_in.key):
        wrong.append("mail_in needs both certificate and key for STARTTLS, or neither")
    _check_logins(settings.mail_in, wrong)
    _zone(settings.service.timezone, "service.timezone", wrong)
    if settings.service.most_mails_a_day < 1:
        wrong.append("service.most_mails_a_day must be 1 or more: to send nothing to somebody, leave the person out")
    seen: dict[str, str] = {}
    for person in settings.people:
        for address in person.addresses:
            if address in seen:
                wrong.append(f"people: {address} belongs to both {seen[address]!r} and {person.name!r}")
            seen[address] = person.name
    names: dict[tuple[str, str], str] = {}
    for known in settings.fields:
        for name in (known.name, *known.aliases):
            key = (known.crew, name.casefold())
            if key in names and names[key] != known.name:
                wrong.append(f"fields: {name!r} names both {names[key]!r} and {known.name!r}")
            names[key] = known.name


def _check_logins(door: MailIn, wrong: list[str]) -> None:
    if door.require_tls and not door.certificate:
        wrong.append("mail_in.require_tls needs certificate and key: without them no client can start TLS")
    if door.logins and not door.certificate:
        wrong.append("mail_in.logins needs certificate and key: a password must not travel in the clear")
    for name, text in door.logins.items():
        if not PASSWORD.fullmatch(text):
            wrong.append(f"mail_in.logins: {name!r} has no hashed password: make one with  notes-bot password")


T = TypeVar("T")


def _section(kind: type[T], row: Any, place: str, base: Path, wrong: list[str]) -> T:
    """One section as its dataclass: unknown keys and wrong kinds are told, paths start from ``base``."""
    if not isinstance(row, Mapping):
        wrong.append(f"{place} must be a table: write [{place}]")
        return kind()
    known = {f.name: f for f in fields(kind)}  # type: ignore[arg-type]
    values: dict[str, Any] = {}
    for name, value in row.items():
        if name not in known:
            wrong.append(_unknown(name, set(known), place))
            continue
        read = _value(str(known[name].type), value, base)
        if read is _WRONG:
            wrong.append(f"{place}.{name} is {value!r}: {_wanted(str(known[name].type))}")
        else:
            values[name] = read
    if kind is Service:
        values["folder"] = base / values.get("folder", Service().folder)
    return kind(**values)


_WRONG = object()


def _value(kind: str, value: Any, base: Path) -> Any:
    if kind.startswith("Literal"):
        return value if value in _choices(kind) else _WRONG
    if "Path" in kind:
        return base / value if isinstance(value, str) and value else _WRONG
    if kind.startswith("tuple"):
        return tuple(value) if isinstance(value, list) and all(isinstance(v, str) for v in value) else _WRONG
    if kind.startswith("Mapping"):
        texts = isinstance(value, Mapping) and all(isinstance(text, str) for text in value.values())
        return {str(name).strip().lower(): text for name, text in value.items()} if texts else _WRONG
    if kind == "bool":
        return value if isinstance(value, bool) else _WRONG
    if kind == "int":
        return value if isinstance(value, int) and not isinstance(value, bool) else _WRONG
    if kind == "float":
        return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else _WRONG
    return value if isinstance(value, str) else _WRONG


def _choices(kind: str) -> list[str]:
    return re.findall(r"[\"']([^\"']*)[\"']", kind)


def _wanted(kind: str) -> str:
    if kind.startswith("Literal"):
        return "write one of " + ", ".join(f'"{choice}"' for choice in _choices(kind))
    if "Path" in kind:
        return "write a path in quotes"
    if kind.startswith("Mapping"):
        return 'write a table of names and texts, such as { "scout@crew.example" = "scrypt:..." }'
    return {
        "bool": "write true or false",
        "int": "write a whole number",
        "float": "write a number",
    }.get(kind, "write a list of texts" if kind.startswith("tuple") else "write a text in quotes")


def _rows(data: Mapping[str, Any], name: str, wrong: list[str]) -> Sequence[Mapping[str, Any]]:
    rows = data.get(name, [])
    if not isinstance(rows, list) or not all(isinstance(row, Mapping) for row in rows):
        wrong.append(f"{name} must be a list of tables: write [[{name}]] above each")
        return []
    return rows


def _unknown(name: str, known: set[str], place: str) -> str:
    near = difflib.get_close_matches(name, known, n=1)
    hint = f"did you mean {near[0]}?" if near else "it may hold " + ", ".join(sorted(known))
    return f"{place}: {name!r} is not known; {hint}"


def _zone(name: str, place: str, wrong: list[str]) -> None:
    try:
        ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        wrong.append(f"{place} is {name!r}: write a zone such as America/Chicago")


def _person(row: Mapping[str, Any], number: int, service: Service, wrong: list[str]) -> Person:
    place = f"people {number}" + (f" ({row['name']})" if isinstance(row.get("name"), str) else "")
    known = {"name", "role", "crew", "addresses", "language", "timezone", "day_first", "units", "hour", "remind"}
    wrong.extend(_unknown(name, known, place) for name in row if name not in known)
    name = _text(row, "name", place, wrong, need=True)
    role = row.get("role", "scout")
    if role not in ("scout", "supervisor"):
        wrong.append(f'{place}.role is {role!r}: write "scout" or "supervisor"')
    language = row.get("language", "en")
    if language not in LANGUAGES:
        wrong.append(f'{place}.language is {language!r}: write "en", "es" or "pt"')
    units = row.get("units", "acre")
    if units not in ("acre", "hectare"):
        wrong.append(f'{place}.units is {units!r}: write "acre" or "hectare"')
    remind = row.get("remind", "morning")
    if remind not in ("morning", "evening"):
        wrong.append(f'{place}.remind is {remind!r}: write "morning" (of the day) or "evening" (before it)')
        remind = "morning"
    hour = row.get("hour", 18 if remind == "evening" else 6)
    if not isinstance(hour, int) or isinstance(hour, bool) or not 0 <= hour <= 23:
        wrong.append(f"{place}.hour is {hour!r}: write a whole hour from 0 to 23")
        hour = 6
    elif remind == "evening" and hour < NOON:
        wrong.append(f'{place}.hour is {hour}, with remind = "evening": write an hour from 12 to 23')
    day_first = row.get("day_first", language != "en")
    if not isinstance(day_first, bool):
        wrong.append(f"{place}.day_first is {day_first!r}: write true or false")
        day_first = False
    zone = row.get("timezone", service.timezone)
    _zone(str(zone), f"{place}.timezone", wrong)
    listed = row.get("addresses", [])
    addresses: list[str] = []
    if not isinstance(listed, list) or not listed:
        wrong.append(f'{place}.addresses is missing: write addresses = ["scout@crew.example"]')
        listed = []
    for address in listed:
        plain = str(address).strip().lower()
        if not (ADDRESS.fullmatch(plain) or PHONE.fullmatch(plain)):
            wrong.append(f"{place}: {address!r} is neither a plain mail address nor a number such as +15555550100")
        addresses.append(plain)
    return Person(
        id=number,
        name=name,
        role=role,
        crew=_text(row, "crew", place, wrong) or "crew",
        addresses=tuple(addresses),
        language=language,
        timezone=str(zone),
        day_first=day_first,
        units=units,
        hour=hour,
        remind=remind,
    )


def _field(row: Mapping[str, Any], number: int, wrong: list[str]) -> Field:
    place = f"fields {number}" + (f" ({row['name']})" if isinstance(row.get("name"), str) else "")
    known = {f.name for f in fields(Field)} - {"id", "muted"}
    wrong.extend(_unknown(name, known, place) for name in row if name not in known)
    resistance = row.get("resistance")
    if resistance not in (None, "resistant", "susceptible"):
        wrong.append(f'{place}.resistance is {resistance!r}: write "resistant" or "susceptible", or leave it out')
        resistance = None
    planted = row.get("planted")
    if isinstance(planted, datetime):
        planted = planted.date()
    if planted is not None and not isinstance(planted, date):
        wrong.append(f"{place}.planted is {planted!r}: write a day without quotes, such as 2026-05-06")
        planted = None
    aliases = row.get("aliases", [])
    if not isinstance(aliases, list) or not all(isinstance(alias, str) for alias in aliases):
        wrong.append(f'{place}.aliases is {aliases!r}: write a list such as ["kestrel", "k40"]')
        aliases = []
    return Field(
        id=number,
        name=_text(row, "name", place, wrong, need=True),
        crew=_text(row, "crew", place, wrong) or "crew",
        aliases=tuple(aliases),
        latitude=_number(row, "latitude", place, -90, 90, wrong),
        longitude=_number(row, "longitude", place, -180, 180, wrong),
        planted=planted,
        resistance=resistance,
        source=_text(row, "source", place, wrong) or None,
        variety=_text(row, "variety", place, wrong) or None,
        place=_text(row, "place", place, wrong) or None,
        acres=_number(row, "acres", place, 0, 100000, wrong),
    )


def _text(row: Mapping[str, Any], name: str, place: str, wrong: list[str], *, need: bool = False) -> str:
    value = row.get(name, "")
    if not isinstance(value, str) or (need and not value.strip()):
        wrong.append(f"{place}.{name} is {'missing' if value == '' else repr(value)}: write a text in quotes")
        return ""
    return value.strip()


def _number(row: Mapping[str, Any], name: str, place: str, low: float, high: float, wrong: list[str]) -> float | None:
    value = row.get(name)
    if value is None:
        return None
    if isinstance(value, bool) or not isinstance(value, int | float) or not low <= value <= high:
        wrong.append(f"{place}.{name} is {value!r}: write a number from {low:g} to {high:g}")
        return None
    return float(value)


STARTER = """\
# Settings of notes-bot. Lines that start with # are remarks; take the # away to use one.
# Check the file with:  notes-bot check --settings THIS-FILE

[service]
folder = "notes-bot-data"          # database, outbox and pictures; relative to this file
address = "notes@crew.example"     # where the crew writes; answers come from it
name = "Field notes"
timezone = "America/Chicago"       # for people who state no zone of their own
quiet_days = "none"                # a day without news: "none" no digest, "line" one line
# week_summary = true              # on Mondays the digest covers the week
# season_summary = true            # a last digest when the season is over
# calendar_feed = false            # true: a calendar file a person in notes-bot-data/feeds, for your web server
# most_mails_a_day = 3             # reminders and digests to one person; answers are not counted

[mail_in]                          # the SMTP door
host = "127.0.0.1"
port = 8025
believe = "loopback"               # only this machine can reach this door, so a listed sender is believed;
                                   # "proof": DKIM, a trusted relay's word or a code word is needed
# certificate = "tls/cert.pem"     # both for STARTTLS
# key = "tls/key.pem"
# require_tls = true               # take nothing from a client that does not start TLS
# logins = { "scout1@crew.example" = "scrypt:14:jTj2t286SRyPu/JFiZIVHA==:H3HDpmP1pVg6HHuDlzAlmHLiaerBZifMzEw38PxRRIo=" }
                                   # over TLS only; put the line there that  notes-bot password  prints
# require_login = false            # true: take nothing from a client that does not log in

# [imap]                           # a mailbox to read as well
# host = "mail.crew.example"
# user = "notes"
# password_env = "NOTES_BOT_IMAP_PASSWORD"   # the password stands in this environment variable
# also = ["Junk"]                  # looked at once a minute: providers put scouts' mail there, too
# done_mailbox = "Read"            # where read mail is moved; leave out to keep it, marked seen

# [texts]
# folder_in = "texts/in"           # a text-message gateway drops files here ...
# folder_out = "texts/out"         # ... and takes answers from here
# mail_gateways = ["texts.example"]   # gateways that turn text messages into mail

[mail_out]
way = "folder"                     # each answer is an .eml file in the outbox folder; nothing is sent
# way = "relay"                    # an SMTP server takes them
# host = "mail.crew.example"
# port = 587
# user = "notes"
# password_env = "NOTES_BOT_RELAY_PASSWORD"
# tls = "starttls"                 # "tls" from the start, or "none" on this machine only
# connections = 2                  # at most so many to the relay at once
# most_a_minute = 60               # and so many mails in any minute; ask your provider what it allows
# dkim_selector = "notes"          # sign what leaves, if the relay does not; the key's public half stands in DNS
# dkim_key = "dkim.pem"

[trust]
# relays = ["mx.crew.example"]     # names whose Authentication-Results are believed
# relay_networks = ["127.0.0.0/8"] # where those servers hand mail over from
check_dkim = true

# [live_weather]                   # recent and forecast days from public services, for fields with a place
# on = true
# contact = "keeper@crew.example"  # the services ask whom to write to

# [[weather]]                      # temperature files, read at start; without any, built-in normals are used
# path = "weather.csv"             # date,tmin,tmax
# units = "C"
# fields = ["Kestrel Bottom"]      # leave out for all fields

[[people]]
name = "first scout"
role = "scout"                     # or "supervisor"
addresses = ["scout1@crew.example", "+15155550101"]
language = "en"                    # "en", "es" or "pt"
hour = 6                           # reminders come at this hour, local time
# remind = "morning"               # of the day of the look; "evening": on the evening before, at 18 unless hour is set

[[people]]
name = "supervisor"
role = "supervisor"
addresses = ["supervisor@crew.example"]
hour = 6                           # the daily digest comes at this hour

[[fields]]
name = "Kestrel Bottom"
aliases = ["kb"]
latitude = 42.062                  # with a place, temperatures are those near it
longitude = -93.871
planted = 2026-05-06
resistance = "susceptible"         # or "resistant"; leave out when not known
place = "Iowa"                     # state or province: thresholds never travel without it

[[fields]]
name = "Old Mill East"
planted = 2026-05-12
"""
"""What ``notes-bot init`` writes: it works as it stands."""
