"""What was known of a field before this season's looks: neighbours and earlier seasons."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notes_bot.before import evidence, kilometres, nearby, prior_of, visible_by_calendar
from notes_bot.model import Fact, Females, Field, Note, Soil, Visit
from notes_bot.science import detection

from .crew_kit import Crew

HERE = Field(1, "Here", "crew", latitude=42.0, longitude=-93.6)
GOOD = Note(
    plants=20, method="shovel", soaked=True, females=Females(0, 0, 0, 0, 0), outcome="none_seen", soil=Soil("moist")
)
WEAK = Note(plants=3, method="pulled", females=Females(0, 0, 0, 0, 0), outcome="none_seen", soil=Soil("dry"))
FOUND = Note(plants=6, method="shovel", females=Females(17, 0, 0, 0, 17), outcome="seen")

FULL = Note(plants=8, method="shovel", females=Females(400, 300, 100, 0, 800), outcome="seen")


def _visit(note: Note, on: date = date(2025, 7, 10)) -> Visit:
    return Visit(1, 2, on, note, 1)


def _around(*notes: Note, km: float = 2.0) -> list[tuple[float, Field, list[Visit]]]:
    return [(km, Field(n, f"Field {n}", "crew"), [_visit(note)]) for n, note in enumerate(notes, start=2)]


def _chance(*notes: Note, km: float = 2.0) -> float:
    return prior_of(HERE, [], _around(*notes, km=km))[0] or 0.0


def test_nobody_looked_is_no_knowledge() -> None:
    """Without neighbours, or with none that was looked at, only the convention is left."""
    unseen = _around(Note(outcome="not_looked"))

    assert prior_of(HERE, [], []) == (None, ())
    assert prior_of(HERE, [], unseen) == (None, ())


def test_neighbours_with_and_without_move_the_prior_their_way() -> None:
    """Found next door is likelier here too; clean next door less likely; nothing is ever certain."""
    found, mixed, clean = _chance(*[FOUND] * 4), _chance(FOUND, FOUND, GOOD, GOOD), _chance(*[GOOD] * 4)

    assert clean < mixed < found
    assert mixed == pytest.approx(0.5, abs=0.1)
    assert clean > 0.1
    assert found < 0.9


def test_many_strong_finds_next_door_are_as_good_as_certain_and_no_fault() -> None:
    """A neighbour found full of females look after look: its chance is 1 to the last digit, ours is still a chance."""
    visits = tuple(Visit(n, 2, date(2026, 7, n), FULL, 1) for n in range(1, 9))
    chance, _ = prior_of(HERE, [], [(1.0, replace(HERE, id=2), visits)])

    assert chance is not None
    assert 0.6 < chance < 0.9


def test_a_weak_clean_look_next_door_says_next_to_nothing() -> None:
    """Three plants pulled from dry ground clear no neighbour, and no neighbour's neighbour."""
    assert _chance(*[WEAK] * 4) == pytest.approx(detection.CONVENTION, abs=0.03)
    assert _chance(*[GOOD] * 4) < _chance(*[WEAK] * 4)


def test_the_further_off_the_less_it_says() -> None:
    """At ten kilometres a find moves little; beyond them nothing."""
    near, middle, far = (_chance(FOUND, FOUND, km=km) for km in (0.5, 5.0, 9.9))

    assert near > middle > far > 0.5
    assert detection.prior_from_neighbours([(12.0, 1e6)]) == pytest.approx(detection.CONVENTION)


def test_one_sure_find_next_door_is_the_rule_of_succession() -> None:
    """At no distance and with no doubt the share of infested fields is Beta(1 + found, 1 + clean), mean (x+1)/(n+2)."""
    found, clean = (0.0, 1e9), (0.0, 1e-9)

    assert detection.prior_from_neighbours([found]) == pytest.approx(2 / 3, abs=1e-3)
    assert detection.prior_from_neighbours([found] * 3 + [clean] * 4) == pytest.approx(4 / 9, abs=1e-3)
    assert detection.prior_from_neighbours([clean] * 5) == pytest.approx(1 / 7, abs=1e-3)


@given(st.lists(st.tuples(st.floats(0.0, 12.0), st.floats(0.001, 1000.0)), max_size=8), st.floats(0.0, 9.0))
@settings(max_examples=60)
def test_one_more_find_never_lowers_the_prior(around: list[tuple[float, float]], km: float) -> None:
    """Whatever else is around."""
    before = detection.prior_from_neighbours(around)

    assert 0.0 < before < 1.0
    assert detection.prior_from_neighbours([*around, (km, 50.0)]) >= before - 1e-9


