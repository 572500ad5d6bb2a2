"""What true counts say went into a yard while its honey was still on; no plan does so itself."""

from collections import Counter
from dataclasses import dataclass

from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import stops
from runplanner.daybook.trip import Job


@dataclass(frozen=True, slots=True)
class HoneyOn:
    """The first visit that did a job to a yard with honey on, what it took off itself aside.

    Args:
        yard: Id of the yard.
        since_min: When the visit began.
        leave_min: When its truck left; boxes of a truck that left later were on.
        colonies: Colonies with their honey on.
        boxes: Boxes on them.
    """

    yard: str
    since_min: int
    leave_min: int
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
            call = stop.call
            one = HoneyOn(yard.id, call.start_min, call.leave_min, colonies, boxes)
            found.setdefault(yard.id, one)
    return found
