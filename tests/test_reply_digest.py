"""Digests and reminders: each field once, one screen before the list, light, readable in every mail program."""

from __future__ import annotations

import re
import textwrap
import time
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from html.parser import HTMLParser

import html5lib
import pytest

from notes_bot.model import LANGUAGES, Day, Fact, FieldToday, Language, Person, Promise, Reply, Waiting
from notes_bot.reply import compose_digest, compose_reminder, compose_state
from notes_bot.reply.segments import SINGLE, septets
from notes_bot.reply.telling import HEADLINE
from notes_bot.reply.words import words
from tests import reply_cases as cases
from tests.contrast import contrast

SCREEN = 40
"""Lines before the list: one screen of a mail program on a desk, two thumbs of scrolling on a phone."""
every_language = pytest.mark.parametrize("language", LANGUAGES)


def day(*fields: FieldToday, **changes: object) -> Day:
    whole = Day(
        on=cases.DAY,
        crew="north crew",
        fields=fields or cases.crew(14),
        held=(Waiting(12, "+15555550142", "unproved", "Old Mill E 6/24 dug 6 12w", datetime(2026, 6, 25, tzinfo=UTC)),),
        unreachable=("third scout",),
        notices=(Fact("stuck_messages", {"count": 2}),),
    )
    return replace(whole, **changes)  # type: ignore[arg-type]


def reader(language: Language = "en", **changes: object) -> Person:
    return replace(cases.SUPERVISOR, language=language, **changes)  # type: ignore[arg-type]


def quiet_fields() -> tuple[FieldToday, ...]:
    return tuple(replace(known, changed=False, overdue=False, first_find=False) for known in cases.crew(14))


# --- what is said ---


@every_language
@pytest.mark.parametrize("count", [3, 14, 60])
def test_every_field_is_said_once(count: int, language: Language):
    """Nothing twice: a field stands in the first section that fits and nowhere else."""
    fields = cases.crew(count)
    text = compose_digest(day(*fields), reader(language), pictures=False).text
    body = text.rpartition("\n\n")[0]  # the last paragraph shows how to act on a field
    for known in fields:
        assert len(re.findall(rf"(?<!\w){re.escape(known.field.name)}(?!\w)", body)) == 1, known.field.name


@every_language
def test_sections_come_by_urgency(language: Language):
    """Decide, overdue, new, coming, service, then the others."""
    speak = words(language)
    text = compose_digest(day(), reader(language), pictures=False).text
    heads = [speak(f"digest.{key}") for key in ("overdue", "changed", "week", "notes", "rest")]

    assert [text.index(f"\n{head}\n") for head in heads] == sorted(text.index(f"\n{head}\n") for head in heads)
    assert text.index(speak("digest.decide")) < text.index(f"\n{heads[0]}\n")


@every_language
def test_the_headline_is_the_summary(language: Language):
    """Subject and first line are the same, and short."""
    reply = compose_digest(day(), reader(language), pictures=False)

    assert reply.subject == reply.text.splitlines()[0]
    assert len(reply.subject) <= HEADLINE
    assert septets(reply.short) <= SINGLE


@every_language
def test_a_quiet_day_is_one_line(language: Language):
    """Nothing to decide, nothing overdue, nothing new: one line, no pictures, no html."""
    reply = compose_digest(Day(cases.DAY, "north crew", quiet_fields()), reader(language))

    assert len(reply.text.splitlines()) == 1
    assert reply.html == ""
    assert reply.pictures == ()
    assert len(reply.subject) <= HEADLINE


@every_language
@pytest.mark.parametrize("count", [1, 3, 40])
def test_what_is_still_overdue_is_one_line_too(count: int, language: Language):
    """A window that closed yesterday is news; from the next day on a digest without other news only names the field."""
    known = quiet_fields()[0]
    late = [
        replace(known, field=cases.field(n, f"Section {n}"), overdue=True, window_closed=cases.DAY - timedelta(days=5))
        for n in range(1, count + 1)
    ]
    fresh = replace(late[0], window_closed=cases.DAY - timedelta(days=1))
    still = compose_digest(Day(cases.DAY, "north crew", tuple(late)), reader(language), pictures=False)
    new = compose_digest(Day(cases.DAY, "north crew", (fresh, *late[1:])), reader(language), pictures=False)

    assert len(still.text.splitlines()) == 1
    assert "Section 1" in still.text
    assert len(still.subject) <= HEADLINE
    assert words(language)("digest.overdue") in new.text


