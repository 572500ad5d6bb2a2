"""The planner against brute force: on tiny campaigns it finds the very best plan there is."""

import itertools
from functools import cache

import pytest
from _pytest.mark import ParameterSet

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan, Tally
from runplanner.season import why_not
from runplanner.season.bound import bound_of
from runplanner.season.plan_season import plan_season
from runplanner.trips.ground import Ground
from tests.season.brute import Enumerator
from tests.season.tiny import CASES, Tiny


@cache
def best(case: Tiny) -> Plan:
    """The best plan by brute force, worked out once for all tests."""
    return Enumerator(case.make(), case.most_lots, case.more_starts).best()


@pytest.fixture(autouse=True)
def no_reliefs(monkeypatch: pytest.MonkeyPatch) -> None:
    """What would help is not asked here."""
    monkeypatch.setattr(why_not, "RELIEFS", ())


def names(case: Tiny) -> str:
    """Call a case by its name."""
    return case.name


def with_gaps(case: Tiny) -> ParameterSet:
    """The case, expected to fail where a gap is known; closing it makes the test say so."""
    marks = [pytest.mark.xfail(strict=True, reason=case.gap)] if case.gap else []
    return pytest.param(case, id=case.name, marks=marks)


@pytest.mark.parametrize("case", [with_gaps(case) for case in CASES])
def test_the_planner_finds_the_optimum(case: Tiny) -> None:
    """No plan the audit passes leaves less or costs less, whichever way it is done."""
    optimum = best(case)
    plan = plan_season(case.make(), rounds=case.rounds)

    assert () == audit(plan)
    assert (optimum.tally, optimum.bill.total()) == (plan.tally, plan.bill.total())


@pytest.mark.parametrize("case", CASES, ids=names)
def test_the_bound_lies_below_the_optimum(case: Tiny) -> None:
    """And the unavoidable cost below the bound; no plan leaves less than its tally."""
    optimum = best(case)
    bound = bound_of(Ground(case.make()), optimum.tally)

    assert 0 <= bound.fixed_cents <= bound.cents <= optimum.bill.total()
    assert parts(bound.tally) <= parts(optimum.tally)


def parts(tally: Tally) -> tuple[int, int, int, int]:
    """The undone vector."""
    return tally.uncovered, tally.no_strips, tally.unfed_g, tally.not_off


SMALL = [
    case
    for case in CASES
    if case.name in {"one yard", "boards overnight", "split over loads", "closed morning"}
]


@pytest.mark.parametrize("case", SMALL, ids=names)
def test_a_bound_holds_for_every_tally(case: Tiny) -> None:
    """With work left undone the bound is below every plan that leaves no more, and it falls.

    The plans are the cheapest for each undone vector, by brute force.
    """
    search = Enumerator(case.make(), case.most_lots)
    cheapest = {left: next(search.plans(only=left), None) for left in search.vectors()}
    found = {left: plan.bill.total() for left, plan in cheapest.items() if plan is not None}
    bounds = {left: bound_of(Ground(case.make()), Tally(*left)).cents for left in found}

    assert len(found) > 1
    for more, less in itertools.product(found, repeat=2):
        if all(a >= b for a, b in zip(more, less, strict=True)):
            assert bounds[more] <= found[less]
            assert bounds[more] <= bounds[less] + 1
