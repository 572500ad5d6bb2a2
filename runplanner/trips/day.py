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
