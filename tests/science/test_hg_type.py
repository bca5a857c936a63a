"""HG type and race: published cases, all 128 outcomes, all 16 races, and tests that cannot be rated."""

from __future__ import annotations

import csv
from itertools import product
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notes_bot.science import hg_type
from notes_bot.science.hg_type import is_positive, positive_lines, race, rating, read_test, sources, type_name

PUBLISHED = Path(__file__).parents[1] / "published"


def _rows(name: str) -> list[dict[str, str]]:
    with (PUBLISHED / name).open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


def _test(check: float, *means: float, **more: object):
    return read_test([check], {n: [m] for n, m in enumerate(means, start=1)}, **more)


def test_all_128_outcomes_have_their_own_name_and_come_back():
    """Every set of positive lines gives one name, the counts behind it give it too, and it reads back."""
    names = set()
    for signs in product((False, True), repeat=7):
        lines = [n for n, sign in enumerate(signs, start=1) if sign]
        name = type_name(lines)
        counted = "0" if not lines else ".".join(map(str, lines))
        assert name == counted
        assert positive_lines(f"HG type {name}") == tuple(lines)
        names.add(name)

    assert len(names) == 128


def test_all_128_outcomes_come_out_of_counts():
    """Means of 60 and of 2 on a check of 200 give each name."""
    for signs in product((False, True), repeat=7):
        lines = [n for n, sign in enumerate(signs, start=1) if sign]
        assert _test(200, *(60 if sign else 2 for sign in signs)).name == (".".join(map(str, lines)) or "0")


@pytest.mark.parametrize("name", ["0", "7", "2.5.7", "5.7", "1.2.5.7", "2.7", "1.3", "1.2.3.4.5.6.7"])
def test_names_seen_in_surveys_are_names(name):
    """North Dakota 2015-17, Hua et al. 2018, Lian et al. 2017."""
    assert type_name(positive_lines(name)) == name


@pytest.mark.parametrize("wrong", ["2.5.8", "5.2", "2.2", "", "two", "0.2"])
def test_names_no_population_can_have_are_refused(wrong):
    """Numbers run from 1 to 7, rise, and do not repeat."""
    with pytest.raises(ValueError, match="HG type"):
        positive_lines(wrong)


@pytest.mark.parametrize("row", _rows("hg_boundary_checks_constructed.csv"), ids=lambda r: r["case"])
def test_cases_made_from_the_rule(row):
    """Nine constructed cases about the limit (made from the rule: no outside evidence)."""
    lines = {n: [float(row[f"mean_{n}"])] for n in range(1, 8) if row[f"mean_{n}"] != "not tested"}
    found = read_test([float(row["check_mean"])], lines)

    if row["case"] == "B6":
        assert found.name is None
        assert found.troubles == ("no_females_on_check",)
    elif row["case"] == "B7":
        assert found.name is None
        assert "check_low" in found.troubles
        assert found.would_read == "2.5.7"
    elif row["case"] == "B9":
        assert found.name is None
        assert found.would_read == "2"
        assert found.not_tested == (1, 3, 4, 5, 6, 7)
    else:
        assert found.name == row["expected_type"]


def test_at_exactly_ten_the_two_published_wordings_differ():
    """ "10 or more" (Wisconsin leaflet, South Dakota survey) counts; higher than ten (Zheng et al. 2006) does not."""
    found = _test(200, 20, 0, 0, 0, 0, 0, 0)

    assert found.name == "1"
    assert found.lines[0].at_limit
    assert is_positive(10.0)
    assert not is_positive(10.0, "above")
    assert is_positive(10.01, "above")


def test_the_shanxi_population_is_positive_on_all_seven():
    """Lian et al. 2017: check 323.17, FI 44.18 (PI 88788) to 97.83 (PI 548316): 142.8 and 316.2 females."""
    found = _test(323.17, 200, 142.8, 200, 200, 200, 200, 316.2)

    assert found.name == "1.2.3.4.5.6.7"
    assert found.lines[1].fi == pytest.approx(44.18, abs=0.02)
    assert found.lines[6].fi == pytest.approx(97.83, abs=0.02)


