"""Drives at slow hours, minute by minute: the plain reading of the factors by hour."""

from fractions import Fraction
from functools import lru_cache

from runplanner.days import DAY_MIN


@lru_cache(maxsize=100_000)
def slowed_min(plain_min: int, start_min: int, by_hour: tuple[int, ...]) -> int:
    """Return the whole minutes until a drive of ``plain_min`` is done.

    Each minute does 1000 / factor minutes of the drive, by the factor of the hour it lies in;
    whole days, which are all alike, are gone through at once.
    """
    a_day = sum(Fraction(60_000, factor) for factor in by_hour)
    days = max(0, plain_min // a_day)
    done, minute = days * a_day, start_min + days * DAY_MIN
    while done < plain_min:
        done += Fraction(1000, by_hour[minute // 60 % 24])
        minute += 1
    return minute - start_min
