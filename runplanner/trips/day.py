"""A truck's day as the planner writes it: a hauler and the trips it makes."""

from collections.abc import Callable
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
    return with_trip(day, trip, changed)


def with_trip(day: Day, number: int, trip: Trip) -> Day:
    """Return a day with another trip in place of one, or none where it has no stops."""
    trips = (*day.trips[:number], trip, *day.trips[number + 1 :])
    return day._replace(trips=tuple(filter(None, trips)))


def sifted(day: Day, keep: Callable[[Stop], Stop | None]) -> Day:
    """Return a day with every stop put through ``keep``; trips of which nothing is kept go."""
    kept = (tuple(s for stop in trip if (s := keep(stop)) is not None) for trip in day.trips)
    return day._replace(trips=tuple(filter(None, kept)))


def thinned(day: Day, keep: Callable[[Stop], Stop]) -> Day:
    """Return a day with every stop put through ``keep``; stops and trips without work go."""
    return sifted(day, lambda stop: None if (new := keep(stop)).idle else new)
