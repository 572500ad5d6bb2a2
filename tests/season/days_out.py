"""Every way of driving a day's stops, the cheapest first, each day audited by itself."""

import itertools
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import cache
from typing import NamedTuple

from runplanner.audit.audit import audit
from runplanner.daybook.trip import Shift
from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from tests.season.by_hand import a_plan, a_shift
from tests.season.hand_clock import Clock, Outing, Plain, Visit, clocked, total, up
from tests.season.hand_goods import container_sets

BY_ITSELF = frozenset(
    {
        "access",
        "axles",
        "base hours",
        "boards aboard",
        "boards owned",
        "box share",
        "colonies",
        "day off",
        "daylight",
        "deck",
        "driver",
        "driving break",
        "driving limit",
        "duty",
        "duty break",
        "feed amount",
        "feed deadline",
        "feed hours",
        "feeding ban",
        "gate",
        "health",
        "job order",
        "last yard",
        "mass",
        "open hours",
        "out of service",
        "ready",
        "road",
        "seats",
        "settling",
        "smallest lot",
        "strips deadline",
        "strips hours",
        "strips weather",
        "take-off deadline",
        "tank",
        "tanks owned",
        "trailer",
        "working day",
    }
)
"""Rules that a day breaks by itself, whatever the other days are.

Of "boards owned", "box share" and "colonies" that is so because a day alone has less behind
it than a day in a campaign has: what it needs is needed there as well.
"""


class Drive(NamedTuple):
    """One truck-day, not judged yet; ``milli`` is its cost in thousandths of a cent."""

    milli: int
    number: int
    outing: Outing
    start: int


class Sound:
    """The days among ``drives`` that break no rule by themselves, looked for as needed."""

    def __init__(self, drives: Sequence[Drive], judge: Callable[[Drive], Shift | None]) -> None:
        self._found: list[tuple[int, Shift]] = []
        self._more = ((d.milli, shift) for d in drives if (shift := judge(d)) is not None)

    def get(self, number: int) -> tuple[int, Shift] | None:
        """Return the cost of one, cheapest first, and the day; None when there are no more."""
        while len(self._found) <= number:
            one = next(self._more, None)
            if one is None:
                return None
            self._found.append(one)
        return self._found[number]


