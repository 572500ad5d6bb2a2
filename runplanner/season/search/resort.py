"""One day's stops shared out anew among its trucks and trips.

Strings of stops near each other are taken out of the trips they lie in and put back one by
one where they go best, by quick sums; a worse day is kept now and then while the search is
warm.  Slack in ruins and recreation is after Christiaens & Vanden Berghe (Transportation
Science 54(2), 2020).  Which yards are visited on the day, and for what, stays as it is.
What comes out counts only once it has been judged exactly.
"""

import math
import random
from collections.abc import Callable, Iterable

from runplanner.season.lanes import ways
from runplanner.season.quick.facts import FAR, Facts, Roads, facts_of, roads_of
from runplanner.season.quick.sums import Going, Shift, built, order_of
from runplanner.season.search.choose_trips import Chooser, remembered
from runplanner.season.standing.state import Keeper, Key, State
from runplanner.trips.ride import Way
from runplanner.trips.stop import Day, Stop, Trip
from runplanner.visits.chain import merged

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


class Resorter:
    """Shares a day's stops out anew."""

    def __init__(self, keeper: Keeper, rng: random.Random) -> None:
        self.keeper, self.ground, self.rng = keeper, keeper.ground, rng
        self.going: Callable[..., Going] = Going
        self._costs: dict[int, Roads] = {}
        self._facts: dict[tuple[int, Stop], Facts] = {}
        self._known: dict[int, tuple[list[Day | None], DayTable]] = {}
        self.seen: State | None = None
        self.chooser = Chooser()
        self.like: dict[int, tuple[int, int]] = {}
        for way in ways(keeper.ground):
            for truck in way.trucks:
                at = keeper.ground.siblings[way.trucks[0]].index(way.hauler)
                self.like[keeper.ground.siblings[truck][at]] = (way.trucks[0], at)

    def __call__(
        self, state: State, day: int, tries: int, warmth: float, *, alone: bool = False
    ) -> State | None:
        """Return a state whose day is shared out another way, or None where none was found.

        Args:
            state: Where to begin.
            day: Which day.
            tries: How often stops are taken out and put back.
            warmth: From 1, when worse days are often kept, to 0.
            alone: Go on from where the last tries ended, worse or not, and keep the best that
                was passed on the way in ``seen``, where it is better than all before.
        """
        self.seen = None
        table = self._table(state, day, alone=alone)
        if table is None:
            return None
        before, least, top = list(table.shifts), table.least, table.top
        chosen = alone and self.chooser.due(1 - warmth, table.shifts)
        if chosen:
            table.choose(self.chooser)
        else:
            table.search(tries, table.heat(warmth, ALONE if alone else USUAL))
        if table.best and not alone:
            table.shifts = table.best
        elif table.best and table.least < least:
            self.seen = self._judged(state, table, table.best)
        new = self._judged(state, table, table.shifts)
        if new is state and not alone:
            return None
        if new is None:
            table.shifts = before
            if chosen:
                table.least, table.top = least, top
        else:
            self._known[day] = (mark_of(new, table.keys), table)
        return new

    def _judged(self, state: State, table: "DayTable", shifts: list[Shift]) -> State | None:
        """Return the state with a day so shared out, or None where that breaks a rule."""
        news = table.changed(state, shifts)
        return self.keeper.replace_all(state, news) if news else state

    def _table(self, state: State, day: int, *, alone: bool = False) -> "DayTable | None":
        """Lay the day's stops out, or find them as they were laid out."""
        mark, known = self._known.get(day, ([], None))
        if known is not None and mark == mark_of(state, known.keys):
            return known
        keys = [key for key in sorted(state.days) if key[0] == day]
        out = [state.days[key].day for key in keys if key not in self.keeper.standing.driven]
        if not out:
            return None
        days = self._once([one.trips for one in out])
        stops = [stop for trips in days for trip in trips for stop in trip]
        facts = [self.fact(day, stop) for stop in stops]
        goings: dict[tuple[int, int], Going] = {}

        def going(hauler: int) -> Going:
            like = self.like[hauler]
            if like not in goings:
                way = Way(day, hauler)
                goings[like] = self.going(self.ground, way, stops, facts, self.costs(hauler))
            return goings[like]

        table = DayTable(self.rng, stops, facts)
        at = 0
        for one, trips in zip(out, days, strict=True):
            orders = []
            for trip in trips:
                orders.append(tuple(range(at, at + len(trip))))
                at += len(trip)
            shift = built(going(one.hauler), tuple(orders))
            if shift is None:
                return None
            table.add((day, self.ground.truck_index[one.hauler]), one.hauler, shift)
        for key, hauler in self.spare(state, day):
            table.add(key, hauler, going(hauler).empty())
        if alone:
            before = known.shifts if known is not None else []
            numbers = {} if known is None else dict(enumerate(known.stops))
            remembered(table.shifts, stops, before, numbers, self.like)
        self._known[day] = (mark_of(state, table.keys), table)
        return table

    def _once(self, days: list[tuple[Trip, ...]]) -> list[tuple[Trip, ...]]:
        """Make one stop of two at a yard, wherever in the day they are, if their work allows."""
        first: dict[int, Stop] = {}
        for stop in (stop for trips in days for trip in trips for stop in trip):
            before = first.get(stop.yard)
            colonies = self.ground.outfit.yards[stop.yard].colonies
            both = merged(before, stop, colonies) if before is not None else stop
            if both is None:
                return days
            first[stop.yard] = both
        found: list[tuple[Trip, ...]] = []
        for trips in days:
            kept = [
                tuple(first.pop(stop.yard) for stop in trip if stop.yard in first) for trip in trips
            ]
            found.append(tuple(trip for trip in kept if trip))
        return found

    def spare(self, state: State, day: int) -> Iterable[tuple[Key, int]]:
        """Yield the trucks that stay at home that day, each with one way of going out."""
        for truck, facts in enumerate(self.ground.outfit.trucks):
            key = (day, truck)
            if day in facts.out_days or key in state.days or key in self.keeper.standing.driven:
                continue
            siblings = self.ground.siblings[truck]
            if siblings:
                yield key, siblings[int(self.rng.random() * len(siblings))]

    def costs(self, hauler: int) -> Roads:
        """Return what a hauler's drives cost, and how long they take."""
        if hauler not in self._costs:
            self._costs[hauler] = roads_of(self.ground, hauler)
        return self._costs[hauler]

    def fact(self, day: int, stop: Stop) -> Facts:
        """Return what a stop is to any truck on a day."""
        found = self._facts.get((day, stop))
        if found is None:
            if len(self._facts) > 100_000:
                self._facts.clear()
            found = facts_of(self.ground, self.keeper.judge, day, stop)
            self._facts[day, stop] = found
        return found


