"""Hands-on work left in each yard, in person-seconds, day by day and undone.

Driving, setting up and waiting are left out: the map's cells compare yards, not trips.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from runplanner.daybook.plan import Plan, Undone
from runplanner.daybook.trip import Action, Call, Job, Shift, Trip
from runplanner.outfit.yards import Yard
from runplanner.paperwork.speech.trip_state import call_over
from runplanner.visits.hands import hand_s, hands_s


@dataclass(frozen=True, slots=True)
class Work:
    """Work left in one yard: ``by_day`` is ``(day, person-seconds)``, days rising."""

    by_day: tuple[tuple[int, int], ...]
    undone_s: int

    def total_s(self) -> int:
        """Return planned and undone work together."""
        return self.undone_s + sum(seconds for _, seconds in self.by_day)


def yard_calls(plan: Plan) -> Iterator[tuple[Shift, Trip, Call]]:
    """Yield every call at a yard with its shift and trip, in the plan's order."""
    for shift in plan.shifts:
        for trip in shift.trips:
            for call in trip.yards():
                yield shift, trip, call


def work_left(plan: Plan) -> dict[str, Work]:
    """Return the work left after ``plan.now_min`` for each yard id."""
    days: dict[str, Counter[int]] = {yard.id: Counter() for yard in plan.outfit.yards}
    for shift, _, call in yard_calls(plan):
        if call_over(plan, call):
            continue
        days[call.yard][shift.day] += hands_s(plan.outfit, call)
    undone = _undone_s(plan)
    return {
        yard_id: Work(tuple(sorted((+counted).items())), undone.get(yard_id, 0))
        for yard_id, counted in days.items()
    }


def by_place(yard: Yard, work: Work, today: int) -> dict[int, Work]:
    """Return the work of a yard by the place where the hives stand that day.

    The place of today comes first, with what is undone, then each later one.
    """
    here = yard.place_on(today)
    places = dict.fromkeys((here, *(place for day, place in yard.sites if day > today)))
    return {
        place: Work(
            tuple(one for one in work.by_day if yard.place_on(one[0]) == place),
            work.undone_s if place == here else 0,
        )
        for place in places
    }


def _undone_s(plan: Plan) -> Counter[str]:
    left: Counter[str] = Counter()
    for job in plan.undone:
        yard = plan.outfit.yard(job.yard)
        left[yard.id] += hand_s(plan.outfit, yard, _as_action(yard, job))
    return left


def _as_action(yard: Yard, job: Undone) -> Action:
    """Return undone work as the action it would be (boxes of n colonies rounded up)."""
    boxes = brood = 0
    wet = yard.boxes if job.job is Job.WET_UP else 0
    if job.job is Job.TAKE_OFF and yard.colonies:
        boxes = -(-job.colonies * yard.boxes // yard.colonies)
        brood = -(-job.colonies * yard.brood_boxes_off // yard.colonies)
    return Action(
        job.job, job.colonies, boxes=boxes, brood_boxes=brood, pieces=job.colonies, wet=wet
    )
