"""Every type that travels from one room to another.

Nothing here computes and nothing here knows mail, SQL or science. All types are frozen; unknown is
``None`` (or an empty tuple), never a guess. Units are in the names or beside the field. The keys that
programs outside rely on (a reading, an outlook) are written from these types by ``notes_bot.asdata``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any, Literal

CalendarDay = date
"""The same type, for classes that have a field called ``date``."""

Colour = Literal["white", "yellow", "tan", "brown"]
COLOURS: tuple[Colour, ...] = ("white", "yellow", "tan", "brown")
"""Colours of the females on a root, in the order one female passes through them."""

Language = Literal["en", "es", "pt"]
LANGUAGES: tuple[Language, ...] = ("en", "es", "pt")

Method = Literal["pulled", "eased", "shovel"]
Moisture = Literal["dry", "moist", "wet"]
Outcome = Literal["seen", "none_seen", "not_looked"]
Resistance = Literal["resistant", "susceptible"]
Role = Literal["scout", "supervisor"]
Stage = Literal["before_first", "early", "peak", "late", "between", "declined"]
Event = Literal["first_white", "peak", "turning_tan", "next_white", "last_look"]
Purpose = Literal[
    "first_look", "catch_peak", "settle_none", "watch_resistance", "next_generation", "last_look", "asked"
]
Verdict = Literal["seen", "too_early", "too_weak", "thin", "fair", "strong", "not_looked", "too_late"]

THIRD_OR_LATER = 3
"""A generation number of 3 always means "third or later": flushes overlap too much to say more."""


# --- what arrived -----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Attachment:
    """One file that came with a message; pictures are kept with the visit and never mailed on."""

    name: str
    content_type: str
    size: int


@dataclass(frozen=True, slots=True)
class Proof:
    """Why we believe, or do not believe, that a message is from the address it names."""

    kind: Literal["dkim", "relay", "token", "code_word", "login", "private_listener", "released", "none"]
    detail: str = ""

    @property
    def holds(self) -> bool:
        return self.kind != "none"


@dataclass(frozen=True, slots=True)
class Message:
    """One message as a person wrote it: decoded, without quoted history and signature."""

    sender: str
    """Address in lower case, or a phone number in international form for a text message."""
    subject: str
    text: str
    """Only what the writer typed this time; lines end in ``\\n``."""
    message_id: str
    """With its angle brackets; one made from the content when the mail had none."""
    arrived_at: datetime
    """Aware, UTC. This decides the order of things."""
    sent_at: datetime | None = None
    """The Date header, aware, UTC: a claim; ``None`` if missing, unreadable or not credible."""
    references: tuple[str, ...] = ()
    """Message-IDs of the conversation, oldest first, In-Reply-To last."""
    by_text: bool = False
    """True when it came from a text-message door: the answer must be one short segment."""
    automatic: str = ""
    """Why this must never be answered (a list, a bounce, an auto-reply, ourselves), or empty."""
    unreadable: str = ""
    """Why no text could be found (encrypted, only a picture, damaged), or empty."""
    attachments: tuple[Attachment, ...] = ()
    to: tuple[str, ...] = ()
    """Our own addresses it was sent to, lower case, as the envelope named them."""
    notice: DeliveryNotice | None = None
    """Set when the message is a report about mail we sent."""


@dataclass(frozen=True, slots=True)
class Paper:
    """Text that came along: a file, or the mail that was forwarded (then without a name)."""

    name: str
    lines: tuple[str, ...] = ()
    trouble: str = ""
    """Why it could not be read, a key of the unreadable mail's reasons, or empty."""


@dataclass(frozen=True, slots=True)
class DeliveryNotice:
    """A bounce: which of our messages, to whom, and whether it is final."""

    address: str
    message_id: str
    final: bool
    status: str
    """Enhanced status code such as 5.1.1, or empty."""
    reason: str = ""


