"""The stops of a plan at its yards, in the order in which they happen."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, Shift, Trip
from runplanner.outfit.once import once


@dataclass(frozen=True, slots=True)
class Stop:
    """One stop at a yard with the shift and trip it belongs to."""

    shift: Shift
    trip: Trip
    call: Call


@once
def stops(plan: Plan) -> tuple[Stop, ...]:
    """Return every stop of the plan by start, then by truck and trip."""
    found = [
        Stop(shift, trip, call)
        for shift in plan.shifts
        for trip in shift.trips
        for call in trip.yards()
    ]
    return tuple(sorted(found, key=lambda one: (one.call.start_min, one.shift.truck, one.trip.id)))


def stops_at(plan: Plan, yard: str) -> tuple[Stop, ...]:
    """Return the stops at the yard with this id, in that order; none where there are none."""
    return _by_yard(plan).get(yard, ())


@once
def _by_yard(plan: Plan) -> Mapping[str, tuple[Stop, ...]]:
    found: dict[str, list[Stop]] = {}
    for stop in stops(plan):
        found.setdefault(stop.call.yard, []).append(stop)
    return {yard: tuple(there) for yard, there in found.items()}


def by_stop(calls: Iterable[Call]) -> Iterator[list[Call]]:
    """Yield the calls of a trip, in order, those together that are one stop to its driver."""
    stop: list[Call] = []
    for call in calls:
        if stop and not call.goes_on(stop[-1]):
            yield stop
            stop = []
        stop.append(call)
    yield stop
