"""Hours worked by hand: windows, nights, lags of the chain, breaks.

The outfits and their minutes are those of ``test_worked_loads``: alone at a yard of four,
Ann takes 50 min for everything, 42 without feed and strips but with blocks, and is 99 min
away when it lies 10 km off.
"""

from dataclasses import replace
from itertools import pairwise

from runplanner.daybook.trip import Job
from runplanner.days import DAY_MIN, Span
from runplanner.outfit.outfit import Deadline
from runplanner.outfit.stores import Strips
from runplanner.outfit.yards import Access, Clearing
from tests.outfits import an_outfit, daily
from tests.season.shapes import DONE, a_bill, calls_with, did, planned, visits, when
from tests.season.tiny import (
    boards_overnight,
    closed_morning,
    four,
    late_strips,
    no_syrup_on_day_0,
    tiny,
    two_rounds,
    unsettled_night,
)


def test_a_window_that_opens_at_noon_is_not_waited_for_on_the_road() -> None:
    """Hives open from noon: the truck leaves at 11:14 and works at once."""
    plan = planned(closed_morning())
    ((shift, call),) = visits(plan)

    # 12:00 less 30 min of road and 16 of loading; 16 + 30 + 50 + 30 + 13 = 139 min = 69.50.
    assert ("0 11:14", "0 12:00") == (when(shift.start_min), when(call.start_min))
    assert 139 == shift.end_min - shift.start_min
    assert plan.bill == a_bill(
        km=3_600, days=4_000, crew=6_950, spinning=300, mixing=1_700, syrup=5_100, strips=1_600
    )


def test_the_latest_time_to_leave_a_yard_is_told_by_its_window() -> None:
    """Syrup may be poured until four: what is begun by 15:10 is done in time."""
    plan = planned(closed_morning())
    load, visit, _ = plan.shifts[0].trips[0].calls

    # The stop lasts 50 min and lies 30 min off, so loading may end at 14:40.
    assert "0 14:40" == when(load.latest_leave_min)
    # Nobody pours syrup after four, though the truck could be home in time later.
    assert "0 16:00" == when(visit.latest_leave_min)


def test_a_closed_day_moves_all_to_the_next() -> None:
    """No hour of the first day is fit for opening hives."""
    yard = four(1, 2, open_spans=daily(480, 1080, [1]))
    plan = planned(tiny([(10, 0)], [yard], 2))

    assert ["1 yard1 take-off 4, feed 4, strips 4"] == did(plan)
    assert 18_850 == plan.bill.total()


def test_a_storm_in_the_night_forbids_the_take_off_before_it() -> None:
    """The first day is fair, but the night after it is not."""
    plan = planned(unsettled_night())

    assert ["1 yard1 take-off 4, feed 4, strips 4"] == did(plan)


def test_the_storm_may_be_over_before_the_truck_leaves_the_yard() -> None:
    """Rain until 13:00 on the only day: the take-off ends no sooner than that."""
    yard = four(1, 1, unsettled_spans=(Span(700, 780),))
    plan = planned(tiny([(10, 0)], [yard], 1))
    ((_, call),) = visits(plan)

    assert 780 <= call.end_min


def test_two_gates_are_met_in_their_order() -> None:
    """The far yard shuts at 10:00 and the near one opens at noon: the truck goes far first."""
    near = four(1, 1, access=Access(opens_min=12 * 60), stores_g=8_000)
    far = four(2, 1, access=Access(closes_min=10 * 60), stores_g=8_000)
    plan = planned(tiny([(10, 0), (14, 0)], [near, far], 1))

    assert ["yard2", "yard1"] == [call.yard for _, call in visits(plan)]
    first, second = (call for _, call in visits(plan))
    assert first.end_min <= 10 * 60
    assert second.start_min >= 12 * 60


def test_syrup_that_cannot_come_the_same_day_is_bridged_by_a_block() -> None:
    """Off on day 0 with a block each, fed on day 1 while the block lasts."""
    plan = planned(no_syrup_on_day_0())

    # Day 0: (960 + 720 + 240 blocks) / 60 + 10 = 42, strips 4 there or later; 15 + 20 + 13.
    # Day 1: 16 + 20 + 10 and (480) / 60 + 10 = 18.  In all 90 + 64 + 4 = 158 min = 79.00.
    assert ["take-off", "block"] == [a.job for a in visits(plan)[0][1].actions][:2]
    assert "1 yard1 feed 4" in did(plan)[1]
    assert plan.bill == a_bill(
        km=2_400,
        days=8_000,
        crew=7_900,
        spinning=300,
        mixing=1_700,
        blocks=1_600,
        syrup=5_100,
        strips=1_600,
    )


def test_boards_lie_on_over_a_night() -> None:
    """Boards one day, take-off the next; one box in twenty is brushed after all."""
    plan = planned(boards_overnight())
    (on, off) = (call for _, call in visits(plan))

    # On: 15 + 20 + (4 x 60) / 60 + 10 + 10 = 59 min.  Off: 6 boxes x 5 % is one box more to
    # brush: (960 + 720 + 120 + 480 + 240) / 60 + 10 = 52; 16 + 20 + 52 + 13 = 101 min.
    assert [1] == [b.day - a.day for (a, _), (b, _) in pairwise(visits(plan))]
    assert on.end_min + 12 * 60 <= off.start_min <= on.end_min + 48 * 60
    assert (4, 4) == (on.actions[0].pieces, off.actions[0].boards_off)
    assert plan.bill == a_bill(
        km=2_400, days=8_000, crew=8_000, spinning=300, mixing=1_700, syrup=5_100, strips=1_600
    )


