"""What one message leads to, gathered in memory: notes recorded, commands obeyed, windows promised.

One deed, one function. Nothing is written here; the desk hands the whole to the store, which writes it in one
transaction, so a message is never half done. A deed a writer may not do, or that finds nothing to act on,
becomes an answer, not an error.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime, time, timedelta
from typing import Any, Literal
from zoneinfo import ZoneInfo

from notes_bot import before, own_trial
from notes_bot.language import help_text
from notes_bot.model import (
    COLOURS,
    Climate,
    Command,
    DayTemperature,
    Fact,
    Females,
    Field,
    Filing,
    Held,
    History,
    LookAgain,
    NewEvent,
    NewVisit,
    Note,
    Outcome,
    Outlook,
    PastYear,
    Person,
    Placed,
    Promise,
    Reading,
    Reminder,
    Reply,
    Spray,
    Variety,
    Visit,
)
from notes_bot.outlook import foresee
from notes_bot.reply import (
    compose_due,
    compose_help,
    compose_history,
    compose_state,
)
from notes_bot.resolve import find_field, nearest_names, same_name
from notes_bot.science.detection import Recovery
from notes_bot.store import Store, Told
from notes_bot.weather import climate_at

OPEN = ("waiting", "sent", "nudged")
"""States of a promise that is still to be kept."""
Span = Literal["day", "week", "season"]
"""What a digest covers."""

DUE_DAYS = 10
"""How far ahead the answer to "what is due" looks."""


def season_start(on: date, latitude: float | None) -> date:
    """The first day of the season a day belongs to: the calendar year, or from July south of the equator."""
    if latitude is not None and latitude < 0:
        return date(on.year if on.month >= 7 else on.year - 1, 7, 1)
    return date(on.year, 1, 1)


def quiet_this_season(store: Store, person: Person, today: date) -> bool:
    """Has the person asked for no more reminders in the season of a day?"""
    said = store.last_said(person.id, "quiet")
    if said is None or not said[1].get("on"):
        return False
    starts = [season_start(today, known.latitude) for known in store.fields(person.crew)]
    return said[0].astimezone(ZoneInfo(person.timezone)).date() >= min(starts, default=date(today.year, 1, 1))


def field_temperatures(store: Store, known: Field, since: date, until: date) -> tuple[DayTemperature, ...]:
    """The temperatures kept for a field, else those kept for all fields."""
    own = store.temperatures(known.name.casefold(), since, until)
    kept = own or store.temperatures("*", since, until)
    return with_told(kept, known, store.told_weather(known.crew, since))


def with_told(
    kept: Sequence[DayTemperature], known: Field, told: Iterable[tuple[date, int | None, Mapping[str, Any]]]
) -> tuple[DayTemperature, ...]:
    """Daily weather with what the crew told by message: of this field, or of none in particular.

    What is told replaces a forecast and fills what is missing; what a station measured stands.
    """
    days = {day.date: day for day in kept}
    for at, field_id, args in told:
        named = str(args.get("field") or "").casefold()
        if named and named not in known.name.casefold():
            continue
        if not named and field_id not in (None, known.id):
            continue
        on = date.fromisoformat(str(args["date"])[:10]) if args.get("date") else at
        day = days.get(on, DayTemperature(on))
        rain, low, high = (args.get(key) for key in ("rain_mm", "tmin_c", "tmax_c"))
        if rain is not None and (day.rain_mm is None or day.forecast):
            day = replace(day, rain_mm=float(rain))
        if low is not None and high is not None and low <= high and (day.tmin_c is None or day.forecast):
            day = replace(day, tmin_c=float(low), tmax_c=float(high), forecast=False)
        days[on] = day
    return tuple(days[on] for on in sorted(days))


def field_past_years(store: Store, known: Field, on: date) -> tuple[PastYear, ...]:
    """Earlier years of the record that a field's temperatures come from."""
    return store.past_years(known.name.casefold(), on.year) or store.past_years("*", on.year)


def first_open_day(until: datetime, zone: str) -> date:
    """The first day that lies wholly after a restricted-entry interval, as days are counted in the zone."""
    local = until.astimezone(ZoneInfo(zone))
    return local.date() if local.time() == time(0) else local.date() + timedelta(days=1)


def history_of(
    store: Store,
    known: Field,
    on: date,
    visits: Sequence[Visit],
    closed_until: datetime | None = None,
    zone: str = "",
    fresh: Sequence[Visit] = (),
) -> History:
    """All that is known of a field this season, for the question asked on ``on``.

    ``fresh`` are visits to any field that are not in the store yet.
    With a ``zone`` the end of an entry interval is told in it, so that its day is the crew's day and not Greenwich's.
    """
    since = season_start(on, known.latitude)
    planted = known.planted if known.planted is not None and known.planted >= since else None
    noted = store.entry_closed_until(known.id, since)
    closed = max((instant for instant in (noted, closed_until) if instant is not None), default=None)
    if closed is not None and zone:
        closed = closed.astimezone(ZoneInfo(zone))
    variety = next((v.note.variety for v in reversed(visits) if v.note.variety and v.note.variety.resistance), None)
    found_before = store.ever_found(known.id, since - timedelta(days=1)) or _eggs_found(store, known) or None
    chance, basis = (None, ()) if found_before else _prior(store, known, since, on, fresh)
    return History(
        latitude=known.latitude,
        longitude=known.longitude,
        planted=planted,
        resistance=known.resistance or (variety.resistance if variety else None),
        visits=tuple(visits),
        entry_closed_until=closed,
        found_before=found_before,
        infested_prior=chance,
        prior_basis=basis,
    )


