"""Draws the figures of the clock's pages and writes the tables that stand between marker lines in them.

Run from the top of the project: ``python docs/science/draw_clock.py [seasons]``. With a number of seasons the scores of
limits.md are computed anew as well (some minutes); without, only the figures and the table of parameters.
"""

from __future__ import annotations

import io
import sys
from contextlib import redirect_stdout
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import numpy as np
from matplotlib.dates import AutoDateLocator, DateFormatter
from matplotlib.figure import Figure

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from notes_bot.model import Females, History, Note, Visit  # noqa: E402 - the project's top must be found first
from notes_bot.outlook import read_clock  # noqa: E402
from notes_bot.science import generation as clock  # noqa: E402
from notes_bot.science import growth_stage, soil_water  # noqa: E402
from notes_bot.science.parameters import CLOCK  # noqa: E402
from notes_bot.science.thermal_time import degree_days, interpolate_monthly, soil_temperature_lagged  # noqa: E402
from notes_bot.weather import climate_at, read_temperatures  # noqa: E402
from tests.benchmarks import clock_scores  # noqa: E402
from tests.science.test_generation import COOL_SPRING, SEASONS, first_whites, generations_to, start_of  # noqa: E402
from tests.season_simulator import World  # noqa: E402
from tests.season_trials import trial  # noqa: E402

HERE = Path(__file__).parent
FIGURES = HERE / "figures"
COLOURS = {"white": "#bdbdbd", "yellow": "#e6b800", "tan": "#b97a3d", "brown": "#5a3a1e"}
PLANTED = date(2024, 5, 6)


def page(width: float = 6.4, height: float = 3.8) -> tuple[Figure, np.ndarray]:
    figure = Figure(figsize=(width, height), dpi=110, layout="constrained")
    return figure, figure.subplots()


def by_day(axes: np.ndarray) -> None:
    """Days as "6 May" along the bottom."""
    axes.xaxis.set_major_locator(AutoDateLocator(maxticks=7))
    axes.xaxis.set_major_formatter(DateFormatter("%-d %b"))


def save(figure: Figure, name: str) -> None:
    figure.savefig(FIGURES / name, metadata={"Software": None})


def draw_heat() -> None:
    """One day, 8 to 36 C: the curve, what counts, and what each method makes of it."""
    figure, axes = page()
    hours = np.linspace(0, 24, 200)
    curve = 22 - 14 * np.cos(2 * np.pi * hours / 24)
    axes.plot(hours, curve, color="#333333", label="sine through 8 and 36 C")
    axes.fill_between(hours, 10, np.clip(curve, 10, 30), color="#7fb37f", alpha=0.5, label="counts (10 to 30 C)")
    axes.axhline(30, color="0.6", linewidth=0.8)
    axes.axhline(10, color="0.6", linewidth=0.8)
    cutoffs = ("none", "horizontal", "intermediate", "vertical")
    lines = [f"{cutoff:12s} {float(degree_days(8, 36, 10, 30, cutoff=cutoff)):5.2f}" for cutoff in cutoffs]
    lines.append(f"{'mean, clipped':12s} {float(degree_days(8, 36, 10, 30, 'average_clip_minmax')):5.2f}")
    axes.text(0.4, 34.5, "degree-days of the day\n" + "\n".join(lines), family="monospace", fontsize=8, va="top")
    axes.set(xlabel="hour", ylabel="temperature (C)", xlim=(0, 24), ylim=(5, 38))
    axes.legend(frameon=False, fontsize=8, loc="lower center")
    save(figure, "clock_heat.png")


