"""One day's stops shared out anew among its trucks and trips.

The day is laid out on a table (``day_table.py``), searched there by quick sums, and what comes
out counts only once it has been judged exactly.  Which yards are visited on the day, and for
what, stays as it is.
"""

import random
from collections.abc import Callable, Iterable

from runplanner.season.lanes import ways
from runplanner.season.quick.facts import Facts, Roads, facts_of, roads_of
from runplanner.season.quick.sums import Going, built
from runplanner.season.search.choose_trips import Chooser, remembered
from runplanner.season.search.day_table import ALONE, USUAL, DayTable
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.trips.day import Day, Key, Trip
from runplanner.trips.ride import Way
from runplanner.visits.stop import Stop, merged


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
            self.seen = table.judged(self.keeper, state, table.best)
        new = table.judged(self.keeper, state, table.shifts)
        if new is state and not alone:
            return None
        if new is None:
            table.shifts = before
            if chosen:
                table.least, table.top = least, top
        else:
            self._known[day] = (mark_of(new, table.keys), table)
        return new

    def _table(self, state: State, day: int, *, alone: bool = False) -> DayTable | None:
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
            to_feed = self.keeper.chains.to_feed(stop.yard)
            both = merged(before, stop, to_feed) if before is not None else stop
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
