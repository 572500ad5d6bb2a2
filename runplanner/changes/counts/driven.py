"""What driven trips did, so far as a campaign knows by now.

A stop that has not been counted is presumed done as planned.
"""

from collections.abc import Callable
from dataclasses import replace

from runplanner.changes.cargo.aboard import aboard
from runplanner.changes.draft import Draft
from runplanner.daybook.trip import Action, Call, Job, Trip, boards_lying
from runplanner.outfit.yards import Yard


def boards_under(draft: Draft, yard: Yard) -> int:
    """Return the boards that lie in a yard once what is driven has been done."""
    return boards_lying(yard.boards_lain, driven_actions(draft, yard.id))


def with_calls(draft: Draft, trip: Trip, calls: tuple[Call, ...]) -> Draft:
    """Return the draft with other calls of a trip, and what is aboard after each worked out."""
    shift = next(s for s in draft.plan.shifts if trip.id in [one.id for one in s.trips])
    return draft.with_trip(replace(trip, calls=aboard(draft.outfit, shift, trip, calls)))


def off_by(draft: Draft, yard: str, job: Job, only: Callable[[Call], bool] = lambda _: True) -> int:
    """Return the colonies that driven trips have served with ``job``; of feeds the first round.

    Of stops to come as well, unless ``only`` leaves them out.
    """
    done = driven_actions(draft, yard, only)
    return sum(one.colonies for one in done if one.job is job and one.round <= 1)


def boxes_off(draft: Draft, yard: str, only: Callable[[Call], bool] = lambda _: True) -> int:
    """Return the full boxes that driven trips have brought from a yard, by what was counted."""
    return sum(one.boxes for one in driven_actions(draft, yard, only))


def driven_actions(
    draft: Draft, yard: str = "", only: Callable[[Call], bool] = lambda _: True
) -> list[Action]:
    """Return what driven trips did, in their order, in one yard (by id) or in all ("").

    What they are still to do counts as done; ``only`` tells which stops count.
    """
    return [
        action
        for trip in draft.driven_trips()
        for call in trip.yards()
        if (not yard or call.yard == yard) and only(call)
        for action in call.actions
    ]
