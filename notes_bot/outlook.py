"""Records and temperatures in, an :class:`~notes_bot.model.Outlook` out. Pure: asks neither clock nor chance.

Every :class:`~notes_bot.model.Fact` that leaves this module has a key from one of the closed tables below; each
table maps a key to example values, so that whoever words the facts can be tested against all of them. Values are
plain: numbers, ISO days, short strings. The words for each key live in the reply room.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from functools import lru_cache
from itertools import pairwise
from typing import Any, Literal, get_args

import numpy as np
from numpy.typing import NDArray

from notes_bot import worth
from notes_bot.model import (
    THIRD_OR_LATER,
    Climate,
    Colour,
    DayTemperature,
    Event,
    Fact,
    History,
    MixDay,
    Note,
    Outlook,
    PastYear,
    Purpose,
    Recheck,
    Stage,
    Visit,
    Window,
)
from notes_bot.noted import last_texture as noted_texture
from notes_bot.science import detection, generation, growth_stage, soil_water, thermal_time
from notes_bot.science.parameters import CLOCK, FOUND_BY_COLOUR

Floats = NDArray[np.float64]
SUNDAY = 6
UNKNOWN_LATITUDE = 41.0
AIR_FADE_DAYS = 6.0
"""Time in which a measured departure of air temperature from normal is taken to fade to 1/e [judgement]."""
STRANGE_FADE_DAYS = 60.0
"""The same where the normals are another place's: most of the departure is then the place, and stays [judgement]."""
FAR_KM = 400.0
WARM_SOIL_C = 26.0
"""Above this, development may no longer speed up [Melton1986]; the heat sums go on to 30 C."""

BASIS_KEYS: Mapping[str, Mapping[str, Any]] = {
    # Which temperatures the heat was summed from, best first. Any of these may appear together.
    "temperatures_soil": {"days": 41, "first": "2024-05-06", "last": "2024-06-15"},
    "temperatures_air": {"days": 41, "first": "2024-05-06", "last": "2024-06-15"},
    "temperatures_forecast": {"days": 7, "last": "2024-06-22"},
    # Days between planting and the question filled from monthly normals; km is None when unknown.
    "temperatures_normals": {"days": 12, "place": "Ames 8 WSW IA", "km": 38},
    # The weather to come is taken from that many past years of the place's own record instead of from normals.
    "temperatures_past_years": {"years": 22, "first": 1997, "last": 2023},
    # No coordinates: a place in the middle of the belt was taken.
    "temperatures_assumed": {"place": "Champaign 3S (Urbana) IL"},
    # Monthly normals that were written down from memory, not from a station table.
    "temperatures_from_memory": {"place": "Ridgetown ON"},
    "planted_known": {"date": "2024-05-06"},
    "planted_from_stage": {
        "stage": "V4",
        "seen": "2024-06-11",
        "earliest": "2024-05-01",
        "likely": "2024-05-07",
        "latest": "2024-05-13",
    },
    "planted_assumed": {"earliest": "2024-04-24", "likely": "2024-05-08", "latest": "2024-05-22"},
    # Visits that moved the clock: all that looked; how many with colours, how many saw none.
    "visits_used": {"count": 3, "with_colours": 2, "none_seen": 1},
    "no_visits": {},
    # These colours fit badly to heat and planting date (doubt: chance, 0-1, that they say nothing of the clock).
    "counts_disagree": {"seen": "2024-06-25", "doubt": 0.7},
    "resistant_variety": {},
    # What is judgement, not measurement.
    "soil_model": {"error_c": 1.0},
    "colour_steps_judgement": {},
    "roots_end_assumed": {"likely": "2024-09-01"},
    "roots_end_from_stage": {"stage": "R5", "seen": "2024-08-02", "likely": "2024-09-03"},
    # Generations overlap too much to be told apart after the second.
    "third_or_later": {},
    # Development was summed as if heat above about 26 C still helped; it may not.
    "very_warm_soil": {"days": 18},
    # Expected generations of white females before the roots end: 10 %, 50 %, 90 %.
    "generations_expected": {"low": 3, "likely": 3, "high": 4},
}
"""``Outlook.basis`` keys with example values."""

WHY_KEYS: Mapping[str, Mapping[str, Any]] = {
    "first_females": {"generation": 1, "likely": "2024-06-10"},
    "peak_ahead": {"generation": 1, "likely": "2024-06-22"},
    # None seen; this is when most females of the generation would show.
    "none_may_be_early": {"generation": 1, "likely": "2024-06-18"},
    "none_may_be_missed": {"generation": 1, "likely": "2024-06-22"},
    "resistance_next_peak": {"generation": 2, "likely": "2024-07-20"},
    "next_whites": {"generation": 2, "likely": "2024-07-12"},
    "before_roots_decline": {"likely": "2024-09-01"},
    # The writer's own wish, kept as it was.
    "asked": {"date": "2024-06-21"},
    # The writer's own wish, moved because the field is closed until then.
    "asked_but_closed": {"date": "2024-06-21", "until": "2024-06-23"},
    # The writer's own wish lies in the past or after the roots; ours was taken.
    "asked_not_possible": {"date": "2024-06-21", "likely": "2024-06-28"},
    # Nothing firm is known: the trade's usual one to two weeks.
    "one_to_two_weeks": {"earliest": "2024-06-18", "latest": "2024-06-25"},
}
"""``Recheck.why`` keys with example values; any may also carry ``closed_until`` when an entry interval moved it, and
``too_wet`` (the day that would have been best) with ``rain``, ``rain_due`` (forecast) or ``noted_wet`` (the day of it)
when wet soil did."""

