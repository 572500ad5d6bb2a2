"""What is wrong with the load at a stop to come: mass, way in, axles, deck places, boards."""

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from runplanner.changes.cargo.aboard import aboard
from runplanner.changes.cargo.deck import hauler_of, idle_places
from runplanner.daybook.trip import Aboard, Call, CallKind, Job, Shift, Trip
from runplanner.haulage.boxes_come import Told, ways_to_come
from runplanner.haulage.stow import Strain
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.stop.decks import strained
from runplanner.phrase import Phrase, counted, phrase

MOST_MORE: Final = 400
"""Boxes more than planned that a stop may be told to go on to."""


def loaded(outfit: Outfit, shift: Shift, trip: Trip) -> Aboard:
    """Return what a trip left with, whatever of it was not used since."""
    calls = tuple(replace(one, actions=one.planned or one.actions) for one in trip.calls)
    planned = aboard(outfit, shift, trip, calls)[0].after
    return trip.left if trip.left and trip.left_g > planned.load_g else planned


def as_loaded(outfit: Outfit, shift: Shift, trip: Trip, now_min: int) -> Aboard:
    """Return what a trip leaves with: once it has begun to load, what it was told to take.

    One still to load takes what its stops now get.
    """
    start = trip.calls[0]
    return start.after if start.start_min > now_min else loaded(outfit, shift, trip)


def overloads(
    outfit: Outfit, shift: Shift, trip: Trip, first: int, was: Aboard, *, there: bool = False
) -> Mapping[Call, Phrase]:
    """Return the stops that are left with a load that does not hold, and in words why.

    Args:
        outfit: The facts.
        shift: The truck's day.
        trip: One of its trips.
        first: The first of its calls to look at, from 0.
        was: The load with which it left; what of it is not used up is still aboard.
        there: The truck is there, so that the way in is past asking.
    """
    faults = _faults(outfit, shift, trip, first, was, there=there)
    return {call: words for call, words, _ in faults}


