"""The way of a day's looks for a phone: numbered stops in driving order, from coordinates alone."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from itertools import pairwise

from matplotlib.figure import Figure

from notes_bot.model import Field, Language, Picture
from notes_bot.reply.crew_map import (
    KM_A_MILE,
    Spotted,
    draw_labels,
    has_place,
    kilometres,
    map_frame,
    map_height,
    scale_bar,
)
from notes_bot.reply.drawing import DOTS, GROUND, INK, SOFT, STATUS_INK, WIDTH, bare, png
from notes_bot.reply.words import Words, words

MOST_STOPS = 25
"""More numbers than this lie over each other."""
STOP_SIZE = 14.0
"""Diameter of a stop in points."""
APART = STOP_SIZE + 1.0
STEPS = 60
Place = tuple[float, float]


def route_map(
    stops: Sequence[Field], infested: Collection[int], way_km: float, language: Language, *, miles: bool = False
) -> Picture:
    """The stops in their order: a ring with its number, filled where SCN was found; lines are straight, not roads."""
    drawing = route_drawing(stops, infested, way_km, language, miles=miles)
    return Picture(
        "route-map", "route-map.png", png(drawing), route_words(stops, infested, way_km, language, miles=miles)
    )


def route_drawing(
    stops: Sequence[Field], infested: Collection[int], way_km: float, language: Language, *, miles: bool = False
) -> Figure:
    """The map before it becomes a PNG: axes in kilometres; a stop's number is its number in the mail's list."""
    speak = words(language)
    placed = [(number, known) for number, known in enumerate(stops, start=1) if has_place(known)]
    places = kilometres([known for _, known in placed])
    spots = [
        Spotted(known.name, "infested" if known.id in infested else "clean", east, north, STOP_SIZE, -float(number))
        for (number, known), (east, north) in zip(placed, places, strict=True)
    ]
    tall, foot = map_height(spots), 0.56
    height = tall + foot
    figure = Figure(figsize=(WIDTH, height), dpi=DOTS, facecolor=GROUND)
    axes = figure.add_axes((0.0, foot / height, 1.0, tall / height))
    bare(axes)
    axes.set_facecolor("#fafaf7")
    scale = map_frame(axes, spots, WIDTH, tall)
    moved = [(x / scale, y / scale) for x, y in spread([(s.east_km * scale, s.north_km * scale) for s in spots])]
    spots = [Spotted(s.name, s.status, x, y, s.size, s.weight) for s, (x, y) in zip(spots, moved, strict=True)]
    axes.plot([x for x, _ in moved], [y for _, y in moved], color=SOFT, linewidth=1.0, zorder=3)
    for (number, _), spot in zip(placed, spots, strict=True):
        found = spot.status == "infested"
        axes.plot(
            [spot.east_km], [spot.north_km], marker="o", markersize=STOP_SIZE, zorder=4,
            markerfacecolor=STATUS_INK["infested"] if found else "#ffffff",
            markeredgecolor=STATUS_INK["infested"] if found else INK, markeredgewidth=1.1,
        )  # fmt: skip
        axes.text(
            spot.east_km, spot.north_km, str(number), fontsize=8, weight="bold", ha="center", va="center_baseline",
            color="#ffffff" if found else INK, zorder=5,
        )  # fmt: skip
    draw_labels(axes, spots, scale, list(pairwise(moved)))
    said = speak("picture.route_way", way=way(speak, way_km, miles=miles)) if way_km else ""
    scale_bar(figure, speak, scale, height, said, miles=miles)
    _legend(figure, speak, {spot.status for spot in spots}, height)
    return figure


def route_words(
    stops: Sequence[Field], infested: Collection[int], way_km: float, language: Language, *, miles: bool = False
) -> str:
    """The same facts as the map, in words."""
    speak = words(language)
    parts = [
        speak(
            "picture.route_stop_infested" if known.id in infested else "picture.route_stop", number=n, field=known.name
        )
        for n, known in enumerate(stops, start=1)
    ]
    missing = sum(not has_place(known) for known in stops)
    told = [speak("picture.route", parts="; ".join(parts))]
    if way_km:
        told.append(speak("reminder.way", way=way(speak, way_km, miles=miles)))
    if missing:
        told.append(speak("picture.map_missing", count=missing))
    return " ".join(told)


def way(speak: Words, km: float, *, miles: bool) -> str:
    """A distance in the reader's unit, whole from ten on."""
    length = km / KM_A_MILE if miles else km
    unit = speak("picture.miles" if miles else "picture.km")
    return f"{speak.number(round(length, 1) if length < 10 else round(length))} {unit}"


def spread(points: Sequence[Place]) -> list[Place]:
    """Places (in points of the picture) moved apart until no mark covers another."""
    found = list(points)
    for _ in range(STEPS):
        calm = True
        for i in range(len(found)):
            for j in range(i):
                (x1, y1), (x2, y2) = found[i], found[j]
                dx, dy = x1 - x2, y1 - y2
                far = (dx * dx + dy * dy) ** 0.5
                if far >= APART - 0.01:
                    continue
                calm = False
                ux, uy = (dx / far, dy / far) if far > 1e-6 else (1.0, 0.0)
                push = (APART - far) / 2
                found[i], found[j] = (x1 + ux * push, y1 + uy * push), (x2 - ux * push, y2 - uy * push)
        if calm:
            break
    return found


def _legend(figure: Figure, speak: Words, shown: Collection[str], height: float) -> None:
    axes = figure.add_axes((0.0, 0.0, 1.0, 0.34 / height))
    bare(axes)
    axes.set_xlim(0, 1)
    axes.set_ylim(0, 1)
    marks = [("clean", "picture.route_clean"), ("infested", "picture.route_infested")]
    for place, (status, key) in enumerate((status, key) for status, key in marks if status in shown):
        x, found = 0.06 + 0.48 * place, status == "infested"
        alone = speak.name("status", "infested") if found else speak(key)  # last only where others come first
        axes.plot(
            [x], [0.55], marker="o", markersize=9, markerfacecolor=STATUS_INK["infested"] if found else "#ffffff",
            markeredgecolor=STATUS_INK["infested"] if found else INK,
        )  # fmt: skip
        axes.text(x + 0.04, 0.55, speak(key) if len(shown) > 1 else alone, fontsize=8, va="center", color=INK)