def _eggs_found(store: Store, known: Field) -> bool:
    """Has a laboratory ever found eggs in this field's soil?"""
    return any((args.get("value") or 0) > 0 for _, args in store.events(known.id, "lab"))


def _prior(
    store: Store, known: Field, since: date, on: date, fresh: Sequence[Visit]
) -> tuple[float | None, tuple[Fact, ...]]:
    """What the crew's fields nearby and the field's own earlier seasons say before this season's looks."""
    around = [
        (km, other, (*store.visits(other.id, date.min, on), *(v for v in fresh if v.field_id == other.id)))
        for km, other in before.nearby(known, store.fields_between(known.crew, *before.box(known)))
    ]
    return before.prior_of(known, store.visits(known.id, date.min, since - timedelta(days=1)), around)


def recoveries_of(store: Store, crew: str, fresh: Sequence[NewEvent] = ()) -> tuple[Recovery, ...]:
    """How much of what is on a root this crew brings up and sees, by its own digging trial where it made one."""
    sent = [*store.crew_events(crew, "trial"), *(event.args for event in fresh if event.kind == "trial")]
    return own_trial.recoveries(sent)


def outlook_of(
    store: Store,
    known: Field,
    on: date,
    *,
    zone: str = "",
    visits: Sequence[Visit] | None = None,
    with_mix: bool = False,
) -> Outlook:
    """A field's outlook from what the store holds on a day; ``visits`` are this season's, where they are at hand."""
    since = season_start(on, known.latitude)
    seen = store.visits(known.id, since, on) if visits is None else visits
    history = history_of(store, known, on, seen, zone=zone)
    climate = climate_at(known.latitude, known.longitude)
    own = recoveries_of(store, known.crew)
    readings, past = _readings(store, known, since, on), field_past_years(store, known, on)
    return foresee(history, readings, climate, on, past_years=past, with_mix=with_mix, recoveries=own)


def _readings(store: Store, known: Field, since: date, on: date) -> tuple[DayTemperature, ...]:
    days = field_temperatures(store, known, since, on + timedelta(days=16))
    return tuple(day for day in days if day.date <= on or day.forecast)


