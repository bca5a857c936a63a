"""Records and temperatures in, an :class:`~notes_bot.model.Outlook` out. Pure: asks neither clock nor chance.

Every :class:`~notes_bot.model.Fact` that leaves this module has a key from one of the closed tables below; each
table maps a key to example values, so that whoever words the facts can be tested against all of them. Values are
plain: numbers, ISO days, short strings. The words for each key live in the reply room.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any, get_args

from notes_bot.model import Climate, DayTemperature, History, Outlook, Purpose

BASIS_KEYS: Mapping[str, Mapping[str, Any]] = {
    # Which temperatures the heat was summed from, best first. Any of these may appear together.
    "temperatures_soil": {"days": 41, "first": "2024-05-06", "last": "2024-06-15"},
    "temperatures_air": {"days": 41, "first": "2024-05-06", "last": "2024-06-15"},
    "temperatures_forecast": {"days": 7, "last": "2024-06-22"},
    # Days between planting and the question filled from monthly normals; km is None when unknown.
    "temperatures_normals": {"days": 12, "place": "Ames 8 WSW IA", "km": 38},
    # No coordinates: a place in the middle of the belt was taken.
    "temperatures_assumed": {"place": "Champaign 3S (Urbana) IL"},
    # Monthly normals that were written down from memory, not from a station table.
    "temperatures_from_memory": {"place": "Ridgetown ON"},
    "planted_known": {"date": "2024-05-06"},
    "planted_from_stage": {"stage": "V4", "seen": "2024-06-11", "earliest": "2024-05-01", "likely": "2024-05-07",
                           "latest": "2024-05-13"},
    "planted_assumed": {"earliest": "2024-04-24", "likely": "2024-05-08", "latest": "2024-05-22"},
    # Visits that moved the clock: all that looked; how many with colours, how many saw none.
    "visits_used": {"count": 3, "with_colours": 2, "none_seen": 1},
    "no_visits": {},
    # The counts fit badly to heat and planting date (surprise: chance of a worse fit, 0-1).
    "counts_disagree": {"seen": "2024-06-25", "surprise": 0.01},
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
"""``Recheck.why`` keys with example values; any may also carry ``closed_until`` when an entry interval moved it."""

NO_RECHECK_KEYS: Mapping[str, Mapping[str, Any]] = {
    "roots_declined": {"likely": "2024-09-01"},
    "closed_until_roots_decline": {"until": "2024-09-02", "likely": "2024-09-01"},
}
"""``Outlook.no_recheck`` keys with example values."""

PURPOSES: tuple[Purpose, ...] = get_args(Purpose)
"""What a look-again may be for."""


def foresee(
    history: History,
    temperatures: Sequence[DayTemperature],
    climate: Climate,
    as_of: date,
    *,
    with_mix: bool = False,
) -> Outlook:
    """Where the population of one field is in its generation on ``as_of``, and what comes next."""
    raise NotImplementedError
