"""How far the clock's dates can be trusted: tables for docs/science/limits.md, from made-up seasons.

    python -m tests.benchmarks.clock_scores [seasons]

Takes about ten seconds for each hundred seasons and world.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from tests.season_simulator import World
from tests.season_trials import Scores, trial

BASE_10 = World(
    base_c=10.0, lag=(102.0, 32.0), development_dd=160.0,
    first_generation=(394.0, 30.0), later_generation=(324.0, 27.0),
    step_dd=(53.0, 40.0, 27.0), loss_dd=53.0, sd_scale=0.67,
)  # fmt: skip
WORLDS: dict[str, tuple[World, dict]] = {
    "as the clock assumes": (World(), {}),
    "air temperatures unknown, normals only": (World(), {"measured": False}),
    "planting day unknown": (World(), {"planting_known": False}),
    "planting day told 7 days too early": (World(), {"planting_error_days": -7}),
    "planting day told 7 days too late": (World(), {"planting_error_days": 7}),
    "soil 1 C warmer than modelled": (World(soil_error_mean=1.0, soil_error_sd=0.2), {}),
    "soil 1 C cooler than modelled": (World(soil_error_mean=-1.0, soil_error_sd=0.2), {}),
    "development above 10 C, not 5 C": (BASE_10, {}),
    "soil never too cool to hatch": (World(lag=(185, 50), hatch_none_c=0, hatch_full_c=(1, 0)), {}),
    "no hatch below 15 C, full at 20 C": (World(lag=(5, 46), hatch_none_c=15, hatch_full_c=(20, 0.5)), {}),
    "eggs lie dormant a month sooner": (World(dormant_from=(220, 14)), {}),
    "no gain above 26 C of soil": (World(upper_c=26.0), {}),
    "every generation 480 DD5": (World(first_generation=(480, 40), later_generation=(480, 40)), {}),
    "colours last 30 % longer": (World(colour_scale=1.3), {}),
    "colours last 30 % shorter": (World(colour_scale=0.7), {}),
    "15 % of females called the next colour": (World(misread=0.15), {}),
    "tan and brown fall off in digging": (World(by_colour=(1.0, 0.9, 0.5, 0.2)), {}),
    "fields differ half as much again": (World(lag=(160, 72), hatch_full_c=(15, 2.2), pace_sd=0.06,
                                               first_generation=(534, 60), later_generation=(429, 52)), {}),
    "fields hardly differ": (World(lag=(160, 10), hatch_full_c=(15, 0.5), dormant_from=(250, 3),
                                   pace_sd=0.01, colour_sd=0.05, yellow_sd=0.05,
                                   first_generation=(534, 8),
                                   later_generation=(429, 8), soil_error_sd=0.2), {}),
    "generations do not outgrow each other": (World(growth=(1.0, 0.2)), {}),
}  # fmt: skip


RIVALS = ("error: clock", "planting and heat", "ten days on")


def together(apart: Sequence[Scores]) -> Scores:
    """Scores of several sets of seasons as one."""
    pooled = Scores()
    for each in apart:
        pooled.rows += each.rows
        for visits, errors in each.peaks.items():
            for name, values in errors.items():
                pooled.peaks.setdefault(visits, {}).setdefault(name, []).extend(values)
    return pooled


def table(*titles: str) -> str:
    """Head of a Markdown table."""
    return "| " + " | ".join(titles) + " |\n" + "| --- " * len(titles) + "|\n"


def line(name: str, scores: Scores) -> str:
    cells = [name]
    for visits in (0, 2):
        rows = scores.pick(visits, "peak", 1)
        late = np.mean([row.middle - row.truth for row in rows])
        cells.append(f"{100 * scores.covered(visits):.0f} %")
        cells.append(f"{late:+.1f}")
    errors = scores.next_peak_errors(2)
    cells += [f"{np.mean(errors[key]):.1f}" for key in ("clock", "planting and heat", "ten days")]
    return "| " + " | ".join(cells) + " |"


SEEDS = (21, 23)
"""Two sets of seasons, scored apart and together; neither was looked at while a number of the clock was chosen."""
CHEATS = (
    ("clock", "the clock"),
    ("planting and heat", "planting day and heat alone"),
    ("ten days", "ten days on"),
    ("a perfect look", "a look that knew the day of the first generation's whites, and the colour steps"),
    ("clock, same seasons", "the clock, in the seasons where that look could be had"),
    ("all but the weather", "all known but the weather to come"),
)


def main() -> None:
    seasons = int(sys.argv[1]) if len(sys.argv) > 1 else 100
    out = sys.stdout.write
    apart = [trial(World(), seasons, seed) for seed in SEEDS]
    scores = together(apart)
    out(f"{seasons} seasons of each of seeds {SEEDS[0]} and {SEEDS[1]}, as the clock assumes\n\n")
    out(table("event", "visits", "windows", "hold", f"seed {SEEDS[0]}", f"seed {SEEDS[1]}", "width (d)", "error (d)"))
    for event in ("first_white", "peak", "turning_tan"):
        for generation in (0, 1, 2):
            for visits in range(4):
                rows = scores.pick(visits, event, generation)
                if len(rows) < len(SEEDS) * seasons // 5:
                    continue
                width = np.median([row.high - row.low for row in rows])
                error = np.median([abs(row.middle - row.truth) for row in rows])
                held = " | ".join(f"{100 * each.covered(visits, event, generation):.0f} %" for each in (scores, *apart))
                name = f"{event} {'third' if generation == 2 else generation + 1}"
                out(f"| {name} | {visits} | {len(rows)} | {held} | {width:.0f} | {error:.0f} |\n")
    for visits in range(4):
        held = " | ".join(f"{100 * each.covered(visits):.1f} %" for each in (scores, *apart))
        out(f"| all | {visits} | {len(scores.pick(visits))} | {held} | | |\n")
    out("\n" + table("next peak missed by (d): median (mean)", *(f"{visits} visits" for visits in range(4))))
    for key, name in CHEATS:
        cells = [
            f"{np.median(e[key]):.0f} ({np.mean(e[key]):.1f})" for v in range(4) if (e := scores.next_peak_errors(v))
        ]
        out(f"| {name} | " + " | ".join(cells) + " |\n")
    ranks = np.histogram(scores.ranks(), bins=10, range=(0, 1))[0] / len(scores.rows)
    out("\nranks by tenths: " + " ".join(f"{share:.3f}" for share in ranks) + "\n\n")
    out(table("nature differs", "hold, no visit", "late by (d)", "hold, two visits", "late by (d)", *RIVALS))
    for name, (world, options) in WORLDS.items():
        out(line(name, trial(replace(world), max(seasons // 2, 20), 22, **options)) + "\n")
        sys.stdout.flush()


if __name__ == "__main__":
    main()
