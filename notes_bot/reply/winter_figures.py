"""Pictures of the winter half: plans side by side, egg counts over the years, where plants were dug."""

from __future__ import annotations

import math

from matplotlib.figure import Figure
from matplotlib.ticker import FuncFormatter, NullFormatter

from notes_bot.model import DigPoint, Fact, Language, Picture, Sheet
from notes_bot.reply.drawing import DOTS, FAINT, GROUND, INK, SOFT, WIDTH, png
from notes_bot.reply.words import Words, words

PLAN_INKS = ("#0a5c9c", "#8a6500", "#a83a00", "#3f6b3a")
PLAN_MARKS = ("o", "s", "^", "D")
ZONE_INKS = {"infested": "#a83a00", "suspect": "#8a6500", "clean": "#0a5c9c"}
METRES_A_DEGREE = 111_200.0
"""Of latitude, near enough for a sketch."""
ROUND_METRES = (5, 10, 20, 50, 100, 200, 500, 1000, 2000)


def plans_figure(sheet: Sheet, language: Language) -> Picture:
    """Every plan's middle and 80 % range by year, on a logarithmic axis."""
    speak = words(language)
    figure = Figure(figsize=(WIDTH, 2.5), dpi=DOTS, facecolor=GROUND)
    axes = figure.add_axes((0.15, 0.13, 0.82, 0.74))
    axes.set_facecolor("none")
    count = len(sheet.plans)
    for n, plan in enumerate(sheet.plans):
        shift = (n - (count - 1) / 2.0) * 0.14
        x = [year + shift for year, _ in plan.years]
        ink = PLAN_INKS[n % 4]
        axes.vlines(x, [i.low for _, i in plan.years], [i.high for _, i in plan.years], color=ink, lw=3, alpha=0.35)
        axes.plot(x, [i.likely for _, i in plan.years], PLAN_MARKS[n % 4] + "-", color=ink, ms=4, lw=1)
        axes.annotate(plan.label, (x[-1], plan.years[-1][1].likely), (6, 0), textcoords="offset points", fontsize=8,
                      color=ink, va="center", weight="bold")  # fmt: skip
    years = sorted({year for plan in sheet.plans for year, _ in plan.years})
    axes.set_yscale("log")
    axes.set_xticks(years, [str(year) for year in years])
    axes.set_xlim(years[0] - 0.5, years[-1] + 0.7)
    _axis(axes, speak)
    figure.text(0.03, 0.92, speak("picture.plans_axis"), fontsize=8, color=SOFT)
    ends = [
        Fact("plan_end", {"letter": p.label, "low": p.years[-1][1].low, "high": p.years[-1][1].high})
        for p in sheet.plans
    ]
    alt = speak("picture.plans", field=sheet.field, ends=[speak.say(fact) for fact in ends])
    return Picture("plans", "plans.png", png(figure), alt)


def counts_figure(sheet: Sheet, language: Language) -> Picture:
    """Egg counts by date with the interval of one sample."""
    speak = words(language)
    figure = Figure(figsize=(WIDTH, 2.1), dpi=DOTS, facecolor=GROUND)
    axes = figure.add_axes((0.15, 0.15, 0.82, 0.70))
    axes.set_facecolor("none")
    shown = [count for count in sheet.counts if count.eggs.likely > 0]
    x = [count.on.year + (count.on.timetuple().tm_yday - 1) / 365.25 for count in shown]
    axes.plot(x, [count.eggs.likely for count in shown], "o-", color=INK, ms=4, lw=1)
    for at, count in zip(x, shown, strict=True):
        axes.vlines(at, count.mean.low, count.mean.high, color=INK, lw=3, alpha=0.3)
    axes.set_yscale("log")
    first, last = int(min(x, default=0)), int(max(x, default=0)) + 1
    axes.set_xticks(range(first, last + 1), [str(year) for year in range(first, last + 1)])
    axes.set_xlim(first, last + 0.05)
    _axis(axes, speak)
    figure.text(0.03, 0.91, speak("picture.counts_axis"), fontsize=8, color=SOFT)
    parts = [f"{speak.dated(count.on)} {speak.eggs(count.eggs.likely)}" for count in sheet.counts]
    return Picture("counts", "counts.png", png(figure), speak("picture.counts", field=sheet.field, parts=parts))


