"""Reading all kept messages again: what the records would be today, what differs, and putting them right.

The desk is the real one, on a store of its own that sends nothing. The clock is walked from message to message as it
went then, reminders fall due in between, and what proved a sender then is not asked again: keys and code words change.
"""

from __future__ import annotations

import hashlib
import shutil
import tempfile
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, time, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from notes_bot.desk import Desk
from notes_bot.language import spell
from notes_bot.mail import prove
from notes_bot.mail.identity import Accept, first_word
from notes_bot.model import Field, Proof
from notes_bot.rounds import Rounds
from notes_bot.service import only_one, what_counts
from notes_bot.settings import Settings
from notes_bot.store import Kept, Store, copy_file
from notes_bot.store.rebuild import (
    Rebuilt,
    Record,
    last_sign_of_life,
    messages_in,
    now_text,
    outlines_in,
    records_in,
    swap_in,
)

ORDER = ("message", "visit", "event", "waiting note", "field", "window")


@dataclass(frozen=True, slots=True)
class Comparison:
    """What reading again gave."""

    messages: int
    records: int
    only_kept: tuple[Record, ...]
    """In the database, but not when read again."""
    only_reread: tuple[Record, ...]
    """When read again, but not in the database."""

    @property
    def same(self) -> bool:
        return not (self.only_kept or self.only_reread)


def reread(
    settings: Settings, now: Callable[[], datetime], *, swap: bool = False, tell: Callable[[str], None] = lambda _: None
) -> tuple[Comparison, Path | None]:
    """Read all messages again and compare; with ``swap`` put the new records in place when they differ.

    Without ``swap`` the service may go on meanwhile: a copy is looked at. Gives the comparison and, after a swap, the
    file that holds everything as it was before.

    Raises:
        ServiceWrong: to swap, the service must be stopped.
        DatabaseWrong, OSError, sqlite3.Error: the database cannot be used; nothing was changed.
    """
    folder = settings.service.folder
    with closing(only_one(folder)) if swap else closing(_Nothing()):
        work = Path(tempfile.mkdtemp(prefix="rereading-", dir=folder))
        try:
            old = work / "old.db"
            copy_file(settings.database, old)
            made = _Again(settings, old, work, tell).read_all()
            compared = _compare(old, made)
            if compared.same or not swap:
                return compared, None
            backup = folder / f"notes-before-reread-{now_text(now())}.db"
            copy_file(settings.database, backup)
            swap_in(settings.database, made)
            return compared, backup
        finally:
            shutil.rmtree(work, ignore_errors=True)


class _Nothing:
    def close(self) -> None:
        """No lock is held."""


def _compare(old: Path, made: Path) -> Comparison:
    before, after = Counter(records_in(old)), Counter(records_in(made))
    messages = sum(count for record, count in before.items() if record.kind == "message")
    return Comparison(
        messages,
        before.total() - messages,
        tuple(sorted((before - after).elements(), key=_by_place)),
        tuple(sorted((after - before).elements(), key=_by_place)),
    )


def _by_place(record: Record) -> tuple[int, int, str, str, str]:
    return (record.at or 1 << 62, ORDER.index(record.kind), record.field, record.day, record.rest)


# --- reading again ----------------------------------------------------------------------------------


@dataclass
class _Clock:
    """Shows the instant of then."""

    at: datetime

    def __call__(self) -> datetime:
        return self.at