@dataclass
class Work:
    """Everything one message leads to, while it is being worked out."""

    store: Store
    writer: Person
    fields: list[Field]
    """The crew's fields; deeds that add or change one put the new state here."""
    now: datetime
    day: date
    """The writer's day when the message was sent."""
    today: date
    """The writer's day now."""
    domain: str
    inbox_id: int
    thread_field: int | None = None
    answered: Told | None = None
    """What the mail of ours speaks of that this message answers."""
    spell: Callable[[Note], str] = str
    language: Any = "en"

    new: list[NewVisit] = field(default_factory=list)
    taken_back: list[int] = field(default_factory=list)
    events: list[NewEvent] = field(default_factory=list)
    held: list[Held] = field(default_factory=list)
    settled: list[int] = field(default_factory=list)
    changed: dict[int, Field] = field(default_factory=dict)
    people: list[Person] = field(default_factory=list)
    promises: dict[int, Promise] = field(default_factory=dict)
    ended: list[int] = field(default_factory=list)
    released: list[int] = field(default_factory=list)
    refused: list[int] = field(default_factory=list)
    placed: list[Placed] = field(default_factory=list)
    """Visits the answer speaks about, corrected ones included."""
    answers: list[Fact] = field(default_factory=list)
    letters: list[Reply] = field(default_factory=list)
    """Whole replies some commands ask for (a state, a history); they stand alone when nothing else was said."""
    brief: bool = False
    """Tell only what matters most: many results came in one table."""
    outlooks: dict[int, Outlook] = field(default_factory=dict)
    digest_asked: Span | None = None
    _visits: dict[int, list[Visit]] = field(default_factory=dict)
    _climates: dict[int, Climate] = field(default_factory=dict)

    # --- the season in memory ---

    def field_by_id(self, field_id: int | None) -> Field | None:
        return next((known for known in self.fields if known.id == field_id), None)

    def season(self, known: Field, on: date) -> list[Visit]:
        """The field's standing visits this season, with this message's changes."""
        if known.id not in self._visits:
            since = season_start(on, known.latitude)
            self._visits[known.id] = list(self.store.visits(known.id, since, max(on, self.today)))
        return self._visits[known.id]

    def record(self, visit: Placed, *, replaces: Visit | None = None, person_id: int | None = None) -> None:
        """One visit, new or in place of another, and what it tells of the field itself."""
        visit = self._learn(visit)
        season = self.season(visit.field, visit.on)
        if replaces is not None and replaces in season:
            season.remove(replaces)
        who = self.writer.id if person_id is None else person_id
        season.append(Visit(0, visit.field.id, visit.on, replace(visit.note, date=visit.on), who, visit.day_assumed))
        season.sort(key=lambda seen: (seen.on, seen.id or 1 << 62))
        self.new.append(
            NewVisit(
                visit.field.id,
                visit.on,
                visit.note,
                who,
                visit.day_assumed,
                visit.entry_closed_until,
                replaces.id if replaces else None,
            )
        )
        self.placed.append(visit)

    def _learn(self, visit: Placed) -> Placed:
        """Take planting date and variety from a note where the field has none, or the note says otherwise."""
        known, note = visit.field, visit.note
        changes: dict[str, Any] = {}
        if note.planted is not None and note.planted != known.planted:
            changes["planted"] = note.planted
        if note.variety is not None:
            told = {"variety": note.variety.name, "resistance": note.variety.resistance, "source": note.variety.source}
            changes |= {
                name: value for name, value in told.items() if value is not None and value != getattr(known, name)
            }
        return visit if not changes else replace(visit, field=self.change(replace(known, **changes)))

    def change(self, known: Field) -> Field:
        """Put a field's new state in place of the old."""
        self.fields[:] = [other for other in self.fields if other.id != known.id] + [known]
        self.changed[known.id] = known
        return known

    # --- looking ahead ---

    def outlook(self, known: Field, on: date, *, with_mix: bool = False) -> Outlook:
        """The field's outlook on a day, with this message's changes."""
        closed = [v.entry_closed_until for v in self.placed if v.field.id == known.id and v.entry_closed_until]
        season = self.season(known, on)
        # What replaces a kept visit is left to the next answer: the store still holds the old one.
        fresh = [Visit(0, v.field_id, v.on, v.note, v.person_id) for v in self.new if v.replaces is None]
        zone = self.writer.timezone
        history = history_of(self.store, known, on, season, max(closed, default=None), zone, fresh)
        since = season_start(on, known.latitude)
        readings, past = _readings(self.store, known, since, on), field_past_years(self.store, known, on)
        climate, own = self._climate(known), self.recoveries()
        return foresee(history, readings, climate, on, past_years=past, with_mix=with_mix, recoveries=own)

    def recoveries(self) -> tuple[Recovery, ...]:
        """The crew's own chances to bring up and see a female, with this message's trial."""
        return recoveries_of(self.store, self.writer.crew, self.events)

    def foresee_all(self) -> None:
        """An outlook for every field noted or corrected, and its next window promised."""
        for known in {visit.field.id: visit.field for visit in self.placed}.values():
            season = self.season(known, self.day)
            if season:
                outlook = self.outlook(self.changed.get(known.id, known), max(self.day, season[-1].on))
                self.outlooks[known.id] = outlook
            self.look_again(known, self.outlooks.get(known.id))

    def look_again(self, known: Field, outlook: Outlook | None = None) -> None:
        """Promise the field's next window, or end the open one when nothing is left to look for."""
        season = self.season(known, self.day)
        if season and outlook is None:
            outlook = self.outlook(known, max(self.day, season[-1].on))
        again = outlook.recheck if outlook else None
        if again is None:
            self.promises.pop(known.id, None)
            self.ended.append(known.id)
            return
        who = season[-1].person_id or self.writer.id
        self.promise(known, who, again.earliest, again.likely, again.latest, again.purpose)

    def _climate(self, known: Field) -> Climate:
        if known.id not in self._climates:
            self._climates[known.id] = climate_at(known.latitude, known.longitude)
        return self._climates[known.id]

    def promise(
        self, known: Field, person_id: int, earliest: date, likely: date, latest: date, purpose: Any
    ) -> Promise:
        """A window for a field: one calendar entry a field and season, so a new window moves the old entry."""
        uid = f"look-{known.id}-{season_start(likely, known.latitude).year}@{self.domain}"
        before = self.store.promise_for(known.id)
        # By two: the number between belongs to the cancellation, should the old window end without a new one.
        sequence = before.sequence + 2 if before is not None and before.uid == uid else 0
        promise = Promise(known.id, person_id, earliest, likely, latest, purpose, uid, sequence)
        self.promises[known.id] = promise
        return promise

    def windows(self) -> list[tuple[Field, Promise | Reminder]]:
        """What this message leads to in the writer's calendar: windows promised or moved, and windows that end."""
        by_id = {known.id: known for known in self.fields}
        told: list[tuple[Field, Promise | Reminder]] = [
            *((by_id[i], promise) for i, promise in self.promises.items() if i in by_id),
            *self.cancelled(),
        ]
        return [(known, window) for known, window in told if window.person_id == self.writer.id]

    def cancelled(self) -> list[tuple[Field, Reminder]]:
        """Open windows that end with this message and have no successor: their calendar entries must go."""
        found = []
        for field_id in dict.fromkeys(self.ended):
            known, promise = self.field_by_id(field_id), self.store.promise_for(field_id)
            is_open = promise is not None and promise.state in OPEN
            if known is not None and promise is not None and is_open and field_id not in self.promises:
                found.append((known, replace(promise, state="cancelled", sequence=promise.sequence + 1)))
        return found

    # --- the whole as one filing ---

    def filing(self, **more: Any) -> Filing:
        return Filing(
            inbox_id=self.inbox_id,
            state="done",
            person_id=self.writer.id,
            visits=tuple(self.new),
            taken_back=tuple(self.taken_back),
            events=tuple(self.events),
            held=tuple(self.held),
            held_day=self.day,
            settled=tuple(self.settled),
            fields=tuple(self.changed.values()),
            people=tuple(self.people),
            promises=tuple(self.promises.values()),
            ended=tuple(self.ended),
            released=tuple(self.released),
            refused=tuple(self.refused),
            **more,
        )