# --- what it says: the reading ----------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Where:
    """A place in the text as written: line and column count from 1."""

    line: int
    column: int
    text: str


@dataclass(frozen=True, slots=True)
class Problem:
    """What a writer got wrong, or what we read only after a correction (then it is a remark)."""

    where: Where
    wrong: str
    """One sentence in the writer's language."""
    instead: str
    """A line that would have worked, or empty for a remark."""
    kind: str = ""
    """Key of the row in grammar/mistakes.toml (or of resolve.py's table) it came from."""
    holds: bool = False
    """True when the note must wait for an answer before it can be stored (unknown field)."""


@dataclass(frozen=True, slots=True)
class Females:
    """Females and cysts counted, totals over all plants of a note or spot. ``None`` = not said."""

    white: int | None = None
    yellow: int | None = None
    tan: int | None = None
    brown: int | None = None
    total: int | None = None

    def by_colour(self) -> tuple[int, int, int, int] | None:
        """White, yellow, tan, brown, or ``None`` when the colours were not counted."""
        if self.white is None or self.yellow is None or self.tan is None or self.brown is None:
            return None
        return (self.white, self.yellow, self.tan, self.brown)


@dataclass(frozen=True, slots=True)
class Spot:
    """One place of a field, or the susceptible check strip, when the note keeps them apart."""

    name: str
    plants: int | None = None
    females: Females = Females()
    per_plant: tuple[int, ...] | None = None
    check: bool = False
    mostly: tuple[Colour, ...] = ()


@dataclass(frozen=True, slots=True)
class Soil:
    moisture: Moisture | None = None
    texture: str | None = None
    """sand, sandy_loam, loam, silt_loam, clay_loam, clay, muck ... or ``None``."""
    ph: float | None = None
    k_ppm: float | None = None


@dataclass(frozen=True, slots=True)
class Variety:
    name: str | None = None
    resistance: Resistance | None = None
    source: str | None = None
    """Source of resistance as the trade names it: PI 88788, Peking, PI 437654 ..."""


@dataclass(frozen=True, slots=True)
class Spray:
    what: str | None = None
    date: date | None = None
    days_ago: int | None = None
    entry_hours: float | None = None
    """Restricted-entry interval as the note states it; never looked up by us."""


@dataclass(frozen=True, slots=True)
class LookAgain:
    """When the writer wants to look again: days from the visit, or a day."""

    days: int | None = None
    date: date | None = None


@dataclass(frozen=True, slots=True)
class Note:
    """One field visited, as the message says it. Meanings are fixed by the note contract in docs/language.md."""

    field: str | None = None
    """Name as written, lower case, single spaces, without the word for "field" itself."""
    date: date | None = None
    plants: int | None = None
    method: Method | None = None
    soaked: bool | None = None
    females: Females = Females()
    mostly: tuple[Colour, ...] = ()
    per_plant: tuple[int, ...] | None = None
    spots: tuple[Spot, ...] = ()
    outcome: Outcome | None = None
    soil: Soil = Soil()
    stage: str | None = None
    roots: tuple[str, ...] = ()
    tops: tuple[str, ...] = ()
    variety: Variety | None = None
    spray: Spray | None = None
    look_again: LookAgain | None = None
    text: str = ""
    planted: CalendarDay | None = None
    too_many: bool = False
    """True for "too many to count": the count given, if any, is a lower bound."""
    where: Where = Where(1, 1, "")
    """Where the note starts, with its whole text as written."""


@dataclass(frozen=True, slots=True)
class Command:
    """Something asked rather than noted. ``kind`` and the keys of ``args`` are listed in docs/language.md."""

    kind: str
    args: Mapping[str, Any] = field(default_factory=dict)
    where: Where = Where(1, 1, "")


@dataclass(frozen=True, slots=True)
class Reading:
    """All that one message says."""

    language: Language
    notes: tuple[Note, ...] = ()
    commands: tuple[Command, ...] = ()
    problems: tuple[Problem, ...] = ()
    remarks: tuple[Problem, ...] = ()


