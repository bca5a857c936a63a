"""Commands of the winter half: what is asked and told of samples, laboratories, tests and plans.

One deed, one function, as in deeds.py; each gathers what is kept, asks winter.py for a sheet, and has it worded.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from notes_bot.deeds import Deed, Work, field_for, season_start
from notes_bot.model import Command, EggCount, Fact, Field, NewEvent, Sheet, Visit
from notes_bot.reply import compose_sheet
from notes_bot.store import Store
from notes_bot.winter import (
    Place,
    day_of,
    egg_count,
    hg_sheet,
    kept_counts,
    known_indices,
    lab_sheet,
    place_of,
    rotation_sheet,
    sample_sheet,
)

Told = Sequence[tuple[date, Mapping[str, Any]]]


def told_of(
    store: Store, known: Field, kind: str, new: Sequence[NewEvent] = ()
) -> list[tuple[date, Mapping[str, Any]]]:
    """What was told of this kind about a field, with the day it was told, oldest first; ``new``: not yet written."""
    kept = [(at.date(), args) for at, args in store.events(known.id, kind)]
    today = [
        (day_of(date.min, event.args), event.args) for event in new if event.kind == kind and event.field_id == known.id
    ]
    return [*kept, *today]


def counts_of(work: Work, known: Field, place: str | None) -> tuple[EggCount, ...]:
    return kept_counts(told_of(work.store, known, "lab", work.events), place)


def place_for(work: Work, known: Field, said: object = None) -> Place:
    """The state or province whose limits apply, and how we know."""
    counts = counts_of(work, known, known.place)
    return place_of(str(said) if said else None, known, work.fields, counts)


def _answer(work: Work, sheet: Sheet) -> None:
    work.letters.append(compose_sheet(sheet, work.writer, language=work.language, year=work.today.year))


def _lab(work: Work, command: Command) -> None:
    """Keep a count and read it; without a count, read the newest that is kept."""
    known = field_for(work, command)
    if known is None:
        return
    args = dict(command.args)
    place = place_for(work, known, args.get("place"))
    before = counts_of(work, known, place.name)
    if args.get("value") is None:
        if before:
            _answer(work, lab_sheet(known, before, place))
        else:
            work.answers.append(Fact("lab_none", {"field": known.name}))
        return
    args.setdefault("date", None)
    count = egg_count(args, work.day, place.name)
    args["date"] = count.on
    args |= {
        "eggs_per_100cc": round(count.eggs.likely, 1),
        "basis": count.basis,
        "low": round(count.eggs.low, 1),
        "high": round(count.eggs.high, 1),
    }
    args.pop("field", None)
    work.events.append(NewEvent("lab", args, known.id, work.writer.id))
    replaced = next((old for old in before if old.on == count.on), None)
    standing = tuple(old for old in before if old.on != count.on)
    every = tuple(sorted((*standing, count), key=lambda each: each.on))
    upto = every[: every.index(count) + 1]
    _answer(
        work, lab_sheet(known, upto, place, replaced=replaced if replaced and replaced.value != count.value else None)
    )


def _hg(work: Work, command: Command) -> None:
    """Keep a test and read it; without numbers, read the newest that is kept."""
    known = field_for(work, command)
    if known is None:
        return
    args = {name: value for name, value in command.args.items() if name != "field"}
    place = place_for(work, known, args.get("place"))
    if not args.keys() & {"check", "indices", "type"}:
        kept = told_of(work.store, known, "hg", work.events)
        if kept:
            _answer(work, hg_sheet(known, kept[-1][1], place))
        else:
            work.answers.append(Fact("hg_none", {"field": known.name}))
        return
    args["date"] = args.get("date") or work.day
    work.events.append(NewEvent("hg", args, known.id, work.writer.id))
    _answer(work, hg_sheet(known, args, place))


def _sample(work: Work, command: Command) -> None:
    known = field_for(work, command)
    if known is None:
        return
    place = place_for(work, known, command.args.get("place"))
    _answer(work, sample_plan(work, known, place))


def sample_plan(work: Work, known: Field, place: Place) -> Sheet:
    season = last_season(work, known)
    watch = any(_slips(work, known, season))
    return sample_sheet(known, season, counts_of(work, known, place.name), place, watch=watch)


def last_season(work: Work, known: Field) -> list[Visit]:
    """This season's visits; in winter, before anything is noted, those of the season before."""
    season = work.season(known, work.today)
    if season:
        return season
    start = season_start(work.today, known.latitude)
    return list(work.store.visits(known.id, start.replace(year=start.year - 1), start))


def _slips(work: Work, known: Field, season: Sequence[Visit]) -> list[bool]:
    """Did the resistance not clearly hold at the season's last look?"""
    if not season:
        return []
    found = work.outlook(known, season[-1].on).finding
    return [found is not None and found.resistance is not None and found.resistance.verdict != "holding"]


def _rotation(work: Work, command: Command) -> None:
    known = field_for(work, command)
    if known is None:
        return
    args = command.args
    place = place_for(work, known, args.get("place"))
    tests = told_of(work.store, known, "hg", work.events)
    sheet = rotation_sheet(
        known,
        args.get("plans") or (),
        counts_of(work, known, place.name),
        place,
        today=work.today,
        eggs=args.get("eggs"),
        weeds=bool(args.get("weeds")),
        indices=known_indices(tests[-1][1] if tests else None),
    )
    if args.get("plans") and sheet.plans:
        work.events.append(NewEvent("rotation", {"plans": args["plans"]}, known.id, work.writer.id))
    _answer(work, sheet)


WINTER: Mapping[str, Deed] = {
    "lab": _lab,
    "hg": _hg,
    "sample": _sample,
    "rotation": _rotation,
}
"""The winter half's commands and their deeds."""

__all__ = ["WINTER", "counts_of", "place_for", "sample_plan", "told_of"]