# --- commands -----------------------------------------------------------------------------------------


Deed = Callable[[Work, Command], None]


def obey(work: Work, reading: Reading, more: Mapping[str, Deed]) -> None:
    """Every command of a reading, in order; ``more`` are the deeds of other rooms. A kind not known is answered so."""
    for command in reading.commands:
        deed = _DEEDS.get(command.kind) or more.get(command.kind)
        if deed is None:
            work.answers.append(Fact("not_a_command", {"kind": command.kind}))
        else:
            deed(work, command)


def field_for(work: Work, command: Command, *, fall_back: bool = True) -> Field | None:
    """The field a command names, or its conversation's, or that of the writer's last note; else it is asked about."""
    written = command.args.get("field")
    if written:
        known, several, _ = find_field(str(written), work.fields)
        if known is None:
            names = [f.name for f in several] or list(nearest_names(str(written), work.fields))
            work.answers.append(Fact("which_field", {"name": str(written), "nearest": names}))
        return known
    known = work.field_by_id(work.thread_field)
    if known is None and fall_back:
        last = work.store.latest_visits_by(work.writer.id)
        known = work.field_by_id(last[-1].field_id) if last else None
    if known is None:
        work.answers.append(Fact("which_field", {"name": "", "nearest": list(nearest_names("", work.fields))}))
    return known


def _correct(work: Work, command: Command) -> None:
    """Change one part of the last note (of a field). What does not fit the old value is asked about, not guessed."""
    args = command.args
    if (
        args.get("what") == "field"
        and not (args.get("field") or args.get("old"))
        and work.store.held_notes(work.writer.id)
    ):
        _choose(work, Command("choose", {"name": args.get("value")}))  # "i meant South Dietz", after "which field?"
        return
    known = field_for(work, command)
    if known is None:
        return
    season = work.season(known, work.day)
    mine = [visit for visit in season if visit.person_id == work.writer.id or work.writer.role == "supervisor"]
    on = command.args.get("date")
    if on is not None and command.args.get("what") != "date":
        mine = [visit for visit in mine if visit.on == on]
    old = command.args.get("old")
    what, value = command.args.get("what"), command.args.get("value")
    if what is None:  # "sorry, 9 not 6"
        counts = _counts_of(mine[-1], old) if mine else []
        if mine and len(counts) != 1:
            work.answers.append(Fact("which_count", {"field": known.name, "old": old, "value": value}))
            return
        what = counts[0] if counts else "total"
    what = str(what)
    if old is not None:
        fitting = [visit for visit in mine if _fits(visit, what, old)]
        if not fitting and what in _NOTED_LATE:
            fitting = [visit for visit in mine[-1:] if not _part(visit, what)]
        if mine and not fitting:
            work.answers.append(
                Fact("not_what_i_have", {"field": known.name, "what": what, "old": old, "have": _part(mine[-1], what)})
            )
            return
        mine = fitting
    if not mine:
        work.answers.append(Fact("nothing_to_correct", {"field": known.name}))
        return
    visit = mine[-1]
    if what == "field":
        target, several, _ = find_field(str(value), work.fields)
        if target is None:
            names = [f.name for f in several] or list(nearest_names(str(value), work.fields))
            work.answers.append(Fact("which_field", {"name": str(value), "nearest": names}))
            return
        _move_visit(work, known, visit, target)
        return
    note, day = _with_part(visit, what, value)
    if what in ("roots", "tops") and isinstance(value, (list, tuple)):
        note = _with_words(visit, what, value, old)
    if note is None:
        work.answers.append(Fact("cannot_correct", {"what": what}))
        return
    before = _part(visit, what)
    work.record(
        Placed(known, day, replace(note, date=day), visit.day_assumed and day == visit.on),
        replaces=visit,
        person_id=visit.person_id,
    )
    work.answers.append(
        Fact("corrected", {"field": known.name, "date": day.isoformat(), "what": what, "old": before, "value": value})
    )


def _move_visit(work: Work, known: Field, visit: Visit, target: Field) -> None:
    """A note that was put in the wrong field: taken out of one, recorded in the other."""
    work.season(known, work.day).remove(visit)
    work.taken_back.append(visit.id)
    work.look_again(known)
    work.record(Placed(target, visit.on, replace(visit.note, field=target.name.lower()), visit.day_assumed))
    work.answers.append(
        Fact(
            "corrected",
            {
                "field": target.name,
                "date": visit.on.isoformat(),
                "what": "field",
                "old": known.name,
                "value": target.name,
            },
        )
    )