def mark_of(state: State, keys: list[Key]) -> list[Day | None]:
    """Return what trucks do, truck by truck."""
    found = (state.days.get(key) for key in keys)
    return [None if one is None else one.day for one in found]


class DayTable:
    """A day's stops and trucks, and the search over them."""

    swapped = SWAPPED
    blink = BLINK
    mean_out = MEAN_OUT

    def __init__(self, rng: random.Random, stops: list[Stop], facts: list[Facts]) -> None:
        self.rng, self.stops, self.facts = rng, stops, facts
        self.keys: list[Key] = []
        self.haulers: list[int] = []
        self.shifts: list[Shift] = []
        self._near: list[list[int]] = []
        self._at: tuple[list[Shift], dict[int, tuple[int, tuple[int, ...]]]] = ([], {})
        self.far: list[float] = []
        self.best: list[Shift] = []
        self.least = FAR
        self.top: list[Shift] = []

    def add(self, key: Key, hauler: int, shift: Shift) -> None:
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
        mean_road = sum(shift.cost for shift in self.shifts) / max(1, len(self.stops))
        return float(hot * (cold / hot) ** (1 - warmth) * mean_road)

    def total(self, shifts: list[Shift]) -> float:
        """Return what days cost."""
        return sum(shift.cost for shift in shifts if shift.trips)

    def changed(self, state: State, shifts: list[Shift]) -> dict[Key, Day | None]:
        """Return the trucks' days that are not as in a state."""
        news: dict[Key, Day | None] = {}
        for key, hauler, shift in zip(self.keys, self.haulers, shifts, strict=True):
            trips = self._trips(key[0], shift.trips)
            old = state.days.get(key)
            if trips != (old.day.trips if old is not None else ()):
                news[key] = Day(key[0], hauler, trips) if trips else None
        return news

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

    def _goes_in(self, shifts: list[Shift], stop: int) -> bool:
        return self._put(shifts, stop, FAR) > 0

    def _pair(self, shifts: list[Shift]) -> tuple[int, int]:
        """Return two trucks, which may be the same."""
        dice = self.rng.random
        return int(dice() * len(shifts)), int(dice() * len(shifts))

    def _swapped(self, shifts: list[Shift]) -> list[Shift]:
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

    def _round(self, shifts: list[Shift], most: float) -> list[Shift] | None:
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

    def _put(self, shifts: list[Shift], stop: int, most: float) -> float:
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

    def _where(self, shifts: list[Shift]) -> dict[int, tuple[int, tuple[int, ...]]]:
        """Return the truck and the trip of every stop; most days are asked about many times."""
        if self._at[0] is not shifts:
            found = {i: (k, t) for k, one in enumerate(shifts) for t in one.trips for i in t}
            self._at = shifts, found
        return self._at[1]

    def _strings(self, shifts: list[Shift]) -> tuple[list[int], set[int]]:
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
