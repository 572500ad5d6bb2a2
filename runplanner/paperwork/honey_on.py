"""What true counts say went into a yard while its honey was still on; no plan does so itself."""

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import stops
from runplanner.daybook.trip import Job
from runplanner.days import day_of
from runplanner.paperwork.events import actions
from runplanner.paperwork.say import count, date_words, yard_named
from runplanner.paperwork.tongue import tr


@dataclass(frozen=True, slots=True)
class HoneyOn:
    """The first visit that did a job to a yard with honey on, what it took off itself aside.

    Args:
        yard: Id of the yard.
        since_min: When the visit began.
        colonies: Colonies with their honey on.
        boxes: Boxes on them.
    """

    yard: str
    since_min: int
    colonies: int
    boxes: int


def honey_on(plan: Plan, job: Job) -> dict[str, HoneyOn]:
    """Return by yard where syrup or strips went in with honey on."""
    found: dict[str, HoneyOn] = {}
    off: Counter[str] = Counter()
    for stop in stops(plan):
        yard, did = plan.outfit.yard(stop.call.yard), stop.call.actions
        off[yard.id] += sum(one.colonies for one in did if one.job is Job.TAKE_OFF)
        colonies = yard.colonies - off[yard.id]
        # Boxes by colonies, what is off already rounded up, as they are planned to come off.
        boxes = yard.boxes * colonies // yard.colonies if colonies > 0 else 0
        if boxes and any(one.job is job for one in did):
            found.setdefault(yard.id, HoneyOn(yard.id, stop.call.start_min, colonies, boxes))
    return found


def is_off(plan: Plan, one: HoneyOn, by_min: float = math.inf) -> bool:
    """Tell whether all of that honey is taken off by visits begun before ``by_min``."""
    taken = (
        action.colonies
        for stop, action in actions(plan, Job.TAKE_OFF)
        if stop.call.yard == one.yard and one.since_min < stop.call.start_min < by_min
    )
    return sum(taken) >= one.colonies


def syrup_told(plan: Plan) -> Iterator[str]:
    """Yield a sentence for each yard whose honey is on still, with syrup in the yard."""
    for one in honey_on(plan, Job.FEED).values():
        if not is_off(plan, one, plan.now_min):
            yield tr(
                "{yard}: syrup went in on {date} with honey on {colonies}. Bees may rob, and may "
                "carry syrup into that honey: take it off soon, and taste it before you spin.",
                yard=yard_named(plan.outfit, one.yard),
                date=date_words(plan.outfit, day_of(one.since_min)),
                colonies=count(one.colonies, "colony", "colonies"),
            )
