"""What the plan does to each yard, in the order in which it happens."""

from collections.abc import Iterable, Iterator
from itertools import takewhile

from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import Stop, stops, stops_at
from runplanner.daybook.trip import Action, Call, Job


def actions(plan: Plan, job: Job) -> Iterator[tuple[Stop, Action]]:
    """Go through every action of one job with its stop, in order of time."""
    return _of(stops(plan), job)


def actions_at(plan: Plan, yard: str, job: Job) -> Iterator[tuple[Stop, Action]]:
    """Go through all actions of one job at the yard with this id likewise."""
    return _of(stops_at(plan, yard), job)


def _of(some: Iterable[Stop], job: Job) -> Iterator[tuple[Stop, Action]]:
    for stop in some:
        for action in stop.call.actions:
            if action.job is job:
                yield stop, action


def done_before(plan: Plan, call: Call, action: Action) -> int:
    """Return how many colonies of the yard had this job (and round) before this part of a stop."""
    here = sum(
        one.colonies
        for one in takewhile(lambda one: one is not action, call.actions)
        if (one.job, one.round) == (action.job, action.round)
    )
    return here + sum(
        earlier.colonies
        for stop, earlier in actions_at(plan, call.yard, action.job)
        if stop.call.start_min < call.start_min and earlier.round == action.round
    )


def in_row(plan: Plan, call: Call, action: Action) -> int:
    """Return the colonies of the yard's row, for this job (and round): as many as live, or had it.

    Of those that had it some may have died since.
    """
    had = sum(
        one.colonies
        for _, one in actions_at(plan, call.yard, action.job)
        if one.round == action.round
    )
    return max(plan.outfit.yard(call.yard).colonies, had)
