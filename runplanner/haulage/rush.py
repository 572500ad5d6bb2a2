"""How long a drive takes that is begun at some minute, where roads are slower at some hours.

Within each hour of the day the truck gets on at that hour's pace; so whoever leaves later
never arrives sooner, whatever the hours' factors are.
"""

from collections.abc import Sequence
from math import lcm
from typing import Final

_HOUR_MIN: Final = 60
_DAY_MIN: Final = 1440


class Rush:
    """Drives by the minute they are begun at.

    Args:
        by_hour: Factor on a drive's minutes for each hour of the day, per mille.
    """

    __slots__ = ("_known", "_paces", "_unit")

    def __init__(self, by_hour: Sequence[int]) -> None:
        whole = lcm(*by_hour)
        self._unit = whole
        # What one minute of each hour gets done, in thousandths of such a unit.
        self._paces = tuple(1000 * whole // factor for factor in by_hour)
        self._known: dict[tuple[int, int], int] = {}

    def __call__(self, plain_min: int, start_min: int) -> int:
        """Return the minutes a drive of ``plain_min`` takes, rounded up at its end only."""
        key = plain_min, start_min % _DAY_MIN
        found = self._known.get(key)
        if found is None:
            found = self._known[key] = self._driven(*key)
        return found

    def _driven(self, plain_min: int, start_min: int) -> int:
        left, now = plain_min * self._unit, start_min
        while left > 0:
            pace = self._paces[now // _HOUR_MIN % 24]
            minutes = min(_HOUR_MIN - now % _HOUR_MIN, -(-left // pace))
            left -= minutes * pace
            now += minutes
        return now - start_min
