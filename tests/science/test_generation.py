"""The nematode clock against published development times, against logic, and against made-up seasons.

Checks marked *fitted* restate a source the parameters were set from and only guard against regressions; *held out*
ones were not used for that. Sources are keyed in docs/references.md.
"""

from __future__ import annotations

import os
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats
from scipy.special import ndtr
from scipy.stats import gamma as gamma_of

from notes_bot.model import History
from notes_bot.outlook import read_clock
from notes_bot.science import generation as clock
from notes_bot.science.growth_stage import usual_r6
from notes_bot.science.parameters import CLOCK, FOUND_BY_COLOUR
from notes_bot.science.thermal_time import daily_heat, interpolate_monthly, soil_temperature_lagged
from notes_bot.weather import climate_at
from tests import season_simulator as nature
from tests.season_trials import NORMAL_CLIMATE, trial

MANY = 150 if os.environ.get("NOTES_BOT_PROOFS") == "small" else 400
"""Made-up seasons of the heavy tests."""
MIDDLE = np.zeros((1, clock.DIMENSIONS))
"""The state in which every number has its middle value."""


def per_day(celsius: float) -> float:
    return float(daily_heat(celsius))


def normal_season(latitude: float, longitude: float, planted: date, on: date) -> tuple[clock.Season, int]:
    """A field's season on built-in normals through the soil model, the day itself as a place in it."""
    got = read_clock(History(latitude, longitude, planted), (), climate_at(latitude, longitude), on)
    sown = round(got.calendar.planted)
    season = clock.Season(
        heat=clock.clock_heat(got.soil.mean_c), gate=clock.Gate.of(got.soil.mean_c, sown, 1.0, 0.0),
        bias_heat=np.zeros(got.calendar.days), unmeasured=np.zeros(got.calendar.days), anchored=True,
        planted=got.calendar.planted, planted_sd=0.0, roots_end=1e3, roots_end_sd=1.0,
        dormant_from=got.calendar.dormant_from,
    )  # fmt: skip
    return season, got.calendar.index(on)


def first_whites(latitude: float, longitude: float, planted: date, on: date) -> float:
    """Share of the first generation's females out by a day of a normal season, middle state."""
    season, day = normal_season(latitude, longitude, planted, on)
    who = clock.in_season(MIDDLE, season)
    heat = clock.heat_since_planting(MIDDLE, season, np.array([day]))[0, 0]
    return float(ndtr((heat - who.white[0, 0]) / who.spread[0, 0]))


def generation_days(celsius: float) -> tuple[float, float]:
    """Shortest and longest generation of the middle state at a constant temperature, in days."""
    lengths = [CLOCK[name].value / per_day(celsius) for name in ("later_generation", "first_generation")]
    return min(lengths), max(lengths)


# --- published development times --------------------------------------------------------------------


def test_a_generation_at_25_c_takes_three_to_four_weeks():
    """Fitted: 21 days from first infection to first new juveniles in culture [Lauritis1983]; asked for: 21-27."""
    short, long = generation_days(25)

    assert 21 <= short <= long <= 27


def test_white_females_at_25_c_about_two_weeks_after_infection():
    """Fitted: adult females from day 10, their mean by day 13 [Lauritis1983, Melton1986]."""
    mean = CLOCK["penetration_to_white"].value / per_day(25)
    early = mean - 1.645 * CLOCK["white_sd"].value / per_day(25)

    assert 9 <= early <= 11
    assert 10 <= mean <= 13


@pytest.mark.parametrize(("celsius", "low", "high"), [(23.9, 28, 28), (25.5, 21, 23)])
def test_generation_times_told_to_growers_lie_inside_ours(celsius, low, high):
    """Held out: four weeks at 75 F (Iowa State University); 21-23 days at 23-28 C (Brazilian agronomy article)."""
    short, long = generation_days(celsius)

    assert short <= high and low <= long + 0.5


def test_three_to_four_weeks_at_20_to_30_c():
    """Held out: cycle in moist soil at 20-30 C [EmbrapaCycle]; ours runs from 17 days (30 C) to 36 (20 C)."""
    assert generation_days(30)[0] <= 21
    assert generation_days(20)[1] >= 28


