"""The bound by itself: worked by hand where it is tight, and where there is none."""

import math
from dataclasses import replace
from types import SimpleNamespace

import pytest

from runplanner.daybook.plan import Bound, Tally
from runplanner.outfit.bases import Travel
from runplanner.outfit.outfit import Deadline, Outfit
from runplanner.outfit.yards import Access, Yard
from runplanner.phrase import phrase
from runplanner.season import lanes
from runplanner.season.proof import bound as bounds
from runplanner.season.proof import day_flow
from runplanner.season.proof.bound import bound_of
from runplanner.season.proof.cuts import Demand
from runplanner.season.proof.day_flow import day_bound
from runplanner.trips.ground import Ground
from tests.season.shapes import DONE, planned
from tests.season.tiny import ANN, four, tiny

pytestmark = pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these

ALL_LEFT = Tally(10**6, 10**6, 10**9, 10**6)


def bound_cents(outfit: Outfit, undone: Tally = DONE) -> int:
    """The bound on all cost."""
    return bound_of(Ground(outfit), undone).cents


def one_for_one(days: int = 1) -> Outfit:
    """One yard 10 km off, one person, a truck with one seat."""
    outfit = tiny([(10, 0)], [four(1, days)], days, people=(ANN,))
    (truck,) = outfit.trucks
    return replace(outfit, trucks=(replace(truck, seats=1),))


def test_the_bound_of_a_lone_yard_by_hand() -> None:
    """One seat, one trip: everything is paid in full, but pumping by the second."""
    outfit = one_for_one()

    # Busy: load and unload 25, set-up 10, road 20, work (2,400 + 180) / 60 = 43, pumping
    # 32 l at 50 l/min 0.64: 98.64 min of one person = 49.32.  Some work is due, so there is
    # a shift: 40.00.  20 km = 12.00, spinning 3.00, mixing 17.00, syrup 51.00, strips 16.00:
    # 188.32, down to the cent or so.  The plan pays a whole minute of pumping: 188.50.
    assert 18_850 == planned(outfit).bill.total()
    assert 18_830 <= bound_cents(outfit) <= 18_833


def test_honey_that_strips_were_beside_is_not_paid_to_be_spun() -> None:
    """As for the lone yard, without the 3.00 for spinning; with it once they are freed."""
    outfit = one_for_one()
    (yard,) = outfit.yards
    outfit = replace(outfit, yards=(replace(yard, treated_min=0),))
    freed = replace(outfit, yards=(replace(yard, treated_min=0, freed_min=0),))

    assert 18_550 == planned(outfit).bill.total()
    assert 18_530 <= bound_cents(outfit) <= 18_533
    assert 18_850 == planned(freed).bill.total()
    assert 18_830 <= bound_cents(freed) <= 18_833


def house_apart(outfit: Outfit) -> Outfit:
    """The same with the honey house 8 km from the store, and 9 km from the yard."""
    apart = ((0, 10, 8), (10, 0, 9), (8, 9, 0))
    metres = tuple(tuple(1_000 * km for km in row) for row in apart)
    house = replace(outfit.honey_house, base=replace(outfit.honey_house.base, place=2))
    return replace(
        outfit,
        places=(*outfit.places, replace(outfit.places[0], id="house")),
        honey_house=house,
        travel=Travel(apart, metres, phrase("by hand")),
    )


def test_honey_comes_home_by_the_honey_house() -> None:
    """Nobody drives straight back to the store with honey aboard."""
    outfit = house_apart(one_for_one())
    ground = Ground(outfit)
    fixed = bound_of(ground, DONE).fixed_cents

    # As for the lone yard, but 27 km for 20 and 27 min for 20: 4.20 and 3.50 more.
    assert 18_850 + 770 == planned(outfit).bill.total()
    assert 18_830 + 770 <= bound_cents(outfit) <= 18_833 + 770
    assert 18_830 + 770 <= day_bound(ground, fixed) <= 18_833 + 770


