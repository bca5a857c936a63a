"""The crew's map for a phone, from coordinates alone: where the fields lie and what was found."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D

from notes_bot.model import Field, FieldToday, Language, Picture
from notes_bot.reply import telling
from notes_bot.reply.drawing import DOTS, GROUND, INK, STATUS_INK, STATUS_ORDER, WIDTH, bare, png
from notes_bot.reply.words import Words, words

MAP_LABELS = 14
KM_A_DEGREE = 111.2
"""Of latitude, near enough for a picture."""
KM_A_MILE = 1.609344
LETTER_POINTS = 4.6
"""Width of an average letter at 8 points."""
ROUND_LENGTHS = (0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500)
"""Lengths of the scale bar."""


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
    return Picture("crew-map", "crew-map.png", png(drawing), map_words(fields, language))


def map_drawing(fields: Sequence[FieldToday], language: Language, *, miles: bool = False) -> Figure:
    """The map before it becomes a PNG: axes in kilometres from the middle of the crew's country."""
    speak = words(language)
    spots = _spotted(fields)
    tall = map_height(spots)
    foot = 0.62
    height = tall + foot
    figure = Figure(figsize=(WIDTH, height), dpi=DOTS, facecolor=GROUND)
    axes = figure.add_axes((0.0, foot / height, 1.0, tall / height))
    bare(axes)
    axes.set_facecolor("#fafaf7")
    scale = map_frame(axes, spots, WIDTH, tall)
    for status in reversed(STATUS_ORDER):  # found ones last, on top
        for size in sorted({spot.size for spot in spots if spot.status == status}):
            alike = [spot for spot in spots if spot.status == status and spot.size == size]
            _draw_marks(axes, [spot.east_km for spot in alike], [spot.north_km for spot in alike], status, size)
    draw_labels(axes, spots, scale)
    scale_bar(figure, speak, scale, height, speak("picture.map_larger"), miles=miles)
    _map_legend(figure, speak, fields, height)
    return figure


def map_words(fields: Sequence[FieldToday], language: Language) -> str:
    """The same facts as the map, in words: which fields are where in the finding."""
    speak = words(language)
    placed = [known for known in fields if has_place(known.field)]
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


def has_place(field: Field) -> bool:
    return field.latitude is not None and field.longitude is not None


def _spotted(fields: Sequence[FieldToday]) -> list[Spotted]:
    placed = [known for known in fields if has_place(known.field)]
    crowd = min(1.0, max(0.3, math.sqrt(40 / max(len(placed), 1))))
    return [
        Spotted(
            name=known.field.name,
            status=known.status,
            east_km=east,
            north_km=north,
            size=_mark_size(known) * crowd,
            weight=_label_weight(known),
        )
        for known, (east, north) in zip(placed, kilometres([known.field for known in placed]), strict=True)
    ]


