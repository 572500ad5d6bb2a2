"""A truck that is out and is told what its driver has in hand anyway goes on as planned."""

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, CallKind, Shift
from runplanner.days import clock
from runplanner.errors import PlanError, ScenarioError
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.people import Hours
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from tests.running import at, put_in
from tests.season.any_outfit import outfits, short_hours
from tests.season.test_any_outfit import ANY, brief_reasons

pytestmark = pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these

__all__ = ["brief_reasons"]


def any_plan(outfit: Outfit) -> Plan | None:
    """A plan of few rounds, or None where there can be none."""
    with suppress(PlanError):
        return plan_season(outfit, rounds=1, proof=False)
    return None


def on_the_way(plan: Plan) -> Iterator[tuple[Shift, Call, list[str]]]:
    """Every call that a truck leaves for another place, and the names of the yards to come."""
    for shift in plan.shifts:
        for trip in shift.trips:
            for number, call in enumerate(trip.calls[:-1], 1):
                if trip.calls[number].goes_on(call):
                    continue
                ahead = [one for one in trip.calls[number:] if one.start_min > call.leave_min]
                stops = [one for one in ahead if one.kind is CallKind.YARD]
                yield shift, call, [plan.outfit.yard(one.yard).name for one in stops]


def minutes(shift: Shift) -> tuple[object, ...]:
    """By the clock, where it is when, and its breaks."""
    calls = [call for trip in shift.trips for call in trip.calls]
    return (
        [
            (call.yard, call.place, call.arrive_min, call.start_min, call.leave_min)
            for call in calls
        ],
        sorted(shift.breaks),
        shift.end_min,
    )


def told(plan: Plan, shift: Shift, line: str, now_min: int) -> Shift:
    """The truck's day once a line has been typed."""
    facts = put_in(line, now=at(now_min), plan=plan)
    return facts.plan.shifts[plan.shifts.index(shift)]


@settings(ANY, max_examples=25)
@given(outfits())
def test_told_what_it_does_anyway_a_truck_keeps_every_minute(outfit: Outfit) -> None:
    """As it leaves a call: the stops to come in their order, or that it leaves now.

    Only where waits or breaks are longer than they must be is it home sooner.
    """
    plan = any_plan(outfit)
    if plan is None:
        return
    for shift, call, names in on_the_way(plan):
        now, truck = call.leave_min, plan.outfit.truck(shift.truck).name
        lines = [f"next {truck}: {', '.join(names)}"] if names else []
        if call.yard:
            lines.append(f"left {plan.outfit.yard(call.yard).name} {clock(now)}")
        for line in lines:
            day = told(plan, shift, line, now)
            assert minutes(day) == minutes(shift) or day.end_min < shift.end_min


@settings(ANY, max_examples=25)
@given(outfits())
def test_a_stop_may_be_left_as_late_as_its_paper_says(outfit: Outfit) -> None:
    """With later trips on that day or none, no line is refused for it."""
    plan = any_plan(outfit)
    if plan is None:
        return
    for shift, call, _ in on_the_way(plan):
        if call.yard:
            latest = call.latest_leave_min
            line = f"left {plan.outfit.yard(call.yard).name} {clock(latest)}"
            day = told(plan, shift, line, call.leave_min)
            (left,) = [
                one.end_min
                for trip in day.trips
                for one in trip.calls
                if (one.yard, one.start_min) == (call.yard, call.start_min)
            ]
            assert left == latest


@settings(ANY, max_examples=12)
@given(outfits(), short_hours(), st.integers(0, 40))
def test_called_back_on_the_way_it_has_a_day_that_the_audit_takes(
    outfit: Outfit, hours: Hours, gone: int
) -> None:
    """Called home, or told to leave its next stop out, so long after it left a call.

    Where breaks fall due after an hour or less, one of sixty such days had been one without.
    """
    plan = any_plan(replace(outfit, hours=hours))
    if plan is None:
        return
    for shift, call, names in on_the_way(plan):
        now = min(call.leave_min + gone, shift.trips[-1].calls[-1].arrive_min - 1)
        truck = plan.outfit.truck(shift.truck).name
        for line in (f"home {truck}", *(f"skip {name}" for name in names[:1])):
            with suppress(ScenarioError):
                facts = put_in(line, now=at(now), plan=plan)
                new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0, proof=False)
                found = [one.sentence() for one in audit(new, facts.plan) if one.rule != "undone"]
                assert [] == found, (line, now)
