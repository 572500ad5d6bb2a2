"""The last day on which a feed round is of use leaves room for those that follow, hour by hour."""

from dataclasses import replace

import pytest

from runplanner.season.search.improve import Improver
from runplanner.trips.ground import Ground
from tests.outfits import an_outfit

DAYS = 16


def _fits(first_day: int, later: int, gap_min: int, opens_min: int, closes_min: int) -> bool:
    """Feed as early as can be on the first day, then as soon as may be in hours of some day."""
    at = first_day * 1440 + opens_min
    for _ in range(later):
        at += gap_min
        if at % 1440 > closes_min:
            at += 1440 - at % 1440 + opens_min
        at = max(at, at - at % 1440 + opens_min)
    return at // 1440 < DAYS


@pytest.mark.parametrize("gap_min", [1, 700, 1440, 1500, 2000, 2280, 2281, 3960, 4000])
@pytest.mark.parametrize("rounds", [1, 2, 4])
def test_the_last_day_is_the_last_from_which_all_rounds_follow(gap_min: int, rounds: int) -> None:
    outfit = an_outfit(days=DAYS)
    ground = Ground(outfit)
    ground.dues = tuple(replace(due, rounds=rounds, round_gap_min=gap_min) for due in ground.dues)
    hours = outfit.hours
    take_offs = Improver(ground, 1).builder.take_offs
    wanted = max(
        day
        for day in range(DAYS)
        if _fits(day, rounds - 1, gap_min, hours.start_min, hours.end_min)
    )
    assert take_offs.last_day(0, 1, rounds) >= wanted
    assert take_offs.last_day(0, 1, rounds) - wanted <= (gap_min % 1440 > 0) * max(0, rounds - 2)
    if rounds <= 2:
        assert take_offs.last_day(0, 1, rounds) == wanted


def test_what_is_fed_is_not_fed_again() -> None:
    """No stop is put in where a round lacks nothing: nothing would be done there."""
    improver = Improver(Ground(an_outfit(days=DAYS)), 1)
    state = improver.construct()

    assert improver.builder._feed(state, 0, 1, 1) is state