NO_RECHECK_KEYS: Mapping[str, Mapping[str, Any]] = {
    "roots_declined": {"likely": "2024-09-01"},
    "closed_until_roots_decline": {"until": "2024-09-02", "likely": "2024-09-01"},
}
"""``Outlook.no_recheck`` keys with example values."""

PURPOSES: tuple[Purpose, ...] = get_args(Purpose)
"""What a look-again may be for."""


FEWEST_YEARS, MOST_YEARS = 8, 30
"""Past years needed to stand for the weather to come, and the latest that are used [judgement]."""
WHOLE_YEAR = 0.9
"""Share of the days to come that a past year must hold; the rest is joined by straight lines."""
HORIZON_DAYS = 45
"""Days kept beyond the usual end of the roots, so that late windows have days to fall on."""
RUN_IN_DAYS = 60
"""Days of normals before planting that bring the modelled soil to its own temperature."""
WAITING_DAYS = 20
"""From planting to infection, about."""
USUAL_WAIT = (7, 10, 14)
"""Common practice, no source: look again in one to two weeks."""
FEW_SHOWING = 0.5
"""With fewer females out than this share of the first generation's height, a look that saw none may have been early."""
VAGUE_DAYS = 34
"""An event whose window is wider than this is no ground for a date; the usual wait is kept instead."""
JUST_SEEN_DAYS = 2
"""A count no older than this says itself what the roots show."""
APART_DAYS = 5
"""A second look sooner than this after the last shows little new."""
GOOD_SHARE = 0.6
"""A day is good for settling a doubtful none when this share of the best day's females should be out."""


def foresee(
    history: History,
    temperatures: Sequence[DayTemperature],
    climate: Climate,
    as_of: date,
    *,
    past_years: Sequence[PastYear] = (),
    with_mix: bool = False,
    recoveries: Sequence[detection.Recovery] | None = None,
) -> Outlook:
    """Where the population of one field is in its generation on ``as_of``, and what comes next.

    :param history: the field as known; visits after ``as_of`` are left out.
    :param temperatures: air and/or soil, any order, gaps allowed; measured days after ``as_of`` are left out, forecast
        days are used. Where there is none, ``climate`` fills in.
    :param climate: monthly normals of the place.
    :param as_of: the day of the question.
    :param past_years: earlier years of the place's own record. From eight usable ones on they stand for the weather to
        come, each as likely as another, and their means for the normals; fewer are not used.
    :param with_mix: also give the expected mix of colours for every day.
    :param recoveries: a crew's own chances to bring up and see a female, in place of the judgement table.
    """
    dug = detection.RECOVERIES if recoveries is None else recoveries
    clock = read_clock(history, temperatures, climate, as_of, past_years, dug)
    known, calendar, soil, looks = clock.history, clock.calendar, clock.soil, clock.looks
    after, ahead, shown, visits = clock.after, clock.ahead, clock.shown, clock.history.visits
    visible = [generation.could_be_seen(shown, calendar.index(visit.on)) for visit in visits]
    now = generation.present(ahead, calendar.index(as_of), _just_seen(looks, calendar.index(as_of)))
    windows = _windows(calendar, ahead, now)
    places = np.array([calendar.index(visit.on) for visit in visits], dtype=int)
    showing = generation.showing(shown, places) if visits else np.zeros((0, 1))
    finding = worth.weigh(known, visible, as_of, showing=showing, recoveries=dug) if visits else None
    if finding is not None:
        heat = _heat(finding.cautions, temperatures, visits[-1].on, as_of)
        finding = replace(finding, cautions=(*finding.cautions, *heat))
        if _STAGES[now.stage] == "declined" and finding.settle:
            # whatever would have settled it on roots comes too late
            finding = replace(finding, settle=(Fact("soil_sample", {"when": "after_harvest"}),))
    infested = finding.infested_after if finding else None
    early = bool(visits) and (visible[-1] < 0.8 or _when_out(showing[-1]) < FEW_SHOWING)
    wet = _too_wet(known, temperatures, as_of)
    recheck, no_recheck = _recheck(known, calendar, ahead, now, as_of, looks, early, wet)
    return Outlook(
        as_of=as_of,
        stage=_STAGES[now.stage],
        generation=now.generation,
        generation_probability=now.generation_probability,
        windows=windows,
        infested_probability=worth.infested_after(known, visible) if infested is None else infested,
        recheck=recheck,
        no_recheck=no_recheck,
        finding=finding,
        sure=_sure(windows, as_of),
        basis=_basis(known, calendar, soil, ahead, after, looks, visits, now, calendar.index(as_of)),
        mix=_mix(calendar, ahead) if with_mix else (),
    )


def _heat(said: Sequence[Fact], temperatures: Sequence[DayTemperature], looked: date, as_of: date) -> tuple[Fact, ...]:
    """The heat of the days just looked at or ahead, where it is measured or forecast and not said already."""
    days = [row.tmax_c for row in temperatures if row.tmax_c is not None
            and looked <= row.date <= as_of + timedelta(days=worth.HOT_DAYS)
            and (row.forecast or row.date <= as_of)]  # fmt: skip
    hottest = max(days, default=0.0)
    if hottest < worth.HOT_C or (as_of - looked).days > worth.HOT_DAYS or any(fact.key == "heat" for fact in said):
        return ()
    return (Fact("heat", {"tmax_c": round(hottest)}),)


def _when_out(showing: Floats) -> float:
    """Females out on a day over the states in which any are; 0 when there is none."""
    return float(showing.sum() / max((showing > 0.0).sum(), 1))


@dataclass(frozen=True, slots=True)
class Clock:
    """One field's clock on one day, before it is put into dates."""

    history: History
    """Without visits after the day of the question."""
    calendar: _Calendar
    soil: _SoilRecord
    season: generation.Season
    looks: tuple[generation.Look, ...]
    after: generation.Posterior
    ahead: generation.Forecast
    shown: generation.Forecast
    """As ``ahead``, but blind to visits that saw none: whether females could show must not rest on such a visit."""


