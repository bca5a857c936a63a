"""Days as people write them. Everything is counted from the day the message was sent."""

from __future__ import annotations

import calendar
from dataclasses import dataclass
from datetime import date, timedelta

from notes_bot.model import Language

PAST_DAYS = 200
"""A day without a year that lies further back than this is not taken for a visit without asking (judgement)."""

SLASHED_DAYS = 90
"""As far back for a day in two numbers: "3/10" in July is rather a share (judgement)."""

AHEAD_DAYS = 200
"""A day without a year that lies further ahead than this is not taken for something planned (judgement)."""

PLANTED_DAYS = 330
"""A planting day may be told until the next one (judgement)."""

UNIT_DAYS = {"day": 1, "week": 7, "fortnight": 14, "month": 30}
"""Days in a unit of time as people mean it."""

FLIP_DAYS = 60
"""A day read in the unaccustomed order must be this near to be believed; else it is asked about (judgement)."""


FRESH_DAYS = 14
"""A visit is told within so many days, as a rule: a day in the other order so near is meant (judgement)."""


@dataclass(frozen=True, slots=True)
class DayWritten:
    """A day as written: parts, or a distance, or a weekday. Which day it is depends on what it is said of."""

    text: str
    day: int | None = None
    month: int | None = None
    year: int | None = None
    first: int | None = None
    """For 7/5: both numbers, the order not yet decided."""
    second: int | None = None
    days_ago: int | None = None
    weekday: int | None = None
    next: bool = False
    weeks: int | None = None
    """The weekday of the week so many ahead ("end of next week": Friday of the week after this one), or -1 for the
    week before this one."""
    later: int = 0
    """Whole weeks from that weekday on ("a week from Friday")."""
    months_ago: int | None = None
    """So many months back, to the day of the month."""
    named: int | None = None
    """The weekday said beside a date ("Fri 8/7"), Monday 0: it tells which order is meant, or that one is wrong."""
    gone: bool = False
    """"Last Wednesday": on a Wednesday the one before, and not the day itself."""


@dataclass(frozen=True, slots=True)
class DayAhead:
    """A day as written that is told as the next look, in a correction."""

    written: DayWritten


@dataclass(frozen=True, slots=True)
class DayRead:
    """The day, and what must be said about it: ``other`` is a second plausible day, ``wrong`` a complaint's kind."""

    day: date | None
    other: date | None = None
    wrong: str = ""
    flipped: bool = False
    """Day and month stand in the unaccustomed order, because the accustomed one gives no day that can be meant."""


def make(year: int, month: int, day: int) -> date | None:
    """The date, or ``None`` when there is no such day."""
    if 1 <= month <= 12 and 1 <= day <= 31 and 1 <= year <= 9999 and day <= calendar.monthrange(year, month)[1]:
        return date(year, month, day)
    return None


def _shift(sent: date, days: int) -> date | None:
    try:
        return sent + timedelta(days=days)
    except OverflowError:
        return None


def _months_back(sent: date, months: int) -> date | None:
    """The same day of the month so many months before, or the last of that month."""
    year, month = divmod(sent.year * 12 + sent.month - 1 - months, 12)
    if year < 1:
        return None
    return make(year, month + 1, min(sent.day, calendar.monthrange(year, month + 1)[1]))


def _year(year: int) -> int:
    return 2000 + year if year < 100 else year


def _orders(written: DayWritten, month_first: bool) -> list[tuple[int, int]]:
    """Possible (month, day) pairs, the customary order first."""
    if written.day is not None and written.month is None:
        return []
    if written.month is not None and written.day is not None:
        return [(written.month, written.day)]
    if written.first is None or written.second is None:
        return []
    pairs = [(written.first, written.second), (written.second, written.first)]
    if not month_first:
        pairs.reverse()
    good = [
        p for p in pairs if 1 <= p[0] <= 12 and 1 <= p[1] <= (29 if p[0] == 2 else 30 if p[0] in (4, 6, 9, 11) else 31)
    ]
    return list(dict.fromkeys(good))


def _nearest(day: int, sent: date, step: int) -> date | None:
    """The nearest day of that number, before (-1) or after (1) the day it was sent, that day included."""
    for distance in range(62):
        found = _shift(sent, step * distance)
        if found is not None and found.day == day:
            return found
    return None


def _agreeing(written: DayWritten, found: DayRead) -> DayRead:
    """The reading that goes with the weekday said beside the date."""
    if written.named is None or found.day is None:
        return found
    fits = [day for day in (found.day, found.other) if day is not None and day.weekday() == written.named]
    return DayRead(fits[0]) if fits else DayRead(None, wrong="weekday_mismatch")


def past_day(
    written: DayWritten, sent: date, language: Language, day_first: bool | None, flip_days: int = FLIP_DAYS
) -> DayRead:
    """The day of something that has happened: never after the day it was sent (a day of grace for time zones).

    ``flip_days``: how far back a day in the unaccustomed order is believed where the accustomed one lies ahead; more
    than ``PAST_DAYS``, and a day may lie as far back at all.
    """
    return _agreeing(written, _past_day(written, sent, language, day_first, flip_days))


