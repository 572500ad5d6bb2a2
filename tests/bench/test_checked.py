"""Plans of published instances are measured by the instance alone, and what they break is said."""

from dataclasses import replace

import pytest

from tests.bench.checked import BrokenError, Trips, length, minutes
from tests.bench.instances import Instance
from tests.bench.periodic import Periodic

LEGS = [[0, 4, 6, 8], [4, 0, 3, 5], [6, 3, 0, 2], [8, 5, 2, 0]]
GIVEN = Instance(
    LEGS, [3, 4, 2], [2, 0, 1], 2, 7, [(0, 9), (0, 20), (0, 30)], 1,
    released=[0, 0, 12], trips=True, horizon=40,
)  # fmt: skip
ROUND = Periodic(LEGS, [4, 4], [1, 1], [2, 1], [3], 4, 1, 9, 24)


def test_trips_are_as_long_as_their_legs() -> None:
    """0-1-2-0 is 4 + 3 + 6, back at 15; then 0-3-0 is 16 more."""
    assert 29 == length(GIVEN, [[[0, 1], [2]]])
    assert 29 == length(replace(GIVEN, hours=None), [[[0, 1]], [[2]]])


@pytest.mark.parametrize(
    ("days", "other", "broken"),
    [
        ([[[0, 1]]], {}, "not everybody"),
        ([[[0, 1], [2, 2]]], {}, "not everybody"),
        ([[[0]], [[1]], [[2]]], {}, "too many vehicles"),
        ([[[0, 1], [2]]], {"trips": False}, "goes out twice"),
        ([[[0, 1, 2]]], {}, "aboard"),
        ([[[0, 1], [2]]], {"into": [8, 0, 1]}, "loaded"),
        ([[[1, 0], [2]]], {}, "too late"),
        ([[[0, 1], [2]]], {"horizon": 31}, "back too late"),
        ([[[0, 1], [2]]], {"released": [6, 0, 12]}, "too late"),
    ],
)
def test_what_a_plan_breaks_is_said(
    days: list[Trips], other: dict[str, object], broken: str
) -> None:
    """One rule broken at a time: people served, vehicles, loads, hours, the end, releases."""
    with pytest.raises(BrokenError, match=broken):
        length(replace(GIVEN, **other), days)  # type: ignore[arg-type]


def test_minutes_pass_the_facility_before_every_trip() -> None:
    """0-3-1-0 is 8 + 5 + 4; with customer 2 behind 1 it is 8 + 5 + 3 + 6."""
    assert 17 + 22 == minutes(ROUND, [(0, [[0]]), (2, [[0, 1]])])
    other = replace(ROUND, longest=60)
    assert 17 + 8 + 5 + 5 + 2 + 6 == minutes(other, [(1, [[0]]), (3, [[0], [1]])])


@pytest.mark.parametrize(
    ("days", "other", "broken"),
    [
        ([(0, [[0]])], {}, "too seldom"),
        ([(0, [[0]]), (1, [[0, 1]])], {}, "not spaced"),
        ([(0, [[0]]), (2, [[0]]), (2, [[1]])], {}, "too many vehicles"),
        ([(0, [[0]]), (2, [[0, 1]])], {"capacity": 7}, "loaded"),
        ([(0, [[0]]), (2, [[0, 1]])], {"longest": 23}, "too long"),
    ],
)
def test_what_a_period_breaks_is_said(
    days: list[tuple[int, Trips]], other: dict[str, int], broken: str
) -> None:
    """One rule broken at a time: visits, their spacing, vehicles, loads, a day's length."""
    with pytest.raises(BrokenError, match=broken):
        minutes(replace(ROUND, **other), days)  # type: ignore[arg-type]
