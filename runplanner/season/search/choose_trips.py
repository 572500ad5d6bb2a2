"""One day's trips chosen anew from all that quick sums have found drivable.

A search by tries comes by far more good trips than its best day holds.  A linear program over
all of them, grown by those of negative price, prices every stop; of the trips that cost least
by these prices whole numbers choose a cheapest set that has every stop once (a set partition
over a pool of routes, as in Rochat & Taillard, Journal of Heuristics 1, 1995).  Which truck
drives which of them, and when, is only hinted at: no more trips than there are trucks may be
under way at a minute at which each of them must be.  What finds no truck is put back by quick
sums.
"""

from collections.abc import Callable, Mapping, Sequence
from itertools import chain
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from runplanner.season.quick.sums import Going, RoughDay, built
from runplanner.visits.stop import Stop

Floats = NDArray[np.float64]
Order = tuple[int, ...]
"""A trip as numbers of stops."""
CHOSEN_AT = (0.6, 0.75, 0.86, 0.95)
"""How much of the search of a day alone is over when its trips are chosen from all seen."""
BETWEEN = 0.04
"""Share of all rounds so far that lie at least between one choice and the next."""
LONG = 8
"""Mean stops of a trip beyond which too many are seen, and whole numbers take too long."""
FRESH = 400
"""Trips that come into the linear program at once."""
LP_ROUNDS = 60
SMALL = 1_000
"""Trips of which whole numbers choose, beside those of the best day so far."""
NODES = 5
SOLVES = 4
"""How often whole numbers choose, if trips crowd at some minute that was not thought of yet."""
GRAIN = 1e-6
MOST_SEEN = 100_000
"""Trips remembered before the dearest by price are forgotten."""
KEPT_SEEN = 20_000
DEAR = 100.0
"""What leaving out a stop costs, in times of the dearest trip."""


class Choice(NamedTuple):
    """A trip that may be chosen: how one goes about it, its stops, its cost in 1/1000 cent."""

    going: Going
    order: Order
    cost: float


class Crowd(NamedTuple):
    """A minute at which not more trips may be under way than there are trucks that go so."""

    going: Going
    minute: int


class Chooser:
    """Chooses a day's trips when it is time to; it remembers at which minutes they crowd."""

    def __init__(self) -> None:
        self._crowds: list[Crowd] = []
        self._passed = self._rounds = self._last = 0

    def due(self, share: float, shifts: Sequence[RoughDay]) -> bool:
        """Tell, each round, whether to choose: once for each time that comes.

        Where no truck makes more than one trip, tries alone find as good a day in less time.

        Args:
            share: How much of the search is over.
            shifts: The trucks' days, whose ``going`` has what was seen.
        """
        self._rounds += 1
        trips = [trip for shift in shifts for trip in shift.trips]
        out = sum(1 for shift in shifts if shift.trips)
        if len(trips) <= out or sum(map(len, trips)) > LONG * len(trips):
            return False
        if self._rounds - self._last <= BETWEEN * self._rounds:
            # A choice may take until the next time by the clock: nothing new was seen meanwhile.
            return False
        passed = sum(1 for at in CHOSEN_AT if at <= share)
        seen = sum(len(going.seen or ()) for going in _goings(shifts))
        due = passed > self._passed or seen > MOST_SEEN
        if due:
            self._passed, self._last = passed, self._rounds
        return due

    def __call__(
        self,
        shifts: Sequence[RoughDay],
        stops: int,
        put: Callable[[list[RoughDay], int], bool],
    ) -> list[RoughDay] | None:
        """Return the trucks' days with trips chosen anew, or None where none are found.

        Args:
            shifts: The best known day, truck by truck; every ``going`` of theirs has ``seen``.
            stops: How many there are.
            put: Puts a stop where it goes best, and tells whether it goes in.
        """
        goings = _goings(shifts)
        now = [(shift.going, trip) for shift in shifts for trip in shift.trips]
        pool = _pool(goings, now)
        prices = _extras(pool, stops) if pool else None
        if prices is None:
            return None
        order = np.argsort(prices, kind="stable")
        _forget(goings, pool, order)
        held, cheap = set(now), set(order[:SMALL].tolist())
        few = [one for i, one in enumerate(pool) if i in cheap or one[:2] in held]
        many = {going: sum(1 for one in shifts if one.going is going) for going in goings}
        self._crowds = [crowd for crowd in self._crowds if crowd.going in many]
        best = self._whole(few, stops, many)
        return None if best is None else _laid_out(shifts, best, put)

    def _whole(self, pool: list[Choice], stops: int, many: dict[Going, int]) -> list[Choice] | None:
        """Return the cheapest choice found that crowds nowhere, or the last that does."""
        found: list[Choice] | None = None
        for _ in range(SOLVES):
            found = _solved(pool, stops, self._crowds, many)
            fresh = [] if found is None else _crowded(found, many)
            if not fresh:
                break
            self._crowds += fresh
        return found


