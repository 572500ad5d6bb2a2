"""A season of whole visits: which yards on which days, and a bound on what that costs.

Every yard is visited on the days of one of its patterns, every visit by one truck, and a
truck's day costs what its set of yards costs.  A linear program over trucks' days and patterns,
grown by days of negative price, gives every yard a price on every day.  Whatever the prices
are, the trucks' days that are cheapest by them, and each yard's cheapest pattern, cost no more
together than any season (Lagrange's bound; Lübbecke & Desrosiers, Operations Research 53(6),
2005).  Days that are alike have one set of prices, as the mean of prices that were turned
round bounds as well as they do.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from runplanner.season.whole.listing import FAR, Ints, sums

ROUNDS = 200
"""Rounds in which the linear program grows at most."""
FRESH = 40
"""Trucks' days that come into it, each round, for each day and each row of prices."""
HELD_TO = 0.6
"""How far prices are drawn towards the best so far."""
GRAIN = 1e-6
"""What sums of fractions may be off by, in thousandths of the dearest day."""


class TooManyError(Exception):
    """There is more to look at than the work allowed."""


class Effort:
    """Work that may still be done; looking at a pair of sets counts one."""

    def __init__(self, most: int) -> None:
        self.left = most

    def spend(self, work: int) -> None:
        """Take work off what is left.

        Raises:
            TooManyError: There is less left than that.
        """
        if work > self.left:
            raise TooManyError
        self.left -= work


@dataclass(frozen=True)
class Rota:
    """What a season of whole visits may look like.

    Args:
        least: Cost of a truck's day for every set of yards, ``FAR`` where there is none.
        trucks: Trucks on every day.
        patterns: For every yard, the rows of days on which its visits may lie together.
        dearer: For every day, what a visit costs more than its drive, by yard.
    """

    least: Ints
    trucks: tuple[int, ...]
    patterns: tuple[tuple[tuple[int, ...], ...], ...]
    dearer: tuple[tuple[int, ...], ...] = ()

    def dearer_on(self, day: int) -> tuple[int, ...]:
        """Return what visits on a day cost more than their drive, by yard."""
        return self.dearer[day] if self.dearer else (0,) * len(self.patterns)

    @cached_property
    def sets(self) -> Ints:
        """Sets of yards that one truck can visit in a day, the empty one among them."""
        return np.flatnonzero(self.least < FAR)

    @cached_property
    def scale(self) -> float:
        """A thousandth of the dearest day: linear programs are solved in this unit."""
        return max(1.0, float(self.least[self.sets].max()) / 1000)

    @property
    def grain(self) -> float:
        """What sums of fractions may be off by."""
        return GRAIN * self.scale

    @cached_property
    def turn(self) -> int:
        """The least number of days by which all may be turned round without any change."""
        n_days = len(self.trucks)
        return next(by for by in range(1, n_days + 1) if n_days % by == 0 and self._alike(by))

    def _alike(self, by: int) -> bool:
        n_days = len(self.trucks)
        facts = [(self.trucks[d], self.dearer_on(d)) for d in range(n_days)]
        if facts != facts[by:] + facts[:by]:
            return False
        return all(
            {tuple(sorted((d + by) % n_days for d in days)) for days in mine} == set(mine)
            for mine in self.patterns
        )

    def must(self, day: int) -> int:
        """Return the set of yards that are visited on a day in any case."""
        return sum(
            1 << i for i, mine in enumerate(self.patterns) if all(day in days for days in mine)
        )

    def may(self, day: int) -> int:
        """Return the set of yards that may be visited on a day."""
        return sum(
            1 << i for i, mine in enumerate(self.patterns) if any(day in days for days in mine)
        )


@dataclass(frozen=True)
class Prices:
    """Prices of visits, and the bound they give.

    Args:
        bound: What no season can cost less than.
        extra: For each kind of day, and each of the rota's sets, what a truck's day costs
            beyond the cheapest by these prices; the extras of a season's days and patterns
            are what it costs beyond the bound.
        visits: Prices of visits by kind of day and yard.
        truck: For each kind of day, what a truck's cheapest day costs less its visits.
    """

    bound: float
    extra: tuple[Ints, ...]
    visits: Ints
    truck: tuple[float, ...]

    def of_day(self, kind: int, sets: Ints, trucks: int) -> Ints:
        """Return what the bound reckons for a day on which trucks visit a set of yards."""
        return sums(self.visits[kind])[sets] + trucks * self.truck[kind]


