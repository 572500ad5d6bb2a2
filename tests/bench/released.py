"""Trips that may not be loaded before all their goods are at the depot."""

from runplanner.trips.day import Trip
from runplanner.trips.ground import Ground
from runplanner.trips.judge import Judge
from runplanner.trips.ride import Ride, Way
from runplanner.visits.stop import Stop


class Released(Judge):
    """A judge of days that also knows when each yard's goods are released."""

    def __init__(self, ground: Ground, released: list[int]) -> None:
        super().__init__(ground)
        self.released = released

    def goods_min(self, stop: Stop) -> int:
        """Return when a stop's goods are at the depot."""
        return self.released[stop.yard]

    def _ride(self, way: Way, trip: Trip) -> Ride | None:
        known = (way, trip) in self._rides
        ride = super()._ride(way, trip)
        if known or ride is None:
            return ride
        ready = max(self.released[stop.yard] for stop in trip)
        loading = ride.steps[0]._replace(end_from_min=ready)
        self._rides[way, trip] = ride._replace(steps=(loading, *ride.steps[1:]))
        return self._rides[way, trip]
