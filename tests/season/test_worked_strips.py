"""Yards with strips of different substances, worked by hand: bans, stocks, mass, prices."""

from dataclasses import replace

from runplanner.daybook.trip import Call, Job
from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Strips
from tests.season.shapes import DONE, a_bill, calls_with, planned, reasons
from tests.season.tiny import PADS, four, tiny, two_substances


def with_pads(outfit: Outfit, **changes: int | None) -> Outfit:
    """The outfit with its second kind of strips changed."""
    return replace(outfit, strips_also=(replace(PADS, **changes),))  # type: ignore[arg-type]


def test_each_yard_gets_its_own_dose_ban_mass_and_price() -> None:
    """The yard with pads is fed on one day and treated on another; its neighbour at once.

    The 4 x 240 + 6 x 120 + 4 x 120 = 2,160 person-seconds of a yard's take-off and feed are 36
    min, 4 x 60 for strips are 4, each stop has 10 min besides.  The trip to both: load 15 and 2
    for 68 l, drive 10, stop 50, drive 4, stop 46, drive 14, unload 10 and 6: 157 min.  Pads
    alone: load 15, drive 14, stop 14, drive 14, unload 10: 67 min.  However the rest is shared
    between the two days, the sum is 224 min, 112.00; two days of 28 km are 33.60.
    """
    plan = planned(two_substances())

    # 68 l mixed 34.00 and worth 102.00; 12 boxes spun 6.00; 8 strips at 2.00, 4 pads at 4.50.
    assert DONE == plan.tally
    assert plan.bill == a_bill(
        km=3_360,
        days=8_000,
        crew=11_200,
        spinning=600,
        mixing=3_400,
        syrup=10_200,
        strips=8 * 200 + 4 * 450,
    )
    given = {c.yard: [a.pieces for a in c.actions] for c in calls_with(plan, Job.STRIPS)}
    assert (8, 4) == (given["yard1"][-1], given["yard2"][-1])
    assert _day(calls_with(plan, Job.FEED)) < _day(calls_with(plan, Job.STRIPS))


def _day(calls: list[Call]) -> int:
    return next(call.start_min // DAY_MIN for call in calls if call.yard == "yard2")


def test_pads_weigh_what_pads_weigh() -> None:
    """On leaving for the pads' own trip four of 80 g are aboard: 320 g, and no can."""
    plan = planned(two_substances())
    alone = [
        trip.calls[0].after
        for shift in plan.shifts
        for trip in shift.trips
        if [[Job.STRIPS]] == [[a.job for a in call.actions] for call in trip.yards()]
    ]
    both = [trip.calls[0].after for shift in plan.shifts for trip in shift.trips]

    # Whichever way the days are shared, strips weigh 8 x 10 + 4 x 80 = 400 g in all; syrup
    # 34 l is 45,118 g and 68 l 90,236 g, in cans of 1,500 g that hold 25 l.
    cans = sum(c.count for s in plan.shifts for t in s.trips for c in t.containers)
    assert 90_236 + 400 + 1_500 * cans == sum(after.load_g for after in both)
    assert [320] * len(alone) == [after.load_g for after in alone]


def test_without_a_ban_one_day_does_it() -> None:
    """The same pads, were feed allowed beside them: one trip, 161 min as with one substance.

    That trip is worked out in ``test_worked_loads``; the pads cost 4 x 4.50.
    """
    plan = planned(with_pads(two_substances(), no_feed_days=0))

    assert 1 == len(plan.shifts)
    assert (8_050, 8 * 200 + 4 * 450) == (plan.bill.crew, plan.bill.strips)


def test_a_stock_is_short_of_one_substance_only() -> None:
    """Three pads for four colonies: that yard goes without; eight strips are enough."""
    plan = planned(with_pads(two_substances(), stock=3), rounds=5)

    assert (4, 0, 0) == (plan.tally.no_strips, plan.tally.unfed_g, plan.tally.not_off)
    assert ["yard1"] == [call.yard for call in calls_with(plan, Job.STRIPS)]
    assert {"strips of formic acid left over: 3 of 3; wanted here: 4"} == reasons(plan)


def test_two_doses_of_one_substance_draw_on_one_stock() -> None:
    """Four colonies at 2 and four at 4 strips want 24; of 23 one yard goes without."""
    double = Strips("amitraz", 4, 24, 42, 70, 0, "double")
    yards = [four(1, 1), four(2, 1, strips="double")]
    outfit = tiny(
        [(10, 0), (14, 0)], yards, 1,
        strips=Strips("amitraz", 2, 24, 42, 70, 0), strips_also=(double,),
    )  # fmt: skip
    short = replace(
        outfit, strips=replace(outfit.strips, stock=23), strips_also=(replace(double, stock=23),)
    )

    assert DONE == planned(outfit).tally
    assert 4 == planned(short, rounds=5).tally.no_strips


def test_a_day_unfit_for_one_substance_is_fit_for_another() -> None:
    """Too cold for pads on day 1, and on day 0 they would forbid the feed: that yard goes without.

    Taken off without syrup or block it would have no cover.  The other yard has its strips.
    """
    outfit = two_substances()
    cold = replace(outfit.yards[1], strips_shut_days=(1,))
    plan = planned(replace(outfit, yards=(outfit.yards[0], cold)), rounds=5)

    assert (4, 0, 0) == (plan.tally.no_strips, plan.tally.unfed_g, plan.tally.not_off)
    assert ["yard1"] == [call.yard for call in calls_with(plan, Job.STRIPS)]