class DaysOut:
    """What the days of one outfit with one truck can be; every answer is remembered."""

    def __init__(self, outfit: Outfit, more_starts: int) -> None:
        self.outfit = outfit
        (self.truck,) = outfit.trucks
        self.clock = Clock(outfit)
        self.sound = cache(self._sound)
        self.least = cache(self._least)
        self._more_starts = more_starts
        self._tanks = cache(self._tanks_for)
        self._ways = [shortest_ways(outfit.travel.minutes), shortest_ways(outfit.travel.metres)]

    def _sound(self, day: int, visits: tuple[Visit, ...]) -> Sound:
        """Every order, trips, crew, trailer and start for a day's stops, cheapest first."""
        found: list[Drive] = []
        for trips in in_trips(visits):
            for crew, trailer in itertools.product(self._crews(day), (None, *self.outfit.trailers)):
                outing = Outing(day, self.truck, trailer, crew, trips)
                for milli, start in self._timed(outing):
                    found.append(Drive(milli, len(found), outing, start))
        return Sound(sorted(found, key=lambda drive: drive[:2]), self._judged)

    def _crews(self, day: int) -> list[tuple[str, ...]]:
        here = [p for p in self.outfit.people if day not in p.off_days]
        drivers = [p.id for p in here if p.drives and p.id in self.truck.drivers]
        return [
            (driver, *rest)
            for driver in drivers
            for more in range(self.truck.seats)
            for rest in itertools.combinations([p.id for p in here if p.id != driver], more)
        ]

    def _timed(self, outing: Outing) -> list[tuple[int, int]]:
        """Cost and start of the day: begun at once, begun so as to be shortest, and some later."""
        hours = self.outfit.hours
        route = self.clock.laid_out(outing)
        opens = outing.day * DAY_MIN + hours.start_min
        closes = outing.day * DAY_MIN + hours.end_min
        if route is None or clocked(*route, opens) is None:
            return []
        start = shortest_start(*route, opens)
        later = [start + step * 30 for step in range(1, self._more_starts + 1)]
        found = []
        for begin in dict.fromkeys((opens, start, *later)):
            run = clocked(*route, begin)
            if run and run[1] <= closes and run[1] - begin <= hours.duty_max_min:
                found.append((self._running(outing) + self._wages(outing, run[1] - begin), begin))
        return found

    def _running(self, outing: Outing) -> int:
        """Kilometres and the day."""
        travel, here, metres = self.outfit.travel.metres, self.outfit.home.place, 0
        for trip in outing.trips:
            for place, *_ in self.clock.calls(trip, outing.day):
                metres, here = metres + (travel[here][place] or 0), place
        metres += travel[here][self.outfit.home.place] or 0
        rate = outing.truck.km_cents + (outing.trailer.km_cents if outing.trailer else 0)
        return metres * rate + outing.truck.day_cents * 1000

    def _wages(self, outing: Outing, minutes: int) -> int:
        """Crew and overtime."""
        prices = self.outfit.prices
        over = max(0, minutes - self.outfit.hours.normal_min)
        wage = len(outing.crew) * prices.hour_cents
        return minutes * wage * 1000 // 60 + over * wage * prices.overtime_permille // 60

    # Judging by the audit

    def _judged(self, drive: Drive) -> Shift | None:
        """Return a day written down, or None where it breaks a rule by itself."""
        tanks = [self._tanks(replace(drive.outing, trips=(trip,))) for trip in drive.outing.trips]
        known = [one for one in tanks if one is not None]
        return self._written(drive.outing, drive.start, known) if len(known) == len(tanks) else None

    def _tanks_for(self, lone: Outing) -> tuple[int, ...] | None:
        """Return containers with which a day of one trip breaks no rule, if there are any."""
        (trip,) = lone.trips
        opens = lone.day * DAY_MIN + self.outfit.hours.start_min
        route = self.clock.laid_out(lone)
        if route is None or clocked(*route, opens) is None:
            return None
        start = shortest_start(*route, opens)
        sets = container_sets(self.outfit, total(trip, "ml"))
        return next((tanks for tanks in sets if self._written(lone, start, [tanks])), None)

    def _written(self, outing: Outing, start: int, tanks: list[tuple[int, ...]]) -> Shift | None:
        """Return a day written down, or None where the audit finds it broken by itself."""
        shift = a_shift(self.outfit, outing, start, tanks)
        found = audit(a_plan(self.outfit, (shift,), (), ()))
        return None if any(finding.rule in BY_ITSELF for finding in found) else shift

    # The least it can cost

    def _least(self, day: int, visits: tuple[Visit, ...]) -> int:
        """The least a day's stops can cost, in milli-cents: work, and the shortest way round."""
        outfit, pace = self.outfit, self.outfit.pace
        places = {outfit.yard(v.yard).place_on(day) for v in visits} | {outfit.feed_store.place}
        there = tuple(sorted(places - {outfit.home.place}))
        minutes = self._shortest(there, 0) * 1000 // max(1000, self.truck.speed_permille)
        costs = []
        for crew in range(1, self.truck.seats + 1):
            work = pace.load_min + pace.unload_min
            # Calls of one yard may be one stop.
            work += pace.setup_min * len({v.yard for v in visits})
            work += sum(up(self.clock.seconds(v), 60 * crew) for v in visits)
            costs.append((minutes + work) * crew * outfit.prices.hour_cents * 1000 // 60)
        running = self._shortest(there, 1) * self.truck.km_cents + self.truck.day_cents * 1000
        return min(costs) + running

    def _shortest(self, places: tuple[int, ...], unit: int) -> int:
        """The shortest round from home over some places, by whatever way."""
        table, home = self._ways[unit], self.outfit.home.place
        rounds = ((home, *order, home) for order in itertools.permutations(places))
        return min(sum(table[a][b] for a, b in itertools.pairwise(each)) for each in rounds)


def shortest_ways(table: Sequence[Sequence[int | None]]) -> list[list[int]]:
    """The shortest way between any two places, over others if need be."""
    size = range(len(table))
    ways = [[10**9 if cell is None else cell for cell in row] for row in table]
    for k, i, j in itertools.product(size, repeat=3):
        ways[i][j] = min(ways[i][j], ways[i][k] + ways[k][j])
    return ways


def shortest_start(plain: Sequence[Plain], home: int, opens: int) -> int:
    """The start of the day that makes it shortest.

    The end of the day never falls as the start rises: so the last start with the same end
    is found by halving, and tried again from just after it while anybody still waits.
    """
    best, start = (10**9, opens), opens
    while (run := clocked(plain, home, start)) is not None:
        waited = sum(begin - arrive for arrive, begin, _ in run[0])
        low, high = start, start + waited
        while low < high:
            middle = (low + high + 1) // 2
            again = clocked(plain, home, middle)
            low, high = (middle, high) if again and again[1] == run[1] else (low, middle - 1)
        best = min(best, (run[1] - low, low))
        if low == start + waited:
            break
        start = low + 1
    return best[1]


def in_trips(visits: tuple[Visit, ...]) -> Iterator[tuple[tuple[Visit, ...], ...]]:
    """Every order of the stops that keeps each yard's own, cut into trips in every way."""
    for order in _orders(visits):
        for cuts in itertools.product((False, True), repeat=len(order) - 1):
            trips = [[order[0]]]
            for cut, visit in zip(cuts, order[1:], strict=True):
                if cut:
                    trips.append([visit])
                else:
                    trips[-1].append(visit)
            yield tuple(tuple(trip) for trip in trips)


def _orders(visits: tuple[Visit, ...]) -> Iterator[tuple[Visit, ...]]:
    for order in itertools.permutations(range(len(visits))):
        mine = [(visits[i].yard, i) for i in order]
        if all(i < j or a != b for (a, i), (b, j) in itertools.combinations(mine, 2)):
            yield tuple(visits[i] for i in order)
