"""Pictures for a phone: numbers in, PNG and the words that say the same out. Figures draw, they do not decide.

Every figure is 360 logical pixels wide at twice the density, on a light ground of its own so that it reads
the same in a dark mail program. Colour never speaks alone: female colours also differ in hatching and in
lightness (white to brown is light to dark), findings in the form of their mark and in words.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from io import BytesIO

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Patch
from PIL import Image

from notes_bot.model import (
    COLOURS,
    Colour,
    Field,
    FieldToday,
    Language,
    Note,
    Outlook,
    Picture,
    Recheck,
    Spot,
    Visit,
    Window,
)
from notes_bot.reply import telling
from notes_bot.reply.words import Words, words

DOTS = 200
"""Dots per inch: 3.6 inches wide is 720 pixels, 360 logical ones at twice the density."""
WIDTH = 3.6
GROUND = "#f3f3ef"
INK = "#1c1e1d"
SOFT = "#5c605d"
FAINT = "#b9bdb9"

FILL: dict[Colour, str] = {"white": "#ffffff", "yellow": "#f2c72c", "tan": "#c08a4e", "brown": "#643a1c"}
"""Near the colours of the females themselves, each at least 1.4 times as light as the next."""
HATCH: dict[Colour, str] = {"white": "", "yellow": "....", "tan": "////", "brown": "xxxx"}
HATCH_INK: dict[Colour, str] = {"white": SOFT, "yellow": "#8a6a00", "tan": "#7a4d1c", "brown": "#c9a487"}

STATUS_INK = {"infested": "#a83a00", "doubtful": "#8a6500", "not_found": "#0a5c9c", "unseen": "#5c605d"}
WINDOW_ROWS = 5
VISITS_SHOWN = 8
STRIP_ROWS = 8
PEOPLE_ROWS = 10
MAP_LABELS = 14
STATUS_ORDER = ("infested", "doubtful", "not_found", "unseen")
DAYS = 7
SATURDAY = 5
KM_A_DEGREE = 111.2
"""Of latitude, near enough for a picture."""
KM_A_MILE = 1.609344
LETTER_POINTS = 4.6
"""Width of an average letter at 8 points."""
ROUND_LENGTHS = (0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500)
"""Lengths of the scale bar."""


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
    return Dug(on, per_plant, total, shares, none_seen=False, places=apart)


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


def season_figure(field: Field, outlook: Outlook, visits: Sequence[Visit], today: date, language: Language) -> Picture:
    """The season of one field: what was dug, the colours expected on the roots, the windows, today.

    Needs ``outlook.mix``; without it only looks and windows are drawn.
    """
    return Picture(
        content_id=f"season-{field.id}",
        name=f"season-{field.id}.png",
        png=_png(season_drawing(field, outlook, visits, today, language)),
        alt=season_words(field, outlook, visits, today, language),
    )


def season_drawing(field: Field, outlook: Outlook, visits: Sequence[Visit], today: date, language: Language) -> Figure:
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
        _bare(axes)
        axes.axvline(_x(today), color=INK, linewidth=1.1, linestyle=(0, (3, 2)), zorder=5)
    strip.set_xlim(_x(first), _x(last))
    _draw_dug(strip, speak, looks, (last - first).days)
    _draw_mix(areas, outlook)
    _draw_windows(brackets, speak, windows, today, first, last)
    _month_ticks(brackets, speak, first, last)
    figure.text(left, 1 - 0.05 / height, telling.cut(field.name, 34), fontsize=10, weight="bold", color=INK, va="top")
    figure.text(left, 1 - 0.24 / height, speak("picture.dug"), fontsize=8, color=SOFT, va="top")
    areas.text(
        0.0,
        0.985,
        speak(_when_here(outlook, "picture.expected")),
        transform=areas.transAxes,
        fontsize=8,
        color=SOFT,
        va="top",
        zorder=6,
    )
    _legend(areas, speak)
    _today_word(strip, speak, today, first, last)
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
    if look.none_seen:
        return speak("picture.season_visit_none", day=look.on)
    if each := _each(speak, look):
        return speak("picture.season_visit", day=look.on, count=each)
    if look.total is not None:
        return speak("picture.season_visit_total", day=look.on, count=look.total)
    return speak("picture.season_visit_seen", day=look.on)


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
        x = _x(look.on)
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
    days = [_x(day.date) for day in outlook.mix]
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
    middle = _x(first) + (_x(last) - _x(first)) / 2
    for row, window in enumerate(windows):
        low, mid, high = (_x(day) for day in (window.earliest, window.likely, window.latest))
        ink = SOFT if window.latest < today else INK
        axes.plot([low, high], [-row, -row], color=ink, linewidth=1.4, solid_capstyle="butt", zorder=6)
        for end in (low, high):
            axes.plot([end, end], [-row - 0.26, -row + 0.26], color=ink, linewidth=1.4, zorder=6)
        axes.plot([mid], [-row], marker="D", markersize=3.6, color=ink, zorder=7)
        name = telling.event(speak, window)
        on_the_left = (low + high) / 2 > middle
        axes.annotate(
            name,
            (low if on_the_left else high, -row),
            xytext=(-7 if on_the_left else 7, 0),
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
            axes.axvline(_x(start), color=FAINT, linewidth=0.7, zorder=1)
            for other in axes.figure.axes:
                other.axvline(_x(start), color=FAINT, linewidth=0.7, zorder=0)
        low, high = max(start, first), min(following, last)
        if (high - low).days >= 8:
            middle = _x(low) + (high - low).days / 2
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
    axes.legend(
        handles=patches, loc="upper right", bbox_to_anchor=(1.0, 1.02), ncols=2, fontsize=8, frameon=False,
        handlelength=1.3, handleheight=0.9, columnspacing=0.9, handletextpad=0.4, borderpad=0, labelspacing=0.25,
        labelcolor=INK,
    )  # fmt: skip


def _today_word(axes: Axes, speak: Words, today: date, first: date, last: date) -> None:
    """The word beside the line: right of it, where no look can be yet, or above and left late in the season."""
    late = (today - first) > (last - first) * 0.72
    axes.annotate(
        f"{speak('picture.today')} {speak.day(today)}", (_x(today), 0.98 if late else 0.3),
        xytext=(-4 if late else 4, 0), textcoords="offset points", ha="right" if late else "left",
        va="top" if late else "center", fontsize=8, color=INK, zorder=8,
        bbox={"facecolor": GROUND, "edgecolor": "none", "pad": 0.6},
    )  # fmt: skip


# --- the map ----------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Spotted:
    """A field as the map shows it: kilometres east and north of the middle, and what to say of it."""

    name: str
    status: str
    east_km: float
    north_km: float
    size: float
    """Diameter of the mark in points."""
    weight: float
    """Who gets a label first."""


def crew_map(fields: Sequence[FieldToday], language: Language, *, miles: bool = False) -> Picture:
    """Where the fields lie and what was found: a filled mark for SCN found (larger for more), half filled for not
    settled, a ring for not found, a dot for not looked yet. Names stand where there is room, weightiest first."""
    drawing = map_drawing(fields, language, miles=miles)
    return Picture("crew-map", "crew-map.png", _png(drawing), map_words(fields, language))


def map_drawing(fields: Sequence[FieldToday], language: Language, *, miles: bool = False) -> Figure:
    """The map before it becomes a PNG: axes in kilometres from the middle of the crew's country."""
    speak = words(language)
    spots = _spotted(fields)
    tall = _map_height(spots)
    foot = 0.62
    height = tall + foot
    figure = Figure(figsize=(WIDTH, height), dpi=DOTS, facecolor=GROUND)
    axes = figure.add_axes((0.0, foot / height, 1.0, tall / height))
    _bare(axes)
    axes.set_facecolor("#fafaf7")
    scale = _map_frame(axes, spots, WIDTH, tall)
    for status in reversed(STATUS_ORDER):  # found ones last, on top
        for size in sorted({spot.size for spot in spots if spot.status == status}):
            alike = [spot for spot in spots if spot.status == status and spot.size == size]
            _draw_marks(axes, [spot.east_km for spot in alike], [spot.north_km for spot in alike], status, size)
    _draw_labels(axes, spots, scale)
    _scale_bar(figure, speak, scale, height, miles=miles)
    _map_legend(figure, speak, fields, height)
    return figure