def _faults(
    outfit: Outfit, shift: Shift, trip: Trip, first: int, was: Aboard, *, there: bool
) -> Iterator[tuple[Call, Phrase, bool]]:
    """Yield the same stops with whether fewer boxes would help."""
    unused = max(0, was.load_g - trip.calls[0].after.load_g)
    limits, each = _limits(outfit, shift, trip), strained(outfit, shift, trip, was)
    for at in range(first, len(trip.calls)):
        call, (least, most, gate) = trip.calls[at], limits[at]
        if call.kind is not CallKind.YARD:
            continue
        load, name = call.after.load_g + unused, outfit.yard(call.yard).name
        came = trip.calls[max(0, at - 1)].after.load_g + unused
        limited = outfit.yard(call.yard).access.max_vehicle_g is not None
        if came > gate and limited and not (there and at == first):
            over = -(-(came - gate) // 1000)
            words = phrase("{over} kg too much for the way into {where}", over=over, where=name)
            yield call, words, True
        elif load > most:
            over = -(-(load - most) // 1000)
            words = phrase("{over} kg too much aboard after {where}", over=over, where=name)
            yield call, words, True
        elif call.after.places > call.after.places_max:
            words = counted(
                "{number} deck place too many taken after {where}",
                "{number} deck places too many taken after {where}",
                call.after.places - call.after.places_max,
                where=name,
            )
            yield call, words, True
        elif each and (alone := _on_one(outfit, shift, each[at], name)) is not None:
            yield call, alone, True
        elif call.after.boards < min(0, trip.calls[max(0, at - 1)].after.boards):
            words = counted(
                "{number} board too few at {where}",
                "{number} boards too few at {where}",
                -call.after.boards,
                where=name,
            )
            yield call, words, False
        elif (each[at].light_g > 0) if each else load < least:
            yield call, phrase("too little on the front axle after {where}", where=name), False


def _on_one(outfit: Outfit, shift: Shift, strain: Strain, name: str) -> Phrase | None:
    """Return in words what is too much on truck or trailer, though both together bear it."""
    pulled = outfit.trailer(shift.trailer)
    vehicles = outfit.truck(shift.truck).name, pulled.name if pulled else ""
    for vehicle, over_g, places in zip(vehicles, strain.grams, strain.places, strict=True):
        if over_g > 0:
            over = -(-over_g // 1000)
            return phrase("{over} kg too much on {vehicle} alone after {where}", over=over,
                          vehicle=vehicle, where=name)  # fmt: skip
        if places > 0:
            return counted(
                "{number} deck place too many taken on {vehicle} alone after {where}",
                "{number} deck places too many taken on {vehicle} alone after {where}",
                places,
                vehicle=vehicle,
                where=name,
            )
    return None


def _limits(outfit: Outfit, shift: Shift, trip: Trip) -> list[tuple[int, int, int]]:
    """Return the least and the most load on leaving each call, and the most with which it is come.

    All in grams; of truck and trailer together.
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


def boxes_limits(outfit: Outfit, shift: Shift, trip: Trip, first: int, was: Aboard) -> list[int]:
    """Return how many boxes may be aboard on leaving each stop still on; as planned while it holds.

    Fewer than planned where those cannot be borne even if no later stop takes any, but no fewer
    than are aboard on coming where stops before have kept to theirs.  They hold whether each stop
    before that is still on is left as planned, at its limit, or between.  Where fewer are taken
    honey stays on, so syrup and strips for that stop stay aboard.  Where no box is taken, it is
    what is aboard.

    Args:
        outfit: The facts.
        shift: The truck's day.
        trip: One of its trips.
        first: The first of its calls still on, from 0.
        was: The load with which it leaves.
    """
    found, told, given = list[int](), dict[int, Told](), trip
    for at in range(first, len(trip.calls)):
        call = trip.calls[at]
        if not call.takes_boxes():
            found.append(call.after.boxes)
            continue
        ways = _ways(outfit, shift, given, at, told)
        limit = _limit(outfit, shift, ways, at, was)
        if limit < ways[0].calls[at].after.boxes:
            given = _nothing_given(outfit, shift, given, at)
            limit = _limit(outfit, shift, _ways(outfit, shift, given, at, told), at, was)
        told[at] = Told(outfit.yard(call.yard).box_g, call.boxes(), limit)
        found.append(limit)
    return found


def _ways(
    outfit: Outfit, shift: Shift, trip: Trip, at: int, told: Mapping[int, Told]
) -> list[Trip]:
    """Return a trip as it may come to one of its stops, by those told before; as planned first."""
    box_g = outfit.yard(trip.calls[at].yard).box_g
    came = trip.calls[next(iter(told)) - 1].after.boxes if told else 0
    return [
        _taking(outfit, shift, trip, dict(zip(told, taken, strict=True)))
        for taken in ways_to_come(tuple(told.values()), box_g, came)
    ]


def _nothing_given(outfit: Outfit, shift: Shift, trip: Trip, at: int) -> Trip:
    """Return a trip whose syrup and strips for one stop stay aboard."""
    call = trip.calls[at]
    kept = tuple(one for one in call.actions if one.job not in (Job.FEED, Job.STRIPS))
    bare = replace(call, actions=kept, planned=call.planned or call.actions)
    calls = (*trip.calls[:at], bare, *trip.calls[at + 1 :])
    return replace(trip, calls=aboard(outfit, shift, trip, calls))


def _limit(outfit: Outfit, shift: Shift, ways: Sequence[Trip], at: int, was: Aboard) -> int:
    """Return how many boxes may be aboard on leaving a stop, in whichever way it is come to.

    The first way is the one as planned.  More than planned leave room on the deck for goods that no
    call uses; none of those planned stays on for a place that small goods may find elsewhere.
    """
    call = ways[0].calls[at]
    here, most = call.after.boxes, max(call.after.boxes, call.planned_limit())
    idle = idle_places(outfit, shift, ways[0], was)

    def holds(way: Trip, number: int) -> bool:
        more = _more(way, at, number)
        if not _bears(outfit, shift, way, at, more, was):
            return False
        fuller = _with_more(outfit, shift, way, at, more)
        return number <= here or _room_on_deck(fuller, at, idle)

    def bears(number: int) -> bool:
        return all(holds(way, number) for way in ways)

    if bears(most):
        return most
    least, most = here - call.boxes(), min(most, here + MOST_MORE)
    return least + bisect_left(range(least + 1, most + 1), True, key=lambda n: not bears(n))


def _more(trip: Trip, at: int, limit: int) -> int:
    """Return for how many boxes more than it takes a stop has room up to a limit; fewer below 0.

    None at all where more are aboard on coming.
    """
    call = trip.calls[at]
    return max(limit - call.after.boxes, -call.boxes())


def _bears(outfit: Outfit, shift: Shift, trip: Trip, at: int, more: int, was: Aboard) -> bool:
    """Tell whether the trip goes on within its limits with so many boxes more from one stop.

    Within those that fewer boxes would help to keep: boards that lack are no reason to load less.
    With as many as planned, or fewer, later stops may leave all of theirs on instead.
    """
    new = _with_more(outfit, shift, trip, at, more)
    if more <= 0:
        none = tuple(
            replace(one, actions=tuple(replace(did, boxes=0) for did in one.actions))
            for one in new.calls[at + 1 :]
        )
        new = replace(new, calls=aboard(outfit, shift, new, (*new.calls[: at + 1], *none)))
    return not any(helps for *_, helps in _faults(outfit, shift, new, at, was, there=True))


def _room_on_deck(trip: Trip, at: int, idle: Sequence[int]) -> bool:
    """Tell whether a deck has room from a stop on, with places taken by what no call uses."""
    calls = zip(trip.calls[at:], idle[at:], strict=True)
    return all(
        call.after.places + places <= call.after.places_max
        for call, places in calls if call.kind is CallKind.YARD
    )  # fmt: skip


def _with_more(outfit: Outfit, shift: Shift, trip: Trip, at: int, more: int) -> Trip:
    """Return a trip that takes so many boxes more at one stop; fewer where negative."""
    return _taking(outfit, shift, trip, {at: trip.calls[at].boxes() + more})


def _taking(outfit: Outfit, shift: Shift, trip: Trip, boxes: Mapping[int, int]) -> Trip:
    """Return a trip that takes so many boxes at some of its stops, by their number from 0."""
    if not boxes:
        return trip
    calls = tuple(
        _filled(call, boxes[at]) if at in boxes else call for at, call in enumerate(trip.calls)
    )
    return replace(trip, calls=aboard(outfit, shift, trip, calls))


def _filled(call: Call, boxes: int) -> Call:
    """Return a stop that takes so many boxes, whatever they were."""
    spot = next(n for n, one in enumerate(call.actions) if one.boxes)
    more = boxes - call.boxes()
    fuller = replace(call.actions[spot], boxes=call.actions[spot].boxes + more)
    return replace(call, actions=(*call.actions[:spot], fuller, *call.actions[spot + 1 :]))