def draw_soil() -> None:
    """A real spring: Lincoln 2016, air and the soil modelled from it."""
    figure, axes = page()
    days = read_temperatures(ROOT / "tests" / "published" / "lincoln_2016.csv")
    season = [day for day in days if 4 <= day.date.month <= 9]
    when = [day.date for day in season]
    air = np.array([(day.tmin_c + day.tmax_c) / 2 for day in season])
    axes.plot(when, air, color="0.7", linewidth=0.8, label="air, daily mean (measured)")
    axes.plot(when, soil_temperature_lagged(air), color="#7a4a21", label="soil at 10 cm (modelled)")
    climate = climate_at(40.7, -96.9)
    means = (np.array(climate.tmax_c) + np.array(climate.tmin_c)) / 2
    normal = interpolate_monthly(means, [day.timetuple().tm_yday for day in when])
    axes.plot(when, normal, color="#2b5c8a", linestyle="--", linewidth=1, label="air, normal")
    axes.set(ylabel="C")
    by_day(axes)
    axes.legend(frameon=False, fontsize=8)
    save(figure, "clock_soil.png")


def draw_season() -> None:
    """Females on the roots by colour through a normal season, middle state, and the events read off it."""
    got = read_clock(History(42.0, -93.5, PLANTED), (), climate_at(42.0, -93.5), date(2024, 6, 1))
    states = np.zeros((1, clock.DIMENSIONS))
    who = clock.in_season(states, got.season)
    heat = got.ahead.heat.mean(axis=0)
    days = np.arange(round(got.calendar.planted), round(got.calendar.roots.middle) + 1)
    numbers = clock.on_roots(who, heat[None, days])[0].sum(axis=1)
    figure, axes = page(6.4, 4.2)
    when = [got.calendar.day(float(day)) for day in days]
    axes.stackplot(when, numbers.T / numbers.sum(axis=1).max(), colors=list(COLOURS.values()), labels=list(COLOURS))
    peaks = who.white + clock._peak_offset(who)
    for number in range(3):
        for wanted, mark in (
            (who.white[0, number] - 1.645 * who.spread[0, number], "first white"),
            (peaks[0, number], "peak"),
        ):
            day = got.calendar.day(float(np.searchsorted(heat, wanted)))
            axes.axvline(day, color="0.3", linewidth=0.7, linestyle=":" if mark == "first white" else "--")
            name = "third or later" if number == 2 else f"generation {number + 1}"
            high = 1.02 if mark == "peak" else 1.1
            axes.text(day, high, f"{mark}\n{name}", fontsize=6.5, ha="center", va="bottom")
    axes.set(ylabel="females on the roots (highest day = 1)", ylim=(0, 1.0), xlim=(when[0], when[-1]))
    by_day(axes)
    axes.legend(frameon=False, fontsize=8, loc="upper left")
    save(figure, "clock_season.png")


def draw_sharpening() -> None:
    """The peak of generation 2 and its whites, as three visits come in."""
    climate = climate_at(42.0, -93.5)
    seen = [(date(2024, 6, 11), (17, 0, 0, 0)), (date(2024, 6, 21), (30, 9, 1, 0)), (date(2024, 7, 1), (12, 35, 20, 9))]
    made = [
        Visit(i, 1, on, Note(plants=6, method="shovel", females=Females(*n, sum(n)), outcome="seen"), 1)
        for i, (on, n) in enumerate(seen)
    ]
    figure, axes = page(6.4, 3.4)
    for count in range(4):
        as_of = made[count - 1].on if count else date(2024, 6, 1)
        got = read_clock(History(42.0, -93.5, PLANTED, visits=tuple(made[:count])), (), climate, as_of)
        for days, colour, shift in (
            (got.ahead.marks.first_white[:, 1], "0.5", -0.12),
            (got.ahead.marks.peak[:, 1], "#c79a00", 0.12),
        ):
            low, middle, _, high = (got.calendar.first + timedelta(days=float(np.ceil(d))) for d in days)
            axes.plot([low, high], [count + shift] * 2, color=colour, linewidth=5, solid_capstyle="butt")
            axes.plot([middle], [count + shift], "|", color="k", markersize=12)
    axes.set_yticks(range(4), ["no visit", "17 white", "+ 30/9/1/0", "+ 12/35/20/9"])
    axes.invert_yaxis()
    by_day(axes)
    axes.set_title("generation 2: first whites (grey) and peak (yellow), 10-50-90 %", fontsize=9)
    save(figure, "clock_sharpening.png")