def test_a_week_and_a_season_are_never_one_line():
    """They are asked for to be read."""
    whole = Day(cases.DAY, "north crew", quiet_fields())
    for span in ("week", "season"):
        assert len(compose_digest(whole, reader(), pictures=False, span=span).text.splitlines()) > 10


def test_the_season_lists_every_field_by_finding():
    """In the season's digest nothing is new or overdue; fields stand under what was found."""
    fields = cases.crew(14)
    whole = day(*fields, held=(), unreachable=(), notices=())
    text = compose_digest(whole, reader(), pictures=False, span="season").text
    heads = [text.index(f"\n{head} (") for head in ("SCN found", "Not settled", "Not found", "Not looked yet")]

    assert heads == sorted(heads)
    assert "OVERDUE" not in text
    assert all(known.field.name in text for known in fields)


def test_slipping_resistance_that_is_new_needs_a_decision():
    """It is the first thing said; once told it moves to the list and stays visible there."""
    fresh = next(visit for name, visit, _ in cases.scenes() if name == "two places apart")
    outlook = next(outlook for name, _, outlook in cases.scenes() if name == "two places apart")
    base = next(known for known in cases.crew(14) if known.status == "infested")
    slipping = replace(base, field=fresh.field, outlook=outlook, changed=True, overdue=False)
    told = compose_digest(day(slipping, held=(), unreachable=(), notices=()), reader(), pictures=False).text
    later = compose_digest(
        day(replace(slipping, changed=False), held=(), unreachable=("x",), notices=()), reader(), pictures=False
    ).text

    assert "DECIDE\n- Old Mill East: " in told
    assert "resistance is slipping (86% sure); 57 females a plant (oval), 15 (good beans)" in told
    assert "resistance is slipping" in later
    assert "DECIDE\n- Old Mill East" not in later


def test_a_look_that_is_nobodys_says_so():
    """A field never looked at has a first look and no person: the supervisor must send somebody."""
    fields = tuple(replace(known, next_by="") for known in cases.crew(14))
    text = compose_digest(day(*fields), reader(), pictures=False).text

    assert re.search(r"\(settle none seen, nobody named\)", text)


def test_a_best_day_that_is_over_is_not_told():
    """The nudge comes after the likeliest day."""
    promise = due(1)[1]
    late = compose_reminder(cases.SCOUT, [due(1)], promise.likely + timedelta(days=2), nudge=True).text  # type: ignore[list-item]
    early = compose_reminder(cases.SCOUT, [due(1)], promise.earliest).text  # type: ignore[list-item]

    assert "best 4 Jul" in early
    assert "best 4 Jul" not in late


def test_a_first_find_says_so_and_comes_before_other_news():
    """A new find outranks a higher count in a field known to have it."""
    infested = [known for known in cases.crew(14) if known.status == "infested"][:2]
    old = replace(infested[0], changed=True, first_find=False, overdue=False)
    new = replace(infested[1], changed=True, first_find=True, overdue=False)
    text = compose_digest(day(old, new, held=(), unreachable=(), notices=()), reader(), pictures=False).text

    assert "first find" in text
    assert text.index(new.field.name) < text.index(old.field.name)


def test_a_held_message_shows_no_more_than_is_needed_and_how_to_answer():
    """Number, sender, reason, the first line cut short, and the two replies that settle it."""
    long_line = "x" * 500
    held = (Waiting(7, "someone@elsewhere.example", "stranger", long_line, cases.NOW),)
    text = compose_digest(day(held=held), reader(), pictures=False).text

    assert "Message 7 from someone@elsewhere.example waits (unknown sender)" in text
    assert "Have the person added to the crew, or reply: refuse 7" in text
    assert "x" * 61 not in text


def test_areas_are_told_in_the_readers_unit():
    """14 fields of 78 acres are 1,092 acres or 442 ha (1 acre = 0.40468564 ha)."""
    acres = compose_digest(day(), reader(), pictures=False).text
    hectares = compose_digest(day(), reader("pt", units="hectare"), pictures=False).text

    assert "14 fields, 1,092 acres:" in acres
    assert "14 talhões, 442 ha:" in hectares


def test_an_unknown_area_is_not_summed():
    """A sum that leaves fields out would be wrong in silence."""
    fields = list(cases.crew(14))
    fields[0] = replace(fields[0], field=replace(fields[0].field, acres=None))

    assert "acres" not in compose_digest(day(*fields), reader(), pictures=False).text.splitlines()[2]


