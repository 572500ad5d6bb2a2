"""Driving times by the hour of the day, as factors on the times of an empty road.

The planner has one travel table.  Until it knows the hour it drives at, the worst factor of
the working day is taken, so that no drive takes longer than planned.
"""

from collections.abc import Mapping

PLAIN_PERMILLE = 1000


def worst_permille(factors: Mapping[int, int], from_min: int, to_min: int) -> int:
    """Return the largest factor of the hours that meet the working day.

    ``factors`` are per mille by hour, 0 to 23; an hour that is missing is driven as it is.
    """
    hours = range(from_min // 60, -(-to_min // 60))
    return max((factors.get(hour % 24, PLAIN_PERMILLE) for hour in hours), default=PLAIN_PERMILLE)


def slowed(minutes: int, permille: int) -> int:
    """Return a drive at that factor, rounded up."""
    return -(-minutes * permille // 1000)
