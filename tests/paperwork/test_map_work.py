"""Work left in a yard, worked by hand."""

from dataclasses import replace

from runplanner.days import DAY_MIN
from runplanner.paperwork.map.work import work_left
from tests.paperwork.map_plans import a_plan


def test_work_is_split_by_day() -> None:
    """A yard served on two days has its work under both."""
    # Long Paddock: day 0 take-off 10 x 240 + 15 x 120 = 4200 s and 10 blocks x 60 = 600 s;
    # day 1 feed 10 x 120 and strips 10 x 60 = 1800 s.
    work = work_left(a_plan())["yard1"]

    assert ((0, 4_800), (1, 1_800)) == work.by_day
    assert 6_600 == work.total_s()


def test_work_behind_now_is_not_left() -> None:
    """Stops that ended before now are no longer work left."""
    plan = replace(a_plan(), now_min=DAY_MIN)

    assert ((1, 1_800),) == work_left(plan)["yard1"].by_day


def test_stops_to_come_of_a_truck_that_has_left_are_left() -> None:
    """A driven trip counts as done once its stops are over, not when its truck leaves."""
    plan = a_plan()
    first, *others = plan.shifts
    driven = replace(first, trips=tuple(replace(trip, driven=True) for trip in first.trips))

    out = replace(plan, shifts=(driven, *others), now_min=first.start_min)
    assert ((0, 4_800), (1, 1_800)) == work_left(out)["yard1"].by_day
    home = replace(out, now_min=first.end_min)
    assert ((1, 1_800),) == work_left(home)["yard1"].by_day


def test_undone_work_is_counted_as_if_done() -> None:
    """Undone take-off counts its share of boxes, undone feed its colonies."""
    # Windmill, yard10: take-off 10 x 240 + 15 x 120 = 4200 s, feed 10 x 120 = 1200 s.
    work = work_left(a_plan())["yard10"]

    assert 5_400 == work.undone_s
    assert () == work.by_day
