"""All sensible days of one truck, listed: for every set of stops the least it can take.

A set of stops is a number whose bits are the stops.  First come the trips, sets whose load
rides at once, with their shortest ways from any stop to any other; then days, trip after
trip, set by set from small to large (Held & Karp, Journal of SIAM 10(1), 1962, over sets of
stops and the last of them).  What cannot be home in time is dropped at once, so that the list
stays short where days hold few stops.
"""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import combinations
from math import comb
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[Any]
FAR: Final = 10**9
"""More than any day takes; two of them added still fit 32 bits."""
MOST_STOPS = 22
"""Stops up to which sets are listed: every table has an entry for each set."""
MOST_SETS = 400_000
"""Sets of one size, or trips of one size, beyond which no list is made."""
MOST_ROUTED = 150_000_000
"""Steps to find the shortest ways of all trips (sets, stops of each thrice) beyond which no list
is made; that is about a second."""
MOST_WORK = 2_000_000_000
"""Ways through last trips (sets, trips of each, stops of each twice) before it is given up;
some hundred million take a second."""


@dataclass(frozen=True, slots=True)
class Legs:
    """What lies between the stops of a day, in minutes or in a unit of cost.

    Args:
        start: From leaving home, by way of a loading, to every stop.
        direct: From stop to stop within a trip, by row.
        via: From stop to stop with a trip's end and the next one's loading between, by row.
        end: From every stop, as the last of its trip, until home is reached.
    """

    start: Ints
    direct: Ints
    via: Ints
    end: Ints


@dataclass(frozen=True, slots=True)
class Limits:
    """What holds a truck's day.

    Args:
        load_g: What every stop adds to its trip's load.
        most_g: What a trip carries.
        work: What every stop takes, in the unit of the legs.
        longest: What a day may take, stops and all.
    """

    load_g: Ints
    most_g: int
    work: Ints
    longest: int


def sums(values: Ints) -> Ints:
    """Return, for every set, the sum of what its stops have."""
    found = np.zeros(1 << len(values), dtype=np.asarray(values).dtype)
    for i, value in enumerate(values):
        found[1 << i : 2 << i] = found[: 1 << i] + value
    return found


def members(sets: Ints, size: int) -> Ints:
    """Return the stops of sets of one size, a row each, in rising order."""
    bits = (sets[:, None] >> np.arange(MOST_STOPS)) & 1
    return np.nonzero(bits)[1].reshape(len(sets), size)


def _always() -> bool:
    return True


def listed(
    legs: Legs, limits: Limits, go_on: Callable[[], bool] = _always, allowed: Ints | None = None
) -> Ints | None:
    """Return the least that the drives of every set's day take; ``FAR`` where there is no day.

    ``allowed`` tells of every set whether to look at it, and ``go_on`` is asked before the sets
    of every size.  None where there are too many sets, or it says no.
    """
    if len(limits.load_g) > MOST_STOPS:
        return None
    trips = _Trips.of(legs, limits)
    return None if trips is None else _Days(legs, limits, trips).listed(go_on, allowed)


@dataclass(frozen=True, slots=True)
class _Trips:
    """Trips by size: number of a set among those of its size, and ways from stop to stop."""

    number: Ints
    ways: dict[int, Ints]

    @classmethod
    def of(cls, legs: Legs, limits: Limits) -> "_Trips | None":
        """Return all trips whose load rides, or None where they are too many."""
        rides = sums(limits.load_g) <= limits.most_g
        size = sums(np.ones(len(limits.load_g), dtype=np.int8))
        number = np.full(len(rides), -1, dtype=np.int32)
        ways: dict[int, Ints] = {}
        many = np.bincount(size[rides])
        if many.max() > MOST_SETS or (many * np.arange(len(many)) ** 3).sum() > MOST_ROUTED:
            return None
        for count in range(1, len(many)):
            sets = np.flatnonzero(rides & (size == count))
            mine = members(sets, count)
            way = np.full((len(sets), count, count), 0 if count == 1 else FAR, dtype=np.int32)
            for last in range(count if count > 1 else 0):
                rest = [k for k in range(count) if k != last]
                before = ways[count - 1][number[sets ^ (1 << mine[:, last])]]
                leg = legs.direct[mine[:, rest], mine[:, [last]]]
                way[:, rest, last] = (before + leg[:, None, :]).min(axis=2)
            ways[count] = np.minimum(way, FAR)
            number[sets] = np.arange(len(sets))
        return cls(number, ways)


