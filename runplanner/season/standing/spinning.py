"""Honey spun after it is brought: first in, first spun, by whoever is left.

Those who stand there stay for the half-day, then come those it was promised for, and those who
stood there in the morning go last in the afternoon.
"""

from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from typing import NamedTuple

from runplanner.days import DAY_MIN, Span, without
from runplanner.season.standing.base_days import BaseDays
from runplanner.season.standing.base_work import Mix
from runplanner.season.standing.duty import PeoplesDay
from runplanner.season.standing.floor import NO_HARM, Floor, Harm, Honey, Spin
from runplanner.season.standing.halves import Half, Halves
from runplanner.season.standing.memory import forget
from runplanner.season.standing.tempo import Team, Tempo
from runplanner.trips.ground import Ground

AFTER_DAYS = 60


class Spun(NamedTuple):
    """What one way to choose teams comes to; ``late`` is in milli-cents."""

    spinning: tuple[Spin, ...]
    late: int
    harm: Harm


class Spinning:
    """Has honey spun, by teams as large as it takes.

    Args:
        ground: The campaign.
        past: Spinning that has been done or has begun.
        promised: Spinning still to come as people were told it: of equal teams theirs goes first.
    """

    def __init__(self, ground: Ground, past: Sequence[Spin], promised: Sequence[Spin]) -> None:
        self._outfit = ground.outfit
        self._past = past
        self._from_min = ground.earliest_min
        self._spin_from_min = max([0, self._from_min, *(spin.end_min for spin in past)])
        self._halves = Halves(ground.outfit.hours)
        self._hours = cache(self._hours_of)
        days = ground.outfit.season.n_days + AFTER_DAYS
        self._tempo = Tempo(ground.outfit, self._hours, days)
        self._spun_days: dict[object, tuple[Spin, ...]] = {}
        self._promised = self._halves.who_spins(promised)
        rates = ground.outfit.honey_house.boxes_per_h
        spinners = (i for i, person in enumerate(ground.outfit.people) if person.spins)
        self._spinners = frozenset(spinners if any(rates) else ())

    def __call__(self, days: BaseDays, honey: Honey, mixing: Sequence[Mix]) -> Spun | None:
        """Return the cheapest spinning by the best team, by such as keep up, or by the largest.

        The best team costs least a box, and larger ones more and more, so where nothing is
        late no larger one is tried.  Boxes whose truck has left home come in whatever is
        planned: the less they are harmed the better, at any cost.
        """
        best: Spun | None = None
        mixed: dict[int, tuple[Mix, ...]] = {}
        for mix in mixing:
            day = mix.start_min // DAY_MIN
            mixed[day] = (*mixed.get(day, ()), mix)
        for team in self._teams(honey):
            one = self._spin(days, honey, mixed, team)
            if one is not None and (best is None or self._rank(one) < self._rank(best)):
                best = one
            if best is not None and best.late == 0 and best.harm == NO_HARM:
                break
        return best

    def cost(self, spun: Spun) -> int:
        """Return what spinning costs, lateness with it, in milli-cents."""
        minutes = sum((spin.end_min - spin.start_min) * len(spin.people) for spin in spun.spinning)
        return minutes * self._outfit.prices.hour_cents * 1000 // 60 + spun.late

    def _rank(self, spun: Spun) -> tuple[Harm, int]:
        return spun.harm, self.cost(spun)

    def _teams(self, honey: Honey) -> Iterator[Team]:
        """Yield ways to choose how many spin on a day, from the cheapest a box on."""
        most, best = len(self._outfit.honey_house.boxes_per_h) - 1, self._tempo.cheapest
        yield lambda _floor, _day: best
        if best < most:
            if most - best > 1:
                yield self._tempo.keeping_up(honey)
            yield lambda _floor, _day: most

    def _hours_of(self, day: int) -> tuple[tuple[int, int, int], ...]:
        """Return ``(half, start, end)`` of the hours in which the plant can run on a day."""
        house = self._outfit.honey_house
        halves = self._halves.parted(day, Span(house.spin_from_min, house.spin_to_min))
        return tuple(
            (half, span.start_min, span.end_min)
            for half, hours in enumerate(halves)
            for span in without((hours,), house.stopped)
        )

    def _spin(
        self,
        days: BaseDays,
        honey: Honey,
        mixed: Mapping[int, tuple[Mix, ...]],
        team: Team,
    ) -> Spun | None:
        floor = Floor(self._outfit, honey, self._past)
        if not (floor.empty() or self._spinners):
            return None
        day = max(0, self._from_min // DAY_MIN)
        while not floor.empty():
            floor.take_in(day * DAY_MIN)
            day = max(day, floor.from_min() // DAY_MIN)
            if day >= self._outfit.season.n_days + AFTER_DAYS:
                break
            mixing, most = mixed.get(day, ()), team(floor, day)
            coming = floor.coming((day + 1) * DAY_MIN)
            asked = (day, most, coming, days.people(day), mixing)
            known = self._spun_days.get(asked)
            if known is None:
                forget(self._spun_days)
                before = len(floor.spins)
                self._spin_day(days, floor, day, mixing, most)
                self._spun_days[asked] = tuple(floor.spins[before:])
            else:
                floor.repeat(known)
            day += 1
        if not floor.empty() or not floor.fits():
            return None
        late = floor.late_milli_cents()
        return None if late is None else Spun(tuple(floor.spins), late, floor.harm())

    def _spin_day(
        self, days: BaseDays, floor: Floor, day: int, mixing: Sequence[Mix], most: int
    ) -> None:
        """Spin on one day: it hangs on what waits, what comes in and who is out or mixes."""
        busy = {(self._halves.of(mix.start_min), mix.person) for mix in mixing}
        here: PeoplesDay | None = None
        for half, start, end in self._hours(day):
            if not floor.wants(end):
                continue
            here = days.on(day).copy() if here is None else here
            begin, now = max(start, self._spin_from_min), (day, half == 1)
            there, stood = self._stood(floor.spins, now)
            team = [
                i
                for i in days.free(day)[half]
                if i in self._spinners
                and (self._halves.of(start), i) not in busy
                and (i in there or here.again(i, begin, end) is not None)
            ]
            if len(team) > most:
                told = [i for i in team if (now, i) in self._promised]
                team.sort(key=lambda i: (i not in there, i not in told, i in stood, i))
            floor.run(begin, end, tuple(sorted(team[:most])), here)

    def _stood(self, spins: Sequence[Spin], now: Half) -> tuple[set[int], set[int]]:
        """Return who spins in this half-day already, and who has in the day's other one."""
        halves: tuple[set[int], set[int]] = (set(), set())
        for spin in reversed(spins):
            half = self._halves.of(spin.start_min)
            if half[0] < now[0]:
                break
            halves[half != now].update(spin.people)
        return halves
