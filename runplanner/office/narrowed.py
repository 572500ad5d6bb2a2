"""Margins that the audit refuses are taken back to what is planned, so that a plan is not lost.

How late a driver may leave, and how many boxes beyond those planned may come aboard, is more than
the plan needs.  Where the two sides of this program do not agree on them, a driver without any is
safe, and a beekeeper without a plan is not.
"""

from collections.abc import Callable, Collection
from dataclasses import replace
from typing import Final, NamedTuple

from runplanner.audit.findings import Finding
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, Trip

MARGINS: Final = frozenset({"latest leaving", "boxes limit"})
"""The rules on what is printed beyond the plan."""
Audit = Callable[[Plan], tuple[Finding, ...]]


class Audited(NamedTuple):
    """A plan, what the audit finds in it, and the trips whose margins were taken back."""

    plan: Plan
    findings: tuple[Finding, ...]
    narrowed: tuple[str, ...] = ()


def audited(plan: Plan, audit: Audit) -> Audited:
    """Return a plan and what the audit finds in it; where that is margins alone, without those.

    Where the audit finds as much without them, the plan is returned as it was.
    """
    findings = audit(plan)
    if not findings or any(one.rule not in MARGINS for one in findings):
        return Audited(plan, findings)
    trips = tuple(dict.fromkeys(one.trip for one in findings))
    bare = _without_margins(plan, trips)
    left = audit(bare)
    return Audited(plan, findings) if left else Audited(bare, (), trips)


def _without_margins(plan: Plan, trips: Collection[str]) -> Plan:
    """Return a plan with calls still on of some trips left, and full, as planned at the latest."""
    shifts = tuple(
        replace(
            shift,
            trips=tuple(
                _bare(one, plan.now_min) if one.id in trips else one for one in shift.trips
            ),
        )
        for shift in plan.shifts
    )
    return replace(plan, shifts=shifts)


def _bare(trip: Trip, now_min: int) -> Trip:
    return replace(trip, calls=tuple(_at_latest(one, now_min) for one in trip.calls))


def _at_latest(call: Call, now_min: int) -> Call:
    if not call.still_on(now_min):
        return call
    limit = min(call.boxes_limit, call.after.boxes)
    was = call.planned_limit() if call.limit_was is not None else None
    return replace(
        call, latest_leave_min=call.leave_min, boxes_limit=limit,
        limit_was=was if was != limit else None,
    )  # fmt: skip
