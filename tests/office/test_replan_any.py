"""Whatever changes, the new plan is good, the past stays, and untouched papers stay equal."""

from dataclasses import replace

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Shift
from runplanner.errors import PlanError, ScenarioError
from runplanner.paperwork.change_sheet import change_page, change_sheet, manifest_text
from runplanner.scenario.changes import Changed, changed, typed_changes
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import CHOICES, replan_season
from tests.any_change import lines, now_line, nows
from tests.season.any_outfit import outfits

QUICK = settings(
    max_examples=25,
    deadline=None,
    derandomize=True,
    suppress_health_check=[
        HealthCheck.too_slow,
        HealthCheck.filter_too_much,
        HealthCheck.data_too_large,
    ],
)


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


def put_in(plan: Plan, typed: list[str]) -> Changed:
    """The changes put in; those that are refused do not make an example."""
    try:
        return changed(plan, typed_changes(typed))
    except ScenarioError:
        assume(False)
        raise


def told(shift: Shift) -> Shift:
    """A shift without its marks of having been driven."""
    return replace(shift, trips=tuple(replace(trip, driven=True) for trip in shift.trips))


def shifts_by(plan: Plan) -> dict[tuple[int, str], Shift]:
    """The shifts of a plan by day and truck."""
    return {(shift.day, shift.truck): told(shift) for shift in plan.shifts}


@QUICK
@given(st.data())
def test_any_change_leaves_a_good_plan(data: st.DataObject) -> None:
    """One change or a pair: the audit passes, driven shifts are equal, kept papers are equal."""
    plan = planned(data)
    now = data.draw(nows(plan))
    typed = data.draw(st.lists(lines(plan, now), min_size=1, max_size=2))
    facts = put_in(plan, [now_line(now), *typed])
    try:
        new = replan_season(
            facts.plan,
            facts.outfit,
            facts.now_min,
            upset=data.draw(st.sampled_from(CHOICES)),
            rounds=1,
        )
    except PlanError:
        return

    assert [] == [finding.sentence() for finding in audit(new, facts.plan)]
    gone = {k: s for k, s in shifts_by(facts.plan).items() if s.start_min <= now}
    assert gone == {k: s for k, s in shifts_by(new).items() if s.start_min <= now}
    sheet = change_sheet(facts.plan, new, typed, facts.notes, facts.presumed)
    assert change_page(facts.plan, new, sheet)
    old = {trip.id: (shift, trip) for shift in facts.plan.shifts for trip in shift.trips}
    kept = {trip.id: (shift, trip) for shift in new.shifts for trip in shift.trips}
    for trip in sheet.untouched:
        assert manifest_text(facts.plan, *old[trip]) == manifest_text(new, *kept[trip])


@QUICK
@given(st.data())
def test_nothing_changed_changes_nothing(data: st.DataObject) -> None:
    """At any hour, and again at the same hour, the plan stands as it was."""
    plan = planned(data)
    now = data.draw(nows(plan))
    first = replan_season(plan, plan.outfit, now, rounds=2)
    again = replan_season(first, first.outfit, now, rounds=2)

    assert () == audit(first, plan)
    assert first.shifts == again.shifts
    assert (first.mixing, first.spinning) == (again.mixing, again.spinning)
    assert first.bill == again.bill
    if not change_sheet(plan, first).visits_moved:
        assert set(shifts_by(plan)) <= set(shifts_by(first))
