"""The season of one field for a phone: numbers in, PNG and the words that say the same out. Draws, decides nothing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Patch

from notes_bot.model import COLOURS, Colour, Field, Language, Note, Outlook, Picture, Spot, Visit, Window
from notes_bot.reply import telling
from notes_bot.reply.drawing import DOTS, FAINT, GROUND, INK, SOFT, WIDTH, bare, place_of, png
from notes_bot.reply.words import Words, words

FILL: dict[Colour, str] = {"white": "#ffffff", "yellow": "#f2c72c", "tan": "#c08a4e", "brown": "#643a1c"}
"""Near the colours of the females themselves, each at least 1.4 times as light as the next."""
HATCH: dict[Colour, str] = {"white": "", "yellow": "....", "tan": "////", "brown": "xxxx"}
HATCH_INK: dict[Colour, str] = {"white": SOFT, "yellow": "#8a6a00", "tan": "#7a4d1c", "brown": "#c9a487"}
AXIS_POINTS = 0.93 * WIDTH * 72
LETTER_POINTS = 4.5
"""Width of an average letter at 8 points."""
EDGE_POINTS = 0.035 * WIDTH * 72
NAME_GAP = 7
"""Points between a bracket and its name."""
WINDOW_ROWS = 5
VISITS_SHOWN = 8

CLEAR = {"facecolor": GROUND, "edgecolor": "none", "pad": 0.8}
"""Behind words a line would cross."""


@dataclass(frozen=True, slots=True)
class Dug:
    """One visit as the figure shows it."""

    on: date
    per_plant: float | None
    """Females a plant; ``None`` when the plants were not counted."""
    total: int | None
    shares: tuple[float, float, float, float] | None
    """White, yellow, tan, brown; ``None`` when the colours were not counted."""
    none_seen: bool
    counts: tuple[int, ...] = ()
    """Females of each colour, where they were counted."""
    places: tuple[float, ...] = ()
    """Females a plant place by place, highest first, where the note keeps them apart: never averaged."""


def dug(visits: Sequence[Visit]) -> list[Dug]:
    """What a season's looks found, ready to draw: only looks at roots, the newest few."""
    looks = [visit for visit in visits if visit.note.outcome in {"seen", "none_seen"}]
    return [_dug(visit.on, visit.note) for visit in looks[-VISITS_SHOWN:]]


def _dug(on: date, note: Note) -> Dug:
    counts = note.females.by_colour()
    total = note.females.total
    if note.outcome == "none_seen":
        return Dug(on, 0.0, 0, None, none_seen=True)
    shares = None
    if counts is not None and sum(counts) > 0:
        white, yellow, tan, brown = (count / sum(counts) for count in counts)
        shares = (white, yellow, tan, brown)
    per_plant = total / note.plants if total is not None and note.plants else None
    places = [each for spot in note.spots if not spot.check and (each := _spot_each(spot)) is not None]
    apart = tuple(sorted(places, reverse=True)) if len(places) > 1 else ()
    return Dug(on, per_plant, total, shares, none_seen=False, counts=counts if shares and counts else (), places=apart)


def _spot_each(spot: Spot) -> float | None:
    if spot.per_plant:
        return sum(spot.per_plant) / len(spot.per_plant)
    return spot.females.total / spot.plants if spot.females.total is not None and spot.plants else None


def _each(speak: Words, look: Dug) -> str:
    """The number a plant as it is written beside a look; two places as highest / lowest."""
    if look.places:
        return f"{speak.number(look.places[0])} / {speak.number(look.places[-1])}"
    return "" if look.per_plant is None else speak.number(look.per_plant)


# --- the season -------------------------------------------------------------------------------------


def season_figure(
    field: Field, outlook: Outlook, visits: Sequence[Visit], today: date, language: Language, *, over: bool = False
) -> Picture:
    """The season of one field: what was dug, the colours expected on the roots, the windows, today.

    Needs ``outlook.mix``; without it only looks and windows are drawn. Once the season is ``over`` no day is marked as
    today: ``today`` is then the last day drawn.
    """
    return Picture(
        content_id=f"season-{field.id}",
        name=f"season-{field.id}.png",
        png=png(season_drawing(field, outlook, visits, today, language, over=over)),
        alt=season_words(field, outlook, visits, today, language),
    )