_NOTED_LATE = ("roots", "tops", "moisture", "texture", "stage", "variety", "source", "method")
"""What a note may lack and yet be put right: "the roots were dark, not white" tells them, whatever was not noted of
them. A count is never put where another was meant."""


def _part(visit: Visit, what: str) -> Any:
    note = visit.note
    if what in (*COLOURS, "total"):
        return getattr(note.females, what)
    if what in ("moisture", "texture", "ph", "k_ppm"):
        return getattr(note.soil, what)
    if what == "date":
        return visit.on
    if what in ("variety", "resistance", "source"):
        part = "name" if what == "variety" else what
        return getattr(note.variety, part) if note.variety else None
    if what == "look_again":
        return _again(note.look_again)
    if what == "spray":
        return {"what": note.spray.what} if note.spray is not None and note.spray.what else None
    return getattr(note, what, None)


def _counts_of(visit: Visit, old: Any) -> list[str]:
    """What was counted so in a note: plants, or females of a color; of all of them where no color was."""
    counts = [what for what in ("plants", *COLOURS) if _fits(visit, what, old)]
    by_colour = any(getattr(visit.note.females, colour) for colour in COLOURS)
    return counts if by_colour or not _fits(visit, "total", old) else [*counts, "total"]


def _again(planned: LookAgain | None) -> dict[str, Any] | None:
    """The next look as a command tells it: ``{"days": 14}``, ``{"date": "2026-07-31"}``."""
    if planned is None:
        return None
    return {"days": planned.days} if planned.date is None else {"date": planned.date.isoformat()}


def _fits(visit: Visit, what: str, old: Any) -> bool:
    """Is this what was written? Of several words ("roots dark, fine") those told must be among them."""
    have = _part(visit, what)
    if what == "look_again" and have is not None and isinstance(old, dict):
        return _planned(visit, have) == _planned(visit, old)  # "in 9 days" of the 8th is "the 17th"
    if what == "variety" and isinstance(have, str):
        return have.casefold() == str(old).casefold()
    return set(old) <= set(have or ()) if isinstance(old, (list, tuple)) else bool(have == old)


def _planned(visit: Visit, again: Mapping[str, Any]) -> date:
    """The day of a next look."""
    planned, days = again.get("date"), again.get("days")
    return date.fromisoformat(planned) if planned is not None else visit.on + timedelta(days=days or 0)


def _with_words(visit: Visit, what: str, value: Sequence[str], old: Sequence[str] | None) -> Note:
    """Roots or tops with the words told in place of those they stand for, or of all."""
    kept = [word for word in getattr(visit.note, what) if old is not None and word not in (*old, *value)]
    words = (*kept, *value)
    return replace(visit.note, roots=words) if what == "roots" else replace(visit.note, tops=words)


def _with_part(visit: Visit, what: str, value: Any) -> tuple[Note | None, date]:
    """The visit's note with one part changed; ``None`` when that part cannot be changed by a short reply."""
    note, females = visit.note, visit.note.females
    if what == "date" and isinstance(value, date):
        return note, value
    if what in COLOURS and isinstance(value, int):
        counted = {name: getattr(females, name) or 0 for name in COLOURS} | {what: value}
        females = Females(**counted, total=sum(counted.values()))
    elif what == "total" and isinstance(value, int):
        females = Females(total=value) if value else Females(0, 0, 0, 0, 0)
    elif what in ("plants", "method", "soaked", "stage", "outcome") and value is not None:
        changed = replace(note, **{what: value})
        if what == "outcome" and value == "none_seen":
            changed = replace(changed, females=Females(0, 0, 0, 0, 0), per_plant=None, spots=())
        return changed, visit.on
    elif what in ("moisture", "texture", "ph", "k_ppm"):
        return replace(note, soil=replace(note.soil, **{what: value})), visit.on
    elif what == "look_again" and isinstance(value, dict):
        planned = value.get("date")
        again = LookAgain(value.get("days"), date.fromisoformat(planned) if planned is not None else None)
        return replace(note, look_again=again), visit.on
    elif what == "spray" and isinstance(value, dict):
        return replace(note, spray=replace(note.spray or Spray(), what=value["what"])), visit.on
    elif what in ("variety", "resistance", "source"):
        part = "name" if what == "variety" else what
        return replace(note, variety=replace(note.variety or Variety(), **{part: value})), visit.on
    else:
        return None, visit.on
    # A corrected count no longer agrees with a per-plant list or with spots: those go (the raw note keeps them).
    outcome: Outcome = "seen" if females.total else "none_seen"
    strips = tuple(spot for spot in note.spots if spot.check)
    return replace(note, females=females, per_plant=None, spots=strips, outcome=outcome), visit.on


def _take_back(work: Work, command: Command) -> None:
    """Take back the writer's last message (or last note in a field)."""
    known = None
    if command.args.get("field"):
        known = field_for(work, command)
        if known is None:
            return
    visits = work.store.latest_visits_by(work.writer.id, known.id if known else None)
    if not visits:
        waiting = work.store.held_notes(work.writer.id)
        if waiting and known is None:
            work.settled.append(waiting[-1].id)
            work.answers.append(Fact("held_dropped", {"name": waiting[-1].note.field or ""}))
        else:
            work.answers.append(Fact("nothing_to_take_back", {}))
        return
    for visit in visits:
        of = work.field_by_id(visit.field_id)
        if of is None:
            continue
        season = work.season(of, visit.on)
        season[:] = [other for other in season if other.id != visit.id]
        work.taken_back.append(visit.id)
        work.answers.append(Fact("taken_back", {"field": of.name, "date": visit.on.isoformat()}))
        work.look_again(of)


