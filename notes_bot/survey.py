"""The crew's picture of a day, for digests: every field, each number as fresh as it must be and no fresher.

To reckon one field through takes some milliseconds, so a crew of thousands cannot be reckoned anew for every digest.
How each field stood is kept (``Standing``) and goes void with every note and every change of the field. What a digest
*says* of a field is reckoned on the day itself; what it only *counts*, sorts and draws may rest on a standing, which
an idle service renews once it is void or a week old. Crews up to ``FRESH_THROUGHOUT`` fields are always fresh.
"""

from __future__ import annotations

import logging
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from notes_bot.deeds import Span, outlook_of, quiet_this_season, season_start, status_of
from notes_bot.model import (
    Day,
    Fact,
    Field,
    FieldToday,
    Finding,
    Interval,
    Outlook,
    Recheck,
    Reminder,
    ResistanceWatch,
    Standing,
)
from notes_bot.reply import drawn_by_season, told_in_full
from notes_bot.store import Looks, Store

log = logging.getLogger("notes_bot")

FRESH_THROUGHOUT = 300
"""Crews up to this size are reckoned anew for each digest."""
ROUNDS = 2
PATIENCE = timedelta(seconds=12)
"""So long a digest goes on reckoning; what is left is told as it last stood. A slow machine must not keep mail."""
UNKNOWN_AT_ONCE = 50
"""Fields of a larger crew that were never reckoned, for one digest; the idle service sees to the others."""
STANDS = timedelta(days=7)
"""An idle service renews what is older."""
WEATHER_STALE = timedelta(days=5)
"""A field whose temperatures were measured once this season and stop this long before today is told."""


@dataclass(frozen=True, slots=True)
class Since:
    """What counts as new."""

    instant: datetime
    """Noted after it."""
    all_notices: bool = False
    """Tell notices that were told before as well."""
    days_down: int = 0
    """Days without the service since the last digest."""