# --- what we keep -----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody who may write to us. People are named by role in all that ships with the project."""

    id: int
    name: str
    role: Role
    crew: str
    addresses: tuple[str, ...]
    """Lower-case mail addresses, then phone numbers; answers go to the first that fits the door."""
    language: Language = "en"
    timezone: str = "America/Chicago"
    day_first: bool = False
    """True where 7/5 is the 7th of May."""
    units: Literal["acre", "hectare"] = "acre"
    hour: int = 6
    """Local hour at which reminders or the digest are sent."""
    reachable: bool = True
    remind: Literal["morning", "evening"] = "morning"
    """Reminders come at ``hour`` on the morning of a look, or at ``hour`` on the evening before."""
    by_clock: bool = True
    """False for whoever turned reminders and digests off (List-Unsubscribe); answers still come."""


@dataclass(frozen=True, slots=True)
class Field:
    """A field of the crew."""

    id: int
    name: str
    """As the crew spells it."""
    crew: str
    aliases: tuple[str, ...] = ()
    latitude: float | None = None
    longitude: float | None = None
    planted: date | None = None
    resistance: Resistance | None = None
    source: str | None = None
    variety: str | None = None
    place: str | None = None
    """State or province, for thresholds that must never travel without it."""
    acres: float | None = None
    muted: bool = False


@dataclass(frozen=True, slots=True)
class Visit:
    """One note placed: which field, which day, who. Superseded visits never reach science."""

    id: int
    field_id: int
    on: date
    note: Note
    person_id: int
    day_assumed: bool = False
    """True when the note named no day and the day it was sent was taken."""


@dataclass(frozen=True, slots=True)
class DayTemperature:
    """One day at one place. Air at 1.5-2 m, soil at about 10 cm, both in degrees Celsius; rain in millimetres."""

    date: date
    tmin_c: float | None = None
    tmax_c: float | None = None
    soil_mean_c: float | None = None
    forecast: bool = False
    rain_mm: float | None = None


@dataclass(frozen=True, slots=True)
class PastYear:
    """Daily mean air temperature of one calendar year at the place temperatures are taken from."""

    year: int
    air_c: tuple[float | None, ...]
    """From 1 January, 365 or 366 values in degrees Celsius; ``None`` where nothing was measured."""


@dataclass(frozen=True, slots=True)
class Climate:
    """Monthly normals of air temperature at a place, January first, degrees Celsius."""

    name: str
    """The stations it was weighted from, for the basis."""
    tmax_c: tuple[float, ...]
    tmin_c: tuple[float, ...]
    assumed: bool = False
    """True when no coordinates were known and a middle-of-the-belt place was taken."""
    distance_km: float | None = None
    """To the nearest station used."""
    from_memory: bool = False
    """True when a station used has no readable table behind it; expect errors of 1 C or more."""


@dataclass(frozen=True, slots=True)
class History:
    """What is known of one field on the day of the question: all the science is given."""

    latitude: float | None = None
    longitude: float | None = None
    planted: date | None = None
    resistance: Resistance | None = None
    visits: tuple[Visit, ...] = ()
    """This season's visits, oldest first, corrections applied."""
    entry_closed_until: datetime | None = None
    """Aware. Nobody may enter before it (stated restricted-entry interval)."""
    found_before: bool | None = None
    """True when females, cysts or eggs were ever found in this field in earlier seasons."""
    infested_prior: float | None = None
    """Chance (0-1) of infestation before this season where the crew knows better than even: from the neighbours and
    the field's own earlier seasons (`notes_bot.before`). ``found_before`` wins over it."""
    prior_basis: tuple[Fact, ...] = ()
    """What ``infested_prior`` rests on, keys in ``notes_bot.before.PRIOR_KEYS``."""