def test_females_are_out_fifteen_days_after_infection_in_a_warm_greenhouse():
    """Held out: females present 15 days after infection, greenhouse, Goias [UfgThesis]; 25-27 C assumed."""
    for celsius in (25, 26, 27):
        late = 15 * per_day(celsius) - CLOCK["penetration_to_white"].value
        assert ndtr(late / CLOCK["white_sd"].value) > 0.8


MELTON_DAYS = {16: 21.7, 20: 15.6, 24: 13.0, 28: 12.9, 32: 15.4}
"""Days from inoculation to stage 5, solved from the printed response surface [Melton1986]."""


@pytest.mark.parametrize("celsius", [16, 20, 24])
def test_time_to_white_follows_the_response_surface_up_to_24_c(celsius):
    """Fitted: within a tenth of the surface's days to stage 5."""
    assert CLOCK["penetration_to_white"].value / per_day(celsius) == pytest.approx(MELTON_DAYS[celsius], rel=0.1)


@pytest.mark.xfail(
    strict=True, reason="heat is summed up to 30 C as in the field programme; the surface is slower above 26 C"
)
@pytest.mark.parametrize("celsius", [28, 32])
def test_time_to_white_follows_the_response_surface_in_hot_soil(celsius):
    """Held out, known to disagree: 12.9 and 15.4 days on the surface, 10.9 and 10.0 by our sums."""
    assert CLOCK["penetration_to_white"].value / per_day(celsius) == pytest.approx(MELTON_DAYS[celsius], rel=0.1)


@pytest.mark.parametrize(("name", "a_day", "days"), [("first_generation", 19.1, 28), ("later_generation", 20.4, 21)])
def test_field_generations_are_those_of_the_field_programme(name, a_day, days):
    """Fitted: 534 DD5 in four weeks of June, 429 in three weeks of July-August [AlstonSchmitt1988]."""
    assert CLOCK[name].value == pytest.approx(a_day * days, rel=0.005)


def test_first_whites_of_2013_in_eastern_iowa_were_possible_but_early():
    """Fitted: planted 8 May, seen 2 June [IowaSightings]: an early percentile of the cohort."""
    share = first_whites(41.57, -91.26, date(2013, 5, 8), date(2013, 6, 2))

    assert 0.015 <= share <= 0.15


def test_forty_days_in_a_normal_iowa_spring():
    """Partly held out: "40 days in a normal spring", planted 5 May: most first-generation females are out."""
    share = first_whites(42.0, -93.5, date(2013, 5, 5), date(2013, 6, 14))

    assert 0.6 <= share <= 0.9


def test_four_weeks_after_planting_in_iowa_is_early():
    """Held out: look from four weeks on, five to six are usual [IowaSightings]: a tenth or two are out at 28 days."""
    share = first_whites(42.0, -93.5, date(2013, 5, 10), date(2013, 6, 7))

    assert 0.08 <= share <= 0.2


def test_six_to_eight_weeks_are_safe_in_ohio():
    """Held out: Ohio State's safe advice of six to eight weeks [Osu2024]: nearly all out by the eighth."""
    by_six, by_eight = (
        first_whites(40.8, -81.9, date(2013, 5, 10), date(2013, 5, 10) + timedelta(weeks=w)) for w in (6, 8)
    )

    assert by_six > 0.6
    assert by_eight > 0.95


def test_white_to_brown_takes_one_to_two_weeks_in_late_june():
    """Fitted: "a week or two", central Iowa, soil about 22 C [Tylka2011]."""
    steps = sum(CLOCK[name].value for name in ("white_to_yellow", "yellow_to_tan", "tan_to_brown"))

    assert 7 <= steps / per_day(22) <= 14


def test_fewer_females_are_on_the_roots_35_days_after_infection_than_28():
    """Fitted: at 28 C more were extracted after 28 days than after 35 [RiggsSchmitt1991]; all infected on one day."""
    pot = clock.cohorts(MIDDLE)
    one = clock.Cohorts(
        np.array([[CLOCK["penetration_to_white"].value]]), np.array([[CLOCK["white_sd"].value]]),
        pot.steps, pot.steps_sd, pot.loss, np.ones((1, 1)),
    )  # fmt: skip
    at_28, at_35 = (clock.on_roots(one, np.array([[d * per_day(28)]])).sum() for d in (28, 35))

    assert at_35 < at_28


