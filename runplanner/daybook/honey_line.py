"""The line of full boxes at the honey house: first in, first spun; who is held stands aside.

Boxes of a yard that closes leave the line, but for those in the extractor by then, and join it
anew, at its end, once the yard is open again.
"""

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from heapq import heapify, heappop, heappush
from typing import NamedTuple

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, CallKind, Trip
from runplanner.days import NEVER, Span


class Came(NamedTuple):
    """Boxes of one yard that one trip brings: when, how many, and when nobody may spin them."""

    at_min: int
    boxes: int
    held: tuple[Span, ...]


class Turn(NamedTuple):
    """Boxes in line one after the other, all of what came in as ``number``, since ``from_min``.

    That is ``NEVER`` where they are held still: those are in no line.
    """

    number: int
    from_min: int
    boxes: int


def honey_line(
    came: Sequence[Came], spun: Iterable[tuple[int, int]], waiting: int
) -> Iterator[Turn]:
    """Yield the boxes in the order in which they are spun, held ones in the end or in between.

    Args:
        came: All boxes in the order in which they come in.
        spun: ``(start_min, boxes)`` of all stretches of spinning that have begun; one ends where
            a yard closes, so all its boxes were in before.
        waiting: Boxes that stood there before all others.
    """
    begun = [start for start, boxes in sorted(spun) for _ in range(boxes)]
    coming = [(one.at_min, 0, number, one.boxes) for number, one in enumerate(came)]
    heapify(coming)
    ahead = waiting
    while coming:
        minute, _, number, boxes = heappop(coming)
        hold = next((one for one in came[number].held if minute < one.end_min), None)
        in_time = boxes if hold is None else bisect_left(begun, hold.start_min) - ahead
        mine = min(boxes, max(0, in_time))
        ahead += mine
        if mine:
            yield Turn(number, minute, mine)
        if hold is not None and mine < boxes:
            if hold.end_min < NEVER:
                heappush(coming, (hold.end_min, 1, number, boxes - mine))
            else:
                yield Turn(number, NEVER, boxes - mine)


def honey_arrival(plan: Plan, trip: Trip) -> Call | None:
    """Return the unloading call at the honey house, or None when no honey comes."""
    house = plan.outfit.honey_house.base.place
    if not trip.boxes():
        return None
    unloads = (call for call in trip.calls if call.kind is CallKind.UNLOAD and call.place == house)
    return next(unloads, None)
