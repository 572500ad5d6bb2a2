from collections.abc import Mapping
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as some

from runplanner.haulage.rush import Rush
from runplanner.roads.hours import at_best, by_hour


def driven(minutes: Fraction | int, factors: Mapping[int, int], hour: int) -> int:
    """What the clock makes of a drive of ``minutes`` begun at that hour."""
    return Rush(by_hour(factors) or (1000,) * 24)(at_best(minutes, factors), hour * 60)


def test_factors_are_told_from_the_best_hour() -> None:
    """A missing hour is driven as it is; 1000 / 700 is 1428.6, so 1428."""
    assert (1400, 1000) == by_hour({7: 1400})[7:9]
    assert (1000, 1428, 2000) == tuple(by_hour({3: 700, 7: 1400})[hour] for hour in (3, 4, 7))
    assert () == by_hour({})
    assert () == by_hour(dict.fromkeys(range(24), 1300))


@pytest.mark.parametrize(
    ("minutes", "factor", "night", "day"),
    [
        (7, 900, 6, 7),  # 6.3 at night
        (7, 600, 4, 7),  # 4.2
        (20, 700, 14, 20),  # 14 x 1.429 were 20.006
        (3, 600, 2, 4),  # one minute of the night is 1.7 of the day, two 3.3
        (1, 600, 1, 2),
        (0, 600, 0, 0),
        (Fraction(29, 4), 600, 5, 9),  # eight minutes: four of the night are 6.7, five 8.3
        (7, 1200, 7, 7),
    ],
)
def test_a_drive_takes_by_day_what_was_told(
    minutes: Fraction | int, factor: int, night: int, day: int
) -> None:
    """One hour's factor at night leaves the day as it is, as far as whole minutes can."""
    assert night == at_best(minutes, {2: factor})
    assert day == driven(minutes, {2: factor}, 12)


@given(some.integers(1, 600), some.dictionaries(some.integers(3, 21), some.integers(300, 3000)))
def test_hours_at_100_percent_take_what_was_told(minutes: int, factors: dict[int, int]) -> None:
    """It is the least that does; other hours have their share of it, but for a thousandth."""
    made, hours = at_best(minutes, factors), by_hour(factors) or (1000,) * 24

    assert -(-made * hours[0] // 1000) >= minutes > -(-(made - 1) * hours[0] // 1000)
    for hour in range(24):
        assert (minutes - 1) * factors.get(hour, 1000) - made <= made * hours[hour]


def test_where_no_hour_is_told_drives_round_up() -> None:
    """11 minutes at 1.3 are 14.3, so 15; 7.25 at 1.2 are 8.7, so 9."""
    all_day = dict.fromkeys(range(24), 1300)
    assert (15, 15) == (at_best(11, all_day), driven(11, all_day, 7))
    assert 9 == at_best(Fraction(29, 4), dict.fromkeys(range(24), 1200))