def test_cold_soil_brings_no_infection_and_hot_soil_kills():
    """Held out: at 10 C juveniles stay put [PurdueNematology]; at 36 C embryos die [AlstonSchmitt1988]."""
    assert clock.gate_heat(np.full(200, 10.0))[-1] == 0
    assert clock.clock_heat(np.full(200, 36.0))[-1] == 0
    assert clock.gate_heat(np.full(20, 25.0))[-1] == clock.clock_heat(np.full(20, 25.0))[-1] == 400


def start_of(soil_c: np.ndarray) -> int:
    """Days from planting to the middle state's first whites on a made-up run of soil temperatures."""
    season = constant_season(days=len(soil_c), heat=clock.clock_heat(soil_c), gate=clock.Gate.of(soil_c, 0, 1.0, 0.0))
    who = clock.in_season(MIDDLE, season)
    return int(np.argmax(season.heat >= who.white[0, 0] - 1.645 * who.spread[0, 0]))


COOL_SPRING = np.concatenate([np.linspace(13, 17, 35), np.full(60, 21.0)])


def test_a_cool_spring_starts_the_season_weeks_later():
    """Held out: delayed by weeks with soil at 17 C and less into June [AlstonSchmitt1987]; ours: about two weeks."""
    assert 12 <= start_of(COOL_SPRING) - start_of(np.full(95, 21.0)) <= 24


def test_a_later_planting_into_warm_soil_meets_no_gate():
    """Soil at 20 C and more: infection is due after the same heat whatever the gate, and surely."""
    warm = clock.Gate.of(np.full(95, 20.0), 0, 1.0, 0.0)

    assert (warm.later, warm.sd, warm.bias) == pytest.approx((0, 0, 0), abs=0.5)


@pytest.mark.parametrize("soil", [COOL_SPRING, COOL_SPRING - 3, np.full(95, 20.0)], ids=["cool", "cooler", "warm"])
def test_the_heat_at_infection_is_what_fields_followed_one_by_one_need(soil):
    """Four thousand fields, each with its own need of heat behind a gate of its own height: the heat at which infection
    is due has the same mean (to 10 DD5, less than a day) and spread."""
    draw = np.random.default_rng(5)
    heat, dues = np.cumsum(np.clip(soil, 5, 30) - 5), []
    for _ in range(4000):
        full = max(CLOCK["hatch_full_c"].value + CLOCK["hatch_full_c"].spread * draw.normal(), 10.1)
        need = CLOCK["planting_to_penetration"].value + CLOCK["planting_to_penetration"].spread * draw.normal()
        counted = np.cumsum((np.clip(soil, 5, 30) - 5) * np.clip((soil - 10) / (full - 10), 0, 1))
        dues.append(np.interp(max(need, 40.0), counted, heat))
    season = constant_season(days=95, heat=clock.clock_heat(soil), gate=clock.Gate.of(soil, 0, 1.0, 0.0))
    states = draw.normal(size=(4000, clock.DIMENSIONS))
    states[:, clock.BIAS] = 0
    ours, drawn_out = clock._infected(states, season)

    assert ours.mean() == pytest.approx(np.mean(dues), abs=10)
    assert ours.std() == pytest.approx(np.std(dues), rel=0.12)
    assert (drawn_out >= 1).all()


# --- eggs that wait ---------------------------------------------------------------------------------


def test_hatch_is_low_from_october_on_in_missouri():
    """Fitted: under a tenth hatch from October until May-June, central Missouri [Yen1995]; ours a month later."""
    season, _ = normal_season(38.9, -92.3, date(2013, 7, 1), date(2013, 8, 1))
    who = clock.in_season(MIDDLE, season)
    since = season.heat - season.heat[int(season.planted) - 1]
    november = (date(2013, 11, 5) - date(2013, 7, 1)).days + int(season.planted)
    late = np.interp([[november]], np.arange(len(since)), since)
    hatching = clock.Cohorts(late + CLOCK["penetration_to_white"].value, who.spread[:, :1], who.steps, who.steps_sd,
                             who.loss, who.size[:, :1])  # fmt: skip
    two = clock.Cohorts(np.repeat(hatching.white, 2, axis=1), np.repeat(hatching.spread, 2, axis=1), who.steps,
                        who.steps_sd, who.loss, who.size[:, :2])  # fmt: skip

    assert clock.awake(MIDDLE, two, season)[0, 1] < 0.1


