"""What is wrong with the load at a stop to come: mass, way in, axles, deck places, boards."""

from bisect import bisect_left
from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from runplanner.daybook.trip import Aboard, Call, CallKind, Shift, Trip
from runplanner.outfit.outfit import Outfit
from runplanner.phrase import Phrase, counted, phrase
from runplanner.scenario.changes.aboard import aboard
from runplanner.scenario.changes.deck import hauler_of

MOST_MORE: Final = 400
"""Boxes more than planned that a stop may be told to go on to."""


def loaded(outfit: Outfit, shift: Shift, trip: Trip) -> Aboard:
    """Return what a trip left with, whatever of it was not used since."""
    calls = tuple(replace(one, actions=one.planned or one.actions) for one in trip.calls)
    planned = aboard(outfit, shift, trip, calls)[0].after
    return trip.left if trip.left and trip.left_g > planned.load_g else planned


def overloads(
    outfit: Outfit, shift: Shift, trip: Trip, begun: int, was_g: int
) -> Mapping[Call, Phrase]:
    """Return the stops to come that are left with a load that does not hold, and in words why.

    Args:
        outfit: The facts.
        shift: The truck's day.
        trip: One of its trips.
        begun: How many of its calls have begun.
        was_g: The load with which it left; what of it is not used up is still aboard.
    """
    unused = max(0, was_g - trip.calls[0].after.load_g)
    limits = _limits(outfit, shift, trip)
    found = {}
    for at in range(begun, len(trip.calls)):
        call, (least, most, gate) = trip.calls[at], limits[at]
        if call.kind is not CallKind.YARD:
            continue
        load, name = call.after.load_g + unused, outfit.yard(call.yard).name
        came = trip.calls[max(0, at - 1)].after.load_g + unused
        if came > gate and outfit.yard(call.yard).access.max_vehicle_g is not None:
            found[call] = phrase(
                "{over} kg too much for the way into {where}",
                over=-(-(came - gate) // 1000),
                where=name,
            )
        elif load > most:
            found[call] = phrase(
                "{over} kg too much aboard after {where}",
                over=-(-(load - most) // 1000),
                where=name,
            )
        elif call.after.boards < 0:
            found[call] = counted(
                "{number} board too few at {where}",
                "{number} boards too few at {where}",
                -call.after.boards,
                where=name,
            )
        elif load < least:
            found[call] = phrase("too little on the front axle after {where}", where=name)
        elif call.after.places > call.after.places_max:
            found[call] = counted(
                "{number} deck place too many taken after {where}",
                "{number} deck places too many taken after {where}",
                call.after.places - call.after.places_max,
                where=name,
            )
    return found


def _limits(outfit: Outfit, shift: Shift, trip: Trip) -> list[tuple[int, int, int]]:
    """Return the least and the most load on leaving each call, and the most with which it is come.

    All in grams; of truck and trailer together: how they share it under way is not reckoned.
    """
    hauler = hauler_of(outfit, shift)
    if hauler is None:
        return [(0, call.after.load_max_g, call.after.load_max_g) for call in trip.calls]
    least, most = hauler.bears()
    most += hauler.trailer_g
    gates = [
        most
        if not call.yard or (way := outfit.yard(call.yard).access).max_vehicle_g is None
        else hauler.load_for(way)
        for call in trip.calls
    ]
    return [
        (least, min(most, call.after.load_max_g, gate), gate)
        for call, gate in zip(trip.calls, gates, strict=True)
    ]


def boxes_limit(outfit: Outfit, shift: Shift, trip: Trip, at: int) -> int:
    """Return how many boxes may be aboard on leaving a stop; as planned while that still holds.

    Where no box is taken, or nothing may be added, it is what is aboard.
    """
    call = trip.calls[at]
    here = call.after.boxes
    if not call.takes_boxes() or here >= call.boxes_limit:
        return here
    if _bears(outfit, shift, trip, at, call.boxes_limit - here):
        return call.boxes_limit
    more = range(1, min(MOST_MORE, call.boxes_limit - here) + 1)
    return here + bisect_left(more, True, key=lambda n: not _bears(outfit, shift, trip, at, n))


def _bears(outfit: Outfit, shift: Shift, trip: Trip, at: int, more: int) -> bool:
    """Tell whether the trip goes on within its limits with so many boxes more from one stop."""
    call = trip.calls[at]
    spot = next(n for n, one in enumerate(call.actions) if one.boxes)
    fuller = replace(call.actions[spot], boxes=call.actions[spot].boxes + more)
    actions = (*call.actions[:spot], fuller, *call.actions[spot + 1 :])
    calls = (*trip.calls[:at], replace(call, actions=actions), *trip.calls[at + 1 :])
    new = replace(trip, calls=aboard(outfit, shift, trip, calls))
    return not overloads(outfit, shift, new, at, loaded(outfit, shift, trip).load_g)