def read_clock(
    history: History,
    temperatures: Sequence[DayTemperature],
    climate: Climate,
    as_of: date,
    past_years: Sequence[PastYear] = (),
    recoveries: Sequence[detection.Recovery] = detection.RECOVERIES,
) -> Clock:
    """The states of a field's population on a day; arguments as for `foresee`."""
    told = sorted(
        (visit for visit in history.visits if visit.on <= as_of), key=lambda visit: (visit.on, visit.id or 1 << 62)
    )  # not kept yet: the latest
    known = replace(history, visits=tuple(told))
    calendar = _Calendar.of(known, climate, as_of)
    if past_years:
        calendar = calendar.with_past(past_years, as_of)
    soil = _soil(calendar, temperatures, as_of)
    season = _season(calendar, soil, known, calendar.index(as_of))
    looks = tuple(
        look
        for i in range(len(told))
        if (look := _look(told[i], calendar, worth.recovery(told[: i + 1], recoveries))) is not None
    )
    after = generation.posterior(season, looks)
    ahead = generation.forecast(season, after)
    shown = ahead
    if any(not look.seen for look in looks):
        shown = generation.forecast(season, generation.posterior(season, looks, with_none=False))
    return Clock(known, calendar, soil, season, looks, after, ahead, shown)


# --- the season's calendar --------------------------------------------------------------------------

_STAGES: tuple[Stage, ...] = get_args(Stage)


@dataclass(frozen=True, slots=True)
class _Calendar:
    """Days of one season as positions in arrays, and what is known of planting and the roots' end."""

    first: date
    days: int
    planted: float
    """Position of the likely planting day."""
    planted_sd: float
    roots: growth_stage.Days
    """Position of the end of the roots."""
    dormant_from: float | None
    """Position of the day from which eggs mostly wait for next year."""
    known_planting: date | None
    roots_from: tuple[str, date] | None
    """The R stage the roots' end was reckoned from, and when it was seen."""
    normal_air_c: Floats
    """Expected daily mean air temperature, shape (days,)."""
    assumed_place: str
    """Where the climate was taken from when no coordinates were known, or empty."""
    climate: Climate
    past: tuple[tuple[int, Floats], ...] = ()
    """Usable past years: each with its air temperature for every day of this season's arrays."""

    def with_past(self, past_years: Sequence[PastYear], as_of: date) -> _Calendar:
        """This calendar with the past years that hold nearly all days still to come; itself when they are few."""
        before = {year.year: year.air_c for year in past_years}
        days = [self.first + timedelta(days=i) for i in range(self.days)]
        ahead = np.arange(self.days) > self.index(as_of)
        ahead &= np.arange(self.days) <= self.roots.middle + 2 * self.roots.sd
        found = []
        for back in range(1, as_of.year - min(before) + 1 if before else 1):
            air = np.array([_of_year(before.get(day.year - back, ()), day) for day in days])
            measured = ~np.isnan(air)
            if measured[ahead].mean() >= WHOLE_YEAR if ahead.any() else False:
                found.append((as_of.year - back, air))
        if len(found) < FEWEST_YEARS:
            return self
        found = found[:MOST_YEARS]
        place = np.arange(self.days)
        together = np.stack([air for _, air in found])
        counted = (~np.isnan(together)).sum(axis=0)
        mean = np.where(counted > 0, np.nansum(together, axis=0) / np.maximum(counted, 1), np.nan)
        # The years' own mean, smoothed over a month, takes the place of the normals wherever enough of them tell it.
        told = counted >= FEWEST_YEARS
        smooth = np.convolve(np.where(told, mean, 0.0), np.ones(31), "same")
        smooth = smooth / np.maximum(np.convolve(told, np.ones(31), "same"), 1)
        normal = np.where(told, smooth, self.normal_air_c)
        filled = tuple(
            (year, np.where(np.isnan(air), np.interp(place, place[~np.isnan(air)], air[~np.isnan(air)]), air))
            for year, air in found
        )
        return replace(self, normal_air_c=normal, past=filled)

    @property
    def strange(self) -> bool:
        """True when the normals are hardly this place's."""
        if self.past:
            return False
        return self.climate.assumed or self.climate.from_memory or (self.climate.distance_km or 0.0) > FAR_KM

    def index(self, day: date) -> int:
        return min(max((day - self.first).days, 0), self.days - 1)

    def day(self, position: float) -> date:
        return self.first + timedelta(days=round(min(max(position, 0.0), self.days + 120.0)))

    def by_end_of(self, moment: float) -> date:
        """The day on which a moment lies: the one that ends next, as in every window."""
        return self.day(float(np.ceil(moment)))

    @classmethod
    def of(cls, history: History, climate: Climate, as_of: date) -> _Calendar:
        noted = [visit.note.planted for visit in history.visits if visit.note.planted is not None]
        planted = history.planted or (noted[-1] if noted else None)
        latitude = history.latitude
        if latitude is None:
            # Nobody plants in the northern autumn: without coordinates such a date speaks of the southern half.
            southern = planted is not None and (planted.month >= 9 or planted.month == 1)
            latitude = -UNKNOWN_LATITUDE if southern else UNKNOWN_LATITUDE
            if southern:
                climate = replace(climate, tmax_c=climate.tmax_c[6:] + climate.tmax_c[:6],
                                  tmin_c=climate.tmin_c[6:] + climate.tmin_c[:6])  # fmt: skip
        turn = 182 if latitude < 0 else 0
        sd = 0.0
        if planted is None:
            usual = growth_stage.usual_planting(latitude)
            sd = usual.sd
            reference = history.visits[0].on if history.visits else as_of
            years = (reference.year - 1, reference.year, reference.year + 1)
            candidates = [date(y, 1, 1) + timedelta(days=round(usual.middle) - 1 + turn) for y in years]
            # The season a day belongs to began at most eight months before it.
            likely = min(candidates, key=lambda day: abs((reference - day).days - 60))
        else:
            likely = planted
        ordinal = (likely - timedelta(days=turn)).timetuple().tm_yday
        r6 = growth_stage.usual_r6(latitude, float(ordinal))
        first = likely - timedelta(days=RUN_IN_DAYS)
        position = float(RUN_IN_DAYS)
        end = growth_stage.Days(position + r6.middle - ordinal, r6.sd)
        roots_from = None
        for visit in history.visits:
            stage = growth_stage.reproductive_stage(visit.note.stage or "")
            if stage is not None:
                left = growth_stage.days_to_r6(stage)
                end = growth_stage.Days((visit.on - first).days + left.middle, left.sd)
                roots_from = (visit.note.stage or "", visit.on)
        roots = growth_stage.roots_end(end, _killed(climate, first, round(position)))
        days = int(max(roots.middle, position + 110.0)) + HORIZON_DAYS
        dormant = generation.dormant_day_of_year(latitude)
        dormant_from = None if dormant is None else position + dormant - ordinal
        return cls(first, days, position, sd, roots, dormant_from, planted, roots_from,
                   _normal_air(climate, first, days),
                   climate.name if climate.assumed else "", climate)  # fmt: skip


