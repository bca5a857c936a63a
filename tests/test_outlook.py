"""The outlook of a field: windows, stages, when to look again, and the facts it rests on."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notes_bot.model import (
    COLOURS,
    DayTemperature,
    Females,
    History,
    LookAgain,
    Note,
    Outlook,
    Soil,
    Spot,
    Visit,
    Window,
)
from notes_bot.outlook import BASIS_KEYS, NO_RECHECK_KEYS, PURPOSES, WHY_KEYS, foresee
from notes_bot.science.detection import RECOVERIES
from notes_bot.weather import climate_at
from tests.benchmarks.clock_speed import milliseconds

IOWA = climate_at(42.0, -93.5)
PLANTED = date(2024, 5, 6)


def visit(on: date, colours: tuple[int, int, int, int] | None = None, **note) -> Visit:
    females = note.pop("females", Females()) if colours is None else Females(*colours, sum(colours))
    seen = "none_seen" if females.total == 0 else "seen"
    note.setdefault("outcome", seen)
    note.setdefault("method", "shovel")
    return Visit(1, 1, on, Note(plants=note.pop("plants", 6), females=females, **note), 1)


def field(*visits: Visit, **known) -> History:
    known = {"latitude": 42.0, "longitude": -93.5, "planted": PLANTED} | known
    return History(visits=visits, **known)


def outlook(history: History, as_of: date, temperatures=(), climate=IOWA, **options) -> Outlook:
    return foresee(history, temperatures, climate, as_of, **options)


def window(of: Outlook, event: str, generation: int | None = None) -> Window:
    return next(w for w in of.windows if w.event == event and w.generation == generation)


def keys(of: Outlook) -> set[str]:
    return {fact.key for fact in of.basis}


EARLY = visit(date(2024, 6, 11), (17, 0, 0, 0))
MIDDLE = visit(date(2024, 6, 21), (30, 9, 1, 0))
LATE = visit(date(2024, 7, 1), (12, 35, 20, 9))
NONE = visit(date(2024, 6, 5), (0, 0, 0, 0))

CASES = {
    "nothing known": (History(), date(2024, 6, 1)),
    "planted only": (field(), date(2024, 6, 1)),
    "winter": (History(), date(2024, 1, 20)),
    "early white": (field(EARLY), EARLY.on),
    "three looks": (field(EARLY, MIDDLE, LATE), LATE.on),
    "none seen early": (field(NONE), NONE.on),
    "none seen late": (field(visit(date(2024, 8, 1), (0, 0, 0, 0))), date(2024, 8, 1)),
    "resistant": (field(visit(date(2024, 7, 8), (13, 5, 0, 0)), resistance="resistant"), date(2024, 7, 8)),
    "not looked": (field(visit(date(2024, 6, 11), None, outcome="not_looked")), date(2024, 6, 11)),
    "mostly yellow": (field(visit(date(2024, 6, 30), None, mostly=("yellow",))), date(2024, 6, 30)),
    "too many": (field(visit(date(2024, 7, 2), None, too_many=True)), date(2024, 7, 2)),
    "total only": (field(visit(date(2024, 6, 25), None, females=Females(total=40))), date(2024, 6, 25)),
    "unplanted V4": (field(visit(date(2024, 6, 11), (5, 0, 0, 0), stage="V4"), planted=None), date(2024, 6, 11)),
    "late tan": (field(visit(date(2024, 8, 29), (2, 8, 66, 53), stage="R6")), date(2024, 8, 29)),
    "after harvest": (field(EARLY), date(2024, 10, 20)),
    "closed": (field(LATE, entry_closed_until=datetime(2024, 7, 30, 18, tzinfo=UTC)), LATE.on),
    "closed for good": (field(LATE, entry_closed_until=datetime(2024, 9, 30, tzinfo=UTC)), LATE.on),
    "asked": (field(visit(date(2024, 6, 11), (17, 0, 0, 0), look_again=LookAgain(days=10))), date(2024, 6, 11)),
    "southern": (History(latitude=-31.4, longitude=-64.2, planted=date(2024, 11, 15)), date(2025, 1, 10)),
    "tropical": (History(latitude=-13.0, longitude=-56.0, planted=date(2024, 10, 15)), date(2024, 12, 1)),
    "counts too early": (field(visit(date(2024, 5, 25), (2, 8, 20, 9))), date(2024, 5, 25)),
}


@pytest.mark.parametrize("case", CASES)
def test_every_outlook_keeps_its_promises(case):
    """Ordered windows, closed sets of facts, shares between 0 and 1, and a look again that is possible."""
    history, as_of = CASES[case]
    got = outlook(history, as_of, climate=climate_at(history.latitude, history.longitude))

    for w in got.windows:
        assert w.earliest <= w.likely <= w.latest
        assert w.generation in (1, 2, 3) or w.event == "last_look"
    assert keys(got) <= set(BASIS_KEYS)
    for fact in got.basis:
        assert set(fact.values) == set(BASIS_KEYS[fact.key]), fact
    assert 0 <= got.infested_probability <= 1
    assert (got.recheck is None) == (got.no_recheck is not None)
    assert (got.finding is None) == (not history.visits)
    if got.no_recheck is not None:
        assert set(got.no_recheck.values) == set(NO_RECHECK_KEYS[got.no_recheck.key])
    if got.recheck is not None:
        assert as_of < got.recheck.earliest <= got.recheck.likely <= got.recheck.latest
        assert got.recheck.latest <= window(got, "last_look").latest
        assert got.recheck.purpose in PURPOSES
        assert set(got.recheck.why.values) - {"closed_until"} == set(WHY_KEYS[got.recheck.why.key])
        if history.entry_closed_until is not None:
            assert got.recheck.earliest > history.entry_closed_until.date()


def test_the_same_question_gets_the_same_answer():
    """No clock and no chance inside."""
    history, as_of = CASES["three looks"]

    assert outlook(history, as_of) == outlook(history, as_of)


def test_visits_sharpen_the_dates_they_speak_of():
    """The next generation's whites are dated more closely after each of three looks."""

    def width(*visits: Visit) -> int:
        w = window(outlook(field(*visits), date(2024, 7, 1)), "next_white", 2)
        return (w.latest - w.earliest).days

    before, after = width(), width(EARLY, MIDDLE, LATE)

    assert after <= before * 0.7


