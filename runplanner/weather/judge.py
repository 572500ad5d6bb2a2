"""Which hours a forecast shuts for one kind of work, and every reason why.

Silence is never fair weather: an hour missing inside the forecast is shut, and so is an hour
without temperature, rain or wind.  Gusts and the chance of thunder are missing from many
forecasts, or from their far end; an hour without them is judged without, and the caller says
so.
"""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from typing import Final

from runplanner.days import Span, without
from runplanner.outfit.shut import Cause, Why, Work
from runplanner.weather.hours import HOUR_MIN, Forecast, Hour

__all__ = [
    "Air", "Bounds", "Cause", "ShutHour", "Why", "Work", "beyond", "shut_hours", "syrup_shut",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Bounds:
    """The most that one kind of work bears.

    Args:
        rain_um: Rain in an hour, thousandths of a millimetre.
        wind_mms: Wind, millimetres a second.
        gust_mms: Gusts.
        thunder_permille: Chance of thunder.
        least_dc: Coldest air, tenths of a degree; None where the hour's own does not matter.
    """

    rain_um: int
    wind_mms: int
    gust_mms: int
    thunder_permille: int
    least_dc: int | None = None


@dataclass(frozen=True, slots=True)
class ShutHour:
    """A stretch of hours that weather shuts for one kind of work, for the same reasons.

    Args:
        yards: Ids of the yards it holds for.
        work: What may not be done.
        start_min: From when, in minutes of the campaign.
        end_min: To when.
        whys: Every reason.
    """

    yards: tuple[str, ...]
    work: Work
    start_min: int
    end_min: int
    whys: tuple[Why, ...]


_MAY_LACK: Final = frozenset({Cause.GUST, Cause.THUNDER})


def shut_hours(
    forecast: Forecast, work: Work, bounds: Bounds, skipped: tuple[Span, ...] = ()
) -> tuple[ShutHour, ...]:
    """Return each shut hour within reach of ``forecast``, in order, for no yard yet.

    ``skipped`` are stretches of the wall that never come: nothing is missing there.
    """
    found = [
        ShutHour((), work, hour.start_min, hour.end_min, whys)
        for hour in forecast.hours
        if (whys := tuple(_whys(hour, bounds)))
    ]
    found += [ShutHour((), work, *gap, (Why(Cause.MISSING, None),))
              for gap in forecast.gaps(skipped)]  # fmt: skip
    return tuple(sorted(found, key=lambda one: one.start_min))


def _whys(hour: Hour, bounds: Bounds) -> Iterator[Why]:
    limits = (
        (Cause.RAIN, hour.rain_um, bounds.rain_um),
        (Cause.WIND, hour.wind_mms, bounds.wind_mms),
        (Cause.GUST, hour.gust_mms, bounds.gust_mms),
        (Cause.THUNDER, hour.thunder_permille, bounds.thunder_permille),
    )
    for cause, amount, most in limits:
        if amount is None and cause in _MAY_LACK:
            continue
        if amount is None or amount > most:
            yield Why(cause, amount, hour.rain_over_min if cause is Cause.RAIN else HOUR_MIN)
    least = bounds.least_dc
    if least is not None and (hour.temp_dc is None or hour.temp_dc < least):
        yield Why(Cause.COLD, hour.temp_dc)


def beyond(
    reaches: tuple[Span, ...], work: Work, whole: Span, cause: Cause
) -> tuple[ShutHour, ...]:
    """Return the stretches of ``whole`` of which no forecast speaks, shut for that ``cause``."""
    why = (Why(cause, None),)
    return tuple(ShutHour((), work, *span, why) for span in without((whole,), reaches))


Air = dict[int, tuple[int, int]]
"""Lowest and highest temperature by day, tenths of a degree."""


def syrup_shut(
    air: Air, days: range, days_down: int, least_dc: int, airless: Collection[int] = ()
) -> tuple[ShutHour, ...]:
    """Return the days on which syrup would not be taken down, by the days after pouring.

    The mean of lowest and highest over the known days, from pouring until the feeder is
    empty, must reach ``least_dc``.  None of these days may be ``airless``: one that a forecast
    reaches without telling its temperature.
    """
    found = []
    for day in days:
        down = range(day, day + days_down)
        known = [air[later] for later in down if later in air]
        total = sum(low + high for low, high in known)
        if known and total < 2 * least_dc * len(known):
            why = Why(Cause.MEAN, total // (2 * len(known)), len(known) * 1440)
        elif any(later in airless for later in down):
            why = Why(Cause.COLD, None, days_down * 1440)
        else:
            continue
        found.append(ShutHour((), Work.FEED, day * 1440, (day + 1) * 1440, (why,)))
    return tuple(found)
