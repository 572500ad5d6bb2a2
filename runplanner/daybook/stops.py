"""The stops of a plan at its yards, in the order in which they happen."""

from dataclasses import dataclass

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, Shift, Trip


@dataclass(frozen=True, slots=True)
class Stop:
    """One stop at a yard with the shift and trip it belongs to."""

    shift: Shift
    trip: Trip
    call: Call


def stops(plan: Plan) -> tuple[Stop, ...]:
    """Return every stop of the plan by start, then by truck and trip."""
    found = [
        Stop(shift, trip, call)
        for shift in plan.shifts
        for trip in shift.trips
        for call in trip.yards()
    ]
    return tuple(sorted(found, key=lambda one: (one.call.start_min, one.shift.truck, one.trip.id)))