@pytest.mark.parametrize(
    ("latitude", "day"), [(20.0, None), (36.0, 274), (38.0, 274), (40.5, 259), (47.0, 244), (-41.0, 256)]
)
def test_eggs_begin_to_wait_sooner_in_the_north(latitude, day):
    """Judgement between two published months: September in Hokkaido, October in Missouri; none near the tropics."""
    assert clock.dormant_day_of_year(latitude) == day


def test_eggs_that_wait_take_nothing_from_generations_that_reach_the_roots_in_time():
    """On normals of every place of the table, more than nine in ten eggs of the last generation to turn white before
    R6 hatch: the published months come too late to lower the count of generations."""
    for _, latitude, longitude, planted, end, *_ in SEASONS:
        season, day = normal_season(latitude, longitude, date(2013, *planted), date(2013, *end))
        who = clock.in_season(MIDDLE, season)
        heat = clock.heat_since_planting(MIDDLE, season, np.array([day]))[0, 0]
        last = int((who.white[0] <= heat).sum()) - 1

        assert clock.awake(MIDDLE, who, season)[0, last] > 0.9


def test_a_crop_sown_in_july_keeps_its_last_eggs_for_next_year():
    """A second crop, sown 1 July at 40 N: the last generation to turn white by mid-October is thinned by sleep."""
    season, day = normal_season(40.1, -88.2, date(2013, 7, 1), date(2013, 10, 15))
    who = clock.in_season(MIDDLE, season)
    heat = clock.heat_since_planting(MIDDLE, season, np.array([day]))[0, 0]
    last = int((who.white[0] - who.spread[0] <= heat).sum()) - 1

    assert clock.awake(MIDDLE, who, season)[0, last] < 0.7


def test_an_autumn_generation_in_north_carolina_takes_four_weeks_or_more():
    """Held out: September-November, four weeks at slower rates [AlstonSchmitt1988]; normals of Greensboro.

    True of generations begun from the middle of September on; one begun on the first takes 25 days by our sums.
    """
    climate = climate_at(36.1, -79.94)
    means = (np.array(climate.tmax_c) + np.array(climate.tmin_c)) / 2
    soil = soil_temperature_lagged(interpolate_monthly(means, np.arange(215, 350)))[43:]  # from 15 September
    heat = np.cumsum(daily_heat(soil))

    assert int(np.argmax(heat >= CLOCK["later_generation"].value)) + 1 >= 28


SEASONS = [
    # latitude, longitude, planted, R6, generations to R6 published nearby (low, high) and where
    ("47.3 N, Ada MN", 47.3, -96.5, (5, 18), (8, 22), 2, 3, "2-3 (NdsuDtn2021)"),
    ("43.6 N, Albert Lea MN", 43.65, -93.37, (5, 10), (8, 23), 3, 4, "at most 4 (Sortland1986)"),
    ("42.8 N, Albert City IA", 42.8, -94.9, (5, 8), (8, 25), 3, 4, "one each 28 days (Icm2024)"),
    ("42.4 N, Ridgetown ON", 42.4, -81.9, (5, 15), (8, 26), 3, 4, "3-4 (OmafraScn)"),
    ("40.1 N, Urbana IL", 40.1, -88.2, (5, 5), (8, 22), 3, 5, "3-5 in Ohio (OhioScnPage)"),
    ("38.9 N, Columbia MO", 38.9, -92.3, (5, 10), (8, 28), 3, 6, "3-6 (NdsuDtn2021); one (Yen1995)"),
    ("36.4 N, SE Missouri", 36.4, -89.6, (5, 10), (8, 30), 3, 6, "3-6 (NdsuDtn2021)"),
    ("35.7 N, E North Carolina", 35.7, -77.5, (5, 15), (9, 12), 4, 5, "up to 5 (NcStateScn)"),
    ("35.1 N, W Tennessee", 35.1, -89.2, (5, 10), (9, 1), 4, 6, "up to 6 (Tennessee2025)"),
]


