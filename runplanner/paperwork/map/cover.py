"""When a yard's stop-gap runs out first: of its colonies those that have least time."""

from dataclasses import replace

from runplanner.daybook.plan import Plan
from runplanner.outfit.yards import Yard
from runplanner.paperwork.stop.cover import Cover, covers_at


def soonest(plan: Plan) -> tuple[Cover, ...]:
    """Return the yards that live on a stop-gap, the soonest end first."""
    found = [cover for yard in plan.outfit.yards if (cover := cover_of(plan, yard)) is not None]
    return tuple(sorted(found, key=lambda cover: (cover.ends_min, cover.yard)))


def cover_of(plan: Plan, yard: Yard) -> Cover | None:
    """Return the soonest end of cover in ``yard``; None where no colony waits for syrup.

    Counted are all colonies that run out then and are fed as late.
    """
    waiting = [
        one
        for one in covers_at(plan, yard)
        if one.waits() and (one.fed_min is None or one.fed_min > plan.now_min)
    ]
    if not waiting:
        return None
    first = min(waiting, key=_least_time)
    alike = [one.colonies for one in waiting if _least_time(one) == _least_time(first)]
    return replace(first, colonies=sum(alike))


def _least_time(one: Cover) -> tuple[int, bool, int]:
    return one.ends_min, one.fed_min is not None, one.fed_min or 0
