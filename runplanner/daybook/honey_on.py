"""What true counts say went into a yard while its honey was still on; no plan does so itself."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import stops, stops_at
from runplanner.daybook.trip import Call, Job
from runplanner.outfit.once import once
from runplanner.outfit.yards import Yard


@dataclass(frozen=True, slots=True)
class HoneyOn:
    """The first visit that did a job to a yard with honey on, what it took off itself aside.

    Args:
        yard: Id of the yard.
        since_min: When the visit began.
        leave_min: When its truck left; boxes of a truck that left later were on.
        colonies: Colonies with their honey on.
        boxes: Boxes on them: as many as come off later, and the share of who keeps theirs on.
    """

    yard: str
    since_min: int
    leave_min: int
    colonies: int
    boxes: int


def honey_on(plan: Plan, job: Job) -> Mapping[str, HoneyOn]:
    """Return by yard where syrup or strips went in with honey on."""
    return _by_job(plan)[job]


@once
def _by_job(plan: Plan) -> Mapping[Job, Mapping[str, HoneyOn]]:
    return {job: _went_in(plan, job) for job in (Job.FEED, Job.STRIPS)}


def _went_in(plan: Plan, job: Job) -> Mapping[str, HoneyOn]:
    found: dict[str, HoneyOn] = {}
    off: Counter[str] = Counter()
    for stop in stops(plan):
        yard, did = plan.outfit.yard(stop.call.yard), stop.call.actions
        off[yard.id] += _taken_off(stop.call)[0]
        colonies = yard.colonies - off[yard.id]
        if _share(yard, colonies) and any(one.job is job for one in did) and yard.id not in found:
            call = stop.call
            boxes = _boxes_on(plan, yard, call.start_min, colonies)
            found[yard.id] = HoneyOn(yard.id, call.start_min, call.leave_min, colonies, boxes)
    return found


def _boxes_on(plan: Plan, yard: Yard, since_min: int, colonies: int) -> int:
    """Return the boxes of colonies whose honey was on: a count knows better than their share."""
    later = [
        _taken_off(one.call) for one in stops_at(plan, yard.id) if one.call.start_min > since_min
    ]
    still_on = colonies - sum(number for number, _ in later)
    return sum(boxes for _, boxes in later) + _share(yard, still_on)


def _taken_off(call: Call) -> tuple[int, int]:
    """Return how many colonies a call takes honey off, and how many boxes."""
    did = [one for one in call.actions if one.job is Job.TAKE_OFF]
    return sum(one.colonies for one in did), sum(one.boxes for one in did)


def _share(yard: Yard, colonies: int) -> int:
    """Return boxes by colonies, what is off already rounded up, as they are planned to come off."""
    return yard.boxes * colonies // yard.colonies if colonies > 0 else 0
