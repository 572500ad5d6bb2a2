"""The honey house's floor: boxes come in, wait their turn, and are spun by whoever may work."""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from typing import NamedTuple

from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.season.standing.duty import PeoplesDay


class Lot(NamedTuple):
    """Boxes of one yard coming in on one trip; ``order`` ranks lots of one minute.

    ``fact`` says that the trip has left home: what it brings comes in, room or no room.
    """

    arrive_min: int
    order: int
    boxes: int
    off_min: int
    yard: int
    fact: bool = False


class Honey(NamedTuple):
    """Lots as they come in, and as they stand in line to be spun: held ones stand in none."""

    came: Sequence[Lot]
    line: Sequence[Lot]


class Spin(NamedTuple):
    """Some people spinning."""

    start_min: int
    end_min: int
    people: tuple[int, ...]
    boxes: int


class Harm(NamedTuple):
    """What goes wrong with honey whose truck has left home; nothing else may go wrong.

    Args:
        late_min: Minutes by which the last box of each lot that spoils is spun too late.
        over: Boxes beyond the room, as each lot comes in.
    """

    late_min: int
    over: int


NO_HARM = Harm(0, 0)


class Floor:
    """The honey house's queue of boxes as it is worked off: ``done`` are spun so far."""

    def __init__(self, outfit: Outfit, honey: Honey, past: Sequence[Spin]) -> None:
        self._outfit = outfit
        self._came, self._queue = honey
        self._arrived = outfit.honey_house.waiting_boxes
        self._total = self._arrived + sum(lot.boxes for lot in self._queue)
        self._next = 0
        self.done = 0
        self._upto: list[int] = []
        self.spins: list[Spin] = []
        for spin in past:
            self._add(spin)

    def empty(self) -> bool:
        """Tell whether every box that may be spun is."""
        return self.done >= self._total

    def wants(self, end: int) -> bool:
        """Tell whether there is anything to spin before ``end``."""
        if self._arrived > self.done:
            return True
        return self._next < len(self._queue) and self._queue[self._next].arrive_min < end

    def from_min(self) -> int:
        """Return the minute from which there is something to spin, of what is not spun yet."""
        return 0 if self._arrived > self.done else self._queue[self._next].arrive_min

    def run(self, start: int, end: int, people: tuple[int, ...], day: PeoplesDay) -> None:
        """Spin from ``start`` to ``end`` whatever has come in, as long as ``people`` may work."""
        now = start
        while people and now < end:
            self.take_in(now)
            waiting = self._arrived - self.done
            if waiting <= 0:
                if self._next == len(self._queue) or self._queue[self._next].arrive_min >= end:
                    return
                now = max(now, self._queue[self._next].arrive_min)
                continue
            team, until = self._team(people, day, now, end)
            rate = self._outfit.honey_house.boxes_per_h[len(team)]
            boxes = min(waiting, rate * (until - now) // 60)
            if not boxes:
                now = until
                continue
            stop = now - (-boxes * 60 // rate)
            self._add(Spin(now, stop, team, boxes))
            for person in team:
                day.works(person, now, stop)
            now = stop

    def _team(
        self, people: tuple[int, ...], day: PeoplesDay, now: int, end: int
    ) -> tuple[tuple[int, ...], int]:
        """Return who may spin now, and until when: somebody must rest or has rested by then."""
        team, until = [], end
        for person in people:
            last = day.until(person, now)
            if last > now:
                team.append(person)
                until = min(until, last)
            elif (back := day.again(person, now, end)) is not None:
                until = min(until, back)
        return tuple(team), until

    def _add(self, spin: Spin) -> None:
        self.spins.append(spin)
        self.done += spin.boxes
        self._upto.append(self.done)

    def coming(self, until: int) -> tuple[int, tuple[tuple[int, int], ...]]:
        """Return the boxes that wait, and minutes and boxes of what comes in before ``until``."""
        lots, at = [], self._next
        while at < len(self._queue) and self._queue[at].arrive_min < until:
            lots.append((self._queue[at].arrive_min, self._queue[at].boxes))
            at += 1
        return self._arrived - self.done, tuple(lots)

    def repeat(self, spins: Sequence[Spin]) -> None:
        """Spin as worked out before, where the same waits and comes in."""
        for spin in spins:
            self._add(spin)

    def take_in(self, now: int) -> None:
        """Let in what has come by ``now``."""
        while self._next < len(self._queue) and self._queue[self._next].arrive_min <= now:
            self._arrived += self._queue[self._next].boxes
            self._next += 1

    def fits(self) -> bool:
        """Tell whether the boxes waiting never outgrow the room, at any arrival yet to be had."""
        arrived, room = self._outfit.honey_house.waiting_boxes, self._outfit.honey_house.room_boxes
        for lot in self._came:
            arrived += lot.boxes
            if not lot.fact and arrived - self._spun_by(lot.arrive_min) > room:
                return False
        return True

    def _spun_by(self, minute: int) -> int:
        at = bisect_right(self.spins, minute, key=_end)
        spun = self._upto[at - 1] if at else 0
        if at < len(self.spins) and (spin := self.spins[at]).start_min < minute:
            spun += spin.boxes * (minute - spin.start_min) // (spin.end_min - spin.start_min)
        return spun

    def late_milli_cents(self) -> int | None:
        """Return what late spinning costs, or None where honey must not wait so long."""
        before, cost = self._outfit.honey_house.waiting_boxes, 0
        for lot in self._queue:
            yard = self._outfit.yards[lot.yard]
            last = before + lot.boxes
            over = self._begun(last) - lot.off_min - yard.spin_by_min
            if over > 0:
                if yard.spin_by_hard and not lot.fact:
                    return None
                days = self._late_days(before, last, lot.off_min + yard.spin_by_min)
                cost += days * self._outfit.prices.spin_late_cents * 1000
            before = last
        return cost

    def harm(self) -> Harm:
        """Return what goes wrong with the boxes of trips that have left home."""
        house = self._outfit.honey_house
        late, over, upto = 0, 0, house.waiting_boxes
        for lot in self._queue:
            upto += lot.boxes
            yard = self._outfit.yards[lot.yard]
            if lot.fact and yard.spin_by_hard:
                late += max(0, self._begun(upto) - lot.off_min - yard.spin_by_min)
        here = house.waiting_boxes
        for lot in self._came:
            here += lot.boxes
            if lot.fact:
                over += max(0, here - self._spun_by(lot.arrive_min) - house.room_boxes)
        return Harm(late, over)

    def _late_days(self, before: int, last: int, late_from: int) -> int:
        """Return started days late, summed over the boxes after ``before`` up to ``last``."""
        days, bar = 0, late_from
        while (in_time := self._begun_by(before, last, bar)) < last:
            days += last - in_time
            bar += DAY_MIN
        return days

    def _begun_by(self, before: int, last: int, bar: int) -> int:
        """Return the last box, of those from ``before`` on, begun no later than ``bar``."""
        boxes = range(before + 1, last + 1)
        return before + bisect_right(boxes, bar, key=self._begun)

    def _begun(self, number: int) -> int:
        """Return when spinning of the box with this number (1 first) begins."""
        at = bisect_left(self._upto, number)
        spin, k = self.spins[at], number - (self._upto[at] - self.spins[at].boxes) - 1
        return spin.start_min + k * (spin.end_min - spin.start_min) // spin.boxes


def _end(spin: Spin) -> int:
    return spin.end_min