@dataclass(frozen=True, slots=True)
class Resolved:
    """A reading placed for this writer: notes joined with fields and days, the rest as problems."""

    visits: tuple[Placed, ...] = ()
    commands: tuple[Command, ...] = ()
    problems: tuple[Problem, ...] = ()
    remarks: tuple[Problem, ...] = ()
    held: tuple[Held, ...] = ()


@dataclass(frozen=True, slots=True)
class Placed:
    """A note that found its field and day."""

    field: Field
    on: date
    note: Note
    day_assumed: bool = False
    entry_closed_until: datetime | None = None


@dataclass(frozen=True, slots=True)
class Held:
    """A note whose field is not known: kept until a one-word reply settles it."""

    note: Note
    nearest: tuple[str, ...]
    """Names of the crew's fields that come nearest, best first."""


# --- what it means: the outlook ---------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Fact:
    """A short statement by key; the reply room has the words for every key in every language."""

    key: str
    values: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Interval:
    """A number with its 80 % interval."""

    low: float
    likely: float
    high: float


@dataclass(frozen=True, slots=True)
class Window:
    """Days on which an event is 10 %, 50 % and 90 % likely to have happened."""

    event: Event
    generation: int | None
    earliest: date
    likely: date
    latest: date


@dataclass(frozen=True, slots=True)
class Recheck:
    """When to look again and what for."""

    earliest: date
    likely: date
    latest: date
    purpose: Purpose
    why: Fact


@dataclass(frozen=True, slots=True)
class MixDay:
    """Expected females on the roots on one day: shares by colour of the season's highest day (0-1)."""

    date: date
    white: float
    yellow: float
    tan: float
    brown: float


@dataclass(frozen=True, slots=True)
class SpotDensity:
    name: str
    females_per_plant: Interval
    check: bool = False


@dataclass(frozen=True, slots=True)
class ResistanceWatch:
    """Is the resistance holding? A field comparison, not a greenhouse female index."""

    verdict: Literal["holding", "watch", "slipping"]
    probability: float
    """Of the verdict named."""
    females_per_root: Interval
    percent_of_check: Interval | None
    """Ratio to the susceptible check strip, percent; ``None`` without a strip."""
    reasons: tuple[Fact, ...] = ()


@dataclass(frozen=True, slots=True)
class LookAlike:
    """One possible cause of what the tops show."""

    cause: str
    """Key: scn, iron, potassium, nitrogen, manganese, glyphosate_flash, sds, bsr ..."""
    probability: float
    evidence_for: tuple[str, ...] = ()
    """Keys of the clues in the note that speak for it."""
    evidence_against: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Change:
    """Females per plant now against the last look with a count."""

    since: date
    ratio: Interval
    """Now over then; 1 = the same."""
    chance_more: float
    """Chance (0-1) that there are more now, as counted."""
    comparable: bool
    """False when the two looks differ in a way that alone could make the difference."""
    reasons: tuple[Fact, ...] = ()
    """What differs, keys in ``notes_bot.worth.CHANGE_KEYS``."""
    then: float | None = None
    """Females per plant counted at the earlier look, at the places both name where there are such; ``None`` where its
    places differed or the count was a lower bound."""


@dataclass(frozen=True, slots=True)
class LookPlan:
    """How a look must be made to show a light infestation."""

    method: Method
    soaked: bool
    places: int
    plants: Mapping[int, int | None]
    """Percent sure (80, 90, 95, or the one asked for) -> plants in all; ``None`` when no number of plants does it that
    way."""


@dataclass(frozen=True, slots=True)
class LookAdvice:
    """Planning a look: ways to make it, the one asked for or the best first."""

    condition: str
    """Soil taken: sand, loam, clay (moist), dry or wet."""
    plans: tuple[LookPlan, ...]
    own: tuple[Fact, ...] = ()
    """The crew's own digging trial, where one of the ways rests on it."""