def priced(rota: Rota) -> Prices | None:
    """Return good prices, or None where no season is found even in fractions."""
    program = _Program(rota)
    best: Prices | None = None
    held: Ints | None = None
    for _ in range(ROUNDS):
        cost = program.solved()
        if cost is None:
            return None
        now = program.prices()
        fresh = 0
        for visits in [now] if held is None else [HELD_TO * held + (1 - HELD_TO) * now, now]:
            found = _bounded(rota, visits)
            fresh += program.grow(found.extra)
            if best is None or found.bound > best.bound:
                best, held = found, visits
        if not fresh or best is None or best.bound >= cost - rota.grain:
            break
    return best


def _bounded(rota: Rota, visits: Ints) -> Prices:
    """Return the bound that prices of visits (by kind of day and yard) give."""
    n_days, turn = len(rota.trucks), rota.turn
    bound, extras, trucks = 0.0, [], []
    for kind in range(turn):
        reduced = (rota.least[rota.sets] - sums(visits[kind])[rota.sets]).astype(np.float64)
        least = reduced.min()
        extras.append(reduced - least)
        trucks.append(float(least))
        bound += least * sum(rota.trucks[kind:n_days:turn])
    for yard, mine in enumerate(rota.patterns):
        bound += min(
            sum(visits[day % turn][yard] + rota.dearer_on(day)[yard] for day in days)
            for days in mine
        )
    return Prices(float(bound), tuple(extras), visits, tuple(trucks))


class _Program:
    """The linear program over the trucks' days taken in so far."""

    def __init__(self, rota: Rota) -> None:
        from ortools.linear_solver import pywraplp

        self.rota = rota
        self.lp: Any = pywraplp.Solver.CreateSolver("GLOP")
        self.goal: Any = self.lp.Objective()
        self.goal.SetMinimization()
        inf, n_days, turn = self.lp.infinity(), len(rota.trucks), rota.turn
        self.out = [self.lp.Constraint(-inf, sum(rota.trucks[k:n_days:turn])) for k in range(turn)]
        self.visited = [[self.lp.Constraint(0, inf) for _ in rota.patterns] for _ in range(turn)]
        self.taken = [np.zeros(len(rota.sets), dtype=bool) for _ in range(turn)]
        # Dearer than a day for each visit: what is left out never pays.
        dear = 2_001.0
        for yard, mine in enumerate(rota.patterns):
            whole = self.lp.Constraint(1, 1)
            self._column(dear * max(map(len, mine)), [(whole, 1.0)])
            for days in mine:
                calls = [(self.visited[day % turn][yard], -1.0) for day in days]
                cost = sum(rota.dearer_on(day)[yard] for day in days) / rota.scale
                self._column(cost, [(whole, 1.0), *calls])

    def _column(self, cost: float, rows: list[tuple[Any, float]]) -> None:
        variable = self.lp.NumVar(0, self.lp.infinity(), "")
        self.goal.SetCoefficient(variable, cost)
        for row, factor in rows:
            row.SetCoefficient(variable, row.GetCoefficient(variable) + factor)

    def solved(self) -> float | None:
        """Return the optimum, or None where there is none."""
        solved = self.lp.Solve() == self.lp.OPTIMAL
        return float(self.goal.Value()) * self.rota.scale if solved else None

    def prices(self) -> Ints:
        """Return the prices of visits by kind of day and yard; below 0 no price is."""
        prices = [[max(0.0, row.dual_value()) for row in mine] for mine in self.visited]
        return np.array(prices) * self.rota.scale

    def grow(self, extra: tuple[Ints, ...]) -> int:
        """Take in the cheapest trucks' days that are not in yet; return how many."""
        return sum(
            self._take(kind, int(at))
            for kind, mine in enumerate(extra)
            for at in self._cheapest(mine, self.taken[kind])
        )

    def _cheapest(self, extra: Ints, taken: Ints) -> Iterator[int]:
        order = np.argsort(extra, kind="stable")[: FRESH + int(taken.sum())]
        yield from [int(at) for at in order if not taken[at]][:FRESH]

    def _take(self, kind: int, at: int) -> int:
        self.taken[kind][at] = True
        yards = int(self.rota.sets[at])
        rows = [(row, 1.0) for i, row in enumerate(self.visited[kind]) if yards >> i & 1]
        self._column(
            float(self.rota.least[yards]) / self.rota.scale, [(self.out[kind], 1.0), *rows]
        )
        return 1
