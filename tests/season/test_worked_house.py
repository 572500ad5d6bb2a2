"""Honey house and mixing worked by hand: pace, room, spin-by, boxes waiting, syrup in time."""

from dataclasses import replace

import pytest

from runplanner.daybook.plan import Plan
from runplanner.days import DAY_MIN
from runplanner.outfit.people import Person
from tests.outfits import daily
from tests.season.hand_bill import arrivals
from tests.season.shapes import DONE, did, planned, trips, visits, when
from tests.season.tiny import ANN, EVEN_FEED, EVEN_HOUSE, four, tiny

FULL = {"stores_g": 8_000}
"""Stores that need no feed."""


def spun(plan: Plan) -> list[tuple[str, int, int, tuple[str, ...]]]:
    """When each stretch of spinning starts, its minutes, boxes and people."""
    return [(when(s.start_min), s.end_min - s.start_min, s.boxes, s.people) for s in plan.spinning]


def test_whoever_stays_home_spins_what_comes_in() -> None:
    """Ann drives, Bob spins six boxes in six minutes as soon as they are unloaded."""
    plan = planned(tiny([(10, 0)], [four(1, 1, **FULL)], 1))
    (shift,) = plan.shifts

    assert ("ann",) == shift.crew
    assert [(when(shift.end_min), 6, 6, ("bob",))] == spun(plan)
    assert 6 * 50 == plan.bill.spinning


def test_a_driver_alone_spins_in_another_half_day() -> None:
    """Ann drives in the morning and spins after noon, for a half-day holds one kind of work."""
    plan = planned(
        tiny([(10, 0)], [four(1, 1, open_spans=daily(480, 660, [0]), **FULL)], 1, people=(ANN,))
    )

    assert [("0 12:00", 6, 6, ("ann",))] == spun(plan)


def test_boxes_that_stand_there_are_spun_first() -> None:
    """Ten boxes waiting and six that come: sixteen are spun, the waiting ones at once."""
    house = replace(EVEN_HOUSE, waiting_boxes=10)
    plan = planned(tiny([(10, 0)], [four(1, 1, **FULL)], 1, honey_house=house))

    # Bob spins ten from 8:00 to 8:10, before anything comes in.
    assert ("0 08:00", 10, 10, ("bob",)) == spun(plan)[0]
    assert 16 * 50 == plan.bill.spinning


def test_boxes_that_stand_there_are_spun_though_nothing_is_planned() -> None:
    """Not a single trip, and ten boxes to spin all the same."""
    house = replace(EVEN_HOUSE, waiting_boxes=10)
    plan = planned(tiny([(10, 0)], [four(1, 1, open_spans=())], 1, honey_house=house), rounds=5)

    assert () == plan.shifts
    assert (10, 500) == (sum(s.boxes for s in plan.spinning), plan.bill.total())


def test_the_better_team_spins() -> None:
    """Two spin three times as much as one, so two people are cheaper for each box."""
    house = replace(EVEN_HOUSE, boxes_per_h=(0, 60, 180))
    cat = Person("cat", "Cat", drives=False, spins=True, mixes=False)
    bob = Person("bob", "Bob", drives=False, spins=True, mixes=True)
    plan = planned(
        tiny([(10, 0)], [four(1, 1, **FULL)], 1, honey_house=house, people=(ANN, bob, cat))
    )

    # Six boxes at three a minute: two minutes of two.
    assert [(2, 6, {"bob", "cat"})] == [(m, n, set(who)) for _, m, n, who in spun(plan)]
    assert 4 * 50 == plan.bill.spinning


def test_room_for_eight_boxes_makes_two_trips() -> None:
    """Twelve boxes at once are too many; the second six come when the first are spun."""
    house = replace(EVEN_HOUSE, room_boxes=8)
    yards = [four(n, 1, **FULL) for n in (1, 2)]
    plan = planned(tiny([(10, 0), (14, 0)], yards, 1, honey_house=house))

    # Each stop (960 + 720 + 240) / 60 + 10 = 42, unload 13: 15 + 10 + 42 + 10 + 13 = 90 and
    # 98 min = 94.00, instead of 15 + 10 + 42 + 4 + 42 + 14 + 16 = 143 for both.
    assert [1, 1] == [len(trip) for trip in trips(plan)]
    assert 188 * 50 == plan.bill.crew
    assert DONE == plan.tally


def spoiling(rates: tuple[int, ...]) -> Plan:
    """Two yards open after noon, spinning from 8:00 to 11:00, no box may wait 26 hours."""
    house = replace(EVEN_HOUSE, boxes_per_h=rates, spin_from_min=8 * 60, spin_to_min=11 * 60)
    open_spans = daily(12 * 60, 18 * 60, range(3))
    yards = [
        four(n, 3, open_spans=open_spans, spin_by_hard=True, spin_by_min=26 * 60, **FULL)
        for n in (1, 2)
    ]
    return planned(tiny([(10, 0), (14, 0)], yards, 3, honey_house=house))


