"""Lots of a yard too big for one load: evened, they cost no more than any other two lots."""

from contextlib import suppress
from dataclasses import replace

import pytest
from hypothesis import given, settings

from runplanner.errors import PlanError
from runplanner.outfit.outfit import Outfit
from runplanner.season.search.improve import Improver
from runplanner.season.search.lots import evened
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.trips.day import Day
from runplanner.trips.ground import Ground
from runplanner.visits.due import taken
from runplanner.visits.stop import Stop
from tests.outfits import a_yard, an_outfit
from tests.season.any_outfit import outfits
from tests.season.test_any_outfit import ANY

pytestmark = pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these

COLONIES, BOXES = 40, 80


def _big() -> Outfit:
    """Forty colonies with 80 boxes of 16 kg, 1,280 kg, for a truck that carries 1,185 kg."""
    yard = replace(a_yard(1, colonies=COLONIES, boxes=BOXES), stores_g=4_000)
    return an_outfit(((10, 0),), [yard])


def _in_lots(keeper: Keeper, lots: tuple[int, ...]) -> State | None:
    """The yard taken off in lots day by day, the last one with syrup and strips for all."""
    days, before = {}, 0
    for day, count in enumerate(lots):
        after = before + count
        boxes = taken(BOXES, COLONIES, before, after)
        last = after == COLONIES
        stop = (
            Stop(0, off=count, boxes=boxes, round=1, fed=COLONIES, strips=True)
            if last
            else Stop(0, off=count, boxes=boxes, blocks=count)
        )
        days[day, 0] = Day(day, 0, ((stop,),))
        before = after
    return keeper.replace_all(keeper.empty(), days)


def _lots(state: State) -> list[int]:
    return [visit.stop.off for visit in state.visits[0] if visit.stop.off]


def test_two_lots_are_parted_as_no_other_two_lots_are_cheaper() -> None:
    """All ways to part the yard are tried, and the cheapest is what evening finds."""
    keeper = Keeper(Ground(_big()))
    every = [_in_lots(keeper, (n, COLONIES - n)) for n in range(1, COLONIES)]
    real = [state for state in every if state is not None]
    assert len(real) > 10
    best = min(state.score for state in real)

    for state in real:
        assert evened(keeper, state, [0]).score == best


def test_the_last_lot_fills_the_truck_since_the_others_want_blocks() -> None:
    """A block and its minute are 4.00 + 0.50 for each colony of the first lot.

    The truck carries 1,185 kg and brings eight empty cans of 1.5 kg back (180 L are 4.5 L for
    each of 40 colonies, in cans of 25 L): 36 colonies' 72 boxes of 16 kg make 1,164 kg, one
    colony more 1,196 kg.
    """
    keeper = Keeper(Ground(_big()))
    before = _in_lots(keeper, (12, 28))
    assert before is not None
    after = evened(keeper, before, [0])

    assert _lots(after) == [4, 36]
    assert sum(visit.stop.blocks for visit in after.visits[0]) == 4
    # Eight blocks fewer are 8 x (400 + 50) = 3,600 cents; the other work of eight colonies goes
    # from the first day to the second, which then has 53 min of overtime, 53 x 25 = 1,325.
    assert before.score.milli_cents - after.score.milli_cents == 2_275_000


def test_three_lots_become_two_where_two_will_do() -> None:
    """The second of three trips is spared; no colony is left on."""
    keeper = Keeper(Ground(_big()))
    before = _in_lots(keeper, (8, 8, 24))
    assert before is not None
    after = evened(keeper, before, [0])

    assert len(_lots(after)) == 2
    assert sum(_lots(after)) == COLONIES
    assert len(after.days) == 2


def test_two_equal_lots_of_one_trip_become_one() -> None:
    """Two calls in a row of four colonies each: one is left of them."""
    keeper = Keeper(Ground(_big()))
    half, last = _lot(0, 4), _lot(8, COLONIES)
    assert half == _lot(4, 8)
    rest = last._replace(blocks=0, round=1, fed=COLONIES, strips=True)
    before = keeper.replace_all(
        keeper.empty(), {(0, 0): Day(0, 0, ((half, half),)), (1, 0): Day(1, 0, ((rest,),))}
    )
    assert before is not None
    after = evened(keeper, before, [0])

    assert [0, 1] == [visit.day for visit in after.visits[0]]
    assert COLONIES == sum(_lots(after))
    assert after.score < before.score


def _lot(before: int, after: int) -> Stop:
    """Colonies from one to another number off, with their blocks."""
    count = after - before
    return Stop(0, off=count, boxes=taken(BOXES, COLONIES, before, after), blocks=count)


@settings(ANY, max_examples=25)
@given(outfits())
def test_evening_never_costs_and_keeps_the_rules(outfit: Outfit) -> None:
    """Scores do not rise, colonies off stay as many, and the state is what its days make it."""
    improver = Improver(Ground(outfit), 1)
    with suppress(PlanError):
        state = improver.construct()
        new = evened(improver.keeper, state, range(len(outfit.yards)))
        assert new.score <= state.score
        for was, now in zip(state.visits, new.visits, strict=True):
            assert sum(v.stop.off for v in was) == sum(v.stop.off for v in now)
            assert sum(v.stop.boxes for v in was) == sum(v.stop.boxes for v in now)
        again = improver.keeper.settled(dict(new.days))
        assert (again.score, again.visits) == (new.score, new.visits)
