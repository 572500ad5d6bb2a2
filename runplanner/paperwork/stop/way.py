"""The way of one trip: the places it touches in order, and from when to when."""

from collections.abc import Iterator
from itertools import pairwise

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, CallKind, Shift, Trip
from runplanner.days import Span, clock
from runplanner.paperwork.speech.say import place_name, yard_named
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.paperwork.stop.yard_words import stop_words
from runplanner.roads.sketch import Line, Sketch


def way(plan: Plan, shift: Shift, trip: Trip) -> tuple[int, ...]:
    """Return the places in order, by index: home at the ends of the shift, all calls between.

    A place that is called at twice in a row, such as home and feed store in one, stands once.
    """
    home = plan.outfit.home.place
    stands = [call.place for call in trip.calls]
    if trip.id == shift.trips[0].id:
        stands.insert(0, home)
    if trip.id == shift.trips[-1].id:
        stands.append(home)
    return tuple(here for i, here in enumerate(stands) if not i or here != stands[i - 1])


def road_pieces(
    plan: Plan, shift: Shift, trip: Trip, roads: Sketch | None
) -> Iterator[tuple[bool, Line]]:
    """Yield the line of each drive of a trip, and whether it follows the roads.

    A drive that the roads do not know is straight.  Longitudes lie from -180 up to 180.
    """
    for here, there in pairwise(way(plan, shift, trip)):
        known = roads.drive(here, there) if roads is not None else ()
        ends = (plan.outfit.places[here], plan.outfit.places[there])
        spots = known or tuple((end.lat, end.lon) for end in ends)
        turned = ((lat, (lon + 180) % 360 - 180 if abs(lon) > 180 else lon) for lat, lon in spots)
        yield bool(known), tuple((round(lat, 6), round(lon, 6)) for lat, lon in turned)


def trip_span(shift: Shift, trip: Trip) -> Span:
    """Return from when to when the crew is out: the shift's ends count to its outer trips."""
    first, last = trip.id == shift.trips[0].id, trip.id == shift.trips[-1].id
    start = shift.start_min if first else trip.calls[0].arrive_min
    return Span(start, shift.end_min if last else trip.calls[-1].leave_min)


def numbered(trip: Trip) -> tuple[tuple[int, Call], ...]:
    """Return each call with its stop's number, 1 first; 0 for calls at base."""
    found, number = [], 0
    for call in trip.calls:
        at_yard = call.kind is CallKind.YARD
        number += at_yard
        found.append((number if at_yard else 0, call))
    return tuple(found)


def call_name(plan: Plan, number: int, call: Call) -> str:
    """Return a call as a driver finds it in a list: ``2 Mill Lane``, ``Load at Depot``."""
    if call.kind is CallKind.YARD:
        return f"{number} {yard_named(plan.outfit, call.yard)}"
    head = mark("Load at {place}") if call.kind is CallKind.LOAD else mark("Unload at {place}")
    return tr(head, place=place_name(plan.outfit, call.place))


def call_words(plan: Plan, call: Call) -> str:
    """Return when a call begins, when to leave at the latest, and what is done there."""
    jobs = "; ".join(stop_words(plan, call))
    when = tr(
        "{start}, leave {leave}, latest {latest}",
        start=clock(call.start_min), leave=clock(call.leave_min),
        latest=clock(call.latest_leave_min),
    )  # fmt: skip
    return f"{when}. {jobs}" if jobs else when