def test_whoever_brings_none_comes_straight_home() -> None:
    """A yard that is only fed and treated is 20 km there and back, as ever."""
    outfit = one_for_one()
    fed = replace(outfit, yards=(replace(outfit.yards[0], boxes=0),))

    assert planned(fed).bill.total() == planned(house_apart(fed)).bill.total()
    assert bound_cents(fed) == bound_cents(house_apart(fed))


def test_where_no_road_leads_on_from_the_honey_house_it_goes_home() -> None:
    """From there the truck goes home, next to the yard; the bound stays below."""
    outfit = house_apart(one_for_one())
    store, yard, house = outfit.travel.minutes
    cut = (store, yard, (None, *house[1:]))
    outfit = replace(outfit, travel=Travel(cut, outfit.travel.metres, phrase("cut off")))
    outfit = replace(outfit, home=replace(outfit.home, place=1))

    plan = planned(outfit)
    assert DONE == plan.tally
    assert bound_cents(outfit) <= plan.bill.total()


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
    feed_g = 4 * 8_000
    whole, half, none = (bound_cents(outfit, Tally(0, 0, g, 0)) for g in (1, feed_g // 2, feed_g))

    # Syrup 51.00, mixing 17.00, pouring 8 min = 4.00, and the day's share that goes with it.
    assert 7_200 <= whole - none <= 7_200 + 8 * 4_000 // 360 + 8 * 10
    assert math.isclose(whole - half, half - none, abs_tol=3)


def late_by(outfit: Outfit, days: int) -> Outfit:
    """The yard opened on one day only, so many days past a priced deadline."""
    (yard,) = outfit.yards
    shut = tuple(span for span in yard.open_spans if span.start_min // 1440 == days)
    prices = replace(outfit.prices, late_cents=700)
    season = replace(outfit.season, take_off_by=Deadline(0, hard=False))
    yards = (replace(yard, open_spans=shut),)
    return replace(outfit, yards=yards, season=season, prices=prices)


def test_days_that_must_be_late_are_paid() -> None:
    """Four colonies, each two days past the deadline, for the weather leaves only day 2."""
    outfit = one_for_one(4)

    # 4 x 2 x 7.00 = 56.00.
    assert math.isclose(5_600, bound_cents(late_by(outfit, 2)) - bound_cents(outfit), abs_tol=3)


def test_one_fair_day_pays_overtime() -> None:
    """Ten hours of work fit two ordinary days, but only one is fair."""
    yards = [four(n, 2) for n in (1, 2)]
    outfit = tiny([(1, 0), (1, 0)], yards, 2, people=(ANN,))
    (truck,) = outfit.trucks
    outfit = replace(
        outfit,
        hours=replace(outfit.hours, normal_min=300),
        pace=replace(outfit.pace, inspect_s=outfit.pace.inspect_s + 45 * 60),
        trucks=(replace(truck, seats=1, day_cents=0),),
    )
    wet = tuple(
        replace(
            yard,
            open_spans=tuple(span for span in yard.open_spans if span.start_min < 1440),
            feed_spans=tuple(span for span in yard.feed_spans if span.start_min < 1440),
            strips_shut_days=(1,),
        )
        for yard in yards
    )
    fair, rainy = bound_cents(outfit), bound_cents(replace(outfit, yards=wet))

    # Work of each yard 43 + 4 x 45 = 223 min, pumping 1.28: of 447.28 min at most 300 are
    # ordinary in one shift, so 147.28 at least are paid half as much again: 36.82.  Over two
    # fair days 494.28 min want 1.65 shifts and more; a second trip whole costs, at 1.20 for
    # 2 km and 13.50 for 27 min, 14.70.
    assert 3_682 - 1_470 <= rainy - fair
    assert rainy <= planned(replace(outfit, yards=wet)).bill.total()


def day_only(yard: Yard, day: int) -> Yard:
    """The yard with one day on which anything may be done there."""
    spans = {
        name: tuple(span for span in getattr(yard, name) if span.start_min // 1440 == day)
        for name in ("open_spans", "feed_spans")
    }
    others = tuple(other for other in range(2) if other != day)
    return replace(yard, strips_shut_days=others, **spans)  # type: ignore[arg-type]


def test_neighbours_on_two_days_are_two_trips() -> None:
    """A yard open on day 0 only, its neighbour on day 1 only: every day pays its own way."""
    yards = [day_only(four(1, 2), 0), day_only(four(2, 2), 1)]
    outfit = tiny([(30, 0), (31, 0)], yards, 2, people=(ANN,))
    (truck,) = outfit.trucks
    outfit = replace(outfit, trucks=(replace(truck, seats=1),))
    ground = Ground(outfit)
    by_days, at_once = bound_of(ground, DONE).cents, bound_of(ground, DONE, cuts=0).cents

    # One tour of both is 62 km in 62 min; two there and back are 60 + 62 km in 122 min, at
    # 0.60 a km and 0.50 a min 66.00 more.  The plan pays the pump by whole minutes: 0.36.
    assert planned(outfit).bill.total() - 40 <= by_days <= planned(outfit).bill.total()
    assert by_days - at_once >= 6_000


def test_what_is_driven_keeps_the_days_out() -> None:
    """Facts need not keep the rules, so a campaign under way is bounded without its days."""
    outfit = late_by(one_for_one(4), 2)
    under_way = bound_of(Ground(outfit, now_min=60), DONE).cents

    assert under_way < bound_cents(outfit)


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


def test_cuts_that_leave_no_solution_are_taken_back(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of many yards what holds without them is told: nobody makes fifty trips on a day."""
    ground = Ground(one_for_one())
    whole = bound_of(ground, DONE)
    wild = [Demand((0,), "trips", 50, [], "trips")]
    monkeypatch.setattr(bounds, "lacking", lambda _flow, _asked, _seen: wild)

    assert whole.fixed_cents == bound_of(ground, DONE).cents
    monkeypatch.setattr(bounds, "MANY", 0)
    assert math.isclose(whole.cents, bound_of(ground, DONE).cents, abs_tol=1)


def test_bounds_are_told_on_the_way() -> None:
    """Whoever cannot wait has one that holds, without cuts at first."""
    told: list[Bound] = []
    last = bound_of(Ground(odd_roads(14)), DONE, tell=told.append)

    assert 2 <= len(told)
    assert last.fixed_cents < told[0].cents < last.cents
    assert all(bound.cents <= last.cents for bound in told)


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


@pytest.mark.slow
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


def test_sums_are_those_of_every_python() -> None:
    """Ten tenths are one: plain sums of floats come out otherwise before Python 3.12."""
    tenth = SimpleNamespace(solution_value=lambda: 0.1)

    assert 1.0 == lanes.entries(dict.fromkeys([(0, yard) for yard in range(1, 11)], 0.1),
                                tuple(range(1, 11)))  # fmt: skip
    assert 1.0 == day_flow._sum([(tenth, 1)] * 10)
    assert {0: 1.0} == day_flow._values({0: [tenth] * 10})
    assert {(0, 1): 1.0} == day_flow._flows({(0, 1): [tenth] * 10})


@pytest.mark.parametrize(("km", "duty_min"), [(25, 190), (50, 250), (50, 290)])
def test_a_part_of_a_take_off_wants_its_own_loads_alone(km: int, duty_min: int) -> None:
    """Two loads, and hours for one, or for a part of the second: its drives alone are owed."""
    outfit = tiny([(km, 0)], [replace(four(1, 1), colonies=24, boxes=76)], 1)
    outfit = replace(outfit, hours=replace(outfit.hours, duty_max_min=duty_min))
    plan = planned(outfit, rounds=5)

    assert 0 < plan.tally.not_off < 24
    assert 0.6 * plan.bill.total() < bound_cents(outfit, plan.tally) <= plan.bill.total()


def test_leaving_a_part_for_its_worth_is_no_dearer_than_the_bound() -> None:
    """One load of two, and four or more colonies left at 2.00 each, is a plan the bound allows."""
    few = tiny([(50, 0)], [replace(four(1, 1), colonies=24, boxes=76)], 1)
    prices = replace(few.prices, worth_take_off_cents=200, worth_strips_cents=100)
    outfit = replace(few, prices=replace(prices, worth_feed_cents=100))
    plan = planned(outfit, rounds=5)

    assert DONE == plan.tally
    assert 0 < bound_cents(outfit) <= plan.bill.total()
