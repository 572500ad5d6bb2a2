"""Latest times to leave that hang on more than the hours of the day: lags, slow hours."""

from dataclasses import replace

import pytest

from runplanner.daybook.plan import Plan
from runplanner.outfit.yards import Clearing
from runplanner.season import limits
from runplanner.season.limits import LAG_MIN, latest_leaves
from runplanner.season.standing.keeper import Keeper
from runplanner.trips.day import Day
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop
from tests.outfits import a_yard, an_outfit, daily
from tests.season.shapes import planned
from tests.season.tiny import ANN, four, tiny, waits_for_the_bees


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


def test_boards_put_on_late_still_have_the_night_they_want() -> None:
    """They are on at 15:14 for 16 hours, and the yard is cleared at 8:00: 46 minutes and the lag.

    Any hour of the evening but for that: the yard may be worked till 19:00.
    """
    yard = four(1, 3, clearing=Clearing.BOARDS, open_spans=daily(8 * 60, 19 * 60, range(3)))
    outfit = tiny([(10, 0)], [yard], 3, people=(ANN,))
    keeper = Keeper(Ground(replace(outfit, rules=replace(outfit.rules, board_least_min=16 * 60))))
    on = Day(0, 0, ((Stop(0, boards=4, from_min=15 * 60),),))
    off = Day(1, 0, ((Stop(0, off=4, boxes=6, round=1, fed=4, strips=True),),))
    state = keeper.replace_all(keeper.empty(), {(0, 0): on, (1, 0): off})
    assert state is not None

    _, leave, _ = latest_leaves(keeper, state, state.days[0, 0])
    assert 15 * 60 + 14 == state.days[0, 0].run.times[1].leave_min
    assert 16 * 60 + LAG_MIN == leave


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
