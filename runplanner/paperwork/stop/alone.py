"""When whoever mixes is alone at the feed store, as far as a plan tells.

Who rides is there while the truck stands there, and who spins where the honey house is at the
same place.  Of people who have no work a plan does not know where they are.
"""

from collections.abc import Iterator
from itertools import pairwise

from runplanner.daybook.plan import Mixing, Plan
from runplanner.days import Span, without


def alone(plan: Plan, mix: Mixing) -> tuple[Span, ...]:
    """Return the parts of a stretch of mixing in which nobody else works at the feed store."""
    return without((Span(mix.start_min, mix.end_min),), tuple(_others(plan, mix.person)))


def _others(plan: Plan, person: str) -> Iterator[Span]:
    """Yield when somebody other than ``person`` works at the feed store."""
    store = plan.outfit.feed_store.place
    for shift in plan.shifts:
        if set(shift.crew) - {person}:
            calls = [call for trip in shift.trips for call in trip.calls]
            here = [call for call in calls if call.place == store]
            yield from (Span(call.arrive_min, call.leave_min) for call in here)
            # Between two trips the truck waits there.
            yield from (
                Span(one.leave_min, other.arrive_min)
                for one, other in pairwise(calls)
                if one.place == other.place == store
            )
    if plan.outfit.honey_house.base.place == store:
        for spin in plan.spinning:
            if set(spin.people) - {person}:
                yield Span(spin.start_min, spin.end_min)
    for mix in plan.mixing:
        if mix.person != person:
            yield Span(mix.start_min, mix.end_min)
