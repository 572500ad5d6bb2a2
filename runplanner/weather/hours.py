"""One forecast on the campaign's clock, hour by hour."""

from collections.abc import Iterable
from dataclasses import dataclass

from runplanner.days import Span, day_of, join, meet, whole_day, without

HOUR_MIN = 60
AIRLESS_MIN = 5 * HOUR_MIN
"""So long a day may be silent and still have a low and a high: between temperatures six hours
apart, as forecasts further ahead tell them, a straight line does (guessed)."""


@dataclass(frozen=True, slots=True)
class Hour:
    """Weather in one hour; None where the forecast does not tell.

    Args:
        start_min: When it starts, in minutes of the campaign.
        temp_dc: Air temperature, tenths of a degree Celsius.
        rain_um: Rain and snow as water, thousandths of a millimetre, in ``rain_over_min``.
        rain_over_min: The stretch that the rain is told for: this hour, or several with it.
        wind_mms: Wind, millimetres a second, ten metres above ground.
        gust_mms: Gusts, likewise.
        thunder_permille: Chance of thunder.
    """

    start_min: int
    temp_dc: int | None = None
    rain_um: int | None = None
    rain_over_min: int = HOUR_MIN
    wind_mms: int | None = None
    gust_mms: int | None = None
    thunder_permille: int | None = None

    @property
    def end_min(self) -> int:
        """When it ends."""
        return self.start_min + HOUR_MIN


@dataclass(frozen=True, slots=True)
class Forecast:
    """A forecast for one place.

    Args:
        shape: What the file was, in words.
        made_min: When it was made, in minutes of the campaign; how far ahead counts from here.
        point: Latitude and longitude it is for, where it says so.
        hours: In order of time, each start once.
    """

    shape: str
    made_min: int
    point: tuple[float, float] | None
    hours: tuple[Hour, ...]

    def reach(self) -> Span:
        """Return from when to when it speaks."""
        return Span(self.hours[0].start_min, self.hours[-1].end_min)

    def covered(self) -> tuple[Span, ...]:
        """Return the stretches it has hours for."""
        return join(tuple(Span(hour.start_min, hour.end_min) for hour in self.hours))

    def gaps(self, skipped: tuple[Span, ...] = ()) -> tuple[Span, ...]:
        """Return the stretches missing inside it; hours ``skipped`` by the clocks are not."""
        return without((self.reach(),), (*self.covered(), *skipped))

    def silent(self, field: str) -> tuple[Hour, ...]:
        """Return the hours without a figure for ``field`` of :class:`Hour`."""
        return tuple(hour for hour in self.hours if getattr(hour, field) is None)

    def day_air(self, day: int, skipped: tuple[Span, ...] = ()) -> tuple[int, int] | None:
        """Return the lowest and highest temperature told of ``day``.

        None for a day that it does not reach whole, or of which it is silent for long: a
        half-known day has no low.
        """
        whole = (whole_day(day),)
        if without(whole, (self.reach(), *skipped)) or meet(whole, self._airless(skipped)):
            return None
        return self.told_air(day)

    def told_air(self, day: int) -> tuple[int, int] | None:
        """Return the lowest and highest temperature of what it tells of ``day``, if anything."""
        temps = [
            hour.temp_dc for hour in self.hours
            if hour.temp_dc is not None and day_of(hour.start_min) == day
        ]  # fmt: skip
        return (min(temps), max(temps)) if temps else None

    def airless_days(self, days: range, skipped: tuple[Span, ...] = ()) -> tuple[int, ...]:
        """Return those of ``days`` in which it is long silent about the temperature."""
        long = self._airless(skipped)
        return tuple(day for day in days if meet((whole_day(day),), long))

    def _airless(self, skipped: tuple[Span, ...]) -> tuple[Span, ...]:
        """Return the stretches inside it that are too long without a temperature."""
        told = (Span(one.start_min, one.end_min) for one in self.hours if one.temp_dc is not None)
        silent = without((self.reach(),), (*told, *skipped))
        return tuple(span for span in silent if span.end_min - span.start_min > AIRLESS_MIN)


def in_order(hours: Iterable[Hour]) -> tuple[Hour, ...]:
    """Return the hours by time; of two on the same hour of the wall, the worse in everything."""
    by_start: dict[int, Hour] = {}
    for hour in hours:
        known = by_start.get(hour.start_min)
        by_start[hour.start_min] = hour if known is None else _worse(known, hour)
    return tuple(by_start[start] for start in sorted(by_start))


def _worse(one: Hour, other: Hour) -> Hour:
    cold = None if None in (one.temp_dc, other.temp_dc) else min(_told(one.temp_dc, other.temp_dc))
    return Hour(
        start_min=one.start_min,
        temp_dc=cold,
        rain_um=_most(one.rain_um, other.rain_um),
        rain_over_min=max(one.rain_over_min, other.rain_over_min),
        wind_mms=_most(one.wind_mms, other.wind_mms),
        gust_mms=_most(one.gust_mms, other.gust_mms),
        thunder_permille=_most(one.thunder_permille, other.thunder_permille),
    )


def _told(*values: int | None) -> list[int]:
    return [value for value in values if value is not None]


def _most(one: int | None, other: int | None) -> int | None:
    return None if one is None or other is None else max(one, other)
