"""One round of a search: take some yards out, or parts of their chains, and build them in again."""

import random
from collections.abc import Callable, Iterable
from itertools import takewhile

from runplanner.days import DAY_MIN
from runplanner.season.search.build import Builder
from runplanner.season.search.insert import Inserter
from runplanner.season.search.lots import evened
from runplanner.season.search.shelter import Shelter
from runplanner.season.search.tidy import blocks_together
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.season.worth import stated
from runplanner.trips.day import Day, Key, with_trip
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop, merged

SHAKEN = 0.35
CHOOSY = 0.7
"""Share of rounds that leave out what costs more than its stated worth, where any is stated."""


class Rebuilder:
    """Takes yards of a state apart and builds them in again, by the dice of its search."""

    def __init__(self, keeper: Keeper, rng: random.Random) -> None:
        self.ground = keeper.ground
        self.keeper = keeper
        self.rng = rng
        self.inserter = Inserter(keeper, rng)
        self.builder = Builder(self.inserter)
        self.shelter = Shelter(self.inserter)
        self.near = _neighbours(keeper.ground)
        self.worth = stated(keeper.ground.outfit.prices)

    def pressing(self, state: State, yards: range | list[int]) -> list[int]:
        """Return yards (by index) with those first that have least room to move.

        Before all others come those with colonies off whose cover ends: blocks are theirs first.
        """

        def freedom(yard: int) -> tuple[bool, bool, int, int, int]:
            facts, due = self.ground.outfit.yards[yard], self.ground.dues[yard]
            days = sum(1 for spans in self.ground.hours[yard].opening if spans)
            # Where feed rounds take all days there are, any other yard would be in their way.
            wanted = max(0, due.rounds - 1) * -(-due.round_gap_min // DAY_MIN) + 1
            room = not state.runs_out(yard), days > wanted
            return *room, days, facts.finish_by_day, -facts.boxes * facts.box_g

        return sorted(yards, key=freedom)

    def lacking(self, state: State) -> list[int]:
        """Return the yards (by index) to which something is still owed, cover among it."""
        progress = enumerate(state.progress)
        return [yard for yard, one in progress if one.owing() or state.runs_out(yard)]

    def build(self, state: State, order: list[int]) -> State:
        """Return the state with what is owed to yards put in, one after the other.

        Where the first in the order run out of cover, blocks go to them before others get any.
        """
        first = list(takewhile(state.runs_out, order))
        for part in (first, order[len(first) :]):
            for yard in part:
                state = self.builder.add(state, yard)
            state = self.sheltered(state, part)
        return state

    def sheltered(
        self, state: State, yards: Iterable[int], before_each: Callable[[], None] = lambda: None
    ) -> State:
        """Return the state with further blocks for colonies off whose cover would end.

        Yards whose colonies are the longest without cover come first; ``before_each`` is called
        before each of them, to end it all by an error.
        """

        def days(yard: int) -> float:
            return state.progress[yard].uncovered / self.ground.outfit.yards[yard].colonies

        worst = sorted(filter(state.runs_out, yards), key=lambda yard: (-days(yard), yard))
        for yard in worst:
            before_each()
            state = self.shelter.sheltered(state, yard)
        return state

    def tided_over(self, state: State) -> State:
        """Return the state with blocks left over for colonies off that no syrup comes to.

        Those go first whose cover ends first.  Where feed has a stated worth it was weighed.
        """
        if self.ground.outfit.prices.worth_feed_cents:
            return state
        self.inserter.noise = 0.0
        ends = [(min(one.waiting), yard) for yard, one in enumerate(state.progress) if one.waiting]
        for _, yard in sorted(ends):
            state = blocks_together(self.keeper, self.shelter.tided_over(state, yard), yard)
        return state

    def __call__(self, state: State) -> State:
        """Return the outcome of one round, better or not."""
        before = state
        if self.rng.random() < SHAKEN:
            state = self._shaken(state)
        self.inserter.noise = self.rng.choice((0.0, 0.0, 0.2, 0.5))
        if self.rng.random() < 0.5:
            bare = self._part_taken_out(state)
        else:
            yards = self._choose(state)
            if self.rng.random() < 0.5:
                yards += self.lacking(state)
            bare = self.keeper.drop(state, set(yards))
        order = self.lacking(bare)
        self.builder.choosy = self.worth and self.rng.random() < CHOOSY
        if self.rng.random() < 0.5:
            self.rng.shuffle(order)
        else:
            order = self.pressing(bare, order)
        return self._tuned(self.build(bare, order), before)

    def _shaken(self, state: State) -> State:
        """Send one day out with another crew or trailer, or move it whole to another day."""
        keys = [key for key in sorted(state.days) if key not in self.keeper.standing.driven]
        if not keys:
            return state
        key = self.rng.choice(keys)
        day = state.days[key].day
        if self.rng.random() < 0.4:
            hauler = self.rng.choice(self.ground.siblings[key[1]])
            return self.keeper.replace(state, key, day._replace(hauler=hauler)) or state
        bare = self.keeper.replace(state, key, None)
        return (bare and self._elsewhere(bare, key, day)) or state

    def _elsewhere(self, bare: State, key: Key, day: Day) -> State | None:
        """Put a whole day's trips on another day near by, alone or before what is there."""
        season, trucks = self.ground.outfit.season, self.ground.outfit.trucks
        near = range(max(0, key[0] - 3), min(season.n_days, key[0] + 4))
        spots = [(d, t) for d in near for t in range(len(trucks)) if (d, t) != key]
        for spot in self.rng.sample(spots, min(6, len(spots))):
            if spot[0] in trucks[spot[1]].out_days or spot in self.keeper.standing.driven:
                continue
            there = bare.days.get(spot)
            trips = (*there.day.trips, *day.trips) if there else day.trips
            for hauler in self.ground.siblings[spot[1]]:
                new = self.keeper.replace(bare, spot, Day(spot[0], hauler, trips))
                if new is not None:
                    return new
        return None

    def _part_taken_out(self, state: State) -> State:
        """Take only later feeds, strips or boards out of a handful of near yards."""
        yards = self._choose(state) + self._choose(state)
        tails = {yard: self.rng.randint(-1, self.ground.dues[yard].rounds) for yard in yards}
        return self.keeper.thin(state, lambda stop: self._thinned(stop, tails), set(yards))

    def _thinned(self, stop: Stop, tails: dict[int, int]) -> Stop | None:
        """Return a stop without boards (tail -1) or without feeds from round ``tail`` on."""
        tail = tails.get(stop.yard)
        if tail is None:
            return stop
        if tail == -1:
            thin = stop._replace(boards=0)
        elif stop.round and stop.round >= max(1, tail):
            blocks = stop.off * self.ground.outfit.rules.blocks if stop.off else stop.blocks
            thin = stop._replace(round=0, fed=0, feeders=0, strips=False, blocks=blocks, from_min=0)
        else:
            thin = stop._replace(strips=False)
        return None if thin.idle else thin

    def _tuned(self, state: State, before: State) -> State:
        """On the days that changed, join stops, try other crews and trailers, and other lots."""
        for key in sorted(state.days):
            if before.days.get(key) is state.days[key]:
                continue
            state = self._joined(state, key)
            day = state.days[key].day
            for hauler in self.ground.siblings[key[1]]:
                if hauler != day.hauler:
                    new = self.keeper.replace(
                        state, key, state.days[key].day._replace(hauler=hauler)
                    )
                    if new is not None and new.score < state.score:
                        state = new
        changed = [key for key in state.days if before.days.get(key) is not state.days[key]]
        called = {visit.stop.yard for key in changed for visit in state.days[key].visits}
        return evened(self.keeper, state, sorted(called))

    def _joined(self, state: State, key: Key) -> State:
        """Make one stop of two at the same yard in a row, where that is better."""
        day = state.days[key].day
        for index, trip in enumerate(day.trips):
            for at in range(len(trip) - 1):
                one, other = trip[at], trip[at + 1]
                if one.yard != other.yard:
                    continue
                both = merged(one, other, self.keeper.chains.to_feed(one.yard))
                if both is not None:
                    joined = (*trip[:at], both, *trip[at + 2 :])
                    new = self.keeper.replace(state, key, with_trip(day, index, joined))
                    return new if new is not None and new.score < state.score else state
        return state

    def _choose(self, state: State) -> list[int]:
        count = len(self.ground.outfit.yards)
        size = min(count, self.rng.randint(1, 4))
        way = self.rng.random()
        if way < 0.4 or not state.days:
            seed = self.rng.randrange(count)
            close = self.near[seed][: 2 * size + 1]
            return [seed, *self.rng.sample(close, min(size - 1, len(close)))]
        if way < 0.8:
            key = self.rng.choice(sorted(state.days))
            found = sorted({s.yard for trip in state.days[key].day.trips for s in trip})
            return found[:6]
        return self.rng.sample(range(count), size)


def _neighbours(ground: Ground) -> list[list[int]]:
    outfit = ground.outfit
    places = [yard.sites[0][1] for yard in outfit.yards]
    far = 10**9

    def apart(a: int, b: int) -> int:
        metres = outfit.travel.metres[places[a]][places[b]]
        return far if metres is None else metres

    yards = range(len(places))
    return [sorted((b for b in yards if b != a), key=lambda b: (apart(a, b), b)) for a in yards]
