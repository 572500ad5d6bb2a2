"""Quick sums over one truck's day: close enough to search with, never the last word.

Where one more stop would go is asked without breaks; what looks good here is judged exactly
before it counts.  Drives are taken at the best hour.
"""

from collections.abc import Collection, Sequence
from itertools import pairwise
from math import fsum
from typing import NamedTuple

from runplanner.days import DAY_MIN, Span
from runplanner.season.quick.clock import Node, driven, laws_of
from runplanner.season.quick.facts import AGES, FAR, Facts, Roads, minute_cost
from runplanner.season.quick.hops import Base, Hops, hops_of
from runplanner.season.quick.loads import FULL, MOST_KNOWN, Laid, Loads
from runplanner.trips.day import Trip
from runplanner.trips.ground import Ground
from runplanner.trips.ride import Way
from runplanner.visits.stop import Stop

Orders = tuple[tuple[int, ...], ...]
"""Trips of one day as numbers of stops."""
Guess = tuple[float, int, int]


class Alone(NamedTuple):
    """A trip to one stop alone: what it costs and takes from loading to its end, its calls.

    ``over_min`` is when it is over at the earliest, whatever the truck does before.
    """

    cost: float
    busy_min: int
    nodes: tuple[Node, ...]
    over_min: int


class Going:
    """How one hauler would go about a day's stops; it remembers the days it has summed up."""

    def __init__(
        self,
        ground: Ground,
        way: Way,
        stops: Sequence[Stop],
        facts: Sequence[Facts],
        roads: Roads,
    ) -> None:
        outfit, haul, day = ground.outfit, ground.haulers[way.hauler], way.day
        self.loads, self.hauler = Loads(ground, way, stops, facts), way.hauler
        self.cost, self.cost_back = roads.cost, roads.cost_back
        self.times, self.times_back = roads.minutes, roads.minutes_back
        self.minutes = ground.legs[way.hauler]
        self.minute = minute_cost(ground, way.hauler)
        self.day_cost = haul.truck.day_cents * 1000
        self.home = outfit.home.place
        self.store = outfit.feed_store.place
        self.opens = max(day * DAY_MIN + outfit.hours.start_min, ground.earliest_min)
        self.closes = day * DAY_MIN + outfit.hours.end_min
        self.laws = laws_of(outfit.hours)
        self.busy_max = self.laws.busy_max()
        self.normal_min = outfit.hours.normal_min
        self.over = self.minute * outfit.prices.overtime_permille / 1000
        self.pace = outfit.pace
        self.days: dict[Orders, RoughDay | None] = {}
        self._own: dict[int, Alone | None] = {}
        self.seen: set[tuple[int, ...]] | None = None
        """Trips of all days that could be driven, where somebody wants to know."""

    def forget(self) -> None:
        """Let go of the days summed up so far, which know this hauler as it knows them."""
        self.days.clear()
        self.loads.forget()
        self._own.clear()

    def refuse(self, trips: Orders, bad: Collection[tuple[int, ...]]) -> None:
        """Note a day that cannot be driven after all; nor can any with a ``bad`` trip."""
        self.days[trips] = None
        self.loads.refuse(bad)
        for known in [one for one in self.days if any(trip in bad for trip in one)]:
            self.days[known] = None

    def summed(self, trips: Orders) -> "RoughDay | None":
        """Return the sums of a day, or None where it cannot be driven."""
        return _built(self, trips)

    def empty(self) -> "RoughDay":
        """Return a day at home."""
        return RoughDay(self, ())

    def hops(self, *, costs: bool) -> Hops:
        """Return the least that lies between stops without honey, in minutes or 1/1000 cent."""
        each = self.minute if costs else 1.0
        base = Base(self.home, self.store, self.pace.load_min * each, self.pace.unload_min * each)
        return hops_of(
            self.cost if costs else self.minutes, [fact.place for fact in self.loads.facts], base
        )

    def own_trip(self, stop: int) -> Alone | None:
        """Return a trip to one stop alone, or None where it cannot be."""
        if stop not in self._own:
            self._own[stop] = self._alone(stop)
        return self._own[stop]

    def _alone(self, stop: int) -> Alone | None:
        laid = self.loads.laid((stop,))
        if laid is None:
            return None
        places = [node[0] for node in laid.nodes]
        legs = [self.minutes[a][b] for a, b in pairwise(places)]
        real = [leg for leg in legs if leg is not None]
        if len(real) < len(legs):
            return None
        road = fsum(self.cost[a][b] for a, b in pairwise(places))
        cost, busy = road + laid.work_min * self.minute, laid.work_min + sum(real)
        over = _over(self, self.store, self.opens, laid.nodes)
        return Alone(cost, busy, laid.nodes, AGES if over is None else over)