def test_all_white_is_the_start_and_mostly_yellow_about_the_peak():
    """Common practice, no source: how the trade reads one look."""
    white = outlook(field(EARLY), EARLY.on)
    yellow = outlook(field(visit(date(2024, 6, 24), (10, 40, 6, 1))), date(2024, 6, 24))

    assert (white.stage, white.generation) == ("early", 1)
    assert window(white, "first_white", 1).likely < EARLY.on < window(white, "peak", 1).earliest
    assert (yellow.stage, yellow.generation) == ("peak", 1)
    assert abs((window(yellow, "peak", 1).likely - date(2024, 6, 24)).days) <= 4


def test_a_few_tan_means_the_next_look_is_in_one_to_two_weeks():
    """Common practice, no source: a few tan, or none where they are suspected, is looked at again in 1-2 weeks."""
    tan = outlook(field(visit(date(2024, 6, 24), (20, 30, 8, 0))), date(2024, 6, 24))
    none = outlook(field(visit(date(2024, 6, 7), (0, 0, 0, 0))), date(2024, 6, 7))

    assert tan.recheck is not None and none.recheck is not None
    assert timedelta(5) <= none.recheck.likely - date(2024, 6, 7) <= timedelta(15)
    assert timedelta(5) <= tan.recheck.likely - date(2024, 6, 24) <= timedelta(28)


def test_a_later_population_is_seen_from_its_colours():
    """Mostly white on a day when heat says tan moves the windows later; tan where heat says white, earlier."""
    usual = window(outlook(field(), date(2024, 6, 24)), "peak", 1).likely
    behind = window(outlook(field(visit(date(2024, 6, 24), (60, 4, 0, 0))), date(2024, 6, 24)), "peak", 1).likely
    ahead = window(outlook(field(visit(date(2024, 6, 14), (4, 20, 12, 4))), date(2024, 6, 14)), "peak", 1).likely

    assert ahead < usual < behind


