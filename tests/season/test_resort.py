"""Sharing a day's stops out anew keeps every stop, never fools itself about cost, and works."""

from collections import Counter
from contextlib import suppress
from types import SimpleNamespace
from typing import Any

import pytest
from hypothesis import given, settings

from runplanner.errors import PlanError
from runplanner.outfit.outfit import Outfit
from runplanner.season.quick.facts import facts_of, roads_of
from runplanner.season.quick.sums import Going, built
from runplanner.season.search.day_table import DayTable
from runplanner.season.search.improve import Improver
from runplanner.season.search.resort import Resorter
from runplanner.season.standing.state import State
from runplanner.trips.day import Day
from runplanner.trips.ground import Ground
from runplanner.trips.ride import Way
from tests.bench.instances import Instance
from tests.bench.twin import ground_of
from tests.season.any_outfit import outfits
from tests.season.published import P_N16_K8, as_outfit, parsed
from tests.season.test_any_outfit import ANY

pytestmark = pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these


def _work(state: State) -> Counter[tuple[int, int, str]]:
    """What is done, by day and yard; two stops may have become one, which spares blocks."""
    done: Counter[tuple[int, int, str]] = Counter()
    for (day, _), judged in state.days.items():
        for stop in (stop for trip in judged.day.trips for stop in trip):
            for job in ("boards", "off", "boxes", "brood", "round", "fed", "strips", "wet_up"):
                done[day, stop.yard, job] += int(getattr(stop, job))
    return done


@settings(ANY, max_examples=25)
@given(outfits())
def test_every_stop_of_the_day_is_kept_and_nothing_else_changes(outfit: Outfit) -> None:
    """What is done day by day is the same afterwards; the state is what its days alone make it."""
    improver = Improver(Ground(outfit), 1)
    with suppress(PlanError):
        state = improver.construct()
        for day in sorted({day for day, _ in state.days}):
            new = improver.resorter(state, day, 12, 0.5)
            if new is None:
                continue
            assert _work(new) == _work(state)
            again = improver.keeper.settled(dict(new.days))
            assert (again.score, again.visits) == (new.score, new.visits)
            assert improver.keeper.holding.holds(new.days, [day])
            state = new


@settings(ANY, max_examples=25)
@given(outfits())
def test_quick_sums_are_never_above_the_exact_cost(outfit: Outfit) -> None:
    """Waits, breaks and goods come on top; what is driven is never counted too dear."""
    improver = Improver(Ground(outfit), 1)
    with suppress(PlanError):
        for judged in improver.construct().days.values():
            going, orders = _laid_out(improver, judged.day)
            rough = built(going, orders)
            if rough is not None:
                assert rough.cost <= judged.milli_cents + 1
                assert rough.busy <= judged.run.end_min - judged.run.start_min


def _laid_out(improver: Improver, day: Day) -> tuple[Going, tuple[tuple[int, ...], ...]]:
    stops = [stop for trip in day.trips for stop in trip]
    judge, ground = improver.keeper.judge, improver.ground
    facts = [facts_of(ground, judge, day.day, stop) for stop in stops]
    way = Way(day.day, day.hauler)
    orders, at = [], 0
    for trip in day.trips:
        orders.append(tuple(range(at, at + len(trip))))
        at += len(trip)
    return Going(ground, way, stops, facts, roads_of(ground, day.hauler)), tuple(orders)


def test_a_published_optimum_is_reached_from_the_first_plan() -> None:
    """P-n16-k8 (Augerat et al. 1995): 450, by sharing out anew alone; the same dice, the same."""
    found = []
    for _ in range(2):
        improver = Improver(Ground(as_outfit(parsed(P_N16_K8))), 1)
        state = improver.construct()
        first = state.score.milli_cents
        for left in (1.0, 0.5, 0.0):
            state = improver.resorter(state, 0, 120, left) or state
        assert state.score.milli_cents < first
        found.append({key: judged.day for key, judged in state.days.items()})
    assert 450_000 == state.score.milli_cents
    assert found[0] == found[1]


def test_who_goes_on_from_worse_days_keeps_the_best_passed() -> None:
    """P-n16-k8 again, hot at first: what is passed gets better each time, down to 450."""
    found = []
    for _ in range(2):
        improver = Improver(Ground(as_outfit(parsed(P_N16_K8))), 1)
        state, passed, worse = improver.construct(), [], 0
        for left in range(20, -1, -1):
            new = improver.resorter(state, 0, 60, left / 20, alone=True) or state
            worse += new.score > state.score
            state, seen = new, improver.resorter.seen
            passed += [seen.score.milli_cents] if seen is not None else []
        assert worse
        assert passed == sorted(set(passed), reverse=True)
        assert 450_000 == min([*passed, state.score.milli_cents])
        found.append((passed, {key: judged.day for key, judged in state.days.items()}))
    assert found[0] == found[1]


def test_days_that_cost_too_much_are_given_up() -> None:
    """What comes out of one taking out and putting back costs less than was asked for, or not."""
    improver = Improver(Ground(as_outfit(parsed(P_N16_K8))), 1)
    table = improver.resorter._table(improver.construct(), 0)
    assert table is not None
    table.near()
    cost = table.total(table.shifts)
    held = []
    for share in (0.9, 1.0, 1.1):
        tried = [table._round(table.shifts, cost * share) for _ in range(60)]
        real = [one for one in tried if one is not None]
        assert all(table.total(one) < cost * share for one in real)
        held.append(len(real))
    assert held[0] < held[1] < held[2]


def test_trips_change_trucks_where_a_day_is_too_short_for_both() -> None:
    """Two trucks, loads of one stop, all on one road: 0 - 1 is 4, 0 - 2 is 6, 0 - 3 is 10.

    All out and back: 8 + 12 + 20 = 40 driven, and in a day of 24 only 1 and 2 go together.
    """
    legs = [[0, 4, 6, 10], [4, 0, 2, 6], [6, 2, 0, 4], [10, 6, 4, 0]]
    one = Instance(legs, [1] * 3, [0] * 3, 2, 1, [(0, 24)] * 3, trips=True, horizon=24)
    improver = Improver(ground_of(one), 1)
    state = improver.construct()
    resorter = Resorter(improver.keeper, improver.rng)
    state = resorter(state, 0, 40, 1.0) or state
    days = [sorted(s.yard for trip in j.day.trips for s in trip) for j in state.days.values()]
    assert [[0, 1], [2]] == sorted(days)
    assert 40 == sum(judged.metres for judged in state.days.values())


def test_days_cost_the_same_in_every_python() -> None:
    """Ten tenths are one: plain sums of floats come out otherwise before Python 3.12."""
    days: list[Any] = [SimpleNamespace(cost=0.1, trips=((0,),))] * 10
    table: Any = DayTable.__new__(DayTable)
    assert 1.0 == table.total(days)
