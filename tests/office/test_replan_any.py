"""Whatever changes, the new plan is good, the past stays, and untouched papers stay equal."""

from collections.abc import Callable
from dataclasses import astuple, replace

import pytest
from hypothesis import HealthCheck, Phase, assume, given, settings
from hypothesis import strategies as st

from runplanner.audit.audit import audit
from runplanner.changes.typed import Changed, changed, typed_changes
from runplanner.daybook.plan import ALL_DONE, Plan
from runplanner.daybook.trip import Shift
from runplanner.errors import PlanError, ScenarioError
from runplanner.paperwork.changed.change_page import change_page
from runplanner.paperwork.changed.change_sheet import ChangeSheet, change_sheet, manifest_text
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import CHOICES, replan_season
from tests.any_change import lines, now_line, nows
from tests.running import running_plan, wet_plan
from tests.season.any_outfit import outfits
from tests.season.test_any_outfit import brief_reasons

__all__ = ["brief_reasons"]

COMMON = settings(
    deadline=None,
    derandomize=True,
    database=None,
    phases=(Phase.explicit, Phase.generate),
    suppress_health_check=list(HealthCheck),
)
"""Nothing is made smaller: an example takes a plan, and the first that fails says enough."""


def planned(data: st.DataObject) -> Plan:
    """A plan of a random small outfit, hardly improved."""
    outfit = data.draw(outfits(4, 5))
    try:
        plan = plan_season(outfit, rounds=1)
    except PlanError:
        assume(False)
        raise
    assume(plan.shifts)
    return plan


def put_in(plan: Plan, typed: list[str], *, ring: bool) -> Changed:
    """The changes put in; those that are refused do not make an example."""
    try:
        return changed(plan, typed_changes(typed), ring=ring)
    except ScenarioError:
        assume(False)
        raise


def shifts_by(plan: Plan) -> dict[tuple[int, str], Shift]:
    """The shifts of a plan by day and truck, all marked alike."""
    return {
        (shift.day, shift.truck): replace(
            shift, trips=tuple(replace(trip, driven=True) for trip in shift.trips)
        )
        for shift in plan.shifts
    }


def changes_hold(data: st.DataObject, plan: Plan) -> None:
    """Draw a change or a pair: the audit passes, driven shifts and kept papers are equal."""
    now = data.draw(nows(plan))
    typed = data.draw(st.lists(lines(plan, now), min_size=1, max_size=2))
    upset = data.draw(st.sampled_from(CHOICES))
    facts = put_in(plan, [now_line(now), *typed], ring=data.draw(st.booleans()))
    try:
        new = replan_season(facts.plan, facts.outfit, facts.now_min, upset=upset, rounds=1)
    except PlanError:
        return

    assert [] == [finding.sentence() for finding in audit(new, facts.plan)]
    gone = {key: one for key, one in shifts_by(facts.plan).items() if one.start_min <= now}
    assert gone == {key: one for key, one in shifts_by(new).items() if one.start_min <= now}
    sheet = change_sheet(facts.plan, new, typed, facts.notes, facts.presumed)
    papers_hold(facts.plan, new, sheet)
    again = replan_season(new, new.outfit, now, rounds=2)
    if new.tally != ALL_DONE:
        assert astuple(again.tally) <= astuple(new.tally)
        return
    assert (new.shifts, new.bill) == (again.shifts, again.bill)


def papers_hold(before: Plan, new: Plan, sheet: ChangeSheet) -> None:
    """Papers said to be untouched are the same text, and every trip to come is in one list."""
    assert change_page(before, new, sheet)
    old = {trip.id: (shift, trip) for shift in before.shifts for trip in shift.trips}
    kept = {trip.id: (shift, trip) for shift in new.shifts for trip in shift.trips}
    for trip in sheet.untouched:
        assert manifest_text(before, *old[trip]) == manifest_text(new, *kept[trip])
    ahead = {t.id for s in new.shifts if s.start_min > new.now_min for t in s.trips}
    out = {t.id for s in new.shifts if s.start_min <= new.now_min < s.end_min for t in s.trips}
    assert ahead == {*sheet.untouched, *sheet.reprint, *sheet.fresh} - out


@pytest.mark.no_cover  # as in test_any_outfit.py
@pytest.mark.parametrize("plan", [running_plan, wet_plan])
@settings(COMMON, max_examples=10)
@given(data=st.data())
def test_any_change_leaves_a_good_plan(plan: Callable[[], Plan], data: st.DataObject) -> None:
    """Any change, or a pair of them, at any hour of a campaign."""
    changes_hold(data, plan())


@pytest.mark.slow
@settings(COMMON, max_examples=40)
@given(st.data())
def test_any_change_to_any_outfit_leaves_a_good_plan(data: st.DataObject) -> None:
    """The same for random small outfits."""
    changes_hold(data, planned(data))


@pytest.mark.slow
@settings(COMMON, max_examples=20)
@given(st.data())
def test_nothing_changed_changes_nothing(data: st.DataObject) -> None:
    """At any hour, and again at the same hour, the plan stands as it was.

    Where work is left it may be that a search finds a place for more of it.
    """
    plan = planned(data)
    now = data.draw(nows(plan))
    first = replan_season(plan, plan.outfit, now, rounds=2)
    again = replan_season(first, first.outfit, now, rounds=2)

    assert () == audit(first, plan)
    assert astuple(first.tally) <= astuple(plan.tally)
    if not plan.undone:
        assert shifts_by(plan) == shifts_by(first)
        assert first == again
