from fractions import Fraction

import numpy as np

from runplanner.roads.matrix import Matrix
from runplanner.roads.table import Stretch, rows

NONE = Stretch(0, 0)


def found(cs: list[list[int]], dm: list[list[int]]) -> Matrix:
    """A matrix by hand."""
    return Matrix(np.array(cs, dtype=np.int64), np.array(dm, dtype=np.int64))


def test_minutes_and_metres_round_up() -> None:
    """6,000 hundredths are a minute; one more begins the next; decimetres likewise."""
    minutes, metres = rows(
        found([[0, 6000], [6001, 0]], [[0, 10], [11, 0]]), (NONE, NONE), Fraction(1), {}
    )

    assert ((0, 1), (2, 0)) == minutes
    assert ((0, 1), (2, 0)) == metres


def test_no_road_is_none() -> None:
    """Where no road leads neither minutes nor metres are said."""
    minutes, metres = rows(
        found([[0, -1], [600, 0]], [[0, -1], [99, 0]]), (Stretch(5, 5), NONE), Fraction(1), {}
    )

    assert ((0, None), (6, 0)) == minutes
    assert ((0, None), (15, 0)) == metres


def test_last_stretches_are_added_and_scaled_by_the_hour_alone() -> None:
    """Ten minutes by road at 1.1, three and four across the paddocks, all at 1.5."""
    minutes, metres = rows(
        found([[0, 60_000], [60_000, 0]], [[0, 1000], [1000, 0]]),
        (Stretch(3, 200), Stretch(4, 300)), Fraction(11, 10), dict.fromkeys(range(24), 1500),
    )  # fmt: skip

    # 10 x 1.1 and 7 are 18; 18 x 1.5 = 27.  100 m and 500 m: 600.
    assert ((0, 27), (27, 0)) == minutes
    assert ((0, 600), (600, 0)) == metres
