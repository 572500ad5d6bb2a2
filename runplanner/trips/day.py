"""A truck's day as the planner writes it: a hauler and the trips it makes."""

from typing import NamedTuple

from runplanner.visits.stop import Stop

Key = tuple[int, int]
"""Which truck's day: the day, and the truck by its index."""
Trip = tuple[Stop, ...]


class Day(NamedTuple):
    """One truck's day: which hauler goes out and the trips it makes, in order."""

    day: int
    hauler: int
    trips: tuple[Trip, ...]


def with_stop(day: Day, trip: int, at: int, stop: Stop | None) -> Day:
    """Return a day with another stop in place of number ``at`` of a trip, or none."""
    stops = day.trips[trip]
    changed = (*stops[:at], *(() if stop is None else (stop,)), *stops[at + 1 :])
    trips = (*day.trips[:trip], changed, *day.trips[trip + 1 :])
    return day._replace(trips=tuple(filter(None, trips)))