class _Days:
    """Days built trip after trip."""

    def __init__(self, legs: Legs, limits: Limits, trips: _Trips) -> None:
        self.legs, self.limits, self.trips = legs, limits, trips
        self.work = sums(limits.work)
        self.size = sums(np.ones(len(limits.work), dtype=np.int8))
        self.home = _least_home(legs)
        self.loose = spared(legs) <= limits.work
        self.number = np.full(len(self.work), -1, dtype=np.int32)
        self.number[0] = 0
        self.onward = legs.start[None, :].astype(np.int32)

    def listed(self, go_on: Callable[[], bool], allowed: Ints | None) -> Ints | None:
        """Return the least of every set; None where that is too much, or ``go_on`` says no."""
        least = np.full(len(self.work), FAR, dtype=np.int32)
        least[0] = 0
        work = 0
        for count in range(1, len(self.limits.work) + 1):
            sets = self._to_look_at(count, least, allowed)
            work += len(sets) * sum(comb(count, size) * size**2 for size in self.trips.ways)
            if len(sets) > MOST_SETS or work > MOST_WORK or not go_on():
                return None
            if not len(sets):
                break
            mine = members(sets, count)
            ends = self._ends(sets, mine, count)
            least[sets] = self._home_in_time(ends + self.legs.end[mine], sets).min(axis=1)
            self._go_on(sets, mine, ends)
        return least

    def _to_look_at(self, count: int, least: Ints, allowed: Ints | None) -> Ints:
        """Return the sets of a size that may have a day: those that have one without any stop.

        That holds for stops whose work outweighs what roads gain by passing there.
        """
        sets = np.flatnonzero(self.size == count)
        if allowed is not None:
            sets = sets[allowed[sets]]
        if count == 1:
            return sets
        fit = np.ones(len(sets), dtype=bool)
        for i in np.flatnonzero(self.loose):
            inside = (sets >> i) & 1
            fit &= (inside == 0) | (least[sets ^ (inside << i)] < FAR)
        return sets[fit]

    def _ends(self, sets: Ints, mine: Ints, count: int) -> Ints:
        """Return the least until the last trip is at each stop as its last, whatever it holds."""
        ends = np.full((len(sets), count), FAR, dtype=np.int32)
        for size, ways in self.trips.ways.items():
            for chosen in combinations(range(count), min(size, count)):
                if size > count:
                    break
                stops = mine[:, chosen]
                trip = (1 << stops).sum(axis=1)
                number, before = self.trips.number[trip], self.number[sets ^ trip]
                real = np.flatnonzero((number >= 0) & (before >= 0))
                if not len(real):
                    continue
                begun = self.onward[before[real][:, None], stops[real]]
                there = (begun[:, :, None] + ways[number[real]]).min(axis=1)
                for k, at in enumerate(chosen):
                    ends[real, at] = np.minimum(ends[real, at], there[:, k])
        late = ends + self.home[mine] + self.work[sets][:, None] > self.limits.longest
        ends[late] = FAR
        return ends

    def _home_in_time(self, whole: Ints, sets: Ints) -> Ints:
        late = whole + self.work[sets][:, None] > self.limits.longest
        return np.where(late, FAR, whole)

    def _go_on(self, sets: Ints, mine: Ints, ends: Ints) -> None:
        """Note what it takes to be at any further stop as the first of one more trip."""
        real = np.flatnonzero((ends < FAR).any(axis=1))
        self.number[sets[real]] = len(self.onward) + np.arange(len(real), dtype=np.int32)
        further = np.full((len(real), len(self.limits.work)), FAR, dtype=np.int32)
        for k in range(mine.shape[1]):
            step = self.legs.via[mine[real, k]]
            further = np.minimum(further, ends[real, k][:, None] + step)
        self.onward = np.concatenate([self.onward, further])


def _least_home(legs: Legs) -> Ints:
    """Return the least from every stop home, over further stops or none."""
    step, home = np.minimum(legs.direct, legs.via), legs.end
    for _ in range(len(home)):
        home = np.minimum(home, (step + home[None, :]).min(axis=1))
    return home


def spared(legs: Legs) -> Ints:
    """Return what drives can grow by at most where a stop is left out of a day."""
    count = len(legs.end)
    step = np.minimum(legs.direct, legs.via)
    found = np.full(count, -FAR, dtype=np.int64)
    for i in range(count):
        rest = np.array([k for k in range(count) if k != i], dtype=np.int64)
        if not len(rest):
            continue
        square = np.ix_(rest, rest)
        off_diagonal = ~np.eye(len(rest), dtype=bool)
        into, out = legs.direct[rest, i][:, None], legs.direct[i, rest][None, :]
        # What was parted into two trips stays so; what was one trip stays one.
        parted = np.minimum(
            legs.via[rest, i][:, None] + step[i, rest][None, :], into + legs.via[i, rest][None, :]
        )
        grows = np.maximum(legs.direct[square] - into - out, legs.via[square] - parted)
        ends = np.maximum(
            legs.start[rest] - legs.start[i] - step[i, rest],
            legs.end[rest] - step[rest, i] - legs.end[i],
        )
        found[i] = max(grows[off_diagonal].max(initial=-FAR), ends.max())
    return found
