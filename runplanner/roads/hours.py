"""Driving times by the hour of the day, as factors on the times of an empty road.

The travel table holds the times of the best hour; how much longer the others take stands
beside it, and planner and audit go by it minute by minute.
"""

from collections.abc import Mapping
from fractions import Fraction
from math import ceil

PLAIN_PERMILLE = 1000


def by_hour(factors: Mapping[int, int]) -> tuple[int, ...]:
    """Return each hour's factor on the times of the best one; none where all are alike.

    ``factors`` are per mille by hour, 0 to 23; an hour that is missing is driven as it is.
    Those returned are rounded down: at 70 % by night 20 min are 14, and 20 again by day, where
    a thousandth too much would make it 21.
    """
    found = _of_all(factors)
    return tuple(_from(min(found), each) for each in found) if len(set(found)) > 1 else ()


def at_best(minutes: Fraction | int, factors: Mapping[int, int]) -> int:
    """Return a drive of an hour at 100 % as it is in the best hour, in whole minutes.

    In an hour at 100 % it then takes the minutes told, rounded up, or one more where nothing
    comes to just that; for it other hours may be short by part of what a minute is there.
    Where no hour is at 100 %, the best one's drive is rounded up.
    """
    found = _of_all(factors)
    if PLAIN_PERMILLE in found:
        return (ceil(minutes) - 1) * 1000 // _from(min(found), PLAIN_PERMILLE) + 1
    return ceil(Fraction(minutes * min(found), 1000))


def _of_all(factors: Mapping[int, int]) -> list[int]:
    return [factors.get(hour, PLAIN_PERMILLE) for hour in range(24)]


def _from(best: int, factor: int) -> int:
    return factor * 1000 // best
