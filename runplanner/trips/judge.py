"""A truck's day judged: can it be driven, when is it where, and what does it cost?"""

from typing import Final

from runplanner.haulage.day_clock import Step
from runplanner.haulage.stow import Stowage
from runplanner.haulage.tanks import Counts
from runplanner.trips.clock import run_day
from runplanner.trips.day import Day, Trip
from runplanner.trips.ground import Ground
from runplanner.trips.judged import Judged, Route, boards_moved, in_halves, judged
from runplanner.trips.pack import Packed, fits, pack, stowage
from runplanner.trips.ride import LOAD, Ride, Way, laid_out, road
from runplanner.visits.stop import Stop, first_at_last_yard

__all__ = ["LOAD", "Judge", "Judged", "boards_moved", "in_halves"]

_MEMO_MAX: Final = 60_000


class Judge:
    """Judges days and remembers what it found."""

    def __init__(self, ground: Ground) -> None:
        self.ground = ground
        self._days: dict[Day, Judged | None] = {}
        self._rides: dict[tuple[Way, Trip], Ride | None] = {}
        self._packs: dict[tuple[int, Trip], Packed | None] = {}
        self._packs_of: dict[tuple[int, Trip, Counts], Packed | None] = {}

    def __call__(self, day: Day) -> Judged | None:
        """Return the judged day, or None when it cannot be driven."""
        if day in self._days:
            return self._days[day]
        if len(self._days) >= _MEMO_MAX:
            self._forget()
        verdict = self._days[day] = self._judge(day)
        return verdict

    def _forget(self) -> None:
        for memo in (self._days, self._rides, self._packs, self._packs_of):
            memo.clear()

    def steps(self, judged_day: Judged) -> tuple[list[Step], int]:
        """Return the steps of a judged day, anew, and its leg home in minutes."""
        route = self._route(judged_day.day)
        if route is None:
            raise ValueError("a judged day has a route")
        return list(route.steps), route.home_min

    def goods_min(self, stop: Stop) -> int:
        """Return the minute before which what a stop wants cannot be loaded.

        Goods stand at the store all day; only the bench has a judge that knows release times.
        """
        del stop
        return 0

    def carries(self, hauler: int, trip: Trip, tanks: Counts, way: Stowage | None = None) -> bool:
        """Tell whether a trip's load fits with just these containers, in a ``way`` told."""
        return fits(self.ground, hauler, trip, tanks, way)

    def stowage(self, hauler: int, trip: Trip, tanks: Counts) -> Stowage | None:
        """Return how truck and trailer share a trip's load; None where no trailer is pulled."""
        return stowage(self.ground, hauler, trip, tanks)

    def packed(self, hauler: int, trip: Trip, left: Counts) -> Packed | None:
        """Return how a trip's load rides where so many containers of each kind are left."""
        key = (hauler, trip, left)
        if key not in self._packs_of:
            self._packs_of[key] = pack(self.ground, hauler, trip, left)
        return self._packs_of[key]

    def _judge(self, day: Day) -> Judged | None:
        hours = self.ground.outfit.hours
        route = self._route(day)
        if route is None or route.driving_min > hours.driving_max_min:
            return None
        if route.busy_min > hours.longest_min:
            return None
        run = run_day(
            route.steps, route.home_min, day.day, hours, self.ground.earliest_min, self.ground.rush
        )
        return None if run is None else judged(self.ground, day, run, route)

    def _route(self, day: Day) -> Route | None:
        """Return the whole day's way, or None where a trip cannot be or there is no road."""
        way, rides = Way(day.day, day.hauler), []
        for trip in day.trips:
            ride = self._ride(way, trip)
            if ride is None:
                return None
            rides.append(ride)
        return self._joined(day.hauler, tuple(rides))

    def _ride(self, way: Way, trip: Trip) -> Ride | None:
        key = (way, trip)
        if key not in self._rides:
            packed = self._pack(way.hauler, trip)
            ride = None if packed is None else laid_out(self.ground, way, trip, packed)
            self._rides[key] = ride
        return self._rides[key]

    def _pack(self, hauler: int, trip: Trip) -> Packed | None:
        key = (hauler, trip)
        if key not in self._packs:
            yards = [stop.yard for stop in trip]
            early = any(self.ground.last_only[one] for one in yards[: first_at_last_yard(yards)])
            self._packs[key] = None if early else pack(self.ground, hauler, trip)
        return self._packs[key]

    def _joined(self, hauler: int, rides: tuple[Ride, ...]) -> Route | None:
        """Return trips one after another, from home to home."""
        home = self.ground.outfit.home.place
        here, driving, work, length = home, 0, 0, 0
        steps: list[Step] = []
        for ride in rides:
            leg, metres = road(self.ground, hauler, here, ride.stations[0][1])
            if leg is None or metres is None:
                return None
            steps += (Step(leg, *ride.steps[0][1:]), *ride.steps[1:])
            driving, length = driving + leg + ride.driving_min, length + metres + ride.metres
            work += ride.work_min
            here = ride.stations[-1][1]
        leg, metres = road(self.ground, hauler, here, home)
        if leg is None or metres is None:
            return None
        driving += leg
        return Route(rides, tuple(steps), leg, driving, driving + work, length + metres)