def season_drawing(
    field: Field, outlook: Outlook, visits: Sequence[Visit], today: date, language: Language, *, over: bool = False
) -> Figure:
    """The season's figure before it becomes a PNG: three axes over one calendar (looks, expected mix, windows)."""
    speak = words(language)
    looks = dug(visits)
    windows = shown_windows(outlook.windows, today)
    rows = max(len(windows), 1)
    height = 2.72 + 0.19 * rows
    figure = Figure(figsize=(WIDTH, height), dpi=DOTS, facecolor=GROUND)
    top, middle, bottom = (0.62 / height, 1.44 / height, (0.08 + 0.19 * rows) / height)
    left, right = 0.035, 0.965
    base = 0.30 / height
    strip = figure.add_axes((left, base + bottom + middle + 0.02 / height, right - left, top))
    areas = figure.add_axes((left, base + bottom, right - left, middle), sharex=strip)
    brackets = figure.add_axes((left, base, right - left, bottom), sharex=strip)
    first, last = _season_range(outlook, looks, windows, today)
    for axes in (strip, areas, brackets):
        bare(axes)
        if not over:
            axes.axvline(place_of(today), color=INK, linewidth=1.1, linestyle=(0, (3, 2)), zorder=5)
    strip.set_xlim(place_of(first), place_of(last))
    _draw_dug(strip, speak, looks, (last - first).days)
    _draw_mix(areas, outlook)
    _draw_windows(brackets, speak, windows, today, first, last)
    _month_ticks(brackets, speak, first, last)
    figure.text(left, 1 - 0.05 / height, telling.cut(field.name, 34), fontsize=10, weight="bold", color=INK, va="top")
    figure.text(left, 1 - 0.24 / height, speak("picture.dug"), fontsize=8, color=SOFT, va="top", bbox=CLEAR)
    areas.text(
        0.0,
        0.985,
        speak(_when_here(outlook, "picture.expected")),
        transform=areas.transAxes,
        fontsize=8,
        color=SOFT,
        va="top",
        zorder=6,
        bbox=CLEAR,
    )
    _legend(areas, speak)
    if not over:
        _today_word(strip, speak, today, first, last, looks)
    return figure


def season_words(field: Field, outlook: Outlook, visits: Sequence[Visit], today: date, language: Language) -> str:
    """The same facts as the season's figure, in words."""
    speak = words(language)
    told = [speak("picture.season", field=field.name, day=today)]
    told.append(looks_in_words(speak, visits))
    if outlook.mix:
        peaks = [
            speak("picture.season_peak", colour=speak.name("colour", colour), day=_most(outlook, colour))
            for colour in COLOURS
        ]
        told.append(speak(_when_here(outlook, "picture.season_mix"), parts="; ".join(peaks)))
    windows = shown_windows(outlook.windows, today)
    if windows:
        parts = [
            speak(
                "picture.season_window",
                event=telling.event(speak, window),
                span=speak.span(window.earliest, window.latest),
            )
            for window in windows
        ]
        told.append(speak("picture.season_windows", parts="; ".join(parts)))
    return " ".join(told)


def looks_in_words(speak: Words, visits: Sequence[Visit]) -> str:
    """What was dug, look by look."""
    looks = dug(visits)
    if not looks:
        return speak("picture.no_visits")
    return speak("picture.season_visits", parts="; ".join(_dug_words(speak, look) for look in looks))


def shown_windows(windows: Sequence[Window], today: date) -> list[Window]:
    """The windows worth drawing, in time order: of each event the next to come, then the latest past ones if there is
    room. A later peak of the same name would only confuse: from the third generation on they cannot be told apart.
    """
    soonest: dict[str, Window] = {}
    for window in sorted(windows, key=lambda window: window.likely):
        if window.latest >= today:
            soonest.setdefault(window.event, window)
    coming = list(soonest.values())
    past = [window for window in windows if window.latest < today]
    kept = coming[:WINDOW_ROWS]
    room = WINDOW_ROWS - len(kept)
    kept += sorted(past, key=lambda window: window.likely)[-room:] if room else []
    return sorted(kept, key=lambda window: (window.likely, window.event))


