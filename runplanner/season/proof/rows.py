"""A linear program written row by row, and the rows that fit minutes into shifts."""

import math
from collections.abc import Iterable
from itertools import pairwise
from math import fsum
from typing import Any

from runplanner.outfit.people import Hours

Term = tuple[Any, float]
"""A variable and its factor."""
SHORT = 1e-4


def extra_lines(hours: Hours, dearer: float) -> tuple[tuple[float, float], ...]:
    """Return the lines below what a shift pays beside its busy minutes, each rise and start.

    That is its break, and its overtime at so much ``dearer`` than normal minutes; both in
    paid minutes, by busy minutes.  A shift of normal length pays its break in full before it
    pays any overtime, so the two together lie higher than lines below either.
    """
    longest = hours.longest_min
    stretch, pause = min(hours.duty_break_after_min, longest), hours.duty_break_min

    def extra(busy: float, rest: float) -> float:
        return rest + dearer * max(0.0, busy + rest - hours.normal_min)

    corners = {busy: extra(busy, 0) for busy in (0, min(hours.normal_min, stretch), stretch)}
    for busy in (hours.normal_min - pause, longest - pause):
        if stretch < busy <= longest - pause:
            corners[busy] = extra(busy, pause)
    lower: list[tuple[float, float]] = []
    for corner in sorted(corners.items()):
        while len(lower) > 1 and _rise(lower[-2], corner) <= _rise(lower[-2], lower[-1]):
            lower.pop()
        lower.append(corner)
    rises = [(_rise(a, b), a) for a, b in pairwise(lower)]
    return tuple((rise, y - rise * x) for rise, (x, y) in rises if rise > 0)


def _rise(a: tuple[float, float], b: tuple[float, float]) -> float:
    return (b[1] - a[1]) / (b[0] - a[0])


class Rows:
    """Variables from 0 up with costs in cents, rows over them, and their least cost."""

    def __init__(self, hours: Hours, overtime_permille: int) -> None:
        from ortools.linear_solver import pywraplp

        self.hours = hours
        self.dearer = overtime_permille / 1000
        self.lines = extra_lines(hours, self.dearer)
        self.kept_back: list[list[Term]] = []
        self.lp: Any = pywraplp.Solver.CreateSolver("GLOP")
        self.goal: Any = self.lp.Objective()

    def var(self, cents: float, most: float | None = None) -> Any:  # noqa: ANN401 - the solver's
        """Return a new variable from 0 to ``most``, at a cost."""
        variable = self.lp.NumVar(0, self.lp.infinity() if most is None else most, "")
        self.goal.SetCoefficient(variable, cents)
        return variable

    def row(self, least: float | None, most: float | None, terms: Iterable[Term]) -> Any:  # noqa: ANN401
        """Return a new row over a sum of variables times factors."""
        inf = self.lp.infinity()
        row = self.lp.Constraint(-inf if least is None else least, inf if most is None else most)
        sums: dict[int, Term] = {}
        for variable, factor in terms:
            known = sums.get(variable.index(), (variable, 0.0))[1]
            sums[variable.index()] = (variable, known + factor)
        for variable, factor in sums.values():
            row.SetCoefficient(variable, factor)
        return row

    def homes(
        self, extra: dict[int, tuple[float, float]], last: dict[int, Any], minute_cents: float
    ) -> list[Term]:
        """Return trips that come home by the honey house, with the minutes that takes more.

        Args:
            extra: Minutes and cents beyond the least way home, by last yard.
            last: The drives home by the least way; some of them go by the honey house.
            minute_cents: What a minute of the crew costs.
        """
        found: list[Term] = []
        for yard, (minutes, cents) in extra.items():
            if yard in last:
                home = self.var(cents + minutes * minute_cents)
                self.row(None, 0, [(home, 1), (last[yard], -1)])
                found.append((home, minutes))
        return found

    def loaded(self, share: Any, poorest: float, richest: float) -> Any:  # noqa: ANN401
        """Return what part of a yard's boxes goes with a share of its work.

        The whole goes with the whole; every lot has at least the ``poorest`` and at most the
        ``richest`` rate, and so have the lots beside it.
        """
        if poorest == richest:
            return share
        part = self.var(0, 1)
        self.row(0, None, [(part, 1), (share, -poorest)])
        if math.isfinite(richest):
            self.row(1 - richest, None, [(part, 1), (share, -richest)])
        return part

    def hours_rows(
        self,
        shifts: Any,  # noqa: ANN401
        busy: list[Term],
        over: Any,  # noqa: ANN401
        rest: Any,  # noqa: ANN401
    ) -> list[Term]:
        """Fit busy minutes, breaks and overtime into shifts.

        A shift longer than the stretch after which a break is due holds a break; the line
        from that length to the longest shift stays below that step.  What breaks and overtime
        cost together stays above the lines below their sum.  Returned are the rows that busy
        minutes stand in, with how a minute counts in each.
        """
        hours = self.hours
        longest = hours.longest_min
        normal, stretch = min(hours.normal_min, longest), hours.duty_break_after_min
        slope = 0.0
        if stretch < longest - hours.duty_break_min:
            slope = hours.duty_break_min / (longest - hours.duty_break_min - stretch)
        rows = [
            (self.row(0, None, [(rest, 1), (shifts, slope * stretch)]), -slope),
            (self.row(None, 0, [(rest, 1), (over, -1), (shifts, -normal)]), 1.0),
            *(
                (self.row(0, None, [(rest, 1), (over, self.dearer), (shifts, -base)]), -rise)
                for rise, base in self.lines
            ),
        ]
        for row, factor in rows:
            for variable, minutes in busy:
                row.SetCoefficient(variable, row.GetCoefficient(variable) + factor * minutes)
        self.row(None, 0, [(over, 1), (shifts, normal - longest)])
        return rows

    def busy_min(self, *, over: bool) -> int:
        """Return the most busy minutes of a shift, of a normal one or with its overtime."""
        hours = self.hours
        longest = hours.longest_min
        if not over:
            longest = min(longest, hours.normal_min)
        return max(min(longest, hours.duty_break_after_min), longest - hours.duty_break_min)

    def solved(self) -> bool:
        """Solve, another way where numbers got in the way of one; tell whether it is optimal."""
        self.goal.SetMinimization()
        status = self.lp.Solve()
        if status == self.lp.ABNORMAL:
            # What it makes simpler beforehand is what fails then, whichever simplex follows.
            self.lp.SetSolverSpecificParametersAsString("use_preprocessing: false")
            status = self.lp.Solve()
            self.lp.SetSolverSpecificParametersAsString("use_preprocessing: true")
        return bool(status == self.lp.OPTIMAL)

    def cents(self) -> float:
        """Return the optimum."""
        return float(self.goal.Value())

    def keep_back(self, terms: list[Term]) -> None:
        """Keep a sum of terms that may not fall below 0 until a solution breaks it."""
        self.kept_back.append(terms)

    def broken(self) -> list[list[Term]]:
        """Return what the solution breaks of the sums kept back, and keep the others."""
        low = [fsum(v.solution_value() * f for v, f in terms) < -SHORT for terms in self.kept_back]
        found = [terms for terms, breaks in zip(self.kept_back, low, strict=True) if breaks]
        self.kept_back = [t for t, breaks in zip(self.kept_back, low, strict=True) if not breaks]
        return found

    def hold(self, broken: list[list[Term]]) -> None:
        """Add the rows of sums kept back so far."""
        for terms in broken:
            self.row(0, None, terms)