@dataclass
class _Again:
    """One run over all messages of a copy."""

    settings: Settings
    old: Path
    work: Path
    tell: Callable[[str], None]
    was: dict[int, Kept] = field(default_factory=dict)

    def read_all(self) -> Path:
        """The file with the new records.

        A field, or something told of one, that neither the settings nor any message gives came from an earlier
        settings file: it is taken from the old records, and all is read once more.
        """
        with closing(Store(self.old)) as store:
            store.adopt(self.settings.people, self.settings.fields)
        self.was = {kept.id: kept for kept in outlines_in(self.old)}
        fields: tuple[Field, ...] = self.settings.fields
        for turn in ("first", "second"):
            made = self.work / f"{turn}.db"
            with closing(Rebuilt(made, self.old)) as store:
                self._read(store, fields)
                store.adopt((), self.settings.fields)
                former = store.fields_of_former_files(fields)
            if former == fields:
                break
            fields = former
        return made

    def _read(self, store: Rebuilt, fields: Sequence[Field]) -> None:
        store.begin(fields)
        instants = _instants(list(self.was.values()))
        end = last_sign_of_life(self.old)
        if not instants or end is None:
            return
        clock = _Clock(min(instants.values()))
        desk = Desk(store, self.settings, clock)
        rounds = Rounds(store, self.settings, desk, clock)
        desk.digest = None  # a digest changes no record
        desk.prover = lambda kept: self._as_then(desk, kept, instants)
        accept = what_counts(self.settings, store, _key(self.settings.service.folder), clock)
        mornings = self._mornings(store, clock.at, end)
        due = next(mornings, None)
        done = 0
        for kept in messages_in(self.old):
            if kept.id not in instants:
                continue  # still in line: the service deals with it
            at = max(instants[kept.id], clock.at)
            while due is not None and due <= at:
                clock.at = due
                store.sent_on(due)
                rounds.close_windows()
                rounds.reminders()
                due = next(mornings, None)
            clock.at = at
            store.sent_on(at)
            store.receive(kept)
            self._deal(store, desk, accept, kept)
            for free in store.waiting():  # what a supervisor let through
                self._deal(store, desk, accept, self._whole(free))
            done += 1
            if done % 500 == 0:
                self.tell(f"{done} of {len(instants)} messages read again")
        while due is not None:
            clock.at = max(due, clock.at)
            store.sent_on(clock.at)
            rounds.close_windows()
            rounds.reminders()
            due = next(mornings, None)

    def _deal(self, store: Rebuilt, desk: Desk, accept: Accept, kept: Kept) -> None:
        """Take one message to the desk, twice if it fails."""
        if self.was[kept.id].proof.startswith("code_word"):
            # The word of then, which may be another today, is taken off again.
            desk.accept = accept
            accept = replace(accept, code_word=first_word(desk.open(kept).text))
        desk.accept = accept
        for _ in range(2):
            standing = store.kept(kept.id)
            if standing is not None and standing.state == "waiting":
                desk.turn(replace(standing, raw=kept.raw))

    def _whole(self, kept: Kept) -> Kept:
        with closing(Store(self.old)) as store:
            whole = store.kept(kept.id)
        return replace(kept, raw=whole.raw if whole is not None else b"")

    def _as_then(self, desk: Desk, kept: Kept, instants: dict[int, datetime]) -> Proof:
        """What proved the sender then; where that is not known, whether anything did."""
        was = self.was[kept.id]
        kind, _, detail = was.proof.partition(" ")
        later = was.finished_at is not None and was.dealt_at is None and was.finished_at > instants[kept.id]
        if kind == "released" or (was.state == "held" and was.reason == "unproved") or (later and not kind):
            return Proof("none", "not proved then")
        if kind:
            return Proof(kind, detail)  # type: ignore[arg-type] # one of the kinds, as kept
        if (of := was.reason.removeprefix("repeat of message ")).isdecimal() and int(of) > was.id:
            return Proof("none", "a copy that was held until the other came")
        if was.state == "done" or was.reason.startswith(("repeat of", "too_many", "busy")):
            return Proof("private_listener", "believed then")
        message = desk.open(kept)
        return prove(kept.raw, message, accept=desk.accept, door=kept.door, peer=kept.peer)

    def _mornings(self, store: Rebuilt, since: datetime, until: datetime) -> Iterator[datetime]:
        """The instants at which reminders fall due: midnight and each person's hour, in each zone."""
        people = store.people()
        marks = {(p.timezone, hour) for p in people for hour in (0, p.hour)}
        day = since.date() - timedelta(days=1)
        while day <= until.date() + timedelta(days=1):
            instants = {datetime.combine(day, time(hour), ZoneInfo(zone)).astimezone(UTC) for zone, hour in marks}
            yield from sorted(instant for instant in instants if since < instant <= until)
            day += timedelta(days=1)


def _instants(kept: Sequence[Kept]) -> dict[int, datetime]:
    """When each message was at the desk first. Not known of old ones: then it was no later than any that came after
    it, and no later than it was finished."""
    found: dict[int, datetime] = {}
    next_one: datetime | None = None
    for was in reversed(kept):
        if was.state == "waiting":
            continue
        known = was.dealt_at
        if known is None:
            candidates = [at for at in (was.finished_at, next_one) if at is not None]
            known = min(candidates) if candidates and was.state != "held" else was.arrived_at
        found[was.id] = next_one = known
    return dict(sorted(found.items()))


def _key(folder: Path) -> bytes:
    try:
        return (folder / "token.key").read_bytes()
    except OSError:
        return hashlib.sha256(b"").digest()


# --- in words ---------------------------------------------------------------------------------------


def in_words(compared: Comparison, swapped: Path | None = None) -> Iterator[str]:
    """The comparison as lines for people."""
    yield f"{compared.messages} messages read again, {compared.records} records compared"
    if compared.same:
        yield "everything agrees"
        return
    last = ""
    both = [*((r, "the database:") for r in compared.only_kept), *((r, "read again:  ") for r in compared.only_reread)]
    for record, side in sorted(both, key=lambda pair: (_by_place(pair[0])[:3], pair[1] == "read again:  ")):
        place = f"message {record.at}" if record.at else record.field
        if place != last:
            yield place
            last = place
        yield f"  {side} {_told(record)}"
    yield f"{len(compared.only_kept)} only in the database, {len(compared.only_reread)} only when read again"
    if swapped is not None:
        yield f"the records read again are in place; everything as it was is in {swapped}"
    else:
        yield "nothing was changed; to put what was read again in place, stop the service and add --replace"


def _told(record: Record) -> str:
    if record.kind == "message":
        return record.rest
    words = [record.kind, record.field, record.day]
    if record.note is not None:
        words.append(f"({spell(replace(record.note, field=None, date=None), 'en')})")
    words += [f"by {record.person}" if record.person else "", record.rest]
    return " ".join(word for word in words if word)
