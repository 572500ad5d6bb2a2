"""The days of many trucks on one table: visits go from day to day, crews and trailers change."""

import random
from collections.abc import Callable, Collection, Mapping, Sequence
from math import fsum
from typing import NamedTuple

from runplanner.days import DAY_MIN
from runplanner.season.quick.facts import FAR, Facts
from runplanner.season.quick.sums import Going, RoughDay, built
from runplanner.season.search.day_table import DayTable
from runplanner.season.standing.roster import Need, Roster
from runplanner.season.standing.state import State
from runplanner.trips.day import Day, Key
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop, Visit

WHOLE = 0.7
"""Share of tries that take all visits of a yard out where they take one."""

Days = tuple[int, ...]


class Choice(NamedTuple):
    """Days on which a yard's visits may lie, and what that costs beyond the driving.

    The cost (lateness, doubt about the weather, blocks) is in 1/1000 cent.
    """

    days: Days
    cost: float


Chain = tuple[tuple[int, ...], tuple[Choice, ...]]
"""A yard's visits by number, and the days on which they may lie."""


def moved_to(stop: Stop, was: int, day: int) -> Stop:
    """Return a stop of one day as it is on another; what it waits for moves along."""
    if day == was or not (stop.from_min or stop.to_min):
        return stop
    from_min = max(0, stop.from_min + (day - was) * DAY_MIN)
    return stop._replace(from_min=from_min, to_min=0).on(day)