def generations_to(latitude: float, longitude: float, planted: date, end: date) -> float:
    """1 + (heat of the season - heat to infection - first generation) / later generation."""
    season, day = normal_season(latitude, longitude, planted, end)
    heat = clock.heat_since_planting(MIDDLE, season, np.array([day]))[0, 0]
    due = clock._infected(MIDDLE, season)[0][0]
    return float(1 + (heat - due - CLOCK["first_generation"].value) / CLOCK["later_generation"].value)


@pytest.mark.parametrize("season", SEASONS, ids=lambda season: season[0])
def test_generations_per_season_agree_with_counts_published_nearby(season):
    """Consistency, not a blind test: ending at R6 was chosen by its authors after seeing these counts."""
    _, latitude, longitude, planted, end, low, high, _ = season
    count = generations_to(latitude, longitude, date(2013, *planted), date(2013, *end))

    assert low - 0.5 <= count <= high + 0.5


def test_about_one_generation_fewer_at_48_than_at_44_degrees_north():
    """Common practice, no source: three to four near 44 N, about one fewer near 48 N."""
    counts = []
    for latitude, planted in ((44.0, date(2013, 5, 12)), (48.0, date(2013, 5, 20))):
        r6 = usual_r6(latitude, planted.timetuple().tm_yday).middle
        counts.append(generations_to(latitude, -96.0, planted, date(2013, 1, 1) + timedelta(days=r6 - 1)))

    assert 2.5 <= counts[0] <= 4
    assert 0.4 <= counts[0] - counts[1] <= 1.4


def test_later_generations_may_pass_the_first():
    """Common practice, no source: the count at one peak may be passed by the next generation's."""
    who = clock.cohorts(clock.even_states(256))

    assert 0.8 <= np.mean(who.size[:, 1] > 1) <= 0.99


# --- logic ------------------------------------------------------------------------------------------


@given(st.integers(0, 511), st.floats(0, 3000), st.floats(0.1, 200))
@settings(max_examples=80, deadline=None)
def test_a_female_never_turns_back(which, heat, more):
    """With nothing lost from the roots, the females that have reached a colour only grow in number with heat.

    To one in a thousand: the steps are taken as normal, so a few of their far tails cross.
    """
    who = clock.cohorts(clock.even_states(512)[which : which + 1])
    keeping = clock.Cohorts(who.white, who.spread, who.steps, who.steps_sd, np.array([1e9]), who.size)
    numbers = clock.on_roots(keeping, np.array([[heat, heat + more]]))[0]
    reached = np.cumsum(numbers[:, :, ::-1], axis=2)  # brown; tan or brown; ...; out at all

    assert (numbers >= 0).all()
    assert (reached[1] >= reached[0] - 1e-3 * who.size[0][:, None]).all()
    assert (reached[:, :, -1] <= who.size[0] + 1e-6).all()
    lost = clock.on_roots(who, np.array([[heat]]))
    assert (lost.sum(axis=3) <= numbers[0].sum(axis=1) + 1e-3 * who.size[0]).all()


def test_numbers_on_the_roots_match_females_followed_one_by_one():
    """Half a million females with normal turning heats and exponential loss, against the closed form."""
    draw = np.random.default_rng(3)
    who = clock.cohorts(MIDDLE)
    size = 500_000
    white = who.white[0, 0] + who.spread[0, 0] * draw.normal(size=size)
    names = ("white_to_yellow", "yellow_to_tan", "tan_to_brown")
    turns = [white]
    for name in names:
        turns.append(turns[-1] + CLOCK[name].value + CLOCK[f"{name}_sd"].value * draw.normal(size=size))
    turns.append(turns[-1] + draw.exponential(who.loss[0], size))
    for heat in (300.0, 430.0, 520.0, 640.0, 800.0):
        passed = [np.mean(turn <= heat) for turn in turns]
        expected = [passed[i] - passed[i + 1] for i in range(4)]

        assert clock.on_roots(who, np.array([[heat]]))[0, 0, 0] == pytest.approx(expected, abs=0.003)