def _of_year(air_c: Sequence[float | None], day: date) -> float:
    """The value of a past year on the same day of the year, or NaN."""
    place = day.timetuple().tm_yday - 1
    value = air_c[place] if place < len(air_c) else None
    return float("nan") if value is None else value


def _killed(climate: Climate, first: date, planted: int) -> float | None:
    """Position of the day by which freezes have killed the crop; ``None`` where the normals know no winter."""
    nights = _normal_nights(climate, first, planted + growth_stage.LONGEST_SEASON_DAYS)
    cold = np.flatnonzero(nights[planted + growth_stage.SHORTEST_SEASON_DAYS :] < growth_stage.KILLING_NORMAL_MIN_C)
    return None if cold.size == 0 else float(planted + growth_stage.SHORTEST_SEASON_DAYS + int(cold[0]))


@lru_cache(maxsize=256)
def _normal_nights(climate: Climate, first: date, days: int) -> Floats:
    of_year = np.array([(first + timedelta(days=i)).timetuple().tm_yday for i in range(days)])
    normal = thermal_time.interpolate_monthly(np.array(climate.tmin_c), of_year)
    normal.setflags(write=False)
    return normal


@lru_cache(maxsize=256)
def _normal_air(climate: Climate, first: date, days: int) -> Floats:
    of_year = np.array([(first + timedelta(days=i)).timetuple().tm_yday for i in range(days)])
    normal = thermal_time.interpolate_monthly((np.array(climate.tmax_c) + np.array(climate.tmin_c)) / 2, of_year)
    normal.setflags(write=False)
    return normal


# --- temperatures -----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _SoilRecord:
    """Daily mean soil temperature of the season, and where each day's came from."""

    mean_c: Floats
    air_c: Floats
    """Daily mean air, measured or filled in."""
    measured_soil: NDArray[np.bool_]
    measured_air: NDArray[np.bool_]
    forecast: NDArray[np.bool_]


def _soil(calendar: _Calendar, temperatures: Sequence[DayTemperature], as_of: date) -> _SoilRecord:
    """Soil temperature for every day: measured, else modelled from air; air that is missing is its normal plus the
    nearest measured day's departure, fading."""
    size = calendar.days
    air = np.full(size, np.nan)
    soil = np.full(size, np.nan)
    forecast = np.zeros(size, dtype=bool)
    for row in temperatures:
        place = (row.date - calendar.first).days
        if not 0 <= place < size or (row.date > as_of and not row.forecast):
            continue
        if row.forecast and not np.isnan(air[place]):
            continue
        if row.tmin_c is not None and row.tmax_c is not None:
            air[place] = (row.tmin_c + row.tmax_c) / 2
            forecast[place] = row.forecast
        if row.soil_mean_c is not None:
            soil[place] = row.soil_mean_c
            forecast[place] = row.forecast
    has_air = ~np.isnan(air)
    departure = np.where(has_air, air - calendar.normal_air_c, np.nan)
    filled = calendar.normal_air_c + _fading(departure, STRANGE_FADE_DAYS if calendar.strange else AIR_FADE_DAYS)
    measured = ~np.isnan(soil)
    modelled = thermal_time.soil_temperature_lagged(filled)
    if measured.any():
        # Between and after measured days the model starts from the last measurement.
        ends = [*np.flatnonzero(measured), size]
        for here, there in pairwise(ends):
            modelled[here] = soil[here]
            if there > here + 1:
                between = filled[here + 1 : there]
                modelled[here + 1 : there] = thermal_time.soil_temperature_lagged(between, start_c=soil[here])
    return _SoilRecord(modelled, filled, measured, has_air, forecast)