@dataclass(frozen=True, slots=True)
class LookTold:
    """What so many plants with no females on them would tell, females being out."""

    plants: int
    places: int
    method: Method | None
    soaked: bool | None
    detection: float
    """Chance (0-1) to have shown a light infestation."""
    overlooked: float
    """Females per plant (field mean) overlooked every second time; at most 100."""
    before: float
    """Chance of infestation (0-1) taken to start from."""
    after: float
    best: LookPlan
    """The best way to look instead."""
    own: tuple[Fact, ...] = ()


@dataclass(frozen=True, slots=True)
class Finding:
    """What the latest look is worth."""

    verdict: Verdict
    """For none seen: too_early/too_late = no females could show; too_weak, thin, fair, strong by detection."""
    detection: float | None = None
    """Chance that this look would have shown a light infestation, females being out (0-1)."""
    visible: float | None = None
    """Chance that any females could be seen on that day (0-1)."""
    infested_before: float | None = None
    infested_after: float | None = None
    prior_is_convention: bool = True
    females_per_plant: Interval | None = None
    spots: tuple[SpotDensity, ...] = ()
    plants_needed: Mapping[int, int] = field(default_factory=dict)
    """Percent sure (80, 90, 95) -> plants to dig by the best method at hand, light infestation."""
    settle: tuple[Fact, ...] = ()
    """What would settle a doubtful none, cheapest first."""
    resistance: ResistanceWatch | None = None
    look_alikes: tuple[LookAlike, ...] = ()
    """Ranked; empty when the tops said nothing."""
    both: tuple[str, ...] = ()
    """Two causes that are probably true at once, or empty."""
    separating_check: Fact | None = None
    cautions: tuple[Fact, ...] = ()
    change: Change | None = None
    """Against the season's last look with a count; ``None`` without one."""
    overlooked: float | None = None
    """None seen: females per plant (field mean) that such a look would overlook every second time, females being out.
    At most 100, which then means "100 or more"."""
    prior: tuple[Fact, ...] = ()
    """What the chance before the season's looks rests on; empty when it is only a convention."""
    own: tuple[Fact, ...] = ()
    """The crew's own digging trial, where the worth of this look rests on it."""


@dataclass(frozen=True, slots=True)
class Outlook:
    """Where the population is and what comes next, for one field on one day."""

    as_of: date
    stage: Stage
    generation: int | None
    """1, 2, or 3 for "third or later"; ``None`` when it cannot be said."""
    generation_probability: float | None
    windows: tuple[Window, ...]
    infested_probability: float
    recheck: Recheck | None
    no_recheck: Fact | None = None
    """Why there is no look-again window."""
    finding: Finding | None = None
    """What the latest visit is worth; ``None`` without visits."""
    sure: Literal["thin", "fair", "firm"] = "thin"
    basis: tuple[Fact, ...] = ()
    mix: tuple[MixDay, ...] = ()
    """Daily, planting to the end of the roots; empty when not asked for."""


# --- the winter half: soil sample, laboratory, plan ---------------------------------------------------


@dataclass(frozen=True, slots=True)
class EggCount:
    """One laboratory count of a field, as it was told and in eggs per 100 cm3 of soil."""

    on: date
    """Day of the sample, or the day it was told."""
    value: float
    unit: str
    """As told: "eggs per 250 cc", "cysts per 100 cc", "eggs per cup", "eggs per kg"."""
    eggs: Interval
    """Low and high differ only where the conversion is not exact (weight, cysts)."""
    basis: str
    """Of the conversion, a key of ``notes_bot.science.eggs``."""
    cores: int | None = None
    place: str | None = None
    """State or province the message named."""
    next_crop: Literal["soybean", "other"] | None = None
    after: Literal["soybean", "other"] | None = None
    day_assumed: bool = False
    mean: Interval = Interval(0.0, 0.0, 0.0)
    """The field's mean behind the count, 80 %: sampling error, widened by the conversion."""