def test_the_days_of_events_are_where_the_curves_say():
    """Peak and turn read off daily curves agree with the formulas, in many states."""
    states = clock.even_states(64)
    who = clock.cohorts(states)
    peak, turn = clock._peak_offset(who), clock._tan_offset(who)
    offsets = np.arange(-50.0, 400.0, 0.5)
    for i in range(0, 64, 5):
        one = clock.Cohorts(
            np.zeros((1, 1)), who.spread[[i], :1], who.steps[[i]], who.steps_sd[[i]], who.loss[[i]], np.ones((1, 1))
        )
        numbers = clock.on_roots(one, offsets[None])[0, :, 0]
        more = numbers[:, 2] + numbers[:, 3] - numbers[:, 1]
        crossing = offsets[1:][(more[1:] > 0) & (more[:-1] <= 0)]

        assert peak[i, 0] == pytest.approx(offsets[np.argmax(numbers[:, 1])], abs=0.5)
        assert turn[i, 0] == pytest.approx(crossing[-1], abs=0.6)


def test_days_are_found_by_the_heat_they_need():
    """Constant 10 DD5 a day: 95 DD5 are reached during the tenth day; past the arrays the last rate goes on."""
    heat = np.cumsum(np.full((2, 30), 10.0), axis=1)

    assert clock._days_at(heat, np.array([[95.0, 400.0], [10.0, 300.0]])) == pytest.approx(
        np.array([[8.5, 39.0], [0.0, 29.0]])
    )


# --- the sum over states ----------------------------------------------------------------------------


def constant_season(days: int = 170, a_day: float = 16.0, **known) -> clock.Season:
    values = {
        "heat": np.cumsum(np.full(days, a_day)), "bias_heat": np.zeros(days), "unmeasured": np.zeros(days),
        "anchored": True, "planted": 0.0, "planted_sd": 0.0, "roots_end": 125.0, "roots_end_sd": 7.0,
    } | known  # fmt: skip
    return clock.Season(**values)


def test_weighted_states_agree_with_a_long_random_walk():
    """The posterior's heat to the next peak, against 40,000 steps of Metropolis' method on the same likelihood."""
    season = constant_season()
    looks = [clock.Look(28, ((9, 1, 0, 0),), total=10, plants=6, method="shovel"),
             clock.Look(37, ((20, 14, 3, 1),), total=38, plants=6, method="shovel")]  # fmt: skip
    after = clock.posterior(season, looks)
    peak = lambda states: (clock.cohorts(states).white + clock._peak_offset(clock.cohorts(states)))[:, :2]  # noqa: E731
    middle = after.weights @ peak(after.states)
    spread = np.sqrt(after.weights @ (peak(after.states) - middle) ** 2)
    draw = np.random.default_rng(8)
    sheet = clock._sheet(looks, True)
    walkers = draw.normal(size=(200, clock.DIMENSIONS)) * 0.5
    level = clock.log_likelihood(walkers, season, sheet)[0] - 0.5 * (walkers**2).sum(axis=1)
    kept = []
    for step in range(900):
        tried = walkers + 0.35 * draw.normal(size=walkers.shape)
        new = clock.log_likelihood(tried, season, sheet)[0] - 0.5 * (tried**2).sum(axis=1)
        go = np.log(draw.random(len(walkers))) < new - level
        walkers[go], level[go] = tried[go], new[go]
        if step >= 300 and step % 6 == 0:
            kept.append(peak(walkers))
    walked = np.concatenate(kept)

    assert after.effective > 60
    assert middle == pytest.approx(walked.mean(axis=0), abs=6)
    assert spread == pytest.approx(walked.std(axis=0), rel=0.2)


def test_looks_that_say_nothing_leave_the_prior():
    """A season without looks, and looks nobody counted at, weigh all states alike."""
    season = constant_season()
    alone = clock.posterior(season, [])
    empty = clock.posterior(season, [clock.Look(30)])

    assert np.ptp(alone.weights) == 0
    assert empty.effective == pytest.approx(len(empty.weights), rel=0.01)


def test_two_spots_say_more_than_one():
    """Colours counted at two places of a field, kept apart, narrow the clock a little more."""
    season = constant_season()

    def width(*rows) -> float:
        after = clock.posterior(season, [clock.Look(36, rows, total=60, plants=6)])
        white = clock.cohorts(after.states).white[:, 0]
        middle = after.weights @ white
        return float(np.sqrt(after.weights @ (white - middle) ** 2))

    assert width((30, 20, 8, 2), (30, 20, 8, 2)) < width((30, 20, 8, 2))


