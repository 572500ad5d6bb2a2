"""Quick sums of a day whose trips begin at whichever facility is best on the way.

Every place stands twice in the tables: as it is, and, further down, as the place that a truck
reaches, or leaves, by way of the best facility.
"""

from collections.abc import Sequence
from typing import Any

from runplanner.season.quick.facts import FAR, Facts, Roads
from runplanner.season.quick.hops import Hops
from runplanner.season.quick.sums import Edge, Going, Guess, Orders, RoughDay
from runplanner.trips.ground import Ground
from runplanner.trips.ride import Way
from runplanner.visits.stop import Stop
from tests.bench.twin import UNIT_CENTS

UNIT = 1_000 * UNIT_CENTS
"""Cost of a unit of distance, in 1/1000 cent."""


class Passing:
    """Legs of all places, and by way of the best facility."""

    def __init__(self, legs: list[list[int]], facilities: list[int], count: int) -> None:
        places = range(count + 1)
        via = [[min(legs[a][f] + legs[f][b] for f in facilities) for b in places] for a in places]
        plain = [[legs[a][b] for b in places] for a in places]
        self.base = count + 1
        self.minutes = [
            *[[*row, *by] for row, by in zip(plain, via, strict=True)],
            *[[*by, *by] for by in via],
        ]


class FacilityGoing(Going):
    """A day by way of facilities: loading takes no time, and a trip is its stops alone."""

    def __init__(
        self,
        passing: Passing,
        ground: Ground,
        way: Way,
        stops: Sequence[Stop],
        facts: Sequence[Facts],
        roads: Roads,
    ) -> None:
        super().__init__(ground, way, stops, facts, roads)
        self.minutes: Any = passing.minutes
        self.times: Any = passing.minutes
        self.times_back = [list(column) for column in zip(*passing.minutes, strict=True)]
        self.base = passing.base
        self.cost = [[leg * (UNIT + self.minute) for leg in row] for row in passing.minutes]
        self.cost_back = [list(column) for column in zip(*self.cost, strict=True)]
        self.store = self.home

    def empty(self) -> RoughDay:
        """Return a day at home."""
        return _FacilityDay(self, ())

    def hops(self, *, costs: bool) -> Hops:
        """Return what lies between stops, passing a facility where a trip begins."""
        table: list[list[float]] = self.cost if costs else self.minutes
        places = [fact.place for fact in self.loads.facts]
        by = [place + self.base for place in places]
        return Hops(
            [table[self.home + self.base][b] for b in places],
            [[table[a][b] for b in places] for a in places],
            [[table[a][b] for b in places] for a in by],
            [table[a][self.home] for a in places],
        )

    def summed(self, trips: Orders) -> RoughDay | None:
        """Return the sums of a day, or None where it cannot be driven."""
        laid = [self.loads.laid(trip) for trip in trips]
        real = [one for one in laid if one is not None]
        if len(real) < len(laid):
            return None
        places = [[self.loads.facts[i].place for i in trip] for trip in trips]
        ends = [self.home, *[p[-1] for p in places]]
        starts = [*[p[0] + self.base for p in places], self.home]
        works = [[self.loads.work[i] for i in trip] for trip in trips]
        shift = _FacilityDay(self, trips)
        shift.rooms = [one.deck for one in real]
        now, cost, minutes = self.opens, 0.0, self.minutes
        leaves: list[list[int]] = []
        for number, mine in enumerate(places):
            here, mine_leaves = ends[number] + self.base, []
            for place, work in zip(mine, works[number], strict=True):
                mine_leaves.append(now)
                now += minutes[here][place] + work
                cost += self.cost[here][place]
                here = place
            mine_leaves.append(now)
            leaves.append(mine_leaves)
        now += minutes[ends[-1]][self.home]
        shift.busy = now - self.opens
        if now > self.closes or shift.busy > self.busy_max:
            return None
        work = sum(sum(one) for one in works)
        shift.cost = cost + self.cost[ends[-1]][self.home] + self.day_cost + work * self.minute
        spare_min = min(self.busy_max - shift.busy, self.closes - now)
        for number, mine in enumerate(places):
            befores = [ends[number] + self.base, *mine]
            afters = [*mine, starts[number + 1]]
            spare, inside = real[number].spare, list[Edge]()
            shift.edges.append((number, spare[0][0], spare[-1][1], inside))
            for at, (a, b) in enumerate(zip(befores, afters, strict=True)):
                leave = leaves[number][at]
                # Whatever is added may take all the minutes that are left.
                last = leave + minutes[a][b] + spare_min
                up_to, on = spare[at]
                inside.append((at, a, b, self.cost[a][b], leave, last, up_to, on))
        shift.ends, shift.starts, shift.spare_min = ends, starts, spare_min
        shift.ready = [self.closes] * len(trips)
        return shift


class _FacilityDay(RoughDay):
    """A day by way of facilities, where trips end and begin, and the minutes left."""

    __slots__ = ("ends", "spare_min", "starts")

    def __init__(self, going: "FacilityGoing", trips: Orders) -> None:
        super().__init__(going, trips)
        self.ends, self.starts = [going.home], [going.home]
        self.spare_min = min(going.busy_max, going.closes - going.opens)

    def _own_trip(self, stop: int, most: float) -> Guess:
        """Return what a trip for this stop alone would add, where it adds least."""
        going = self.going
        assert isinstance(going, FacilityGoing)
        if going.loads.laid((stop,)) is None:
            return FAR, -1, -1
        best: Guess = (most, -1, -1)
        place, work = going.loads.facts[stop].place, going.loads.work[stop]
        cost, minutes = going.cost, going.minutes
        for at, (a, b) in enumerate(zip(self.ends, self.starts, strict=True)):
            into = a + going.base
            added = minutes[into][place] + work + minutes[place][b] - minutes[a][b]
            extra = cost[into][place] + cost[place][b] - cost[a][b] + work * going.minute
            if added <= self.spare_min and extra < best[0] and (stop, at, -1) not in self.banned:
                best = (extra, at, -1)
        return best
