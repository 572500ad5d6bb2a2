"""When a yard's stop-gap runs out first: of its colonies those that have least time."""

from dataclasses import dataclass

from runplanner.daybook.plan import Plan
from runplanner.outfit.yards import Yard
from runplanner.paperwork.stop.cover import colonies_of


@dataclass(frozen=True, slots=True)
class Cover:
    """The soonest end of cover among a yard's colonies that wait for syrup.

    ``fed_min`` is when syrup reaches the colonies whose cover ends first, None when the
    plan brings none; ``colonies`` is how many of them there are.
    """

    yard: str
    ends_min: int
    fed_min: int | None
    colonies: int

    def runs_out(self) -> bool:
        """Tell whether no syrup comes before cover ends."""
        return self.fed_min is None or self.fed_min >= self.ends_min


def covers(plan: Plan) -> tuple[Cover, ...]:
    """Return the yards that live on a stop-gap, the soonest end first."""
    found = [cover for yard in plan.outfit.yards if (cover := cover_of(plan, yard)) is not None]
    return tuple(sorted(found, key=lambda cover: (cover.ends_min, cover.yard)))


def cover_of(plan: Plan, yard: Yard) -> Cover | None:
    """Return the soonest end of cover in ``yard``; None where no colony waits for syrup."""
    if (yard.stores_g or 0) >= yard.target_g or plan.outfit.feed.day_use_g <= 0:
        return None
    waiting = [
        (colony.ends_min(plan.outfit), colony.fed_min)
        for colony in colonies_of(plan, yard)
        if colony.fed_min is None
        or (colony.off_min < colony.fed_min > plan.now_min and not colony.spared(plan.outfit))
    ]
    if not waiting:
        return None
    first = min(waiting, key=lambda pair: (pair[0], pair[1] is not None, pair[1] or 0))
    return Cover(yard.id, first[0], first[1], waiting.count(first))
