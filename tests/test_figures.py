"""Pictures, tested by the numbers drawn and the words beside them; no pixel is compared."""

from __future__ import annotations

import itertools
import re
from dataclasses import replace
from datetime import date, timedelta
from importlib import resources
from io import BytesIO

import numpy as np
import pytest
from matplotlib.axes import Axes
from matplotlib.colors import to_rgb
from PIL import Image

from notes_bot.model import COLOURS, LANGUAGES, Females, FieldToday, Language, Note, Spot, Visit, Window
from notes_bot.reply.crew_map import _mark_size, crew_map, map_drawing
from notes_bot.reply.drawing import GROUND, INK, SOFT, STATUS_INK
from notes_bot.reply.figures import FILL, HATCH, season_drawing, season_figure, shown_windows
from notes_bot.reply.route_map import route_drawing, route_words
from notes_bot.reply.week_strip import STRIP_ROWS, coming_looks, counted_looks, strip_drawing, week_strip
from notes_bot.reply.words import words
from tests import reply_cases as cases
from tests.contrast import contrast

OUTLOOK = cases.outlook(with_mix=True)
every_language = pytest.mark.parametrize("language", LANGUAGES)


def season_axes(**changes: object) -> tuple[Axes, Axes, Axes]:
    drawing = season_drawing(cases.field(), replace(OUTLOOK, **changes), cases.season(), cases.DAY, "en")  # type: ignore[arg-type]
    strip, areas, brackets = drawing.axes
    return strip, areas, brackets


def texts(axes: Axes) -> list[str]:
    return [text.get_text() for text in axes.texts]


# --- the season ---


def test_the_areas_are_the_expected_mix_stacked():
    """Brown lies at the bottom, white on top; the outline on every day is the sum of the shares."""
    _, areas, _ = season_axes()
    outlines = [np.asarray(line.get_ydata()) for line in areas.lines if len(line.get_xdata()) == len(OUTLOOK.mix)]
    shares = np.array([[getattr(day, colour) for colour in reversed(COLOURS)] for day in OUTLOOK.mix])

    np.testing.assert_allclose(outlines, np.cumsum(shares, axis=1).T)
    assert outlines[-1].max() == pytest.approx(1.0)


def test_the_areas_stand_on_their_days():
    """The calendar under the areas is the outlook's own."""
    _, areas, _ = season_axes()
    days = next(line.get_xdata() for line in areas.lines if len(line.get_xdata()) == len(OUTLOOK.mix))

    assert [date.fromordinal(int(day)) for day in days] == [day.date for day in OUTLOOK.mix]


def test_today_is_one_line_through_all_three_parts():
    """Looks, expectation and windows share one today."""
    for axes in season_axes():
        dashed = [line for line in axes.lines if line.get_linestyle() == "--"]

        assert [date.fromordinal(int(line.get_xdata()[0])) for line in dashed] == [cases.DAY]


def test_looks_stand_on_their_days_with_the_number_a_plant():
    """None seen is an empty ring with 0; a count is a column with females a plant."""
    strip, _, _ = season_axes()
    labels = {text.get_text(): date.fromordinal(int(text.get_position()[0])) for text in strip.texts[:3]}

    assert labels == {"0": date(2026, 6, 2), "2.8": date(2026, 6, 11), "19": date(2026, 6, 23)}
    rings = [line for line in strip.lines if line.get_marker() == "o"]
    assert [date.fromordinal(int(line.get_xdata()[0])) for line in rings] == [date(2026, 6, 2)]


def test_a_look_is_split_by_the_colours_counted():
    """The column of 23 June is 30 white, 80 yellow, 4 tan of 114."""
    strip, _, _ = season_axes()
    filled = [bar for bar in strip.patches if bar.get_hatch() is not None or bar.get_facecolor()[3] == 1]
    peak = [bar for bar in filled if abs(bar.get_x() + bar.get_width() / 2 - date(2026, 6, 23).toordinal()) < 0.01]
    heights = [bar.get_height() for bar in peak][:4]

    np.testing.assert_allclose(np.array(heights) / sum(heights), np.array([30, 80, 4, 0]) / 114)


