"""Syrup mixed before it is loaded: as late as it may be, never on the day it is loaded."""

from collections.abc import Callable, Sequence

from runplanner.days import DAY_MIN, Span
from runplanner.outfit.outfit import Outfit
from runplanner.season.standing.base_days import BaseDays, Calls, People
from runplanner.season.standing.base_work import BaseWork, Mix
from runplanner.season.standing.halves import Halves
from runplanner.season.standing.memory import forget
from runplanner.season.standing.stores import lacking
from runplanner.trips.ground import Ground


class Mixing:
    """Has syrup mixed, by whoever is off the trucks and has not spun in that half-day.

    Args:
        ground: The campaign.
        past: What has been mixed and spun.
        ready_ml: Tells the syrup that stands ready, by what comes back.
    """

    def __init__(
        self, ground: Ground, past: BaseWork, ready_ml: Callable[[Sequence[tuple[int, int]]], int]
    ) -> None:
        self._outfit = ground.outfit
        self._ready_ml = ready_ml
        self._from_min, self._now_min = ground.earliest_min, ground.now_min
        self._past = past.mixing
        self._begun = [(mix.end_min, mix.ml) for mix in past.mixing]
        people = ground.outfit.people
        mixers = (i for i, person in enumerate(people) if person.mixes)
        self._by_mixing = sorted(mixers, key=lambda i: (people[i].spins, i))
        self._hours = mixing_hours(ground.outfit)
        self._halves = Halves(ground.outfit.hours)
        self._has_spun = self._halves.who_spins(past.spinning)
        self._mixed: dict[tuple[int, int, People], list[Mix]] = {}

    def __call__(self, days: BaseDays, calls: Calls) -> tuple[Mix, ...] | None:
        """Return all mixing, what has been done first, or None where it cannot keep up."""
        wanted = self._wanted(calls)
        if not any(wanted):
            return self._past
        if self._outfit.feed.bought:
            return None
        mixing: list[Mix] = []
        owed = 0
        for day in range(len(wanted) - 1, -2, -1):
            done = self._mixed_on(days, day, owed) if owed else []
            mixing += done
            owed -= sum(mix.ml for mix in done)
            owed += wanted[day] if day >= 0 else 0
        return (*self._past, *sorted(mixing)) if owed == 0 else None

    def _wanted(self, calls: Calls) -> list[int]:
        """Return the ml to be mixed before each day; syrup that stands ready goes first.

        What is being mixed is ready once that is done.
        """
        wanted = [0] * (self._outfit.season.n_days)
        mixed = (*self._begun, *calls.back)
        ready_ml = self._ready_ml(calls.back)
        for minute, ml in lacking(calls.loads, ready_ml, mixed, self._now_min):
            wanted[minute // DAY_MIN] += ml
        return wanted

    def _mixed_on(self, days: BaseDays, day: int, owed: int) -> list[Mix]:
        """Return the mixing of a day, from memory where the same was asked before."""
        asked = (day, owed, days.people(day))
        done = self._mixed.get(asked)
        if done is None:
            forget(self._mixed)
            done = self._mixed[asked] = self._mix_day(days, day, owed)
        days.mixed[day] = done
        return done

    def _mix_day(self, days: BaseDays, day: int, owed: int) -> list[Mix]:
        mixed = sum(mix.ml for mix in self._past if mix.start_min // DAY_MIN == day)
        left = min(owed, max(0, self._outfit.feed.mix_ml_per_day - mixed))
        rate = self._outfit.feed.mix_ml_per_h
        done: list[Mix] = []
        here = days.on(day).copy()
        for half in (1, 0):
            now, end = self._halves.parted(day, self._hours)[half]
            now = max(now, self._from_min)
            if now >= end:
                continue
            for person in self._mixers(days.free(day)[half]) if left else ():
                if (self._halves.of(now), person) in self._has_spun:
                    continue
                for start, stop in here.hours(person, now, end):
                    ml = min(left, rate * (stop - start) // 60)
                    if ml > 0:
                        mix = Mix(start, start - (-ml * 60 // rate), person, ml)
                        here.works(person, mix.start_min, mix.end_min)
                        done.append(mix)
                        left -= ml
        return done

    def _mixers(self, free: tuple[int, ...]) -> list[int]:
        return [i for i in self._by_mixing if i in free]


def mixing_hours(outfit: Outfit) -> Span:
    """Return the minutes of a day in which syrup is mixed, at the feed store.

    Those are the honey house's hours as far as the store is open in them, else all that it is.
    """
    house, store = outfit.honey_house, outfit.feed_store
    hours = Span(
        max(house.spin_from_min, store.opens_min), min(house.spin_to_min, store.closes_min)
    )
    return hours if hours.start_min < hours.end_min else Span(store.opens_min, store.closes_min)