def test_boards_on_longer_than_is_best_are_priced() -> None:
    """Fair on the first and the fourth day only: boards lie a started day too long."""
    yard = four(1, 4, clearing=Clearing.BOARDS, open_spans=daily(480, 1080, [0, 3]))
    plan = planned(tiny([(10, 0)], [yard], 4))

    # From at most 18:00 on day 0 to 08:00 or later on day 3: 62 h and more, less 48 h.
    assert DONE == plan.tally
    assert 4 * 100 == plan.bill.boards_long


def test_feed_rounds_keep_their_distance() -> None:
    """Two rounds of 4.5 l at 4 l a day: 27 hours at least."""
    plan = planned(two_rounds())
    first, second = calls_with(plan, Job.FEED)

    # 16 + 20 + 50 + 13 = 99 min, then 16 + 20 + 480 / 60 + 10 + 10 = 64 min: 81.50.
    assert 27 * 60 <= second.start_min - first.start_min
    assert [18_000, 18_000] == [
        a.ml for call in (first, second) for a in call.actions if a.job is Job.FEED
    ]
    assert plan.bill == a_bill(
        km=2_400, days=8_000, crew=8_150, spinning=300, mixing=1_800, syrup=5_400, strips=1_600
    )


def test_strips_that_forbid_feed_for_a_week_come_before_or_after() -> None:
    """Syrup fits only on the fourteenth day, so strips go in between it and the eaten block."""
    formic = Strips("formic acid", 1, None, 42, 70, 7)
    yard = four(1, 14, stores_g=6_000, feed_spans=daily(480, 1080, [13]))
    plan = planned(tiny([(10, 0)], [yard], 14, strips=formic))
    strips = next(s.day for s, c in visits(plan) if any(a.job is Job.STRIPS for a in c.actions))
    fed = [s.day for s, c in visits(plan) if any(a.job in {Job.FEED, Job.BLOCK} for a in c.actions)]

    # (6,000 + 2,100) / 500 = 16 days of cover; blocks are feed as well, for 2,100 / 500 = 4.2 days.
    assert DONE == plan.tally
    assert all(not strips <= day < strips + 7 for day in fed)
    assert [13] == fed[1:]
    assert fed[0] + 4 <= strips <= 6


def test_strips_late_at_a_price_are_late_by_a_day() -> None:
    """Too hot for strips on the only day before their last day."""
    plan = planned(late_strips())

    # Four colonies, one day at 20.00; and no visit twice, for that costs 81.00 more.
    assert 4 * 2_000 == plan.bill.late
    assert 26_850 == plan.bill.total()


def test_a_hard_last_day_is_never_passed() -> None:
    """Where the last day for strips is hard, they are rather left out."""
    season = replace(an_outfit(days=2).season, strips_by=Deadline(0, hard=True))
    yard = four(1, 2, strips_shut_days=(0,))
    plan = planned(tiny([(10, 0)], [yard], 2, season=season))

    assert (0, 4) == (plan.bill.late, plan.tally.no_strips)


def test_driving_is_broken_by_a_rest() -> None:
    """After an hour at the wheel a quarter of an hour's rest, before the second half."""
    hours = replace(an_outfit().hours, drive_break_after_min=60, drive_break_min=15)
    plan = planned(tiny([(40, 0)], [four(1, 1)], 1, hours=hours))
    (shift,) = plan.shifts

    # 40 out and 40 back are more than 60: 16 + 40 + 50 + 15 + 40 + 13 = 174 min = 87.00.
    assert [15] == [span.end_min - span.start_min for span in shift.breaks]
    assert (80, 174, 8_700) == (shift.driving_min, shift.end_min - shift.start_min, plan.bill.crew)


def test_duty_is_broken_by_a_rest() -> None:
    """After two hours of duty half an hour's rest."""
    hours = replace(an_outfit().hours, duty_break_after_min=120)
    plan = planned(tiny([(40, 0)], [four(1, 1)], 1, hours=hours))
    (shift,) = plan.shifts

    # 16 + 40 + 50 = 106; with the leg home 146, so the rest comes before: 159 + 30 = 189.
    assert [30] == [span.end_min - span.start_min for span in shift.breaks]
    assert 189 == shift.end_min - shift.start_min


def test_overtime_is_paid_by_the_minute() -> None:
    """Normal hours of one hour only: 39 min more at half as much again on top."""
    hours = replace(an_outfit().hours, normal_min=60)
    plan = planned(tiny([(10, 0)], [four(1, 1)], 1, hours=hours))

    # 39 x 0.50 x 0.5 = 9.75.
    assert (4_950, 975) == (plan.bill.crew, plan.bill.overtime)


def test_driving_longer_than_a_day_allows_is_not_planned() -> None:
    """Four hours out and four back are more than the seven a driver may."""
    hours = replace(an_outfit().hours, driving_max_min=7 * 60, drive_break_after_min=DAY_MIN)
    plan = planned(tiny([(240, 0)], [four(1, 1)], 1, hours=hours), rounds=5)

    assert () == plan.shifts
    assert 4 == plan.tally.not_off
