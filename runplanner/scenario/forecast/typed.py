"""What was typed for a yard, as far as it overrides its forecast."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from runplanner.days import day_of
from runplanner.scenario.windows.typed_rows import air_of, fit_days
from runplanner.scenario.windows.weather_file import Window
from runplanner.weather.judge import Cause, ShutHour, Work


@dataclass(frozen=True, slots=True)
class Typed:
    """Rows typed for a yard.

    Args:
        fit: Days with a fit row, by work.
        air: Temperatures by day.
        days_down: Days until a full feeder is empty.
    """

    fit: tuple[tuple[Work, frozenset[int]], ...]
    air: tuple[tuple[int, tuple[int, int]], ...]
    days_down: int

    def days_fit(self, work: Work) -> frozenset[int]:
        """Return the days with a fit row for ``work``."""
        return dict(self.fit)[work]

    def overrules(self, hour: ShutHour) -> bool:
        """Tell whether a fit row was typed for the work and day of a shut hour."""
        return day_of(hour.start_min) in self.days_fit(hour.work)

    def lets(self, hour: ShutHour) -> ShutHour | None:
        """Return what is left of a shut hour, which lies in one day; None for nothing.

        Nothing is left on a day with a fit row; the hour's own cold does not count where a
        temperature was typed for the day.
        """
        if self.overrules(hour):
            return None
        if day_of(hour.start_min) not in dict(self.air):
            return hour
        whys = tuple(why for why in hour.whys if why.cause is not Cause.COLD)
        return replace(hour, whys=whys) if whys else None


def what_was_typed(mine: Sequence[Window], days_down: int) -> Typed:
    """Return what ``mine``, the rows of one yard, say."""
    fit = tuple((work, fit_days(mine, work)) for work in Work)
    return Typed(fit, tuple(sorted(air_of(mine).items())), days_down)
