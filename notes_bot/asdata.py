"""The two data contracts: a reading and an outlook as plain JSON values, and their inputs from JSON.

What the keys mean stands in docs/language.md (a reading) and docs/outlook.md (an outlook). Keys may be
added, never renamed: others script with them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import Any

from notes_bot.model import (
    COLOURS,
    THIRD_OR_LATER,
    Command,
    Fact,
    Females,
    LookAgain,
    Note,
    Outlook,
    Problem,
    Reading,
    Soil,
    Spot,
    Spray,
    Variety,
)


class BadInput(ValueError):
    """A line of JSON that cannot be used; the message says which key and what to write instead."""


# --- a reading --------------------------------------------------------------------------------------


def reading_as_data(reading: Reading) -> dict[str, Any]:
    """A reading as the note contract has it: plain dicts, lists, numbers, text and None."""
    return {
        "language": reading.language,
        "notes": [note_as_data(note) for note in reading.notes],
        "commands": [_command(command) for command in reading.commands],
        "problems": [_problem(problem) for problem in reading.problems],
        "remarks": [_problem(remark) for remark in reading.remarks],
    }


def note_as_data(note: Note) -> dict[str, Any]:
    """One note of a reading; ``note_from_data`` takes it back."""
    return {
        "field": note.field,
        "date": _day(note.date),
        "plants": note.plants,
        "method": note.method,
        "soaked": note.soaked,
        "females": _females(note.females),
        "mostly": list(note.mostly),
        "per_plant": _list(note.per_plant),
        "spots": [
            {
                "name": spot.name,
                "plants": spot.plants,
                "females": _females(spot.females),
                "per_plant": _list(spot.per_plant),
                "check": spot.check,
                "mostly": list(spot.mostly),
            }
            for spot in note.spots
        ],
        "outcome": note.outcome,
        "soil": {
            "moisture": note.soil.moisture,
            "texture": note.soil.texture,
            "ph": note.soil.ph,
            "k_ppm": note.soil.k_ppm,
        },
        "stage": note.stage,
        "roots": list(note.roots),
        "tops": list(note.tops),
        "variety": None
        if note.variety is None
        else {"name": note.variety.name, "resistance": note.variety.resistance, "source": note.variety.source},
        "spray": None
        if note.spray is None
        else {
            "what": note.spray.what,
            "date": _day(note.spray.date),
            "days_ago": note.spray.days_ago,
            "entry_hours": note.spray.entry_hours,
        },
        "look_again": _look_again(note.look_again),
        "text": note.text,
        "planted": _day(note.planted),
        "too_many": note.too_many,
    }


def note_from_data(data: Mapping[str, Any]) -> Note:
    """The note that ``note_as_data`` wrote (the store keeps notes in this form); missing keys are unknown."""
    variety = data.get("variety")
    spray = data.get("spray")
    soil = data.get("soil") or {}
    again = data.get("look_again")
    return Note(
        field=data.get("field"),
        date=_as_day(data.get("date"), "date"),
        plants=data.get("plants"),
        method=data.get("method"),
        soaked=data.get("soaked"),
        females=_as_females(data.get("females")),
        mostly=tuple(data.get("mostly") or ()),
        per_plant=_as_counts(data.get("per_plant")),
        spots=tuple(
            Spot(
                name=spot.get("name") or "",
                plants=spot.get("plants"),
                females=_as_females(spot.get("females")),
                per_plant=_as_counts(spot.get("per_plant")),
                check=bool(spot.get("check")),
                mostly=tuple(spot.get("mostly") or ()),
            )
            for spot in data.get("spots") or ()
        ),
        outcome=data.get("outcome"),
        soil=Soil(soil.get("moisture"), soil.get("texture"), soil.get("ph"), soil.get("k_ppm")),
        stage=data.get("stage"),
        roots=tuple(data.get("roots") or ()),
        tops=tuple(data.get("tops") or ()),
        variety=None
        if variety is None
        else Variety(variety.get("name"), variety.get("resistance"), variety.get("source")),
        spray=None
        if spray is None
        else Spray(
            spray.get("what"), _as_day(spray.get("date"), "date"), spray.get("days_ago"), spray.get("entry_hours")
        ),
        look_again=None if again is None else LookAgain(again.get("days"), _as_day(again.get("date"), "date")),
        text=data.get("text") or "",
        planted=_as_day(data.get("planted"), "planted"),
        too_many=bool(data.get("too_many")),
    )


def _females(females: Females) -> dict[str, int | None]:
    return {
        "white": females.white,
        "yellow": females.yellow,
        "tan": females.tan,
        "brown": females.brown,
        "total": females.total,
    }


def _look_again(again: LookAgain | None) -> dict[str, Any] | None:
    if again is None:
        return None
    return {"date": _day(again.date)} if again.date is not None else {"days": again.days}


def _command(command: Command) -> dict[str, Any]:
    plain = {key: _day(value) if isinstance(value, date) else value for key, value in command.args.items()}
    return {"kind": command.kind, **plain}


def _problem(problem: Problem) -> dict[str, Any]:
    return {
        "line": problem.where.line,
        "column": problem.where.column,
        "text": problem.where.text,
        "wrong": problem.wrong,
        "instead": problem.instead,
        "kind": problem.kind,
    }


def _list(values: Sequence[int] | None) -> list[int] | None:
    return None if values is None else list(values)


def _day(day: date | None) -> str | None:
    return None if day is None else day.isoformat()


# --- an outlook -------------------------------------------------------------------------------------


def outlook_as_data(outlook: Outlook, id: str | None, say: Callable[[Fact], str]) -> dict[str, Any]:  # noqa: A002 - the contract's own name
    """An outlook as the outlook contract has it. ``say`` words a fact in English."""
    recheck = outlook.recheck
    data: dict[str, Any] = {
        "id": id,
        "as_of": outlook.as_of.isoformat(),
        "stage": outlook.stage,
        "generation": _generation(outlook.generation),
        "generation_probability": outlook.generation_probability,
        "windows": [
            {
                "event": window.event,
                "generation": _generation(window.generation),
                "earliest": window.earliest.isoformat(),
                "likely": window.likely.isoformat(),
                "latest": window.latest.isoformat(),
            }
            for window in outlook.windows
        ],
        "infested_probability": round(outlook.infested_probability, 4),
        "look_again": None
        if recheck is None
        else {
            "earliest": recheck.earliest.isoformat(),
            "likely": recheck.likely.isoformat(),
            "latest": recheck.latest.isoformat(),
            "purpose": recheck.purpose,
            "why": say(recheck.why),
        },
        "sure": outlook.sure,
        "basis": [say(fact) for fact in outlook.basis],
    }
    if recheck is None:
        data["why"] = "" if outlook.no_recheck is None else say(outlook.no_recheck)
    return data


def _generation(number: int | None) -> int | str | None:
    return "3+" if number is not None and number >= THIRD_OR_LATER else number


# --- small readers ----------------------------------------------------------------------------------


def _as_day(value: Any, name: str) -> date | None:
    if value is None:
        return None
    try:
        return date.fromisoformat(str(value)[:10])
    except ValueError:
        raise BadInput(f"{name} is {value!r}: write a day as 2026-07-01, or null") from None


def _as_counts(values: Any) -> tuple[int, ...] | None:
    return None if values is None else tuple(int(value) for value in values)


def _as_females(data: Mapping[str, Any] | None) -> Females:
    if not data:
        return Females()
    for name in (*COLOURS, "total"):
        count = data.get(name)
        if count is not None and (isinstance(count, bool) or not isinstance(count, int | float) or count < 0):
            raise BadInput(f"females {name} is {count!r}: write a count of 0 or more, or null")
    counts = {name: None if data.get(name) is None else round(data[name]) for name in (*COLOURS, "total")}
    return Females(**counts)