def test_none_seen_late_speaks_for_a_later_start():
    """A clean dig when females should be out moves the start later; a clean dig in May moves nothing."""
    season = constant_season()

    def start(day: int) -> float:
        looks = [clock.Look(day, total=0, plants=8, method="shovel")]
        after = clock.posterior(season, looks)
        return float(after.weights @ clock.cohorts(after.states).white[:, 0])

    prior = float(clock.cohorts(clock.even_states(384)).white[:, 0].mean())
    assert start(24) > prior + 4
    assert start(5) == pytest.approx(prior, abs=3)


def test_colours_said_without_numbers_count_a_little():
    """ "Mostly yellow" narrows the clock, less than forty females counted by colour."""
    season = constant_season()

    def width(look: clock.Look | None) -> float:
        after = clock.posterior(season, [look] if look else [])
        white = clock.cohorts(after.states).white[:, 0]
        return float(np.sqrt(after.weights @ (white - after.weights @ white) ** 2))

    said = width(clock.Look(38, mostly=(False, True, False, False)))
    assert width(clock.Look(38, ((10, 26, 4, 0),))) < said < width(None)


def test_an_unknown_planting_day_is_learned_from_the_colours():
    """Gone half tan by day 30: it was planted well before the usual day."""
    season = constant_season(planted=40.0, planted_sd=11.0)
    after = clock.posterior(season, [clock.Look(72, ((4, 20, 20, 10),), total=54, plants=6)])
    sown = 40 + 11 * float(after.weights @ after.states[:, clock.PLANTING])

    assert sown < 36


def test_one_parameter_is_one_row_with_a_source_or_called_judgement():
    """Every number of the clock says how well it is known."""
    for name, row in CLOCK.items():
        assert row.name == name
        assert row.known in ("published", "fitted", "judgement", "memory")
        assert row.source or row.known == "judgement", name
    for shares in FOUND_BY_COLOUR.values():
        assert list(shares) == sorted(shares, reverse=True)


# --- made-up seasons --------------------------------------------------------------------------------


def test_windows_hold_what_they_promise_on_a_few_made_up_seasons():
    """Thirty seasons followed female by female: 80 % windows hold roughly that often; ranks lean to neither side."""
    scores = trial(nature.World(), seasons=30, seed=11)

    assert 0.70 <= scores.covered() <= 0.90
    assert 0.38 <= scores.mean_rank() <= 0.62


@pytest.mark.heavy
def test_windows_hold_what_they_promise_over_many_made_up_seasons():
    """Many seasons (400 in full): 75-85 % of each event's windows hold, after none to three visits; ranks are even.

    A window counts when its likely day is still ahead, whatever nature then did. A single cell (one event of one
    generation after so many visits) may miss the band by twice its sampling error.
    """
    scores = trial(nature.World(), seasons=MANY, seed=12)
    band = 0.05 if MANY >= 400 else 0.08  # a short run is allowed its sampling error

    for visits in range(4):
        assert scores.covered(visits) == pytest.approx(0.8, abs=band), visits
    for event in ("first_white", "peak", "turning_tan"):
        assert scores.covered(None, event) == pytest.approx(0.8, abs=band), event
        for number in range(3):
            for visits in range(4):
                cell = len(scores.pick(visits, event, number))
                if cell >= 200:
                    room = 0.05 + 2 * 0.4 / np.sqrt(cell)
                    assert scores.covered(visits, event, number) == pytest.approx(0.8, abs=room), (
                        event,
                        number,
                        visits,
                    )
    # The test of evenness is run on one event a season (the second generation's peak).
    one = np.histogram(scores.ranks(2, "peak", 1), bins=10, range=(0, 1))[0]
    assert stats.chisquare(one).pvalue > 0.001
    counts = np.histogram(scores.ranks(), bins=10, range=(0, 1))[0]
    assert counts.max() / counts.min() < (1.5 if MANY >= 400 else 2)


