"""A whole campaign's days chosen anew from all that the search has tried.

A search by tries comes by many more good days than its best plan holds.  Here a plan is put
together from them once more: for every yard one of the chains of visits that it has had, and
trucks' days that hold exactly the visits of those chains, at the least cost in all.  A linear
program over everything seen tells which days and chains can be in a plan cheaper than the best
one; whole numbers choose among these (a set partition over a pool, as in Rochat & Taillard,
Journal of Heuristics 1, 1995).  People, kit and the honey house are left out, so the choice
is judged like any other plan, and counts only where it holds and is cheaper.
"""

import time
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import chain
from typing import Any, NamedTuple

from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.trips.day import Key
from runplanner.trips.judged import Judged
from runplanner.visits.stop import Stop, Visit

Part = tuple[int, int, Stop]
"""What one visit does: day, truck and stop, without the minute before which it waits."""
Parts = tuple[Part, ...]

CHOSEN_AT = (0.4, 0.6, 0.75, 0.9)
"""How much of the search is over when days are chosen anew."""
MOST_YARDS = 30
"""With more, whole numbers take too long for what they gain."""
MOST_SEEN = 20_000
"""Days remembered; once there are so many, no more are until the next choice."""
MOST = 1_000
"""Days and chains, of each the cheapest by price, that whole numbers choose from."""
WORK = 1.0
"""Deterministic time for whole numbers: a second or two."""
TAKES_S = 3.0
"""Seconds that a choice is thought to take before one was made."""
WORTH_IT = 2e-4
"""Share of its cost by which the linear program must lie below a plan for a choice."""


@dataclass(frozen=True, slots=True)
class Out:
    """A truck's day that was seen, and what its visits do."""

    key: Key
    parts: Parts
    judged: Judged


@dataclass(frozen=True, slots=True)
class Line:
    """One yard's chain that was seen, and what it costs beside its trucks' days."""

    yard: int
    parts: Parts
    milli_cents: int


class Chosen:
    """Remembers the days and chains of every try that held, and chooses among them."""

    def __init__(self, keeper: Keeper) -> None:
        self._keeper = keeper
        self._outs: dict[tuple[Key, Parts], Out] = {}
        self._lines: dict[tuple[int, Parts], Line] = {}
        self._passed = 0
        self._took_s: list[float] = []

    def takes_s(self) -> float:
        """Return the seconds that a choice takes, as far as known: with less left none is made.

        Only a clock asks: where none runs, there is always time.
        """
        return max(self._took_s, default=TAKES_S)

    def saw(self, state: State, keys: Iterable[Key]) -> None:
        """Take note of some days of a state that holds, and of the chains they belong to."""
        if len(self._outs) >= MOST_SEEN:
            return
        found = [state.days[key] for key in keys if key in state.days]
        for judged in found:
            self._note(judged)
        for yard in {visit.stop.yard for judged in found for visit in judged.visits}:
            progress = state.progress[yard]
            if not (progress.owing() or progress.uncovered):
                parts = _parts(state.visits[yard])
                cost = self._keeper.scoring.chain_milli_cents(progress)
                known = self._lines.get((yard, parts))
                if known is None or cost < known.milli_cents:
                    self._lines[yard, parts] = Line(yard, parts, cost)

    def _note(self, judged: Judged) -> None:
        key = judged.day.day, self._keeper.ground.truck_index[judged.day.hauler]
        parts = _parts(judged.visits)
        known = self._outs.get((key, parts))
        if known is None or judged.milli_cents < known.judged.milli_cents:
            self._outs[key, parts] = Out(key, parts, judged)

    def due(self, share: float) -> bool:
        """Tell, each round, whether to choose: once for each time that comes."""
        passed = sum(1 for at in CHOSEN_AT if at <= share)
        due = passed > self._passed
        self._passed = passed
        return due

    def __call__(self, best: State) -> State | None:
        """Return a cheaper state put together from what was seen, or None for none.

        Args:
            best: The best plan so far; where it leaves work undone nothing is chosen.
        """
        if any(best.score.undone):
            return None
        began = time.monotonic()
        chosen = self._chosen(best)
        self._took_s.append(time.monotonic() - began)
        return chosen

    def _chosen(self, best: State) -> State | None:
        self.saw(best, best.days)
        outs, lines = _fitting(list(self._outs.values()), list(self._lines.values()))
        cost = best.score.milli_cents - best.base.milli_cents
        held = {_parts(judged.visits) for judged in best.days.values()}
        held |= {_parts(visits) for visits in best.visits}
        outs, lines = self._promising(outs, lines, cost, held)
        self._outs = {(out.key, out.parts): out for out in outs}
        self._lines = {(line.yard, line.parts): line for line in lines}
        picked = _picked(outs, lines, held) if outs else None
        if picked is None:
            return None
        days: Mapping[Key, Judged] = {out.key: out.judged for out in picked}
        new = self._keeper.settled(dict(sorted(days.items())))
        return new if new.score < best.score else None

    def _promising(
        self, outs: list[Out], lines: list[Line], cost: int, held: set[Parts]
    ) -> tuple[list[Out], list[Line]]:
        """Return what may be in a cheaper plan, with what is in the best; nothing if none is."""
        shares = _shared(outs, lines) if outs else None
        if shares is None or shares.milli_cents > cost * (1 - WORTH_IT):
            return [], []
        slack = cost - shares.milli_cents

        def cheapest(rises: list[float], parts: list[Parts]) -> list[int]:
            order = sorted(range(len(rises)), key=lambda i: (rises[i], i))
            kept = {i for i in order[:MOST] if rises[i] <= slack}
            return sorted(kept | {i for i, mine in enumerate(parts) if mine in held})

        out_at = cheapest(shares.rises[: len(outs)], [out.parts for out in outs])
        line_at = cheapest(shares.rises[len(outs) :], [line.parts for line in lines])
        return [outs[i] for i in out_at], [lines[i] for i in line_at]