@dataclass(frozen=True, slots=True)
class Part:
    """One paragraph of a sheet: statements by key, in order. ``title`` is a key of the reply room's headings."""

    title: str
    facts: tuple[Fact, ...]


@dataclass(frozen=True, slots=True)
class DigPoint:
    """Where plants were dug, for a sketch: degrees, females a plant (``None`` = not counted)."""

    latitude: float
    longitude: float
    name: str
    on: date
    zone: Literal["infested", "clean", "suspect"]
    females_per_plant: float | None = None


@dataclass(frozen=True, slots=True)
class PlanLine:
    """Eggs per 100 cm3 over the years of one plan, for a figure: label, year and 80 % interval."""

    label: str
    years: tuple[tuple[int, Interval], ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """What a question of the winter half is answered with, before it has words."""

    kind: Literal["lab", "sample", "hg", "rotation", "watch", "report"]
    field: str
    """The field's name; empty when the sheet is about several."""
    heads: tuple[Fact, ...]
    """The same headline, longest wording first: the first that fits a lock screen is taken."""
    parts: tuple[Part, ...] = ()
    short: tuple[Fact, ...] = ()
    """For text messages, most useful first."""
    points: tuple[DigPoint, ...] = ()
    counts: tuple[EggCount, ...] = ()
    plans: tuple[PlanLine, ...] = ()


# --- what we send -----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Document:
    """A file that goes with a mail."""

    name: str
    content_type: str
    data: bytes


@dataclass(frozen=True, slots=True)
class Picture:
    """A PNG with the words that say the same."""

    content_id: str
    name: str
    png: bytes
    alt: str


@dataclass(frozen=True, slots=True)
class Reply:
    """A finished message, before it becomes mail."""

    subject: str
    text: str
    """Complete without html or pictures; short lines."""
    short: str = ""
    """At most 160 GSM-7 characters, for text-message doors."""
    html: str = ""
    pictures: tuple[Picture, ...] = ()
    calendar: bytes = b""
    """RFC 5545, or empty."""
    documents: tuple[Document, ...] = ()
    """Pages to print, after everything else."""


@dataclass(frozen=True, slots=True)
class FieldToday:
    """All a digest or a reminder says of one field."""

    field: Field
    outlook: Outlook
    last_visit: Visit | None
    last_by: str = ""
    """Name of the person of the last visit."""
    status: Literal["infested", "not_found", "doubtful", "unseen"] = "unseen"
    overdue: bool = False
    changed: bool = False
    """True when something new was noted since the last digest."""
    first_find: bool = False
    """True when the change is the first find of females in this field this season."""
    window_closed: CalendarDay | None = None
    """Last day of a promised window that passed without a look, when overdue."""
    next_by: str = ""
    """Name of the person who is to look next."""
    visits: tuple[Visit, ...] = ()
    """This season's visits, oldest first, for the season figure; only needed where something changed."""


@dataclass(frozen=True, slots=True)
class Day:
    """What a supervisor's digest is made from."""

    on: date
    crew: str
    fields: tuple[FieldToday, ...]
    held: tuple[Waiting, ...] = ()
    unreachable: tuple[str, ...] = ()
    notices: tuple[Fact, ...] = ()


@dataclass(frozen=True, slots=True)
class Waiting:
    """A held message as the supervisor is shown it: never more than is needed to decide."""

    number: int
    sender: str
    reason: str
    first_line: str
    """Empty for a stranger who may be any crew's: what is not for this crew is not shown to it."""
    arrived_at: datetime
    by_mail: bool = True
    """False when no reply can settle it: it may be another crew's, so the keeper decides."""


@dataclass(frozen=True, slots=True)
class Reminder:
    """A look-again window that was promised to a person. One per field and season window."""

    id: int
    field_id: int
    person_id: int
    earliest: date
    likely: date
    latest: date
    purpose: Purpose
    state: Literal["waiting", "sent", "nudged", "kept", "closed", "cancelled"] = "waiting"
    uid: str = ""
    """Stable calendar UID."""
    sequence: int = 0
    changed_at: datetime | None = None
    """Aware, UTC: when it came into its state; of one that was sent, when that was."""


@dataclass(frozen=True, slots=True)
class Standing:
    """How a field stood when it was last reckoned through: what counts and maps need without reckoning again."""

    field_id: int
    as_of: date
    stage: Stage
    generation: int | None
    verdict: Verdict | None
    """Of the latest look; ``None`` without visits."""
    females: Interval | None
    """Females per plant, where there was a count."""
    watch: Literal["holding", "watch", "slipping"] | None
    """How the resistance does, where that was judged, with the probability of it."""
    watch_probability: float
    recheck: Recheck | None
    """The outlook's own window, without the words of its reason."""


# --- what one message leads to: written in one transaction -------------------------------------------


@dataclass(frozen=True, slots=True)
class NewVisit:
    """A visit to be recorded; ``replaces`` names the visit it corrects."""

    field_id: int
    on: date
    note: Note
    person_id: int
    day_assumed: bool = False
    entry_closed_until: datetime | None = None
    replaces: int | None = None


@dataclass(frozen=True, slots=True)
class NewEvent:
    """Anything said that is not a visit: a command obeyed, a lab result, a mute."""

    kind: str
    args: Mapping[str, Any] = field(default_factory=dict)
    field_id: int | None = None
    person_id: int | None = None


@dataclass(frozen=True, slots=True)
class Promise:
    """A look-again window promised to a person for a field: replaces the field's open one."""

    field_id: int
    person_id: int
    earliest: date
    likely: date
    latest: date
    purpose: Purpose
    uid: str
    sequence: int


@dataclass(frozen=True, slots=True)
class Outgoing:
    """A finished message for the outbox: the same bytes however often it is tried."""

    kind: Literal["answer", "reminder", "digest", "notice"]
    door: Literal["mail", "text"]
    recipient: str
    envelope_from: str
    message_id: str
    raw: bytes
    body: str
    """The text part, so that a quoted line can be known as ours."""
    queued_at: datetime
    expires_at: datetime
    person_id: int | None = None
    field_id: int | None = None
    about: tuple[int, ...] = ()
    """Fields it speaks of when it speaks of several: what a bare word in a reply may mean."""


@dataclass(frozen=True, slots=True)
class Filing:
    """All effects of one inbox message. The store writes them and the message's end state together."""

    inbox_id: int
    state: Literal["done", "held", "filed"]
    reason: str = ""
    sender: str = ""
    message_id: str = ""
    person_id: int | None = None
    first_line: str = ""
    """Of a held message: what a supervisor needs to decide, no more."""
    repeat_key: str = ""
    proof: str = ""
    """What proved the sender: kind and detail."""
    shown_to: str = ""
    """Crew whose supervisors are shown a held message; empty when it may be any crew's."""
    visits: tuple[NewVisit, ...] = ()
    taken_back: tuple[int, ...] = ()
    """Ids of visits taken back."""
    events: tuple[NewEvent, ...] = ()
    held: tuple[Held, ...] = ()
    held_day: date | None = None
    settled: tuple[int, ...] = ()
    """Ids of held notes that found their field or were dropped."""
    fields: tuple[Field, ...] = ()
    """Fields added (unknown id) or changed."""
    people: tuple[Person, ...] = ()
    """People whose settings or reachability changed."""
    promises: tuple[Promise, ...] = ()
    ended: tuple[int, ...] = ()
    """Field ids whose open promise ends without a new one (visited, taken back, muted)."""
    released: tuple[int, ...] = ()
    """Inbox ids of held messages that a supervisor let through."""
    refused: tuple[int, ...] = ()
    outgoing: tuple[Outgoing, ...] = ()


class DatabaseWrong(RuntimeError):
    """The database file cannot be used; the message says why and what to do."""
