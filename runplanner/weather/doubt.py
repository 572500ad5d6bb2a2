"""How sure a forecast is of each day: the further ahead, the less.

A five-day forecast is right about 90 % of the time, a seven-day one 80 %, one of ten days or
more half the time (NOAA SciJinks, "How Reliable Are Weather Forecasts?",
scijinks.gov/forecast-reliability).  Between those days a straight line is drawn.  The nearest
days count as fully sure, so that a plan is not drawn into haste by a doubt too small to act
on; how many is the user's to say.
"""

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from runplanner.days import Span, day_of
from runplanner.phrase import Number
from runplanner.weather.hours import Forecast

SURE: Final = 1000
_PUBLISHED: Final = ((5, 900), (7, 800), (10, 500))
"""Days ahead, and right per mille of the time."""
NO_BETTER_THAN_CHANCE: Final = _PUBLISHED[-1][1]
"""For days that no forecast speaks of, and ten days ahead or more."""


def sure_permille(days_ahead: int, sure_days: int) -> int:
    """Return how sure a forecast is of a day so many days after it was made."""
    if days_ahead <= sure_days:
        return SURE
    line = [(sure_days, SURE), *(point for point in _PUBLISHED if point[0] > sure_days)]
    for (left, high), (right, low) in pairwise(line):
        if days_ahead <= right:
            return high - (high - low) * (days_ahead - left) // (right - left)
    return NO_BETTER_THAN_CHANCE


def percent(permille: int) -> Number:
    """Return how sure that is in per cent, a tenth only where it is not whole."""
    whole, tenth = divmod(permille, 10)
    return Number(f"{whole}.{tenth}" if tenth else str(whole))


def day_sureness(forecasts: Sequence[Forecast], n_days: int, sure_days: int) -> tuple[int, ...]:
    """Return how sure each day 0 .. n_days - 1 is, per mille, by the first that tells it.

    A day of which none tells anything is no better than chance, before they begin as well.
    """
    sure = [NO_BETTER_THAN_CHANCE] * n_days
    for forecast in reversed(forecasts):
        made = day_of(forecast.made_min)
        for hour in forecast.hours:
            for day in _days(Span(hour.start_min, hour.end_min)):
                if 0 <= day < n_days:
                    sure[day] = sure_permille(day - made, sure_days)
    return tuple(sure)


def _days(span: Span) -> range:
    return range(day_of(span.start_min), day_of(span.end_min - 1) + 1)


def typed_days_sure(sure: tuple[int, ...], typed: frozenset[int]) -> tuple[int, ...]:
    """Return ``sure`` with the days whose hours a person typed taken at their word."""
    return tuple(SURE if day in typed else value for day, value in enumerate(sure))