def kilometres(fields: Sequence[Field]) -> list[tuple[float, float]]:
    """Kilometres east and north of their middle, for fields with a place."""
    if not fields:
        return []
    latitudes, longitudes = [f.latitude or 0.0 for f in fields], [f.longitude or 0.0 for f in fields]
    middle, centre = (min(latitudes) + max(latitudes)) / 2, (min(longitudes) + max(longitudes)) / 2
    shrink = math.cos(math.radians(middle))
    return [
        ((east - centre) * KM_A_DEGREE * shrink, (north - middle) * KM_A_DEGREE)
        for north, east in zip(latitudes, longitudes, strict=True)
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


def map_height(spots: Sequence[Spotted]) -> float:
    """Inches: as tall as the crew's country is, within a phone's screen."""
    if len(spots) < 2:
        return 1.8
    east = max(spot.east_km for spot in spots) - min(spot.east_km for spot in spots)
    north = max(spot.north_km for spot in spots) - min(spot.north_km for spot in spots)
    return min(max(WIDTH * north / max(east, 1e-6), 1.8), 3.6)


def map_frame(axes: Axes, spots: Sequence[Spotted], wide: float, tall: float) -> float:
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


def draw_labels(axes: Axes, spots: Sequence[Spotted], scale: float, lines: Sequence[Line] = ()) -> None:
    """Names beside their marks, weightiest first, each where it covers neither a mark nor another name.

    ``lines`` of the drawing [km] are kept free of names where there is another place for them.
    """
    low_x, high_x = (limit * scale for limit in axes.get_xlim())
    low_y, high_y = (limit * scale for limit in axes.get_ylim())
    taken = [
        (spot.east_km * scale - spot.size / 2, spot.north_km * scale - spot.size / 2,
         spot.east_km * scale + spot.size / 2, spot.north_km * scale + spot.size / 2)
        for spot in spots
    ]  # fmt: skip
    scaled = [((x1 * scale, y1 * scale), (x2 * scale, y2 * scale)) for (x1, y1), (x2, y2) in lines]
    labelled = 0
    for spot in sorted(spots, key=lambda spot: (-spot.weight, spot.name))[: 10 * MAP_LABELS]:
        if labelled == MAP_LABELS:
            break
        name = telling.cut(spot.name, 26)
        free = [
            (align, box)
            for align, box in _label_places(spot.east_km * scale, spot.north_km * scale, spot.size, name)
            if low_x + 2 < box[0] and box[2] < high_x - 2 and low_y + 2 < box[1] and box[3] < high_y - 2
            and not any(_overlap(box, other) for other in taken)
        ]  # fmt: skip
        if not free:
            continue
        align, box = min(free, key=lambda place: any(_crosses(place[1], line) for line in scaled))
        anchor = {"left": box[0], "right": box[2], "center": (box[0] + box[2]) / 2}[align]
        axes.text(
            anchor / scale, (box[1] + box[3]) / 2 / scale, name, fontsize=8, va="center", ha=align, color=INK,
            zorder=6, bbox={"facecolor": "#fafaf7", "edgecolor": "none", "pad": 0.3} if lines else None,
        )  # fmt: skip
        taken.append(box)
        labelled += 1


def _label_places(x: float, y: float, size: float, name: str) -> list[tuple[str, Box]]:
    """Where a name may stand about its mark, best first: alignment and box in points."""
    wide, tall, gap = len(name) * LETTER_POINTS, 9.0, size / 2 + 2
    corners = (
        ("left", x + gap, y - tall / 2), ("right", x - gap - wide, y - tall / 2),
        ("center", x - wide / 2, y + gap), ("center", x - wide / 2, y - gap - tall),
        ("left", x + gap, y + gap / 2), ("left", x + gap, y - gap / 2 - tall),
        ("right", x - gap - wide, y + gap / 2), ("right", x - gap - wide, y - gap / 2 - tall),
        ("left", x - size / 2, y + gap), ("left", x - size / 2, y - gap - tall),
        ("right", x + size / 2 - wide, y + gap), ("right", x + size / 2 - wide, y - gap - tall),
    )  # fmt: skip
    return [(align, (left, bottom, left + wide, bottom + tall)) for align, left, bottom in corners]


Point = tuple[float, float]
Line = tuple[Point, Point]
Box = tuple[float, float, float, float]


def _overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _crosses(box: Box, line: Line) -> bool:
    """Does a straight line pass through a box? Tried at points a letter apart."""
    (x1, y1), (x2, y2) = line
    steps = max(int(math.hypot(x2 - x1, y2 - y1) / LETTER_POINTS), 1)
    places = ((x1 + (x2 - x1) * n / steps, y1 + (y2 - y1) * n / steps) for n in range(steps + 1))
    return any(box[0] - 1 < x < box[2] + 1 and box[1] - 1 < y < box[3] + 1 for x, y in places)


def scale_bar(figure: Figure, speak: Words, scale: float, height: float, said: str, *, miles: bool) -> None:
    """A bar of a round length; ``said`` stands at the other end of the line."""
    a_unit = scale * (KM_A_MILE if miles else 1.0)
    length = max((step for step in ROUND_LENGTHS if step * a_unit <= 72), default=ROUND_LENGTHS[0])
    wide = length * a_unit / (WIDTH * 72)
    y = 0.50 / height
    figure.add_artist(Line2D([0.035, 0.035 + wide], [y, y], color=INK, linewidth=1.6, solid_capstyle="butt"))
    unit = speak("picture.miles" if miles else "picture.km")
    figure.text(0.035 + wide + 0.02, y, f"{speak.number(length)} {unit}", fontsize=8, color=INK, va="center")
    figure.text(0.965, y, said, fontsize=8, color=INK, va="center", ha="right")


def _map_legend(figure: Figure, speak: Words, fields: Sequence[FieldToday], height: float) -> None:
    """What the marks on the map mean, with how many of each, two in a row."""
    axes = figure.add_axes((0.0, 0.0, 1.0, 0.42 / height))
    bare(axes)
    axes.set_xlim(0, 1)
    axes.set_ylim(0, 2)
    counts = Counter[str](known.status for known in fields if has_place(known.field))
    for place, status in enumerate(status for status in STATUS_ORDER if counts[status]):
        x, y = 0.06 + 0.48 * (place % 2), 1.45 - (place // 2) * 0.95
        _draw_marks(axes, [x], [y], status, 4.0 if status == "unseen" else 8.5)
        count = counts[status]
        axes.text(
            x + 0.04, y, f"{speak.name('status', status)}: {speak.number(count)}", fontsize=8, va="center", color=INK
        )