def test_places_kept_apart_show_the_highest_and_the_lowest_never_the_mean():
    """56.6 and 14.6 are written side by side; 35.6 would be nobody's field."""
    note = Note(
        plants=10,
        females=Females(total=356),
        outcome="seen",
        spots=(
            Spot("oval", 5, Females(total=283), (57, 61, 43, 79, 43)),
            Spot("good beans", 5, Females(total=73), (17, 11, 22, 11, 12)),
            Spot("strip", 5, Females(total=272), check=True),
        ),
    )
    visits = (Visit(1, 1, cases.DAY, note, 1),)
    picture = season_figure(cases.field(), OUTLOOK, visits, cases.DAY, "en")
    drawing = season_drawing(cases.field(), OUTLOOK, visits, cases.DAY, "en")

    assert "25 Jun 57 / 15 a plant" in picture.alt
    assert texts(drawing.axes[0])[0] == "57 / 15"


def test_windows_are_brackets_from_earliest_to_latest_with_the_likely_day_marked():
    """One row each, in time order."""
    _, _, brackets = season_axes()
    rows = [line for line in brackets.lines if len(set(line.get_ydata())) == 1 and len(line.get_xdata()) == 2]
    marks = [line for line in brackets.lines if line.get_marker() == "D"]
    windows = shown_windows(OUTLOOK.windows, cases.DAY)

    assert [tuple(date.fromordinal(int(day)) for day in row.get_xdata()) for row in rows] == [
        (window.earliest, window.latest) for window in windows
    ]
    assert [date.fromordinal(int(mark.get_xdata()[0])) for mark in marks] == [window.likely for window in windows]
    assert sorted(row.get_ydata()[0] for row in rows)[::-1] == [row.get_ydata()[0] for row in rows]


def test_only_the_next_window_of_each_event_is_drawn():
    """Later peaks carry the same name and would confuse; what is left of the room shows what is just past."""
    later = replace(OUTLOOK.windows[1], generation=3, likely=cases.DAY + timedelta(days=50),
                    latest=cases.DAY + timedelta(days=60))  # fmt: skip
    older = replace(OUTLOOK.windows[0], likely=cases.DAY - timedelta(days=40), latest=cases.DAY - timedelta(days=36))
    kept = shown_windows([older, *OUTLOOK.windows, later], cases.DAY)

    assert kept == list(OUTLOOK.windows)


def test_a_field_that_may_be_free_has_its_expectation_told_with_an_if():
    """Before SCN is found the areas show what would be seen if it were there."""
    doubtful = replace(OUTLOOK, infested_probability=0.5)
    drawing = season_drawing(cases.field(), doubtful, (), cases.DAY, "en")

    assert "expected if SCN is here" in texts(drawing.axes[1])
    assert "if SCN is here: most white" in season_figure(cases.field(), doubtful, (), cases.DAY, "en").alt


def test_the_last_day_of_a_long_name_is_cut_not_overprinted():
    """A title never runs out of the picture."""
    drawing = season_drawing(cases.field(1, cases.NAMES[3]), OUTLOOK, (), cases.DAY, "en")

    assert len(drawing.texts[0].get_text()) <= 34


def test_a_season_without_a_mix_still_draws_looks_and_windows():
    """Right after planting, or where nothing can be foreseen."""
    picture = season_figure(cases.field(), replace(OUTLOOK, mix=()), cases.season(), cases.DAY, "en")

    assert "2.8 a plant" in picture.alt
    assert "Expected" not in picture.alt


