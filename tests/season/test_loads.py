"""Which take-offs ride together: worked by hand, by every way of sharing out, and published."""

import itertools
import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Clearing, Yard
from runplanner.season.proof import bound as bounds
from runplanner.season.proof import loads
from runplanner.season.proof.bound import bound_of
from runplanner.season.proof.flow import Flow
from runplanner.season.proof.loads import Loads, loads_of
from runplanner.season.proof.owed import least_blocks, least_lots, parts_of
from runplanner.trips.ground import Ground
from runplanner.visits.due import taken
from tests.outfits import an_outfit
from tests.season.shapes import DONE, planned, trips
from tests.season.tiny import four, slow_brush, tiny

LOAD_G = 1_185_000
"""What the truck of all tests carries with one person."""


def heavy(shares: list[int], days: int = 2, each: int = 6) -> Outfit:
    """Yards side by side, 10 km off, whose boxes are so many percent of a load each."""
    yards = [
        four(n, days, boxes=each, box_g=LOAD_G * s // 100 // each) for n, s in enumerate(shares, 1)
    ]
    return tiny([(10, 0)] * len(shares), yards, days)


def without_loads(outfit: Outfit) -> int:
    """The bound that lets any share of a yard ride on any trip."""
    return bound_of(Ground(outfit), DONE, patience=bounds.USUAL._replace(most_loaded=0)).cents


def solved(outfit: Outfit) -> Flow:
    """A flow without loads, solved."""
    flow = Flow(Ground(outfit), DONE)
    assert flow.solved()
    return flow


def chosen(outfit: Outfit) -> tuple[Loads, float]:
    """The loads of a flow without its days, solved, and their number."""
    flow = solved(outfit)
    ours = loads_of(flow)
    assert ours is not None
    assert flow.solved()
    while wanted := ours.gaining():
        ours.open(wanted)
        assert flow.solved()
    return ours, sum(v.solution_value() for used in ours.in_use for _, v in used)


def dear(outfit: Outfit, block_cents: int = 5_000) -> Outfit:
    """Blocks too dear for lots to be worth it."""
    return replace(outfit, prices=replace(outfit.prices, block_cents=block_cents))


def test_three_yards_of_more_than_half_a_load_are_three_trips() -> None:
    """The flow sends the two trips that 1.8 loads want; no two whole yards ride together."""
    outfit = dear(heavy([60, 60, 60]), 20_000)
    plan, bound, flow = planned(outfit), bound_of(Ground(outfit), DONE), without_loads(outfit)

    assert 3 == len([trip for trip in trips(plan) if trip])
    # A third trip is 20 km = 12.00, 20 min on the road and 25 at base of one person = 22.50;
    # the flow sets up for 5.00 at a yard called at twice.  Pumping takes whole minutes: 0.36.
    assert 3_450 - 500 <= bound.cents - flow
    assert plan.bill.total() - 60 <= bound.cents <= plan.bill.total()


def test_lots_are_parted_where_that_costs_less() -> None:
    """With blocks at their usual price parts of yards ride along, and the bound stays below."""
    outfit = heavy([60, 60, 60])

    assert without_loads(outfit) < bound_of(Ground(outfit), DONE).cents
    assert bound_of(Ground(outfit), DONE).cents <= planned(outfit).bill.total()


def test_whole_yards_that_fill_trucks_cost_nothing_more() -> None:
    """Two yards of half a load each: one trip, whatever is known of lots."""
    outfit = heavy([50, 50, 50, 50])

    assert math.isclose(without_loads(outfit), bound_of(Ground(outfit), DONE).cents, abs_tol=2)


def test_blocks_of_a_yard_that_is_too_large_are_paid_once() -> None:
    """Its part has them already; the loads do not add them again."""
    outfit = dear(heavy([150], each=8))
    outfit = replace(outfit, rules=replace(outfit.rules, smallest_lot=1))
    plan = planned(outfit)

    assert DONE == plan.tally
    # Five of eight boxes fit, so two of four colonies go first and get blocks, 100.00.  Lost are
    # whole minutes of pumping and what the second trip is more than half of the first.
    assert 10_000 == plan.bill.blocks
    assert plan.bill.total() - 300 <= bound_of(Ground(outfit), DONE).cents <= plan.bill.total()


@pytest.mark.parametrize("brush_s", [120, 600])
def test_warm_boards_are_brushed_by_the_visit(brush_s: int) -> None:
    """What stays in under boards is counted up once for a visit, not for every colony."""
    yard = four(1, 2, colonies=20, boxes=40, box_g=16_000, stores_g=9_000)
    outfit = tiny([(10, 0)], [replace(yard, clearing=Clearing.WARM_BOARD)], 2)
    outfit = replace(outfit, pace=slow_brush(brush_s))

    assert bound_of(Ground(outfit), DONE).cents <= planned(outfit).bill.total()


def test_the_last_lot_of_few_boxes_is_many_colonies() -> None:
    """Ten boxes of 30 colonies, seven to a load: the last 23 colonies bring seven of them."""
    outfit = tiny([(10, 0)], [four(1, 2, colonies=30, boxes=10, box_g=18_000, target_g=600)], 2)
    (truck,) = outfit.trucks
    small = replace(truck, max_g=truck.max_g - LOAD_G + 130_000)
    ground = Ground(replace(outfit, trucks=(small,)))

    # The first 7 colonies bring ceil(7 / 3) = 3 boxes of 18 kg, so seven, 126 kg, are left.
    assert 7 * outfit.rules.blocks == least_blocks(ground, 0, 180_000)


def test_loads_are_found_where_one_trip_for_a_yard_is_too_many() -> None:
    """Five yards 90 km off on one day: only together do they fit into it."""
    outfit = tiny([(90, 0)] * 5, [four(n, 1) for n in range(1, 6)], 1)

    assert without_loads(outfit) <= bound_of(Ground(outfit), DONE).cents + 1
    assert bound_of(Ground(outfit), DONE).cents <= planned(outfit).bill.total()


def test_loads_are_left_out_where_there_are_too_many(monkeypatch: pytest.MonkeyPatch) -> None:
    """Then the flow alone counts."""
    outfit = heavy([60, 60, 60])
    flow = without_loads(outfit)
    monkeypatch.setattr(loads, "MOST", 3)

    assert loads_of(solved(outfit)) is None
    assert flow == bound_of(Ground(outfit), DONE).cents


def test_nothing_to_take_off_makes_no_loads() -> None:
    """Yards that only want feed bring no honey."""
    yards = [replace(four(n, 2), boxes=0) for n in (1, 2)]

    assert loads_of(solved(tiny([(10, 0), (12, 0)], yards, 2))) is None


def test_a_load_is_some_whole_yards_and_at_most_one_lot() -> None:
    """Every set that fits, and beside each the room for a lot of any other yard."""
    ours, _ = chosen(heavy([60, 35, 30, 90]))
    table = ours.tables[0]
    sets = {tuple(i for i, there in enumerate(row) if there) for row in table.whole}
    fits = {
        subset
        for size in range(5)
        for subset in itertools.combinations(range(4), size)
        if sum(table.most_g[i] for i in subset) <= LOAD_G
    }

    assert fits == sets
    for row, lots in zip(table.whole, table.lot_g, strict=True):
        room = LOAD_G - table.most_g[row].sum()
        for i, lot in enumerate(lots):
            assert lot == (room if not row[i] and room < table.most_g[i] else 0)


def test_loads_are_as_many_as_a_published_packing_wants() -> None:
    """Gilmore and Gomory's bound of 11 weights for bins of 100.

    The weights are those of the bin packing example in the guide of OR-Tools
    (developers.google.com/optimization/pack/bin_packing, from memory): 4 bins are best, and
    more than the 3.7 that they fill.  Lots are made too dear to be worth it.
    """
    weights = [48, 30, 19, 36, 36, 27, 42, 42, 36, 24, 30]
    _, count = chosen(dear(heavy(weights, days=4), 100_000))

    assert sum(weights) / 100 <= count <= 4 + 1e-6
    assert count > 3.7 + 1e-3


def best_packing(weights: list[int]) -> int:
    """How many trips whole yards take, by going through all ways of parting them."""
    bins: list[int] = []

    def fewest(at: int, most: int) -> int:
        if len(bins) >= most:
            return most
        if at == len(weights):
            return len(bins)
        for i in range(len(bins)):
            if bins[i] + weights[at] <= 100:
                bins[i] += weights[at]
                most = fewest(at + 1, most)
                bins[i] -= weights[at]
        bins.append(weights[at])
        most = fewest(at + 1, most)
        bins.pop()
        return most

    return fewest(0, len(weights) + 1)


@given(st.lists(st.integers(20, 100), min_size=1, max_size=6))
def test_loads_are_never_more_than_trips_of_whole_yards(weights: list[int]) -> None:
    """A plan that parts no yard is one choice of loads among others."""
    _, count = chosen(dear(heavy(weights, days=4), 100_000))

    assert count <= best_packing(weights) + 1e-6


def lots_of(draw: st.DrawFn, colonies: int) -> list[int]:
    """Colonies parted into lots, none too small to be worth a visit."""
    left, least = colonies, an_outfit().rules.smallest_lot
    lots: list[int] = []
    while left >= 2 * least and len(lots) < 3 and draw(st.booleans()):
        lots.append(draw(st.integers(least, left - least)))
        left -= lots[-1]
    return [*lots, left]


@st.composite
def parted(draw: st.DrawFn) -> tuple[Yard, list[int]]:
    """A yard and the lots in which it goes off."""
    colonies = draw(st.integers(2, 30))
    boxes, brood = draw(st.integers(1, 70)), draw(st.integers(0, 20))
    yard = four(1, 2, colonies=colonies, boxes=boxes, brood_boxes_off=brood, stores_g=0)
    return yard, lots_of(draw, colonies)


@given(parted())
def test_lots_are_paid_at_most_what_their_blocks_cost(case: tuple[Yard, list[int]]) -> None:
    """All colonies but those of the last lot want a block; half a lot's lesser side is less."""
    yard, lots = case
    outfit = tiny([(10, 0)], [yard], 2)
    ours = loads_of(solved(outfit))
    assert ours is not None
    ends = list(itertools.accumulate(lots, initial=0))
    grams = [_grams(outfit, yard, a, b) for a, b in itertools.pairwise(ends)]
    asked = sum(float(ours.lot_cents(np.array([g]))[0]) for g in grams)
    each = outfit.prices.block_cents + outfit.pace.block_s * outfit.prices.hour_cents / 3600

    assert sum(grams) == ours.all_g[0]
    assert asked <= sum(lots[:-1]) * outfit.rules.blocks * each + 1e-6


@given(parted())
def test_no_lot_has_less_work_or_fewer_colonies_for_a_gram(case: tuple[Yard, list[int]]) -> None:
    """The least of every lot, for the honey it brings."""
    yard, lots = case
    ground = Ground(tiny([(10, 0)], [yard], 2))
    (part,) = (part for part in parts_of(ground, complete=True) if part.not_off)
    work_s, colonies = least_lots(ground, part)
    ends = list(itertools.accumulate(lots, initial=0))
    for before, after in itertools.pairwise(ends):
        grams = _grams(ground.outfit, yard, before, after)
        assert (after - before) * 1.0 >= colonies * grams - 1e-9
    whole = _grams(ground.outfit, yard, 0, yard.colonies)
    assert part.person_s >= work_s * whole - 1e-6


def _grams(outfit: Outfit, yard: Yard, before: int, after: int) -> int:
    """What a lot weighs, boxes counted up colony by colony."""
    ground = Ground(outfit)
    boxes = taken(yard.boxes, yard.colonies, before, after)
    brood = taken(yard.brood_boxes_off, yard.colonies, before, after)
    return boxes * yard.box_g + brood * ground.brood_g[0]