class Survey:
    """A crew's fields on a day."""

    def __init__(self, store: Store, crew: str, today: date, zone: str, now: Callable[[], datetime]) -> None:
        self._now, self._until = now, now() + PATIENCE
        self.store, self.crew, self.today, self.zone = store, crew, today, zone
        self.fields = {known.id: known for known in store.fields(crew)}
        starts = {season_start(today, known.latitude) for known in self.fields.values()}
        self._looks = {start: store.crew_looks(crew, start, today) for start in starts}
        self._missed = {start: store.crew_missed(crew, start) for start in starts}
        self._standings = store.standings(crew)
        self._promises = {promise.field_id: promise for promise in store.open_promises(crew)}
        self._names = {person.id: person.name for person in store.people()}
        self._fresh: dict[int, FieldToday] = {}
        self._kept: dict[int, Standing] = {}

    def day(self, since: Since, span: Span) -> Day:
        """The picture for a digest: fresh wherever it is told, and standings written down for the next."""
        noted = self.store.fields_noted_since(self.crew, since.instant)
        self._renew(noted)
        rounds = 0
        while True:
            day = self._picture(since, noted)
            pale = [field_id for field_id in told_in_full(day, span) if field_id not in self._fresh]
            if not pale:
                break
            rounds += 1
            for field_id in pale:
                # Fields that were never reckoned change their place in the list as they are: in the end notes must do.
                if (rounds > ROUNDS and field_id not in self._standings) or self._out_of_time():
                    self._fresh[field_id] = self._with_last(self._pale(self.fields[field_id], noted))
                else:
                    self._reckon(self.fields[field_id], noted)
        day = self._with_seasons(day, span)
        self.store.keep_standings(self._kept.values())
        self._kept.clear()
        return day

    def _out_of_time(self) -> bool:
        return self._now() >= self._until

    def _with_seasons(self, day: Day, span: Span) -> Day:
        """With the expected mix of every day for the few fields whose season is drawn: it is most of the reckoning."""
        drawn = set() if self._out_of_time() else set(drawn_by_season(day, span))
        return replace(day, fields=tuple(self._with_mix(f) if f.field.id in drawn else f for f in day.fields))

    def _with_mix(self, known: FieldToday) -> FieldToday:
        try:
            outlook = outlook_of(
                self.store, known.field, self.today, zone=self.zone, visits=known.visits, with_mix=True
            )
        except Exception:
            log.exception("the season of field %d could not be reckoned; the digest goes on without", known.field.id)
            return known
        return replace(known, outlook=replace(known.outlook, mix=outlook.mix))

    # --- reckoning ---

    def _renew(self, noted: frozenset[int]) -> None:
        """Reckon a small crew's fields; of a large one those of which nothing is known, newly noted ones first."""
        wanted = [field_id for field_id in self.fields if field_id not in self._standings]
        wanted.sort(key=lambda field_id: (field_id not in noted, field_id))
        small = len(self.fields) <= FRESH_THROUGHOUT
        for field_id in list(self.fields) if small else wanted[:UNKNOWN_AT_ONCE]:
            if self._out_of_time():
                break
            self._reckon(self.fields[field_id], noted)

    def _reckon(self, known: Field, noted: frozenset[int]) -> None:
        changed = known.id in noted
        season = self.store.visits(known.id, season_start(self.today, known.latitude), self.today)
        try:
            fresh = outlook_of(self.store, known, self.today, zone=self.zone, visits=season)
            self._standings[known.id] = self._kept[known.id] = standing_of(known, fresh)
        except Exception:
            log.exception("field %d could not be reckoned; the digest goes on without its outlook", known.id)
            fresh = _unknown(self.today)
        last = season[-1] if season else None
        known_today = self._today(known, fresh, status_of(season, fresh), changed=changed)
        self._fresh[known.id] = replace(
            known_today,
            last_visit=last,
            last_by=self._names.get(last.person_id, "") if last else "",
            visits=tuple(season) if changed else (),
        )

    def _with_last(self, known: FieldToday) -> FieldToday:
        """With its last visit, and nothing reckoned from it."""
        season = self.store.visits(known.field.id, season_start(self.today, known.field.latitude), self.today)
        last = season[-1] if season else None
        return replace(known, last_visit=last, last_by=self._names.get(last.person_id, "") if last else "")

    def _picture(self, since: Since, noted: frozenset[int]) -> Day:
        fields = [self._fresh.get(known.id) or self._pale(known, noted) for known in self.fields.values()]
        people = self.store.people()
        return Day(
            self.today,
            self.crew,
            tuple(fields),
            self.store.held_messages(self.crew),
            tuple(person.name for person in people if person.crew == self.crew and not person.reachable),
            tuple(self._notices(since)),
        )

    def _pale(self, known: Field, noted: frozenset[int]) -> FieldToday:
        """A field as it stood when it was last reckoned: enough to count, sort and draw it."""
        standing = self._standings.get(known.id)
        outlook = _outlook_from(standing) if standing is not None else _unknown(self.today)
        looks = self._looks_at(known)
        status = (
            "unseen" if looks.last is None else "infested" if looks.found else "doubtful" if looks.none else "unseen"
        )
        if status == "doubtful" and standing is not None and standing.verdict in ("fair", "strong"):
            status = "not_found"
        return self._today(known, outlook, status, changed=known.id in noted)

    def _today(self, known: Field, outlook: Outlook, status: str, *, changed: bool) -> FieldToday:
        looks, promise = self._looks_at(known), self._promises.get(known.id)
        start = season_start(self.today, known.latitude)
        # With the roots gone there is nothing left to be late for.
        over = known.muted or outlook.recheck is None
        missed = () if over else self._missed[start].get(known.id, ())
        return FieldToday(
            field=known,
            outlook=as_promised(outlook, promise),
            last_visit=None,
            status=status,  # type: ignore[arg-type] # one of the model's words
            overdue=bool(missed),
            changed=changed,
            first_find=changed and looks.found is not None and looks.found == looks.last,
            window_closed=missed[0] if missed else None,
            next_by=self._names.get(promise.person_id, "") if promise else "",
        )

    def _looks_at(self, known: Field) -> Looks:
        return self._looks[season_start(self.today, known.latitude)].get(known.id, Looks())

    # --- what the service itself has to say ---

    def _notices(self, since: Since) -> list[Fact]:
        told = []
        if since.days_down:
            told.append(Fact("late_service", {"days": since.days_down + 1}))
        stuck = self.store.counts().get("inbox stuck", 0)
        if stuck:
            told.append(Fact("stuck_messages", {"count": stuck}))
        for person in self.store.people():
            if person.crew != self.crew:
                continue
            if not person.by_clock:
                told.append(Fact("turned_off", {"name": person.name}))
            elif quiet_this_season(self.store, person, self.today):
                told.append(Fact("turned_off_season", {"name": person.name}))
        told += self._stale_weather(since)
        unknown = sum(field_id not in self._standings for field_id in self.fields)
        if unknown:
            told.append(Fact("unreckoned", {"count": unknown}))
        return told

    def _stale_weather(self, since: Since) -> list[Fact]:
        """Temperatures that stopped coming for some fields: said when it comes to light, then once a week."""
        starts = {season_start(self.today, known.latitude) for known in self.fields.values()}
        if not starts:
            return []
        measured = self.store.last_measured(min(starts), self.today)
        general = measured.get("*")
        ends = [measured.get(known.name.casefold(), general) for known in self.fields.values()]
        stale = [end for end in ends if end is not None and self.today - end > WEATHER_STALE]
        news = since.all_notices or any(end + WEATHER_STALE >= since.instant.date() for end in stale)
        return [Fact("weather_stale", {"day": max(stale).isoformat()})] if stale and news else []


