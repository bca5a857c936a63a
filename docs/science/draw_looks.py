"""Draws docs/science/figures/looks_reliability.png and writes the tables of detection.md and look_alikes.md.

Run from the top of the project: ``python docs/science/draw_looks.py``. Same seed, same picture. The tables stand
between marker lines in the pages; a test holds them to what the code says today.
"""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np
from matplotlib.figure import Figure

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from notes_bot.science import detection, look_alikes  # noqa: E402 - the project's top must be found first
from notes_bot.science.clue_words import clues_in_text  # noqa: E402
from notes_bot.worth import plan_look  # noqa: E402
from tests.look_simulator import AS_ASSUMED, OTHER_WORLDS, clean_fields, reliability  # noqa: E402
from tests.science.look_alike_cases import CASES  # noqa: E402

FIELDS = 4000


def draw_reliability(path: Path) -> None:
    """Stated chance across, frequency of the truth up, one line a world."""
    figure = Figure(figsize=(6.0, 5.2), dpi=110, layout="constrained")
    axes = figure.subplots()
    axes.plot([0, 0.6], [0, 0.6], color="0.7", linewidth=1, label="stated = true")
    for world, style in zip((AS_ASSUMED, *OTHER_WORLDS), ("o-", "s--", "^--", "v--", "D--"), strict=True):
        fields = 3 * FIELDS if world is AS_ASSUMED else FIELDS
        curve = reliability(*clean_fields(world, fields, np.random.default_rng(1)), bins=8)
        stated, true, count = (np.array(column) for column in zip(*curve, strict=True))
        line = axes.plot(stated, true, style, markersize=4, linewidth=1.2, label=world.name)[0]
        if world is AS_ASSUMED:
            half = 1.28 * np.sqrt(true * (1 - true) / count)
            axes.fill_between(stated, true - half, true + half, color=line.get_color(), alpha=0.2, linewidth=0)
    axes.set(
        xlabel="chance of infestation we state after clean looks",
        ylabel="share of such fields that are infested",
        xlim=(0, 0.55),
        ylim=(0, 0.6),
    )
    axes.legend(frameon=False, fontsize=8)
    figure.savefig(path, metadata={"Software": None})


def plants_table() -> str:
    """Plants to dig, by soil and method, to be 80, 90 and 95 % sure of showing a light infestation."""
    rows = ["| soil, moist | method | detection with 6 plants | 80 % | 90 % | 95 % |", "|---|---|---|---|---|---|"]
    names = {"shovel": "shovel", "eased": "eased out by hand", "pulled": "pulled"}
    for texture in ("sand", "loam", "clay"):
        for plan in plan_look(texture).plans:
            recovery = detection.recovery_beta(plan.method, plan.soaked, "moist", texture)
            six = detection.look_detection(detection.Look(detection.spread(6), recovery))
            method = names[plan.method] + (", roots soaked" if plan.soaked else "")
            needed = " | ".join(str(plan.plants[p] or "over 400") for p in (80, 90, 95))
            rows.append(f"| {texture} | {method} | {six:.0%} | {needed} |")
    return "\n".join(rows)


def leave_one_out_table() -> str:
    """Each constructed case: the answer, and the answer without the clue it leans on most."""
    rows = [
        "| case | chance from roots | answer | without its heaviest clue | answer then |",
        "|---|---|---|---|---|",
    ]
    for case in CASES:
        clues = clues_in_text(case.text) | set(case.noted)
        wanted = case.expect[-1]
        without = {clue: _chance(wanted, clues - {clue}, case.infested) for clue in sorted(clues)}
        heaviest = min(without, key=lambda clue: without[clue])
        rows.append(
            f"| {case.name} | {case.infested:.0%} | {_said(clues, case.infested)} | {heaviest} "
            f"| {_said(clues - {heaviest}, case.infested)} |"
        )
    return "\n".join(rows)


def _chance(cause: str, clues: frozenset[str] | set[str], infested: float) -> float:
    weighed = look_alikes.weigh_causes(clues, infested)
    return weighed.scn if cause == look_alikes.SCN else weighed.other[cause]


def _said(clues: frozenset[str] | set[str], infested: float) -> str:
    weighed = look_alikes.weigh_causes(clues, infested)
    first, second = weighed.ranked()[:2]
    return ", ".join(f"{cause} {chance:.0%}" for cause, chance in (first, second))


def between(page: str, name: str, table: str) -> str:
    """`page` with what stands between the markers of `name` replaced."""
    start, end = f"<!-- {name} -->\n", f"<!-- end {name} -->"
    head, rest = page.split(start)
    return head + start + table + "\n" + end + rest.split(end)[1]


TABLES = {
    "detection.md": ("plants to dig", plants_table),
    "look_alikes.md": ("leave one clue out", leave_one_out_table),
}


def main() -> None:
    pages = ROOT / "docs" / "science"
    for name, (marker, table) in TABLES.items():
        page = pages / name
        page.write_text(between(page.read_text("utf-8"), marker, table()), "utf-8")
    draw_reliability(pages / "figures" / "looks_reliability.png")


if __name__ == "__main__":
    main()