def state_of(work: Work, command: Command) -> None:
    """How a field stands."""
    known = field_for(work, command)
    if known is None:
        return
    season = work.season(known, work.today)
    outlook = work.outlook(known, work.today, with_mix=True)
    last = season[-1] if season else None
    by = work.store.person(last.person_id) if last else None
    work.letters.append(
        compose_state(
            known,
            outlook,
            season,
            work.writer,
            today=work.today,
            status=status_of(season, outlook),
            last_line=work.spell(replace(last.note, field=None, date=None)) if last else "",
            last_by=by.name if by and by.id != work.writer.id else "",
            language=work.language,
        )
    )


def status_of(season: Sequence[Visit], outlook: Outlook) -> Any:
    """A field's standing in one word: infested, not_found, doubtful or unseen."""
    outcomes = [visit.note.outcome for visit in season]
    if "seen" in outcomes:
        return "infested"
    if "none_seen" not in outcomes:
        return "unseen"
    verdict = outlook.finding.verdict if outlook.finding else "thin"
    return "not_found" if verdict in ("fair", "strong") else "doubtful"


def _history(work: Work, command: Command) -> None:
    known = field_for(work, command)
    if known is not None:
        lines = [
            (visit.on, work.spell(replace(visit.note, field=None, date=None)))
            for visit in work.season(known, work.today)
        ]
        work.letters.append(compose_history(known, lines, work.writer, today=work.today, language=work.language))


def _due(work: Work, _command: Command) -> None:
    until = work.today + timedelta(days=DUE_DAYS)
    by_id = {known.id: known for known in work.fields}
    items = [
        (by_id[promise.field_id], promise)
        for promise in work.store.open_promises(work.writer.crew)
        if promise.field_id in by_id
        and promise.earliest <= until
        and (work.writer.role == "supervisor" or promise.person_id == work.writer.id)
    ]
    work.letters.append(compose_due(items, work.writer, today=work.today, until=until, language=work.language))


def _help(work: Work, command: Command) -> None:
    topic = command.args.get("topic")
    work.letters.append(compose_help(work.language, help_text(str(topic) if topic else None, work.language)))


def _add_field(work: Work, command: Command) -> None:
    """Add a field, or tell more of one: place, planting date, variety, another name."""
    args = dict(command.args)
    name = str(args.pop("name", "") or "").strip()
    known, several, _ = find_field(name, work.fields) if name else (work.field_by_id(work.thread_field), (), False)
    if name and several:
        work.answers.append(Fact("which_field", {"name": name, "nearest": [f.name for f in several]}))
        return
    near = args.pop("near", None)
    if near:
        beside, _, _ = find_field(str(near), work.fields)
        if beside is None or beside.latitude is None:
            work.answers.append(Fact("no_place_for", {"name": str(near)}))
        else:
            args["latitude"], args["longitude"] = beside.latitude, beside.longitude
    rename_to, alias = args.pop("rename_to", None), args.pop("alias", None)
    told = {key: value for key, value in args.items() if value is not None and key in _FIELD_PARTS}
    if known is not None and name and _lies_elsewhere(known, name, told):
        work.answers.append(Fact("field_stays", {"field": known.name, "name": known.name.lower()}))
        known = None
    if known is None:
        if not name:
            work.answers.append(Fact("which_field", {"name": "", "nearest": list(nearest_names("", work.fields))}))
            return
        next_id = work.store.next_field_id(tuple(work.changed))
        fresh = Field(next_id, _title(name), work.writer.crew, (alias,) if alias else (), **told)
        work.change(fresh)
        work.answers.append(Fact("field_added", {"field": fresh.name}))
        _place_held(work, fresh, name)
        return
    if rename_to:
        told["name"], told["aliases"] = _title(str(rename_to)), (*known.aliases, known.name)
    elif alias:
        told["aliases"] = (*known.aliases, str(alias))
    if not told:
        work.answers.append(Fact("field_known", {"field": known.name}))
        return
    changed = work.change(replace(known, **told))
    said = {key: value.isoformat() if isinstance(value, date) else value for key, value in told.items()}
    said.pop("aliases", None)
    work.answers.append(Fact("field_changed", {"field": changed.name, "changes": said}))
    if work.season(changed, work.day):
        work.look_again(changed)


ANOTHER_FIELD = 0.004
"""Degrees, about 400 m: half a quarter section's side. A field so far off is another one (judgement)."""


def _lies_elsewhere(known: Field, name: str, told: Mapping[str, Any]) -> bool:
    """Is only a short form of the known name given, with a place that is not its own ("add field Old Mill 42.1,-93.5")?

    Then another field is meant: what is known of the first is never overwritten by a name that is not its whole one.
    """
    if "latitude" not in told or known.latitude is None or known.longitude is None:
        return False
    apart = max(abs(told["latitude"] - known.latitude), abs(told["longitude"] - known.longitude))
    return apart > ANOTHER_FIELD and not same_name(name, known)


