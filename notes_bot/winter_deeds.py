"""Commands of the winter half: what is asked and told of samples, laboratories, tests and plans.

One deed, one function, as in deeds.py; each gathers what is kept, asks winter.py for a sheet, and has it worded.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from notes_bot.deeds import Deed, Work, field_for, outlook_of, season_start
from notes_bot.model import Command, EggCount, Fact, Field, Language, NewEvent, Person, Picture, Reply, Sheet, Visit
from notes_bot.reply import compose_report, compose_sheet, season_figure
from notes_bot.season_report import SourceIndex, field_report, strip_looks, watch_sheet
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
    year, brief = work.today.year, work.brief
    work.letters.append(compose_sheet(sheet, work.writer, language=work.language, year=year, brief=brief))


def _lab(work: Work, command: Command) -> None:
    """Keep a count and read it; without a count, read the newest that is kept."""
    known = field_for(work, command)
    if known is None:
        if command.args.get("value") is not None:  # not kept: the answer holds the line that would keep it
            asked = work.answers.pop().values
            work.answers.append(
                Fact("lab_which_field", {**asked, "first": (asked["nearest"] or ["?"])[0], **_as_told(command)})
            )
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


def _as_told(command: Command) -> dict[str, Any]:
    value, unit, on = (command.args.get(name) for name in ("value", "unit", "date"))
    return {"value": value, "unit": unit, "date": on.isoformat() if isinstance(on, date) else None}


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


# --- the season report ------------------------------------------------------------------------------------


def season_report(
    store: Store, fields: Sequence[Field], person: Person, *, today: date, language: Language | None = None
) -> Reply:
    """The season of one field or several, as a mail with pictures and pages to print, for a grower.

    Uses what the store holds and nothing else, so that the turn of the clock can call it when a season is over.
    """
    sheets, year = [], today.year
    pictures: list[tuple[Picture, ...]] = []
    for known in fields[:MOST_IN_REPORT]:
        start = season_start(today, known.latitude)
        season = store.visits(known.id, start, today)
        if not season:
            start = start.replace(year=start.year - 1)
            season = store.visits(known.id, start, start.replace(year=start.year + 1))
        outlook = outlook_of(store, known, season[-1].on, with_mix=True) if season else None
        year = season[-1].on.year if season else today.year
        place = place_of(None, known, store.fields(known.crew), kept_counts(told_of(store, known, "lab"), known.place))
        counts = kept_counts(told_of(store, known, "lab"), place.name)
        tests, plans = told_of(store, known, "hg"), told_of(store, known, "rotation")
        indices = known_indices(tests[-1][1] if tests else None)
        sheets.append(
            field_report(
                known,
                season,
                outlook,
                lab_sheet(known, counts, place) if counts else None,
                hg_sheet(known, tests[-1][1], place) if tests else None,
                rotation_sheet(known, plans[-1][1]["plans"], counts, place, today=today, indices=indices)
                if plans
                else None,
                year=year,
            )
        )
        if outlook is None or not outlook.mix:
            pictures.append(())
            continue
        last = outlook.mix[-1].date
        spoken = language or person.language
        figure = season_figure(known, outlook, season, min(today, last), spoken, over=today > last)
        pictures.append((figure,))
    return compose_report(sheets, pictures, person, year=year, left_out=len(fields) - len(sheets), language=language)


MOST_IN_REPORT = 12
"""Fields in one report: a mail with more pictures is too heavy for a phone."""


def _report(work: Work, command: Command) -> None:
    """For supervisors: one field, several, or all."""
    if work.writer.role != "supervisor":
        work.answers.append(Fact("only_supervisor", {}))
        return
    if command.args.get("all"):
        fields = sorted(work.fields, key=lambda known: known.name)
    elif command.args.get("fields"):
        named = [field_for(work, Command("report", {"field": name})) for name in command.args["fields"]]
        fields = [known for known in named if known is not None]
    else:
        known = field_for(work, command)
        fields = [known] if known is not None else []
    if fields:
        work.letters.append(season_report(work.store, fields, work.writer, today=work.today, language=work.language))


# --- the watch over varieties -----------------------------------------------------------------------------


def _watch(work: Work, command: Command) -> None:
    """For supervisors: which source slips where, over all fields and years kept."""
    if work.writer.role != "supervisor":
        work.answers.append(Fact("only_supervisor", {}))
        return
    wanted = command.args.get("source")
    looks, indices = [], []
    for known in work.fields:
        visits = work.store.visits(known.id, date.min, work.today)
        looks += [look for look in strip_looks(known, visits) if wanted in (None, look.source)]
        tests = told_of(work.store, known, "hg", work.events)
        if tests:
            found = known_indices(tests[-1][1])
            indices += [SourceIndex(known.name, source, fi) for source, fi in found.items() if wanted in (None, source)]
    _answer(work, watch_sheet(looks, indices, year=work.today.year))


WINTER: Mapping[str, Deed] = {
    "lab": _lab,
    "hg": _hg,
    "sample": _sample,
    "rotation": _rotation,
    "report": _report,
    "watch": _watch,
}
"""The winter half's commands and their deeds."""

__all__ = ["WINTER", "counts_of", "place_for", "sample_plan", "season_report", "told_of"]
