"""Visits moved from day to day keep their work, their chains, and the truth about cost."""

from collections import Counter
from contextlib import suppress
from itertools import product

from hypothesis import given, settings

from runplanner.errors import PlanError
from runplanner.outfit.outfit import Outfit
from runplanner.season.search.improve import Improver
from runplanner.season.search.recast import Recaster, moved_to
from runplanner.season.standing.state import State
from runplanner.trips.ground import Ground
from runplanner.trips.stop import Stop
from tests.bench.periodic import Periodic, improver_of
from tests.season.any_outfit import outfits
from tests.season.test_any_outfit import ANY


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
