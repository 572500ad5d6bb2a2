"""Where can one more stop go?  Every place in every day, cheapest guess tried first."""

import random
from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from runplanner.days import DAY_MIN
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.trips.day import Day, Key, with_trip
from runplanner.trips.ground import Ground
from runplanner.trips.judged import boards_moved, feeders_moved
from runplanner.visits.stop import Stop, first_at_last_yard, merged, unkept

TRIES_AFTER_FIRST = 3
SHARES = (1.0, 0.75, 0.5, 0.34, 0.2)
"""Lots tried: shares of the colonies left, or of a full load where that is less than a fifth."""


class Spot(NamedTuple):
    """A place for a stop: guess of its cost, the truck's day, and where in it."""

    guess: float
    key: Key
    day: Day


class Inserter:
    """Finds spots for stops."""

    def __init__(self, keeper: Keeper, rng: random.Random) -> None:
        self.keeper = keeper
        self.ground: Ground = keeper.ground
        self.rng = rng
        self.noise = 0.0
        self.eager = False
        self._legs: dict[tuple[int, int, int], float] = {}
        self._fits: dict[Stop, bool] = {}

    def place(self, state: State, stop: Stop, days: Iterable[int]) -> State | None:
        """Return the cheapest state found with ``stop`` on one of ``days``, or None.

        Trucks keep their crew and trailer where the stop fits so; only else are others tried.
        Who is ``eager`` takes the first day on which there is any place.
        """
        first = self.ground.now_min // 1440
        days = self.keeper.holding.days_for(state.days, stop, (day for day in days if day >= first))
        each = ((day,) for day in days) if self.eager else (days,)
        found = (self._placed(state, stop, some) for some in each)
        return next((new for new in found if new is not None), None)

    def _placed(self, state: State, stop: Stop, days: tuple[int, ...]) -> State | None:
        for spots in (self._spots, self._changed, self._waiting):
            best = self._best(state, self._steered(state, stop, spots(state, stop, days)))
            if best is not None:
                return best
        return None

    def fits(self, stop: Stop) -> bool:
        """Tell whether a stop fits a day of some truck on which nothing else is done."""
        if stop not in self._fits:
            days = range(self.ground.now_min // DAY_MIN, self.ground.outfit.season.n_days)
            self._fits[stop] = any(self._fits_on(stop, day) for day in days)
        return self._fits[stop]

    def _fits_on(self, stop: Stop, day: int) -> bool:
        ground = self.ground
        if not ground.stop_spans(stop, day):
            return False
        return any(
            self.keeper.judge(Day(day, hauler, ((stop,),))) is not None
            for hauler in range(len(ground.haulers))
            if ground.load_into[hauler][stop.yard] >= 0
            and day not in ground.outfit.trucks[ground.truck_index[hauler]].out_days
        )

    def most(self, of: Callable[[int], Stop], least: int, below: int) -> int:
        """Return the most colonies, fewer than ``below``, of whom one stop fits; 0 for none.

        ``of`` makes the stop for so many; fewer than ``least`` are none.
        """
        if below <= least or not self.fits(of(least)):
            return 0
        if self.fits(of(below - 1)):
            return below - 1
        return bisect_left(range(below), True, least + 1, key=lambda n: not self.fits(of(n))) - 1

    def lots(self, of: Callable[[int], Stop], left: int, colonies: int) -> list[int]:
        """Return of how many colonies, all that are ``left`` or fewer, to try to make a stop.

        Where one load is less than the least share of a yard, they are shares of a load.
        """
        least = min(self.ground.outfit.rules.smallest_lot, left)
        whole = left
        fifth = min(left, max(least, int(colonies * SHARES[-1])))
        if not self.fits(of(fifth)):
            whole = self.most(of, least, fifth)
        counts = (max(least, int(whole * share)) for share in SHARES) if whole else ()
        kept = (left - least if 0 < left - count < least else count for count in counts)
        return [count for count in kept if count > 0]

    def _steered(self, state: State, stop: Stop, spots: Iterable[Spot]) -> Iterator[Spot]:
        """Yield spots with what promises kept or broken there cost in their guesses."""
        standing = self.keeper.standing
        if not (standing.move_cents or standing.shift_cents):
            yield from spots
            return
        before: dict[Key, int] = {}
        for spot in spots:
            if spot.key not in before:
                there = state.days.get(spot.key)
                before[spot.key] = self._broken(spot.key, there and there.day, stop.yard)
            more = self._broken(spot.key, spot.day, stop.yard) - before[spot.key]
            yield spot._replace(guess=spot.guess + 1000 * more)

    def _broken(self, key: Key, day: Day | None, yard: int) -> int:
        """Return the cents of what a truck's day breaks of its promises, visits of one yard."""
        standing = self.keeper.standing
        promised = standing.shifts.get(key)
        if promised is None or day == promised[0]:
            return 0
        stops = [stop for trip in day.trips for stop in trip if stop.yard == yard] if day else []
        broken = unkept(standing.promised[yard].get(key, ()), stops)
        return standing.shift_cents + standing.move_cents * broken

    def _best(self, state: State, spots: Iterable[Spot]) -> State | None:
        best: State | None = None
        tries = 0
        for spot in sorted(spots):
            if best is not None:
                tries += 1
                added = best.score.milli_cents - state.score.milli_cents
                if tries > TRIES_AFTER_FIRST or spot.guess > added:
                    break
            new = self.keeper.replace(state, spot.key, spot.day)
            if new is not None and (best is None or new.score < best.score):
                best = new
        return best

    def _spots(self, state: State, stop: Stop, days: Iterable[int]) -> Iterator[Spot]:
        for day in days:
            for today in self._times(stop, day):
                yield from self._with_any(state, today, day)

    def _waiting(self, state: State, stop: Stop, days: Iterable[int]) -> Iterator[Spot]:
        """Yield spots that wait for scarce boards or feeders that come home that day."""
        for day in days:
            for today in self._once_home(state, stop.on(day), day):
                yield from self._with_any(state, today, day)

    def _with_any(self, state: State, today: Stop, day: int) -> Iterator[Spot]:
        trucks = self.ground.outfit.trucks
        for truck in range(len(trucks)):
            if day in trucks[truck].out_days:
                continue
            judged = state.days.get((day, truck))
            if (day, truck) in self.keeper.standing.driven:
                continue
            if judged is None:
                yield from self._new_days(today, day, truck)
            else:
                yield from self._in_day(today, judged.day, truck)

    def _times(self, stop: Stop, day: int) -> Iterator[Stop]:
        """Yield the stop as soon as may be that day and, where that is paid for, late in it."""
        today = stop.on(day)
        if self.ground.stop_spans(today, day):
            yield today
        late_min = day * DAY_MIN + self.ground.outfit.rules.feed_late_from_min
        if stop.fed and self.ground.outfit.prices.feed_early_cents and today.from_min < late_min:
            late = today._replace(from_min=late_min)
            if self.ground.stop_spans(late, day):
                yield late

    def _once_home(self, state: State, stop: Stop, day: int) -> Iterator[Stop]:
        """Yield the stop so late that it is loaded for once kit that it wants has come home."""
        used = self.ground.task(stop).used
        kit = zip(
            self.ground.kit_scarce,
            (used.boards, used.feeders),
            (boards_moved, feeders_moved),
            strict=True,
        )
        moved = [moves for scarce, number, moves in kit if scarce and number]
        today = [judged for (on, _), judged in state.days.items() if moved and on == day]
        moves = (move for judged in today for of in moved for move in of(judged).moves)
        for home_min in sorted({minute for minute, change in moves if change > 0}):
            late = stop._replace(from_min=max(stop.from_min, self._there_min(stop, day, home_min)))
            if self.ground.stop_spans(late, day):
                yield late

    def _there_min(self, stop: Stop, day: int, load_min: int) -> int:
        """Return when the slowest truck is at a stop, alone on its trip, that loads from then."""
        ground, pace = self.ground, self.ground.outfit.pace
        store, here = ground.outfit.feed_store.place, ground.place(stop.yard, day)
        legs = (ground.leg_min(hauler, store, here) for hauler in range(len(ground.haulers)))
        leg = max((minutes for minutes in legs if minutes is not None), default=0)
        leave = load_min + pace.load_min - (-ground.task(stop).used.ml // pace.pump_ml_per_min)
        return leave + (ground.rush(leg, leave) if ground.rush else leg)

    def _changed(self, state: State, stop: Stop, days: Iterable[int]) -> Iterator[Spot]:
        """Yield spots in days that go out with another crew or trailer than they have."""
        for day in days:
            today = stop.on(day)
            if not self.ground.stop_spans(today, day):
                continue
            for truck in range(len(self.ground.outfit.trucks)):
                judged = state.days.get((day, truck))
                if judged is None or (day, truck) in self.keeper.standing.driven:
                    continue
                for hauler in self.ground.siblings[truck]:
                    if hauler != judged.day.hauler:
                        yield from self._in_day(today, judged.day._replace(hauler=hauler), truck)

    def _noisy(self, guess: float) -> float:
        return guess * (1 + self.noise * self.rng.random()) if self.noise else guess

    def _new_days(self, stop: Stop, day: int, truck: int) -> Iterator[Spot]:
        cost = self.ground.haulers
        for hauler in self.ground.siblings[truck]:
            if self.ground.load_into[hauler][stop.yard] < 0:
                continue
            new = Day(day, hauler, ((stop,),))
            guess = self._trip_guess(stop, day, hauler) + cost[hauler].truck.day_cents
            guess = 1000 * guess + self._doubt(stop, day)
            yield Spot(self._noisy(guess), (day, truck), new)

    def _trip_guess(self, stop: Stop, day: int, hauler: int) -> float:
        outfit, place = self.ground.outfit, self.ground.place(stop.yard, day)
        store = outfit.feed_store.place
        end = outfit.honey_house.base.place if stop.boxes else store
        pace = outfit.pace
        drive = self._leg(hauler, store, place) + self._leg(hauler, place, end)
        fixed = (
            pace.load_min
            + pace.unload_min
            + self.ground.stop_min(stop, self.ground.haulers[hauler].crew)
        )
        return drive + fixed * self._minute(hauler)

    def _doubt(self, stop: Stop, day: int) -> int:
        """Return what the chance that weather spoils a stop costs, in milli-cents."""
        outfit = self.ground.outfit
        doubt = outfit.yards[stop.yard].doubt_permille(day)
        return max(stop.off, stop.fed) * doubt * outfit.prices.unsure_cents

    def _minute(self, hauler: int) -> float:
        return self.ground.haulers[hauler].crew * self.ground.outfit.prices.hour_cents / 60

    def _leg(self, hauler: int, a: int, b: int) -> float:
        """Return a leg's cost in cents: road and crew."""
        key = (hauler, a, b)
        if key not in self._legs:
            minutes = self.ground.leg_min(hauler, a, b)
            metres = self.ground.outfit.travel.metres[a][b]
            if minutes is None or metres is None:
                return 1e9
            road = metres * self.ground.haulers[hauler].km_cents / 1000
            self._legs[key] = road + minutes * self._minute(hauler)
        return self._legs[key]

    def _in_day(self, stop: Stop, day: Day, truck: int) -> Iterator[Spot]:
        key = (day.day, truck)
        hauler = day.hauler
        if self.ground.load_into[hauler][stop.yard] < 0:
            return
        stop_cents = self.ground.stop_min(stop, self.ground.haulers[hauler].crew) * self._minute(
            hauler
        )
        doubt = self._doubt(stop, day.day)
        for index, trip in enumerate(day.trips):
            for at, other in enumerate(trip):
                if other.yard == stop.yard:
                    both = merged(other, stop, self.keeper.chains.to_feed(stop.yard))
                    if both is not None:
                        joined = (*trip[:at], both, *trip[at + 1 :])
                        yield Spot(0.0, key, with_trip(day, index, joined))
            for at, extra in self._gaps(day, index, stop):
                longer = with_trip(day, index, (*trip[:at], stop, *trip[at:]))
                yield Spot(self._noisy(1000 * (extra + stop_cents) + doubt), key, longer)
        alone = self._trip_guess(stop, day.day, hauler)
        for index in range(len(day.trips) + 1):
            trips = (*day.trips[:index], (stop,), *day.trips[index:])
            yield Spot(self._noisy(1000 * alone + doubt), key, day._replace(trips=trips))

    def _gaps(self, day: Day, index: int, stop: Stop) -> Iterator[tuple[int, float]]:
        """Yield ``(position, extra road cost)`` of a stop in one trip."""
        outfit, ground = self.ground.outfit, self.ground
        trip, hauler = day.trips[index], day.hauler
        honey = any(other.boxes for other in trip)
        store = outfit.feed_store.place
        end = outfit.honey_house.base.place if honey else store
        places = [store, *(ground.place(other.yard, day.day) for other in trip), end]
        here = ground.place(stop.yard, day.day)
        first, last = 0, len(trip)
        end, same = first_at_last_yard([other.yard for other in trip]), trip[-1].yard == stop.yard
        if ground.last_only[stop.yard]:
            first = end if same else last
        if ground.last_only[trip[-1].yard] and not same:
            last = end
        for at in range(first, last + 1):
            a, b = places[at], places[at + 1]
            extra = (
                self._leg(hauler, a, here) + self._leg(hauler, here, b) - self._leg(hauler, a, b)
            )
            yield at, extra
