"""Trips chosen anew from all that were seen: the cheapest set of them, and a truck for each."""

from contextlib import suppress

import pytest
from hypothesis import given, settings

from runplanner.errors import PlanError
from runplanner.outfit.outfit import Outfit
from runplanner.season.quick.sums import Going
from runplanner.season.search import choose_trips
from runplanner.season.search.day_table import DayTable
from runplanner.season.search.improve import Improver
from runplanner.trips.ground import Ground
from tests.bench.instances import Instance
from tests.bench.twin import ground_of
from tests.season.any_outfit import outfits
from tests.season.published import P_N16_K8, as_outfit, parsed
from tests.season.test_any_outfit import ANY
from tests.season.test_resort import _work

pytestmark = pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these

OPTIMUM = [(2,), (6,), (8,), (15, 12, 10), (14, 5), (13, 9, 7), (11, 4), (3, 1)]
"""Trips of cost 450 for P-n16-k8, customers from 1 on, from memory; the test adds them up."""


def _first(improver: Improver) -> tuple[DayTable, Going, list[int]]:
    """A day laid out to choose from, and the customer of every stop, from 1 on."""
    table = improver.resorter._table(improver.construct(), 0, alone=True)
    assert table is not None
    return table, table.shifts[0].going, [stop.yard + 1 for stop in table.stops]


def test_the_cheapest_of_the_trips_seen_are_chosen() -> None:
    """The optimum's trips are found among the first plan's; where one lacks, they are not."""
    for lacking in (None, (15, 12, 10)):
        improver = Improver(Ground(as_outfit(parsed(P_N16_K8))), 1)
        table, going, customers = _first(improver)
        assert going.seen is not None
        going.seen |= {
            tuple(customers.index(one) for one in trip) for trip in OPTIMUM if trip != lacking
        }
        before = table.total(table.shifts)
        table.least = before
        table.choose(improver.resorter.chooser)
        assert sorted(range(15)) == sorted(i for s in table.shifts for t in s.trips for i in t)
        assert (table.total(table.shifts) == 450_000) == (lacking is None)
        assert table.total(table.shifts) <= before


def test_no_more_trips_are_chosen_than_trucks_can_drive_at_once() -> None:
    """Two customers apart by 12, 5 from the base, open only from 5 to 7: one truck is too few.

    A third, 1 from the base, is open all day and can be driven to before or after.
    """
    legs = [[0, 5, 5, 1], [5, 0, 12, 6], [5, 12, 0, 6], [1, 6, 6, 0]]
    hours = [(5, 7), (5, 7), (0, 40)]
    one = Instance(legs, [1] * 3, [0] * 3, 3, 2, hours, trips=True, horizon=40)
    improver = Improver(ground_of(one), 1)
    _, going, customers = _first(improver)
    far = [customers.index(1), customers.index(2)]
    trips = [choose_trips.Choice(going, (i,), 1.0) for i in far]
    assert [] == choose_trips._crowded(trips, {going: 2})
    crowds = choose_trips._crowded(trips, {going: 1})
    assert [going] == [crowd.going for crowd in crowds]
    assert 0 <= crowds[0].minute < 10
    pool = [*trips, choose_trips.Choice(going, (customers.index(3),), 1.0)]
    assert choose_trips._solved(pool, 3, crowds, {going: 2}) is not None
    assert choose_trips._solved(pool, 3, crowds, {going: 1}) is None


def test_of_trips_seen_in_plenty_the_dearest_are_forgotten(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of all pairs and the optimum's trips as many are kept as told; the optimum is found."""
    monkeypatch.setattr(choose_trips, "MOST_SEEN", 50)
    monkeypatch.setattr(choose_trips, "KEPT_SEEN", 40)
    improver = Improver(Ground(as_outfit(parsed(P_N16_K8))), 1)
    table, going, customers = _first(improver)
    pairs = {(i, k) for i in range(15) for k in range(15) if i != k}
    going.seen = {pair for pair in pairs if going.loads.laid(pair) is not None}
    going.seen |= {tuple(customers.index(one) for one in trip) for trip in OPTIMUM}
    assert len(going.seen) > 50
    table.choose(improver.resorter.chooser)
    assert table.total(table.shifts) == 450_000
    assert 0 < len(going.seen) <= 40


@settings(ANY, max_examples=25)
@given(outfits())
def test_every_stop_keeps_its_work(outfit: Outfit) -> None:
    """Whatever trucks and crews there are: what is done on the day is the same afterwards."""
    improver = Improver(Ground(outfit), 1)
    with suppress(PlanError), pytest.MonkeyPatch.context() as patch:
        patch.setattr(choose_trips.Chooser, "due", lambda _, share, __: share == 1)
        state = improver.construct()
        for day in sorted({day for day, _ in state.days}):
            for left in (1.0, 0.9, 0.0):
                new = improver.resorter(state, day, 12, left, alone=True)
                if new is None:
                    continue
                assert _work(new) == _work(state)
                assert improver.keeper.holding.holds(new.days, [day])
                state = new


def test_trips_are_chosen_once_for_each_time_that_comes() -> None:
    """Never where trucks make one trip each; else when 0.6, 0.75, 0.86 and 0.95 are over.

    Loads of one stop make three trips of three customers: for three trucks that are out all
    day with one (there are no hours), or for one truck.
    """
    legs = [[0, 4, 6, 10], [4, 0, 2, 6], [6, 2, 0, 4], [10, 6, 4, 0]]
    each = Instance(legs, [1] * 3, [0] * 3, 3, 1)
    table, _, _ = _first(Improver(ground_of(each), 1))
    assert not any(choose_trips.Chooser().due(share, table.shifts) for share in (0.5, 0.9, 1.0))
    one = Instance(legs, [1] * 3, [0] * 3, 1, 1, [(0, 90)] * 3, trips=True, horizon=90)
    table, _, _ = _first(Improver(ground_of(one), 1))
    chooser = choose_trips.Chooser()
    at = [round_ / 100 for round_ in range(101) if chooser.due(round_ / 100, table.shifts)]
    assert [0.6, 0.75, 0.86, 0.95] == at
    late = choose_trips.Chooser()
    assert late.due(1.0, table.shifts)
    assert not late.due(1.0, table.shifts)


def test_trips_seen_are_kept_where_the_day_is_laid_out_anew() -> None:
    """Another plan's table numbers the stops anew; what was seen are the same customers."""
    improver = Improver(Ground(as_outfit(parsed(P_N16_K8))), 1)
    state = improver.construct()
    first = improver.resorter._table(state, 0, alone=True)
    other = improver.resorter(state, 0, 60, 1.0, alone=True)
    assert first is not None
    assert other is not None
    seen = _customers(first)
    again = improver.resorter._table(improver.construct(), 0, alone=True)
    assert again is not None
    assert again is not first
    assert seen <= _customers(again)


def _customers(table: DayTable) -> set[tuple[int, ...]]:
    return {
        tuple(table.stops[i].yard for i in trip)
        for shift in table.shifts
        for trip in shift.going.seen or ()
    }