def draw_ranks() -> None:
    """Where the truth fell among the clock's days, over the made-up seasons of the scores."""
    scores = clock_scores.together([trial(World(), 120, seed) for seed in clock_scores.SEEDS])
    figure, axes = page(6.4, 3.2)
    for visits, shade in ((0, "#c6c6c6"), (1, "#9a9a9a"), (2, "#6b6b6b"), (3, "#303030")):
        share = np.histogram(scores.ranks(visits), bins=10, range=(0, 1))[0] / len(scores.pick(visits))
        axes.step(np.linspace(0, 1, 11), [*share, share[-1]], where="post", color=shade, label=f"{visits} visits")
    axes.axhline(0.1, color="#a33", linewidth=0.8, linestyle="--")
    axes.set(xlabel="share of the clock's days before the true day", ylabel="share of windows", ylim=(0, 0.2))
    axes.legend(frameon=False, fontsize=8, ncols=4)
    save(figure, "clock_ranks.png")


def draw_wet() -> None:
    """Two rains on three soils: wetness, and the days on which a spade is left at home."""
    figure, axes = page(6.4, 3.2)
    first = date(2024, 6, 10)
    rain = {first + timedelta(days=2): 25.4, first + timedelta(days=9): 12.0, first + timedelta(days=10): 14.0}
    days = [first + timedelta(days=i) for i in range(20)]
    axes.bar(days, [rain.get(day, 0.0) for day in days], color="#bcd3e6", label="rain (mm)")
    for place, (soil, colour) in enumerate((("sand", "#d2a640"), ("loam", "#7a4a21"), ("clay", "#444444"))):
        wetness, now = [], 0.0
        for day in days:
            now = now * soil_water.KEPT[soil] + rain.get(day, 0.0)
            wetness.append(now)
        axes.plot(days, wetness, color=colour, label=soil)
        wet = soil_water.wet_days(rain, {}, soil, days[0], days[-1])
        axes.plot(list(wet), [-2.0 - 2.0 * place] * len(wet), "s", color=colour, markersize=5)
    axes.axhline(soil_water.TOO_WET_MM, color="0.5", linestyle="--", linewidth=0.9)
    axes.set(ylabel="wetness (mm); below: days too wet", ylim=(-8, 36))
    by_day(axes)
    axes.legend(frameon=False, fontsize=8, ncols=4, loc="upper left")
    save(figure, "clock_wet.png")


def draw_roots() -> None:
    """How surely the end of the roots is known once a stage is seen."""
    figure, axes = page(6.4, 3.0)
    rows = [(f"R{stage}", growth_stage.days_to_r6(float(stage))) for stage in range(1, 7)]
    for place, (_, r6) in enumerate(rows):
        end = growth_stage.roots_end(r6)
        axes.plot([end.middle - 1.28 * end.sd, end.middle + 1.28 * end.sd], [place] * 2, color="#7a4a21", linewidth=5,
                  solid_capstyle="butt")  # fmt: skip
        axes.plot([end.middle], [place], "|", color="k", markersize=12)
    axes.set_yticks(range(len(rows)), [name for name, _ in rows])
    axes.invert_yaxis()
    axes.set(xlabel="days from the visit to the end of the roots (10-50-90 %)")
    save(figure, "clock_roots.png")


def parameter_table() -> str:
    rows = ["| parameter | value | spread | unit | source | known | note |", "|---|---|---|---|---|---|---|"]
    rows += [
        f"| `{row.name}` | {row.value:g} | {row.spread:g} | {row.unit} | {row.source} | {row.known} | {row.note} |"
        for row in CLOCK.values()
    ]
    return "\n".join(rows)


GATES = ((5.0, 5.1), (10.0, 12.5), (10.0, 15.0), (12.0, 16.0), (15.0, 20.0))
"""Hatch gates tried: nothing below, all above [C]."""