_FIELD_PARTS = frozenset({"latitude", "longitude", "planted", "variety", "resistance", "source", "place", "acres"})


def _title(name: str) -> str:
    return " ".join(word if any(ch.isupper() for ch in word) else word.capitalize() for word in name.split())


def _place_held(work: Work, known: Field, name: str) -> None:
    """A held note whose field has just been added or named is recorded now."""
    for held in work.store.held_notes(work.writer.id):
        if held.id in work.settled:
            continue
        if name and held.note.field and find_field(held.note.field, [known])[0] is None:
            continue
        work.settled.append(held.id)
        work.record(Placed(known, held.note.date or held.day, held.note, held.note.date is None))
        return


def _choose(work: Work, command: Command) -> None:
    """The one-word (or one-number) answer to "which field?"."""
    held = work.store.held_notes(work.writer.id)
    if not held:
        name = command.args.get("name")
        known, _, _ = find_field(str(name), work.fields) if name else (None, (), False)
        if known is not None:  # a bare field name asks how that field stands
            state_of(work, Command("state", {"field": known.name}))
        else:
            work.answers.append(Fact("nothing_held", {}))
        return
    latest = held[-1]
    number = command.args.get("number")
    if number is not None:
        names = latest.nearest
        chosen = names[int(number) - 1] if 1 <= int(number) <= len(names) else ""
    else:
        chosen = str(command.args.get("name") or "")
    offered = [f for f in work.fields if f.name in latest.nearest]
    known = find_field(chosen, offered)[0] or find_field(chosen, work.fields)[0] if chosen else None
    if known is None:
        work.answers.append(Fact("which_field", {"name": chosen, "nearest": list(latest.nearest)}))
        return
    work.settled.append(latest.id)
    work.record(Placed(known, latest.note.date or latest.day, latest.note, latest.note.date is None))


def _mute(work: Work, command: Command) -> None:
    _set_muted(work, command, muted=True)


def _resume(work: Work, command: Command) -> None:
    _set_muted(work, command, muted=False)


def _set_muted(work: Work, command: Command, *, muted: bool) -> None:
    if command.args.get("season"):
        work.events.append(NewEvent("quiet", {"on": muted}, None, work.writer.id))
        work.answers.append(Fact("muted_season" if muted else "resumed_season", {}))
        return
    known = _field_due(work, command)
    if known is not None:
        work.change(replace(known, muted=muted))
        work.answers.append(Fact("muted" if muted else "resumed", {"field": known.name}))


def _language(work: Work, command: Command) -> None:
    language = command.args.get("language")
    if language in ("en", "es", "pt"):
        work.writer = replace(work.writer, language=language)
        work.people.append(work.writer)
        work.language = language
        work.answers.append(Fact("language_set", {}))


def _place(work: Work, command: Command) -> None:
    """The state or province, for a field when one is named, else for all fields that have none."""
    place = str(command.args.get("place") or "").strip()
    if not place:
        return
    named = field_for(work, command, fall_back=False) if command.args.get("field") else None
    targets = [named] if named else [f for f in work.fields if f.place is None]
    for known in targets:
        work.change(replace(known, place=_title(place)))
    work.answers.append(Fact("place_set", {"place": _title(place)}))


def _move(work: Work, command: Command) -> None:
    """Move or skip the open look-again window of a field, or of all the looks a reminder named.

    A bare day answering a reminder of several fields can only mean that round, so it moves every look of it that is
    still open, and the answer says which. A bare "skip" could mean one field or all, and would lose looks: it is
    asked about.
    """
    skip = bool(command.args.get("skip"))
    of_round = _looks_of_round(work)
    if command.args.get("all") and not of_round:
        work.answers.append(Fact("which_field", {"name": "", "nearest": list(nearest_names("", work.fields))}))
        return
    bare = not command.args.get("field") and work.thread_field is None
    round_meant = work.answered is not None and work.answered.kind == "reminder" and not skip
    if bare and len(of_round) > 1 and (command.args.get("all") or round_meant):
        fields = of_round
    else:
        known = _field_due(work, command)
        if known is None:
            return
        fields = [known]
    if skip:
        skipped = [known for known in fields if _end_look(work, known)]
        for known in skipped or fields:
            work.answers.append(Fact("skipped" if skipped else "nothing_due", {"field": known.name}))
        return
    days = command.args.get("days")
    on = command.args.get("date") or (work.day + timedelta(days=int(days)) if days is not None else None)
    if not isinstance(on, date):
        return
    if on <= work.day - timedelta(days=1):
        for known in fields:
            work.answers.append(Fact("not_in_the_past", {"field": known.name, "date": on.isoformat()}))
        return
    moved = [known for known in fields if _move_one(work, known, on, alone=len(fields) == 1)]
    if len(fields) > 1 and moved:
        names = [known.name for known in moved]
        said = " ".join(command.where.text.split())
        values = {"count": len(moved), "date": on.isoformat(), "fields": names, "example": f"{names[0]} {said}"}
        work.answers.append(Fact("moved_all", values))