def test_what_it_rests_on_is_told() -> None:
    """So many of the fields looked at; earlier seasons here."""
    chance, told = prior_of(HERE, [_visit(GOOD), _visit(WEAK)], _around(FOUND, GOOD, Note(outcome="not_looked")))

    assert told == (
        Fact("prior_neighbours", {"found": 1, "fields": 2, "km": 10}),
        Fact("prior_clean_before", {"looks": 2}),
    )
    assert chance is not None
    assert chance < _chance(FOUND, GOOD)


def test_clean_neighbours_are_not_told_as_none_of_so_many() -> None:
    """No "0 of 1"."""
    assert prior_of(HERE, [], _around(GOOD))[1] == (Fact("prior_neighbours_clean", {"fields": 1, "km": 10}),)


def test_earlier_clean_seasons_lower_the_prior_but_a_field_can_become_infested_since() -> None:
    """However many clean looks, the chance of introduction stays."""
    one = prior_of(HERE, [_visit(GOOD)], [])[0]
    many = prior_of(HERE, [_visit(GOOD, date(year, 7, 10)) for year in range(2016, 2026)], [])[0]

    assert one is not None
    assert many is not None
    assert detection.INTRODUCTION < many < one < 0.5


def test_a_clean_look_before_females_could_show_says_nothing() -> None:
    """Five weeks after planting in one season is not five weeks after in another."""
    early = evidence((_visit(GOOD, date(2025, 5, 20)),), 42.0, None)
    good = evidence((_visit(GOOD, date(2025, 7, 10)),), 42.0, None)

    assert early == pytest.approx(1.0, abs=0.02)
    assert good < 0.3


@pytest.mark.parametrize(
    ("stage", "planted", "on", "low", "high"),
    [
        ("V2", None, date(2025, 6, 8), 0.0, 0.1),
        ("R2", None, date(2025, 7, 8), 0.9, 1.0),
        ("R7", None, date(2025, 9, 8), 0.0, 0.0),
        (None, date(2025, 5, 6), date(2025, 5, 30), 0.0, 0.1),
        (None, date(2025, 5, 6), date(2025, 7, 1), 0.9, 1.0),
        (None, date(2024, 5, 6), date(2025, 7, 10), 0.9, 1.0),  # last year's planting day says nothing of this year
        (None, None, date(2025, 9, 20), 0.0, 0.0),
    ],
)
def test_the_calendar_says_roughly_when_females_show(
    stage: str | None, planted: date | None, on: date, low: float, high: float
) -> None:
    """Stage first, else days since planting, else the usual planting day."""
    assert low <= visible_by_calendar(_visit(Note(stage=stage), on), 42.0, planted) <= high


def test_distance_is_over_the_globe() -> None:
    """A degree of latitude is 111 km; fields without a place are no neighbours."""
    north = Field(2, "North", "crew", latitude=43.0, longitude=-93.6)

    assert kilometres(HERE, north) == pytest.approx(111.2, abs=0.5)
    assert kilometres(HERE, Field(3, "Nowhere", "crew")) is None
    assert nearby(HERE, [HERE, north]) == []


# --- through the desk ---


@pytest.fixture
def crew(tmp_path: Path) -> Iterator[Crew]:
    made = Crew(tmp_path, datetime(2026, 7, 10, 17, 0, tzinfo=UTC))
    yield made
    made.close()


def test_the_answer_says_what_the_prior_rests_on(crew: Crew) -> None:
    """A find at the neighbour's raises the chance before the look, and is named; the first field had only a guess."""
    first = crew.body(crew.note("kestrel bottom 6 plants shovel moist 12 white 3 yellow"))
    second = crew.body(crew.note("harrow ridge 3 6 plants shovel moist none seen"))

    assert "starting guess" not in second
    assert "SCN in 1 of 1 field of yours looked at within 10 km)" in second
    assert "Chance SCN is here" not in first


def test_a_field_is_not_its_own_neighbour(crew: Crew) -> None:
    """Two clean looks in one field leave its own prior a convention."""
    crew.note("harrow ridge 3 6 plants shovel moist none seen")
    again = crew.body(crew.note("harrow ridge 3 8 plants shovel moist none seen"))

    assert "within 10 km" not in again
    assert "it began as a guess" in again


def test_eggs_in_the_soil_count_as_found(crew: Crew) -> None:
    """A laboratory that found eggs settles where the field starts; a clean look hardly moves it."""
    crew.note("harrow ridge 3 eggs 2400 per 100cc iowa")
    answer = crew.body(crew.note("harrow ridge 3 6 plants shovel moist none seen"))

    assert "(before this look 98%)" in answer
    assert "starting guess" not in answer
