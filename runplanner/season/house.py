"""The base days: syrup mixed before it is loaded, honey spun after it is brought.

People who are not on a truck in a half-day mix (where syrup is wanted) or spin.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Mapping, Sequence
from functools import cache
from typing import NamedTuple

from runplanner.days import DAY_MIN, Span, without
from runplanner.outfit.outfit import Outfit
from runplanner.season.roster import Need, Roster
from runplanner.trips.ground import Ground

AFTER_DAYS = 60


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


class Mix(NamedTuple):
    """One person mixing."""

    start_min: int
    end_min: int
    person: int
    ml: int


class Spin(NamedTuple):
    """Some people spinning."""

    start_min: int
    end_min: int
    people: tuple[int, ...]
    boxes: int


class BaseWork(NamedTuple):
    """Mixing and spinning that keep up with the trips, and their cost."""

    mixing: tuple[Mix, ...]
    spinning: tuple[Spin, ...]
    milli_cents: int


class House:
    """Works out the base days for a set of trips."""

    def __init__(self, ground: Ground, roster: Roster, past: BaseWork | None = None) -> None:
        self._outfit = ground.outfit
        self._from_min = ground.earliest_min
        self._past = past or BaseWork((), (), 0)
        begun = (spin.end_min for spin in self._past.spinning)
        self._spin_from_min = max([0, self._from_min, *begun])
        people = ground.outfit.people
        mixers = (i for i, person in enumerate(people) if person.mixes)
        self._by_mixing = sorted(mixers, key=lambda i: (people[i].spins, i))
        self._halves = cache(self._halves_of)
        self._spinning_hours = cache(self._spinning_hours_of)
        self._roster = roster
        rates = ground.outfit.honey_house.boxes_per_h
        self._best = (
            max(range(1, len(rates)), key=lambda n: (rates[n] * 1000 // n, n))
            if len(rates) > 1
            else 0
        )

    def work(
        self,
        needs: Mapping[int, tuple[Need, ...]],
        lots: Sequence[Lot],
        loads: Sequence[tuple[int, int]],
    ) -> BaseWork | None:
        """Return the base work, or None where honey or syrup cannot keep up.

        Args:
            needs: Shifts by day.
            lots: Boxes coming in, in any order.
            loads: ``(minute, ml)`` of syrup loaded.
        """
        mixing = self._mix(needs, loads)
        if mixing is None:
            return None
        busy = {(self._half_of(mix.start_min), mix.person) for mix in mixing}
        queue = sorted(lots)
        spun = self._spun(needs, queue, busy)
        if spun is None:
            return None
        spinning, late = spun
        minutes = sum(mix.end_min - mix.start_min for mix in mixing)
        cents = minutes * self._outfit.prices.hour_cents * 1000 // 60
        return BaseWork(mixing, spinning, cents + self._spin_cost(spinning, late))

    def _spun(
        self,
        needs: Mapping[int, tuple[Need, ...]],
        queue: Sequence[Lot],
        busy: set[tuple[tuple[int, bool], int]],
    ) -> tuple[tuple[Spin, ...], int] | None:
        """Return the cheaper spinning by the best team or by the largest.

        The best team costs least a box, so where nothing is late the other is not tried.
        """
        best: tuple[tuple[Spin, ...], int] | None = None
        for most in self._teams():
            one = self._spin(needs, queue, busy, most)
            if one is not None and (best is None or self._spin_cost(*one) < self._spin_cost(*best)):
                best = one
            if best is not None and best[1] == 0:
                break
        return best

    def _teams(self) -> tuple[int, ...]:
        most = len(self._outfit.honey_house.boxes_per_h) - 1
        return (self._best,) if self._best == most else (self._best, most)

    def _spin_cost(self, spinning: tuple[Spin, ...], late: int) -> int:
        minutes = sum((spin.end_min - spin.start_min) * len(spin.people) for spin in spinning)
        return minutes * self._outfit.prices.hour_cents * 1000 // 60 + late

    def _halves_of(self, day: int) -> tuple[tuple[int, int], tuple[int, int]]:
        house, noon = self._outfit.honey_house, self._outfit.hours.noon_min
        start = day * DAY_MIN
        return (
            (
                start + house.spin_from_min,
                start + max(house.spin_from_min, min(noon, house.spin_to_min)),
            ),
            (
                start + max(house.spin_from_min, noon),
                start + max(house.spin_to_min, noon, house.spin_from_min),
            ),
        )

    def _spinning_hours_of(self, day: int) -> tuple[tuple[int, int, int], ...]:
        """Return ``(half, start, end)`` of the hours in which the plant can run on a day."""
        stopped = self._outfit.honey_house.stopped
        return tuple(
            (half, span.start_min, span.end_min)
            for half, hours in enumerate(self._halves(day))
            for span in without((Span(*hours),), stopped)
        )

    def _half_of(self, minute: int) -> tuple[int, bool]:
        """Return the day and half-day in which ``minute`` falls."""
        return minute // DAY_MIN, minute % DAY_MIN >= self._outfit.hours.noon_min

    def _free(
        self, needs: Mapping[int, tuple[Need, ...]], day: int
    ) -> tuple[tuple[int, ...], tuple[int, ...]]:
        return self._roster.free(day, needs.get(day, ()))

    # Mixing: as late as it may be, never on the day it is loaded.

    def _mix(
        self, needs: Mapping[int, tuple[Need, ...]], loads: Sequence[tuple[int, int]]
    ) -> tuple[Mix, ...] | None:
        wanted = self._wanted(loads)
        if not any(wanted):
            return self._past.mixing
        if self._outfit.feed.bought:
            return None
        mixing: list[Mix] = []
        owed = 0
        for day in range(len(wanted) - 1, -2, -1):
            done = self._mix_day(needs, day, owed)
            mixing += done
            owed -= sum(mix.ml for mix in done)
            owed += wanted[day] if day >= 0 else 0
        return (*self._past.mixing, *sorted(mixing)) if owed == 0 else None

    def _wanted(self, loads: Sequence[tuple[int, int]]) -> list[int]:
        """Return the ml to be mixed before each day; syrup that stands ready goes first."""
        ready = self._outfit.feed.ready_ml + sum(mix.ml for mix in self._past.mixing)
        wanted = [0] * (self._outfit.season.n_days)
        for minute, ml in sorted(loads):
            used = min(ready, ml)
            ready -= used
            wanted[minute // DAY_MIN] += ml - used
        return wanted

    def _mix_day(self, needs: Mapping[int, tuple[Need, ...]], day: int, owed: int) -> list[Mix]:
        left = min(owed, self._outfit.feed.mix_ml_per_day)
        rate = self._outfit.feed.mix_ml_per_h
        done: list[Mix] = []
        if not left:
            return done
        for half in (1, 0):
            start, end = self._halves(day)[half]
            if start < self._from_min:
                continue
            for person in self._mixers(self._free(needs, day)[half]):
                ml = min(left, rate * (end - start) // 60)
                if ml > 0:
                    done.append(Mix(start, start - (-ml * 60 // rate), person, ml))
                    left -= ml
        return done

    def _mixers(self, free: tuple[int, ...]) -> list[int]:
        return [i for i in self._by_mixing if i in free]

    # Spinning: first in, first spun, by whoever is left; those who stood there in the
    # morning go last in the afternoon.

    def _spin(
        self,
        needs: Mapping[int, tuple[Need, ...]],
        queue: Sequence[Lot],
        busy: set[tuple[tuple[int, bool], int]],
        most: int,
    ) -> tuple[tuple[Spin, ...], int] | None:
        floor = _Floor(self._outfit, queue, self._past.spinning)
        day = max(0, self._from_min // DAY_MIN)
        while not floor.empty() and day < self._outfit.season.n_days + AFTER_DAYS:
            for half, start, end in self._spinning_hours(day):
                if not floor.wants(end):
                    continue
                free = self._free(needs, day)[half]
                team = [
                    i
                    for i in free
                    if self._outfit.people[i].spins and (self._half_of(start), i) not in busy
                ]
                if len(team) > most and floor.spins and floor.spins[-1].end_min > day * DAY_MIN:
                    stood = self._stood(floor.spins, day)
                    team.sort(key=lambda i: (stood.get(i, 0), i))
                floor.run(max(start, self._spin_from_min), end, tuple(sorted(team[:most])))
            day += 1
        if not floor.empty() or not floor.fits():
            return None
        late = floor.late_milli_cents()
        return None if late is None else (tuple(floor.spins), late)

    def _stood(self, spins: Sequence[Spin], day: int) -> dict[int, int]:
        """Count the half-days of a day in which each person has spun."""
        halves = set()
        for spin in reversed(spins):
            if spin.start_min < day * DAY_MIN:
                break
            halves |= {(self._half_of(spin.start_min), person) for person in spin.people}
        count: dict[int, int] = {}
        for _, person in halves:
            count[person] = count.get(person, 0) + 1
        return count


class _Floor:
    """The honey house's queue of boxes as it is worked off."""

    def __init__(self, outfit: Outfit, queue: Sequence[Lot], past: Sequence[Spin]) -> None:
        self._outfit = outfit
        self._queue = queue
        self._arrived = outfit.honey_house.waiting_boxes
        self._total = self._arrived + sum(lot.boxes for lot in queue)
        self._next = 0
        self._done = 0
        self._upto: list[int] = []
        self.spins: list[Spin] = []
        for spin in past:
            self._add(spin)

    def empty(self) -> bool:
        return self._done >= self._total

    def wants(self, end: int) -> bool:
        """Tell whether there is anything to spin before ``end``."""
        if self._arrived > self._done:
            return True
        return self._next < len(self._queue) and self._queue[self._next].arrive_min < end

    def run(self, start: int, end: int, people: tuple[int, ...]) -> None:
        """Spin from ``start`` to ``end`` whatever has come in."""
        rate = self._outfit.honey_house.boxes_per_h[len(people)] if people else 0
        now = start
        while rate and now < end:
            self._take_in(now)
            waiting = self._arrived - self._done
            if waiting <= 0:
                if self._next == len(self._queue) or self._queue[self._next].arrive_min >= end:
                    return
                now = max(now, self._queue[self._next].arrive_min)
                continue
            boxes = min(waiting, rate * (end - now) // 60)
            if not boxes:
                return
            until = now - (-boxes * 60 // rate)
            self._add(Spin(now, until, people, boxes))
            now = until

    def _add(self, spin: Spin) -> None:
        self.spins.append(spin)
        self._done += spin.boxes
        self._upto.append(self._done)

    def _take_in(self, now: int) -> None:
        while self._next < len(self._queue) and self._queue[self._next].arrive_min <= now:
            self._arrived += self._queue[self._next].boxes
            self._next += 1

    def fits(self) -> bool:
        """Tell whether the boxes waiting never outgrow the room, at any arrival yet to be had."""
        arrived, room = self._outfit.honey_house.waiting_boxes, self._outfit.honey_house.room_boxes
        for lot in self._queue:
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
                days = (
                    0
                    if yard.spin_by_hard
                    else self._late_days(before, last, lot.off_min + yard.spin_by_min)
                )
                cost += days * self._outfit.prices.spin_late_cents * 1000
            before = last
        return cost

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