def map_words(fields: Sequence[FieldToday], language: Language) -> str:
    """The same facts as the map, in words: which fields are where in the finding."""
    speak = words(language)
    placed = [known for known in fields if _has_place(known.field)]
    parts = []
    for status in STATUS_ORDER:
        names = [known.field.name for known in placed if known.status == status]
        if not names:
            continue
        shown = names[:12]
        if len(names) > len(shown):
            shown.append(speak("picture.map_more", count=len(names) - len(shown)))
        parts.append(speak("picture.map_part", status=speak.name("status", status), names=", ".join(shown)))
    told = [speak("picture.map", count=len(placed), parts="; ".join(parts))]
    if len(placed) < len(fields):
        told.append(speak("picture.map_missing", count=len(fields) - len(placed)))
    return " ".join(told)


def _has_place(field: Field) -> bool:
    return field.latitude is not None and field.longitude is not None


def _spotted(fields: Sequence[FieldToday]) -> list[Spotted]:
    placed = [known for known in fields if _has_place(known.field)]
    if not placed:
        return []
    latitudes = [known.field.latitude or 0.0 for known in placed]
    longitudes = [known.field.longitude or 0.0 for known in placed]
    middle = (min(latitudes) + max(latitudes)) / 2
    centre = (min(longitudes) + max(longitudes)) / 2
    shrink = math.cos(math.radians(middle))
    crowd = min(1.0, max(0.3, math.sqrt(40 / len(placed))))
    return [
        Spotted(
            name=known.field.name,
            status=known.status,
            east_km=((known.field.longitude or 0.0) - centre) * KM_A_DEGREE * shrink,
            north_km=((known.field.latitude or 0.0) - middle) * KM_A_DEGREE,
            size=_mark_size(known) * crowd,
            weight=_label_weight(known),
        )
        for known in placed
    ]