def test_nothing_known_falls_back_to_one_to_two_weeks_and_says_so():
    """Without planting day, place or count there is no ground for a date."""
    got = outlook(*CASES["nothing known"], climate=climate_at(None, None))

    assert got.recheck is not None
    assert got.recheck.why.key == "one_to_two_weeks"
    assert got.recheck.earliest == date(2024, 6, 8)
    assert got.recheck.latest == date(2024, 6, 15)
    assert {"planted_assumed", "temperatures_assumed", "no_visits"} <= keys(got)


def test_the_writers_own_wish_is_kept():
    """A note that says when to look again gets that day."""
    got = outlook(*CASES["asked"])

    assert got.recheck is not None
    assert (got.recheck.likely, got.recheck.purpose) == (date(2024, 6, 21), "asked")


def test_a_wish_inside_the_entry_interval_is_moved_behind_it():
    """Nobody is sent into a closed field, not even on request."""
    asked = visit(date(2024, 6, 11), (17, 0, 0, 0), look_again=LookAgain(days=1))
    got = outlook(field(asked, entry_closed_until=datetime(2024, 6, 13, 8, tzinfo=UTC)), date(2024, 6, 11))

    assert got.recheck is not None
    assert got.recheck.earliest == date(2024, 6, 14)
    assert got.recheck.why.key == "asked_but_closed"


def test_roots_that_are_gone_get_no_look_again():
    """After the roots decline the answer is why not, not a date."""
    got = outlook(*CASES["after harvest"])

    assert (got.stage, got.recheck) == ("declined", None)
    assert got.no_recheck is not None and got.no_recheck.key == "roots_declined"


def test_a_stage_noted_after_the_freezes_sets_no_look_in_winter():
    """R1 in an Iowa field at the end of November is a slip of the pen or a dead plant: nothing is left to dig."""
    late = date(PLANTED.year, 11, 25)
    got = outlook(field(visit(late, (3, 0, 0, 0), stage="R1")), late)

    assert got.recheck is None
    assert got.no_recheck is not None and got.no_recheck.key == "roots_declined"


def test_a_warm_spring_brings_the_first_whites_sooner_than_a_cool_one():
    """Measured temperatures replace normals: 3 C more or less from planting on moves the date by a week or more."""

    def first(change: float) -> date:
        days = [PLANTED + timedelta(i) for i in range(35)]
        rows = [DayTemperature(day, 10.5 + change, 23.0 + change) for day in days]
        got = outlook(field(), days[-1], rows)
        assert "temperatures_air" in keys(got)
        return window(got, "first_white", 1).likely

    assert first(-3) - first(+3) >= timedelta(days=7)


def test_measured_temperatures_stand_in_for_an_unknown_place():
    """A northern field told without coordinates: its cold June is carried on, not the assumed place's warm one."""
    north = climate_at(48.0, -97.0)
    days = [PLANTED + timedelta(i) for i in range(40)]
    rows = [DayTemperature(day, north.tmin_c[day.month - 1], north.tmax_c[day.month - 1]) for day in days]
    known = outlook(History(48.0, -97.0, PLANTED), days[-1], rows, climate=north)
    unknown = outlook(History(None, None, PLANTED), days[-1], rows, climate=climate_at(None, None))

    assert abs((window(known, "peak", 1).likely - window(unknown, "peak", 1).likely).days) <= 4


def test_nothing_after_the_day_of_the_question_is_used():
    """Later visits and later measurements leave the answer as it is; forecast days may change it."""
    as_of = date(2024, 6, 11)
    later = [DayTemperature(as_of + timedelta(i), 25, 38) for i in range(1, 10)]
    alone = outlook(field(EARLY), as_of)

    assert outlook(field(EARLY, LATE), as_of, later) == alone
    forecast = [DayTemperature(row.date, row.tmin_c, row.tmax_c, forecast=True) for row in later]
    hot = outlook(field(EARLY), as_of, forecast)
    assert window(hot, "peak", 1).likely < window(alone, "peak", 1).likely
    assert "temperatures_forecast" in keys(hot)