def _fading(departure: Floats, fade_days: float) -> Floats:
    """Departures from normal with the gaps filled: nearest known value times exp(-days away / time constant)."""
    known = np.flatnonzero(~np.isnan(departure))
    result = np.zeros(len(departure))
    if len(known) == 0:
        return result
    place = np.arange(len(departure))
    right = np.clip(np.searchsorted(known, place), 0, len(known) - 1)
    left = np.clip(right - 1, 0, len(known) - 1)
    before, after = known[left], known[right]
    near = np.where(np.abs(place - before) <= np.abs(place - after), before, after)
    # A single day's departure is mostly weather of that day; the mean of its fortnight lasts.
    there = ~np.isnan(departure)
    window = np.ones(13)
    sums = np.convolve(np.where(there, departure, 0.0), window, "same")
    smooth = sums[known] / np.convolve(there, window, "same")[known]
    value = smooth[np.searchsorted(known, near)]
    fade = np.exp(-np.abs(place - near) / fade_days)
    gaps = value * fade
    return np.asarray(np.where(np.isnan(departure), gaps, departure))


def _season(calendar: _Calendar, soil: _SoilRecord, history: History, today: int) -> generation.Season:
    place = np.arange(calendar.days)
    planted = round(calendar.planted)
    start = planted - round(2.5 * calendar.planted_sd)
    measured = soil.measured_soil | soil.measured_air
    sure = measured & ~soil.forecast
    bias = np.where(soil.measured_soil, CLOCK["soil_bias_measured"].spread, CLOCK["soil_bias_air"].spread)
    unseen = "soil_bias_far" if calendar.strange else "soil_bias_air" if calendar.past else "soil_bias_normals"
    bias = np.where(measured, bias, CLOCK[unseen].spread)
    # A forecast day is half as uncertain as a day nothing is known of.
    unmeasured = np.where(sure, 0.0, np.where(soil.forecast, 0.5, 1.0))
    counted = place >= start
    heat = generation.clock_heat(soil.mean_c)
    futures = None
    if calendar.past:
        last = max(today, int(np.flatnonzero(measured)[-1]) if measured.any() else 0)
        heats = np.stack([_heat_as_in(air, soil, calendar, last) for _, air in calendar.past])
        heat = heats.mean(axis=0)
        futures = heats - heat
        unmeasured = np.where(place > last, 0.0, unmeasured)
    # The weeks in which infection is awaited: their lasting soil error, and how sure their temperature is.
    waiting = slice(planted, planted + WAITING_DAYS)
    unsure = CLOCK["soil_anomaly_sd"].spread * float(unmeasured[waiting].mean())
    intensity = detection.INTENSITIES[history.resistance]
    return generation.Season(
        heat=heat,
        bias_heat=np.cumsum(np.where(counted, bias, 0.0)),
        unmeasured=np.cumsum(np.where(counted, unmeasured, 0.0)),
        anchored=bool((sure & counted).any()),
        planted=calendar.planted,
        planted_sd=calendar.planted_sd,
        roots_end=calendar.roots.middle,
        roots_end_sd=calendar.roots.sd,
        resistant=history.resistance == "resistant",
        females=(intensity.median, intensity.log_sd),
        gate=generation.Gate.of(soil.mean_c, planted, float(bias[waiting].mean()), unsure),
        dormant_from=calendar.dormant_from,
        futures=futures,
    )


def _heat_as_in(air_c: Floats, soil: _SoilRecord, calendar: _Calendar, last: int) -> Floats:
    """Heat of the season if, after the last day known, its air were that of a past year.

    Soil goes on from today's; air that is warm or cool for the season now fades to the past year's own.
    """
    lasting = soil.air_c[last + 1 :] - calendar.normal_air_c[last + 1 :]
    mean_c = soil.mean_c.copy()
    if last + 1 < calendar.days:
        ahead = air_c[last + 1 :] + lasting
        mean_c[last + 1 :] = thermal_time.soil_temperature_lagged(ahead, start_c=soil.mean_c[last])
    return generation.clock_heat(mean_c)


# --- visits -----------------------------------------------------------------------------------------


def _looked(visit: Visit) -> bool:
    """Whether a visit tells the clock anything."""
    return visit.note.outcome != "not_looked" or growth_stage.vegetative_node(visit.note.stage or "") is not None


def _look(visit: Visit, calendar: _Calendar, recovery: detection.Beta) -> generation.Look | None:
    """A visit as the clock sees it, or ``None`` when nobody looked at roots."""
    if not _looked(visit):
        return None
    note = visit.note
    node = growth_stage.vegetative_node(note.stage or "")
    rows = _colour_rows(note)
    mostly = note.mostly or tuple(colour for spot in note.spots if not spot.check for colour in spot.mostly)
    total = note.females.total
    if total is None and note.per_plant is not None:
        total = sum(note.per_plant)
    if note.outcome == "none_seen":
        total = 0
    if note.outcome == "not_looked":
        rows, mostly, total = (), (), None
    return generation.Look(
        day=calendar.index(visit.on),
        colours=rows,
        mostly=_flags(mostly) if mostly else None,
        total=total,
        plants=note.plants,
        method=note.method or "",
        recovery=recovery[0] / sum(recovery),
        at_least=note.too_many,
        node=node,
    )


def _colour_rows(note: Note) -> tuple[tuple[int, int, int, int], ...]:
    """Colour counts kept apart by spot where the note keeps them apart; a check strip runs on the same clock."""
    spots = [row for spot in note.spots if (row := spot.females.by_colour()) is not None and sum(row) > 0]
    checks = [row for spot in note.spots if spot.check and (row := spot.females.by_colour()) and sum(row) > 0]
    whole = note.females.by_colour()
    if len(spots) > len(checks) or whole is None:
        return tuple(spots)
    return tuple([whole, *checks] if sum(whole) > 0 else checks)


