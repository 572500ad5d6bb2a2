"""Containers that are too few of the lightest kind are shared out among the trucks of a day."""

from dataclasses import replace
from itertools import permutations

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Bound, Search, Tally
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.people import Person
from runplanner.outfit.stores import Container
from runplanner.phrase import phrase
from runplanner.season.finish import written
from runplanner.season.plan_season import plan_season
from runplanner.season.standing.containers import _orders, shared_out
from runplanner.season.standing.keeper import Keeper
from runplanner.trips.day import Day, Key
from runplanner.trips.ground import Ground
from runplanner.trips.judged import Judged
from runplanner.visits.stop import Stop
from tests.outfits import a_truck, a_yard, an_outfit
from tests.season.shapes import DONE
from tests.season.tiny import EVEN_FEED, four, tiny

DRUM = Container("drum", "Drum", 20_000, 2_000, 300, 300, 2)
TANK = Container("tank", "Tank", 50_000, 10_000, 500, 500, 1)
DRUMS, TANKS = (2, 0), (0, 1)
"""Of both, either holds the 34 l of a yard; two drums weigh 4 kg, the tank 10 kg."""
KEYS = ((0, 0), (0, 1))


def two_trucks(spare_g: int = 1_000_000) -> Outfit:
    """A yard for each of two trucks; beside all else the second may carry so much more."""
    yards = [four(number, 2) for number in (1, 2)]
    trucks = tuple(replace(a_truck(number), drivers=("ann", "bob")) for number in (1, 2))
    outfit = tiny([(25, 0), (-25, 0)], yards, 2, trucks=trucks, containers=(DRUM, TANK))
    people = tuple(replace(person, drives=True) for person in outfit.people)
    outfit = replace(outfit, people=people)
    keeper = Keeper(Ground(outfit))
    (packed,) = out(keeper)[0, 1].packed
    heaviest_g = max(leg.load_g for leg in packed.legs) - 2 * DRUM.empty_g
    most_g = keeper.ground.haulers[keeper.ground.siblings[1][0]].load_max_g
    tight = replace(trucks[1], max_g=trucks[1].max_g - max(0, most_g - heaviest_g - spare_g))
    return replace(outfit, trucks=(trucks[0], tight))


def out(keeper: Keeper) -> dict[Key, Judged]:
    """Both trucks on day 0, each at its yard for all its work, the container each would like."""
    found = {}
    for truck in (0, 1):
        stop = Stop(truck, off=4, boxes=6, round=1, fed=4, strips=True)
        judged = keeper.judge(Day(0, keeper.ground.siblings[truck][0], ((stop,),)))
        assert judged is not None
        assert [DRUMS] == [packed.tanks for packed in judged.packed]
        found[0, truck] = judged
    return found


def taken(keeper: Keeper, *driven: Key) -> list[tuple[int, ...]] | None:
    """What each truck gets."""
    found = shared_out(keeper.judge, out(keeper), driven)
    return None if found is None else [found[key].packed[0].tanks for key in KEYS]


def test_who_comes_second_takes_what_is_left() -> None:
    """The tank, and with it 6 kg more on every leg; what is written down breaks no rule."""
    keeper = Keeper(Ground(two_trucks()))
    state = keeper.settled(out(keeper))
    search = Search(1, 0, phrase("all rounds done"), ())
    plan = written(keeper, state, Bound(phrase("not worked out"), 0, 0, Tally(0, 0, 0, 0)), search)
    by_truck = [[(c.container, c.count) for c in s.trips[0].containers] for s in plan.shifts]
    loads = [[call.after.load_g for call in s.trips[0].calls] for s in plan.shifts]

    assert [DRUMS, TANKS] == taken(keeper)
    assert [[("drum", 2)], [("tank", 1)]] == by_truck
    assert [6_000] * 3 == [more - one for one, more in zip(*loads, strict=True)]
    assert ((), DONE) == (audit(plan), plan.tally)


@pytest.mark.parametrize(("spare_g", "gets"), [(10_000, [DRUMS, TANKS]), (9_999, [TANKS, DRUMS])])
def test_who_cannot_bear_what_is_left_takes_first(
    spare_g: int, gets: list[tuple[int, ...]]
) -> None:
    """The second truck has room for the drums in any case, for the tank only with 10 kg left."""
    assert gets == taken(Keeper(Ground(two_trucks(spare_g))))


def test_what_a_truck_on_the_road_took_is_fact() -> None:
    """It has the drums: for the second truck the tank is left, whether it can bear it or not."""
    assert [DRUMS, TANKS] == taken(Keeper(Ground(two_trucks(10_000))), KEYS[0])
    assert taken(Keeper(Ground(two_trucks(9_999))), KEYS[0]) is None
    assert [TANKS, DRUMS] == taken(Keeper(Ground(two_trucks())), KEYS[1])


def test_too_few_of_all_kinds_are_too_few() -> None:
    """Without the tank one truck stays at home; drums lost since keep none home who needs none."""
    outfit = two_trucks()
    keeper = Keeper(Ground(replace(outfit, containers=(DRUM, replace(TANK, owned=0)))))
    assert taken(keeper) is None

    stop = Stop(1, off=4, boxes=6, blocks=4)
    dry = keeper.judge(Day(0, keeper.ground.siblings[1][0], ((stop,),)))
    assert dry is not None
    few = Keeper(Ground(replace(outfit, containers=(replace(DRUM, owned=1), TANK))))
    today = {KEYS[0]: out(keeper)[KEYS[0]], KEYS[1]: dry}
    assert today == shared_out(few.judge, today, KEYS[:1])
    assert [TANKS] == [
        one.tanks for one in (shared_out(few.judge, today, ()) or {})[KEYS[0]].packed
    ]


@pytest.mark.parametrize("trucks", [1, 2, 3])
def test_up_to_three_trucks_take_in_every_order(trucks: int) -> None:
    """As planned first."""
    keys = tuple((0, truck) for truck in range(trucks))
    orders = list(_orders(keys))

    assert keys == orders[0]
    assert sorted(permutations(keys)) == sorted(orders)


def six_yards(ibcs: int, drums: int, days: int) -> Outfit:
    """Six yards of 24 colonies, two trucks and four people."""
    spots = [(10, 0), (14, 0), (-10, 6), (-14, 6), (10, -8), (-12, -9)]
    yards = [a_yard(n + 1, days=days, colonies=24, boxes=24) for n in range(6)]
    people = tuple(Person(who, who, drives=True, spins=True, mixes=True) for who in "abcd")
    return an_outfit(
        spots,
        yards,
        days=days,
        trucks=tuple(replace(a_truck(number), drivers=tuple("abcd")) for number in (1, 2)),
        people=people,
        containers=(
            Container("ibc", "IBC", 1_000_000, 60_000, 1_200, 1_000, ibcs),
            Container("drum", "Drum", 200_000, 9_000, 600, 600, drums),
        ),
        feed=replace(EVEN_FEED, ready_ml=3_000_000),
    )


def test_owning_more_containers_costs_no_more() -> None:
    """Five drums beside two IBCs: one truck takes drums, as the lightest, the other an IBC."""
    alone, both = (plan_season(six_yards(2, drums, 1), rounds=40) for drums in (0, 5))

    assert both.bill.total() <= alone.bill.total()
    assert (DONE, ()) == (both.tally, audit(both))


def test_work_taken_out_leaves_no_day_with_too_few_containers() -> None:
    """Less syrup in a truck would ride in drums, which the other truck has."""
    plan = plan_season(six_yards(2, 5, 2), rounds=40, proof=False)

    assert (DONE, ()) == (plan.tally, audit(plan))