def test_measured_soil_is_preferred_to_air():
    """A cold soil under warm air holds the clock back."""
    days = [PLANTED + timedelta(i) for i in range(40)]
    air = [DayTemperature(day, 14, 26) for day in days]
    both = [DayTemperature(day, 14, 26, soil_mean_c=14.0) for day in days]
    warm, cold = (outlook(field(), days[-1], rows) for rows in (air, both))

    assert window(cold, "first_white", 1).likely > window(warm, "first_white", 1).likely + timedelta(days=7)
    assert "temperatures_soil" in keys(cold)
    assert "soil_model" not in keys(cold)


def test_a_count_that_cannot_be_is_doubted_aloud():
    """Tan females nineteen days after planting: said, not believed."""
    got = outlook(*CASES["counts too early"])

    assert "counts_disagree" in keys(got)


def test_a_stage_places_an_unknown_planting_day():
    """V4 on 11 June speaks of planting in early May; without it the day is only the usual one."""
    got = outlook(*CASES["unplanted V4"])
    fact = next(f for f in got.basis if f.key == "planted_from_stage")

    assert date(2024, 4, 25) <= date.fromisoformat(fact.values["likely"]) <= date(2024, 5, 16)


def test_the_mix_runs_from_planting_to_the_end_of_the_roots():
    """Shares of the highest day; white first, then yellow, tan and brown."""
    got = outlook(field(EARLY), EARLY.on, with_mix=True)
    totals = [day.white + day.yellow + day.tan + day.brown for day in got.mix]

    assert got.mix[0].date == PLANTED
    assert max(totals) == pytest.approx(1, abs=1e-3)
    white, yellow, tan = (next(d.date for d in got.mix if getattr(d, c) > 0.02) for c in ("white", "yellow", "tan"))
    assert white < yellow < tan
    assert outlook(field(EARLY), EARLY.on).mix == ()


def test_a_southern_season_runs_over_new_year():
    """Cordoba, planted mid-November: first whites in early December, roots gone in March."""
    history = History(latitude=-31.4, longitude=-64.2, planted=date(2024, 11, 15))
    got = outlook(history, date(2024, 12, 1), climate=climate_at(-31.4, -64.2))

    assert date(2024, 12, 1) <= window(got, "first_white", 1).likely <= date(2024, 12, 15)
    assert date(2025, 2, 15) <= window(got, "last_look").likely <= date(2025, 3, 31)


def test_a_visit_entered_late_counts_as_if_it_had_come_in_time():
    """The order in which visits were told makes no difference, only their days do."""
    as_of = date(2024, 7, 1)

    assert outlook(field(LATE, EARLY, MIDDLE), as_of).windows == outlook(field(EARLY, MIDDLE, LATE), as_of).windows


def test_an_answer_takes_well_under_a_tenth_of_a_second():
    """Processor time of one field, mean over fields of none to three visits."""
    assert milliseconds(24) < 100


COUNTS = st.tuples(*[st.one_of(st.integers(0, 60), st.sampled_from([0, 5000]))] * 4)
DAYS = st.dates(date(2023, 9, 1), date(2024, 12, 31))


@st.composite
def females(draw):
    kind = draw(st.sampled_from(["colours", "total", "nothing"]))
    if kind == "colours":
        colours = draw(COUNTS)
        return Females(*colours, sum(colours))
    return Females(total=draw(st.integers(0, 9000))) if kind == "total" else Females()