def test_an_index_above_one_hundred_is_accepted_and_reads_race_4():
    """Lian et al. 2017: FI 117.32 on Pickett, 61.31 on PI 88788: all four race lines positive, race 4."""
    check = 171.40
    found = read_test(
        [check], {1: [check * 0.9], 2: [check * 0.6131], 3: [check * 0.9]}, pickett=[check * 1.1732], plants=10
    )

    assert found.pickett.fi == pytest.approx(117.32)
    assert found.race == 4


def test_too_many_eggs_alone_turn_race_6_into_race_14():
    """Wang, Riggs & Crippen: 34 on Peking and 14 on PI 90763 at 10,000 eggs a pot."""
    assert race(50, 34, 5, 14) == 14
    assert race(50, 5, 5, 5) == 6


@pytest.mark.parametrize("row", _rows("race_patterns.csv"), ids=lambda r: r["race"])
def test_all_sixteen_races(row):
    """Riggs & Schmitt 1988; the pattern as kept in the published table."""
    fi = [30.0 if row[line] == "+" else 3.0 for line in ("Pickett", "Peking", "PI_88788", "PI_90763")]

    assert race(*fi) == int(row["race"])


def test_sixteen_patterns_are_all_different():
    """Every outcome on four lines is a race."""
    assert len(hg_type.RACES) == 16
    assert sorted(hg_type.RACES.values()) == list(range(1, 17))


def test_the_race_table_gives_the_minnesota_counts():
    """Zheng et al. 2006: 7, 46, 1, 4 and 1 populations of races 1, 3, 4, 6, 14 are 6, 2, 8, 2 positive a line."""
    populations = {1: 7, 3: 46, 4: 1, 6: 4, 14: 1}
    by_race = {number: signs for signs, number in hg_type.RACES.items()}
    positive = [sum(n for number, n in populations.items() if by_race[number][line]) for line in range(4)]

    assert positive == [6, 2, 8, 2]


def test_the_race_table_gives_the_tennessee_count_on_pi_90763():
    """Young 1990: of 21 populations 19 were below 10 on PI 90763 (on PI 88788 it prints 7 where the table has 8)."""
    populations = {2: 3, 3: 1, 4: 2, 5: 8, 6: 4, 9: 3}
    by_race = {number: signs for signs, number in hg_type.RACES.items()}

    assert sum(n for number, n in populations.items() if not by_race[number][3]) == 19
    assert sum(n for number, n in populations.items() if not by_race[number][2]) == 8


@pytest.mark.parametrize(("one", "other"), [(1, 5), (5, 15), (14, 9), (14, 4)])
def test_races_mistaken_for_each_other_differ_on_one_line(one, other):
    """Misreadings reported by Wang, Riggs & Crippen."""
    by_race = {number: signs for signs, number in hg_type.RACES.items()}

    assert sum(a != b for a, b in zip(by_race[one], by_race[other], strict=True)) == 1


@pytest.mark.parametrize(
    "row", [r for r in _rows("female_index_ratings.csv") if r["case"] != "R8"], ids=lambda r: r["case"]
)
def test_published_indices_get_their_rating(row):
    """Lian et al. 2017 and Poromarto & Nelson 2009, rated by Schmitt & Shannon 1992."""
    assert rating(float(row["fi"])) == row["rating_schmitt_shannon"]


@pytest.mark.parametrize(
    ("fi", "word"), [(0, "R"), (9.99, "R"), (10, "MR"), (29.9, "MR"), (30, "MS"), (60, "MS"), (60.1, "S"), (117, "S")]
)
def test_limits_of_the_rating(fi, word):
    """Below 10, 30, 60 and above; where 30 and 60 belong is a convention here."""
    assert rating(fi) == word