def _past_day(written: DayWritten, sent: date, language: Language, day_first: bool | None, flip_days: int) -> DayRead:
    if written.days_ago is not None:
        return DayRead(None, wrong="future_date") if written.days_ago < 0 else DayRead(_shift(sent, -written.days_ago))
    if written.months_ago is not None:
        return DayRead(_months_back(sent, written.months_ago))
    if written.weekday is not None and written.weeks == -1:
        return DayRead(_shift(sent, written.weekday - sent.weekday() - 7))
    if written.weekday is not None:
        if written.weeks is not None or written.later:
            return DayRead(None, wrong="future_date")
        back = (sent.weekday() - written.weekday) % 7
        if written.next:
            return DayRead(None, wrong="future_date")
        return DayRead(_shift(sent, -back or (-7 if written.gone else 0)))
    if written.day is not None and written.month is None:
        return DayRead(_nearest(written.day, sent, -1))
    within = max(PAST_DAYS if written.first is None else SLASHED_DAYS, flip_days)
    month_first = not day_first if day_first is not None else language == "en"
    found: list[date] = []
    future = False
    orders = _orders(written, month_first)
    for month, day in orders:
        if written.year is not None:
            made = make(_year(written.year), month, day)
            if made is not None and (made - sent).days <= 1:
                found.append(made)
            elif made is not None:
                future = True
            continue
        this_year = make(sent.year, month, day)
        last_year = make(sent.year - 1, month, day)
        if this_year is not None and (this_year - sent).days <= 1:
            found.append(this_year)
        elif this_year is not None and last_year is not None and (sent - last_year).days <= within:
            found.append(last_year)
        elif this_year is not None:
            future = True
            found.append(date.max)
    if not orders:
        return DayRead(None, wrong="no_such_day")
    real = [d for d in found if d != date.max]
    if not real:
        return DayRead(None, wrong="future_date" if future else "no_such_day")
    if len(orders) == 1 or len(real) == 1:
        only = real[0]
        if len(orders) > 1 and found[0] == date.max and day_first is not None:
            return DayRead(None, wrong="future_date")
        if written.year is None and (sent - only).days > within:
            return DayRead(None, wrong="long_ago")
        flipped = len(orders) > 1 and found[0] == date.max
        if flipped and (sent - only).days > flip_days:
            return DayRead(None, wrong="future_date")
        return DayRead(only, flipped=flipped)
    near = [d for d in real if written.year is not None or (sent - d).days <= within]
    if not near:
        return DayRead(None, wrong="long_ago")
    if near[0] != real[0]:
        return DayRead(near[0], flipped=True)
    if (
        written.year is None
        and (sent - near[0]).days > (FRESH_DAYS if day_first is None and flip_days == FLIP_DAYS else flip_days)
        and len(near) > 1
        and (sent - near[1]).days <= FRESH_DAYS
    ):
        return DayRead(near[1], flipped=True)  # "7/2" on July 3: yesterday, and not five months ago
    if len(near) > 1 and near[0] != near[1] and day_first is None:
        return DayRead(near[0], other=near[1])
    return DayRead(near[0])


def coming_day(written: DayWritten, sent: date, language: Language, day_first: bool | None) -> DayRead:
    """The day of something planned: today or later, within the year."""
    return _agreeing(written, _coming_day(written, sent, language, day_first))


def _coming_day(written: DayWritten, sent: date, language: Language, day_first: bool | None) -> DayRead:
    if written.days_ago is not None:
        return DayRead(_shift(sent, -written.days_ago)) if written.days_ago <= 0 else DayRead(None, wrong="past_look")
    if written.months_ago is not None or written.weeks == -1 or written.gone:
        return DayRead(None, wrong="past_look")
    if written.weekday is not None and written.weeks is not None:
        ahead = 7 * written.weeks + written.weekday - sent.weekday()
        return DayRead(_shift(sent, ahead if ahead > 0 else ahead + 7))
    if written.weekday is not None:
        ahead = (written.weekday - sent.weekday()) % 7 or 7
        return DayRead(_shift(sent, ahead + 7 * written.later))
    if written.day is not None and written.month is None:
        return DayRead(_nearest(written.day, sent, 1))
    month_first = not day_first if day_first is not None else language == "en"
    ahead_of: list[date] = []
    orders = _orders(written, month_first)
    if not orders:
        return DayRead(None, wrong="no_such_day")
    for month, day in orders:
        years = [_year(written.year)] if written.year is not None else [sent.year, sent.year + 1]
        days = [d for d in (make(y, month, day) for y in years) if d is not None and d >= sent]
        if days and (days[0] - sent).days <= AHEAD_DAYS:
            ahead_of.append(days[0])
        elif len(orders) == 1 or not ahead_of:
            ahead_of.append(date.min)
    good = [d for d in ahead_of if d != date.min]
    if not good:
        return DayRead(None, wrong="past_look")
    if len(good) > 1 and good[0] != good[1] and day_first is None:
        close = [d for d in good if (d - sent).days <= 60]
        if len(close) == 1:
            return DayRead(close[0])
        return DayRead(good[0], other=good[1])
    return DayRead(good[0])
