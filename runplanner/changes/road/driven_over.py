"""Trips that are over and by their counts bore too much, or brought honey somewhere else.

While a truck is out its driver is rung up; once it is home nobody would ask any more.
"""

from collections.abc import Iterator

from runplanner.changes.cargo.loads import loaded, overloads
from runplanner.changes.draft import Draft
from runplanner.changes.road.out import trucks_out
from runplanner.daybook.honey_line import honey_arrival
from runplanner.daybook.trip import Shift, Trip
from runplanner.phrase import Phrase, counted, phrase


def borne_too_much(draft: Draft) -> Iterator[Phrase]:
    """Yield the trips that are over, were counted in this message and did not bear their load."""
    counted_ids = {trip for trip, _ in draft.counted}
    out = {one.trip.id for one in trucks_out(draft)}
    for shift in draft.driven():
        for trip in shift.trips:
            if trip.id in counted_ids - out and trip.calls[0].start_min <= draft.now_min:
                yield from _asked(draft, shift, trip)


def brought_elsewhere(draft: Draft) -> Iterator[Phrase]:
    """Yield the trips counted in this message that are over, and never were at the honey house.

    They went by another count, or had no honey to bring, and unloaded at the store alone.
    """
    counted_ids = {trip for trip, _ in draft.counted}
    for trip in draft.driven_trips():
        over = trip.calls[-1].end_min <= draft.now_min
        if over and trip.id in counted_ids and trip.boxes() and not honey_arrival(draft.plan, trip):
            yield counted(
                "{id}: {number} full box by its counts, and it did not call at the honey house: "
                "see where it is and bring it over; it is in no line for spinning",
                "{id}: {number} full boxes by its counts, and it did not call at the honey house: "
                "see where they are and bring them over; they are in no line for spinning",
                trip.boxes(),
                id=trip.id,
            )


def _asked(draft: Draft, shift: Shift, trip: Trip) -> Iterator[Phrase]:
    was = loaded(draft.outfit, shift, trip)
    # Boards that lacked were told when they did.
    over = [
        words
        for call, words in overloads(draft.outfit, shift, trip, 0, was, there=True).items()
        if call.after.boards >= 0
    ]
    if over:
        yield phrase(
            "{id}: by its counts its load did not hold ({over}): ask the driver, and count again "
            "where a number is wrong",
            id=trip.id,
            over=over[0],
        )