@st.composite
def notes(draw):
    spots = [
        Spot(f"spot {i}", draw(st.one_of(st.none(), st.integers(1, 20))), draw(females()), check=draw(st.booleans()))
        for i in range(draw(st.integers(0, 2)))
    ]
    return Note(
        plants=draw(st.one_of(st.none(), st.integers(1, 60))),
        method=draw(st.sampled_from([None, "pulled", "eased", "shovel"])),
        females=draw(females()),
        mostly=tuple(draw(st.lists(st.sampled_from(COLOURS), max_size=2, unique=True))),
        outcome=draw(st.sampled_from([None, "seen", "none_seen", "not_looked"])),
        stage=draw(st.sampled_from([None, "VE", "V3.5", "V12", "R1", "R5.5", "R8", "ripe"])),
        spots=tuple(spots),
        too_many=draw(st.booleans()),
        look_again=draw(
            st.sampled_from([None, LookAgain(days=0), LookAgain(days=10), LookAgain(date=date(2024, 7, 4))])
        ),
    )


@given(
    st.lists(st.tuples(DAYS, notes()), max_size=4),
    st.one_of(st.none(), DAYS),
    st.sampled_from([None, -33.0, -12.0, 0.0, 36.0, 42.0, 49.0, 65.0]),
    DAYS,
    st.sampled_from([None, "resistant", "susceptible"]),
    st.lists(st.tuples(DAYS, st.floats(-40, 45), st.floats(0, 25), st.booleans()), max_size=20),
)
@settings(max_examples=120, deadline=None)
def test_no_history_however_odd_breaks_the_outlook(dated, planted, latitude, as_of, resistance, weather):
    """Counts before planting, contradictions, absurd numbers, polar fields: an ordered answer, never a crash."""
    visits = tuple(Visit(i, 1, on, note, 1) for i, (on, note) in enumerate(sorted(dated, key=lambda pair: pair[0])))
    history = History(latitude, None if latitude is None else -60.0, planted, resistance, visits)
    rows = [DayTemperature(day, low, low + swing, forecast=ahead) for day, low, swing, ahead in weather]
    got = outlook(history, as_of, rows, climate=climate_at(latitude, None if latitude is None else -60.0))

    for w in got.windows:
        assert w.earliest <= w.likely <= w.latest
    assert 0 <= got.infested_probability <= 1
    assert (got.recheck is None) == (got.no_recheck is not None)
    if got.recheck is not None:
        assert as_of < got.recheck.earliest <= got.recheck.likely <= got.recheck.latest
    assert keys(got) <= set(BASIS_KEYS)


def test_heat_is_spoken_of_on_hot_days_only() -> None:
    """Measured on the day of the look or forecast for the next three days; not a week off, not on mild days."""

    def cautions(tmax_c: float, ahead: int, *, forecast: bool) -> set[str]:
        day = DayTemperature(EARLY.on + timedelta(days=ahead), 20.0, tmax_c, forecast=forecast)
        found = outlook(field(EARLY), EARLY.on, [day]).finding
        assert found is not None
        return {fact.key for fact in found.cautions}

    assert "heat" in cautions(35.0, 0, forecast=False)
    assert "heat" in cautions(35.0, 3, forecast=True)
    assert "heat" not in cautions(31.0, 0, forecast=False)
    assert "heat" not in cautions(36.0, 8, forecast=True)


def test_a_second_look_on_the_same_day_is_the_latest_before_it_is_kept() -> None:
    """A visit that has no number yet was made by the message being answered."""
    first = visit(date(2024, 7, 1), (40, 60, 0, 0))
    second = Visit(0, 1, first.on, Note(plants=8, females=Females(1, 0, 0, 0, 1), outcome="seen", method="shovel"), 1)
    found = outlook(field(first, second), first.on).finding

    assert found is not None
    assert found.females_per_plant is not None
    assert found.females_per_plant.likely == pytest.approx(1 / 8)


def test_roots_too_old_to_judge_are_not_asked_to_be_dug_again() -> None:
    """What would settle a doubt on roots comes too late: soil does it."""
    late = visit(date(2024, 9, 20), (0, 0, 0, 0), stage="R7")
    found = outlook(field(late), late.on).finding

    assert found is not None
    assert {fact.key for fact in found.settle} == {"soil_sample"}