Edge = tuple[int, int, int, float, int, int, int, int]
"""A drive into which one more stop could go.

Its place in the trip, places left and reached, cost, when it is left at the earliest and must
be over, spare mass up to here and from here on.
"""
Edges = tuple[int, int, int, list[Edge]]
"""A trip, the most spare mass that a drive of it has up to and from there on, and its drives."""
Gap = tuple[int, int, int]
"""Where a further trip could go: the place before it, when that is left, when it must be over."""


class RoughDay:
    """A truck's day by quick sums; it remembers where each further stop would go best."""

    __slots__ = (
        "banned",
        "busy",
        "cost",
        "edges",
        "gaps",
        "going",
        "laid",
        "leaves",
        "memo",
        "ready",
        "rooms",
        "trips",
    )

    def __init__(self, going: Going, trips: Orders) -> None:
        self.going, self.trips = going, trips
        self.cost, self.busy = 0.0, 0
        self.edges: list[Edges] = []
        self.gaps: list[Gap] = []
        self.rooms: list[float] = []
        self.ready: list[int] = []
        self.laid: list[Laid] = []
        self.leaves: list[int] = []
        self.memo: dict[int, Guess] = {}
        self.banned: set[tuple[int, int, int]] = set()

    def guess(self, stop: int) -> Guess:
        """Return the added cost of one more stop, and where: trip and place in it.

        The place is -1 for a trip of its own; the cost is ``FAR`` where it does not go in.
        """
        found = self.memo.get(stop)
        if found is None:
            found = self.memo[stop] = self._look(stop)
        return found

    def _look(self, stop: int) -> Guess:  # noqa: C901, PLR0912 - the hottest loop, calls cost
        going, banned, rooms = self.going, self.banned, self.rooms
        loads = going.loads
        if loads.gates[stop] < 0:
            return FAR, -1, -1
        if self.laid:
            _backward(self)
        facts = loads.facts[stop]
        place, work, spans, settled, _ = loads.nodes[stop]
        in_g, out_g, goods = facts.in_g, facts.out_g, facts.goods_min
        there, onward = going.cost_back[place], going.cost[place]
        to, back = going.times_back[place], going.times[place]
        room, until = FULL - loads.deck[stop], spans[0].end_min - work if spans else -1
        earliest = max(settled - work, spans[0].start_min) if spans else 0
        least, found, found_at = FAR, -1, -1
        for trip, most_in, most_out, edges in self.edges:
            if most_in < in_g or most_out < out_g or rooms[trip] > room or goods > self.ready[trip]:
                continue
            for at, a, b, cost, leave, last, spare_in, spare_out in edges:
                extra = there[a] + onward[b] - cost
                if extra >= least or spare_in < in_g or spare_out < out_g:
                    continue
                start = leave + to[a]
                start = start if start > earliest else earliest  # noqa: FURB136 - calls cost
                if start + work + back[b] > last:
                    continue
                if start > until:
                    for opens, closes in spans:
                        start = max(start, opens)
                        if start + work <= closes:
                            break
                    else:
                        continue
                    if start + work + back[b] > last:
                        continue
                if (stop, trip, at) in banned:
                    continue
                least, found, found_at = extra, trip, at
        works = work * going.minute
        own = self._own_trip(stop, least + works)
        return own if own[0] < least + works else (least + works, found, found_at)

    def _own_trip(self, stop: int, most: float) -> Guess:
        """Return what a trip for this stop alone would add, in the last gap that takes it.

        Nothing that adds ``most`` or more is looked for.
        """
        going = self.going
        own = going.own_trip(stop)
        if own is None or own.cost >= most or self.busy + own.busy_min > going.busy_max:
            return FAR, -1, -1
        cost, nodes, banned = going.cost, own.nodes, self.banned
        end = nodes[-1][0]
        if not self.trips:
            extra = (
                own.cost + going.day_cost + cost[going.home][going.store] + cost[end][going.home]
            )
            return (extra, 0, -1) if (stop, 0, -1) not in banned else (FAR, -1, -1)
        to = going.home
        for at in range(len(self.gaps) - 1, -1, -1):
            here, now, last = self.gaps[at]
            back = going.minutes[end][to]
            to = going.store
            if back is None or max(now + own.busy_min, own.over_min) + back > last:
                continue
            if (stop, at, -1) in banned:
                continue
            over = _over(going, here, now, nodes)
            if over is not None and over + back <= last:
                return own.cost, at, -1
        return FAR, -1, -1

    def joined(self, stop: int) -> "RoughDay | None":
        """Return the day with a stop where it goes best, or None where it does not after all."""
        _, trip, at = self.guess(stop)
        if at < 0:
            trips = (*self.trips[:trip], (stop,), *self.trips[trip:])
        else:
            mine = self.trips[trip]
            longer = (*mine[:at], stop, *mine[at:])
            trips = (*self.trips[:trip], longer, *self.trips[trip + 1 :])
        new = built(self.going, trips)
        if new is None:
            self.banned.add((stop, trip, at))
            del self.memo[stop]
        return new

    def slack(self) -> tuple[int, int]:
        """Return when the first trip begins at the latest and the last is over at the earliest."""
        if self.laid:
            _backward(self)
        return self.gaps[0][2], self.gaps[-1][1]

    def without(self, gone: set[int]) -> "RoughDay | None":
        """Return the day without some stops."""
        kept = [tuple([i for i in trip if i not in gone]) for trip in self.trips]
        return built(self.going, tuple([trip for trip in kept if trip]))