class SeasonTable(DayTable):
    """Visits and trucks of many days, and the search over them.

    Args:
        rng: The search's dice.
        jobs: All visits.
        yards: Every yard's chain.
        ground: The campaign.
        roster: Tells whether there are people for a day's shifts.
    """

    swapped, blink, recrewed, mean_out = 0.3, 0.1, 0.1, 5

    def __init__(
        self,
        rng: random.Random,
        jobs: Sequence[Visit],
        yards: Mapping[int, Chain],
        ground: Ground,
        roster: Roster,
    ) -> None:
        super().__init__(rng, [visit.stop for visit in jobs], [])
        self.jobs, self.yards, self.ground, self.roster = jobs, yards, ground, roster
        self.facts_on: dict[int, list[Facts]] = {}
        self.going_on: dict[int, Callable[[int], Going]] = {}
        self.goings: Mapping[tuple[int, int, int], Going] = {}
        self.like: Mapping[int, tuple[int, int]] = {}
        self.apart: list[Key] = []
        self._by_day: dict[int, list[int]] = {}
        self._least: list[float] = []
        self._varied = {
            yard: (numbers, {one.days: one.cost for one in choices})
            for yard, (numbers, choices) in yards.items()
            if len({one.cost for one in choices}) > 1
        }

    def all_keys(self) -> list[Key]:
        """Return the trucks' days on the table, and those that were put apart."""
        return [*self.keys, *self.apart]

    def forget(self) -> None:
        """Let go of what is remembered: its parts know each other, and nobody else tidies up."""
        for going in self.goings.values():
            going.forget()
        self.going_on.clear()

    def on(self, day: int) -> list[Stop]:
        """Return every visit as it is on a day."""
        return [moved_to(visit.stop, visit.day, day) for visit in self.jobs]

    def add(self, key: Key, hauler: int, shift: RoughDay) -> None:
        """Add a truck's day, which may have nothing to do yet."""
        self._by_day.setdefault(key[0], []).append(len(self.keys))
        super().add(key, hauler, shift)

    def near(self) -> list[list[int]]:
        """Return, for every visit, all visits from the nearest on, itself first."""
        if not self.facts:
            self.facts = [self.facts_on[visit.day][i] for i, visit in enumerate(self.jobs)]
            self._least = [self._work_at_least(visit.stop) for visit in self.jobs]
        return super().near()

    def _work_at_least(self, stop: Stop) -> float:
        """Return what the work of a visit costs at least, set up for by itself, in 1/1000 cent."""
        each = self.ground.outfit.prices.hour_cents * 1000 / 60
        crews = {hauler.crew for hauler in self.ground.haulers}
        return min(crew * self.ground.stop_min(stop, crew) * each for crew in crews)

    def total(self, shifts: list[RoughDay]) -> float:
        """Return what the driving costs, and lateness and doubt with it."""
        cost = super().total(shifts)
        return cost + self._beside(self._days(shifts), ()) if self._varied else cost

    def _beside(self, days: Mapping[int, int], but: Collection[int]) -> float:
        """Return what choices of days cost beyond the driving, at all yards but some."""
        return fsum(
            costs[tuple([days[i] for i in numbers])]
            for yard, (numbers, costs) in self._varied.items()
            if yard not in but
        )

    def _days(self, shifts: list[RoughDay]) -> dict[int, int]:
        """Return the day of every visit."""
        keys = self.keys
        return {i: keys[k][0] for i, (k, _) in self._where(shifts).items()}

    def _pair(self, shifts: list[RoughDay]) -> tuple[int, int]:
        """Return two trucks of one day."""
        one = int(self.rng.random() * len(shifts))
        mine = self._by_day[self.keys[one][0]]
        return one, mine[int(self.rng.random() * len(mine))]

    def _round(self, shifts: list[RoughDay], most: float) -> list[RoughDay] | None:
        """Return days shared out another way, or None once they cost ``most`` or more."""
        dice = self.rng.random()
        if dice < self.swapped:
            shifts = self._swapped(shifts)
        changed = self.swapped <= dice < self.swapped + self.recrewed
        new = self._recrewed(shifts) if changed else list(shifts)
        out, _ = self._strings(shifts)
        if changed:
            there = self._days(new)
            out += [i for i in self._days(shifts) if i not in there and i not in out]
        order = list(dict.fromkeys(self.jobs[i].stop.yard for i in self._in_order(out)))
        if self.rng.random() < WHOLE:
            out = [i for yard in order for i in self.yards[yard][0]]
        where, gone = self._where(shifts), set(out)
        for k in {where[i][0] for i in out}:
            rest = new[k].without(gone)
            if rest is None:
                return None
            new[k] = rest
        days = self._days(shifts)
        left = most - super().total(new) - (self._beside(days, order) if self._varied else 0.0)
        for i in out:
            del days[i]
        later = fsum([self._least[i] for i in out])
        for yard in order:
            later -= fsum([self._least[i] for i in self.yards[yard][0] if i not in days])
            left = self._put_yard(new, yard, days, left - later) + later
            if left <= later:
                return None
        return new

    # Crews

    def _recrewed(self, shifts: list[RoughDay]) -> list[RoughDay]:
        """Send a truck out otherwise on one day; what it can no longer carry is left out."""
        dice = self.rng.random
        k = int(dice() * len(shifts))
        day, truck = self.keys[k]
        ways = self.ground.siblings[truck]
        hauler = ways[int(dice() * len(ways))]
        going = self.going_on[day](hauler)
        if going is shifts[k].going:
            return list(shifts)
        out = {j: self.hauler_of(j, shifts[j]) for j in self._by_day[day] if shifts[j].trips}
        if not self._people_do(day, {**out, k: hauler}):
            return list(shifts)
        new = list(shifts)
        new[k] = (built(going, shifts[k].trips) if shifts[k].trips else None) or going.empty()
        return new

    def hauler_of(self, k: int, shift: RoughDay) -> int:
        """Return how a truck goes out."""
        return self.ground.siblings[self.keys[k][1]][self.like[shift.going.hauler][1]]

    def _people_do(self, day: int, haulers: Mapping[int, int]) -> bool:
        """Tell whether there are people and trailers for trucks that go out on a day."""
        going = [(self.keys[k][1], self.ground.haulers[hauler]) for k, hauler in haulers.items()]
        trailers = [one.trailer for _, one in going if one.trailer]
        if len(set(trailers)) < len(trailers) or any(day in t.out_days for t in trailers):
            return False
        needs = sorted(Need(truck, one.crew, True, True) for truck, one in going)
        return self.roster.crews(day, tuple(needs)) is not None

    def changed(self, state: State, shifts: list[RoughDay]) -> dict[Key, Day | None]:
        """Return the trucks' days that are not as in a state."""
        news: dict[Key, Day | None] = {}
        for k, (key, shift) in enumerate(zip(self.keys, shifts, strict=True)):
            old, day = state.days.get(key), self.day_of(k, shift)
            if day != (old.day if old is not None else None):
                news[key] = day
        return news

    def day_of(self, k: int, shift: RoughDay) -> Day | None:
        """Return what a truck does on a day; None where it stays at home."""
        day = self.keys[k][0]
        trips = self._trips(day, shift.trips)
        return Day(day, self.hauler_of(k, shift), trips) if trips else None

    def _trips(self, day: int, orders: tuple[tuple[int, ...], ...]) -> tuple[tuple[Stop, ...], ...]:
        return tuple(
            tuple(moved_to(self.stops[i], self.jobs[i].day, day) for i in trip) for trip in orders
        )

    # Putting back

    def _put_yard(
        self, shifts: list[RoughDay], yard: int, days: Mapping[int, int], most: float
    ) -> float:
        """Put a yard's visits where they cost least together; return what is left of ``most``.

        That is 0 where nothing is, or where they do not go in.
        """
        numbers, choices = self.yards[yard]
        dice, varied = self.rng.random, yard in self._varied
        skipped = int(dice() * len(shifts)) if dice() < self.blink else -1
        known: list[dict[int, float]] = [{} for _ in numbers]
        floor = fsum([self._least[i] for i in numbers if i not in days])
        best, chosen = min(FAR, most), None
        for choice in choices:
            cost = floor + choice.cost if varied else floor
            for at, day in enumerate(choice.days):
                extra = known[at].get(day)
                if extra is None:
                    extra = known[at][day] = self._extra(shifts, numbers[at], day, skipped, days)
                cost += extra
                if cost >= best:
                    break
            else:
                best, chosen = cost, choice
        if chosen is None:
            return 0.0
        left = most - (chosen.cost if varied else 0.0)
        for i, day in zip(numbers, chosen.days, strict=True):
            if i not in days:
                left -= self._put_on(shifts, i, day)
        return left

    def _extra(
        self, shifts: list[RoughDay], i: int, day: int, skipped: int, days: Mapping[int, int]
    ) -> float:
        """Return what a visit adds to a day beyond what it costs anywhere.

        One that was not taken out stays where it is.
        """
        if i in days:
            return 0.0 if day == days[i] else FAR
        return self._best(shifts, i, day, skipped)[0] - self._least[i]

    def _best(self, shifts: list[RoughDay], i: int, day: int, skipped: int) -> tuple[float, int]:
        """Return what a visit adds to a day at least, and to which truck's."""
        least, at = FAR, -1
        for k in self._by_day.get(day, ()):
            shift = shifts[k]
            extra = (shift.memo.get(i) or shift.guess(i))[0]
            if extra < least and k != skipped:
                least, at = extra, k
        return least, at

    def _put_on(self, shifts: list[RoughDay], i: int, day: int) -> float:
        """Put a visit on a day; return what that adds, ``FAR`` where it does not go in."""
        while True:
            _, at = self._best(shifts, i, day, -1)
            if at < 0:
                return FAR
            before = shifts[at]
            new = before.joined(i)
            if new is not None:
                shifts[at] = new
                return new.cost - before.cost