@every_language
def test_the_text_wraps_on_a_narrow_screen(language: Language):
    """No column work in the text part."""
    for line in compose_digest(day(), reader(language), pictures=False).text.splitlines():
        assert "  " not in line
        assert all(len(row) <= 40 for row in textwrap.wrap(line, 40, break_long_words=False, break_on_hyphens=False))


# --- size, however large the crew ---


@pytest.mark.parametrize("count", [1, 14, 600, 10_000])
def test_what_comes_before_the_list_fits_one_screen(count: int):
    """Each section keeps its weightiest lines and says how many more there are."""
    fields = tuple(replace(known, changed=n % 2 == 0, overdue=n % 3 == 0) for n, known in enumerate(cases.crew(count)))
    held = tuple(Waiting(n, "x@y.example", "unproved", "note", cases.NOW) for n in range(20))
    text = compose_digest(day(*fields, held=held), reader(), pictures=False).text
    before = text.partition("\nOTHER FIELDS\n")[0]

    assert len([line for line in before.splitlines() if line]) <= SCREEN


def test_ten_thousand_fields_stay_light_and_quick():
    """Composed within 20 s (the bar) and in fact within 10; HTML under 100 kB, the whole mail under 300 kB."""
    fields = cases.crew(10_000, with_mix=3)
    start = time.perf_counter()
    reply = compose_digest(day(*fields), reader())
    spent = time.perf_counter() - start

    assert spent < 10
    assert len(reply.html.encode()) < 100_000
    assert whole_size(reply) < 300_000
    assert "not listed" in reply.text


def whole_size(reply: Reply) -> int:
    """Octets of the finished mail, near enough: base64 costs a third on pictures, quoted-printable less on text."""
    return int(
        len(reply.text.encode()) * 1.2
        + len(reply.html.encode()) * 1.3
        + sum(len(picture.png) * 1.37 + 600 for picture in reply.pictures)
    )


# --- html ---


@every_language
@pytest.mark.parametrize("span", ["day", "week", "season"])
def test_the_html_is_valid(language: Language, span: str):
    """html5lib in strict mode raises on any parse error."""
    reply = compose_digest(day(*cases.crew(14, with_mix=3)), reader(language), span=span)  # type: ignore[arg-type]

    html5lib.HTMLParser(strict=True).parse(reply.html)
    assert f'<html lang="{language}">' in reply.html


def test_a_field_name_cannot_become_markup():
    """Names are escaped."""
    fields = (replace(cases.crew(1)[0], field=cases.field(1, "<script>x</script> & <b>"), changed=True),)
    html = compose_digest(day(*fields), reader()).html

    assert "<script>" not in html
    assert "&lt;script&gt;" in html


class Seen(HTMLParser):
    """Words a reader sees, and what the page asks for from outside."""

    def __init__(self) -> None:
        super().__init__()
        self.words: list[str] = []
        self.asked: list[str] = []
        self.images: list[dict[str, str]] = []
        self._hidden = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self._hidden += tag in {"style", "title", "script"}
        self.asked += [given[name] for name in ("src", "href", "background", "action") if name in given]
        if tag == "img":
            self.images.append(given)

    def handle_endtag(self, tag: str) -> None:
        self._hidden -= tag in {"style", "title", "script"}

    def handle_data(self, data: str) -> None:
        if not self._hidden:
            self.words += data.split()


def seen(html: str) -> Seen:
    page = Seen()
    page.feed(html)
    return page


@every_language
def test_text_and_html_say_the_same(language: Language):
    """Neither part knows more: the same words in the same order, marks and list dashes aside."""
    reply = compose_digest(day(*cases.crew(14, with_mix=2)), reader(language))
    marks = {"●", "◐", "○", "·", "-", "–"}
    shown = " ".join(word for word in seen(reply.html).words if word not in marks)
    told = " ".join(word for word in reply.text.split() if word not in marks)

    assert shown.replace(" :", ":") == told


def test_the_mail_asks_for_nothing_from_outside():
    """Only pictures it carries itself, each with words for it, each with a width."""
    reply = compose_digest(day(*cases.crew(14, with_mix=3)), reader())
    page = seen(reply.html)

    assert page.asked == [f"cid:{picture.content_id}" for picture in reply.pictures]
    assert [image["alt"] for image in page.images] == [picture.alt for picture in reply.pictures]
    assert all(image["width"] == "360" and "max-width:360px" in image["style"] for image in page.images)
    assert all(len(picture.alt) > 40 for picture in reply.pictures)
    assert "url(" not in reply.html
    assert "@import" not in reply.html


