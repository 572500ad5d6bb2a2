"""One truck's day as it turns out: what is done at each stop, and when the truck is home.

The crew keeps to its paper.  It never begins before the time written there, works as fast as
the day lets it, has no more boxes aboard than the paper allows, fewer where syrup that may not be
poured stays aboard, and leaves a stop out when at the pace on paper it could not leave by the
latest minute.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from runplanner.daybook.stops import by_stop
from runplanner.daybook.trip import Action, Call, CallKind, Job, Shift, Trip
from runplanner.days import DAY_MIN, Span
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.driver.sooner import boxes_sooner
from runplanner.paperwork.stop.one_stop import trip_as_driven
from runplanner.rehearsal.count import Count, Seen, counts_of
from runplanner.rehearsal.luck import Fate
from runplanner.visits.due import taken
from runplanner.visits.hands import hands_s


@dataclass(frozen=True, slots=True)
class Standing:
    """How yards stand before a truck's day.

    Args:
        off: Colonies off, by yard.
        short: Yards where not all came off that day that was to: no syrup is poured there.
    """

    off: Mapping[str, int] = field(default_factory=dict)
    short: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Day:
    """A shift as it turned out.

    Args:
        end_min: When the truck was home.
        counts: Trips and yards that went otherwise than planned.
        boxes_left: Boxes that found no room.
        stops_missed: Stops left out.
        standing: How yards stand after it.
    """

    end_min: int
    counts: tuple[Count, ...]
    boxes_left: int
    stops_missed: int
    standing: Standing


@dataclass(frozen=True, slots=True)
class Pile:
    """Boxes of a yard as they truly are, and how many colonies are off already."""

    boxes: int
    colonies: int
    off: int

    def of(self, colonies: int) -> int:
        """Return the boxes that the next ``colonies`` bear, as boxes are shared out."""
        return taken(self.boxes, self.colonies, self.off, self.off + colonies)


def driven(outfit: Outfit, fate: Fate, shift: Shift, before: Standing) -> Day:
    """Return the day of ``shift``; ``before`` is how yards stand when it begins."""
    drive = _Drive(outfit, fate, shift, before)
    for trip in shift.trips:
        drive.trip(trip)
    return drive.day()


class _Drive:
    """A shift while it is driven."""

    def __init__(self, outfit: Outfit, fate: Fate, shift: Shift, before: Standing) -> None:
        self.outfit, self.fate, self.shift = outfit, fate, shift
        self.yards = {yard.id: index for index, yard in enumerate(outfit.yards)}
        self.off, self.short = dict(before.off), set(before.short)
        self.now = self.at = shift.start_min
        self.counts: list[Count] = []
        self.left = self.missed = 0
        self.extra = self.sooner = 0

    def day(self) -> Day:
        """Return the day once all trips are driven."""
        home = self.now + self.shift.end_min - self.at
        after = Standing(self.off, frozenset(self.short))
        return Day(home, tuple(self.counts), self.left, self.missed, after)

    def trip(self, trip: Trip) -> None:
        """Drive a trip; calls that its paper says as one stop are done, or left out, as one."""
        self.extra = self.sooner = 0
        seen: dict[str, list[Seen]] = {}
        paper = trip_as_driven(self.outfit, trip)
        for stop, parts in zip(paper.calls, by_stop(trip.calls), strict=True):
            self.now += stop.arrive_min - self.at
            self.at = stop.leave_min
            work = [self._planned(part) for part in parts]
            if stop.kind is CallKind.YARD:
                late = self._left(parts, work) > stop.latest_leave_min
                done = None if late else self._done(paper, stop)
                seen.setdefault(stop.yard, []).append(Seen(stop, done))
                if done is None:
                    self._leave_out(paper, stop)
                    continue
                work = self._true(parts, [self._planned(part) for part in parts], done)
            self.now = self._left(parts, work)
        told = ((yard, counts_of(stops)) for yard, stops in seen.items())
        self.counts += [Count(trip, yard, counts) for yard, counts in told if counts]

    def _left(self, parts: Sequence[Call], work: Sequence[int]) -> int:
        """Return when a stop come to now is left if its parts take so many minutes of work."""
        now = self.now
        for call, minutes in zip(parts, work, strict=True):
            start = max(call.start_min, now + _rest(self.shift, call.arrive_min, call.start_min))
            end = start + minutes + _rest(self.shift, call.start_min, call.end_min)
            now = end + call.leave_min - call.end_min
        return now

    def _planned(self, call: Call) -> int:
        """Return the minutes of work on paper, without what is known to be withheld there."""
        rest = _rest(self.shift, call.start_min, call.end_min)
        return max(0, call.end_min - call.start_min - rest - self._spared(call))

    def _spared(self, call: Call) -> int:
        """Return the minutes that syrup and strips would take where they are withheld."""
        if call.yard not in self.short:
            return 0
        seconds = hands_s(self.outfit, call, {Job.FEED, Job.STRIPS})
        return seconds // (60 * len(self.shift.crew))

    def _leave_out(self, paper: Trip, stop: Call) -> None:
        """Drive on: what was for that stop stays aboard, and its boxes in the yard."""
        self.extra -= stop.boxes()
        self.sooner += boxes_sooner(self.outfit, paper, stop)
        self.missed += 1
        if _take_offs(stop):
            self.short.add(stop.yard)

    def _done(self, paper: Trip, stop: Call) -> tuple[int, int]:
        """Do the work of a stop; return the colonies and boxes that come off."""
        withheld = stop.yard in self.short
        if withheld:
            self.sooner += boxes_sooner(self.outfit, paper, stop)
        due = sum(one.colonies for one in _take_offs(stop))
        if not due:
            return 0, 0
        pile = self._pile(stop.yard)
        room = stop.boxes_limit - (stop.after.boxes - stop.boxes() + self.extra) - self.sooner
        off = _fitting(pile, due, room)
        if off < due and not withheld:
            fewer = boxes_sooner(self.outfit, paper, stop)
            off = _fitting(pile, due, room - fewer)
            self.sooner += fewer
            self.short.add(stop.yard)
        boxes = pile.of(off)
        self.left += pile.of(due) - boxes
        self.extra += boxes - stop.boxes()
        return off, boxes

    def _true(self, parts: Sequence[Call], work: Sequence[int], done: tuple[int, int]) -> list[int]:
        """Return the minutes that the parts of a stop take, as many as come off, and take off."""
        index = self.yards[parts[0].yard]
        pace, true, left = self.fate.work_permille[self.shift.day][index], [], done[0]
        for call, minutes in zip(parts, work, strict=True):
            seconds = 0
            for take in _take_offs(call):
                pile, colonies = self._pile(call.yard), min(left, take.colonies)
                way = take.way or self.outfit.yards[index].clearing
                seconds += (pile.of(colonies) - take.boxes) * self.outfit.pace.clear_box_s(way)
                self.off[call.yard] = pile.off + colonies
                left -= colonies
            more = round(seconds / (60 * len(self.shift.crew)))
            true.append(max(0, round((minutes + more) * pace / 1000)))
        return true

    def _pile(self, yard: str) -> Pile:
        """Return the boxes of a yard as they stand now."""
        index = self.yards[yard]
        colonies = self.outfit.yards[index].colonies
        return Pile(self.fate.boxes[index], colonies, self.off.get(yard, 0))


def _take_offs(call: Call) -> list[Action]:
    return [action for action in call.actions if action.job is Job.TAKE_OFF]


def _fitting(pile: Pile, due: int, most: int) -> int:
    """Return how many of the colonies due fit, whole ones, in the order they come off."""
    while due and pile.of(due) > max(most, 0):
        due -= 1
    return due


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
