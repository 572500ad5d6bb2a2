"""Visits moved from day to day keep their work, their chains, and the truth about cost."""

import gc
from collections import Counter
from contextlib import suppress
from dataclasses import replace
from itertools import product
from weakref import ref

import pytest
from hypothesis import given, settings

from runplanner.errors import PlanError
from runplanner.outfit.outfit import Outfit
from runplanner.season.quick.sums import Going
from runplanner.season.search.improve import Improver
from runplanner.season.search.recast import Recaster
from runplanner.season.search.season_table import moved_to
from runplanner.season.standing.state import State
from runplanner.season.watch import untroubled
from runplanner.trips.day import Day
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop
from tests.bench.periodic import Periodic, improver_of
from tests.outfits import a_yard, an_outfit
from tests.season.any_outfit import outfits
from tests.season.test_any_outfit import ANY

pytestmark = pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these


def _stops(state: State) -> Counter[Stop]:
    """The visits of all yards, whenever they are."""
    return Counter(
        stop._replace(from_min=0)
        for judged in state.days.values()
        for trip in judged.day.trips
        for stop in trip
    )


@settings(ANY, max_examples=25)
@given(outfits())
def test_every_visit_is_kept_and_every_chain_holds(outfit: Outfit) -> None:
    """The same visits stand in the plan; the state is what its days alone make it."""
    improver = Improver(Ground(outfit), 1)
    with suppress(PlanError):
        state = improver.construct()
        recaster = Recaster(improver.keeper, improver.rng, improver.resorter)
        for left in (1.0, 0.5, 0.0):
            new = recaster(state, 2, left)
            if new is None:
                continue
            assert _stops(new) == _stops(state)
            again = improver.keeper.settled(dict(new.days))
            assert (again.score, again.visits) == (new.score, new.visits)
            state = new


def _two_towns() -> Periodic:
    """Four customers in two towns, twice each in four days; one truck, one facility.

    Towns are 10 from the depot and from the facility, which lie together; neighbours are 1
    apart, towns 20.
    """

    def leg(a: int, b: int) -> int:
        # The depot and the facility are 0 and 5; customers 1 and 2 are one town, 3 and 4 another.
        if a == b or {a, b} == {0, 5}:
            return 0
        if {a, b} & {0, 5}:
            return 10
        return 1 if (a < 3) == (b < 3) else 20

    legs = [[leg(a, b) for b in range(6)] for a in range(6)]
    return Periodic(legs, [5] * 4, [1] * 4, [2] * 4, [5], 4, 1, 10, 60)


def test_whole_chains_move_to_the_days_where_they_cost_least() -> None:
    """Two towns, each on its own two days: 4 * (10 + 1 + 10) = 84; other ways cost more.

    Beforehand all possible pairs of days are tried on paper: a town's two customers on the
    same days make a trip of 21, on different days two of 20 each.
    """
    least = min(
        2 * sum(
            {0: 0, 1: 20, 2: 21}[(a == parity) + (b == parity)]
            + {0: 0, 1: 20, 2: 21}[(c == parity) + (d == parity)]
            for parity in (0, 1)
        )
        for a, b, c, d in product((0, 1), repeat=4)
    )  # fmt: skip
    found = []
    for _ in range(2):
        improver = improver_of(_two_towns(), 1)
        # Bad days first: one customer of each town on either pair of days.
        state = improver.keeper.empty()
        for yard, first in enumerate((0, 1, 0, 1)):
            for number in (1, 2):
                day = first + 2 * (number - 1)
                stop = Stop(yard, round=number, fed=1)
                state = improver.inserter.place(state, stop, [day]) or state
        assert 160 == sum(judged.metres for judged in state.days.values())
        for left in (1.0, 0.5, 0.0):
            state = improver.recaster(state, 10, left) or state
        found.append({key: judged.day for key, judged in state.days.items()})
        assert least == sum(judged.metres for judged in state.days.values()) == 84
    assert found[0] == found[1]


def test_what_a_visit_waits_for_moves_with_it() -> None:
    """A stop not before Tuesday noon, moved by a day, is one not before Wednesday noon."""
    stop = Stop(3, round=2, fed=4, from_min=1440 + 720)
    assert moved_to(stop, 1, 2) == stop._replace(from_min=2 * 1440 + 720)
    assert moved_to(stop, 1, 1) == stop
    assert moved_to(stop._replace(from_min=720), 1, 1) == stop._replace(from_min=720)


def test_a_crew_larger_than_its_work_wants_goes_out_smaller() -> None:
    """One yard 10 km and 10 minutes out: who drives along is paid for what one does as soon.

    20 minutes of drive at 30.00 an hour are 10.00 for the second; loading 15 and unloading 10
    take as long for one as for two, which is 12.50; 10 minutes of setting up are 5.00.  Looking
    through ten colonies and their strips take 3,000 s of one or 1,500 s of two: the same.
    Together 27.50.
    """
    yard = replace(a_yard(1), boxes=0, target_g=0, stores_g=20_000)
    outfit = an_outfit(((10, 0),), (yard,))
    outfit = replace(outfit, prices=replace(outfit.prices, hour_cents=3_000))
    improver = Improver(Ground(outfit), 1)
    one, two = improver.ground.siblings[0]
    assert (1, 2) == (improver.ground.haulers[one].crew, improver.ground.haulers[two].crew)
    keeper, trips = improver.keeper, ((Stop(0, off=10, strips=True),),)
    state = keeper.replace(keeper.empty(), (1, 0), Day(1, two, trips))
    assert state is not None
    new = state
    for _ in range(5):
        new = improver.recaster(new, 40, 0.0) or new
    assert [one] == [judged.day.hauler for judged in new.days.values()]
    assert 2_750_000 == state.score.milli_cents - new.score.milli_cents


def test_what_is_laid_out_anew_leaves_nothing_of_the_old_in_memory() -> None:
    """Days and haulers know each other; a search runs without what would find that out."""
    improver = improver_of(_two_towns(), 1)
    state = improver.construct()
    others = {id(one) for one in gc.get_objects() if isinstance(one, Going)}
    with untroubled():
        improver.recaster(state, 10, 1.0)
        mine = (one for one in gc.get_objects() if isinstance(one, Going))
        olds = [ref(one) for one in mine if id(one) not in others]
        assert olds
        bare = improver.keeper.drop(state, {0})
        improver.recaster(bare, 10, 1.0)
        assert not [old for old in olds if old() is not None]