def _just_seen(looks: Sequence[generation.Look], today: int) -> Floats | None:
    """Females by colour of the latest look, if it is hardly older than the question, as they were before digging."""
    latest = looks[-1] if looks else None
    if latest is None or not 0 <= today - latest.day <= JUST_SEEN_DAYS:
        return None
    if latest.colours:
        found = np.array(FOUND_BY_COLOUR[latest.method])
        return np.asarray(np.array(latest.colours, dtype=float).sum(axis=0) * found[0] / found)
    if latest.mostly is None:
        return None
    # Colours said to be most, without numbers: seven in ten of what was seen, of which words tell no more than thirty.
    named = np.array(latest.mostly)
    number = min(max(latest.total or 0, 10), 30)
    return np.asarray(number * np.where(named, 0.7 / named.sum(), 0.3 / max(4 - named.sum(), 1)))


def _flags(mostly: Sequence[Colour]) -> tuple[bool, bool, bool, bool]:
    return ("white" in mostly, "yellow" in mostly, "tan" in mostly, "brown" in mostly)


# --- windows ----------------------------------------------------------------------------------------


def _windows(calendar: _Calendar, ahead: generation.Forecast, now: generation.Present) -> tuple[Window, ...]:
    """Windows of the generation at hand and the next one, while the roots last; past ones included."""
    reached = max(now.reached, 1)
    # The generation most females belong to may be the one before the latest whites.
    start = min(reached, now.generation) if now.generation is not None and now.generation < THIRD_OR_LATER else reached
    marks = ahead.marks
    last = marks.roots_end[generation.HALF]
    found: list[Window] = []
    for number in range(start, min(reached + 1, generation.GENERATIONS) + 1):
        place, name = number - 1, min(number, THIRD_OR_LATER)
        if number > reached and marks.first_white[generation.HALF, place] > last:
            continue
        first: Event = "next_white" if number > start else "first_white"
        found.append(_window(calendar, first, name, marks.first_white[:, place]))
        if number <= reached or marks.peak[generation.HALF, place] <= last:
            found.append(_window(calendar, "peak", name, marks.peak[:, place]))
            found.append(_window(calendar, "turning_tan", name, marks.turning_tan[:, place]))
    found.append(_window(calendar, "last_look", None, marks.roots_end))
    return tuple(found)


def _window(calendar: _Calendar, event: Event, number: int | None, marks: Floats) -> Window:
    ends = (generation.TENTH, generation.HALF, generation.NINE_TENTHS)
    days = generation.whole_days(*(float(marks[end]) for end in ends))
    low, middle, high = (calendar.day(float(day)) for day in days)
    return Window(event, number, low, middle, high)


def _sure(windows: Sequence[Window], as_of: date) -> Literal["thin", "fair", "firm"]:
    """Firm within about a week, fair within about two: the width of the next thing's 80 % window."""
    coming = [w for w in windows if w.event != "last_look" and w.latest >= as_of]
    following = min(coming, key=lambda w: w.likely) if coming else None
    if following is None:
        return "fair"
    width = (following.latest - following.earliest).days
    return "firm" if width <= 9 else "fair" if width <= 18 else "thin"


# --- when to look again -----------------------------------------------------------------------------


def _recheck(
    history: History,
    calendar: _Calendar,
    ahead: generation.Forecast,
    now: generation.Present,
    as_of: date,
    looks: Sequence[generation.Look],
    early: bool,
    wet: Mapping[date, tuple[str, date]],
) -> tuple[Recheck | None, Fact | None]:
    roots = calendar.by_end_of(float(ahead.marks.roots_end[generation.HALF]))
    soonest = as_of + timedelta(days=1)
    closed = _open_again(history.entry_closed_until)
    if closed is not None and closed > soonest:
        soonest = closed
    if roots <= as_of:
        return None, Fact("roots_declined", {"likely": roots.isoformat()})
    if soonest > roots:
        values = {"until": soonest.isoformat(), "likely": roots.isoformat()}
        return None, Fact("closed_until_roots_decline", values)
    bounds = _Bounds(soonest, roots, closed if closed == soonest else None, wet)
    latest = history.visits[-1] if history.visits else None
    wish = _wish(latest)
    if wish is not None and wish > as_of and wish <= roots:
        if wish >= soonest:
            return bounds.fit(wish, wish, wish + timedelta(days=3), "asked", Fact("asked", {"date": wish.isoformat()}))
        why = Fact("asked_but_closed", {"date": wish.isoformat(), "until": soonest.isoformat()})
        return bounds.fit(soonest, soonest, soonest + timedelta(days=3), "asked", why)
    chosen, none = _chosen(history, calendar, ahead, now, as_of, looks, early, bounds)
    if wish is not None and chosen is not None and (wish > roots):
        why = Fact("asked_not_possible", {"date": wish.isoformat(), "likely": chosen.likely.isoformat()})
        chosen = replace(chosen, why=why)
    return chosen, none


@dataclass(frozen=True, slots=True)
class _Bounds:
    """Days between which a look can be."""

    soonest: date
    roots: date
    closed: date | None
    wet: Mapping[date, tuple[str, date]]
    """Days on which the soil is too wet: what tells so (``rain``, ``rain_due``, ``noted_wet``), and of which day."""

    def fit(self, earliest: date, likely: date, latest: date, purpose: Purpose, why: Fact) -> tuple[Recheck, None]:
        """Bring a wanted window inside the bounds, keep its order, and prefer a working day."""
        low = min(max(earliest, self.soonest), self.roots)
        high = min(max(latest, low), self.roots)
        middle = min(max(likely, low), high)
        if purpose != "asked":
            days = [low + timedelta(days=i) for i in range((high - low).days + 1)]
            dry = [day for day in days if day not in self.wet]
            usual = _workable(middle, days)
            middle = _workable(middle, dry or days)
            if usual in self.wet and middle != usual:
                kind, told = self.wet[usual]
                why = Fact(why.key, {**why.values, "too_wet": usual.isoformat(), kind: told.isoformat()})
            low = next((day for day in dry if day <= middle), low)
        if self.closed is not None and earliest < self.closed:
            why = Fact(why.key, {**why.values, "closed_until": self.closed.isoformat()})
        return Recheck(low, middle, high, purpose, why), None


