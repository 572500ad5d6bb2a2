"""Trips of a day that a truck has not loaded for yet: kept, or put off as far as must be."""

import itertools
from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from runplanner.changes.road.calls import work_min
from runplanner.changes.road.clock import Rest
from runplanner.daybook.trip import Call, Trip
from runplanner.days import DAY_MIN, Span, clock
from runplanner.phrase import phrase
from runplanner.scenario.faults import Refusal


class Later(NamedTuple):
    """Trips that a truck has not loaded for, as its driver has them.

    Args:
        trips: The trips.
        breaks: Those in them.
        was: All breaks of the day, as the driver has them.
    """

    trips: Sequence[Trip] = ()
    breaks: tuple[Span, ...] = ()
    was: tuple[Span, ...] = ()


def with_later(
    rest: Rest, calls: Sequence[Call], later: Later
) -> tuple[Sequence[Call], Sequence[Trip]]:
    """Return the calls of the trip and the trips after it, put off where they must be.

    Those stay as they are where their loads are reached in time and breaks suffice.

    Raises:
        Refusal: When they may not be so late.
    """
    return as_told(rest, calls, later) or _put_off(rest, calls, later)


def as_told(
    rest: Rest, calls: Sequence[Call], later: Later
) -> tuple[Sequence[Call], Sequence[Trip]] | None:
    """Return the calls and the trips after them at their times; None where that cannot be."""
    if not later.trips:
        return calls, later.trips
    told = [replace(rest.shift.trips[rest.at], calls=tuple(calls)), *later.trips]
    for at, trip in enumerate(later.trips):
        waiting = waits(rest, told[at].calls, trip)
        if waiting is None:
            return None
        told[at], told[at + 1] = replace(told[at], calls=waiting[0]), waiting[1]
    breaks = sorted([*rest.breaks, *later.breaks])
    every = [call for trip in told for call in trip.calls]
    if tuple(breaks) != later.was and not rest.rested_enough(every, breaks):
        return None
    rest.breaks = breaks
    return told[0].calls, told[1:]


def _put_off(
    rest: Rest, calls: Sequence[Call], later: Later
) -> tuple[Sequence[Call], Sequence[Trip]]:
    """Return the calls, and the later trips as soon after them as may be, none sooner.

    Raises:
        Refusal: When a call would be left later than it may be.
    """
    was = replace(rest.shift, breaks=later.breaks)
    steps = [
        (call, work_min(rest.outfit, was, call)) for trip in later.trips for call in trip.calls
    ]
    trips = rest.shift.trips[: rest.at]
    late = replace(rest.shift.trips[rest.at], calls=(*calls, *(call for call, _ in steps)))
    day = replace(rest.shift, trips=(*trips, late), breaks=tuple(rest.breaks))
    behind = Rest(rest.outfit, day, rest.at, len(calls), -DAY_MIN, lambda one: one.start_min,
                  rest.hours, in_work=rest.in_work)  # fmt: skip
    told = behind.drive(steps, strict=False)
    put_off = told[len(calls) :]
    pairs = zip(put_off, steps, strict=True)
    if any(new.leave_min > old.latest_leave_min for new, (old, _) in pairs):
        load = later.trips[0].calls[0]
        said = phrase(
            "a day that holds: the next trip loads at {start_min} and must leave by {latest}",
            start_min=clock(load.start_min),
            latest=clock(load.latest_leave_min),
        )
        raise Refusal(said, phrase("Leave out more stops, or call the truck home."))
    rest.breaks, new = behind.breaks, iter(put_off)
    return told[: len(calls)], [
        replace(trip, calls=tuple(itertools.islice(new, len(trip.calls)))) for trip in later.trips
    ]


def waits(
    rest: Rest, calls: Sequence[Call], following: Trip
) -> tuple[tuple[Call, ...], Trip] | None:
    """Return the calls, the last one left in time for the load of the next trip, and that.

    None where it is too late.
    """
    last, load = calls[-1], following.calls[0]
    leave = load.arrive_min
    if last.leave_min + rest.leg(last.place, load.place, last.leave_min) == leave:
        return tuple(calls), following
    while leave + rest.leg(last.place, load.place, leave) > load.arrive_min:
        leave -= 1
    if leave < last.leave_min:
        return None
    if leave > last.leave_min:
        latest = max(leave, last.latest_leave_min)
        last = replace(last, end_min=leave, leave_min=leave, latest_leave_min=latest)
    # A minute later it could be too late already: then it is there a little sooner.
    arrive = leave + rest.leg(last.place, load.place, leave)
    load = replace(load, arrive_min=arrive)
    return (*calls[:-1], last), replace(following, calls=(load, *following.calls[1:]))