def _density(known: FieldToday) -> float:
    found = known.outlook.finding
    return found.females_per_plant.likely if found and found.females_per_plant else 0.0


def _mark_size(known: FieldToday) -> float:
    """Found: three sizes, up to 5, up to 20 and more females a plant; the others one size each."""
    if known.status == "infested":
        return 9.0 if _density(known) <= 5 else 12.0 if _density(known) <= 20 else 15.0
    return {"doubtful": 9.0, "not_found": 8.5, "unseen": 4.0}[known.status]


def _label_weight(known: FieldToday) -> float:
    urgent = 1000.0 * known.changed + 500.0 * known.overdue
    finding = {"infested": 100.0, "doubtful": 50.0, "not_found": 10.0, "unseen": 0.0}[known.status]
    return urgent + finding + _density(known)


def _map_height(spots: Sequence[Spotted]) -> float:
    """Inches: as tall as the crew's country is, within a phone's screen."""
    if len(spots) < 2:
        return 1.8
    east = max(spot.east_km for spot in spots) - min(spot.east_km for spot in spots)
    north = max(spot.north_km for spot in spots) - min(spot.north_km for spot in spots)
    return min(max(WIDTH * north / max(east, 1e-6), 1.8), 3.6)


def _map_frame(axes: Axes, spots: Sequence[Spotted], wide: float, tall: float) -> float:
    """Set the limits so that a kilometre is as long in both directions; gives points a kilometre."""
    east = [spot.east_km for spot in spots] or [0.0]
    north = [spot.north_km for spot in spots] or [0.0]
    margin_points = 24.0
    room_x, room_y = wide * 72 - 2 * margin_points, tall * 72 - 2 * margin_points
    scale = min(room_x / max(max(east) - min(east), 0.5), room_y / max(max(north) - min(north), 0.5))
    middle_x, middle_y = (max(east) + min(east)) / 2, (max(north) + min(north)) / 2
    axes.set_xlim(middle_x - wide * 36 / scale, middle_x + wide * 36 / scale)
    axes.set_ylim(middle_y - tall * 36 / scale, middle_y + tall * 36 / scale)
    return scale