@every_language
def test_the_words_beside_the_picture_hold_its_facts(language: Language):
    """Every look, every window, the day each colour is most, today and the field."""
    speak = words(language)
    picture = season_figure(cases.field(), OUTLOOK, cases.season(), cases.DAY, language)
    facts = [cases.field().name, speak.day(cases.DAY), speak.number(17 / 6), "19"]
    facts += [speak.day(visit.on) for visit in cases.season()]
    facts += [speak.span(window.earliest, window.latest) for window in OUTLOOK.windows]
    facts += [speak.day(max(OUTLOOK.mix, key=lambda day: getattr(day, colour)).date) for colour in COLOURS]

    assert [fact for fact in facts if fact not in picture.alt] == []


@every_language
def test_no_label_lies_outside_the_picture(language: Language):
    """Late in the season, with long words, everything stays inside 360 logical pixels."""
    for today in (date(2026, 6, 1), cases.DAY, date(2026, 8, 1), date(2026, 9, 12)):
        long = Window("next_white", 3, *(date(2026, 7, 10) + timedelta(days=n) for n in (0, 4, 9)))
        seen = replace(OUTLOOK, windows=(*OUTLOOK.windows[:2], long, OUTLOOK.windows[-1]))
        drawing = season_drawing(cases.field(), seen, cases.season(), today, language)
        drawing.draw_without_rendering()
        page = drawing.bbox
        for text in (*drawing.texts, *(text for axes in drawing.axes for text in axes.texts)):
            box = text.get_window_extent()
            assert page.x0 - 1 <= box.x0, text.get_text()
            assert box.x1 <= page.x1 + 1, text.get_text()
            assert page.y0 - 1 <= box.y0, text.get_text()
            assert box.y1 <= page.y1 + 1, text.get_text()


# --- colours ---


def luminance(colour: str) -> float:
    from tests.contrast import relative_luminance

    return relative_luminance(to_rgb(colour))


def test_the_four_colours_can_be_told_apart_without_colour():
    """Each is at least 1.4 times lighter than the next (WCAG contrast), and each has a hatching of its own."""
    for lighter, darker in itertools.pairwise(COLOURS):
        assert contrast(to_rgb(FILL[lighter]), to_rgb(FILL[darker])) >= 1.4
    assert len(set(HATCH.values())) == 4


@pytest.mark.parametrize("ink", [INK, SOFT, *STATUS_INK.values()])
def test_everything_written_or_marked_stands_out(ink: str):
    """WCAG AA for text: 4.5 to 1 on the ground of the figures."""
    assert contrast(to_rgb(ink), to_rgb(GROUND)) >= 4.5


@pytest.mark.parametrize("ink", [INK, SOFT, *STATUS_INK.values()])
def test_pictures_dimmed_for_dark_mode_stay_readable(ink: str):
    """The page dims pictures in the dark; 4.5 to 1 must be left of the contrast."""
    page = (resources.files("notes_bot.reply") / "templates/html/page.html").read_text("utf-8")
    dim = float(re.search(r"brightness\((\.\d+)\)", page)[1])  # type: ignore[index]
    dimmed = [tuple(channel * dim for channel in to_rgb(colour)) for colour in (ink, GROUND)]

    assert contrast(*dimmed) >= 4.5  # type: ignore[arg-type]


def test_numbers_of_stops_stand_out_on_their_marks():
    """White on the filled mark, ink on the hollow one."""
    assert contrast(to_rgb("#ffffff"), to_rgb(STATUS_INK["infested"])) >= 4.5
    assert contrast(to_rgb(INK), to_rgb("#ffffff")) >= 4.5


# --- the map ---


def test_the_map_keeps_distances_true():
    """A kilometre is as long eastward as northward, and every field with a place is a mark."""
    fields = cases.crew(14)
    drawing = map_drawing(fields, "en")
    axes = drawing.axes[0]
    wide, tall = drawing.get_size_inches() * [1, axes.get_position().height]
    east = np.diff(axes.get_xlim())[0] / wide
    north = np.diff(axes.get_ylim())[0] / tall
    marks = {(round(float(x), 6), round(float(y), 6)) for line in axes.lines for x, y in line.get_xydata()}

    assert east == pytest.approx(north)
    assert len(marks) == 14
    first, second = fields[0].field, fields[1].field
    north_km = 111.2 * ((second.latitude or 0) - (first.latitude or 0))
    assert any(abs(a[1] - b[1] - north_km) < 1e-6 for a in marks for b in marks)


