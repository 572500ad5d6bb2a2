"""One truck's day as it turns out: what is done at each stop, and when the truck is home.

The crew keeps to its paper.  It never begins before the time written there, works as fast as
the day lets it, has no more boxes aboard than the paper allows, fewer where syrup that may not be
poured stays aboard, and leaves a stop out when at the pace on paper it could not leave by the
latest minute.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from runplanner.changes.said.count_words import NOTHING
from runplanner.daybook.trip import Action, Call, CallKind, Job, Shift, Trip
from runplanner.days import DAY_MIN, Span
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.driver.sooner import boxes_sooner
from runplanner.rehearsal.luck import Fate
from runplanner.visits.due import taken


@dataclass(frozen=True, slots=True)
class Count:
    """What a driver writes down at a stop that went otherwise than planned."""

    trip: Trip
    yard: str
    counts: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Day:
    """A shift as it turned out.

    Args:
        end_min: When the truck was home.
        counts: Stops that went otherwise than planned.
        boxes_left: Boxes that found no room.
        stops_missed: Stops left out.
    """

    end_min: int
    counts: tuple[Count, ...]
    boxes_left: int
    stops_missed: int


@dataclass(frozen=True, slots=True)
class Pile:
    """Boxes of a yard as they truly are, and how many colonies are off already."""

    boxes: int
    colonies: int
    off: int

    def of(self, colonies: int) -> int:
        """Return the boxes that the next ``colonies`` bear, as boxes are shared out."""
        return taken(self.boxes, self.colonies, self.off, self.off + colonies)


def driven(outfit: Outfit, fate: Fate, shift: Shift, off: Mapping[str, int]) -> Day:
    """Return the day of ``shift``; ``off`` are colonies off by yard, before it."""
    now, at = shift.start_min, shift.start_min
    yards = {yard.id: index for index, yard in enumerate(outfit.yards)}
    off = dict(off)
    counts: list[Count] = []
    left = missed = 0
    for trip in shift.trips:
        extra = sooner = 0
        short = ""
        for call in trip.calls:
            now += call.arrive_min - at
            at = call.leave_min
            start = max(call.start_min, now + _rest(shift, call.arrive_min, call.start_min))
            work = call.end_min - call.start_min - _rest(shift, call.start_min, call.end_min)
            if call.kind is CallKind.YARD:
                index = yards[call.yard]
                if start + work > call.latest_leave_min:
                    counts.append(Count(trip, call.yard, NOTHING))
                    extra -= call.boxes()
                    sooner += boxes_sooner(outfit, trip, call)
                    missed += 1
                    continue
                if short == call.yard:
                    sooner += boxes_sooner(outfit, trip, call)
                take = _take_off(call)
                if take is not None:
                    yard = outfit.yards[index]
                    pile = Pile(fate.boxes[index], yard.colonies, off.get(call.yard, 0))
                    aboard = call.after.boxes - take.boxes + extra
                    room = call.boxes_limit - aboard - sooner
                    done = _fitting(pile, take, room)
                    if done < take.colonies and short != call.yard:
                        fewer = boxes_sooner(outfit, trip, call)
                        done = _fitting(pile, take, room - fewer)
                        sooner, short = sooner + fewer, call.yard
                    boxes = pile.of(done)
                    left += pile.of(take.colonies) - boxes
                    extra += boxes - take.boxes
                    off[call.yard] = pile.off + done
                    work += _more_min(outfit, shift, (index, take), boxes - take.boxes)
                    if (done, boxes) != (take.colonies, take.boxes):
                        said = {"colonies": done, "boxes": boxes} if done else NOTHING
                        counts.append(Count(trip, call.yard, said))
                work = max(0, round(work * fate.work_permille[shift.day][index] / 1000))
            end = start + work + _rest(shift, call.start_min, call.end_min)
            now = end + call.leave_min - call.end_min
    return Day(now + shift.end_min - at, tuple(counts), left, missed)


def _take_off(call: Call) -> Action | None:
    return next((action for action in call.actions if action.job is Job.TAKE_OFF), None)


def _fitting(pile: Pile, take: Action, most: int) -> int:
    """Return how many of the colonies fit, whole ones, in the order they come off."""
    done = take.colonies
    while done and pile.of(done) > max(most, 0):
        done -= 1
    return done


def _more_min(outfit: Outfit, shift: Shift, where: tuple[int, Action], boxes: int) -> int:
    """Return the minutes that more boxes take, or fewer spare, by the way they are cleared."""
    way = where[1].way or outfit.yards[where[0]].clearing
    seconds = boxes * outfit.pace.clear_box_s(way)
    return round(seconds / (60 * len(shift.crew)))


def _rest(shift: Shift, start_min: int, end_min: int) -> int:
    """Return the minutes of break between two times on paper."""
    return sum(
        max(0, min(pause.end_min, end_min) - max(pause.start_min, start_min))
        for pause in shift.breaks
    )


def working_day(outfit: Outfit, shift: Shift) -> Span:
    """Return the hours a truck may be out on the day of ``shift``."""
    midnight = shift.day * DAY_MIN
    return Span(midnight + outfit.hours.start_min, midnight + outfit.hours.end_min)