def _draw_marks(axes: Axes, x: Sequence[float], y: Sequence[float], status: str, size: float) -> None:
    ink = STATUS_INK[status]
    (mark,) = axes.plot(x, y, marker="o", markersize=size, markeredgecolor=ink, linestyle="none", zorder=4)
    mark.set_markerfacecolor("#ffffff" if status == "not_found" else ink)
    mark.set_markeredgewidth((1.6 if status == "not_found" else 0.8) * min(size / 8.5, 1.0))
    if status == "infested":
        mark.set_markeredgecolor("#ffffff")  # so that marks lying over each other stay apart
        mark.set_markeredgewidth(0.4)
    if status == "doubtful":
        mark.set_fillstyle("left")
        mark.set_markerfacecoloralt("#ffffff")


def _draw_labels(axes: Axes, spots: Sequence[Spotted], scale: float) -> None:
    """Names beside their marks, weightiest first, each where it covers neither a mark nor another name."""
    low_x, high_x = (limit * scale for limit in axes.get_xlim())
    low_y, high_y = (limit * scale for limit in axes.get_ylim())
    taken = [
        (spot.east_km * scale - spot.size / 2, spot.north_km * scale - spot.size / 2,
         spot.east_km * scale + spot.size / 2, spot.north_km * scale + spot.size / 2)
        for spot in spots
    ]  # fmt: skip
    labelled = 0
    for spot in sorted(spots, key=lambda spot: (-spot.weight, spot.name))[: 10 * MAP_LABELS]:
        if labelled == MAP_LABELS:
            break
        name = telling.cut(spot.name, 26)
        wide, tall = len(name) * LETTER_POINTS, 9.0
        x, y, gap = spot.east_km * scale, spot.north_km * scale, spot.size / 2 + 2
        for align, left, bottom in (
            ("left", x + gap, y - tall / 2), ("right", x - gap - wide, y - tall / 2),
            ("center", x - wide / 2, y + gap), ("center", x - wide / 2, y - gap - tall),
            ("left", x + gap, y + gap / 2), ("left", x + gap, y - gap / 2 - tall),
            ("right", x - gap - wide, y + gap / 2), ("right", x - gap - wide, y - gap / 2 - tall),
        ):  # fmt: skip
            box = (left, bottom, left + wide, bottom + tall)
            inside = low_x + 2 < box[0] and box[2] < high_x - 2 and low_y + 2 < box[1] and box[3] < high_y - 2
            if inside and not any(_overlap(box, other) for other in taken):
                anchor = {"left": left, "right": left + wide, "center": left + wide / 2}[align]
                axes.text(
                    anchor / scale, (bottom + tall / 2) / scale, name, fontsize=8, va="center", ha=align, color=INK,
                    zorder=6,
                )  # fmt: skip
                taken.append(box)
                labelled += 1
                break


Box = tuple[float, float, float, float]


def _overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _scale_bar(figure: Figure, speak: Words, scale: float, height: float, *, miles: bool) -> None:
    """A bar of a round length, and what the size of a mark says."""
    a_unit = scale * (KM_A_MILE if miles else 1.0)
    length = max((step for step in ROUND_LENGTHS if step * a_unit <= 72), default=ROUND_LENGTHS[0])
    wide = length * a_unit / (WIDTH * 72)
    y = 0.50 / height
    figure.add_artist(Line2D([0.035, 0.035 + wide], [y, y], color=INK, linewidth=1.6, solid_capstyle="butt"))
    unit = speak("picture.miles" if miles else "picture.km")
    figure.text(0.035 + wide + 0.02, y, f"{speak.number(length)} {unit}", fontsize=8, color=INK, va="center")
    figure.text(0.965, y, speak("picture.map_larger"), fontsize=8, color=INK, va="center", ha="right")