def colours_of(html: str) -> tuple[set[str], dict[str, str]]:
    inline = set(re.findall(r"[\";]color:(#[0-9a-f]{6})", html))
    dark_rules = dict(
        re.findall(r"\.(\w+) \{ (?:background-color: #[0-9a-f]{6} !important; )?color: (#[0-9a-f]{6})", html)
    )
    return inline, dark_rules


def rgb(colour: str) -> tuple[float, float, float]:
    red, green, blue = (int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5))
    return red, green, blue


def test_every_colour_is_readable_on_light_and_on_dark():
    """WCAG AA, 4.5 to 1, for each colour of text on the light page and each dark one on the dark page."""
    html = compose_digest(day(), reader()).html
    light, dark = colours_of(html)
    ground = re.search(r"\.page \{ background-color: (#[0-9a-f]{6})", html)

    assert ground is not None
    assert len(light) >= 4
    assert {"page", "quiet", "infested", "doubtful", "not_found", "unseen"} <= set(dark)
    assert min(contrast(rgb(colour), rgb("#ffffff")) for colour in light) >= 4.5
    assert min(contrast(rgb(colour), rgb(ground.group(1))) for colour in dark.values()) >= 4.5


def test_everything_coloured_by_hand_has_a_dark_counterpart():
    """An element with a colour of its own carries a class the dark rules know."""
    html = compose_digest(day(*cases.crew(14, with_mix=2)), reader()).html
    _, dark = colours_of(html)
    for tag in re.findall(r"<[a-z0-9]+ [^>]*(?<!-)color:#[^>]*>", html):
        classes = re.search(r'class="([\w ]+)"', tag)

        assert classes is not None, tag
        assert set(classes.group(1).split()) & set(dark), tag


def test_no_width_is_wider_than_a_small_phone():
    """Nothing has a fixed width over 320 pixels: pictures shrink, text wraps, long words break."""
    html = compose_digest(day(*cases.crew(14, with_mix=2)), reader()).html

    assert re.findall(r"(?<!max-)width:(\d+)px", html) == []
    assert "overflow-wrap:anywhere" in html
    assert 'content="width=device-width, initial-scale=1"' in html


@every_language
def test_a_state_with_its_picture_is_valid_html_too(language: Language):
    """The one answer that has an HTML part."""
    reply = compose_state(
        cases.field(), cases.outlook(with_mix=True), cases.season(), cases.SCOUT, today=cases.DAY, language=language
    )

    html5lib.HTMLParser(strict=True).parse(reply.html)
    assert whole_size(reply) < 100_000


# --- reminders ---


def due(number: int, purpose: str = "catch_peak") -> tuple[object, Promise, object]:
    again = cases.recheck()
    promise = Promise(number, 1, again.earliest, again.likely, again.latest, purpose, f"look-{number}@x.example", 0)  # type: ignore[arg-type]
    return cases.field(number, f"Section {number}"), promise, cases.outlook()


@every_language
@pytest.mark.parametrize("purpose", list(words("en").tables["purpose"]))
def test_one_look_due_says_what_to_dig_and_what_it_decides(purpose: str, language: Language):
    """Field, until when, what for, how, what the look will decide, how to move it."""
    speak = words(language)
    person = replace(cases.SCOUT, language=language)
    reply = compose_reminder(person, [due(3, purpose)], cases.DAY)  # type: ignore[list-item]

    assert reply.text.splitlines()[0].startswith("Section 3: ")
    assert speak.day(cases.recheck().latest) in reply.text.splitlines()[0]
    assert speak.name("do", purpose) in reply.text
    assert purpose == "asked" or speak.name("decides", purpose) in reply.text
    assert speak("reminder.skip") in reply.text
    assert len(reply.text.splitlines()[0]) <= HEADLINE
    assert septets(reply.short) <= SINGLE


@every_language
@pytest.mark.parametrize("count", [2, 7, 40])
def test_many_looks_due_are_one_mail_in_driving_order(count: int, language: Language):
    """Numbered in the order given; what to dig is said once per purpose; the order says why."""
    speak = words(language)
    person = replace(cases.SCOUT, language=language)
    purposes = ("catch_peak", "settle_none")
    items = [due(n, purposes[n % 2]) for n in range(1, count + 1)]
    reply = compose_reminder(person, items, cases.DAY, ordered=True, infested={count})  # type: ignore[arg-type]
    lines = reply.text.splitlines()

    assert lines[2].startswith("1. Section 1: ")
    assert speak("reminder.order") in reply.text
    assert all(reply.text.count(speak.name("do", purpose)) == 1 for purpose in purposes)
    assert len(lines) <= count + 14
    assert septets(reply.short) <= SINGLE
    for line in lines:
        assert all(len(row) <= 40 for row in textwrap.wrap(line, 40, break_long_words=False, break_on_hyphens=False))


