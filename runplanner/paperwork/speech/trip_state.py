"""How far a trip is by the plan's own time: to load, under way, or driven."""

from enum import StrEnum

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, Trip
from runplanner.paperwork.speech.tongue import mark


class TripState(StrEnum):
    """How far a trip is."""

    TO_LOAD = "to load"
    UNDER_WAY = mark("under way")
    DRIVEN = mark("driven")


def trip_state(plan: Plan, trip: Trip) -> TripState:
    """Return how far ``trip`` is at the plan's *now*.

    ``Trip.driven`` holds for all trips of a truck's day once it has left home.  A trip is under
    way once its truck has begun to load, and driven when its last call is over.
    """
    if not trip.driven or plan.now_min < trip.calls[0].start_min:
        return TripState.TO_LOAD
    return TripState.DRIVEN if call_over(plan, trip.calls[-1]) else TripState.UNDER_WAY


def call_over(plan: Plan, call: Call) -> bool:
    """Tell whether ``call`` is over at the plan's *now*."""
    return call.over(plan.now_min)