def remembered(
    shifts: Sequence[RoughDay],
    stops: Sequence[Stop],
    before: Sequence[RoughDay],
    stops_before: Mapping[int, Stop],
    like: Mapping[int, tuple[int, int]],
) -> None:
    """Keep from now on all trips that can be driven, and what was seen of them before.

    Args:
        shifts: The trucks' days as they are laid out now.
        stops: Their stops, by number.
        before: The trucks' days as they were laid out before.
        stops_before: What the numbers meant then.
        like: For every hauler, what those that are alike have in common.
    """
    number = {stop: i for i, stop in enumerate(stops)}
    new = {i: number.get(stop, -1) for i, stop in stops_before.items()}
    for going in _goings(shifts):
        going.seen = set()
        for old in _goings(before):
            if like[old.hauler] == like[going.hauler]:
                trips = (tuple(new[i] for i in trip) for trip in old.seen or ())
                going.seen |= {trip for trip in trips if -1 not in trip}


def _goings(shifts: Sequence[RoughDay]) -> list[Going]:
    return list(dict.fromkeys(shift.going for shift in shifts))


def _pool(goings: list[Going], now: list[tuple[Going, Order]]) -> list[Choice]:
    """Return all trips seen, of those with the same stops the cheapest, in a fixed order."""
    found: list[Choice] = []
    for going in goings:
        cheapest: dict[frozenset[int], Choice] = {}
        mine = {trip for its, trip in now if its is going}
        for trip in sorted((going.seen or set()) | mine):
            cost = _cost(going, trip)
            if cost is None:
                continue
            stops = frozenset(trip)
            known = cheapest.get(stops)
            if known is None or cost < known.cost:
                cheapest[stops] = Choice(going, trip, cost)
        found += cheapest.values()
    return found


def _cost(going: Going, trip: Order) -> float | None:
    """Return what a trip's drives and work cost, loading to end; None where it was refused."""
    laid = going.loads.laid(trip)
    if laid is None:
        return None
    cost, here = 0.0, laid.nodes[0][0]
    for place, *_ in laid.nodes[1:]:
        cost += going.cost[here][place]
        here = place
    return cost + laid.work_min * going.minute


def _forget(goings: list[Going], pool: list[Choice], order: NDArray[np.int64]) -> None:
    """Let go of trips that cost most by price, where many were seen."""
    if sum(len(going.seen or ()) for going in goings) <= MOST_SEEN:
        return
    for going in goings:
        going.seen = set()
    for i in order[:KEPT_SEEN].tolist():
        going = pool[i].going
        if going.seen is not None:
            going.seen.add(pool[i].order)


def _extras(pool: list[Choice], stops: int) -> Floats | None:
    """Return what every trip costs beyond its stops' prices; None where no prices are found."""
    cost = np.array([one.cost for one in pool])
    cost /= max(1.0, cost.max() / 1000)
    lengths = np.array([len(one.order) for one in pool])
    flat = np.fromiter(chain.from_iterable(one.order for one in pool), dtype=np.int64)
    starts = np.concatenate([[0], np.cumsum(lengths)[:-1]])
    program = _Program(stops)
    taken = np.zeros(len(pool), dtype=bool)
    extra: Floats = cost / lengths
    for _ in range(LP_ROUNDS):
        cheapest = np.argsort(extra, kind="stable")[: FRESH + int(taken.sum())]
        for i in [at for at in cheapest.tolist() if not taken[at]][:FRESH]:
            taken[i] = True
            program.take(float(cost[i]), pool[i].order)
        prices = program.prices()
        if prices is None:
            return None
        extra = cost - np.add.reduceat(prices[flat], starts)
        if not (extra[~taken] < -GRAIN).any():
            break
    return extra


