"""Strips that go in again when the first come out: for the colonies that live, and for no others.

None is a visit of a plan; lists say how many, and whoever fetches the first brings them.
"""

from itertools import takewhile

from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import Stop
from runplanner.daybook.trip import Action, Job
from runplanner.paperwork.speech.substances import kind_at
from runplanner.paperwork.stop.events import actions_at
from runplanner.trade.strips import given_twice


def again_colonies(plan: Plan, stop: Stop, action: Action) -> int:
    """Return how many of the colonies that got strips get a second application; 0 if none do.

    Where some of a yard have died since, the first that got strips count as living.
    """
    yard = stop.call.yard
    kind = kind_at(plan.outfit, yard)
    if not given_twice(kind.substance, typed=kind.twice):
        return 0
    had = actions_at(plan, yard, Job.STRIPS)
    before = sum(one.colonies for _, one in takewhile(lambda part: part[1] is not action, had))
    return max(0, min(action.colonies, plan.outfit.yard(yard).colonies - before))


def again_pieces(plan: Plan, stop: Stop, action: Action) -> int:
    """Return the strips of a second application likewise, as many a colony as at first."""
    colonies = again_colonies(plan, stop, action)
    return -(-action.pieces * colonies // max(1, action.colonies))