def _map_legend(figure: Figure, speak: Words, fields: Sequence[FieldToday], height: float) -> None:
    """What the marks mean, with how many of each, in two rows of two."""
    axes = figure.add_axes((0.0, 0.0, 1.0, 0.42 / height))
    _bare(axes)
    axes.set_xlim(0, 1)
    axes.set_ylim(0, 2)
    for place, status in enumerate(STATUS_ORDER):
        x, y = 0.06 + 0.48 * (place % 2), 1.45 - (place // 2) * 0.95
        _draw_marks(axes, [x], [y], status, 4.0 if status == "unseen" else 8.5)
        count = sum(known.status == status for known in fields if _has_place(known.field))
        axes.text(
            x + 0.04, y, f"{speak.name('status', status)}: {speak.number(count)}", fontsize=8, va="center", color=INK
        )


# --- the coming week --------------------------------------------------------------------------------


def coming_looks(fields: Sequence[FieldToday], today: date) -> list[tuple[FieldToday, Recheck]]:
    """The looks whose likeliest day falls into the seven days from today, or whose window is open; soonest first."""
    looks = [
        (known, again)
        for known in fields
        if (again := known.outlook.recheck) is not None
        and not known.field.muted
        and again.latest >= today
        and again.likely < today + timedelta(days=DAYS)
    ]
    return sorted(looks, key=lambda look: (max(look[1].likely, today), look[0].field.name))


def week_strip(fields: Sequence[FieldToday], today: date, language: Language) -> Picture:
    """Who looks where in the next seven days.

    A few looks get a row each: the window as a bar, the likeliest day as a diamond. Many are counted instead: a row
    a person, the number of looks under each day.
    """
    drawing = strip_drawing(fields, today, language)
    return Picture("week-strip", "week-strip.png", _png(drawing), strip_words(fields, today, language))


def strip_drawing(fields: Sequence[FieldToday], today: date, language: Language) -> Figure:
    """The strip before it becomes a PNG: one axis in days from today, a row a look or a row a person."""
    speak = words(language)
    looks = coming_looks(fields, today)
    counted = counted_looks(looks, today) if len(looks) > STRIP_ROWS else []
    rows = max(len(counted) or len(looks), 1)
    head, row, foot = 0.36, 0.36, 0.06
    height = head + row * rows + foot
    figure = Figure(figsize=(WIDTH, height), dpi=DOTS, facecolor=GROUND)
    axes = figure.add_axes((0.035, foot / height, 0.93, row * rows / height))
    _bare(axes)
    axes.set_xlim(0, DAYS)
    axes.set_ylim(rows, 0)
    for day in range(DAYS):
        on = today + timedelta(days=day)
        if on.weekday() >= SATURDAY:
            axes.axvspan(day, day + 1, facecolor="#e6e7e1", zorder=0)
        axes.axvline(day, color=FAINT, linewidth=0.7, zorder=1)
        axes.annotate(
            _day_head(speak, today, day), (day + 0.5, 0), xytext=(0, 5), textcoords="offset points", ha="center",
            va="bottom", fontsize=8.5, color=INK, weight="bold" if day == 0 else "normal", annotation_clip=False,
        )  # fmt: skip
    for place, (who, counts) in enumerate(counted):
        _draw_counts(axes, who or speak("picture.nobody"), counts, place)
    for place, (known, again) in enumerate(looks if not counted else ()):
        _draw_look(axes, known, again, today, place)
    return figure


def counted_looks(looks: Sequence[tuple[FieldToday, Recheck]], today: date) -> list[tuple[str, list[int]]]:
    """Looks a day for each person, the busiest first; those beyond the rows are joined under an ellipsis."""
    counts: dict[str, list[int]] = {}
    for known, again in looks:
        day = (max(again.likely, today) - today).days
        counts.setdefault(known.next_by, [0] * DAYS)[day] += 1
    busiest = sorted(counts.items(), key=lambda row: (-sum(row[1]), row[0]))
    kept, rest = busiest[:PEOPLE_ROWS], busiest[PEOPLE_ROWS:]
    if rest:
        kept.append(("…", [sum(row[1][day] for row in rest) for day in range(DAYS)]))
    return kept


def _day_head(speak: Words, today: date, day: int) -> str:
    on = today + timedelta(days=day)
    return speak("picture.today") if day == 0 else f"{speak.manner['weekdays'][on.weekday()]} {on.day}"


def _draw_counts(axes: Axes, who: str, counts: Sequence[int], place: int) -> None:
    axes.axhline(place, color=FAINT, linewidth=0.7, zorder=1)
    axes.text(
        0.06, place + 0.28, telling.cut(who, 40), fontsize=8, color=SOFT, va="center", zorder=6,
        bbox={"facecolor": GROUND, "edgecolor": "none", "pad": 0.4},
    )  # fmt: skip
    for day, count in enumerate(counts):
        if count:
            axes.text(
                day + 0.5, place + 0.7, str(count), fontsize=9.5, weight="bold", color=INK, ha="center", va="center"
            )


def _draw_look(axes: Axes, known: FieldToday, again: Recheck, today: date, place: int) -> None:
    start, end = (again.earliest - today).days, (again.latest - today).days + 1
    notch = min(max((again.likely - today).days, 0), DAYS - 1) + 0.5
    y = place + 0.74
    ink = STATUS_INK[known.status]
    low, high = max(start, 0), min(end, DAYS)
    axes.plot([low, high], [y, y], color=ink, linewidth=3.2, solid_capstyle="butt", zorder=3)
    for x, open_ended in ((low, start < 0), (high, end > DAYS)):
        if open_ended:  # the window reaches beyond the week
            axes.plot([x], [y], marker="<" if x == low else ">", markersize=5, color=ink, zorder=4, clip_on=False)
    axes.plot(
        [notch], [y], marker="D", markersize=6.5, markerfacecolor="#ffffff", markeredgecolor=ink, markeredgewidth=1.4,
        zorder=5,
    )  # fmt: skip
    label = telling.cut(known.field.name, 30 if known.next_by else 42)
    if known.next_by:
        label += f" ({telling.cut(known.next_by, 14)})"
    to_the_right = low > DAYS * 0.6
    axes.text(
        DAYS - 0.06 if to_the_right else low + 0.06, place + 0.34, label, fontsize=8, color=INK, va="center",
        ha="right" if to_the_right else "left", zorder=6, bbox={"facecolor": GROUND, "edgecolor": "none", "pad": 0.4},
    )  # fmt: skip


def strip_words(fields: Sequence[FieldToday], today: date, language: Language) -> str:
    """The same facts as the strip, in words."""
    speak = words(language)
    looks = coming_looks(fields, today)
    last = today + timedelta(days=DAYS - 1)
    if not looks:
        return speak("picture.strip_none", first=today, last=last)
    if len(looks) > STRIP_ROWS:
        parts = []
        for who, counts in counted_looks(looks, today):
            days = [f"{_day_head(speak, today, day)} {count}" for day, count in enumerate(counts) if count]
            parts.append(f"{who or speak('picture.nobody')}: {', '.join(days)}")
    else:
        parts = [
            speak(
                "picture.strip_item_by" if known.next_by else "picture.strip_item",
                field=known.field.name,
                span=speak.span(again.earliest, again.latest),
                likely=again.likely,
                who=known.next_by,
            )
            for known, again in looks
        ]
    return speak("picture.strip", first=today, last=last, parts="; ".join(parts))


# --- shared -----------------------------------------------------------------------------------------


def _x(day: date) -> float:
    """A day as a place on the axis."""
    return float(day.toordinal())


def _bare(axes: Axes) -> None:
    axes.set_facecolor("none")
    axes.set_xticks([])
    axes.set_yticks([])
    for spine in axes.spines.values():
        spine.set_visible(False)


def _png(figure: Figure) -> bytes:
    """The figure in a palette of 64 colours: a third of the size, and no eye can tell."""
    drawn, out = BytesIO(), BytesIO()
    figure.savefig(drawn, format="png", dpi=DOTS, facecolor=GROUND)
    with Image.open(drawn) as image:
        image.convert("RGB").quantize(64, dither=Image.Dither.NONE).save(out, format="png", optimize=True)
    return out.getvalue()