def gates_table() -> str:
    """What the hatch gate's height does to the checks, the heat to infection fitted anew for each."""
    head = ["gate (C)", "heat to infection", "25 d, 2013", "29 d", "27 d", "31 d", "28 d (8-20)",
            "six weeks, Ohio (> 60)", "cool spring later by (d)", "generations, Iowa", "NC"]  # fmt: skip
    rows = ["| " + " | ".join(head) + " |", "|---" * len(head) + "|"]
    names = ("hatch_none_c", "hatch_full_c", "planting_to_penetration")
    kept = {name: CLOCK[name] for name in names}
    try:
        for none, full in GATES:
            CLOCK["hatch_none_c"] = replace(kept["hatch_none_c"], value=none)
            CLOCK["hatch_full_c"] = replace(kept["hatch_full_c"], value=full)

            def miss(heat: float) -> float:
                CLOCK[names[2]] = replace(kept[names[2]], value=heat)
                return abs(first_whites(42.0, -93.5, date(2013, 5, 5), date(2013, 6, 14)) - 0.70)

            heat = min(np.arange(5.0, 260.0, 5.0), key=miss)
            miss(heat)
            shares = [100 * first_whites(lat, lon, sown, seen) for lat, lon, sown, seen in SIGHTINGS]
            later = start_of(COOL_SPRING) - start_of(np.full(95, 21.0))
            counts = [
                generations_to(s[1], s[2], date(2013, *s[3]), date(2013, *s[4])) for s in (SEASONS[2], SEASONS[7])
            ]
            cells = [f"{none:g}-{full:g}", f"{heat:g}", *(f"{share:.0f} %" for share in shares), f"{later}",
                     *(f"{count:.1f}" for count in counts)]  # fmt: skip
            rows.append("| " + " | ".join(cells) + " |")
    finally:
        CLOCK.update(kept)
    return "\n".join(rows)


SIGHTINGS = (
    (41.57, -91.26, date(2013, 5, 8), date(2013, 6, 2)),
    (41.57, -91.26, date(2013, 5, 6), date(2013, 6, 4)),
    (41.67, -91.60, date(2013, 5, 15), date(2013, 6, 11)),
    (42.0, -93.6, date(2013, 5, 10), date(2013, 6, 10)),
    (42.0, -93.5, date(2013, 5, 10), date(2013, 6, 7)),
    (40.8, -81.9, date(2013, 5, 10), date(2013, 6, 21)),
)
"""Iowa sightings and two checks: place, planted, day looked at; on normals."""


def generations_table() -> str:
    rows = ["| place | planted | R6 | generations to R6 | published nearby |", "|---|---|---|---|---|"]
    for name, latitude, longitude, planted, end, _, _, published in SEASONS:
        sown, last = date(2013, *planted), date(2013, *end)
        count = generations_to(latitude, longitude, sown, last)
        rows.append(f"| {name} | {sown:%-d %b} | {last:%-d %b} | {count:.1f} | {published} |")
    return "\n".join(rows)


def write_between(name: str, mark: str, text: str) -> None:
    path = HERE / name
    before, rest = path.read_text("utf-8").split(f"<!-- {mark} -->\n", 1)
    _, after = rest.split(f"<!-- end of {mark} -->", 1)
    path.write_text(f"{before}<!-- {mark} -->\n{text}\n<!-- end of {mark} -->{after}", "utf-8")


def main() -> None:
    FIGURES.mkdir(exist_ok=True)
    for draw in (draw_heat, draw_soil, draw_season, draw_sharpening, draw_wet, draw_roots, draw_ranks):
        draw()
    write_between("clock.md", "parameters", parameter_table())
    write_between("clock.md", "gates", gates_table())
    write_between("clock.md", "generations", generations_table())
    if len(sys.argv) > 1:
        said = io.StringIO()
        with redirect_stdout(said):
            clock_scores.main()
        write_between("limits.md", "scores", said.getvalue().strip())


if __name__ == "__main__":
    main()
