"""The coming week for a phone: who looks where, or, for many looks, how many a person and day."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from notes_bot.model import FieldToday, Language, Picture, Recheck
from notes_bot.reply import telling
from notes_bot.reply.drawing import DOTS, FAINT, GROUND, INK, STATUS_INK, WIDTH, bare, png
from notes_bot.reply.words import Words, words

STRIP_ROWS = 8
PEOPLE_ROWS = 10
DAYS = 7
SATURDAY = 5


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
    return Picture("week-strip", "week-strip.png", png(drawing), strip_words(fields, today, language))


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
    bare(axes)
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
        0.06, place + 0.28, telling.cut(who, 40), fontsize=8.5, color=INK, va="center", zorder=6,
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