def _when_here(outlook: Outlook, key: str) -> str:
    """The wording with an "if" as long as the field may be free of SCN."""
    return key if outlook.infested_probability >= telling.LIKELY_HERE else f"{key}_if"


def _most(outlook: Outlook, colour: Colour) -> date:
    return max(outlook.mix, key=lambda day: float(getattr(day, colour))).date


def _dug_words(speak: Words, look: Dug) -> str:
    """A look as its column shows it: how many a plant, and of which colours."""
    if look.none_seen:
        return speak("picture.season_visit_none", day=look.on)
    by_colour = [
        f"{count} {speak.name('colour', colour)}"
        for colour, count in zip(COLOURS, look.counts, strict=False) if count
    ]  # fmt: skip
    colours = f" ({', '.join(by_colour)})" if by_colour else ""
    if each := _each(speak, look):
        return speak("picture.season_visit", day=look.on, count=each) + colours
    if look.total is not None:
        return speak("picture.season_visit_total", day=look.on, count=look.total) + colours
    return speak("picture.season_visit_seen", day=look.on) + colours


def _season_range(outlook: Outlook, looks: Sequence[Dug], windows: Sequence[Window], today: date) -> tuple[date, date]:
    """The days worth showing: from a little before the first females to the end of the roots."""
    shown = [day.date for day in outlook.mix if day.white + day.yellow + day.tan + day.brown > 0.01]
    days = [*shown, *(look.on for look in looks), *(w.earliest for w in windows), *(w.latest for w in windows), today]
    first, last = min(days), max(days)
    return first - timedelta(days=6), max(last, first + timedelta(days=40)) + timedelta(days=4)


def _draw_dug(axes: Axes, speak: Words, looks: Sequence[Dug], days: int) -> None:
    """A small column per look, split by colour, with the number a plant above it; none seen is an empty ring."""
    axes.set_ylim(0, 1)
    width = max(days / 34, 1.2)
    before: float | None = None
    high = False
    for look in looks:
        x = place_of(look.on)
        high = before is not None and x - before < days / 9 and not high
        before = x
        if look.none_seen:
            axes.plot([x], [0.17], marker="o", markersize=6, markerfacecolor=GROUND, markeredgecolor=INK, zorder=6)
            label = "0"
        else:
            floor = 0.02
            for colour, share in zip(COLOURS, look.shares or (), strict=False):
                axes.bar(
                    x, share * 0.32, width, bottom=floor, facecolor=FILL[colour], edgecolor=HATCH_INK[colour],
                    hatch=HATCH[colour], linewidth=0.4, zorder=6,
                )  # fmt: skip
                floor += share * 0.32
            axes.bar(
                x, 0.32, width, bottom=0.02, facecolor="none" if look.shares else GROUND, edgecolor=INK,
                linewidth=0.8, zorder=7,
            )  # fmt: skip
            label = _each(speak, look) or ("" if look.total is None else f"({look.total})")
        axes.text(
            x, 0.58 if high else 0.39, label, ha="center", va="bottom", fontsize=8.5, weight="bold", color=INK,
            zorder=8, bbox={"facecolor": GROUND, "edgecolor": "none", "pad": 0.6},
        )  # fmt: skip


def _draw_mix(axes: Axes, outlook: Outlook) -> None:
    axes.set_ylim(0, 1.36)
    axes.axhline(0, color=INK, linewidth=0.8, zorder=4)
    if not outlook.mix:
        return
    days = [place_of(day.date) for day in outlook.mix]
    floor = [0.0] * len(days)
    for colour in reversed(COLOURS):  # brown lies at the bottom: the oldest
        height = [float(getattr(day, colour)) for day in outlook.mix]
        roof = [low + more for low, more in zip(floor, height, strict=True)]
        axes.fill_between(
            days, floor, roof, facecolor=FILL[colour], edgecolor=HATCH_INK[colour], hatch=HATCH[colour],
            linewidth=0.3, zorder=2,
        )  # fmt: skip
        axes.plot(days, roof, color=INK, linewidth=0.5, zorder=3)
        floor = roof


