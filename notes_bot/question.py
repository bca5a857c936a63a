"""One line of ``notes-bot foresee --lines``: JSON in, a checked question out, or a sentence that says what to write.

The keys are those of docs/outlook.md. Every value is checked where it stands; nothing of a wrong kind is bent into
shape, and keys nobody knows are named in the answer instead of being passed over in silence.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import Any, get_args

from notes_bot.asdata import BadInput
from notes_bot.model import (
    COLOURS,
    Colour,
    DayTemperature,
    Females,
    History,
    LookAgain,
    Method,
    Moisture,
    Note,
    Outcome,
    PastYear,
    Resistance,
    Soil,
    Spot,
    Visit,
)

FIRST_YEAR, LAST_YEAR = 1850, 2200
"""Years a day can lie in; anything else is a slip of the thumb."""
MOST_PLANTS, MOST_FEMALES = 100_000, 10_000_000
EARLIER_SEASON_DAYS = 200
"""Temperatures that much older than the question are of an earlier season."""

_TOP = {"id", "as_of", "planted", "latitude", "longitude", "temperatures", "resistance", "visits", "entry_closed_until",
        "found_before"}  # fmt: skip
_TEMPERATURE = {"date", "tmin_c", "tmax_c", "soil_mean_c", "forecast", "rain_mm"}
_FEMALES = {*COLOURS, "total"}
_SPOT = {"name", "plants", "females", "per_plant", "check", "mostly"}
_VISIT = {"date", "plants", "method", "soaked", "moisture", "texture", "females", "mostly", "per_plant", "spots",
          "outcome", "stage", "look_again", "too_many", "planted", "soil"}  # fmt: skip
# A visit may be a whole note as ``notes-bot read --json`` gives it: these keys of one say nothing to the clock.
_OF_A_NOTE = {"field", "roots", "tops", "variety", "spray", "text"}


@dataclass(frozen=True, slots=True)
class Question:
    """One line of input."""

    id: Any
    as_of: date
    history: History
    temperatures: tuple[DayTemperature, ...]
    past_years: tuple[PastYear, ...] = ()
    """Earlier years among the temperatures."""
    ignored: tuple[str, ...] = ()
    """Keys that mean nothing here."""


def question_from_data(data: Any) -> Question:
    """One question from JSON.

    :raises BadInput: for a missing ``as_of`` or a value of the wrong kind, with the place and what to write there.
    """
    if not isinstance(data, Mapping):
        raise BadInput('each line must be a JSON object, such as {"as_of": "2026-07-01", "visits": []}')
    ignored = [str(key) for key in data if key not in _TOP]
    as_of = _day(data.get("as_of"), "as_of")
    if as_of is None:
        raise BadInput('as_of is missing: give the day of the question, such as "as_of": "2026-07-01"')
    visits: list[Visit] = []
    for number, row in enumerate(_rows(data.get("visits"), "visits"), start=1):
        ignored += _unknown(row, _VISIT | _OF_A_NOTE, "visit")
        on = _day(row.get("date"), f"date of visit {number}")
        if on is None:
            raise BadInput(f'visit {number} has no date: give "date": "2026-07-01"')
        note = _visit(row, on, f"visit {number}", ignored)
        if on <= as_of:  # nothing later than the question is used
            visits.append(Visit(number, 0, on, note, person_id=0))
    visits.sort(key=lambda visit: visit.on)
    temperatures = _temperatures(data.get("temperatures"), as_of, ignored)
    return Question(
        id=data.get("id"),
        as_of=as_of,
        history=History(
            latitude=_number(data.get("latitude"), "latitude", -90, 90),
            longitude=_number(data.get("longitude"), "longitude", -180, 180),
            planted=_day(data.get("planted"), "planted"),
            resistance=_word(data.get("resistance"), "resistance", Resistance),
            visits=tuple(visits),
            entry_closed_until=_instant(data.get("entry_closed_until")),
            found_before=_truth(data.get("found_before"), "found_before"),
        ),
        temperatures=tuple(day for day in temperatures if (as_of - day.date).days < EARLIER_SEASON_DAYS),
        past_years=_past_years(temperatures, as_of),
        ignored=tuple(dict.fromkeys(ignored)),
    )


# --- visits -----------------------------------------------------------------------------------------


def _visit(row: Mapping[str, Any], on: date, where: str, ignored: list[str]) -> Note:
    females = _females(row.get("females"), f"{where}: females", ignored)
    spots = []
    for number, spot in enumerate(_rows(row.get("spots"), f"{where}: spots"), start=1):
        place = f"{where}: spot {number}"
        ignored += _unknown(spot, _SPOT, "spot")
        spots.append(
            Spot(
                name=_text(spot.get("name"), f"{place}: name") or "",
                plants=_count(spot.get("plants"), f"{place}: plants", 1, MOST_PLANTS),
                females=_females(spot.get("females"), f"{place}: females", ignored),
                per_plant=_counts(spot.get("per_plant"), f"{place}: per_plant"),
                check=bool(_truth(spot.get("check"), f"{place}: check")),
                mostly=_colours(spot.get("mostly"), f"{place}: mostly"),
            )
        )
    per_plant = _counts(row.get("per_plant"), f"{where}: per_plant")
    if females.total is None and per_plant:
        females = Females(females.white, females.yellow, females.tan, females.brown, sum(per_plant))
    outcome = _word(row.get("outcome"), f"{where}: outcome", Outcome)
    soil = row.get("soil")
    if soil is not None and not isinstance(soil, Mapping):
        raise BadInput(f'{where}: soil is {_short(soil)}: write {{"moisture": "moist", "texture": null}} or null')
    soil = {**(soil or {}), **{key: row[key] for key in ("moisture", "texture") if row.get(key) is not None}}
    mostly = _colours(row.get("mostly"), f"{where}: mostly")
    too_many = bool(_truth(row.get("too_many"), f"{where}: too_many"))
    told = _whole(females, spots)
    if outcome is None and (told or mostly or too_many):
        outcome = "seen"
    if outcome is None and told == 0:
        outcome = "none_seen"
    if outcome == "none_seen" and told:
        raise BadInput(f"{where}: outcome is none_seen, but {told} females are counted: write one or the other")
    return Note(
        date=on,
        plants=_count(row.get("plants"), f"{where}: plants", 1, MOST_PLANTS),
        method=_word(row.get("method"), f"{where}: method", Method),
        soaked=_truth(row.get("soaked"), f"{where}: soaked"),
        females=females,
        mostly=mostly,
        per_plant=per_plant,
        spots=tuple(spots),
        outcome=outcome,
        soil=Soil(
            _word(soil.get("moisture"), f"{where}: moisture", Moisture), _text(soil.get("texture"), f"{where}: texture")
        ),
        stage=_text(row.get("stage"), f"{where}: stage"),
        look_again=_look_again(row.get("look_again"), f"{where}: look_again"),
        too_many=too_many,
        planted=_day(row.get("planted"), f"{where}: planted"),
    )


def _whole(females: Females, spots: Sequence[Spot]) -> int | None:
    """Females counted in all, or ``None`` when nobody counted."""
    counted = [spot.females.total for spot in spots if not spot.check and spot.females.total is not None]
    return females.total if females.total is not None else sum(counted) if counted else None


def _females(value: Any, where: str, ignored: list[str]) -> Females:
    if value is None:
        return Females()
    if not isinstance(value, Mapping):
        raise BadInput(f'{where} is {_short(value)}: write {{"white": 3, "yellow": 0, "tan": 0, "brown": 0}} or null')
    ignored += _unknown(value, _FEMALES, "females")
    counts = {name: _count(value.get(name), f"{where} {name}", 0, MOST_FEMALES) for name in (*COLOURS, "total")}
    total = counts.pop("total")
    if all(count is None for count in counts.values()):
        return Females(total=total)
    # A colour not mentioned while others are counted is none of that colour.
    white, yellow, tan, brown = (counts[name] or 0 for name in COLOURS)
    found = white + yellow + tan + brown
    if total is not None and total < found:
        raise BadInput(f"{where}: total is {total}, less than the {found} of its colours: correct one of them")
    return Females(white, yellow, tan, brown, found if total is None else total)


def _colours(value: Any, where: str) -> tuple[Colour, ...]:
    named = () if value is None else value
    if isinstance(named, str) or not isinstance(named, Sequence):
        raise BadInput(f'{where} is {_short(value)}: write a list of colours, such as ["yellow"], or null')
    found = [_word(colour, where, Colour) for colour in named]
    return tuple(colour for colour in found if colour is not None)


def _counts(value: Any, where: str) -> tuple[int, ...] | None:
    if value is None:
        return None
    if isinstance(value, str) or not isinstance(value, Sequence):
        raise BadInput(f"{where} is {_short(value)}: write a list of counts, one a plant, such as [3, 0, 12], or null")
    found = [_count(each, where, 0, MOST_FEMALES) for each in value]
    return tuple(0 if each is None else each for each in found)


def _look_again(value: Any, where: str) -> LookAgain | None:
    if value is None:
        return None
    if not isinstance(value, Mapping):
        raise BadInput(f'{where} is {_short(value)}: write {{"days": 10}} or {{"date": "2026-07-01"}}, or null')
    return LookAgain(_count(value.get("days"), f"{where} days", 0, 400), _day(value.get("date"), f"{where} date"))


# --- temperatures -----------------------------------------------------------------------------------


def _temperatures(value: Any, as_of: date, ignored: list[str]) -> list[DayTemperature]:
    days: list[DayTemperature] = []
    for number, row in enumerate(_rows(value, "temperatures"), start=1):
        where = f"temperature {number}"
        ignored += _unknown(row, _TEMPERATURE, "temperature")
        on = _day(row.get("date"), f"date of {where}")
        if on is None:
            raise BadInput(f'{where} has no date: give {{"date": "2026-06-01", "tmin_c": 14, "tmax_c": 27}}')
        low = _number(row.get("tmin_c"), f"{where}: tmin_c", -60, 57)
        high = _number(row.get("tmax_c"), f"{where}: tmax_c", -60, 57)
        if low is not None and high is not None and low > high:
            raise BadInput(f"{where}: tmin_c {low:g} lies above tmax_c {high:g}: are they the wrong way round?")
        soil = _number(row.get("soil_mean_c"), f"{where}: soil_mean_c", -40, 60)
        forecast = bool(_truth(row.get("forecast"), f"{where}: forecast"))
        rain = _number(row.get("rain_mm"), f"{where}: rain_mm", 0, 600)
        if on > as_of and not forecast:  # a measurement from after the question cannot have been known
            continue
        days.append(DayTemperature(on, low, high, soil, forecast, rain))
    return days


def _past_years(days: Sequence[DayTemperature], as_of: date) -> tuple[PastYear, ...]:
    """Measured air of whole earlier years, as far as there is any."""
    years: dict[int, list[float | None]] = {}
    for day in days:
        if day.tmin_c is not None and day.tmax_c is not None and not day.forecast and day.date.year < as_of.year:
            air = years.setdefault(day.date.year, [None] * 366)
            air[day.date.timetuple().tm_yday - 1] = (day.tmin_c + day.tmax_c) / 2
    return tuple(PastYear(year, tuple(air)) for year, air in sorted(years.items()))


# --- single values ----------------------------------------------------------------------------------


def _rows(value: Any, name: str) -> Sequence[Mapping[str, Any]]:
    if value is None:
        return ()
    if isinstance(value, str | Mapping) or not isinstance(value, Sequence):
        raise BadInput(f"{name} is {_short(value)}: write a list of objects in [ ], or leave it out")
    for number, row in enumerate(value, start=1):
        if not isinstance(row, Mapping):
            raise BadInput(
                f'{name}: number {number} is {_short(row)}: write an object, such as {{"date": "2026-06-01"}}'
            )
    return value


def _unknown(row: Mapping[str, Any], known: set[str], what: str) -> list[str]:
    return [f"{what}.{key}" for key in row if key not in known]


def _day(value: Any, name: str) -> date | None:
    if value is None:
        return None
    try:
        if not isinstance(value, str):
            raise ValueError
        day = date.fromisoformat(value) if len(value) <= 10 else datetime.fromisoformat(value).date()
    except ValueError:
        raise BadInput(f"{name} is {_short(value)}: write a day as 2026-07-01, or null") from None
    if not FIRST_YEAR <= day.year <= LAST_YEAR:
        raise BadInput(f"{name} is {_short(value)}: write a day from {FIRST_YEAR} to {LAST_YEAR}")
    return day


def _instant(value: Any) -> datetime | None:
    """A date-time; without a zone it is taken as UTC, a day alone as its beginning."""
    if value is None:
        return None
    try:
        if not isinstance(value, str):
            raise ValueError
        instant = datetime.fromisoformat(value)
        if not FIRST_YEAR <= instant.year <= LAST_YEAR:
            raise ValueError
    except ValueError:
        raise BadInput(f"entry_closed_until is {_short(value)}: write 2026-07-01T18:00:00+00:00, or null") from None
    return instant if instant.tzinfo else instant.replace(tzinfo=UTC)


def _number(value: Any, name: str, low: float, high: float) -> float | None:
    if value is None:
        return None
    # A NaN is within no limits, so it is refused here as well.
    if isinstance(value, bool) or not isinstance(value, int | float) or not low <= value <= high:
        raise BadInput(f"{name} is {_short(value)}: write a number from {low:g} to {high:g}, or null")
    return float(value)


def _count(value: Any, name: str, low: int, high: int) -> int | None:
    if value is None:
        return None
    number = isinstance(value, int | float) and not isinstance(value, bool)
    if not number or not low <= value <= high or value != int(value):
        least = f"a count of {low} or more" if low in (0, 1) else f"a whole number from {low}"
        raise BadInput(f"{name} is {_short(value)}: write {least} (at most {high}), or null")
    return int(value)


def _truth(value: Any, name: str) -> bool | None:
    if value is None or isinstance(value, bool):
        return value
    raise BadInput(f"{name} is {_short(value)}: write true, false or null")


def _text(value: Any, name: str) -> str | None:
    if value is None or isinstance(value, str):
        return value
    raise BadInput(f"{name} is {_short(value)}: write text in quotes, or null")


def _word(value: Any, name: str, words: Any) -> Any:
    """One word of a closed list (a ``Literal``), or ``None``."""
    known = get_args(words)
    if value is None or (isinstance(value, str) and value in known):
        return value
    raise BadInput(f"{name} is {_short(value)}: write one of {', '.join(known)}, or null")


def _short(value: Any) -> str:
    """A value as it may stand in a sentence."""
    text = repr(value)
    return text if len(text) <= 40 else f"{text[:37]}..."
