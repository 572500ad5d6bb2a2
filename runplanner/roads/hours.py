"""Driving times by the hour of the day, as factors on the times of an empty road.

The travel table holds the times of the best hour; how much longer the others take stands
beside it, and planner and audit go by it minute by minute.
"""

from collections.abc import Mapping

PLAIN_PERMILLE = 1000


def best_permille(factors: Mapping[int, int]) -> int:
    """Return the smallest factor of all hours.

    ``factors`` are per mille by hour, 0 to 23; an hour that is missing is driven as it is.
    """
    return min(factors.get(hour, PLAIN_PERMILLE) for hour in range(24))


def by_hour(factors: Mapping[int, int]) -> tuple[int, ...]:
    """Return each hour's factor on the times of the best one, up; none where all are alike."""
    best = best_permille(factors)
    found = [factors.get(hour, PLAIN_PERMILLE) for hour in range(24)]
    return tuple(-(-each * 1000 // best) for each in found) if len(set(found)) > 1 else ()


def slowed(minutes: int, permille: int) -> int:
    """Return a drive at that factor, rounded up."""
    return -(-minutes * permille // 1000)