SUNDAY_SHIFT = 1
"""Days a look may be moved for a Sunday alone."""


def _workable(best: date, days: Sequence[date]) -> date:
    """Of some days the one nearest to the best, the later of two as near; a working day if one is hardly farther."""

    def away(day: date) -> tuple[int, bool]:
        return abs((day - best).days), day < best

    nearest = min(days, key=away)
    working = [day for day in days if day.weekday() != SUNDAY and away(day)[0] <= away(nearest)[0] + SUNDAY_SHIFT]
    return min(working, key=away) if working else nearest


def _too_wet(history: History, temperatures: Sequence[DayTemperature], as_of: date) -> Mapping[date, tuple[str, date]]:
    """Coming days on which the soil is too wet for a spade, with what tells so."""
    rain = {
        row.date: row.rain_mm for row in temperatures
        if row.rain_mm is not None and (row.forecast or row.date <= as_of)
    }  # fmt: skip
    noted = {visit.on: moisture for visit in history.visits if (moisture := visit.note.soil.moisture) is not None}
    if not rain and "wet" not in noted.values():
        return {}
    last = max([as_of + timedelta(days=soil_water.AS_FAR_BACK), *rain]) + timedelta(days=soil_water.AS_FAR_BACK)
    found = soil_water.wet_days(
        rain, noted, noted_texture(history.visits), as_of, min(last, as_of + timedelta(days=45))
    )

    def kind(cause: date) -> str:
        return "noted_wet" if noted.get(cause) == "wet" else "rain_due" if cause > as_of else "rain"

    return {day: (kind(cause), cause) for day, cause in found.items()}


def _chosen(
    history: History,
    calendar: _Calendar,
    ahead: generation.Forecast,
    now: generation.Present,
    as_of: date,
    looks: Sequence[generation.Look],
    early: bool,
    bounds: _Bounds,
) -> tuple[Recheck | None, Fact | None]:
    """The look that serves best what the field is visited for."""
    today = calendar.index(as_of)
    last_on = looks[-1].day if looks else None
    soon = max(today + 1, (last_on + APART_DAYS) if last_on is not None else 0, calendar.index(bounds.soonest))
    seen = any(look.seen for look in looks)
    purpose: Purpose
    if not seen:
        low, top, high = generation.best_days(ahead, soon, GOOD_SHARE)
        number = min(generation.at_hand(ahead, top), THIRD_OR_LATER)
        likely = calendar.by_end_of(top).isoformat()
        if not any(look.total == 0 for look in looks):
            purpose, why = "first_look", Fact("first_females", {"generation": number, "likely": likely})
            if now.stage == 0:
                low = min(low, float(ahead.marks.first_white[generation.HALF, 0]))
        else:
            purpose = "settle_none"
            why = Fact("none_may_be_early" if early else "none_may_be_missed", {"generation": number, "likely": likely})
        wanted = (low, top, high)
    else:
        resistant = history.resistance == "resistant"
        place = generation.next_peak(ahead, soon)
        current = max(now.reached, 1) - 1
        if place is None or ahead.marks.peak[generation.HALF, place] > ahead.marks.roots_end[generation.HALF]:
            return _last(calendar, ahead, soon, bounds)
        number = min(place + 1, THIRD_OR_LATER)
        days = ahead.marks.peak[:, place]
        ends = (generation.TENTH, generation.HALF, generation.NINE_TENTHS)
        wanted = generation.whole_days(*(float(days[end]) for end in ends))
        likely = calendar.day(wanted[1]).isoformat()
        if resistant:
            purpose, why = "watch_resistance", Fact("resistance_next_peak", {"generation": number, "likely": likely})
        elif place > current:
            whites = ahead.marks.first_white[:, place]
            start, peak = float(whites[generation.HALF]), wanted[1]
            purpose = "next_generation"
            why = Fact("next_whites", {"generation": number, "likely": calendar.by_end_of(start).isoformat()})
            # Once most of the first whites are out, well before the peak: the new generation is seen for itself.
            wanted = (start, max(float(whites[generation.EIGHT_TENTHS]), (2 * start + peak) / 3), peak)
        else:
            purpose, why = "catch_peak", Fact("peak_ahead", {"generation": number, "likely": likely})
    nothing = calendar.known_planting is None and not any(look.colours or look.mostly or look.node for look in looks)
    if nothing or wanted[2] - wanted[0] > VAGUE_DAYS:
        base = max(as_of, bounds.soonest - timedelta(days=USUAL_WAIT[0]))
        days3 = [base + timedelta(days=wait) for wait in USUAL_WAIT]
        why = Fact("one_to_two_weeks", {"earliest": days3[0].isoformat(), "latest": days3[2].isoformat()})
        return bounds.fit(days3[0], days3[1], days3[2], purpose, why)
    first, best, last = (calendar.by_end_of(max(value, soon)) for value in wanted)
    if best >= bounds.roots - timedelta(days=2):
        return _last(calendar, ahead, soon, bounds)
    return bounds.fit(first, best, last, purpose, why)


def _last(
    calendar: _Calendar, ahead: generation.Forecast, soon: int, bounds: _Bounds
) -> tuple[Recheck | None, Fact | None]:
    """One more look before the roots go."""
    early, end = ahead.marks.roots_end[[generation.TENTH, generation.HALF]]
    why = Fact("before_roots_decline", {"likely": calendar.by_end_of(float(end)).isoformat()})
    low = max(float(soon), float(early) - 14)
    first, best, last = (calendar.day(value) for value in (low, max(low, float(early) - 7), float(early)))
    return bounds.fit(first, best, last, "last_look", why)


