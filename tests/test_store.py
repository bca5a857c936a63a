"""The records: one message's effects are all there or not at all."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from notes_bot.model import Females, Field, Filing, Held, NewVisit, Note, Outgoing, Person, Promise
from notes_bot.store.store import Store, instant_from, instant_text

AT = datetime(2026, 6, 11, 17, 0, tzinfo=UTC)
SCOUT = Person(1, "first scout", "scout", "crew", ("scout1@crew.example",))
FIELD = Field(1, "Kestrel Bottom", "crew", ("kestrel",), 42.0, -93.6, date(2026, 5, 6))
NOTE = Note(field="kestrel", date=date(2026, 6, 11), plants=6, females=Females(17, 0, 0, 0, 17), outcome="seen")


@pytest.fixture
def store(tmp_path):
    store = Store(tmp_path / "notes.db")
    store.adopt([SCOUT], [FIELD])
    yield store
    store.close()


def arrive(store: Store) -> int:
    return (
        store._db.table("inbox")
        .insert({"arrived_at": instant_text(AT), "door": "smtp", "raw": b"x", "state": "waiting"})
        .last_pk
    )


def answer(message_id: str) -> Outgoing:
    return Outgoing("answer", "mail", "scout1@crew.example", "b@crew.example", message_id, b"raw", "body", AT, AT, 1, 1)


def test_an_instant_comes_back_as_it_was_and_sorts_as_text():
    """UTC text keeps microseconds and its order is time order."""
    later = AT.replace(microsecond=5)
    assert instant_from(instant_text(later)) == later
    assert instant_text(AT) < instant_text(later)
    with pytest.raises(ValueError, match="aware"):
        instant_text(datetime(2026, 6, 11))  # noqa: DTZ001 - the naive instant is the point


def test_a_visit_and_its_answer_are_written_together(store):
    """A filing leaves a standing visit, an outgoing answer and a finished message."""
    inbox_id = arrive(store)
    store.keep(
        Filing(
            inbox_id,
            "done",
            person_id=1,
            visits=(NewVisit(1, date(2026, 6, 11), NOTE, 1),),
            outgoing=(answer("<1@x>"),),
        ),
        AT,
    )

    visits = store.visits(1, date(2026, 1, 1), date(2026, 12, 31))
    assert [(v.on, v.note.females.total) for v in visits] == [(date(2026, 6, 11), 17)]
    assert store.counts() == {"inbox done": 1, "outbox waiting": 1}


def test_a_filing_that_fails_half_way_leaves_nothing(store):
    """Two answers with one Message-ID cannot be queued: the visit written before them is gone too."""
    inbox_id = arrive(store)
    filing = Filing(
        inbox_id,
        "done",
        visits=(NewVisit(1, date(2026, 6, 11), NOTE, 1),),
        outgoing=(answer("<same@x>"), answer("<same@x>")),
    )

    with pytest.raises(Exception, match="UNIQUE"):
        store.keep(filing, AT)

    assert store.visits(1, date(2026, 1, 1), date(2026, 12, 31)) == ()
    assert [kept.id for kept in store.waiting()] == [inbox_id]


def test_a_message_that_is_done_is_not_done_again(store):
    """Keeping the same filing twice changes nothing."""
    filing = Filing(
        arrive(store), "done", visits=(NewVisit(1, date(2026, 6, 11), NOTE, 1),), outgoing=(answer("<1@x>"),)
    )
    store.keep(filing, AT)
    store.keep(filing, AT)

    assert store.counts() == {"inbox done": 1, "outbox waiting": 1}
    assert len(store.visits(1, date(2026, 1, 1), date(2026, 12, 31))) == 1


def test_a_correction_stands_in_place_of_the_visit_it_names(store):
    """The old visit is kept in the file but no longer stands."""
    store.keep(Filing(arrive(store), "done", visits=(NewVisit(1, date(2026, 6, 11), NOTE, 1),)), AT)
    old = store.latest_visits_by(1)[0]
    better = replace(NOTE, females=Females(14, 0, 0, 0, 14))
    store.keep(Filing(arrive(store), "done", visits=(NewVisit(1, old.on, better, 1, replaces=old.id),)), AT)

    standing = store.visits(1, date(2026, 1, 1), date(2026, 12, 31))
    assert [v.note.females.total for v in standing] == [14]
    assert store._db.table("visits").count == 2


def test_a_new_promise_ends_the_open_one(store):
    """A field has at most one open look-again window."""
    first = Promise(1, 1, date(2026, 6, 18), date(2026, 6, 21), date(2026, 6, 25), "catch_peak", "u@x", 0)
    second = replace(first, likely=date(2026, 7, 1), sequence=1)
    store.keep(Filing(arrive(store), "done", promises=(first,)), AT)
    store.keep(Filing(arrive(store), "done", promises=(second,)), AT)

    assert [(p.likely, p.sequence) for p in store.open_promises()] == [(date(2026, 7, 1), 1)]


def test_a_held_note_waits_until_it_is_settled(store):
    """A note without a known field is kept for its writer."""
    store.keep(Filing(arrive(store), "done", person_id=1, held=(Held(NOTE, ("Kestrel Bottom",)),)), AT)
    (held,) = store.held_notes(1)
    assert (held.note.females.total, held.nearest, held.day) == (17, ("Kestrel Bottom",), date(2026, 6, 11))

    store.keep(Filing(arrive(store), "done", person_id=1, settled=(held.id,)), AT)
    assert store.held_notes(1) == ()


def test_the_settings_win_where_they_speak_and_mail_where_they_are_silent(store):
    """Adopting the settings again keeps a planting date told by mail, and takes a new alias."""
    told = replace(store.fields("crew")[0], planted=date(2026, 5, 9))
    store.keep(Filing(arrive(store), "done", fields=(told,)), AT)
    store.adopt([SCOUT], [replace(FIELD, planted=None, aliases=("kestrel", "kb"))])

    (field,) = store.fields("crew")
    assert (field.planted, field.aliases) == (date(2026, 5, 9), ("kestrel", "kb"))


def test_past_years_are_whole_earlier_years_of_measured_air(store):
    """Forecast days and the year asked about are left out; a year brought in later is seen."""
    from notes_bot.model import DayTemperature

    days = [DayTemperature(date(2024, 6, 1), 10.0, 20.0), DayTemperature(date(2025, 6, 1), 12.0, 22.0)]
    store.keep_temperatures("kestrel", [*days, DayTemperature(date(2024, 6, 2), 1.0, 3.0, forecast=True)], "file")
    (only,) = store.past_years("kestrel", 2025)

    assert (only.year, only.air_c[152]) == (2024, 15.0)
    assert [air for air in only.air_c if air is not None] == [15.0]
    assert [year.year for year in store.past_years("kestrel", 2026)] == [2024, 2025]
    store.keep_temperatures("kestrel", [DayTemperature(date(2023, 6, 1), 8.0, 10.0)], "file")
    assert [year.year for year in store.past_years("kestrel", 2025)] == [2023, 2024]
    assert store.past_years("old mill", 2025) == ()
