"""Placing notes: the right field or a question, never the wrong field."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest

from notes_bot.model import Field, Note, Person, Reading, Spray, Where
from notes_bot.resolve import COMPLAINTS, find_field, nearest_names, resolve, sent_on

NAMES = (
    "Kestrel Bottom forty",
    "Old Mill East",
    "Cedar Slough quarter",
    "Harrow Ridge 2",
    "Harrow Ridge 3",
    "Larkspur South eighty",
    "Tinker's Field",
    "Sycamore Lane",
)
FIELDS = tuple(Field(number, name, "crew", planted=date(2026, 5, 10)) for number, name in enumerate(NAMES, start=1))
SCOUT = Person(1, "first scout", "scout", "crew", ("scout1@crew.example",))
SENT = date(2026, 7, 8)


def place(*notes: Note, **more):
    return resolve(Reading("en", notes), writer=SCOUT, fields=FIELDS, sent_day=SENT, **more)


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("kestrel btm 40", "Kestrel Bottom forty"),
        ("kestrel", "Kestrel Bottom forty"),
        ("old mill e", "Old Mill East"),
        ("old mill este", "Old Mill East"),
        ("cedar slough qtr", "Cedar Slough quarter"),
        ("harrow rdg 3", "Harrow Ridge 3"),
        ("larkspur s80", "Larkspur South eighty"),
        ("larkspur sul", "Larkspur South eighty"),
        ("tinkers", "Tinker's Field"),
        ("sycamore ln", "Sycamore Lane"),
    ],
)
def test_a_short_form_finds_its_field(written, name):
    """Common short forms, directions in three languages and missing words all find the one field they fit."""
    field, several, slip = find_field(written, FIELDS)

    assert (field and field.name, several, slip) == (name, (), False)


def test_a_slip_of_the_thumb_is_forgiven_and_said():
    """One wrong letter finds the field, and the answer will say how it was read."""
    resolved = place(Note(field="kestral", where=Where(1, 1, "kestral 6 pl none")))

    assert resolved.visits[0].field.name == "Kestrel Bottom forty"
    assert resolved.remarks[0].wrong == 'read "kestral" as Kestrel Bottom forty'


@pytest.mark.parametrize("written", ["harrow ridge 4", "kestrel btm 50", "harrow ridge 33"])
def test_a_digit_never_stands_for_another(written):
    """A number that fits no field is asked about, however near it looks."""
    assert find_field(written, FIELDS)[0] is None


def test_a_name_that_fits_two_fields_is_held_with_both():
    """An ambiguous name keeps the note and offers the fields it fits."""
    resolved = place(Note(field="harrow ridge"))

    assert resolved.visits == ()
    assert set(resolved.held[0].nearest) == {"Harrow Ridge 2", "Harrow Ridge 3"}
    assert resolved.problems[0].kind == "two_fields"
    assert resolved.problems[0].holds


def test_an_unknown_name_is_held_and_the_nearest_offered():
    """The note is not lost and the likeliest names come first."""
    resolved = place(Note(field="mulberry lane"))

    assert "Sycamore Lane" in resolved.held[0].nearest


def test_a_note_without_a_field_takes_the_conversation_it_answers():
    """A reply in a field's conversation needs no name; without a conversation it is asked about."""
    assert place(Note(plants=5), thread_field=2).visits[0].field.name == "Old Mill East"
    assert place(Note(plants=5)).problems[0].kind == "no_field"


def test_two_unnamed_notes_are_never_put_in_one_field():
    """Two notes in one reply cannot both be the conversation's field."""
    assert len(place(Note(plants=5), Note(plants=6), thread_field=2).held) == 2


def test_a_day_that_has_not_come_is_not_believed():
    """A future date is replaced by the day of sending, and said."""
    resolved = place(Note(field="kestrel", date=date(2026, 9, 1)))

    assert resolved.visits[0].on == SENT
    assert resolved.problems[0].kind == "future_day"


def test_a_visit_before_planting_is_stored_and_questioned():
    """The note stands; the answer asks about the planting date."""
    resolved = place(Note(field="kestrel", date=date(2026, 5, 1)))

    assert resolved.visits[0].on == date(2026, 5, 1)
    assert resolved.problems[0].wrong == "the visit (1 May) is before the planting date we have (10 May)."


def test_an_entry_interval_counts_from_the_end_of_the_day_of_spraying():
    """Sprayed two days ago with 48 h stated: closed until 48 h after that day's local midnight."""
    resolved = place(Note(field="kestrel", spray=Spray(days_ago=2, entry_hours=48)))

    assert resolved.visits[0].entry_closed_until.astimezone(UTC) == datetime(2026, 7, 9, 5, 0, tzinfo=UTC)


def test_the_day_of_sending_is_the_writers_own_and_only_believed_when_near():
    """Late evening in Chicago is still the same day there; a Date a week off is not believed."""
    arrived = datetime(2026, 7, 9, 3, 30, tzinfo=UTC)

    assert sent_on(None, arrived, "America/Chicago") == date(2026, 7, 8)
    assert sent_on(arrived - timedelta(hours=30), arrived, "America/Chicago") == date(2026, 7, 7)
    assert sent_on(arrived - timedelta(days=7), arrived, "America/Chicago") == date(2026, 7, 8)


def test_every_complaint_has_words_in_three_languages():
    """No language falls back to another's words."""
    assert all(set(words) == {"en", "es", "pt"} for words in COMPLAINTS.values())


def test_nearest_names_never_run_dry():
    """Even a name like nothing we know gets something to choose from."""
    assert nearest_names("zzz", FIELDS)
    assert nearest_names("", FIELDS)