def test_a_failed_check_is_not_rated():
    """Too few females on the check: no name, no race, no chances."""
    found = read_test([40, 50, 45, 42, 48], {n: [10] * 5 for n in range(1, 8)}, pickett=[10] * 5)

    assert found.name is None
    assert found.race is None
    assert found.chances == ()


def test_a_line_near_ten_is_uncertain_and_both_names_get_their_chance():
    """FI 10 on line 5: type 2.5.7 and type 2.7 are about as likely."""
    found = read_test(
        [210, 190, 205, 170, 240],
        {1: [2, 0, 1, 3, 0], 2: [66, 50, 71, 80, 44], 3: [0] * 5, 4: [0] * 5, 5: [20, 18, 25, 17, 22],
         6: [0, 2, 0, 0, 1], 7: [88, 70, 60, 75, 90]},
    )  # fmt: skip
    line = next(i for i in found.lines if i.number == 5)

    assert line.uncertain
    assert line.low < 10 < line.high
    assert dict(found.chances)["2.5.7"] == pytest.approx(0.5, abs=0.15)
    assert dict(found.chances)["2.7"] == pytest.approx(0.5, abs=0.15)


def test_chances_of_the_names_sum_to_about_one():
    """Names below 1 % are left out, no more."""
    found = _test(200, 18, 60, 22, 0, 30, 1, 50, plants=5)

    assert 0.8 < sum(chance for _, chance in found.chances) <= 1.0


def test_the_interval_of_an_index_holds_the_truth_about_as_often_as_it_says():
    """Simulated pots with the clumping taken as usual: the 80 % interval covers FI 20 in about 80 of 100."""
    rng = np.random.default_rng(11)

    def pots(mean: float) -> list[int]:
        return list(rng.negative_binomial(4, 4 / (4 + mean), 5))

    held = 0
    for _ in range(150):
        found = read_test(pots(250), {2: pots(50)})
        held += found.lines[0].low <= 20 <= found.lines[0].high

    assert 0.7 <= held / 150 <= 0.9


def test_sources_are_ranked_by_their_own_line_and_carry_their_group():
    """Type 2.5.7: Peking and PI 437654 hold, PI 88788 does not, with lines 5 and 7 beside it."""
    found = sources(_test(200, 2, 80, 1, 0, 40, 1, 90))

    assert [s.source for s in found][-1] == "PI 88788"
    assert found[-1].standing == "broken"
    assert found[-1].group_positive == (5, 7)
    assert {s.standing for s in found[:-1]} == {"holds"}


def test_a_short_test_says_what_was_not_tested():
    """Lines 1, 2 and 4 alone give no full HG type."""
    found = read_test([200], {1: [2], 2: [60], 4: [0]})

    assert found.name is None
    assert found.would_read == "2"
    assert "partial" in found.troubles


@settings(max_examples=25, deadline=None)
@given(st.lists(st.floats(0, 600), min_size=7, max_size=7), st.floats(100, 600))
def test_any_counts_give_a_name_or_a_reason(means, check):
    """No counts break the reading, and intervals hold the estimate."""
    found = _test(check, *means, plants=5)

    assert found.name is not None
    assert all(i.low <= i.high for i in found.lines)
    assert all(0.0 <= i.chance_positive <= 1.0 for i in found.lines)


@pytest.mark.parametrize(("check", "lines"), [([], {1: [3]}), ([200], {8: [3]}), ([200], {1: [-1]})])
def test_impossible_tests_are_refused(check, lines):
    """Nothing counted, a line that does not exist, less than nothing."""
    with pytest.raises(ValueError, match=r"counts|numbered"):
        read_test(check, lines)


def test_a_survey_speaks_only_for_its_own_place():
    """Missouri 2016: 28 of 28; a place without a survey has none."""
    assert hg_type.survey("Missouri", "PI 88788").share == 1.0
    assert hg_type.survey("Indiana", "PI 88788").share == 0.88
    assert hg_type.survey("Ontario", "PI 88788") is None