def _draw_windows(axes: Axes, speak: Words, windows: Sequence[Window], today: date, first: date, last: date) -> None:
    """One row a window: a bracket from earliest to latest, a notch on the likeliest day, its name beside it."""
    rows = max(len(windows), 1)
    axes.set_ylim(-rows + 0.35, 0.75)
    for row, window in enumerate(windows):
        low, mid, high = (place_of(day) for day in (window.earliest, window.likely, window.latest))
        ink = SOFT if window.latest < today else INK
        axes.plot([low, high], [-row, -row], color=ink, linewidth=1.4, solid_capstyle="butt", zorder=6)
        for end in (low, high):
            axes.plot([end, end], [-row - 0.26, -row + 0.26], color=ink, linewidth=1.4, zorder=6)
        axes.plot([mid], [-row], marker="D", markersize=3.6, color=ink, zorder=7)
        name = telling.event(speak, window)
        # The bracket's roomier side; a name too long for it goes without its generation, which the words beside tell.
        points = AXIS_POINTS / (place_of(last) - place_of(first))
        right, left = (place_of(last) - high) * points - NAME_GAP, (low - place_of(first)) * points - NAME_GAP
        on_the_left = left > right
        if len(name) * LETTER_POINTS > max(left, right) + EDGE_POINTS:
            name = telling.event(speak, replace(window, generation=None))
        axes.annotate(
            name,
            (low if on_the_left else high, -row),
            xytext=(-NAME_GAP if on_the_left else NAME_GAP, 0),
            textcoords="offset points",
            ha="right" if on_the_left else "left",
            va="center",
            fontsize=8,
            color=ink,
            zorder=8,
            bbox={"facecolor": GROUND, "edgecolor": "none", "pad": 0.8},
        )


def _month_ticks(axes: Axes, speak: Words, first: date, last: date) -> None:
    """A tick where a month begins, the month's name in its middle."""
    axes.spines["bottom"].set_visible(True)
    axes.spines["bottom"].set_color(FAINT)
    start = date(first.year, first.month, 1)
    while start <= last:
        following = date(start.year + start.month // 12, start.month % 12 + 1, 1)
        if start > first:
            axes.axvline(place_of(start), color=FAINT, linewidth=0.7, zorder=1)
            for other in axes.figure.axes:
                other.axvline(place_of(start), color=FAINT, linewidth=0.7, zorder=0)
        low, high = max(start, first), min(following, last)
        if (high - low).days >= 8:
            middle = place_of(low) + (high - low).days / 2
            name = str(speak.manner["months"][start.month - 1])
            axes.annotate(
                name, (middle, 0), xycoords=("data", "axes fraction"), xytext=(0, -4), textcoords="offset points",
                ha="center", va="top", fontsize=8.5, color=INK, annotation_clip=False,
            )  # fmt: skip
        start = following


def _legend(axes: Axes, speak: Words) -> None:
    patches = [
        Patch(
            facecolor=FILL[colour],
            edgecolor=HATCH_INK[colour],
            hatch=HATCH[colour],
            linewidth=0.6,
            label=speak.name("colour", colour),
        )
        for colour in COLOURS
    ]
    legend = axes.legend(
        handles=patches, loc="upper right", bbox_to_anchor=(1.0, 0.985), ncols=2, fontsize=8, frameon=True,
        handlelength=1.3, handleheight=0.9, columnspacing=0.9, handletextpad=0.4, borderpad=0.15, labelspacing=0.25,
        labelcolor=INK, facecolor=GROUND, edgecolor="none", framealpha=1.0, fancybox=False, borderaxespad=0,
    )  # fmt: skip
    legend.set_zorder(9)  # late in the season today's line would run through the words


def _today_word(axes: Axes, speak: Words, today: date, first: date, last: date, looks: Sequence[Dug]) -> None:
    """The word beside the line: right of it, where no look can be yet, or above and left late in the season."""
    late = (today - first) > (last - first) * 0.72
    beside = any(abs((look.on - today).days) <= (last - first).days / 34 for look in looks)  # clear of that column
    gap = 10 if beside and not late else 4
    axes.annotate(
        f"{speak('picture.today')} {speak.day(today)}", (place_of(today), 0.98 if late else 0.3),
        xytext=(-4 if late else gap, 0), textcoords="offset points", ha="right" if late else "left",
        va="top" if late else "center", fontsize=8, color=INK, zorder=8,
        bbox={"facecolor": GROUND, "edgecolor": "none", "pad": 0.6},
    )  # fmt: skip