def renew_idle(store: Store, today: date, zone_of: dict[str, str], most: int) -> int:
    """Reckon the fields whose standing is unknown or oldest, up to ``most``; gives how many were."""
    found: list[Standing] = []
    for known, _ in store.unreckoned(today - STANDS, most):
        try:
            outlook = outlook_of(store, known, today, zone=zone_of.get(known.crew, ""))
        except Exception:
            log.exception("field %d could not be reckoned; the others do not wait for it", known.id)
            outlook = _unknown(today)
        found.append(standing_of(known, outlook))
    store.keep_standings(found)
    return len(found)


def standing_of(known: Field, outlook: Outlook) -> Standing:
    """What is kept of an outlook."""
    finding = outlook.finding
    watch = finding.resistance if finding else None
    return Standing(
        known.id,
        outlook.as_of,
        outlook.stage,
        outlook.generation,
        finding.verdict if finding else None,
        finding.females_per_plant if finding else None,
        watch.verdict if watch else None,
        watch.probability if watch else 0.0,
        outlook.recheck,
    )


def as_promised(outlook: Outlook, promise: Reminder | None) -> Outlook:
    """With the window that was promised: it stays put until the next look, while the outlook moves on daily."""
    if promise is None:
        return outlook
    why = outlook.recheck.why if outlook.recheck else Fact("promised", {})
    window = Recheck(promise.earliest, promise.likely, promise.latest, promise.purpose, why)
    return replace(outlook, recheck=window)


def _outlook_from(standing: Standing) -> Outlook:
    finding = None
    if standing.verdict is not None:
        females = standing.females or Interval(0.0, 0.0, 0.0)
        watch = standing.watch and ResistanceWatch(standing.watch, standing.watch_probability, females, None)
        finding = Finding(standing.verdict, females_per_plant=standing.females, resistance=watch or None)
    return Outlook(
        standing.as_of, standing.stage, standing.generation, None, (), 0.0, standing.recheck, finding=finding
    )


def _unknown(today: date) -> Outlook:
    return Outlook(today, "before_first", None, None, (), 0.0, None)