def test_honey_that_spoils_is_brought_only_as_fast_as_it_is_spun() -> None:
    """Six boxes a morning are spun and none may wait for a second one: one yard a day."""
    plan = spoiling((0, 2))

    # Off after noon, so the next morning is the only one within 26 h: 2 an hour, 3 h, 6.
    # 15 + 10 + 42 + 10 + 13 = 90 and 15 + 14 + 42 + 14 + 13 = 98 min, on two days.
    assert 2 == len({shift.day for shift, _ in visits(plan)})
    assert [(180, 6), (180, 6)] == [(minutes, boxes) for _, minutes, boxes, _ in spun(plan)]
    assert (DONE, 0, 8_000, 188 * 50) == (
        plan.tally,
        plan.bill.spin_late,
        plan.bill.days,
        plan.bill.crew,
    )


def test_two_who_spin_save_a_day_out() -> None:
    """With Ann at home and helping, twelve boxes are spun in a morning: one trip."""
    plan = spoiling((0, 2, 4))

    # 15 + 10 + 42 + 4 + 42 + 14 + 16 = 143 min on one day; 12 boxes take two people 180 min.
    assert [("1 08:00", 180, 12, ("ann", "bob"))] == spun(plan)
    assert (DONE, 4_000, 143 * 50) == (plan.tally, plan.bill.days, plan.bill.crew)


def test_honey_that_may_wait_waits_at_a_price() -> None:
    """The same, but waiting only costs: both yards come in one trip, six boxes a day late."""
    house = replace(EVEN_HOUSE, boxes_per_h=(0, 2), spin_from_min=8 * 60, spin_to_min=11 * 60)
    soft = {"spin_by_min": 26 * 60, **FULL}
    yards = [four(n, 1, open_spans=daily(12 * 60, 18 * 60, [0]), **soft) for n in (1, 2)]
    plan = planned(tiny([(10, 0), (14, 0)], yards, 1, honey_house=house))

    # Six on day 1, six on day 2: the last six start more than 26 h and less than 50 h after.
    assert 6 * 50 == plan.bill.spin_late
    assert [["yard1", "yard2"]] == [sorted(trip) for trip in trips(plan)]


def test_syrup_for_the_first_day_is_mixed_the_day_before() -> None:
    """A campaign of one day: 34 l are mixed on day -1."""
    plan = planned(tiny([(10, 0)], [four(1, 1)], 1))
    (mix,) = plan.mixing

    assert -DAY_MIN <= mix.start_min < mix.end_min <= 0
    assert (34, 34_000, 1_700) == (mix.end_min - mix.start_min, mix.ml, plan.bill.mixing)


@pytest.mark.parametrize(
    ("opens", "closes", "first", "last"),
    [
        (6 * 60, 11 * 60, 8 * 60, 11 * 60),
        (5 * 60, 7 * 60, 5 * 60, 7 * 60),
        (14 * 60, 22 * 60, 14 * 60, 18 * 60),
    ],
)
def test_syrup_is_mixed_while_its_store_is_open(
    opens: int, closes: int, first: int, last: int
) -> None:
    """Honey is spun from 8:00 to 18:00; a store that is shut then has hours of its own."""
    house = replace(EVEN_HOUSE, spin_from_min=8 * 60, spin_to_min=18 * 60)
    whole = tiny([(10, 0)], [four(1, 2)], 2, honey_house=house)
    store = replace(whole.feed_store, opens_min=opens, closes_min=closes)
    plan = planned(replace(whole, feed_store=store))

    assert DONE == plan.tally
    for mix in plan.mixing:
        assert first <= mix.start_min % DAY_MIN < (mix.end_min - 1) % DAY_MIN < last
    assert 34_000 == sum(mix.ml for mix in plan.mixing)


def test_syrup_is_fed_when_enough_of_it_can_be_mixed() -> None:
    """20 l a day: 34 l are ready only for the second day, on which all is then done."""
    feed = replace(EVEN_FEED, mix_ml_per_day=20_000)
    plan = planned(tiny([(10, 0)], [four(1, 2)], 2, feed=feed))

    assert {-1: 14_000, 0: 20_000} == {m.start_min // DAY_MIN: m.ml for m in plan.mixing}
    assert ["1 yard1 take-off 4, feed 4, strips 4"] == did(plan)


def test_syrup_that_stands_ready_is_not_mixed() -> None:
    """34 l ready: nobody mixes; 33 l ready: one litre is."""
    for ready, cents in ((34_000, 0), (33_000, 50)):
        feed = replace(EVEN_FEED, ready_ml=ready)
        plan = planned(tiny([(10, 0)], [four(1, 1)], 1, feed=feed))
        assert (DONE, cents) == (plan.tally, plan.bill.mixing)


def test_bought_syrup_is_all_there_is() -> None:
    """34 l delivered feed one yard of two; nothing can be mixed for the other."""
    feed = replace(EVEN_FEED, bought=True, ready_ml=34_000)
    plan = planned(tiny([(10, 0), (14, 0)], [four(1, 1), four(2, 1)], 1, feed=feed))

    assert () == plan.mixing
    assert 4 * 8_000 == plan.tally.unfed_g


def test_nobody_spins_so_nothing_comes_in() -> None:
    """Boxes that nobody can spin stay on the hives."""
    people = (replace(ANN, spins=False),)
    plan = planned(tiny([(10, 0)], [four(1, 1)], 1, people=people), rounds=5)

    assert ((), 4) == (plan.shifts, plan.tally.not_off)
    assert [] == arrivals(plan)
