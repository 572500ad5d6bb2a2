"""Drives at slow hours, minute by minute: the plain reading of the factors by hour."""

from fractions import Fraction
from functools import lru_cache


@lru_cache(maxsize=100_000)
def slowed_min(plain_min: int, start_min: int, by_hour: tuple[int, ...]) -> int:
    """Return the whole minutes until a drive of ``plain_min`` is done.

    Each minute does 1000 / factor minutes of the drive, by the factor of the hour it lies in.
    """
    done, minute = Fraction(0), start_min
    while done < plain_min:
        done += Fraction(1000, by_hour[minute // 60 % 24])
        minute += 1
    return minute - start_min