def _looks_of_round(work: Work) -> list[Field]:
    """The fields of the mail that is answered which still wait for a look (for a scout: an own one)."""
    if work.answered is None:
        return []
    noted = work.store.fields_noted_since(work.writer.crew, work.answered.at)
    found = []
    for field_id in work.answered.fields:
        if field_id in noted:
            continue
        known, promise = work.field_by_id(field_id), work.store.promise_for(field_id)
        mine = promise is not None and (work.writer.role == "supervisor" or promise.person_id == work.writer.id)
        if known is not None and promise is not None and mine and promise.state in OPEN:
            found.append(known)
    return found


def _field_due(work: Work, command: Command) -> Field | None:
    """As :func:`_field_for`, but a bare word that answers a mail of several fields is asked about."""
    if command.args.get("field") or work.thread_field is not None or work.answered is None:
        return field_for(work, command)
    open_looks = _looks_of_round(work)
    if len(open_looks) == 1:
        return open_looks[0]
    told = open_looks or [known for i in work.answered.fields if (known := work.field_by_id(i)) is not None]
    if not told:
        return field_for(work, command)
    said = " ".join(command.where.text.split())
    day = command.kind == "move" and not command.args.get("skip")
    example = f"{told[0].name} {said}" if day else f"{said} {told[0].name}"
    key = "which_of_many_or_all" if command.args.get("skip") and open_looks else "which_of_many"
    work.answers.append(Fact(key, {"count": len(told), "example": example}))
    return None


def _end_look(work: Work, known: Field) -> bool:
    """Leave a look out; true when one was due. One that closed unused is settled by it as well."""
    promise = work.store.promise_for(known.id)
    is_open = promise is not None and promise.state in OPEN
    was_due = is_open or bool(work.store.missed(known.id, season_start(work.day, known.latitude)))
    if was_due:
        work.ended.append(known.id)
    return was_due


def _move_one(work: Work, known: Field, on: date, *, alone: bool) -> bool:
    """Set a field's look for a day, or for the first day it may be entered; true when the day was the one asked for."""
    closed = work.store.entry_closed_until(known.id, season_start(on, known.latitude))
    opens = first_open_day(closed, work.writer.timezone) if closed is not None else on
    who = _whose(work, known)
    day = max(on, opens)
    work.promise(known, who.id, day, day, day + timedelta(days=3), "asked")
    told = {"field": known.name, "date": day.isoformat()}
    if opens > on:
        until = opens - timedelta(days=1)
        values = {"field": known.name, "date": on.isoformat(), "until": until.isoformat()}
        work.answers.append(Fact("moved_but_closed", values))
    if opens > on or alone:
        if who.id == work.writer.id:
            work.answers.append(Fact("moved", told))
        else:
            work.answers.append(Fact("moved_for", {**told, "who": who.name}))
    return opens <= on


def _whose(work: Work, known: Field) -> Person:
    """Who is to look: the writer, who takes it over; a supervisor's word leaves it with the one who had it."""
    if work.writer.role != "supervisor":
        return work.writer
    promise = work.store.promise_for(known.id)
    season = work.season(known, work.day)
    person_id = promise.person_id if promise is not None else season[-1].person_id if season else work.writer.id
    return work.store.person(person_id) or work.writer


def _release(work: Work, command: Command) -> None:
    _judge_held(work, command, release=True)


def _refuse(work: Work, command: Command) -> None:
    _judge_held(work, command, release=False)


def _judge_held(work: Work, command: Command, *, release: bool) -> None:
    """A supervisor lets a held message through, or not. A stranger cannot be let through by mail."""
    number = command.args.get("number")
    if work.writer.role != "supervisor":
        work.answers.append(Fact("only_supervisor", {}))
        return
    held = next((m for m in work.store.held_messages(work.writer.crew) if m.number == number), None)
    if held is None or not held.by_mail:
        work.answers.append(Fact("not_held", {"number": number}))
    elif not release:
        work.refused.append(held.number)
        work.answers.append(Fact("refused", {"number": number}))
    elif work.store.person_at(held.sender) is None:
        work.answers.append(Fact("stranger_not_released", {"number": number, "sender": held.sender}))
    else:
        work.released.append(held.number)
        work.answers.append(Fact("released", {"number": number}))


def _digest(work: Work, command: Command) -> None:
    if work.writer.role == "supervisor":
        span = command.args.get("span")
        work.digest_asked = span if span in ("week", "season") else "day"
    else:
        _due(work, command)


def _weather(work: Work, command: Command) -> None:
    work.events.append(NewEvent("weather", dict(command.args), work.thread_field, work.writer.id))
    work.answers.append(Fact("weather_kept", {}))


_DEEDS: Mapping[str, Deed] = {
    "correct": _correct,
    "take_back": _take_back,
    "state": state_of,
    "picture": state_of,
    "history": _history,
    "due": _due,
    "help": _help,
    "field": _add_field,
    "weather": _weather,
    "mute": _mute,
    "resume": _resume,
    "language": _language,
    "place": _place,
    "choose": _choose,
    "move": _move,
    "release": _release,
    "refuse": _refuse,
    "digest": _digest,
}