def _open_again(until: datetime | None) -> date | None:
    """First whole day on which the field may be entered."""
    if until is None:
        return None
    midnight = until.timetz().replace(tzinfo=None) == time.min
    return until.date() if midnight else until.date() + timedelta(days=1)


def _wish(visit: Visit | None) -> date | None:
    if visit is None or visit.note.look_again is None:
        return None
    wish = visit.note.look_again
    if wish.date is not None:
        return wish.date
    return visit.on + timedelta(days=wish.days) if wish.days is not None else None


# --- on what basis ----------------------------------------------------------------------------------


def _basis(
    history: History,
    calendar: _Calendar,
    soil: _SoilRecord,
    ahead: generation.Forecast,
    after: generation.Posterior,
    looks: Sequence[generation.Look],
    visits: Sequence[Visit],
    now: generation.Present,
    today: int,
) -> tuple[Fact, ...]:
    facts: list[Fact] = []
    start = round(calendar.planted)
    span = np.arange(calendar.days) >= start

    def days_of(mask: NDArray[np.bool_]) -> NDArray[np.int_]:
        return np.flatnonzero(mask & span)

    def iso(position: float) -> str:
        return calendar.by_end_of(position).isoformat()

    for key, mask in (
        ("temperatures_soil", soil.measured_soil & ~soil.forecast),
        ("temperatures_air", soil.measured_air & ~soil.measured_soil & ~soil.forecast),
    ):
        if len(found := days_of(mask)):
            facts.append(Fact(key, {"days": len(found), "first": iso(found[0]), "last": iso(found[-1])}))
    if len(found := days_of(soil.forecast)):
        facts.append(Fact("temperatures_forecast", {"days": len(found), "last": iso(found[-1])}))
    if calendar.past:
        years = [year for year, _ in calendar.past]
        facts.append(Fact("temperatures_past_years", {"years": len(years), "first": min(years), "last": max(years)}))
    missing = int((~(soil.measured_soil | soil.measured_air) & span)[: today + 1].sum())
    climate = calendar.climate
    if missing and climate.assumed:
        facts.append(Fact("temperatures_assumed", {"place": climate.name}))
    elif missing:
        km = None if climate.distance_km is None else round(climate.distance_km)
        facts.append(Fact("temperatures_normals", {"days": missing, "place": climate.name, "km": km}))
        if climate.from_memory:
            facts.append(Fact("temperatures_from_memory", {"place": climate.name}))
    if calendar.known_planting is not None:
        facts.append(Fact("planted_known", {"date": calendar.known_planting.isoformat()}))
    else:
        sown = calendar.planted + calendar.planted_sd * ahead.states[:, generation.PLANTING]
        low, middle, high = (calendar.day(float(v)).isoformat() for v in np.quantile(sown, (0.1, 0.5, 0.9)))
        staged = [v for v in visits if growth_stage.vegetative_node(v.note.stage or "") is not None]
        values = {"earliest": low, "likely": middle, "latest": high}
        if staged:
            seen = {"stage": staged[-1].note.stage, "seen": staged[-1].on.isoformat()}
            facts.append(Fact("planted_from_stage", {**seen, **values}))
        else:
            facts.append(Fact("planted_assumed", values))
    if looks:
        coloured = sum(1 for look in looks if look.colours or look.mostly)
        none = sum(1 for look in looks if look.total == 0)
        facts.append(Fact("visits_used", {"count": len(looks), "with_colours": coloured, "none_seen": none}))
    else:
        facts.append(Fact("no_visits"))
    # The visit's own day, not its place in the arrays: a visit long after the roots is held at their last day.
    looked = [visit.on for visit in visits if _looked(visit)]
    for on, doubt in zip(looked, after.doubt, strict=True):
        if doubt > 0.5:
            facts.append(Fact("counts_disagree", {"seen": on.isoformat(), "doubt": round(doubt, 2)}))
    if history.resistance == "resistant":
        facts.append(Fact("resistant_variety"))
    if not (soil.measured_soil & span).any():
        facts.append(Fact("soil_model", {"error_c": CLOCK["soil_bias_air"].spread}))
    facts.append(Fact("colour_steps_judgement"))
    roots = iso(float(ahead.marks.roots_end[generation.HALF]))
    if calendar.roots_from is None:
        facts.append(Fact("roots_end_assumed", {"likely": roots}))
    else:
        stage, seen_on = calendar.roots_from
        facts.append(Fact("roots_end_from_stage", {"stage": stage, "seen": seen_on.isoformat(), "likely": roots}))
    ordered = np.sort(ahead.flushes)
    low_g, mid_g, high_g = (int(ordered[round(part * (len(ordered) - 1))]) for part in (0.1, 0.5, 0.9))
    facts.append(Fact("generations_expected", {"low": low_g, "likely": mid_g, "high": high_g}))
    hot = int(((soil.mean_c > WARM_SOIL_C) & span & (np.arange(calendar.days) <= calendar.roots.middle)).sum())
    if hot >= 7:
        facts.append(Fact("very_warm_soil", {"days": hot}))
    if now.reached >= THIRD_OR_LATER:
        facts.append(Fact("third_or_later"))
    return tuple(facts)


# --- the picture's numbers --------------------------------------------------------------------------


def _mix(calendar: _Calendar, ahead: generation.Forecast) -> tuple[MixDay, ...]:
    start, end = round(calendar.planted), min(calendar.days - 1, round(calendar.roots.middle + calendar.roots.sd))
    days = np.arange(start, end + 1)
    shares = generation.mix(ahead, days)
    return tuple(
        MixDay(calendar.day(float(day)), *(round(float(value), 4) for value in row))
        for day, row in zip(days, shares, strict=True)
    )