def test_the_finding_is_shown_by_form_not_by_colour_alone():
    """Filled, half filled, ring, dot: four forms."""
    axes = map_drawing(cases.crew(14), "en").axes[0]
    forms = {
        (line.get_fillstyle(), to_rgb(line.get_markerfacecolor()) == (1.0, 1.0, 1.0), line.get_markersize() < 5)
        for line in axes.lines
    }

    assert len(forms) == 4


def test_more_females_make_a_larger_mark():
    """Up to 5, up to 20 and more a plant: three sizes."""

    def known(likely: float) -> FieldToday:
        base = cases.crew(1)[0]
        finding = replace(cases.finding("seen"), females_per_plant=cases.Interval(likely, likely, likely))
        return replace(base, status="infested", outlook=replace(base.outlook, finding=finding))

    assert _mark_size(known(2)) < _mark_size(known(12)) < _mark_size(known(57))


@pytest.mark.parametrize("count", [2, 14, 60, 600])
def test_names_on_the_map_never_cover_each_other(count: int):
    """Where there is no room a name is left out, however many fields there are."""
    drawing = map_drawing(cases.crew(count), "en")
    drawing.draw_without_rendering()
    boxes = [text.get_window_extent() for text in drawing.axes[0].texts]

    assert boxes
    assert not [1 for i, box in enumerate(boxes) for other in boxes[:i] if box.overlaps(other)]


@every_language
def test_the_words_beside_the_map_name_fields_by_finding(language: Language):
    """And say how many have no place on it."""
    fields = list(cases.crew(14))
    fields[3] = replace(fields[3], field=replace(fields[3].field, latitude=None))
    alt = crew_map(fields, language).alt

    assert words(language)("picture.map_missing", count=1) in alt
    assert fields[3].field.name not in alt
    assert all(known.field.name in alt for known in fields if known is not fields[3])


# --- the coming week ---


# --- the way ---


@pytest.mark.parametrize("count", [2, 6, 25])
def test_stops_are_numbered_and_lie_beside_each_other(count: int):
    """Numbers run as in the list; marks are moved apart so that every number can be read; names cover nothing."""
    stops = [replace(known.field, longitude=-93.5) for known in cases.crew(count)]
    drawing = route_drawing(stops, {count}, 10.0, "en")
    drawing.draw_without_rendering()
    numbers = [text for text in drawing.axes[0].texts if text.get_text().isdecimal()]
    names = [text.get_window_extent() for text in drawing.axes[0].texts if not text.get_text().isdecimal()]

    assert [text.get_text() for text in numbers] == [str(n) for n in range(1, count + 1)]
    boxes = [*(text.get_window_extent() for text in numbers), *names]
    assert not [1 for i, box in enumerate(boxes) for other in boxes[:i] if box.overlaps(other)]


def test_stops_with_scn_differ_in_form_and_legend():
    """Filled against hollow, so that no colour need be seen."""
    stops = [known.field for known in cases.crew(3)]
    drawing = route_drawing(stops, {3}, 10.0, "en")
    marks = [line for line in drawing.axes[0].lines if line.get_marker() == "o"]
    hollow = [to_rgb(line.get_markerfacecolor()) == (1.0, 1.0, 1.0) for line in marks]

    assert hollow == [True, True, False]
    assert [text.get_text() for text in drawing.axes[1].texts] == ["no SCN found", "SCN found, last"]


