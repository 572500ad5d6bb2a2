"""Make a plan, then make it better: take some yards out, put them back another way.

Every round removes the whole chains of a few yards that lie near each other or share days,
builds them in again, and keeps the outcome when it is better, or not much worse while the
search is still warm.
"""

import math
import random
from typing import Protocol

from runplanner.season.build import Builder
from runplanner.season.insert import Inserter
from runplanner.season.state import Keeper, Score, State
from runplanner.trips.ground import Ground


class Report(Protocol):
    """Told after every round; says whether to go on."""

    def __call__(self, done: int, score: Score) -> bool:
        """Take note of the best score; False stops the search."""

    def interrupted(self) -> None:
        """Take note that the user broke off; the round under way does not count."""



class Improver:
    """Runs the rounds of one search; the same seed gives the same plan."""

    def __init__(self, ground: Ground, seed: int) -> None:
        self.ground = ground
        self.keeper = Keeper(ground)
        self.rng = random.Random(seed)  # noqa: S311 - a search, not a secret
        self.inserter = Inserter(self.keeper, self.rng)
        self.builder = Builder(self.inserter)
        self.near = _neighbours(ground)

    def construct(self) -> State:
        """Return a first plan: the yards that have least room to move go in first."""
        return self._build(self.keeper.empty(), self._pressing(range(len(self.ground.outfit.yards))))

    def _pressing(self, yards: range | list[int]) -> list[int]:
        def freedom(yard: int) -> tuple[int, int, int]:
            facts = self.ground.outfit.yards[yard]
            days = sum(1 for spans in self.ground.hours[yard].opening if spans)
            return days, facts.finish_by_day, -facts.boxes * facts.box_g

        return sorted(yards, key=freedom)

    def _build(self, state: State, order: list[int]) -> State:
        for yard in order:
            state = self.builder.add(state, yard)
        return state

    def rounds(self, state: State, count: int, report: Report) -> State:
        """Return the best state after ``count`` rounds, or fewer if ``report`` says stop."""
        best = current = state
        for number in range(count):
            warmth = 0.02 * (1 - number / count) ** 2
            try:
                new = self._round(current)
            except KeyboardInterrupt:
                report.interrupted()
                break
            if self._accept(new.score, current.score, warmth):
                current = new
            if new.score < best.score:
                best = new
            elif number % 200 == 199:
                current = best
            if not report(number + 1, best.score):
                break
        return best

    def _accept(self, new: Score, old: Score, warmth: float) -> bool:
        if new[:-1] != old[:-1]:
            return new < old
        if new <= old:
            return True
        worse = (new.milli_cents - old.milli_cents) / max(1, old.milli_cents)
        return self.rng.random() < math.exp(-worse / max(1e-9, warmth * 0.1))

    def _round(self, state: State) -> State:
        yards = self._choose(state)
        bare = self.keeper.drop(state, set(yards))
        order = sorted({yard for yard in range(len(state.visits)) if not bare.visits[yard]})
        if self.rng.random() < 0.5:
            self.rng.shuffle(order)
        else:
            order = self._pressing(order)
        self.inserter.noise = self.rng.choice((0.0, 0.0, 0.2, 0.5))
        return self._build(bare, order)

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
