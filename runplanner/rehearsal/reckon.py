"""What a driven campaign came to, by plain arithmetic on what truly was; and the audit's chains."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from runplanner.audit.book import open_book
from runplanner.audit.cover import gaps
from runplanner.audit.need import closed
from runplanner.audit.undone import tally_of
from runplanner.audit.wet_boxes import left_up, not_back
from runplanner.changes.cargo.loads import loaded
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import CallKind, Shift, Trip
from runplanner.paperwork.stop.decks import strained


def over_g(plan: Plan, shift: Shift, trip: Trip, true_g: Mapping[str, int]) -> int:
    """Return the worst overload of a trip, of truck or trailer alone as well; 0 where none.

    What was loaded and not used, as syrup is where not all colonies came off, is aboard until
    the trip's last call.

    Args:
        plan: The plan as it was driven; its facts hold the mass of a box as it was guessed.
        shift: The truck's day.
        trip: The trip, with its true counts.
        true_g: True mass of a box, by yard.
    """
    guess_g = {yard.id: yard.box_g for yard in plan.outfit.yards}
    house = plan.outfit.honey_house.base.place
    was = loaded(plan.outfit, shift, trip)
    unused = max(0, was.load_g - trip.calls[0].after.load_g)
    more_g = {yard: true_g[yard] - guess_g[yard] for yard in true_g}
    each = strained(plan.outfit, shift, trip, was, more_g)
    worst, wrong = max((max(one.grams) for one in each), default=0), 0
    for call in trip.calls:
        for action in call.actions:
            wrong += action.boxes * (true_g[call.yard] - guess_g[call.yard])
        if call.kind is CallKind.UNLOAD and call.place == house:
            wrong = 0
        if call is trip.calls[-1]:
            unused = 0
        worst = max(worst, call.after.load_g + unused + wrong - call.after.load_max_g)
    return worst


def past_cover(plan: Plan) -> int:
    """Return the colonies whose cover ended before their syrup, by the audit's own chain."""
    book = open_book(plan)
    return sum(
        gap.colonies
        for yard in plan.outfit.yards
        if not closed(yard)
        for gap in gaps(book, yard.id)
    )


class Left(NamedTuple):
    """What was left undone, as :class:`~runplanner.daybook.played.Played` tells it."""

    no_strips: int
    unfed_g: int
    not_off: int
    no_wet: int


def left_undone(plan: Plan) -> Left:
    """Return what was left, by the audit's own count; all noughts where all work is done."""
    book = open_book(plan)
    tally = tally_of(book)
    wet = sum(not_back(book, yard) + left_up(book, yard) for yard in book.yards.values())
    return Left(tally.no_strips, tally.unfed_g, tally.not_off, wet)


class _Box(NamedTuple):
    due_min: int


def honey_late(plan: Plan) -> int:
    """Return the boxes whose spinning began after their spin-by; first in, first spun."""
    starts = list(_starts(plan))
    queue = list(_queue(plan))
    late = sum(start > box.due_min for start, box in zip(starts, queue, strict=False))
    return late + sum(1 for _ in queue[len(starts) :])


def _starts(plan: Plan) -> Iterator[int]:
    """Yield when each box goes in: evenly over each stretch."""
    for one in sorted(plan.spinning, key=lambda each: each.start_min):
        for number in range(one.boxes):
            yield one.start_min + number * (one.end_min - one.start_min) // one.boxes


def _queue(plan: Plan) -> Iterator[_Box]:
    """Yield the boxes in the order they came in; those that stood there from day 0 are first."""
    yards = {yard.id: yard for yard in plan.outfit.yards}
    house = plan.outfit.honey_house
    for _ in range(house.waiting_boxes):
        yield _Box(10**9)
    came = []
    for trip in (trip for shift in plan.shifts for trip in shift.trips):
        for call in trip.calls:
            if call.kind is CallKind.UNLOAD and call.place == house.base.place:
                came.append((call.end_min, trip))
                break
    for _, trip in sorted(came, key=lambda one: (one[0], one[1].id)):
        for call in trip.yards():
            due = call.leave_min + yards[call.yard].spin_by_min
            for action in call.actions:
                yield from (_Box(due) for _ in range(action.boxes))
