"""The campaign with what was counted on a trip, and calls of a plan."""

from dataclasses import replace

from runplanner.changes.typed import Changed
from runplanner.daybook.plan import Plan
from runplanner.daybook.text import plan_from_text, plan_text
from runplanner.daybook.trip import Action, Call, Job
from tests.audit.planted import edited
from tests.running import at, put_in, running_plan

BOTH = "0304-truck2-0716"
"""Boards on at the mill, then Creek Mouth and Fernbank off, fed and given strips."""

LATE = "Thu 4 Mar 18:00"

MILL = "0305-truck2-0715"


def counted(trip: str, *lines: str) -> Changed:
    """The campaign an hour after ``trip`` is over, with counts for it."""
    shift = next(s for s in running_plan().shifts for t in s.trips if t.id == trip)
    said = [f"done {trip} {line}" for line in lines]
    return put_in(*said, now=at(shift.end_min + 60))


def shift_end(trip: str) -> int:
    """When the truck of a trip is home."""
    return next(s.end_min for s in running_plan().shifts for t in s.trips if t.id == trip)


def call_at(plan: Plan, trip: str, yard: str) -> Call:
    """The call of a trip at a yard."""
    trips = (one for shift in plan.shifts for one in shift.trips if one.id == trip)
    return next(call for one in trips for call in one.calls if call.yard == yard)


def did(facts: Changed, trip: str, yard: str) -> dict[Job, Action]:
    """What was done at a stop, by job."""
    return {action.job: action for action in call_at(facts.plan, trip, yard).actions}


def in_two_calls(*first: Job) -> Plan:
    """The campaign with Fernbank called at twice by one trip: ``first`` jobs, then the others."""

    def split(calls: tuple[Call, ...]) -> tuple[Call, ...]:
        *before, call, last = calls
        half = (call.start_min + call.end_min) // 2
        mine = tuple(one for one in call.actions if one.job in first)
        others = tuple(one for one in call.actions if one.job not in first)
        parts = (
            replace(call, end_min=half, leave_min=half, actions=mine),
            replace(call, arrive_min=half, start_min=half, actions=others),
        )
        return (*before, *parts, last)

    plan = running_plan()
    shift, trip = next((s, t) for s in plan.shifts for t in s.trips if t.id == BOTH)
    at_both = f"shifts.{plan.shifts.index(shift)}.trips.{shift.trips.index(trip)}"
    return edited(plan, {f"{at_both}.calls": split})


def again(facts: Changed, *lines: str) -> Changed:
    """Counts put into the plan that was made after earlier ones, as its file has it."""
    plan = replace(facts.plan, outfit=facts.outfit, now_min=facts.now_min)
    return put_in(*lines, plan=plan_from_text(plan_text(plan)))