def test_a_crew_that_finds_more_makes_a_clean_look_say_more_of_the_start():
    """The table of what is brought up and seen is one: a crew's own trial moves the clock's dates as well as the worth
    of a look. None seen by a crew that misses little puts the first whites later than by one that misses most."""
    clean = field(visit(date(2024, 6, 14), (0, 0, 0, 0), plants=10), resistance="susceptible")
    firsts = []
    for chance in (0.05, 0.9):
        own = [replace(row, chance=chance, weight=100.0) for row in RECOVERIES]
        firsts.append(window(outlook(clean, date(2024, 6, 14), recoveries=own), "first_white", 1).likely)

    assert firsts[1] > firsts[0]


# --- days on which the soil carries a spade ----------------------------------------------------------


def rain(*days: tuple[date, float], forecast: bool = True) -> tuple[DayTemperature, ...]:
    return tuple(DayTemperature(on, forecast=forecast, rain_mm=mm) for on, mm in days)


def test_a_look_on_soil_forecast_too_wet_moves_to_a_day_that_carries_a_spade():
    """Rain forecast for the best day: another day of the window is chosen, and the reason says so."""
    plain = outlook(field(EARLY), EARLY.on).recheck
    soaked = outlook(field(EARLY), EARLY.on, rain((plain.likely, 30.0))).recheck

    assert soaked.likely != plain.likely
    assert soaked.earliest <= soaked.likely <= soaked.latest
    assert soaked.likely.weekday() != 6
    assert soaked.why.values["too_wet"] == soaked.why.values["rain_due"] == plain.likely.isoformat()


def test_soil_noted_wet_puts_off_the_earliest_day_too():
    """None seen, soil too wet: coming back within two days would meet the same mud."""
    wet = visit(date(2024, 6, 12), (0, 0, 0, 0), soil=Soil(moisture="wet", texture="clay"))
    dry = visit(date(2024, 6, 12), (0, 0, 0, 0), soil=Soil(moisture="moist", texture="clay"))
    later, sooner = (outlook(field(each), each.on).recheck for each in (wet, dry))

    assert later.earliest >= sooner.earliest
    assert later.earliest > date(2024, 6, 15)


def test_rain_that_fell_after_the_question_is_not_known():
    """Measured rain of a later day is left out like any other measurement."""
    plain = outlook(field(EARLY), EARLY.on).recheck
    later = rain((plain.likely, 40.0), forecast=False)

    assert "too_wet" not in outlook(field(EARLY), EARLY.on, later).recheck.why.values


def test_a_window_wet_from_end_to_end_keeps_its_best_day():
    """A month of rain: better a muddy look than none."""
    days = [(EARLY.on + timedelta(days=i), 30.0) for i in range(1, 40)]
    got = outlook(field(EARLY), EARLY.on, rain(*days)).recheck

    assert got.earliest <= got.likely <= got.latest
    assert "too_wet" not in got.why.values


def test_the_writers_own_day_is_left_alone_whatever_the_rain():
    """Who asked for a day knows the field."""
    asked = visit(date(2024, 6, 11), (17, 0, 0, 0), look_again=LookAgain(date=date(2024, 6, 21)))
    got = outlook(field(asked), asked.on, rain((date(2024, 6, 21), 40.0))).recheck

    assert got.likely == date(2024, 6, 21)


@pytest.mark.parametrize("case", ["early white", "three looks", "resistant", "planted only", "mostly yellow"])
def test_the_reason_and_the_window_name_the_same_day(case):
    """ "About 30 June" in the reason is the 30 June of the windows."""
    history, as_of = CASES[case]
    got = outlook(history, as_of)
    why, event = got.recheck.why, {"peak_ahead": "peak", "resistance_next_peak": "peak", "next_whites": "next_white"}
    if why.key in event:
        assert why.values["likely"] in {w.likely.isoformat() for w in got.windows if w.event == event[why.key]}
    ends = {fact.values["likely"] for fact in got.basis if fact.key.startswith("roots_end")}
    assert ends == {window(got, "last_look").likely.isoformat()}
