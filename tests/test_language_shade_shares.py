"""Colors told as shares of a sum, and shares of something else."""

from __future__ import annotations

import pytest

from tests.reading_kit import note_of


@pytest.mark.parametrize(
    ("text", "counts"),
    [
        ("Kestrel, 15 females over 5 plants, 2/3 of them white and 1/3 yellow. spade", (10, 5, 0, 0)),
        ("Kestrel: half a dozen plants dug, 18 females, half white half yellow. Loamy sand", (9, 9, 0, 0)),
        ("Kestrel 6 plants, 21 cysts, a third yellow, two thirds white", (14, 7, 0, 0)),
        ("Kestrel 6 plants, 20 cysts, 80 percent white and 20 percent tan", (16, 0, 4, 0)),
        ("Kestrel 6 plants, 20 cysts, a quarter of them white and the rest brown", (5, 0, 0, 15)),
        ("Kestrel 10 plants, 40 females total. 1/2 white, 1/4 yellow, 1/4 tan", (20, 10, 10, 0)),
        ("Kestrel 6 plantas, 20 hembras, la mitad blancas y la otra mitad amarillas", (10, 10, 0, 0)),
        ("Kestrel 6 plantas, 20 fêmeas, 3/4 delas brancas, o resto amarelas", (15, 5, 0, 0)),
        ("Kestrel 6 plants, 19 females, half white half yellow", (None,) * 4),
        ("Kestrel 6 plants, 20 cysts, about 80% white, rest yellow", (None,) * 4),
        ("Kestrel 6 plants, 20 females, half white", (None,) * 4),
    ],
)
def test_shares_of_a_sum(text, counts):
    """Counts where they come out even and nobody guessed; else the colors without numbers."""
    females = note_of(text).females
    assert (females.white, females.yellow, females.tan, females.brown) == counts


@pytest.mark.parametrize(
    "text",
    [
        "Kestrel, tops yellow in patches on 1/4 of it. 4 dug, 4/4 had cysts, not counted",
        "Kestrel 1/3 of the field yellow, 5 plants none",
        "Kestrel 2/3 of the roots dark. 5 plants none",
    ],
)
def test_a_share_of_something_else_is_no_day(text):
    assert note_of(text).date is None