class _Program:
    """The linear program over the trips taken in so far; leaving a stop out is dear."""

    def __init__(self, stops: int) -> None:
        from ortools.linear_solver import pywraplp

        self.lp: Any = pywraplp.Solver.CreateSolver("GLOP")
        self.goal: Any = self.lp.Objective()
        self.goal.SetMinimization()
        self.once = [self.lp.Constraint(1, 1) for _ in range(stops)]
        for stop in range(stops):
            self.take(DEAR * 1000, (stop,))

    def take(self, cost: float, order: Order) -> None:
        """Take a trip in."""
        # A bound above, be it ever so high, can send GLOP round in circles.
        variable = self.lp.NumVar(0, self.lp.infinity(), "")
        self.goal.SetCoefficient(variable, cost)
        for stop in order:
            self.once[stop].SetCoefficient(variable, 1)

    def prices(self) -> Floats | None:
        """Return every stop's price, or None where the program is not solved."""
        if self.lp.Solve() != self.lp.OPTIMAL:
            return None
        return np.array([row.dual_value() for row in self.once], dtype=np.float64)


def _solved(
    pool: list[Choice], stops: int, crowds: list[Crowd], many: dict[Going, int]
) -> list[Choice] | None:
    """Return the cheapest trips that have every stop once; limits are work, not time."""
    from ortools.linear_solver import pywraplp

    program: Any = pywraplp.Solver.CreateSolver("SCIP")
    program.SetSolverSpecificParametersAsString(f"limits/nodes = {NODES}")
    goal = program.Objective()
    goal.SetMinimization()
    once = [program.Constraint(1, 1) for _ in range(stops)]
    under_way = [(crowd, program.Constraint(0, many[crowd.going])) for crowd in crowds]
    scale = max(1.0, max(one.cost for one in pool) / 1000)
    chosen = []
    for one in pool:
        variable = program.BoolVar("")
        chosen.append(variable)
        goal.SetCoefficient(variable, one.cost / scale)
        for stop in one.order:
            once[stop].SetCoefficient(variable, 1)
        if under_way:
            first, last = _must(one)
            for crowd, row in under_way:
                if crowd.going is one.going and first <= crowd.minute < last:
                    row.SetCoefficient(variable, 1)
    if program.Solve() not in {program.OPTIMAL, program.FEASIBLE}:
        return None
    return [
        one for one, variable in zip(pool, chosen, strict=True) if variable.solution_value() > 0.5
    ]


def _must(one: Choice) -> tuple[int, int]:
    """Return from when till when a trip is under way whenever it is driven, if ever."""
    alone = built(one.going, (one.order,))
    if alone is None:
        return 0, 0
    return alone.slack()


def _crowded(chosen: list[Choice], many: dict[Going, int]) -> list[Crowd]:
    """Return, for each way of going, the minute at which most trips are too many, if any."""
    found = []
    for going, trucks in many.items():
        spans = [_must(one) for one in chosen if one.going is going]
        under_way = [
            (sum(1 for first, last in spans if first <= minute < last), -minute)
            for minute, _ in spans
        ]
        most, minute = max(under_way, default=(0, 0))
        if most > trucks:
            found.append(Crowd(going, -minute))
    return found


def _laid_out(
    shifts: Sequence[RoughDay], chosen: list[Choice], put: Callable[[list[RoughDay], int], bool]
) -> list[RoughDay] | None:
    """Give every trip a truck, those that must be over first, first; None where that fails."""
    new = [shift.going.empty() for shift in shifts]
    left: list[int] = []
    for one in sorted(chosen, key=lambda one: (sum(_must(one)), one.order)):
        best: tuple[tuple[float, int], int, RoughDay] | None = None
        for k, shift in enumerate(new):
            if shift.going is not one.going:
                continue
            for at in range(len(shift.trips) + 1):
                longer = built(shift.going, (*shift.trips[:at], one.order, *shift.trips[at:]))
                if longer is not None:
                    cost = (longer.cost - shift.cost, -shift.busy)
                    if best is None or cost < best[0]:
                        best = cost, k, longer
        if best is None:
            left += one.order
        else:
            new[best[1]] = best[2]
    return new if all(put(new, stop) for stop in left) else None
