"""A crew's own digging trial: what was sent of it, kept as events, read into the crew's own chances.

Pure. A sheet is one line or many, sent any day by any of the crew; the last one sent can be taken back. All of the
crew's sheets count together, whoever dug and wherever.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any

from notes_bot.model import Fact
from notes_bot.science import detection, digging_trial
from notes_bot.science.detection import RECOVERIES, Recovery
from notes_bot.science.digging_trial import Plant

TRIAL_KEYS: Mapping[str, Mapping[str, Any]] = {
    "trial_how": {},  # counts came without saying how the plants came up
    "trial_empty": {"plants": 4},  # no females on any plant: nothing to measure
    "trial_kept": {"plants": 10, "method": "pulled", "condition": "dry", "found": 6, "there": 40},
    # percent of the females on a root brought up and seen: the table's, then the crew's own, and the plants behind it
    "trial_moved": {"before": 2, "percent": 11, "all": 22},
    "trial_dropped": {"plants": 10, "method": "pulled", "condition": "dry"},
    "nothing_to_drop": {},
    # what a look or a plan rests on: Finding.own, LookAdvice.own, LookTold.own
    "own_trial": {"plants": 12, "method": "shovel_soaked", "condition": "loam", "percent": 45, "before": 50},
}
"""Every statement about a trial, with example values. Closed set."""


def sheet_from(args: Mapping[str, Any], texture: str | None) -> dict[str, Any] | None:
    """A command's arguments as an event to keep; ``None`` when it does not say how the plants came up.

    `texture`: the field's, where the sheet names none. Moist and loam are taken where nothing is known.
    """
    method = args.get("method")
    if method is None:
        return None
    return {
        "method": method,
        "soaked": bool(args.get("soaked")),
        "condition": detection.condition_of(args.get("moisture"), args.get("texture") or texture),
        "plants": [list(pair) for pair in args["plants"]],
    }


def standing(sheets: Sequence[Mapping[str, Any]]) -> list[Mapping[str, Any]]:
    """The sheets that stand, oldest first: one that says ``drop`` takes back the one before it."""
    kept: list[Mapping[str, Any]] = []
    for sheet in sheets:
        if not sheet.get("drop"):
            kept.append(sheet)
        elif kept:
            kept.pop()
    return kept


def recoveries(sheets: Sequence[Mapping[str, Any]]) -> tuple[Recovery, ...]:
    """The crew's own table: `detection.RECOVERIES` with the rows its sheets speak of replaced."""
    plants = tuple(
        Plant(sheet["method"], sheet["soaked"], sheet["condition"], found, left)
        for sheet in standing(sheets)
        for found, left in sheet["plants"]
    )
    return _measured(plants) if plants else RECOVERIES


@lru_cache(maxsize=64)
def _measured(plants: tuple[Plant, ...]) -> tuple[Recovery, ...]:
    return digging_trial.measured(plants)


def told(sheet: Mapping[str, Any], sheets: Sequence[Mapping[str, Any]]) -> tuple[Fact, ...]:
    """What a sheet just sent says, and how it moved the crew's own figure; `sheets` includes it."""
    pairs = sheet["plants"]
    there = sum(found + left for found, left in pairs)
    if there == 0:
        return (Fact("trial_empty", {"plants": len(pairs)}),)
    row = next(row for row in recoveries(sheets) if _same(row, sheet))
    table = next(row for row in RECOVERIES if _same(row, sheet))
    named = {"plants": len(pairs), "method": way(row.method, row.soaked), "condition": row.condition}
    moved = {"before": round(100 * table.chance), "percent": round(100 * row.chance), "all": row.plants}
    return (
        Fact("trial_kept", {**named, "found": sum(found for found, _ in pairs), "there": there}),
        Fact("trial_moved", moved),
    )


def dropped(sheets: Sequence[Mapping[str, Any]]) -> Fact:
    """The sheet that is taken back; `sheets` without the word that does it."""
    kept = standing(sheets)
    if not kept:
        return Fact("nothing_to_drop", {})
    last = kept[-1]
    named = {"plants": len(last["plants"]), "method": way(last["method"], last["soaked"])}
    return Fact("trial_dropped", {**named, "condition": last["condition"]})


def figures(table: Sequence[Recovery]) -> tuple[Fact, ...]:
    """Every row that rests on the crew's own plants."""
    before = {(row.method, row.soaked, row.condition): row.chance for row in RECOVERIES}
    return tuple(
        Fact(
            "own_trial",
            {
                "plants": row.plants,
                "method": way(row.method, row.soaked),
                "condition": row.condition,
                "percent": round(100 * row.chance),
                "before": round(100 * before[row.method, row.soaked, row.condition]),
            },
        )
        for row in table
        if row.plants
    )


def way(method: str, soaked: bool) -> str:
    """Key of a way to look."""
    return f"{method}_soaked" if soaked else method


def _same(row: Recovery, sheet: Mapping[str, Any]) -> bool:
    return (row.method, row.soaked, row.condition) == (sheet["method"], sheet["soaked"], sheet["condition"])