def _parts(visits: Iterable[Visit]) -> Parts:
    return tuple(
        sorted((visit.day, visit.truck, visit.stop._replace(from_min=0)) for visit in visits)
    )


def _fitting(outs: list[Out], lines: list[Line]) -> tuple[list[Out], list[Line]]:
    """Leave out days with a visit that is in no chain, and chains with one that is on no day."""
    while True:
        on_days = set(chain.from_iterable(out.parts for out in outs))
        in_lines = set(chain.from_iterable(line.parts for line in lines))
        left = [out for out in outs if in_lines.issuperset(out.parts)]
        whole = [line for line in lines if on_days.issuperset(line.parts)]
        if len(left) == len(outs) and len(whole) == len(lines):
            return left, whole
        outs, lines = left, whole


def _picked(outs: list[Out], lines: list[Line], held: set[Parts]) -> list[Out] | None:
    """Return the cheapest days found that whole chains are made of; limits are work, not time.

    The search sets out from ``held``: the days and chains of the best plan so far.
    """
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    taken = [model.new_bool_var("") for _ in range(len(outs) + len(lines))]
    whole = _both(outs, lines)
    same, once, out_of = _rows(outs, lines)
    for terms in same.values():
        model.add(sum(taken[i] * count for i, count in terms) == 0)
    for mine in once.values():
        model.add_exactly_one(taken[i] for i in mine)
    for mine in out_of.values():
        model.add_at_most_one(taken[i] for i in mine)
    model.minimize(sum(one * _milli_cents(it) for one, it in zip(taken, whole, strict=True)))
    for one, it in zip(taken, whole, strict=True):
        model.add_hint(one, it.parts in held)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_deterministic_time = WORK
    if solver.solve(model) not in {cp_model.OPTIMAL, cp_model.FEASIBLE}:
        return None
    return [out for out, one in zip(outs, taken, strict=False) if solver.boolean_value(one)]


def _shared(outs: list[Out], lines: list[Line]) -> "_Shares | None":
    """Return the least cost of days and chains in shares; None where it is not found."""
    from ortools.linear_solver import pywraplp

    program: Any = pywraplp.Solver.CreateSolver("GLOP")
    goal = program.Objective()
    goal.SetMinimization()
    taken = [program.NumVar(0, program.infinity(), "") for _ in range(len(outs) + len(lines))]
    for one, it in zip(taken, _both(outs, lines), strict=True):
        goal.SetCoefficient(one, _milli_cents(it))
    same, once, out_of = _rows(outs, lines)
    for terms in same.values():
        row = program.Constraint(0, 0)
        for i, count in terms:
            row.SetCoefficient(taken[i], count)
    for rows, least in ((once, 1), (out_of, 0)):
        for mine in rows.values():
            row = program.Constraint(least, 1)
            for i in mine:
                row.SetCoefficient(taken[i], 1)
    if program.Solve() != program.OPTIMAL:
        return None
    return _Shares(float(goal.Value()), [float(one.reduced_cost()) for one in taken])


class _Shares(NamedTuple):
    """What days and chains cost in shares at least, and by how much each would raise that."""

    milli_cents: float
    rises: list[float]


Rows = tuple[dict[Part, list[tuple[int, int]]], dict[int, list[int]], dict[Key, list[int]]]
"""Which days and chains do a visit, are of one yard, and are of one truck's day, by number."""


def _rows(outs: list[Out], lines: list[Line]) -> Rows:
    """Number days, then chains; a visit counts on days as it does, below 0, in chains."""
    same: dict[Part, list[tuple[int, int]]] = {}
    once: dict[int, list[int]] = {}
    out_of: dict[Key, list[int]] = {}
    for i, out in enumerate(outs):
        out_of.setdefault(out.key, []).append(i)
        for part, count in Counter(out.parts).items():
            same.setdefault(part, []).append((i, count))
    for i, line in enumerate(lines, len(outs)):
        once.setdefault(line.yard, []).append(i)
        for part, count in Counter(line.parts).items():
            same.setdefault(part, []).append((i, -count))
    return same, once, out_of


def _both(outs: list[Out], lines: list[Line]) -> list[Out | Line]:
    return [*outs, *lines]


def _milli_cents(it: Out | Line) -> int:
    return it.judged.milli_cents if isinstance(it, Out) else it.milli_cents