@pytest.mark.heavy
def test_two_visits_halve_the_ten_day_rule_and_beat_heat_alone():
    """Error of the next peak after two visits: the median at most half of the ten-day rule's, the mean under
    seven eighths of what planting and heat give.

    Half of that cannot be had: a look that knew the very day on which the first generation turned white would hardly
    do better than the clock (docs/science/limits.md).
    """
    errors = trial(nature.World(), seasons=MANY, seed=13).next_peak_errors(2)

    assert np.median(errors["clock"]) * 2 <= np.median(errors["ten days"])
    assert np.mean(errors["clock"]) < 0.875 * np.mean(errors["planting and heat"])
    assert np.mean(errors["clock, same seasons"]) < 1.7 * np.mean(errors["a perfect look"])
    assert np.mean(errors["a perfect look"]) * 2 > 0.95 * np.mean(errors["planting and heat"])
    assert np.mean(errors["all but the weather"]) < 1.5


@pytest.mark.heavy
def test_the_sum_over_states_is_right_where_the_model_is():
    """Counts drawn from the model itself, many fields with one to three looks: standard scores of the truth are
    standard, ranks even. What is tested here is the sampler alone."""
    draw = np.random.default_rng(41)
    scores: list[list[float]] = [[], [], []]
    ranks: list[list[float]] = [[], [], []]
    worth = []
    season = constant_season(days=190, bias_heat=np.cumsum(np.ones(190)))
    peak = lambda states: (  # noqa: E731 - heat of the second peak, soil error of ten weeks taken off
        (clock.cohorts(states).white + clock._peak_offset(clock.cohorts(states)))[:, 1] - 70 * states[:, clock.BIAS]
    )
    for _ in range(MANY):
        truth = draw.normal(size=(1, clock.DIMENSIONS))
        looks: list[clock.Look] = []
        day = int(draw.integers(28, 46))
        for number in range(3):
            looks.append(drawn_look(truth, season, day, number, draw))
            after = clock.posterior(season, looks)
            values, true = peak(after.states), float(peak(truth)[0])
            middle = float(after.weights @ values)
            scores[number].append((true - middle) / float(np.sqrt(after.weights @ (values - middle) ** 2)))
            ranks[number].append(float(after.weights @ (values < true)))
            worth.append(after.effective)
            day += int(draw.integers(7, 15))

    for number in range(3):
        assert 0.88 <= np.std(scores[number]) <= 1.13
        assert stats.kstest(ranks[number], "uniform").pvalue > 0.001
    assert np.quantile(worth, 0.01) > 15
    assert np.median(worth) > 100


def drawn_look(truth: np.ndarray, season: clock.Season, day: int, number: int, draw: np.random.Generator) -> clock.Look:
    """A look drawn from the very distribution by which the clock weighs one."""
    plants = int(draw.integers(4, 11))
    shift = CLOCK["plant_lag_sd"].value / np.sqrt(max(CLOCK["clump_share"].value * plants, 1))
    heat = clock.heat_since_planting(truth, season, np.array([day])) + shift * truth[0, clock.OWN + number]
    who = clock.cohorts(truth)
    likely = clock.on_roots(who, np.maximum(heat, 0)).sum(axis=2) * np.array(FOUND_BY_COLOUR["shovel"]) * 0.5
    alive = ndtr((season.roots_end + season.roots_end_sd * truth[0, clock.ROOTS] - day) / 3)
    density = season.females[0] * np.exp(season.females[1] * truth[0, clock.DENSITY])
    mean = plants * max(density * likely.sum() * alive / clock._height(who)[0], 1e-3)
    shape = CLOCK["total_shape"].value
    total = int(draw.poisson(draw.gamma(shape, mean / shape)))
    if total == 0:
        return clock.Look(day, total=0, plants=plants, method="shovel", recovery=0.5)
    honest = draw.random() > CLOCK["blunder_share"].value
    mix = CLOCK["colour_concentration"].value * clock._misread(likely)[0, 0] if honest else np.ones(4)
    counts = draw.multinomial(total, draw.dirichlet(mix))
    return clock.Look(day, (tuple(int(n) for n in counts),), total=total, plants=plants, method="shovel", recovery=0.5)


def test_the_simulator_is_not_the_model():
    """Nature here draws gamma durations for single females: never negative, and skewed as the clock's are not."""
    draws = nature.gamma(np.random.default_rng(1), 80.0, 30.0, 20_000)

    assert draws.min() > 0
    assert stats.kstest(draws, gamma_of((80 / 30) ** 2, scale=30**2 / 80).cdf).pvalue > 0.001
    assert NORMAL_CLIMATE.tmax_c[6] > 25
