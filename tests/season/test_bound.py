"""The bound by itself: worked by hand where it is tight, and where there is none."""

import math
from dataclasses import replace

import pytest

from runplanner.daybook.plan import Tally
from runplanner.outfit.bases import Travel
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Access
from runplanner.phrase import phrase
from runplanner.season import lanes
from runplanner.season.bound import bound_of
from runplanner.trips.ground import Ground
from tests.season.shapes import DONE, planned
from tests.season.tiny import ANN, four, tiny

ALL_LEFT = Tally(10**6, 10**6, 10**9, 10**6)


def bound_cents(outfit: Outfit, undone: Tally = DONE) -> int:
    """The bound on all cost."""
    return bound_of(Ground(outfit), undone).cents


def one_for_one(days: int = 1) -> Outfit:
    """One yard 10 km off, one person, a truck with one seat."""
    outfit = tiny([(10, 0)], [four(1, days)], days, people=(ANN,))
    (truck,) = outfit.trucks
    return replace(outfit, trucks=(replace(truck, seats=1),))


def test_the_flow_of_a_lone_yard_by_hand() -> None:
    """One seat, one trip: everything is paid in full but the truck's day, paid by the minute."""
    outfit = one_for_one()

    # Busy: load and unload 25, set-up 10, road 20, work (2,400 + 180) / 60 = 43: 98 min.
    # Of a shift s of 480 min a part is used; a break falls due at least on the line
    # rest = 30 / (660 - 30 - 360) x (98 - 360 s), and 98 + rest = 480 s: s = 0.2094 and
    # rest = 2.5.  100.5 min = 50.26, day 0.2094 x 40 = 8.38, 20 km = 12.00, spinning 3.00,
    # mixing 17.00, syrup 51.00, strips 16.00: 157.63, down to the cent or so.  The plan
    # pays the whole day and a minute of pumping: 188.50.
    assert 18_850 == planned(outfit).bill.total()
    assert 15_762 <= bound_cents(outfit) <= 18_850


def test_unavoidable_cost_is_work_and_goods() -> None:
    """Work at the hives and at unloading, spinning, mixing, syrup and strips."""
    bound = bound_of(Ground(one_for_one()), DONE)

    # 2,400 s at the yard and 6 x 30 s of unloading: 43 min = 21.50; spinning 6 min = 3.00;
    # mixing 34 min = 17.00; syrup 51.00; strips 16.00.  A cent may be lost to rounding.
    assert math.isclose(10_850, bound.fixed_cents, abs_tol=3)


def test_nothing_need_be_done_where_all_may_be_left() -> None:
    """Whoever may leave everything can stay at home."""
    assert 0 == bound_cents(one_for_one(), ALL_LEFT)


def test_leaving_the_feed_makes_the_bound_cheaper() -> None:
    """Syrup, mixing and pouring fall away, and no more than that."""
    outfit = one_for_one()
    fed, hungry = bound_cents(outfit), bound_cents(outfit, Tally(0, 0, 4 * 8_000, 0))

    # Syrup 51.00, mixing 17.00, pouring 8 min = 4.00, and the day's share that goes with it.
    assert 7_200 <= fed - hungry <= 7_200 + 8 * 4_000 // 360 + 8 * 10


def test_two_loads_are_two_trips() -> None:
    """Two yards of more than half a load each: the rounded cut sends a second trip."""
    light, heavy = (
        [four(n, 1, boxes=6, box_g=grams, stores_g=8_000) for n in (1, 2)]
        for grams in (90_000, 110_000)
    )
    one, two = (tiny([(10, 0), (10, 0)], yards, 1) for yards in (light, heavy))

    # 12 boxes of 90 kg are 1,080 kg, one load of 1,185; of 110 kg they are 1,320, two loads.
    # The second trip drives 20 km = 12.00 in 20 min, loads and unloads in 25: 22.50.
    assert (20 * 60, 40 * 60) == (planned(one).bill.km, planned(two).bill.km)
    assert bound_cents(two) - bound_cents(one) >= 3_450


def test_no_bound_but_goods_where_the_work_cannot_be_done() -> None:
    """Where nobody can get in there is no plan to bound; the goods alone are told."""
    outfit = one_for_one()
    shut = replace(outfit, yards=(replace(outfit.yards[0], access=Access(max_width_mm=1_000)),))
    bound = bound_of(Ground(shut), DONE)

    assert bound.fixed_cents == bound.cents


def test_no_bound_but_goods_where_only_the_cuts_show_it() -> None:
    """Minutes are enough for one trip and a half, and the loads want two."""
    yards = [four(n, 1, boxes=6, box_g=110_000, stores_g=8_000) for n in (1, 2)]
    outfit = tiny([(10, 0), (10, 0)], yards, 1, people=(ANN,))
    hours = replace(outfit.hours, duty_max_min=170)
    bound = bound_of(Ground(replace(outfit, hours=hours)), DONE)

    # One trip with both yards: 15 + 10 + 42 + 42 + 10 + 16 = 135 min; two trips 180 min.
    assert bound.fixed_cents == bound.cents


def test_no_road_from_home_leaves_no_bound() -> None:
    """With home cut off from the store, no shift can be driven."""
    outfit = one_for_one()
    travel = Travel(
        ((0, None, 5), (None, 0, 5), (5, 5, 0)),
        ((0, None, 5), (None, 0, 5), (5, 5, 0)),
        phrase("cut off"),
    )
    outfit = replace(
        outfit,
        places=(*outfit.places, replace(outfit.places[0], id="home")),
        home=replace(outfit.home, place=1),
        travel=travel,
        yards=(replace(outfit.yards[0], sites=((0, 2),)),),
    )
    bound = bound_of(Ground(outfit), DONE)

    assert 0 <= bound.fixed_cents <= bound.cents


def odd_roads(count: int) -> Outfit:
    """Yards whose nearest by minutes are dear by kilometres."""
    yards = [four(n, 3, stores_g=8_000, boxes=3) for n in range(1, count + 1)]
    outfit = tiny([(n, 5) for n in range(count)], yards, 3)
    size = range(count + 1)
    near = [[(a * 7 + b * 3) % 11 for b in size] for a in size]
    minutes = tuple(tuple(0 if a == b else 10 + near[a][b] for b in size) for a in size)
    metres = tuple(tuple(0 if a == b else 90_000 - 8_000 * near[a][b] for b in size) for a in size)
    return replace(outfit, travel=Travel(minutes, metres, phrase("odd")))


def test_roads_left_out_at_first_are_opened_where_they_help(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The bound over the nearest roads, widened, is the bound over all roads."""
    outfit = odd_roads(14)
    few = bound_cents(outfit)
    monkeypatch.setattr(lanes, "NEAREST", 99)

    # The cuts found on the way differ, so the two agree to a few parts in a hundred only.
    assert math.isclose(bound_cents(outfit), few, rel_tol=0.03)
    assert few <= planned(outfit, rounds=5).bill.total()
