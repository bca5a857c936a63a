"""Draw the figures of the winter pages: `python docs/science/draw_winter.py`."""

from __future__ import annotations

from pathlib import Path

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from notes_bot.science.eggs import SCALES, Level
from notes_bot.science.hg_type import read_test
from notes_bot.science.rotation import Crop, simulate
from notes_bot.science.sampling import composite_cv, count_interval, tellable_ratio
from notes_bot.science.variety_watch import pool

FIGURES = Path(__file__).parent / "figures"
INK, QUIET = "#1c1e1d", "#565a57"
SHADES: dict[Level, str] = {
    "none": "#f4f4f1",
    "trace": "#e3ead9",
    "low": "#c6dba9",
    "moderate": "#f0cf6b",
    "high": "#e08a5b",
}


def _figure(width: float = 6.4, height: float = 3.2) -> tuple[Figure, Axes]:
    figure = Figure(figsize=(width, height), dpi=130, layout="constrained")
    axes = figure.add_subplot()
    for side in ("top", "right"):
        axes.spines[side].set_visible(False)
    return figure, axes


def bands() -> Figure:
    """Every place's rows on one logarithmic axis, with a count of 3,000 and its interval."""
    figure, axes = _figure(height=3.4)
    rows = list(dict.fromkeys((b.place, b.condition) for b in SCALES))
    words = {"any": "", "soybean_next": "\nsoybean next", "other_next": "\nother next"}
    for y, (place, condition) in enumerate(reversed(rows)):
        for band in SCALES:
            if (band.place, band.condition) == (place, condition):
                left, right = max(band.low, 10), 200_000 if band.high is None else band.high
                if right > left:
                    axes.barh(y, right - left, left=left, color=SHADES[band.level], edgecolor="white", height=0.7)
                    if right / left > 2.5:
                        axes.text(np.sqrt(left * right), y, band.level, ha="center", va="center", fontsize=7, color=INK)
    axes.set_yticks(range(len(rows)), [p + words[c] for p, c in reversed(rows)], fontsize=8)
    low, high = count_interval(3000, composite_cv(20))
    axes.axvspan(low, high, color=INK, alpha=0.12, lw=0)
    axes.axvline(3000, color=INK, lw=1)
    axes.set_xscale("log")
    axes.set_xlim(10, 200_000)
    axes.set_xlabel("eggs per 100 cm3 (line: a count of 3,000; grey: its 80 % interval)", fontsize=8)
    return figure


def precision() -> Figure:
    """The ratio two equal samples can tell apart, by cores."""
    figure, axes = _figure(height=2.8)
    cores = np.arange(5, 81)
    for bags, style in ((1, "-"), (2, "--")):
        ratios = [tellable_ratio(cv, cv) for cv in (composite_cv(int(n), composites=bags) for n in cores)]
        axes.plot(cores, ratios, style, color=INK, label=f"{bags} bag" + ("s" if bags > 1 else ""))
    axes.set_xlabel("cores a bag", fontsize=8)
    axes.set_ylabel("smallest change told (times)", fontsize=8)
    axes.set_ylim(1, 5)
    axes.legend(frameon=False, fontsize=8)
    return figure


def limit() -> Figure:
    """How sure a line is positive, by the FI shown and the replicates behind it."""
    figure, axes = _figure(height=2.8)
    shown = np.array([2, 4, 6, 8, 9, 10, 11, 12, 15, 20, 25, 30.0])
    for plants, style in ((3, ":"), (5, "-"), (10, "--")):
        chances = [read_test([200], {2: [2 * fi]}, plants=plants).lines[0].chance_positive for fi in shown]
        axes.plot(shown, chances, style, color=INK, label=f"{plants} replicates")
    axes.axvline(10, color=QUIET, lw=0.8)
    axes.axhspan(0.1, 0.9, color="#f0cf6b", alpha=0.35, lw=0)
    axes.set_xlabel("female index shown (check 200 females a plant)", fontsize=8)
    axes.set_ylabel("chance it is 10 or more", fontsize=8)
    axes.legend(frameon=False, fontsize=8)
    return figure


def plans() -> Figure:
    """Three plans from one count on the same futures."""
    figure, axes = _figure(height=3.0)
    choices: dict[str, tuple[Crop, ...]] = {
        "corn, PI 88788, corn, Peking": ("nonhost", "PI 88788", "nonhost", "Peking"),
        "corn, PI 88788, corn, PI 88788": ("nonhost", "PI 88788", "nonhost", "PI 88788"),
        "corn, susceptible, corn, susceptible": ("nonhost", "susceptible", "nonhost", "susceptible"),
    }
    runs = simulate(3000, list(choices.values()), seed=1)
    for n, (name, run, colour) in enumerate(zip(choices, runs, ("#0a4f86", "#6a4d00", "#8c2f00"), strict=True)):
        x = np.arange(1, len(run.years) + 1) + (n - 1) * 0.12
        middle = np.array([y.middle for y in run.years])
        axes.vlines(x, [y.low for y in run.years], [y.high for y in run.years], color=colour, lw=3, alpha=0.35)
        axes.plot(x, middle, "o-", color=colour, ms=4, lw=1, label=name)
    axes.set_yscale("log")
    axes.set_ylim(200, 400_000)
    axes.set_xticks(range(1, 5))
    axes.set_xlabel("year of the plan (start: 3,000 eggs)", fontsize=8)
    axes.set_ylabel("eggs per 100 cm3", fontsize=8)
    axes.legend(frameon=False, fontsize=7)
    return figure


def watch() -> Figure:
    """Seven invented fields: the share of the strip seen and, drawn in, with its interval."""
    seen = np.array([0.03, 0.05, 0.06, 0.09, 0.12, 0.45, 0.7])
    errors = [0.3, 0.4, 0.3, 0.8, 0.4, 0.3, 1.5]
    found = pool(list(np.log(seen)), errors, list(range(7)), [2026.0] * 7, 2026.0)
    figure, axes = _figure(height=2.6)
    for y, (own, group) in enumerate(zip(seen, found.groups, strict=True)):
        axes.plot([own], [y], "o", mfc="none", mec=INK)
        axes.hlines(y, group.share[0], group.share[2], color="#0a4f86", lw=3, alpha=0.4)
        axes.plot([group.share[1]], [y], "o", color="#0a4f86", ms=4)
    axes.axvspan(0.1, 0.3, color="#f0cf6b", alpha=0.35, lw=0)
    axes.set_xscale("log")
    axes.set_xticks([0.01, 0.03, 0.1, 0.3, 1.0], ["1 %", "3 %", "10 %", "30 %", "100 %"])
    axes.set_yticks(range(7), [f"field {n + 1}, error {e}" for n, e in enumerate(errors)], fontsize=7)
    axes.set_xlabel("share of the check strip (ring: seen; dot and bar: drawn in, 80 %)", fontsize=8)
    return figure


def main() -> None:
    drawn = {"bands": bands(), "precision": precision(), "limit": limit(), "plans": plans(), "watch": watch()}
    for name, figure in drawn.items():
        figure.savefig(FIGURES / f"winter_{name}.png", metadata={"Software": None})


if __name__ == "__main__":
    main()