def _axis(axes, speak: Words) -> None:  # type: ignore[no-untyped-def]  # matplotlib's Axes, which has no types here
    low, high = axes.get_ylim()
    if high / low < 30:
        middle = math.sqrt(low * high)
        axes.set_ylim(middle / 6, middle * 6)
    axes.yaxis.set_major_formatter(FuncFormatter(lambda value, _: speak.number(round(value)) if value >= 1 else ""))
    axes.yaxis.set_minor_formatter(NullFormatter())
    axes.tick_params(labelsize=7, colors=SOFT, length=2)
    axes.grid(axis="y", color=FAINT, lw=0.4)
    for side in ("top", "right"):
        axes.spines[side].set_visible(False)


def sketch_figure(sheet: Sheet, language: Language) -> Picture:
    """Dug spots by coordinates, north up: a filled mark for females, a ring for none, a half mark for suspect."""
    speak = words(language)
    points = sheet.points
    middle = math.fsum(p.latitude for p in points) / len(points)
    east = METRES_A_DEGREE * math.cos(math.radians(middle))
    x = [(p.longitude - points[0].longitude) * east for p in points]
    y = [(p.latitude - points[0].latitude) * METRES_A_DEGREE for p in points]
    reach = max(max(x) - min(x), max(y) - min(y), 40.0) * 0.85
    figure = Figure(figsize=(WIDTH, 3.6), dpi=DOTS, facecolor=GROUND)
    axes = figure.add_axes((0.04, 0.17, 0.92, 0.80))
    axes.set_facecolor("#fafaf7")
    axes.set_xticks([])
    axes.set_yticks([])
    axes.set_aspect("equal")
    cx, cy = (max(x) + min(x)) / 2, (max(y) + min(y)) / 2
    axes.set_xlim(cx - reach, cx + reach)
    axes.set_ylim(cy - reach * 0.87, cy + reach * 0.87)
    for spine in axes.spines.values():
        spine.set_color(FAINT)
    for n, (at_x, at_y, point) in enumerate(zip(x, y, points, strict=True), start=1):
        ink = ZONE_INKS[point.zone]
        fill = {"infested": "full", "suspect": "left", "clean": "none"}[point.zone]
        axes.plot([at_x], [at_y], "o", ms=9, color=ink, fillstyle=fill, mew=1.4)
        side = -1 if at_x > cx + reach * 0.3 else 1  # a label never leaves the sketch
        axes.annotate(
            _label(speak, n, point),
            (at_x, at_y),
            (7 * side, 5),
            textcoords="offset points",
            fontsize=7,
            color=INK,
            ha="left" if side > 0 else "right",
        )
    axes.annotate("N", (0.95, 0.97), (0.95, 0.86), xycoords="axes fraction", textcoords="axes fraction", ha="center",
                  fontsize=8, color=SOFT, arrowprops={"arrowstyle": "->", "color": SOFT})  # fmt: skip
    bar = max((m for m in ROUND_METRES if m <= reach * 0.7), default=5)
    axes.plot([cx - reach * 0.93, cx - reach * 0.93 + bar], [cy - reach * 0.8] * 2, color=SOFT, lw=2)
    axes.text(cx - reach * 0.93, cy - reach * 0.77, f"{bar} m", fontsize=7, color=SOFT)
    x_at = 0.05
    for zone in ("infested", "suspect", "clean"):
        if any(point.zone == zone for point in points):
            label = speak.name("zone", zone)
            figure.text(
                x_at, 0.07, {"infested": "●", "suspect": "◐", "clean": "○"}[zone], fontsize=10, color=ZONE_INKS[zone]
            )
            figure.text(x_at + 0.06, 0.072, label, fontsize=8, color=INK)
            x_at += 0.10 + 0.022 * len(label)
    parts = [f"{_label(speak, n, p)}: {speak.name('zone', p.zone)}" for n, p in enumerate(points, start=1)]
    return Picture("sketch", "sketch.png", png(figure), speak("picture.sketch", field=sheet.field, parts=parts))


def _label(speak: Words, number: int, point: DigPoint) -> str:
    each = f", {speak.number(point.females_per_plant)}" if point.females_per_plant is not None else ""
    return f"{number} ({speak.day(point.on)}{each})"