def _over(going: Going, here: int, now: int, nodes: Sequence[Node]) -> int | None:
    """Return when calls one after another are over at the earliest, or None."""
    for place, work, spans, settled, _ in nodes:
        leg = going.minutes[here][place]
        if leg is None:
            return None
        earliest = max(now + leg, settled - work)
        for opens, closes in spans:
            start = max(opens, earliest)
            if start + work <= closes:
                break
        else:
            return None
        now, here = start + work, place
    return now


def built(going: Going, trips: Orders) -> RoughDay | None:
    """Return the sums of a truck's day, or None where it cannot be driven."""
    days = going.days
    if trips not in days:
        if len(days) > MOST_KNOWN:
            days.clear()
        days[trips] = going.summed(trips) if trips else going.empty()
    return days[trips]


def _built(going: Going, trips: Orders) -> RoughDay | None:
    laid = [going.loads.laid(trip) for trip in trips]
    real = [one for one in laid if one is not None]
    if len(real) < len(laid):
        return None
    shift = RoughDay(going, trips)
    shift.rooms = [one.deck for one in real]
    leaves = _forward(shift, real)
    if leaves is None:
        return None
    # Many a day is never asked where one more stop would go.
    shift.laid, shift.leaves = real, leaves
    if going.seen is not None:
        going.seen.update(trips)
    return shift


def _forward(shift: RoughDay, laid: list[Laid]) -> list[int] | None:
    """Drive the day as early as can be; sum it up; return when every call's drive begins."""
    going = shift.going
    nodes = [node for one in laid for node in one.nodes]
    hours = Span(going.opens, going.closes)
    run = driven(nodes, going.minutes, going.home, hours, going.laws)
    if run is None:
        return None
    costs, here = going.cost, going.home
    cost: float = going.day_cost
    for place, *_ in nodes:
        cost += costs[here][place]
        here = place
    shift.busy = run.busy_min
    waits = run.length_min - run.busy_min + sum(one.work_min for one in laid)
    shift.cost = cost + costs[here][going.home] + waits * going.minute
    shift.cost += max(0, run.length_min - going.normal_min) * going.over
    return run.leaves


def _backward(shift: RoughDay) -> None:
    """Note where further stops and trips could go, and by when they must be over."""
    going, laid, leaves = shift.going, shift.laid, shift.leaves
    shift.laid, shift.leaves = [], []
    times, costs, edges = going.times, going.cost, shift.edges
    k, end = len(leaves) - 1, going.closes
    after = going.home
    for number in range(len(laid) - 1, -1, -1):
        nodes, spare, *_ = laid[number]
        many = len(spare)
        shift.gaps.append((nodes[-1][0], leaves[k], end))
        inside: list[Edge] = []
        edges.append((number, spare[0][0], spare[-1][1], inside))
        for at in range(len(nodes) - 1, -1, -1):
            place, work, spans, *_ = nodes[at]
            k -= 1
            end -= times[place][after]
            last = -1
            for opens, closes in spans:
                start = (end if end < closes else closes) - work  # noqa: FURB136 - calls cost
                if start >= opens and start > last:
                    last = start
            if 0 < at <= many:
                a = nodes[at - 1][0]
                up_to, on = spare[at - 1]
                inside.append((at - 1, a, place, costs[a][place], leaves[k], last, up_to, on))
            end, after = last, place
        shift.ready.append(end + nodes[0][1])
    shift.gaps.append((going.home, leaves[0], end))
    shift.gaps.reverse()
    shift.ready.reverse()


def order_of(stops: Sequence[Stop], trips: Orders) -> tuple[Trip, ...]:
    """Return trips of stops for trips of numbers."""
    return tuple(tuple(stops[i] for i in trip) for trip in trips)
