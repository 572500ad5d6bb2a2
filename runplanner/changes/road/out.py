"""Trucks that are out at the time it is: where in their day they are, and what is to come."""

from dataclasses import dataclass

from runplanner.changes.draft import Draft
from runplanner.daybook.trip import Call, CallKind, Shift, Trip


@dataclass(frozen=True, slots=True)
class Out:
    """A truck that is out: its day, the trip it is on, and how many calls of it have begun."""

    shift: Shift
    at: int
    begun: int

    @property
    def trip(self) -> Trip:
        """The trip under way."""
        return self.shift.trips[self.at]

    def to_come(self) -> tuple[Call, ...]:
        """Return the stops of the trip that have not begun."""
        return tuple(c for c in self.trip.calls[self.begun :] if c.kind is CallKind.YARD)

    def later_trips(self) -> tuple[Trip, ...]:
        """The trips it has not loaded for yet."""
        return self.shift.trips[self.at + 1 :]

    def later_stops(self) -> tuple[Call, ...]:
        """The stops of trips it has not loaded for yet."""
        return tuple(call for trip in self.later_trips() for call in trip.yards())

    def under_way(self, now_min: int) -> Call | None:
        """Return the stop at which it is at work, if any."""
        last = self.trip.calls[self.begun - 1] if self.begun else None
        at_work = last is not None and last.kind is CallKind.YARD and not last.over(now_min)
        return last if at_work else None


def trucks_out(draft: Draft) -> list[Out]:
    """Return the trucks that are out and have loaded."""
    now, found = draft.now_min, []
    for shift in draft.driven():
        begun = [sum(call.start_min <= now for call in trip.calls) for trip in shift.trips]
        at = sum(count > 0 for count in begun) - 1
        if at >= 0 and now < shift.end_min:
            found.append(Out(shift, at, begun[at]))
    return found


def trips_begun(draft: Draft) -> list[Out]:
    """Return the trips of today that have loaded, also those by now presumed to be over.

    A truck that is late is out longer, and begins its next trip later, than its plan has it.
    """
    now = draft.now_min
    return [
        Out(shift, at, begun)
        for shift in draft.driven() if shift.day == draft.today
        for at, trip in enumerate(shift.trips)
        if (begun := sum(call.start_min <= now for call in trip.calls)) > 0
    ]  # fmt: skip


def trucks_leaving(draft: Draft) -> list[Out]:
    """Return the trucks that have left home and not loaded yet: nothing of theirs has begun."""
    return [
        Out(shift, 0, 0)
        for shift in draft.driven()
        if shift.trips and draft.now_min < shift.trips[0].calls[0].start_min
    ]
