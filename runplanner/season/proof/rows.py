"""A linear program written row by row, and the rows that fit minutes into shifts."""

from collections.abc import Iterable
from typing import Any

from runplanner.outfit.people import Hours

Term = tuple[Any, float]
"""A variable and its factor."""


class Rows:
    """Variables from 0 up with costs in cents, rows over them, and their least cost."""

    def __init__(self, hours: Hours) -> None:
        from ortools.linear_solver import pywraplp

        self.hours = hours
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

    def hours_rows(
        self,
        shifts: Any,  # noqa: ANN401
        busy: list[Term],
        over: Any,  # noqa: ANN401
        rest: Any,  # noqa: ANN401
    ) -> tuple[Any, float, Any]:
        """Fit busy minutes, breaks and overtime into shifts.

        A shift longer than the stretch after which a break is due holds a break; the line
        from that length to the longest shift stays below that step.  Returned are the row of
        breaks, how a busy minute counts in it, and the row of minutes.
        """
        hours = self.hours
        longest = min(hours.duty_max_min, hours.end_min - hours.start_min)
        normal, stretch = min(hours.normal_min, longest), hours.duty_break_after_min
        slope = 0.0
        if stretch < longest - hours.duty_break_min:
            slope = hours.duty_break_min / (longest - hours.duty_break_min - stretch)
        pause = self.row(0, None, [(rest, 1), (shifts, slope * stretch)])
        fit = self.row(None, 0, [(rest, 1), (over, -1), (shifts, -normal)])
        for variable, minutes in busy:
            known = pause.GetCoefficient(variable)
            pause.SetCoefficient(variable, known - slope * minutes)
            fit.SetCoefficient(variable, fit.GetCoefficient(variable) + minutes)
        self.row(None, 0, [(over, 1), (shifts, normal - longest)])
        return pause, -slope, fit

    def busy_min(self, *, over: bool) -> int:
        """Return the most busy minutes of a shift, of a normal one or with its overtime."""
        hours = self.hours
        longest = min(hours.duty_max_min, hours.end_min - hours.start_min)
        if not over:
            longest = min(longest, hours.normal_min)
        return max(min(longest, hours.duty_break_after_min), longest - hours.duty_break_min)

    def solved(self) -> bool:
        """Solve; tell whether there is an optimum."""
        self.goal.SetMinimization()
        return bool(self.lp.Solve() == self.lp.OPTIMAL)

    def cents(self) -> float:
        """Return the optimum."""
        return float(self.goal.Value())
