"""Two trucks that are out on one day meet at a yard.

Each loads from 8:00, is at Yard 1 from 8:29 to 8:54 and at Yard 2 from 8:58 to 9:23, the second
some minutes later all along.
"""

from dataclasses import replace
from functools import cache

from runplanner.changes.typed import Changed
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, Shift
from runplanner.days import clock
from tests.audit.test_two_trucks import two_trucks
from tests.running import put_in


def moved(call: Call, minutes: int) -> Call:
    """A call that much later."""
    names = ("arrive_min", "start_min", "end_min", "leave_min", "latest_leave_min")
    return replace(call, **{name: getattr(call, name) + minutes for name in names})


def later(shift: Shift, minutes: int) -> Shift:
    """A truck's day that much later."""
    (trip,) = shift.trips
    calls = tuple(moved(call, minutes) for call in trip.calls)
    return replace(
        shift, start_min=shift.start_min + minutes, end_min=shift.end_min + minutes,
        trips=(replace(trip, calls=calls),),
    )  # fmt: skip


@cache
def meeting(minutes: int) -> Plan:
    """Both trucks on day 1, the second so much later."""
    plan = two_trucks()
    return replace(plan, shifts=(*plan.shifts[:2], later(plan.shifts[2], minutes)))


def visits(facts: Changed, truck: int) -> list[tuple[str, str]]:
    """When a truck's stops of day 1 begin and are over."""
    return [
        (clock(call.start_min), clock(call.end_min))
        for call in facts.plan.shifts[truck].trips[0].yards()
    ]


def test_who_has_left_a_yard_is_the_truck_that_came_last() -> None:
    """At 8:40 the first is there since 8:29, the second since 8:39, in any order."""
    plan = meeting(10)
    turned = replace(plan, shifts=(plan.shifts[0], plan.shifts[2], plan.shifts[1]))
    for told, second in ((plan, 2), (turned, 1)):
        facts = put_in("left Yard 1 8:45", now="Tue 8:40", plan=told)
        assert ("08:39", "08:45") == visits(facts, second)[0]
        assert ("08:29", "08:54") == visits(facts, 3 - second)[0]


def test_who_is_told_to_come_sooner_waits_until_the_other_truck_is_done() -> None:
    """Without Yard 1 the second would begin at Yard 2 at 9:03, where the first is until 9:23."""
    plan = meeting(30)
    facts = put_in("skip Yard 1", now="Tue 8:31", plan=plan)

    assert ("09:23", "09:48") == visits(facts, 2)[0]
    assert ("08:58", "09:23") == visits(facts, 1)[1]
