"""Quick sums by way of facilities are what the exact judge of those days says."""

import random
from itertools import pairwise

from runplanner.season.quick.sums import built
from runplanner.season.search.resort import Resorter
from runplanner.trips.day import Day
from runplanner.trips.ride import Way
from runplanner.visits.stop import Stop
from tests.bench.periodic import Periodic, improver_of
from tests.bench.twin import UNIT_CENTS


def _given(dice: random.Random) -> Periodic:
    legs = [[dice.randint(5, 40) for _ in range(9)] for _ in range(9)]
    for i in range(9):
        legs[i][i] = 0
    return Periodic(legs, [dice.randint(2, 6) for _ in range(6)], [3] * 6, [1] * 6, [7, 8], 2, 2,
                    12, 150)  # fmt: skip


def test_a_day_by_facilities_costs_and_lasts_as_the_judge_says() -> None:
    """Random days of random trips, legs that break every triangle, two facilities."""
    dice, seen, shut = random.Random(5), 0, 0
    for _ in range(60):
        given = _given(dice)
        improver = improver_of(given, 1)
        ground, judge = improver.ground, improver.keeper.judge
        stops = [Stop(yard, round=1, fed=1) for yard in range(6)]
        resorter = Resorter(improver.keeper, improver.rng)
        facts = [resorter.fact(0, stop) for stop in stops]
        going = improver.resorter.going(ground, Way(0, 0), stops, facts, resorter.costs(0))
        order = dice.sample(range(6), 5)
        cuts = sorted(dice.sample(range(1, 4), dice.randint(0, 2)))
        trips = tuple(tuple(order[a:b]) for a, b in pairwise([0, *cuts, 4]))
        day = judge(Day(0, 0, tuple(tuple(stops[i] for i in trip) for trip in trips)))
        rough = built(going, trips)
        assert (day is None) == (rough is None)
        if day is None or rough is None:
            shut += 1
            continue
        seen += 1
        assert rough.busy == day.run.end_min - day.run.start_min
        # An hour of a driver costs a cent.
        assert abs(rough.cost - day.milli_cents) < 1
        assert day.metres * UNIT_CENTS * 1000 <= rough.cost
        extra, _, _ = rough.guess(order[4])
        longer = rough.joined(order[4])
        assert (longer is None) == (extra > 1e14)
        if longer is not None:
            assert abs(longer.cost - rough.cost - extra) < 1e-3
    assert seen > 10 < shut
