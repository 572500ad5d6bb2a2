"""Lots of honey boxes: when they reach the honey house and when each box is spun.

First in, first spun (`daybook/honey_line.py`); boxes standing there before the campaign go first.
The boxes of a stretch of spinning follow each other evenly.
"""

from dataclasses import dataclass, replace

from runplanner.daybook.honey_line import Came, honey_arrival, honey_line
from runplanner.daybook.honey_on import honey_on
from runplanner.daybook.plan import Plan, Spinning
from runplanner.daybook.trip import Call, Job
from runplanner.days import NEVER
from runplanner.outfit.once import once
from runplanner.outfit.yards import Health
from runplanner.paperwork.speech.say import lot_code


@dataclass(frozen=True, slots=True)
class Lot:
    """The boxes of one yard that one trip brings.

    Args:
        code: Lot code; the same for every trip of a day from the yard.
        yard: Id of the yard.
        trip: Id of the trip.
        truck: Id of the truck.
        boxes: How many boxes.
        off_min: When the truck left the yard.
        here_min: When the truck stands there.
        arrive_min: End of the unloading call.
        spin_by_min: When the last of them should be in the extractor.
        hard: Later spinning spoils the honey.
        apart: Boxes of a yard in doubt, to be stacked apart.
        starts: When each box's spinning starts; shorter than ``boxes`` if some never do.
        strips_min: When strips went into the yard while these boxes were on; None where not, or
            where they were freed since.
        held: Boxes not spun yet of a yard now suspect or at a standstill, or that were on when
            strips went in: nobody may spin them.
    """

    code: str
    yard: str
    trip: str
    truck: str
    boxes: int
    off_min: int
    here_min: int
    arrive_min: int
    spin_by_min: int
    hard: bool
    apart: bool
    starts: tuple[int, ...]
    strips_min: int | None = None
    held: int = 0

    def spun_by(self, minute: int) -> tuple[int, ...]:
        """Return when boxes went into the extractor before a minute."""
        return tuple(start for start in self.starts if start < minute)


def starts(stretch: Spinning) -> tuple[int, ...]:
    """Return when each box of a stretch of spinning starts."""
    minutes = stretch.end_min - stretch.start_min
    return tuple(stretch.start_min + k * minutes // stretch.boxes for k in range(stretch.boxes))


@once
def all_starts(plan: Plan) -> tuple[int, ...]:
    """Return when each box of the campaign starts, in order."""
    return tuple(sorted(start for stretch in plan.spinning for start in starts(stretch)))


@once
def lots(plan: Plan) -> tuple[Lot, ...]:
    """Return every lot in the order in which the honey house gets and spins them."""
    queue = all_starts(plan)
    done = plan.outfit.honey_house.waiting_boxes
    found = sorted(_arriving(plan), key=lambda lot: lot.arrive_min)
    came = [
        Came(lot.arrive_min, lot.boxes, yard.held_spans(plan.now_min, lot.off_min))
        for lot, yard in ((lot, plan.outfit.yard(lot.yard)) for lot in found)
    ]
    begun = [(one.start_min, one.boxes) for one in plan.spinning if one.start_min <= plan.now_min]
    for number, from_min, boxes in honey_line(came, begun, done):
        lot = found[number]
        if from_min == NEVER:
            found[number] = replace(lot, held=boxes)
        else:
            found[number] = replace(lot, starts=(*lot.starts, *queue[done : done + boxes]))
            done += boxes
    return tuple(found)


def waiting(plan: Plan, minute: int) -> int:
    """Return the full boxes standing in the honey house at ``minute`` that may be spun."""
    held = sum(lot.held for lot in lots(plan) if lot.arrive_min <= minute)
    return max(0, standing(plan, minute) - held)


def standing(plan: Plan, minute: int) -> int:
    """Return all full boxes standing in the honey house at ``minute``."""
    here = plan.outfit.honey_house.waiting_boxes
    old = sum(start < minute for start in all_starts(plan)[:here])
    came = [lot for lot in lots(plan) if lot.arrive_min <= minute]
    return here - old + sum(lot.boxes - len(lot.spun_by(minute)) for lot in came)


def _arriving(plan: Plan) -> list[Lot]:
    found, treated = [], honey_on(plan, Job.STRIPS)
    for shift in plan.shifts:
        for trip in shift.trips:
            arrival = honey_arrival(plan, trip)
            if arrival is not None:
                by = (shift.truck, trip.id)
                for call in filter(Call.takes_boxes, trip.yards()):
                    lot = _lot(plan, shift.day, by, call, arrival)
                    strips = treated.get(call.yard)
                    freed = plan.outfit.yard(call.yard).freed_min is not None
                    if strips is not None and not freed and strips.since_min < call.start_min:
                        lot = replace(lot, strips_min=strips.since_min)
                    found.append(lot)
    return found


def _lot(plan: Plan, day: int, by: tuple[str, str], call: Call, arrival: Call) -> Lot:
    yard = plan.outfit.yard(call.yard)
    return Lot(
        code=lot_code(plan.outfit, day, yard.id),
        yard=yard.id,
        trip=by[1],
        truck=by[0],
        boxes=call.boxes(),
        off_min=call.leave_min,
        here_min=arrival.arrive_min,
        arrive_min=arrival.end_min,
        spin_by_min=call.leave_min + yard.spin_by_min,
        hard=yard.spin_by_hard,
        apart=yard.health is Health.WATCH,
        starts=(),
    )
