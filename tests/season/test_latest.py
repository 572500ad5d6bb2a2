"""Latest times to leave that hang on more than the hours of the day: lags, slow hours."""

from dataclasses import replace

import pytest

from runplanner.daybook.plan import Plan
from runplanner.season import limits
from runplanner.season.limits import LAG_MIN
from tests.outfits import a_yard, an_outfit
from tests.season.shapes import planned
from tests.season.tiny import four, tiny, waits_for_the_bees


def late_by(plan: Plan) -> list[list[int]]:
    """How many minutes later than planned each call may be left, by trip."""
    return [
        [call.latest_leave_min - call.leave_min for call in trip.calls]
        for shift in plan.shifts
        for trip in shift.trips
    ]


def test_a_round_days_later_leaves_an_hour_to_be_late_and_no_more() -> None:
    """The second round comes 27 hours after the first, to the minute: lags are not that exact.

    Loading may end an hour late; the yard itself may be left when its syrup's hours end, for
    the lag counts from the minute the feed began.
    """
    first, second = late_by(planned(waits_for_the_bees()))

    assert LAG_MIN == first[0]
    assert LAG_MIN < min(*first[1:], *second)


def test_without_the_chain_a_latest_time_would_know_no_lag(monkeypatch: pytest.MonkeyPatch) -> None:
    """What bounds it is the chain, not the day."""
    monkeypatch.setattr(limits, "_chains_hold", lambda *_: True)

    assert LAG_MIN < late_by(planned(waits_for_the_bees()))[0][0]


def test_nobody_leaves_into_slow_hours_that_pass_the_longest_driving() -> None:
    """Two legs of 10 minutes; from ten on each takes 30, and 50 minutes of driving are allowed."""
    even = tiny([(10, 0)], [four(1, 1)], 1)
    slow = tuple(3000 if hour >= 10 else 1000 for hour in range(24))
    busy = replace(even, travel=replace(even.travel, by_hour=slow))
    (free,), (bound,) = (
        late_by(planned(replace(busy, hours=replace(busy.hours, driving_max_min=most))))
        for most in (540, 50)
    )

    assert bound[0] < free[0]
    assert bound[1:] == free[1:]


@pytest.mark.parametrize(("end_min", "late"), [(1085, 22), (1100, 37), (1140, 62)])
def test_who_rests_as_long_as_from_driving_may_be_as_late_as_the_day_lets_him(
    end_min: int, late: int
) -> None:
    """Home at 17:43 by one break of 45 min in the work; with 30 and 45 it would be 18:13.

    At 18:45 six hours of duty are over since that break.
    """
    outfit = an_outfit([(180, 0)], [a_yard(1, colonies=24, boxes=36, days=4)], days=4)
    hours = replace(outfit.hours, end_min=end_min, duty_max_min=15 * 60)
    plan = planned(replace(outfit, hours=hours), rounds=3)
    ((_, _, unloading),) = late_by(plan)

    assert [(720, 765)] == [(rest.start_min, rest.end_min) for rest in plan.shifts[0].breaks]
    assert late == unloading


def test_a_break_that_was_had_is_made_no_longer_by_who_stays_late() -> None:
    """130 min out and, left at 13:00, 120 + 20 back, for from 15:00 on drives take twice as long.

    With those 270 min a break of 30 at noon will do.  Who leaves later has had no 45.
    """
    outfit = an_outfit([(130, 0)], [a_yard(1, colonies=23, boxes=35, days=4)], days=4)
    slow = tuple(2000 if hour >= 15 else 1000 for hour in range(24))
    plan = planned(replace(outfit, travel=replace(outfit.travel, by_hour=slow)), rounds=3)
    _, yard, _ = plan.shifts[0].trips[0].calls

    assert [(720, 750)] == [(rest.start_min, rest.end_min) for rest in plan.shifts[0].breaks]
    assert (13 * 60, 13 * 60) == (yard.leave_min, yard.latest_leave_min)
