"""Margins that the audit refuses are taken back; whatever else it refuses stays refused."""

from dataclasses import replace

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call
from runplanner.office.narrowed import audited
from runplanner.office.words import narrowed_words
from tests.running import running_plan

TRIP = "0304-truck2-0716"


def edited(**changes: int) -> Plan:
    """The campaign with other margins, or other work, at Creek Mouth on Thursday."""
    plan = running_plan()
    shift = plan.shifts[0]
    (trip,) = shift.trips
    calls = tuple(replace(c, **changes) if c.yard == "creek-mouth" else c for c in trip.calls)  # type: ignore[arg-type]
    shift = replace(shift, trips=(replace(trip, calls=calls),))
    return replace(plan, shifts=(shift, *plan.shifts[1:]))


def calls_of(plan: Plan) -> tuple[Call, ...]:
    """The calls of Thursday's trip."""
    return plan.shifts[0].trips[0].calls


def test_a_sound_plan_is_left_alone() -> None:
    """The same object, and nothing to say."""
    plan = running_plan()
    found = audited(plan, audit)

    assert found.plan is plan
    assert ((), ()) == (found.findings, found.narrowed)
    assert [] == narrowed_words(found.narrowed)


def test_a_margin_that_does_not_hold_is_taken_back_on_its_trip() -> None:
    """Left at ten in the evening, or with 400 boxes, nobody gets home, or along."""
    for changes in ({"latest_leave_min": 3 * 1_440 + 1_320}, {"boxes_limit": 400}):
        plan = edited(**changes)
        assert audit(plan)
        found = audited(plan, audit)

        assert ((), (TRIP,)) == (found.findings, found.narrowed)
        for call in calls_of(found.plan):
            assert (call.leave_min, call.after.boxes) == (call.latest_leave_min, call.boxes_limit)
        assert plan.shifts[1:] == found.plan.shifts[1:]
        assert TRIP in narrowed_words(found.narrowed)[0]


def test_any_other_broken_rule_refuses_the_plan_as_it_was() -> None:
    """A margin beside it is no reason to touch anything."""
    plan = edited(latest_leave_min=3 * 1_440 + 1_320, end_min=3 * 1_440 + 526)
    found = audited(plan, audit)

    assert found.plan is plan
    assert {"latest leaving", "work minutes"} <= {one.rule for one in found.findings}
