"""A crew's own trial replaces the judgement about recovery."""

from __future__ import annotations

import numpy as np
import pytest

from notes_bot.science import detection
from notes_bot.science.digging_trial import Plant, compare_methods, measured, read_trial

SHEET = """\
# field of the first trial, two scouts
method,soaked,soil,found,left
shovel,yes,loam,4,3
shovel,yes,loam,0,2
shovel, no, clay, 1, 9
pulled,no,dry,0,12
"""


def _row(table: tuple[detection.Recovery, ...], method: str, soaked: bool, condition: str) -> detection.Recovery:
    return next(r for r in table if (r.method, r.soaked, r.condition) == (method, soaked, condition))


def test_a_sheet_is_read_line_by_line() -> None:
    """Comments are skipped, spaces forgiven."""
    plants = read_trial(SHEET.splitlines())

    assert len(plants) == 4
    assert plants[2] == Plant("shovel", False, "clay", 1, 9)


@pytest.mark.parametrize(
    ("line", "complaint"),
    [
        ("spoon,no,loam,1,2", "line 2: method"),
        ("shovel,maybe,loam,1,2", "line 2: soaked"),
        ("shovel,no,moon,1,2", "line 2: soil"),
        ("shovel,no,loam,one,2", "line 2: found and left"),
        ("shovel,no,loam,-1,2", "line 2: found and left"),
    ],
)
def test_a_wrong_line_is_named(line: str, complaint: str) -> None:
    """Nothing is guessed in a table that everything rests on."""
    with pytest.raises(ValueError, match=complaint):
        read_trial(["method,soaked,soil,found,left", line])


def test_missing_columns_are_named() -> None:
    """A sheet without the second look is no trial."""
    with pytest.raises(ValueError, match="left"):
        read_trial(["method,soaked,soil,found", "shovel,no,loam,1"])


def test_rows_the_trial_does_not_speak_of_stay() -> None:
    """An own number for the shovel says nothing of pulling."""
    table = measured(read_trial(SHEET.splitlines()))

    assert _row(table, "eased", False, "loam") == _row(detection.RECOVERIES, "eased", False, "loam")
    assert _row(table, "shovel", False, "clay").source == "own trial"
    assert _row(table, "shovel", False, "clay").chance < 0.2


def test_a_trial_of_thirty_plants_finds_the_true_chance() -> None:
    """Simulated plants of a crew that sees 70 %, where the table says 50 %."""
    rng = np.random.default_rng(7)
    plants = []
    for _ in range(30):
        on_root = int(rng.negative_binomial(1.2, 1.2 / 13.2))
        found = int(rng.binomial(on_root, rng.beta(7, 3)))
        plants.append(Plant("shovel", True, "loam", found, on_root - found))
    row = _row(measured(plants), "shovel", True, "loam")

    assert row.chance == pytest.approx(0.7, abs=0.08)
    assert 20 < row.weight <= 40


def test_many_females_on_few_plants_are_not_many_observations() -> None:
    """Two plants with hundreds of females are still two plants."""
    few = _row(
        measured([Plant("shovel", True, "loam", 90, 10), Plant("shovel", True, "loam", 20, 80)]), "shovel", True, "loam"
    )

    assert few.weight < 20


def test_an_own_table_changes_what_a_look_is_worth() -> None:
    """A crew that sees more may dig fewer plants."""
    plants = [Plant("shovel", True, "loam", 9, 1)] * 30
    own = detection.recovery_beta("shovel", True, "moist", "loam", table=measured(plants))
    usual = detection.recovery_beta("shovel", True, "moist", "loam")
    needed = [detection.plants_to_dig(0.9, beta) for beta in (own, usual)]

    assert needed[0] is not None
    assert needed[1] is not None
    assert needed[0] < needed[1]


def test_two_ways_of_digging_are_compared_by_their_ratio() -> None:
    """A shovel that shows twice as many says so, with its doubt."""
    rng = np.random.default_rng(1)
    shovel, pulled = (rng.negative_binomial(1.5, 1.5 / (1.5 + m), 40).tolist() for m in (8.0, 4.0))
    low, middle, high = compare_methods(shovel, pulled)

    assert low < 2.0 < high
    assert 1.2 < middle < 3.2