@every_language
def test_the_words_beside_the_way_name_every_stop(language: Language):
    """In order, those with SCN marked, the length in straight lines."""
    stops = [known.field for known in cases.crew(3)]
    alt = route_words(stops, {3}, 10.0, language)
    places = [alt.index(f"{n} {known.name}") for n, known in enumerate(stops, start=1)]

    assert places == sorted(places)
    assert words(language)("picture.route_stop_infested", number=3, field=stops[2].name) in alt
    assert "10 km" in alt


def test_the_strip_shows_each_coming_look_in_its_own_row():
    """The diamond stands on the likeliest day, today at the earliest."""
    fields = cases.crew(14)
    looks = coming_looks(fields, cases.DAY)[:STRIP_ROWS]
    axes = strip_drawing(fields, cases.DAY, "en").axes[0]
    diamonds = [line for line in axes.lines if line.get_marker() == "D"]

    assert [float(line.get_xdata()[0]) for line in diamonds] == [
        max((again.likely - cases.DAY).days, 0) + 0.5 for _, again in looks
    ]
    assert [text.get_text() for text in axes.texts if "(" in text.get_text()] == [
        f"{known.field.name} (second scout)" for known, _ in looks
    ]


def test_no_look_is_shown_twice_and_none_that_is_muted_or_over():
    """Muted fields and closed windows do not come."""
    fields = list(cases.crew(14))
    looks = coming_looks(fields, cases.DAY)
    muted = looks[0][0]
    fields = [replace(k, field=replace(k.field, muted=True)) if k is muted else k for k in fields]

    assert muted.field.name not in {known.field.name for known, _ in coming_looks(fields, cases.DAY)}
    assert all(again.latest >= cases.DAY and again.likely < cases.DAY + timedelta(days=7) for _, again in looks)


@every_language
def test_a_full_week_is_counted_by_person_and_day(language: Language):
    """More looks than rows: each person's number under each day, all of them, in the picture and in its words."""
    people = ("first scout", "second scout", "", *(f"scout {n}" for n in range(3, 16)))
    fields = [replace(known, next_by=people[n % len(people)]) for n, known in enumerate(cases.crew(200))]
    looks = coming_looks(fields, cases.DAY)
    counted = counted_looks(looks, cases.DAY)
    drawn = [text.get_text() for text in strip_drawing(fields, cases.DAY, language).axes[0].texts]
    alt = week_strip(fields, cases.DAY, language).alt

    assert len(looks) > STRIP_ROWS
    assert sum(int(text) for text in drawn if text.isdigit()) == len(looks)
    assert sum(sum(counts) for _, counts in counted) == len(looks)
    assert [who for who, _ in counted if who and who not in alt] == []
    assert words(language)("picture.nobody") in alt


# --- files ---


@pytest.mark.parametrize("count", [14, 600])
def test_pictures_are_as_wide_as_a_phone_and_light(count: int):
    """720 pixels wide (360 at twice the density) and under 60 kB each."""
    fields = cases.crew(count)
    for picture in (
        season_figure(cases.field(), OUTLOOK, cases.season(), cases.DAY, "en"),
        crew_map(fields, "en"),
        week_strip(fields, cases.DAY, "en"),
    ):
        with Image.open(BytesIO(picture.png)) as image:
            assert image.format == "PNG"
            assert image.width == 720
        assert len(picture.png) < 60_000


@every_language
def test_the_words_beside_the_season_name_the_colours_each_column_shows(language: Language):
    """Whoever hears the picture learns the colours dug, look by look, as whoever sees it does."""
    on = date(2026, 7, 1)
    look = Visit(1, 1, on, Note(plants=6, females=Females(12, 35, 0, 9, 56), outcome="seen"), 1)
    alt = season_figure(cases.field(), OUTLOOK, [look], cases.DAY, language).alt
    speak = words(language)

    assert (
        f"12 {speak.name('colour', 'white')}, 35 {speak.name('colour', 'yellow')}, 9 {speak.name('colour', 'brown')}"
        in alt
    )
    assert f"0 {speak.name('colour', 'tan')}" not in alt
