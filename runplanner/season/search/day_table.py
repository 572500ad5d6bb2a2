"""One day's stops and trucks on a table, and the search over them by quick sums.

Strings of stops near each other are taken out of the trips they lie in and put back one by
one where they go best; a worse day is kept now and then while the search is warm.  Slack in
ruins and recreation is after Christiaens & Vanden Berghe (Transportation Science 54(2), 2020).
"""

import math
import random
from math import fsum

from runplanner.season.quick.facts import FAR, Facts
from runplanner.season.quick.sums import Going, RoughDay, built, order_of
from runplanner.season.search.choose_trips import Chooser
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.trips.day import Day, Key, Trip
from runplanner.visits.stop import Stop

MEAN_OUT = 9
LONGEST = 10
BLINK = 0.05
SWAPPED = 0.15
"""Share of tries before which two trucks swap what they do later, or one takes over a trip."""
Heats = tuple[float, float]
USUAL: Heats = (0.1, 0.01)
"""Temperature at the beginning and the end, in times of what a stop's drive costs on average."""
ALONE: Heats = (0.4, 0.04)
"""The same where one day is all there is to search."""


class DayTable:
    """A day's stops and trucks, and the search over them."""

    swapped = SWAPPED
    blink = BLINK
    mean_out = MEAN_OUT

    def __init__(self, rng: random.Random, stops: list[Stop], facts: list[Facts]) -> None:
        self.rng, self.stops, self.facts = rng, stops, facts
        self.keys: list[Key] = []
        self.haulers: list[int] = []
        self.shifts: list[RoughDay] = []
        self._near: list[list[int]] = []
        self._at: tuple[list[RoughDay], dict[int, tuple[int, tuple[int, ...]]]] = ([], {})
        self.far: list[float] = []
        self.best: list[RoughDay] = []
        self.least = FAR
        self.top: list[RoughDay] = []

    def add(self, key: Key, hauler: int, shift: RoughDay) -> None:
        """Add a truck, which may have nothing to do yet."""
        self.keys.append(key)
        self.haulers.append(hauler)
        self.shifts.append(shift)

    def near(self) -> list[list[int]]:
        """Return, for every stop, all stops from the nearest on, itself first."""
        if not self._near:
            cost = self.shifts[0].going.cost
            places = [fact.place for fact in self.facts]
            store = self.shifts[0].going.store
            order = range(len(places))
            for a in places:
                row = cost[a]
                self._near.append(sorted(order, key=lambda i: (row[places[i]], i)))
            for i in order:
                self._near[i].remove(i)
                self._near[i].insert(0, i)
            self.far = [cost[store][place] for place in places]
        return self._near

    def heat(self, warmth: float, heats: Heats = USUAL) -> float:
        """Return how much worse may still be kept, from hot (1) to cold (0)."""
        hot, cold = heats
        mean_road = fsum(shift.cost for shift in self.shifts) / max(1, len(self.stops))
        return float(hot * (cold / hot) ** (1 - warmth) * mean_road)

    def total(self, shifts: list[RoughDay]) -> float:
        """Return what days cost."""
        return fsum(shift.cost for shift in shifts if shift.trips)

    def changed(self, state: State, shifts: list[RoughDay]) -> dict[Key, Day | None]:
        """Return the trucks' days that are not as in a state."""
        news: dict[Key, Day | None] = {}
        for key, hauler, shift in zip(self.keys, self.haulers, shifts, strict=True):
            trips = self._trips(key[0], shift.trips)
            old = state.days.get(key)
            if trips != (old.day.trips if old is not None else ()):
                news[key] = Day(key[0], hauler, trips) if trips else None
        return news

    def judged(self, keeper: Keeper, state: State, shifts: list[RoughDay]) -> State | None:
        """Return the state with days so shared out, or None where that breaks a rule."""
        news = self.changed(state, shifts)
        return keeper.replace_all(state, news) if news else state

    def _trips(self, day: int, orders: tuple[tuple[int, ...], ...]) -> tuple[Trip, ...]:
        """Return trips of stops, as they are on a day, for trips of numbers."""
        del day
        return order_of(self.stops, orders)

    def search(self, tries: int, heat: float) -> None:
        """Take out and put back; ``best`` is what was better than the beginning, or nothing."""
        rng, shifts = self.rng, self.shifts
        self.near()
        cost = best_cost = self.total(shifts)
        self.best = []
        if cost < self.least:
            self.least, self.top = cost, shifts
        for _ in range(tries):
            most = cost - heat * math.log(1 - rng.random())
            new = self._round(shifts, most)
            if new is None:
                continue
            its = self.total(new)
            if its < most:
                shifts, cost = new, its
                if its < best_cost - 1e-6:
                    self.best, best_cost = new, its
        self.shifts = shifts
        if best_cost < self.least:
            self.least, self.top = best_cost, self.best

    def choose(self, chooser: Chooser) -> None:
        """Choose from all trips seen; go on from there where that is better than all before."""
        self.best = []
        new = chooser(self.top or self.shifts, len(self.stops), self._goes_in)
        if new is not None and (cost := self.total(new)) < self.least - 1e-6:
            self.best = self.shifts = self.top = new
            self.least = cost

    def _goes_in(self, shifts: list[RoughDay], stop: int) -> bool:
        return self._put(shifts, stop, FAR) > 0

    def _pair(self, shifts: list[RoughDay]) -> tuple[int, int]:
        """Return two trucks, which may be the same."""
        dice = self.rng.random
        return int(dice() * len(shifts)), int(dice() * len(shifts))

    def _swapped(self, shifts: list[RoughDay]) -> list[RoughDay]:
        """Let two trucks change places from some trip of their days on, or one take over a trip."""
        dice = self.rng.random
        one, other = self._pair(shifts)
        mine, its = shifts[one].trips, shifts[other].trips
        if one == other or len(mine) + len(its) < 3:
            return shifts
        i, j = int(dice() * (len(mine) + 1)), int(dice() * (len(its) + 1))
        later = its[j:]
        if dice() < 0.5 and i < len(mine):
            # Only one trip changes trucks.
            its, later, mine = (*its[:j], mine[i], *its[j:]), mine[i + 1 :], mine[:i]
            i, j = len(mine), len(its)
        first = built(shifts[one].going, (*mine[:i], *later))
        second = built(shifts[other].going, (*its[:j], *mine[i:]))
        if first is None or second is None:
            return shifts
        new = list(shifts)
        new[one], new[other] = first, second
        return new

    def _round(self, shifts: list[RoughDay], most: float) -> list[RoughDay] | None:
        """Return days shared out another way, or None once they cost ``most`` or more."""
        if self.rng.random() < self.swapped:
            shifts = self._swapped(shifts)
        gone, touched = self._strings(shifts)
        new, missing = list(shifts), set(gone)
        for k in touched:
            rest = shifts[k].without(missing)
            if rest is None:
                return None
            new[k] = rest
        left = most - self.total(new)
        for stop in self._in_order(gone):
            left = self._put(new, stop, left)
            if left <= 0:
                return None
        return new

    def _put(self, shifts: list[RoughDay], stop: int, most: float) -> float:
        """Put a stop where it goes best; return what is left of ``most``, 0 where nothing is."""
        dice = self.rng.random
        skipped = int(dice() * len(shifts)) if dice() < self.blink * len(shifts) else -1
        while True:
            least, at = FAR, -1
            empty: set[Going] = set()
            for k, shift in enumerate(shifts):
                if not shift.trips:
                    if shift.going in empty:
                        continue
                    empty.add(shift.going)
                extra = (shift.memo.get(stop) or shift.guess(stop))[0]
                if extra < least and k != skipped:
                    least, at = extra, k
            if least >= most:
                if skipped < 0 or at >= 0:
                    return 0.0
                skipped = -1
                continue
            before = shifts[at]
            new = before.joined(stop)
            if new is not None:
                shifts[at] = new
                return most - (new.cost - before.cost)

    def _in_order(self, gone: list[int]) -> list[int]:
        """Return what was taken out, in the order it goes back in."""
        rng, facts = self.rng, self.facts
        way = int(rng.random() * 17)
        if way < 4:
            rng.shuffle(gone)
        elif way < 8:
            gone.sort(key=lambda i: -max(facts[i].in_g, facts[i].out_g))
        elif way < 10:
            gone.sort(key=lambda i: -self.far[i])
        elif way < 11:
            gone.sort(key=lambda i: self.far[i])
        elif way < 13:
            gone.sort(key=lambda i: facts[i].spans[-1].end_min - facts[i].spans[0].start_min)
        elif way < 14:
            gone.sort(key=lambda i: facts[i].spans[0].start_min)
        elif way < 15:
            gone.sort(key=lambda i: -facts[i].spans[-1].end_min)
        else:
            gone.sort(key=lambda i: -facts[i].goods_min)
        return gone

    def _where(self, shifts: list[RoughDay]) -> dict[int, tuple[int, tuple[int, ...]]]:
        """Return the truck and the trip of every stop; most days are asked about many times."""
        if self._at[0] is not shifts:
            found = {i: (k, t) for k, one in enumerate(shifts) for t in one.trips for i in t}
            self._at = shifts, found
        return self._at[1]

    def _strings(self, shifts: list[RoughDay]) -> tuple[list[int], set[int]]:
        """Choose what to take out, strings of neighbouring trips, and tell from which trucks."""
        dice = self.rng.random
        where = self._where(shifts)
        mean = len(where) / sum(len(shift.trips) for shift in shifts)
        longest = min(LONGEST, mean)
        most = 4 * min(self.mean_out, len(where)) / (1 + longest) - 1
        count = int(dice() * most + 1)
        gone: list[int] = []
        trips: set[tuple[int, ...]] = set()
        touched: set[int] = set()
        for stop in self._near[int(dice() * len(self.stops))]:
            if len(trips) >= count:
                break
            k, trip = where[stop]
            if trip in trips:
                continue
            trips.add(trip)
            touched.add(k)
            length = int(dice() * min(len(trip), longest) + 1)
            gone += self._string(trip, stop, min(length, len(trip)))
        return gone, touched

    def _string(self, trip: tuple[int, ...], stop: int, length: int) -> list[int]:
        """Return so many stops in a row around one, or with a stretch left in their middle."""
        rng, at = self.rng, trip.index(stop)
        kept = 0
        if length > 1 and rng.random() < 0.5:
            while length + kept < len(trip) and rng.random() > 0.01:
                kept += 1
                if rng.random() < 0.5:
                    break
        span = length + kept
        low, high = max(0, at - span + 1), min(at, len(trip) - span)
        start = low + int(rng.random() * (high - low + 1))
        chosen = list(trip[start : start + span])
        if kept:
            cut = 1 + int(rng.random() * (length - 1))
            chosen = chosen[:cut] + chosen[cut + kept :]
        return chosen