def morning(count: int, language: Language = "en", **changes: object) -> Reply:
    """A reminder of several looks, the last one in a field with SCN."""
    items = [due(n) for n in range(1, count + 1)]
    person = replace(cases.SCOUT, language=language, **changes)  # type: ignore[arg-type]
    opened = cases.DAY + timedelta(days=5)
    return compose_reminder(person, items, opened, ordered=True, infested={count}, way_km=42.0)  # type: ignore[arg-type]


@every_language
@pytest.mark.parametrize("count", [2, 6, 40])
def test_a_reminder_of_several_looks_shows_what_its_text_says(count: int, language: Language):
    """Valid HTML, the same words in the same order, light enough for a phone in a field."""
    reply = morning(count, language)
    page = seen(reply.html) if reply.html else None
    if page is not None:
        html5lib.HTMLParser(strict=True).parse(reply.html)
        assert " ".join(page.words).replace(" :", ":") == " ".join(reply.text.split())
        assert page.asked == [f"cid:{picture.content_id}" for picture in reply.pictures]
        assert [image["alt"] for image in page.images] == [picture.alt for picture in reply.pictures]

    assert len(reply.pictures) == {2: 2, 6: 2, 40: 0}[count]
    assert whole_size(reply) < 100_000


def test_the_length_of_the_way_is_told_in_the_readers_unit():
    """42 km are 26 miles; in straight lines, since no roads are known."""
    assert "About 26 mi in straight lines." in morning(3).text
    assert "About 42 km in straight lines." in morning(3, units="hectare").text


def test_one_look_alone_is_told_in_words():
    """No way to show, no week to compare: text only."""
    assert compose_reminder(cases.SCOUT, [due(1)], cases.DAY, ordered=False).html == ""  # type: ignore[list-item]


def test_an_order_that_means_nothing_is_not_explained():
    """Only a mail in driving order speaks of it."""
    text = compose_reminder(cases.SCOUT, [due(1), due(2)], cases.DAY).text  # type: ignore[list-item]

    assert "driving" not in text


@every_language
def test_a_nudge_says_it_is_one(language: Language):
    """Half of the window is gone; the first line says so."""
    person = replace(cases.SCOUT, language=language)
    first = compose_reminder(person, [due(1)], cases.DAY).text.splitlines()[0]  # type: ignore[list-item]
    nudge = compose_reminder(person, [due(1)], cases.DAY, nudge=True).text.splitlines()[0]  # type: ignore[list-item]

    assert first != nudge


def test_a_long_name_still_leaves_room_for_the_day():
    """The name is cut, the last day of the window is not."""
    field, promise, outlook = due(1)
    long = replace(field, name=cases.NAMES[3])  # type: ignore[type-var]
    line = compose_reminder(cases.SCOUT, [(long, promise, outlook)], cases.DAY).text.splitlines()[0]  # type: ignore[list-item]

    assert len(line) <= HEADLINE
    assert words("en").day(promise.latest) in line


def test_days_in_another_year_are_still_told_by_day_and_month():
    """A southern season runs over New Year."""
    again = cases.recheck()
    shift = date(2026, 12, 29) - again.earliest
    promise = Promise(
        1, 1, again.earliest + shift, again.likely + shift, again.latest + shift, "catch_peak", "look-1@x.example", 0
    )
    text = compose_reminder(cases.SCOUT, [(cases.field(), promise, None)], promise.earliest).text

    assert "29 Dec-7 Jan, best 2 Jan" in text


def test_looks_far_ahead_do_not_count_as_coming():
    """The week is seven days from today; a window that closed does not come either."""
    base = quiet_fields()[0]
    far = replace(base, outlook=replace(base.outlook, recheck=cases.recheck(first=10, likely=12, last=20)))
    gone = replace(base, outlook=replace(base.outlook, recheck=cases.recheck(first=-9, likely=-6, last=-1)))
    near = replace(base, outlook=replace(base.outlook, recheck=cases.recheck(first=-2, likely=-1, last=3)))
    for known, coming in ((far, False), (gone, False), (near, True)):
        text = compose_digest(day(known, held=()), reader(), pictures=False).text
        assert ("COMING" in text) is coming
    assert timedelta(days=7) == timedelta(weeks=1)
